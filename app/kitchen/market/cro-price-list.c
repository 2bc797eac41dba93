#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-plain-file.h"
#include "cro-price-list-purchase.h"
#include "cro-price-words.h"
#include "cro-word-list.h"

#include <math.h>
#include <string.h>
#include <unistd.h>

const char *const cro_list_state_codes[CRO_N_LIST_STATES] = {
  [CRO_LIST_NEW] = "new",
  [CRO_LIST_CHANGED] = "changed",
  [CRO_LIST_UNCHANGED] = "unchanged",
  [CRO_LIST_UNMATCHED] = "unmatched",
  [CRO_LIST_DOUBTFUL] = "doubtful",
  [CRO_LIST_RETURN] = "return",
  [CRO_LIST_NO_INGREDIENT] = "no-ingredient",
  [CRO_LIST_NOT_TO_BE_HAD] = "not-to-be-had",
};

const char *const cro_list_goods_codes[CRO_N_LIST_GOODS] = {
  [CRO_LIST_GOODS_INGREDIENT] = "ingredient",
  [CRO_LIST_GOODS_DISPOSABLE] = "disposable",
  [CRO_LIST_GOODS_OTHER] = "other",
};

const char *const cro_list_back_codes[CRO_N_LIST_BACK] = {
  [CRO_LIST_BACK_GOODS] = "return",
  [CRO_LIST_BACK_PRICE] = "price",
};

/* --- Words ------------------------------------------------------------------------------------------------ */

/* Words of carriage and deposits: English, French, German, as documents have them. */
static const char *const no_goods_words[] = {
  "deposit", "freight", "carriage", "delivery", "delivery charge", "shipping", "pallet", "returnable crate", "consigne",
  "frais de port", "frais de livraison", "livraison", "transport", "palette", "pfand", "leergut", "fracht", "versand",
  "versandkosten", "lieferkosten", "fuel surcharge",
};

/* Of carriage: what else may stand beside it where it goes back. */
static const char *const carriage_words[] = {
  "freight", "carriage", "delivery", "shipping", "charge", "charges", "cost", "costs", "refund", "refunded", "credit",
  "frais", "de", "port", "livraison", "transport", "remboursement", "fracht", "versand", "versandkosten",
  "lieferkosten", "fuel", "surcharge",
};

/* "Goodwill for late delivery" gives no carriage back. */
static gboolean
is_carriage_back (const char *folded)
{
  static const char *const deposits[] = { "deposit", "pallet", "returnable crate", "consigne", "palette", "pfand",
                                          "leergut" };
  g_auto (GStrv) words = g_strsplit_set (folded, " ,.;:()-/", 0);

  for (gsize i = 0; i < G_N_ELEMENTS (deposits); i++)
    if (cro_list_find_words (folded, deposits[i]) != NULL)
      return TRUE;
  for (guint i = 0; words[i] != NULL; i++)
    {
      gboolean is_known = strpbrk (words[i], "0123456789") != NULL || *words[i] == '\0';

      for (gsize k = 0; !is_known && k < G_N_ELEMENTS (carriage_words); k++)
        is_known = strcmp (words[i], carriage_words[k]) == 0;
      if (!is_known)
        return FALSE;
    }
  return TRUE;
}

gboolean
cro_list_is_no_goods (const char *name,
                      gboolean    is_return)
{
  g_autofree char *folded = name != NULL ? cro_fold (name) : NULL;

  if (folded != NULL && is_return && !is_carriage_back (folded))
    return FALSE;
  for (gsize i = 0; folded != NULL && i < G_N_ELEMENTS (no_goods_words); i++)
    if (cro_list_find_words (folded, no_goods_words[i]) != NULL)
      return TRUE;
  return FALSE;
}

/* --- Currencies ---------------------------------------------------------------------------------------------- */

