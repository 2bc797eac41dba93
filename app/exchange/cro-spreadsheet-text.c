/* Two passes: the first looks whether the file is UTF-8 and what divides its fields, the second
 * reads it, a chunk at a time. */
#include "cro-spreadsheet-private.h"

#include "cro-plain-file.h"

#include <csv.h>
#include <errno.h>
#include <string.h>
#include <unistd.h>

#define CHUNK (64 * 1024)

/* How much of the file says what divides fields. */
#define LOOKED_AT (64 * 1024)
#define MOST_ROWS_LOOKED_AT 64

static const char delimiters[] = ";,\t|";

/* A mark promises UTF-8; this was looked through. */
static const char sound_utf8[] = "UTF-8";

typedef struct
{
  const CroSpreadsheetTaker *taker;
  gpointer                   user_data;
  CroReadCells                   cells;
  guint                      row;
  int                        ended_by;    /* what ended the last row */
  gboolean                   stopped;
  gboolean                   is_too_long;
} Reader;

/* -1 with error: it cannot be read. */
static gssize
read_some (int      file,
           char    *into,
           gsize    size,
           GError **error)
{
  ssize_t n;

  do
    n = read (file, into, size);
  while (n < 0 && errno == EINTR);
  if (n < 0)
    g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (errno), g_strerror (errno));
  return n;
}

/* Of two or four bytes a character, without a mark. Most characters of a table are of the first 256,
 * whose upper bytes are 0; text of one byte a character has no 0 at all. */
static const char *
find_wide (const char *head,
           gsize       length)
{
  gsize zeros[4] = { 0 }, n = length / 4;

  for (gsize i = 0; i < 4 * n; i++)
    zeros[i % 4] += head[i] == '\0';
  if (n == 0)
    return NULL;
  if (zeros[0] == 0 && zeros[2] == n && zeros[3] == n)
    return "UTF-32LE";
  if (zeros[0] == n && zeros[1] == n && zeros[3] == 0)
    return "UTF-32BE";
  if (zeros[0] + zeros[2] == 0 && 3 * (zeros[1] + zeros[3]) > 4 * n)
    return "UTF-16LE";
  if (zeros[1] + zeros[3] == 0 && 3 * (zeros[0] + zeros[2]) > 4 * n)
    return "UTF-16BE";
  return NULL;
}

