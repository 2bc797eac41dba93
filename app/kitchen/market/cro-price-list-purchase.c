#include "cro-price-list-purchase.h"

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-history.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-row-date.h"

#include <math.h>
#include <string.h>

enum { FOOD, DISPOSABLE, OTHER };

gboolean
cro_list_is_foreign (const CroPriceList *self,
                     CroModel           *model)
{
  return self->currency != NULL && model->currency != NULL && !g_str_equal (self->currency, model->currency);
}

/* At the rate of the day of delivery, which is that of the purchase. */
static gboolean
in_book_currency (const CroPriceList *list,
                  CroModel           *model,
                  const CroListRow   *row,
                  gint64             *net_value)
{
  int digits = cro_currency_digits (model->currency);

  if (list->is_cut && row->in_book_currency != CRO_NOT_SET)
    {
      *net_value = row->in_book_currency;
      return TRUE;
    }
  if (!cro_list_is_foreign (list, model))
    return TRUE;
  if (isnan (list->rate))
    return FALSE;
  return cro_decimal_from_double ((double) cro_money_round (cro_decimal_to_double (*net_value) * list->rate, digits)
                                  / pow (10, digits), net_value);
}

gboolean
cro_list_purchase_of (const CroPriceList *list,
                      CroModel           *model,
                      const CroListRow   *row,
                      CroListPurchase    *purchase)
{
  *purchase = (CroListPurchase){ .item = row->item, .kind = OTHER, .net_value = cro_list_row_value (row) };
  if (row->goods == CRO_LIST_GOODS_DISPOSABLE)
    purchase->kind = DISPOSABLE;
  purchase->is_goods = row->item != CRO_NO_SLOT || row->made != 0;
  if (purchase->is_goods)
    {
      const CroPack *one = row->counted.size > 0 ? &row->counted : &row->pack;

      purchase->kind = row->item != CRO_NO_SLOT && cro_model_item (model, row->item)->is_disposable ? DISPOSABLE : FOOD;
      purchase->unit = one->unit;
      if (row->back == CRO_LIST_BACK_PRICE)
        purchase->unit = cro_price_list_unit_of_quotes (model, row->item);
      else if (!cro_decimal_multiply (one->count, one->size, &purchase->amount)
               || !cro_decimal_multiply (purchase->amount, row->amount, &purchase->amount)
               || !cro_decimal_may_be_entered (purchase->amount))
        return FALSE;
    }
  return in_book_currency (list, model, row, &purchase->net_value)
         && cro_decimal_may_be_entered (purchase->net_value);
}

gboolean
cro_list_was_counted (const CroListMatching  *self,
                      guint32                 item,
                      const CroPack          *piece,
                      CroDate                 until,
                      gboolean               *was_counted,
                      GError                **error)
{
  static const char *const columns[] = { "supplier", "date", "amount_micro", "unit", "document", NULL };
  CroModel *model = self->model;
  gint64 supplier = g_array_index (model->suppliers, CroSupplier, self->of->supplier).id;
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (self->of->book), "purchase", "ingredient",
                                                cro_model_item (model, item)->id, columns, error);
  GError *failed = NULL;

  *was_counted = FALSE;
  while (rows != NULL && cro_rows_next (rows, &failed))
    *was_counted |= !cro_rows_is_null (rows, 0) && cro_rows_get_int (rows, 0) == supplier
                    && cro_row_date (rows, 1) <= until && !cro_rows_is_null (rows, 2) && !cro_rows_is_null (rows, 4)
                    && strcmp (cro_rows_get_text (rows, 3), cro_unit_get (piece->unit)->code) == 0
                    && cro_rows_get_int (rows, 2) % piece->size == 0;
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* The day of delivery of a document that an act booked for an ingredient; CRO_NO_DAY: it booked none. */
static gboolean
read_delivery (const CroListMatching  *self,
               guint32                 item,
               gint64                  act,
               gboolean               *was_billed,
               CroDate                *day,
               GError                **error)
{
  static const char *const columns[] = { "ingredient", "date", NULL };
  CroStore *store = cro_book_get_store (self->of->book);
  g_autoptr (GPtrArray) changes = cro_store_list_changes_of_act (store, act, error);

  *was_billed = FALSE;
  *day = CRO_NO_DAY;
  for (guint i = 0; changes != NULL && !*was_billed && i < changes->len; i++)
    {
      const CroChange *change = changes->pdata[i];
      g_autoptr (CroRows) rows = NULL;

      if (strcmp (change->table, "purchase") != 0)
        continue;
      rows = cro_store_read_one (store, "purchase", change->row, columns, error);
      if (rows == NULL)
        return FALSE;
      *was_billed = cro_rows_next (rows, NULL) && !cro_rows_is_null (rows, 0)
                    && cro_slots_get (&self->model->item_slots, cro_rows_get_int (rows, 0)) == item;
      if (*was_billed)
        *day = cro_row_date (rows, 1);
    }
  return changes != NULL;
}

