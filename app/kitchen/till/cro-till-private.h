/* cro-till-private.h: the rows of a till as they were read. */
#pragma once

#include "cro-column.h"
#include "cro-till.h"

G_BEGIN_DECLS

typedef struct
{
  guint    name;            /* among names */
  CroDate  day;
  gint64   sold;
  gboolean has_sold;
  gint64   revenue;         /* as it stands there; CRO_NOT_SET */
} CroTillRow;

G_END_DECLS
