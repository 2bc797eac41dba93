#include "config.h"

#include "cro-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-allergen-words.h"
#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"

char *
cro_words_money (CroModel *model,
                 double    amount)
{
  int digits = cro_currency_digits (model->currency);

  /* As far as its digits go, and never less than it is. */
  if (!(fabs (amount) < cro_money_most (digits)))
    return cro_number_to_text (amount, 0, TRUE);
  return cro_money_to_text (cro_money_round (amount, digits), digits);
}

char *
cro_words_pct (double pct)
{
  return cro_words_pct_of (pct, 1);
}

char *
cro_words_change (double pct)
{
  g_autofree char *text = cro_words_pct (fabs (pct));

  /* It has a sign, or is on one side of a number that has. */
  if (cro_money_round (pct, 1) == 0)
    return cro_words_pct (pct);
  return g_strdup_printf ("%s%s", pct > 0 ? "+" : pct < 0 ? "−" : "", text);
}

char *
cro_words_added (CroModel *model,
                 double    amount)
{
  g_autofree char *money = cro_words_money (model, amount);

  return g_strconcat (amount > 0 ? "+" : "", money, NULL);
}

const char *
cro_words_shifted (void)
{
  return _("Amounts of money are rounded once; parts add up to the totals that are shown, so that a part, or a "
           "difference of totals, may be a smallest unit of the currency or two away from its own rounding.");
}

char *
cro_words_three_digits (double value)
{
  double size = fabs (value);

  return cro_number_to_text (value, size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3, TRUE);
}

char *
cro_words_decimal (gint64 micro)
{
  return cro_number_to_text (cro_decimal_to_double (micro), 6, TRUE);
}

char *
cro_words_price_in (const char *currency,
                    gint64      micro)
{
  gint64 minor = cro_currency_minor (currency);

  return micro % minor == 0 ? cro_money_to_text (micro / minor, cro_currency_digits (currency))
                            : cro_words_decimal (micro);
}

char *
cro_words_price (CroModel *model,
                 gint64    micro)
{
  return cro_words_price_in (model->currency, micro);
}

char *
cro_words_in_base (CroBase     base,
                   gboolean    is_large,
                   const char *number)
{
  switch (base)
    {
    case CRO_BASE_GRAM:
      return g_strdup_printf (is_large ? "%s kg" : "%s g", number);
    case CRO_BASE_MILLILITRE:
      return g_strdup_printf (is_large ? "%s l" : "%s ml", number);
    case CRO_BASE_EACH:
      /* Translators: an amount of things that are counted: 24 pieces. */
      return g_strdup_printf (_("%s pc"), number);
    }
  g_return_val_if_reached (NULL);
}

gboolean
cro_words_is_large (CroBase base,
                    double  amount)
{
  return base != CRO_BASE_EACH && fabs (amount) >= 1000;
}

char *
cro_words_amount (CroBase base,
                  double  amount)
{
  gboolean is_large = cro_words_is_large (base, amount);
  g_autofree char *number = cro_words_three_digits (is_large ? amount / 1000 : amount);

  return cro_words_in_base (base, is_large, number);
}

char *
cro_words_take_joined (char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, " ", -1);

  g_free (text);
  return g_strjoinv ("\u00a0", parts);
}

const char *
cro_words_unit (CroUnit unit)
{
  switch (unit)
    {
    case CRO_UNIT_TSP:
      return _("tsp");
    case CRO_UNIT_TBSP:
      return _("tbsp");
    case CRO_UNIT_METRIC_CUP:
      return _("metric cup");
    case CRO_UNIT_US_TSP:
      return _("US tsp");
    case CRO_UNIT_US_TBSP:
      return _("US tbsp");
    case CRO_UNIT_US_FL_OZ:
      return _("US fl oz");
    case CRO_UNIT_US_CUP:
      return _("US cup");
    case CRO_UNIT_US_PT:
      return _("US pint");
    case CRO_UNIT_US_QT:
      return _("US quart");
    case CRO_UNIT_US_GAL:
      return _("US gallon");
    case CRO_UNIT_IMP_FL_OZ:
      return _("imp. fl oz");
    case CRO_UNIT_IMP_PT:
      return _("imp. pint");
    case CRO_UNIT_IMP_QT:
      return _("imp. quart");
    case CRO_UNIT_IMP_GAL:
      return _("imp. gallon");
    case CRO_UNIT_EACH:
      /* Translators: the unit of what is counted. */
      return _("pc");
    case CRO_UNIT_DOZEN:
      return _("dozen");
    default:
      return cro_unit_get (unit)->code;
    }
}

char *
cro_words_per_base (CroBase     base,
                    const char *money)
{
  /* Translators: a price for one thing that is counted. */
  return g_strdup_printf (base == CRO_BASE_GRAM ? "%s/kg"
                          : base == CRO_BASE_MILLILITRE ? "%s/l"
                                                        : _("%s each"),
                          money);
}

char *
cro_words_unit_price (CroModel *model,
                      CroBase   base,
                      double    unit_cost,
                      double   apart_from,
                      gint64  (*round) (double amount, int digits))
{
  int fewest = cro_currency_digits (model->currency);
  double of_one = base == CRO_BASE_EACH ? 1 : 1000;
  double price = unit_cost * of_one;
  int apart = isfinite (apart_from) && isfinite (price)
                  ? cro_decimals_apart (price, apart_from * of_one, fewest)
                  : fewest;
  int digits = MAX (cro_digits_of_price (price, fewest, CRO_WORDS_SIGNIFICANT), apart);
  g_autofree char *money = NULL;
  gint64 minor;

  if (isnan (unit_cost) || isinf (unit_cost))
    return cro_words_money (model, unit_cost);
  minor = round (price, digits);
  for (; digits > fewest && minor % 10 == 0; digits--)
    minor /= 10;
  money = cro_money_to_text (minor, digits);
  return cro_words_per_base (base, money);
}

