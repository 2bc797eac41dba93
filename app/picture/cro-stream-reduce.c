#include <math.h>

#include "cro-stream-private.h"

/* Of what is bought so much of the width is told apart, by so many names at most; of those without a
 * width that are missing, so many. */
#define COVERED 0.9
#define MOST_BOUGHT 12
#define MOST_MISSING 4

typedef struct
{
  CroStream *self;
  double    *width;      /* of things */
  guint     *joined;     /* things joined with another, as a forest */
  guint     *n_near;     /* live ties at either side of the root of each */
  guint     *n_far;
  guint     *sum_near;   /* sums of their numbers: of one tie its own */
  guint     *sum_far;
  gboolean  *leaves;     /* something falls away from it */
  guint     *notch_of;   /* the next step on the way of a tie, or NONE; chains by thing */
  guint     *next_notch;
} Reduction;

static guint
root_of (Reduction *r,
         guint      thing)
{
  while (r->joined[thing] != thing)
    thing = r->joined[thing] = r->joined[r->joined[thing]];
  return thing;
}

/* --- What is shown apart ---------------------------------------------------------------------- */

typedef struct
{
  guint  thing;
  double width;
  gboolean is_first;
} Candidate;

static int
compare (gconstpointer a,
         gconstpointer b)
{
  const Candidate *x = a, *y = b;

  if (x->is_first != y->is_first)
    return x->is_first ? -1 : 1;
  if (x->width != y->width)
    return x->width > y->width ? -1 : 1;
  return x->thing < y->thing ? -1 : 1;
}

static GArray *
candidates_of (Reduction     *r,
               CroStreamKind  kind)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (Candidate));
  guint n_missing = 0;

  for (guint i = 0; i < r->self->things->len; i++)
    {
      const Thing *thing = thing_at (r->self, i);
      Candidate candidate = { i, r->width[i], FALSE };

      if (thing->kind != kind || thing->is_apart)
        continue;
      candidate.is_first = thing->is_missing && n_missing++ < MOST_MISSING;
      g_array_append_val (found, candidate);
    }
  g_array_sort (found, compare);
  return found;
}

/* Things with a node of their own; what is left gets one for all. */
static guint
add_node (CroStream *self,
          guint      i)
{
  Thing *thing = thing_at (self, i);
  Node node = {
    .kind = thing->kind, .id = thing->id, .name = thing->name, .figure = thing->figure,
    .is_missing = thing->is_missing, .is_apart = thing->is_apart,
    .is_named = thing->is_named,
    .rank = thing->kind == CRO_STREAM_BOUGHT ? thing->rank : CRO_STREAM_N_RANKS,
    .end = NAN,
  };

  g_array_append_val (self->nodes, node);
  thing->node = self->nodes->len - 1;
  return thing->node;
}

static void
add_others (Reduction *r,
            GArray    *candidates,
            guint      from,
            gboolean   is_component)
{
  CroStream *self = r->self;
  Node node = {
    .kind = is_component ? CRO_STREAM_COMPONENT : CRO_STREAM_BOUGHT,
    .id = is_component ? ID_NEAR_OTHERS : ID_FAR_OTHERS,
    .is_others = TRUE, .rank = CRO_STREAM_N_RANKS, .end = NAN,
  };
  g_autofree guint64 *ids = g_new (guint64, candidates->len + 1);
  char *name = NULL, *figure = NULL;

  for (guint i = from; i < candidates->len; i++)
    {
      Thing *thing = thing_at (self, g_array_index (candidates, Candidate, i).thing);

      thing->node = self->nodes->len;
      ids[i - from] = thing->id;
      node.is_missing |= thing->is_missing;
    }
  if (self->others != NULL)
    self->others (ids, candidates->len - from, &name, &figure, self->words_data);
  if (name == NULL)
    name = g_strdup ("…");
  node.name = name;
  node.figure = figure;
  g_ptr_array_add (self->texts, name);
  g_ptr_array_add (self->texts, figure);
  g_array_append_val (self->nodes, node);
}

