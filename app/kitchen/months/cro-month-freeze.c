#include "cro-month-private.h"

#include <math.h>

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-edit-private.h"
#include "cro-month-close.h"
#include "cro-month-frozen.h"

/* --- One row -------------------------------------------------------------------------------- */

/* A row of month_row; texts are read when it is written. */
typedef struct
{
  const char *kind;
  const char *name;
  const char *part_kind;
  const char *part;
  gint64      number;       /* CRO_NOT_SET */
  CroDate     day;          /* CRO_NO_DAY */
  double      sold, net_revenue, price;
  const char *unit;
  double      quantity, cost, cost_per_1000;
  const char *supplier, *document, *category, *row_kind, *note;
} Row;

#define ROW(of_kind, of_name) \
  ((Row){ .kind = (of_kind), .name = (of_name), .number = CRO_NOT_SET, .day = CRO_NO_DAY, \
          .sold = NAN, .net_revenue = NAN, .price = NAN, .quantity = NAN, .cost = NAN, \
          .cost_per_1000 = NAN })

typedef struct
{
  CroBook   *book;
  CroMonth  *month;
  gint64     id;            /* of the row of table month */
  CroWriter *writer;
  GError    *failed;        /* of the first row that was refused */
} Freezing;

/* What is more than a column holds is not left out in silence. */
static CroCell
decimal (Freezing *self,
         double    value)
{
  int64_t micro;
  char text[CRO_MONTH_CHARS];

  if (isnan (value))
    return CRO_CELL_NONE;
  if (cro_decimal_from_double (value, &micro))
    return CRO_CELL_INT (micro);
  if (self->failed == NULL)
    {
      cro_month_format (self->month->first, text);
      self->failed = g_error_new_literal (CRO_MONTH_ERROR, CRO_MONTH_ERROR_RANGE, text);
    }
  return CRO_CELL_NONE;
}

static void
put (Freezing *self,
     Row       row)
{
  char day[CRO_DATE_CHARS];
  CroCell cells[] = {
    CRO_CELL_INT (self->id), CRO_CELL_STR (row.kind), CRO_CELL_STR (row.name),
    CRO_CELL_STR (row.part_kind), CRO_CELL_STR (row.part),
    row.number != CRO_NOT_SET ? CRO_CELL_INT (row.number * CRO_MICRO) : CRO_CELL_NONE,
    CRO_CELL_NONE, decimal (self, row.sold), decimal (self, row.net_revenue), decimal (self, row.price),
    CRO_CELL_STR (row.unit), decimal (self, row.quantity), decimal (self, row.cost),
    decimal (self, row.cost_per_1000),
    CRO_CELL_STR (row.supplier), CRO_CELL_STR (row.document), CRO_CELL_STR (row.category),
    CRO_CELL_STR (row.row_kind), CRO_CELL_STR (row.note)
  };

  if (self->failed != NULL)
    return;
  if (row.day != CRO_NO_DAY)
    {
      cro_date_format (row.day, day);
      cells[6] = CRO_CELL_STR (day);
    }
  cro_writer_insert (self->writer, cells, NULL, &self->failed);
}

static const char *
unit_code (CroBase base)
{
  return cro_unit_get (cro_base_unit (base))->code;
}

/* --- The statement -------------------------------------------------------------------------- */

static void
put_money (Freezing   *self,
           const char *name,
           double      money,
           const char *note,
           guint       n)
{
  Row row = ROW ("statement", name);

  row.cost = money;
  row.note = note;
  if (n > 0)
    row.quantity = n;
  put (self, row);
}

/* How much is known of a figure, where that is not all: older months say nothing. */
static const char *
known_note (CroKnown known)
{
  return known != CRO_KNOWN_WHOLE ? cro_month_known_codes[known] : NULL;
}

/* known: of each kind; NULL: all is. */
static void
put_kinds (Freezing          *self,
           const char        *name,
           const char *const *kinds,
           const double      *money,
           const CroKnown    *known)
{
  for (guint i = 0; kinds[i] != NULL; i++)
    {
      Row row = ROW ("statement", name);

      row.number = i + 1;
      row.row_kind = kinds[i];
      row.cost = money[i];
      row.note = known != NULL ? known_note (known[i]) : NULL;
      put (self, row);
    }
}

/* Of which months the documents are, so that each is booked once whatever is closed anew. */
static void
put_shares (Freezing       *self,
            const char     *name,
            GArray *const  *of)
{
  guint n = 0;

  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    for (guint i = 0; i < of[k]->len; i++)
      {
        const CroMonthOf *one = &g_array_index (of[k], CroMonthOf, i);
        Row row = ROW ("statement", name);

        row.number = ++n;
        row.row_kind = cro_purchase_kind_codes[k];
        row.day = one->first;
        row.cost = one->money;
        put (self, row);
      }
}

