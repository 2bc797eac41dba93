#include "config.h"

#include "cro-plan-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-menu-ways.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-words.h"

char *
cro_words_service (const CroServiceSheet *sheet)
{
  g_autofree char *day = NULL;

  if (sheet->name == NULL)
    return g_strdup (_("Service"));
  day = cro_date_to_text (sheet->day);
  /* Translators: a service ("dinner") and its date. */
  return cro_isolate_printf (_("%s, %s"), sheet->name, day);
}

char *
cro_words_covers (const CroServiceSheet *sheet)
{
  GArray *covers = sheet->service->covers;
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < covers->len; i++)
    {
      const CroCovers *one = &g_array_index (covers, CroCovers, i);
      g_autofree char *n = cro_words_decimal (one->covers);

      cro_isolate_append (text, cro_ref_name (sheet->plan->figures->model, one->thing));
      g_string_append_printf (text, " %s", n);
    }
  return g_string_free (text, FALSE);
}

/* What batches take by a line: an amount in the unit that reads best, as written where it cannot be
 * converted. */
static char *
batch_line (CroModel *model,
            guint32   line,
            double    batches)
{
  const CroLines *lines = &model->lines;
  const CroMeasure *measure = &model->measures[lines->item[line]];
  double written = cro_decimal_to_double (lines->amount[line]) * batches;
  CroUnit unit = (CroUnit) lines->unit[line];
  CroBase base = cro_unit_get (unit)->base;
  g_autofree char *number = NULL;

  /* Spoons and pieces are counted as the recipe counts them. */
  if (cro_line_lacks (lines, line, measure) == CRO_LACKS_NOTHING && base == (CroBase) measure->base
      && base != CRO_BASE_EACH)
    return cro_words_amount (base, written * cro_unit_factor (unit));
  number = cro_words_three_digits (written);
  return g_strdup_printf ("%s %s", number, cro_words_unit (unit));
}

/* --- To make ------------------------------------------------------------------------------------------ */

static void
add_lines (GString           *text,
           CroServicePlan    *plan,
           const CroPlanMake *make)
{
  CroModel *model = plan->figures->model;
  guint32 n;
  const guint32 *lines = cro_plan_make_lines (plan, make, &n);

  for (guint32 i = 0; i < n; i++)
    {
      g_autofree char *amount = cro_words_take_short (
          make->known, batch_line (model, lines[i], make->batches));
      const CroItem *item = cro_model_item (model, model->lines.item[lines[i]]);
      g_autofree char *name = cro_isolate (item->name);

      g_string_append_printf (text, "   %s %s\n", amount, name);
    }
}

static void
add_outputs (GString           *text,
             CroServicePlan    *plan,
             const CroPlanMake *make)
{
  CroModel *model = plan->figures->model;

  for (guint i = 0; i < make->n_outputs; i++)
    {
      const CroPlanOutput *output = &g_array_index (plan->outputs, CroPlanOutput,
                                                    make->first_output + i);
      CroBase base = (CroBase) model->measures[output->item].base;
      g_autofree char *name = cro_isolate (cro_model_item (model, output->item)->name);
      g_autofree char *made = NULL, *left = NULL;

      if (isnan (output->made))
        continue;
      made = cro_words_take_short (make->known, cro_words_amount (base, output->made));
      left = cro_words_take_short (output->known_left, cro_words_amount (base, output->left));
      g_string_append (text, "   = ");
      if (output->left > 0 && output->known == CRO_KNOWN_WHOLE)
        /* Translators: an amount, what a preparation gives, how much of it is left over. */
        g_string_append_printf (text, _("%s %s, left %s"), made, name, left);
      else
        g_string_append_printf (text, "%s %s", made, name);
      g_string_append_c (text, '\n');
    }
}

static void
add_make (GString           *text,
          CroServicePlan    *plan,
          const CroPlanMake *make,
          guint              number)
{
  CroModel *model = plan->figures->model;
  const CroRecipe *recipe = cro_model_recipe (model, make->recipe);
  g_autofree char *batches = cro_words_take_short (make->known,
                                                   cro_words_three_digits (make->batches));
  g_autofree char *minutes = cro_words_take_short (make->known, cro_number_to_text (make->minutes, 0, TRUE));
  g_autofree char *name = cro_isolate (recipe->name);

  if (recipe->active_minutes > 0)
    /* Translators: a number in the list, a preparation, batches of it, minutes. */
    g_string_append_printf (text, _("%u. %s: batches %s, minutes %s\n"), number, name, batches,
                            minutes);
  else
    /* Translators: a number in the list, a preparation, batches of it. */
    g_string_append_printf (text, _("%u. %s: batches %s\n"), number, name, batches);
  if (make->known == CRO_KNOWN_NOTHING)
    return;
  add_lines (text, plan, make);
  add_outputs (text, plan, make);
}

