#include "config.h"

#include "cro-rate-form.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-dated-fields.h"
#include "cro-day-entry.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-measure.h"
#include "cro-moved-plates.h"
#include "cro-number.h"
#include "cro-rate-doubt.h"
#include "cro-reason.h"
#include "cro-read-only.h"
#include "cro-result-words.h"
#include "cro-template.h"
#include "cro-words-price.h"
#include "cro-words.h"

/* Plates that are named of those that move. */
#define MOST_NAMED 3

/* What is typed rests so long before it is tried. Milliseconds. */
#define MOVES_MS 250

/* Of what is told below the fields the height, in widths of a letter, which grow with the text: some three lines. */
#define ROOM_TOLD 8

/* The columns of the table of rates. */
enum
{
  CURRENCY,
  SINCE,
  RATE,
  PER,
  N_FIELDS,
  STATUS = N_FIELDS,
};

struct _CroRateForm
{
  GtkWidget       parent_instance;

  GtkWidget      *entries[N_FIELDS];
  GtkWidget      *meaning;  /* the rate as a sentence: of which currency, in which, since when */
  GtkWidget      *moves;    /* what the rate that is typed does to plates */
  GtkWidget      *told;     /* the room of both, which does not grow: the fields stay where they are */
  GtkWidget      *remove;
  guint           moves_id; /* that is read when it fires */
  char           *asked;    /* of which rate it was asked whether it is right, as it was typed; NULL */
  gint64          asked_usec;

  CroBench       *bench;    /* borrowed */
  CroRecordsView *view;     /* borrowed */
};

G_DEFINE_FINAL_TYPE (CroRateForm, cro_rate_form, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroRateForm *self)
{
  return cro_bench_get_book (self->bench);
}

static const char *
text_of (CroRateForm *self,
         guint        field)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entries[field]));
}

static char *
dup_code (CroRateForm *self)
{
  return g_strstrip (g_ascii_strup (text_of (self, CURRENCY), -1));
}

/* --- What it means -------------------------------------------------------------------------------------- */

static gboolean
reads_number (CroRateForm *self,
              guint        field,
              gint64      *number)
{
  g_auto (CroEntry) read = { 0 };

  if (!cro_entry_number (text_of (self, field), CRO_RANGE_ABOVE_0, &read))
    return FALSE;
  *number = read.micro;
  return TRUE;
}

/* Why it is none. */
static char *
dup_no_number (CroRateForm *self,
               guint        field)
{
  g_auto (CroEntry) read = { 0 };

  cro_entry_number (text_of (self, field), CRO_RANGE_ABOVE_0, &read);
  /* Translators: of a currency: what one of it costs. */
  return read.status == CRO_ENTRY_EMPTY ? g_strdup (_("Type the rate, as in 1.15."))
                                        : cro_words_entry_reason (text_of (self, field), &read);
}

/* Whether the row that is selected stands in the fields as it is kept. */
static gboolean
shows_row (CroRateForm *self,
           CroRecord   *record)
{
  for (guint i = 0; record != NULL && i < N_FIELDS; i++)
    {
      g_autofree char *kept = i != SINCE ? cro_record_dup_text (record, i) : g_strdup ("");

      if (strcmp (text_of (self, i), kept) != 0)
        return FALSE;
    }
  return record != NULL;
}

/* *reason: why it is none; owned. */
static gboolean
read_date (CroRateForm  *self,
           CroDate      *date,
           char        **reason)
{
  return cro_day_entry_read (self->entries[SINCE], book_of (self), date, reason);
}

/* A rate as it is typed, to be known again. */
static char *
dup_typed (const char *code,
           CroDate     from,
           gint64      rate,
           gint64      per)
{
  return g_strdup_printf ("%s %d %" G_GINT64_FORMAT " %" G_GINT64_FORMAT, code, (int) from, rate, per);
}

/* What is asked of one that is not kept: once it was to be set, what to do about it too. NULL: nothing. */
static char *
dup_question (CroRateForm *self,
              const char  *code,
              CroDate      from,
              gint64       rate,
              gint64       per)
{
  g_autofree char *question = cro_words_rate_question (rate, per, cro_rate_before (book_of (self), code, from));
  g_autofree char *typed = dup_typed (code, from, rate, per);

  if (question == NULL || g_strcmp0 (self->asked, typed) != 0)
    return g_steal_pointer (&question);
  /* Translators: a question about an exchange rate: "is 1.148 meant?". */
  return g_strdup_printf (_("Not set yet: %s If the rate is right, set it once more."), question);
}

