/* An invoice or a delivery note in one row, its net values by what they are for; and a line of one, where
 * somebody wants it. */
#include "config.h"

#include "cro-month-form-private.h"

#include <glib/gi18n.h>

#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-words.h"

/* The first three are those of a line too. */
enum
{
  DELIVERED,
  SUPPLIER,
  NUMBER,
  DATED,
  FIRST_VALUE,
  TAX = FIRST_VALUE + CRO_N_PURCHASE_KINDS,
  TOTAL,
};

enum
{
  ITEM = NUMBER + 1,
  AMOUNT,
  VALUE,
};

static void
add_heads (CroMonthForm *self)
{
  cro_month_form_add (self, _("Delivered"), 11, NULL);
  /* No example stands in it: beside a day that is taken it would look as if it were, too. */
  cro_month_form_add (self, _("Supplier"), 18, NULL);
  /* Translators: of an invoice or a delivery note. */
  cro_month_form_add (self, _("Number"), 10, NULL);
}

static void
build_document (CroMonthForm *self)
{
  add_heads (self);
  cro_month_form_add (self, _("Document date"), 11, NULL);
  cro_month_form_add (self, _("Food"), 9, NULL);
  cro_month_form_add (self, _("Disposables"), 9, NULL);
  cro_month_form_add (self, _("Other goods"), 9, NULL);
  /* Translators: the tax on a document; it is checked against the total and not kept. */
  cro_month_form_add (self, _("Tax"), 8, NULL);
  cro_month_form_add (self, _("Total"), 9, NULL);
}

static void
build_line (CroMonthForm *self)
{
  add_heads (self);
  cro_month_form_add (self, _("Ingredient, or what it is"), 22, _("Butter"));
  cro_month_form_add (self, _("Amount"), 9, _("5 kg"));
  cro_month_form_add (self, _("Net value"), 9, NULL);
}

/* A supplier's name as the book has it, where it is typed in part; else as it was typed: they are made
 * where nobody bears the name. */
static char *
dup_supplier (CroMonthForm *self)
{
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  const char *text = cro_month_form_text (self, SUPPLIER), *best = NULL;
  g_autoptr (CroQuery) query = cro_query_new (text);
  CroMatch match = CRO_MATCH_STARTS;

  for (guint32 i = 0; query != NULL && i < model->suppliers->len; i++)
    {
      const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, i);
      g_autofree char *folded = supplier->is_dead ? NULL : cro_fold (supplier->name);

      if (folded != NULL && cro_query_match (query, folded) >= match + (best != NULL))
        {
          match = cro_query_match (query, folded);
          best = supplier->name;
        }
    }
  return g_strstrip (g_strdup (best != NULL ? best : text));
}

static char *
dup_label (CroMonthForm *self,
           const char   *supplier,
           CroDate       delivered)
{
  g_autofree char *day = cro_date_to_text (delivered);

  if (*supplier == '\0')
    /* Translators: an entry of the history; a day. */
    return g_strdup_printf (_("purchase of %s"), day);
  /* Translators: an entry of the history: the number of an invoice, empty where it has none, its supplier,
   * the day of delivery. */
  return cro_isolate_printf (_("document %s from %s, %s"), cro_month_form_text (self, NUMBER), supplier, day);
}

/* A purchase is somebody's; but what a table brought without a supplier can be changed without one. */
static gboolean
has_supplier (CroMonthForm *self,
              const char   *supplier)
{
  g_autoptr (CroDocument) before = NULL;

  if (*supplier != '\0')
    return TRUE;
  if (self->id != 0)
    before = cro_document_new (cro_month_form_book (self), self->id, NULL);
  return (before != NULL && before->entry.supplier == NULL)
         || cro_month_form_refuse (self, SUPPLIER, _("Type the supplier’s name."));
}

/* --- A document --------------------------------------------------------------------------------------- */