/* The least and the most of a plate, as it is entered. */
static void
span (CroModel *model,
      guint32   plate,
      gint64   *least,
      gint64   *most)
{
  gint64 allowance = MAX (cro_model_recipe (model, plate)->allowance, 0);

  *least = MIN (*least, allowance);
  *most = MAX (*most, allowance);
}

/* "2.25 %": all of its digits. */
static char *
dup_entered_pct (gint64 micro)
{
  int digits = 0;

  for (gint64 rest = micro % CRO_MICRO; rest != 0; rest = rest * 10 % CRO_MICRO)
    digits++;
  return cro_words_pct_of (cro_decimal_to_double (micro), digits);
}

/* A kitchen card is of the recipe as it is written: whoever has both in hand sees why they differ. */
char *
cro_words_plan_allowance (CroModel         *model,
                          const CroService *service)
{
  gint64 least = G_MAXINT64, most = 0;
  g_autofree char *from = NULL, *to = NULL;

  for (guint i = 0; i < service->covers->len; i++)
    {
      CroRef thing = g_array_index (service->covers, CroCovers, i).thing;
      g_autoptr (CroMenuWays) ways
          = thing.kind == CRO_REF_MENU ? cro_menu_ways_new (model, thing.slot) : NULL;

      if (ways == NULL)
        span (model, thing.slot, &least, &most);
      for (guint k = 0; ways != NULL && k < ways->plates->len; k++)
        span (model, ((const CroMenuPlate *) ways->plates->pdata[k])->plate, &least, &most);
    }
  if (most <= 0)
    return NULL;
  /* As they are entered; the lower one without the sign of per cent. */
  from = cro_words_decimal (least);
  to = dup_entered_pct (most);
  if (least == most)
    /* Translators: of amounts of a service; a percentage. */
    return g_strdup_printf (_("With seasoning and handling, %s; kitchen cards are without."), to);
  /* Translators: of amounts of a service; a number and a percentage, by plate. */
  return g_strdup_printf (_("With seasoning and handling, %s to %s by plate; kitchen cards are without."), from, to);
}

char *
cro_words_make_sheet (const CroServiceSheet *sheet)
{
  CroServicePlan *plan = sheet->plan;
  GString *text = g_string_new (NULL);
  g_autofree char *service = cro_words_service (sheet);
  g_autofree char *covers = cro_words_covers (sheet);
  g_autofree char *allowance = cro_words_plan_allowance (plan->figures->model, sheet->service);

  /* Translators: the heading of a list; a service and its date. */
  g_string_append_printf (text, _("Mise en place: %s\n"), service);
  g_string_append_printf (text, "%s\n", covers);
  if (allowance != NULL)
    g_string_append_printf (text, "%s\n", allowance);
  g_string_append_c (text, '\n');
  for (guint i = 0; i < plan->make->len; i++)
    add_make (text, plan, &g_array_index (plan->make, CroPlanMake, i), i + 1);
  return g_string_free (text, FALSE);
}

/* --- To order ----------------------------------------------------------------------------------------- */

char *
cro_words_order_pack (CroModel         *model,
                      const CroPlanBuy *buy)
{
  if (buy->offer != CRO_NO_SLOT)
    {
      CroPack size = cro_pack_of_offer (model, buy->offer);
      const char *code = cro_model_offer (model, buy->offer)->code;
      g_autofree char *pack = cro_pack_to_text (&size);

      if (code == NULL || *code == '\0')
        return g_steal_pointer (&pack);
      /* Translators: a pack ("6 × 1 kg"), and the supplier’s code of it. */
      return g_strdup_printf (_("%s, code %s"), pack, code);
    }
  if (buy->since != CRO_NO_DAY)
    {
      g_autofree char *since = cro_date_to_text (buy->since);

      /* Translators: a date. */
      return g_strdup_printf (_("not to be had since %s"), since);
    }
  return NULL;
}

char *
cro_words_order_minimum (CroModel           *model,
                         const CroPlanOrder *order)
{
  double left = cro_plan_order_short (order);
  g_autofree char *minimum = NULL, *missing = NULL;

  if (!(order->minimum > 0))
    return NULL;
  minimum = cro_words_price (model, order->minimum);
  missing = cro_words_money (model, left);
  return left > 0
             /* Translators: both %s are money. */
             ? g_strdup_printf (_("minimum order %s: %s short"), minimum, missing)
             : g_strdup_printf (_("minimum order %s"), minimum);
}

