/* cro-price-note.h: whether the prices of a list hold on a day by what it says of them.
 *
 * Words are of English and French; common practice, no source. */
#pragma once

#include "cro-date.h"

#include <glib.h>

G_BEGIN_DECLS

/* Whether a note may mean that the prices of a list do not hold on a day: by it they hold from a later one, until an
 * earlier one, or in another week or month, or are old ones, a draft or an estimate. What it says of orders and
 * deliveries is none of that. also: as of cro_price_saying_of (). */
gboolean cro_price_note_is_of_other_day (const char *note,
                                         const char *also,
                                         CroDate     day);

/* Whether what says when a message was written, "24/03/2025, 06:12", may be far from a day, or is none that a calendar
 * has. Prices are posted from the Monday of a week that are written later in it. */
gboolean cro_price_stamp_is_of_other_day (const char *stamp,
                                          CroDate     day);

G_END_DECLS
