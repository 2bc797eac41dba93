#include "config.h"

#include "cro-trial-head.h"

#include <glib/gi18n.h>

#include "cro-breakdown.h"
#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-result-words.h"
#include "cro-spoken.h"
#include "cro-wrap.h"

struct _CroTrialHead
{
  GtkWidget  parent_instance;

  GtkWidget *row;
  GtkWidget *back;
  GtkWidget *name;     /* of the plate */
  GtkWidget *result;   /* of the menu */
  guint32    menu;
};

G_DEFINE_FINAL_TYPE (CroTrialHead, cro_trial_head, GTK_TYPE_WIDGET)

void
cro_trial_head_set (CroTrialHead *self,
                    CroModel     *model,
                    guint32       menu,
                    guint32       plate)
{
  const char *name = cro_model_menu (model, menu)->name;
  g_autofree char *text = cro_isolate_printf ("‹ %s", name);
  /* Translators: a button: from a plate of a menu back to the menu, in a trial of that. */
  g_autofree char *spoken = cro_isolate_printf (_("Back to %s"), name);

  self->menu = menu;
  gtk_button_set_label (GTK_BUTTON (self->back), text);
  cro_spoken_set (self->back, spoken);
  gtk_label_set_label (GTK_LABEL (self->name), cro_model_recipe (model, plate)->name);
}

void
cro_trial_head_refresh (CroTrialHead *self,
                        CroFigures   *figures)
{
  CroFigure figure = cro_figure_of_menu (figures, self->menu);
  g_autofree char *cost = cro_words_cost (figures->model, &figure);
  g_autofree char *result = cro_words_result (figures->model, &figure);
  /* Translators: what a guest costs on a menu in a trial of it, and its food cost or what stands for it. */
  g_autofree char *text = cro_isolate_printf (_("in this trial %s per guest, %s"), cost, result);

  gtk_label_set_label (GTK_LABEL (self->result), text);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_trial_head_dispose (GObject *object)
{
  g_clear_pointer (&CRO_TRIAL_HEAD (object)->row, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_trial_head_parent_class)->dispose (object);
}

static void
cro_trial_head_class_init (CroTrialHeadClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_trial_head_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_trial_head_init (CroTrialHead *self)
{
  self->row = cro_wrap_new (12, 3);
  self->back = gtk_button_new ();
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->back), "trial.back");
  self->name = cro_text_new (NULL, "heading");
  self->result = cro_text_new (NULL, NULL);
  cro_wrap_append (CRO_WRAP (self->row), self->back);
  cro_wrap_append (CRO_WRAP (self->row), self->name);
  cro_wrap_append (CRO_WRAP (self->row), self->result);
  gtk_widget_add_css_class (self->row, "bench-head");
  gtk_widget_set_parent (self->row, GTK_WIDGET (self));
}

GtkWidget *
cro_trial_head_new (void)
{
  return g_object_new (CRO_TYPE_TRIAL_HEAD, NULL);
}
