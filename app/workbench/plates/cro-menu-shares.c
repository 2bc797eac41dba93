/* Shares of choices. They are typed one after the other, and make 100 per cent only with the last:
 * until then they wait in their fields, and all are kept as one act. */
#include "config.h"

#include "cro-menu-plates-private.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-row-grid.h"

typedef struct
{
  GArray *entries;    /* guint32, of one choice: those whose shares are typed */
  GArray *shares;     /* gint64, for each */
  gint64  open;       /* of 100 per cent, with those that are stored; below 0: too much */
  guint   n_taking;   /* plates without a share, which take what is left */
} Typed;

static void
typed_clear (Typed *typed)
{
  g_array_unref (typed->entries);
  g_array_unref (typed->shares);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Typed, typed_clear)

CroInput *
cro_menu_shares_input (CroMenuPlatesView *self,
                       guint              row)
{
  return CRO_INPUT (cro_row_grid_get (CRO_ROW_GRID (self->grid), row, SHARE));
}

static gint64
share_of_cell (const CroCell *cell)
{
  return cell->kind == CRO_CELL_NULL ? CRO_NO_SHARE : cell->integer;
}

static Typed
typed_shares (CroMenuPlatesView *self,
              const char        *choice)
{
  Typed typed = { g_array_new (FALSE, FALSE, sizeof (guint32)),
                  g_array_new (FALSE, FALSE, sizeof (gint64)), CRO_WHOLE_PCT, 0 };

  for (guint row = 0; row < self->entries->len; row++)
    {
      guint32 slot = g_array_index (self->entries, guint32, row);
      gint64 share = cro_menu_plates_entry_at (self, slot)->share;
      CroCell cell;

      if (cro_menu_plates_entry_at (self, slot)->choice != choice)
        continue;
      if (cro_input_read (cro_menu_shares_input (self, row), &cell))
        {
          share = share_of_cell (&cell);
          g_array_append_val (typed.entries, slot);
          g_array_append_val (typed.shares, share);
        }
      typed.open -= share != CRO_NO_SHARE ? share : 0;
      typed.n_taking += share == CRO_NO_SHARE ? 1 : 0;
    }
  return typed;
}

static gboolean
is_whole (const Typed *typed)
{
  return typed->open == 0 || (typed->open > 0 && typed->n_taking > 0);
}

/* What is kept with another's share is typed no more. */
static void
drop_kept (CroMenuPlatesView *self,
           const Typed       *typed,
           CroInput          *but)
{
  for (guint i = 0; i < typed->entries->len; i++)
    {
      int row = cro_menu_plates_index_of (self, g_array_index (typed->entries, guint32, i));

      if (row >= 0 && cro_menu_shares_input (self, (guint) row) != but)
        cro_input_drop (cro_menu_shares_input (self, (guint) row));
    }
}

/* What is typed moves figures where it alone makes the choice whole. Until then the preview is of what is stored,
 * which moves none: other shares that wait stand in the figures once all are kept. */
static gboolean
preview_share (CroInput       *input,
               const CroCell  *cell,
               gpointer        view,
               GError        **error)
{
  CroMenuPlatesView *self = view;
  CroBook *book = cro_input_get_book (input);
  const CroMenuPlate *plate = cro_menu_plates_entry_at (self, cro_menu_plates_entry_of (input));
  g_auto (Typed) typed = typed_shares (self, plate->choice);
  CroCell shown = *cell;

  if (plate->choice != NULL && (typed.entries->len > 1 || !is_whole (&typed)))
    {
      if (!cro_book_restore (book, error))
        return FALSE;
      shown = plate->share != CRO_NO_SHARE ? CRO_CELL_INT (plate->share) : CRO_CELL_NONE;
    }
  return cro_book_preview (book, "menu_plate", plate->id, "share_pct_micro", &shown, error);
}

static gboolean
keep_share (CroInput       *input,
            const CroCell  *cell,
            gpointer        view,
            GError        **error)
{
  CroMenuPlatesView *self = view;
  guint32 entry = cro_menu_plates_entry_of (input);
  gint64 share = share_of_cell (cell);
  g_auto (Typed) typed = typed_shares (self, cro_menu_plates_entry_at (self, entry)->choice);

  if (cro_menu_plates_entry_at (self, entry)->choice == NULL || typed.entries->len == 0)
    return cro_edit_set_shares (cro_input_get_book (input), cro_input_get_act (input), &entry,
                                &share, 1, error);
  if (!cro_edit_set_shares (cro_input_get_book (input), cro_input_get_act (input),
                            (const guint32 *) typed.entries->data,
                            (const gint64 *) typed.shares->data, typed.entries->len, error))
    return FALSE;
  drop_kept (self, &typed, input);
  return TRUE;
}

gboolean
cro_menu_shares_wait (const GError *error)
{
  return g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_SHARES);
}

const CroInputWay cro_menu_share_way = { .preview = preview_share, .keep = keep_share };

/* "choice “fish”: 40 % still open". */
static void
say_open (CroMenuPlatesView *self,
          const char        *choice,
          gint64             open)
{
  g_autofree char *pct = cro_words_pct_of ((double) ABS (open) / CRO_MICRO,
                                           open % CRO_MICRO == 0 ? 0 : 2);
  g_autofree char *whole = cro_words_pct_of (100, 0);
  g_autofree char *says = NULL;

  /* Translators: a choice of a menu ("fish"), and the part of guests that none of its plates has
   * yet, or that its plates have above 100 per cent; then 100 %. */
  says = cro_isolate_printf (open > 0 ? _("Choice “%s”: %s still open. Figures change once its shares come to %s.")
                                      : _("Choice “%s”: %s too much. Figures change once its shares come to %s."),
                             choice, pct, whole);
  cro_menu_heads_say (self, choice, says);
}

static gboolean
try_again_cb (gpointer view)
{
  CroMenuPlatesView *self = view;

  self->retry = 0;
  for (guint row = 0; row < self->entries->len; row++)
    cro_input_keep (cro_menu_shares_input (self, row));
  return G_SOURCE_REMOVE;
}

static gboolean
is_typing (CroMenuPlatesView *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))));
  GtkWidget *input = focus != NULL ? gtk_widget_get_ancestor (focus, CRO_TYPE_INPUT) : NULL;

  return input != NULL && cro_input_is_edited (CRO_INPUT (input));
}

/* What another plate that came into the choice makes right is kept once nothing is being typed. */
void
cro_menu_shares_show (CroMenuPlatesView *self)
{
  g_autoptr (GHashTable) said = g_hash_table_new (NULL, NULL);

  for (guint row = 0; row < self->entries->len; row++)
    {
      guint32 slot = g_array_index (self->entries, guint32, row);
      const char *choice = cro_menu_plates_entry_at (self, slot)->choice;
      g_auto (Typed) typed = typed_shares (self, choice);

      if (choice == NULL || typed.entries->len == 0 || !g_hash_table_add (said, (gpointer) choice))
        continue;
      if (!is_whole (&typed))
        say_open (self, choice, typed.open);
      else if (!is_typing (self))
        cro_bench_defer (self->bench, &self->retry, G_PRIORITY_DEFAULT_IDLE, try_again_cb, self);
    }
}
