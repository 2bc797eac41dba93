#include "config.h"

#include "cro-line-row.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-choice.h"
#include "cro-decimal.h"
#include "cro-field.h"
#include "cro-words.h"

struct _CroLineRow
{
  GtkListBoxRow parent_instance;

  CroBench     *bench;      /* borrowed */
  guint32       line;

  GtkWidget    *amount;
  GtkWidget    *unit;
  GtkWidget    *bite;
  GtkWidget    *item;
  GtkWidget    *weighed;
  GtkWidget    *yield;
  GtkWidget    *back;
  GtkWidget    *cost;
  GtkWidget    *share;
};

G_DEFINE_FINAL_TYPE (CroLineRow, cro_line_row, GTK_TYPE_LIST_BOX_ROW)

static CroModel *
model_of (CroLineRow *self)
{
  return cro_book_get_model (cro_bench_get_book (self->bench));
}

static void
open_item_cb (CroLineRow *self)
{
  cro_bench_open (self->bench, CRO_REF (CRO_REF_ITEM, model_of (self)->lines.item[self->line]));
}

/* --- Figures ---------------------------------------------------------------------------------- */

static double
cost_of_line (CroLineRow *self)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (self->bench));
  CroModel *model = figures->model;
  guint32 item = model->lines.item[self->line];
  guint32 node = cro_figures_node (figures, item);
  double charged = cro_line_charged (&model->lines, self->line, &model->measures[item]);

  if (isnan (cro_figures_unit_cost (figures, item))
      || cro_line_lacks (&model->lines, self->line, &model->measures[item]) != CRO_LACKS_NOTHING)
    return NAN;
  return charged * (figures->layers[CRO_LAYER_FOOD].unit_cost[node]
                    + figures->layers[CRO_LAYER_DISPOSABLES].unit_cost[node]);
}

/* The trim yield that holds where the line has none of its own. */
static char *
yield_placeholder (CroLineRow *self)
{
  CroModel *model = model_of (self);
  const CroMeasure *measure = &model->measures[model->lines.item[self->line]];

  if (model->lines.whole[self->line] || measure->trim_yield == 0)
    return g_strdup ("100");
  return cro_words_decimal (measure->trim_yield);
}

void
cro_line_row_refresh (CroLineRow *self,
                      double      total,
                      double      bites)
{
  CroModel *model = model_of (self);
  guint32 item = model->lines.item[self->line];
  double cost = cost_of_line (self);
  g_autofree char *cost_text = isnan (cost) ? g_strdup (_("? open")) : cro_words_money (model, cost);
  double net = cro_line_net (&model->lines, self->line, &model->measures[item]);
  g_autofree char *bite = bites > 0 ? cro_words_amount ((CroBase) model->measures[item].base,
                                                       net / bites)
                                    : g_strdup ("");

  cro_input_refresh (CRO_INPUT (self->amount));
  cro_choice_refresh (CRO_CHOICE (self->unit));
  cro_choice_refresh (CRO_CHOICE (self->weighed));
  cro_input_refresh (CRO_INPUT (self->yield));
  cro_input_refresh (CRO_INPUT (self->back));
  gtk_button_set_label (GTK_BUTTON (self->item), cro_model_item (model, item)->name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  cro_model_item (model, item)->name, -1);
  gtk_label_set_label (GTK_LABEL (self->bite), bite);
  gtk_widget_set_visible (self->bite, bites > 0);
  gtk_label_set_label (GTK_LABEL (self->cost), cost_text);
  gtk_level_bar_set_value (GTK_LEVEL_BAR (self->share),
                           total > 0 && cost > 0 ? CLAMP (cost / total, 0, 1) : 0);
  if (isnan (cost))
    gtk_widget_add_css_class (self->cost, "missing");
  else
    gtk_widget_remove_css_class (self->cost, "missing");
}

/* --- Making ----------------------------------------------------------------------------------- */

