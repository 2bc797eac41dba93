#include "config.h"

#include "cro-price-list-words.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-price-list-private.h"
#include "cro-price-list-purchase.h"
#include "cro-unit-code-words.h"
#include "cro-words.h"

const char *
cro_words_list_state (const CroListRow *row)
{
  if (row->share_of > 0)
    /* Translators: the status of a part of an invoice’s charges. */
    return C_("price", "charges");
  if (row->is_late && row->state == CRO_LIST_UNCHANGED)
    /* Translators: the status of a price that stays, as it is later than that of an invoice. */
    return C_("price", "stays");
  if ((cro_list_row_gives_way_to (row) != NULL && (row->state == CRO_LIST_NEW || row->state == CRO_LIST_CHANGED))
      || (cro_list_row_is_free (row) && row->state == CRO_LIST_UNCHANGED))
    /* Translators: the status of a price beside another of the same pack, which was said to be right, or of none. */
    return C_("price", "not posted");
  switch (row->state)
    {
    case CRO_LIST_NEW:
      return C_("price", "new");
    case CRO_LIST_CHANGED:
      return C_("price", "changed");
    case CRO_LIST_UNCHANGED:
      return C_("price", "unchanged");
    case CRO_LIST_UNMATCHED:
      return C_("price", "not found");
    case CRO_LIST_DOUBTFUL:
      return C_("price", "second look");
    case CRO_LIST_RETURN:
      /* Translators: the status of a line of a credit note: a part of the price, or goods. */
      return row->back == CRO_LIST_BACK_PRICE ? C_("price", "price credited") : C_("price", "returned");
    case CRO_LIST_NO_INGREDIENT:
      return C_("price", "no ingredient");
    case CRO_LIST_NOT_TO_BE_HAD:
      return C_("price", "not to be had");
    case CRO_N_LIST_STATES:
      break;
    }
  g_return_val_if_reached ("");
}

char *
cro_words_price_shown (const char *currency,
                       gint64      price)
{
  int digits = cro_currency_digits (currency);

  /* Of less than one the places of a cent are what differs. */
  return price < CRO_MICRO ? cro_words_price_in (currency, price)
                           : cro_money_to_text (cro_money_round (cro_decimal_to_double (price), digits), digits);
}

/* --- Reasons -------------------------------------------------------------------------------------------------- */

/* As it is typed: "17.10/kg" of who states prices per kg. */
static char *
dup_meant (CroModel         *model,
           const CroListRow *row,
           const char       *currency)
{
  CroUnit unit = cro_price_list_unit_of_quotes (model, row->item);
  gint64 one;
  gboolean is_one = row->is_stated_per_base && cro_list_exact_of_one (model, row, row->look.meant, &one);
  g_autofree char *price = cro_words_price_in (currency, is_one ? one : row->look.meant);

  return is_one ? g_strdup_printf ("%s/%s", price, cro_words_unit (unit)) : g_steal_pointer (&price);
}

