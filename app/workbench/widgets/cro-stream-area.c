#include "config.h"

#include "cro-stream-area.h"

#include <adwaita.h>
#include <glib/gi18n.h>
#include <math.h>

#include "cro-isolate.h"
#include "cro-spoken.h"

#define WIDTH 320
#define HEIGHT 300

/* Of its width the height at which bands are neither steep nor flat, up to one that a screen holds. */
#define SHAPE 0.8
#define MOST_HEIGHT 620

/* Free of the lines, more names than that are not read: the rest of what is on a plate is one. */
#define MOST_COMPONENTS 16

/* How long what has changed moves, in microseconds. */
#define MOVE (180 * G_TIME_SPAN_MILLISECOND)

struct _CroStreamArea
{
  GtkWidget             parent_instance;

  CroStream            *stream;
  CroStream            *before;      /* moves to the other; NULL: nothing moves */
  CroStream            *outline;
  char                 *near_title;
  char                 *far_title;
  char                 *says;
  CroStreamEndsFunc     tell_ends;   /* NULL: free */
  gpointer              of_ends;
  GArray               *ends;        /* CroStreamEnd, as it is arranged */
  guint                 chosen;
  PangoFontDescription *font;        /* of the widget, absolute */
  int                   width;       /* for which it is arranged */
  int                   height;
  gboolean              is_stale;    /* must be arranged anew */
  gint64                began;
  guint                 tick;
};

G_DEFINE_FINAL_TYPE (CroStreamArea, cro_stream_area, GTK_TYPE_WIDGET)

enum
{
  OPEN_PLACE,
  LARGER,
  CHOSEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- Look ------------------------------------------------------------------------------------- */

static CroStreamPalette
palette (void)
{
  AdwStyleManager *manager = adw_style_manager_get_default ();
  gboolean is_dark = adw_style_manager_get_dark (manager);

  if (adw_style_manager_get_high_contrast (manager))
    return is_dark ? CRO_STREAM_DARK_CONTRAST : CRO_STREAM_LIGHT_CONTRAST;
  return is_dark ? CRO_STREAM_DARK : CRO_STREAM_LIGHT;
}

static void
make_font (CroStreamArea *self)
{
  PangoContext *context = gtk_widget_get_pango_context (GTK_WIDGET (self));
  const PangoFontDescription *of = pango_context_get_font_description (context);
  double resolution = pango_cairo_context_get_resolution (context);
  double size = pango_font_description_get_size (of);

  g_clear_pointer (&self->font, pango_font_description_free);
  self->font = pango_font_description_copy (of);
  if (!pango_font_description_get_size_is_absolute (of))
    size *= (resolution > 0 ? resolution : 96) / 72;
  pango_font_description_set_absolute_size (self->font, size);
}

static CroStreamLook
look_of (CroStreamArea *self)
{
  if (self->font == NULL)
    make_font (self);
  return (CroStreamLook){
    .palette = palette (), .font = self->font,
    .is_mirrored = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL,
    .near_title = self->near_title, .far_title = self->far_title,
    .most_components = self->ends->len > 0 ? 0 : MOST_COMPONENTS,
    .ends = (const CroStreamEnd *) self->ends->data, .n_ends = self->ends->len,
  };
}

void
cro_stream_area_get_look (CroStreamArea *self,
                          CroStreamLook *look)
{
  *look = look_of (self);
  look->palette = CRO_STREAM_LIGHT;
  look->n_ends = 0;
  look->most_components = MOST_COMPONENTS;
}

/* --- Arranging -------------------------------------------------------------------------------- */

/* Whether rows moved. */
static gboolean
take_ends (CroStreamArea *self)
{
  g_autoptr (GArray) before = g_steal_pointer (&self->ends);

  self->ends = g_array_new (FALSE, FALSE, sizeof (CroStreamEnd));
  if (self->tell_ends != NULL)
    self->tell_ends (self->ends, self->of_ends);
  if (before->len != self->ends->len)
    return TRUE;
  for (guint i = 0; i < before->len; i++)
    {
      const CroStreamEnd *was = &g_array_index (before, CroStreamEnd, i);
      const CroStreamEnd *is = &g_array_index (self->ends, CroStreamEnd, i);

      if (was->id != is->id || fabs (was->middle - is->middle) > 0.01)
        return TRUE;
    }
  return FALSE;
}

/* What was stands behind what is, and is as wide where nothing changed. */
static void
arrange_both (CroStreamArea *self,
              CroStreamLook *look)
{
  cro_stream_arrange (self->stream, look, self->width, self->height);
  if (self->outline == NULL)
    return;
  look->most_scale = cro_stream_get_scale (self->stream);
  cro_stream_arrange (self->outline, look, self->width, self->height);
  look->most_scale = cro_stream_get_scale (self->outline);
  if (look->most_scale > 0 && look->most_scale < cro_stream_get_scale (self->stream))
    cro_stream_arrange (self->stream, look, self->width, self->height);
}

static void
arrange (CroStreamArea *self)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  int height = gtk_widget_get_height (GTK_WIDGET (self));
  CroStreamLook look;

