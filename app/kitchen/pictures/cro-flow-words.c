#include "config.h"

#include "cro-flow-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-breakdown.h"
#include "cro-figure-words.h"
#include "cro-flow-figures.h"
#include "cro-isolate.h"
#include "cro-known.h"
#include "cro-number.h"
#include "cro-words.h"

gboolean
cro_flow_stream_shows (CroFigures     *figures,
                       CroRef          thing,
                       CroFlowMeasure  measure)
{
  g_autoptr (CroFlow) flow = cro_flow_new (figures, thing);

  return cro_flow_total (flow, measure) > 0;
}

static CroKnown
known_of (CroFigures *figures,
          CroRef      thing)
{
  CroFigure figure;

  if (thing.kind == CRO_REF_RECIPE && !cro_model_recipe (figures->model, thing.slot)->is_plate)
    return cro_known_of_recipe (figures, thing.slot);
  figure = thing.kind == CRO_REF_MENU ? cro_figure_of_menu (figures, thing.slot)
                                      : cro_figure_of_plate (figures, thing.slot);
  return cro_known_of_cost (&figure);
}

/* The two that weigh most, or cost most. */
static void
find_two (const CroFlow  *flow,
          CroFlowMeasure  measure,
          guint           two[2])
{
  double of[2] = { 0, 0 };

  two[0] = two[1] = 0;
  for (guint i = 1; i < flow->nodes->len; i++)
    {
      const CroFlowNode *node = cro_flow_node (flow, i);
      double size = measure == CRO_FLOW_MONEY ? node->money : node->grams;

      if (node->kind != CRO_FLOW_BOUGHT || size <= of[1])
        continue;
      of[1] = size > of[0] ? of[0] : size;
      two[1] = size > of[0] ? two[0] : i;
      two[0] = size > of[0] ? i : two[0];
      of[0] = fmax (of[0], size);
    }
}

static char *
whole_of (CroFigures     *figures,
          CroRef          thing,
          const CroFlow  *flow,
          CroFlowMeasure  measure)
{
  g_autofree char *text = measure == CRO_FLOW_MONEY
                              ? cro_words_money (figures->model, cro_flow_total (flow, measure))
                              : cro_words_amount (CRO_BASE_GRAM, cro_flow_total (flow, measure));

  return cro_words_known (measure == CRO_FLOW_MONEY      ? known_of (figures, thing)
                          : cro_flow_node (flow, 0)->is_weighed ? CRO_KNOWN_WHOLE
                                                          : CRO_KNOWN_AT_LEAST,
                          text);
}

/* In a sentence that wraps a number keeps its unit. */
static char *
node_text_together (const CroFlowShown *shown,
                    guint               node)
{
  g_autofree char *plain = cro_flow_node_plain (shown, node);
  g_autofree char *text = shown->measure == CRO_FLOW_MONEY
                              ? cro_words_known (cro_flow_node_known (shown, node), plain)
                              : cro_flow_node_text (shown, node);

  return cro_words_together (text);
}

static const char *
name_of (CroFigures    *figures,
         const CroFlow *flow,
         guint          node)
{
  return cro_model_item (figures->model, cro_flow_node (flow, node)->slot)->name;
}

char *
cro_words_made_of (CroFigures     *figures,
                   CroRef          thing,
                   CroFlowMeasure  measure)
{
  g_autoptr (CroFlow) flow = cro_flow_new (figures, thing);
  g_autofree gint64 *minor = g_new0 (gint64, flow->nodes->len + 1);
  CroFlowShown shown = { figures->model, flow, measure, NULL, minor };
  guint two[2];
  g_autofree char *whole = NULL, *first = NULL, *second = NULL;

  cro_flow_apportion (flow, cro_currency_digits (figures->model->currency), minor);
  find_two (flow, measure, two);
  if (two[0] == 0 || !(cro_flow_total (flow, measure) > 0))
    return NULL;
  whole = whole_of (figures, thing, flow, measure);
  first = node_text_together (&shown, two[0]);
  if (two[1] == 0)
    return measure == CRO_FLOW_MONEY
               /* Translators: an ingredient, what it makes of the cost, and the cost. */
               ? cro_isolate_printf (C_("cost", "%s is %s of %s"), name_of (figures, flow, two[0]),
                                     first, whole)
               /* Translators: what a plate weighs, an ingredient and how much of it is bought. */
               : cro_isolate_printf (_("Weighs %s. Bought for it: %s %s"), whole,
                                     name_of (figures, flow, two[0]), first);
  second = node_text_together (&shown, two[1]);
  return measure == CRO_FLOW_MONEY
             /* Translators: an ingredient, what it makes of the cost, and the cost; another one and what that
              * makes of it. */
             ? cro_isolate_printf (C_("cost", "%s is %s of %s; %s %s"),
                                   name_of (figures, flow, two[0]), first, whole,
                                   name_of (figures, flow, two[1]), second)
             /* Translators: what a plate weighs; two ingredients and how much of them is bought. */
             : cro_isolate_printf (_("Weighs %s. Bought for it: %s %s, %s %s"), whole,
                                   name_of (figures, flow, two[0]), first,
                                   name_of (figures, flow, two[1]), second);
}

char *
cro_words_comes_back (CroFigures *figures,
                      CroRef      thing)
{
  g_autoptr (CroFlow) flow = cro_flow_new (figures, thing);
  g_autoptr (GString) list = g_string_new (NULL);

  for (guint i = 0; i < flow->recovered->len; i++)
    {
      const CroFlowAside *aside = &g_array_index (flow->recovered, CroFlowAside, i);
      g_autofree char *amount = cro_words_amount (CRO_BASE_GRAM, aside->grams);

      cro_isolate_append (list, cro_model_item (figures->model, aside->item)->name);
      g_string_append_printf (list, " %s", amount);
    }
  /* Translators: what is not used up, and used again: names with amounts. */
  return list->len > 0 ? g_strdup_printf (_("Comes back: %s"), list->str) : NULL;
}

const char *
cro_flow_stream_near (CroModel *model,
                      CroRef    thing)
{
  if (thing.kind == CRO_REF_MENU)
    return _("On the menu");
  return cro_model_recipe (model, thing.slot)->is_plate ? _("On the plate") : _("In the batch");
}

const char *
cro_flow_stream_far (void)
{
  return _("Bought");
}
