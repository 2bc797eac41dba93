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

/* The share that a plate would have with other shares of some entries. */
static gint64
share_with (CroBook            *book,
            const CroMenuPlate *plate,
            const guint32      *entries,
            const gint64       *shares,
            guint               n)
{
  for (guint i = 0; i < n; i++)
    if (entry_of (book, entries[i]) == plate)
      return shares[i];
  return plate->share;
}

/* Whether the choice of entry comes to 100 per cent with other shares of some entries; without: as
 * if entry itself stood in no choice any more. */
static gboolean
comes_to_whole (CroBook       *book,
                guint32        entry,
                const guint32 *entries,
                const gint64  *shares,
                guint          n,
                gboolean       without)
{
  const CroMenuPlate *of = entry_of (book, entry);
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (cro_book_get_model (book), of->menu);
  g_autofree CroWayPlate *choice = g_new (CroWayPlate, ways->plates->len + 1);
  g_autofree double *part = g_new (double, ways->plates->len + 1);
  guint n_in = 0;

  for (guint i = 0; i < ways->plates->len; i++)
    {
      const CroMenuPlate *other = ways->plates->pdata[i];

      if (other->choice == of->choice && !(other == of && without))
        choice[n_in++] = (CroWayPlate){ 0, share_with (book, other, entries, shares, n) };
    }
  return cro_way_parts (choice, n_in, part) == n_in;
}

static gboolean
update_shares (CroBook        *book,
               const guint32  *entries,
               const gint64   *shares,
               guint           n,
               GError        **error)
{
  for (guint i = 0; i < n; i++)
    if (!cro_edit_update (book, "menu_plate", entry_of (book, entries[i])->id, "share_pct_micro",
                          shares[i] != CRO_NO_SHARE ? CRO_CELL_INT (shares[i]) : CRO_CELL_NONE,
                          error))
      return FALSE;
  return TRUE;
}

gboolean
cro_edit_set_shares (CroBook        *book,
                     const char     *label,
                     const guint32  *entries,
                     const gint64   *shares,
                     guint           n,
                     GError        **error)
{
  const CroMenuPlate *of = entry_of (book, entries[0]);

  if (of->choice != NULL && !comes_to_whole (book, entries[0], entries, shares, n, FALSE))
    {
      g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_SHARES, of->choice);
      return FALSE;
    }
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, update_shares (book, entries, shares, n, error), error);
}

gboolean
cro_edit_leave_choice (CroBook  *book,
                       guint32   entry,
                       GError  **error)
{
  const CroMenuPlate *of = entry_of (book, entry);
  g_autoptr (GPtrArray) plates = NULL;

  if (of->choice == NULL || comes_to_whole (book, entry, NULL, NULL, 0, TRUE))
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

static gboolean
is_among (guint32        entry,
          const guint32 *entries,
          guint          n)
{
  for (guint i = 0; i < n; i++)
    if (entries[i] == entry)
      return TRUE;
  return FALSE;
}

/* Whether the entries are all of one choice, and nobody else bears the name that it is to have. */
static gboolean
is_renaming (CroBook        *book,
             const guint32  *entries,
             guint           n,
             const char     *name)
{
  CroModel *model = cro_book_get_model (book);
  const CroMenuPlate *first = entry_of (book, entries[0]);

  if (first->choice == NULL || name == NULL)
    return FALSE;
  for (guint32 i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *other = entry_of (book, i);

      if (!other->is_dead && other->menu == first->menu
          && (is_among (i, entries, n) ? other->choice != first->choice
                                       : g_strcmp0 (other->choice, name) == 0
                                             || other->choice == first->choice))
        return FALSE;
    }
  return TRUE;
}

static gboolean
set_choice (CroBook        *book,
            guint32         entry,
            const CroCell  *choice,
            gboolean        keeps_share,
            GError        **error)
{
  const char *columns[] = { "choice", keeps_share ? NULL : "share_pct_micro", NULL };
  CroCell cells[] = { *choice, CRO_CELL_NONE };

  return (keeps_share || cro_edit_leave_choice (book, entry, error))
         && cro_store_update (cro_book_get_store (book), "menu_plate", entry_of (book, entry)->id, columns,
                              cells, error);
}

gboolean
cro_edit_set_choices (CroBook        *book,
                      const char     *label,
                      const guint32  *entries,
                      guint           n,
                      const CroCell  *choice,
                      GError        **error)
{
  gboolean done = TRUE, keeps_shares;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  keeps_shares = is_renaming (book, entries, n, choice->kind == CRO_CELL_TEXT ? choice->text : NULL);
  for (guint i = 0; done && i < n; i++)
    done = set_choice (book, entries[i], choice, keeps_shares, error);
  return cro_edit_end (book, done, error);
}

gboolean
cro_edit_set_choice (CroBook        *book,
                     const char     *label,
                     guint32         entry,
                     const CroCell  *choice,
                     GError        **error)
{
  return cro_edit_set_choices (book, label, &entry, 1, choice, error);
}
