#include "config.h"

#include "cro-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-allergen.h"
#include "cro-decimal.h"
#include "cro-gtin.h"
#include "cro-isolate.h"
#include "cro-refusal.h"
#include "cro-sheet-pictures.h"
#include "cro-table.h"

/* "(0, 1000]" in words: "above 0, at most 1000". */
static char *
range_words (const char *range)
{
  g_auto (GStrv) ends = g_strsplit (range, ", ", 2);
  gboolean is_open = *range == '(';
  gsize length = strlen (range);
  const char *low = *range != '\0' ? ends[0] + 1 : "";
  g_autofree char *high = NULL;

  if (length < 2 || ends[1] == NULL)
    return g_strdup (range);
  if (g_str_has_prefix (ends[1], "∞"))
    /* Translators: the least that a number may be. */
    return g_strdup_printf (is_open ? _("above %s") : _("%s or more"), low);
  high = g_strndup (ends[1], strlen (ends[1]) - 1);
  if (is_open)
    /* Translators: what a number may be, as “above 0, at most 100”. */
    return g_strdup_printf (_("above %s, at most %s"), low, high);
  /* Translators: what a number may be, as “0 or more, below 100”; “0 to 1”. */
  return g_strdup_printf (range[length - 1] == ')' ? _("%s or more, below %s") : _("%s to %s"), low,
                          high);
}

static const char *
unit_code (int unit)
{
  return cro_unit_get ((CroUnit) unit)->code;
}

static const char *
key_name (int key)
{
  return cro_book_key_get ((CroBookKey) key)->name;
}

/* What tables take, for those who wrote something else; last: more than the codes, or NULL. */
static char *
dup_allowed (const char *(*code) (int index),
             int           n,
             const char   *last)
{
  g_autoptr (GString) all = g_string_new (NULL);

  for (int i = 0; i < n; i++)
    cro_isolate_append (all, code (i));
  if (last != NULL)
    cro_isolate_append (all, last);
  return g_string_free (g_steal_pointer (&all), FALSE);
}

char *
cro_words_not_a_date (const char *text)
{
  /* Translators: what was typed, and the years that are allowed. */
  return cro_isolate_printf (_("“%s” is not a date (YYYY-MM-DD, years %s to %s)"), text, CRO_FIRST_YEAR,
                             CRO_LAST_YEAR);
}

char *
cro_words_not_a_month (const char *text)
{
  /* Translators: what was typed, and the years that are allowed. */
  return cro_isolate_printf (_("“%s” is not a month (YYYY-MM, years %s to %s)"), text, CRO_FIRST_YEAR, CRO_LAST_YEAR);
}

