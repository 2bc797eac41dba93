/* What stands beside a price in a supplier's table and may make it another one: that goods are not to be had, a day,
 * another supplier, a currency, for how much it is. */
#include "cro-price-list-table.h"

#include "cro-fold.h"
#include "cro-price-remark.h"
#include "cro-price-words.h"
#include "cro-word-list.h"

#include <string.h>

/* What somebody said of a column says it better than its heading. */
static CroColumnKind
kind_of (const CroBrought *brought,
         guint             column)
{
  const char *heading = cro_brought_get (brought, (guint) brought->headings, column)->text;
  const CroRole role = brought->roles[column];

  if (role == CRO_ROLE_NOTE)
    return CRO_COLUMN_REMARKS;
  return role == CRO_ROLE_DATE && cro_role_of_heading (heading) != role ? CRO_COLUMN_FROM
                                                                       : cro_price_column_of_heading (heading);
}

void
cro_list_table_find_kinds (CroListTable *self)
{
  for (guint i = 0; self->brought->headings >= 0 && i < self->brought->n_columns; i++)
    self->kinds[i] = kind_of (self->brought, i);
}

/* --- Days --------------------------------------------------------------------------------------------------- */

static guint
month_of (const char *text,
          gsize      *bytes)
{
  static const char *const months[]
      = { "january|jan|janvier|janv", "february|feb|fevrier|fevr|fev", "march|mar|mars", "april|apr|avril|avr",
          "may|mai", "june|jun|juin", "july|jul|juillet|juil", "august|aug|aout", "september|sept|sep|septembre",
          "october|oct|octobre", "november|nov|novembre", "december|dec|decembre" };

  for (guint i = 0; i < G_N_ELEMENTS (months); i++)
    if ((*bytes = cro_word_list_scan (text, months[i])) > 0)
      return i + 1;
  return 0;
}

static gboolean
date_of (guint64  year,
         guint64  month,
         guint64  day,
         CroDate *date)
{
  char text[CRO_DATE_CHARS];

  if (year < 1900 || year > 9999 || month == 0 || month > 12 || day == 0 || day > 31)
    return FALSE;
  g_snprintf (text, sizeof text, "%04u-%02u-%02u", (guint) year, (guint) month, (guint) day);
  return cro_date_parse (text, strlen (text), date);
}

/* "7 December 2026", "07.12.2026", "27/12/2026": of one meaning in any locale. Of "01/12/2026" the day stands first
 * (common practice, no source), unless the other way round it is nearer to that of the list. */
static gboolean
read_plain_date (const char *text,
                 CroDate     near,
                 CroDate    *date)
{
  char *at = NULL;
  guint64 first = g_ascii_strtoull (text, &at, 10), second, year;
  const char sign = *at;
  gsize bytes = 0;
  CroDate other;

  at += strspn (at, " .,/-");
  second = month_of (at, &bytes);
  if (second > 0)
    at += bytes;
  else
    second = g_ascii_strtoull (at, &at, 10);
  at += strspn (at, " .,/-");
  year = g_ascii_strtoull (at, &at, 10);
  year += year > 0 && year < 100 ? 2000 : 0;
  if (*at != '\0' || !date_of (year, second, first, date))
    return FALSE;
  return bytes > 0 || sign == '.' || !date_of (year, first, second, &other)
         || ABS (*date - near) <= ABS (other - near);
}

static gboolean
read_date (CroListTable      *self,
           const CroReadCell *cell,
           CroDate           *date)
{
  g_auto (CroEntry) entry = { 0 };

  if (cell->kind == CRO_READ_CELL_DATE || cro_date_parse (cell->text, strlen (cell->text), date))
    return cro_date_parse (cell->text, strlen (cell->text), date);
  if (read_plain_date (cell->text, self->list->from, date))
    return TRUE;
  if (!cro_entry_date (cell->text, &entry))
    return FALSE;
  *date = entry.date;
  return TRUE;
}

/* "2027-01-01" under "Valid from": a price of another day than the list, and under "Until" one that no longer holds.
 * What all rows say is the day of the list, of which nobody asks each. What is no day of ours, "from 7/12", may be
 * one. */
static gboolean
is_of_other_day (CroListTable      *self,
                 const CroReadCell *cell,
                 gboolean           is_end)
{
  CroDate date;

  if (cell->kind == CRO_READ_CELL_EMPTY)
    return FALSE;
  if (!read_date (self, cell, &date))
    return strpbrk (cell->text, "0123456789") != NULL || !cro_price_remark_is_plain (cell->text);
  return is_end ? date < self->list->from : date > self->list->from && date != self->list->dated;
}

/* What all rows say that say any; a column of the days on which each was changed last says none. */
CroDate
cro_list_table_date_of_all (CroListTable *self)
{
  const CroBrought *brought = self->brought;
  CroDate all = CRO_NO_DAY, date;
  guint column = 0;

  while (column < brought->n_columns && self->kinds[column] != CRO_COLUMN_FROM)
    column++;
  if (brought->headings < 0 || column == brought->n_columns)
    return CRO_NO_DAY;
  for (guint i = (guint) (brought->headings + 1); i < brought->rows->len; i++)
    {
      const CroReadCell *cell = cro_brought_get (brought, i, column);

      if (cell->kind == CRO_READ_CELL_EMPTY)
        continue;
      if (!read_date (self, cell, &date) || (all != CRO_NO_DAY && all != date))
        return CRO_NO_DAY;
      all = date;
    }
  return all;
}

/* --- Words -------------------------------------------------------------------------------------------------- */

