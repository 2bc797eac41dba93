#include "config.h"

#include "cro-history-window.h"

#include <glib/gi18n.h>

#include "cro-fold.h"
#include "cro-isolate.h"
#include "cro-past.h"
#include "cro-refused-words.h"
#include "cro-toast.h"
#include "cro-wrap.h"

/* Acts read at once and shown on one page of the list, acts looked at for a page at most, and moves
 * shown of one act. */
#define PAGE 100
#define MOST_ACTS 20000
#define MOST_MOVES 60

struct _CroHistoryWindow
{
  AdwWindow        parent_instance;

  AdwToastOverlay *toasts;
  GtkWidget       *search;
  GtkWidget       *narrow;
  GtkWidget       *list;
  GtkWidget       *earlier;
  GtkWidget       *none;      /* what stands in an empty list */

  CroBook         *book;
  CroRef           thing;
  CroQuery        *query;
  gint64           last;        /* the oldest act looked at; 0: the history ends */
};

G_DEFINE_FINAL_TYPE (CroHistoryWindow, cro_history_window, ADW_TYPE_WINDOW)

static void reload (CroHistoryWindow *self);

static void
say (CroHistoryWindow *self,
     const char       *text)
{
  cro_toast_say (self->toasts, text);
}

/* --- One act ------------------------------------------------------------------------------------------ */

static GtkWidget *
cell_new (const char *text,
          const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_selectable (GTK_LABEL (label), TRUE);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

/* What is said instead of moves, or after them. */
static void
add_remark (GtkWidget  *expander,
            const char *text)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *label = cell_new (text, "dim-label");

  gtk_widget_add_css_class (label, "move");
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (expander), row);
}

static void
add_move (GtkWidget         *expander,
          const CroPastMove *move)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  g_autofree char *what = move->what != NULL ? cro_isolate_printf (_("%s: %s"), move->of, move->what)
                                             : g_strdup (move->of);
  /* Translators: a value before and after a change. */
  g_autofree char *moved = cro_isolate_printf (_("%s → %s"), move->from, move->to);

  gtk_widget_add_css_class (box, "move");
  gtk_box_append (GTK_BOX (box), cell_new (what, "dim-label"));
  gtk_box_append (GTK_BOX (box), cell_new (moved, "numeric"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (expander), row);
}

static void
go_back_cb (CroHistoryWindow *self,
            GtkButton        *button)
{
  gint64 *act = g_object_get_data (G_OBJECT (button), "act");
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL, *why = NULL;
  CroConflict conflict = { 0 };
  guint n = 0;
  gboolean done = cro_past_go_back (self->book, *act, &n, &conflict, &error);

  text = n == 0 ? g_strdup (_("You changed nothing after this."))
                : g_strdup_printf (ngettext ("%u change was undone; Redo brings it back.",
                                             "%u changes were undone; Redo brings them back.", n), n);
  if (!done)
    {
      g_autofree char *all = g_steal_pointer (&text);
      const char *so_far = n > 0 ? all : "";

      why = cro_past_dup_refused (self->book, &conflict, error);
      /* Translators: why going back stopped, and what was undone until then. */
      text = g_strdup_printf (_("Undo stopped there: %s. %s"), why, so_far);
    }
  cro_conflict_clear (&conflict);
  say (self, text);
  reload (self);
}

static void
add_go_back (CroHistoryWindow *self,
             GtkWidget        *expander,
             gint64            act)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = cro_wrap_new (9, 0);
  GtkWidget *button = gtk_button_new_with_label (_("Go Back to Here"));
  GtkWidget *what = cell_new (_("Undoes what you did after this, one by one"), "dim-label");

  gtk_widget_add_css_class (box, "move");
  g_object_set_data_full (G_OBJECT (button), "act", g_memdup2 (&act, sizeof act), g_free);
  g_signal_connect_object (button, "clicked", G_CALLBACK (go_back_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (box), button);
  gtk_label_set_yalign (GTK_LABEL (what), 0.5);
  cro_wrap_append (CRO_WRAP (box), what);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (expander), row);
}

/* What moved is read when somebody looks. */
static void
expanded_cb (GtkWidget  *expander,
             GParamSpec *pspec,
             gpointer    self)
{
  gint64 *act = g_object_get_data (G_OBJECT (expander), "act");
  g_autoptr (GPtrArray) moves = NULL;

  if (g_object_get_data (G_OBJECT (expander), "filled") != NULL)
    return;
  g_object_set_data (G_OBJECT (expander), "filled", GINT_TO_POINTER (TRUE));
  moves = cro_past_list_moves (CRO_HISTORY_WINDOW (self)->book, *act, MOST_MOVES, NULL);
  for (guint i = 0; moves != NULL && i < moves->len; i++)
    add_move (expander, moves->pdata[i]);
  if (moves != NULL && moves->len == MOST_MOVES)
    add_remark (expander, _("and more"));
  else if (moves != NULL && moves->len == 0)
    add_remark (expander, _("The single changes were not kept."));
  add_go_back (self, expander, *act);
}

/* Adds its row, if it is looked for: whether it was. */
static gboolean
add_act (CroHistoryWindow *self,
         const CroPast    *past)
{
  /* Translators: who did something, and when. */
  g_autofree char *who = cro_isolate_printf (_("%s, %s"), past->desk, past->at);
  g_autofree char *all = g_strdup_printf ("%s %s", past->label, who);
  g_autofree char *folded = cro_fold (all);
  GtkWidget *row;

  if (self->query != NULL && cro_query_match (self->query, folded) == CRO_MATCH_NONE)
    return FALSE;
  row = adw_expander_row_new ();
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), past->label);
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (row), who);
  g_object_set_data_full (G_OBJECT (row), "act", g_memdup2 (&past->act, sizeof past->act), g_free);
  g_signal_connect_object (row, "notify::expanded", G_CALLBACK (expanded_cb), self, 0);
  gtk_list_box_append (GTK_LIST_BOX (self->list), row);
  return TRUE;
}

