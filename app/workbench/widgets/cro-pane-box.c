#include "cro-pane-box.h"

#include "cro-field.h"
#include "cro-measure.h"

/* In characters: from which width on two stand beside each other, and three; how wide a page is read in
 * lines, what a picture is given, and what the one beside the lines where there are two. */
#define CHARS_FOR_TWO 120
#define CHARS_FOR_THREE 208
#define MOST_BODY 140
#define LEAST_PICTURE 52
#define MOST_PICTURE 62
#define LEAST_LEVEL 70

/* In characters, what is left above the first row for a wide band that ends at it. */
#define ABOVE_ROWS 4

/* In pixels: between the two, between what stands under each other, and what of a picture is
 * always shown. */
#define SPACING 24
#define ROW_SPACING 12
#define LEAST_HEIGHT 480

enum
{
  FIELDS,
  BODY,
  BAR,
  LEVEL,
  PICTURE,
  REST,
  N_PARTS,
};

#define MOST_COLUMNS 3

/* Widths of what stands side by side, the body first. */
typedef struct
{
  int n;
  int width[MOST_COLUMNS];
} Columns;

/* What stands in one of them, from above. */
typedef struct
{
  int n;
  int parts[N_PARTS];
} Stack;

struct _CroPaneBox
{
  GtkWidget       parent_instance;

  GtkWidget      *parts[N_PARTS];
  GtkWidget      *scrolled[N_PARTS]; /* in the parts of the pictures */
  GtkAdjustment  *scroll;     /* of what the page scrolls in; NULL: it does not */
  GtkWidget      *head;       /* of the picture that is level with the rows: over these; NULL: it is not */
  GtkWidget      *last_head;  /* the same, when it was last; weak */
  GtkWidget      *drawn;      /* with it: what is drawn beside the rows */
  int             least_body; /* in characters: less than that is not enough for both */
  int             most_picture; /* in characters, where both stand beside each other */
  CroPanePart     open;
  gboolean        is_over;    /* where it is narrow: in the place of the body */
  int             n_columns;
};

G_DEFINE_FINAL_TYPE (CroPaneBox, cro_pane_box, GTK_TYPE_WIDGET)

enum
{
  TURNED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- Widths ----------------------------------------------------------------------------------- */

static int
least_of (CroPaneBox *self,
          int         part)
{
  return self->parts[part] != NULL ? cro_measure_least (self->parts[part]) : 0;
}

/* Of the two pictures the one that is open; where three stand side by side, both. */
static gboolean
is_picture_shown (CroPaneBox *self,
                  int         part,
                  int         n_columns)
{
  CroPanePart of = part == LEVEL ? CRO_PANE_LEVEL : CRO_PANE_PICTURE;

  if (self->parts[part] == NULL || self->open == CRO_PANE_NONE)
    return FALSE;
  return n_columns == 3 || (self->open == of && (n_columns == 2 || self->is_over));
}

static gboolean
is_shown (CroPaneBox *self,
          int         part,
          int         n_columns)
{
  if (part == LEVEL || part == PICTURE)
    return is_picture_shown (self, part, n_columns);
  return self->parts[part] != NULL && (part != BODY || n_columns > 1 || !self->is_over);
}

/* What scrolls does not say how high it would be in a width. */
static int
height_of (CroPaneBox *self,
           int         part,
           int         width)
{
  if (self->scrolled[part] != NULL)
    return cro_measure_height (self->scrolled[part], width);
  return self->parts[part] != NULL ? cro_measure_height (self->parts[part], width) : 0;
}

static int
enough (CroPaneBox *self)
{
  return MAX (MAX (least_of (self, FIELDS), least_of (self, BODY)),
              cro_measure_chars (GTK_WIDGET (self), self->least_body));
}

/* Beside the body one picture, and another in a column of its own. */
static gboolean
find_three (CroPaneBox *self,
            int         width,
            Columns    *columns)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int side = cro_measure_chars (widget, MIN (LEAST_PICTURE, self->most_picture));
  int level = MAX (cro_measure_chars (widget, LEAST_LEVEL), least_of (self, LEVEL)), body;

