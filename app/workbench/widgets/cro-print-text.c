#include "config.h"

#include "cro-print-text.h"

#include <string.h>

#include "cro-pdf.h"
#include "cro-print.h"
#include "cro-whole-file.h"

#define FONT 11

typedef struct
{
  const char        *title;
  const char *const *texts;
} Texts;

/* A block a paragraph: an entry of a list and what belongs to it stand on one page. */
static CroPaper *
make (gpointer   user_data,
      guint      number,
      GError   **error)
{
  const Texts *texts = user_data;
  CroPaper *paper = cro_paper_new (texts->title, FONT,
                                   gtk_widget_get_default_direction () == GTK_TEXT_DIR_RTL);
  g_auto (GStrv) lines = g_strsplit (texts->texts[number], "\n", -1);

  for (char **line = lines; *line != NULL; line++)
    {
      double indent = strspn (*line, " ") * FONT / 2.0;

      if (indent == 0)
        cro_paper_begin_block (paper);
      if (**line == '\0')
        cro_paper_add_space (paper, FONT);
      else
        cro_paper_add_text (paper, CRO_PAPER_PLAIN, indent, *line + strspn (*line, " "));
    }
  cro_paper_set_foot (paper, texts->title);
  return paper;
}

static gboolean
write_pdf (Texts               *texts,
           guint                n,
           const CroPaperSize  *size,
           const char          *path,
           gint64               created,
           GError             **error)
{
  g_autoptr (CroWholeFile) file = cro_whole_file_new (path, error);
  g_autoptr (CroPdf) pdf = NULL;

  if (file == NULL)
    return FALSE;
  pdf = cro_pdf_new (cro_whole_file_get_path (file), size, texts->title, created);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (CroPaper) paper = make (texts, i, NULL);

      cro_pdf_add (pdf, paper);
    }
  return cro_pdf_finish (pdf, error) && cro_whole_file_finish (file, error);
}

gboolean
cro_print_text (GtkWindow           *window,
                const char          *title,
                const CroPaperSize  *size,
                const char *const   *texts,
                const char          *path,
                gint64               created,
                GError             **error)
{
  Texts all = { title, texts };
  guint n = g_strv_length ((char **) texts);

  return path != NULL ? write_pdf (&all, n, size, path, created, error)
                      : cro_print (window, title, size, n, make, &all, error);
}
