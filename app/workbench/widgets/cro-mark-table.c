#include "config.h"

#include "cro-mark-table.h"

#include "cro-cells.h"
#include "cro-field.h"
#include "cro-mark-heads.h"
#include "cro-marks.h"
#include "cro-measure.h"
#include "cro-sided.h"
#include "cro-spoken.h"

#define PAGE 10

/* A heading and a few rows, whatever stands around them. Characters of the text's own width. */
#define LEAST_HIGH 18

/* Columns of the table: all signs are one of them. */
enum
{
  NAME,
  SIGNS,
  NOTE,
  N_COLUMNS,
};

/* Room on both sides of a sign. */
#define AROUND_SIGN 3

/* --- Rows as a list ------------------------------------------------------------------------------- */

/* As many equal objects as there are rows: what a row shows is asked for by its number. */
#define CRO_TYPE_MARK_LIST (cro_mark_list_get_type ())
G_DECLARE_FINAL_TYPE (CroMarkList, cro_mark_list, CRO, MARK_LIST, GObject)

struct _CroMarkList
{
  GObject parent_instance;

  guint   n;
};

static GType
cro_mark_list_get_item_type (GListModel *model)
{
  return G_TYPE_OBJECT;
}

static guint
cro_mark_list_get_n_items (GListModel *model)
{
  return CRO_MARK_LIST (model)->n;
}

static gpointer
cro_mark_list_get_item (GListModel *model,
                        guint       position)
{
  return position < CRO_MARK_LIST (model)->n ? g_object_new (G_TYPE_OBJECT, NULL) : NULL;
}

static void
cro_mark_list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = cro_mark_list_get_item_type;
  iface->get_n_items = cro_mark_list_get_n_items;
  iface->get_item = cro_mark_list_get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (CroMarkList, cro_mark_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, cro_mark_list_model_init))

static void
cro_mark_list_class_init (CroMarkListClass *klass)
{
}

static void
cro_mark_list_init (CroMarkList *self)
{
}

/* --- The table ------------------------------------------------------------------------------------ */

struct _CroMarkTable
{
  GtkWidget          parent_instance;

  GtkWidget         *sideways;
  GtkWidget         *down;
  GtkWidget         *headings;     /* CroCells */
  GtkWidget         *view;
  CroColumns        *columns;
  CroMarkList       *list;
  GPtrArray         *bound;        /* GtkListItem *, borrowed: rows that have a widget */

  const CroMarkRows *rows;
  gpointer           owner;        /* borrowed */
  guint              n;            /* columns of signs */
  guint              row;          /* the focus is or was last */
  guint              column;
};

G_DEFINE_FINAL_TYPE (CroMarkTable, cro_mark_table, GTK_TYPE_WIDGET)

