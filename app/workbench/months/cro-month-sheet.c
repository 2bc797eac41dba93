#include "config.h"

#include "cro-month-sheet.h"

#include <glib/gi18n.h>

#include "cro-field.h"

struct _CroMonthSheet
{
  GtkWidget          parent_instance;

  GtkWidget         *box;
  GtkWidget         *back;

  CroBench          *bench;      /* borrowed */
  char              *month;
  CroMonthSheetKind  which;
};

G_DEFINE_FINAL_TYPE (CroMonthSheet, cro_month_sheet, GTK_TYPE_WIDGET)

enum
{
  DONE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

const char *
cro_month_sheet_title (CroMonthSheetKind which)
{
  switch (which)
    {
    case CRO_MONTH_SHEET_OPENING:
      return _("Opening stock");
    case CRO_MONTH_SHEET_PURCHASES:
      return _("Purchases");
    case CRO_MONTH_SHEET_CLOSING:
      return _("Closing stock");
    case CRO_MONTH_SHEET_ADJUSTMENTS:
      return _("Adjustments");
    case CRO_MONTH_SHEET_REVENUE:
      return _("Other revenue");
    default:
      return _("Sales");
    }
}

static void
done_cb (CroMonthSheet *self)
{
  g_signal_emit (self, signals[DONE], 0);
}

/* What is typed in a field is given up first: the field takes the key itself. */
static gboolean
escape_cb (GtkWidget *widget,
           GVariant  *arguments,
           gpointer   user_data)
{
  done_cb (CRO_MONTH_SHEET (widget));
  return GDK_EVENT_STOP;
}

void
cro_month_sheet_refresh (CroMonthSheet *self)
{
}

void
cro_month_sheet_focus_total (CroMonthSheet *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static gboolean
cro_month_sheet_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_MONTH_SHEET (widget)->back);
}

static void
cro_month_sheet_dispose (GObject *object)
{
  CroMonthSheet *self = CRO_MONTH_SHEET (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->month, g_free);
  G_OBJECT_CLASS (cro_month_sheet_parent_class)->dispose (object);
}

static void
cro_month_sheet_class_init (CroMonthSheetClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_month_sheet_dispose;
  widget_class->grab_focus = cro_month_sheet_grab_focus;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
  signals[DONE] = g_signal_new ("done", CRO_TYPE_MONTH_SHEET, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
cro_month_sheet_init (CroMonthSheet *self)
{
}

GtkWidget *
cro_month_sheet_new (CroBench          *bench,
                     const char        *month,
                     CroMonthSheetKind  which)
{
  CroMonthSheet *self = g_object_new (CRO_TYPE_MONTH_SHEET, NULL);

  self->bench = bench;
  self->month = g_strdup (month);
  self->which = which;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (self->box), cro_heading_new (cro_month_sheet_title (which)));
  self->back = gtk_button_new_with_mnemonic (_("_Done"));
  gtk_widget_set_halign (self->back, GTK_ALIGN_START);
  g_signal_connect_object (self->back, "clicked", G_CALLBACK (done_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), self->back);
  return GTK_WIDGET (self);
}
