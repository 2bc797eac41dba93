#include "config.h"

#include "cro-intake-bar.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-field.h"
#include "cro-file-choice.h"
#include "cro-focus.h"
#include "cro-wrap.h"

struct _CroIntakeBar
{
  GtkWidget  parent_instance;

  GtkWidget *wrap;
  CroBench  *bench;       /* borrowed */
  char      *title;
};

G_DEFINE_FINAL_TYPE (CroIntakeBar, cro_intake_bar, GTK_TYPE_WIDGET)

enum
{
  GIVEN_FILE,
  GIVEN_TEXT,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- From a file ------------------------------------------------------------------------------------- */

static void
file_chosen_cb (gpointer    bar,
                const char *path)
{
  g_signal_emit (bar, signals[GIVEN_FILE], 0, path);
}

static void
file_cb (CroIntakeBar *self)
{
  static const char *const suffixes[] = { "csv", "txt", "tsv", "xlsx", NULL };
  const CroFileChoice choice = { self->title, GTK_FILE_CHOOSER_ACTION_OPEN, NULL, _("Spreadsheets"), suffixes };

  cro_file_choice_ask (&choice, GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), file_chosen_cb, self);
}

/* --- Pasted ------------------------------------------------------------------------------------------ */

static void
clipboard_read_cb (GObject      *clipboard,
                   GAsyncResult *result,
                   gpointer      bar)
{
  g_autoptr (CroIntakeBar) self = bar;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);

  if (self->wrap == NULL)
    return;
  if (text == NULL || *text == '\0')
    cro_bench_say (self->bench, _("Copy the rows of a spreadsheet first, then paste them here."));
  else
    g_signal_emit (self, signals[GIVEN_TEXT], 0, text);
}

static void
paste_cb (CroIntakeBar *self)
{
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, clipboard_read_cb,
                                 g_object_ref (self));
}

/* Rows are rows wherever the focus is; a single word goes into the field that has it, as anywhere else. */
static void
pasted_by_key_cb (GObject      *clipboard,
                  GAsyncResult *result,
                  gpointer      bar)
{
  g_autoptr (CroIntakeBar) self = bar;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);
  GtkRoot *root = self->wrap != NULL ? gtk_widget_get_root (GTK_WIDGET (self)) : NULL;
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  gboolean is_field = GTK_IS_EDITABLE (focus) && gtk_editable_get_editable (GTK_EDITABLE (focus));

  if (root == NULL || text == NULL || *g_strchomp (text) == '\0')
    return;
  if (!is_field || strpbrk (text, "\t\n") != NULL)
    {
      g_signal_emit (self, signals[GIVEN_TEXT], 0, text);
      return;
    }
  cro_entry_insert (focus, text);
}

static gboolean
key_pressed_cb (CroIntakeBar    *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  GdkModifierType held = state & (GDK_CONTROL_MASK | GDK_SHIFT_MASK | GDK_ALT_MASK);
  gboolean is_paste = (held == GDK_CONTROL_MASK && (keyval == GDK_KEY_v || keyval == GDK_KEY_V))
                      || (held == GDK_SHIFT_MASK && (keyval == GDK_KEY_Insert || keyval == GDK_KEY_KP_Insert));

  if (!is_paste || !gtk_widget_get_visible (GTK_WIDGET (self)) || !gtk_widget_is_sensitive (GTK_WIDGET (self)))
    return GDK_EVENT_PROPAGATE;
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, pasted_by_key_cb,
                                 g_object_ref (self));
  return GDK_EVENT_STOP;
}

void
cro_intake_bar_take_pastes (CroIntakeBar *self,
                            GtkWidget    *widget)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (widget, keys);
}

/* --- Dropped ----------------------------------------------------------------------------------------- */

static gboolean
drop_cb (CroIntakeBar *self,
         const GValue *value)
{
  g_autofree char *path = NULL;

  if (!gtk_widget_is_sensitive (GTK_WIDGET (self)))
    return FALSE;
  if (G_VALUE_HOLDS_STRING (value))
    g_signal_emit (self, signals[GIVEN_TEXT], 0, g_value_get_string (value));
  else if ((path = g_file_get_path (g_value_get_object (value))) != NULL)
    g_signal_emit (self, signals[GIVEN_FILE], 0, path);
  return path != NULL || G_VALUE_HOLDS_STRING (value);
}

void
cro_intake_bar_take_drops (CroIntakeBar *self,
                           GtkWidget    *widget)
{
  GtkDropTarget *drop = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);
  GType types[] = { G_TYPE_FILE, G_TYPE_STRING };

  gtk_drop_target_set_gtypes (drop, types, G_N_ELEMENTS (types));
  g_signal_connect_object (drop, "drop", G_CALLBACK (drop_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drop));
}

/* --- The widget -------------------------------------------------------------------------------------- */

static void
cro_intake_bar_dispose (GObject *object)
{
  CroIntakeBar *self = CRO_INTAKE_BAR (object);

  g_clear_pointer (&self->wrap, gtk_widget_unparent);
  g_clear_pointer (&self->title, g_free);
  G_OBJECT_CLASS (cro_intake_bar_parent_class)->dispose (object);
}

static void
cro_intake_bar_class_init (CroIntakeBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_intake_bar_dispose;
  widget_class->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  signals[GIVEN_FILE] = g_signal_new ("file", CRO_TYPE_INTAKE_BAR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                      G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[GIVEN_TEXT] = g_signal_new ("text", CRO_TYPE_INTAKE_BAR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                      G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
cro_intake_bar_init (CroIntakeBar *self)
{
}

GtkWidget *
cro_intake_bar_new (CroBench      *bench,
                    CroIntakeKind  kind,
                    const char    *title)
{
  CroIntakeBar *self = g_object_new (CRO_TYPE_INTAKE_BAR, NULL);
  GtkWidget *file = gtk_button_new_with_label (kind == CRO_INTAKE_SALES ? _("Till File…") : _("From a File…"));
  GtkWidget *paste = gtk_button_new_with_label (_("Paste Rows"));

  self->bench = bench;
  self->title = g_strdup (title);
  self->wrap = cro_wrap_new (9, 6);
  g_signal_connect_object (file, "clicked", G_CALLBACK (file_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (paste, "clicked", G_CALLBACK (paste_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (self->wrap), file);
  cro_wrap_append (CRO_WRAP (self->wrap), paste);
  gtk_widget_set_parent (self->wrap, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
