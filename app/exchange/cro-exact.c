#include "cro-exact.h"

#include <string.h>

#define PLACES 9
#define MOST_WHOLE 18

static CroNano
power_of_ten (guint exponent)
{
  CroNano power = 1;

  while (exponent-- > 0)
    power *= 10;
  return power;
}

/* Half away from zero; by is above 0. */
static CroNano
divide (CroNano value,
        CroNano by)
{
  CroNano whole = value / by, rest = value % by;

  if (rest < 0)
    return whole - (-rest >= by - -rest);
  return whole + (rest >= by - rest && rest != 0);
}

gboolean
cro_exact_parse (const char *text,
                 CroNano    *nano)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  const char *at = trimmed + (*trimmed == '-' || *trimmed == '+');
  gsize whole = strspn (at, "0123456789");
  gsize places = at[whole] == '.' ? strspn (at + whole + 1, "0123456789") : 0;
  const char *fraction = at + whole + 1;
  CroNano value = 0;

  while (whole > 1 && *at == '0')
    {
      at++;
      whole--;
    }
  if (whole + places == 0 || whole > MOST_WHOLE || at[whole + (at[whole] == '.' ? 1 + places : 0)] != '\0')
    return FALSE;
  for (gsize i = 0; i < whole; i++)
    value = value * 10 + (at[i] - '0');
  for (gsize i = 0; i < PLACES; i++)
    value = value * 10 + (i < places ? fraction[i] - '0' : 0);
  if (places > PLACES && fraction[PLACES] >= '5')
    value++;
  *nano = *trimmed == '-' ? -value : value;
  return TRUE;
}

gboolean
cro_exact_share (CroNano  a,
                 CroNano  b,
                 CroNano  c,
                 guint    places,
                 CroNano *result)
{
  CroNano product, scaled, by;

  g_return_val_if_fail (c != 0 && places <= PLACES, FALSE);

  /* a × b is of 18 places, c of 9: what is left is of 9, to be of so many. */
  if (__builtin_mul_overflow (a, b, &product)
      || __builtin_mul_overflow (c, power_of_ten (PLACES - places), &by)
      || __builtin_mul_overflow (divide (c < 0 ? -product : product, by < 0 ? -by : by),
                                 power_of_ten (PLACES - places), &scaled))
    return FALSE;
  *result = scaled;
  return TRUE;
}

gboolean
cro_exact_to_micro (CroNano  nano,
                    gint64  *micro)
{
  CroNano value = divide (nano, 1000);

  if (value > G_MAXINT64 || value < G_MININT64)
    return FALSE;
  *micro = (gint64) value;
  return TRUE;
}

char *
cro_exact_to_text (CroNano nano,
                   guint   places)
{
  CroNano value = divide (nano, power_of_ten (PLACES - places));
  gboolean is_below = value < 0;
  GString *text = g_string_new (NULL);

  value = is_below ? -value : value;
  for (guint i = 0; value > 0 || i <= places; i++)
    {
      if (i == places && places > 0)
        g_string_prepend_c (text, '.');
      g_string_prepend_c (text, (char) ('0' + (int) (value % 10)));
      value /= 10;
    }
  if (is_below)
    g_string_prepend_c (text, '-');
  return g_string_free (text, FALSE);
}
