#include "cro-edit-private.h"

#include "cro-decimal.h"
#include "cro-fraction.h"

/* What everything is multiplied by, as a ratio of millionths: so that 24 to 36 and back is what
 * it was wherever millionths hold it. */
typedef struct
{
  gint64 to;
  gint64 from;
} Factor;

static gboolean
scale_cell (CroBook     *book,
            const char  *table,
            gint64       id,
            gint64       amount,
            Factor       factor,
            GError     **error)
{
  CroFraction scaled = cro_fraction_from_micro (amount);
  gint64 result;

  if (!cro_fraction_multiply (&scaled, cro_fraction_from_micro (factor.to))
      || !cro_fraction_divide (&scaled, cro_fraction_from_micro (factor.from))
      || !cro_fraction_to_micro (scaled, &result) || (result == 0 && amount != 0))
    {
      g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_RANGE, "cannot be scaled so far");
      return FALSE;
    }
  return cro_edit_update (book, table, id, "amount_micro", CRO_CELL_INT (result), error);
}

static gboolean
scale_lines (CroBook  *book,
             guint32   recipe,
             Factor    factor,
             GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GArray) lines = cro_edit_list_lines (cro_book_get_figures (book), recipe);

  for (guint i = 0; i < lines->len; i++)
    {
      guint32 line = g_array_index (lines, guint32, i);

      if (!scale_cell (book, "recipe_line", model->line_ids[line], model->lines.amount[line],
                       factor, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
scale_outputs (CroBook  *book,
               guint32   recipe,
               Factor    factor,
               GError  **error)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (cro_book_get_figures (book), recipe, &outputs);

  for (guint32 i = 0; i < n; i++)
    {
      const CroItem *item = cro_model_item (cro_book_get_model (book), outputs[i]);

      if (item->output.amount > 0
          && !scale_cell (book, "output", item->id, item->output.amount, factor, error))
        return FALSE;
    }
  return TRUE;
}

/* What a preparation gives now, in the unit of its main output. */
static gboolean
finished (CroBook *book,
          guint32  recipe,
          gint64  *micro)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (cro_book_get_figures (book), recipe, &outputs);
  const CroOutput *output;

  if (n == 0)
    return FALSE;
  output = &cro_model_item (cro_book_get_model (book), outputs[0])->output;
  *micro = output->amount;
  if (*micro > 0)
    return TRUE;
  return cro_decimal_from_double (output->finished / cro_unit_factor (output->unit), micro)
         && *micro > 0;
}

static gboolean
scale (CroBook  *book,
       guint32   slot,
       gint64    to,
       GError  **error)
{
  const CroRecipe *recipe = cro_model_recipe (cro_book_get_model (book), slot);
  Factor factor = { to, recipe->makes };

  if (recipe->is_plate)
    return scale_lines (book, slot, factor, error)
           && cro_edit_update (book, "plate", recipe->id, "makes_micro", CRO_CELL_INT (to), error);
  if (!finished (book, slot, &factor.from))
    {
      g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_RANGE,
                           "the finished amount is not known");
      return FALSE;
    }
  return scale_lines (book, slot, factor, error) && scale_outputs (book, slot, factor, error);
}

gboolean
cro_edit_scale (CroBook     *book,
                const char  *label,
                guint32      recipe,
                gint64       to,
                GError     **error)
{
  g_return_val_if_fail (to > 0, FALSE);

  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, scale (book, recipe, to, error), error);
}
