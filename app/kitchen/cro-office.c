#include "cro-office.h"

#include <math.h>
#include <string.h>

#include "cro-breakdown.h"
#include "cro-decimal.h"
#include "cro-mass.h"
#include "cro-number.h"
#include "cro-office-notes.h"
#include "cro-office-prices.h"
#include "cro-plate.h"
#include "cro-reach.h"
#include "cro-words.h"

/* What a workbook numbers, in the order of its sheets, and where it stands in the model. */
typedef struct
{
  CroBook         *book;
  CroModel        *model;
  CroFigures      *figures;
  GArray          *ingredients;    /* guint32: item slots by name */
  GArray          *outputs;        /* guint32: item slots, batch by batch */
  GArray          *batches;        /* guint32: rows of the graph, parts first */
  GArray          *plates;         /* guint32: recipe slots by name */
  GArray          *menus;          /* guint32: menu slots by name */
  GArray          *entries;        /* guint32: slots of menu_plates, menu by menu */
  GArray          *offers;         /* guint32: offer slots, ingredient by ingredient */
  guint32         *number_of_item; /* by slot */
  guint32         *number_of_row;  /* by row: of its batch or its plate */
  guint32         *first_offer;    /* by ingredient */
  guint32         *first_output;   /* by batch */
  guint32         *first_entry;    /* by menu */
  guint32         *number_of_offer; /* by slot */
  GPtrArray       *currencies;     /* const char *, sorted */
  CroOfficePrices  prices;
  CroOfficeGoOn    go_on;
  gpointer         user_data;
} Office;

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

static guint32
slot_at (GArray  *slots,
         guint32  index)
{
  return g_array_index (slots, guint32, index);
}

static CroWorkbookKnown
known_of (guint32 bits)
{
  if (!(bits & CRO_REACH_INCOMPLETE))
    return CRO_WORKBOOK_WHOLE;
  return bits & CRO_REACH_CREDIT ? CRO_WORKBOOK_INCOMPLETE : CRO_WORKBOOK_AT_LEAST;
}

/* --- What is bought --------------------------------------------------------------------------------- */

static void
get_rate (gpointer         data,
          guint32          index,
          CroWorkbookRate *rate)
{
  Office *self = data;
  const double *known;

  rate->currency = self->currencies->pdata[index];
  known = g_hash_table_lookup (self->model->rates, rate->currency);
  rate->rate = known != NULL ? *known : NAN;
}

/* Which offer counts: that in use, or until there is one the first that could be. */
static guint32
offer_that_counts (Office  *self,
                   guint32  slot)
{
  const CroItem *item = cro_model_item (self->model, slot);
  guint32 used = self->figures->offer_in_use[slot];

  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 offer = slot_at (self->model->offer_order, item->first_offer + i);
      const CroOffer *of = &cro_model_offer (self->model, offer)->offer;
      gboolean has_left = of->has_until && self->figures->date > of->until;

      if (used != CRO_NO_SLOT ? offer == used : !has_left)
        return i;
    }
  return CRO_WORKBOOK_NONE;
}

