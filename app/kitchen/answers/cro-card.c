#include "cro-card.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-landing.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-own-pack.h"
#include "cro-rule.h"

/* A price of a pack in so few minor units is written with so many digits. */
#define FEW 10
#define OF_CHEAP 3

/* The most that is a price. */
#define MOST_PRICE 1e12

/* Lines of a row that are still to be written: a stack of our own, as books may be deep. */
typedef struct
{
  guint32 row;
  guint32 next;        /* position of the next line */
  guint   depth;
  double  scale;       /* batches of the row that are taken */
  double  taken;       /* base units of its main output, for the credits; 0: none */
} Level;

typedef struct
{
  CroFigures *figures;
  GArray     *rows;
  GArray     *levels;
  GHashTable *unfolded;
} Card;

static double
cost_of_node (CroFigures *figures,
              guint32     node)
{
  return figures->layers[CRO_LAYER_FOOD].unit_cost[node]
         + figures->layers[CRO_LAYER_DISPOSABLES].unit_cost[node];
}

static double
amount_of_line (CroModel *model,
                guint32   line)
{
  double recovered = (double) model->lines.recovered[line] / (double) CRO_WHOLE_PCT;

  return cro_line_net (&model->lines, line, &model->measures[model->lines.item[line]])
         / (1 - recovered);
}

/* What is said of a by-product that does not share in its batch's cost. */
static unsigned
flags_of_by_product (const CroRecipe *recipe,
                     const CroItem   *item)
{
  if (item->is_main || cro_rule_shares ((CroRule) recipe->rule))
    return 0;
  return cro_rule_frees ((CroRule) recipe->rule) ? CRO_CARD_FREE : CRO_CARD_ASSIGNED;
}

static void
unfold (Card       *card,
        CroCardRow *row,
        double      quantity)
{
  CroFigures *figures = card->figures;
  CroModel *model = figures->model;
  const CroItem *item = cro_model_item (model, row->item);
  guint32 node = cro_figures_node (figures, row->item);
  guint32 recipe = (guint32) model->maker[row->item];
  Level level = { .row = cro_figures_row (figures, recipe), .depth = row->depth + 1 };

  row->flags |= flags_of_by_product (cro_model_recipe (model, recipe), item);
  /* A value of 0 bears nothing of its batch either: its lines would all stand at 0. */
  if (figures->share[node] == 0 && figures->fixed[node] == 0)
    row->flags |= CRO_CARD_FREE;
  if (row->flags != 0)
    return;
  if (!g_hash_table_add (card->unfolded, GUINT_TO_POINTER (recipe)))
    {
      row->flags |= CRO_CARD_AGAIN;
      return;
    }
  row->flags |= CRO_CARD_UNFOLDED;
  level.next = figures->graph.first[level.row];
  level.scale = quantity * figures->share[node];
  level.taken = cro_rule_credits ((CroRule) cro_model_recipe (model, recipe)->rule) ? quantity : 0;
  g_array_append_val (card->levels, level);
}

static void
write_line (Card    *card,
            guint32  position,
            guint    depth,
            double   scale)
{
  CroFigures *figures = card->figures;
  const CroGraph *graph = &figures->graph;
  CroModel *model = figures->model;
  guint32 line = graph->line_slot[position];
  guint32 node = graph->part[position];
  double quantity = scale * graph->quantity[position];
  CroCardRow row = {
    .depth = depth,
    .kind = CRO_CARD_LINE,
    .item = model->lines.item[line],
    .line = line,
    .amount = scale * amount_of_line (model, line),
    .cost = quantity * cost_of_node (figures, node),
  };

  if (isnan (cro_figures_unit_cost (figures, row.item))
      || cro_line_lacks (&model->lines, line, &model->measures[row.item]) != CRO_LACKS_NOTHING)
    row.flags |= CRO_CARD_UNKNOWN;
  else if (model->maker[row.item] >= 0)
    unfold (card, &row, quantity);
  g_array_append_val (card->rows, row);
}

/* What the main output is credited with, where it is taken. */
static void
write_credits (Card        *card,
               const Level *level)
{
  CroModel *model = card->figures->model;
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (card->figures, card->figures->graph.slot_of_row[level->row],
                                   &outputs);
  const CroOutput *main_output = &cro_model_item (model, outputs[0])->output;

  for (guint32 i = 1; i < n; i++)
    {
      const CroOutput *output = &cro_model_item (model, outputs[i])->output;
      CroCardRow row = {
        .depth = level->depth, .kind = CRO_CARD_CREDIT, .item = outputs[i], .line = CRO_NO_SLOT,
        .amount = level->taken * output->used / main_output->used,
      };

      row.cost = -row.amount * output->value_of_base;
      g_array_append_val (card->rows, row);
    }
}

