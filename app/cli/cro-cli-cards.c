#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-cards.h"

/* What `card` was asked for. */
typedef struct
{
  CroBook     *book;
  GArray      *things;     /* CroRef */
  CroCardWish  wish;
  const char  *language;
  int          shown;      /* per cent */
} Asked;

/* --- Which things ------------------------------------------------------------------------------- */

static void
add_thing (Asked      *asked,
           CroRefKind  kind,
           guint32     slot)
{
  CroRef thing = CRO_REF (kind, slot);

  g_array_append_val (asked->things, thing);
}

static gboolean
find_things (Asked       *asked,
             char       **names,
             guint        kinds,
             CroRefKind   kind)
{
  guint32 slot;

  for (; names != NULL && *names != NULL; names++)
    {
      if (!cro_cli_find (asked->book, kinds, *names, NULL, &slot))
        return FALSE;
      add_thing (asked, kind, slot);
    }
  return TRUE;
}

/* Plates, menus, preparations; in the book's order. */
static void
add_all (Asked *asked)
{
  CroModel *model = cro_book_get_model (asked->book);

  for (guint32 i = 0; i < model->recipes->len; i++)
    if (cro_model_recipe (model, i)->is_plate && !cro_model_recipe (model, i)->is_dead)
      add_thing (asked, CRO_REF_RECIPE, i);
  for (guint32 i = 0; i < model->menus->len; i++)
    if (!cro_model_menu (model, i)->is_dead)
      add_thing (asked, CRO_REF_MENU, i);
  for (guint32 i = 0; i < model->recipes->len; i++)
    if (!cro_model_recipe (model, i)->is_plate && !cro_model_recipe (model, i)->is_dead)
      add_thing (asked, CRO_REF_RECIPE, i);
}

/* --- What is said ------------------------------------------------------------------------------- */

/* Names on standard error what the cards lack, or what is over its limit. */
static gboolean
are_well (Asked *asked)
{
  gboolean whole = TRUE;

  for (guint i = 0; i < asked->things->len; i++)
    whole &= cro_cli_is_well (cro_book_get_figures (asked->book),
                              g_array_index (asked->things, CroRef, i));
  return whole;
}

static CroCliStatus
fail (const char   *path,
      const GError *error)
{
  g_autofree char *sentence = NULL;

  cro_cli_end_progress ();
  if (!cro_cli_is_of (error, CRO_CARDS_ERROR))
    return cro_cli_fail (path, error);
  sentence = cro_cards_error_words (error);
  g_printerr ("%s: %s\n", path, sentence);
  return CRO_CLI_REFUSED;
}

/* --- Writing ------------------------------------------------------------------------------------ */

static gboolean
write_file (const char  *path,
            gpointer     user_data,
            GError     **error)
{
  Asked *asked = user_data;

  return cro_cards_write_file (asked->book, asked->things, &asked->wish, path, asked->language,
                               cro_cli_show_progress, &asked->shown, error);
}

static gboolean
is_file (const char *path)
{
  g_autofree char *folded = g_ascii_strdown (path, -1);

  return strcmp (path, "-") == 0 || g_str_has_suffix (folded, ".pdf");
}

static gboolean
can_write (const char *path,
           const char *book)
{
  if (path == NULL || *path == '\0')
    g_printerr (_("-o must name a file that ends in .pdf, or a folder\n"));
  else if (is_file (path))
    return cro_cli_can_write (path, book);
  else if (cro_cli_is_book (path))
    return FALSE;
  else if (g_file_test (path, G_FILE_TEST_EXISTS) && !g_file_test (path, G_FILE_TEST_IS_DIR))
    g_printerr (_("%s: this is not a folder; name one, or a file that ends in .pdf\n"), path);
  else
    return TRUE;
  return FALSE;
}

/* Whole cards that are in the folder stay there: who reads that nothing is changed would not look. */
static CroCliStatus
say_written (const Asked  *asked,
             guint         n,
             CroCliStatus  status)
{
  if (n == 0)
    return status;
  /* Translators: of the cards that were to be written. */
  g_printerr (ngettext ("the first %u of %u cards is in the folder; the others are not\n",
                        "the first %u of %u cards are in the folder; the others are not\n", n),
              n, asked->things->len);
  return status == CRO_CLI_FAILED ? status : CRO_CLI_INCOMPLETE;
}

static CroCliStatus
write_cards (Asked      *asked,
             const char *path)
{
  g_autoptr (GError) error = NULL;
  guint n_written = 0;
  gboolean done;

  cro_cli_note_interrupts ();
  done = is_file (path) ? cro_cli_write_file (path, write_file, asked, &error)
                        : cro_cards_write_folder (asked->book, asked->things, &asked->wish, path,
                                                  asked->language, cro_cli_show_progress,
                                                  &asked->shown, &n_written, &error);
  if (!done)
    return say_written (asked, n_written, fail (path, error));
  return are_well (asked) ? CRO_CLI_DONE : CRO_CLI_INCOMPLETE;
}

