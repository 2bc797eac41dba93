#include "config.h"

#include "cro-cli-prices.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-fold.h"
#include "cro-isolate.h"
#include "cro-name.h"
#include "cro-number.h"
#include "cro-price-list-words.h"
#include "cro-round-words.h"
#include "cro-spreadsheet.h"
#include "cro-tongue.h"

typedef struct
{
  char     *supplier;
  char     *from;
  gboolean  dry_run;
  gboolean  is_json;
  char    **accept;     /* numbers or codes of lines */
  gboolean  accept_all;
  gboolean  accept_seller;
  char    **charges;
  char    **is;         /* as CroListReading has them, and the next */
  char    **holds;
  CroListReading reading;
} Options;

static void
options_clear (Options *self)
{
  g_free (self->supplier);
  g_free (self->from);
  g_strfreev (self->accept);
  g_strfreev (self->charges);
  g_strfreev (self->is);
  g_strfreev (self->holds);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, options_clear)

static void
pricing_clear (CroPricing *self)
{
  g_clear_pointer (&self->moved, g_array_unref);
  g_clear_pointer (&self->list, cro_price_list_free);
  g_clear_object (&self->book);
  g_free (self->refused);
}

typedef CroPricing Pricing;
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Pricing, pricing_clear)

/* --- Posting ------------------------------------------------------------------------------------------ */

static gboolean
has_any (const CroPriceList *list)
{
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (!row->is_in_book && (row->is_posted || row->is_booked))
        return TRUE;
    }
  return FALSE;
}

/* Into the book, or into a copy of it: what it does is then seen of either. */
static CroCliStatus
post_into (CroPricing *pricing,
           const char *path,
           const char *file,
           gboolean    for_good)
{
  g_autofree char *name = g_path_get_basename (file), *desk = cro_here_dup_desk ();
  /* Translators: an entry of the history; a supplier, and the name of a file. */
  g_autofree char *label = cro_isolate_printf (_("prices of %s from %s"), pricing->list->supplier_name, name);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (CroBook) after = NULL;

  if (!cro_price_list_post (pricing->list, cro_book_get_model (pricing->book), path, desk, label,
                            cro_cli_goes_on, NULL, faults, &error))
    return cro_cli_fail_to_load (path, file, faults, error);
  if (for_good)
    cro_cli_note_change ();
  after = cro_book_open (path, NULL, CRO_STORE_READ, pricing->list->from, &error);
  if (after == NULL)
    return cro_cli_fail (path, error);
  pricing->moved = cro_moved_plates_new (cro_book_get_figures (pricing->book), cro_book_get_figures (after));
  for (guint i = 0; i < pricing->moved->len; i++)
    {
      CroMovedPlate *moved = &g_array_index (pricing->moved, CroMovedPlate, i);

      /* The other book's names go with it. */
      moved->after.name = moved->before.name;
    }
  return CRO_CLI_DONE;
}

static CroCliStatus
try_on_copy (CroPricing *pricing,
             const char *file)
{
  g_autoptr (GError) error = NULL;
  char *copy = cro_cli_copy_new (cro_book_get_store (pricing->book), &error);
  CroCliStatus status;

  if (copy == NULL)
    return cro_cli_fail (file, error);
  status = post_into (pricing, copy, file, FALSE);
  cro_cli_copy_remove (copy);
  return status;
}

/* --- Answers ------------------------------------------------------------------------------------------ */

/* What lines wait for that "it is right" does not answer. answer: of those that it is for; NULL: of all. */
static void
say_what_they_wait_for (const CroPriceList *list,
                        const char         *answer)
{
  gboolean pack = FALSE, tax = FALSE, word = FALSE, currency = FALSE;
  guint back = 0;

  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (!cro_list_row_waits (row) || (answer != NULL && !cro_list_row_is_called (row, answer)))
        continue;
      pack |= cro_list_row_asks_pack (list, row);
      tax |= cro_list_row_asks_tax (row);
      word |= cro_list_row_asks_word (row);
      currency |= cro_list_row_asks_currency (row);
      if (back == 0 && cro_list_row_asks_back (row))
        back = row->number;
    }
  if (back != 0)
    /* Translators: the number of a line, before what is typed. */
    g_printerr (_("use --is to say what is given back: %1$u=return, goods; %1$u=price, a part of the price\n"), back);
  if (pack)
    g_printerr (_("use --holds to say what one of a line’s packs holds\n"));
  if (tax)
    g_printerr (_("write “incl. VAT” or “ex VAT” behind a price to say whether tax is in it\n"));
  if (word)
    g_printerr (_("write what a price is for behind it, as 9.20/kg or 9.20/6 × 1 l\n"));
  if (currency)
    g_printerr (_("write a price in the currency of its pack, or give the pack the other one\n"));
}

