#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-allergen-words.h"
#include "cro-cli-grid.h"
#include "cro-cli-json.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-table-paper.h"
#include "cro-tongue.h"
#include "cro-words.h"

typedef struct
{
  char             **avoids;
  char              *menu;
  char              *path;       /* of a file; its ending says which kind */
  char              *language;   /* of its words */
  gboolean           is_json;
  CroAllergenListId  list;
} Asked;

static void
asked_clear (Asked *asked)
{
  g_strfreev (asked->avoids);
  g_free (asked->menu);
  g_free (asked->path);
  g_free (asked->language);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Asked, asked_clear)

/* --- What is asked ------------------------------------------------------------------------------ */

static gboolean
read_list (const char        *text,
           CroAllergenListId *list)
{
  *list = CRO_ALLERGEN_LIST_EU;
  if (text == NULL)
    return TRUE;
  for (int i = 0; i < CRO_N_ALLERGEN_LISTS; i++)
    if (strcmp (cro_allergen_list ((CroAllergenListId) i)->code, text) == 0)
      {
        *list = (CroAllergenListId) i;
        return TRUE;
      }
  g_printerr (_("“%s” is no list of allergens; use one of: %s\n"), text, "eu, us");
  return FALSE;
}

static gboolean
read_code (const CroAllergenList *list,
           const char            *code,
           guint32               *entries)
{
  g_autoptr (GString) all = g_string_new (NULL);

  for (guint i = 0; i < list->n; i++)
    {
      if (strcmp (list->entries[i].code, code) == 0)
        {
          *entries |= 1u << i;
          return TRUE;
        }
      g_string_append_printf (all, "%s%s", i > 0 ? ", " : "", list->entries[i].code);
    }
  g_printerr (_("“%s” is not an allergen code; use some of: %s\n"), code, all->str);
  return FALSE;
}

#define BETWEEN_CODES " ,"

/* Codes with spaces or commas between them, as often as one likes; where there are none the guest who avoids something
 * would be told of everything. */
static gboolean
read_avoids (const Asked *asked,
             guint32     *entries)
{
  *entries = 0;
  for (char **text = asked->avoids; text != NULL && *text != NULL; text++)
    {
      g_auto (GStrv) codes = g_strsplit_set (*text, BETWEEN_CODES, -1);
      const CroAllergenList *list = cro_allergen_list (asked->list);

      if ((*text)[strspn (*text, BETWEEN_CODES)] == '\0' && !read_code (list, *text, entries))
        return FALSE;
      for (char **code = codes; *code != NULL; code++)
        if (**code != '\0' && !read_code (list, *code, entries))
          return FALSE;
    }
  return TRUE;
}

/* --- As text ------------------------------------------------------------------------------------ */

/* "contains: milk, fish"; of all entries that are held so. */
static void
print_held (const CroAllergenSheet *sheet,
            const CroAllergenRow   *row,
            unsigned                held)
{
  guint32 entries = 0;
  g_autofree char *names = NULL, *text = NULL;

  for (guint i = 0; i < cro_allergen_list (sheet->list)->n; i++)
    if (cro_allergen_sheet_held (sheet, row, i) == held)
      entries |= 1u << i;
  if (entries == 0)
    return;
  names = cro_words_allergens_of (sheet->list, entries);
  text = g_strdup_printf (_("%s: %s"), cro_words_held (held), names);
  cro_cli_print_wrapped (text, 2);
}

static void
print_row (const CroAllergenSheet *sheet,
           const CroAllergenRow   *row)
{
  static const unsigned helds[] = {
    CRO_HELD_CONTAINS, CRO_HELD_MAY, CRO_HELD_MAY | CRO_HELD_NOT_KNOWN, CRO_HELD_NOT_KNOWN,
  };
  g_autofree char *why = cro_words_avoid_why (sheet, row);

  cro_cli_print_wrapped (cro_ref_name (sheet->figures->model, row->thing), 0);
  for (gsize i = 0; i < G_N_ELEMENTS (helds); i++)
    print_held (sheet, row, helds[i]);
  if (sheet->avoids == 0 && *why != '\0')
    cro_cli_print_wrapped (why, 2);
  for (guint i = 0; i < cro_allergen_list (sheet->list)->n; i++)
    /* Of what was not entered the heading says all. */
    if (sheet->avoids & (1u << i) && cro_allergen_sheet_held (sheet, row, i) != 0)
      {
        g_autofree char *sentence = cro_words_carried (sheet, row, i);

        cro_cli_print_wrapped (sentence, 2);
      }
}

