#include "cro-name-filter.h"

#include "cro-drop-down.h"
#include "cro-spoken.h"

struct _CroNameFilter
{
  GtkWidget      parent_instance;

  GtkWidget     *drop;
  char          *any;
  GtkStringList *names;       /* the first one is any */
  GArray        *keys;        /* guint32: of the others */
  gboolean       is_setting;
};

G_DEFINE_FINAL_TYPE (CroNameFilter, cro_name_filter, GTK_TYPE_WIDGET)

enum
{
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
selected_cb (CroNameFilter *self)
{
  if (!self->is_setting)
    g_signal_emit (self, signals[CHANGED], 0);
}

static void
cro_name_filter_dispose (GObject *object)
{
  CroNameFilter *self = CRO_NAME_FILTER (object);

  g_clear_pointer (&self->drop, gtk_widget_unparent);
  g_clear_object (&self->names);
  g_clear_pointer (&self->keys, g_array_unref);
  g_clear_pointer (&self->any, g_free);
  G_OBJECT_CLASS (cro_name_filter_parent_class)->dispose (object);
}

static void
cro_name_filter_class_init (CroNameFilterClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_name_filter_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[CHANGED] = g_signal_new ("changed", CRO_TYPE_NAME_FILTER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
cro_name_filter_init (CroNameFilter *self)
{
  self->names = gtk_string_list_new (NULL);
  self->keys = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->drop = cro_drop_down_new_model (g_object_ref (G_LIST_MODEL (self->names)), NULL);
  gtk_widget_set_parent (self->drop, GTK_WIDGET (self));
  g_signal_connect_object (self->drop, "notify::selected", G_CALLBACK (selected_cb), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
cro_name_filter_new (const char *any,
                     const char *name)
{
  CroNameFilter *self = g_object_new (CRO_TYPE_NAME_FILTER, NULL);

  self->any = g_strdup (any);
  cro_spoken_set (self->drop, name);
  cro_name_filter_set_names (self, NULL, NULL, 0);
  return GTK_WIDGET (self);
}

static gboolean
has_names (CroNameFilter      *self,
           const char *const  *names,
           guint               n)
{
  if (g_list_model_get_n_items (G_LIST_MODEL (self->names)) != n + 1)
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (g_strcmp0 (gtk_string_list_get_string (self->names, i + 1), names[i]) != 0)
      return FALSE;
  return TRUE;
}

static guint
position_of (CroNameFilter *self,
             const char    *name)
{
  for (guint i = 1; name != NULL && i < g_list_model_get_n_items (G_LIST_MODEL (self->names)); i++)
    if (g_str_equal (gtk_string_list_get_string (self->names, i), name))
      return i;
  return 0;
}

void
cro_name_filter_set_names (CroNameFilter      *self,
                           const char *const  *names,
                           const guint32      *keys,
                           guint               n)
{
  g_autofree char *chosen = g_strdup (cro_name_filter_get (self));

  gtk_widget_set_visible (GTK_WIDGET (self), n > 0);
  g_array_set_size (self->keys, 0);
  if (keys != NULL)
    g_array_append_vals (self->keys, keys, n);
  if (has_names (self, names, n))
    return;
  self->is_setting = TRUE;
  gtk_string_list_splice (self->names, 0, g_list_model_get_n_items (G_LIST_MODEL (self->names)),
                          NULL);
  gtk_string_list_append (self->names, self->any);
  for (guint i = 0; i < n; i++)
    gtk_string_list_append (self->names, names[i]);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->drop), position_of (self, chosen));
  self->is_setting = FALSE;
  if (chosen != NULL && cro_name_filter_get (self) == NULL)
    g_signal_emit (self, signals[CHANGED], 0);
}

const char *
cro_name_filter_get (CroNameFilter *self)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->drop));

  return at == 0 || at == GTK_INVALID_LIST_POSITION ? NULL
                                                    : gtk_string_list_get_string (self->names, at);
}

guint32
cro_name_filter_get_key (CroNameFilter *self,
                         guint32        none)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->drop));

  return at == 0 || at > self->keys->len ? none : g_array_index (self->keys, guint32, at - 1);
}

void
cro_name_filter_reset (CroNameFilter *self)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->drop), 0);
}
