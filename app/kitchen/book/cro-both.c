#include "cro-both.h"

#include "cro-processors.h"

typedef struct
{
  guint32     from, to;
  CroBothWork work;
  gpointer    user_data;
} Half;

static gpointer
run_half (gpointer data)
{
  const Half *self = data;

  self->work (self->from, self->to, self->user_data);
  return NULL;
}

void
cro_both_run (guint32     n,
              guint32     least,
              CroBothWork work,
              gpointer    user_data)
{
  Half lower = { 0, n / 2, work, user_data };
  Half upper = { n / 2, n, work, user_data };
  GThread *thread = n >= least && cro_processors () > 1
                        ? g_thread_try_new ("both", run_half, &upper, NULL)
                        : NULL;

  run_half (&lower);
  if (thread != NULL)
    g_thread_join (thread);
  else
    run_half (&upper);
}
