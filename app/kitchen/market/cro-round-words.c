#include "config.h"

#include "cro-round-words.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-currency.h"
#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-last-price.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-price-list-words.h"
#include "cro-price-rows.h"
#include "cro-result-words.h"
#include "cro-round-private.h"
#include "cro-sold.h"
#include "cro-words-price.h"
#include "cro-words.h"

/* Names of what is left out; the others are counted. */
#define MOST_LACKS 3

/* Places that tell two figures apart: of percentages, of money, of what goes over its target or comes below it. */
#define MOST_PCT_DIGITS 2
#define MOST_MONEY_DIGITS 3
#define MOST_DIGITS 6

/* --- Rows -------------------------------------------------------------------------------------------- */

char *
cro_words_round_typed (CroRound          *round,
                       const CroRoundRow *row)
{
  g_autofree char *exact = NULL;

  if (row->kind == CRO_ROUND_AS_LAST)
    return g_strdup (C_("price", "as last"));
  if (row->kind == CRO_ROUND_NONE && !row->is_added)
    return g_strdup (cro_words_not_to_be_had ());
  if (row->kind != CRO_ROUND_PRICED || row->is_added || row->is_billed)
    return g_strdup (row->text);
  /* What a list brought in more places than anybody types is kept in full. */
  exact = cro_round_dup_typed (round, &row->list);
  return g_str_equal (exact, row->text) ? cro_round_dup_shown (round, &row->list) : g_strdup (row->text);
}

/* A price of a pack, as one is typed. */
static char *
typed_of (CroRound          *round,
          const CroRoundRow *row,
          gint64             price)
{
  CroListRow list = row->list;

  list.is_none = FALSE;
  list.price = price;
  list.pack = row->pack;
  list.currency = NULL;
  list.says_tax = CRO_PRICE_TAX_UNSAID;
  return cro_round_dup_shown (round, &list);
}

char *
cro_words_round_shown_last (CroRound          *round,
                            const CroRoundRow *row)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  const char *currency = row->list.offer != CRO_NO_SLOT ? cro_model_currency_of (model, row->list.offer)
                                                        : row->list.currency;
  g_autofree char *last = NULL;
  gint64 one;

  /* Beside prices per kg that of a document is for what it counts. */
  if (row->is_billed && cro_round_is_per_base (round) && row->list.quoted_pack != CRO_NOT_SET)
    {
      g_autofree char *size = cro_pack_to_short_text (&row->list.pack);

      last = cro_words_round_last (round, row);
      return g_strdup_printf (_("%s for %s"), last, size);
    }
  if (row->is_billed || row->last == CRO_NOT_SET)
    return cro_words_round_last (round, row);
  if (cro_round_is_per_base (round) && cro_round_price_of_one (round, row, &one))
    return cro_words_price_shown (currency, one);
  /* Of the pack beside it, whichever one is typed. */
  return cro_words_price_shown (currency, row->last);
}

char *
cro_words_round_last (CroRound          *round,
                      const CroRoundRow *row)
{
  if (row->is_billed)
    return row->list.quoted_pack != CRO_NOT_SET ? cro_words_price_shown (row->list.currency, row->list.quoted_pack)
                                                : NULL;
  return row->last != CRO_NOT_SET ? typed_of (round, row, row->last) : NULL;
}

/* Money per kg, l or piece in the pack's own currency; net: what of it is net weight, in millionths of per cent; 0:
 * all. */
static char *
per_base (CroRound      *round,
          guint32        item,
          const CroPack *pack,
          gint64         price,
          gint64         net)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  const CroUnitInfo *of = cro_unit_get (pack->unit);
  double one = cro_decimal_to_double (price) / cro_decimal_to_double (pack->count)
               / cro_decimal_to_double (pack->size) * (double) of->denominator / (double) of->numerator;
  CroBase base = item != CRO_NO_SLOT ? (CroBase) model->measures[item].base : of->base;
  g_autofree char *bought = NULL, *of_net = NULL;

  if (base != of->base)
    return NULL;
  bought = cro_words_unit_cost (model, base, one);
  if (net == 0 || net == CRO_WHOLE_PCT)
    return g_steal_pointer (&bought);
  of_net = cro_words_unit_cost (model, base, one * (double) CRO_WHOLE_PCT / (double) net);
  /* Translators: prices per kg, of what is bought and of its net weight: "13.90/kg, net weight 17.38/kg". */
  return g_strdup_printf (_("%s, net weight %s"), bought, of_net);
}

