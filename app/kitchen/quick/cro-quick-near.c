/* The names of the book that may have been meant by one that it does not have. */
#include "cro-quick.h"

#include "cro-fold.h"
#include "cro-reach.h"

/* Bits by node: 1 where what stands there is made of the recipe, which cannot take it. Owned. */
static uint64_t *
dup_leading_back (CroFigures *figures,
                  guint32     recipe,
                  guint      *n)
{
  const CroGraph *graph = &figures->graph;
  uint64_t *nodes = g_new0 (uint64_t, graph->n_items + 1);
  g_autofree uint64_t *rows = g_new0 (uint64_t, graph->n_rows + 1);

  rows[cro_figures_row (figures, recipe)] = 1;
  cro_reach_sweep (graph, nodes, rows);
  *n = 0;
  for (size_t node = 0; node < graph->n_items; node++)
    *n += nodes[node] != 0;
  return nodes;
}

/* "oysters" may be of the rock oyster. */
static GArray *
find_near (CroFinder  *finder,
           const char *name,
           guint       most)
{
  const guint kinds = 1u << CRO_KIND_INGREDIENT | 1u << CRO_KIND_OUTPUT;
  GArray *found = cro_finder_find_near (finder, name, kinds, most);
  g_autofree char *folded = cro_fold (name), *one = cro_fold_number (folded);

  if (found->len > 0)
    return found;
  g_array_unref (found);
  return cro_finder_find (finder, one, kinds, most);
}

GArray *
cro_quick_list_near (CroBook    *book,
                     guint32     recipe,
                     const char *name,
                     guint       most)
{
  CroFigures *figures = cro_book_get_figures (book);
  guint n_back = 0;
  g_autofree uint64_t *back = recipe != CRO_NO_SLOT ? dup_leading_back (figures, recipe, &n_back) : NULL;
  GArray *found = find_near (cro_finder_of (book), name, most + n_back);

  for (guint i = found->len; n_back > 0 && i-- > 0;)
    if (back[cro_figures_node (figures, g_array_index (found, CroFound, i).slot)] != 0)
      g_array_remove_index (found, i);
  g_array_set_size (found, MIN (found->len, most));
  return found;
}

void
cro_quick_leave_own (CroQuick *quick,
                     CroBook  *book,
                     guint32   recipe)
{
  CroFigures *figures = cro_book_get_figures (book);
  g_autofree uint64_t *back = NULL;
  g_autofree char *folded = NULL;
  guint ignored;

  if (quick->match != CRO_QUICK_EXACT || recipe == CRO_NO_SLOT)
    return;
  folded = cro_fold (quick->name);
  if (cro_folds_to (cro_model_item (cro_book_get_model (book), quick->item)->name, folded))
    return;
  back = dup_leading_back (figures, recipe, &ignored);
  if (back[cro_figures_node (figures, quick->item)] == 0)
    return;
  quick->match = CRO_QUICK_UNKNOWN;
  quick->item = CRO_NO_SLOT;
  if (quick->fault == CRO_QUICK_MADE)
    quick->fault = CRO_QUICK_OK;
}

void
cro_quick_find (CroQuick *quick,
                CroBook  *book,
                guint32   recipe)
{
  g_autoptr (GArray) found = NULL;

  cro_quick_leave_own (quick, book, recipe);
  if (quick->name == NULL || quick->match != CRO_QUICK_UNKNOWN)
    return;
  found = cro_quick_list_near (book, recipe, quick->name, 1);
  if (found->len == 0)
    return;
  quick->match = CRO_QUICK_SIMILAR;
  quick->item = g_array_index (found, CroFound, 0).slot;
}

/* --- The same line again ------------------------------------------------------------------------------- */

static gboolean
is_number (const char *word)
{
  return g_unichar_isdigit (g_utf8_get_char (word));
}

/* Whether a name stands there alone: behind a number and at most its unit, before a number or nothing. */
static gboolean
stands_at (char **words,
           guint  at,
           char **name)
{
  guint n = g_strv_length (name);

  for (guint i = 0; i < n; i++)
    if (g_strcmp0 (words[at + i], name[i]) != 0)
      return FALSE;
  return (at == 0 || is_number (words[at - 1]) || (at > 1 && is_number (words[at - 2])))
         && (words[at + n] == NULL || is_number (words[at + n]));
}

gboolean
cro_quick_is_put_right (CroModel            *model,
                        const CroEntryWords *words,
                        const char          *refused,
                        const char          *text)
{
  g_auto (CroQuick) quick = { 0 };
  g_autofree char *folded = cro_fold (refused), *name = NULL;
  g_auto (GStrv) of_refused = g_strsplit (folded, " ", -1), of_name = NULL;

  cro_quick_read (model, text, words, &quick);
  if (quick.name == NULL)
    return FALSE;
  name = cro_fold (quick.name);
  of_name = g_strsplit (name, " ", -1);
  for (guint at = 0; of_refused[at] != NULL; at++)
    if (stands_at (of_refused, at, of_name))
      return *name != '\0';
  return FALSE;
}
