#include "config.h"

#include "cro-traces-view.h"

#include <glib/gi18n.h>

#include "cro-allergen.h"
#include "cro-folded.h"
#include "cro-words.h"
#include "cro-wrap.h"

struct _CroTracesView
{
  GtkWidget  parent_instance;

  GtkWidget *expander;
  GtkWidget *groups[CRO_N_ALLERGENS];

  CroBench  *bench;       /* borrowed */
  gboolean   is_setting;
};

G_DEFINE_FINAL_TYPE (CroTracesView, cro_traces_view, GTK_TYPE_WIDGET)

static const CroItem *
item_of (CroTracesView *self)
{
  return cro_model_item (cro_book_get_model (cro_bench_get_book (self->bench)),
                         cro_bench_get_slot (self->bench));
}

/* What is ticked is said while the groups are folded away. */
void
cro_traces_view_refresh (CroTracesView *self)
{
  guint32 mask = item_of (self)->may_contain;
  g_autofree char *groups = mask != 0 ? cro_words_allergens (mask) : NULL;
  /* Translators: groups of allergens of which a label warns. */
  g_autofree char *label = mask != 0 ? g_strdup_printf (_("May contain, by the label: %s"), groups)
                                     : g_strdup (_("May contain, by the label"));

  cro_folded_set_label (self->expander, label);
  self->is_setting = TRUE;
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (self->groups[i]), (mask & 1u << i) != 0);
  self->is_setting = FALSE;
}

static void
group_cb (CroTracesView *self)
{
  g_autofree char *label = NULL;
  g_autoptr (GError) error = NULL;
  gint64 mask = 0;
  CroCell cell;

  if (self->is_setting)
    return;
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (self->groups[i])))
      mask |= 1 << i;
  cell = mask != 0 ? CRO_CELL_INT (mask) : CRO_CELL_NONE;
  label = cro_bench_dup_label (self->bench, _("may contain"));
  if (cro_book_set (cro_bench_get_book (self->bench), label, "ingredient", item_of (self)->id,
                    "may_contain", &cell, &error))
    return;
  cro_bench_fail (self->bench, error);
  cro_traces_view_refresh (self);
}

static void
cro_traces_view_dispose (GObject *object)
{
  g_clear_pointer (&CRO_TRACES_VIEW (object)->expander, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_traces_view_parent_class)->dispose (object);
}

static void
cro_traces_view_class_init (CroTracesViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_traces_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_traces_view_init (CroTracesView *self)
{
  GtkWidget *groups = cro_wrap_new (12, 6);

  self->expander = cro_folded_new (groups);
  gtk_widget_set_parent (self->expander, GTK_WIDGET (self));
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    {
      g_autofree char *name = cro_words_allergens (1u << i);

      self->groups[i] = gtk_check_button_new_with_label (name);
      g_signal_connect_object (self->groups[i], "toggled", G_CALLBACK (group_cb), self,
                               G_CONNECT_SWAPPED);
      cro_wrap_append (CRO_WRAP (groups), self->groups[i]);
    }
}

GtkWidget *
cro_traces_view_new (CroBench *bench)
{
  CroTracesView *self = g_object_new (CRO_TYPE_TRACES_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
