#include "config.h"

#include "cro-tried-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-isolate.h"
#include "cro-line-amount.h"
#include "cro-pack.h"
#include "cro-past-words.h"
#include "cro-words.h"

/* As the journal would say it; NULL: not set. */
static char *
dup_cell (CroStore   *store,
          const char *table,
          gint64      id,
          const char *column)
{
  const char *columns[] = { column, NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (store, table, id, columns, NULL);

  if (rows == NULL || !cro_rows_next (rows, NULL) || cro_rows_is_null (rows, 0))
    return NULL;
  return cro_rows_is_text (rows, 0) ? g_strdup (cro_rows_get_text (rows, 0))
                                    : g_strdup_printf ("%" G_GINT64_FORMAT, cro_rows_get_int (rows, 0));
}

/* "240 g". */
static char *
dup_amount (CroBook *book,
            gint64   line)
{
  CroStore *store = cro_book_get_store (book);
  g_autofree char *amount = dup_cell (store, "recipe_line", line, "amount_micro");
  g_autofree char *code = dup_cell (store, "recipe_line", line, "unit");
  CroLineAmount value = { 0 };

  if (amount == NULL || code == NULL || !cro_unit_parse (code, strlen (code), &value.unit))
    return g_strdup ("–");
  value.amount = g_ascii_strtoll (amount, NULL, 10);
  return cro_line_amount_to_text (value, 0);
}

static char *
dup_value (CroBook    *book,
           const char *table,
           gint64      id,
           const char *column)
{
  g_autofree char *cell = NULL;

  if (g_str_equal (table, "recipe_line") && g_str_equal (column, "amount_micro"))
    return dup_amount (book, id);
  cell = dup_cell (cro_book_get_store (book), table, id, column);
  return cro_past_value (book, table, column, cell);
}

static char *
words_of_cell (CroBook        *trial,
               const CroTried *self,
               const char     *column)
{
  g_autofree char *of = cro_past_subject (cro_book_get_tried (trial), self->table, self->id);
  g_autofree char *from = dup_value (cro_book_get_tried (trial), self->table, self->id, column);
  g_autofree char *to = dup_value (trial, self->table, self->id, column);

  if (g_str_equal (self->table, "recipe_line") && g_str_equal (column, "amount_micro"))
    /* Translators: what was changed, from what, and to what. */
    return cro_isolate_printf (_("%s: %s → %s"), of, from, to);
  /* Translators: what was changed, its field, from what, and to what. */
  return cro_isolate_printf (_("%s, %s: %s → %s"), of, cro_past_column (self->table, column), from, to);
}

static char *
words_of_set (CroBook        *trial,
              const CroTried *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < self->columns->len; i++)
    {
      const char *column = self->columns->pdata[i];
      g_autofree char *words = NULL;

      /* It goes with the amount. */
      if (g_str_equal (self->table, "recipe_line") && g_str_equal (column, "unit")
          && self->columns->len > 1)
        continue;
      words = words_of_cell (trial, self, g_str_equal (column, "unit") ? "amount_micro" : column);
      g_string_append_printf (text, "%s%s", text->len > 0 ? _("; ") : "", words);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* What is paid or asked on the day; CRO_NOT_SET: nothing. */
static gint64
price_now (CroModel       *model,
           const CroTried *self)
{
  guint32 slot;

  if (g_str_equal (self->table, "price"))
    {
      slot = cro_slots_get (&model->offer_slots, self->id);
      return slot != CRO_NO_SLOT && cro_model_offer (model, slot)->offer.has_price
                 ? cro_model_offer (model, slot)->offer.price
                 : CRO_NOT_SET;
    }
  slot = cro_slots_get (&model->plate_slots, self->id);
  if (slot != CRO_NO_SLOT)
    return cro_model_recipe (model, slot)->price;
  slot = cro_slots_get (&model->menu_slots, self->id);
  return slot != CRO_NO_SLOT ? cro_model_menu (model, slot)->price : CRO_NOT_SET;
}

static char *
dup_price (CroModel       *model,
           const CroTried *self)
{
  gint64 price = price_now (model, self);

  if (price == CRO_NOT_SET)
    return g_strdup ("–");
  if (g_str_equal (self->table, "price"))
    return cro_pack_price_to_text (model, cro_slots_get (&model->offer_slots, self->id), price);
  return cro_words_price (model, price);
}

static char *
words_of_price (CroBook        *trial,
                const CroTried *self)
{
  CroModel *model = cro_book_get_model (trial);
  g_autofree char *of = cro_past_subject (trial, self->table, self->row);
  g_autofree char *from = dup_price (cro_book_get_model (cro_book_get_tried (trial)), self);
  g_autofree char *to = dup_price (model, self);

  return cro_isolate_printf (_("%s: %s → %s"), of, from, to);
}

/* "White meat in Crab croustade: 240 g → 200 g". As cro_tried_list has it of the trial. Owned. */
static char *
tried_words (CroBook        *trial,
             const CroTried *self)
{
  g_autofree char *of = NULL;

  switch (self->kind)
    {
    case CRO_TRIED_PRICE:
      return words_of_price (trial, self);
    case CRO_TRIED_ADDED:
      of = cro_past_subject (trial, self->table, self->id);
      /* Translators: %s is a line of a recipe. */
      return cro_isolate_printf (_("%s: new"), of);
    case CRO_TRIED_REMOVED:
      of = cro_past_subject (cro_book_get_tried (trial), self->table, self->id);
      /* Translators: %s is a line of a recipe. */
      return cro_isolate_printf (_("%s: removed"), of);
    case CRO_TRIED_SET:
    case CRO_N_TRIED:
      return words_of_set (trial, self);
    }
  g_return_val_if_reached (NULL);
}

char *
cro_tried_left_words (CroBook        *book,
                      const CroTried *self)
{
  guint at;
  const char *of = g_str_equal (self->table, "menu_plate") ? "plate" : "item";

  /* A price goes by what it is of; a row that was added is in no book, but what it takes was. */
  if (self->kind == CRO_TRIED_PRICE)
    return cro_past_subject (book, g_str_equal (self->table, "price") ? "offer" : "plate", self->id);
  if (self->kind == CRO_TRIED_ADDED && g_ptr_array_find_with_equal_func (self->columns, of, g_str_equal, &at))
    return cro_past_subject (book, of, g_array_index (self->cells, CroCell, at).integer);
  return cro_past_subject (book, self->table, self->id);
}

static char *
join (CroBook   *book,
      GPtrArray *tried,
      char    *(*words_of) (CroBook *, const CroTried *))
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < tried->len; i++)
    {
      g_autofree char *words = words_of (book, tried->pdata[i]);

      g_string_append_printf (text, "%s%s", i > 0 ? " · " : "", words);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
cro_tried_all_words (CroBook   *trial,
                     GPtrArray *tried)
{
  return join (trial, tried, tried_words);
}

char *
cro_tried_all_left_words (CroBook   *book,
                          GPtrArray *tried)
{
  return join (book, tried, cro_tried_left_words);
}

/* --- What the book has ------------------------------------------------------------------------ */

static gint64
in_force (CroModel   *model,
          const char *table,
          gint64      id,
          gboolean    is_price)
{
  const CroMenu *menu;
  const CroRecipe *plate;
  guint32 slot;

  if (g_str_equal (table, "menu"))
    {
      slot = cro_slots_get (&model->menu_slots, id);
      menu = slot != CRO_NO_SLOT ? cro_model_menu (model, slot) : NULL;
      return menu == NULL ? CRO_NOT_SET : is_price ? menu->price : menu->tax;
    }
  slot = cro_slots_get (&model->plate_slots, id);
  plate = slot != CRO_NO_SLOT ? cro_model_recipe (model, slot) : NULL;
  return plate == NULL ? CRO_NOT_SET : is_price ? plate->price : plate->tax;
}

static char *
dup_in_force (CroBook    *trial,
              const char *table,
              gint64      id,
              gboolean    is_price)
{
  CroModel *model = cro_book_get_model (cro_book_get_tried (trial));
  gint64 old = in_force (model, table, id, is_price);

  if (old == in_force (cro_book_get_model (trial), table, id, is_price))
    return NULL;
  return old == CRO_NOT_SET ? g_strdup ("–")
         : is_price         ? cro_words_price (model, old)
                            : cro_words_decimal (old);
}

char *
cro_tried_dup_old (CroBook    *trial,
                   const char *table,
                   gint64      id,
                   const char *column)
{
  CroBook *book = cro_book_get_tried (trial);
  g_autofree char *now = NULL, *there = NULL, *old = NULL;

  if ((g_str_equal (table, "plate") || g_str_equal (table, "menu"))
      && (g_str_equal (column, "price_micro") || g_str_equal (column, "tax_pct_micro")))
    return dup_in_force (trial, table, id, g_str_equal (column, "price_micro"));
  there = dup_cell (cro_book_get_store (book), table, id, "id");
  if (there == NULL)
    return NULL;
  now = dup_value (trial, table, id, column);
  old = dup_value (book, table, id, column);
  return g_strcmp0 (now, old) != 0 ? g_steal_pointer (&old) : NULL;
}
