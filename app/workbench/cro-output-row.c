#include "config.h"

#include "cro-output-row.h"

#include <glib/gi18n.h>

#include "cro-bench-actions.h"
#include "cro-choice.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* The name of a main output is the preparation's own where they are the same, and is changed
 * there. */
struct _CroOutputRow
{
  GtkWidget  parent_instance;

  GtkWidget *wrap;
  GtkWidget *name;
  GtkWidget *amount;
  GtkWidget *unit;
  GtkWidget *yield;
  GtkWidget *value;
  GtkWidget *density;
  GtkWidget *piece;
  GtkWidget *cost;

  CroBench  *bench;   /* borrowed */
  guint32    item;
  const char *named;  /* as its fields call it; the model's */
};

G_DEFINE_FINAL_TYPE (CroOutputRow, cro_output_row, GTK_TYPE_WIDGET)

static const CroItem *
item_of (CroOutputRow *self)
{
  return cro_model_item (cro_book_get_model (cro_bench_get_book (self->bench)), self->item);
}

/* --- Finished amounts: weighed, or a yield ------------------------------------------------------ */

/* One of them takes the other's place, in the same act. */
static gboolean
keep_in_place_of (CroOutputRow   *self,
                  CroInput       *input,
                  const char     *column,
                  const char     *other,
                  const CroCell  *cell,
                  GError        **error)
{
  const char *columns[] = { column, other, NULL };
  CroCell cells[] = { *cell, CRO_CELL_NONE };

  if (cell->kind == CRO_CELL_NULL)
    columns[1] = NULL;
  return cro_edit_set (cro_bench_get_book (self->bench), cro_input_get_act (input), "output",
                       item_of (self)->id, columns, cells, error);
}

static gboolean
keep_amount (CroInput       *input,
             const CroCell  *cell,
             gpointer        row,
             GError        **error)
{
  return keep_in_place_of (row, input, "amount_micro", "yield_pct_micro", cell, error);
}

static gboolean
keep_yield (CroInput       *input,
            const CroCell  *cell,
            gpointer        row,
            GError        **error)
{
  return keep_in_place_of (row, input, "yield_pct_micro", "amount_micro", cell, error);
}

static const CroInputWay amount_way = { .keep = keep_amount };
static const CroInputWay yield_way = { .keep = keep_yield };

/* --- Names ---------------------------------------------------------------------------------------- */

static char *
dup_name (CroInput *input,
          gpointer  row)
{
  return g_strdup (item_of (row)->name);
}

static gboolean
preview_name (CroInput       *input,
              const CroCell  *cell,
              gpointer        row,
              GError        **error)
{
  return TRUE;
}

static gboolean
keep_name (CroInput       *input,
           const CroCell  *cell,
           gpointer        row,
           GError        **error)
{
  CroOutputRow *self = row;

  return cro_edit_rename (cro_bench_get_book (self->bench), cro_input_get_act (input),
                          CRO_REF (CRO_REF_ITEM, self->item), cell->text != NULL ? cell->text : "",
                          error);
}

static const CroInputWay name_way = { dup_name, preview_name, keep_name };

/* --- Removal --------------------------------------------------------------------------------------- */

/* The focus goes to what stands before, as this row will be gone. */
static void
remove_cb (CroOutputRow *self)
{
  gtk_widget_child_focus (GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))),
                          GTK_DIR_TAB_BACKWARD);
  cro_bench_remove_ref (self->bench, CRO_REF (CRO_REF_ITEM, self->item));
}

/* --- Showing --------------------------------------------------------------------------------------- */

/* Under a new name its fields, and what they do, are called anew. */
static void
update_labels (CroOutputRow *self)
{
  const CroItem *item = item_of (self);
  const struct { GtkWidget *input; const char *caption; } inputs[] = {
    { self->name, item->is_main ? _("Main output") : _("By-product") },
    { self->amount, _("Amount") },
    { self->yield, _("or yield %") },
    { self->value, _("Value a unit") },
    { self->density, _("g per ml") },
    { self->piece, _("Piece, g") },
  };
  g_autofree char *of_unit = cro_act_dup_label (_("unit"), item->name);

  if (self->named == item->name)
    return;
  self->named = item->name;
  for (gsize i = 0; i < G_N_ELEMENTS (inputs); i++)
    {
      g_autofree char *label = cro_act_dup_label (inputs[i].caption, item->name);

      cro_input_set_label (CRO_INPUT (inputs[i].input), label);
    }
  cro_choice_set_name (CRO_CHOICE (self->unit), of_unit);
  cro_choice_bind (CRO_CHOICE (self->unit), cro_bench_get_book (self->bench), "output", item->id,
                   "unit", of_unit);
}

