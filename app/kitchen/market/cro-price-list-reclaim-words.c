/* What was billed of a line against what was quoted, and what goes back against what was billed, as sentences. */
#include "config.h"

#include "cro-price-list-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-unit-code-words.h"
#include "cro-words.h"

/* "20 kg", "2 cases". */
static char *
amount_of (const CroListRow *row)
{
  gboolean is_one = fabs (g_ascii_strtod (row->quantity, NULL)) == 1;
  const char *unit = row->unit != NULL ? cro_words_unit_code (row->unit, is_one ? 1 : 2) : NULL;

  return row->unit == NULL ? g_strdup (row->quantity)
                           : g_strdup_printf ("%s %s", row->quantity, unit != NULL ? unit : row->unit);
}

char *
cro_words_list_reclaim (CroModel           *model,
                        const CroPriceList *list,
                        const CroListRow   *row)
{
  g_autofree char *billed = NULL, *quoted = NULL, *difference = NULL, *amount = NULL;
  const char *name;
  int digits = cro_currency_digits (list->currency);
  gint64 minor;

  if (row->reclaim == CRO_NOT_SET || row->reclaim == 0)
    return NULL;
  minor = cro_money_round (cro_decimal_to_double (row->net_value), digits);
  billed = cro_words_list_minor (list, minor);
  quoted = cro_words_list_minor (list, minor - row->reclaim);
  difference = cro_words_list_minor (list, ABS (row->reclaim));
  name = cro_model_item (model, row->item)->name;
  amount = amount_of (row);
  if (row->reclaim > 0)
    /* Translators: an ingredient, a quantity, and money. */
    return cro_isolate_printf (_("%s, %s: quoted %s, billed %s, %s to reclaim"), name, amount, quoted, billed,
                               difference);
  /* Translators: an ingredient, a quantity, and money. */
  return cro_isolate_printf (_("%s, %s: quoted %s, billed %s, %s less"), name, amount, quoted, billed, difference);
}

char *
cro_words_list_reclaim_all (const CroPriceList *list)
{
  g_autofree char *text = NULL;

  if (list->reclaim == CRO_NOT_SET || list->reclaim <= 0)
    return NULL;
  text = cro_words_list_minor (list, list->reclaim);
  /* Translators: money that a supplier billed above what was quoted. */
  return g_strdup_printf (_("%s to reclaim"), text);
}

/* --- What goes back ------------------------------------------------------------------------------------- */

char *
cro_words_list_goods_or_price (const CroListRow *row,
                               const char       *billed)
{
  g_autofree char *pack = cro_pack_to_short_text (&row->pack);
  g_autofree char *credited = cro_words_price_shown (row->currency, row->price);
  gint64 price = billed != NULL ? g_ascii_strtoll (billed, NULL, 10) : 0;
  g_autofree char *paid = cro_words_price_shown (row->currency, price);

  if (billed == NULL)
    /* Translators: of a credit note: a price, the pack that it is for ("1 kg"). */
    return g_strdup_printf (_("The credit is %s for %s, of which the book has neither a price nor a purchase: do the "
                              "goods go back, or a part of the price?"), credited, pack);
  if (row->price > price)
    /* Translators: of a credit note: a price, the pack that it is for ("1 kg"), the price that was billed for that. */
    return g_strdup_printf (_("The credit is %s for %s, more than the price, which was %s: do the goods go back, or a "
                              "part of the price?"), credited, pack, paid);
  /* Translators: of a credit note: a price, the pack that it is for ("1 kg"), the price that was billed for that. */
  return g_strdup_printf (_("The credit is %s for %s, the price was %s: do the goods go back, or a part of the price?"),
                          credited, pack, paid);
}

char *
cro_words_list_more_back (const CroListRow    *row,
                          const CroListReason *reason)
{
  if (row->back == CRO_LIST_BACK_PRICE)
    /* Translators: money that is credited, and what was billed less earlier credits. */
    return g_strdup_printf (_("%s of the price is credited, and of what was billed %s is not credited yet. Is it "
                              "right?"), reason->text, reason->other);
  /* Translators: an amount that goes back, and what was bought less what went back. */
  return g_strdup_printf (_("%s goes back, and of what was bought %s has not gone back yet. Is it right?"),
                          reason->text, reason->other);
}
