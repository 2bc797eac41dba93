#include "config.h"

#include "cro-causes-view.h"

#include <glib/gi18n.h>

#include "cro-cause.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Buttons shown at once; the others are told as a number. */
#define MOST_SHOWN 4

struct _CroCausesView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  CroBench  *bench;   /* borrowed */
  char      *shown;   /* what the buttons say, to leave them alone where nothing moved */
};

G_DEFINE_FINAL_TYPE (CroCausesView, cro_causes_view, GTK_TYPE_WIDGET)

/* Where a cause is cured. */
static CroRef
cure_of (CroModel       *model,
         const CroCause *cause)
{
  if (cause->kind == CRO_CAUSE_WAGE)
    return CRO_REF (CRO_REF_HOUSE, CRO_NO_SLOT);
  for (guint32 i = 0; i < model->items->len; i++)
    if (cro_model_item (model, i)->name == cause->name && !cro_model_item (model, i)->is_dead)
      return CRO_REF (CRO_REF_ITEM, i);
  for (guint32 i = 0; i < model->recipes->len; i++)
    if (cro_model_recipe (model, i)->name == cause->name && !cro_model_recipe (model, i)->is_dead)
      return CRO_REF (CRO_REF_RECIPE, i);
  return CRO_REF_NOWHERE;
}

static void
clicked_cb (CroCausesView *self,
            GtkButton     *button)
{
  CroRef *cure = g_object_get_data (G_OBJECT (button), "cure");

  if (cure->kind != CRO_REF_NONE)
    cro_bench_open (self->bench, *cure);
}

static void
add_button (CroCausesView  *self,
            CroModel       *model,
            const CroCause *cause)
{
  g_autofree char *words = cro_words_cause (cause);
  g_autofree char *label = g_strconcat ("? ", words, NULL);
  GtkWidget *button = gtk_button_new_with_label (label);
  CroRef cure = cure_of (model, cause);

  gtk_widget_add_css_class (button, "missing");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  g_object_set_data_full (G_OBJECT (button), "cure", g_memdup2 (&cure, sizeof cure), g_free);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked_cb), self);
  cro_wrap_append (CRO_WRAP (self->box), button);
}

void
cro_causes_view_set (CroCausesView *self,
                     GArray        *causes)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (self->bench));
  g_autoptr (GString) says = g_string_new (NULL);

  for (guint i = 0; i < causes->len; i++)
    {
      g_autofree char *text = cro_cause_to_text (&g_array_index (causes, CroCause, i));

      g_string_append_printf (says, "%s\n", text);
    }
  if (g_strcmp0 (says->str, self->shown) == 0)
    return;
  g_free (self->shown);
  self->shown = g_strdup (says->str);
  cro_wrap_clear (CRO_WRAP (self->box));
  for (guint i = 0; i < MIN (causes->len, MOST_SHOWN); i++)
    add_button (self, model, &g_array_index (causes, CroCause, i));
  if (causes->len > MOST_SHOWN)
    {
      guint others = causes->len - MOST_SHOWN;
      g_autofree char *text = g_strdup_printf (ngettext ("and %u other", "and %u others", others),
                                               others);

      cro_wrap_append (CRO_WRAP (self->box), gtk_label_new (text));
    }
  gtk_widget_set_visible (self->box, causes->len > 0);
}

static void
cro_causes_view_dispose (GObject *object)
{
  CroCausesView *self = CRO_CAUSES_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->shown, g_free);
  G_OBJECT_CLASS (cro_causes_view_parent_class)->dispose (object);
}

static void
cro_causes_view_class_init (CroCausesViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_causes_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "causes");
}

static void
cro_causes_view_init (CroCausesView *self)
{
  self->box = cro_wrap_new (6, 6);
  gtk_widget_set_valign (self->box, GTK_ALIGN_CENTER);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_set_visible (self->box, FALSE);
}

GtkWidget *
cro_causes_view_new (CroBench *bench)
{
  CroCausesView *self = g_object_new (CRO_TYPE_CAUSES_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
