#include "cro-fold.h"

#include <string.h>

/* Letters that no decomposition takes apart, as they are typed without them. */
static const char *
spelt_out (gunichar letter)
{
  switch (letter)
    {
    case 0x00e6:  /* æ */
      return "ae";
    case 0x0153:  /* œ */
      return "oe";
    case 0x00f8:  /* ø */
      return "o";
    case 0x0142:  /* ł */
      return "l";
    case 0x0111:  /* đ */
    case 0x00f0:  /* ð */
      return "d";
    case 0x00fe:  /* þ */
      return "th";
    case 0x0131:  /* ı */
      return "i";
    default:
      return NULL;
    }
}

static void
add_letter (GString  *folded,
            gunichar  letter)
{
  const char *spelt = spelt_out (letter);

  if (spelt != NULL)
    g_string_append (folded, spelt);
  else if (g_unichar_isalnum (letter))
    g_string_append_unichar (folded, letter);
  else if (!g_unichar_ismark (letter) && folded->len > 0
           && folded->str[folded->len - 1] != ' ')
    g_string_append_c (folded, ' ');
}

/* Most names are ASCII, for which there is a shorter way. */
static gboolean
is_ascii (const char *text)
{
  while (*text != '\0' && (guchar) *text < 0x80)
    text++;
  return *text == '\0';
}

static char *
fold_ascii (const char *text)
{
  char *folded = g_malloc (strlen (text) + 1);
  gsize n = 0;

  for (; *text != '\0'; text++)
    if (g_ascii_isalnum (*text))
      folded[n++] = g_ascii_tolower (*text);
    else if (n > 0 && folded[n - 1] != ' ')
      folded[n++] = ' ';
  if (n > 0 && folded[n - 1] == ' ')
    n--;
  folded[n] = '\0';
  return folded;
}

static char *
fold_any (const char *text)
{
  GString *folded = g_string_sized_new (strlen (text) + 1);
  g_autofree char *apart = g_utf8_normalize (text, -1, G_NORMALIZE_ALL);
  g_autofree char *lower = g_utf8_casefold (apart != NULL ? apart : "", -1);

  for (const char *c = lower; *c != '\0'; c = g_utf8_next_char (c))
    add_letter (folded, g_utf8_get_char (c));
  if (folded->len > 0 && folded->str[folded->len - 1] == ' ')
    g_string_truncate (folded, folded->len - 1);
  return g_string_free (folded, FALSE);
}

char *
cro_fold (const char *text)
{
  return is_ascii (text) ? fold_ascii (text) : fold_any (text);
}

/* Read as cro_fold would have it for as long as
 * it is ASCII, so that hardly any name of a large book is folded. */
gboolean
cro_folds_to (const char *name,
              const char *folded)
{
  const char *at = folded;
  g_autofree char *whole = NULL;
  gboolean gap = FALSE;

  for (const char *c = name; *c != '\0'; c++)
    if ((guchar) *c >= 0x80)
      {
        whole = cro_fold (name);
        return strcmp (whole, folded) == 0;
      }
    else if (!g_ascii_isalnum (*c))
      gap = at > folded;
    else
      {
        if (gap && *at++ != ' ')
          return FALSE;
        gap = FALSE;
        if (g_ascii_tolower (*c) != *at++)
          return FALSE;
      }
  return *at == '\0';
}

/* Shorter words are left alone: "gas" is one. */
#define LEAST_WORD 4

static gboolean
ends_in (const char *word,
         gsize       length,
         const char *end)
{
  gsize bytes = strlen (end);

  return length > bytes && strncmp (word + length - bytes, end, bytes) == 0;
}

/* Bytes of a word without what makes it a plural; *end: what stands there instead, '\0': nothing. */
static gsize
singular (const char *word,
          gsize       length,
          char       *end)
{
  static const char *const hissing[] = { "sses", "shes", "ches", "xes", "zes", "oes" };
  /* The same in French, where "pêche" has its e in both: neither has it here. */
  static const char *const soft[] = { "sse", "she", "che", "xe", "ze" };

  /* "olives", "chives" and "cloves" are of "-ve". */
  static const char *const voiced[] = { "eaves", "oaves", "alves" };

  *end = '\0';
  if (length < LEAST_WORD || ends_in (word, length, "ss") || ends_in (word, length, "us")
      || ends_in (word, length, "is"))
    return length;
  for (gsize i = 0; i < G_N_ELEMENTS (hissing); i++)
    if (ends_in (word, length, hissing[i]))
      return length - 2;
  for (gsize i = 0; i < G_N_ELEMENTS (soft); i++)
    if (ends_in (word, length, soft[i]))
      return length - 1;
  for (gsize i = 0; i < G_N_ELEMENTS (voiced); i++)
    if (ends_in (word, length, voiced[i]))
      *end = 'f';
  if (length > LEAST_WORD && (ends_in (word, length, "ies") || ends_in (word, length, "ie")))
    *end = 'y';
  if (*end != '\0')
    return length - (word[length - 1] == 's' ? 3 : 2);
  if (ends_in (word, length, "s") || ends_in (word, length, "aux") || ends_in (word, length, "eux")
      || ends_in (word, length, "oux"))
    return length - 1;
  return length;
}

