/* What stands beside a price in a supplier's table and may make it another one: that goods are not to be had, a day,
 * another supplier, a currency, for how much it is. */
#include "cro-price-list-table.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-day.h"
#include "cro-price-note.h"
#include "cro-price-remark.h"
#include "cro-price-token.h"
#include "cro-price-words.h"

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

/* What more than half of the rows say in a column, and more than one; NULL: nothing. Borrowed. */
static const char *
find_alike (const CroBrought *brought,
            guint             column)
{
  const guint first = (guint) (brought->headings + 1);
  const char *most = "";
  guint lead = 0, n = 0;

  /* What more than half say outlasts the rest. */
  for (guint i = first; i < brought->rows->len; i++)
    {
      const char *text = cro_brought_get (brought, i, column)->text;

      if (lead == 0)
        most = text;
      lead += strcmp (text, most) == 0 ? 1 : -1;
    }
  for (guint i = first; *most != '\0' && i < brought->rows->len; i++)
    n += strcmp (cro_brought_get (brought, i, column)->text, most) == 0;
  return n > 1 && 2 * n > brought->rows->len - first ? most : NULL;
}

void
cro_list_table_find_kinds (CroListTable *self)
{
  for (guint i = 0; self->brought->headings >= 0 && i < self->brought->n_columns; i++)
    {
      self->kinds[i] = kind_of (self->brought, i);
      self->alike[i] = find_alike (self->brought, i);
    }
}

gboolean
cro_list_table_has_other_price (CroListTable *self,
                                guint         index)
{
  const CroBrought *brought = self->brought;

  for (guint i = 0; brought->headings >= 0 && i < brought->n_columns; i++)
    {
      const char *heading = cro_brought_get (brought, (guint) brought->headings, i)->text;
      gint64 price;

      if (brought->roles[i] != cro_brought_price_role (brought)
          && (self->kinds[i] == CRO_COLUMN_PRICE || cro_price_heading_is_past (heading))
          && cro_brought_money (brought, cro_brought_get (brought, index, i), i, &price, NULL) && price > 0)
        return TRUE;
    }
  return FALSE;
}

/* --- Days --------------------------------------------------------------------------------------------------- */

static gboolean
read_date (CroListTable      *self,
           const CroReadCell *cell,
           CroDate           *date)
{
  g_auto (CroEntry) entry = { 0 };

  if (cell->kind == CRO_READ_CELL_DATE || cro_date_parse (cell->text, strlen (cell->text), date))
    return cro_date_parse (cell->text, strlen (cell->text), date);
  if (cro_price_read_day (cell->text, self->list->from, date))
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
    return strpbrk (cell->text, "0123456789") != NULL || !cro_price_remark_is_plain (cell->text, NULL);
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
  g_autofree char *supplier = cro_fold (self->list->supplier_name);
  CroPriceSaying saying;

  if (!cro_price_remark_is_plain (text, supplier) || cro_list_says_none (text) || cro_list_find_mark (text) != NULL)
    return TRUE;
  saying = cro_price_saying_of (text, NULL);
  return saying.has_per_word && (saying.is_per_open || (saying.has_pack && self->per.is_said));
}

/* "2-3 kg each" is of what each of the goods weighs. Owned. */
static char *
dup_without_ranges (const char *text)
{
  static GRegex *range;

  if (g_once_init_enter (&range))
    g_once_init_leave (&range, g_regex_new ("(?<!per |for |par |pour |/)(?<![\\d.,])\\d+(?:[.,]\\d+)?\\s?[-–]\\s?\\d+"
                                            "(?:[.,]\\d+)?\\s?(?:k?g|c?l|ml|lbs?|oz|pcs?|pieces|pièces)\\b"
                                            "(?:\\s(?:each|(?:la )?pièce))?",
                                            G_REGEX_CASELESS, G_REGEX_MATCH_DEFAULT, NULL));
  return g_regex_replace_literal (range, text, -1, 0, "", G_REGEX_MATCH_DEFAULT, NULL);
}

/* "5 kg box": a size, which is compared with the pack. */
static gboolean
take_size (CroListTable *self,
           const char   *text,
           CroListRow   *row)
{
  g_autofree char *supplier = cro_fold (self->list->supplier_name);
  CroListRow size = { .name = cro_price_list_keep (self->list, text) };

  if (cro_price_saying_of (text, NULL).has_per_word || !cro_price_words_are_plain (text, supplier)
      || cro_list_find_mark (text) != NULL)
    return FALSE;
  cro_price_list_read_size (self->list, 0, &size);
  g_clear_pointer (&size.reasons, g_array_unref);
  if (size.size_heading == NULL || !size.has_size_unit || cro_unit_get (size.size_unit)->base == CRO_BASE_EACH)
    return FALSE;
  /* A price per kg is so of any size. */
  if (row->has_per || self->of->quotes_base)
    return TRUE;
  row->size_beside = size.size_beside;
  row->size_count = size.size_count;
  row->is_size_counted = size.is_size_counted;
  row->has_size_unit = TRUE;
  row->size_unit = size.size_unit;
  row->size_heading = size.size_heading;
  return TRUE;
}

