#include "config.h"

#include "cro-served-figures.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-result-words.h"
#include "cro-words.h"

/* Why a cost is no lower bound either; "" where it may be taken as it stands. */
static const char *
doubt_of (const CroFigure *figure,
          GArray          *causes)
{
  if (!figure->is_incomplete || !figure->has_credit)
    return "";
  return figure->cost < 0 && cro_causes_are_of_credit (causes) ? _("credited more than it costs") : _("incomplete");
}

void
cro_served_show_cost (CroFigureView   *view,
                      CroModel        *model,
                      const CroFigure *figure,
                      GArray          *causes)
{
  g_autofree char *value = cro_words_cost (model, figure);
  g_autofree char *bite = cro_words_bite (model, figure);
  const char *incomplete = doubt_of (figure, causes);
  gboolean is_one_bite = fabs (figure->bite - figure->cost) <= 1e-9 * fabs (figure->cost);
  /* Translators: what one bite costs. */
  g_autofree char *of_bite = isnan (figure->bite) || is_one_bite
                                 ? g_strdup ("")
                                 : g_strdup_printf (_("per bite %s"), bite);
  g_autofree char *note = g_strconcat (incomplete, *incomplete && *of_bite ? " · " : "", of_bite,
                                       NULL);

  /* What is sold by itself is no bite of a menu. */
  cro_figure_view_set (view, value, is_one_bite && isnan (figure->net_price) ? _("per guest, 1 bite") : _("per guest"),
                       note);
}

/* Whose figure it is, and which where a name alone would leave that open. */
static char *
dup_of (CroModel   *model,
        const char *menu)
{
  const char *name = cro_words_result_name (model);

  return menu == NULL                              ? g_strdup (name)
         : model->speaks == CRO_SPEAKS_FOOD_COST ? cro_isolate (menu)
                                                   /* Translators: a menu, and “gross profit”. */
                                                   : cro_isolate_printf (_("%s, %s"), menu, name);
}

/* The price with tax at which it would just meet its target; NULL: there is none. */
static char *
dup_price (CroModel        *model,
           const CroFigure *figure)
{
  CroFigure plain = *figure;

  if (!(figure->cost > 0 && isfinite (figure->price_for_target)))
    return NULL;
  /* In a sentence its mark is short: "target 30.0 % at a price of ≥ 92.96". */
  plain.is_incomplete = FALSE;
  return cro_words_take_joined (
      cro_words_take_short (cro_known_of_cost (figure), cro_words_price_for_target (model, &plain)));
}

static char *
dup_against (CroModel        *model,
             const CroFigure *figure,
             const char      *of,
             const char      *price)
{
  g_autofree char *target = cro_words_target (model, figure);

  if (isnan (figure->target_pct))
    return cro_isolate_printf (_("%s, no target"), of);
  /* Translators: “food cost”, or the name of a menu, its target, and the price that meets that. */
  return price != NULL ? cro_isolate_printf (_("%s, target %s at a price of %s"), of, target, price)
                       /* Translators: “food cost”, or the name of a menu, and its target. */
                       : cro_isolate_printf (_("%s, target %s"), of, target);
}

static char *
dup_caption (CroModel        *model,
             const CroFigure *figure,
             const char      *of,
             gboolean         is_of_menu,
             const char      *price)
{
  g_autofree char *against = NULL;

  /* A plate has bites, and may stand on a menu instead. */
  if (isnan (figure->net_price) && !isnan (figure->bite) && !is_of_menu)
    return g_strdup (_("no price: set one, or put it on a menu"));
  if (isnan (figure->net_price))
    return cro_isolate_printf (_("%s, no price yet"), of);
  /* A price that would do without the tax that is to come is none. */
  against = dup_against (model, figure, of, figure->is_untaxed ? NULL : price);
  /* Translators: “food cost, target 30 %”: what it is of a price that nobody has set a tax of. */
  return figure->is_untaxed ? g_strdup_printf (_("%s, tax not set"), against) : g_steal_pointer (&against);
}

