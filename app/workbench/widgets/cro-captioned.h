/* cro-captioned.h: a caption over a control, for templates; the control is its child, and has its
 * own accessible name.
 *
 * Properties    "caption": a word or two. Without one the control stands as low as others do. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_CAPTIONED (cro_captioned_get_type ())
G_DECLARE_FINAL_TYPE (CroCaptioned, cro_captioned, CRO, CAPTIONED, GtkBox)

G_END_DECLS
