/* locales.h: locales for one test process, made where the machine has none.
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

static char *cro_test_locale_folder;

/* name is that of the locale, "fr_FR.UTF-8". */
static inline void
cro_test_make_locale (const char *name)
{
  g_autofree char *source = g_strndup (name, strcspn (name, "."));
  g_autofree char *path = g_build_filename (cro_test_locale_folder, name, NULL);
  const char *argv[] = { "localedef", "-i", source, "-f", "UTF-8", path, NULL };

  g_spawn_sync (NULL, (char **) argv, NULL,
                G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL,
                NULL, NULL, NULL, NULL, NULL, NULL);
}

/* For cmocka's setup of a group. */
static inline int
cro_test_make_locales (void **state)
{
  cro_test_locale_folder = g_dir_make_tmp ("croustade-locales-XXXXXX", NULL);
  cro_test_make_locale ("en_US.UTF-8");
  cro_test_make_locale ("fr_FR.UTF-8");
  cro_test_make_locale ("de_DE.UTF-8");
  g_setenv ("LOCPATH", cro_test_locale_folder, TRUE);
  return 0;
}

/* For its teardown. */
static inline int
cro_test_remove_locales (void **state)
{
  const char *argv[] = { "rm", "-r", cro_test_locale_folder, NULL };

  setlocale (LC_ALL, "C");
  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL,
                NULL);
  g_clear_pointer (&cro_test_locale_folder, g_free);
  return 0;
}

/* FALSE, and says so, where the locale is not there and cannot be made. */
static inline gboolean
cro_test_enter_locale (const char *name)
{
  if (setlocale (LC_ALL, name) != NULL)
    return TRUE;
  print_message ("skipped: the locale %s is not there and cannot be made\n", name);
  return FALSE;
}
