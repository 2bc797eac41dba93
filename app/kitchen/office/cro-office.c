#include "cro-office-report.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-here.h"
#include "cro-number.h"
#include "cro-plate.h"
#include "cro-tongue.h"

static double
fraction_or_nan (gint64 pct)
{
  return pct != CRO_NOT_SET ? (double) pct / (double) CRO_WHOLE_PCT : NAN;
}

/* The guests' food cost of all plates together by another way than their cards': what each
 * purchase and each assigned value counts in it, times what it costs. */
static double
attributed (CroOffice *self)
{
  CroFigures *figures = self->figures;
  const CroGraph *graph = &figures->graph;
  g_autofree double *weight = g_new0 (double, graph->n_rows + 1);
  g_autofree double *row_effect = g_new0 (double, graph->n_rows + 1);
  g_autofree double *effect = g_new0 (double, graph->n_items + 1);
  double sum = 0;

  for (guint32 i = 0; i < self->plates->len; i++)
    {
      const CroRecipe *recipe = cro_model_recipe (self->model, cro_office_slot (self->plates, i));

      weight[cro_figures_row (figures, cro_office_slot (self->plates, i))]
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
n_lines_of_batches (CroOffice *self)
{
  const CroGraph *graph = &self->figures->graph;
  guint32 n = 0;

  for (guint32 i = 0; i < self->batches->len; i++)
    {
      guint32 row = cro_office_slot (self->batches, i);

      n += graph->first[row + 1] - graph->first[row];
    }
  return n;
}

static gboolean
ask_to_go_on (gpointer data,
              double   done)
{
  CroOffice *self = data;

  return self->go_on == NULL || self->go_on (self->user_data, done);
}

/* A file made again of the same month is the same file. */
static gint64
start_of_month (CroDate date)
{
  int year, month, day;

  cro_date_to_civil (date, &year, &month, &day);
  return cro_date_to_seconds (cro_date_from_civil (year, month, 1));
}

static CroWorkbookBook
book_of (CroOffice  *self,
         const char *name)
{
  const CroModel *model = self->model;
  CroDate date = self->figures->date;

  return (CroWorkbookBook){
    .name = model->name != NULL ? model->name : name,
    .currency = model->currency,
    .digits = cro_currency_digits (model->currency),
    .date = date,
    .created = start_of_month (date),
    .wage = model->wage_per_hour != CRO_NOT_SET ? cro_decimal_to_double (model->wage_per_hour)
                                                : NAN,
    .tax = fraction_or_nan (model->tax),
    .target = fraction_or_nan (model->target),
    .result = model->speaks == CRO_SPEAKS_GROSS_PROFIT ? CRO_WORKBOOK_GROSS_PROFIT_PCT
              : model->speaks == CRO_SPEAKS_COEFFICIENT ? CRO_WORKBOOK_COEFFICIENT
                                                        : CRO_WORKBOOK_FOOD_COST_PCT,
    .is_letter = cro_currency_uses_letter (model->currency),
  };
}

/* The month that is written, and the one before it where that is closed. */
typedef struct
{
  CroBook    *closed;      /* the book as it stood; NULL of an open month */
  CroMonth   *month;       /* NULL: nothing is recorded in it */
  CroMonth   *before;
  GHashTable *accounts;
} OfMonth;

static gboolean
write_office (CroOffice   *self,
              OfMonth     *of,
              const char  *path,
              GError     **error)
{
  g_autofree char *name = g_path_get_basename (cro_store_get_path (cro_book_get_store (self->book)));
  g_autofree const char **texts = cro_office_dup_texts (self->model);
  CroWorkbookSource source = {
    .book = book_of (self, name),
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
    .go_on = ask_to_go_on,
  };

  CroOfficeReport report;
  gboolean done;

  cro_office_serve (self, &source);
  if (of->month == NULL)
    return cro_workbook_write (path, &source, texts, error);
  cro_office_report_init (&report, self, of->month, of->before, of->accounts);
  source.report = &report.report;
  done = cro_workbook_write (path, &source, texts, error);
  cro_office_report_clear (&report);
  return done;
}

static gboolean
read_month (OfMonth  *self,
            CroBook  *book,
            CroDate   first,
            GError  **error)
{
  g_autoptr (CroMonthEntries) entries = cro_month_entries_new (book, first, error);

  if (entries == NULL)
    return FALSE;
  if (cro_month_entries_are_empty (entries))
    return TRUE;
  self->month = cro_month_new_with_rows (book, first, error);
  if (self->month == NULL || !entries->before->is_closed)
    return self->month != NULL;
  self->before = cro_month_new (book, entries->before->first, FALSE, error);
  return self->before != NULL;
}

/* The history of prices is read in the same moment as what the figures are of. */
static gboolean
read_office (CroOffice  *self,
             CroBook    *book,
             OfMonth    *of,
             CroDate     first,
             GError    **error)
{
  CroStore *store = cro_book_get_store (book);
  gboolean done;

  if (!cro_store_begin_read (store, error))
    return FALSE;
  done = cro_book_refresh (book, NULL, error) && read_month (of, book, first, error);
  if (done)
    {
      cro_office_init (self, book);
      done = cro_office_prices_load (&self->prices, store, self->model, self->figures->date,
                                     self->number_of_offer, self->offers->len, error);
      if (!done)
        cro_office_clear (self);
    }
  cro_store_end_read (store);
  return done;
}

static gboolean
write_book (CroBook        *book,
            OfMonth        *of,
            CroDate         first,
            const char     *path,
            const char     *language,
            CroOfficeGoOn   go_on,
            gpointer        user_data,
            GError        **error)
{
  gboolean is_translated = language != NULL && !g_str_equal (language, "en");
  g_autoptr (CroTongue) tongue = NULL;
  CroOffice self;
  gboolean done;

  if (!read_office (&self, book, of, first, error))
    return FALSE;
  self.go_on = go_on;
  self.user_data = user_data;
  tongue = cro_tongue_enter (is_translated ? language : NULL);
  done = write_office (&self, of, path, error);
  cro_office_clear (&self);
  return done;
}

CroDate
cro_office_day (CroDate first)
{
  return MIN (cro_month_next (first) - 1, cro_here_today ());
}

/* The book of a closed month, *closed, which stays NULL of an open one. */
static gboolean
open_closed (CroBook  *book,
             CroDate   first,
             CroBook **closed,
             GError  **error)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);
  const CroMonthRow *row = rows != NULL ? cro_month_rows_find (rows, first) : NULL;

  if (row == NULL || !row->is_closed)
    return rows != NULL;
  *closed = cro_book_open_closed (book, row->id, cro_office_day (first), error);
  return *closed != NULL;
}

gboolean
cro_office_write_month (CroBook        *book,
                        CroDate         first,
                        GHashTable     *accounts,
                        const char     *path,
                        const char     *language,
                        CroOfficeGoOn   go_on,
                        gpointer        user_data,
                        CroMonth      **written,
                        GError        **error)
{
  OfMonth of = { .accounts = accounts };
  gboolean done = open_closed (book, first, &of.closed, error)
                  && write_book (of.closed != NULL ? of.closed : book, &of, first, path, language, go_on,
                                 user_data, error);

  if (written != NULL)
    *written = done ? g_steal_pointer (&of.month) : NULL;
  g_clear_pointer (&of.month, cro_month_free);
  g_clear_pointer (&of.before, cro_month_free);
  g_clear_object (&of.closed);
  return done;
}