/* What is booked of purchases: later months compare with it what came late. */
static void
put_booked (Freezing *self)
{
  const CroMonth *month = self->month;
  double booked[CRO_N_PURCHASE_KINDS];

  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    booked[k] = month->purchases[k] + month->earlier[k];
  booked[0] += isnan (month->estimate) ? 0 : month->estimate;
  put_kinds (self, "booked", cro_purchase_kind_codes, booked, NULL);
}

static void
put_statement (Freezing *self)
{
  const CroMonth *month = self->month;
  Row recipes = ROW ("statement", "recipes-on"), currency = ROW ("statement", "currency");

  recipes.day = month->recipes_on;
  currency.note = month->currency;
  put (self, recipes);
  put (self, currency);
  put_money (self, "net-sales", month->net_sales, cro_month_known_codes[cro_month_known_sales (month)], 0);
  put_money (self, "net-sales-costed", month->net_sales_costed, NULL, 0);
  put_money (self, "till", month->till, NULL, 0);
  put_money (self, "till-gross", month->till_gross, NULL, 0);
  if (!isnan (month->gross_sales))
    put_money (self, "gross-sales", month->gross_sales, NULL, 0);
  put_money (self, "ledger", month->ledger, NULL, 0);
  put_money (self, "estimate", month->estimate, NULL, 0);
  put_money (self, "reversed", month->reversed, NULL, 0);
  put_money (self, "opening-stock", month->opening, known_note (month->known_opening), month->n_opening);
  put_money (self, "closing-stock", month->closing,
             month->is_entered ? CRO_MONTH_ENTERED : known_note (month->known_closing),
             month->n_closing);
  put_kinds (self, "purchases", cro_purchase_kind_codes, month->purchases, NULL);
  put_kinds (self, "earlier", cro_purchase_kind_codes, month->earlier, NULL);
  put_shares (self, CRO_MONTH_EARLIER_OF, month->earlier_of);
  put_shares (self, CRO_MONTH_LATER_OF, month->later_of);
  put_shares (self, CRO_MONTH_REVERSED_OF, month->reversed_of);
  put_booked (self);
  put_kinds (self, "adjustments", cro_adjustment_kind_codes, month->adjustments, month->known_adjustments);
  /* Where they follow from no other row. */
  if (month->known_used != cro_known_of_sum (month->known_opening, cro_known_turned (month->known_closing)))
    put_money (self, "used", NAN, cro_month_known_codes[month->known_used], 0);
  if (month->known_rest != month->known_over)
    put_money (self, "rest", NAN, cro_month_known_codes[month->known_rest], 0);
  put_money (self, "actual", month->actual, cro_month_known_codes[month->known_actual], 0);
  put_money (self, "theoretical", month->theoretical,
             cro_month_known_codes[month->known_theoretical], 0);
  put_money (self, "over", month->over, cro_month_known_codes[month->known_over], 0);
}

static void
put_open_ends (Freezing *self)
{
  const CroMonth *month = self->month;

  for (guint i = 0; i < month->missing->len; i++)
    {
      Row row = ROW ("statement", "missing");

      row.number = i + 1;
      row.note = month->missing->pdata[i];
      put (self, row);
    }
  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      Row row = ROW ("statement", "question");

      row.number = i + 1;
      row.row_kind = cro_month_question_code (question->kind);
      row.category = question->about;
      row.day = question->day;
      row.note = question->detail;
      row.cost = question->explains;
      put (self, row);
    }
}

/* --- Ingredients ---------------------------------------------------------------------------- */

static Row
part_row (const char *name,
          const char *part_kind,
          const char *part,
          CroBase     base)
{
  Row row = ROW ("statement", name);

  row.part_kind = part_kind;
  row.part = part;
  row.unit = unit_code (base);
  return row;
}

static void
put_item (Freezing           *self,
          const CroMonthItem *item)
{
  Row standard = part_row ("item", "food", item->name, item->base);
  Row actual = part_row ("item-actual", "food", item->name, item->base);
  Row bought = part_row ("item-bought", "food", item->name, item->base);
  Row stock = part_row ("item-stock", "food", item->name, item->base);

  standard.quantity = item->theoretical_quantity;
  standard.cost = item->theoretical_cost;
  standard.category = item->category;
  standard.note = cro_month_known_codes[item->known_theoretical];
  put (self, standard);
  if (isnan (item->actual_quantity))
    return;
  actual.quantity = item->actual_quantity;
  actual.cost = item->actual_cost;
  actual.note = cro_month_known_codes[item->known_actual];
  put (self, actual);
  bought.cost = item->bought_variance;
  bought.net_revenue = item->bought;
  put (self, bought);
  stock.quantity = item->counted_quantity;
  stock.cost = item->counted_value;
  stock.cost_per_1000 = item->average_cost * 1000;
  stock.note = cro_month_known_codes[item->known_stock];
  put (self, stock);
}

