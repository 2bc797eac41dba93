/* cro-groups.h: rows of a list under headings that fold.
 *
 * A list keeps an array of what it shows; here headings are put among them, and what is folded
 * is left out. A heading is CRO_HEADING and the number of its group, which it keeps for good.
 *
 * Ownership  Names are copied. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define CRO_HEADING (1u << 31)

/* Groups of a lower rank stand before others, and among equals in the order of their names. */
typedef struct
{
  guint       rank;
  const char *name;     /* NULL: the rank is all there is to say */
} CroGroup;

/* What group of rows a row belongs to. Borrowed until the next call. */
typedef CroGroup (*CroGroupOf) (gpointer rows,
                                guint32  row);

typedef struct _CroGroups CroGroups;

/* Groups are folded when they are first seen, or are not. */
CroGroups *cro_groups_new       (gboolean        are_folded);
void       cro_groups_free      (CroGroups      *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroGroups, cro_groups_free)

/* Rows, in their order within each group, under headings. Owned. */
GArray    *cro_groups_lay_out   (CroGroups      *self,
                                 const GArray   *rows,
                                 CroGroupOf      of,
                                 gpointer        of_rows);

/* How many groups the last rows had. */
guint      cro_groups_get_n     (CroGroups      *self);

/* Of a heading. */
CroGroup   cro_groups_get       (CroGroups      *self,
                                 guint32         heading);
guint      cro_groups_get_n_rows (CroGroups     *self,
                                 guint32         heading);
gboolean   cro_groups_is_folded (CroGroups      *self,
                                 guint32         heading);
void       cro_groups_fold      (CroGroups      *self,
                                 guint32         heading,
                                 gboolean        is_folded);

/* The heading of a group, whether it was seen before or not. */
guint32    cro_groups_find      (CroGroups      *self,
                                 CroGroup        group);

G_END_DECLS
