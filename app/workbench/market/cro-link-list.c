#include "config.h"

#include "cro-link-list.h"

#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-spoken.h"

struct _CroLinkList
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *title;
  GtkWidget *nothing;
  GtkWidget *grid;
  GtkWidget *more;
  GPtrArray *rows;      /* Row */
  guint      n;         /* of them in use */

  CroBench  *bench;     /* borrowed */
};

G_DEFINE_FINAL_TYPE (CroLinkList, cro_link_list, GTK_TYPE_WIDGET)

typedef struct
{
  GtkWidget *name;
  GtkWidget *words;
  CroRef     ref;
  int        cause;
} Row;

static void
clicked_cb (GtkWidget   *button,
            CroLinkList *self)
{
  for (guint i = 0; self->rows != NULL && i < self->rows->len; i++)
    {
      const Row *row = self->rows->pdata[i];

      if (row->name != button)
        continue;
      cro_bench_open_cure (self->bench, row->ref, row->cause);
      return;
    }
}

static Row *
row_at (CroLinkList *self,
        guint        at)
{
  Row *row;

  if (at < self->rows->len)
    return self->rows->pdata[at];
  row = g_new0 (Row, 1);
  row->name = cro_name_button_new ();
  row->words = cro_text_new ("", NULL);
  gtk_widget_add_css_class (row->words, "numeric");
  gtk_label_set_width_chars (GTK_LABEL (row->words), 14);
  g_signal_connect_object (row->name, "clicked", G_CALLBACK (clicked_cb), self, 0);
  gtk_widget_set_halign (row->name, GTK_ALIGN_START);
  gtk_grid_attach (GTK_GRID (self->grid), row->name, 0, (int) at, 1, 1);
  gtk_grid_attach (GTK_GRID (self->grid), row->words, 1, (int) at, 1, 1);
  g_ptr_array_add (self->rows, row);
  return row;
}

void
cro_link_list_begin (CroLinkList *self,
                     const char  *title,
                     const char  *nothing)
{
  self->n = 0;
  gtk_label_set_label (GTK_LABEL (self->title), title);
  gtk_label_set_label (GTK_LABEL (self->nothing), nothing != NULL ? nothing : "");
}

void
cro_link_list_add (CroLinkList *self,
                   CroRef       ref,
                   int          cause,
                   const char  *name,
                   const char  *words)
{
  Row *row = row_at (self, self->n++);
  g_autofree char *said = *words != '\0' ? cro_isolate_printf ("%s, %s", name, words) : g_strdup (name);

  row->ref = ref;
  row->cause = cause;
  cro_name_button_set (row->name, name);
  cro_spoken_set (row->name, said);
  gtk_label_set_label (GTK_LABEL (row->words), words);
}

void
cro_link_list_end (CroLinkList *self,
                   const char  *more)
{
  const char *nothing = gtk_label_get_label (GTK_LABEL (self->nothing));

  for (guint i = 0; i < self->rows->len; i++)
    {
      Row *row = self->rows->pdata[i];

      gtk_widget_set_visible (row->name, i < self->n);
      gtk_widget_set_visible (row->words, i < self->n);
    }
  gtk_widget_set_visible (self->nothing, self->n == 0 && *nothing != '\0');
  gtk_widget_set_visible (self->grid, self->n > 0);
  gtk_label_set_label (GTK_LABEL (self->more), more != NULL ? more : "");
  gtk_widget_set_visible (self->more, more != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self), self->n > 0 || *nothing != '\0');
}

void
cro_link_list_append (CroLinkList *self,
                      GtkWidget   *widget)
{
  gtk_box_append (GTK_BOX (self->box), widget);
}

static void
cro_link_list_dispose (GObject *object)
{
  CroLinkList *self = CRO_LINK_LIST (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  G_OBJECT_CLASS (cro_link_list_parent_class)->dispose (object);
}

static void
cro_link_list_class_init (CroLinkListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_link_list_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_link_list_init (CroLinkList *self)
{
  self->rows = g_ptr_array_new_with_free_func (g_free);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  self->title = cro_heading_new ("");
  self->nothing = cro_text_new ("", "dim-label");
  self->grid = gtk_grid_new ();
  self->more = cro_text_new ("", "dim-label");
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 9);
  gtk_box_append (GTK_BOX (self->box), self->title);
  gtk_box_append (GTK_BOX (self->box), self->nothing);
  gtk_box_append (GTK_BOX (self->box), self->grid);
  gtk_box_append (GTK_BOX (self->box), self->more);
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_START);
  gtk_widget_add_css_class (GTK_WIDGET (self), "part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_link_list_new (CroBench *bench)
{
  CroLinkList *self = g_object_new (CRO_TYPE_LINK_LIST, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
