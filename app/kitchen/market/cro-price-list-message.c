/* Lines of a message, as people write prices to one another:
 *
 *   Mussels 4.35/kg        M20 hake 10 kg 112        £69.50 per 5 kg brown crab
 *   razor clams: none      102 mussels 21.75         oysters 50 x 1 pc  31,-
 *   no garlic till Friday  samphire same as last     celery 12 heads 16
 *   lemons 140s 55.20      cream 30.60/6 × 1 l
 *
 *   crab 68 € la caisse    bag of mussels 21.00      moules le kilo 4,35
 *   moules 14 € 90         oysters .95 each          razor clams: pas avant jeudi
 *   V07 Brandy 20.00 ex VAT                         HT 4,35 le kilo moules
 *
 * What a price is for, and what is said of tax, behind or before it, is no word of the name; said of tax, or of the
 * currency of all prices, in a line without a number it is of all lines that do not say it themselves.
 *
 * A number before % is a change of the last price, never a price: "up 15 %", "+5 %", "en baisse de 2 %".
 * A number with a unit is an amount, one behind a currency or before "/kg" a price, what is written as one
 * of the supplier's codes a code; the one number left is the price. The words left are the name; where the
 * book has a name with that number it is part of it. Where several numbers are left, nothing is guessed. */
#include "cro-price-list-line.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-name.h"
#include "cro-price-talk.h"
#include "cro-word-list.h"

#include <string.h>

static gsize
skip_space (const char *text)
{
  gsize n = 0;

  for (gunichar c; (c = g_utf8_get_char (text + n)) != 0
                   && (g_unichar_isspace (c) || (c < 128 && strchr (":;=|", (int) c) != NULL));
       n += (gsize) (g_utf8_next_char (text + n) - (text + n)))
    ;
  return n;
}

/* A word up to the next space; its bytes. */
static gsize
word_length (const char *text)
{
  gsize n = 0;

  while (text[n] != '\0' && strchr (" \t:;=|", text[n]) == NULL)
    n++;
  return MAX (n, 1);
}

static gboolean
take_code (CroListLine *self,
           const char  *word)
{
  if (self->row.code != NULL || !g_hash_table_contains (self->of->codes, word))
    return FALSE;
  self->row.code = cro_price_list_keep (self->list, word);
  return TRUE;
}

/* How far a name of the book that has a number in it goes on from here; 0: there is none. */
static gsize
scan_name (CroListLine *self,
           const char  *text)
{
  gsize longest = 0, n = 0;

  for (guint words = 0; words < self->of->n_words && text[n] != '\0'; words++)
    {
      g_autofree char *name = NULL, *folded = NULL;

      n += strspn (text + n, " ");
      n += text[n] != '\0' ? word_length (text + n) : 0;
      name = g_strdup_printf ("%s %.*s", self->name->str, (int) n, text);
      folded = cro_fold (name);
      if (GPOINTER_TO_UINT (g_hash_table_lookup (self->of->names, folded)) > 0)
        longest = n;
    }
  return longest;
}

static void
add_word (CroListLine *self,
          const char  *word,
          gsize        n)
{
  if (self->name->len > 0)
    g_string_append_c (self->name, ' ');
  g_string_append_len (self->name, word, (gssize) n);
}

/* Whether a number, or money, follows in a line. */
static gboolean
leads_to_number (const char *text)
{
  gsize n = skip_space (text);
  gboolean ignored;

  n += cro_list_scan_lead (text + n);
  n += strspn (text + n, " ");
  if (!cro_list_begins_number (text + n))
    n += cro_currency_scan (text + n, NULL, &ignored);
  return cro_list_begins_number (text + n + strspn (text + n, " "));
}

