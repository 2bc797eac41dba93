#include "config.h"

#include "cro-preparation-bench.h"

#include <glib/gi18n.h>

#include "cro-bench-actions.h"
#include "cro-cause.h"
#include "cro-causes-view.h"
#include "cro-choice.h"
#include "cro-code.h"
#include "cro-field.h"
#include "cro-figure-strip.h"
#include "cro-landing-view.h"
#include "cro-landing.h"
#include "cro-lines-view.h"
#include "cro-made-of-view.h"
#include "cro-outputs-view.h"
#include "cro-past-words.h"
#include "cro-picture-view.h"
#include "cro-scale-button.h"
#include "cro-sum.h"
#include "cro-unserved-view.h"
#include "cro-unserved.h"
#include "cro-used-in-view.h"
#include "cro-figure-words.h"
#include "cro-words.h"
#include "cro-wrap.h"
#include "cro-yield-view.h"

/* In characters: outputs take more room than lines. */
#define MOST_PICTURE 44

enum
{
  BATCH,
  UNIT_COST,
  LABOUR,
  N_FIGURES,
};

struct _CroPreparationBench
{
  CroBench   parent_instance;

  GtkWidget *figures[N_FIGURES];
  GtkWidget *causes;
  GtkWidget *unserved;
  GtkWidget *name;
  GtkWidget *minutes;
  GtkWidget *smallest_part;
  GtkWidget *note;
  GtkWidget *picture;
  GtkWidget *lines;
  GtkWidget *outputs;
  GtkWidget *sharing;      /* what is of no use where there is one output */
  GtkWidget *rule;
  GtkWidget *landing;
  GtkWidget *tests;        /* what is of no use where more than one thing goes in */
  GtkWidget *yield;
  guint32    tested;       /* the item that goes in alone; CRO_NO_SLOT: there is none */
  GtkWidget *used_in;
  GtkWidget *pane;
};

G_DEFINE_FINAL_TYPE (CroPreparationBench, cro_preparation_bench, CRO_TYPE_BENCH)

static CroFigures *
figures_of (CroBench *bench)
{
  return cro_book_get_figures (cro_bench_get_book (bench));
}

/* CRO_NO_SLOT while the preparation has no output yet. */
static guint32
main_output (CroBench *bench)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures_of (bench), cro_bench_get_slot (bench), &outputs);

  return n > 0 ? outputs[0] : CRO_NO_SLOT;
}

/* --- Figures ---------------------------------------------------------------------------------- */

static GPtrArray *
sum_of_batch (CroBench *bench)
{
  return cro_sum_of_batch (figures_of (bench), cro_bench_get_slot (bench), cro_sum_words ());
}

static GPtrArray *
sum_of_unit (CroBench *bench)
{
  guint32 item = main_output (bench);

  return item != CRO_NO_SLOT ? cro_sum_of_item (figures_of (bench), item, cro_sum_words ()) : NULL;
}

static GPtrArray *
sum_of_labour (CroBench *bench)
{
  return cro_sum_of_labour (figures_of (bench), cro_bench_get_slot (bench), cro_sum_words ());
}

static void
show_batch (CroPreparationBench *self,
            CroFigures          *figures)
{
  guint32 recipe = cro_bench_get_slot (CRO_BENCH (self));
  double total = cro_landing_total (figures, recipe);
  g_autofree char *value = cro_words_known_money (figures->model,
                                                  cro_known_of_recipe (figures, recipe), total);

  cro_figure_view_set (CRO_FIGURE_VIEW (self->figures[BATCH]), value, _("the batch"), NULL);
}

