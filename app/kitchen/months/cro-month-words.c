#include "config.h"

#include "cro-month-words.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-code-words.h"
#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-gtin.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-words.h"

char *
cro_month_to_text (CroDate first)
{
  /* Translators: a month and its year, as Unicode's patterns of dates have them. */
  return cro_date_in_words (first, _("MMMM y"));
}

/* --- Questions ------------------------------------------------------------------------------ */

gboolean
cro_month_question_cause (const CroMonthQuestion *question,
                          CroCauseKind           *cause)
{
  /* As cro_cause_to_text begins them. */
  static const struct
  {
    const char  *code;
    CroCauseKind kind;
  } all[] = {
    { "price ", CRO_CAUSE_PRICE },     { "rate ", CRO_CAUSE_RATE },   { "density ", CRO_CAUSE_DENSITY },
    { "piece ", CRO_CAUSE_PIECE },     { "amount ", CRO_CAUSE_AMOUNT }, { "value ", CRO_CAUSE_VALUE },
    { "lines ", CRO_CAUSE_LINES },     { "credit ", CRO_CAUSE_CREDIT },
  };

  if (question->kind != CRO_QUESTION_MISSING || question->detail == NULL)
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    if (g_str_has_prefix (question->detail, all[i].code))
      {
        *cause = all[i].kind;
        return TRUE;
      }
  return FALSE;
}

static char *
missing_words (const CroMonthQuestion *question)
{
  CroCause cause = { .name = question->about };

  if (cro_month_question_cause (question, &cause.kind))
    return cro_words_cause (&cause);
  return cro_isolate_printf (_("“%s” was sold without a price and without net sales"),
                             question->about);
}

/* Of a question; NULL of one that is about no month. */
static char *
dup_month (const CroMonthQuestion *question,
           gboolean                is_named)
{
  gboolean is_of_month = question->kind == CRO_QUESTION_BEFORE || question->kind == CRO_QUESTION_OPENING
                         || question->kind == CRO_QUESTION_BOOKED_LATER
                         || cro_month_question_is_order (question->kind);
  CroDate first;

  if (!is_of_month)
    return NULL;
  return is_named && cro_month_parse (question->about, strlen (question->about), &first)
             ? cro_month_to_text (first)
             : g_strdup (question->about);
}

/* Of two totals that should be one. */
static char *
apart_text (gint64 minor,
            int    digits)
{
  g_autofree char *money = cro_money_to_text (minor, digits);

  return g_strconcat (minor > 0 ? "+" : "", money, NULL);
}

/* Of any currency's minor unit; a table may have written something else. */
#define MOST_DIGITS 12

/* As the question has it, to the last digit, in the words of the language. */
static char *
dup_money (const char *text,
           gboolean    is_signed)
{
  const char *point = strchr (text, '.');
  g_auto (GStrv) parts = g_strsplit (text, ".", 2);
  g_autofree char *digits = g_strjoinv ("", parts);
  gint64 minor;

  if (!g_ascii_string_to_signed (digits, 10, G_MININT64, G_MAXINT64, &minor, NULL)
      || (point != NULL && strlen (point + 1) > MOST_DIGITS))
    return g_strdup (text);
  return (is_signed ? apart_text : cro_money_to_text) (minor, point != NULL ? (int) strlen (point + 1) : 0);
}

/* With "at least" where it is. */
static char *
dup_known_money (const char *text,
                 gboolean    is_signed)
{
  gboolean is_at_least = g_str_has_prefix (text, CRO_MONTH_AT_LEAST);
  g_autofree char *money = dup_money (is_at_least ? text + strlen (CRO_MONTH_AT_LEAST) : text, is_signed);

  return cro_words_known (is_at_least ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_WHOLE, money);
}

static char *
dup_apart (const CroMonthQuestion *question)
{
  return dup_known_money (question->detail != NULL ? question->detail : "", TRUE);
}

static char *
tie_words (const CroMonthQuestion *question)
{
  g_autofree char *apart = dup_apart (question);

  if (question->kind == CRO_QUESTION_TILL)
    /* Translators: money with its sign. */
    return g_strdup_printf (_("net sales are not the till’s: %s difference. Is a sale missing, or entered twice?"),
                            apart);
  /* Translators: money with its sign. */
  return g_strdup_printf (_("purchases are not the ledger’s: %s difference. Is a document missing, or entered "
                            "twice?"),
                          apart);
}

