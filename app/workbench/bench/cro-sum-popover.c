#include "config.h"

#include "cro-sum-popover.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-measure.h"
#include "cro-spoken.h"
#include "cro-wrap.h"

struct _CroSumPopover
{
  GtkPopover  parent_instance;

  CroBench   *bench;    /* borrowed */
  GtkWidget  *before;   /* what had the focus; weak */
};

/* In characters: a sum that is longer breaks. In pixels: its least width, and what the popover itself takes. */
#define MOST_CHARS 90
#define LEAST 360
#define AROUND 60

G_DEFINE_FINAL_TYPE (CroSumPopover, cro_sum_popover, GTK_TYPE_POPOVER)

static void
link_clicked_cb (CroSumPopover *self,
                 GtkButton     *button)
{
  CroRef ref = *(CroRef *) g_object_get_data (G_OBJECT (button), "ref");

  gtk_popover_popdown (GTK_POPOVER (self));
  cro_bench_open (self->bench, ref);
}

static GtkWidget *
token_widget (CroSumPopover     *self,
              const CroSumToken *token)
{
  CroRef here = cro_bench_get_ref (self->bench);
  GtkWidget *widget;

  /* What leads where one is leads nowhere. */
  if (token->ref.kind == CRO_REF_NONE || token->ref.kind == CRO_REF_LINE
      || (token->ref.kind == here.kind && token->ref.slot == here.slot))
    {
      widget = gtk_label_new (token->text);
      gtk_widget_add_css_class (widget, token->kind == CRO_SUM_WORD ? "dim-label" : "numeric");
      return widget;
    }
  widget = gtk_button_new_with_label (token->text);
  gtk_widget_add_css_class (widget, "link");
  g_object_set_data_full (G_OBJECT (widget), "ref", g_memdup2 (&token->ref, sizeof token->ref),
                          g_free);
  g_signal_connect_object (widget, "clicked", G_CALLBACK (link_clicked_cb), self,
                           G_CONNECT_SWAPPED);
  return widget;
}

/* A clamp whose sizes are those of widgets. From libadwaita 1.4 on they would grow with the size of texts once more. */
static GtkWidget *
clamp_new (void)
{
  GtkWidget *clamp = adw_clamp_new ();

  if (g_object_class_find_property (G_OBJECT_GET_CLASS (clamp), "unit") != NULL)
    g_object_set (clamp, "unit", 0 /* ADW_LENGTH_UNIT_PX */, NULL);
  return clamp;
}

/* A clamp takes all that it may. */
static void
set_width (AdwClamp *clamp,
           int       room)
{
  int most = MIN (cro_measure_chars (GTK_WIDGET (clamp), MOST_CHARS), MAX (room, LEAST)), wanted;

  gtk_widget_measure (adw_clamp_get_child (clamp), GTK_ORIENTATION_HORIZONTAL, -1, NULL, &wanted, NULL, NULL);
  adw_clamp_set_maximum_size (clamp, MIN (wanted, most));
  adw_clamp_set_tightening_threshold (clamp, MIN (wanted, most));
}

void
cro_sum_popover_show (CroSumPopover *self,
                      GtkWidget     *anchor,
                      GPtrArray     *sum,
                      const char    *why)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *flow = cro_wrap_new (6, 3), *clamp = clamp_new ();
  graphene_rect_t bounds;

  gtk_widget_set_size_request (flow, LEAST, -1);
  for (guint i = 0; i < sum->len; i++)
    cro_wrap_append (CRO_WRAP (flow), token_widget (self, sum->pdata[i]));
  gtk_box_append (GTK_BOX (box), flow);
  if (why != NULL)
    gtk_box_append (GTK_BOX (box), cro_text_new (why, "dim-label"));
  adw_clamp_set_child (ADW_CLAMP (clamp), box);
  gtk_popover_set_child (GTK_POPOVER (self), clamp);
  set_width (ADW_CLAMP (clamp), gtk_widget_get_width (GTK_WIDGET (gtk_widget_get_root (anchor))) - AROUND);
  if (gtk_widget_compute_bounds (anchor, gtk_widget_get_parent (GTK_WIDGET (self)), &bounds))
    gtk_popover_set_pointing_to (GTK_POPOVER (self),
                                 &(GdkRectangle){ (int) bounds.origin.x, (int) bounds.origin.y,
                                                  (int) bounds.size.width,
                                                  (int) bounds.size.height });
  g_set_weak_pointer (&self->before, gtk_root_get_focus (gtk_widget_get_root (anchor)));
  gtk_popover_popup (GTK_POPOVER (self));
}

static void
closed_cb (CroSumPopover *self)
{
  if (self->before != NULL && gtk_widget_get_mapped (self->before))
    cro_focus_grab (self->before);
  g_clear_weak_pointer (&self->before);
}

static void
cro_sum_popover_dispose (GObject *object)
{
  g_clear_weak_pointer (&CRO_SUM_POPOVER (object)->before);
  G_OBJECT_CLASS (cro_sum_popover_parent_class)->dispose (object);
}

/* It keeps the keys to itself while it is open; those of the places lead on from it too. */
static gboolean
place_cb (GtkWidget *widget,
          GVariant  *place,
          gpointer   user_data)
{
  GtkWidget *parent = gtk_widget_get_parent (widget);

  gtk_popover_popdown (GTK_POPOVER (widget));
  return gtk_widget_activate_action_variant (parent, "win.place", place);
}

static void
cro_sum_popover_class_init (CroSumPopoverClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_sum_popover_dispose;
  for (int place = 0; place < CRO_N_PLACES; place++)
    gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_1 + (guint) place, GDK_ALT_MASK, place_cb, "i",
                                  place);
}

static void
cro_sum_popover_init (CroSumPopover *self)
{
  cro_spoken_set (GTK_WIDGET (self), _("How this is calculated"));
  g_signal_connect (self, "closed", G_CALLBACK (closed_cb), NULL);
}

GtkWidget *
cro_sum_popover_new (CroBench  *bench,
                     GtkWidget *parent)
{
  CroSumPopover *self = g_object_new (CRO_TYPE_SUM_POPOVER, NULL);

  self->bench = bench;
  gtk_widget_set_parent (GTK_WIDGET (self), parent);
  return GTK_WIDGET (self);
}

/* GTK 4.8 never lets go of a popover that is open when it is taken away. */
void
cro_sum_popover_remove (GtkWidget *self)
{
  gtk_popover_popdown (GTK_POPOVER (self));
  gtk_widget_unparent (self);
}
