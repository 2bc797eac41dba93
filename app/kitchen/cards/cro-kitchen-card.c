#include "config.h"

#include "cro-kitchen-card.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-card-sheet.h"
#include "cro-card-words.h"
#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-plan-words.h"
#include "cro-service-plan.h"
#include "cro-source-words.h"
#include "cro-words.h"

/* Readable at arm's length. */
#define FONT 14
#define SPACE 8

/* Of the cost, what is ordered first makes up. */
#define MOST_OF_COST 0.8

/* What counts differ by that are one, as doubles end. */
#define DUST 1e-6

typedef struct
{
  CroBook        *book;
  CroFigures     *figures;
  CroModel       *model;
  CroRef          thing;
  double          n;           /* bites, guests or batches */
  gboolean        with_money;
  CroBreakdown   *breakdown;
  CroServicePlan *plan;
  CroPaper       *paper;
} Card;

/* --- Head --------------------------------------------------------------------------------------- */

static char *
dup_for (const Card *self)
{
  g_autofree char *n = cro_number_to_text (self->n, 6, TRUE);

  if (self->thing.kind == CRO_REF_MENU)
    /* Translators: on a kitchen card, under its title: guests. */
    return g_strdup_printf (_("Guests: %s"), n);
  if (!cro_model_recipe (self->model, self->thing.slot)->is_plate)
    /* Translators: on a kitchen card, under its title: batches of a preparation. */
    return g_strdup_printf (_("Batches: %s"), n);
  /* Translators: on a kitchen card, under its title: bites of a plate. */
  return g_strdup_printf (_("Bites: %s"), n);
}

static void
add_note (const Card *self,
          const char *table,
          gint64      id)
{
  g_autofree char *note = cro_card_dup_note (self->book, table, id);

  if (note != NULL)
    cro_paper_add_text (self->paper, CRO_PAPER_SMALL, 0, note);
}

static void
add_head (const Card *self,
          gboolean    rtl)
{
  g_autofree char *made_for = dup_for (self);
  g_autofree char *date = cro_book_is_past (self->book, NULL) ? cro_words_card_prices (self->book)
                                                              : cro_date_to_text (self->figures->date);
  gint64 id;
  const char *table = cro_card_table (self->model, self->thing, &id);

  cro_paper_add_text (self->paper, CRO_PAPER_LARGE | CRO_PAPER_BOLD, 0, self->breakdown->figure.name);
  cro_card_add_pair (self->paper, CRO_PAPER_BOLD, made_for, date);
  cro_card_begin_beside (self->paper, self->book, self->thing, rtl);
  if (self->with_money)
    {
      g_autofree char *cost = cro_card_dup_cost (self->figures, self->thing, &self->breakdown->figure);
      gboolean is_batch = g_str_equal (table, "preparation");
      /* Translators: money. */
      g_autofree char *text = g_strdup_printf (is_batch ? _("Food cost per batch: %s")
                                                        : _("Food cost per guest: %s"),
                                               cost);

      cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, text);
    }
  if (!g_str_equal (table, "preparation"))
    {
      g_autofree char *without = cro_words_without_allowance (self->model, self->thing);

      if (without != NULL)
        cro_paper_add_text (self->paper, CRO_PAPER_SMALL, 0, without);
      add_note (self, table, id);
    }
}

/* --- To the bite -------------------------------------------------------------------------------- */

/* The amount that stands last goes to no new line by itself. */
static char *
dup_glued (const char *name,
           const char *amount)
{
  g_autofree char *glued = cro_words_together (amount);

  return cro_isolate_printf ("%s\302\240%s", name, glued);
}

static char *
dup_for_one (const Card *self,
             guint32     plate,
             guint32     line)
{
  const char *name = cro_model_item (self->model, self->model->lines.item[line])->name;
  double makes = cro_decimal_to_double (cro_model_recipe (self->model, plate)->makes);
  g_autofree char *amount = cro_words_weighed_bite (self->model, line, makes);

  return dup_glued (name, amount);
}

static void
add_bite (const Card *self,
          guint32     plate,
          const char *title)
{
  const CroGraph *graph = &self->figures->graph;
  guint32 row = cro_figures_row (self->figures, plate);
  g_autoptr (GString) list = g_string_new (NULL);

  cro_paper_begin_block (self->paper);
  cro_paper_add_space (self->paper, SPACE);
  cro_paper_add_text (self->paper, CRO_PAPER_BOLD, 0, title);
  for (guint32 i = graph->first[row]; i < graph->first[row + 1]; i++)
    {
      g_autofree char *one = dup_for_one (self, plate, graph->line_slot[i]);

      g_string_append_printf (list, "%s%s", list->len > 0 ? " · " : "", one);
    }
  if (list->len > 0)
    cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, list->str);
}

