#include "config.h"

#include "cro-used-in-view.h"

#include <glib/gi18n.h>

#include "cro-words.h"
#include "cro-wrap.h"

/* Buttons shown at once: salt is in everything. */
#define MOST_SHOWN 24

struct _CroUsedInView
{
  GtkWidget  parent_instance;

  GtkWidget *wrap;
  CroBench  *bench;    /* borrowed */
  char      *shown;    /* what the buttons say, to leave them alone where nothing moved */
};

G_DEFINE_FINAL_TYPE (CroUsedInView, cro_used_in_view, GTK_TYPE_WIDGET)

/* What one recipe takes of one item, in all its lines. */
typedef struct
{
  guint32 recipe;
  guint32 item;
  double  net;         /* base units that go in, less what comes back */
} Use;

static double
net_of (CroFigures *figures,
        guint32     row,
        guint32     item)
{
  CroModel *model = figures->model;
  double net = 0;

  for (guint32 i = figures->graph.first[row]; i < figures->graph.first[row + 1]; i++)
    if (model->lines.item[figures->graph.line_slot[i]] == item)
      net += cro_line_net (&model->lines, figures->graph.line_slot[i], &model->measures[item]);
  return net;
}

static void
collect (CroFigures *figures,
         guint32     item,
         GArray     *uses)
{
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, item);

  /* Rows that use a node stand rising, so that one that does twice does so in a run. */
  for (guint32 u = graph->used_first[node]; u < graph->used_first[node + 1]; u++)
    if (u == graph->used_first[node] || graph->used_in[u] != graph->used_in[u - 1])
      {
        Use use = { graph->slot_of_row[graph->used_in[u]], item,
                    uses->len < MOST_SHOWN ? net_of (figures, graph->used_in[u], item) : 0 };

        g_array_append_val (uses, use);
      }
}

static char *
text_of (CroModel  *model,
         const Use *use,
         gboolean   is_one_of_several)
{
  g_autofree char *amount = cro_words_amount ((CroBase) model->measures[use->item].base, use->net);

  if (is_one_of_several)
    /* Translators: a recipe, and how much it takes of which thing. */
    return g_strdup_printf (_("%s · %s %s"), cro_model_recipe (model, use->recipe)->name, amount,
                            cro_model_item (model, use->item)->name);
  /* Translators: a recipe, and how much of the thing it takes. */
  return g_strdup_printf (_("%s · %s"), cro_model_recipe (model, use->recipe)->name, amount);
}

static void
clicked_cb (CroUsedInView *self,
            GtkButton     *button)
{
  guint32 recipe = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "recipe"));

  cro_bench_open (self->bench, CRO_REF (CRO_REF_RECIPE, recipe));
}

static void
add_text (CroUsedInView *self,
          const char    *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_widget_add_css_class (label, "dim-label");
  cro_wrap_append (CRO_WRAP (self->wrap), label);
}

static void
rebuild (CroUsedInView *self,
         CroModel      *model,
         GArray        *uses,
         gboolean       are_several)
{
  cro_wrap_clear (CRO_WRAP (self->wrap));
  for (guint i = 0; i < MIN (uses->len, MOST_SHOWN); i++)
    {
      const Use *use = &g_array_index (uses, Use, i);
      g_autofree char *text = text_of (model, use, are_several);
      GtkWidget *button = gtk_button_new_with_label (text);

      gtk_label_set_ellipsize (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button))),
                               PANGO_ELLIPSIZE_END);
      g_object_set_data (G_OBJECT (button), "recipe", GUINT_TO_POINTER (use->recipe));
      g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked_cb), self);
      cro_wrap_append (CRO_WRAP (self->wrap), button);
    }
  if (uses->len == 0)
    add_text (self, _("Nothing takes it yet."));
  if (uses->len > MOST_SHOWN)
    {
      guint others = uses->len - MOST_SHOWN;
      g_autofree char *text = g_strdup_printf (ngettext ("and %u other", "and %u others", others),
                                               others);

      add_text (self, text);
    }
}

void
cro_used_in_view_set (CroUsedInView *self,
                      const guint32 *items,
                      guint          n)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (self->bench));
  g_autoptr (GArray) uses = g_array_new (FALSE, FALSE, sizeof (Use));
  g_autoptr (GString) says = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    collect (figures, items[i], uses);
  for (guint i = 0; i < MIN (uses->len, MOST_SHOWN); i++)
    {
      g_autofree char *text = text_of (figures->model, &g_array_index (uses, Use, i), n > 1);

      g_string_append_printf (says, "%u %s\n", g_array_index (uses, Use, i).recipe, text);
    }
  g_string_append_printf (says, "%u", uses->len);
  if (g_strcmp0 (says->str, self->shown) == 0)
    return;
  g_free (self->shown);
  self->shown = g_strdup (says->str);
  rebuild (self, figures->model, uses, n > 1);
}

static void
cro_used_in_view_dispose (GObject *object)
{
  CroUsedInView *self = CRO_USED_IN_VIEW (object);

  g_clear_pointer (&self->wrap, gtk_widget_unparent);
  g_clear_pointer (&self->shown, g_free);
  G_OBJECT_CLASS (cro_used_in_view_parent_class)->dispose (object);
}

static void
cro_used_in_view_class_init (CroUsedInViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_used_in_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_used_in_view_init (CroUsedInView *self)
{
  self->wrap = cro_wrap_new (6, 6);
  gtk_widget_set_parent (self->wrap, GTK_WIDGET (self));
}

GtkWidget *
cro_used_in_view_new (CroBench *bench)
{
  CroUsedInView *self = g_object_new (CRO_TYPE_USED_IN_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
