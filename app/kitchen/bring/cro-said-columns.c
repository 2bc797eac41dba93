#include "cro-said-columns.h"

#include "cro-price-column.h"

#include <string.h>

/* They stand in what was kept, which an older program may read. */
static const char *const codes[CRO_N_ROLES] = {
  [CRO_ROLE_NONE] = "none",
  [CRO_ROLE_RECIPE] = "recipe",
  [CRO_ROLE_NAME] = "name",
  [CRO_ROLE_AMOUNT] = "amount",
  [CRO_ROLE_UNIT] = "unit",
  [CRO_ROLE_PRICE] = "price",
  [CRO_ROLE_PACK] = "pack",
  [CRO_ROLE_PACK_COUNT] = "pack-count",
  [CRO_ROLE_PACK_SIZE] = "pack-size",
  [CRO_ROLE_SUPPLIER] = "supplier",
  [CRO_ROLE_CODE] = "code",
  [CRO_ROLE_GTIN] = "gtin",
  [CRO_ROLE_CURRENCY] = "currency",
  [CRO_ROLE_DATE] = "date",
  [CRO_ROLE_TRIM_YIELD] = "trim-yield",
  [CRO_ROLE_CATEGORY] = "category",
  [CRO_ROLE_MAKES] = "makes",
  [CRO_ROLE_GIVES] = "gives",
  [CRO_ROLE_COURSE] = "course",
  [CRO_ROLE_SELLING_PRICE] = "selling-price",
  [CRO_ROLE_NOTE] = "note",
  [CRO_ROLE_BASE_PRICE] = "base-price",
  [CRO_ROLE_ALLERGENS] = "allergens",
};

static CroRole
role_of (const char *code)
{
  for (int i = 0; i < CRO_N_ROLES; i++)
    if (g_strcmp0 (codes[i], code) == 0)
      return (CroRole) i;
  return CRO_ROLE_NONE;
}

/* One line of it: a heading is one line, whatever its cell holds. */
static char *
dup_heading (const CroBrought *brought,
             int               row,
             guint             column)
{
  return row >= 0 && (guint) row < brought->rows->len
             ? g_strdelimit (g_strdup (cro_brought_get (brought, (guint) row, column)->text), "\t\r\n", ' ')
             : g_strdup ("");
}

/* Headings in words that are not ours: in the first row, where no price stands. */
static int
headings_of (const CroBrought *brought)
{
  for (guint i = 0; brought->headings < 0 && brought->rows->len > 0 && i < brought->n_columns; i++)
    {
      const CroReadCell *cell = cro_brought_get (brought, 0, i);

      if (brought->roles[i] == cro_brought_price_role (brought) && cell->text != NULL && *cell->text != '\0'
          && strpbrk (cell->text, "0123456789") == NULL)
        return 0;
    }
  return brought->headings;
}

char *
cro_said_columns_of (const CroBrought *brought)
{
  g_autoptr (GString) said = g_string_new (NULL);
  int headings = headings_of (brought);

  for (guint i = 0; i < brought->n_columns; i++)
    {
      g_autofree char *heading = dup_heading (brought, headings, i);

      g_string_append_printf (said, "%s\t%u\t%s\n", codes[brought->roles[i]], i, heading);
    }
  return g_string_free (g_steal_pointer (&said), FALSE);
}

/* The column that a line is of; brought->n_columns: none. */
static guint
find_column (const CroBrought *brought,
             int               row,
             char            **parts)
{
  guint64 place = g_ascii_strtoull (parts[1], NULL, 10);

  if (*parts[2] == '\0')
    return place < brought->n_columns ? (guint) place : brought->n_columns;
  for (guint i = 0; i < brought->n_columns; i++)
    {
      /* Of two with one heading each is the one in its place. */
      guint column = (guint) ((place + i) % brought->n_columns);
      g_autofree char *heading = dup_heading (brought, row, column);

      if (strcmp (heading, parts[2]) == 0)
        return column;
    }
  return brought->n_columns;
}

/* Headings in words that are not ours stand in the first row. All that were said to hold something are there, or it
 * is another list. */
static int
row_of_headings (const CroBrought *brought,
                 char            **lines)
{
  int row = MAX (brought->headings, 0);
  gboolean has_any = FALSE;

  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) parts = g_strsplit (lines[i], "\t", 3);

      if (g_strv_length (parts) != 3 || *parts[2] == '\0' || role_of (parts[0]) == CRO_ROLE_NONE)
        continue;
      if (find_column (brought, row, parts) >= brought->n_columns)
        return -1;
      has_any = TRUE;
    }
  return has_any ? row : -1;
}

/* A column of which nobody has said anything, as it was not there, and which may be to pay; -1: none is. */
static int
find_unsaid (const CroBrought *brought,
             const gboolean   *is_said)
{
  guint price;

  if (brought->headings < 0 || !cro_brought_has_role (brought, cro_brought_price_role (brought)))
    return -1;
  cro_brought_get_role (brought, 0, cro_brought_price_role (brought), &price);
  for (guint i = 0; i < brought->n_columns; i++)
    if (!is_said[i] && i != price && *cro_brought_get (brought, (guint) brought->headings, i)->text != '\0'
        && cro_price_column_is_rival (brought, price, i))
      return (int) i;
  return -1;
}

gboolean
cro_said_columns_apply (const char *said,
                        CroBrought *brought)
{
  g_auto (GStrv) lines = g_strsplit (said != NULL ? said : "", "\n", 0);
  int headings = brought->n_columns > 0 && brought->rows->len > 0 ? row_of_headings (brought, lines) : -1;
  CroRole roles[CRO_BROUGHT_MOST_COLUMNS];
  gboolean is_said[CRO_BROUGHT_MOST_COLUMNS] = { FALSE }, has_any = FALSE;

  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) parts = g_strsplit (lines[i], "\t", 3);
      guint column = g_strv_length (parts) == 3 && (*parts[2] == '\0') == (headings < 0)
                         ? find_column (brought, headings, parts) : brought->n_columns;

      if (column >= brought->n_columns)
        continue;
      roles[column] = role_of (parts[0]);
      is_said[column] = TRUE;
      has_any |= roles[column] != CRO_ROLE_NONE;
    }
  if (!has_any || (headings < 0 && brought->headings >= 0))
    return FALSE;
  brought->headings = headings;
  for (guint i = 0; i < brought->n_columns; i++)
    if (is_said[i])
      cro_brought_set_role (brought, i, CRO_ROLE_NONE);
  for (guint i = 0; i < brought->n_columns; i++)
    if (is_said[i] && roles[i] != CRO_ROLE_NONE)
      cro_brought_set_role (brought, i, roles[i]);
  brought->rival = find_unsaid (brought, is_said);
  return TRUE;
}
