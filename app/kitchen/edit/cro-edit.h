/* cro-edit.h: what people change in a book, each change one act.
 *
 * Everything is named by its slot in the model of the book; what was made is returned by its
 * slot when the act has been taken into the figures. label is the act's, in the user's words.
 * One cell of a row is changed by cro_book_set, or by cro_edit_set where several columns must
 * change together.
 *
 * Units      Decimals in millionths; an amount in millionths of its unit.
 * Ownership  Names and cells are read during the call only. Where a result is not wanted its
 *            pointer may be NULL.
 * Errors     CRO_EDIT_ERROR, CRO_REFUSAL, CRO_BOOK_ERROR (CYCLE) or CRO_STORE_ERROR; then nothing
 *            was changed, and what was to be returned is as it was. */
#pragma once

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

#define CRO_EDIT_ERROR (cro_edit_error_quark ())

typedef enum
{
  CRO_EDIT_ERROR_NAME_TAKEN,   /* by the message, which cro_edit_find_name finds */
  CRO_EDIT_ERROR_NAME_UNBOUGHT, /* by an ingredient without packs, which may become a preparation */
  CRO_EDIT_ERROR_NAME_BOUGHT,  /* by an ingredient with packs, which stays one */
  CRO_EDIT_ERROR_IN_USE,       /* cro_edit_list_users says by whom */
  CRO_EDIT_ERROR_TWICE,        /* the plate stands in the menu, or the offer or rate is there */
  CRO_EDIT_ERROR_HAS_PACKS,    /* what becomes a preparation is bought: it has packs, */
  CRO_EDIT_ERROR_HAS_PURCHASES, /* or purchases */
  CRO_EDIT_ERROR_HAS_LINES,    /* what becomes an ingredient is made of something, */
  CRO_EDIT_ERROR_HAS_OUTPUTS,  /* or gives by-products */
  CRO_EDIT_ERROR_RANGE,        /* what is to be scaled would become 0, or too large */
  CRO_EDIT_ERROR_SHARES,       /* those of a choice, the message, would not come to 100 per cent */
  CRO_EDIT_ERROR_NO_PRICE,     /* a tax, where there is no selling price that it is in */
  CRO_EDIT_ERROR_CLOSED,       /* the month that it belongs to, the message, is closed */
} CroEditErrorCode;

GQuark   cro_edit_error_quark (void);

/* --- Names ------------------------------------------------------------------------------ */

/* Names are unique within a space; a preparation may bear the name of its output. */
typedef enum
{
  CRO_NAMES_ITEMS,
  CRO_NAMES_PREPARATIONS,
  CRO_NAMES_THINGS,            /* plates and menus */
  CRO_NAMES_SUPPLIERS,
} CroNames;

/* Who bears a name, which is tidied first, before one whose name differs only in upper and lower case;
 * CRO_REF_NONE if nobody does. */
CroRef   cro_edit_find_name   (CroModel       *model,
                               CroNames        names,
                               const char     *name);

/* The name, tidied, or with the lowest number behind it that makes it free: "Gel 2". A
 * preparation's is free among items too. Owned. */
char    *cro_edit_dup_free_name (CroModel     *model,
                               CroNames        names,
                               const char     *name);

/* Of an ingredient, a by-product, a preparation (and its main output, if that bears the same
 * name), a plate, a menu or a supplier. */
gboolean cro_edit_rename      (CroBook        *book,
                               const char     *label,
                               CroRef          ref,
                               const char     *name,
                               GError        **error);

/* --- Cells ------------------------------------------------------------------------------- */

/* The id in the store of what has a slot, for cro_book_set, cro_book_preview and cro_edit_set;
 * *table is its table: "ingredient", "output", "preparation", "plate", "menu", "supplier",
 * "offer", "recipe_line", "book". */
gint64   cro_edit_row         (CroModel       *model,
                               CroRef          ref,
                               const char    **table);

/* Whether the row of a table comes with the first value that is set in it: that of the book. */
gboolean cro_edit_makes_row   (const char     *table);

/* Columns of one row, NULL-terminated, that must change together. The row of the book is made
 * where it is not there. */
gboolean cro_edit_set         (CroBook            *book,
                               const char         *label,
                               const char         *table,
                               gint64              id,
                               const char *const  *columns,
                               const CroCell      *cells,
                               GError            **error);

/* --- Pictures ---------------------------------------------------------------------------- */

/* Of a plate or a preparation. file: what a JPEG or PNG file holds; NULL: it has none any more.
 * CRO_PHOTO_ERROR where it cannot be one. */
gboolean cro_edit_set_picture (CroBook            *book,
                               const char         *label,
                               CroRef              recipe,
                               GBytes             *file,
                               GError            **error);

/* --- What is bought ----------------------------------------------------------------------- */

