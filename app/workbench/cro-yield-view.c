#include "config.h"

#include "cro-yield-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-number.h"
#include "cro-words.h"
#include "cro-wrap.h"
#include "cro-yield-test.h"

typedef struct
{
  gint64     id;
  GPtrArray *inputs;      /* borrowed */
  GtkWidget *yield;
} Row;

struct _CroYieldView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *summary;
  GtkWidget *take_over;
  GtkWidget *purchased;
  GtkWidget *usable;
  GtkWidget *date;
  GtkWidget *reason;
  GtkWidget *grid;

  CroBench  *bench;       /* borrowed */
  GArray    *rows;        /* Row */
  GArray    *outputs;     /* guint32: by-products that tests weigh, one column each */
  double     pooled;      /* NaN: no tests */
};

G_DEFINE_FINAL_TYPE (CroYieldView, cro_yield_view, GTK_TYPE_WIDGET)

enum
{
  DATE,
  PURCHASED,
  USABLE,
  YIELD,
  FIRST_PART,
};

static CroBook *
book_of (CroYieldView *self)
{
  return cro_bench_get_book (self->bench);
}

static void
clear_row (gpointer row)
{
  g_ptr_array_unref (((Row *) row)->inputs);
}

/* --- By-product weights ----------------------------------------------------------------------- */

/* The test and the output that a field of a weight stands for: the row of the part need not be
 * there yet. */
typedef struct
{
  CroYieldView *view;
  gint64        test;
  guint32       output;
} Weight;

static char *
dup_weight (CroInput *input,
            gpointer  owner)
{
  const Weight *weight = owner;
  g_autoptr (GArray) parts = cro_yield_test_parts_new (book_of (weight->view), weight->test, NULL);

  for (guint i = 0; parts != NULL && i < parts->len; i++)
    if (g_array_index (parts, CroYieldTestPart, i).output == weight->output)
      return cro_words_decimal (g_array_index (parts, CroYieldTestPart, i).weight);
  return g_strdup ("");
}

static gboolean
preview_weight (CroInput       *input,
                const CroCell  *cell,
                gpointer        owner,
                GError        **error)
{
  return TRUE;
}

static gboolean
keep_weight (CroInput       *input,
             const CroCell  *cell,
             gpointer        owner,
             GError        **error)
{
  const Weight *weight = owner;

  return cro_yield_test_set_part (book_of (weight->view), cro_input_get_act (input), weight->test,
                                  weight->output, cell->integer, error);
}

static const CroInputWay weight_way = { dup_weight, preview_weight, keep_weight };

/* --- Rows ------------------------------------------------------------------------------------- */

static void
remove_cb (CroYieldView *self,
           GtkWidget    *button)
{
  g_autofree char *label = cro_bench_dup_label (self->bench, _("removal of a yield test"));
  gint64 *id = g_object_get_data (G_OBJECT (button), "test");
  g_autoptr (GError) error = NULL;

  gtk_widget_grab_focus (self->purchased);
  if (!cro_yield_test_remove (book_of (self), label, *id, &error))
    cro_bench_fail (self->bench, error);
}

static GtkWidget *
attach_input (CroYieldView *self,
              int           column,
              int           row,
              gint64        id,
              CroInputKind  kind,
              int           width,
              const char   *store_column,
              const char   *of_what,
              const char   *test)
{
  g_autofree char *label = cro_act_dup_label (of_what, test);
  GtkWidget *input = cro_input_new (kind, CRO_RANGE_AT_LEAST_0, label);

  cro_input_set_width (CRO_INPUT (input), width);
  cro_input_bind (CRO_INPUT (input), book_of (self), "yield_test", id, store_column, label, NULL);
  gtk_grid_attach (GTK_GRID (self->grid), input, column, row, 1, 1);
  return input;
}

static GtkWidget *
attach_weight (CroYieldView       *self,
               int                 column,
               int                 row,
               const CroYieldTest *test,
               guint32             output)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *label = cro_act_dup_label (cro_model_item (model, output)->name, test->name);
  Weight *weight = g_new (Weight, 1);
  GtkWidget *input = cro_input_new (CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, label);

  *weight = (Weight){ self, test->id, output };
  g_object_set_data_full (G_OBJECT (input), "weight", weight, g_free);
  cro_input_set_way (CRO_INPUT (input), &weight_way, weight);
  cro_input_set_width (CRO_INPUT (input), 7);
  cro_input_bind (CRO_INPUT (input), book_of (self), "yield_test_part", test->id, "weight_g_micro",
                  label, NULL);
  gtk_grid_attach (GTK_GRID (self->grid), input, column, row, 1, 1);
  return input;
}

