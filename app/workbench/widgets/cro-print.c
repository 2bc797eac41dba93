#include "config.h"

#include "cro-print.h"

gboolean
cro_print_run (GtkPrintOperation  *operation,
               GtkWindow          *window,
               const char         *title,
               double              margin,
               gboolean            is_landscape,
               const char         *path,
               GError            **error)
{
  g_autoptr (GtkPageSetup) page = gtk_page_setup_new ();

  gtk_page_setup_set_left_margin (page, margin, GTK_UNIT_POINTS);
  gtk_page_setup_set_right_margin (page, margin, GTK_UNIT_POINTS);
  gtk_page_setup_set_top_margin (page, margin, GTK_UNIT_POINTS);
  gtk_page_setup_set_bottom_margin (page, margin, GTK_UNIT_POINTS);
  if (is_landscape)
    gtk_page_setup_set_orientation (page, GTK_PAGE_ORIENTATION_LANDSCAPE);
  gtk_print_operation_set_default_page_setup (operation, page);
  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  if (path != NULL)
    gtk_print_operation_set_export_filename (operation, path);
  return gtk_print_operation_run (operation,
                                  path != NULL ? GTK_PRINT_OPERATION_ACTION_EXPORT
                                               : GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG,
                                  window, error)
         != GTK_PRINT_OPERATION_RESULT_ERROR;
}
