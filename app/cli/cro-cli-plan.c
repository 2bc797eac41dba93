#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-entry-time.h"
#include "cro-entry.h"
#include "cro-isolate.h"
#include "cro-name.h"
#include "cro-number.h"
#include "cro-office-service.h"
#include "cro-service-orders.h"
#include "cro-words.h"

/* How the answer is given; text where nothing else is wanted. */
typedef struct
{
  gboolean  is_json;
  gboolean  orders_alone;
  char     *path;           /* of a spreadsheet */
  char     *language;       /* of its words */
} Output;

static void
output_clear (Output *output)
{
  g_free (output->path);
  g_free (output->language);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Output, output_clear)

/* --- What is asked ---------------------------------------------------------------------------------- */

/* Cuts text at its last "=": names may hold one, numbers cannot. NULL where there is none. Owned. */
static char *
cut (const char  *text,
     const char **value)
{
  const char *at = strrchr (text, '=');

  if (at == NULL || at == text)
    return NULL;
  *value = at + 1;
  return g_strndup (text, (gsize) (at - text));
}

/* A number as tables write it, 0 or more. */
static gboolean
read_number (const char *text,
             gsize       length,
             gint64     *micro)
{
  return cro_decimal_parse (text, length, micro) == CRO_DECIMAL_OK && *micro >= 0;
}

static gboolean
has_covers (GArray *covers,
            CroRef  thing)
{
  for (guint i = 0; i < covers->len; i++)
    if (cro_ref_equal (g_array_index (covers, CroCovers, i).thing, thing))
      return TRUE;
  return FALSE;
}

/* "26", "26 covers". */
static CroDecimalStatus
read_covers (const char *text,
             gint64     *covers)
{
  gsize number = strspn (text, "-.0123456789");
  CroDecimalStatus status = cro_decimal_parse (text, number, covers);

  return text[number + cro_entry_scan_covers (text + number)] == '\0' ? status : CRO_DECIMAL_NOT_A_NUMBER;
}

/* Those that could be read are below 0. */
static void
refuse_covers (CroDecimalStatus  status,
               const char       *text)
{
  g_autofree char *most = cro_number_to_text ((double) (G_MAXINT64 / CRO_MICRO), 0, FALSE);
  g_autofree char *reason = status == CRO_DECIMAL_TOO_LARGE
                                /* Translators: a name and a number of guests, as typed; the largest number. */
                                ? cro_isolate_printf (_("“%s” is too large; the most are %s covers"), text, most)
                            : status == CRO_DECIMAL_TOO_MANY_PLACES
                                ? cro_isolate_printf (_("“%s” has more than six decimals; round it"), text)
                            : status == CRO_DECIMAL_OK
                                /* Translators: a name and a number of guests, as typed. */
                                ? cro_isolate_printf (_("“%s” is out of range; covers are 0 or more"), text)
                                : NULL;

  if (reason != NULL)
    g_printerr ("%s\n", reason);
  else
    g_printerr (_("“%s” is not a plate or menu with its covers (NAME=N)\n"), text);
}

static gboolean
add_covers (CroPlanning *planning,
            const char  *text)
{
  CroCovers covers = { 0 };
  const char *number = NULL;
  g_autofree char *name = cut (text, &number);
  CroDecimalStatus status = name != NULL ? read_covers (number, &covers.covers) : CRO_DECIMAL_NOT_A_NUMBER;
  CroKind kind;
  guint32 slot;

  if (status != CRO_DECIMAL_OK || covers.covers < 0)
    {
      refuse_covers (status, text);
      return FALSE;
    }
  if (!cro_cli_find (planning->book, CRO_CLI_THINGS, name, &kind, &slot))
    return FALSE;
  covers.thing = CRO_REF (kind == CRO_KIND_MENU ? CRO_REF_MENU : CRO_REF_RECIPE, slot);
  if (has_covers (planning->service->covers, covers.thing))
    {
      g_printerr (_("“%s” is given twice\n"), name);
      return FALSE;
    }
  cro_cli_ask_bar_code (text, number);
  /* Tables may say so too. */
  if (covers.covers % CRO_MICRO != 0)
    g_printerr (_("“%s” is not a whole number of covers; is it meant?\n"), text);
  g_array_append_val (planning->service->covers, covers);
  return TRUE;
}

