/* cro-round.h: a round of new prices of one supplier: rows in the supplier's own order, each typed, taken
 * from a list or left alone, and posted together at one date.
 *
 * A row of a pack that the supplier has says what may be typed of it:
 *
 *   "69.50"            the price as the supplier states it, of the pack or of a kilogram
 *   "11.20/kg"         of so much, "171 GBP" in that currency
 *   "69.50/4 kg"       of a pack that differs today
 *   "+5 %", "-0.40"    against the last price
 *   "=", "."           as last          "-"   not to be had
 *
 * A row that is added is a line of a message (cro-price-list.h): "turbot 3 kg 24.50/kg".
 *
 * The round holds a copy of the book in memory, of the day from which its prices hold, in which what is
 * typed is drafted: figures there are those that posting would make. Slots of rows are of that copy.
 *
 * Units      Millionths, per pack, in the pack's currency.
 * Ownership  It holds the book; rows are its own. A pointer or an index of one is good until the next call that adds
 *            or removes rows: adding, removing, moving, taking, renewing, posting.
 * Threads    One call at a time. cro_round_take and cro_round_take_text may run in another thread than the book's:
 *            they see the copy and nothing of the book. All others are called where the book is.
 * Errors     CRO_STORE_ERROR, CRO_BOOK_ERROR; of files those of cro_price_list_read. */
#pragma once

#include "cro-price-list.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_ROUND_EMPTY,     /* left alone */
  CRO_ROUND_AS_LAST,
  CRO_ROUND_PRICED,
  CRO_ROUND_NONE,      /* not to be had */
  CRO_ROUND_UNREAD,    /* what is typed says no price */
} CroRoundKind;

typedef struct
{
  CroListRow   list;      /* whose price it is, and what is asked about it */
  CroRoundKind kind;
  char        *text;      /* as it is typed; "" where it is left alone */
  char        *wrong;     /* why it says nothing, a sentence; NULL */
  gboolean     is_added;  /* of no pack that the supplier had before */
  gboolean     is_billed; /* a line of the invoice */
  guint        line;      /* its place there */
  char        *called;    /* the ingredient that it was said to be; NULL */
  CroPack      holds;     /* what one of the line was said to hold; of no size: nobody said */
  gboolean     is_taken;  /* added, and as a list has it: nobody said so far that it is one of the supplier's */
  gboolean     is_filled; /* as all the rest was, at once */
  CroListRow  *read;      /* what a list says of it, before it was matched; NULL: it was typed */
  CroListRow  *over;      /* likewise, before it was typed over: Escape gives that text back; NULL */
  char        *over_text; /* that */
  char        *before;    /* what stood in it before the list that was taken last; NULL: that list left it alone */
  gint64       posted;    /* the act that posted what stands in it, which is undone; 0: none */
  gint64       back;      /* the act that took it back alone; 0: none did */
  gint64       id;        /* of its offer; 0: added */
  gint64       position;  /* in the supplier's list; CRO_NOT_SET */
  CroPack      pack;      /* of its last price */
  gint64       last;      /* CRO_NOT_SET: it never had one */
  gint64       base;      /* what that was when a text that rests on it was typed; CRO_NOT_SET: none was */
  CroDate      since;
  gboolean     is_off;    /* not to be had since then */
  guint64      answered;  /* a bit for each CroListWhy that was said to be right while others of the row wait: not set
                            aside, as half an answer is none */
  gboolean     is_drafted;
  guint32      drafted;   /* slot of the copy: its offer's, or of a new pack one that only the copy has */
  CroOffer     was;       /* before it was drafted */
} CroRoundRow;

typedef struct _CroRound CroRound;

/* supplier: a slot of the book. */
CroRound    *cro_round_new           (CroBook      *book,
                                      guint32       supplier,
                                      CroDate       from,
                                      GError      **error);
void         cro_round_free          (CroRound     *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroRound, cro_round_free)

