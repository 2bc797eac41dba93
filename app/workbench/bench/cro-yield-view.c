#include "config.h"

#include "cro-yield-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-entry-form.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-plot.h"
#include "cro-read-only.h"
#include "cro-row-grid.h"
#include "cro-words.h"
#include "cro-wrap.h"
#include "cro-yield-test.h"
#include "cro-yield-words.h"

struct _CroYieldView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *plot;
  GtkWidget *summary;
  GtkWidget *take_over;
  GtkWidget *form;
  GtkWidget *purchased;
  GtkWidget *usable;
  GtkWidget *date;
  GtkWidget *grid;

  CroBench  *bench;       /* borrowed */
  guint32    item;        /* that is tested */
  GArray    *outputs;     /* guint32: by-products that tests weigh, one column each */
  CroPooledYield pool;    /* of all tests, read at an edition of the book */
  guint64    edition;     /* 0: they were not read */
};

G_DEFINE_FINAL_TYPE (CroYieldView, cro_yield_view, GTK_TYPE_WIDGET)

enum
{
  DATE,
  PURCHASED,
  USABLE,
  YIELD,
};

static CroBook *
book_of (CroYieldView *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- By-product weights ----------------------------------------------------------------------- */

/* The row of the part need not be there yet. */
static guint32
output_of (CroInput *input)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (input), "output"));
}

static char *
dup_weight (CroInput *input,
            gpointer  unused)
{
  g_autoptr (GArray) parts = cro_yield_test_parts_new (cro_input_get_book (input),
                                                       cro_input_get_id (input), NULL);

  for (guint i = 0; parts != NULL && i < parts->len; i++)
    if (g_array_index (parts, CroYieldTestPart, i).output == output_of (input))
      return cro_words_decimal (g_array_index (parts, CroYieldTestPart, i).weight);
  return g_strdup ("");
}

static gboolean
keep_weight (CroInput       *input,
             const CroCell  *cell,
             gpointer        unused,
             GError        **error)
{
  return cro_yield_test_set_part (cro_input_get_book (input), cro_input_get_act (input),
                                  cro_input_get_id (input), output_of (input), cell->integer, error);
}

static const CroInputWay weight_way = { dup_weight, cro_input_preview_nothing, keep_weight, FALSE, NULL };

/* --- Rows ------------------------------------------------------------------------------------- */

static void
remove_cb (CroYieldView *self,
           gint64        id)
{
  g_autofree char *label = cro_bench_dup_label (self->bench, _("removal of a yield test"));
  g_autoptr (GError) error = NULL;

  if (!cro_yield_test_remove (book_of (self), label, id, &error))
    cro_bench_fail (self->bench, error);
}

static void
add_weight (CroYieldView *self,
            guint32       output)
{
  GtkWidget *input = cro_row_grid_add_input (CRO_ROW_GRID (self->grid), CRO_INPUT_NUMBER,
                                             CRO_RANGE_AT_LEAST_0, 7, "id");

  g_object_set_data (G_OBJECT (input), "output", GUINT_TO_POINTER (output));
  cro_input_set_way (CRO_INPUT (input), &weight_way, NULL);
  cro_input_set_unit (CRO_INPUT (input), CRO_UNIT_G);
}

static void
add_cells (CroYieldView *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  GtkWidget *bought, *usable;

  cro_row_grid_add_input (grid, CRO_INPUT_DATE, CRO_RANGE_ANY, cro_date_chars (), "date");
  bought = cro_row_grid_add_input (grid, CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 7,
                                   "purchased_g_micro");
  usable = cro_row_grid_add_input (grid, CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 7,
                                   "usable_g_micro");
  cro_input_set_unit (CRO_INPUT (bought), CRO_UNIT_G);
  cro_input_set_unit (CRO_INPUT (usable), CRO_UNIT_G);
  cro_row_grid_add_label (grid, TRUE);
  for (guint i = 0; i < self->outputs->len; i++)
    add_weight (self, g_array_index (self->outputs, guint32, i));
  cro_row_grid_add_input (grid, CRO_INPUT_TEXT, CRO_RANGE_ANY, 15, "test");
  cro_row_grid_add_input (grid, CRO_INPUT_TEXT, CRO_RANGE_ANY, 18, "note");
  cro_row_grid_add_removal (grid);
}

static void
name_cell (CroYieldView *self,
           guint         column,
           const char   *of_what,
           const char   *test)
{
  g_autofree char *label = cro_act_dup_label (of_what, test);

  cro_row_grid_name (CRO_ROW_GRID (self->grid), column, label, label);
}

