/* cro-check.h: whether a book's file is whole and its figures keep what the model promises. */
#pragma once

#include "cro-book.h"
#include "cro-finding.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_CHECK_FILE,          /* SQLite's integrity and reference checks */
  CRO_CHECK_NAMES,         /* a name that nothing bears, or something without one */
  CRO_CHECK_MAIN_OUTPUT,   /* each preparation has exactly one */
  CRO_CHECK_MONEY,         /* sum (Q (1 - l) u) of a batch is its cost, in every layer */
  CRO_CHECK_ATTRIBUTION,   /* ingredients and assigned values add up to a plate's cost */
  CRO_CHECK_EFFECT,        /* effects summed over a book equal its costs */
  CRO_CHECK_CEILING,       /* at the ceiling the target is met */
  CRO_CHECK_RECOMPUTED,    /* what is recomputed equals a full sweep in every bit */
  CRO_CHECK_CLOSED,        /* rows of a closed month are those that closing froze */
  CRO_N_CHECKS,
} CroCheckKind;

/* Told of each thing that is not as it must be; what names it, NULL: it is of the whole book. */
typedef void (*CroCheckFound) (CroCheckKind  kind,
                               const char   *what,
                               gpointer      user_data);

typedef struct
{
  guint64     tried[CRO_N_CHECKS];     /* things looked at, by kind */
  guint64     found[CRO_N_CHECKS];
  guint64     passed[CRO_N_CHECKS];    /* not looked at, as what they cost is beyond what can be added up */
  const char *too_large;               /* where costs begin to be too large to show; NULL: nowhere. The book's own */
  guint       n_more_too_large;
} CroCheckReport;

/* The file alone; for what is too damaged to load, or by a stranger (CRO_STORE_INSPECT). */
gboolean cro_check_file  (CroStore        *store,
                          CroFindingTold   told,
                          gpointer         user_data,
                          CroCheckReport  *report,
                          GError         **error);

void     cro_check_model (CroBook         *book,
                          CroCheckFound    found,
                          gpointer         user_data,
                          CroCheckReport  *report);

gboolean cro_check_months (CroStore       *store,
                          CroCheckFound    found,
                          gpointer         user_data,
                          CroCheckReport  *report,
                          GError         **error);

G_END_DECLS
