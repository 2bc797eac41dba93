#include "config.h"

#include "cro-pane.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-pane-box.h"
#include "cro-state.h"
#include "cro-wrap.h"

/* After the frame that a key is seen in. */
#define PRIORITY G_PRIORITY_LOW

static const struct { const char *title, *key; } words[CRO_N_PICTURES] = {
  [CRO_PICTURE_MADE_OF] = { N_("Made of"), "made-of" },
  [CRO_PICTURE_MOVERS] = { N_("What moves it"), "movers" },
  [CRO_PICTURE_PRICE] = { N_("Price"), "price" },
  [CRO_PICTURE_COVERS] = { N_("Covers"), "covers" },
};

struct _CroPane
{
  GtkWidget                parent_instance;

  CroBench                *bench;      /* borrowed */
  const CroPicture *const *pictures;
  GtkWidget               *box;
  GtkWidget               *bar;        /* NULL: there is nothing to choose */
  GtkWidget               *buttons[CRO_N_PICTURES];   /* NULL: there is no such picture */
  GtkWidget               *close;
  GtkWidget               *level;      /* what the thing is made of: may be beside the rows */
  GtkWidget               *stack;      /* all others */
  GtkWidget               *views[CRO_N_PICTURES];     /* NULL: not yet */
  gboolean                 is_put[CRO_N_PICTURES];    /* shows what stands on the bench */
  gboolean                 is_stale[CRO_N_PICTURES];
  CroPictureId             open;       /* CRO_N_PICTURES: none */
  CroPictureId             second;     /* beside the first one, where there is room; CRO_N_PICTURES: none */
  GtkWidget               *rows;       /* borrowed; NULL: none that a picture could be beside */
  const CroPaneRows       *of_rows;
  GtkWidget               *head;       /* of a picture that can be beside them; NULL: it cannot */
  GtkWidget               *drawn;
  gboolean                 is_tied;
  gboolean                 is_beside;  /* the rows have given it room */
  GtkWidget               *came_from;  /* what had the focus before the picture; weak */
  guint                    refresh_id;
  guint                    turn_id;
};

G_DEFINE_FINAL_TYPE (CroPane, cro_pane, GTK_TYPE_WIDGET)

static gboolean
has_three (CroPane *self)
{
  return cro_pane_box_get_columns (CRO_PANE_BOX (self->box)) == 3;
}

static gboolean
is_shown (CroPane      *self,
          CroPictureId  id)
{
  gboolean is_chosen = has_three (self) ? id == CRO_PICTURE_MADE_OF || id == self->second : id == self->open;

  return is_chosen && self->views[id] != NULL
         && cro_pane_box_shows (CRO_PANE_BOX (self->box),
                                id == CRO_PICTURE_MADE_OF ? CRO_PANE_LEVEL : CRO_PANE_PICTURE);
}

/* --- Beside the rows -------------------------------------------------------------------------- */

/* Of another picture too: no row breaks as that comes. */
static void
update_beside (CroPane  *self,
               gboolean  is_tied)
{
  gboolean is_beside = is_tied
                       || (self->open != CRO_N_PICTURES && self->open != CRO_PICTURE_MADE_OF
                           && cro_pane_box_get_columns (CRO_PANE_BOX (self->box)) > 1);

  if (self->rows == NULL || is_beside == self->is_beside)
    return;
  self->is_beside = is_beside;
  self->of_rows->set_beside (self->rows, is_beside);
}

static void
update_tie (CroPane *self)
{
  gboolean is_tied = self->head != NULL && self->rows != NULL && is_shown (self, CRO_PICTURE_MADE_OF)
                     && cro_pane_box_get_columns (CRO_PANE_BOX (self->box)) > 1;

  update_beside (self, is_tied);
  cro_pane_box_set_level (CRO_PANE_BOX (self->box), is_tied ? self->head : NULL,
                          is_tied ? self->drawn : NULL);
  if (is_tied == self->is_tied)
    return;
  self->is_tied = is_tied;
  self->pictures[CRO_PICTURE_MADE_OF]->tie (self->views[CRO_PICTURE_MADE_OF], is_tied);
}

void
cro_pane_ask_tie (CroPane   *self,
                  GtkWidget *head,
                  GtkWidget *drawn)
{
  self->head = head;
  self->drawn = drawn;
  update_tie (self);
}

