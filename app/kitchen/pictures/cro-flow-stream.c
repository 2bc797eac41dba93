#include "config.h"

#include "cro-flow-stream.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-breakdown.h"
#include "cro-figure-words.h"
#include "cro-flow-others.h"
#include "cro-isolate.h"
#include "cro-known.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-words.h"

/* Kinds of ids beside those of the flow. */
#define OF_LINE 32
#define APART 33

/* Of the whole, what a bar beside it stands for. */
#define SCALE_PART 40

/* Passes until what flows from a few has reached all: so deep a book is not drawn. */
#define MOST_PASSES 200

typedef struct
{
  CroFigures     *figures;
  CroRef          thing;
  CroFlowMeasure  measure;
  CroFlow        *flow;
  CroStream      *stream;
  double         *part;        /* of each node, of what is shown alone; NULL: all */
  gint64         *minor;       /* money of each node as it is shown; of those that make up the cost */
  guint          *ranks;
  guint          *number;      /* of each node in the stream */
} Making;

static CroFlowNode *
node_at (const CroFlow *flow,
         guint          i)
{
  return &g_array_index (flow->nodes, CroFlowNode, i);
}

static double
width_of (const Making      *m,
          const CroFlowLink *link)
{
  double width = m->measure == CRO_FLOW_MONEY ? link->money : link->grams;
  double part = m->part != NULL ? m->part[link->farther] : 1;

  return isfinite (width) && width > 0 ? width * part : 0;
}

static double
size_of (const Making *m,
         guint         node)
{
  const CroFlowNode *of = node_at (m->flow, node);

  return (m->measure == CRO_FLOW_MONEY ? of->money : of->grams) * (m->part != NULL ? m->part[node] : 1);
}

/* --- Figures ---------------------------------------------------------------------------------- */

static gboolean
makes_up_cost (CroFlowKind kind)
{
  return kind == CRO_FLOW_BOUGHT || kind == CRO_FLOW_ELSEWHERE || kind == CRO_FLOW_TO_OTHERS;
}

/* What was bought adds up to the cost as it is shown; likewise all components. */
static void
apportion (const CroFlow *flow,
           int            digits,
           gint64        *minor)
{
  guint n = flow->nodes->len;
  g_autofree double *parts = g_new0 (double, n + 1);
  g_autofree guint64 *order = g_new (guint64, n + 1);

  for (guint i = 0; i < n; i++)
    if (makes_up_cost (node_at (flow, i)->kind))
      parts[i] = node_at (flow, i)->kind == CRO_FLOW_TO_OTHERS ? -node_at (flow, i)->money
                                                               : node_at (flow, i)->money;
  cro_money_apportion (cro_money_round (node_at (flow, 0)->money, digits), parts, n, digits, order,
                       minor);
}

static char *
amount_text (const Making *m,
             double        amount)
{
  return m->measure == CRO_FLOW_MONEY ? cro_words_money (m->figures->model, amount)
                                      : cro_words_amount (CRO_BASE_GRAM, amount);
}

/* As it is shown; what is less than the least that can be shown is not nothing. */
static char *
money_text (const Making *m,
            gint64        minor,
            double        money)
{
  int digits = cro_currency_digits (m->figures->model->currency);
  g_autofree char *text = cro_money_to_text (minor != 0 || !(money > 0) ? minor : 1, digits);

  /* Translators: less than the least amount of money, "< 0.01". */
  return minor != 0 || !(money > 0) ? g_steal_pointer (&text) : g_strdup_printf (_("< %s"), text);
}

static char *
node_text (const Making *m,
           guint         node)
{
  const CroFlowNode *of = node_at (m->flow, node);

  if (m->measure == CRO_FLOW_WEIGHT)
    return cro_words_take_short (of->is_weighed ? CRO_KNOWN_WHOLE
                                 : of->grams > 0 ? CRO_KNOWN_AT_LEAST
                                                 : CRO_KNOWN_NOTHING,
                                 amount_text (m, size_of (m, node)));
  if (of->is_missing && of->kind == CRO_FLOW_BOUGHT)
    return g_strdup ("?");
  if (makes_up_cost (of->kind) && m->minor != NULL)
    return money_text (m, ABS (m->minor[node]), fabs (of->money));
  return amount_text (m, size_of (m, node));
}

