#include "config.h"

#include "cro-office-notes.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-reach.h"
#include "cro-rule.h"
#include "cro-source-words.h"
#include "cro-words.h"

const char *
cro_office_ingredient_note (CroFigures *figures,
                            guint32     slot)
{
  if (figures->offer_in_use[slot] != CRO_NO_SLOT)
    return figures->last_price[slot] != CRO_NO_DAY ? _("last price") : NULL;
  return cro_words_offer_lacks (figures->offer_lacks[slot]);
}

const char *
cro_office_offer_state (const CroOfferEntry *entry,
                        unsigned             lacks,
                        gboolean             is_in_use)
{
  const CroOffer *offer = &entry->offer;
  gboolean is_not_to_be_had = entry->price_id != 0 && !offer->has_price;

  if (lacks & CRO_OFFER_LEFT)
    return is_in_use ? _("in use: last price, no longer available") : _("no longer available");
  if (is_not_to_be_had)
    return is_in_use ? _("in use: last price, not to be had") : _("not to be had");
  if (lacks != CRO_OFFER_PRICED)
    return cro_words_offer_lacks (lacks);
  if (is_in_use)
    return offer->is_preferred ? _("in use, preferred") : _("in use");
  return offer->is_preferred ? _("preferred") : NULL;
}

const char *
cro_office_line_note (CroFigures *figures,
                      guint32     line)
{
  CroModel *model = figures->model;
  guint32 slot = model->lines.item[line];
  const CroMeasure *measure = &model->measures[slot];
  const CroItem *item = cro_model_item (model, slot);
  unsigned lacks = cro_line_lacks (&model->lines, line, measure);

  if (lacks != CRO_LACKS_NOTHING)
    return cro_words_offer_lacks (lacks);
  if (isnan (cro_figures_unit_cost (figures, slot)))
    return measure->is_bought ? cro_words_offer_lacks (figures->offer_lacks[slot])
                              : _("cost not known");
  if (figures->node_bits[cro_figures_node (figures, slot)] & CRO_REACH_INCOMPLETE)
    return _("incomplete");
  if (!measure->is_bought && !item->is_main
      && cro_rule_frees ((CroRule) cro_model_recipe (model, (guint32) model->maker[slot])->rule))
    return _("carries no cost");
  if (cro_line_is_assumed (&model->lines, line, measure))
    return _("trim yield not known: taken as 100 %");
  return NULL;
}

static char *
dup_contained (guint64  bits,
               gboolean is_ingredient)
{
  g_autofree char *groups = NULL;

  if (is_ingredient && (bits & CRO_ALLERGENS_NOT_KNOWN))
    return g_strdup (_("not known"));
  groups = cro_words_allergens (bits & CRO_ALLERGENS_ALL);
  if (!(bits & CRO_ALLERGENS_NOT_KNOWN))
    return g_steal_pointer (&groups);
  if (!(bits & CRO_ALLERGENS_ALL))
    return g_strdup (_("not known of some ingredients"));
  /* Translators: %s lists groups of allergens. */
  return g_strdup_printf (_("%s; not known of some ingredients"), groups);
}

char *
cro_office_dup_allergens (guint64  bits,
                          gboolean is_ingredient)
{
  char *contained = dup_contained (bits, is_ingredient);
  guint32 traces = (guint32) (bits >> CRO_REACH_MAY_CONTAIN_SHIFT) & CRO_ALLERGENS_ALL;
  g_autofree char *first = NULL, *groups = NULL;

  if (traces == 0)
    return contained;
  first = contained;
  groups = cro_words_allergens (traces);
  /* Translators: what is contained, and the groups of allergens that labels warn of. */
  return g_strdup_printf (_("%s; may contain %s"), first, groups);
}
