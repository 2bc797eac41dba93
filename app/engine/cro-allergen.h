/* cro-allergen.h: the fourteen groups of Regulation (EU) No 1169/2011 Annex II, in its order.
 *
 * Units      A set is a mask with bit i for group i; 0 is "none". "Nobody has said" is not a
 *            set: whoever stores one keeps CRO_ALLERGENS_NOT_KNOWN apart from 0. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define CRO_N_ALLERGENS 14
#define CRO_ALLERGENS_ALL ((UINT32_C (1) << CRO_N_ALLERGENS) - 1)
#define CRO_ALLERGENS_NOT_KNOWN (UINT32_C (1) << CRO_N_ALLERGENS)

/* All codes separated by spaces, and NUL. */
#define CRO_ALLERGENS_CHARS 128

/* Borrowed, static. */
const char *cro_allergen_code    (int index);

/* Reads codes separated by spaces, or "none". On a code that is none of the fourteen returns
 * false and points *bad and *bad_length at it; where there is no code at all, at the text. */
bool        cro_allergens_parse  (const char  *text,
                                  size_t       length,
                                  uint32_t    *mask,
                                  const char **bad,
                                  size_t      *bad_length);

/* Codes in the order of the Annex, or "none". */
void        cro_allergens_format (uint32_t mask,
                                  char     text[CRO_ALLERGENS_CHARS]);
