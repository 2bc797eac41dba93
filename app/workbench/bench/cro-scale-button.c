#include "config.h"

#include "cro-scale-button.h"

#include <glib/gi18n.h>

#include "cro-edit.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-number.h"
#include "cro-spoken.h"
#include "cro-words.h"

struct _CroScaleButton
{
  GtkWidget  parent_instance;

  GtkWidget *button;
  GtkWidget *caption;
  GtkWidget *entry;
  GtkWidget *hint;
  GtkWidget *apply;

  CroBench  *bench;   /* borrowed */
};

G_DEFINE_FINAL_TYPE (CroScaleButton, cro_scale_button, GTK_TYPE_WIDGET)

/* What the recipe makes now: bites of a plate, or the main output in its own unit; 0: not known. */
static gint64
made_now (CroScaleButton *self,
          CroUnit        *unit)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (self->bench));
  const CroRecipe *recipe = cro_model_recipe (model, cro_bench_get_slot (self->bench));
  const CroOutput *output;

  *unit = CRO_UNIT_EACH;
  if (recipe->is_plate)
    return recipe->makes;
  if (recipe->n_outputs == 0)
    return 0;
  output = &cro_model_item (model, g_array_index (model->output_order, guint32,
                                                  recipe->first_output))->output;
  *unit = output->unit;
  return output->amount;
}

/* Millionths; 0: nothing that it can be scaled to. */
static gint64
asked (CroScaleButton *self)
{
  CroUnit unit;
  gint64 now = made_now (self, &unit);
  g_auto (CroEntry) entry = { 0 };

  if (now == 0
      || !cro_entry_amount (gtk_editable_get_text (GTK_EDITABLE (self->entry)), unit,
                            CRO_RANGE_ABOVE_0, cro_words_entry (), &entry))
    return 0;
  return entry.micro;
}

static void
changed_cb (CroScaleButton *self)
{
  CroUnit unit;
  gint64 now = made_now (self, &unit), to = asked (self);
  g_autofree char *factor = NULL, *text = NULL;

  gtk_widget_set_sensitive (self->apply, to != 0);
  if (now == 0)
    text = g_strdup (_("The finished amount is not known, so nothing can be scaled."));
  else if (to == 0)
    text = g_strdup (_("Every line and every finished amount in proportion; minutes stay the "
                       "same."));
  else
    {
      factor = cro_number_to_text ((double) to / (double) now, 4, TRUE);
      /* Translators: %s is a factor, as 1.5. */
      text = g_strdup_printf (_("Every line and every finished amount × %s; minutes stay."), factor);
    }
  gtk_label_set_label (GTK_LABEL (self->hint), text);
}

static void
apply_cb (CroScaleButton *self)
{
  CroBook *book = cro_bench_get_book (self->bench);
  g_autofree char *label = cro_bench_dup_label (self->bench, _("scale"));
  g_autoptr (GError) error = NULL;
  gint64 to = asked (self);

  if (to == 0)
    return;
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->button));
  if (!cro_edit_scale (book, label, cro_bench_get_slot (self->bench), to, &error))
    cro_bench_fail (self->bench, error);
}

static void
shown_cb (CroScaleButton *self)
{
  CroUnit unit;
  gint64 now = made_now (self, &unit);
  g_autofree char *text = now != 0 ? cro_words_decimal (now) : g_strdup ("");
  CroModel *model = cro_book_get_model (cro_bench_get_book (self->bench));
  gboolean is_plate = cro_model_recipe (model, cro_bench_get_slot (self->bench))->is_plate;
  g_autofree char *caption = is_plate ? g_strdup (_("Scale to how many bites"))
                                      /* Translators: %s is a unit. */
                                      : g_strdup_printf (_("Scale to how many %s"),
                                                         cro_words_unit (unit));

  gtk_label_set_label (GTK_LABEL (self->caption), caption);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  gtk_widget_grab_focus (self->entry);
  cro_focus_select (self->entry);
  changed_cb (self);
}

static GtkWidget *
popover_new (CroScaleButton *self)
{
  GtkWidget *popover = gtk_popover_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  self->caption = cro_text_new (NULL, "heading");
  self->entry = cro_entry_new (_("Scale to"), 8);
  self->apply = gtk_button_new_with_label (_("Scale"));
  gtk_widget_add_css_class (self->apply, "suggested-action");
  self->hint = cro_text_new (NULL, "caption");
  gtk_label_set_max_width_chars (GTK_LABEL (self->hint), 32);
  gtk_widget_set_hexpand (self->entry, TRUE);
  gtk_box_append (GTK_BOX (row), self->entry);
  gtk_box_append (GTK_BOX (row), self->apply);
  gtk_box_append (GTK_BOX (box), self->caption);
  gtk_box_append (GTK_BOX (box), row);
  gtk_box_append (GTK_BOX (box), self->hint);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  g_signal_connect_object (popover, "show", G_CALLBACK (shown_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "changed", G_CALLBACK (changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "activate", G_CALLBACK (apply_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->apply, "clicked", G_CALLBACK (apply_cb), self, G_CONNECT_SWAPPED);
  return popover;
}

static void
cro_scale_button_dispose (GObject *object)
{
  g_clear_pointer (&CRO_SCALE_BUTTON (object)->button, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_scale_button_parent_class)->dispose (object);
}

static void
cro_scale_button_class_init (CroScaleButtonClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_scale_button_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_scale_button_init (CroScaleButton *self)
{
  self->button = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->button), _("Scale to…"));
  cro_spoken_set (self->button, _("Scale to…"));
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->button), popover_new (self));
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_END);
}

GtkWidget *
cro_scale_button_new (CroBench *bench)
{
  CroScaleButton *self = g_object_new (CRO_TYPE_SCALE_BUTTON, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
