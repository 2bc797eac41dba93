#include "config.h"

#include "cro-words.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-result-words.h"

/* --- Where ---------------------------------------------------------------------------------------- */

static const struct { const char *column, *caption; } captions[] = {
  { "target_pct_micro", N_("target") },
  { "tax_pct_micro", N_("tax") },
  { "tax_included_pct_micro", N_("tax included") },
  { "trim_yield_pct_micro", N_("trim yield") },
  { "net_pct_micro", N_("net weight") },
  { "yield_pct_micro", N_("yield") },
  { "recovered_pct_micro", N_("comes back") },
  { "allowance_pct_micro", N_("seasoning and handling") },
  { "price_micro", N_("price") },
  { "density_g_per_ml_micro", N_("density") },
  { "rate_micro", N_("exchange rate") },
};

static const char *
caption_of (const char *column)
{
  for (gsize i = 0; column != NULL && i < G_N_ELEMENTS (captions); i++)
    if (strcmp (captions[i].column, column) == 0)
      return _(captions[i].caption);
  return NULL;
}

static char *
thing_of (CroModel       *model,
          const CroDoubt *doubt)
{
  const char *other = doubt->ref.kind == CRO_REF_PURCHASES && doubt->other != CRO_NO_SLOT
                          ? cro_model_item (model, doubt->other)->name
                          : NULL;

  switch (doubt->ref.kind)
    {
    case CRO_REF_HOUSE:
      return g_strdup (_("Book settings"));
    case CRO_REF_PURCHASES:
      return g_strdup (other != NULL ? other : _("Purchases"));
    case CRO_REF_RATES:
      return g_strdup (doubt->currency);
    case CRO_REF_OFFER:
      /* Translators: an ingredient and its supplier. */
      return cro_isolate_printf (C_("pack", "%s from %s"),
                                 cro_model_item (model, cro_model_offer (model, doubt->ref.slot)->item)
                                     ->name,
                                 cro_ref_name (model, doubt->ref));
    case CRO_REF_LINE:
      /* Translators: an item, and the plate or preparation that takes it. */
      return cro_isolate_printf (C_("line", "%s in %s"), cro_ref_name (model, doubt->ref),
                                 cro_model_recipe (model,
                                                   (guint32) model->lines.row[doubt->ref.slot])
                                     ->name);
    default:
      return g_strdup (cro_ref_name (model, doubt->ref));
    }
}

char *
cro_words_doubt_place (CroModel       *model,
                       const CroDoubt *doubt)
{
  g_autofree char *thing = thing_of (model, doubt);
  const char *caption = caption_of (doubt->column);

  return caption != NULL ? cro_isolate_printf ("%s, %s", thing, caption) : g_steal_pointer (&thing);
}

/* --- What ------------------------------------------------------------------------------------------- */

static char *
pct (double value)
{
  g_autofree char *number = cro_number_to_text (value, 6, TRUE);

  return g_strconcat (number, "\302\240%", NULL);
}

/* A target is asked about as it is typed. */
static char *
percent (CroModel       *model,
         const CroDoubt *doubt,
         double          value)
{
  return strcmp (doubt->column, "target_pct_micro") == 0 ? cro_words_result_typed (model, value)
                                                         : pct (value);
}

static char *
line_sentence (CroModel       *model,
               const CroDoubt *doubt)
{
  CroBase base = (CroBase) model->measures[doubt->other].base;
  g_autofree char *is = NULL, *meant = NULL;

  if (doubt->kind == CRO_DOUBT_TRIMMED_TWICE)
    {
      is = pct (doubt->is);
      /* Translators: a preparation's output, and a percentage. */
      return cro_isolate_printf (_("The batch of %s already counts its trimming. Is a further "
                                   "yield of %s meant?"), cro_model_item (model, doubt->other)->name, is);
    }
  is = cro_words_amount (base, doubt->is);
  meant = cro_words_amount (base, doubt->meant);
  /* Translators: a loss to trimming is likely counted twice; two amounts. */
  return g_strdup_printf (_("%s trimmed means buying %s. Weigh as bought?"), is, meant);
}

