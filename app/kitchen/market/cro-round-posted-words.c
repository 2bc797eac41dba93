/* What was posted, to be sent to somebody. */
#include "config.h"

#include "cro-round-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-isolate.h"
#include "cro-number.h"

/* "Hake, 10 kg: 10.90 → 11.30, from 27 Nov"; NULL: nothing of it is in force that a price tells. */
static char *
dup_posted (const CroRoundPost   *post,
            const CroRoundPosted *row)
{
  g_autofree char *pack = NULL, *price = NULL, *since = NULL, *what = NULL, *said = NULL, *line = NULL;

  if (row->is_back || row->price == NULL)
    return NULL;
  pack = row->pack != NULL ? g_strdup_printf (", %s", row->pack) : g_strdup ("");
  price = row->last != NULL && strcmp (row->last, row->price) != 0
              /* Translators: a price before and after. */
              ? g_strdup_printf (_("%s → %s"), row->last, row->price)
              : g_strdup (row->price);
  if (row->from != post->from)
    {
      g_autofree char *day = cro_date_to_text (row->from);

      since = g_strdup_printf (_("from %s"), day);
    }
  what = g_strdup_printf ("%s%s", row->name, pack);
  said = since != NULL ? g_strdup_printf ("%s, %s", price, since) : g_steal_pointer (&price);
  line = cro_isolate_printf (_("%s: %s"), what, said);
  return g_strdup_printf ("%s\n", line);
}

char *
cro_words_round_copy (const char         *supplier,
                      const CroRoundPost *post)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *date = cro_date_to_text (post->from);
  /* Translators: a heading: a supplier, the day from which its prices hold. */
  g_autofree char *title = cro_isolate_printf (_("Prices of %s from %s"), supplier, date);

  for (guint i = 0; i < post->rows->len; i++)
    {
      g_autofree char *line = dup_posted (post, post->rows->pdata[i]);

      if (line != NULL)
        g_string_append (text, line);
    }
  return text->len > 0 ? g_strdup_printf ("%s\n%s", title, text->str) : g_strdup ("");
}
