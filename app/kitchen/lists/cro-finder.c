#include "cro-finder.h"

#include <string.h>

#include "cro-fold.h"
#include "cro-near-names.h"

/* A folded name in the pool; entries stand in the order of their texts. */
typedef struct
{
  guint32 at;
  guint32 slot;       /* CRO_NO_SLOT: another entry has taken its place, or it is gone */
  CroKind kind;
} Entry;

/* What a slot was last known as. */
typedef struct
{
  const char *name;   /* as cro_kind_name gave it; NULL: nothing there */
  guint32     entry;
} Known;

struct _CroFinder
{
  CroBook  *book;             /* borrowed: it owns the finder */
  guint     serial;           /* of the model whose slots these are */
  guint64   edition;          /* of the book when they were learnt; 0: never */
  GString  *pool;             /* folded names, each ended by a NUL */
  GArray   *entries;          /* Entry */
  guint     n_gone;
  GArray   *known[CRO_N_KINDS]; /* Known, by slot */
  CroNearNames *near_names;   /* NULL: none was asked for; of near_kinds, in the book's near_edition */
  GArray   *near_all;         /* CroFound: what each of them names */
  guint     near_kinds;
  guint64   near_edition;
};

/* --- Keeping up ---------------------------------------------------------------------------------- */

static void
forget_all (CroFinder *self)
{
  g_string_truncate (self->pool, 0);
  g_array_set_size (self->entries, 0);
  for (int kind = 0; kind < CRO_N_KINDS; kind++)
    g_array_set_size (self->known[kind], 0);
  self->n_gone = 0;
}

static void
forget (CroFinder *self,
        Known     *known)
{
  if (known->name != NULL)
    {
      g_array_index (self->entries, Entry, known->entry).slot = CRO_NO_SLOT;
      self->n_gone++;
    }
  known->name = NULL;
}

static void
learn (CroFinder  *self,
       CroKind     kind,
       guint32     slot,
       const char *name)
{
  Known *known = &g_array_index (self->known[kind], Known, slot);
  Entry entry = { (guint32) self->pool->len, slot, kind };
  g_autofree char *folded = cro_fold (name);

  known->name = name;
  known->entry = self->entries->len;
  g_array_append_val (self->entries, entry);
  g_string_append_len (self->pool, folded, (gssize) strlen (folded) + 1);
}

static void
keep_up_with (CroFinder *self,
              CroModel  *model,
              CroKind    kind)
{
  GArray *all = self->known[kind];
  guint32 n = cro_kind_n_slots (model, kind);

  g_array_set_size (all, n);
  for (guint32 slot = 0; slot < n; slot++)
    {
      Known *known = &g_array_index (all, Known, slot);
      const char *name = cro_kind_name (model, kind, slot);

      if (name == known->name)
        continue;
      forget (self, known);
      if (name != NULL)
        learn (self, kind, slot, name);
    }
}

/* Not before something is looked for: figures move at every key that is typed elsewhere. */
static void
keep_up (CroFinder *self)
{
  CroModel *model = cro_book_get_model (self->book);

  if (self->edition == cro_book_get_edition (self->book))
    return;
  self->edition = cro_book_get_edition (self->book);
  if (model->serial != self->serial || self->n_gone > 64 + self->entries->len / 2)
    forget_all (self);
  self->serial = model->serial;
  for (int kind = 0; kind < CRO_N_KINDS; kind++)
    keep_up_with (self, model, (CroKind) kind);
}

static void
finder_free (gpointer data)
{
  CroFinder *self = data;

  g_string_free (self->pool, TRUE);
  g_array_unref (self->entries);
  for (int kind = 0; kind < CRO_N_KINDS; kind++)
    g_array_unref (self->known[kind]);
  g_clear_pointer (&self->near_names, cro_near_names_free);
  g_array_unref (self->near_all);
  g_free (self);
}

CroFinder *
cro_finder_of (CroBook *book)
{
  CroFinder *self = g_object_get_data (G_OBJECT (book), "cro-finder");

  if (self != NULL)
    return self;
  self = g_new0 (CroFinder, 1);
  self->book = book;
  self->pool = g_string_new (NULL);
  self->entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  for (int kind = 0; kind < CRO_N_KINDS; kind++)
    self->known[kind] = g_array_new (FALSE, TRUE, sizeof (Known));
  self->near_all = g_array_new (FALSE, FALSE, sizeof (CroFound));
  g_object_set_data_full (G_OBJECT (book), "cro-finder", self, finder_free);
  return self;
}

