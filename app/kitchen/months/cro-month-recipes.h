/* cro-month-recipes.h: the recipes that a month is costed by: those of the book as it stood at the end
 * of a day, and, of what the book did not hold yet or held without lines, as it first stood with them
 * (costing.md, section 11).
 *
 * Each stand of the recipes is a book of its own in memory, at the prices of today's rows. */
#pragma once

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

typedef struct _CroMonthRecipes CroMonthRecipes;

/* The book must outlive them. */
CroMonthRecipes *cro_month_recipes_new  (CroBook          *book);
void             cro_month_recipes_free (CroMonthRecipes  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMonthRecipes, cro_month_recipes_free)

/* The book of a day, or of its first where it began later: *stood, which may be NULL, is the day. Its
 * figures are of whatever day was asked last. Borrowed; NULL with error. */
CroBook         *cro_month_recipes_of   (CroMonthRecipes  *self,
                                         CroDate           day,
                                         CroDate          *stood,
                                         GError          **error);

/* The same for one thing sold: *stood is a later day where the book of the day lacked it or its lines.
 * thing is where it stands in that book; CRO_REF_NOWHERE of what no book holds any more. */
CroBook         *cro_month_recipes_find (CroMonthRecipes  *self,
                                         CroDate           day,
                                         gint64            thing,
                                         CroDate          *stood,
                                         CroRef           *ref,
                                         GError          **error);

G_END_DECLS