CroBook     *cro_round_get_book      (CroRound     *self);
/* The copy. Another one after the round was made anew. */
CroBook     *cro_round_get_draft     (CroRound     *self);
const char  *cro_round_get_supplier  (CroRound     *self);
/* Whether the book still has the supplier, who may be undone, merged or removed while the round is open. */
gboolean     cro_round_has_supplier  (CroRound     *self);
gint64       cro_round_get_supplier_id (CroRound   *self);
CroDate      cro_round_get_from      (CroRound     *self);
/* Of the supplier's prices; NULL: the book's, which has none. Borrowed. */
const char  *cro_round_get_currency  (CroRound     *self);

/* Whether prices without a unit are per kg, l or piece, as the supplier states them. */
gboolean     cro_round_is_per_base   (CroRound     *self);

/* Of an invoice that was taken; NULL: none was. Borrowed. */
const CroPriceList *cro_round_get_invoice (CroRound *self);

/* The invoice becomes part of what is set aside: its file is copied to path, where it stays until the invoice has
 * left the round. */
gboolean     cro_round_keep_invoice  (CroRound     *self,
                                      const char   *path,
                                      GError      **error);
gboolean     cro_round_is_invoice_kept (CroRound   *self);

/* That path, said before a text that is put back names it: any other file stays where it is, and is not kept. */
void         cro_round_set_kept      (CroRound     *self,
                                      const char   *path);

/* Whether its allowances and charges wait for an answer, and that answer; an answer may be changed. On failure the
 * round is as it was; one beside which the book has other amounts of the document is refused (G_FILE_ERROR_FAILED, the
 * message says why). */
gboolean     cro_round_asks_whole    (CroRound     *self);
gboolean     cro_round_say_whole     (CroRound     *self,
                                      CroListWhole  whole,
                                      GError      **error);

/* Its lines go: what is not booked of it never is. */
gboolean     cro_round_leave_out_invoice (CroRound *self,
                                          GError  **error);

/* The same rows beside the book as it is now, or from another day: what was typed is read again. On failure the
 * round is as it was. */
gboolean     cro_round_renew         (CroRound     *self,
                                      CroDate       from,
                                      GError      **error);
gboolean     cro_round_is_behind     (CroRound     *self);

guint        cro_round_get_n_rows    (CroRound     *self);
CroRoundRow *cro_round_get_row       (CroRound     *self,
                                      guint         index);

/* What is typed into a row; "" leaves it alone. */
gboolean     cro_round_type          (CroRound     *self,
                                      guint         index,
                                      const char   *text,
                                      GError      **error);

/* A line that names what it is of: it goes into the row of its pack, or a row is added. *index is that
 * row; CRO_NO_SLOT where nothing is typed. */
gboolean     cro_round_add           (CroRound     *self,
                                      const char   *line,
                                      guint        *index,
                                      GError      **error);

/* An added row goes. */
void         cro_round_remove        (CroRound     *self,
                                      guint         index);

/* All rows that are left alone are as last, and back; how many. */
guint        cro_round_fill          (CroRound     *self);
guint        cro_round_empty         (CroRound     *self);

typedef struct
{
  gboolean     is_again;   /* the same file: what it brought before goes */
  gboolean     is_seller_right; /* an invoice is the supplier's, though another supplier of the book is its seller */
  CroLoadGoOn  go_on;      /* NULL */
  gpointer     user_data;
} CroRoundTaking;

/* Every row of a file, or of a text as it was pasted. Of an invoice the lines stay its own: they are
 * booked when the round is posted, and *taken is NULL. *taken: what was read, the caller's; of what is
 * refused, or a second invoice, nothing is in the round (cro_words_list_refused). taking may be NULL. FALSE with
 * error unset: it was given up, and the round is as it was. */
gboolean     cro_round_take          (CroRound     *self,
                                      const char   *path,
                                      const CroRoundTaking *taking,
                                      CroPriceList **taken,
                                      GError      **error);
gboolean     cro_round_take_text     (CroRound     *self,
                                      const char   *text,
                                      const CroRoundTaking *taking,
                                      CroPriceList **taken,
                                      GError      **error);