  self->is_stale |= take_ends (self);
  if (!self->is_stale && width == self->width && height == self->height)
    return;
  self->width = width;
  self->height = height;
  self->is_stale = FALSE;
  look = look_of (self);
  arrange_both (self, &look);
  if (self->chosen != CRO_STREAM_NOWHERE && self->chosen >= cro_stream_n_places (self->stream))
    self->chosen = CRO_STREAM_NOWHERE;
}

/* Slower towards the end. */
static double
part_of_way (CroStreamArea *self)
{
  gint64 now = gdk_frame_clock_get_frame_time (gtk_widget_get_frame_clock (GTK_WIDGET (self)));
  double left = 1 - CLAMP ((double) (now - self->began) / MOVE, 0, 1);

  return 1 - left * left;
}

static void
stop (CroStreamArea *self)
{
  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  g_clear_pointer (&self->before, cro_stream_free);
}

static gboolean
move_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       user_data)
{
  CroStreamArea *self = CRO_STREAM_AREA (widget);

  gtk_widget_queue_draw (widget);
  if (part_of_way (self) < 1)
    return G_SOURCE_CONTINUE;
  cro_stream_move (self->stream, self->before, 1);
  self->tick = 0;
  g_clear_pointer (&self->before, cro_stream_free);
  return G_SOURCE_REMOVE;
}

static gboolean
may_move (CroStreamArea *self)
{
  gboolean wanted = FALSE;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &wanted, NULL);
  return wanted && gtk_widget_get_mapped (GTK_WIDGET (self));
}

/* --- Telling ---------------------------------------------------------------------------------- */

char *
cro_stream_area_dup_spoken (CroStreamArea *self)
{
  CroStreamPlace place;
  g_autoptr (GPtrArray) notches = NULL;
  g_autoptr (GString) steps = g_string_new (NULL);
  GString *text;

  if (self->stream == NULL || self->chosen == CRO_STREAM_NOWHERE)
    return g_strdup (self->says);
  place = cro_stream_get_place (self->stream, self->chosen);
  text = g_string_new (NULL);
  cro_isolate_append (text, place.name);
  if (place.figure != NULL)
    g_string_append_printf (text, " %s", place.figure);
  if (place.kind == CRO_STREAM_BOUGHT)
    g_string_append_printf (text, ", %s", self->far_title);
  notches = cro_stream_notches (self->stream, self->chosen);
  for (guint i = 0; i + 1 < notches->len; i++)
    {
      cro_isolate_append (steps, notches->pdata[i]);
    }
  if (steps->len > 0)
    {
      g_string_append_c (text, ' ');
      /* Translators: the steps that something goes through on its way to the plate. */
      g_string_append_printf (text, _("(by way of %s)"), steps->str);
    }
  return g_string_free (text, FALSE);
}

static void
choose (CroStreamArea *self,
        guint          place)
{
  g_autofree char *spoken = NULL;

  self->chosen = place;
  spoken = cro_stream_area_dup_spoken (self);
  cro_spoken_set (GTK_WIDGET (self), spoken != NULL ? spoken : "");
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_signal_emit (self, signals[CHOSEN], 0);
}

/* --- Keys and pointer ------------------------------------------------------------------------- */

static gboolean
walk (CroStreamArea *self,
      guint          key)
{
  gboolean is_mirrored = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  CroStreamWay way;

  switch (key)
    {
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      way = CRO_STREAM_UP;
      break;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      way = CRO_STREAM_DOWN;
      break;
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      way = is_mirrored ? CRO_STREAM_FARTHER : CRO_STREAM_NEARER;
      break;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      way = is_mirrored ? CRO_STREAM_NEARER : CRO_STREAM_FARTHER;
      break;
    default:
      return FALSE;
    }
  choose (self, cro_stream_step (self->stream, self->chosen, way));
  return TRUE;
}

