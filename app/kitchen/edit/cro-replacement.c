#include "cro-replacement.h"

#include <math.h>

#include "cro-book-try.h"
#include "cro-carrier.h"
#include "cro-edit-private.h"
#include "cro-kind.h"
#include "cro-merge-private.h"
#include "cro-sold-as.h"

/* --- Lines ------------------------------------------------------------------------------------ */

static gboolean
is_chosen (const CroReplacement *self,
           guint32               recipe)
{
  for (guint i = 0; i < self->n_recipes; i++)
    if (self->recipes[i] == recipe)
      return TRUE;
  return self->recipes == NULL;
}

GArray *
cro_replacement_list_lines (CroFigures           *figures,
                            const CroReplacement *self)
{
  const CroGraph *graph = &figures->graph;
  const guint32 *items = figures->model->lines.item;
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (guint32));
  guint32 node = cro_figures_node (figures, self->item);

  for (guint32 at = 0, row; cro_graph_next_user (graph, node, &at, &row);)
    {
      if (!is_chosen (self, graph->slot_of_row[row]))
        continue;
      for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
        if (items[graph->line_slot[l]] == self->item)
          g_array_append_val (lines, graph->line_slot[l]);
    }
  return lines;
}

GArray *
cro_replacement_list_unknown (CroFigures           *figures,
                              const CroReplacement *self)
{
  CroModel *model = figures->model;
  g_autoptr (GArray) lines = cro_replacement_list_lines (figures, self);
  GArray *unknown = g_array_new (FALSE, FALSE, sizeof (guint32));

  for (guint i = 0; i < lines->len; i++)
    {
      guint32 line = g_array_index (lines, guint32, i);

      if (cro_line_lacks (&model->lines, line, &model->measures[self->by]) != CRO_LACKS_NOTHING)
        g_array_append_val (unknown, line);
    }
  return unknown;
}

/* --- Plates of menus ---------------------------------------------------------------------------- */

static gboolean
stands_on (const CroMenuPlate *entry,
           guint32             plate)
{
  return !entry->is_dead && entry->plate == plate;
}

gboolean
cro_replacement_is_on (CroModel *model,
                       guint32   menu,
                       guint32   plate)
{
  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (entry->menu == menu && stands_on (entry, plate))
        return TRUE;
    }
  return FALSE;
}

static int
compare_slots (gconstpointer a,
               gconstpointer b)
{
  guint32 x = *(const guint32 *) a, y = *(const guint32 *) b;

  return x < y ? -1 : x > y;
}

GArray *
cro_replacement_list_menus (CroModel *model,
                            guint32   plate)
{
  GArray *menus = g_array_new (FALSE, FALSE, sizeof (guint32));
  guint n = 0;

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (stands_on (entry, plate))
        g_array_append_val (menus, entry->menu);
    }
  g_array_sort (menus, compare_slots);
  /* In one of several choices a plate stands more than once. */
  for (guint i = 0; i < menus->len; i++)
    if (n == 0 || g_array_index (menus, guint32, n - 1) != g_array_index (menus, guint32, i))
      g_array_index (menus, guint32, n++) = g_array_index (menus, guint32, i);
  g_array_set_size (menus, n);
  return menus;
}

/* The slot of an entry of a menu. */
static gboolean
write_plate (CroBook              *book,
             const CroReplacement *self,
             guint32               slot,
             GError              **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, slot);

  if (self->by == CRO_NO_SLOT)
    return cro_edit_leave_choice (book, slot, error)
           && cro_store_delete (cro_book_get_store (book), "menu_plate", entry->id, error);
  if (cro_replacement_is_on (model, entry->menu, self->by))
    {
      g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_TWICE, "the plate is there");
      return FALSE;
    }
  return cro_edit_update (book, "menu_plate", entry->id, "plate",
                          CRO_CELL_INT (cro_model_recipe (model, self->by)->id), error);
}

/* Off its menus nothing holds on to it but what is on record of it. */
static gboolean
remove_plate (CroBook  *book,
              guint32   plate,
              GError  **error)
{
  g_autoptr (GArray) users = cro_edit_list_users (book, CRO_REF (CRO_REF_RECIPE, plate), error);

  for (guint i = 0; users != NULL && i < users->len; i++)
    if (g_array_index (users, CroRef, i).kind != CRO_REF_MENU)
      {
        g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_IN_USE, "in use");
        return FALSE;
      }
  return users != NULL && cro_edit_remove_recipe (book, plate, error);
}

