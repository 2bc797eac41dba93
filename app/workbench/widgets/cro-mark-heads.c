#include "config.h"

#include "cro-mark-heads.h"

#include "cro-mark-head.h"
#include "cro-marks.h"

struct _CroMarkHeads
{
  GtkWidget parent_instance;

  guint     n;
};

G_DEFINE_FINAL_TYPE (CroMarkHeads, cro_mark_heads, GTK_TYPE_WIDGET)

void
cro_mark_heads_measure (CroMarkHeads *self,
                        int          *letters,
                        int          *word)
{
  *letters = *word = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int narrow, wide;

      cro_mark_head_measure (CRO_MARK_HEAD (child), &narrow, &wide);
      *letters = MAX (*letters, narrow);
      *word = MAX (*word, wide);
    }
}

static GtkSizeRequestMode
cro_mark_heads_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cro_mark_heads_measure_size (GtkWidget      *widget,
                             GtkOrientation  orientation,
                             int             for_size,
                             int            *min,
                             int            *natural,
                             int            *min_baseline,
                             int            *natural_baseline)
{
  CroMarkHeads *self = CRO_MARK_HEADS (widget);
  int letters, word, each = for_size >= 0 && self->n > 0 ? for_size / (int) self->n : -1;

  cro_mark_heads_measure (self, &letters, &word);
  *min = (int) self->n * letters;
  *natural = (int) self->n * word;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    return;
  *min = *natural = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int height;

      gtk_widget_measure (child, orientation, MAX (each, letters), &height, NULL, NULL, NULL);
      *min = *natural = MAX (*min, height);
    }
}

static void
cro_mark_heads_size_allocate (GtkWidget *widget,
                              int        width,
                              int        height,
                              int        baseline)
{
  CroMarkHeads *self = CRO_MARK_HEADS (widget);
  gboolean is_rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  guint i = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child), i++)
    {
      GtkAllocation at = { 0, 0, 0, height };
      int least;

      cro_marks_place (i, self->n, width, is_rtl, &at.x, &at.width);
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      at.width = MAX (at.width, least);
      gtk_widget_size_allocate (child, &at, -1);
    }
}

static void
cro_mark_heads_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (cro_mark_heads_parent_class)->dispose (object);
}

static void
cro_mark_heads_class_init (CroMarkHeadsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_mark_heads_dispose;
  widget_class->get_request_mode = cro_mark_heads_get_request_mode;
  widget_class->measure = cro_mark_heads_measure_size;
  widget_class->size_allocate = cro_mark_heads_size_allocate;
}

static void
cro_mark_heads_init (CroMarkHeads *self)
{
}

GtkWidget *
cro_mark_heads_new (const char *const *letters,
                    const char *const *words,
                    guint              n)
{
  CroMarkHeads *self = g_object_new (CRO_TYPE_MARK_HEADS, NULL);
  int narrowest, widest;

  self->n = n;
  for (guint i = 0; i < n; i++)
    gtk_widget_set_parent (cro_mark_head_new (letters[i], words[i]), GTK_WIDGET (self));
  cro_mark_heads_measure (self, &narrowest, &widest);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    cro_mark_head_set_room (CRO_MARK_HEAD (child), widest);
  return GTK_WIDGET (self);
}
