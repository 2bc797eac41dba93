#include "config.h"

#include "cro-month-form-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-number.h"
#include "cro-words-price.h"
#include "cro-words.h"

G_DEFINE_FINAL_TYPE (CroMonthForm, cro_month_form, GTK_TYPE_WIDGET)

enum
{
  KEPT,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

CroBook *
cro_month_form_book (CroMonthForm *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- Fields ----------------------------------------------------------------------------------------- */

const char *
cro_month_form_text (CroMonthForm *self,
                     guint         entry)
{
  return cro_entry_form_text (self->entries[entry]);
}

gboolean
cro_month_form_is_set (CroMonthForm *self,
                       guint         entry)
{
  const char *text = cro_month_form_text (self, entry);

  return text[strspn (text, " \t")] != '\0';
}

void
cro_month_form_put (CroMonthForm *self,
                    guint         entry,
                    const char   *text)
{
  cro_entry_put (self->entries[entry], text != NULL ? text : "");
}

void
cro_month_form_put_day (CroMonthForm *self,
                        guint         entry,
                        CroRows      *rows,
                        int           column)
{
  const char *text = cro_rows_get_text (rows, column);
  g_autofree char *day = NULL;
  CroDate date;

  if (text != NULL && cro_date_parse (text, strlen (text), &date))
    day = cro_date_to_text (date);
  cro_month_form_put (self, entry, day);
}

void
cro_month_form_put_number (CroMonthForm *self,
                           guint         entry,
                           CroRows      *rows,
                           int           column)
{
  g_autofree char *number = cro_rows_is_null (rows, column)
                                ? NULL
                                : cro_words_decimal (cro_rows_get_int (rows, column));

  cro_month_form_put (self, entry, number);
}

void
cro_month_form_put_amount (CroMonthForm *self,
                           guint         entry,
                           CroRows      *rows,
                           int           column)
{
  g_autofree char *number = NULL, *text = NULL;
  const char *code = cro_rows_get_text (rows, column + 1);
  CroUnit unit = CRO_UNIT_G;

  if (!cro_rows_is_null (rows, column) && code != NULL)
    {
      cro_unit_parse (code, strlen (code), &unit);
      number = cro_words_decimal (cro_rows_get_int (rows, column));
      text = g_strdup_printf ("%s %s", number, cro_words_unit (unit));
    }
  cro_month_form_put (self, entry, text);
}

gboolean
cro_month_form_refuse (CroMonthForm *self,
                       guint         entry,
                       const char   *reason)
{
  return cro_entry_form_refuse (self->form, self->entries[entry], reason);
}

/* "12", "12." or "12th" is no date of a language, and yet a day of the month that the page is of. */
static gboolean
is_day_of_month (CroMonthForm *self,
                 const char   *text,
                 CroDate      *day)
{
  char *end;
  guint64 number = g_ascii_strtoull (text, &end, 10);

  if (end == text || !g_ascii_isdigit (*text) || end[strspn (end, ". ")] != '\0' || number < 1
      || number > (guint64) (self->last - self->first) + 1)
    return FALSE;
  *day = self->first + (CroDate) number - 1;
  return TRUE;
}

gboolean
cro_month_form_is_late (CroMonthForm *self,
                        CroDate       day)
{
  g_autoptr (GPtrArray) rows = day < self->first ? cro_month_rows_read (cro_month_form_book (self), NULL) : NULL;

  return rows != NULL && cro_month_rows_are_late (rows, day);
}

gboolean
cro_month_form_day (CroMonthForm *self,
                    guint         entry,
                    CroMonthDays  days,
                    CroDate      *day,
                    gboolean      is_asked)
{
  const char *text = cro_month_form_text (self, entry);
  g_auto (CroEntry) read = { 0 };
  g_autofree char *reason = NULL, *from = NULL, *to = NULL;

  *day = self->last;
  if (is_day_of_month (self, text, day))
    return TRUE;
  if (cro_entry_date (text, &read))
    *day = read.date;
  else if (read.status == CRO_ENTRY_EMPTY)
    return TRUE;
  else
    reason = cro_words_entry_reason (text, &read);
  if (reason == NULL && (days == CRO_MONTH_DAYS_ALL || (*day >= self->first && *day <= self->last)
                         || (days == CRO_MONTH_DAYS_OR_LATE && cro_month_form_is_late (self, *day))))
    return TRUE;
  if (reason == NULL)
    {
      from = cro_date_to_text (self->first);
      to = cro_date_to_text (self->last);
      /* Translators: both are days, the first and the last of a month. */
      reason = g_strdup_printf (_("This page is of %s to %s. Open the other month to enter it there."),
                                from, to);
    }
  if (is_asked)
    cro_month_form_refuse (self, entry, reason);
  return FALSE;
}

static gboolean
refuse_entry (CroMonthForm   *self,
              guint           entry,
              const CroEntry *read,
              gboolean        is_asked)
{
  g_autofree char *reason = is_asked
                                ? cro_words_price_reason (cro_month_form_text (self, entry), read,
                                                          cro_book_get_model (cro_month_form_book (self))->currency)
                                : NULL;

  if (reason != NULL)
    cro_month_form_refuse (self, entry, reason);
  return FALSE;
}

gboolean
cro_month_form_number (CroMonthForm *self,
                       guint         entry,
                       CroRange      range,
                       gint64       *number,
                       gboolean      is_asked)
{
  g_auto (CroEntry) read = { 0 };

  *number = CRO_NOT_SET;
  if (cro_entry_number (cro_month_form_text (self, entry), range, &read))
    *number = read.micro;
  else if (read.status != CRO_ENTRY_EMPTY)
    return refuse_entry (self, entry, &read, is_asked);
  return TRUE;
}

gboolean
cro_month_form_money (CroMonthForm *self,
                      guint         entry,
                      CroRange      range,
                      gint64       *money,
                      gboolean      is_asked)
{
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  g_auto (CroEntry) read = { 0 };

  *money = CRO_NOT_SET;
  if (cro_entry_money (cro_month_form_text (self, entry), model->currency, CRO_TAX_NOT_SAID, range,
                       &read))
    *money = read.micro;
  else if (read.status != CRO_ENTRY_EMPTY)
    return refuse_entry (self, entry, &read, is_asked);
  return TRUE;
}

gboolean
cro_month_form_amount (CroMonthForm *self,
                       guint         entry,
                       guint32       item,
                       CroRange      range,
                       gint64       *amount,
                       CroUnit      *unit,
                       gboolean      is_asked)
{
  CroModel *model = cro_book_get_model (cro_month_form_book (self));
  g_auto (CroEntry) read = { 0 };

  *amount = CRO_NOT_SET;
  *unit = item != CRO_NO_SLOT ? cro_base_unit ((CroBase) model->measures[item].base) : CRO_UNIT_G;
  if (cro_entry_measured (cro_month_form_text (self, entry), *unit, range, cro_words_entry (), &read))
    {
      *amount = read.micro;
      *unit = read.unit;
    }
  else if (read.status != CRO_ENTRY_EMPTY)
    return refuse_entry (self, entry, &read, is_asked);
  return TRUE;
}

gboolean
cro_month_form_find (CroMonthForm *self,
                     const char   *text,
                     guint         kinds,
                     CroFound     *found)
{
  g_autoptr (GArray) all = cro_finder_find (cro_finder_of (cro_month_form_book (self)), text, kinds, 1);

  if (all->len == 0)
    return FALSE;
  *found = g_array_index (all, CroFound, 0);
  return TRUE;
}

CroRows *
cro_month_form_read (CroMonthForm       *self,
                     gint64              id,
                     const char *const  *columns)
{
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (cro_month_form_book (self)),
                                                 self->fields->table, id, columns, NULL);

  return rows != NULL && cro_rows_next (rows, NULL) ? g_steal_pointer (&rows) : NULL;
}

/* --- What they come to --------------------------------------------------------------------------------- */

static gboolean
is_typed (CroMonthForm *self)
{
  for (guint i = self->fields->n_stay; i < self->n_entries; i++)
    if (cro_month_form_is_set (self, i))
      return TRUE;
  return FALSE;
}

static void
show_meaning (CroMonthForm *self)
{
  g_autofree char *meaning = cro_month_form_book (self) != NULL && is_typed (self)
                                 ? self->fields->dup_meaning (self)
                                 : NULL;

  gtk_label_set_label (GTK_LABEL (self->meaning), meaning != NULL ? meaning : "");
}

static void
changed_cb (CroMonthForm *self)
{
  cro_entry_form_accept (self->form);
  show_meaning (self);
}

/* --- Hands ----------------------------------------------------------------------------------------------- */

static void
begin (CroMonthForm *self,
       gint64        id)
{
  self->id = id;
  g_object_set (self->form, "button", id != 0 ? C_("row", "Change") : _("Add"), NULL);
}

/* The field that has the focus holds what it is to be given back. */
static void
take_entered (CroMonthForm *self)
{
  g_free (self->entered);
  self->entered = self->at >= 0 ? g_strdup (cro_month_form_text (self, (guint) self->at)) : NULL;
}

static void
forget_given_up (CroMonthForm *self)
{
  g_clear_pointer (&self->given_up, g_strfreev);
  gtk_stack_set_visible_child (GTK_STACK (self->room), gtk_widget_get_first_child (self->room));
}

/* The day stays: rows are typed from a pile that is in order. */
static void
clear (CroMonthForm *self)
{
  cro_entry_form_accept (self->form);
  for (guint i = self->id == 0 ? self->fields->n_stay : 0; i < self->n_entries; i++)
    {
      cro_month_form_put (self, i, NULL);
      gtk_widget_set_sensitive (self->entries[i], TRUE);
    }
  begin (self, 0);
  show_meaning (self);
  take_entered (self);
}

static void
entered_cb (CroMonthForm *self)
{
  g_autoptr (GError) error = NULL;

  cro_entry_form_accept (self->form);
  if (cro_book_is_past (cro_month_form_book (self), NULL))
    {
      cro_bench_say (self->bench, cro_words_past ());
      return;
    }
  if (!self->fields->keep (self, &error))
    {
      if (error != NULL)
        cro_bench_fail (self->bench, error);
      return;
    }
  forget_given_up (self);
  clear (self);
  gtk_widget_grab_focus (self->entries[cro_month_form_is_set (self, 0) ? self->fields->n_stay : 0]);
  g_signal_emit (self, signals[KEPT], 0);
}

static void
give_up (CroMonthForm *self)
{
  forget_given_up (self);
  self->given_up = g_new0 (char *, self->n_entries + 1);
  self->given_up_id = self->id;
  for (guint i = 0; i < self->n_entries; i++)
    self->given_up[i] = g_strdup (cro_month_form_text (self, i));
  clear (self);
  gtk_stack_set_visible_child (GTK_STACK (self->room), self->put_back);
}

static void
put_back_cb (CroMonthForm *self)
{
  g_auto (GStrv) texts = g_steal_pointer (&self->given_up);
  gint64 id = self->given_up_id;

  if (texts == NULL)
    return;
  if (id != 0)
    cro_month_form_take (self, id);
  for (guint i = 0; texts[i] != NULL; i++)
    if (gtk_widget_get_sensitive (self->entries[i]))
      cro_month_form_put (self, i, texts[i]);
  gtk_widget_grab_focus (self->entries[self->fields->n_stay]);
  take_entered (self);
  show_meaning (self);
  forget_given_up (self);
}

static void
focus_entered_cb (GtkEventController *controller,
                  CroMonthForm       *self)
{
  GtkWidget *entry = gtk_event_controller_get_widget (controller);

  self->at = -1;
  for (guint i = 0; i < self->n_entries; i++)
    if (self->entries[i] == entry)
      self->at = (int) i;
  take_entered (self);
}

static void
focus_left_cb (CroMonthForm *self)
{
  self->at = -1;
  g_clear_pointer (&self->entered, g_free);
}

static gboolean
is_field_edited (CroMonthForm *self)
{
  return self->at >= 0 && self->entered != NULL
         && strcmp (cro_month_form_text (self, (guint) self->at), self->entered) != 0;
}

static gboolean
key_pressed_cb (CroMonthForm    *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  if (keyval != GDK_KEY_Escape)
    return GDK_EVENT_PROPAGATE;
  if (is_field_edited (self))
    cro_month_form_put (self, (guint) self->at, self->entered);
  else if (self->id != 0 || is_typed (self))
    give_up (self);
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

void
cro_month_form_take (CroMonthForm *self,
                     gint64        id)
{
  cro_entry_form_clear (self->form);
  begin (self, self->fields->show (self, id) ? id : 0);
  show_meaning (self);
  gtk_widget_grab_focus (self->entries[self->fields->n_stay]);
  take_entered (self);
}

static GArray *
rows_of (CroMonthForm *self,
         gint64        id)
{
  GArray *ids = self->fields->list_rows != NULL ? self->fields->list_rows (self, id) : NULL;

  if (ids != NULL)
    return ids;
  ids = g_array_new (FALSE, FALSE, sizeof id);
  g_array_append_val (ids, id);
  return ids;
}

gboolean
cro_month_form_remove (CroMonthForm *self,
                       gint64        id)
{
  g_autofree char *label = self->fields->dup_removal ();
  g_autoptr (GArray) ids = rows_of (self, id);
  g_autoptr (GError) error = NULL;

  if (!cro_month_remove (cro_month_form_book (self), label, self->fields->table, ids, &error))
    {
      cro_bench_fail (self->bench, error);
      return FALSE;
    }
  if (id == self->id)
    clear (self);
  return TRUE;
}

void
cro_month_form_refresh (CroMonthForm *self)
{
  if (cro_month_form_book (self) == NULL)
    return;
  gtk_widget_set_sensitive (GTK_WIDGET (self->form), !cro_book_is_past (cro_month_form_book (self), NULL));
  show_meaning (self);
}

/* --- The widget ------------------------------------------------------------------------------------------ */

GtkWidget *
cro_month_form_add (CroMonthForm *self,
                    const char   *caption,
                    int           width,
                    const char   *placeholder)
{
  GtkWidget *entry = cro_entry_form_add (self->form, caption, caption, width, placeholder);
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_assert (self->n_entries < CRO_MONTH_FORM_MOST);
  self->entries[self->n_entries++] = entry;
  g_signal_connect_object (entry, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "enter", G_CALLBACK (focus_entered_cb), self, 0);
  g_signal_connect_object (focus, "leave", G_CALLBACK (focus_left_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (entry, focus);
  return entry;
}

static gboolean
cro_month_form_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_MONTH_FORM (widget)->entries[0]);
}

static void
cro_month_form_dispose (GObject *object)
{
  CroMonthForm *self = CRO_MONTH_FORM (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->entered, g_free);
  g_clear_pointer (&self->given_up, g_strfreev);
  G_OBJECT_CLASS (cro_month_form_parent_class)->dispose (object);
}

static void
cro_month_form_class_init (CroMonthFormClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_month_form_dispose;
  widget_class->grab_focus = cro_month_form_grab_focus;
  widget_class->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  signals[KEPT] = g_signal_new ("kept", CRO_TYPE_MONTH_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
cro_month_form_init (CroMonthForm *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkWidget *under = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->form = CRO_ENTRY_FORM (cro_entry_form_new (_("Add")));
  self->meaning = cro_meaning_new ();
  self->at = -1;
  self->put_back = gtk_button_new_with_label (_("Put Back What Was Typed"));
  gtk_widget_set_margin_end (self->put_back, 9);
  /* It has its room before it is there: nothing below moves under the hand that pressed Escape. */
  self->room = gtk_stack_new ();
  gtk_stack_set_hhomogeneous (GTK_STACK (self->room), FALSE);
  gtk_stack_add_child (GTK_STACK (self->room), gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0));
  gtk_stack_add_child (GTK_STACK (self->room), self->put_back);
  g_signal_connect_object (self->put_back, "clicked", G_CALLBACK (put_back_cb), self, G_CONNECT_SWAPPED);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect_object (self->form, "entered", G_CALLBACK (entered_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->form));
  gtk_box_append (GTK_BOX (under), self->room);
  gtk_box_append (GTK_BOX (under), self->meaning);
  gtk_box_append (GTK_BOX (self->box), under);
}

GtkWidget *
cro_month_form_new (CroBench         *bench,
                    CroMonthFormKind  kind,
                    CroDate           first)
{
  static const CroMonthFields *const fields[] = {
    [CRO_MONTH_FORM_SALE] = &cro_sale_fields,         [CRO_MONTH_FORM_REVENUE] = &cro_revenue_fields,
    [CRO_MONTH_FORM_DOCUMENT] = &cro_document_fields, [CRO_MONTH_FORM_LINE] = &cro_line_fields,
    [CRO_MONTH_FORM_ADJUSTMENT] = &cro_adjustment_fields,
  };
  CroMonthForm *self = g_object_new (CRO_TYPE_MONTH_FORM, NULL);
  g_autofree char *last = NULL;

  self->bench = bench;
  self->first = first;
  self->last = cro_month_next (first) - 1;
  last = cro_date_to_text (self->last);
  self->fields = fields[kind];
  self->fields->build (self);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entries[0]), last);
  return GTK_WIDGET (self);
}
