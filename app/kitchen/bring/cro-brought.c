#include "cro-brought.h"

#include "cro-decimal.h"
#include "cro-price-words.h"

#include <string.h>

/* Headings are looked for this far down. */
#define MOST_ROWS_ABOVE 40

typedef struct
{
  CroBrought *brought;
  gboolean  (*go_on) (gpointer user_data);
  gpointer    user_data;
  gsize       n_bytes;         /* of all texts */
  guint       n_merged;        /* cells that were gone over as merged ones */
  gboolean    is_too_large;
  gboolean    is_given_up;
} Taking;

static gboolean
goes_on (gpointer data)
{
  Taking *taking = data;

  taking->is_given_up |= taking->go_on != NULL && !taking->go_on (taking->user_data);
  return !taking->is_given_up;
}

static gboolean
take_row (guint              number,
          const CroReadCell *cells,
          guint              n_cells,
          gpointer           user_data)
{
  Taking *taking = user_data;
  CroBrought *self = taking->brought;
  guint n = MIN (n_cells, CRO_BROUGHT_MOST_COLUMNS);
  CroReadCell *own = g_new0 (CroReadCell, n);
  CroBroughtRow row = { number, n, own };

  for (guint i = 0; i < n; i++)
    taking->n_bytes += strlen (cells[i].text);
  taking->is_too_large = taking->n_bytes > CRO_SPREADSHEET_MOST_TEXTS;
  for (guint i = 0; i < n && !taking->is_too_large; i++)
    own[i] = (CroReadCell){ cells[i].kind, *cells[i].text == '\0' ? ""
                                           : g_string_chunk_insert_const (self->texts, cells[i].text) };
  g_ptr_array_add (self->cells, own);
  g_array_append_val (self->rows, row);
  self->n_columns = MAX (self->n_columns, n);
  self->n_cells += n;
  taking->is_too_large |= self->n_cells > CRO_BROUGHT_MOST_CELLS;
  if (self->rows->len % 256 == 0)
    goes_on (taking);
  return !taking->is_too_large && !taking->is_given_up;
}

