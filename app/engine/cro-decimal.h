/* cro-decimal.h: exact decimals with up to six places.
 *
 * Units      A decimal is an integer count of millionths ("micro"): 1.25 is 1250000.
 *            int64 holds 9.2e12 units.
 * Errors     Functions return false and leave *result alone; nothing wraps around. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define CRO_MICRO INT64_C (1000000)

/* What is typed, pasted or brought, whatever it is of, stays below this, either way: so a double tells the thousandths
 * of it apart, nine of them are still a sum that int64 holds, and a bar code of 13 digits is none. Tables may hold all
 * that a book does. */
#define CRO_ENTERED_BELOW (INT64_C (1000000000000) * CRO_MICRO)

/* "-" and a 20-digit integer, a point, six places, NUL. */
#define CRO_DECIMAL_CHARS 32

typedef enum
{
  CRO_DECIMAL_OK,
  CRO_DECIMAL_NOT_A_NUMBER,    /* anything but -?digits[.digits] */
  CRO_DECIMAL_TOO_MANY_PLACES, /* more than six digits after the point */
  CRO_DECIMAL_TOO_LARGE,       /* beyond int64 millionths */
} CroDecimalStatus;

/* Reads the whole of length bytes of text, as exchanged files write it: a point, no
 * exponent, no grouping, no leading plus, whatever the locale. */
CroDecimalStatus cro_decimal_parse (const char *text,
                                    size_t      length,
                                    int64_t    *micro);

/* Writes the shortest text that reads back to the same value; returns its length. */
size_t cro_decimal_format (int64_t micro,
                           char    text[CRO_DECIMAL_CHARS]);

/* a * b, half away from zero at the sixth place. */
bool cro_decimal_multiply (int64_t  a_micro,
                           int64_t  b_micro,
                           int64_t *result_micro);

/* The nearest millionth to value, half away from zero. */
bool cro_decimal_from_double (double   value,
                              int64_t *result_micro);

static inline bool
cro_decimal_may_be_entered (int64_t micro)
{
  return micro > -CRO_ENTERED_BELOW && micro < CRO_ENTERED_BELOW;
}

/* Exact division of the integer by a million, rounded once to the nearest double. */
static inline double
cro_decimal_to_double (int64_t micro)
{
  return (double) micro / 1e6;
}
