/* Pictures of plates: what is kept of a file, and which files are refused. Files are made here, byte by
 * byte where it matters; sizes, kinds and colours are read back by GdkPixbuf alone. */
#define _GNU_SOURCE /* memmem */

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "cro-photo.h"

/* Left half red, right half blue, both as opaque as asked. */
static GBytes *
make (const char *type,
      int         width,
      int         height,
      guint8      alpha)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, alpha < 255, 8, width, height);
  g_autoptr (GdkPixbuf) right = gdk_pixbuf_new_subpixbuf (pixbuf, width / 2, 0, width - width / 2, height);
  char *data;
  gsize length;

  gdk_pixbuf_fill (pixbuf, 0xFF000000u | alpha);
  gdk_pixbuf_fill (right, 0x0000FF00u | alpha);
  assert_true (gdk_pixbuf_save_to_buffer (pixbuf, &data, &length, type, NULL, NULL));
  return g_bytes_new_take (data, length);
}

/* A JPEG file whose camera was held so: a segment APP1 behind the first two bytes, as Exif 2.3, 4.7.2
 * and 4.6.4 A (tag 0x0112, SHORT) have it, in big-endian order. */
static GBytes *
held (GBytes *jpeg,
      guint8  orientation)
{
  const guint8 segment[] = { 0xFF, 0xE1, 0, 34, 'E', 'x', 'i', 'f', 0, 0, 'M', 'M', 0, 42, 0, 0, 0, 8,
                             0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0 };
  gsize length;
  const guint8 *data = g_bytes_get_data (jpeg, &length);
  GByteArray *all = g_byte_array_new ();

  g_byte_array_append (all, data, 2);
  g_byte_array_append (all, segment, sizeof segment);
  g_byte_array_append (all, data + 2, (guint) length - 2);
  return g_byte_array_free_to_bytes (all);
}

static GdkPixbuf *
read_back (GBytes *file)
{
  g_autoptr (GInputStream) stream = g_memory_input_stream_new_from_bytes (file);
  GdkPixbuf *pixbuf = gdk_pixbuf_new_from_stream (stream, NULL, NULL);

  assert_non_null (pixbuf);
  return pixbuf;
}

static gboolean
is_red (GdkPixbuf *pixbuf,
        int        x,
        int        y)
{
  const guint8 *pixel = gdk_pixbuf_read_pixels (pixbuf) + y * gdk_pixbuf_get_rowstride (pixbuf)
                        + x * gdk_pixbuf_get_n_channels (pixbuf);

  return pixel[0] > 200 && pixel[2] < 60;
}

static GBytes *
must_take (GBytes  *file,
           char   **name)
{
  GError *error = NULL;
  GBytes *kept = cro_photo_take (file, name, &error);

  if (kept == NULL)
    fail_msg ("%s", error->message);
  return kept;
}

/* --- What is kept --------------------------------------------------------------------------------- */

static const struct
{
  const char *says;
  const char *type;
  int         width, height;
  guint8      alpha, orientation;   /* 0: none */
  const char *ending;
  int         kept_width, kept_height;
  gboolean    as_it_is;
  int         red_x, red_y;         /* in per cent */
} takings[] = {
  { "a small JPEG", "jpeg", 64, 48, 255, 0, ".jpg", 64, 48, TRUE, 10, 50 },
  { "a long one", "jpeg", 3200, 2000, 255, 0, ".jpg", 1600, 1000, FALSE, 10, 50 },
  { "a tall one", "jpeg", 1000, 4000, 255, 0, ".jpg", 400, 1600, FALSE, 10, 50 },
  { "just as long as may be", "jpeg", 1600, 900, 255, 0, ".jpg", 1600, 900, TRUE, 10, 50 },
  /* Exif 2.3, 4.6.4 A, Orientation: where row 0 and column 0 are seen. */
  { "held upright", "jpeg", 64, 48, 255, 1, ".jpg", 64, 48, FALSE, 10, 50 },
  { "mirrored", "jpeg", 64, 48, 255, 2, ".jpg", 64, 48, FALSE, 90, 50 },
  { "upside down", "jpeg", 64, 48, 255, 3, ".jpg", 64, 48, FALSE, 90, 50 },
  { "row 0 is the right side", "jpeg", 64, 48, 255, 6, ".jpg", 48, 64, FALSE, 50, 10 },
  { "row 0 is the left side", "jpeg", 64, 48, 255, 8, ".jpg", 48, 64, FALSE, 50, 90 },
  { "long, and turned", "jpeg", 3200, 1600, 255, 6, ".jpg", 800, 1600, FALSE, 50, 10 },
  { "a PNG that hides all", "png", 64, 48, 255, 0, ".jpg", 64, 48, FALSE, 10, 50 },
  { "one to be seen through", "png", 64, 48, 128, 0, ".png", 64, 48, TRUE, 10, 50 },
  { "such a one, long", "png", 2000, 1000, 128, 0, ".png", 1600, 800, FALSE, 10, 50 },
};