/* --- The list ------------------------------------------------------------------------------------------ */

static void
say_none (CroHistoryWindow *self)
{
  gboolean is_searched = *gtk_editable_get_text (GTK_EDITABLE (self->search)) != '\0';
  gboolean is_narrow = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->narrow));

  gtk_label_set_label (GTK_LABEL (self->none),
                       self->last > 0 ? _("No match here; press “Earlier” to look further back.")
                       : is_searched  ? _("Nothing in the history matches.")
                       : is_narrow    ? _("Nothing here was changed yet.")
                                      : _("Nothing was changed yet."));
}

/* What is looked for is looked for in all of the history, so far as that takes no time. */
static void
add_page (CroHistoryWindow *self)
{
  gboolean is_narrow = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->narrow));
  CroRef thing = is_narrow ? self->thing : CRO_REF_NOWHERE;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) page = NULL;
  guint n = 0, n_acts = 0;

  do
    {
      g_clear_pointer (&page, g_ptr_array_unref);
      page = cro_past_list (self->book, thing, self->last, PAGE, &self->last, &error);
      for (guint i = 0; page != NULL && i < page->len; i++)
        n += add_act (self, page->pdata[i]);
      n_acts += PAGE;
    }
  while (page != NULL && self->last > 0 && n < PAGE && n_acts < MOST_ACTS);
  if (self->last <= 0 && gtk_widget_has_focus (self->earlier))
    gtk_widget_grab_focus (self->search);
  gtk_widget_set_visible (self->earlier, page != NULL && self->last > 0);
  say_none (self);
  if (page == NULL)
    {
      g_autofree char *text = cro_words_failed (error);

      say (self, text);
    }
}

/* The row that has the focus goes: what is looked for may have been typed a moment ago. */
static void
leave_list (CroHistoryWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (focus == NULL || !gtk_widget_is_ancestor (focus, self->list))
    return;
  gtk_widget_grab_focus (self->search);
  gtk_editable_set_position (GTK_EDITABLE (self->search), -1);
}

static void
reload (CroHistoryWindow *self)
{
  leave_list (self);
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), 0)) != NULL;)
    gtk_list_box_remove (GTK_LIST_BOX (self->list), GTK_WIDGET (row));
  self->last = 0;
  add_page (self);
}

/* Who scrolls to the end wants what was before. */
static void
edge_cb (CroHistoryWindow *self,
         GtkPositionType   edge)
{
  if (edge == GTK_POS_BOTTOM && self->last > 0)
    add_page (self);
}

static void
search_changed_cb (CroHistoryWindow *self)
{
  g_clear_pointer (&self->query, cro_query_free);
  self->query = cro_query_new (gtk_editable_get_text (GTK_EDITABLE (self->search)));
  reload (self);
}

/* --- The window ------------------------------------------------------------------------------------------ */

static void
cro_history_window_dispose (GObject *object)
{
  CroHistoryWindow *self = CRO_HISTORY_WINDOW (object);

  g_clear_object (&self->book);
  g_clear_pointer (&self->query, cro_query_free);
  gtk_widget_dispose_template (GTK_WIDGET (self), CRO_TYPE_HISTORY_WINDOW);
  G_OBJECT_CLASS (cro_history_window_parent_class)->dispose (object);
}

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/croustade/Croustade/cro-history-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CroHistoryWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, CroHistoryWindow, search);
  gtk_widget_class_bind_template_child (widget_class, CroHistoryWindow, narrow);
  gtk_widget_class_bind_template_child (widget_class, CroHistoryWindow, list);
  gtk_widget_class_bind_template_child (widget_class, CroHistoryWindow, earlier);
  gtk_widget_class_bind_template_child (widget_class, CroHistoryWindow, none);
  gtk_widget_class_bind_template_callback (widget_class, reload);
  gtk_widget_class_bind_template_callback (widget_class, search_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, gtk_window_close);
  gtk_widget_class_bind_template_callback (widget_class, edge_cb);
  gtk_widget_class_bind_template_callback (widget_class, add_page);
}

static void
cro_history_window_class_init (CroHistoryWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_history_window_dispose;
  bind_template (widget_class);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
cro_history_window_init (CroHistoryWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
cro_history_window_new (GtkWindow *parent,
                        CroBook   *book,
                        CroRef     thing)
{
  CroHistoryWindow *self = g_object_new (CRO_TYPE_HISTORY_WINDOW, "transient-for", parent, NULL);
  const char *name = cro_ref_name (cro_book_get_model (book), thing);
  /* Translators: a switch; %s is what stands on the bench. */
  g_autofree char *only = cro_isolate_printf (_("Only %s"), name != NULL ? name : "");

  self->book = g_object_ref (book);
  self->thing = name != NULL ? thing : CRO_REF_NOWHERE;
  gtk_button_set_label (GTK_BUTTON (self->narrow), only);
  gtk_widget_set_visible (self->narrow, name != NULL);
  gtk_window_set_focus (GTK_WINDOW (self), self->search);
  reload (self);
  return GTK_WIDGET (self);
}