/* The currency that the book has a rate of and whose sign it is, where several share that; NULL: none, or two. */
static const char *
only_of_book (CroModel   *model,
              const char *sign)
{
  const char *only = NULL;
  GHashTableIter iter;
  gpointer code;

  g_hash_table_iter_init (&iter, model->rates);
  while (g_hash_table_iter_next (&iter, &code, NULL))
    {
      gboolean is_it = FALSE;

      if (cro_currency_scan (sign, code, &is_it) == 0 || !is_it)
        continue;
      if (only != NULL)
        return NULL;
      only = code;
    }
  return only;
}

const char *
cro_price_list_currency (CroPriceList      *self,
                         const CroListBook *of,
                         const char        *text)
{
  char code[4];

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gboolean is_own = FALSE;
      gsize length = g_ascii_isdigit (*at) ? 0 : cro_currency_scan (at, of->currency, &is_own);
      const char *word = NULL;
      g_autofree char *sign = NULL;

      if (length == 0 && (at == text || !g_unichar_isalpha (g_utf8_get_char (g_utf8_prev_char (at))))
          && cro_currency_scan_word (at, of->currency, &is_own) > 0)
        word = cro_currency_sign_of_word (at);
      if (length == 0 && word == NULL)
        continue;
      sign = word != NULL ? g_strdup (word) : g_strndup (at, length);
      if (is_own)
        return of->currency;
      if (cro_currency_of_text (sign, code) || cro_currency_of_sign (sign, code))
        return cro_price_list_keep (self, code);
      if (only_of_book (of->model, sign) != NULL)
        return cro_price_list_keep (self, only_of_book (of->model, sign));
      return of->currency != NULL ? cro_price_list_keep (self, sign) : NULL;
    }
  return NULL;
}

/* --- Rows -------------------------------------------------------------------------------------------------- */

const char *
cro_price_list_keep (CroPriceList *self,
                     const char   *text)
{
  return text != NULL && *text != '\0' ? g_string_chunk_insert_const (self->texts, text) : NULL;
}

gboolean
cro_list_why_is_said (CroListWhy why)
{
  return why == CRO_LIST_SAID_CHANGE || why == CRO_LIST_SAID_DAY || why == CRO_LIST_SAID_TAX;
}

CroListRow *
cro_list_row_dup (const CroListRow *row)
{
  CroListRow *copy = g_memdup2 (row, sizeof *row);

  if (copy->reasons != NULL)
    copy->reasons = g_array_copy (copy->reasons);
  return copy;
}

void
cro_list_row_free (CroListRow *row)
{
  g_clear_pointer (&row->reasons, g_array_unref);
  g_free (row);
}

static gboolean
has_reason (const CroListRow *row,
            CroListWhy        why)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    if (g_array_index (row->reasons, CroListReason, i).why == why)
      return TRUE;
  return FALSE;
}

gboolean
cro_list_row_is_twice (const CroListRow *row)
{
  return has_reason (row, CRO_LIST_TWICE);
}

const char *
cro_list_row_gives_way_to (const CroListRow *row)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    if (g_array_index (row->reasons, CroListReason, i).why == CRO_LIST_GIVES_WAY)
      return g_array_index (row->reasons, CroListReason, i).text;
  return NULL;
}

gboolean
cro_list_row_is_talk (const CroPriceList *self,
                      const CroListRow   *row)
{
  return self->source == CRO_LIST_MESSAGE && row->item == CRO_NO_SLOT && !row->is_none && !row->is_same
         && row->change_pct == 0
         && has_reason (row, CRO_LIST_NO_PRICE) && !has_reason (row, CRO_LIST_LIKE);
}

gboolean
cro_list_row_waits (const CroListRow *row)
{
  return !row->is_in_book
         && (row->state == CRO_LIST_DOUBTFUL || row->state == CRO_LIST_UNMATCHED
             || ((row->is_return || row->is_no_ingredient) && !row->is_booked));
}