/* "1500.55 entered, 1937.94 counted, 437.39 difference": as many as are known. */
static char *
stock_words (const CroMonthQuestion *question,
             const char             *day)
{
  g_auto (GStrv) parts = g_strsplit (question->detail != NULL ? question->detail : "", ", ", 3);
  char *sums[3] = { NULL };
  char *text;

  for (gsize i = 0; parts[i] != NULL; i++)
    {
      char *word = strrchr (parts[i], ' ');

      if (word != NULL)
        *word = '\0';
      sums[i] = dup_known_money (parts[i], FALSE);
    }
  if (sums[2] != NULL)
    /* Translators: a date, money three times. */
    text = cro_isolate_printf (_("the stock on %s is entered as one sum, %s, and what was counted is worth %s: a "
                                 "difference of %s. Which of them is right?"),
                               day, sums[0], sums[1], sums[2]);
  else if (sums[1] != NULL)
    /* Translators: a date, money twice. */
    text = cro_isolate_printf (_("the stock on %s is entered as one sum, %s, and what was counted is worth %s. Which "
                                 "of them is right?"),
                               day, sums[0], sums[1]);
  else
    /* Translators: a date, money. */
    text = cro_isolate_printf (_("the stock on %s is entered as one sum, %s, and was counted too, with no price "
                                 "known. Which of them is right?"),
                               day, sums[0] != NULL ? sums[0] : "?");
  for (gsize i = 0; i < G_N_ELEMENTS (sums); i++)
    g_free (sums[i]);
  return text;
}

static char *
counted_after_words (const CroMonthQuestion *question)
{
  g_autofree char *counted = cro_date_to_text (question->day);
  g_autofree char *day = cro_date_to_text (cro_month_first_of (question->day) - 1);

  /* Translators: the last day of a month, a day after it, and the first one again. */
  return cro_isolate_printf (_("the stock on %s was neither counted nor entered, and a stock was counted on %s. Is "
                               "that the stock of %s?"),
                             day, counted, day);
}

/* day: as a text. */
static char *
not_counted_words (const CroMonthQuestion *question,
                   const char             *day)
{
  const char *detail = question->detail;
  gboolean is_dated = detail != NULL && g_str_has_prefix (detail, CRO_MONTH_COUNTED_ON);
  const char *on = is_dated ? detail + strlen (CRO_MONTH_COUNTED_ON) : "";
  g_autofree char *counted = NULL;
  CroDate date;

  if (!cro_date_parse (on, strlen (on), &date))
    return cro_isolate_printf (_("“%s” was not counted on %s. Was none left?"), question->about, day);
  counted = cro_date_to_text (date);
  /* Translators: what was counted, the last day of a month, a day after it, and the first one again. */
  return cro_isolate_printf (_("“%s” was not counted on %s, but on %s. Is that the stock of %s?"), question->about, day,
                             counted, day);
}

static char *
booked_later_words (const CroMonthQuestion *question,
                    const char             *month)
{
  g_auto (GStrv) parts = g_strsplit (question->detail != NULL ? question->detail : "", ", ", -1);
  g_autoptr (GString) money = g_string_new (NULL);

  for (guint i = 0; parts[i] != NULL; i++)
    {
      const char *blank = strrchr (parts[i], ' ');
      g_autofree char *one = dup_money (blank != NULL ? blank + 1 : parts[i], FALSE);
      g_autofree char *kind = blank != NULL ? g_strndup (parts[i], blank - parts[i]) : NULL;

      g_string_append_printf (money, "%s%s%s%s", i > 0 ? ", " : "", kind != NULL ? cro_code_word (kind) : "",
                              kind != NULL ? "\302\240" : "", one);
    }
  /* Translators: money, or "food 14.00, disposables −8.00"; a month, November 2026. */
  return cro_isolate_printf (_("%s of this month is booked in %s, which was closed before this month was opened "
                               "again: it is taken off here, so that it counts once. Is that month to be reopened "
                               "too?"),
                             money->str, month);
}

static char *
till_tax_words (const CroMonthQuestion *question)
{
  g_autofree char *money = dup_known_money (question->detail != NULL ? question->detail : "", FALSE);

  /* Translators: money. */
  return g_strdup_printf (_("the till’s total with tax is %s less than the one without tax. Were they exchanged?"),
                          money);
}