static void
add_row (CroYieldView       *self,
         int                 at,
         const CroYieldTest *test)
{
  int last = FIRST_PART + (int) self->outputs->len;
  /* Translators: %s is a yield test. */
  g_autofree char *removal = g_strdup_printf (_("Remove %s"), test->name);
  GtkWidget *button = cro_icon_button_new ("edit-delete-symbolic", removal);
  Row row = { .id = test->id, .inputs = g_ptr_array_new (), .yield = cro_number_label_new () };

  g_ptr_array_add (row.inputs, attach_input (self, DATE, at, test->id, CRO_INPUT_DATE, 12, "date",
                                             _("date"), test->name));
  g_ptr_array_add (row.inputs, attach_input (self, PURCHASED, at, test->id, CRO_INPUT_NUMBER, 7,
                                             "purchased_g_micro", _("weight as bought"),
                                             test->name));
  g_ptr_array_add (row.inputs, attach_input (self, USABLE, at, test->id, CRO_INPUT_NUMBER, 7,
                                             "usable_g_micro", _("usable weight"), test->name));
  gtk_grid_attach (GTK_GRID (self->grid), row.yield, YIELD, at, 1, 1);
  for (guint i = 0; i < self->outputs->len; i++)
    g_ptr_array_add (row.inputs,
                     attach_weight (self, FIRST_PART + (int) i, at, test,
                                    g_array_index (self->outputs, guint32, i)));
  g_ptr_array_add (row.inputs, attach_input (self, last, at, test->id, CRO_INPUT_TEXT, 18, "note",
                                             _("note"), test->name));
  g_object_set_data_full (G_OBJECT (button), "test", g_memdup2 (&test->id, sizeof test->id),
                          g_free);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (remove_cb), self);
  gtk_grid_attach (GTK_GRID (self->grid), button, last + 1, at, 1, 1);
  g_array_append_val (self->rows, row);
}

static void
attach_head (CroYieldView *self,
             int           column,
             const char   *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), column >= PURCHASED ? 1 : 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 16);
  gtk_widget_add_css_class (label, "caption");
  gtk_widget_add_css_class (label, "dim-label");
  gtk_grid_attach (GTK_GRID (self->grid), label, column, 0, 1, 1);
}

static void
rebuild (CroYieldView *self,
         GArray       *tests)
{
  CroModel *model = cro_book_get_model (book_of (self));

  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->grid)) != NULL;)
    gtk_grid_remove (GTK_GRID (self->grid), child);
  g_array_set_size (self->rows, 0);
  if (tests->len == 0)
    return;
  attach_head (self, DATE, _("tested"));
  attach_head (self, PURCHASED, _("as bought, g"));
  attach_head (self, USABLE, _("usable, g"));
  attach_head (self, YIELD, _("yield"));
  for (guint i = 0; i < self->outputs->len; i++)
    {
      const char *name = cro_model_item (model, g_array_index (self->outputs, guint32, i))->name;
      g_autofree char *head = g_strdup_printf ("%s, g", name);

      attach_head (self, FIRST_PART + (int) i, head);
    }
  for (guint i = 0; i < tests->len; i++)
    add_row (self, (int) i + 1, &g_array_index (tests, CroYieldTest, i));
}

/* --- What they come to ------------------------------------------------------------------------ */

