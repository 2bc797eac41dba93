#include "config.h"

#include "cro-words.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <string.h>

#include "cro-edit.h"
#include "cro-invoice.h"
#include "cro-isolate.h"
#include "cro-json.h"
#include "cro-load.h"
#include "cro-number.h"
#include "cro-refusal.h"
#include "cro-spreadsheet.h"
#include "cro-whole-file.h"
#include "cro-workbook.h"

/* --- Rules of the store -------------------------------------------------------------------------- */

/* Columns that tell a row from all others, as people call them. */
static const struct { const char *column, *word; } keys[] = {
  { "name", N_("name") },           { "code", N_("code") },     { "from_date", N_("date") },
  { "currency", N_("currency") },   { "month", N_("month") },   { "position_micro", N_("position") },
  { "ingredient", N_("ingredient") }, { "supplier", N_("supplier") }, { "offer", N_("pack") },
  { "menu", N_("menu") },           { "plate", N_("plate") },   { "test", N_("yield test") },
  { "preparation", N_("preparation") },
};

/* "rate.currency, rate.from_date" → "currency, date". */
static char *
key_words (const char *columns)
{
  g_auto (GStrv) names = g_strsplit (columns, ", ", -1);
  GString *words = g_string_new (NULL);

  for (char **name = names; *name != NULL; name++)
    for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
      {
        const char *column = strrchr (*name, '.');

        if (strcmp (column != NULL ? column + 1 : *name, keys[i].column) == 0)
          g_string_append_printf (words, "%s%s", words->len > 0 ? ", " : "", _(keys[i].word));
      }
  return g_string_free (words, FALSE);
}

/* What the message of SQLite is about, which is for a log. */
static char *
rule_sentence (const char *message)
{
  static const char unique[] = "UNIQUE constraint failed: ";

  if (g_str_has_prefix (message, unique))
    {
      g_autofree char *words = key_words (message + strlen (unique));

      /* Translators: %s is what two rows have in common: “currency, date”. */
      return g_strdup_printf (_("there is an entry with the same %s already; change the existing "
                                "one"),
                              words);
    }
  if (g_str_has_prefix (message, "FOREIGN KEY"))
    return g_strdup (_("this is used elsewhere in the book; remove it there first"));
  if (g_str_has_prefix (message, "NOT NULL"))
    return g_strdup (_("a value is needed here"));
  if (strstr (message, "name is that of a log") != NULL)
    return g_strdup (_("a name that ends in -wal, -shm or -journal is that of a book’s log; choose "
                       "another name"));
  if (strstr (message, "has no row") != NULL)
    return g_strdup (_("this is no longer in the book; it was removed meanwhile"));
  return g_strdup (_("this value is out of range; check the number and its unit"));
}

/* --- Files ---------------------------------------------------------------------------------------- */

static const struct { int code, number; const char *sentence; } of_files[] = {
  { G_FILE_ERROR_NOENT, ENOENT, N_("there is no such file or folder") },
  { G_FILE_ERROR_NOTDIR, ENOTDIR,
    N_("a folder is needed here, and this path is, or leads through, a file, a pipe or a device") },
  { G_FILE_ERROR_ISDIR, EISDIR, N_("this is a folder; name a file") },
  { G_FILE_ERROR_NXIO, ENXIO, N_("this is not a file but a pipe or a device") },
  { G_FILE_ERROR_LOOP, ELOOP, N_("this link leads back to itself; name what is meant") },
  { G_FILE_ERROR_NAMETOOLONG, ENAMETOOLONG, N_("this name is too long; choose a shorter one") },
  { G_FILE_ERROR_ACCES, EACCES, N_("permission to read or write this is missing; ask for it, or name another place") },
  { G_FILE_ERROR_PERM, EPERM, N_("permission to read or write this is missing; ask for it, or name another place") },
  { G_FILE_ERROR_ROFS, EROFS, N_("this disk can only be read; name another place") },
};