static void
add_bites_of_menu (const Card *self)
{
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (self->model, self->thing.slot);

  for (guint i = 0; i < ways->plates->len; i++)
    {
      guint32 plate = ((const CroMenuPlate *) ways->plates->pdata[i])->plate;
      const CroRecipe *recipe = cro_model_recipe (self->model, plate);
      double bites = self->n * ways->taken[i] * cro_decimal_to_double (recipe->per_guest);
      g_autofree char *n = cro_number_to_text (bites, 1, TRUE);
      /* Translators: a plate, and how many bites of it a menu takes; a list of what is in a bite
       * follows. */
      g_autofree char *title = cro_isolate_printf (ngettext ("%s, %s bite; per bite:", "%s, %s bites; per bite:",
                                                             bites == 1 ? 1 : 2),
                                                   recipe->name, n);

      add_bite (self, plate, title);
    }
}

/* --- Preparations ------------------------------------------------------------------------------- */

static guint
add_grid (const Card *self)
{
  static const CroPaperColumn columns[] = { { .share = 1 }, { .is_number = TRUE } };

  return cro_paper_add_grid (self->paper, columns, G_N_ELEMENTS (columns));
}

static void
add_line (const Card        *self,
          guint              grid,
          const CroPlanMake *make,
          guint32            line)
{
  const char *name = cro_model_item (self->model, self->model->lines.item[line])->name;
  g_autofree char *amount = cro_words_take_short (
      make->known, cro_words_weighed_line (self->model, line, make->batches));
  g_autofree char *note = cro_card_dup_note (self->book, "recipe_line", self->model->line_ids[line]);
  const char *cells[] = { name, amount };

  cro_paper_add_row (self->paper, grid, CRO_PAPER_PLAIN, 0, cells);
  if (note != NULL)
    cro_paper_add_text (self->paper, CRO_PAPER_SMALL, FONT, note);
}

/* What comes out, by the name that the next box takes it by; what is called as its preparation stands in the
 * heading. */
static void
add_outputs (const Card        *self,
             guint              grid,
             const CroPlanMake *make)
{
  const char *heading = cro_model_recipe (self->model, make->recipe)->name;

  for (guint i = 0; i < make->n_outputs; i++)
    {
      const CroPlanOutput *output = &g_array_index (self->plan->outputs, CroPlanOutput,
                                                    make->first_output + i);
      CroBase base = (CroBase) self->model->measures[output->item].base;
      const char *called = cro_model_item (self->model, output->item)->name;
      g_autofree char *name = NULL, *amount = NULL;
      const char *cells[2];

      if (isnan (output->made) || (i == 0 && strcmp (called, heading) == 0))
        continue;
      /* Translators: what a preparation is made for, where it has a name of its own; a by-product of it. */
      name = cro_isolate_printf (i == 0 ? _("gives %s") : _("also gives %s"), called);
      amount = cro_words_take_short (make->known, cro_words_weighed (base, output->made));
      cells[0] = name;
      cells[1] = amount;
      cro_paper_add_row (self->paper, grid, CRO_PAPER_SMALL, 0, cells);
    }
}

/* What the batches give, and what that costs where money is asked for. */
static char *
dup_made (const Card        *self,
          const CroPlanMake *make)
{
  const CroPlanOutput *output = &g_array_index (self->plan->outputs, CroPlanOutput, make->first_output);
  double unit_cost = cro_figures_unit_cost (self->figures, output->item);
  g_autofree char *amount = NULL, *cost = NULL;

  amount = isnan (output->made)
               ? g_strdup (_("?"))
               : cro_words_take_short (make->known,
                                       cro_words_weighed (
                                           (CroBase) self->model->measures[output->item].base,
                                           output->made));
  if (!self->with_money || isnan (output->made))
    return g_steal_pointer (&amount);
  cost = cro_words_known_money (
      self->model,
      isnan (unit_cost) ? CRO_KNOWN_NOTHING
                        : cro_known_of_sum (make->known, cro_known_of_item (self->figures, output->item)),
      output->made * unit_cost);
  return g_strdup_printf ("%s · %s", amount, cost);
}

static void
add_make (const Card        *self,
          guint              grid,
          const CroPlanMake *make)
{
  const CroRecipe *recipe = cro_model_recipe (self->model, make->recipe);
  guint32 n;
  const guint32 *lines = cro_plan_make_lines (self->plan, make, &n);
  g_autofree char *made = make->n_outputs > 0 ? dup_made (self, make) : g_strdup (_("?"));
  const char *cells[] = { recipe->name, made };

  cro_paper_begin_block (self->paper);
  cro_paper_add_space (self->paper, SPACE);
  cro_paper_add_row (self->paper, grid, CRO_PAPER_BOLD | CRO_PAPER_RULED, 0, cells);
  if (make->known != CRO_KNOWN_NOTHING)
    for (guint32 i = 0; i < n; i++)
      add_line (self, grid, make, lines[i]);
  add_outputs (self, grid, make);
  add_note (self, "preparation", recipe->id);
}

/* In the order of making: nothing before what goes into it. */
static void
add_makes (const Card *self)
{
  guint grid = add_grid (self);

  cro_paper_set_narrow (self->paper, TRUE);
  for (guint i = 0; i < self->plan->make->len; i++)
    add_make (self, grid, &g_array_index (self->plan->make, CroPlanMake, i));
  cro_paper_set_narrow (self->paper, FALSE);
}

/* --- To order ----------------------------------------------------------------------------------- */

