/* Net sales, and what they should have cost. */
#include "cro-month-private.h"

#include <math.h>
#include <string.h>

#include "cro-breakdown.h"
#include "cro-decimal.h"
#include "cro-menu-ways.h"
#include "cro-reach.h"
#include "cro-rule.h"

/* A thing sold, with the recipes that it is costed by. */
typedef struct
{
  gint64   id;
  CroBook *book;
  CroRef   ref;
  guint    index;       /* in month->things */
  gboolean is_today;    /* a row of the day is of it */
  double   sold_today;
  double   unpriced;    /* millionths sold today without a price and without net sales … */
  double   unpriced_all, uncosted_all;  /* on all days together */
  double   uncosted;    /* … and at a cost that is not all known: none costs nothing, whatever it costs */
  gboolean has_credit;  /* of what is uncosted */
  CroDate  caused_on;   /* the day of which causes and is_open tell */
  GArray  *causes;
  gboolean is_open;     /* some of its food has no known cost */
  GHashTable *parts;    /* kind and id of an item → Part; NULL: they are not asked for */
} Seat;

typedef struct
{
  gint64      key;
  CroMonthPart part;
  double      sold;         /* sum of sold x quantity */
  double      cost;         /* of sold x quantity x unit cost */
  double      quantities;   /* plain sums over days */
  double      unit_costs;
  guint       n_days;
} Part;

typedef struct
{
  CroMonthWork *work;
  GHashTable   *seats;      /* id → Seat */
  GHashTable   *others;     /* name → index */
  GPtrArray    *books;      /* that seats stand in */
  gboolean      is_untaxed; /* a price or a total with tax counts, of which nobody has set a tax */
} Sales;

static void
seat_free (gpointer data)
{
  Seat *seat = data;

  g_clear_pointer (&seat->parts, g_hash_table_unref);
  g_clear_pointer (&seat->causes, g_array_unref);
  g_free (seat);
}

static CroMonthThing *
thing_at (Sales *self,
          guint  index)
{
  return &g_array_index (self->work->month->things, CroMonthThing, index);
}

static guint
add_thing (Sales             *self,
           CroMonthThingKind  kind,
           gint64             id,
           const char        *name,
           const char        *course)
{
  CroMonthThing thing = { .id = id, .kind = kind, .price = NAN,
                          .theoretical = kind == CRO_MONTH_OTHER ? NAN : 0 };

  thing.name = cro_month_keep (self->work, name);
  thing.course = cro_month_keep (self->work, course);
  g_array_append_val (self->work->month->things, thing);
  return self->work->month->things->len - 1;
}

/* --- Seats ---------------------------------------------------------------------------------- */

static void
place (Sales  *self,
       Seat   *seat,
       CroDate stood)
{
  CroModel *model = cro_book_get_model (seat->book);
  gboolean is_menu = seat->ref.kind == CRO_REF_MENU;
  const char *name = cro_ref_name (model, seat->ref);

  seat->index = add_thing (self, is_menu ? CRO_MONTH_MENU : CRO_MONTH_PLATE, seat->id,
                           name != NULL ? name : "?",
                           is_menu || name == NULL ? NULL
                                                   : cro_model_recipe (model, seat->ref.slot)->course);
  if (stood > self->work->stood && name != NULL)
    cro_month_ask (self->work, CRO_QUESTION_FIRST_STOOD, name, stood, NULL, NAN);
  if (!g_ptr_array_find (self->books, seat->book, NULL))
    g_ptr_array_add (self->books, seat->book);
}

static Seat *
seat_of (Sales   *self,
         gint64   thing,
         GError **error)
{
  Seat *seat = g_hash_table_lookup (self->seats, &thing);
  CroDate stood;

  if (seat != NULL)
    return seat;
  seat = g_new0 (Seat, 1);
  seat->id = thing;
  seat->caused_on = CRO_NO_DAY;
  seat->book = cro_month_recipes_find (self->work->recipes, self->work->month->recipes_on, thing,
                                       &stood, &seat->ref, error);
  if (seat->book == NULL)
    {
      g_free (seat);
      return NULL;
    }
  place (self, seat, stood);
  if (self->work->with_parts)
    seat->parts = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, g_free);
  g_hash_table_insert (self->seats, &seat->id, seat);
  return seat;
}