static gboolean
has_in_house (GArray  *in_house,
              guint32  item)
{
  for (guint i = 0; i < in_house->len; i++)
    if (g_array_index (in_house, CroInHouse, i).item == item)
      return TRUE;
  return FALSE;
}

/* Its code, as tables have it, or a word for it: "each", "pc". */
static gboolean
read_unit (const char *text,
           CroUnit    *unit)
{
  return *text != '\0'
         && (cro_unit_parse (text, strlen (text), unit)
             || cro_entry_scan_unit (text, cro_words_entry (), unit) == strlen (text));
}

/* "200 g", as tables have it. */
static gboolean
read_plain_amount (const char *text,
                   CroInHouse *entry)
{
  gsize number = strspn (text, "-.0123456789");
  const char *unit = text + number + strspn (text + number, " ");

  return read_number (text, number, &entry->amount) && read_unit (unit, &entry->unit);
}

/* Or as fields have it: "½ kg", "2 x 250 g", "1,3 kg". What could be read in two ways is refused, as nobody may be
 * there to see which it was. Why it is none, or NULL; owned. */
static char *
read_amount (const char *text,
             CroInHouse *entry)
{
  g_auto (CroEntry) read = { 0 };

  if (read_plain_amount (text, entry))
    return NULL;
  if (cro_entry_measured (text, CRO_UNIT_G, CRO_RANGE_AT_LEAST_0, cro_words_entry (), &read) && read.has_unit
      && read.understood == NULL)
    {
      entry->amount = read.micro;
      entry->unit = read.unit;
      return NULL;
    }
  if (read.status == CRO_ENTRY_OK || read.status == CRO_ENTRY_EMPTY)
    read.status = CRO_ENTRY_NOT_A_NUMBER;
  return cro_words_entry_reason (text, &read);
}

static gboolean
add_in_house (CroPlanning *planning,
              const char  *text)
{
  CroInHouse entry = { 0 };
  const char *value = "";
  g_autofree char *name = cut (text, &value);
  g_autofree char *amount = cro_name_dup_tidy (value);
  g_autofree char *reason = read_amount (amount, &entry);

  if (name == NULL || reason != NULL)
    {
      g_printerr (_("“%s” is not an item with an amount (NAME=AMOUNT UNIT). %s\n"), text,
                  reason != NULL ? reason : "");
      return FALSE;
    }
  if (!cro_cli_find (planning->book, CRO_CLI_ITEMS, name, NULL, &entry.item))
    return FALSE;
  if (has_in_house (planning->service->in_house, entry.item))
    {
      g_printerr (_("“%s” is given twice\n"), name);
      return FALSE;
    }
  cro_cli_ask_bar_code (text, amount);
  g_array_append_val (planning->service->in_house, entry);
  return TRUE;
}

static gboolean
take_arguments (CroPlanning  *planning,
                char        **covers,
                char        **have)
{
  planning->service = cro_service_new ();
  for (; covers != NULL && *covers != NULL; covers++)
    if (!add_covers (planning, *covers))
      return FALSE;
  for (; have != NULL && *have != NULL; have++)
    if (!add_in_house (planning, *have))
      return FALSE;
  return TRUE;
}

/* DATE/NAME. */
static gboolean
read_service (CroPlanning *planning,
              const char  *text)
{
  const char *slash = strchr (text, '/');
  g_autofree char *day = slash != NULL ? g_strndup (text, (gsize) (slash - text)) : NULL;

  planning->name = slash != NULL ? cro_name_dup_tidy (slash + 1) : NULL;
  if (planning->name != NULL && *planning->name != '\0')
    return cro_cli_read_date (day, &planning->day);
  g_printerr (_("“%s” is not a service (DATE/NAME, as in 2026-03-14/dinner)\n"), text);
  return FALSE;
}

/* --- The answer -------------------------------------------------------------------------------------- */

