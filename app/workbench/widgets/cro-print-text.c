#include "config.h"

#include "cro-print-text.h"

#include "cro-print.h"

/* In points. */
#define MARGIN 51       /* 18 mm */
#define FONT "Sans 11"

typedef struct
{
  char      **texts;
  GPtrArray  *layouts;    /* PangoLayout, one a text */
  GArray     *pages;      /* Page */
} Job;

/* Lines of one text that stand on one sheet. */
typedef struct
{
  guint text;
  int   first;
  int   end;
} Page;

static void
job_free (gpointer data)
{
  Job *job = data;

  g_strfreev (job->texts);
  g_ptr_array_unref (job->layouts);
  g_array_unref (job->pages);
  g_free (job);
}

static double
height_of (PangoLayout *layout,
           int          line)
{
  PangoRectangle logical;

  pango_layout_line_get_extents (pango_layout_get_line_readonly (layout, line), NULL, &logical);
  return (double) logical.height / PANGO_SCALE;
}

static void
break_into_pages (Job    *job,
                  guint   text,
                  double  height)
{
  PangoLayout *layout = job->layouts->pdata[text];
  int n = pango_layout_get_line_count (layout);
  Page page = { text, 0, 0 };
  double used = 0;

  for (int line = 0; line < n; line++)
    {
      double taken = height_of (layout, line);

      if (used + taken > height && line > page.first)
        {
          page.end = line;
          g_array_append_val (job->pages, page);
          page.first = line;
          used = 0;
        }
      used += taken;
    }
  page.end = n;
  g_array_append_val (job->pages, page);
}

static void
begin_print_cb (GtkPrintOperation *operation,
                GtkPrintContext   *context,
                Job               *job)
{
  g_autoptr (PangoFontDescription) font = pango_font_description_from_string (FONT);

  for (guint i = 0; job->texts[i] != NULL; i++)
    {
      PangoLayout *layout = gtk_print_context_create_pango_layout (context);

      pango_layout_set_font_description (layout, font);
      pango_layout_set_width (layout, (int) (gtk_print_context_get_width (context) * PANGO_SCALE));
      pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
      pango_layout_set_text (layout, job->texts[i], -1);
      g_ptr_array_add (job->layouts, layout);
      break_into_pages (job, i, gtk_print_context_get_height (context));
    }
  gtk_print_operation_set_n_pages (operation, (int) job->pages->len);
}

static void
draw_page_cb (GtkPrintOperation *operation,
              GtkPrintContext   *context,
              int                number,
              Job               *job)
{
  cairo_t *cairo = gtk_print_context_get_cairo_context (context);
  const Page *page = &g_array_index (job->pages, Page, number);
  PangoLayout *layout = job->layouts->pdata[page->text];
  double y = 0;

  for (int line = page->first; line < page->end; line++)
    {
      PangoLayoutLine *shown = pango_layout_get_line_readonly (layout, line);
      PangoRectangle logical;

      pango_layout_line_get_extents (shown, NULL, &logical);
      cairo_move_to (cairo, (double) -logical.x / PANGO_SCALE,
                     y + (double) PANGO_ASCENT (logical) / PANGO_SCALE);
      pango_cairo_show_layout_line (cairo, shown);
      y += (double) logical.height / PANGO_SCALE;
    }
}

gboolean
cro_print_text (GtkWindow          *window,
                const char         *title,
                const char *const  *texts,
                const char         *path,
                GError            **error)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  Job *job = g_new0 (Job, 1);

  job->texts = g_strdupv ((char **) texts);
  job->layouts = g_ptr_array_new_with_free_func (g_object_unref);
  job->pages = g_array_new (FALSE, FALSE, sizeof (Page));
  g_object_set_data_full (G_OBJECT (operation), "job", job, job_free);
  g_signal_connect (operation, "begin-print", G_CALLBACK (begin_print_cb), job);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page_cb), job);
  return cro_print_run (operation, window, title, MARGIN, FALSE, path, error);
}
