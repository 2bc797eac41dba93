#include "config.h"

#include "cro-cli.h"

#include <signal.h>

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

gboolean
cro_cli_goes_on (gpointer user_data,
                 double   done)
{
  return !was_interrupted;
}