/* The widest that cover most of it. */
static guint
n_shown (GArray *candidates,
         guint   most)
{
  double total = 0, covered = 0;
  guint n = 0;

  for (guint i = 0; i < candidates->len; i++)
    total += g_array_index (candidates, Candidate, i).width;
  while (n < candidates->len && n + 1 < most
         && (g_array_index (candidates, Candidate, n).is_first || covered < COVERED * total))
    covered += g_array_index (candidates, Candidate, n++).width;
  return n + 1 >= candidates->len && candidates->len <= most ? candidates->len : n;
}

static void
choose_bought (Reduction           *r,
               const CroStreamLook *look,
               guint                room)
{
  g_autoptr (GArray) bought = candidates_of (r, CRO_STREAM_BOUGHT);
  guint most = look->most_bought > 0 ? MIN (look->most_bought, MOST_BOUGHT) : MOST_BOUGHT;
  guint n = n_shown (bought, MAX (MIN (most, room), 1));

  for (guint i = 0; i < n; i++)
    add_node (r->self, g_array_index (bought, Candidate, i).thing);
  if (n < bought->len)
    add_others (r, bought, n, FALSE);
}

/* In their own order; where they are too many, the narrowest are one. */
static void
choose_components (Reduction           *r,
                   const CroStreamLook *look,
                   guint                room)
{
  CroStream *self = r->self;
  g_autoptr (GArray) components = candidates_of (r, CRO_STREAM_COMPONENT);
  guint most = look->most_components > 0 ? MIN (look->most_components, room) : room;
  guint n = components->len > most ? MAX (most, 2) - 1 : components->len;
  g_autofree gboolean *is_shown = g_new0 (gboolean, self->things->len + 1);

  for (guint i = 0; i < n; i++)
    is_shown[g_array_index (components, Candidate, i).thing] = TRUE;
  for (guint i = 0; i < self->things->len; i++)
    if (is_shown[i])
      add_node (self, i);
  if (n < components->len)
    add_others (r, components, n, TRUE);
}

/* --- Single steps ------------------------------------------------------------------------------ */

static void
count_ties (Reduction *r)
{
  CroStream *self = r->self;

  for (guint i = 0; i < self->things->len; i++)
    {
      r->joined[i] = i;
      r->next_notch[i] = NONE;
    }
  for (guint i = 0; i < self->ties->len; i++)
    {
      const Tie *tie = &g_array_index (self->ties, Tie, i);

      r->notch_of[i] = NONE;
      if (thing_at (self, tie->farther)->kind == CRO_STREAM_LEAVING)
        {
          r->leaves[tie->nearer] = TRUE;
          continue;
        }
      r->n_far[tie->nearer]++;
      r->sum_far[tie->nearer] += i;
      r->n_near[tie->farther]++;
      r->sum_near[tie->farther] += i;
    }
}

/* What is shown as others has many ties whatever one of it has. */
static gboolean
is_alone (Reduction *r,
          guint      thing)
{
  guint node = thing_at (r->self, thing)->node;

  return node == NONE || !node_at (r->self, node)->is_others;
}

static Notch
notch_at (guint thing,
          guint band,
          guint node)
{
  return (Notch){ thing, band, node };
}

/* Joins a step with the only one that takes it, if that takes nothing else; the same of what a step
 * takes. */
static gboolean
join (Reduction *r,
      Tie       *ties,
      guint      tie,
      gboolean  *is_gone)
{
  CroStream *self = r->self;
  guint near = root_of (r, ties[tie].nearer), far = root_of (r, ties[tie].farther);
  gboolean near_ends = thing_at (self, near)->kind != CRO_STREAM_STEP;
  gboolean far_ends = thing_at (self, far)->kind != CRO_STREAM_STEP;
  guint kept = far_ends ? far : near, gone = far_ends ? near : far;

  if (is_gone[tie] || r->n_far[near] != 1 || r->n_near[far] != 1 || (near_ends && far_ends)
      || thing_at (self, far)->kind == CRO_STREAM_LEAVING || !is_alone (r, near) || !is_alone (r, far))
    return FALSE;
  is_gone[tie] = TRUE;
  r->joined[gone] = kept;
  r->n_near[kept] = r->n_near[near];
  r->sum_near[kept] = r->sum_near[near];
  r->n_far[kept] = r->n_far[far];
  r->sum_far[kept] = r->sum_far[far];
  r->leaves[kept] |= r->leaves[gone];
  return TRUE;
}

