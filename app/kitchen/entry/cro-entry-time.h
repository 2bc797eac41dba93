/* cro-entry-time.h: what a field for time at work, for days or for covers accepts.
 *
 * Units      Minutes, days and covers in millionths; entry as in cro-entry.h.
 * Source     The words for hours, minutes, days, weeks and covers, in English and French whatever the locale, are
 *            common practice, no source. */
#pragma once

#include "cro-entry.h"

G_BEGIN_DECLS

/* At least 0 minutes: "70", "70 min", "1 h 10", "1h10", "1:10", "1.5 h". */
gboolean cro_entry_minutes (const char *text,
                            CroEntry   *entry);

/* At least 0 days: "30", "30 days", "4 weeks". */
gboolean cro_entry_days    (const char *text,
                            CroEntry   *entry);

/* "26", "26 covers", "22 couverts". */
gboolean cro_entry_covers  (const char *text,
                            CroRange    range,
                            CroEntry   *entry);

/* The word for covers that begins text, with space before it; its bytes, 0 if there is none. */
gsize    cro_entry_scan_covers (const char *text);

G_END_DECLS
