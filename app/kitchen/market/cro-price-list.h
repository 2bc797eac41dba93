/* cro-price-list.h: what a supplier sent, line by line, beside what the book holds of it.
 *
 *   table      a spreadsheet or delimited text, its columns known by their headings (cro-brought.h)
 *   message    lines of text as people write them, in any order
 *   invoice    an electronic invoice or credit note (cro-invoice.h)
 *
 * A line finds its ingredient by the supplier's code, then by its GTIN, then by its name: as it is
 * written, then in any number (cro-fold.h). What it finds nothing by stays in the list with what is
 * like it. Nothing is posted that waits: a line with a reason that asks (cro_list_why_asks).
 *
 * Prices of a table hold tax or none as its headings say, those of a message as its words do; where nothing
 * is said, the tax that the pack's last price held. Those of an invoice hold none. A price for one unit, as that of a
 * line of an invoice that counts kilograms, becomes that of the pack that the book has, and is a pack of
 * its own where it has none.
 *
 * Units      Decimals in millionths.
 * Ownership  Texts live as long as the list.
 * Errors     cro_price_list_read: those of cro-invoice.h and cro-spreadsheet.h, G_FILE_ERROR,
 *            CRO_STORE_ERROR. */
#pragma once

#include "cro-book.h"
#include "cro-brought.h"
#include "cro-entry.h"
#include "cro-invoice.h"
#include "cro-load.h"
#include "cro-price-heading.h"
#include "cro-second-look.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_LIST_TABLE,
  CRO_LIST_MESSAGE,
  CRO_LIST_INVOICE,
} CroListSource;

typedef enum
{
  CRO_LIST_NEW,            /* the supplier's pack is new, or has had no price yet */
  CRO_LIST_CHANGED,
  CRO_LIST_UNCHANGED,
  CRO_LIST_UNMATCHED,
  CRO_LIST_DOUBTFUL,
  CRO_LIST_RETURN,         /* goods or money given back: never a price */
  CRO_LIST_NO_INGREDIENT,  /* a deposit, carriage */
  CRO_LIST_NOT_TO_BE_HAD,
  CRO_N_LIST_STATES,
} CroListState;

/* As JSON has them; in the order of CroListState. */
extern const char *const cro_list_state_codes[CRO_N_LIST_STATES];

