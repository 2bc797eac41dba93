#include "cro-workbook.h"

#include <math.h>
#include <string.h>

#include "cro-defined-name.h"
#include "cro-package-close.h"
#include "cro-whole-file.h"
#include "cro-workbook-private.h"

G_DEFINE_QUARK (cro-workbook-error-quark, cro_workbook_error)

/* --- Sheets ---------------------------------------------------------------------------------------- */

static void
name_sheet (CroWorkbook *self,
            CroPen      *pen,
            const char  *wanted)
{
  pen->workbook = self;
  pen->name = cro_sheet_names_take (self->names, wanted);
  pen->quoted = cro_sheet_name_quote (pen->name);
  pen->row = 1;
}

static void
name_report (CroWorkbook *self)
{
  const CroWorkbookReport *report = self->source->report;

  self->n_report = report != NULL ? report->n_sheets : 0;
  self->report = g_new0 (CroPen, self->n_report + 1);
  for (guint i = 0; i < self->n_report; i++)
    name_sheet (self, &self->report[i], report->sheets[i].name);
}

static void
name_cards (CroWorkbook *self)
{
  const CroWorkbookSource *source = self->source;

  self->n_cards = source->n_plates <= CRO_WORKBOOK_MOST_CARDS ? source->n_plates : 1;
  self->cards = g_new0 (CroPen, self->n_cards + 1);
  for (guint i = 0; i < self->n_cards; i++)
    {
      CroWorkbookPlate plate = { .name = cro_workbook_text (self, CRO_WT_CARDS) };

      if (self->n_cards == source->n_plates)
        source->get_plate (source->data, i, &plate);
      name_sheet (self, &self->cards[i], plate.name);
    }
}

static void
add_sheet (CroWorkbook *self,
           CroPen      *pen)
{
  pen->sheet = cro_package_add_sheet (self->book, pen->name, pen->quoted);
  self->failed |= pen->sheet == NULL;
}

/* In the order of their tabs. Names of fixed sheets are taken first, whatever plates are called. */
static void
add_sheets (CroWorkbook *self)
{
  const struct { CroPen *pen; CroWorkbookTextId name; } fixed[] = {
    { &self->summary, CRO_WT_SUMMARY },         { &self->preparations, CRO_WT_PREPARATIONS },
    { &self->ingredients, CRO_WT_INGREDIENTS }, { &self->prices, CRO_WT_PRICES },
    { &self->units, CRO_WT_UNITS },             { &self->totals, CRO_WT_TOTALS },
    { &self->notes, CRO_WT_NOTES },
  };

  for (guint i = 0; i < G_N_ELEMENTS (fixed); i++)
    name_sheet (self, fixed[i].pen, cro_workbook_text (self, fixed[i].name));
  name_report (self);
  name_cards (self);
  for (guint i = 0; i < self->n_report; i++)
    add_sheet (self, &self->report[i]);
  add_sheet (self, &self->summary);
  for (guint i = 0; i < self->n_cards; i++)
    add_sheet (self, &self->cards[i]);
  for (guint i = 1; i < G_N_ELEMENTS (fixed); i++)
    add_sheet (self, fixed[i].pen);
}

/* --- Names of cells ----------------------------------------------------------------------------------- */

typedef struct
{
  char     *name;
  CroPlace  place;
} Named;

typedef struct
{
  GArray     *names;     /* Named */
  GHashTable *taken;     /* folded */
} Naming;

static void
take_name (Naming     *naming,
           const char *prefix,
           const char *name,
           CroPlace    place)
{
  Named named = { cro_defined_name_make (prefix, name), place };
  char *folded = g_utf8_casefold (named.name, -1);

  if (g_hash_table_contains (naming->taken, folded))
    {
      g_free (named.name);
      g_free (folded);
      named.name = cro_defined_name_mark (prefix, name);
      folded = g_utf8_casefold (named.name, -1);
    }
  g_hash_table_add (naming->taken, folded);
  g_array_append_val (naming->names, named);
}

static void
clear_named (gpointer data)
{
  g_free (((Named *) data)->name);
}

/* From the last to the first: the library puts each before those that follow it. */
static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  return -g_ascii_strcasecmp (((const Named *) a)->name, ((const Named *) b)->name);
}

static void
name_settings (CroWorkbook *self,
               Naming      *naming)
{
  const struct { const char *name; guint32 row; } settings[] = {
    { "wage_per_hour", CRO_ROW_WAGE }, { "book_tax", CRO_ROW_TAX },
    { "book_target", CRO_ROW_TARGET },
  };

  for (guint i = 0; i < G_N_ELEMENTS (settings); i++)
    {
      Named named = { g_strdup (settings[i].name),
                      { self->summary.quoted, "B", settings[i].row } };

      g_array_append_val (naming->names, named);
    }
}

static void
name_things (CroWorkbook *self,
             Naming      *naming)
{
  const CroWorkbookSource *source = self->source;

  for (guint32 i = 0; i < source->n_plates && i < CRO_WORKBOOK_MOST_NAMED; i++)
    {
      CroWorkbookPlate plate;

      source->get_plate (source->data, i, &plate);
      take_name (naming, "bite", plate.name,
                 cro_workbook_card_place (self, i, "I", CRO_CARD_BITE));
      take_name (naming, "guest", plate.name,
                 cro_workbook_card_place (self, i, "I", CRO_CARD_GUEST));
      take_name (naming, "food_cost_pct", plate.name,
                 cro_workbook_is_turned (self)
                     ? (CroPlace){ self->summary.quoted, "X", CRO_ROW_FIRST_PLATE + i }
                     : cro_workbook_card_place (self, i, "I", CRO_CARD_FOOD_COST_PCT));
    }
  for (guint32 i = 0; i < source->n_menus && source->n_plates + i < CRO_WORKBOOK_MOST_NAMED; i++)
    {
      CroWorkbookMenu menu;
      CroPlace guest = { self->summary.quoted, "D", self->menu_row[i] };
      CroPlace pct = { self->summary.quoted, cro_workbook_is_turned (self) ? "X" : "K",
                       self->menu_row[i] };

      source->get_menu (source->data, i, &menu);
      take_name (naming, "guest", menu.name, guest);
      take_name (naming, "food_cost_pct", menu.name, pct);
    }
}

