#include "cro-table-paper.h"

#include <cairo-pdf.h>
#include <math.h>
#include <pango/pangocairo.h>

#include "cro-drawn-file.h"
#include "cro-whole-file.h"

#define FONT "Sans"
#define TITLE_SIZE 15
#define SIZE 9.5
#define HEADING_SIZE 10.5
#define NOTE_SIZE 8.5

#define PAD 3.0             /* around what stands in a cell */
#define MARK_WIDTH 25.0
#define NAME_PART 0.5       /* of the width that narrow columns leave */
#define BEFORE_HEADING 7.0
#define AROUND_NOTES 5.0
#define FAINT 0.75          /* grey of the lines between rows */

/* Rows of one page. */
typedef struct
{
  guint first;
  guint end;
} Page;

struct _CroTablePaper
{
  CroTextTable *table;
  gboolean      is_mirrored;
  PangoContext *context;

  double        width;
  double        height;
  double        title_height;
  double        head_height;
  double        notes_height;
  double       *columns;       /* [heads + 1] where each begins */
  GArray       *pages;
};

/* --- Texts -------------------------------------------------------------------------------------- */

static PangoLayout *
layout_new (CroTablePaper *self,
            const char    *text,
            double         size,
            gboolean       is_bold,
            double         width)
{
  PangoLayout *layout = pango_layout_new (self->context);
  PangoFontDescription *font = pango_font_description_from_string (FONT);

  pango_font_description_set_absolute_size (font, size * PANGO_SCALE);
  if (is_bold)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  if (width > 0)
    {
      pango_layout_set_width (layout, (int) (width * PANGO_SCALE));
      pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
    }
  pango_layout_set_text (layout, text, -1);
  return layout;
}

static void
measure (CroTablePaper *self,
         const char    *text,
         double         size,
         gboolean       is_bold,
         double         width,
         double        *text_width,
         double        *text_height)
{
  g_autoptr (PangoLayout) layout = layout_new (self, text, size, is_bold, width);
  PangoRectangle logical;

  pango_layout_get_extents (layout, NULL, &logical);
  if (text_width != NULL)
    *text_width = (double) logical.width / PANGO_SCALE;
  *text_height = (double) logical.height / PANGO_SCALE;
}

static double
height_of (CroTablePaper *self,
           const char    *text,
           double         size,
           gboolean       is_bold,
           double         width)
{
  double height;

  measure (self, text, size, is_bold, width, NULL, &height);
  return height;
}

/* Returns its height. */
static double
draw_text (CroTablePaper  *self,
           cairo_t        *cairo,
           const char     *text,
           double          size,
           gboolean        is_bold,
           PangoAlignment  alignment,
           double          x,
           double          y,
           double          width)
{
  g_autoptr (PangoLayout) layout = layout_new (self, text, size, is_bold, width);
  PangoRectangle logical;

  pango_layout_set_alignment (layout, alignment);
  pango_layout_get_extents (layout, NULL, &logical);
  cairo_move_to (cairo, x, y);
  pango_cairo_show_layout (cairo, layout);
  return (double) logical.height / PANGO_SCALE;
}

/* --- Setting out -------------------------------------------------------------------------------- */

static const CroTextHead *
head_at (CroTablePaper *self,
         guint          column)
{
  return &g_array_index (self->table->heads, CroTextHead, column);
}

static const CroTextRow *
row_at (CroTablePaper *self,
        guint          row)
{
  return &g_array_index (self->table->rows, CroTextRow, row);
}

static double
width_of (CroTablePaper *self,
          guint          column)
{
  return self->columns[column + 1] - self->columns[column];
}

static void
allot_columns (CroTablePaper *self)
{
  guint n = self->table->heads->len, n_marks = 0;
  double left, x = 0;

  for (guint i = 0; i < n; i++)
    n_marks += head_at (self, i)->is_mark ? 1 : 0;
  left = self->width - n_marks * MARK_WIDTH;
  g_free (self->columns);
  self->columns = g_new0 (double, n + 1);
  for (guint i = 0; i < n; i++)
    {
      self->columns[i] = x;
      x += head_at (self, i)->is_mark ? MARK_WIDTH
           : n - n_marks == 1         ? left
           : i == 0                   ? left * NAME_PART
                                      : left * (1 - NAME_PART) / (n - n_marks - 1);
    }
  self->columns[n] = x;
}

static void
measure_heads (CroTablePaper *self)
{
  self->head_height = 0;
  for (guint i = 0; i < self->table->heads->len; i++)
    {
      double width, height;

      measure (self, head_at (self, i)->text, SIZE, TRUE, 0, &width, &height);
      self->head_height = MAX (self->head_height, head_at (self, i)->is_mark ? width : height);
    }
  self->head_height += 2 * PAD;
}

