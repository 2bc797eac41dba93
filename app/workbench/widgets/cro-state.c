#include "cro-state.h"

#include <glib/gstdio.h>

char *
cro_state_dup_path (const char *name)
{
  return g_build_filename (g_get_user_state_dir (), "croustade", name, NULL);
}

/* Read once: this program alone writes it, and all its windows are one process. */
static GKeyFile *
file (void)
{
  static GKeyFile *keys;

  if (keys == NULL)
    {
      g_autofree char *path = cro_state_dup_path ("state.ini");

      keys = g_key_file_new ();
      g_key_file_load_from_file (keys, path, G_KEY_FILE_KEEP_COMMENTS, NULL);
    }
  return keys;
}

/* How long changes are gathered before they are written; milliseconds. */
#define GATHER_MS 200

static guint write_id;
static gboolean is_unwritten; /* it could not be written when it was tried last */
static CroStateFailed failed_cb;
static gpointer failed_data;

static gboolean
write_now (GError **error)
{
  g_autofree char *path = cro_state_dup_path ("state.ini");
  g_autofree char *folder = g_path_get_dirname (path);

  g_mkdir_with_parents (folder, 0700);
  is_unwritten = !g_key_file_save_to_file (file (), path, error);
  return !is_unwritten;
}

static gboolean
write_cb (gpointer user_data)
{
  gboolean is_told = is_unwritten;
  g_autoptr (GError) error = NULL;

  write_id = 0;
  if (!write_now (&error) && !is_told && failed_cb != NULL)
    failed_cb (error, failed_data);
  return G_SOURCE_REMOVE;
}

gboolean
cro_state_write (GError **error)
{
  if (write_id == 0 && !is_unwritten)
    return TRUE;
  g_clear_handle_id (&write_id, g_source_remove);
  return write_now (error);
}

void
cro_state_set_failed (CroStateFailed failed,
                      gpointer       user_data)
{
  failed_cb = failed;
  failed_data = user_data;
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
  g_autofree char *before = g_key_file_get_string (file (), name, key, NULL);

  if (g_strcmp0 (before, text) == 0)
    return;
  if (text != NULL)
    g_key_file_set_string (file (), name, key, text);
  else
    g_key_file_remove_key (file (), name, key, NULL);
  if (write_id == 0)
    write_id = g_timeout_add (GATHER_MS, write_cb, NULL);
}

char **
cro_state_dup_keys (const char *group,
                    const char *prefix)
{
  g_autofree char *name = group_of (group);
  g_auto (GStrv) keys = g_key_file_get_keys (file (), name, NULL, NULL);
  g_autoptr (GStrvBuilder) found = g_strv_builder_new ();

  for (guint i = 0; keys != NULL && keys[i] != NULL; i++)
    if (g_str_has_prefix (keys[i], prefix))
      g_strv_builder_add (found, keys[i]);
  return g_strv_builder_end (found);
}

int
cro_state_get_int (const char *group,
                   const char *key,
                   int         fallback)
{
  g_autofree char *text = cro_state_dup_text (group, key);

  return text != NULL ? (int) CLAMP (g_ascii_strtoll (text, NULL, 10), G_MININT, G_MAXINT) : fallback;
}

void
cro_state_set_int (const char *group,
                   const char *key,
                   int         value)
{
  g_autofree char *text = g_strdup_printf ("%d", value);

  cro_state_set_text (group, key, text);
}
