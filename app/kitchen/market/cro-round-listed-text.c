/* What a list says of a row, as one line of what is set aside, and back. Fields stand apart by tabs, each its word and
 * its value; what says nothing is left out, and a word that nobody knows is passed over:
 *
 *   line 3	name Crab	has-price yes	price 82000000	pack 1000000 5000000 kg	asks tax	text VAT */
#include "cro-round-private.h"

#include <string.h>

#include "cro-decimal.h"

typedef enum
{
  TEXT,
  YES,
  NUMBER,
  PLACE,  /* guint */
  UNIT,
  PACK,
  TAX,
} Kind;

/* All that the readers of tables and messages say (cro-price-list-table.c, cro-price-list-message.c) and what somebody
 * said of it. */
#define FIELD(word, kind, of) { word, kind, G_STRUCT_OFFSET (CroListRow, of) }
static const struct { const char *word; Kind kind; glong at; } fields[] = {
  FIELD ("line", PLACE, number),
  FIELD ("code", TEXT, code),
  FIELD ("gtin", TEXT, gtin),
  FIELD ("name", TEXT, name),
  FIELD ("said", TEXT, said),
  FIELD ("for", TEXT, priced_as),
  FIELD ("currency", TEXT, currency),
  FIELD ("none", YES, is_none),
  FIELD ("same", YES, is_same),
  FIELD ("change", NUMBER, change_pct),
  FIELD ("has-price", YES, has_price),
  FIELD ("price", NUMBER, price),
  FIELD ("pack", PACK, pack),
  FIELD ("has-per", YES, has_per),
  FIELD ("per", UNIT, per),
  FIELD ("measure", YES, is_per_measure),
  FIELD ("per-base", YES, is_per_base),
  FIELD ("may-be-per", YES, may_be_per),
  FIELD ("may-be-order", YES, may_be_order),
  FIELD ("said-open", TEXT, said_open),
  FIELD ("size-beside", NUMBER, size_beside),
  FIELD ("has-size-unit", YES, has_size_unit),
  FIELD ("size-unit", UNIT, size_unit),
  FIELD ("size-count", NUMBER, size_count),
  FIELD ("size-counted", YES, is_size_counted),
  FIELD ("size-about", YES, is_size_about),
  FIELD ("size-heading", TEXT, size_heading),
  FIELD ("unit-heading", TEXT, unit_heading),
  FIELD ("each", YES, is_each),
  FIELD ("tax", TAX, says_tax),
  FIELD ("tax-rate", NUMBER, tax_pct),
  FIELD ("tax-beside", NUMBER, tax_beside),
  FIELD ("rate-beside", NUMBER, rate_beside),
  FIELD ("tax-heading", TEXT, tax_heading),
  FIELD ("tax-open", YES, is_tax_open),
  FIELD ("sum-heading", TEXT, sum_heading),
  FIELD ("is-return", YES, is_return),
  FIELD ("no-ingredient", YES, is_no_ingredient),
  FIELD ("named", YES, is_named),
  FIELD ("pack-said", YES, is_pack_said),
};
#undef FIELD

static const char *const taxes[] = {
  [CRO_PRICE_WITHOUT_TAX] = "without",
  [CRO_PRICE_WITH_TAX] = "with",
};

/* What a reader leaves open (what else is asked is as a row is matched), that another row has another price, and what
 * texts of before had of a match; with how many texts each is told. */
static const struct { CroListWhy why; const char *word; guint n_texts; } questions[] = {
  { CRO_LIST_NO_PRICE, "no-price", 0 },
  { CRO_LIST_NOT_A_PRICE, "not-a-price", 1 },
  { CRO_LIST_NOT_A_DATE, "not-a-date", 1 },
  { CRO_LIST_WHICH_NUMBER, "which-number", 0 },
  { CRO_LIST_WHICH_SIGN, "which-sign", 1 },
  { CRO_LIST_GOODS_WORD, "goods", 2 },
  { CRO_LIST_UNSURE, "price", 1 },
  { CRO_LIST_SAID_CHANGE, "change", 1 },
  { CRO_LIST_SAID_DAY, "day", 1 },
  { CRO_LIST_SAID_TAX, "without-tax", 1 },
  { CRO_LIST_BESIDE, "beside", 1 },
  { CRO_LIST_HIDDEN, "hidden", 0 },
  { CRO_LIST_TWICE, "twice", 0 },
  { CRO_LIST_WHICH_PRICE, "pack", 2 },
  { CRO_LIST_TAX_BESIDE, "tax", 1 },
  { CRO_LIST_SAID_OPEN, "for", 1 },
  { CRO_LIST_OTHER_NAME, "name", 2 },
};

