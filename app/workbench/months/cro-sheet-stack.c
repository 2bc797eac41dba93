#include "config.h"

#include "cro-sheet-stack.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-focus.h"

typedef struct
{
  GtkWidget *widget;      /* borrowed from the stack */
  char      *way;         /* to what had the focus before; NULL: nothing of the page had it */
} Sheet;

struct _CroSheetStack
{
  GtkWidget  parent_instance;

  GtkWidget *stack;
  GtkWidget *page;        /* borrowed from the stack */
  GArray    *sheets;      /* Sheet: the last is in sight */
};

G_DEFINE_FINAL_TYPE (CroSheetStack, cro_sheet_stack, GTK_TYPE_WIDGET)

enum
{
  MOVED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
clear_sheet (gpointer sheet)
{
  g_free (((Sheet *) sheet)->way);
}

/* What is in sight then gets the focus before the sheet goes: none is lost. */
void
cro_sheet_stack_back (CroSheetStack *self)
{
  guint n = self->sheets->len;
  GtkWidget *gone, *below;
  g_autofree char *way = NULL;

  if (n == 0)
    return;
  gone = g_array_index (self->sheets, Sheet, n - 1).widget;
  way = g_strdup (g_array_index (self->sheets, Sheet, n - 1).way);
  below = n > 1 ? g_array_index (self->sheets, Sheet, n - 2).widget : self->page;
  g_array_set_size (self->sheets, n - 1);
  gtk_stack_set_visible_child (GTK_STACK (self->stack), below);
  if (way == NULL || !cro_focus_go (below, way))
    cro_focus_first (below);
  gtk_stack_remove (GTK_STACK (self->stack), gone);
  g_signal_emit (self, signals[MOVED], 0);
}

void
cro_sheet_stack_close (CroSheetStack *self)
{
  if (self->sheets->len == 0)
    return;
  gtk_stack_set_visible_child (GTK_STACK (self->stack), self->page);
  for (guint i = 0; i < self->sheets->len; i++)
    gtk_stack_remove (GTK_STACK (self->stack), g_array_index (self->sheets, Sheet, i).widget);
  g_array_set_size (self->sheets, 0);
  g_signal_emit (self, signals[MOVED], 0);
}

gboolean
cro_sheet_stack_is_open (CroSheetStack *self)
{
  return self->sheets->len > 0;
}

static GtkWidget *
sheet_new (CroSheetStack *self,
           const char    *title,
           GtkWidget     *content,
           GtkWidget    **leave)
{
  GtkWidget *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *heading = cro_text_new (title, "title-4");

  *leave = gtk_button_new_with_label (_("Back"));
  g_signal_connect_object (*leave, "clicked", G_CALLBACK (cro_sheet_stack_back), self, G_CONNECT_SWAPPED);
  gtk_widget_set_hexpand (heading, TRUE);
  gtk_box_append (GTK_BOX (head), heading);
  gtk_box_append (GTK_BOX (head), *leave);
  gtk_widget_set_vexpand (content, TRUE);
  gtk_widget_set_visible (head, title != NULL);
  gtk_box_append (GTK_BOX (sheet), head);
  gtk_box_append (GTK_BOX (sheet), content);
  return sheet;
}

void
cro_sheet_stack_open (CroSheetStack *self,
                      const char    *title,
                      GtkWidget     *content)
{
  GtkWidget *leave, *from = gtk_stack_get_visible_child (GTK_STACK (self->stack));
  Sheet sheet = { sheet_new (self, title, content, &leave), cro_focus_dup_way (from) };

  gtk_stack_add_child (GTK_STACK (self->stack), sheet.widget);
  g_array_append_val (self->sheets, sheet);
  gtk_stack_set_visible_child (GTK_STACK (self->stack), sheet.widget);
  if (!gtk_widget_grab_focus (content) && !cro_focus_first (content))
    gtk_widget_grab_focus (leave);
  g_signal_emit (self, signals[MOVED], 0);
}

/* After the fields in a sheet, which have it first. */
static gboolean
key_cb (CroSheetStack   *self,
        guint            keyval,
        guint            keycode,
        GdkModifierType  state)
{
  if (keyval != GDK_KEY_Escape || self->sheets->len == 0)
    return GDK_EVENT_PROPAGATE;
  cro_sheet_stack_back (self);
  return GDK_EVENT_STOP;
}

/* --- The widget ----------------------------------------------------------------------------- */

static void
cro_sheet_stack_dispose (GObject *object)
{
  CroSheetStack *self = CRO_SHEET_STACK (object);

  g_clear_pointer (&self->stack, gtk_widget_unparent);
  g_clear_pointer (&self->sheets, g_array_unref);
  G_OBJECT_CLASS (cro_sheet_stack_parent_class)->dispose (object);
}

static void
cro_sheet_stack_class_init (CroSheetStackClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_sheet_stack_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[MOVED] = g_signal_new ("moved", CRO_TYPE_SHEET_STACK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
cro_sheet_stack_init (CroSheetStack *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->sheets = g_array_new (FALSE, FALSE, sizeof (Sheet));
  g_array_set_clear_func (self->sheets, clear_sheet);
  self->stack = gtk_stack_new ();
  gtk_stack_set_hhomogeneous (GTK_STACK (self->stack), FALSE);
  gtk_stack_set_vhomogeneous (GTK_STACK (self->stack), FALSE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->stack, keys);
  gtk_widget_set_parent (self->stack, GTK_WIDGET (self));
}

GtkWidget *
cro_sheet_stack_new (GtkWidget *page)
{
  CroSheetStack *self = g_object_new (CRO_TYPE_SHEET_STACK, NULL);

  self->page = page;
  gtk_stack_add_child (GTK_STACK (self->stack), page);
  return GTK_WIDGET (self);
}