void
cro_output_row_refresh (CroOutputRow *self)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (self->bench));
  const CroItem *item = item_of (self);
  CroBase base = cro_unit_get (item->output.unit)->base;
  g_autofree char *cost = cro_words_item_cost (figures, self->item);
  g_autofree char *given = item->output.finished > 0 ? cro_words_amount (base, item->output.finished)
                                                     : NULL;
  /* What the other way of saying comes to. */
  gboolean is_yield = item->output.yield > 0;
  GtkWidget *inputs[] = { self->name, self->amount, self->yield, self->value, self->density,
                          self->piece };

  update_labels (self);
  cro_input_set_placeholder (CRO_INPUT (self->amount), is_yield ? given : NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (inputs); i++)
    cro_input_refresh (CRO_INPUT (inputs[i]));
  cro_choice_refresh (CRO_CHOICE (self->unit));
  cro_cure_set (self->amount, (item->output.lacks & CRO_OUTPUT_LACKS_AMOUNT) != 0);
  cro_cure_set (self->value, (item->output.lacks & CRO_OUTPUT_LACKS_VALUE) != 0);
  cro_cure_set (self->density, (item->output.lacks & CRO_OUTPUT_LACKS_DENSITY) != 0);
  cro_cure_set (self->piece, (item->output.lacks & CRO_OUTPUT_LACKS_PIECE) != 0);
  gtk_label_set_label (GTK_LABEL (self->cost), cost);
}

static GtkWidget *
add_input (CroOutputRow *self,
           const char   *caption,
           CroInputKind  kind,
           CroRange      range,
           int           width,
           const char   *column)
{
  GtkWidget *input = cro_field_add (self->wrap, caption, kind, range, width);

  cro_input_bind (CRO_INPUT (input), cro_bench_get_book (self->bench), "output", item_of (self)->id,
                  column, NULL, NULL);
  return input;
}

static void
make_fields (CroOutputRow *self)
{
  self->name = add_input (self, item_of (self)->is_main ? _("Main output") : _("By-product"), CRO_INPUT_TEXT,
                          CRO_RANGE_ANY, 20, "name");
  cro_input_set_way (CRO_INPUT (self->name), &name_way, self);
  self->amount = add_input (self, _("Amount"), CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 8,
                            "amount_micro");
  cro_input_set_way (CRO_INPUT (self->amount), &amount_way, self);
  self->unit = cro_choice_new_unit (_("Unit"), 7);
  cro_wrap_append (CRO_WRAP (self->wrap), cro_field_new (_("Unit"), self->unit));
  self->yield = add_input (self, _("or yield %"), CRO_INPUT_YIELD, CRO_RANGE_YIELD_PCT, 7,
                           "yield_pct_micro");
  cro_input_set_way (CRO_INPUT (self->yield), &yield_way, self);
  self->value = add_input (self, _("Value a unit"), CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 8,
                           "value_micro");
  self->density = add_input (self, _("g per ml"), CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 6,
                             "density_g_per_ml_micro");
  self->piece = add_input (self, _("Piece, g"), CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 6,
                           "piece_g_micro");
}

static void
cro_output_row_dispose (GObject *object)
{
  g_clear_pointer (&CRO_OUTPUT_ROW (object)->wrap, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_output_row_parent_class)->dispose (object);
}

static void
cro_output_row_class_init (CroOutputRowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_output_row_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_output_row_init (CroOutputRow *self)
{
  self->wrap = cro_wrap_new (9, 6);
  gtk_widget_set_parent (self->wrap, GTK_WIDGET (self));
}

GtkWidget *
cro_output_row_new (CroBench *bench,
                    guint32   item)
{
  CroOutputRow *self = g_object_new (CRO_TYPE_OUTPUT_ROW, NULL);

  self->bench = bench;
  self->item = item;
  make_fields (self);
  self->cost = cro_number_label_new ();
  gtk_widget_set_vexpand (self->cost, TRUE);
  cro_wrap_append (CRO_WRAP (self->wrap), cro_field_new (_("Costs"), self->cost));
  if (!item_of (self)->is_main)
    {
      g_autofree char *name = g_strdup_printf (_("Remove %s"), item_of (self)->name);
      GtkWidget *button = cro_icon_button_new ("edit-delete-symbolic", name);

      gtk_widget_set_valign (button, GTK_ALIGN_END);
      g_signal_connect_swapped (button, "clicked", G_CALLBACK (remove_cb), self);
      cro_wrap_append (CRO_WRAP (self->wrap), button);
    }
  cro_output_row_refresh (self);
  return GTK_WIDGET (self);
}
