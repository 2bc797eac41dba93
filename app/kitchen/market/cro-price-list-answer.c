/* What somebody says of lines before they are matched: whose they are, what they are, how much they are for. */
#include "cro-price-list-private.h"

#include "cro-pack.h"
#include "cro-words.h"

#include <string.h>

gboolean
cro_list_row_is_called (const CroListRow *row,
                        const char       *line)
{
  g_autofree char *number = g_strdup_printf ("%u", row->number);

  return row->share_of == 0 && (strcmp (number, line) == 0 || g_strcmp0 (row->code, line) == 0);
}

gboolean
cro_list_row_asks_pack (const CroPriceList *self,
                        const CroListRow   *row)
{
  /* A part of the price is money, whatever a box holds. */
  if (self->source != CRO_LIST_INVOICE || row->is_pack_said || row->is_right || row->is_in_book
      || row->back == CRO_LIST_BACK_PRICE)
    return FALSE;
  return row->counted.size == 0
         && (row->look.kind == CRO_LOOK_PACK || (row->item != CRO_NO_SLOT && row->pack.size == 0));
}

static gboolean
is_asked (const CroListRow *row,
          CroListWhy        why)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    if (g_array_index (row->reasons, CroListReason, i).why == why)
      return !(row->is_right && cro_list_why_can_be_right (why));
  return FALSE;
}

gboolean
cro_list_row_asks_tax (const CroListRow *row)
{
  return (is_asked (row, CRO_LIST_LOOK) && row->look.kind == CRO_LOOK_TAX)
         || (is_asked (row, CRO_LIST_WHICH_PRICE) && cro_list_is_net (row->priced_as));
}

gboolean
cro_list_row_asks_word (const CroListRow *row)
{
  return is_asked (row, CRO_LIST_WHICH_SIZE)
         || (is_asked (row, CRO_LIST_WHICH_PRICE) && !cro_list_is_net (row->priced_as));
}

gboolean
cro_list_row_asks_back (const CroListRow *row)
{
  return is_asked (row, CRO_LIST_GOODS_OR_PRICE);
}

gboolean
cro_list_row_asks_currency (const CroListRow *row)
{
  return is_asked (row, CRO_LIST_CURRENCY);
}

gboolean
cro_list_row_takes_yes (const CroPriceList *self,
                        const CroListRow   *row)
{
  return cro_list_row_can_accept (row) && !cro_list_row_asks_pack (self, row) && !cro_list_row_asks_tax (row)
         && !cro_list_row_asks_word (row) && !cro_list_row_asks_back (row);
}

gboolean
cro_list_pack_from_text (const char *text,
                         CroPack    *pack)
{
  g_autofree char *tidy = g_strstrip (g_strdup (text));
  gunichar last = *tidy != '\0' ? g_utf8_get_char (g_utf8_prev_char (tidy + strlen (tidy))) : 0;

  /* A number alone is no pack: of kilograms, or of boxes? */
  return g_unichar_isalpha (last) && cro_pack_from_text (tidy, CRO_UNIT_KG, cro_words_entry (), pack);
}

static gboolean
is_of_pack (const CroListRow *row,
            CroListWhy        why)
{
  return why == CRO_LIST_UNIT_UNKNOWN || why == CRO_LIST_NO_PACK;
}

static gboolean
say_holds (CroListRow *row,
           const char *text)
{
  CroPack pack;

  if (row->is_whole || row->is_no_ingredient || row->counted.size > 0 || !cro_list_pack_from_text (text, &pack))
    return FALSE;
  row->pack = pack;
  row->is_pack_said = TRUE;
  cro_list_row_unsay (row, is_of_pack);
  return TRUE;
}

static CroListBack
back_of (const char *what)
{
  for (guint i = CRO_LIST_BACK_GOODS; i < CRO_N_LIST_BACK; i++)
    if (g_ascii_strcasecmp (what, cro_list_back_codes[i]) == 0)
      return (CroListBack) i;
  return CRO_LIST_BACK_UNSAID;
}

/* Goods may go back though the document does not say so; the price of what it asks for is none that it gives back, and
 * what is no ingredient has none in the book that would stay. */
static gboolean
say_back (CroPriceList *self,
          CroListRow   *row,
          CroListBack   back)
{
  if (self->source != CRO_LIST_INVOICE || row->is_whole || (back == CRO_LIST_BACK_PRICE && row->is_no_ingredient))
    return FALSE;
  if (back == CRO_LIST_BACK_GOODS)
    cro_list_row_turn (row, TRUE);
  cro_list_row_give_back (row, back);
  return row->back == back;
}

