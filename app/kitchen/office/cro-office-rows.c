#include "cro-office-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-breakdown.h"
#include "cro-decimal.h"
#include "cro-known.h"
#include "cro-office-notes.h"
#include "cro-office-sheet.h"
#include "cro-reach.h"
#include "cro-words.h"

/* --- Units --------------------------------------------------------------------------------------- */

/* A decimal where 0 means that it is not set. */
static double
decimal_or_nan (gint64 micro)
{
  return micro > 0 ? cro_decimal_to_double (micro) : NAN;
}

static double
fraction (gint64 pct)
{
  return (double) pct / (double) CRO_WHOLE_PCT;
}

static double
fraction_or_nan (gint64 pct)
{
  return pct != CRO_NOT_SET ? fraction (pct) : NAN;
}

/* Base units of an item in one unit; 0 where it cannot be converted. */
static double
factor_of (const CroMeasure *measure,
           CroUnit           unit)
{
  CroBase from = cro_unit_get (unit)->base;

  if (from == (CroBase) measure->base)
    return cro_unit_factor (unit);
  if (!(measure->grams[measure->base] > 0))
    return 0;
  return cro_unit_factor (unit) * measure->grams[from] / measure->grams[measure->base];
}

/* --- What is bought --------------------------------------------------------------------------------- */

static void
get_rate (gpointer         data,
          guint32          index,
          CroWorkbookRate *rate)
{
  CroOffice *self = data;
  const double *known;

  rate->currency = self->currencies->pdata[index];
  known = g_hash_table_lookup (self->model->rates, rate->currency);
  rate->rate = known != NULL ? *known : NAN;
}

/* Which offer counts: that in use, or until there is one the first that could be. */
static guint32
offer_that_counts (CroOffice *self,
                   guint32    slot)
{
  const CroItem *item = cro_model_item (self->model, slot);
  guint32 used = self->figures->offer_in_use[slot];

  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 offer = cro_office_slot (self->model->offer_order, item->first_offer + i);
      const CroOffer *of = &cro_model_offer (self->model, offer)->offer;
      gboolean has_left = of->has_until && self->figures->date > of->until;

      if (used != CRO_NO_SLOT ? offer == used : !has_left)
        return i;
    }
  return CRO_WORKBOOK_NONE;
}

static gboolean
does_count (CroOffice *self,
            guint32    item,
            guint32    offer)
{
  guint32 counts = offer_that_counts (self, item);
  guint32 first = cro_model_item (self->model, item)->first_offer;

  return counts != CRO_WORKBOOK_NONE
         && cro_office_slot (self->model->offer_order, first + counts) == offer;
}

static void
get_ingredient (gpointer               data,
                guint32                index,
                CroWorkbookIngredient *ingredient)
{
  CroOffice *self = data;
  guint32 slot = cro_office_slot (self->ingredients, index);
  const CroItem *item = cro_model_item (self->model, slot);
  const CroMeasure *measure = &self->model->measures[slot];
  double unit_cost = cro_figures_unit_cost (self->figures, slot);

  *ingredient = (CroWorkbookIngredient){
    .name = item->name,
    .base = (CroBase) measure->base,
    .is_disposable = item->is_disposable,
    .density = decimal_or_nan (item->density),
    .piece = decimal_or_nan (item->piece),
    .trim = measure->trim_yield > 0 ? fraction (measure->trim_yield) : NAN,
    .first_offer = self->first_offer[index],
    .n_offers = item->n_offers,
    .used = offer_that_counts (self, slot),
    .unit_cost = isnan (unit_cost) ? 0 : unit_cost,
    .note = cro_office_ingredient_note (self->figures, slot),
  };
}

/* An offer's currency among those that have a rate; NONE for the book's own. */
static guint32
rate_of (CroOffice           *self,
         const CroOfferEntry *entry)
{
  guint at;

  if (entry->currency != NULL
      && g_ptr_array_find_with_equal_func (self->currencies, entry->currency, g_str_equal, &at))
    return at;
  return CRO_WORKBOOK_NONE;
}

