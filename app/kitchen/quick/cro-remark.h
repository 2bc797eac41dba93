/* cro-remark.h: what a remark beside an ingredient says of its yield or of its price, which a line would hold as words
 * alone: "loss 18 %", "half lost", "yield 0.55", "30 % off".
 *
 * A share is harmless where it says what the goods hold ("35 % fat", "12 %" of wine, "100 % organic"); any other is
 * taken for a yield, whatever its words are. So are numbers: one that is known to be of a size, a time, a temperature,
 * a count or a kind ("2 cm", "cut in 4", "16/20", "21 days") is harmless, and any other may be of a yield.
 *
 * What is said without a number is read in cro-remark-words.h. Words are those of English and French kitchens, whatever
 * the locale: common practice, no source. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  CRO_REMARK_PLAIN,
  CRO_REMARK_LOSS,
  CRO_REMARK_DISCOUNT,  /* or a price of something else: "two for one", "per lb" */
  CRO_REMARK_TAX,
  CRO_REMARK_NUMBER,    /* of what nobody knows: "gross 180 g", "keep half" */
} CroRemark;

/* Of what stands behind a comma, a price or in brackets; goods is the name before it. Beside an amount of pieces
 * a weight is that of one. */
CroRemark cro_remark_read         (const char *text,
                                   const char *goods,
                                   gboolean    is_of_pieces);

/* Of what stands right behind a price: "less 10 %" is of that. */
CroRemark cro_remark_read_behind_price (const char *text,
                                   const char *goods,
                                   gboolean    is_of_pieces);

/* Of what stands at the end of a name, where a share or a number may be part of it: "cream 35 %"; goods is the part of
 * the name before it. */
CroRemark cro_remark_read_in_name (const char *text,
                                   const char *goods,
                                   gboolean    is_of_pieces);

/* Whether a sentence has a share and a word of loss or trim: "allow 10 % for loss". */
gboolean  cro_remark_says_loss    (const char *text);

G_END_DECLS