/* --- What was taken ------------------------------------------------------------------------- */

static void
take_standard (CroMonthGathered *of,
               double            quantity,
               double            value,
               CroKnown          known)
{
  of->standard_quantity += quantity;
  of->standard_cost += value;
  cro_month_lower (&of->known_standard, known);
}

static void
take_raw (CroMonthWork *work,
          CroBook      *book,
          guint32       node)
{
  CroFigures *figures = cro_book_get_figures (book);
  guint32 item = figures->graph.item_of_node[node];
  double quantity = figures->effect[node];

  if (quantity == 0 || cro_model_item (figures->model, item)->is_disposable)
    return;
  take_standard (cro_month_gather (work, book, item), quantity,
                 quantity * figures->layers[CRO_LAYER_FOOD].unit_cost[node],
                 figures->own_node_bits[node] & CRO_REACH_INCOMPLETE ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_WHOLE);
}

typedef void (*TakeCredit) (gpointer user_data, CroFigures *figures, guint32 item, double quantity);

/* The assigned values of one credited batch. */
static void
each_credit (CroFigures *figures,
             guint32     row,
             TakeCredit  take,
             gpointer    user_data)
{
  CroModel *model = figures->model;
  const guint32 *slots;
  guint32 recipe = figures->graph.slot_of_row[row];
  guint32 n = cro_figures_outputs (figures, recipe, &slots);

  if (n < 2 || !cro_rule_credits ((CroRule) cro_model_recipe (model, recipe)->rule))
    return;
  for (guint32 i = 1; i < n; i++)
    {
      double quantity = cro_effects_of_value (figures, slots[0], slots[i]);

      if (cro_model_item (model, slots[i])->output.has_value && quantity != 0)
        take (user_data, figures, slots[i], quantity);
    }
}

static void
take_credit (gpointer    user_data,
             CroFigures *figures,
             guint32     item,
             double      quantity)
{
  CroMonthWork *work = user_data;
  const CroItem *of = cro_model_item (figures->model, item);
  CroMonthByProduct *credit = g_hash_table_lookup (work->credits, &of->id);

  if (credit == NULL)
    {
      credit = g_new0 (CroMonthByProduct, 1);
      credit->name = cro_month_keep (work, of->name);
      credit->base = (CroBase) figures->model->measures[item].base;
      credit->value = of->output.value_of_base;
      g_hash_table_insert (work->credits, g_memdup2 (&of->id, sizeof of->id), credit);
    }
  credit->quantity += quantity;
  credit->cost += quantity * of->output.value_of_base;
}

/* One trace of all that was sold of a day gives every quantity. */
static void
take_day (Sales   *self,
          CroBook *book)
{
  CroFigures *figures = cro_book_get_figures (book);
  const CroGraph *graph = &figures->graph;
  GHashTableIter iter;
  gpointer value;

  g_hash_table_iter_init (&iter, self->seats);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      Seat *seat = value;

      if (seat->book == book && seat->sold_today != 0 && seat->ref.kind != CRO_REF_NONE)
        cro_effects_add (figures, seat->ref, seat->sold_today);
    }
  cro_effects_run (figures);
  for (guint32 row = cro_effects_next (figures, 0); row < graph->n_rows;
       row = cro_effects_next (figures, row + 1))
    each_credit (figures, row, take_credit, self->work);
  for (guint32 node = cro_effects_next_raw (figures, 0); node < graph->n_raws;
       node = cro_effects_next_raw (figures, node + 1))
    take_raw (self->work, book, node);
  cro_effects_clear (figures);
}

/* --- What one thing took -------------------------------------------------------------------- */

typedef struct
{
  Sales  *sales;
  Seat   *seat;
  double  sold;
} Taking;

