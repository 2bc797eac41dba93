/* cro-mark-table.h: a table of signs: rows with a name, narrow columns of signs and a note, under headings
 * that stay in sight; some rows are headings of what follows.
 *
 * The focus stands on a sign: arrows, Home, End, Page Up and Page Down walk them, past headings.
 *
 * Signals    "moved": the focus came to another sign; "activated" (guint row): Enter on it; "pressed" (guint
 *            row, guint column, gboolean shifted): by the mouse. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What it shows; asked for what is in sight. Columns are those of signs, from 0. Texts are given away. */
typedef struct
{
  guint       (*get_n)       (gpointer owner);
  /* NULL: the row has signs. */
  char       *(*dup_heading) (gpointer owner, guint row);
  char       *(*dup_name)    (gpointer owner, guint row);
  const char *(*get_sign)    (gpointer owner, guint row, guint column);
  char       *(*dup_said)    (gpointer owner, guint row, guint column);
  char       *(*dup_note)    (gpointer owner, guint row);
} CroMarkRows;

#define CRO_TYPE_MARK_TABLE (cro_mark_table_get_type ())
G_DECLARE_FINAL_TYPE (CroMarkTable, cro_mark_table, CRO, MARK_TABLE, GtkWidget)

/* rows is static; owner is borrowed, and may be the widget around. name: its accessible name. */
GtkWidget *cro_mark_table_new         (const CroMarkRows *rows,
                                       gpointer           owner,
                                       const char        *name);

/* Other columns, with the titles of the first and the last: letters and words by column. */
void       cro_mark_table_set_columns (CroMarkTable       *self,
                                       const char         *first,
                                       const char         *last,
                                       const char *const  *letters,
                                       const char *const  *words,
                                       guint               n);

/* Other rows, or in another order. The focus, if it is in the table, goes to a row by number; where
 * there is none such, to the nearest. */
void       cro_mark_table_read        (CroMarkTable       *self,
                                       guint               row);

/* The same rows with other signs. */
void       cro_mark_table_show        (CroMarkTable       *self);

/* Where the focus is or was last; FALSE: there is no row with signs. */
gboolean   cro_mark_table_get_place   (CroMarkTable       *self,
                                       guint              *row,
                                       guint              *column);

/* Whether the focus is on a sign. */
gboolean   cro_mark_table_has_focus   (CroMarkTable       *self);

/* Goes to a sign; the focus too, where it is in the table or is wanted. */
void       cro_mark_table_go          (CroMarkTable       *self,
                                       guint               row,
                                       guint               column,
                                       gboolean            with_focus);

/* To the next row with signs, or the one before. FALSE: there is none. */
gboolean   cro_mark_table_go_on       (CroMarkTable       *self,
                                       int                 by);

G_END_DECLS
