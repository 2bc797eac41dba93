#include "cro-path.h"

#include <stdlib.h>

static char *
dup_resolved (const char *path)
{
  char *real = realpath (path, NULL);
  char *copy = g_strdup (real);

  free (real);
  return copy;
}

char *
cro_path_dup_real (const char *path)
{
  g_autofree char *whole = NULL;
  g_autofree char *real = NULL;
  g_autofree char *folder = NULL;
  g_autofree char *real_folder = NULL;
  g_autofree char *name = NULL;

  if (*path == '\0')
    return NULL;
  whole = g_canonicalize_filename (path, NULL);
  real = dup_resolved (whole);
  if (real != NULL)
    return g_steal_pointer (&real);
  folder = g_path_get_dirname (whole);
  real_folder = dup_resolved (folder);
  if (real_folder == NULL)
    return g_steal_pointer (&whole);
  name = g_path_get_basename (whole);
  return g_build_filename (real_folder, name, NULL);
}
