/* cro-model.h: what a book's figures are computed from, as arrays in memory.
 *
 * Items, recipes (preparations and plates), menus, offers and lines have slots: their index in
 * these arrays for as long as the book is open. What is removed leaves a dead slot. Notes and
 * other text that no figure needs stay in the store.
 *
 * Units      as in the engine: decimals in millionths, percentages in millionths of a per
 *            cent, -1 where a percentage of a plate, a menu or the book is not set.
 * Ownership  The model owns all it holds; names live as long as it does. */
#pragma once

#include <glib.h>

#include "cro-batch.h"
#include "cro-line.h"
#include "cro-offer.h"
#include "cro-slots.h"
#include "cro-store.h"

G_BEGIN_DECLS

#define CRO_NOT_SET INT64_C (-1)

/* How the house gives what stands between price and food; in the order of cro_speaks_codes. */
typedef enum
{
  CRO_SPEAKS_FOOD_COST,         /* in per cent of the net price; where nothing is set */
  CRO_SPEAKS_GROSS_PROFIT,      /* likewise */
  CRO_SPEAKS_COEFFICIENT,       /* net price over food cost */
} CroSpeaks;

typedef struct
{
  gint64      id;
  const char *name;
  gboolean    is_dead;
  gboolean    is_disposable;
  gint32      allergens;        /* mask; -1: nobody has said */
  guint16     may_contain;      /* mask, as the label warns */
  guint8      unit;             /* CroUnit: of an ingredient its base unit, of an output as written */
  gint64      density;
  gint64      piece;
  guint32     first_offer;      /* of an ingredient: into offer_order */
  guint32     n_offers;
  CroOutput   output;           /* of an output: what is written and what its batch gives it */
  gboolean    is_main;
} CroItem;

typedef struct
{
  gint64      id;
  const char *name;
  const char *course;           /* of a plate; NULL: none */
  gboolean    is_dead;
  gboolean    is_plate;
  guint8      rule;             /* CroRule */
  gint64      active_minutes;
  gint64      smallest_part;
  gint64      makes;
  gint64      per_guest;
  gint64      price;            /* on the date; CRO_NOT_SET: given with a menu, or nobody has said */
  gint64      tax;
  gint64      own_price;        /* the undated ones: they hold where no dated price does */
  gint64      own_tax;
  gint64      target;
  gint64      allowance;
  guint32     first_output;     /* into output_order: main first */
  guint32     n_outputs;
} CroRecipe;

typedef struct
{
  gint64      id;
  const char *name;
  gboolean    is_dead;
  gint64      price;            /* on the date */
  gint64      tax;
  gint64      own_price;        /* undated */
  gint64      own_tax;
  gint64      target;
} CroMenu;

/* A dated selling price in force. */
typedef struct
{
  gint64      id;
  gint64      price;            /* CRO_NOT_SET: none of its own */
  gint64      tax;              /* CRO_NOT_SET: the thing's own */
} CroSelling;

typedef struct
{
  gint64      id;
  gboolean    is_dead;
  guint32     menu;
  guint32     plate;            /* recipe slot */
  const char *choice;           /* plates of a menu with the same one are alternatives; NULL: none.
                                   Equal texts are one pointer */
  gint64      share;            /* how often it is chosen; CRO_NOT_SET: an equal part of what is left */
  gint64      servings;
  gint64      position;
} CroMenuPlate;

typedef struct
{
  gint64      id;
  gboolean    is_dead;
  guint32     item;
  guint32     supplier;
  const char *code;
  const char *currency;         /* NULL: the book's */
  gint64      pack_count;       /* of the offer; offer.pack_… is that of the price in force */
  gint64      pack_size;
  guint8      pack_unit;
  gint64      price_id;         /* the price in force; 0: none */
  CroOffer    offer;
} CroOfferEntry;

typedef struct
{
  gint64      id;
  const char *name;
  gboolean    is_dead;
} CroSupplier;

