/* cro-price-list-private.h: what the files that read and match a list share. */
#pragma once

#include "cro-like-names.h"
#include "cro-price-list.h"
#include "cro-price-saying.h"

#include <math.h>

G_BEGIN_DECLS

/* The supplier's packs and the book's ingredients, by what a line can call them. */
typedef struct
{
  CroBook    *book;
  CroModel   *model;
  guint32     supplier;
  gboolean    quotes_base;    /* a price without a pack is per kg, l or piece */
  GHashTable *codes;          /* code → slot of the offer + 1; 0: of several ingredients */
  GHashTable *gtins;          /* 14 digits → slot of the offer + 1, of this supplier */
  GHashTable *gtins_of_all;   /* 14 digits → slot of the item + 1, whose pack it is */
  GHashTable *taxes;          /* slot of an offer → gint64: the tax in its last price of the year that had some */
  GHashTable *spellings;      /* as they are written → the same; they go before the next */
  GHashTable *names;          /* folded → slot of the item + 1 */
  GHashTable *names_in_number; /* folded as if of one → the same; 0: of several */
  guint       n_words;        /* the most in a name that has a number; 0: none has */
  CroLikeNames *likes;        /* of those; NULL: none was asked for (cro-price-list-like.c) */
  GHashTable *no_goods;       /* "(code)", or a folded name, of what an earlier invoice asked for beside ingredients →
                                 CroListGoods; only of an invoice */
  const char *currency;       /* of the supplier's prices; NULL: the book's, which has none */
  const CroListReading *reading; /* NULL; borrowed */
} CroListBook;

gboolean     cro_list_book_init     (CroListBook    *self,
                                     CroBook        *book,
                                     guint32         supplier,
                                     GError        **error);
void         cro_list_book_clear    (CroListBook    *self);

/* A text that lives as long as the list; NULL where it is empty. */
const char  *cro_price_list_keep    (CroPriceList   *self,
                                     const char     *text);

/* The currency that a text names beside a price: the supplier's where the sign could be that; else its
 * code, or the sign where several share it. NULL: none. */
const char  *cro_price_list_currency (CroPriceList      *self,
                                      const CroListBook *of,
                                      const char        *text);

/* Takes whose list it is from a note that begins with another supplier of the book: "From: Mill Lane Dry Goods". */
void         cro_price_list_take_seller (CroPriceList *self,
                                         CroModel     *model,
                                         const char   *note);

/* The currency of one that is named without a number, in a heading or a note: "Price £", "Prix en euros". */
const char  *cro_price_list_currency_of_all (CroPriceList      *self,
                                             const CroListBook *of,
                                             const char        *text);

/* What is said once of all prices, by notes: lines or rows that name no goods. */
typedef struct
{
  CroPriceTax tax;
  gint64      tax_pct;    /* the rate that is said to be in them; 0: none */
  const char *tax_note;   /* the first of it */
  guint       n_before;   /* how many prices stand before that */
  const char *rate_note;  /* "VAT 20 %", which says no more; NULL */
  const char *tax_open;   /* a note of it that is not understood, or contradicts another; NULL */
  gboolean    may_have_tax; /* some note says of tax that it is in prices, of whichever */
  const char *exception;  /* one that may take some out of what others say; NULL */
  const char *currency;   /* NULL */
  CroPricePer per;
  gboolean    is_of_pack; /* "per pack" */
  const char *per_note;   /* the first of those */
  guint       n_before_per; /* how many prices stand before that */
  CroPricePer per_but;    /* for how much they are, but for some goods */
  const char *excepted;   /* those, as the note names them: "celery each"; NULL */
  const char *said_open;  /* one of for how much they are, or in which currency, that is not understood; NULL */
  gboolean    is_currency_open; /* that one is of the currency */
  const char *change;     /* "less 10 %"; NULL */
  const char *other_day;  /* one by which they may not hold on the day of the list; NULL */
} CroListSaid;

