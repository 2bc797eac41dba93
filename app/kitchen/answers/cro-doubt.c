#include "cro-doubt.h"

#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-line-doubt.h"
#include "cro-price-history.h"
#include "cro-result.h"

/* What scales, rounding and a brush of oil do to a batch. */
#define GAIN 1.05

/* A likely slipped decimal: the price over a power of ten is this near to the one before, which it
 * is not as it stands. */
#define NEAR 0.25

/* A price that is so many times the one before, or so small a part of it, is asked about though no
 * decimal slipped. Common practice, no source: a bad season doubles a price, and seldom more. */
#define FAR 3.0

#define TARGET "target_pct_micro"
#define DENSITY "density_g_per_ml_micro"

/* --- Percentages ----------------------------------------------------------------------------------- */

/* Below these, in per cent, a percentage was probably typed as a part of 1. */
static const struct { const char *table, *column; double below; } percentages[] = {
  { "book", "tax_pct_micro", 1 },
  { "ingredient", "trim_yield_pct_micro", 2 },
  { "offer", "net_pct_micro", 2 },
  { "price", "tax_included_pct_micro", 1 },
  { "output", "yield_pct_micro", 1 },
  { "recipe_line", "yield_pct_micro", 2 },
  { "recipe_line", "recovered_pct_micro", 1 },
  { "plate", "tax_pct_micro", 1 },
  { "plate", "allowance_pct_micro", 0.15 },
  { "menu", "tax_pct_micro", 1 },
};

static gboolean
target_is_doubtful (CroModel *model,
                    gint64    micro,
                    CroDoubt *doubt)
{
  *doubt = (CroDoubt){ .kind = CRO_DOUBT_PERCENT, .column = TARGET, .other = CRO_NO_SLOT,
                       .is = cro_decimal_to_double (micro) };
  return micro > 0 && cro_result_is_slip (model->speaks, doubt->is, &doubt->meant);
}

gboolean
cro_doubt_of_percent (CroModel   *model,
                      const char *table,
                      const char *column,
                      gint64      micro,
                      CroDoubt   *doubt)
{
  double is = cro_decimal_to_double (micro);

  if (strcmp (column, TARGET) == 0)
    return target_is_doubtful (model, micro, doubt);
  for (gsize i = 0; i < G_N_ELEMENTS (percentages) && is > 0; i++)
    if (is < percentages[i].below && strcmp (table, percentages[i].table) == 0
        && strcmp (column, percentages[i].column) == 0)
      {
        *doubt = (CroDoubt){ .kind = CRO_DOUBT_PERCENT, .column = percentages[i].column, .is = is,
                             .meant = is * 100, .other = CRO_NO_SLOT };
        return TRUE;
      }
  return FALSE;
}

/* --- Densities ---------------------------------------------------------------------------------------- */

/* In g/ml. Common practice, no source: dried leaves are at 0.1, salt at 1.2, and syrups and doughs below
 * 1.5; nothing that is eaten comes near 3. */
#define LIGHTEST 0.1
#define HEAVIEST 3.0

/* What water weighs is the likeliest: the slipped sign that comes nearest to it. */
gboolean
cro_doubt_of_density (gint64    micro,
                      CroDoubt *doubt)
{
  double is = cro_decimal_to_double (micro);

  *doubt = (CroDoubt){ .kind = CRO_DOUBT_DENSITY, .column = DENSITY, .other = CRO_NO_SLOT, .is = is,
                       .meant = NAN };
  if (!(is > 0) || (is >= LIGHTEST && is <= HEAVIEST))
    return FALSE;
  for (int power = -4; power <= 4; power++)
    {
      double meant = is * pow (10, power);

      if (meant >= 0.5 && meant < 2)
        doubt->meant = meant;
    }
  return TRUE;
}

/* --- Batches ----------------------------------------------------------------------------------------- */

typedef struct
{
  double  grams;          /* of food, as the lines say; 0: some of it cannot be weighed */
  guint32 grown;          /* an item that its own yield above 100 % has made more already */
  gboolean may_grow;      /* one is weighed dry and soaked in the batch */
} Input;

