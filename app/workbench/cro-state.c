#include "cro-state.h"

#include <glib/gstdio.h>

static char *
dup_path (void)
{
  return g_build_filename (g_get_user_state_dir (), "croustade", "state.ini", NULL);
}

/* Read once: this program alone writes it, and all its windows are one process. */
static GKeyFile *
file (void)
{
  static GKeyFile *keys;

  if (keys == NULL)
    {
      g_autofree char *path = dup_path ();

      keys = g_key_file_new ();
      g_key_file_load_from_file (keys, path, G_KEY_FILE_KEEP_COMMENTS, NULL);
    }
  return keys;
}

static void
write (void)
{
  g_autofree char *path = dup_path ();
  g_autofree char *folder = g_path_get_dirname (path);

  g_mkdir_with_parents (folder, 0700);
  g_key_file_save_to_file (file (), path, NULL);
}

/* A group may be the path of a book, which a key file cannot name as it stands. */
static char *
group_of (const char *name)
{
  return g_uri_escape_string (name, "/", TRUE);
}

char *
cro_state_dup_text (const char *group,
                    const char *key)
{
  g_autofree char *name = group_of (group);

  return g_key_file_get_string (file (), name, key, NULL);
}

void
cro_state_set_text (const char *group,
                    const char *key,
                    const char *text)
{
  g_autofree char *name = group_of (group);

  if (text != NULL)
    g_key_file_set_string (file (), name, key, text);
  else
    g_key_file_remove_key (file (), name, key, NULL);
  write ();
}

int
cro_state_get_int (const char *group,
                   const char *key,
                   int         fallback)
{
  g_autofree char *text = cro_state_dup_text (group, key);

  return text != NULL ? (int) g_ascii_strtoll (text, NULL, 10) : fallback;
}

void
cro_state_set_int (const char *group,
                   const char *key,
                   int         value)
{
  g_autofree char *text = g_strdup_printf ("%d", value);

  cro_state_set_text (group, key, text);
}
