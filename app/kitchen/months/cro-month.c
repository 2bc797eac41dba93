#include "cro-month-private.h"

#include <math.h>
#include <string.h>

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-here.h"
#include "cro-month-edit.h"
#include "cro-text-order.h"

/* --- What the parts share ------------------------------------------------------------------- */

const char *
cro_month_keep (CroMonthWork *self,
                const char   *text)
{
  return text != NULL ? g_string_chunk_insert_const (self->month->texts, text) : NULL;
}

CroMonthGathered *
cro_month_gather (CroMonthWork *self,
                  CroBook      *book,
                  guint32       item)
{
  CroModel *model = cro_book_get_model (book);
  const CroItem *of = cro_model_item (model, item);
  CroMonthGathered *found = g_hash_table_lookup (self->gathered, &of->id);

  if (found != NULL)
    return found;
  found = g_new0 (CroMonthGathered, 1);
  found->id = of->id;
  found->name = cro_month_keep (self, of->name);
  found->base = (CroBase) model->measures[item].base;
  found->is_food = !of->is_disposable;
  found->is_bought = model->measures[item].is_bought;
  g_hash_table_insert (self->gathered, &found->id, found);
  return found;
}

static gboolean
is_of_food (CroModel       *model,
            const CroCause *cause)
{
  if (cause->kind == CRO_CAUSE_WAGE)
    return FALSE;
  for (guint32 item = 0; cause->name != NULL && item < model->items->len; item++)
    if (cro_model_item (model, item)->name == cause->name)
      return !cro_model_item (model, item)->is_disposable;
  return TRUE;
}

gboolean
cro_month_has_causes (CroModel *model,
                      GArray   *causes)
{
  for (guint i = 0; i < causes->len; i++)
    if (is_of_food (model, &g_array_index (causes, CroCause, i)))
      return TRUE;
  return FALSE;
}

gboolean
cro_month_add_causes (CroMonthWork *self,
                      CroModel     *model,
                      GArray       *causes)
{
  gboolean any = FALSE;

  for (guint i = 0; i < causes->len; i++)
    {
      const CroCause *cause = &g_array_index (causes, CroCause, i);

      if (!is_of_food (model, cause))
        continue;
      g_hash_table_add (self->missing, cro_cause_to_text (cause));
      any = TRUE;
    }
  return any;
}

void
cro_month_take_uncounted (CroMonthWork *self,
                          CroBook      *book,
                          CroRef        thing,
                          CroMonthTake  take)
{
  CroFigures *figures = cro_book_get_figures (book);
  g_autofree guint64 *uncounted = cro_known_list_uncounted (figures, thing);

  for (guint32 node = 0; node < figures->graph.n_raws; node++)
    if (uncounted[node / 64] >> node % 64 & 1)
      take (cro_month_gather (self, book, figures->graph.item_of_node[node]), 0, 0, CRO_KNOWN_AT_LEAST);
}

void
cro_month_ask (CroMonthWork         *self,
               CroMonthQuestionKind  kind,
               const char           *about,
               CroDate               day,
               const char           *detail,
               double                explains)
{
  CroMonthQuestion question = { kind, NULL, day, NULL, explains };
  GArray *questions = self->month->questions;
  g_autofree char *key = g_strdup_printf ("%d %d %s %s", kind, day, detail != NULL ? detail : "", about);
  guint known = GPOINTER_TO_UINT (g_hash_table_lookup (self->asked, key));

  if (known > 0)
    {
      g_array_index (questions, CroMonthQuestion, known - 1).explains += explains;
      return;
    }
  question.about = cro_month_keep (self, about != NULL ? about : "?");
  question.detail = cro_month_keep (self, detail);
  g_array_append_val (questions, question);
  g_hash_table_insert (self->asked, g_steal_pointer (&key), GUINT_TO_POINTER (questions->len));
}

gboolean
cro_month_turn_to (CroBook  *book,
                   CroDate   day,
                   GError  **error)
{
  return day == CRO_NO_DAY || cro_book_get_figures (book)->date == day
         || cro_book_set_date (book, day, error);
}

void
cro_month_lower (CroKnown *known,
                 CroKnown  of_part)
{
  *known = cro_known_of_sum (*known, of_part);
}

const char *
cro_month_item_name (CroBook *book,
                     gint64   id)
{
  CroModel *model = cro_book_get_model (book);
  guint32 slot = cro_slots_get (&model->item_slots, id);

  return slot != CRO_NO_SLOT ? cro_model_item (model, slot)->name : NULL;
}