static void
name_cells (CroYieldView *self,
            const char   *test)
{
  guint n = self->outputs->len;
  /* Translators: %s is a yield test. */
  g_autofree char *removal = cro_isolate_printf (_("Remove %s"), test);

  name_cell (self, DATE, _("date"), test);
  name_cell (self, PURCHASED, _("weight as bought"), test);
  name_cell (self, USABLE, _("usable weight"), test);
  for (guint i = 0; i < n; i++)
    name_cell (self, YIELD + 1 + i,
               cro_model_item (cro_book_get_model (book_of (self)),
                               g_array_index (self->outputs, guint32, i))->name,
               test);
  name_cell (self, YIELD + 1 + n, _("name"), test);
  name_cell (self, YIELD + 2 + n, _("note"), test);
  cro_row_grid_name (CRO_ROW_GRID (self->grid), YIELD + 3 + n, NULL, removal);
}

static void
add_heads (CroYieldView *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);

  cro_row_grid_add_head (grid, _("tested"), FALSE);
  cro_row_grid_add_head (grid, _("as bought, g"), TRUE);
  cro_row_grid_add_head (grid, _("usable, g"), TRUE);
  cro_row_grid_add_head (grid, _("usable part"), TRUE);
  for (guint i = 0; i < self->outputs->len; i++)
    {
      guint32 output = g_array_index (self->outputs, guint32, i);
      /* Translators: what is weighed in grams. */
      g_autofree char *head = cro_isolate_printf (
          _("%s, g"), cro_model_item (cro_book_get_model (book_of (self)), output)->name);

      cro_row_grid_add_head (grid, head, TRUE);
    }
  cro_row_grid_add_head (grid, _("name"), FALSE);
  cro_row_grid_add_head (grid, _("note"), FALSE);
}

/* By-products are columns: others, or other names of theirs, are other heads. */
static char *
dup_key (CroYieldView *self)
{
  GString *key = g_string_new (NULL);

  for (guint i = 0; i < self->outputs->len; i++)
    {
      guint32 output = g_array_index (self->outputs, guint32, i);

      g_string_append_printf (key, "%u %s\n", output,
                              cro_model_item (cro_book_get_model (book_of (self)), output)->name);
    }
  return g_string_free (key, FALSE);
}

static void
show_rows (CroYieldView *self,
           GArray       *tests)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  g_autofree char *key = dup_key (self);

  cro_row_grid_begin (grid);
  if (cro_row_grid_begin_heads (grid, key))
    add_heads (self);
  for (guint i = 0; i < tests->len; i++)
    {
      const CroYieldTest *test = &g_array_index (tests, CroYieldTest, i);

      if (cro_row_grid_add_row (grid, test->id))
        add_cells (self);
      if (cro_row_grid_rename_row (grid, test->name))
        name_cells (self, test->name);
    }
  cro_row_grid_end (grid);
  cro_row_grid_refresh (grid);
}

/* --- What they come to ------------------------------------------------------------------------ */

static double
yield_of (const CroYieldTest *test)
{
  return test->purchased > 0 ? 100 * (double) test->usable / (double) test->purchased : NAN;
}

static gboolean
is_of_batch (CroYieldView *self)
{
  return cro_bench_get_ref (self->bench).kind == CRO_REF_RECIPE;
}

static char *
dup_summary (CroYieldView   *self,
             CroPooledYield  pool)
{
  g_autofree char *yield = cro_number_to_text (pool.yield * 100, 2, TRUE);
  g_autofree char *error = cro_number_to_text (pool.error * 100, 2, TRUE);

  if (pool.n == 0)
    return g_strdup (is_of_batch (self) ? _("No cutting test entered yet.")
                                        : _("No yield test entered yet."));
  if (pool.n == 1)
    /* Translators: %s is a percentage. */
    return g_strdup_printf (_("One test: %s %% usable."), yield);
  /* Translators: a number of tests; a percentage; its standard error. */
  return g_strdup_printf (_("%u tests: %s %% usable, standard error %s."),
                          (guint) pool.n, yield, error);
}

/* A yield that is being typed may be what the tests come to. */
static void
show_take_over (CroYieldView *self)
{
  gint32 now = cro_book_get_model (book_of (self))->measures[self->item].trim_yield;
  CroPooledYield pool = self->pool;
  gint64 rounded;

  gtk_widget_set_visible (self->take_over, pool.n > 0 && pool.yield > 0);
  gtk_widget_set_sensitive (self->take_over,
                            !cro_book_is_past (book_of (self), NULL)
                                && (is_of_batch (self)
                                    || (pool.n > 0
                                        && cro_decimal_from_double (pool.yield * 100, &rounded)
                                        && rounded != now)));
}

/* Tests as points, and what they come to together as a line across: of one there is nothing to
 * compare. */