static double
height_of_row (CroTablePaper *self,
               guint          row)
{
  const CroTextRow *of = row_at (self, row);
  double height = 0;

  if (of->heading != NULL)
    return BEFORE_HEADING + 2 * PAD + height_of (self, of->heading, HEADING_SIZE, TRUE, self->width);
  for (guint i = 0; i < self->table->heads->len; i++)
    height = MAX (height, height_of (self, of->cells[i], SIZE, FALSE,
                                     head_at (self, i)->is_mark ? 0 : width_of (self, i) - 2 * PAD));
  return height + 2 * PAD;
}

/* A heading is never the last of a page. */
static void
break_pages (CroTablePaper *self)
{
  double room = self->height - self->title_height - self->head_height - self->notes_height;
  guint n = self->table->rows->len;
  Page page = { 0, 0 };
  double used = 0;

  g_array_set_size (self->pages, 0);
  for (guint i = 0; i < n; i++)
    {
      gboolean is_heading = row_at (self, i)->heading != NULL;
      double needed = height_of_row (self, i);
      double with_next = needed + (is_heading && i + 1 < n ? height_of_row (self, i + 1) : 0);

      if (used + with_next > room && i > page.first)
        {
          page.end = i;
          g_array_append_val (self->pages, page);
          page.first = i;
          used = 0;
        }
      used += needed;
    }
  page.end = n;
  g_array_append_val (self->pages, page);
}

guint
cro_table_paper_set_out (CroTablePaper *self,
                         double         width,
                         double         height)
{
  self->width = width;
  self->height = height;
  self->title_height = height_of (self, self->table->title, TITLE_SIZE, TRUE, width)
                       + height_of (self, self->table->subtitle, SIZE, FALSE, width) + 3 * PAD;
  self->notes_height = AROUND_NOTES;
  for (guint i = 0; i < self->table->notes->len; i++)
    self->notes_height += height_of (self, self->table->notes->pdata[i], NOTE_SIZE, FALSE, width);
  allot_columns (self);
  measure_heads (self);
  break_pages (self);
  return self->pages->len;
}

/* --- Drawing ------------------------------------------------------------------------------------ */

static double
x_of (CroTablePaper *self,
      guint          column)
{
  return self->is_mirrored ? self->width - self->columns[column + 1] : self->columns[column];
}

static void
draw_rule (CroTablePaper *self,
           cairo_t       *cairo,
           double         y,
           double         grey,
           double         thickness)
{
  cairo_save (cairo);
  cairo_set_source_rgb (cairo, grey, grey, grey);
  cairo_set_line_width (cairo, thickness);
  cairo_move_to (cairo, 0, y);
  cairo_line_to (cairo, self->width, y);
  cairo_stroke (cairo);
  cairo_restore (cairo);
}

/* Words read upward, each over the middle of its column. */
static void
draw_turned (CroTablePaper *self,
             cairo_t       *cairo,
             guint          column,
             double         bottom)
{
  double width, height;

  measure (self, head_at (self, column)->text, SIZE, TRUE, 0, &width, &height);
  cairo_save (cairo);
  cairo_translate (cairo, x_of (self, column) + (width_of (self, column) - height) / 2, bottom - PAD);
  cairo_rotate (cairo, -G_PI / 2);
  draw_text (self, cairo, head_at (self, column)->text, SIZE, TRUE, PANGO_ALIGN_LEFT, 0, 0, 0);
  cairo_restore (cairo);
}

static void
draw_heads (CroTablePaper *self,
            cairo_t       *cairo,
            double         top)
{
  double bottom = top + self->head_height;

  for (guint i = 0; i < self->table->heads->len; i++)
    {
      const CroTextHead *head = head_at (self, i);

      if (head->is_mark)
        draw_turned (self, cairo, i, bottom);
      else
        draw_text (self, cairo, head->text, SIZE, TRUE, PANGO_ALIGN_LEFT, x_of (self, i) + PAD,
                   bottom - PAD - height_of (self, head->text, SIZE, TRUE, 0),
                   width_of (self, i) - 2 * PAD);
    }
  draw_rule (self, cairo, bottom, 0, 0.8);
}

static void
draw_row (CroTablePaper *self,
          cairo_t       *cairo,
          guint          row,
          double         y,
          double         height)
{
  const CroTextRow *of = row_at (self, row);

  if (of->heading != NULL)
    {
      draw_text (self, cairo, of->heading, HEADING_SIZE, TRUE, PANGO_ALIGN_LEFT, PAD,
                 y + BEFORE_HEADING + PAD, self->width - 2 * PAD);
      draw_rule (self, cairo, y + height, 0, 0.4);
      return;
    }
  for (guint i = 0; i < self->table->heads->len; i++)
    draw_text (self, cairo, of->cells[i], SIZE, FALSE,
               head_at (self, i)->is_mark ? PANGO_ALIGN_CENTER : PANGO_ALIGN_LEFT, x_of (self, i) + PAD,
               y + PAD, width_of (self, i) - 2 * PAD);
  draw_rule (self, cairo, y + height, FAINT, 0.3);
}

