/* cro-figure-words.h: the figures of plates, menus and items as people read them, in both programs:
 * marked where something is missing, told apart from what they are held against, prices for a
 * target rounded up and ceilings down (cro-money.h).
 *
 * Ownership  Texts are the caller's to free. */
#pragma once

#include "cro-card.h"
#include "cro-kind.h"
#include "cro-known.h"
#include "cro-uses.h"

G_BEGIN_DECLS

/* "at least 0.84", "at most 3.20"; "? 0.84" where what is missing may raise or lower it; "?". */
char *cro_words_known            (CroKnown          known,
                                  const char       *text);
/* "≥ 0.84", for tables of many figures. */
char *cro_words_known_short      (CroKnown          known,
                                  const char       *text);
/* The same, taking text; what does not exist ("–") has no mark. */
char *cro_words_take_short       (CroKnown          known,
                                  char             *text);
/* "–" for NaN; what is no 0 is not shown as one: "< 0.1 %". */
char *cro_words_pct_of           (double            pct,
                                  int               digits);
char *cro_words_known_money      (CroModel         *model,
                                  CroKnown          known,
                                  double            amount);

/* A guest's food cost, and that of a bite; "–" of a menu. */
char *cro_words_cost             (CroModel         *model,
                                  const CroFigure  *figure);
/* For tables of many figures: "≥ 0.84"; what its food cost is of its price, as the house states it. */
char *cro_words_cost_short       (CroModel         *model,
                                  const CroFigure  *figure);
char *cro_words_result_short     (CroModel         *model,
                                  const CroFigure  *figure);
char *cro_words_bite             (CroModel         *model,
                                  const CroFigure  *figure);
/* The same under a heading that names the target: "0.31 over". */
char *cro_words_spare_short      (CroModel         *model,
                                  const CroFigure  *figure);

/* Instead of what work costs. */
const char *cro_words_no_minutes (void);

char *cro_words_prime            (CroModel         *model,
                                  const CroFigure  *figure);

/* The part of a menu's net price that a plate takes, rounded by itself: who divides the two comes to it, and those of
 * all plates need not come to the menu's percentage. */
char *cro_words_part_of_price    (const CroPartOfMenu *part,
                                  const CroFigure  *plate);
char *cro_words_part_of_price_short (const CroPartOfMenu *part,
                                  const CroFigure  *plate);
/* The part of a menu's cost that a plate takes: no bound where something is missing below either. */
char *cro_words_part_of_cost     (const CroPartOfMenu *part,
                                  const CroFigure  *plate);
char *cro_words_part_of_cost_short (const CroPartOfMenu *part,
                                  const CroFigure  *plate);

/* A menu, and of what stands in a choice which one, and how often it is taken. */
char *cro_words_place_on_menu    (CroModel         *model,
                                  const CroMenuPlate *entry);

/* What is said beside a net price, or a price that meets a target, of what nobody has set a tax of; NULL: somebody
 * has. Borrowed. */
const char *cro_words_untaxed    (const CroFigure  *figure);

/* The price with tax that meets the target. */
char *cro_words_price_for_target (CroModel         *model,
                                  const CroFigure  *figure);

/* "0.42 under target", rounded down, "0.03 over target", rounded up: whoever spends it keeps the target.
 * NULL without a price or a target. */
char *cro_words_spare            (CroModel         *model,
                                  const CroFigure  *figure);

/* The money alone. */
char *cro_words_spare_money      (CroModel         *model,
                                  const CroFigure  *figure);

/* What may be paid for an item before the target is passed, rounded down: per kg, l or piece, and per
 * pack of the offer in use in its own currency; with digits that tell it from what is paid now, in the
 * same terms. "–" where there is none. */
char *cro_words_ceiling          (CroModel         *model,
                                  CroBase           base,
                                  double            unit_cost,
                                  double            paid);
char *cro_words_ceiling_pack     (CroFigures       *figures,
                                  guint32           item,
                                  double            pack,
                                  double            paid);

/* What a list shows of a thing: an item's unit cost, a plate's or menu's food cost in its price as the house gives it
 * (cro-result-words.h), or its cost while it has no price; "?" where nothing is known. The list itself marks what is
 * incomplete. */
char *cro_words_list_figure      (CroFigures       *figures,
                                  CroKind           kind,
                                  guint32           slot);

/* What a recipe takes of an item, "?" where it cannot be converted; what that costs there; which
 * part of its cost it is. */
char *cro_words_use_amount       (CroModel         *model,
                                  const CroUse     *use);
char *cro_words_use_cost         (CroFigures       *figures,
                                  const CroUse     *use);
char *cro_words_use_part         (CroFigures       *figures,
                                  const CroUse     *use);

/* "3.9 g · 0.46 · 54.8 %": what a guest is charged of an item, and the part of the food cost that is. */
char *cro_words_reached          (CroFigures       *figures,
                                  const CroReached *reached);

/* An item's unit cost, and a share of a cost, of a thing of which this much is known. */
char *cro_words_known_unit_cost  (CroModel         *model,
                                  CroBase           base,
                                  CroKnown          known,
                                  double            unit_cost);
char *cro_words_known_pct        (CroKnown          known,
                                  double            pct);
/* For tables of many figures: "≥ 3.2 %". */
char *cro_words_known_pct_short  (CroKnown          known,
                                  double            pct,
                                  int               digits);

/* Under the lines of a recipe, what they come to: "seasoning 3 %" and 0.62, "for 24" and 21.22, and
 * what that is made of: "= 20.12 food + 1.10 disposables". NULL where there is none of it. */
typedef struct
{
  char *seasoning;
  char *seasoning_money;
  char *of;
  char *money;
  char *kinds;
} CroTotalWords;

void  cro_words_total_of_lines   (CroFigures       *figures,
                                  guint32           recipe,
                                  gint64            total,
                                  gint64            allowance,
                                  CroTotalWords    *words);
void  cro_total_words_clear      (CroTotalWords    *words);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CroTotalWords, cro_total_words_clear)

/* The same in one piece: no line ends within it. */
char *cro_words_together         (const char       *text);

G_END_DECLS
