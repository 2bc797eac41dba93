/* cro-price-change.h: a new price of a pack against the one before it, typed as such ("69.50") or
 * as what changed: "+5 %", "-0.40"; or a dash alone, where it is not to be had.
 *
 * Units      Prices in millionths of the offer's currency per pack that is spoken of (cro-own-pack.h); unit costs in
 *            book currency per base unit, NaN where they cannot be computed. */
#pragma once

#include "cro-book.h"
#include "cro-entry.h"

G_BEGIN_DECLS

typedef struct
{
  gint64  price;            /* CRO_NOT_SET: not to be had */
  double  unit_cost;
  double  change_pct;       /* against the price before; NaN: there is none, or it was 0 */
} CroPriceChange;

/* The price of an offer that holds on a day, or the last one of what is not to be had then, as it
 * is stored: the model may show what is being typed; and since when. FALSE: there is none. */
gboolean       cro_price_before     (CroBook         *book,
                                     guint32          offer,
                                     CroDate          date,
                                     gint64          *price,
                                     CroDate         *since);

/* Whether a text begins as a change does. */
gboolean       cro_price_is_change   (const char      *text);

/* What a price becomes by such a change, rounded as cro_price_change_read does; currency NULL: to six places. Whether
 * the status is OK. */
gboolean       cro_price_change_by   (const char      *currency,
                                      gint64           before,
                                      const char      *text,
                                      gint64          *price,
                                      CroEntry        *entry);

/* The same by a signed number of per cents, in millionths. FALSE: no price is left. */
gboolean       cro_price_change_by_pct (const char      *currency,
                                      gint64           before,
                                      gint64           pct,
                                      gint64          *price);

/* before: NULL where the offer has no price yet; a change is then no number. A changed price is
 * rounded to the minor unit of its currency, half away from zero. entry says how the text was read
 * (cro_entry_clear). */
CroEntryStatus cro_price_change_read (CroModel       *model,
                                      guint32         offer,
                                      const gint64   *before,
                                      const char     *text,
                                      CroPriceChange *change,
                                      CroEntry       *entry);

/* What is wrong with the text, and what may be typed; NULL: nothing, or nothing was typed. Owned. */
char          *cro_price_change_reason (CroModel           *model,
                                        guint32             offer,
                                        const char         *text,
                                        const CroEntry     *entry);

/* What was kept from a day other than the book's, and what is in force there: "64.50 kept from 20 Nov
 * 2026; 66.00 from 24 Nov 2026 is in force". The model knows of it. Owned. */
char          *cro_price_kept_words  (CroFigures           *figures,
                                     guint32               offer,
                                     CroDate               from,
                                     gint64                price);

/* "14.00/kg, +6.1 %", "not to be had". Owned. */
char          *cro_price_change_words (CroModel            *model,
                                       guint32              offer,
                                       const CroPriceChange *change);

G_END_DECLS
