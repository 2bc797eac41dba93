/* locales.h: the locales that a build has made for its tests (make-locales).
 *
 * Includes cmocka with what it wants before it. */
#pragma once

#include <glib.h>
#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* For cmocka's setup of a group. */
static inline int
cro_test_find_locales (void **state)
{
  const char *folder = g_getenv ("CROUSTADE_TEST_LOCALES");

  if (folder != NULL)
    g_setenv ("LOCPATH", folder, TRUE);
  return 0;
}

/* For its teardown. */
static inline int
cro_test_leave_locales (void **state)
{
  setlocale (LC_ALL, "C");
  return 0;
}

/* FALSE, and says so, where the locale is not there and cannot be made. */
static inline gboolean
cro_test_enter_locale (const char *name)
{
  if (setlocale (LC_ALL, name) != NULL)
    return TRUE;
  print_message ("skipped: the locale %s is not there and could not be made\n", name);
  return FALSE;
}