void
cro_pane_set_rows (CroPane           *self,
                   GtkWidget         *rows,
                   const CroPaneRows *of_rows)
{
  self->rows = rows;
  self->of_rows = of_rows;
}

GtkWidget *
cro_pane_find_row (CroPane *self,
                   guint32  line)
{
  return self->rows != NULL ? self->of_rows->find (self->rows, line) : NULL;
}

/* --- Telling ---------------------------------------------------------------------------------- */

static gboolean
is_in_sight (CroPane      *self,
             CroPictureId  id)
{
  return is_shown (self, id) && gtk_widget_get_mapped (GTK_WIDGET (self));
}

static gboolean
refresh_cb (gpointer user_data)
{
  CroPane *self = user_data;

  self->refresh_id = 0;
  for (int i = 0; i < CRO_N_PICTURES; i++)
    if (is_in_sight (self, (CroPictureId) i) && self->is_put[i] && self->is_stale[i])
      {
        self->is_stale[i] = FALSE;
        self->pictures[i]->refresh (self->views[i]);
      }
  return G_SOURCE_REMOVE;
}

/* Another thing is shown at once: what is seen is never of the one before. */
static void
tell (CroPane *self)
{
  if (cro_bench_get_slot (self->bench) == CRO_NO_SLOT)
    return;
  for (int i = 0; i < CRO_N_PICTURES; i++)
    {
      if (!is_in_sight (self, (CroPictureId) i))
        continue;
      if (!self->is_put[i])
        {
          self->is_put[i] = TRUE;
          self->is_stale[i] = FALSE;
          self->pictures[i]->show (self->views[i]);
        }
      else if (self->is_stale[i])
        cro_bench_defer (self->bench, &self->refresh_id, PRIORITY, refresh_cb, self);
    }
}

void
cro_pane_refresh (CroPane *self)
{
  for (int i = 0; i < CRO_N_PICTURES; i++)
    self->is_stale[i] = TRUE;
  tell (self);
}

/* --- Opening ---------------------------------------------------------------------------------- */

static GtkWidget *
view_of (CroPane      *self,
         CroPictureId  id)
{
  if (self->views[id] == NULL)
    {
      self->views[id] = self->pictures[id]->create (self->bench);
      if (id == CRO_PICTURE_MADE_OF)
        adw_bin_set_child (ADW_BIN (self->level), self->views[id]);
      else
        gtk_stack_add_child (GTK_STACK (self->stack), self->views[id]);
    }
  return self->views[id];
}

static void
mark (CroPane *self)
{
  gboolean is_any = FALSE;

  for (int i = 0; i < CRO_N_PICTURES; i++)
    if (self->buttons[i] != NULL)
      {
        gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->buttons[i]), is_shown (self, (CroPictureId) i));
        is_any |= is_shown (self, (CroPictureId) i);
      }
  if (self->bar == NULL)
    return;
  gtk_widget_set_visible (self->close, is_any);
  /* Where it has its own room it is not one of those to choose from. */
  gtk_widget_set_visible (self->buttons[CRO_PICTURE_MADE_OF],
                          !has_three (self) || self->second == CRO_N_PICTURES);
}

/* Those that are to be shown are made when they first are. */
static void
fill (CroPane *self)
{
  if (self->open == CRO_PICTURE_MADE_OF || (self->open != CRO_N_PICTURES && has_three (self)))
    view_of (self, CRO_PICTURE_MADE_OF);
  if (self->second != CRO_N_PICTURES && (self->open == self->second || has_three (self)))
    gtk_stack_set_visible_child (GTK_STACK (self->stack), view_of (self, self->second));
}

static void
set_open (CroPane      *self,
          CroPictureId  id)
{
  self->open = id;
  if (id != CRO_N_PICTURES && id != CRO_PICTURE_MADE_OF)
    self->second = id;
  cro_pane_box_set_open (CRO_PANE_BOX (self->box), id == CRO_N_PICTURES        ? CRO_PANE_NONE
                                                   : id == CRO_PICTURE_MADE_OF ? CRO_PANE_LEVEL
                                                                               : CRO_PANE_PICTURE);
  fill (self);
}

static CroPictureId
first_of (CroPane *self,
          int      from)
{
  for (int i = from; i < CRO_N_PICTURES; i++)
    if (self->pictures[i] != NULL)
      return (CroPictureId) i;
  return CRO_N_PICTURES;
}