static gint64
net_of (CroRound          *round,
        const CroRoundRow *row)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));

  return row->list.offer != CRO_NO_SLOT ? cro_model_offer (model, row->list.offer)->offer.net : 0;
}

gint64
cro_words_round_tax (CroRound          *round,
                     const CroRoundRow *row)
{
  gboolean is_typed = row->kind == CRO_ROUND_PRICED || row->kind == CRO_ROUND_AS_LAST;
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));

  if (is_typed)
    return row->list.tax;
  return row->list.offer != CRO_NO_SLOT ? cro_model_offer (model, row->list.offer)->offer.tax_included : 0;
}

static char *
other_way (CroRound          *round,
           const CroRoundRow *row)
{
  gboolean is_typed = row->kind == CRO_ROUND_PRICED || row->kind == CRO_ROUND_AS_LAST;
  const CroPack *pack = is_typed ? &row->list.pack : &row->pack;
  gint64 price = is_typed ? row->list.price : row->last;
  g_autofree char *text = NULL, *size = NULL;

  if (price == CRO_NOT_SET || pack->size == 0)
    return NULL;
  if (!cro_round_is_per_base (round) || row->is_added)
    return per_base (round, row->list.item, pack, price, net_of (round, row));
  text = cro_words_price_in (row->list.currency, price);
  size = cro_pack_to_short_text (pack);
  /* Translators: a price, and the pack that it is for: "112.00 for 1 × 10 kg". */
  return g_strdup_printf (_("%s for %s"), text, size);
}

char *
cro_words_round_other (CroRound          *round,
                       const CroRoundRow *row)
{
  gint64 tax = cro_words_round_tax (round, row);
  g_autofree char *other = other_way (round, row), *pct = NULL;

  if (other == NULL || tax == 0)
    return g_steal_pointer (&other);
  pct = cro_words_decimal (tax);
  /* Translators: a price, and the per cent of tax that it contains. */
  return g_strdup_printf (_("%s, with %s %% tax"), other, pct);
}

char *
cro_words_round_change (const CroRoundRow *row)
{
  double pct = (row->list.look.ratio - 1) * 100;

  /* Of an invoice beside what was quoted, as the row shows it: the book may have a later price. */
  if (row->is_billed)
    pct = row->list.quoted != CRO_NOT_SET && row->list.quoted != 0 && row->list.amount != 0
              ? (cro_decimal_to_double (row->list.net_value) / cro_decimal_to_double (row->list.amount)
                     / cro_decimal_to_double (row->list.quoted)
                 - 1) * 100
              : NAN;
  if (row->kind != CRO_ROUND_PRICED || isnan (pct) || fabs (pct) < 0.05)
    return NULL;
  return cro_words_change (pct);
}

static const char *
supplier_of (CroModel *model,
             guint32   offer)
{
  return g_array_index (model->suppliers, CroSupplier, cro_model_offer (model, offer)->supplier).name;
}

/* Money of the book, with its currency where the sheet is typed in another; takes text. */
static char *
in_book_currency (CroRound *round,
                  char     *text)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  const char *currency = cro_round_get_currency (round);
  char *named;

  if (currency == NULL || model->currency == NULL || g_str_equal (currency, model->currency))
    return text;
  named = g_strdup_printf ("%s %s", text, model->currency);
  g_free (text);
  return named;
}

static char *
cost_of_book (CroRound *round,
              guint32   item,
              double    unit_cost)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  g_autofree char *plain = cro_words_unit_cost (model, (CroBase) model->measures[item].base, unit_cost);

  return in_book_currency (round, cro_words_together (plain));
}