static gboolean
show_document (CroMonthForm *self,
               gint64        id)
{
  g_autoptr (CroDocument) document = cro_document_new (cro_month_form_book (self), id, NULL);
  const CroDocumentEntry *entry = document != NULL ? &document->entry : NULL;
  const CroDate days[] = { entry != NULL ? entry->delivered : CRO_NO_DAY,
                           entry != NULL ? entry->dated : CRO_NO_DAY };

  if (entry == NULL)
    return FALSE;
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *day = days[i] != CRO_NO_DAY ? cro_date_to_text (days[i]) : NULL;

      cro_month_form_put (self, i == 0 ? DELIVERED : DATED, day);
    }
  cro_month_form_put (self, SUPPLIER, entry->supplier);
  cro_month_form_put (self, NUMBER, entry->number);
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      g_autofree char *value = entry->values[k] != CRO_NOT_SET ? cro_words_decimal (entry->values[k]) : NULL;

      cro_month_form_put (self, FIRST_VALUE + k, value);
      gtk_widget_set_sensitive (self->entries[FIRST_VALUE + k], !document->has_lines);
    }
  return TRUE;
}

static gboolean
too_large (CroMonthForm *self,
           guint         entry,
           gboolean      is_asked)
{
  return is_asked && cro_month_form_refuse (self, entry, _("This is too large."));
}

/* The sum of what is typed in net values; CRO_NOT_SET: nothing is. */
static gboolean
read_values (CroMonthForm *self,
             gint64       *values,
             gint64       *net,
             gboolean      is_asked)
{
  *net = CRO_NOT_SET;
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      if (!cro_month_form_money (self, FIRST_VALUE + k, CRO_RANGE_ANY, &values[k], is_asked))
        return FALSE;
      if (values[k] != CRO_NOT_SET
          && __builtin_add_overflow (*net != CRO_NOT_SET ? *net : 0, values[k], net))
        return too_large (self, FIRST_VALUE + k, is_asked);
    }
  return TRUE;
}

/* By how much a total differs from what stands before it; 0 where none was typed. */
static gboolean
read_apart (CroMonthForm *self,
            gint64        net,
            gint64       *apart,
            gboolean      is_asked)
{
  gint64 tax, total;

  if (!cro_month_form_money (self, TAX, CRO_RANGE_ANY, &tax, is_asked)
      || !cro_month_form_money (self, TOTAL, CRO_RANGE_ANY, &total, is_asked))
    return FALSE;
  *apart = 0;
  if (total != CRO_NOT_SET
      && (__builtin_add_overflow (net, tax != CRO_NOT_SET ? tax : 0, apart)
          || __builtin_sub_overflow (*apart, total, apart) || *apart == G_MININT64))
    return too_large (self, TOTAL, is_asked);
  return TRUE;
}

static char *
dup_apart (CroMonthForm *self,
           gint64        apart)
{
  g_autofree char *money = cro_words_price (cro_book_get_model (cro_month_form_book (self)),
                                            apart < 0 ? -apart : apart);

  return apart > 0
             /* Translators: money: net values and tax of a document come to that much more than its total. */
             ? g_strdup_printf (_("Net values and tax are %s more than the total."), money)
             : g_strdup_printf (_("Net values and tax are %s less than the total."), money);
}

static gboolean
keep_document (CroMonthForm  *self,
               GError       **error)
{
  CroDocumentEntry entry = { .dated = CRO_NO_DAY, .number = cro_month_form_text (self, NUMBER) };
  g_autofree char *supplier = dup_supplier (self), *label = NULL, *reason = NULL;
  gint64 net, apart;

  if (!cro_month_form_day (self, DELIVERED, CRO_MONTH_DAYS_OR_LATE, &entry.delivered, TRUE)
      || (cro_month_form_is_set (self, DATED)
          && !cro_month_form_day (self, DATED, CRO_MONTH_DAYS_ALL, &entry.dated, TRUE))
      || !has_supplier (self, supplier) || !read_values (self, entry.values, &net, TRUE))
    return FALSE;
  if (net == CRO_NOT_SET)
    return cro_month_form_refuse (self, FIRST_VALUE, _("Type what was bought, without tax."));
  if (!read_apart (self, net, &apart, TRUE))
    return FALSE;
  if (apart != 0)
    {
      reason = dup_apart (self, apart);
      return cro_month_form_refuse (self, TOTAL, reason);
    }
  entry.supplier = supplier;
  label = dup_label (self, supplier, entry.delivered);
  return cro_month_put_document (cro_month_form_book (self), label, self->id, &entry, error);
}

