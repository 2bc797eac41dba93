/* cro-field-menu.h: where the focus goes when the menu of a field closes.
 *
 * The toolkit leaves it on the item, out of sight, until the next layout. An item that can not be chosen again, as
 * there is nothing left to cut, loses it for good: no key is heard any more, or by what is behind a popover. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* To the field, for every field of the program from then on; again does no harm. */
void cro_field_menu_begin (void);

G_END_DECLS
