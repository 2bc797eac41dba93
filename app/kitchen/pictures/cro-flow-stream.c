#include "config.h"

#include "cro-flow-stream.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-figure-words.h"
#include "cro-flow-figures.h"
#include "cro-flow-others.h"
#include "cro-isolate.h"
#include "cro-known.h"
#include "cro-money.h"
#include "cro-number.h"

/* Kinds of ids beside those of the flow. */
#define OF_LINE 32
#define APART 33

/* Passes until what flows from a few has reached all: so deep a book is not drawn. */
#define MOST_PASSES 200

typedef struct
{
  CroFigures     *figures;
  CroFlow        *flow;
  CroFlowShown    shown;       /* of it */
  CroStream      *stream;
  guint          *ranks;
  guint          *number;      /* of each node in the stream */
} Making;

static double
width_of (const Making      *m,
          const CroFlowLink *link)
{
  double width = m->shown.measure == CRO_FLOW_MONEY ? link->money : link->grams;
  double part = m->shown.part != NULL ? m->shown.part[link->farther] : 1;

  return isfinite (width) && width > 0 ? width * part : 0;
}

/* --- Figures ---------------------------------------------------------------------------------- */

/* Of every link from the thing itself, money as it is shown: with what leaves it all add up to its cost. */
static gint64 *
dup_near (const Making *m)
{
  const CroFlow *flow = m->flow;
  guint n = flow->links->len;
  int digits = cro_currency_digits (m->figures->model->currency);
  gint64 *near = g_new0 (gint64, n + 1), total = cro_money_round (cro_flow_node (flow, 0)->money, digits);
  g_autofree double *parts = g_new0 (double, n + 1);
  g_autofree guint64 *order = g_new (guint64, n + 1);

  for (guint i = 0; i < n; i++)
    {
      const CroFlowLink *link = &g_array_index (flow->links, CroFlowLink, i);

      if (link->nearer != 0)
        continue;
      if (cro_flow_leaves (cro_flow_node (flow, link->farther)->kind))
        total += ABS (m->shown.minor[link->farther]);
      else if (isfinite (link->money))
        parts[i] = link->money;
    }
  cro_money_apportion (total, parts, n, digits, order, near);
  return near;
}

/* Of a line, or of a plate on a menu. */
static CroKnown
known_of_link (const Making      *m,
               const CroFlowLink *link)
{
  const CroFlowNode *far = cro_flow_node (m->flow, link->farther);
  const CroModel *model = m->figures->model;

  if (link->line != CRO_NO_SLOT
      && cro_line_lacks (&model->lines, link->line, &model->measures[model->lines.item[link->line]])
             != CRO_LACKS_NOTHING)
    return CRO_KNOWN_NOTHING;
  if (m->shown.measure == CRO_FLOW_WEIGHT)
    return far->is_weighed ? CRO_KNOWN_WHOLE : width_of (m, link) > 0 ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_NOTHING;
  return link->line != CRO_NO_SLOT ? cro_known_of_item (m->figures, model->lines.item[link->line])
                                   : cro_known_of_recipe (m->figures, far->slot);
}