char *
cro_words_unit_cost (CroModel *model,
                     CroBase   base,
                     double    unit_cost)
{
  return cro_words_unit_price (model, base, unit_cost, NAN, cro_money_round);
}

char *
cro_words_costs (CroModel *model,
                 CroBase   base,
                 double    unit_cost)
{
  return unit_cost > 0 || unit_cost < 0 || isnan (unit_cost)
             ? cro_words_unit_cost (model, base, unit_cost)
             : g_strdup (_("costs nothing"));
}

/* Of what is missing nobody knows that it costs nothing. */
char *
cro_words_item_cost (CroFigures *figures,
                     guint32     item)
{
  CroBase base = (CroBase) figures->model->measures[item].base;
  double unit_cost = cro_figures_unit_cost (figures, item);
  CroKnown known = cro_known_of_item (figures, item);

  return known == CRO_KNOWN_WHOLE
             ? cro_words_costs (figures->model, base, unit_cost)
             : cro_words_known_unit_cost (figures->model, base, known, unit_cost);
}

char *
cro_words_cause (const CroCause *cause)
{
  g_autofree char *name = cause->name != NULL ? cro_isolate (cause->name) : NULL;

  switch (cause->kind)
    {
    case CRO_CAUSE_PRICE:
      return g_strdup_printf (_("no price for %s"), name);
    case CRO_CAUSE_RATE:
      return g_strdup_printf (_("no exchange rate for %s"), name);
    case CRO_CAUSE_DENSITY:
      return g_strdup_printf (_("no density for %s"), name);
    case CRO_CAUSE_PIECE:
      return g_strdup_printf (_("no piece weight for %s"), name);
    case CRO_CAUSE_AMOUNT:
      return g_strdup_printf (_("no finished amount for %s"), name);
    case CRO_CAUSE_VALUE:
      return g_strdup_printf (_("no value for %s"), name);
    case CRO_CAUSE_WAGE:
      return g_strdup (_("no hourly labour cost, though minutes are given"));
    case CRO_CAUSE_LINES:
      return g_strdup_printf (_("no lines in %s"), name);
    case CRO_CAUSE_PLATES:
      /* Translators: %s is a menu. */
      return g_strdup_printf (_("no plates in %s"), name);
    case CRO_CAUSE_CREDIT:
      return g_strdup_printf (_("the credit exceeds the cost of %s"), name);
    }
  return NULL;
}

char *
cro_words_missing (const CroFigure *figure,
                   GArray          *causes)
{
  g_autoptr (GString) list = g_string_new (NULL);

  if (causes->len == 0)
    return NULL;
  for (guint i = 0; i < causes->len; i++)
    {
      g_autofree char *cause = cro_words_cause (&g_array_index (causes, CroCause, i));

      g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", cause);
    }
  /* Translators: a cost that is known in part; %s lists what is missing. */
  return g_strdup_printf (figure->has_credit ? _("incomplete: %s") : _("at least: %s"), list->str);
}

char *
cro_words_allergens (guint32 mask)
{
  GString *list = g_string_new (NULL);

  for (guint i = 0; i < CRO_N_ALLERGENS; i++)
    if (mask & (1u << i))
      g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "",
                              cro_words_allergen (CRO_ALLERGEN_LIST_EU, i));
  if (list->len == 0)
    /* Translators: of allergens. */
    g_string_append (list, _("none of the 14 allergens"));
  return g_string_free (list, FALSE);
}

char *
cro_words_allergens_entered (const CroBreakdown *breakdown)
{
  guint not_known = breakdown->allergens_not_known->len, n = breakdown->n_bought;

  if (breakdown->allergens == 0
      && ((not_known > 0 && not_known >= n)
          || cro_causes_lack_contents (breakdown->missing)))
    /* Translators: of allergens, where nobody entered anything. */
    return g_strdup (C_("allergens", "not stated"));
  if (breakdown->allergens == 0 && not_known > 0)
    /* Translators: after “Allergens entered:”: of how many ingredients they are known, and how many there
     * are. While some are not known nothing says “none” alone. */
    return g_strdup_printf (_("known for %u of %u ingredients, with none of the 14"), n - not_known, n);
  return cro_words_allergens (breakdown->allergens);
}

const char *
cro_words_no_supplier (CroModel *model)
{
  const char *const names[] = { _("No supplier named"), "No supplier named", "Aucun fournisseur indiqué" };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    for (guint j = 0; j < model->suppliers->len; j++)
      {
        const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, j);

        if (!supplier->is_dead && strcmp (supplier->name, names[i]) == 0)
          return names[i];
      }
  return names[0];
}

const char *
cro_words_caution (void)
{
  return _("Allergens are those entered for this date and recipe: check suppliers’ labels. Not "
           "known is not absent, and cross-contact is not known here. It is no “free from” claim; "
           "local law and a responsible person decide before serving. Raw or lightly cooked "
           "shellfish and re-used shells and stocks follow the kitchen’s own food-safety plan and "
           "local codes.");
}
