#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-focus.h"
#include "cro-state.h"

/* A job for each of the three who open the demo: what to do, and where. */
static const struct { const char *key, *who, *job; CroPlace place; const char *button; } notes[] = {
  { "chef", N_("Chef"),
    N_("The crab croustade lacks one price: press “no price for Sea purslane” and type what your "
       "forager asks."),
    CRO_PLACE_PLATES, N_("Plates") },
  { "purchasing", N_("Purchasing manager"),
    N_("Sort the packs by what changed: which price moved most since the one before?"),
    CRO_PLACE_MARKET, N_("Market") },
  { "accountant", N_("Accountant"),
    N_("Read October’s purchases, and hold them against what the ledger says."),
    CRO_PLACE_MONTHS, N_("Months") },
};

/* The plate on which the demo opens. */
#define DEMO_PLATE "Crab croustade"
#define DEMO_BOOK "Saltmarsh Rooms"

char *
cro_window_dup_demo_folder (void)
{
  static const char *const folders[] = { CRO_DATA_DIR "/demo", CRO_SOURCE_DIR "/data/demo" };

  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    if (g_file_test (folders[i], G_FILE_TEST_IS_DIR))
      return g_strdup (folders[i]);
  return NULL;
}

static void
dismiss_cb (GtkButton *button)
{
  GtkWidget *note = gtk_widget_get_parent (GTK_WIDGET (button));
  GtkWidget *box = gtk_widget_get_parent (note);

  cro_state_set_text ("notes", g_object_get_data (G_OBJECT (button), "key"), "dismissed");
  gtk_box_remove (GTK_BOX (box), note);
  gtk_widget_set_visible (box, gtk_widget_get_first_child (box) != NULL);
}

static GtkWidget *
note_new (gsize i)
{
  GtkWidget *note = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  g_autofree char *text = g_strdup_printf ("%s: %s", _(notes[i].who), _(notes[i].job));
  GtkWidget *label = gtk_label_new (text);
  GtkWidget *go = gtk_button_new_with_label (_(notes[i].button));
  GtkWidget *dismiss = gtk_button_new_from_icon_name ("window-close-symbolic");
  g_autofree char *name = g_strdup_printf (_("Dismiss the note for: %s"), _(notes[i].who));

  gtk_widget_add_css_class (note, "note");
  gtk_label_set_width_chars (GTK_LABEL (label), 20);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (go), "win.place");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (go), "i", (int) notes[i].place);
  gtk_widget_set_valign (go, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (dismiss, "flat");
  gtk_widget_set_valign (dismiss, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (dismiss), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_tooltip_text (dismiss, _("Dismiss"));
  g_object_set_data (G_OBJECT (dismiss), "key", (gpointer) notes[i].key);
  g_signal_connect (dismiss, "clicked", G_CALLBACK (dismiss_cb), NULL);
  gtk_box_append (GTK_BOX (note), label);
  gtk_box_append (GTK_BOX (note), go);
  gtk_box_append (GTK_BOX (note), dismiss);
  return note;
}

static guint32
find_demo_plate (CroModel *model)
{
  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    if (cro_model_recipe (model, slot)->is_plate && !cro_model_recipe (model, slot)->is_dead
        && strcmp (cro_model_recipe (model, slot)->name, DEMO_PLATE) == 0)
      return slot;
  return CRO_NO_SLOT;
}

void
cro_window_show_notes (CroWindow *self)
{
  CroModel *model = cro_book_get_model (self->book);
  gboolean is_demo = g_strcmp0 (model->name, DEMO_BOOK) == 0;
  g_autofree char *seen = cro_state_dup_text (self->path, "table");
  guint32 plate = find_demo_plate (model);
  GtkWidget *cure;

  for (GtkWidget *note; (note = gtk_widget_get_first_child (self->notes)) != NULL;)
    gtk_box_remove (GTK_BOX (self->notes), note);
  for (gsize i = 0; is_demo && i < G_N_ELEMENTS (notes); i++)
    {
      g_autofree char *dismissed = cro_state_dup_text ("notes", notes[i].key);

      if (dismissed == NULL)
        gtk_box_append (GTK_BOX (self->notes), note_new (i));
    }
  gtk_widget_set_visible (self->notes, gtk_widget_get_first_child (self->notes) != NULL);
  if (is_demo && seen == NULL && plate != CRO_NO_SLOT)
    {
      cro_window_open_ref (self, CRO_REF (CRO_REF_RECIPE, plate));
      cure = cro_focus_find (GTK_WIDGET (self->bench), "missing");
      if (cure != NULL)
        gtk_widget_grab_focus (cure);
      g_array_set_size (self->before, 0);
      gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.back", FALSE);
    }
}
