/* cro-round-private.h: what the files of a round share. */
#pragma once

#include "cro-price-list-private.h"
#include "cro-round.h"

G_BEGIN_DECLS

struct _CroRound
{
  CroBook      *book;
  char         *own;         /* what tells the book from any other (cro_round_dup_own) */
  guint64       edition;     /* of the book when it was copied */
  CroBook      *draft;       /* the copy */
  gint64        supplier;    /* id */
  CroDate       from;
  CroListBook   of;          /* of the copy */
  gboolean      has_of;
  CroPriceList *list;        /* without rows: what is read and asked is kept there */
  CroPriceList *invoice;     /* NULL */
  char         *invoice_path; /* of its file, to read it again beside another copy */
  gboolean      is_pasted;   /* that is a file of the round's own */
  char         *kept;        /* the path of one that outlives the round; NULL: nobody has said */
  gboolean      is_kept;     /* that is the file: it outlives the round, until the invoice leaves it */
  CroListWhole  whole;       /* what becomes of the invoice's allowances and charges */
  gboolean      is_seller_right; /* it is the supplier's, whoever it names */
  guint         sheet;       /* of the workbook that was taken last, from 1; 0: nobody has said */
  char         *columns;     /* of the supplier's tables, as somebody said; NULL */
  GPtrArray    *rows;        /* CroRoundRow * */
  GHashTable   *packs;       /* slot of an offer + 1 → the row of that pack */
  GHashTable   *drafted;     /* likewise → the row that is in the figures */
  GArray       *unsorted;    /* guint32: slots of items whose packs are in the copy and not in its order yet */
  GHashTable   *twins;       /* while many rows are read: rows by what they have in common; NULL */
  GString      *unfit;       /* of a text that was put back, what is of no pack of the supplier's, in words */
  GString      *replaced;    /* what stood in rows that the list taken last has, in words */
  GArray       *preferred;   /* gint64: ids of offers */
  GHashTable   *of_book;     /* slots of the copy + 1: the packs that the book prefers */
  GArray       *order;       /* likewise, as the list that was taken last has them */
};

/* A line as cro_round_add takes it; is_taken: it is out of a list, and waits as it did there. */
gboolean     cro_round_add_line   (CroRound    *self,
                                   const char  *line,
                                   gboolean     is_taken,
                                   guint       *index,
                                   GError     **error);

/* As cro_round_type, of a text that was typed beside another last price: one that rests on it asks where that moved. */
gboolean     cro_round_type_beside (CroRound   *self,
                                   guint        index,
                                   const char  *text,
                                   gint64       base,
                                   GError     **error);

/* Whether what stands in the row rests on the last price, "+5 %" and "="; and whether that moved since. */
gboolean     cro_round_row_is_relative (const CroRoundRow *row);
gboolean     cro_round_row_is_moved (const CroRoundRow *row);
void         cro_round_ask_moved  (CroRound    *self,
                                   CroRoundRow *row);

/* What it comes to on the last price beside which it was typed. FALSE: nothing. */
gboolean     cro_round_meant_before (CroRound          *self,
                                   const CroRoundRow *row,
                                   CroListRow        *list);

CroRoundRow *cro_round_row_new    (void);
void         cro_round_row_free   (CroRoundRow *row);

/* Its rows beside a copy of the book; what is left of both on failure is cleared by leaving it. */
gboolean     cro_round_copy_book  (CroRound    *self,
                                   CroDate      from,
                                   GError     **error);
void         cro_round_leave_copy (CroRound    *self);
void         cro_round_drop_invoice (CroRound  *self);

/* What was said of the invoice as a whole goes with it: nothing of that is said of the next. */
void         cro_round_forget_whole (CroRound *self);

/* As cro_round_renew, with the invoice or without it. */
gboolean     cro_round_renew_with (CroRound    *self,
                                   CroDate      from,
                                   gboolean     with_invoice,
                                   GError     **error);

/* Where the supplier's packs stand in his list: id → its place in millionths, gint64 *, of those that have one. Owned;
 * NULL with error. */
GHashTable  *cro_round_read_positions (CroRound *self,
                                   CroStore    *store,
                                   GError     **error);

/* A row by the id of its pack; that of a pack that is neither added nor billed. CRO_NO_SLOT: none. */
guint        cro_round_find_id    (CroRound    *self,
                                   gint64       id);
CroRoundRow *cro_round_row_of_offer (CroRound  *self,
                                     guint32    offer);

/* Texts of a row live as long as the list that they were read of: the round keeps them. */
void         cro_round_keep_texts (CroRound    *self,
                                   CroListRow  *list);

/* Reads what is typed into the row of a pack, and what is asked about it (cro-round-read.c). */
gboolean     cro_round_read       (CroRound    *self,
                                   CroRoundRow *row,
                                   GError     **error);

