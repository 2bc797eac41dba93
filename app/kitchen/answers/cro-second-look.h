/* cro-second-look.h: whether a new price of a pack wants a second look before it counts. A question,
 * never an error.
 *
 * Prices are compared per base unit and without tax, whatever the packs. With P the new one over the
 * last:
 *
 *   far      with eight prices or more: |ln p − m| > 4 d and P beyond 25 %, m the median of the last
 *            eight log-prices and d the median of their distances to it (median absolute deviation,
 *            Hampel 1974, from memory); with fewer, or d = 0: P beyond 25 %
 *   slip     P beyond 25 %, and divided by a power of ten within 25 %, unless it is nearer to the
 *            last as one out of a pack, within 25 % too
 *   pack     P beyond 25 %, and within 5 % of how many or how much the pack is of, or of the last pack
 *            over this one: the price is another pack's. One that is larger is named where it is a whole number of
 *            kilograms or litres, at most 50; else it is asked about as far
 *   shrank   the pack holds less than the last, at nearly the same price, within 25 %, that followed by less than half
 *            of that, as ratios go: P > √(last ÷ this). A pack that holds more and costs no more is asked about
 *            likewise, as pack
 *
 * Units      Prices in millionths of the offer's currency per pack.
 * Source     The thresholds are the project's own. */
#pragma once

#include "cro-book.h"
#include "cro-entry.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_LOOK_NOTHING,
  CRO_LOOK_FAR,
  CRO_LOOK_SLIP,        /* meant is the price that probably was */
  CRO_LOOK_THOUSANDS,   /* the same by 1,000: a decimal sign read as what groups thousands */
  CRO_LOOK_PACK,        /* pack is the one that the price is probably of */
  CRO_LOOK_SHRANK,      /* pack is the last one */
  CRO_LOOK_TAX,         /* tax is what the price probably has in it, as one before the last had, or has not, as the last
                           one has; of lists alone */
} CroLookKind;

typedef struct
{
  CroLookKind kind;
  double      ratio;    /* P; NaN where there is no last price, or it is 0 */
  gint64      meant;    /* CRO_NOT_SET */
  CroPack     pack;     /* of no size */
  gint64      tax;      /* millionths of per cent; 0 */
} CroLook;

/* What moves by more than this share is asked about; exchange rates too. */
#define CRO_LOOK_BEYOND 0.25

/* Prices of the past that a far one is told by. */
#define CRO_LOOK_PRICES 8

/* last and then: the last price and the new one, with their taxes and packs. is_pack_said: somebody said what then is
 * a pack of; it is not asked whether it is another, and the price answers for itself. past: unit costs of the n prices
 * before the new one, oldest first, of which the last CRO_LOOK_PRICES are looked at. */
CroLook  cro_second_look_at (const CroOffer   *last,
                             const CroOffer   *then,
                             const CroMeasure *measure,
                             gboolean          is_pack_said,
                             const double     *past,
                             gsize             n);

/* Of a pack without a past beside another one of the same ingredient, both with their rates: packs may differ
 * as they like, and within 25 % per base unit nothing is asked. */
CroLook  cro_second_look_beside (const CroOffer   *other,
                                 const CroOffer   *then,
                                 const CroMeasure *measure);

/* The same of an offer against the price that it has on the book's date, or had last: then is that
 * offer with the new price. Asks the store only where the price moved by more than 25 %. FALSE with
 * error. */
gboolean cro_second_look    (CroBook          *book,
                             guint32           offer,
                             const CroOffer   *then,
                             gboolean          is_pack_said,
                             CroLook          *look,
                             GError          **error);

G_END_DECLS
