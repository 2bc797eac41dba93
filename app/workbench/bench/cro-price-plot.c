#include "config.h"

#include "cro-price-plot.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-price-history.h"
#include "cro-ref.h"
#include "cro-words.h"

/* The prices of one offer, oldest first; the history is the other way round. */
static void
add_series (GArray  *values,
            GArray  *history,
            guint32  offer,
            guint    series)
{
  for (guint i = history->len; i-- > 0;)
    {
      const CroPastPrice *price = &g_array_index (history, CroPastPrice, i);
      CroPlotValue value = { series, price->offer_then.from, price->unit_cost };

      if (price->offer == offer && !isnan (price->unit_cost))
        g_array_append_val (values, value);
    }
}

static GArray *
values_of (CroFigures *figures,
           guint32     ingredient,
           guint32     first,
           GArray     *history)
{
  GArray *values = g_array_new (FALSE, FALSE, sizeof (CroPlotValue));
  const CroItem *item = cro_model_item (figures->model, ingredient);
  guint series = 0;

  add_series (values, history, first, series++);
  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 offer = g_array_index (figures->model->offer_order, guint32, item->first_offer + i);

      if (offer != first
          && g_strcmp0 (cro_model_currency_of (figures->model, offer),
                        cro_model_currency_of (figures->model, first))
                 == 0)
        add_series (values, history, offer, series++);
    }
  return values;
}

static char *
dup_end (CroModel *model,
         guint32   first,
         CroBase   base,
         double    value)
{
  g_autofree char *text = cro_words_unit_cost (model, base, value);
  const char *currency = cro_model_currency_of (model, first);

  return g_strcmp0 (currency, model->currency) != 0 ? g_strdup_printf ("%s %s", currency, text)
                                                    : g_steal_pointer (&text);
}

static char *
dup_sentence (GArray     *values,
              const char *low,
              const char *high,
              double      least,
              double      most)
{
  CroDate cheap = 0, dear = 0;
  g_autofree char *from_low = NULL, *from_high = NULL;

  for (guint i = 0; i < values->len; i++)
    {
      const CroPlotValue *value = &g_array_index (values, CroPlotValue, i);

      if (!(value->value > least))
        cheap = value->day;
      if (!(value->value < most))
        dear = value->day;
    }
  if (!(most > least))
    /* Translators: %s is a price per unit. */
    return g_strdup_printf (_("The price has always been %s."), low);
  from_low = cro_date_to_text (cheap);
  from_high = cro_date_to_text (dear);
  /* Translators: a price per unit and the date from which it held, twice. */
  return g_strdup_printf (_("Lowest %s from %s, highest %s from %s."), low, from_low, high,
                          from_high);
}

/* Whose line is which, where there are several. */
static char *
dup_whole (CroModel *model,
           guint32   first,
           GArray   *values)
{
  if (g_array_index (values, CroPlotValue, values->len - 1).series == 0)
    return NULL;
  /* Translators: %s is a supplier; the lines of others are dashed. */
  return cro_isolate_printf (_("Solid line: %s."), cro_ref_name (model, CRO_REF (CRO_REF_OFFER, first)));
}

char *
cro_price_plot_set (CroPlot    *plot,
                    CroFigures *figures,
                    guint32     ingredient,
                    GArray     *history)
{
  CroModel *model = figures->model;
  CroBase base = (CroBase) model->measures[ingredient].base;
  guint32 first = figures->offer_in_use[ingredient];
  g_autoptr (GArray) values = NULL;
  g_autofree char *low = NULL, *high = NULL, *sentence = NULL, *whole = NULL;
  double least, most;

  if (first == CRO_NO_SLOT && history->len > 0)
    first = g_array_index (history, CroPastPrice, 0).offer;
  values = first != CRO_NO_SLOT ? values_of (figures, ingredient, first, history)
                                : g_array_new (FALSE, FALSE, sizeof (CroPlotValue));
  cro_plot_set (plot, (const CroPlotValue *) values->data, values->len, figures->date, NAN);
  /* From the first price on: a second one moves no field. */
  gtk_widget_set_visible (GTK_WIDGET (plot), values->len > 0);
  if (values->len == 0)
    return g_strdup ("");
  cro_plot_get_range (plot, &least, &most);
  low = dup_end (model, first, base, least);
  high = dup_end (model, first, base, most);
  sentence = dup_sentence (values, low, high, least, most);
  cro_plot_tell (plot, low, high, sentence);
  whole = dup_whole (model, first, values);
  return g_strjoin (" ", sentence, whole, NULL);
}
