#include "cro-workbook-private.h"

#include <math.h>
#include <string.h>

#define MOST_UNITS 32767
#define WIDEST 46
#define NARROWEST 7

/* Per cent at which the standard font of 11 points is still one of 8, and the pixels of a screen that go across
 * a page then: 10 inches are left of the narrower paper's 11. */
#define SMALLEST_SCALE 75
#define PAGE_WIDTH (10 * 96 * 100 / SMALLEST_SCALE)
/* The same of a page that stands upright, of which 7 inches are left. */
#define UPRIGHT_WIDTH (7 * 96 * 100 / SMALLEST_SCALE)

/* Rows between two questions whether to go on. */
#define ROWS_AT_A_TIME 1024

static lxw_row_t
row_of (const CroPen *pen)
{
  return pen->row - 1;
}

static lxw_col_t
column_of (char column)
{
  return (lxw_col_t) (column - 'A');
}

static void
widen (CroPen *pen,
       char    column,
       guint   width)
{
  guint *known = &pen->widths[column_of (column)];

  *known = MAX (*known, width);
}

/* What a text takes in a cell; wide characters count twice. */
static guint
width_of (const char *text)
{
  guint width = 0;

  for (const char *p = text; *p != '\0' && width < WIDEST; p = g_utf8_next_char (p))
    width += (guchar) *p < 128 ? 1 : g_unichar_iswide (g_utf8_get_char (p)) ? 2 : 1;
  return width + 1;
}

void
cro_pen_next_row (CroPen *pen)
{
  CroWorkbook *workbook = pen->workbook;
  const CroWorkbookSource *source = workbook->source;

  pen->row++;
  workbook->rows_written++;
  /* Packing takes as long again. */
  if (workbook->rows_written % ROWS_AT_A_TIME == 0 && source->go_on != NULL
      && !source->go_on (source->data, 0.5 * workbook->rows_written / workbook->n_rows))
    workbook->is_cancelled = TRUE;
}

void
cro_pen_set_level (CroPen *pen,
                   guint8  level)
{
  lxw_row_col_options options = { .level = level };

  worksheet_set_row_opt (pen->sheet, row_of (pen), LXW_DEF_ROW_HEIGHT, NULL, &options);
}

void
cro_pen_set_height (CroPen     *pen,
                    const char *text,
                    guint       width)
{
  glong length = text != NULL ? g_utf8_strlen (text, -1) : 0;
  /* Words that do not fit leave a part of each line empty. */
  glong lines = 1 + (glong) (length * 1.1) / width;

  if (lines > 1)
    worksheet_set_row (pen->sheet, row_of (pen), MIN (lines, 25) * LXW_DEF_ROW_HEIGHT, NULL);
}

/* What a cell holds of a longer text, in UTF-16 units, and a mark that it was cut. */
static char *
cut (const char *text)
{
  gsize units = 0;
  const char *p = text;

  for (; *p != '\0'; p = g_utf8_next_char (p))
    {
      units += g_utf8_get_char (p) > 0xffff ? 2 : 1;
      if (units > MOST_UNITS - 1)
        break;
    }
  if (*p == '\0')
    return g_strdup (text);
  g_autofree char *head = g_strndup (text, (gsize) (p - text));

  return g_strconcat (head, "…", NULL);
}

/* Titles run over the empty cells beside them, and heads are measured apart. */
static gboolean
is_measured (CroStyle style)
{
  return style != CRO_STYLE_TITLE && style != CRO_STYLE_ABOUT && style != CRO_STYLE_HEAD
         && style != CRO_STYLE_BLOCK_SPILL && style != CRO_STYLE_BLOCK_LINK;
}

void
cro_pen_text (CroPen     *pen,
              char        column,
              CroStyle    style,
              const char *text)
{
  CroWorkbook *workbook = pen->workbook;
  g_autofree char *shorter = NULL;

  if (text == NULL)
    text = "";
  if (strlen (text) >= MOST_UNITS)
    {
      shorter = cut (text);
      workbook->n_cut += strcmp (shorter, text) != 0;
      text = shorter;
    }
  if (is_measured (style))
    widen (pen, column,
           style == CRO_STYLE_SENTENCE ? MIN (width_of (text), CRO_SENTENCE_WIDTH) : width_of (text));
  worksheet_write_string (pen->sheet, row_of (pen), column_of (column), text,
                          workbook->styles[style]);
}

/* A number with as many digits as its style shows; they matter for the width alone. */
static guint
width_of_number (CroStyle style,
                 double   value)
{
  double size = fabs (value);
  guint digits = size >= 1e9 ? 14 : size >= 1e6 ? 10 : size >= 1e3 ? 6 : 3;

  if (style >= CRO_STYLE_PCT_AT_LEAST && style <= CRO_STYLE_PCT_AT_MOST_LAST)
    return digits + 14;
  switch (style)
    {
    case CRO_STYLE_MONEY_AT_LEAST:
    case CRO_STYLE_MONEY_INCOMPLETE:
    case CRO_STYLE_MONEY_AT_MOST:
    case CRO_STYLE_FINE_AT_LEAST:
    case CRO_STYLE_FINE_INCOMPLETE:
    case CRO_STYLE_TOTAL_AT_LEAST:
    case CRO_STYLE_TOTAL_INCOMPLETE:
      return digits + 14;
    case CRO_STYLE_DATE:
    case CRO_STYLE_SHARE:
      return 12;
    default:
      return digits + 6;
    }
}