static void
take_part (Taking     *self,
           guint       kind,
           gint64      id,
           const char *name,
           CroBase     base,
           double      quantity,
           double      unit_cost)
{
  gint64 key = id * 8 + kind;
  Part *part = g_hash_table_lookup (self->seat->parts, &key);

  if (part == NULL)
    {
      part = g_new0 (Part, 1);
      part->key = key;
      part->part = (CroMonthPart){ cro_month_keep (self->sales->work, name), kind, base, 0, 0 };
      g_hash_table_insert (self->seat->parts, &part->key, part);
    }
  part->sold += self->sold * quantity;
  part->cost += self->sold * quantity * unit_cost;
  part->quantities += quantity;
  part->unit_costs += unit_cost;
  part->n_days++;
}

static void
take_part_credit (gpointer    user_data,
                  CroFigures *figures,
                  guint32     item,
                  double      quantity)
{
  const CroItem *of = cro_model_item (figures->model, item);

  take_part (user_data, 2, of->id, of->name, (CroBase) figures->model->measures[item].base, quantity,
             of->output.value_of_base);
}

static void
take_part_raw (Taking     *self,
               CroFigures *figures,
               guint32     node)
{
  guint32 item = figures->graph.item_of_node[node];
  const CroItem *of = cro_model_item (figures->model, item);
  CroLayerId layer = of->is_disposable ? CRO_LAYER_DISPOSABLES : CRO_LAYER_FOOD;

  if (figures->effect[node] != 0)
    take_part (self, of->is_disposable ? 1 : 0, of->id, of->name,
               (CroBase) figures->model->measures[item].base, figures->effect[node],
               figures->layers[layer].unit_cost[node]);
}

/* Plates of a menu as a part of what it is. */
static void
take_plates (Taking     *self,
             CroFigures *figures)
{
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (figures->model, self->seat->ref.slot);

  for (guint i = 0; i < ways->plates->len; i++)
    {
      const CroMenuPlate *entry = ways->plates->pdata[i];
      const CroRecipe *plate = cro_model_recipe (figures->model, entry->plate);
      CroFigure figure = cro_figure_of_plate (figures, entry->plate);

      take_part (self, 3, plate->id, plate->name, CRO_BASE_EACH, ways->taken[i], figure.cost);
    }
}

static void
take_parts (Sales  *self,
            Seat   *seat,
            double  sold)
{
  CroFigures *figures = cro_book_get_figures (seat->book);
  const CroGraph *graph = &figures->graph;
  Taking taking = { self, seat, sold };

  cro_effects_trace (figures, seat->ref);
  for (guint32 row = cro_effects_next (figures, 0); row < graph->n_rows;
       row = cro_effects_next (figures, row + 1))
    each_credit (figures, row, take_part_credit, &taking);
  for (guint32 node = cro_effects_next_raw (figures, 0); node < graph->n_raws;
       node = cro_effects_next_raw (figures, node + 1))
    take_part_raw (&taking, figures, node);
  cro_effects_clear (figures);
  if (seat->ref.kind == CRO_REF_MENU)
    take_plates (&taking, figures);
}

static int
compare_parts (gconstpointer a,
               gconstpointer b)
{
  const CroMonthPart *x = a, *y = b;

  if (x->kind != y->kind)
    return x->kind < y->kind ? -1 : 1;
  return strcmp (x->name, y->name);
}

/* Two items of one name, which no book has at once, are one part. */
static void
add_part (GArray      *parts,
          const Part  *of,
          double       sold)
{
  CroMonthPart part = of->part;

  part.quantity = sold != 0 ? of->sold / sold : of->quantities / of->n_days;
  part.unit_cost = of->sold != 0 ? of->cost / of->sold : of->unit_costs / of->n_days;
  g_array_append_val (parts, part);
}

static void
finish_parts (Sales *self,
              Seat  *seat)
{
  CroMonthThing *thing = thing_at (self, seat->index);
  GHashTableIter iter;
  gpointer value;

  thing->parts = g_array_sized_new (FALSE, FALSE, sizeof (CroMonthPart), g_hash_table_size (seat->parts));
  g_hash_table_iter_init (&iter, seat->parts);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    add_part (thing->parts, value, thing->sold);
  g_clear_pointer (&seat->parts, g_hash_table_unref);
  g_array_sort (thing->parts, compare_parts);
}

/* --- Rows ----------------------------------------------------------------------------------- */

