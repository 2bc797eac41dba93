#include "support/widgets.h"

#include <string.h>

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

#define PATIENCE_MS 20000

/* --- Waiting ---------------------------------------------------------------------------------- */

static gboolean
late_cb (gpointer is_late)
{
  *(gboolean *) is_late = TRUE;
  return G_SOURCE_REMOVE;
}

guint
cro_test_lose_patience (gboolean *is_late)
{
  return g_timeout_add (PATIENCE_MS, late_cb, is_late);
}

void
cro_test_settle (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

void
cro_test_see (GtkWidget *window)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (window);
  gint64 before = gdk_frame_clock_get_frame_counter (clock);

  gtk_widget_queue_draw (window);
  cro_test_wait_until (gdk_frame_clock_get_frame_counter (clock) > before, "nothing is painted");
  cro_test_settle ();
}

void
cro_test_wait_shown (GtkWidget  *widget,
                     const char *text)
{
  cro_test_wait_until (cro_test_find_shown (widget, text) != NULL, "%s is not shown", text);
}

/* --- Finding ---------------------------------------------------------------------------------- */

GtkWidget *
cro_test_find_type (GtkWidget *widget,
                    GType      type)
{
  GtkWidget *found = gtk_widget_get_mapped (widget) && G_TYPE_CHECK_INSTANCE_TYPE (widget, type)
                         ? widget
                         : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = cro_test_find_type (child, type);
  return found;
}

GtkWidget *
cro_test_find_shown (GtkWidget  *widget,
                     const char *text)
{
  GtkWidget *found = gtk_widget_get_mapped (widget) && GTK_IS_LABEL (widget)
                             && strcmp (gtk_label_get_label (GTK_LABEL (widget)), text) == 0
                         ? widget
                         : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = cro_test_find_shown (child, text);
  return found;
}

GtkWidget *
cro_test_find_containing (GtkWidget  *widget,
                          const char *text)
{
  GtkWidget *found = gtk_widget_get_mapped (widget) && GTK_IS_LABEL (widget)
                             && strstr (gtk_label_get_label (GTK_LABEL (widget)), text) != NULL
                         ? widget
                         : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = cro_test_find_containing (child, text);
  return found;
}

/* --- Gone with their window ------------------------------------------------------------------- */

static GHashTable *alive;

static void
gone_cb (gpointer  unused,
         GObject  *widget)
{
  g_hash_table_remove (alive, widget);
}

static gboolean
mapped_cb (GSignalInvocationHint *hint,
           guint                  n_values,
           const GValue          *values,
           gpointer               unused)
{
  GObject *widget = g_value_get_object (&values[0]);

  if (g_hash_table_add (alive, widget))
    g_object_weak_ref (widget, gone_cb, NULL);
  return TRUE;
}

void
cro_test_widgets_watch (void)
{
  gpointer type = g_type_class_ref (GTK_TYPE_WIDGET);

  alive = g_hash_table_new (NULL, NULL);
  g_signal_add_emission_hook (g_signal_lookup ("map", GTK_TYPE_WIDGET), 0, mapped_cb, NULL, NULL);
  g_type_class_unref (type);
}

static char *
dup_types (void)
{
  GString *types = g_string_new (NULL);
  GHashTableIter iter;
  gpointer widget;

  g_hash_table_iter_init (&iter, alive);
  while (g_hash_table_iter_next (&iter, &widget, NULL))
    g_string_append_printf (types, " %s", G_OBJECT_TYPE_NAME (widget));
  return g_string_free (types, FALSE);
}

void
cro_test_widgets_gone (void)
{
  cro_test_wait_until (g_hash_table_size (alive) == 0, "widgets outlive their window:%s",
                       dup_types ());
}

void
cro_test_key (GtkWidget *entry,
              guint      keyval)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (entry);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);
      gboolean done = FALSE;

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller)
          && gtk_event_controller_get_propagation_phase (controller) == GTK_PHASE_CAPTURE)
        g_signal_emit_by_name (controller, "key-pressed", keyval, 0, 0, &done);
    }
  cro_test_settle ();
}

void
cro_test_escape (GtkWidget *entry)
{
  cro_test_key (entry, GDK_KEY_Escape);
}

static GtkShortcut *
find_shortcut (GtkWidget  *widget,
               const char *trigger)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);

      for (guint k = 0; GTK_IS_SHORTCUT_CONTROLLER (controller)
                        && k < g_list_model_get_n_items (G_LIST_MODEL (controller)); k++)
        {
          g_autoptr (GtkShortcut) shortcut = g_list_model_get_item (G_LIST_MODEL (controller), k);
          g_autofree char *text = gtk_shortcut_trigger_to_string (gtk_shortcut_get_trigger (shortcut));

          if (g_str_equal (text, trigger))
            return g_steal_pointer (&shortcut);
        }
    }
  return NULL;
}

gboolean
cro_test_press_shortcut (GtkWidget  *widget,
                         const char *trigger)
{
  g_autoptr (GtkShortcut) shortcut = find_shortcut (widget, trigger);

  assert_non_null (shortcut);
  return gtk_shortcut_action_activate (gtk_shortcut_get_action (shortcut), 0, widget,
                                       gtk_shortcut_get_arguments (shortcut));
}
