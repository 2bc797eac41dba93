#include "cro-pane-box.h"

#include "cro-measure.h"

/* In characters: from which width on both stand beside each other, how wide a page is read in
 * lines, and what a picture is given. */
#define CHARS_FOR_BOTH 120
#define MOST_BODY 140
#define LEAST_PICTURE 52
#define MOST_PICTURE 62

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
  PICTURE,
  REST,
  N_PARTS,
};

struct _CroPaneBox
{
  GtkWidget       parent_instance;

  GtkWidget      *parts[N_PARTS];
  GtkWidget      *scrolled;   /* in the part of the picture */
  GtkAdjustment  *scroll;     /* of what the page scrolls in; NULL: it does not */
  int             least_body; /* in characters: less than that is not enough for both */
  int             most_picture; /* in characters, where both stand beside each other */
  gboolean        is_open;
  gboolean        is_over;    /* where it is narrow: in the place of the body */
  gboolean        is_wide;
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

static gboolean
is_shown (CroPaneBox *self,
          int         part)
{
  if (part == PICTURE)
    return cro_pane_box_shows_picture (self);
  return self->parts[part] != NULL && (part != BODY || self->is_wide || !self->is_over);
}

/* What scrolls does not say how high it would be in a width. */
static int
height_of (CroPaneBox *self,
           int         part,
           int         width)
{
  if (part == PICTURE)
    return cro_measure_height (self->scrolled, width);
  return self->parts[part] != NULL ? cro_measure_height (self->parts[part], width) : 0;
}

/* How much of a width the body gets; all of it: the rest stands below. */
static int
body_width (CroPaneBox *self,
            int         width)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int side = CLAMP (width * 2 / 5,
                    cro_measure_chars (widget, MIN (LEAST_PICTURE, self->most_picture)),
                    cro_measure_chars (widget, self->most_picture));
  int body;

  if (width < cro_measure_chars (widget, CHARS_FOR_BOTH))
    return width;
  side = MAX (side, MAX (least_of (self, BAR), MAX (least_of (self, PICTURE), least_of (self, REST))));
  body = MIN (width - side - SPACING, cro_measure_chars (widget, MOST_BODY));
  return body >= MAX (MAX (least_of (self, FIELDS), least_of (self, BODY)),
                      cro_measure_chars (widget, self->least_body))
             ? body
             : width;
}

/* --- Heights ---------------------------------------------------------------------------------- */

static int
sum_of_heights (CroPaneBox *self,
                const int  *parts,
                int         n,
                int         width)
{
  int sum = 0;

  for (int i = 0; i < n; i++)
    {
      int height = is_shown (self, parts[i]) ? height_of (self, parts[i], width) : 0;

      if (height > 0)
        sum += height + (sum > 0 ? ROW_SPACING : 0);
    }
  return sum;
}

static const int all_parts[] = { FIELDS, BAR, BODY, PICTURE, REST };
static const int of_body[] = { FIELDS, BODY };
static const int of_side[] = { BAR, REST };

/* Of what stands at the side but the picture. */
static int
side_height (CroPaneBox *self,
             int         width)
{
  return sum_of_heights (self, of_side, G_N_ELEMENTS (of_side), width)
         + (cro_pane_box_shows_picture (self) ? ROW_SPACING : 0);
}

static int
least_height (CroPaneBox *self,
              int         width)
{
  int body = body_width (self, width);
  int side = width - body - SPACING;
  int picture;

  if (body == width)
    return sum_of_heights (self, all_parts, G_N_ELEMENTS (all_parts), width);
  picture = self->is_open ? MIN (height_of (self, PICTURE, side), LEAST_HEIGHT) : 0;
  return MAX (sum_of_heights (self, of_body, G_N_ELEMENTS (of_body), body),
              side_height (self, side) + picture);
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

  if (self->parts[part] == NULL)
    return;
  gtk_widget_set_child_visible (self->parts[part], is_shown (self, part));
  if (!is_shown (self, part) || !gtk_widget_should_layout (self->parts[part]))
    return;
  gtk_widget_size_allocate (self->parts[part], &at, -1);
  if (height > 0)
    *y += height + ROW_SPACING;
}

