/* cro-month-booked.h: what the closed months around a month have booked of purchases, and what came late for them.
 *
 * Units      As in the store: money in millionths.
 * Ownership  The entries outlive it. */
#pragma once

#include "cro-month-entries.h"

G_BEGIN_DECLS

typedef struct CroMonthBooked CroMonthBooked;

/* Of the closed months right before that of entries, and of an open one those right after, as far as closing froze
 * them: nothing was booked of one that only a table called closed, and nothing comes late for it. rows: of table
 * months. NULL with error. */
CroMonthBooked *cro_month_booked_new    (CroBook          *book,
                                         CroMonthEntries  *entries,
                                         GPtrArray        *rows,
                                         GError          **error);
void            cro_month_booked_free   (CroMonthBooked   *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMonthBooked, cro_month_booked_free)

/* Whether a day is of one of these months; a purchase of such a day. */
gboolean        cro_month_booked_is_of  (CroMonthBooked   *self,
                                         CroDate           day);
void            cro_month_booked_add    (CroMonthBooked   *self,
                                         CroDate           day,
                                         guint             kind,
                                         gint64            value);

/* Once all are added: earlier, earlier_of and later of the entries. */
void            cro_month_booked_settle (CroMonthBooked   *self);

/* Whether a frozen row of that kind and name says what was booked of purchases, estimates among it. */
gboolean        cro_month_row_is_booked (const char       *kind,
                                         const char       *name);

G_END_DECLS
