/* A line of a message that takes back what one above it says: "sorry, mussels 22.80", "no mussels after all". */
#include "cro-price-list-line.h"

#include "cro-fold.h"
#include "cro-price-token.h"

/* Folded, with | around each; common practice, no source. */
static const char correction_words[]
    = "|sorry|apologies|pardon|oops|whoops|correction|corrections|corrected|correct|corrigendum|erratum|errata|mistake|"
      "error|typo|wrong|meant|mean|actually|should|not|no|rather|instead|after|forget|scratch|ignore|disregard|"
      "cancel|cancelled|update|updated|amended|now|are|is|desole|desolee|excuse|excusez|rectification|rectificatif|"
      "rectifie|erreur|faute|corrige|correctif|plutot|voulais|finalement|pas|plus|aucun|aucune|oublie|oubliez|annule|"
      "annulez|annulation|lieu|maintenant|est|sont|";

/* The most words in a name that is looked for. */
#define MOST_NAME 6

/* ":" or "," before what may be a name: "Again: mussels". */
static gboolean
is_behind_sign (const char *line)
{
  gsize n = strcspn (line, ":,0123456789");

  return line[n] == ':' || line[n] == ',';
}

/* The longest name of the book from here on. How many words; 0: none. */
static guint
scan_name (const CroListBook *of,
           char             **words,
           guint32           *item)
{
  g_autoptr (GString) name = g_string_new (NULL);
  guint longest = 0;

  for (guint n = 0; words[n] != NULL && n < MOST_NAME; n++)
    {
      guint32 found;

      g_string_append_printf (name, "%s%s", n > 0 ? " " : "", words[n]);
      found = cro_list_book_find_name (of, name->str);
      if (found == CRO_NO_SLOT)
        continue;
      *item = found;
      longest = n + 1;
    }
  return longest;
}

static guint32
item_of (const CroListBook *of,
         const CroListRow  *row)
{
  guint offer = row->code != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (of->codes, row->code)) : 0;

  return offer > 0 ? cro_model_offer (of->model, offer - 1)->item
                   : row->name != NULL ? cro_list_book_find_name (of, row->name) : CRO_NO_SLOT;
}

static void
ask_of (CroListLine *self,
        guint32      item,
        const char  *line)
{
  for (guint i = 0; i < self->list->rows->len; i++)
    {
      CroListRow *row = &g_array_index (self->list->rows, CroListRow, i);

      if ((row->has_price || row->is_none || row->is_same || row->change_pct != 0) && item_of (self->of, row) == item)
        cro_list_row_say (self->list, row, CRO_LIST_SAID_CHANGE, line, NULL);
    }
}

void
cro_list_line_correct (CroListLine *self,
                       const char  *line)
{
  g_autofree char *folded = cro_fold (line);
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);
  gboolean is_said = cro_price_has_word (folded, correction_words), is_apart = is_behind_sign (line);

  for (guint i = 0, n; (is_said || is_apart) && words[i] != NULL; i += MAX (n, 1))
    {
      guint32 item = CRO_NO_SLOT;

      n = scan_name (self->of, words + i, &item);
      if (n > 0 && (is_said || i > 0))
        ask_of (self, item, line);
    }
}