static void
write_levels (Card *card)
{
  while (card->levels->len > 0)
    {
      Level *level = &g_array_index (card->levels, Level, card->levels->len - 1);

      if (level->next < card->figures->graph.first[level->row + 1])
        {
          guint32 position = level->next++;

          write_line (card, position, level->depth, level->scale);
          continue;
        }
      if (level->taken != 0)
        write_credits (card, level);
      g_array_set_size (card->levels, card->levels->len - 1);
    }
}

GArray *
cro_card_new (CroFigures *figures,
              guint32     plate)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, plate);
  guint32 row = cro_figures_row (figures, plate);
  Card card = { figures, g_array_new (FALSE, FALSE, sizeof (CroCardRow)),
                g_array_new (FALSE, FALSE, sizeof (Level)), g_hash_table_new (NULL, NULL) };
  Level top = { .row = row, .next = figures->graph.first[row], .scale = 1 };
  CroCardRow allowance = { .kind = CRO_CARD_ALLOWANCE, .item = CRO_NO_SLOT, .line = CRO_NO_SLOT };

  g_array_append_val (card.levels, top);
  write_levels (&card);
  if (recipe->allowance > 0)
    {
      allowance.cost = cro_landing_allowance (figures, plate);
      g_array_append_val (card.rows, allowance);
    }
  g_array_unref (card.levels);
  g_hash_table_unref (card.unfolded);
  return card.rows;
}

/* --- Rounding -------------------------------------------------------------------------------------- */

/* Splits a rounded total over the rows of one depth in [from, end). */
static void
split (GArray      *rows,
       const guint *members,
       guint        n,
       gint64       total,
       int          digits,
       gint64      *minor)
{
  g_autofree double *parts = g_new (double, n + 1);
  g_autofree gint64 *shares = g_new (gint64, n + 1);
  g_autofree guint64 *order = g_new (guint64, n + 1);

  for (guint i = 0; i < n; i++)
    parts[i] = g_array_index (rows, CroCardRow, members[i]).cost;
  cro_money_apportion (total, parts, n, digits, order, shares);
  for (guint i = 0; i < n; i++)
    minor[members[i]] = shares[i];
}

/* It is rounded to 0. */
#define BELOW_A_TENTH 0.04

double *
cro_card_dup_shares (GArray *rows,
                     double  total)
{
  double *shares = g_new0 (double, rows->len + 1);
  g_autofree double *parts = g_new0 (double, rows->len + 1);
  g_autofree guint64 *order = g_new (guint64, rows->len + 1);
  g_autofree gint64 *tenths = g_new0 (gint64, rows->len + 1);
  g_autofree guint *place = g_new (guint, rows->len + 1);
  guint n = 0;

  for (guint i = 0; i < rows->len; i++)
    {
      const CroCardRow *row = &g_array_index (rows, CroCardRow, i);

      shares[i] = NAN;
      if (row->depth > 0 || (row->flags & CRO_CARD_UNKNOWN) || !(total > 0))
        continue;
      place[n] = i;
      parts[n++] = 100 * row->cost / total;
    }
  cro_money_apportion (n > 0 ? 1000 : 0, parts, n, 1, order, tenths);
  for (guint i = 0; i < n; i++)
    /* Something that no tenth is left for is told as less than one, not as nothing. */
    shares[place[i]] = tenths[i] != 0 ? (double) tenths[i] / 10 : CLAMP (parts[i], -BELOW_A_TENTH, BELOW_A_TENTH);
  return shares;
}

gint64 *
cro_menu_dup_minor (CroFigures *figures,
                    guint32     menu)
{
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (figures->model, menu);
  guint n = plates->len;
  int digits = cro_currency_digits (figures->model->currency);
  g_autofree double *parts = g_new (double, n + 1);
  g_autofree guint64 *order = g_new (guint64, n + 1);
  gint64 *minor = g_new (gint64, n + 1);

  for (guint i = 0; i < n; i++)
    {
      const CroMenuPlate *entry = plates->pdata[i];

      parts[i] = cro_menu_taken (figures->model, entry)
                 * cro_figure_of_plate (figures, entry->plate).cost;
    }
  cro_money_apportion (cro_money_round (cro_figure_of_menu (figures, menu).cost, digits), parts, n,
                       digits, order, minor);
  return minor;
}