static gboolean
leaves_remark_open (CroListTable *self,
                    const char   *text,
                    CroListRow   *row)
{
  g_autofree char *plain = dup_without_ranges (text);

  return is_open_remark (self, plain) && !take_size (self, text, row);
}

/* Each for nothing. */
#define DASHES "-–—"

/* "✓", or nothing */
static gboolean
is_tick (const char *text)
{
  return strstr ("✓✔✅☑" DASHES, text) != NULL;
}

/* "❌" */
static gboolean
is_struck (const char *text)
{
  return cro_list_find_mark (text) != NULL && !is_tick (text);
}

/* "Leek OUT" beside the code of the leeks. What is but another name of them is asked of all such rows at once. */
static gboolean
is_more_than_name (CroListTable     *self,
                   const char       *text,
                   const CroListRow *row)
{
  guint offer = row->code != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (self->of->codes, row->code)) : 0;
  g_autofree char *beside = NULL;
  gboolean is_article = FALSE;

  if (offer > 0)
    beside = cro_list_dup_beside_name (self->of, self->list->supplier_name, offer - 1, text, &is_article);
  if (beside != NULL && is_article)
    cro_list_names_add (&self->names, self->list->rows->len, cro_price_list_keep (self->list, text));
  return beside != NULL && !is_article;
}

/* "Price up" under "Status": how the price that stands there has moved. */
static gboolean
is_movement (CroListTable *self,
             guint         column,
             const char   *text)
{
  g_autofree char *heading = cro_fold (cro_brought_get (self->brought, (guint) self->brought->headings, column)->text),
                  *folded = cro_fold (text);

  return cro_price_is_among (heading, "|status|statut|etat|")
         && cro_price_is_among (folded, "|price up|price down|price increase|price decrease|price unchanged|up|down|"
                                        "increase|decrease|unchanged|no change|same|prix en hausse|prix en baisse|"
                                        "en hausse|en baisse|hausse|baisse|prix inchange|inchange|stable|");
}

/* Whether a cell beside the price leaves it open. */
static gboolean
leaves_open (CroListTable      *self,
             const CroReadCell *cell,
             guint              column,
             CroListRow        *row)
{
  const CroRole role = self->brought->roles[column];
  gint64 ignored;

  if (cell->kind == CRO_READ_CELL_EMPTY)
    return FALSE;
  if (role == CRO_ROLE_NAME)
    return cro_list_find_mark (cell->text) != NULL || !cro_price_name_is_plain (cell->text)
           || is_more_than_name (self, cell->text, row);
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
      return cell->kind != CRO_READ_CELL_TEXT
             || (!is_tick (cell->text) && !is_movement (self, column, cell->text)
                 && leaves_remark_open (self, cell->text, row));
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
             && !(self->kinds[column] == CRO_COLUMN_UNKNOWN && cro_price_cell_is_answer (cell->text))
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

/* What most rows say alike is asked once for all. */
static CroListWhy
why_of (CroListTable *self,
        guint         column,
        const char   *text)
{
  g_autofree char *supplier = cro_fold (self->list->supplier_name);

  if (self->brought->roles[column] == CRO_ROLE_NAME || g_strcmp0 (self->alike[column], text) != 0)
    return CRO_LIST_BESIDE;
  return cro_price_note_is_of_other_day (text, supplier, self->list->from) ? CRO_LIST_SAID_DAY : CRO_LIST_SAID_CHANGE;
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
      g_autofree char *plain = dup_without_ranges (cell->text);
      char code[4];
      CroUnit unit;

      if (leaves_open (self, cell, i, row))
        cro_list_row_say (self->list, row, why_of (self, i, cell->text), cell->text, NULL);
      if (cell->kind != CRO_READ_CELL_TEXT || (role != CRO_ROLE_NONE && role != CRO_ROLE_NOTE))
        continue;
      if (!row->has_per && (cro_brought_per (cell->text, &unit)
                            || (is_remark (self, i) && cro_price_remark_says_per (plain))))
        row->said_open = cro_price_list_keep (self->list, cell->text);
      if (row->currency == self->currency && !cro_currency_is_word (cell->text)
          && cro_currency_of_sign (cell->text, code))
        row->currency = cro_price_list_keep (self->list, code);
    }
}