static char *
gross_words (const CroMonthQuestion *question)
{
  g_autofree char *apart = dup_apart (question);

  /* Translators: money with its sign. */
  return g_strdup_printf (_("sales with tax are not the till’s: %s difference. Is a sale missing, entered twice, or "
                            "sold without a plate at another tax than the book’s?"),
                          apart);
}

/* As closing froze it: a table may have written something else there. */
static char *
far_amount_words (const CroMonthQuestion *question,
                  const char             *day)
{
  static const struct { const char *column, *words; } columns[] = {
    /* Translators: before a number: so many were sold, so much was taken, counted, bought … */
    { "sales sold", NC_("amount", "sold") },
    { "sales net_revenue", NC_("amount", "net sales") },
    { "counts amount", NC_("amount", "counted") },
    { "purchases amount", NC_("amount", "bought") },
    { "purchases net_value", NC_("amount", "bought for") },
    { "adjustments amount", NC_("amount", "adjusted by") },
    { "adjustments net_value", NC_("amount", "adjusted by") },
  };
  const char *detail = question->detail != NULL ? question->detail : "", *at = strrchr (detail, ' ');
  const char *number = at != NULL ? at + 1 : detail, *what = "";
  g_autofree char *text = NULL;
  gint64 micro;

  for (guint i = 0; i < G_N_ELEMENTS (columns) && at != NULL; i++)
    if (strncmp (detail, columns[i].column, (gsize) (at - detail)) == 0 && columns[i].column[at - detail] == '\0')
      what = g_dpgettext2 (NULL, "amount", columns[i].words);
  text = cro_decimal_parse (number, strlen (number), &micro) == CRO_DECIMAL_OK ? cro_words_decimal (micro)
                                                                               : g_strdup (number);
  if (cro_gtin_is_sound (number, strlen (number)))
    /* Translators: what was sold, counted or bought, a date, “sold”, and a number. */
    return cro_isolate_printf (_("“%s” on %s: %s %s. Is that a bar code?"), question->about, day, what, text);
  /* Translators: what was sold, counted or bought, a date, “sold”, and a number. */
  return cro_isolate_printf (_("“%s” on %s: %s %s, far beyond the others. Is that right?"), question->about, day, what,
                             text);
}

static char *
opening_words (const CroMonthQuestion *question,
               const char             *month,
               const char             *day)
{
  g_autofree char *money = question->detail != NULL ? dup_money (question->detail, FALSE) : NULL;

  if (money != NULL)
    /* Translators: a month, October 2026, money and a date. */
    return cro_isolate_printf (_("%s was closed since, with a stock of %s on %s: this month opened without one. Is "
                                 "this month to be reopened too?"),
                               month, money, day);
  if (isnan (question->explains))
    /* Translators: a month, October 2026, and a date. */
    return cro_isolate_printf (_("%s was closed since, without a stock on %s: this month opened with one. Is this "
                                 "month to be reopened too?"),
                               month, day);
  /* Translators: a month, October 2026, and a date. */
  return cro_isolate_printf (_("%s was closed since, with another stock on %s than this month opened with. Is "
                               "this month to be reopened too?"),
                             month, day);
}

static char *
next_opened_words (const CroMonthQuestion *question,
                   const char             *month,
                   const char             *day)
{
  g_autofree char *money = question->detail != NULL ? dup_money (question->detail, FALSE) : NULL;

  if (money == NULL)
    /* Translators: a month, October 2026, a date, and the month once more. */
    return cro_isolate_printf (_("%s is closed, and opened without the stock that this month has on %s. Is %s to be "
                                 "reopened?"),
                               month, day, month);
  /* Translators: a month, October 2026, money, a date, and the month once more. */
  return cro_isolate_printf (_("%s is closed, and opened with a stock of %s: that is not what this month has on %s. "
                               "Is %s to be reopened?"),
                             month, money, day, month);
}

