#include "cro-photo.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <string.h>

G_DEFINE_QUARK (cro-photo-error-quark, cro_photo_error)

G_DEFINE_AUTOPTR_CLEANUP_FUNC (cairo_surface_t, cairo_surface_destroy)

#define QUALITY "85"

/* What is read of a file before it is decoded. */
typedef struct
{
  gboolean is_png;
  gboolean is_plain;     /* holds the picture and nothing beside it */
  guint64  width, height;
} Head;

static gboolean
fail (CroPhotoErrorCode  code,
      const char        *message,
      GError           **error)
{
  g_set_error_literal (error, CRO_PHOTO_ERROR, code, message);
  return FALSE;
}

/* --- Headers ------------------------------------------------------------------------------------ */

static guint32
number_at (const guchar *data,
           int           bytes)
{
  guint32 number = 0;

  for (int i = 0; i < bytes; i++)
    number = number << 8 | data[i];
  return number;
}

static gboolean
is_chunk_of_picture (const guchar *type)
{
  static const char chunks[][5] = { "IHDR", "PLTE", "tRNS", "IDAT", "IEND" };

  for (gsize i = 0; i < G_N_ELEMENTS (chunks); i++)
    if (memcmp (type, chunks[i], 4) == 0)
      return TRUE;
  return FALSE;
}

/* ISO/IEC 15948, 5.3 and 11.2.2: length, type, data and check of each chunk. */
static gboolean
read_png (const guchar *data,
          gsize         length,
          Head         *head)
{
  gsize at = 8;

  if (length < 33 || memcmp (data + 12, "IHDR", 4) != 0)
    return FALSE;
  *head = (Head){ .is_png = TRUE, .is_plain = TRUE, .width = number_at (data + 16, 4),
                  .height = number_at (data + 20, 4) };
  while (at + 12 <= length)
    {
      head->is_plain &= is_chunk_of_picture (data + at + 4);
      at += 12 + (gsize) number_at (data + at, 4);
    }
  head->is_plain &= at == length;
  return TRUE;
}