/* "le kilo 4,35", "kg 4.35": before a price as behind it. */
static gsize
scan_per_before (CroListLine *self,
                 const char  *text)
{
  CroListRow before = self->row;
  gboolean is_behind = self->row.has_price || self->n_plain == 1;
  gsize n = before.has_per || before.pack.size > 0 ? 0 : cro_list_line_scan_per (self, text), word = 0;

  /* A single letter is often a size. */
  if (n == 0 && !before.has_per && before.pack.size == 0 && (word = cro_list_scan_unit (text, &self->row.per)) > 1)
    self->row.has_per = TRUE;
  if ((n > 0 && is_behind) || (MAX (n, word) > 1 && leads_to_number (text + MAX (n, word))))
    return MAX (n, word);
  self->row.has_per = before.has_per;
  self->row.per = before.per;
  self->row.pack = before.pack;
  self->row.is_per_measure = before.is_per_measure;
  return 0;
}

/* Words that are not of the name, though no number stands among them. */
static gsize
take_lead (CroListLine *self,
           const char  *text)
{
  gsize n = cro_list_scan_lead (text), stroke = 0;

  if (n == 0 && self->row.has_price)
    n = cro_list_line_take_phrase (self, text, cro_list_scan_net);
  if (n == 0)
    n = scan_per_before (self, text);
  if (n == 0 && *text == '(' && self->row.has_price + self->n_plain == 1
      && (n = cro_list_line_scan_per (self, text + 1)) > 0)
    n += 1 + (text[n + 1] == ')');
  /* "Mussels/kg" */
  if (n == 0 && g_unichar_isalpha (g_utf8_get_char (text)))
    stroke = strcspn (text, "/ ");
  if (stroke > 0 && text[stroke] == '/' && (n = scan_per_before (self, text + stroke)) > 0)
    add_word (self, text, stroke);
  return n > 0 ? stroke + n : 0;
}

/* A code of digits alone is a price as well where no other number is there: that is seen at the end. */
static gsize
take_word (CroListLine *self,
           const char  *text)
{
  const char *currency_before = self->row.currency;
  gsize n = word_length (text), currency, sign_bytes = 0, pct, lead,
        tax = self->may_be_of_tax ? cro_list_line_scan_tax (self, text) : 0;
  g_autofree char *word = NULL;
  int sign;

  if (tax > 0)
    return tax + (self->row.has_price ? cro_list_line_scan_currency_behind (self, text + tax)
                                      : strspn (text + tax, ",."));
  /* Talk: all else stands beside a number. */
  if (!self->row.has_price && self->n_plain == 0 && !self->has_pct && strpbrk (text, "0123456789") == NULL)
    {
      add_word (self, text, n);
      return n;
    }
  word = g_strndup (text, n);
  if (strpbrk (word, "0123456789") != NULL || cro_list_scan_lead (text) > 0)
    {
      gsize named = scan_name (self, text);

      if (named > 0)
        add_word (self, text, named);
      if (named > 0)
        return named;
      if (take_code (self, word))
        return n;
    }
  lead = take_lead (self, text);
  if (lead > 0)
    return lead;
  sign = cro_list_scan_sign (text, &sign_bytes);
  pct = cro_list_line_take_pct (self, text + sign_bytes, sign);
  if (pct > 0)
    return sign_bytes + pct;
  /* "(20 x 500 g)": what a number is does not hang on them. */
  if (*text == '(' && (g_ascii_isdigit (text[1]) || cro_list_scan_sign (text + 1, &sign_bytes) != 0))
    return 1;
  if (*text == ')')
    return 1 + strspn (text + 1, ",.");
  currency = cro_list_line_scan_currency (self, text);
  if (currency > 0 && cro_list_begins_number (text + currency + strspn (text + currency, " ")))
    {
      currency += strspn (text + currency, " ");
      return currency + cro_list_line_take_number (self, text + currency, TRUE);
    }
  self->row.currency = currency_before;
  if (cro_list_begins_number (text))
    return cro_list_line_take_number (self, text, FALSE);
  add_word (self, text, n);
  return n;
}

