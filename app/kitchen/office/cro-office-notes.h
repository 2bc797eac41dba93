/* cro-office-notes.h: what the office's spreadsheet says beside figures. Texts are borrowed and
 * live for ever, NULL where there is nothing to say, unless a name has dup_. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

const char *cro_office_ingredient_note (CroFigures          *figures,
                                        guint32              slot);
const char *cro_office_offer_state     (const CroOfferEntry *entry,
                                        unsigned             lacks,
                                        gboolean             is_in_use);
const char *cro_office_line_note       (CroFigures          *figures,
                                        guint32              line);

/* The groups of what stands below, and whether some of it is not known. */
char       *cro_office_dup_allergens   (guint64              bits,
                                        gboolean             is_ingredient);

G_END_DECLS
