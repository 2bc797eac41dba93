/* cro-new-prices-private.h: what the files of the sheet share. */
#pragma once

#include "cro-new-prices.h"

#include "cro-bubble.h"
#include "cro-round-panel.h"
#include "cro-round-rows.h"
#include "cro-round-words.h"

G_BEGIN_DECLS

enum
{
  HEAD,
  ROWS,
  PANEL,
  FOOT,
  N_PARTS,
};

typedef struct _CroTaking CroTaking;

struct _CroNewPrices
{
  GtkWidget      parent_instance;

  GtkWidget     *parts[N_PARTS];
  int            body;         /* how high the rows and what they do are */
  GtkWidget     *below;        /* the rows, and in a tight sheet what they do */
  gboolean       is_tight;     /* so low for its text that each row has one line */
  guint          tight_id;     /* it becomes so, or is it no more, when it fires */
  GtkWidget     *title;
  GtkWidget     *from;
  GtkWidget     *past;         /* what a day other than today means */
  CroBubble     *no_day;       /* why what stands in the field of the day is none */
  GtkWidget     *invoice_box;  /* while one is open */
  GtkWidget     *invoice;      /* its number, dates, money */
  GtkWidget     *whole_box;    /* while the invoice has charges on the whole */
  GtkWidget     *whole;        /* what becomes of them */
  GtkWidget     *seller_box;   /* while a document of another supplier of the book is refused */
  GtkWidget     *seller_other; /* a button: take it there */
  GtkWidget     *seller_own;   /* a button: it is this one's */
  guint32        seller;       /* that other supplier, a slot of the book */
  GtkWidget     *quotes;
  GtkWidget     *terms;        /* "net · EUR" */
  CroRoundRows  *rows;
  CroRoundPanel *panel;
  GtkWidget     *counts;
  GtkWidget     *next;         /* a button: to the next row that waits */
  GtkWidget     *fill;
  GtkWidget     *aside;
  GtkWidget     *post;
  GtkWidget     *posted_box;
  GtkWidget     *posted_label;
  GtkWidget     *posted_rows;  /* a menu button */
  GtkWidget     *message;
  GtkWidget     *columns_open; /* a toggle button: of the list that was taken last */
  GtkWidget     *columns_box;
  GtkWidget     *columns;      /* CroBringColumns */
  GtkWidget     *sheet_row;    /* where the list is a workbook of several sheets */
  GtkWidget     *sheet;
  GtkWidget     *dated;        /* a button: the day that the list says */
  GtkWidget     *doing_box;    /* while a list is read */
  GtkWidget     *doing;
  GtkWidget     *progress;
  GtkWidget     *cancel;

  CroBench      *bench;        /* borrowed */
  GtkWidget     *before;       /* that had the focus; weak */
  CroRound      *round;        /* NULL while a list is read: it is the thread's then */
  CroRoundView  *view;
  GPtrArray     *posts;        /* CroRoundPost *, in their order */
  GPtrArray     *undone;       /* likewise; they may be redone */
  CroRoundView  *did_view;     /* of those; NULL: nothing of them is in force, or that could not be read */
  CroRoundEffect *did;
  CroTaking     *taking;       /* the list that is read; NULL */
  GCancellable  *work;
  guint          move_id;
  guint          day_id;       /* the day that was typed is taken when it fires */
  guint          gone_id;      /* the supplier is no more: the sheet goes when it fires */
  guint          aside_id;     /* what is typed is written when it fires */
  CroPriceList  *taken;        /* the last table, whose columns can be said; NULL */
  char          *path;         /* what was taken last, to take it again; NULL */
  char          *text;
  CroDate        today;        /* when the sheet was opened */
  gboolean       is_day_told;  /* the message says that none stands there */
  gboolean       is_day_right; /* another than today is */
  gboolean       is_setting;
};

/* What is said at the foot; NULL: nothing. */
void cro_new_prices_say          (CroNewPrices   *self,
                                  const char     *text);
/* Takes error. */
void cro_new_prices_fail         (CroNewPrices   *self,
                                  GError         *error);

/* What is typed as it is now: how many rows, what they do, kept for later. */
void cro_new_prices_moved        (CroNewPrices   *self);

/* The round is beside another copy of the book: what stood before is read anew. */
void cro_new_prices_show_before  (CroNewPrices   *self);

/* Where the book has changed since the round was read beside it. */
void cro_new_prices_catch_up     (CroNewPrices   *self);

/* The day that is typed. FALSE: it is none, which is said beside it. */
gboolean cro_new_prices_take_day (CroNewPrices   *self);

/* Parts that are called by each other: their buttons. */
void cro_new_prices_from_left_cb (CroNewPrices   *self);
void cro_new_prices_from_activate_cb (CroNewPrices *self);
void cro_new_prices_quotes_cb    (CroNewPrices   *self);
void cro_new_prices_use          (CroNewPrices   *self,
                                  guint           offer);