/* In the place of the system's own words, which may stand behind the name of the file; a book is gone for one of these
 * reasons too, where it should be in a folder as if there were none. NULL: there are none. */
static char *
file_sentence (const GError *error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (of_files); i++)
    {
      const char *of_system = g_strerror (of_files[i].number);
      gboolean is_it = g_error_matches (error, G_FILE_ERROR, of_files[i].code)
                       || (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_GONE)
                           && of_files[i].number != ENOTDIR)
                       || (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NOT_A_BOOK)
                           && of_files[i].number == ENXIO);

      if (is_it && g_str_has_suffix (error->message, of_system))
        return g_strdup_printf ("%.*s%s", (int) (strlen (error->message) - strlen (of_system)), error->message,
                                _(of_files[i].sentence));
    }
  return NULL;
}

/* --- Sentences ------------------------------------------------------------------------------------ */

static const char *
store_sentence (int code)
{
  switch ((CroStoreErrorCode) code)
    {
    case CRO_STORE_ERROR_EXISTS:
      return _("this name is taken already; choose another");
    case CRO_STORE_ERROR_GONE:
      return _("there is no such file or folder");
    case CRO_STORE_ERROR_NOT_A_BOOK:
      return _("this is not a book of Croustade");
    case CRO_STORE_ERROR_FOLDER:
      return _("this is a folder, not a book");
    case CRO_STORE_ERROR_NEWER:
      return _("this book was written by a newer version of Croustade");
    case CRO_STORE_ERROR_DAMAGED:
      return _("a part of this book is damaged; open an earlier copy");
    case CRO_STORE_ERROR_ALTERED:
      return _("another program changed how this book is built, so nothing in it was used; open an "
               "earlier copy");
    case CRO_STORE_ERROR_LOG:
      return _("a log of a deleted book is in this folder (a name that ends in -wal or -journal); "
               "move it away, or choose another name");
    case CRO_STORE_ERROR_LOCKED:
      return _("another program is writing into this book; try again when it is done");
    case CRO_STORE_ERROR_READ_ONLY:
      return _("the file or its folder cannot be written");
    case CRO_STORE_ERROR_CHANGED:
      return _("this was changed again since");
    case CRO_STORE_ERROR_NOTHING:
      return _("there is nothing to undo");
    case CRO_STORE_ERROR_PAST:
      return _("this is the book as it stood; it can only be read");
    case CRO_STORE_ERROR_NO_ROWS:
      return _("the filling of an empty book cannot be undone");
    default:
      return NULL;
    }
}