gboolean
cro_list_was_billed (const CroListMatching  *self,
                     guint32                 item,
                     gint64                  price,
                     gboolean               *was_billed,
                     CroDate                *delivered,
                     CroDate                *before,
                     GError                **error)
{
  g_autoptr (GPtrArray) changes = cro_store_list_changes_of_row (cro_book_get_store (self->of->book), "price", price,
                                                                 error);
  gboolean was;
  CroDate day;

  *was_billed = FALSE;
  if (delivered != NULL)
    *delivered = *before = CRO_NO_DAY;
  /* Newest first; one without any came with a whole book. */
  for (guint i = 0; changes != NULL && i < changes->len && (i == 0 || before != NULL); i++)
    {
      if (!read_delivery (self, item, ((const CroChange *) changes->pdata[i])->act, &was, &day, error))
        return FALSE;
      *was_billed |= i == 0 && was;
      if (i == 0 && delivered != NULL)
        *delivered = day;
      else if (i > 0 && day != CRO_NO_DAY && (*before == CRO_NO_DAY || day > *before))
        *before = day;
    }
  return changes != NULL;
}

/* --- Documents that were booked ----------------------------------------------------------------------- */

typedef struct
{
  gint64   id;
  guint32  item;
  gint64   amount;
  gint64   net_value;
  gboolean is_met;     /* by a line of the document */
  const char *category; /* of what is no ingredient; NULL */
  gboolean is_disposable;
} Booked;

char *
cro_list_dup_number_key (const char *number)
{
  g_autofree char *whole = g_utf8_normalize (number, -1, G_NORMALIZE_NFKC);
  g_autofree char *folded = g_utf8_casefold (whole != NULL ? whole : number, -1);
  GString *key = g_string_new (NULL);

  for (const char *at = folded; *at != '\0'; at = g_utf8_next_char (at))
    if (g_unichar_isgraph (g_utf8_get_char (at)) && !g_unichar_iszerowidth (g_utf8_get_char (at)))
      g_string_append_unichar (key, g_utf8_get_char (at));
  return g_string_free (key, FALSE);
}

/* One without a number is known again by its day. */
static gboolean
is_of_document (CroPriceList *list,
                const char   *key,
                CroRows      *rows)
{
  const char *number = cro_rows_get_text (rows, 0);
  g_autofree char *other = NULL;

  if (number == NULL || list->document == NULL)
    return number == NULL && list->document == NULL && cro_row_date (rows, 4) == list->delivered
           && cro_row_date (rows, 5) == list->dated;
  if (strcmp (number, list->document) == 0)
    return TRUE;
  other = cro_list_dup_number_key (number);
  if (strcmp (other, key) == 0)
    list->booked_as = cro_price_list_keep (list, number);
  return FALSE;
}

/* What the book has of the document. */
static GArray *
read_booked (CroPriceList  *list,
             CroBook       *book,
             GError       **error)
{
  static const char *const columns[] = { "document", "ingredient", "amount_micro", "net_value_micro", "date",
                                         "document_date", "id", "category", "kind", NULL };
  CroModel *model = cro_book_get_model (book);
  gint64 id = g_array_index (model->suppliers, CroSupplier, list->supplier).id;
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "purchase", "supplier", id, columns, error);
  g_autoptr (GArray) booked = g_array_new (FALSE, FALSE, sizeof (Booked));
  g_autofree char *key = list->document != NULL ? cro_list_dup_number_key (list->document) : NULL;
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    if (is_of_document (list, key, rows))
      {
        Booked one = { cro_rows_get_int (rows, 6), CRO_NO_SLOT, cro_rows_get_int (rows, 2), cro_rows_get_int (rows, 3),
                       FALSE, cro_price_list_keep (list, cro_rows_get_text (rows, 7)),
                       strcmp (cro_rows_get_text (rows, 8), cro_purchase_kind_codes[DISPOSABLE]) == 0 };

        if (!cro_rows_is_null (rows, 1))
          one.item = cro_slots_get (&model->item_slots, cro_rows_get_int (rows, 1));
        g_array_append_val (booked, one);
      }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL ? g_steal_pointer (&booked) : NULL;
}

