/* cro-row.h: one row of a list, made when it is looked at.
 *
 * Ownership  A row holds the book. Its properties are read from the book's figures each time;
 *            "notify" follows when the list it came from sees the figures move. */
#pragma once

#include "cro-book.h"
#include "cro-kind.h"

G_BEGIN_DECLS

#define CRO_TYPE_ROW (cro_row_get_type ())
G_DECLARE_FINAL_TYPE (CroRow, cro_row, CRO, ROW, GObject)

/* Properties: "kind" and "slot" (uint), "name" and "course" (string, may be NULL), "cost",
 * "food-cost-pct" and "target-pct" (double, see cro-kind.h), "trim-yield-pct" (double, NaN: not
 * set), "price-from" (int, a CroDate or CRO_NO_DATE), "incomplete" and "used" (boolean). */
CroRow  *cro_row_new      (CroBook *book,
                           CroKind  kind,
                           guint32  slot);

CroKind  cro_row_get_kind (CroRow  *self);
guint32  cro_row_get_slot (CroRow  *self);

/* Tells whoever shows it that what it shows may have moved. */
void     cro_row_notify   (CroRow  *self);

G_END_DECLS