static char *
edit_sentence (const GError *error)
{
  switch ((CroEditErrorCode) error->code)
    {
    case CRO_EDIT_ERROR_NAME_TAKEN:
      /* Translators: %s is a name. */
      return cro_isolate_printf (_("“%s” is the name of something else already; choose another"),
                                 error->message);
    case CRO_EDIT_ERROR_NAME_UNBOUGHT:
      /* Translators: %s is an ingredient; “Make It a Preparation” is a button. */
      return cro_isolate_printf (_("“%s” is an ingredient already; open it in the larder and choose Make It a "
                                   "Preparation, or choose another name"),
                                 error->message);
    case CRO_EDIT_ERROR_NAME_BOUGHT:
      /* Translators: %s is an ingredient; “Replace or Merge…” is a button. */
      return cro_isolate_printf (_("“%s” is an ingredient with suppliers’ packs; choose another name, then open the "
                                   "ingredient in the larder, choose Replace or Merge… and put this in its place"),
                                 error->message);
    case CRO_EDIT_ERROR_IN_USE:
      return g_strdup (_("this is in use elsewhere; remove it there first"));
    case CRO_EDIT_ERROR_TWICE:
      return g_strdup (_("this is there already; change the existing entry"));
    case CRO_EDIT_ERROR_SHARES:
      return g_strdup (_("the shares of this choice do not add up to 100 %"));
    case CRO_EDIT_ERROR_HAS_PACKS:
      /* Translators: %s is an ingredient. */
      return cro_isolate_printf (_("“%s” has suppliers’ packs; remove them to make it a preparation"),
                                 error->message);
    case CRO_EDIT_ERROR_HAS_PURCHASES:
      /* Translators: %s is an ingredient. */
      return cro_isolate_printf (_("“%s” appears in purchases and stays an ingredient"),
                                 error->message);
    case CRO_EDIT_ERROR_HAS_LINES:
      /* Translators: %s is a preparation. */
      return cro_isolate_printf (_("“%s” has lines; remove them to make it an ingredient"),
                                 error->message);
    case CRO_EDIT_ERROR_HAS_OUTPUTS:
      /* Translators: %s is a preparation. */
      return cro_isolate_printf (_("“%s” gives by-products; remove them first"),
                                 error->message);
    case CRO_EDIT_ERROR_NO_PRICE:
      return g_strdup (_("there is no price of its own from that date; enter the price first"));
    case CRO_EDIT_ERROR_CLOSED:
      /* Translators: %s is a month, as 2026-10. */
      return g_strdup_printf (_("%s is closed; reopen it to change it"), error->message);
    case CRO_EDIT_ERROR_RANGE:
      return g_strdup (_("the scale is out of range, or the finished amount is not known"));
    }
  return NULL;
}

static char *
before_sentence (const char *first_day)
{
  CroDate day;
  g_autofree char *text = cro_date_parse (first_day, strlen (first_day), &day)
                              ? cro_date_to_text (day)
                              : g_strdup (first_day);

  /* Translators: %s is a day. */
  return g_strdup_printf (_("the book begins on %s; choose that day or a later one"), text);
}

static const char *
spreadsheet_sentence (int code)
{
  switch ((CroSpreadsheetError) code)
    {
    case CRO_SPREADSHEET_ERROR_OTHER_KIND:
      return _("this file cannot be read as a spreadsheet; save it as XLSX or CSV, and choose that file");
    case CRO_SPREADSHEET_ERROR_LOCKED:
      return _("this spreadsheet has a password or an old format; save it without one as XLSX, and "
               "choose that file");
    case CRO_SPREADSHEET_ERROR_DAMAGED:
      return _("this spreadsheet is damaged; open it where it was made and save it again");
    case CRO_SPREADSHEET_ERROR_TOO_LARGE:
      return _("this file is too large; keep the sheet, the columns or the lines that are needed, and save "
               "it again");
    case CRO_SPREADSHEET_ERROR_NO_SHEET:
      return _("this spreadsheet has no sheet with cells");
    case CRO_SPREADSHEET_ERROR_STOPPED:
      return NULL;
    }
  g_return_val_if_reached (NULL);
}

const char *
cro_words_past (void)
{
  return _("This is the book as it stood; it can only be read");
}

/* Whoever finds it says it in words of its own. */
static gboolean
is_disk_full (const GError *error)
{
  return g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOSPC)
         || (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_SYSTEM)
             && strstr (error->message, "disk is full") != NULL);
}

static char *
invoice_sentence (const GError *error)
{
  switch (error->code)
    {
    case CRO_INVOICE_ERROR_OTHER_ROOT:
      /* Translators: the kind of an electronic document, as Order. */
      return cro_isolate_printf (_("this is no invoice or credit note, but: %s"), error->message);
    case CRO_INVOICE_ERROR_DECLARES:
      return g_strdup (_("the document declares a type or entities of its own, which no invoice does"));
    case CRO_INVOICE_ERROR_TOO_LARGE:
      return g_strdup (_("the document is too large for an invoice"));
    case CRO_INVOICE_ERROR_NOT_IN_PDF:
      return g_strdup (_("the PDF file has no electronic invoice in it"));
    case CRO_INVOICE_ERROR_LOCKED:
      return g_strdup (_("the PDF file is encrypted"));
    case CRO_INVOICE_ERROR_SEVERAL:
      return g_strdup (_("the PDF file has more than one electronic invoice in it; save the one that is meant as a "
                         "file of its own"));
    case CRO_INVOICE_ERROR_NO_LINES:
      return g_strdup (_("the document has no lines"));
    default:
      return g_strdup (_("the document is damaged"));
    }
}

