/* cro-workbook.h: a book as a spreadsheet that goes on computing.
 *
 * Every figure is a formula over what was entered: change a price, a yield or an amount and the
 * bite moves. Formulas carry the values they had when the file was written.
 *
 * Units      Percentages are fractions (0.62, shown as 62 %). Money in book currency; quantities
 *            in base units of the item. NaN: not set, or no such figure.
 * Ownership  Rows are asked for one at a time and may be forgotten at the next; their texts must
 *            live until the workbook is written. Nothing is kept but where rows stand.
 * Order      Items are numbered: ingredients, then the outputs of all batches in order, main
 *            first. Lines have numbers of the source's own. A batch takes outputs of earlier
 *            batches only.
 * Errors     CRO_WORKBOOK_ERROR, or G_FILE_ERROR. On failure what stood at the path stands there.
 *
 * Layout     Columns stay in their places from one version to the next; new ones come at the
 *            right. Row numbers as a person sees them, from 1.
 *
 * A report's sheets (cro-workbook-report.h) stand before all of these: title, what is said under it,
 * 4 heads, rows from 5, a chart under them.
 *
 * Summary        4 wage an hour (B), 5 tax (B), 6 target (B), 7 whether all control totals tied
 *                (B), and whether anything was changed since (G); 9 heads; plates from 10; an empty row, heads,
 *                menus, each followed by its plates.
 *                A name · B course; of a menu's plate servings, K and W its part of the menu's
 *                net price and food · C food cost a bite; of a menu's
 *                alternative how often it is taken, and P its choice · D food cost
 *                a guest · E labour a guest · F disposables a guest · G prime cost (D + E) ·
 *                H price with tax · I tax · J net price (0: none) · K food-cost percentage · L target ·
 *                M to spare a guest · N price that meets the target · O verdict · P what is
 *                missing · Q allergens ·
 *                R printed parts less printed total · S of a menu and its plates food cost as
 *                printed (rounded, adds up) · T U V how it is rounded
 *                Of a house that gives gross profit or a coefficient, K and L are those of plates
 *                and menus, X is the food-cost percentage and Y its target; what a menu's plates
 *                take of its net price is in X then.
 * Card           One sheet for each plate, named after it, up to CRO_WORKBOOK_MOST_CARDS plates;
 *                beyond that one sheet "Cards" with all of them, a block each. Rows of a block:
 *                1 name · 2 what is missing · 3 to 9 inputs (B) and figures (I):
 *                3 makes, bite · 4 bites a guest, guest · 5 seasoning, net price ·
 *                6 active minutes, food-cost percentage (verdict in L) · 7 price with tax, price that meets
 *                the target · 8 tax, prime cost · 9 target, disposables; 10 labour (I) ·
 *                of a house that gives gross profit or a coefficient 6 is that, and 10 its target (B) ·
 *                11 heads · 12 lines … · seasoning and handling · active time · all bites ·
 *                a bite · a guest · an empty row.
 *                A item · B amount · C unit · D base units in one unit · E yield · F comes back ·
 *                G charged · H base unit · I J K unit cost: food, disposables, labour ·
 *                L M N cost of the same · O food cost a bite · P part of the food cost · Q note ·
 *                R food and disposables as printed (rounded, add up) · S T U how they are rounded
 * Preparations   4 heads; from 5 a block for each batch, parts before what uses them:
 *                its head (A name, B rule, Q what is missing, R a use) · lines · active time
 *                (B minutes) · the batch (sums; X Y Z in less out) · outputs · an empty row.
 *                Lines: A to N as on a card · O grams brought · P 1 if it cannot be weighed ·
 *                Q note. Outputs: A name · B amount · C unit · D base units in one unit ·
 *                E yield of the batch's grams · F lost part · G finished · H base unit · I J K unit cost ·
 *                L M N cost borne · P lacks · Q note · R value of one unit · S density ·
 *                T piece weight · U value of a base unit · V weight in the sharing ·
 *                W share of the batch's cost that a base unit bears
 * Ingredients    4 heads; from 5 each ingredient, followed by its offers.
 *                A name · B kind · C base unit · D density · E piece weight · F trim yield ·
 *                G unit cost · H the same per kg, l or each · X note · Y allergens.
 *                Offers: A supplier · J code · K pack count · L pack size · M unit · N base units
 *                in one unit · O net part · P price of a pack · Q tax included · R currency ·
 *                S rate · T base units in a pack · U unit cost · V price from · W state · X note
 * Prices         4 heads; from 5 every price up to the date, the newest of an offer last.
 *                A ingredient · B supplier · C code · D from · E price of a pack · F currency ·
 *                G tax included · H pack count · I pack size · J unit · K in force
 * Units          4 heads; from 5 the units in the order of CroUnit: A unit · B base unit ·
 *                C base units in one. Beside them E currency · F book currency for one ·
 *                H words that formulas say
 * Control totals 3 whether all agreed as written (A), whether anything was changed since (B) ·
 *                4 heads; from 5: A what must hold · B what is there now · C what was written ·
 *                D difference · E whether it ties, in words · F 1 if it did not when written ·
 *                G what was written, reckoned otherwise · H 1 if it was changed since
 * Notes          A: sentences.
 *
 * Names          wage_per_hour, book_tax, book_target; of a plate bite_X, guest_X, food_cost_pct_X,
 *                of a menu guest_X, food_cost_pct_X, where X is made of the name alone
 *                (cro-defined-name.h), so that a link holds in next month's file. */
