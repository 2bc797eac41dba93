/* 500 cost cards as one PDF: the plates of a book, over and over.
 *
 * Beside     The same texts at the same places of as many pages, by cairo alone: one font, no columns
 *            to find, nothing to cost or to word.
 * Counted    Both from an open book to the end of the file.
 *
 * Usage: bench-cards TABLES-FOLDER */
#include "bench-check.h"
#include "bench.h"

#include <cairo-pdf.h>
#include <glib/gstdio.h>
#include <stdio.h>

#include "cro-book.h"
#include "cro-cards.h"
#include "cro-load.h"
#include "cro-paper-private.h"

#define N_CARDS 500
#define DAY 20785     /* 2026-11-28 */

/* A text as it stands on a page. */
typedef struct
{
  guint       page;
  double      x, y, size;
  const char *text;
} Text;

typedef struct
{
  CroBook     *book;
  GArray      *things;   /* CroRef */
  CroCardWish  wish;
  char        *path;
  GArray      *texts;    /* Text, by page */
  GStringChunk *words;
  guint        n_pages;
  gsize        n_glyphs;
} Bench;

static void
write_cards (void *user_data)
{
  Bench *bench = user_data;
  GError *error = NULL;

  check (cro_cards_write_file (bench->book, bench->things, &bench->wish, bench->path, "en", NULL, NULL,
                               &error),
         error);
}

static void
write_texts (void *user_data)
{
  Bench *bench = user_data;
  cairo_surface_t *surface = cairo_pdf_surface_create (bench->path, bench->wish.size->width,
                                                       bench->wish.size->height);
  cairo_t *cairo = cairo_create (surface);
  guint page = 0;

  cairo_select_font_face (cairo, "Sans", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
  for (guint i = 0; i < bench->texts->len; i++)
    {
      const Text *text = &g_array_index (bench->texts, Text, i);

      for (; page < text->page; page++)
        cairo_show_page (cairo);
      cairo_set_font_size (cairo, text->size);
      cairo_move_to (cairo, text->x, text->y);
      cairo_show_text (cairo, text->text);
    }
  cairo_show_page (cairo);
  cairo_destroy (cairo);
  cairo_surface_finish (surface);
  cairo_surface_destroy (surface);
}

/* --- What stands on the cards -------------------------------------------------------------------- */

static void
add_line (Bench           *bench,
          PangoLayout     *layout,
          PangoLayoutLine *line,
          guint            page,
          double           x,
          double           y)
{
  const char *from = pango_layout_get_text (layout) + line->start_index;
  g_autofree char *part = g_strndup (from, (gsize) line->length);
  Text text = { page, x, y, 10, g_string_chunk_insert (bench->words, part) };

  g_array_append_val (bench->texts, text);
  bench->n_glyphs += (gsize) g_utf8_strlen (part, -1);
}

static void
add_card (Bench *bench,
          CroRef thing)
{
  g_autoptr (CroPaper) paper = cro_card_paper (bench->book, thing, &bench->wish, NULL);
  double around = 2 * bench->wish.size->margin;
  guint n = cro_paper_set_out (paper, bench->wish.size->width - around,
                               bench->wish.size->height - around);

  for (guint i = 0; i < paper->placed->len; i++)
    {
      const CroPaperPlaced *placed = &g_array_index (paper->placed, CroPaperPlaced, i);

      for (guint c = 0; c < placed->row->n_cells; c++)
        {
          PangoLayout *layout = placed->row->cells[c].layout;

          for (int l = 0; layout != NULL && l < pango_layout_get_line_count (layout); l++)
            add_line (bench, layout, pango_layout_get_line_readonly (layout, l),
                      bench->n_pages + placed->page, 50 + 80 * c, placed->y + 12 * l);
        }
    }
  bench->n_pages += n;
}

static void
list_things (Bench *bench)
{
  CroModel *model = cro_book_get_model (bench->book);

  while (bench->things->len < N_CARDS)
    for (guint32 slot = 0; slot < model->recipes->len && bench->things->len < N_CARDS; slot++)
      if (cro_model_recipe (model, slot)->is_plate)
        {
          CroRef thing = CRO_REF (CRO_REF_RECIPE, slot);

          g_array_append_val (bench->things, thing);
        }
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = g_dir_make_tmp ("croustade-cards-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "cards.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  Bench bench = { .things = g_array_new (FALSE, FALSE, sizeof (CroRef)),
                  .wish = { .size = &cro_paper_a4 },
                  .texts = g_array_new (FALSE, FALSE, sizeof (Text)),
                  .words = g_string_chunk_new (1 << 16) };
  GError *error = NULL;
  CroBenchPair pair;
  char title[100];

  check (argc == 2 && cro_load (path, argv[1], "bench", "load", FALSE, NULL, NULL, faults, &error),
         error);
  bench.book = cro_book_open (path, "bench", CRO_STORE_READ, DAY, &error);
  check (bench.book != NULL, error);
  bench.path = g_build_filename (folder, "cards.pdf", NULL);
  list_things (&bench);
  for (guint i = 0; i < bench.things->len; i++)
    add_card (&bench, g_array_index (bench.things, CroRef, i));

  snprintf (title, sizeof title, "%u cost cards, %u pages, %zu characters", bench.things->len,
            bench.n_pages, (size_t) bench.n_glyphs);
  cro_bench_head (title);
  pair = cro_bench_pair (write_cards, write_texts, &bench, 3, 1);
  cro_bench_row_of ("cards to PDF", "bare cairo text", &pair, 1.5);

  g_unlink (bench.path);
  g_object_unref (bench.book);
  g_unlink (path);
  g_rmdir (folder);
  g_free (bench.path);
  g_array_unref (bench.things);
  g_array_unref (bench.texts);
  g_string_chunk_free (bench.words);
  return 0;
}
