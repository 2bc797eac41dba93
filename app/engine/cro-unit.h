/* cro-unit.h: the units that amounts are written in, and their exact factors.
 *
 * Units      An item is costed in one base unit: gram, millilitre or each.
 * Source     lb and oz: NIST Handbook 44 App. C, NIST SP 811 App. B.8 (the avoirdupois pound is
 *            0.45359237 kg). US volumes: the gallon is 231 cubic inches (SP 811 B.8). Imperial
 *            volumes: Weights and Measures Act 1985 Sch. 1 (the gallon is 4.54609 l).
 *            tsp and tbsp are the metric 5 and 15 ml, metric-cup 250 ml. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef enum
{
  CRO_BASE_GRAM,
  CRO_BASE_MILLILITRE,
  CRO_BASE_EACH,
} CroBase;

/* In the order in which tables list them. */
typedef enum
{
  CRO_UNIT_MG,
  CRO_UNIT_G,
  CRO_UNIT_KG,
  CRO_UNIT_OZ,
  CRO_UNIT_LB,
  CRO_UNIT_ML,
  CRO_UNIT_CL,
  CRO_UNIT_DL,
  CRO_UNIT_L,
  CRO_UNIT_TSP,
  CRO_UNIT_TBSP,
  CRO_UNIT_METRIC_CUP,
  CRO_UNIT_US_TSP,
  CRO_UNIT_US_TBSP,
  CRO_UNIT_US_FL_OZ,
  CRO_UNIT_US_CUP,
  CRO_UNIT_US_PT,
  CRO_UNIT_US_QT,
  CRO_UNIT_US_GAL,
  CRO_UNIT_IMP_FL_OZ,
  CRO_UNIT_IMP_PT,
  CRO_UNIT_IMP_QT,
  CRO_UNIT_IMP_GAL,
  CRO_UNIT_EACH,
  CRO_UNIT_DOZEN,
  CRO_N_UNITS,
} CroUnit;

typedef struct
{
  const char *code;
  CroBase     base;
  int64_t     numerator;   /* one unit is numerator / denominator base units, exactly */
  int64_t     denominator;
  double      per_micro;   /* base units in a millionth of one, rounded once */
} CroUnitInfo;

extern const CroUnitInfo cro_units[CRO_N_UNITS];

/* Borrowed, static. */
static inline const CroUnitInfo *
cro_unit_get (CroUnit unit)
{
  return &cro_units[unit];
}

bool               cro_unit_parse (const char *code,
                                   size_t      length,
                                   CroUnit    *unit);

/* The unit in which the base itself is written: g, ml, each. */
CroUnit            cro_base_unit  (CroBase base);

/* Base units in one unit, rounded once to the nearest double. */
double             cro_unit_factor (CroUnit unit);
