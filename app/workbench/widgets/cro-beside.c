#include "cro-beside.h"

#include "cro-measure.h"

/* In characters: from which width on both stand beside each other, how wide the page is read in
 * lines, and what the rest is given. */
#define CHARS_FOR_BOTH 135
#define MOST_PAGE 120
#define LEAST_ASIDE 48
#define MOST_ASIDE 62
#define LEAST_WIDE_ASIDE 80

/* In pixels. */
#define SPACING 18
#define ROW_SPACING 12

struct _CroBeside
{
  GtkWidget  parent_instance;

  GtkWidget *page;
  GtkWidget *aside;
  int        page_chars;      /* 0: what is left of the width */
};

G_DEFINE_FINAL_TYPE (CroBeside, cro_beside, GTK_TYPE_WIDGET)

/* Of a page that is narrower than what belongs to it, whether that is shown or not. */
static int
narrow_width (CroBeside *self,
              int        width)
{
  int page = MAX (cro_measure_chars (GTK_WIDGET (self), self->page_chars), cro_measure_least (self->page));

  return width - page - SPACING >= cro_measure_chars (GTK_WIDGET (self), LEAST_WIDE_ASIDE) ? page : width;
}

static int
wide_width (CroBeside *self,
            int        width)
{
  int aside = CLAMP (width / 3, cro_measure_chars (GTK_WIDGET (self), LEAST_ASIDE),
                     cro_measure_chars (GTK_WIDGET (self), MOST_ASIDE));
  int page;

  if (width < cro_measure_chars (GTK_WIDGET (self), CHARS_FOR_BOTH))
    return width;
  aside = MAX (aside, cro_measure_least (self->aside));
  page = MIN (width - aside - SPACING, cro_measure_chars (GTK_WIDGET (self), MOST_PAGE));
  return page >= cro_measure_least (self->page) ? page : width;
}

/* How much of a width the page gets; all of it: the rest stands below. */
static int
page_width (CroBeside *self,
            int        width)
{
  if (self->page_chars > 0)
    return narrow_width (self, width);
  return gtk_widget_should_layout (self->aside) ? wide_width (self, width) : width;
}

static GtkSizeRequestMode
cro_beside_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cro_beside_measure (GtkWidget      *widget,
                    GtkOrientation  orientation,
                    int             for_size,
                    int            *minimum,
                    int            *natural,
                    int            *minimum_baseline,
                    int            *natural_baseline)
{
  CroBeside *self = CRO_BESIDE (widget);
  int width = for_size < 0 ? G_MAXINT / 2 : for_size;
  int page;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = MAX (cro_measure_least (self->page), cro_measure_least (self->aside));
      *natural = MAX (*minimum, cro_measure_chars (GTK_WIDGET (self), MOST_PAGE + MOST_ASIDE) + SPACING);
      return;
    }
  page = page_width (self, width);
  *minimum = *natural = page < width
                            ? MAX (cro_measure_height (self->page, page),
                                   cro_measure_height (self->aside, width - page - SPACING))
                            : cro_measure_height (self->page, width) + ROW_SPACING
                                  + cro_measure_height (self->aside, width);
}

static void
cro_beside_size_allocate (GtkWidget *widget,
                          int        width,
                          int        height,
                          int        baseline)
{
  CroBeside *self = CRO_BESIDE (widget);
  gboolean is_mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int page = page_width (self, width);
  int of_page = cro_measure_height (self->page, page);
  GtkAllocation at = { page < width && is_mirrored ? width - page : 0, 0, page, of_page };

  gtk_widget_size_allocate (self->page, &at, -1);
  if (!gtk_widget_should_layout (self->aside))
    return;
  if (page < width)
    at = (GtkAllocation){ is_mirrored ? 0 : page + SPACING, 0, width - page - SPACING, height };
  else
    at = (GtkAllocation){ 0, of_page + ROW_SPACING, width, height - of_page - ROW_SPACING };
  gtk_widget_size_allocate (self->aside, &at, -1);
}

static void
cro_beside_dispose (GObject *object)
{
  CroBeside *self = CRO_BESIDE (object);

  g_clear_pointer (&self->page, gtk_widget_unparent);
  g_clear_pointer (&self->aside, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_beside_parent_class)->dispose (object);
}

static void
cro_beside_class_init (CroBesideClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_beside_dispose;
  widget_class->get_request_mode = cro_beside_get_request_mode;
  widget_class->measure = cro_beside_measure;
  widget_class->size_allocate = cro_beside_size_allocate;
}

static void
cro_beside_init (CroBeside *self)
{
}

void
cro_beside_set_page_chars (CroBeside *self,
                           int        chars)
{
  self->page_chars = chars;
}

GtkWidget *
cro_beside_new (GtkWidget *page,
                GtkWidget *aside)
{
  CroBeside *self = g_object_new (CRO_TYPE_BESIDE, NULL);

  self->page = page;
  self->aside = aside;
  gtk_widget_set_parent (page, GTK_WIDGET (self));
  gtk_widget_set_parent (aside, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