#pragma once

#include <glib.h>

#include "cro-batch.h"
#include "cro-date.h"
#include "cro-unit.h"
#include "cro-workbook-report.h"
#include "cro-workbook-text.h"

G_BEGIN_DECLS

#define CRO_WORKBOOK_ERROR (cro_workbook_error_quark ())

typedef enum
{
  CRO_WORKBOOK_ERROR_CANCELLED,
  CRO_WORKBOOK_ERROR_ROWS,     /* a sheet would need more rows than one holds; the message is
                                  its name */
  CRO_WORKBOOK_ERROR_SYSTEM,   /* memory, or a file that did not come out whole; what the system says of
                                  one is a G_FILE_ERROR */
} CroWorkbookErrorCode;

GQuark cro_workbook_error_quark (void);

/* Beyond these one sheet holds all cards; lines have no link; things have no name. */
#define CRO_WORKBOOK_MOST_CARDS 60
#define CRO_WORKBOOK_MOST_LINKS 10000
#define CRO_WORKBOOK_MOST_NAMED 2000

/* Rows of a sheet under its heads. */
#define CRO_WORKBOOK_MOST_PRICES 1048570

#define CRO_WORKBOOK_NONE G_MAXUINT32

enum
{
  CRO_WORKBOOK_FOOD,
  CRO_WORKBOOK_DISPOSABLES,
  CRO_WORKBOOK_LABOUR,
  CRO_WORKBOOK_N_LAYERS,
};

/* How the house gives what stands between price and food cost. */
typedef enum
{
  CRO_WORKBOOK_FOOD_COST_PCT,
  CRO_WORKBOOK_GROSS_PROFIT_PCT,  /* 1 less the food-cost percentage */
  CRO_WORKBOOK_COEFFICIENT,       /* net price over food cost */
} CroWorkbookResult;

typedef struct
{
  const char *name;            /* of the book */
  const char *currency;        /* NULL: not set */
  int         digits;          /* of its minor unit */
  CroDate     date;            /* of the prices */
  gint64      created;         /* seconds since 1970 */
  double      wage;            /* an hour */
  double      tax;
  double      target;          /* of food cost, as all targets are, however the house speaks */
  CroWorkbookResult result;
  gboolean    is_letter;       /* paper: US Letter, not A4 */
} CroWorkbookBook;

typedef struct
{
  const char *currency;
  double      rate;            /* book currency for one; NaN: not known */
} CroWorkbookRate;