/* What serves once it is not to be had: another pack that is, the last price, or none. */
static char *
none_note (CroRound          *round,
           const CroRoundRow *row)
{
  CroFigures *figures = cro_book_get_figures (cro_round_get_draft (round));
  CroModel *model = figures->model;
  guint32 item = row->list.item, in_use = item != CRO_NO_SLOT ? figures->offer_in_use[item] : CRO_NO_SLOT;
  g_autofree char *price = NULL;

  if (item == CRO_NO_SLOT || row->list.offer == CRO_NO_SLOT)
    return NULL;
  if (in_use == CRO_NO_SLOT)
    return g_strdup (_("No price is left: what takes it has a price missing."));
  price = cost_of_book (round, item, cro_figures_unit_cost (figures, item));
  if (cro_model_offer (model, in_use)->offer.has_price)
    /* Translators: a supplier, a price per kg, l or piece. */
    return cro_isolate_printf (_("%s serves instead, %s."), supplier_of (model, in_use), price);
  /* Translators: of an ingredient that is not to be had; a price per kg, l or piece. */
  return g_strdup_printf (_("The last price, %s, stays in use, and is marked."), price);
}

static char *
added_note (CroRound          *round,
            const CroRoundRow *row)
{
  CroFigures *figures = cro_book_get_figures (cro_round_get_draft (round));
  const char *name;

  if (row->list.item == CRO_NO_SLOT)
    return g_strdup (_("New ingredient. No plate takes it yet."));
  name = cro_model_item (figures->model, row->list.item)->name;
  if (row->is_drafted && figures->offer_in_use[row->list.item] != row->drafted)
    return cro_isolate_printf (_("New pack of %s. Another pack serves on: it is preferred, or cheaper."), name);
  return cro_isolate_printf (_("New pack of %s."), name);
}

/* NULL: the pack is bought still. */
static char *
given_up_note (CroRound          *round,
               const CroRoundRow *row)
{
  for (guint i = 0; row->list.reasons != NULL && i < row->list.reasons->len; i++)
    {
      const CroListReason *reason = &g_array_index (row->list.reasons, CroListReason, i);

      if (reason->why == CRO_LIST_GIVEN_UP)
        return cro_words_list_reason (cro_book_get_model (cro_round_get_draft (round)), round->list, &row->list,
                                      reason);
    }
  return NULL;
}

static char *
plain_note (CroRound          *round,
            const CroRoundRow *row)
{
  g_autofree char *now = NULL, *before = NULL, *given_up = given_up_note (round, row), *billed = NULL;

  if (row->is_billed)
    {
      billed = cro_words_round_billed_note (round, row);
      return billed != NULL && given_up != NULL ? g_strdup_printf ("%s. %s", billed, given_up)
             : given_up != NULL                 ? g_steal_pointer (&given_up)
                                                : g_steal_pointer (&billed);
    }
  if (row->kind == CRO_ROUND_NONE)
    return none_note (round, row);
  if (given_up != NULL)
    return g_steal_pointer (&given_up);
  if (row->is_added && row->kind == CRO_ROUND_PRICED && row->list.offer == CRO_NO_SLOT)
    return added_note (round, row);
  if (row->kind == CRO_ROUND_PRICED && row->pack.size > 0 && !cro_pack_holds_same (&row->list.pack, &row->pack))
    {
      now = cro_pack_to_short_text (&row->list.pack);
      before = cro_pack_to_short_text (&row->pack);
      /* Translators: packs: "1 × 4 kg". */
      return g_strdup_printf (_("Pack today: %s, before: %s."), now, before);
    }
  return row->is_off && row->kind == CRO_ROUND_EMPTY ? g_strdup (_("Not to be had so far.")) : NULL;
}

