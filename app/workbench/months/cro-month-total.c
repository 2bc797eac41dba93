#include "config.h"

#include "cro-month-total.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-entry.h"
#include "cro-field.h"
#include "cro-month-edit.h"
#include "cro-month-words.h"
#include "cro-past-words.h"
#include "cro-reason.h"
#include "cro-refused-words.h"
#include "cro-words-price.h"
#include "cro-words.h"

struct _CroMonthTotal
{
  GtkWidget   parent_instance;

  GtkWidget  *field;
  GtkWidget  *entry;
  GtkWidget  *reason;

  CroBench   *bench;      /* borrowed */
  CroDate     first;
  const char *column;
  char       *kept;       /* as it was shown last */
  gint64      value;      /* the same; CRO_NOT_SET: nothing */
};

G_DEFINE_FINAL_TYPE (CroMonthTotal, cro_month_total, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroMonthTotal *self)
{
  return self->bench != NULL ? cro_bench_get_book (self->bench) : NULL;
}

static const char *
text_of (CroMonthTotal *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

static gboolean
is_edited (CroMonthTotal *self)
{
  return g_strcmp0 (text_of (self), self->kept) != 0;
}

/* --- Showing ------------------------------------------------------------------------------------------- */

static char *
dup_kept (CroMonthTotal *self)
{
  const char *columns[] = { "month", self->column, NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book_of (self)), "month", columns, NULL);
  char month[CRO_MONTH_CHARS];

  cro_month_format (self->first, month);
  self->value = CRO_NOT_SET;
  while (rows != NULL && cro_rows_next (rows, NULL))
    if (g_strcmp0 (cro_rows_get_text (rows, 0), month) == 0 && !cro_rows_is_null (rows, 1))
      {
        self->value = cro_rows_get_int (rows, 1);
        return cro_words_price (cro_book_get_model (book_of (self)), self->value);
      }
  return g_strdup ("");
}

static void
restore (CroMonthTotal *self)
{
  cro_reason_say (self->reason, self->entry, NULL);
  cro_reason_mark (self->entry, FALSE);
  cro_entry_put (self->entry, self->kept);
}

void
cro_month_total_refresh (CroMonthTotal *self)
{
  gboolean was_edited = is_edited (self);

  if (book_of (self) == NULL)
    return;
  g_free (self->kept);
  self->kept = dup_kept (self);
  gtk_widget_set_sensitive (self->entry, !cro_book_is_past (book_of (self), NULL));
  if (!was_edited)
    restore (self);
}

gboolean
cro_month_total_is_set (CroMonthTotal *self)
{
  return self->kept != NULL && *self->kept != '\0';
}

gint64
cro_month_total_get (CroMonthTotal *self)
{
  return self->value;
}

/* --- Keeping ------------------------------------------------------------------------------------------- */

static void
refuse (CroMonthTotal *self,
        const char    *reason)
{
  cro_reason_say (self->reason, self->entry, reason);
  cro_reason_mark (self->entry, TRUE);
}

static void
keep (CroMonthTotal *self)
{
  CroModel *model = book_of (self) != NULL ? cro_book_get_model (book_of (self)) : NULL;
  g_auto (CroEntry) read = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *reason = NULL, *label = NULL, *month = NULL;

  if (model == NULL || !is_edited (self))
    return;
  if (!cro_entry_money (text_of (self), model->currency, CRO_TAX_NOT_SAID, CRO_RANGE_AT_LEAST_0, &read)
      && read.status != CRO_ENTRY_EMPTY)
    {
      reason = cro_words_price_reason (text_of (self), &read, model->currency);
      refuse (self, reason);
      return;
    }
  month = cro_month_to_text (self->first);
  label = cro_past_dup_act ("month", self->column, month);
  if (!cro_month_set (book_of (self), label, self->first, self->column,
                      read.status == CRO_ENTRY_EMPTY ? CRO_NOT_SET : read.micro, &error))
    {
      reason = cro_words_failed (error);
      refuse (self, reason);
      return;
    }
  g_free (self->kept);
  self->kept = dup_kept (self);
  restore (self);
}

static gboolean
key_pressed_cb (CroMonthTotal   *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  if (keyval != GDK_KEY_Escape || !is_edited (self))
    return GDK_EVENT_PROPAGATE;
  restore (self);
  return GDK_EVENT_STOP;
}

/* --- The widget ------------------------------------------------------------------------------------------ */

static gboolean
cro_month_total_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_MONTH_TOTAL (widget)->entry);
}

static void
cro_month_total_dispose (GObject *object)
{
  CroMonthTotal *self = CRO_MONTH_TOTAL (object);

  /* What is left behind is not kept under the hands that take it away. */
  self->bench = NULL;
  g_clear_pointer (&self->field, gtk_widget_unparent);
  g_clear_pointer (&self->kept, g_free);
  G_OBJECT_CLASS (cro_month_total_parent_class)->dispose (object);
}

static void
cro_month_total_class_init (CroMonthTotalClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_month_total_dispose;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_month_total_grab_focus;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_month_total_init (CroMonthTotal *self)
{
}

GtkWidget *
cro_month_total_new (CroBench   *bench,
                     CroDate     first,
                     const char *column,
                     const char *caption)
{
  CroMonthTotal *self = g_object_new (CRO_TYPE_MONTH_TOTAL, NULL);
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->bench = bench;
  self->first = first;
  self->column = column;
  self->kept = g_strdup ("");
  self->value = CRO_NOT_SET;
  self->entry = cro_entry_new (caption, 12);
  self->reason = cro_reason_new ();
  self->field = cro_field_new (caption, self->entry);
  gtk_box_append (GTK_BOX (self->field), self->reason);
  gtk_widget_set_parent (self->field, GTK_WIDGET (self));
  g_signal_connect_object (self->entry, "activate", G_CALLBACK (keep), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (keep), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, G_CONNECT_SWAPPED);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (self->entry, focus);
  gtk_widget_add_controller (self->entry, keys);
  return GTK_WIDGET (self);
}