static char *
batch_sentence (CroModel       *model,
                const CroDoubt *doubt)
{
  g_autofree char *is = cro_words_amount (CRO_BASE_GRAM, doubt->is);
  g_autofree char *meant = cro_words_amount (CRO_BASE_GRAM, doubt->meant);

  if (doubt->kind == CRO_DOUBT_SOAKED_TWICE)
    /* Translators: two weights, and an ingredient. */
    return cro_isolate_printf (_("%s comes out and %s goes in, and the yield of %s has already "
                                 "increased it. Is that counted twice?"),
                               is, meant, cro_model_item (model, doubt->other)->name);
  /* Translators: two weights. */
  return g_strdup_printf (_("%s comes out, but only %s goes in. Is a line missing, such as water?"),
                          is, meant);
}

/* With the digits of its currency: what is sold is sold for the book's. */
static char *
price_text (CroModel       *model,
            const CroDoubt *doubt,
            double          price)
{
  gint64 micro;

  return cro_decimal_from_double (price, &micro)
             ? cro_words_price_in (doubt->kind == CRO_DOUBT_SELLING ? model->currency
                                                                     : cro_model_currency_of (model, doubt->ref.slot),
                                   micro)
             : cro_number_to_text (price, 6, TRUE);
}

static char *
price_sentence (CroModel       *model,
                const CroDoubt *doubt)
{
  g_autofree char *is = price_text (model, doubt, doubt->is);
  g_autofree char *meant = isnan (doubt->meant) ? NULL : price_text (model, doubt, doubt->meant);
  g_autofree char *date = cro_date_to_text (doubt->date);

  if (meant == NULL)
    /* Translators: a price and a date. */
    return g_strdup_printf (_("%s from %s is far from the price before. Is it right?"), is, date);
  /* Translators: a price, a date, a price. */
  return g_strdup_printf (_("%s from %s is far from the price before. Is %s meant?"), is, date, meant);
}

static char *
density_sentence (const CroDoubt *doubt)
{
  g_autofree char *is = cro_number_to_text (doubt->is, 6, TRUE);
  g_autofree char *meant = isnan (doubt->meant) ? NULL : cro_number_to_text (doubt->meant, 6, TRUE);

  if (meant == NULL)
    /* Translators: a density. */
    return g_strdup_printf (_("%s g/ml: is this right? A millilitre of water weighs 1 g."), is);
  /* Translators: two densities. */
  return g_strdup_printf (_("%s g/ml: is %s meant?"), is, meant);
}

static char *
rate_sentence (const CroDoubt *doubt)
{
  g_autofree char *is = cro_number_to_text (doubt->is, 6, TRUE);
  g_autofree char *meant = isnan (doubt->meant) ? NULL : cro_number_to_text (doubt->meant, 6, TRUE);
  g_autofree char *date = cro_date_to_text (doubt->date);

  if (meant == NULL)
    /* Translators: an exchange rate and a date. */
    return g_strdup_printf (_("%s from %s is far from the rate before. Is it right?"), is, date);
  /* Translators: an exchange rate, a date, an exchange rate. */
  return g_strdup_printf (_("%s from %s is far from the rate before. Is %s meant?"), is, date, meant);
}

/* Of the ingredient's only pack there is no other to prefer. */
static char *
expired_sentence (CroModel       *model,
                  const CroDoubt *doubt)
{
  g_autofree char *date = cro_date_to_text (doubt->date);

  if (cro_model_item (model, cro_model_offer (model, doubt->ref.slot)->item)->n_offers < 2)
    /* Translators: %s is a date; of a supplier’s pack. */
    return g_strdup_printf (_("This pack is preferred, but it ended on %s, and there is no other. Is it still sold?"),
                            date);
  /* Translators: %s is a date; of a supplier’s pack. */
  return g_strdup_printf (_("This pack is preferred, but it ended on %s. Prefer another?"), date);
}