/* For each row the next one that does not stand under it: in a card 100,000 deep, looking for it
 * row by row from every row would never end. */
static guint *
dup_next (GArray *rows)
{
  guint *next = g_new (guint, rows->len + 1);

  for (guint i = rows->len; i-- > 0;)
    {
      guint depth = g_array_index (rows, CroCardRow, i).depth;

      next[i] = i + 1;
      while (next[i] < rows->len && g_array_index (rows, CroCardRow, next[i]).depth > depth)
        next[i] = next[next[i]];
    }
  return next;
}

gint64 *
cro_card_dup_minor (GArray *rows,
                    gint64  total,
                    int     digits)
{
  gint64 *minor = g_new0 (gint64, rows->len + 1);
  g_autoptr (GArray) members = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree guint *next = dup_next (rows);

  /* A row's total stands before the rows under it are reached; -1 is the card itself. */
  for (int parent = -1; parent < (int) rows->len; parent++)
    {
      const CroCardRow *row = parent >= 0 ? &g_array_index (rows, CroCardRow, parent) : NULL;
      guint end = row != NULL ? next[parent] : rows->len;

      if (row != NULL && !(row->flags & CRO_CARD_UNFOLDED))
        continue;
      g_array_set_size (members, 0);
      for (guint i = (guint) (parent + 1); i < end; i = next[i])
        g_array_append_val (members, i);
      if (members->len > 0)
        split (rows, (const guint *) members->data, members->len,
               row != NULL ? minor[parent] : total, digits, minor);
    }
  return minor;
}

/* --- Ceilings ----------------------------------------------------------------------------------------- */

/* What the ingredient would cost if the offer in use were not there. */
static double
next_offer (CroFigures *figures,
            guint32     slot)
{
  CroModel *model = figures->model;
  const CroItem *item = cro_model_item (model, slot);
  gboolean preferred = FALSE;
  double lowest = NAN;

  if (figures->offer_in_use[slot] != CRO_NO_SLOT)
    preferred = cro_model_offer (model, figures->offer_in_use[slot])->offer.is_preferred;
  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 other = g_array_index (model->offer_order, guint32, item->first_offer + i);
      const CroOffer *offer = &cro_model_offer (model, other)->offer;
      double cost;

      /* An offer that is not preferred does not take over from one that is. */
      if (other == figures->offer_in_use[slot] || offer->is_preferred < preferred
          || cro_offer_lacks (offer, &model->measures[slot], figures->date) != CRO_OFFER_PRICED)
        continue;
      cost = cro_offer_unit_cost (offer, &model->measures[slot]);
      if (isnan (lowest) || cost < lowest)
        lowest = cost;
    }
  return lowest;
}

/* A plate or a menu, whose target holds, and what of it cannot be counted (cro_known_list_uncounted). */
typedef struct
{
  CroFigures      *figures;
  const CroFigure *figure;
  const guint64   *uncounted;
} Holding;

/* A ceiling is what the others leave, whether or not this one has a price yet. Below 0 it is no bound where more is
 * taken than can be counted: the more there is, the nearer to 0 is what each would have to bring. */
static void
hold (CroCeiling           *ceiling,
      const CroShareOfCost *share,
      const Holding        *by)
{
  CroKnown of_cost = cro_known_of_cost (by->figure);
  guint32 node = cro_figures_node (by->figures, share->item);

  if (isnan (share->ceiling) || share->ceiling >= ceiling->unit_cost)
    return;
  ceiling->unit_cost = share->ceiling;
  ceiling->holder = by->figure->name;
  ceiling->known = of_cost == CRO_KNOWN_NOTHING ? CRO_KNOWN_AT_MOST : cro_known_turned (of_cost);
  if (share->ceiling < 0 && by->uncounted[node / 64] >> node % 64 & 1)
    ceiling->known = CRO_KNOWN_NOTHING;
}

