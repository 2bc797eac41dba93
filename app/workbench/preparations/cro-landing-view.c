#include "config.h"

#include "cro-landing-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-landing.h"
#include "cro-parts-bar.h"
#include "cro-rule-words.h"
#include "cro-rule.h"
#include "cro-figure-words.h"
#include "cro-words.h"

/* Of a column's head, in letters. */
#define HEAD_CHARS 11

struct _CroLandingView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *words;
  GtkWidget *excess;
  GtkWidget *bar;
  GtkWidget *grid;
  CroBench  *bench;   /* borrowed */
  guint32    n;       /* outputs that the grid has rows for */
};

G_DEFINE_FINAL_TYPE (CroLandingView, cro_landing_view, GTK_TYPE_WIDGET)

/* Columns: the output, one for each rule, what part of the cost it bears now. Rows: the heads,
 * the outputs, the batch. */
enum
{
  COLUMN_NAME,
  COLUMN_RULES,
  COLUMN_PART = COLUMN_RULES + CRO_N_RULES,
};

static GtkWidget *
label_at (CroLandingView *self,
          int             column,
          int             row)
{
  return gtk_grid_get_child_at (GTK_GRID (self->grid), column, row);
}

static void
set_text (CroLandingView *self,
          int             column,
          int             row,
          const char     *text,
          gboolean        is_now)
{
  GtkWidget *label = label_at (self, column, row);

  gtk_label_set_label (GTK_LABEL (label), text);
  if (is_now)
    {
      gtk_widget_add_css_class (label, "now");
      gtk_widget_remove_css_class (label, "dim-label");
    }
  else
    {
      gtk_widget_remove_css_class (label, "now");
      gtk_widget_add_css_class (label, "dim-label");
    }
}

/* --- Filling it ------------------------------------------------------------------------------- */

static void
fill_rule (CroLandingView *self,
           CroFigures     *figures,
           guint32         recipe,
           CroRule         rule,
           const char     *total)
{
  gboolean is_now = cro_model_recipe (figures->model, recipe)->rule == (guint8) rule;
  g_auto (GStrv) texts = cro_landing_dup_texts (figures, recipe, rule);
  int column = COLUMN_RULES + (int) rule;
  /* Translators: the rule that holds, in a table of all. */
  g_autofree char *head = is_now ? g_strdup_printf (_("%s (now)"), cro_code_word (cro_rule_codes[rule]))
                                 : g_strdup (cro_code_word (cro_rule_codes[rule]));

  set_text (self, column, 0, head, is_now);
  for (guint32 i = 0; i < self->n; i++)
    {
      gboolean is_shared = !g_str_equal (texts[i], CRO_LANDING_NOWHERE);
      g_autofree char *text
          = cro_words_known_short (cro_known_of_landing (figures, recipe, rule, i, is_shared), texts[i]);

      set_text (self, column, (int) i + 1, text, is_now);
    }
  set_text (self, column, (int) self->n + 1, total, is_now);
}

static void
fill_parts (CroLandingView *self,
            CroFigures     *figures,
            guint32         recipe)
{
  CroRule rule = (CroRule) cro_model_recipe (figures->model, recipe)->rule;
  /* Other rules share in proportions that no cost moves. */
  CroKnown known = cro_rule_credits (rule) && cro_known_of_recipe (figures, recipe) != CRO_KNOWN_WHOLE
                       ? CRO_KNOWN_IN_PART
                       : CRO_KNOWN_WHOLE;
  guint32 n;
  g_autofree double *parts = cro_landing_dup_parts (figures, recipe, rule, &n);
  const guint32 *outputs;
  g_autoptr (GString) says = g_string_new (NULL);

  cro_figures_outputs (figures, recipe, &outputs);
  for (guint32 i = 0; i < self->n; i++)
    {
      g_autofree char *text = cro_words_known_pct_short (known, parts != NULL ? parts[i] : NAN, 1);

      gtk_label_set_label (GTK_LABEL (label_at (self, COLUMN_PART, (int) i + 1)), text);
      cro_isolate_append (says, cro_model_item (figures->model, outputs[i])->name);
      g_string_append_printf (says, " %s", text);
    }
  cro_parts_bar_set (CRO_PARTS_BAR (self->bar), parts, parts != NULL ? n : 0, says->str);
}

/* The rule that holds, in words. */
static void
fill_rule_words (CroLandingView *self,
                 CroFigures     *figures,
                 guint32         recipe)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, recipe, &outputs);
  const char *main_output = n > 0 ? cro_model_item (figures->model, outputs[0])->name : "";
  g_autofree char *text = cro_rule_dup_sentence (
      (CroRule) cro_model_recipe (figures->model, recipe)->rule, main_output);

  gtk_label_set_label (GTK_LABEL (self->words), text);
}