typedef enum
{
  /* Said, and nothing waits for it. */
  CRO_LIST_LIKE,           /* text: names that are like it, other: the first of them */
  CRO_LIST_GTIN_WRONG,     /* its check digit */
  CRO_LIST_SIGNS,          /* quantity and amount differ in sign: the amount counts */
  CRO_LIST_CREDIT,         /* the document is a credit note */
  CRO_LIST_GIVES_WAY,      /* text: the number of the line that was said to be right in its place */
  CRO_LIST_LATER,          /* of an invoice; text: the day after its delivery from which the book has a price */
  CRO_LIST_GIVEN_UP,       /* text: the last day on which the pack was bought, before that of the list */
  CRO_LIST_NO_PURCHASE,    /* of a return: whose it is nobody knows, so it is not booked */
  CRO_LIST_FREE,           /* of an invoice: goods that cost nothing are booked, and say no price */
  CRO_LIST_PRICE_BACK,     /* of a return: a part of the price is given back, and no goods */
  CRO_LIST_SHARE,          /* the row is a part of charges on the whole, of a line that is booked without it */

  /* Asked. */
  CRO_LIST_ASKS,
  CRO_LIST_NO_PRICE = CRO_LIST_ASKS,
  CRO_LIST_WHICH_TAX,      /* the price holds tax, and nothing says at what rate */
  CRO_LIST_TAX_BESIDE,     /* text: the heading of a column of tax beside the price, which may hold it or not */
  CRO_LIST_SAID_OPEN,      /* text: a heading or a note that leaves open for how much the price is, or in which
                              currency; or, of a column of sizes, its heading, other: what stands there, which is not
                              of the pack */
  CRO_LIST_SAID_CHANGE,    /* text: a note that may change prices: "less 10 %", "oops, 11.40" */
  CRO_LIST_SAID_DAY,       /* text: a note by which the prices may not hold on the day of the list */
  CRO_LIST_SAID_TAX,       /* text: a note that speaks of tax, and not plainly; the price is taken as one without */
  CRO_LIST_NOT_A_PRICE,    /* text: what stands there */
  CRO_LIST_NOT_A_DATE,     /* text: what stands there, of what is not to be had until then */
  CRO_LIST_WHICH_NUMBER,   /* several could be the price */
  CRO_LIST_WHICH_SIGN,     /* text: 1,234, of which nothing tells what its sign is */
  CRO_LIST_NO_AMOUNTS,     /* of an invoice: no quantity, or no amount */
  CRO_LIST_NOT_RECOMPUTED, /* text: its amount, other: what it adds up to */
  CRO_LIST_OTHER_BASE,     /* text, other: units of the quantity and of the base quantity */
  CRO_LIST_OTHER_NAME,     /* text: the ingredient that its name is of, other: that of its code */
  CRO_LIST_WHICH_CODE,     /* several ingredients have that code */
  CRO_LIST_CODE_LIKE,      /* text: the pack of the ingredient whose code is like this new one, other: that code */
  CRO_LIST_WHICH_PACK,     /* text: the supplier's packs of it */
  CRO_LIST_WHICH_PRICE,    /* text: what a message calls what its price is for, other: the pack that it may not be of */
  CRO_LIST_WHICH_SIZE,     /* text: what a price is stated per, other: the pack, of which that is no size */
  CRO_LIST_GOODS_WORD,     /* text: a word of a message for a package that may be of the name, other: the rest of it */
  CRO_LIST_UNSURE,         /* text: what a message has behind a price, "?" */
  CRO_LIST_BESIDE,         /* text: what stands beside a price in a table, and may be of it: "less 10 %", a day */
  CRO_LIST_HIDDEN,         /* the price stands in a row or a column that its spreadsheet does not show */
  CRO_LIST_NO_PACK,        /* nothing says how much the price is for */
  CRO_LIST_UNIT_UNKNOWN,   /* text: a code of no unit that is known */
  CRO_LIST_PACKAGE,        /* text: a code of a package, of which nothing says what it holds */
  CRO_LIST_NOT_CONVERTED,  /* the pack cannot be converted into the ingredient's unit */
  CRO_LIST_CURRENCY,       /* text: its currency, other: the supplier's */
  CRO_LIST_NO_RATE,        /* text: a currency without a rate on that day */
  CRO_LIST_GOODS_OR_PRICE, /* of a return at none of the prices that were billed; text: the last, in millionths;
                              NULL: nothing was billed */
  CRO_LIST_MORE_BACK,      /* more goes back than was bought; text: how much, other: how much was, both in words */
  CRO_LIST_TWICE,          /* text: the number of another line of the same pack with another price */
  CRO_LIST_OTHER_TYPE,     /* text: the code of what the document is, where it is no plain invoice or credit note */
  CRO_LIST_OTHER_NUMBER,   /* text: the number of the document, other: one that is booked and reads the same */
  CRO_LIST_OTHER_SELLER,   /* text: the number of the document, other: for whom it is booked already */
  CRO_LIST_LAST_MOVED,     /* of a row of a round; text: that sentence */
  CRO_LIST_LOOK,           /* the row's look; text: of a new pack the other one that it was compared with */
  CRO_LIST_TOO_LARGE,      /* amounts that no book holds */
} CroListWhy;

/* What a line is for, as a person said of it or of an earlier one of its code. */
typedef enum
{
  CRO_LIST_GOODS_UNSAID,
  CRO_LIST_GOODS_INGREDIENT,
  CRO_LIST_GOODS_DISPOSABLE,
  CRO_LIST_GOODS_OTHER,    /* a deposit, carriage, hire */
  CRO_N_LIST_GOODS,
} CroListGoods;

