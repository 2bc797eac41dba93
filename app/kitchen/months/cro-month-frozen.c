/* What closing froze of a month, read back: rows of table month_rows alone, so that a closed month is
 * the same for ever. cro-month-close.c writes them. */
#include "cro-month-private.h"

#include <math.h>
#include <string.h>

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-frozen-hash.h"
#include "cro-month-frozen.h"
#include "cro-row-date.h"
#include "cro-variance.h"

const char *const cro_month_known_codes[] = {
  [CRO_KNOWN_WHOLE] = "whole",     [CRO_KNOWN_AT_LEAST] = "at-least", [CRO_KNOWN_AT_MOST] = "at-most",
  [CRO_KNOWN_IN_PART] = "in-part", [CRO_KNOWN_NOTHING] = "nothing",   NULL,
};

const char *const cro_month_row_columns[] = {
  "kind", "name", "part_kind", "part", "number_micro", "date", "sold_micro", "net_revenue_micro",
  "price_micro", "unit", "quantity_micro", "cost_micro", "cost_per_1000_micro", "supplier",
  "document", "category", "row_kind", "note", NULL
};

enum
{
  KIND,
  NAME,
  PART_KIND,
  PART,
  NUMBER,
  DATE,
  SOLD,
  NET_REVENUE,
  PRICE,
  UNIT,
  QUANTITY,
  COST,
  COST_PER_1000,
  SUPPLIER,
  DOCUMENT,
  CATEGORY,
  ROW_KIND,
  NOTE,
};

static const char *
text_of (CroMonth *month,
         CroRows  *rows,
         int       column)
{
  const char *text = cro_rows_get_text (rows, column);

  return text != NULL ? g_string_chunk_insert_const (month->texts, text) : NULL;
}

static double
number_of (CroRows *rows,
           int      column)
{
  return cro_rows_is_null (rows, column) ? NAN
                                         : cro_decimal_to_double (cro_rows_get_int (rows, column));
}

static double
known_number (CroRows *rows,
              int      column)
{
  return cro_rows_is_null (rows, column) ? 0 : number_of (rows, column);
}

static guint
number_counted (CroRows *rows,
                int      column)
{
  return (guint) CLAMP (known_number (rows, column), 0, G_MAXINT);
}

/* A month while it is read. Values of the tables are indices, and 1. */
typedef struct
{
  CroMonth   *month;
  GHashTable *things[CRO_MONTH_OTHER + 1];   /* name → in month->things */
  GHashTable *items;                         /* name → in month->items */
  CroUnit     unit;                          /* of the row that is read */
  gboolean    is_strange;                    /* a word that closing writes nowhere stood in a row */
} Thawing;

/* What no word of ours tells is left out: it is taken for nothing else. */
static gboolean
find_code (Thawing           *self,
           const char *const *codes,
           const char        *text,
           guint             *index)
{
  gboolean is_known = cro_code_find (codes, text, index);

  self->is_strange |= !is_known;
  return is_known;
}

/* How much is known of a figure: one of which that cannot be read has no bound. */
static CroKnown
known_of (Thawing    *self,
          const char *note)
{
  guint known = CRO_KNOWN_WHOLE;

  return note == NULL || find_code (self, cro_month_known_codes, note, &known) ? (CroKnown) known
                                                                               : CRO_KNOWN_IN_PART;
}

static CroBase
base_of (const Thawing *self)
{
  return cro_unit_get (self->unit)->base;
}

/* --- Things --------------------------------------------------------------------------------- */

static CroMonthThing *
thing_of (Thawing           *self,
          CroMonthThingKind  kind,
          const char        *name)
{
  GArray *things = self->month->things;
  guint at = GPOINTER_TO_UINT (g_hash_table_lookup (self->things[kind], name));
  CroMonthThing thing = { .kind = kind, .price = NAN, .theoretical = kind == CRO_MONTH_OTHER ? NAN : 0 };

  if (at == 0)
    {
      thing.name = g_string_chunk_insert_const (self->month->texts, name);
      thing.parts = g_array_new (FALSE, FALSE, sizeof (CroMonthPart));
      g_array_append_val (things, thing);
      at = things->len;
      g_hash_table_insert (self->things[kind], (gpointer) thing.name, GUINT_TO_POINTER (at));
    }
  return &g_array_index (things, CroMonthThing, at - 1);
}