char *
cro_words_round_note (CroRound *round,
                      guint     index)
{
  const CroRoundRow *row = cro_round_get_row (round, index);
  const CroListReason *reason = cro_round_row_get_question (row);
  g_autofree char *asked = NULL;

  if (row->wrong != NULL)
    return g_strdup (row->wrong);
  if (reason == NULL && (row->is_added || row->is_billed)
      && (row->list.state == CRO_LIST_UNMATCHED || (row->list.is_return && cro_round_row_waits (row))))
    return g_strdup (_("No ingredient has this name."));
  if (reason != NULL && reason->why == CRO_LIST_TWICE && !row->is_billed && !cro_round_has_rival (round, row))
    return g_strdup (_("Another price for this pack is posted. Does this one hold instead?"));
  if (reason != NULL && reason->why == CRO_LIST_TWICE && !row->is_billed)
    return g_strdup (_("Another row has another price for the same pack. Which one holds?"));
  if (reason == NULL || (row->kind == CRO_ROUND_EMPTY && !row->is_billed))
    return plain_note (round, row);
  asked = cro_words_list_reason (cro_book_get_model (cro_round_get_draft (round)),
                                 row->is_billed ? round->invoice : round->list, &row->list, reason);
  if (reason->why == CRO_LIST_LIKE)
    /* Translators: a sentence with names that are like a new one. */
    return g_strdup_printf (_("No ingredient has this name. %s"), asked);
  return g_steal_pointer (&asked);
}

char *
cro_words_round_name (CroRound          *round,
                      const CroRoundRow *row)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  const char *name = row->list.item != CRO_NO_SLOT && row->list.state != CRO_LIST_UNMATCHED
                         ? cro_model_item (model, row->list.item)->name
                         : cro_words_list_name (&row->list);

  return g_strdup (name);
}

char *
cro_words_round_line (CroRound   *round,
                      const char *line)
{
  CroRoundRow *row = cro_round_row_new ();
  g_autofree char *name = NULL, *pack = NULL, *price = NULL, *note = NULL;
  char *said = NULL;

  g_free (row->text);
  row->text = g_strdup (line);
  row->is_added = TRUE;
  if (cro_round_read_line (round, row, NULL) && row->kind != CRO_ROUND_EMPTY)
    {
      name = cro_words_round_name (round, row);
      pack = row->list.pack.size > 0 ? cro_pack_to_short_text (&row->list.pack) : NULL;
      price = row->list.has_price ? cro_words_price_in (row->list.currency, row->list.price) : NULL;
      if (row->list.offer != CRO_NO_SLOT)
        {
          /* It goes into the row of that pack. */
          row->is_added = FALSE;
          row->pack = cro_pack_of_offer (cro_book_get_model (cro_round_get_draft (round)), row->list.offer);
        }
      note = row->wrong != NULL ? g_strdup (row->wrong) : plain_note (round, row);
      said = pack == NULL || price == NULL
                 ? g_strdup (row->wrong != NULL ? row->wrong : name)
                 /* Translators: what a typed line is understood as: a name, a pack, its price, and whether that
                  * is new. */
                 : cro_isolate_printf (_("%s, %s: %s. %s"), name, pack, price, note != NULL ? note : "");
    }
  cro_round_row_free (row);
  return said;
}

/* --- What it does ---------------------------------------------------------------------------------------- */

static char *
result_of (CroModel        *model,
           const CroFigure *figure)
{
  return isnan (figure->food_cost_pct) ? cro_words_cost_short (model, figure) : cro_words_result_short (model, figure);
}

/* What has no price, or is given as a coefficient. */
static gboolean
is_finer_in_money (CroModel        *model,
                   const CroFigure *figure)
{
  return isnan (figure->food_cost_pct) || model->speaks == CRO_SPEAKS_COEFFICIENT;
}

/* With more digits. */
static char *
fine_of (CroModel        *model,
         const CroFigure *figure,
         int              digits)
{
  double pct = model->speaks == CRO_SPEAKS_GROSS_PROFIT ? 100 - figure->food_cost_pct : figure->food_cost_pct;

  if (is_finer_in_money (model, figure))
    return cro_words_take_short (cro_known_of_cost (figure), cro_number_to_text (figure->cost, digits, FALSE));
  return cro_words_known_pct_short (cro_known_of_result (model->speaks, figure), pct, digits);
}