/* What is paid for one unit of an ingredient, to whom and from when. */
typedef struct
{
  gint64      price;           /* millionths of the book's currency for size units, without tax */
  CroUnit     unit;            /* any; where it must be converted the ingredient's measures do */
  const char *supplier;        /* made where nobody bears the name */
  CroDate     from;
  gint64      size;            /* millionths; 0: one */
} CroUnitPrice;

/* price may be NULL. */
gboolean cro_edit_add_ingredient (CroBook             *book,
                                  const char          *label,
                                  const char          *name,
                                  CroBase              base,
                                  const CroUnitPrice  *price,
                                  guint32             *item,
                                  GError             **error);

/* On that supplier's offer without a code, which is made as 1 × size unit where it is not there.
 * A price of 0 says that the ingredient costs nothing. */
gboolean cro_edit_price_ingredient (CroBook             *book,
                                    const char          *label,
                                    guint32              item,
                                    const CroUnitPrice  *price,
                                    guint32             *offer,
                                    GError             **error);

/* What an ingredient contains and, by its label, may contain; both are masks of groups. allergens below 0:
 * nobody has said. */
gboolean cro_edit_state_allergens (CroBook             *book,
                                   const char          *label,
                                   guint32              item,
                                   gint32               allergens,
                                   guint32              may_contain,
                                   GError             **error);

/* The name of a supplier from whom all that has a price costs nothing, as water does, or what
 * is picked; NULL: there is none. The model's. */
const char *cro_edit_find_free_supplier (CroModel *model);

gboolean cro_edit_add_supplier (CroBook        *book,
                                const char     *label,
                                const char     *name,
                                guint32        *supplier,
                                GError        **error);

typedef struct
{
  guint32     item;            /* an ingredient */
  guint32     supplier;        /* CRO_NO_SLOT: the one of that name, made where nobody bears it */
  const char *supplier_name;
  const char *code;            /* NULL: none */
  gint64      pack_count;
  gint64      pack_size;
  CroUnit     pack_unit;
  const char *currency;        /* NULL: the book's */
  gboolean    has_price;
  gint64      price;           /* of a pack, in the offer's currency */
  CroDate     from;
} CroNewOffer;

/* TWICE where the supplier has an offer of it under that code. */
gboolean cro_edit_add_offer    (CroBook            *book,
                                const char         *label,
                                const CroNewOffer  *new_offer,
                                guint32            *offer,
                                GError            **error);

/* Another supplier of that pack, made where nobody bears the name. TWICE where that one has an
 * offer of it under the same code. */
gboolean cro_edit_set_supplier (CroBook        *book,
                                const char     *label,
                                guint32         offer,
                                const char     *supplier,
                                GError        **error);

/* All packs and purchases of a supplier become those of another, and the supplier goes; what is entered of it
 * stays where the other has nothing. A pack under whose code the other has one of the ingredient gets a
 * number behind the code. */
gboolean cro_edit_merge_supplier (CroBook      *book,
                                const char     *label,
                                guint32         supplier,
                                guint32         into,
                                GError        **error);

/* The price of a pack from a date: that of this date is changed, or a new one begins, with
 * the tax and the pack of the price before it. CRO_NOT_SET: not to be had from then on. */
gboolean cro_edit_set_price    (CroBook        *book,
                                const char     *label,
                                guint32         offer,
                                CroDate         from,
                                gint64          price,
                                GError        **error);

/* The same for a price of the pack that the offer is spoken of in (cro-own-pack.h): no price per unit
 * goes on. */
gboolean cro_edit_set_own_price (CroBook       *book,
                                const char     *label,
                                guint32         offer,
                                CroDate         from,
                                gint64          price,
                                GError        **error);

/* What a pack holds from a date: the price goes on in the new pack, prices of before keep the old
 * one. Where no price holds on that date the pack itself is another. */
gboolean cro_edit_set_pack     (CroBook        *book,
                                const char     *label,
                                guint32         offer,
                                CroDate         from,
                                gint64          count,
                                gint64          size,
                                CroUnit         unit,
                                GError        **error);

/* rate: book currency for per units of currency. One of the same date is changed. */
gboolean cro_edit_set_rate     (CroBook        *book,
                                const char     *label,
                                const char     *currency,
                                CroDate         from,
                                gint64          rate,
                                gint64          per,
                                GError        **error);

/* Says that the price which a pack has from that very date is right, so that it is not asked about again
 * (cro-price-answers.h). Nothing where it has none of that date. */
gboolean cro_edit_answer_price (CroBook        *book,
                                const char     *label,
                                guint32         offer,
                                CroDate         from,
                                GError        **error);

/* By the id of its row. */
gboolean cro_edit_remove_price (CroBook        *book,
                                const char     *label,
                                gint64          id,
                                GError        **error);