static CroKnown
known_revenue (const char *note)
{
  static const CroKnown others[] = { CRO_KNOWN_AT_MOST, CRO_KNOWN_IN_PART };
  const char *lacks = note != NULL ? strstr (note, CRO_MONTH_LACKS_REVENUE) : NULL;

  if (lacks == NULL)
    return CRO_KNOWN_WHOLE;
  lacks += strlen (CRO_MONTH_LACKS_REVENUE);
  for (gsize i = 0; i < G_N_ELEMENTS (others); i++)
    if (g_str_has_prefix (lacks, CRO_MONTH_REVENUE_IS)
        && g_str_has_prefix (lacks + strlen (CRO_MONTH_REVENUE_IS), cro_month_known_codes[others[i]]))
      return others[i];
  return CRO_KNOWN_AT_LEAST;
}

static void
take_thing (Thawing *self,
            CroRows *rows)
{
  CroMonth *month = self->month;
  CroMonthThing *thing;
  const char *note;
  guint kind, of_part;

  if (!find_code (self, cro_sale_kind_codes, cro_rows_get_text (rows, KIND), &kind))
    return;
  thing = thing_of (self, (CroMonthThingKind) kind, cro_rows_get_text (rows, NAME));
  if (!cro_rows_is_null (rows, PART))
    {
      CroMonthPart part = { text_of (month, rows, PART), 0, base_of (self), known_number (rows, QUANTITY),
                            known_number (rows, COST_PER_1000) / 1000 };

      if (!find_code (self, cro_frozen_part_codes, cro_rows_get_text (rows, PART_KIND), &of_part))
        return;
      part.kind = of_part;
      g_array_append_val (thing->parts, part);
      return;
    }
  note = cro_rows_get_text (rows, NOTE);
  thing->sold = known_number (rows, SOLD);
  thing->net_revenue = known_number (rows, NET_REVENUE);
  thing->price = number_of (rows, PRICE);
  thing->theoretical = number_of (rows, COST);
  thing->course = text_of (month, rows, CATEGORY);
  thing->known_revenue = known_revenue (note);
  thing->lacks_revenue = thing->known_revenue != CRO_KNOWN_WHOLE;
  thing->is_incomplete = note != NULL && strstr (note, CRO_MONTH_INCOMPLETE) != NULL;
  thing->has_credit = note != NULL && strstr (note, CRO_MONTH_HAS_CREDIT) != NULL;
}

/* --- The statement -------------------------------------------------------------------------- */

/* Months that were closed before it was noted say nothing. */
#define NOT_NOTED ((CroKnown) (CRO_KNOWN_NOTHING + 1))

static CroKnown
known_at (Thawing *self,
          CroRows *rows,
          int      column)
{
  return cro_rows_is_null (rows, column) ? NOT_NOTED : known_of (self, cro_rows_get_text (rows, column));
}

static CroMonthItem *
item_of (Thawing    *self,
         const char *name,
         CroBase     base)
{
  GArray *items = self->month->items;
  guint at = GPOINTER_TO_UINT (g_hash_table_lookup (self->items, name));
  CroMonthItem item = { .base = base, .actual_quantity = NAN, .actual_cost = NAN,
                        .price_variance = NAN, .usage_variance = NAN, .bought_variance = NAN,
                        .counted_quantity = NAN, .counted_value = NAN, .average_cost = NAN };

  if (at == 0)
    {
      item.name = g_string_chunk_insert_const (self->month->texts, name);
      g_array_append_val (items, item);
      at = items->len;
      g_hash_table_insert (self->items, (gpointer) item.name, GUINT_TO_POINTER (at));
    }
  return &g_array_index (items, CroMonthItem, at - 1);
}