static guint32
live_item (CroBook *book,
           gint64   id)
{
  CroModel *model = cro_book_get_model (book);
  guint32 slot = cro_slots_get (&model->item_slots, id);

  return slot != CRO_NO_SLOT && !cro_model_item (model, slot)->is_dead ? slot : CRO_NO_SLOT;
}

CroBook *
cro_month_find_item (CroMonthWork  *self,
                     CroDate        recipes_on,
                     gint64         id,
                     CroDate        day,
                     guint32       *item,
                     GError       **error)
{
  CroBook *book = cro_month_recipes_of (self->recipes, recipes_on, NULL, error);

  if (book == NULL)
    return NULL;
  *item = live_item (book, id);
  if (*item == CRO_NO_SLOT)
    {
      book = cro_month_recipes_of (self->recipes, MAX (recipes_on, cro_here_today ()), NULL, error);
      if (book == NULL)
        return NULL;
      *item = live_item (book, id);
    }
  return cro_month_turn_to (book, day, error) ? book : NULL;
}

void
cro_month_add_lacks (CroMonthWork *self,
                     CroModel     *model,
                     guint32       item,
                     CroUnit       unit)
{
  const CroMeasure *measure = &model->measures[item];
  CroLack lack = cro_measure_lacks (measure, cro_unit_get (unit)->base, (CroBase) measure->base);
  const char *name = cro_model_item (model, item)->name;

  if (lack & CRO_LACKS_DENSITY)
    g_hash_table_add (self->missing, g_strconcat ("density ", name, NULL));
  if (lack & CRO_LACKS_PIECE)
    g_hash_table_add (self->missing, g_strconcat ("piece ", name, NULL));
}

static double
money_or_none (gint64 micro)
{
  return micro != CRO_NOT_SET ? cro_decimal_to_double (micro) : NAN;
}

/* --- Conclusions ---------------------------------------------------------------------------- */

static void
take_missing (CroMonthWork *self)
{
  GHashTableIter iter;
  gpointer text;

  g_hash_table_iter_init (&iter, self->missing);
  while (g_hash_table_iter_next (&iter, &text, NULL))
    {
      const char *name = strchr (text, ' ');

      g_ptr_array_add (self->month->missing, (gpointer) cro_month_keep (self, text));
      cro_month_ask (self, CRO_QUESTION_MISSING, name != NULL ? name + 1 : text, CRO_NO_DAY, text, NAN);
    }
}

/* Food that is gone from the house: opening and bought less closing. */
static double
food_used (const CroMonth *self)
{
  double estimate = isnan (self->estimate) ? 0 : self->estimate;

  return self->opening + self->purchases[0] + self->earlier[0] + estimate - self->closing;
}

/* A stock of which something has no known value is worth more than its sum; what an open closing
 * stock leaves makes the actual cost too large, what an open opening stock lacks too small. */
static CroKnown
known_actual (const CroMonth *month)
{
  CroKnown known = month->known_used;

  for (guint i = 0; i < CRO_N_ADJUSTMENT_KINDS; i++)
    if (cro_month_sign_of (i) > 0)
      cro_month_lower (&known, month->known_adjustments[i]);
    else if (cro_month_sign_of (i) < 0)
      cro_month_lower (&known, cro_known_turned (month->known_adjustments[i]));
  return isnan (month->actual) ? CRO_KNOWN_NOTHING : known;
}

static void
sum_up (CroMonth *month)
{
  const double *by = month->adjustments;

  month->actual = food_used (month) + by[CRO_ADJUSTMENT_TRANSFER_IN] - by[CRO_ADJUSTMENT_STAFF_MEAL]
                  - by[CRO_ADJUSTMENT_PROMOTION] - by[CRO_ADJUSTMENT_TRANSFER_OUT] - by[CRO_ADJUSTMENT_OTHER];
  month->over = month->actual - month->theoretical;
}

void
cro_month_estimate (CroMonth *self,
                    gint64    estimate)
{
  self->estimate = money_or_none (estimate);
  sum_up (self);
  cro_month_ask_ties (self);
  cro_month_sort (self);
}

static gboolean
is_anything_without (CroMonthWork *self)
{
  gboolean is_without = g_hash_table_size (self->missing) > 0;

  for (guint i = 0; i < self->month->questions->len; i++)
    is_without |= g_array_index (self->month->questions, CroMonthQuestion, i).kind == CRO_QUESTION_NO_VALUE;
  return is_without;
}