char *
cro_words_order_free (const CroPlanOrder *order)
{
  /* Translators: over packs of a supplier that cost nothing, such as water from the tap. */
  return cro_plan_order_is_free (order) ? g_strdup (_("No order: these packs cost nothing")) : NULL;
}

char *
cro_words_order_charge (CroModel           *model,
                        const CroPlanOrder *order)
{
  g_autofree char *charge = NULL;

  if (!(order->charge > 0))
    return NULL;
  charge = cro_words_price (model, order->charge);
  /* Translators: %s is money. */
  return g_strdup_printf (_("delivery charge %s, not in the total"), charge);
}

/* "2 × Brown crab, 1 × 5 kg, code 101". */
static char *
order_row (CroModel         *model,
           const CroPlanBuy *buy)
{
  CroPack size = cro_pack_of_offer (model, buy->offer);
  const char *code = cro_model_offer (model, buy->offer)->code;
  const char *name = cro_model_item (model, buy->item)->name;
  g_autofree char *pack = cro_pack_to_text (&size);
  g_autofree char *number = cro_number_to_text (buy->packs, 0, TRUE);
  g_autofree char *packs = cro_words_known (buy->known, number);

  if (code != NULL && *code != '\0')
    /* Translators: a number of packs, an ingredient, its pack ("6 × 1 kg"), the supplier’s code. */
    return cro_isolate_printf (_("%s × %s, %s, code %s"), packs, name, pack, code);
  /* Translators: a number of packs, an ingredient, its pack. */
  return cro_isolate_printf (_("%s × %s, %s"), packs, name, pack);
}

char *
cro_words_order_sheet (const CroServiceSheet *sheet,
                       const CroPlanOrder    *order)
{
  CroServicePlan *plan = sheet->plan;
  CroModel *model = plan->figures->model;
  GString *text = g_string_new (NULL);
  g_autofree char *service = cro_words_service (sheet);

  g_string_append_printf (text, "%s\n",
                          g_array_index (model->suppliers, CroSupplier, order->supplier).name);
  if (sheet->name != NULL)
    /* Translators: the heading of an order to a supplier; a service and its date. */
    g_string_append_printf (text, _("Order for: %s\n"), service);
  for (guint i = 0; i < order->n_buys; i++)
    {
      g_autofree char *row = order_row (
          model, &g_array_index (plan->buy, CroPlanBuy, order->first_buy + i));

      g_string_append_printf (text, "%s\n", row);
    }
  return g_string_free (text, FALSE);
}

/* "No pack to order: Sea purslane, 18.5 g", a line each. */
static void
add_without_pack (GString        *text,
                  CroServicePlan *plan)
{
  CroModel *model = plan->figures->model;

  for (guint i = 0; i < plan->buy->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, i);
      g_autofree char *needed = NULL, *says = NULL;

      if (buy->offer != CRO_NO_SLOT)
        continue;
      needed = cro_words_take_short (buy->known, cro_words_amount ((CroBase) model->measures[buy->item].base,
                                                                   buy->needed));
      /* Translators: an ingredient, and how much of it is needed. */
      says = cro_isolate_printf (_("No pack to order: %s, %s\n"), cro_model_item (model, buy->item)->name, needed);
      g_string_append (text, says);
    }
}

static void
add_free (GString            *text,
          CroServicePlan     *plan,
          const CroPlanOrder *order)
{
  CroModel *model = plan->figures->model;

  for (guint i = 0; i < order->n_buys; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, order->first_buy + i);
      const char *supplier = g_array_index (model->suppliers, CroSupplier, order->supplier).name;
      g_autofree char *row = order_row (model, buy);
      /* Translators: a supplier, and packs of it that cost nothing, such as water from the tap. */
      g_autofree char *says = cro_isolate_printf (_("No order, costs nothing (%s): %s\n"), supplier, row);

      g_string_append (text, says);
    }
}

GPtrArray *
cro_words_order_sheets (const CroServiceSheet *sheet)
{
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GString) others = g_string_new (NULL);
  GArray *orders = sheet->plan->orders;

  add_without_pack (others, sheet->plan);
  for (guint i = 0; i < orders->len; i++)
    {
      const CroPlanOrder *order = &g_array_index (orders, CroPlanOrder, i);

      if (cro_plan_order_is_free (order))
        add_free (others, sheet->plan, order);
      else
        g_ptr_array_add (texts, cro_words_order_sheet (sheet, order));
    }
  if (others->len > 0)
    g_ptr_array_add (texts, g_string_free (g_steal_pointer (&others), FALSE));
  return texts;
}