static void
take_item (Thawing    *self,
           CroRows    *rows,
           const char *name)
{
  CroMonth *month = self->month;
  CroMonthItem *item = item_of (self, cro_rows_get_text (rows, PART), base_of (self));
  CroKnown known = known_at (self, rows, NOTE);

  if (strcmp (name, "item") == 0)
    {
      item->theoretical_quantity = known_number (rows, QUANTITY);
      item->theoretical_cost = known_number (rows, COST);
      item->category = text_of (month, rows, CATEGORY);
      item->known_theoretical = known;
    }
  else if (strcmp (name, "item-actual") == 0)
    {
      item->actual_quantity = number_of (rows, QUANTITY);
      item->actual_cost = number_of (rows, COST);
      item->known_actual = known;
    }
  else if (strcmp (name, "item-stock") == 0)
    {
      item->counted_quantity = number_of (rows, QUANTITY);
      item->counted_value = number_of (rows, COST);
      item->average_cost = number_of (rows, COST_PER_1000) / 1000;
      item->known_stock = known;
    }
  else if (strcmp (name, "item-bought") == 0)
    {
      item->bought_variance = number_of (rows, COST);
      item->bought = known_number (rows, NET_REVENUE);
    }
}

static void
take_question (Thawing *self,
               CroRows *rows)
{
  CroMonth *month = self->month;
  CroMonthQuestion question = {
    .about = text_of (month, rows, CATEGORY), .day = cro_row_date (rows, DATE),
    .detail = text_of (month, rows, NOTE), .explains = number_of (rows, COST)
  };

  if (!cro_month_question_parse (cro_rows_get_text (rows, ROW_KIND), &question.kind))
    {
      self->is_strange = TRUE;
      return;
    }
  if (question.about == NULL)
    question.about = "?";
  g_array_append_val (month->questions, question);
}

