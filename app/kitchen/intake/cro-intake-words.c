#include "config.h"

#include "cro-intake-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-gtin.h"
#include "cro-isolate.h"

/* --- Rows left out ----------------------------------------------------------------------------------- */

static gboolean
is_of_one_day (CroIntakeKind kind)
{
  return kind == CRO_INTAKE_COUNTS;
}

char *
cro_words_intake_bad (CroIntakeKind       kind,
                      const CroIntakeBad *bad)
{
  g_autofree char *text = cro_isolate (bad->text);

  switch (bad->fault)
    {
    case CRO_INTAKE_NO_NAME:
      return g_strdup_printf (_("Row %u: no name"), bad->number);
    case CRO_INTAKE_NOT_A_NUMBER:
      return g_strdup_printf (_("Row %u: “%s” is not a number"), bad->number, text);
    case CRO_INTAKE_NOT_A_DAY:
      return g_strdup_printf (_("Row %u: “%s” is not a date"), bad->number, text);
    case CRO_INTAKE_TOO_LARGE:
      return g_strdup_printf (cro_gtin_is_sound (bad->text, strlen (bad->text))
                                  ? _("Row %u: “%s” is too large; is it a bar code?")
                                  : _("Row %u: “%s” is too large"),
                              bad->number, text);
    case CRO_INTAKE_STRAY:
      /* Translators: the number of a row, and that of a character, as “U+202E”. */
      return g_strdup_printf (_("Row %u: the name contains the invisible character %s"),
                              bad->number, bad->text);
    case CRO_INTAKE_NO_AMOUNT:
      return g_strdup_printf (_("Row %u: “%s” has no amount"), bad->number, text);
    case CRO_INTAKE_NOT_A_UNIT:
      return g_strdup_printf (_("Row %u: “%s” is not a unit"), bad->number, text);
    case CRO_INTAKE_NOT_A_KIND:
      return *bad->text == '\0'
                 ? g_strdup_printf (_("Row %u: no kind"), bad->number)
                 : g_strdup_printf (_("Row %u: “%s” is not a kind"), bad->number, text);
    case CRO_INTAKE_NO_NET:
      return g_strdup_printf (_("Row %u: no value without tax"), bad->number);
    case CRO_INTAKE_NOT_ADDING:
      /* Translators: the number of a row, and money. */
      return g_strdup_printf (_("Row %u: the parts differ from the total by %s"), bad->number,
                              bad->text);
    case CRO_INTAKE_TWICE:
      /* Translators: the numbers of two rows. */
      return g_strdup_printf (_("Row %u: says the same as row %s"), bad->number, bad->text);
    case CRO_INTAKE_IN_BOOK:
      /* Translators: the number of a row, and that of an invoice. */
      return g_strdup_printf (_("Row %u: document %s is in the book with other values"),
                              bad->number, text);
    case CRO_INTAKE_OTHER_MONTH:
      return g_strdup_printf (is_of_one_day (kind) ? _("Row %u: %s is another day")
                                                   : _("Row %u: %s is in another month"),
                              bad->number, text);
    }
  g_return_val_if_reached (NULL);
}

/* --- What was read ----------------------------------------------------------------------------------- */

/* What is to be chosen before rows can be read; NULL: nothing. */
static const char *
lacks (const CroIntakeColumns *columns)
{
  static const CroIntakeColumn money[] = { CRO_INTAKE_NET, CRO_INTAKE_GROSS, CRO_INTAKE_FOOD, CRO_INTAKE_DISPOSABLES,
                                           CRO_INTAKE_OTHER_GOODS };
  gboolean has_money = columns->kind != CRO_INTAKE_DOCUMENTS;

  for (guint i = 0; i < G_N_ELEMENTS (money); i++)
    has_money |= cro_intake_columns_has (columns, money[i]);
  if (cro_intake_columns_has (columns, CRO_INTAKE_NAME))
    return has_money ? NULL : _("choose the column that holds the total without tax");
  switch (columns->kind)
    {
    case CRO_INTAKE_SALES:
      return _("choose the column that holds the names");
    case CRO_INTAKE_DOCUMENTS:
      return _("choose the column that holds the suppliers");
    case CRO_INTAKE_COUNTS:
    case CRO_INTAKE_ADJUSTMENTS:
    case CRO_N_INTAKES:
      return _("choose the column that holds the items");
    }
  g_return_val_if_reached (NULL);
}

/* "12 rows to enter": of the book. */
static char *
dup_to_enter (const CroIntake *intake,
              guint            n)
{
  if (intake->kind == CRO_INTAKE_DOCUMENTS)
    return g_strdup_printf (ngettext ("%u document to enter", "%u documents to enter", n), n);
  /* Translators: rows are those in the book. */
  return g_strdup_printf (ngettext ("%u row to enter", "%u rows to enter", n), n);
}