static gsize
find_question (CroListWhy  why,
               const char *word)
{
  gsize i = 0;

  while (i < G_N_ELEMENTS (questions)
         && !(word != NULL ? strcmp (word, questions[i].word) == 0 : why == questions[i].why))
    i++;
  return i;
}

const char *
cro_round_why_to_text (CroListWhy why)
{
  gsize i = find_question (why, NULL);

  return i < G_N_ELEMENTS (questions) ? questions[i].word : NULL;
}

gboolean
cro_round_reason_from_text (CroRound      *self,
                            const char    *word,
                            const char    *text,
                            const char    *other,
                            CroListReason *reason)
{
  gsize i = find_question (0, word);
  guint n = (*text != '\0') + (*text != '\0' && *other != '\0');

  if (i == G_N_ELEMENTS (questions) || n < questions[i].n_texts)
    return FALSE;
  *reason = (CroListReason){ questions[i].why, cro_price_list_keep (self->list, text),
                             cro_price_list_keep (self->list, other) };
  return TRUE;
}

char *
cro_round_dup_bytes (const char *escaped)
{
  gsize n = strlen (escaped), strokes = 0;
  g_autofree char *whole = NULL;

  while (strokes < n && escaped[n - 1 - strokes] == '\\')
    strokes++;
  whole = g_strndup (escaped, n - strokes % 2);
  return g_strcompress (whole);
}

char *
cro_round_dup_text (const char *escaped)
{
  g_autofree char *bytes = cro_round_dup_bytes (escaped);

  return g_utf8_make_valid (bytes, -1);
}

/* --- To text ----------------------------------------------------------------------------------------------- */

/* value: NULL where it says nothing. */
static void
add (GString    *to,
     const char *word,
     const char *value)
{
  g_autofree char *escaped = value != NULL ? g_strescape (value, NULL) : NULL;

  if (escaped != NULL)
    g_string_append_printf (to, "%s%s %s", to->len > 0 ? "\t" : "", word, escaped);
}

static char *
dup_number (gint64 number)
{
  return number == CRO_NOT_SET ? g_strdup ("?") : g_strdup_printf ("%" G_GINT64_FORMAT, number);
}

static char *
dup_pack (const CroPack *pack)
{
  return g_strdup_printf ("%" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %s", pack->count, pack->size,
                          cro_unit_get (pack->unit)->code);
}

static char *
dup_value (const CroListRow *list,
           Kind              kind,
           glong             at)
{
  switch (kind)
    {
    case TEXT:
      return g_strdup (G_STRUCT_MEMBER (const char *, list, at));
    case YES:
      return G_STRUCT_MEMBER (gboolean, list, at) ? g_strdup ("yes") : NULL;
    case NUMBER:
      return G_STRUCT_MEMBER (gint64, list, at) != 0 ? dup_number (G_STRUCT_MEMBER (gint64, list, at)) : NULL;
    case PLACE:
      return g_strdup_printf ("%u", G_STRUCT_MEMBER (guint, list, at));
    case UNIT:
      return list->has_per ? g_strdup (cro_unit_get (G_STRUCT_MEMBER (CroUnit, list, at))->code) : NULL;
    case PACK:
      return G_STRUCT_MEMBER (CroPack, list, at).size > 0 ? dup_pack (&G_STRUCT_MEMBER (CroPack, list, at)) : NULL;
    case TAX:
      return g_strdup (taxes[G_STRUCT_MEMBER (CroPriceTax, list, at)]);
    default:
      g_assert_not_reached ();
    }
}

char *
cro_round_list_to_text (const CroListRow *list)
{
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (fields); i++)
    {
      g_autofree char *value = dup_value (list, fields[i].kind, fields[i].at);

      add (text, fields[i].word, value);
    }
  for (guint i = 0; list->reasons != NULL && i < list->reasons->len; i++)
    {
      const CroListReason *reason = &g_array_index (list->reasons, CroListReason, i);

      const char *word = cro_round_why_to_text (reason->why);

      if (word == NULL)
        continue;
      add (text, "asks", word);
      add (text, "text", reason->text);
      add (text, "other", reason->other);
    }
  return g_string_free (text, FALSE);
}

