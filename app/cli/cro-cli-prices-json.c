#include "cro-cli-prices.h"

#include <string.h>

#include "cro-cli-json.h"
#include "cro-decimal.h"
#include "cro-json.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-price-list-purchase.h"
#include "cro-price-list-words.h"

static void
add_decimal (CroJson    *json,
             const char *name,
             gboolean    is_known,
             gint64      micro)
{
  char text[CRO_DECIMAL_CHARS];

  cro_decimal_format (micro, text);
  cro_json_text (json, name, is_known ? text : NULL);
}

static void
add_truth (CroJson    *json,
           const char *name,
           gboolean    is_known,
           gboolean    value)
{
  if (is_known)
    cro_json_boolean (json, name, value);
  else
    cro_json_text (json, name, NULL);
}

/* Nothing of what is refused is posted, though the line itself asks nothing. */
static gboolean
is_refused (const CroPricing *pricing,
            const CroListRow *row)
{
  return pricing->refused != NULL && !row->is_in_book
         && (row->state == CRO_LIST_NEW || row->state == CRO_LIST_CHANGED || row->state == CRO_LIST_UNCHANGED);
}

static CroListState
state_of (const CroPricing *pricing,
          const CroListRow *row)
{
  gboolean gives_way = cro_list_row_gives_way_to (row) != NULL
                       && (row->state == CRO_LIST_NEW || row->state == CRO_LIST_CHANGED);

  return gives_way || is_refused (pricing, row) ? CRO_LIST_DOUBTFUL : row->state;
}

static void
add_why (CroJson          *json,
         CroPricing       *pricing,
         const CroListRow *row)
{
  cro_json_begin_array (json, "why");
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    {
      g_autofree char *text = cro_words_list_reason (cro_book_get_model (pricing->book), pricing->list, row,
                                                     &g_array_index (row->reasons, CroListReason, i));

      cro_json_text (json, NULL, text);
    }
  if (is_refused (pricing, row))
    cro_json_text (json, NULL, pricing->refused);
  cro_json_end_array (json);
}

/* Money in minor units, with all of their digits. */
static void
add_minor (CroJson    *json,
           const char *name,
           const char *currency,
           gint64      minor)
{
  int digits = cro_currency_digits (currency);
  CroNano nano = minor * CRO_NANO;
  g_autofree char *text = NULL;

  for (int i = 0; i < digits; i++)
    nano /= 10;
  text = cro_exact_to_text (nano, (guint) digits);
  cro_json_text (json, name, minor != CRO_NOT_SET ? text : NULL);
}

/* What --accept is given to say that it is right. */
static void
add_answer (CroJson            *json,
            const CroPriceList *list,
            const CroListRow   *row)
{
  g_autofree char *number = cro_list_row_takes_yes (list, row) ? g_strdup_printf ("%u", row->number) : NULL;

  cro_json_text (json, "answer", number);
}

/* As the book has it of the line, by this posting or an earlier one. Nothing of what is refused is posted. */
static void
add_booked (CroJson          *json,
            CroPricing       *pricing,
            const CroListRow *row)
{
  CroListPurchase purchase;
  gboolean is_booked = row->is_booked && (row->is_in_book || pricing->refused == NULL)
                       && cro_list_purchase_of (pricing->list, cro_book_get_model (pricing->book), row, &purchase);

  add_decimal (json, "booked", is_booked, is_booked ? purchase.net_value : 0);
}

static void
add_line (CroJson          *json,
          CroPricing       *pricing,
          const CroListRow *row)
{
  CroModel *model = cro_book_get_model (pricing->book);
  g_autofree char *pack = row->pack.size > 0 ? cro_pack_to_text (&row->pack) : NULL;

  cro_json_begin_object (json, NULL);
  cro_json_number (json, "line", row->number, TRUE);
  cro_json_text (json, "code", row->code);
  cro_json_text (json, "gtin", row->gtin);
  cro_json_text (json, "name", row->said != NULL ? row->said : row->name);
  cro_json_text (json, "quantity", row->quantity);
  cro_json_text (json, "unit", row->unit);
  cro_json_text (json, "net", row->net);
  cro_json_text (json, "net_per_unit", row->per_unit);
  add_truth (json, "recomputes", row->recomputes != CRO_RECOMPUTES_UNKNOWN, row->recomputes == CRO_RECOMPUTES_YES);
  cro_json_text (json, "ingredient", row->item != CRO_NO_SLOT ? cro_model_item (model, row->item)->name : NULL);
  cro_json_text (json, "pack", pack);
  add_decimal (json, "price", row->has_price && row->pack.size > 0 && !row->has_per, row->price);
  add_decimal (json, "last", row->last != CRO_NOT_SET, row->last);
  cro_json_text (json, "currency", row->has_price || row->last != CRO_NOT_SET ? row->currency : NULL);
  cro_json_text (json, "state", cro_list_state_codes[state_of (pricing, row)]);
  add_why (json, pricing, row);
  add_answer (json, pricing->list, row);
  add_booked (json, pricing, row);
  add_minor (json, "reclaim", pricing->list->currency, row->reclaim);
  cro_json_end_object (json);
}

static void
add_moved (CroJson        *json,
           const CroMovedPlate *moved)
{
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "kind", moved->is_menu ? "menu" : "plate");
  cro_json_text (json, "name", moved->after.name);
  cro_cli_json_number (json, "from", moved->before.food_cost_pct);
  cro_cli_json_number (json, "to", moved->after.food_cost_pct);
  cro_json_boolean (json, "goes_over", moved->goes_over);
  cro_json_end_object (json);
}

static const char *
syntax_of (const CroPriceList *list)
{
  if (list->source != CRO_LIST_INVOICE)
    return "table";
  return list->syntax == CRO_SYNTAX_UBL ? "UBL" : list->syntax == CRO_SYNTAX_CII ? "CII" : NULL;
}

static void
add_nano (CroJson    *json,
          const char *name,
          CroNano     nano)
{
  g_autofree char *text = nano != 0 ? cro_exact_to_text (nano, 2) : NULL;

  cro_json_text (json, name, text);
}

static void
add_pricing (CroJson    *json,
             CroPricing *pricing)
{
  CroPriceList *list = pricing->list;
  char from[CRO_DATE_CHARS];

  cro_date_format (list->from, from);
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "syntax", syntax_of (list));
  cro_json_text (json, "document", list->root);
  cro_json_text (json, "type", list->type);
  cro_json_text (json, "number", list->document);
  cro_json_text (json, "currency", list->currency);
  cro_json_text (json, "supplier", list->supplier_name);
  cro_json_text (json, "from", from);
  add_nano (json, "allowances", list->allowances);
  add_nano (json, "charges", list->charges);
  add_minor (json, "reclaim", list->currency, list->reclaim);
  cro_json_begin_array (json, "lines");
  for (guint i = 0; i < list->rows->len; i++)
    add_line (json, pricing, &g_array_index (list->rows, CroListRow, i));
  cro_json_end_array (json);
  cro_json_begin_array (json, "plates");
  for (guint i = 0; pricing->moved != NULL && i < pricing->moved->len; i++)
    add_moved (json, &g_array_index (pricing->moved, CroMovedPlate, i));
  cro_json_end_array (json);
  cro_json_text (json, "refused", pricing->refused);
  cro_json_end_object (json);
}

gboolean
cro_cli_print_prices_json (CroPricing  *pricing,
                           GError     **error)
{
  g_autoptr (CroJson) json = cro_json_new ();

  add_pricing (json, pricing);
  return cro_cli_json_print (json, error);
}
