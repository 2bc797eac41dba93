/* What is typed into a row of a round. */
#include "config.h"

#include "cro-round-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-isolate.h"
#include "cro-pack.h"
#include "cro-price-change.h"
#include "cro-price-list-words.h"
#include "cro-price-words.h"
#include "cro-words-price.h"
#include "cro-words.h"

static gboolean
is_as_last (const char *text)
{
  /* Translators: what stands in place of a price that is the same as the last one; it can be typed. */
  g_autofree char *words = cro_fold (C_("price", "as last")), *folded = cro_fold (text);

  return strcmp (text, ".") == 0 || strcmp (text, ",") == 0 || cro_list_says_same (text)
         || (*folded != '\0' && strcmp (folded, words) == 0);
}

gboolean
cro_round_is_word (const char *text)
{
  return cro_list_says_none (text) || is_as_last (text);
}

static gboolean
is_change (const char *text)
{
  return *text == '+' || *text == '-' || g_str_has_prefix (text, "−");
}

static CroPack
one_of (CroUnit unit)
{
  return (CroPack){ CRO_MICRO, CRO_MICRO, unit };
}

/* Whether a price that is stated per unit is of the row's pack. */
static CroUnit
unit_of (CroRound          *self,
         const CroRoundRow *row)
{
  return cro_price_list_unit_of_quotes (self->of.model, row->list.item);
}

gboolean
cro_round_price_of_one (CroRound          *self,
                        const CroRoundRow *row,
                        gint64            *one)
{
  return cro_list_price_of_one (&row->pack, row->last, unit_of (self, row), one);
}

static gboolean
is_per_base (CroRound          *self,
             const CroRoundRow *row)
{
  gint64 ignored;

  return self->of.quotes_base && cro_list_price_of_one (&row->pack, CRO_MICRO, unit_of (self, row), &ignored);
}

static void
take_price (CroRound    *self,
            CroRoundRow *row,
            gint64       price)
{
  CroListRow *list = &row->list;

  list->pack = row->pack;
  list->price = price;
  if (is_per_base (self, row) && !cro_brought_price_of_pack (unit_of (self, row), &list->pack, &list->price))
    {
      list->pack = one_of (unit_of (self, row));
      list->price = price;
    }
  list->has_price = TRUE;
  row->kind = CRO_ROUND_PRICED;
}

/* --- A pack that differs today -------------------------------------------------------------------------- */

/* "69.50/4 kg", "69.50 per 6x1 kg": where the pack begins; NULL: nowhere. A price per kilogram names no
 * pack. */
static const char *
find_pack (const char *text,
           CroPack    *pack,
           gsize      *money)
{
  gunichar last = *text != '\0' ? g_utf8_get_char (g_utf8_prev_char (text + strlen (text))) : 0;

  if (!g_unichar_isalpha (last))
    return NULL;
  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gsize per = cro_price_scan_per (at);
      const char *rest = at + per;

      rest += strspn (rest, " ");
      if (per == 0 || (*at != '/' && (at == text || !g_ascii_isspace (at[-1]))) || !g_ascii_isdigit (*rest)
          || !cro_pack_from_text (rest, CRO_UNIT_KG, cro_words_entry (), pack))
        continue;
      *money = (gsize) (at - text);
      return rest;
    }
  return NULL;
}

static gboolean
read_other_pack (CroRoundRow      *row,
                 const char       *text,
                 const CroPriceOf *of)
{
  CroPack pack;
  gsize n, last = cro_currency_scan_last (text);
  g_autofree char *bare = g_strchomp (g_strndup (text, last));
  const char *found = find_pack (bare, &pack, &n);
  g_autofree char *money = found != NULL ? g_strdup_printf ("%.*s %s", (int) n, bare, text + last) : NULL;
  g_auto (CroEntry) entry = { 0 };

  if (money == NULL || !cro_entry_money (money, of->currency, of->tax, CRO_RANGE_AT_LEAST_0, &entry))
    return FALSE;
  row->list.pack = pack;
  /* "1 × 550 g" is a pack. */
  row->list.is_per_measure = strstr (found, "×") == NULL && strpbrk (found, "xX*") == NULL;
  row->list.price = entry.micro;
  row->list.has_price = TRUE;
  row->kind = CRO_ROUND_PRICED;
  return TRUE;
}

/* --- Prices -------------------------------------------------------------------------------------------- */