static int
most_digits (CroModel            *model,
             const CroMovedPlate *moved)
{
  if (moved->before.is_over_target != moved->after.is_over_target)
    return MOST_DIGITS;
  return is_finer_in_money (model, &moved->after) ? MOST_MONEY_DIGITS : MOST_PCT_DIGITS;
}

char *
cro_words_round_moved (CroRound            *round,
                       const CroRoundMoved *moved)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  const CroFigure *was = &moved->moved.before, *is = &moved->moved.after;
  g_autofree char *before = result_of (model, was), *after = result_of (model, is);
  int most = most_digits (model, &moved->moved);

  /* Where the figures of the house are too coarse to show it. */
  for (int digits = 2; g_str_equal (before, after) && digits <= most; digits++)
    {
      g_free (before);
      g_free (after);
      before = fine_of (model, was, digits);
      after = fine_of (model, is, digits);
    }
  if (g_str_equal (before, after))
    return NULL;
  /* Without a price on the card it is money. */
  if (isnan (is->food_cost_pct))
    after = in_book_currency (round, g_steal_pointer (&after));
  /* Translators: a figure before and after. */
  return g_strdup_printf (_("%s → %s"), before, after);
}

char *
cro_words_round_hold (CroRound             *round,
                      const CroRoundEffect *effect,
                      const CroRoundMoved  *moved)
{
  CroModel *model = effect->figures->model;
  const char *currency = cro_round_get_currency (round), *name;
  gboolean is_foreign = currency != NULL && g_strcmp0 (currency, model->currency) != 0;
  /* What the sheet is typed in. */
  double known = is_foreign ? cro_model_rate (model, currency) : 0, rate = known > 0 ? known : 1;
  g_autofree char *price = NULL;

  if (moved->item == CRO_NO_SLOT)
    return NULL;
  name = cro_model_item (model, moved->item)->name;
  if (moved->ceiling < 0)
    /* Translators: an ingredient whose price cannot be low enough for a target. */
    return cro_isolate_printf (_("%s: over even as a gift"), name);
  price = cro_words_unit_price (model, (CroBase) model->measures[moved->item].base, moved->ceiling / rate,
                                cro_figures_unit_cost (effect->figures, moved->item) / rate,
                                cro_money_round_down);
  if (known > 0)
    {
      char *named = g_strdup_printf ("%s %s", price, currency);

      g_free (price);
      price = named;
    }
  /* Translators: an ingredient, and the highest price at which a plate keeps its target. */
  return cro_isolate_printf (moved->moved.after.is_incomplete ? _("%s up to %s at most") : _("%s up to %s"), name,
                             price);
}

char *
cro_words_round_cheaper (CroRound              *round,
                         const CroRoundCheaper *cheaper)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  g_autofree char *price = cost_of_book (round, cheaper->item, cheaper->unit_cost);
  g_autofree char *now = cost_of_book (round, cheaper->item, cheaper->now);

  /* Translators: an ingredient, its price at another supplier’s, that supplier; the price of the pack that is
   * preferred. */
  return cro_isolate_printf (_("%s %s at %s; preferred: %s"), cro_model_item (model, cheaper->item)->name, price,
                             supplier_of (model, cheaper->offer), now);
}

/* What is missing of a cost makes it look lower than it is; of some before and of others after there is no
 * bound. */
static CroKnown
known_of_week (const CroRoundEffect *effect)
{
  if (effect->is_short_before == effect->is_short_after)
    return CRO_KNOWN_WHOLE;
  return effect->is_short_after == (effect->week >= 0) ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_AT_MOST;
}