typedef enum
{
  CRO_LIST_NOTE_NONE,     /* it says nothing of all, or may be of goods */
  CRO_LIST_NOTE_KEPT,     /* it does, and more: it is shown as a line that is not understood */
  CRO_LIST_NOTE_HEEDED,   /* it says no more than that */
} CroListNote;

/* n_before: how many prices stand before it. */
CroListNote  cro_list_said_take   (CroListSaid       *self,
                                   CroPriceList      *list,
                                   const CroListBook *of,
                                   const char        *note,
                                   guint              n_before);

/* Once all notes are taken: one of tax that stands among n prices may be of those behind it alone. */
void         cro_list_said_settle (CroListSaid       *self,
                                   guint              n);

/* "Price per kg except celery each": keeps what is so, and of what it is not. */
void         cro_list_said_take_exception (CroListSaid  *self,
                                           CroPriceList *list,
                                           const char   *note);

/* Once all rows are read and notes are settled: asks of those goods alone, where no others are named. */
void         cro_list_said_settle_exception (CroListSaid       *self,
                                             CroPriceList      *list,
                                             const CroListBook *of);

/* To a row that does not say it itself. */
void         cro_list_said_apply  (const CroListSaid *self,
                                   CroPriceList      *list,
                                   CroListRow        *row);

/* Asks of a row's price what no row says itself: whether a discount of all is in it, and whether it holds on the day of
 * the list. */
void         cro_list_said_ask    (const CroListSaid *self,
                                   CroPriceList      *list,
                                   CroListRow        *row);

/* Takes a price as one without tax, and asks whether it is, of all of the list at once: where no note says that any
 * has tax. */
void         cro_list_said_ask_tax (CroPriceList *list,
                                    CroListRow   *row,
                                    const char   *note);

/* The most lines over which a sentence is wrapped. */
#define CRO_LIST_MOST_WRAPPED 4

/* How many lines from here have a number, and no word of tax: they are of goods, and in none goes a sentence on. */
guint        cro_list_count_plain   (char          **lines);

/* The first of n lines that name no goods, with those in which its sentence of tax goes on; *n_lines: how many those
 * are, 1 where it does not. Owned. */
char        *cro_list_dup_sentence (const char *const *lines,
                                    guint              n,
                                    guint             *n_lines);

/* Whether price and tax, an amount or a rate, add up to total. */
gboolean     cro_price_list_adds_tax (gint64 price,
                                      gint64 tax,
                                      gint64 total);

/* Whether a price holds an amount of tax or is without it, by its rate in per cent; UNSAID: nothing tells. */
CroPriceTax  cro_price_list_tax_by_amount (gint64 price,
                                           gint64 tax,
                                           gint64 rate_pct);

/* Whether an amount of tax is that of a rate within a price, and of none on top of it. */
gboolean     cro_price_list_may_hold_tax (gint64 price,
                                          gint64 tax);

void         cro_list_row_say       (CroPriceList   *self,
                                     CroListRow     *row,
                                     CroListWhy      why,
                                     const char     *text,
                                     const char     *other);

/* What a person says of a line of an invoice, before it is matched again: whether it is an ingredient; that it is
 * given back, or is not. */
void         cro_list_row_say_goods (CroPriceList  *self,
                                     CroListRow    *row,
                                     CroListGoods   goods);
void         cro_list_row_turn      (CroListRow    *row,
                                     gboolean       is_turned);

/* The same of what a line gives back. */
void         cro_list_row_give_back (CroListRow    *row,
                                     CroListBack    back);

/* Takes back what was said of it and is answered now. */
void         cro_list_row_unsay     (CroListRow     *row,
                                     gboolean      (*is_answered) (const CroListRow *row,
                                                                   CroListWhy        why));

/* The first of its reasons that is so, and of that text (NULL: of none); CRO_NO_SLOT: it has none. */
guint        cro_list_row_find_reason (const CroListRow *row,
                                     CroListWhy        why,
                                     const char       *text);

