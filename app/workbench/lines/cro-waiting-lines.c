#include "config.h"

#include "cro-waiting-lines.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-quick-words.h"
#include "cro-quick.h"
#include "cro-words.h"

/* Why a line is kept back stands below it, and begins where it does within its button. Pixels. */
#define REASON_MARGIN 10

struct _CroWaitingLines
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *rows;
  CroBench  *bench;   /* borrowed */
  GPtrArray *texts;
};

enum
{
  TAKEN,
  DISMISSED,
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (CroWaitingLines, cro_waiting_lines, GTK_TYPE_WIDGET)

/* --- Rows ------------------------------------------------------------------------------------------- */

static guint
place_of (GtkWidget *button)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "at"));
}

static void
taken_cb (CroWaitingLines *self,
          GtkWidget       *button)
{
  g_signal_emit (self, signals[TAKEN], 0, place_of (button));
}

static void
dismissed_cb (CroWaitingLines *self,
              GtkWidget       *button)
{
  g_signal_emit (self, signals[DISMISSED], 0, place_of (button));
}

static char *
dup_reason (CroWaitingLines *self,
            const char      *text)
{
  g_auto (CroQuick) quick = { 0 };

  cro_quick_read_line (cro_book_get_model (cro_bench_get_book (self->bench)), text, cro_words_entry (), &quick);
  return cro_quick_reason (text, &quick);
}

static GtkWidget *
row_new (CroWaitingLines *self,
         guint            at)
{
  const char *text = self->texts->pdata[at];
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *both = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *take = gtk_button_new_with_label (text);
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (take));
  GtkWidget *why;
  /* Translators: %s is a line of a recipe that could not be placed. */
  g_autofree char *name = cro_isolate_printf (_("Forget “%s”"), text);
  GtkWidget *dismiss = cro_icon_button_new ("window-close-symbolic", name);
  g_autofree char *reason = dup_reason (self, text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_halign (take, GTK_ALIGN_START);
  gtk_widget_add_css_class (take, "flat");
  g_object_set_data (G_OBJECT (take), "at", GUINT_TO_POINTER (at));
  g_object_set_data (G_OBJECT (dismiss), "at", GUINT_TO_POINTER (at));
  g_signal_connect_object (take, "clicked", G_CALLBACK (taken_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (dismiss, "clicked", G_CALLBACK (dismissed_cb), self, G_CONNECT_SWAPPED);
  why = cro_text_new (reason, "caption");
  gtk_widget_set_margin_start (why, REASON_MARGIN);
  gtk_box_append (GTK_BOX (both), take);
  gtk_box_append (GTK_BOX (both), why);
  gtk_widget_set_hexpand (both, TRUE);
  gtk_box_append (GTK_BOX (row), both);
  gtk_box_append (GTK_BOX (row), dismiss);
  return row;
}

static void
show (CroWaitingLines *self)
{
  cro_box_clear (self->rows);
  for (guint i = 0; i < self->texts->len; i++)
    gtk_box_append (GTK_BOX (self->rows), row_new (self, i));
  gtk_widget_set_visible (GTK_WIDGET (self), self->texts->len > 0);
  g_signal_emit (self, signals[CHANGED], 0);
}

/* --- The widget ------------------------------------------------------------------------------------- */

static void
cro_waiting_lines_dispose (GObject *object)
{
  CroWaitingLines *self = CRO_WAITING_LINES (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->texts, g_ptr_array_unref);
  G_OBJECT_CLASS (cro_waiting_lines_parent_class)->dispose (object);
}

static void
cro_waiting_lines_class_init (CroWaitingLinesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_waiting_lines_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[TAKEN] = g_signal_new ("taken", CRO_TYPE_WAITING_LINES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[DISMISSED] = g_signal_new ("dismissed", CRO_TYPE_WAITING_LINES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                     G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[CHANGED] = g_signal_new ("changed", CRO_TYPE_WAITING_LINES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
}

static void
cro_waiting_lines_init (CroWaitingLines *self)
{
  self->texts = g_ptr_array_new_with_free_func (g_free);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  self->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_add_css_class (self->rows, "kept");
  gtk_box_append (GTK_BOX (self->box), cro_text_new (_("Not added yet:"), "caption"));
  gtk_box_append (GTK_BOX (self->box), self->rows);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

GtkWidget *
cro_waiting_lines_new (CroBench *bench)
{
  CroWaitingLines *self = g_object_new (CRO_TYPE_WAITING_LINES, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}

guint
cro_waiting_lines_count (CroWaitingLines *self)
{
  return self->texts->len;
}

const char *
cro_waiting_lines_get (CroWaitingLines *self,
                       guint            at)
{
  return at < self->texts->len ? self->texts->pdata[at] : NULL;
}

void
cro_waiting_lines_set (CroWaitingLines   *self,
                       const char *const *lines)
{
  g_ptr_array_set_size (self->texts, 0);
  cro_waiting_lines_prepend (self, lines);
}

void
cro_waiting_lines_prepend (CroWaitingLines   *self,
                           const char *const *lines)
{
  for (int at = 0; lines[at] != NULL; at++)
    g_ptr_array_insert (self->texts, at, g_strdup (lines[at]));
  show (self);
}

char *
cro_waiting_lines_exchange (CroWaitingLines *self,
                            guint            at,
                            const char      *text)
{
  char *taken = g_ptr_array_steal_index (self->texts, at);

  if (*text != '\0')
    g_ptr_array_insert (self->texts, (int) at, g_strdup (text));
  show (self);
  return taken;
}

void
cro_waiting_lines_remove (CroWaitingLines *self,
                          guint            at)
{
  g_ptr_array_remove_index (self->texts, at);
  show (self);
}