void
cro_price_list_count_waiting (CroPriceList *self)
{
  self->n_waiting = 0;
  for (guint i = 0; i < self->rows->len; i++)
    self->n_waiting += cro_list_row_waits (&g_array_index (self->rows, CroListRow, i));
}

/* --- Billed against quoted ------------------------------------------------------------------------------- */

/* The price that the book has on the day of delivery is what was asked for; net, as an invoice is. Of
 * another pack than the price is for there is nothing to be said, and so of a line that waits. */
static void
reclaim_row (CroPriceList *self,
             CroListRow   *row)
{
  int digits = cro_currency_digits (self->currency);
  gint64 quoted;

  row->reclaim = CRO_NOT_SET;
  if (row->is_return || !row->is_booked || row->quoted == CRO_NOT_SET || has_reason (row, CRO_LIST_CURRENCY)
      || row->look.kind == CRO_LOOK_PACK
      || !cro_decimal_multiply (row->quoted, row->amount, &quoted))
    return;
  quoted = cro_money_round (cro_decimal_to_double (row->net_value - quoted), digits);
  row->reclaim = quoted;
  if (self->reclaim == CRO_NOT_SET)
    self->reclaim = 0;
  self->reclaim += MAX (quoted, 0);
}

void
cro_price_list_compare (CroPriceList *self)
{
  self->reclaim = CRO_NOT_SET;
  for (guint i = 0; self->source == CRO_LIST_INVOICE && i < self->rows->len; i++)
    reclaim_row (self, &g_array_index (self->rows, CroListRow, i));
}

gboolean
cro_list_why_is_of_all (CroListWhy why)
{
  return why == CRO_LIST_OTHER_TYPE || why == CRO_LIST_OTHER_SELLER || why == CRO_LIST_OTHER_NUMBER;
}

gboolean
cro_list_why_can_be_right (CroListWhy why)
{
  return why == CRO_LIST_LOOK || why == CRO_LIST_LAST_MOVED || why == CRO_LIST_CODE_LIKE || why == CRO_LIST_TWICE
         || why == CRO_LIST_WHICH_PRICE || why == CRO_LIST_WHICH_SIZE || why == CRO_LIST_SAID_OPEN
         || cro_list_why_is_said (why) || why == CRO_LIST_BESIDE || why == CRO_LIST_HIDDEN
         || why == CRO_LIST_OTHER_NAME || why == CRO_LIST_NOT_RECOMPUTED || why == CRO_LIST_GOODS_OR_PRICE
         || why == CRO_LIST_MORE_BACK || cro_list_why_is_of_all (why);
}

/* --- Whose it is ----------------------------------------------------------------------------------------- */

gboolean
cro_price_list_is_other_seller (const CroPriceList *self)
{
  g_autofree char *seller = cro_fold (self->seller != NULL ? self->seller : "");
  g_autofree char *supplier = cro_fold (self->supplier_name != NULL ? self->supplier_name : "");

  return *seller != '\0' && strstr (seller, supplier) == NULL && strstr (supplier, seller) == NULL;
}

/* The supplier of the book, other than one, with whose name a text begins, an "Ltd" or a day behind it or not. */
static guint32
find_named (CroModel   *model,
            const char *text,
            guint32     except)
{
  g_autofree char *seller = cro_fold (text != NULL ? text : "");
  guint32 found = CRO_NO_SLOT;
  gsize longest = 0;

  for (guint32 i = 0; i < model->suppliers->len; i++)
    {
      const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, i);
      g_autofree char *name = cro_fold (supplier->name);
      gsize n = strlen (name);

      if (supplier->is_dead || i == except || n <= longest || !g_str_has_prefix (seller, name)
          || g_unichar_isalnum (g_utf8_get_char (seller + n)))
        continue;
      found = i;
      longest = n;
    }
  return found;
}