static GtkWidget *
label_new (const char *css_class,
           float       xalign)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_widget_add_css_class (label, "numeric");
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
make_fields (CroLineRow *self)
{
  static const char *const weighings[] = { "trimmed", "whole", NULL };
  const char *words[] = { _("trimmed"), _("as bought"), NULL };
  CroModel *model = model_of (self);
  CroBook *book = cro_bench_get_book (self->bench);
  gint64 id = model->line_ids[self->line];
  const char *name = cro_model_item (model, model->lines.item[self->line])->name;
  /* Translators: entries of the history; %s is what a line takes. */
  g_autofree char *of_amount = g_strdup_printf (_("amount of %s"), name);
  g_autofree char *of_yield = g_strdup_printf (_("yield of %s"), name);
  g_autofree char *of_back = g_strdup_printf (_("what comes back of %s"), name);
  g_autofree char *of_unit = g_strdup_printf (_("unit of %s"), name);
  g_autofree char *of_weighing = g_strdup_printf (_("how %s is weighed"), name);
  g_autofree char *trim = yield_placeholder (self);

  self->amount = cro_input_new (CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, of_amount);
  cro_input_set_width (CRO_INPUT (self->amount), 7);
  cro_input_bind (CRO_INPUT (self->amount), book, "recipe_line", id, "amount_micro", of_amount, NULL);
  self->unit = cro_choice_new_unit (of_unit, 7);
  cro_choice_bind (CRO_CHOICE (self->unit), book, "recipe_line", id, "unit", of_unit);
  self->weighed = cro_choice_new (of_weighing, weighings, words);
  cro_choice_bind (CRO_CHOICE (self->weighed), book, "recipe_line", id, "weighed", of_weighing);
  self->yield = cro_input_new (CRO_INPUT_YIELD, CRO_RANGE_YIELD_PCT, of_yield);
  cro_input_set_width (CRO_INPUT (self->yield), 5);
  cro_input_bind (CRO_INPUT (self->yield), book, "recipe_line", id, "yield_pct_micro", of_yield,
                  trim);
  self->back = cro_input_new (CRO_INPUT_PCT, CRO_RANGE_RECOVERED_PCT, of_back);
  cro_input_set_width (CRO_INPUT (self->back), 5);
  cro_input_bind (CRO_INPUT (self->back), book, "recipe_line", id, "recovered_pct_micro", of_back,
                  "0");
}

static GtkWidget *
more_button_new (CroLineRow *self)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  GtkWidget *button = gtk_menu_button_new ();
  struct { const char *label, *action; } items[] = {
    { _("Move Up"), "line.move-up" },
    { _("Move Down"), "line.move-down" },
    { _("Duplicate"), "line.duplicate" },
    { _("Remove"), "line.remove" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    {
      g_autofree char *action = g_strdup_printf ("%s(uint32 %u)", items[i].action, self->line);

      g_menu_append (menu, items[i].label, action);
    }
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (button), "view-more-symbolic");
  gtk_widget_add_css_class (button, "flat");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("More for this line"), -1);
  return button;
}

static void
open_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  open_item_cb (CRO_LINE_ROW (widget));
}

static void
cro_line_row_class_init (CroLineRowClass *klass)
{
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "item.open", NULL, open_cb);
}

static void
cro_line_row_init (CroLineRow *self)
{
}

GtkWidget *
cro_line_row_new (CroBench      *bench,
                  guint32        line,
                  GtkSizeGroup **columns)
{
  CroLineRow *self = g_object_new (CRO_TYPE_LINE_ROW, "activatable", FALSE, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *widgets[CRO_N_LINE_COLUMNS];

  self->bench = bench;
  self->line = line;
  make_fields (self);
  self->bite = label_new ("dim-label", 1);
  self->item = gtk_button_new_with_label ("");
  gtk_label_set_xalign (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->item))), 0);
  gtk_label_set_ellipsize (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->item))),
                           PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->item))), 14);
  gtk_widget_add_css_class (self->item, "flat");
  gtk_widget_set_hexpand (self->item, TRUE);
  g_signal_connect_swapped (self->item, "clicked", G_CALLBACK (open_item_cb), self);
  self->cost = label_new (NULL, 1);
  self->share = cro_part_bar_new (_("share of the cost"), 64);

  widgets[CRO_LINE_AMOUNT] = self->amount;
  widgets[CRO_LINE_UNIT] = self->unit;
  widgets[CRO_LINE_BITE] = self->bite;
  widgets[CRO_LINE_ITEM] = self->item;
  widgets[CRO_LINE_WEIGHED] = self->weighed;
  widgets[CRO_LINE_YIELD] = self->yield;
  widgets[CRO_LINE_BACK] = self->back;
  widgets[CRO_LINE_COST] = self->cost;
  widgets[CRO_LINE_SHARE] = self->share;
  widgets[CRO_LINE_MORE] = more_button_new (self);
  for (int i = 0; i < CRO_N_LINE_COLUMNS; i++)
    {
      gtk_widget_set_valign (widgets[i], GTK_ALIGN_CENTER);
      gtk_box_append (GTK_BOX (box), widgets[i]);
      gtk_size_group_add_widget (columns[i], widgets[i]);
    }
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (self), box);
  return GTK_WIDGET (self);
}

guint32
cro_line_row_get_line (CroLineRow *self)
{
  return self->line;
}