/* Of every link from the thing itself, money as it is shown: with what leaves it all add up to its cost. */
static gint64 *
dup_near (const Making *m)
{
  const CroFlow *flow = m->flow;
  guint n = flow->links->len;
  int digits = cro_currency_digits (m->figures->model->currency);
  gint64 *near = g_new0 (gint64, n + 1), total = cro_money_round (node_at (flow, 0)->money, digits);
  g_autofree double *parts = g_new0 (double, n + 1);
  g_autofree guint64 *order = g_new (guint64, n + 1);

  for (guint i = 0; i < n; i++)
    {
      const CroFlowLink *link = &g_array_index (flow->links, CroFlowLink, i);

      if (link->nearer != 0)
        continue;
      if (cro_flow_leaves (node_at (flow, link->farther)->kind))
        total += ABS (m->minor[link->farther]);
      else if (isfinite (link->money))
        parts[i] = link->money;
    }
  cro_money_apportion (total, parts, n, digits, order, near);
  return near;
}

/* Of a line, or of a plate on a menu, all that is known of it. minor: money of it as it is shown. */
static char *
link_text (const Making      *m,
           const CroFlowLink *link,
           gint64             minor)
{
  const CroFlowNode *far = node_at (m->flow, link->farther);
  const CroModel *model = m->figures->model;
  double width = width_of (m, link);
  CroKnown known;

  if (link->line != CRO_NO_SLOT
      && cro_line_lacks (&model->lines, link->line, &model->measures[model->lines.item[link->line]])
             != CRO_LACKS_NOTHING)
    known = CRO_KNOWN_NOTHING;
  else if (m->measure == CRO_FLOW_WEIGHT)
    known = far->is_weighed ? CRO_KNOWN_WHOLE : width > 0 ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_NOTHING;
  else if (link->line != CRO_NO_SLOT)
    known = cro_known_of_item (m->figures, model->lines.item[link->line]);
  else
    known = cro_known_of_recipe (m->figures, far->slot);
  /* What has nothing is one of those that nothing is left to. */
  return cro_words_take_short (known, m->measure == CRO_FLOW_MONEY && m->part == NULL && width > 0
                                          ? money_text (m, minor, known == CRO_KNOWN_WHOLE ? width : 0)
                                          : amount_text (m, width));
}

/* --- Names ------------------------------------------------------------------------------------ */

static const char *
name_of_item (const Making *m,
              guint32       item)
{
  return cro_model_item (m->figures->model, item)->name;
}

/* Owned. */
static char *
name_of (const Making *m,
         guint         node)
{
  const CroFlowNode *of = node_at (m->flow, node);
  const char *name = of->kind == CRO_FLOW_PLATE || of->kind == CRO_FLOW_BATCH
                             || of->kind == CRO_FLOW_PROCESS || of->kind == CRO_FLOW_SEASONING
                         ? cro_model_recipe (m->figures->model, of->slot)->name
                         : of->kind != CRO_FLOW_THING ? name_of_item (m, of->slot)
                                                      : "";
  g_autofree char *isolated = cro_isolate (name);

  switch (of->kind)
    {
    case CRO_FLOW_GAIN:
      /* Translators: weight that a batch takes on. */
      return g_strdup (_("water"));
    case CRO_FLOW_TRIM:
      /* Translators: weight that is cut away; %s is an ingredient. */
      return g_strdup_printf (_("trim, %s"), isolated);
    case CRO_FLOW_PROCESS:
      return of->is_weighed
                 /* Translators: weight that is lost in a preparation. */
                 ? g_strdup_printf (_("lost in %s"), isolated)
                 : g_strdup_printf (_("not weighed, %s"), isolated);
    case CRO_FLOW_LOST:
      /* Translators: what is thrown away as a rule before it is used. */
      return g_strdup_printf (_("thrown away, %s"), isolated);
    case CRO_FLOW_TO_OTHERS:
      /* Translators: a by-product, and what it is credited with. */
      return g_strdup_printf (_("%s, to other plates"), isolated);
    case CRO_FLOW_SEASONING:
      return g_strdup (_("seasoning and handling"));
    case CRO_FLOW_ELSEWHERE:
      /* Translators: a by-product that another batch gave. */
      return g_strdup_printf (_("%s, by-product"), isolated);
    default:
      return g_strdup (name);
    }
}

