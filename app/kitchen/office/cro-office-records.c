/* The rows that a month is made of: purchases, counts, adjustments, and how prices moved. */
#include "config.h"

#include "cro-office-report.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-month-lines.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-row-date.h"
#include "cro-words.h"

#define FIRST CRO_WORKBOOK_REPORT_ROW

/* --- Money that adds up -------------------------------------------------------------------- */

/* Of rows of some kinds, as they are shown: those of each kind add up to what the statement says of it. */
static gint64 *
dup_minor (CroOfficeReport *report,
           GArray          *records,
           guint            n_kinds,
           const gint64    *totals)
{
  gint64 *minor = g_new0 (gint64, records->len + 1);

  for (guint kind = 0; kind < n_kinds; kind++)
    {
      g_autofree double *parts = g_new (double, records->len + 1);
      g_autofree guint *rows = g_new (guint, records->len + 1);
      g_autofree gint64 *of_kind = NULL;
      guint n = 0;

      for (guint i = 0; i < records->len; i++)
        if (g_array_index (records, CroMonthRecord, i).kind == kind)
          {
            parts[n] = g_array_index (records, CroMonthRecord, i).money;
            rows[n++] = i;
          }
      of_kind = cro_office_report_parts (report, totals[kind], parts, n);
      for (guint i = 0; i < n; i++)
        minor[rows[i]] = of_kind[i];
    }
  return minor;
}

static void
put_amount (CroOfficeSheet       *sheet,
            const CroMonthRecord *record)
{
  cro_office_sheet_number (sheet, record->has_amount ? cro_decimal_to_double (record->amount) : NAN,
                           CRO_KNOWN_WHOLE);
  cro_office_sheet_text (sheet, record->has_amount ? cro_words_unit (record->unit) : NULL);
}

static void
put_worth (CroOfficeReport      *report,
           CroOfficeSheet       *sheet,
           const CroMonthRecord *record,
           gint64                minor)
{
  if (cro_month_record_is_beside (report->model, record))
    cro_office_sheet_skip (sheet);
  else
    cro_office_sheet_number (sheet, cro_office_report_money (report, minor), record->known);
}

/* The total under n rows, in the last column. */
static void
put_total (CroOfficeReport *report,
           CroOfficeSheet  *sheet,
           gint64           sum,
           guint            n,
           guint            n_skipped,
           CroKnown         known)
{
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, _("Total"));
  for (guint i = 0; i < n_skipped; i++)
    cro_office_sheet_skip (sheet);
  cro_office_sheet_sum (sheet, FIRST, cro_office_report_money (report, sum), known);
  sheet->sheet.n_filtered = n;
}

/* --- Purchases -------------------------------------------------------------------------------
 * A delivered · B supplier · C document · D of · E ingredient · F category · G kind · H amount · I unit ·
 * J net value */

/* What each kind is in the statement: bought in the month, and in documents that came late. In minor units. */
typedef struct
{
  gint64 bought[CRO_N_PURCHASE_KINDS];
  gint64 late[CRO_N_PURCHASE_KINDS];
  gint64 later[CRO_N_PURCHASE_KINDS];   /* booked in months after it, below 0 */
  gint64 reversed, estimate;
  gint64 all;
} Shown;

static void
take_shown (CroOfficeReport *report,
            Shown           *shown)
{
  static const CroStatementLine own[] = { CRO_STATEMENT_BOUGHT, CRO_STATEMENT_DISPOSABLES,
                                          CRO_STATEMENT_OTHER_PURCHASES };
  static const CroStatementLine earlier[] = { CRO_STATEMENT_EARLIER, CRO_STATEMENT_EARLIER_DISPOSABLES,
                                              CRO_STATEMENT_EARLIER_OTHER };
  static const CroStatementLine later[] = { CRO_STATEMENT_LATER, CRO_STATEMENT_LATER_DISPOSABLES,
                                            CRO_STATEMENT_LATER_OTHER };
  g_autoptr (CroMonthLines) lines = cro_month_lines_new (report->month);

  for (guint kind = 0; kind < CRO_N_PURCHASE_KINDS; kind++)
    {
      shown->bought[kind] = lines->all[own[kind]].minor;
      shown->late[kind] = lines->all[earlier[kind]].minor;
      shown->later[kind] = lines->all[later[kind]].minor;
    }
  shown->reversed = cro_money_round (-report->month->reversed, report->digits);
  shown->estimate = lines->all[CRO_STATEMENT_ESTIMATE].minor;
  shown->late[0] -= shown->reversed;
  shown->all = lines->all[CRO_STATEMENT_PURCHASES].minor;
}

