/* A round as one text, for who sets it aside: a line for its day, one for each row that is typed, one for
 * each pack that is to be preferred.
 *
 *   from 2026-11-28
 *   row 12 right 69.50
 *   new - turbot 3 kg 24.50/kg
 *   new asked lobster 1 kg 38.00
 *   prefer 31 */
#include "cro-round-private.h"

#include <stdlib.h>
#include <string.h>

#include "cro-here.h"

char *
cro_round_to_text (CroRound *self)
{
  g_autoptr (GString) text = g_string_new (NULL);
  char date[CRO_DATE_CHARS];

  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroRoundRow *row = self->rows->pdata[i];
      g_autofree char *typed = g_strescape (row->text, NULL);
      const char *right = row->list.is_right ? "right" : row->is_filled ? "filled"
                        : row->is_taken                           ? "asked"
                                                                  : "-";

      if (*row->text == '\0' || row->is_billed)
        continue;
      if (row->is_added)
        g_string_append_printf (text, "new %s %s\n", right, typed);
      else
        g_string_append_printf (text, "row %" G_GINT64_FORMAT " %s %s\n", row->id, right, typed);
    }
  for (guint i = 0; i < self->preferred->len; i++)
    g_string_append_printf (text, "prefer %" G_GINT64_FORMAT "\n", g_array_index (self->preferred, gint64, i));
  if (text->len == 0)
    return NULL;
  if (self->from != cro_here_today ())
    {
      cro_date_format (self->from, date);
      g_string_prepend_c (text, '\n');
      g_string_prepend (text, date);
      g_string_prepend (text, "from ");
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* The word that begins a line, which goes on behind it. */
static char *
take_word (const char **line)
{
  gsize n = strcspn (*line, " ");
  char *word = g_strndup (*line, n);

  *line += n;
  if (**line == ' ')
    (*line)++;
  return word;
}

static gboolean
put_row (CroRound    *self,
         const char  *kind,
         const char  *line,
         GError     **error)
{
  gboolean is_new = strcmp (kind, "new") == 0;
  g_autofree char *number = is_new ? NULL : take_word (&line), *right = take_word (&line);
  g_autofree char *typed = g_strcompress (line);
  CroRoundRow *row;
  guint index = CRO_NO_SLOT;

  if (is_new && !cro_round_add_line (self, typed, strcmp (right, "asked") == 0, &index, error))
    return FALSE;
  if (!is_new)
    index = cro_round_find_id (self, g_ascii_strtoll (number, NULL, 10));
  if (index == CRO_NO_SLOT)
    return TRUE;
  row = self->rows->pdata[index];
  if (!is_new && !cro_round_type (self, index, typed, error))
    return FALSE;
  row->is_filled = strcmp (right, "filled") == 0;
  return strcmp (right, "right") != 0 || cro_round_is_right (self, index, error);
}

gboolean
cro_round_put_text (CroRound    *self,
                    const char  *text,
                    GError     **error)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", 0);

  for (guint i = 0; lines[i] != NULL; i++)
    {
      const char *line = lines[i];
      g_autofree char *kind = take_word (&line);

      if (strcmp (kind, "prefer") == 0)
        {
          guint32 slot = cro_slots_get (&self->of.model->offer_slots, g_ascii_strtoll (line, NULL, 10));

          if (slot != CRO_NO_SLOT && !cro_model_offer (self->of.model, slot)->is_dead)
            cro_round_prefer (self, slot);
        }
      else if ((strcmp (kind, "row") == 0 || strcmp (kind, "new") == 0) && !put_row (self, kind, line, error))
        return FALSE;
    }
  return TRUE;
}

guint
cro_round_text_count (const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", 0);
  guint n = 0;

  for (guint i = 0; lines[i] != NULL; i++)
    n += g_str_has_prefix (lines[i], "row ") || g_str_has_prefix (lines[i], "new ");
  return n;
}

CroDate
cro_round_text_from (const char *text)
{
  CroDate from;

  return g_str_has_prefix (text, "from ") && cro_date_parse (text + 5, CRO_DATE_CHARS - 1, &from) ? from : CRO_NO_DAY;
}