/* What stands before the name of whose prices they are. */
static const char before_seller[] = "from|de|supplier|fournisseur|vendor|seller|vendeur|prices from|price list from|"
                                    "prices of|price list of|supplied by|price list|prices|tarif de|tarif|tarifs de|"
                                    "tarifs|prix de|prix|liste de prix de|liste de prix";

/* Behind a name what makes it one of talk: "Mill Lane is shut". */
static const char talk_words[] = "is|are|was|were|will|has|have|had|sends|send|says|said|closed|closes|shut|opens|open|"
                                 "delivers|called|calls|also|too|and|est|sont|sera|a|ferme|ouvre|livre|envoie|dit|et|"
                                 "aussi";

static gboolean
is_talk (CroModel   *model,
         guint32     supplier,
         const char *text)
{
  g_autofree char *name = cro_fold (g_array_index (model->suppliers, CroSupplier, supplier).name);
  g_autofree char *folded = cro_fold (text);
  const char *rest = folded + strlen (name);

  return cro_word_list_scan (rest + strspn (rest, " "), talk_words) > 0;
}

void
cro_price_list_take_seller (CroPriceList *self,
                            CroModel     *model,
                            const char   *note)
{
  gsize n = cro_word_list_scan (note, before_seller);
  g_autofree char *folded = cro_fold (note), *own = cro_fold (self->supplier_name);
  guint32 found;

  n += n > 0 ? strspn (note + n, " :-") : 0;
  found = self->seller == NULL && strstr (folded, own) == NULL ? find_named (model, note + n, self->supplier)
                                                              : CRO_NO_SLOT;
  if (found == CRO_NO_SLOT || is_talk (model, found, note + n))
    return;
  self->seller_slot = found;
  self->seller = cro_price_list_keep (self, g_array_index (model->suppliers, CroSupplier, found).name);
}

static gboolean
is_held (const CroListRow *row)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    if (cro_list_why_is_of_all (g_array_index (row->reasons, CroListReason, i).why))
      return TRUE;
  return FALSE;
}

/* What is asked of the whole document, as the same number, booked for another supplier: nothing of it is taken before
 * somebody looked. */
static void
doubt_all (CroPriceList *self,
           CroListWhy    why,
           const char   *text,
           const char   *other)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroListRow *row = &g_array_index (self->rows, CroListRow, i);

      if (is_held (row))
        cro_list_row_say (self, row, why, text, other);
      else if (!row->is_in_book && (row->is_posted || row->is_booked))
        {
          cro_list_row_say (self, row, why, text, other);
          row->is_held = row->is_posted;
          row->is_posted = row->is_booked = FALSE;
          if (!row->is_return && !row->is_no_ingredient)
            row->state = CRO_LIST_DOUBTFUL;
        }
    }
  cro_price_list_count_waiting (self);
}

/* Of one that is not booked under its own number. */
static gboolean
look_at_number (CroPriceList  *self,
                CroBook       *book,
                GError       **error)
{
  if (!cro_list_purchases_look (self, book, error))
    return FALSE;
  if (self->booked_as != NULL && !self->is_booked_before)
    doubt_all (self, CRO_LIST_OTHER_NUMBER, self->document, self->booked_as);
  /* A corrected or a prepayment invoice has goods that another document has as well. */
  if (!self->is_credit && self->type != NULL && strcmp (self->type, "380") != 0)
    doubt_all (self, CRO_LIST_OTHER_TYPE, self->type, NULL);
  return TRUE;
}

static gboolean
look_at_seller (CroPriceList  *self,
                CroBook       *book,
                GError       **error)
{
  guint32 other = CRO_NO_SLOT;

  if (!cro_price_list_is_other_seller (self))
    return TRUE;
  self->seller_slot = find_named (cro_book_get_model (book), self->seller, self->supplier);
  if (self->document == NULL)
    return TRUE;
  if (!cro_list_purchases_find (self, book, &other, error))
    return FALSE;
  if (other != CRO_NO_SLOT)
    doubt_all (self, CRO_LIST_OTHER_SELLER, self->document,
               g_array_index (cro_book_get_model (book)->suppliers, CroSupplier, other).name);
  return TRUE;
}

