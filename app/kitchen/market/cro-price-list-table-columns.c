/* Columns of a supplier's table that hold something else than their headings say. */
#include "cro-price-list-table.h"

#include "cro-word-list.h"

#include <stdlib.h>
#include <string.h>

/* What a supplier's sheet calls a weight is that of the pack, where no column is of that; beside prices per kg it is
 * not. */
static void
take_weights (CroBrought        *brought,
              const CroListBook *of)
{
  guint column;

  if (brought->headings < 0 || of->quotes_base || cro_brought_has_role (brought, CRO_ROLE_PACK)
      || cro_brought_has_role (brought, CRO_ROLE_PACK_SIZE) || !cro_brought_has_role (brought, CRO_ROLE_AMOUNT))
    return;
  cro_brought_get_role (brought, 0, CRO_ROLE_AMOUNT, &column);
  if (cro_word_list_scan (cro_brought_get (brought, (guint) brought->headings, column)->text,
                          "weight|net weight|poids|poids net") > 0)
    cro_brought_set_role (brought, column, CRO_ROLE_PACK_SIZE);
}

/* Whether a code is that of what stands beside it. */
static gboolean
is_own_code (const CroListBook *of,
             const char        *code,
             const char        *name)
{
  guint offer = GPOINTER_TO_UINT (g_hash_table_lookup (of->codes, code));

  return offer > 0 && cro_model_offer (of->model, offer - 1)->item == cro_list_book_find_name (of, name);
}

/* 1, 2, 3 … under "No" count the lines, and are codes where the supplier has one of them for what it stands beside. */
static void
take_ordinals (CroBrought        *brought,
               const CroListBook *of)
{
  guint column, n = 0;

  if (brought->headings < 0 || !cro_brought_has_role (brought, CRO_ROLE_CODE)
      || !cro_brought_has_role (brought, CRO_ROLE_NAME))
    return;
  cro_brought_get_role (brought, 0, CRO_ROLE_CODE, &column);
  if (cro_word_list_scan (cro_brought_get (brought, (guint) brought->headings, column)->text,
                          "no|nr|number|numero|n°|item no|n article|no article|num") == 0)
    return;
  for (guint i = (guint) (brought->headings + 1); i < brought->rows->len; i++)
    {
      const char *code = cro_brought_get (brought, i, column)->text;

      if (*code == '\0')
        continue;
      if (strspn (code, "0123456789") != strlen (code) || strtoul (code, NULL, 10) != ++n
          || is_own_code (of, code, cro_brought_get_role (brought, i, CRO_ROLE_NAME, NULL)->text))
        return;
    }
  if (n > 1)
    cro_brought_set_role (brought, column, CRO_ROLE_NONE);
}

/* Whether any cell of a column is a code of the supplier's. */
static gboolean
has_codes (const CroBrought  *brought,
           const CroListBook *of,
           guint              column)
{
  for (guint i = (guint) (brought->headings + 1); i < brought->rows->len; i++)
    if (g_hash_table_contains (of->codes, cro_brought_get (brought, i, column)->text))
      return TRUE;
  return FALSE;
}

/* "Code famille", "Code douane" before "Réf": of codes those are taken that the book knows. */
static void
take_known_codes (CroBrought        *brought,
                  const CroListBook *of)
{
  guint column;

  if (brought->headings < 0 || !cro_brought_has_role (brought, CRO_ROLE_CODE))
    return;
  cro_brought_get_role (brought, 0, CRO_ROLE_CODE, &column);
  if (has_codes (brought, of, column))
    return;
  for (guint i = 0; i < brought->n_columns; i++)
    if (i != column
        && cro_role_of_heading (cro_brought_get (brought, (guint) brought->headings, i)->text) == CRO_ROLE_CODE
        && has_codes (brought, of, i))
      {
        cro_brought_set_role (brought, column, CRO_ROLE_NONE);
        cro_brought_set_role (brought, i, CRO_ROLE_CODE);
        return;
      }
}

void
cro_list_table_settle_columns (CroBrought        *brought,
                               const CroListBook *of)
{
  take_weights (brought, of);
  take_known_codes (brought, of);
  take_ordinals (brought, of);
}
