#include "cro-said-pack.h"

#include "cro-decimal.h"
#include "cro-model.h"
#include "cro-price-token.h"
#include "cro-unit-words.h"
#include "cro-word-list.h"
#include "cro-words.h"

#include <string.h>

/* What holds several of the goods. */
#define HOLDERS                                                                                                     \
  "case|cases|box|boxes|crate|crates|pack|packs|pk|bag|bags|bottle|bottles|can|cans|tin|tins|jar|jars|tray|trays|"   \
  "tub|tubs|sack|sacks|packet|packets|punnet|punnets|set|carton|cartons|caisse|caisses|colis|sac|sacs|sachet|"       \
  "sachets|boite|boites|bocal|bocaux|bouteille|bouteilles|paquet|paquets|barquette|barquettes|cagette|cagettes|"     \
  "plateau|plateaux|lot|seau|seaux|ct|count|btl|btls|bt"
/* The same behind a number alone. */
#define COUNTED HOLDERS "|u|un|s|st|k"
/* Of those what counts the goods themselves, "140ct". */
#define OF_GOODS "ct|count|u|un|s|st|k"
#define PARTS "half|demi|demie|quarter|quart"
#define PAIRS "pair|paire|couple|twin|double|dbl|twice|both|les deux"
#define DOZENS "dozen|dozens|doz|douzaine|douzaines"
/* Numbers behind these and before those are of the goods. */
#define BEFORE_KIND                                                                                                 \
  "no|n|nr|num|numero|size|sizes|taille|cal|calibre|class|classe|cat|category|categorie|type|grade|fao|zone|area|"    \
  "ref|art|code|lot|batch|since|depuis|vintage|item|group|level|band|choix|t"
#define BEHIND_KIND                                                                                                 \
  "months|month|mois|ans|an|years|year|yr|yo|days|day|jours|jour|nd|rd|th|er|e|eme|h|hours|star|stars|choix|mm|cm"
/* Measures that are none of ours, and how packages are stacked. */
#define FOREIGN                                                                                                     \
  "gal|gals|gallon|gallons|pint|pints|pt|pts|qt|qts|quart|quarts|stone|stones|bushel|bushels|pallet|pallets|"         \
  "palette|palettes|layer|layers|couche|couches"
/* Behind a size: it is of each of the goods. */
#define OF_EACH "avg|average|each|ea|approx|env|environ|moyen|moyenne|piece|la piece|pc|fish|up|plus"

/* "x", "×", "*", and blanks around it: the bytes; 0: none is there. */
static gsize
scan_times (const char *text)
{
  const gsize before = cro_price_scan_spaces (text);
  const char *at = text + before;
  gsize n = strchr ("xX*", *at) != NULL && *at != '\0' ? 1 : g_str_has_prefix (at, "×") ? strlen ("×") : 0;

  if (n == 0 || (g_ascii_isalpha (*at) && g_unichar_isalpha (g_utf8_get_char (at + 1))))
    return 0;
  return before + n + cro_price_scan_spaces (at + n);
}

/* "kgx12" */
static gsize
scan_unit_before_times (const char *text,
                        gsize       before,
                        CroUnit    *unit)
{
  const gsize n = strcspn (text, "xX");
  g_autofree char *word = g_strndup (text, n);
  CroUnitMeaning meaning;

  if (n == 0 || n > 12 || text[n] == '\0' || !g_ascii_isdigit (text[n + 1])
      || cro_unit_words_scan (word, cro_words_entry (), &meaning) != n || meaning.kind != CRO_UNIT_WORD_ONE)
    return 0;
  *unit = meaning.units[0];
  return before + n;
}

static gsize
scan_unit (const char *text,
           CroUnit    *unit)
{
  const gsize before = cro_price_scan_spaces (text);
  CroUnitMeaning meaning;
  gsize n = cro_unit_words_scan (text + before, cro_words_entry (), &meaning);

  if (n == 0)
    return scan_unit_before_times (text + before, before, unit);
  if (meaning.kind != CRO_UNIT_WORD_ONE)
    return 0;
  *unit = meaning.units[0];
  return before + n;
}

/* "1,000" is a thousand g or ml, and one kg or l. */
static gboolean
is_small_behind (const char *text)
{
  CroUnit unit;

  return scan_unit (text, &unit) > 0 && (unit == CRO_UNIT_G || unit == CRO_UNIT_ML);
}

