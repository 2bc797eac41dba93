#include "cro-many.h"

#include "cro-processors.h"

#define MOST_THREADS 4

typedef struct
{
  guint          n;
  CroManyWork    work;
  CroManyHandOn  hand_on;
  gpointer       user_data;

  GMutex         lock;
  GCond          moved;        /* a slot became free */
  guint          next;         /* not yet begun */
  guint          handed_on;    /* all before it are */
  guint          n_waiting;    /* for a slot */
  gboolean       is_handing;
  gboolean       is_ready[CRO_MANY_SLOTS];
} Many;

typedef struct
{
  Many       *many;
  CroFigures *figures;
} Worker;

/* Called locked, and locked on return; the next ones are worked at meanwhile. */
static void
hand_on_what_is_ready (Many *many)
{
  if (many->is_handing)
    return;
  many->is_handing = TRUE;
  while (many->handed_on < many->next && many->is_ready[many->handed_on % CRO_MANY_SLOTS])
    {
      guint index = many->handed_on;

      g_mutex_unlock (&many->lock);
      many->hand_on (index, index % CRO_MANY_SLOTS, many->user_data);
      g_mutex_lock (&many->lock);
      many->is_ready[index % CRO_MANY_SLOTS] = FALSE;
      many->handed_on++;
      if (many->n_waiting > 0)
        g_cond_broadcast (&many->moved);
    }
  many->is_handing = FALSE;
}

static gpointer
run (gpointer data)
{
  Worker *worker = data;
  Many *many = worker->many;

  g_mutex_lock (&many->lock);
  while (many->next < many->n)
    {
      guint index = many->next;

      if (index >= many->handed_on + CRO_MANY_SLOTS)
        {
          many->n_waiting++;
          g_cond_wait (&many->moved, &many->lock);
          many->n_waiting--;
          continue;
        }
      many->next++;
      g_mutex_unlock (&many->lock);
      many->work (worker->figures, index, index % CRO_MANY_SLOTS, many->user_data);
      g_mutex_lock (&many->lock);
      many->is_ready[index % CRO_MANY_SLOTS] = TRUE;
      hand_on_what_is_ready (many);
    }
  g_mutex_unlock (&many->lock);
  return NULL;
}

void
cro_many_run (CroFigures    *figures,
              guint          n,
              guint          n_threads,
              CroManyWork    work,
              CroManyHandOn  hand_on,
              gpointer       user_data)
{
  Many many = { .n = n, .work = work, .hand_on = hand_on, .user_data = user_data };
  Worker workers[MOST_THREADS];
  GThread *threads[MOST_THREADS] = { NULL };
  guint n_workers = MIN (n_threads != 0 ? n_threads : cro_processors (), MOST_THREADS);

  g_mutex_init (&many.lock);
  g_cond_init (&many.moved);
  n_workers = CLAMP (n_workers, 1, MAX (n, 1));
  workers[0] = (Worker){ &many, figures };
  for (guint i = 1; i < n_workers; i++)
    {
      workers[i] = (Worker){ &many, cro_figures_new_twin (figures) };
      threads[i] = g_thread_try_new ("many", run, &workers[i], NULL);
    }
  /* Where no thread is to be had, this one does the work alone. */
  run (&workers[0]);
  for (guint i = 1; i < n_workers; i++)
    {
      if (threads[i] != NULL)
        g_thread_join (threads[i]);
      cro_figures_free_twin (workers[i].figures);
    }
  g_cond_clear (&many.moved);
  g_mutex_clear (&many.lock);
}
