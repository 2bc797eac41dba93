/* cro-date.h: calendar days of the proleptic Gregorian calendar (ISO 8601).
 *
 * Units      A date is a count of days since 1970-01-01, in the years CRO_FIRST_YEAR to CRO_LAST_YEAR. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef int32_t CroDate;

/* As a date writes them, and as sentences tell them. */
#define CRO_FIRST_YEAR "0001"
#define CRO_LAST_YEAR "9999"

/* "YYYY-MM-DD" and NUL. */
#define CRO_DATE_CHARS 11

CroDate cro_date_from_civil (int year,
                             int month,
                             int day);

void    cro_date_to_civil   (CroDate date,
                             int    *year,
                             int    *month,
                             int    *day);

/* Reads YYYY-MM-DD over the whole of length bytes; false if it is no day of the calendar. */
bool    cro_date_parse      (const char *text,
                             size_t      length,
                             CroDate    *date);

void    cro_date_format     (CroDate date,
                             char    text[CRO_DATE_CHARS]);

/* When a file of that day says that it was made: seconds from 1970 to its first, so that a file made again is the same
 * file. */
int64_t cro_date_to_seconds (CroDate date);

/* Reads YYYY-MM as the first day of that month. */
bool    cro_month_parse     (const char *text,
                             size_t      length,
                             CroDate    *first_day);