/* Whether it is known. */
static gboolean
add_revenue (Sales              *self,
             CroMonthThing      *thing,
             const CroMonthSale *sale,
             double              net_price)
{
  double sold = cro_decimal_to_double (sale->sold);
  double revenue = sale->has_revenue ? cro_decimal_to_double (sale->revenue) : sold * net_price;

  if (isnan (revenue))
    {
      g_autofree char *cause = g_strconcat ("selling ", thing->name, NULL);

      g_hash_table_add (self->work->missing, g_steal_pointer (&cause));
      return FALSE;
    }
  thing->net_revenue += revenue;
  return TRUE;
}

/* sold: how many of it, at what is not known; what was taken back leaves less than is known, and as many as were
 * sold on other days either. */
static void
lack_revenue (Sales         *self,
              CroMonthThing *thing,
              double         sold)
{
  CroKnown known = sold > 0 ? CRO_KNOWN_AT_LEAST : sold < 0 ? CRO_KNOWN_AT_MOST : CRO_KNOWN_IN_PART;

  thing->lacks_revenue = self->work->month->lacks_revenue = TRUE;
  cro_month_lower (&thing->known_revenue, known);
  cro_month_lower (&self->work->month->known_revenue, known);
}

/* What is missing of it on a day is asked once. */
static gboolean
is_open (Sales   *self,
         Seat    *seat,
         CroDate  day)
{
  CroFigures *figures = cro_book_get_figures (seat->book);

  if (seat->caused_on == day)
    return seat->is_open;
  g_clear_pointer (&seat->causes, g_array_unref);
  seat->causes = seat->ref.kind == CRO_REF_MENU ? cro_causes_of_menu (figures, seat->ref.slot)
                                                : cro_causes_of_plate (figures, seat->ref.slot);
  seat->caused_on = day;
  seat->is_open = cro_month_add_causes (self->work, figures->model, seat->causes);
  return seat->is_open;
}

static void
add_cost (Sales              *self,
          Seat               *seat,
          const CroFigure    *figure,
          const CroMonthSale *sale)
{
  double sold = cro_decimal_to_double (sale->sold);

  thing_at (self, seat->index)->theoretical += sold * figure->cost;
  if (!figure->is_incomplete || sold == 0 || !is_open (self, seat, sale->date))
    return;
  seat->uncosted += (double) sale->sold;
  seat->has_credit |= figure->has_credit;
}

/* What was sold and taken back on one day was not sold at what is not known. */
static void
end_unknown (Sales *self,
             Seat  *seat)
{
  CroMonthThing *thing = thing_at (self, seat->index);

  seat->unpriced_all += seat->unpriced;
  seat->uncosted_all += seat->uncosted;
  thing->lacks_revenue |= seat->unpriced != 0;
  if (seat->uncosted != 0)
    {
      cro_month_take_uncounted (self->work, seat->book, seat->ref, take_standard);
      thing->is_incomplete = self->work->theory_open = TRUE;
      thing->has_credit |= seat->has_credit;
      self->work->theory_credit |= seat->has_credit;
    }
  seat->unpriced = seat->uncosted = 0;
  seat->has_credit = FALSE;
}

/* Once all days are there. What was taken back has a cost that is no lower bound. */
static void
end_seat (Sales *self,
          Seat  *seat)
{
  CroMonthThing *thing = thing_at (self, seat->index);

  if (thing->lacks_revenue)
    lack_revenue (self, thing, seat->unpriced_all);
  if (thing->is_incomplete && seat->uncosted_all <= 0)
    thing->has_credit = self->work->theory_credit = TRUE;
}

