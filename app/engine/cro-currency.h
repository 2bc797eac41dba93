/* cro-currency.h: the currencies of ISO 4217 and the digits of their minor units.
 *
 * Source     ISO 4217 List One of 2024-06-25, and XCG, which Amendment 176 puts in the place of
 *            ANG from 2025 (from memory). Codes that were taken out since stay: books have prices
 *            of years ago. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

/* Whether the standard has the code. *digits: of its minor unit, -1 where it has none (gold). */
bool cro_currency_find (const char *code,
                        size_t      length,
                        int        *digits);

/* The currencies that have a minor unit, in no order, from 0 on: false behind the last. */
bool cro_currency_list (size_t      index,
                        char        code[4]);