static double *
money_named (CroMonth   *month,
             const char *name)
{
  const struct
  {
    const char *name;
    double     *money;
  } all[] = {
    { "net-sales", &month->net_sales },
    { "net-sales-costed", &month->net_sales_costed },
    { "till", &month->till },
    { "till-gross", &month->till_gross },
    { "gross-sales", &month->gross_sales },
    { "ledger", &month->ledger },
    { "estimate", &month->estimate },
    { "opening-stock", &month->opening },
    { "closing-stock", &month->closing },
    { "actual", &month->actual },
    { "theoretical", &month->theoretical },
    { "over", &month->over },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    if (strcmp (all[i].name, name) == 0)
      return all[i].money;
  return NULL;
}

static void
take_known (Thawing    *self,
            CroRows    *rows,
            const char *name)
{
  CroMonth *month = self->month;
  const char *note = cro_rows_get_text (rows, NOTE);

  if (strcmp (name, "actual") == 0)
    month->known_actual = known_of (self, note);
  else if (strcmp (name, "theoretical") == 0)
    month->known_theoretical = known_of (self, note);
  else if (strcmp (name, "over") == 0)
    month->known_over = known_of (self, note);
  else if (strcmp (name, "net-sales") == 0)
    {
      month->known_revenue = cro_month_known_add (CRO_KNOWN_WHOLE, known_of (self, note));
      month->lacks_revenue = month->known_revenue != CRO_KNOWN_WHOLE;
    }
  else if (strcmp (name, "opening-stock") == 0)
    {
      month->n_opening = number_counted (rows, QUANTITY);
      month->known_opening = known_of (self, note);
    }
  else if (strcmp (name, "closing-stock") == 0)
    {
      month->n_closing = number_counted (rows, QUANTITY);
      month->is_entered = g_strcmp0 (note, CRO_MONTH_ENTERED) == 0;
      month->known_closing = month->is_entered ? CRO_KNOWN_WHOLE : known_of (self, note);
    }
}

static void
take_adjustment (Thawing *self,
                 CroRows *rows)
{
  CroMonth *month = self->month;
  guint kind;

  if (!find_code (self, cro_adjustment_kind_codes, cro_rows_get_text (rows, ROW_KIND), &kind))
    return;
  month->adjustments[kind] = known_number (rows, COST);
  month->known_adjustments[kind] = known_of (self, cro_rows_get_text (rows, NOTE));
}

static void
take_purchases (Thawing *self,
                CroRows *rows,
                double  *money)
{
  guint kind;

  if (find_code (self, cro_purchase_kind_codes, cro_rows_get_text (rows, ROW_KIND), &kind))
    money[kind] = known_number (rows, COST);
}

static void
take_share (Thawing *self,
            CroRows *rows,
            GArray **into)
{
  CroMonthOf of = { cro_row_date (rows, DATE), known_number (rows, COST) };
  guint kind;

  if (find_code (self, cro_purchase_kind_codes, cro_rows_get_text (rows, ROW_KIND), &kind))
    g_array_append_val (into[kind], of);
}

static void
take_statement (Thawing *self,
                CroRows *rows)
{
  CroMonth *month = self->month;
  const char *name = text_of (month, rows, NAME);
  double *money = money_named (month, name);

  if (money != NULL)
    {
      *money = number_of (rows, COST);
      take_known (self, rows, name);
    }
  else if (strcmp (name, "used") == 0)
    month->known_used = known_of (self, cro_rows_get_text (rows, NOTE));
  else if (strcmp (name, "rest") == 0)
    month->known_rest = known_of (self, cro_rows_get_text (rows, NOTE));
  else if (strcmp (name, "purchases") == 0)
    take_purchases (self, rows, month->purchases);
  else if (strcmp (name, "earlier") == 0)
    take_purchases (self, rows, month->earlier);
  else if (strcmp (name, CRO_MONTH_EARLIER_OF) == 0)
    take_share (self, rows, month->earlier_of);
  else if (strcmp (name, CRO_MONTH_LATER_OF) == 0)
    take_share (self, rows, month->later_of);
  else if (strcmp (name, "adjustments") == 0)
    take_adjustment (self, rows);
  else if (strcmp (name, "recipes-on") == 0)
    month->recipes_on = cro_row_date (rows, DATE);
  else if (strcmp (name, "currency") == 0)
    month->currency = text_of (month, rows, NOTE);
  else if (strcmp (name, "missing") == 0)
    g_ptr_array_add (month->missing, (gpointer) text_of (month, rows, NOTE));
  else if (strcmp (name, "question") == 0)
    take_question (self, rows);
  else if (g_str_has_prefix (name, "item") && !cro_rows_is_null (rows, PART))
    take_item (self, rows, name);
  else if (strcmp (name, "by-product") == 0)
    {
      CroMonthByProduct of = { text_of (month, rows, PART), base_of (self),
                               known_number (rows, QUANTITY),
                               known_number (rows, COST_PER_1000) / 1000, known_number (rows, COST) };

      if (of.name != NULL)
        g_array_append_val (month->by_products, of);
    }
}

static void
add_variances (CroMonth *month)
{
  for (guint i = 0; i < month->items->len; i++)
    {
      CroMonthItem *item = &g_array_index (month->items, CroMonthItem, i);
      CroVariance variance = cro_variance (item->actual_quantity, item->actual_cost,
                                           item->theoretical_quantity, item->theoretical_cost);

      item->price_variance = variance.price;
      item->usage_variance = variance.usage;
    }
}

/* --- What it is made of --------------------------------------------------------------------- */

/* Where an item has no name, its kind stands for it. */
static void
take_record (Thawing           *self,
             CroRows           *rows,
             GArray            *records,
             const char *const *kinds)
{
  CroMonth *month = self->month;
  const char *row_kind = cro_rows_get_text (rows, ROW_KIND), *name = text_of (month, rows, NAME);
  CroMonthRecord record = {
    .number = number_counted (rows, NUMBER), .name = g_strcmp0 (name, row_kind) != 0 ? name : NULL,
    .day = cro_row_date (rows, DATE), .has_amount = !cro_rows_is_null (rows, QUANTITY), .unit = self->unit,
    .money = known_number (rows, COST), .supplier = text_of (month, rows, SUPPLIER),
    .document = text_of (month, rows, DOCUMENT)
  };

  if (kinds != NULL && !find_code (self, kinds, row_kind, &record.kind))
    return;
  if (kinds == cro_purchase_kind_codes)
    record.category = text_of (month, rows, CATEGORY);
  else
    record.known = known_at (self, rows, CATEGORY);
  record.amount = record.has_amount ? cro_rows_get_int (rows, QUANTITY) : 0;
  *(kinds == cro_purchase_kind_codes ? &record.document_date : &record.note) = text_of (month, rows, NOTE);
  g_array_append_val (records, record);
}

static void
take_row (Thawing    *self,
          CroRows    *rows,
          const char *kind)
{
  CroMonth *month = self->month;

  if (strcmp (kind, "statement") == 0)
    take_statement (self, rows);
  else if (strcmp (kind, "count") == 0)
    take_record (self, rows, month->counts, NULL);
  else if (strcmp (kind, "purchase") == 0)
    take_record (self, rows, month->bought, cro_purchase_kind_codes);
  else if (strcmp (kind, "adjustment") == 0)
    take_record (self, rows, month->adjusted, cro_adjustment_kind_codes);
  else
    take_thing (self, rows);
}

/* Where that was not noted, what is missing of the item of a name tells, once all is read. */
static void
settle (CroMonth   *month,
        CroKnown   *known,
        const char *name,
        double      money)
{
  if (*known == NOT_NOTED)
    *known = cro_month_known_by_name (month, name, money);
}

static void
settle_records (CroMonth *month,
                GArray   *records)
{
  for (guint i = 0; i < records->len; i++)
    {
      CroMonthRecord *record = &g_array_index (records, CroMonthRecord, i);

      settle (month, &record->known, record->name, record->money);
    }
}

static void
settle_known (CroMonth *month)
{
  for (guint i = 0; i < month->items->len; i++)
    {
      CroMonthItem *item = &g_array_index (month->items, CroMonthItem, i);

      settle (month, &item->known_theoretical, item->name, item->theoretical_cost);
      settle (month, &item->known_actual, NULL, NAN);
      settle (month, &item->known_stock, NULL, NAN);
    }
  settle_records (month, month->counts);
  settle_records (month, month->adjusted);
  if (month->known_used == NOT_NOTED)
    month->known_used = cro_known_of_sum (month->known_opening, cro_known_turned (month->known_closing));
  if (month->known_rest == NOT_NOTED)
    month->known_rest = month->known_over;
}

static void
sort_records (CroMonth *month)
{
  g_array_sort (month->counts, cro_month_compare_records);
  g_array_sort (month->bought, cro_month_compare_records);
  g_array_sort (month->adjusted, cro_month_compare_records);
}

static gboolean
take_rows (CroMonth  *month,
           CroRows   *rows,
           guint     *n_of_statement,
           GError   **error)
{
  Thawing self = { .month = month, .items = g_hash_table_new (g_str_hash, g_str_equal) };
  g_autoptr (GError) failed = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (self.things); i++)
    self.things[i] = g_hash_table_new (g_str_hash, g_str_equal);
  while (cro_rows_next (rows, &failed) && cro_month_read_unit (rows, UNIT, &self.unit, &failed))
    {
      const char *kind = cro_rows_get_text (rows, KIND);

      *n_of_statement += strcmp (kind, "statement") == 0;
      take_row (&self, rows, kind);
    }
  for (guint i = 0; i < G_N_ELEMENTS (self.things); i++)
    g_hash_table_unref (self.things[i]);
  g_hash_table_unref (self.items);
  if (self.is_strange)
    month->altered = month->first;
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&failed));
  return FALSE;
}

