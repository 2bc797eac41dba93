#include "config.h"

#include "cro-source-words.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-ref.h"
#include "cro-sum.h"
#include "cro-words.h"

static void
add_part (GString    *text,
          const char *joint,
          const char *part)
{
  if (text->len > 0)
    g_string_append (text, joint);
  g_string_append (text, part);
}

/* --- Prices ------------------------------------------------------------------------------------ */

static char *
dup_pack (const CroOffer *offer)
{
  CroPack pack = { offer->pack_count, offer->pack_size, offer->pack_unit };
  g_autofree char *size = NULL;

  if (offer->pack_count != CRO_MICRO)
    return cro_pack_to_text (&pack);
  size = cro_words_decimal (offer->pack_size);
  return g_strdup_printf ("%s %s", size, cro_words_unit (offer->pack_unit));
}

static gboolean
is_stale (const CroFigures *figures,
          const CroOffer   *offer)
{
  gint64 most = figures->model->stale_after_days;

  return most != CRO_NOT_SET && figures->date - offer->from > cro_decimal_to_double (most);
}

/* Of a preferred pack that is not in use any more: who reads the card may still count on it. */
static void
add_expired (GString    *text,
             CroFigures *figures,
             guint32     item)
{
  CroModel *model = figures->model;
  const CroItem *of = cro_model_item (model, item);

  for (guint32 i = 0; i < of->n_offers; i++)
    {
      guint32 slot = g_array_index (model->offer_order, guint32, of->first_offer + i);
      const CroOffer *offer = &cro_model_offer (model, slot)->offer;
      g_autofree char *until = NULL, *part = NULL;

      if (!offer->is_preferred || !offer->has_until || offer->until >= figures->date)
        continue;
      until = cro_date_to_text (offer->until);
      /* Translators: a supplier whose pack is preferred, and its last day. */
      part = cro_isolate_printf (_("the preferred pack of %s expired on %s"),
                                 cro_ref_name (model, CRO_REF (CRO_REF_OFFER, slot)), until);
      add_part (text, _("; "), part);
    }
}

static void
add_offer (GString    *text,
           CroFigures *figures,
           guint32     slot)
{
  CroModel *model = figures->model;
  const CroOfferEntry *entry = cro_model_offer (model, slot);
  const CroOffer *offer = &entry->offer;
  const char *currency = cro_model_currency_of (model, slot);
  int days = (int) (figures->date - offer->from);
  g_autofree char *pack = dup_pack (offer);
  g_autofree char *price = cro_words_price_in (currency, offer->price);
  g_autofree char *since = cro_date_to_text (offer->from);
  g_autofree char *source = NULL;
  g_autofree char *age = g_strdup_printf (ngettext ("%d day", "%d days", (gulong) days), days);

  if (currency != NULL)
    /* Translators: a supplier, a pack, its price and currency, a date, its age as "3 days". */
    source = cro_isolate_printf (_("%s, %s for %s %s, since %s (%s)"),
                                 cro_ref_name (model, CRO_REF (CRO_REF_OFFER, slot)), pack, price, currency, since,
                                 age);
  else
    /* Translators: a supplier, a pack, its price, a date, its age as "3 days". */
    source = cro_isolate_printf (_("%s, %s for %s, since %s (%s)"),
                                 cro_ref_name (model, CRO_REF (CRO_REF_OFFER, slot)), pack, price, since, age);
  g_string_append (text, source);
  if (is_stale (figures, offer))
    add_part (text, _("; "), _("older than the book allows, and there is no newer one"));
}

const char *
cro_words_offer_lacks (unsigned lacks)
{
  if (lacks & CRO_OFFER_LACKS_PRICE)
    return _("no price");
  if (lacks & CRO_OFFER_LACKS_RATE)
    return _("no exchange rate");
  if (lacks & CRO_OFFER_LACKS_DENSITY)
    return _("no density: cannot be converted");
  if (lacks & CRO_OFFER_LACKS_PIECE)
    return _("no piece weight: cannot be converted");
  return NULL;
}

