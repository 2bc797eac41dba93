/* Questions that a month asks: what was entered and is probably not meant, each with what it would
 * explain. */
#include "cro-month-private.h"

#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-service.h"

/* A price of a purchase is worth a question beyond a quarter of that of its day. */
#define FAR 0.25

/* A unit explains a variance that it brings within this part of what should have been used, if it was
 * at least so many times as large. */
#define EXPLAINED 0.02
#define WORTH_ASKING 10

/* --- What others have ----------------------------------------------------------------------- */

char *
cro_month_dup_minor (gint64 minor,
                     int    digits)
{
  guint64 scale = 1, size = minor < 0 ? 0 - (guint64) minor : (guint64) minor;

  for (int i = 0; i < digits; i++)
    scale *= 10;
  return digits > 0 ? g_strdup_printf ("%s%" G_GUINT64_FORMAT ".%0*" G_GUINT64_FORMAT, minor < 0 ? "-" : "",
                                       size / scale, digits, size % scale)
                    : g_strdup_printf ("%" G_GINT64_FORMAT, minor);
}

/* ours less theirs, in minor units; known: how much of it that is; allowed: a difference that is explained. */
static void
ask_tie (CroMonth             *month,
         CroMonthQuestionKind  kind,
         gint64                apart,
         CroKnown              known,
         gint64                allowed)
{
  CroMonthQuestion question = { kind, kind == CRO_QUESTION_LEDGER ? "ledger" : "till", CRO_NO_DAY, NULL, NAN };
  g_autofree char *money = NULL, *detail = NULL;

  if (apart == 0 || apart == allowed)
    return;
  money = cro_month_dup_minor (apart, cro_currency_digits (month->currency));
  question.about = g_string_chunk_insert_const (month->texts, question.about);
  detail = g_strconcat (known == CRO_KNOWN_AT_LEAST ? CRO_MONTH_AT_LEAST : "", money, NULL);
  question.detail = g_string_chunk_insert_const (month->texts, detail);
  g_array_append_val (month->questions, question);
}

void
cro_month_ask_ties (CroMonth *self)
{
  int digits = cro_currency_digits (self->currency);
  double estimate = isnan (self->estimate) ? 0 : self->estimate;
  gint64 sales, bought, estimates;

  for (guint i = self->questions->len; i > 0; i--)
    if (cro_month_question_is_tie (g_array_index (self->questions, CroMonthQuestion, i - 1).kind))
      g_array_remove_index (self->questions, i - 1);
  if (!isnan (self->till))
    {
      sales = cro_money_apart (self->net_sales, self->till, digits);
      /* What has no revenue yet may make up for what is less, and a void for what is more. */
      if (!self->lacks_revenue || (self->known_revenue == CRO_KNOWN_AT_LEAST && sales > 0)
          || (self->known_revenue == CRO_KNOWN_AT_MOST && sales < 0))
        ask_tie (self, CRO_QUESTION_TILL, sales, cro_month_known_sales (self), 0);
    }
  if (cro_month_is_tied_with_tax (self) && !isnan (self->gross_sales))
    ask_tie (self, CRO_QUESTION_TILL_GROSS, cro_money_apart (self->gross_sales, self->till_gross, digits),
             CRO_KNOWN_WHOLE, 0);
  /* As far as both are entered, for NaN is below nothing. */
  if (self->till_gross < self->till)
    ask_tie (self, CRO_QUESTION_TILL_TAX, cro_money_apart (self->till, self->till_gross, digits), CRO_KNOWN_WHOLE, 0);
  if (isnan (self->ledger))
    return;
  bought = cro_money_apart (cro_month_all_purchases (self), self->ledger, digits);
  estimates = cro_money_apart (estimate, self->reversed, digits);
  ask_tie (self, CRO_QUESTION_LEDGER, bought, CRO_KNOWN_WHOLE, estimates);
}