/* What is wrong with a value, what is allowed and what to do; NULL: it is no fault of a value. */
static char *
value_sentence (CroFaultKind  kind,
                const char   *value,
                const char   *detail)
{
  g_autofree char *allowed = NULL;

  switch (kind)
    {
    case CRO_FAULT_MISSING_VALUE:
      return g_strdup (_("a value is needed here"));
    case CRO_FAULT_NOT_A_NUMBER:
      return cro_isolate_printf (_("“%s” is not a number (digits, and a point before decimals)"), value);
    case CRO_FAULT_TOO_MANY_PLACES:
      return cro_isolate_printf (_("“%s” has more than six decimals; round it"), value);
    case CRO_FAULT_TOO_LARGE:
      return cro_isolate_printf (cro_gtin_is_sound (value, strlen (value)) ? _("“%s” is too large; is it a bar code?")
                                                                           : _("“%s” is too large"),
                                 value);
    case CRO_FAULT_OUT_OF_RANGE:
      allowed = range_words (detail);
      /* Translators: the second %s is what is allowed, as “above 0, at most 100”. */
      return cro_isolate_printf (_("“%s” is out of range (%s)"), value, allowed);
    case CRO_FAULT_NOT_A_DATE:
      return cro_words_not_a_date (value);
    case CRO_FAULT_NOT_A_MONTH:
      return cro_words_not_a_month (value);
    case CRO_FAULT_NOT_A_CHOICE:
      return cro_isolate_printf (_("“%s” is not allowed; use one of: %s"), value, detail);
    case CRO_FAULT_NOT_A_UNIT:
      allowed = dup_allowed (unit_code, CRO_N_UNITS, NULL);
      return cro_isolate_printf (_("“%s” is not a unit; use one of: %s"), value, allowed);
    case CRO_FAULT_NOT_A_CURRENCY:
      return cro_isolate_printf (_("“%s” is not a currency of ISO 4217; use a code such as EUR"), value);
    case CRO_FAULT_STRAY_CHARACTER:
      if (strcmp (detail, "U+000A") == 0 || strcmp (detail, "U+000D") == 0)
        return g_strdup (_("a name cannot contain a line break; type it on one line"));
      /* Translators: %s is the number of a character, as “U+202E”: a line break, or one that
       * turns the text around it. */
      return g_strdup_printf (_("a name cannot contain the invisible character %s; type it again"),
                              detail);
    case CRO_FAULT_STRAY_IN_TEXT:
      if (strcmp (detail, "U+000A") == 0 || strcmp (detail, "U+000D") == 0)
        return g_strdup (_("this text cannot contain a line break; type it on one line"));
      /* Translators: %s is the number of a character, as “U+001B”, in a note or a reason. */
      return g_strdup_printf (_("this text cannot contain the invisible character %s; type it again"), detail);
    case CRO_FAULT_NOT_AN_ALLERGEN:
      allowed = dup_allowed (cro_allergen_code, CRO_N_ALLERGENS, "none");
      return cro_isolate_printf (_("“%s” is not an allergen code; use some of: %s"), detail, allowed);
    case CRO_FAULT_NO_PICTURE:
      return cro_isolate_printf (_("there is no file “%s” in the folder “pictures”"), value);
    case CRO_FAULT_NOT_A_PICTURE:
      return cro_isolate_printf (_("“%s” is neither a JPEG nor a PNG picture"), value);
    case CRO_FAULT_LARGE_PICTURE:
      return cro_isolate_printf (_("“%s” is too large (a picture may have 20 MB and 64 million "
                                   "pixels); save a smaller copy of it"),
                                 value);
    case CRO_FAULT_BROKEN_PICTURE:
      return cro_isolate_printf (_("“%s” is a picture that is damaged or cut short; save it again"),
                                 value);
    default:
      return NULL;
    }
}

char *
cro_words_picture (const GError *error,
                   const char   *file)
{
  CroFaultKind kind = cro_sheet_picture_fault (error);

  return kind == CRO_FAULT_NO_PICTURE ? cro_words_error (error) : value_sentence (kind, file, NULL);
}

/* Of an edit: its numbers are those of the person's language. */
char *
cro_words_refusal (const GError *error)
{
  const char *value, *detail;
  g_autofree char *number = NULL;
  gint64 micro;

  cro_refusal_get (error, &value, &detail);
  if (error->code == CRO_FAULT_OUT_OF_RANGE
      && cro_decimal_parse (value, strlen (value), &micro) == CRO_DECIMAL_OK)
    number = cro_words_decimal (micro);
  return value_sentence ((CroFaultKind) error->code, number != NULL ? number : value, detail);
}