/* A step that one takes, and that takes of one, is a notch of the band between these. */
static gboolean
notch (Reduction *r,
       Tie       *ties,
       guint      step,
       gboolean  *is_gone)
{
  guint before = r->sum_near[step], behind = r->sum_far[step];
  guint *last;

  if (root_of (r, step) != step || thing_at (r->self, step)->kind != CRO_STREAM_STEP
      || r->n_near[step] != 1 || r->n_far[step] != 1 || r->leaves[step])
    return FALSE;
  g_assert (!is_gone[before] && !is_gone[behind]);
  for (last = &r->notch_of[before]; *last != NONE; last = &r->next_notch[*last])
    continue;
  *last = step;
  r->next_notch[step] = r->notch_of[behind];
  ties[before].farther = ties[behind].farther;
  r->sum_near[root_of (r, ties[behind].farther)] += before - behind;
  is_gone[behind] = TRUE;
  r->n_near[step] = r->n_far[step] = 0;
  return TRUE;
}

static void
simplify (Reduction *r,
          Tie       *ties,
          guint      n_ties,
          gboolean  *is_gone)
{
  gboolean again = TRUE;

  while (again)
    {
      again = FALSE;
      for (guint i = 0; i < n_ties; i++)
        again |= join (r, ties, i, is_gone);
    }
  for (guint i = 0; i < r->self->things->len; i++)
    notch (r, ties, i, is_gone);
}

/* --- What is left ------------------------------------------------------------------------------ */

static guint
node_of (Reduction *r,
         guint      thing)
{
  guint root = root_of (r, thing);

  return thing_at (r->self, root)->node != NONE ? thing_at (r->self, root)->node
                                                : add_node (r->self, root);
}

static void
note_joined (Reduction *r)
{
  CroStream *self = r->self;

  for (guint i = 0; i < self->things->len; i++)
    {
      guint root = root_of (r, i);

      if (root != i)
        {
          Notch joined = notch_at (i, NONE, node_of (r, root));

          thing_at (self, i)->node = joined.node;
          g_array_append_val (self->notches, joined);
        }
    }
}

typedef struct
{
  guint64 key;
  guint   tie;
} Keyed;

static int
compare_keys (gconstpointer a,
              gconstpointer b)
{
  const Keyed *x = a, *y = b;

  if (x->key != y->key)
    return x->key < y->key ? -1 : 1;
  return x->tie < y->tie ? -1 : x->tie > y->tie;
}

/* One band for all ties of the same two. */
static void
add_bands (Reduction *r,
           const Tie *ties,
           guint      n_ties,
           const gboolean *is_gone,
           gboolean   of_leaving)
{
  CroStream *self = r->self;
  g_autoptr (GArray) keys = g_array_new (FALSE, FALSE, sizeof (Keyed));

  for (guint i = 0; i < n_ties; i++)
    {
      Keyed keyed = { 0, i };
      gboolean leaves = thing_at (self, ties[i].farther)->kind == CRO_STREAM_LEAVING;

      if (is_gone[i] || leaves != of_leaving)
        continue;
      keyed.key = (guint64) node_of (r, ties[i].nearer) << 32 | node_of (r, ties[i].farther);
      g_array_append_val (keys, keyed);
    }
  g_array_sort (keys, compare_keys);
  for (guint k = 0; k < keys->len; k++)
    {
      const Keyed *keyed = &g_array_index (keys, Keyed, k);
      const Tie *tie = &ties[keyed->tie];
      guint last = self->bands->len - 1;

      if (k > 0 && keyed->key == g_array_index (keys, Keyed, k - 1).key)
        band_at (self, last)->width += tie->width;
      else
        {
          Band band = { .nearer = (guint) (keyed->key >> 32), .farther = (guint) keyed->key,
                        .width = tie->width };
          const Node *far = node_at (self, band.farther);

          band.is_missing = far->is_missing && tie->width == 0;
          band.is_apart = far->is_apart;
          g_array_append_val (self->bands, band);
          last++;
        }
      for (guint step = r->notch_of[keyed->tie]; step != NONE; step = r->next_notch[step])
        {
          Notch on = notch_at (step, last, NONE);

          thing_at (self, step)->node = band_at (self, last)->nearer;
          g_array_append_val (self->notches, on);
        }
    }
}

