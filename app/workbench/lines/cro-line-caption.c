#include "config.h"

#include "cro-line-caption.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-cause.h"
#include "cro-known.h"
#include "cro-last-price.h"
#include "cro-line-doubt.h"
#include "cro-words.h"

static void
add_part (GString    *caption,
          const char *part)
{
  if (caption->len > 0)
    g_string_append (caption, " · ");
  g_string_append (caption, part);
}

/* "4 kg trimmed buys 16 kg. Weigh as bought?" */
static void
add_doubt (CroFigures *figures,
           guint32     line,
           GString    *caption)
{
  const CroModel *model = figures->model;
  CroBase base = (CroBase) model->measures[model->lines.item[line]].base;
  g_autofree char *trimmed = NULL, *whole = NULL, *part = NULL;
  double net, bought;

  if (!cro_line_loses_twice (figures, line, &net, &bought))
    return;
  trimmed = cro_words_amount (base, net);
  whole = cro_words_amount (base, bought);
  /* Translators: a loss to trimming is likely counted twice; two amounts. */
  part = g_strdup_printf (_("%s trimmed means buying %s. Weigh as bought?"), trimmed, whole);
  add_part (caption, part);
}

/* Below 0 for want of a price it may be above it. */
static gboolean
is_over_credited (CroFigures *figures,
                  guint32     item,
                  double      cost)
{
  g_autoptr (GArray) causes = cost < 0 ? cro_causes_of_item (figures, item) : NULL;

  return causes != NULL && cro_causes_are_of_credit (causes);
}

char *
cro_line_caption_dup (CroFigures *figures,
                      guint32     line,
                      double      cost,
                      const char *note)
{
  CroModel *model = figures->model;
  guint32 item = model->lines.item[line];
  const CroMeasure *measure = &model->measures[item];
  gint64 yield = cro_line_yield (&model->lines, line, measure);
  gint32 recovered = model->lines.recovered[line];
  g_autofree char *last = cro_words_last_price (figures, item);
  GString *caption = g_string_new (NULL);

  add_doubt (figures, line, caption);
  if (model->lines.whole[line] && measure->trim_yield != 0)
    add_part (caption, _("as bought"));
  if (yield != CRO_WHOLE_PCT)
    {
      g_autofree char *pct = cro_words_decimal (yield);
      /* Translators: of a line: how much of what is bought is used. */
      g_autofree char *part = g_strdup_printf (_("yield %s %%"), pct);

      add_part (caption, part);
    }
  if (recovered != 0)
    {
      g_autofree char *pct = cro_words_decimal (recovered);
      g_autofree char *part = g_strdup_printf (_("%s %% comes back"), pct);

      add_part (caption, part);
    }
  if (!isnan (cost) && cro_known_of_taken (figures, item, cost) != CRO_KNOWN_WHOLE)
    add_part (caption, is_over_credited (figures, item, cost) ? _("credited more than it costs")
                                                              : _("cost incomplete"));
  if (last != NULL)
    add_part (caption, last);
  if (note != NULL)
    add_part (caption, note);
  return g_string_free (caption, FALSE);
}