static void
conclude_costs (CroMonthWork *self)
{
  CroMonth *month = self->month;

  sum_up (month);
  month->known_theoretical = !self->theory_open    ? CRO_KNOWN_WHOLE
                             : self->theory_credit ? CRO_KNOWN_IN_PART
                                                   : CRO_KNOWN_AT_LEAST;
  month->known_actual = known_actual (month);
  month->known_over = isnan (month->over)
                          ? CRO_KNOWN_NOTHING
                          : cro_known_of_sum (month->known_actual,
                                              cro_known_turned (month->known_theoretical));
  /* What has no figure of its own is of no ingredient, or of one that is not measured. */
  if (month->known_over == CRO_KNOWN_WHOLE || is_anything_without (self))
    month->known_rest = month->known_over;
}

/* Questions about missing figures, and what is known of each figure. */
static void
conclude (CroMonthWork *self)
{
  conclude_costs (self);
  take_missing (self);
  cro_month_ask_ties (self->month);
  cro_month_sort (self->month);
}

void
cro_month_add_later (CroMonth *self)
{
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    for (guint i = 0; i < self->later_of[k]->len; i++)
      self->later[k] += g_array_index (self->later_of[k], CroMonthOf, i).money;
}

double
cro_month_late (const CroMonth *self,
                guint           kind)
{
  return cro_month_sum (self->earlier[kind] + self->later[kind] + (kind == 0 ? self->reversed : 0));
}

gboolean
cro_month_came_since (const CroMonth *self)
{
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    if (self->late[k] != 0 || self->awaited[k] != 0)
      return TRUE;
  return FALSE;
}

double
cro_month_all_purchases (const CroMonth *self)
{
  double sum = 0;

  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    sum += self->purchases[k] + self->earlier[k];
  return isnan (self->estimate) ? sum : sum + self->estimate;
}

gboolean
cro_month_has_begun (const CroMonth *self)
{
  return self->first <= cro_here_today ();
}

gboolean
cro_month_is_tied_with_tax (const CroMonth *self)
{
  return isnan (self->till) && !isnan (self->till_gross);
}

gboolean
cro_month_is_whole (const CroMonth *self)
{
  return self->known_actual == CRO_KNOWN_WHOLE && self->known_theoretical == CRO_KNOWN_WHOLE
         && !self->lacks_revenue && self->missing->len == 0;
}

/* --- Order ---------------------------------------------------------------------------------- */

int
cro_month_compare_things (gconstpointer a,
                          gconstpointer b)
{
  const CroMonthThing *x = a, *y = b;

  if (x->kind != y->kind)
    return x->kind < y->kind ? -1 : 1;
  return strcmp (x->name, y->name);
}

static int
compare_items (gconstpointer a,
               gconstpointer b)
{
  return strcmp (((const CroMonthItem *) a)->name, ((const CroMonthItem *) b)->name);
}

static int
compare_by_products (gconstpointer a,
                     gconstpointer b)
{
  return strcmp (((const CroMonthByProduct *) a)->name, ((const CroMonthByProduct *) b)->name);
}

static int
compare_questions (gconstpointer a,
                   gconstpointer b)
{
  const CroMonthQuestion *x = a, *y = b;
  double p = isnan (x->explains) ? 0 : fabs (x->explains);
  double q = isnan (y->explains) ? 0 : fabs (y->explains);
  int order;

  if (x->kind != y->kind)
    return x->kind < y->kind ? -1 : 1;
  if (p != q)
    return p > q ? -1 : 1;
  order = strcmp (x->about, y->about);
  if (order == 0)
    order = g_strcmp0 (x->detail, y->detail);
  return order != 0 ? order : x->day < y->day ? -1 : x->day > y->day;
}

void
cro_month_sort (CroMonth *self)
{
  g_array_sort (self->things, cro_month_compare_things);
  g_array_sort (self->items, compare_items);
  g_array_sort (self->by_products, compare_by_products);
  g_array_sort (self->questions, compare_questions);
  g_ptr_array_sort (self->missing, cro_text_order);
}

/* --- The month ------------------------------------------------------------------------------ */

static void
clear_thing (gpointer data)
{
  g_clear_pointer (&((CroMonthThing *) data)->parts, g_array_unref);
}