/* --- Looking up ------------------------------------------------------------------------------------- */

static const char *
folded_of (CroFinder      *self,
           const CroFound *found)
{
  guint32 entry = g_array_index (self->known[found->kind], Known, found->slot).entry;

  return self->pool->str + g_array_index (self->entries, Entry, entry).at;
}

/* Best first. */
static int
compare_found (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  const CroFound *x = a, *y = b;
  int order;

  if (x->score != y->score)
    return x->score > y->score ? -1 : 1;
  order = strcmp (folded_of (user_data, x), folded_of (user_data, y));
  if (order != 0)
    return order;
  if (x->kind != y->kind)
    return x->kind < y->kind ? -1 : 1;
  return x->slot < y->slot ? -1 : x->slot > y->slot;
}

static int
compare_worst_first (gconstpointer a,
                     gconstpointer b,
                     gpointer      user_data)
{
  return compare_found (b, a, user_data);
}

/* Once it is full, found is a heap with the worst in front: only what is better gets in. */
static void
replace_worst (CroFinder *self,
               GArray    *found,
               CroFound   one)
{
  CroFound *heap = (CroFound *) found->data;
  guint at = 0, child;

  while ((child = 2 * at + 1) < found->len)
    {
      if (child + 1 < found->len && compare_found (&heap[child + 1], &heap[child], self) > 0)
        child++;
      if (compare_found (&heap[child], &one, self) <= 0)
        break;
      heap[at] = heap[child];
      at = child;
    }
  heap[at] = one;
}

static void
add_found (CroFinder *self,
           GArray    *found,
           guint      most,
           CroFound   one)
{
  if (found->len < most)
    {
      g_array_append_val (found, one);
      if (found->len == most)
        g_array_sort_with_data (found, compare_worst_first, self);
    }
  else if (compare_found (&one, &g_array_index (found, CroFound, 0), self) < 0)
    replace_worst (self, found, one);
}

/* The entry whose text holds a place of the pool; not before first, and most often near it. */
static guint
entry_at (CroFinder *self,
          guint      first,
          guint32    at)
{
  const Entry *entries = (const Entry *) self->entries->data;
  guint step = 1, end;

  while (first + step < self->entries->len && entries[first + step].at <= at)
    {
      first += step;
      step *= 2;
    }
  end = MIN (first + step, self->entries->len);
  while (end - first > 1)
    {
      guint middle = first + (end - first) / 2;

      if (entries[middle].at <= at)
        first = middle;
      else
        end = middle;
    }
  return first;
}

/* Looks for the longest word in all names at once, and for the others where that stands. */
static void
scan (CroFinder      *self,
      const CroQuery *query,
      guint           kinds,
      guint           most,
      GArray         *found)
{
  const char *word = query->words[query->longest];
  gsize length = query->stem;
  const char *pool = self->pool->str, *end = pool + self->pool->len;
  const char *at = pool;
  guint i = 0;

  while (at < end && (at = memmem (at, (gsize) (end - at), word, length)) != NULL)
    {
      const Entry *entry;

      i = entry_at (self, i, (guint32) (at - pool));
      entry = &g_array_index (self->entries, Entry, i);
      if (entry->slot != CRO_NO_SLOT && (kinds >> entry->kind & 1))
        {
          CroMatch score = cro_query_match (query, pool + entry->at);

          if (score != CRO_MATCH_NONE)
            add_found (self, found, most, (CroFound){ entry->kind, entry->slot, score });
        }
      i++;
      if (i == self->entries->len)
        return;
      at = pool + g_array_index (self->entries, Entry, i).at;
    }
}

GArray *
cro_finder_find (CroFinder  *self,
                 const char *text,
                 guint       kinds,
                 guint       most)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (CroFound));
  g_autoptr (CroQuery) query = cro_query_new (text);

  if (query == NULL || most == 0)
    return found;
  keep_up (self);
  scan (self, query, kinds, most, found);
  g_array_sort_with_data (found, compare_found, self);
  return found;
}