/* What is missing of the batch may be worth more than the credit. */
static char *
dup_excess (CroFigures *figures,
            guint32     item)
{
  g_autoptr (GArray) causes = cro_causes_of_item (figures, item);

  if (!cro_causes_are_of_credit (causes))
    return g_strdup (_("The by-products are credited with more than is known of what the batch costs."));
  /* Translators: %s is the main output of a preparation. */
  return cro_isolate_printf (_("The by-products are credited with more than the batch costs: %s costs less than "
                               "nothing."),
                             cro_model_item (figures->model, item)->name);
}

/* The credit is more than all that went in. */
static void
fill_excess (CroLandingView *self,
             CroFigures     *figures,
             guint32         recipe)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, recipe, &outputs);
  gboolean is_below = n > 0 && cro_figures_unit_cost (figures, outputs[0]) < 0;
  g_autofree char *text = is_below ? dup_excess (figures, outputs[0]) : NULL;

  gtk_widget_set_visible (self->excess, is_below);
  gtk_label_set_label (GTK_LABEL (self->excess), text != NULL ? text : "");
}

/* --- Making it -------------------------------------------------------------------------------- */

static void
add_row (CroLandingView *self,
         int             row)
{
  GtkWidget *name = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (name), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (name), 16);
  gtk_label_set_max_width_chars (GTK_LABEL (name), 28);
  gtk_grid_attach (GTK_GRID (self->grid), name, COLUMN_NAME, row, 1, 1);
  for (int column = COLUMN_RULES; column <= COLUMN_PART; column++)
    gtk_grid_attach (GTK_GRID (self->grid), cro_number_label_new (), column, row, 1, 1);
}

/* In lines: a rule takes more room than the money under it. */
static void
make_head (GtkLabel *head)
{
  gtk_widget_add_css_class (GTK_WIDGET (head), "caption");
  gtk_widget_set_valign (GTK_WIDGET (head), GTK_ALIGN_END);
  gtk_label_set_wrap (head, TRUE);
  gtk_label_set_justify (head, GTK_JUSTIFY_RIGHT);
  gtk_label_set_max_width_chars (head, HEAD_CHARS);
}

static void
rebuild (CroLandingView *self,
         guint32         n)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->grid)) != NULL;)
    gtk_grid_remove (GTK_GRID (self->grid), child);
  for (int row = 0; row < (int) n + 2; row++)
    {
      add_row (self, row);
      if (row == 0)
        for (int column = COLUMN_RULES; column < COLUMN_PART; column++)
          make_head (GTK_LABEL (label_at (self, column, row)));
    }
  self->n = n;
}

void
cro_landing_view_refresh (CroLandingView *self)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (self->bench));
  guint32 recipe = cro_bench_get_slot (self->bench);
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, recipe, &outputs);
  /* Marks are short: there is a column for each rule. */
  g_autofree char *total
      = cro_words_take_short (cro_known_of_recipe (figures, recipe),
                              cro_words_money (figures->model, cro_landing_total (figures, recipe)));

  if (n != self->n || gtk_widget_get_first_child (self->grid) == NULL)
    rebuild (self, n);
  for (guint32 i = 0; i < n; i++)
    gtk_label_set_label (GTK_LABEL (label_at (self, COLUMN_NAME, (int) i + 1)),
                         cro_model_item (figures->model, outputs[i])->name);
  gtk_label_set_label (GTK_LABEL (label_at (self, COLUMN_NAME, (int) n + 1)), _("the batch"));
  for (int rule = 0; rule < CRO_N_RULES; rule++)
    fill_rule (self, figures, recipe, (CroRule) rule, total);
  fill_parts (self, figures, recipe);
  fill_rule_words (self, figures, recipe);
  fill_excess (self, figures, recipe);
}

static void
cro_landing_view_dispose (GObject *object)
{
  g_clear_pointer (&CRO_LANDING_VIEW (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_landing_view_parent_class)->dispose (object);
}

static void
cro_landing_view_class_init (CroLandingViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_landing_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_landing_view_init (CroLandingView *self)
{
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 15);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 3);
  gtk_widget_set_halign (self->grid, GTK_ALIGN_START);
  self->words = cro_text_new (NULL, NULL);
  self->excess = cro_text_new (NULL, "reason");
  self->bar = cro_parts_bar_new ();
  gtk_widget_set_halign (self->bar, GTK_ALIGN_START);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (self->box), self->words);
  gtk_box_append (GTK_BOX (self->box), self->excess);
  gtk_box_append (GTK_BOX (self->box), self->bar);
  gtk_box_append (GTK_BOX (self->box), cro_wide_new (self->grid));
}

GtkWidget *
cro_landing_view_new (CroBench *bench)
{
  CroLandingView *self = g_object_new (CRO_TYPE_LANDING_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