static Input
input_of (CroFigures *figures,
          guint32     recipe)
{
  const CroGraph *graph = &figures->graph;
  CroModel *model = figures->model;
  guint32 row = cro_figures_row (figures, recipe);
  Input input = { 0, CRO_NO_SLOT, FALSE };
  gboolean is_known = TRUE;

  for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      guint32 line = graph->line_slot[l];
      guint32 item = model->lines.item[line];
      const CroMeasure *measure = &model->measures[item];
      CroLack lack;

      if (!measure->is_food)
        continue;
      input.grams += cro_line_grams (&model->lines, line, measure, &lack);
      is_known &= lack == CRO_LACKS_NOTHING;
      if (cro_line_yield (&model->lines, line, measure) > CRO_WHOLE_PCT)
        input.grown = item;
      input.may_grow |= measure->trim_yield > CRO_WHOLE_PCT;
    }
  if (!is_known)
    input.grams = 0;
  return input;
}

/* What comes out, in grams; 0 where some of it is not weighed. *is_told: a yield above 100 %
 * says that it grows. */
static double
output_grams (CroFigures *figures,
              guint32     recipe,
              gboolean   *is_told)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, recipe, &outputs);
  double grams = 0;

  *is_told = FALSE;
  for (guint32 i = 0; i < n; i++)
    {
      const CroOutput *output = &cro_model_item (figures->model, outputs[i])->output;
      double each = output->finished
                    * figures->model->measures[outputs[i]].grams[cro_unit_get (output->unit)->base];

      *is_told |= output->amount == 0 && each > 0;
      if (!(each > 0))
        return 0;
      grams += each;
    }
  return grams;
}

gboolean
cro_doubt_of_batch (CroFigures *figures,
                    guint32     preparation,
                    CroDoubt   *doubt)
{
  Input input = input_of (figures, preparation);
  gboolean is_told;
  double given = output_grams (figures, preparation, &is_told);

  if (input.grams == 0 || given <= input.grams * GAIN)
    return FALSE;
  *doubt = (CroDoubt){ .ref = CRO_REF (CRO_REF_RECIPE, preparation), .is = given,
                       .meant = input.grams, .other = input.grown };
  doubt->kind = input.grown != CRO_NO_SLOT ? CRO_DOUBT_SOAKED_TWICE : CRO_DOUBT_GAINS;
  return input.grown != CRO_NO_SLOT || !(is_told || input.may_grow);
}

/* --- Lines -------------------------------------------------------------------------------------------- */

/* Whether an item comes from a batch that weighs its losses: another output stands beside it, or it
 * is less than what goes in. */
static gboolean
is_trimmed_already (CroFigures *figures,
                    guint32     item)
{
  gint32 maker = figures->model->maker[item];
  gboolean is_told;
  Input input;
  double given;

  if (maker < 0)
    return FALSE;
  input = input_of (figures, (guint32) maker);
  given = output_grams (figures, (guint32) maker, &is_told);
  return given > 0 && given < input.grams * (1 - NEAR);
}

gboolean
cro_doubt_of_line (CroFigures *figures,
                   guint32     line,
                   CroDoubt   *doubt)
{
  CroLines *lines = &figures->model->lines;
  double net, bought;

  *doubt = (CroDoubt){ .ref = CRO_REF (CRO_REF_LINE, line), .other = lines->item[line] };
  if (cro_line_loses_twice (figures, line, &net, &bought))
    {
      doubt->kind = CRO_DOUBT_LOSES_TWICE;
      doubt->is = net;
      doubt->meant = bought;
      return TRUE;
    }
  doubt->kind = CRO_DOUBT_TRIMMED_TWICE;
  doubt->column = "yield_pct_micro";
  doubt->is = (double) lines->yield[line] / CRO_MICRO;
  return lines->yield[line] > 0 && lines->yield[line] < CRO_WHOLE_PCT
         && is_trimmed_already (figures, lines->item[line]);
}

/* --- Offers ------------------------------------------------------------------------------------------- */

double
cro_doubt_slip (double ratio)
{
  if (!(ratio > 0) || !isfinite (ratio) || fabs (ratio - 1) <= NEAR)
    return 0;
  for (int power = -4; power <= 4; power++)
    if (power != 0 && fabs (ratio / pow (10, power) - 1) <= NEAR)
      return pow (10, power);
  return 0;
}

static gboolean
is_far (double ratio)
{
  return isfinite (ratio) && ratio > 0 && (ratio >= FAR || ratio <= 1 / FAR);
}

gboolean
cro_doubt_is_jump (double ratio)
{
  return cro_doubt_slip (ratio) != 0 || is_far (ratio);
}