/* --- The command --------------------------------------------------------------------------------- */

static gboolean
read_bites (const char  *text,
            CroCardWish *wish)
{
  if (text == NULL)
    return TRUE;
  if (!wish->is_kitchen)
    {
      g_printerr (_("--bites goes with --kitchen: a cost card is for what the recipe makes\n"));
      return FALSE;
    }
  if (!cro_cli_read_number ("--bites", text, 1, _("--bites must be a number above 0\n"), &wish->bites))
    return FALSE;
  cro_cli_ask_bar_code (text, text);
  return TRUE;
}

static gboolean
read_paper (const char  *text,
            CroCardWish *wish)
{
  if (text == NULL)
    return TRUE;
  wish->size = strcmp (text, "a4") == 0       ? &cro_paper_a4
               : strcmp (text, "letter") == 0 ? &cro_paper_letter
                                              : NULL;
  if (wish->size == NULL)
    g_printerr (_("--paper must be a4 or letter\n"));
  return wish->size != NULL;
}

CroCliStatus
cro_cli_card (int    argc,
              char **argv)
{
  g_auto (GStrv) plates = NULL;
  g_auto (GStrv) menus = NULL;
  g_auto (GStrv) preparations = NULL;
  g_autofree char *bites = NULL, *paper = NULL, *on = NULL, *path = NULL, *language = NULL;
  gboolean all = FALSE;
  Asked asked = { .shown = -1 };
  GOptionEntry entries[] = {
    { "plate", 0, 0, G_OPTION_ARG_STRING_ARRAY, &plates,
      N_("The card of that plate; may be given more than once"), N_("NAME") },
    { "menu", 0, 0, G_OPTION_ARG_STRING_ARRAY, &menus,
      N_("The card of that menu; may be given more than once"), N_("NAME") },
    { "preparation", 0, 0, G_OPTION_ARG_STRING_ARRAY, &preparations,
      N_("The card of that preparation; may be given more than once"), N_("NAME") },
    { "all", 0, 0, G_OPTION_ARG_NONE, &all, N_("Cards of all plates, menus and preparations"), NULL },
    { "kitchen", 0, 0, G_OPTION_ARG_NONE, &asked.wish.is_kitchen,
      N_("Kitchen cards, without money; cost cards by default"), NULL },
    { "bites", 0, 0, G_OPTION_ARG_STRING, &bites,
      N_("For so many bites of a plate, guests of a menu, batches of a preparation"), N_("N") },
    { "money", 0, 0, G_OPTION_ARG_NONE, &asked.wish.with_money, N_("Costs on kitchen cards too"), NULL },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &paper,
      N_("a4 or letter; what is usual where the book’s currency is by default"), N_("SIZE") },
    { "on", 0, 0, G_OPTION_ARG_STRING, &on, N_("Prices of that day; today by default"), N_("DATE") },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &path,
      N_("One file of all cards; or a folder for a file of each; - is standard output"),
      N_("FILE.pdf|FOLDER") },
    { "language", 0, 0, G_OPTION_ARG_STRING, &language,
      N_("Language of its words; en by default"), N_("CODE") },
    { NULL },
  };
  CroCliStatus status;
  CroDate date = cro_here_today ();
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("card", "BOOK", _("Print cost cards or kitchen cards as PDF."), entries, &argc,
                      &argv, &status))
    return status;
  if (!all && plates == NULL && menus == NULL && preparations == NULL)
    {
      g_printerr (_("nothing to print: name a --plate, a --menu or a --preparation, or ask for --all\n"));
      return CRO_CLI_REFUSED;
    }
  if (!read_bites (bites, &asked.wish) || !read_paper (paper, &asked.wish)
      || !cro_cli_read_date (on, &date) || !cro_cli_knows_language (language)
      || !can_write (path, argv[1]))
    return CRO_CLI_REFUSED;
  book = cro_book_open (argv[1], NULL, CRO_STORE_READ, date, &error);
  if (book == NULL)
    return cro_cli_fail (argv[1], error);
  asked.book = book;
  asked.language = language != NULL ? language : "en";
  asked.things = g_array_new (FALSE, FALSE, sizeof (CroRef));
  if (asked.wish.size == NULL)
    asked.wish.size = cro_cards_size (book);
  status = CRO_CLI_REFUSED;
  if (all)
    add_all (&asked);
  if (all
      || (find_things (&asked, plates, CRO_CLI_PLATES, CRO_REF_RECIPE)
          && find_things (&asked, menus, CRO_CLI_MENUS, CRO_REF_MENU)
          && find_things (&asked, preparations, CRO_CLI_PREPARATIONS, CRO_REF_RECIPE)))
    status = write_cards (&asked, path);
  g_array_unref (asked.things);
  return status;
}
