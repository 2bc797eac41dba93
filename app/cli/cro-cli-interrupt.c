#include "config.h"

#include "cro-cli.h"

#include <signal.h>
#include <stdio.h>
#include <unistd.h>

static volatile sig_atomic_t was_interrupted;

static void
note_interrupt (int signal_number)
{
  was_interrupted = 1;
}

/* Waiting reads and writes go on: a command stops where it can give back what was. Whoever asks
 * twice does not want to wait for that place, so the second signal ends it at once. */
void
cro_cli_note_interrupts (void)
{
  struct sigaction note = { .sa_handler = note_interrupt, .sa_flags = SA_RESTART | (int) SA_RESETHAND };

  sigaction (SIGINT, &note, NULL);
  sigaction (SIGTERM, &note, NULL);
}

static volatile sig_atomic_t has_reader_left;

static void
note_reader (int signal_number)
{
  has_reader_left = 1;
}

/* Whoever started this program may have asked for no signal, which is left so. */
void
cro_cli_note_reader (void)
{
  struct sigaction note = { .sa_handler = note_reader, .sa_flags = SA_RESTART }, before;

  sigaction (SIGPIPE, &note, &before);
  if (before.sa_handler == SIG_IGN)
    sigaction (SIGPIPE, &before, NULL);
}

gboolean
cro_cli_has_reader_left (void)
{
  return has_reader_left;
}

void
cro_cli_follow_reader (void)
{
  if (!has_reader_left)
    return;
  signal (SIGPIPE, SIG_DFL);
  raise (SIGPIPE);
}

gboolean
cro_cli_goes_on (gpointer user_data,
                 double   done)
{
  return !was_interrupted;
}

/* Progress is for those who wait for it: on a terminal, and no more than once a per cent. */
gboolean
cro_cli_show_progress (gpointer user_data,
                       double   done)
{
  int *shown = user_data;
  int pct = (int) (100 * done);

  if (pct > *shown && isatty (STDERR_FILENO))
    fprintf (stderr, "\r%3d %%%s", pct, pct >= 100 ? "\r     \r" : "");
  *shown = MAX (*shown, pct);
  return cro_cli_goes_on (NULL, done);
}

void
cro_cli_end_progress (void)
{
  if (isatty (STDERR_FILENO))
    fputs ("\r     \r", stderr);
}