/* A code that was taken for one, where nothing else is a price. */
static void
give_back_code (CroListLine *self)
{
  gint64 number;

  if (self->row.has_price || self->n_plain > 0 || self->has_pct || self->row.code == NULL || self->row.is_none
      || self->row.is_same || cro_decimal_parse (self->row.code, strlen (self->row.code), &number) != CRO_DECIMAL_OK)
    return;
  self->plain[self->n_plain++] = number;
  self->row.code = NULL;
}

/* "back Monday" says nothing of today: that is asked, of the name without it. */
static void
settle_return (CroListLine *self)
{
  g_autofree char *folded = cro_fold (self->name->str);

  if (cro_list_cut_return (folded) && cro_list_book_has_name (self->of, folded))
    g_string_assign (self->name, folded);
}

/* "Thursday 3rd", not 21.00. */
static gboolean
are_days (const char *line)
{
  for (const char *at = line; *at != '\0'; at++)
    if ((*at == '.' || *at == ',') && at > line && g_ascii_isdigit (at[-1]) && g_ascii_isdigit (at[1]))
      return FALSE;
  return TRUE;
}

/* What is said in place of a price. "Till Friday 4th" has a number that is none. */
static void
settle_unpriced (CroListLine *self,
                 const char  *line)
{
  g_autofree char *name = NULL, *no_day = NULL;
  CroListUnpriced said;

  if (self->row.has_price)
    return;
  said = cro_list_read_unpriced (self->name->str, &name);
  if (said == CRO_LIST_SAYS_NOTHING && self->n_plain == 0 && !self->has_pct)
    settle_return (self);
  if (said == CRO_LIST_SAYS_NOTHING && g_str_has_suffix (line, "="))
    said = CRO_LIST_SAYS_SAME;
  if (said == CRO_LIST_SAYS_NOTHING || (self->n_plain > 0 && said != CRO_LIST_SAYS_NONE))
    {
      self->row.is_none = self->n_plain == 0 && g_str_has_suffix (self->name->str, " -");
      return;
    }
  if (self->n_plain > 0 && (!cro_list_has_until (self->name->str) || !are_days (line)))
    return;
  self->n_plain = 0;
  self->is_unclear = FALSE;
  self->row.is_none = said == CRO_LIST_SAYS_NONE;
  self->row.is_same = said == CRO_LIST_SAYS_SAME;
  no_day = cro_list_dup_no_day (line);
  if (no_day != NULL)
    cro_list_row_say (self->list, &self->row, CRO_LIST_NOT_A_DATE, no_day, NULL);
  if (name != NULL)
    g_string_assign (self->name, name);
}

/* "mullet whole 10.20 kg" of who states prices per kg: nobody packs 10.20 kg. Of who sells packs it is asked, unless
 * that is one of them. */
static void
settle_quoted (CroListLine *self,
               const char  *line)
{
  CroListRow *row = &self->row;
  guint32 item = cro_list_book_find_name (self->of, self->name->str);

  if (row->has_price || row->is_none || row->is_same || row->has_per || self->has_pct || self->n_plain > 0
      || self->is_unclear || row->pack.count != CRO_MICRO || row->pack.size % CRO_MICRO == 0
      || row->pack.unit == CRO_UNIT_EACH
      || (!self->of->quotes_base && (item == CRO_NO_SLOT || cro_list_book_sells (self->of, item, &row->pack))))
    return;
  if (!self->of->quotes_base)
    row->said_open = cro_price_list_keep (self->list, line);
  row->has_price = row->has_per = TRUE;
  row->price = row->pack.size;
  row->per = row->pack.unit;
  row->pack = (CroPack){ 0 };
}

/* "Brandy 20 each" with no other price is one for a piece. */
static void
settle_each (CroListLine *self)
{
  CroListRow *row = &self->row;

  if (!self->is_each || row->has_price || row->is_none || row->is_same || row->has_per || self->has_pct
      || self->n_plain > 0 || self->is_unclear || row->pack.count != CRO_MICRO)
    return;
  row->has_price = row->has_per = TRUE;
  row->price = row->pack.size;
  row->per = row->pack.unit;
  row->pack = (CroPack){ 0 };
}