/* What is typed would do, and what was posted did. */
void cro_new_prices_show_effect  (CroNewPrices   *self);

void cro_new_prices_leave_out_cb (CroNewPrices   *self);
void cro_new_prices_say_whole    (CroNewPrices   *self,
                                  CroListWhole    whole);

/* --- cro-new-prices-invoice.c -------------------------------------------------------------------- */

GtkWidget *cro_new_prices_whole_new (CroNewPrices *self);
GtkWidget *cro_new_prices_seller_new (CroNewPrices *self);
void cro_new_prices_show_whole   (CroNewPrices   *self);

/* Whether posting waits for what becomes of the charges on a whole invoice; it is asked then. */
gboolean cro_new_prices_asks_whole (CroNewPrices *self);

/* Of what was just taken: asks whose it is where another supplier of the book is its seller. list may be NULL. */
void cro_new_prices_ask_seller   (CroNewPrices   *self,
                                  const CroPriceList *list);

/* --- cro-new-prices-aside.c ---------------------------------------------------------------------- */

/* What was set aside of a supplier, by id; NULL: nothing. Owned. */
char *cro_new_prices_dup_aside   (CroBook        *book,
                                  gint64          supplier);
/* The text in the field of the day that could not be read, set aside with the rest; NULL: there was none. Owned. */
char *cro_new_prices_dup_unread_day (CroNewPrices *self);
/* Keeps it as it is now, soon; and what is to be kept, now. */
void cro_new_prices_keep_aside   (CroNewPrices   *self);
void cro_new_prices_write_aside  (CroNewPrices   *self);
/* The invoice that was taken stays among it, whatever becomes of its file; one that stays already does. */
void cro_new_prices_keep_invoice (CroNewPrices   *self);
/* Into the round, which has nothing yet. aside: NULL: nothing. *lost: what of it could not be, and why. */
void cro_new_prices_take_up      (CroNewPrices   *self,
                                  const char     *aside,
                                  char          **lost);
void cro_new_prices_leave        (CroNewPrices   *self);
/* That the supplier is no more, and what becomes of what was typed. */
void cro_new_prices_say_gone     (CroNewPrices   *self);

/* --- cro-new-prices-post.c ----------------------------------------------------------------------- */

void cro_new_prices_post         (CroNewPrices   *self);

/* --- cro-new-prices-posted.c --------------------------------------------------------------------- */

/* The book has changed: undo, redo, another process, the supplier's own page. */
void cro_new_prices_check_posted (CroNewPrices  *self);

/* What is posted, and its rows; what of it is in force did; and that is read no more. */
void cro_new_prices_show_posted  (CroNewPrices   *self);
void cro_new_prices_read_did     (CroNewPrices   *self);
void cro_new_prices_forget_did   (CroNewPrices   *self);

/* As many plates and menus as its panel shows by now. */
void cro_new_prices_show_more    (CroNewPrices   *self);

GtkWidget *cro_new_prices_posted_new (CroNewPrices *self);

/* --- cro-new-prices-take.c ----------------------------------------------------------------------- */

void cro_new_prices_take_file    (CroNewPrices   *self,
                                  const char     *path);
void cro_new_prices_take_text    (CroNewPrices   *self,
                                  const char     *text);
/* The same once more, as its columns are said to be now; or an invoice, which is this supplier's whoever sells. */
void cro_new_prices_take_again   (CroNewPrices   *self,
                                  gboolean        is_seller_right);
void cro_new_prices_stop_taking  (CroNewPrices   *self);
GtkWidget *cro_new_prices_doing_new (CroNewPrices *self);
void cro_new_prices_ask_file     (CroNewPrices   *self);
void cro_new_prices_paste        (CroNewPrices   *self);
void cro_new_prices_paste_by_key (CroNewPrices   *self);
gboolean cro_new_prices_drop     (CroNewPrices   *self,
                                  const GValue   *value);

/* --- cro-new-prices-columns.c -------------------------------------------------------------------- */

/* The button that opens them, and they. */
GtkWidget *cro_new_prices_columns_open_new (CroNewPrices *self);
GtkWidget *cro_new_prices_columns_new (CroNewPrices *self);

/* As they were said of an earlier list of the supplier's. */
void cro_new_prices_recall_columns (CroNewPrices *self);

/* Of the list that was taken; NULL: there are none. It is taken. */
void cro_new_prices_show_columns (CroNewPrices   *self,
                                  CroPriceList   *list);

/* --- cro-new-prices-build.c ---------------------------------------------------------------------- */

void cro_new_prices_build        (CroNewPrices   *self);
void cro_new_prices_set_layout   (GtkWidgetClass *widget_class);

G_END_DECLS
