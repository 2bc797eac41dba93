/* cro-line.h: lines as columns, and what each charges.
 *
 * A line takes an amount a of an item into a preparation or a plate. With yield y and recovered
 * part k it charges q = a (1 - k) / y base units of the item, and brings a (1 - k) into the
 * batch: what trimming loses is bought but never reaches the pot.
 *
 * Units      amount in millionths of unit; yield and recovered in millionths of a per cent;
 *            quantities in base units of the item taken.
 * Ownership  Every array is the caller's.
 * Errors     A line that cannot be converted charges 0 and says why in its CroLack. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "cro-unit.h"

/* 100 per cent, in millionths of a per cent. */
#define CRO_WHOLE_PCT INT64_C (100000000)

/* What a line or an amount lacks; a set of bits. */
typedef enum
{
  CRO_LACKS_NOTHING = 0,
  CRO_LACKS_DENSITY = 1 << 0,
  CRO_LACKS_PIECE = 1 << 1,
} CroLack;

/* How amounts of one item are converted. */
typedef struct
{
  double  grams[3];     /* of 1 g, 1 ml, 1 each; 0 where density or piece weight is not set */
  int32_t trim_yield;   /* millionths of a per cent; 0: not set, or the item is an output */
  uint8_t base;         /* CroBase */
  bool    is_bought;    /* an ingredient, whose lines may be weighed trimmed */
  bool    is_food;
} CroMeasure;

/* density in g per ml and piece in g; 0 = not set. */
CroMeasure cro_measure_make    (CroBase  base,
                                double   density,
                                double   piece);

/* Which of the item's missing properties an amount in unit would need to become to. */
CroLack    cro_measure_lacks   (const CroMeasure *measure,
                                CroBase           from,
                                CroBase           to);

typedef struct
{
  size_t    n;
  int32_t  *row;        /* the preparation or plate; negative: the line is gone */
  uint32_t *item;
  int64_t  *position;   /* order within its row, millionths */
  int64_t  *amount;
  int32_t  *yield;      /* the line's own; 0 = not set */
  int32_t  *recovered;
  uint8_t  *unit;       /* CroUnit */
  uint8_t  *whole;      /* weighed as purchased */
} CroLines;

/* The yield that divides line i, in millionths of a per cent. */
static inline int64_t
cro_line_yield (const CroLines   *lines,
                size_t            i,
                const CroMeasure *item)
{
  /* Pieces are counted as purchased: only an own yield divides them. Multiplied and not
   * branched on: which lines are trimmed no processor can guess. */
  int trimmed = !lines->whole[i] & (lines->unit[i] < CRO_UNIT_EACH) & (item->trim_yield != 0);
  int64_t of_item = CRO_WHOLE_PCT + trimmed * (item->trim_yield - CRO_WHOLE_PCT);

  return lines->yield[i] != 0 ? lines->yield[i] : of_item;
}

/* Whether the trim yield of its item divides line i, where the item has one. */
static inline bool
cro_line_is_trimmed (const CroLines *lines,
                     size_t          i)
{
  return !lines->whole[i] && lines->unit[i] < CRO_UNIT_EACH && lines->yield[i] == 0;
}

/* Whether line i is weighed trimmed of an ingredient whose trim yield nobody has given, so
 * that its yield of 1 is an assumption. */
static inline bool
cro_line_is_assumed (const CroLines   *lines,
                     size_t            i,
                     const CroMeasure *item)
{
  return lines->yield[i] == 0 && !lines->whole[i] && item->is_bought && item->trim_yield == 0
         && lines->unit[i] < CRO_UNIT_EACH;
}

/* a (1 - k) in base units of the item; 0 if it cannot be converted. */
double     cro_line_net        (const CroLines   *lines,
                                size_t            i,
                                const CroMeasure *item);

/* q, what is charged. */
double     cro_line_charged    (const CroLines   *lines,
                                size_t            i,
                                const CroMeasure *item);

/* The same of n lines: quantity[i] is what the line slots[i] charges. measures by item. */
void       cro_lines_charged   (const CroLines   *lines,
                                const uint32_t   *slots,
                                size_t            n,
                                const CroMeasure *measures,
                                double           *quantity);

/* a (1 - k) in grams; *lack says what it needs when it cannot be weighed. */
double     cro_line_grams      (const CroLines   *lines,
                                size_t            i,
                                const CroMeasure *item,
                                CroLack          *lack);

CroLack    cro_line_lacks      (const CroLines   *lines,
                                size_t            i,
                                const CroMeasure *item);