int
cro_doubt_of_jump (const double   prices[CRO_DOUBT_PRICES],
                   const gboolean is_answered[CRO_DOUBT_PRICES],
                   double        *slip)
{
  int at = -1;

  if (cro_doubt_is_jump (prices[0] / prices[1]))
    at = isfinite (prices[2]) && cro_doubt_is_jump (prices[1] / prices[2])
         && !cro_doubt_is_jump (prices[0] / prices[2]);
  if (at < 0 || (is_answered != NULL && is_answered[at]))
    return -1;
  *slip = cro_doubt_slip (prices[at] / prices[at + 1]);
  return at;
}

gboolean
cro_doubt_of_price (CroModel *model,
                    guint32   offer,
                    GArray   *history,
                    CroDate   day,
                    CroDoubt *doubt)
{
  const CroPastPrice *newest[CRO_DOUBT_PRICES] = { NULL };
  double costs[CRO_DOUBT_PRICES] = { NAN, NAN, NAN }, slip;
  gboolean is_answered[CRO_DOUBT_PRICES] = { FALSE };
  int n = 0, at;

  for (guint i = 0; i < history->len && n < CRO_DOUBT_PRICES; i++)
    {
      const CroPastPrice *price = &g_array_index (history, CroPastPrice, i);

      if (price->offer != offer || price->offer_then.from > day)
        continue;
      newest[n] = price;
      is_answered[n] = price->is_answered;
      costs[n++] = price->unit_cost;
    }
  at = cro_doubt_of_jump (costs, is_answered, &slip);
  if (at < 0)
    return FALSE;
  *doubt = (CroDoubt){ .kind = CRO_DOUBT_PRICE, .ref = CRO_REF (CRO_REF_OFFER, offer), .column = "price_micro",
                       .other = cro_model_offer (model, offer)->item, .date = newest[at]->offer_then.from,
                       .is_past = at > 0, .is = cro_decimal_to_double (newest[at]->offer_then.price) };
  doubt->meant = slip != 0 ? doubt->is / slip : NAN;
  return TRUE;
}

void
cro_doubt_add_coming (GArray         *doubts,
                      const CroDoubt *doubt,
                      CroDate         today)
{
  gboolean is_there = doubt->date <= today;

  for (guint i = 0; i < doubts->len && !is_there; i++)
    {
      const CroDoubt *other = &g_array_index (doubts, CroDoubt, i);

      is_there = other->kind == doubt->kind && other->date == doubt->date && cro_ref_equal (other->ref, doubt->ref)
                 && other->currency == doubt->currency;
    }
  if (!is_there)
    g_array_append_val (doubts, *doubt);
}

static gboolean
is_over (CroBook  *book,
         guint32   offer,
         CroDoubt *doubt)
{
  const CroOfferEntry *entry = cro_model_offer (cro_book_get_model (book), offer);
  const CroOffer *of = &entry->offer;

  *doubt = (CroDoubt){ .kind = CRO_DOUBT_EXPIRED, .ref = CRO_REF (CRO_REF_OFFER, offer), .column = "until",
                       .other = entry->item, .date = of->until };
  return of->is_preferred && of->has_until && of->until < cro_book_get_figures (book)->date;
}

gboolean
cro_doubt_of_offer (CroBook  *book,
                    guint32   offer,
                    GArray   *history,
                    CroDoubt *doubt)
{
  return cro_doubt_of_price (cro_book_get_model (book), offer, history, cro_book_get_figures (book)->date, doubt)
         || is_over (book, offer, doubt);
}

/* --- Names ---------------------------------------------------------------------------------------------- */

static guint
n_of (CroModel *model,
      CroRef    ref)
{
  return ref.kind == CRO_REF_ITEM       ? model->items->len
         : ref.kind == CRO_REF_RECIPE   ? model->recipes->len
         : ref.kind == CRO_REF_SUPPLIER ? model->suppliers->len
                                        : model->menus->len;
}

/* A preparation bears the name of its output, which is asked about. */
static gboolean
is_asked (CroModel *model,
          CroRef    ref)
{
  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      return !cro_model_item (model, ref.slot)->is_dead;
    case CRO_REF_RECIPE:
      return !cro_model_recipe (model, ref.slot)->is_dead
             && cro_model_recipe (model, ref.slot)->is_plate;
    case CRO_REF_SUPPLIER:
      return !g_array_index (model->suppliers, CroSupplier, ref.slot).is_dead;
    case CRO_REF_MENU:
      return !cro_model_menu (model, ref.slot)->is_dead;
    default:
      return FALSE;
    }
}