static void
show_plot (CroYieldView   *self,
           GArray         *tests,
           CroPooledYield  pool,
           const char     *summary)
{
  g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (CroPlotValue));
  g_autofree char *low = NULL, *high = NULL;
  double least, most;

  for (guint i = tests->len; i-- > 0;)
    {
      const CroYieldTest *test = &g_array_index (tests, CroYieldTest, i);
      CroPlotValue value = { 0, test->date, yield_of (test) };

      if (!isnan (value.value))
        g_array_append_val (values, value);
    }
  cro_plot_set (CRO_PLOT (self->plot), (const CroPlotValue *) values->data,
                values->len > 1 ? values->len : 0, G_MININT32, pool.yield * 100);
  cro_plot_get_range (CRO_PLOT (self->plot), &least, &most);
  low = cro_words_pct (least);
  high = cro_words_pct (most);
  cro_plot_tell (CRO_PLOT (self->plot), low, high, summary);
}

/* Trimming is one loss of the ingredient; a batch gives all its outputs by their parts. */
static gboolean
take_over (CroYieldView  *self,
           const char    *label,
           GError       **error)
{
  CroBook *book = book_of (self);
  gint64 micro;
  CroCell cell;

  if (is_of_batch (self))
    return cro_yield_test_set_outputs (book, label, cro_bench_get_slot (self->bench), self->item,
                                       error);
  if (!cro_decimal_from_double (self->pool.yield * 100, &micro))
    return TRUE;
  cell = CRO_CELL_INT (micro);
  return cro_book_set (book, label, "ingredient",
                       cro_model_item (cro_book_get_model (book), self->item)->id,
                       "trim_yield_pct_micro", &cell, error);
}

static void
take_over_cb (CroYieldView *self)
{
  g_autofree char *label = cro_bench_dup_label (self->bench, is_of_batch (self)
                                                                 ? _("yields by tests")
                                                                 : _("trim yield by tests"));
  g_autoptr (GError) error = NULL;

  gtk_widget_grab_focus (self->purchased);
  if (!take_over (self, label, &error))
    cro_bench_fail (self->bench, error);
}

/* --- A new test ------------------------------------------------------------------------------- */

typedef struct
{
  gint64  purchased;
  gint64  usable;
  CroDate date;
} NewTest;

/* question: what to type where nothing is. */
static gboolean
refuse (CroYieldView   *self,
        GtkWidget      *entry,
        const CroEntry *read,
        const char     *question)
{
  g_autofree char *reason = cro_words_entry_reason (cro_entry_form_text (entry), read);

  return cro_entry_form_refuse (CRO_ENTRY_FORM (self->form), entry, reason != NULL ? reason : question);
}

static gboolean
read_form (CroYieldView *self,
           NewTest      *test)
{
  CroEntryForm *form = CRO_ENTRY_FORM (self->form);
  g_auto (CroEntry) purchased = { 0 }, usable = { 0 };

  cro_entry_form_accept (form);
  if (!cro_entry_amount (cro_entry_form_text (self->purchased), CRO_UNIT_G, CRO_RANGE_ABOVE_0,
                         cro_words_entry (), &purchased))
    return refuse (self, self->purchased, &purchased, _("What did it weigh as bought?"));
  if (!cro_entry_amount (cro_entry_form_text (self->usable), CRO_UNIT_G, CRO_RANGE_AT_LEAST_0,
                         cro_words_entry (), &usable))
    return refuse (self, self->usable, &usable, _("What was usable of it?"));
  test->purchased = purchased.micro;
  test->usable = usable.micro;
  test->date = cro_book_get_figures (book_of (self))->date;
  return cro_entry_form_date (form, self->date, &test->date);
}

/* A bare number is of grams, which is said. */
static void
say_kept (CroYieldView  *self,
          const NewTest *test)
{
  g_autofree char *bought = cro_words_amount (CRO_BASE_GRAM, cro_decimal_to_double (test->purchased));
  g_autofree char *usable = cro_words_amount (CRO_BASE_GRAM, cro_decimal_to_double (test->usable));
  /* Translators: two weights. */
  g_autofree char *says = g_strdup_printf (_("Test kept: %s bought, %s usable"), bought, usable);

  cro_bench_say (self->bench, says);
}

static void
add_cb (CroYieldView *self)
{
  CroBook *book = book_of (self);
  const char *item = cro_model_item (cro_book_get_model (book), self->item)->name;
  g_autofree char *label = cro_bench_dup_label (self->bench, _("yield test"));
  g_autofree char *name = NULL;
  g_autoptr (GError) error = NULL;
  char iso[CRO_DATE_CHARS];
  NewTest test;

  if (!read_form (self, &test))
    return;
  cro_date_format (test.date, iso);
  name = g_strdup_printf ("%s %s", item, iso);
  if (!cro_yield_test_add (book, label, self->item, name, test.date, test.purchased, test.usable,
                           &error))
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  say_kept (self, &test);
  cro_entry_form_clear (CRO_ENTRY_FORM (self->form));
  gtk_widget_grab_focus (self->purchased);
}

