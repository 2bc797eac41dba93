#include "frames.h"

#include "bench.h"
#include "cro-window.h"

/* What comes later than its frame, as a search that waits until nobody types, comes within this. */
#define AFTER_MS 400
#define PATIENCE_MS 120000

static GPollFunc wait_for_events;
static double busy_since;     /* the loop works since then */
static double busy;           /* in all, without what runs since busy_since */
static double longest;

static gint
poll_cb (GPollFD *fds,
         guint    n_fds,
         gint     timeout)
{
  double now = cro_bench_thread_now ();
  gint n;

  busy += now - busy_since;
  longest = MAX (longest, now - busy_since);
  n = wait_for_events (fds, n_fds, timeout);
  busy_since = cro_bench_thread_now ();
  return n;
}

void
cro_frames_init (void)
{
  wait_for_events = g_main_context_get_poll_func (NULL);
  g_main_context_set_poll_func (NULL, poll_cb);
}

static void
painted_cb (GdkFrameClock *clock,
            double        *painted)
{
  if (*painted < 0)
    *painted = busy + cro_bench_thread_now () - busy_since;
}

static gboolean
late_cb (gpointer flag)
{
  *(gboolean *) flag = TRUE;
  return G_SOURCE_REMOVE;
}

/* Turns the loop until *moment is no longer negative, and for a while after it; NULL: only that. */
static void
turn (const double *moment,
      guint         after_ms)
{
  gboolean is_late = FALSE;
  guint id = g_timeout_add (moment != NULL ? PATIENCE_MS : after_ms, late_cb, &is_late);

  while (!is_late && (moment == NULL || *moment < 0))
    g_main_context_iteration (NULL, TRUE);
  if (!is_late)
    g_source_remove (id);
  else if (moment != NULL)
    g_error ("no frame was painted");
  if (moment != NULL && after_ms > 0)
    turn (NULL, after_ms);
}

static void
begin (void)
{
  busy = longest = 0;
  busy_since = cro_bench_thread_now ();
}

static gulong
watch (GtkWidget *window,
       double    *painted)
{
  *painted = -1;
  return g_signal_connect_after (gtk_widget_get_frame_clock (window), "after-paint",
                                 G_CALLBACK (painted_cb), painted);
}

static CroFrames
end (GtkWidget    *window,
     gulong        id,
     const double *painted)
{
  CroFrames frames;

  g_signal_handler_disconnect (gtk_widget_get_frame_clock (window), id);
  longest = MAX (longest, cro_bench_thread_now () - busy_since);
  frames = (CroFrames){ *painted, longest };
  return frames;
}

CroFrames
cro_frames_do (GtkWidget   *window,
               CroFramesDo  act,
               gpointer     user_data)
{
  double painted;
  gulong id;

  begin ();
  act (user_data);
  id = watch (window, &painted);
  turn (&painted, 0);
  return end (window, id, &painted);
}

CroFrames
cro_frames_until (GtkWidget     *window,
                  CroFramesDo    act,
                  CroFramesDone  done,
                  gpointer       user_data)
{
  double painted;
  gulong id;

  begin ();
  act (user_data);
  while (done != NULL && !done (user_data))
    g_main_context_iteration (NULL, TRUE);
  id = watch (window, &painted);
  gtk_widget_queue_draw (window);
  turn (&painted, AFTER_MS);
  return end (window, id, &painted);
}

typedef struct
{
  CroWindow  *window;
  const char *path;
} Opening;

static void
open_book (gpointer user_data)
{
  Opening *opening = user_data;

  cro_window_open_path (opening->window, opening->path);
}

static gboolean
is_open (gpointer user_data)
{
  return cro_window_get_book (((Opening *) user_data)->window) != NULL;
}

CroFrames
cro_frames_open (GtkWidget  *window,
                 const char *path)
{
  Opening opening = { CRO_WINDOW (window), path };

  return cro_frames_until (window, open_book, is_open, &opening);
}

CroFrames
cro_frames_show (GtkWidget *window)
{
  double painted;
  gulong id;

  begin ();
  gtk_window_present (GTK_WINDOW (window));
  id = watch (window, &painted);
  turn (&painted, 0);
  return end (window, id, &painted);
}

static GtkWidget *
find (GtkWidget *widget,
      GType      type,
      guint     *n)
{
  GtkWidget *found = NULL;

  if (!gtk_widget_get_mapped (widget))
    return NULL;
  if (g_type_is_a (G_OBJECT_TYPE (widget), type) && (*n)-- == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find (child, type, n);
  return found;
}

GtkWidget *
cro_frames_find (GtkWidget *widget,
                 GType      type,
                 guint      n)
{
  return find (widget, type, &n);
}