static void
test_what_is_kept (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (takings); i++)
    {
      g_autoptr (GBytes) plain = make (takings[i].type, takings[i].width, takings[i].height,
                                       takings[i].alpha);
      g_autoptr (GBytes) file = takings[i].orientation > 0 ? held (plain, takings[i].orientation)
                                                           : g_bytes_ref (plain);
      g_autofree char *name = NULL, *again_name = NULL, *sum = NULL;
      g_autoptr (GBytes) kept = must_take (file, &name);
      g_autoptr (GBytes) again = must_take (kept, &again_name);
      g_autoptr (GdkPixbuf) pixbuf = read_back (kept);
      int width = gdk_pixbuf_get_width (pixbuf), height = gdk_pixbuf_get_height (pixbuf);

      sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, kept);
      if (!g_str_has_prefix (name, sum) || strcmp (name + 64, takings[i].ending) != 0)
        fail_msg ("%s: %s", takings[i].says, name);
      if (width != takings[i].kept_width || height != takings[i].kept_height)
        fail_msg ("%s: %d × %d", takings[i].says, width, height);
      if (g_bytes_equal (kept, file) != takings[i].as_it_is)
        fail_msg ("%s: kept as it is: %d", takings[i].says, !takings[i].as_it_is);
      if (!is_red (pixbuf, takings[i].red_x * width / 100, takings[i].red_y * height / 100)
          || is_red (pixbuf, (100 - takings[i].red_x) * (width - 1) / 100,
                     (100 - takings[i].red_y) * (height - 1) / 100))
        fail_msg ("%s: it is not upright", takings[i].says);
      /* Once more changes nothing. */
      if (!g_bytes_equal (kept, again) || strcmp (name, again_name) != 0)
        fail_msg ("%s: taken again it is another", takings[i].says);
      assert_null (memmem (g_bytes_get_data (kept, NULL), g_bytes_get_size (kept), "Exif", 4));
    }
}

/* A file with bytes put in. */
static GBytes *
with (GBytes       *file,
      gsize         at,
      const guint8 *bytes,
      gsize         n)
{
  gsize length;
  const guint8 *data = g_bytes_get_data (file, &length);
  GByteArray *all = g_byte_array_new ();

  g_byte_array_append (all, data, (guint) at);
  g_byte_array_append (all, bytes, (guint) n);
  g_byte_array_append (all, data + at, (guint) (length - at));
  return g_byte_array_free_to_bytes (all);
}

/* What stands in a file beside its picture, and may say where it was taken: a chunk of text (ISO/IEC 15948, 11.3.4.3)
 * behind the header, bytes behind the end. */
static void
test_nothing_beside_the_picture_is_kept (void **state)
{
  static const guint8 chunk[] = { 0, 0, 0, 6, 't', 'E', 'X', 't', 'a', 0, 'q', 'u', 'a', 'y', 0, 0, 0, 0 };
  g_autoptr (GBytes) png = make ("png", 64, 48, 128), jpeg = make ("jpeg", 64, 48, 255);
  GBytes *files[] = {
    with (png, 33, chunk, sizeof chunk),
    with (png, g_bytes_get_size (png), (const guint8 *) "quay", 4),
    with (jpeg, g_bytes_get_size (jpeg), (const guint8 *) "quay", 4),
  };

  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *name = NULL;
      g_autoptr (GBytes) kept = must_take (files[i], &name);

      if (memmem (g_bytes_get_data (kept, NULL), g_bytes_get_size (kept), "quay", 4) != NULL)
        fail_msg ("file %zu is kept with what stands beside its picture", i);
      g_bytes_unref (files[i]);
    }
}

