#include "config.h"

#include "cro-cells.h"

#include "cro-field.h"
#include "cro-measure.h"
#include "cro-text-width.h"

/* What a text gets at most, in characters. Where the width does not do for all it breaks into lines,
 * of so many characters that it need not be cut; below that the table scrolls sideways. */
#define MOST_CHARS 36
#define MOST_LINES 3
#define LEAST_CHARS 7
#define ENOUGH_CHARS 16

struct _CroCells
{
  GtkWidget   parent_instance;

  CroColumns *columns;
};

G_DEFINE_FINAL_TYPE (CroCells, cro_cells, GTK_TYPE_WIDGET)

/* --- Layout ---------------------------------------------------------------------------------------- */

static GtkSizeRequestMode
cro_cells_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
measure_height (CroCells *self,
                int       width,
                int      *height)
{
  g_autofree int *widths = g_new0 (int, cro_columns_get_n (self->columns) + 1);
  guint i = 0;

  cro_columns_allot (self->columns, width, widths);
  *height = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self)); child != NULL;
       child = gtk_widget_get_next_sibling (child), i++)
    {
      int min, natural, needed;

      if (widths[i] == 0)
        continue;
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &needed, NULL, NULL, NULL);
      gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, MAX (widths[i], needed), &min, &natural,
                          NULL, NULL);
      *height = MAX (*height, MAX (min, natural));
    }
}

static void
cro_cells_measure (GtkWidget      *widget,
                   GtkOrientation  orientation,
                   int             for_size,
                   int            *min,
                   int            *natural,
                   int            *min_baseline,
                   int            *natural_baseline)
{
  CroCells *self = CRO_CELLS (widget);
  int narrowest, wanted;

  cro_columns_measure (self->columns, &narrowest, &wanted);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *min = narrowest;
      *natural = wanted;
      return;
    }
  measure_height (self, for_size >= 0 ? for_size : wanted, min);
  *natural = *min;
}

/* A heading ends where the shortest of the numbers under it do, where it has room for its text: a word behind one of
 * them would leave it beside the others. */
static int
aside_of_heading (CroCells  *self,
                  guint      column,
                  GtkWidget *child,
                  int        width)
{
  int natural;

  if (!GTK_IS_BUTTON (child) || !cro_columns_is_number (self->columns, column))
    return 0;
  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &natural, NULL, NULL);
  return CLAMP (width - natural, 0, cro_columns_get_aside (self->columns, column));
}

/* What stands behind a number so that its decimal sign is under those of the others. */
static int
behind (CroCells  *self,
        guint      column,
        GtkWidget *child)
{
  gpointer tail = g_object_get_data (G_OBJECT (child), "tail");

  return tail != NULL ? cro_columns_get_tail (self->columns, column) - GPOINTER_TO_INT (tail) + 1
                      : 0;
}

static void
cro_cells_size_allocate (GtkWidget *widget,
                         int        width,
                         int        height,
                         int        baseline)
{
  CroCells *self = CRO_CELLS (widget);
  gboolean is_rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  g_autofree int *widths = g_new0 (int, cro_columns_get_n (self->columns) + 1);
  int x = 0;
  guint i = 0;

  cro_columns_show (self->columns, width);
  cro_columns_allot (self->columns, width, widths);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child), i++)
    {
      int needed;
      GtkAllocation at = { x, 0, widths[i], height };

      gtk_widget_set_child_visible (child, widths[i] > 0);
      if (widths[i] == 0)
        continue;
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &needed, NULL, NULL, NULL);
      needed += behind (self, i, child);
      at.width = MAX (at.width, needed);
      if (is_rtl)
        at.x = width - x - at.width;
      at.width -= behind (self, i, child) + aside_of_heading (self, i, child, at.width);
      gtk_widget_size_allocate (child, &at, -1);
      x += widths[i];
    }
}

/* --- Focus ------------------------------------------------------------------------------------------ */

/* Tab leads in and out; within the row it is the arrows that walk. */
static gboolean
cro_cells_focus (GtkWidget        *widget,
                 GtkDirectionType  direction)
{
  gboolean is_tab = direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD;

  if (is_tab && gtk_widget_get_focus_child (widget) != NULL)
    return FALSE;
  return GTK_WIDGET_CLASS (cro_cells_parent_class)->focus (widget, direction);
}

/* --- The widget --------------------------------------------------------------------------------------- */

static void
cro_cells_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&CRO_CELLS (object)->columns);
  G_OBJECT_CLASS (cro_cells_parent_class)->dispose (object);
}

static void
cro_cells_class_init (CroCellsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_cells_dispose;
  widget_class->get_request_mode = cro_cells_get_request_mode;
  widget_class->measure = cro_cells_measure;
  widget_class->size_allocate = cro_cells_size_allocate;
  widget_class->focus = cro_cells_focus;
  gtk_widget_class_set_css_name (widget_class, "cells");
}

static void
cro_cells_init (CroCells *self)
{
}