typedef struct
{
  const char *name;
  CroBase     base;
  gboolean    is_disposable;
  double      density, piece, trim;
  guint32     first_offer, n_offers;
  guint32     used;            /* which of them counts, from 0; NONE: there is no offer at all */
  double      unit_cost;       /* known sum: 0 where nothing is known */
  const char *note;            /* what is missing; may be NULL */
} CroWorkbookIngredient;

typedef struct
{
  const char *supplier;
  const char *code;
  double      pack_count, pack_size;
  CroUnit     unit;
  double      factor;          /* base units of the ingredient in one unit; 0: cannot be */
  double      net;
  guint32     rate;            /* NONE: book currency */
  guint32     price_row;       /* among prices: the one in force, or its last; NONE */
  double      exchange;        /* book currency for one of the offer's; 0: not known */
  double      price, tax;      /* NaN: no price */
  CroDate     from;
  double      content;         /* base units in a pack, net; 0: cannot be converted */
  double      unit_cost;       /* NaN: not priced */
  gboolean    is_idle;         /* not to be had, and its last price does not serve: its unit cost
                                  stays empty */
  const char *state;           /* "in use", "no price"; may be NULL */
} CroWorkbookOffer;

typedef struct
{
  const char *ingredient;
  const char *supplier;
  const char *code;
  CroDate     from;
  double      price;           /* NaN: not to be had from then on */
  const char *currency;
  double      tax;
  double      pack_count, pack_size;
  CroUnit     unit;
  gboolean    is_in_force;
} CroWorkbookPrice;

typedef enum
{
  CRO_WORKBOOK_YIELD_ONE,
  CRO_WORKBOOK_YIELD_OWN,
  CRO_WORKBOOK_YIELD_TRIM,     /* the ingredient's trim yield, 1 where it has none */
} CroWorkbookYield;

typedef struct
{
  guint32           item;
  const char       *name;      /* of the item */
  CroBase           base;
  gboolean          is_disposable;
  double            unit_cost[CRO_WORKBOOK_N_LAYERS];
  double            amount;
  CroUnit           unit;
  double            factor;    /* base units of the item in one unit; 0: cannot be converted */
  CroWorkbookYield  yield_from;
  double            yield, recovered;
  double            charged;
  CroWorkbookKnown  known[CRO_WORKBOOK_N_LAYERS];
  double            grams;     /* brought; NaN: cannot be weighed. Not asked of disposables */
  const char       *note;      /* may be NULL */
} CroWorkbookLine;

typedef struct
{
  const char       *name;
  CroRule           rule;
  double            minutes;
  guint32           first_line, n_lines;
  guint32           first_output, n_outputs;
  double            labour;    /* of its own minutes */
  double            cost[CRO_WORKBOOK_N_LAYERS];
  guint32           used_by;   /* the first batch that takes an output of it, or NONE … */
  guint32           used_on;   /* … the first plate, or NONE */
  CroWorkbookKnown  known[CRO_WORKBOOK_N_LAYERS];
  gboolean          is_complete;  /* its outputs too: what goes in comes out */
} CroWorkbookBatch;

typedef struct
{
  const char *name;
  CroBase     base;
  CroUnit     unit;
  double      amount, yield;   /* NaN: not set */
  double      value;           /* of one unit; NaN: not set */
  double      density, piece;
  double      lost;            /* a fraction; NaN: nothing */
  double      finished;        /* before what is lost; 0: not known */
  double      used;            /* after it */
  double      value_of_base;
  double      share;
  double      unit_cost[CRO_WORKBOOK_N_LAYERS];
  CroWorkbookKnown known[CRO_WORKBOOK_N_LAYERS];
} CroWorkbookOutput;

/* Of a plate or a menu, for a guest. */
typedef struct
{
  double            cost[CRO_WORKBOOK_N_LAYERS];
  double            bite;      /* NaN for a menu */
  double            price, tax, target;  /* NaN tax, target: the book's */
  double            net_price, food_cost_pct, price_for_target;
  double            tax_in_force, target_in_force;  /* NaN: none */
  CroWorkbookKnown  known[CRO_WORKBOOK_N_LAYERS];
} CroWorkbookFigure;

