#include "config.h"

#include "cro-mark-head.h"

#include "cro-spoken.h"

struct _CroMarkHead
{
  GtkWidget  parent_instance;

  GtkWidget *letters;
  GtkWidget *word;
  int        room;
};

G_DEFINE_FINAL_TYPE (CroMarkHead, cro_mark_head, GTK_TYPE_WIDGET)

static int
size_of (GtkWidget      *label,
         GtkOrientation  orientation)
{
  int natural;

  gtk_widget_measure (label, orientation, -1, NULL, &natural, NULL, NULL);
  return natural;
}

void
cro_mark_head_measure (CroMarkHead *self,
                       int         *letters,
                       int         *word)
{
  *letters = size_of (self->letters, GTK_ORIENTATION_HORIZONTAL);
  *word = MAX (*letters, size_of (self->word, GTK_ORIENTATION_HORIZONTAL));
}

static GtkSizeRequestMode
cro_mark_head_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static gboolean
has_word (CroMarkHead *self,
          int          width)
{
  return width >= MAX (self->room, size_of (self->word, GTK_ORIENTATION_HORIZONTAL));
}

void
cro_mark_head_set_room (CroMarkHead *self,
                        int          room)
{
  self->room = room;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
cro_mark_head_measure_size (GtkWidget      *widget,
                            GtkOrientation  orientation,
                            int             for_size,
                            int            *min,
                            int            *natural,
                            int            *min_baseline,
                            int            *natural_baseline)
{
  CroMarkHead *self = CRO_MARK_HEAD (widget);

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    cro_mark_head_measure (self, min, natural);
  else
    *min = *natural = size_of (self->letters, orientation)
                      + (for_size >= 0 && has_word (self, for_size) ? size_of (self->word, orientation)
                                                                    : 0);
}

static void
cro_mark_head_size_allocate (GtkWidget *widget,
                             int        width,
                             int        height,
                             int        baseline)
{
  CroMarkHead *self = CRO_MARK_HEAD (widget);
  int letters = size_of (self->letters, GTK_ORIENTATION_VERTICAL);
  GtkAllocation above = { 0, 0, width, letters };
  GtkAllocation below = { 0, letters, width, size_of (self->word, GTK_ORIENTATION_VERTICAL) };

  gtk_widget_set_child_visible (self->word, has_word (self, width));
  gtk_widget_size_allocate (self->letters, &above, -1);
  if (has_word (self, width))
    gtk_widget_size_allocate (self->word, &below, -1);
}

static void
cro_mark_head_dispose (GObject *object)
{
  CroMarkHead *self = CRO_MARK_HEAD (object);

  g_clear_pointer (&self->letters, gtk_widget_unparent);
  g_clear_pointer (&self->word, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_mark_head_parent_class)->dispose (object);
}

static void
cro_mark_head_class_init (CroMarkHeadClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_mark_head_dispose;
  widget_class->get_request_mode = cro_mark_head_get_request_mode;
  widget_class->measure = cro_mark_head_measure_size;
  widget_class->size_allocate = cro_mark_head_size_allocate;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_COLUMN_HEADER);
}

static void
cro_mark_head_init (CroMarkHead *self)
{
}

GtkWidget *
cro_mark_head_new (const char *letters,
                   const char *word)
{
  CroMarkHead *self = g_object_new (CRO_TYPE_MARK_HEAD, NULL);

  self->letters = gtk_label_new (letters);
  self->word = gtk_label_new (word);
  gtk_widget_add_css_class (self->letters, "mark-letters");
  gtk_widget_add_css_class (self->word, "mark-word");
  gtk_widget_set_parent (self->letters, GTK_WIDGET (self));
  gtk_widget_set_parent (self->word, GTK_WIDGET (self));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), word);
  cro_spoken_set (GTK_WIDGET (self), word);
  return GTK_WIDGET (self);
}