/* "L49 bones off" of what the supplier sells; "skin off" is a cut. */
static gboolean
is_off (CroListLine *self)
{
  g_autofree char *name = NULL;

  if (self->row.pack.size > 0 || !cro_list_ends_off (self->name->str, &name)
      || (self->row.code == NULL && !cro_list_book_has_name (self->of, name)))
    return FALSE;
  g_string_assign (self->name, name);
  return TRUE;
}

/* A word that may be of the name is asked about, but of what a code says what it is. */
static void
ask_of_goods (CroListLine *self,
              const char  *word,
              const char  *name)
{
  if (self->row.code != NULL || !cro_list_may_be_of_name (self->of, name, &self->row.pack, word))
    return;
  self->is_unclear = TRUE;
  cro_list_row_say (self->list, &self->row, CRO_LIST_GOODS_WORD, word, name);
}

/* "Tomato 2.5 kg tin 6.80" is of tinned ones. */
static void
settle_goods (CroListLine *self)
{
  const CroListRow *row = &self->row;

  if (!self->is_unclear && row->priced_as != NULL && row->pack.size > 0
      && cro_list_book_has_name (self->of, self->name->str))
    ask_of_goods (self, row->priced_as, self->name->str);
}

/* What the price is for may stand before it: "bag of mussels 21.00". */
static void
settle_name (CroListLine *self)
{
  g_autofree char *name = cro_name_dup_tidy (self->name->str), *word = NULL;
  g_autofree char *bare = cro_list_book_has_name (self->of, name)
                              ? NULL
                              : cro_list_dup_bare_name (self->of, name, self->row.has_per, &word);
  g_auto (GStrv) words = g_strsplit (word != NULL ? word : "", " ", -1);

  if (bare == NULL)
    return;
  g_string_assign (self->name, bare);
  if (word != NULL)
    cro_list_line_add_priced_as (self, word);
  for (guint i = 0; words[i] != NULL; i++)
    ask_of_goods (self, words[i], bare);
}

/* "11?", "11 ?", "11+", "11*": who wrote it does not stand by the price, or says more of it elsewhere. */
static void
settle_doubt (CroListLine *self,
              const char  *line)
{
  const char *sign = NULL;

  /* "4+ kg" is a size. */
  for (const char *at = line; sign == NULL && *at != '\0'; at++)
    if (*at == '?' || (strchr ("+*", *at) != NULL && at > line
                       && (g_ascii_isdigit (at[-1]) || at[-1] == '(' || at[-1] == '+')
                       && strchr (" )+", at[1]) != NULL && strpbrk (at, "0123456789") == NULL))
      sign = *at == '?' ? "?" : *at == '*' ? "*" : "+";
  /* What a reply quotes may be the list before. */
  if (self->is_quoted)
    sign = self->reply != NULL ? self->reply : ">";
  if (sign == NULL || !(self->row.has_price || self->has_pct))
    return;
  self->is_unclear = TRUE;
  cro_list_row_say (self->list, &self->row, CRO_LIST_UNSURE, sign, NULL);
}

/* "V07 20.50 does not yet include VAT": what is said of tax beside a price, and is not understood, is asked. */
static void
settle_tax (CroListLine *self,
            const char  *line)
{
  gboolean is_known = cro_list_book_has_name (self->of, self->name->str);
  CroPriceSaying saying;

  if (!cro_price_saying_may_be_of_tax (line))
    return;
  saying = cro_price_saying_of (line, NULL);
  if (!cro_price_saying_is_of_tax (&saying)
      || (self->row.says_tax != CRO_PRICE_TAX_UNSAID && (is_known || !cro_price_saying_qualifies (self->name->str))))
    return;
  self->row.says_tax = CRO_PRICE_TAX_UNSAID;
  self->row.tax_heading = cro_price_list_keep (self->list, line);
  self->row.tax_beside = CRO_NOT_SET;
  self->row.is_tax_open = TRUE;
}