static void
show_unit_cost (CroPreparationBench *self,
                CroFigures          *figures)
{
  guint32 item = main_output (CRO_BENCH (self));
  g_autofree char *cost = NULL, *amount = NULL, *note = NULL;
  const CroOutput *output;
  CroBase base;

  if (item == CRO_NO_SLOT)
    {
      cro_figure_view_set (CRO_FIGURE_VIEW (self->figures[UNIT_COST]), "–", _("main output"), NULL);
      return;
    }
  output = &cro_model_item (figures->model, item)->output;
  base = cro_unit_get (output->unit)->base;
  cost = cro_words_item_cost (figures, item);
  if (output->finished > 0)
    {
      amount = cro_words_amount (base, output->finished);
      /* Translators: %s is the finished amount of a batch. */
      note = g_strdup_printf (_("gives %s"), amount);
    }
  cro_figure_view_set (CRO_FIGURE_VIEW (self->figures[UNIT_COST]), cost,
                       cro_model_item (figures->model, item)->name, note);
}

static void
show_labour (CroPreparationBench *self)
{
  CroBench *bench = CRO_BENCH (self);
  CroFigures *figures = figures_of (bench);
  guint32 recipe = cro_bench_get_slot (bench);
  g_autoptr (GPtrArray) sum = sum_of_labour (bench);
  double labour = figures->layers[CRO_LAYER_LABOUR].row_cost[cro_figures_row (figures, recipe)];
  gboolean is_there = labour > 0 || cro_model_recipe (figures->model, recipe)->active_minutes > 0;

  cro_figure_view_set (CRO_FIGURE_VIEW (self->figures[LABOUR]), is_there ? cro_sum_get_figure (sum) : "–",
                       _("labour"), is_there ? _("with all that goes in") : cro_words_no_minutes ());
}

/* --- Showing ---------------------------------------------------------------------------------- */

/* All that is missing for its outputs, each cause once. */
static GArray *
causes_of (CroFigures    *figures,
           const guint32 *outputs,
           guint32        n)
{
  GArray *causes = g_array_new (FALSE, FALSE, sizeof (CroCause));

  for (guint32 i = 0; i < n; i++)
    {
      g_autoptr (GArray) more = cro_causes_of_item (figures, outputs[i]);

      for (guint k = 0; k < more->len; k++)
        {
          const CroCause *cause = &g_array_index (more, CroCause, k);
          gboolean is_there = FALSE;

          for (guint m = 0; m < causes->len; m++)
            is_there |= g_array_index (causes, CroCause, m).kind == cause->kind
                        && g_array_index (causes, CroCause, m).name == cause->name;
          if (!is_there)
            g_array_append_vals (causes, cause, 1);
        }
    }
  return causes;
}

/* What goes in alone is broken down: CRO_NO_SLOT where it is not one thing. */
static guint32
broken_down (CroFigures *figures,
             guint32     recipe)
{
  const CroGraph *graph = &figures->graph;
  guint32 row = cro_figures_row (figures, recipe);

  return graph->first[row + 1] - graph->first[row] == 1
             ? figures->model->lines.item[graph->line_slot[graph->first[row]]]
             : CRO_NO_SLOT;
}

static void
refresh_tests (CroPreparationBench *self,
               CroFigures          *figures,
               guint32              recipe)
{
  guint32 item = broken_down (figures, recipe);

  gtk_widget_set_visible (self->tests, item != CRO_NO_SLOT);
  if (item == CRO_NO_SLOT)
    return;
  if (item != self->tested)
    cro_yield_view_put (CRO_YIELD_VIEW (self->yield), item);
  self->tested = item;
  cro_yield_view_refresh (CRO_YIELD_VIEW (self->yield));
}

