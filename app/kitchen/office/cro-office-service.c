#include "config.h"

#include "cro-office-service.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-office-mark.h"
#include "cro-pack.h"
#include "cro-service-orders.h"
#include "cro-sheets-file.h"
#include "cro-tongue.h"
#include "cro-words.h"

static void
add_mark (CroSheetsFile *file,
          char           column,
          CroKnown       known)
{
  if (cro_office_mark (known) != NULL)
    cro_sheets_file_text (file, column, CRO_CELL_LOOK_PLAIN, cro_office_mark (known));
}

/* Three digits say enough of what is weighed. */
static void
add_number (CroSheetsFile *file,
            char           column,
            double         value)
{
  double size = fabs (value);
  double part = size >= 100 ? 1 : size >= 10 ? 10 : size >= 1 ? 100 : 1000;

  cro_sheets_file_number (file, column, CRO_CELL_LOOK_NUMBER, round (value * part) / part);
}

/* An amount and its unit in two columns, in the unit that reads best. */
static void
add_amount (CroSheetsFile *file,
            char           column,
            CroBase        base,
            double         amount)
{
  gboolean is_large = cro_words_is_large (base, amount);
  CroUnit unit = !is_large ? cro_base_unit (base) : base == CRO_BASE_GRAM ? CRO_UNIT_KG : CRO_UNIT_L;

  add_number (file, column, is_large ? amount / 1000 : amount);
  cro_sheets_file_text (file, (char) (column + 1), CRO_CELL_LOOK_PLAIN, cro_words_unit (unit));
}

static void
add_heads (CroSheetsFile     *file,
           const char *const *heads)
{
  for (char column = 'A'; *heads != NULL; heads++, column++)
    cro_sheets_file_text (file, column, CRO_CELL_LOOK_HEAD, *heads);
  cro_sheets_file_mark_head (file);
  cro_sheets_file_next_row (file);
}

static void
add_top (CroSheetsFile *file,
         const char    *name,
         const char    *title,
         const char    *note)
{
  cro_sheets_file_add_sheet (file, name);
  cro_sheets_file_text (file, 'A', CRO_CELL_LOOK_TITLE, title);
  cro_sheets_file_next_row (file);
  cro_sheets_file_text (file, 'A', CRO_CELL_LOOK_NOTE, note);
  cro_sheets_file_next_row (file);
  cro_sheets_file_next_row (file);
}

/* --- Mise en place: A box, B what, C needed, D batches, E F amount, G minutes, H I left, J mark ------ */

static void
add_lines (CroSheetsFile     *file,
           CroServicePlan    *plan,
           const CroPlanMake *make)
{
  CroModel *model = plan->figures->model;
  guint32 n;
  const guint32 *lines = cro_plan_make_lines (plan, make, &n);

  for (guint32 i = 0; i < n; i++)
    {
      guint32 line = lines[i];
      CroUnit unit = (CroUnit) model->lines.unit[line];
      CroBase base = cro_unit_get (unit)->base;
      double written = cro_decimal_to_double (model->lines.amount[line]) * make->batches;

      cro_sheets_file_text (file, 'B', CRO_CELL_LOOK_INDENT,
                            cro_model_item (model, model->lines.item[line])->name);
      if (base == CRO_BASE_EACH)
        {
          add_number (file, 'E', written);
          cro_sheets_file_text (file, 'F', CRO_CELL_LOOK_PLAIN, cro_words_unit (unit));
        }
      else
        add_amount (file, 'E', base, written * cro_unit_factor (unit));
      add_mark (file, 'J', make->known);
      cro_sheets_file_next_row (file);
    }
}

static void
add_outputs (CroSheetsFile     *file,
             CroServicePlan    *plan,
             const CroPlanMake *make)
{
  CroModel *model = plan->figures->model;

  for (guint i = 0; i < make->n_outputs; i++)
    {
      const CroPlanOutput *output = &g_array_index (plan->outputs, CroPlanOutput,
                                                    make->first_output + i);
      CroBase base = (CroBase) model->measures[output->item].base;
      g_autofree char *name = g_strdup_printf ("= %s", cro_model_item (model, output->item)->name);

      if (isnan (output->made))
        continue;
      cro_sheets_file_text (file, 'B', CRO_CELL_LOOK_INDENT, name);
      add_amount (file, 'E', base, output->made);
      if (output->left > 0)
        add_amount (file, 'H', base, output->left);
      add_mark (file, 'J', output->known == CRO_KNOWN_WHOLE ? make->known : output->known);
      cro_sheets_file_next_row (file);
    }
}