static void
read_change (CroRound    *self,
             CroRoundRow *row,
             const char  *text)
{
  gint64 before = row->last;
  CroPriceChange change;
  g_auto (CroEntry) entry = { 0 };

  if (row->last == CRO_NOT_SET)
    {
      row->wrong = g_strdup (_("There is no last price to change."));
      return;
    }
  if (is_per_base (self, row))
    cro_list_price_of_one (&row->pack, row->last, unit_of (self, row), &before);
  row->list.is_from_last = TRUE;
  if (cro_price_change_read (self->of.model, row->list.offer, &before, text, &change, &entry) == CRO_ENTRY_OK)
    take_price (self, row, change.price);
  else
    row->wrong = cro_price_change_reason (self->of.model, row->list.offer, text, &entry);
}

/* "3 kg 24.50/kg" is the price of three kilograms. */
static void
settle_pack (CroListRow *list)
{
  if (list->has_per && list->pack.size > 0 && cro_brought_price_of_pack (list->per, &list->pack, &list->price))
    list->has_per = FALSE;
  else if (list->has_per && list->pack.size == 0)
    {
      list->pack = one_of (list->per);
      list->has_per = FALSE;
    }
}

/* What is typed of tax goes out of the text where it can be obeyed: at what rate a price is with tax it says itself, or
 * the last one tells, or one not long before. Owned. */
static char *
take_tax (CroRound    *self,
          CroRoundRow *row,
          const char  *text,
          CroPriceOf  *of)
{
  CroTax tax;
  gint64 pct;
  g_autofree char *rest = g_strstrip (cro_price_take_tax_out (text, &tax, &pct));

  if (tax == CRO_TAX_NOT_SAID
      || (tax == CRO_TAX_WITH && pct == 0 && cro_list_tax_before (&self->of, row->list.offer) == 0))
    return g_strdup (text);
  of->tax = tax;
  row->list.tax_pct = pct;
  row->list.says_tax = tax == CRO_TAX_WITH ? CRO_PRICE_WITH_TAX : CRO_PRICE_WITHOUT_TAX;
  return g_steal_pointer (&rest);
}

/* What a price without a pack is for: a kilogram, where it says so, the row's pack, or what the supplier's are. FALSE:
 * it may not be of that pack, or is in another currency. */
static gboolean
settle_own (CroRound    *self,
            CroRoundRow *row,
            CroListRow  *read)
{
  CroUnit unit = read->has_per ? read->per : unit_of (self, row);
  const char *own = cro_model_currency_of (self->of.model, row->list.offer);

  if ((read->priced_as != NULL && !cro_list_is_of_pack (read))
      || (read->currency != NULL && g_strcmp0 (read->currency, own) != 0))
    return FALSE;
  read->pack = row->pack;
  if (cro_list_is_of_pack (read))
    return !cro_list_is_part_of (read, &row->pack);
  if (!read->has_per && !is_per_base (self, row))
    return TRUE;
  read->has_per = FALSE;
  return cro_brought_price_of_pack (unit, &read->pack, &read->price);
}

/* "1 kg 25", "68 € la caisse de 5 kg", "14 € 90", as the new row takes it: a price, a pack or none, and no name. */
static gboolean
read_as_line (CroRound    *self,
              CroRoundRow *row,
              const char  *text)
{
  CroListRow read = { 0 };
  gboolean is_it = cro_price_list_take_line (self->list, &self->of, text, &read) && read.has_price
                   && read.name == NULL && read.code == NULL && read.reasons == NULL
                   && read.says_tax == CRO_PRICE_TAX_UNSAID && (read.pack.size > 0 || settle_own (self, row, &read));

  if (is_it)
    {
      settle_pack (&read);
      row->list.pack = read.pack;
      row->list.price = read.price;
      row->list.has_price = TRUE;
      row->kind = CRO_ROUND_PRICED;
    }
  g_clear_pointer (&read.reasons, g_array_unref);
  return is_it;
}

/* "71 per case" where prices are per kilogram. */
static gboolean
read_whole (CroRoundRow      *row,
            const char       *text,
            const CroPriceOf *of)
{
  g_auto (CroEntry) entry = { 0 };

  if (!cro_entry_price (text, of, cro_words_entry (), &entry))
    return FALSE;
  row->list.pack = of->pack;
  row->list.price = entry.micro;
  row->list.has_price = TRUE;
  row->kind = CRO_ROUND_PRICED;
  return TRUE;
}

