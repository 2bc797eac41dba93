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

/* --- Signs of numbers that are texts ---------------------------------------------------------------- */

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

static gsize
count_digits (const char *text)
{
  gsize n = 0;

  while (g_ascii_isdigit (text[n]))
    n++;
  return n;
}

/* The number that begins text as its digits and signs, spaces between three digits as ' '; where it
 * ends. */
static const char *
scan_token (const char *text,
            GString    *token)
{
  for (;;)
    {
      gsize space = scan_space (text);

      if (g_ascii_isdigit (*text) || ((*text == '.' || *text == ',') && g_ascii_isdigit (text[1])))
        g_string_append_c (token, *text++);
      else if (space > 0 && token->len > 0 && count_digits (text + space) == 3)
        {
          g_string_append_c (token, ' ');
          text += space;
        }
      else
        return text;
    }
}

/* Bits: a sign that can only be decimal, or one that can only group; or one that
 * could be either. */
enum { POINT_DECIMAL = 1, COMMA_DECIMAL = 2, POINT_GROUPS = 4, COMMA_GROUPS = 8, EITHER = 16 };

/* "1.234.567"; not "28.11.2026". */
static gboolean
groups (const char *token)
{
  gsize first = count_digits (token);

  if (first < 1 || first > 3)
    return FALSE;
  for (const char *at = token + first; *at != '\0'; at += 4)
    if (count_digits (at + 1) != 3)
      return FALSE;
  return TRUE;
}

static guint
look_at_token (const char *token)
{
  const char *point = strrchr (token, '.'), *comma = strrchr (token, ',');
  const char *last = point > comma ? point : comma;
  gboolean is_comma = last != NULL && *last == ',';
  gsize before;

  if (last == NULL)
    return 0;
  if ((point != NULL && comma != NULL) || strchr (token, ' ') != NULL)
    return is_comma ? COMMA_DECIMAL : POINT_DECIMAL;
  if (strchr (token, *last) != last)
    return groups (token) ? (is_comma ? COMMA_GROUPS : POINT_GROUPS) : 0;
  before = (gsize) (last - token);
  if (count_digits (last + 1) == 3 && before >= 1 && before <= 3 && *token != '0')
    return EITHER;
  return is_comma ? COMMA_DECIMAL : POINT_DECIMAL;
}

static guint
look_at_cell (const CroReadCell *cell)
{
  g_autoptr (GString) token = g_string_new (NULL);
  const char *text = skip (cell->text, TRUE);

  if (cell->kind != CRO_READ_CELL_TEXT)
    return 0;
  scan_token (*text == '-' ? skip (text + 1, TRUE) : text, token);
  return look_at_token (token->str);
}

/* '\0': they say nothing, or say both. */
static char
decimal_of (guint signs)
{
  gboolean comma = (signs & (COMMA_DECIMAL | POINT_GROUPS)) != 0;
  gboolean point = (signs & (POINT_DECIMAL | COMMA_GROUPS)) != 0;

  return comma == point ? '\0' : comma ? ',' : '.';
}

/* Articles, days and notes have signs that say nothing of numbers. */
static gboolean
holds_numbers (CroRole role)
{
  switch (role)
    {
    case CRO_ROLE_AMOUNT:
    case CRO_ROLE_PRICE:
    case CRO_ROLE_PACK:
    case CRO_ROLE_PACK_COUNT:
    case CRO_ROLE_PACK_SIZE:
    case CRO_ROLE_TRIM_YIELD:
    case CRO_ROLE_MAKES:
    case CRO_ROLE_GIVES:
    case CRO_ROLE_SELLING_PRICE:
      return TRUE;
    default:
      return FALSE;
    }
}

/* What one number leaves open, others of its column tell; what a column leaves open, the others. */
static void
look_at_columns (CroBrought *self)
{
  guint signs[CRO_BROUGHT_MOST_COLUMNS] = { 0 }, all = 0;

  for (guint i = 0; i < self->n_columns; i++)
    {
      for (guint row = (guint) (self->headings + 1); row < self->rows->len; row++)
        signs[i] |= look_at_cell (cro_brought_get (self, row, i));
      if (holds_numbers (self->roles[i]))
        all |= signs[i];
    }
  for (guint i = 0; i < self->n_columns; i++)
    self->decimal[i] = decimal_of ((signs[i] & ~(guint) EITHER) != 0 ? signs[i] : all);
}

/* --- What "yield" means ------------------------------------------------------------------------------ */

/* "12 pc", "450 g", or a number on a row that takes nothing: what the recipe makes. */
static gboolean
is_of_recipe (CroBrought *self,
              guint       row,
              guint       column)
{
  const CroReadCell *cell = cro_brought_get (self, row, column);
  const char *rest = "";
  gint64 number;

  if (cell->kind == CRO_READ_CELL_PERCENT || strchr (cell->text, '%') != NULL
      || !cro_brought_number (self, cell, column, &number, &rest))
    return FALSE;
  return *rest != '\0' || cro_brought_get_role (self, row, CRO_ROLE_AMOUNT, NULL)->kind == CRO_READ_CELL_EMPTY;
}

