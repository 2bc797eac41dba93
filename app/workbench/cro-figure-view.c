#include "config.h"

#include "cro-figure-view.h"

#include <glib/gi18n.h>

#include "cro-wrap.h"

struct _CroFigureView
{
  GtkWidget     parent_instance;

  GtkWidget    *button;
  GtkWidget    *value;
  GtkWidget    *caption;
  GtkWidget    *note;
  GtkWidget    *popover;

  CroBench     *bench;    /* borrowed */
  CroFigureSum  sum;
};

G_DEFINE_FINAL_TYPE (CroFigureView, cro_figure_view, GTK_TYPE_WIDGET)

const CroSumWords *
cro_sum_words (void)
{
  static CroSumWords words;

  /* Translators: each of these stands behind the number that it names. */
  words = (CroSumWords){
    .bites = _("bites"),
    .a_guest = _("a guest"),
    .seasoning = _("with seasoning"),
    .food = _("food"),
    .labour = _("labour"),
    .tax = _("tax in it"),
    .rate = _("exchange rate"),
    .net = _("net part"),
    .comes_back = _("comes back"),
    .yield = _("yield"),
    .share = _("of the batch"),
  };
  return &words;
}

static void
link_clicked_cb (CroFigureView *self,
                 GtkButton     *button)
{
  CroRef *ref = g_object_get_data (G_OBJECT (button), "ref");

  gtk_popover_popdown (GTK_POPOVER (self->popover));
  cro_bench_open (self->bench, *ref);
}

static GtkWidget *
token_widget (CroFigureView     *self,
              const CroSumToken *token)
{
  GtkWidget *widget;

  CroRef here = cro_bench_get_ref (self->bench);

  /* What leads where one is leads nowhere. */
  if (token->ref.kind == CRO_REF_NONE
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
  g_signal_connect_swapped (widget, "clicked", G_CALLBACK (link_clicked_cb), self);
  return widget;
}

static void
clicked_cb (CroFigureView *self)
{
  g_autoptr (GPtrArray) sum = self->sum (self->bench);
  GtkWidget *flow;

  if (sum == NULL)
    return;
  flow = cro_wrap_new (6, 3);
  gtk_widget_set_size_request (flow, 360, -1);
  for (guint i = 0; i < sum->len; i++)
    cro_wrap_append (CRO_WRAP (flow), token_widget (self, sum->pdata[i]));
  gtk_popover_set_child (GTK_POPOVER (self->popover), flow);
  gtk_popover_popup (GTK_POPOVER (self->popover));
}

static void
cro_figure_view_dispose (GObject *object)
{
  CroFigureView *self = CRO_FIGURE_VIEW (object);

  g_clear_pointer (&self->popover, gtk_widget_unparent);
  g_clear_pointer (&self->button, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_figure_view_parent_class)->dispose (object);
}

static void
cro_figure_view_class_init (CroFigureViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_figure_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_figure_view_init (CroFigureView *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  self->value = gtk_label_new (NULL);
  self->caption = gtk_label_new (NULL);
  self->note = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->value, "figure");
  gtk_widget_add_css_class (self->value, "numeric");
  gtk_widget_add_css_class (self->caption, "caption");
  gtk_widget_add_css_class (self->note, "caption");
  gtk_widget_add_css_class (self->note, "dim-label");
  for (GtkWidget *const *label = (GtkWidget *const[]){ self->value, self->caption, self->note, NULL };
       *label != NULL; label++)
    {
      gtk_label_set_xalign (GTK_LABEL (*label), 0);
      gtk_box_append (GTK_BOX (box), *label);
    }
  self->button = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (self->button), box);
  gtk_widget_add_css_class (self->button, "flat");
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
  self->popover = gtk_popover_new ();
  gtk_widget_set_parent (self->popover, GTK_WIDGET (self));
  g_signal_connect_swapped (self->button, "clicked", G_CALLBACK (clicked_cb), self);
}

GtkWidget *
cro_figure_view_new (CroBench     *bench,
                     CroFigureSum  sum)
{
  CroFigureView *self = g_object_new (CRO_TYPE_FIGURE_VIEW, NULL);

  self->bench = bench;
  self->sum = sum;
  if (sum != NULL)
    gtk_widget_set_tooltip_text (self->button, _("How this comes about"));
  gtk_widget_set_can_target (self->button, sum != NULL);
  gtk_widget_set_can_focus (self->button, sum != NULL);
  return GTK_WIDGET (self);
}

void
cro_figure_view_set (CroFigureView *self,
                     const char    *value,
                     const char    *caption,
                     const char    *note)
{
  g_autofree char *spoken = g_strconcat (value, " ", caption, note != NULL ? ", " : "", note, NULL);

  gtk_label_set_label (GTK_LABEL (self->value), value);
  gtk_label_set_label (GTK_LABEL (self->caption), caption);
  gtk_label_set_label (GTK_LABEL (self->note), note != NULL ? note : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  spoken, -1);
}