/* As they are written in files and on the command line; NULL: unsaid. */
extern const char *const cro_list_goods_codes[CRO_N_LIST_GOODS];

/* What a return gives back. */
typedef enum
{
  CRO_LIST_BACK_UNSAID,    /* goods, where nothing asks whether it is the price */
  CRO_LIST_BACK_GOODS,
  CRO_LIST_BACK_PRICE,     /* a part of what goods cost, which stay */
  CRO_N_LIST_BACK,
} CroListBack;

/* As they are set aside and on the command line; NULL: unsaid. */
extern const char *const cro_list_back_codes[CRO_N_LIST_BACK];

typedef struct
{
  CroListWhy  why;
  const char *text;        /* NULL */
  const char *other;       /* NULL */
} CroListReason;

/* Why an answer is none. */
typedef enum
{
  CRO_ANSWER_FITS,
  CRO_ANSWER_OF_NO_LINE,
  CRO_ANSWER_NO_PACK,
  CRO_ANSWER_CONTRADICTS,  /* another of the same line */
  CRO_ANSWER_MEASURED,     /* a pack of what counts a measure itself */
  CRO_ANSWER_NOTHING,      /* there is nothing behind the line */
  CRO_ANSWER_UNFIT,        /* it cannot be said of that line */
} CroListAnswer;

/* What becomes of the allowances and charges of a whole document. */
typedef enum
{
  CRO_WHOLE_UNSAID,        /* to be asked; until then as left out */
  CRO_WHOLE_SPREAD,        /* over the goods delivered, by their net amounts: in what is booked of them; what is
                              posted and compared is the price of the line */
  CRO_WHOLE_BOOKED,        /* as a purchase of kind other */
  CRO_WHOLE_LEFT_OUT,
  CRO_N_WHOLE,
} CroListWhole;

/* Why they are not spread, though that was said. */
typedef enum
{
  CRO_SPREAD_DONE,
  CRO_SPREAD_NO_GOODS,      /* no goods were delivered */
  CRO_SPREAD_FREE_GOODS,    /* those that were cost nothing */
  CRO_SPREAD_PART_OF_MINOR, /* a part of a minor unit remains */
  CRO_SPREAD_ABOVE_GOODS,   /* more is taken off than the goods come to */
} CroListNoSpread;

/* As the command line and what is set aside have them; in the order of CroListWhole. */
extern const char *const cro_list_whole_codes[CRO_N_WHOLE];