/* One number: the bytes; 0: none that is read. */
static gsize
scan_number (const char *text,
             gint64     *number)
{
  gsize n = strspn (text, "0123456789");
  g_autoptr (GString) digits = g_string_new_len (text, (gssize) n);

  while (n > 0)
    {
      const gsize sign = strchr (".,", text[n]) != NULL && text[n] != '\0' ? 1 : cro_price_scan_spaces (text + n);
      const gsize more = sign > 0 ? strspn (text + n + sign, "0123456789") : 0;
      const gboolean is_group = more == 3 && is_small_behind (text + n + sign + more);

      if (more == 0 || (!is_group && (strchr (".,", text[n]) == NULL || strchr (digits->str, '.') != NULL)))
        break;
      if (!is_group)
        g_string_append_c (digits, '.');
      g_string_append_len (digits, text + n + sign, (gssize) more);
      n += sign + more;
    }
  return n > 0 && cro_decimal_parse (digits->str, digits->len, number) == CRO_DECIMAL_OK ? n : 0;
}

/* "4-6 kg", "18/20 kg", "60/80": the second number and its unit, behind the first. */
static gsize
scan_range (const char *text,
            gint64      first)
{
  const gsize before = cro_price_scan_spaces (text);
  const char *at = text + before;
  const gsize sign = strchr ("-/", *at) != NULL && *at != '\0' ? 1 : g_str_has_prefix (at, "–") ? strlen ("–") : 0;
  const gboolean is_stroke = *at == '/';
  gint64 second;
  CroUnit unit;
  gsize n = sign > 0 ? sign + cro_price_scan_spaces (at + sign) : 0,
        length = n > 0 ? scan_number (at + n, &second) : 0, of, third;

  if (length == 0)
    return 0;
  n += length;
  of = scan_unit (at + n, &unit);
  /* "12/1 kg", "12 - 1 kg" are 12; "2/6/1 kg" too, and "1/4/2026" is a day. */
  third = is_stroke && at[n] == '/' ? scan_number (at + n + 1, &second) : 0;
  if (third > 0)
    return scan_unit (at + n + 1 + third, &unit) > 0 ? 0 : before + n + 1 + third;
  if (of > 0 && !(first < second && (!is_stroke || second / 2 <= first)))
    return 0;
  return before + n + of;
}

typedef struct
{
  GArray     *packs;
  gint64      alone;       /* a number of which nothing says what it counts; 0: none; CRO_NOT_SET: several */
  gint64      held;        /* how many packages there are, "case of 2"; 0 and CRO_NOT_SET as above */
  gboolean    is_open;
} Reading;

static gsize
skip_word (const char *text,
           const char *words)
{
  const gsize before = cro_price_scan_spaces (text), n = cro_word_list_scan (text + before, words);

  return n > 0 ? before + n : 0;
}

static void
add (Reading     *self,
     CroSaidPack  pack)
{
  self->is_open |= pack.count <= 0 || pack.size <= 0;
  g_array_append_val (self->packs, pack);
}

/* A year and 1 count nothing. */
static void
add_alone (Reading *self,
           gint64   number)
{
  const gint64 whole = number / CRO_MICRO;

  if (number <= CRO_MICRO || number % CRO_MICRO != 0 || (whole >= 1900 && whole < 2100) || number == self->alone)
    return;
  self->alone = self->alone == 0 ? number : CRO_NOT_SET;
}

static void
add_held (Reading *self,
          gint64   number)
{
  if (number > CRO_MICRO && number != self->held)
    self->held = self->held == 0 ? number : CRO_NOT_SET;
}

/* "x 12", "(x12)", "par 12" behind a size. */
static gsize
scan_count_behind (const char *text,
                   gint64     *count)
{
  gsize n = cro_price_scan_spaces (text);
  gsize times, length;
  CroUnit ignored;

  n += text[n] == '(';
  times = scan_times (text + n);
  if (times == 0)
    times = skip_word (text + n, "par|by|per");
  if (times == 0)
    return 0;
  n += times + cro_price_scan_spaces (text + n + times);
  length = scan_number (text + n, count);
  return length > 0 && scan_unit (text + n + length, &ignored) == 0 ? n + length : 0;
}

/* What stands between how many and a size, "12 x 1 kg", "12/1 kg". */
static gsize
scan_joint (const char *text)
{
  return *text == '/' ? 1 : scan_times (text);
}

/* "cases", "-pack", "'s", "/case", "per case" behind a number. */
static gsize
scan_holder (const char *text)
{
  gsize before = *text == '-' || *text == '\'', n = skip_word (text + before, COUNTED);

  if (n == 0)
    {
      before = *text == '/' ? 1 : skip_word (text, "per|par|in|a|au");
      n = before > 0 ? skip_word (text + before, HOLDERS) : 0;
    }
  return n > 0 ? before + n : 0;
}