/* A line that waits for more than to be said to be right. FALSE: there is none. */
static gboolean
say_unfit (CroPricing *pricing,
           const char *answer)
{
  const CroPriceList *list = pricing->list;

  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (!cro_list_row_waits (row) || !cro_list_row_is_called (row, answer))
        continue;
      /* Translators: what was given to --accept: the number or the code of a line. */
      g_printerr (_("line “%s” cannot be accepted as it stands\n"), answer);
      for (guint k = 0; row->reasons != NULL && k < row->reasons->len; k++)
        {
          const CroListReason *reason = &g_array_index (row->reasons, CroListReason, k);
          g_autofree char *why = cro_list_why_asks (reason->why) && !cro_list_why_can_be_right (reason->why)
                                     ? cro_words_list_reason (cro_book_get_model (pricing->book), list, row, reason)
                                     : NULL;

          if (why != NULL)
            g_printerr ("%s\n", why);
          if (why != NULL && reason->why == CRO_LIST_UNSURE)
            /* Translators: a sign or a word of a line of a supplier's list. */
            g_printerr (_("write the line without “%s” if its price is right\n"), reason->text);
        }
      return TRUE;
    }
  return FALSE;
}

/* Whether a line is called so; waits: one that waits. */
static gboolean
has_line (const CroPriceList *list,
          const char         *answer,
          gboolean            waits)
{
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (cro_list_row_is_called (row, answer) && (!waits || cro_list_row_waits (row)))
        return TRUE;
    }
  return FALSE;
}

/* Of two lines of one pack the first that is said to be right is posted: the other is none any more. */
static gboolean
is_of_one_pack (const CroPriceList *list,
                const char         *answer)
{
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);
      const char *other = cro_list_row_is_called (row, answer) ? cro_list_row_gives_way_to (row) : NULL;

      if (other == NULL)
        continue;
      /* Translators: what was given to --accept, and the number of another line. */
      g_printerr (_("lines “%s” and “%s” are for one pack; use --accept for one of them\n"), answer, other);
      return TRUE;
    }
  return FALSE;
}

/* answer: NULL is of all lines, but of those that contradict each other. FALSE: no line that can be answered so is
 * meant, which is said. That a line is right does not say how much it delivers. */
static gboolean
accept_line (CroPricing *pricing,
             const char *answer)
{
  CroPriceList *list = pricing->list;
  g_autoptr (GArray) meant = g_array_new (FALSE, FALSE, sizeof (guint));
  guint n_twice = 0;

  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (!cro_list_row_takes_yes (list, row)
          || !(answer != NULL ? cro_list_row_is_called (row, answer) : !cro_list_row_is_twice (row)))
        continue;
      g_array_append_val (meant, i);
      n_twice += cro_list_row_is_twice (row);
    }
  if (n_twice > 1)
    {
      g_printerr (_("--accept “%s” is of lines that contradict each other; name one of them by its number\n"), answer);
      return FALSE;
    }
  if (meant->len > 0)
    cro_price_list_accept (list, cro_book_get_model (pricing->book), &g_array_index (meant, guint, 0), meant->len);
  if (meant->len > 0 || answer == NULL)
    return TRUE;
  if (is_of_one_pack (list, answer))
    return FALSE;
  /* What waits for nothing is right already: it is posted as it is, or was answered before it was booked. */
  if (has_line (list, answer, FALSE) && !has_line (list, answer, TRUE))
    return TRUE;
  if (!say_unfit (pricing, answer))
    /* Translators: what was given to --accept: the number or the code of a line. */
    g_printerr (_("there is no line “%s”\n"), answer);
  say_what_they_wait_for (list, answer);
  return FALSE;
}

