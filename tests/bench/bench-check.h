/* bench-check.h: ends a benchmark whose preparation failed. */
#pragma once

#include <glib.h>

static inline void
check (gboolean  done,
       GError   *error)
{
  if (!done)
    g_error ("%s", error->message);
}
