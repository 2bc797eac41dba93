#include "config.h"

#include "cro-result-words.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-words.h"

#define PCT_DIGITS 1
#define COEFFICIENT_DIGITS 2
#define MOST_DIGITS 6

/* --- Digits ------------------------------------------------------------------------------------- */

static gboolean
is_coefficient (CroModel *model)
{
  return model->speaks == CRO_SPEAKS_COEFFICIENT;
}

static double
rounded (double value,
         int    digits)
{
  return (double) cro_money_round (value, digits) / pow (10, digits);
}

/* A target in per cent is shown whole; a coefficient that was set as a percentage never ends, so that
 * both are rounded, and differ where they are two. */
static int
digits_apart (double result,
              double target)
{
  int digits = COEFFICIENT_DIGITS;

  if (!cro_is_above (result, target) && !cro_is_above (target, result))
    return digits;
  while (digits < MOST_DIGITS && rounded (result, digits) == rounded (target, digits))
    digits++;
  return digits;
}

int
cro_result_digits (CroModel        *model,
                   const CroFigure *figure)
{
  double result = cro_result_of_pct (model->speaks, figure->food_cost_pct);
  double target = cro_result_of_pct (model->speaks, figure->target_pct);
  int fewest = is_coefficient (model) ? COEFFICIENT_DIGITS : PCT_DIGITS;

  if (isnan (result) || isnan (target))
    return fewest;
  return is_coefficient (model) ? digits_apart (result, target)
                                : cro_decimals_apart (result, target, fewest);
}

/* --- Figures ------------------------------------------------------------------------------------ */

static char *
text_of (CroModel *model,
         double    result,
         int       digits)
{
  return isnan (result)          ? g_strdup ("–")
         : is_coefficient (model) ? cro_number_to_text (result, digits, FALSE)
                                  : cro_words_pct_of (result, digits);
}

char *
cro_words_result_plain (CroModel        *model,
                        const CroFigure *figure)
{
  return text_of (model, cro_result_of_pct (model->speaks, figure->food_cost_pct),
                  cro_result_digits (model, figure));
}

char *
cro_words_result (CroModel        *model,
                  const CroFigure *figure)
{
  g_autofree char *text = cro_words_result_plain (model, figure);

  return strcmp (text, "–") == 0
             ? g_steal_pointer (&text)
             : cro_words_known (cro_known_of_result (model->speaks, figure), text);
}

/* Decimals of the coefficient that was typed: with them it gives back what is stored. Of a target that
 * was set as a percentage none do, and it is rounded. */
static int
digits_of_coefficient (gint64 target)
{
  double coefficient = (double) CRO_WHOLE_PCT / (double) target;

  for (int digits = COEFFICIENT_DIGITS; digits <= COEFFICIENT_DIGITS + 2; digits++)
    {
      gint64 back;

      if (cro_result_to_target (CRO_SPEAKS_COEFFICIENT,
                                (gint64) round (rounded (coefficient, digits) * CRO_MICRO), &back)
          && back == target)
        return digits;
    }
  return COEFFICIENT_DIGITS;
}

static int
target_digits (CroModel        *model,
               const CroFigure *figure,
               double           target)
{
  int digits = PCT_DIGITS;

  if (is_coefficient (model))
    return MAX (cro_result_digits (model, figure),
                digits_of_coefficient ((gint64) round (figure->target_pct * CRO_MICRO)));
  while (digits < MOST_DIGITS
         && fabs (rounded (target, digits) - target) > CRO_ALLOWED * figure->target_pct)
    digits++;
  return digits;
}

char *
cro_words_target (CroModel        *model,
                  const CroFigure *figure)
{
  double target = cro_result_of_pct (model->speaks, figure->target_pct);

  return isnan (target) ? g_strdup ("–")
                        : text_of (model, target, target_digits (model, figure, target));
}

char *
cro_words_result_typed (CroModel *model,
                        double    pct)
{
  double result = cro_result_of_pct (model->speaks, pct);
  g_autofree char *number = cro_number_to_text (result, is_coefficient (model) ? COEFFICIENT_DIGITS
                                                                               : MOST_DIGITS, TRUE);

  return is_coefficient (model) ? g_steal_pointer (&number)
                                : g_strconcat (number, "\302\240%", NULL);
}