/* Of what a text is asked. */
typedef enum
{
  CRO_WORKBOOK_BATCH,
  CRO_WORKBOOK_PLATE,
  CRO_WORKBOOK_MENU,
  CRO_WORKBOOK_INGREDIENT,
} CroWorkbookKind;

typedef struct
{
  const char        *name;
  const char        *course;
  double             makes, per_guest, allowance, minutes;
  guint32            first_line, n_lines;
  double             labour;   /* of its own minutes */
  double             cost[CRO_WORKBOOK_N_LAYERS];  /* of all bites, before seasoning */
  CroWorkbookFigure  figure;
} CroWorkbookPlate;

typedef struct
{
  const char        *name;
  guint32            first_entry, n_entries;
  double             cheapest, dearest;  /* of the ways through its choices; NaN: it has none … */
  CroWorkbookKnown   known_cheapest, known_dearest;  /* … and how much is known of them */
  CroWorkbookFigure  figure;
} CroWorkbookMenu;

typedef struct
{
  guint32     plate;
  double      servings;    /* of one who takes it */
  const char *choice;      /* equal texts are alternatives; NULL: every guest has it */
  double      share;       /* NaN: an equal part of what the others leave */
  double      part;        /* how often it is taken; 1 outside of choices */
} CroWorkbookEntry;

/* Where rows come from: how many there are, and one function for each kind, that fills what it
 * is given. The same row may be asked for twice. */
typedef struct
{
  CroWorkbookBook book;
  guint32         n_rates, n_ingredients, n_offers, n_prices, n_batches, n_outputs, n_plates,
                  n_menus, n_entries;
  guint32         n_lines;         /* of all batches */
  double          attributed;      /* food cost of a guest, summed over all plates, reckoned by
                                      what is bought and credited */
  const CroWorkbookReport *report; /* NULL: the model alone */
  gboolean        lacks_history;   /* of prices only those in force are given: a sheet has no room
                                      for more than CRO_WORKBOOK_MOST_PRICES */
  gpointer        data;

  void (*get_rate)       (gpointer data, guint32 index, CroWorkbookRate *rate);
  void (*get_ingredient) (gpointer data, guint32 index, CroWorkbookIngredient *ingredient);
  void (*get_offer)      (gpointer data, guint32 index, CroWorkbookOffer *offer);
  void (*get_price)      (gpointer data, guint32 index, CroWorkbookPrice *price);
  void (*get_batch)      (gpointer data, guint32 index, CroWorkbookBatch *batch);
  void (*get_output)     (gpointer data, guint32 index, CroWorkbookOutput *output);
  void (*get_line)       (gpointer data, guint32 index, CroWorkbookLine *line);
  void (*get_plate)      (gpointer data, guint32 index, CroWorkbookPlate *plate);
  void (*get_menu)       (gpointer data, guint32 index, CroWorkbookMenu *menu);
  void (*get_entry)      (gpointer data, guint32 index, CroWorkbookEntry *entry);

  /* Owned; NULL where nothing is missing. */
  char *(*dup_missing)   (gpointer data, CroWorkbookKind kind, guint32 index);
  /* The numbers of ingredients whose prices are all that is missing, if they are most at most: then
   * the verdict follows when they are filled in. 0: none is, more are, or something else. May be NULL. */
  guint (*list_unpriced) (gpointer data, CroWorkbookKind kind, guint32 index, guint32 *ingredients,
                          guint most);
  char *(*dup_allergens) (gpointer data, CroWorkbookKind kind, guint32 index);

  /* Asked now and then with the part that is done; FALSE cancels. May be NULL. */
  gboolean (*go_on)      (gpointer data, double done);
} CroWorkbookSource;

/* Writes beside path and renames when all is on disk. texts[CRO_N_WORKBOOK_TEXTS]. */
gboolean cro_workbook_write (const char               *path,
                             const CroWorkbookSource  *source,
                             const char *const        *texts,
                             GError                  **error);

G_END_DECLS