/* Whether a size follows a part or a number of it, "half 5 kg", or stood before it, "5 kg pair". */
static gboolean
is_beside_size (const Reading *self,
                const char    *text)
{
  text += skip_word (text, "of|de|d");
  text += strspn (text, " .)");
  return g_ascii_isdigit (*text) || (*text == '\0' && self->packs->len > 0);
}

/* "+ 1 free", "& 5 kg", "and 5 kg" behind a size. */
static gboolean
has_more (const char *text)
{
  gsize n = cro_price_scan_spaces (text);
  const gsize joint = n > 0 && (text[n] == '+' || text[n] == '&') ? 1 : cro_word_list_scan (text + n, "and|et|plus");

  n += joint;
  return joint > 0 && g_ascii_isdigit (text[n + cro_price_scan_spaces (text + n)]);
}

static gsize read_inside (Reading *self, const char *text, gint64 n_cases);

/* What begins with a number: the bytes that are read. */
static gsize
read_number (Reading    *self,
             const char *text)
{
  CroSaidPack pack = { .unit = CRO_UNIT_EACH, .count = CRO_MICRO, .size = CRO_MICRO };
  gint64 number = 0, more;
  gsize n = scan_number (text, &number), step;
  gboolean has_times = FALSE;

  /* One that is too long is a code. */
  if (n == 0)
    return strspn (text, "0123456789");
  step = scan_range (text + n, number);
  self->is_open |= step > 0 && (skip_word (text + n + step, HOLDERS) > 0
                                || (number < 4 * CRO_MICRO && text[n] == '/'
                                    && is_beside_size (self, text + n + step)));
  if (step > 0 || text[n + cro_price_scan_spaces (text + n)] == '%')
    return n + MAX (step, 1);
  /* "12/1 kg", "6 x 4 x 100 g" */
  while ((step = scan_joint (text + n)) > 0 && g_ascii_isdigit (text[n + step]))
    {
      const gsize length = scan_number (text + n + step, &more);

      if (length == 0 || !cro_decimal_multiply (pack.count, number, &pack.count))
        self->is_open = TRUE;
      has_times = TRUE;
      number = length > 0 ? more : 0;
      n += step + MAX (length, 1);
    }
  step = scan_unit (text + n, &pack.unit);
  pack.has_unit = step > 0;
  pack.size = number;
  if (step == 0 && skip_word (text + n, FOREIGN) > 0)
    {
      self->is_open = TRUE;
      return n + skip_word (text + n, FOREIGN);
    }
  if (step > 0 && cro_unit_get (pack.unit)->base == CRO_BASE_EACH && !has_times)
    {
      /* "6 pcs of 800 g" */
      const gsize inner = read_inside (self, text + n + step, number);

      if (inner > 0)
        return n + step + inner;
    }
  if (step > 0)
    {
      n += step;
      step = pack.count == CRO_MICRO ? scan_count_behind (text + n, &pack.count) : 0;
      if (step == 0 && !has_times && (skip_word (text + n, OF_EACH) > 0 || text[n] == '+'))
        return n;
      self->is_open |= has_more (text + n + step);
      add (self, pack);
      return n + step;
    }
  step = scan_holder (text + n);
  if (step > 0)
    {
      const gsize inner = read_inside (self, text + n + step, number);

      if (inner > 0)
        return n + step + inner;
    }
  if (step == 0)
    step = scan_times (text + n);
  if (step == 0 && !has_times)
    {
      if (skip_word (text + n, BEHIND_KIND) == 0)
        add_alone (self, number);
      return n;
    }
  if (!cro_decimal_multiply (pack.count, number, &pack.count))
    self->is_open = TRUE;
  pack.size = CRO_MICRO;
  add (self, pack);
  if (skip_word (text + n + (text[n] == '-' || text[n] == '\''), OF_GOODS) == 0)
    add_held (self, pack.count);
  return n + step;
}

/* "of 5 kg" behind so many cases: the bytes; 0: nothing says what is in them. */
static gsize
read_inside (Reading    *self,
             const char *text,
             gint64      n_cases)
{
  const guint before = self->packs->len;
  gsize n = skip_word (text, "of|de|d") + scan_times (text);
  CroSaidPack *inner;

  n += n > 0 ? cro_price_scan_spaces (text + n) : 0;
  if (n == 0 || !g_ascii_isdigit (text[n]))
    return 0;
  n += read_number (self, text + n);
  inner = self->packs->len > before ? &g_array_index (self->packs, CroSaidPack, before) : NULL;
  if (inner == NULL || !cro_decimal_multiply (inner->count, n_cases, &inner->count))
    self->is_open = TRUE;
  return n;
}

