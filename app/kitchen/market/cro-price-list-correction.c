/* Lines of a message that name no goods with a price, and what they may say of the prices around them: "sorry, mussels
 * 22.80", "no mussels after all", "oops, 11.40", "wrong price above". They stand before or behind what they are of. */
#include "cro-price-list-line.h"

#include "cro-fold.h"
#include "cro-price-letter.h"
#include "cro-price-remark.h"
#include "cro-price-saying.h"
#include "cro-price-talk.h"
#include "cro-price-token.h"

#include <string.h>

/* The most words in a name that is looked for. */
#define MOST_NAME 6
/* The most lines in one question. */
#define MOST_LINES 6
/* Shorter names are not looked for where they are misspelt. */
#define LEAST_SLIP 4

struct _CroListTalk
{
  const char *line;
  guint       index;      /* of its row, or of the one behind it */
  gboolean    has_row;
  gboolean    has_number;
  gboolean    has_price;  /* its number is one of goods that the book does not know */
  gboolean    is_bare;    /* a price, and no goods */
  gboolean    is_of_goods; /* that the book does not know, "no turbot" */
  gboolean    is_name;    /* of who wrote the message, where it ends with it */
  CroPack     pack;        /* of a line that is no more than one, "4 kg" */
};

/* What the rows price: of each its ingredient; and misspelt names, with a letter left out → the same + 1. */
typedef struct
{
  CroListLine *of;
  GArray      *items;
  GArray      *asked;  /* of each row whether it is asked already, as char */
  GHashTable  *priced;
  GHashTable  *slips;
} Prices;

static gboolean
is_priced (const CroListRow *row)
{
  return row->has_price || row->is_none || row->is_same || row->change_pct != 0;
}

static guint32
item_of (const CroListBook *of,
         const CroListRow  *row)
{
  return is_priced (row) ? cro_list_book_find_row (of, row) : CRO_NO_SLOT;
}

/* Each of the words without one of its letters: two that are a slip apart have one of them in common. */
static void
each_slip (const char *word,
           void      (*take) (const char *slip, gpointer data),
           gpointer    data)
{
  take (word, data);
  for (const char *at = word; *at != '\0'; at = g_utf8_next_char (at))
    {
      g_autofree char *slip = g_strdup_printf ("%.*s%s", (int) (at - word), word, g_utf8_next_char (at));

      take (slip, data);
    }
}

typedef struct
{
  GHashTable *slips;
  guint32     item;
} Slip;

static void
add_slip (const char *slip,
          gpointer    data)
{
  Slip *self = data;

  g_hash_table_insert (self->slips, g_strdup (slip), GUINT_TO_POINTER (self->item + 1));
}

static void
find_slip (const char *slip,
           gpointer    data)
{
  Slip *self = data;
  guint found = GPOINTER_TO_UINT (g_hash_table_lookup (self->slips, slip));

  if (found > 0)
    self->item = found - 1;
}

static Prices
prices_of (CroListLine *of)
{
  GArray *rows = of->list->rows;
  Prices self = { of, g_array_new (FALSE, FALSE, sizeof (guint32)), g_array_new (FALSE, TRUE, sizeof (char)),
                  g_hash_table_new (NULL, NULL), g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL) };

  g_array_set_size (self.asked, rows->len);
  for (guint i = 0; i < rows->len; i++)
    {
      guint32 item = item_of (of->of, &g_array_index (rows, CroListRow, i));

      g_array_append_val (self.items, item);
      if (item != CRO_NO_SLOT && g_hash_table_add (self.priced, GUINT_TO_POINTER (item + 1)))
        {
          g_autofree char *folded = cro_fold (cro_model_item (of->of->model, item)->name);
          g_autofree char *name = cro_fold_number (folded);
          Slip slip = { self.slips, item };

          if (g_utf8_strlen (name, -1) >= LEAST_SLIP)
            each_slip (name, add_slip, &slip);
        }
    }
  return self;
}