/* A stock that was entered as one sum takes the place of what was counted. */
static gboolean
ask_stock (CroMonthWork  *self,
           GError       **error)
{
  CroMonth *month = self->month;
  int digits = cro_currency_digits (month->currency);
  gint64 entered, counted, apart;
  double worth;
  CroKnown known;
  g_autoptr (GString) detail = g_string_new (NULL);
  g_autofree char *sum = NULL;

  if (!month->is_entered)
    return TRUE;
  if (!cro_month_counted_worth (self, &worth, &known, error))
    return FALSE;
  if (isnan (worth))
    return TRUE;
  entered = cro_money_round (month->closing, digits);
  counted = cro_money_round (worth, digits);
  apart = counted - entered;
  if (known == CRO_KNOWN_WHOLE && apart == 0)
    return TRUE;
  sum = cro_month_dup_minor (entered, digits);
  g_string_append_printf (detail, "%s entered", sum);
  if (known == CRO_KNOWN_WHOLE || known == CRO_KNOWN_AT_LEAST)
    {
      const char *at_least = known == CRO_KNOWN_WHOLE ? "" : CRO_MONTH_AT_LEAST;
      g_autofree char *of_counts = cro_month_dup_minor (counted, digits);
      g_autofree char *between = cro_month_dup_minor (ABS (apart), digits);

      g_string_append_printf (detail, ", %s%s counted", at_least, of_counts);
      /* What has no price yet may make up for what is less. */
      if (known == CRO_KNOWN_WHOLE || apart > 0)
        g_string_append_printf (detail, ", %s%s difference", at_least, between);
    }
  cro_month_ask (self, CRO_QUESTION_STOCK, "stock", self->entries->last, detail->str,
                 known == CRO_KNOWN_WHOLE ? worth - month->closing : NAN);
  return TRUE;
}

/* Documents of this month that count in a closed one after it: here they are taken off. */
static void
ask_booked_later (CroMonthWork *self)
{
  int digits = cro_currency_digits (self->month->currency);

  for (guint i = 0; i < self->entries->later->len; i++)
    {
      const CroMonthShare *later = &g_array_index (self->entries->later, CroMonthShare, i);
      g_autoptr (GString) detail = g_string_new (NULL);
      gboolean is_food = TRUE;
      char month[CRO_MONTH_CHARS];

      for (guint k = 1; k < CRO_N_PURCHASE_KINDS; k++)
        is_food &= later->money[k] == 0;
      for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
        {
          double money = cro_decimal_to_double (later->money[k]);
          g_autofree char *text = cro_month_dup_minor (cro_money_round (money, digits), digits);

          if (later->money[k] != 0)
            g_string_append_printf (detail, "%s%s%s%s", detail->len > 0 ? ", " : "",
                                    is_food ? "" : cro_purchase_kind_codes[k], is_food ? "" : " ", text);
        }
      cro_month_format (later->first, month);
      cro_month_ask (self, CRO_QUESTION_BOOKED_LATER, month, CRO_NO_DAY, detail->str, NAN);
    }
}

/* --- The same row twice --------------------------------------------------------------------- */

static gboolean
same_text (const char *a,
           const char *b)
{
  return g_strcmp0 (a, b) == 0;
}

static gboolean
same_sale (gconstpointer a,
           gconstpointer b)
{
  const CroMonthSale *x = a, *y = b;

  return x->date == y->date && x->thing == y->thing && same_text (x->other, y->other)
         && x->sold == y->sold && x->has_revenue == y->has_revenue && x->revenue == y->revenue;
}

static gboolean
same_count (gconstpointer a,
            gconstpointer b)
{
  const CroMonthCount *x = a, *y = b;

  return x->item == y->item && x->amount == y->amount && x->unit == y->unit && x->amount != 0
         && same_text (x->place, y->place);
}

static gboolean
same_purchase (gconstpointer a,
               gconstpointer b)
{
  const CroMonthPurchase *x = a, *y = b;

  return x->date == y->date && same_text (x->document_date, y->document_date)
         && x->supplier == y->supplier && same_text (x->document, y->document)
         && x->ingredient == y->ingredient && same_text (x->category, y->category)
         && x->kind == y->kind && x->has_amount == y->has_amount && x->amount == y->amount
         && x->unit == y->unit && x->value == y->value;
}

static gboolean
same_adjustment (gconstpointer a,
                 gconstpointer b)
{
  const CroMonthAdjustment *x = a, *y = b;

  return x->date == y->date && x->kind == y->kind && x->item == y->item
         && x->has_amount == y->has_amount && x->amount == y->amount && x->unit == y->unit
         && x->has_value == y->has_value && x->value == y->value && same_text (x->note, y->note);
}

static guint
hash_bytes (gint64 a,
            gint64 b,
            gint64 c)
{
  return (guint) (a * 31 + b) * 2654435761u ^ (guint) (c ^ c >> 32);
}

static guint
hash_sale (gconstpointer a)
{
  const CroMonthSale *x = a;

  return hash_bytes (x->date, x->thing, x->sold);
}

static guint
hash_count (gconstpointer a)
{
  const CroMonthCount *x = a;

  return hash_bytes (0, x->item, x->amount);
}

static guint
hash_purchase (gconstpointer a)
{
  const CroMonthPurchase *x = a;

  return hash_bytes (x->date, x->ingredient, x->value);
}