char *
cro_words_price_source (CroFigures *figures,
                        guint32     item)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (figures->offer_in_use[item] != CRO_NO_SLOT)
    add_offer (text, figures, figures->offer_in_use[item]);
  else
    g_string_append (text, cro_words_offer_lacks (figures->offer_lacks[item]));
  add_expired (text, figures, item);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* --- Lines --------------------------------------------------------------------------------------- */

static void
add_lack (GString    *text,
          CroModel   *model,
          guint32     line)
{
  guint32 item = model->lines.item[line];
  unsigned lacks = cro_line_lacks (&model->lines, line, &model->measures[item]);
  CroCause cause = { lacks & CRO_LACKS_DENSITY ? CRO_CAUSE_DENSITY : CRO_CAUSE_PIECE,
                     cro_model_item (model, item)->name };
  g_autofree char *what = NULL, *part = NULL;

  if (lacks == CRO_LACKS_NOTHING)
    return;
  what = cro_words_cause (&cause);
  /* Translators: %s says what is missing: "no density for brine". */
  part = g_strdup_printf (_("cannot be converted: %s"), what);
  add_part (text, " · ", part);
}

/* Of what is shown in another unit than it was written in: that, and what it is converted by. */
static void
add_entered (GString  *text,
             CroModel *model,
             guint32   line,
             gboolean  is_scaled)
{
  const CroMeasure *measure = &model->measures[model->lines.item[line]];
  CroUnit unit = (CroUnit) model->lines.unit[line];
  CroBase from = cro_unit_get (unit)->base, to = (CroBase) measure->base;
  g_autofree char *amount = cro_words_decimal (model->lines.amount[line]);
  g_autofree char *entered = NULL, *ratio = NULL, *by = NULL;

  if ((from == to && cro_sum_is_plain_unit (unit))
      || cro_line_lacks (&model->lines, line, measure) != CRO_LACKS_NOTHING)
    return;
  /* Translators: a number and a unit. */
  entered = g_strdup_printf (is_scaled ? _("entered as %s %s per batch") : _("entered as %s %s"),
                             amount, cro_words_unit (unit));
  add_part (text, " · ", entered);
  if (from == to)
    return;
  ratio = cro_number_to_text (measure->grams[from == CRO_BASE_EACH || to == CRO_BASE_EACH
                                                 ? CRO_BASE_EACH
                                                 : CRO_BASE_MILLILITRE], 6, TRUE);
  by = g_strdup_printf (from == CRO_BASE_EACH || to == CRO_BASE_EACH ? _("%s g per piece")
                                                                     : _("density %s g/ml"), ratio);
  add_part (text, " · ", by);
}

char *
cro_words_line_factors (CroFigures *figures,
                        guint32     line,
                        gboolean    is_scaled)
{
  CroModel *model = figures->model;
  const CroMeasure *measure = &model->measures[model->lines.item[line]];
  gint64 yield = cro_line_yield (&model->lines, line, measure);
  gint64 recovered = model->lines.recovered[line];
  g_autoptr (GString) text = g_string_new (NULL);

  add_entered (text, model, line, is_scaled);
  if (model->lines.whole[line] && measure->trim_yield != 0)
    add_part (text, " · ", _("as bought"));
  if (yield != CRO_WHOLE_PCT)
    {
      g_autofree char *pct = cro_words_decimal (yield);
      g_autofree char *part = g_strdup_printf (_("yield %s %%"), pct);

      add_part (text, " · ", part);
    }
  if (recovered != 0)
    {
      g_autofree char *pct = cro_words_decimal (recovered);
      g_autofree char *part = g_strdup_printf (_("%s %% comes back"), pct);

      add_part (text, " · ", part);
    }
  add_lack (text, model, line);
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}
