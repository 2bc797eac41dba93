/* first-frame.c: preloaded into a program, it ends it once its window's first frame is painted.
 *
 * Prints     The CLOCK_MONOTONIC seconds of that moment, and then the program's proportional
 *            and its private dirty memory in KiB, and the processor seconds of all its threads.
 * Waits for  The first frame of the window that has the title in FIRST_FRAME_TITLE; if that is
 *            not set, for the first of any. */
#define _GNU_SOURCE

#include "bench.h"

#include <dlfcn.h>
#include <gtk/gtk.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

/* A line of the kernel's summary of this process. */
static unsigned long
memory_kib (const char *name)
{
  g_autofree char *text = NULL;
  const char *line;

  if (!g_file_get_contents ("/proc/self/smaps_rollup", &text, NULL, NULL)
      || (line = strstr (text, name)) == NULL)
    return 0;
  return strtoul (line + strlen (name), NULL, 10);
}

static double
processor_seconds (void)
{
  struct rusage used;

  getrusage (RUSAGE_SELF, &used);
  return (double) (used.ru_utime.tv_sec + used.ru_stime.tv_sec)
         + (double) (used.ru_utime.tv_usec + used.ru_stime.tv_usec) * 1e-6;
}

static void
painted_cb (GdkFrameClock *clock,
            GtkWindow     *window)
{
  const char *title = g_getenv ("FIRST_FRAME_TITLE");
  double now = cro_bench_now (), used = processor_seconds ();

  if (title != NULL && g_strcmp0 (gtk_window_get_title (window), title) != 0)
    return;
  printf ("%.6f %lu %lu %.6f\n", now, memory_kib ("\nPss:"), memory_kib ("\nPrivate_Dirty:"),
          used);
  fflush (stdout);
  _exit (0);
}

static void
realized_cb (GtkWidget *window)
{
  g_signal_connect_after (gtk_widget_get_frame_clock (window), "after-paint",
                          G_CALLBACK (painted_cb), window);
}

/* Stands before GTK's own. */
G_MODULE_EXPORT void
gtk_window_present (GtkWindow *window)
{
  void (*present) (GtkWindow *);

  *(void **) &present = dlsym (RTLD_NEXT, "gtk_window_present");
  if (!gtk_widget_get_realized (GTK_WIDGET (window)))
    g_signal_connect (window, "realize", G_CALLBACK (realized_cb), NULL);
  else if (!gtk_widget_get_mapped (GTK_WIDGET (window)))
    realized_cb (GTK_WIDGET (window));
  present (window);
}