/* "Mussels ❌ 22.50", "~~22.50~~", "22.50-": a sign that no name has is asked about. */
static void
settle_signs (CroListLine *self,
              const char  *line)
{
  const char *mark = cro_list_find_mark (line);
  gboolean is_minus = g_str_has_suffix (line, "-") || g_str_has_suffix (line, "\u2212");
  gsize n = strlen (line) - (g_str_has_suffix (line, "-") ? 1 : strlen ("\u2212"));
  g_autofree char *sign = mark != NULL ? g_strndup (mark, (gsize) (g_utf8_next_char (mark) - mark)) : g_strdup ("-");

  /* ",-" behind a number is for no cents. */
  is_minus = is_minus && n > 0 && g_ascii_isdigit (line[n - 1]);
  if (!self->row.has_price || (mark == NULL && !is_minus))
    return;
  self->is_unclear = TRUE;
  cro_list_row_say (self->list, &self->row, CRO_LIST_UNSURE, sign, NULL);
}

static void
settle (CroListLine *self,
        const char  *line)
{
  g_autofree char *tidy = NULL, *whole = cro_name_dup_tidy (line);

  settle_unpriced (self, line);
  give_back_code (self);
  settle_quoted (self, line);
  settle_each (self);
  if (!self->row.has_price && self->n_plain == 0 && !self->has_pct && is_off (self))
    self->row.is_none = TRUE;
  if (self->n_plain == 1 && !self->row.has_price)
    cro_list_line_take_price (self, self->plain[0]);
  else if (self->n_plain > 0)
    self->is_unclear = TRUE;
  self->is_unclear |= self->has_pct && (self->row.has_price || self->row.is_none || self->row.is_same);
  cro_list_line_settle_currency (self, line);
  settle_signs (self, line);
  settle_name (self);
  settle_goods (self);
  settle_doubt (self, line);
  settle_tax (self, line);
  tidy = cro_name_dup_tidy (self->name->str);
  for (gsize n = strlen (tidy); n > 0 && strchr (" -,.?+", tidy[n - 1]) != NULL; n--)
    tidy[n - 1] = '\0';
  self->row.name = cro_price_list_keep (self->list, tidy);
  if (self->is_unclear)
    {
      self->row.has_price = FALSE;
      self->row.change_pct = 0;
      if (self->row.reasons == NULL)
        cro_list_row_say (self->list, &self->row, CRO_LIST_WHICH_NUMBER, NULL, NULL);
    }
  else if (!self->row.has_price && !self->row.is_none && !self->row.is_same && self->row.change_pct == 0)
    cro_list_row_say (self->list, &self->row, CRO_LIST_NO_PRICE, NULL, NULL);
  if (!self->row.has_price)
    self->row.said = cro_price_list_keep (self->list, whole);
}

/* Neither goods nor a price: "ex VAT" alone may be of all lines. */
static gboolean
names_nothing (const CroListLine *self)
{
  return self->name->len == 0 && self->n_plain == 0 && !self->has_pct && !self->row.has_price && self->row.code == NULL;
}

static gboolean
read_line (CroListLine *self,
           guint        number,
           const char  *line)
{
  const char *at = cro_list_skip_bullet (line);

  self->is_quoted = self->reply != NULL || (self->is_reply && cro_list_is_quoted (line));
  self->row = (CroListRow){ .number = number };
  g_string_truncate (self->name, 0);
  self->n_plain = 0;
  self->is_unclear = self->has_pct = self->is_each = FALSE;
  self->may_be_of_tax = cro_price_saying_may_be_of_tax (line);
  for (at += skip_space (at); *at != '\0'; at += skip_space (at))
    at += take_word (self, at);
  if (names_nothing (self) && self->row.says_tax == CRO_PRICE_TAX_UNSAID && self->row.currency == NULL)
    {
      g_clear_pointer (&self->row.reasons, g_array_unref);
      return FALSE;
    }
  settle (self, cro_list_skip_bullet (line));
  return TRUE;
}