static guint
hash_adjustment (gconstpointer a)
{
  const CroMonthAdjustment *x = a;

  return hash_bytes (x->date, x->item, x->amount + x->value);
}

typedef void (*AskTwice) (CroMonthWork *self, gconstpointer row);

/* Asks once of each row that stands there again. */
static void
find_twice (CroMonthWork *self,
            GArray       *rows,
            guint         size,
            GHashFunc     hash,
            GEqualFunc    same,
            AskTwice      ask)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (hash, same);

  for (guint i = 0; i < rows->len; i++)
    {
      gpointer row = rows->data + (gsize) i * size;

      if (!g_hash_table_add (seen, row))
        ask (self, row);
    }
}

static const CroMonthThing *
thing_of (CroMonthWork       *self,
          const CroMonthSale *sale)
{
  for (guint i = 0; sale->thing != 0 && i < self->month->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (self->month->things, CroMonthThing, i);

      if (thing->id == sale->thing)
        return thing;
    }
  return NULL;
}

const char *
cro_month_name_of_sale (CroMonthWork       *self,
                        const CroMonthSale *sale)
{
  const CroMonthThing *thing = thing_of (self, sale);
  CroModel *model = cro_book_get_model (self->book);
  guint32 slot;

  if (thing != NULL || sale->thing == 0)
    return thing != NULL ? thing->name : sale->other;
  /* By its name of today, where no cost was asked for. */
  slot = cro_slots_get (&model->plate_slots, sale->thing);
  if (slot != CRO_NO_SLOT)
    return cro_model_recipe (model, slot)->name;
  slot = cro_slots_get (&model->menu_slots, sale->thing);
  return slot != CRO_NO_SLOT ? cro_model_menu (model, slot)->name : NULL;
}

static void
ask_sale (CroMonthWork  *self,
          gconstpointer  row)
{
  const CroMonthSale *sale = row;
  const CroMonthThing *thing = thing_of (self, sale);
  double cost = thing != NULL && thing->sold != 0 ? thing->theoretical / thing->sold : 0;

  cro_month_ask (self, CRO_QUESTION_SALE_TWICE, cro_month_name_of_sale (self, sale), sale->date, NULL,
                 -cost * cro_decimal_to_double (sale->sold));
}

static void
ask_count (CroMonthWork  *self,
           gconstpointer  row)
{
  const CroMonthCount *count = row;

  cro_month_ask (self, CRO_QUESTION_COUNT_TWICE, cro_month_item_name (self->book, count->item), count->date, NULL,
                 cro_month_explained (-count->value, count->known));
}

const char *
cro_month_name_of_purchase (CroMonthWork           *self,
                            const CroMonthPurchase *purchase)
{
  const char *name = purchase->ingredient != 0 ? cro_month_item_name (self->book, purchase->ingredient)
                                               : purchase->category;

  if (name == NULL)
    name = purchase->document;
  return name != NULL ? name : "?";
}

static void
ask_purchase (CroMonthWork  *self,
              gconstpointer  row)
{
  const CroMonthPurchase *purchase = row;

  cro_month_ask (self, CRO_QUESTION_PURCHASE_TWICE, cro_month_name_of_purchase (self, purchase), purchase->date, NULL,
                 purchase->kind == 0 ? cro_decimal_to_double (purchase->value) : 0);
}

const char *
cro_month_name_of_adjustment (CroMonthWork             *self,
                              const CroMonthAdjustment *adjustment)
{
  const char *name = adjustment->item != 0 ? cro_month_item_name (self->book, adjustment->item) : adjustment->note;

  return name != NULL ? name : "?";
}

static void
ask_adjustment (CroMonthWork  *self,
                gconstpointer  row)
{
  const CroMonthAdjustment *adjustment = row;

  cro_month_ask (self, CRO_QUESTION_ADJUSTMENT_TWICE, cro_month_name_of_adjustment (self, adjustment), adjustment->date,
                 NULL, adjustment->worth != 0 ? cro_month_sign_of (adjustment->kind) * adjustment->worth : NAN);
}

/* --- Far from what it was ------------------------------------------------------------------- */