/* The same of a row that is added. */
gboolean     cro_round_read_line  (CroRound    *self,
                                   CroRoundRow *row,
                                   GError     **error);

/* Another row of the same pack that is not left alone; NULL. */
CroRoundRow *cro_round_find_twin  (CroRound          *self,
                                   const CroRoundRow *row);

/* Whether both are of one pack, and one of them says a price. */
gboolean     cro_round_are_twins  (const CroRoundRow *row,
                                   const CroRoundRow *other);

/* Whether any other row of it is not left alone, one that says no price too. */
gboolean     cro_round_has_rival  (CroRound          *self,
                                   const CroRoundRow *row);

/* Around the reading of many rows that were empty, or are emptied: a row is not compared with all others, and the
 * figures are settled once, at the end. */
void         cro_round_begin_many  (CroRound          *self);
void         cro_round_end_many    (CroRound          *self);
/* Meanwhile: others find it from now on. */
void         cro_round_note_twin   (CroRound          *self,
                                    CroRoundRow       *row);
/* Before it is freed: nothing finds it any more. */
void         cro_round_forget_twin (CroRound          *self,
                                    const CroRoundRow *row);

/* Whether it asks which of two prices of its pack holds. */
static inline gboolean
cro_round_row_is_twice (const CroRoundRow *row)
{
  return cro_list_row_is_twice (&row->list);
}

/* Asks about a row whose list part is read. */
gboolean     cro_round_match      (CroRound    *self,
                                   CroRoundRow *row,
                                   GError     **error);

/* The offer's price of a day. *found: whether it has one. */
gboolean     cro_round_read_price (CroBook         *book,
                                   gint64           offer,
                                   CroDate          from,
                                   CroRoundPrice   *row,
                                   gboolean        *found,
                                   GError         **error);

/* Within an act of a trial: the pack's price of the day as the row posted it, whatever was made of it since. posts: as
 * of cro_round_take_back. */
gboolean     cro_round_put_price  (CroBook              *book,
                                   GPtrArray            *posts,
                                   const CroRoundPosted *row,
                                   GError              **error);

/* Within an act of that book, or of a trial of it: the pack's price of the day as it was before the row was posted,
 * and before what it took the place of and is taken back by now. posts: as of cro_round_take_back. */
gboolean     cro_round_restore_price (CroBook              *book,
                                      GPtrArray            *posts,
                                      const CroRoundPosted *row,
                                      GError              **error);

/* The slot of a pack that the book has still; CRO_NO_SLOT: it was removed. */
guint32      cro_round_slot_of    (CroModel    *model,
                                   gint64       offer);

/* What is typed and ready, with an invoice that is kept, and without packs that are preferred; NULL: nothing is. What
 * waits stays in the round. Owned. */
char        *cro_round_dup_posted_rows (CroRound *self);

/* Whether the book has again what stands in a row, as what undid its posting was undone itself. */
gboolean     cro_round_row_is_posted_again (CroRound          *self,
                                            const CroRoundRow *row);

/* As it would be typed: "69.50", "17.38/kg", "69.50/4 kg". Owned. */
char        *cro_round_dup_typed  (CroRound          *self,
                                   const CroListRow  *list);

/* Likewise, with its pack, whatever the row's is: "8.50/6 × 100 g". Owned. */
char        *cro_round_dup_typed_of_pack (CroRound         *self,
                                          const CroListRow *list);

/* As it is read: in whole minor units where it is 1 or more. Owned. */
char        *cro_round_dup_shown  (CroRound          *self,
                                   const CroListRow  *list);

/* Likewise, with its pack, whatever the row's is. Owned. */
char        *cro_round_dup_shown_of_pack (CroRound         *self,
                                          const CroListRow *list);

/* The last price as one per kg, l or piece, to six places. FALSE: the pack is of another base. */
gboolean     cro_round_price_of_one (CroRound         *self,
                                     const CroRoundRow *row,
                                     gint64           *one);

/* What a line says, for who reads it in the sheet: as it stood there where it is not wholly understood. Read
 * again it says the same, but for a code that the supplier has not used yet, which would be part of the
 * name. Owned. */
char        *cro_round_dup_line   (CroRound          *self,
                                   const CroListRow  *list);

/* A row becomes what a list's says, which was read as `read`. It is not drafted. */
void         cro_round_put_list   (CroRound          *self,
                                   CroRoundRow       *row,
                                   const CroListRow  *from,
                                   const CroListRow  *read);

/* What a list says of a row beside the copy, and what is asked about it. */
gboolean     cro_round_read_listed (CroRound    *self,
                                   CroRoundRow  *row,
                                   GError      **error);

/* What a list says of a row, before it was matched, in one line: fields apart by tabs, each its word and its value; and
 * back. NULL: it says nothing. Both owned, texts of the second are the round's. */
char        *cro_round_list_to_text (const CroListRow *list);
CroListRow  *cro_round_list_from_text (CroRound   *self,
                                   const char     *text);