/* What stays of a note: its words alone, as none of its numbers is a price. */
static void
keep_note (CroListLine *self,
           const char  *line)
{
  CroListRow *row = &self->row;
  g_autofree char *tidy = cro_name_dup_tidy (line);

  g_clear_pointer (&row->reasons, g_array_unref);
  *row = (CroListRow){ .number = row->number };
  row->name = row->said = cro_price_list_keep (self->list, tidy);
  cro_list_row_say (self->list, row, CRO_LIST_NO_PRICE, NULL, NULL);
}

/* Whether a line may be a note: it names nothing of the book. "No VAT on these" is not of goods. */
static gboolean
may_be_note (const CroListLine *self,
             const char        *line)
{
  const CroListRow *row = &self->row;
  CroPriceSaying saying;

  if (cro_list_book_has_name (self->of, self->name->str))
    return FALSE;
  if (!row->is_none && !row->is_same && row->code == NULL)
    return TRUE;
  /* "Prices ex VAT apart from V07", "VAT as before". */
  saying = cro_price_saying_of (line, NULL);
  return (cro_price_saying_is_of_tax (&saying) || saying.has_money || saying.has_per_word)
         && (row->code == NULL || saying.speaks_of_prices);
}

/* Of a line alone. */
static gboolean
names_goods (CroListLine *self,
             const char  *line)
{
  gboolean is_read = read_line (self, 0, line);

  g_clear_pointer (&self->row.reasons, g_array_unref);
  return is_read
         && (self->row.has_price || self->row.code != NULL || cro_list_book_has_name (self->of, self->name->str));
}

/* "All prices ex VAT", "Prices in GBP", "Prices plus 21 % VAT": a line that names nothing of the book is heeded of
 * every line. TRUE: it says no more than that. */
static gboolean
take_of_all (CroListLine *self,
             const char  *line)
{
  gboolean is_note = may_be_note (self, line) && !cro_list_line_is_of_one (self, line);
  CroListNote note = is_note ? cro_list_said_take (&self->said, self->list, self->of, line, self->n_prices)
                             : CRO_LIST_NOTE_NONE;

  /* Below prices, "Mill Lane is shut" is talk. */
  if (is_note && self->n_prices == 0
      && (strpbrk (line, "0123456789") == NULL || !cro_price_saying_of (line, NULL).has_number))
    cro_price_list_take_seller (self->list, self->of->model, line);
  /* "Please add a euro" names a currency, and not that of the prices alone. */
  if (note == CRO_LIST_NOTE_HEEDED && self->said.change == NULL && !cro_price_saying_may_be_of_tax (line)
      && cro_price_talk_adds (line))
    self->said.change = cro_price_list_keep (self->list, line);
  if (note == CRO_LIST_NOTE_KEPT)
    keep_note (self, line);
  else if (note == CRO_LIST_NOTE_HEEDED)
    g_clear_pointer (&self->row.reasons, g_array_unref);
  return note == CRO_LIST_NOTE_HEEDED;
}

gboolean
cro_price_list_take_line (CroPriceList      *self,
                          const CroListBook *of,
                          const char        *line,
                          CroListRow        *row)
{
  g_autoptr (GString) name = g_string_new (NULL);
  g_autofree char *plain = cro_price_list_dup_plain (line);
  CroListLine reader = { .list = self, .of = of, .name = name };

  reader.numbers.said = cro_price_list_decimal_of (plain);
  cro_list_strip_ordinals (of, (char *[]){ plain, NULL });
  if (!read_line (&reader, 0, plain) || names_nothing (&reader))
    {
      g_clear_pointer (&reader.row.reasons, g_array_unref);
      return FALSE;
    }
  *row = reader.row;
  return TRUE;
}

