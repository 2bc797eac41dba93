#include "cro-recipe-columns.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-fold.h"

#include <string.h>

/* How many recipes have it once, and how many have it of their lines. */
typedef struct
{
  guint n_once;
  guint n_of_lines;
} Uses;

static gboolean
is_empty (const CroBrought *self,
          guint             row,
          CroRole           role)
{
  return cro_brought_get_role (self, row, role, NULL)->kind == CRO_READ_CELL_EMPTY;
}

/* The recipe's name, which some sheets write again on each of its lines, or a title over them. */
static gboolean
begins_recipe (const CroBrought *self,
               guint             row,
               const char      **name)
{
  const char *text = cro_brought_get_role (self, row, CRO_ROLE_RECIPE, NULL)->text;

  if (!cro_brought_has_role (self, CRO_ROLE_RECIPE))
    return is_empty (self, row, CRO_ROLE_AMOUNT);
  if (*text == '\0' || (*name != NULL && strcmp (*name, text) == 0))
    return FALSE;
  *name = text;
  return TRUE;
}

/* Nothing makes, or is sold at, a part of one. */
static gboolean
is_of_line (const CroBrought  *self,
            const CroReadCell *cell,
            guint              column)
{
  const char *rest;
  gint64 number;

  return cell->kind == CRO_READ_CELL_PERCENT || strchr (cell->text, '%') != NULL
         || (cro_brought_number (self, cell, column, &number, &rest) && *rest == '\0' && number < CRO_MICRO);
}

static void
count_recipe (Uses        *uses,
              const char **said,
              gboolean    *is_of_lines)
{
  uses->n_of_lines += *is_of_lines;
  uses->n_once += !*is_of_lines && *said != NULL;
  *said = NULL;
  *is_of_lines = FALSE;
}

static Uses
count_uses (const CroBrought *self,
            guint             column)
{
  Uses uses = { 0 };
  const char *name = NULL, *said = NULL;
  gboolean is_of_lines = FALSE;

  for (guint row = (guint) (self->headings + 1); row < self->rows->len; row++)
    {
      const CroReadCell *cell = cro_brought_get (self, row, column);
      gboolean begins = begins_recipe (self, row, &name);

      if (begins)
        count_recipe (&uses, &said, &is_of_lines);
      if (cell->kind == CRO_READ_CELL_EMPTY)
        continue;
      is_of_lines |= is_of_line (self, cell, column)
                     || (!begins && (said == NULL || strcmp (said, cell->text) != 0));
      said = cell->text;
    }
  count_recipe (&uses, &said, &is_of_lines);
  return uses;
}

/* "Yield", not "Yield %" or "Edible portion". */
static gboolean
may_be_made (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  return (g_str_has_prefix (folded, "yield") || g_str_has_prefix (folded, "rendement"))
         && strchr (heading, '%') == NULL && strstr (folded, "pct") == NULL && strstr (folded, "percent") == NULL;
}

/* "Price", not "Cost" or "Price per kg". */
static gboolean
may_be_sold_at (const CroBrought *self,
                const char       *heading)
{
  static const char *const to_pay[] = { "unit", "pack", "achat", "purchase", " per ", " par ", NULL };
  g_autofree char *folded = cro_fold (heading);
  gboolean is_open;

  for (guint i = 0; to_pay[i] != NULL; i++)
    if (strstr (folded, to_pay[i]) != NULL)
      return FALSE;
  return (g_str_has_prefix (folded, "price") || g_str_has_prefix (folded, "prix"))
         && !cro_brought_per_of_heading (self, &is_open).is_said && !is_open;
}

static void
look_at_yield (CroBrought *self)
{
  guint column;
  Uses uses;

  if (!cro_brought_has_role (self, CRO_ROLE_TRIM_YIELD))
    return;
  cro_brought_get_role (self, 0, CRO_ROLE_TRIM_YIELD, &column);
  uses = count_uses (self, column);
  /* Where another column says what it makes, a second one is left to be told of. */
  if (may_be_made (cro_brought_get (self, (guint) self->headings, column)->text) && uses.n_once >= uses.n_of_lines)
    self->roles[column] = cro_brought_has_role (self, CRO_ROLE_MAKES) ? CRO_ROLE_NONE : CRO_ROLE_MAKES;
}

static void
look_at_price (CroBrought *self)
{
  guint column;
  Uses uses;

  if (!cro_brought_has_role (self, CRO_ROLE_PRICE) || cro_brought_has_role (self, CRO_ROLE_SELLING_PRICE))
    return;
  cro_brought_get_role (self, 0, CRO_ROLE_PRICE, &column);
  uses = count_uses (self, column);
  if (may_be_sold_at (self, cro_brought_get (self, (guint) self->headings, column)->text)
      && uses.n_once > uses.n_of_lines)
    self->roles[column] = CRO_ROLE_SELLING_PRICE;
}

void
cro_recipe_columns_look (CroBrought *self)
{
  gboolean has_recipe = cro_brought_has_role (self, CRO_ROLE_RECIPE);

  if (self->headings < 0 || !cro_brought_has_role (self, CRO_ROLE_AMOUNT)
      || (!has_recipe && cro_brought_has_role (self, CRO_ROLE_PRICE)))
    return;
  look_at_yield (self);
  if (has_recipe)
    look_at_price (self);
}