/* --- Ranks ------------------------------------------------------------------------------------ */

typedef struct
{
  guint  node;
  double money;
} Ranked;

static int
compare_money (gconstpointer a,
               gconstpointer b)
{
  const Ranked *x = a, *y = b;

  return x->money != y->money ? (x->money > y->money ? -1 : 1) : (x->node < y->node ? -1 : 1);
}

/* What was bought, dearest first. */
static GArray *
ranked_new (const CroFlow *flow)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (Ranked));

  for (guint i = 0; i < flow->nodes->len; i++)
    {
      Ranked ranked = { i, node_at (flow, i)->money };

      if (node_at (flow, i)->kind == CRO_FLOW_BOUGHT && ranked.money > 0)
        g_array_append_val (found, ranked);
    }
  g_array_sort (found, compare_money);
  return found;
}

static void
rank (Making *m)
{
  g_autoptr (GArray) ranked = ranked_new (m->flow);

  for (guint i = 0; i < m->flow->nodes->len; i++)
    m->ranks[i] = CRO_STREAM_N_RANKS;
  for (guint i = 0; i < MIN (ranked->len, CRO_STREAM_N_RANKS); i++)
    m->ranks[g_array_index (ranked, Ranked, i).node] = i;
}

/* --- What flows from a few --------------------------------------------------------------------- */

static gboolean
is_among (guint64        id,
          const guint64 *ids)
{
  for (; *ids != 0; ids++)
    if (*ids == id)
      return TRUE;
  return FALSE;
}

static double *
dup_parts (const CroFlow  *flow,
           CroFlowMeasure  measure,
           const guint64  *only)
{
  guint n = flow->nodes->len;
  double *part = g_new0 (double, n + 1);
  gboolean moved = TRUE;

  for (guint i = 0; i < n; i++)
    if (node_at (flow, i)->kind == CRO_FLOW_BOUGHT || node_at (flow, i)->kind == CRO_FLOW_ELSEWHERE)
      part[i] = is_among (cro_flow_id (node_at (flow, i)->kind, node_at (flow, i)->slot), only);
  for (int pass = 0; moved && pass < MOST_PASSES; pass++)
    {
      g_autofree double *sum = g_new0 (double, n + 1);
      g_autofree double *total = g_new0 (double, n + 1);

      moved = FALSE;
      for (guint i = 0; i < flow->links->len; i++)
        {
          const CroFlowLink *link = &g_array_index (flow->links, CroFlowLink, i);
          double width = measure == CRO_FLOW_MONEY ? link->money : link->grams;

          if (cro_flow_leaves (node_at (flow, link->farther)->kind))
            continue;
          total[link->nearer] += width;
          sum[link->nearer] += width * part[link->farther];
        }
      for (guint i = 0; i < n; i++)
        if (node_at (flow, i)->kind <= CRO_FLOW_MADE && total[i] > 0
            && fabs (part[i] - sum[i] / total[i]) > 1e-12)
          {
            part[i] = sum[i] / total[i];
            moved = TRUE;
          }
    }
  return part;
}

/* --- Telling ---------------------------------------------------------------------------------- */