static void
get_ingredient (gpointer               data,
                guint32                index,
                CroWorkbookIngredient *ingredient)
{
  Office *self = data;
  guint32 slot = slot_at (self->ingredients, index);
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
rate_of (Office              *self,
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
  Office *self = data;
  guint32 slot = slot_at (self->offers, index);
  const CroOfferEntry *entry = cro_model_offer (self->model, slot);
  const CroOffer *of = &entry->offer;
  const CroMeasure *measure = &self->model->measures[entry->item];
  unsigned lacks = cro_offer_lacks (of, measure, self->figures->date);
  guint32 last = self->prices.first[index + 1];

  *offer = (CroWorkbookOffer){
    .supplier = g_array_index (self->model->suppliers, CroSupplier, entry->supplier).name,
    .code = entry->code,
    .pack_count = cro_decimal_to_double (of->pack_count),
    .pack_size = cro_decimal_to_double (of->pack_size),
    .unit = of->pack_unit,
    .factor = factor_of (measure, of->pack_unit),
    .net = of->net > 0 ? fraction (of->net) : 1,
    .rate = rate_of (self, entry),
    .price_row = last > self->prices.first[index] ? last - 1 : CRO_WORKBOOK_NONE,
    .exchange = of->rate,
    .price = of->has_price ? cro_decimal_to_double (of->price) : NAN,
    .tax = fraction (of->tax_included),
    .from = of->from,
    .content = cro_offer_pack (of, measure),
    .unit_cost = lacks == CRO_OFFER_PRICED ? cro_offer_unit_cost (of, measure) : NAN,
    .has_left = (lacks & CRO_OFFER_LEFT) != 0,
    .state = cro_office_offer_state (of, lacks, self->figures->offer_in_use[entry->item] == slot),
  };
}

static void
get_price (gpointer          data,
           guint32           index,
           CroWorkbookPrice *price)
{
  Office *self = data;
  guint32 number = cro_office_prices_offer (&self->prices, index);
  const CroOfferEntry *entry = cro_model_offer (self->model, slot_at (self->offers, number));
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
    .price = cro_decimal_to_double (of->price),
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
  Office *self = data;
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
}

/* The first row that takes an output of a batch. */
static void
find_use (Office           *self,
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

static void
get_batch (gpointer          data,
           guint32           index,
           CroWorkbookBatch *batch)
{
  Office *self = data;
  const CroGraph *graph = &self->figures->graph;
  guint32 row = slot_at (self->batches, index);
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
    .known = known_of (self->figures->row_bits[row]),
  };
  for (int layer = 0; layer < CRO_N_LAYERS; layer++)
    batch->cost[layer] = self->figures->layers[layer].row_cost[row];
  find_use (self, row, batch);
}

static void
get_output (gpointer           data,
            guint32            index,
            CroWorkbookOutput *output)
{
  Office *self = data;
  guint32 slot = slot_at (self->outputs, index);
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
    .finished = item->output.finished,
    .value_of_base = item->output.value_of_base,
    .share = item->output.share,
  };
  for (int layer = 0; layer < CRO_N_LAYERS; layer++)
    output->unit_cost[layer] = self->figures->layers[layer].unit_cost[node];
}

/* --- What is sold ---------------------------------------------------------------------------------------- */

static void
take_figure (Office            *self,
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
    .known = !of->is_incomplete ? CRO_WORKBOOK_WHOLE
             : of->has_credit   ? CRO_WORKBOOK_INCOMPLETE
                                : CRO_WORKBOOK_AT_LEAST,
  };
}

static void
get_plate (gpointer          data,
           guint32           index,
           CroWorkbookPlate *plate)
{
  Office *self = data;
  guint32 slot = slot_at (self->plates, index);
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
  for (int layer = 0; layer < CRO_N_LAYERS; layer++)
    plate->cost[layer] = self->figures->layers[layer].row_cost[row];
  take_figure (self, &figure, recipe->price, recipe->tax, recipe->target, &plate->figure);
}

static void
get_menu (gpointer         data,
          guint32          index,
          CroWorkbookMenu *menu)
{
  Office *self = data;
  guint32 slot = slot_at (self->menus, index);
  const CroMenu *of = cro_model_menu (self->model, slot);
  CroFigure figure = cro_figure_of_menu (self->figures, slot);

  menu->name = of->name;
  menu->first_entry = self->first_entry[index];
  menu->n_entries = self->first_entry[index + 1] - self->first_entry[index];
  take_figure (self, &figure, of->price, of->tax, of->target, &menu->figure);
}

static void
get_entry (gpointer          data,
           guint32           index,
           CroWorkbookEntry *entry)
{
  Office *self = data;
  const CroMenuPlate *of = &g_array_index (self->model->menu_plates, CroMenuPlate,
                                           slot_at (self->entries, index));

  entry->plate = self->number_of_row[cro_figures_row (self->figures, of->plate)];
  entry->servings = cro_decimal_to_double (of->servings);
}

/* --- Texts -------------------------------------------------------------------------------------------------- */

static char *
dup_missing_of_batch (Office  *self,
                      guint32  row)
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

