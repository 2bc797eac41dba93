#include "config.h"

#include "cro-catalogue.h"

#include <glib.h>
#include <libintl.h>
#include <locale.h>
#include <string.h>

#include "places.h"

/* A program that is not installed finds nothing where installed ones look. */
static const char *
folder_of_catalogues (void)
{
  const char *named = g_getenv ("CROUSTADE_LOCALE_DIR");
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);

  if (named != NULL)
    return named;
  return program != NULL && g_str_has_prefix (program, CRO_BUILD_DIR G_DIR_SEPARATOR_S)
           ? CRO_BUILD_DIR G_DIR_SEPARATOR_S "po"
           : CRO_LOCALE_DIR;
}

void
cro_catalogue_open (void)
{
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, folder_of_catalogues ());
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}

gboolean
cro_catalogue_has (const char *language)
{
  g_autofree char *file = g_strdup_printf ("%s.mo", GETTEXT_PACKAGE);
  g_autofree char *path = g_build_filename (folder_of_catalogues (), language, "LC_MESSAGES", file,
                                            NULL);

  if (g_str_equal (language, "en"))
    return TRUE;
  return *language != '\0' && strchr (language, '/') == NULL && strchr (language, ':') == NULL
         && g_file_test (path, G_FILE_TEST_EXISTS);
}