/* Where other suppliers' names would be made by a slip of a key, it is said before. */
static void
append_supplier (CroMonthForm *self,
                 GString      *text)
{
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  g_autofree char *supplier = dup_supplier (self), *name = NULL;
  gboolean is_known = cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, supplier).kind != CRO_REF_NONE;

  if (*supplier == '\0')
    {
      /* Translators: of a purchase. */
      g_string_append_printf (text, " · %s", _("no supplier"));
      return;
    }
  name = cro_isolate (supplier);
  g_string_append_printf (text, " · %s", name);
  if (!is_known)
    /* Translators: behind a supplier's name. */
    g_string_append_printf (text, " (%s)", _("new supplier"));
}

static void
append_late (CroMonthForm *self,
             CroDate       delivered,
             GString      *text)
{
  if (cro_month_form_is_late (self, delivered))
    /* Translators: of a purchase, behind the day of its delivery. */
    g_string_append_printf (text, " · %s", _("of a closed month, counts in the first open one"));
}

static char *
dup_document_meaning (CroMonthForm *self)
{
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  gint64 values[CRO_N_PURCHASE_KINDS], net, apart;
  g_autofree char *day = NULL, *money = NULL, *reason = NULL;
  CroDate delivered;
  GString *text;

  if (!cro_month_form_day (self, DELIVERED, CRO_MONTH_DAYS_OR_LATE, &delivered, FALSE))
    return NULL;
  day = cro_date_to_text (delivered);
  text = g_string_new (day);
  append_late (self, delivered, text);
  append_supplier (self, text);
  if (!read_values (self, values, &net, FALSE) || net == CRO_NOT_SET)
    return g_string_free (text, FALSE);
  money = cro_words_price (model, net);
  g_string_append (text, " · ");
  /* Translators: money without tax. */
  g_string_append_printf (text, _("%s net"), money);
  if (!read_apart (self, net, &apart, FALSE) || !cro_month_form_is_set (self, TOTAL))
    return g_string_free (text, FALSE);
  reason = apart != 0 ? dup_apart (self, apart) : NULL;
  g_string_append_printf (text, " · %s", reason != NULL ? reason : _("the total agrees ✓"));
  return g_string_free (text, FALSE);
}

static GArray *
list_rows (CroMonthForm *self,
           gint64        id)
{
  g_autoptr (CroDocument) document = cro_document_new (cro_month_form_book (self), id, NULL);

  return document != NULL ? g_array_ref (document->ids) : NULL;
}

static char *
dup_document_removal (void)
{
  return g_strdup (_("removal of a document"));
}

const CroMonthFields cro_document_fields = {
  "purchase",           1,         build_document,       show_document, keep_document,
  dup_document_meaning, list_rows, dup_document_removal,
};

/* --- A line -------------------------------------------------------------------------------------------- */

