#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-breakdown.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-result-words.h"
#include "cro-sold.h"
#include "cro-words.h"

/* What is over its target stands first, what is furthest over before the others; then what is
 * incomplete. */
#define INCOMPLETE_FIRST (-0.5)

/* A menu that carries a plate, CRO_NO_SLOT: none, and whether another does as well. */
typedef struct
{
  guint32  menu;
  gboolean is_elsewhere;
} Carrier;

typedef struct
{
  CroReading *reading;
  CroFigures *figures;
  GHashTable *sold;         /* id of a plate or a menu → CroSold */
  GHashTable *notes;        /* id → text */
  Carrier    *carriers;     /* by recipe */
} Served;

/* --- Menus that carry a plate ----------------------------------------------------------------- */

/* The one with least to spare, as its target is the first that the plate can break. */
static Carrier *
dup_carriers (CroFigures *figures)
{
  CroModel *model = figures->model;
  g_autofree double *spare = g_new (double, model->menus->len + 1);
  Carrier *carriers = g_new (Carrier, model->recipes->len + 1);

  for (guint32 menu = 0; menu < model->menus->len; menu++)
    {
      CroFigure figure;

      spare[menu] = INFINITY;
      if (cro_model_menu (model, menu)->is_dead)
        continue;
      figure = cro_figure_of_menu (figures, menu);
      if (!isnan (cro_to_spare (&figure)))
        spare[menu] = cro_to_spare (&figure);
    }
  for (guint32 recipe = 0; recipe < model->recipes->len; recipe++)
    carriers[recipe] = (Carrier){ CRO_NO_SLOT, FALSE };
  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);
      Carrier *of = &carriers[entry->plate];

      if (entry->is_dead)
        continue;
      of->is_elsewhere |= of->menu != CRO_NO_SLOT && of->menu != entry->menu;
      if (of->menu == CRO_NO_SLOT || spare[entry->menu] < spare[of->menu])
        of->menu = entry->menu;
    }
  return carriers;
}

/* --- Cells ------------------------------------------------------------------------------------ */

static CroValue
target_value (Served          *self,
              const CroFigure *figure,
              Carrier          carrier)
{
  CroModel *model = self->figures->model;
  char *text = cro_words_spare_short (model, figure);

  if (text == NULL && !isnan (figure->net_price))
    return cro_reading_number (NAN);
  if (text == NULL && carrier.menu != CRO_NO_SLOT)
    /* Translators: of a plate without a price of its own: the menu that it is served in; or one of them. */
    text = cro_isolate_printf (carrier.is_elsewhere ? _("in %s and elsewhere") : _("in %s"),
                               cro_model_menu (model, carrier.menu)->name);
  else if (text == NULL)
    text = g_strdup (_("no price"));
  return cro_reading_shown (self->reading, cro_to_spare (figure), text);
}

static void
fill_figures (Served          *self,
              const CroFigure *figure,
              Carrier          carrier)
{
  CroModel *model = self->figures->model;
  CroRecordRow *row = &self->reading->row;
  CroKnown known = cro_known_of_cost (figure);
  double left = figure->net_price - figure->cost;
  CroFigure own = *figure;

  row->values[2] = cro_reading_shown (self->reading, figure->cost, cro_words_cost_short (model, figure));
  row->values[3] = cro_reading_shown (self->reading, figure->food_cost_pct,
                                      cro_words_take_short (cro_known_of_result (model->speaks, figure),
                                                            cro_words_result_plain (model, figure)));
  row->values[4] = target_value (self, figure, carrier);
  row->values[5] = cro_reading_shown (self->reading, left,
                                      isnan (left) ? g_strdup ("–")
                                                   : cro_words_take_short (cro_known_turned (known),
                                                                           cro_words_money (model, left)));
  /* What menus carry has its price there. */
  if (isnan (figure->net_price) && carrier.menu != CRO_NO_SLOT)
    own.price_for_target = NAN;
  own.is_incomplete = FALSE;
  row->values[7] = cro_reading_shown (self->reading, own.price_for_target,
                                      cro_words_take_short (known, cro_words_price_for_target (model, &own)));
  if (figure->is_over_target)
    {
      row->marks |= CRO_RECORD_OVER_TARGET;
      row->urgency = -figure->food_cost_pct / figure->target_pct;
    }
  if (figure->is_incomplete)
    {
      row->marks |= CRO_RECORD_INCOMPLETE;
      row->urgency = MIN (row->urgency, INCOMPLETE_FIRST);
    }
}

