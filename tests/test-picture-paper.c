#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib/gstdio.h>
#include <string.h>

#include "cro-paper-private.h"
#include "cro-pdf.h"

#define WIDTH 490.0
#define HEIGHT 740.0

static void
add_block (CroPaper *paper,
           guint     grid,
           guint     n_rows)
{
  const char *texts[] = { "Crab butter", "49 g" };

  cro_paper_begin_block (paper);
  for (guint i = 0; i < n_rows; i++)
    cro_paper_add_row (paper, grid, CRO_PAPER_PLAIN, 0, texts);
}

static guint
add_grid (CroPaper *paper)
{
  static const CroPaperColumn columns[] = { { .share = 1 }, { .is_number = TRUE } };

  return cro_paper_add_grid (paper, columns, G_N_ELEMENTS (columns));
}

/* A page that is drawn does not say what stands on it. */
static const CroPaperBlock *
block_at (CroPaper *paper,
          guint     i)
{
  return &g_array_index (paper->blocks, CroPaperBlock, i);
}

/* Some 45 rows of 14 points stand on a page. */
static const struct
{
  const char *says;
  guint       blocks, rows;
  gboolean    is_narrow;
  guint       pages;
} cases[] = {
  { "nothing is a page", 0, 0, FALSE, 1 },
  { "a few rows are one", 1, 5, FALSE, 1 },
  { "two blocks of two thirds are two pages", 2, 26, FALSE, 2 },
  { "and three are three", 3, 26, FALSE, 3 },
  { "narrow ones stand beside each other", 2, 26, TRUE, 1 },
  { "and four of them on two pages", 4, 26, TRUE, 2 },
  { "one longer than a page is split", 1, 100, FALSE, 3 },
};

static void
test_pages (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroPaper) paper = cro_paper_new ("", 14, FALSE);
      guint grid = add_grid (paper), pages;

      cro_paper_set_narrow (paper, cases[i].is_narrow);
      for (guint b = 0; b < cases[i].blocks; b++)
        add_block (paper, grid, cases[i].rows);
      pages = cro_paper_set_out (paper, WIDTH, HEIGHT);
      if (pages != cases[i].pages)
        fail_msg ("%s: %u pages", cases[i].says, pages);
    }
}

static void
note_height (cairo_t  *cairo,
             double    width,
             double    height,
             gpointer  user_data)
{
  *(double *) user_data = height;
}

/* A picture of 200 points that may be 120, and one beside the head of 100 that may be 60, over so many rows. */
static void
test_pictures_give_way (void **state)
{
  static const struct
  {
    const char *says;
    guint       rows, pages;
    double      height, beside;
  } wants[] = {
    { "what fits is as high as it may be", 20, 1, 200, 100 },
    { "a page is saved", 28, 1, 120, 60 },
    { "none could be", 60, 2, 200, 100 },
  };
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR, NULL);
  cairo_t *cairo = cairo_create (surface);

  for (gsize i = 0; i < G_N_ELEMENTS (wants); i++)
    {
      g_autoptr (CroPaper) paper = cro_paper_new ("", 14, FALSE);
      guint grid = add_grid (paper), pages;
      double height = 0, beside = 0;

      cro_paper_begin_beside (paper, 100, 60, 100, note_height, &beside, NULL);
      add_block (paper, grid, 1);
      cro_paper_end_beside (paper);
      cro_paper_begin_block (paper);
      cro_paper_add_picture (paper, 120, 200, note_height, &height, NULL);
      for (guint k = 0; k < wants[i].rows; k++)
        add_block (paper, grid, 1);
      pages = cro_paper_set_out (paper, WIDTH, HEIGHT);
      cro_paper_draw (paper, 0, cairo);
      if (pages != wants[i].pages || height != wants[i].height || beside != wants[i].beside)
        fail_msg ("%s: %u pages, %g and %g high", wants[i].says, pages, height, beside);
    }
  cairo_destroy (cairo);
  cairo_surface_destroy (surface);
}

/* Blocks of all lengths up to a page, in all orders that a generator makes. */
static void
test_no_block_is_split (void **state)
{
  GRand *random = g_rand_new_with_seed (7);

  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (CroPaper) paper = cro_paper_new ("", 14, round % 2);
      guint grid = add_grid (paper), before = 0;

      add_block (paper, grid, 3);
      cro_paper_set_narrow (paper, round % 3 > 0);
      for (guint b = 0; b < 30; b++)
        add_block (paper, grid, (guint) g_rand_int_range (random, 1, 36));
      cro_paper_set_narrow (paper, FALSE);
      add_block (paper, grid, 4);
      cro_paper_set_out (paper, WIDTH, HEIGHT);
      for (guint b = 0; b < cro_paper_count_blocks (paper); b++)
        {
          const CroPaperBlock *block = block_at (paper, b);

          assert_int_equal (block->n_pages, 1);
          assert_true (block->page >= before);
          before = block->page;
        }
    }
  g_rand_free (random);
}

static guint
rows_on (CroPaper *paper,
         guint     page)
{
  guint n = 0;

  for (guint i = 0; i < paper->placed->len; i++)
    n += g_array_index (paper->placed, CroPaperPlaced, i).page == page;
  return n;
}