GtkWidget *
cro_cells_new (CroColumns *columns)
{
  CroCells *self = g_object_new (CRO_TYPE_CELLS, NULL);

  self->columns = g_object_ref (columns);
  g_signal_connect_object (columns, "changed", G_CALLBACK (gtk_widget_queue_resize), self,
                           G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}

void
cro_cells_append (CroCells  *self,
                  GtkWidget *child)
{
  gtk_widget_insert_before (child, GTK_WIDGET (self), NULL);
}

static void
let_wrap (GtkLabel *label,
          gboolean  wraps)
{
  gtk_label_set_single_line_mode (label, !wraps);
  gtk_label_set_wrap (label, wraps);
  gtk_label_set_wrap_mode (label, PANGO_WRAP_WORD_CHAR);
  gtk_label_set_natural_wrap_mode (label, GTK_NATURAL_WRAP_NONE);
  gtk_label_set_lines (label, wraps ? MOST_LINES : -1);
}

static GtkWidget *
label_new (gboolean is_number,
           gboolean is_whole)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), is_number ? 1 : 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (is_number)
    {
      cro_number_label_setup (label);
      gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_RIGHT);
    }
  let_wrap (GTK_LABEL (label), !is_number && !is_whole);
  return label;
}

void
cro_cells_append_text (CroCells *self,
                       guint     column)
{
  cro_cells_append (self, label_new (cro_columns_is_number (self->columns, column),
                                     cro_columns_is_whole (self->columns, column)));
}

GtkWidget *
cro_cells_new_texts (CroColumns *columns)
{
  GtkWidget *self = cro_cells_new (columns);

  for (guint i = 0; i < cro_columns_get_n (columns); i++)
    cro_cells_append_text (CRO_CELLS (self), i);
  return self;
}

/* One for all rows, which have one font. */
static CroTextWidth *
widths_of (CroCells  *self,
           GtkWidget *label)
{
  CroTextWidth *widths = g_object_get_data (G_OBJECT (self->columns), "widths");

  if (widths == NULL)
    {
      widths = cro_text_width_new (label);
      g_object_set_data_full (G_OBJECT (self->columns), "widths", widths,
                              (GDestroyNotify) cro_text_width_free);
    }
  return widths;
}

/* "agrees", "not known yet" among numbers: nothing of it stands under a decimal sign. */
static gboolean
is_word (const char *text)
{
  gboolean has_letter = FALSE;

  for (; *text != '\0'; text = g_utf8_next_char (text))
    {
      if (g_unichar_isdigit (g_utf8_get_char (text)))
        return FALSE;
      has_letter |= g_unichar_isalpha (g_utf8_get_char (text));
    }
  return has_letter;
}

/* The tail is kept with one pixel more, so that it is never nothing. */
static void
tell_number (CroCells   *self,
             guint       column,
             GtkWidget  *label,
             const char *text)
{
  int wanted, head, tail;

  cro_text_width_of_number (widths_of (self, label), text, &head, &tail);
  gtk_widget_measure (label, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &wanted, NULL, NULL);
  g_object_set_data (G_OBJECT (label), "tail", GINT_TO_POINTER (tail + 1));
  cro_columns_take_number (self->columns, column, MAX (wanted - head - tail, 0), head, tail);
}

static int
width_of (GtkWidget  *label,
          const char *text)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (label, text);
  int width;

  pango_layout_get_pixel_size (layout, &width, NULL);
  return width;
}

/* A word is not broken in two where all of it would do. */
static int
longest_word (GtkWidget *label)
{
  g_auto (GStrv) words = g_strsplit (gtk_label_get_label (GTK_LABEL (label)), " ", -1);
  int longest = 0;

  for (char **word = words; *word != NULL; word++)
    longest = MAX (longest, width_of (label, *word));
  return longest;
}

static void
tell_width (CroCells  *self,
            guint      column,
            GtkWidget *label)
{
  int least, wanted, frame;

  gtk_widget_measure (label, GTK_ORIENTATION_HORIZONTAL, -1, &least, &wanted, NULL, NULL);
  frame = MAX (wanted - width_of (label, gtk_label_get_label (GTK_LABEL (label))), 0);
  /* A word among numbers, "in Tide and elsewhere", is as long as a name is: it turns where it has to. */
  if (cro_columns_is_number (self->columns, column))
    least = MIN (wanted, cro_measure_chars (label, ENOUGH_CHARS) + frame);
  else if (cro_columns_is_whole (self->columns, column))
    least = wanted;
  wanted = MIN (wanted, MAX (least, cro_measure_chars (label, MOST_CHARS)));
  least = MAX (least, MIN (wanted * 6 / 10, cro_measure_chars (label, ENOUGH_CHARS)));
  least = MAX (least, MIN (wanted, cro_measure_chars (label, LEAST_CHARS)));
  least = MAX (least, MIN (wanted, longest_word (label) + frame));
  cro_columns_take (self->columns, column, least, wanted, wanted);
}

GtkWidget *
cro_cells_get_child (CroCells *self,
                     guint     column)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  for (guint i = 0; i < column; i++)
    child = gtk_widget_get_next_sibling (child);
  return child;
}

void
cro_cells_set_text (CroCells   *self,
                    guint       column,
                    const char *text)
{
  GtkWidget *label = cro_cells_get_child (self, column);

  gtk_label_set_label (GTK_LABEL (label), text);
  if (cro_columns_is_number (self->columns, column))
    let_wrap (GTK_LABEL (label), is_word (text));
  if (cro_columns_is_number (self->columns, column) && is_word (text))
    {
      g_object_set_data (G_OBJECT (label), "tail", NULL);
      tell_width (self, column, label);
    }
  else if (cro_columns_is_number (self->columns, column))
    tell_number (self, column, label, text);
  else if (cro_columns_is_longest (self->columns, column, g_utf8_strlen (text, -1)))
    tell_width (self, column, label);
}
