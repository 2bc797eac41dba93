/* Choices of a menu: an edit leaves no choice whose shares come to another sum than 100 per cent.
 */
#include "cro-edit-private.h"

#include "cro-menu-ways.h"

static const CroMenuPlate *
entry_of (CroBook *book,
          guint32  entry)
{
  return &g_array_index (cro_book_get_model (book)->menu_plates, CroMenuPlate, entry);
}

/* Whether the choice of an entry comes to 100 per cent with another share of it; without: as if the
 * entry stood in no choice any more. */
static gboolean
comes_to_whole (CroBook  *book,
                guint32   entry,
                gint64    share,
                gboolean  without)
{
  const CroMenuPlate *of = entry_of (book, entry);
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (cro_book_get_model (book), of->menu);
  g_autofree CroWayPlate *choice = g_new (CroWayPlate, ways->plates->len + 1);
  g_autofree double *part = g_new (double, ways->plates->len + 1);
  guint n = 0;

  for (guint i = 0; i < ways->plates->len; i++)
    {
      const CroMenuPlate *other = ways->plates->pdata[i];

      if (other->choice != of->choice || (other == of && without))
        continue;
      choice[n++] = (CroWayPlate){ 0, other == of ? share : other->share };
    }
  return cro_way_parts (choice, n, part) == n;
}

gboolean
cro_edit_set_share (CroBook        *book,
                    const char     *label,
                    guint32         entry,
                    const CroCell  *share,
                    GError        **error)
{
  const CroMenuPlate *of = entry_of (book, entry);
  gint64 number = share->kind == CRO_CELL_NULL ? CRO_NO_SHARE : share->integer;

  if (of->choice != NULL && !comes_to_whole (book, entry, number, FALSE))
    {
      g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_SHARES, of->choice);
      return FALSE;
    }
  return cro_book_set (book, label, "menu_plate", of->id, "share_pct_micro", share, error);
}

gboolean
cro_edit_leave_choice (CroBook  *book,
                       guint32   entry,
                       GError  **error)
{
  const CroMenuPlate *of = entry_of (book, entry);
  g_autoptr (GPtrArray) plates = NULL;

  if (of->choice == NULL || comes_to_whole (book, entry, 0, TRUE))
    return TRUE;
  plates = cro_menu_dup_plates (cro_book_get_model (book), of->menu);
  for (guint i = 0; i < plates->len; i++)
    {
      const CroMenuPlate *other = plates->pdata[i];

      if (other != of && other->choice == of->choice && other->share != CRO_NO_SHARE
          && !cro_edit_update (book, "menu_plate", other->id, "share_pct_micro", CRO_CELL_NONE,
                               error))
        return FALSE;
    }
  return TRUE;
}

gboolean
cro_edit_set_choice (CroBook        *book,
                     const char     *label,
                     guint32         entry,
                     const CroCell  *choice,
                     GError        **error)
{
  const char *columns[] = { "choice", "share_pct_micro", NULL };
  CroCell cells[] = { *choice, CRO_CELL_NONE };
  gboolean done;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  done = cro_edit_leave_choice (book, entry, error)
         && cro_store_update (cro_book_get_store (book), "menu_plate", entry_of (book, entry)->id,
                              columns, cells, error);
  return cro_edit_end (book, done, error);
}
