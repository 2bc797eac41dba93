#include "config.h"

#include "cro-print.h"

typedef struct
{
  guint         n;
  CroPrintMake  make;
  gpointer      user_data;
  GArray       *first;       /* guint: the page on which each paper begins; and one past the last */
  CroPaper     *paper;       /* the one that was drawn last */
  guint         number;
  GError       *error;
} Job;

/* Sets out a paper of a number. FALSE: it could not be made, and the job ends. */
static gboolean
hold (Job               *job,
      GtkPrintOperation *operation,
      GtkPrintContext   *context,
      guint              number,
      guint             *n_pages)
{
  if (job->paper != NULL && job->number == number)
    return TRUE;
  g_clear_pointer (&job->paper, cro_paper_free);
  job->paper = job->error == NULL ? job->make (job->user_data, number, &job->error) : NULL;
  job->number = number;
  if (job->paper == NULL)
    {
      gtk_print_operation_cancel (operation);
      return FALSE;
    }
  *n_pages = cro_paper_set_out (job->paper, gtk_print_context_get_width (context),
                                gtk_print_context_get_height (context));
  return TRUE;
}

/* One paper at a time, so that the desktop can show how far it is. */
static gboolean
paginate_cb (GtkPrintOperation *operation,
             GtkPrintContext   *context,
             Job               *job)
{
  guint before = job->first->len == 0 ? 0 : g_array_index (job->first, guint, job->first->len - 1);
  guint number = job->first->len == 0 ? 0 : job->first->len - 1, n_pages = 0, after;

  if (job->first->len == 0)
    g_array_append_val (job->first, before);
  if (!hold (job, operation, context, number, &n_pages))
    return TRUE;
  after = before + n_pages;
  g_array_append_val (job->first, after);
  if (number + 1 < job->n)
    return FALSE;
  gtk_print_operation_set_n_pages (operation, (int) after);
  return TRUE;
}

static void
draw_page_cb (GtkPrintOperation *operation,
              GtkPrintContext   *context,
              int                page,
              Job               *job)
{
  guint number = 0, unused;

  while (number + 2 < job->first->len && g_array_index (job->first, guint, number + 1) <= (guint) page)
    number++;
  if (hold (job, operation, context, number, &unused))
    cro_paper_draw (job->paper, (guint) page - g_array_index (job->first, guint, number),
                    gtk_print_context_get_cairo_context (context));
}

static GtkPageSetup *
page_setup_new (const CroPaperSize *size,
                gboolean            is_landscape)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  GtkPaperSize *paper = gtk_paper_size_new (size == &cro_paper_letter ? GTK_PAPER_NAME_LETTER
                                                                      : GTK_PAPER_NAME_A4);

  gtk_page_setup_set_paper_size (setup, paper);
  gtk_page_setup_set_left_margin (setup, size->margin, GTK_UNIT_POINTS);
  gtk_page_setup_set_right_margin (setup, size->margin, GTK_UNIT_POINTS);
  gtk_page_setup_set_top_margin (setup, size->margin, GTK_UNIT_POINTS);
  gtk_page_setup_set_bottom_margin (setup, size->margin, GTK_UNIT_POINTS);
  gtk_paper_size_free (paper);
  if (is_landscape)
    gtk_page_setup_set_orientation (setup, GTK_PAGE_ORIENTATION_LANDSCAPE);
  return setup;
}

gboolean
cro_print_run (GtkPrintOperation   *operation,
               GtkWindow           *window,
               const char          *title,
               const CroPaperSize  *size,
               gboolean             is_landscape,
               GError             **error)
{
  g_autoptr (GtkPageSetup) setup = page_setup_new (size, is_landscape);

  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  return gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, window, error)
         != GTK_PRINT_OPERATION_RESULT_ERROR;
}

gboolean
cro_print (GtkWindow           *window,
           const char          *title,
           const CroPaperSize  *size,
           guint                n,
           CroPrintMake         make,
           gpointer             user_data,
           GError             **error)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  Job job = { .n = n, .make = make, .user_data = user_data,
              .first = g_array_new (FALSE, FALSE, sizeof (guint)) };
  gboolean done;

  gtk_print_operation_set_show_progress (operation, n > 1);
  g_signal_connect (operation, "paginate", G_CALLBACK (paginate_cb), &job);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page_cb), &job);
  done = cro_print_run (operation, window, title, size, FALSE, job.error == NULL ? error : NULL);
  g_signal_handlers_disconnect_by_data (operation, &job);
  g_clear_pointer (&job.paper, cro_paper_free);
  g_array_unref (job.first);
  if (job.error != NULL)
    {
      g_clear_error (error);
      g_propagate_error (error, job.error);
      return FALSE;
    }
  return done;
}