typedef struct
{
  /* As it is written; NULL where nothing is. */
  guint        number;     /* of the row, the line, or the line of the document */
  const char  *code;
  const char  *gtin;
  const char  *name;
  const char  *said;       /* a message's line that is not wholly understood, as it stands there */
  const char  *priced_as;  /* of a message: "case", "bottle", "net", for what its price is, as it stands there */
  const char  *quantity;   /* of an invoice alone, as the next five */
  const char  *unit;
  const char  *net;
  const char  *per_unit;
  CroRecomputes recomputes;
  gint64       amount;     /* quantity and net once more; a credit note's are turned round */
  gint64       net_value;  /* without what is spread */
  const char  *currency;   /* once it is matched the supplier's, where the line says none */
  gboolean     is_none;    /* not to be had */
  gboolean     is_same;    /* as last: once it is matched that is its price */
  gboolean     is_from_last; /* its price is the last one or a change of it */
  gint64       change_pct; /* of the last price, in millionths of a per cent, until it is matched; 0: none */
  gboolean     is_return;
  gboolean     is_no_ingredient;
  gboolean     is_whole;   /* no line of the document: its allowances and charges, which are booked */
  guint        share_of;   /* index + 1 of a line that is booked without its part of those: the row is that part */
  gint64       spread;     /* its part of those, booked with it */
  gint64       in_book_currency; /* of a document that is cut its part of what that comes to, with its spread;
                                    CRO_NOT_SET */
  gboolean     has_price;
  gint64       price;      /* of pack, or of one `per` */
  CroPack      pack;       /* of no size where nothing is said */
  CroPack      counted;    /* of an invoice: one of what the line counts; of no size: one of pack */
  gboolean     has_per;
  gboolean     is_per_measure; /* pack is what the price is stated per, "/100 g" */
  CroUnit      per;
  gboolean     is_per_base; /* its price is for a kg, l or piece of the ingredient, until its pack is settled */
  gboolean     may_be_per; /* of a table that has a pack and a unit: per is set, and may be what the price is for */
  gboolean     may_be_order; /* so is per, and pack is of a quantity beside it, which may be what is ordered */
  const char  *said_open;  /* a heading or a note that says for how much the price is, or in which currency, and is not
                              understood; NULL */
  gint64       size_beside; /* a number beside the price that may be of its pack, under size_heading */
  gboolean     has_size_unit;
  CroUnit      size_unit;  /* of that number */
  gint64       size_count; /* how many of that there are, as another number has it; 0: none says so; CRO_NOT_SET:
                              several do */
  gboolean     is_size_counted; /* size_count is of packages, and no number that may be of something else; where it
                                    is 0 size_beside is */
  gboolean     is_size_about; /* with what is packed around it, or about */
  const char  *size_heading; /* NULL: none */
  const char  *unit_heading; /* of prices that may be for one of a pack, "Unit price"; NULL */
  gboolean     is_each;    /* it says "each" of what is packed by weight: a pack, or one of the goods */
  CroPriceTax  says_tax;   /* what the list says of its prices */
  gboolean     is_tax_open; /* what it, or the list of all its prices, says of tax is tax_heading, and not understood */
  gint64       tax_pct;    /* of a price that has tax in it the rate that the list says; 0: none */
  gint64       tax_beside; /* tax beside the price that it may have or not, as an amount or, where that is open, per
                              cents; CRO_NOT_SET: a rate, a code or words, of which nothing tells; 0: none */
  gint64       rate_beside; /* the rate of that column alone; 0: none */
  const char  *tax_heading; /* that column's, or the line of a message; NULL: of a column that says nothing of tax, of
                               which nothing is asked */
  const char  *sum_heading; /* of a column that says nothing of tax, and whose number may be the price with it or
                               another price; NULL: it is a total */

  /* What a person said of it. */
  gboolean     is_known;   /* whose price it is: item and offer are set before it is matched */
  gboolean     is_right;   /* what may be right though it is asked about is (cro_list_why_can_be_right) */
  gboolean     is_chosen;  /* in a round: of several prices of its pack it is the one that holds */
  gboolean     is_named;   /* its name is what somebody said; its code and GTIN are not asked */
  gboolean     is_pack_said; /* so is pack */
  gint64       made;       /* id of its ingredient where that was made in the act that posts it; 0 */
  CroListGoods goods;      /* of an invoice; where it is no ingredient is_no_ingredient is set too */
  gboolean     is_recalled; /* that was said of an earlier invoice's line */
  gboolean     is_turned;  /* it is given back, which the document does not say: amount and net_value are turned round,
                              and is_return is set too */
  CroListBack  back;       /* of what is given back */

  /* What the book holds of it. */
  CroListState state;
  GArray      *reasons;    /* CroListReason; NULL: none */
  guint32      item;       /* CRO_NO_SLOT */
  guint32      offer;      /* the supplier's pack; CRO_NO_SLOT */
  gboolean     is_posted;  /* a price of it is posted; not of a line that repeats another */
  gboolean     is_contradicted; /* by a later line of the same pack */
  gboolean     is_repeat;  /* of an earlier line of the same pack and price */
  guint        repeated_by; /* the place + 1 of a line that repeats the first as this one does, or as it is; 0: none */
  gboolean     is_booked;  /* a purchase */
  gboolean     is_late;    /* of an invoice: the book has a price of the day on which its own would begin */
  gboolean     is_held;    /* a price of it would be posted, were nothing asked of the whole document */
  gboolean     is_in_book; /* that purchase is in the book already: neither posted nor booked again */
  gint64       in_book;    /* its id there */
  gint64       tax;        /* in the price that is posted */
  gint64       last;       /* of the same pack, with the same tax, in the line's currency; CRO_NOT_SET */
  gint64       quoted;     /* of an invoice: the last on the day of delivery, of one that the line counts */
  gint64       quoted_pack; /* the same of one pack */
  gboolean     is_stated_per_base; /* by the supplier: it is spoken of as one per kg, l or piece */
  gboolean     is_other_pack; /* than the offer's own */
  CroLook      look;
  gint64       reclaim;    /* billed above what was quoted, in the document's currency; CRO_NOT_SET */
} CroListRow;