static char *
dup_missing (gpointer         data,
             CroWorkbookKind  kind,
             guint32          index)
{
  Office *self = data;
  g_autoptr (GArray) causes = NULL;
  CroFigure figure;

  if (kind == CRO_WORKBOOK_BATCH)
    return dup_missing_of_batch (self, slot_at (self->batches, index));
  if (kind == CRO_WORKBOOK_PLATE)
    figure = cro_figure_of_plate (self->figures, slot_at (self->plates, index));
  else
    figure = cro_figure_of_menu (self->figures, slot_at (self->menus, index));
  if (!figure.is_incomplete)
    return NULL;
  causes = kind == CRO_WORKBOOK_PLATE
               ? cro_causes_of_plate (self->figures, slot_at (self->plates, index))
               : cro_causes_of_menu (self->figures, slot_at (self->menus, index));
  return cro_words_missing (&figure, causes);
}

static guint32
bits_of_menu (Office  *self,
              guint32  index)
{
  guint32 bits = 0;

  for (guint32 i = self->first_entry[index]; i < self->first_entry[index + 1]; i++)
    {
      guint32 plate = g_array_index (self->model->menu_plates, CroMenuPlate,
                                     slot_at (self->entries, i)).plate;

      bits |= self->figures->row_bits[cro_figures_row (self->figures, plate)];
    }
  return bits;
}

static char *
dup_allergens (gpointer         data,
               CroWorkbookKind  kind,
               guint32          index)
{
  Office *self = data;
  guint32 bits;

  if (kind == CRO_WORKBOOK_INGREDIENT)
    bits = self->figures->own_node_bits[cro_figures_node (self->figures,
                                                          slot_at (self->ingredients, index))];
  else if (kind == CRO_WORKBOOK_PLATE)
    bits = self->figures->row_bits[cro_figures_row (self->figures, slot_at (self->plates, index))];
  else
    bits = bits_of_menu (self, index);
  return cro_office_dup_allergens (bits, kind == CRO_WORKBOOK_INGREDIENT);
}

/* --- Numbering ------------------------------------------------------------------------------------------------ */

static int
compare_items (gconstpointer a,
               gconstpointer b,
               gpointer      data)
{
  CroModel *model = data;

  return strcmp (cro_model_item (model, *(const guint32 *) a)->name,
                 cro_model_item (model, *(const guint32 *) b)->name);
}

static int
compare_recipes (gconstpointer a,
                 gconstpointer b,
                 gpointer      data)
{
  CroModel *model = data;

  return strcmp (cro_model_recipe (model, *(const guint32 *) a)->name,
                 cro_model_recipe (model, *(const guint32 *) b)->name);
}

static int
compare_menus (gconstpointer a,
               gconstpointer b,
               gpointer      data)
{
  CroModel *model = data;

  return strcmp (cro_model_menu (model, *(const guint32 *) a)->name,
                 cro_model_menu (model, *(const guint32 *) b)->name);
}

static void
number_ingredients (Office *self)
{
  CroModel *model = self->model;

  for (guint32 i = 0; i < model->items->len; i++)
    if (!cro_model_item (model, i)->is_dead && model->measures[i].is_bought)
      g_array_append_val (self->ingredients, i);
  g_array_sort_with_data (self->ingredients, compare_items, model);

  self->first_offer = g_new (guint32, self->ingredients->len + 1);
  for (guint32 i = 0; i < self->ingredients->len; i++)
    {
      guint32 slot = slot_at (self->ingredients, i);
      const CroItem *item = cro_model_item (model, slot);

      self->number_of_item[slot] = i;
      self->first_offer[i] = self->offers->len;
      for (guint32 k = 0; k < item->n_offers; k++)
        {
          guint32 offer = slot_at (model->offer_order, item->first_offer + k);

          self->number_of_offer[offer] = self->offers->len;
          g_array_append_val (self->offers, offer);
        }
    }
}

static void
number_batches (Office *self)
{
  const CroGraph *graph = &self->figures->graph;

  self->first_output = g_new (guint32, graph->n_rows + 1);
  for (guint32 row = 0; row < graph->n_rows; row++)
    {
      guint32 slot = graph->slot_of_row[row];
      const CroRecipe *recipe = cro_model_recipe (self->model, slot);
      const guint32 *outputs;
      guint32 n = cro_figures_outputs (self->figures, slot, &outputs);

      if (recipe->is_dead || recipe->is_plate)
        continue;
      self->number_of_row[row] = self->batches->len;
      self->first_output[self->batches->len] = self->outputs->len;
      g_array_append_val (self->batches, row);
      for (guint32 k = 0; k < n; k++)
        {
          self->number_of_item[outputs[k]] = self->ingredients->len + self->outputs->len;
          g_array_append_val (self->outputs, outputs[k]);
        }
    }
}