gboolean cro_edit_remove_rate  (CroBook        *book,
                                const char     *label,
                                gint64          id,
                                GError        **error);

/* --- What plates and menus are sold for --------------------------------------------------- */

/* The gross price of a plate or a menu from a date: that of this date is changed, or a new one
 * begins, with the tax of the dated price before it. CRO_NOT_SET: none of its own from then on. The
 * book can preview columns of a row of "selling_price" as any others. */
gboolean cro_edit_set_selling_price (CroBook       *book,
                                     const char    *label,
                                     CroRef         thing,
                                     CroDate        from,
                                     gint64         price,
                                     GError       **error);

/* The same for the tax in it, at the price of that date; CRO_NOT_SET: the thing's own, else the
 * book's. Of what never had a price its own tax is set; where it has none on the date but had one
 * before, the tax is refused (NO_PRICE). */
gboolean cro_edit_set_selling_tax   (CroBook       *book,
                                     const char    *label,
                                     CroRef         thing,
                                     CroDate        from,
                                     gint64         tax,
                                     GError       **error);

/* By the id of its row. */
gboolean cro_edit_remove_selling_price (CroBook     *book,
                                        const char  *label,
                                        gint64       id,
                                        GError     **error);

/* --- What is made and served ------------------------------------------------------------- */

/* With its main output, of the same name. amount 0: not known yet. */
gboolean cro_edit_add_preparation (CroBook        *book,
                                   const char     *label,
                                   const char     *name,
                                   gint64          amount,
                                   CroUnit         unit,
                                   guint32        *recipe,
                                   guint32        *item,
                                   GError        **error);

/* What was filed as bought is made in the house: an ingredient becomes the main output of an empty
 * preparation of its name. Its lines stay, and density and piece weight; note, which may be NULL, is
 * written behind its own, as a preparation has no allergens of its own. HAS_PACKS, HAS_PURCHASES. */
gboolean cro_edit_become_preparation (CroBook     *book,
                                   const char     *label,
                                   guint32         item,
                                   const char     *note,
                                   guint32        *recipe,
                                   GError        **error);

/* A plate becomes a preparation of its name with all its lines. What it makes is what a batch gives,
 * in pieces, where it makes more than 1; otherwise that is not known yet. All that has to do with selling
 * goes, and the seasoning; note, which may be NULL, is written behind its own. IN_USE by a menu or
 * sales. */
gboolean cro_edit_plate_become_preparation (CroBook *book,
                                   const char     *label,
                                   guint32         plate,
                                   const char     *note,
                                   guint32        *recipe,
                                   GError        **error);

/* The other way: the preparation goes, its main output is bought. HAS_LINES, HAS_OUTPUTS. */
gboolean cro_edit_become_ingredient (CroBook      *book,
                                   const char     *label,
                                   guint32         preparation,
                                   GError        **error);

/* A by-product of a preparation. amount 0: not known yet. */
gboolean cro_edit_add_output      (CroBook        *book,
                                   const char     *label,
                                   guint32         preparation,
                                   const char     *name,
                                   gint64          amount,
                                   CroUnit         unit,
                                   guint32        *item,
                                   GError        **error);

/* A by-product of a preparation becomes its main output, and that a by-product. */
gboolean cro_edit_make_main       (CroBook        *book,
                                   const char     *label,
                                   guint32         preparation,
                                   guint32         item,
                                   GError        **error);

gboolean cro_edit_add_plate       (CroBook        *book,
                                   const char     *label,
                                   const char     *name,
                                   gint64          makes,
                                   guint32        *recipe,
                                   GError        **error);

gboolean cro_edit_add_menu        (CroBook        *book,
                                   const char     *label,
                                   const char     *name,
                                   guint32        *menu,
                                   GError        **error);

/* A copy under another name: of an ingredient with its offers and their newest prices, of a
 * preparation with its lines and outputs (by-products get free names), of a plate with its
 * lines, of a menu with its plates, of a supplier without offers, of an offer (name: its code)
 * with its newest price. */
gboolean cro_edit_duplicate       (CroBook        *book,
                                   const char     *label,
                                   CroRef          ref,
                                   const char     *name,
                                   CroRef         *copy,
                                   GError        **error);

/* Bites of a plate, or the finished amount of a preparation's main output in its own unit:
 * every line, and every output that is given as an amount, in proportion. Minutes stay. */
gboolean cro_edit_scale           (CroBook        *book,
                                   const char     *label,
                                   guint32         recipe,
                                   gint64          to,
                                   GError        **error);

/* --- Removing ------------------------------------------------------------------------------ */

/* Who uses a thing so that it cannot be removed. Of an item: the recipes that take it, yield
 * tests, counts, purchases and adjustments; of a preparation: those of its outputs; of a plate:
 * the menus that carry it, and sales; of a menu: sales; of a supplier: offers, and purchases.
 * Elements CroRef, each once; NULL on failure. */