char *
cro_month_question_words (const CroMonthQuestion *question,
                          gboolean                is_named)
{
  const char *about = question->about;
  g_autofree char *day = question->day != CRO_NO_DAY ? cro_date_to_text (question->day) : NULL;
  g_autofree char *month = dup_month (question, is_named);

  switch (question->kind)
    {
    case CRO_QUESTION_TILL:
    case CRO_QUESTION_LEDGER:
      return tie_words (question);
    case CRO_QUESTION_TILL_GROSS:
      return gross_words (question);
    case CRO_QUESTION_TILL_TAX:
      return till_tax_words (question);
    case CRO_QUESTION_STOCK:
      return stock_words (question, day);
    case CRO_QUESTION_MISSING:
      return missing_words (question);
    case CRO_QUESTION_TAX:
      return g_strdup (_("no tax is set in the book: where a plate or menu has none of its own, it is counted as 0, "
                         "and its price counts whole as net sales. Is there none?"));
    case CRO_QUESTION_COUNTED_AFTER:
      return counted_after_words (question);
    case CRO_QUESTION_NOT_COUNTED:
      return not_counted_words (question, day);
    case CRO_QUESTION_FIRST_STOOD:
      return cro_isolate_printf (_("“%s” was not in the book yet: it is costed as it first stood, on %s"),
                                 about, day);
    case CRO_QUESTION_BEFORE:
      return cro_isolate_printf (_("%s is older than the book: its recipes are those of %s"), month, day);
    case CRO_QUESTION_SALE_TWICE:
      return cro_isolate_printf (_("the same sale of “%s” is entered twice on %s"), about, day);
    case CRO_QUESTION_COUNT_TWICE:
      return cro_isolate_printf (_("the same count of “%s” is entered twice on %s"), about, day);
    case CRO_QUESTION_PURCHASE_TWICE:
      return cro_isolate_printf (_("the same purchase of “%s” is entered twice on %s"), about, day);
    case CRO_QUESTION_ADJUSTMENT_TWICE:
      return cro_isolate_printf (_("the same adjustment of “%s” is entered twice on %s"), about, day);
    case CRO_QUESTION_FAR_AMOUNT:
      return far_amount_words (question, day);
    case CRO_QUESTION_FAR_PRICE:
      return cro_isolate_printf (_("“%s” was bought on %s far from its price of that day"), about, day);
    case CRO_QUESTION_MORE_THAN_THERE:
      return cro_isolate_printf (_("more of “%s” was counted on %s than was there and bought"), about,
                                 day);
    case CRO_QUESTION_UNIT:
      return cro_isolate_printf (_("“%s”: was the amount of %s in %s?"), about, day, question->detail);
    case CRO_QUESTION_NO_VALUE:
      return cro_isolate_printf (_("the adjustment of “%s” on %s has no amount and no value"), about,
                                 day);
    case CRO_QUESTION_OPENING:
      return opening_words (question, month, day);
    case CRO_QUESTION_NEXT_OPENED:
      return next_opened_words (question, month, day);
    case CRO_QUESTION_BOOKED_LATER:
      return booked_later_words (question, month);
    case CRO_QUESTION_EARLIER_OPEN:
      /* Translators: a month, October 2026. */
      return cro_isolate_printf (_("%s is open: unless it is closed first, documents that come for it are booked there "
                                   "and not in a later month. Is %s to be closed first?"),
                                 month, month);
    case CRO_QUESTION_LATER_CLOSED:
      /* Translators: a month, October 2026, three times. */
      return cro_isolate_printf (_("%s was closed first: the first open month settles the difference between the "
                                   "estimate of this month and what %s took off of it. Is %s to be reopened?"),
                                 month, month, month);
    case CRO_N_QUESTIONS:
      break;
    }
  g_return_val_if_reached (g_strdup (about));
}

/* One slip is looked for, not a hundred. */
#define MOST_FAR 5

char *
cro_month_far_words (const CroMonth *month)
{
  GString *text = g_string_new (NULL);
  guint n = 0;

  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      g_autofree char *words = NULL;

      if (question->kind != CRO_QUESTION_FAR_AMOUNT || n++ >= MOST_FAR)
        continue;
      words = cro_month_question_words (question, FALSE);
      g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", words);
    }
  if (n > MOST_FAR)
    g_string_append_printf (text, ngettext (" and %u other", " and %u others", n - MOST_FAR), n - MOST_FAR);
  return g_string_free (text, text->len == 0);
}

/* "food 14.00, disposable −8.00". Owned; NULL of none. */
static char *
dup_kinds (CroModel     *model,
           const double  money[CRO_N_PURCHASE_KINDS])
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      g_autofree char *one = money[k] != 0 ? cro_words_money (model, money[k]) : NULL;

      if (one != NULL)
        g_string_append_printf (text, "%s%s\302\240%s", text->len > 0 ? ", " : "",
                                cro_code_word (cro_purchase_kind_codes[k]), one);
    }
  return text->len > 0 ? g_strdup (text->str) : NULL;
}

