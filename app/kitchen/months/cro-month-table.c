#include "cro-month-table.h"

#include "cro-figure-words.h"
#include "cro-number.h"

static void
clear_row (gpointer data)
{
  CroMonthTableRow *row = data;

  for (guint i = 0; i < CRO_MONTH_TABLE_COLUMNS; i++)
    g_free (row->cells[i]);
  g_free (row->note);
}

CroMonthTable *
cro_month_table_new (guint              n_columns,
                     const char *const *titles)
{
  CroMonthTable *self = g_new0 (CroMonthTable, 1);

  g_return_val_if_fail (n_columns <= CRO_MONTH_TABLE_COLUMNS, NULL);
  self->n_columns = n_columns;
  self->words = 1;
  for (guint i = 0; i < n_columns; i++)
    self->titles[i] = g_strdup (titles[i]);
  self->rows = g_array_new (FALSE, TRUE, sizeof (CroMonthTableRow));
  g_array_set_clear_func (self->rows, clear_row);
  self->notes = g_ptr_array_new_with_free_func (g_free);
  return self;
}

void
cro_month_table_free (CroMonthTable *self)
{
  for (guint i = 0; i < CRO_MONTH_TABLE_COLUMNS; i++)
    g_free (self->titles[i]);
  g_array_unref (self->rows);
  g_ptr_array_unref (self->notes);
  g_free (self);
}

CroMonthTableRow *
cro_month_table_add (CroMonthTable *self,
                     int            line,
                     const char    *name)
{
  CroMonthTableRow row = { .line = line, .cells = { g_strdup (name) } };

  g_array_append_val (self->rows, row);
  return &g_array_index (self->rows, CroMonthTableRow, self->rows->len - 1);
}

const CroMonthTableRow *
cro_month_table_get (const CroMonthTable *self,
                     guint                i)
{
  return &g_array_index (self->rows, CroMonthTableRow, i);
}

const CroMonthTableRow *
cro_month_table_find (const CroMonthTable *self,
                      int                  line)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (cro_month_table_get (self, i)->line == line)
      return cro_month_table_get (self, i);
  return NULL;
}

char *
cro_month_table_money (CroKnown known,
                       gint64   minor,
                       int      digits)
{
  /* Of what is 0 for want of all its parts nothing is known. */
  if (minor == 0 && known != CRO_KNOWN_WHOLE)
    known = CRO_KNOWN_NOTHING;
  return cro_words_take_short (known, cro_money_to_text (minor, digits));
}

char *
cro_month_table_change (CroKnown known,
                        gint64   minor,
                        int      digits)
{
  g_autofree char *text = cro_money_to_text (minor, digits);

  return cro_words_take_short (known, minor > 0 ? g_strconcat ("+", text, NULL) : g_steal_pointer (&text));
}