/* All that is known of it. minor: money of it as it is shown. */
static char *
link_text (const Making      *m,
           const CroFlowLink *link,
           gint64             minor)
{
  double width = width_of (m, link);
  CroKnown known = known_of_link (m, link);

  /* What has nothing is one of those that nothing is left to. */
  if (m->shown.measure == CRO_FLOW_MONEY && m->shown.part == NULL && width > 0)
    return cro_words_take_short (cro_flow_known_shown (known, minor != 0),
                                 cro_flow_money_text (&m->shown, minor, known == CRO_KNOWN_WHOLE ? width : 0));
  return cro_words_take_short (known, cro_flow_amount_text (&m->shown, width));
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
  const CroFlowNode *of = cro_flow_node (m->flow, node);
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
    case CRO_FLOW_BOUGHT:
      return cro_model_item (m->figures->model, of->slot)->is_main
                 /* Translators: what a batch makes, of which nobody knows how much is taken, among what was bought. */
                 ? g_strdup_printf (_("%s, made"), isolated)
                 : g_strdup (name);
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
      Ranked ranked = { i, cro_flow_node (flow, i)->money };

      if (cro_flow_node (flow, i)->kind == CRO_FLOW_BOUGHT && ranked.money > 0)
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
    if (cro_flow_node (flow, i)->kind == CRO_FLOW_BOUGHT || cro_flow_node (flow, i)->kind == CRO_FLOW_ELSEWHERE)
      part[i] = is_among (cro_flow_id (cro_flow_node (flow, i)->kind, cro_flow_node (flow, i)->slot), only);
  for (int pass = 0; moved && pass < MOST_PASSES; pass++)
    {
      g_autofree double *sum = g_new0 (double, n + 1);
      g_autofree double *total = g_new0 (double, n + 1);

      moved = FALSE;
      for (guint i = 0; i < flow->links->len; i++)
        {
          const CroFlowLink *link = &g_array_index (flow->links, CroFlowLink, i);
          double width = measure == CRO_FLOW_MONEY ? link->money : link->grams;

          if (cro_flow_leaves (cro_flow_node (flow, link->farther)->kind))
            continue;
          total[link->nearer] += width;
          sum[link->nearer] += width * part[link->farther];
        }
      for (guint i = 0; i < n; i++)
        if (cro_flow_node (flow, i)->kind <= CRO_FLOW_MADE && total[i] > 0
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
      const CroFlowNode *node = cro_flow_node (m->flow, i);
      g_autofree char *name = name_of (m, i);
      g_autofree char *figure = cro_flow_node_text (&m->shown, i);
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
        .is_missing = is_bought && (m->shown.measure == CRO_FLOW_MONEY ? node->is_missing : !node->is_weighed)
                      && !(cro_flow_size (&m->shown, i) > 0),
        .is_named = m->shown.measure == CRO_FLOW_MONEY && node->kind == CRO_FLOW_TO_OTHERS
                    && m->shown.minor[i] != 0,
      };

      if (m->shown.part != NULL && !(m->shown.part[i] > 0) && !leaves)
        continue;
      if ((leaves || node->kind == CRO_FLOW_GAIN) && !(cro_flow_size (&m->shown, i) > 0))
        continue;
      if (node->kind == CRO_FLOW_PLATE)
        continue;
      thing.figure = is_bought || leaves ? figure : NULL;
      if (is_bought)
        {
          gboolean is_whole = cro_flow_node_known (&m->shown, i) == CRO_KNOWN_WHOLE;
          gboolean is_shown = m->shown.measure == CRO_FLOW_MONEY && m->shown.minor != NULL
                              && cro_flow_makes_up_cost (node->kind);

          cro_flow_others_note (others, thing.id, fmax (cro_flow_size (&m->shown, i), 0),
                                is_shown ? &m->shown.minor[i] : NULL,
                                is_whole ? CRO_KNOWN_WHOLE : CRO_KNOWN_AT_LEAST);
        }
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
      const CroFlowNode *far = cro_flow_node (m->flow, link->farther);
      gboolean is_plate = far->kind == CRO_FLOW_PLATE;
      g_autofree char *name = NULL, *figure = NULL;
      CroStreamThing component = { .kind = CRO_STREAM_COMPONENT, .rank = CRO_STREAM_N_RANKS };
      CroKnown known;
      guint number;

      if (link->nearer != 0 || cro_flow_leaves (far->kind)
          || (!is_plate && m->number[link->farther] == CRO_STREAM_NOWHERE)
          || (m->shown.part != NULL && !(m->shown.part[link->farther] > 0)))
        continue;
      name = is_plate ? name_of (m, link->farther)
                      : g_strdup (name_of_item (m, m->figures->model->lines.item[link->line]));
      figure = link_text (m, link, near[i]);
      component.id = is_plate ? cro_flow_id (CRO_FLOW_PLATE, far->slot) : cro_flow_id (OF_LINE, link->line);
      component.name = name;
      component.figure = figure;
      number = cro_stream_add (m->stream, &component);
      known = known_of_link (m, link);
      cro_flow_others_note (others, component.id, width_of (m, link),
                            m->shown.measure == CRO_FLOW_MONEY && m->shown.part == NULL ? &near[i] : NULL,
                            known == CRO_KNOWN_NOTHING ? CRO_KNOWN_AT_LEAST : known);
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
                         cro_flow_leaves (cro_flow_node (m->flow, link->farther)->kind) && m->shown.part != NULL
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
          cro_flow_known_shown (known, minor != 0),
          cro_flow_money_text (&m->shown, minor, known == CRO_KNOWN_WHOLE ? aside->money : 0));
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
  Making m = { figures, flow, { figures->model, flow, measure, part, minor }, cro_stream_new (), ranks, number };
  CroFlowOthers *others = cro_flow_others_new (measure, cro_currency_digits (figures->model->currency));

  for (guint i = 0; i < n; i++)
    number[i] = CRO_STREAM_NOWHERE;
  cro_flow_apportion (flow, cro_currency_digits (figures->model->currency), minor);
  rank (&m);
  add_nodes (&m, others);
  add_components (&m, others);
  add_links (&m);
  if (measure == CRO_FLOW_MONEY && only == NULL)
    add_disposables (&m);
  cro_stream_set_words (m.stream, cro_flow_others_tell,
                        only == NULL && cro_flow_total (flow, measure) > 0 ? cro_flow_others_scale : NULL, others,
                        cro_flow_others_free);
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
