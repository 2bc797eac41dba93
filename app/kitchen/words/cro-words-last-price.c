#include "config.h"

#include "cro-last-price.h"

#include <glib/gi18n.h>

#include "cro-number.h"

char *
cro_words_last_price (CroFigures *figures,
                      guint32     item)
{
  gboolean is_bought = figures->model->maker[item] < 0;
  CroDate since = is_bought ? figures->last_price[item] : CRO_NO_DAY;
  g_autofree char *date = since != CRO_NO_DAY ? cro_date_to_text (since) : NULL;

  /* Translators: of an ingredient, which is costed all the same; %s is a date. */
  return date != NULL ? g_strdup_printf (_("last price, not to be had since %s"), date) : NULL;
}

const char *
cro_words_not_to_be_had (void)
{
  return _("not to be had");
}

gboolean
cro_text_is_not_to_be_had (const char *text)
{
  static const char *const dashes[] = { "-", "–", "—", "−", NULL };
  g_autofree char *alone = g_strstrip (g_strdup (text));

  return g_strv_contains (dashes, alone) || g_strcmp0 (alone, cro_words_not_to_be_had ()) == 0;
}
