#include "config.h"

#include "cro-dated-fields.h"

#include <glib/gi18n.h>

#include "cro-bubble.h"
#include "cro-day-entry.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-reason.h"

/* An entry's own, as long as it lives. */
typedef struct
{
  CroBench  *bench;     /* borrowed */
  GtkWidget *day;       /* the entry; borrowed */
  GPtrArray *fields;    /* borrowed */
  CroBubble *bubble;    /* over the entry; NULL: it said nothing as yet */
  char      *kept;      /* what was kept from the book's day since the focus came to the fields; NULL: nothing */
  guint64    edition;   /* of the book, with it */
  guint      left_id;   /* the focus may have gone elsewhere */
} Dated;

static Dated *
dated_of (GtkWidget *day)
{
  return g_object_get_data (G_OBJECT (day), "dated");
}

static void
dated_free (gpointer data)
{
  Dated *self = data;

  g_clear_handle_id (&self->left_id, g_source_remove);
  g_ptr_array_unref (self->fields);
  g_free (self->kept);
  g_free (self);
}

static gboolean
is_empty (Dated *self)
{
  return *gtk_editable_get_text (GTK_EDITABLE (self->day)) == '\0';
}

static void
clear (Dated *self)
{
  if (!is_empty (self))
    gtk_editable_set_text (GTK_EDITABLE (self->day), "");
}

/* Typed, and not kept yet. */
static gboolean
waits (GtkWidget *field)
{
  if (CRO_IS_INPUT (field))
    return cro_input_is_edited (CRO_INPUT (field));
  return GTK_IS_ENTRY (field) && *gtk_editable_get_text (GTK_EDITABLE (field)) != '\0' && !cro_entry_is_put (field);
}

static gboolean
any_waits (Dated *self)
{
  for (guint i = 0; i < self->fields->len; i++)
    if (waits (self->fields->pdata[i]))
      return TRUE;
  return FALSE;
}

static gboolean
has_focus (Dated   *self,
           GtkRoot *root)
{
  GtkWidget *focus = gtk_root_get_focus (root);
  gboolean is_within = focus != NULL && (focus == self->day || gtk_widget_is_ancestor (focus, self->day));

  for (guint i = 0; focus != NULL && i < self->fields->len; i++)
    is_within |= focus == self->fields->pdata[i] || gtk_widget_is_ancestor (focus, self->fields->pdata[i]);
  return is_within;
}

/* --- What it means ---------------------------------------------------------------------------------- */

/* FALSE: none stands there, or the book's own. *reason: why it is none; owned. */
static gboolean
read_other_day (Dated    *self,
                CroDate  *day,
                char    **reason)
{
  CroBook *book = cro_bench_get_book (self->bench);

  return book != NULL && !is_empty (self) && cro_day_entry_read (self->day, book, day, reason)
         && *day != cro_book_get_figures (book)->date;
}

/* NULL: nothing stands there, or the book's own. Owned. */
static char *
dup_note (Dated *self)
{
  g_autofree char *reason = NULL, *date = NULL;
  CroDate other;

  if (!read_other_day (self, &other, &reason))
    return g_steal_pointer (&reason);
  date = cro_date_to_text (other);
  /* Translators: beside fields: what is typed next holds from a day, and what stands there does not. */
  return g_strdup_printf (_("next entry from %s"), date);
}

static void
tell (GtkWidget *day)
{
  Dated *self = dated_of (day);
  g_autofree char *note = dup_note (self);

  if (self->bubble == NULL && note != NULL)
    self->bubble = CRO_BUBBLE (cro_bubble_new (gtk_widget_get_parent (day), day));
  if (self->bubble != NULL)
    cro_bubble_say (self->bubble, note, TRUE);
}

void
cro_dated_fields_tell (GtkWidget *day)
{
  g_signal_connect (day, "changed", G_CALLBACK (tell), NULL);
}

static void
changed_cb (GtkWidget *day)
{
  g_autofree char *reason = NULL;
  CroDate other;

  read_other_day (dated_of (day), &other, &reason);
  cro_reason_mark (day, reason != NULL);
}

/* --- What becomes of it -------------------------------------------------------------------------------- */

gboolean
cro_dated_fields_read (GtkWidget  *day,
                       CroDate    *from,
                       GError    **error)
{
  Dated *self = dated_of (day);
  g_autofree char *reason = NULL;

  if (cro_day_entry_read (day, cro_bench_get_book (self->bench), from, &reason))
    return TRUE;
  /* Who left with a click goes where that was. */
  if (has_focus (self, gtk_widget_get_root (day)))
    cro_bubble_enter (self->bubble);
  g_set_error_literal (error, CRO_DAY_ENTRY_ERROR, 0, reason);
  return FALSE;
}

