#include "config.h"

#include "cro-line-details.h"

#include <glib/gi18n.h>

#include "cro-choice.h"
#include "cro-code.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-words.h"
#include "cro-wrap.h"

struct _CroLineDetails
{
  GtkWidget   parent_instance;

  GtkWidget  *wrap;
  GtkWidget  *weighed;
  GtkWidget  *yield;
  GtkWidget  *back;
  GtkWidget  *unit;
  GtkWidget  *note;

  CroBench   *bench;      /* borrowed */
  guint32     line;
  const char *named;      /* as its fields call it; the model's */
};

G_DEFINE_FINAL_TYPE (CroLineDetails, cro_line_details, GTK_TYPE_WIDGET)

static CroModel *
model_of (CroLineDetails *self)
{
  return cro_book_get_model (cro_bench_get_book (self->bench));
}

static const CroMeasure *
measure_of (CroLineDetails *self)
{
  return &model_of (self)->measures[model_of (self)->lines.item[self->line]];
}

/* The trim yield that holds where the line has none of its own. */
static char *
dup_yield_there (CroLineDetails *self)
{
  CroModel *model = model_of (self);
  const CroMeasure *measure = measure_of (self);

  if (model->lines.whole[self->line] || measure->trim_yield == 0)
    return g_strdup ("100");
  return cro_words_decimal (measure->trim_yield);
}

/* Names, and the labels of what the fields do, are those of the item: anew under a new name. */
static void
bind (CroLineDetails *self)
{
  CroModel *model = model_of (self);
  CroBook *book = cro_bench_get_book (self->bench);
  gint64 id = model->line_ids[self->line];
  const char *name = cro_model_item (model, model->lines.item[self->line])->name;
  g_autofree char *of_weighing = cro_isolate_printf (_("weighing of %s"), name);
  g_autofree char *of_yield = cro_isolate_printf (_("yield of %s"), name);
  g_autofree char *of_back = cro_isolate_printf (_("part of %s that comes back"), name);
  g_autofree char *of_unit = cro_isolate_printf (_("unit of %s"), name);
  g_autofree char *of_note = cro_isolate_printf (_("note on %s"), name);

  self->named = name;
  cro_choice_set_name (CRO_CHOICE (self->weighed), of_weighing);
  cro_choice_bind (CRO_CHOICE (self->weighed), book, "recipe_line", id, "weighed", of_weighing);
  cro_input_set_name (CRO_INPUT (self->yield), of_yield);
  cro_input_bind (CRO_INPUT (self->yield), book, "recipe_line", id, "yield_pct_micro", of_yield,
                  NULL);
  cro_input_set_name (CRO_INPUT (self->back), of_back);
  cro_input_bind (CRO_INPUT (self->back), book, "recipe_line", id, "recovered_pct_micro", of_back,
                  "0");
  cro_choice_set_name (CRO_CHOICE (self->unit), of_unit);
  cro_choice_bind (CRO_CHOICE (self->unit), book, "recipe_line", id, "unit", of_unit);
  cro_input_set_name (CRO_INPUT (self->note), of_note);
  cro_input_bind (CRO_INPUT (self->note), book, "recipe_line", id, "note", of_note,
                  C_("note", "none"));
}

void
cro_line_details_refresh (CroLineDetails *self)
{
  CroModel *model = model_of (self);
  const CroMeasure *measure = measure_of (self);
  gboolean is_whole = model->lines.whole[self->line];
  g_autofree char *yield = dup_yield_there (self);

  if (self->named != cro_model_item (model, model->lines.item[self->line])->name)
    bind (self);
  cro_choice_refresh (CRO_CHOICE (self->weighed));
  cro_input_set_placeholder (CRO_INPUT (self->yield), yield);
  cro_input_refresh (CRO_INPUT (self->yield));
  cro_input_refresh (CRO_INPUT (self->back));
  cro_choice_refresh (CRO_CHOICE (self->unit));
  cro_input_refresh (CRO_INPUT (self->note));
  /* Only of what has a trim there are two weights; one that is weighed as bought has no yield. */
  gtk_widget_set_visible (gtk_widget_get_parent (self->weighed),
                          is_whole || (measure->is_bought && measure->trim_yield != 0));
  gtk_widget_set_visible (gtk_widget_get_parent (self->yield), !is_whole);
}