  if (self->parts[LEVEL] == NULL || self->open == CRO_PANE_NONE
      || width < cro_measure_chars (widget, CHARS_FOR_THREE))
    return FALSE;
  side = MAX (side, MAX (least_of (self, PICTURE), least_of (self, REST)));
  if (self->parts[PICTURE] != NULL)
    side = MAX (side, least_of (self, BAR));
  body = MIN ((int) MAX ((gint64) (width - side - 2 * SPACING) * 11 / 20, 0), cro_measure_chars (widget, MOST_BODY));
  body = MIN (body, width - side - level - 2 * SPACING);
  *columns = (Columns){ 3, { body, width - side - body - 2 * SPACING, side } };
  return body >= enough (self);
}

/* What the picture has beside the body, which takes back what is more than a usual one's. */
static int
side_of (CroPaneBox *self,
         int         width)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int most = cro_measure_chars (widget, self->most_picture);
  int usual = MIN (cro_measure_chars (widget, MOST_PICTURE), most);
  int side = CLAMP ((int) ((gint64) width * 2 / 5), MIN (cro_measure_chars (widget, LEAST_PICTURE), most), most);

  return side > usual ? MAX (MIN (side, width - SPACING - enough (self)), usual) : side;
}

/* All of it for the body: the rest stands below. */
static Columns
columns_of (CroPaneBox *self,
            int         width)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int side = side_of (self, width), open = self->open == CRO_PANE_LEVEL ? LEVEL : PICTURE, body;
  Columns columns;

  if (width < cro_measure_chars (widget, CHARS_FOR_TWO))
    return (Columns){ 1, { width } };
  if (find_three (self, width, &columns))
    return columns;
  side = MAX (side, MAX (least_of (self, BAR), MAX (least_of (self, open), least_of (self, REST))));
  body = MIN (width - side - SPACING, cro_measure_chars (widget, MOST_BODY));
  return body >= enough (self) ? (Columns){ 2, { body, width - body - SPACING } }
                               : (Columns){ 1, { width } };
}

static Stack
stack_of (CroPaneBox *self,
          int         n_columns,
          int         column)
{
  static const Stack all = { 6, { FIELDS, BAR, BODY, LEVEL, PICTURE, REST } };
  static const Stack body = { 2, { FIELDS, BODY } };
  static const Stack side = { 4, { BAR, LEVEL, PICTURE, REST } };
  static const Stack level = { 1, { LEVEL } };
  static const Stack other = { 3, { BAR, PICTURE, REST } };
  static const Stack level_alone = { 2, { BAR, LEVEL } };
  static const Stack rest = { 1, { REST } };

  if (n_columns == 1)
    return all;
  if (column == 0)
    return body;
  if (n_columns == 2)
    return side;
  if (self->parts[PICTURE] == NULL)
    return column == 1 ? level_alone : rest;
  return column == 1 ? level : other;
}

/* --- Heights ---------------------------------------------------------------------------------- */

static int
sum_of_heights (CroPaneBox *self,
                Stack       stack,
                int         n_columns,
                int         width)
{
  int sum = 0;

  for (int i = 0; i < stack.n; i++)
    {
      int height = is_shown (self, stack.parts[i], n_columns) ? height_of (self, stack.parts[i], width)
                                                              : 0;

      if (height > 0)
        sum += height + (sum > 0 ? ROW_SPACING : 0);
    }
  return sum;
}

static gboolean
is_level (CroPaneBox *self,
          int         n_columns)
{
  return self->head != NULL && n_columns > 1 && is_shown (self, LEVEL, n_columns);
}

/* Where the body begins. Beside a picture that is level with it its rows stand no higher than what is
 * drawn there; they stay there as another picture takes its place. */
static int
body_top (CroPaneBox    *self,
          const Columns *columns)
{
  int fields = height_of (self, FIELDS, columns->width[0]), top = fields > 0 ? fields + ROW_SPACING : 0;
  int drawn = 0;

  if (columns->n == 1 || self->open == CRO_PANE_NONE || self->last_head == NULL)
    return top;
  if (stack_of (self, columns->n, 1).parts[0] == BAR)
    drawn = height_of (self, BAR, columns->width[1]) + ROW_SPACING;
  drawn += cro_measure_height (self->last_head, columns->width[1])
           + cro_measure_chars (GTK_WIDGET (self), ABOVE_ROWS);
  return MAX (top, drawn);
}

static int
body_height (CroPaneBox    *self,
             const Columns *columns)
{
  return body_top (self, columns) + height_of (self, BODY, columns->width[0]);
}

