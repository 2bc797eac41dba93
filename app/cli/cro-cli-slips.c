/* What came into a book and is probably not meant: a question each, on standard error. */
#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-changes.h"
#include "cro-doubts.h"
#include "cro-isolate.h"
#include "cro-month-entries.h"
#include "cro-month-words.h"
#include "cro-month.h"
#include "cro-row-date.h"
#include "cro-words.h"

/* Of a month: that its stock is not the one that the closed month after it opened with. */
static void
add_openings_of (CroBook   *book,
                 CroDate    first,
                 GPtrArray *lines)
{
  g_autoptr (CroMonth) month = cro_month_new (book, first, FALSE, NULL);
  char name[CRO_MONTH_CHARS];

  cro_month_format (first, name);
  for (guint i = 0; month != NULL && i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      g_autofree char *words = NULL;

      if (question->kind != CRO_QUESTION_OPENING && question->kind != CRO_QUESTION_NEXT_OPENED)
        continue;
      words = cro_month_question_words (question, FALSE);
      /* Translators: a month, and what is asked about it. */
      g_ptr_array_add (lines, cro_isolate_printf (_("%s: %s"), name, words));
    }
}

/* The stock between a closed month and the one before it is asked about by the closed one, unless the one before is
 * open, which is asked itself. */
static void
add_openings (CroBook   *book,
              GPtrArray *lines)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, NULL);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const CroMonthRow *row = rows->pdata[i];
      CroDate before = cro_month_first_of (row->first - 1);

      if (row->is_closed)
        add_openings_of (book, cro_month_rows_are_late (rows, before) ? row->first : before, lines);
    }
}

/* Lines of all doubts about a book, in their order; empty where it cannot be read. */
static GPtrArray *
list_doubts (CroBook *book)
{
  g_autoptr (GArray) doubts = cro_doubts_list (book, NULL);
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; doubts != NULL && i < doubts->len; i++)
    g_ptr_array_add (lines, cro_words_doubt_line (cro_book_get_model (book), &g_array_index (doubts, CroDoubt, i)));
  add_openings (book, lines);
  return lines;
}

static void
print_doubts (CroBook    *book,
              GHashTable *known)
{
  g_autoptr (GPtrArray) lines = list_doubts (book);

  for (guint i = 0; i < lines->len; i++)
    if (known == NULL || !g_hash_table_contains (known, lines->pdata[i]))
      g_printerr ("%s\n", (const char *) lines->pdata[i]);
}

void
cro_cli_print_doubts (CroBook *book)
{
  print_doubts (book, NULL);
}

GHashTable *
cro_cli_known_doubts (const char *path)
{
  g_autoptr (CroBook) book = cro_book_open (path, NULL, CRO_STORE_READ, cro_here_today (), NULL);
  g_autoptr (GPtrArray) lines = NULL;
  GHashTable *known;

  if (book == NULL)
    return NULL;
  lines = list_doubts (book);
  known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < lines->len; i++)
    g_hash_table_add (known, g_strdup (lines->pdata[i]));
  return known;
}

/* --- Amounts of a month --------------------------------------------------------------------- */

static void
print_far (CroBook    *book,
           CroDate     first,
           GHashTable *days)
{
  g_autoptr (CroMonth) month = cro_month_new_sizes (book, first, NULL);

  for (guint i = 0; month != NULL && i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      g_autofree char *words = NULL;

      if (days != NULL && !g_hash_table_contains (days, GINT_TO_POINTER (question->day)))
        continue;
      words = cro_month_question_words (question, FALSE);
      g_printerr ("%s\n", words);
    }
}

/* Days of rows that are new, of tables that have one in each. */
static GHashTable *
days_of (GPtrArray *changes)
{
  GHashTable *days = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < changes->len; i++)
    {
      const CroTableChange *change = changes->pdata[i];
      CroDate day = strcmp (change->column, "date") == 0 ? cro_text_to_date (change->to) : CRO_NO_DAY;

      if (day != CRO_NO_DAY)
        g_hash_table_add (days, GINT_TO_POINTER (day));
    }
  return days;
}

/* Each reads all that the book ever recorded; older ones are asked about in their own statements. */
#define MOST_MONTHS 13

/* A month is asked about once, however many of its days are there. Of a whole book the newest months. */
static void
print_far_of_days (CroBook    *book,
                   GHashTable *days)
{
  g_autoptr (GArray) months = cro_months_list (book, NULL);
  guint n = months != NULL ? months->len : 0;

  for (guint i = days == NULL ? MIN (n, MOST_MONTHS) : n; i-- > 0;)
    {
      CroDate first = g_array_index (months, CroDate, i), next = cro_month_next (first);
      gboolean is_asked = days == NULL;

      for (CroDate day = first; day < next && !is_asked; day++)
        is_asked = g_hash_table_contains (days, GINT_TO_POINTER (day));
      if (is_asked)
        print_far (book, first, days);
    }
}

void
cro_cli_print_slips (const char *path,
                     GHashTable *known,
                     GPtrArray  *changes)
{
  g_autoptr (CroBook) book = cro_book_open (path, NULL, CRO_STORE_READ, cro_here_today (), NULL);
  g_autoptr (GHashTable) days = changes != NULL ? days_of (changes) : NULL;

  if (book == NULL)
    return;
  print_doubts (book, known);
  print_far_of_days (book, days);
}