static char *
dup_note (CroModel        *model,
          const CroFigure *figure,
          const char      *price)
{
  if (!isnan (figure->net_price))
    return cro_words_spare (model, figure);
  return price == NULL ? g_strdup (_("? set price"))
                       /* Translators: %s is the price with tax that would meet the target. */
                       : g_strdup_printf (_("? set price · on target at %s"), price);
}

/* Of a price or a target that nobody has set yet. */
#define SAMPLE_MONEY 88.88
#define SAMPLE_TARGET 30

/* Of what is said before there is a price, and once there is one, that is above the target's by so much. */
static void
keep_room (CroFigureView   *view,
           CroModel        *model,
           const CroFigure *figure,
           const char      *of,
           gboolean         is_of_menu)
{
  CroFigure as = *figure;

  as.is_untaxed = as.is_over_target = FALSE;
  as.cost = as.cost > 0 ? as.cost : SAMPLE_MONEY;
  as.target_pct = as.target_pct > 0 ? as.target_pct : SAMPLE_TARGET;
  as.price_for_target = isfinite (as.price_for_target) ? MAX (as.price_for_target, SAMPLE_MONEY) : SAMPLE_MONEY;
  for (guint room = 0; room < CRO_FIGURE_ROOMS; room++)
    {
      g_autofree char *price = dup_price (model, &as), *caption = NULL, *note = NULL;

      as.net_price = room == 0 ? NAN : (as.cost + SAMPLE_MONEY) / as.target_pct * 100;
      caption = dup_caption (model, &as, of, is_of_menu, price);
      note = dup_note (model, &as, price);
      cro_figure_view_keep_room (view, room, caption, note);
    }
}

void
cro_served_show_pct (CroFigureView   *view,
                     CroModel        *model,
                     const CroFigure *figure,
                     const char      *menu)
{
  g_autofree char *of = dup_of (model, menu);
  g_autofree char *result = cro_words_result (model, figure);
  g_autofree char *price = dup_price (model, figure);
  g_autofree char *caption = dup_caption (model, figure, of, menu != NULL, price);
  g_autofree char *note = dup_note (model, figure, price);

  cro_figure_view_set (view, result, caption, note);
  keep_room (view, model, figure, of, menu != NULL);
  cro_figure_view_set_scale (view, cro_result_of_pct (model->speaks, figure->food_cost_pct),
                             cro_result_of_pct (model->speaks, figure->target_pct), caption);
  if (figure->is_over_target)
    gtk_widget_add_css_class (GTK_WIDGET (view), "over");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (view), "over");
}

void
cro_served_show_sum (CroFigureView *view,
                     GPtrArray     *sum,
                     const char    *caption)
{
  g_autofree char *terms = sum != NULL ? cro_sum_to_terms (sum) : NULL;

  gtk_widget_set_visible (GTK_WIDGET (view), sum != NULL);
  if (sum != NULL)
    cro_figure_view_set (view, cro_sum_get_figure (sum), caption, terms);
}

/* In days, of what costs something; -1: nothing does. */
static int
oldest_price (CroFigures         *figures,
              const CroBreakdown *breakdown)
{
  int oldest = -1;

  for (guint i = 0; i < breakdown->ingredients->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (breakdown->ingredients, CroShareOfCost, i);
      guint32 offer = figures->offer_in_use[share->item];

      if (offer != CRO_NO_SLOT && share->unit_cost > 0)
        oldest = MAX (oldest,
                      figures->date - cro_model_offer (figures->model, offer)->offer.from);
    }
  return oldest;
}

void
cro_served_show_missing (CroCausesView      *view,
                         CroFigures         *figures,
                         const CroBreakdown *breakdown)
{
  int days = oldest_price (figures, breakdown);
  g_autofree char *known = NULL;

  if (days == 0)
    known = g_strdup (_("All prices known, those of food all of today"));
  else if (days > 0)
    known = g_strdup_printf (ngettext ("All prices known, oldest of food %d day",
                                       "All prices known, oldest of food %d days", (gulong) days), days);
  cro_causes_view_set (view, breakdown->missing, known);
}