static char *
look_sentence (CroModel         *model,
               const CroListRow *row,
               const char       *beside)
{
  const CroLook *look = &row->look;
  const char *currency = row->offer != CRO_NO_SLOT ? cro_model_currency_of (model, row->offer) : NULL;
  g_autofree char *change = cro_pct_to_text ((look->ratio - 1) * 100, 1);
  g_autofree char *pack = look->pack.size > 0 ? cro_pack_to_text (&look->pack) : NULL;
  g_autofree char *meant = look->meant != CRO_NOT_SET ? dup_meant (model, row, currency) : NULL;
  g_autofree char *tax = NULL;

  switch (look->kind)
    {
    case CRO_LOOK_SLIP:
      /* Translators: a price that was probably meant, its decimal sign having slipped. */
      return g_strdup_printf (_("Is %s meant? The decimal sign may have slipped."), meant);
    case CRO_LOOK_THOUSANDS:
      /* Translators: a price that was probably meant: 1.234 for 1,234. */
      return g_strdup_printf (_("Is %s meant? A decimal sign may have been read as a thousands sign."), meant);
    case CRO_LOOK_PACK:
      /* Translators: "yes" is what is stored. A pack ("5 kg") that the price is probably for, and by how much it
       * differs. */
      return g_strdup_printf (_("The price may be for %s: per unit it differs by %s. Is it right as it stands?"), pack,
                              change);
    case CRO_LOOK_SHRANK:
      /* Translators: the pack ("5 kg") that held more before, and by how much the price per kg rose. */
      return g_strdup_printf (_("The pack is smaller than %s, at nearly the same price: %s per unit."), pack, change);
    case CRO_LOOK_TAX:
      tax = cro_words_decimal (look->tax);
      if (row->tax > 0)
        /* Translators: "yes" is the answer that is stored. The per cent of tax that the last price has in it, and by
         * how many per cent the price changed if this one has too. */
        return g_strdup_printf (_("Is %s %% tax in it, as in the last price? It then differs by %s per unit."), tax,
                                change);
      /* Translators: "yes" is the answer that is stored. The per cent of tax that earlier prices had in them, and by
       * how many per cent the price rose if this one has none. */
      return g_strdup_printf (_("Is it without tax, as the last price? Prices before had %s %% in them; without, it "
                                "differs by %s per unit."), tax, change);
    case CRO_LOOK_FAR:
      break;
    case CRO_LOOK_NOTHING:
      g_return_val_if_reached (g_strdup (""));
    }
  if (beside != NULL)
    /* Translators: by how many per cent a price differs from that of another pack: "103, 1 kg". */
    return cro_isolate_printf (_("The price per unit differs by %s from that of %s. Is it right?"), change, beside);
  /* Translators: by how many per cent a price changed. */
  return g_strdup_printf (_("The price per unit changed by %s. Is it right?"), change);
}

/* A new pack has no price of its own that it could be compared with. */
static char *
dup_look (CroModel         *model,
          const CroListRow *row,
          const char       *beside)
{
  g_autofree char *sentence = look_sentence (model, row, beside), *with = NULL;

  if (beside == NULL || row->look.kind == CRO_LOOK_FAR)
    return g_steal_pointer (&sentence);
  /* Translators: another pack of the same ingredient: "103, 1 kg". */
  with = cro_isolate_printf (_("Compared with %s."), beside);
  return g_strdup_printf ("%s %s", sentence, with);
}

static const char *
unit_of (const char *code)
{
  const char *name = cro_words_unit_code (code, 1);

  return name != NULL ? name : code;
}

/* A package by its name and its code: "case (XCS)". */
static char *
dup_package (const char *code)
{
  const char *name = cro_words_unit_code (code, 1);

  return name != NULL ? g_strdup_printf ("%s (%s)", name, code) : g_strdup (code);
}

/* Of UNTDID 1001 what suppliers send; names of the codes as EN 16931 lists them, from memory. */
static char *
dup_type (const char *code)
{
  const struct { const char *code, *name; } types[] = {
    { "325", _("a pro forma invoice") },
    { "326", _("a partial invoice") },
    { "383", _("a debit note") },
    { "384", _("a corrected invoice") },
    { "386", _("a prepayment invoice") },
    { "389", _("a self-billed invoice") },
    { "751", _("invoice information for accounts") },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (types); i++)
    if (strcmp (code, types[i].code) == 0)
      /* Translators: what a document is, and the code of that: "a corrected invoice", "384". */
      return cro_isolate_printf (_("The document is %s (type %s). Is it to be booked as an invoice?"), types[i].name,
                                 code);
  /* Translators: the code of what a document is. */
  return cro_isolate_printf (_("The document is of type %s, and no plain invoice. Is it to be booked as one?"), code);
}

/* NULL: cro_words_list_reason () tells it, with the texts of its line. Every reason stands here, and there is no
 * default, so that one that is not told does not compile. */
