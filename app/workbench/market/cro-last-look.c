#include "config.h"

#include "cro-last-look.h"

#include <string.h>

#include "cro-breakdown.h"
#include "cro-here.h"
#include "cro-kind.h"
#include "cro-result-words.h"
#include "cro-state.h"

typedef struct
{
  char     *shown;
  gboolean  was_over;
} Then;

struct _CroLastLook
{
  GtkWidget    *owner;        /* borrowed */
  void        (*changed) (GtkWidget *owner);
  char         *path;         /* of the book that was looked at */
  CroDate       day;          /* CRO_NO_DAY: of no look before */
  GHashTable   *things;       /* id → Then; NULL: the book of that day has not come */
  GCancellable *cancellable;
};

static void
then_free (gpointer then)
{
  g_free (((Then *) then)->shown);
  g_free (then);
}

/* --- The days ----------------------------------------------------------------------------------- */

static CroDate
read_day (const char *path,
          const char *key)
{
  g_autofree char *text = cro_state_dup_text (path, key);
  CroDate day;

  return text != NULL && cro_date_parse (text, strlen (text), &day) ? day : CRO_NO_DAY;
}

static void
write_day (const char *path,
           const char *key,
           CroDate     day)
{
  char text[CRO_DATE_CHARS];

  cro_date_format (day, text);
  cro_state_set_text (path, key, day != CRO_NO_DAY ? text : NULL);
}

/* On one day one may look often: what is new is so until the next. A night's work is of the day before, as its
 * acts are: the book as it stood then would hold what was done after the look. */
static CroDate
look (const char *path)
{
  CroDate today = cro_here_day_of_acts (), seen = read_day (path, "market-seen");

  if (seen != today)
    {
      write_day (path, "market-before", seen);
      write_day (path, "market-seen", today);
    }
  return read_day (path, "market-before");
}

/* --- The book of that day ----------------------------------------------------------------------- */

static void
take_thing (GHashTable *things,
            CroFigures *past,
            CroKind     kind,
            guint32     slot)
{
  CroFigure figure = kind == CRO_KIND_MENU ? cro_figure_of_menu (past, slot) : cro_figure_of_plate (past, slot);
  gint64 id = kind == CRO_KIND_MENU ? cro_model_menu (past->model, slot)->id
                                    : cro_model_recipe (past->model, slot)->id;
  Then *then = g_new0 (Then, 1);

  then->shown = cro_words_result (past->model, &figure);
  then->was_over = figure.is_over_target;
  g_hash_table_insert (things, g_memdup2 (&id, sizeof id), then);
}

static void
take_things (CroLastLook *self,
             CroFigures  *past)
{
  static const CroKind kinds[] = { CRO_KIND_PLATE, CRO_KIND_MENU };

  self->things = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, then_free);
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    for (guint32 slot = 0; slot < cro_kind_n_slots (past->model, kinds[i]); slot++)
      if (cro_kind_name (past->model, kinds[i], slot) != NULL)
        take_thing (self->things, past, kinds[i], slot);
}

typedef struct
{
  char    *path;
  CroDate  day;
} Job;

static void
job_free (gpointer data)
{
  g_free (((Job *) data)->path);
  g_free (data);
}

/* With a connection of its own. */
static void
open_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  const Job *job = data;
  GError *error = NULL;
  CroBook *book = cro_book_open_past (job->path, job->day, job->day, &error);

  if (book != NULL)
    g_task_return_pointer (task, book, g_object_unref);
  else
    g_task_return_error (task, error);
}

/* Where that book is not to be had, as it began later, there is nothing to hold against: no failure. */
static void
opened_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  CroLastLook *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (CroBook) book = g_task_propagate_pointer (G_TASK (result), &error);

  /* Whoever was to be told may be gone. */
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  g_clear_object (&self->cancellable);
  if (book == NULL)
    return;
  take_things (self, cro_book_get_figures (book));
  self->changed (self->owner);
}

static void
stop (CroLastLook *self)
{
  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

void
cro_last_look_at (CroLastLook *self,
                  CroBook     *book)
{
  const char *path = cro_store_get_path (cro_book_get_store (book));
  CroDate day = cro_book_is_past (book, NULL) ? CRO_NO_DAY : look (path);
  g_autoptr (GTask) task = NULL;
  Job *job;

  if (self->day == day && g_strcmp0 (self->path, path) == 0)
    return;
  stop (self);
  g_clear_pointer (&self->things, g_hash_table_unref);
  g_free (self->path);
  self->path = g_strdup (path);
  self->day = day;
  if (day == CRO_NO_DAY)
    return;
  self->cancellable = g_cancellable_new ();
  task = g_task_new (NULL, self->cancellable, opened_cb, self);
  job = g_new (Job, 1);
  *job = (Job){ g_strdup (path), day };
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, open_in_thread);
}

CroDate
cro_last_look_get_day (CroLastLook *self)
{
  return self->things != NULL ? self->day : CRO_NO_DAY;
}

const char *
cro_last_look_get (CroLastLook *self,
                   gint64       id,
                   gboolean    *was_over)
{
  const Then *then = self->things != NULL ? g_hash_table_lookup (self->things, &id) : NULL;

  *was_over = then != NULL && then->was_over;
  return then != NULL ? then->shown : NULL;
}

CroLastLook *
cro_last_look_new (GtkWidget *owner,
                   GCallback  changed)
{
  CroLastLook *self = g_new0 (CroLastLook, 1);

  self->owner = owner;
  self->changed = (void (*) (GtkWidget *)) changed;
  self->day = CRO_NO_DAY;
  return self;
}

void
cro_last_look_free (CroLastLook *self)
{
  stop (self);
  g_clear_pointer (&self->things, g_hash_table_unref);
  g_free (self->path);
  g_free (self);
}