/* What stood in rows that the list that was taken last says something else of: "Hake: 10.90 · Smoked eel: 12.40/lb";
 * "": nothing did. Borrowed. */
const char  *cro_round_get_replaced  (CroRound     *self);

/* What the columns of the supplier's tables hold (cro-said-columns.h); NULL: nobody has said. */
void         cro_round_say_columns   (CroRound     *self,
                                      const char   *said);

/* The sheet of a workbook, from 1, in which the prices stand when it is taken again; 0: the first that has some. Of
 * the next workbook nobody has said. */
void         cro_round_say_sheet     (CroRound     *self,
                                      guint         sheet);

/* The day from which its price holds: that of delivery of a line of an invoice. */
CroDate      cro_round_row_get_day   (CroRound          *self,
                                      const CroRoundRow *row);

/* The day of what the book has of its pack since then, which stays in use; CRO_NO_DAY: its price is in use. */
CroDate      cro_round_row_get_newer (CroRound          *self,
                                      const CroRoundRow *row);

/* --- Second look ------------------------------------------------------------------------------------- */

/* Neither posted nor left alone. */
gboolean     cro_round_row_waits     (const CroRoundRow *row);
gboolean     cro_round_row_is_ready  (const CroRoundRow *row);

/* What is asked first; NULL: nothing is. Borrowed. */
const CroListReason *cro_round_row_get_question (const CroRoundRow *row);

/* What answers it: a text to type in its place. Owned; NULL: there is none. */
char        *cro_round_dup_suggestion (CroRound    *self,
                                       guint        index);
gboolean     cro_round_suggest        (CroRound    *self,
                                       guint        index,
                                       GError     **error);

/* "It is right", of the question that is asked first: another waits on. FALSE: that answers nothing; of a line of an
 * invoice of which is asked how much one of what it counts holds, cro_round_suggest and cro_round_hold do. */
gboolean     cro_round_can_be_right   (CroRound    *self,
                                       guint        index);
gboolean     cro_round_is_right       (CroRound    *self,
                                       guint        index,
                                       GError     **error);

/* Of what no ingredient was found: that it is this one, a slot of the copy. */
gboolean     cro_round_can_call       (CroRound    *self,
                                       guint        index);
gboolean     cro_round_call           (CroRound    *self,
                                       guint        index,
                                       guint32      item,
                                       GError     **error);

/* Of a line of an invoice that counts boxes of which nothing says what is in them: that, as "6 x 1 kg". FALSE with
 * error unset: text is no pack. */
gboolean     cro_round_can_hold       (CroRound    *self,
                                       guint        index);
gboolean     cro_round_hold           (CroRound    *self,
                                       guint        index,
                                       const char  *text,
                                       GError     **error);

/* Of a line of an invoice that the book has not booked: what it is where no ingredient was found for it, which is
 * remembered for the supplier's code once it is booked; and that it is given back though the document does not say
 * so. Neither posts a price. CRO_LIST_GOODS_INGREDIENT takes the first back. */
gboolean     cro_round_can_sort       (CroRound    *self,
                                       guint        index);
gboolean     cro_round_sort           (CroRound    *self,
                                       guint        index,
                                       CroListGoods goods,
                                       GError     **error);
gboolean     cro_round_can_turn       (CroRound    *self,
                                       guint        index);
gboolean     cro_round_turn           (CroRound    *self,
                                       guint        index,
                                       gboolean     is_turned,
                                       GError     **error);

/* Of a line that a document gives back: that it is goods, or a part of their price, which stay then. */
gboolean     cro_round_can_give_back  (CroRound    *self,
                                       guint        index);
gboolean     cro_round_give_back      (CroRound    *self,
                                       guint        index,
                                       CroListBack  back,
                                       GError     **error);
/* Whether that is what is asked of it: cro_round_is_right says goods, cro_round_suggest the price. */
gboolean     cro_round_row_asks_back  (const CroRoundRow *row);

/* --- Looking for a row --------------------------------------------------------------------------------- */

/* Whether a text is a word that stands in place of a price: "n/a", "same". */
gboolean     cro_round_is_word       (const char   *text);