/* The first row of that number or a later one. */
static guint
find_row (const CroBrought *self,
          guint             number)
{
  guint low = 0, high = self->rows->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (g_array_index (self->rows, CroBroughtRow, middle).number < number)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

/* Down a column only: cells merged to the right are titles. */
static void
take_merged (guint    first_row,
             guint    first_column,
             guint    last_row,
             guint    last_column,
             gpointer user_data)
{
  Taking *taking = user_data;
  CroBrought *self = taking->brought;
  guint first = find_row (self, first_row);
  const CroReadCell *from;

  if (first_column != last_column || first >= self->rows->len
      || g_array_index (self->rows, CroBroughtRow, first).number != first_row)
    return;
  from = cro_brought_get (self, first, first_column);
  for (guint i = first + 1; i < self->rows->len; i++)
    {
      const CroBroughtRow *row = &g_array_index (self->rows, CroBroughtRow, i);

      if (row->number > last_row || taking->n_merged > CRO_BROUGHT_MOST_CELLS)
        break;
      taking->n_merged++;
      if (first_column < row->n_cells)
        ((CroReadCell *) row->cells)[first_column] = *from;
    }
}

static guint
count_headings (const CroBrought *self,
                guint             row,
                CroRole          *roles)
{
  const CroBroughtRow *cells = &g_array_index (self->rows, CroBroughtRow, row);
  guint seen = 0, n = 0;

  for (guint i = 0; i < self->n_columns; i++)
    {
      CroRole role = i < cells->n_cells && cells->cells[i].kind == CRO_READ_CELL_TEXT
                       ? cro_role_of_heading (cells->cells[i].text) : CRO_ROLE_NONE;

      roles[i] = seen & 1u << role ? CRO_ROLE_NONE : role;
      if (roles[i] == CRO_ROLE_NONE)
        continue;
      seen |= 1u << role;
      n++;
    }
  return n;
}

static void
find_headings (CroBrought *self)
{
  CroRole roles[CRO_BROUGHT_MOST_COLUMNS];
  guint most = 1;

  self->headings = -1;
  for (guint i = 0; i < MIN (self->rows->len, MOST_ROWS_ABOVE); i++)
    {
      guint n = count_headings (self, i, roles);

      if (n <= most)
        continue;
      most = n;
      self->headings = (int) i;
      memcpy (self->roles, roles, sizeof roles);
    }
}

/* Bits: a sign that can only be decimal, as one or two, or more than three, digits follow it alone;
 * or one that can only group, as there are several. */
enum { POINT_DECIMAL = 1, COMMA_DECIMAL = 2, POINT_GROUPS = 4, COMMA_GROUPS = 8 };

static guint
look_at_signs (const char *text)
{
  const char *point = strrchr (text, '.'), *comma = strrchr (text, ',');
  const char *last = point > comma ? point : comma;
  gboolean is_comma = last != NULL && *last == ',';
  gsize n_digits = 0;

  if (last == NULL)
    return 0;
  if (point != NULL && comma != NULL)
    return is_comma ? COMMA_DECIMAL : POINT_DECIMAL;
  if (strchr (text, *last) != last)
    return is_comma ? COMMA_GROUPS : POINT_GROUPS;
  while (g_ascii_isdigit (last[1 + n_digits]))
    n_digits++;
  if (n_digits == 3 && last > text && g_ascii_isdigit (last[-1]) && text[0] != '0')
    return 0;
  return is_comma ? COMMA_DECIMAL : POINT_DECIMAL;
}

static guint
look_at_column (const CroBrought *self,
                guint             column)
{
  guint signs = 0;

  for (guint row = (guint) (self->headings + 1); row < self->rows->len; row++)
    {
      const CroReadCell *cell = cro_brought_get (self, row, column);

      if (cell->kind == CRO_READ_CELL_TEXT)
        signs |= look_at_signs (cell->text);
    }
  return signs;
}

static gboolean
is_comma_decimal (guint signs)
{
  return (signs & (COMMA_DECIMAL | POINT_GROUPS)) != 0
         && (signs & (POINT_DECIMAL | COMMA_GROUPS)) == 0;
}

/* What one number leaves open, others of its column tell; what a column leaves open, the others. */
static void
look_at_columns (CroBrought *self)
{
  guint signs[CRO_BROUGHT_MOST_COLUMNS], all = 0;

  for (guint i = 0; i < self->n_columns; i++)
    all |= signs[i] = look_at_column (self, i);
  for (guint i = 0; i < self->n_columns; i++)
    self->is_comma_decimal[i] = is_comma_decimal (signs[i] != 0 ? signs[i] : all);
}

CroBrought *
cro_brought_new (const char  *path,
                 guint        sheet,
                 gboolean   (*go_on) (gpointer user_data),
                 gpointer     user_data,
                 GError     **error)
{
  static const CroSpreadsheetTaker taker = { take_row, take_merged, goes_on };
  g_autoptr (CroBrought) self = g_new0 (CroBrought, 1);
  Taking taking = { .brought = self, .go_on = go_on, .user_data = user_data };

  self->path = g_strdup (path);
  self->sheet = sheet;
  self->rows = g_array_new (FALSE, FALSE, sizeof (CroBroughtRow));
  self->cells = g_ptr_array_new_with_free_func (g_free);
  self->texts = g_string_chunk_new (64 * 1024);
  if (!cro_spreadsheet_read (path, sheet, &taker, &taking, error))
    {
      if (taking.is_too_large)
        g_clear_error (error);
      if (taking.is_too_large)
        g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "cells");
      return NULL;
    }
  find_headings (self);
  look_at_columns (self);
  return g_steal_pointer (&self);
}

void
cro_brought_free (CroBrought *self)
{
  g_free (self->path);
  g_array_unref (self->rows);
  g_ptr_array_unref (self->cells);
  g_string_chunk_free (self->texts);
  g_free (self);
}

const CroReadCell *
cro_brought_get (const CroBrought *self,
                 guint             row,
                 guint             column)
{
  static const CroReadCell empty = { CRO_READ_CELL_EMPTY, "" };
  const CroBroughtRow *cells = &g_array_index (self->rows, CroBroughtRow, row);

  return column < cells->n_cells ? &cells->cells[column] : &empty;
}

const CroReadCell *
cro_brought_get_role (const CroBrought *self,
                      guint             row,
                      CroRole           role,
                      guint            *column)
{
  guint found = 0;

  while (found < self->n_columns && self->roles[found] != role)
    found++;
  if (column != NULL)
    *column = found;
  return cro_brought_get (self, row, found);
}