static void
set_alike (CroDoubt *doubt,
           CroRef    ref,
           guint32   other)
{
  *doubt = (CroDoubt){ .kind = CRO_DOUBT_ALIKE, .ref = ref, .column = "name", .other = other };
}

static CroRef
bearer_of (CroModel *model,
           CroRef    ref)
{
  return ref.kind == CRO_REF_RECIPE && ref.slot != CRO_NO_SLOT && !cro_model_recipe (model, ref.slot)->is_plate
                 && cro_model_recipe (model, ref.slot)->n_outputs > 0
             ? CRO_REF (CRO_REF_ITEM, g_array_index (model->output_order, guint32,
                                                     cro_model_recipe (model, ref.slot)->first_output))
             : ref;
}

static gboolean
is_same (CroModel   *model,
         CroRef      ref,
         const char *name,
         CroDoubt   *doubt)
{
  g_autofree char *folded = ref.slot == CRO_NO_SLOT || is_asked (model, ref) ? cro_fold (name) : NULL;

  for (guint32 i = 0; folded != NULL && i < n_of (model, ref); i++)
    if (i != ref.slot && is_asked (model, CRO_REF (ref.kind, i))
        && cro_folds_to (cro_ref_name (model, CRO_REF (ref.kind, i)), folded))
      {
        set_alike (doubt, ref, i);
        return TRUE;
      }
  return FALSE;
}

/* What is bought, and who sells it: plates and what is made bear each other's words by right. */
static gboolean
is_likened (CroModel *model,
            CroRef    ref)
{
  return ref.slot == CRO_NO_SLOT
         || (is_asked (model, ref)
             && (ref.kind == CRO_REF_SUPPLIER || (ref.kind == CRO_REF_ITEM && model->measures[ref.slot].is_bought)));
}

CroLikeNames *
cro_doubt_likes (CroModel *model,
                 CroRef    ref)
{
  CroLikeNames *likes = cro_like_names_new ();

  for (guint32 i = 0; i < n_of (model, ref); i++)
    if (i != ref.slot && is_likened (model, CRO_REF (ref.kind, i)))
      cro_like_names_add (likes, cro_ref_name (model, CRO_REF (ref.kind, i)));
  return likes;
}

static gboolean
is_like (CroModel     *model,
         CroLikeNames *likes,
         CroRef        ref,
         const char   *name,
         CroDoubt     *doubt)
{
  g_autoptr (GPtrArray) found = is_likened (model, ref) ? cro_like_names_find (likes, name, 1) : g_ptr_array_new ();

  for (guint32 i = 0; found->len > 0 && i < n_of (model, ref); i++)
    if (is_likened (model, CRO_REF (ref.kind, i)) && found->pdata[0] == cro_ref_name (model, CRO_REF (ref.kind, i)))
      {
        set_alike (doubt, ref, i);
        return TRUE;
      }
  return FALSE;
}

gboolean
cro_doubt_of_new_name (CroModel     *model,
                       CroLikeNames *likes,
                       CroRef        ref,
                       const char   *name,
                       CroDoubt     *doubt)
{
  ref = bearer_of (model, ref);
  return is_same (model, ref, name, doubt) || is_like (model, likes, ref, name, doubt);
}

gboolean
cro_doubt_of_name (CroModel *model,
                   CroRef    ref,
                   CroDoubt *doubt)
{
  return is_same (model, bearer_of (model, ref), cro_ref_name (model, ref), doubt);
}

void
cro_doubt_add_names (CroModel   *model,
                     CroRefKind  kind,
                     GArray     *doubts)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint32 i = 0; i < n_of (model, CRO_REF (kind, 0)); i++)
    {
      CroRef ref = CRO_REF (kind, i);
      char *folded = is_asked (model, ref) ? cro_fold (cro_ref_name (model, ref)) : NULL;
      gpointer other;
      CroDoubt doubt;

      if (folded == NULL)
        continue;
      if (g_hash_table_lookup_extended (seen, folded, NULL, &other))
        {
          set_alike (&doubt, ref, GPOINTER_TO_UINT (other));
          g_array_append_val (doubts, doubt);
        }
      g_hash_table_insert (seen, folded, GUINT_TO_POINTER (i));
    }
}