/* --- One slip away ------------------------------------------------------------------------------------ */

/* Whether a word stands in a folded name, in whatever number, or one that is a slip away from it; they begin alike, so
 * that few words of a large book are looked at. */
static gboolean
stands_in (const char *name,
           const char *one,
           gboolean    by_slip)
{
  gsize length;

  for (const char *at = name; *at != '\0'; at += length + (at[length] == ' '))
    {
      length = strcspn (at, " ");
      if (*at == *one)
        {
          g_autofree char *word = g_strndup (at, length), *of_one = cro_fold_number (word);

          if (by_slip ? cro_fold_is_slip (one, of_one) : g_str_equal (one, of_one))
            return TRUE;
        }
    }
  return FALSE;
}

/* Whether each of the words stands there but one, which is slipped: "buter" may be of the cultured butter. */
static gboolean
is_slip_in (char       **ones,
            const char  *name)
{
  guint n = 0;

  for (guint i = 0; ones[i] != NULL; i++)
    if (!stands_in (name, ones[i], FALSE)
        && (n++ > 0 || g_utf8_strlen (ones[i], -1) < CRO_NEAR_LEAST || !stands_in (name, ones[i], TRUE)))
      return FALSE;
  return TRUE;
}

static void
add_slips (CroFinder  *self,
           GArray     *found,
           const char *text,
           guint       kinds,
           guint       most)
{
  g_autofree char *folded = cro_fold (text), *one = cro_fold_number (folded);
  g_auto (GStrv) ones = g_strsplit (one, " ", 0);

  if (g_utf8_strlen (folded, -1) < CRO_NEAR_LEAST || most == 0)
    return;
  keep_up (self);
  for (guint i = 0; i < self->entries->len; i++)
    {
      const Entry *entry = &g_array_index (self->entries, Entry, i);

      if (entry->slot != CRO_NO_SLOT && (kinds >> entry->kind & 1)
          && (cro_fold_is_slip (folded, self->pool->str + entry->at) || is_slip_in (ones, self->pool->str + entry->at)))
        add_found (self, found, most, (CroFound){ entry->kind, entry->slot, CRO_MATCH_NONE });
    }
  g_array_sort_with_data (found, compare_found, self);
}

GArray *
cro_finder_find_near (CroFinder  *self,
                      const char *text,
                      guint       kinds,
                      guint       most)
{
  GArray *found = cro_finder_find (self, text, kinds, most);

  if (found->len == 0)
    add_slips (self, found, text, kinds, most);
  return found;
}

/* --- What may have been meant ------------------------------------------------------------------------- */

/* Names are read and indexed anew where the book changed, or others are asked for. */
static void
keep_near (CroFinder *self,
           guint      kinds)
{
  CroModel *model = cro_book_get_model (self->book);
  g_autoptr (GPtrArray) names = NULL;

  if (self->near_names != NULL && self->near_kinds == kinds && self->near_edition == cro_book_get_edition (self->book))
    return;
  g_clear_pointer (&self->near_names, cro_near_names_free);
  names = g_ptr_array_new ();
  g_array_set_size (self->near_all, 0);
  for (int kind = 0; kind < CRO_N_KINDS; kind++)
    for (guint32 slot = 0; kinds >> kind & 1 && slot < cro_kind_n_slots (model, (CroKind) kind); slot++)
      {
        g_ptr_array_add (names, (gpointer) cro_kind_name (model, (CroKind) kind, slot));
        g_array_append_val (self->near_all, ((CroFound){ (CroKind) kind, slot, CRO_MATCH_NONE }));
      }
  self->near_names = cro_near_names_new (names);
  self->near_kinds = kinds;
  self->near_edition = cro_book_get_edition (self->book);
}

GArray *
cro_finder_find_like (CroFinder  *self,
                      const char *text,
                      guint       kinds,
                      guint       most)
{
  g_autoptr (GArray) indices = NULL;
  GArray *found = g_array_new (FALSE, FALSE, sizeof (CroFound));

  keep_near (self, kinds);
  indices = cro_near_names_find (self->near_names, text, most);
  for (guint i = 0; i < indices->len; i++)
    g_array_append_val (found, g_array_index (self->near_all, CroFound, g_array_index (indices, guint, i)));
  return found;
}
