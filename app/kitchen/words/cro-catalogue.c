#include "config.h"

#include "cro-catalogue.h"

#include <glib.h>
#include <libintl.h>
#include <locale.h>

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
