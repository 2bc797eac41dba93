/* cro-replacement.h: one item put in the place of another, or two that become one, or one plate in the
 * place of another on menus, or taken off them; each is one act.
 *
 * A line keeps its amount, its unit and its own yield; a trim yield is that of the item it then takes.
 *
 * Units      Slots of the model.
 * Errors     As of cro-edit.h: CYCLE names the path; TWICE: a menu has the other plate already; IN_USE: a
 *            plate that should go was sold; what one cannot become is told by CRO_EDIT_ERROR_HAS_PACKS,
 *            _PURCHASES, _LINES or _OUTPUTS. Then nothing was changed. */
#pragma once

#include "cro-breakdown.h"
#include "cro-edit.h"

G_BEGIN_DECLS

typedef struct
{
  guint32        item;
  guint32        by;         /* CRO_NO_SLOT: the plate is taken off menus, and nothing comes in its place */
  const guint32 *recipes;    /* in these alone; NULL: in all */
  guint          n_recipes;
  gboolean       is_merge;   /* the item goes: all that was entered of it follows to the other one */
  gboolean       is_plate;   /* both are plates, recipes are menus: servings, choice and share stay */
  gboolean       is_removal; /* the plate, replaced or taken off in all, goes as well */
} CroReplacement;

/* What a plate or a menu came to before and comes to after. */
typedef struct
{
  CroRef    thing;
  CroFigure from;
  CroFigure to;
  guint64   from_bits;   /* groups of allergens, as of cro_carried_bits () */
  guint64   to_bits;
} CroConsequence;

/* Whether a plate stands on a menu. */
gboolean cro_replacement_is_on       (CroModel             *model,
                                      guint32               menu,
                                      guint32               plate);

/* The menus that a plate stands on. Elements guint32, rising. */
GArray  *cro_replacement_list_menus   (CroModel             *model,
                                       guint32               plate);

/* The lines that would take the other item. Elements guint32. */
GArray  *cro_replacement_list_lines  (CroFigures           *figures,
                                      const CroReplacement *replacement);

/* Of these, the lines whose amounts cannot be converted into what the other is costed in: it has no
 * density, or no piece weight. Elements guint32. */
GArray  *cro_replacement_list_unknown (CroFigures          *figures,
                                      const CroReplacement *replacement);

/* Every plate and menu whose cost moves or becomes known, or is no more, or whose allergens are others; what
 * moves most first; a plate that goes is not among them.
 * Nothing is kept. Elements CroConsequence; NULL with error, as the act would have it. */
GArray  *cro_replacement_try         (CroBook              *book,
                                      const CroReplacement *replacement,
                                      GError              **error);

/* Merged, what was entered of the item is entered of the other one: packs with their prices, yield
 * tests, counts, purchases, adjustments, what is in the house. A pack whose supplier has one of the
 * other under its code gets a number behind the code. What the other lacks it takes from the item:
 * category, density, piece weight, trim yield; allergens of both are entered of it, and notes stand
 * behind each other. A preparation that is merged into another goes with its lines. */
gboolean cro_edit_replace            (CroBook              *book,
                                      const char           *label,
                                      const CroReplacement *replacement,
                                      GError              **error);

G_END_DECLS
