#include "config.h"

#include "cro-card-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-doubts.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-menu-ways.h"
#include "cro-number.h"
#include "cro-scale.h"
#include "cro-words.h"

/* What counts differ by that are one, as doubles end. */
#define DUST 1e-6
/* As far as weighing goes from what it is, cro-scale.h. */
#define NEAR 1.02
/* As far as amounts are entered. */
#define N_DECIMALS 6

char *
cro_words_card_name (CroModel         *model,
                     guint32           recipe,
                     const CroCardRow *row)
{
  const char *name = row->item != CRO_NO_SLOT ? cro_model_item (model, row->item)->name : NULL;

  if (row->kind == CRO_CARD_ALLOWANCE)
    {
      gint64 allowance = cro_model_recipe (model, recipe)->allowance;
      g_autofree char *pct = cro_words_pct (cro_decimal_to_double (allowance));

      return g_strdup_printf (_("Seasoning and handling, %s"), pct);
    }
  if (row->kind == CRO_CARD_CREDIT)
    return cro_isolate_printf (_("credited: %s"), name);
  if (row->flags & CRO_CARD_AGAIN)
    return cro_isolate_printf (_("%s (as above)"), name);
  if (row->flags & CRO_CARD_FREE)
    return cro_isolate_printf (_("%s (carries no cost)"), name);
  if (row->flags & CRO_CARD_ASSIGNED)
    return cro_isolate_printf (_("%s (at its assigned value)"), name);
  return g_strdup (name);
}

static gboolean
is_convertible (CroModel *model,
                guint32   line)
{
  return cro_line_lacks (&model->lines, line, &model->measures[model->lines.item[line]])
         == CRO_LACKS_NOTHING;
}

char *
cro_words_card_amount (CroModel         *model,
                       const CroCardRow *row)
{
  g_autofree char *amount = NULL;

  if (row->kind == CRO_CARD_ALLOWANCE)
    return NULL;
  if (row->line == CRO_NO_SLOT || is_convertible (model, row->line))
    return cro_words_amount ((CroBase) model->measures[row->item].base, row->amount);
  amount = cro_words_decimal (model->lines.amount[row->line]);
  return g_strdup_printf ("%s %s", amount,
                          cro_words_unit ((CroUnit) model->lines.unit[row->line]));
}

CroKnown
cro_known_of_card_row (CroFigures       *figures,
                       guint32           recipe,
                       const CroCardRow *row)
{
  if (row->flags & CRO_CARD_UNKNOWN)
    return CRO_KNOWN_NOTHING;
  /* Of nothing that is known it is not known either. */
  if (row->kind == CRO_CARD_ALLOWANCE && row->cost == 0
      && cro_known_of_recipe (figures, recipe) != CRO_KNOWN_WHOLE)
    return CRO_KNOWN_NOTHING;
  if (row->kind == CRO_CARD_ALLOWANCE)
    return cro_known_of_recipe (figures, recipe);
  return row->kind == CRO_CARD_CREDIT
             ? cro_known_of_credit (figures->model, row->item)
             : cro_known_of_taken (figures, row->item, row->cost);
}

/* What seasoning and handling takes is known whatever is missing, as it is a part of that very
 * cost. */
char *
cro_words_card_share (CroFigures       *figures,
                      guint32           recipe,
                      const CroCardRow *row,
                      double            share,
                      gboolean          is_short)
{
  CroKnown known = cro_known_of_card_row (figures, recipe, row);

  if (known == CRO_KNOWN_NOTHING || isnan (share))
    return NULL;
  known = row->kind == CRO_CARD_ALLOWANCE
              ? CRO_KNOWN_WHOLE
              : cro_known_of_share (known, share, cro_known_of_recipe (figures, recipe));
  return is_short ? cro_words_known_pct_short (known, share, 1) : cro_words_known_pct (known, share);
}

/* --- Seasoning and handling in a picture ---------------------------------------------------------- */

/* Of a plate as it is entered; of a menu the most that any of its plates has; 0 of all else. */
static gint64
allowance_of (CroModel *model,
              CroRef    thing)
{
  g_autoptr (CroMenuWays) ways = NULL;
  gint64 most = 0;

  if (thing.kind == CRO_REF_RECIPE && cro_model_recipe (model, thing.slot)->is_plate)
    return MAX (cro_model_recipe (model, thing.slot)->allowance, 0);
  if (thing.kind != CRO_REF_MENU)
    return 0;
  ways = cro_menu_ways_new (model, thing.slot);
  for (guint i = 0; i < ways->plates->len; i++)
    most = MAX (most, cro_model_recipe (model, ((const CroMenuPlate *) ways->plates->pdata[i])->plate)->allowance);
  return most;
}

