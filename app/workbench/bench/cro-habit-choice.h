/* cro-habit-choice.h: which selling prices the house rounds to, a setting of the book, chosen where
 * it is seen at work as well as in the settings. */
#pragma once

#include <gtk/gtk.h>

#include "cro-book.h"

G_BEGIN_DECLS

GtkWidget *cro_habit_choice_new  (void);

/* Follows the book from now on. */
void       cro_habit_choice_bind (GtkWidget *choice,
                                  CroBook   *book);

G_END_DECLS
