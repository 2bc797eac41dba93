#include "config.h"

#include "cro-example.h"

#include <glib/gi18n.h>

#include "cro-number.h"

static char *
dup_number (double value)
{
  return cro_number_to_text (value, 2, FALSE);
}

char *
cro_example_dup_line (void)
{
  g_autofree char *price = dup_number (9.20);

  /* Translators: an example of a line as it may be typed; %s is a price, 9.20. Keep the form. */
  return g_strdup_printf (_("25 g butter %s/kg"), price);
}

char *
cro_example_dup_price (void)
{
  g_autofree char *price = dup_number (9.20);

  /* Translators: an example of a price as it may be typed; %s is a number, 9.20. */
  return g_strdup_printf (_("%s/kg"), price);
}
