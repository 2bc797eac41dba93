/* One sheet of a workbook, a cell at a time (ISO/IEC 29500-1, 18.3.1). */
#include "cro-spreadsheet-private.h"

#include "cro-date.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Days from 1970-01-01 back to day 0 of the two ways of counting (18.17.4.1). */
#define DAY_0_OF_1900 25569
#define DAY_0_OF_1904 24107

/* The texts that cells share. */
typedef struct
{
  GString *texts;  /* one after the other, each with a NUL */
  GArray  *starts; /* of gsize */
} Texts;

typedef enum
{
  HOLDS_NUMBER,
  HOLDS_SHARED,    /* the number of a shared text */
  HOLDS_TEXT,
  HOLDS_TRUTH,
  HOLDS_DATE,
  HOLDS_ERROR,
} Holds;

typedef struct
{
  const CroSpreadsheetTaker *taker;
  gpointer                   user_data;
  const CroWorkbookParts    *parts;
  GArray                    *styles;   /* of CroStyle */
  Texts                      texts;
  CroReadCells               cells;

  GByteArray *hidden;     /* of each column, whether it is not shown; as far as any is */
  gboolean is_row_hidden;
  guint    row;
  guint    column;
  Holds    holds;
  guint    style;
  GString *value;
  gboolean is_value;   /* what is read belongs to it */
  GString *formula;    /* of the cell, "=" before it; empty: none */
  guint    n_phonetic; /* how to say it, which nobody sees */
} Reader;

/* The elements that mean something here. */
typedef enum
{
  TAG_CELL,
  TAG_VALUE,
  TAG_FORMULA,
  TAG_ROW,
  TAG_TEXT,
  TAG_SHARED,
  TAG_PHONETIC,
  TAG_MERGED,
  TAG_COLUMNS,
  TAG_OTHER,
} Tag;

static Tag
find_tag (const char *name)
{
  static const char *const names[TAG_OTHER] = { "c", "v", "f", "row", "t", "si", "rPh", "mergeCell", "col" };
  Tag tag = TAG_CELL;

  while (tag < TAG_OTHER && !g_str_equal (name, names[tag]))
    tag++;
  return tag;
}

static gboolean
text_cb (const char *text,
         gsize       length,
         gpointer    user_data,
         GError    **error)
{
  Reader *self = user_data;

  if (!self->is_value)
    return TRUE;
  g_string_append_len (self->value, text, (gssize) length);
  if (self->value->len <= CRO_SPREADSHEET_MOST_CELL)
    return TRUE;
  g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "a cell");
  return FALSE;
}

/* _x000D_ stands for a character that XML cannot hold (22.9.2.19); what was typed so is written
 * with _x005F_ before it. */
static void
unescape (GString *text)
{
  gsize to = 0;

  if (strstr (text->str, "_x") == NULL)
    return;
  for (gsize from = 0; from < text->len;)
    {
      const char *at = text->str + from;
      guint64 code;

      if (text->len - from >= 7 && at[0] == '_' && at[1] == 'x' && at[6] == '_'
          && g_ascii_isxdigit (at[2]) && g_ascii_isxdigit (at[3]) && g_ascii_isxdigit (at[4])
          && g_ascii_isxdigit (at[5]) && (code = strtoul (at + 2, NULL, 16)) > 0 && code < 0x80)
        {
          text->str[to++] = (char) code;
          from += 7;
        }
      else
        text->str[to++] = text->str[from++];
    }
  g_string_truncate (text, to);
}

/* Follows <t> through a text, and what of it is said and not seen. */
static void
follow_text (Reader   *self,
             Tag       tag,
             gboolean  is_begin)
{
  if (tag == TAG_PHONETIC && is_begin)
    self->n_phonetic++;
  else if (tag == TAG_PHONETIC && self->n_phonetic > 0)
    self->n_phonetic--;
  else if (tag == TAG_TEXT)
    self->is_value = is_begin && self->n_phonetic == 0;
}

static gboolean
keep_shared (Reader  *self,
             GError **error)
{
  Texts *texts = &self->texts;
  gsize start = texts->texts->len;

  unescape (self->value);
  g_array_append_val (texts->starts, start);
  g_string_append_len (texts->texts, self->value->str, (gssize) self->value->len);
  g_string_append_c (texts->texts, '\0');
  g_string_truncate (self->value, 0);
  if (texts->texts->len + texts->starts->len * sizeof (gsize) <= CRO_SPREADSHEET_MOST_TEXTS)
    return TRUE;
  g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "texts");
  return FALSE;
}