/* --- Showing ---------------------------------------------------------------------------------- */

static void
refresh_rows (CroYieldView *self,
              GArray       *tests)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);

  show_rows (self, tests);
  for (guint i = 0; i < tests->len; i++)
    {
      g_autofree char *yield = cro_words_pct (yield_of (&g_array_index (tests, CroYieldTest, i)));

      cro_row_grid_set_text (grid, i, YIELD, yield);
    }
}

void
cro_yield_view_refresh (CroYieldView *self)
{
  g_autofree char *today = cro_date_to_text (cro_book_get_figures (book_of (self))->date);
  g_autofree char *summary = NULL, *question = NULL, *shown = NULL;
  g_autoptr (GArray) tests = NULL;
  GArray *outputs;

  if (self->edition == cro_book_get_edition (book_of (self)))
    {
      show_take_over (self);
      return;
    }
  self->edition = cro_book_get_edition (book_of (self));
  tests = cro_yield_tests_new (book_of (self), self->item, NULL);
  outputs = tests != NULL ? cro_yield_test_outputs (book_of (self), self->item, tests, NULL) : NULL;
  if (outputs == NULL)
    return;
  g_array_unref (self->outputs);
  self->outputs = outputs;
  self->pool = cro_yield_tests_pool (tests);
  summary = dup_summary (self, self->pool);
  question = cro_words_yield_question (
      tests, cro_book_get_model (book_of (self))->measures[self->item].trim_yield > CRO_WHOLE_PCT);
  shown = question != NULL ? g_strdup_printf ("%s %s", summary, question) : g_strdup (summary);
  refresh_rows (self, tests);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->date), today);
  gtk_label_set_label (GTK_LABEL (self->summary), shown);
  show_take_over (self);
  show_plot (self, tests, self->pool, summary);
}

void
cro_yield_view_put (CroYieldView *self,
                    guint32       item)
{
  self->item = item;
  self->edition = 0;
  cro_entry_form_clear (CRO_ENTRY_FORM (self->form));
  cro_read_only_show (self->form, book_of (self));
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
make_form (CroYieldView *self)
{
  g_autofree char *lot = cro_words_amount (CRO_BASE_GRAM, 5000);
  g_autofree char *part = cro_words_amount (CRO_BASE_GRAM, 1030);
  CroEntryForm *form;

  self->form = cro_entry_form_new (_("Enter Test"));
  form = CRO_ENTRY_FORM (self->form);
  self->purchased = cro_entry_form_add (form, _("Weighed as bought"), _("Weighed as bought"), 10,
                                        lot);
  self->usable = cro_entry_form_add (form, _("Usable"), _("Usable"), 10, part);
  self->date = cro_entry_form_add (form, _("Tested on"), _("Tested on"), cro_date_chars (), NULL);
  g_signal_connect_object (self->form, "entered", G_CALLBACK (add_cb), self, G_CONNECT_SWAPPED);
}

static void
cro_yield_view_dispose (GObject *object)
{
  CroYieldView *self = CRO_YIELD_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->outputs, g_array_unref);
  G_OBJECT_CLASS (cro_yield_view_parent_class)->dispose (object);
}

static void
cro_yield_view_class_init (CroYieldViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_yield_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_yield_view_init (CroYieldView *self)
{
  self->outputs = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->item = CRO_NO_SLOT;
  self->pool.yield = NAN;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_yield_view_new (CroBench *bench)
{
  CroYieldView *self = g_object_new (CRO_TYPE_YIELD_VIEW, NULL);
  GtkWidget *over = cro_wrap_new (18, 6), *beside = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  GtkWidget *said = cro_wrap_new (12, 6);

  self->bench = bench;
  self->plot = cro_plot_new (CRO_PLOT_POINTS);
  self->summary = cro_text_new (NULL, NULL);
  self->take_over = gtk_button_new_with_label (_("Use This Yield"));
  g_signal_connect_object (self->take_over, "clicked", G_CALLBACK (take_over_cb), self,
                           G_CONNECT_SWAPPED);
  make_form (self);
  self->grid = cro_row_grid_new (bench, "yield_test", self->date);
  g_signal_connect_object (self->grid, "remove", G_CALLBACK (remove_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (said), self->summary);
  cro_wrap_append (CRO_WRAP (said), self->take_over);
  gtk_box_append (GTK_BOX (beside), said);
  gtk_box_append (GTK_BOX (beside), self->form);
  cro_wrap_append (CRO_WRAP (over), self->plot);
  cro_wrap_append (CRO_WRAP (over), beside);
  gtk_box_append (GTK_BOX (self->box), over);
  gtk_box_append (GTK_BOX (self->box), self->grid);
  return GTK_WIDGET (self);
}
