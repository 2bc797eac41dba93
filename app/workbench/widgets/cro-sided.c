#include "cro-sided.h"

#include "cro-box.h"
#include "cro-measure.h"

/* In characters: from which width on both stand beside each other. A screen of 1024 has it, one of
 * 1366 with text of twice the size has not. */
#define CHARS_FOR_BOTH 88

/* Below which height figures leave their room to the lines: a screen of 768 is above it, one of 700 is not. */
#define CHARS_HIGH 95

struct _CroSided
{
  GtkWidget parent_instance;

  gboolean   is_tight;
  gboolean   is_low;
  gboolean   is_over;
  GtkWidget *wide;        /* weak: of the page, what would rather have the list's room; NULL: nothing */
  int        wanted;
};

G_DEFINE_FINAL_TYPE (CroSided, cro_sided, GTK_TYPE_WIDGET)

static GtkWidget *
page_of (CroSided *self)
{
  return gtk_widget_get_first_child (GTK_WIDGET (self));
}

static GtkWidget *
list_of (CroSided *self)
{
  return gtk_widget_get_last_child (GTK_WIDGET (self));
}

/* Of the page, with all that it would rather show. */
static int
page_width (CroSided *self)
{
  int least = cro_measure_least (page_of (self));

  if (self->wide == NULL || !gtk_widget_get_mapped (self->wide))
    return least;
  return MAX (least, gtk_widget_get_width (page_of (self)) - gtk_widget_get_width (self->wide) + self->wanted);
}

/* Where it is wanted. */
static gboolean
has_place (CroSided *self)
{
  return !self->is_tight || self->is_over;
}

static int
list_width (CroSided *self)
{
  int wanted;

  gtk_widget_measure (list_of (self), GTK_ORIENTATION_HORIZONTAL, -1, NULL, &wanted, NULL, NULL);
  return wanted;
}

static GtkSizeRequestMode
cro_sided_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cro_sided_measure (GtkWidget      *widget,
                   GtkOrientation  orientation,
                   int             for_size,
                   int            *minimum,
                   int            *natural,
                   int            *minimum_baseline,
                   int            *natural_baseline)
{
  CroSided *self = CRO_SIDED (widget);
  int least_list = 0, wanted_list = 0;

  gtk_widget_measure (page_of (self), orientation, -1, minimum, natural, NULL, NULL);
  if (gtk_widget_get_visible (list_of (self)))
    gtk_widget_measure (list_of (self), orientation, -1, &least_list, &wanted_list, NULL, NULL);
  *minimum = MAX (*minimum, least_list);
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? *natural + wanted_list
                                                       : MAX (*natural, wanted_list);
}

/* Whatever was laid out before: it may have come back this moment. */
static gboolean
wants_all (CroSided *self)
{
  return self->wide != NULL && self->wanted == CRO_SIDED_ALL && gtk_widget_get_mapped (self->wide);
}

static gboolean
has_room (CroSided *self,
          int       width)
{
  return !wants_all (self) && width >= cro_measure_chars (GTK_WIDGET (self), CHARS_FOR_BOTH)
         && width >= list_width (self) + page_width (self);
}

static void
turn (CroSided *self,
      int       width,
      int       height)
{
  gboolean is_tight = !has_room (self, width);
  gboolean is_low = height < cro_measure_chars (GTK_WIDGET (self), CHARS_HIGH);

  if (is_tight == self->is_tight && is_low == self->is_low)
    return;
  self->is_over = self->is_over && is_tight == self->is_tight;
  self->is_tight = is_tight;
  self->is_low = is_low;
  g_signal_emit_by_name (self, "turned");
}

static void
cro_sided_size_allocate (GtkWidget *widget,
                         int        width,
                         int        height,
                         int        baseline)
{
  CroSided *self = CRO_SIDED (widget);
  GtkWidget *list = list_of (self);
  gboolean is_mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  GtkAllocation at = { 0, 0, width, height };

  turn (self, width, height);
  gtk_widget_set_child_visible (list, has_place (self));
  if (gtk_widget_get_visible (list) && has_place (self))
    {
      int wanted = MIN (list_width (self), width);
      GtkAllocation place = { is_mirrored ? width - wanted : 0, 0, wanted, height };

      gtk_widget_size_allocate (list, &place, -1);
      if (!self->is_tight)
        {
          at.x = is_mirrored ? 0 : wanted;
          at.width -= wanted;
        }
    }
  gtk_widget_size_allocate (page_of (self), &at, -1);
}

static void
cro_sided_dispose (GObject *object)
{
  g_clear_weak_pointer (&CRO_SIDED (object)->wide);
  cro_box_let_go (GTK_WIDGET (object));
  G_OBJECT_CLASS (cro_sided_parent_class)->dispose (object);
}

static void
cro_sided_class_init (CroSidedClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_sided_dispose;
  widget_class->get_request_mode = cro_sided_get_request_mode;
  widget_class->measure = cro_sided_measure;
  widget_class->size_allocate = cro_sided_size_allocate;
  g_signal_new ("turned", CRO_TYPE_SIDED, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
cro_sided_init (CroSided *self)
{
}

gboolean
cro_sided_is_tight (CroSided *self)
{
  return self->is_tight || wants_all (self);
}

gboolean
cro_sided_is_low (CroSided *self)
{
  return self->is_low;
}

void
cro_sided_set_over (CroSided *self,
                    gboolean  is_over)
{
  self->is_over = is_over && self->is_tight;
  if (self->is_over)
    gtk_widget_add_css_class (list_of (self), "over-page");
  else
    gtk_widget_remove_css_class (list_of (self), "over-page");
  /* At once, as the focus goes there. */
  gtk_widget_set_child_visible (list_of (self), has_place (self));
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

gboolean
cro_sided_is_over (CroSided *self)
{
  return self->is_over;
}

void
cro_sided_set_wide (CroSided  *self,
                    GtkWidget *wide,
                    int        wanted)
{
  if (self->wide == wide && self->wanted == wanted)
    return;
  g_set_weak_pointer (&self->wide, wide);
  self->wanted = wanted;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
