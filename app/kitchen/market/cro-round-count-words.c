/* How many rows wait, are ready or were taken. */
#include "config.h"

#include "cro-round-words.h"

#include <glib/gi18n.h>

#include "cro-isolate.h"
#include "cro-price-list-words.h"

static void
add (GString *to,
     char    *text)
{
  g_string_append_printf (to, "%s%s", to->len > 0 ? " · " : "", text);
  g_free (text);
}

char *
cro_words_round_counts_of (guint ready,
                           guint waiting,
                           guint untouched)
{
  GString *text = g_string_new (NULL);

  /* Translators: rows of new prices. */
  add (text, g_strdup_printf (ngettext ("%u to post", "%u to post", ready), ready));
  if (waiting > 0)
    add (text, g_strdup_printf (ngettext ("%u waits for an answer", "%u wait for an answer", waiting), waiting));
  if (untouched > 0)
    add (text, g_strdup_printf (ngettext ("%u untouched", "%u untouched", untouched), untouched));
  return g_string_free (text, FALSE);
}

char *
cro_words_round_counts (CroRound *round)
{
  return cro_words_round_counts_of (cro_round_count_ready (round), cro_round_count_waiting (round),
                                    cro_round_count_untouched (round));
}

/* So many prices of a list. */
static char *
counted (CroListState state,
         guint        n)
{
  switch (state)
    {
    case CRO_LIST_NEW:
      return g_strdup_printf (ngettext ("%u new", "%u new", n), n);
    case CRO_LIST_CHANGED:
      return g_strdup_printf (ngettext ("%u changed", "%u changed", n), n);
    case CRO_LIST_UNCHANGED:
      return g_strdup_printf (ngettext ("%u unchanged", "%u unchanged", n), n);
    case CRO_LIST_UNMATCHED:
      return g_strdup_printf (ngettext ("%u not found", "%u not found", n), n);
    case CRO_LIST_DOUBTFUL:
      return g_strdup_printf (ngettext ("%u for a second look", "%u for a second look", n), n);
    case CRO_LIST_RETURN:
      return g_strdup_printf (ngettext ("%u returned", "%u returned", n), n);
    case CRO_LIST_NO_INGREDIENT:
      return g_strdup_printf (ngettext ("%u no ingredient", "%u no ingredients", n), n);
    case CRO_LIST_NOT_TO_BE_HAD:
    case CRO_N_LIST_STATES:
      return g_strdup_printf (ngettext ("%u not to be had", "%u not to be had", n), n);
    }
  g_return_val_if_reached (NULL);
}

char *
cro_words_round_taken (const CroPriceList *list)
{
  GString *text = g_string_new (NULL);
  g_autoptr (GString) talk = g_string_new (NULL);
  g_autofree char *sheet = cro_words_list_sheet (list);
  guint n[CRO_N_LIST_STATES] = { 0 };

  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (cro_list_row_is_talk (list, row))
        g_string_append_printf (talk, "%s%s", talk->len > 0 ? " · " : "", cro_words_list_name (row));
      else
        n[row->state]++;
    }
  for (guint i = 0; i < CRO_N_LIST_STATES; i++)
    if (n[i] > 0)
      add (text, counted ((CroListState) i, n[i]));
  if (sheet != NULL)
    add (text, g_steal_pointer (&sheet));
  if (talk->len > 0)
    /* Translators: lines of a message that name nothing that is bought and no price. */
    add (text, cro_isolate_printf (_("no prices: “%s”"), talk->str));
  return g_string_free (text, FALSE);
}