static gboolean
show_line (CroMonthForm *self,
           gint64        id)
{
  static const char *const columns[] = { "date", "ingredient", "category", "amount_micro", "unit",
                                         "net_value_micro", NULL };
  g_autoptr (CroDocument) document = cro_document_new (cro_month_form_book (self), id, NULL);
  g_autoptr (CroRows) rows = cro_month_form_read (self, id, columns);
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  guint32 item;

  if (rows == NULL || document == NULL)
    return FALSE;
  cro_month_form_put_day (self, DELIVERED, rows, 0);
  cro_month_form_put (self, SUPPLIER, document->entry.supplier);
  cro_month_form_put (self, NUMBER, document->entry.number);
  item = cro_rows_is_null (rows, 1) ? CRO_NO_SLOT
                                    : cro_slots_get (&model->item_slots, cro_rows_get_int (rows, 1));
  cro_month_form_put (self, ITEM, item != CRO_NO_SLOT ? cro_model_item (model, item)->name
                                                      : cro_rows_get_text (rows, 2));
  cro_month_form_put_amount (self, AMOUNT, rows, 3);
  cro_month_form_put_number (self, VALUE, rows, 5);
  return TRUE;
}

static gboolean
read_line (CroMonthForm      *self,
           CroPurchaseEntry  *entry,
           gboolean           is_asked)
{
  CroFound found;

  *entry = (CroPurchaseEntry){ .id = self->id, .number = cro_month_form_text (self, NUMBER),
                               .ingredient = CRO_NO_SLOT, .words = cro_month_form_text (self, ITEM) };
  if (cro_month_form_find (self, cro_month_form_text (self, ITEM), 1u << CRO_KIND_INGREDIENT, &found))
    entry->ingredient = found.slot;
  return cro_month_form_day (self, DELIVERED, CRO_MONTH_DAYS_OR_LATE, &entry->delivered, is_asked)
         && cro_month_form_amount (self, AMOUNT, entry->ingredient, CRO_RANGE_ANY, &entry->amount,
                                   &entry->unit, is_asked)
         && cro_month_form_money (self, VALUE, CRO_RANGE_ANY, &entry->value, is_asked);
}

static gboolean
keep_line (CroMonthForm  *self,
           GError       **error)
{
  g_autofree char *supplier = dup_supplier (self), *label = NULL;
  CroPurchaseEntry entry;

  if (!read_line (self, &entry, TRUE) || !has_supplier (self, supplier))
    return FALSE;
  if (!cro_month_form_is_set (self, ITEM))
    return cro_month_form_refuse (self, ITEM, _("Type what was bought."));
  if (entry.value == CRO_NOT_SET)
    return cro_month_form_refuse (self, VALUE, _("Type what was bought, without tax."));
  entry.supplier = supplier;
  label = dup_label (self, supplier, entry.delivered);
  return cro_month_put_purchase (cro_month_form_book (self), label, &entry, error);
}

static char *
dup_line_meaning (CroMonthForm *self)
{
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  g_autofree char *name = NULL, *day = NULL, *money = NULL, *number = NULL;
  CroPurchaseEntry entry;
  GString *text;

  if (!read_line (self, &entry, FALSE))
    return NULL;
  day = cro_date_to_text (entry.delivered);
  text = g_string_new (day);
  append_late (self, entry.delivered, text);
  append_supplier (self, text);
  name = cro_isolate (entry.ingredient != CRO_NO_SLOT ? cro_model_item (model, entry.ingredient)->name
                                                      : entry.words);
  g_string_append_printf (text, " · %s", name);
  if (entry.ingredient == CRO_NO_SLOT && *entry.words != '\0')
    /* Translators: behind what was bought, where it is no ingredient of the book. */
    g_string_append_printf (text, " (%s)", _("no ingredient: other goods"));
  if (entry.amount != CRO_NOT_SET)
    {
      number = cro_words_decimal (entry.amount);
      g_string_append_printf (text, " · %s %s", number, cro_words_unit (entry.unit));
    }
  if (entry.value != CRO_NOT_SET)
    {
      money = cro_words_price (model, entry.value);
      g_string_append_printf (text, " · ");
      g_string_append_printf (text, _("%s net"), money);
    }
  return g_string_free (text, FALSE);
}

static char *
dup_line_removal (void)
{
  return g_strdup (_("removal of a line of a document"));
}

const CroMonthFields cro_line_fields = {
  "purchase", 3, build_line, show_line, keep_line, dup_line_meaning, NULL, dup_line_removal,
};