static const char *
plain_sentence (CroListWhy why)
{
  switch (why)
    {
    case CRO_LIST_SIGNS:
      return _("Quantity and amount differ in sign; the amount counts.");
    case CRO_LIST_CREDIT:
      return _("The document is a credit note.");
    case CRO_LIST_FREE:
      return _("It costs nothing here: the goods are booked, and no price is posted.");
    case CRO_LIST_PRICE_BACK:
      return _("A part of the price comes back: the money is booked; the goods and the price in the book stay.");
    case CRO_LIST_NO_PURCHASE:
      return _("Not booked: the ingredient is not known.");
    case CRO_LIST_NO_PRICE:
      return _("There is no price.");
    case CRO_LIST_WHICH_NUMBER:
      return _("More than one number could be the price. Write one, as “9.20/kg”, “9.20 ex VAT” or “9.20 incl. 10 % "
               "VAT”.");
    case CRO_LIST_WHICH_TAX:
      return _("The price includes tax, and nothing says at what rate. Write it with the price: “incl. 10 % VAT”.");
    case CRO_LIST_NO_AMOUNTS:
      return _("The line has no quantity, or no amount.");
    case CRO_LIST_WHICH_CODE:
      return _("More than one ingredient has this code.");
    case CRO_LIST_HIDDEN:
      return _("The spreadsheet hides this price, or strikes it out. Does it hold?");
    case CRO_LIST_NO_PACK:
      return _("Nothing says how much the price is for.");
    case CRO_LIST_NOT_CONVERTED:
      return _("The pack cannot be converted into the unit of the ingredient.");
    case CRO_LIST_TOO_LARGE:
      return _("An amount is too large.");
    case CRO_LIST_LIKE:
    case CRO_LIST_GTIN_WRONG:
    case CRO_LIST_GIVES_WAY:
    case CRO_LIST_LATER:
    case CRO_LIST_GIVEN_UP:
    case CRO_LIST_SHARE:
    case CRO_LIST_NOT_A_DATE:
    case CRO_LIST_TAX_BESIDE:
    case CRO_LIST_SAID_OPEN:
    case CRO_LIST_SAID_CHANGE:
    case CRO_LIST_SAID_DAY:
    case CRO_LIST_SAID_TAX:
    case CRO_LIST_NOT_A_PRICE:
    case CRO_LIST_WHICH_SIGN:
    case CRO_LIST_NOT_RECOMPUTED:
    case CRO_LIST_OTHER_BASE:
    case CRO_LIST_OTHER_NAME:
    case CRO_LIST_CODE_LIKE:
    case CRO_LIST_WHICH_PACK:
    case CRO_LIST_WHICH_PRICE:
    case CRO_LIST_WHICH_SIZE:
    case CRO_LIST_GOODS_WORD:
    case CRO_LIST_UNSURE:
    case CRO_LIST_BESIDE:
    case CRO_LIST_UNIT_UNKNOWN:
    case CRO_LIST_PACKAGE:
    case CRO_LIST_CURRENCY:
    case CRO_LIST_NO_RATE:
    case CRO_LIST_GOODS_OR_PRICE:
    case CRO_LIST_MORE_BACK:
    case CRO_LIST_TWICE:
    case CRO_LIST_OTHER_TYPE:
    case CRO_LIST_OTHER_NUMBER:
    case CRO_LIST_OTHER_SELLER:
    case CRO_LIST_LAST_MOVED:
    case CRO_LIST_LOOK:
      break;
    }
  return NULL;
}

/* A decimal number of a document, with all its places. */
static char *
dup_written (const char *text)
{
  const char *point = strchr (text, '.');

  return strlen (text) > 15 ? g_strdup (text)
                            : cro_number_to_text (g_ascii_strtod (text, NULL),
                                                  point != NULL ? (int) strlen (point + 1) : 0, FALSE);
}