/* The word for a question in such a text; NULL: it is asked anew as the row is matched. And a question by that word and
 * its texts, "" where it has none; FALSE: it is none, or lacks one. */
const char  *cro_round_why_to_text (CroListWhy     why);
gboolean     cro_round_reason_from_text (CroRound *self,
                                   const char     *word,
                                   const char     *text,
                                   const char     *other,
                                   CroListReason  *reason);

/* The book by its first act, which no other has: of one that was loaded anew too. Owned. */
char        *cro_round_dup_own    (CroBook        *book);

/* Of a text that is set aside: the word that begins a line, which goes on behind it. Owned. */
char        *cro_round_take_word  (const char    **line);

/* The invoice among that text, where it is kept and lines of it are open; and its file as that names it, again. What
 * was said of a line becomes one of answers, a CroRoundRow; what becomes of its allowances and charges. */
void         cro_round_write_invoice (CroRound    *self,
                                   GString        *to);
gboolean     cro_round_take_kept  (CroRound       *self,
                                   const char     *line,
                                   GError        **error);
void         cro_round_read_answer (GPtrArray     *answers,
                                   const char     *line);
CroListWhole cro_round_read_whole (const char     *code);

/* What g_strescape() made, whoever changed it since: a stroke at its end is of nothing. Owned. */
char        *cro_round_dup_bytes  (const char     *escaped);
char        *cro_round_dup_text   (const char     *escaped);

/* What a list left open of a row of the book, of which the price that is typed there says nothing, stays so. */
gboolean     cro_round_leave_open (CroRound            *self,
                                   CroRoundRow         *row,
                                   const CroListReason *reason,
                                   GError             **error);

/* What somebody said of a row of the copy, whether it was asked or not: that its price is right, and that of several of
 * its pack it is the one that holds. */
gboolean     cro_round_say_right  (CroRound     *self,
                                   CroRoundRow  *row,
                                   gboolean      is_right,
                                   gboolean      is_chosen,
                                   GError      **error);

/* What was said so of a row of another copy, unless its last price, on which it rests, moved since. */
gboolean     cro_round_right_again (CroRound           *self,
                                   CroRoundRow        *row,
                                   const CroRoundRow  *before,
                                   GError            **error);

/* The same of a row of another copy. is_of_day: both are of one day. */
gboolean     cro_round_list_again (CroRound          *self,
                                   const CroRoundRow *before,
                                   gboolean           is_of_day,
                                   GError           **error);

/* The lines of the invoice that the book has not booked, and what is said of them (cro-round-billed.c). */
void         cro_round_take_billed (CroRound   *self);
gboolean     cro_round_billed_can_be_right (CroRound          *self,
                                            const CroRoundRow *row);
void         cro_round_billed_is_right (CroRound    *self,
                                        CroRoundRow *row);
gboolean     cro_round_billed_call (CroRound     *self,
                                    CroRoundRow  *row,
                                    const char   *name,
                                    GError      **error);
gboolean     cro_round_billed_hold (CroRound      *self,
                                    CroRoundRow   *row,
                                    const CroPack *pack,
                                    GError       **error);
gboolean     cro_round_billed_sort (CroRound      *self,
                                    CroRoundRow   *row,
                                    CroListGoods   goods,
                                    GError       **error);
gboolean     cro_round_billed_turn (CroRound      *self,
                                    CroRoundRow   *row,
                                    gboolean       is_turned,
                                    GError       **error);
gboolean     cro_round_billed_give_back (CroRound    *self,
                                    CroRoundRow   *row,
                                    CroListBack    back,
                                    GError       **error);
gboolean     cro_round_answer_again (CroRound   *self,
                                     GPtrArray  *before,
                                     GError    **error);

/* Another row has, or had before it was posted, another price of the same pack: nothing of this one is taken. number:
 * of a line of the same list; NULL. */
void         cro_round_ask_twice  (CroRound    *self,
                                   CroRoundRow *row,
                                   const char  *number);

/* Asks that of a row that is matched, and of its twin, where both say something else. */
void         cro_round_check_twin (CroRound    *self,
                                   CroRoundRow *row);

/* Likewise where it asked so before, and is not right, and asks no more: the other may be posted by now. */
void         cro_round_ask_twice_again (CroRound          *self,
                                   CroRoundRow       *row,
                                   const CroRoundRow *before);

/* In the copy, whose figures show it, or show it no more, once they are settled; all: they are. */
void         cro_round_draft      (CroRound    *self,
                                   CroRoundRow *row);
void         cro_round_undraft    (CroRound    *self,
                                   CroRoundRow *row);
void         cro_round_settle     (CroRound    *self);
void         cro_round_draft_all  (CroRound    *self);
void         cro_round_undraft_all (CroRound   *self);

G_END_DECLS