/* Nobody has chosen yet: the first. */
static CroPictureId
remembered (CroPane *self)
{
  g_autofree char *key = cro_state_dup_text ("bench", "picture");

  if (g_strcmp0 (key, "none") == 0)
    return CRO_N_PICTURES;
  for (int i = 0; key != NULL && i < CRO_N_PICTURES; i++)
    if (self->pictures[i] != NULL && g_str_equal (words[i].key, key))
      return (CroPictureId) i;
  return first_of (self, 0);
}

/* Where there is room for one of both only, the lines are what another thing shows first. */
static void
recall (CroPane *self)
{
  CroPictureId id = remembered (self);

  if (id == self->open)
    return;
  set_open (self, id);
  cro_pane_box_show_body (CRO_PANE_BOX (self->box));
}

void
cro_pane_show (CroPane *self)
{
  g_clear_weak_pointer (&self->came_from);
  g_clear_handle_id (&self->refresh_id, g_source_remove);
  for (int i = 0; i < CRO_N_PICTURES; i++)
    self->is_put[i] = FALSE;
  recall (self);
  update_tie (self);
  mark (self);
  tell (self);
}

static void
choose (CroPane      *self,
        CroPictureId  id)
{
  cro_state_set_text ("bench", "picture", id != CRO_N_PICTURES ? words[id].key : "none");
  set_open (self, id);
  update_tie (self);
  mark (self);
  tell (self);
}

/* --- Focus ------------------------------------------------------------------------------------ */

static gboolean
has_focus (CroPane *self)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));

  return focus != NULL
         && (gtk_widget_is_ancestor (focus, self->level)
             || (self->stack != NULL && gtk_widget_is_ancestor (focus, self->stack))
             || (self->bar != NULL && gtk_widget_is_ancestor (focus, self->bar)));
}

static void
note_focus (CroPane *self)
{
  if (!has_focus (self))
    g_set_weak_pointer (&self->came_from, gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self))));
}

/* To the cell that one came from; where its row is gone, to the first that there is. */
static gboolean
go_back (CroPane *self)
{
  GtkWidget *lines;

  if (!has_focus (self))
    return FALSE;
  if (cro_pane_box_show_body (CRO_PANE_BOX (self->box)))
    mark (self);
  if (self->came_from != NULL && cro_focus_grab (self->came_from))
    return TRUE;
  lines = cro_focus_find (self->box, "lines-part");
  return lines != NULL && cro_focus_first (lines);
}

static gboolean
escape_cb (GtkWidget *widget,
           GVariant  *parameter,
           gpointer   user_data)
{
  return go_back (CRO_PANE (widget));
}

static gboolean
focus_view (GtkWidget *view)
{
  GtkWidget *first = cro_focus_find (view, CRO_PANE_FIRST);

  return (first != NULL && gtk_widget_grab_focus (first)) || cro_focus_first (view);
}

void
cro_pane_open (CroPane      *self,
               CroPictureId  id)
{
  double place;

  if (id != CRO_N_PICTURES && self->pictures[id] == NULL)
    return;
  if (id == CRO_N_PICTURES)
    go_back (self);
  else
    note_focus (self);
  choose (self, id);
  if (id == CRO_N_PICTURES)
    return;
  place = cro_pane_box_get_place (CRO_PANE_BOX (self->box));
  if (!focus_view (self->views[id]))
    gtk_widget_grab_focus (self->buttons[id]);
  cro_pane_box_put_place (CRO_PANE_BOX (self->box), place);
}

static void
picture_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *id)
{
  cro_pane_open (g_object_get_data (G_OBJECT (widget), "cro-pane"),
                 (CroPictureId) g_variant_get_int32 (id));
}

void
cro_pane_install (GtkWidgetClass *bench_class)
{
  gtk_widget_class_install_action (bench_class, "bench.picture", "i", picture_cb);
}

/* --- The switch ------------------------------------------------------------------------------- */

/* Pressed again it closes. */
static void
clicked_cb (CroPane   *self,
            GtkButton *button)
{
  CroPictureId id = CRO_N_PICTURES;

  for (int i = 0; i < CRO_N_PICTURES; i++)
    if (self->buttons[i] == GTK_WIDGET (button))
      id = (CroPictureId) i;
  /* In a column of its own there is always one of them. */
  if (is_shown (self, id) && (!has_three (self) || self->second == CRO_N_PICTURES))
    id = CRO_N_PICTURES;
  choose (self, id);
}