static void
cro_preparation_bench_refresh (CroBench *bench)
{
  CroPreparationBench *self = CRO_PREPARATION_BENCH (bench);
  CroFigures *figures = figures_of (bench);
  guint32 recipe = cro_bench_get_slot (bench);
  GtkWidget *inputs[] = { self->name, self->minutes, self->smallest_part, self->note };
  g_autoptr (GArray) causes = NULL;
  g_autoptr (GArray) unserved = NULL;
  const guint32 *outputs;
  guint32 n;

  if (cro_model_recipe (figures->model, recipe)->is_dead)
    return;
  n = cro_figures_outputs (figures, recipe, &outputs);
  causes = causes_of (figures, outputs, n);
  show_batch (self, figures);
  show_unit_cost (self, figures);
  show_labour (self);
  cro_causes_view_set (CRO_CAUSES_VIEW (self->causes), causes, NULL);
  unserved = cro_unserved_of_batch (figures, recipe);
  cro_unserved_view_set (CRO_UNSERVED_VIEW (self->unserved), CRO_REF (CRO_REF_RECIPE, recipe),
                         unserved);
  for (gsize i = 0; i < G_N_ELEMENTS (inputs); i++)
    cro_input_refresh (CRO_INPUT (inputs[i]));
  cro_lines_view_refresh (CRO_LINES_VIEW (self->lines));
  cro_outputs_view_refresh (CRO_OUTPUTS_VIEW (self->outputs));
  cro_picture_view_refresh (CRO_PICTURE_VIEW (self->picture));
  cro_choice_refresh (CRO_CHOICE (self->rule));
  cro_landing_view_refresh (CRO_LANDING_VIEW (self->landing));
  gtk_widget_set_visible (self->sharing, n > 1);
  refresh_tests (self, figures, recipe);
  cro_used_in_view_set (CRO_USED_IN_VIEW (self->used_in), outputs, n);
  cro_pane_refresh (CRO_PANE (self->pane));
}

static void
cro_preparation_bench_show (CroBench *bench)
{
  CroPreparationBench *self = CRO_PREPARATION_BENCH (bench);
  CroBook *book = cro_bench_get_book (bench);
  CroModel *model = cro_book_get_model (book);
  g_autofree char *of_rule = cro_past_dup_act ("preparation", "by_products",
                                               cro_ref_name (model, cro_bench_get_ref (bench)));

  cro_bench_bind (bench, self->name, "name", NULL);
  cro_bench_bind (bench, self->minutes, "active_minutes_micro", "0");
  cro_bench_bind (bench, self->smallest_part, "smallest_part_micro", "0");
  cro_bench_bind (bench, self->note, "note", NULL);
  cro_choice_bind (CRO_CHOICE (self->rule), book, "preparation",
                   cro_model_recipe (model, cro_bench_get_slot (bench))->id, "by_products", of_rule);
  cro_lines_view_put (CRO_LINES_VIEW (self->lines), cro_bench_get_slot (bench));
  cro_outputs_view_put (CRO_OUTPUTS_VIEW (self->outputs));
  self->tested = CRO_NO_SLOT;
  cro_preparation_bench_refresh (bench);
  cro_pane_show (CRO_PANE (self->pane));
}

/* --- The widget ------------------------------------------------------------------------------- */