typedef struct
{
  CroListSource  source;
  const char    *price_columns; /* headings of which nothing tells which is the price to pay; NULL */
  CroInvoiceSyntax syntax; /* of an invoice; of another document the family that it is of */
  const char    *root;     /* Invoice, CreditNote, CrossIndustryInvoice; NULL: no invoice */
  const char    *document; /* its number */
  const char    *preceding; /* the number of the invoice that it says it is of; NULL: it says none, or several */
  const char    *type;
  const char    *currency;
  CroDate        delivered;  /* what is booked is of that day; the document's, or from where it says none */
  double         rate;       /* of a document in another currency: the book's for one of it on that day; NaN */
  const char    *no_date;    /* a date of the document that is none, as it stands there; NULL */
  const char    *no_answer;  /* the first of the answers of its reading that no line takes; NULL */
  CroListAnswer  no_answer_why;
  const char    *booked_as;  /* a document of the supplier's that is booked, whose number differs in case, blanks or
                                what is not seen alone; NULL */
  CroDate        dated;      /* of the document; of a table what all its rows say; CRO_NO_DAY */
  gboolean       is_credit;
  const char    *seller;     /* NULL */
  guint32        seller_slot; /* another supplier of the book, who is that seller; CRO_NO_SLOT */
  gboolean       is_seller_right; /* somebody said that it is the supplier's all the same */
  gboolean       is_foreign; /* its currency is not the book's */
  gboolean       is_cut;     /* it is foreign, or a line has a part of a minor unit: what the whole comes to is rounded
                                once and broken down over the lines */
  gboolean       has_total;  /* the document says what its lines add up to */
  CroNano        total;
  CroNano        sum;        /* what they do; both as the document has them */
  gboolean       has_net_total; /* it says what it comes to without tax */
  CroNano        net_total;
  CroNano        allowances; /* of the whole document */
  CroNano        charges;
  const char    *no_amount;  /* of CroInvoice, as the next three; nothing of such a document is taken */
  const char    *no_indicator;
  const char    *strange;
  guint          strange_line;
  CroListWhole   whole;      /* what becomes of both */
  CroListNoSpread no_spread; /* whole is CRO_WHOLE_SPREAD, and they are not */
  guint32        supplier;   /* slot; CRO_NO_SLOT: the book has none of that name */
  const char    *supplier_name;
  CroDate        from;
  GArray        *rows;       /* CroListRow */
  GPtrArray     *read;       /* CroListRow *: as they were before they were matched; of an invoice NULL */
  guint          n_waiting;  /* rows that are neither posted nor booked, and should be */
  gint64         reclaim;    /* in all; CRO_NOT_SET: nothing was quoted */
  gboolean       is_booked_before; /* the book has purchases of that document already */
  gboolean       is_all_booked;    /* all of it that is booked here */
  gboolean       is_booked_otherwise; /* rows that the file has not: other amounts, or by hand */
  CroBrought    *columns;    /* of a table, and of what may be one: as they were read; NULL */
  gboolean       is_as_said; /* somebody said of an earlier list what they hold */
  GStrv          sheets;     /* of the workbook, by name; NULL: it is none */
  gboolean       is_unsure;  /* what they hold is to be asked */
  GStringChunk  *texts;
} CroPriceList;

