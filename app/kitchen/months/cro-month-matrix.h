/* cro-month-matrix.h: the plates of a month, and its menus apart, by how often they were sold and what
 * one of them left (cro-matrix.h). */
#pragma once

#include "cro-matrix.h"
#include "cro-month.h"

G_BEGIN_DECLS

typedef struct
{
  const CroMonthThing *thing;
  double               share_pct;     /* of all of its kind that were sold */
  double               contribution;  /* of one: net sales less food */
  CroKnown             known;         /* of contribution */
  gboolean             is_popular;
  gboolean             earns;
  gboolean             is_open;       /* what is not known may put it in another class */
} CroMonthMatrixRow;

typedef struct
{
  CroMatrixLimits limits;
  double          limit_pct;    /* of all sold, from which on one is popular */
  CroKnown        known;        /* of the mean that is the limit of contributions */
  GArray         *rows;         /* CroMonthMatrixRow, what leaves most in all first */
  GPtrArray      *left_out;     /* CroMonthThing of the kind that have no class: void, or without net sales */
} CroMonthMatrix;

/* Of what has net sales of its own and was sold more often than it was voided. The month must outlive
 * it. */
CroMonthMatrix *cro_month_matrix_new   (const CroMonth    *month,
                                        CroMonthThingKind  kind);
void            cro_month_matrix_free  (CroMonthMatrix    *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMonthMatrix, cro_month_matrix_free)

/* "sells and earns". Borrowed. */
const char     *cro_month_matrix_words (const CroMonthMatrixRow *row);

/* The same, and the published name, with the mark of what is not certain: "? sells and earns". Owned. */
char           *cro_month_matrix_marked (const CroMonthMatrixRow *row,
                                        const char              *words);

/* The published name of its class (Kasavana and Smith, 1982). */
const char     *cro_month_matrix_class (const CroMonthMatrixRow *row);

G_END_DECLS