/* The row that text fits best, by its name and code, from a row on; CRO_NO_SLOT. */
guint        cro_round_find          (CroRound     *self,
                                      const char   *text,
                                      guint         after);

/* Up or down among the supplier's packs, and kept so in the book as one act. FALSE with error where that
 * failed, without where it cannot move. */
gboolean     cro_round_move          (CroRound     *self,
                                      guint         index,
                                      int           by,
                                      const char   *label,
                                      GError      **error);

/* --- Preferred packs ------------------------------------------------------------------------------------- */

/* Of the copy's items and offers: the pack that is preferred once the round is posted. */
void         cro_round_prefer        (CroRound     *self,
                                      guint32       offer);

/* --- Posting ------------------------------------------------------------------------------------------- */

guint        cro_round_count_ready   (CroRound     *self);
guint        cro_round_count_waiting (CroRound     *self);
guint        cro_round_count_untouched (CroRound   *self);
guint        cro_round_count_filled  (CroRound     *self);

/* A row of table price. */
typedef struct
{
  gint64   id;
  gint64   number[3];    /* price, tax and pack count… */
  gint64   size;
  char    *unit;         /* NULL */
} CroRoundPrice;

/* What one row did, so that it can be taken back alone. */
typedef struct
{
  char    *name;
  char    *price;        /* in words; NULL: it posted none */
  char    *booked;       /* money in words; NULL: nothing was booked of it */
  char    *billed;       /* beside what was quoted, in words; NULL: alike, or nothing was quoted */
  gint64   reclaim;      /* billed above that, in minor units of its document; CRO_NOT_SET: nothing was quoted */
  char    *typed;        /* as it stood in its row; NULL: a line of an invoice */
  guint    line;         /* its place there */
  guint    share_of;     /* the place of the line of whose charges it is a part, from 1; 0: of none */
  CroDate  from;
  char    *last;         /* what the price was before, likewise; NULL */
  char    *pack;         /* where the supplier has several of the ingredient; NULL */
  gint64   offer;        /* id; 0: none */
  gboolean made_offer;
  CroRoundPrice was;     /* the price that it had of that day before */
  gboolean had_row;
  CroRoundPrice put;     /* and what was posted */
  gint64   purchase;     /* id of what was booked; 0: not known, or nothing */
  gboolean is_back;
  gboolean is_over;      /* it is, and a later price of the day stayed in its place */
  gint64   back;         /* the act that took it back last, undone since or not; 0: none, as nothing was to be
                            written */
} CroRoundPosted;

/* A pack that was preferred, or was not, before the posting preferred one of its ingredient. */
typedef struct
{
  gint64   offer;        /* id */
  gboolean was;
} CroRoundPreferred;

typedef struct
{
  gint64     act;        /* 0: the book had all of it, and nothing was written */
  gint64     since;      /* the newest act of the book then: its own, where it wrote one */
  CroDate    from;       /* of its prices: of an invoice alone its own day */
  CroDate    day;        /* of the round, on which figures were looked at */
  GPtrArray *rows;       /* CroRoundPosted * */
  GArray    *preferred;  /* CroRoundPreferred */
  char      *text;       /* what was typed and said, to be put back once it is undone; NULL: nothing was */
  gboolean   has_invoice;
  char      *document;   /* its number; NULL */
  CroDate    delivered;  /* and day of delivery */
  const char *currency;  /* of it, where it is not the book's; NULL: the book's */
  int        digits;     /* of its money */
  char      *kept;       /* where the invoice was kept, and what stood there; NULL: there was none */
  GBytes    *invoice;
  GError    *failed;     /* posted as it is, the round could not go on beside the book of now; NULL */
} CroRoundPost;

void         cro_round_post_free     (CroRoundPost *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroRoundPost, cro_round_post_free)

/* Whether both are of one invoice: two without a number are where they are of one day. */
gboolean     cro_round_posts_same_document (const CroRoundPost *a,
                                            const CroRoundPost *b);

/* What is ready, as one act; what waits stays in the round, beside the book as it is then. An invoice stays
 * as long as a line of it waits. faults: what no table holds. NULL with error: nothing was posted. */