/* Of a column that stays in sight while the body scrolls: its picture may be cut. */
static int
side_height (CroPaneBox    *self,
             const Columns *columns,
             int            column)
{
  Stack stack = stack_of (self, columns->n, column);
  int cut = 0;

  for (int i = 0; i < stack.n; i++)
    if (self->scrolled[stack.parts[i]] != NULL && is_shown (self, stack.parts[i], columns->n)
        && !(stack.parts[i] == LEVEL && is_level (self, columns->n)))
      cut += MAX (height_of (self, stack.parts[i], columns->width[column]) - LEAST_HEIGHT, 0);
  return sum_of_heights (self, stack, columns->n, columns->width[column]) - cut;
}

static int
least_height (CroPaneBox *self,
              int         width)
{
  Columns columns = columns_of (self, width);
  int height;

  if (columns.n == 1)
    return sum_of_heights (self, stack_of (self, 1, 0), 1, width);
  height = body_height (self, &columns);
  for (int i = 1; i < columns.n; i++)
    height = MAX (height, side_height (self, &columns, i));
  return height;
}

static GtkSizeRequestMode
cro_pane_box_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cro_pane_box_measure (GtkWidget      *widget,
                      GtkOrientation  orientation,
                      int             for_size,
                      int            *minimum,
                      int            *natural,
                      int            *minimum_baseline,
                      int            *natural_baseline)
{
  CroPaneBox *self = CRO_PANE_BOX (widget);

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = 0;
      for (int i = 0; i < N_PARTS; i++)
        *minimum = MAX (*minimum, least_of (self, i));
      *natural = MAX (*minimum,
                      cro_measure_chars (widget, MOST_BODY + MOST_PICTURE) + SPACING);
    }
  else
    *minimum = *natural = least_height (self, for_size < 0 ? G_MAXINT / 4 : for_size);
}

/* --- Layout ----------------------------------------------------------------------------------- */

static void
place (CroPaneBox *self,
       int         part,
       int         x,
       int        *y,
       int         width,
       int         height)
{
  GtkAllocation at = { x, *y, width, height };
  gboolean is_seen = is_shown (self, part, self->n_columns);

  if (self->parts[part] == NULL)
    return;
  gtk_widget_set_child_visible (self->parts[part], is_seen);
  if (!is_seen || !gtk_widget_should_layout (self->parts[part]))
    return;
  gtk_widget_size_allocate (self->parts[part], &at, -1);
  if (height > 0)
    *y += height + ROW_SPACING;
}

/* Beside the rows, as far down as these, and with them where the page scrolls. */
static void
place_level (CroPaneBox    *self,
             const Columns *columns,
             int            x)
{
  Stack stack = stack_of (self, columns->n, 1);
  int width = columns->width[1], y = 0;

  for (int i = 0; i < stack.n; i++)
    {
      int height = height_of (self, stack.parts[i], width);

      if (stack.parts[i] == LEVEL)
        height = MAX (height, body_height (self, columns) - y);
      place (self, stack.parts[i], x, &y, width, height);
    }
}

/* What stays in sight moves along with the page. */
static void
place_side (CroPaneBox    *self,
            const Columns *columns,
            int            column,
            int            x,
            int            height)
{
  Stack stack = stack_of (self, columns->n, column);
  int width = columns->width[column], others = 0, picture = 0, y;
  int seen = self->scroll != NULL ? (int) gtk_adjustment_get_page_size (self->scroll) - 2 * ROW_SPACING
                                  : height;

  for (int i = 0; i < stack.n; i++)
    if (self->scrolled[stack.parts[i]] != NULL && is_shown (self, stack.parts[i], columns->n))
      picture = height_of (self, stack.parts[i], width);
  others = sum_of_heights (self, stack, columns->n, width) - picture;
  picture = MIN (picture, MAX (LEAST_HEIGHT, MIN (seen, height) - others));
  y = CLAMP (self->scroll != NULL ? (int) gtk_adjustment_get_value (self->scroll) : 0, 0,
             MAX (height - others - picture, 0));
  for (int i = 0; i < stack.n; i++)
    place (self, stack.parts[i], x, &y, width,
           self->scrolled[stack.parts[i]] != NULL ? picture : height_of (self, stack.parts[i], width));
}

