/* Currencies: the codes and minor units of ISO 4217. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "cro-currency.h"

#define N(array) (sizeof (array) / sizeof *(array))

/* Source: ISO 4217 List One, published 2024-06-25: an extract with each number of digits, and what
 * local use, which other programs follow, has otherwise (IQD, SYP, MGA). */
static const struct { const char *code; int digits; } published[] = {
  { "JPY", 0 }, { "KRW", 0 }, { "VND", 0 }, { "ISK", 0 }, { "CLP", 0 }, { "XAF", 0 }, { "XPF", 0 },
  { "EUR", 2 }, { "USD", 2 }, { "GBP", 2 }, { "CHF", 2 }, { "HUF", 2 }, { "MGA", 2 }, { "SYP", 2 },
  { "KWD", 3 }, { "BHD", 3 }, { "JOD", 3 }, { "OMR", 3 }, { "TND", 3 }, { "IQD", 3 }, { "LYD", 3 },
  { "CLF", 4 }, { "UYW", 4 }, { "XAU", -1 }, { "XTS", -1 }, { "XXX", -1 },
};

static void
test_published (void **state)
{
  for (size_t i = 0; i < N (published); i++)
    {
      int digits = 99;

      if (!cro_currency_find (published[i].code, 3, &digits) || digits != published[i].digits)
        fail_msg ("%s has %d digits and not %d", published[i].code, digits, published[i].digits);
    }
}

static void
test_none (void **state)
{
  static const char *const none[] = { "", "E", "EU", "eur", "EURO", "ABC", "XYZ", "EUR ", "UR ", "BIF CLP" };
  int digits;

  for (size_t i = 0; i < N (none); i++)
    if (cro_currency_find (none[i], strlen (none[i]), &digits))
      fail_msg ("\"%s\" is no currency", none[i]);
}

/* Source: the same list has 17 currencies without digits, 140 of two, 7 of three and 2 of four. XCG
 * came later. */
static void
test_counts (void **state)
{
  size_t of[5] = { 0 };
  char code[4];

  for (size_t i = 0; cro_currency_list (i, code); i++)
    {
      int digits = -1;

      assert_true (cro_currency_find (code, 3, &digits));
      assert_in_range (digits, 0, 4);
      of[digits]++;
    }
  assert_int_equal (of[0], 17);
  assert_int_equal (of[2], 140 + 1);
  assert_int_equal (of[3], 7);
  assert_int_equal (of[4], 2);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_published),
    cmocka_unit_test (test_none),
    cmocka_unit_test (test_counts),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