/* "twelve" behind "case of": the bytes; 0: no number. */
static gsize
read_word (Reading    *self,
           const char *text)
{
  static const struct { const char *words; gint64 number; } numbers[] = {
    { "two|deux", 2 },
    { "three|trois", 3 },
    { "four|quatre", 4 },
    { "five|cinq", 5 },
    { "six", 6 },
    { "eight|huit", 8 },
    { "ten|dix", 10 },
    { "twelve|douze", 12 },
    { "fifteen|quinze", 15 },
    { "sixteen|seize", 16 },
    { "twenty|vingt", 20 },
    { "twenty four|vingt quatre", 24 },
  };
  gsize longest = 0;
  gint64 number = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      const gsize n = cro_word_list_scan (text, numbers[i].words);

      if (n <= longest)
        continue;
      longest = n;
      number = numbers[i].number;
    }
  if (longest == 0)
    return 0;
  add (self, (CroSaidPack){ FALSE, CRO_UNIT_EACH, number * CRO_MICRO, CRO_MICRO, FALSE });
  add_held (self, number * CRO_MICRO);
  return longest;
}

/* "two 5 kg", "twin pack" */
static gsize
read_word_before (Reading    *self,
                  const char *text)
{
  Reading alone = *self;
  g_autoptr (GArray) packs = g_array_new (FALSE, FALSE, sizeof (CroSaidPack));
  gsize n = cro_word_list_scan (text, "twin|double"), word;

  if (n > 0 && (word = skip_word (text + n + (text[n] == '-'), HOLDERS)) > 0)
    {
      add_held (self, 2 * CRO_MICRO);
      return n + (text[n] == '-') + word;
    }
  alone.packs = packs;
  n = read_word (&alone, text);
  word = n > 0 ? scan_times (text + n) : 0;
  if (n == 0 || (word == 0 && text[n] != ' ') || !g_ascii_isdigit (text[n + MAX (word, 1)]))
    return 0;
  self->held = alone.held;
  return n + word;
}

/* "x12", "case of 12", "par 12", "(12)", "dozen", where a word begins; what numbers of the goods stand there. */
static gsize
read_count (Reading    *self,
            const char *text)
{
  gsize n = cro_price_scan_spaces (text) == 0 ? scan_times (text) : 0, word;
  const guint before = self->packs->len;
  gint64 number, alone;

  word = cro_word_list_scan (text, PARTS);
  if (word > 0 || (*text & 0x80 && g_unichar_type (g_utf8_get_char (text)) == G_UNICODE_OTHER_NUMBER))
    {
      word = word > 0 ? word : (gsize) (g_utf8_next_char (text) - text);
      word += text[word] == '-';
      self->is_open |= skip_word (text + word, HOLDERS) > 0 || is_beside_size (self, text + word);
      return word + skip_word (text + word, DOZENS);
    }
  word = cro_word_list_scan (text, PAIRS);
  if (word > 0 && is_beside_size (self, text + word))
    {
      self->is_open = TRUE;
      return word;
    }
  word = cro_word_list_scan (text, DOZENS);
  if (word > 0)
    {
      add (self, (CroSaidPack){ FALSE, CRO_UNIT_EACH, 12 * CRO_MICRO, CRO_MICRO, FALSE });
      return word;
    }
  /* "size 3" */
  word = n == 0 ? cro_word_list_scan (text, BEFORE_KIND) : 0;
  if (word > 0 && cro_word_list_scan (text, "lot de|lot of|lot") != word && strcspn (text + word, "0123456789") <= 2)
    {
      word += strcspn (text + word, "0123456789");
      return word + strspn (text + word, "0123456789.,/-");
    }

  if (n == 0 && *text == '(' && text[1 + strspn (text + 1, "0123456789")] == ')')
    n = 1;
  if (n == 0)
    {
      n = cro_word_list_scan (text, HOLDERS "|by|par");
      if (n > 0)
        n += text[n] == '/' ? 1 : skip_word (text + n, "of|de|d|x|a");
      if (n > 0)
        n += cro_price_scan_spaces (text + n);
    }
  if (n > 0 && !g_ascii_isdigit (text[n]))
    {
      word = read_word (self, text + n);
      return word > 0 ? n + word : 0;
    }
  if (n == 0)
    return read_word_before (self, text);
  alone = self->alone;
  n += read_number (self, text + n);
  self->alone = alone;
  /* A number alone. */
  if (self->packs->len == before)
    {
      const char *digits = text + strcspn (text, "0123456789");
      const gsize length = scan_number (digits, &number), behind = (gsize) (digits - text) + length;

      if (length > 0 && behind == n && text[n + cro_price_scan_spaces (text + n)] != '%')
        {
          add (self, (CroSaidPack){ FALSE, CRO_UNIT_EACH, number, CRO_MICRO, FALSE });
          if (cro_word_list_scan (text, OF_GOODS) == 0)
            add_held (self, number);
        }
    }
  return n;
}