static inline gboolean
cro_list_is_pack (const CroPack *a,
                  const CroPack *b)
{
  return a->count == b->count && a->size == b->size && a->unit == b->unit;
}

/* Whether two rows of one pack contradict each other in nothing. */
gboolean     cro_list_rows_say_same (const CroListRow *a,
                                     const CroListRow *b);

/* The first sign of a text that no name has, "❌", "~", "‰"; NULL: it has none. */
const char  *cro_list_find_mark     (const char     *text);

/* A line begins after what only lists it (cro-price-list-lead.c). */
const char  *cro_list_skip_bullet   (const char     *line);

/* The same of who wrote a line of a conversation, and when, alone. */
const char  *cro_list_skip_stamp    (const char     *line);

/* Takes the numbers from lines that are counted, "1. ", "2 - ", where it is sure that they are no codes or amounts. */
void         cro_list_strip_ordinals (const CroListBook *of,
                                      char             **lines);

/* Whether another's message follows a line: "On Mon, Upriver wrote:", the head of a mail behind something else. */
gboolean     cro_list_begins_reply  (char          **lines,
                                     guint           i);

/* Whether a line is quoted of another's message: "> Leek 10.00". */
gboolean     cro_list_is_quoted     (const char     *line);

/* "Strong flour 20 kg", "Sugar x12": a pack in a row's name, of which a column may say how many there are, is compared
 * with its own. count: in millionths, 0: none says so. */
void         cro_price_list_read_size (CroPriceList      *self,
                                       gint64             count,
                                       CroListRow        *row);

/* Whether some lines are quoted, and others are not. */
gboolean     cro_list_is_reply      (char          **lines);

/* Words that say that something is not to be had: "rupture", "n/a"; the whole of a cell. */
gboolean     cro_list_says_none     (const char     *cell);

/* Whether it says so by a dash, or by a word that may mean no more than that nothing stands there, "n/a". */
gboolean     cro_list_says_nothing  (const char     *cell);

/* "same", "idem", "=": the whole of a cell. */
gboolean     cro_list_says_same     (const char     *cell);

/* What the words of a line without a price say of what they name; *name: that, folded, the caller's, or
 * NULL. */
typedef enum
{
  CRO_LIST_SAYS_NOTHING,
  CRO_LIST_SAYS_NONE,
  CRO_LIST_SAYS_SAME,
} CroListUnpriced;

CroListUnpriced cro_list_read_unpriced (const char *words,
                                        char      **name);

/* A day in a line that no calendar has: what was meant nobody knows. NULL: none. Owned. */
char        *cro_list_dup_no_day    (const char     *line);

/* Whether they say until when. */
gboolean     cro_list_has_until     (const char     *words);

/* Whether words end in one for what the supplier has no more of, "bones off", "clams out"; *name: what stands before,
 * the caller's. */
gboolean     cro_list_ends_off      (const char     *words,
                                     char          **name);

/* Until when goods are not to be had, "back on Monday", which is no word of their name: cut from its end. Whether they
 * are to be had now nobody says. Folded. */
gboolean     cro_list_cut_return    (char           *name);

/* --- Words of a line that are of its price and not of its name (cro-price-list-phrase.c) --- */

/* "per bag", "la caisse de", "(case)" behind a number, or "bag" alone where is_behind_money: the bytes, *word the word
 * for what the price is for. 0: none. */
gsize        cro_list_scan_package  (const char     *text,
                                     char          **word);

/* Whether a word for a package begins text that may be goods as well: "head", "tin". */
gboolean     cro_list_is_goods_word (const char     *text);

/* Whether a name has a word, however they are written. */
gboolean     cro_list_names_word    (const char     *name,
                                     const char     *word);

/* Whether a word for a package beside a name of the book may be of what is called otherwise: "2.5 kg tin", but for what
 * the supplier sells in that size. */
