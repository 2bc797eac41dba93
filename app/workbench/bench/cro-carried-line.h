/* cro-carried-line.h: what is known of the allergens of a plate or a menu, in one line; pressed, or by Ctrl+I on
 * it, who carries each of them in, with the cautions. */
#pragma once

#include <gtk/gtk.h>

#include "cro-breakdown.h"
#include "cro-ref.h"

G_BEGIN_DECLS

#define CRO_TYPE_CARRIED_LINE (cro_carried_line_get_type ())
G_DECLARE_FINAL_TYPE (CroCarriedLine, cro_carried_line, CRO, CARRIED_LINE, GtkWidget)

GtkWidget *cro_carried_line_new (void);

/* Hidden where nothing goes in yet: nobody may read that there are none. The figures are borrowed, and asked
 * again when the line is opened. */
void       cro_carried_line_set (CroCarriedLine     *self,
                                 CroFigures         *figures,
                                 CroRef              thing,
                                 const CroBreakdown *breakdown);

G_END_DECLS
