/* cro-round-rows-private.h: what the files of a round's rows share. */
#pragma once

#include "cro-round-else.h"
#include "cro-round-rows.h"
#include "cro-round-words.h"

G_BEGIN_DECLS

/* Lines of the grid that a row has: its cells, and what is said of it. */
#define LINES 2

enum
{
  CODE,
  NAME,
  PACK,
  LAST,
  NOW,
  CHANGE,
  N_COLUMNS,
};

#define NOW_CHARS 13
#define NAME_CHARS 18

/* Where each row has one line. */
#define TIGHT_NOW_CHARS 10
#define TIGHT_NAME_CHARS 14

/* Rows in sight at a time: a field each. */
#define MOST_ROWS 100

typedef struct
{
  GtkWidget *entry;
  GtkWidget *pack;
  GtkWidget *last;
  GtkWidget *change;
  GtkWidget *other;      /* the other way round, under the field */
  GtkWidget *note;       /* its beginning; NULL until something is said */
} Row;

struct _CroRoundRows
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *grid;
  GtkWidget *line;       /* a new pack */
  GtkWidget *meaning;    /* what that is understood as */
  CroBench  *bench;      /* borrowed */
  CroRound  *round;      /* borrowed */
  GtkWidget *pages;      /* which part of a long list is in sight */
  GtkWidget *page;
  GtkWidget *page_before;
  GtkWidget *page_after;
  GtkWidget *asked;      /* what is said of one row, whole, and what answers it */
  GtkWidget *said;
  GtkWidget *answers;
  GtkWidget *suggest;
  GtkWidget *right;
  GtkWidget *else_;      /* a menu button: what else it may be */
  guint      asked_row;  /* that row; CRO_NO_SLOT: nothing is said */
  GArray    *rows;       /* Row: those in sight */
  guint      first;      /* of them */
  guint      row;        /* with the focus; CRO_NO_SLOT */
  guint      left;       /* that had it before */
  guint      typed;      /* that was typed into last, by hand */
  guint      answered;   /* that was answered in its popover */
  char      *entered;    /* what stood in the row when it was entered */
  char      *emptied;    /* what stood in it before it was emptied, or a word was typed, as a search does; NULL */
  gboolean   is_setting;
  gboolean   is_held;    /* cro_round_rows_hold () */
  gboolean   is_tight;
};

static inline Row *
row_at (CroRoundRows *self,
        guint         index)
{
  return &g_array_index (self->rows, Row, index - self->first);
}

static inline gboolean
is_in_sight (CroRoundRows *self,
             guint         index)
{
  return index >= self->first && index - self->first < self->rows->len;
}

static inline guint
n_rows_of (CroRoundRows *self)
{
  return self->round != NULL ? cro_round_get_n_rows (self->round) : 0;
}

/* The first line of a row in the grid, below the heads. */
static inline int
line_of (CroRoundRows *self,
         guint         index)
{
  return (int) (index - self->first + 1) * LINES;
}

/* A text that nobody typed. */
void       cro_round_rows_put_text   (CroRoundRows *self,
                                      GtkWidget    *entry,
                                      const char   *text);

/* Its field, whose keys are led here. */
GtkWidget *cro_round_rows_entry_new  (CroRoundRows *self,
                                      const char   *name);

/* Error is taken; NULL: none. That a row says something else now. */
void       cro_round_rows_fail       (CroRoundRows *self,
                                      GError       *error);
void       cro_round_rows_tell       (CroRoundRows *self);

/* Returns the field that the focus passes on to from a row. */
GtkWidget *cro_round_rows_pass_on    (CroRoundRows *self,
                                      guint         index);

/* --- cro-round-rows-answer.c --------------------------------------------------------------------- */

/* The widgets, and what they show as the rows are now. */
void       cro_round_rows_make_asked (CroRoundRows *self);
void       cro_round_rows_show_asked (CroRoundRows *self);

/* Until that is shown anew: what is said of a row, as where a search leads. */
void       cro_round_rows_say        (CroRoundRows *self,
                                      guint         index,
                                      const char   *note);

/* --- cro-round-rows-pages.c ---------------------------------------------------------------------- */

void       cro_round_rows_clear      (CroRoundRows *self);
void       cro_round_rows_show_from  (CroRoundRows *self,
                                      guint         first);
GtkWidget *cro_round_rows_pages_new  (CroRoundRows *self);

/* The rows as the round has them now, with the focus on one of them and the page where it stood. */
void       cro_round_rows_make_again (CroRoundRows *self,
                                      guint         index);

/* --- cro-round-rows-show.c ----------------------------------------------------------------------- */

void       cro_round_rows_add_heads  (CroRoundRows *self);
void       cro_round_rows_add_row    (CroRoundRows *self,
                                      guint         index);

/* What is said of a row, in words and figures. */
void       cro_round_rows_show_row   (CroRoundRows *self,
                                      guint         index);
void       cro_round_rows_show_note  (CroRoundRows *self,
                                      guint         index,
                                      const char   *note);

/* What is typed into it, in words. */
void       cro_round_rows_show_typed (CroRoundRows *self,
                                      guint         index);

G_END_DECLS