/* --- Names -------------------------------------------------------------------------------------- */

const char *
cro_words_result_name (CroModel *model)
{
  static const char *const names[] = {
    [CRO_SPEAKS_FOOD_COST] = N_("food cost"),
    [CRO_SPEAKS_GROSS_PROFIT] = N_("gross profit"),
    [CRO_SPEAKS_COEFFICIENT] = N_("coefficient"),
  };

  return _(names[model->speaks]);
}

const char *
cro_words_result_title (CroModel *model)
{
  static const char *const titles[] = {
    [CRO_SPEAKS_FOOD_COST] = N_("Food-cost percentage"),
    [CRO_SPEAKS_GROSS_PROFIT] = N_("Gross-profit percentage"),
    [CRO_SPEAKS_COEFFICIENT] = N_("Coefficient: net price ÷ food cost"),
  };

  return _(titles[model->speaks]);
}

const char *
cro_words_over_target (CroModel *model)
{
  return model->speaks == CRO_SPEAKS_FOOD_COST ? _("over target") : _("below target");
}

const char *
cro_words_target_title (CroModel *model)
{
  static const char *const titles[] = {
    [CRO_SPEAKS_FOOD_COST] = N_("Target %"),
    [CRO_SPEAKS_GROSS_PROFIT] = N_("Target gross profit %"),
    [CRO_SPEAKS_COEFFICIENT] = N_("Target coefficient"),
  };

  return _(titles[model->speaks]);
}

const char *
cro_words_target_before (CroModel *model)
{
  /* Translators: before the field of a target, in "target [30] %", "target coefficient [3.4]". */
  return is_coefficient (model) ? _("target coefficient") : _("target");
}

const char *
cro_words_target_behind (CroModel *model)
{
  static const char *const words[] = {
    [CRO_SPEAKS_FOOD_COST] = "%",
    /* Translators: behind the field of a target, in "target [70] % gross profit".
     * xgettext:no-c-format */
    [CRO_SPEAKS_GROSS_PROFIT] = N_("% gross profit"),
    [CRO_SPEAKS_COEFFICIENT] = "",
  };

  return *words[model->speaks] != '\0' ? _(words[model->speaks]) : "";
}

/* --- Typing ------------------------------------------------------------------------------------- */

char *
cro_words_target_text (CroModel *model,
                       gint64    target)
{
  if (target == CRO_NOT_SET)
    return NULL;
  switch (model->speaks)
    {
    case CRO_SPEAKS_GROSS_PROFIT:
      return cro_words_decimal (CRO_WHOLE_PCT - target);
    case CRO_SPEAKS_COEFFICIENT:
      return cro_number_to_text ((double) CRO_WHOLE_PCT / (double) target,
                                 digits_of_coefficient (target), TRUE);
    case CRO_SPEAKS_FOOD_COST:
      return cro_words_decimal (target);
    }
  g_return_val_if_reached (NULL);
}

static char *
out_of_range (CroModel *model)
{
  switch (model->speaks)
    {
    case CRO_SPEAKS_GROSS_PROFIT:
      return g_strdup (_("Type a gross profit from 0 % to less than 100 %."));
    case CRO_SPEAKS_COEFFICIENT:
      return g_strdup (_("Type a coefficient of 1 or more."));
    case CRO_SPEAKS_FOOD_COST:
      return g_strdup (_("Type a food cost above 0 %, up to 100 %."));
    }
  g_return_val_if_reached (NULL);
}

char *
cro_words_target_read (CroModel   *model,
                       const char *text,
                       CroEntry   *entry)
{
  gboolean is_read = is_coefficient (model)
                         ? cro_entry_number (text, CRO_RANGE_ANY, entry)
                         : cro_entry_pct (text, CRO_RANGE_ANY, cro_words_entry (), entry);

  if (!is_read)
    return cro_words_entry_reason (text, entry);
  if (cro_result_to_target (model->speaks, entry->micro, &entry->micro))
    return NULL;
  entry->status = CRO_ENTRY_OUT_OF_RANGE;
  return out_of_range (model);
}