const char *
cro_text_find_charset (const char *head,
                       gsize       length,
                       gsize      *mark)
{
  static const struct { const char *bytes; gsize n; const char *charset; } marks[] = {
    { "\xEF\xBB\xBF", 3, "UTF-8" },
    { "\xFF\xFE\0\0", 4, "UTF-32LE" },
    { "\0\0\xFE\xFF", 4, "UTF-32BE" },
    { "\xFF\xFE", 2, "UTF-16LE" },
    { "\xFE\xFF", 2, "UTF-16BE" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
    if (length >= marks[i].n && memcmp (head, marks[i].bytes, marks[i].n) == 0)
      {
        *mark = marks[i].n;
        return marks[i].charset;
      }
  *mark = 0;
  return find_wide (head, length);
}

/* Whether the rest of a file is UTF-8, of which the first bytes are in head. */
static gboolean
is_utf8 (int        file,
         CroReadFor whom,
         gboolean  *utf8,
         GError   **error)
{
  g_autofree char *chunk = g_malloc (CHUNK);
  gsize kept = 0;
  gssize n;

  *utf8 = TRUE;
  while ((n = read_some (file, chunk + kept, CHUNK - kept, error)) > 0)
    {
      const char *bad;
      gsize length = kept + (gsize) n;

      if (whom.taker->goes_on != NULL && !whom.taker->goes_on (whom.user_data))
        {
          g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_STOPPED, "stopped");
          return FALSE;
        }
      if (g_utf8_validate_len (chunk, length, &bad))
        kept = 0;
      /* A character may go on in the next chunk. */
      else if ((kept = (gsize) (chunk + length - bad)) < 4
               && g_utf8_get_char_validated (bad, (gssize) kept) == (gunichar) -2)
        memmove (chunk, bad, kept);
      else
        {
          *utf8 = FALSE;
          return TRUE;
        }
    }
  *utf8 &= kept == 0;
  return n == 0;
}

/* Finds what the bytes are, and goes back to the first after the mark. */
static const char *
find_charset (int        file,
              CroReadFor whom,
              GError   **error)
{
  char head[CRO_TEXT_HEAD];
  gsize mark = 0;
  gssize n = read_some (file, head, sizeof head, error);
  const char *charset;
  gboolean utf8;

  if (n < 0)
    return NULL;
  charset = cro_text_find_charset (head, (gsize) n, &mark);
  if (charset == NULL)
    {
      lseek (file, 0, SEEK_SET);
      if (!is_utf8 (file, whom, &utf8, error))
        return NULL;
      charset = utf8 ? sound_utf8 : "WINDOWS-1252";
    }
  lseek (file, (off_t) mark, SEEK_SET);
  return charset;
}

char *
cro_spreadsheet_dup_text (const char *bytes,
                          gsize       length)
{
  gsize mark;
  const char *charset = cro_text_find_charset (bytes, MIN (length, CRO_TEXT_HEAD), &mark);
  char *text;

  if (charset == NULL && !g_utf8_validate_len (bytes, length, NULL))
    charset = "WINDOWS-1252";
  if (charset == NULL || strcmp (charset, "UTF-8") == 0)
    return g_utf8_make_valid (bytes + mark, (gssize) (length - mark));
  text = g_convert_with_fallback (bytes + mark, (gssize) (length - mark), "UTF-8", charset, "\uFFFD", NULL, NULL, NULL);
  return text != NULL ? text : g_utf8_make_valid (bytes, (gssize) length);
}

/* The file from where it stands, as UTF-8. */
typedef struct
{
  int      file;
  GIConv   conversion; /* (GIConv) -1 where it is UTF-8 throughout */
  gsize    unit;       /* bytes of the least character */
  char     raw[CHUNK];
  gsize    n_raw;
  gboolean has_ended;
} Source;

static Source *
source_new (int         file,
            const char *charset)
{
  Source *self = g_new (Source, 1);

  self->file = file;
  self->n_raw = 0;
  self->has_ended = FALSE;
  self->unit = g_str_has_prefix (charset, "UTF-16") ? 2 : g_str_has_prefix (charset, "UTF-32") ? 4 : 1;
  self->conversion = charset == sound_utf8 ? (GIConv) -1 : g_iconv_open ("UTF-8", charset);
  return self;
}

static void
source_free (Source *self)
{
  if (self->conversion != (GIConv) -1)
    g_iconv_close (self->conversion);
  g_free (self);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Source, source_free)

/* A converter may let through what a file marked as UTF-8 has beyond U+10FFFF. Nothing moves. */
static void
blot_out (char  *text,
          gsize  length)
{
  const char *bad;

  while (length > 0 && !g_utf8_validate_len (text, length, &bad))
    {
      gsize n = (gsize) (bad - text);

      /* An end of text within it is none of that. */
      if (text[n] != '\0')
        text[n] = '?';
      text += n + 1;
      length -= n + 1;
    }
}

/* What has no meaning in the charset becomes U+FFFD. */
static gsize
convert (Source *self,
         char   *into,
         gsize   size)
{
  char *in = self->raw, *out = into;
  gsize n_in = self->n_raw, n_out = size;

  while (n_in > 0 && g_iconv (self->conversion, &in, &n_in, &out, &n_out) == (gsize) -1)
    {
      gsize unit = MIN (self->unit, n_in);

      if (errno == E2BIG || (errno == EINVAL && !self->has_ended) || n_out < 3)
        break;
      memcpy (out, "\xEF\xBF\xBD", 3);
      out += 3;
      n_out -= 3;
      in += unit;
      n_in -= unit;
    }
  memmove (self->raw, in, n_in);
  self->n_raw = n_in;
  blot_out (into, size - n_out);
  return size - n_out;
}

/* 0: at the end; -1 with error. */
static gssize
source_read (Source  *self,
             char    *into,
             gsize    size,
             GError **error)
{
  gssize n;

  if (self->conversion == (GIConv) -1)
    return read_some (self->file, into, size, error);
  do
    {
      n = read_some (self->file, self->raw + self->n_raw, CHUNK - self->n_raw, error);
      if (n < 0)
        return -1;
      self->has_ended = n == 0;
      self->n_raw += (gsize) n;
      n = (gssize) convert (self, into, size);
    }
  while (n == 0 && !self->has_ended);
  return n;
}

/* How many rows have how many fields, were it that which divides them. */
static void
count_fields (const char *text,
              gsize       length,
              char        delimiter,
              GArray     *counts)
{
  gboolean is_quoted = FALSE;
  guint n = 1;

  for (gsize i = 0; i < length && counts->len < MOST_ROWS_LOOKED_AT; i++)
    {
      if (text[i] == '"')
        is_quoted = !is_quoted;
      else if (!is_quoted && text[i] == delimiter)
        n++;
      else if (!is_quoted && text[i] == '\n')
        {
          g_array_append_val (counts, n);
          n = 1;
        }
    }
  if (counts->len == 0)
    g_array_append_val (counts, n);
}

/* Rows of one table have as many fields as each other; a comma of decimals or of sentences comes
 * and goes. So it counts how often the most frequent number above 1 is met, then that number. */
static guint
judge (const GArray *counts)
{
  guint best = 0;

  for (guint i = 0; i < counts->len; i++)
    {
      guint n = g_array_index (counts, guint, i), alike = 0;

      for (guint j = 0; j < counts->len; j++)
        alike += g_array_index (counts, guint, j) == n;
      if (n > 1)
        best = MAX (best, alike * 1024 + MIN (n, 1023));
    }
  return best;
}

static char
find_delimiter (const char *text,
                gsize       length)
{
  char found = ',';
  guint most = 0;

  for (const char *delimiter = delimiters; *delimiter != '\0'; delimiter++)
    {
      g_autoptr (GArray) counts = g_array_new (FALSE, FALSE, sizeof (guint));
      guint judged;

      count_fields (text, length, *delimiter, counts);
      judged = judge (counts);
      if (judged > most)
        {
          most = judged;
          found = *delimiter;
        }
    }
  return found;
}

static void
field_cb (void   *data,
          size_t  length,
          void   *user_data)
{
  Reader *self = user_data;

  if (!self->stopped
      && !cro_read_cells_put (&self->cells, self->cells.n, CRO_READ_CELL_TEXT, data != NULL ? data : "", length, NULL,
                              FALSE))
    self->is_too_long = TRUE;
}

static void
row_cb (int   terminator,
        void *user_data)
{
  Reader *self = user_data;
  gboolean is_same_end = terminator == '\n' && self->ended_by == '\r' && self->cells.n == 0;

  self->ended_by = is_same_end ? '\n' : terminator;
  if (is_same_end)
    return;
  self->row++;
  if (!self->stopped && !self->is_too_long)
    self->stopped = !cro_read_cells_hand_on (&self->cells, self->row, self->taker, self->user_data);
}

static gboolean
parse (Reader             *self,
       struct csv_parser  *parser,
       const char         *text,
       gsize               length,
       GError            **error)
{
  gboolean is_read = csv_parse (parser, text, length, field_cb, row_cb, self) == length;

  if (self->stopped)
    return FALSE;
  if (!is_read || self->is_too_long || csv_get_buffer_size (parser) > 2 * CRO_SPREADSHEET_MOST_ROW)
    {
      g_set_error (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "row %u",
                   self->row + 1);
      return FALSE;
    }
  return TRUE;
}

static gboolean
parse_all (Reader             *self,
           struct csv_parser  *parser,
           Source             *source,
           char               *text,
           gsize               size,
           gsize               length,
           GError            **error)
{
  gssize n = (gssize) length;

  do
    if (!parse (self, parser, text, (gsize) n, error))
      return FALSE;
  while ((n = source_read (source, text, size, error)) > 0);
  if (n < 0)
    return FALSE;
  csv_fini (parser, field_cb, row_cb, self);
  return !self->stopped;
}

static gboolean
read_rows (Reader      *self,
           Source      *source,
           GError     **error)
{
  g_autofree char *text = g_malloc (LOOKED_AT);
  struct csv_parser parser;
  gsize length = 0;
  gboolean is_read;
  gssize n;

  while (length < LOOKED_AT
         && (n = source_read (source, text + length, LOOKED_AT - length, error)) != 0)
    {
      if (n < 0)
        return FALSE;
      length += (gsize) n;
    }
  /* Rows without fields are counted too, as a spreadsheet that opens the file would. */
  csv_init (&parser, CSV_REPALL_NL | CSV_APPEND_NULL);
  csv_set_delim (&parser, (guchar) find_delimiter (text, length));
  csv_set_realloc_func (&parser, g_realloc);
  csv_set_free_func (&parser, g_free);
  is_read = parse_all (self, &parser, source, text, LOOKED_AT, length, error);
  csv_free (&parser);
  return is_read;
}

gboolean
cro_delimited_read (const char                *path,
                    const CroSpreadsheetTaker *taker,
                    gpointer                   user_data,
                    GError                   **error)
{
  Reader reader = { .taker = taker, .user_data = user_data };
  int file = cro_plain_file_open (path, error);
  const char *charset;
  gboolean is_read = FALSE;

  if (file < 0)
    return FALSE;
  charset = find_charset (file, (CroReadFor){ taker, user_data }, error);
  if (charset != NULL)
    {
      g_autoptr (Source) source = source_new (file, charset);

      cro_read_cells_init (&reader.cells);
      is_read = read_rows (&reader, source, error);
      cro_read_cells_clear (&reader.cells);
    }
  close (file);
  return is_read;
}