/* Told once the page is laid out: what hears it may ask for another layout. */
static void
turn (CroPaneBox *self,
      int         n_columns)
{
  if (n_columns == self->n_columns)
    return;
  self->n_columns = n_columns;
  self->is_over &= n_columns == 1;
  g_signal_emit (self, signals[TURNED], 0);
}

static void
place_columns (CroPaneBox    *self,
               const Columns *columns,
               int            width,
               int            height)
{
  gboolean is_mirrored = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  int from = 0;

  for (int i = 0; i < columns->n; i++)
    {
      int x = is_mirrored ? width - from - columns->width[i] : from, y = 0;

      if (i == 0)
        {
          place (self, FIELDS, x, &y, columns->width[0], height_of (self, FIELDS, columns->width[0]));
          y = body_top (self, columns);
          place (self, BODY, x, &y, columns->width[0], height_of (self, BODY, columns->width[0]));
        }
      else if (i == 1 && is_level (self, columns->n))
        place_level (self, columns, x);
      else
        place_side (self, columns, i, x, height);
      from += columns->width[i] + SPACING;
    }
}

static void
cro_pane_box_size_allocate (GtkWidget *widget,
                            int        width,
                            int        height,
                            int        baseline)
{
  CroPaneBox *self = CRO_PANE_BOX (widget);
  Columns columns = columns_of (self, width);
  Stack all = stack_of (self, 1, 0);
  int y = 0;

  turn (self, columns.n);
  if (columns.n == 1)
    for (int i = 0; i < all.n; i++)
      place (self, all.parts[i], 0, &y, width, height_of (self, all.parts[i], width));
  else
    {
      for (int i = 0; i < N_PARTS; i++)
        if (self->parts[i] != NULL)
          gtk_widget_set_child_visible (self->parts[i], is_shown (self, i, columns.n));
      place_columns (self, &columns, width, height);
    }
  /* Rows may have moved where what is drawn beside them has not. */
  if (self->drawn != NULL)
    gtk_widget_queue_draw (self->drawn);
}

/* --- Focus ------------------------------------------------------------------------------------ */

/* As one works: the toolkit's own order would go from the fields to what stands beside them. */
static gboolean
cro_pane_box_focus (GtkWidget        *widget,
                    GtkDirectionType  direction)
{
  CroPaneBox *self = CRO_PANE_BOX (widget);
  GtkWidget *now = gtk_widget_get_focus_child (widget);
  int step = direction == GTK_DIR_TAB_BACKWARD ? -1 : 1;
  int part = step > 0 ? 0 : N_PARTS - 1;

  if (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD)
    return GTK_WIDGET_CLASS (cro_pane_box_parent_class)->focus (widget, direction);
  for (int i = 0; now != NULL && i < N_PARTS; i++)
    if (self->parts[i] == now)
      part = i;
  for (; part >= 0 && part < N_PARTS; part += step)
    if (self->parts[part] != NULL && gtk_widget_get_child_visible (self->parts[part])
        && gtk_widget_child_focus (self->parts[part], direction))
      return TRUE;
  return FALSE;
}

/* --- Scrolling -------------------------------------------------------------------------------- */

static void
set_scroll (CroPaneBox    *self,
            GtkAdjustment *scroll)
{
  if (self->scroll != NULL)
    g_signal_handlers_disconnect_by_func (self->scroll, gtk_widget_queue_allocate, self);
  g_set_object (&self->scroll, scroll);
  if (scroll != NULL)
    g_signal_connect_object (scroll, "value-changed", G_CALLBACK (gtk_widget_queue_allocate), self,
                             G_CONNECT_SWAPPED);
}

static void
cro_pane_box_root (GtkWidget *widget)
{
  GtkWidget *around = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);

  GTK_WIDGET_CLASS (cro_pane_box_parent_class)->root (widget);
  set_scroll (CRO_PANE_BOX (widget),
              around != NULL ? gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (around))
                             : NULL);
}

