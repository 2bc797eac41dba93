/* Lines of a message, as people write prices to one another:
 *
 *   Mussels 4.35/kg        M20 hake 10 kg 112        £69.50 per 5 kg brown crab
 *   razor clams: none      102 mussels 21.75         oysters 50 x 1 pc  31,-
 *   no garlic till Friday  samphire same as last     celery 12 heads 16
 *   lemons 140s 55.20      cream 30.60/6 × 1 l
 *
 * A number before % is a change of the last price, never a price: "up 15 %", "+5 %", "en baisse de 2 %".
 * A number with a unit is an amount, one behind a currency or before "/kg" a price, what is written as one
 * of the supplier's codes a code; the one number left is the price. The words left are the name; where the
 * book has a name with that number it is part of it. Where several numbers are left, nothing is guessed. */
#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-expression.h"
#include "cro-fold.h"
#include "cro-name.h"
#include "cro-plain-file.h"
#include "cro-price-words.h"
#include "cro-unit-words.h"
#include "cro-words.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

/* Longer than any message; bytes. */
#define MOST_MESSAGE (4u * 1024 * 1024)

typedef struct
{
  CroPriceList      *list;
  const CroListBook *of;
  CroBrought         numbers;   /* how numbers are read: which sign is decimal in this message */
  CroListRow         row;
  GString           *name;
  gint64             plain[3];  /* numbers that are nothing else yet */
  guint              n_plain;
  gboolean           is_unclear;
  gboolean           has_pct;   /* a number before % */
} Reader;

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

/* Digits, signs, and the spaces of French numbers between three digits; a plain space is none, as it may stand
 * between a code and a price. */
static gsize
number_length (const char *text)
{
  gsize n = strspn (text, "0123456789.,");

  for (gsize space; n > 0; n += space + strspn (text + n + space, "0123456789.,"))
    {
      space = g_str_has_prefix (text + n, "\u00a0")   ? strlen ("\u00a0")
              : g_str_has_prefix (text + n, "\u202f") ? strlen ("\u202f")
                                                      : 0;
      if (space == 0 || strspn (text + n + space, "0123456789") != 3)
        break;
    }
  while (n > 0 && !g_ascii_isdigit (text[n - 1]))
    n--;
  return n;
}

/* The number that begins text, in millionths, and the bytes of it; 0: none. */
static gsize
scan_number (Reader     *self,
             const char *text,
             gint64     *number)
{
  gsize n = number_length (text);
  g_autofree char *word = NULL;
  CroReadCell cell = { CRO_READ_CELL_TEXT, NULL };

  if (n == 0)
    return 0;
  n += cro_price_scan_even (text + n);
  word = g_strndup (text, n);
  cell.text = word;
  if (cro_brought_number (&self->numbers, &cell, 0, number, NULL))
    return n;
  if (cro_brought_is_doubtful (&self->numbers, &cell, 0))
    cro_list_row_say (self->list, &self->row, CRO_LIST_WHICH_SIGN, cro_price_list_keep (self->list, word), NULL);
  self->is_unclear = TRUE;
  *number = 0;
  return n;
}

/* How much is open in a line. Who reads on and finds that it is not what he looked for steps back to that: the same
 * number is read again as something else, and asked about then. */
typedef struct
{
  gboolean is_unclear;
  guint    n_reasons;
} Doubt;

static Doubt
doubt_of (const Reader *self)
{
  return (Doubt){ self->is_unclear, self->row.reasons != NULL ? self->row.reasons->len : 0 };
}

static gsize
step_back (Reader *self,
           Doubt   to)
{
  self->is_unclear = to.is_unclear;
  if (to.n_reasons == 0)
    g_clear_pointer (&self->row.reasons, g_array_unref);
  else
    g_array_set_size (self->row.reasons, to.n_reasons);
  return 0;
}

static gsize
scan_unit (const char *text,
           CroUnit    *unit)
{
  gsize space = strspn (text, " ");
  CroUnitMeaning meaning;
  gsize n = cro_unit_words_scan (text + space, cro_words_entry (), &meaning);

  if (n == 0 || meaning.kind != CRO_UNIT_WORD_ONE || g_unichar_isalpha (g_utf8_get_char (text + space + n)))
    return 0;
  *unit = meaning.units[0];
  return space + n;
}