enum
{
  MOVED,
  ACTIVATED,
  PRESSED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static gboolean
is_heading (CroMarkTable *self,
            guint         row)
{
  g_autofree char *heading = self->rows->dup_heading (self->owner, row);

  return heading != NULL;
}

/* --- A row: its cells, or a heading over the whole width ------------------------------------------- */

static GtkWidget *
cells_of (GtkListItem *item)
{
  return gtk_widget_get_first_child (gtk_list_item_get_child (item));
}

static GtkWidget *
heading_of (GtkListItem *item)
{
  return gtk_widget_get_last_child (gtk_list_item_get_child (item));
}

static CroMarks *
marks_of (GtkListItem *item)
{
  return CRO_MARKS (gtk_widget_get_next_sibling (gtk_widget_get_first_child (cells_of (item))));
}

static void
show_signs (CroMarkTable *self,
            GtkListItem  *item,
            guint         row)
{
  CroMarks *marks = marks_of (item);

  for (guint i = 0; i < self->n; i++)
    cro_marks_set (marks, i, self->rows->get_sign (self->owner, row, i));
  if (cro_marks_has_focus (marks))
    {
      g_autofree char *said = self->rows->dup_said (self->owner, row, self->column);

      cro_marks_say (marks, said);
    }
}

static void
show_row (CroMarkTable *self,
          GtkListItem  *item)
{
  guint row = gtk_list_item_get_position (item);
  g_autofree char *heading = NULL, *name = NULL, *note = NULL;

  if (row >= self->rows->get_n (self->owner))
    return;
  heading = self->rows->dup_heading (self->owner, row);
  gtk_widget_set_visible (cells_of (item), heading == NULL);
  gtk_widget_set_visible (heading_of (item), heading != NULL);
  gtk_list_item_set_activatable (item, FALSE);
  if (heading != NULL)
    {
      gtk_label_set_label (GTK_LABEL (heading_of (item)), heading);
      cro_spoken_set_item (item, heading);
      return;
    }
  name = self->rows->dup_name (self->owner, row);
  note = self->rows->dup_note (self->owner, row);
  cro_cells_set_text (CRO_CELLS (cells_of (item)), NAME, name);
  cro_cells_set_text (CRO_CELLS (cells_of (item)), NOTE, note);
  show_signs (self, item, row);
  cro_spoken_set_item (item, name);
}

/* Where the table scrolls sideways, the sign is in sight. */
static void
show_sideways (CroMarkTable *self,
               GtkWidget    *marks)
{
  GtkAdjustment *across = gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (self->sideways));
  GtkWidget *inside = gtk_widget_get_parent (self->headings);
  graphene_rect_t bounds;
  int x, cell;

  if (!gtk_widget_compute_bounds (marks, inside, &bounds))
    return;
  cro_marks_place (self->column, self->n, (int) bounds.size.width,
                   gtk_widget_get_direction (marks) == GTK_TEXT_DIR_RTL, &x, &cell);
  gtk_adjustment_clamp_page (across, bounds.origin.x + (float) x, bounds.origin.x + (float) (x + cell));
}

static void
pressed_cb (CroMarkTable    *self,
            int              n,
            double           x,
            double           y,
            GtkGestureClick *gesture)
{
  GtkWidget *marks = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture));
  GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));

  for (guint i = 0; i < self->bound->len; i++)
    if (GTK_WIDGET (marks_of (self->bound->pdata[i])) == marks)
      {
        guint row = gtk_list_item_get_position (self->bound->pdata[i]);
        guint column = cro_marks_column_at (CRO_MARKS (marks), x);

        cro_mark_table_go (self, row, column, TRUE);
        g_signal_emit (self, signals[PRESSED], 0, row, column, (state & GDK_SHIFT_MASK) != 0);
        return;
      }
}

static GtkWidget *
marks_new (CroMarkTable *self)
{
  GtkWidget *marks = cro_marks_new (self->n);
  GtkGesture *click = gtk_gesture_click_new ();

  g_signal_connect_object (click, "pressed", G_CALLBACK (pressed_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (marks, GTK_EVENT_CONTROLLER (click));
  return marks;
}

static void
setup_cb (CroMarkTable *self,
          GtkListItem  *item)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *cells = cro_cells_new (self->columns);
  GtkWidget *heading = gtk_label_new (NULL);

  cro_cells_append_text (CRO_CELLS (cells), NAME);
  cro_cells_append (CRO_CELLS (cells), marks_new (self));
  cro_cells_append_text (CRO_CELLS (cells), NOTE);
  gtk_label_set_xalign (GTK_LABEL (heading), 0);
  gtk_label_set_wrap (GTK_LABEL (heading), TRUE);
  gtk_widget_add_css_class (heading, "heading");
  gtk_widget_add_css_class (heading, "group");
  gtk_box_append (GTK_BOX (box), cells);
  gtk_box_append (GTK_BOX (box), heading);
  gtk_list_item_set_child (item, box);
}

static void
bind_cb (CroMarkTable *self,
         GtkListItem  *item)
{
  g_ptr_array_add (self->bound, item);
  show_row (self, item);
}

static void
unbind_cb (CroMarkTable *self,
           GtkListItem  *item)
{
  g_ptr_array_remove_fast (self->bound, item);
}

/* --- Walking -------------------------------------------------------------------------------------- */

static gboolean
has_focus (CroMarkTable *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self));
}

