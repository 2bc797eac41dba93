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
  GByteArray                *styles;
  Texts                      texts;
  CroReadCells                   cells;
  CroPart                   *part;
  xmlTextReaderPtr           xml;

  /* Names as the reader has them: the same text is the same pointer. */
  const xmlChar *name_row, *name_cell, *name_value, *name_text, *name_phonetic, *name_merge;

  guint    row;
  guint    column;
  Holds    holds;
  guint    style;
  GString *value;
  gboolean is_value;   /* what is read belongs to it */
  guint    n_phonetic; /* how to say it, which nobody sees */
} Reader;

static const xmlChar *
get_name (xmlTextReaderPtr  xml,
          const char       *name)
{
  return xmlTextReaderConstString (xml, (const xmlChar *) name);
}

/* Binds names to the reader of a part, as each has its own. */
static void
use_part (Reader  *self,
          CroPart *part)
{
  self->part = part;
  self->xml = cro_part_get_xml (part);
  self->name_row = get_name (self->xml, "row");
  self->name_cell = get_name (self->xml, "c");
  self->name_value = get_name (self->xml, "v");
  self->name_text = get_name (self->xml, "t");
  self->name_phonetic = get_name (self->xml, "rPh");
  self->name_merge = get_name (self->xml, "mergeCell");
}

static gboolean
is_text_node (int type)
{
  return type == XML_READER_TYPE_TEXT || type == XML_READER_TYPE_CDATA
         || type == XML_READER_TYPE_WHITESPACE || type == XML_READER_TYPE_SIGNIFICANT_WHITESPACE;
}