char *
cro_fold_number (const char *folded)
{
  GString *one = g_string_sized_new (strlen (folded) + 1);

  for (const char *at = folded; *at != '\0';)
    {
      gsize length = strcspn (at, " ");
      char end;

      g_string_append_len (one, at, (gssize) singular (at, length, &end));
      if (end != '\0')
        g_string_append_c (one, end);
      at += length;
      if (*at == ' ')
        g_string_append_c (one, *at++);
    }
  return g_string_free (one, FALSE);
}

CroQuery *
cro_query_new (const char *text)
{
  g_autofree char *folded = cro_fold (text), *one = cro_fold_number (folded);
  const char *longest, *of_one;
  CroQuery *self;

  if (*folded == '\0')
    return NULL;
  self = g_new0 (CroQuery, 1);
  self->words = g_strsplit (folded, " ", 0);
  self->ones = g_strsplit (one, " ", 0);
  self->text = g_steal_pointer (&folded);
  for (guint i = 0; self->words[i] != NULL; i++)
    if (strlen (self->words[i]) > strlen (self->words[self->longest]))
      self->longest = i;
  longest = self->words[self->longest];
  of_one = self->ones[self->longest];
  while (longest[self->stem] != '\0' && longest[self->stem] == of_one[self->stem])
    self->stem++;
  return self;
}

void
cro_query_free (CroQuery *self)
{
  if (self == NULL)
    return;
  g_free (self->text);
  g_strfreev (self->words);
  g_strfreev (self->ones);
  g_free (self);
}

static CroMatch
match_word (const char *folded,
            const char *word)
{
  const char *at = strstr (folded, word);

  if (at == NULL)
    return CRO_MATCH_NONE;
  for (; at != NULL; at = strstr (at + 1, word))
    if (at == folded || at[-1] == ' ')
      return CRO_MATCH_STARTS;
  return CRO_MATCH_INSIDE;
}

/* "oysters" of "rock oyster", and "peas" of no pear. */
static gboolean
has_word (const char *folded,
          const char *word)
{
  gsize n = strlen (word);

  for (const char *at = strstr (folded, word); at != NULL; at = strstr (at + 1, word))
    if ((at == folded || at[-1] == ' ') && (at[n] == ' ' || at[n] == '\0'))
      return TRUE;
  return FALSE;
}

CroMatch
cro_query_match (const CroQuery *self,
                 const char     *folded)
{
  CroMatch worst = CRO_MATCH_STARTS;

  for (guint i = 0; self->words[i] != NULL && worst != CRO_MATCH_NONE; i++)
    {
      CroMatch match = match_word (folded, self->words[i]);

      if (match == CRO_MATCH_NONE && has_word (folded, self->ones[i]))
        match = CRO_MATCH_INSIDE;
      worst = MIN (worst, match);
    }
  if (worst != CRO_MATCH_STARTS || !g_str_has_prefix (folded, self->text))
    return worst;
  return folded[strlen (self->text)] == '\0' ? CRO_MATCH_WHOLE : CRO_MATCH_BEGINS;
}

GPtrArray *
cro_fold_words (const char *name)
{
  g_autofree char *folded = cro_fold (name), *one = cro_fold_number (folded);
  g_auto (GStrv) words = g_strsplit (one, " ", 0);
  GPtrArray *each = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; words[i] != NULL; i++)
    if (*words[i] != '\0' && !g_ptr_array_find_with_equal_func (each, words[i], g_str_equal, NULL))
      g_ptr_array_add (each, g_strdup (words[i]));
  return each;
}

/* What they have in common is taken off both ends, and what is left of them is too short to be more. Letters are
 * characters, not bytes. */
gboolean
cro_fold_is_slip (const char *a,
                  const char *b)
{
  const char *a_end = a + strlen (a), *b_end = b + strlen (b);
  glong n, m;

  while (a < a_end && b < b_end && g_utf8_get_char (a) == g_utf8_get_char (b))
    {
      a = g_utf8_next_char (a);
      b = g_utf8_next_char (b);
    }
  while (a < a_end && b < b_end
         && g_utf8_get_char (g_utf8_prev_char (a_end)) == g_utf8_get_char (g_utf8_prev_char (b_end)))
    {
      a_end = g_utf8_prev_char (a_end);
      b_end = g_utf8_prev_char (b_end);
    }
  n = g_utf8_strlen (a, a_end - a);
  m = g_utf8_strlen (b, b_end - b);
  if (n <= 1 && m <= 1)
    return TRUE;
  return n == 2 && m == 2 && g_utf8_get_char (a) == g_utf8_get_char (g_utf8_next_char (b))
         && g_utf8_get_char (b) == g_utf8_get_char (g_utf8_next_char (a));
}
