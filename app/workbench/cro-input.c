#include "config.h"

#include "cro-input.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-date.h"
#include "cro-words.h"

struct _CroInput
{
  GtkWidget    parent_instance;

  GtkWidget   *box;
  GtkWidget   *entry;
  GtkWidget   *reason;      /* why what stands there cannot be kept */

  CroInputKind kind;
  CroRange     range;
  CroBook     *book;
  const char  *table;
  gint64       id;
  const char  *column;
  char        *act;

  char        *kept;        /* the text of what is stored */
  gboolean     is_edited;
  gboolean     is_setting;  /* its text changes by its own hand */
};

G_DEFINE_FINAL_TYPE (CroInput, cro_input, GTK_TYPE_WIDGET)

/* --- Values -------------------------------------------------------------------------------------- */

static char *
text_of_row (CroInput *self)
{
  const char *columns[] = { self->column, NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (self->book), self->table,
                                                 self->id, columns, NULL);

  if (rows == NULL || !cro_rows_next (rows, NULL) || cro_rows_is_null (rows, 0))
    return g_strdup ("");
  switch (self->kind)
    {
    case CRO_INPUT_NUMBER:
    case CRO_INPUT_PCT:
    case CRO_INPUT_YIELD:
      return cro_words_decimal (cro_rows_get_int (rows, 0));
    default:
      return g_strdup (cro_rows_get_text (rows, 0));
    }
}

static const char *
reason_of (CroEntryStatus status)
{
  switch (status)
    {
    case CRO_ENTRY_OK:
    case CRO_ENTRY_EMPTY:
      return NULL;
    case CRO_ENTRY_BY_ZERO:
      return _("This divides by zero.");
    case CRO_ENTRY_TOO_LARGE:
      return _("This is too large.");
    case CRO_ENTRY_TOO_SMALL:
      return _("This is too small: six decimals are kept.");
    case CRO_ENTRY_OUT_OF_RANGE:
      return _("This cannot be so large, or so small.");
    case CRO_ENTRY_NOT_A_DATE:
      return _("This is not a date.");
    default:
      return _("This is not a number.");
    }
}

/* Reads what stands in the field; NULL, or why it cannot be kept. A text is handed over in
 * *owned, to live as long as the cell. */
static const char *
parse (CroInput *self,
       CroCell  *cell,
       char    **owned)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  g_auto (CroEntry) entry = { 0 };

  *cell = CRO_CELL_NONE;
  switch (self->kind)
    {
    case CRO_INPUT_NUMBER:
      cro_entry_number (text, self->range, &entry);
      break;
    case CRO_INPUT_PCT:
    case CRO_INPUT_YIELD:
      cro_entry_pct (text, self->range, cro_words_entry (), &entry);
      break;
    case CRO_INPUT_DATE:
      if (cro_entry_date (text, &entry))
        {
          *owned = g_malloc (CRO_DATE_CHARS);
          cro_date_format (entry.date, *owned);
          *cell = CRO_CELL_STR (*owned);
        }
      return reason_of (entry.status);
    case CRO_INPUT_TEXT:
      *owned = g_strstrip (g_strdup (text));
      if (**owned != '\0')
        *cell = CRO_CELL_STR (*owned);
      return NULL;
    }
  if (entry.status == CRO_ENTRY_OK)
    *cell = CRO_CELL_INT (entry.micro);
  return reason_of (entry.status);
}

/* --- Showing --------------------------------------------------------------------------------------- */

static void
set_text (CroInput   *self,
          const char *text)
{
  self->is_setting = TRUE;
  if (strcmp (gtk_editable_get_text (GTK_EDITABLE (self->entry)), text) != 0)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  self->is_setting = FALSE;
}