CroRoundPost *cro_round_post         (CroRound     *self,
                                      const char   *label,
                                      CroFaults    *faults,
                                      GError      **error);

/* One row of it, as an act of its own: its price goes, and what was booked of it, with its part of charges. posts:
 * CroRoundPost *, the postings of the same round in their order; NULL: there is no other. A price that one of them
 * posted later for the same pack and day stays. One that was changed since otherwise is refused
 * (CRO_STORE_ERROR_CHANGED). */
gboolean     cro_round_take_back     (CroBook      *book,
                                      const char   *label,
                                      GPtrArray    *posts,
                                      CroRoundPosted *row,
                                      GError      **error);

/* Whether the book has the row again, as its taking back was undone: then it is not back any more; and whether that
 * was redone: then it is. */
gboolean     cro_round_is_restored   (CroBook      *book,
                                      GPtrArray    *posts,
                                      CroRoundPosted *row);
gboolean     cro_round_is_back_again (CroBook      *book,
                                      GPtrArray    *posts,
                                      CroRoundPosted *row);

/* Whether an act of the book stands: it was not undone, or redone since. */
gboolean     cro_round_is_in_force   (CroBook      *book,
                                      gint64        act);

/* What was posted back into its row, where that is left alone, or among the lines of its invoice, which is open again
 * then; and out of it. */
gboolean     cro_round_put_back      (CroRound     *self,
                                      const CroRoundPost *post,
                                      const CroRoundPosted *row,
                                      GError      **error);
gboolean     cro_round_put_out       (CroRound     *self,
                                      const CroRoundPosted *row,
                                      GError      **error);

/* All that is still posted, with what was booked and preferred: rows that were taken back alone since, of whichever
 * posting, come back first, so that nothing is in the way. *conflict, which may be NULL: what is all the same. */
gboolean     cro_round_undo          (CroBook      *book,
                                      GPtrArray    *posts,
                                      CroRoundPost *post,
                                      CroConflict  *conflict,
                                      GError      **error);

/* Whether what was posted can be shown again: no other invoice than its own is open. */
gboolean     cro_round_can_retype    (CroRound     *self,
                                      const CroRoundPost *post);

/* What was typed and said before that posting, once it is undone, with its invoice where none is open. Rows that say
 * something by then keep it. What is typed again so leaves its row by itself where the posting is redone: the round
 * finds that when it is renewed, or put back from a text. */
gboolean     cro_round_retype        (CroRound     *self,
                                      const CroRoundPost *post,
                                      GError      **error);

/* --- Set aside ------------------------------------------------------------------------------------------ */

/* What is typed, as one text, and back, with an invoice that is kept and what was said of its lines. NULL: nothing
 * is. An invoice that cannot be read any more is an error, with all else of the text in the round. */
char        *cro_round_to_text       (CroRound     *self);
gboolean     cro_round_put_text      (CroRound     *self,
                                      const char   *text,
                                      GError      **error);

/* What stands in a text that was put back and is of no pack that the supplier has: the pack was removed, or the text is
 * of another book that stood in this place. "Crab: 69.50 · 12.00"; "": nothing. Borrowed. */
const char  *cro_round_get_unfit     (CroRound     *self);

/* Rows in such a text, and the day from which they hold (CRO_NO_DAY: today). */
guint        cro_round_text_count    (const char   *text);
CroDate      cro_round_text_from     (const char   *text);

/* The path of the invoice that such a text names, to be shown; NULL: it names none. */
char        *cro_round_text_invoice  (const char   *text);

typedef struct
{
  char        *document;     /* "": it has no number */
  const char  *currency;     /* NULL: the book's */
  guint        n_lines;      /* that are not booked */
  gint64       net_value;    /* of them */
} CroRoundBilled;

/* Of the invoice in such a text; FALSE: there is none. */
gboolean     cro_round_text_billed   (const char     *text,
                                      CroRoundBilled *billed);
void         cro_round_billed_clear  (CroRoundBilled *self);

G_END_DECLS
