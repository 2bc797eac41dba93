/* cro-price-list-line.h: a line of a message while it is read: what its numbers are.
 *
 * Each of these reads what begins text, with the space before it, and returns its bytes; 0: it is not there, and the
 * line is as it was. */
#pragma once

#include "cro-price-list-private.h"
#include "cro-price-words.h"

G_BEGIN_DECLS

/* A line that prices no goods, and may be of those that others price (cro-price-list-correction.c). */
typedef struct _CroListTalk CroListTalk;

typedef struct
{
  CroPriceList      *list;
  const CroListBook *of;
  CroBrought         numbers;   /* how numbers are read: which sign is decimal in this message */
  CroListRow         row;
  GString           *name;
  gint64             plain[3];  /* numbers that are nothing else yet */
  guint              n_plain;
  gboolean           is_unclear;
  CroListSaid        said;      /* of all lines */
  guint              n_prices;  /* so far */
  gboolean           is_reply;  /* it has lines of its own, and others that it quotes */
  const char        *reply;     /* the line that says whose message follows; NULL: none so far */
  gboolean           is_quoted;
  const char        *sent;      /* on which day what follows was written, where that is far from the day of the list;
                                   NULL */
  gboolean           is_each;   /* its pack is of so many "each" */
  gboolean           has_pct;   /* a number before % */
  gboolean           may_be_of_tax;
  gboolean           is_closing; /* talk that says nothing of the prices is behind them: a name is who wrote it */
  GArray            *names;     /* of rows with words beside a name (cro_list_names_add); NULL: none so far */
  GArray            *talk;      /* CroListTalk; NULL: none so far */
  const char        *foreign;   /* the first line whose price is in another currency; NULL */
  guint              n_unsaid;  /* prices of which no line says the currency */
  char              *known;     /* names that talk may have; NULL: not asked for so far */
} CroListLine;

/* Whether a number begins text, ".95" too. */
gboolean cro_list_begins_number (const char *text);

/* A unit of one meaning. */
gsize    cro_list_scan_unit (const char *text,
                             CroUnit    *unit);

/* The currency of the line; behind a unit one that is not the supplier's only where the line ends. */
gsize    cro_list_line_scan_currency        (CroListLine *self,
                                             const char  *text);
gsize    cro_list_line_scan_currency_behind (CroListLine *self,
                                             const char  *text);

/* Once a line is read: "11,50 (€)", "11.50 in EUR": a currency anywhere in it is its price's; "11.50 £ €" are two, of
 * which nothing tells. */
void     cro_list_line_settle_currency      (CroListLine *self,
                                             const char  *line);

/* "ex VAT", "(TTC)"; of both at once nothing can be said. */
gsize    cro_list_line_scan_tax (CroListLine *self,
                                 const char  *text);

/* "/kg", "per 5 kg", "/6 × 1 l", "le kilo": for what the price is. */
gsize    cro_list_line_scan_per (CroListLine *self,
                                 const char  *text);

/* What a line says its price is for, in words; scan is one of those of cro-price-list-phrase.c. */
gsize    cro_list_line_take_phrase   (CroListLine *self,
                                      const char  *text,
                                      gsize      (*scan) (const char *text, char **word));
void     cro_list_line_add_priced_as (CroListLine *self,
                                      const char  *word);

/* A number and "%", of which sign stands before it, 0 where none does. */
gsize    cro_list_line_take_pct (CroListLine *self,
                                 const char  *text,
                                 int          sign);

/* Any other, as what it shows to be by what stands around it; is_money: behind a currency. */
gsize    cro_list_line_take_number (CroListLine *self,
                                    const char  *text,
                                    gboolean     is_money);

/* The price of the line; two are unclear. */
void     cro_list_line_take_price (CroListLine *self,
                                   gint64       price);

/* The day on which a line of a conversation, or a mail under its head, was written: who scrolls up copies the prices of
 * last spring. */
void     cro_list_line_take_stamp (CroListLine *self,
                                   const char  *line);

/* Whether a share is of the goods that a line names: "5 % discount on cockles". */
gboolean cro_list_line_is_of_one   (const CroListLine *self,
                                    const char        *line);

/* Asks of a price beside a code what its line has beside the name: "205 Leek OUT 10.60". */
void     cro_list_line_look_beside (CroListLine *self);

/* Keeps a line that prices no goods of the book. has_row: it is the row that is read, and not less than one. */
void     cro_list_line_take_talk   (CroListLine *self,
                                    const char  *line,
                                    gboolean     has_row);

/* Once all lines are read: asks of the prices what such lines may say of them anew, "sorry, mussels 22.80", wherever
 * they stand. */
void     cro_list_line_settle_talk (CroListLine *self);

G_END_DECLS