/* Another supplier's row, in a sheet of several. */
static gboolean
is_of_other_supplier (CroListTable      *self,
                      const CroReadCell *cell)
{
  g_autofree char *said = cro_fold (cell->text), *own = cro_fold (self->list->supplier_name);

  /* A day under "From" is no name. */
  return *said != '\0' && strpbrk (said, "0123456789") == NULL && strstr (said, own) == NULL
         && strstr (own, said) == NULL;
}

/* "From Monday 13.20", "price for 2 packs", "per box" beside a price per kg */
static gboolean
is_open_remark (CroListTable *self,
                const char   *text)
{
  CroPriceSaying saying;

  if (!cro_price_remark_is_plain (text) || cro_list_says_none (text) || cro_list_find_mark (text) != NULL)
    return TRUE;
  saying = cro_price_saying_of (text, NULL);
  return saying.has_per_word && (saying.is_per_open || (saying.has_pack && self->per.is_said));
}

/* Each for nothing. */
#define DASHES "-–—"

/* "✓", or nothing */
static gboolean
is_tick (const char *text)
{
  return strstr ("✓✔✅☑" DASHES, text) != NULL;
}

/* "Sugar, less 10 %" */
static gboolean
is_change (const char *text)
{
  CroPriceSaying saying;

  if (strchr (text, '%') == NULL)
    return FALSE;
  saying = cro_price_saying_of (text, NULL);
  return cro_list_is_change (text, &saying);
}

/* "❌" */
static gboolean
is_struck (const char *text)
{
  return cro_list_find_mark (text) != NULL && !is_tick (text);
}

/* Whether a cell beside the price leaves it open. */
static gboolean
leaves_open (CroListTable      *self,
             const CroReadCell *cell,
             guint              column)
{
  const CroRole role = self->brought->roles[column];
  gint64 ignored;

  if (cell->kind == CRO_READ_CELL_EMPTY)
    return FALSE;
  if (role == CRO_ROLE_NAME)
    return cro_list_find_mark (cell->text) != NULL || !cro_price_name_is_plain (cell->text) || is_change (cell->text);
  if (role == CRO_ROLE_CATEGORY)
    return cro_price_remark_is_gone (cell->text);
  if (role == CRO_ROLE_SUPPLIER && is_of_other_supplier (self, cell))
    return TRUE;
  if (role != CRO_ROLE_NONE && role != CRO_ROLE_NOTE && role != CRO_ROLE_DATE && role != CRO_ROLE_SUPPLIER)
    return FALSE;
  switch (self->kinds[column])
    {
    case CRO_COLUMN_FROM:
      return is_of_other_day (self, cell, FALSE);
    case CRO_COLUMN_UNTIL:
      return is_of_other_day (self, cell, TRUE);
    case CRO_COLUMN_HAD:
      return !cro_price_cell_is_had (cell->text);
    case CRO_COLUMN_REMARKS:
      /* Numbers without a heading are a column that was looked at as a whole. */
      if (*cro_brought_get (self->brought, (guint) self->brought->headings, column)->text == '\0'
          && cro_brought_number (self->brought, cell, column, &ignored, NULL))
        return FALSE;
      return cell->kind != CRO_READ_CELL_TEXT || (!is_tick (cell->text) && is_open_remark (self, cell->text));
    case CRO_COLUMN_OTHER:
    case CRO_COLUMN_TAX:
      return role == CRO_ROLE_NONE && (cro_price_remark_is_gone (cell->text) || is_struck (cell->text));
    case CRO_COLUMN_CHANGE:
    case CRO_COLUMN_ADDED:
      /* "Yes" under "Promo"; numbers are those of a column that was looked at as a whole. */
      return strpbrk (cell->text, "0123456789") == NULL && strstr (DASHES, cell->text) == NULL
             && !cro_price_cell_is_no (cell->text);
    case CRO_COLUMN_UNKNOWN:
    case CRO_COLUMN_PRICE:
      return cell->kind == CRO_READ_CELL_TEXT && strpbrk (cell->text, "0123456789") == NULL && !is_tick (cell->text)
             && is_open_remark (self, cell->text);
    }
  return FALSE;
}

/* Whether words in a column may be of the price. */
static gboolean
is_remark (CroListTable *self,
           guint         column)
{
  return self->kinds[column] == CRO_COLUMN_REMARKS || self->kinds[column] == CRO_COLUMN_UNKNOWN;
}

/* "GBP" under "Ccy", "per kg" and "out of stock" under "Remarks", days, and whose price it is. */
void
cro_list_table_read_beside (CroListTable *self,
                            guint         index,
                            CroListRow   *row)
{
  for (guint i = 0; row->has_price && self->brought->headings >= 0 && i < self->brought->n_columns; i++)
    {
      const CroReadCell *cell = cro_brought_get (self->brought, index, i);
      const CroRole role = self->brought->roles[i];
      char code[4];
      CroUnit unit;

      if (leaves_open (self, cell, i))
        cro_list_row_say (self->list, row, CRO_LIST_BESIDE, cell->text, NULL);
      if (cell->kind != CRO_READ_CELL_TEXT || (role != CRO_ROLE_NONE && role != CRO_ROLE_NOTE))
        continue;
      if (!row->has_per && (cro_brought_per (cell->text, &unit)
                            || (is_remark (self, i) && cro_price_remark_says_per (cell->text))))
        row->said_open = cro_price_list_keep (self->list, cell->text);
      if (row->currency == self->currency && !cro_currency_is_word (cell->text)
          && cro_currency_of_sign (cell->text, code))
        row->currency = cro_price_list_keep (self->list, code);
    }
}
