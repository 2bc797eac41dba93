/* A key in the sheet of new prices, with all that stands beside it: read, asked about, drafted, and which
 * plates and menus move, what would hold them, what is cheaper elsewhere.
 *
 * Counted    What the thread of the window works at a key, in its own processor time, without drawing; the
 *            median and the longest of the rounds. The book has 100 thousand lines; every ingredient is on
 *            the one supplier's list. Prices of ingredients all over the list are typed, a digit at a time.
 *            Likewise what it works when an invoice is posted, beside as many purchases of that supplier, and
 *            when every price of the list is.
 * Goal       A frame of a screen that shows 60 a second.
 *
 * Usage: bench-round [FOLDER]   (for the book; default: that for temporary files) */
#include "bench.h"
#include "cro-round-effect.h"
#include "synthetic-tables.h"

#include "cro-load.h"

#include <stdio.h>

#define N_ROWS 60
#define N_LINES 100000
#define N_PURCHASES 100000
#define N_BILLED 20
#define N_POSTS 5
#define FRAME_SECONDS (1 / 60.0)
#define MOST_SHOWN 8

static void
type (CroRound     *round,
      CroRoundView *view,
      guint         index,
      double       *seconds)
{
  static const char *const keys[] = { "1", "12", "12.", "12.5", "12.50", "" };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      double start = cro_bench_thread_now ();
      g_autoptr (CroRoundEffect) effect = NULL;

      cro_round_type (round, index, keys[i], NULL);
      effect = cro_round_view_read (view, MOST_SHOWN);
      seconds[i] = cro_bench_thread_now () - start;
    }
}

static void
run (CroBook *book)
{
  double start = cro_bench_now (), opened, viewed, seconds[6 * N_ROWS], longest = 0, median;
  g_autoptr (CroRound) round = cro_round_new (book, 0, CRO_SYNTHETIC_DAY, NULL);
  g_autoptr (CroRoundView) view = NULL;
  guint n = cro_round_get_n_rows (round);

  opened = cro_bench_now () - start;
  start = cro_bench_now ();
  view = cro_round_view_new (round, NULL);
  viewed = cro_bench_now () - start;
  for (guint i = 0; i < N_ROWS; i++)
    type (round, view, i * (n - 1) / (N_ROWS - 1), seconds + 6 * i);
  for (guint i = 0; i < G_N_ELEMENTS (seconds); i++)
    longest = MAX (longest, seconds[i]);
  median = cro_bench_median (seconds, G_N_ELEMENTS (seconds));
  cro_bench_head ("New prices");
  printf ("%u rows; opened in %.1f ms, what stood before read in %.1f ms\n", n, 1e3 * opened, 1e3 * viewed);
  cro_bench_row ("a key", median, "a frame", FRAME_SECONDS, median / FRAME_SECONDS, 1);
  cro_bench_row ("the longest", longest, "a frame", FRAME_SECONDS, longest / FRAME_SECONDS, 1);
}

static void
write_invoice (CroBook    *book,
               const char *path,
               guint       number)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GString) text = g_string_new ("<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>");

  g_string_append_printf (text, "<b:ID>N-%u</b:ID><b:IssueDate>2026-11-20</b:IssueDate>", number);
  for (guint i = 0, n = 0; i < model->items->len && n < N_BILLED; i++)
    if (model->measures[i].is_bought && model->measures[i].base == CRO_BASE_GRAM)
      g_string_append_printf (text, "<a:InvoiceLine><b:ID>%u</b:ID><b:InvoicedQuantity unitCode='KGM'>10"
                              "</b:InvoicedQuantity><b:LineExtensionAmount>50</b:LineExtensionAmount><a:Item><b:Name>%s"
                              "</b:Name></a:Item><a:Price><b:PriceAmount>5</b:PriceAmount></a:Price></a:InvoiceLine>",
                              ++n, cro_model_item (model, i)->name);
  g_string_append (text, "</Invoice>");
  if (!g_file_set_contents (path, text->str, -1, NULL))
    g_error ("%s is not written", path);
}

static void
post (CroBook    *book,
      const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "invoice.xml", NULL);
  double seconds[N_POSTS], median;

  for (guint i = 0; i < N_POSTS; i++)
    {
      g_autoptr (CroRound) round = cro_round_new (book, 0, CRO_SYNTHETIC_DAY, NULL);
      g_autoptr (CroFaults) faults = cro_faults_new ();
      g_autoptr (CroPriceList) refused = NULL;
      g_autoptr (CroRoundPost) posted = NULL;
      double start;

      write_invoice (book, path, i);
      if (!cro_round_take (round, path, NULL, &refused, NULL) || refused != NULL)
        g_error ("the invoice is not taken");
      for (guint k = 0; k < cro_round_get_n_rows (round); k++)
        if (cro_round_can_be_right (round, k))
          cro_round_is_right (round, k, NULL);
      if (cro_round_count_ready (round) != N_BILLED)
        g_error ("%u of %u lines are ready", cro_round_count_ready (round), N_BILLED);
      start = cro_bench_thread_now ();
      posted = cro_round_post (round, "invoice", faults, NULL);
      seconds[i] = cro_bench_thread_now () - start;
      g_assert (posted != NULL);
    }
  median = cro_bench_median (seconds, N_POSTS);
  cro_bench_row ("an invoice posted", median, "a frame", FRAME_SECONDS, median / FRAME_SECONDS, 0);
}

static void
post_list (CroBook *book)
{
  g_autoptr (CroRound) round = cro_round_new (book, 0, CRO_SYNTHETIC_DAY, NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroRoundPost) posted = NULL;
  guint n = cro_round_get_n_rows (round);
  double seconds;

  for (guint i = 0; i < n; i++)
    {
      cro_round_type (round, i, "+5 %", NULL);
      if (cro_round_can_be_right (round, i))
        cro_round_is_right (round, i, NULL);
    }
  n = cro_round_count_ready (round);
  seconds = cro_bench_thread_now ();
  posted = cro_round_post (round, "list", faults, NULL);
  seconds = cro_bench_thread_now () - seconds;
  if (posted == NULL || posted->rows->len != n)
    g_error ("the list is not posted");
  cro_bench_row ("all prices posted", seconds, "a frame", FRAME_SECONDS, seconds / FRAME_SECONDS, 0);
  printf ("%u prices\n", n);
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = cro_synthetic_make_folder (argc > 1 ? argv[1] : NULL, N_LINES);
  g_autofree char *path = g_build_filename (folder, "round.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;
  GError *error = NULL;

  cro_synthetic_add_purchases (folder, N_PURCHASES);
  if (!cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error))
    g_error ("%s", error != NULL ? error->message : "faults in the tables");
  book = cro_book_open (path, "bench", CRO_STORE_WRITE, CRO_SYNTHETIC_DAY, &error);
  if (book == NULL)
    g_error ("%s", error->message);
  run (book);
  post (book, folder);
  post_list (book);
  cro_synthetic_remove_folder (folder);
  return 0;
}