static void
get_offer (gpointer          data,
           guint32           index,
           CroWorkbookOffer *offer)
{
  CroOffice *self = data;
  guint32 slot = cro_office_slot (self->offers, index);
  const CroOfferEntry *entry = cro_model_offer (self->model, slot);
  const CroOffer *of = &entry->offer;
  const CroMeasure *measure = &self->model->measures[entry->item];
  unsigned lacks = cro_offer_lacks (of, measure, self->figures->date);
  gboolean is_used = self->figures->offer_in_use[entry->item] == slot;
  gboolean is_gone = (lacks & CRO_OFFER_LEFT) != 0 || (of->had_price && !of->has_price);
  guint32 price_row = entry->price_id != 0 || of->had_price
                          ? cro_office_prices_find (&self->prices, index, of->from)
                          : CRO_NO_SLOT;

  *offer = (CroWorkbookOffer){
    .supplier = g_array_index (self->model->suppliers, CroSupplier, entry->supplier).name,
    .code = entry->code,
    .pack_count = cro_decimal_to_double (of->pack_count),
    .pack_size = cro_decimal_to_double (of->pack_size),
    .unit = of->pack_unit,
    .factor = factor_of (measure, of->pack_unit),
    .net = of->net > 0 ? fraction (of->net) : 1,
    .rate = rate_of (self, entry),
    .price_row = price_row != CRO_NO_SLOT ? price_row : CRO_WORKBOOK_NONE,
    .exchange = of->rate,
    .price = of->has_price || of->had_price ? cro_decimal_to_double (of->price) : NAN,
    .tax = fraction (of->tax_included),
    .from = of->from,
    .content = cro_offer_pack (of, measure),
    .unit_cost = is_used || lacks == CRO_OFFER_PRICED ? cro_offer_unit_cost (of, measure) : NAN,
    .is_idle = is_gone && !does_count (self, entry->item, slot),
    .state = cro_office_offer_state (entry, lacks, is_used),
  };
}

static void
get_price (gpointer          data,
           guint32           index,
           CroWorkbookPrice *price)
{
  CroOffice *self = data;
  guint32 number = cro_office_prices_offer (&self->prices, index);
  const CroOfferEntry *entry = cro_model_offer (self->model, cro_office_slot (self->offers, number));
  const CroOfficePrice *of = &self->prices.prices[index];
  CroOfficePack pack = { entry->pack_count, entry->pack_size, (CroUnit) entry->pack_unit };

  if (of->pack != CRO_NO_SLOT)
    {
      const CroOfficePack *own = &g_array_index (self->prices.packs, CroOfficePack, of->pack);

      pack.count = own->count != 0 ? own->count : pack.count;
      pack.size = own->size != 0 ? own->size : pack.size;
      pack.unit = own->unit != CRO_N_UNITS ? own->unit : pack.unit;
    }
  *price = (CroWorkbookPrice){
    .ingredient = cro_model_item (self->model, entry->item)->name,
    .supplier = g_array_index (self->model->suppliers, CroSupplier, entry->supplier).name,
    .code = entry->code,
    .from = of->from,
    .price = of->price != CRO_NOT_SET ? cro_decimal_to_double (of->price) : NAN,
    .currency = entry->currency != NULL ? entry->currency : self->model->currency,
    .tax = fraction (of->tax),
    .pack_count = cro_decimal_to_double (pack.count),
    .pack_size = cro_decimal_to_double (pack.size),
    .unit = pack.unit,
    .is_in_force = index + 1 == self->prices.first[number + 1],
  };
}

/* --- What is made ------------------------------------------------------------------------------------ */

