#include "config.h"

#include "cro-overview.h"

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-room.h"
#include "cro-spoken.h"
#include "cro-state.h"
#include "cro-switch.h"
#include "cro-wrap.h"

#define MOST_VIEWS 4

typedef struct
{
  GtkWidget       *box;
  GtkWidget       *title;
  GtkWidget       *switcher;
  GtkWidget       *pages;       /* "nothing" or "views" */
  GtkWidget       *views;
  GtkWidget       *nothing;     /* the sentence, */
  GtkWidget       *line;        /* where the first is typed, */
  GtkWidget       *reason;      /* why that is not one, */
  GtkWidget       *button;
  CroBook         *shown;       /* weak */
  CroOverviewView  all[MOST_VIEWS];
  guint            n;
} CroOverviewPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (CroOverview, cro_overview, CRO_TYPE_BENCH)

/* --- Views ------------------------------------------------------------------------------------ */

static const CroOverviewView *
view_in_sight (CroOverview *self)
{
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);
  GtkWidget *child = gtk_stack_get_visible_child (GTK_STACK (priv->views));

  for (guint i = 0; i < priv->n; i++)
    if (priv->all[i].widget == child)
      return &priv->all[i];
  return NULL;
}

static void
refresh_view (CroOverview *self)
{
  const CroOverviewView *view = view_in_sight (self);

  if (view != NULL && view->refresh != NULL)
    view->refresh (view->widget);
}

static gboolean
is_empty (CroOverview *self)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (CRO_BENCH (self)));
  CroKind kind = CRO_OVERVIEW_GET_CLASS (self)->kind;

  for (guint32 slot = 0; slot < cro_kind_n_slots (model, kind); slot++)
    if (cro_kind_name (model, kind, slot) != NULL)
      return FALSE;
  return TRUE;
}

static void
switched_cb (CroOverview *self)
{
  const CroOverviewView *view = view_in_sight (self);
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);

  if (view == NULL || priv->shown == NULL)
    return;
  cro_state_set_int ("window", G_OBJECT_TYPE_NAME (self), (int) view->number);
  refresh_view (self);
}

static void
put_book (CroOverview *self)
{
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);

  for (guint i = 0; i < priv->n; i++)
    if (priv->all[i].set_book != NULL)
      priv->all[i].set_book (priv->all[i].widget, priv->shown);
}

/* An empty book comes up sooner without them. */
static void
need_views (CroOverview *self)
{
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);

  if (priv->n > 0 || is_empty (self))
    return;
  CRO_OVERVIEW_GET_CLASS (self)->add_views (self);
  if (priv->shown != NULL)
    put_book (self);
  /* Not of the first that is added: the one that was seen last is remembered. */
  g_signal_connect_object (priv->views, "notify::visible-child", G_CALLBACK (switched_cb), self,
                           G_CONNECT_SWAPPED);
}

static void
cro_overview_refresh (CroBench *bench)
{
  CroOverview *self = CRO_OVERVIEW (bench);
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);
  gboolean is_past = cro_book_is_past (cro_bench_get_book (bench), NULL);

  need_views (self);
  gtk_widget_set_sensitive (priv->line, !is_past);
  gtk_widget_set_visible (priv->switcher, priv->n > 1 && !is_empty (self));
  gtk_stack_set_visible_child_name (GTK_STACK (priv->pages), is_empty (self) ? "nothing" : "views");
  if (!is_empty (self))
    refresh_view (self);
}

static void
book_changed_cb (CroOverview *self,
                 CroBook     *book)
{
  if (book == cro_bench_get_book (CRO_BENCH (self)) && gtk_widget_get_mapped (GTK_WIDGET (self)))
    cro_overview_refresh (CRO_BENCH (self));
}

static void
cro_overview_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cro_overview_parent_class)->map (widget);
  if (cro_bench_get_book (CRO_BENCH (widget)) != NULL)
    cro_overview_refresh (CRO_BENCH (widget));
}

