/* cro-workbook-style.h: how cells look. What may be changed is dark blue above a dotted line, so
 * that it shows in colour and in black and white alike; nothing is said by colour alone. */
#pragma once

#include <xlsxwriter.h>

#include "cro-workbook.h"

G_BEGIN_DECLS

/* How many styles stand in a row that differ in their decimals alone. */
#define CRO_N_DECIMALS 6

typedef enum
{
  CRO_STYLE_TITLE,
  CRO_STYLE_ABOUT,
  CRO_STYLE_HEAD,
  CRO_STYLE_TEXT,
  CRO_STYLE_BOLD,
  CRO_STYLE_INDENT,
  CRO_STYLE_NOTE,
  CRO_STYLE_LINK,
  CRO_STYLE_LINK_INDENT,
  CRO_STYLE_BLOCK,             /* the head of a batch or an ingredient */
  CRO_STYLE_BLOCK_NOTE,
  CRO_STYLE_BLOCK_SPILL,       /* the same, over the empty cells beside it */
  CRO_STYLE_BLOCK_LINK,        /* likewise */
  CRO_STYLE_BLOCK_FINE,
  CRO_STYLE_BLOCK_FINE_UNKNOWN,
  CRO_STYLE_BLOCK_PRICE,       /* the first of some: one decimal more than money in each */
  CRO_STYLE_BLOCK_PRICE_LAST = CRO_STYLE_BLOCK_PRICE + CRO_N_DECIMALS - 1,
  CRO_STYLE_BLOCK_PRICE_UNKNOWN,
  CRO_STYLE_BLOCK_PRICE_UNKNOWN_LAST = CRO_STYLE_BLOCK_PRICE_UNKNOWN + CRO_N_DECIMALS - 1,
  CRO_STYLE_SENTENCE,          /* a wide cell of running text */
  CRO_STYLE_INPUT,
  CRO_STYLE_INPUT_TEXT,
  CRO_STYLE_INPUT_PCT,
  CRO_STYLE_INPUT_MONEY,
  CRO_STYLE_BLOCK_INPUT,
  CRO_STYLE_BLOCK_PCT,
  CRO_STYLE_GENERAL,
  CRO_STYLE_GENERAL_UNKNOWN,   /* 0: nothing is known, which is no 0; as all that are called so */
  CRO_STYLE_COUNT,
  CRO_STYLE_LACK,              /* a count of which 0 is not shown */
  CRO_STYLE_QUANTITY,
  CRO_STYLE_QUANTITY_UNKNOWN,
  CRO_STYLE_QUANTITY_AT_LEAST,
  CRO_STYLE_QUANTITY_INCOMPLETE,
  CRO_STYLE_MONEY,
  CRO_STYLE_MONEY_AT_LEAST,
  CRO_STYLE_MONEY_INCOMPLETE,
  CRO_STYLE_MONEY_AT_MOST,
  CRO_STYLE_MONEY_NONE,        /* 0: there is none */
  CRO_STYLE_MONEY_UNKNOWN,
  CRO_STYLE_NOT_KNOWN,         /* “?”, whatever a sum takes of it */
  CRO_STYLE_SHARE,
  CRO_STYLE_FINE,              /* money for one base unit */
  CRO_STYLE_FINE_AT_LEAST,
  CRO_STYLE_FINE_INCOMPLETE,
  CRO_STYLE_FINE_UNKNOWN,
  CRO_STYLE_PCT,               /* the first of some: one decimal, and one more in each */
  CRO_STYLE_PCT_LAST = CRO_STYLE_PCT + CRO_N_DECIMALS - 1,
  CRO_STYLE_PCT_AT_LEAST,
  CRO_STYLE_PCT_AT_LEAST_LAST = CRO_STYLE_PCT_AT_LEAST + CRO_N_DECIMALS - 1,
  CRO_STYLE_PCT_INCOMPLETE,
  CRO_STYLE_PCT_INCOMPLETE_LAST = CRO_STYLE_PCT_INCOMPLETE + CRO_N_DECIMALS - 1,
  CRO_STYLE_PCT_AT_MOST,
  CRO_STYLE_PCT_AT_MOST_LAST = CRO_STYLE_PCT_AT_MOST + CRO_N_DECIMALS - 1,
  CRO_STYLE_PCT_UNKNOWN,
  CRO_STYLE_PCT_UNKNOWN_LEFT,  /* of what is left: all of it where nothing is known */
  CRO_STYLE_PCT_LEFT_AT_MOST,  /* the first of some, likewise */
  CRO_STYLE_PCT_LEFT_AT_MOST_LAST = CRO_STYLE_PCT_LEFT_AT_MOST + CRO_N_DECIMALS - 1,
  CRO_STYLE_PCT_LEFT_INCOMPLETE,
  CRO_STYLE_PCT_LEFT_INCOMPLETE_LAST = CRO_STYLE_PCT_LEFT_INCOMPLETE + CRO_N_DECIMALS - 1,
  CRO_STYLE_COEFFICIENT,       /* the first of some: two decimals, and one more in each */
  CRO_STYLE_COEFFICIENT_LAST = CRO_STYLE_COEFFICIENT + CRO_N_DECIMALS - 1,
  CRO_STYLE_COEFFICIENT_AT_MOST,
  CRO_STYLE_COEFFICIENT_AT_MOST_LAST = CRO_STYLE_COEFFICIENT_AT_MOST + CRO_N_DECIMALS - 1,
  CRO_STYLE_COEFFICIENT_INCOMPLETE,
  CRO_STYLE_COEFFICIENT_INCOMPLETE_LAST = CRO_STYLE_COEFFICIENT_INCOMPLETE + CRO_N_DECIMALS - 1,
  CRO_STYLE_PCT_EXACT,         /* with all decimals of what was entered */
  CRO_STYLE_PCT_NONE,          /* likewise; 0: there is none */
  CRO_STYLE_DATE,
  CRO_STYLE_TOTAL,
  CRO_STYLE_TOTAL_MONEY,
  CRO_STYLE_TOTAL_AT_LEAST,
  CRO_STYLE_TOTAL_INCOMPLETE,
  CRO_STYLE_TOTAL_QUANTITY,
  CRO_N_STYLES,
} CroStyle;

/* A percentage that is none is not shown as 0: it has more decimals than its style, as far as they show it. */
CroStyle cro_workbook_shown_style (CroStyle                 style,
                               double                   value);

/* Makes all of them in book; borrowed from it. NULL is the plain one. */
void cro_workbook_make_styles (lxw_workbook            *book,
                               const CroWorkbookSource *source,
                               const char *const       *texts,
                               lxw_format              *styles[CRO_N_STYLES]);

G_END_DECLS