/* NULL: it is one, or nothing is typed. */
static char *
dup_no_currency (const char *code)
{
  return *code != '\0' && !cro_currency_is_code (code) ? cro_words_no_currency (code) : NULL;
}

/* What is kept, or would be; with what is asked of it. */
static char *
dup_meaning (CroRateForm *self,
             CroRecord   *kept)
{
  const char *own = book_of (self) != NULL ? cro_book_get_model (book_of (self))->currency : NULL;
  g_autofree char *code = dup_code (self), *n = NULL, *price = NULL, *since = NULL, *says = NULL;
  g_autofree char *question = NULL, *reason = NULL;
  gint64 rate, per = CRO_MICRO;
  CroDate from;

  if (own != NULL && *text_of (self, RATE) != '\0' && (reason = dup_no_currency (code)) != NULL)
    return g_steal_pointer (&reason);
  if (own == NULL || *code == '\0' || !reads_number (self, RATE, &rate)
      || (*text_of (self, PER) != '\0' && !reads_number (self, PER, &per)))
    return g_strdup ("");
  if (!read_date (self, &from, &reason))
    return g_steal_pointer (&reason);
  n = cro_words_decimal (per);
  price = cro_words_decimal (rate);
  since = kept != NULL ? cro_record_dup_text (kept, SINCE) : cro_date_to_text (from);
  question = kept != NULL ? cro_record_dup_text (kept, STATUS)
                          : dup_question (self, code, from, rate, per);
  /* Translators: an exchange rate and a date: "100 JPY = 0.61 EUR, since 2026-11-23". */
  says = g_strdup_printf (_("%s %s = %s %s, since %s"), n, code, price, own, since);
  return question == NULL || *question == '\0' ? g_steal_pointer (&says)
                                               : g_strdup_printf ("%s · %s", says, question);
}

static void show_moves_soon (CroRateForm *self);

/* What is removed is the row, not what is typed over it. */
static void
show_meaning (CroRateForm *self)
{
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->view);
  gboolean is_kept = shows_row (self, record);
  g_autofree char *meaning = dup_meaning (self, is_kept ? record : NULL);

  for (guint i = 0; i < N_FIELDS; i++)
    cro_reason_mark (self->entries[i], FALSE);
  gtk_label_set_label (GTK_LABEL (self->meaning), meaning);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entries[RATE]),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, meaning, -1);
  gtk_widget_set_sensitive (self->remove, is_kept && !cro_book_is_past (book_of (self), NULL));
  show_moves_soon (self);
}

/* --- What it moves --------------------------------------------------------------------------------------- */

/* FALSE: nothing that could be set stands in the fields. */
static gboolean
read_typed (CroRateForm *self,
            char       **code,
            CroDate     *from,
            gint64      *rate,
            gint64      *per)
{
  g_autofree char *reason = NULL;

  *per = CRO_MICRO;
  *code = dup_code (self);
  return book_of (self) != NULL && **code != '\0' && reads_number (self, RATE, rate)
         && (*text_of (self, PER) == '\0' || reads_number (self, PER, per)) && read_date (self, from, &reason);
}

/* "Lamb saddle 31.2 % → 24.6 %, Tide 29.4 % → 27.0 %, 3 more". */
static char *
moved_sentence (CroModel *model,
                GArray   *moved)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < MIN (moved->len, MOST_NAMED); i++)
    {
      const CroMovedPlate *plate = &g_array_index (moved, CroMovedPlate, i);
      g_autofree char *before = cro_words_result_short (model, &plate->before);
      g_autofree char *after = cro_words_result_short (model, &plate->after);
      const char *over = plate->goes_over ? cro_words_over_target (model) : NULL;

      g_string_append_printf (text, "%s%s %s → %s%s%s", i > 0 ? ", " : "", plate->before.name, before, after,
                              over != NULL ? ", " : "", over != NULL ? over : "");
    }
  if (moved->len > MOST_NAMED)
    {
      guint n = moved->len - MOST_NAMED;
      g_autofree char *more = g_strdup_printf (ngettext ("%u more", "%u more", n), n);

      g_string_append_printf (text, ", %s", more);
    }
  /* Translators: plates with their figures from → to. */
  return moved->len > 0 ? cro_isolate_printf (_("It moves: %s."), text->str) : g_strdup (_("No plate moves."));
}

/* What it does on the day of the figures, in a trial of the book; NULL: nothing is to be set, or it cannot be
 * tried. */
