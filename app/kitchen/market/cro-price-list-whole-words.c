/* What a whole document comes to, and what becomes of its allowances and charges. */
#include "config.h"

#include "cro-price-list-words.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"

char *
cro_words_list_not_spread (const CroPriceList *list)
{
  g_autofree char *value = cro_words_list_money (list, list->charges - list->allowances);

  switch (list->no_spread)
    {
    case CRO_SPREAD_DONE:
      return NULL;
    case CRO_SPREAD_NO_GOODS:
      /* Translators: money that an invoice adds or takes off as a whole. */
      return g_strdup_printf (_("charges on the whole document cannot be spread: %s, and no goods were delivered"),
                              value);
    case CRO_SPREAD_FREE_GOODS:
      /* Translators: money that an invoice adds or takes off as a whole. */
      return g_strdup_printf (_("charges on the whole document cannot be spread: %s, and the goods cost nothing"),
                              value);
    case CRO_SPREAD_PART_OF_MINOR:
      g_free (value);
      value = cro_exact_to_text (list->charges - list->allowances, 6);
      /* Translators: money of more decimals than its currency has. */
      return g_strdup_printf (_("charges on the whole document cannot be spread: %s has more decimals than its "
                                "currency"),
                              value);
    case CRO_SPREAD_ABOVE_GOODS:
      /* Translators: money that an invoice takes off as a whole, negative. */
      return g_strdup_printf (_("charges on the whole document cannot be spread: %s, more than the goods come to"),
                              value);
    }
  g_return_val_if_reached (NULL);
}

/* What nobody has said, and what is left out. */
static char *
unspread_sentence (const CroPriceList *list)
{
  g_autofree char *allowances = cro_words_list_money (list, list->allowances);
  g_autofree char *charges = cro_words_list_money (list, list->charges);
  gboolean is_left = list->whole == CRO_WHOLE_LEFT_OUT;

  if (list->charges == 0)
    return g_strdup_printf (is_left
                                /* Translators: money that an invoice takes off as a whole. */
                                ? _("allowances of %s on the whole document are left out")
                                /* Translators: money that an invoice takes off as a whole. */
                                : _("allowances of %s on the whole document are not spread over its lines or booked"),
                            allowances);
  if (list->allowances == 0)
    return g_strdup_printf (is_left
                                /* Translators: money that an invoice adds as a whole. */
                                ? _("charges of %s on the whole document are left out")
                                /* Translators: money that an invoice adds as a whole. */
                                : _("charges of %s on the whole document are not spread over its lines or booked"),
                            charges);
  return g_strdup_printf (is_left
                              /* Translators: money that an invoice takes off, and adds, as a whole. */
                              ? _("allowances of %s and charges of %s on the whole document are left out")
                              /* Translators: money that an invoice takes off, and adds, as a whole. */
                              : _("allowances of %s and charges of %s on the whole document are not spread over its "
                                  "lines or booked"),
                          allowances, charges);
}

static gint64
sum_that_waits (const CroPriceList *list)
{
  gint64 sum = 0;

  for (guint i = 0; i < list->rows->len; i++)
    if (!g_array_index (list->rows, CroListRow, i).is_booked)
      sum += g_array_index (list->rows, CroListRow, i).spread;
  return sum;
}

static char *
spread_sentence (const CroPriceList *list,
                 const char         *value)
{
  gint64 waits = sum_that_waits (list);
  g_autofree char *part = cro_words_list_money (list, (CroNano) waits * (CRO_NANO / CRO_MICRO));

  if (waits == 0)
    /* Translators: money that an invoice adds or takes off as a whole. */
    return g_strdup_printf (_("charges on the whole document, spread over its goods: %s"), value);
  /* Translators: money that an invoice adds or takes off as a whole, and how much of it is of lines that wait. */
  return g_strdup_printf (_("charges on the whole document, spread over its goods: %s, of it %s on lines that wait"),
                          value, part);
}

/* Of a row of its own, of which a person may have said that it is disposables. */
static char *
booked_sentence (const CroPriceList *list,
                 const char         *value)
{
  const CroListRow *row = NULL;

  for (guint i = 0; i < list->rows->len; i++)
    if (g_array_index (list->rows, CroListRow, i).is_whole)
      row = &g_array_index (list->rows, CroListRow, i);
  if (row != NULL && !row->is_booked)
    /* Translators: money that an invoice adds or takes off as a whole. */
    return g_strdup_printf (_("charges on the whole document, which wait: %s"), value);
  return g_strdup_printf (row != NULL && row->goods == CRO_LIST_GOODS_DISPOSABLE
                              /* Translators: money that an invoice adds or takes off as a whole. */
                              ? _("charges on the whole document, booked as disposables: %s")
                              /* Translators: money that an invoice adds or takes off as a whole. */
                              : _("charges on the whole document, booked as other purchases: %s"),
                          value);
}

char *
cro_words_list_unspread (const CroPriceList *list)
{
  g_autofree char *value = NULL;

  if (list->allowances == 0 && list->charges == 0)
    return NULL;
  if (list->no_spread != CRO_SPREAD_DONE)
    return cro_words_list_not_spread (list);
  if (list->whole != CRO_WHOLE_SPREAD && list->whole != CRO_WHOLE_BOOKED)
    return unspread_sentence (list);
  value = cro_words_list_money (list, list->is_credit ? list->allowances - list->charges
                                                      : list->charges - list->allowances);
  return list->whole == CRO_WHOLE_SPREAD ? spread_sentence (list, value) : booked_sentence (list, value);
}

char *
cro_words_list_total (const CroPriceList *list)
{
  CroNano net = cro_price_list_net (list);
  gboolean is_off = list->has_total && list->total != list->sum;
  g_autofree char *says = cro_words_list_money (list, is_off ? list->total : list->net_total);
  g_autofree char *sum = cro_words_list_money (list, is_off ? list->sum : net);

  if (is_off)
    /* Translators: money. */
    return g_strdup_printf (_("the invoice says that its lines add up to %s, and they add up to %s"), says, sum);
  if (!list->has_net_total || list->net_total == net)
    return NULL;
  /* Translators: money. */
  return g_strdup_printf (_("the invoice says that it comes to %s without tax, and it adds up to %s"), says, sum);
}