/* What is no day stays, with the reason. */
static void
give_up (Dated *self)
{
  g_autofree char *reason = NULL, *date = NULL, *says = NULL;
  CroDate other;

  if (any_waits (self))
    return;
  if (read_other_day (self, &other, &reason))
    {
      date = cro_date_to_text (other);
      /* Translators: a day was typed since when a value holds, and no value; %s is that day. */
      says = g_strdup_printf (_("Nothing was entered for %s; nothing changed."), date);
      cro_bench_say (self->bench, says);
    }
  if (reason == NULL)
    clear (self);
}

void
cro_dated_fields_kept (GtkWidget  *day,
                       CroDate     from,
                       const char *act,
                       const char *text)
{
  Dated *self = dated_of (day);
  g_autofree char *date = cro_date_to_text (from);
  g_autofree char *says = NULL;

  clear (self);
  g_clear_pointer (&self->kept, g_free);
  /* Translators: a day since when a value holds; what it is of, "price of Fish soup"; the value. */
  says = cro_isolate_printf (_("Kept from %s: %s (%s)"), date, act, *text != '\0' ? text : "–");
  if (from == cro_book_get_figures (cro_bench_get_book (self->bench))->date)
    {
      self->kept = g_steal_pointer (&says);
      self->edition = cro_book_get_edition (cro_bench_get_book (self->bench));
    }
  else
    cro_bench_say (self->bench, says);
}

static gboolean
left_cb (gpointer data)
{
  Dated *self = data;
  GtkRoot *root = gtk_widget_get_root (self->day);

  self->left_id = 0;
  if (root == NULL || has_focus (self, root))
    return G_SOURCE_REMOVE;
  g_clear_pointer (&self->kept, g_free);
  if (!is_empty (self))
    give_up (self);
  return G_SOURCE_REMOVE;
}

/* The focus goes from one of them to the next; where it is in the end is seen afterwards. */
static void
leave_cb (GtkWidget *day)
{
  Dated *self = dated_of (day);

  if (self->left_id == 0)
    self->left_id = g_idle_add (left_cb, self);
}

/* With the thing the day is left, whatever waits. */
static void
unmap_cb (GtkWidget *day)
{
  GtkRoot *root = gtk_widget_get_root (day);

  if (root != NULL && !gtk_widget_in_destruction (GTK_WIDGET (root)))
    give_up (dated_of (day));
  clear (dated_of (day));
  g_clear_pointer (&dated_of (day)->kept, g_free);
}

/* Of what is typed. FALSE: nothing is. */
static gboolean
keep_waiting (Dated *self)
{
  for (guint i = 0; i < self->fields->len; i++)
    if (waits (self->fields->pdata[i]))
      {
        if (CRO_IS_INPUT (self->fields->pdata[i]))
          cro_input_keep (self->fields->pdata[i]);
        else
          g_signal_emit_by_name (self->fields->pdata[i], "activate");
        return TRUE;
      }
  return FALSE;
}

/* And was not undone. */
static gboolean
was_kept (Dated *self)
{
  CroBook *book = cro_bench_get_book (self->bench);

  return self->kept != NULL && book != NULL && cro_book_get_edition (book) == self->edition;
}

static void
activate_cb (GtkWidget *day)
{
  Dated *self = dated_of (day);
  g_autofree char *reason = NULL;
  CroDate other;

  read_other_day (self, &other, &reason);
  if (reason != NULL || keep_waiting (self))
    return;
  if (!is_empty (self) && !was_kept (self))
    {
      gtk_widget_grab_focus (self->fields->pdata[0]);
      return;
    }
  if (!is_empty (self))
    cro_bench_say (self->bench, self->kept);
  gtk_widget_child_focus (GTK_WIDGET (gtk_widget_get_root (day)), GTK_DIR_TAB_FORWARD);
}

static void
watch (GtkWidget *day,
       GtkWidget *widget)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_widget_add_controller (widget, focus);
  g_signal_connect_object (focus, "leave", G_CALLBACK (leave_cb), day, G_CONNECT_SWAPPED);
}

void
cro_dated_fields_begin (CroBench         *bench,
                        GtkWidget        *day,
                        GtkWidget *const *fields)
{
  Dated *self = g_new0 (Dated, 1);

  self->bench = bench;
  self->day = day;
  self->fields = g_ptr_array_new ();
  g_object_set_data_full (G_OBJECT (day), "dated", self, dated_free);
  cro_day_entry_set_fleeting (day);
  watch (day, day);
  for (; *fields != NULL; fields++)
    {
      g_ptr_array_add (self->fields, *fields);
      watch (day, *fields);
    }
  g_signal_connect (day, "changed", G_CALLBACK (changed_cb), NULL);
  g_signal_connect (day, "unmap", G_CALLBACK (unmap_cb), NULL);
  if (!GTK_IS_ENTRY (self->fields->pdata[0]))
    g_signal_connect (day, "activate", G_CALLBACK (activate_cb), NULL);
}