typedef struct
{
  const char  *columns;      /* what somebody said that the supplier's tables hold (cro-said-columns.h); NULL */
  CroLoadGoOn  go_on;        /* of what is done the part that is known; NULL */
  gpointer     user_data;
  CroListWhole whole;
  guint        sheet;        /* of a workbook, from 1; 0: the first that has prices */
  gboolean     is_seller_right; /* a document of another supplier of the book is this one's */
  const char *const *is;     /* "4=disposable": what lines are, by their numbers or codes: the name of an ingredient,
                               "disposable", "other", "return" or "price"; NULL */
  const char *const *holds;  /* "4=6 × 1 l": what one of what a line counts holds; NULL */
  gboolean     keeps_later; /* a price of an invoice that was delivered before the list's day is not posted over one
                               that the book has of that day */
} CroListReading;

/* What a line comes to, with its part of charges on the whole document. */
static inline gint64
cro_list_row_value (const CroListRow *row)
{
  return row->net_value + row->spread;
}

/* Goods that an invoice gives free: they come in, and nothing is a price of them. */
static inline gboolean
cro_list_row_is_free (const CroListRow *row)
{
  return row->per_unit != NULL && row->has_price && row->net_value == 0 && row->amount > 0 && !row->is_no_ingredient;
}

static inline gboolean
cro_list_why_asks (CroListWhy why)
{
  return why >= CRO_LIST_ASKS;
}

/* Whether it is asked of the whole document: the answer to one row answers it for all. */
gboolean      cro_list_why_is_of_all    (CroListWhy why);

/* Whether a line or a note of the list said it of all its prices: one answer is for all of them. */
gboolean      cro_list_why_is_said      (CroListWhy why);

/* Whether what is asked may be answered with "it is right"; all else lacks something. */
gboolean      cro_list_why_can_be_right (CroListWhy why);

/* Whether "it is right" is all that it waits for. */
gboolean      cro_list_row_can_accept (const CroListRow *row);

/* Whether another line has another price for its pack, and nobody has said which is right. */
gboolean      cro_list_row_is_twice  (const CroListRow *row);

/* The number of another line that was said to be right in its place, so that its price is not posted; NULL: none. */
const char   *cro_list_row_gives_way_to (const CroListRow *row);

/* Whether line is its number or its code. */
gboolean      cro_list_row_is_called (const CroListRow *row,
                                      const char       *line);

/* Whether how much a line of an invoice delivers hangs on its pack, of which nothing says that it is the book's. */
gboolean      cro_list_row_asks_pack (const CroPriceList *self,
                                      const CroListRow   *row);

/* Whether which of two readings of its price is meant is open, with tax or without, of a pack or of one in it: the line
 * can say that, and "it is right" does not. */
gboolean      cro_list_row_asks_tax  (const CroListRow *row);
gboolean      cro_list_row_asks_word (const CroListRow *row);

/* Whether goods or their price are given back is open: neither is said by "it is right". */
gboolean      cro_list_row_asks_back (const CroListRow *row);

/* Whether "it is right" says all that it waits for, to whom no other reading is offered. */
gboolean      cro_list_row_takes_yes (const CroPriceList *self,
                                      const CroListRow   *row);

/* Whether it is in another currency than its pack. */
gboolean      cro_list_row_asks_currency (const CroListRow *row);

/* "6 × 1 l" with its unit, which a number alone has not. */
gboolean      cro_list_pack_from_text (const char *text,
                                       CroPack    *pack);