static void
read_price (CroRound    *self,
            CroRoundRow *row,
            const char  *typed)
{
  const char *own = cro_model_currency_of (self->of.model, row->list.offer);
  CroPriceOf of = cro_pack_price_of_offer (self->of.model, row->list.offer, &row->pack), one;
  g_autofree char *text = take_tax (self, row, typed, &of);
  const char *said = cro_price_list_currency (self->list, &self->of, text);
  g_auto (CroEntry) entry = { 0 };

  row->list.currency = of.currency = said != NULL ? said : own;
  if (read_other_pack (row, text, &of))
    return;
  one = of;
  if (is_per_base (self, row))
    {
      one.pack = one_of (unit_of (self, row));
      one.is_of_pack = FALSE;
    }
  if (cro_entry_price (text, &one, cro_words_entry (), &entry))
    take_price (self, row, entry.micro);
  else if (entry.status == CRO_ENTRY_SIZELESS_UNIT && !one.is_of_pack && read_whole (row, text, &of))
    return;
  else if (!read_as_line (self, row, text))
    row->wrong = cro_price_change_reason (self->of.model, row->list.offer, text, &entry);
}

/* At the pack and the price that served last, whether it is to be had now or not. */
static void
read_as_last (CroRoundRow *row)
{
  if (row->last == CRO_NOT_SET)
    {
      row->wrong = g_strdup (_("There is no last price."));
      return;
    }
  row->list.is_from_last = TRUE;
  row->list.pack = row->pack;
  row->list.price = row->last;
  row->list.has_price = TRUE;
  row->kind = CRO_ROUND_AS_LAST;
}

gboolean
cro_round_row_is_relative (const CroRoundRow *row)
{
  const char *text = row->text + strspn (row->text, " ");

  if (row->read != NULL)
    return !row->is_added && (row->read->is_same || row->read->change_pct != 0);
  return !row->is_added && !row->is_billed && !row->is_filled && !cro_list_says_none (row->text)
         && (is_change (text) || row->kind == CRO_ROUND_AS_LAST);
}

gboolean
cro_round_row_is_moved (const CroRoundRow *row)
{
  return cro_round_row_is_relative (row) && row->base != CRO_NOT_SET && row->base != row->last;
}

gboolean
cro_round_meant_before (CroRound          *self,
                        const CroRoundRow *row,
                        CroListRow        *list)
{
  g_autofree char *text = g_strstrip (g_strdup (row->text));
  CroRoundRow then = *row;

  if (row->read != NULL)
    {
      then.list.pack = row->pack;
      then.list.price = row->base;
      then.list.change_pct = row->read->change_pct;
      *list = then.list;
      return list->change_pct == 0 || cro_list_row_change (&self->of, list);
    }
  then.last = row->base;
  then.wrong = NULL;
  then.list.reasons = NULL;
  then.list.has_price = FALSE;
  if (row->kind == CRO_ROUND_AS_LAST)
    read_as_last (&then);
  else
    read_change (self, &then, text);
  g_free (then.wrong);
  *list = then.list;
  return list->has_price;
}

/* Somebody posted another price since it was typed, it may be the one that was meant. */
void
cro_round_ask_moved (CroRound    *self,
                     CroRoundRow *row)
{
  CroListRow then, last = row->list;
  g_autofree char *meant = NULL, *now = NULL, *of = NULL, *said = NULL;

  if (!row->list.has_price || !cro_round_row_is_moved (row) || !cro_round_meant_before (self, row, &then))
    return;
  last.pack = row->pack;
  last.price = row->last;
  meant = cro_round_dup_shown (self, &then);
  now = cro_round_dup_shown (self, &row->list);
  of = cro_round_dup_shown (self, &last);
  /* Translators: three prices: the last one as the book has it by now, and what a change that was typed before comes to
   * on the one of then, and on this one. */
  said = g_strdup_printf (_("The last price has become %s. Is %s meant, or %s?"), of, meant, now);
  cro_list_row_say (self->list, &row->list, CRO_LIST_LAST_MOVED, cro_price_list_keep (self->list, said), NULL);
}

static void
clear_reasons (CroRoundRow *row)
{
  g_clear_pointer (&row->list.reasons, g_array_unref);
  g_clear_pointer (&row->wrong, g_free);
}

/* --- Rows ---------------------------------------------------------------------------------------------- */

/* A change is one of the book's price, not of another row's; so is a pack that is not said. twin: NULL. */
static gboolean
match_without (CroRound     *self,
               CroRoundRow  *row,
               CroRoundRow  *twin,
               GError      **error)
{
  gboolean was_drafted = twin != NULL && twin->is_drafted, done;

  if (was_drafted)
    cro_round_undraft (self, twin);
  done = cro_price_list_match_row (self->list, &self->of, &row->list, error);
  if (was_drafted)
    {
      cro_round_draft (self, twin);
      cro_round_settle (self);
    }
  return done;
}

