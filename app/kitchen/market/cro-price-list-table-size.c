/* Sizes beside a price of a supplier's table that are not read as its pack: they are compared with that. */
#include "cro-price-list-table.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-token.h"
#include "cro-word-list.h"

#include <string.h>

/* "Box of 12", "about 6 kg" under the heading of packs: its one number. FALSE: it has none, or several. */
static gboolean
read_size_in_words (const char *text,
                    CroListRow *row)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);
  guint n = 0;

  for (guint i = 0; i < tokens->len; i++)
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);

      n += token->kind == CRO_PRICE_TOKEN_NUMBER || token->kind == CRO_PRICE_TOKEN_DAY
           || token->kind == CRO_PRICE_TOKEN_RATE;
      if (token->kind == CRO_PRICE_TOKEN_NUMBER)
        row->size_beside = token->number;
      if (token->kind == CRO_PRICE_TOKEN_UNIT && n > 0)
        {
          row->has_size_unit = TRUE;
          row->size_unit = token->unit;
        }
    }
  return n == 1 && row->size_beside > 0;
}

/* "1/2 case", "half box", "demi-caisse" */
static gboolean
is_part (const char *text)
{
  g_autofree char *folded = cro_fold (text);

  return cro_price_has_word (folded, "|half|demi|demie|quarter|quart|") || strstr (text, "½") != NULL
         || strstr (text, "¼") != NULL || cro_word_list_scan (text, "1/2|1/4|3/4") > 0;
}

/* A pack that is not understood is not passed over. */
static void
check_pack_in_words (CroListTable *self,
                     guint         index,
                     CroListRow   *row)
{
  guint column;
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, CRO_ROLE_PACK, &column);
  gint64 ignored;

  if (self->brought->headings >= 0 && is_part (cell->text))
    {
      cro_list_row_say (self->list, row, CRO_LIST_BESIDE, cell->text, NULL);
      return;
    }
  if (self->brought->headings < 0 || row->size_heading != NULL || row->priced_as != NULL
      || cell->kind != CRO_READ_CELL_TEXT || strpbrk (cell->text, "0123456789") == NULL
      || cro_brought_number (self->brought, cell, column, &ignored, NULL))
    return;
  if (read_size_in_words (cell->text, row))
    row->size_heading = cro_price_list_keep (
        self->list, cro_brought_get (self->brought, (guint) self->brought->headings, column)->text);
  else
    cro_list_row_say (self->list, row, CRO_LIST_BESIDE, cell->text, NULL);
}

/* How many of its size are in a pack; 1 where no column says it. */
static gint64
count_of (const CroBrought *brought,
          guint             index)
{
  guint column;
  const CroReadCell *cell = cro_brought_get_role (brought, index, CRO_ROLE_PACK_COUNT, &column);
  const char *rest = "";
  gint64 number;

  return cro_brought_number (brought, cell, column, &number, &rest) && *rest == '\0' && number > 0 ? number : CRO_MICRO;
}

/* A number of a column of sizes that is not read as the pack: "Qty (kg)", "kg", and "4" alone under "Pack". */
void
cro_list_table_read_size_beside (CroListTable *self,
                                 guint         index,
                                 CroListRow   *row)
{
  const CroBrought *brought = self->brought;
  gboolean is_found = FALSE;

  if (row->has_per || !row->has_price || row->pack.size > 0)
    return;
  for (guint i = 0; brought->headings >= 0 && !is_found && i < brought->n_columns; i++)
    {
      const CroRole role = brought->roles[i];
      const char *rest = "";
      gboolean has_unit = brought->units[i] >= 0;

      if (!(role == CRO_ROLE_PACK || ((role == CRO_ROLE_NONE || role == CRO_ROLE_AMOUNT) && has_unit))
          || !cro_brought_number (brought, cro_brought_get (brought, index, i), i, &row->size_beside, &rest)
          || *rest != '\0' || row->size_beside <= 0)
        continue;
      is_found = TRUE;
      row->has_size_unit = has_unit;
      row->size_unit = has_unit ? (CroUnit) brought->units[i] : CRO_UNIT_EACH;
      row->size_heading = cro_price_list_keep (self->list,
                                               cro_brought_get (brought, (guint) brought->headings, i)->text);
    }
  check_pack_in_words (self, index, row);
  if (!self->of->quotes_base)
    cro_price_list_read_size (self->list, self->of, count_of (brought, index), row);
}
