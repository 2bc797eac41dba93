#include "config.h"

#include "cro-left-out-words.h"

#include <glib/gi18n.h>

#include "cro-isolate.h"
#include "cro-number.h"

#define FILE_NAME "left-out.txt"

static char *
dup_number (gint64 id)
{
  return g_strdup_printf ("%" G_GINT64_FORMAT, id);
}

static char *
gap_sentence (const CroLeftOut *left)
{
  g_autofree char *first = dup_number (left->row);
  g_autofree char *last = dup_number (left->last);

  if (left->last == G_MAXINT64 && left->row <= 1)
    return g_strdup (_("no row can be read"));
  if (left->last == G_MAXINT64)
    /* Translators: the number of a row in the file. */
    return g_strdup_printf (_("no row from number %s on can be read"), first);
  if (left->row == left->last)
    /* Translators: the number of a row in the file. */
    return g_strdup_printf (_("row number %s cannot be read"), first);
  /* Translators: the numbers of two rows in the file. */
  return g_strdup_printf (_("rows number %s to %s cannot be read"), first, last);
}

static char *
sentence_of (const CroLeftOut *left)
{
  switch (left->kind)
    {
    case CRO_LEFT_OUT_VALUE:
      return g_strdup (_("this value cannot be read and was left empty"));
    case CRO_LEFT_OUT_ROW:
      return g_strdup (_("this value cannot be read, so the row was left out"));
    case CRO_LEFT_OUT_STRANGER:
      return g_strdup (_("this names something that is not there or was left out, so the row was left "
                         "out too"));
    case CRO_LEFT_OUT_TWICE:
      return g_strdup (_("another row has the same key, so this one was left out"));
    case CRO_LEFT_OUT_GAP:
      return gap_sentence (left);
    case CRO_LEFT_OUT_TABLE:
      return g_strdup (_("this table is not in the file"));
    }
  g_return_val_if_reached (NULL);
}

/* A row of which nothing is known is told by its number in the file. */
static char *
row_words (const CroLeftOut *left)
{
  g_autofree char *number = NULL;

  if (left->name != NULL)
    return cro_isolate (left->name);
  if (left->table == CRO_TABLE_BOOK)
    return g_strdup ("-");
  number = dup_number (left->row);
  /* Translators: a row of a table, by its number. */
  return g_strdup_printf (_("row number %s"), number);
}

char *
cro_words_left_out (const CroLeftOut *left)
{
  const char *table = cro_table_get (left->table)->name;
  g_autofree char *sentence = sentence_of (left);
  g_autofree char *row = NULL;

  if (left->kind == CRO_LEFT_OUT_GAP || left->kind == CRO_LEFT_OUT_TABLE)
    return g_strdup_printf ("%s: %s", table, sentence);
  row = row_words (left);
  if (left->column == NULL)
    return g_strdup_printf ("%s: %s: %s", table, row, sentence);
  return g_strdup_printf ("%s: %s: %s: %s", table, row, left->column->name, sentence);
}

/* --- How much ----------------------------------------------------------------------------------- */

typedef struct
{
  gint64   n_rows;
  gint64   n_values;
  gboolean is_most;     /* of n_rows: an id in a gap may have had no row */
  gboolean is_unknown;  /* n_rows: nobody knows where a table ended */
} Count;

static void
count_one (Count            *count,
           const CroLeftOut *left)
{
  if (left->kind == CRO_LEFT_OUT_VALUE)
    count->n_values++;
  else if (left->kind != CRO_LEFT_OUT_GAP && left->kind != CRO_LEFT_OUT_TABLE)
    count->n_rows++;
  else if (left->kind == CRO_LEFT_OUT_TABLE || left->last == G_MAXINT64)
    count->is_unknown = TRUE;
  else
    {
      gint64 n = left->last - left->row + 1;

      count->n_rows = n < G_MAXINT64 - count->n_rows ? count->n_rows + n : G_MAXINT64;
      count->is_most |= n > 1;
    }
}

static char *
count_words (gint64 n)
{
  return cro_number_to_text ((double) n, 0, TRUE);
}

char *
cro_words_salvaged (const CroSalvage *salvage)
{
  Count count = { 0 };
  gint64 n_rows = 0;
  g_autofree char *saved = NULL, *rows = NULL, *values = NULL;

  for (guint i = 0; i < CRO_N_TABLES; i++)
    n_rows += salvage->n_rows[i];
  for (guint i = 0; i < salvage->left_out->len; i++)
    count_one (&count, salvage->left_out->pdata[i]);
  saved = count_words (n_rows);
  rows = count_words (count.n_rows);
  values = count_words (count.n_values);
  if (salvage->left_out->len == 0)
    /* Translators: %s is a number of rows of tables. */
    return g_strdup_printf (_("Rows saved: %s. Nothing was left out."), saved);
  if (count.is_unknown)
    /* Translators: both %s are numbers; what was left out is listed. */
    return g_strdup_printf (_("Rows saved: %s. Rows left out: not known how many, as the end of a table "
                              "cannot be read; values left empty: %s. All of this is listed."),
                            saved, values);
  if (count.is_most)
    /* Translators: all %s are numbers; what was left out is listed. */
    return g_strdup_printf (_("Rows saved: %s. Rows left out: up to %s; values left empty: %s. All of "
                              "this is listed."),
                            saved, rows, values);
  /* Translators: all %s are numbers; what was left out is listed. */
  return g_strdup_printf (_("Rows saved: %s. Rows left out: %s; values left empty: %s. All of this is "
                            "listed."),
                          saved, rows, values);
}

char *
cro_words_unloadable (const CroSalvage *salvage)
{
  guint n = cro_faults_get_n (salvage->faults);

  if (n == 0)
    return NULL;
  return g_strdup_printf (ngettext ("%u error keeps these tables from loading as they are. Correct it in the "
                                    "folder with a spreadsheet or text program, then load the folder "
                                    "into a new book.",
                                    "%u errors keep these tables from loading as they are. Correct them in the "
                                    "folder with a spreadsheet or text program, then load the folder "
                                    "into a new book.",
                                    n),
                          n);
}

gboolean
cro_left_out_write (const CroSalvage  *salvage,
                    const char        *folder,
                    GError           **error)
{
  g_autofree char *path = g_build_filename (folder, FILE_NAME, NULL);
  g_autoptr (GString) text = g_string_new (NULL);

  if (salvage->left_out->len == 0)
    return TRUE;
  for (guint i = 0; i < salvage->left_out->len; i++)
    {
      g_autofree char *line = cro_words_left_out (salvage->left_out->pdata[i]);

      g_string_append_printf (text, "%s\n", line);
    }
  return g_file_set_contents (path, text->str, (gssize) text->len, error);
}
