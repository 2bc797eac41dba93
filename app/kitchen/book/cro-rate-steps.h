/* cro-rate-steps.h: what currencies were worth over time.
 *
 * Units  Book currency for one of the other. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

typedef struct _CroRateSteps CroRateSteps;

/* All rates of the book; NULL with error. */
CroRateSteps *cro_rate_steps_new  (CroStore            *store,
                                   GError             **error);
void          cro_rate_steps_free (CroRateSteps        *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroRateSteps, cro_rate_steps_free)

/* The newest on or before a date; 0: there is none. */
double        cro_rate_steps_on   (const CroRateSteps  *self,
                                   const char          *currency,
                                   CroDate              date);

G_END_DECLS
