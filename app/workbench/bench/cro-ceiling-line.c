#include "config.h"

#include "cro-ceiling-line.h"

#include "cro-field.h"
#include "cro-mover-words.h"

struct _CroCeilingLine
{
  GtkWidget  parent_instance;

  GtkWidget *label;
  CroBook   *book;
  guint32    item;
  guint32    offer;
  guint      show_id;
};

G_DEFINE_FINAL_TYPE (CroCeilingLine, cro_ceiling_line, GTK_TYPE_WIDGET)

static gboolean
show_cb (gpointer user_data)
{
  CroCeilingLine *self = user_data;
  CroModel *model = self->book != NULL ? cro_book_get_model (self->book) : NULL;
  g_autofree char *text = NULL;

  self->show_id = 0;
  if (self->item != CRO_NO_SLOT && model != NULL && self->item < model->items->len
      && !cro_model_item (model, self->item)->is_dead)
    text = cro_words_item_ceiling (cro_book_get_figures (self->book), self->item, self->offer);
  gtk_label_set_label (GTK_LABEL (self->label), text != NULL ? text : "");
  return G_SOURCE_REMOVE;
}

static void
cro_ceiling_line_dispose (GObject *object)
{
  CroCeilingLine *self = CRO_CEILING_LINE (object);

  g_clear_handle_id (&self->show_id, g_source_remove);
  g_clear_object (&self->book);
  g_clear_pointer (&self->label, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_ceiling_line_parent_class)->dispose (object);
}

static void
cro_ceiling_line_class_init (CroCeilingLineClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_ceiling_line_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_ceiling_line_init (CroCeilingLine *self)
{
  self->item = CRO_NO_SLOT;
  self->label = cro_text_new (NULL, "caption");
  gtk_widget_set_parent (self->label, GTK_WIDGET (self));
}

GtkWidget *
cro_ceiling_line_new (void)
{
  return g_object_new (CRO_TYPE_CEILING_LINE, NULL);
}

void
cro_ceiling_line_set (CroCeilingLine *self,
                      CroBook        *book,
                      guint32         item,
                      guint32         offer)
{
  g_set_object (&self->book, book);
  self->item = item;
  self->offer = offer;
  if (self->show_id == 0)
    self->show_id = g_idle_add_full (G_PRIORITY_LOW, show_cb, self, NULL);
}
