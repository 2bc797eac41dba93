/* cro-month.h: the statement of a month (costing.md, section 11).
 *
 *   theoretical = sum (sold x guest)
 *   actual = opening + food purchases + transfers in - closing - staff meals - promotions
 *            - transfers out - others
 *   over = actual - theoretical, of which known waste explains its part
 *
 * The order of deductions is that of Dittmer & Keefe, Principles of Food, Beverage, and Labor Cost
 * Controls, 9th edition, chapter 8; stock at the cost of the day of its count stands for first in,
 * first out, as an assumption (IAS 2, paragraph 25).
 *
 * Units      Money of the book, unrounded; quantities in base units. Figures that do not exist are NaN.
 * Ownership  A month owns all it holds and needs its book no longer.
 * Errors     Those of the store. */
#pragma once

#include "cro-known.h"
#include "cro-month-entries.h"
#include "cro-month-question.h"

G_BEGIN_DECLS

/* In the order of cro_sale_kind_codes. */
typedef enum
{
  CRO_MONTH_PLATE,
  CRO_MONTH_MENU,
  CRO_MONTH_OTHER,
} CroMonthThingKind;

/* What one sold took of something, on average of what was sold (of its days where that is 0). */
typedef struct
{
  const char *name;
  guint       kind;           /* in the order of cro_frozen_part_codes */
  CroBase     base;
  double      quantity;       /* base units of one sold */
  double      unit_cost;      /* or the assigned value */
} CroMonthPart;

typedef struct
{
  gint64            id;       /* 0: sold without a plate, or of a closed month */
  const char       *name;
  CroMonthThingKind kind;
  const char       *course;   /* NULL: none */
  double            sold;
  double            net_revenue;    /* what is known of it */
  gboolean          lacks_revenue;
  CroKnown          known_revenue;  /* as a part of a sum: a void without a price leaves less */
  double            theoretical;    /* food; NaN of kind other */
  gboolean          is_incomplete;  /* theoretical is what is known of it */
  gboolean          has_credit;     /* and no lower bound, as of a void */
  double            price;          /* the last day's, with tax; NaN without one */
  GArray           *parts;    /* CroMonthPart; NULL of an open month unless they were asked for */
} CroMonthThing;

typedef struct
{
  gint64      id;
  const char *name;
  const char *category;       /* NULL: none */
  CroBase     base;
  double      theoretical_quantity;
  double      theoretical_cost;
  /* Bought and counted; NaN where one of it is not known. */
  double      actual_quantity;
  double      actual_cost;
  double      bought;             /* money of it in purchases; 0 where it is not measured */
  double      price_variance;     /* AQ (AP - SP) */
  double      usage_variance;     /* (AQ - SQ) SP */
  double      bought_variance;    /* the price variance on what was bought (checks.md V4) */
  double      counted_quantity;   /* in the closing stock, what is made of it too … */
  double      counted_value;      /* … and its money there */
  double      average_cost;       /* of one base unit: weighted average of what was there and bought */
  CroKnown    known_theoretical;  /* of the theoretical quantity and cost … */
  CroKnown    known_actual;       /* … of the actual ones … */
  CroKnown    known_stock;        /* … and of what is counted, at each of its values that it has */
} CroMonthItem;

typedef struct
{
  const char *name;
  CroBase     base;
  double      quantity;
  double      value;
  double      cost;
} CroMonthByProduct;

/* A count, a purchase or an adjustment, as it was entered. */
typedef struct
{
  guint       number;         /* from 1, of its kind */
  const char *name;           /* of its item; NULL: none */
  CroDate     day;            /* of a purchase that of its delivery */
  guint       kind;           /* of a purchase, of an adjustment: in the order of their codes */
  gboolean    has_amount;
  gint64      amount;         /* millionths of unit */
  CroUnit     unit;
  double      money;          /* what was entered, else what the amount was worth that day … */
  CroKnown    known;          /* … and how much is known of that */
  const char *supplier, *document, *document_date, *category;  /* of a purchase; NULL: none */
  const char *note;           /* of a count its place; NULL: none */
} CroMonthRecord;

