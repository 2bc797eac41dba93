#include "config.h"

#include "cro-here.h"

#include <glib/gi18n.h>

char *
cro_here_dup_desk (void)
{
  /* Translators: who writes into a book: a person's name, and the name of the machine. */
  return g_strdup_printf (_("%s on %s"), g_get_real_name (), g_get_host_name ());
}

CroDate
cro_here_today (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  return cro_date_from_civil (g_date_time_get_year (now), g_date_time_get_month (now),
                              g_date_time_get_day_of_month (now));
}