/* Of the first few the names, each once; NULL: nothing is left out. */
static char *
dup_lacks (const CroRoundEffect *effect)
{
  g_autoptr (GString) names = g_string_new (NULL);
  const char *last = NULL;
  guint n = 0;

  for (guint i = 0; i < effect->lacks->len; i++)
    {
      const char *name = g_array_index (effect->lacks, CroCause, i).name;

      if (name == NULL || g_strcmp0 (name, last) == 0)
        continue;
      last = name;
      if (n < MOST_LACKS)
        g_string_append_printf (names, "%s%s", n > 0 ? ", " : "", name);
      n++;
    }
  if (n > MOST_LACKS)
    /* Translators: behind names, how many more there are. */
    g_string_append_printf (names, ngettext (" and %u other", " and %u others", n - MOST_LACKS), n - MOST_LACKS);
  return n > 0 ? g_string_free (g_steal_pointer (&names), FALSE) : NULL;
}

static char *
sold_sentence (const CroRoundEffect *effect,
               const char           *money)
{
  g_autofree char *days = g_strdup_printf ("%d", CRO_SOLD_DAYS), *until = cro_date_to_text (effect->until);

  if (known_of_week (effect) != CRO_KNOWN_WHOLE)
    return g_strdup_printf (effect->week < 0
                                /* Translators: "at least" or "at most" money, a number of days, the last of them. */
                                ? _("%s less per week (%s days to %s)")
                                : _("%s more per week (%s days to %s)"),
                            money, days, until);
  return g_strdup_printf (effect->week < 0
                              /* Translators: money, a number of days, the last of them. */
                              ? _("About %s less per week (%s days to %s)")
                              : _("About %s more per week (%s days to %s)"),
                          money, days, until);
}

char *
cro_words_round_week (CroRound             *round,
                      const CroRoundEffect *effect)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  g_autofree char *plain = in_book_currency (round, cro_words_money (model, fabs (effect->week))), *sentence = NULL;
  g_autofree char *money = cro_words_known (known_of_week (effect), plain), *lacks = dup_lacks (effect);

  if (effect->moved->len == 0)
    return NULL;
  if (effect->has_sold)
    sentence = sold_sentence (effect, money);
  else
    sentence = g_strdup_printf (effect->week < 0
                                    /* Translators: money; of all plates and menus whose cost moves. */
                                    ? _("%s less per guest, one of each. No sales yet.")
                                    : _("%s more per guest, one of each. No sales yet."),
                                money);
  if (lacks == NULL)
    return g_steal_pointer (&sentence);
  return effect->has_sold
             /* Translators: by how much costs move in a week; what has no price, and is left out. */
             ? cro_isolate_printf (_("%s, without %s"), sentence, lacks)
             /* Translators: by how much costs move; what has no price, and is left out. */
             : cro_isolate_printf (_("%s Without %s."), sentence, lacks);
}

/* --- In all ------------------------------------------------------------------------------------------------ */

char *
cro_words_round_effect (CroRound             *round,
                        const CroRoundEffect *effect)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  GString *text = g_string_new (NULL);
  g_autofree char *week = cro_words_round_week (round, effect);
  guint n_unseen = 0;

  if (effect->moved->len > 0)
    g_string_append_printf (text, "%s\n", _("What moved"));
  for (guint i = 0; i < effect->moved->len; i++)
    {
      const CroRoundMoved *moved = &g_array_index (effect->moved, CroRoundMoved, i);
      g_autofree char *figures = cro_words_round_moved (round, moved);
      const char *over = moved->moved.after.is_over_target ? cro_words_over_target (model) : NULL;
      g_autofree char *said = g_strdup_printf ("%s%s%s", figures, over != NULL ? ", " : "", over != NULL ? over : "");
      g_autofree char *line = cro_isolate_printf (_("%s: %s"), moved->moved.after.name, said);

      if (figures != NULL)
        g_string_append_printf (text, "%s\n", line);
      else
        n_unseen++;
    }
  if (n_unseen > 0)
    {
      g_autofree char *unseen = cro_words_moved_unseen (n_unseen);

      g_string_append_printf (text, "%s\n", unseen);
    }
  if (week != NULL)
    g_string_append_printf (text, "%s\n", week);
  return g_string_free (text, FALSE);
}