static void
show_summary (CroYieldView *self,
              GArray       *tests)
{
  CroPooledYield pool = cro_yield_tests_pool (tests);
  gint32 now = cro_book_get_model (book_of (self))->measures[cro_bench_get_slot (self->bench)]
                   .trim_yield;
  g_autofree char *yield = cro_number_to_text (pool.yield * 100, 2, TRUE);
  g_autofree char *error = cro_number_to_text (pool.error * 100, 2, TRUE);
  g_autofree char *text = NULL;
  gint64 rounded;

  self->pooled = pool.yield;
  if (pool.n == 0)
    text = g_strdup (_("No test stands behind the trim yield yet."));
  else if (pool.n == 1)
    /* Translators: %s is a percentage. */
    text = g_strdup_printf (_("One test: %s %% of what was bought is usable."), yield);
  else
    /* Translators: a number of tests; a percentage; its standard error. */
    text = g_strdup_printf (_("%u tests: together %s %% of what was bought is usable, "
                              "standard error %s."),
                            (guint) pool.n, yield, error);
  gtk_label_set_label (GTK_LABEL (self->summary), text);
  gtk_widget_set_visible (self->take_over, pool.n > 0 && pool.yield > 0);
  gtk_widget_set_sensitive (self->take_over,
                            pool.n > 0 && cro_decimal_from_double (pool.yield * 100, &rounded)
                                && rounded != now);
}

static void
take_over_cb (CroYieldView *self)
{
  g_autofree char *label = cro_bench_dup_label (self->bench, _("trim yield by tests"));
  g_autoptr (GError) error = NULL;
  gint64 micro;
  CroCell cell;

  if (!cro_decimal_from_double (self->pooled * 100, &micro))
    return;
  cell = CRO_CELL_INT (micro);
  gtk_widget_grab_focus (self->purchased);
  if (!cro_book_set (book_of (self), label, "ingredient",
                     cro_model_item (cro_book_get_model (book_of (self)),
                                     cro_bench_get_slot (self->bench))->id,
                     "trim_yield_pct_micro", &cell, &error))
    cro_bench_fail (self->bench, error);
}

/* --- A new test ------------------------------------------------------------------------------- */

static void
refuse (CroYieldView *self,
        GtkWidget    *field,
        const char   *reason)
{
  gtk_label_set_label (GTK_LABEL (self->reason), reason);
  gtk_widget_set_visible (self->reason, TRUE);
  gtk_widget_grab_focus (field);
}

static void
add_cb (CroYieldView *self)
{
  CroBook *book = book_of (self);
  const char *name = cro_ref_name (cro_book_get_model (book), cro_bench_get_ref (self->bench));
  g_autofree char *label = cro_bench_dup_label (self->bench, _("yield test"));
  g_autofree char *test = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (CroEntry) purchased = { 0 }, usable = { 0 }, day = { 0 };
  CroDate date = cro_book_get_figures (book)->date;
  char iso[CRO_DATE_CHARS];

  gtk_widget_set_visible (self->reason, FALSE);
  if (!cro_entry_amount (gtk_editable_get_text (GTK_EDITABLE (self->purchased)), CRO_UNIT_G,
                         CRO_RANGE_ABOVE_0, cro_words_entry (), &purchased))
    {
      refuse (self, self->purchased, _("What did it weigh as bought?"));
      return;
    }
  if (!cro_entry_amount (gtk_editable_get_text (GTK_EDITABLE (self->usable)), CRO_UNIT_G,
                         CRO_RANGE_AT_LEAST_0, cro_words_entry (), &usable))
    {
      refuse (self, self->usable, _("What was usable of it?"));
      return;
    }
  if (cro_entry_date (gtk_editable_get_text (GTK_EDITABLE (self->date)), &day))
    date = day.date;
  else if (day.status != CRO_ENTRY_EMPTY)
    {
      refuse (self, self->date, _("This is not a date."));
      return;
    }
  cro_date_format (date, iso);
  test = g_strdup_printf ("%s %s", name, iso);
  if (!cro_yield_test_add (book, label, cro_bench_get_slot (self->bench), test, date,
                           purchased.micro, usable.micro, &error))
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  gtk_editable_set_text (GTK_EDITABLE (self->purchased), "");
  gtk_editable_set_text (GTK_EDITABLE (self->usable), "");
  gtk_editable_set_text (GTK_EDITABLE (self->date), "");
  gtk_widget_grab_focus (self->purchased);
}

/* --- Showing ---------------------------------------------------------------------------------- */

static gboolean
shows (CroYieldView *self,
       GArray       *tests)
{
  if (self->rows->len != tests->len)
    return FALSE;
  for (guint i = 0; i < tests->len; i++)
    if (g_array_index (self->rows, Row, i).id != g_array_index (tests, CroYieldTest, i).id)
      return FALSE;
  return TRUE;
}