gboolean
cro_price_list_read_pack (CroPriceList      *self,
                          const CroListBook *of,
                          const char        *text,
                          CroListRow        *row)
{
  g_autoptr (GString) name = g_string_new (NULL);
  CroListLine reader = { .list = self, .of = of, .name = name };

  reader.numbers.said = cro_price_list_decimal_of (text);
  read_line (&reader, 0, text);
  g_clear_pointer (&reader.row.reasons, g_array_unref);
  if (reader.row.pack.size == 0 || reader.row.has_price || reader.row.code != NULL)
    return FALSE;
  row->pack = reader.row.pack;
  row->priced_as = reader.row.priced_as != NULL ? reader.row.priced_as : reader.row.name;
  return TRUE;
}

/* A line with those in which its sentence goes on, as far as none names goods. *n_lines: how many they are. Owned. */
static char *
dup_sentence (CroListLine *self,
              char       **lines,
              guint       *n_lines)
{
  guint n = 0;

  while (n < CRO_LIST_MOST_WRAPPED && lines[n] != NULL && !names_goods (self, lines[n]))
    n++;
  *n_lines = 1;
  return n > 1 ? cro_list_dup_sentence ((const char *const *) lines, n, n_lines) : g_strchomp (g_strdup (lines[0]));
}

gboolean
cro_price_list_take_message (CroPriceList       *self,
                             const char         *path,
                             const CroListBook  *of,
                             GError            **error)
{
  g_autofree char *text = cro_price_list_read_text (path, error);
  g_autoptr (GString) name = g_string_new (NULL);
  CroListLine reader = { .list = self, .of = of, .name = name };
  g_auto (GStrv) lines = NULL;

  if (text == NULL)
    return FALSE;
  self->source = CRO_LIST_MESSAGE;
  reader.numbers.said = cro_price_list_decimal_of (text);
  lines = g_strsplit (text, "\n", 0);
  cro_list_strip_ordinals (of, lines);
  reader.is_reply = cro_list_is_reply (lines);
  for (guint i = 0, n_lines = 1, next_note = 0; lines[i] != NULL; i += n_lines)
    {
      g_autofree char *line = NULL;

      if (next_note <= i)
        next_note = i + cro_list_count_plain (lines + i);
      n_lines = 1;
      line = next_note < i + CRO_LIST_MOST_WRAPPED ? dup_sentence (&reader, lines + i, &n_lines)
                                                     : g_strchomp (g_strdup (lines[i]));
      gboolean is_read = read_line (&reader, i + 1, line), is_of_goods;

      if (reader.reply == NULL && cro_list_begins_reply (lines, i))
        reader.reply = cro_price_list_keep (self, g_strstrip (lines[i]));
      cro_list_line_take_stamp (&reader, lines[i]);
      /* "4 kg" on a line of its own */
      if (!is_read)
        cro_list_line_take_talk (&reader, line, FALSE);
      if (!is_read || take_of_all (&reader, cro_list_skip_stamp (line)))
        continue;
      if (reader.sent != NULL && (reader.row.has_price || reader.row.change_pct != 0))
        cro_list_row_say (self, &reader.row, CRO_LIST_SAID_DAY, reader.sent, NULL);
      is_of_goods = reader.row.code != NULL || cro_list_book_has_name (of, reader.name->str);
      if (!is_of_goods)
        cro_list_line_take_talk (&reader, line, TRUE);
      else
        cro_list_line_look_beside (&reader);
      if (reader.row.has_price && reader.row.currency == NULL)
        reader.n_unsaid++;
      else if (reader.row.has_price && reader.foreign == NULL && strcmp (reader.row.currency, of->currency) != 0)
        reader.foreign = cro_price_list_keep (self, line);
      reader.is_closing &= !is_of_goods;
      reader.n_prices += reader.row.has_price && is_of_goods;
      g_array_append_val (self->rows, reader.row);
    }
  cro_list_said_settle (&reader.said, reader.n_prices);
  cro_list_said_settle_exception (&reader.said, self, of);
  cro_list_line_settle_talk (&reader);
  cro_list_names_ask (&reader.names, self);
  for (guint i = 0; i < self->rows->len; i++)
    cro_list_said_apply (&reader.said, self, &g_array_index (self->rows, CroListRow, i));
  return TRUE;
}
