/* cro-offer-card-private.h: what the two files of a pack's card share: cro-offer-card.c shows it,
 * cro-offer-fields.c enters its price and what is in it. */
#pragma once

#include "cro-choice.h"
#include "cro-input.h"
#include "cro-offer-card.h"
#include "cro-pack.h"

G_BEGIN_DECLS

/* Columns that most packs leave empty: shown where they are set, or asked for. The place in the
 * supplier's list and the supplier, whom the heading names, are shown only where they are asked
 * for. */
enum
{
  CODE,
  GTIN,
  NET,
  CURRENCY,
  UNTIL,
  POSITION,
  SUPPLIER,
  N_RARE,
};

struct _CroOfferCard
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *supplier;
  GtkWidget *cost;        /* per base unit */
  GtkWidget *state;       /* whether it is in use, and if not why */
  GtkWidget *from;        /* since when a price or a pack that is entered holds */
  GtkWidget *price;
  GtkWidget *answer;      /* to what is asked about the price */
  GtkWidget *since;
  GtkWidget *count;
  GtkWidget *size;
  GtkWidget *unit;
  GtkWidget *preferred;
  GtkWidget *more;        /* toggle */
  GtkWidget *menu;
  GtkWidget *rare[N_RARE];
  GtkWidget *rare_fields[N_RARE];

  CroBench  *bench;       /* borrowed */
  guint32    offer;
  GArray    *history;     /* of its ingredient; NULL */
  char      *named;       /* as its fields are called */
  guint64    edition;     /* of the book when the unit of the pack was read; 0: it was not */
  char      *next;        /* the price that is to come, in words; NULL: none */
  guint64    next_edition; /* of the book when it was read, and one; 0: it was not */
  CroDate    next_date;   /* after which it comes */
  gboolean   is_setting;
};

static inline CroBook *
book_of (CroOfferCard *self)
{
  return cro_bench_get_book (self->bench);
}

static inline CroOfferEntry *
entry_of (CroOfferCard *self)
{
  return cro_model_offer (cro_book_get_model (book_of (self)), self->offer);
}

/* --- cro-offer-fields.c ------------------------------------------------------------------------- */

/* A field of the pack's own row, which is named later. */
GtkWidget *cro_offer_card_add_input   (CroOfferCard *self,
                                       CroInputKind  kind,
                                       CroRange      range,
                                       int           width,
                                       const char   *column,
                                       const char   *placeholder);

/* Price and pack, and from when they hold. */
void       cro_offer_card_make_fields (CroOfferCard *self);

/* What is in it on the day that the book shows, as the store has it. */
CroPack    cro_offer_card_stored_pack (CroOfferCard *self);

G_END_DECLS