static char *
dup_moves (CroRateForm *self)
{
  g_autofree char *code = NULL;
  g_autoptr (CroBook) trial = NULL;
  g_autoptr (GArray) moved = NULL;
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->view);
  gint64 rate, per;
  CroDate from;

  if (shows_row (self, record) || !read_typed (self, &code, &from, &rate, &per) || !cro_currency_is_code (code))
    return NULL;
  trial = cro_book_open_trial (book_of (self), NULL);
  if (trial == NULL || !cro_edit_set_rate (trial, "rate", code, from, rate, per, NULL))
    return NULL;
  moved = cro_moved_plates_new (cro_book_get_figures (book_of (self)), cro_book_get_figures (trial));
  return moved_sentence (cro_book_get_model (book_of (self)), moved);
}

static gboolean
show_moves_cb (gpointer form)
{
  CroRateForm *self = form;
  g_autofree char *text = dup_moves (self);

  self->moves_id = 0;
  gtk_label_set_label (GTK_LABEL (self->moves), text != NULL ? text : "");
  return G_SOURCE_REMOVE;
}

/* With the last key of several. */
static void
show_moves_soon (CroRateForm *self)
{
  g_clear_handle_id (&self->moves_id, g_source_remove);
  self->moves_id = g_timeout_add (MOVES_MS, show_moves_cb, self);
}

/* One that jumps is set when that is said once more. */
static gboolean
is_asked (CroRateForm *self,
          const char  *code,
          CroDate      from,
          gint64       rate,
          gint64       per)
{
  g_autofree char *question = cro_words_rate_question (rate, per, cro_rate_before (book_of (self), code, from));
  g_autofree char *typed = dup_typed (code, from, rate, per);

  if (question == NULL
      || (g_strcmp0 (self->asked, typed) == 0 && !cro_is_double_press (GTK_WIDGET (self), self->asked_usec)))
    return FALSE;
  g_free (self->asked);
  self->asked = g_steal_pointer (&typed);
  self->asked_usec = g_get_monotonic_time ();
  show_meaning (self);
  g_clear_handle_id (&self->moves_id, g_source_remove);
  show_moves_cb (self);
  gtk_widget_grab_focus (self->entries[RATE]);
  return TRUE;
}

/* --- Which one ---------------------------------------------------------------------------------------- */

/* Typing over a rate starts a new one, from the book's day: the row of the day it held since stays. */
static void
selected_cb (CroRateForm *self)
{
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->view);

  for (guint i = 0; record != NULL && i < N_FIELDS; i++)
    {
      g_autofree char *text = i != SINCE ? cro_record_dup_text (record, i) : g_strdup ("");

      cro_entry_put (self->entries[i], text);
    }
  show_meaning (self);
}

void
cro_rate_form_refresh (CroRateForm *self)
{
  if (book_of (self) == NULL)
    return;
  cro_day_entry_show (self->entries[SINCE], book_of (self));
  cro_read_only_show (GTK_WIDGET (self), book_of (self));
  /* What was typed over a rate is nothing to a book that is only read. */
  if (cro_book_is_past (book_of (self), NULL))
    selected_cb (self);
  else
    show_meaning (self);
}

/* The row of a currency and a day, once the table has heard of it; the focus goes there, so that the
 * next undo is of the book. */
static void
choose (CroRateForm *self,
        const char  *code,
        CroDate      from)
{
  CroRecords *records = cro_records_view_get_records (self->view);
  g_autofree char *since = cro_date_to_text (from);

  cro_records_view_set_search (self->view, "");
  cro_book_tell (book_of (self));
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (records)); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (records), i);
      g_autofree char *of = cro_record_dup_text (record, CURRENCY);
      g_autofree char *on = cro_record_dup_text (record, SINCE);

      if (strcmp (of, code) == 0 && strcmp (on, since) == 0)
        cro_records_view_select (self->view, record);
    }
  selected_cb (self);
  cro_records_view_focus_rows (self->view);
}

/* --- Acts ------------------------------------------------------------------------------------------------ */

/* FALSE, with the focus on the field and the reason below, in place of what the fields mean. */
static gboolean
refuse (CroRateForm *self,
        guint        field,
        const char  *reason)
{
  gtk_widget_grab_focus (self->entries[field]);
  gtk_label_set_label (GTK_LABEL (self->meaning), reason);
  cro_reason_mark (self->entries[field], TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entries[field]), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, reason,
                                  -1);
  return FALSE;
}

static gboolean
read_number (CroRateForm *self,
             guint        field,
             gint64      *number)
{
  g_autofree char *reason = NULL;

  if (reads_number (self, field, number))
    return TRUE;
  reason = dup_no_number (self, field);
  return refuse (self, field, reason);
}

