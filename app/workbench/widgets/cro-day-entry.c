#include "config.h"

#include "cro-day-entry.h"

#include "cro-entry.h"
#include "cro-number.h"
#include "cro-words.h"

void
cro_day_entry_show (GtkWidget *entry,
                    CroBook   *book)
{
  g_autofree char *day = cro_date_to_text (cro_book_get_figures (book)->date);

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), day);
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