static void
put_items (Freezing *self)
{
  const CroMonth *month = self->month;

  for (guint i = 0; i < month->items->len; i++)
    put_item (self, &g_array_index (month->items, CroMonthItem, i));
  for (guint i = 0; i < month->by_products->len; i++)
    {
      const CroMonthByProduct *of = &g_array_index (month->by_products, CroMonthByProduct, i);
      Row row = part_row ("by-product", "by-product", of->name, of->base);

      row.quantity = of->quantity;
      row.cost_per_1000 = of->value * 1000;
      row.cost = of->cost;
      put (self, row);
    }
}

/* --- Things sold ---------------------------------------------------------------------------- */

static void
put_thing (Freezing            *self,
           const CroMonthThing *thing)
{
  const char *kind = cro_sale_kind_codes[thing->kind];
  gboolean is_bare = thing->known_revenue == CRO_KNOWN_WHOLE || thing->known_revenue == CRO_KNOWN_AT_LEAST;
  g_autofree char *note = g_strdup_printf ("%s%s%s %s %s",
                                           thing->lacks_revenue ? CRO_MONTH_LACKS_REVENUE : "",
                                           is_bare ? "" : CRO_MONTH_REVENUE_IS,
                                           is_bare ? "" : cro_month_known_codes[thing->known_revenue],
                                           thing->is_incomplete ? CRO_MONTH_INCOMPLETE : "",
                                           thing->has_credit ? CRO_MONTH_HAS_CREDIT : "");
  Row row = ROW (kind, thing->name);

  g_strstrip (note);
  row.sold = thing->sold;
  row.net_revenue = thing->net_revenue;
  row.price = thing->price;
  row.cost = thing->theoretical;
  row.category = thing->course;
  row.note = note[0] != '\0' ? note : NULL;
  put (self, row);
  for (guint i = 0; thing->parts != NULL && i < thing->parts->len; i++)
    {
      const CroMonthPart *part = &g_array_index (thing->parts, CroMonthPart, i);

      row = ROW (kind, thing->name);
      row.part_kind = cro_frozen_part_codes[part->kind];
      row.part = part->name;
      row.unit = unit_code (part->base);
      row.quantity = part->quantity;
      row.cost_per_1000 = part->unit_cost * 1000;
      put (self, row);
    }
}

/* --- What it is made of --------------------------------------------------------------------- */

static Row
record_row (const CroMonthRecord *record,
            const char           *kind,
            const char           *row_kind)
{
  Row row = ROW (kind, record->name != NULL ? record->name : row_kind);

  row.number = record->number;
  row.day = record->day;
  row.cost = record->money;
  if (record->has_amount)
    {
      row.quantity = cro_decimal_to_double (record->amount);
      row.unit = cro_unit_get (record->unit)->code;
    }
  return row;
}

static void
put_counts (Freezing *self)
{
  GArray *counts = self->month->counts;

  for (guint i = 0; i < counts->len; i++)
    {
      const CroMonthRecord *record = &g_array_index (counts, CroMonthRecord, i);
      Row row = record_row (record, "count", "?");

      row.category = cro_month_known_codes[record->known];
      row.note = record->note;
      put (self, row);
    }
}

static void
put_purchases (Freezing *self)
{
  GArray *bought = self->month->bought;

  for (guint i = 0; i < bought->len; i++)
    {
      const CroMonthRecord *record = &g_array_index (bought, CroMonthRecord, i);
      const char *kind = cro_purchase_kind_codes[record->kind];
      Row row = record_row (record, "purchase", kind);

      row.supplier = record->supplier;
      row.document = record->document;
      row.category = record->category;
      row.row_kind = kind;
      row.note = record->document_date;
      put (self, row);
    }
}

static void
put_adjustments (Freezing *self)
{
  GArray *adjusted = self->month->adjusted;

  for (guint i = 0; i < adjusted->len; i++)
    {
      const CroMonthRecord *record = &g_array_index (adjusted, CroMonthRecord, i);
      const char *kind = cro_adjustment_kind_codes[record->kind];
      Row row = record_row (record, "adjustment", kind);

      row.row_kind = kind;
      row.category = cro_month_known_codes[record->known];
      row.note = record->note;
      put (self, row);
    }
}

static gboolean
put_all (Freezing  *self,
         GError   **error)
{
  put_statement (self);
  put_open_ends (self);
  put_items (self);
  for (guint i = 0; i < self->month->things->len; i++)
    put_thing (self, &g_array_index (self->month->things, CroMonthThing, i));
  put_counts (self);
  put_purchases (self);
  put_adjustments (self);
  if (self->failed == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&self->failed));
  return FALSE;
}

gboolean
cro_month_freeze (CroBook   *book,
                  CroMonth  *month,
                  gint64     id,
                  GError   **error)
{
  Freezing self = { .book = book, .month = month, .id = id };
  const char *columns[24] = { "month" };
  gboolean done;

  for (gsize i = 0; cro_month_row_columns[i] != NULL; i++)
    columns[i + 1] = cro_month_row_columns[i];
  self.writer = cro_writer_new (cro_book_get_store (book), "month_row", columns, error);
  if (self.writer == NULL)
    return FALSE;
  done = put_all (&self, error);
  cro_writer_free (self.writer);
  return done;
}
