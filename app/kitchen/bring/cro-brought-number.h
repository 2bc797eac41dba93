/* cro-brought-number.h: a number as it stands in a cell, and what the signs in it can mean: "1,250" is a
 * decimal in one sheet and twelve hundred in another.
 *
 * Of cro-brought.c alone.
 *
 * Token  Digits and signs of one number; what stands between them as a space does is ' '. */
#pragma once

#include "cro-spreadsheet.h"

G_BEGIN_DECLS

/* Bits: a sign that can only be decimal, or one that can only group; or one that could be either. */
typedef enum
{
  CRO_SIGN_POINT_DECIMAL = 1 << 0,
  CRO_SIGN_COMMA_DECIMAL = 1 << 1,
  CRO_SIGN_POINT_GROUPS = 1 << 2,
  CRO_SIGN_COMMA_GROUPS = 1 << 3,
  CRO_SIGN_EITHER = 1 << 4,
} CroSign;

/* Behind spaces, and of money behind signs and codes of currencies. Borrowed. */
const char *cro_token_skip          (const char        *text,
                                     gboolean           is_money);

/* The number that begins text into token; where it ends. Borrowed. */
const char *cro_token_scan          (const char        *text,
                                     GString           *token);

guint       cro_token_signs         (const char        *token);

/* Of what begins a cell; 0 where that is no text. */
guint       cro_token_signs_of_cell (const CroReadCell *cell);

/* The decimal sign that bits tell of; '\0': they say nothing, or say both. */
char        cro_token_decimal       (guint              signs);

/* Digits with a point, behind what number holds. FALSE: it is no number. */
gboolean    cro_token_take          (const char        *token,
                                     char               decimal,
                                     GString           *number);

/* Millionths. FALSE: too large, or 0 that was none. */
gboolean    cro_token_read          (const GString     *number,
                                     gint64            *micro);

G_END_DECLS
