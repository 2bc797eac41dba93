#include "cro-count-paste.h"

#include "cro-quick.h"
#include "cro-words.h"

static gboolean
read_line (CroBook       *book,
           const char    *line,
           CroDate        day,
           CroCountEntry *entry)
{
  g_auto (CroQuick) quick = { 0 };
  g_autofree char *plain = g_strdelimit (g_strdup (line), "\t;", ' ');

  if (!cro_quick_read (cro_book_get_model (book), plain, cro_words_entry (), &quick) || !quick.has_amount
      || quick.item == CRO_NO_SLOT || quick.has_price)
    return FALSE;
  *entry = (CroCountEntry){ .date = day, .item = quick.item, .amount = quick.amount, .unit = quick.unit };
  return TRUE;
}

gboolean
cro_count_paste (CroBook     *book,
                 const char  *label,
                 CroDate      day,
                 const char  *text,
                 guint       *n,
                 char       **left,
                 GError     **error)
{
  g_auto (GStrv) lines = g_strsplit_set (text, "\r\n", -1);
  g_autoptr (GArray) entries = g_array_new (FALSE, FALSE, sizeof (CroCountEntry));
  g_autoptr (GString) others = g_string_new (NULL);
  CroCountEntry entry;

  for (guint i = 0; lines[i] != NULL; i++)
    {
      if (*g_strstrip (lines[i]) == '\0')
        continue;
      if (read_line (book, lines[i], day, &entry))
        g_array_append_val (entries, entry);
      else
        g_string_append_printf (others, "%s%s", others->len > 0 ? "\n" : "", lines[i]);
    }
  *n = entries->len;
  *left = others->len > 0 ? g_strdup (others->str) : NULL;
  return entries->len == 0
         || cro_month_put_counts (book, label, (const CroCountEntry *) (const void *) entries->data, entries->len,
                                  error);
}