/* Documents of another month, or booked by it. */
typedef struct
{
  CroDate first;
  double  money;
} CroMonthOf;

typedef struct
{
  CroDate       first;
  gboolean      is_closed;
  const char   *hash;             /* of a closed one */
  CroDate       altered;          /* the month, this one, the one whose stock it opens with or one of which documents
                                   * came late, of which the rows are not those that closing froze; CRO_NO_DAY: none */
  gboolean      is_gone;          /* that one was closed, and is not so in the file any more */
  CroDate       recipes_on;
  const char   *currency;         /* NULL */
  double        net_sales;
  double        net_sales_costed;
  gboolean      lacks_revenue;
  CroKnown      known_revenue;    /* as that of things, which are its parts */
  double        till;             /* NaN */
  double        till_gross;       /* NaN */
  double        gross_sales;      /* with tax, where a till says its total with tax alone; NaN: not all known */
  double        ledger;
  double        purchases[CRO_N_PURCHASE_KINDS];
  double        earlier[CRO_N_PURCHASE_KINDS];
  GArray       *earlier_of[CRO_N_PURCHASE_KINDS]; /* CroMonthOf: the months whose documents those are */
  double        later[CRO_N_PURCHASE_KINDS];      /* taken off in earlier: closed months after it booked it … */
  GArray       *later_of[CRO_N_PURCHASE_KINDS];   /* … CroMonthOf: those months */
  double        late[CRO_N_PURCHASE_KINDS];       /* of a closed one: documents that came or left since, not frozen … */
  double        awaited[CRO_N_PURCHASE_KINDS];    /* … what of them the first open month is to book … */
  GArray       *booked_in[CRO_N_PURCHASE_KINDS];  /* … and CroMonthOf: closed ones after it that have booked the rest */
  double        reversed;         /* estimates of earlier months, taken off in earlier of food … */
  GArray       *reversed_of[CRO_N_PURCHASE_KINDS];  /* … CroMonthOf: those months; empty of a closed one */
  double        estimate;         /* food still to come when it was closed; NaN: none */
  double        opening;          /* NaN: nothing was counted or entered */
  double        closing;
  CroKnown      known_opening;
  CroKnown      known_closing;
  CroKnown      known_used;       /* of the food that is gone from the house: opening and bought less closing */
  gboolean      is_entered;       /* closing is one sum of money */
  guint         n_opening;        /* items counted, disposables too, whose stock is worth 0 */
  guint         n_closing;
  double        adjustments[CRO_N_ADJUSTMENT_KINDS];
  CroKnown      known_adjustments[CRO_N_ADJUSTMENT_KINDS];
  double        actual;
  CroKnown      known_actual;
  double        theoretical;
  CroKnown      known_theoretical;
  double        over;
  CroKnown      known_over;
  CroKnown      known_rest;       /* of what of over is of no ingredient that was counted and bought in amounts */
  GPtrArray    *missing;          /* texts of causes, sorted */
  GArray       *things;           /* CroMonthThing, by kind and name */
  GArray       *items;            /* CroMonthItem of food, by name */
  GArray       *by_products;      /* CroMonthByProduct, by name */
  GArray       *questions;        /* CroMonthQuestion, by kind, what explains most first */
  CroMonthEntries *entries;       /* what it is made of; NULL unless rows were asked for */
  GArray       *counts;           /* CroMonthRecord of the closing stock … */
  GArray       *bought;           /* … of purchases … */
  GArray       *adjusted;         /* … of adjustments; empty unless rows were asked for, or frozen */
  GArray       *late_bought;      /* CroMonthRecord: documents in earlier, of kinds of which they are known one by
                                   * one; empty unless rows were asked for, and of a closed one */
  GStringChunk *texts;
} CroMonth;

/* first: the first day of the month. What closing froze, where it is closed. with_parts: the rows that it is made of,
 * and what each thing sold took, too. */
CroMonth *cro_month_new           (CroBook         *book,
                                   CroDate          first,
                                   gboolean         with_parts,
                                   GError         **error);
