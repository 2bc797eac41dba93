/* What a list says once of all its prices, in a line or a row that names no goods: tax, currency, for how much they
 * are; and of tax what a column beside them shows. */
#include "cro-price-list-private.h"

#include "cro-currency.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-note.h"
#include "cro-price-remark.h"
#include "cro-price-saying.h"
#include "cro-price-talk.h"
#include "cro-price-token.h"
#include "cro-price-words.h"
#include "cro-word-list.h"

#include <math.h>
#include <string.h>

/* --- Currency ------------------------------------------------------------------------------------------ */

const char *
cro_price_list_currency_of_all (CroPriceList      *self,
                                const CroListBook *of,
                                const char        *text)
{
  g_autofree char *said = cro_price_heading_dup_currency (text);

  return said != NULL ? cro_price_list_currency (self, of, said) : NULL;
}

/* Three letters in a line of anything else may be a word: "Ron", "mad". */
static gboolean
may_be_name (const char           *said,
             const char           *note,
             const CroPriceSaying *saying)
{
  return strlen (said) == 3 && g_ascii_isalpha (said[0]) && g_ascii_isalpha (said[2]) && !saying->speaks_of_prices
         && strstr (note, said) == NULL && cro_word_list_scan (note, "in|en") == 0;
}

/* What a note names; of several, and of one that it says no to, nothing is known. */
static const char *
currency_of_note (CroPriceList         *list,
                  const CroListBook    *of,
                  const char           *note,
                  const CroPriceSaying *saying,
                  gboolean             *is_open)
{
  g_auto (GStrv) named = cro_price_heading_dup_currencies (note);
  const char *own = NULL, *other = NULL;

  *is_open = FALSE;
  for (guint i = 0; named[i] != NULL; i++)
    {
      const char *said = may_be_name (named[i], note, saying) ? NULL : cro_price_list_currency (list, of, named[i]);

      *is_open |= said != NULL && other != NULL && strcmp (said, other) != 0;
      if (said != NULL && g_strcmp0 (said, of->currency) != 0)
        other = said;
      else if (said != NULL)
        own = said;
    }
  *is_open |= (own != NULL && other != NULL)
              || ((own != NULL || other != NULL)
                  && ((saying->is_negated && saying->tax == CRO_PRICE_TAX_UNSAID) || saying->has_exception));
  return *is_open ? NULL : other != NULL ? other : own;
}

/* --- Notes --------------------------------------------------------------------------------------------- */

/* A line that takes some out of what another says: "Except spirits". */
static gboolean
begins_exception (const char *note)
{
  return cro_word_list_scan (note, "except|excepting|unless|apart|aside|other than|but|save for|sauf|hormis|excepte|"
                                   "mais|until|till|jusqu|jusque") > 0;
}

static void
take_tax (CroListSaid          *self,
          CroPriceList         *list,
          const char           *note,
          const CroPriceSaying *saying,
          guint                 n_before,
          gboolean              is_open)
{
  self->may_have_tax |= saying->may_have_tax;
  /* "VAT 20 %" says at what rate, and not whether. */
  if (saying->is_tax_open && saying->is_rate)
    {
      if (self->rate_note == NULL)
        self->rate_note = cro_price_list_keep (list, note);
      return;
    }
  is_open |= saying->is_tax_open || (saying->tax != self->tax && self->tax != CRO_PRICE_TAX_UNSAID)
             || (saying->tax_pct != self->tax_pct && saying->tax_pct > 0 && self->tax_pct > 0);
  if (is_open && self->tax_open == NULL)
    self->tax_open = cro_price_list_keep (list, note);
  if (is_open)
    return;
  if (self->tax_note == NULL)
    {
      self->tax_note = cro_price_list_keep (list, note);
      self->n_before = n_before;
    }
  self->tax = saying->tax;
  self->tax_pct = MAX (self->tax_pct, saying->tax_pct);
}

static void
leave_open (CroListSaid  *self,
            CroPriceList *list,
            const char   *note,
            gboolean      is_of_currency)
{
  self->is_currency_open |= is_of_currency;
  /* Two of them leave open more than one says. */
  if (self->said_open != NULL)
    self->excepted = NULL;
  else
    self->said_open = cro_price_list_keep (list, note);
}