static gboolean
key_cb (CroStreamArea   *self,
        guint            key,
        guint            code,
        GdkModifierType  state)
{
  gunichar letter = gdk_keyval_to_unicode (key);

  if (self->stream == NULL || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  arrange (self);
  if (walk (self, key))
    return GDK_EVENT_STOP;
  if (key == GDK_KEY_space)
    {
      g_signal_emit (self, signals[LARGER], 0);
      return GDK_EVENT_STOP;
    }
  if (key == GDK_KEY_Escape && self->chosen != CRO_STREAM_NOWHERE)
    {
      choose (self, CRO_STREAM_NOWHERE);
      return GDK_EVENT_STOP;
    }
  if (key == GDK_KEY_Return || key == GDK_KEY_KP_Enter)
    {
      if (self->chosen != CRO_STREAM_NOWHERE)
        g_signal_emit (self, signals[OPEN_PLACE], 0, self->chosen);
      return GDK_EVENT_STOP;
    }
  if (letter != 0 && g_unichar_isalnum (letter))
    {
      choose (self, cro_stream_seek (self->stream, self->chosen, letter));
      return GDK_EVENT_STOP;
    }
  return GDK_EVENT_PROPAGATE;
}

static void
pressed_cb (CroStreamArea *self,
            int            n_press,
            double         x,
            double         y)
{
  guint place;

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (self->stream == NULL)
    return;
  arrange (self);
  place = cro_stream_at (self->stream, x, y);
  if (place != CRO_STREAM_NOWHERE && place == self->chosen)
    g_signal_emit (self, signals[OPEN_PLACE], 0, place);
  else
    choose (self, place);
}

/* --- Drawing ---------------------------------------------------------------------------------- */

/* Around what is chosen: dimming alone would be a mark of colour. */
static void
draw_frame (CroStreamArea *self,
            cairo_t       *cr)
{
  CroStreamPlace place = cro_stream_get_place (self->stream, self->chosen);
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (self)), &ink);
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_set_line_width (cr, 2);
  cairo_rectangle (cr, place.x - 3, place.y - 3, place.width + 6, fmax (place.height, 1) + 6);
  cairo_stroke (cr);
}

static void
cro_stream_area_snapshot (GtkWidget   *widget,
                          GtkSnapshot *snapshot)
{
  CroStreamArea *self = CRO_STREAM_AREA (widget);
  CroStreamLook look;
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  cairo_t *cr;

  if (self->stream == NULL || width <= 0 || height <= 0)
    return;
  arrange (self);
  look = look_of (self);
  if (self->before != NULL)
    cro_stream_move (self->stream, self->before, part_of_way (self));
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  cro_stream_draw (self->stream, cr, &look, self->chosen);
  if (self->outline != NULL)
    cro_stream_draw_outline (self->outline, cr, &look);
  if (self->chosen != CRO_STREAM_NOWHERE && gtk_widget_has_focus (widget))
    draw_frame (self, cr);
  cairo_destroy (cr);
}

static void
cro_stream_area_measure (GtkWidget      *widget,
                         GtkOrientation  orientation,
                         int             for_size,
                         int            *minimum,
                         int            *natural,
                         int            *minimum_baseline,
                         int            *natural_baseline)
{
  CroStreamArea *self = CRO_STREAM_AREA (widget);
  CroStreamLook look;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = *natural = WIDTH;
      return;
    }
  *minimum = HEIGHT;
  if (self->stream != NULL)
    {
      look = look_of (self);
      look.n_ends = self->tell_ends != NULL ? MAX (look.n_ends, 1) : 0;
      *minimum = MAX (HEIGHT, (int) ceil (cro_stream_least_height (self->stream, &look)));
    }
  /* Beside rows it is as high as these. */
  *natural = self->tell_ends != NULL ? *minimum
                                     : MAX (*minimum, MIN ((int) (SHAPE * for_size), MOST_HEIGHT));
}

static GtkSizeRequestMode
cro_stream_area_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cro_stream_area_css_changed (GtkWidget         *widget,
                             GtkCssStyleChange *change)
{
  CroStreamArea *self = CRO_STREAM_AREA (widget);

  GTK_WIDGET_CLASS (cro_stream_area_parent_class)->css_changed (widget, change);
  g_clear_pointer (&self->font, pango_font_description_free);
  self->is_stale = TRUE;
}

static void
cro_stream_area_direction_changed (GtkWidget        *widget,
                                   GtkTextDirection  before)
{
  CRO_STREAM_AREA (widget)->is_stale = TRUE;
  GTK_WIDGET_CLASS (cro_stream_area_parent_class)->direction_changed (widget, before);
}