void
cro_pen_number (CroPen   *pen,
                char      column,
                CroStyle  style,
                double    value)
{
  lxw_format *format;

  style = cro_workbook_shown_style (style, value);
  format = pen->workbook->styles[style];
  if (isnan (value))
    {
      worksheet_write_blank (pen->sheet, row_of (pen), column_of (column), format);
      return;
    }
  widen (pen, column, width_of_number (style, value));
  worksheet_write_number (pen->sheet, row_of (pen), column_of (column), value, format);
}

static const char *
fill (CroPen         *pen,
      const char     *template,
      const CroPlace *places)
{
  return cro_formula_set (&pen->workbook->formula, template, pen->row, pen->from, pen->to, places);
}

void
cro_pen_formula (CroPen         *pen,
                 char            column,
                 CroStyle        style,
                 double          value,
                 const char     *template,
                 const CroPlace *places)
{
  if (isnan (value))
    {
      cro_pen_formula_text (pen, column, style, "", template, places);
      return;
    }
  style = cro_workbook_shown_style (style, value);
  widen (pen, column, width_of_number (style, value));
  worksheet_write_formula_num (pen->sheet, row_of (pen), column_of (column),
                               fill (pen, template, places), pen->workbook->styles[style], value);
}

void
cro_pen_formula_text (CroPen         *pen,
                      char            column,
                      CroStyle        style,
                      const char     *text,
                      const char     *template,
                      const CroPlace *places)
{
  if (is_measured (style))
    widen (pen, column, width_of (text));
  worksheet_write_formula_str (pen->sheet, row_of (pen), column_of (column),
                               fill (pen, template, places), pen->workbook->styles[style], text);
}

void
cro_pen_link (CroPen         *pen,
              char            column,
              CroStyle        style,
              const char     *text,
              const CroPlace *place)
{
  CroWorkbook *workbook = pen->workbook;
  g_autofree char *url = NULL;

  if (workbook->n_links >= CRO_WORKBOOK_MOST_LINKS || strlen (text) >= MOST_UNITS)
    {
      workbook->is_short_of_links = TRUE;
      cro_pen_text (pen, column, style, text);
      return;
    }
  workbook->n_links++;
  if (is_measured (style))
    widen (pen, column, width_of (text));
  url = g_strdup_printf ("internal:%s%s%u", place->sheet, place->column, place->row);
  worksheet_write_url_opt (pen->sheet, row_of (pen), column_of (column), url,
                           workbook->styles[style], text, NULL);
}

/* --- Tops and ends ---------------------------------------------------------------------------------- */

/* A head is wrapped at spaces: its longest word must fit, and three lines hold it. */
static guint
width_of_head (const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  guint width = 1 + (guint) g_utf8_strlen (text, -1) / 3;

  for (guint i = 0; words[i] != NULL; i++)
    width = MAX (width, 1 + (guint) g_utf8_strlen (words[i], -1));
  return width;
}

/* The row's height is set before its first cell. */
void
cro_pen_head (CroPen     *pen,
              char        column,
              const char *text)
{
  if (column == 'A')
    worksheet_set_row (pen->sheet, row_of (pen), 46, NULL);
  widen (pen, column, width_of_head (text));
  cro_pen_text (pen, column, CRO_STYLE_HEAD, text);
}

void
cro_pen_heads (CroPen                  *pen,
               const CroWorkbookTextId *heads,
               guint                    n)
{
  for (guint i = 0; i < n; i++)
    cro_pen_head (pen, (char) ('A' + i),
                  heads[i] == CRO_N_WORKBOOK_TEXTS ? "" : cro_workbook_text (pen->workbook, heads[i]));
  cro_pen_next_row (pen);
}

static void
put_title (CroPen     *pen,
           const char *title,
           const char *about,
           const char *note)
{
  cro_pen_text (pen, 'A', CRO_STYLE_TITLE, title);
  cro_pen_next_row (pen);
  cro_pen_text (pen, 'A', CRO_STYLE_ABOUT, about);
  cro_pen_next_row (pen);
  if (note != NULL)
    cro_pen_text (pen, 'A', CRO_STYLE_ABOUT, note);
  cro_pen_next_row (pen);
}

void
cro_pen_title (CroPen     *pen,
               const char *title,
               const char *about)
{
  put_title (pen, title, about, NULL);
}

void
cro_pen_top (CroPen                  *pen,
             const char              *title,
             const char              *about,
             const CroWorkbookTextId *heads,
             guint                    n)
{
  gboolean is_beside_report = pen->workbook->source->report != NULL;

  put_title (pen, title, about, is_beside_report ? cro_workbook_text (pen->workbook, CRO_WT_NOT_PRINTED) : NULL);
  if (is_beside_report)
    pen->last_row = CRO_ROW_HEAD - 1;
  cro_pen_heads (pen, heads, n);
  worksheet_freeze_panes (pen->sheet, CRO_ROW_HEAD, 1);
}