/* What flows fills the page before it, by no fewer than two of its rows on either. */
static void
test_blocks_flow (void **state)
{
  static const struct
  {
    const char *says;
    guint       blocks, rows, pages, split;   /* pages that the last block stands on */
    guint       at_end;                       /* rows on the last page; 0: not asked */
  } wants[] = {
    { "half a page is not left white", 2, 26, 2, 2, 0 },
    { "a little of one is", 3, 38, 3, 1, 0 },
    { "unless that saves a page", 3, 26, 2, 1, 0 },
    { "no row goes over alone", 2, 20, 2, 2, 2 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (wants); i++)
    {
      g_autoptr (CroPaper) paper = cro_paper_new ("", 14, FALSE);
      guint grid = add_grid (paper), pages, split;

      cro_paper_set_flowing (paper, TRUE);
      for (guint b = 0; b < wants[i].blocks; b++)
        add_block (paper, grid, wants[i].rows);
      pages = cro_paper_set_out (paper, WIDTH, HEIGHT);
      split = block_at (paper, cro_paper_count_blocks (paper) - 1)->n_pages;
      if (pages != wants[i].pages || split != wants[i].split)
        fail_msg ("%s: %u pages, %u", wants[i].says, pages, split);
      if (wants[i].at_end > 0 && rows_on (paper, pages - 1) != wants[i].at_end)
        fail_msg ("%s: %u", wants[i].says, rows_on (paper, pages - 1));
    }
}

/* What is as wide as its cells leaves half of the page to the others, however long its texts. */
static void
test_a_long_text_leaves_room (void **state)
{
  g_autoptr (CroPaper) paper = cro_paper_new ("", 14, FALSE);
  g_autofree char *line = g_strnfill (200, 'm');
  const char *texts[] = { "Crab butter", line };
  guint grid = add_grid (paper);
  const double *widths;

  cro_paper_begin_block (paper);
  cro_paper_add_row (paper, grid, CRO_PAPER_PLAIN, 0, texts);
  cro_paper_set_out (paper, WIDTH, HEIGHT);
  widths = ((const CroPaperGrid *) paper->grids->pdata[grid])->widths[CRO_PAPER_WHOLE];
  assert_true (widths[1] <= WIDTH / 2);
  assert_true (widths[0] >= widths[1]);
}

/* The same paper set out for another size, and for the first again, is the same. */
static void
test_sizes (void **state)
{
  g_autoptr (CroPaper) paper = cro_paper_new ("", 14, FALSE);
  guint grid = add_grid (paper), narrow, wide;

  for (guint b = 0; b < 9; b++)
    add_block (paper, grid, 20);
  wide = cro_paper_set_out (paper, WIDTH, HEIGHT);
  narrow = cro_paper_set_out (paper, WIDTH, HEIGHT / 2);
  assert_true (narrow > wide);
  assert_int_equal (cro_paper_set_out (paper, WIDTH, HEIGHT), wide);
}

/* How dark the left half of a page is, beside its right half. */
static double
darkness (CroPaper *paper,
          gboolean  left)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, (int) WIDTH, 60);
  cairo_t *cairo = cairo_create (surface);
  const guchar *pixels;
  int stride;
  double sum = 0;

  cro_paper_draw (paper, 0, cairo);
  cairo_destroy (cairo);
  cairo_surface_flush (surface);
  pixels = cairo_image_surface_get_data (surface);
  stride = cairo_image_surface_get_stride (surface);
  for (int y = 0; y < 60; y++)
    for (int x = 0; x < (int) WIDTH; x++)
      if ((x < WIDTH / 2) == left)
        sum += pixels[y * stride + x];
  cairo_surface_destroy (surface);
  return sum;
}

static void
test_mirrored (void **state)
{
  for (int rtl = 0; rtl < 2; rtl++)
    {
      g_autoptr (CroPaper) paper = cro_paper_new ("", 14, rtl);

      cro_paper_add_text (paper, CRO_PAPER_BOLD, 0, "Crab");
      cro_paper_set_out (paper, WIDTH, HEIGHT);
      assert_true (darkness (paper, !rtl) > 0);
      assert_true (darkness (paper, rtl) == 0);
    }
}

static void
test_pdf (void **state)
{
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "croustade-paper.pdf", NULL);
  g_autoptr (CroPaper) paper = cro_paper_new ("Crab", 10, FALSE);
  g_autoptr (CroPdf) pdf = cro_pdf_new (path, &cro_paper_a4, "Crab", 0);
  g_autoptr (CroPdf) nowhere = cro_pdf_new ("/nowhere/at/all.pdf", &cro_paper_a4, "Crab", 0);
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  gsize length;

  cro_paper_add_text (paper, CRO_PAPER_PLAIN, 0, "Crab");
  cro_pdf_add (pdf, paper);
  assert_true (cro_pdf_finish (pdf, &error));
  assert_true (g_file_get_contents (path, &text, &length, NULL));
  assert_memory_equal (text, "%PDF-", 5);
  g_unlink (path);

  cro_pdf_add (nowhere, paper);
  assert_false (cro_pdf_finish (nowhere, &error));
  assert_true (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_pages),    cmocka_unit_test (test_no_block_is_split), cmocka_unit_test (test_blocks_flow),
    cmocka_unit_test (test_sizes),    cmocka_unit_test (test_mirrored),
    cmocka_unit_test (test_a_long_text_leaves_room),
    cmocka_unit_test (test_pdf),      cmocka_unit_test (test_pictures_give_way),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