/* With the heading that it stands under, if that is next to it; this makes the row's widget. */
static void
scroll_to (CroMarkTable *self)
{
  if (self->row > 0 && is_heading (self, self->row - 1))
    gtk_widget_activate_action (self->view, "list.scroll-to-item", "u", self->row - 1);
  gtk_widget_activate_action (self->view, "list.scroll-to-item", "u", self->row);
}

static void
focus_mark (CroMarkTable *self)
{
  scroll_to (self);
  for (guint i = 0; i < self->bound->len; i++)
    if (gtk_list_item_get_position (self->bound->pdata[i]) == self->row)
      {
        g_autofree char *said = self->rows->dup_said (self->owner, self->row, self->column);
        CroMarks *marks = marks_of (self->bound->pdata[i]);

        cro_marks_point (marks, self->column, said);
        show_sideways (self, GTK_WIDGET (marks));
        return;
      }
}

/* The nearest row with signs to a number, by way of by. */
static gboolean
find_row (CroMarkTable *self,
          guint         from,
          int           by,
          guint        *row)
{
  guint n = self->rows->get_n (self->owner);

  for (gint64 at = from; at >= 0 && at < n; at += by)
    if (!is_heading (self, (guint) at))
      {
        *row = (guint) at;
        return TRUE;
      }
  return FALSE;
}

static gboolean
find_near (CroMarkTable *self,
           guint         from,
           guint        *row)
{
  guint n = self->rows->get_n (self->owner);

  from = n > 0 ? MIN (from, n - 1) : 0;
  return find_row (self, from, 1, row) || find_row (self, from, -1, row);
}

gboolean
cro_mark_table_has_focus (CroMarkTable *self)
{
  return has_focus (self);
}

gboolean
cro_mark_table_get_place (CroMarkTable *self,
                          guint        *row,
                          guint        *column)
{
  *column = self->n > 0 ? MIN (self->column, self->n - 1) : 0;
  return self->n > 0 && find_near (self, self->row, row);
}

void
cro_mark_table_go (CroMarkTable *self,
                   guint         row,
                   guint         column,
                   gboolean      with_focus)
{
  if (!find_near (self, row, &self->row))
    return;
  self->column = self->n > 0 ? MIN (column, self->n - 1) : 0;
  if (with_focus || has_focus (self))
    focus_mark (self);
  g_signal_emit (self, signals[MOVED], 0);
}

gboolean
cro_mark_table_go_on (CroMarkTable *self,
                      int           by)
{
  guint row;

  if ((self->row == 0 && by < 0) || !find_row (self, (guint) ((gint64) self->row + by), by, &row))
    return FALSE;
  cro_mark_table_go (self, row, self->column, FALSE);
  return TRUE;
}

static void
go_far (CroMarkTable *self,
        gint64        row)
{
  cro_mark_table_go (self, (guint) CLAMP (row, 0, G_MAXINT32), self->column, FALSE);
}

static gboolean
key_pressed_cb (CroMarkTable    *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  int forward = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL ? -1 : 1;

  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK) || !has_focus (self))
    return GDK_EVENT_PROPAGATE;
  switch (keyval)
    {
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      cro_mark_table_go_on (self, -1);
      return GDK_EVENT_STOP;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      cro_mark_table_go_on (self, 1);
      return GDK_EVENT_STOP;
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      forward = -forward;
      G_GNUC_FALLTHROUGH;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      cro_mark_table_go (self, self->row,
                         (guint) CLAMP ((int) self->column + forward, 0, (int) self->n - 1), FALSE);
      return GDK_EVENT_STOP;
    case GDK_KEY_Home:
    case GDK_KEY_KP_Home:
      go_far (self, 0);
      return GDK_EVENT_STOP;
    case GDK_KEY_End:
    case GDK_KEY_KP_End:
      go_far (self, (gint64) self->rows->get_n (self->owner) - 1);
      return GDK_EVENT_STOP;
    case GDK_KEY_Page_Up:
    case GDK_KEY_KP_Page_Up:
      go_far (self, (gint64) self->row - PAGE);
      return GDK_EVENT_STOP;
    case GDK_KEY_Page_Down:
    case GDK_KEY_KP_Page_Down:
      go_far (self, (gint64) self->row + PAGE);
      return GDK_EVENT_STOP;
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      g_signal_emit (self, signals[ACTIVATED], 0, self->row);
      return GDK_EVENT_STOP;
    default:
      return GDK_EVENT_PROPAGATE;
    }
}

