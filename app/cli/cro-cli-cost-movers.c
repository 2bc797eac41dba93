/* What moves a cost: what is bought and credited, and the most that may be paid for it. */
#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-cli-grid.h"
#include "cro-cost-parts.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-sum.h"
#include "cro-words.h"

/* Ingredients shown of what moves a cost. */
#define MOST_INGREDIENTS 10

#define N_COLUMNS 7

typedef struct
{
  CroFigures   *figures;
  CroBreakdown *breakdown;
  GArray       *ceilings;
  guint64      *uncounted;  /* cro_known_list_uncounted () */
  const char   *holder;     /* whose target most ceilings keep; NULL: there are none */
  guint         n;          /* ingredients that have a row of their own */
  gint64       *minor;      /* of those, of by-products, of the others together: their sum is the cost */
} Movers;

static void
add_parts (GArray *parts,
           GArray *shares,
           guint   n)
{
  for (guint i = 0; i < MIN (n, shares->len); i++)
    {
      const CroShareOfCost *share = &g_array_index (shares, CroShareOfCost, i);

      g_array_append_vals (parts, &(CroCostPart){ share->item, share->cost }, 1);
    }
}

/* Of rows that add up to the rounded cost. */
static gint64 *
dup_minor (const Movers *self)
{
  const CroBreakdown *breakdown = self->breakdown;
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (CroCostPart));
  g_autoptr (GArray) shown = g_array_new (FALSE, FALSE, sizeof (CroCostPart));

  add_parts (all, breakdown->ingredients, G_MAXUINT);
  add_parts (all, breakdown->by_products, G_MAXUINT);
  add_parts (shown, breakdown->ingredients, self->n);
  add_parts (shown, breakdown->by_products, G_MAXUINT);
  return cro_cost_parts_dup_minor (all, (const CroCostPart *) (const void *) shown->data, shown->len,
                                   breakdown->figure.cost,
                                   cro_currency_digits (self->figures->model->currency));
}

/* How much of an item is taken, whether or not it has a price. */
static CroKnown
known_of_amount (const Movers *self,
                 guint32       item)
{
  guint32 node = cro_figures_node (self->figures, item);

  return self->uncounted[node / 64] >> node % 64 & 1 ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_WHOLE;
}

/* Of those that have no row of their own: a 0 among them may be a price that is missing. */
static CroKnown
known_of_others (const Movers *self)
{
  for (guint i = self->n; i < self->breakdown->ingredients->len; i++)
    if (cro_known_of_share_of (self->figures, self->uncounted,
                               g_array_index (self->breakdown->ingredients, CroShareOfCost, i).item)
        != CRO_KNOWN_WHOLE)
      return CRO_KNOWN_AT_LEAST;
  return CRO_KNOWN_WHOLE;
}

static char *
money_of (const Movers *self,
          CroKnown      known,
          guint         row)
{
  g_autofree char *money
      = cro_money_to_text (self->minor[row], cro_currency_digits (self->figures->model->currency));

  return cro_words_known_short (known, money);
}

/* Amount and price have as many digits as it takes that their product is the cost beside them. */
static char *
dup_number (GPtrArray *product,
            guint      at)
{
  return g_strdup (((const CroSumToken *) product->pdata[at])->text);
}

/* With whose target it keeps, where that is not the one that is named under the table. */
static char *
dup_ceiling (const Movers     *self,
             const CroCeiling *ceiling,
             const char       *holds)
{
  g_autofree char *text = g_strconcat (holds, !isnan (ceiling->next_offer) ? "*" : "", NULL);

  if (ceiling->holder == NULL || g_str_equal (ceiling->holder, self->holder))
    return g_steal_pointer (&text);
  /* Translators: a limit, and the plate or menu whose target it keeps. */
  return cro_isolate_printf (_("%s · %s"), text, ceiling->holder);
}

static void
add_ingredient (CroGrid      *grid,
                const Movers *self,
                guint         i)
{
  CroModel *model = self->figures->model;
  const CroShareOfCost *share = &g_array_index (self->breakdown->ingredients, CroShareOfCost, i);
  const CroCeiling *ceiling = &g_array_index (self->ceilings, CroCeiling, i);
  CroBase base = (CroBase) model->measures[share->item].base;
  g_autoptr (GPtrArray) product = cro_sum_of_share (self->figures, share);
  CroKnown of_price = cro_known_of_item (self->figures, share->item);
  CroKnown known = cro_known_of_share_of (self->figures, self->uncounted, share->item);
  CroKnown of_cost = cro_known_of_cost (&self->breakdown->figure);
  g_autofree char *holds = cro_words_take_short (
      ceiling->known, cro_words_ceiling (model, base, ceiling->unit_cost, share->unit_cost));
  char *cells[N_COLUMNS] = {
    g_strdup (cro_model_item (model, share->item)->name),
    cro_words_take_short (known_of_amount (self, share->item), dup_number (product, 2)),
    cro_words_take_short (of_price, dup_number (product, 4)),
    money_of (self, known, i),
    cro_words_known_pct_short (cro_known_of_share (known, share->cost, of_cost), 100 * share->elasticity, 1),
    dup_ceiling (self, ceiling, holds),
    cro_words_take_short (ceiling->known, cro_words_ceiling_pack (
                                          self->figures, share->item, ceiling->pack,
                                          ceiling->pack * share->unit_cost / ceiling->unit_cost)),
  };

  cro_grid_take_row (grid, 0, cells);
}

