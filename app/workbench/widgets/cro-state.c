#include "cro-state.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>

char *
cro_state_dup_path (const char *name)
{
  return g_build_filename (g_get_user_state_dir (), "croustade", name, NULL);
}

static GKeyFile *remembered;

/* Read once, and again before it is written: another session of the same home has a process of its own. */
static GKeyFile *
file (void)
{
  if (remembered == NULL)
    {
      g_autofree char *path = cro_state_dup_path ("state.ini");

      remembered = g_key_file_new ();
      g_key_file_load_from_file (remembered, path, G_KEY_FILE_KEEP_COMMENTS, NULL);
    }
  return remembered;
}

/* --- Writing ------------------------------------------------------------------------------------ */

/* What was set since it was written last, as "group\nkey": neither holds a line break. */
static GHashTable *set_since;

/* What others wrote meanwhile is taken over, but for what was set here. */
static void
take_in_others (const char *path)
{
  g_autoptr (GKeyFile) theirs = g_key_file_new ();
  GHashTableIter iter;
  gpointer name;

  if (!g_key_file_load_from_file (theirs, path, G_KEY_FILE_KEEP_COMMENTS, NULL))
    return;
  g_hash_table_iter_init (&iter, set_since);
  while (g_hash_table_iter_next (&iter, &name, NULL))
    {
      const char *key = strchr (name, '\n') + 1;
      g_autofree char *group = g_strndup (name, (gsize) (key - 1 - (const char *) name));
      g_autofree char *value = g_key_file_get_value (file (), group, key, NULL);

      if (value != NULL)
        g_key_file_set_value (theirs, group, key, value);
      else
        g_key_file_remove_key (theirs, group, key, NULL);
    }
  g_key_file_unref (remembered);
  remembered = g_steal_pointer (&theirs);
}

/* How often the lock is tried, and how long lies between two times; microseconds. */
#define LOCK_TRIES 25
#define LOCK_PAUSE_US 10000

/* Between reading it and writing it nobody else does either. Where the file system has no locks, or a session that
 * has it was stopped, that moment is left to luck: the window does not wait for it. -1: there is none. */
static int
lock (void)
{
  g_autofree char *path = cro_state_dup_path ("state.lock");
  int locked = g_open (path, O_RDWR | O_CREAT | O_CLOEXEC, 0600);

  for (int i = 0; i < LOCK_TRIES && locked >= 0 && flock (locked, LOCK_EX | LOCK_NB) != 0; i++)
    {
      if (errno != EWOULDBLOCK && errno != EINTR)
        break;
      g_usleep (LOCK_PAUSE_US);
    }
  return locked;
}

/* How long changes are gathered before they are written; milliseconds. */
#define GATHER_MS 200

static guint write_id;
static gboolean is_told; /* that it could not be written */
static CroStateFailed failed_cb;
static gpointer failed_data;

static gboolean
write_now (GError **error)
{
  g_autofree char *path = cro_state_dup_path ("state.ini");
  g_autofree char *folder = g_path_get_dirname (path);
  gboolean done;
  int locked;

  g_mkdir_with_parents (folder, 0700);
  locked = lock ();
  take_in_others (path);
  done = g_key_file_save_to_file (file (), path, error);
  if (locked >= 0)
    g_close (locked, NULL);
  if (!done)
    return FALSE;
  g_hash_table_remove_all (set_since);
  is_told = FALSE;
  return TRUE;
}

gboolean
cro_state_tell (const GError *error)
{
  if (is_told || failed_cb == NULL)
    return FALSE;
  is_told = TRUE;
  failed_cb (error, failed_data);
  return TRUE;
}

static gboolean
write_cb (gpointer user_data)
{
  g_autoptr (GError) error = NULL;

  write_id = 0;
  if (!write_now (&error))
    cro_state_tell (error);
  return G_SOURCE_REMOVE;
}

gboolean
cro_state_write (GError **error)
{
  g_clear_handle_id (&write_id, g_source_remove);
  return set_since == NULL || g_hash_table_size (set_since) == 0 || write_now (error);
}

void
cro_state_set_failed (CroStateFailed failed,
                      gpointer       user_data)
{
  failed_cb = failed;
  failed_data = user_data;
}

/* --- What is remembered ------------------------------------------------------------------------- */

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
  if (set_since == NULL)
    set_since = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_hash_table_add (set_since, g_strdup_printf ("%s\n%s", name, key));
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