/* How a line may have been booked: as it stands; by its ingredient and its money, of whatever amount, as that hangs on
 * answers that another reading has; one that names nothing as what somebody said that it is; one that names an
 * ingredient as none, which somebody said; as a part of the price, which somebody said; or as given back. */
typedef enum
{
  AS_IT_STANDS,
  BY_ARTICLE,
  BY_MONEY,
  AS_PRICE_BACK,
  AS_NO_INGREDIENT,
  GIVEN_BACK,
} Way;

typedef struct
{
  CroPriceList *list;
  CroModel     *model;
  GArray       *booked;
  gboolean      is_near;  /* parts of a total may differ by a minor unit, as answers to other lines move them */
  gboolean      is_bare;  /* what is to be spread was not when the line was booked */
} Meeting;

static gboolean
is_money_of (const Meeting *self,
             gint64         booked,
             gint64         value)
{
  const CroPriceList *list = self->list;
  gint64 most = !self->is_near                    ? 0
                : list->is_cut                    ? cro_currency_minor (self->model->currency)
                : list->whole == CRO_WHOLE_SPREAD ? cro_currency_minor (list->currency)
                                                  : 0;

  return booked - value <= most && value - booked <= most;
}

static gboolean
is_category_of (const Booked     *one,
                const CroListRow *row)
{
  CroListRow as_other = *row;
  g_autofree char *category = NULL;

  as_other.goods = CRO_LIST_GOODS_OTHER;
  category = cro_list_dup_category (&as_other);
  return one->category != NULL && g_strcmp0 (one->category, category) == 0;
}

static gboolean
meets (const Meeting         *self,
       const Booked          *one,
       const CroListRow      *row,
       const CroListPurchase *purchase,
       Way                    way)
{
  if (one->is_met)
    return FALSE;
  switch (way)
    {
    case AS_IT_STANDS:
      return is_money_of (self, one->net_value, purchase->net_value) && one->item == purchase->item
             && one->amount == purchase->amount;
    case BY_ARTICLE:
      return is_money_of (self, one->net_value, purchase->net_value) && one->item == purchase->item
             && one->item != CRO_NO_SLOT && (one->amount == 0) == (row->share_of > 0)
             && row->back != CRO_LIST_BACK_PRICE;
    case BY_MONEY:
      return is_money_of (self, one->net_value, purchase->net_value) && one->item != CRO_NO_SLOT
             && row->item == CRO_NO_SLOT && !row->is_no_ingredient;
    case AS_PRICE_BACK:
      return is_money_of (self, one->net_value, purchase->net_value) && one->item == purchase->item
             && one->item != CRO_NO_SLOT && one->amount == 0 && row->is_return && row->back == CRO_LIST_BACK_UNSAID;
    case AS_NO_INGREDIENT:
      return one->item == CRO_NO_SLOT && row->item != CRO_NO_SLOT && !row->is_named && row->share_of == 0
             && is_money_of (self, one->net_value, purchase->net_value) && is_category_of (one, row);
    default:
      return !row->is_return && is_money_of (self, one->net_value, -purchase->net_value)
             && one->amount == -purchase->amount && (one->item == purchase->item || row->item == CRO_NO_SLOT);
    }
}

static gboolean
is_asked (const CroListRow *row,
          CroListWhy        why)
{
  return cro_list_why_asks (why);
}

/* As the book has it: what is asked was answered then; what was given back counts with its sign, and has no part of
 * what is spread. */