CroMonth *
cro_month_new_empty (CroDate first)
{
  CroMonth *self = g_new0 (CroMonth, 1);

  self->first = first;
  self->recipes_on = self->altered = CRO_NO_DAY;
  self->till = self->till_gross = self->gross_sales = self->ledger = self->estimate = NAN;
  self->opening = self->closing = NAN;
  self->actual = self->over = NAN;
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      self->earlier_of[k] = g_array_new (FALSE, FALSE, sizeof (CroMonthOf));
      self->later_of[k] = g_array_new (FALSE, FALSE, sizeof (CroMonthOf));
      self->booked_in[k] = g_array_new (FALSE, FALSE, sizeof (CroMonthOf));
      self->reversed_of[k] = g_array_new (FALSE, FALSE, sizeof (CroMonthOf));
    }
  self->missing = g_ptr_array_new ();
  self->things = g_array_new (FALSE, FALSE, sizeof (CroMonthThing));
  g_array_set_clear_func (self->things, clear_thing);
  self->items = g_array_new (FALSE, FALSE, sizeof (CroMonthItem));
  self->by_products = g_array_new (FALSE, FALSE, sizeof (CroMonthByProduct));
  self->questions = g_array_new (FALSE, FALSE, sizeof (CroMonthQuestion));
  self->counts = g_array_new (FALSE, FALSE, sizeof (CroMonthRecord));
  self->bought = g_array_new (FALSE, FALSE, sizeof (CroMonthRecord));
  self->adjusted = g_array_new (FALSE, FALSE, sizeof (CroMonthRecord));
  self->late_bought = g_array_new (FALSE, FALSE, sizeof (CroMonthRecord));
  self->texts = g_string_chunk_new (4096);
  return self;
}

void
cro_month_free (CroMonth *self)
{
  g_clear_pointer (&self->entries, cro_month_entries_free);
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      g_array_unref (self->earlier_of[k]);
      g_array_unref (self->later_of[k]);
      g_array_unref (self->booked_in[k]);
      g_array_unref (self->reversed_of[k]);
    }
  g_ptr_array_unref (self->missing);
  g_array_unref (self->things);
  g_array_unref (self->items);
  g_array_unref (self->by_products);
  g_array_unref (self->questions);
  g_array_unref (self->counts);
  g_array_unref (self->bought);
  g_array_unref (self->adjusted);
  g_array_unref (self->late_bought);
  g_string_chunk_free (self->texts);
  g_free (self);
}

/* By default the recipes are those of the last day, while the month runs those of today. A book as it stood knows
 * of none after its day. */
static CroDate
recipes_day (CroBook           *book,
             const CroMonthRow *row)
{
  CroDate last = cro_month_next (row->first) - 1, stood;
  CroDate day = row->recipes_on != CRO_NO_DAY ? row->recipes_on : MIN (last, cro_here_today ());

  return cro_book_is_past (book, &stood) ? MIN (day, stood) : day;
}

static gboolean
take_recipes (CroMonthWork  *self,
              GError       **error)
{
  CroMonth *month = self->month;
  CroDate stood;

  month->recipes_on = recipes_day (self->book, self->entries->row);
  self->before_on = recipes_day (self->book, self->entries->before);
  if (cro_month_recipes_of (self->recipes, month->recipes_on, &stood, error) == NULL)
    return FALSE;
  if (stood > month->recipes_on && self->entries->sales->len > 0)
    {
      char text[CRO_MONTH_CHARS];

      cro_month_format (month->first, text);
      cro_month_ask (self, CRO_QUESTION_BEFORE, text, stood, NULL, NAN);
    }
  self->stood = stood;
  return TRUE;
}