static gboolean
add_sale (Sales               *self,
          const CroMonthSale  *sale,
          GError             **error)
{
  double sold = cro_decimal_to_double (sale->sold);
  Seat *seat = seat_of (self, sale->thing, error);
  CroMonthThing *thing;
  CroFigure figure;
  CroModel *model;

  if (seat == NULL || !cro_month_turn_to (seat->book, sale->date, error))
    return FALSE;
  thing = thing_at (self, seat->index);
  model = cro_book_get_model (seat->book);
  thing->sold += sold;
  if (seat->ref.kind == CRO_REF_NONE)
    {
      if (!add_revenue (self, thing, sale, NAN))
        seat->unpriced += (double) sale->sold;
      return TRUE;
    }
  figure = seat->ref.kind == CRO_REF_MENU
               ? cro_figure_of_menu (cro_book_get_figures (seat->book), seat->ref.slot)
               : cro_figure_of_plate (cro_book_get_figures (seat->book), seat->ref.slot);
  if (!add_revenue (self, thing, sale, figure.net_price))
    seat->unpriced += (double) sale->sold;
  self->is_untaxed |= figure.is_untaxed && sale->sold != 0
                      && (sale->has_revenue ? cro_month_is_tied_with_tax (self->work->month)
                                            : !isnan (figure.net_price));
  add_cost (self, seat, &figure, sale);
  seat->is_today = TRUE;
  seat->sold_today += sold;
  {
    gint64 price = seat->ref.kind == CRO_REF_MENU ? cro_model_menu (model, seat->ref.slot)->price
                                                  : cro_model_recipe (model, seat->ref.slot)->price;

    thing->price = price != CRO_NOT_SET ? cro_decimal_to_double (price) : NAN;
  }
  return TRUE;
}

static void
add_other (Sales              *self,
           const CroMonthSale *sale)
{
  const char *name = cro_month_keep (self->work, sale->other);
  gpointer known;
  CroMonthThing *thing;

  if (!g_hash_table_lookup_extended (self->others, name, NULL, &known))
    {
      known = GUINT_TO_POINTER (add_thing (self, CRO_MONTH_OTHER, 0, name, NULL));
      g_hash_table_insert (self->others, (gpointer) name, known);
    }
  thing = thing_at (self, GPOINTER_TO_UINT (known));
  thing->sold += cro_decimal_to_double (sale->sold);
  if (!add_revenue (self, thing, sale, NAN))
    lack_revenue (self, thing, (double) sale->sold);
}

static void
end_day (Sales *self)
{
  GHashTableIter iter;
  gpointer value;

  for (guint i = 0; i < self->books->len; i++)
    take_day (self, self->books->pdata[i]);
  g_hash_table_iter_init (&iter, self->seats);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      Seat *seat = value;

      if (seat->is_today && seat->parts != NULL)
        take_parts (self, seat, seat->sold_today);
      end_unknown (self, seat);
      seat->is_today = FALSE;
      seat->sold_today = 0;
    }
}

static gboolean
add_all (Sales   *self,
         GError **error)
{
  GArray *sales = self->work->entries->sales;

  for (guint i = 0; i < sales->len; i++)
    {
      const CroMonthSale *sale = &g_array_index (sales, CroMonthSale, i);

      if (sale->thing == 0)
        add_other (self, sale);
      else if (!add_sale (self, sale, error))
        return FALSE;
      if (i + 1 == sales->len || sale[1].date != sale->date)
        end_day (self);
    }
  return TRUE;
}

gboolean
cro_month_add_sales (CroMonthWork  *work,
                     GError       **error)
{
  CroMonth *month = work->month;
  Sales self = { work, g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, seat_free),
                 g_hash_table_new (g_str_hash, g_str_equal), g_ptr_array_new (), FALSE };
  gboolean done = add_all (&self, error);
  GHashTableIter iter;
  gpointer value;

  g_hash_table_iter_init (&iter, self.seats);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      end_seat (&self, value);
      if (work->with_parts)
        finish_parts (&self, value);
    }
  if (self.is_untaxed)
    cro_month_ask (work, CRO_QUESTION_TAX, "tax", CRO_NO_DAY, NULL, NAN);
  for (guint i = 0; i < month->things->len; i++)
    {
      const CroMonthThing *thing = thing_at (&self, i);

      month->net_sales += thing->net_revenue;
      if (thing->kind == CRO_MONTH_OTHER)
        continue;
      month->net_sales_costed += thing->net_revenue;
      month->theoretical += thing->theoretical;
    }
  g_hash_table_unref (self.seats);
  g_hash_table_unref (self.others);
  g_ptr_array_unref (self.books);
  return done;
}
