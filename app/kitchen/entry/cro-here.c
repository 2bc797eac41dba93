#include "config.h"

#include "cro-here.h"

#include <glib/gi18n.h>
#include <string.h>

char *
cro_here_dup_desk (void)
{
  return g_strdup_printf ("%s on %s", g_get_real_name (), g_get_host_name ());
}

char *
cro_here_desk_to_text (const char *desk)
{
  const char *between = g_strrstr (desk, " on ");
  g_autofree char *name = between != NULL ? g_strndup (desk, (gsize) (between - desk)) : NULL;

  if (between == NULL)
    return g_strdup (desk);
  /* Translators: who writes into a book: a person's name, and the name of the machine. */
  return g_strdup_printf (_("%s on %s"), name, between + strlen (" on "));
}

static CroDate
day_of (GDateTime *time)
{
  return cro_date_from_civil (g_date_time_get_year (time), g_date_time_get_month (time),
                              g_date_time_get_day_of_month (time));
}

CroDate
cro_here_today (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  return day_of (now);
}

CroDate
cro_here_day_of_acts (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autoptr (GDateTime) begun = g_date_time_add_hours (now, -4);

  return day_of (begun);
}

gboolean
cro_here_is_today (CroDate day)
{
  return day >= cro_here_day_of_acts () && day <= cro_here_today ();
}
