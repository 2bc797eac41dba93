/* What stands beside a price in a supplier's table and may make it another one: that goods are not to be had, a day,
 * another supplier, a currency, for how much it is. */
#include "cro-price-list-table.h"

#include "cro-fold.h"
#include "cro-price-words.h"
#include "cro-word-list.h"

#include <string.h>

/* "From Monday 13.20", "price for 2 packs" */
static gboolean
says_otherwise (const char *text)
{
  CroPriceSaying saying;

  if (strpbrk (text, "0123456789") == NULL)
    return FALSE;
  saying = cro_price_saying_of (text, NULL);
  return saying.speaks_of_prices || saying.has_day || cro_list_is_change (text, &saying)
         || (saying.has_per_word && saying.is_per_open);
}

gboolean
cro_list_table_read_date (const CroReadCell *cell,
                          CroDate           *date)
{
  g_auto (CroEntry) entry = { 0 };

  if (cell->kind == CRO_READ_CELL_DATE)
    return cro_date_parse (cell->text, strlen (cell->text), date);
  if (!cro_entry_date (cell->text, &entry))
    return FALSE;
  *date = entry.date;
  return TRUE;
}

/* "2027-01-01" under "Valid from": a price of another day than the list, and one that no longer holds. What all rows
 * say is the day of the list, of which nobody asks each. */
static gboolean
is_of_other_day (CroListTable      *self,
                 const CroReadCell *cell,
                 guint              column)
{
  const char *heading = cro_brought_get (self->brought, (guint) self->brought->headings, column)->text;
  gboolean is_end = cro_word_list_scan (heading, "valid until|valid till|until|expires|expiry|jusqu'au|jusqu au|"
                                                 "valable jusqu'au|fin de validite") > 0;
  CroDate date;

  /* What is no day of ours, "from 7/12", may be one. */
  if (!cro_list_table_read_date (cell, &date))
    return strpbrk (cell->text, "0123456789") != NULL;
  return is_end ? date < self->list->from : date > self->list->from && date != self->list->dated;
}

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

/* "No" under "Available", "❌" anywhere */
static gboolean
is_not_to_be_had (CroListTable      *self,
                  const CroReadCell *cell,
                  guint              column)
{
  const char *heading = cro_brought_get (self->brought, (guint) self->brought->headings, column)->text;

  return cro_list_says_none (cell->text) || cro_list_find_mark (cell->text) != NULL
         || cro_word_list_scan (cell->text, "discontinued|delisted|unavailable|no longer|temporarily|epuise|arrete|"
                                             "supprime|rupture|out|poa|estimate|sur demande|nous consulter") > 0
         || (cro_word_list_scan (heading, "available|availability|in stock|stock|disponible|dispo|status") > 0
             && cro_word_list_scan (cell->text, "no|n|non|none|0|aucun") == strlen (cell->text) && *cell->text != '\0');
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
      gboolean is_beside = cell->kind == CRO_READ_CELL_TEXT && (role == CRO_ROLE_NONE || role == CRO_ROLE_NOTE);
      char code[4];
      CroUnit unit;

      if ((role == CRO_ROLE_NONE && is_not_to_be_had (self, cell, i)) || (is_beside && says_otherwise (cell->text))
          || (role == CRO_ROLE_NOTE && cro_list_says_none (cell->text))
          || (role == CRO_ROLE_NAME && cro_list_find_mark (cell->text) != NULL)
          || (role == CRO_ROLE_DATE && is_of_other_day (self, cell, i))
          || (role == CRO_ROLE_SUPPLIER && is_of_other_supplier (self, cell)))
        cro_list_row_say (self->list, row, CRO_LIST_UNSURE, cell->text, NULL);
      if (!is_beside)
        continue;
      if (!row->has_per && cro_brought_per (cell->text, &unit))
        row->said_open = cro_price_list_keep (self->list, cell->text);
      if (row->currency == self->currency && !cro_currency_is_word (cell->text)
          && cro_currency_of_sign (cell->text, code))
        row->currency = cro_price_list_keep (self->list, code);
    }
}