static void
draw_notes (CroTablePaper *self,
            cairo_t       *cairo)
{
  double y = self->height - self->notes_height + AROUND_NOTES;

  draw_rule (self, cairo, y - AROUND_NOTES / 2, 0, 0.4);
  for (guint i = 0; i < self->table->notes->len; i++)
    y += draw_text (self, cairo, self->table->notes->pdata[i], NOTE_SIZE, FALSE, PANGO_ALIGN_LEFT, 0, y,
                    self->width);
}

static void
draw_title (CroTablePaper *self,
            cairo_t       *cairo,
            guint          page)
{
  g_autofree char *number = g_strdup_printf ("%u / %u", page + 1, self->pages->len);
  double y = draw_text (self, cairo, self->table->title, TITLE_SIZE, TRUE, PANGO_ALIGN_LEFT, 0, 0,
                        self->width);

  draw_text (self, cairo, self->table->subtitle, SIZE, FALSE, PANGO_ALIGN_LEFT, 0, y + PAD,
             self->width * 0.9);
  draw_text (self, cairo, number, SIZE, FALSE,
             self->is_mirrored ? PANGO_ALIGN_LEFT : PANGO_ALIGN_RIGHT, 0, y + PAD, self->width);
}

void
cro_table_paper_draw (CroTablePaper *self,
                      guint          page,
                      cairo_t       *cairo)
{
  const Page *of = &g_array_index (self->pages, Page, page);
  double y = self->title_height + self->head_height;

  cairo_set_source_rgb (cairo, 0, 0, 0);
  draw_title (self, cairo, page);
  draw_heads (self, cairo, self->title_height);
  for (guint i = of->first; i < of->end; i++)
    {
      double height = height_of_row (self, i);

      draw_row (self, cairo, i, y, height);
      y += height;
    }
  draw_notes (self, cairo);
}

/* --- The paper ---------------------------------------------------------------------------------- */

CroTablePaper *
cro_table_paper_new (CroTextTable *table,
                     gboolean      is_mirrored)
{
  CroTablePaper *self = g_new0 (CroTablePaper, 1);

  self->table = table;
  self->is_mirrored = is_mirrored;
  self->context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  pango_cairo_context_set_resolution (self->context, 72);
  pango_context_set_base_dir (self->context, is_mirrored ? PANGO_DIRECTION_RTL : PANGO_DIRECTION_LTR);
  self->pages = g_array_new (FALSE, FALSE, sizeof (Page));
  return self;
}

void
cro_table_paper_free (CroTablePaper *self)
{
  cro_text_table_free (self->table);
  g_object_unref (self->context);
  g_free (self->columns);
  g_array_unref (self->pages);
  g_free (self);
}

const char *
cro_table_paper_get_title (CroTablePaper *self)
{
  return self->table->title;
}

static gboolean
draw_pdf (CroTablePaper  *self,
          const char     *path,
          gint64          created,
          double          width,
          double          height,
          GError        **error)
{
  g_autoptr (CroDrawnFile) file = cro_drawn_file_new (path);
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (cro_drawn_file_write, file, width, height);
  cairo_t *cairo = cairo_create (surface);
  guint n = cro_table_paper_set_out (self, width - 2 * CRO_TABLE_PAPER_MARGIN,
                                     height - 2 * CRO_TABLE_PAPER_MARGIN);
  cairo_status_t status;

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, self->table->title);
  cro_drawn_file_date (surface, created);
  for (guint page = 0; page < n; page++)
    {
      cairo_save (cairo);
      cairo_translate (cairo, CRO_TABLE_PAPER_MARGIN, CRO_TABLE_PAPER_MARGIN);
      cro_table_paper_draw (self, page, cairo);
      cairo_restore (cairo);
      cairo_show_page (cairo);
    }
  status = cairo_status (cairo);
  cairo_destroy (cairo);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return cro_drawn_file_finish (file, status, error);
}

gboolean
cro_table_paper_write_pdf (CroTablePaper  *self,
                           const char     *path,
                           gint64          created,
                           gboolean        is_letter,
                           GError        **error)
{
  CroWholeFile *file = cro_whole_file_new (path, error);
  gboolean done;

  if (file == NULL)
    return FALSE;
  done = draw_pdf (self, cro_whole_file_get_path (file), created,
                   is_letter ? CRO_TABLE_PAPER_LETTER_WIDTH : CRO_TABLE_PAPER_A4_WIDTH,
                   is_letter ? CRO_TABLE_PAPER_LETTER_HEIGHT : CRO_TABLE_PAPER_A4_HEIGHT, error)
         && cro_whole_file_finish (file, error);
  cro_whole_file_free (file);
  return done;
}
