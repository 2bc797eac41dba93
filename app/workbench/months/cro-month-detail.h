/* cro-month-detail.h: the records of a month that a figure is made of, in the page: documents, counts,
 * sales; of one name, or all of them. */
#pragma once

#include "cro-bench.h"
#include "cro-month.h"
#include "cro-records.h"

G_BEGIN_DECLS

/* The rows of kinds (n of them) in a month that contain a name; NULL: all. */
GtkWidget *cro_month_detail_new (CroBench             *bench,
                                 CroDate               first,
                                 const CroRecordsKind *kinds,
                                 guint                 n,
                                 const char           *name);

G_END_DECLS
