/* fallocate (), memfd_create (): */
#define _GNU_SOURCE

#include "cro-package-close.h"

#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "cro-package-numbers.h"
#include "cro-package.h"
#include "cro-workbook.h"

#include <xlsxwriter/utility.h>

/* The library quotes a name where it must for its letters, not where it reads as a number or a cell
 * ("1e5", "A1"); what repeats on a printed page is named by it. It frees what stands there. */
lxw_worksheet *
cro_package_add_sheet (lxw_workbook *book,
                       const char   *name,
                       const char   *quoted)
{
  lxw_worksheet *sheet = workbook_add_worksheet (book, name);

  if (sheet == NULL)
    return NULL;
  free ((char *) sheet->quoted_name);  /* const since libxlsxwriter 1.2 */
  sheet->quoted_name = strndup (quoted, strlen (quoted) - 1);
  return sheet;
}

/* --- Closing ------------------------------------------------------------------------------------- */

/* Where a disk is full, rows are lost in silence unless somebody asks. The last row of a sheet waits for a next
 * one. Notes what they take. */
static gboolean
rows_are_whole (lxw_workbook *book,
                GArray       *sizes)
{
  lxw_worksheet *sheet;

  STAILQ_FOREACH (sheet, book->worksheets, list_pointers)
    {
      guint64 size;

      lxw_worksheet_write_single_row (sheet);
      if (fflush (sheet->optimize_tmpfile) != 0 || ferror (sheet->optimize_tmpfile)
          || !cro_package_mend_numbers (&sheet->optimize_tmpfile))
        return FALSE;
      size = (guint64) ftello (sheet->optimize_tmpfile);
      g_array_append_val (sizes, size);
    }
  return TRUE;
}

/* What a sheet has around its rows, links and all. */
#define MOST_AROUND (4 * 1024 * 1024)

/* Packing copies one sheet at a time beside the rows of all, and does not ask whether there was
 * room: that is asked here, while it can be said. Where a file system cannot tell, what came out
 * is looked at. */
static gboolean
has_room_to_pack (const GArray *sizes)
{
  FILE *file = lxw_tmpfile (NULL);
  guint64 most = 0;
  gboolean has_room;

  if (file == NULL)
    return FALSE;
  for (guint i = 0; i < sizes->len; i++)
    most = MAX (most, g_array_index (sizes, guint64, i));
  has_room = fallocate (fileno (file), 0, 0, (off_t) (most + MOST_AROUND)) == 0
             || errno == EOPNOTSUPP || errno == ENOSYS;
  fclose (file);
  return has_room;
}

static gboolean
fail (const char  *why,
      GError     **error)
{
  g_set_error_literal (error, CRO_WORKBOOK_ERROR, CRO_WORKBOOK_ERROR_SYSTEM, why);
  return FALSE;
}

/* What the system says of a file. */
static gboolean
fail_file (int      code,
           GError **error)
{
  g_set_error_literal (error, G_FILE_ERROR, (int) g_file_error_from_errno (code), g_strerror (code));
  return FALSE;
}

/* Where packing fails the library says so on standard error, with words and a path of its own. So it
 * packs into memory, which is a tenth of what the sheets are, and the file is written here. -1 where
 * there is no such memory: then the file is packed into at once. */
static int
pack_in_memory (lxw_workbook *book)
{
  int file = memfd_create ("workbook", MFD_CLOEXEC);
  g_autofree char *path = g_strdup_printf ("/proc/self/fd/%d", file);

  if (file < 0 || access (path, W_OK) != 0)
    {
      if (file >= 0)
        close (file);
      return -1;
    }
  free ((char *) book->filename);  /* const since libxlsxwriter 1.2 */
  book->filename = strdup (path);
  return file;
}

static gboolean
write_all (int         file,
           const char *bytes,
           gsize       length)
{
  while (length > 0)
    {
      gssize n = write (file, bytes, length);

      if (n < 0 && errno != EINTR)
        return FALSE;
      bytes += MAX (n, 0);
      length -= (gsize) MAX (n, 0);
    }
  return TRUE;
}

static gboolean
copy_out (int         packed,
          const char *path)
{
  int file = open (path, O_WRONLY | O_TRUNC | O_CLOEXEC);
  char bytes[1 << 16];
  gssize n = 0;
  gboolean done = file >= 0 && lseek (packed, 0, SEEK_SET) == 0;

  while (done && (n = read (packed, bytes, sizeof bytes)) > 0)
    done = write_all (file, bytes, (gsize) n);
  done = done && n == 0;
  if (file >= 0)
    {
      int code = errno;

      done = close (file) == 0 && done;
      errno = done ? errno : code;
    }
  return done;
}

static gboolean
pack (lxw_workbook  *book,
      const char    *path,
      const GArray  *sizes,
      GError       **error)
{
  int packed = pack_in_memory (book);
  g_autofree char *into = g_strdup (packed >= 0 ? book->filename : path);
  lxw_error failed = workbook_close (book);
  gboolean done = TRUE;

  if (failed != LXW_NO_ERROR)
    done = fail (lxw_strerror (failed), error);
  else if (!cro_package_is_whole (into, (const guint64 *) sizes->data, sizes->len))
    done = fail (lxw_strerror (LXW_ERROR_READING_TMPFILE), error);
  else if (packed >= 0 && !copy_out (packed, path))
    done = fail_file (errno, error);
  if (packed >= 0)
    close (packed);
  return done;
}

gboolean
cro_package_close (lxw_workbook  *book,
                   const char    *path,
                   GError       **error)
{
  g_autoptr (GArray) sizes = g_array_new (FALSE, FALSE, sizeof (guint64));

  if (rows_are_whole (book, sizes) && has_room_to_pack (sizes))
    return pack (book, path, sizes, error);
  lxw_workbook_free (book);
  return fail_file (ENOSPC, error);
}

/* --- Numbers ------------------------------------------------------------------------------------- */

/* The library prints numbers with the C library, whose decimal sign is the locale's: a spreadsheet
 * would take "19,5" for something else. Only this thread's numbers change, and only as long as it
 * writes. NULL where the system has not even the locale C. */
locale_t
cro_package_enter_numbers (locale_t *before)
{
  locale_t plain;

  *before = uselocale ((locale_t) 0);
  plain = newlocale (LC_NUMERIC_MASK, "C", duplocale (*before));
  if (plain != (locale_t) 0)
    uselocale (plain);
  return plain;
}

void
cro_package_leave_numbers (locale_t plain,
                           locale_t before)
{
  uselocale (before);
  if (plain != (locale_t) 0)
    freelocale (plain);
}