/* --- What is refused ------------------------------------------------------------------------------ */

/* The header of a PNG file (ISO/IEC 15948, 11.2.2), and no picture. */
static GBytes *
png_header (guint32 width,
            guint32 height)
{
  guint8 head[45] = { 0x89, 'P', 'N', 'G', 13, 10, 26, 10, 0, 0, 0, 13, 'I', 'H', 'D', 'R' };

  for (int i = 0; i < 4; i++)
    {
      head[16 + i] = (guint8) (width >> (24 - 8 * i));
      head[20 + i] = (guint8) (height >> (24 - 8 * i));
    }
  head[24] = 8;
  head[25] = 2;
  return g_bytes_new (head, sizeof head);
}

/* A JPEG file whose frame (ITU-T T.81, B.2.2) claims another size than it has. */
static GBytes *
claiming (guint16 width,
          guint16 height)
{
  g_autoptr (GBytes) jpeg = make ("jpeg", 64, 48, 255);
  gsize length;
  guint8 *data = g_bytes_unref_to_data (g_steal_pointer (&jpeg), &length);

  for (gsize i = 0; i + 9 < length; i++)
    if (data[i] == 0xFF && data[i + 1] == 0xC0)
      {
        data[i + 5] = (guint8) (height >> 8);
        data[i + 6] = (guint8) height;
        data[i + 7] = (guint8) (width >> 8);
        data[i + 8] = (guint8) width;
        break;
      }
  return g_bytes_new_take (data, length);
}

static GBytes *
text (const char *words)
{
  return g_bytes_new (words, strlen (words));
}

static void
refused (const char *says,
         GBytes     *file,
         int         code)
{
  g_autoptr (GBytes) owned = file;
  g_autoptr (GError) error = NULL;
  g_autofree char *name = NULL;
  g_autoptr (GBytes) kept = cro_photo_take (owned, &name, &error);

  if (kept != NULL || !g_error_matches (error, CRO_PHOTO_ERROR, code))
    fail_msg ("%s: %s", says, kept != NULL ? "was taken" : error->message);
  g_clear_error (&error);
  assert_null (cro_photo_open (owned, &error));
  assert_int_equal (error->code, code);
}

static void
test_hostile_files (void **state)
{
  g_autoptr (GBytes) whole = make ("jpeg", 640, 480, 255);
  g_autofree guint8 *long_file = g_malloc0 (CRO_PHOTO_MOST_BYTES + 1);

  refused ("nothing", g_bytes_new (NULL, 0), CRO_PHOTO_ERROR_KIND);
  refused ("words", text ("samphire"), CRO_PHOTO_ERROR_KIND);
  refused ("another kind of picture", text ("GIF89a\1\0\1\0\200"), CRO_PHOTO_ERROR_KIND);
  refused ("a drawing", text ("<svg xmlns='http://www.w3.org/2000/svg'/>"), CRO_PHOTO_ERROR_KIND);
  refused ("three bytes", text ("\377\330\377"), CRO_PHOTO_ERROR_BROKEN);
  refused ("a header alone", png_header (64, 48), CRO_PHOTO_ERROR_BROKEN);
  refused ("no width", png_header (0, 48), CRO_PHOTO_ERROR_BROKEN);
  refused ("too many pixels", png_header (8001, 8000), CRO_PHOTO_ERROR_TOO_LARGE);
  refused ("a product that wraps", png_header (0x80000000u, 2), CRO_PHOTO_ERROR_TOO_LARGE);
  refused ("larger than 32 bits", png_header (0xFFFFFFFFu, 0xFFFFFFFFu), CRO_PHOTO_ERROR_TOO_LARGE);
  refused ("a JPEG of too many", claiming (65535, 65535), CRO_PHOTO_ERROR_TOO_LARGE);
  refused ("cut short", g_bytes_new_from_bytes (whole, 0, 400), CRO_PHOTO_ERROR_BROKEN);
  refused ("too many bytes", g_bytes_new_static (long_file, CRO_PHOTO_MOST_BYTES + 1),
           CRO_PHOTO_ERROR_TOO_LARGE);
}

