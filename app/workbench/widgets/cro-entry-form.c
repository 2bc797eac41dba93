#include "config.h"

#include "cro-entry-form.h"

#include <glib/gi18n.h>

#include "cro-bubble.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-reason.h"
#include "cro-reveal.h"
#include "cro-words.h"
#include "cro-wrap.h"

struct _CroEntryForm
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *wrap;
  GtkWidget *button;
  GtkWidget *last;      /* its field */
  GPtrArray *entries;   /* borrowed */
  GtkWidget *at_fault;  /* borrowed; NULL: none */
  GtkWidget *bubble;    /* over what was at fault last; NULL: nothing was */
  GtkWidget *bubble_at; /* that */
  gboolean   is_by_button;  /* Enter in a field leads to the button */
};

static void buildable_init (GtkBuildableIface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (CroEntryForm, cro_entry_form, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_BUILDABLE, buildable_init))

enum
{
  BUTTON = 1,
};

enum
{
  ENTERED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
entered_cb (CroEntryForm *self)
{
  g_signal_emit (self, signals[ENTERED], 0);
}

static void
activated_cb (CroEntryForm *self)
{
  if (self->is_by_button)
    gtk_widget_grab_focus (self->button);
  else
    entered_cb (self);
}

static gboolean
enter_cb (GtkWidget *widget,
          GVariant  *arguments,
          gpointer   user_data)
{
  if (!CRO_ENTRY_FORM (widget)->is_by_button)
    return GDK_EVENT_PROPAGATE;
  entered_cb (CRO_ENTRY_FORM (widget));
  return GDK_EVENT_STOP;
}

void
cro_entry_form_leave_to_button (CroEntryForm *self)
{
  self->is_by_button = TRUE;
  gtk_widget_set_tooltip_text (self->button, _("Ctrl+Enter"));
}

static void
add_field (CroEntryForm *self,
           GtkWidget    *field)
{
  gtk_widget_insert_before (field, self->wrap, self->last);
}

static void
take_entry (CroEntryForm *self,
            GtkWidget    *entry)
{
  g_signal_connect_object (entry, "activate", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
  g_ptr_array_add (self->entries, entry);
}

void
cro_entry_form_add_control (CroEntryForm *self,
                            const char   *caption,
                            GtkWidget    *control)
{
  add_field (self, cro_field_new (caption, control));
}

GtkWidget *
cro_entry_form_add (CroEntryForm *self,
                    const char   *caption,
                    const char   *name,
                    int           width,
                    const char   *placeholder)
{
  GtkWidget *entry = cro_entry_new (name, width);

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), placeholder);
  take_entry (self, entry);
  cro_entry_form_add_control (self, caption, entry);
  return entry;
}

const char *
cro_entry_form_text (GtkWidget *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

void
cro_entry_form_accept (CroEntryForm *self)
{
  if (self->at_fault == NULL)
    return;
  cro_reason_mark (self->at_fault, FALSE);
  cro_bubble_say (CRO_BUBBLE (self->bubble), NULL, FALSE);
  self->at_fault = NULL;
}

static void
put_bubble (CroEntryForm *self,
            GtkWidget    *entry)
{
  if (self->bubble_at == entry)
    return;
  g_clear_pointer (&self->bubble, gtk_widget_unparent);
  self->bubble = cro_bubble_new (self->box, entry);
  self->bubble_at = entry;
}

gboolean
cro_entry_form_refuse (CroEntryForm *self,
                       GtkWidget    *entry,
                       const char   *reason)
{
  cro_entry_form_accept (self);
  put_bubble (self, entry);
  self->at_fault = entry;
  cro_reason_mark (entry, TRUE);
  gtk_widget_grab_focus (entry);
  cro_reveal (entry);
  cro_bubble_say (CRO_BUBBLE (self->bubble), reason, TRUE);
  return FALSE;
}

gboolean
cro_entry_form_date (CroEntryForm *self,
                     GtkWidget    *entry,
                     CroDate      *date)
{
  g_auto (CroEntry) read = { 0 };
  g_autofree char *reason = NULL;

  if (cro_entry_date (cro_entry_form_text (entry), &read))
    *date = read.date;
  reason = cro_words_entry_reason (cro_entry_form_text (entry), &read);
  return reason == NULL || cro_entry_form_refuse (self, entry, reason);
}

void
cro_entry_form_clear (CroEntryForm *self)
{
  cro_entry_form_accept (self);
  for (guint i = 0; i < self->entries->len; i++)
    gtk_editable_set_text (GTK_EDITABLE (self->entries->pdata[i]), "");
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_entry_form_dispose (GObject *object)
{
  CroEntryForm *self = CRO_ENTRY_FORM (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->entries, g_ptr_array_unref);
  G_OBJECT_CLASS (cro_entry_form_parent_class)->dispose (object);
}

static void
cro_entry_form_get_property (GObject    *object,
                             guint       id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  g_value_set_string (value, gtk_button_get_label (GTK_BUTTON (CRO_ENTRY_FORM (object)->button)));
}

static void
cro_entry_form_set_property (GObject      *object,
                             guint         id,
                             const GValue *value,
                             GParamSpec   *pspec)
{
  gtk_button_set_label (GTK_BUTTON (CRO_ENTRY_FORM (object)->button), g_value_get_string (value));
}

static void
take_entries (CroEntryForm *self,
              GtkWidget    *widget)
{
  if (GTK_IS_ENTRY (widget))
    take_entry (self, widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    take_entries (self, child);
}

/* From a template: a field with its caption. */
static void
add_child (GtkBuildable *buildable,
           GtkBuilder   *builder,
           GObject      *child,
           const char   *type)
{
  CroEntryForm *self = CRO_ENTRY_FORM (buildable);

  add_field (self, GTK_WIDGET (child));
  take_entries (self, GTK_WIDGET (child));
}

static void
buildable_init (GtkBuildableIface *iface)
{
  iface->add_child = add_child;
}

static void
cro_entry_form_class_init (CroEntryFormClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_entry_form_dispose;
  G_OBJECT_CLASS (klass)->get_property = cro_entry_form_get_property;
  G_OBJECT_CLASS (klass)->set_property = cro_entry_form_set_property;
  g_object_class_install_property (
      G_OBJECT_CLASS (klass), BUTTON,
      g_param_spec_string ("button", NULL, NULL, "", G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS));
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Return, GDK_CONTROL_MASK, enter_cb, NULL);
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_KP_Enter, GDK_CONTROL_MASK, enter_cb, NULL);
  signals[ENTERED] = g_signal_new ("entered", CRO_TYPE_ENTRY_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
cro_entry_form_init (CroEntryForm *self)
{
  self->entries = g_ptr_array_new ();
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->wrap = cro_wrap_new (9, 6);
  gtk_box_append (GTK_BOX (self->box), self->wrap);
  self->button = gtk_button_new_with_label ("");
  g_signal_connect_object (self->button, "clicked", G_CALLBACK (entered_cb), self,
                           G_CONNECT_SWAPPED);
  /* Under an empty caption it stands beside the entries. */
  self->last = cro_field_new (NULL, self->button);
  cro_wrap_append (CRO_WRAP (self->wrap), self->last);
}

GtkWidget *
cro_entry_form_new (const char *button)
{
  return g_object_new (CRO_TYPE_ENTRY_FORM, "button", button, NULL);
}