static void
set_cb (CroRateForm *self)
{
  g_autofree char *code = dup_code (self);
  g_autofree char *label = g_strdup_printf (_("rate of %s"), code);
  g_autofree char *reason = NULL;
  g_autoptr (GError) error = NULL;
  gint64 rate, per = CRO_MICRO;
  CroDate from;

  if (!cro_currency_is_code (code))
    {
      reason = cro_words_no_currency (code);
      refuse (self, CURRENCY, reason);
      return;
    }
  if (!read_number (self, RATE, &rate) || (*text_of (self, PER) != '\0' && !read_number (self, PER, &per)))
    return;
  if (!read_date (self, &from, &reason))
    refuse (self, SINCE, reason);
  else if (is_asked (self, code, from, rate, per))
    return;
  else if (!cro_edit_set_rate (book_of (self), label, code, from, rate, per, &error))
    cro_bench_fail (self->bench, error);
  else
    choose (self, code, from);
}

static void
remove_cb (CroRateForm *self)
{
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->view);
  g_autofree char *currency = NULL, *since = NULL, *label = NULL;
  g_autoptr (GError) error = NULL;

  if (record == NULL)
    return;
  currency = cro_record_dup_text (record, CURRENCY);
  since = cro_record_dup_text (record, SINCE);
  /* Translators: a currency, and the day since which its rate held. */
  label = g_strdup_printf (_("removal of the rate of %s of %s"), currency, since);
  if (!cro_edit_remove_rate (book_of (self), label, cro_record_get_id (record), &error))
    cro_bench_fail (self->bench, error);
  else
    cro_records_view_focus_rows (self->view);
}

/* --- The widget ---------------------------------------------------------------------------------------- */

static void
cro_rate_form_dispose (GObject *object)
{
  CroRateForm *self = CRO_RATE_FORM (object);

  g_clear_handle_id (&self->moves_id, g_source_remove);
  g_clear_pointer (&self->asked, g_free);
  cro_template_dispose (object, CRO_TYPE_RATE_FORM);
  G_OBJECT_CLASS (cro_rate_form_parent_class)->dispose (object);
}

static void
bind_field (GtkWidgetClass *widget_class,
            const char     *name,
            guint           field)
{
  gtk_widget_class_bind_template_child_full (
      widget_class, name, FALSE,
      G_STRUCT_OFFSET (CroRateForm, entries) + (gssize) (field * sizeof (GtkWidget *)));
}

static void
cro_rate_form_class_init (CroRateFormClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_rate_form_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  cro_template_set (widget_class, "cro-rate-form");
  bind_field (widget_class, "currency", CURRENCY);
  bind_field (widget_class, "since", SINCE);
  bind_field (widget_class, "rate", RATE);
  bind_field (widget_class, "per", PER);
  gtk_widget_class_bind_template_child (widget_class, CroRateForm, meaning);
  gtk_widget_class_bind_template_child (widget_class, CroRateForm, moves);
  gtk_widget_class_bind_template_child (widget_class, CroRateForm, told);
  gtk_widget_class_bind_template_child (widget_class, CroRateForm, remove);
  gtk_widget_class_bind_template_callback (widget_class, show_meaning);
  gtk_widget_class_bind_template_callback (widget_class, set_cb);
  gtk_widget_class_bind_template_callback (widget_class, remove_cb);
}

static void
keep_room_cb (GtkWidget *told)
{
  gtk_widget_set_size_request (told, -1, cro_measure_chars (told, ROOM_TOLD));
}

static void
cro_rate_form_init (CroRateForm *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (self->told, "realize", G_CALLBACK (keep_room_cb), NULL);
  cro_cure_set (self->entries[RATE], CRO_CAUSE_RATE, TRUE);
}

GtkWidget *
cro_rate_form_new (CroBench       *bench,
                   CroRecordsView *view)
{
  CroRateForm *self = g_object_new (CRO_TYPE_RATE_FORM, NULL);

  self->bench = bench;
  self->view = view;
  cro_dated_fields_begin (bench, self->entries[SINCE],
                          (GtkWidget *const[]){ self->entries[RATE], self->entries[PER], self->entries[CURRENCY],
                                                GTK_WIDGET (self), NULL });
  cro_records_view_connect_selected (view, G_CALLBACK (selected_cb), self);
  return GTK_WIDGET (self);
}

void
cro_rate_form_ask (CroRateForm *self,
                   const char  *currency)
{
  for (guint i = 0; i < N_FIELDS; i++)
    gtk_editable_set_text (GTK_EDITABLE (self->entries[i]), i == CURRENCY ? currency : "");
}
