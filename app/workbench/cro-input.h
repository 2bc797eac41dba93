/* cro-input.h: a field that shows one column of one row, and changes it.
 *
 * Typing previews: every figure shows what would be. Enter, or leaving the field, keeps it as
 * one act; Escape gives back what was. A wrong entry stays, with the reason under it, and
 * nothing is blocked. While it is edited, a change made elsewhere does not touch its text.
 *
 * Units      Columns …_micro hold millionths; a percentage shows 62.5 for 62500000. */
#pragma once

#include <gtk/gtk.h>

#include "cro-book.h"
#include "cro-entry.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_INPUT_NUMBER,
  CRO_INPUT_PCT,
  CRO_INPUT_YIELD,    /* a percentage; takes "loss 38 %" too */
  CRO_INPUT_TEXT,
  CRO_INPUT_DATE,
} CroInputKind;

#define CRO_TYPE_INPUT (cro_input_get_type ())
G_DECLARE_FINAL_TYPE (CroInput, cro_input, CRO, INPUT, GtkWidget)

/* range: what the column holds; name: its accessible name; act: the label of its acts ("price of brown crab"), as undo shows
 * it. */
GtkWidget  *cro_input_new      (CroInputKind   kind,
                                CroRange       range,
                                const char    *name);

/* The row and column that it shows; placeholder: what stands there when nothing is set. */
void        cro_input_bind     (CroInput      *self,
                                CroBook       *book,
                                const char    *table,
                                gint64         id,
                                const char    *column,
                                const char    *act,
                                const char    *placeholder);

/* Shows the value of the row anew, unless it is being edited. */
void        cro_input_refresh  (CroInput      *self);

void        cro_input_set_width (CroInput     *self,
                                 int           chars);

/* Text stands at the right, digits under digits. */
void        cro_input_set_numeric (CroInput   *self);

gboolean    cro_input_is_edited (CroInput     *self);

G_END_DECLS
