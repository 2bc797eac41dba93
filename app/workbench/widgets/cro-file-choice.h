/* cro-file-choice.h: asks a person for a file or a folder. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef struct
{
  const char           *title;      /* in the user's language */
  GtkFileChooserAction  action;
  const char           *name;       /* that a file is saved under; NULL: nothing is proposed */
  const char           *kind;       /* "Books", of the files that are shown; NULL: all of them */
  const char *const    *suffixes;   /* their endings, up to NULL */
} CroFileChoice;

/* Not called where nothing was chosen, or owner is gone. path is borrowed. */
typedef void (*CroFileChosen) (gpointer owner, const char *path);

/* window: the question stands before it. The texts of choice are copied. */
void cro_file_choice_ask (const CroFileChoice *choice,
                          GtkWindow           *window,
                          CroFileChosen        chosen,
                          gpointer             owner);

G_END_DECLS
