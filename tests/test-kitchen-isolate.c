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
  { "nor leave one open", "en", "a" FSI "b", FSI "a" FSI "b" PDI PDI },
  { "nor one inside of another", "en", "a" FSI FSI "b", FSI "a" FSI FSI "b" PDI PDI PDI },
  { "a sentence in a sentence keeps its own", "en",
    "of " FSI "\u0632" PDI ", 5", FSI "of " FSI "\u0632" PDI ", 5" PDI },
  { "nor end the paragraph around it", "en", "a\u202e\u2029b", FSI "a\u202e b" PDI },
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

static void
expect_text (const char *says,
             char       *text,
             const char *want)
{
  if (g_strcmp0 (text, want) != 0)
    fail_msg ("%s: %s", says, text);
  g_free (text);
}

static void
test_sentences (void **state)
{
  g_setenv ("LANGUAGE", "en", TRUE);
  expect_text ("what turns nothing is left alone", cro_isolate_printf ("%s of %s", "price", "Butter"),
               "price of Butter");
  expect_text ("the name that turns, and no other",
               cro_isolate_printf ("%s, %s: 5 %%", "\u0632\u0628\u062f\u0629", "Quay"),
               FSI "\u0632\u0628\u062f\u0629" PDI ", Quay: 5 %");
  expect_text ("a translation turns their order", cro_isolate_printf ("%2$s : %1$s", "a", "\u0632"),
               FSI "\u0632" PDI " : a");
  expect_text ("a sentence without names", cro_isolate_printf ("none"), "none");
}

static void
test_words_are_shortened (void **state)
{
  static const struct { const char *text, *name, *words, *want; } cases[] = {
    { "prix de ", "Agar", "de d’ que qu’", "prix d’" }, { "de ", "Œufs", "de d’", "d’" },
    { "prix de ", "Beurre", "de d’", "prix de " },      { "prix de ", "Hareng", "de d’", "prix de " },
    { "monde ", "Agar", "de d’", "monde " },            { "prix de", "Agar", "de d’", "prix de" },
    { "plus que ", "Ail", "de d’ que qu’", "plus qu’" }, { "price of ", "Agar", "none", "price of " },
    { "prix de ", "", "de d’", "prix de " },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GString) text = g_string_new (cases[i].text);

      cro_isolate_shorten (text, cases[i].name, cases[i].words);
      expect_text (cases[i].name, g_strdup (text->str), cases[i].want);
    }
}

static void
test_lists (void **state)
{
  g_autoptr (GString) list = g_string_new (NULL);

  g_setenv ("LANGUAGE", "en", TRUE);
  cro_isolate_append (list, "Tide");
  cro_isolate_append (list, "\u0632");
  expect_text ("names are parted, and one that turns is isolated", g_strdup (list->str),
               "Tide, " FSI "\u0632" PDI);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_names),
    cmocka_unit_test (test_sentences),
    cmocka_unit_test (test_words_are_shortened),
    cmocka_unit_test (test_lists),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
