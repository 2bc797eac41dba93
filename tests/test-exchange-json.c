#include "cro-json.h"
#include "cro-processors.h"

#include <json-glib/json-glib.h>
#include <locale.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

static const struct
{
  const char *says;
  double      value;
  const char *printed;
} numbers[] = {
  { "a whole number has no point", 5, "5" },
  { "no more digits than it takes", 0.1, "0.1" },
  { "as many digits as it takes", 0.1 + 0.2, "0.30000000000000004" },
  { "a negative number", -109.98, "-109.98" },
  { "a small power of ten", 1e-10, "1e-10" },
  { "a large power of ten", 1e22, "1e+22" },
  { "what was typed, not its 17th digit", 8.7, "8.7" },
  { "nor where it is small", 0.000123, "0.000123" },
  { "zeros inside are no tail", 1.0000000000000002, "1.0000000000000002" },
  { "nor are they where more follows", 1.00000000000012, "1.0000000000001199" },
  { "zero", 0, "0" },
  { "the smallest double", 0x1p-1074, "4.9406564584124654e-324" },
  { "the largest double", 0x1.fffffffffffffp1023, "1.7976931348623157e+308" },
};

static char *
print_number (double value)
{
  g_autoptr(CroJson) json = cro_json_new ();

  cro_json_number (json, NULL, value, TRUE);
  return g_strchomp (cro_json_print (json, NULL));
}

static void
test_numbers (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autofree char *printed = print_number (numbers[i].value);

      if (!g_str_equal (printed, numbers[i].printed))
        fail_msg ("%s: %s", numbers[i].says, printed);
    }
}

/* Source: json-glib's reader, a general-purpose library. Doubles are drawn by their bits. */
static void
test_doubles_read_back (void **state)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (1);

  for (int i = 0; i < 20000; i++)
    {
      union { guint32 half[2]; double value; } drawn = {
        .half = { g_rand_int (rand), g_rand_int (rand) },
      };
      g_autofree char *printed = NULL;
      g_autoptr(JsonNode) node = NULL;

      if (!isfinite (drawn.value))
        continue;
      printed = print_number (drawn.value);
      node = json_from_string (printed, NULL);
      if (node == NULL || json_node_get_double (node) != drawn.value)
        fail_msg ("%s does not read back", printed);
    }
}

static void
test_numbers_do_not_follow_the_locale (void **state)
{
  g_autofree char *printed = NULL;

  if (setlocale (LC_NUMERIC, "de_DE.UTF-8") == NULL
      && setlocale (LC_NUMERIC, "fr_FR.UTF-8") == NULL)
    {
      print_message ("skipped: no locale with a decimal comma is installed\n");
      skip ();
    }
  printed = print_number (1.5);
  setlocale (LC_NUMERIC, "C");
  assert_string_equal (printed, "1.5");
}

static void
test_what_is_not_finite_is_refused (void **state)
{
  const double values[] = { INFINITY, -INFINITY, NAN };

  for (gsize i = 0; i < G_N_ELEMENTS (values); i++)
    {
      g_autoptr(CroJson) json = cro_json_new ();
      g_autoptr(GError) error = NULL;

      cro_json_begin_object (json, NULL);
      cro_json_number (json, "cost", values[i], TRUE);
      cro_json_number (json, "price", NAN, TRUE);
      cro_json_end_object (json);
      assert_null (cro_json_print (json, &error));
      assert_true (g_error_matches (error, CRO_JSON_ERROR, CRO_JSON_ERROR_NOT_FINITE));
      assert_non_null (strstr (error->message, "cost"));
    }
}

static void
test_what_is_not_known_is_null (void **state)
{
  g_autoptr(CroJson) json = cro_json_new ();
  g_autofree char *text = NULL;

  cro_json_begin_array (json, NULL);
  cro_json_number (json, NULL, NAN, FALSE);
  cro_json_number (json, NULL, 1, FALSE);
  cro_json_text (json, NULL, NULL);
  cro_json_end_array (json);
  text = cro_json_print (json, NULL);
  assert_string_equal (text, "[\n  null,\n  null,\n  null\n]\n");
}