/* "Supplier: Mill Lane", in one cell or two, or a supplier of the book alone, above the headings of a table. */
static void
read_seller_of_table (CroPriceList *self,
                      CroModel     *model)
{
  const CroBrought *brought = self->columns;

  for (guint i = 0; brought != NULL && (int) i < brought->headings; i++)
    {
      g_autofree char *text = g_strjoin (" ", cro_brought_get (brought, i, 0)->text,
                                         cro_brought_get (brought, i, 1)->text, NULL);

      cro_price_list_take_seller (self, model, text);
    }
}

/* --- Files ----------------------------------------------------------------------------------------------------- */

typedef enum
{
  OF_TEXT,
  OF_INVOICE,
  OF_WORKBOOK,  /* a package: no message */
} Kind;

static Kind
kind_of (const char *path)
{
  char head[1024];
  int file = cro_plain_file_open (path, NULL);
  gssize n = file >= 0 ? read (file, head, sizeof head) : 0;

  if (file >= 0)
    close (file);
  if (n > 0 && cro_invoice_begins (head, (gsize) n))
    return OF_INVOICE;
  return n > 4 && memcmp (head, "PK\3\4", 4) == 0 ? OF_WORKBOOK : OF_TEXT;
}

static gboolean
take_invoice (CroPriceList  *self,
              const char    *path,
              CroListBook   *of,
              GError       **error)
{
  g_autoptr (CroInvoice) invoice = cro_invoice_read (path, &self->syntax, error);

  self->source = CRO_LIST_INVOICE;
  if (invoice == NULL || !cro_list_purchases_recall (of, error))
    return FALSE;
  cro_price_list_take_invoice (self, invoice, of);
  return TRUE;
}

/* What is no table is a message, if it is text at all. A table whose headings are not understood is none. */
static gboolean
take_file (CroPriceList  *self,
           const char    *path,
           CroListBook   *of,
           GError       **error)
{
  Kind kind = kind_of (path);

  if (kind == OF_INVOICE)
    return take_invoice (self, path, of, error);
  if (cro_price_list_take_table (self, path, of, error))
    return TRUE;
  if (self->columns == NULL)
    return FALSE;
  if (kind == OF_WORKBOOK || cro_price_list_is_table (self->columns))
    {
      self->source = CRO_LIST_TABLE;
      self->is_unsure = TRUE;
      return TRUE;
    }
  return cro_price_list_take_message (self, path, of, error);
}

/* The text of what is no invoice: its first line. */
static char *
dup_first_line (const char *path)
{
  char head[256];
  int file = cro_plain_file_open (path, NULL);
  gssize n = file >= 0 ? read (file, head, sizeof head - 1) : 0;

  if (file >= 0)
    close (file);
  head[MAX (n, 0)] = '\0';
  head[strcspn (head, "\r\n")] = '\0';
  return g_utf8_make_valid (head, -1);
}

guint32
cro_price_list_find_seller (CroModel   *model,
                            const char *path)
{
  g_autoptr (CroInvoice) invoice = kind_of (path) == OF_INVOICE ? cro_invoice_read (path, NULL, NULL) : NULL;
  g_autofree char *first = invoice == NULL ? dup_first_line (path) : NULL;

  return find_named (model, invoice != NULL ? invoice->seller : first, CRO_NO_SLOT);
}

guint32
cro_price_list_find_seller_of_text (CroModel   *model,
                                    const char *text)
{
  g_autofree char *path = NULL;
  int file = g_file_open_tmp ("croustade-XXXXXX.txt", &path, NULL);
  guint32 found = CRO_NO_SLOT;

  if (file < 0)
    return CRO_NO_SLOT;
  close (file);
  if (g_file_set_contents (path, text, -1, NULL))
    found = cro_price_list_find_seller (model, path);
  unlink (path);
  return found;
}

