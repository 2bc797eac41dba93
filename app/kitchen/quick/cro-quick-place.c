#include "cro-quick.h"

static gboolean
can_place (CroBook       *book,
           CroQuick      *quick,
           CroQuickFlags  flags)
{
  if (!quick->has_amount)
    return FALSE;
  if (quick->match == CRO_QUICK_UNKNOWN && flags & CRO_QUICK_TAKE_SIMILAR)
    {
      g_autoptr (CroFinder) finder = cro_finder_new (book);

      cro_quick_find (quick, finder);
    }
  return quick->match != CRO_QUICK_UNKNOWN || flags & CRO_QUICK_MAKE_ALL
         || (flags & CRO_QUICK_MAKE_PRICED && quick->has_price);
}

static CroNewLine
new_line_of (const CroQuick *quick,
             const char     *supplier,
             CroDate         from,
             CroQuickFlags   flags)
{
  return (CroNewLine){
    .item = quick->item,
    .name = quick->name,
    .base = cro_quick_base (quick),
    .is_preparation = flags & CRO_QUICK_MAKE_PREPARATION && !quick->has_price,
    .amount = quick->amount,
    .unit = quick->unit,
    .as_bought = quick->as_bought,
    .note = quick->note,
    .has_price = quick->has_price,
    .price = { quick->price, quick->price_unit, supplier, from },
  };
}

static void
keep_back (GString    *left,
           const char *line)
{
  if (left->len > 0)
    g_string_append_c (left, '\n');
  g_string_append (left, line);
}

gboolean
cro_quick_place (CroBook              *book,
                 const char           *label,
                 guint32               recipe,
                 guint32               after,
                 const char           *text,
                 const CroEntryWords  *words,
                 const char           *supplier,
                 CroDate               from,
                 CroQuickFlags         flags,
                 char                **left,
                 guint                *n_placed,
                 guint32              *item,
                 GError              **error)
{
  g_auto (GStrv) rows = g_strsplit (text, "\n", 0);
  g_autoptr (GArray) quicks = g_array_new (FALSE, FALSE, sizeof (CroQuick));
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (CroNewLine));
  g_autoptr (GString) rest = g_string_new (NULL);
  guint32 taken = CRO_NO_SLOT;

  g_array_set_clear_func (quicks, (GDestroyNotify) cro_quick_clear);
  if (!cro_book_refresh (book, NULL, error))
    return FALSE;
  for (char **row = rows; *row != NULL; row++)
    {
      CroQuick quick;
      CroNewLine line;
      gboolean is_sound = cro_quick_read (cro_book_get_model (book), *row, words, &quick);

      g_array_append_val (quicks, quick);
      if (quick.fault == CRO_QUICK_EMPTY)
        continue;
      if (!is_sound || !can_place (book, &quick, flags))
        {
          keep_back (rest, g_strchomp (*row));
          continue;
        }
      line = new_line_of (&quick, supplier, from, flags);
      g_array_append_val (lines, line);
    }
  if (lines->len > 0
      && !cro_edit_add_lines (book, label, recipe, after, (const CroNewLine *) lines->data,
                              lines->len, NULL, &taken, error))
    return FALSE;
  *left = rest->len > 0 ? g_string_free (g_steal_pointer (&rest), FALSE) : NULL;
  *n_placed = lines->len;
  if (item != NULL)
    *item = lines->len == 1 ? taken : CRO_NO_SLOT;
  return TRUE;
}