static void
prices_clear (Prices *self)
{
  g_array_unref (self->items);
  g_array_unref (self->asked);
  g_hash_table_unref (self->priced);
  g_hash_table_unref (self->slips);
}

/* An ingredient by its name, or one that is priced by a name a slip from its own; CRO_NO_SLOT: none. */
static guint32
find_item (const Prices *self,
           const char   *name,
           gboolean      takes_slips)
{
  guint32 found = cro_list_book_find_name (self->of->of, name);
  g_autofree char *one = cro_fold_number (name);
  Slip slip = { self->slips, CRO_NO_SLOT };

  if (found != CRO_NO_SLOT)
    return found;
  /* "Week" is no leek. */
  if (takes_slips && g_utf8_strlen (one, -1) >= LEAST_SLIP && !cro_price_saying_knows (name, NULL))
    each_slip (one, find_slip, &slip);
  if (slip.item != CRO_NO_SLOT)
    {
      g_autofree char *folded = cro_fold (cro_model_item (self->of->of->model, slip.item)->name);
      g_autofree char *name_of_one = cro_fold_number (folded);

      if (cro_fold_is_slip (one, name_of_one))
        return slip.item;
    }
  return CRO_NO_SLOT;
}

/* The longest name from here on. How many words; 0: none. */
static guint
scan_name (const Prices *self,
           char        **words,
           gboolean      takes_slips,
           guint32      *item)
{
  g_autoptr (GString) name = g_string_new (NULL);
  guint longest = 0;

  for (guint n = 0; words[n] != NULL && n < MOST_NAME; n++)
    {
      guint32 found;

      g_string_append_printf (name, "%s%s", n > 0 ? " " : "", words[n]);
      found = find_item (self, name->str, takes_slips);
      if (found == CRO_NO_SLOT)
        continue;
      *item = found;
      longest = n + 1;
    }
  return longest;
}

/* One line is enough to ask of a price. */
static void
ask_of_row (const Prices *self,
            guint         index,
            const char   *line)
{
  GArray *rows = self->of->list->rows;

  if (g_array_index (self->asked, char, index))
    return;
  g_array_index (self->asked, char, index) = TRUE;
  cro_list_row_say (self->of->list, &g_array_index (rows, CroListRow, index), CRO_LIST_BESIDE, line, NULL);
}

/* "2 kg bag" */
static gboolean
is_of_size (const char *word)
{
  CroUnit unit;
  gboolean is_whole;

  return strpbrk (word, "0123456789") != NULL || cro_list_scan_unit (word, &unit) > 0
         || cro_price_scan_pack (word, &is_whole) > 0;
}

/* Asks of the prices of what a line names. TRUE: it names goods, or others of that name, "smoked mussels": it is of
 * those alone. */
static gboolean
ask_of_named (const Prices      *self,
              const CroListTalk *talk)
{
  g_autofree char *left = talk->has_number ? g_strdup (talk->line) : cro_price_letter_dup_rest (talk->line);
  g_autofree char *folded = cro_fold (left);
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);
  g_autoptr (GArray) named = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr (GString) rest = g_string_new (NULL);
  gboolean names_any;

  for (guint i = 0, n; words[i] != NULL; i += MAX (n, 1))
    {
      guint32 item = CRO_NO_SLOT;

      n = scan_name (self, words + i, talk->has_number, &item);
      if (n > 0)
        g_array_append_val (named, item);
      else if (!is_of_size (words[i]))
        g_string_append_printf (rest, " %s", words[i]);
    }
  names_any = named->len > 0;
  /* "Hake skin off" is a cut. */
  if (cro_price_talk_is_of_other_kind (rest->str)
      || (!talk->has_number && rest->len > 0 && !cro_price_remark_says_per (talk->line)
          && cro_price_words_are_plain (rest->str, "is are looking look looks really so our today")))
    return names_any;
  for (guint i = 0; i < self->items->len && names_any; i++)
    for (guint k = 0; k < named->len; k++)
      if (g_array_index (self->items, guint32, i) == g_array_index (named, guint32, k))
        ask_of_row (self, i, talk->line);
  return names_any;
}