static void
add_nodes (Making        *m,
           CroFlowOthers *others)
{
  for (guint i = 1; i < m->flow->nodes->len; i++)
    {
      const CroFlowNode *node = node_at (m->flow, i);
      g_autofree char *name = name_of (m, i);
      g_autofree char *figure = node_text (m, i);
      gboolean is_bought = node->kind == CRO_FLOW_BOUGHT || node->kind == CRO_FLOW_ELSEWHERE
                           || node->kind == CRO_FLOW_GAIN;
      gboolean leaves = cro_flow_leaves (node->kind);
      CroStreamThing thing = {
        .kind = leaves ? CRO_STREAM_LEAVING
                : is_bought ? CRO_STREAM_BOUGHT
                : node->kind == CRO_FLOW_PLATE ? CRO_STREAM_COMPONENT
                                               : CRO_STREAM_STEP,
        .id = cro_flow_id (node->kind, leaves || node->kind == CRO_FLOW_GAIN ? i : node->slot),
        .name = name, .rank = m->ranks[i],
        .is_missing = is_bought && (m->measure == CRO_FLOW_MONEY ? node->is_missing : !node->is_weighed)
                      && !(size_of (m, i) > 0),
      };

      if (m->part != NULL && !(m->part[i] > 0) && !leaves)
        continue;
      if ((leaves || node->kind == CRO_FLOW_GAIN) && !(size_of (m, i) > 0))
        continue;
      if (node->kind == CRO_FLOW_PLATE)
        continue;
      thing.figure = is_bought || leaves ? figure : NULL;
      if (is_bought)
        cro_flow_others_note (others, thing.id, fmax (size_of (m, i), 0),
                    m->measure == CRO_FLOW_MONEY && m->minor != NULL && makes_up_cost (node->kind)
                        ? &m->minor[i] : NULL,
                    thing.is_missing);
      m->number[i] = cro_stream_add (m->stream, &thing);
    }
}

/* The lines of the thing itself, or the plates of a menu, in their order. */
static void
add_components (Making        *m,
                CroFlowOthers *others)
{
  g_autofree gint64 *near = dup_near (m);

  for (guint i = 0; i < m->flow->links->len; i++)
    {
      const CroFlowLink *link = &g_array_index (m->flow->links, CroFlowLink, i);
      const CroFlowNode *far = node_at (m->flow, link->farther);
      gboolean is_plate = far->kind == CRO_FLOW_PLATE;
      g_autofree char *name = NULL, *figure = NULL;
      CroStreamThing component = { .kind = CRO_STREAM_COMPONENT, .rank = CRO_STREAM_N_RANKS };
      guint number;

      if (link->nearer != 0 || cro_flow_leaves (far->kind)
          || (!is_plate && m->number[link->farther] == CRO_STREAM_NOWHERE)
          || (m->part != NULL && !(m->part[link->farther] > 0)))
        continue;
      name = is_plate ? name_of (m, link->farther)
                      : g_strdup (name_of_item (m, m->figures->model->lines.item[link->line]));
      figure = link_text (m, link, near[i]);
      component.id = is_plate ? cro_flow_id (CRO_FLOW_PLATE, far->slot) : cro_flow_id (OF_LINE, link->line);
      component.name = name;
      component.figure = figure;
      number = cro_stream_add (m->stream, &component);
      cro_flow_others_note (others, component.id, width_of (m, link), NULL, far->is_missing);
      if (is_plate)
        m->number[link->farther] = number;
      else
        cro_stream_link (m->stream, number, m->number[link->farther], width_of (m, link));
    }
}

static void
add_links (Making *m)
{
  for (guint i = 0; i < m->flow->links->len; i++)
    {
      const CroFlowLink *link = &g_array_index (m->flow->links, CroFlowLink, i);
      guint nearer = m->number[link->nearer], farther = m->number[link->farther];

      if (link->nearer != 0 && nearer != CRO_STREAM_NOWHERE && farther != CRO_STREAM_NOWHERE)
        cro_stream_link (m->stream, nearer, farther,
                         cro_flow_leaves (node_at (m->flow, link->farther)->kind) && m->part != NULL
                             ? 0 : width_of (m, link));
    }
}

