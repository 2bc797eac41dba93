/* cro-column-choice.h: drop-downs that say what the columns of a sheet hold, one for a column. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* words end in NULL. Signal "notify::selected", as of every drop-down. */
GtkWidget *cro_column_choice_new        (guint              column,
                                         const char *const *words,
                                         guint              chosen,
                                         const char        *name);

guint      cro_column_choice_get_column (GtkWidget         *choice);

/* Which of the words a column has. */
typedef guint (*CroColumnChosen) (gpointer owner, guint column);

/* Of all of them below a widget. */
void       cro_column_choices_show      (GtkWidget         *below,
                                         CroColumnChosen    chosen,
                                         gpointer           owner);

G_END_DECLS