/* A sentence for a fault; with one %s it takes the value or the detail. */
static char *
sentence_of (const CroFault *fault)
{
  const char *value = fault->value != NULL ? fault->value : "";
  const char *detail = fault->detail != NULL ? fault->detail : "";
  g_autofree char *keys = NULL;

  switch (fault->kind)
    {
    case CRO_FAULT_NOT_UTF8:
      return g_strdup_printf (_("this is not UTF-8 text (byte %s)"), detail);
    case CRO_FAULT_NOT_A_FILE:
      return g_strdup (_("this is not a file but a folder, a pipe or a device"));
    case CRO_FAULT_TOO_LONG:
      return g_strdup (_("this row is longer than 1 MB; check its quotation marks"));
    case CRO_FAULT_NOT_COMMAS:
      return g_strdup (strcmp (detail, ";") == 0
                           ? _("the columns are separated by semicolons; save the table with commas")
                           : _("the columns are separated by tabs; save the table with commas"));
    case CRO_FAULT_UTF16:
      return g_strdup (_("this is UTF-16 text; save the table as UTF-8"));
    case CRO_FAULT_QUOTES:
      return g_strdup (_("a quotation mark is out of place, or never closed"));
    case CRO_FAULT_FIELD_COUNT:
      return g_strdup_printf (_("fields in row: %s, in header: %s"), value, detail);
    case CRO_FAULT_UNKNOWN_TABLE:
      return g_strdup (_("there is no table of that name"));
    case CRO_FAULT_ABSENT_TABLE:
      return g_strdup (_("the book has rows of this table, and the folder lacks the file; one with "
                         "the header alone empties the table"));
    case CRO_FAULT_UNKNOWN_COLUMN:
      return g_strdup (_("the table has no column of that name"));
    case CRO_FAULT_DOUBLE_COLUMN:
      return g_strdup (_("the column appears twice"));
    case CRO_FAULT_MISSING_COLUMN:
      return g_strdup (_("the table needs this column"));
    case CRO_FAULT_UNKNOWN_KEY:
      keys = dup_allowed (key_name, CRO_N_BOOK_KEYS, NULL);
      return cro_isolate_printf (_("“%s” is not a book setting; use one of: %s"), value, keys);
    case CRO_FAULT_UNKNOWN_NAME:
      return cro_isolate_printf (_("there is no %s “%s”"), detail, value);
    case CRO_FAULT_DOUBLE_KEY:
      return g_strdup_printf (_("this repeats line %s"), detail);
    case CRO_FAULT_DOUBLE_NAME:
      return cro_isolate_printf (_("“%s” is the name of something else already (%s)"), value, detail);
    case CRO_FAULT_MAIN_OUTPUT:
      return cro_isolate_printf (strcmp (detail, "0") == 0
                                     ? _("“%s” has no main output")
                                     : _("“%s” has a main output already"),
                                 value);
    case CRO_FAULT_NOT_EMPTY:
      return cro_isolate_printf (_("“%s” must be removed: this is empty where the kind is “%s”"), value, detail);
    case CRO_FAULT_OUTPUT_AMOUNT:
      return g_strdup (strcmp (detail, "both") == 0
                           ? _("an output has an amount or a yield, not both")
                           : _("a yield is a part of the weight; use a unit of mass"));
    case CRO_FAULT_WHOLE_YIELD:
      return g_strdup (_("an item weighed whole cannot have a yield of its own; remove the yield"));
    case CRO_FAULT_CYCLE:
      return cro_isolate_printf (_("preparations contain each other: %s"), detail);
    case CRO_FAULT_CLOSED_MONTH:
      return g_strdup_printf (_("%s is closed, and this would change it"), detail);
    case CRO_FAULT_FROZEN_MONTH:
      /* Translators: %s is a month, 2026-10. */
      return g_strdup_printf (_("what closing froze of %s was changed: the rows of month_rows do not fit "
                                "this hash"),
                              detail);
    case CRO_FAULT_CHOICE_SHARES:
      return cro_isolate_printf (_("the shares of the choice “%s” do not add up to 100"), value);
    default:
      return value_sentence (fault->kind, value, detail);
    }
}

char *
cro_words_fault (const CroFault *fault)
{
  g_autofree char *sentence = sentence_of (fault);

  /* What is wrong with a row or a file as a whole has no column. */
  return g_strdup_printf ("%s:%u: %s: %s", fault->file, MAX (fault->line, 1),
                          fault->column != NULL ? fault->column : "-", sentence);
}