char *
cro_words_bands_include (CroModel *model,
                         CroRef    thing)
{
  gint64 allowance = allowance_of (model, thing);
  g_autofree char *pct = NULL;

  if (allowance == 0)
    return NULL;
  if (thing.kind == CRO_REF_MENU)
    return g_strdup (_("Bands include the plates’ seasoning and handling."));
  pct = cro_words_pct (cro_decimal_to_double (allowance));
  /* Translators: under a picture of what a plate is made of, in per cent. */
  return g_strdup_printf (_("Bands include seasoning and handling, %s."), pct);
}

char *
cro_words_without_allowance (CroModel *model,
                             CroRef    thing)
{
  gint64 allowance = allowance_of (model, thing);
  g_autofree char *pct = NULL;

  if (allowance == 0)
    return NULL;
  if (thing.kind == CRO_REF_MENU)
    /* Translators: on a kitchen card, of its amounts. */
    return g_strdup (_("Without the plates’ seasoning and handling, which a service’s amounts include."));
  pct = cro_words_pct (cro_decimal_to_double (allowance));
  /* Translators: on a kitchen card, of its amounts; a percentage. */
  return g_strdup_printf (_("Without seasoning and handling, %s, which a service’s amounts include."), pct);
}

/* --- Weighed ------------------------------------------------------------------------------------ */

static double
as_it_is (double grams)
{
  return grams;
}

static char *
dup_weighed (CroBase base,
             double  amount,
             double  (*weigh) (double grams))
{
  gboolean is_each = base == CRO_BASE_EACH;
  double weighed = is_each ? amount : weigh (amount);
  gboolean is_large = !is_each && weighed >= 1000;
  int digits = is_each && weighed >= 0.1 ? 2 : N_DECIMALS;
  g_autofree char *number = cro_number_to_text (is_large ? weighed / 1000 : weighed, digits, TRUE);

  return cro_words_in_base (base, is_large, number);
}

/* Quarters, as many as are needed at least. Common practice, no source. */
static double
to_quarters (double amount)
{
  return amount > 0 ? fmax (ceil (amount * 4 - DUST), 1) / 4 : 0;
}

/* What a count comes to on scales or in a jug; NULL where a piece has no weight. */
static char *
dup_weight_of_count (const CroMeasure *measure,
                     CroUnit           unit,
                     double            written)
{
  CroBase base = cro_unit_get (unit)->base;
  double amount = written * cro_unit_factor (unit);

  if (measure->grams[base] > 0)
    return cro_words_weighed (CRO_BASE_GRAM, amount * measure->grams[base]);
  return base == CRO_BASE_EACH ? NULL : cro_words_weighed (base, amount);
}

/* Spoons and pieces as a cook can take them: what is no number of quarters is weighed where it can be. Pieces of
 * one bite are not taken up to a quarter, as many bites would be far more than the batch. */
static char *
dup_counted (CroModel *model,
             guint32   line,
             double    written,
             gboolean  is_typed,
             gboolean  is_bite)
{
  CroUnit unit = (CroUnit) model->lines.unit[line];
  gboolean is_pieces = cro_unit_get (unit)->base == CRO_BASE_EACH;
  double quarters;
  g_autofree char *number = NULL, *weight = NULL;

  /* A quarter of a dozen is three pieces, which no bite takes. */
  if (is_pieces && (is_bite || to_quarters (written) - written > DUST))
    {
      written *= cro_unit_factor (unit);
      unit = CRO_UNIT_EACH;
    }
  quarters = to_quarters (written);
  if (quarters - written > DUST)
    weight = dup_weight_of_count (&model->measures[model->lines.item[line]], unit, written);
  if (weight != NULL)
    return g_steal_pointer (&weight);
  /* What no quarter is near stands as it is. */
  if (is_pieces && (is_bite || (!is_typed && quarters > written * NEAR)))
    return cro_words_amount (CRO_BASE_EACH, written);
  number = is_typed ? cro_number_to_text (written, N_DECIMALS, TRUE) : cro_number_to_text (quarters, 2, TRUE);
  return g_strdup_printf ("%s %s", number, cro_words_unit (unit));
}

char *
cro_words_weighed (CroBase base,
                   double  amount)
{
  return dup_weighed (base, amount, cro_scale_round);
}

/* To a thousandth, which pounds and ounces are not: those are weighed. */
static gboolean
is_written_out (double amount)
{
  return fabs (amount * 1000 - round (amount * 1000)) < DUST;
}

/* Spoons and pieces are counted as the recipe counts them, whatever they weigh; what is not scaled stands as it was
 * typed. */