/* In grams or millilitres; of pieces and counts none. */
static double
amount_of (const CroSaidPack *pack)
{
  const CroUnitInfo *unit = cro_unit_get (pack->unit);

  return pack->has_unit && unit->base != CRO_BASE_EACH
             ? cro_decimal_to_double (pack->count) * cro_decimal_to_double (pack->size) * unit->numerator
                   / unit->denominator
             : 0;
}

static void
read_all (Reading    *self,
          const char *text)
{
  gboolean is_behind_word = FALSE;

  while (*text != '\0')
    {
      gsize n = 0;

      if (!is_behind_word && g_ascii_isdigit (*text))
        n = read_number (self, text);
      else if (!is_behind_word || *text == '*' || g_str_has_prefix (text, "×"))
        n = read_count (self, text);
      if (n > 0)
        {
          text += n;
          is_behind_word = text[-1] != ' ' && g_unichar_isalnum (g_utf8_get_char (text));
          continue;
        }
      is_behind_word = g_unichar_isalnum (g_utf8_get_char (text))
                       || (strchr (".,", *text) != NULL && g_ascii_isdigit (text[1]));
      text = g_utf8_next_char (text);
    }
}

/* Whether a text may state any: a number, or a word of one. */
static gboolean
may_state (const char *text)
{
  static const char *const words[] = { "half", "demi", "quart", "doz", "douz", " of ", " de ", "½", "¼", "¾" };

  if (strpbrk (text, "0123456789") != NULL)
    return TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if (strcasestr (text, words[i]) != NULL)
      return TRUE;
  return FALSE;
}

gboolean
cro_said_pack_read (const char  *text,
                    CroSaidPack *pack,
                    gint64      *count,
                    gboolean    *is_open)
{
  g_autoptr (GArray) packs = g_array_new (FALSE, FALSE, sizeof (CroSaidPack));
  Reading self = { .packs = packs };
  const CroSaidPack *largest = NULL;

  *count = 0;
  *is_open = FALSE;
  if (!may_state (text))
    return FALSE;
  read_all (&self, text);
  *is_open = self.is_open;
  for (guint i = 0; i < packs->len; i++)
    {
      const CroSaidPack *one = &g_array_index (packs, CroSaidPack, i);

      if (amount_of (one) == 0)
        add_alone (&self, one->count == CRO_MICRO ? one->size : one->count);
      if (largest == NULL || amount_of (one) > amount_of (largest))
        largest = one;
    }
  if (largest == NULL)
    return FALSE;
  *pack = *largest;
  pack->is_counted = self.held != 0 && (amount_of (pack) == 0 || pack->count == CRO_MICRO);
  if (pack->count == CRO_MICRO && amount_of (pack) > 0)
    *count = pack->is_counted ? self.held : self.alone;
  return TRUE;
}

gboolean
cro_said_pack_ends_unit (const char *text,
                         CroUnit    *unit)
{
  g_autofree char *own = g_strchomp (g_strdup (text));
  gsize n = strlen (own);
  const char *at;
  gunichar before;

  while (n > 0 && strchr (").]", own[n - 1]) != NULL)
    own[--n] = '\0';
  at = own + n;
  while (at > own && g_unichar_isalpha (g_utf8_get_char (g_utf8_prev_char (at))))
    at = g_utf8_prev_char (at);
  if (at == own || *at == '\0' || scan_unit (at, unit) != strlen (at))
    return FALSE;
  before = g_utf8_get_char (g_utf8_prev_char (at));
  /* A letter alone is one behind a stroke or a bracket. */
  if (before != '/' && before != '(' && before != '[' && g_utf8_strlen (at, -1) < 2)
    return FALSE;
  while (at > own && !g_unichar_isalnum (g_utf8_get_char (g_utf8_prev_char (at))))
    at = g_utf8_prev_char (at);
  return at > own && !g_ascii_isdigit (at[-1]);
}