char *
cro_words_list_reason (CroModel            *model,
                       const CroPriceList  *list,
                       const CroListRow    *row,
                       const CroListReason *reason)
{
  g_autofree char *package = NULL, *net = NULL, *recomputed = NULL;

  switch (reason->why)
    {
    case CRO_LIST_LIKE:
      /* Translators: names that are like the one in a supplier’s list. */
      return cro_isolate_printf (_("Similar: %s"), reason->text);
    case CRO_LIST_GTIN_WRONG:
      /* Translators: a bar code’s number. */
      return g_strdup_printf (_("The check digit of %s is wrong; it was not used."), reason->text);
    case CRO_LIST_NOT_A_DATE:
      return cro_words_not_a_date (reason->text);
    case CRO_LIST_TAX_BESIDE:
      /* Translators: the heading of a column in a supplier's list, "VAT %", or a line of a message. */
      return cro_isolate_printf (_("“%s” leaves open whether the price has tax in it. Write “ex VAT” or “incl. VAT” "
                                   "with the price, or in its heading."), reason->text);
    case CRO_LIST_SAID_OPEN:
      /* Translators: the heading of a column in a supplier's list, "Qty (kg)", and what stands there, "4". */
      if (reason->other != NULL)
        return cro_isolate_printf (_("“%s” says %s here, which is not the pack. For how much is the price?"),
                                   reason->text, reason->other);
      /* Translators: the heading of a column in a supplier's list, "Price/5 kg", or a line of a message. */
      return cro_isolate_printf (_("“%s” leaves open what the price is for, or its currency. Write them with the "
                                   "price: “4.35/kg”, “£21.75 for 5 kg”."), reason->text);
    case CRO_LIST_SAID_CHANGE:
      /* Translators: a line of a supplier's list, "All prices less 10 %", or one that takes back what another says. */
      return cro_isolate_printf (_("“%s” may change the prices of the list. Do they hold as they stand?"),
                                 reason->text);
    case CRO_LIST_SAID_DAY:
      /* Translators: a line of a supplier's list: "Valid from 7 December", "Old list", "Draft". */
      return cro_isolate_printf (_("By “%s” the prices may not hold from this day. Do they hold all the same?"),
                                 reason->text);
    case CRO_LIST_SAID_TAX:
      /* Translators: a line of a supplier's list: "Veg is zero-rated", "Prices ex VAT on food". */
      return cro_isolate_printf (_("“%s” leaves open whether the prices have tax in them. Are all of the list without "
                                   "tax?"), reason->text);
    case CRO_LIST_NOT_A_PRICE:
      return cro_isolate_printf (_("“%s” is not a price."), reason->text);
    case CRO_LIST_WHICH_SIGN:
      /* Translators: a number as 1,234. */
      return g_strdup_printf (_("The sign in “%s” could be decimal or group thousands."), reason->text);
    case CRO_LIST_NOT_RECOMPUTED:
      /* Translators: the amount of an invoice’s line, and what quantity, price, allowances and charges make. */
      net = dup_written (reason->text);
      recomputed = dup_written (reason->other);
      return g_strdup_printf (_("The line says %s, and adds up to %s."), net, recomputed);
    case CRO_LIST_OTHER_BASE:
      /* Translators: codes of units. */
      return g_strdup_printf (_("The quantity is in %s, its price for %s."), unit_of (reason->text),
                              unit_of (reason->other));
    case CRO_LIST_WHICH_PACK:
      if (reason->other != NULL)
        /* Translators: packs with their codes, and one of those codes. */
        return cro_isolate_printf (_("Which pack? %s. The size is not that of %s: write the code that is meant, "
                                     "without the size of another."), reason->text, reason->other);
      /* Translators: packs with their codes. */
      return cro_isolate_printf (_("Which pack? %s. Write its code with the price."), reason->text);
    case CRO_LIST_WHICH_PRICE:
      /* Translators: a word of a supplier's message, "bottle" or "net", and a pack: "6 × 1 l". */
      return cro_isolate_printf (_("“%s” leaves open what the price is for. Is it of the pack of %s, as the last one?"),
                                 reason->text, reason->other);
    case CRO_LIST_WHICH_SIZE:
      /* Translators: packs: "500 ml" and "6 × 1 l". */
      return g_strdup_printf (_("Is it sold in packs of %s now? The last pack is %s."), reason->text, reason->other);
    case CRO_LIST_GOODS_WORD:
      /* Translators: a word of a supplier's message, "head" or "tin", and the rest of a name there: "Hake". */
      return cro_isolate_printf (_("“%s” may be part of the name. If the price is for %s, leave that word out."),
                                 reason->text, reason->other);
    case CRO_LIST_UNSURE:
      /* Translators: what stands behind a price in a supplier's message: "?" or "+". */
      return g_strdup_printf (_("“%s” leaves the price open."), reason->text);
    case CRO_LIST_BESIDE:
      /* Translators: what stands beside a price in a supplier's list: "less 10 %", "from 7 December". */
      return cro_isolate_printf (_("“%s” stands beside the price. Is the price right as it is?"), reason->text);
    case CRO_LIST_OTHER_NAME:
      /* Translators: two ingredients; which of them a line of a supplier’s is for is not known. */
      return cro_isolate_printf (_("The name is that of %s, the code that of %s."), reason->text, reason->other);
    case CRO_LIST_CODE_LIKE:
      /* Translators: a supplier’s code, and a pack of the same ingredient: "103, 1 kg". */
      return cro_isolate_printf (_("The code %s is new, and nearly that of %s. Is it another pack?"), row->code,
                                 reason->text);
    case CRO_LIST_UNIT_UNKNOWN:
      return cro_isolate_printf (_("The unit %s is not known."), reason->text);
    case CRO_LIST_PACKAGE:
      package = dup_package (reason->text);
      /* Translators: a package: "case (XCS)". */
      return cro_isolate_printf (_("%s does not say what the pack holds, and the book has no pack of this code."),
                                 package);
    case CRO_LIST_CURRENCY:
      return g_strdup_printf (_("The price is in %s, the supplier’s prices are in %s."), reason->text, reason->other);
    case CRO_LIST_NO_RATE:
      return g_strdup_printf (_("There is no exchange rate for %s."), reason->text);
    case CRO_LIST_GOODS_OR_PRICE:
      return cro_words_list_goods_or_price (row, reason->text);
    case CRO_LIST_MORE_BACK:
      return cro_words_list_more_back (row, reason);
    case CRO_LIST_TWICE:
      /* Translators: the number of a line. */
      return g_strdup_printf (_("Line %s has another price for the same pack."), reason->text);
    case CRO_LIST_GIVES_WAY:
      /* Translators: the number of a line. */
      return g_strdup_printf (_("Its price is not posted: line %s was said to be right."), reason->text);
    case CRO_LIST_SHARE:
      package = cro_words_list_money (list, (CroNano) row->spread * (CRO_NANO / CRO_MICRO));
      /* Translators: money that an invoice adds or takes off as a whole. */
      return g_strdup_printf (_("Its part of the charges on the whole document: %s."), package);
    case CRO_LIST_LATER:
      return g_strdup_printf (row->is_late
                                  /* Translators: a day, after that of a delivery. */
                                  ? _("The price that the book has from %s is later than this delivery, and stays.")
                                  /* Translators: a day, after that of a delivery. */
                                  : _("Later than this delivery the book has a price from %s."),
                              reason->text);
    case CRO_LIST_GIVEN_UP:
      /* Translators: a day. */
      return g_strdup_printf (_("The pack is bought until %s, as the book says: no plate takes this price."),
                              reason->text);
    case CRO_LIST_OTHER_TYPE:
      return dup_type (reason->text);
    case CRO_LIST_OTHER_NUMBER:
      /* Translators: the number of a document, and that of one that is booked. */
      return cro_isolate_printf (_("Document %s is booked already, as %s. Is this another one?"), reason->text,
                                 reason->other);
    case CRO_LIST_OTHER_SELLER:
      /* Translators: the number of a document, a supplier. */
      return cro_isolate_printf (_("Document %s is booked for %s already."), reason->text, reason->other);
    case CRO_LIST_LAST_MOVED:
      return g_strdup (reason->text);
    case CRO_LIST_LOOK:
      return dup_look (model, row, reason->text);
    default:
      return g_strdup (plain_sentence (reason->why));
    }
}

