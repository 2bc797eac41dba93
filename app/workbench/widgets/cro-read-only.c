#include "cro-read-only.h"

#include "cro-words.h"

/* An entry may have a hint of its own, which comes back. */
static void
show_entry (GtkWidget *entry,
            gboolean   is_past)
{
  if (gtk_editable_get_editable (GTK_EDITABLE (entry)) == !is_past)
    return;
  gtk_editable_set_editable (GTK_EDITABLE (entry), !is_past);
  if (is_past)
    g_object_set_data_full (G_OBJECT (entry), "hint", g_strdup (gtk_widget_get_tooltip_text (entry)), g_free);
  gtk_widget_set_tooltip_text (entry, is_past ? cro_words_past ()
                                              : (const char *) g_object_get_data (G_OBJECT (entry), "hint"));
}

/* One that could not be pressed before cannot after. */
static void
show_button (GtkWidget *button,
             gboolean   is_past)
{
  gboolean is_held = g_object_get_data (G_OBJECT (button), "past") != NULL;

  if (is_past == is_held || (is_past && !gtk_widget_get_sensitive (button)))
    return;
  g_object_set_data (G_OBJECT (button), "past", GINT_TO_POINTER (is_past));
  gtk_widget_set_sensitive (button, !is_past);
}

static void
show (GtkWidget *widget,
      gboolean   is_past)
{
  if (GTK_IS_ENTRY (widget))
    show_entry (widget, is_past);
  else if (GTK_IS_BUTTON (widget))
    show_button (widget, is_past);
  else
    for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
         child = gtk_widget_get_next_sibling (child))
      show (child, is_past);
}

void
cro_read_only_show (GtkWidget *widget,
                    CroBook   *book)
{
  show (widget, cro_book_is_past (book, NULL));
}
