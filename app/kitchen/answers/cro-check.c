#include "cro-check.h"

#include <math.h>
#include <string.h>

#include "cro-breakdown.h"
#include "cro-finite.h"
#include "cro-frozen-hash.h"
#include "cro-many.h"

/* A sum may differ from what it must be by rounding only, relative to its terms. */
#define NOISE 1e-11

/* Ingredients whose price is moved to see that what is recomputed equals a sweep. */
#define MOVED_PRICES 64

typedef struct
{
  CroBook        *book;
  CroFigures     *figures;
  CroModel       *model;
  CroCheckFound   found;
  gpointer        user_data;
  CroCheckReport *report;

  /* Plates and menus that are broken down, several at a time. */
  GArray         *sold;            /* Sold */
  CroBreakdown   *breakdowns[CRO_MANY_SLOTS];
} Check;

typedef struct
{
  gboolean is_menu;
  guint32  slot;
} Sold;

static void
try (Check        *check,
     CroCheckKind  kind,
     gboolean      holds,
     const char   *what)
{
  check->report->tried[kind]++;
  if (holds)
    return;
  check->report->found[kind]++;
  check->found (kind, what, check->user_data);
}

/* terms: the sum of what was added up, without its signs. */
static gboolean
nearly (double a,
        double b,
        double terms)
{
  return fabs (a - b) <= NOISE * MAX (terms, MAX (fabs (a), fabs (b)));
}

/* No sum: it is told once where costs begin to be so large. */
static gboolean
is_beyond (Check  *check,
           double  sum)
{
  return check->report->too_large != NULL && !isfinite (sum);
}

static void
try_sum (Check        *check,
         CroCheckKind  kind,
         double        a,
         double        b,
         double        terms,
         const char   *what)
{
  if (is_beyond (check, a + b + terms))
    check->report->passed[kind]++;
  else
    try (check, kind, nearly (a, b, terms), what);
}

typedef struct
{
  CroFindingTold  told;
  gpointer        user_data;
  CroCheckReport *report;
} InFile;

static void
found_in_file (const CroFinding *finding,
               gpointer          user_data)
{
  InFile *self = user_data;

  self->report->found[CRO_CHECK_FILE]++;
  self->told (finding, self->user_data);
}

gboolean
cro_check_file (CroStore        *store,
                CroFindingTold   told,
                gpointer         user_data,
                CroCheckReport  *report,
                GError         **error)
{
  InFile check = { told, user_data, report };

  report->tried[CRO_CHECK_FILE]++;
  return cro_store_find (store, found_in_file, &check, error);
}

/* --- What stands in the tables ------------------------------------------------------------------- */

static void
check_items (Check *check)
{
  for (guint32 i = 0; i < check->model->items->len; i++)
    {
      const CroItem *item = cro_model_item (check->model, i);

      if (!item->is_dead)
        try (check, CRO_CHECK_NAMES,
             item->name != NULL
                 && (check->model->maker[i] >= 0 || check->model->measures[i].is_bought),
             item->name != NULL ? item->name : "?");
    }
}

static void
check_main_outputs (Check *check)
{
  for (guint32 r = 0; r < check->model->recipes->len; r++)
    {
      const CroRecipe *recipe = cro_model_recipe (check->model, r);
      const guint32 *outputs;
      guint32 n, mains = 0;

      if (recipe->is_dead || recipe->is_plate)
        continue;
      n = cro_figures_outputs (check->figures, r, &outputs);
      for (guint32 i = 0; i < n; i++)
        mains += cro_model_item (check->model, outputs[i])->is_main ? 1 : 0;
      try (check, CRO_CHECK_MAIN_OUTPUT, mains == 1, recipe->name);
    }
}

/* --- Money ------------------------------------------------------------------------------------------ */

static void
check_batch (Check   *check,
             guint32  recipe)
{
  CroFigures *figures = check->figures;
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, recipe, &outputs);
  guint32 row = cro_figures_row (figures, recipe);
  gboolean conserved = TRUE, beyond = FALSE;

  for (guint32 i = 0; i < n; i++)
    if (!cro_model_item (check->model, outputs[i])->output.is_known
        || cro_model_item (check->model, outputs[i])->output.lacks != CRO_OUTPUT_SOUND)
      return;
  for (int k = 0; k < CRO_N_LAYERS; k++)
    {
      double sum = 0, terms = 0;

      for (guint32 i = 0; i < n; i++)
        {
          double cost = figures->layers[k].unit_cost[cro_figures_node (figures, outputs[i])]
                        * cro_model_item (check->model, outputs[i])->output.used;

          sum += cost;
          terms += fabs (cost);
        }
      conserved &= nearly (sum, figures->layers[k].row_cost[row], terms);
      beyond |= is_beyond (check, sum + figures->layers[k].row_cost[row]);
    }
  if (beyond)
    check->report->passed[CRO_CHECK_MONEY]++;
  else
    try (check, CRO_CHECK_MONEY, conserved, cro_model_recipe (check->model, recipe)->name);
}