static gboolean
ask_price (CroMonthWork            *self,
           const CroMonthPurchase  *purchase,
           GError                 **error)
{
  double value = cro_decimal_to_double (purchase->value), quantity, due;
  guint32 item;
  CroBook *book;
  CroFigures *figures;

  if (purchase->kind != 0 || purchase->ingredient == 0 || !purchase->has_amount
      || purchase->amount <= 0 || purchase->value <= 0)
    return TRUE;
  book = cro_month_find_item (self, self->month->recipes_on, purchase->ingredient, purchase->date,
                              &item, error);
  if (book == NULL || item == CRO_NO_SLOT)
    return book != NULL;
  figures = cro_book_get_figures (book);
  quantity = cro_service_in_base (figures->model, item, purchase->amount, purchase->unit, NULL);
  due = quantity * figures->layers[CRO_LAYER_FOOD].unit_cost[cro_figures_node (figures, item)];
  if (due > 0 && (value > due * (1 + FAR) || value < due * (1 - FAR)))
    cro_month_ask (self, CRO_QUESTION_FAR_PRICE, cro_model_item (figures->model, item)->name,
                   purchase->date, NULL, value - due);
  return TRUE;
}

static void
ask_more_than_there (CroMonthWork *self)
{
  GHashTableIter iter;
  gpointer value;

  if (self->month->n_opening == 0)
    return;
  g_hash_table_iter_init (&iter, self->gathered);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const CroMonthGathered *of = value;
      double came = of->adjusted_quantity < 0 ? -of->adjusted_quantity : 0;
      double there = of->counted_at_opening + of->bought_quantity + came;

      /* Of what was not counted before nobody knows how much was there. */
      if (of->is_food && of->is_bought && !of->may_be_there && of->counted_at_closing > there * (1 + 1e-9)
          && of->closing_quantity > 0)
        cro_month_ask (self, CRO_QUESTION_MORE_THAN_THERE, of->name, self->entries->last, NULL,
                       cro_month_explained (-(of->counted_at_closing - there) * of->closing_value
                                                / of->closing_quantity,
                                            of->known_closing));
    }
}

/* --- A unit that would explain -------------------------------------------------------------- */

typedef struct
{
  CroMonthWork       *work;
  const CroMonthItem *item;
  guint32             written;  /* units that the house writes for it: a bit of each */
  CroUnit             best;
  double              left;     /* variance that it leaves, in base units */
  double              explains; /* money that it takes off what is over; NaN: none, as a purchase costs what it costs */
  CroDate             day;
} Units;

/* Units that are a step of each other: one is written for the other by a slip. */
static const CroUnit steps[][2] = {
  { CRO_UNIT_G, CRO_UNIT_KG },
  { CRO_UNIT_ML, CRO_UNIT_L },
  { CRO_UNIT_OZ, CRO_UNIT_LB },
  { CRO_UNIT_EACH, CRO_UNIT_DOZEN },
};

static gboolean
can_be_meant (const Units *self,
              CroUnit      written,
              CroUnit      unit)
{
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    for (guint k = 0; k < 2; k++)
      if (steps[i][k] == written && steps[i][1 - k] == unit)
        return TRUE;
  return (self->written & 1u << unit) != 0;
}

/* In counts, purchases and packs. */
static guint32
units_written (CroMonthEntries *entries,
               CroModel        *model,
               guint32          slot,
               gint64           item)
{
  const GArray *const counts[] = { entries->opening, entries->closing };
  guint32 written = 0;

  G_STATIC_ASSERT (CRO_N_UNITS <= 32);
  for (gsize k = 0; k < G_N_ELEMENTS (counts); k++)
    for (guint i = 0; i < counts[k]->len; i++)
      {
        const CroMonthCount *count = &g_array_index (counts[k], CroMonthCount, i);

        written |= count->item == item ? 1u << count->unit : 0;
      }
  for (guint i = 0; i < entries->purchases->len; i++)
    {
      const CroMonthPurchase *purchase = &g_array_index (entries->purchases, CroMonthPurchase, i);

      written |= purchase->ingredient == item && purchase->has_amount ? 1u << purchase->unit : 0;
    }
  for (guint i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *offer = &g_array_index (model->offers, CroOfferEntry, i);

      written |= !offer->is_dead && offer->item == slot ? 1u << offer->pack_unit : 0;
    }
  return written;
}

/* A scale that shows grams shows no parts of one: what has them was weighed in kilograms, as it is written. */
static gboolean
is_finer_than_shown (CroUnit written,
                     CroUnit unit,
                     gint64  amount)
{
  return ((written == CRO_UNIT_KG && unit == CRO_UNIT_G) || (written == CRO_UNIT_L && unit == CRO_UNIT_ML))
         && amount % CRO_MICRO != 0;
}

/* What was used if an amount had been in another unit; sign: whether more of it is more used; value: what a base unit
 * of it counts for in the cost, NaN of what counts as it was paid. */
