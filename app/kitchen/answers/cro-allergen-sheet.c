#include "cro-allergen-sheet.h"

#include <string.h>

#include "cro-fold.h"
#include "cro-kind.h"
#include "cro-menu-ways.h"

/* --- Rows --------------------------------------------------------------------------------------- */

typedef struct
{
  CroAllergenRow row;
  gboolean       is_menu;
  const char    *name;
  char          *folded;
} Named;

static int
compare_named (gconstpointer a,
               gconstpointer b)
{
  const Named *x = a, *y = b;
  int order = x->is_menu - y->is_menu;

  if (order == 0)
    order = strcmp (x->folded, y->folded);
  return order != 0 ? order : strcmp (x->name, y->name);
}

static void
add_named (GArray     *named,
           CroRef      thing,
           const char *name)
{
  Named one = { .row = { .thing = thing }, .is_menu = thing.kind == CRO_REF_MENU, .name = name,
                .folded = cro_fold (name) };

  g_array_append_val (named, one);
}

static void
add_all (CroAllergenSheet *self)
{
  CroModel *model = self->figures->model;
  g_autoptr (GArray) named = g_array_new (FALSE, FALSE, sizeof (Named));

  for (guint32 i = 0; i < model->recipes->len; i++)
    if (cro_model_recipe (model, i)->is_plate && !cro_model_recipe (model, i)->is_dead)
      add_named (named, CRO_REF (CRO_REF_RECIPE, i), cro_model_recipe (model, i)->name);
  for (guint32 i = 0; i < model->menus->len; i++)
    if (!cro_model_menu (model, i)->is_dead)
      add_named (named, CRO_REF (CRO_REF_MENU, i), cro_model_menu (model, i)->name);
  g_array_sort (named, compare_named);
  for (guint i = 0; i < named->len; i++)
    {
      Named *one = &g_array_index (named, Named, i);

      g_array_append_val (self->sorted, one->row);
      g_free (one->folded);
    }
}

static gboolean
has_plate (CroAllergenSheet *self,
           guint32           plate)
{
  for (guint i = 0; i < self->sorted->len; i++)
    if (g_array_index (self->sorted, CroAllergenRow, i).thing.slot == plate)
      return TRUE;
  return FALSE;
}

/* A plate may stand on a menu twice. */
static void
add_menu (CroAllergenSheet *self)
{
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (self->figures->model, self->menu);

  for (guint i = 0; i < plates->len; i++)
    {
      CroAllergenRow row = {
        .thing = CRO_REF (CRO_REF_RECIPE, ((const CroMenuPlate *) plates->pdata[i])->plate),
      };

      if (!has_plate (self, row.thing.slot))
        g_array_append_val (self->sorted, row);
    }
}

/* --- Groups ------------------------------------------------------------------------------------- */

unsigned
cro_allergen_sheet_held (const CroAllergenSheet *self,
                         const CroAllergenRow   *row,
                         guint                   entry)
{
  return cro_allergen_held (&cro_allergen_list (self->list)->entries[entry],
                            (guint32) row->bits & CRO_ALLERGENS_ALL,
                            (guint32) (row->bits >> CRO_REACH_MAY_CONTAIN_SHIFT) & CRO_ALLERGENS_ALL,
                            (row->bits & CRO_ALLERGENS_NOT_KNOWN) != 0);
}

guint64
cro_allergen_sheet_bits (const CroAllergenSheet *self,
                         const CroAllergenRow   *row,
                         guint                   entry,
                         CroHeld                 held)
{
  const CroAllergenEntry *of = &cro_allergen_list (self->list)->entries[entry];

  if (held == CRO_HELD_CONTAINS)
    return of->same;
  if (held == CRO_HELD_MAY)
    return cro_carried_may (of->same);
  return row->bits & (CRO_ALLERGENS_NOT_KNOWN | of->part_of | cro_carried_may (of->part_of));
}

static CroAvoidGroup
group_of (const CroAllergenSheet *self,
          const CroAllergenRow   *row)
{
  unsigned held = 0;

  for (guint i = 0; i < cro_allergen_list (self->list)->n; i++)
    if (self->avoids & (1u << i))
      held |= cro_allergen_sheet_held (self, row, i);
  return held & CRO_HELD_CONTAINS    ? CRO_AVOID_CONTAINS
         : held & CRO_HELD_MAY       ? CRO_AVOID_MAY
         : held & CRO_HELD_NOT_KNOWN ? CRO_AVOID_NOT_KNOWN
                                     : CRO_AVOID_NOT_ENTERED;
}

void
cro_allergen_sheet_ask (CroAllergenSheet  *self,
                        CroAllergenListId  list,
                        guint32            avoids)
{
  guint at[CRO_N_AVOID_GROUPS] = { 0 };

  self->list = list;
  self->avoids = avoids;
  memset (self->n_in, 0, sizeof self->n_in);
  for (guint i = 0; i < self->sorted->len; i++)
    {
      CroAllergenRow *row = &g_array_index (self->sorted, CroAllergenRow, i);

      row->group = group_of (self, row);
      self->n_in[row->group]++;
    }
  for (guint group = 1; group < CRO_N_AVOID_GROUPS; group++)
    at[group] = at[group - 1] + self->n_in[group - 1];
  for (guint i = 0; i < self->sorted->len; i++)
    {
      const CroAllergenRow *row = &g_array_index (self->sorted, CroAllergenRow, i);

      g_array_index (self->rows, CroAllergenRow, at[row->group]++) = *row;
    }
}

/* --- The sheet ---------------------------------------------------------------------------------- */

CroAllergenSheet *
cro_allergen_sheet_new (CroFigures *figures,
                        guint32     menu)
{
  CroAllergenSheet *self = g_new0 (CroAllergenSheet, 1);

  self->figures = figures;
  self->menu = menu;
  self->sorted = g_array_new (FALSE, FALSE, sizeof (CroAllergenRow));
  if (menu != CRO_NO_SLOT)
    add_menu (self);
  else
    add_all (self);
  for (guint i = 0; i < self->sorted->len; i++)
    {
      CroAllergenRow *row = &g_array_index (self->sorted, CroAllergenRow, i);

      row->bits = cro_carried_bits (figures, row->thing);
    }
  self->rows = g_array_copy (self->sorted);
  cro_allergen_sheet_ask (self, CRO_ALLERGEN_LIST_EU, 0);
  return self;
}

void
cro_allergen_sheet_free (CroAllergenSheet *self)
{
  g_array_unref (self->sorted);
  g_array_unref (self->rows);
  g_free (self);
}

void
cro_allergens_count (CroModel *model,
                     guint    *n,
                     guint    *n_not_stated)
{
  *n = *n_not_stated = 0;
  for (guint32 i = 0; i < model->items->len; i++)
    if (cro_kind_name (model, CRO_KIND_INGREDIENT, i) != NULL)
      {
        ++*n;
        *n_not_stated += cro_model_item (model, i)->allergens < 0 ? 1 : 0;
      }
}