/* Told by their ids: what is not told stands nowhere. */
static void
take_ends (CroStream           *self,
           const CroStreamLook *look)
{
  self->is_tied = look->n_ends > 0;
  for (guint i = 0; i < self->nodes->len; i++)
    for (guint k = 0; k < look->n_ends; k++)
      if (node_at (self, i)->kind == CRO_STREAM_COMPONENT && node_at (self, i)->id == look->ends[k].id)
        node_at (self, i)->end = look->ends[k].middle;
}

static void
sum_widths (CroStream *self)
{
  for (guint i = 0; i < self->bands->len; i++)
    {
      const Band *band = band_at (self, i);

      if (i < self->n_bands)
        node_at (self, band->nearer)->far_width += band->width;
      else
        node_at (self, band->nearer)->near_width += band->width;
      node_at (self, band->farther)->near_width += band->width;
    }
}

void
cro_stream_reduce (CroStream           *self,
                   const CroStreamLook *look,
                   guint                room)
{
  guint n = self->things->len, n_ties = self->ties->len;
  g_autofree double *width = g_new0 (double, n + 1);
  g_autofree guint *memory = g_new0 (guint, 7 * (gsize) (n + 1) + n_ties);
  g_autofree gboolean *leaves = g_new0 (gboolean, n + 1);
  g_autofree gboolean *is_gone = g_new0 (gboolean, n_ties + 1);
  g_autofree Tie *ties = g_memdup2 (self->ties->data, n_ties * sizeof (Tie));
  guint *at = memory;
  Reduction r = { .self = self, .width = width, .leaves = leaves };

  r.joined = at, at += n + 1;
  r.n_near = at, at += n + 1;
  r.n_far = at, at += n + 1;
  r.sum_near = at, at += n + 1;
  r.sum_far = at, at += n + 1;
  r.next_notch = at, at += n + 1;
  r.notch_of = at;
  g_array_set_size (self->nodes, 0);
  g_array_set_size (self->bands, 0);
  g_array_set_size (self->notches, 0);
  g_ptr_array_set_size (self->texts, 0);
  for (guint i = 0; i < n; i++)
    thing_at (self, i)->node = NONE;
  for (guint i = 0; i < n_ties; i++)
    {
      if (thing_at (self, ties[i].nearer)->kind == CRO_STREAM_COMPONENT)
        width[ties[i].nearer] += ties[i].width;
      width[ties[i].farther] += ties[i].width;
    }
  /* Beside their rows none stands in another's way. */
  choose_components (&r, look, look->n_ends > 0 ? G_MAXUINT : room);
  choose_bought (&r, look, room);
  for (guint i = 0; i < n; i++)
    if (thing_at (self, i)->is_apart)
      add_node (self, i);
  count_ties (&r);
  simplify (&r, ties, n_ties, is_gone);
  add_bands (&r, ties, n_ties, is_gone, FALSE);
  self->n_bands = self->bands->len;
  add_bands (&r, ties, n_ties, is_gone, TRUE);
  note_joined (&r);
  take_ends (self, look);
  sum_widths (self);
}
