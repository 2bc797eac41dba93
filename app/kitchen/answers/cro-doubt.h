/* cro-doubt.h: what is computed as told, and probably not meant. A question, never an error: no
 * figure and no exit status hangs on it.
 *
 * Units      Percentages in per cent, weights in grams, prices in the offer's currency per pack.
 * Ownership  A CroDoubt owns nothing; slots are those of the model. */
#pragma once

#include "cro-book.h"
#include "cro-like-names.h"
#include "cro-ref.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_DOUBT_PERCENT,         /* "0.3": is; probably meant is a hundred times as much */
  CRO_DOUBT_DENSITY,         /* is in g/ml, as nothing in a kitchen; meant is NaN unless it slipped by a power
                              * of ten */
  CRO_DOUBT_GAINS,           /* a batch gives is grams of meant that go in */
  CRO_DOUBT_SOAKED_TWICE,    /* the same, where a line has grown by its own yield already: other */
  CRO_DOUBT_LOSES_TWICE,     /* cro-line-doubt.h; is weighed, meant is what it buys */
  CRO_DOUBT_TRIMMED_TWICE,   /* a line has a loss of its own, and so has the batch it comes from */
  CRO_DOUBT_PURCHASE_TWICE,  /* one line of a document stands there is times: other, of date */
  CRO_DOUBT_PRICE,           /* from date: far from the one before; meant is NaN unless that is by a
                              * power of ten */
  CRO_DOUBT_RATE,            /* of a currency, from date: as of a price; is and meant as it was entered */
  CRO_DOUBT_SELLING,         /* of a plate or a menu, from date: as of a price */
  CRO_DOUBT_ALIKE,           /* its name differs from other's by case and accents alone; a new one may but be like it */
  CRO_DOUBT_EXPIRED,         /* a preferred offer that ended on date */
  CRO_DOUBT_STALE,           /* the price in use, from date, is older than the book's is days */
} CroDoubtKind;

typedef struct
{
  CroDoubtKind kind;
  CroRef       ref;          /* what it is about: for one field, the thing that has it */
  const char  *column;       /* of the field, borrowed; NULL: the whole */
  double       is;
  double       meant;
  guint32      other;        /* an item, or CRO_NO_SLOT; of ALIKE what ref is */
  CroDate      date;
  gboolean     is_past;      /* of PRICE, RATE and SELLING: another has followed it */
  const char  *currency;     /* of RATE: interned */
} CroDoubt;

/* Of a percentage in millionths that stands, or would stand, in a column of the store: asked for
 * below 1 % where no kitchen means that; of a target as the house gives it (cro-result.h). ref is
 * not set. */
gboolean cro_doubt_of_percent (CroModel    *model,
                               const char  *table,
                               const char  *column,
                               gint64       micro,
                               CroDoubt    *doubt);

/* Of a density in millionths of g/ml. ref is not set. */
gboolean cro_doubt_of_density (gint64        micro,
                               CroDoubt     *doubt);

/* Of a preparation's batch. */
gboolean cro_doubt_of_batch   (CroFigures  *figures,
                               guint32      preparation,
                               CroDoubt    *doubt);

/* Of a price over the one before, per base unit: the power of ten by which a decimal has probably
 * slipped; 0 where it is near, or far by no power of ten. */
double   cro_doubt_slip       (double       ratio);

/* Whether a price over the one before is asked about: it slipped, or is likely to be no price at all, by whatever
 * factor. */
gboolean cro_doubt_is_jump    (double       ratio);

#define CRO_DOUBT_PRICES 3

/* Which of the newest prices of one thing, newest first and NaN where there is none, jumped: the newest, or the one
 * before it where that jumped from what stood before it and after it, so that the newest has set it right. Below 0:
 * neither, or somebody said of it that it is right; is_answered may be NULL. *slip: its cro_doubt_slip. */
int      cro_doubt_of_jump    (const double   prices[CRO_DOUBT_PRICES],
                               const gboolean is_answered[CRO_DOUBT_PRICES],
                               double        *slip);

gboolean cro_doubt_of_line    (CroFigures  *figures,
                               guint32      line,
                               CroDoubt    *doubt);

/* Of its price in force on a day and the one before (cro_doubt_of_jump), per base unit and whatever the packs.
 * history: of its ingredient (cro_price_history_new). */
gboolean cro_doubt_of_price   (CroModel    *model,
                               guint32      offer,
                               GArray      *history,
                               CroDate      day,
                               CroDoubt    *doubt);

/* Adds what was found of a price, a selling price or a rate on a day after today: of none before that, which today
 * asks about, and once, though a later one that sets it right finds it again. */
void     cro_doubt_add_coming (GArray         *doubts,
                               const CroDoubt *doubt,
                               CroDate         today);

/* Of that on the book's date; or that it is preferred and over. */
gboolean cro_doubt_of_offer   (CroBook     *book,
                               guint32      offer,
                               GArray      *history,
                               CroDoubt    *doubt);

/* Of the name of an item, a plate or a supplier: walks all of their names. A preparation bears that of its
 * output. */
gboolean cro_doubt_of_name    (CroModel    *model,
                               CroRef       ref,
                               CroDoubt    *doubt);

/* Names that a new one of it may be like: of what is bought, or of suppliers, but its own; ref may be of CRO_NO_SLOT:
 * what would be made. They are the model's until it changes. Owned. */
CroLikeNames *cro_doubt_likes (CroModel    *model,
                               CroRef       ref);

/* The same of a name that it would have, of an ingredient and a supplier also where that is like another of likes,
 * which are its own. ref may be of CRO_NO_SLOT: what would be made. */
gboolean cro_doubt_of_new_name (CroModel   *model,
                               CroLikeNames *likes,
                               CroRef       ref,
                               const char  *name,
                               CroDoubt    *doubt);

/* Those of the names of a kind: each pair once, at the later of the two. */
void     cro_doubt_add_names  (CroModel    *model,
                               CroRefKind   kind,
                               GArray      *doubts);

G_END_DECLS
