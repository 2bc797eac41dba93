/* cro-book.h: one open book: edits in, figures out.
 *
 * A change reaches the figures by one way, whoever made it: an act of this desk, its undo or
 * redo, or an act of another process leaves rows in the journal, and the rows named there are
 * read anew, in one moment of the store; what others committed until then is taken in with it. A
 * preview takes the same way with a value that is not written yet, and a row that was read once:
 * keys that are typed ask the store nothing.
 *
 * Threads    All calls on one book from one thread at a time. Loading may run in another before
 *            the book is handed over (it has its own connection then), and so may work on a trial,
 *            which shares nothing with its book but the reference.
 * Signals    "changed" after figures moved, whatever the reason: at once, or when whoever shows the
 *            book says so (cro_book_set_later). */
#pragma once

#include <glib-object.h>

#include "cro-figures.h"
#include "cro-history.h"
#include "cro-model.h"

G_BEGIN_DECLS

#define CRO_TYPE_BOOK (cro_book_get_type ())
G_DECLARE_FINAL_TYPE (CroBook, cro_book, CRO, BOOK, GObject)

#define CRO_BOOK_ERROR (cro_book_error_quark ())

typedef enum
{
  CRO_BOOK_ERROR_CYCLE,     /* the message is the path, "gel → infusion → gel" */
  CRO_BOOK_ERROR_TRIAL,     /* an act in a trial that makes or removes things */
} CroBookErrorCode;

GQuark      cro_book_error_quark  (void);

/* Opens the book and computes its figures as of date. */
CroBook    *cro_book_open         (const char     *path,
                                   const char     *desk,
                                   CroStoreMode    mode,
                                   CroDate         date,
                                   GError        **error);

/* Opens the book as it stood at the end of a day, with the figures of date: a copy in memory
 * that follows nobody and refuses every edit and preview with CRO_STORE_ERROR_PAST. BEFORE
 * where the book began later. */
CroBook    *cro_book_open_past    (const char     *path,
                                   CroDate         day,
                                   CroDate         date,
                                   GError        **error);

/* The book as it stood when a month was closed last, by its row of table month: a copy as above. */
CroBook    *cro_book_open_closed  (CroBook        *of,
                                   gint64          month,
                                   CroDate         date,
                                   GError        **error);

/* Recipes as they stood at the end of a day, at the prices of today's rows (cro_store_open_recipes),
 * without records: what a month is costed by. A copy in memory as above, of a book that is open. */
CroBook    *cro_book_open_recipes (CroBook        *of,
                                   CroDate         day,
                                   CroDate         date,
                                   GError        **error);

/* Whether this is a book as it stood, and on what day. day may be NULL. */
gboolean    cro_book_is_past      (CroBook        *self,
                                   CroDate        *day);

/* A trial of a book: another book, in memory, with its figures of its date, in which values, lines
 * and prices are changed as in any other, and undone. What makes or removes more than lines and
 * prices is refused there as CRO_BOOK_ERROR_TRIAL. It does not follow the book. */
CroBook    *cro_book_open_trial   (CroBook        *of,
                                   GError        **error);

/* The book that this is a trial of. Borrowed; NULL: it is none. */
CroBook    *cro_book_get_tried    (CroBook        *self);

CroBook    *cro_book_create       (const char     *path,
                                   const char     *desk,
                                   CroDate         date,
                                   GError        **error);

/* Borrowed. Slots and figures stay those of this model while it is the same: it is another one
 * only after an empty book was filled elsewhere. */
CroStore   *cro_book_get_store    (CroBook        *self);
CroModel   *cro_book_get_model    (CroBook        *self);
CroFigures *cro_book_get_figures  (CroBook        *self);

/* Rises whenever rows of the store or the date moved; a preview moves neither, so what was read of
 * the store at one edition need not be read again. */
guint64     cro_book_get_edition  (CroBook        *self);

/* No figure moved, but what is asked of them: whatever is kept for an edition is looked at anew. */
void        cro_book_ask_anew     (CroBook        *self);