static gboolean
take_categories (CroMonthWork  *self,
                 GError       **error)
{
  static const char *const columns[] = { "id", "category", NULL };
  g_autoptr (GHashTable) of = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (self->book), "ingredient", columns,
                                             error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      gint64 id = cro_rows_get_int (rows, 0);

      g_hash_table_insert (of, g_memdup2 (&id, sizeof id),
                           (gpointer) cro_month_keep (self, cro_rows_get_text (rows, 1)));
    }
  for (guint i = 0; i < self->month->items->len; i++)
    {
      CroMonthItem *item = &g_array_index (self->month->items, CroMonthItem, i);

      item->category = g_hash_table_lookup (of, &item->id);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* Only for a till that says its total with tax alone: it reads all sales once more. */
static gboolean
take_gross_sales (CroMonthWork  *self,
                  GError       **error)
{
  CroMonth *month = self->month;
  gboolean is_whole;
  double gross;

  if (!cro_month_is_tied_with_tax (month))
    return TRUE;
  if (!cro_month_gross_sales (self->book, month->first, &gross, &is_whole, error))
    return FALSE;
  month->gross_sales = is_whole ? gross : NAN;
  return TRUE;
}

static gboolean
compute (CroMonthWork  *self,
         GError       **error)
{
  const CroMonthRow *row = self->entries->row;
  CroMonth *month = self->month;

  month->currency = cro_month_keep (self, cro_book_get_model (self->book)->currency);
  month->estimate = money_or_none (row->estimate);
  month->till = money_or_none (row->till_net);
  month->till_gross = money_or_none (row->till_gross);
  month->ledger = money_or_none (row->ledger);
  if (!take_recipes (self, error) || !take_gross_sales (self, error) || !cro_month_add_sales (self, error)
      || !cro_month_add_stock (self, error) || !cro_month_add_purchases (self, error)
      || !cro_month_add_adjustments (self, error) || !cro_month_doubt_closing (self, error))
    return FALSE;
  cro_month_add_variances (self);
  if (!cro_month_add_doubts (self, error) || !take_categories (self, error))
    return FALSE;
  conclude (self);
  return !self->with_rows || cro_month_add_records (self, error);
}

static CroMonth *
reckon (CroBook   *book,
        CroDate    first,
        gboolean   with_rows,
        gboolean   with_parts,
        GError   **error)
{
  g_autoptr (CroMonthEntries) entries = cro_month_entries_new (book, first, error);
  g_autoptr (CroMonth) month = NULL;
  g_autoptr (CroMonthRecipes) recipes = NULL;
  CroMonthWork work = { .book = book, .entries = entries, .with_rows = with_rows, .with_parts = with_parts };
  CroDate altered = CRO_NO_DAY;
  gboolean done;

  if (entries == NULL)
    return NULL;
  if (entries->row->is_closed)
    {
      gboolean is_frozen;

      month = cro_month_thaw (book, entries->row, &is_frozen, error);
      if (month == NULL)
        return NULL;
      altered = month->altered;
      month->reversed = cro_decimal_to_double (entries->reversed);
      if (is_frozen)
        cro_month_take_late (month, entries);
      if (is_frozen)
        return cro_month_drop_answered (month, book, entries->row, error)
                       && cro_month_ask_opening (month, book, entries->before, error)
                   ? g_steal_pointer (&month)
                   : NULL;
      g_clear_pointer (&month, cro_month_free);
    }
  else if (entries->row->hash != NULL)
    altered = first;   /* reopening takes its hash away */
  /* Closed ones are compared: one whose frozen rows are gone is reckoned as they are. */
  work.with_parts |= entries->row->is_closed;
  work.month = month = cro_month_new_empty (first);
  month->altered = altered;
  work.recipes = recipes = cro_month_recipes_new (book);
  work.gathered = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, g_free);
  work.credits = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  work.missing = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  work.asked = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  month->is_closed = entries->row->is_closed;
  done = compute (&work, error) && cro_month_look_before (month, entries, book, error)
         && (month->is_closed || cro_month_ask_next_opened (month, book, error));
  if (done && with_rows)
    month->entries = g_steal_pointer (&entries);
  g_hash_table_unref (work.gathered);
  g_hash_table_unref (work.credits);
  g_hash_table_unref (work.missing);
  g_hash_table_unref (work.asked);
  return done ? g_steal_pointer (&month) : NULL;
}

CroMonth *
cro_month_new (CroBook   *book,
               CroDate    first,
               gboolean   with_parts,
               GError   **error)
{
  return reckon (book, first, with_parts, with_parts, error);
}

CroMonth *
cro_month_new_with_rows (CroBook  *book,
                         CroDate   first,
                         GError  **error)
{
  return reckon (book, first, TRUE, FALSE, error);
}

CroMonth *
cro_month_new_sizes (CroBook  *book,
                     CroDate   first,
                     GError  **error)
{
  g_autoptr (CroMonthEntries) entries = cro_month_entries_new (book, first, error);
  CroMonthWork work = { .book = book, .entries = entries };

  if (entries == NULL)
    return NULL;
  work.month = cro_month_new_empty (first);
  if (entries->row->is_closed)
    return work.month;
  work.asked = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  cro_month_ask_sizes (&work);
  g_hash_table_unref (work.asked);
  cro_month_sort (work.month);
  return work.month;
}

/* --- Questions ------------------------------------------------------------------------------ */

CroDate
cro_month_recipes_day (const CroMonth *self)
{
  for (guint i = 0; i < self->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (self->questions, CroMonthQuestion, i);

      if (question->kind == CRO_QUESTION_BEFORE)
        return question->day;
    }
  return self->recipes_on;
}

int
cro_month_sign_of (guint kind)
{
  return kind == CRO_ADJUSTMENT_WASTE ? 0 : kind == CRO_ADJUSTMENT_TRANSFER_IN ? 1 : -1;
}
