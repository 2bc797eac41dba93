#include "config.h"

#include "cro-month-output.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-cards.h"
#include "cro-catalogue.h"
#include "cro-file-choice.h"
#include "cro-month-paper.h"
#include "cro-office.h"
#include "cro-print.h"
#include "cro-spoken.h"
#include "cro-tongue.h"

/* In milliseconds: how often the bar moves. */
#define STEP 100

struct _CroMonthOutput
{
  GtkWidget      parent_instance;

  GtkWidget     *box;
  GtkWidget     *bar;

  CroBench      *bench;     /* borrowed */
  CroMonthShown  shown;
  CroMonthPrint  what;      /* that a file was asked for */
  CroDate        first;     /* the month of the spreadsheet that was asked for */
  GCancellable  *work;      /* NULL: nothing is being written */
  int            done;      /* per mille; atomic */
  guint          step;
};

G_DEFINE_FINAL_TYPE (CroMonthOutput, cro_month_output, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroMonthOutput *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- Paper ---------------------------------------------------------------------------------- */

/* NULL: there is nothing to be told. */
static CroPaper *
paper_of (CroMonthOutput *self,
          CroMonthPrint   what)
{
  gboolean is_rtl = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  const CroMonth *month, *other;
  g_autoptr (CroMonthBridge) bridge = NULL;

  if (!self->shown (self->bench, &month, &other))
    return NULL;
  if (what == CRO_MONTH_PRINT_MATRIX)
    return cro_month_matrix_paper_new (book_of (self), month, is_rtl);
  if (what == CRO_MONTH_PRINT_STATEMENT)
    return cro_month_paper_new (book_of (self), month, other, is_rtl);
  if (other == NULL || !other->is_closed || !month->is_closed)
    return NULL;
  bridge = cro_month_bridge_new (other, month);
  return cro_month_bridge_paper_new (book_of (self), bridge, is_rtl);
}

static CroPaper *
paper_or_say (CroMonthOutput *self,
              CroMonthPrint   what)
{
  CroPaper *paper = paper_of (self, what);

  if (paper == NULL)
    cro_bench_say (self->bench, _("There is nothing to print."));
  return paper;
}

static CroPaper *
make_paper (gpointer   user_data,
            guint      number,
            GError   **error)
{
  CroMonthOutput *self = user_data;

  return paper_of (self, self->what);
}

void
cro_month_output_print (CroMonthOutput *self,
                        CroMonthPrint   what)
{
  g_autoptr (CroPaper) paper = paper_or_say (self, what);
  g_autoptr (GError) error = NULL;

  self->what = what;
  if (paper != NULL
      && !cro_print (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), cro_paper_get_title (paper),
                     cro_cards_size (book_of (self)), 1, make_paper, self, &error))
    cro_bench_fail (self->bench, error);
}

/* --- Files ---------------------------------------------------------------------------------- */

static void
ask (CroMonthOutput *self,
     const char     *title,
     const char     *name,
     CroFileChosen   chosen)
{
  CroFileChoice choice = { .title = title, .action = GTK_FILE_CHOOSER_ACTION_SAVE, .name = name };

  cro_file_choice_ask (&choice, GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), chosen, self);
}

static void
pdf_chosen_cb (gpointer    owner,
               const char *path)
{
  CroMonthOutput *self = owner;
  g_autoptr (CroPaper) paper = paper_or_say (self, self->what);
  g_autoptr (GError) error = NULL;

  if (paper == NULL)
    return;
  if (cro_month_paper_write (book_of (self), paper, path, &error))
    cro_bench_say (self->bench, _("The PDF file is written."));
  else
    cro_bench_fail (self->bench, error);
}

void
cro_month_output_pdf (CroMonthOutput *self,
                      CroMonthPrint   what)
{
  g_autoptr (CroPaper) paper = paper_or_say (self, what);
  g_autofree char *name = NULL;

  if (paper == NULL)
    return;
  self->what = what;
  name = g_strdelimit (g_strconcat (cro_paper_get_title (paper), ".pdf", NULL), "/\\:", '-');
  ask (self, _("Save as PDF"), name, pdf_chosen_cb);
}

/* --- The spreadsheet ------------------------------------------------------------------------ */

/* What the thread knows of it. */
typedef struct
{
  CroMonthOutput *output;     /* its number of what is done; held by the task */
  GCancellable   *work;
  char           *book;
  char           *path;
  const char     *language;   /* NULL: that of the source */
  CroDate         first;
} Writing;

static void
writing_free (gpointer data)
{
  Writing *writing = data;

  g_object_unref (writing->work);
  g_free (writing->book);
  g_free (writing->path);
  g_free (writing);
}

static gboolean
go_on (gpointer user_data,
       double   done)
{
  const Writing *writing = user_data;

  g_atomic_int_set (&writing->output->done, (int) (1000 * done));
  return !g_cancellable_is_cancelled (writing->work);
}