gboolean     cro_list_may_be_of_name (const CroListBook *of,
                                      const char     *name,
                                      const CroPack  *pack,
                                      const char     *word);

/* "net", "net weight" behind a price, which *word is then. 0: none. */
gsize        cro_list_scan_net      (const char     *text,
                                     char          **word);

/* "à", "@", "at", "now" before a number, or before a currency and a number: the bytes of it. 0: none. */
gsize        cro_list_scan_lead     (const char     *text);

/* Cents behind a whole number and its currency: "14 € 90", "4€20 le kg". money: the bytes of those two that text begins
 * with. *cents in millionths; 0: none. */
gsize        cro_list_scan_cents    (const char     *text,
                                     gsize           number,
                                     gsize           money,
                                     gint64         *cents);

/* A name that the book does not have, where it has it without the words around it that are of the price, "bag of
 * mussels", "Mussels, all sizes": that name, and *word as above or NULL. has_unit: the price says what it is for. NULL:
 * the book has neither. Both owned. */
char        *cro_list_dup_bare_name (const CroListBook *of,
                                     const char     *name,
                                     gboolean        has_unit,
                                     char          **word);

/* Whether the book has an ingredient of that name. */
gboolean     cro_list_book_has_name (const CroListBook *of,
                                     const char     *name);

/* The ingredient of that name; CRO_NO_SLOT: none, or which one it is is not clear. */
guint32      cro_list_book_find_name (const CroListBook *of,
                                      const char     *name);

/* That of a row's code, or of its name. */
guint32      cro_list_book_find_row  (const CroListBook *of,
                                      const CroListRow  *row);

/* What stands beside the whole name of an offer's ingredient, "Leek OUT", where it is neither known to say nothing of
 * its price nor the offer's own pack. NULL: nothing does, or the text calls it otherwise. *is_article: no word of it is
 * known to be of prices: it may be the supplier's name of the article. Owned. */
char        *cro_list_dup_beside_name (const CroListBook *of,
                                       const char        *supplier,
                                       guint32            offer,
                                       const char        *text,
                                       gboolean          *is_article);

/* Of rows that are asked for such a name alone: the next, in *names, NULL where none came before it; and one question
 * for all of them, with which *names is NULL. text is kept by the list. */
void         cro_list_names_add (GArray      **names,
                                 guint         row,
                                 const char   *text);
void         cro_list_names_ask (GArray      **names,
                                 CroPriceList *list);

/* Whether the supplier's packs of an ingredient have one of that size, or of several of it. */
gboolean     cro_list_book_sells    (const CroListBook *of,
                                     guint32         item,
                                     const CroPack  *pack);

/* Whether a word for what a price is for means net. */
gboolean     cro_list_is_net        (const char     *word);

/* Whether the price of a line is that of a pack, whatever the supplier's others are for. */
gboolean     cro_list_is_of_pack    (const CroListRow *row);

/* Whether it may be that of one of several in a pack: a bottle of 6 × 1 l. */
gboolean     cro_list_is_part_of    (const CroListRow *row,
                                     const CroPack    *pack);

/* "%" or words for it, which begin text, with the space before them: the bytes; 0: none. */
gsize        cro_list_scan_pct      (const char     *text);

/* A sign that begins text: 1, -1 and its bytes; 0: none. */
int          cro_list_scan_sign     (const char     *text,
                                     gsize          *bytes);

/* Which way a price went by the words that end a name, "en hausse de", which are taken from it: 1: more; -1: less;
 * 0: they say nothing of that. */
int          cro_list_take_way      (GString        *name);

/* The same of words that begin text, "de moins": the bytes of them; 0: none. */
gsize        cro_list_scan_way      (const char     *text,
                                     int            *way);

/* Whole words in a folded text; NULL. Borrowed. */
const char  *cro_list_find_words    (const char     *folded,
                                     const char     *words);

