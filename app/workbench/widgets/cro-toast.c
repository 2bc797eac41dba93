#include "config.h"

#include "cro-toast.h"

/* What begins with a quotation mark or a digit is left as it is. */
static char *
dup_begun (const char *text)
{
  char first[6];
  int n = g_unichar_to_utf8 (g_unichar_totitle (g_utf8_get_char (text)), first);

  return *text == '\0' ? g_strdup ("")
                       : g_strdup_printf ("%.*s%s", n, first, g_utf8_next_char (text));
}

void
cro_toast_say (AdwToastOverlay *toasts,
               const char      *text)
{
  g_autofree char *begun = dup_begun (text);
  g_autofree char *escaped = g_markup_escape_text (begun, -1);

  adw_toast_overlay_add_toast (toasts, adw_toast_new (escaped));
}
