#include "cro-switch.h"

#include "cro-wrap.h"

#define PAGE "cro-page"
#define PAGES "cro-pages"
#define STACK "cro-stack"

static void
toggled_cb (GtkToggleButton *button,
            GtkStackPage    *page)
{
  GtkWidget *shown = gtk_stack_page_get_child (page);
  GtkStack *stack = GTK_STACK (gtk_widget_get_parent (shown));

  if (gtk_toggle_button_get_active (button) && gtk_stack_get_visible_child (stack) != shown)
    gtk_stack_set_visible_child (stack, shown);
}

static GtkWidget *
button_new (GtkStackPage *page,
            GtkWidget    *group)
{
  GtkWidget *button = gtk_toggle_button_new_with_label (gtk_stack_page_get_title (page));

  gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), GTK_TOGGLE_BUTTON (group));
  g_object_set_data_full (G_OBJECT (button), PAGE, g_object_ref (page), g_object_unref);
  g_signal_connect_object (button, "toggled", G_CALLBACK (toggled_cb), page, 0);
  return button;
}

static void
mark (GtkStack  *stack,
      GtkWidget *bar)
{
  GtkWidget *shown = gtk_stack_get_visible_child (stack);

  /* A stack that goes has none any more. */
  if (shown == NULL)
    return;
  for (GtkWidget *button = gtk_widget_get_first_child (bar); button != NULL;
       button = gtk_widget_get_next_sibling (button))
    if (gtk_stack_page_get_child (g_object_get_data (G_OBJECT (button), PAGE)) == shown)
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), TRUE);
}

static void
shown_cb (GtkStack   *stack,
          GParamSpec *pspec,
          GtkWidget  *bar)
{
  mark (stack, bar);
}

static void
pages_changed_cb (GListModel *pages,
                  guint       position,
                  guint       removed,
                  guint       added,
                  GtkWidget  *bar)
{
  GtkWidget *stack = g_object_get_data (G_OBJECT (bar), STACK), *group = NULL;
  guint n = g_list_model_get_n_items (pages);

  if (gtk_widget_in_destruction (stack))
    return;
  cro_wrap_clear (CRO_WRAP (bar));
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GObject) page = g_list_model_get_object (pages, i);
      GtkWidget *button = button_new (GTK_STACK_PAGE (page), group);

      group = group != NULL ? group : button;
      cro_wrap_append (CRO_WRAP (bar), button);
    }
  mark (GTK_STACK (stack), bar);
}

GtkWidget *
cro_switch_new (GtkStack *stack)
{
  GtkWidget *bar = cro_wrap_new (6, 6);
  g_autoptr (GtkSelectionModel) pages = gtk_stack_get_pages (stack);

  gtk_widget_add_css_class (bar, "switch");
  g_object_set_data (G_OBJECT (bar), STACK, stack);
  /* The stack has its pages for as long as somebody holds them. */
  g_object_set_data_full (G_OBJECT (bar), PAGES, g_object_ref (pages), g_object_unref);
  g_signal_connect_object (pages, "items-changed", G_CALLBACK (pages_changed_cb), bar, 0);
  g_signal_connect_object (stack, "notify::visible-child", G_CALLBACK (shown_cb), bar, 0);
  pages_changed_cb (G_LIST_MODEL (pages), 0, 0, 0, bar);
  return bar;
}