/* The ceilings that the menus carrying a plate give, the tightest of each ingredient's. */
static void
hold_to_menus (CroFigures   *figures,
               guint32       plate,
               CroBreakdown *breakdown,
               GArray       *ceilings)
{
  CroModel *model = figures->model;

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);
      g_autoptr (CroBreakdown) menu = NULL;
      g_autofree guint64 *uncounted = NULL;
      Holding by;

      if (entry->is_dead || entry->plate != plate)
        continue;
      menu = cro_breakdown_of_menu (figures, entry->menu);
      uncounted = cro_known_list_uncounted (figures, CRO_REF (CRO_REF_MENU, entry->menu));
      by = (Holding){ figures, &menu->figure, uncounted };
      for (guint k = 0; k < breakdown->ingredients->len; k++)
        for (guint m = 0; m < menu->ingredients->len; m++)
          {
            const CroShareOfCost *share = &g_array_index (menu->ingredients, CroShareOfCost, m);

            if (share->item == g_array_index (breakdown->ingredients, CroShareOfCost, k).item)
              hold (&g_array_index (ceilings, CroCeiling, k), share, &by);
          }
    }
}

void
cro_ceiling_in_packs (CroFigures *figures,
                      guint32     item,
                      double      unit_cost,
                      double     *pack,
                      double     *next)
{
  guint32 slot = figures->offer_in_use[item];

  *pack = NAN;
  if (slot != CRO_NO_SLOT)
    {
      const CroOffer own = cro_own_pack_in_force (figures->model, slot);

      *pack = cro_offer_price_at (&own, &figures->model->measures[item], unit_cost);
    }
  *next = next_offer (figures, item);
  if (!(*next < unit_cost))
    *next = NAN;
}

gboolean
cro_pack_price_of (CroModel *model,
                   guint32   offer,
                   double    pack,
                   int64_t (*round) (double amount, int digits),
                   gint64   *price)
{
  int digits = cro_currency_digits (cro_model_currency_of (model, offer));

  if (!(fabs (pack) <= MOST_PRICE))
    return FALSE;
  if (fabs (pack) * pow (10, digits) < FEW)
    digits = cro_digits_of_price (pack, digits, OF_CHEAP);
  return cro_decimal_from_double ((double) round (pack, digits) / pow (10, digits), price);
}

static void
finish (CroFigures *figures,
        guint32     item,
        CroCeiling *ceiling)
{
  if (isinf (ceiling->unit_cost))
    ceiling->unit_cost = ceiling->pack = ceiling->next_offer = NAN;
  else
    cro_ceiling_in_packs (figures, item, ceiling->unit_cost, &ceiling->pack,
                          &ceiling->next_offer);
}

/* Its own ceilings where it has a price. */
static GArray *
own_ceilings (CroFigures   *figures,
              CroRef        thing,
              CroBreakdown *breakdown)
{
  g_autofree guint64 *uncounted = cro_known_list_uncounted (figures, thing);
  Holding by = { figures, &breakdown->figure, uncounted };
  gboolean has_price = !isnan (breakdown->figure.net_price);
  GArray *ceilings = g_array_new (FALSE, FALSE, sizeof (CroCeiling));

  for (guint i = 0; i < breakdown->ingredients->len; i++)
    {
      CroCeiling ceiling = { .unit_cost = INFINITY };

      if (has_price)
        hold (&ceiling, &g_array_index (breakdown->ingredients, CroShareOfCost, i), &by);
      g_array_append_val (ceilings, ceiling);
    }
  return ceilings;
}

static GArray *
finish_all (CroFigures   *figures,
            CroBreakdown *breakdown,
            GArray       *ceilings)
{
  for (guint i = 0; i < breakdown->ingredients->len; i++)
    finish (figures, g_array_index (breakdown->ingredients, CroShareOfCost, i).item,
            &g_array_index (ceilings, CroCeiling, i));
  return ceilings;
}

GArray *
cro_ceilings_of_plate (CroFigures   *figures,
                       guint32       plate,
                       CroBreakdown *breakdown)
{
  GArray *ceilings = own_ceilings (figures, CRO_REF (CRO_REF_RECIPE, plate), breakdown);

  hold_to_menus (figures, plate, breakdown, ceilings);
  return finish_all (figures, breakdown, ceilings);
}

GArray *
cro_ceilings_of_menu (CroFigures   *figures,
                      guint32       menu,
                      CroBreakdown *breakdown)
{
  return finish_all (figures, breakdown, own_ceilings (figures, CRO_REF (CRO_REF_MENU, menu), breakdown));
}
