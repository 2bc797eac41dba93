#include "cro-date.h"

#include <glib.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

/* GDate counts from 0001-01-01 as day 1; this is what it gives for 1970-01-01. */
#define JULIAN_OF_1970 719163

static const struct
{
  const char *says;
  const char *text;
} no_days[] = {
  { "the 30th of February", "2026-02-30" },
  { "the 29th of February of a common year", "2025-02-29" },
  { "the 29th of February of a common century", "1900-02-29" },
  { "the 31st of April", "2026-04-31" },
  { "day 0", "2026-04-00" },
  { "month 0", "2026-00-10" },
  { "month 13", "2026-13-01" },
  { "year 0", "0000-01-01" },
  { "no zero in front", "2026-4-01" },
  { "slashes", "2026/04/01" },
  { "the day first", "01-04-2026" },
  { "no hyphens", "20260401" },
  { "a time behind", "2026-04-01T00" },
  { "a space in front", " 2026-04-01" },
  { "a sign", "+026-04-01" },
  { "a letter", "2026-O4-01" },
  { "nothing", "" },
};

static const struct
{
  const char *says;
  const char *text;
} no_months[] = {
  { "month 0", "2026-00" },  { "month 13", "2026-13" },       { "one digit", "2026-4" },
  { "a day", "2026-04-01" }, { "no hyphen", "202604" },       { "year 0", "0000-04" },
  { "nothing", "" },         { "a space behind", "2026-04 " },
};

/* Source: GDate of GLib, a general-purpose calendar. */
static void
test_every_day_agrees_with_gdate (void **state)
{
  GDate reference;

  g_date_clear (&reference, 1);
  for (CroDate date = 1 - JULIAN_OF_1970;; date++)
    {
      int year, month, day;

      g_date_set_julian (&reference, (guint32) (date + JULIAN_OF_1970));
      if (g_date_get_year (&reference) > 9999)
        break;
      cro_date_to_civil (date, &year, &month, &day);
      assert_int_equal (year, g_date_get_year (&reference));
      assert_int_equal (month, g_date_get_month (&reference));
      assert_int_equal (day, g_date_get_day (&reference));
      assert_int_equal (cro_date_from_civil (year, month, day), date);
    }
}

static void
test_every_day_reads_back (void **state)
{
  CroDate last = cro_date_from_civil (9999, 12, 31);

  for (CroDate date = cro_date_from_civil (1, 1, 1); date <= last; date++)
    {
      char text[CRO_DATE_CHARS];
      CroDate back = 0;

      cro_date_format (date, text);
      assert_true (cro_date_parse (text, strlen (text), &back));
      assert_int_equal (back, date);
    }
}

static void
test_day_zero (void **state)
{
  char text[CRO_DATE_CHARS];

  cro_date_format (0, text);
  assert_string_equal (text, "1970-01-01");
}

static void
test_what_is_no_day (void **state)
{
  CroDate date;

  for (size_t i = 0; i < G_N_ELEMENTS (no_days); i++)
    if (cro_date_parse (no_days[i].text, strlen (no_days[i].text), &date))
      fail_msg ("%s: %s", no_days[i].says, no_days[i].text);
}

static void
test_a_month_is_its_first_day (void **state)
{
  CroDate date;

  assert_true (cro_month_parse ("2024-02", 7, &date));
  assert_int_equal (date, cro_date_from_civil (2024, 2, 1));
}

static void
test_what_is_no_month (void **state)
{
  CroDate date;

  for (size_t i = 0; i < G_N_ELEMENTS (no_months); i++)
    if (cro_month_parse (no_months[i].text, strlen (no_months[i].text), &date))
      fail_msg ("%s: %s", no_months[i].says, no_months[i].text);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_every_day_agrees_with_gdate),
    cmocka_unit_test (test_every_day_reads_back),
    cmocka_unit_test (test_day_zero),
    cmocka_unit_test (test_what_is_no_day),
    cmocka_unit_test (test_a_month_is_its_first_day),
    cmocka_unit_test (test_what_is_no_month),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