/* Whether it is carriage or a deposit, by its name; of what goes back, by all of it. */
gboolean     cro_list_is_no_goods   (const char     *name,
                                     gboolean        is_return);

/* Whether the reading goes on. */
gboolean     cro_list_book_goes_on  (const CroListBook *self,
                                     double             done);

/* What was billed against what was quoted, of every row and in all. */
void         cro_price_list_compare (CroPriceList *self);

/* How many rows wait. */
void         cro_price_list_count_waiting (CroPriceList *self);

/* Rows as they are written. */
void         cro_price_list_take_invoice (CroPriceList     *self,
                                          const CroInvoice *invoice,
                                          const CroListBook *of);
/* Its allowances and charges, as they are to be taken. */
void         cro_price_list_take_whole   (CroPriceList     *self,
                                          CroListWhole      whole);
/* What each line takes of those that are spread, and of what the document comes to in the currency of the book; anew
 * after each answer that says what is goods and what is given back. */
void         cro_price_list_share        (CroPriceList     *self,
                                          CroModel         *model);
/* A row for the part of a line, by its index, that is booked without it as item; what it comes to the next
 * cro_price_list_share says. */
void         cro_price_list_add_share    (CroPriceList     *self,
                                          CroModel         *model,
                                          guint             line,
                                          guint32           item);
/* What was said of lines of the list, before they are matched. */
void         cro_price_list_take_answers (CroPriceList         *self,
                                          const CroListReading *reading);
/* FALSE: it is no table of prices. Where nothing could be read of it self->columns is NULL, with error set or, where
 * it was given up, unset. */
gboolean     cro_price_list_take_table   (CroPriceList     *self,
                                          const char       *path,
                                          const CroListBook *of,
                                          GError          **error);
/* Whether it is one all the same, of other headings: a text whose rows have as many cells as a row of words. */
gboolean     cro_price_list_is_table     (const CroBrought *brought);
gboolean     cro_price_list_take_message (CroPriceList     *self,
                                          const char       *path,
                                          const CroListBook *of,
                                          GError          **error);

/* A text in which every blank is an ordinary one, but for those that group digits, without signs that nobody sees.
 * Owned. */
char        *cro_price_list_dup_plain    (const char       *text);

/* The text of a file, made valid and plain; NULL with error. Owned. */
char        *cro_price_list_read_text    (const char       *path,
                                          GError          **error);

/* The decimal sign of a message, or of a line that stands alone: the one that stands before one or two digits, and
 * never the other. */
char         cro_price_list_decimal_of   (const char       *text);

/* An empty list of a supplier, with what is found by. FALSE with error: *list is to be freed all the same,
 * and of is clear. */
gboolean     cro_price_list_begin   (CroBook        *book,
                                     const char     *supplier,
                                     CroDate         from,
                                     CroPriceList  **list,
                                     CroListBook    *of,
                                     GError        **error);

/* One line of a message, which is all of it. FALSE: nothing stands in it. */
gboolean     cro_price_list_take_line (CroPriceList      *self,
                                       const CroListBook *of,
                                       const char        *line,
                                       CroListRow        *row);

/* A pack in words, "5kg bag", and the words beside it. FALSE: there is none, and row is as it was. */
gboolean     cro_price_list_read_pack (CroPriceList      *self,
                                       const CroListBook *of,
                                       const char        *text,
                                       CroListRow        *row);

/* What the book holds of one line, whatever other lines say. */
gboolean     cro_price_list_match_row (CroPriceList   *self,
                                       CroListBook    *of,
                                       CroListRow     *row,
                                       GError        **error);

/* The price of a line in another currency as one in its pack's. FALSE: there is no rate. */
gboolean     cro_price_list_convert (CroListBook      *of,
                                     const CroListRow *row,
                                     gint64           *price);

/* What the supplier's prices are for where no unit is said. */
CroUnit      cro_price_list_unit_of_quotes (CroModel *model,
                                            guint32   item);