static gboolean
begin_shared_cb (const char              *name,
                 const CroPartAttributes *attributes,
                 gpointer                 user_data,
                 GError                 **error)
{
  follow_text (user_data, find_tag (name), TRUE);
  return TRUE;
}

static gboolean
end_shared_cb (const char  *name,
               gpointer     user_data,
               GError     **error)
{
  Tag tag = find_tag (name);

  follow_text (user_data, tag, FALSE);
  return tag != TAG_SHARED || keep_shared (user_data, error);
}

static CroReadFor
whom_of (const Reader *self)
{
  return (CroReadFor){ self->taker, self->user_data };
}

static gboolean
read_shared (Reader      *self,
             const char  *path,
             GError     **error)
{
  static const CroPartWalker walker = { begin_shared_cb, text_cb, end_shared_cb };

  return self->parts->texts_part == NULL
         || cro_part_walk (path, self->parts->texts_part, FALSE, whom_of (self), &walker, self, error);
}

/* Digits from there on; what no number of a row or column is stays such a one. */
static guint
read_number_at (const char **at,
                const char  *end)
{
  guint number = 0;

  for (; *at < end && g_ascii_isdigit (**at); (*at)++)
    number = number >= G_MAXINT32 / 10 ? G_MAXINT32 : number * 10 + (guint) (**at - '0');
  return number;
}

static guint
number_of (const CroPartAttributes *attributes,
           const char              *name)
{
  gsize length;
  const char *at = cro_part_attribute (attributes, name, &length);

  return at != NULL ? read_number_at (&at, at + length) : 0;
}

/* "AB12" → column 27, row 12; what does not read so leaves both as they are. */
static void
read_place (const char *at,
            const char *end,
            guint      *column,
            guint      *row)
{
  guint letters = 0, number;

  for (; at < end && g_ascii_isalpha (*at) && letters <= CRO_SPREADSHEET_MOST_COLUMNS; at++)
    letters = letters * 26 + (guint) (g_ascii_toupper (*at) - 'A') + 1;
  number = read_number_at (&at, end);
  if (letters == 0 || number == 0)
    return;
  *column = letters - 1;
  *row = number;
}

static Holds
find_holds (const CroPartAttributes *attributes)
{
  static const struct { const char *type; Holds holds; } all[] = {
    { "s", HOLDS_SHARED }, { "str", HOLDS_TEXT }, { "inlineStr", HOLDS_TEXT },
    { "b", HOLDS_TRUTH }, { "d", HOLDS_DATE }, { "e", HOLDS_ERROR },
  };
  gsize length;
  const char *type = cro_part_attribute (attributes, "t", &length);

  for (guint i = 0; type != NULL && i < G_N_ELEMENTS (all); i++)
    if (strlen (all[i].type) == length && memcmp (type, all[i].type, length) == 0)
      return all[i].holds;
  return HOLDS_NUMBER;
}

static gboolean
is_true (const CroPartAttributes *attributes,
         const char              *name)
{
  gsize length;
  const char *value = cro_part_attribute (attributes, name, &length);

  return value != NULL && ((length == 1 && *value == '1') || (length == 4 && memcmp (value, "true", 4) == 0));
}

/* A height or a width of nothing. */
static gboolean
is_nothing (const CroPartAttributes *attributes,
            const char              *name)
{
  gsize length;

  return cro_part_attribute (attributes, name, &length) != NULL && number_of (attributes, name) == 0;
}

/* They stand in their order (18.3.1.13): each column is gone over once. */
static void
note_columns (Reader                  *self,
              const CroPartAttributes *attributes)
{
  const guint first = number_of (attributes, "min"),
              last = MIN (number_of (attributes, "max"), CRO_SPREADSHEET_MOST_COLUMNS);
  const guint8 shown = FALSE, hidden = TRUE;

  if (first == 0 || !(is_true (attributes, "hidden") || is_nothing (attributes, "width")))
    return;
  while (self->hidden->len < last)
    g_byte_array_append (self->hidden, self->hidden->len + 1 < first ? &shown : &hidden, 1);
}

static void
begin_row (Reader                  *self,
           const CroPartAttributes *attributes)
{
  guint row = number_of (attributes, "r");

  self->row = MAX (self->row + 1, row);
  self->is_row_hidden = is_true (attributes, "hidden") || is_nothing (attributes, "ht");
  self->column = 0;
}

