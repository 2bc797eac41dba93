/* How money and weight flow through a plate: nothing is counted twice or lost on the way, and what was
 * bought makes what the breakdown says it makes. */
#include "cro-breakdown.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-effects.h"
#include "cro-flow-figures.h"
#include "cro-flow-others.h"
#include "cro-flow-words.h"
#include "cro-load.h"
#include "cro-quick.h"
#include "support/kitchen-book.h"
#include "support/kitchen-random.h"

#include <math.h>

#include "places.h"

/* Of eleven things each; 1,500 take minutes. */
#define N_BOOKS CRO_TEST_N_BOOKS (200)
#define MOST_PREPARATIONS 6

/* A menu of two servings of a plate and one of another, and what random rows leave out. */
#define MENU                                                                                        \
  "INSERT INTO thing VALUES (90, 'menu'); INSERT INTO menu (id) VALUES (90);"                       \
  "INSERT INTO menu_plate (menu, plate, servings_micro) VALUES (90, 1, 2000000), (90, 2, 1000000);"     \
  "UPDATE plate SET allowance_pct_micro = 3000000 WHERE id % 2 = 1;"                            \
  "UPDATE output SET lost_pct_micro = 10000000 WHERE id % 3 = 0;"

typedef struct
{
  guint n_nodes[CRO_FLOW_SEASONING + 1];
  guint n_weighed;
} Seen;

static CroFlowNode *
node_at (const CroFlow *flow,
         guint          i)
{
  return &g_array_index (flow->nodes, CroFlowNode, i);
}

/* What comes into every node is what goes out of it. */
static void
expect_conserved (const CroFlow *flow,
                  const char    *name,
                  Seen          *seen)
{
  guint n = flow->nodes->len;
  g_autofree double *money = g_new0 (double, n);
  g_autofree double *grams = g_new0 (double, n);
  g_autofree double *size = g_new0 (double, n);
  g_autofree double *mass = g_new0 (double, n);

  for (guint i = 0; i < flow->links->len; i++)
    {
      const CroFlowLink *link = &g_array_index (flow->links, CroFlowLink, i);
      double into_nearer = cro_flow_leaves (node_at (flow, link->farther)->kind) ? -1 : 1;

      money[link->nearer] += into_nearer * link->money;
      grams[link->nearer] += into_nearer * link->grams;
      money[link->farther] -= into_nearer * link->money;
      grams[link->farther] -= into_nearer * link->grams;
      size[link->nearer] += fabs (link->money);
      size[link->farther] += fabs (link->money);
      mass[link->nearer] += fabs (link->grams);
      mass[link->farther] += fabs (link->grams);
    }
  for (guint i = 0; i < n; i++)
    {
      const CroFlowNode *node = node_at (flow, i);
      double sign = cro_flow_leaves (node->kind) ? -1 : 1;

      seen->n_nodes[node->kind]++;
      if (node->kind == CRO_FLOW_THING)
        continue;
      /* Ends: what they give or take is what they say; of what was bought part may be trimmed. */
      if (node->kind > CRO_FLOW_MADE)
        {
          money[i] += sign * node->money;
          grams[i] += sign * node->grams;
        }
      if (fabs (money[i]) > 1e-9 * (size[i] + fabs (node->money)))
        fail_msg ("%s: node %u of kind %d keeps %g of %g", name, i, node->kind, money[i], size[i]);
      if (node->is_weighed && node->kind != CRO_FLOW_PLATE
          && fabs (grams[i]) > 1e-7 * (mass[i] + fabs (node->grams)))
        fail_msg ("%s: node %u of kind %d keeps %g g of %g", name, i, node->kind, grams[i], mass[i]);
      seen->n_weighed += node->is_weighed;
    }
}

static double
bought (const CroFlow *flow,
        guint32        item,
        double        *grams)
{
  double money = 0;

  *grams = 0;
  for (guint i = 0; i < flow->nodes->len; i++)
    if (node_at (flow, i)->kind == CRO_FLOW_BOUGHT && node_at (flow, i)->slot == item)
      {
        money += node_at (flow, i)->money;
        *grams = node_at (flow, i)->is_weighed ? node_at (flow, i)->grams : NAN;
      }
  return money;
}