static guint32
find_supplier (CroModel   *model,
               const char *name)
{
  for (guint32 i = 0; i < model->suppliers->len; i++)
    if (!g_array_index (model->suppliers, CroSupplier, i).is_dead
        && strcmp (g_array_index (model->suppliers, CroSupplier, i).name, name) == 0)
      return i;
  return CRO_NO_SLOT;
}

gboolean
cro_price_list_begin (CroBook       *book,
                      const char    *supplier,
                      CroDate        from,
                      CroPriceList **list,
                      CroListBook   *of,
                      GError       **error)
{
  CroPriceList *self = g_new0 (CroPriceList, 1);

  *list = self;
  self->texts = g_string_chunk_new (16 * 1024);
  self->rows = g_array_new (FALSE, FALSE, sizeof (CroListRow));
  self->from = self->delivered = from;
  self->dated = CRO_NO_DAY;
  self->seller_slot = CRO_NO_SLOT;
  self->reclaim = CRO_NOT_SET;
  self->supplier_name = cro_price_list_keep (self, supplier);
  self->supplier = find_supplier (cro_book_get_model (book), supplier);
  return cro_list_book_init (of, book, self->supplier, error);
}

static gboolean
read_once (const char    *path,
           CroBook       *book,
           const char    *supplier,
           CroDate        from,
           const CroListReading *reading,
           CroPriceList **list,
           GError       **error)
{
  CroPriceList *self;
  CroListBook of;
  gboolean is_read;

  if (!cro_price_list_begin (book, supplier, from, list, &of, error))
    return FALSE;
  self = *list;
  self->is_seller_right = reading != NULL && reading->is_seller_right;
  of.reading = reading;
  is_read = take_file (self, path, &of, error);
  if (is_read && reading != NULL)
    cro_price_list_take_answers (self, reading);
  is_read = is_read && cro_price_list_match (self, &of, error);
  cro_list_book_clear (&of);
  if (!is_read)
    return FALSE;
  if (self->source == CRO_LIST_INVOICE && !(look_at_seller (self, book, error) && look_at_number (self, book, error)))
    return FALSE;
  cro_price_list_compare (self);
  if (self->source == CRO_LIST_TABLE)
    read_seller_of_table (self, cro_book_get_model (book));
  return TRUE;
}

/* A document of which the book has other amounts may have been booked with its charges in them. */
gboolean
cro_price_list_read (const char    *path,
                     CroBook       *book,
                     const char    *supplier,
                     CroDate        from,
                     const CroListReading *reading,
                     CroPriceList **list,
                     GError       **error)
{
  CroListReading other = reading != NULL ? *reading : (CroListReading){ 0 };

  if (!read_once (path, book, supplier, from, reading, list, error))
    return FALSE;
  for (other.whole = CRO_WHOLE_SPREAD; (*list)->is_booked_otherwise && cro_price_list_asks_whole (*list)
                                       && other.whole <= CRO_WHOLE_BOOKED; other.whole++)
    {
      CroPriceList *again = NULL;
      gboolean done = read_once (path, book, supplier, from, &other, &again, error);

      if (done && again->whole == other.whole && again->no_spread == CRO_SPREAD_DONE && !again->is_booked_otherwise)
        {
          cro_price_list_free (*list);
          *list = again;
          return TRUE;
        }
      cro_price_list_free (again);
      if (!done)
        return FALSE;
    }
  return TRUE;
}

void
cro_price_list_free (CroPriceList *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    g_clear_pointer (&g_array_index (self->rows, CroListRow, i).reasons, g_array_unref);
  g_array_unref (self->rows);
  g_clear_pointer (&self->read, g_ptr_array_unref);
  g_clear_pointer (&self->columns, cro_brought_free);
  g_strfreev (self->sheets);
  g_string_chunk_free (self->texts);
  g_free (self);
}
