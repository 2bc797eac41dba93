/* cro-new-prices-private.h: what the files of the sheet share. */
#pragma once

#include "cro-new-prices.h"
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

struct _CroNewPrices
{
  GtkWidget      parent_instance;

  GtkWidget     *parts[N_PARTS];
  GtkWidget     *title;
  GtkWidget     *from;
  GtkWidget     *past;         /* what a day other than today means, or why it is none */
  GtkWidget     *quotes;
  GtkWidget     *terms;        /* "net · EUR" */
  CroRoundRows  *rows;
  CroRoundPanel *panel;
  GtkWidget     *counts;
  GtkWidget     *fill;
  GtkWidget     *aside;
  GtkWidget     *post;
  GtkWidget     *posted_box;
  GtkWidget     *posted_label;
  GtkWidget     *posted_rows;  /* a menu button */
  GtkWidget     *message;
  GtkWidget     *columns;      /* of a table: which has the price to pay */
  GtkWidget     *column[2];

  CroBench      *bench;        /* borrowed */
  GtkWidget     *before;       /* that had the focus; weak */
  CroRound      *round;
  CroRoundView  *view;
  CroRoundPost  *posted;       /* NULL: nothing is yet */
  char          *moved;        /* what that did, in words */
  char          *path;         /* what was taken last, to take it again; NULL */
  char          *text;
  gboolean       is_future_right;
  gboolean       is_setting;
};

/* As its rows are now. */
void cro_new_prices_ask_room     (CroNewPrices   *self);

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

/* Parts that are called by each other: their buttons. */
void cro_new_prices_from_cb      (CroNewPrices   *self);
void cro_new_prices_from_activate_cb (CroNewPrices *self);
void cro_new_prices_quotes_cb    (CroNewPrices   *self);
void cro_new_prices_use          (CroNewPrices   *self,
                                  guint           offer);

/* --- cro-new-prices-post.c ----------------------------------------------------------------------- */

void cro_new_prices_post         (CroNewPrices   *self);
/* What was posted may be undone elsewhere. */
void cro_new_prices_check_posted (CroNewPrices  *self);
GtkWidget *cro_new_prices_posted_new (CroNewPrices *self);

/* --- cro-new-prices-take.c ----------------------------------------------------------------------- */

void cro_new_prices_take_file    (CroNewPrices   *self,
                                  const char     *path);
void cro_new_prices_take_text    (CroNewPrices   *self,
                                  const char     *text);
void cro_new_prices_ask_file     (CroNewPrices   *self);
void cro_new_prices_paste        (CroNewPrices   *self);
void cro_new_prices_paste_by_key (CroNewPrices   *self);
GtkWidget *cro_new_prices_columns_new (CroNewPrices *self);
void cro_new_prices_recall_columns (CroNewPrices *self);
gboolean cro_new_prices_drop     (CroNewPrices   *self,
                                  const GValue   *value);

/* --- cro-new-prices-build.c ---------------------------------------------------------------------- */

void cro_new_prices_build        (CroNewPrices   *self);
void cro_new_prices_set_layout   (GtkWidgetClass *widget_class);

G_END_DECLS