static void
print_text (const CroAllergenSheet *sheet)
{
  g_autofree char *title = cro_words_allergen_title (sheet);
  g_autofree char *date = cro_date_to_text (sheet->figures->date);
  g_autofree char *not_stated = cro_words_not_stated (sheet->figures->model);
  CroAvoidGroup group = CRO_N_AVOID_GROUPS;

  /* Translators: a title, and a date. */
  g_print (_("%s, %s\n"), title, date);
  for (guint i = 0; i < sheet->rows->len; i++)
    {
      const CroAllergenRow *row = &g_array_index (sheet->rows, CroAllergenRow, i);

      if (row->group != group)
        {
          g_autofree char *heading = cro_words_avoid_group (sheet, row->group);

          g_print ("\n");
          cro_cli_print_wrapped (heading, 0);
          g_print ("\n");
        }
      group = row->group;
      print_row (sheet, row);
    }
  g_print ("\n");
  cro_cli_print_wrapped (not_stated, 0);
  cro_cli_print_wrapped (cro_words_allergen_source (sheet->list), 0);
  cro_cli_print_wrapped (cro_words_caution (), 0);
}

/* --- As JSON ------------------------------------------------------------------------------------ */

static void
add_carriers (CroJson                *json,
              const char             *name,
              const CroAllergenSheet *sheet,
              const CroAllergenRow   *row,
              guint                   entry,
              CroHeld                 held)
{
  g_autoptr (GPtrArray) carriers = NULL;

  cro_json_begin_array (json, name);
  if (cro_allergen_sheet_held (sheet, row, entry) & held)
    carriers = cro_carriers_new (sheet->figures, row->thing,
                                 cro_allergen_sheet_bits (sheet, row, entry, held));
  for (guint i = 0; carriers != NULL && i < carriers->len; i++)
    {
      const CroCarrier *carrier = carriers->pdata[i];

      cro_json_begin_object (json, NULL);
      cro_json_text (json, "name", carrier->name);
      cro_cli_json_names (json, "in", carrier->in);
      cro_cli_json_names (json, "bought", carrier->bought);
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

static const char *
code_of_held (unsigned held)
{
  if (held & CRO_HELD_CONTAINS)
    return "contains";
  if (held & CRO_HELD_MAY)
    return held & CRO_HELD_NOT_KNOWN ? "may-contain-or-not-known" : "may-contain";
  return held & CRO_HELD_NOT_KNOWN ? "not-known" : "not-entered";
}

static void
add_row (CroJson                *json,
         const CroAllergenSheet *sheet,
         const CroAllergenRow   *row)
{
  static const char *const groups[CRO_N_AVOID_GROUPS] = { "contains", "may-contain", "not-known",
                                                          "not-entered" };
  const CroAllergenList *list = cro_allergen_list (sheet->list);

  cro_json_begin_object (json, NULL);
  cro_json_text (json, "name", cro_ref_name (sheet->figures->model, row->thing));
  cro_json_text (json, "kind", row->thing.kind == CRO_REF_MENU ? "menu" : "plate");
  cro_json_text (json, "group", sheet->avoids != 0 ? groups[row->group] : NULL);
  cro_json_begin_array (json, "allergens");
  for (guint i = 0; i < list->n; i++)
    {
      cro_json_begin_object (json, NULL);
      cro_json_text (json, "code", list->entries[i].code);
      cro_json_text (json, "held", code_of_held (cro_allergen_sheet_held (sheet, row, i)));
      add_carriers (json, "contains", sheet, row, i, CRO_HELD_CONTAINS);
      add_carriers (json, "may_contain", sheet, row, i, CRO_HELD_MAY);
      add_carriers (json, "not_known", sheet, row, i, CRO_HELD_NOT_KNOWN);
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
  cro_json_end_object (json);
}

static gboolean
print_json (const CroAllergenSheet  *sheet,
            GError                 **error)
{
  CroModel *model = sheet->figures->model;
  const CroAllergenList *list = cro_allergen_list (sheet->list);
  /* A program reads one language. */
  g_autoptr (CroTongue) tongue = cro_tongue_enter (NULL);
  g_autoptr (CroJson) json = cro_json_new ();
  g_autofree char *text = NULL;
  char on[CRO_DATE_CHARS];

  cro_date_format (sheet->figures->date, on);
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "on", on);
  cro_json_text (json, "list", list->code);
  cro_json_text (json, "menu",
                 sheet->menu != CRO_NO_SLOT ? cro_model_menu (model, sheet->menu)->name : NULL);
  cro_json_begin_array (json, "avoids");
  for (guint i = 0; i < list->n; i++)
    if (sheet->avoids & (1u << i))
      cro_json_text (json, NULL, list->entries[i].code);
  cro_json_end_array (json);
  cro_json_begin_array (json, "plates");
  for (guint i = 0; i < sheet->rows->len; i++)
    add_row (json, sheet, &g_array_index (sheet->rows, CroAllergenRow, i));
  cro_json_end_array (json);
  cro_json_begin_array (json, "cautions");
  cro_json_text (json, NULL, cro_words_allergen_source (sheet->list));
  cro_json_text (json, NULL, cro_words_caution ());
  cro_json_end_array (json);
  cro_json_end_object (json);
  text = cro_json_print (json, error);
  if (text != NULL)
    g_print ("%s", text);
  return text != NULL;
}

/* --- As a file ---------------------------------------------------------------------------------- */

typedef struct
{
  const CroAllergenSheet *sheet;
  const Asked            *asked;
} Writing;

static gboolean
is_of_kind (const Asked *asked,
            const char  *suffix)
{
  return g_str_has_suffix (asked->path, suffix);
}

/* The file's own language, so that it is the same whoever writes it. */
static CroTextTable *
table_new (const Writing *writing)
{
  const char *language = writing->asked->language;
  gboolean is_translated = language != NULL && !g_str_equal (language, "en");
  g_autoptr (CroTongue) tongue = cro_tongue_enter (is_translated ? language : NULL);

  return cro_words_allergen_table (writing->sheet, !is_of_kind (writing->asked, ".pdf"));
}

static gboolean
write_file (const char  *path,
            gpointer     user_data,
            GError     **error)
{
  const Writing *writing = user_data;
  CroFigures *figures = writing->sheet->figures;
  gint64 created = cro_date_to_seconds (figures->date);
  gboolean is_letter = cro_currency_uses_letter (figures->model->currency);
  g_autoptr (CroTextTable) table = table_new (writing);
  g_autofree char *csv = NULL;

  if (is_of_kind (writing->asked, ".pdf"))
    {
      g_autoptr (CroTablePaper) paper = cro_table_paper_new (g_steal_pointer (&table), FALSE);

      return cro_table_paper_write_pdf (paper, path, created, is_letter, error);
    }
  if (is_of_kind (writing->asked, ".xlsx"))
    return cro_text_table_write_sheet (table, path, created, is_letter, error);
  csv = cro_text_table_to_csv (table, "group");
  return g_file_set_contents (path, csv, -1, error);
}

static gboolean
is_sound (const Asked *asked,
          const char  *book)
{
  if (asked->path == NULL)
    return cro_cli_knows_language (asked->language);
  if (asked->is_json)
    g_printerr (_("use one of --json and -o\n"));
  else if (strcmp (asked->path, "-") != 0 && !is_of_kind (asked, ".pdf") && !is_of_kind (asked, ".xlsx")
           && !is_of_kind (asked, ".csv"))
    g_printerr (_("%s: the name must end in .pdf, .xlsx or .csv\n"), asked->path);
  else if (cro_cli_can_write (asked->path, book))
    return cro_cli_knows_language (asked->language);
  return FALSE;
}

/* --- The answer --------------------------------------------------------------------------------- */

/* Names on standard error what nobody has said. */
static CroCliStatus
say_not_known (const CroAllergenSheet *sheet)
{
  CroCliStatus status = CRO_CLI_DONE;

  for (guint i = 0; i < sheet->rows->len; i++)
    {
      const CroAllergenRow *row = &g_array_index (sheet->rows, CroAllergenRow, i);
      g_autofree char *name = NULL, *why = NULL;

      if ((row->bits & CRO_ALLERGENS_NOT_KNOWN) == 0)
        continue;
      name = cro_isolate (cro_ref_name (sheet->figures->model, row->thing));
      why = cro_words_not_stated_below (sheet, row);
      /* Translators: a plate or a menu; ingredients. */
      g_printerr (_("%s: allergens not stated for %s\n"), name, why);
      status = CRO_CLI_INCOMPLETE;
    }
  return status;
}

static CroCliStatus
answer (CroBook     *book,
        const Asked *asked,
        const char  *path)
{
  Writing writing = { NULL, asked };
  g_autoptr (CroAllergenSheet) sheet = NULL;
  g_autoptr (GError) error = NULL;
  guint32 menu = CRO_NO_SLOT, avoids;
  gboolean done = TRUE;

  if (!read_avoids (asked, &avoids)
      || (asked->menu != NULL && !cro_cli_find (book, CRO_CLI_MENUS, asked->menu, NULL, &menu)))
    return CRO_CLI_REFUSED;
  sheet = cro_allergen_sheet_new (cro_book_get_figures (book), menu);
  cro_allergen_sheet_ask (sheet, asked->list, avoids);
  writing.sheet = sheet;
  if (asked->path != NULL)
    {
      /* A moment's work: an interrupt waits until the file is whole. */
      cro_cli_note_interrupts ();
      done = cro_cli_write_file (asked->path, write_file, &writing, &error);
    }
  else if (asked->is_json)
    done = print_json (sheet, &error);
  else
    print_text (sheet);
  if (!done)
    return cro_cli_fail (asked->path != NULL ? asked->path : path, error);
  return say_not_known (sheet);
}

CroCliStatus
cro_cli_allergens (int    argc,
                   char **argv)
{
  g_auto (Asked) asked = { 0 };
  g_autofree char *on = NULL, *list = NULL;
  GOptionEntry entries[] = {
    { "menu", 0, 0, G_OPTION_ARG_STRING, &asked.menu, N_("The plates of that menu alone"), N_("NAME") },
    { "avoids", 0, 0, G_OPTION_ARG_STRING_ARRAY, &asked.avoids,
      N_("What a guest avoids; may be given more than once"), N_("CODE") },
    { "list", 0, 0, G_OPTION_ARG_STRING, &list,
      N_("The 14 groups of the EU (eu, the default) or the 9 allergens of the US (us)"), N_("LIST") },
    { "on", 0, 0, G_OPTION_ARG_STRING, &on, N_("The date that is shown; today by default"), N_("DATE") },
    { "json", 0, 0, G_OPTION_ARG_NONE, &asked.is_json, N_("Print it for a program"), NULL },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &asked.path,
      N_("Write a sheet: a file ending in .pdf, .xlsx or .csv; - prints rows of commas"), N_("FILE") },
    { "language", 0, 0, G_OPTION_ARG_STRING, &asked.language,
      N_("Language of the sheet; en by default"), N_("CODE") },
    { NULL },
  };
  CroDate date = cro_here_today ();
  CroCliStatus status;
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("allergens", "BOOK", _("What plates contain, as entered, and who carries it in."),
                      entries, &argc, &argv, &status))
    return status;
  if (!read_list (list, &asked.list) || !cro_cli_read_date (on, &date) || !is_sound (&asked, argv[1]))
    return CRO_CLI_REFUSED;
  book = cro_book_open (argv[1], NULL, CRO_STORE_READ, date, &error);
  return book != NULL ? answer (book, &asked, argv[1]) : cro_cli_fail (argv[1], error);
}