static gboolean
accept_lines (CroPricing    *pricing,
              const Options *options)
{
  for (guint i = 0; options->accept != NULL && options->accept[i] != NULL; i++)
    if (!accept_line (pricing, options->accept[i]))
      return FALSE;
  if (options->accept_all)
    accept_line (pricing, NULL);
  return TRUE;
}

/* What --is or --holds say of a line. */
static void
say_no_answer (const CroPriceList *list)
{
  const char *what = strchr (list->no_answer, '=');
  g_autofree char *line = g_strndup (list->no_answer, strcspn (list->no_answer, "="));

  switch (list->no_answer_why)
    {
    case CRO_ANSWER_OF_NO_LINE:
      /* Translators: the number or the code of a line of a supplier's list, as it was given. */
      g_printerr (_("there is no line “%s”\n"), line);
      break;
    case CRO_ANSWER_NO_PACK:
      /* Translators: what was given as a pack. */
      g_printerr (_("“%s” is no pack; write it with its unit, as 6 × 1 l\n"), what + 1);
      break;
    case CRO_ANSWER_CONTRADICTS:
      g_printerr (_("“%s” contradicts what else is said of that line\n"), list->no_answer);
      break;
    case CRO_ANSWER_MEASURED:
      /* Translators: the number or the code of a line of a document. */
      g_printerr (_("line “%s” counts a weight, a volume or pieces itself; it has no packs\n"), line);
      break;
    case CRO_ANSWER_NOTHING:
      /* Translators: what was given to --is: the number or the code of a line, and nothing behind it. */
      g_printerr (_("“%s” says nothing; write it as 3=Butter\n"), list->no_answer);
      break;
    default:
      /* Translators: what was given to --is or --holds: the number or the code of a line, and what is said of it. */
      g_printerr (_("“%s” cannot be said of a line\n"), list->no_answer);
    }
}

static void
say_no_ingredient (CroModel   *model,
                   const char *name)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autofree char *folded = cro_fold (name);
  guint n = 0;

  for (guint32 i = 0; i < model->items->len; i++)
    {
      const CroItem *item = cro_model_item (model, i);
      g_autofree char *other = NULL;

      if (item->is_dead || !model->measures[i].is_bought)
        continue;
      other = cro_fold (item->name);
      n += strcmp (other, folded) == 0;
      g_ptr_array_add (names, (gpointer) item->name);
    }
  if (n > 1)
    g_printerr (_("several ingredients are called “%s”; write the name as the book has it\n"), name);
  else
    g_printerr (_("there is no ingredient “%s”\n"), name);
  cro_cli_say_similar (names, name);
}

/* Nothing is posted beside an answer that is none. */
static gboolean
check_answers (const CroPriceList *list,
               CroModel           *model)
{
  if (list->no_answer != NULL)
    {
      say_no_answer (list);
      return FALSE;
    }
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (row->is_named && row->item == CRO_NO_SLOT)
        {
          say_no_ingredient (model, row->name);
          return FALSE;
        }
    }
  return TRUE;
}

/* --- Telling -------------------------------------------------------------------------------------------- */

/* All that is asked, as one answer is to all of it; else what is said last. NULL: nothing is. Owned. */
static char *
reasons_of (CroPricing       *pricing,
            const CroListRow *row)
{
  CroModel *model = cro_book_get_model (pricing->book);
  GString *asked = g_string_new (NULL);

  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    {
      const CroListReason *reason = &g_array_index (row->reasons, CroListReason, i);
      gboolean is_last = asked->len == 0 && i + 1 == row->reasons->len;
      g_autofree char *why = cro_list_why_asks (reason->why) || is_last
                                 ? cro_words_list_reason (model, pricing->list, row, reason) : NULL;

      if (why != NULL)
        g_string_append_printf (asked, "%s%s", asked->len > 0 ? " " : "", why);
    }
  return g_string_free (asked, asked->len == 0);
}

/* What is asked of the whole document one answer is to. */
static gboolean
is_asked_of_all (const CroListRow *row)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    if (cro_list_why_is_of_all (g_array_index (row->reasons, CroListReason, i).why))
      return TRUE;
  return FALSE;
}