static void
cro_pane_box_unroot (GtkWidget *widget)
{
  set_scroll (CRO_PANE_BOX (widget), NULL);
  GTK_WIDGET_CLASS (cro_pane_box_parent_class)->unroot (widget);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_pane_box_dispose (GObject *object)
{
  CroPaneBox *self = CRO_PANE_BOX (object);

  set_scroll (self, NULL);
  g_clear_weak_pointer (&self->last_head);
  for (int i = 0; i < N_PARTS; i++)
    g_clear_pointer (&self->parts[i], gtk_widget_unparent);
  G_OBJECT_CLASS (cro_pane_box_parent_class)->dispose (object);
}

static void
cro_pane_box_class_init (CroPaneBoxClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_pane_box_dispose;
  widget_class->get_request_mode = cro_pane_box_get_request_mode;
  widget_class->measure = cro_pane_box_measure;
  widget_class->size_allocate = cro_pane_box_size_allocate;
  widget_class->focus = cro_pane_box_focus;
  widget_class->root = cro_pane_box_root;
  widget_class->unroot = cro_pane_box_unroot;
  signals[TURNED] = g_signal_new ("turned", CRO_TYPE_PANE_BOX, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
}

static void
cro_pane_box_init (CroPaneBox *self)
{
  self->most_picture = MOST_PICTURE;
  self->n_columns = 1;
}

void
cro_pane_box_set_least_body (CroPaneBox *self,
                             int         chars)
{
  self->least_body = chars;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
cro_pane_box_set_most_picture (CroPaneBox *self,
                               int         chars)
{
  self->most_picture = chars;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

/* What is higher than the window scrolls by itself. */
static GtkWidget *
scroller_new (GtkWidget *picture)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), picture);
  gtk_widget_add_css_class (scroller, "picture");
  cro_wheel_share (scroller);
  return scroller;
}

GtkWidget *
cro_pane_box_new (GtkWidget *fields,
                  GtkWidget *body,
                  GtkWidget *bar,
                  GtkWidget *level,
                  GtkWidget *picture,
                  GtkWidget *rest)
{
  CroPaneBox *self = g_object_new (CRO_TYPE_PANE_BOX, NULL);
  GtkWidget *parts[N_PARTS] = { fields, body, bar, level, picture, rest };

  for (int i = 0; i < N_PARTS; i++)
    {
      gboolean scrolls = (i == LEVEL || i == PICTURE) && parts[i] != NULL;

      self->scrolled[i] = scrolls ? parts[i] : NULL;
      self->parts[i] = scrolls ? scroller_new (parts[i]) : parts[i];
      if (parts[i] != NULL)
        gtk_widget_set_parent (self->parts[i], GTK_WIDGET (self));
    }
  return GTK_WIDGET (self);
}

gboolean
cro_pane_box_shows (CroPaneBox  *self,
                    CroPanePart  part)
{
  return part != CRO_PANE_NONE
         && is_shown (self, part == CRO_PANE_LEVEL ? LEVEL : PICTURE, self->n_columns);
}

int
cro_pane_box_get_columns (CroPaneBox *self)
{
  return self->n_columns;
}

/* At once, not when it is laid out: the focus goes there next. */
static void
change (CroPaneBox *self)
{
  for (int i = 0; i < N_PARTS; i++)
    if (self->parts[i] != NULL)
      gtk_widget_set_child_visible (self->parts[i], is_shown (self, i, self->n_columns));
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
cro_pane_box_set_open (CroPaneBox  *self,
                       CroPanePart  part)
{
  self->open = part;
  self->is_over = part != CRO_PANE_NONE && self->n_columns == 1;
  change (self);
}

gboolean
cro_pane_box_show_body (CroPaneBox *self)
{
  if (self->n_columns > 1 || !self->is_over)
    return FALSE;
  self->is_over = FALSE;
  change (self);
  return TRUE;
}

double
cro_pane_box_get_place (CroPaneBox *self)
{
  double value = self->scroll != NULL ? gtk_adjustment_get_value (self->scroll) : -1;
  graphene_rect_t body;

  return self->n_columns > 1 && gtk_widget_compute_bounds (self->parts[BODY], GTK_WIDGET (self), &body)
             && value <= body.origin.y ? value : -1;
}

void
cro_pane_box_put_place (CroPaneBox *self,
                        double      place)
{
  if (place >= 0 && self->scroll != NULL)
    gtk_adjustment_set_value (self->scroll, place);
}

void
cro_pane_box_set_level (CroPaneBox *self,
                        GtkWidget  *head,
                        GtkWidget  *drawn)
{
  if (self->head == head && self->drawn == drawn)
    return;
  self->head = head;
  if (head != NULL)
    g_set_weak_pointer (&self->last_head, head);
  self->drawn = drawn;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