char *
cro_words_doubt (CroModel       *model,
                 const CroDoubt *doubt)
{
  g_autofree char *is = NULL, *meant = NULL, *date = NULL;

  switch (doubt->kind)
    {
    case CRO_DOUBT_PERCENT:
      is = percent (model, doubt, doubt->is);
      meant = percent (model, doubt, doubt->meant);
      /* Translators: two percentages. */
      return g_strdup_printf (_("%s: is %s meant?"), is, meant);
    case CRO_DOUBT_PRICE:
    case CRO_DOUBT_SELLING:
      return price_sentence (model, doubt);
    case CRO_DOUBT_DENSITY:
      return density_sentence (doubt);
    case CRO_DOUBT_RATE:
      return rate_sentence (doubt);
    case CRO_DOUBT_EXPIRED:
      return expired_sentence (model, doubt);
    case CRO_DOUBT_STALE:
      date = cro_date_to_text (doubt->date);
      is = cro_number_to_text (doubt->is, 6, TRUE);
      /* Translators: a date, and a number of days. */
      return g_strdup_printf (_("This price is from %s, which is more than %s days ago. Is it "
                                "still right?"), date, is);
    case CRO_DOUBT_PURCHASE_TWICE:
      date = cro_date_to_text (doubt->date);
      is = cro_words_money (model, doubt->meant);
      /* Translators: money and a date. */
      return g_strdup_printf (_("%s of %s appears twice in the same document. Is it entered twice?"), is, date);
    case CRO_DOUBT_ALIKE:
      /* Translators: %s is another name of the same letters, as “Creme fraiche”. */
      return cro_isolate_printf (_("“%s” is in the book too. Are the two the same?"),
                                 cro_ref_name (model, CRO_REF (doubt->ref.kind, doubt->other)));
    case CRO_DOUBT_GAINS:
    case CRO_DOUBT_SOAKED_TWICE:
      return batch_sentence (model, doubt);
    case CRO_DOUBT_LOSES_TWICE:
    case CRO_DOUBT_TRIMMED_TWICE:
      return line_sentence (model, doubt);
    }
  return NULL;
}

char *
cro_words_doubt_at (CroModel       *model,
                    const CroDoubt *doubt)
{
  g_autofree char *meant = NULL;

  if (doubt->kind != CRO_DOUBT_PRICE && doubt->kind != CRO_DOUBT_SELLING && doubt->kind != CRO_DOUBT_RATE)
    return cro_words_doubt (model, doubt);
  if (isnan (doubt->meant))
    return g_strdup (_("is this right?"));
  meant = doubt->kind == CRO_DOUBT_RATE ? cro_number_to_text (doubt->meant, 6, TRUE)
                                        : price_text (model, doubt, doubt->meant);
  return g_strdup_printf (_("is %s meant?"), meant);
}

char *
cro_words_doubt_answer (CroModel       *model,
                        const CroDoubt *doubt)
{
  gboolean is_price = doubt->kind == CRO_DOUBT_PRICE || doubt->kind == CRO_DOUBT_SELLING;
  g_autofree char *price = is_price ? price_text (model, doubt, doubt->is) : NULL;

  /* Translators: a button: a price that is asked about is right. */
  return price != NULL ? g_strdup_printf (_("%s Is Right"), price) : NULL;
}

char *
cro_words_doubt_value (CroModel       *model,
                       const CroDoubt *doubt)
{
  if (isnan (doubt->meant))
    return NULL;
  switch (doubt->kind)
    {
    case CRO_DOUBT_PRICE:
    case CRO_DOUBT_SELLING:
      return price_text (model, doubt, doubt->meant);
    case CRO_DOUBT_PERCENT:
      return percent (model, doubt, doubt->meant);
    case CRO_DOUBT_DENSITY:
      return cro_number_to_text (doubt->meant, 6, TRUE);
    default:
      return NULL;
    }
}

char *
cro_words_doubt_meant (CroModel       *model,
                       const CroDoubt *doubt)
{
  g_autofree char *value = cro_words_doubt_value (model, doubt);

  /* Translators: a button: the price or the percentage that was probably meant, in place of the one that is asked
   * about. */
  return value != NULL ? g_strdup_printf (_("Set %s"), value) : NULL;
}

char *
cro_words_doubt_line (CroModel       *model,
                      const CroDoubt *doubt)
{
  g_autofree char *place = cro_words_doubt_place (model, doubt);
  g_autofree char *sentence = cro_words_doubt (model, doubt);

  /* Translators: a question about what was entered: where it stands, and what is asked. */
  return g_strdup_printf (_("please check: %s: %s"), place, sentence);
}