static gsize
scan_currency (Reader     *self,
               const char *text)
{
  gsize space = strspn (text, " ");
  gboolean is_it;
  gsize n = g_ascii_isdigit (text[space]) ? 0 : cro_currency_scan (text + space, NULL, &is_it);

  if (n == 0)
    n = cro_currency_scan_word (text + space, NULL, &is_it);
  if (n > 0)
    self->row.currency = cro_price_list_currency (self->list, self->of, text + space);
  return n > 0 ? space + n : 0;
}

/* The same behind a unit: that of a number which follows is no part of it, and three capitals before other words are
 * a currency only where they are the supplier's. */
static gsize
scan_currency_behind (Reader     *self,
                      const char *text)
{
  gsize space = strspn (text, " ");
  gboolean is_own = FALSE;
  gsize n = cro_currency_scan (text + space, self->of->currency, &is_own);
  const char *rest = text + space + n + strspn (text + space + n, " ");

  if (g_ascii_isdigit (*rest) || (n > 0 && g_ascii_isalpha (text[space]) && !is_own && *rest != '\0'))
    return 0;
  return scan_currency (self, text);
}

static void
take_price (Reader *self,
            gint64  price)
{
  if (self->row.has_price)
    self->is_unclear = TRUE;
  self->row.has_price = TRUE;
  self->row.price = price;
}

/* "× 250 g" behind a count. */
static gsize
scan_times (Reader     *self,
            const char *text,
            gint64      count)
{
  gsize space = strspn (text, " "), times = 0, n, unit;
  gint64 size;
  Doubt before;
  CroUnit of;

  if (g_str_has_prefix (text + space, "×"))
    times = strlen ("×");
  else if ((text[space] == 'x' || text[space] == 'X' || text[space] == '*'))
    times = 1;
  if (times == 0)
    return 0;
  times += space;
  times += strspn (text + times, " ");
  before = doubt_of (self);
  n = scan_number (self, text + times, &size);
  unit = n > 0 ? scan_unit (text + times + n, &of) : 0;
  /* "6 x 30" are pieces. */
  if (n == 0 || (unit == 0 && g_unichar_isalpha (g_utf8_get_char (text + times + n + strspn (text + times + n, " ")))))
    return step_back (self, before);
  if (unit == 0)
    of = CRO_UNIT_EACH;
  self->row.pack = (CroPack){ count, size, of };
  return times + n + unit;
}

/* "/kg", "per 5 kg", "/6 × 1 l", "le kilo" behind a price. */
static gsize
scan_per (Reader     *self,
          const char *text)
{
  gsize space = strspn (text, " "), per = cro_price_scan_per (text + space), n, times, unit;
  gint64 size = 0;
  Doubt before = doubt_of (self);
  CroUnit of;

  if (per == 0)
    return 0;
  per += space;
  per += strspn (text + per, " ");
  n = scan_number (self, text + per, &size);
  times = n > 0 ? scan_times (self, text + per + n, size) : 0;
  if (times > 0)
    return per + n + times;
  unit = scan_unit (text + per + n, &of);
  if (unit == 0)
    return step_back (self, before);
  if (n > 0)
    self->row.pack = (CroPack){ CRO_MICRO, size, of };
  else
    {
      self->row.has_per = TRUE;
      self->row.per = of;
    }
  return per + n + unit;
}

/* "12 heads", and "140s": of how many a box is. */
static gsize
scan_pieces (const char *text)
{
  static const char *const words[] = {
    "heads", "head", "bunches", "bunch", "tetes", "têtes", "tête", "bottes", "botte",
  };
  gsize space = strspn (text, " "), bytes = 0;

  if (*text == 's' && !g_unichar_isalnum (g_utf8_get_char (text + 1)))
    return 1;
  for (gsize i = 0; i < G_N_ELEMENTS (words) && bytes == 0; i++)
    {
      bytes = cro_expression_starts (text + space, words[i]);
      if (g_unichar_isalpha (g_utf8_get_char (text + space + bytes)))
        bytes = 0;
    }
  return bytes > 0 ? space + bytes : 0;
}

/* --- A change of the last price ------------------------------------------------------------------------ */