static void
test_layout (void **state)
{
  g_autoptr(CroJson) json = cro_json_new ();
  g_autofree char *text = NULL;

  cro_json_begin_object (json, NULL);
  cro_json_text (json, "on", "2026-03-01");
  cro_json_begin_array (json, "plates");
  cro_json_begin_object (json, NULL);
  cro_json_number (json, "cost", 0.5, TRUE);
  cro_json_begin_array (json, "missing");
  cro_json_end_array (json);
  cro_json_end_object (json);
  cro_json_end_array (json);
  cro_json_begin_object (json, "rest");
  cro_json_end_object (json);
  cro_json_end_object (json);
  text = cro_json_print (json, NULL);
  assert_string_equal (text,
                       "{\n"
                       "  \"on\": \"2026-03-01\",\n"
                       "  \"plates\": [\n"
                       "    {\n"
                       "      \"cost\": 0.5,\n"
                       "      \"missing\": []\n"
                       "    }\n"
                       "  ],\n"
                       "  \"rest\": {}\n"
                       "}\n");
}

/* Written whole, and in pieces that are taken as they come. */
static void
write_rows (CroJson  *json,
            gboolean  in_pieces,
            GString  *taken)
{
  gsize length;

  cro_json_begin_object (json, NULL);
  cro_json_begin_array (json, "plates");
  for (int i = 0; i < 3; i++)
    {
      g_autoptr(CroJson) piece = in_pieces ? cro_json_new_piece (2) : NULL;
      CroJson *into = in_pieces ? piece : json;

      cro_json_begin_object (into, NULL);
      cro_json_number (into, "cost", i, TRUE);
      cro_json_end_object (into);
      if (!in_pieces)
        continue;
      assert_int_equal ((guintptr) piece % CRO_CACHE_LINE, 0);
      cro_json_add_piece (json, piece);
      g_string_append (taken, cro_json_take (json, &length));
    }
  cro_json_end_array (json);
  cro_json_end_object (json);
}

static void
test_pieces_make_the_whole (void **state)
{
  g_autoptr(CroJson) whole = cro_json_new ();
  g_autoptr(CroJson) joined = cro_json_new ();
  g_autoptr(GString) taken = g_string_new (NULL);
  g_autofree char *text = NULL, *rest = NULL;

  write_rows (whole, FALSE, NULL);
  write_rows (joined, TRUE, taken);
  text = cro_json_print (whole, NULL);
  rest = cro_json_print (joined, NULL);
  g_string_append (taken, rest);
  assert_string_equal (taken->str, text);
}

static void
test_a_piece_tells_what_is_not_finite (void **state)
{
  g_autoptr(CroJson) json = cro_json_new ();
  g_autoptr(CroJson) piece = cro_json_new_piece (1);
  g_autoptr(GError) error = NULL;

  cro_json_begin_array (json, NULL);
  cro_json_number (piece, "cost", INFINITY, TRUE);
  cro_json_add_piece (json, piece);
  cro_json_end_array (json);
  assert_null (cro_json_print (json, &error));
  assert_non_null (strstr (error->message, "cost"));
}

/* Source: json-glib's reader. RFC 8259, 7 wants quotes, backslashes and control characters
 * escaped. */
static void
test_texts_read_back (void **state)
{
  g_autoptr(CroJson) json = cro_json_new ();
  g_autofree char *printed = NULL;
  g_autoptr(JsonNode) node = NULL;
  char text[200] = "\"quoted\" \\ Crème → 🦪 ";
  gsize length = strlen (text);

  for (char c = 1; c < 0x7F; c++)
    text[length++] = c;
  cro_json_begin_object (json, NULL);
  cro_json_text (json, text, text);
  cro_json_end_object (json);
  printed = cro_json_print (json, NULL);
  for (const char *c = printed; *c != '\0'; c++)
    assert_true (*c == '\n' || (guchar) *c >= 0x20);
  node = json_from_string (printed, NULL);
  assert_non_null (node);
  assert_string_equal (json_object_get_string_member (json_node_get_object (node), text), text);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_numbers),
    cmocka_unit_test (test_doubles_read_back),
    cmocka_unit_test (test_numbers_do_not_follow_the_locale),
    cmocka_unit_test (test_what_is_not_finite_is_refused),
    cmocka_unit_test (test_what_is_not_known_is_null),
    cmocka_unit_test (test_layout),
    cmocka_unit_test (test_pieces_make_the_whole),
    cmocka_unit_test (test_a_piece_tells_what_is_not_finite),
    cmocka_unit_test (test_texts_read_back),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
