#include "config.h"

#include "cro-day-entry.h"

#include "cro-entry.h"
#include "cro-number.h"
#include "cro-read-only.h"
#include "cro-words.h"

G_DEFINE_QUARK (cro-day-entry-error-quark, cro_day_entry_error)

void
cro_day_entry_set_fleeting (GtkWidget *entry)
{
  g_object_set_data (G_OBJECT (entry), "fleeting", GINT_TO_POINTER (TRUE));
}

gboolean
cro_day_entry_is_fleeting (GtkWidget *entry)
{
  return g_object_get_data (G_OBJECT (entry), "fleeting") != NULL;
}

void
cro_day_entry_show (GtkWidget *entry,
                    CroBook   *book)
{
  g_autofree char *day = cro_date_to_text (cro_book_get_figures (book)->date);

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), cro_date_chars ());
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), cro_date_chars ());
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), day);
  cro_read_only_show (entry, book);
}

gboolean
cro_day_entry_read (GtkWidget  *entry,
                    CroBook    *book,
                    CroDate    *day,
                    char      **reason)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  g_auto (CroEntry) read = { 0 };

  *day = cro_book_get_figures (book)->date;
  if (cro_entry_date (text, &read))
    *day = read.date;
  else if (read.status != CRO_ENTRY_EMPTY)
    {
      *reason = cro_words_entry_reason (text, &read);
      return FALSE;
    }
  return TRUE;
}
