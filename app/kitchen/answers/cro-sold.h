/* cro-sold.h: how often plates and menus were sold lately.
 *
 * Units  Millionths of one plate or menu. What was sold below 0 was rung up by mistake and is taken
 *        off. Days end with the newest sale on or before the date of the figures: a book that is
 *        typed up once a week does not lose its last days. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

#define CRO_SOLD_DAYS 28

typedef struct
{
  gint64 id;
  gint64 sold;
} CroSold;

/* The newest sale of anything on or before the date of the figures; G_MININT32: there is none. FALSE with error. */
gboolean    cro_sold_last   (CroBook  *book,
                             CroDate  *last,
                             GError  **error);

/* id of a plate or a menu → CroSold, of what has a sale in those days. *last, which may be NULL: the last of
 * them, G_MININT32 where nothing was ever sold. Owned; NULL with error. */
GHashTable *cro_sold_lately (CroBook  *book,
                             guint     days,
                             CroDate  *last,
                             GError  **error);

G_END_DECLS
