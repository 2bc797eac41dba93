#include "config.h"

#include "cro-month-pictures.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-figure-words.h"
#include "cro-month-bridge-words.h"
#include "cro-number.h"
#include "cro-words.h"

/* Bars are as long as the figures that stand beside them say: rounded. */
CroWaterfall *
cro_month_bridge_waterfall (const CroMonthBridge *bridge)
{
  CroWaterfall *self = cro_waterfall_new ();
  g_autoptr (CroMonthTable) steps = cro_month_bridge_steps (bridge);
  g_autofree gint64 *minor = g_new0 (gint64, (bridge->items->len + 1) * CRO_N_BRIDGE_EFFECTS);
  gint64 moved[CRO_N_BRIDGE_STEPS];
  int digits = cro_currency_digits (bridge->to->currency);
  double unit = pow (10, -digits), low;

  cro_month_bridge_round (bridge, bridge->items, digits, moved, minor);
  for (guint i = 0; i < steps->rows->len; i++)
    {
      const CroMonthTableRow *row = cro_month_table_get (steps, i);
      double value = row->line >= 0 ? (double) moved[row->line] * unit
                     : i == 0       ? bridge->from->theoretical
                                    : bridge->to->theoretical;

      cro_waterfall_add (self, row->cells[0], row->cells[1], value, row->line < 0);
    }
  low = cro_waterfall_settle (self);
  if (low > 0)
    {
      g_autofree char *text = cro_number_to_text (low, 0, TRUE);

      /* Translators: of a picture of bars: the sum at which its scale begins. */
      self->begins = g_strdup_printf (_("The scale begins at %s, not at 0."), text);
    }
  return self;
}

CroScatter *
cro_month_matrix_scatter (CroModel             *model,
                          const CroMonthMatrix *matrix)
{
  CroScatter *self = cro_scatter_new ();
  static const CroMonthMatrixRow corners[] = {
    { .earns = TRUE }, { .is_popular = TRUE, .earns = TRUE }, { .earns = FALSE }, { .is_popular = TRUE },
  };

  for (guint i = 0; i < matrix->rows->len; i++)
    {
      const CroMonthMatrixRow *row = &g_array_index (matrix->rows, CroMonthMatrixRow, i);
      CroScatterPoint point = { row->share_pct, row->contribution, row->is_popular, row->earns };

      g_array_append_val (self->points, point);
    }
  self->x = matrix->limit_pct;
  self->y = matrix->limits.contribution;
  self->x_title = g_strdup (_("of all sold"));
  self->y_title = g_strdup (_("one leaves"));
  self->x_limit = cro_words_pct_of (matrix->limit_pct, 2);
  self->y_limit = cro_words_take_short (matrix->known, cro_words_money (model, matrix->limits.contribution));
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    self->corners[i] = g_strdup (cro_month_matrix_words (&corners[i]));
  return self;
}