/* Prices and rates of another day. */
gboolean    cro_book_set_date     (CroBook        *self,
                                   CroDate         date,
                                   GError        **error);

/* --- Previews: not within an act --------------------------------------------------------- */

/* Reads the row that may be previewed next, ahead of the first key; not while another is shown. */
gboolean    cro_book_look_at      (CroBook        *self,
                                   const char     *table,
                                   gint64          id,
                                   GError        **error);

/* Shows what the figures would be if one column of a row held cell; nothing is written. One
 * preview at a time: another takes its place. CYCLE if the change would make one; the figures
 * are then as before. A rate, and the date of a price, have no preview. */
gboolean    cro_book_preview      (CroBook        *self,
                                   const char     *table,
                                   gint64          id,
                                   const char     *column,
                                   const CroCell  *cell,
                                   GError        **error);

/* The same for columns that change together, NULL-terminated, CRO_PREVIEW_MOST at most. */
gboolean    cro_book_preview_row  (CroBook            *self,
                                   const char         *table,
                                   gint64              id,
                                   const char *const  *columns,
                                   const CroCell      *cells,
                                   GError            **error);

/* The same for the price of an offer, which need not have one yet; millionths per pack. Tax
 * and pack are those of the price in force: what an act writes at the book's date. */
gboolean    cro_book_preview_price (CroBook       *self,
                                   guint32         offer,
                                   gint64          price,
                                   GError        **error);

/* The same for a price of the pack that the offer is spoken of in (cro-own-pack.h). */
gboolean    cro_book_preview_own_price (CroBook   *self,
                                   guint32         offer,
                                   gint64          price,
                                   GError        **error);

/* Gives back the figures as they were before the preview, to the bit. */
gboolean    cro_book_restore      (CroBook        *self,
                                   GError        **error);

/* --- Acts ---------------------------------------------------------------------------------- */

/* Writes rows through the store between these two; what cro_book_end_act commits is in the
 * figures when it returns. If it fails (CYCLE, or the store refuses) nothing was changed and
 * the act is over. */
gboolean    cro_book_begin_act    (CroBook        *self,
                                   const char     *label,
                                   GError        **error);
gboolean    cro_book_end_act      (CroBook        *self,
                                   GError        **error);
/* Likewise; *act: its number, 0 where it wrote nothing and there is none. */
gboolean    cro_book_end_numbered (CroBook        *self,
                                   gint64         *act,
                                   GError        **error);
void        cro_book_cancel_act   (CroBook        *self);

/* One column of one row, as an act of its own. */
gboolean    cro_book_set          (CroBook        *self,
                                   const char     *label,
                                   const char     *table,
                                   gint64          id,
                                   const char     *column,
                                   const CroCell  *cell,
                                   GError        **error);

gboolean    cro_book_undo         (CroBook        *self,
                                   CroConflict    *conflict,
                                   GError        **error);
/* Any act that stands, whoever made it; see cro_store_undo_act. */
gboolean    cro_book_undo_act     (CroBook        *self,
                                   gint64          act,
                                   CroConflict    *conflict,
                                   GError        **error);
gboolean    cro_book_redo         (CroBook        *self,
                                   CroConflict    *conflict,
                                   GError        **error);

/* Takes in what other processes committed since, which ends a preview; *changed may be NULL. */
gboolean    cro_book_refresh      (CroBook        *self,
                                   gboolean       *changed,
                                   GError        **error);

/* --- Telling --------------------------------------------------------------------------------- */

/* Called once or more after figures moved, in place of "changed": what shows a book in a main loop
 * must not be rebuilt under the event that moved it. cro_book_tell then emits the signal, once for
 * all that moved until then; it does nothing where nothing did. */
typedef void (*CroBookLater) (CroBook *self, gpointer user_data);

void        cro_book_set_later    (CroBook        *self,
                                   CroBookLater    later,
                                   gpointer        user_data);
void        cro_book_tell         (CroBook        *self);

G_END_DECLS