static void
get_line (gpointer         data,
          guint32          index,
          CroWorkbookLine *line)
{
  CroOffice *self = data;
  const CroLines *lines = &self->model->lines;
  guint32 slot = self->figures->graph.line_slot[index];
  guint32 node = self->figures->graph.part[index];
  guint32 item = lines->item[slot];
  const CroMeasure *measure = &self->model->measures[item];
  CroUnit unit = (CroUnit) lines->unit[slot];
  CroLack lack;
  double grams = cro_line_grams (lines, slot, measure, &lack);
  gboolean is_trimmed = !lines->whole[slot] && unit < CRO_UNIT_EACH && measure->is_bought;

  *line = (CroWorkbookLine){
    .item = self->number_of_item[item],
    .name = cro_model_item (self->model, item)->name,
    .base = (CroBase) measure->base,
    .is_disposable = !measure->is_food,
    .amount = cro_decimal_to_double (lines->amount[slot]),
    .unit = unit,
    .factor = factor_of (measure, unit),
    .yield_from = lines->yield[slot] != 0 ? CRO_WORKBOOK_YIELD_OWN
                  : is_trimmed            ? CRO_WORKBOOK_YIELD_TRIM
                                          : CRO_WORKBOOK_YIELD_ONE,
    .yield = fraction (cro_line_yield (lines, slot, measure)),
    .recovered = fraction (lines->recovered[slot]),
    .charged = self->figures->graph.quantity[index],
    .grams = lack == CRO_LACKS_NOTHING ? grams : NAN,
    .note = cro_office_line_note (self->figures, slot),
  };
  for (int layer = 0; layer < CRO_N_LAYERS; layer++)
    line->unit_cost[layer] = self->figures->layers[layer].unit_cost[node];
  cro_office_known_of_line (self, index, line->known);
}

/* The first row that takes an output of a batch. */
static void
find_use (CroOffice        *self,
          guint32           row,
          CroWorkbookBatch *batch)
{
  const CroGraph *graph = &self->figures->graph;

  batch->used_by = batch->used_on = CRO_WORKBOOK_NONE;
  for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
    if (graph->used_first[node] < graph->used_first[node + 1])
      {
        guint32 user = graph->used_in[graph->used_first[node]];
        gboolean is_plate = cro_model_recipe (self->model, graph->slot_of_row[user])->is_plate;

        *(is_plate ? &batch->used_on : &batch->used_by) = self->number_of_row[user];
        return;
      }
}

/* Of a batch, or of all bites of a plate. */
static void
take_costs (CroOffice *self,
            guint32    row,
            double    *costs)
{
  for (int layer = 0; layer < CRO_N_LAYERS; layer++)
    costs[layer] = self->figures->layers[layer].row_cost[row];
}

/* Without a finished amount, or a value to share by, nothing comes out. */
static gboolean
is_complete (CroOffice *self,
             guint32    row)
{
  const guint32 *slots;
  guint32 n = cro_figures_outputs (self->figures, self->figures->graph.slot_of_row[row], &slots);
  guint64 bits = self->figures->row_bits[row];

  for (guint32 i = 0; i < n; i++)
    bits |= self->figures->node_bits[cro_figures_node (self->figures, slots[i])];
  return !(bits & CRO_REACH_INCOMPLETE);
}

static void
get_batch (gpointer          data,
           guint32           index,
           CroWorkbookBatch *batch)
{
  CroOffice *self = data;
  const CroGraph *graph = &self->figures->graph;
  guint32 row = cro_office_slot (self->batches, index);
  const CroRecipe *recipe = cro_model_recipe (self->model, graph->slot_of_row[row]);

  *batch = (CroWorkbookBatch){
    .name = recipe->name,
    .rule = (CroRule) recipe->rule,
    .minutes = cro_decimal_to_double (recipe->active_minutes),
    .first_line = graph->first[row],
    .n_lines = graph->first[row + 1] - graph->first[row],
    .first_output = self->first_output[index],
    .n_outputs = recipe->n_outputs,
    .labour = self->figures->labour[row],
    .is_complete = is_complete (self, row),
  };
  take_costs (self, row, batch->cost);
  cro_office_known_of_batch (self, row, batch->known);
  find_use (self, row, batch);
}