char *
cro_words_error (const GError *error)
{
  const char *sentence = NULL;
  char *of_file = error != NULL ? file_sentence (error) : NULL;

  if (error == NULL)
    return g_strdup (_("this could not be done"));
  if (of_file != NULL)
    return of_file;
  if (g_error_matches (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_CYCLE))
    return cro_isolate_printf (_("preparations contain each other: %s"), error->message);
  if (g_error_matches (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_TRIAL))
    return g_strdup (_("a trial makes and removes nothing but lines and prices; do this in the book, "
                       "then try it"));
  if (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_BEFORE))
    return before_sentence (error->message);
  if (g_error_matches (error, CRO_WORKBOOK_ERROR, CRO_WORKBOOK_ERROR_ROWS))
    return cro_isolate_printf (_("the sheet “%s” would need more than the 1,048,576 rows that a sheet "
                                 "can have"),
                               error->message);
  if (g_error_matches (error, CRO_WORKBOOK_ERROR, CRO_WORKBOOK_ERROR_CANCELLED))
    return g_strdup (_("stopped; nothing was changed"));
  if (error->domain == CRO_WORKBOOK_ERROR)
    return g_strdup_printf (_("the spreadsheet could not be completed and was not kept: %s"),
                            error->message);
  if (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE))
    return rule_sentence (error->message);
  if (error->domain == CRO_EDIT_ERROR)
    return edit_sentence (error);
  if (error->domain == CRO_REFUSAL)
    return cro_words_refusal (error);
  if (error->domain == CRO_INVOICE_ERROR)
    return invoice_sentence (error);
  if (g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_NOT_A_TABLE))
    /* Translators: %s is the name of a file. */
    return cro_isolate_printf (_("“%s” in this folder is not a file; move it away"), error->message);
  if (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CLOSED))
    /* Translators: %s is a month, 2026-10. */
    return g_strdup_printf (_("%s was closed; reopen it first"), error->message);
  if (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_REOPENED))
    /* Translators: of undoing; %s is a month, 2026-10. */
    return g_strdup_printf (_("%s was opened again, which is not undone; close it instead"),
                            error->message);
  if (is_disk_full (error))
    sentence = _("the disk is full; make room on it and try again");
  else if (error->domain == CRO_WHOLE_FILE_ERROR)
    sentence = error->code == CRO_WHOLE_FILE_ERROR_DATABASE ? _("this is a book; name another file")
                                                            : _("this is a program; name another file");
  else if (error->domain == CRO_STORE_ERROR)
    sentence = store_sentence (error->code);
  else if (error->domain == CRO_SPREADSHEET_ERROR)
    sentence = spreadsheet_sentence (error->code);
  else if (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_INVAL))
    sentence = _("this is not a file but a pipe or a device");
  else if (error->domain == CRO_JSON_ERROR)
    sentence = _("amounts or prices are too large to calculate a cost; check their units");
  else if (g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_NOT_EMPTY))
    sentence = _("this book is not empty; --replace replaces its tables by those of the folder");
  else if (g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_CANCELLED))
    sentence = _("stopped; nothing was changed");
  else if (g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_UNFINISHED))
    sentence = _("a dump into this folder was cut short; dump the book again");
  else if (g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_OTHERS))
    sentence = _("this folder holds other things and no tables; name a new or an empty folder");
  else if (g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_HOLDS))
    sentence = _("this folder is not empty; name a new or an empty folder");
  return g_strdup (sentence != NULL ? sentence : error->message);
}