static GtkWidget *
fields_new (CroPreparationBench *self)
{
  GtkWidget *row = cro_field_row_new ();

  self->name = cro_field_add (row, _("Preparation"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 28);
  cro_input_set_way (CRO_INPUT (self->name), &cro_bench_name_way, self);
  cro_input_set_ask (CRO_INPUT (self->name), cro_bench_ask_of_name);
  cro_input_set_tell (CRO_INPUT (self->name), cro_bench_tell_name);
  cro_input_set_show (CRO_INPUT (self->name), cro_bench_show_name);
  cro_input_set_asks (CRO_INPUT (self->name), cro_bench_asks_of_name);
  self->minutes = cro_field_add (row, _("Minutes"), CRO_INPUT_MINUTES, CRO_RANGE_AT_LEAST_0, 6);
  self->smallest_part = cro_field_add (row, _("Smallest part of a batch"), CRO_INPUT_NUMBER,
                                       CRO_RANGE_PART, 6);
  self->note = cro_field_add (row, _("Note"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 30);
  gtk_widget_set_hexpand (self->note, TRUE);
  cro_wrap_append (CRO_WRAP (row),
                   cro_bench_buttons_new_with (cro_scale_button_new (CRO_BENCH (self)),
                                               _("Make It an Ingredient"), TRUE));
  return row;
}

static void
take_picture_cb (GtkWidget  *widget,
                 const char *action,
                 GVariant   *path)
{
  cro_picture_view_take (CRO_PICTURE_VIEW (CRO_PREPARATION_BENCH (widget)->picture),
                         g_variant_get_string (path, NULL));
}

static void
cro_preparation_bench_class_init (CroPreparationBenchClass *klass)
{
  cro_pane_install (GTK_WIDGET_CLASS (klass));
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "picture.take", "s", take_picture_cb);
  CRO_BENCH_CLASS (klass)->kind = CRO_REF_RECIPE;
  CRO_BENCH_CLASS (klass)->show = cro_preparation_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_preparation_bench_refresh;
}

static void
cro_preparation_bench_init (CroPreparationBench *self)
{
  static const CroFigureSum sums[N_FIGURES] = { sum_of_batch, sum_of_unit, sum_of_labour };
  static const CroPicture *const pictures[CRO_N_PICTURES] = {
    [CRO_PICTURE_MADE_OF] = &cro_made_of_picture,
  };
  GtkWidget *fields = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *aside = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *strip;

  self->lines = cro_lines_view_new (CRO_BENCH (self));
  self->outputs = cro_outputs_view_new (CRO_BENCH (self));
  self->rule = cro_choice_new_code (_("By-products"), cro_rule_codes);
  gtk_widget_set_halign (self->rule, GTK_ALIGN_START);
  self->landing = cro_landing_view_new (CRO_BENCH (self));
  self->used_in = cro_used_in_view_new (CRO_BENCH (self));

  self->tests = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->yield = cro_yield_view_new (CRO_BENCH (self));
  gtk_box_append (GTK_BOX (self->tests), cro_heading_new (_("Cutting Tests")));
  gtk_box_append (GTK_BOX (self->tests), self->yield);

  self->sharing = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_box_append (GTK_BOX (self->sharing), cro_heading_new (_("How the cost is shared")));
  gtk_box_append (GTK_BOX (self->sharing), cro_field_new (_("By-products"), self->rule));
  gtk_box_append (GTK_BOX (self->sharing), self->landing);

  gtk_box_append (GTK_BOX (fields), fields_new (self));
  cro_input_lead_to (CRO_INPUT (self->note), cro_lines_view_get_next (CRO_LINES_VIEW (self->lines)));
  gtk_box_append (GTK_BOX (page), self->lines);
  gtk_box_append (GTK_BOX (page), cro_heading_new (_("This batch gives")));
  self->unserved = cro_unserved_view_new (CRO_BENCH (self));
  gtk_box_append (GTK_BOX (page), self->outputs);
  gtk_box_append (GTK_BOX (page), self->unserved);
  gtk_box_append (GTK_BOX (page), self->sharing);
  gtk_box_append (GTK_BOX (page), self->tests);
  gtk_box_append (GTK_BOX (aside), cro_heading_new (_("Used in")));
  gtk_box_append (GTK_BOX (aside), self->used_in);
  self->picture = cro_picture_view_new (CRO_BENCH (self));
  gtk_box_append (GTK_BOX (aside), cro_heading_new (_("Picture")));
  gtk_box_append (GTK_BOX (aside), self->picture);
  strip = cro_figure_strip_new (CRO_BENCH (self), sums, N_FIGURES, self->figures, &self->causes);
  cro_unserved_view_tell (CRO_UNSERVED_VIEW (self->unserved), CRO_CAUSES_VIEW (self->causes));
  self->pane = cro_pane_new (CRO_BENCH (self), pictures, fields, page, aside);
  cro_pane_set_rows (CRO_PANE (self->pane), self->lines, &cro_lines_view_rows);
  cro_pane_set_most_picture (CRO_PANE (self->pane), MOST_PICTURE);
  cro_bench_set_content (CRO_BENCH (self), strip, self->pane);
}