static void
get_output (gpointer           data,
            guint32            index,
            CroWorkbookOutput *output)
{
  CroOffice *self = data;
  guint32 slot = cro_office_slot (self->outputs, index);
  const CroItem *item = cro_model_item (self->model, slot);
  guint32 node = cro_figures_node (self->figures, slot);

  *output = (CroWorkbookOutput){
    .name = item->name,
    .base = (CroBase) self->model->measures[slot].base,
    .unit = item->output.unit,
    .amount = decimal_or_nan (item->output.amount),
    .yield = item->output.yield > 0 ? fraction (item->output.yield) : NAN,
    .value = item->output.has_value ? cro_decimal_to_double (item->output.value) : NAN,
    .density = decimal_or_nan (item->density),
    .piece = decimal_or_nan (item->piece),
    .lost = item->output.lost > 0 ? fraction (item->output.lost) : NAN,
    .finished = item->output.finished,
    .used = item->output.used,
    .value_of_base = item->output.value_of_base,
    .share = item->output.share,
  };
  for (int layer = 0; layer < CRO_N_LAYERS; layer++)
    output->unit_cost[layer] = self->figures->layers[layer].unit_cost[node];
  cro_office_known_of_item (self, slot, output->known);
}

/* --- What is sold ---------------------------------------------------------------------------------------- */

static void
take_figure (CroOffice         *self,
             const CroFigure   *of,
             gint64             price,
             gint64             tax,
             gint64             target,
             CroWorkbookFigure *figure)
{
  gint64 tax_in_force = tax != CRO_NOT_SET ? tax : self->model->tax;

  *figure = (CroWorkbookFigure){
    .cost = { of->cost, of->disposables, of->labour },
    .bite = of->bite,
    .price = price != CRO_NOT_SET ? cro_decimal_to_double (price) : NAN,
    .tax = fraction_or_nan (tax),
    .target = fraction_or_nan (target),
    .net_price = of->net_price,
    .food_cost_pct = of->food_cost_pct / 100,
    .price_for_target = of->price_for_target,
    .tax_in_force = fraction_or_nan (tax_in_force),
    .target_in_force = of->target_pct / 100,
  };
}

static void
get_plate (gpointer          data,
           guint32           index,
           CroWorkbookPlate *plate)
{
  CroOffice *self = data;
  guint32 slot = cro_office_slot (self->plates, index);
  guint32 row = cro_figures_row (self->figures, slot);
  const CroRecipe *recipe = cro_model_recipe (self->model, slot);
  CroFigure figure = cro_figure_of_plate (self->figures, slot);

  *plate = (CroWorkbookPlate){
    .name = recipe->name,
    .course = recipe->course,
    .makes = cro_decimal_to_double (recipe->makes),
    .per_guest = cro_decimal_to_double (recipe->per_guest),
    .allowance = fraction (recipe->allowance),
    .minutes = cro_decimal_to_double (recipe->active_minutes),
    .first_line = self->figures->graph.first[row],
    .n_lines = self->figures->graph.first[row + 1] - self->figures->graph.first[row],
    .labour = self->figures->labour[row],
  };
  take_costs (self, row, plate->cost);
  take_figure (self, &figure, recipe->price, recipe->tax, recipe->target, &plate->figure);
  cro_office_known_of_plate (self, row, plate->figure.known);
}

static void
get_menu (gpointer         data,
          guint32          index,
          CroWorkbookMenu *menu)
{
  CroOffice *self = data;
  guint32 slot = cro_office_slot (self->menus, index);
  const CroMenu *of = cro_model_menu (self->model, slot);
  CroFigure figure = cro_figure_of_menu (self->figures, slot);

  menu->name = of->name;
  menu->first_entry = self->first_entry[index];
  menu->n_entries = self->first_entry[index + 1] - self->first_entry[index];
  menu->cheapest = figure.cheapest;
  menu->dearest = figure.dearest;
  menu->known_cheapest = cro_office_known (cro_known_of_cheapest (&figure));
  menu->known_dearest = cro_office_known (cro_known_of_dearest (&figure));
  take_figure (self, &figure, of->price, of->tax, of->target, &menu->figure);
  cro_office_known_of_menu (self, index, menu->figure.known);
}

