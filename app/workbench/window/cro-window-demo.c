#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-spoken.h"
#include "cro-state.h"
#include "cro-wrap.h"
#include "places.h"

/* A job for each of the three who open the demo. Pressing it leads to where it is done: a place,
 * and what the bench there does for it. */
static const struct { const char *key, *who, *job; CroPlace place; const char *action; } notes[] = {
  { "chef", N_("Chef"), N_("the crab croustade lacks one price"), CRO_PLACE_PLATES, NULL },
  { "purchasing", N_("Purchasing manager"), N_("which price moved most?"), CRO_PLACE_MARKET,
    "market.what-moved" },
  { "accountant", N_("Accountant"), N_("does last month agree with the ledger?"), CRO_PLACE_MONTHS,
    "months.last" },
};

/* The plate on which the demo opens. */
#define DEMO_PLATE "Crab croustade"

char *
cro_window_dup_demo_folder (void)
{
  static const char *const folders[] = { CRO_DATA_DIR "/demo", CRO_SOURCE_DIR "/data/demo" };

  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    if (g_file_test (folders[i], G_FILE_TEST_IS_DIR))
      return g_strdup (folders[i]);
  return NULL;
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

/* The missing price of the demo's plate is a button beside the figures, which waits for Enter. */
static void
open_demo_plate (CroWindow *self)
{
  guint32 plate = find_demo_plate (cro_book_get_model (self->book));
  GtkWidget *figures, *cure;

  if (plate == CRO_NO_SLOT)
    return;
  cro_window_open_ref (self, CRO_REF (CRO_REF_RECIPE, plate));
  figures = cro_focus_find (GTK_WIDGET (self->bench), "figures");
  cure = figures != NULL ? cro_focus_find (figures, "missing") : NULL;
  if (cure != NULL)
    gtk_widget_grab_focus (cure);
}

/* --- Notes ---------------------------------------------------------------------------------------- */

static void
note_cb (GtkWidget *button)
{
  CroWindow *self = CRO_WINDOW (gtk_widget_get_root (button));
  gsize i = GPOINTER_TO_SIZE (g_object_get_data (G_OBJECT (button), "note"));

  if (notes[i].action == NULL)
    {
      open_demo_plate (self);
      return;
    }
  gtk_widget_activate_action (button, "win.place", "i", (int) notes[i].place);
  gtk_widget_activate_action (gtk_stack_get_visible_child (self->bench), notes[i].action, NULL);
}

static void
dismiss_cb (GtkButton *button)
{
  CroWindow *self = CRO_WINDOW (gtk_widget_get_root (GTK_WIDGET (button)));

  cro_state_set_text ("notes", g_object_get_data (G_OBJECT (button), "key"), "dismissed");
  gtk_widget_unparent (gtk_widget_get_parent (GTK_WIDGET (button)));
  cro_window_fit_notes (self);
}

void
cro_window_fit_notes (CroWindow *self)
{
  GtkWidget *all = gtk_widget_get_first_child (self->notes), *others, *note;
  gboolean is_folded = cro_sided_is_tight (self->sided) && !self->are_notes_open;
  guint n = 0;

  if (all == NULL)
    return;
  others = gtk_widget_get_last_child (all);
  for (note = gtk_widget_get_first_child (all); note != others; note = gtk_widget_get_next_sibling (note))
    gtk_widget_set_visible (note, n++ == 0 || !is_folded);
  gtk_widget_set_visible (others, is_folded && n > 1);
  if (n > 1)
    {
      g_autofree char *text = g_strdup_printf (ngettext ("Show %u More", "Show %u More", n - 1), n - 1);

      gtk_button_set_label (GTK_BUTTON (others), text);
    }
  gtk_widget_set_visible (self->notes, n > 0);
}

/* The first of those that were folded has the focus that the button had. */
static void
open_notes_cb (CroWindow *self)
{
  GtkWidget *all = gtk_widget_get_first_child (self->notes);
  GtkWidget *second = gtk_widget_get_next_sibling (gtk_widget_get_first_child (all));

  self->are_notes_open = TRUE;
  for (GtkWidget *note = second; note != NULL; note = gtk_widget_get_next_sibling (note))
    gtk_widget_set_visible (note, TRUE);
  gtk_widget_child_focus (second, GTK_DIR_TAB_FORWARD);
  cro_window_fit_notes (self);
}

static GtkWidget *
others_new (CroWindow *self)
{
  GtkWidget *others = gtk_button_new_with_label ("");

  gtk_widget_add_css_class (others, "flat");
  g_signal_connect_object (others, "clicked", G_CALLBACK (open_notes_cb), self, G_CONNECT_SWAPPED);
  return others;
}

static GtkWidget *
note_new (gsize i)
{
  GtkWidget *note = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  /* Translators: somebody's trade, and what there is to do for them. */
  g_autofree char *text = g_strdup_printf (_("%s: %s"), _(notes[i].who), _(notes[i].job));
  GtkWidget *label = gtk_label_new (text);
  GtkWidget *go = gtk_button_new ();
  g_autofree char *name = g_strdup_printf (_("Dismiss the note for: %s"), _(notes[i].who));
  GtkWidget *dismiss = cro_icon_button_new ("window-close-symbolic", name);

  gtk_widget_add_css_class (note, "note");
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_button_set_child (GTK_BUTTON (go), label);
  cro_spoken_set (go, text);
  gtk_widget_add_css_class (go, "flat");
  g_object_set_data (G_OBJECT (go), "note", GSIZE_TO_POINTER (i));
  g_signal_connect (go, "clicked", G_CALLBACK (note_cb), NULL);
  g_object_set_data (G_OBJECT (dismiss), "key", (gpointer) notes[i].key);
  g_signal_connect (dismiss, "clicked", G_CALLBACK (dismiss_cb), NULL);
  gtk_box_append (GTK_BOX (note), go);
  gtk_box_append (GTK_BOX (note), dismiss);
  return note;
}

void
cro_window_show_notes (CroWindow *self)
{
  CroModel *model = cro_book_get_model (self->book);
  /* Another book may bear its name. */
  gboolean is_demo = g_strcmp0 (model->name, CRO_DEMO_BOOK) == 0 && find_demo_plate (model) != CRO_NO_SLOT;
  g_autofree char *seen = cro_state_dup_text (self->path, "table");
  GtkWidget *all = gtk_widget_get_first_child (self->notes);

  if (all != NULL)
    gtk_box_remove (GTK_BOX (self->notes), all);
  all = cro_wrap_new (12, 0);
  gtk_box_append (GTK_BOX (self->notes), all);
  for (gsize i = 0; is_demo && i < G_N_ELEMENTS (notes); i++)
    {
      g_autofree char *dismissed = cro_state_dup_text ("notes", notes[i].key);

      if (dismissed == NULL)
        cro_wrap_append (CRO_WRAP (all), note_new (i));
    }
  cro_wrap_append (CRO_WRAP (all), others_new (self));
  cro_window_fit_notes (self);
  if (is_demo && seen == NULL)
    {
      open_demo_plate (self);
      g_array_set_size (self->before, 0);
      gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.back", FALSE);
    }
}