/* --- The widget ----------------------------------------------------------------------------------- */

static gboolean
cro_mark_table_grab_focus (GtkWidget *widget)
{
  CroMarkTable *self = CRO_MARK_TABLE (widget);
  guint row, column;

  if (!cro_mark_table_get_place (self, &row, &column))
    return FALSE;
  cro_mark_table_go (self, row, column, TRUE);
  return TRUE;
}

/* Tab leads to the sign where one was last, and out of the table again. */
static gboolean
cro_mark_table_focus (GtkWidget        *widget,
                      GtkDirectionType  direction)
{
  return !has_focus (CRO_MARK_TABLE (widget)) && gtk_widget_grab_focus (widget);
}

static void
cro_mark_table_dispose (GObject *object)
{
  CroMarkTable *self = CRO_MARK_TABLE (object);

  g_clear_pointer (&self->sideways, gtk_widget_unparent);
  g_clear_object (&self->columns);
  g_clear_object (&self->list);
  G_OBJECT_CLASS (cro_mark_table_parent_class)->dispose (object);
}

static void
cro_mark_table_finalize (GObject *object)
{
  g_ptr_array_unref (CRO_MARK_TABLE (object)->bound);
  G_OBJECT_CLASS (cro_mark_table_parent_class)->finalize (object);
}

static void
cro_mark_table_class_init (CroMarkTableClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_mark_table_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_mark_table_finalize;
  widget_class->grab_focus = cro_mark_table_grab_focus;
  widget_class->focus = cro_mark_table_focus;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  signals[MOVED] = g_signal_new ("moved", CRO_TYPE_MARK_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
  signals[ACTIVATED] = g_signal_new ("activated", CRO_TYPE_MARK_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                     NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[PRESSED] = g_signal_new ("pressed", CRO_TYPE_MARK_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 3, G_TYPE_UINT, G_TYPE_UINT, G_TYPE_BOOLEAN);
}

static void
cro_mark_table_init (CroMarkTable *self)
{
  self->bound = g_ptr_array_new ();
  self->list = g_object_new (CRO_TYPE_MARK_LIST, NULL);
}

static GtkListItemFactory *
factory_new (CroMarkTable *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect_object (factory, "setup", G_CALLBACK (setup_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "unbind", G_CALLBACK (unbind_cb), self, G_CONNECT_SWAPPED);
  return factory;
}

static void ask_room (CroMarkTable *self);

static void
map_cb (CroMarkTable *self)
{
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (self->down),
                                              cro_measure_chars (GTK_WIDGET (self), LEAST_HIGH));
  if (self->columns != NULL)
    ask_room (self);
}

GtkWidget *
cro_mark_table_new (const CroMarkRows *rows,
                    gpointer           owner,
                    const char        *name)
{
  CroMarkTable *self = g_object_new (CRO_TYPE_MARK_TABLE, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *scroller = self->down = gtk_scrolled_window_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->rows = rows;
  self->owner = owner;
  g_signal_connect (self, "map", G_CALLBACK (map_cb), NULL);
  self->view = gtk_list_view_new (
      GTK_SELECTION_MODEL (gtk_no_selection_new (g_object_ref (G_LIST_MODEL (self->list)))), NULL);
  gtk_list_view_set_show_separators (GTK_LIST_VIEW (self->view), TRUE);
  gtk_widget_add_css_class (self->view, "lines-part");
  cro_spoken_set (self->view, name);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->view);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (box), scroller);
  gtk_widget_add_css_class (box, "table");
  gtk_widget_add_css_class (box, "signs");
  self->sideways = cro_wide_new (box);
  /* An allergen off the edge is seen to be there: the bar stands wherever a column does not fit. */
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (self->sideways), FALSE);
  gtk_widget_set_parent (self->sideways, GTK_WIDGET (self));
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, G_CONNECT_SWAPPED);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  return GTK_WIDGET (self);
}