static void
add_disposables (Making *m)
{
  for (guint i = 0; i < m->flow->disposables->len; i++)
    {
      const CroFlowAside *aside = &g_array_index (m->flow->disposables, CroFlowAside, i);
      const char *name = name_of_item (m, aside->item);
      g_autofree char *isolated = cro_isolate (name);
      /* Translators: a disposable beside what is eaten. */
      g_autofree char *not_food = g_strdup_printf (_("%s, not food"), isolated);
      CroKnown known = cro_known_of_item (m->figures, aside->item);
      gint64 minor = cro_money_round (aside->money, cro_currency_digits (m->figures->model->currency));
      g_autofree char *figure = cro_words_take_short (
          known, money_text (m, minor, known == CRO_KNOWN_WHOLE ? aside->money : 0));
      CroStreamThing near = { .kind = CRO_STREAM_COMPONENT, .id = cro_flow_id (APART, aside->item),
                              .name = name, .figure = figure, .rank = CRO_STREAM_N_RANKS,
                              .is_apart = TRUE };
      CroStreamThing far = { .kind = CRO_STREAM_BOUGHT, .id = cro_flow_id (CRO_FLOW_BOUGHT, aside->item),
                             .name = not_food, .figure = figure, .rank = CRO_STREAM_N_RANKS,
                             .is_apart = TRUE, .is_missing = !(aside->money > 0) };

      cro_stream_link (m->stream, cro_stream_add (m->stream, &near), cro_stream_add (m->stream, &far),
                       fmax (aside->money, 0));
    }
}

CroStream *
cro_flow_stream_new (CroFigures     *figures,
                     CroRef          thing,
                     CroFlowMeasure  measure,
                     const guint64  *only)
{
  g_autoptr (CroFlow) flow = cro_flow_new (figures, thing);
  guint n = flow->nodes->len;
  g_autofree double *part = only != NULL ? dup_parts (flow, measure, only) : NULL;
  g_autofree gint64 *minor = g_new0 (gint64, n + 1);
  g_autofree guint *ranks = g_new (guint, n + 1);
  g_autofree guint *number = g_new (guint, n + 1);
  Making m = { figures, thing, measure, flow, cro_stream_new (), part, minor, ranks, number };
  CroFlowOthers *others = cro_flow_others_new (measure, cro_currency_digits (figures->model->currency));

  for (guint i = 0; i < n; i++)
    number[i] = CRO_STREAM_NOWHERE;
  apportion (flow, cro_currency_digits (figures->model->currency), minor);
  rank (&m);
  add_nodes (&m, others);
  add_components (&m, others);
  add_links (&m);
  if (measure == CRO_FLOW_MONEY && only == NULL)
    add_disposables (&m);
  cro_stream_set_others (m.stream, cro_flow_others_tell, others, cro_flow_others_free);
  return m.stream;
}

guint64
cro_flow_stream_line (guint32 line)
{
  return cro_flow_id (OF_LINE, line);
}

guint64
cro_flow_stream_apart (guint32 item)
{
  return cro_flow_id (APART, item);
}

CroRef
cro_flow_stream_ref (CroModel *model,
                     guint64   id)
{
  guint kind = cro_flow_id_kind (id) + 1;
  guint32 slot = (guint32) id;

  if (kind == 0 || kind > APART + 1)
    return CRO_REF_NOWHERE;
  switch (--kind)
    {
    case CRO_FLOW_PLATE:
    case CRO_FLOW_BATCH:
      return CRO_REF (CRO_REF_RECIPE, slot);
    case CRO_FLOW_MADE:
    case CRO_FLOW_BOUGHT:
    case CRO_FLOW_ELSEWHERE:
    case APART:
      return CRO_REF (CRO_REF_ITEM, slot);
    case OF_LINE:
      return CRO_REF (CRO_REF_ITEM, model->lines.item[slot]);
    default:
      return CRO_REF_NOWHERE;
    }
}

/* --- Words ------------------------------------------------------------------------------------ */

static double
total_of (const CroFlow  *flow,
          CroFlowMeasure  measure)
{
  return measure == CRO_FLOW_MONEY ? node_at (flow, 0)->money : node_at (flow, 0)->grams;
}

