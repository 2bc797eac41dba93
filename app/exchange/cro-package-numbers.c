/* ftruncate (), memmem (), memrchr (): */
#define _GNU_SOURCE

#include "cro-package-numbers.h"

#include <string.h>
#include <unistd.h>

/* Fewer digits than this were all printed as they are. */
#define MOST_EXACT 15
#define MOST_MEANT 13
/* "-2.2250738585072014E-308" is the longest that is printed. */
#define MOST_CHARS 26

/* More than the longest text of a cell takes, each of its characters escaped. */
#define BLOCK (1 << 18)

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

/* What fewer digits tell has 00 or 99 before the last of 16; an exponent may hide it. To ask this first saves most
 * numbers a conversion. */
static gboolean
ends_evenly (const char *text,
             gsize       length)
{
  char one = text[length - 3], other = text[length - 2];

  return (one == other && (one == '0' || one == '9')) || memchr (text, 'E', length) != NULL;
}

/* FALSE: as many digits as there are tell what no fewer do. */
static gboolean
shorten (const char *text,
         gsize       length,
         char        meant[G_ASCII_DTOSTR_BUF_SIZE])
{
  char copy[MOST_CHARS + 1];

  if (length > MOST_CHARS || !ends_evenly (text, length) || count_digits (text, length) <= MOST_EXACT)
    return FALSE;
  memcpy (copy, text, length);
  copy[length] = '\0';
  g_ascii_formatd (meant, G_ASCII_DTOSTR_BUF_SIZE, "%.15G", g_ascii_strtod (copy, NULL));
  return count_digits (meant, strlen (meant)) <= MOST_MEANT && strlen (meant) <= length;
}

static const char cell[] = "<c ", value[] = "<v>", type[] = " t=\"";

/* The last cell that begins before size, or NULL. */
static const char *
find_last_cell (const char *bytes,
                gsize       size)
{
  const char *at;

  while ((at = memrchr (bytes, '<', size)) != NULL)
    {
      size = (gsize) (at - bytes);
      if (memcmp (at, cell, strlen (cell)) == 0)
        return at;
    }
  return NULL;
}

/* What a cell holds is a number unless it says a type. */
static gboolean
is_number (const char *bytes,
           const char *at)
{
  const char *begin = find_last_cell (bytes, (gsize) (at - bytes));
  const char *stop = begin != NULL ? memchr (begin, '>', (gsize) (at - begin)) : NULL;

  return stop != NULL && memmem (begin, (gsize) (stop - begin), type, strlen (type)) == NULL;
}

/* Of whole cells. Returns how many bytes are left. */
static gsize
shorten_all (char  *bytes,
             gsize  size)
{
  const char *at = bytes, *end = bytes + size, *stop;
  GString *shorter = NULL;
  gsize done = 0;

  while ((at = memmem (at, (gsize) (end - at), value, strlen (value))) != NULL)
    {
      char meant[G_ASCII_DTOSTR_BUF_SIZE];

      at += strlen (value);
      stop = memchr (at, '<', (gsize) (end - at));
      if (stop == NULL)
        break;
      if (stop - at > MOST_EXACT && shorten (at, (gsize) (stop - at), meant) && is_number (bytes, at))
        {
          if (shorter == NULL)
            shorter = g_string_sized_new (size);
          g_string_append_len (shorter, bytes + done, at - bytes - (gssize) done);
          g_string_append (shorter, meant);
          done = (gsize) (stop - bytes);
        }
      at = stop;
    }
  if (shorter == NULL)
    return size;
  g_string_append_len (shorter, bytes + done, (gssize) (size - done));
  size = shorter->len;
  memcpy (bytes, shorter->str, size);
  g_string_free (shorter, TRUE);
  return size;
}

/* Shortens what stands in a file, block by block and in place, so that no sheet is ever in memory as a whole. A cell
 * that a block cuts waits for the next. Returns what is left, or -1 with errno. */
static off_t
shorten_file (int file)
{
  g_autofree char *bytes = g_malloc (BLOCK + strlen (cell));
  gsize held = 0;
  off_t from = 0, to = 0;

  for (;;)
    {
      gssize n = pread (file, bytes + held, BLOCK - held, from);
      const char *last;
      gsize whole, left;

      if (n < 0)
        return -1;
      from += n;
      held += (gsize) n;
      last = n > 0 && held > strlen (cell) ? find_last_cell (bytes, held - strlen (cell)) : NULL;
      whole = last != NULL && last > bytes ? (gsize) (last - bytes) : n > 0 && held < BLOCK ? 0 : held;
      left = shorten_all (bytes, whole);
      for (gsize at = 0; at < left;)
        {
          gssize written = pwrite (file, bytes + at, left - at, to);

          if (written < 0)
            return -1;
          at += (gsize) written;
          to += written;
        }
      if (n == 0)
        return to;
      held -= whole;
      memmove (bytes, bytes + whole, held);
    }
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

  if (end <= 0 || file < 0)
    return end >= 0;
  end = shorten_file (file);
  return end >= 0 && ftruncate (file, end) == 0 && open_anew (rows);
}
