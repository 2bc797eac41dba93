#include "cro-cli-grid.h"

#include <string.h>

#define GAP 2
#define NARROWEST 4

typedef struct
{
  guint  indent;
  char  *note;      /* instead of cells */
  char **cells;     /* NULL: an empty line, or a note */
} Row;

struct _CroGrid
{
  guint      n_columns;
  GPtrArray *rows;
};

static void
row_free (gpointer data)
{
  Row *row = data;

  g_free (row->note);
  g_free (row->cells);
  g_free (row);
}

CroGrid *
cro_grid_new (guint n_columns)
{
  CroGrid *self = g_new (CroGrid, 1);

  self->n_columns = n_columns;
  self->rows = g_ptr_array_new_with_free_func (row_free);
  return self;
}

void
cro_grid_free (CroGrid *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      Row *row = self->rows->pdata[i];

      for (guint k = 0; row->cells != NULL && k < self->n_columns; k++)
        g_free (row->cells[k]);
    }
  g_ptr_array_unref (self->rows);
  g_free (self);
}

/* A terminal obeys control characters, and a name may hold them: here they are blanks. */
static char *
take_plain (char *text)
{
  for (char *c = text; c != NULL && *c != '\0'; c = g_utf8_next_char (c))
    if ((guchar) *c < 0x80 ? g_ascii_iscntrl (*c) : g_unichar_iscntrl (g_utf8_get_char (c)))
      memset (c, ' ', (gsize) (g_utf8_next_char (c) - c));
  return text;
}

static Row *
add_row (CroGrid *self,
         guint    indent)
{
  Row *row = g_new0 (Row, 1);

  row->indent = indent;
  g_ptr_array_add (self->rows, row);
  return row;
}

void
cro_grid_take_row (CroGrid  *self,
                   guint     indent,
                   char    **cells)
{
  for (guint i = 0; i < self->n_columns; i++)
    take_plain (cells[i]);
  add_row (self, indent)->cells = g_memdup2 (cells, self->n_columns * sizeof *cells);
}

void
cro_grid_add_note (CroGrid    *self,
                   guint       indent,
                   const char *text)
{
  add_row (self, indent)->note = g_strdup (text);
}

void
cro_grid_add_head (CroGrid           *self,
                   const char *const *titles)
{
  Row *row = add_row (self, 0);

  row->cells = g_new0 (char *, self->n_columns);
  for (guint i = 0; i < self->n_columns; i++)
    row->cells[i] = g_strdup (titles[i]);
}

void
cro_grid_add_gap (CroGrid *self)
{
  add_row (self, 0);
}

static guint
width_of (gunichar c)
{
  /* Most are, and a long table asks often. */
  if (c < 0x80)
    return 1;
  return g_unichar_iszerowidth (c) ? 0 : g_unichar_iswide (c) ? 2 : 1;
}

/* Columns that text takes on a terminal. */
static guint
text_width (const char *text)
{
  guint width = 0;

  for (; *text != '\0'; text = g_utf8_next_char (text))
    width += width_of (g_utf8_get_char (text));
  return width;
}

static void
append_right (GString    *line,
              const char *text,
              guint       width)
{
  for (guint i = text_width (text); i < width; i++)
    g_string_append_c (line, ' ');
  g_string_append (line, text);
}

/* Pads text to width. What is wider keeps lines of its own: a name is never cut. */
static void
print_left (GString    *line,
            const char *text,
            guint       indent,
            guint       width)
{
  guint used = indent + text_width (text);

  if (used > width)
    {
      cro_cli_print_wrapped (text, indent);
      append_right (line, "", width);
    }
  else
    {
      append_right (line, "", indent);
      g_string_append (line, text);
      append_right (line, "", width - used);
    }
}

static void
print_row (CroGrid     *self,
           const Row   *row,
           const guint *widths)
{
  const char *name = row->cells[0] != NULL ? row->cells[0] : "";
  g_autoptr (GString) line = NULL;
  guint last = self->n_columns;

  /* No blanks at the end of a line. */
  while (last > 1 && row->cells[last - 1] == NULL)
    last--;
  if (last == 1)
    {
      cro_cli_print_wrapped (name, row->indent);
      return;
    }
  line = g_string_new (NULL);
  print_left (line, name, row->indent, widths[0]);
  for (guint i = 1; i < last; i++)
    append_right (line, row->cells[i] != NULL ? row->cells[i] : "", GAP + widths[i]);
  g_print ("%s\n", line->str);
}

static void
measure (CroGrid *self,
         guint   *widths)
{
  guint others = 0;

  memset (widths, 0, self->n_columns * sizeof *widths);
  for (guint r = 0; r < self->rows->len; r++)
    {
      const Row *row = self->rows->pdata[r];

      for (guint i = 0; row->cells != NULL && i < self->n_columns; i++)
        if (row->cells[i] != NULL)
          widths[i] = MAX (widths[i],
                           text_width (row->cells[i]) + (i == 0 ? row->indent : 0));
    }
  for (guint i = 1; i < self->n_columns; i++)
    others += GAP + widths[i];
  if (widths[0] + others > CRO_GRID_WIDTH)
    widths[0] = others + NARROWEST < CRO_GRID_WIDTH ? CRO_GRID_WIDTH - others : NARROWEST;
}

void
cro_grid_print (CroGrid *self)
{
  g_autofree guint *widths = g_new (guint, self->n_columns);

  measure (self, widths);
  for (guint r = 0; r < self->rows->len; r++)
    {
      const Row *row = self->rows->pdata[r];

      if (row->cells != NULL)
        print_row (self, row, widths);
      else if (row->note != NULL)
        cro_cli_print_wrapped (row->note, row->indent);
      else
        g_print ("\n");
    }
}

/* The bytes of text that width columns hold: one character at least. */
static int
fitting (const char *text,
         guint       width)
{
  const char *end = text;
  guint used = 0;

  for (; *end != '\0'; end = g_utf8_next_char (end))
    {
      used += width_of (g_utf8_get_char (end));
      if (used > width && end > text)
        break;
    }
  return (int) (end - text);
}

/* Goes on after what is used of a line; returns what is used then. A word wider than a line, as
 * of a script without blanks, goes over several. */
static guint
append_word (GString    *lines,
             const char *word,
             guint       indent,
             guint       used)
{
  while (used + text_width (word) > CRO_GRID_WIDTH)
    {
      int n = fitting (word, CRO_GRID_WIDTH - used);

      g_string_append_printf (lines, "%.*s\n%*s", n, word, (int) indent, "");
      word += n;
      used = indent;
    }
  g_string_append (lines, word);
  return used + text_width (word);
}

/* Printed as a whole: whoever prints looks at each piece anew. */
void
cro_cli_print_wrapped (const char *text,
                       guint       indent)
{
  g_autofree char *plain = take_plain (g_strdup (text));
  g_auto (GStrv) words = g_strsplit (plain, " ", -1);
  g_autoptr (GString) lines = g_string_new (NULL);
  guint used = 0;

  for (char **word = words; *word != NULL; word++)
    {
      if (used > 0 && used + 1 + text_width (*word) > CRO_GRID_WIDTH)
        {
          g_string_append_c (lines, '\n');
          used = 0;
        }
      g_string_append_printf (lines, "%*s", (int) (used > 0 ? 1 : indent), "");
      used = append_word (lines, *word, indent, used > 0 ? used + 1 : indent);
    }
  g_print ("%s\n", lines->str);
}