static void
get_entry (gpointer          data,
           guint32           index,
           CroWorkbookEntry *entry)
{
  CroOffice *self = data;
  const CroMenuPlate *of = &g_array_index (self->model->menu_plates, CroMenuPlate,
                                           cro_office_slot (self->entries, index));

  entry->plate = self->number_of_row[cro_figures_row (self->figures, of->plate)];
  entry->servings = cro_decimal_to_double (of->servings);
  entry->choice = of->choice;
  entry->share = of->share != CRO_NOT_SET ? fraction (of->share) : NAN;
  entry->part = cro_menu_share (self->model, of);
}

/* --- Texts -------------------------------------------------------------------------------------------------- */

static char *
dup_missing_of_batch (CroOffice *self,
                      guint32    row)
{
  CroFigures *figures = self->figures;
  CroFigure figure = { .has_credit = (figures->row_bits[row] & CRO_REACH_CREDIT) != 0 };
  g_autoptr (GArray) causes = NULL;

  if (!(figures->row_bits[row] & CRO_REACH_INCOMPLETE))
    return NULL;
  cro_dirty_add_row (figures->seen_rows, row);
  causes = cro_causes_below (figures);
  cro_figures_forget_seen (figures);
  return cro_words_missing (&figure, causes);
}

static GArray *
dup_unserved (CroOffice       *self,
              CroWorkbookKind  kind,
              guint32          index)
{
  CroFigures *figures = self->figures;

  if (kind == CRO_WORKBOOK_BATCH)
    return cro_unserved_of_batch (figures, figures->graph.slot_of_row[cro_office_slot (self->batches,
                                                                                       index)]);
  if (kind == CRO_WORKBOOK_PLATE)
    return cro_unserved_of_plate (figures, cro_office_slot (self->plates, index));
  return cro_unserved_of_menu (figures, cro_office_slot (self->menus, index));
}

/* By name, as causes have it; among those that are bought. */
static gboolean
find_ingredient (CroOffice  *self,
                 const char *name,
                 guint32    *number)
{
  gpointer found;

  if (self->number_of_name == NULL)
    {
      self->number_of_name = g_hash_table_new (g_str_hash, g_str_equal);
      for (guint32 i = 0; i < self->ingredients->len; i++)
        g_hash_table_insert (
            self->number_of_name,
            (gpointer) cro_model_item (self->model, cro_office_slot (self->ingredients, i))->name,
            GUINT_TO_POINTER (i + 1));
    }
  found = g_hash_table_lookup (self->number_of_name, name);
  *number = GPOINTER_TO_UINT (found) - 1;
  return found != NULL;
}

static GArray *
causes_of (CroOffice       *self,
           CroWorkbookKind  kind,
           guint32          index)
{
  return kind == CRO_WORKBOOK_PLATE
             ? cro_causes_of_plate (self->figures, cro_office_slot (self->plates, index))
             : cro_causes_of_menu (self->figures, cro_office_slot (self->menus, index));
}

static guint
list_unpriced (gpointer         data,
               CroWorkbookKind  kind,
               guint32          index,
               guint32         *ingredients,
               guint            most)
{
  CroOffice *self = data;
  g_autoptr (GArray) causes = causes_of (self, kind, index);

  for (guint i = 0; i < causes->len; i++)
    {
      const CroCause *cause = &g_array_index (causes, CroCause, i);

      if (i == most || cause->kind != CRO_CAUSE_PRICE
          || !find_ingredient (self, cause->name, &ingredients[i]))
        return 0;
    }
  return causes->len;
}

