/* cro-month-entries.h: what a book's records hold of one month.
 *
 * Units      As in the store: money, amounts and numbers sold in millionths.
 * Ownership  Names of what is no thing and no item live as long as the entries. */
#pragma once

#include "cro-book.h"
#include "cro-code.h"
#include "cro-known.h"

G_BEGIN_DECLS

typedef struct
{
  CroDate     date;
  gint64      thing;        /* 0: sold without a plate */
  const char *other;
  gint64      sold;
  gint64      revenue;
  gboolean    has_revenue;
} CroMonthSale;

typedef struct
{
  CroDate     date;
  gint64      item;
  gint64      amount;
  CroUnit     unit;
  const char *place;
  double      value;        /* at the food cost of its day, once it is reckoned … */
  CroKnown    known;        /* … and how much is known of that … */
  gboolean    is_food;      /* … which is of food alone */
} CroMonthCount;

typedef struct
{
  CroDate     date;
  const char *document_date;
  gint64      supplier;     /* 0: none */
  const char *document;
  gint64      ingredient;   /* 0: none */
  const char *category;
  guint       kind;         /* in the order of cro_purchase_kind_codes */
  gboolean    has_amount;
  gint64      amount;
  CroUnit     unit;
  gint64      value;
} CroMonthPurchase;

/* What was bought of an ingredient since it was counted last. */
typedef struct
{
  gint64      money;        /* millionths, those of credits among them */
  gboolean    came;         /* goods did, that may be left */
} CroMonthWasBought;

typedef struct
{
  gint64      id;
  CroDate     date;
  guint       kind;         /* in the order of cro_adjustment_kind_codes */
  gint64      item;         /* 0: none */
  gboolean    has_amount;
  gint64      amount;
  CroUnit     unit;
  gboolean    has_value;
  gint64      value;
  const char *note;
  double      worth;        /* its value, or that of its amount, once it is reckoned … */
  CroKnown    known;        /* … and how much is known of that */
} CroMonthAdjustment;

/* The row of table months of a month; zeros and CRO_NOT_SET where it has none. */
typedef struct
{
  gint64   id;              /* 0: there is none */
  CroDate  first;
  gint64   till_net;
  gint64   till_gross;
  gint64   ledger;
  CroDate  recipes_on;      /* CRO_NO_DAY: not set */
  gint64   closing_stock;
  gint64   estimate;
  gboolean is_closed;
  gboolean is_reopened;     /* it was closed, and is to be closed anew */
  char    *closed_at;       /* UTC, as its texts are in order; NULL */
  char    *hash;
} CroMonthRow;

/* Documents that one month booked of another; first is that of the other one of the two. */
typedef struct
{
  CroDate first;
  gint64  money[CRO_N_PURCHASE_KINDS];
} CroMonthShare;

typedef struct
{
  CroDate       first;
  CroDate       last;       /* of the month */
  CroMonthRow  *row;
  CroMonthRow  *before;     /* of the month before */
  GArray       *sales;      /* CroMonthSale, by date */
  GArray       *opening;    /* CroMonthCount of the last day of the month before */
  GArray       *closing;    /* of the last day */
  /* What may have been there at the opening: of each item that was not counted then how much was counted last at the
   * close of a month, CroMonthCount by date, what was bought of it since as food, by the id of an ingredient
   * CroMonthWasBought *, and what was transferred in since, CroMonthAdjustment by date. None is older than settled, the
   * newest closed month before that counted its stock, of which its questions tell; NULL: there is none. */
  GArray       *was_counted;
  GHashTable   *was_bought;
  GArray       *came_in;
  CroMonthRow  *settled;
  GHashTable   *last_counted; /* id of an item → the day of that count or one at the opening, GINT_TO_POINTER */
  GArray       *counted_after[2]; /* CroMonthCount of the first days after the opening, and after the closing */
  GArray       *purchases;  /* CroMonthPurchase, by date */
  GArray       *before_that;  /* CroMonthPurchase of the closed months right before, by date */
  GArray       *adjustments;  /* CroMonthAdjustment, by date */
  /* Purchases of the closed months right before, by kind, less what was booked when they were closed,
   * estimates among it. What they took off of a month that stands reopened stays taken off until that is
   * closed anew, and what they booked of it is taken off there: over all months each document is booked once. */
  gint64        earlier[CRO_N_PURCHASE_KINDS];
  GArray       *earlier_of; /* CroMonthShare, oldest first: of which months' documents that is … */
  GArray       *later;      /* … and, oldest first, which closed months after it booked what of this one, which is
                             * taken off in earlier. Of a closed month: what of its documents that came since */
  gint64        awaited[CRO_N_PURCHASE_KINDS];  /* of a closed month: less what is so booked, more what it took off as
                                                 * booked when it was closed; documents themselves not among it */
  gint64        taken;      /* what closed months after it took off of this one's estimate; CRO_NOT_SET: none did, and
                             * the month after is not closed */
  GArray       *gone;       /* CroDate: months that were closed, and are not so in the file any more */
  gint64        reversed;   /* what of these estimates is taken off in earlier: of a closed month what it
                             * was closed with */
  GArray       *reversed_of;  /* CroMonthShare of food, oldest first: of which months' estimates that is */
  GStringChunk *texts;
} CroMonthEntries;

/* A stock is counted as late as so many mornings after its day. */
#define CRO_MONTH_MORNINGS 3

/* first: the first day of the month. NULL with error. */
CroMonthEntries *cro_month_entries_new  (CroBook          *book,
                                         CroDate           first,
                                         GError          **error);
void             cro_month_entries_free (CroMonthEntries  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMonthEntries, cro_month_entries_free)

/* All rows of table months, by month. Elements CroMonthRow *, freed with the array. */
GPtrArray       *cro_month_rows_read    (CroBook          *book,
                                         GError          **error);

/* Whether a purchase of that day comes late: its month is closed, and it counts in the first open one. */
gboolean         cro_month_rows_are_late (GPtrArray       *rows,
                                         CroDate           day);

/* That of a month, borrowed; NULL: there is none. */
CroMonthRow     *cro_month_rows_find    (GPtrArray        *rows,
                                         CroDate           first);

/* The first day of the month of a day, and the first day of the month after. */
CroDate          cro_month_first_of     (CroDate           day);
CroDate          cro_month_next         (CroDate           first);

/* The first days of all months in which something is recorded, or that book what came late for the closed month before,
 * newest first: CroDate. NULL with error. */
GArray          *cro_months_list        (CroBook          *book,
                                         GError          **error);

/* Whether it books what came late for closed months, or takes their estimates off. */
gboolean         cro_month_entries_have_late (const CroMonthEntries *self);

/* Whether nothing is recorded in a month, and nothing that came late is booked in it; what was counted before it is
 * not of it. */
gboolean         cro_month_entries_are_empty (const CroMonthEntries *self);

/* Whether a purchase brought goods: a credit of price alone and a return bring none, which nobody is to count. */
gboolean         cro_month_purchase_came (gboolean         has_amount,
                                         gint64            amount,
                                         gint64            value);

/* A sum of more than is ever stored stands at its end rather than turn. */
void             cro_month_add_within   (gint64           *sum,
                                         gint64            number);

/* "2026-10". */
#define CRO_MONTH_CHARS 8

void             cro_month_format       (CroDate           first,
                                         char              text[CRO_MONTH_CHARS]);

G_END_DECLS
