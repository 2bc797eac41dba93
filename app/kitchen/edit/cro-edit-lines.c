#include "cro-edit-private.h"

#include "cro-decimal.h"
#include "cro-fold.h"

/* --- Places ------------------------------------------------------------------------------------ */

GArray *
cro_edit_list_lines (CroFigures *figures,
                     guint32     recipe)
{
  const CroGraph *graph = &figures->graph;
  guint32 row = cro_figures_row (figures, recipe);
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (guint32));

  g_array_append_vals (lines, &graph->line_slot[graph->first[row]],
                       graph->first[row + 1] - graph->first[row]);
  return lines;
}

/* The lines of a recipe in order, without one. Elements CroPlace; *at is the place behind the
 * line `after`. */
static GArray *
places_of_recipe (CroBook *book,
                  guint32  recipe,
                  guint32  without,
                  guint32  after,
                  gint64  *last,
                  guint   *at)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GArray) lines = cro_edit_list_lines (cro_book_get_figures (book), recipe);
  GArray *places = g_array_new (FALSE, FALSE, sizeof (CroPlace));

  *last = 0;
  *at = 0;
  for (guint i = 0; i < lines->len; i++)
    {
      guint32 line = g_array_index (lines, guint32, i);
      CroPlace place = { model->line_ids[line], model->lines.position[line] };

      *last = MAX (*last, place.position);
      if (line != without)
        g_array_append_val (places, place);
      if (line == after)
        *at = places->len;
    }
  return places;
}

/* --- Adding ---------------------------------------------------------------------------------------- */

/* Where lines go. */
typedef struct
{
  gboolean is_plate;
  gint64   id;
} Into;

static Into
into_recipe (CroModel *model,
             guint32   recipe)
{
  return (Into){ cro_model_recipe (model, recipe)->is_plate, cro_model_recipe (model, recipe)->id };
}

/* An item made within the act, and the offer that its price is of. */
typedef struct
{
  gint64 id;
  gint64 offer;
} Made;

static Made *
made_of (CroBook           *book,
         GHashTable        *made,
         const CroNewLine  *new_line,
         GError           **error)
{
  g_autofree char *folded = cro_fold (new_line->name);
  Made *item = g_hash_table_lookup (made, folded);
  gint64 id;

  if (item != NULL)
    return item;
  if (!new_line->is_preparation)
    id = cro_edit_make_ingredient (book, new_line->name, new_line->base, error);
  else if (cro_edit_make_preparation (book, new_line->name, 0, cro_base_unit (new_line->base), &id,
                                      error) == 0)
    id = 0;
  if (id == 0)
    return NULL;
  item = g_new0 (Made, 1);
  item->id = id;
  g_hash_table_insert (made, g_steal_pointer (&folded), item);
  return item;
}

/* The id of what a line takes, or 0. */
static gint64
item_of (CroBook           *book,
         GHashTable        *made,
         const CroNewLine  *new_line,
         GError           **error)
{
  Made there = { 0 };
  Made *item = &there;

  if (new_line->item == CRO_NO_SLOT)
    item = made_of (book, made, new_line, error);
  else
    there.id = cro_model_item (cro_book_get_model (book), new_line->item)->id;
  if (item == NULL || (new_line->has_price
                       && !cro_edit_pay (book, item->id, &new_line->price, &item->offer, error)))
    return 0;
  return item->id;
}

static gint64
write_line (CroBook           *book,
            Into               into,
            gint64             position,
            gint64             item,
            const CroNewLine  *new_line,
            GError           **error)
{
  const char *columns[] = { into.is_plate ? "plate" : "preparation", "position_micro", "item",
                            "amount_micro", "unit", "weighed", "note", NULL };
  CroCell cells[] = {
    CRO_CELL_INT (into.id),
    CRO_CELL_INT (position),
    CRO_CELL_INT (item),
    CRO_CELL_INT (new_line->amount),
    CRO_CELL_STR (cro_edit_unit_code (new_line->unit)),
    CRO_CELL_STR (new_line->as_bought ? "whole" : "trimmed"),
    CRO_CELL_STR (new_line->note),
  };

  return cro_edit_insert (book, "recipe_line", columns, cells, error);
}

/* The id of what the first line takes, where lines are. */
static gboolean
write_lines (CroBook           *book,
             Into               into,
             const gint64      *positions,
             const CroNewLine  *new_lines,
             guint              n,
             gint64            *of_first,
             GError           **error)
{
  g_autoptr (GHashTable) made = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  for (guint i = 0; i < n; i++)
    {
      gint64 item = item_of (book, made, &new_lines[i], error);

      if (item == 0 || write_line (book, into, positions[i], item, &new_lines[i], error) == 0)
        return FALSE;
      if (i == 0)
        *of_first = item;
    }
  return TRUE;
}

static gboolean
add_lines (CroBook           *book,
           guint32            recipe,
           guint32            after,
           const CroNewLine  *new_lines,
           guint              n,
           gint64            *of_first,
           GError           **error)
{
  g_autofree gint64 *positions = g_new (gint64, n + 1);
  gint64 last;
  guint at;
  g_autoptr (GArray) places = places_of_recipe (book, recipe, CRO_NO_SLOT, after, &last, &at);

  if (after == CRO_NO_SLOT)
    at = places->len;
  return cro_edit_make_room (book, "recipe_line", places, last, at, n, positions, error)
         && write_lines (book, into_recipe (cro_book_get_model (book), recipe), positions,
                         new_lines, n, of_first, error);
}

/* --- A whole recipe ------------------------------------------------------------------------------------- */

