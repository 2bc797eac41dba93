#include "config.h"

#include "cro-finding-words.h"

#include <glib/gi18n.h>

#include "cro-date.h"
#include "cro-isolate.h"
#include "cro-sheet-map.h"

/* A table of the store by the name that its file has in a folder of tables; itself where it is in none. */
static const char *
table_called (const char *table)
{
  for (const CroSheetMap *map = cro_sheet_maps; map->table != NULL; map++)
    if (g_str_equal (map->table, table) || g_strcmp0 (map->base, table) == 0)
      return cro_table_get (map->id)->name;
  return table;
}

/* "offers: Dill, Quay Shellfish (row 7)". */
static char *
place_of (const CroFinding *finding)
{
  const char *table = table_called (finding->table);
  g_autofree char *row = g_strdup_printf ("%" G_GINT64_FORMAT, finding->row);

  if (finding->name == NULL)
    /* Translators: a table of a book, as "offers", and the number of a row. */
    return g_strdup_printf (_("%s: row %s"), table, row);
  if (finding->is_own)
    /* Translators: a table of a book, as "offers", and what a row of it is called. */
    return cro_isolate_printf (_("%s: %s"), table, finding->name);
  /* Translators: a table of a book, as "prices", what a row of it is called, and its number. */
  return cro_isolate_printf (_("%s: %s (row %s)"), table, finding->name, row);
}

static char *
of_row (const CroFinding *finding)
{
  g_autofree char *place = place_of (finding);

  switch (finding->kind)
    {
    case CRO_FINDING_RULE:
      /* Translators: of a damaged book: a row. */
      return g_strdup_printf (_("%s: a value is missing, out of range or of the wrong kind"), place);
    case CRO_FINDING_REFERENCE:
      /* Translators: of a damaged book: a row, and a table as "suppliers". */
      return g_strdup_printf (_("%s: this row names an entry of the table %s that is not in the book"), place,
                              table_called (finding->what));
    case CRO_FINDING_TEXT:
      /* Translators: of a damaged book: a row, and a column. */
      return g_strdup_printf (_("%s: the text in the column %s cannot be read"), place, finding->what);
    case CRO_FINDING_STRAY:
      /* Translators: of a damaged book: a row, and a character as "U+202E". */
      return g_strdup_printf (_("%s: a name has the character %s, which names must not have"), place, finding->what);
    case CRO_FINDING_DAY:
      /* Translators: of a damaged book: a row, what stands there, and two years. */
      return g_strdup_printf (_("%s: “%s” is not a date of the years %s to %s"), place, finding->what, CRO_FIRST_YEAR,
                              CRO_LAST_YEAR);
    case CRO_FINDING_CURRENCY:
      /* Translators: of a damaged book: a row, and what stands there. */
      return g_strdup_printf (_("%s: “%s” is not a currency code of ISO 4217"), place, finding->what);
    case CRO_FINDING_DAMAGE:
    case CRO_FINDING_SCHEMA:
      break;
    }
  return g_strdup (finding->text);
}

char *
cro_words_finding (const CroFinding *finding)
{
  if (finding->kind == CRO_FINDING_SCHEMA)
    /* Translators: of a book; %s is technical, in English, as: table “sale” is missing. */
    return g_strdup_printf (_("another program changed how the file is built (%s)"), finding->text);
  if (finding->table == NULL)
    /* Translators: of a book; %s is technical, in English. */
    return g_strdup_printf (_("the file is damaged (%s)"), finding->text);
  return of_row (finding);
}
