/* cro-month-private.h: what the files that make up a month share. */
#pragma once

#include "cro-effects.h"
#include "cro-month-recipes.h"
#include "cro-month.h"

G_BEGIN_DECLS

/* What is gathered of one item. Quantities in base units; that bought or adjusted is NaN once one of them
 * is not known. */
typedef struct
{
  gint64      id;
  const char *name;
  CroBase     base;
  gboolean    is_food;
  gboolean    is_bought;        /* an ingredient */
  double      standard_quantity, standard_cost;
  double      opening_quantity, opening_value;
  double      bought_quantity, bought_value;
  double      adjusted_quantity, adjusted_value;  /* what left, or came in below 0, beside plates */
  double      closing_quantity, closing_value;
  gboolean    is_opening, is_closing;             /* counted as itself */
  gboolean    was_there;        /* counted at the opening, and not as 0 */
  gboolean    may_be_there;     /* not counted at the opening: by what was counted last, or bought since … */
  double      there_value;      /* … and its money, as far as that is known */
  gboolean    is_opening_open;  /* so may be some of it, as itself or in something made */
  gboolean    was_bought;
  gboolean    came_in;          /* beside purchases … */
  double      came_value;       /* … and its money */
  gboolean    is_broken;        /* a count of it cannot be converted */
  CroKnown    known_standard, known_opening, known_adjusted, known_closing;
  double      counted_at_opening, counted_at_closing;   /* quantity of its own counts */
  double      own_opening_value;
} CroMonthGathered;

typedef struct
{
  CroBook         *book;
  CroMonthEntries *entries;
  CroMonthRecipes *recipes;
  CroMonth        *month;
  CroDate          stood;       /* the day of the recipes that month->recipes_on leads to */
  CroDate          before_on;   /* the recipes by which the stock of the month before is valued */
  GHashTable      *gathered;    /* id of an item → CroMonthGathered */
  GHashTable      *credits;     /* id of an output → CroMonthByProduct */
  GHashTable      *missing;     /* set of texts */
  GHashTable      *asked;       /* what a question asks → its index in month->questions, and 1 */
  guint            n_food[2];   /* counts of food at the opening, at the closing */
  gboolean         theory_open;
  gboolean         theory_credit;
  gboolean         with_rows;
  gboolean         with_parts;
} CroMonthWork;

const char       *cro_month_keep         (CroMonthWork         *self,
                                          const char           *text);

CroMonthGathered *cro_month_gather       (CroMonthWork         *self,
                                          CroBook              *book,
                                          guint32               item);

/* Whether any of them is of food. */
gboolean          cro_month_has_causes   (CroModel             *model,
                                          GArray               *causes);

/* What is missing of food: wages and what disposables lack are no part of a month's cost. */
gboolean          cro_month_add_causes   (CroMonthWork         *self,
                                          CroModel             *model,
                                          GArray               *causes);

/* Of months that were closed before it was noted: whether something is missing of the item of that name. */
CroKnown          cro_month_known_by_name (const CroMonth      *self,
                                          const char           *name,
                                          double                money);

typedef void (*CroMonthTake) (CroMonthGathered *of, double quantity, double value, CroKnown known);

/* Calls take for each ingredient below a thing of which more is taken than can be counted
 * (cro_known_list_uncounted), with nothing, and that more of it is taken. */
void              cro_month_take_uncounted (CroMonthWork       *self,
                                          CroBook              *book,
                                          CroRef                thing,
                                          CroMonthTake          take);

/* An amount of something made is so much of what it is made of. Its money is value, or what its parts
 * cost (NaN). known: of that money. None of it costs nothing, whatever it costs. */
void              cro_month_carry        (CroMonthWork         *self,
                                          CroBook              *book,
                                          guint32               item,
                                          double                quantity,
                                          double                value,
                                          CroKnown              known,
                                          CroMonthTake          take);

/* Food cost of one base unit in stock: of what is made before any of it is lost. */
double            cro_month_stock_cost   (CroFigures           *figures,
                                          guint32               item);

/* Of the items of a book: name → gint64 *, its id. */
GHashTable       *cro_month_items_by_name (CroBook             *book);

/* Money that a question explains: of 0 for want of a price nothing is known, NaN. */
double            cro_month_explained    (double                money,
                                          CroKnown              known);

/* What is asked already explains so much more. */
void              cro_month_ask          (CroMonthWork         *self,
                                          CroMonthQuestionKind  kind,
                                          const char           *about,
                                          CroDate               day,
                                          const char           *detail,
                                          double                explains);

/* Prices of a day. */
gboolean          cro_month_turn_to      (CroBook              *book,
                                          CroDate               day,
                                          GError              **error);

/* The book in which an item stands, at the prices of a day (CRO_NO_DAY: of any): that of its recipes,
 * else that of today. *item is CRO_NO_SLOT of what is in neither. */
CroBook          *cro_month_find_item    (CroMonthWork         *self,
                                          CroDate               recipes_on,
                                          gint64                id,
                                          CroDate               day,
                                          guint32              *item,
                                          GError              **error);

/* CRO_UNIT_G where none is stored; FALSE with CRO_STORE_ERROR_DAMAGED of one that is none. */
gboolean          cro_month_read_unit    (CroRows              *rows,
                                          int                   column,
                                          CroUnit              *unit,
                                          GError              **error);