gboolean
cro_flow_stream_shows (CroFigures     *figures,
                       CroRef          thing,
                       CroFlowMeasure  measure)
{
  g_autoptr (CroFlow) flow = cro_flow_new (figures, thing);

  return total_of (flow, measure) > 0;
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
      const CroFlowNode *node = node_at (flow, i);
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
                              ? cro_words_money (figures->model, total_of (flow, measure))
                              : cro_words_amount (CRO_BASE_GRAM, total_of (flow, measure));

  return cro_words_known (measure == CRO_FLOW_MONEY      ? known_of (figures, thing)
                          : node_at (flow, 0)->is_weighed ? CRO_KNOWN_WHOLE
                                                          : CRO_KNOWN_AT_LEAST,
                          text);
}

/* In a sentence that wraps a number keeps its unit. */
static char *
node_text_together (const Making *m,
                    guint         node)
{
  g_autofree char *text = node_text (m, node);

  return cro_words_together (text);
}

char *
cro_words_made_of (CroFigures     *figures,
                   CroRef          thing,
                   CroFlowMeasure  measure)
{
  g_autoptr (CroFlow) flow = cro_flow_new (figures, thing);
  g_autofree gint64 *minor = g_new0 (gint64, flow->nodes->len + 1);
  Making m = { .figures = figures, .measure = measure, .flow = flow, .minor = minor };
  guint two[2];
  g_autofree char *whole = NULL, *first = NULL, *second = NULL;

  apportion (flow, cro_currency_digits (figures->model->currency), minor);
  find_two (flow, measure, two);
  if (two[0] == 0 || !(total_of (flow, measure) > 0))
    return NULL;
  whole = whole_of (figures, thing, flow, measure);
  first = node_text_together (&m, two[0]);
  if (two[1] == 0)
    return measure == CRO_FLOW_MONEY
               /* Translators: an ingredient, what it makes of the cost, and the cost. */
               ? cro_isolate_printf (C_("cost", "%s is %s of %s"), name_of_item (&m, node_at (flow, two[0])->slot),
                                     first, whole)
               /* Translators: what a plate weighs, an ingredient and how much of it is bought. */
               : cro_isolate_printf (_("Weighs %s. Bought for it: %s %s"), whole,
                                     name_of_item (&m, node_at (flow, two[0])->slot), first);
  second = node_text_together (&m, two[1]);
  return measure == CRO_FLOW_MONEY
             /* Translators: an ingredient, what it makes of the cost, and the cost; another one and what that
              * makes of it. */
             ? cro_isolate_printf (C_("cost", "%s is %s of %s; %s %s"),
                                   name_of_item (&m, node_at (flow, two[0])->slot), first, whole,
                                   name_of_item (&m, node_at (flow, two[1])->slot), second)
             /* Translators: what a plate weighs; two ingredients and how much of them is bought. */
             : cro_isolate_printf (_("Weighs %s. Bought for it: %s %s, %s %s"), whole,
                                   name_of_item (&m, node_at (flow, two[0])->slot), first,
                                   name_of_item (&m, node_at (flow, two[1])->slot), second);
}

char *
cro_flow_stream_scale (CroModel       *model,
                       CroFlowMeasure  measure,
                       double          total,
                       double         *width)
{
  double least = total / SCALE_PART, power, digit;
  Making m = { .measure = measure };
  CroFigures figures = { .model = model };
  g_autofree char *says = NULL;

  if (!(least > 0) || !isfinite (least))
    return NULL;
  m.figures = &figures;
  power = pow (10, floor (log10 (least)));
  digit = least / power;
  *width = power * (digit <= 1 ? 1 : digit <= 2 ? 2 : digit <= 5 ? 5 : 10);
  if (measure == CRO_FLOW_MONEY)
    *width = fmax (*width, pow (10, -cro_currency_digits (model->currency)));
  says = amount_text (&m, *width);
  /* Translators: beside the bar that shows how wide so much money, or so many grams, are drawn. */
  return g_strdup_printf (_("scale: %s"), says);
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