static void
cro_stream_area_dispose (GObject *object)
{
  CroStreamArea *self = CRO_STREAM_AREA (object);

  stop (self);
  g_clear_pointer (&self->stream, cro_stream_free);
  g_clear_pointer (&self->outline, cro_stream_free);
  G_OBJECT_CLASS (cro_stream_area_parent_class)->dispose (object);
}

static void
cro_stream_area_finalize (GObject *object)
{
  CroStreamArea *self = CRO_STREAM_AREA (object);

  g_free (self->near_title);
  g_free (self->far_title);
  g_free (self->says);
  g_clear_pointer (&self->font, pango_font_description_free);
  g_array_unref (self->ends);
  G_OBJECT_CLASS (cro_stream_area_parent_class)->finalize (object);
}

static void
cro_stream_area_class_init (CroStreamAreaClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_stream_area_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_stream_area_finalize;
  widget_class->snapshot = cro_stream_area_snapshot;
  widget_class->get_request_mode = cro_stream_area_get_request_mode;
  widget_class->measure = cro_stream_area_measure;
  widget_class->css_changed = cro_stream_area_css_changed;
  widget_class->direction_changed = cro_stream_area_direction_changed;
  gtk_widget_class_set_css_name (widget_class, "stream");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  signals[OPEN_PLACE] = g_signal_new ("open-place", CRO_TYPE_STREAM_AREA, G_SIGNAL_RUN_LAST, 0, NULL,
                                      NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[LARGER] = g_signal_new ("larger", CRO_TYPE_STREAM_AREA, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
  signals[CHOSEN] = g_signal_new ("chosen", CRO_TYPE_STREAM_AREA, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
}

static void
cro_stream_area_init (CroStreamArea *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkGesture *click = gtk_gesture_click_new ();
  AdwStyleManager *manager = adw_style_manager_get_default ();

  self->chosen = CRO_STREAM_NOWHERE;
  self->ends = g_array_new (FALSE, FALSE, sizeof (CroStreamEnd));
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect_object (click, "pressed", G_CALLBACK (pressed_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  g_signal_connect_object (manager, "notify::dark", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (manager, "notify::high-contrast", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self, "notify::has-focus", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
cro_stream_area_new (void)
{
  return g_object_new (CRO_TYPE_STREAM_AREA, NULL);
}

/* The place of the same thing in another stream, which must be arranged to have any. */
static void
choose_again (CroStreamArea *self,
              guint64        id)
{
  if (self->width > 0)
    {
      arrange (self);
      self->chosen = cro_stream_find (self->stream, id);
    }
  else
    self->chosen = CRO_STREAM_NOWHERE;
}

void
cro_stream_area_set (CroStreamArea         *self,
                     CroStream             *stream,
                     CroStream             *outline,
                     const CroStreamTitles *titles,
                     const char            *says,
                     gboolean               is_same)
{
  CroStream *before = g_steal_pointer (&self->stream);
  guint64 id = before != NULL && self->chosen != CRO_STREAM_NOWHERE
                   ? cro_stream_get_place (before, self->chosen).id
                   : 0;

  stop (self);
  g_clear_pointer (&self->outline, cro_stream_free);
  self->stream = stream;
  self->outline = outline;
  self->is_stale = TRUE;
  g_free (self->near_title);
  g_free (self->far_title);
  g_free (self->says);
  self->near_title = g_strdup (titles->near_title);
  self->far_title = g_strdup (titles->far_title);
  self->says = g_strdup (says);
  self->chosen = CRO_STREAM_NOWHERE;
  if (is_same && id != 0)
    choose_again (self, id);
  if (is_same && before != NULL && self->width > 0 && may_move (self))
    {
      self->before = before;
      self->began = gdk_frame_clock_get_frame_time (gtk_widget_get_frame_clock (GTK_WIDGET (self)));
      self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), move_cb, NULL, NULL);
    }
  else
    g_clear_pointer (&before, cro_stream_free);
  choose (self, self->chosen);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
cro_stream_area_set_ends (CroStreamArea     *self,
                          CroStreamEndsFunc  ends,
                          gpointer           user_data)
{
  if (self->tell_ends == ends && self->of_ends == user_data)
    return;
  self->tell_ends = ends;
  self->of_ends = user_data;
  self->is_stale = TRUE;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

CroStream *
cro_stream_area_get_stream (CroStreamArea *self)
{
  if (self->stream != NULL && self->width > 0)
    arrange (self);
  return self->stream;
}

guint
cro_stream_area_get_chosen (CroStreamArea *self)
{
  return self->chosen;
}