/* Whose twin a line is only its match may tell: then it is matched once more, without that. */
static gboolean
match_beside_book (CroRound     *self,
                   CroRoundRow  *row,
                   GError      **error)
{
  CroRoundRow *twin = cro_round_find_twin (self, row);
  CroListRow *unmatched = twin == NULL ? cro_list_row_dup (&row->list) : NULL;
  gboolean done = match_without (self, row, twin, error);

  twin = done && unmatched != NULL ? cro_round_find_twin (self, row) : NULL;
  if (twin != NULL && twin->is_drafted)
    {
      g_clear_pointer (&row->list.reasons, g_array_unref);
      row->list = *unmatched;
      g_clear_pointer (&unmatched, g_free);
      done = match_without (self, row, twin, error);
    }
  g_clear_pointer (&unmatched, cro_list_row_free);
  return done;
}

gboolean
cro_round_match (CroRound     *self,
                 CroRoundRow  *row,
                 GError      **error)
{
  CroListRow *list = &row->list;

  if (!match_beside_book (self, row, error))
    return FALSE;
  /* What no ingredient is called may be a new one. */
  if (row->is_added && list->item == CRO_NO_SLOT && !list->is_return && !list->is_no_ingredient && list->has_price
      && list->name != NULL && list->pack.size > 0
      && (list->is_right || (!row->is_taken && cro_round_row_get_question (row) == NULL)))
    {
      list->state = CRO_LIST_NEW;
      list->is_posted = TRUE;
    }
  cro_round_check_twin (self, row);
  if (self->twins != NULL)
    cro_round_note_twin (self, row);
  return TRUE;
}

gboolean
cro_round_read (CroRound     *self,
                CroRoundRow  *row,
                GError      **error)
{
  g_autofree char *text = g_strstrip (g_strdup (row->text));
  CroListRow clear = { .item = row->list.item, .offer = row->list.offer, .is_known = TRUE,
                       .is_right = row->list.is_right, .is_chosen = row->list.is_chosen, .code = row->list.code,
                       .name = row->list.name, .number = row->list.number };

  clear_reasons (row);
  row->list = clear;
  row->kind = CRO_ROUND_UNREAD;
  if (*text == '\0')
    row->kind = CRO_ROUND_EMPTY;
  else if (is_as_last (text))
    read_as_last (row);
  else if (cro_list_says_none (text))
    {
      row->list.is_none = TRUE;
      row->kind = CRO_ROUND_NONE;
    }
  else if (is_change (text))
    read_change (self, row, text);
  else
    read_price (self, row, text);
  cro_round_ask_moved (self, row);
  return row->kind == CRO_ROUND_EMPTY || row->kind == CRO_ROUND_UNREAD || cro_round_match (self, row, error);
}

gboolean
cro_round_read_line (CroRound     *self,
                     CroRoundRow  *row,
                     GError      **error)
{
  gboolean is_right = row->list.is_right, is_chosen = row->list.is_chosen;

  clear_reasons (row);
  row->list = (CroListRow){ .item = CRO_NO_SLOT, .offer = CRO_NO_SLOT };
  row->kind = CRO_ROUND_UNREAD;
  if (!cro_price_list_take_line (self->list, &self->of, row->text, &row->list))
    {
      row->list.item = row->list.offer = CRO_NO_SLOT;
      row->kind = CRO_ROUND_EMPTY;
      return TRUE;
    }
  row->list.is_right = is_right;
  row->list.is_chosen = is_chosen;
  if (row->list.has_price && row->list.currency == NULL)
    row->list.currency = self->of.currency;
  if (row->is_taken)
    row->read = cro_list_row_dup (&row->list);
  if (!cro_round_match (self, row, error))
    return FALSE;
  row->kind = row->list.is_none ? CRO_ROUND_NONE : row->list.has_price ? CRO_ROUND_PRICED : CRO_ROUND_UNREAD;
  if (row->kind == CRO_ROUND_PRICED && row->list.item == CRO_NO_SLOT && row->list.pack.size == 0)
    row->wrong = g_strdup (_("Type what the price is for: 24.50/kg, or 3 kg 73.50."));
  else if (row->kind == CRO_ROUND_PRICED && row->list.name == NULL && row->list.item == CRO_NO_SLOT)
    row->wrong = g_strdup (_("Type a name, a pack and a price."));
  else if (row->list.is_none && row->list.offer == CRO_NO_SLOT)
    row->wrong = g_strdup (_("The supplier has no such pack."));
  if (row->wrong != NULL)
    row->kind = CRO_ROUND_UNREAD;
  /* It stands there as what a list says does. */
  if (row->is_taken)
    {
      g_free (row->text);
      row->text = cro_round_dup_line (self, &row->list);
    }
  return TRUE;
}