gboolean
cro_brought_has_role (const CroBrought *self,
                      CroRole           role)
{
  for (guint i = 0; i < self->n_columns; i++)
    if (self->roles[i] == role)
      return TRUE;
  return FALSE;
}

void
cro_brought_set_role (CroBrought *self,
                      guint       column,
                      CroRole     role)
{
  g_return_if_fail (column < self->n_columns);

  for (guint i = 0; role != CRO_ROLE_NONE && i < self->n_columns; i++)
    if (self->roles[i] == role)
      self->roles[i] = CRO_ROLE_NONE;
  self->roles[column] = role;
}

/* --- Numbers -------------------------------------------------------------------------------------- */

/* U+00A0, U+202F, U+2009 and the apostrophe of Swiss numbers stand between digits as a space does. */
static gsize
scan_space (const char *text)
{
  static const char *const spaces[] = { " ", "\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x89", "'", "\xE2\x80\x99" };

  for (guint i = 0; i < G_N_ELEMENTS (spaces); i++)
    if (g_str_has_prefix (text, spaces[i]))
      return strlen (spaces[i]);
  return 0;
}

static const char *
skip (const char *text,
      gboolean    is_money)
{
  for (gsize n = 1; n > 0 && *text != '\0';)
    {
      gboolean is_own;

      n = scan_space (text);
      if (n == 0 && is_money)
        n = cro_currency_scan (text, NULL, &is_own);
      text += n;
    }
  return text;
}

/* Digits with a point into number; where they end. */
static const char *
scan_digits (const char *text,
             char        decimal,
             GString    *number)
{
  for (;;)
    {
      gsize space = scan_space (text);

      if (g_ascii_isdigit (*text))
        g_string_append_c (number, *text++);
      else if (decimal != '\0' && *text == decimal && g_ascii_isdigit (text[1]))
        {
          g_string_append_c (number, '.');
          text++;
          decimal = '\0';
        }
      else if ((*text == '.' || *text == ',') && *text != decimal && decimal != '\0'
               && g_ascii_isdigit (text[1]))
        text++;
      else if (space > 0 && g_ascii_isdigit (text[space]))
        text += space;
      else
        return text;
    }
}

/* Spreadsheets keep more decimals than anybody typed. */
static gboolean
read_digits (const GString *number,
             gint64        *micro)
{
  CroDecimalStatus status = cro_decimal_parse (number->str, number->len, micro);

  if (status != CRO_DECIMAL_TOO_MANY_PLACES)
    return status == CRO_DECIMAL_OK;
  /* What is not 0 is never taken for 0. */
  return cro_decimal_from_double (g_ascii_strtod (number->str, NULL), micro)
         && (*micro != 0 || strpbrk (number->str, "123456789") == NULL);
}

static gboolean
read_number (const CroBrought   *self,
             const CroReadCell  *cell,
             guint               column,
             gboolean            is_money,
             gint64             *micro,
             const char        **rest)
{
  g_autoptr (GString) number = g_string_new (NULL);
  const char *text = skip (cell->text, is_money);
  gboolean is_text = cell->kind == CRO_READ_CELL_TEXT;
  char decimal = is_text && column < self->n_columns && self->is_comma_decimal[column] ? ',' : '.';

  if (cell->kind == CRO_READ_CELL_EMPTY || cell->kind == CRO_READ_CELL_DATE
      || cell->kind == CRO_READ_CELL_ERROR)
    return FALSE;
  if (*text == '-')
    {
      g_string_append_c (number, '-');
      text = skip (text + 1, is_money);
    }
  text = skip (scan_digits (text, decimal, number), is_money);
  if (*text == '%')
    text = skip (text + 1, is_money);
  if (rest != NULL)
    *rest = text;
  else if (*text != '\0')
    return FALSE;
  return read_digits (number, micro);
}

gboolean
cro_brought_number (const CroBrought   *self,
                    const CroReadCell  *cell,
                    guint               column,
                    gint64             *micro,
                    const char        **rest)
{
  return read_number (self, cell, column, FALSE, micro, rest);
}

gboolean
cro_brought_money (const CroBrought   *self,
                   const CroReadCell  *cell,
                   guint               column,
                   gint64             *micro,
                   const char        **rest)
{
  return read_number (self, cell, column, TRUE, micro, rest);
}