/* Over the lines of recipes "yield" says what a recipe makes as often as what trimming leaves. */
static void
look_at_yield (CroBrought *self)
{
  guint column;

  if (!cro_brought_has_role (self, CRO_ROLE_TRIM_YIELD) || !cro_brought_has_role (self, CRO_ROLE_AMOUNT)
      || cro_brought_has_role (self, CRO_ROLE_MAKES))
    return;
  cro_brought_get_role (self, 0, CRO_ROLE_TRIM_YIELD, &column);
  if (strchr (cro_brought_get (self, (guint) self->headings, column)->text, '%') != NULL)
    return;
  for (guint row = (guint) (self->headings + 1); row < self->rows->len; row++)
    if (is_of_recipe (self, row, column))
      {
        self->roles[column] = CRO_ROLE_MAKES;
        return;
      }
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
  look_at_yield (self);
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
  look_at_columns (self);
}

/* --- Numbers -------------------------------------------------------------------------------------- */

/* Digits with a point into number. A sign that groups is dropped before exactly three digits only.
 * FALSE: it is no number. */
static gboolean
take_token (const char *token,
            char        decimal,
            GString    *number)
{
  gssize first = 0;

  for (const char *at = token; *at != '\0'; at++)
    if (g_ascii_isdigit (*at))
      g_string_append_c (number, *at);
    else if (*at == decimal)
      {
        g_string_append_c (number, '.');
        /* Nothing groups behind it, and no other is decimal. */
        if (at[1 + count_digits (at + 1)] != '\0')
          return FALSE;
      }
    else if (at == token || (first == 0 && at - token > 3) || count_digits (at + 1) != 3)
      return FALSE;
    else
      first = at - token;
  return *token != '\0';
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

/* '\0': it could be either, and nothing tells. */
static char
decimal_of_cell (const CroBrought  *self,
                 const CroReadCell *cell,
                 guint              column,
                 const char        *token)
{
  guint signs = look_at_token (token);

  if (cell->kind != CRO_READ_CELL_TEXT)
    return '.';
  if (signs != EITHER)
    return signs & (COMMA_DECIMAL | POINT_GROUPS) ? ',' : '.';
  if (self->said != '\0')
    return self->said;
  return column < self->n_columns ? self->decimal[column] : '\0';
}

gboolean
cro_brought_is_doubtful (const CroBrought  *self,
                         const CroReadCell *cell,
                         guint              column)
{
  g_autoptr (GString) token = g_string_new (NULL);
  const char *text = skip (cell->text, TRUE);

  scan_token (*text == '-' ? skip (text + 1, TRUE) : text, token);
  return decimal_of_cell (self, cell, column, token->str) == '\0';
}

void
cro_brought_say_decimal (CroBrought *self,
                         char        sign)
{
  self->said = sign;
}

static gboolean
read_number (const CroBrought   *self,
             const CroReadCell  *cell,
             guint               column,
             gboolean            is_money,
             gint64             *micro,
             const char        **rest)
{
  g_autoptr (GString) number = g_string_new (NULL), token = g_string_new (NULL);
  const char *text = skip (cell->text, is_money);
  char decimal;

  if (cell->kind == CRO_READ_CELL_EMPTY || cell->kind == CRO_READ_CELL_DATE
      || cell->kind == CRO_READ_CELL_ERROR)
    return FALSE;
  if (*text == '-')
    {
      g_string_append_c (number, '-');
      text = skip (text + 1, is_money);
    }
  text = skip (scan_token (text, token), is_money);
  decimal = decimal_of_cell (self, cell, column, token->str);
  if (decimal == '\0' || !take_token (token->str, decimal, number))
    return FALSE;
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

char *
cro_brought_dup_plain (const CroBrought  *self,
                       const CroReadCell *cell,
                       guint              column)
{
  g_autoptr (GString) plain = g_string_new (NULL);

  for (const char *at = cell->text; *at != '\0';)
    {
      g_autoptr (GString) token = g_string_new (NULL), number = g_string_new (NULL);
      const char *end = g_ascii_isdigit (*at) ? scan_token (at, token) : at + 1;
      char decimal = decimal_of_cell (self, cell, column, token->str);

      if (decimal == '\0')
        return NULL;
      if (take_token (token->str, decimal, number))
        /* With a place more the sign can only be decimal, whatever the locale. */
        g_string_append_printf (plain, "%s%s", number->str, strchr (number->str, '.') != NULL ? "0" : "");
      else
        g_string_append_len (plain, at, end - at);
      at = end;
    }
  return g_string_free (g_steal_pointer (&plain), FALSE);
}
