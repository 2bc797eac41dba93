#include "config.h"

#include "cro-drop-down.h"

#include "cro-spoken.h"

static GtkWidget *
find_type (GtkWidget *widget,
           GType      type)
{
  GtkWidget *found = G_TYPE_CHECK_INSTANCE_TYPE (widget, type) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_type (child, type);
  return found;
}

static void
focus_chosen (GtkWidget *list)
{
  for (GtkWidget *row = gtk_widget_get_first_child (list); row != NULL; row = gtk_widget_get_next_sibling (row))
    if (gtk_widget_get_state_flags (row) & GTK_STATE_FLAG_SELECTED)
      gtk_widget_grab_focus (row);
}

/* Once the list has its size, in the second frame; its row is there once it is scrolled to. Who types fast may have
 * closed it by then: with the focus in it, unseen, no key would be heard. */
static gboolean
go_cb (GtkWidget     *list,
       GdkFrameClock *clock,
       gpointer       first)
{
  GtkDropDown *self = GTK_DROP_DOWN (gtk_widget_get_ancestor (list, GTK_TYPE_DROP_DOWN));
  guint at = gtk_drop_down_get_selected (self);

  if (!gtk_widget_get_mapped (list))
    return G_SOURCE_REMOVE;
  if (gdk_frame_clock_get_frame_counter (clock) <= *(gint64 *) first)
    return G_SOURCE_CONTINUE;
  if (at != GTK_INVALID_LIST_POSITION)
    gtk_widget_activate_action (list, "list.scroll-to-item", "u", at);
  if (gtk_drop_down_get_enable_search (self))
    gtk_widget_grab_focus (find_type (GTK_WIDGET (self), GTK_TYPE_SEARCH_ENTRY));
  else if (at != GTK_INVALID_LIST_POSITION)
    focus_chosen (list);
  return G_SOURCE_REMOVE;
}

/* The toolkit's opens at its top, with the focus on the first. */
static void
opened_cb (GtkWidget *list)
{
  gint64 first = gdk_frame_clock_get_frame_counter (gtk_widget_get_frame_clock (list)) + 1;

  gtk_widget_add_tick_callback (list, go_cb, g_memdup2 (&first, sizeof first), g_free);
}

/* The first whose text begins as it was typed, as the list is searched; of nothing typed the one that is chosen. Who
 * types fast is ahead of the list, which waits before it leaves rows out: it has them all again here. */
static void
searched_cb (GtkEditable *search,
             GtkWidget   *list)
{
  GtkDropDown *self = GTK_DROP_DOWN (gtk_widget_get_ancestor (list, GTK_TYPE_DROP_DOWN));
  g_autofree char *typed = g_utf8_casefold (gtk_editable_get_text (search), -1);
  GtkSelectionModel *rows = gtk_list_view_get_model (GTK_LIST_VIEW (list));
  GListModel *all = gtk_drop_down_get_model (self);
  guint at = *typed == '\0' ? gtk_drop_down_get_selected (self) : GTK_INVALID_LIST_POSITION;

  for (guint i = 0; at == GTK_INVALID_LIST_POSITION && i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkStringObject) item = g_list_model_get_item (all, i);
      g_autofree char *folded = g_utf8_casefold (gtk_string_object_get_string (item), -1);

      if (g_str_has_prefix (folded, typed))
        at = i;
    }
  if (at == GTK_INVALID_LIST_POSITION)
    return;
  gtk_editable_set_text (search, "");
  if (g_list_model_get_n_items (G_LIST_MODEL (rows)) != g_list_model_get_n_items (all))
    return;
  gtk_selection_model_select_item (rows, at, TRUE);
  gtk_widget_activate_action (list, "list.activate-item", "u", at);
}

GtkWidget *
cro_drop_down_new_model (GListModel *model,
                         const char *name)
{
  GtkWidget *self = gtk_drop_down_new (model, gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string"));
  GtkWidget *list = find_type (self, GTK_TYPE_LIST_VIEW);

  g_signal_connect_after (list, "map", G_CALLBACK (opened_cb), NULL);
  g_signal_connect_object (find_type (self, GTK_TYPE_SEARCH_ENTRY), "activate", G_CALLBACK (searched_cb), list, 0);
  if (name != NULL)
    cro_spoken_set (self, name);
  return self;
}

GtkWidget *
cro_drop_down_new (const char *const *words,
                   const char        *name)
{
  return cro_drop_down_new_model (G_LIST_MODEL (gtk_string_list_new (words)), name);
}
