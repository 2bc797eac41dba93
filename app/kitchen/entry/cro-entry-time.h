/* cro-entry-time.h: what a field for time at work, or for days, accepts.
 *
 * Units      Minutes and days in millionths; entry as in cro-entry.h.
 * Source     The words for hours, minutes, days and weeks are common practice, no source. */
#pragma once

#include "cro-entry.h"

G_BEGIN_DECLS

/* At least 0 minutes: "70", "70 min", "1 h 10", "1h10", "1:10", "1.5 h". */
gboolean cro_entry_minutes (const char *text,
                            CroEntry   *entry);

/* At least 0 days: "30", "30 days", "4 weeks". */
gboolean cro_entry_days    (const char *text,
                            CroEntry   *entry);

G_END_DECLS