/* Frame headers of ITU-T T.81, table B.1; those of other numbers define tables. */
static gboolean
is_frame (guchar marker)
{
  return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

/* ITU-T T.81, B.1.1: segments, up to the first scan. APP0 is what JFIF begins with. */
static gboolean
read_jpeg (const guchar *data,
           gsize         length,
           Head         *head)
{
  gsize at = 2;

  *head = (Head){ .is_plain = length > 4 && data[length - 2] == 0xFF && data[length - 1] == 0xD9 };
  while (at + 9 <= length && data[at] == 0xFF)
    {
      guchar marker = data[at + 1];

      if (marker == 0xFF)
        {
          at++;
          continue;
        }
      if (marker == 0xDA)
        break;
      head->is_plain &= marker < 0xE1;
      if (is_frame (marker) && head->width == 0)
        {
          head->height = number_at (data + at + 5, 2);
          head->width = number_at (data + at + 7, 2);
        }
      at += 2 + (gsize) number_at (data + at + 2, 2);
    }
  return head->width > 0;
}

static gboolean
read_head (GBytes  *file,
           Head    *head,
           GError **error)
{
  static const guchar png[] = { 0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n' };
  static const guchar jpeg[] = { 0xFF, 0xD8, 0xFF };
  gsize length;
  const guchar *data = g_bytes_get_data (file, &length);
  gboolean is_png = length >= sizeof png && memcmp (data, png, sizeof png) == 0;

  if (length > CRO_PHOTO_MOST_BYTES)
    return fail (CRO_PHOTO_ERROR_TOO_LARGE, "too many bytes", error);
  if (!is_png && (length < sizeof jpeg || memcmp (data, jpeg, sizeof jpeg) != 0))
    return fail (CRO_PHOTO_ERROR_KIND, "neither JPEG nor PNG", error);
  if (!(is_png ? read_png : read_jpeg) (data, length, head) || head->width == 0 || head->height == 0)
    return fail (CRO_PHOTO_ERROR_BROKEN, "no header", error);
  if (head->width > CRO_PHOTO_MOST_PIXELS || head->height > CRO_PHOTO_MOST_PIXELS
      || head->width * head->height > CRO_PHOTO_MOST_PIXELS)
    return fail (CRO_PHOTO_ERROR_TOO_LARGE, "too many pixels", error);
  return TRUE;
}

/* --- Decoding ----------------------------------------------------------------------------------- */

typedef struct
{
  const Head *head;
  gboolean    is_other;     /* the decoder reads another size than the header says */
} Decoding;

/* A JPEG file is decoded small where it is large. */
static void
size_prepared_cb (GdkPixbufLoader *loader,
                  int              width,
                  int              height,
                  gpointer         user_data)
{
  Decoding *decoding = user_data;
  int longer = MAX (width, height);

  decoding->is_other = (guint64) width != decoding->head->width
                       || (guint64) height != decoding->head->height;
  if (decoding->is_other)
    gdk_pixbuf_loader_set_size (loader, 1, 1);
  else if (longer > CRO_PHOTO_MOST_SIDE)
    gdk_pixbuf_loader_set_size (
        loader, (int) MAX ((gint64) width * CRO_PHOTO_MOST_SIDE / longer, 1),
        (int) MAX ((gint64) height * CRO_PHOTO_MOST_SIDE / longer, 1));
}

/* Owned. */
static GdkPixbuf *
decode (GBytes      *file,
        const Head  *head,
        GError     **error)
{
  g_autoptr (GdkPixbufLoader) loader
      = gdk_pixbuf_loader_new_with_type (head->is_png ? "png" : "jpeg", NULL);
  Decoding decoding = { head, FALSE };
  GdkPixbuf *read, *upright;
  gboolean is_whole;

  if (loader == NULL)
    {
      fail (CRO_PHOTO_ERROR_BROKEN, "no decoder", error);
      return NULL;
    }
  g_signal_connect_data (loader, "size-prepared", (GCallback) size_prepared_cb, &decoding, NULL, 0);
  is_whole = gdk_pixbuf_loader_write_bytes (loader, file, NULL);
  is_whole = gdk_pixbuf_loader_close (loader, NULL) && is_whole;
  read = is_whole && !decoding.is_other ? gdk_pixbuf_loader_get_pixbuf (loader) : NULL;
  upright = read != NULL ? gdk_pixbuf_apply_embedded_orientation (read) : NULL;
  if (upright == NULL)
    fail (CRO_PHOTO_ERROR_BROKEN, "cannot be decoded", error);
  return upright;
}

static gboolean
can_be_seen_through (GdkPixbuf *pixbuf)
{
  const guchar *pixels = gdk_pixbuf_read_pixels (pixbuf);
  gsize stride = (gsize) gdk_pixbuf_get_rowstride (pixbuf);
  int width = gdk_pixbuf_get_width (pixbuf), height = gdk_pixbuf_get_height (pixbuf);

  if (!gdk_pixbuf_get_has_alpha (pixbuf))
    return FALSE;
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      if (pixels[y * stride + 4 * (gsize) x + 3] < 255)
        return TRUE;
  return FALSE;
}

/* --- What is kept ------------------------------------------------------------------------------- */

static gboolean
is_small (const Head *head)
{
  return head->width <= CRO_PHOTO_MOST_SIDE && head->height <= CRO_PHOTO_MOST_SIDE;
}

static GBytes *
encode (GdkPixbuf  *pixbuf,
        gboolean    as_png,
        GError    **error)
{
  char *data;
  gsize length;
  gboolean done = as_png ? gdk_pixbuf_save_to_buffer (pixbuf, &data, &length, "png", NULL, NULL)
                         : gdk_pixbuf_save_to_buffer (pixbuf, &data, &length, "jpeg", NULL, "quality",
                                                      QUALITY, NULL);

  if (done)
    return g_bytes_new_take (data, length);
  fail (CRO_PHOTO_ERROR_BROKEN, "cannot be encoded", error);
  return NULL;
}

/* Whole, or nothing is known of it: what looks as if it could be kept is decoded all the same. */
GBytes *
cro_photo_take (GBytes  *file,
                char   **name,
                GError **error)
{
  g_autoptr (GdkPixbuf) pixbuf = NULL;
  g_autoptr (GBytes) kept = NULL;
  g_autofree char *sum = NULL;
  gboolean as_png;
  Head head;

  g_return_val_if_fail (file != NULL && name != NULL, NULL);

  if (!read_head (file, &head, error))
    return NULL;
  pixbuf = decode (file, &head, error);
  if (pixbuf == NULL)
    return NULL;
  as_png = can_be_seen_through (pixbuf);
  kept = head.is_plain && is_small (&head) && as_png == head.is_png ? g_bytes_ref (file)
                                                                    : encode (pixbuf, as_png, error);
  if (kept == NULL)
    return NULL;
  sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, kept);
  *name = g_strconcat (sum, as_png ? ".png" : ".jpg", NULL);
  return g_steal_pointer (&kept);
}

/* --- Drawing ------------------------------------------------------------------------------------ */

/* Cairo's own pixels: native 32-bit words, colours multiplied by how opaque they are. */
static guint32
pixel_of (const guchar *rgba,
          gboolean      has_alpha)
{
  guint32 alpha = has_alpha ? rgba[3] : 255;

  return alpha << 24 | (rgba[0] * alpha + 127) / 255 << 16 | (rgba[1] * alpha + 127) / 255 << 8
         | (rgba[2] * alpha + 127) / 255;
}

static void
copy_pixels (GdkPixbuf       *pixbuf,
             cairo_surface_t *surface)
{
  const guchar *from = gdk_pixbuf_read_pixels (pixbuf);
  guchar *to = cairo_image_surface_get_data (surface);
  gboolean has_alpha = gdk_pixbuf_get_has_alpha (pixbuf);
  gsize step = (gsize) gdk_pixbuf_get_n_channels (pixbuf);
  int width = gdk_pixbuf_get_width (pixbuf), height = gdk_pixbuf_get_height (pixbuf);

  cairo_surface_flush (surface);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        guint32 pixel = pixel_of (from + (gsize) y * (gsize) gdk_pixbuf_get_rowstride (pixbuf)
                                      + (gsize) x * step,
                                  has_alpha);

        memcpy (to + (gsize) y * (gsize) cairo_image_surface_get_stride (surface) + 4 * (gsize) x,
                &pixel, sizeof pixel);
      }
  cairo_surface_mark_dirty (surface);
}