static char *
dup_weighed_line (CroModel *model,
                  guint32   line,
                  double    batches,
                  gboolean  is_bite)
{
  gboolean is_typed = fabs (batches - 1) < DUST;
  double (*weigh) (double grams) = is_bite ? cro_scale_round_bite : cro_scale_round;
  CroUnit unit = (CroUnit) model->lines.unit[line];
  CroBase base = cro_unit_get (unit)->base;
  double written = cro_decimal_to_double (model->lines.amount[line]) * batches;

  if (base == CRO_BASE_EACH || base != (CroBase) model->measures[model->lines.item[line]].base)
    return dup_counted (model, line, written, is_typed, is_bite);
  written *= cro_unit_factor (unit);
  return dup_weighed (base, written, is_typed && is_written_out (written) ? as_it_is : weigh);
}

char *
cro_words_weighed_line (CroModel *model,
                        guint32   line,
                        double    batches)
{
  return dup_weighed_line (model, line, batches, FALSE);
}

char *
cro_words_weighed_bite (CroModel *model,
                        guint32   line,
                        double    bites)
{
  return dup_weighed_line (model, line, 1 / bites, TRUE);
}

/* --- Prices ------------------------------------------------------------------------------------- */

char *
cro_words_book_of (CroBook *book)
{
  g_autofree char *date = NULL;
  CroDate day;

  if (!cro_book_is_past (book, &day))
    return NULL;
  date = cro_date_to_text (day);
  /* Translators: recipes and prices as they stood on a day. */
  return g_strdup_printf (_("the book of %s"), date);
}

char *
cro_words_card_prices (CroBook *book)
{
  CroDate on = cro_book_get_figures (book)->date;
  g_autofree char *date = cro_date_to_text (on);
  g_autofree char *then = NULL;
  CroDate day;

  /* Translators: today's recipes at the prices of a day. */
  if (!cro_book_is_past (book, &day))
    return g_strdup_printf (_("prices of %s"), date);
  if (day == on)
    return cro_words_book_of (book);
  then = cro_date_to_text (day);
  /* Translators: recipes as they stood on a day, at the prices of another. */
  return g_strdup_printf (_("the book of %s, prices of %s"), then, date);
}

/* --- Below it ----------------------------------------------------------------------------------- */

static void
add_names (GPtrArray  *texts,
           const char *title,
           GPtrArray  *names)
{
  g_autoptr (GString) list = g_string_new (NULL);

  if (names->len == 0)
    return;
  for (guint i = 0; i < names->len; i++)
    cro_isolate_append (list, names->pdata[i]);
  g_ptr_array_add (texts, g_strconcat (title, " ", list->str, NULL));
}

GPtrArray *
cro_words_allergens_below (const CroBreakdown *breakdown)
{
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *entered = cro_words_allergens_entered (breakdown);
  g_autofree char *traces = NULL;

  g_ptr_array_add (texts, g_strdup_printf (_("Allergens entered: %s"), entered));
  if (breakdown->may_contain != 0)
    {
      traces = cro_words_allergens (breakdown->may_contain);
      g_ptr_array_add (texts, g_strdup_printf (_("May contain, by the labels: %s"), traces));
    }
  add_names (texts, _("Not known for:"), breakdown->allergens_not_known);
  return texts;
}

static void
add_last_prices (GPtrArray          *texts,
                 const CroBreakdown *breakdown)
{
  for (guint i = 0; i < breakdown->last_prices->len; i++)
    {
      const CroLastPrice *entry = &g_array_index (breakdown->last_prices, CroLastPrice, i);
      g_autofree char *since = cro_date_to_text (entry->since);

      /* Translators: an ingredient, and a date. */
      g_ptr_array_add (texts, cro_isolate_printf (_("%s: last price, not to be had since %s"),
                                                  entry->name, since));
    }
}

GPtrArray *
cro_words_below_card (CroBook      *book,
                      CroRef        thing,
                      CroBreakdown *breakdown)
{
  CroModel *model = cro_book_get_model (book);
  GPtrArray *texts = cro_words_allergens_below (breakdown);
  g_autoptr (GArray) doubts = cro_doubts_below (book, thing, NULL);

  add_names (texts, _("Counted without trim loss, as no trim yield is given:"), breakdown->assumed);
  for (guint i = 0; i < breakdown->doubts->len; i++)
    g_ptr_array_add (texts, cro_words_unserved (
                                model, &g_array_index (breakdown->doubts, CroUnserved, i)));
  add_last_prices (texts, breakdown);
  for (guint i = 0; doubts != NULL && i < doubts->len; i++)
    g_ptr_array_add (texts, cro_words_doubt_line (model, &g_array_index (doubts, CroDoubt, i)));
  return texts;
}