/* The book's name at the left of a footer: an ampersand is doubled there, and the whole must not
 * pass what a footer holds. */
static char *
footer_of (CroPen *pen)
{
  const char *name = pen->workbook->source->book.name;
  g_autoptr (GString) text = g_string_new (NULL);

  for (const char *p = name; *p != '\0' && text->len < 100; p = g_utf8_next_char (p))
    if (*p == '&')
      g_string_append (text, "&&");
    else
      g_string_append_unichar (text, g_utf8_get_char (p));
  return g_strdup_printf ("&L%s&C&A&R&P / &N", text->str);
}

/* What a column takes where the standard font is not there and a wide one stands for it. */
static guint
pixels_of (guint width)
{
  return 9 * CLAMP (width, NARROWEST, WIDEST) + 6;
}

/* The columns before which a page ends, so that each page holds the first column and what fits beside it, and a group
 * of columns that fits on a page is not parted; ends in 0. Returns how many pages stand beside each other. */
static guint
find_breaks (const CroPen *pen,
             lxw_col_t    *breaks)
{
  guint n = pen->last_printed != 0 ? column_of (pen->last_printed) + 1u : CRO_N_COLUMNS;
  guint n_breaks = 0, taken = 0;

  for (guint i = 0; i < n; i++)
    {
      guint pixels = pen->widths[i] > 0 ? pixels_of (pen->widths[i]) : 0;

      if (taken + pixels > PAGE_WIDTH)
        {
          guint group = pen->group != 0 ? column_of (pen->group) : 0;
          gboolean is_parted = group > 0 && group < i && (n_breaks == 0 || breaks[n_breaks - 1] < group);

          breaks[n_breaks++] = (lxw_col_t) (is_parted ? group : i);
          taken = pixels_of (pen->widths[0]);
          for (guint k = breaks[n_breaks - 1]; k < i; k++)
            taken += pixels_of (pen->widths[k]);
        }
      taken += pixels;
    }
  breaks[n_breaks] = 0;
  return n_breaks + 1;
}

static guint
printed_width (const CroPen *pen)
{
  guint n = pen->last_printed != 0 ? column_of (pen->last_printed) + 1u : CRO_N_COLUMNS, sum = 0;

  for (guint i = 0; i < n; i++)
    sum += pen->widths[i] > 0 ? pixels_of (pen->widths[i]) : 0;
  return sum;
}

/* Repeats the names of rows where pages stand beside each other, else the heads: with both, which not every
 * program reads, the library cuts the name of the sheet that it writes twice. */
static void
set_pages (CroPen  *pen,
           guint32  head)
{
  lxw_col_t breaks[CRO_N_COLUMNS + 1];
  guint n_beside = find_breaks (pen, breaks);
  char last = pen->last_printed != 0 ? pen->last_printed : 'A' + CRO_N_COLUMNS - 1;

  while (pen->last_printed == 0 && last > 'A' && pen->widths[column_of (last)] == 0)
    last--;
  /* A few words go on one page. */
  if (pen->last_row != 0 && n_beside > 1)
    {
      last = (char) ('A' + breaks[0] - 1);
      n_beside = 1;
    }
  if (pen->last_printed != 0 || pen->last_row != 0)
    worksheet_print_area (pen->sheet, 0, 0, pen->last_row != 0 ? pen->last_row - 1 : row_of (pen),
                          column_of (last));
  if (n_beside == 1)
    {
      worksheet_fit_to_pages (pen->sheet, 1, 0);
      if (head > 0)
        worksheet_repeat_rows (pen->sheet, head - 1, head - 1);
      return;
    }
  worksheet_set_print_scale (pen->sheet, SMALLEST_SCALE);
  worksheet_set_v_pagebreaks (pen->sheet, breaks);
  worksheet_repeat_columns (pen->sheet, 0, 0);
}

void
cro_pen_finish (CroPen  *pen,
                guint32  head)
{
  g_autofree char *footer = footer_of (pen);

  for (guint i = 0; i < CRO_N_COLUMNS; i++)
    if (pen->widths[i] > 0)
      worksheet_set_column (pen->sheet, (lxw_col_t) i, (lxw_col_t) i,
                            CLAMP (pen->widths[i], NARROWEST, WIDEST), NULL);
  worksheet_set_paper (pen->sheet, pen->workbook->source->book.is_letter ? 1 : 9);
  if (printed_width (pen) > UPRIGHT_WIDTH)
    worksheet_set_landscape (pen->sheet);
  worksheet_set_margins (pen->sheet, 0.5, 0.5, 0.6, 0.7);
  set_pages (pen, head);
  worksheet_set_footer (pen->sheet, footer);
  /* A group's own row stands above what it gathers. */
  worksheet_outline_settings (pen->sheet, LXW_TRUE, LXW_FALSE, LXW_TRUE, LXW_FALSE);
}