/* The price right before a line, or right behind it, G_MAXUINT: none is there. */
static guint
find_next (const Prices      *self,
           const CroListTalk *talk,
           int                step)
{
  guint i = step < 0 ? talk->index - 1 : talk->index + (talk->has_row ? 1 : 0);

  while (i < self->items->len && g_array_index (self->items, guint32, i) == CRO_NO_SLOT)
    i += (guint) step;
  return i < self->items->len ? i : G_MAXUINT;
}

/* Asks of the price right before a line, and of the one right behind it. FALSE: there is none. */
static gboolean
ask_of_next (const Prices      *self,
             const CroListTalk *talk)
{
  const guint before = find_next (self, talk, -1), behind = find_next (self, talk, 1);

  if (before != G_MAXUINT)
    ask_of_row (self, before, talk->line);
  if (behind != G_MAXUINT)
    ask_of_row (self, behind, talk->line);
  return before != G_MAXUINT || behind != G_MAXUINT;
}

/* A pack on a line of its own is that of the price above it or below it, if one of these is sold so; else it is asked
 * of the price above. FALSE: no price is there. */
static gboolean
ask_of_packed (const Prices      *self,
               const CroListTalk *talk)
{
  const guint before = find_next (self, talk, -1), behind = find_next (self, talk, 1),
              next = before != G_MAXUINT ? before : behind;
  GArray *rows = self->of->list->rows;

  for (guint i = 0; i < 2; i++)
    {
      const guint at = i == 0 ? before : behind;

      if (talk->pack.size > 0 && at != G_MAXUINT
          && cro_list_book_sells_pack (self->of->of, &g_array_index (rows, CroListRow, at), &talk->pack))
        return TRUE;
    }
  if (next != G_MAXUINT)
    ask_of_row (self, next, talk->line);
  return next != G_MAXUINT;
}

gboolean
cro_list_line_is_of_one (const CroListLine *self,
                         const char        *line)
{
  g_autofree char *folded = NULL;
  g_auto (GStrv) words = NULL;
  const Prices names = { .of = (CroListLine *) self };
  guint32 item;

  if (cro_price_saying_may_be_of_tax (line) || cro_price_saying_of (line, NULL).is_of_all)
    return FALSE;
  folded = cro_fold (line);
  /* "Leeks are each"; "crab per kg, the rest per box" is of others too. */
  if (strchr (line, '%') == NULL
      && (cro_price_has_word (folded, "|all|every|everything|rest|other|others|else|both|tout|tous|toutes|reste|autres|"
                                      "euro|euros|eur|gbp|pound|pounds|livre|livres|except|unless|sauf|")
          || strpbrk (line, "€£$") != NULL))
    return FALSE;
  words = g_strsplit (folded, " ", -1);
  for (guint i = 0; words[i] != NULL; i++)
    if (scan_name (&names, words + i, FALSE, &item) > 0)
      return TRUE;
  return FALSE;
}

void
cro_list_line_look_beside (CroListLine *self)
{
  guint offer = self->row.code != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (self->of->codes, self->row.code)) : 0;
  g_autofree char *beside = NULL;
  gboolean is_article;
  const char *text;

  if (offer == 0 || !self->row.has_price || self->row.name == NULL)
    return;
  beside = cro_list_dup_beside_name (self->of, self->list->supplier_name, offer - 1, self->name->str, &is_article);
  if (beside == NULL)
    return;
  text = cro_price_list_keep (self->list, is_article ? self->name->str : beside);
  if (is_article)
    cro_list_names_add (&self->names, self->list->rows->len, text);
  else
    cro_list_row_say (self->list, &self->row, CRO_LIST_BESIDE, text, NULL);
}

