/* cro-photo.h: the picture of a plate, as it is kept and as it is drawn.
 *
 * What is kept is a JPEG file of quality 85, or a PNG file where something can be seen through; upright,
 * no side longer than 1,600 pixels, without what a camera writes beside the picture (the place and the
 * hour among them). A file that is so already is kept as it is, so that nothing is lost by bringing a
 * picture out of a book and in again. JPEG is ITU-T T.81, how it was held is Exif 2.3 (CIPA DC-008)
 * 4.6.4, PNG is ISO/IEC 15948.
 *
 * It stands in this layer as cards draw it, and as both programs take pictures in; no other kind of file
 * is ever opened, and none before its header was read.
 *
 * Errors     CRO_PHOTO_ERROR. */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

#define CRO_PHOTO_ERROR (cro_photo_error_quark ())

typedef enum
{
  CRO_PHOTO_ERROR_KIND,        /* neither JPEG nor PNG */
  CRO_PHOTO_ERROR_TOO_LARGE,   /* more than CRO_PHOTO_MOST_BYTES or CRO_PHOTO_MOST_PIXELS */
  CRO_PHOTO_ERROR_BROKEN,      /* damaged, cut short, or of a kind that nobody writes */
} CroPhotoErrorCode;

GQuark           cro_photo_error_quark (void);

#define CRO_PHOTO_MOST_BYTES (20 << 20)
#define CRO_PHOTO_MOST_PIXELS (64 * 1000 * 1000)
#define CRO_PHOTO_MOST_SIDE 1600

/* What is kept of a file; *name, owned, is the SHA-256 of that in hexadecimal digits with ".jpg" or
 * ".png" behind. */
GBytes          *cro_photo_take   (GBytes           *file,
                                   char            **name,
                                   GError          **error);

/* What was kept, to be drawn; from a file of anybody, so bounded again. A PDF gets the JPEG file itself. */
cairo_surface_t *cro_photo_open   (GBytes           *kept,
                                   GError          **error);

void             cro_photo_free   (cairo_surface_t  *photo);

/* As large as it fits into a rectangle, whose top left corner is the origin: at the top, at the right end
 * of it or the left. */
void             cro_photo_draw   (cairo_surface_t  *photo,
                                   cairo_t          *cairo,
                                   double            width,
                                   double            height,
                                   gboolean          at_right);

G_END_DECLS
