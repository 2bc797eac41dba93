/* Names inside of sentences: those that could turn what stands beside them are isolated.
 *
 * Source: Unicode Standard Annex 9, 6.3 (first strong isolate U+2068, its end U+2069). */
#include <glib.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cro-isolate.h"

#define FSI "\u2068"
#define PDI "\u2069"

static const struct
{
  const char *says, *language, *name, *text;
} names[] = {
  { "a name in the sentence's own direction is left alone", "en", "Sea purslane", "Sea purslane" },
  { "an override ends with its name", "en", "Butter \u202e", FSI "Butter \u202e" PDI },
  { "a name that runs the other way", "en", "\u0632\u0628\u062f\u0629", FSI "\u0632\u0628\u062f\u0629" PDI },
  { "a name cannot end its own isolate", "en", "a" PDI "b\u202e", FSI "ab\u202e" PDI },
  { "a Latin name in a sentence that runs the other way", "ar", "Tide", FSI "Tide" PDI },
};

static void
test_names (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *text = NULL;

      g_setenv ("LANGUAGE", names[i].language, TRUE);
      text = cro_isolate (names[i].name);
      if (g_strcmp0 (text, names[i].text) != 0)
        fail_msg ("%s: %s", names[i].says, text);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_names) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