const char *
cro_words_list_name (const CroListRow *row)
{
  return row->is_whole       ? _("charges on the whole document")
         : row->said != NULL ? row->said
         : row->name != NULL ? row->name
         : row->code != NULL ? row->code
         : row->gtin != NULL ? row->gtin
                             : "–";
}

char *
cro_words_list_row (const CroListRow *row)
{
  g_autofree char *number = g_strdup_printf ("%u", row->number);
  g_autofree char *name = g_strdup (cro_words_list_name (row));

  /* What follows has a colon of its own: "All per kg:". */
  if (g_str_has_suffix (name, ":"))
    name[strlen (name) - 1] = '\0';
  /* Translators: the number of a line, and what it is called there. */
  return cro_isolate_printf (_("line %s: %s"), number, g_strchomp (name));
}

/* --- The file as a whole --------------------------------------------------------------------------------------- */

static gboolean
has_amounts (const CroPriceList *list)
{
  for (guint i = 0; i < list->rows->len; i++)
    if (g_array_index (list->rows, CroListRow, i).per_unit != NULL)
      return TRUE;
  return list->source != CRO_LIST_INVOICE;
}

/* Which headings stand there and which are wanted. */
static char *
headings_sentence (const CroPriceList *list)
{
  gboolean has_price, has_name;
  g_autofree char *headings = cro_price_list_dup_headings (list, &has_price, &has_name);

  if (*headings == '\0')
    return g_strdup (_("it has no row of headings; wanted are “Price”, and “Product” or “Code”"));
  if (has_name)
    /* Translators: headings of columns, as a supplier wrote them. */
    return cro_isolate_printf (_("no heading says which column has the prices: %s; wanted is “Price”"), headings);
  if (has_price)
    /* Translators: headings of columns, as a supplier wrote them. */
    return cro_isolate_printf (_("no heading says what the prices are of: %s; wanted is “Product” or “Code”"),
                               headings);
  /* Translators: headings of columns, as a supplier wrote them. */
  return cro_isolate_printf (_("the headings are not understood: %s; wanted are “Price”, and “Product” or “Code”"),
                             headings);
}