static void
begin_cell (Reader                  *self,
            const CroPartAttributes *attributes)
{
  guint ignored;
  gsize length;
  const char *place = cro_part_attribute (attributes, "r", &length);

  if (place != NULL)
    read_place (place, place + length, &self->column, &ignored);
  self->holds = find_holds (attributes);
  self->style = number_of (attributes, "s");
  g_string_truncate (self->value, 0);
  g_string_truncate (self->formula, 0);
}

/* In digits that read back to what a spreadsheet shows: 15 of them. */
static void
spell (GString *into,
       double   value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (text, sizeof text, "%.15g", value);
  if (strchr (text, 'e') != NULL)
    {
      g_ascii_formatd (text, sizeof text, fabs (value) < 1 ? "%.12f" : "%.0f", value);
      if (strlen (text) + 1 == sizeof text)
        text[0] = '\0';
    }
  g_string_assign (into, text);
}

static CroReadCellKind
read_number (Reader *self)
{
  CroNumbers numbers = self->style < self->styles->len ? g_array_index (self->styles, CroStyle, self->style).numbers
                                                       : CRO_NUMBERS_PLAIN;
  char *end;
  double value = g_ascii_strtod (self->value->str, &end);

  if (end == self->value->str || *end != '\0' || !isfinite (value) || fabs (value) > 1e15)
    return CRO_READ_CELL_TEXT;
  if (numbers == CRO_NUMBERS_DATE && value >= 1 && value < 2958466)
    {
      int day = (int) value;
      char text[CRO_DATE_CHARS];

      /* The 29th of February 1900, which never was, is day 60. */
      day += self->parts->is_1904 || day > 60 ? 0 : 1;
      cro_date_format (day - (self->parts->is_1904 ? DAY_0_OF_1904 : DAY_0_OF_1900), text);
      g_string_assign (self->value, text);
      return CRO_READ_CELL_DATE;
    }
  spell (self->value, numbers == CRO_NUMBERS_PERCENT ? value * 100 : value);
  return numbers == CRO_NUMBERS_PERCENT ? CRO_READ_CELL_PERCENT : CRO_READ_CELL_NUMBER;
}

static CroReadCellKind
read_shared_text (Reader *self)
{
  guint64 index = g_ascii_strtoull (self->value->str, NULL, 10);

  if (index < self->texts.starts->len)
    g_string_assign (self->value,
                     self->texts.texts->str + g_array_index (self->texts.starts, gsize, index));
  else
    g_string_truncate (self->value, 0);
  return CRO_READ_CELL_TEXT;
}

static CroReadCellKind
read_date (Reader *self)
{
  CroDate day;

  if (self->value->len < CRO_DATE_CHARS - 1
      || !cro_date_parse (self->value->str, CRO_DATE_CHARS - 1, &day))
    return CRO_READ_CELL_TEXT;
  g_string_truncate (self->value, CRO_DATE_CHARS - 1);
  return CRO_READ_CELL_DATE;
}

static CroReadCellKind
read_value (Reader *self)
{
  switch (self->holds)
    {
    case HOLDS_NUMBER:
    case HOLDS_TRUTH:
      return read_number (self);
    case HOLDS_SHARED:
      return read_shared_text (self);
    case HOLDS_DATE:
      return read_date (self);
    case HOLDS_ERROR:
      return CRO_READ_CELL_ERROR;
    default:
      unescape (self->value);
      return CRO_READ_CELL_TEXT;
    }
}

/* What stands in <f> is read as a value is, before that. */
static void
end_formula (Reader *self)
{
  g_string_assign (self->formula, "=");
  g_string_append_len (self->formula, self->value->str, (gssize) self->value->len);
  g_string_truncate (self->value, 0);
  self->is_value = FALSE;
}

/* A formula whose value nobody has computed yet, as programs write it, is no empty cell; one of a text may be "". */
static CroReadCellKind
read_formula (Reader *self)
{
  if (self->formula->len == 0 || self->holds != HOLDS_NUMBER)
    return CRO_READ_CELL_EMPTY;
  g_string_assign (self->value, self->formula->str);
  return CRO_READ_CELL_ERROR;
}

