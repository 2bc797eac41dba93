/* cro-focus.h: where the focus is, and how it comes back there.
 *
 * A bench makes its rows anew when another thing stands on it, so a cell is remembered by the
 * way to it: the number of each child from the bench down. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* "2/0/1": from ancestor to the widget that has the focus; NULL: the focus is not below it.
 * Owned. */
char      *cro_focus_dup_way (GtkWidget   *ancestor);

/* Whether something on that way took the focus. */
gboolean   cro_focus_go      (GtkWidget   *ancestor,
                              const char  *way);

/* Whether what stood at the end of that way stands there. */
gboolean   cro_focus_leads   (GtkWidget   *ancestor,
                              const char  *way);

/* Whether the focus of its window is at or below it, whichever window is in front. */
gboolean   cro_focus_is_in   (GtkWidget   *widget);

/* Gives the focus to a widget that neither a click nor Tab leads to. Words that stand there are not selected: the
 * first key would write over a name. Whether it took the focus. */
gboolean   cro_focus_grab    (GtkWidget   *widget);

/* Selects all of an entry that has the focus. A window system can take what is selected back: X tells who gave a
 * selection up after they have the next, and within a millisecond neither side can tell the two apart. So it is looked
 * at for a moment, and selected again. */
void       cro_focus_select  (GtkWidget   *entry);

/* Nothing of an entry that the focus left is selected any more; a moment later, for the same reason. */
void       cro_focus_unselect (GtkWidget  *entry);

/* The first thing at or below widget that takes the focus, by cro_focus_grab(); not the next after what had it
 * last, as gtk_widget_child_focus has it. */
gboolean   cro_focus_first   (GtkWidget   *widget);

/* The first thing of a widget is at or below that child then, while that can have the focus; NULL: as it
 * stands. The child is borrowed: another is said before it goes. */
void       cro_focus_begin_at (GtkWidget  *widget,
                              GtkWidget   *child);

/* How a widget of a class hands the focus on to its first child, as GtkWidgetClass.focus: GTK's own
 * would grab it again where a key leads backwards out of what the widget grabs it for. */
gboolean   cro_focus_within  (GtkWidget        *widget,
                              GtkDirectionType  direction);

/* The first visible widget of a style class at or below widget; NULL: none. */
GtkWidget *cro_focus_find    (GtkWidget   *widget,
                              const char  *css_class);

/* Goes to an entry, whose text begins anew with a sign that was typed elsewhere. */
void       cro_focus_type    (GtkWidget   *entry,
                              gunichar     sign);

G_END_DECLS