static void
append_text_heading (CroMarkTable *self,
                     const char   *title)
{
  GtkWidget *label = gtk_label_new (title);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  gtk_widget_add_css_class (label, "heading");
  cro_cells_append (CRO_CELLS (self->headings), label);
}

static void
append_mark_headings (CroMarkTable       *self,
                      const char *const  *letters,
                      const char *const  *words)
{
  GtkWidget *heads = cro_mark_heads_new (letters, words, self->n);
  int narrow, wide, n = (int) self->n;

  cro_cells_append (CRO_CELLS (self->headings), heads);
  cro_mark_heads_measure (CRO_MARK_HEADS (heads), &narrow, &wide);
  cro_columns_take (self->columns, SIGNS, n * (narrow + AROUND_SIGN), n * (narrow + AROUND_SIGN),
                    n * (wide + AROUND_SIGN));
}

/* A sign out of sight would be an allergen that nobody sees: a list beside gives way first. */
static void
ask_room (CroMarkTable *self)
{
  GtkWidget *sided = gtk_widget_get_ancestor (GTK_WIDGET (self), CRO_TYPE_SIDED);
  int least, natural;

  if (sided == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  cro_columns_measure (self->columns, &least, &natural);
  cro_sided_set_wide (CRO_SIDED (sided), GTK_WIDGET (self), least);
}

void
cro_mark_table_set_columns (CroMarkTable       *self,
                            const char         *first,
                            const char         *last,
                            const char *const  *letters,
                            const char *const  *words,
                            guint               n)
{
  GtkWidget *box = gtk_widget_get_ancestor (self->view, GTK_TYPE_BOX);

  /* Rows have as many signs as there are columns. */
  gtk_list_view_set_factory (GTK_LIST_VIEW (self->view), NULL);
  g_ptr_array_set_size (self->bound, 0);
  g_clear_object (&self->columns);
  if (self->headings != NULL)
    gtk_box_remove (GTK_BOX (box), self->headings);
  self->n = n;
  self->column = MIN (self->column, n > 0 ? n - 1 : 0);
  self->columns = cro_columns_new (N_COLUMNS);
  self->headings = cro_cells_new (self->columns);
  gtk_widget_add_css_class (self->headings, "headings");
  gtk_box_prepend (GTK_BOX (box), self->headings);
  append_text_heading (self, first);
  append_mark_headings (self, letters, words);
  append_text_heading (self, last);
  g_signal_connect_object (self->columns, "changed", G_CALLBACK (ask_room), self, G_CONNECT_SWAPPED);
  ask_room (self);
  {
    g_autoptr (GtkListItemFactory) factory = factory_new (self);

    gtk_list_view_set_factory (GTK_LIST_VIEW (self->view), factory);
  }
}

void
cro_mark_table_read (CroMarkTable *self,
                     guint         row)
{
  gboolean had_focus = has_focus (self);
  guint before = self->list->n;

  self->list->n = self->rows->get_n (self->owner);
  g_list_model_items_changed (G_LIST_MODEL (self->list), 0, before, self->list->n);
  if (!had_focus)
    gtk_adjustment_set_value (gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (self->view)), 0);
  cro_mark_table_go (self, row, self->column, had_focus);
}

void
cro_mark_table_show (CroMarkTable *self)
{
  for (guint i = 0; i < self->bound->len; i++)
    show_row (self, self->bound->pdata[i]);
}
