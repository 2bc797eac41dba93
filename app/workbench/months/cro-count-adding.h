/* cro-count-adding.h: stock that no list asked for: an amount and a name, and where it is.
 *
 * Ownership  It borrows its bench, which holds it. Texts returned are the caller's. */
#pragma once

#include "cro-bench.h"
#include "cro-month-edit.h"

G_BEGIN_DECLS

#define CRO_TYPE_COUNT_ADDING (cro_count_adding_get_type ())
G_DECLARE_FINAL_TYPE (CroCountAdding, cro_count_adding, CRO, COUNT_ADDING, GtkWidget)

/* day: of the count. */
GtkWidget *cro_count_adding_new   (CroBench             *bench,
                                   CroDate               day);

/* One count as an act, and its label. */
gboolean   cro_count_put          (CroBook              *book,
                                   const CroCountEntry  *entry,
                                   GError              **error);
char      *cro_count_dup_label    (CroBook              *book,
                                   guint32               item,
                                   CroDate               day);

/* "0.67 kg"; "" where it is CRO_NOT_SET. */
char      *cro_count_dup_amount   (gint64                amount,
                                   CroUnit               unit);

G_END_DECLS