static void
bytes_unref_cb (void *data)
{
  g_bytes_unref (data);
}

static void
attach_file (cairo_surface_t *surface,
             GBytes          *file)
{
  gsize length;
  const guchar *data = g_bytes_get_data (file, &length);

  cairo_surface_set_mime_data (surface, CAIRO_MIME_TYPE_JPEG, data, length, bytes_unref_cb,
                               g_bytes_ref (file));
}

cairo_surface_t *
cro_photo_open (GBytes  *kept,
                GError **error)
{
  g_autoptr (GdkPixbuf) pixbuf = NULL;
  g_autoptr (cairo_surface_t) surface = NULL;
  Head head;

  g_return_val_if_fail (kept != NULL, NULL);

  if (!read_head (kept, &head, error))
    return NULL;
  pixbuf = decode (kept, &head, error);
  if (pixbuf == NULL)
    return NULL;
  surface = cairo_image_surface_create (
      gdk_pixbuf_get_has_alpha (pixbuf) ? CAIRO_FORMAT_ARGB32 : CAIRO_FORMAT_RGB24,
      gdk_pixbuf_get_width (pixbuf), gdk_pixbuf_get_height (pixbuf));
  if (cairo_surface_status (surface) != CAIRO_STATUS_SUCCESS)
    {
      fail (CRO_PHOTO_ERROR_BROKEN, "no memory", error);
      return NULL;
    }
  copy_pixels (pixbuf, surface);
  if (!head.is_png && head.is_plain && is_small (&head))
    attach_file (surface, kept);
  return g_steal_pointer (&surface);
}

void
cro_photo_free (cairo_surface_t *photo)
{
  cairo_surface_destroy (photo);
}

void
cro_photo_draw (cairo_surface_t *photo,
                cairo_t         *cairo,
                double           width,
                double           height,
                gboolean         at_right)
{
  double own_width = cairo_image_surface_get_width (photo);
  double scale = MIN (width / own_width, height / cairo_image_surface_get_height (photo));

  cairo_save (cairo);
  cairo_translate (cairo, at_right ? width - own_width * scale : 0, 0);
  cairo_scale (cairo, scale, scale);
  cairo_set_source_surface (cairo, photo, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cairo), CAIRO_FILTER_GOOD);
  cairo_paint (cairo);
  cairo_restore (cairo);
}
