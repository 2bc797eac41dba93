#include "config.h"

#include "cro-choice.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-words.h"
#include "cro-unit.h"

struct _CroChoice
{
  GtkWidget          parent_instance;

  GtkWidget         *drop_down;
  const char *const *values;
  char             **owned;       /* of a choice that made its own values */

  CroBook           *book;
  const char        *table;
  gint64             id;
  const char        *column;
  char              *act;
  gboolean           is_setting;
};

G_DEFINE_FINAL_TYPE (CroChoice, cro_choice, GTK_TYPE_WIDGET)

static void
selected_cb (CroChoice *self)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->drop_down));
  g_autoptr (GError) error = NULL;
  CroCell cell;

  if (self->is_setting || self->book == NULL || at == GTK_INVALID_LIST_POSITION)
    return;
  cell = CRO_CELL_STR (self->values[at]);
  if (!cro_book_set (self->book, self->act, self->table, self->id, self->column, &cell, &error))
    {
      g_autofree char *message = cro_words_error (error);

      gtk_widget_set_tooltip_text (self->drop_down, message);
      cro_choice_refresh (self);
    }
}

void
cro_choice_refresh (CroChoice *self)
{
  const char *columns[] = { self->column, NULL };
  g_autoptr (CroRows) rows = NULL;
  const char *value;

  if (self->book == NULL)
    return;
  rows = cro_store_read_one (cro_book_get_store (self->book), self->table, self->id, columns, NULL);
  if (rows == NULL || !cro_rows_next (rows, NULL))
    return;
  value = cro_rows_get_text (rows, 0);
  self->is_setting = TRUE;
  for (guint i = 0; self->values[i] != NULL; i++)
    if (g_strcmp0 (self->values[i], value) == 0)
      gtk_drop_down_set_selected (GTK_DROP_DOWN (self->drop_down), i);
  self->is_setting = FALSE;
}

static void
cro_choice_dispose (GObject *object)
{
  CroChoice *self = CRO_CHOICE (object);

  g_clear_pointer (&self->drop_down, gtk_widget_unparent);
  g_clear_object (&self->book);
  g_clear_pointer (&self->act, g_free);
  g_clear_pointer (&self->owned, g_strfreev);
  G_OBJECT_CLASS (cro_choice_parent_class)->dispose (object);
}

static gboolean
cro_choice_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_CHOICE (widget)->drop_down);
}

static void
cro_choice_class_init (CroChoiceClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_choice_dispose;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_choice_grab_focus;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_choice_init (CroChoice *self)
{
}

GtkWidget *
cro_choice_new (const char        *name,
                const char *const *values,
                const char *const *words)
{
  CroChoice *self = g_object_new (CRO_TYPE_CHOICE, NULL);

  self->values = values;
  self->drop_down = gtk_drop_down_new_from_strings (words);
  gtk_widget_set_parent (self->drop_down, GTK_WIDGET (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->drop_down), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  name, -1);
  g_signal_connect_swapped (self->drop_down, "notify::selected", G_CALLBACK (selected_cb), self);
  return GTK_WIDGET (self);
}

GtkWidget *
cro_choice_new_unit (const char *name,
                     unsigned    bases)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) units = NULL;
  GtkWidget *choice;

  for (int unit = 0; unit < CRO_N_UNITS; unit++)
    if (bases & (1u << cro_unit_get ((CroUnit) unit)->base))
      g_strv_builder_add (builder, cro_unit_get ((CroUnit) unit)->code);
  units = g_strv_builder_end (builder);
  choice = cro_choice_new (name, (const char *const *) units, (const char *const *) units);
  CRO_CHOICE (choice)->owned = g_steal_pointer (&units);
  return choice;
}

void
cro_choice_bind (CroChoice  *self,
                 CroBook    *book,
                 const char *table,
                 gint64      id,
                 const char *column,
                 const char *act)
{
  g_set_object (&self->book, book);
  self->table = g_intern_string (table);
  self->id = id;
  self->column = g_intern_string (column);
  g_free (self->act);
  self->act = g_strdup (act);
  cro_choice_refresh (self);
}