static void
refresh_row (Row                *row,
             const CroYieldTest *test)
{
  g_autofree char *yield = cro_words_pct (test->purchased > 0
                                              ? 100 * (double) test->usable
                                                    / (double) test->purchased
                                              : NAN);

  for (guint i = 0; i < row->inputs->len; i++)
    cro_input_refresh (CRO_INPUT (row->inputs->pdata[i]));
  gtk_label_set_label (GTK_LABEL (row->yield), yield);
}

void
cro_yield_view_refresh (CroYieldView *self)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  g_autoptr (GArray) outputs = NULL;
  g_autoptr (GArray) tests = cro_yield_tests_new (book_of (self), cro_bench_get_slot (self->bench),
                                                  NULL);
  g_autofree char *today = cro_date_to_text (figures->date);

  if (tests == NULL)
    return;
  if (!shows (self, tests))
    {
      outputs = cro_yield_test_outputs (book_of (self), cro_bench_get_slot (self->bench), tests,
                                        NULL);
      if (outputs == NULL)
        return;
      g_array_unref (self->outputs);
      self->outputs = g_steal_pointer (&outputs);
      rebuild (self, tests);
    }
  for (guint i = 0; i < tests->len; i++)
    refresh_row (&g_array_index (self->rows, Row, i), &g_array_index (tests, CroYieldTest, i));
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->date), today);
  show_summary (self, tests);
}

void
cro_yield_view_put (CroYieldView *self)
{
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (CroYieldTest));

  rebuild (self, none);
  gtk_editable_set_text (GTK_EDITABLE (self->purchased), "");
  gtk_editable_set_text (GTK_EDITABLE (self->usable), "");
  gtk_editable_set_text (GTK_EDITABLE (self->date), "");
  gtk_widget_set_visible (self->reason, FALSE);
}

/* --- The widget ------------------------------------------------------------------------------- */

static GtkWidget *
add_entry (CroYieldView *self,
           GtkWidget    *row,
           const char   *caption,
           int           width,
           const char   *placeholder)
{
  GtkWidget *entry = cro_entry_new (caption, width);

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), placeholder);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (add_cb), self);
  cro_wrap_append (CRO_WRAP (row), cro_field_new (caption, entry));
  return entry;
}

static GtkWidget *
add_row_new (CroYieldView *self)
{
  GtkWidget *row = cro_wrap_new (9, 6);
  GtkWidget *button = gtk_button_new_with_label (_("Enter Test"));

  self->purchased = add_entry (self, row, _("Weighed as bought"), 10, _("5 kg"));
  self->usable = add_entry (self, row, _("Usable"), 10, _("1.03 kg"));
  self->date = add_entry (self, row, _("Tested on"), 12, NULL);
  gtk_widget_set_valign (button, GTK_ALIGN_END);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (add_cb), self);
  cro_wrap_append (CRO_WRAP (row), button);
  return row;
}

static void
cro_yield_view_dispose (GObject *object)
{
  CroYieldView *self = CRO_YIELD_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->rows, g_array_unref);
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
  GtkWidget *said = cro_wrap_new (12, 6);

  self->rows = g_array_new (FALSE, FALSE, sizeof (Row));
  g_array_set_clear_func (self->rows, clear_row);
  self->outputs = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->pooled = NAN;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->summary = cro_text_new (NULL, NULL);
  self->take_over = gtk_button_new_with_label (_("Take It Over"));
  g_signal_connect_swapped (self->take_over, "clicked", G_CALLBACK (take_over_cb), self);
  cro_wrap_append (CRO_WRAP (said), self->summary);
  cro_wrap_append (CRO_WRAP (said), self->take_over);
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 9);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 3);
  gtk_widget_set_halign (self->grid, GTK_ALIGN_START);
  self->reason = cro_text_new (NULL, "reason");
  gtk_widget_set_visible (self->reason, FALSE);
  gtk_box_append (GTK_BOX (self->box), said);
  gtk_box_append (GTK_BOX (self->box), cro_wide_new (self->grid));
  gtk_box_append (GTK_BOX (self->box), add_row_new (self));
  gtk_box_append (GTK_BOX (self->box), self->reason);
}

GtkWidget *
cro_yield_view_new (CroBench *bench)
{
  CroYieldView *self = g_object_new (CRO_TYPE_YIELD_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
