#include "config.h"

#include "cro-cli.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cro-whole-file.h"

static gboolean
send_file (const char  *path,
           GError     **error)
{
  FILE *file = fopen (path, "rb");
  char bytes[1 << 14];
  gsize n;
  gboolean done = file != NULL;

  /* Nothing is left of it, however the program ends. */
  g_unlink (path);
  while (done && (n = fread (bytes, 1, sizeof bytes, file)) > 0)
    done = fwrite (bytes, 1, n, stdout) == n;
  done = done && !ferror (file) && fflush (stdout) == 0;
  if (!done)
    g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (errno), g_strerror (errno));
  if (file != NULL)
    fclose (file);
  return done;
}

static gboolean
is_same_file (const char *a,
              const char *b)
{
  struct stat x, y;

  return stat (a, &x) == 0 && stat (b, &y) == 0 && x.st_dev == y.st_dev && x.st_ino == y.st_ino;
}

/* A month's file may well have been named by a slip of the hand; the book it would replace is a year's work. */
gboolean
cro_cli_is_book (const char *path)
{
  if (!g_str_has_suffix (path, ".croustade") && !cro_whole_file_is_database (path))
    return FALSE;
  g_printerr (_("%s: this names a book; name another file\n"), path);
  return TRUE;
}

gboolean
cro_cli_can_write (const char *path,
                   const char *book)
{
  if (path == NULL || *path == '\0')
    g_printerr (_("-o must name the file to write\n"));
  else if (strcmp (path, "-") == 0)
    return TRUE;
  else if (is_same_file (book, path))
    g_printerr (_("%s: this is the book itself; name another file\n"), path);
  else if (cro_cli_is_book (path))
    return FALSE;
  else if (cro_whole_file_is_program (path))
    g_printerr (_("%s: this is a program; name another file\n"), path);
  else if (g_file_test (path, G_FILE_TEST_EXISTS) && !g_file_test (path, G_FILE_TEST_IS_REGULAR))
    g_printerr (_("%s: this is not a file but a folder, a pipe or a device; name a file, or - for "
                  "standard output\n"),
                path);
  else
    return TRUE;
  return FALSE;
}

gboolean
cro_cli_keeps_accounts (const char *path,
                        const char *accounts)
{
  if (accounts == NULL || path == NULL || strcmp (path, "-") == 0 || !is_same_file (path, accounts))
    return TRUE;
  g_printerr (_("%s: this is the table of accounts itself; name another file\n"), path);
  return FALSE;
}

gboolean
cro_cli_write_file (const char   *path,
                    CroCliWrite   write,
                    gpointer      user_data,
                    GError      **error)
{
  g_autofree char *stand_in = NULL;
  gboolean done;
  int fd;

  if (strcmp (path, "-") != 0)
    return write (path, user_data, error);
  fd = g_file_open_tmp ("croustade-XXXXXX", &stand_in, error);
  if (fd < 0)
    return FALSE;
  close (fd);
  done = write (stand_in, user_data, error) && send_file (stand_in, error);
  g_unlink (stand_in);
  return done;
}

/* --- The end -------------------------------------------------------------------------------------- */

static gboolean is_changed;

void
cro_cli_note_change (void)
{
  is_changed = TRUE;
}

/* A disk may be full at the very last byte. What was only to be told and could not be was not done; but
 * a book that is changed stays so, and who believes that nothing happened does it twice. */
CroCliStatus
cro_cli_end (CroCliStatus status)
{
  if (fflush (stdout) != 0 || ferror (stdout))
    {
      cro_cli_follow_reader ();
      g_printerr (_("The result could not be written.\n"));
      status = CRO_CLI_FAILED;
    }
  if (!is_changed || status < CRO_CLI_REFUSED)
    return status;
  g_printerr (_("The change itself is done: it is in the book.\n"));
  return CRO_CLI_INCOMPLETE;
}