static void
meet (const Meeting *self,
      CroListRow    *row,
      Booked        *one,
      Way            way)
{
  one->is_met = row->is_in_book = row->is_booked = TRUE;
  row->in_book = one->id;
  row->is_posted = FALSE;
  cro_list_row_unsay (row, is_asked);
  if (row->state == CRO_LIST_DOUBTFUL || row->state == CRO_LIST_UNMATCHED)
    row->state = CRO_LIST_UNCHANGED;
  if (way == GIVEN_BACK)
    {
      cro_list_row_turn (row, TRUE);
      row->state = CRO_LIST_RETURN;
    }
  if (way == AS_PRICE_BACK)
    {
      row->back = CRO_LIST_BACK_PRICE;
      cro_list_row_say (self->list, row, CRO_LIST_PRICE_BACK, NULL, NULL);
    }
  if (way == AS_NO_INGREDIENT)
    {
      row->item = row->offer = CRO_NO_SLOT;
      row->goods = one->is_disposable ? CRO_LIST_GOODS_DISPOSABLE : CRO_LIST_GOODS_OTHER;
      row->is_no_ingredient = row->is_recalled = TRUE;
      row->state = CRO_LIST_NO_INGREDIENT;
    }
  if (self->is_bare || way >= AS_NO_INGREDIENT)
    row->spread = 0;
  if (self->list->is_cut)
    row->in_book_currency = one->net_value;
  else if (self->list->whole == CRO_WHOLE_SPREAD && !self->is_bare)
    row->spread = one->net_value - row->net_value;
}

/* Whether the book has it or not, what is asked about a line does not tell. items: of what is met, by the index of its
 * line; NULL. */
static gboolean
meet_lines (const Meeting *self,
            Way            way,
            guint32       *items)
{
  GArray *booked = self->booked;
  gboolean has_any = FALSE;

  for (guint i = 0; i < self->list->rows->len; i++)
    {
      CroListRow *row = &g_array_index (self->list->rows, CroListRow, i), bare = *row;
      CroListPurchase purchase;
      gboolean was_met = row->is_in_book;

      if (self->is_bare || way >= AS_NO_INGREDIENT)
        {
          bare.spread = 0;
          bare.in_book_currency = CRO_NOT_SET;
        }
      if (was_met || !cro_list_purchase_of (self->list, self->model, &bare, &purchase))
        continue;
      for (guint n = 0; n < booked->len && !row->is_in_book; n++)
        if (meets (self, &g_array_index (booked, Booked, n), row, &purchase, way))
          {
            meet (self, row, &g_array_index (booked, Booked, n), way);
            if (items != NULL)
              items[i] = g_array_index (booked, Booked, n).item;
          }
      has_any |= row->is_in_book;
    }
  return has_any;
}

static gboolean
meet_goods (const Meeting *self,
            guint32       *items)
{
  gboolean has_any = FALSE;

  for (Way way = AS_IT_STANDS; way <= AS_NO_INGREDIENT; way++)
    has_any |= meet_lines (self, way, items);
  return has_any;
}

/* Lines that were booked before it was said that charges are spread: their parts are rows of their own. */
static void
meet_bare_lines (const Meeting *self)
{
  const guint n = self->list->rows->len;
  const Meeting bare = { self->list, self->model, self->booked, self->is_near, TRUE };
  g_autofree guint32 *items = g_new0 (guint32, n + 1);
  g_autofree gboolean *was_met = g_new0 (gboolean, n + 1);

  for (guint i = 0; i < n; i++)
    was_met[i] = g_array_index (self->list->rows, CroListRow, i).is_in_book;
  if (!meet_goods (&bare, items))
    return;
  for (guint i = 0; i < n; i++)
    if (g_array_index (self->list->rows, CroListRow, i).is_in_book && !was_met[i])
      cro_price_list_add_share (self->list, self->model, i, items[i]);
  cro_price_list_share (self->list, self->model);
  meet_lines (self, AS_IT_STANDS, NULL);
}

/* Whether somebody said of a line that it is given back, or for no goods: others have its part of charges then. */
static gboolean
has_fewer_goods (const CroPriceList *list)
{
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (row->is_turned || (row->goods == CRO_LIST_GOODS_OTHER && !row->is_whole))
        return TRUE;
    }
  return FALSE;
}