/* What rows lack that only the person can say. */
static char *
dup_unmeasured (const CroIntake *intake,
                guint            n)
{
  if (intake->kind == CRO_INTAKE_SALES)
    return g_strdup_printf (ngettext ("%u row of a plate says no number sold",
                                      "%u rows of plates say no number sold", n),
                            n);
  return g_strdup_printf (
      ngettext ("%u row has an amount without a unit", "%u rows have an amount without a unit", n),
      n);
}

static char *
dup_known_days (const CroIntake *intake)
{
  guint n = intake->n_known_days;

  if (intake->kind == CRO_INTAKE_COUNTS)
    return g_strdup (_("this day has counts already"));
  return g_strdup_printf (
      ngettext ("%u of these days has sales already", "%u of these days have sales already", n), n);
}

static void
append_part (GString *text,
             char    *part)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", part);
  g_free (part);
}

char *
cro_words_intake_summary (CroIntake              *intake,
                          const CroIntakeColumns *columns,
                          CroBook                *book,
                          const char             *title,
                          guint                   n_entries,
                          guint                   n_known)
{
  guint waiting = cro_intake_count_unsettled (intake),
        unmeasured = cro_intake_count_unmeasured (intake, book);
  g_autoptr (GString) text = g_string_new (title);

  if (lacks (columns) != NULL)
    {
      append_part (text, g_strdup (lacks (columns)));
      return g_strdup (text->str);
    }
  append_part (text, g_strdup_printf (ngettext ("%u row read", "%u rows read", intake->n_rows),
                                      intake->n_rows));
  if (!is_of_one_day (intake->kind))
    append_part (text,
                 g_strdup_printf (ngettext ("%u day", "%u days", intake->n_days), intake->n_days));
  append_part (text, dup_to_enter (intake, n_entries));
  if (n_known > 0)
    append_part (text, g_strdup_printf (ngettext ("%u is in the book already",
                                                  "%u are in the book already", n_known),
                                        n_known));
  if (waiting > 0)
    append_part (text, g_strdup_printf (
                           ngettext ("%u name to settle", "%u names to settle", waiting), waiting));
  if (unmeasured > 0)
    append_part (text, dup_unmeasured (intake, unmeasured));
  if (intake->n_known_days > 0)
    append_part (text, dup_known_days (intake));
  if (intake->n_late > 0)
    append_part (text, g_strdup_printf (ngettext ("%u row is of a closed month and counts in the first open one",
                                                  "%u rows are of closed months and count in the first open one",
                                                  intake->n_late),
                                        intake->n_late));
  return g_strdup (text->str);
}

/* --- What is entered --------------------------------------------------------------------------------- */

char *
cro_words_intake_act (CroIntakeKind kind,
                      const char   *title)
{
  switch (kind)
    {
    case CRO_INTAKE_COUNTS:
      /* Translators: an entry of the history; %s is the name of a file. */
      return cro_isolate_printf (_("counts from %s"), title);
    case CRO_INTAKE_DOCUMENTS:
      /* Translators: an entry of the history; %s is the name of a file. */
      return cro_isolate_printf (_("documents from %s"), title);
    case CRO_INTAKE_ADJUSTMENTS:
      /* Translators: an entry of the history; %s is the name of a file. */
      return cro_isolate_printf (_("adjustments from %s"), title);
    case CRO_INTAKE_SALES:
    case CRO_N_INTAKES:
      /* Translators: an entry of the history; %s is the name of a file. */
      return cro_isolate_printf (_("sales from %s"), title);
    }
  g_return_val_if_reached (NULL);
}

char *
cro_words_intake_entered (CroIntakeKind kind,
                          guint         n)
{
  switch (kind)
    {
    case CRO_INTAKE_COUNTS:
      return g_strdup_printf (ngettext ("%u count was entered", "%u counts were entered", n), n);
    case CRO_INTAKE_DOCUMENTS:
      return g_strdup_printf (ngettext ("%u document was entered", "%u documents were entered", n),
                              n);
    case CRO_INTAKE_ADJUSTMENTS:
      return g_strdup_printf (
          ngettext ("%u adjustment was entered", "%u adjustments were entered", n), n);
    case CRO_INTAKE_SALES:
    case CRO_N_INTAKES:
      return g_strdup_printf (
          ngettext ("%u row of sales was entered", "%u rows of sales were entered", n), n);
    }
  g_return_val_if_reached (NULL);
}