/* Money of two currencies adds up to nothing. */
static char *
strange_sentence (const CroPriceList *list)
{
  g_autofree char *line = g_strdup_printf ("%u", list->strange_line);

  if (list->strange_line == 0)
    /* Translators: two currencies. */
    return cro_isolate_printf (_("the document is in %s, and a charge on all of it in %s"), list->currency,
                               list->strange);
  /* Translators: a currency, the number of a line, another currency. */
  return cro_isolate_printf (_("the document is in %s, and its line %s in %s"), list->currency, line, list->strange);
}

char *
cro_words_list_refused (const CroPriceList *list,
                        const GError       *error)
{
  if (error != NULL)
    return cro_words_error (error);
  if (list->supplier == CRO_NO_SLOT)
    return cro_isolate_printf (_("there is no supplier “%s”"), list->supplier_name);
  if (list->seller_slot != CRO_NO_SLOT && !list->is_seller_right && list->source != CRO_LIST_INVOICE)
    /* Translators: the name of a supplier above the headings of a list, and of the one to whom it was to be posted. */
    return cro_isolate_printf (_("the list is headed “%s”, another supplier of this book than “%s”"), list->seller,
                               list->supplier_name);
  if (list->seller_slot != CRO_NO_SLOT && !list->is_seller_right)
    /* Translators: the name of another supplier, and of the one for whom the invoice was to be booked. */
    return cro_isolate_printf (_("the seller of the invoice is “%s”, another supplier of this book than “%s”"),
                               list->seller, list->supplier_name);
  if (list->no_amount != NULL)
    /* Translators: what stands in a document in place of an amount. */
    return cro_isolate_printf (_("“%s” cannot be read as the amount of a charge on the whole document"),
                               list->no_amount);
  if (list->no_indicator != NULL)
    /* Translators: what stands in a document in place of “true” or “false”. */
    return cro_isolate_printf (_("“%s” does not say whether an amount on the whole document is a charge or an "
                                 "allowance"),
                               list->no_indicator);
  if (list->strange != NULL)
    return strange_sentence (list);
  if (list->price_columns != NULL)
    /* Translators: headings of columns. */
    return cro_isolate_printf (_("which column has the price to pay is not clear: %s"), list->price_columns);
  if (cro_price_list_lacks_columns (list))
    return headings_sentence (list);
  if (list->rows->len == 0)
    return g_strdup (_("there are no prices in it"));
  if (!has_amounts (list))
    return g_strdup (_("no line has a quantity and a price"));
  if (list->is_all_booked && list->document == NULL)
    return g_strdup (_("the book has all lines of this invoice; it has no number, and was known by its date"));
  if (list->is_booked_otherwise)
    return cro_isolate_printf (_("the book has purchases of document %s with other amounts"), list->document);
  if (list->is_all_booked)
    return cro_isolate_printf (_("document %s is booked already"), list->document);
  return NULL;
}

char *
cro_words_list_minor (const CroPriceList *list,
                      gint64              minor)
{
  g_autofree char *text = cro_money_to_text (minor, cro_currency_digits (list->currency));

  return list->is_foreign ? g_strdup_printf ("%s %s", text, list->currency) : g_steal_pointer (&text);
}