/* With another part of what is spread than it has now. */
static gboolean
meet_other_share (const Meeting *self,
                  CroListRow    *row)
{
  CroListRow bare = *row;
  CroListPurchase purchase;
  gint64 most;

  bare.spread = 0;
  if (!cro_list_purchase_of (self->list, self->model, &bare, &purchase) || purchase.amount == 0
      || !cro_exact_to_micro (self->list->charges - self->list->allowances, &most))
    return FALSE;
  for (guint n = 0; n < self->booked->len && !row->is_in_book; n++)
    {
      Booked *one = &g_array_index (self->booked, Booked, n);

      if (!one->is_met && one->item == purchase.item && one->amount == purchase.amount
          && ABS (one->net_value - purchase.net_value) <= ABS (most))
        meet (self, row, one, AS_IT_STANDS);
    }
  return row->is_in_book;
}

/* What a line that waited had of charges others have when it is said to be no goods: those that are in the book take it
 * as rows of their own. */
static void
meet_other_shares (const Meeting *self)
{
  GArray *rows = self->list->rows;
  const guint n = rows->len;
  g_autofree gboolean *has_share = g_new0 (gboolean, n + 1);
  gboolean has_any = FALSE;

  if (self->list->whole != CRO_WHOLE_SPREAD || self->list->is_cut || !has_fewer_goods (self->list))
    return;
  for (guint i = 0; i < n; i++)
    {
      CroListRow *row = &g_array_index (rows, CroListRow, i);

      if (row->share_of > 0)
        has_share[row->share_of - 1] = TRUE;
      else if (!row->is_in_book && row->item != CRO_NO_SLOT)
        has_any |= meet_other_share (self, row);
    }
  cro_price_list_share (self->list, self->model);
  if (!has_any && self->list->no_spread == CRO_SPREAD_DONE)
    return;
  for (guint i = 0; i < n; i++)
    {
      const CroListRow *row = &g_array_index (rows, CroListRow, i);

      if (row->is_in_book && row->share_of == 0 && row->item != CRO_NO_SLOT && !has_share[i])
        cro_price_list_add_share (self->list, self->model, i, row->item);
    }
  cro_price_list_share (self->list, self->model);
  meet_lines (self, AS_IT_STANDS, NULL);
}

/* Parts that come to nothing. */
static void
drop_shares (CroPriceList *list)
{
  for (guint i = list->rows->len; i > 0; i--)
    {
      CroListRow *row = &g_array_index (list->rows, CroListRow, i - 1);

      if (row->share_of == 0 || row->is_booked)
        continue;
      g_clear_pointer (&row->reasons, g_array_unref);
      g_array_remove_index (list->rows, i - 1);
    }
}

/* To the cent first, whatever was said of charges then; what is met only nearly may be another row's. */
static void
meet_all (CroPriceList *list,
          CroModel     *model,
          GArray       *booked)
{
  for (guint is_near = 0; is_near < 2; is_near++)
    {
      const Meeting self = { list, model, booked, is_near == 1, FALSE };

      meet_goods (&self, NULL);
      /* What is given back takes no part of charges: others have more than they had beside it. */
      while (meet_lines (&self, GIVEN_BACK, NULL))
        {
          cro_price_list_share (list, model);
          meet_goods (&self, NULL);
        }
      if (list->whole == CRO_WHOLE_SPREAD)
        meet_bare_lines (&self);
      if (is_near == 1)
        meet_other_shares (&self);
    }
  cro_price_list_share (list, model);
  drop_shares (list);
}

gboolean
cro_list_purchases_look (CroPriceList  *list,
                         CroBook       *book,
                         GError       **error)
{
  g_autoptr (GArray) booked = NULL;
  CroModel *model = cro_book_get_model (book);

  if (list->supplier == CRO_NO_SLOT)
    return TRUE;
  booked = read_booked (list, book, error);
  if (booked == NULL)
    return FALSE;
  list->is_booked_before = booked->len > 0;
  list->is_all_booked = list->is_booked_before;
  if (!list->is_booked_before)
    return TRUE;
  meet_all (list, model, booked);
  list->n_waiting = 0;
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      list->is_all_booked &= row->is_in_book || !(row->is_booked || cro_list_row_waits (row));
      list->n_waiting += cro_list_row_waits (row);
    }
  /* What was booked by hand of that day is no document's. */
  for (guint i = 0; list->document != NULL && i < booked->len; i++)
    list->is_booked_otherwise |= !g_array_index (booked, Booked, i).is_met;
  return TRUE;
}