static void
say_waiting (CroPricing *pricing)
{
  gboolean is_unmatched = FALSE, is_of_all = FALSE;

  for (guint i = 0; i < pricing->list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (pricing->list->rows, CroListRow, i);
      g_autofree char *where = NULL, *why = NULL;

      if (!cro_list_row_waits (row))
        continue;
      is_unmatched |= row->item == CRO_NO_SLOT && !row->is_no_ingredient && !cro_list_row_is_talk (pricing->list, row);
      is_of_all |= is_asked_of_all (row);
      where = cro_words_list_row (row);
      why = reasons_of (pricing, row);
      if (why != NULL)
        /* Translators: a line of a supplier’s list, its status, and a sentence that says why. */
        g_printerr (_("%s: not posted (%s). %s\n"), where, cro_words_list_state (row), why);
      else
        /* Translators: a line of a supplier’s list, its status. */
        g_printerr (_("%s: not posted (%s)\n"), where, cro_words_list_state (row));
    }
  say_what_they_wait_for (pricing->list, NULL);
  if (is_of_all)
    g_printerr (_("use --accept for one of its lines to book the document\n"));
  if (is_unmatched)
    g_printerr (_("use --is to say what a line is, as 3=Butter\n"));
}

static void
say_over (CroPricing *pricing)
{
  for (guint i = 0; pricing->moved != NULL && i < pricing->moved->len; i++)
    {
      const CroMovedPlate *moved = &g_array_index (pricing->moved, CroMovedPlate, i);

      if (moved->goes_over)
        g_printerr (cro_book_get_model (pricing->book)->speaks == CRO_SPEAKS_FOOD_COST
                        /* Translators: a plate or a menu. */
                        ? _("%s: goes over its target\n")
                        : _("%s: goes below its target\n"),
                    moved->before.name);
    }
}

/* What becomes of charges may still be said. */
static void
say_charges (const CroPriceList *list)
{
  if (cro_price_list_asks_whole (list))
    g_printerr (_("use --charges to spread them, to book them or to leave them out\n"));
}

static void
say_all (CroPricing    *pricing,
         const Options *options)
{
  CroPriceList *list = pricing->list;
  g_autofree char *unspread = cro_words_list_unspread (list), *date = cro_date_to_text (list->from);
  g_autofree char *seller = cro_words_list_seller (list), *total = cro_words_list_total (list);
  g_autofree char *booked = cro_words_list_booked (list, cro_book_get_model (pricing->book));
  g_autofree char *sheet = cro_words_list_sheet (list), *day = cro_words_list_date (list);
  g_autofree char *closed = cro_words_prices_closed (pricing->book, list->source == CRO_LIST_INVOICE ? list->delivered
                                                                                              : list->from);
  g_autofree char *past = list->source != CRO_LIST_INVOICE && list->from < cro_here_today ()
                              ? cro_words_list_past (list, pricing->book) : NULL;
  const char *sentences[] = { past, past == NULL ? closed : NULL, day, sheet, seller, total, unspread, booked };

  if (list->from > cro_here_today ())
    g_printerr (_("these prices hold from %s, which is in the future\n"), date);
  for (guint i = 0; i < G_N_ELEMENTS (sentences); i++)
    if (sentences[i] != NULL)
      g_printerr ("%s\n", sentences[i]);
  say_charges (list);
  if (list->is_booked_before && list->document != NULL)
    g_printerr (_("document %s was booked before; only what was missing is added\n"), list->document);
  say_waiting (pricing);
  say_over (pricing);
  if (options->dry_run)
    g_printerr (_("dry run; nothing was changed\n"));
}

static gboolean
is_any_over (CroPricing *pricing)
{
  for (guint i = 0; pricing->moved != NULL && i < pricing->moved->len; i++)
    if (g_array_index (pricing->moved, CroMovedPlate, i).goes_over)
      return TRUE;
  return FALSE;
}

