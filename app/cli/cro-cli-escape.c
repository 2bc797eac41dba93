/* Names of files and arguments are anybody's, and so are the texts of a stranger's book: none of them
 * moves the cursor of a terminal, colours it, begins a line of its own or turns the text around it. */
#include "config.h"

#include "cro-cli.h"

#include <stdio.h>
#include <string.h>

#include "cro-stray.h"

/* Sentences have them around names. */
#define FIRST_STRONG_ISOLATE 0x2068
#define POP_DIRECTIONAL_ISOLATE 0x2069

static void
append_escaped (GString  *shown,
                gunichar  c)
{
  if (c == '\n')
    g_string_append (shown, "\\n");
  else if (c == '\t')
    g_string_append (shown, "\\t");
  else
    g_string_append_printf (shown, c < 0x100 ? "\\x%02X" : "\\u%04X", c);
}

static void
append_shown (GString    *shown,
              const char *text,
              gsize       length)
{
  const char *end = text + length;

  while (text < end)
    {
      gunichar c = g_utf8_get_char_validated (text, end - text);
      gboolean is_valid = c < 0x110000;

      if (!is_valid)
        append_escaped (shown, (guchar) *text);
      else if (cro_stray_is (c) && c != FIRST_STRONG_ISOLATE && c != POP_DIRECTIONAL_ISOLATE)
        append_escaped (shown, c);
      else
        g_string_append_unichar (shown, c);
      text = is_valid ? g_utf8_next_char (text) : text + 1;
    }
}

static void
put_result (const char *text)
{
  g_autoptr (GString) shown = g_string_new (NULL);
  gsize length;

  for (; text[length = strcspn (text, "\n")] != '\0'; text += length + 1)
    {
      append_shown (shown, text, length);
      g_string_append_c (shown, '\n');
    }
  append_shown (shown, text, length);
  fputs (shown->str, stdout);
}

/* A message is a line: no name in it is another. */
static void
put_message (const char *text)
{
  g_autoptr (GString) shown = g_string_new (NULL);
  gsize length = strlen (text);
  gboolean is_ended = length > 0 && text[length - 1] == '\n';

  append_shown (shown, text, is_ended ? length - 1 : length);
  if (is_ended)
    g_string_append_c (shown, '\n');
  /* Where both go into one file, what was said first stands first. */
  fflush (stdout);
  fputs (shown->str, stderr);
}

void
cro_cli_escape_output (void)
{
  g_set_print_handler (put_result);
  g_set_printerr_handler (put_message);
}