/* Services of that day; what cannot be read of them is not what was asked. */
static void
say_like_service (const CroPlanning *planning)
{
  char day[CRO_DATE_CHARS];
  static const char *const columns[] = { "date", "service", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (planning->book), "service", columns, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  cro_date_format (planning->day, day);
  while (rows != NULL && cro_rows_next (rows, NULL))
    if (strcmp (cro_rows_get_text (rows, 0), day) == 0
        && !g_ptr_array_find_with_equal_func (names, cro_rows_get_text (rows, 1), g_str_equal, NULL))
      g_ptr_array_add (names, g_strdup (cro_rows_get_text (rows, 1)));
  cro_cli_say_similar (names, planning->name);
}

static CroCliStatus
read_kept (CroPlanning *planning,
           const char  *path)
{
  g_autofree char *day = NULL;
  g_autoptr (GError) error = NULL;

  planning->service = cro_service_read (planning->book, planning->day, planning->name, &error);
  if (planning->service == NULL)
    return cro_cli_fail (path, error);
  if (planning->service->covers->len > 0)
    return CRO_CLI_DONE;
  day = cro_date_to_text (planning->day);
  /* Translators: the name of a service ("dinner"), and a date. */
  g_printerr (_("there are no covers for “%s” on %s\n"), planning->name, day);
  say_like_service (planning);
  return CRO_CLI_REFUSED;
}

static void
say_missing (GArray *missing)
{
  for (guint i = 0; i < missing->len; i++)
    {
      g_autofree char *cause = cro_words_cause (&g_array_index (missing, CroCause, i));

      /* Translators: what a plan lacks, as "no price for Sea purslane". */
      g_printerr (_("plan: incomplete: %s\n"), cause);
    }
}

/* What is no text for the supplier: the order is below what it delivers for. */
static void
say_short (const CroServicePlan *plan)
{
  CroModel *model = plan->figures->model;

  for (guint i = 0; i < plan->orders->len; i++)
    {
      const CroPlanOrder *order = &g_array_index (plan->orders, CroPlanOrder, i);
      g_autofree char *minimum = cro_words_order_minimum (model, order);

      if (cro_plan_order_short (order) > 0 && !cro_plan_order_is_free (order))
        /* Translators: a supplier, and by how much its order is short of its minimum. */
        g_printerr (_("plan: %s: %s\n"), g_array_index (model->suppliers, CroSupplier, order->supplier).name, minimum);
    }
}

/* Orders alone, each to be sent to its supplier, and what is in none. */
static void
print_orders (const CroServiceSheet *sheet)
{
  g_autoptr (GPtrArray) texts = cro_words_order_sheets (sheet);

  say_short (sheet->plan);
  for (guint i = 0; i < texts->len; i++)
    g_print ("%s%s", i > 0 ? "\n" : "", (const char *) texts->pdata[i]);
}

typedef struct
{
  const CroServiceSheet *sheet;
  const char            *language;
} Sheets;

static gboolean
write_sheets (const char  *path,
              gpointer     user_data,
              GError     **error)
{
  const Sheets *sheets = user_data;

  return cro_office_write_service (sheets->sheet, path, sheets->language, error);
}

static gboolean
put_out (CroPlanning  *planning,
         const Output *output,
         GError      **error)
{
  CroServiceSheet sheet = { planning->plan, planning->service, planning->name, planning->day };
  Sheets sheets = { &sheet, output->language };

  if (output->path != NULL)
    {
      /* A moment's work: an interrupt waits until the file is whole. */
      cro_cli_note_interrupts ();
      return cro_cli_write_file (output->path, write_sheets, &sheets, error);
    }
  if (output->is_json)
    return cro_cli_print_plan_json (planning, error);
  cro_service_plan_sort_for_reader (planning->plan);
  if (output->orders_alone)
    print_orders (&sheet);
  else
    cro_cli_print_plan_table (planning);
  return TRUE;
}

static CroCliStatus
print_plan (CroPlanning  *planning,
            const char   *path,
            const Output *output)
{
  g_autoptr (GError) error = NULL;

  planning->plan = cro_service_plan_new (planning->book, planning->service, &error);
  if (planning->plan == NULL)
    return cro_cli_fail (path, error);
  if (!planning->plan->is_finite)
    {
      g_printerr (_("an amount or a cost is too large to show; check covers, amounts and yields\n"));
      return CRO_CLI_REFUSED;
    }
  if (!put_out (planning, output, &error))
    return cro_cli_fail (output->path != NULL ? output->path : path, error);
  say_missing (planning->plan->missing);
  return planning->plan->missing->len > 0 ? CRO_CLI_INCOMPLETE : CRO_CLI_DONE;
}

static CroCliStatus
plan_book (CroPlanning  *planning,
           const char   *path,
           char        **covers,
           char        **have,
           const Output *output)
{
  g_autoptr (GError) error = NULL;
  CroCliStatus status = CRO_CLI_DONE;

  planning->book = cro_book_open (path, NULL, CRO_STORE_READ, planning->date, &error);
  if (planning->book == NULL)
    return cro_cli_fail (path, error);
  if (planning->name != NULL)
    status = read_kept (planning, path);
  else if (!take_arguments (planning, covers, have))
    status = CRO_CLI_REFUSED;
  return status == CRO_CLI_DONE ? print_plan (planning, path, output) : status;
}

static void
clear (CroPlanning *planning)
{
  g_clear_pointer (&planning->plan, cro_service_plan_free);
  g_clear_pointer (&planning->service, cro_service_free);
  g_clear_object (&planning->book);
  g_free (planning->name);
}

static gboolean
is_sound (const Output *output,
          const char   *book)
{
  if (output->is_json + output->orders_alone + (output->path != NULL) > 1)
    g_printerr (_("use one of --json, --orders and -o\n"));
  else if (output->path == NULL || cro_cli_can_write (output->path, book))
    return cro_cli_knows_language (output->language);
  return FALSE;
}

CroCliStatus
cro_cli_plan (int    argc,
              char **argv)
{
  g_auto (GStrv) covers = NULL, have = NULL;
  g_autofree char *service = NULL, *on = NULL;
  g_auto (Output) output = { 0 };
  GOptionEntry entries[] = {
    { "covers", 0, 0, G_OPTION_ARG_STRING_ARRAY, &covers,
      N_("Covers of a plate or menu; may be given more than once"), N_("NAME=N") },
    { "have", 0, 0, G_OPTION_ARG_STRING_ARRAY, &have,
      N_("What is in stock already; may be given more than once"), N_("NAME=AMOUNT UNIT") },
    { "service", 0, 0, G_OPTION_ARG_STRING, &service,
      N_("Covers and stock as the book has them for that service"), N_("DATE/NAME") },
    { "on", 0, 0, G_OPTION_ARG_STRING, &on,
      N_("Prices of that day; the service’s day, or today, by default"), N_("DATE") },
    { "json", 0, 0, G_OPTION_ARG_NONE, &output.is_json, N_("Print unrounded figures as JSON"), NULL },
    { "orders", 0, 0, G_OPTION_ARG_NONE, &output.orders_alone,
      N_("Print only the orders, one text per supplier"), NULL },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output.path,
      N_("Write the sheets of the service: what to make, and the orders"), N_("FILE.xlsx") },
    { "language", 0, 0, G_OPTION_ARG_STRING, &output.language,
      N_("Language of the sheets; en by default"), N_("CODE") },
    { NULL },
  };
  CroPlanning planning = { .date = cro_here_today () };
  CroCliStatus status;

  if (!cro_cli_parse ("plan", "BOOK", _("Plan a service: what to make and buy."), entries, &argc,
                      &argv, &status))
    return status;
  if ((service != NULL) == (covers != NULL) || (service != NULL && have != NULL))
    {
      g_printerr (_("either --covers (with or without --have) or --service is needed\n"));
      return CRO_CLI_REFUSED;
    }
  status = CRO_CLI_REFUSED;
  if (!is_sound (&output, argv[1]))
    return status;
  if (service == NULL || read_service (&planning, service))
    {
      planning.date = service != NULL ? planning.day : planning.date;
      if (cro_cli_read_date (on, &planning.date))
        status = plan_book (&planning, argv[1], covers, have, &output);
    }
  clear (&planning);
  return status;
}