static void
check_breakdown (Check        *check,
                 CroBreakdown *breakdown)
{
  const CroFigure *figure = &breakdown->figure;
  double target = figure->target_pct / 100 * figure->net_price;
  double sum = 0, terms = 0;

  for (guint i = 0; i < breakdown->by_products->len; i++)
    {
      double cost = g_array_index (breakdown->by_products, CroShareOfCost, i).cost;

      sum += cost;
      terms += fabs (cost);
    }
  for (guint i = 0; i < breakdown->ingredients->len; i++)
    {
      double cost = g_array_index (breakdown->ingredients, CroShareOfCost, i).cost;

      sum += cost;
      terms += fabs (cost);
    }
  try_sum (check, CRO_CHECK_ATTRIBUTION, sum, figure->cost, terms, figure->name);

  for (guint i = 0; i < breakdown->ingredients->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (breakdown->ingredients, CroShareOfCost, i);

      if (!isnan (share->ceiling))
        try_sum (check, CRO_CHECK_CEILING, figure->cost + (share->ceiling - share->unit_cost) * share->quantity,
                 target, fabs (share->ceiling * share->quantity) + terms, figure->name);
    }
}

/* All plates at once: what they cost is what all ingredients and credits come to. */
static void
check_effects (Check *check)
{
  CroFigures *figures = check->figures;
  const CroGraph *graph = &figures->graph;
  const CroLayer *food = &figures->layers[CRO_LAYER_FOOD];
  g_autofree double *weight = g_new0 (double, graph->n_rows + 1);
  g_autofree double *row_effect = g_new (double, graph->n_rows + 1);
  g_autofree double *effect = g_new (double, graph->n_items + 1);
  double cost = 0, sum = 0, terms = 0;

  for (guint32 row = 0; row < graph->n_rows; row++)
    if (cro_model_recipe (check->model, graph->slot_of_row[row])->is_plate)
      {
        weight[row] = 1;
        cost += food->row_cost[row];
      }
  cro_sweep_back (graph, figures->share, weight, row_effect, effect);
  for (guint32 node = 0; node < graph->n_items; node++)
    {
      double term = effect[node]
                    * (node < graph->n_raws ? food->unit_cost[node] : figures->fixed[node]);

      sum += term;
      terms += fabs (term);
    }
  try_sum (check, CRO_CHECK_EFFECT, sum, cost, terms, NULL);
}

/* --- Bits --------------------------------------------------------------------------------------------- */

/* A layer of costs whose prices can be moved without anybody else seeing it, and another that is
 * swept from the ground up. */
typedef struct
{
  CroLayer  food;
  CroLayer  swept;
  guint64  *dirty;
} Trial;

static void
trial_init (Trial            *trial,
            const CroFigures *figures)
{
  const CroGraph *graph = &figures->graph;

  trial->food = trial->swept = figures->layers[CRO_LAYER_FOOD];
  trial->food.summed = trial->swept.summed = NULL;
  trial->food.unit_cost = g_memdup2 (trial->food.unit_cost,
                                     graph->n_items * sizeof *trial->food.unit_cost);
  trial->food.row_cost = g_memdup2 (trial->food.row_cost,
                                    graph->n_rows * sizeof *trial->food.row_cost);
  trial->swept.unit_cost = g_new0 (double, graph->n_items + 1);
  trial->swept.row_cost = g_new0 (double, graph->n_rows + 1);
  trial->dirty = g_new0 (guint64, cro_dirty_words (graph));
}

static void
trial_clear (Trial *trial)
{
  g_free (trial->food.unit_cost);
  g_free (trial->food.row_cost);
  g_free (trial->swept.unit_cost);
  g_free (trial->swept.row_cost);
  g_free (trial->dirty);
}

static gboolean
is_recomputed (Trial          *trial,
               const CroGraph *graph,
               guint32         node)
{
  CroLayer *food = &trial->food, *swept = &trial->swept;
  double before = food->unit_cost[node];
  gboolean is_same;
  gsize visited;

  food->unit_cost[node] = before * 1.1 + 0.01;
  memcpy (swept->unit_cost, food->unit_cost, graph->n_items * sizeof *swept->unit_cost);
  cro_sweep (graph, swept);
  visited = cro_dirty_add_users (graph, trial->dirty, node, 0);
  cro_sweep_dirty (graph, food, trial->dirty, visited);
  is_same = memcmp (swept->unit_cost, food->unit_cost, graph->n_items * sizeof *swept->unit_cost) == 0
            && memcmp (swept->row_cost, food->row_cost, graph->n_rows * sizeof *swept->row_cost) == 0;

  food->unit_cost[node] = before;
  visited = cro_dirty_add_users (graph, trial->dirty, node, 0);
  cro_sweep_dirty (graph, food, trial->dirty, visited);
  return is_same;
}