/* What stays in sight moves along with the page. */
static void
place_side (CroPaneBox *self,
            int         x,
            int         width,
            int         height)
{
  int others = side_height (self, width);
  int seen = self->scroll != NULL ? (int) gtk_adjustment_get_page_size (self->scroll) - 2 * ROW_SPACING
                                  : height;
  int picture = cro_pane_box_shows_picture (self)
                    ? MIN (height_of (self, PICTURE, width),
                           MAX (LEAST_HEIGHT, MIN (seen, height) - others))
                    : 0;
  int scrolled = self->scroll != NULL ? (int) gtk_adjustment_get_value (self->scroll) : 0;
  int y = CLAMP (scrolled, 0, MAX (height - others - picture, 0));

  place (self, BAR, x, &y, width, height_of (self, BAR, width));
  place (self, PICTURE, x, &y, width, picture);
  place (self, REST, x, &y, width, height_of (self, REST, width));
}

/* Told once the page is laid out: what hears it may ask for another layout. */
static void
turn (CroPaneBox *self,
      gboolean    is_wide)
{
  if (is_wide == self->is_wide)
    return;
  self->is_wide = is_wide;
  self->is_over &= !is_wide;
  g_signal_emit (self, signals[TURNED], 0);
}

static void
cro_pane_box_size_allocate (GtkWidget *widget,
                            int        width,
                            int        height,
                            int        baseline)
{
  CroPaneBox *self = CRO_PANE_BOX (widget);
  gboolean is_mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int body = body_width (self, width);
  int y = 0;

  turn (self, body < width);
  if (self->is_wide)
    {
      for (gsize i = 0; i < G_N_ELEMENTS (of_body); i++)
        place (self, of_body[i], is_mirrored ? width - body : 0, &y, body,
               height_of (self, of_body[i], body));
      place_side (self, is_mirrored ? 0 : body + SPACING, width - body - SPACING, height);
      return;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (all_parts); i++)
    place (self, all_parts[i], 0, &y, width, height_of (self, all_parts[i], width));
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
    g_signal_connect_swapped (scroll, "value-changed", G_CALLBACK (gtk_widget_queue_allocate), self);
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
  return scroller;
}

GtkWidget *
cro_pane_box_new (GtkWidget *fields,
                  GtkWidget *body,
                  GtkWidget *bar,
                  GtkWidget *picture,
                  GtkWidget *rest)
{
  CroPaneBox *self = g_object_new (CRO_TYPE_PANE_BOX, NULL);
  GtkWidget *parts[N_PARTS] = { fields, body, bar, scroller_new (picture), rest };

  self->scrolled = picture;
  for (int i = 0; i < N_PARTS; i++)
    {
      self->parts[i] = parts[i];
      if (parts[i] != NULL)
        gtk_widget_set_parent (parts[i], GTK_WIDGET (self));
    }
  return GTK_WIDGET (self);
}

gboolean
cro_pane_box_shows_picture (CroPaneBox *self)
{
  return self->is_wide ? self->is_open : self->is_over;
}

/* At once, not when it is laid out: the focus goes there next. */
static void
change (CroPaneBox *self)
{
  for (int i = 0; i < N_PARTS; i++)
    if (self->parts[i] != NULL)
      gtk_widget_set_child_visible (self->parts[i], is_shown (self, i));
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
cro_pane_box_set_open (CroPaneBox *self,
                       gboolean    is_open)
{
  self->is_open = is_open;
  self->is_over = is_open && !self->is_wide;
  change (self);
}

gboolean
cro_pane_box_show_body (CroPaneBox *self)
{
  if (self->is_wide || !self->is_over)
    return FALSE;
  self->is_over = FALSE;
  change (self);
  return TRUE;
}