/* Says so of rows by their index, in turn; of one that cannot be accepted, as it gave way to one before, nothing is
 * said. model: of the book that the list was read beside. */
void          cro_price_list_accept (CroPriceList   *self,
                                     CroModel       *model,
                                     const guint    *indices,
                                     guint           n);

/* The supplier of the book whom an invoice names as its seller, or with whose name the first line of another list
 * begins; CRO_NO_SLOT: none. */
guint32       cro_price_list_find_seller (CroModel     *model,
                                          const char   *path);
guint32       cro_price_list_find_seller_of_text (CroModel *model,
                                          const char   *text);

/* Whether an invoice names another seller than the supplier: neither name contains the other. */
gboolean      cro_price_list_is_other_seller (const CroPriceList *self);

/* Whether it has allowances or charges of the whole of which nobody has said what becomes, or which cannot be
 * spread as was said. */
gboolean      cro_price_list_asks_whole (const CroPriceList *self);

/* Whether all of its lines are booked, and nobody has said what becomes of its allowances and charges: these may still
 * be. */
gboolean      cro_price_list_lacks_whole (const CroPriceList *self);

/* What the document comes to without tax: its lines, less allowances, with charges. */
CroNano       cro_price_list_net (const CroPriceList *self);

/* Whether it is a table in which no column is known to have prices, or none names what they are of. */
gboolean      cro_price_list_lacks_columns (const CroPriceList *self);

/* Whether it has columns to say what they hold: a table, or a text whose lines are mostly cut into as many cells as
 * one has. */
gboolean      cro_price_list_has_columns (const CroPriceList *self);

/* Its headings, with commas between them, and whether one of them is of prices, one of what they are of; "":
 * it has none. Owned. */
char         *cro_price_list_dup_headings (const CroPriceList *self,
                                           gboolean           *has_price,
                                           gboolean           *has_name);

/* Words of a message that are of nothing that is bought: a greeting. */
gboolean      cro_list_row_is_talk (const CroPriceList *self,
                                    const CroListRow   *row);

/* A row with reasons of its own, to be freed; its texts are still those of its list. */
CroListRow   *cro_list_row_dup     (const CroListRow *row);
void          cro_list_row_free    (CroListRow *row);

/* Whether it is neither posted nor booked, and should be once it is answered. */
gboolean      cro_list_row_waits   (const CroListRow *row);

/* What the file says, beside the book on the day from which the prices hold, which is the book's date.
 * reading: what else is known; may be NULL. Of a file that is refused *list may be set too, without rows: what it
 * is. FALSE with error unset: it was given up. */
gboolean      cro_price_list_read  (const char     *path,
                                    CroBook        *book,
                                    const char     *supplier,
                                    CroDate         from,
                                    const CroListReading *reading,
                                    CroPriceList  **list,
                                    GError        **error);
void          cro_price_list_free  (CroPriceList   *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroPriceList, cro_price_list_free)

/* Posts what does not wait into the book at path, in one act: a pack, or a price of its day, that the book
 * has becomes the list's. Where the document was booked before, what the book has of it is not booked
 * again. FALSE on failure, CRO_LOAD_ERROR or CRO_STORE_ERROR, and nothing was changed. The list's supplier
 * is one of the book's. go_on, which may be NULL, gives it up before it is there for good. */
gboolean      cro_price_list_post  (const CroPriceList *self,
                                    CroModel       *model,
                                    const char     *path,
                                    const char     *desk,
                                    const char     *label,
                                    CroLoadGoOn     go_on,
                                    gpointer        user_data,
                                    CroFaults      *faults,
                                    GError        **error);

/* The same into an act of the book that is open; it is neither ended nor given up. */
gboolean      cro_price_list_write (const CroPriceList *self,
                                    CroModel           *model,
                                    CroStore           *store,
                                    CroFaults          *faults,
                                    GError            **error);

G_END_DECLS
