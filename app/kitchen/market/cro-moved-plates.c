#include "cro-moved-plates.h"

#include <math.h>
#include <string.h>

#include "cro-money.h"

typedef CroFigure (*FigureOf) (CroFigures *figures, guint32 slot);

static gboolean
is_there (CroModel *model,
          gboolean  is_menu,
          guint32   slot)
{
  if (is_menu)
    return !cro_model_menu (model, slot)->is_dead;
  return cro_model_recipe (model, slot)->is_plate && !cro_model_recipe (model, slot)->is_dead;
}

static guint32
n_slots (CroModel *model,
         gboolean  is_menu)
{
  return is_menu ? model->menus->len : model->recipes->len;
}

static const char *
name_of (CroModel *model,
         gboolean  is_menu,
         guint32   slot)
{
  return is_menu ? cro_model_menu (model, slot)->name : cro_model_recipe (model, slot)->name;
}

CroMovedPlate
cro_moved_plate_make (gboolean         is_menu,
                      const CroFigure *before,
                      const CroFigure *after)
{
  return (CroMovedPlate){ .is_menu = is_menu,
                          .before = *before,
                          .after = *after,
                          .goes_over = !before->is_over_target && after->is_over_target,
                          .size = before->cost > 0 ? fabs (after->cost / before->cost - 1) : INFINITY };
}

gboolean
cro_moved_plate_has (const CroMovedPlate *moved)
{
  return !(fabs (moved->after.cost - moved->before.cost) <= CRO_ALLOWED * fabs (moved->before.cost))
         || moved->after.is_incomplete != moved->before.is_incomplete;
}

/* Name → slot + 1. */
static GHashTable *
slots_by_name (CroModel *model,
               gboolean  is_menu)
{
  GHashTable *slots = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint32 i = 0; i < n_slots (model, is_menu); i++)
    if (is_there (model, is_menu, i))
      g_hash_table_insert (slots, (gpointer) name_of (model, is_menu, i), GUINT_TO_POINTER (i + 1));
  return slots;
}

/* Two books of one begin hardly differ in their slots: only what does is looked for by its name. slots is
 * made when it is needed. */
static guint32
find_before (CroModel     *before,
             gboolean      is_menu,
             guint32       slot,
             const char   *name,
             GHashTable  **slots)
{
  if (slot < n_slots (before, is_menu) && is_there (before, is_menu, slot)
      && strcmp (name_of (before, is_menu, slot), name) == 0)
    return slot;
  if (*slots == NULL)
    *slots = slots_by_name (before, is_menu);
  return GPOINTER_TO_UINT (g_hash_table_lookup (*slots, name)) - 1;
}

static void
add_moved (GArray     *all,
           CroFigures *before,
           CroFigures *after,
           gboolean    is_menu)
{
  FigureOf figure_of = is_menu ? cro_figure_of_menu : cro_figure_of_plate;
  g_autoptr (GHashTable) slots = NULL;

  for (guint32 i = 0; i < n_slots (after->model, is_menu); i++)
    {
      guint32 slot = is_there (after->model, is_menu, i)
                         ? find_before (before->model, is_menu, i, name_of (after->model, is_menu, i), &slots)
                         : CRO_NO_SLOT;
      CroFigure was, is;
      CroMovedPlate moved;

      if (slot == CRO_NO_SLOT)
        continue;
      was = figure_of (before, slot);
      is = figure_of (after, i);
      moved = cro_moved_plate_make (is_menu, &was, &is);
      if (cro_moved_plate_has (&moved))
        g_array_append_val (all, moved);
    }
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  const CroMovedPlate *one = a, *other = b;

  if (one->goes_over != other->goes_over)
    return one->goes_over ? -1 : 1;
  if (one->size != other->size)
    return one->size > other->size ? -1 : 1;
  return strcmp (one->before.name, other->before.name);
}

GArray *
cro_moved_plates_new (CroFigures *before,
                      CroFigures *after)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (CroMovedPlate));

  add_moved (all, before, after, FALSE);
  add_moved (all, before, after, TRUE);
  g_array_sort (all, compare);
  return all;
}
