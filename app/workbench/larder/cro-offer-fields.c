#include "config.h"

#include "cro-offer-card-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-dated-fields.h"
#include "cro-day-entry.h"
#include "cro-doubt.h"
#include "cro-edit.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-last-price.h"
#include "cro-not-set.h"
#include "cro-number.h"
#include "cro-refusal.h"
#include "cro-sentence.h"
#include "cro-words-price.h"
#include "cro-words.h"

/* --- The price ------------------------------------------------------------------------------------ */

/* As the store has it: the model may hold what is being typed. */
static char *
dup_price (CroInput *input,
           gpointer  card)
{
  CroOfferCard *self = card;
  CroBook *book = book_of (self);
  char date[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;

  cro_date_format (cro_book_get_figures (book)->date, date);
  rows = cro_store_read_prices (cro_book_get_store (book), date, entry_of (self)->id, NULL);
  if (rows == NULL || !cro_rows_next (rows, NULL))
    return g_strdup ("");
  return cro_words_price_in (cro_model_currency_of (cro_book_get_model (book), self->offer),
                             cro_rows_get_int (rows, 3));
}

static gboolean
preview_price (CroInput       *input,
               const CroCell  *cell,
               gpointer        card,
               GError        **error)
{
  CroOfferCard *self = card;

  if (cell->kind == CRO_CELL_NULL)
    return cro_book_restore (book_of (self), error);
  return cro_book_preview_price (book_of (self), self->offer, cell->integer, error);
}

static gboolean
keep_price (CroInput       *input,
            const CroCell  *cell,
            gpointer        card,
            GError        **error)
{
  CroOfferCard *self = card;
  CroDate from;

  if (!cro_dated_fields_read (self->from, &from, error))
    return FALSE;
  if (cell->kind == CRO_CELL_NULL && !cro_text_is_not_to_be_had (cro_input_get_text (input)))
    return cro_refuse (CRO_FAULT_MISSING_VALUE, "", NULL, error);
  if (!cro_edit_set_price (book_of (self), cro_input_get_act (input), self->offer, from,
                           cro_cell_number (cell), error))
    return FALSE;
  cro_dated_fields_kept (self->from, from, cro_input_get_act (input), cro_input_get_text (input));
  return TRUE;
}

/* Per pack, or per unit of what is in it. */
static char *
read_price (CroInput    *input,
            const char  *text,
            CroCell     *cell,
            char       **understood,
            gpointer     card)
{
  CroOfferCard *self = card;
  const CroPack pack = cro_pack_in_force (cro_book_get_model (book_of (self)), self->offer);
  g_auto (CroEntry) entry = { 0 };

  if (cro_text_is_not_to_be_had (text))
    return NULL;
  if (cro_pack_read_price (cro_book_get_model (book_of (self)), self->offer, &pack, text,
                           cro_words_entry (), &entry))
    *cell = CRO_CELL_INT (entry.micro);
  *understood = g_steal_pointer (&entry.understood);
  return cro_words_price_reason (text, &entry,
                                 cro_model_currency_of (cro_book_get_model (book_of (self)),
                                                        self->offer));
}

/* The field has the price in force: one that is past is named. */
static char *
ask_of_price (CroInput *input,
              gpointer  card)
{
  CroOfferCard *self = card;
  g_autofree char *question = NULL;
  CroDoubt doubt;

  if (self->history == NULL || !cro_doubt_of_offer (book_of (self), self->offer, self->history, &doubt))
    return NULL;
  question = doubt.is_past ? cro_words_doubt (cro_book_get_model (book_of (self)), &doubt)
                           : cro_words_doubt_at (cro_book_get_model (book_of (self)), &doubt);
  return cro_sentence_alone (question);
}

/* --- What is in the pack --------------------------------------------------------------------------- */

/* Of the day that the book shows, as the store has it. */
CroPack
cro_offer_card_stored_pack (CroOfferCard *self)
{
  static const char *const columns[] = { "pack_count_micro", "pack_size_micro", "pack_unit", NULL };
  CroStore *store = cro_book_get_store (book_of (self));
  const CroOfferEntry *entry = entry_of (self);
  CroPack pack = { entry->pack_count, entry->pack_size, (CroUnit) entry->pack_unit };
  const struct { const char *table; gint64 id; } from[] = { { "offer", entry->id },
                                                            { "price", entry->price_id } };

  for (gsize i = 0; i < G_N_ELEMENTS (from); i++)
    {
      g_autoptr (CroRows) rows = cro_store_read_one (store, from[i].table, from[i].id, columns, NULL);
      const char *unit;

      if (rows == NULL || !cro_rows_next (rows, NULL))
        continue;
      unit = cro_rows_get_text (rows, 2);
      if (!cro_rows_is_null (rows, 0))
        pack.count = cro_rows_get_int (rows, 0);
      if (!cro_rows_is_null (rows, 1))
        pack.size = cro_rows_get_int (rows, 1);
      if (unit != NULL)
        cro_unit_parse (unit, strlen (unit), &pack.unit);
    }
  return pack;
}

static char *
dup_pack_part (CroInput *input,
               gpointer  card)
{
  CroOfferCard *self = card;
  CroPack pack = cro_offer_card_stored_pack (self);

  return cro_words_decimal (input == CRO_INPUT (self->count) ? pack.count : pack.size);
}

/* On the price that holds, or on the pack itself where there is none. */
static gboolean
preview_pack_part (CroInput       *input,
                   const CroCell  *cell,
                   gpointer        card,
                   GError        **error)
{
  CroOfferCard *self = card;
  const CroOfferEntry *entry = entry_of (self);
  gboolean has_price = entry->price_id != 0;

  if (cell->kind == CRO_CELL_NULL)
    return cro_book_restore (book_of (self), error);
  return cro_book_preview (book_of (self), has_price ? "price" : "offer",
                           has_price ? entry->price_id : entry->id,
                           input == CRO_INPUT (self->count) ? "pack_count_micro"
                                                            : "pack_size_micro",
                           cell, error);
}

static void
look_at_pack (CroInput *input,
              gpointer  card)
{
  CroOfferCard *self = card;

  if (entry_of (self)->price_id != 0)
    cro_book_look_at (book_of (self), "price", entry_of (self)->price_id, NULL);
}

/* text: what was typed, or chosen. */
static gboolean
keep_pack (CroOfferCard  *self,
           const char    *act,
           const char    *text,
           const CroPack *pack,
           GError       **error)
{
  CroDate from;

  if (!cro_dated_fields_read (self->from, &from, error)
      || !cro_edit_set_pack (book_of (self), act, self->offer, from, pack->count, pack->size, pack->unit, error))
    return FALSE;
  cro_dated_fields_kept (self->from, from, act, text);
  return TRUE;
}

static gboolean
keep_pack_part (CroInput       *input,
                const CroCell  *cell,
                gpointer        card,
                GError        **error)
{
  CroOfferCard *self = card;
  CroPack pack = cro_offer_card_stored_pack (self);

  if (cell->kind == CRO_CELL_NULL)
    {
      g_set_error_literal (error, g_quark_from_static_string ("cro-offer-card"), 0,
                           _("What is in a pack? For instance 5 kg."));
      return FALSE;
    }
  *(input == CRO_INPUT (self->count) ? &pack.count : &pack.size) = cell->integer;
  return keep_pack (self, cro_input_get_act (input), cro_input_get_text (input), &pack, error);
}

static gboolean
keep_unit (CroChoice      *choice,
           const CroCell  *cell,
           gpointer        card,
           GError        **error)
{
  CroPack pack = cro_offer_card_stored_pack (card);

  cro_unit_parse (cell->text, strlen (cell->text), &pack.unit);
  return keep_pack (card, cro_choice_get_act (choice), cro_words_unit (pack.unit), &pack, error);
}

static char *
dup_unit (CroChoice *choice,
          gpointer   card)
{
  return g_strdup (cro_unit_get (cro_offer_card_stored_pack (card).unit)->code);
}

/* --- Making ------------------------------------------------------------------------------------------- */

static const CroInputWay price_way = { dup_price, preview_price, keep_price, FALSE, NULL };
static const CroInputWay pack_way = { dup_pack_part, preview_pack_part, keep_pack_part, FALSE,
                                      look_at_pack };

GtkWidget *
cro_offer_card_add_input (CroOfferCard *self,
                          CroInputKind  kind,
                          CroRange      range,
                          int           width,
                          const char   *column,
                          const char   *placeholder)
{
  GtkWidget *input = cro_input_new (kind, range, "");

  cro_input_set_width (CRO_INPUT (input), width);
  cro_input_bind (CRO_INPUT (input), book_of (self), "offer", entry_of (self)->id, column, "",
                  placeholder);
  return input;
}

void
cro_offer_card_make_fields (CroOfferCard *self)
{
  self->from = cro_entry_new ("", cro_date_chars ());
  self->price = cro_offer_card_add_input (self, CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 7, "id",
                                          NULL);
  cro_input_set_way (CRO_INPUT (self->price), &price_way, self);
  cro_input_set_read (CRO_INPUT (self->price), read_price);
  cro_input_set_ask (CRO_INPUT (self->price), ask_of_price);
  cro_input_ask_always (CRO_INPUT (self->price));
  self->count = cro_offer_card_add_input (self, CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 3,
                                          "pack_count_micro", NULL);
  self->size = cro_offer_card_add_input (self, CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 5,
                                         "pack_size_micro", NULL);
  self->unit = cro_choice_new_unit ("", 7);
  cro_input_set_way (CRO_INPUT (self->count), &pack_way, self);
  cro_input_set_way (CRO_INPUT (self->size), &pack_way, self);
  cro_choice_set_way (CRO_CHOICE (self->unit), keep_unit, self);
  cro_choice_set_read (CRO_CHOICE (self->unit), dup_unit);
  cro_choice_bind (CRO_CHOICE (self->unit), book_of (self), "offer", entry_of (self)->id,
                   "pack_unit", "");
  cro_dated_fields_begin (self->bench, self->from,
                          (GtkWidget *const[]){ self->price, self->count, self->size, self->unit, NULL });
  cro_dated_fields_tell (self->from);
}