static gboolean
add_to_note (CroBook     *book,
             Into         into,
             const char  *note,
             GError     **error)
{
  static const char *const columns[] = { "note", NULL };
  const char *table = into.is_plate ? "plate" : "preparation";
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), table, into.id, columns,
                                                 error);
  g_autofree char *both = NULL;
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  if (cro_rows_next (rows, &failed) && cro_rows_get_text (rows, 0) != NULL)
    both = g_strconcat (cro_rows_get_text (rows, 0), " ", note, NULL);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  g_clear_pointer (&rows, cro_rows_free);
  return cro_edit_update (book, table, into.id, "note", CRO_CELL_STR (both != NULL ? both : note), error);
}

static gboolean
set_yield (CroBook             *book,
           guint32              recipe,
           const CroNewRecipe  *content,
           GError             **error)
{
  static const char *const columns[] = { "amount_micro", "unit", "yield_pct_micro", NULL };
  CroModel *model = cro_book_get_model (book);
  const CroRecipe *of = cro_model_recipe (model, recipe);
  CroCell cells[] = { CRO_CELL_INT (content->gives),
                      CRO_CELL_STR (cro_edit_unit_code (content->gives_unit)), CRO_CELL_NONE };
  guint32 main;

  if (of->is_plate)
    return content->makes == 0
           || cro_edit_update (book, "plate", of->id, "makes_micro", CRO_CELL_INT (content->makes), error);
  if (content->gives == 0)
    return TRUE;
  main = g_array_index (model->output_order, guint32, of->first_output);
  return cro_edit_update_row (book, "output", cro_model_item (model, main)->id, columns, cells, error);
}

static gboolean
add_recipe (CroBook             *book,
            guint32              recipe,
            guint32              after,
            const CroNewRecipe  *content,
            gint64              *taken,
            GError             **error)
{
  if (!set_yield (book, recipe, content, error))
    return FALSE;
  if (content->note != NULL
      && !add_to_note (book, into_recipe (cro_book_get_model (book), recipe), content->note, error))
    return FALSE;
  return content->n == 0
         || add_lines (book, recipe, after, content->lines, content->n, taken, error);
}

gboolean
cro_edit_add_recipe (CroBook             *book,
                     const char          *label,
                     guint32              recipe,
                     guint32              after,
                     const CroNewRecipe  *content,
                     guint32             *item,
                     GError             **error)
{
  gint64 taken = 0;

  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, add_recipe (book, recipe, after, content, &taken, error), error)
         && (taken == 0
             || cro_edit_return_slot (item, &cro_book_get_model (book)->item_slots, taken));
}

/* --- The first plate ---------------------------------------------------------------------------------- */

static gboolean
start (CroBook           *book,
       const char        *currency,
       const char        *name,
       gint64             makes,
       const CroNewLine  *new_line,
       gint64            *plate,
       GError           **error)
{
  const gint64 position = CRO_MICRO;
  gint64 item;

  if (currency != NULL && cro_book_get_model (book)->currency == NULL
      && (!cro_edit_make_book_row (book, error)
          || !cro_edit_update (book, "book", 1, "currency", CRO_CELL_STR (currency), error)))
    return FALSE;
  *plate = cro_edit_make_plate (book, name, makes, error);
  return *plate != 0
         && write_lines (book, (Into){ TRUE, *plate }, &position, new_line, 1, &item, error);
}

gboolean
cro_edit_start (CroBook           *book,
                const char        *label,
                const char        *currency,
                const char        *name,
                gint64             makes,
                const CroNewLine  *new_line,
                guint32           *recipe,
                GError           **error)
{
  gint64 plate = 0;

  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, start (book, currency, name, makes, new_line, &plate, error), error)
         && cro_edit_return_slot (recipe, &cro_book_get_model (book)->plate_slots, plate);
}

/* --- Moving and copying --------------------------------------------------------------------------------- */

static gboolean
move_line (CroBook  *book,
           guint32   line,
           guint32   after,
           GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  gint64 last, position;
  guint at;
  g_autoptr (GArray) places = places_of_recipe (book, (guint32) model->lines.row[line], line, after,
                                                &last, &at);

  return cro_edit_make_room (book, "recipe_line", places, last, at, 1, &position, error)
         && cro_edit_update (book, "recipe_line", model->line_ids[line], "position_micro",
                             CRO_CELL_INT (position), error);
}

gboolean
cro_edit_move_line (CroBook     *book,
                    const char  *label,
                    guint32      line,
                    guint32      after,
                    GError     **error)
{
  g_return_val_if_fail (line != after, FALSE);

  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, move_line (book, line, after, error), error);
}

static gint64
duplicate_line (CroBook  *book,
                guint32   line,
                GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  gint64 last, position;
  guint at;
  g_autoptr (GArray) places = places_of_recipe (book, (guint32) model->lines.row[line], CRO_NO_SLOT,
                                                line, &last, &at);
  CroOverride place = { "position_micro", CRO_CELL_NONE };

  if (!cro_edit_make_room (book, "recipe_line", places, last, at, 1, &position, error))
    return 0;
  place.cell = CRO_CELL_INT (position);
  return cro_edit_copy_row (book, "recipe_line", model->line_ids[line], &place, 1, error);
}

gboolean
cro_edit_duplicate_line (CroBook     *book,
                         const char  *label,
                         guint32      line,
                         guint32     *copy,
                         GError     **error)
{
  gint64 id;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = duplicate_line (book, line, error);
  return cro_edit_end (book, id != 0, error)
         && cro_edit_return_slot (copy, &cro_book_get_model (book)->line_slots, id);
}