/* As it was booked, else that of its ingredient; NULL: none. */
static const char *
category_of (const CroMonth       *month,
             const CroMonthRecord *record)
{
  for (guint i = 0; record->category == NULL && record->name != NULL && i < month->items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (month->items, CroMonthItem, i);

      if (g_str_equal (item->name, record->name))
        return item->category;
    }
  return record->category;
}

static void
put_purchases (CroOfficeReport *report,
               CroOfficeSheet  *sheet,
               GArray          *records,
               const gint64    *minor)
{
  for (guint i = 0; i < records->len; i++)
    {
      const CroMonthRecord *record = &g_array_index (records, CroMonthRecord, i);
      CroDate dated = cro_text_to_date (record->document_date);

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_number (sheet, record->day, CRO_KNOWN_WHOLE);
      cro_office_sheet_text (sheet, record->supplier);
      cro_office_sheet_text (sheet, record->document);
      if (dated != CRO_NO_DAY)
        cro_office_sheet_number (sheet, dated, CRO_KNOWN_WHOLE);
      else
        cro_office_sheet_skip (sheet);
      cro_office_sheet_text (sheet, record->name);
      cro_office_sheet_text (sheet, category_of (report->month, record));
      cro_office_sheet_text (sheet, cro_code_word (cro_purchase_kind_codes[record->kind]));
      put_amount (sheet, record);
      cro_office_sheet_number (sheet, cro_office_report_money (report, minor[i]), CRO_KNOWN_WHOLE);
    }
}

/* What is in all purchases without documents. Returns how many rows that is: 1, or 0 of no money. */
static guint
put_sum_of_kind (CroOfficeReport *report,
                 CroOfficeSheet  *sheet,
                 const char      *what,
                 guint            kind,
                 gint64           minor)
{
  if (minor == 0)
    return 0;
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
  cro_office_sheet_skip (sheet);
  cro_office_sheet_skip (sheet);
  cro_office_sheet_text (sheet, what);
  for (guint i = 0; i < 3; i++)
    cro_office_sheet_skip (sheet);
  cro_office_sheet_text (sheet, cro_code_word (cro_purchase_kind_codes[kind]));
  cro_office_sheet_skip (sheet);
  cro_office_sheet_skip (sheet);
  cro_office_sheet_number (sheet, cro_office_report_money (report, minor), CRO_KNOWN_WHOLE);
  return 1;
}

/* Documents that came late, and what else of other months is in all purchases. Returns how many rows that is. */
static guint
put_late (CroOfficeReport *report,
          CroOfficeSheet  *sheet,
          const Shown     *shown,
          gint64          *sum)
{
  GArray *late = report->month->late_bought;
  gboolean has_documents[CRO_N_PURCHASE_KINDS] = { FALSE };
  g_autofree gint64 *minor = dup_minor (report, late, CRO_N_PURCHASE_KINDS, shown->late);
  guint n = late->len;

  for (guint i = 0; i < late->len; i++)
    has_documents[g_array_index (late, CroMonthRecord, i).kind] = TRUE;
  put_purchases (report, sheet, late, minor);
  *sum += cro_office_sum (minor, late->len);
  for (guint kind = 0; kind < CRO_N_PURCHASE_KINDS; kind++)
    if (!has_documents[kind])
      {
        n += put_sum_of_kind (report, sheet, cro_month_earlier_name (kind), kind, shown->late[kind]);
        *sum += shown->late[kind];
      }
  for (guint kind = 0; kind < CRO_N_PURCHASE_KINDS; kind++)
    {
      n += put_sum_of_kind (report, sheet, cro_month_later_name (kind), kind, shown->later[kind]);
      *sum += shown->later[kind];
    }
  n += put_sum_of_kind (report, sheet, _("estimates reversed"), 0, shown->reversed);
  n += put_sum_of_kind (report, sheet, _("Food not invoiced yet"), 0, shown->estimate);
  *sum += shown->reversed + shown->estimate;
  return n;
}

