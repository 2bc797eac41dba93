#define _GNU_SOURCE /* sched_getaffinity */
#include "cro-processors.h"

#include <sched.h>

guint
cro_processors (void)
{
  cpu_set_t set;

  /* It fails where there are more than a set holds. */
  if (sched_getaffinity (0, sizeof set, &set) != 0)
    return g_get_num_processors ();
  return (guint) MAX (CPU_COUNT (&set), 1);
}