static void
try_unit (Units    *self,
          CroModel *model,
          guint32   slot,
          gint64    amount,
          CroUnit   written,
          double    sign,
          double    value,
          CroDate   day)
{
  double was = cro_service_in_base (model, slot, amount, written, NULL);

  for (CroUnit unit = 0; unit < CRO_N_UNITS; unit++)
    {
      const CroMeasure *measure = &model->measures[slot];
      double would, left;

      if (unit == written || !can_be_meant (self, written, unit) || is_finer_than_shown (written, unit, amount)
          || cro_measure_lacks (measure, cro_unit_get (unit)->base, (CroBase) measure->base))
        continue;
      would = cro_service_in_base (model, slot, amount, unit, NULL);
      left = fabs (self->item->actual_quantity + sign * (would - was)
                   - self->item->theoretical_quantity);
      if (left < self->left)
        {
          self->left = left;
          self->best = unit;
          self->explains = -sign * (would - was) * value;
          self->day = day;
        }
    }
}

static gboolean
try_item (Units    *self,
          GError  **error)
{
  CroMonthWork *work = self->work;
  CroMonthEntries *entries = work->entries;
  const CroMonthGathered *of;
  guint32 slot;
  CroBook *book = cro_month_find_item (work, work->month->recipes_on, self->item->id, entries->last,
                                       &slot, error);
  CroModel *model;

  if (book == NULL || slot == CRO_NO_SLOT)
    return book != NULL;
  of = g_hash_table_lookup (work->gathered, &self->item->id);
  model = cro_book_get_model (book);
  self->written = units_written (entries, model, slot, self->item->id);
  for (guint i = 0; i < entries->opening->len; i++)
    {
      const CroMonthCount *count = &g_array_index (entries->opening, CroMonthCount, i);

      if (count->item == self->item->id)
        try_unit (self, model, slot, count->amount, count->unit, 1, of->own_opening_value / of->counted_at_opening,
                  count->date);
    }
  for (guint i = 0; i < entries->closing->len; i++)
    {
      const CroMonthCount *count = &g_array_index (entries->closing, CroMonthCount, i);

      if (count->item == self->item->id)
        try_unit (self, model, slot, count->amount, count->unit, -1, of->closing_value / of->closing_quantity,
                  count->date);
    }
  for (guint i = 0; i < entries->purchases->len; i++)
    {
      const CroMonthPurchase *purchase = &g_array_index (entries->purchases, CroMonthPurchase, i);

      if (purchase->ingredient == self->item->id && purchase->kind == 0 && purchase->has_amount)
        try_unit (self, model, slot, purchase->amount, purchase->unit, 1, NAN, purchase->date);
    }
  return TRUE;
}

static gboolean
ask_unit (CroMonthWork        *self,
          const CroMonthItem  *item,
          GError             **error)
{
  double within = EXPLAINED * fabs (item->theoretical_quantity);
  double variance = item->actual_quantity - item->theoretical_quantity;
  Units units = { self, item, 0, CRO_N_UNITS, within, NAN, CRO_NO_DAY };

  if (!(fabs (variance) > WORTH_ASKING * within) || within == 0)
    return TRUE;
  if (!try_item (&units, error))
    return FALSE;
  if (units.best < CRO_N_UNITS)
    cro_month_ask (self, CRO_QUESTION_UNIT, item->name, units.day, cro_unit_get (units.best)->code,
                   units.explains);
  return TRUE;
}

gboolean
cro_month_add_doubts (CroMonthWork  *self,
                      GError       **error)
{
  CroMonthEntries *entries = self->entries;

  if (!ask_stock (self, error))
    return FALSE;
  ask_booked_later (self);
  find_twice (self, entries->sales, sizeof (CroMonthSale), hash_sale, same_sale, ask_sale);
  find_twice (self, entries->closing, sizeof (CroMonthCount), hash_count, same_count, ask_count);
  find_twice (self, entries->purchases, sizeof (CroMonthPurchase), hash_purchase, same_purchase,
              ask_purchase);
  find_twice (self, entries->adjustments, sizeof (CroMonthAdjustment), hash_adjustment,
              same_adjustment, ask_adjustment);
  cro_month_ask_sizes (self);
  ask_more_than_there (self);
  for (guint i = 0; i < entries->purchases->len; i++)
    if (!ask_price (self, &g_array_index (entries->purchases, CroMonthPurchase, i), error))
      return FALSE;
  for (guint i = 0; i < self->month->items->len; i++)
    if (!ask_unit (self, &g_array_index (self->month->items, CroMonthItem, i), error))
      return FALSE;
  return TRUE;
}