/* --- And back ---------------------------------------------------------------------------------------------- */

/* Somebody may have changed it: what no list could say says nothing. */
static gint64
read_number (const char *value)
{
  gint64 number = g_ascii_strtoll (value, NULL, 10);

  if (strcmp (value, "?") == 0)
    return CRO_NOT_SET;
  return number > -CRO_ENTERED_BELOW && number < CRO_ENTERED_BELOW ? number : 0;
}

static CroUnit
read_unit (const char *value)
{
  CroUnit unit = CRO_UNIT_KG;

  cro_unit_parse (value, strlen (value), &unit);
  return unit;
}

static CroPack
read_pack (const char *value)
{
  g_auto (GStrv) parts = g_strsplit (value, " ", 3);
  CroPack pack = { 0 };

  if (g_strv_length (parts) != 3 || !cro_unit_parse (parts[2], strlen (parts[2]), &pack.unit))
    return pack;
  pack.count = read_number (parts[0]);
  pack.size = read_number (parts[1]);
  return pack.count > 0 && pack.size > 0 ? pack : (CroPack){ 0 };
}

static CroPriceTax
read_tax (const char *value)
{
  for (guint i = 0; i < G_N_ELEMENTS (taxes); i++)
    if (g_strcmp0 (value, taxes[i]) == 0)
      return (CroPriceTax) i;
  return CRO_PRICE_TAX_UNSAID;
}

static const char *
keep (CroRound   *self,
      const char *escaped)
{
  g_autofree char *text = cro_round_dup_text (escaped);

  return cro_price_list_keep (self->list, text);
}

static void
read_field (CroRound   *self,
            CroListRow *list,
            Kind        kind,
            glong       at,
            const char *value)
{
  switch (kind)
    {
    case TEXT:
      G_STRUCT_MEMBER (const char *, list, at) = keep (self, value);
      break;
    case YES:
      G_STRUCT_MEMBER (gboolean, list, at) = TRUE;
      break;
    case NUMBER:
      G_STRUCT_MEMBER (gint64, list, at) = read_number (value);
      break;
    case PLACE:
      G_STRUCT_MEMBER (guint, list, at) = (guint) g_ascii_strtoull (value, NULL, 10);
      break;
    case UNIT:
      G_STRUCT_MEMBER (CroUnit, list, at) = read_unit (value);
      break;
    case PACK:
      G_STRUCT_MEMBER (CroPack, list, at) = read_pack (value);
      break;
    case TAX:
      G_STRUCT_MEMBER (CroPriceTax, list, at) = read_tax (value);
      break;
    default:
      g_assert_not_reached ();
    }
}

static char *
dup_if_is (const char *part,
           const char *word)
{
  gsize n = strlen (word);

  return part != NULL && strncmp (part, word, n) == 0 && part[n] == ' ' ? cro_round_dup_text (part + n + 1)
                                                                        : g_strdup ("");
}

/* What stands behind a question is of it. parts: from that on. */
static void
read_question (CroRound           *self,
               CroListRow         *list,
               const char *const  *parts,
               const char         *word)
{
  g_autofree char *text = dup_if_is (parts[1], "text"), *other = NULL;
  CroListReason reason;

  other = dup_if_is (*text != '\0' ? parts[2] : NULL, "other");
  if (cro_round_reason_from_text (self, word, text, other, &reason))
    cro_list_row_say (self->list, list, reason.why, reason.text, reason.other);
}

CroListRow *
cro_round_list_from_text (CroRound   *self,
                          const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "\t", 0);
  CroListRow *list = g_new0 (CroListRow, 1);

  list->item = list->offer = CRO_NO_SLOT;
  for (guint i = 0; parts[i] != NULL; i++)
    {
      char *value = strchr (parts[i], ' ');
      gsize k = 0;

      if (value == NULL)
        continue;
      *value++ = '\0';
      while (k < G_N_ELEMENTS (fields) && strcmp (parts[i], fields[k].word) != 0)
        k++;
      if (k < G_N_ELEMENTS (fields))
        read_field (self, list, fields[k].kind, fields[k].at, value);
      else if (strcmp (parts[i], "asks") == 0)
        read_question (self, list, (const char *const *) parts + i, value);
    }
  list->has_price = list->has_price && list->price >= 0;
  cro_round_keep_texts (self, list);
  return list;
}