/* --- Weighing --------------------------------------------------------------------------------- */

/* What is weighed as bought loses its own yield in the same act. */
static gboolean
keep_weighing (CroChoice      *choice,
               const CroCell  *cell,
               gpointer        details,
               GError        **error)
{
  CroLineDetails *self = details;
  CroModel *model = model_of (self);
  const char *columns[] = { "weighed", "yield_pct_micro", NULL };
  CroCell cells[] = { *cell, CRO_CELL_NONE };

  if (g_str_equal (cell->text, "trimmed"))
    columns[1] = NULL;
  return cro_edit_set (cro_bench_get_book (self->bench), cro_choice_get_act (choice), "recipe_line",
                       model->line_ids[self->line], columns, cells, error);
}

/* --- The widget ------------------------------------------------------------------------------- */

static GtkWidget *
button_new (CroLineDetails *self,
            const char     *icon,
            const char     *name,
            const char     *action)
{
  GtkWidget *button = cro_icon_button_new (icon, name);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "u", self->line);
  return button;
}

static void
add_buttons (CroLineDetails *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_box_append (GTK_BOX (box), button_new (self, "go-up-symbolic", _("Move Up (Alt+Up)"),
                                             "line.move-up"));
  gtk_box_append (GTK_BOX (box), button_new (self, "go-down-symbolic", _("Move Down (Alt+Down)"),
                                             "line.move-down"));
  gtk_box_append (GTK_BOX (box), button_new (self, "edit-copy-symbolic", _("Duplicate (Ctrl+D)"),
                                             "line.duplicate"));
  gtk_box_append (GTK_BOX (box), button_new (self, "edit-delete-symbolic", _("Remove (Alt+Delete)"),
                                             "line.remove"));
  gtk_widget_set_valign (box, GTK_ALIGN_END);
  cro_wrap_append (CRO_WRAP (self->wrap), box);
}

static void
make_fields (CroLineDetails *self)
{
  self->weighed = cro_choice_new_code ("", cro_weighing_codes);
  cro_choice_set_way (CRO_CHOICE (self->weighed), keep_weighing, self);
  cro_wrap_append (CRO_WRAP (self->wrap), cro_field_new (_("Weighed"), self->weighed));
  self->yield = cro_field_add (self->wrap, _("Yield %"), CRO_INPUT_YIELD, CRO_RANGE_YIELD_PCT, 5);
  self->back = cro_field_add (self->wrap, _("Comes back %"), CRO_INPUT_PCT, CRO_RANGE_RECOVERED_PCT,
                              5);
  self->unit = cro_choice_new_unit ("", 7);
  cro_wrap_append (CRO_WRAP (self->wrap), cro_field_new (_("Unit"), self->unit));
  self->note = cro_field_add (self->wrap, _("Note"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 18);
  add_buttons (self);
}

static void
cro_line_details_dispose (GObject *object)
{
  g_clear_pointer (&CRO_LINE_DETAILS (object)->wrap, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_line_details_parent_class)->dispose (object);
}

static void
cro_line_details_class_init (CroLineDetailsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_line_details_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_line_details_init (CroLineDetails *self)
{
  self->wrap = cro_wrap_new (12, 6);
  gtk_widget_add_css_class (GTK_WIDGET (self), "line-details");
  gtk_widget_set_parent (self->wrap, GTK_WIDGET (self));
}

GtkWidget *
cro_line_details_new (CroBench *bench,
                      guint32   line)
{
  CroLineDetails *self = g_object_new (CRO_TYPE_LINE_DETAILS, NULL);

  self->bench = bench;
  self->line = line;
  make_fields (self);
  cro_line_details_refresh (self);
  return GTK_WIDGET (self);
}