static gboolean
end_cell (Reader  *self,
          GError **error)
{
  CroReadCellKind kind = self->value->len > 0 ? read_value (self) : read_formula (self);
  const CroStyle *style = self->style < self->styles->len
                              ? &g_array_index (self->styles, CroStyle, self->style) : NULL;
  const char *around = kind == CRO_READ_CELL_NUMBER && style != NULL ? style->around : NULL;
  const gboolean is_hidden = self->is_row_hidden || (style != NULL && style->is_hidden)
                             || (self->column < self->hidden->len && self->hidden->data[self->column]);

  self->is_value = FALSE;
  if (kind == CRO_READ_CELL_EMPTY || self->value->len == 0
      || cro_read_cells_put (&self->cells, self->column, kind, self->value->str, self->value->len, around, is_hidden))
    {
      self->column++;
      return TRUE;
    }
  g_set_error (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_DAMAGED, "row %u", self->row);
  return FALSE;
}

static void
note_merged (Reader                  *self,
             const CroPartAttributes *attributes)
{
  gsize length;
  const char *cells = cro_part_attribute (attributes, "ref", &length);
  const char *colon = cells != NULL ? memchr (cells, ':', length) : NULL;
  guint column = 0, row = 0, last_column = 0, last_row = 0;

  if (colon == NULL || self->taker->merged == NULL)
    return;
  read_place (cells, colon, &column, &row);
  read_place (colon + 1, cells + length, &last_column, &last_row);
  if (row > 0 && last_row >= row && last_column >= column)
    self->taker->merged (row, column, last_row, last_column, self->user_data);
}

static gboolean
begin_cb (const char              *name,
          const CroPartAttributes *attributes,
          gpointer                 user_data,
          GError                 **error)
{
  Reader *self = user_data;
  Tag tag = find_tag (name);

  if (tag == TAG_CELL)
    begin_cell (self, attributes);
  else if (tag == TAG_VALUE || tag == TAG_FORMULA)
    self->is_value = TRUE;
  else if (tag == TAG_ROW)
    begin_row (self, attributes);
  else if (tag == TAG_MERGED)
    note_merged (self, attributes);
  else if (tag == TAG_COLUMNS)
    note_columns (self, attributes);
  else
    follow_text (self, tag, TRUE);
  if (self->row <= CRO_SPREADSHEET_MOST_ROWS)
    return TRUE;
  g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "rows");
  return FALSE;
}

static gboolean
end_cb (const char  *name,
        gpointer     user_data,
        GError     **error)
{
  Reader *self = user_data;
  Tag tag = find_tag (name);

  if (tag == TAG_CELL)
    return end_cell (self, error);
  if (tag == TAG_ROW)
    return cro_read_cells_hand_on (&self->cells, self->row, self->taker, self->user_data);
  if (tag == TAG_VALUE)
    self->is_value = FALSE;
  else if (tag == TAG_FORMULA)
    end_formula (self);
  else
    follow_text (self, tag, FALSE);
  return TRUE;
}

static gboolean
read_cells (Reader      *self,
            const char  *path,
            const char  *name,
            GError     **error)
{
  static const CroPartWalker walker = { begin_cb, text_cb, end_cb };

  return cro_part_walk (path, name, TRUE, whom_of (self), &walker, self, error);
}

gboolean
cro_sheet_read (const char                *path,
                const CroWorkbookParts    *parts,
                guint                      sheet,
                const CroSpreadsheetTaker *taker,
                gpointer                   user_data,
                GError                   **error)
{
  Reader reader = { .taker = taker, .user_data = user_data, .parts = parts };
  gboolean is_read = FALSE;

  reader.styles = cro_styles_read (path, parts, whom_of (&reader), error);
  if (reader.styles == NULL)
    return FALSE;
  reader.texts.texts = g_string_new (NULL);
  reader.texts.starts = g_array_new (FALSE, FALSE, sizeof (gsize));
  reader.value = g_string_new (NULL);
  reader.formula = g_string_new (NULL);
  reader.hidden = g_byte_array_new ();
  cro_read_cells_init (&reader.cells);
  if (read_shared (&reader, path, error))
    is_read = read_cells (&reader, path, g_ptr_array_index (parts->parts, sheet), error);
  cro_read_cells_clear (&reader.cells);
  g_string_free (reader.value, TRUE);
  g_string_free (reader.formula, TRUE);
  g_byte_array_unref (reader.hidden);
  g_array_unref (reader.texts.starts);
  g_string_free (reader.texts.texts, TRUE);
  g_array_unref (reader.styles);
  return is_read;
}
