/* cro-model-rest.h: the rows that no figure of the day is made of.
 *
 * Prices before the one in force and after the day, services, yield tests, sales and all that a month
 * is made of are read when somebody asks for them. A book may be a stranger's file, so that they are
 * looked at when it is opened: whoever reads them later meets nothing that no book can hold. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

/* After the model's own rows were taken. DAMAGED names the row's table. Texts are looked at where they
 * are read. */
gboolean cro_model_check_rest (CroModel   *self,
                               CroStore   *store,
                               GError    **error);

G_END_DECLS