static gboolean
say_what (CroPriceList *self,
          CroListRow   *row,
          const char   *what)
{
  gboolean is_invoice = self->source == CRO_LIST_INVOICE;

  for (guint goods = CRO_LIST_GOODS_DISPOSABLE; goods < CRO_N_LIST_GOODS; goods++)
    if (g_ascii_strcasecmp (what, cro_list_goods_codes[goods]) == 0)
      {
        if (!is_invoice || row->back == CRO_LIST_BACK_PRICE)
          return FALSE;
        cro_list_row_say_goods (self, row, (CroListGoods) goods);
        return TRUE;
      }
  if (row->is_whole)
    return FALSE;
  if (row->is_no_ingredient)
    cro_list_row_say_goods (self, row, CRO_LIST_GOODS_INGREDIENT);
  row->name = cro_price_list_keep (self, what);
  row->is_named = TRUE;
  return row->name != NULL;
}

/* What an answer says of a line: one of each may be said. */
typedef enum
{
  SAYS_WHAT,
  SAYS_BACK,
  SAYS_PACK,
  N_SAYS,
} Says;

static Says
says_of (const char *answer)
{
  const char *what = strchr (answer, '=');

  return what != NULL && back_of (what + 1) != CRO_LIST_BACK_UNSAID ? SAYS_BACK : SAYS_WHAT;
}

static gboolean
say (CroPriceList *self,
     CroListRow   *row,
     Says          says,
     const char   *what)
{
  return says == SAYS_PACK   ? say_holds (row, what)
         : says == SAYS_BACK ? say_back (self, row, back_of (what))
                             : say_what (self, row, what);
}

/* said: what was said so far, by the index of its line + 1; borrowed. */
static CroListAnswer
take_answer (CroPriceList *self,
             const char   *answer,
             Says          says,
             GHashTable   *said)
{
  const gboolean is_pack = says == SAYS_PACK;
  const char *what = strchr (answer, '=');
  g_autofree char *line = what != NULL ? g_strndup (answer, (gsize) (what - answer)) : NULL;
  CroListAnswer why = line != NULL ? CRO_ANSWER_OF_NO_LINE : CRO_ANSWER_UNFIT;
  gboolean is_measured = FALSE;
  CroPack ignored;

  for (guint i = 0; line != NULL && i < self->rows->len; i++)
    {
      CroListRow *row = &g_array_index (self->rows, CroListRow, i);
      const char *before = g_hash_table_lookup (said, GUINT_TO_POINTER (i + 1));

      if (!cro_list_row_is_called (row, line))
        continue;
      is_measured |= is_pack && row->counted.size > 0;
      if (before != NULL && strcmp (before, what + 1) != 0)
        return CRO_ANSWER_CONTRADICTS;
      if (before == NULL && say (self, row, says, what + 1))
        g_hash_table_insert (said, GUINT_TO_POINTER (i + 1), (gpointer) (what + 1));
      if (why != CRO_ANSWER_FITS)
        why = g_hash_table_contains (said, GUINT_TO_POINTER (i + 1)) ? CRO_ANSWER_FITS : CRO_ANSWER_UNFIT;
    }
  if (what != NULL && what[1] == '\0')
    return CRO_ANSWER_NOTHING;
  if (why == CRO_ANSWER_UNFIT && is_measured)
    return CRO_ANSWER_MEASURED;
  if (why == CRO_ANSWER_UNFIT && is_pack && what != NULL && !cro_list_pack_from_text (what + 1, &ignored))
    return CRO_ANSWER_NO_PACK;
  return why;
}

void
cro_price_list_take_answers (CroPriceList         *self,
                             const CroListReading *reading)
{
  const char *const *all[] = { reading->is, reading->holds };

  for (guint kind = 0; kind < G_N_ELEMENTS (all); kind++)
    {
      g_autoptr (GHashTable) what = g_hash_table_new (NULL, NULL), back = g_hash_table_new (NULL, NULL);
      GHashTable *said[N_SAYS] = { [SAYS_WHAT] = what, [SAYS_BACK] = back, [SAYS_PACK] = what };

      for (guint i = 0; all[kind] != NULL && all[kind][i] != NULL && self->no_answer == NULL
                        && (reading->go_on == NULL || reading->go_on (reading->user_data, 0)); i++)
        {
          Says says = kind == 1 ? SAYS_PACK : says_of (all[kind][i]);

          self->no_answer_why = take_answer (self, all[kind][i], says, said[says]);
          if (self->no_answer_why != CRO_ANSWER_FITS)
            self->no_answer = g_string_chunk_insert_const (self->texts, all[kind][i]);
        }
    }
}
