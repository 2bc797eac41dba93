/* Choices of a menu as formulas: how often each alternative is taken, and the ways through them. */
#include "cro-workbook-private.h"

#include <math.h>
#include <string.h>

/* A longer formula is no formula to a spreadsheet; what it comes to is written instead. */
#define MOST_CHARS 8000

static gboolean
are_alternatives (const CroWorkbookEntry *a,
                  const CroWorkbookEntry *b)
{
  return a->choice != NULL && b->choice != NULL && strcmp (a->choice, b->choice) == 0;
}

/* An equal part of what the others leave: =(1-C12-C15)/2. */
static char *
dup_part_left (const CroWorkbookEntry *entries,
               guint32                 n,
               guint32                 i,
               guint32                 first_row)
{
  g_autoptr (GString) formula = g_string_new ("=(1");
  guint n_open = 0;

  for (guint32 k = 0; k < n; k++)
    {
      if (!are_alternatives (&entries[k], &entries[i]))
        continue;
      if (isnan (entries[k].share))
        n_open++;
      else
        g_string_append_printf (formula, "-C%u", first_row + k);
    }
  g_string_append_printf (formula, ")/%u", n_open);
  return g_string_free (g_steal_pointer (&formula), FALSE);
}

void
cro_workbook_write_taken (CroPen                 *pen,
                          const CroWorkbookEntry *entries,
                          guint32                 n,
                          guint32                 i,
                          guint32                 first_row)
{
  g_autofree char *formula = NULL;

  if (entries[i].choice == NULL)
    return;
  if (!isnan (entries[i].share))
    {
      cro_pen_number (pen, 'C', CRO_STYLE_INPUT_PCT, entries[i].share);
      return;
    }
  formula = dup_part_left (entries, n, i, first_row);
  if (strlen (formula) < MOST_CHARS)
    cro_pen_formula (pen, 'C', CRO_STYLE_PCT_EXACT, entries[i].part, formula, NULL);
  else
    cro_pen_number (pen, 'C', CRO_STYLE_PCT_EXACT, entries[i].part);
}

static gboolean
is_first (const CroWorkbookEntry *entries,
          guint32                 i)
{
  for (guint32 k = 0; k < i; k++)
    if (are_alternatives (&entries[k], &entries[i]))
      return FALSE;
  return TRUE;
}

static void
append_cost (GString                *formula,
             const CroWorkbookEntry *entry,
             guint32                 row)
{
  g_string_append_printf (formula, "B%u*D%u", row, CRO_ROW_FIRST_PLATE + entry->plate);
}

/* What a taker gets of each choice at its cheapest or dearest: =B12*D5+MIN(B13*D6,B14*D7). */
static char *
dup_way (const CroWorkbookEntry *entries,
         guint32                 n,
         guint32                 first_row,
         const char             *least_or_most)
{
  GString *formula = g_string_new ("=");

  for (guint32 i = 0; i < n && formula->len < MOST_CHARS; i++)
    {
      if (!is_first (entries, i))
        continue;
      if (formula->len > 1)
        g_string_append_c (formula, '+');
      if (entries[i].choice != NULL)
        g_string_append_printf (formula, "%s(", least_or_most);
      append_cost (formula, &entries[i], first_row + i);
      for (guint32 k = i + 1; k < n; k++)
        if (are_alternatives (&entries[k], &entries[i]))
          {
            g_string_append_c (formula, ',');
            append_cost (formula, &entries[k], first_row + k);
          }
      if (entries[i].choice != NULL)
        g_string_append_c (formula, ')');
    }
  return g_string_free (formula, FALSE);
}

static void
write_way (CroPen                  *pen,
           CroWorkbookTextId        label,
           double                   cost,
           CroWorkbookKnown         known,
           const CroWorkbookFigure *figure,
           const char              *formula,
           guint32                  menu_row)
{
  CroPlace menu = { NULL, "J$", menu_row };

  cro_pen_set_level (pen, 1);
  cro_pen_text (pen, 'A', CRO_STYLE_INDENT, cro_workbook_text (pen->workbook, label));
  if (strlen (formula) < MOST_CHARS)
    cro_pen_formula (pen, 'D', cro_workbook_money_style (known, FALSE), cost, formula, NULL);
  else
    cro_pen_number (pen, 'D', cro_workbook_money_style (known, FALSE), cost);
  cro_pen_formula (pen, cro_workbook_pct_column (pen->workbook), cro_workbook_known_pct_style (known),
                   figure->net_price > 0 ? cost / figure->net_price : NAN,
                   "=IF(@>0,D#/@,\"\")", (CroPlace[]){ menu, menu });
  cro_pen_next_row (pen);
}

void
cro_workbook_write_ways (CroPen                 *pen,
                         const CroWorkbookMenu  *menu,
                         const CroWorkbookEntry *entries,
                         guint32                 menu_row)
{
  guint32 first_row = menu_row + 1;
  g_autofree char *cheapest = dup_way (entries, menu->n_entries, first_row, "MIN");
  g_autofree char *dearest = dup_way (entries, menu->n_entries, first_row, "MAX");

  if (isnan (menu->cheapest))
    return;
  write_way (pen, CRO_WT_CHEAPEST, menu->cheapest, menu->known_cheapest, &menu->figure, cheapest, menu_row);
  write_way (pen, CRO_WT_DEAREST, menu->dearest, menu->known_dearest, &menu->figure, dearest, menu_row);
}