static void
write_in_thread (GTask        *task,
                 gpointer      source,
                 gpointer      data,
                 GCancellable *cancellable)
{
  Writing *writing = data;
  GError *error = NULL;
  g_autoptr (CroBook) book = cro_book_open (writing->book, NULL, CRO_STORE_READ,
                                            cro_office_day (writing->first), &error);

  if (book != NULL
      && cro_office_write_month (book, writing->first, NULL, writing->path, writing->language, go_on, writing, NULL,
                                 &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
show_bar (CroMonthOutput *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self), self->work != NULL);
  gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (self->bar), g_atomic_int_get (&self->done) / 1000.0);
}

static gboolean
step_cb (gpointer output)
{
  show_bar (output);
  return G_SOURCE_CONTINUE;
}

static void
written_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      user_data)
{
  CroMonthOutput *self = CRO_MONTH_OUTPUT (source);
  g_autoptr (GError) error = NULL;
  gboolean is_written = g_task_propagate_boolean (G_TASK (result), &error);
  gboolean is_cancelled = self->work == NULL || g_cancellable_is_cancelled (self->work);

  g_clear_handle_id (&self->step, g_source_remove);
  g_clear_object (&self->work);
  /* The page may be gone meanwhile. */
  if (self->box == NULL)
    return;
  show_bar (self);
  if (is_written)
    cro_bench_say (self->bench, _("The spreadsheet is written."));
  else if (is_cancelled)
    cro_bench_say (self->bench, _("Stopped. No spreadsheet was written."));
  else
    cro_bench_fail (self->bench, error);
}

/* That of the person, as far as the program speaks it. */
static const char *
own_language (void)
{
  const char *const *names = g_get_language_names ();

  for (guint i = 0; names[i] != NULL; i++)
    if (!g_str_equal (names[i], "C") && cro_catalogue_has (names[i]))
      return g_str_equal (names[i], "en") ? NULL : names[i];
  return NULL;
}

static void
sheet_chosen_cb (gpointer    owner,
                 const char *path)
{
  CroMonthOutput *self = owner;
  Writing *writing;
  g_autoptr (GTask) task = NULL;

  if (self->work != NULL)
    return;
  self->work = g_cancellable_new ();
  self->done = 0;
  writing = g_new (Writing, 1);
  *writing = (Writing){ .output = self,
                        .work = g_object_ref (self->work),
                        .book = g_strdup (cro_store_get_path (cro_book_get_store (book_of (self)))),
                        .path = g_strdup (path),
                        .language = g_intern_string (own_language ()),
                        .first = self->first };
  cro_tongue_settle (writing->language);
  task = g_task_new (self, NULL, written_cb, NULL);
  g_task_set_task_data (task, writing, writing_free);
  g_task_run_in_thread (task, write_in_thread);
  self->step = g_timeout_add (STEP, step_cb, self);
  show_bar (self);
}

void
cro_month_output_spreadsheet (CroMonthOutput *self)
{
  const char *book = cro_book_get_model (book_of (self))->name;
  g_autofree char *name = NULL;
  const CroMonth *month, *other;
  char text[CRO_MONTH_CHARS];

  if (!self->shown (self->bench, &month, &other))
    return;
  /* The thread reads the file, which is of today. */
  if (cro_book_is_past (book_of (self), NULL))
    {
      cro_bench_say (self->bench, _("This is the book as it stood. Return to today’s book to write its "
                                    "spreadsheet."));
      return;
    }
  self->first = month->first;
  cro_month_format (month->first, text);
  name = g_strdelimit (g_strdup_printf ("%s %s.xlsx", book != NULL ? book : _("Book"), text), "/\\:", '-');
  ask (self, _("Save the Month’s Spreadsheet"), name, sheet_chosen_cb);
}

static void
cancel_cb (CroMonthOutput *self)
{
  if (self->work != NULL)
    g_cancellable_cancel (self->work);
}

/* --- The widget ----------------------------------------------------------------------------- */

static void
cro_month_output_dispose (GObject *object)
{
  CroMonthOutput *self = CRO_MONTH_OUTPUT (object);

  if (self->work != NULL)
    g_cancellable_cancel (self->work);
  g_clear_handle_id (&self->step, g_source_remove);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_month_output_parent_class)->dispose (object);
}

static void
cro_month_output_class_init (CroMonthOutputClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_month_output_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_month_output_init (CroMonthOutput *self)
{
  GtkWidget *cancel = gtk_button_new_with_label (_("Cancel"));

  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  self->bar = gtk_progress_bar_new ();
  gtk_widget_set_hexpand (self->bar, TRUE);
  gtk_widget_set_valign (self->bar, GTK_ALIGN_CENTER);
  cro_spoken_set (self->bar, _("Writing the spreadsheet"));
  g_signal_connect_object (cancel, "clicked", G_CALLBACK (cancel_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), gtk_label_new (_("Writing the spreadsheet")));
  gtk_box_append (GTK_BOX (self->box), self->bar);
  gtk_box_append (GTK_BOX (self->box), cancel);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

GtkWidget *
cro_month_output_new (CroBench      *bench,
                      CroMonthShown  shown)
{
  CroMonthOutput *self = g_object_new (CRO_TYPE_MONTH_OUTPUT, NULL);

  self->bench = bench;
  self->shown = shown;
  return GTK_WIDGET (self);
}
