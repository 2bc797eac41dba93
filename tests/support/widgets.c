#include "support/widgets.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

#define PATIENCE_MS 5000

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

static gboolean
late_cb (gpointer is_late)
{
  *(gboolean *) is_late = TRUE;
  return G_SOURCE_REMOVE;
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
  gboolean is_late = FALSE;
  guint id = g_timeout_add (PATIENCE_MS, late_cb, &is_late);

  while (g_hash_table_size (alive) > 0 && !is_late)
    g_main_context_iteration (NULL, TRUE);
  if (is_late)
    {
      g_autofree char *types = dup_types ();

      fail_msg ("widgets outlive their window:%s", types);
    }
  g_source_remove (id);
}
