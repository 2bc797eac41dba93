/* As what a list was read: its columns, sheet, day and seller. */
#include "config.h"

#include "cro-price-list-words.h"

#include <glib/gi18n.h>

#include "cro-bring-words.h"
#include "cro-number.h"
#include "cro-here.h"
#include "cro-isolate.h"

char *
cro_words_list_columns (const CroPriceList *list)
{
  g_autoptr (GString) roles = g_string_new (NULL);

  if (list->columns == NULL || !list->is_as_said)
    return NULL;
  for (guint i = 0; i < list->columns->n_columns; i++)
    if (list->columns->roles[i] != CRO_ROLE_NONE)
      g_string_append_printf (roles, "%s%s", roles->len > 0 ? ", " : "", cro_words_role (list->columns->roles[i]));
  /* Translators: what the columns of a supplier’s list hold. */
  return cro_isolate_printf (_("columns as last time: %s"), roles->str);
}

char *
cro_words_list_date (const CroPriceList *list)
{
  g_autofree char *day = cro_date_to_text (list->delivered), *dated = cro_date_to_text (list->dated);

  if (list->source == CRO_LIST_TABLE && list->dated != CRO_NO_DAY && list->dated != list->from)
    /* Translators: a day. */
    return g_strdup_printf (_("the list says that its prices hold from %s"), dated);
  if (list->source == CRO_LIST_INVOICE && list->delivered > list->from && list->delivered > cro_here_today ())
    /* Translators: a day. */
    return g_strdup_printf (_("the invoice is booked on %s, which is in the future"), day);
  if (list->no_date == NULL)
    return NULL;
  /* Translators: a date as it stands in a document, and the day that is taken in its place. */
  return cro_isolate_printf (_("“%s” is not a date; the invoice is booked on %s"), list->no_date, day);
}

char *
cro_words_list_seller (const CroPriceList *list)
{
  if (!cro_price_list_is_other_seller (list))
    return NULL;
  if (list->source != CRO_LIST_INVOICE)
    /* Translators: the name of a supplier above the headings of a list. */
    return cro_isolate_printf (_("the list is headed “%s”"), list->seller);
  return cro_isolate_printf (_("the invoice names “%s” as seller"), list->seller);
}

char *
cro_words_list_sheet (const CroPriceList *list)
{
  guint n = list->sheets != NULL ? g_strv_length (list->sheets) : 0;
  g_autofree char *count = NULL;

  if (n < 2 || list->columns == NULL || list->columns->sheet >= n)
    return NULL;
  count = g_strdup_printf ("%u", n);
  /* Translators: the name of a workbook’s sheet, and how many it has. */
  return cro_isolate_printf (_("read from the sheet “%s” of %s"), list->sheets[list->columns->sheet], count);
}