static void
close_cb (CroPane *self)
{
  cro_pane_open (self, CRO_N_PICTURES);
}

static GtkWidget *
bar_new (CroPane *self)
{
  GtkWidget *bar = cro_wrap_new (6, 6);

  for (int i = 0; i < CRO_N_PICTURES; i++)
    if (self->pictures[i] != NULL)
      {
        /* Translators: behind the name of a picture, the keys that open it. */
        g_autofree char *tip = g_strdup_printf (_("%s (Ctrl+%d)"), _(words[i].title), i + 1);

        self->buttons[i] = gtk_toggle_button_new_with_label (_(words[i].title));
        gtk_widget_set_tooltip_text (self->buttons[i], tip);
        g_signal_connect_object (self->buttons[i], "clicked", G_CALLBACK (clicked_cb), self,
                                 G_CONNECT_SWAPPED);
        cro_wrap_append (CRO_WRAP (bar), self->buttons[i]);
      }
  self->close = cro_icon_button_new ("window-close-symbolic", _("Close"));
  g_signal_connect_object (self->close, "clicked", G_CALLBACK (close_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (bar), self->close);
  gtk_widget_add_css_class (bar, "switch");
  return bar;
}

/* --- The widget ------------------------------------------------------------------------------- */

static gboolean
turned_later_cb (gpointer user_data)
{
  CroPane *self = user_data;

  self->turn_id = 0;
  fill (self);
  update_tie (self);
  mark (self);
  tell (self);
  return G_SOURCE_REMOVE;
}

/* In the midst of a layout; what it brings is seen in the next frame. */
static void
turned_cb (CroPane *self)
{
  if (self->turn_id == 0)
    self->turn_id = g_idle_add_full (G_PRIORITY_HIGH, turned_later_cb, self, NULL);
}

static void
cro_pane_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cro_pane_parent_class)->map (widget);
  tell (CRO_PANE (widget));
}

static void
cro_pane_dispose (GObject *object)
{
  CroPane *self = CRO_PANE (object);

  g_clear_weak_pointer (&self->came_from);
  g_clear_handle_id (&self->refresh_id, g_source_remove);
  g_clear_handle_id (&self->turn_id, g_source_remove);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_pane_parent_class)->dispose (object);
}

static void
cro_pane_class_init (CroPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_pane_dispose;
  widget_class->map = cro_pane_map;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
}

static void
cro_pane_init (CroPane *self)
{
  self->open = self->second = CRO_N_PICTURES;
}

/* One of those that F6 goes through. */
static GtkWidget *
part_of (GtkWidget *widget)
{
  gtk_widget_add_css_class (widget, "part");
  return widget;
}

static GtkWidget *
stack_new (void)
{
  GtkWidget *stack = gtk_stack_new ();

  gtk_stack_set_vhomogeneous (GTK_STACK (stack), FALSE);
  gtk_stack_set_hhomogeneous (GTK_STACK (stack), FALSE);
  return stack;
}

GtkWidget *
cro_pane_new (CroBench                *bench,
              const CroPicture *const *pictures,
              GtkWidget               *fields,
              GtkWidget               *body,
              GtkWidget               *rest)
{
  CroPane *self = g_object_new (CRO_TYPE_PANE, NULL);

  self->bench = bench;
  self->pictures = pictures;
  self->bar = first_of (self, 0) != CRO_N_PICTURES ? bar_new (self) : NULL;
  self->second = first_of (self, CRO_PICTURE_MADE_OF + 1);
  self->level = part_of (adw_bin_new ());
  if (self->second != CRO_N_PICTURES)
    self->stack = part_of (stack_new ());
  self->box = cro_pane_box_new (fields, body, self->bar, self->level, self->stack, rest);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  g_signal_connect_object (self->box, "turned", G_CALLBACK (turned_cb), self, G_CONNECT_SWAPPED);
  g_object_set_data (G_OBJECT (bench), "cro-pane", self);
  return GTK_WIDGET (self);
}

void
cro_pane_set_least_body (CroPane *self,
                         int      chars)
{
  cro_pane_box_set_least_body (CRO_PANE_BOX (self->box), chars);
}

void
cro_pane_set_most_picture (CroPane *self,
                           int      chars)
{
  cro_pane_box_set_most_picture (CRO_PANE_BOX (self->box), chars);
}