static gboolean
write_plates (CroBook              *book,
              const CroReplacement *self,
              GError              **error)
{
  CroModel *model = cro_book_get_model (book);

  for (guint32 i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (stands_on (entry, self->item) && is_chosen (self, entry->menu) && !write_plate (book, self, i, error))
        return FALSE;
    }
  return !self->is_removal || remove_plate (book, self->item, error);
}

/* --- The act ---------------------------------------------------------------------------------- */

static gboolean
write_rows (CroBook              *book,
            const CroReplacement *self,
            GError              **error)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GArray) lines = NULL;
  gint64 by;

  if (self->is_plate)
    return write_plates (book, self, error);
  lines = cro_replacement_list_lines (cro_book_get_figures (book), self);
  by = cro_model_item (model, self->by)->id;
  for (guint i = 0; i < lines->len; i++)
    if (!cro_edit_update (book, "recipe_line", model->line_ids[g_array_index (lines, guint32, i)],
                          "item", CRO_CELL_INT (by), error))
      return FALSE;
  return !self->is_merge || cro_merge_rows (book, self->item, self->by, error);
}

gboolean
cro_edit_replace (CroBook              *book,
                  const char           *label,
                  const CroReplacement *self,
                  GError              **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, write_rows (book, self, error), error);
}

/* --- What it would do ------------------------------------------------------------------------- */

/* Everything sold, with what it comes to before. */
static GArray *
list_things (CroFigures *figures)
{
  static const struct { CroKind kind; CroRefKind ref; } kinds[] = {
    { CRO_KIND_PLATE, CRO_REF_RECIPE }, { CRO_KIND_MENU, CRO_REF_MENU },
  };
  GArray *things = g_array_new (FALSE, FALSE, sizeof (CroConsequence));

  for (gsize k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (guint32 slot = 0; slot < cro_kind_n_slots (figures->model, kinds[k].kind); slot++)
      if (cro_kind_name (figures->model, kinds[k].kind, slot) != NULL)
        {
          CroConsequence one = { .thing = CRO_REF (kinds[k].ref, slot) };

          one.from = cro_figure_of (figures, one.thing);
          one.from_bits = cro_carried_bits (figures, one.thing);
          g_array_append_val (things, one);
        }
  return things;
}

static void
look_cb (CroBook  *book,
         gpointer  user_data)
{
  GArray *things = user_data;

  for (guint i = 0; i < things->len; i++)
    {
      CroConsequence *one = &g_array_index (things, CroConsequence, i);

      one->to = cro_figure_of (cro_book_get_figures (book), one->thing);
      one->to_bits = cro_carried_bits (cro_book_get_figures (book), one->thing);
    }
}

static gboolean
moves (const CroConsequence *one)
{
  return one->from.is_incomplete != one->to.is_incomplete || one->from.cost < one->to.cost
         || one->from.cost > one->to.cost || one->from.disposables < one->to.disposables
         || one->from.disposables > one->to.disposables || one->from_bits != one->to_bits;
}

static double
size_of (const CroConsequence *one)
{
  return fabs (one->to.cost - one->from.cost);
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  double x = size_of (a), y = size_of (b);

  return x > y ? -1 : x < y;
}

GArray *
cro_replacement_try (CroBook              *book,
                     const CroReplacement *self,
                     GError              **error)
{
  g_autoptr (GArray) things = NULL;
  CroReplacement of_the_rest = *self;
  GArray *moved;

  of_the_rest.is_removal = FALSE;
  if (!cro_edit_begin (book, "trial", error))
    return NULL;
  things = list_things (cro_book_get_figures (book));
  if (!write_rows (book, &of_the_rest, error))
    {
      cro_book_cancel_act (book);
      return NULL;
    }
  if (!cro_book_try_act (book, look_cb, things, error))
    return NULL;
  moved = g_array_new (FALSE, FALSE, sizeof (CroConsequence));
  for (guint i = 0; i < things->len; i++)
    if (moves (&g_array_index (things, CroConsequence, i)))
      g_array_append_val (moved, g_array_index (things, CroConsequence, i));
  g_array_sort (moved, compare);
  return moved;
}