static char *
dup_missing (gpointer        data,
             CroWorkbookKind kind,
             guint32         index)
{
  CroOffice *self = data;
  g_autoptr (GArray) causes = NULL;
  CroFigure figure;

  if (kind == CRO_WORKBOOK_BATCH)
    return dup_missing_of_batch (self, cro_office_slot (self->batches, index));
  if (kind == CRO_WORKBOOK_PLATE)
    figure = cro_figure_of_plate (self->figures, cro_office_slot (self->plates, index));
  else
    figure = cro_figure_of_menu (self->figures, cro_office_slot (self->menus, index));
  if (!figure.is_incomplete)
    return NULL;
  causes = causes_of (self, kind, index);
  return cro_words_missing (&figure, causes);
}

/* What is missing, and what no plate pays: both are said where the office looks first. */
static char *
dup_remarks (gpointer        data,
             CroWorkbookKind kind,
             guint32         index)
{
  CroOffice *self = data;
  char *missing = dup_missing (data, kind, index);
  g_autoptr (GArray) unserved = dup_unserved (self, kind, index);
  g_autoptr (GString) text = g_string_new (missing);

  if (unserved->len == 0)
    return missing;
  g_free (missing);
  for (guint i = 0; i < unserved->len; i++)
    {
      g_autofree char *one
          = cro_words_unserved (self->model, &g_array_index (unserved, CroUnserved, i));

      g_string_append_printf (text, "%s%s", text->len > 0 ? _("; ") : "", one);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static guint64
bits_of_menu (CroOffice *self,
              guint32    index)
{
  gboolean is_empty = self->first_entry[index] == self->first_entry[index + 1];
  guint64 bits = is_empty ? CRO_REACH_INCOMPLETE : 0;

  for (guint32 i = self->first_entry[index]; i < self->first_entry[index + 1]; i++)
    {
      guint32 plate = g_array_index (self->model->menu_plates, CroMenuPlate,
                                     cro_office_slot (self->entries, i)).plate;

      bits |= self->figures->row_bits[cro_figures_row (self->figures, plate)];
    }
  return bits;
}

/* Whether a plate or menu says nothing of allergens because something below is empty. */
static gboolean
lacks_contents (CroOffice       *self,
                CroWorkbookKind  kind,
                guint32          index,
                guint64          bits)
{
  g_autoptr (GArray) causes = NULL;

  if (kind == CRO_WORKBOOK_INGREDIENT || bits & CRO_ALLERGENS_ALL || !(bits & CRO_REACH_INCOMPLETE))
    return FALSE;
  causes = causes_of (self, kind, index);
  return cro_causes_lack_contents (causes);
}

static char *
dup_allergens (gpointer        data,
               CroWorkbookKind kind,
               guint32         index)
{
  CroOffice *self = data;
  guint64 bits;

  if (kind == CRO_WORKBOOK_INGREDIENT)
    bits = self->figures->own_node_bits[cro_figures_node (self->figures,
                                                          cro_office_slot (self->ingredients, index))];
  else if (kind == CRO_WORKBOOK_PLATE)
    bits = self->figures->row_bits[cro_figures_row (self->figures, cro_office_slot (self->plates, index))];
  else
    bits = bits_of_menu (self, index);
  if (lacks_contents (self, kind, index, bits))
    return cro_office_dup_allergens (bits | CRO_ALLERGENS_NOT_KNOWN, TRUE);
  return cro_office_dup_allergens (bits, kind == CRO_WORKBOOK_INGREDIENT);
}

/* --- All of them ------------------------------------------------------------------------------------------- */

void
cro_office_serve (CroOffice         *self,
                  CroWorkbookSource *source)
{
  source->data = self;
  source->get_rate = get_rate;
  source->get_ingredient = get_ingredient;
  source->get_offer = get_offer;
  source->get_price = get_price;
  source->get_batch = get_batch;
  source->get_output = get_output;
  source->get_line = get_line;
  source->get_plate = get_plate;
  source->get_menu = get_menu;
  source->get_entry = get_entry;
  source->dup_missing = dup_remarks;
  source->list_unpriced = list_unpriced;
  source->dup_allergens = dup_allergens;
}