/* Names that talk may have: those of suppliers. Folded, borrowed. */
static const char *
known_names (CroListLine *self)
{
  const GArray *suppliers = self->of->model->suppliers;
  g_autoptr (GString) names = NULL;

  if (self->known != NULL)
    return self->known;
  names = g_string_new (NULL);
  for (guint i = 0; i < suppliers->len; i++)
    g_string_append_printf (names, "%s ", g_array_index (suppliers, CroSupplier, i).name);
  self->known = cro_fold (names->str);
  return self->known;
}

void
cro_list_line_take_talk (CroListLine *self,
                         const char  *line,
                         gboolean     has_row)
{
  const CroListRow *row = &self->row;
  const char *text = cro_list_skip_bullet (line);
  const gboolean has_number = strpbrk (text, "0123456789") != NULL;
  const char *known = known_names (self);
  CroListTalk talk = { .index = self->list->rows->len, .has_row = has_row, .has_number = has_number,
                       .has_price = (row->has_price || row->price != 0)
                                    && !cro_price_talk_names_nothing (self->name->str, NULL) };

  /* "- " */
  if (*text == '\0' || strspn (text, "-_=*#~. \t") == strlen (text)
      || (self->is_closing && cro_price_talk_is_name (text)))
    return;
  if (!cro_price_talk_may_be_of_prices (text, talk.has_price, known))
    {
      self->is_closing |= !talk.has_price;
      if (!has_number && !cro_price_talk_takes_back (text))
        return;
    }
  talk.is_of_goods = (row->is_none || row->is_same) && !cro_price_talk_names_nothing (self->name->str, known);
  /* "4 kg" below a price */
  talk.is_bare = has_number && (!has_row || cro_price_talk_is_bare_price (text, self->name->str, NULL));
  talk.is_name = cro_price_talk_is_name (text);
  talk.pack = has_row ? (CroPack){ 0 } : row->pack;
  talk.line = cro_price_list_keep (self->list, text);
  if (self->talk == NULL)
    self->talk = g_array_new (FALSE, FALSE, sizeof (CroListTalk));
  g_array_append_val (self->talk, talk);
}

void
cro_list_line_settle_talk (CroListLine *self)
{
  g_autoptr (GString) lines = g_string_new (self->said.change);
  guint n_lines = 0;
  Prices prices;

  /* Who writes "£22" in the first line means the others so. */
  if (self->foreign != NULL && self->n_unsaid > 0 && self->said.currency == NULL)
    g_string_append_printf (lines, "%s%s", lines->len > 0 ? " / " : "", self->foreign);
  if (lines->len > 0)
    self->said.change = cro_price_list_keep (self->list, lines->str);
  if (self->talk == NULL)
    {
      g_clear_pointer (&self->known, g_free);
      return;
    }
  prices = prices_of (self);
  for (guint i = 0; i < self->talk->len; i++)
    {
      const CroListTalk *talk = &g_array_index (self->talk, CroListTalk, i);

      if (ask_of_named (&prices, talk)
          || (talk->is_bare && (talk->has_row ? ask_of_next (&prices, talk) : ask_of_packed (&prices, talk))))
        continue;
      if (talk->is_of_goods || (talk->is_name && find_next (&prices, talk, 1) == G_MAXUINT
                                && find_next (&prices, talk, -1) != G_MAXUINT)
          || cro_price_saying_may_be_of_tax (talk->line) || n_lines > MOST_LINES
          || g_strcmp0 (talk->line, self->said.change) == 0
          || !cro_price_talk_may_be_of_prices (talk->line, talk->has_price, known_names (self)))
        continue;
      /* One question names them all. */
      g_string_append_printf (lines, "%s%s", lines->len > 0 ? " / " : "", n_lines < MOST_LINES ? talk->line : "…");
      n_lines++;
    }
  if (lines->len > 0)
    self->said.change = cro_price_list_keep (self->list, lines->str);
  prices_clear (&prices);
  g_clear_pointer (&self->talk, g_array_unref);
  g_clear_pointer (&self->known, g_free);
}