static void
take_per (CroListSaid          *self,
          CroPriceList         *list,
          const char           *note,
          const CroPriceSaying *saying,
          guint                 n_before)
{
  gboolean is_other = self->per.is_said && saying->per.is_said
                      && (self->per.unit != saying->per.unit || self->per.times != saying->per.times);

  /* "Per box unless I say kg": as ever, and what else it says is asked once. */
  if (saying->has_pack && saying->has_per_word && !is_other && !self->per.is_said && !saying->is_of_below
      && (!saying->is_all_known || saying->has_exception) && !saying->is_negated && self->change == NULL)
    {
      self->change = cro_price_list_keep (list, note);
      return;
    }
  if (saying->is_per_open || (saying->per.is_said && saying->has_pack) || !saying->is_all_known || saying->is_negated
      || saying->has_exception || is_other || (self->is_of_pack && saying->per.is_said)
      || (self->per.is_said && saying->has_pack) || (saying->is_of_below && n_before > 0))
    {
      cro_list_said_take_exception (self, list, note);
      leave_open (self, list, note, FALSE);
    }
  else if (saying->per.is_said)
    self->per = saying->per;
  else
    self->is_of_pack = TRUE;
  if (self->per_note != NULL)
    return;
  self->per_note = cro_price_list_keep (list, note);
  self->n_before_per = n_before;
}

/* "Prix HT, franco à partir de 60 €", "Prices ex VAT. Min order 60.": what stands before is all that is of tax, and
 * numbers are of orders. FALSE: nothing of the kind. */
static gboolean
take_tax_before_order (CroListSaid  *self,
                       CroPriceList *list,
                       const char   *note,
                       const char   *supplier,
                       guint         n_before)
{
  static const char of_orders[]
      = "|order|orders|delivery|deliveries|delivered|carriage|franco|commande|commandes|livraison|livraisons|port|";
  const gsize n = strcspn (note, ",.;"), gap = n + (note[n] != '\0');
  g_autofree char *first = g_strndup (note, n), *rest = cro_fold (note + gap);
  const CroPriceSaying of_tax = cro_price_saying_of (first, supplier),
                       of_rest = cro_price_saying_of (note + gap, supplier);

  if (note[n] == '\0' || !cro_price_saying_is_of_tax (&of_tax) || of_tax.is_tax_open || of_tax.has_number
      || !of_tax.is_all_known || of_tax.has_day || cro_price_saying_may_be_of_tax (note + gap) || of_rest.has_rate
      || of_rest.has_exception || of_rest.is_beside || !cro_price_has_word (rest, of_orders)
      || cro_price_talk_may_be_of_prices (note + gap, FALSE, supplier))
    return FALSE;
  take_tax (self, list, note, &of_tax, n_before, FALSE);
  return TRUE;
}

CroListNote
cro_list_said_take (CroListSaid       *self,
                    CroPriceList      *list,
                    const CroListBook *of,
                    const char        *note,
                    guint              n_before)
{
  g_autofree char *supplier = cro_fold (list->supplier_name != NULL ? list->supplier_name : "");
  CroPriceSaying saying = cro_price_saying_of (note, supplier);
  gboolean is_of_tax = cro_price_saying_is_of_tax (&saying);
  /* "Net prices" are before tax; behind what is taken off too? That is asked. */
  gboolean is_net = !is_of_tax && saying.is_net && (saying.is_all_known || saying.speaks_of_prices);
  gboolean is_of_per = (saying.has_per_word && (saying.per.is_said || saying.has_pack || saying.is_per_open))
                       || ((saying.speaks_of_prices || saying.has_stray_unit) && saying.is_all_known
                           && saying.per.is_said);
  gboolean is_of_day = cro_price_note_is_of_other_day (note, supplier, list->from);
  /* "Price list no. 50", "prices 30.11. – 6.12." */
  gboolean is_of_list = !saying.has_price && strpbrk (note, "0123456789") != NULL
                        && (saying.speaks_of_prices
                            || cro_word_list_scan (note, "list|liste|valid|valable|valables") > 0);
  const char *currency;
  gboolean is_currency_open;

  if (is_of_day && self->other_day == NULL)
    self->other_day = cro_price_list_keep (list, note);
  if (cro_price_remark_adds_rate (note))
    {
      if (self->change == NULL)
        self->change = cro_price_list_keep (list, note);
      return CRO_LIST_NOTE_KEPT;
    }
  if (cro_price_remark_is_change (note, &saying))
    {
      /* "Celeriac 17 remise 5 %" is of that line alone. */
      if (saying.has_rate && saying.has_price && !saying.is_of_all)
        return CRO_LIST_NOTE_NONE;
      if (self->change == NULL)
        self->change = cro_price_list_keep (list, note);
      return saying.has_rate && saying.has_number ? CRO_LIST_NOTE_NONE : CRO_LIST_NOTE_KEPT;
    }
  currency = currency_of_note (list, of, note, &saying, &is_currency_open);
  /* "Prices excl. VAT, order by 5 pm": a number that may be of goods, behind what may be said of all. */
  if (saying.has_number)
    {
      gboolean is_of_currency = is_currency_open
                                || ((saying.is_of_all || saying.has_stray_money) && currency != NULL
                                    && g_strcmp0 (currency, of->currency) != 0);

      if (((is_of_tax && (saying.speaks_of_prices || !saying.is_beside_number))
           || (saying.speaks_of_prices && saying.is_beside))
          && !take_tax_before_order (self, list, note, supplier, n_before))
        take_tax (self, list, note, &saying, n_before, TRUE);
      if (is_of_currency || saying.has_stray_unit
          || (saying.is_of_all && saying.has_per_word
              && (saying.per.is_said || saying.is_per_open || saying.has_pack)))
        leave_open (self, list, note, is_of_currency);
      return is_of_day || is_of_list || saying.has_stray_money || saying.has_stray_unit ? CRO_LIST_NOTE_KEPT
                                                                                       : CRO_LIST_NOTE_NONE;
    }
  if (is_currency_open)
    leave_open (self, list, note, TRUE);
  if (!is_of_tax && (begins_exception (note) || saying.is_beside) && self->exception == NULL)
    {
      self->exception = cro_price_list_keep (list, note);
      self->may_have_tax |= saying.may_have_tax;
    }
  if (is_net && !saying.is_gross)
    {
      saying.tax = CRO_PRICE_WITHOUT_TAX;
      if (self->change == NULL)
        self->change = cro_price_list_keep (list, note);
    }
  if (saying.is_tax_open && !is_of_per && currency == NULL && !is_currency_open && !is_of_day
      && take_tax_before_order (self, list, note, supplier, n_before))
    return CRO_LIST_NOTE_HEEDED;
  if (is_of_tax || is_net)
    take_tax (self, list, note, &saying, n_before, (is_net && saying.is_gross) || (saying.is_of_below && n_before > 0));
  if (is_of_per)
    take_per (self, list, note, &saying, n_before);
  if (currency != NULL && (self->currency == NULL || g_strcmp0 (currency, of->currency) != 0))
    self->currency = currency;
  if (!is_of_tax && !is_net && !is_of_per && currency == NULL && !is_currency_open)
    return is_of_day || is_of_list || (saying.has_day && saying.speaks_of_prices) ? CRO_LIST_NOTE_KEPT
                                                                                  : CRO_LIST_NOTE_NONE;
  return saying.is_all_known && !saying.has_day && !is_net && !saying.is_tax_open && !is_currency_open
             ? CRO_LIST_NOTE_HEEDED : CRO_LIST_NOTE_KEPT;
}