/* Why nothing of it is posted; NULL. Charges that were to be spread, and cannot be, are not left out in silence. */
static char *
refusal_of (const CroPriceList *list,
            const GError       *error)
{
  char *refused = cro_words_list_refused (list, error);

  return refused != NULL || error != NULL ? refused : cro_words_list_not_spread (list);
}

/* JSON is in one language, whoever asks for it. */
static gboolean
print_json (CroPricing    *pricing,
            const GError  *refusal,
            GError       **error)
{
  g_autoptr (CroTongue) tongue = cro_tongue_enter (NULL);

  g_free (pricing->refused);
  pricing->refused = refusal_of (pricing->list, refusal);
  return cro_cli_print_prices_json (pricing, error);
}

/* To a supplier that the book does not have. */
static void
say_like_supplier (const CroPricing *pricing)
{
  CroModel *model = cro_book_get_model (pricing->book);
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint32 slot = 0; slot < model->suppliers->len; slot++)
    g_ptr_array_add (names, (gpointer) g_array_index (model->suppliers, CroSupplier, slot).name);
  cro_cli_say_similar (names, pricing->list->supplier_name);
}

static CroCliStatus
refuse (CroPricing    *pricing,
        const Options *options,
        const char    *file,
        const GError  *refusal)
{
  g_autoptr (GError) error = NULL;

  g_printerr ("%s: %s\n", file, pricing->refused);
  if (refusal == NULL && pricing->list->supplier == CRO_NO_SLOT)
    say_like_supplier (pricing);
  if (pricing->list->is_booked_otherwise
      && (options->is != NULL || options->holds != NULL || options->charges != NULL))
    g_printerr (_("an answer may be another than that with which it was booked; undo takes that back\n"));
  if (pricing->list->seller_slot != CRO_NO_SLOT && !pricing->list->is_seller_right)
    g_printerr (_("name that supplier, or use --accept-seller\n"));
  if (cro_price_list_lacks_whole (pricing->list))
    {
      g_autofree char *unspread = cro_words_list_unspread (pricing->list);

      g_printerr ("%s\n", unspread);
      say_charges (pricing->list);
    }
  if (options->is_json && !print_json (pricing, refusal, &error))
    return cro_cli_fail (file, error);
  return CRO_CLI_REFUSED;
}

static CroCliStatus
price_book (CroPricing    *pricing,
            const Options *options,
            const char    *path,
            const char    *file)
{
  g_autoptr (GError) error = NULL;
  CroCliStatus status = CRO_CLI_DONE;

  if (has_any (pricing->list))
    status = options->dry_run ? try_on_copy (pricing, file) : post_into (pricing, path, file, TRUE);
  if (status != CRO_CLI_DONE)
    return status;
  if (options->is_json && !print_json (pricing, NULL, &error))
    return cro_cli_fail (file, error);
  if (!options->is_json)
    cro_cli_print_prices_table (pricing);
  say_all (pricing, options);
  return pricing->list->n_waiting > 0 || is_any_over (pricing) ? CRO_CLI_INCOMPLETE : CRO_CLI_DONE;
}

static gboolean
read_charges (Options *options)
{
  for (guint i = 0; options->charges != NULL && options->charges[i] != NULL; i++)
    {
      CroListWhole whole = CRO_WHOLE_SPREAD;

      while (whole < CRO_N_WHOLE && strcmp (options->charges[i], cro_list_whole_codes[whole]) != 0)
        whole++;
      if (whole == CRO_N_WHOLE)
        {
          g_printerr (_("--charges is “spread”, “book” or “leave”, not “%s”\n"), options->charges[i]);
          return FALSE;
        }
      if (i > 0 && whole != options->reading.whole)
        {
          g_printerr (_("--charges is given twice, each time another way\n"));
          return FALSE;
        }
      options->reading.whole = whole;
    }
  return TRUE;
}

