/* cro-book-private.h: what an open book is made of: how changes reach the figures
 * (cro-book-changes.c), what is shown otherwise than it is (cro-book-preview.c), acts (cro-book.c). */
#pragma once

#include "cro-book-try.h"
#include "cro-kept-row.h"

G_BEGIN_DECLS

struct _CroBook
{
  GObject     parent_instance;

  CroStore   *store;
  CroModel   *model;
  CroFigures *figures;
  CroDate     date;
  gboolean    is_past;
  CroDate     day;             /* of a past: how the book stood at its end */
  CroBook    *tried;           /* the book that this is a trial of; NULL: it is none */
  gint64      last_change;     /* newest change that the figures know */
  gboolean    in_act;
  GPtrArray  *taken;           /* changes of the act being ended, in the figures already */
  guint64     edition;
  CroBookLook look;            /* of an act that is tried, and not committed; NULL: of none */
  gpointer    look_data;
  gboolean    has_looked;

  CroBookLater later;          /* NULL: whoever listens is told at once */
  gpointer    later_data;
  gboolean    is_untold;

  /* The row that previews were shown of, as it stood at an edition; NULL: they go by the store. */
  CroKeptRow *kept;
  const char *kept_table;
  gint64      kept_id;
  guint64     kept_edition;
  gboolean    is_kept_shown;   /* otherwise than it is */

  /* One that goes by the store and is shown otherwise than it is; table NULL: none. */
  const char *preview_table;
  gint64      preview_id;
};

/* Figures moved: tells so at once, or later where somebody wants it later. */
void     cro_book_move           (CroBook             *self);

/* --- Changes: cro-book-changes.c -------------------------------------------------------------- */

/* What rows mean together for the figures. */
typedef struct
{
  gboolean    structure;
  gboolean    all;
  gboolean    everything;   /* a fill: no rows are named */
  GHashTable *prices;       /* slots of items */
  GHashTable *items;
  GHashTable *recipes;
} CroMoves;

void     cro_moves_init          (CroMoves            *moves);
void     cro_moves_clear         (CroMoves            *moves);
void     cro_moves_note          (CroMoves            *moves,
                                  const CroTouched    *touched);

/* Takes a row into the model, as it stands or with cells that are not written; cells may be NULL. */
gboolean cro_book_take           (CroBook             *self,
                                  CroMoves            *moves,
                                  const char          *table,
                                  gint64               id,
                                  const char *const   *columns,
                                  const CroCell       *cells,
                                  GError             **error);

/* What rows that were taken mean for the figures. */
gboolean cro_book_carry_out      (CroBook             *self,
                                  CroMoves            *moves,
                                  GError             **error);

/* Reads everything anew: after a fill, or where a change cannot be followed row by row. */
gboolean cro_book_reload         (CroBook             *self,
                                  GError             **error);

/* What other connections committed since, within a moment of the store. */
gboolean cro_book_take_in_others (CroBook             *self,
                                  gboolean            *changed,
                                  GError             **error);

/* A CroStore's check of an act; and when the act was not committed after all. */
gboolean cro_book_check_act      (gpointer             user_data,
                                  GError             **error);
void     cro_book_take_back      (CroBook             *self);

/* No two books of the process are ever of one edition: what is kept for an edition may not be taken
 * for another book's, a trial's or the past's. */
void     cro_book_next_edition   (CroBook             *self);

/* The newest of changes; the last one known where there are none. */
gint64   cro_book_last_of        (CroBook             *self,
                                  GPtrArray           *changes);

/* --- Previews: cro-book-preview.c ------------------------------------------------------------- */

/* Shows the row of a preview as it stands. */
gboolean cro_book_give_back      (CroBook             *self,
                                  GError             **error);

/* Everything as it stands in the store now, in a moment of it that goes on if this succeeds. */
gboolean cro_book_begin_preview  (CroBook             *self,
                                  GError             **error);
void     cro_book_end_preview    (CroBook             *self);

/* Figures as they stand in the store are what an act begins with. */
gboolean cro_book_leave_preview  (CroBook             *self,
                                  GError             **error);

G_END_DECLS