static void
cro_overview_show (CroBench *bench)
{
  CroOverview *self = CRO_OVERVIEW (bench);
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);

  if (priv->shown != cro_bench_get_book (bench))
    {
      if (priv->shown != NULL)
        g_signal_handlers_disconnect_by_data (priv->shown, self);
      g_set_weak_pointer (&priv->shown, cro_bench_get_book (bench));
      /* A bench of no one thing is not told. */
      g_signal_connect_object (priv->shown, "changed", G_CALLBACK (book_changed_cb), self,
                               G_CONNECT_SWAPPED | G_CONNECT_AFTER);
      put_book (self);
    }
  cro_overview_refresh (bench);
}

/* --- Which one is seen ------------------------------------------------------------------------ */

gboolean
cro_overview_show_view (CroOverview *self,
                        guint        number)
{
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);

  for (guint i = 0; i < priv->n; i++)
    if (priv->all[i].number == number && !is_empty (self))
      {
        gtk_stack_set_visible_child (GTK_STACK (priv->views), priv->all[i].widget);
        return TRUE;
      }
  return FALSE;
}

/* The benches stand in one stack, where what was opened is seen then; NULL: there is none. */
static GtkWidget *
open_bench (CroBench *from,
            CroRef    ref)
{
  GtkWidget *benches = gtk_widget_get_parent (GTK_WIDGET (from));

  cro_bench_open (from, ref);
  return GTK_IS_STACK (benches) ? gtk_stack_get_visible_child (GTK_STACK (benches)) : NULL;
}

/* Pictures are counted from 0. */
void
cro_overview_open (CroBench *from,
                   CroRef    overview,
                   guint     number)
{
  GtkWidget *bench = open_bench (from, overview);

  if (bench != NULL)
    gtk_widget_activate_action (bench, "bench.picture", "i", (int) number - 1);
}

/* A key that names a view leads into it: what is typed next is meant for it. Keys count from 0, as
 * those of pictures do; there is no view of the one that closes them. */
static void
picture_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  CroOverview *self = CRO_OVERVIEW (widget);

  GtkWidget *view;

  if (!cro_overview_show_view (self, (guint) g_variant_get_int32 (parameter) + 1))
    return;
  view = view_in_sight (self)->widget;
  /* A view that says where one begins, otherwise its first field. */
  if (!gtk_widget_grab_focus (view))
    cro_focus_first (view);
}

/* --- The first thing -------------------------------------------------------------------------- */

static void
line_activate_cb (CroOverview *self)
{
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);
  CroRef made = CRO_REF_NOWHERE;
  g_autofree char *reason = CRO_OVERVIEW_GET_CLASS (self)->make (
      self, gtk_editable_get_text (GTK_EDITABLE (priv->line)), &made);
  GtkWidget *bench, *next;

  gtk_label_set_label (GTK_LABEL (priv->reason), reason != NULL ? reason : "");
  gtk_widget_set_visible (priv->reason, reason != NULL);
  if (reason != NULL)
    return;
  gtk_editable_set_text (GTK_EDITABLE (priv->line), "");
  bench = open_bench (CRO_BENCH (self), made);
  /* The next line is typed where that of a recipe is. */
  next = bench != NULL && bench != GTK_WIDGET (self) ? cro_focus_find (bench, "quick") : NULL;
  if (next != NULL)
    gtk_widget_grab_focus (next);
}