static void
number_plates (Office *self)
{
  CroModel *model = self->model;

  for (guint32 i = 0; i < model->recipes->len; i++)
    if (cro_model_recipe (model, i)->is_plate && !cro_model_recipe (model, i)->is_dead)
      g_array_append_val (self->plates, i);
  g_array_sort_with_data (self->plates, compare_recipes, model);
  for (guint32 i = 0; i < self->plates->len; i++)
    self->number_of_row[cro_figures_row (self->figures, slot_at (self->plates, i))] = i;
}

static void
number_menus (Office *self)
{
  CroModel *model = self->model;

  for (guint32 i = 0; i < model->menus->len; i++)
    if (!cro_model_menu (model, i)->is_dead)
      g_array_append_val (self->menus, i);
  g_array_sort_with_data (self->menus, compare_menus, model);
  self->first_entry = g_new0 (guint32, self->menus->len + 1);
  for (guint32 i = 0; i < self->menus->len; i++)
    {
      g_autoptr (GPtrArray) plates = cro_menu_dup_plates (model, slot_at (self->menus, i));

      for (guint k = 0; k < plates->len; k++)
        {
          guint32 slot = (guint32) ((CroMenuPlate *) plates->pdata[k]
                                    - (CroMenuPlate *) (void *) model->menu_plates->data);

          g_array_append_val (self->entries, slot);
        }
      self->first_entry[i + 1] = self->entries->len;
    }
}