/* The nearest month after that one that has booked such documents; CRO_NO_DAY: none. */
static CroDate
next_booked (const CroMonth *month,
             CroDate         after,
             double          money[CRO_N_PURCHASE_KINDS])
{
  CroDate next = CRO_NO_DAY;

  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    for (guint i = 0; i < month->booked_in[k]->len; i++)
      {
        CroDate first = g_array_index (month->booked_in[k], CroMonthOf, i).first;

        next = first > after && (next == CRO_NO_DAY || first < next) ? first : next;
      }
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      money[k] = 0;
      for (guint i = 0; i < month->booked_in[k]->len; i++)
        if (g_array_index (month->booked_in[k], CroMonthOf, i).first == next)
          money[k] = g_array_index (month->booked_in[k], CroMonthOf, i).money;
    }
  return next;
}

char *
cro_month_late_words (CroModel       *model,
                      const CroMonth *month)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *awaited = NULL;
  double money[CRO_N_PURCHASE_KINDS];

  /* Of figures that were altered nothing tells what came since. */
  if (!month->is_closed || !cro_month_came_since (month) || month->altered == month->first)
    return NULL;
  for (CroDate in = month->first; (in = next_booked (month, in, money)) != CRO_NO_DAY;)
    {
      g_autofree char *kinds = dup_kinds (model, money), *name = cro_month_to_text (in);
      /* Translators: of documents that were entered after a month was closed: a month, November 2026; "food 14.00,
       * disposable −8.00". */
      g_autofree char *booked = cro_isolate_printf (_("documents since it was closed, booked in %s: %s"), name, kinds);

      g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", booked);
    }
  awaited = dup_kinds (model, month->awaited);
  if (awaited != NULL && text->len > 0)
    g_string_append (text, " · ");
  if (awaited != NULL)
    /* Translators: money: of documents that were entered after a month was closed: "food 14.00, disposable −8.00". */
    g_string_append_printf (text, _("documents since it was closed: %s. They count in the first open month; reopen "
                                    "this one to count them here"),
                            awaited);
  return g_strdup (text->str);
}

char *
cro_month_altered_words (const CroMonth *month)
{
  g_autofree char *name = NULL;

  if (month->altered == CRO_NO_DAY)
    return NULL;
  name = cro_month_to_text (month->altered);
  if (month->is_gone)
    /* Translators: a month, October 2026. */
    return cro_isolate_printf (_("%s was closed, and its closing is no longer in the file: its row was changed or "
                                 "removed there since, and these figures are not those that were closed. Open an "
                                 "earlier copy of the book."),
                               name);
  /* Translators: a month, October 2026. */
  return cro_isolate_printf (_("%s is not as closing left it: its rows were changed in the file since, and these "
                               "figures are not those that were closed. Open an earlier copy of the book, or reopen "
                               "the month and close it again."),
                             name);
}

/* Elements CroDate. Owned; NULL of none. */
static char *
dup_months (const GArray *of)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < of->len; i++)
    {
      g_autofree char *name = cro_month_to_text (g_array_index (of, CroMonthOf, i).first);

      g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", name);
    }
  return names->len > 0 ? g_strdup (names->str) : NULL;
}

char *
cro_month_late_of_words (const CroMonth *month,
                         guint           kind)
{
  return dup_months (month->earlier_of[kind]);
}

char *
cro_month_later_of_words (const CroMonth *month,
                          guint           kind)
{
  return dup_months (month->later_of[kind]);
}

const char *
cro_month_earlier_name (guint kind)
{
  static const char *const names[CRO_N_PURCHASE_KINDS] = {
    N_("Food of earlier months"), N_("Disposables of earlier months"), N_("Other purchases of earlier months")
  };

  return _(names[kind]);
}

const char *
cro_month_later_name (guint kind)
{
  static const char *const names[CRO_N_PURCHASE_KINDS] = {
    N_("Food booked in later months"), N_("Disposables booked in later months"),
    N_("Other purchases booked in later months")
  };

  return _(names[kind]);
}

/* What a question explains; of a stock the difference that its sentence has, between two sums that are rounded. */
static double
as_told (const CroMonthQuestion *question)
{
  const char *apart = question->kind == CRO_QUESTION_STOCK && question->detail != NULL
                          ? strrchr (question->detail, ',')
                          : NULL;
  double told = apart != NULL && g_str_has_suffix (apart, " difference") ? g_ascii_strtod (apart + 1, NULL) : 0;

  return told != 0 ? copysign (told, question->explains) : question->explains;
}

