/* What was sold: of plates and menus how many, and of the rest for how much. */
#include "config.h"

#include "cro-month-form-private.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-words.h"

enum
{
  DAY,
  NAME,
  SOLD,
  REVENUE,
  REVENUE_OTHER = SOLD,     /* where nothing is counted */
};

#define THINGS (1u << CRO_KIND_PLATE | 1u << CRO_KIND_MENU)

static void
build_sale (CroMonthForm *self)
{
  cro_month_form_add (self, _("Date"), 11, NULL);
  /* Translators: the placeholder of a field: a plate of the demo. */
  cro_month_form_add (self, _("Plate or menu"), 24, _("Crab croustade"));
  cro_month_form_add (self, _("Sold"), 7, "44");
  cro_month_form_add (self, _("Net sales"), 10, NULL);
}

static void
build_revenue (CroMonthForm *self)
{
  cro_month_form_add (self, _("Date"), 11, NULL);
  /* Translators: the placeholder of a field: what was sold without a plate. */
  cro_month_form_add (self, _("What was sold"), 24, _("wine"));
  cro_month_form_add (self, _("Net sales"), 10, NULL);
}

static CroRef
ref_of (const CroFound *found)
{
  return CRO_REF (found->kind == CRO_KIND_MENU ? CRO_REF_MENU : CRO_REF_RECIPE, found->slot);
}

static const char *
name_of (CroMonthForm *self,
         CroRef        thing)
{
  return cro_ref_name (cro_book_get_model (cro_month_form_book (self)), thing);
}

/* --- A row into the fields ------------------------------------------------------------------------------ */

static gboolean
show_row (CroMonthForm *self,
          gint64        id,
          gboolean      is_other)
{
  static const char *const columns[] = { "date", "thing", "other", "sold_micro", "net_revenue_micro",
                                         NULL };
  g_autoptr (CroRows) rows = cro_month_form_read (self, id, columns);
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  gint64 thing;
  guint32 plate;

  if (rows == NULL)
    return FALSE;
  cro_month_form_put_day (self, DAY, rows, 0);
  if (is_other)
    cro_month_form_put (self, NAME, cro_rows_get_text (rows, 2));
  else
    {
      thing = cro_rows_get_int (rows, 1);
      plate = cro_slots_get (&model->plate_slots, thing);
      cro_month_form_put (self, NAME,
                          name_of (self, plate != CRO_NO_SLOT
                                             ? CRO_REF (CRO_REF_RECIPE, plate)
                                             : CRO_REF (CRO_REF_MENU,
                                                        cro_slots_get (&model->menu_slots, thing))));
      cro_month_form_put_number (self, SOLD, rows, 3);
    }
  cro_month_form_put_number (self, is_other ? REVENUE_OTHER : REVENUE, rows, 4);
  return TRUE;
}

static gboolean
show_sale (CroMonthForm *self,
           gint64        id)
{
  return show_row (self, id, FALSE);
}

static gboolean
show_revenue (CroMonthForm *self,
              gint64        id)
{
  return show_row (self, id, TRUE);
}

/* --- What the fields say ------------------------------------------------------------------------------- */

static gboolean
put (CroMonthForm  *self,
     CroSaleEntry  *sale,
     const char    *name,
     GError       **error)
{
  g_autofree char *day = cro_date_to_text (sale->date);
  /* Translators: an entry of the history: what was sold, and the day. */
  g_autofree char *label = cro_isolate_printf (_("sale of %s, %s"), name, day);

  return cro_month_put_sales (cro_month_form_book (self), label, sale, 1, error);
}

static gboolean
keep_sale (CroMonthForm  *self,
           GError       **error)
{
  CroSaleEntry sale = { .id = self->id };
  CroFound found;

  if (!cro_month_form_day (self, DAY, CRO_MONTH_DAYS_OF_MONTH, &sale.date, TRUE))
    return FALSE;
  if (!cro_month_form_is_set (self, NAME))
    return cro_month_form_refuse (self, NAME, _("Type part of a plate’s or menu’s name."));
  if (!cro_month_form_find (self, cro_month_form_text (self, NAME), THINGS, &found))
    return cro_month_form_refuse (self, NAME,
                                  _("No plate or menu has this name. What is sold without one is "
                                    "entered as other revenue."));
  if (!cro_month_form_number (self, SOLD, CRO_RANGE_ANY, &sale.sold, TRUE)
      || !cro_month_form_money (self, REVENUE, CRO_RANGE_ANY, &sale.revenue, TRUE))
    return FALSE;
  if (sale.sold == CRO_NOT_SET)
    return cro_month_form_refuse (self, SOLD,
                                  _("Type how many were sold; less than 0 for a void, 0 for a refund."));
  if (sale.sold == 0 && sale.revenue == CRO_NOT_SET)
    return cro_month_form_refuse (self, REVENUE, _("Type what was given back, as −24."));
  sale.thing = ref_of (&found);
  return put (self, &sale, name_of (self, sale.thing), error);
}