static int
compare_texts (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* Currencies of offers that are not the book's own. */
static void
number_currencies (Office *self)
{
  for (guint32 i = 0; i < self->offers->len; i++)
    {
      const char *currency = cro_model_offer (self->model, slot_at (self->offers, i))->currency;

      if (currency != NULL && g_strcmp0 (currency, self->model->currency) != 0
          && !g_ptr_array_find_with_equal_func (self->currencies, currency, g_str_equal, NULL))
        g_ptr_array_add (self->currencies, (gpointer) currency);
    }
  g_ptr_array_sort (self->currencies, compare_texts);
}

static void
office_init (Office  *self,
             CroBook *book)
{
  GArray **lists[] = { &self->ingredients, &self->outputs, &self->batches, &self->plates,
                       &self->menus,       &self->entries, &self->offers };

  *self = (Office){ .book = book };
  self->model = cro_book_get_model (book);
  self->figures = cro_book_get_figures (book);
  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    *lists[i] = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->currencies = g_ptr_array_new ();
  self->number_of_item = g_new0 (guint32, self->model->items->len + 1);
  self->number_of_row = g_new0 (guint32, self->model->recipes->len + 1);
  self->number_of_offer = g_new (guint32, self->model->offers->len + 1);
  memset (self->number_of_offer, 0xff, (self->model->offers->len + 1) * sizeof (guint32));
  number_ingredients (self);
  number_batches (self);
  number_plates (self);
  number_menus (self);
  number_currencies (self);
}

static void
office_clear (Office *self)
{
  GArray *lists[] = { self->ingredients, self->outputs, self->batches, self->plates,
                      self->menus,       self->entries, self->offers };

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    g_array_unref (lists[i]);
  g_ptr_array_unref (self->currencies);
  g_free (self->number_of_item);
  g_free (self->number_of_row);
  g_free (self->number_of_offer);
  g_free (self->first_offer);
  g_free (self->first_output);
  g_free (self->first_entry);
  cro_office_prices_clear (&self->prices);
}

/* --- The whole --------------------------------------------------------------------------------------------------- */

/* The guests' food cost of all plates together by another way than their cards': what each
 * purchase and each assigned value counts in it, times what it costs. */
static double
attributed (Office *self)
{
  CroFigures *figures = self->figures;
  const CroGraph *graph = &figures->graph;
  g_autofree double *weight = g_new0 (double, graph->n_rows + 1);
  g_autofree double *row_effect = g_new0 (double, graph->n_rows + 1);
  g_autofree double *effect = g_new0 (double, graph->n_items + 1);
  double sum = 0;

  for (guint32 i = 0; i < self->plates->len; i++)
    {
      const CroRecipe *recipe = cro_model_recipe (self->model, slot_at (self->plates, i));

      weight[cro_figures_row (figures, slot_at (self->plates, i))]
          = cro_plate_share (recipe->makes, recipe->per_guest, recipe->allowance);
    }
  cro_sweep_back (graph, figures->share, weight, row_effect, effect);
  for (guint32 node = 0; node < graph->n_items; node++)
    sum += effect[node] * (graph->made_by[node] == CRO_NO_ROW
                               ? figures->layers[CRO_LAYER_FOOD].unit_cost[node]
                               : figures->fixed[node]);
  return sum;
}

static guint32
n_lines_of_batches (Office *self)
{
  const CroGraph *graph = &self->figures->graph;
  guint32 n = 0;

  for (guint32 i = 0; i < self->batches->len; i++)
    {
      guint32 row = slot_at (self->batches, i);

      n += graph->first[row + 1] - graph->first[row];
    }
  return n;
}

static gboolean
ask_to_go_on (gpointer data,
              double   done)
{
  Office *self = data;

  return self->go_on == NULL || self->go_on (self->user_data, done);
}

static CroWorkbookBook
book_of (Office     *self,
         const char *name,
         gint64      created)
{
  const CroModel *model = self->model;

  return (CroWorkbookBook){
    .name = model->name != NULL ? model->name : name,
    .currency = model->currency,
    .digits = cro_currency_digits (model->currency),
    .date = self->figures->date,
    .created = created,
    .wage = model->wage_per_hour != CRO_NOT_SET ? cro_decimal_to_double (model->wage_per_hour)
                                                : NAN,
    .tax = fraction_or_nan (model->tax),
    .target = fraction_or_nan (model->target),
    .is_letter = cro_locale_uses_letter (),
  };
}

static gboolean
write_office (Office      *self,
              const char  *path,
              gint64       created,
              GError     **error)
{
  g_autofree char *name = g_path_get_basename (cro_store_get_path (cro_book_get_store (self->book)));
  g_autofree const char **texts = cro_office_dup_texts ();
  CroWorkbookSource source = {
    .book = book_of (self, name, created),
    .n_rates = self->currencies->len,
    .n_ingredients = self->ingredients->len,
    .n_offers = self->offers->len,
    .n_prices = self->prices.first[self->offers->len],
    .n_batches = self->batches->len,
    .n_outputs = self->outputs->len,
    .n_plates = self->plates->len,
    .n_menus = self->menus->len,
    .n_entries = self->entries->len,
    .n_lines = n_lines_of_batches (self),
    .attributed = attributed (self),
    .lacks_history = self->prices.in_force_only,
    .data = self,
    .get_rate = get_rate,
    .get_ingredient = get_ingredient,
    .get_offer = get_offer,
    .get_price = get_price,
    .get_batch = get_batch,
    .get_output = get_output,
    .get_line = get_line,
    .get_plate = get_plate,
    .get_menu = get_menu,
    .get_entry = get_entry,
    .dup_missing = dup_missing,
    .dup_allergens = dup_allergens,
    .go_on = ask_to_go_on,
  };

  return cro_workbook_write (path, &source, texts, error);
}

/* The history of prices is read in the same moment as what the figures are of. */
static gboolean
read_office (Office   *self,
             CroBook  *book,
             GError  **error)
{
  CroStore *store = cro_book_get_store (book);
  gboolean done;

  if (!cro_store_begin_read (store, error))
    return FALSE;
  done = cro_book_refresh (book, NULL, error);
  if (done)
    {
      office_init (self, book);
      done = cro_office_prices_load (&self->prices, store, self->model, self->figures->date,
                                     self->number_of_offer, self->offers->len, error);
      if (!done)
        office_clear (self);
    }
  cro_store_end_read (store);
  return done;
}

gboolean
cro_office_write (CroBook        *book,
                  const char     *path,
                  gint64          created,
                  CroOfficeGoOn   go_on,
                  gpointer        user_data,
                  GError        **error)
{
  Office self;
  gboolean done;

  if (!read_office (&self, book, error))
    return FALSE;
  self.go_on = go_on;
  self.user_data = user_data;
  done = write_office (&self, path, created, error);
  office_clear (&self);
  return done;
}