void
cro_list_said_settle (CroListSaid *self,
                      guint        n)
{
  if (self->tax_open == NULL && self->n_before > 0 && self->n_before < n)
    self->tax_open = self->tax_note;
  /* A rate beside prices that are said to be without tax is none of theirs. */
  if (self->tax_open == NULL && self->tax != CRO_PRICE_WITHOUT_TAX)
    self->tax_open = self->rate_note;
  if (self->n_before_per > 0 && self->n_before_per < n)
    self->excepted = NULL;
  if (self->said_open == NULL && self->per_note != NULL && self->n_before_per > 0 && self->n_before_per < n)
    self->said_open = self->per_note;
}

void
cro_list_said_ask (const CroListSaid *self,
                   CroPriceList      *list,
                   CroListRow        *row)
{
  if (!row->has_price && row->change_pct == 0)
    return;
  if (self->change != NULL)
    cro_list_row_say (list, row, CRO_LIST_SAID_CHANGE, self->change, NULL);
  if (self->other_day != NULL)
    cro_list_row_say (list, row, CRO_LIST_SAID_DAY, self->other_day, NULL);
}

void
cro_list_said_ask_tax (CroPriceList *list,
                       CroListRow   *row,
                       const char   *note)
{
  row->says_tax = CRO_PRICE_WITHOUT_TAX;
  if (row->has_price)
    cro_list_row_say (list, row, CRO_LIST_SAID_TAX, note, NULL);
}

void
cro_list_said_apply (const CroListSaid *self,
                     CroPriceList      *list,
                     CroListRow        *row)
{
  const char *open = self->tax_open != NULL               ? self->tax_open
                     : self->tax != CRO_PRICE_TAX_UNSAID ? self->exception : NULL;

  if (row->says_tax == CRO_PRICE_TAX_UNSAID && row->tax_heading == NULL && open != NULL && !self->may_have_tax)
    cro_list_said_ask_tax (list, row, open);
  else if (row->says_tax == CRO_PRICE_TAX_UNSAID && row->tax_heading == NULL && open != NULL)
    {
      row->tax_heading = open;
      row->tax_beside = CRO_NOT_SET;
      row->is_tax_open = TRUE;
    }
  else if (row->says_tax == CRO_PRICE_TAX_UNSAID && !row->is_tax_open)
    {
      row->says_tax = self->tax;
      row->tax_pct = self->tax_pct;
    }
  cro_list_said_ask (self, list, row);
  if (row->has_price && self->is_currency_open && row->currency == NULL)
    row->said_open = self->said_open;
  if (row->currency == NULL && row->has_price)
    row->currency = self->currency;
  if (row->has_per || !row->has_price || (self->excepted != NULL && row->said_open == self->per_note))
    return;
  if (self->said_open != NULL)
    row->said_open = self->said_open;
  else if (self->is_of_pack && row->priced_as == NULL)
    row->priced_as = "pack";
  else if (self->per.is_said && cro_decimal_multiply (row->price, self->per.times, &row->price))
    {
      row->has_per = TRUE;
      row->per = self->per.unit;
    }
}

