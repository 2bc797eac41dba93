#include "config.h"

#include "cro-notes.h"

#include "cro-measure.h"

struct _CroNotes
{
  GtkWidget  parent_instance;

  GtkWidget *scroller;
  GtkWidget *notes;
};

G_DEFINE_FINAL_TYPE (CroNotes, cro_notes, GTK_TYPE_WIDGET)

static void
cro_notes_measure (GtkWidget      *widget,
                   GtkOrientation  orientation,
                   int             for_size,
                   int            *minimum,
                   int            *natural,
                   int            *minimum_baseline,
                   int            *natural_baseline)
{
  CroNotes *self = CRO_NOTES (widget);

  gtk_widget_measure (self->scroller, orientation, for_size, minimum, natural, NULL, NULL);
  if (orientation == GTK_ORIENTATION_VERTICAL && for_size >= 0)
    *natural = MAX (*minimum, cro_measure_height (self->notes, for_size));
}

static GtkSizeRequestMode
cro_notes_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cro_notes_size_allocate (GtkWidget *widget,
                         int        width,
                         int        height,
                         int        baseline)
{
  gtk_widget_size_allocate (CRO_NOTES (widget)->scroller, &(GtkAllocation){ 0, 0, width, height }, baseline);
}

static void
cro_notes_dispose (GObject *object)
{
  g_clear_pointer (&CRO_NOTES (object)->scroller, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_notes_parent_class)->dispose (object);
}

static void
cro_notes_class_init (CroNotesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_notes_dispose;
  widget_class->measure = cro_notes_measure;
  widget_class->size_allocate = cro_notes_size_allocate;
  widget_class->get_request_mode = cro_notes_get_request_mode;
}

static void
cro_notes_init (CroNotes *self)
{
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (self->scroller), TRUE);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (self->scroller), FALSE);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
}

GtkWidget *
cro_notes_new (GtkWidget *notes)
{
  CroNotes *self = g_object_new (CRO_TYPE_NOTES, NULL);

  self->notes = notes;
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), notes);
  return GTK_WIDGET (self);
}