static void
fill_sold (Served *self,
           gint64  id)
{
  const CroSold *sold = g_hash_table_lookup (self->sold, &id);

  self->reading->row.also = cro_reading_text (self->reading,
                                              g_hash_table_lookup (self->notes, &id)).text;
  if (sold != NULL)
    self->reading->row.values[6] = cro_reading_number ((double) sold->sold);
}

/* --- Rows ------------------------------------------------------------------------------------- */

static void
add_plate (Served  *self,
           guint32  slot)
{
  CroReading *reading = self->reading;
  const CroRecipe *plate = cro_model_recipe (reading->model, slot);
  CroFigure figure = cro_figure_of_plate (self->figures, slot);

  cro_reading_begin (reading, plate->id);
  reading->row.ref = CRO_REF (CRO_REF_RECIPE, slot);
  reading->row.values[0] = cro_reading_text (reading, plate->name);
  reading->row.values[1] = cro_reading_text (reading, plate->course);
  fill_figures (self, &figure, self->carriers[slot]);
  fill_sold (self, plate->id);
  if (figure.is_incomplete)
    reading->row.values[8] = cro_reading_causes (reading, cro_causes_of_plate (self->figures, slot));
  g_array_append_val (reading->rows, reading->row);
}

static void
add_menu (Served  *self,
          guint32  slot)
{
  CroReading *reading = self->reading;
  const CroMenu *menu = cro_model_menu (reading->model, slot);
  CroFigure figure = cro_figure_of_menu (self->figures, slot);

  cro_reading_begin (reading, menu->id);
  reading->row.ref = CRO_REF (CRO_REF_MENU, slot);
  reading->row.values[0] = cro_reading_text (reading, menu->name);
  /* Translators: stands where a plate has its course. */
  reading->row.values[1] = cro_reading_text (reading, _("Menu"));
  fill_figures (self, &figure, (Carrier){ CRO_NO_SLOT, FALSE });
  fill_sold (self, menu->id);
  if (figure.is_incomplete)
    reading->row.values[8] = cro_reading_causes (reading, cro_causes_of_menu (self->figures, slot));
  g_array_append_val (reading->rows, reading->row);
}

/* Plates and menus share one space of ids. */
static gboolean
read_notes (Served  *self,
            GError **error)
{
  g_autoptr (GHashTable) of_menus = cro_reading_notes (self->reading, "menu", "note", error);
  GHashTableIter iter;
  gpointer id, note;

  self->notes = of_menus != NULL ? cro_reading_notes (self->reading, "plate", "note", error) : NULL;
  if (self->notes == NULL)
    return FALSE;
  g_hash_table_iter_init (&iter, of_menus);
  while (g_hash_table_iter_next (&iter, &id, &note))
    {
      g_hash_table_iter_steal (&iter);
      g_hash_table_insert (self->notes, id, note);
    }
  return TRUE;
}

gboolean
cro_reading_plates (CroReading  *reading,
                    GError     **error)
{
  CroModel *model = reading->model;
  CroFigures *figures = cro_book_get_figures (reading->book);
  g_autoptr (GHashTable) sold = cro_sold_lately (reading->book, CRO_SOLD_DAYS, NULL, error);
  g_autofree Carrier *carriers = dup_carriers (figures);
  Served self = { reading, figures, sold, NULL, carriers };
  g_autoptr (GHashTable) notes = NULL;

  if (sold == NULL || !read_notes (&self, error))
    return FALSE;
  notes = self.notes;
  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    if (!cro_model_recipe (model, slot)->is_dead && cro_model_recipe (model, slot)->is_plate)
      add_plate (&self, slot);
  for (guint32 slot = 0; slot < model->menus->len; slot++)
    if (!cro_model_menu (model, slot)->is_dead)
      add_menu (&self, slot);
  cro_reading_sort (reading);
  return TRUE;
}
