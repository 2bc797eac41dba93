/* What left the kitchen unsold, or came in unbought. */
#include "config.h"

#include "cro-month-form-private.h"

#include <glib/gi18n.h>

#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-drop-down.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-words.h"

enum
{
  DAY,
  ITEM,
  AMOUNT,
  VALUE,
  NOTE,
};

#define ITEMS (1u << CRO_KIND_INGREDIENT | 1u << CRO_KIND_OUTPUT)

static guint
kind_of (CroMonthForm *self)
{
  return gtk_drop_down_get_selected (GTK_DROP_DOWN (self->choice));
}

static void
build (CroMonthForm *self)
{
  g_autofree const char **words = cro_code_dup_words (cro_adjustment_kind_codes);

  self->choice = cro_drop_down_new (words, _("Kind"));
  cro_month_form_add (self, _("Date"), 11, NULL);
  cro_entry_form_add_control (self->form, _("Kind"), self->choice);
  /* Translators: the placeholder of a field: an ingredient of the demo. */
  cro_month_form_add (self, _("Item"), 20, _("Butter"));
  /* Translators: the placeholder of a field: an amount with its unit. */
  cro_month_form_add (self, _("Amount"), 9, _("1.2 kg"));
  cro_month_form_add (self, _("Net value"), 9, NULL);
  cro_month_form_add (self, _("Note"), 18, NULL);
}

static gboolean
show (CroMonthForm *self,
      gint64        id)
{
  static const char *const columns[] = { "date", "kind", "item", "amount_micro", "unit",
                                         "net_value_micro", "note", NULL };
  g_autoptr (CroRows) rows = cro_month_form_read (self, id, columns);
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  guint32 item;
  guint kind;

  if (rows == NULL)
    return FALSE;
  cro_month_form_put_day (self, DAY, rows, 0);
  if (cro_code_find (cro_adjustment_kind_codes, cro_rows_get_text (rows, 1), &kind))
    gtk_drop_down_set_selected (GTK_DROP_DOWN (self->choice), kind);
  item = cro_rows_is_null (rows, 2) ? CRO_NO_SLOT
                                    : cro_slots_get (&model->item_slots, cro_rows_get_int (rows, 2));
  cro_month_form_put (self, ITEM, item != CRO_NO_SLOT ? cro_model_item (model, item)->name : NULL);
  cro_month_form_put_amount (self, AMOUNT, rows, 3);
  cro_month_form_put_number (self, VALUE, rows, 5);
  cro_month_form_put (self, NOTE, cro_rows_get_text (rows, 6));
  return TRUE;
}

/* is_asked: what cannot be read is refused at its field. */
static gboolean
read_fields (CroMonthForm        *self,
             CroAdjustmentEntry  *entry,
             gboolean             is_asked)
{
  CroFound found;

  *entry = (CroAdjustmentEntry){ .id = self->id, .kind = kind_of (self), .item = CRO_NO_SLOT,
                                 .amount = CRO_NOT_SET, .note = cro_month_form_text (self, NOTE) };
  if (!cro_month_form_day (self, DAY, CRO_MONTH_DAYS_OF_MONTH, &entry->date, is_asked))
    return FALSE;
  if (cro_month_form_is_set (self, ITEM))
    {
      if (!cro_month_form_find (self, cro_month_form_text (self, ITEM), ITEMS, &found))
        return is_asked
               && cro_month_form_refuse (self, ITEM, _("Nothing in the larder has this name."));
      entry->item = found.slot;
    }
  return cro_month_form_amount (self, AMOUNT, entry->item, CRO_RANGE_AT_LEAST_0, &entry->amount,
                                &entry->unit, is_asked)
         && cro_month_form_money (self, VALUE, CRO_RANGE_AT_LEAST_0, &entry->value, is_asked);
}

static gboolean
keep (CroMonthForm  *self,
      GError       **error)
{
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  g_autofree char *label = NULL, *day = NULL;
  CroAdjustmentEntry entry;
  const char *word;

  if (!read_fields (self, &entry, TRUE))
    return FALSE;
  if (entry.amount == CRO_NOT_SET && entry.value == CRO_NOT_SET)
    return cro_month_form_refuse (self, AMOUNT, _("Type an amount, or what it was worth."));
  if (entry.amount != CRO_NOT_SET && entry.item == CRO_NO_SLOT)
    return cro_month_form_refuse (self, ITEM, _("Type what the amount is of."));
  word = cro_code_word (cro_adjustment_kind_codes[entry.kind]);
  day = cro_date_to_text (entry.date);
  label = entry.item != CRO_NO_SLOT
              /* Translators: an entry of the history: a kind of adjustment, an item, a day. */
              ? cro_isolate_printf (_("%s: %s, %s"), word, cro_model_item (model, entry.item)->name, day)
              : g_strdup_printf ("%s, %s", word, day);
  return cro_month_put_adjustment (cro_month_form_book (self), label, &entry, error);
}

static char *
dup_meaning (CroMonthForm *self)
{
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  g_autofree char *day = NULL, *number = NULL, *money = NULL, *name = NULL;
  CroAdjustmentEntry entry;
  GString *text;

  if (!read_fields (self, &entry, FALSE))
    return NULL;
  day = cro_date_to_text (entry.date);
  text = g_string_new (cro_code_word (cro_adjustment_kind_codes[entry.kind]));
  if (entry.item != CRO_NO_SLOT)
    {
      name = cro_isolate (cro_model_item (model, entry.item)->name);
      g_string_append_printf (text, " · %s", name);
    }
  g_string_append_printf (text, " · %s", day);
  if (entry.amount != CRO_NOT_SET)
    {
      number = cro_words_decimal (entry.amount);
      g_string_append_printf (text, " · %s %s", number, cro_words_unit (entry.unit));
    }
  if (entry.value != CRO_NOT_SET)
    {
      money = cro_words_price (model, entry.value);
      g_string_append_printf (text, " · %s", money);
    }
  else if (entry.amount != CRO_NOT_SET)
    {
      g_string_append (text, " · ");
      g_string_append (text, _("at the food cost of that day"));
    }
  return g_string_free (text, FALSE);
}

static char *
dup_removal (void)
{
  return g_strdup (_("removal of an adjustment"));
}

const CroMonthFields cro_adjustment_fields = {
  "adjustment", 1, build, show, keep, dup_meaning, NULL, dup_removal,
};
