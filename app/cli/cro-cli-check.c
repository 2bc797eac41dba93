#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>

#include "cro-check.h"
#include "cro-finding-words.h"
#include "cro-unserved.h"
#include "cro-words.h"

/* What each check looks at, in the order of CroCheckKind. */
static const char *const titles[CRO_N_CHECKS] = {
  N_("The file is intact and every reference valid"),
  N_("Every name belongs to an ingredient or an output"),
  N_("Every preparation has one main output"),
  N_("A batch costs as much as its outputs together"),
  N_("Ingredients and assigned values add up to a plate’s cost"),
  N_("All ingredients add up to all plates"),
  N_("At its ceiling price an ingredient meets the target"),
  N_("One cost recalculated equals a full recalculation"),
  N_("A closed month is as closing left it"),
};

static void
print_finding (CroCheckKind  kind,
               const char   *what,
               gpointer      user_data)
{
  if (what != NULL)
    /* Translators: what must hold of a book, and what does not. */
    g_printerr (_("does not hold: %s: %s\n"), _(titles[kind]), what);
  else
    /* Translators: what must hold of a book and does not. */
    g_printerr (_("does not hold: %s\n"), _(titles[kind]));
}

static void
print_finding_in_file (const CroFinding *finding,
                       gpointer          user_data)
{
  g_autofree char *words = cro_words_finding (finding);

  print_finding (CRO_CHECK_FILE, words, user_data);
}

/* Of how many things it holds, or how many faults there are; where there is none it is no yes. What costs too much to
 * be added up was not looked at. */
static char *
dup_tried (const CroCheckReport *report,
           CroCheckKind          kind)
{
  guint found = (guint) MIN (report->found[kind], G_MAXUINT);

  if (found > 0)
    return g_strdup_printf (ngettext ("%u fault", "%u faults", found), found);
  if (report->tried[kind] > 0)
    {
      g_autofree char *tried = g_strdup_printf ("%" G_GUINT64_FORMAT, report->tried[kind]);
      g_autofree char *passed = g_strdup_printf ("%" G_GUINT64_FORMAT, report->passed[kind]);

      /* Translators: behind what a book is verified for: of how many things, and of how many it was not. */
      return report->passed[kind] > 0 ? g_strdup_printf (_("%s, not checked: %s"), tried, passed)
                                      : g_steal_pointer (&tried);
    }
  /* Translators: behind what a book is verified for: it was not, as the file is damaged; or there is
   * nothing of the kind in the book. */
  return g_strdup (report->found[CRO_CHECK_FILE] > 0 || report->passed[kind] > 0 ? _("not checked")
                                                                                 : _("none in this book"));
}

/* A line for each check: what must hold, whether it does, and of how many things. */
static gboolean
print_report (const CroCheckReport *report)
{
  gboolean sound = TRUE;

  for (int kind = 0; kind < CRO_N_CHECKS; kind++)
    {
      g_autofree char *tried = dup_tried (report, (CroCheckKind) kind);
      const char *answer = report->found[kind] > 0   ? _("NO")
                           : report->tried[kind] > 0 ? _("yes")
                                                     : "–";

      /* Each letter or sign is one column. */
      g_print ("%s%*s ", answer, MAX (0, 4 - (int) g_utf8_strlen (answer, -1)), "");
      /* A title says what must hold. */
      g_print (report->found[kind] > 0 ? _("does not hold: %s (%s)") : "%s (%s)", _(titles[kind]), tried);
      g_print ("\n");
      sound &= report->found[kind] == 0 && report->passed[kind] == 0;
    }
  return sound;
}

/* One sentence, where it begins; thousands may follow from it. */
static void
print_too_large (const CroCheckReport *report)
{
  guint n = report->n_more_too_large;

  if (report->too_large == NULL)
    return;
  cro_cli_print_too_large (report->too_large);
  if (n > 0)
    /* Translators: behind a line that names the first cost that is too large to show. */
    g_printerr (ngettext ("and %u more cost is too large to show\n", "and %u more costs are too large to show\n", n),
                n);
}

/* Money that no plate pays is no fault of the book: it is told, and the status stays. */
static void
print_unserved (CroBook *book)
{
  CroFigures *figures = cro_book_get_figures (book);
  CroModel *model = cro_book_get_model (book);

  for (guint32 r = 0; r < model->recipes->len; r++)
    {
      const CroRecipe *recipe = cro_model_recipe (model, r);
      g_autoptr (GArray) unserved
          = recipe->is_dead || recipe->is_plate ? NULL : cro_unserved_of_batch (figures, r);

      for (guint i = 0; unserved != NULL && i < unserved->len; i++)
        {
          g_autofree char *text
              = cro_words_unserved (model, &g_array_index (unserved, CroUnserved, i));

          g_print (_("%s: %s"), recipe->name, text);
          g_print ("\n");
        }
    }
}

/* What no rule of the file forbids may still be nothing that figures can be made of: that is told as one
 * more finding. FALSE: it is another error, and nothing was told. */
static gboolean
found_damage (const GError   *error,
              CroCheckReport *report)
{
  if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
    return FALSE;
  print_finding_in_file (&(CroFinding){ .kind = CRO_FINDING_DAMAGE, .text = error->message }, NULL);
  report->found[CRO_CHECK_FILE]++;
  print_report (report);
  return TRUE;
}

CroCliStatus
cro_cli_check (int    argc,
               char **argv)
{
  CroCliStatus status;
  CroCheckReport report = { 0 };
  g_autoptr (CroStore) store = NULL;
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("check", "BOOK", _("Verify the file and the costing model."), NULL, &argc, &argv,
                      &status))
    return status;
  store = cro_store_open (argv[1], NULL, CRO_STORE_INSPECT, &error);
  if (store == NULL || !cro_check_file (store, print_finding_in_file, NULL, &report, &error))
    return cro_cli_fail (argv[1], error);
  if (report.found[CRO_CHECK_FILE] > 0)
    {
      print_report (&report);
      return CRO_CLI_INCOMPLETE;
    }
  book = cro_book_open (argv[1], NULL, CRO_STORE_READ, cro_here_today (), &error);
  if (book == NULL)
    return found_damage (error, &report) ? CRO_CLI_INCOMPLETE : cro_cli_fail (argv[1], error);
  cro_check_model (book, print_finding, NULL, &report);
  if (!cro_check_months (cro_book_get_store (book), print_finding, NULL, &report, &error))
    return cro_cli_fail (argv[1], error);
  print_too_large (&report);
  cro_cli_print_doubts (book);
  status = print_report (&report) ? CRO_CLI_DONE : CRO_CLI_INCOMPLETE;
  print_unserved (book);
  return status;
}