gboolean
cro_list_purchases_find (const CroPriceList *list,
                         CroBook            *book,
                         guint32            *supplier,
                         GError            **error)
{
  static const char *const columns[] = { "document", "supplier", NULL };
  CroModel *model = cro_book_get_model (book);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "purchase", columns, error);
  g_autoptr (GHashTable) slots = g_hash_table_new (NULL, NULL);
  g_autofree char *key = cro_list_dup_number_key (list->document);
  GError *failed = NULL;

  for (guint32 i = 0; i < model->suppliers->len; i++)
    if (i != list->supplier)
      g_hash_table_insert (slots, GINT_TO_POINTER ((int) g_array_index (model->suppliers, CroSupplier, i).id),
                           GUINT_TO_POINTER (i + 1));
  *supplier = CRO_NO_SLOT;
  while (rows != NULL && *supplier == CRO_NO_SLOT && cro_rows_next (rows, &failed))
    if (!cro_rows_is_null (rows, 0) && !cro_rows_is_null (rows, 1))
      {
        gpointer id = GINT_TO_POINTER ((int) cro_rows_get_int (rows, 1));
        g_autofree char *other = cro_list_dup_number_key (cro_rows_get_text (rows, 0));

        if (strcmp (other, key) == 0)
          *supplier = GPOINTER_TO_UINT (g_hash_table_lookup (slots, id)) - 1;
      }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* --- What is no ingredient -------------------------------------------------------------------------------- */

char *
cro_list_dup_category (const CroListRow *row)
{
  if (row->goods != CRO_LIST_GOODS_UNSAID && row->name != NULL && row->code != NULL)
    return g_strdup_printf ("%s (%s)", row->name, row->code);
  return g_strdup (row->name != NULL ? row->name : row->code);
}

/* "Linen hire (L-20)": known again by what stands in the parentheses, and as a whole by its name. */
static void
remember (GHashTable *no_goods,
          const char *category,
          guint       kind)
{
  CroListGoods goods = kind == DISPOSABLE ? CRO_LIST_GOODS_DISPOSABLE : CRO_LIST_GOODS_OTHER;
  const char *code = strrchr (category, '(');
  gsize n = strlen (category);

  g_hash_table_insert (no_goods, cro_fold (category), GUINT_TO_POINTER (goods));
  if (code != NULL && code > category && code[-1] == ' ' && category[n - 1] == ')' && code[1] != ')')
    g_hash_table_insert (no_goods, g_strndup (code, n - (gsize) (code - category)), GUINT_TO_POINTER (goods));
}

gboolean
cro_list_purchases_recall (CroListBook  *of,
                           GError      **error)
{
  static const char *const columns[] = { "ingredient", "category", "kind", NULL };
  gint64 id = of->supplier != CRO_NO_SLOT ? g_array_index (of->model->suppliers, CroSupplier, of->supplier).id : 0;
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (of->book), "purchase", "supplier", id, columns,
                                                error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    for (guint kind = DISPOSABLE; kind <= OTHER; kind++)
      if (cro_rows_is_null (rows, 0) && !cro_rows_is_null (rows, 1)
          && strcmp (cro_rows_get_text (rows, 2), cro_purchase_kind_codes[kind]) == 0)
        remember (of->no_goods, cro_rows_get_text (rows, 1), kind);
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

CroListGoods
cro_list_recall_goods (const CroListBook *of,
                       const CroListRow  *row)
{
  g_autofree char *code = row->code != NULL ? g_strdup_printf ("(%s)", row->code) : NULL;
  g_autofree char *name = row->name != NULL ? cro_fold (row->name) : NULL;
  gpointer goods = code != NULL ? g_hash_table_lookup (of->no_goods, code) : NULL;

  if (goods == NULL && name != NULL && *name != '\0')
    goods = g_hash_table_lookup (of->no_goods, name);
  return (CroListGoods) GPOINTER_TO_UINT (goods);
}
