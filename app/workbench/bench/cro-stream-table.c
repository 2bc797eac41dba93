#include "config.h"

#include "cro-stream-table.h"

#include <glib/gi18n.h>

GtkWidget *
cro_stream_table_new (void)
{
  GtkWidget *table = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (table), 12);
  gtk_grid_set_row_spacing (GTK_GRID (table), 3);
  return table;
}

static void
add_row (GtkWidget  *table,
         int         row,
         const char *what,
         const char *name,
         const char *figure)
{
  const char *texts[] = { what, name, figure };

  for (int i = 0; i < 3; i++)
    {
      GtkWidget *label = gtk_label_new (texts[i] != NULL ? texts[i] : "");

      gtk_label_set_xalign (GTK_LABEL (label), i == 2 ? 1 : 0);
      gtk_label_set_wrap (GTK_LABEL (label), i == 1);
      gtk_widget_set_hexpand (label, i == 1);
      if (i != 1)
        gtk_widget_add_css_class (label, i == 2 ? "numeric" : "dim-label");
      gtk_grid_attach (GTK_GRID (table), label, i, row, 1, 1);
    }
}

static const char *
word_of (CroStreamKind kind)
{
  static const char *const words[] = {
    [CRO_STREAM_COMPONENT] = N_("on it"),
    [CRO_STREAM_STEP] = N_("step"),
    [CRO_STREAM_BOUGHT] = N_("bought"),
    [CRO_STREAM_LEAVING] = N_("lost or taken by others"),
  };

  return _(words[kind]);
}

void
cro_stream_table_fill (GtkWidget *table,
                       CroStream *stream)
{
  GtkWidget *row;
  int n = 0;

  while ((row = gtk_widget_get_first_child (table)) != NULL)
    gtk_grid_remove (GTK_GRID (table), row);
  for (int kind = 0; stream != NULL && kind <= CRO_STREAM_LEAVING; kind++)
    for (guint i = 0; i < cro_stream_n_places (stream); i++)
      {
        CroStreamPlace place = cro_stream_get_place (stream, i);

        if ((int) place.kind == kind)
          add_row (table, n++, word_of (place.kind), place.name, place.figure);
      }
}
