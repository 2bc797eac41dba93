#include "cro-copy.h"

#include <string.h>

#include "cro-date.h"
#include "cro-path.h"
#include "cro-remains.h"
#include "cro-store-private.h"

#define ENDING ".croustade"

typedef struct
{
  char *path;
  char *first;     /* what its first act says; NULL: it has none, or cannot be read */
  char *last;      /* when its last act was made */
  char *day;
} Candidate;

static void
candidate_free (Candidate *self)
{
  g_free (self->path);
  g_free (self->first);
  g_free (self->last);
  g_free (self->day);
  g_free (self);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Candidate, candidate_free)

/* --- What is told of its acts ------------------------------------------------------------------- */

static const char *const act_columns[] = { "label", "desk", "at", "day", NULL };

typedef struct
{
  Candidate *candidate;
  gint64     n;
} Acts;

/* The day that a text begins with; NULL: with none. */
static char *
dup_day (const char *text)
{
  g_autofree char *day = g_strndup (text, strlen ("YYYY-MM-DD"));
  CroDate          date;

  return cro_date_parse (day, strlen (day), &date) ? g_steal_pointer (&day) : NULL;
}

static gboolean
take_act (gint64          id,
          const CroCell  *cells,
          guint32         unreadable,
          gpointer        user_data,
          GError        **error)
{
  Acts      *acts = user_data;
  Candidate *candidate = acts->candidate;

  if (acts->n++ == 0 && cells[0].text != NULL && cells[1].text != NULL && cells[2].text != NULL)
    candidate->first = g_strdup_printf ("%s\n%s\n%s", cells[0].text, cells[1].text, cells[2].text);
  if (cells[2].text != NULL)
    {
      g_free (candidate->last);
      candidate->last = g_strdup (cells[2].text);
      g_free (candidate->day);
      candidate->day = dup_day (cells[3].text != NULL ? cells[3].text : cells[2].text);
    }
  return TRUE;
}

/* The first act is told by the first row alone: what follows a gap is another. */
static void
pass_over (gint64   first,
           gint64   last,
           gpointer user_data)
{
  Acts *acts = user_data;

  acts->n++;
}

/* An empty text where nothing can be read. */
static Candidate *
candidate_new (const char *path)
{
  Candidate            *self = g_new0 (Candidate, 1);
  Acts                  acts = { self, 0 };
  g_autoptr(CroRemains) remains = cro_remains_open (path, NULL);

  self->path = g_strdup (path);
  if (remains != NULL)
    cro_remains_read (remains, "act", act_columns, take_act, pass_over, &acts, NULL);
  return self;
}

/* --- Which files are copies --------------------------------------------------------------------- */

/* "Tides-before-v3.croustade", "Tides.croustade.bak", "Tides.croustade~" of "Tides.croustade". */
static gboolean
is_named_as_copy (const char *name,
                  const char *of)
{
  g_autofree char *stem = g_str_has_suffix (of, ENDING)
                            ? g_strndup (of, strlen (of) - strlen (ENDING))
                            : g_strdup (of);
  g_autofree char *before = g_strconcat (stem, "-before-v", NULL);

  return g_str_has_prefix (name, before) ||
         (g_str_has_prefix (name, of) && strlen (name) > strlen (of));
}

static gboolean
is_log (const char *name)
{
  return g_str_has_suffix (name, "-wal") || g_str_has_suffix (name, "-shm") ||
         g_str_has_suffix (name, "-journal");
}

/* Copies that people make keep the ending somewhere: "Tides.croustade.old", "Tides (2).croustade". */
static gboolean
may_be_copy (const char *name)
{
  return name[0] != '.' && strstr (name, ENDING) != NULL && !is_log (name);
}

static GPtrArray *
list_candidates (const char *path)
{
  GPtrArray           *candidates = g_ptr_array_new_with_free_func ((GDestroyNotify) candidate_free);
  g_autofree char     *folder = g_path_get_dirname (path);
  g_autofree char     *own_name = g_path_get_basename (path);
  g_autoptr(Candidate) own = candidate_new (path);
  g_autoptr(GDir)      dir = g_dir_open (folder, 0, NULL);
  const char          *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char     *other = g_build_filename (folder, name, NULL);
      g_autoptr(Candidate) candidate = NULL;

      if (!may_be_copy (name) || strcmp (name, own_name) == 0 ||
          !g_file_test (other, G_FILE_TEST_IS_REGULAR))
        continue;
      candidate = candidate_new (other);
      if (is_named_as_copy (name, own_name) ||
          (own->first != NULL && g_strcmp0 (candidate->first, own->first) == 0))
        g_ptr_array_add (candidates, g_steal_pointer (&candidate));
    }
  return candidates;
}

/* --- Which is whole ----------------------------------------------------------------------------- */

static void
found_cb (const char *finding,
          gpointer    user_data)
{
  *(gboolean *) user_data = FALSE;
}

static gboolean
is_whole (const char *path)
{
  g_autoptr(CroStore) store = cro_store_open (path, NULL, CRO_STORE_INSPECT, NULL);
  gboolean            whole = TRUE;

  return store != NULL && cro_store_verify (store, found_cb, &whole, NULL) && whole;
}

static int
compare_newest_first (gconstpointer a,
                      gconstpointer b)
{
  const Candidate *x = *(Candidate *const *) a, *y = *(Candidate *const *) b;
  int              order = g_strcmp0 (y->last, x->last);

  return order != 0 ? order : strcmp (x->path, y->path);
}

CroCopy *
cro_copy_find_newest (const char *path)
{
  g_autofree char     *real = NULL;
  g_autoptr(GPtrArray) candidates = NULL;

  g_return_val_if_fail (path != NULL, NULL);

  real = cro_path_dup_real (path);
  if (real == NULL)
    return NULL;
  candidates = list_candidates (real);
  g_ptr_array_sort (candidates, compare_newest_first);
  for (guint i = 0; i < candidates->len; i++)
    {
      Candidate *candidate = candidates->pdata[i];

      if (is_whole (candidate->path))
        {
          CroCopy *copy = g_new (CroCopy, 1);

          copy->path = g_steal_pointer (&candidate->path);
          copy->day = g_steal_pointer (&candidate->day);
          return copy;
        }
    }
  return NULL;
}

void
cro_copy_free (CroCopy *self)
{
  g_free (self->path);
  g_free (self->day);
  g_free (self);
}
