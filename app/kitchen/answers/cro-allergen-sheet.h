/* cro-allergen-sheet.h: the plates of a book, or of one menu, against a list of allergens; and which of
 * them a guest who avoids some of it can be told what about.
 *
 * The plates are read once for an edition of the book: what is avoided, and the list, then only group
 * them anew.
 *
 * Ownership  Figures are borrowed and must not move while the sheet is asked. */
#pragma once

#include "cro-allergen-list.h"
#include "cro-carrier.h"

G_BEGIN_DECLS

/* In the order in which they are shown: the worst that is known of anything that is avoided. Where
 * nothing is, all plates are of the last. */
typedef enum
{
  CRO_AVOID_CONTAINS,
  CRO_AVOID_MAY,            /* a label warns; somebody may still have to say of others */
  CRO_AVOID_NOT_KNOWN,
  CRO_AVOID_NOT_ENTERED,    /* not among those that were entered: no absence */
  CRO_N_AVOID_GROUPS,
} CroAvoidGroup;

typedef struct
{
  CroRef        thing;
  guint64       bits;       /* cro_carried_bits () */
  CroAvoidGroup group;
} CroAllergenRow;

typedef struct
{
  CroFigures        *figures;
  guint32            menu;      /* slot; CRO_NO_SLOT: all plates, and menus behind them */
  CroAllergenListId  list;
  guint32            avoids;    /* bits by the entries of the list */
  GArray            *rows;      /* CroAllergenRow: by group, then by name; of a menu in its order */
  guint              n_in[CRO_N_AVOID_GROUPS];
  GArray            *sorted;    /* the same without the groups */
} CroAllergenSheet;

CroAllergenSheet *cro_allergen_sheet_new  (CroFigures             *figures,
                                           guint32                 menu);
void              cro_allergen_sheet_free (CroAllergenSheet       *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroAllergenSheet, cro_allergen_sheet_free)

/* Groups the rows anew. */
void              cro_allergen_sheet_ask  (CroAllergenSheet       *self,
                                           CroAllergenListId       list,
                                           guint32                 avoids);

/* What is known of one entry of the sheet's list: a set of CroHeld. */
unsigned          cro_allergen_sheet_held (const CroAllergenSheet *self,
                                           const CroAllergenRow   *row,
                                           guint                   entry);

/* The bits that say so, for cro_carriers_new (): of what is contained, of what a label warns, or of what is not
 * known. An entry of which a group is a part is not known because of that group, too. */
guint64           cro_allergen_sheet_bits (const CroAllergenSheet *self,
                                           const CroAllergenRow   *row,
                                           guint                   entry,
                                           CroHeld                 held);

/* How many ingredients the book has, and of how many of them nobody has said. */
void              cro_allergens_count     (CroModel               *model,
                                           guint                  *n,
                                           guint                  *n_not_stated);

G_END_DECLS