/* A number and "%", of which sign stands before it, 0 where none does. Which way it went is asked where that is not
 * said, or said twice in two ways; and so is all of a line that says more than one change, or a price with it. */
static gsize
take_pct (Reader     *self,
          const char *text,
          int         sign)
{
  gint64 number;
  Doubt before = doubt_of (self);
  gsize n = scan_number (self, text, &number), pct = n > 0 ? cro_list_scan_pct (text + n) : 0, more;
  int said, behind;

  if (pct == 0)
    return step_back (self, before);
  n += pct;
  said = cro_list_take_way (self->name);
  more = cro_list_scan_way (text + n, &behind);
  if (sign == 0)
    sign = said;
  if (sign == 0)
    sign = behind;
  self->is_unclear |= self->has_pct || sign == 0 || number == 0 || (said != 0 && said != sign)
                      || (behind != 0 && behind != sign);
  self->has_pct = TRUE;
  self->row.change_pct = sign * number;
  return n + more;
}

/* What a number is shows in what stands around it. */
static gsize
take_number (Reader     *self,
             const char *text,
             gboolean    is_money)
{
  gint64 number;
  gsize n = scan_number (self, text, &number), more;
  CroUnit unit;

  if (n == 0)
    return 0;
  if (!is_money && (more = scan_times (self, text + n, number)) > 0)
    return n + more;
  more = scan_currency (self, text + n);
  is_money |= more > 0;
  n += more;
  n += cro_price_scan_even (text + n);
  if ((more = scan_per (self, text + n)) > 0 || is_money)
    {
      take_price (self, number);
      n += more;
      return n + (more > 0 && !is_money ? scan_currency_behind (self, text + n) : 0);
    }
  if ((more = scan_unit (text + n, &unit)) > 0 && unit == CRO_UNIT_EACH && number % CRO_MICRO != 0)
    {
      /* "0.90 each": of no half piece there is a pack. */
      take_price (self, number);
      self->row.has_per = TRUE;
      self->row.per = unit;
      n += more;
      return n + scan_currency_behind (self, text + n);
    }
  if (more > 0)
    {
      self->row.pack = (CroPack){ CRO_MICRO, number, unit };
      return n + more;
    }
  if ((more = scan_pieces (text + n)) > 0)
    {
      self->row.pack = (CroPack){ CRO_MICRO, number, CRO_UNIT_EACH };
      return n + more;
    }
  if (self->n_plain < G_N_ELEMENTS (self->plain))
    self->plain[self->n_plain++] = number;
  else
    self->is_unclear = TRUE;
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
take_code (Reader     *self,
           const char *word)
{
  if (self->row.code != NULL || !g_hash_table_contains (self->of->codes, word))
    return FALSE;
  self->row.code = cro_price_list_keep (self->list, word);
  return TRUE;
}

/* How far a name of the book that has a number in it goes on from here; 0: there is none. */
static gsize
scan_name (Reader     *self,
           const char *text)
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
add_word (Reader     *self,
          const char *word,
          gsize       n)
{
  if (self->name->len > 0)
    g_string_append_c (self->name, ' ');
  g_string_append_len (self->name, word, (gssize) n);
}

/* A code of digits alone is a price as well where no other number is there: that is seen at the end. */
static gsize
take_word (Reader     *self,
           const char *text)
{
  gsize n = word_length (text), currency, sign_bytes = 0, pct;
  g_autofree char *word = g_strndup (text, n);
  int sign;

  if (strpbrk (word, "0123456789") != NULL)
    {
      gsize named = scan_name (self, text);

      if (named > 0)
        add_word (self, text, named);
      if (named > 0)
        return named;
      if (take_code (self, word))
        return n;
    }
  sign = cro_list_scan_sign (text, &sign_bytes);
  pct = take_pct (self, text + sign_bytes, sign);
  if (pct > 0)
    return sign_bytes + pct;
  /* "(20 x 500 g)": what a number is does not hang on them. */
  if (*text == '(' && (g_ascii_isdigit (text[1]) || cro_list_scan_sign (text + 1, &sign_bytes) != 0))
    return 1;
  if (*text == ')')
    return 1 + strspn (text + 1, ",.");
  currency = scan_currency (self, text);
  if (currency > 0 && g_ascii_isdigit (text[currency + strspn (text + currency, " ")]))
    {
      currency += strspn (text + currency, " ");
      return currency + take_number (self, text + currency, TRUE);
    }
  if (g_ascii_isdigit (*text))
    return take_number (self, text, FALSE);
  add_word (self, text, n);
  return n;
}

/* A code that was taken for one, where nothing else is a price. */
static void
give_back_code (Reader *self)
{
  gint64 number;

  if (self->row.has_price || self->n_plain > 0 || self->has_pct || self->row.code == NULL || self->row.is_none
      || self->row.is_same || cro_decimal_parse (self->row.code, strlen (self->row.code), &number) != CRO_DECIMAL_OK)
    return;
  self->plain[self->n_plain++] = number;
  self->row.code = NULL;
}

/* A day that no calendar has: what was meant nobody knows. NULL: none. Owned. */
static char *
dup_no_day (const char *line)
{
  g_auto (GStrv) words = g_strsplit_set (line, " \t,;.()", -1);

  for (guint i = 0; words[i] != NULL; i++)
    {
      CroDate ignored;

      if (strlen (words[i]) == strlen ("2026-02-30") && words[i][4] == '-' && words[i][7] == '-'
          && strspn (words[i], "0123456789-") == strlen (words[i])
          && !cro_date_parse (words[i], strlen (words[i]), &ignored))
        return g_strdup (words[i]);
    }
  return NULL;
}

/* What is said in place of a price. "Till Friday 4th" has a number that is none. */
static void
settle_unpriced (Reader     *self,
                 const char *line)
{
  g_autofree char *name = NULL, *no_day = NULL;
  CroListUnpriced said;

  if (self->row.has_price)
    return;
  said = cro_list_read_unpriced (self->name->str, &name);
  if (said == CRO_LIST_SAYS_NOTHING && g_str_has_suffix (line, "="))
    said = CRO_LIST_SAYS_SAME;
  if (said == CRO_LIST_SAYS_NOTHING || (self->n_plain > 0 && said != CRO_LIST_SAYS_NONE))
    {
      self->row.is_none = self->n_plain == 0 && g_str_has_suffix (self->name->str, " -");
      return;
    }
  if (self->n_plain > 0 && !cro_list_has_until (self->name->str))
    return;
  self->n_plain = 0;
  self->is_unclear = FALSE;
  self->row.is_none = said == CRO_LIST_SAYS_NONE;
  self->row.is_same = said == CRO_LIST_SAYS_SAME;
  no_day = dup_no_day (line);
  if (no_day != NULL)
    cro_list_row_say (self->list, &self->row, CRO_LIST_NOT_A_DATE, no_day, NULL);
  if (name != NULL)
    g_string_assign (self->name, name);
}

/* "mullet whole 10.20 kg" of who states prices per kg: nobody packs 10.20 kg. */
static void
settle_quoted (Reader *self)
{
  CroListRow *row = &self->row;

  if (row->has_price || row->is_none || row->is_same || row->has_per || self->has_pct || self->n_plain > 0
      || self->is_unclear || !self->of->quotes_base || row->pack.count != CRO_MICRO || row->pack.size % CRO_MICRO == 0
      || row->pack.unit == CRO_UNIT_EACH)
    return;
  row->has_price = row->has_per = TRUE;
  row->price = row->pack.size;
  row->per = row->pack.unit;
  row->pack = (CroPack){ 0 };
}

/* "L49 bones off" of what the supplier sells; "skin off" is a cut. */
static gboolean
is_off (const Reader *self)
{
  g_autofree char *folded = cro_fold (self->name->str);
  gsize n = strlen (folded);

  if (!g_str_has_suffix (folded, " off") || self->row.pack.size > 0)
    return FALSE;
  folded[n - strlen (" off")] = '\0';
  return self->row.code != NULL || g_hash_table_contains (self->of->names, folded);
}

static void
settle (Reader     *self,
        const char *line)
{
  g_autofree char *tidy = NULL, *whole = cro_name_dup_tidy (line);

  settle_unpriced (self, line);
  give_back_code (self);
  settle_quoted (self);
  if (!self->row.has_price && self->n_plain == 0 && !self->has_pct && is_off (self))
    self->row.is_none = TRUE;
  if (self->n_plain == 1 && !self->row.has_price)
    take_price (self, self->plain[0]);
  else if (self->n_plain > 0)
    self->is_unclear = TRUE;
  self->is_unclear |= self->has_pct && (self->row.has_price || self->row.is_none || self->row.is_same);
  tidy = cro_name_dup_tidy (self->name->str);
  for (gsize n = strlen (tidy); n > 0 && strchr (" -,.", tidy[n - 1]) != NULL; n--)
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

/* A line begins after what only lists it. */
static const char *
skip_bullet (const char *line)
{
  static const char *const bullets[] = { "- ", "* ", "• ", "· ", "> " };

  line += strspn (line, " \t");
  for (guint i = 0; i < G_N_ELEMENTS (bullets); i++)
    if (g_str_has_prefix (line, bullets[i]))
      return line + strlen (bullets[i]);
  return line;
}

static gboolean
read_line (Reader     *self,
           guint       number,
           const char *line)
{
  const char *at = skip_bullet (line);

  self->row = (CroListRow){ .number = number };
  g_string_truncate (self->name, 0);
  self->n_plain = 0;
  self->is_unclear = self->has_pct = FALSE;
  for (at += skip_space (at); *at != '\0'; at += skip_space (at))
    at += take_word (self, at);
  if (self->name->len == 0 && self->n_plain == 0 && !self->has_pct && !self->row.has_price && self->row.code == NULL)
    {
      g_clear_pointer (&self->row.reasons, g_array_unref);
      return FALSE;
    }
  settle (self, skip_bullet (line));
  return TRUE;
}

/* The decimal sign of a message, or of a line that stands alone: the one that stands before one or two digits, and
 * never the other. */
static char
decimal_of (const char *text)
{
  gboolean has[2] = { FALSE, FALSE };

  for (const char *at = text; *at != '\0'; at++)
    if ((*at == '.' || *at == ',') && at > text && g_ascii_isdigit (at[-1]))
      {
        gsize n = strspn (at + 1, "0123456789");

        if (n == 1 || n == 2)
          has[*at == ','] = TRUE;
      }
  return has[0] == has[1] ? '\0' : has[1] ? ',' : '.';
}

gboolean
cro_price_list_take_line (CroPriceList      *self,
                          const CroListBook *of,
                          const char        *line,
                          CroListRow        *row)
{
  g_autoptr (GString) name = g_string_new (NULL);
  Reader reader = { .list = self, .of = of, .name = name };

  reader.numbers.said = decimal_of (line);
  if (!read_line (&reader, 0, line))
    return FALSE;
  *row = reader.row;
  return TRUE;
}

static char *
read_file (const char  *path,
           GError     **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  int file = cro_plain_file_open (path, error);
  guint8 block[16 * 1024];
  gssize n = 0;

  if (file < 0)
    return NULL;
  while (bytes->len <= MOST_MESSAGE && (n = read (file, block, sizeof block)) > 0)
    g_byte_array_append (bytes, block, (guint) n);
  if (n < 0)
    g_set_error_literal (error, G_FILE_ERROR, (int) g_file_error_from_errno (errno), g_strerror (errno));
  close (file);
  if (n < 0)
    return NULL;
  if (bytes->len > MOST_MESSAGE)
    {
      g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "message");
      return NULL;
    }
  return g_utf8_make_valid (bytes->len > 0 ? (const char *) bytes->data : "", (gssize) bytes->len);
}

gboolean
cro_price_list_take_message (CroPriceList       *self,
                             const char         *path,
                             const CroListBook  *of,
                             GError            **error)
{
  g_autofree char *text = read_file (path, error);
  g_autoptr (GString) name = g_string_new (NULL);
  Reader reader = { .list = self, .of = of, .name = name };
  g_auto (GStrv) lines = NULL;

  if (text == NULL)
    return FALSE;
  self->source = CRO_LIST_MESSAGE;
  reader.numbers.said = decimal_of (text);
  lines = g_strsplit (text, "\n", 0);
  for (guint i = 0; lines[i] != NULL; i++)
    if (read_line (&reader, i + 1, g_strchomp (lines[i])))
      g_array_append_val (self->rows, reader.row);
  return TRUE;
}
