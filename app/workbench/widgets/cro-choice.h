/* cro-choice.h: a drop-down that shows one column of one row with few possible values, and
 * changes it as one act. What the book refuses is said over it. */
#pragma once

#include <gtk/gtk.h>

#include "cro-book.h"

G_BEGIN_DECLS

#define CRO_TYPE_CHOICE (cro_choice_get_type ())
G_DECLARE_FINAL_TYPE (CroChoice, cro_choice, CRO, CHOICE, GtkWidget)

/* values: as the store holds them; words: as people read them. Both NULL-terminated, borrowed. */
GtkWidget *cro_choice_new     (const char         *name,
                               const char *const  *values,
                               const char *const  *words);

void       cro_choice_bind    (CroChoice          *self,
                               CroBook            *book,
                               const char         *table,
                               gint64              id,
                               const char         *column,
                               const char         *act);

/* Another way to keep a choice than its column alone. */
typedef gboolean (*CroChoiceKeep) (CroChoice       *self,
                                   const CroCell   *cell,
                                   gpointer         owner,
                                   GError         **error);

/* The choice does not hold its owner: once that is disposed of, nothing is kept. */
void       cro_choice_set_way (CroChoice          *self,
                               CroChoiceKeep       way,
                               gpointer            owner);

/* What is chosen, where it is not in the column alone; owner is that of the way. Owned. */
typedef char *(*CroChoiceRead) (CroChoice *self, gpointer owner);
void       cro_choice_set_read (CroChoice         *self,
                               CroChoiceRead       read);

/* The label that cro_choice_bind gave; borrowed. Another, as the thing is called otherwise. */
const char *cro_choice_get_act (CroChoice         *self);
void       cro_choice_set_act  (CroChoice         *self,
                                const char        *act);

void       cro_choice_refresh (CroChoice          *self);

/* Shows a value where the column is not set, as that is what then holds. */
void       cro_choice_set_unset (CroChoice         *self,
                               const char          *value);

/* Its accessible name. */
void       cro_choice_set_name (CroChoice         *self,
                                const char        *name);

/* A choice among the codes of a set (cro-code.h). */
GtkWidget *cro_choice_new_code (const char        *name,
                                const char *const *codes);

/* A choice among the units of all measures, or of some bases only (bits 1 << CroBase). */
GtkWidget *cro_choice_new_unit (const char        *name,
                                unsigned           bases);

G_END_DECLS
