/* What was billed of a line against what was quoted, as sentences. */
#include "config.h"

#include "cro-price-list-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-unit-code-words.h"

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