static gboolean
append_value (Reader  *self,
              GError **error)
{
  g_string_append (self->value, (const char *) xmlTextReaderConstValue (self->xml));
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

/* Follows <t> through a text, and what of it is said and not seen. Whether the node was one of
 * these. */
static gboolean
follow_text (Reader        *self,
             int            type,
             const xmlChar *name)
{
  gboolean is_begin = type == XML_READER_TYPE_ELEMENT;

  if (name == self->name_phonetic)
    {
      if (is_begin && !xmlTextReaderIsEmptyElement (self->xml))
        self->n_phonetic++;
      else if (!is_begin && self->n_phonetic > 0)
        self->n_phonetic--;
      return TRUE;
    }
  if (name != self->name_text)
    return FALSE;
  self->is_value = is_begin && self->n_phonetic == 0 && !xmlTextReaderIsEmptyElement (self->xml);
  return TRUE;
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
read_shared_node (Reader         *self,
                  const xmlChar  *name_item,
                  GError        **error)
{
  int type = xmlTextReaderNodeType (self->xml);
  const xmlChar *name = xmlTextReaderConstLocalName (self->xml);

  if (is_text_node (type))
    return !self->is_value || append_value (self, error);
  if (type != XML_READER_TYPE_ELEMENT && type != XML_READER_TYPE_END_ELEMENT)
    return TRUE;
  if (name == name_item
      && (type == XML_READER_TYPE_END_ELEMENT || xmlTextReaderIsEmptyElement (self->xml)))
    return keep_shared (self, error);
  follow_text (self, type, name);
  return TRUE;
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
  g_autoptr (GError) fault = NULL;
  g_autoptr (CroPart) part = NULL;

  if (self->parts->texts_part != NULL)
    part = cro_part_open (path, self->parts->texts_part, whom_of (self), &fault);
  if (part != NULL)
    {
      const xmlChar *name_item;

      use_part (self, part);
      name_item = get_name (self->xml, "si");
      while (cro_part_next (part, &fault) && read_shared_node (self, name_item, &fault))
        ;
    }
  if (fault == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&fault));
  return FALSE;
}

/* "AB12" → column 27, row 12; what does not read so leaves both as they are. */
static void
read_place (const char *text,
            guint      *column,
            guint      *row)
{
  guint letters = 0;
  const char *at = text;
  guint64 number;

  for (; g_ascii_isalpha (*at) && letters <= CRO_SPREADSHEET_MOST_COLUMNS; at++)
    letters = letters * 26 + (guint) (g_ascii_toupper (*at) - 'A') + 1;
  number = g_ascii_strtoull (at, NULL, 10);
  if (letters == 0 || number == 0 || number > G_MAXINT32)
    return;
  *column = letters - 1;
  *row = (guint) number;
}

static Holds
find_holds (const char *type)
{
  static const struct { const char *type; Holds holds; } all[] = {
    { "s", HOLDS_SHARED }, { "str", HOLDS_TEXT }, { "inlineStr", HOLDS_TEXT },
    { "b", HOLDS_TRUTH }, { "d", HOLDS_DATE }, { "e", HOLDS_ERROR },
  };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    if (g_str_equal (type, all[i].type))
      return all[i].holds;
  return HOLDS_NUMBER;
}

static void
begin_row (Reader *self)
{
  self->row++;
  self->column = 0;
  while (xmlTextReaderMoveToNextAttribute (self->xml) == 1)
    if (g_str_equal ((const char *) xmlTextReaderConstLocalName (self->xml), "r"))
      {
        guint64 row = g_ascii_strtoull ((const char *) xmlTextReaderConstValue (self->xml), NULL, 10);

        if (row >= self->row && row <= G_MAXINT32)
          self->row = (guint) row;
      }
  xmlTextReaderMoveToElement (self->xml);
}

static void
begin_cell (Reader *self)
{
  guint ignored;

  self->holds = HOLDS_NUMBER;
  self->style = 0;
  g_string_truncate (self->value, 0);
  while (xmlTextReaderMoveToNextAttribute (self->xml) == 1)
    {
      const char *name = (const char *) xmlTextReaderConstLocalName (self->xml);
      const char *value = (const char *) xmlTextReaderConstValue (self->xml);

      if (g_str_equal (name, "r"))
        read_place (value, &self->column, &ignored);
      else if (g_str_equal (name, "s"))
        self->style = (guint) g_ascii_strtoull (value, NULL, 10);
      else if (g_str_equal (name, "t"))
        self->holds = find_holds (value);
    }
  xmlTextReaderMoveToElement (self->xml);
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
  CroNumbers numbers = self->style < self->styles->len ? (CroNumbers) self->styles->data[self->style]
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

static gboolean
end_cell (Reader  *self,
          GError **error)
{
  CroReadCellKind kind = self->value->len > 0 ? read_value (self) : CRO_READ_CELL_EMPTY;

  self->is_value = FALSE;
  if (kind == CRO_READ_CELL_EMPTY || self->value->len == 0
      || cro_read_cells_put (&self->cells, self->column, kind, self->value->str, self->value->len))
    {
      self->column++;
      return TRUE;
    }
  g_set_error (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_DAMAGED, "row %u", self->row);
  return FALSE;
}

static void
note_merged (Reader *self)
{
  g_autofree char *cells = NULL;
  guint column = 0, row = 0, last_column = 0, last_row = 0;
  char *colon;

  while (cells == NULL && xmlTextReaderMoveToNextAttribute (self->xml) == 1)
    if (g_str_equal ((const char *) xmlTextReaderConstLocalName (self->xml), "ref"))
      cells = g_strdup ((const char *) xmlTextReaderConstValue (self->xml));
  xmlTextReaderMoveToElement (self->xml);
  colon = cells != NULL ? strchr (cells, ':') : NULL;
  if (colon == NULL || self->taker->merged == NULL)
    return;
  read_place (cells, &column, &row);
  read_place (colon + 1, &last_column, &last_row);
  if (row > 0 && last_row >= row && last_column >= column)
    self->taker->merged (row, column, last_row, last_column, self->user_data);
}

/* FALSE with error, or without: stopped. */
static gboolean
read_begin (Reader         *self,
            const xmlChar  *name,
            GError        **error)
{
  if (name == self->name_row)
    {
      begin_row (self);
      if (self->row > CRO_SPREADSHEET_MOST_ROWS)
        {
          g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "rows");
          return FALSE;
        }
    }
  else if (name == self->name_cell)
    {
      begin_cell (self);
      return !xmlTextReaderIsEmptyElement (self->xml) || end_cell (self, error);
    }
  else if (name == self->name_value)
    self->is_value = !xmlTextReaderIsEmptyElement (self->xml);
  else if (name == self->name_merge)
    note_merged (self);
  else
    follow_text (self, XML_READER_TYPE_ELEMENT, name);
  return TRUE;
}

static gboolean
read_end (Reader         *self,
          const xmlChar  *name,
          GError        **error)
{
  if (name == self->name_cell)
    return end_cell (self, error);
  if (name == self->name_row)
    return cro_read_cells_hand_on (&self->cells, self->row, self->taker, self->user_data);
  if (name == self->name_value)
    self->is_value = FALSE;
  else
    follow_text (self, XML_READER_TYPE_END_ELEMENT, name);
  return TRUE;
}

static gboolean
read_node (Reader  *self,
           GError **error)
{
  int type = xmlTextReaderNodeType (self->xml);

  if (is_text_node (type))
    return !self->is_value || append_value (self, error);
  if (type == XML_READER_TYPE_ELEMENT)
    return read_begin (self, xmlTextReaderConstLocalName (self->xml), error);
  if (type == XML_READER_TYPE_END_ELEMENT)
    return read_end (self, xmlTextReaderConstLocalName (self->xml), error);
  return TRUE;
}

static gboolean
read_nodes (Reader      *self,
            const char  *path,
            const char  *name,
            GError     **error)
{
  g_autoptr (GError) fault = NULL;
  g_autoptr (CroPart) part = cro_part_open (path, name, whom_of (self), &fault);
  gboolean goes_on = part != NULL;

  if (part != NULL)
    use_part (self, part);
  while (goes_on && cro_part_next (part, &fault))
    goes_on = read_node (self, &fault);
  if (part == NULL && fault == NULL)
    g_set_error_literal (&fault, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_DAMAGED, name);
  if (fault == NULL)
    return goes_on;
  g_propagate_error (error, g_steal_pointer (&fault));
  return FALSE;
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
  cro_read_cells_init (&reader.cells);
  if (read_shared (&reader, path, error))
    is_read = read_nodes (&reader, path, g_ptr_array_index (parts->parts, sheet), error);
  cro_read_cells_clear (&reader.cells);
  g_string_free (reader.value, TRUE);
  g_array_unref (reader.texts.starts);
  g_string_free (reader.texts.texts, TRUE);
  g_byte_array_unref (reader.styles);
  return is_read;
}