static CroCliStatus
read_and_price (CroPricing    *pricing,
                const Options *options,
                CroDate        from,
                const char    *path,
                const char    *file)
{
  g_autoptr (GError) error = NULL;

  pricing->book = cro_book_open (path, NULL, CRO_STORE_READ, from, &error);
  if (pricing->book == NULL)
    return cro_cli_fail (path, error);
  if (!cro_price_list_read (file, pricing->book, options->supplier, from, &options->reading, &pricing->list, &error)
      && error == NULL)
    g_set_error_literal (&error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_CANCELLED, "cancelled");
  if (error != NULL && error->domain != CRO_INVOICE_ERROR && error->domain != CRO_SPREADSHEET_ERROR)
    return cro_cli_fail (cro_cli_is_of (error, CRO_STORE_ERROR) ? path : file, error);
  pricing->refused = refusal_of (pricing->list, error);
  if (pricing->refused == NULL
      && (!check_answers (pricing->list, cro_book_get_model (pricing->book)) || !accept_lines (pricing, options)))
    return CRO_CLI_REFUSED;
  return pricing->refused != NULL ? refuse (pricing, options, file, error)
                                  : price_book (pricing, options, path, file);
}

CroCliStatus
cro_cli_prices (int    argc,
                char **argv)
{
  g_auto (Options) options = { 0 };
  GOptionEntry entries[] = {
    { "supplier", 0, 0, G_OPTION_ARG_STRING, &options.supplier, N_("Whose prices they are"), N_("NAME") },
    { "from", 0, 0, G_OPTION_ARG_STRING, &options.from, N_("The day from which they hold"), N_("DATE") },
    { "dry-run", 0, 0, G_OPTION_ARG_NONE, &options.dry_run, N_("Show what would change, and change nothing"), NULL },
    { "json", 0, 0, G_OPTION_ARG_NONE, &options.is_json, N_("Print what the file says and does as JSON"), NULL },
    { "accept", 0, 0, G_OPTION_ARG_STRING_ARRAY, &options.accept, N_("Post a line that waits for a second look"),
      N_("LINE") },
    { "accept-all", 0, 0, G_OPTION_ARG_NONE, &options.accept_all, N_("Post all lines that wait for a second look"),
      NULL },
    { "accept-seller", 0, 0, G_OPTION_ARG_NONE, &options.accept_seller,
      N_("Take an invoice or a list though it names another supplier of the book"), NULL },
    { "is", 0, 0, G_OPTION_ARG_STRING_ARRAY, &options.is,
      N_("What a line is: an ingredient’s name, disposable, other, return or price"), N_("LINE=WHAT") },
    { "holds", 0, 0, G_OPTION_ARG_STRING_ARRAY, &options.holds, N_("What one of a line’s packs holds, as 6 × 1 l"),
      N_("LINE=PACK") },
    { "charges", 0, 0, G_OPTION_ARG_STRING_ARRAY, &options.charges,
      N_("What becomes of charges on a whole invoice: spread, book or leave"), N_("HOW") },
    { NULL },
  };
  g_auto (Pricing) pricing = { 0 };
  g_autofree char *given = NULL;
  CroCliStatus status;
  CroDate from;

  if (!cro_cli_parse ("prices", "BOOK FILE", _("Post a supplier’s price list, message or invoice."), entries, &argc,
                      &argv, &status))
    return status;
  if (options.supplier != NULL)
    {
      given = g_steal_pointer (&options.supplier);
      options.supplier = cro_name_dup_tidy (given);
    }
  /* No name of a script that found none. */
  if (options.supplier != NULL && *options.supplier == '\0')
    g_clear_pointer (&options.supplier, g_free);
  if (options.supplier == NULL || options.from == NULL)
    {
      g_printerr (options.supplier == NULL && options.from == NULL ? _("--supplier and --from are needed\n")
                  : options.supplier == NULL                      ? _("--supplier is needed: whose prices they are\n")
                                             : _("--from is needed: the day from which they hold (YYYY-MM-DD)\n"));
      return CRO_CLI_REFUSED;
    }
  options.reading.is_seller_right = options.accept_seller;
  options.reading.keeps_later = TRUE;
  options.reading.go_on = cro_cli_goes_on;
  options.reading.is = (const char *const *) options.is;
  options.reading.holds = (const char *const *) options.holds;
  if (!cro_cli_read_date (options.from, &from) || !read_charges (&options))
    return CRO_CLI_REFUSED;
  cro_cli_warn_of_network (argv[1]);
  cro_cli_note_interrupts ();
  return read_and_price (&pricing, &options, from, argv[1], argv[2]);
}