static GtkWidget *
nothing_new (CroOverview *self)
{
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  priv->nothing = cro_text_new ("", "heading");
  priv->line = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (priv->line), 32);
  gtk_widget_add_css_class (priv->line, "quick");
  priv->reason = cro_text_new ("", "reason");
  gtk_widget_set_visible (priv->reason, FALSE);
  priv->button = gtk_button_new ();
  gtk_actionable_set_action_name (GTK_ACTIONABLE (priv->button), "win.new-thing");
  gtk_widget_set_halign (priv->button, GTK_ALIGN_CENTER);
  g_signal_connect_object (priv->line, "activate", G_CALLBACK (line_activate_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), priv->nothing);
  gtk_box_append (GTK_BOX (box), priv->line);
  /* What is not said yet asks for no font of its own. */
  gtk_box_append (GTK_BOX (box), cro_room_new (priv->reason, cro_text_new ("", NULL)));
  gtk_box_append (GTK_BOX (box), priv->button);
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_vexpand (box, TRUE);
  gtk_widget_add_css_class (box, "part");
  return box;
}

/* --- The bench -------------------------------------------------------------------------------- */

static void
cro_overview_dispose (GObject *object)
{
  CroOverviewPrivate *priv = cro_overview_get_instance_private (CRO_OVERVIEW (object));

  if (priv->views != NULL)
    g_signal_handlers_disconnect_by_data (priv->views, object);
  priv->views = NULL;
  g_clear_pointer (&priv->box, gtk_widget_unparent);
  g_clear_weak_pointer (&priv->shown);
  G_OBJECT_CLASS (cro_overview_parent_class)->dispose (object);
}

static void
cro_overview_class_init (CroOverviewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_overview_dispose;
  GTK_WIDGET_CLASS (klass)->map = cro_overview_map;
  CRO_BENCH_CLASS (klass)->show = cro_overview_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_overview_refresh;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "bench.picture", "i", picture_cb);
}

static void
cro_overview_init (CroOverview *self)
{
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);
  GtkWidget *head = cro_wrap_new (18, 6);

  priv->title = cro_heading_new ("");
  priv->views = gtk_stack_new ();
  gtk_stack_set_hhomogeneous (GTK_STACK (priv->views), FALSE);
  gtk_stack_set_vhomogeneous (GTK_STACK (priv->views), FALSE);
  gtk_widget_set_vexpand (priv->views, TRUE);
  priv->switcher = cro_switch_new (GTK_STACK (priv->views));
  cro_wrap_append (CRO_WRAP (head), priv->title);
  cro_wrap_append (CRO_WRAP (head), priv->switcher);
  priv->pages = gtk_stack_new ();
  gtk_stack_set_hhomogeneous (GTK_STACK (priv->pages), FALSE);
  /* First: a text that was typed there is found again by how many fields stand before its own. */
  gtk_stack_add_named (GTK_STACK (priv->pages), nothing_new (self), "nothing");
  gtk_stack_add_named (GTK_STACK (priv->pages), priv->views, "views");
  priv->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_add_css_class (priv->box, "bench");
  gtk_box_append (GTK_BOX (priv->box), head);
  gtk_box_append (GTK_BOX (priv->box), priv->pages);
  gtk_widget_set_parent (priv->box, GTK_WIDGET (self));
}

void
cro_overview_set_texts (CroOverview *self,
                        const char  *title,
                        const char  *nothing,
                        const char  *example,
                        const char  *button)
{
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);

  gtk_label_set_label (GTK_LABEL (priv->title), title);
  gtk_label_set_label (GTK_LABEL (priv->nothing), nothing);
  gtk_entry_set_placeholder_text (GTK_ENTRY (priv->line), example);
  cro_spoken_set (priv->line, nothing);
  gtk_button_set_label (GTK_BUTTON (priv->button), button);
}

void
cro_overview_add_view (CroOverview           *self,
                       const CroOverviewView *view)
{
  CroOverviewPrivate *priv = cro_overview_get_instance_private (self);
  g_autofree char *name = g_strdup_printf ("%u", view->number);

  g_assert (priv->n < MOST_VIEWS);
  priv->all[priv->n++] = *view;
  gtk_stack_add_titled (GTK_STACK (priv->views), view->widget, name, view->title);
  if (cro_state_get_int ("window", G_OBJECT_TYPE_NAME (self), 0) == (int) view->number)
    gtk_stack_set_visible_child (GTK_STACK (priv->views), view->widget);
}
