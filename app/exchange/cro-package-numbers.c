/* ftruncate (): */
#define _GNU_SOURCE

#include "cro-package-numbers.h"

#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

/* Fewer digits than this were all printed as they are. */
#define MOST_EXACT 15
#define MOST_MEANT 13
/* "-2.2250738585072014E-308" is the longest that is printed. */
#define MOST_CHARS 26

/* Significant ones: no zeros at the front, and none of an exponent. */
static guint
count_digits (const char *text,
              gsize       length)
{
  guint n = 0;

  for (gsize i = 0; i < length && g_ascii_toupper (text[i]) != 'E'; i++)
    n += g_ascii_isdigit (text[i]) && (n > 0 || text[i] != '0');
  return n;
}

/* FALSE: as many digits as there are tell what no fewer do. */
static gboolean
shorten (const char *text,
         gsize       length,
         char        meant[G_ASCII_DTOSTR_BUF_SIZE])
{
  char copy[MOST_CHARS + 1];

  if (length > MOST_CHARS || count_digits (text, length) <= MOST_EXACT)
    return FALSE;
  memcpy (copy, text, length);
  copy[length] = '\0';
  g_ascii_formatd (meant, G_ASCII_DTOSTR_BUF_SIZE, "%.15G", g_ascii_strtod (copy, NULL));
  return count_digits (meant, strlen (meant)) <= MOST_MEANT && strlen (meant) <= length;
}

/* What a cell holds is a number unless it says a type. Returns how many bytes are left. */
static gsize
shorten_all (char  *bytes,
             gsize  size)
{
  static const char cell[] = "<c ", value[] = "<v>", type[] = " t=\"";
  gboolean is_number = FALSE;
  gsize kept = 0, done = 0;

  for (const char *at = bytes, *end = bytes + size; (at = memchr (at, '<', (gsize) (end - at))) != NULL; at++)
    {
      gsize left = (gsize) (end - at);
      const char *stop;
      char meant[G_ASCII_DTOSTR_BUF_SIZE];

      if (left > strlen (cell) && memcmp (at, cell, strlen (cell)) == 0)
        is_number = (stop = memchr (at, '>', left)) != NULL
                    && memmem (at, (gsize) (stop - at), type, strlen (type)) == NULL;
      if (!is_number || left <= strlen (value) || memcmp (at, value, strlen (value)) != 0)
        continue;
      at += strlen (value);
      stop = memchr (at, '<', (gsize) (end - at));
      if (stop == NULL || !shorten (at, (gsize) (stop - at), meant))
        continue;
      memmove (bytes + kept, bytes + done, (gsize) (at - bytes) - done);
      kept += (gsize) (at - bytes) - done;
      memcpy (bytes + kept, meant, strlen (meant));
      kept += strlen (meant);
      done = (gsize) (stop - bytes);
    }
  memmove (bytes + kept, bytes + done, size - done);
  return kept + size - done;
}

/* What a stream has read it would give again, whatever became of its file. */
static gboolean
open_anew (FILE **rows)
{
  int file = dup (fileno (*rows));
  FILE *fresh = file >= 0 ? fdopen (file, "r+") : NULL;

  if (fresh == NULL || fseeko (fresh, 0, SEEK_END) != 0)
    {
      if (fresh != NULL)
        fclose (fresh);
      else if (file >= 0)
        close (file);
      return FALSE;
    }
  fclose (*rows);
  *rows = fresh;
  return TRUE;
}

gboolean
cro_package_mend_numbers (FILE **rows)
{
  int file = fileno (*rows);
  off_t end = fseeko (*rows, 0, SEEK_END) == 0 ? ftello (*rows) : -1;
  gsize size = end > 0 ? (gsize) end : 0, kept;
  void *bytes;

  if (end <= 0 || file < 0)
    return end >= 0;
  bytes = mmap (NULL, size, PROT_READ | PROT_WRITE, MAP_SHARED, file, 0);
  if (bytes == MAP_FAILED)
    return FALSE;
  kept = shorten_all (bytes, size);
  munmap (bytes, size);
  return ftruncate (file, (off_t) kept) == 0 && open_anew (rows);
}
