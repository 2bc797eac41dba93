/* cro-count-list.h: what is to be counted on a day, by place and then as the larder has it.
 *
 * It lists what was counted on that day, disposables too, and what should be: food and made things counted when
 * the month before it ended, and food bought or transferred in since. Something that stood in two places is to be
 * counted in both. 0 is a count; what was not counted is a question of the month (costing.md, section 11).
 *
 * Units      Amounts in millionths of their unit.
 * Ownership  A list owns its texts. */
#pragma once

#include "cro-month-entries.h"

G_BEGIN_DECLS

typedef struct
{
  gint64      id;           /* of its row in table counts; 0: not counted */
  guint32     item;
  const char *place;        /* NULL: none was said */
  gint64      amount;       /* CRO_NOT_SET: not counted */
  CroUnit     unit;         /* counted in, or the one to count in */
  gint64      last;         /* counted when the month before ended; CRO_NOT_SET */
  CroUnit     last_unit;
  double      worth;        /* of what was there or came since, at today's cost; NaN: not known */
} CroCountLine;

typedef struct
{
  CroDate       day;
  GArray       *lines;      /* CroCountLine */
  guint         n_items;
  guint         n_counted;  /* of them, wherever they stood */
  GStringChunk *texts;
} CroCountList;

typedef enum
{
  CRO_COUNT_BY_PLACE,       /* then by category and name */
  CRO_COUNT_BY_WORTH,       /* what is worth most first */
} CroCountOrder;

/* day: the last of a month. NULL with error. */
CroCountList *cro_count_list_new  (CroBook        *book,
                                   CroDate         day,
                                   CroCountOrder   order,
                                   GError        **error);
void          cro_count_list_free (CroCountList   *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroCountList, cro_count_list_free)

/* Lines that are not counted and were when the month before ended; and those counts as counts of this day too,
 * as one act. FALSE with error: nothing was changed. */
guint         cro_count_list_n_last (const CroCountList *self);
gboolean      cro_count_list_take_last (const CroCountList *self,
                                   CroBook        *book,
                                   const char     *label,
                                   GError        **error);

G_END_DECLS