/* The prices that are moved, in as many parts as threads may have: each has its own trial. */
#define N_PARTS 4

typedef struct
{
  Check    *check;
  guint     n;
  guint32   step;    /* from one to the next, in nodes */
  gboolean *holds;
} MovedPrices;

static void
move_prices (CroFigures *figures,
             guint       part,
             guint       slot,
             gpointer    data)
{
  MovedPrices *moved = data;
  Trial trial;

  trial_init (&trial, figures);
  for (guint i = part * moved->n / N_PARTS; i < (part + 1) * moved->n / N_PARTS; i++)
    moved->holds[i] = is_recomputed (&trial, &figures->graph, i * moved->step);
  trial_clear (&trial);
}

static void
tell_prices (guint    part,
             guint    slot,
             gpointer data)
{
  MovedPrices *moved = data;
  Check *check = moved->check;

  for (guint i = part * moved->n / N_PARTS; i < (part + 1) * moved->n / N_PARTS; i++)
    try (check, CRO_CHECK_RECOMPUTED, moved->holds[i],
         cro_model_item (check->model, check->figures->graph.item_of_node[i * moved->step])->name);
}

static void
check_bits (Check *check)
{
  gsize n_raws = check->figures->graph.n_raws;
  MovedPrices moved = { .check = check, .step = (guint32) MAX (1, n_raws / MOVED_PRICES) };

  moved.n = (guint) ((n_raws + moved.step - 1) / moved.step);
  moved.holds = g_new0 (gboolean, moved.n + 1);
  cro_many_run (check->figures, N_PARTS, 0, move_prices, tell_prices, &moved);
  g_free (moved.holds);
}

/* --- All plates and menus ------------------------------------------------------------------------ */

static void
add_sold (Check    *check,
          gboolean  is_menu,
          guint32   slot)
{
  Sold sold = { is_menu, slot };

  g_array_append_val (check->sold, sold);
}

static void
break_down (CroFigures *figures,
            guint       index,
            guint       slot,
            gpointer    data)
{
  Check *check = data;
  const Sold *sold = &g_array_index (check->sold, Sold, index);

  check->breakdowns[slot] = sold->is_menu ? cro_breakdown_of_menu (figures, sold->slot)
                                          : cro_breakdown_of_plate (figures, sold->slot);
}

static void
check_next (guint    index,
            guint    slot,
            gpointer data)
{
  Check *check = data;

  check_breakdown (check, check->breakdowns[slot]);
  g_clear_pointer (&check->breakdowns[slot], cro_breakdown_free);
}

static void
check_sold (Check *check)
{
  check->sold = g_array_new (FALSE, FALSE, sizeof (Sold));
  for (guint32 r = 0; r < check->model->recipes->len; r++)
    if (!cro_model_recipe (check->model, r)->is_dead
        && cro_model_recipe (check->model, r)->is_plate)
      add_sold (check, FALSE, r);
  for (guint32 m = 0; m < check->model->menus->len; m++)
    if (!cro_model_menu (check->model, m)->is_dead)
      add_sold (check, TRUE, m);
  cro_many_run (check->figures, check->sold->len, 0, break_down, check_next, check);
  g_array_unref (check->sold);
}

void
cro_check_model (CroBook        *book,
                 CroCheckFound   found,
                 gpointer        user_data,
                 CroCheckReport *report)
{
  Check check = { .book = book, .figures = cro_book_get_figures (book),
                  .model = cro_book_get_model (book), .found = found, .user_data = user_data,
                  .report = report };

  report->too_large = cro_finite_find_first (check.figures, &report->n_more_too_large);
  check_items (&check);
  check_main_outputs (&check);
  for (guint32 r = 0; r < check.model->recipes->len; r++)
    {
      const CroRecipe *recipe = cro_model_recipe (check.model, r);

      if (!recipe->is_dead && !recipe->is_plate)
        check_batch (&check, r);
    }
  check_sold (&check);
  check_effects (&check);
  check_bits (&check);
}

/* --- Closed months ------------------------------------------------------------------------------- */

static void
found_changed (const char *month,
               gpointer    user_data)
{
  Check *check = user_data;

  check->report->found[CRO_CHECK_CLOSED]++;
  check->found (CRO_CHECK_CLOSED, month, check->user_data);
}

gboolean
cro_check_months (CroStore        *store,
                  CroCheckFound    found,
                  gpointer         user_data,
                  CroCheckReport  *report,
                  GError         **error)
{
  Check check = { .found = found, .user_data = user_data, .report = report };

  return cro_frozen_verify (store, found_changed, &check, &report->tried[CRO_CHECK_CLOSED], error);
}