static void
expect_breakdown (CroFigures    *figures,
                  const CroFlow *flow,
                  CroBreakdown  *breakdown)
{
  const CroFigure *figure = &breakdown->figure;
  double from_elsewhere = 0, values = 0, size = fabs (figure->cost), grams;

  for (guint i = 0; i < breakdown->ingredients->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (breakdown->ingredients, CroShareOfCost, i);
      const CroMeasure *measure = &figures->model->measures[share->item];
      double money = bought (flow, share->item, &grams);
      double weight = share->quantity * measure->grams[measure->base];

      size += fabs (share->cost);
      if (fabs (money - share->cost) > 1e-9 * (fabs (share->cost) + 1e-9 * size))
        fail_msg ("%s: %g of an ingredient flows, %g is charged", figure->name, money, share->cost);
      if (!isnan (grams) && fabs (grams - weight) > 1e-9 * (grams + weight))
        fail_msg ("%s: %g g of an ingredient flow, %g are charged", figure->name, grams, weight);
    }
  for (guint i = 0; i < breakdown->by_products->len; i++)
    values += g_array_index (breakdown->by_products, CroShareOfCost, i).cost;
  for (guint i = 0; i < flow->nodes->len; i++)
    if (node_at (flow, i)->kind == CRO_FLOW_ELSEWHERE)
      from_elsewhere += node_at (flow, i)->money;
    else if (node_at (flow, i)->kind == CRO_FLOW_TO_OTHERS)
      from_elsewhere -= node_at (flow, i)->money;
  if (fabs (values - from_elsewhere) > 1e-9 * (size + fabs (values)))
    fail_msg ("%s: assigned values %g, flows %g", figure->name, values, from_elsewhere);
  if (fabs (node_at (flow, 0)->money - figure->cost) > 1e-9 * size)
    fail_msg ("%s: %g flows into what costs %g", figure->name, node_at (flow, 0)->money, figure->cost);
}

static void
test_nothing_is_lost (void **state)
{
  Seen seen = { { 0 }, 0 };

  for (guint32 seed = 0; seed < N_BOOKS; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autofree char *recipes = cro_test_random_rows (rand);
      g_autofree char *rows = g_strconcat (recipes, MENU, NULL);
      CroTestFolder folder;
      g_autoptr (CroBook) book = cro_test_book_with (&folder, rows);
      CroFigures *figures = cro_book_get_figures (book);
      CroModel *model = cro_book_get_model (book);
      guint32 menu = cro_slots_get (&model->menu_slots, 90);
      guint n_preparations = 0;

      for (guint32 i = 0; i <= model->recipes->len; i++)
        {
          gboolean is_menu = i == model->recipes->len;
          CroRef thing = is_menu ? CRO_REF (CRO_REF_MENU, menu) : CRO_REF (CRO_REF_RECIPE, i);
          gboolean is_plate = !is_menu && cro_model_recipe (model, i)->is_plate;
          g_autoptr (CroFlow) flow = NULL;

          if (!is_menu && !is_plate && n_preparations++ >= MOST_PREPARATIONS)
            continue;
          flow = cro_flow_new (figures, thing);
          expect_conserved (flow, is_menu ? "menu" : cro_model_recipe (model, i)->name, &seen);
          if (is_menu || is_plate)
            {
              g_autoptr (CroBreakdown) breakdown = is_menu ? cro_breakdown_of_menu (figures, menu)
                                                           : cro_breakdown_of_plate (figures, i);

              expect_breakdown (figures, flow, breakdown);
            }
          else if (fabs (node_at (flow, 0)->money
                         - figures->layers[CRO_LAYER_FOOD].row_cost[cro_figures_row (figures, i)])
                   > 1e-9 * fabs (node_at (flow, 0)->money))
            fail_msg ("a batch costs what flows into it");
        }
      g_clear_object (&book);
      cro_test_folder_clear (&folder);
    }
  for (int i = 0; i <= CRO_FLOW_SEASONING; i++)
    if (seen.n_nodes[i] < 10)
      fail_msg ("enough nodes of kind %d were seen to mean something: %u", i, seen.n_nodes[i]);
  assert_true (seen.n_weighed > 50 * N_BOOKS);
}