GArray  *cro_edit_list_users  (CroBook        *book,
                               CroRef          ref,
                               GError        **error);

/* For how many services covers of a plate or a menu are planned: they go with it. */
guint    cro_edit_count_services (CroBook     *book,
                               CroRef          thing);

/* With what is its own: offers and prices of an ingredient, lines and outputs of a recipe,
 * plates of a menu, prices of an offer. A line is removed too. */
gboolean cro_edit_remove      (CroBook        *book,
                               const char     *label,
                               CroRef          ref,
                               GError        **error);

/* --- Lines ---------------------------------------------------------------------------------- */

/* Slots of the lines of a recipe in their order. Elements guint32. */
GArray  *cro_edit_list_lines  (CroFigures     *figures,
                               guint32         recipe);

/* What a line takes; where item is CRO_NO_SLOT an ingredient is made, or an empty preparation. */
typedef struct
{
  guint32     item;
  const char *name;            /* of what is made */
  CroBase     base;            /* likewise */
  gboolean    is_preparation;  /* likewise */
  gint64      amount;
  CroUnit     unit;
  gboolean    as_bought;       /* and not trimmed */
  const char *note;            /* NULL: none */
  gboolean    has_price;       /* of the ingredient, made or there already */
  CroUnitPrice price;
} CroNewLine;

/* Lines in their order (n may be 0), and what a recipe says of itself beside them; NULL and 0: nothing. An
 * ingredient named twice, whatever its case and accents, is made once. */
typedef struct
{
  const CroNewLine *lines;
  guint             n;
  const char       *note;      /* stands behind the note that is there */
  gint64            makes;     /* bites of a plate */
  gint64            gives;     /* what a preparation's batch gives of its main output */
  CroUnit           gives_unit;
} CroNewRecipe;

/* Behind the line `after`, CRO_NO_SLOT: at the end. *item: slot of what the first line takes. */
gboolean cro_edit_add_recipe  (CroBook            *book,
                               const char         *label,
                               guint32             recipe,
                               guint32             after,
                               const CroNewRecipe *content,
                               guint32            *item,
                               GError            **error);

/* An empty book's first figure: a plate and its first line, with the book's currency where
 * that is not set (NULL: leave it). */
gboolean cro_edit_start       (CroBook           *book,
                               const char        *label,
                               const char        *currency,
                               const char        *name,
                               gint64             makes,
                               const CroNewLine  *new_line,
                               guint32           *recipe,
                               GError           **error);

/* To behind the line `after` of the same recipe; CRO_NO_SLOT: to the top. */
gboolean cro_edit_move_line   (CroBook        *book,
                               const char     *label,
                               guint32         line,
                               guint32         after,
                               GError        **error);

/* The copy stands behind it. */
gboolean cro_edit_duplicate_line (CroBook     *book,
                               const char     *label,
                               guint32         line,
                               guint32        *copy,
                               GError        **error);

/* --- Plates of a menu ------------------------------------------------------------------------- */

/* How often plates of one choice are taken, as one act: millionths of a per cent, or CRO_NO_SHARE
 * for an equal part of what is left. SHARES if the choice would not come to 100 per cent. n: at
 * least 1. */
gboolean cro_edit_set_shares      (CroBook        *book,
                                   const char     *label,
                                   const guint32  *entries,
                                   const gint64   *shares,
                                   guint           n,
                                   GError        **error);

/* Puts a plate into another choice, or into none, without a share. Where those of the choice that
 * it leaves would not come to 100 per cent they are taken alike. */
gboolean cro_edit_set_choice      (CroBook        *book,
                                   const char     *label,
                                   guint32         entry,
                                   const CroCell  *choice,
                                   GError        **error);

/* The same of several plates of a menu; n: at least 1. A whole choice that is renamed keeps its shares
 * unless others bear the new name. */
gboolean cro_edit_set_choices     (CroBook        *book,
                                   const char     *label,
                                   const guint32  *entries,
                                   guint           n,
                                   const CroCell  *choice,
                                   GError        **error);

/* Entries are slots of model->menu_plates. At the end of the menu. TWICE if it is there. */
gboolean cro_edit_add_to_menu (CroBook        *book,
                               const char     *label,
                               guint32         menu,
                               guint32         plate,
                               gint64          servings,
                               guint32        *entry,
                               GError        **error);

gboolean cro_edit_remove_from_menu (CroBook   *book,
                               const char     *label,
                               guint32         entry,
                               GError        **error);

/* To behind the entry `after` of the same menu; CRO_NO_SLOT: to the top. */
gboolean cro_edit_move_in_menu (CroBook       *book,
                               const char     *label,
                               guint32         entry,
                               guint32         after,
                               GError        **error);

G_END_DECLS
