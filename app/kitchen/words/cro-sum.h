/* cro-sum.h: a figure as its sum in words, with links to what it is made of.
 *
 *   0.84 = 1.03 × 19.57 ÷ 24
 *
 * A sum is a row of tokens that reads from left to right: the figure, "=", and what gives it.
 * It works on a pocket calculator with the digits shown (cro-sum-private.h): numbers have as many
 * as that takes. Units are those of the numbers; what is not metric is converted in the sum.
 *
 * Ownership  A sum owns its tokens, which are freed with it: g_ptr_array_unref. */
#pragma once

#include "cro-breakdown.h"
#include "cro-ref.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_SUM_NUMBER,
  CRO_SUM_SIGN,      /* = + − × ÷ ( ) */
  CRO_SUM_WORD,      /* what the number before it is: a name, a unit, a word handed in */
} CroSumTokenKind;

typedef struct
{
  CroSumTokenKind kind;
  char           *text;
  CroRef          ref;       /* where it leads; CRO_REF_NONE */
} CroSumToken;

/* Words put behind the numbers they name, each NULL where none is wanted. */
typedef struct
{
  const char *bites;         /* behind how many a plate makes */
  const char *bite;          /* behind 1 */
  const char *a_guest;       /* behind the bites of a guest */
  const char *seasoning;     /* behind 1.03 */
  const char *food;
  const char *labour;
  const char *no_minutes;    /* behind food, where it has no labour beside it */
  const char *tax;           /* behind 1.10 */
  const char *rate;          /* behind an exchange rate */
  const char *net;           /* behind the net part of a pack */
  const char *comes_back;    /* behind the part recovered */
  const char *yield;         /* behind a yield */
  const char *share;         /* behind the part of a batch's cost */
  const char *lost;          /* behind the part of an output that is thrown away */
  const char *disposables;   /* behind what disposables add */
  const char *minutes;       /* behind those of a batch */
  const char *wage;          /* behind that of an hour */
} CroSumWords;

/* Those of the user's language. Borrowed. */
const CroSumWords *cro_sum_words (void);

/* Puts a second sum behind the first, and takes it; it may be NULL. */
void       cro_sum_take           (GPtrArray           *sum,
                                   GPtrArray           *second);

/* Whether an amount in it needs no conversion for a pocket calculator: mg to kg, ml to l, pieces. */
gboolean   cro_sum_is_plain_unit (CroUnit             unit);

/* NULL where the figure does not exist. words may be NULL. Elements CroSumToken. */

/* n (1 + w) C ÷ M. */
GPtrArray *cro_sum_of_guest      (CroFigures         *figures,
                                  guint32             plate,
                                  const CroSumWords  *words);

/* The guest's cost of a menu: its plates in servings. */
GPtrArray *cro_sum_of_menu       (CroFigures         *figures,
                                  guint32             menu,
                                  const CroSumWords  *words);

/* Of a plate or a menu: cost ÷ net price; net price = price ÷ (1 + tax); food + labour. */
GPtrArray *cro_sum_of_pct        (CroFigures         *figures,
                                  CroRef              thing,
                                  const CroSumWords  *words);
/* What a plate takes of the net price of a menu that carries it: servings × guest ÷ net price. */
GPtrArray *cro_sum_of_part       (CroFigures         *figures,
                                  const CroMenuPlate *entry);
GPtrArray *cro_sum_of_net_price  (CroFigures         *figures,
                                  CroRef              thing,
                                  const CroSumWords  *words);
GPtrArray *cro_sum_of_prime_cost (CroFigures         *figures,
                                  CroRef              thing,
                                  const CroSumWords  *words);
/* What the net price leaves when the food is paid. */
GPtrArray *cro_sum_of_left       (CroFigures         *figures,
                                  CroRef              thing,
                                  const CroSumWords  *words);

/* A preparation's batch or a plate's bites: the cost of its lines, food and disposables, each with
 * its name. */
GPtrArray *cro_sum_of_batch      (CroFigures         *figures,
                                  guint32             recipe,
                                  const CroSumWords  *words);

/* Unit cost. Of an ingredient P × r ÷ (1 + v) ÷ (count × size × f); of an output what the
 * rule of its batch makes of it. */
GPtrArray *cro_sum_of_item       (CroFigures         *figures,
                                  guint32             item,
                                  const CroSumWords  *words);

/* An ingredient's unit cost when it is trimmed: unit cost ÷ trim yield. */
GPtrArray *cro_sum_of_trimmed    (CroFigures         *figures,
                                  guint32             item,
                                  const CroSumWords  *words);

/* Of a batch: minutes × wage ÷ 60 + that of what goes in. */
GPtrArray *cro_sum_of_labour     (CroFigures         *figures,
                                  guint32             preparation,
                                  const CroSumWords  *words);

/* Cost of a line: amount × (1 − k) ÷ y × unit cost; food and disposables, as the line's cost is
 * shown. */
GPtrArray *cro_sum_of_line       (CroFigures         *figures,
                                  guint32             line,
                                  const CroSumWords  *words);

/* Whether a line that has a cost is shown as another than its own rounding, so that its batch adds up. */
gboolean   cro_sum_line_is_shifted (CroFigures      *figures,
                                  guint32             line);

/* What an ingredient or an assigned value costs a guest: quantity × unit cost. */
GPtrArray *cro_sum_of_share      (CroFigures           *figures,
                                  const CroShareOfCost *share);

/* The tokens as one text, with spaces between them as they are set. Owned. */
char      *cro_sum_to_text       (GPtrArray          *sum);

/* What stands behind "=" alone. Owned. */
char      *cro_sum_to_terms      (GPtrArray          *sum);

/* The figure alone, with its mark. Borrowed. */
const char *cro_sum_get_figure   (GPtrArray          *sum);

G_END_DECLS
