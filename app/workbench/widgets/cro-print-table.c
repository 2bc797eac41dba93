#include "config.h"

#include "cro-print-table.h"

#include "cro-print.h"

static void
begin_print_cb (GtkPrintOperation *operation,
                GtkPrintContext   *context,
                CroTablePaper     *paper)
{
  gtk_print_operation_set_n_pages (
      operation, (int) cro_table_paper_set_out (paper, gtk_print_context_get_width (context),
                                                gtk_print_context_get_height (context)));
}

static void
draw_page_cb (GtkPrintOperation *operation,
              GtkPrintContext   *context,
              int                number,
              CroTablePaper     *paper)
{
  cro_table_paper_draw (paper, (guint) number, gtk_print_context_get_cairo_context (context));
}

gboolean
cro_print_table (GtkWindow      *window,
                 CroTablePaper  *paper,
                 GError        **error)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();

  g_object_set_data_full (G_OBJECT (operation), "paper", paper, (GDestroyNotify) cro_table_paper_free);
  g_signal_connect (operation, "begin-print", G_CALLBACK (begin_print_cb), paper);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page_cb), paper);
  return cro_print_run (operation, window, cro_table_paper_get_title (paper), &cro_paper_a4, TRUE, error);
}
