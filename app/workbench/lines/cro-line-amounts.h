/* cro-line-amounts.h: what a line takes, as two fields: for the batch, and for one of the bites that a
 * plate makes.
 *
 * Both show what is typed into one of them.
 *
 * Units      makes in millionths, 0 of a preparation.
 * Ownership  Who made it holds it, and what holds the fields holds them; they keep nothing once it is
 *            gone. */
#pragma once

#include "cro-bench.h"
#include "cro-input.h"

G_BEGIN_DECLS

#define CRO_TYPE_LINE_AMOUNTS (cro_line_amounts_get_type ())
G_DECLARE_FINAL_TYPE (CroLineAmounts, cro_line_amounts, CRO, LINE_AMOUNTS, GObject)

CroLineAmounts *cro_line_amounts_new       (CroBench       *bench,
                                            guint32         line);

/* Borrowed. */
CroInput       *cro_line_amounts_get_batch (CroLineAmounts *self);
CroInput       *cro_line_amounts_get_bite  (CroLineAmounts *self);

/* How many bites there are. */
void            cro_line_amounts_set_makes (CroLineAmounts *self,
                                            gint64          makes);

/* What the line takes is called name: so are its fields and what they do. */
void            cro_line_amounts_set_name  (CroLineAmounts *self,
                                            const char     *name);

/* Shows what the book holds anew. */
void            cro_line_amounts_refresh   (CroLineAmounts *self);

gboolean        cro_line_amounts_is_edited (CroLineAmounts *self);

G_END_DECLS