char *
cro_month_explains_words (CroModel               *model,
                          const CroMonthQuestion *question)
{
  g_autofree char *money = NULL;

  if (isnan (question->explains) || question->explains == 0)
    return NULL;
  money = cro_words_money (model, as_told (question));
  /* Translators: %s is money: the part of the difference between actual and theoretical cost that the
   * answer to a question may explain. */
  return g_strdup_printf (_("may explain %s"), money);
}

char *
cro_month_average_words (CroModel       *model,
                         const CroMonth *month)
{
  double counted, average;
  CroKnown known;
  guint n = cro_month_average_stock (month, &counted, &average, &known);
  g_autofree char *at_count = NULL, *at_average = NULL;

  if (n == 0)
    return NULL;
  at_count = cro_words_known_money (model, cro_month_known_worth (known, counted), counted);
  at_average = cro_words_known_money (model, cro_month_known_worth (known, average), average);
  /* Translators: both are money: a control of the stock, of ingredients that were bought and counted in
   * amounts; by-products are worth something that is deducted from what a preparation costs. */
  return g_strdup_printf (
      ngettext ("Control: the same ingredient, counted as such and in preparations, is worth %2$s at the cost of the "
                "count, %3$s at weighted average cost (%1$u ingredient, before by-products are deducted).",
                "Control: the same ingredients, counted as such and in preparations, are worth %2$s at the cost of the "
                "count, %3$s at weighted average cost (%1$u ingredients, before by-products are deducted).",
                n),
      n, at_count, at_average);
}

char *
cro_month_reversed_words (const CroMonth *month,
                          int             digits)
{
  gint64 minor = cro_money_round (-month->reversed, digits);
  g_autofree char *money = cro_money_to_text (minor, digits);

  /* Translators: %s is money, mostly below 0: what earlier months were closed with as delivered and not
   * invoiced, taken off again as the invoices come. */
  return minor != 0 ? g_strdup_printf (_("of which estimates reversed %s"), money) : NULL;
}

static char *
difference_words (double ours,
                  double theirs,
                  int    digits)
{
  gint64 apart = cro_money_apart (ours, theirs, digits);
  g_autofree char *difference = apart_text (apart, digits);

  /* Translators: %s is money with its sign. */
  return apart == 0 ? g_strdup (_("agrees")) : g_strdup_printf (_("%s difference"), difference);
}

char *
cro_month_till_words (const CroMonth *month,
                      int             digits)
{
  return difference_words (month->net_sales, month->till, digits);
}

char *
cro_month_gross_words (const CroMonth *month,
                       int             digits)
{
  g_autofree char *difference = NULL, *ours = NULL, *text = NULL, *other = NULL;
  gint64 without = cro_money_apart (month->net_sales, month->net_sales_costed, digits);

  if (isnan (month->gross_sales))
    return g_strdup (_("sales with tax are not known of all that was sold"));
  difference = difference_words (month->gross_sales, month->till_gross, digits);
  ours = cro_money_to_text (cro_money_round (month->gross_sales, digits), digits);
  /* Translators: money, and "agrees" or a difference. */
  text = cro_isolate_printf (_("sales with tax %s: %s"), ours, difference);
  if (without == 0 || cro_money_apart (month->gross_sales, month->till_gross, digits) == 0)
    return g_steal_pointer (&text);
  other = cro_money_to_text (without, digits);
  /* Translators: how sales with tax stand to the till's; money without tax. */
  return cro_isolate_printf (_("%s; sold without a plate: %s net, at the tax of the book (0 where none is set)"), text,
                             other);
}

char *
cro_month_ledger_words (const CroMonth *month,
                        int             digits)
{
  double ours = cro_month_all_purchases (month);
  g_autofree char *difference = difference_words (ours, month->ledger, digits);
  g_autofree char *reversed = cro_month_reversed_words (month, digits);
  g_autofree char *estimate = NULL;
  GString *text;

  if (cro_money_round (ours, digits) == cro_money_round (month->ledger, digits))
    return g_steal_pointer (&difference);
  text = g_string_new (difference);
  if (!isnan (month->estimate))
    {
      estimate = cro_money_to_text (cro_money_round (month->estimate, digits), digits);
      g_string_append (text, ", ");
      /* Translators: %s is money: the part of a difference that was estimated. */
      g_string_append_printf (text, _("of which the estimate %s"), estimate);
    }
  if (reversed != NULL)
    g_string_append_printf (text, ", %s", reversed);
  return g_string_free (text, FALSE);
}