void
cro_office_add_purchases (CroOfficeReport *report)
{
  GArray *bought = report->month->bought;
  Shown shown;
  gint64 sum;
  guint n;
  g_autofree gint64 *minor = NULL;
  CroOfficeSheet *sheet;

  take_shown (report, &shown);
  if (bought->len == 0 && cro_month_all_purchases (report->month) == 0)
    return;
  minor = dup_minor (report, bought, CRO_N_PURCHASE_KINDS, shown.bought);
  sheet = cro_office_report_sheet (report, _("Purchases"), _("Purchases of the month"),
                                   _("By the day of their delivery; what is of other months comes last."));
  cro_office_sheet_column (sheet, _("Delivered"), CRO_WORKBOOK_COLUMN_DATE);
  cro_office_sheet_column (sheet, _("Supplier"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Document"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Date of document"), CRO_WORKBOOK_COLUMN_DATE);
  cro_office_sheet_column (sheet, _("Ingredient"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Category"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Kind"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Amount"), CRO_WORKBOOK_COLUMN_NUMBER);
  cro_office_sheet_column (sheet, _("Unit"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Net value"), CRO_WORKBOOK_COLUMN_MONEY);
  put_purchases (report, sheet, bought, minor);
  sum = cro_office_sum (minor, bought->len);
  n = bought->len + put_late (report, sheet, &shown, &sum);
  put_total (report, sheet, sum, n, 8, CRO_KNOWN_WHOLE);
  cro_office_report_tie (report, _("All purchases: rows, and in the statement"), 'J', cro_office_sheet_at (sheet),
                         cro_office_report_money (report, sum), cro_office_report_money (report, shown.all));
}

/* --- Counts ----------------------------------------------------------------------------------
 * A item · B place · C amount · D unit · E value */

static void
put_count (CroOfficeReport      *report,
           CroOfficeSheet       *sheet,
           const CroMonthRecord *record,
           gint64                minor)
{
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
  cro_office_sheet_text (sheet, record->name);
  cro_office_sheet_text (sheet, record->note);
  put_amount (sheet, record);
  if (report->month->is_entered)
    return;
  put_worth (report, sheet, record, minor);
}

void
cro_office_add_counts (CroOfficeReport *report)
{
  const CroMonth *month = report->month;
  GArray *counts = month->counts;
  gint64 total = month->is_entered ? 0 : -report->minor.closing, sum;
  g_autofree gint64 *minor = NULL;
  CroOfficeSheet *sheet;

  if (counts->len == 0)
    return;
  minor = dup_minor (report, counts, 1, &total);
  sheet = cro_office_report_sheet (report, _("Stock counts"), _("Closing stock as counted"),
                                   month->is_entered ? _("The stock was entered as one sum; counts have no value.")
                                                     : _("Each count at the food cost of its day; disposables are "
                                                         "not food and add no value."));
  cro_office_sheet_column (sheet, _("Item"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Place"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Amount"), CRO_WORKBOOK_COLUMN_NUMBER);
  cro_office_sheet_column (sheet, _("Unit"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Value of the count"), CRO_WORKBOOK_COLUMN_MONEY);
  for (guint i = 0; i < counts->len; i++)
    put_count (report, sheet, &g_array_index (counts, CroMonthRecord, i), minor[i]);
  if (month->is_entered)
    return;
  sum = cro_office_sum (minor, counts->len);
  put_total (report, sheet, sum, counts->len, 3, month->known_closing);
  cro_office_report_tie (report, _("Closing stock: counts, and in the statement"), 'E',
                         cro_office_sheet_at (sheet), cro_office_report_money (report, sum),
                         cro_office_report_money (report, total));
}

/* --- Adjustments ------------------------------------------------------------------------------
 * A date · B kind · C item · D amount · E unit · F value · G note */

void
cro_office_add_adjusted (CroOfficeReport *report)
{
  GArray *adjusted = report->month->adjusted;
  gint64 totals[CRO_N_ADJUSTMENT_KINDS];
  g_autofree gint64 *minor = NULL;
  CroOfficeSheet *sheet;

  if (adjusted->len == 0)
    return;
  for (guint kind = 0; kind < CRO_N_ADJUSTMENT_KINDS; kind++)
    totals[kind] = cro_month_sign_of (kind) == 0 ? report->minor.waste
                                                 : cro_month_sign_of (kind) * report->minor.adjustments[kind];
  minor = dup_minor (report, adjusted, CRO_N_ADJUSTMENT_KINDS, totals);
  sheet = cro_office_report_sheet (report, _("Adjustments"), _("Adjustments"),
                                   _("Each at its own value, else at the food cost of its day; disposables are not "
                                     "food and add no value."));
  cro_office_sheet_column (sheet, _("Date"), CRO_WORKBOOK_COLUMN_DATE);
  cro_office_sheet_column (sheet, _("Kind"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Item"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Amount"), CRO_WORKBOOK_COLUMN_NUMBER);
  cro_office_sheet_column (sheet, _("Unit"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Net value"), CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (sheet, _("Note"), CRO_WORKBOOK_COLUMN_SENTENCE);
  for (guint i = 0; i < adjusted->len; i++)
    {
      const CroMonthRecord *record = &g_array_index (adjusted, CroMonthRecord, i);

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_number (sheet, record->day, CRO_KNOWN_WHOLE);
      cro_office_sheet_text (sheet, cro_code_word (cro_adjustment_kind_codes[record->kind]));
      cro_office_sheet_text (sheet, record->name);
      put_amount (sheet, record);
      put_worth (report, sheet, record, minor[i]);
      cro_office_sheet_text (sheet, record->note);
    }
  sheet->sheet.n_filtered = adjusted->len;
}

/* --- How prices moved --------------------------------------------------------------------------
 * A from · B ingredient · C supplier · D code · E price before · F price · G change · H currency; where there
 * are others than the book's, I to K: E to G in that, each at the rate of the day it began; note */

static gboolean
is_same_pack (const CroOfficePrices *prices,
              const CroOfficePrice  *a,
              const CroOfficePrice  *b)
{
  const CroOfficePack *x, *y;

  if (a->pack == CRO_NO_SLOT || b->pack == CRO_NO_SLOT)
    return a->pack == b->pack;
  x = &g_array_index (prices->packs, CroOfficePack, a->pack);
  y = &g_array_index (prices->packs, CroOfficePack, b->pack);
  return x->count == y->count && x->size == y->size && x->unit == y->unit;
}

static double
price_of (const CroOfficePrice *price)
{
  return price->price != CRO_NOT_SET ? cro_decimal_to_double (price->price) : NAN;
}

/* formula: the second price over the first. */
static void
put_prices (CroOfficeSheet *sheet,
            double          from,
            double          to,
            gboolean        is_compared,
            const char     *formula)
{
  cro_office_sheet_number (sheet, from, CRO_KNOWN_WHOLE);
  cro_office_sheet_number (sheet, to, CRO_KNOWN_WHOLE);
  if (is_compared && from > 0 && to >= 0)
    cro_office_sheet_formula (sheet, formula, to / from - 1, CRO_KNOWN_WHOLE);
  else
    cro_office_sheet_skip (sheet);
}

/* Book currency for one of an offer's, on a day; NaN where none is known. */
static double
rate_on (const CroOfficeReport *report,
         const CroOfficePrices *prices,
         const char            *currency,
         CroDate                day)
{
  double rate;

  if (currency == NULL || g_strcmp0 (currency, report->model->currency) == 0)
    return 1;
  rate = cro_rate_steps_on (prices->rates, currency, day);
  return rate > 0 ? rate : NAN;
}

static void
put_movement (CroOfficeReport       *report,
              CroOfficeSheet        *sheet,
              guint32                slot,
              const CroOfficePrices *prices,
              const CroOfficePrice  *before,
              const CroOfficePrice  *price,
              gboolean               has_rates)
{
  const CroOfferEntry *offer = cro_model_offer (report->model, slot);
  double from = before != NULL ? price_of (before) : NAN, to = price_of (price);
  gboolean is_compared = from > 0 && !isnan (to) && is_same_pack (prices, before, price);

  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
  cro_office_sheet_number (sheet, price->from, CRO_KNOWN_WHOLE);
  cro_office_sheet_text (sheet, cro_model_item (report->model, offer->item)->name);
  cro_office_sheet_text (sheet, g_array_index (report->model->suppliers, CroSupplier, offer->supplier).name);
  cro_office_sheet_text (sheet, offer->code);
  put_prices (sheet, from, to, is_compared, "=F#/E#-1");
  cro_office_sheet_text (sheet, offer->currency != NULL ? offer->currency : report->model->currency);
  if (has_rates)
    put_prices (sheet, before != NULL ? from * rate_on (report, prices, offer->currency, before->from) : NAN,
                to * rate_on (report, prices, offer->currency, price->from), is_compared, "=J#/I#-1");
  cro_office_sheet_text (sheet, isnan (to)       ? _("not to be had")
                                : before == NULL ? _("first price")
                                : is_compared    ? NULL
                                                 : _("another pack, or not to be had before"));
}

/* With the decimals of the currency where all have as many. */
static CroWorkbookColumnKind
price_kind (CroOfficeReport *report,
            CroOffice       *office)
{
  for (guint i = 0; i < office->currencies->len; i++)
    if (cro_currency_digits (office->currencies->pdata[i]) != report->digits)
      return CRO_WORKBOOK_COLUMN_NUMBER;
  return CRO_WORKBOOK_COLUMN_MONEY;
}

static void
add_movement_columns (CroOfficeReport *report,
                      CroOffice       *office,
                      CroOfficeSheet  *sheet)
{
  const char *currency = report->model->currency != NULL ? report->model->currency : _("no currency");

  cro_office_sheet_column (sheet, _("From"), CRO_WORKBOOK_COLUMN_DATE);
  cro_office_sheet_column (sheet, _("Ingredient"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Supplier"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Code"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Price before"), price_kind (report, office));
  cro_office_sheet_column (sheet, _("Price per pack"), price_kind (report, office));
  cro_office_sheet_column (sheet, _("Change"), CRO_WORKBOOK_COLUMN_PCT);
  cro_office_sheet_column (sheet, _("Currency"), CRO_WORKBOOK_COLUMN_TEXT);
  if (office->currencies->len > 0)
    {
      /* Translators: heads of columns; %s is the code of the book's currency. */
      cro_office_sheet_column (sheet, cro_office_report_keep (report, g_strdup_printf (_("Before, %s"), currency)),
                               CRO_WORKBOOK_COLUMN_MONEY);
      cro_office_sheet_column (sheet, cro_office_report_keep (report, g_strdup_printf (_("Per pack, %s"), currency)),
                               CRO_WORKBOOK_COLUMN_MONEY);
      cro_office_sheet_column (sheet, cro_office_report_keep (report, g_strdup_printf (_("Change, %s"), currency)),
                               CRO_WORKBOOK_COLUMN_PCT);
    }
  cro_office_sheet_column (sheet, _("Note"), CRO_WORKBOOK_COLUMN_TEXT);
}

void
cro_office_add_movements (CroOfficeReport *report,
                          CroOffice       *office)
{
  const CroOfficePrices *prices = &office->prices;
  CroDate first = report->month->first, last = cro_month_next (first) - 1;
  CroOfficeSheet *sheet = cro_office_report_sheet (report, _("Price movements"), _("Price movements of the month"),
                                                   _("Prices per pack that changed in the month, beside the price "
                                                     "before. What is in the book’s currency takes the "
                                                     "exchange rate of the day a price began."));

  add_movement_columns (report, office, sheet);
  for (guint32 offer = 0; offer < office->offers->len && !prices->in_force_only; offer++)
    for (guint32 i = prices->first[offer]; i < prices->first[offer + 1]; i++)
      {
        const CroOfficePrice *price = &prices->prices[i];

        if (price->from >= first && price->from <= last
            && !(i > prices->first[offer] && price[-1].price == price->price
                 && is_same_pack (prices, price - 1, price)))
          put_movement (report, sheet, cro_office_slot (office->offers, offer), prices,
                        i > prices->first[offer] ? price - 1 : NULL, price, office->currencies->len > 0);
      }
  sheet->sheet.n_filtered = sheet->looks->len;
}
