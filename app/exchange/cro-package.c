#include "cro-package.h"

#include <archive.h>
#include <archive_entry.h>
#include <stdio.h>
#include <string.h>

/* Parts up to this are unpacked. */
#define MOST_READ (256 * 1024)

/* What stands in every sheet around its rows: its name spaces, views, margins, page and footer. */
#define LEAST_AROUND 700

/* The name of the root element, after the declaration; NULL if there is none. */
static char *
dup_root (const char *text,
          gsize       length)
{
  for (gsize i = 0; i + 1 < length; i++)
    if (text[i] == '<' && g_ascii_isalpha (text[i + 1]))
      {
        gsize end = i + 1;

        while (end < length && strchr (" >/\r\n\t", text[end]) == NULL)
          end++;
        return g_strndup (text + i + 1, end - i - 1);
      }
  return NULL;
}

static gboolean
is_closed (const char *text,
           gsize       length)
{
  g_autofree char *root = dup_root (text, length);
  g_autofree char *end = NULL;

  if (root == NULL)
    return FALSE;
  while (length > 0 && g_ascii_isspace (text[length - 1]))
    length--;
  end = g_strdup_printf ("</%s>", root);
  return length >= strlen (end) && memcmp (text + length - strlen (end), end, strlen (end)) == 0;
}

static gboolean
is_part_whole (struct archive       *package,
               struct archive_entry *part)
{
  gsize size = (gsize) archive_entry_size (part);
  g_autofree char *text = g_malloc (size + 1);
  la_ssize_t n = archive_read_data (package, text, size);

  return n >= 0 && (gsize) n == size && is_closed (text, size);
}

static gboolean
is_sheet_whole (struct archive_entry *part,
                const guint64        *least,
                guint                 n_sheets)
{
  guint64 size = (guint64) archive_entry_size (part);
  guint number;

  if (sscanf (archive_entry_pathname (part), "xl/worksheets/sheet%u.xml", &number) != 1)
    return TRUE;
  return number >= 1 && number <= n_sheets && size >= least[number - 1] + LEAST_AROUND;
}

static gboolean
are_parts_whole (struct archive *package,
                 const guint64  *least,
                 guint           n_sheets)
{
  struct archive_entry *part;
  int status;

  while ((status = archive_read_next_header (package, &part)) == ARCHIVE_OK)
    if (!is_sheet_whole (part, least, n_sheets)
        || (archive_entry_size (part) <= MOST_READ && !is_part_whole (package, part)))
      return FALSE;
  return status == ARCHIVE_EOF;
}

gboolean
cro_package_is_whole (const char    *path,
                      const guint64 *least,
                      guint          n_sheets)
{
  struct archive *package = archive_read_new ();
  gboolean whole;

  archive_read_support_format_zip_seekable (package);
  whole = archive_read_open_filename (package, path, 65536) == ARCHIVE_OK
          && are_parts_whole (package, least, n_sheets);
  archive_read_free (package);
  return whole;
}