static void
write_make (CroSheetsFile         *file,
            const CroServiceSheet *sheet,
            const char            *service)
{
  CroServicePlan *plan = sheet->plan;
  CroModel *model = plan->figures->model;
  const char *heads[] = { "", _("Make, in this order"), _("needed"), _("batches"), _("amount"), "",
                          _("minutes"), _("left"), "", "", NULL };
  g_autofree char *covers = cro_words_covers (sheet);
  g_autofree char *allowance = cro_words_plan_allowance (model, sheet->service);
  g_autofree char *note = allowance != NULL ? g_strdup_printf ("%s · %s", covers, allowance) : g_strdup (covers);
  /* Translators: %s is a service and its date. */
  g_autofree char *title = g_strdup_printf (_("Mise en place: %s"), service);

  add_top (file, _("Mise en place"), title, note);
  add_heads (file, heads);
  for (guint i = 0; i < plan->make->len; i++)
    {
      const CroPlanMake *make = &g_array_index (plan->make, CroPlanMake, i);
      const CroRecipe *recipe = cro_model_recipe (model, make->recipe);

      cro_sheets_file_text (file, 'A', CRO_CELL_LOOK_BOX, "");
      cro_sheets_file_text (file, 'B', CRO_CELL_LOOK_BOLD, recipe->name);
      if (make->known != CRO_KNOWN_NOTHING)
        {
          add_number (file, 'C', make->runs);
          add_number (file, 'D', make->batches);
          if (recipe->active_minutes > 0)
            cro_sheets_file_number (file, 'G', CRO_CELL_LOOK_COUNT, make->minutes);
        }
      add_mark (file, 'J', make->known);
      cro_sheets_file_next_row (file);
      if (make->known == CRO_KNOWN_NOTHING)
        continue;
      add_lines (file, plan, make);
      add_outputs (file, plan, make);
    }
}

/* --- Orders: A box, B packs, C ingredient, D pack, E code, F cost, G H needed, I mark ----------------- */

/* Rounded as the rows above are. */
static void
add_money_row (CroSheetsFile *file,
               const char    *label,
               double         amount,
               int            digits)
{
  cro_sheets_file_text (file, 'C', CRO_CELL_LOOK_PLAIN, label);
  cro_sheets_file_number (file, 'F', CRO_CELL_LOOK_MONEY, (double) cro_money_round (amount, digits) / pow (10, digits));
  cro_sheets_file_next_row (file);
}

static void
add_terms (CroSheetsFile      *file,
           const CroPlanOrder *order,
           int                 digits)
{
  if (order->minimum > 0)
    add_money_row (file, _("Minimum order"), cro_decimal_to_double (order->minimum), digits);
  if (cro_plan_order_short (order) > 0)
    add_money_row (file, _("Short of the minimum order"), cro_plan_order_short (order), digits);
  if (order->charge > 0)
    add_money_row (file, _("Delivery charge, not in the total"), cro_decimal_to_double (order->charge), digits);
}

static void
add_buy (CroSheetsFile    *file,
         CroModel         *model,
         const CroPlanBuy *buy,
         double            cost)
{
  const CroOfferEntry *offer = cro_model_offer (model, buy->offer);
  CroPack size = cro_pack_of_offer (model, buy->offer);
  g_autofree char *pack = cro_pack_to_text (&size);

  cro_sheets_file_text (file, 'A', CRO_CELL_LOOK_BOX, "");
  if (buy->known != CRO_KNOWN_NOTHING)
    cro_sheets_file_number (file, 'B', CRO_CELL_LOOK_COUNT, buy->packs);
  cro_sheets_file_text (file, 'C', CRO_CELL_LOOK_PLAIN, cro_model_item (model, buy->item)->name);
  cro_sheets_file_text (file, 'D', CRO_CELL_LOOK_PLAIN, pack);
  cro_sheets_file_text (file, 'E', CRO_CELL_LOOK_PLAIN, offer->code != NULL ? offer->code : "");
  if (buy->known != CRO_KNOWN_NOTHING)
    {
      cro_sheets_file_number (file, 'F', CRO_CELL_LOOK_MONEY, cost);
      add_amount (file, 'G', (CroBase) model->measures[buy->item].base, buy->needed);
    }
  add_mark (file, 'I', buy->known);
  cro_sheets_file_next_row (file);
}