/* A sentence that is wrapped goes on with a small letter, or where a line ends within it: "Prices do not / include
 * VAT". */
static gboolean
goes_on (const char           *note,
         const CroPriceSaying *said,
         const char           *next)
{
  gsize n = strlen (note);

  return *next != '\0' && n > 0 && strchr (".!?;:", note[n - 1]) == NULL && !said->has_number
         && (said->is_unfinished || g_unichar_islower (g_utf8_get_char (next)));
}

guint
cro_list_count_plain (char **lines)
{
  guint n = 0;

  while (lines[n] != NULL && strpbrk (lines[n], "0123456789") != NULL && !cro_price_saying_may_be_of_tax (lines[n]))
    n++;
  return n;
}

char *
cro_list_dup_sentence (const char *const *lines,
                       guint              n,
                       guint             *n_lines)
{
  g_autofree char *joined = g_strchomp (g_strdup (lines[0]));
  CroPriceSaying said = cro_price_saying_of (joined, NULL);
  char *sentence = g_strdup (joined);

  *n_lines = 1;
  for (guint i = 1; i < n; i++)
    {
      g_autofree char *next = g_strstrip (g_strdup (lines[i])), *before = g_steal_pointer (&joined);

      if (!goes_on (before, &said, next))
        break;
      joined = g_strconcat (before, " ", next, NULL);
      said = cro_price_saying_of (joined, NULL);
      if (said.has_number || !(cro_price_saying_is_of_tax (&said) || said.has_money || said.has_per_word))
        continue;
      g_free (sentence);
      sentence = g_strdup (joined);
      *n_lines = i + 1;
    }
  return sentence;
}

/* --- Tax beside ---------------------------------------------------------------------------------------- */

static gboolean
is_near (gint64 a,
         gint64 b,
         gint64 within)
{
  return a - b <= within && b - a <= within;
}

/* In per cents of a price, which may be parts of one. */
static gint64
share_of (gint64 price,
          gint64 tax)
{
  double part = cro_decimal_to_double (tax) / (tax < CRO_MICRO ? 1 : 100);
  gint64 share;

  return cro_decimal_from_double (cro_decimal_to_double (price) * part, &share) ? share : CRO_NOT_SET;
}

/* A total beside both tells that the tax comes on top, whether it is given as an amount or as a rate. */
gboolean
cro_price_list_adds_tax (gint64 price,
                         gint64 tax,
                         gint64 total)
{
  gint64 share = share_of (price, tax);

  return total > price
         && (is_near (price + tax, total, CRO_MICRO / 100)
             || (share != CRO_NOT_SET && is_near (price + share, total, CRO_MICRO / 100)));
}

/* Whether a share is one that a tax may have, by halves of a per cent, within what money is rounded by. */
static gboolean
is_rate (double share,
         double of)
{
  double halves = 200 * share;

  return fabs (halves - round (halves)) <= 200 * 0.006 / of;
}

gboolean
cro_price_list_may_hold_tax (gint64 price,
                             gint64 tax)
{
  double of = cro_decimal_to_double (price), amount = cro_decimal_to_double (tax);

  return amount > 0 && amount < of && is_rate (amount / (of - amount), of) && !is_rate (amount / of, of);
}

CroPriceTax
cro_price_list_tax_by_amount (gint64 price,
                              gint64 tax,
                              gint64 rate_pct)
{
  double pct = cro_decimal_to_double (rate_pct), of = cro_decimal_to_double (price);
  gint64 on_top, within;

  if (!cro_decimal_from_double (of * pct / 100, &on_top) || !cro_decimal_from_double (of * pct / (100 + pct), &within)
      || is_near (on_top, within, CRO_MICRO / 50))
    return CRO_PRICE_TAX_UNSAID;
  return is_near (tax, on_top, CRO_MICRO / 100)   ? CRO_PRICE_WITHOUT_TAX
         : is_near (tax, within, CRO_MICRO / 100) ? CRO_PRICE_WITH_TAX
                                                  : CRO_PRICE_TAX_UNSAID;
}