typedef struct
{
  guint       serial;           /* of no two models the same, even where one took the other's place */
  char       *name;
  char       *currency;         /* NULL: nobody has said */
  gint64      wage_per_hour;    /* CRO_NOT_SET */
  gint64      tax;
  gint64      target;
  gint64      stale_after_days;
  CroSpeaks   speaks;

  GArray     *items;            /* CroItem */
  GArray     *recipes;          /* CroRecipe: row slots */
  GArray     *menus;            /* CroMenu */
  GArray     *menu_plates;      /* CroMenuPlate */
  GArray     *suppliers;        /* CroSupplier */
  GArray     *offers;           /* CroOfferEntry */

  /* Parallel to items, as the engine takes them. */
  gint32     *maker;
  CroMeasure *measures;
  gsize       items_allocated;

  CroLines    lines;
  gint64     *line_ids;
  gsize       lines_allocated;

  GArray     *offer_order;      /* guint32: offers by item, supplier's name, code */
  GArray     *output_order;     /* guint32: output items by recipe, main first */

  CroSlots    item_slots, preparation_slots, plate_slots, menu_slots, menu_plate_slots,
              supplier_slots, offer_slots, line_slots;
  CroSlots    price_slots;      /* ids of the prices in force → slots of their offers */
  GHashTable *rates;            /* currency → double *: book currency for one of it */
  GHashTable *selling;          /* id of a thing sold → CroSelling * in force, where it has one */
  GHashTable *thing_names;      /* id of a thing sold → name */
  GStringChunk *text;
} CroModel;

/* What a changed row means for what was computed from the model. */
typedef enum
{
  CRO_TOUCHED_NOTHING,
  CRO_TOUCHED_PRICE,            /* of an item */
  CRO_TOUCHED_ITEM,             /* its offers, measure or allergens */
  CRO_TOUCHED_RECIPE,           /* a line's values, an output, or what it says of its batch */
  CRO_TOUCHED_STRUCTURE,        /* which parts stand below what */
  CRO_TOUCHED_ALL,              /* settings of the book, rates */
} CroTouchedKind;

typedef struct
{
  CroTouchedKind kind;
  guint32        slot;
} CroTouched;

CroModel *cro_model_new           (void);
void      cro_model_free          (CroModel *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroModel, cro_model_free)

/* Reads everything; prices and rates as of date. is_copy: of a book that was read before, whose rest is not looked at
 * again (cro-model-rest.h). */
gboolean   cro_model_load         (CroModel    *self,
                                   CroStore    *store,
                                   CroDate      date,
                                   gboolean     is_copy,
                                   GError     **error);

/* Reads prices and rates as of another date. */
gboolean   cro_model_load_prices  (CroModel    *self,
                                   CroStore    *store,
                                   CroDate      date,
                                   GError     **error);

/* Reads the price of one offer, by slot; rates stay. */
gboolean   cro_model_load_price   (CroModel    *self,
                                   CroStore    *store,
                                   CroDate      date,
                                   guint32      offer,
                                   GError     **error);

/* Reads one row anew after it was written, or forgets it if it is gone. Where columns is not
 * NULL (NULL-terminated, CRO_PREVIEW_MOST at most) the row is taken as if they held cells: a
 * preview (not of a rate or a price: cro-kept-row.h). touched->slot is an item's or a
 * recipe's. Rows of tables that no figure is computed from are passed over; rates are read with
 * all prices. */
gboolean   cro_model_take         (CroModel           *self,
                                   CroStore           *store,
                                   CroDate             date,
                                   const char         *table,
                                   gint64              id,
                                   const char *const  *columns,
                                   const CroCell      *cells,
                                   CroTouched         *touched,
                                   GError            **error);

/* Whether the item of an id is bought or made, or is not there at all. */
gboolean   cro_model_has_kind     (CroModel    *self,
                                   gint64       id);

/* Puts offers and outputs in their orders again; needed after rows of these came or went. */
void       cro_model_sort         (CroModel    *self);

/* The tables that figures are computed from, in the order in which their rows can be taken:
 * what a row names comes first. NULL-terminated. */
const char *const *cro_model_tables (void);

static inline CroItem *
cro_model_item (CroModel *self,
                guint32   slot)
{
  return &g_array_index (self->items, CroItem, slot);
}

static inline CroRecipe *
cro_model_recipe (CroModel *self,
                  guint32   slot)
{
  return &g_array_index (self->recipes, CroRecipe, slot);
}

static inline CroMenu *
cro_model_menu (CroModel *self,
                guint32   slot)
{
  return &g_array_index (self->menus, CroMenu, slot);
}

static inline CroOfferEntry *
cro_model_offer (CroModel *self,
                 guint32   slot)
{
  return &g_array_index (self->offers, CroOfferEntry, slot);
}

/* What an offer's prices are in: the book's where it says nothing, which may be NULL. Borrowed. */
static inline const char *
cro_model_currency_of (CroModel *self,
                       guint32   offer)
{
  const char *own = cro_model_offer (self, offer)->currency;

  return own != NULL ? own : self->currency;
}

G_END_DECLS