static void
set_reason (CroInput   *self,
            const char *reason)
{
  gtk_label_set_label (GTK_LABEL (self->reason), reason != NULL ? reason : "");
  gtk_widget_set_visible (self->reason, reason != NULL);
  if (reason != NULL)
    gtk_widget_add_css_class (self->entry, "error");
  else
    gtk_widget_remove_css_class (self->entry, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               reason != NULL ? GTK_ACCESSIBLE_INVALID_TRUE
                                              : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

void
cro_input_refresh (CroInput *self)
{
  if (self->book == NULL || self->is_edited)
    return;
  g_free (self->kept);
  self->kept = text_of_row (self);
  set_text (self, self->kept);
  set_reason (self, NULL);
}

/* --- Editing ------------------------------------------------------------------------------------------ */

static void
changed_cb (CroInput *self)
{
  g_autofree char *owned = NULL;
  g_autoptr (GError) error = NULL;
  CroCell cell;
  const char *reason;

  if (self->is_setting || self->book == NULL)
    return;
  self->is_edited = TRUE;
  reason = parse (self, &cell, &owned);
  if (reason == NULL
      && !cro_book_preview (self->book, self->table, self->id, self->column, &cell, &error))
    {
      g_autofree char *message = cro_words_error (error);

      set_reason (self, message);
      return;
    }
  if (reason != NULL)
    cro_book_restore (self->book, NULL);
  set_reason (self, reason);
}

static gboolean
keep (CroInput *self)
{
  g_autofree char *owned = NULL;
  g_autoptr (GError) error = NULL;
  CroCell cell;
  const char *reason;

  if (!self->is_edited)
    return TRUE;
  if (strcmp (gtk_editable_get_text (GTK_EDITABLE (self->entry)), self->kept) == 0)
    {
      self->is_edited = FALSE;
      cro_book_restore (self->book, NULL);
      set_reason (self, NULL);
      return TRUE;
    }
  reason = parse (self, &cell, &owned);
  if (reason != NULL)
    {
      set_reason (self, reason);
      return FALSE;
    }
  if (!cro_book_set (self->book, self->act, self->table, self->id, self->column, &cell, &error))
    {
      g_autofree char *message = cro_words_error (error);

      set_reason (self, message);
      return FALSE;
    }
  self->is_edited = FALSE;
  cro_input_refresh (self);
  return TRUE;
}

static void
activate_cb (CroInput *self)
{
  if (keep (self))
    gtk_widget_child_focus (GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))),
                            GTK_DIR_TAB_FORWARD);
}

static void
leave_cb (CroInput *self)
{
  keep (self);
}

static gboolean
key_pressed_cb (CroInput        *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  if (keyval != GDK_KEY_Escape || !self->is_edited)
    return GDK_EVENT_PROPAGATE;
  self->is_edited = FALSE;
  cro_book_restore (self->book, NULL);
  cro_input_refresh (self);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
  return GDK_EVENT_STOP;
}

/* --- The widget --------------------------------------------------------------------------------------- */

static void
cro_input_dispose (GObject *object)
{
  CroInput *self = CRO_INPUT (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->book);
  g_clear_pointer (&self->act, g_free);
  g_clear_pointer (&self->kept, g_free);
  G_OBJECT_CLASS (cro_input_parent_class)->dispose (object);
}

static gboolean
cro_input_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_INPUT (widget)->entry);
}

static void
cro_input_class_init (CroInputClass *klass)
{
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_input_grab_focus;
  G_OBJECT_CLASS (klass)->dispose = cro_input_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "input");
}

static void
cro_input_init (CroInput *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  self->entry = gtk_entry_new ();
  self->reason = gtk_label_new (NULL);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (self->box), self->entry);
  gtk_box_append (GTK_BOX (self->box), self->reason);
  gtk_label_set_wrap (GTK_LABEL (self->reason), TRUE);
  gtk_label_set_xalign (GTK_LABEL (self->reason), 0);
  gtk_widget_add_css_class (self->reason, "reason");
  gtk_widget_set_visible (self->reason, FALSE);

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (self->entry, keys);
  gtk_widget_add_controller (self->entry, focus);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (leave_cb), self);
  g_signal_connect_swapped (self->entry, "changed", G_CALLBACK (changed_cb), self);
  g_signal_connect_swapped (self->entry, "activate", G_CALLBACK (activate_cb), self);
}

GtkWidget *
cro_input_new (CroInputKind  kind,
               CroRange      range,
               const char   *name)
{
  CroInput *self = g_object_new (CRO_TYPE_INPUT, NULL);

  self->kind = kind;
  self->range = range;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  -1);
  if (kind == CRO_INPUT_NUMBER || kind == CRO_INPUT_PCT || kind == CRO_INPUT_YIELD)
    cro_input_set_numeric (self);
  return GTK_WIDGET (self);
}

void
cro_input_bind (CroInput   *self,
                CroBook    *book,
                const char *table,
                gint64      id,
                const char *column,
                const char *act,
                const char *placeholder)
{
  g_set_object (&self->book, book);
  self->table = g_intern_string (table);
  self->id = id;
  self->column = g_intern_string (column);
  g_free (self->act);
  self->act = g_strdup (act);
  self->is_edited = FALSE;
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), placeholder);
  cro_input_refresh (self);
}

void
cro_input_set_width (CroInput *self,
                     int       chars)
{
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), chars);
}

void
cro_input_set_numeric (CroInput *self)
{
  gtk_editable_set_alignment (GTK_EDITABLE (self->entry), 1);
  gtk_widget_add_css_class (self->entry, "numeric");
}

gboolean
cro_input_is_edited (CroInput *self)
{
  return self->is_edited;
}