/* Of a purchase or an adjustment. A kind that is none is no food: FALSE with CRO_STORE_ERROR_DAMAGED. */
gboolean          cro_month_read_kind    (const char *const    *codes,
                                          const char           *text,
                                          guint                *kind,
                                          GError              **error);

/* What an amount of an item lacks to be converted (cro_service_in_base), if anything. */
void              cro_month_add_lacks    (CroMonthWork         *self,
                                          CroModel             *model,
                                          guint32               item,
                                          CroUnit               unit);

/* Something of a figure has no known value. */
void              cro_month_lower        (CroKnown             *known,
                                          CroKnown              of_part);

/* Of an item in the book as it stands; NULL of what is in it no more. */
const char       *cro_month_item_name    (CroBook              *book,
                                          gint64                id);

/* What food was counted at the closing is worth, where a stock that was entered as one sum takes its place; NaN: none
 * was. */
gboolean          cro_month_counted_worth   (CroMonthWork *self, double *worth, CroKnown *known, GError **error);

/* What may have been there and was not counted, at the opening and at the close: what rests on it is marked, and asked
 * about. frozen: the month before, as it was closed; NULL: it is not. */
gboolean          cro_month_doubt_opening   (CroMonthWork *self, const CroMonth *frozen, GError **error);
gboolean          cro_month_doubt_closing   (CroMonthWork *self, GError **error);

/* The parts of the statement; FALSE with error. */
gboolean          cro_month_add_sales       (CroMonthWork *self, GError **error);
gboolean          cro_month_add_stock       (CroMonthWork *self, GError **error);
gboolean          cro_month_add_purchases   (CroMonthWork *self, GError **error);
gboolean          cro_month_add_adjustments (CroMonthWork *self, GError **error);
void              cro_month_add_variances   (CroMonthWork *self);
gboolean          cro_month_add_doubts      (CroMonthWork *self, GError **error);

/* Of a closed month: what was entered of it since. A month that was closed since has booked it, or the first open one
 * does. An estimate is no document. */
void              cro_month_take_late       (CroMonth *month, const CroMonthEntries *entries);

/* A sum of decimals: what is left of it beyond millionths is no money. */
double            cro_month_sum             (double        of_decimals);

/* Names of the rows in which closing notes of which months the documents are that it booked of others, which ones have
 * booked what was taken off of its own, and whose estimates it took off: date is that month's first day. */
#define CRO_MONTH_EARLIER_OF "earlier-of"
#define CRO_MONTH_LATER_OF "later-of"
#define CRO_MONTH_REVERSED_OF "reversed-of"

/* Sums up what later months have booked. */
void              cro_month_add_later       (CroMonth     *self);

/* Rows that it is made of, by the names of today. */
gboolean          cro_month_add_records     (CroMonthWork *self, GError **error);

/* The order of things, and that of records. */
int               cro_month_compare_things  (gconstpointer a, gconstpointer b);
int               cro_month_compare_records (gconstpointer a, gconstpointer b);

/* An empty month, and one as closing froze it: not *is_frozen where it was closed without rows, by
 * whoever wrote the table. is_frozen may be NULL. */
CroMonth         *cro_month_new_empty    (CroDate               first);
CroMonth         *cro_month_thaw         (CroBook              *book,
                                          const CroMonthRow    *row,
                                          gboolean             *is_frozen,
                                          GError              **error);

/* Writes what a month is made of as rows of the row id of table month, which has none. In an act. */
gboolean          cro_month_freeze       (CroBook              *book,
                                          CroMonth             *month,
                                          gint64                id,
                                          GError              **error);

/* Of a closed month: what it asked of the order in which months were closed is asked no more once those months were
 * opened, or closed, since. row: its own. */
gboolean          cro_month_drop_answered (CroMonth            *self,
                                          CroBook              *book,
                                          const CroMonthRow    *row,
                                          GError              **error);

/* Of an open month: asks whether the month after, where that is closed, opened with another stock. */
gboolean          cro_month_ask_next_opened (CroMonth          *self,
                                          CroBook              *book,
                                          GError              **error);

/* Money in minor units as a question has it: with all its digits. Owned. */
char             *cro_month_dup_minor    (gint64                minor,
                                          int                   digits);

/* Of a closed month: asks whether the month before was closed since with another stock. before: its row. */
gboolean          cro_month_ask_opening  (CroMonth             *self,
                                          CroBook              *book,
                                          const CroMonthRow    *before,
                                          GError              **error);

/* Notes in altered and is_gone which of the closed months that it rests on is not as closing left it. */
gboolean          cro_month_look_before  (CroMonth             *self,
                                          const CroMonthEntries *entries,
                                          CroBook              *book,
                                          GError              **error);

/* Puts lists in their order. */
void              cro_month_sort         (CroMonth             *self);

/* What a row is called where it is asked about; "?" of a purchase or an adjustment that says nothing of itself. */
const char       *cro_month_name_of_sale       (CroMonthWork             *self,
                                                const CroMonthSale       *sale);
const char       *cro_month_name_of_purchase   (CroMonthWork             *self,
                                                const CroMonthPurchase   *purchase);
const char       *cro_month_name_of_adjustment (CroMonthWork             *self,
                                                const CroMonthAdjustment *adjustment);

/* Asks about amounts and money beyond what the others of their kind hold. */
void              cro_month_ask_sizes    (CroMonthWork         *self);

/* Asks anew whether ours is what a till and a ledger have; a difference that is estimates is explained. */
void              cro_month_ask_ties     (CroMonth             *self);

G_END_DECLS