static gboolean
keep_revenue (CroMonthForm  *self,
              GError       **error)
{
  CroSaleEntry sale = { .id = self->id, .thing = CRO_REF_NOWHERE, .sold = CRO_MICRO };

  if (!cro_month_form_day (self, DAY, CRO_MONTH_DAYS_OF_MONTH, &sale.date, TRUE))
    return FALSE;
  if (!cro_month_form_is_set (self, NAME))
    return cro_month_form_refuse (self, NAME, _("Type what was sold, as wine or service."));
  if (!cro_month_form_money (self, REVENUE_OTHER, CRO_RANGE_ANY, &sale.revenue, TRUE))
    return FALSE;
  if (sale.revenue == CRO_NOT_SET)
    return cro_month_form_refuse (self, REVENUE_OTHER, _("Type what was taken for it, without tax."));
  sale.other = cro_month_form_text (self, NAME);
  return put (self, &sale, sale.other, error);
}

/* --- As a sentence -------------------------------------------------------------------------------------- */

static char *
dup_sale_meaning (CroMonthForm *self)
{
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  g_autofree char *day = NULL, *number = NULL, *money = NULL, *name = NULL;
  gint64 sold, revenue;
  CroFound found;
  CroDate date;

  if (!cro_month_form_find (self, cro_month_form_text (self, NAME), THINGS, &found)
      || !cro_month_form_day (self, DAY, CRO_MONTH_DAYS_OF_MONTH, &date, FALSE)
      || !cro_month_form_number (self, SOLD, CRO_RANGE_ANY, &sold, FALSE)
      || !cro_month_form_money (self, REVENUE, CRO_RANGE_ANY, &revenue, FALSE))
    return NULL;
  name = cro_isolate (name_of (self, ref_of (&found)));
  day = cro_date_to_text (date);
  if (sold == CRO_NOT_SET)
    return g_strdup_printf ("%s · %s", name, day);
  number = cro_words_decimal (sold);
  if (sold == 0)
    /* Translators: a plate or menu; a day. */
    return g_strdup_printf (_("%s · %s · a refund: eaten, and money given back"), name, day);
  if (sold < 0)
    /* Translators: a plate or menu; a day; a number below 0. */
    return g_strdup_printf (_("%s · %s · %s: a void, not made"), name, day, number);
  if (revenue == CRO_NOT_SET)
    /* Translators: a plate or menu; a day; how many were sold. */
    return g_strdup_printf (_("%s · %s · %s sold, at the net price of that day"), name, day, number);
  money = cro_words_price (model, revenue);
  /* Translators: a plate or menu; a day; how many were sold; money without tax. */
  return g_strdup_printf (_("%s · %s · %s sold for %s net"), name, day, number, money);
}

static char *
dup_revenue_meaning (CroMonthForm *self)
{
  g_autofree char *day = NULL, *money = NULL;
  gint64 revenue;
  CroDate date;

  if (!cro_month_form_day (self, DAY, CRO_MONTH_DAYS_OF_MONTH, &date, FALSE)
      || !cro_month_form_money (self, REVENUE_OTHER, CRO_RANGE_ANY, &revenue, FALSE)
      || revenue == CRO_NOT_SET)
    return NULL;
  day = cro_date_to_text (date);
  money = cro_words_price (cro_book_get_model (cro_month_form_book (self)), revenue);
  /* Translators: what was sold; a day; money without tax. */
  return cro_isolate_printf (_("%s · %s · %s net, in net sales and in no food cost"),
                             cro_month_form_text (self, NAME), day, money);
}

static char *
dup_removal (void)
{
  return g_strdup (_("removal of a sale"));
}

const CroMonthFields cro_sale_fields = {
  "sale", 1, build_sale, show_sale, keep_sale, dup_sale_meaning, NULL, dup_removal,
};

const CroMonthFields cro_revenue_fields = {
  "sale", 1, build_revenue, show_revenue, keep_revenue, dup_revenue_meaning, NULL, dup_removal,
};