/* All that was bought once, and from elsewhere nothing but by-products: rounding is no end of its own. */
static void
test_ingredients_are_counted_once (void **state)
{
  static const struct { const char *plate; guint n_elsewhere; } wanted[] = {
    { "Crab croustade", 1 }, /* egg white, of which the yolks leave less than the cups take */
    { "Grey mullet, beurre blanc and samphire", 0 },
  };
  CroTestFolder folder = cro_test_folder_new ();
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;
  CroModel *model;
  GError *error = NULL;

  cro_test_must (cro_load (folder.path, CRO_SOURCE_DIR "/data/demo", "desk", "demo", FALSE, NULL, NULL, faults, &error),
                 error);
  book = cro_test_book_open (folder.path, "desk");
  model = cro_book_get_model (book);
  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    for (guint k = 0; k < G_N_ELEMENTS (wanted); k++)
      {
        g_autoptr (CroFlow) flow = NULL;
        g_autoptr (CroBreakdown) breakdown = NULL;
        guint n[CRO_FLOW_SEASONING + 1] = { 0 };

        if (g_strcmp0 (cro_model_recipe (model, slot)->name, wanted[k].plate) != 0)
          continue;
        flow = cro_flow_new (cro_book_get_figures (book), CRO_REF (CRO_REF_RECIPE, slot));
        breakdown = cro_breakdown_of_plate (cro_book_get_figures (book), slot);
        for (guint i = 0; i < flow->nodes->len; i++)
          n[node_at (flow, i)->kind]++;
        assert_int_equal (n[CRO_FLOW_BOUGHT], breakdown->ingredients->len);
        assert_int_equal (n[CRO_FLOW_ELSEWHERE], wanted[k].n_elsewhere);
      }
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

/* A piece of what has no weight is not known: neither a by-product of somebody else's batch nor for nothing. */
static void
test_a_main_output_without_a_weight_is_not_known (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;
  g_autoptr (CroFlow) flow = NULL;
  g_autoptr (GArray) lines = NULL;
  g_autofree char *text = NULL;
  CroCell each = CRO_CELL_STR ("each");
  CroFlowShown shown = { .measure = CRO_FLOW_MONEY };
  PangoFontDescription *font = pango_font_description_from_string ("Sans 11px");
  const CroStreamLook look = { .font = font };
  CroStream *stream;
  CroModel *model;
  CroRef yolk, cream;
  guint n = 0;
  GError *error = NULL;

  cro_test_must (cro_load (folder.path, CRO_SOURCE_DIR "/data/demo", "desk", "demo", FALSE, NULL, NULL, faults, &error),
                 error);
  book = cro_test_book_open (folder.path, "desk");
  model = cro_book_get_model (book);
  yolk = cro_edit_find_name (model, CRO_NAMES_ITEMS, "Egg yolk");
  cream = cro_edit_find_name (model, CRO_NAMES_PREPARATIONS, "Brown crab cream");
  lines = cro_edit_list_lines (cro_book_get_figures (book), cream.slot);
  for (guint i = 0; i < lines->len; i++)
    if (model->lines.item[g_array_index (lines, guint32, i)] == yolk.slot)
      cro_test_must (cro_book_set (book, "a", "recipe_line", model->line_ids[g_array_index (lines, guint32, i)], "unit",
                                   &each, &error), error);
  flow = cro_flow_new (cro_book_get_figures (book), cream);
  shown.flow = flow;
  shown.model = model;
  for (guint i = 0; i < flow->nodes->len; i++)
    if (node_at (flow, i)->kind == CRO_FLOW_BOUGHT && node_at (flow, i)->slot == yolk.slot)
      {
        n++;
        assert_true (node_at (flow, i)->is_missing);
        text = cro_flow_node_text (&shown, i);
        assert_string_equal (text, "?");
      }
  assert_int_equal (n, 1);
  /* It stands among what was bought, and nobody buys it. */
  stream = cro_flow_stream_new (cro_book_get_figures (book), cream, CRO_FLOW_MONEY, NULL);
  cro_stream_arrange (stream, &look, 760, 430);
  assert_string_equal (cro_stream_get_place (stream, cro_stream_find (stream, cro_flow_id (CRO_FLOW_BOUGHT, yolk.slot)))
                           .name,
                       "Egg yolk, made");
  cro_stream_free (stream);
  pango_font_description_free (font);
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

/* 200 g of it are known, 3 pieces of it are not: it is at least the 200 g. */
static void
test_a_line_that_cannot_be_counted_leaves_the_other_at_least (void **state)
{
  static const char *const texts[] = { "200 g Dulse crisps 20/kg", "3 Dulse crisps" };
  CroTestFolder folder = cro_test_folder_new ();
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;
  g_autofree char *says = NULL;
  CroRef plate = { .kind = CRO_REF_RECIPE };
  GError *error = NULL;

  cro_test_must (cro_load (folder.path, CRO_SOURCE_DIR "/data/demo", "desk", "demo", FALSE, NULL, NULL, faults, &error),
                 error);
  book = cro_test_book_open (folder.path, "desk");
  cro_test_must (cro_edit_add_plate (book, "a", "Crisps", CRO_MICRO, &plate.slot, &error), error);
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *left = NULL;
      guint32 item;
      guint n_placed;

      cro_test_must (cro_quick_place (book, "a", plate.slot, CRO_NO_SLOT, texts[i], NULL, "Market", CRO_TEST_DAY,
                                      CRO_QUICK_MAKE_PRICED, &left, &n_placed, &item, &error), error);
      assert_int_equal (n_placed, 1);
    }
  says = cro_words_made_of (cro_book_get_figures (book), plate, CRO_FLOW_MONEY);
  assert_string_equal (says, "Dulse crisps is at\302\240least\302\2404.00 of at least 4.00");
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

/* Of several ends that are drawn as one: where nothing is shown of a sum that is not all known, nobody knows it. */
static const struct
{
  const char     *says;
  CroFlowMeasure  measure;
  gint64          minor;
  double          width;
  CroKnown        known;
  const char     *figure;
} others[] = {
  { "money of what has no price", CRO_FLOW_MONEY, 0, 0, CRO_KNOWN_AT_LEAST, "?" },
  { "money beside less than the least", CRO_FLOW_MONEY, 0, 0.004, CRO_KNOWN_AT_LEAST, "?" },
  { "money beside some that is known", CRO_FLOW_MONEY, 5, 0.05, CRO_KNOWN_AT_LEAST, "≥ 0.05" },
  { "money of what costs nothing", CRO_FLOW_MONEY, 0, 0, CRO_KNOWN_WHOLE, "0.00" },
  { "weight of what is not weighed", CRO_FLOW_WEIGHT, 0, 0, CRO_KNOWN_AT_LEAST, "?" },
};

static void
test_others_of_which_nothing_is_known (void **state)
{
  const guint64 ids[] = { cro_flow_id (CRO_FLOW_BOUGHT, 1), cro_flow_id (CRO_FLOW_BOUGHT, 2) };

  for (gsize i = 0; i < G_N_ELEMENTS (others); i++)
    {
      CroFlowOthers *of = cro_flow_others_new (others[i].measure, 2);
      g_autofree char *name = NULL, *figure = NULL;
      gint64 none = 0;

      cro_flow_others_note (of, ids[0], others[i].width, &others[i].minor, CRO_KNOWN_WHOLE);
      cro_flow_others_note (of, ids[1], 0, &none, others[i].known);
      cro_flow_others_tell (ids, G_N_ELEMENTS (ids), &name, &figure, of);
      cro_test_same (others[i].says, others[i].figure, figure);
      cro_flow_others_free (of);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_a_main_output_without_a_weight_is_not_known),
                                      cmocka_unit_test (test_ingredients_are_counted_once),
                                      cmocka_unit_test (test_others_of_which_nothing_is_known),
                                      cmocka_unit_test (test_a_line_that_cannot_be_counted_leaves_the_other_at_least),
                                      cmocka_unit_test (test_nothing_is_lost) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
