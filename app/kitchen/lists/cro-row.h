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

/* What a row that is a heading says of its group. */
typedef struct
{
  const char *name;       /* its course; NULL: menus, or plates without one */
  guint       n;
  gboolean    is_folded;
} CroRowHeading;

/* Properties: "kind" and "slot" (uint), "name" and "course" (string, may be NULL), "cost",
 * "food-cost-pct" and "target-pct" (double, see cro-kind.h), "trim-yield-pct" (double, NaN: not
 * set), "price-from" (int, a CroDate or CRO_NO_DATE), "incomplete" and "used" (boolean). */
CroRow  *cro_row_new      (CroBook *book,
                           CroKind  kind,
                           guint32  slot);

/* A heading; the name is copied. slot: any that no other row has. Such a row has no property but
 * "kind", "slot" and "name", and tells of a change as others do. */
CroRow  *cro_row_new_heading (CroBook             *book,
                              CroKind              kind,
                              guint32              slot,
                              const CroRowHeading *heading);

/* Says something else of the same group, and notifies if it is something else. */
void     cro_row_set_heading (CroRow              *self,
                              const CroRowHeading *heading);

/* NULL: the row is no heading. Borrowed. */
const CroRowHeading *cro_row_get_heading (CroRow  *self);

CroKind  cro_row_get_kind (CroRow  *self);
guint32  cro_row_get_slot (CroRow  *self);

/* Tells whoever shows it that what it shows may have moved; or only where anything has that a key moves,
 * since it was told last. */
void     cro_row_notify       (CroRow  *self);
void     cro_row_notify_moved (CroRow  *self);

G_END_DECLS