char *
cro_words_list_money (const CroPriceList *list,
                      CroNano             value)
{
  int digits = cro_currency_digits (list->currency);
  gint64 micro;

  if (!cro_exact_to_micro (value, &micro))
    return cro_exact_to_text (value, (guint) digits);
  return cro_words_list_minor (list, cro_money_round (cro_decimal_to_double (micro), digits));
}

/* As they are booked, in the currency of the book. FALSE: they have no value there. */
static gboolean
sum_purchases (const CroPriceList *list,
               CroModel           *model,
               gboolean          (*counts) (const CroListRow *row),
               CroNano            *sum)
{
  gboolean has_all = TRUE;

  *sum = 0;
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);
      CroListPurchase purchase;

      if (!counts (row))
        continue;
      if (cro_list_purchase_of (list, model, row, &purchase))
        *sum += (CroNano) purchase.net_value * (CRO_NANO / CRO_MICRO);
      else
        has_all = FALSE;
    }
  return has_all;
}

static char *
sum_of (const CroPriceList *list,
        CroModel           *model,
        gboolean          (*counts) (const CroListRow *row))
{
  CroNano sum = 0, in_book;
  g_autofree char *money_of_list = NULL, *money_of_book = NULL;
  gboolean has_all = sum_purchases (list, model, counts, &in_book);
  gint64 micro;

  for (guint i = 0; i < list->rows->len; i++)
    if (counts (&g_array_index (list->rows, CroListRow, i)))
      sum += (CroNano) cro_list_row_value (&g_array_index (list->rows, CroListRow, i)) * (CRO_NANO / CRO_MICRO);
  if (!list->is_foreign)
    return cro_words_list_money (list, has_all ? in_book : sum);
  money_of_list = cro_words_list_money (list, sum);
  if (!cro_exact_to_micro (in_book, &micro))
    return g_steal_pointer (&money_of_list);
  money_of_book = cro_money_to_text (cro_money_round (cro_decimal_to_double (micro),
                                                      cro_currency_digits (model->currency)),
                                     cro_currency_digits (model->currency));
  return g_strdup_printf ("%s (%s %s)", money_of_list, money_of_book, model->currency);
}

static gboolean
is_booked (const CroListRow *row)
{
  return row->is_booked;
}

static gboolean
is_in_book (const CroListRow *row)
{
  return row->is_booked && row->is_in_book;
}

static gboolean
is_to_book (const CroListRow *row)
{
  return row->is_booked && !row->is_in_book;
}

static char *
booked_of (const CroPriceList *list,
           CroModel           *model,
           gboolean          (*counts) (const CroListRow *row))
{
  g_autofree char *booked = NULL, *all = NULL, *turned = NULL;
  CroNano net = cro_price_list_net (list), back = 0;

  if (list->source != CRO_LIST_INVOICE)
    return NULL;
  /* What the document asks for, and gives back as somebody said. */
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (row->is_turned && counts (row))
        back -= (CroNano) row->net_value * (2 * CRO_NANO / CRO_MICRO);
    }
  booked = sum_of (list, model, counts);
  all = cro_words_list_money (list, list->is_credit ? -net : net);
  turned = cro_words_list_money (list, back);
  if (back != 0)
    /* Translators: money that was booked of an invoice, what it comes to, and by how much less that is since some of
     * what it asks for is given back. */
    return g_strdup_printf (_("booked %s of %s, %s less for what is given back"), booked, all, turned);
  /* Translators: money that was booked of an invoice, and what it comes to. */
  return g_strdup_printf (_("booked %s of %s"), booked, all);
}

char *
cro_words_list_booked (const CroPriceList *list,
                       CroModel           *model)
{
  return booked_of (list, model, is_booked);
}

char *
cro_words_list_in_book (const CroPriceList *list,
                        CroModel           *model)
{
  return booked_of (list, model, is_in_book);
}

char *
cro_words_list_to_book (const CroPriceList *list,
                        CroModel           *model)
{
  gboolean has_any = FALSE;
  g_autofree char *sum = sum_of (list, model, is_to_book);

  for (guint i = 0; i < list->rows->len; i++)
    has_any |= is_to_book (&g_array_index (list->rows, CroListRow, i));
  /* Translators: money of an invoice that will be booked. */
  return has_any ? g_strdup_printf (_("posting books %s"), sum) : NULL;
}