static void
write_order (CroSheetsFile      *file,
             CroServicePlan     *plan,
             const CroPlanOrder *order,
             gint64              total,
             const gint64       *rows,
             const char         *service)
{
  CroModel *model = plan->figures->model;
  const char *supplier = g_array_index (model->suppliers, CroSupplier, order->supplier).name;
  const char *heads[] = { "", _("packs"), _("ingredient"), _("pack"), _("code"), _("cost"),
                          _("needed"), "", "", NULL };
  /* Translators: the heading of an order to a supplier; a service and its date. */
  g_autofree char *note = cro_plan_order_is_free (order) ? cro_words_order_free (order)
                                                        : g_strdup_printf (_("Order for: %s"), service);
  int digits = cro_currency_digits (model->currency);
  double minor = pow (10, digits);

  add_top (file, supplier, supplier, note);
  add_heads (file, heads);
  for (guint i = order->first_buy; i < order->first_buy + order->n_buys; i++)
    add_buy (file, model, &g_array_index (plan->buy, CroPlanBuy, i), (double) rows[i] / minor);
  cro_sheets_file_text (file, 'C', CRO_CELL_LOOK_BOLD, _("Total"));
  cro_sheets_file_number (file, 'F', CRO_CELL_LOOK_TOTAL, (double) total / minor);
  add_mark (file, 'I', order->known);
  cro_sheets_file_next_row (file);
  add_terms (file, order, digits);
}

/* Rows as they are shown add up to the totals as they are shown. */
static void
write_orders (CroSheetsFile  *file,
              CroServicePlan *plan,
              const char     *service)
{
  g_autofree gint64 *totals = g_new (gint64, plan->orders->len + 1);
  g_autofree gint64 *rows = g_new (gint64, plan->buy->len + 1);

  cro_plan_apportion (plan, cro_currency_digits (plan->figures->model->currency), totals, rows);
  for (guint i = 0; i < plan->orders->len; i++)
    write_order (file, plan, &g_array_index (plan->orders, CroPlanOrder, i), totals[i], rows,
                 service);
}

/* --- What is missing --------------------------------------------------------------------------------- */

static void
write_missing (CroSheetsFile  *file,
               CroServicePlan *plan,
               const char     *service)
{
  CroModel *model = plan->figures->model;

  add_top (file, _("Missing"), _("Missing"), service);
  for (guint i = 0; i < plan->missing->len; i++)
    {
      g_autofree char *cause = cro_words_cause (&g_array_index (plan->missing, CroCause, i));

      cro_sheets_file_text (file, 'A', CRO_CELL_LOOK_PLAIN, cause);
      cro_sheets_file_next_row (file);
    }
  for (guint i = 0; i < plan->buy->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, i);
      g_autofree char *amount = NULL, *text = NULL;

      if (buy->offer != CRO_NO_SLOT || buy->known == CRO_KNOWN_NOTHING)
        continue;
      amount = cro_words_amount ((CroBase) model->measures[buy->item].base, buy->needed);
      /* Translators: an ingredient that no supplier delivers, and how much of it is needed. */
      text = g_strdup_printf (_("%s: no pack to order, needed %s"),
                              cro_model_item (model, buy->item)->name, amount);
      cro_sheets_file_text (file, 'A', CRO_CELL_LOOK_PLAIN, text);
      cro_sheets_file_next_row (file);
    }
}

/* --- The file ---------------------------------------------------------------------------------------- */

gboolean
cro_office_write_service (const CroServiceSheet  *sheet,
                          const char             *path,
                          const char             *language,
                          GError                **error)
{
  CroServicePlan *plan = sheet->plan;
  CroModel *model = plan->figures->model;
  gboolean is_translated = language != NULL && !g_str_equal (language, "en");
  g_autoptr (CroTongue) tongue = cro_tongue_enter (is_translated ? language : NULL);
  g_autofree char *service = cro_words_service (sheet);
  gint64 created = cro_date_to_seconds (sheet->name != NULL ? sheet->day : plan->figures->date);
  CroSheetsFile *file = cro_sheets_file_new (path, service, created,
                                             cro_currency_digits (model->currency),
                                             cro_currency_uses_letter (model->currency), error);

  if (file == NULL)
    return FALSE;
  write_make (file, sheet, service);
  write_orders (file, plan, service);
  if (plan->missing->len > 0)
    write_missing (file, plan, service);
  return cro_sheets_file_finish (file, error);
}
