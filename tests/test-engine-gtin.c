/* Check digits of trade items. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "cro-gtin.h"

static const struct { const char *text; bool is_one, is_sound; } cases[] = {
  /* GS1 General Specifications, "Check digit calculation": its worked example of 18 digits is an SSCC;
   * 6291041500213 is the worked GTIN-13 of GS1's own page on check digits (both from memory). */
  { "6291041500213", true, true },
  { "6291041500214", true, false },
  { "06291041500213", true, true },
  /* Reckoned by hand: 3·(1+3+5+7) + (2+4+6) = 60, so 0. */
  { "12345670", true, true },
  /* 0+1+2+… of 03600029145: 3·(0+6+0+2+1+5) + (3+0+0+9+4) = 58, so 2. */
  { "036000291452", true, true },
  /* As they stand in the public examples of UBL 2.1, where digits were only counted on. */
  { "1234567890128", true, true },
  { "1234567890124", true, false },
  { "123456789", false, false },
  { "12345678901a8", false, false },
  { "", false, false },
};

static void
test_check_digits (void **state)
{
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    if (cro_gtin_is_one (cases[i].text, strlen (cases[i].text)) != cases[i].is_one
        || cro_gtin_is_sound (cases[i].text, strlen (cases[i].text)) != cases[i].is_sound)
      fail_msg ("\"%s\"", cases[i].text);
}

static void
test_one_number_is_written_wide (void **state)
{
  char wide[CRO_GTIN_DIGITS + 1];

  cro_gtin_widen ("12345670", 8, wide);
  assert_string_equal (wide, "00000012345670");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_check_digits),
    cmocka_unit_test (test_one_number_is_written_wide),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
