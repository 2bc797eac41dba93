/* store-file.h: files as bytes, for the tests of what befalls them. */
#pragma once

#include "store-book.h"

static inline void
write_bytes (const char *path,
             const char *bytes,
             gsize       length)
{
  assert_true (g_file_set_contents (path, bytes, length, NULL));
}

static inline char *
read_bytes (const char *path,
            gsize      *length)
{
  char *bytes = NULL;

  assert_true (g_file_get_contents (path, &bytes, length, NULL));
  return bytes;
}

static inline guint
count_files (const char *folder)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  g_dir_close (dir);
  return n;
}