/* Whatever stands in it: taken or refused, and what is taken can be taken again. */
static void
test_damaged_files (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);

  for (int i = 0; i < 2000; i++)
    {
      g_autoptr (GBytes) jpeg = i % 2 == 0 ? make ("jpeg", 32, 24, 255) : make ("png", 32, 24, 90);
      g_autoptr (GBytes) held_so = held (jpeg, 6);
      gsize length;
      guint8 *data = g_bytes_unref_to_data (i % 4 == 0 ? g_steal_pointer (&held_so)
                                                       : g_steal_pointer (&jpeg),
                                            &length);
      g_autoptr (GBytes) file = NULL, kept = NULL, again = NULL;
      g_autofree char *name = NULL, *again_name = NULL;

      for (int k = g_rand_int_range (rand, 1, 6); k > 0; k--)
        data[g_rand_int_range (rand, 0, (gint32) length)] = (guint8) g_rand_int (rand);
      file = g_bytes_new_take (data, length);
      kept = cro_photo_take (file, &name, NULL);
      if (kept == NULL)
        continue;
      again = cro_photo_take (kept, &again_name, NULL);
      if (again == NULL || strcmp (name, again_name) != 0)
        fail_msg ("file %d: what is kept of it is not kept again", i);
    }
}

/* --- Drawing -------------------------------------------------------------------------------------- */

/* A page of a hundred by a hundred, with the picture. */
static cairo_surface_t *
draw (cairo_surface_t *photo,
      gboolean         at_right)
{
  cairo_surface_t *page = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 100, 100);
  cairo_t *cairo = cairo_create (page);

  cro_photo_draw (photo, cairo, 100, 100, at_right);
  cairo_destroy (cairo);
  cairo_surface_flush (page);
  return page;
}

static guint32
pixel_at (cairo_surface_t *page,
          int              x,
          int              y)
{
  return ((const guint32 *) (const void *) cairo_image_surface_get_data (page))[y * 100 + x];
}

static void
test_it_fits_its_rectangle (void **state)
{
  g_autoptr (GBytes) file = make ("jpeg", 400, 100, 255), tall_file = make ("jpeg", 100, 400, 255);
  cairo_surface_t *photo = cro_photo_open (file, NULL), *tall = cro_photo_open (tall_file, NULL), *page;

  assert_non_null (photo);
  assert_non_null (tall);
  page = draw (photo, TRUE);
  assert_true ((pixel_at (page, 10, 10) >> 16 & 255) > 200);
  assert_true ((pixel_at (page, 90, 10) & 255) > 200);
  assert_int_equal (pixel_at (page, 10, 40), 0);
  cairo_surface_destroy (page);
  for (int at_right = 0; at_right < 2; at_right++)
    {
      page = draw (tall, at_right);
      assert_true ((pixel_at (page, at_right ? 79 : 4, 90) >> 16 & 255) > 200);
      assert_int_equal (pixel_at (page, at_right ? 4 : 79, 90), 0);
      cairo_surface_destroy (page);
    }
  cairo_surface_destroy (photo);
  cairo_surface_destroy (tall);
}

/* A PDF gets the file as it is kept; of one that somebody put into the book, and that says how it is held, what is
 * seen of it. */
static void
test_a_pdf_gets_what_is_seen (void **state)
{
  g_autoptr (GBytes) file = make ("jpeg", 64, 48, 255), turned = held (file, 6);
  cairo_surface_t *photo = cro_photo_open (file, NULL), *turned_photo = cro_photo_open (turned, NULL);
  const guchar *attached;
  unsigned long length;

  cairo_surface_get_mime_data (photo, CAIRO_MIME_TYPE_JPEG, &attached, &length);
  assert_int_equal (length, g_bytes_get_size (file));
  assert_memory_equal (attached, g_bytes_get_data (file, NULL), length);
  cairo_surface_get_mime_data (turned_photo, CAIRO_MIME_TYPE_JPEG, &attached, &length);
  assert_null (attached);
  cairo_surface_destroy (photo);
  cairo_surface_destroy (turned_photo);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_what_is_kept),
    cmocka_unit_test (test_nothing_beside_the_picture_is_kept),
    cmocka_unit_test (test_hostile_files),
    cmocka_unit_test (test_damaged_files),
    cmocka_unit_test (test_it_fits_its_rectangle),
    cmocka_unit_test (test_a_pdf_gets_what_is_seen),
  };

  return cmocka_run_group_tests_name ("pictures of plates", tests, NULL, NULL);
}