static double
cost_of (const Card       *self,
         const CroPlanBuy *buy)
{
  double unit_cost = cro_figures_unit_cost (self->figures, buy->item);

  return isnan (unit_cost) ? 0 : unit_cost * buy->needed;
}

static int
compare_costs (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  double x = cost_of (user_data, *(const CroPlanBuy *const *) a);
  double y = cost_of (user_data, *(const CroPlanBuy *const *) b);

  return x != y ? (x > y ? -1 : 1) : 0;
}

static char *
dup_order (const Card       *self,
           const CroPlanBuy *buy)
{
  CroBase base = (CroBase) self->model->measures[buy->item].base;
  const char *name = cro_model_item (self->model, buy->item)->name;
  /* Nobody sells a part of a piece. */
  double needed = base == CRO_BASE_EACH ? ceil (buy->needed - DUST) : buy->needed;
  g_autofree char *amount = cro_words_take_short (buy->known, cro_words_weighed (base, needed));
  g_autofree char *glued = dup_glued (name, amount);
  g_autofree char *none = NULL;

  if (buy->offer != CRO_NO_SLOT)
    return g_strdup_printf ("☐\302\240%s", glued);
  none = cro_words_order_pack (self->model, buy);
  return g_strdup_printf ("☐\302\240%s (%s)", glued,
                          none != NULL ? none : cro_words_offer_lacks (self->figures->offer_lacks[buy->item]));
}

static void
add_orders (const Card *self)
{
  g_autoptr (GPtrArray) buys = g_ptr_array_new ();
  g_autoptr (GString) list = g_string_new (NULL);
  g_autofree char *text = NULL;
  double total = 0, told = 0;

  for (guint i = 0; i < self->plan->buy->len; i++)
    {
      CroPlanBuy *buy = &g_array_index (self->plan->buy, CroPlanBuy, i);

      total += cost_of (self, buy);
      g_ptr_array_add (buys, buy);
    }
  g_ptr_array_sort_with_data (buys, compare_costs, (gpointer) self);
  for (guint i = 0; i < buys->len; i++)
    {
      const CroPlanBuy *buy = buys->pdata[i];
      g_autofree char *one = NULL;

      if (told >= MOST_OF_COST * total && buy->offer != CRO_NO_SLOT)
        continue;
      told += cost_of (self, buy);
      one = dup_order (self, buy);
      g_string_append_printf (list, "%s%s", list->len > 0 ? "   " : "", one);
    }
  if (list->len == 0)
    return;
  cro_paper_begin_block (self->paper);
  cro_paper_add_space (self->paper, SPACE);
  /* Translators: over a list of ingredients with the amounts in which they are bought, untrimmed. */
  cro_paper_add_text (self->paper, CRO_PAPER_BOLD, 0, _("Order first, as bought"));
  cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, list->str);
}

/* --- Cautions ----------------------------------------------------------------------------------- */

static void
add_cautions (const Card *self)
{
  g_autoptr (GPtrArray) texts = cro_words_allergens_below (self->breakdown);

  cro_paper_begin_block (self->paper);
  cro_paper_add_space (self->paper, SPACE);
  cro_card_add_texts (self->paper, CRO_PAPER_BOLD, texts);
  cro_paper_begin_block (self->paper);
  cro_paper_add_text (self->paper, CRO_PAPER_SMALL, 0, cro_words_caution ());
}

static void
write_card (const Card *self,
            gboolean    rtl)
{
  cro_card_add_trial (self->paper, self->book);
  add_head (self, rtl);
  if (self->thing.kind == CRO_REF_MENU)
    add_bites_of_menu (self);
  else if (cro_model_recipe (self->model, self->thing.slot)->is_plate)
    add_bite (self, self->thing.slot, _("To the bite"));
  cro_paper_end_beside (self->paper);
  add_makes (self);
  add_orders (self);
  add_cautions (self);
  cro_card_set_foot (self->paper, self->book);
}

CroPaper *
cro_kitchen_card_new (CroBook   *book,
                      CroRef     thing,
                      gint64     bites,
                      gboolean   with_money,
                      gboolean   rtl,
                      GError   **error)
{
  CroFigures *figures = cro_book_get_figures (book);
  g_autoptr (CroBreakdown) breakdown = cro_card_breakdown (figures, thing);
  g_autoptr (CroServicePlan) plan = NULL;
  Card self = { .book = book, .figures = figures, .model = figures->model, .thing = thing, .n = 1,
                .with_money = with_money, .breakdown = breakdown };

  if (bites > 0)
    self.n = cro_decimal_to_double (bites);
  else if (thing.kind == CRO_REF_RECIPE && cro_model_recipe (self.model, thing.slot)->is_plate)
    self.n = cro_decimal_to_double (cro_model_recipe (self.model, thing.slot)->makes);
  plan = cro_service_plan_of_recipe (book, thing, self.n, error);
  if (plan == NULL || !plan->is_finite)
    return NULL;
  self.plan = plan;
  self.paper = cro_paper_new (breakdown->figure.name, FONT, rtl);
  write_card (&self, rtl);
  return self.paper;
}
