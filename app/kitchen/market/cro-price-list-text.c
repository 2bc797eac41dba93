/* A message before its lines are read: its characters, and how it writes numbers. */
#include "cro-price-list-private.h"

#include "cro-plain-file.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

/* Longer than any message; bytes. */
#define MOST_MESSAGE (4u * 1024 * 1024)

char *
cro_price_list_read_text (const char  *path,
                          GError     **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  int file = cro_plain_file_open (path, error);
  guint8 block[16 * 1024];
  gssize n = 0;

  if (file < 0)
    return NULL;
  while (bytes->len <= MOST_MESSAGE && (n = read (file, block, sizeof block)) > 0)
    g_byte_array_append (bytes, block, (guint) n);
  if (n < 0)
    g_set_error_literal (error, G_FILE_ERROR, (int) g_file_error_from_errno (errno), g_strerror (errno));
  close (file);
  if (n < 0)
    return NULL;
  if (bytes->len > MOST_MESSAGE)
    {
      g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "message");
      return NULL;
    }
  return cro_spreadsheet_dup_text (bytes->len > 0 ? (const char *) bytes->data : "", bytes->len);
}

char
cro_price_list_decimal_of (const char *text)
{
  gboolean has[2] = { FALSE, FALSE };

  for (const char *at = text; *at != '\0'; at++)
    if ((*at == '.' || *at == ',') && at > text && g_ascii_isdigit (at[-1]))
      {
        gsize n = strspn (at + 1, "0123456789");

        if (n == 1 || n == 2)
          has[*at == ','] = TRUE;
      }
  return has[0] == has[1] ? '\0' : has[1] ? ',' : '.';
}