void      cro_month_free          (CroMonth        *self);

/* With its rows, and of an open one without what each thing took: where much is sold, that is most of the work and the
 * memory. */
CroMonth *cro_month_new_with_rows (CroBook         *book,
                                   CroDate          first,
                                   GError         **error);

/* Nothing of it is reckoned but what is asked about amounts and money beyond what the others of their kind hold;
 * nothing is asked of a closed one. */
CroMonth *cro_month_new_sizes     (CroBook         *book,
                                   CroDate          first,
                                   GError         **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMonth, cro_month_free)

/* Another estimate of what is still to come, in millionths, CRO_NOT_SET for none; not of a closed
 * month. */
void      cro_month_estimate      (CroMonth        *self,
                                   gint64           estimate);

/* What came late for closed months, of a kind: earlier before estimates were taken off, and what later months have
 * booked. */
double    cro_month_late          (const CroMonth  *self,
                                   guint            kind);

/* Whether documents of a closed month came, or left, since. */
gboolean  cro_month_came_since    (const CroMonth *self);

/* All purchases, as a ledger has them: those of earlier months and the estimate among them. */
double    cro_month_all_purchases (const CroMonth  *self);

/* The control of the closing stock: what is bought and counted in amounts, at the value of its count
 * and at the weighted average of the month, and how much is known of both. How many ingredients that is of. */
guint     cro_month_average_stock (const CroMonth  *self,
                                   double          *counted,
                                   double          *average,
                                   CroKnown        *known);

/* Whether its first day is here. */
gboolean  cro_month_has_begun     (const CroMonth  *self);

/* Whether a till says its total with tax alone, to which sales with tax are tied. */
gboolean  cro_month_is_tied_with_tax (const CroMonth *self);

/* Whether its actual and theoretical cost and its sales are known whole, and no row of it lacks anything. */
gboolean  cro_month_is_whole      (const CroMonth  *self);

/* How much is known of its sales; of what one thing took in, and of its theoretical cost; of the price and usage
 * variance of an ingredient, and of both together. A sum with one more part: what is not known at all of that
 * leaves it at least what it is. */
CroKnown  cro_month_known_sales   (const CroMonth       *self);
CroKnown  cro_month_known_sales_of (const CroMonthThing *thing);
CroKnown  cro_month_known_cost_of (const CroMonthThing  *thing);
CroKnown  cro_month_known_variance (const CroMonthItem *item);
CroKnown  cro_month_known_together (const CroMonthItem *item);
/* How much is known of the actual cost of what is of no ingredient that was counted and bought in amounts. */
CroKnown  cro_month_known_rest_used (const CroMonth      *self);
/* Of what by-products at a value are credited with: how much of them there was hangs on what cannot be counted. */
CroKnown  cro_month_known_by_products (const CroMonth    *self);
/* Of money that may be 0 for want of all its parts: then nothing is. */
CroKnown  cro_month_known_worth   (CroKnown              known,
                                   double                money);
CroKnown  cro_month_known_add     (CroKnown              sum,
                                   CroKnown              part);

/* Whether it is of a disposable, as the book has its item today: it adds nothing to a food cost, and 0 is no money
 * of it. Closing froze no kind of what was counted or adjusted. */
gboolean  cro_month_record_is_beside (CroModel              *model,
                                   const CroMonthRecord  *record);

/* What money an adjustment is, and how much of that is known. */
typedef struct
{
  double   money;
  CroKnown known;
} CroMonthWorth;

/* That of each adjustment of a month with its parts that has any, by the id of its row: gint64 * to CroMonthWorth *,
 * owned by the table. NULL with error. */
GHashTable *cro_month_list_worths (const CroMonth       *self,
                                   CroBook              *book,
                                   GError              **error);

/* The day whose recipes it is costed by: recipes_on, or the book's first, where that came later. */
CroDate   cro_month_recipes_day   (const CroMonth  *self);

/* With what sign an adjustment of a kind (cro_adjustment_kind_codes) enters the actual cost: 0 of waste. */
int       cro_month_sign_of     (guint kind);

G_END_DECLS
