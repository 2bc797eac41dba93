#include "cro-unserved-view.h"

#include "cro-unserved.h"
#include "cro-words.h"
#include "cro-wrap.h"

struct _CroUnservedView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  CroBench  *bench;   /* borrowed */
  char      *shown;   /* what the buttons say, to leave them alone where nothing moved */
};

G_DEFINE_FINAL_TYPE (CroUnservedView, cro_unserved_view, GTK_TYPE_WIDGET)

static void
clicked_cb (CroUnservedView *self,
            GtkButton       *button)
{
  guint32 item = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "item"));

  cro_bench_open (self->bench, CRO_REF (CRO_REF_ITEM, item));
}

static void
add_button (CroUnservedView   *self,
            const CroUnserved *unserved,
            const char        *words)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_button_set_child (GTK_BUTTON (button), label);
  gtk_widget_add_css_class (button, "missing");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  g_object_set_data (G_OBJECT (button), "item", GUINT_TO_POINTER (unserved->item));
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (self->box), button);
}

void
cro_unserved_view_set (CroUnservedView *self,
                       GArray          *unserved)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (self->bench));
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *says = NULL;

  for (guint i = 0; i < unserved->len; i++)
    g_ptr_array_add (words, cro_words_unserved (model, &g_array_index (unserved, CroUnserved, i)));
  g_ptr_array_add (words, NULL);
  says = g_strjoinv ("\n", (char **) words->pdata);
  if (g_strcmp0 (says, self->shown) == 0)
    return;
  g_free (self->shown);
  self->shown = g_steal_pointer (&says);
  cro_wrap_clear (CRO_WRAP (self->box));
  for (guint i = 0; i < unserved->len; i++)
    add_button (self, &g_array_index (unserved, CroUnserved, i), words->pdata[i]);
  gtk_widget_set_visible (self->box, unserved->len > 0);
}

static void
cro_unserved_view_dispose (GObject *object)
{
  CroUnservedView *self = CRO_UNSERVED_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->shown, g_free);
  G_OBJECT_CLASS (cro_unserved_view_parent_class)->dispose (object);
}

static void
cro_unserved_view_class_init (CroUnservedViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_unserved_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_unserved_view_init (CroUnservedView *self)
{
  self->box = cro_wrap_new (6, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_set_visible (self->box, FALSE);
}

GtkWidget *
cro_unserved_view_new (CroBench *bench)
{
  CroUnservedView *self = g_object_new (CRO_TYPE_UNSERVED_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
