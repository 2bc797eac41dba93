/* A message before its lines are read: its characters, and how it writes numbers. */
#include "cro-price-list-private.h"

#include "cro-plain-file.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

/* Longer than any message; bytes. */
#define MOST_MESSAGE (4u * 1024 * 1024)

/* Signs that nobody sees: soft hyphens, marks of direction, joiners. */
static gboolean
is_unseen (gunichar c)
{
  return c == 0xad || (c >= 0x200b && c <= 0x200f) || (c >= 0x202a && c <= 0x202e) || (c >= 0x2060 && c <= 0x2069)
         || c == 0xfeff;
}

/* Between digits a blank groups them, as it is written. */
static gboolean
is_group (const char *text,
          const char *at)
{
  const char *next = g_utf8_next_char (at);

  return at > text && g_ascii_isdigit (at[-1]) && strspn (next, "0123456789") == 3;
}

/* "*11.50*", "_Leek_": bold and slanting letters of messages. */
static char *
dup_without_marks (const char *text)
{
  static GRegex *marks;

  if (g_once_init_enter (&marks))
    g_once_init_leave (&marks, g_regex_new ("(?<![\\pL\\pN*_])(\\*{1,2}|_)([^\\s*_](?:[^*_\\n]*[^\\s*_])?)\\1"
                                            "(?![\\pL\\pN*_])",
                                            G_REGEX_DEFAULT, G_REGEX_MATCH_DEFAULT, NULL));
  return g_regex_replace (marks, text, -1, 0, "\\2", G_REGEX_MATCH_DEFAULT, NULL);
}

char *
cro_price_list_dup_plain (const char *text)
{
  char *unmarked;
  GString *plain = g_string_new (NULL);

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (is_unseen (c))
        continue;
      if (c == 0x2011)
        g_string_append_c (plain, '-');
      else if (c != '\n' && c != '\r' && g_unichar_isspace (c) && !is_group (text, at))
        g_string_append_c (plain, ' ');
      else
        g_string_append_unichar (plain, c);
    }
  unmarked = dup_without_marks (plain->str);
  g_string_free (plain, TRUE);
  return unmarked;
}

/* The commas of a line that part its cells, and what stands in them, with another sign between them. Owned. */
static char *
dup_parted (const char *line,
            guint      *n)
{
  GString *parted = g_string_new (NULL);
  gboolean is_quoted = FALSE;

  *n = 0;
  for (const char *at = line; *at != '\0'; at++)
    if (*at == '"')
      is_quoted = !is_quoted;
    else if (*at == ',' && !is_quoted)
      {
        g_string_append (parted, " ; ");
        ++*n;
      }
    else
      g_string_append_c (parted, *at);
  return g_string_free (parted, FALSE);
}

/* "D02,Flour,25 kg,31.00": a table that has no headings, of which each row has as many cells. Where a price may be
 * parted itself, "31,00", it is read as a message. Owned; NULL: it is none. */
static char *
dup_table (const char *path,
           const char *text)
{
  g_autofree char *lower = g_ascii_strdown (path, -1);
  g_auto (GStrv) lines = g_strsplit (text, "\n", 0);
  g_autoptr (GString) table = g_string_new (NULL);
  guint n_all = 0;

  if (!g_str_has_suffix (lower, ".csv") || strpbrk (text, ";\t") != NULL
      || g_regex_match_simple ("\\d,\\d\\d?\\s*$", text, G_REGEX_MULTILINE, G_REGEX_MATCH_DEFAULT))
    return NULL;
  for (guint i = 0; lines[i] != NULL; i++)
    {
      guint n;
      g_autofree char *line = dup_parted (lines[i], &n);

      g_string_append_printf (table, "%s%s", i > 0 ? "\n" : "", line);
      if (*g_strstrip (line) == '\0')
        continue;
      if (n < 2 || (n_all != 0 && n != n_all))
        return NULL;
      n_all = n;
    }
  return n_all > 0 ? g_string_free (g_steal_pointer (&table), FALSE) : NULL;
}

char *
cro_price_list_read_text (const char  *path,
                          GError     **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  int file = cro_plain_file_open (path, error);
  g_autofree char *text = NULL, *table = NULL;
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
  text = cro_spreadsheet_dup_text (bytes->len > 0 ? (const char *) bytes->data : "", bytes->len);
  table = dup_table (path, text);
  return cro_price_list_dup_plain (table != NULL ? table : text);
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