/* A price of a pack as one per unit, to six places. FALSE: they are of other bases. */
gboolean     cro_list_price_of_one  (const CroPack *pack,
                                     gint64         price,
                                     CroUnit        unit,
                                     gint64        *one);

/* One of the line's pack as one per kg, l or piece of its ingredient, where that leads back to it. */
gboolean     cro_list_exact_of_one  (CroModel         *model,
                                     const CroListRow *row,
                                     gint64            price,
                                     gint64           *one);

/* A line while it is matched. */
typedef struct
{
  CroPriceList *list;
  CroListBook  *of;
  CroModel     *model;
  GHashTable   *seen;   /* "item\ncode" → index of the row + 1; NULL: the line stands alone */
} CroListMatching;

/* Whether a price is stated per so much where it is no pack: 100 g or 100 ml (Directive 98/6/EC, article 2, from
 * memory, names a kilogram, a litre and what a country uses beside them), or one of the pack that is sold; own may be
 * of no size. */
gboolean cro_list_is_stated_per (const CroPack *own,
                                 const CroPack *said);

/* A price of one pack as that of another, rounded once. FALSE: they are of other bases, and it stays. */
gboolean cro_list_price_in_pack (const CroPack *from,
                                 const CroPack *pack,
                                 gint64        *price);

/* As "+5 %" in a cell: its price, the last one, by its change_pct, as the supplier states it. FALSE: there is none. */
gboolean cro_list_row_change (const CroListBook *of,
                              CroListRow        *row);

/* What tax a pack's price has in it, or one of the year before had; 0: none. */
gint64   cro_list_tax_before (const CroListBook *of,
                              guint32            offer);

/* Whether a number of pieces is such a pack by its count. */
gboolean cro_list_counts_pack (const CroPack *pack,
                               const CroPack *said);

/* Asks where a size is that of another pack of the supplier's than the row's. */
void     cro_list_check_size (CroListMatching *self,
                              CroListRow      *row);

/* The ingredient and the supplier's pack that a line is of, or what is asked of them (cro-price-list-find.c). FALSE: it
 * names none of the book. */
gboolean cro_list_row_find (CroListMatching *self,
                            CroListRow      *row);

/* A list obeys what it says of tax; at what rate it may say too, else its last prices tell. */
void     cro_list_settle_tax (CroListMatching *self,
                              CroListRow      *row);

/* For how much its price is: of a line without an ingredient what it says itself, else that of its pack; and
 * as an offer of the day. */
void         cro_list_settle_stranger (CroListRow *row);
void         cro_list_settle_pack (CroListMatching *self,
                                   CroListRow      *row);
CroOffer     cro_list_offer_of (CroListMatching  *self,
                                const CroListRow *row);

/* Asks for how much a price is where the list leaves that open, or has another size beside it. */
void         cro_list_check_measure (CroListMatching *self,
                                     CroListRow      *row);

/* Whether a number is as much as a pack, where n of it, in millionths, are said to be in it, or else as one of those
 * in it; without a unit also how many there are. unit may be NULL; n is CRO_NOT_SET where that is not clear.
 * is_counted: n is of packages, of which there are as many in the pack. */
gboolean     cro_list_is_size_of (const CroPack *pack,
                                  gint64         number,
                                  const CroUnit *unit,
                                  gint64         n,
                                  gboolean       is_counted);

/* Whether a number is that of the pack with what is packed around it, or about. */
gboolean cro_list_is_about   (const CroPack *pack,
                              gint64         number,
                              CroUnit        unit);

/* Those in which the sizes of packs are written. */
#define CRO_LIST_N_EVERYDAY 5
extern const CroUnit cro_list_everyday[CRO_LIST_N_EVERYDAY];

/* Whether the supplier sells that pack of what a row is called or coded. */
gboolean     cro_list_book_sells_pack (const CroListBook *of,
                                       const CroListRow  *row,
                                       const CroPack     *pack);

