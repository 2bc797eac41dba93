#include "config.h"

#include "cro-allergens-view.h"

#include <glib/gi18n.h>

#include "cro-allergen.h"
#include "cro-field.h"
#include "cro-words.h"
#include "cro-wrap.h"

struct _CroAllergensView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *not_known;
  GtkWidget *none;
  GtkWidget *some;
  GtkWidget *groups[CRO_N_ALLERGENS];

  CroBench  *bench;       /* borrowed */
  gboolean   is_setting;
};

G_DEFINE_FINAL_TYPE (CroAllergensView, cro_allergens_view, GTK_TYPE_WIDGET)

static const CroItem *
item_of (CroAllergensView *self)
{
  return cro_model_item (cro_book_get_model (cro_bench_get_book (self->bench)),
                         cro_bench_get_slot (self->bench));
}

static gboolean
is_active (GtkWidget *button)
{
  return gtk_check_button_get_active (GTK_CHECK_BUTTON (button));
}

static void
set_active (GtkWidget *button,
            gboolean   active)
{
  gtk_check_button_set_active (GTK_CHECK_BUTTON (button), active);
}

void
cro_allergens_view_refresh (CroAllergensView *self)
{
  gint32 mask = item_of (self)->allergens;

  self->is_setting = TRUE;
  set_active (mask < 0 ? self->not_known : mask == 0 ? self->none : self->some, TRUE);
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    set_active (self->groups[i], mask > 0 && (mask & 1 << i) != 0);
  self->is_setting = FALSE;
}

static void
write_cell (CroAllergensView *self,
            CroCell           cell)
{
  g_autofree char *label = cro_bench_dup_label (self->bench, _("allergens"));
  g_autoptr (GError) error = NULL;

  if (!cro_book_set (cro_bench_get_book (self->bench), label, "ingredient", item_of (self)->id,
                     "allergens", &cell, &error))
    {
      cro_bench_fail (self->bench, error);
      cro_allergens_view_refresh (self);
    }
}

/* With the last tick gone nobody has said that there are none. */
static void
group_cb (CroAllergensView *self)
{
  gint64 mask = 0;

  if (self->is_setting)
    return;
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    if (is_active (self->groups[i]))
      mask |= 1 << i;
  write_cell (self, mask != 0 ? CRO_CELL_INT (mask) : CRO_CELL_NONE);
}

/* "Contains" says nothing until a group is ticked. */
static void
answer_cb (CroAllergensView *self,
           GtkWidget        *button)
{
  if (self->is_setting || !is_active (button))
    return;
  if (button == self->some)
    gtk_widget_grab_focus (self->groups[0]);
  else
    write_cell (self, button == self->none ? CRO_CELL_INT (0) : CRO_CELL_NONE);
}

static GtkWidget *
answer_new (CroAllergensView *self,
            GtkWidget        *row,
            const char       *label)
{
  GtkWidget *button = gtk_check_button_new_with_label (label);

  if (self->not_known != NULL)
    gtk_check_button_set_group (GTK_CHECK_BUTTON (button), GTK_CHECK_BUTTON (self->not_known));
  g_signal_connect_object (button, "toggled", G_CALLBACK (answer_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (row), button);
  return button;
}

static void
cro_allergens_view_dispose (GObject *object)
{
  g_clear_pointer (&CRO_ALLERGENS_VIEW (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_allergens_view_parent_class)->dispose (object);
}

static void
cro_allergens_view_class_init (CroAllergensViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_allergens_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_allergens_view_init (CroAllergensView *self)
{
  GtkWidget *answers = cro_wrap_new (12, 6);
  GtkWidget *groups = cro_wrap_new (12, 6);

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->not_known = answer_new (self, answers, _("Not stated"));
  self->none = answer_new (self, answers, _("None of the 14 allergens"));
  self->some = answer_new (self, answers, _("Contains"));
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    {
      g_autofree char *name = cro_words_allergens (1u << i);

      self->groups[i] = gtk_check_button_new_with_label (name);
      g_signal_connect_object (self->groups[i], "toggled", G_CALLBACK (group_cb), self,
                               G_CONNECT_SWAPPED);
      cro_wrap_append (CRO_WRAP (groups), self->groups[i]);
    }
  gtk_box_append (GTK_BOX (self->box), answers);
  gtk_box_append (GTK_BOX (self->box), groups);
  gtk_box_append (GTK_BOX (self->box), cro_text_new (cro_words_caution (), "caption"));
}

GtkWidget *
cro_allergens_view_new (CroBench *bench)
{
  CroAllergensView *self = g_object_new (CRO_TYPE_ALLERGENS_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