static void
define_names (CroWorkbook *self)
{
  Naming naming = { g_array_new (FALSE, FALSE, sizeof (Named)),
                    g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL) };

  g_array_set_clear_func (naming.names, clear_named);
  name_settings (self, &naming);
  name_things (self, &naming);
  g_array_sort (naming.names, compare_names);
  for (guint i = 0; i < naming.names->len; i++)
    {
      const Named *named = &g_array_index (naming.names, Named, i);

      workbook_define_name (self->book, named->name,
                            cro_formula_set_place (&self->formula, &named->place));
    }
  g_array_unref (naming.names);
  g_hash_table_unref (naming.taken);
}

/* --- The file ------------------------------------------------------------------------------------------ */

static void
set_properties (CroWorkbook *self)
{
  const CroWorkbookBook *book = &self->source->book;
  char date[CRO_DATE_CHARS];
  g_autofree char *subject = NULL;
  lxw_doc_properties properties = {
    .title = (char *) book->name,
    .company = (char *) book->name,
    .created = (time_t) book->created,
  };

  cro_date_format (book->date, date);
  subject = g_strdup_printf ("%s %s", cro_workbook_text (self, CRO_WT_SUBJECT), date);
  properties.subject = subject;
  workbook_set_properties (self->book, &properties);
}

static void
write_sheets (CroWorkbook *self)
{
  self->all_tie = cro_workbook_all_tie (self);
  cro_workbook_write_report (self);
  cro_workbook_write_units (self);
  cro_workbook_write_prices (self);
  cro_workbook_write_ingredients (self);
  cro_workbook_write_summary (self);
  cro_workbook_write_cards (self);
  cro_workbook_write_preparations (self);
  cro_workbook_write_totals (self);
  cro_workbook_write_notes (self);
  define_names (self);
  set_properties (self);
  worksheet_activate (self->n_report > 0 ? self->report[0].sheet : self->summary.sheet);
}

static gboolean
fail (GError               **error,
      CroWorkbookErrorCode   code,
      const char            *message)
{
  g_set_error_literal (error, CRO_WORKBOOK_ERROR, code, message);
  return FALSE;
}

static gboolean
go_on (CroWorkbook *self,
       double       done)
{
  const CroWorkbookSource *source = self->source;

  if (source->go_on != NULL && !source->go_on (source->data, done))
    self->is_cancelled = TRUE;
  return !self->is_cancelled;
}

static gboolean
pack (CroWorkbook  *self,
      const char   *path,
      GError      **error)
{
  if (!cro_package_close (g_steal_pointer (&self->book), path, error))
    return FALSE;
  return go_on (self, 1) || fail (error, CRO_WORKBOOK_ERROR_CANCELLED, "cancelled");
}

static gboolean
write_into (CroWorkbook  *self,
            const char   *path,
            GError      **error)
{
  lxw_workbook_options options = { .constant_memory = LXW_TRUE };

  self->book = workbook_new_opt (path, &options);
  if (self->book == NULL)
    return fail (error, CRO_WORKBOOK_ERROR_SYSTEM, lxw_strerror (LXW_ERROR_MEMORY_MALLOC_FAILED));
  cro_workbook_make_styles (self->book, self->source, self->texts, self->styles);
  add_sheets (self);
  if (self->failed)
    return fail (error, CRO_WORKBOOK_ERROR_SYSTEM, lxw_strerror (LXW_ERROR_CREATING_TMPFILE));
  if (!cro_workbook_plan (self, error))
    return FALSE;
  write_sheets (self);
  if (!go_on (self, 0.5))
    return fail (error, CRO_WORKBOOK_ERROR_CANCELLED, "cancelled");
  return pack (self, path, error);
}

static void
clear_pen (CroPen *pen)
{
  g_free (pen->quoted);
}

static void
clear (CroWorkbook *self)
{
  CroPen *pens[] = { &self->summary, &self->preparations, &self->ingredients, &self->prices,
                     &self->units,   &self->totals,       &self->notes };

  if (self->book != NULL)
    lxw_workbook_free (self->book);
  for (guint i = 0; i < G_N_ELEMENTS (pens); i++)
    clear_pen (pens[i]);
  for (guint i = 0; i < self->n_cards; i++)
    clear_pen (&self->cards[i]);
  for (guint i = 0; i < self->n_report; i++)
    clear_pen (&self->report[i]);
  g_free (self->report);
  g_free (self->cards);
  cro_sheet_names_free (self->names);
  g_free (self->item_row);
  g_free (self->batch_row);
  g_free (self->card);
  g_free (self->menu_row);
  g_free (self->is_carried);
}

gboolean
cro_workbook_write (const char               *path,
                    const CroWorkbookSource  *source,
                    const char *const        *texts,
                    GError                  **error)
{
  CroWorkbook self = { .source = source, .texts = texts, .names = cro_sheet_names_new () };
  locale_t before;
  locale_t plain = cro_package_enter_numbers (&before);
  g_autoptr (CroWholeFile) file = cro_whole_file_new (path, error);
  gboolean done = file != NULL && write_into (&self, cro_whole_file_get_path (file), error)
                  && cro_whole_file_finish (file, error);

  clear (&self);
  cro_package_leave_numbers (plain, before);
  return done;
}