static void
add_others (CroGrid      *grid,
            const Movers *self)
{
  guint others = self->breakdown->ingredients->len - self->n;
  char *cells[N_COLUMNS] = { NULL };

  if (others == 0)
    return;
  cells[0] = g_strdup_printf (ngettext ("%u other", "%u others", others), others);
  cells[3] = money_of (self, known_of_others (self), self->n + self->breakdown->by_products->len);
  cro_grid_take_row (grid, 0, cells);
}

/* What is credited lowers the cost; what is taken at its assigned value raises it. */
static void
add_by_product (CroGrid      *grid,
                const Movers *self,
                guint         i)
{
  CroModel *model = self->figures->model;
  const CroShareOfCost *share = &g_array_index (self->breakdown->by_products, CroShareOfCost, i);
  g_autoptr (GPtrArray) product = cro_sum_of_share (self->figures, share);
  CroKnown known = cro_known_of_by_products (self->breakdown->missing);
  char *cells[N_COLUMNS] = {
    cro_isolate_printf (_("%s (assigned value)"), cro_model_item (model, share->item)->name),
    cro_words_take_short (known, dup_number (product, 2)),
    dup_number (product, 4),
    money_of (self, known, self->n + i),
    self->breakdown->figure.cost != 0
        ? cro_words_known_pct_short (cro_known_of_share (known, share->cost,
                                                         cro_known_of_cost (&self->breakdown->figure)),
                                     100 * share->cost / self->breakdown->figure.cost, 1)
        : NULL,
  };

  cro_grid_take_row (grid, 0, cells);
}

static guint
count_held (const Movers *self,
            const char   *holder)
{
  guint n = 0;

  for (guint i = 0; i < self->n; i++)
    n += g_strcmp0 (g_array_index (self->ceilings, CroCeiling, i).holder, holder) == 0;
  return n;
}

/* It is named once, so that the table stays narrow; the first of those that hold as many. */
static const char *
find_holder (const Movers *self)
{
  const char *found = NULL;
  guint most = 0;

  for (guint i = 0; i < self->n; i++)
    {
      const char *holder = g_array_index (self->ceilings, CroCeiling, i).holder;
      guint n = holder != NULL ? count_held (self, holder) : 0;

      if (n <= most)
        continue;
      most = n;
      found = holder;
    }
  return found;
}

static void
print_holder (const Movers *self)
{
  guint n_held = self->n - count_held (self, NULL);
  gboolean next = FALSE;

  for (guint i = 0; i < self->n; i++)
    next |= !isnan (g_array_index (self->ceilings, CroCeiling, i).next_offer);
  if (self->holder != NULL)
    {
      gboolean is_one = count_held (self, self->holder) == n_held;
      g_autofree char *text = cro_isolate_printf (
          is_one
              /* Translators: a plate, or a menu. */
              ? _("“ceiling”: the most that may be paid, all else equal, without going over the target "
                  "of %s; “per pack”: the same for the pack in use, in its supplier’s terms. Below 0: "
                  "over target even as a gift.")
              /* Translators: a plate, or a menu; some ceilings name another. */
              : _("“ceiling”: the most that may be paid, all else equal, without going over the target "
                  "of %s, or of the plate or menu named beside it; “per pack”: the same for the pack in "
                  "use, in its supplier’s terms. Below 0: over target even as a gift."),
          self->holder);

      cro_cli_print_wrapped (text, 0);
    }
  if (next)
    cro_cli_print_wrapped (_("* Before that, another supplier’s pack is the cheaper one."), 0);
}

void
cro_cli_print_movers (CroFigures   *figures,
                      CroRef        thing,
                      CroBreakdown *breakdown,
                      GArray       *ceilings)
{
  g_autofree guint64 *uncounted = cro_known_list_uncounted (figures, thing);
  Movers self = { figures, breakdown, ceilings, uncounted, NULL,
                  MIN (breakdown->ingredients->len, MOST_INGREDIENTS), NULL };
  g_autoptr (CroGrid) grid = cro_grid_new (N_COLUMNS);
  const char *titles[N_COLUMNS] = {
    _("What moves it"), _("per guest"), _("price"), _("cost"), _("share"), _("ceiling"), _("per pack"),
  };

  if (self.n + breakdown->by_products->len == 0)
    return;
  self.holder = find_holder (&self);
  self.minor = dup_minor (&self);
  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < self.n; i++)
    add_ingredient (grid, &self, i);
  add_others (grid, &self);
  for (guint i = 0; i < breakdown->by_products->len; i++)
    add_by_product (grid, &self, i);
  cro_grid_print (grid);
  print_holder (&self);
  if (breakdown->figure.is_incomplete)
    cro_cli_print_wrapped (_("≥ at least, ≤ at most, ? not known, or known in part: something is "
                             "missing."),
                           0);
  g_print ("\n");
  g_free (self.minor);
}