/* The pack of a row's code, or the only one that the supplier sells of what the row is called. */
gboolean     cro_list_book_one_pack (const CroListBook *of,
                                     const CroListRow  *row,
                                     CroPack           *pack);

/* "Unit price" beside a pack of several asks for which it is, where no last price tells. */
void         cro_list_check_unit_price (CroListMatching *self,
                                        CroListRow      *row);

/* A price brings no pack back that was bought until a day before that of the list, or of an invoice's delivery. */
void         cro_list_say_given_up (CroListMatching *self,
                                    CroListRow      *row);

/* A pack of pieces that was said of an earlier invoice. FALSE with error. */
gboolean     cro_list_settle_pieces (CroListMatching *self,
                                     CroListRow      *row,
                                     GError         **error);

/* A price in the line's currency as one in its pack's, at the day's rate, or back. FALSE: there is none. */
gboolean     cro_list_convert_currency (CroListMatching  *self,
                                        const CroListRow *row,
                                        gboolean          is_back,
                                        gint64           *price);

/* How far a price is from another one, whichever is the larger: ratio is one over the other. */
static inline double
cro_list_distance_of (double ratio)
{
  return fabs (log (ratio));
}

/* Within the last of six places. */
gboolean     cro_list_is_same_price (gint64 a,
                                     gint64 b);

/* What was quoted on the day of delivery; the price before; what asks for a second look; the currency, which
 * asks where it is not the pack's. */
gboolean     cro_list_read_quoted (CroListMatching  *self,
                                   CroListRow       *row,
                                   GError          **error);
void         cro_list_look_back (CroListMatching *self,
                                 CroListRow      *row);
gboolean     cro_list_look_twice (CroListMatching  *self,
                                  CroListRow       *row,
                                  GError          **error);

/* Of what goes back whether its pack is another, and whether goods or their price go back (cro-price-list-billed.c). */
gboolean     cro_list_look_at_return (CroListMatching  *self,
                                      CroListRow       *row,
                                      GError          **error);
/* Once all lines of the document are known: one may ask for what another gives back. */
void         cro_list_settle_return  (CroListMatching  *self,
                                      CroListRow       *row);
/* Asks where more goes back than was bought, once all lines of the document are known. FALSE with error. */
gboolean     cro_list_check_returned (CroListMatching  *self,
                                      CroListRow       *row,
                                      GError          **error);
/* The last day on which goods were booked at the price of a line; CRO_NO_DAY: none were. FALSE with error. */
gboolean     cro_list_last_billed    (CroListMatching   *self,
                                      const CroListRow  *row,
                                      CroDate           *day,
                                      GError           **error);
/* What is given back of the price alone asks nothing of a pack. */
void         cro_list_say_price_back (CroListMatching  *self,
                                      CroListRow       *row);

/* How far a price may lie from the one that was meant: that of an invoice's line is its money, which was rounded to the
 * minor unit, over its quantity. */
double       cro_list_price_rounding (const CroListRow *row);
/* The same of a pack that the supplier has not sold so far: beside the others of the ingredient. */
void         cro_list_look_beside (CroListMatching *self,
                                   CroListRow      *row);
/* Book currency for one; NaN: there is no rate. */
double       cro_list_rate_of (CroListMatching *self,
                               const char      *currency);
/* A code that differs from one of the ingredient's packs by zeros before it, case or signs asks. */
void         cro_list_check_code (CroListMatching *self,
                                  CroListRow      *row);
void         cro_list_check_currency (CroListMatching *self,
                                      CroListRow      *row);

/* Says which names are like that of a line that was not found. */
void     cro_list_suggest    (CroListMatching  *self,
                              CroListRow       *row);

/* What the book holds of each. */
gboolean     cro_price_list_match   (CroPriceList   *self,
                                     CroListBook    *of,
                                     GError        **error);

G_END_DECLS