/* --- Back into text ------------------------------------------------------------------------------------ */

/* words: of a price in a currency. names_pack: that of the row too. */
static char *
dup_priced (CroRound          *self,
            const CroListRow  *list,
            gboolean           names_pack,
            char            *(*words) (const char *currency, gint64 micro))
{
  const char *own = list->offer != CRO_NO_SLOT ? cro_model_currency_of (self->of.model, list->offer)
                                               : self->of.currency;
  const char *currency = list->currency != NULL ? list->currency : own;
  CroPack before = list->offer != CRO_NO_SLOT ? cro_pack_of_offer (self->of.model, list->offer) : (CroPack){ 0 };
  gboolean is_same = !names_pack && before.count == list->pack.count && before.size == list->pack.size
                     && before.unit == list->pack.unit;
  gboolean is_other = g_strcmp0 (currency, own) != 0;
  g_autofree char *price = NULL, *pack = NULL, *number = NULL, *bare = NULL;
  gint64 one;

  if (list->is_none)
    return g_strdup ("-");
  bare = words (currency, list->price);
  price = is_other ? g_strdup_printf ("%s %s", bare, currency) : g_steal_pointer (&bare);
  if (list->pack.size == 0)
    return g_steal_pointer (&price);
  if (is_same && list->item != CRO_NO_SLOT && self->of.quotes_base
      && cro_list_exact_of_one (self->of.model, list, list->price, &one))
    {
      number = words (currency, one);
      return is_other ? g_strdup_printf ("%s %s", number, currency) : g_steal_pointer (&number);
    }
  if (is_same && !self->of.quotes_base)
    return g_steal_pointer (&price);
  number = cro_words_decimal (list->pack.size);
  /* What "/100 g" alone would not say. */
  if (list->pack.count == CRO_MICRO && (list->is_per_measure || !cro_list_is_stated_per (&before, &list->pack)))
    return g_strdup_printf ("%s/%s %s", price, number, cro_words_unit (list->pack.unit));
  pack = cro_words_decimal (list->pack.count);
  return g_strdup_printf ("%s/%s × %s %s", price, pack, number, cro_words_unit (list->pack.unit));
}

/* In the pack's last price, which a row that is drafted stands in for. */
static gint64
tax_before_draft (CroRound *self,
                  guint32   offer)
{
  const CroRoundRow *row = g_hash_table_lookup (self->drafted, GUINT_TO_POINTER (offer + 1));

  return row != NULL ? row->was.tax_included : cro_model_offer (self->of.model, offer)->offer.tax_included;
}

/* A price that was said to be with or without tax, where that of its pack is not, or it would be asked about. */
static char *
dup_said (CroRound          *self,
          const CroListRow  *list,
          gboolean           names_pack,
          char            *(*words) (const char *currency, gint64 micro))
{
  gboolean is_with = list->says_tax == CRO_PRICE_WITH_TAX;
  gboolean had_tax = list->offer != CRO_NO_SLOT
                     && (is_with ? tax_before_draft (self, list->offer)
                                 : cro_list_tax_before (&self->of, list->offer)) > 0;
  g_autofree char *price = dup_priced (self, list, names_pack, words);
  g_autofree char *pct = is_with && list->tax_pct > 0 ? cro_words_decimal (list->tax_pct) : NULL;

  if (list->is_none || list->says_tax == CRO_PRICE_TAX_UNSAID
      || (list->offer != CRO_NO_SLOT && is_with == had_tax && pct == NULL))
    return g_steal_pointer (&price);
  if (pct != NULL)
    /* Translators: a price as it may be typed, and the rate of the tax in it. */
    return g_strdup_printf (_("%s incl. %s %% VAT"), price, pct);
  /* Translators: a price as it may be typed; it is with tax, or without. */
  return g_strdup_printf (is_with ? _("%s incl. VAT") : _("%s ex VAT"), price);
}

char *
cro_round_dup_typed (CroRound         *self,
                     const CroListRow *list)
{
  return dup_said (self, list, FALSE, cro_words_price_in);
}

char *
cro_round_dup_typed_of_pack (CroRound         *self,
                             const CroListRow *list)
{
  return dup_said (self, list, TRUE, cro_words_price_in);
}

char *
cro_round_dup_shown (CroRound         *self,
                     const CroListRow *list)
{
  return dup_said (self, list, FALSE, cro_words_price_shown);
}

char *
cro_round_dup_shown_of_pack (CroRound         *self,
                             const CroListRow *list)
{
  return dup_said (self, list, TRUE, cro_words_price_shown);
}