static gboolean
look_whether_kept (CroMonth           *month,
                   CroBook            *book,
                   const CroMonthRow  *row,
                   GError            **error)
{
  gboolean is_kept = TRUE;

  if (!cro_frozen_is_kept (cro_book_get_store (book), row->id, row->hash, &is_kept, error))
    return FALSE;
  if (!is_kept)
    month->altered = row->first;
  return TRUE;
}

CroMonth *
cro_month_thaw (CroBook            *book,
                const CroMonthRow  *row,
                gboolean           *is_frozen,
                GError            **error)
{
  g_autoptr (CroMonth) month = cro_month_new_empty (row->first);
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "month_row", "month",
                                                row->id, cro_month_row_columns, error);
  guint n = 0;

  month->is_closed = TRUE;
  month->known_used = month->known_rest = NOT_NOTED;
  month->hash = row->hash != NULL ? g_string_chunk_insert_const (month->texts, row->hash) : NULL;
  if (rows == NULL || !take_rows (month, rows, &n, error) || !look_whether_kept (month, book, row, error))
    return NULL;
  if (is_frozen != NULL)
    *is_frozen = n > 0;
  settle_known (month);
  add_variances (month);
  cro_month_add_later (month);
  cro_month_sort (month);
  sort_records (month);
  return g_steal_pointer (&month);
}
