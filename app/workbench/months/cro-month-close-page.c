#include "config.h"

#include "cro-month-close-page.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-box.h"
#include "cro-entry-form.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-month-close.h"
#include "cro-month-words.h"
#include "cro-not-set.h"
#include "cro-number.h"
#include "cro-refused-words.h"
#include "cro-words-price.h"
#include "cro-words.h"

struct _CroMonthClosePage
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *said;
  GtkWidget *asked;       /* the form and what belongs to it; not in sight where it cannot be closed */
  GtkWidget *form;
  GtkWidget *entry;       /* the estimate, or the reason */
  GtkWidget *takes;       /* which month takes an estimate off again; NULL of one to be reopened */
  GtkWidget *later;       /* what a later month that is closed means for an estimate; NULL of one to be reopened */

  CroBench  *bench;       /* borrowed */
  CroDate    first;
  gint64     taken;       /* as cro_month_leaves_estimate () has it */
  gboolean   is_to_reopen;   /* as the month was when the page was made */
};

G_DEFINE_FINAL_TYPE (CroMonthClosePage, cro_month_close_page, GTK_TYPE_WIDGET)

enum
{
  DONE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- What is said --------------------------------------------------------------------------- */

/* With the rows that are likely to be the slip. */
static char *
dup_too_large (CroMonthClosePage *self,
               const char        *name)
{
  g_autoptr (CroMonth) month = cro_month_new (cro_bench_get_book (self->bench), self->first, FALSE, NULL);
  g_autofree char *far = month != NULL ? cro_month_far_words (month) : NULL;
  g_autofree char *text
      = cro_isolate_printf (_("%s cannot be closed: an amount or a sum of it is larger than a book can keep. Correct "
                              "what is a slip, then close it."),
                            name);

  return far != NULL ? g_strdup_printf ("%s\n%s", text, far) : g_steal_pointer (&text);
}

static char *
dup_error (CroMonthClosePage *self,
           const GError      *error)
{
  g_autofree char *name = cro_month_to_text (self->first), *begins = NULL;

  if (error == NULL || error->domain != CRO_MONTH_ERROR)
    return cro_words_failed (error);
  switch ((CroMonthErrorCode) error->code)
    {
    case CRO_MONTH_ERROR_CLOSED:
      return cro_isolate_printf (_("%s is closed already. Reopen it first."), name);
    case CRO_MONTH_ERROR_OPEN:
      return cro_isolate_printf (_("%s is not closed."), name);
    case CRO_MONTH_ERROR_AHEAD:
      begins = cro_date_to_text (self->first);
      return cro_isolate_printf (_("%s has not begun. It begins on %s, and can be closed from the first day after it."),
                                 name, begins);
    case CRO_MONTH_ERROR_RUNS:
      return cro_isolate_printf (_("%s is not over. It can be closed from the first day after it."), name);
    case CRO_MONTH_ERROR_EMPTY:
      return cro_isolate_printf (_("Nothing is recorded in %s. There is nothing to close."), name);
    case CRO_MONTH_ERROR_RANGE:
      return dup_too_large (self, name);
    default:
      return cro_isolate_printf (_("Type why %s is opened again."), name);
    }
}

static void
say (CroMonthClosePage *self,
     const char        *text,
     const char        *css_class)
{
  gtk_box_append (GTK_BOX (self->said), cro_text_new (text, css_class));
}

static void
append (GString    *list,
        guint       n,
        const char *one,
        const char *many)
{
  g_autofree char *text = NULL, *number = cro_number_to_text (n, 0, TRUE);

  if (n == 0)
    return;
  /* Translators: how many, and what of: "79", "counts". */
  text = g_strdup_printf (C_("how many", "%s %s"), number, n == 1 ? one : many);
  g_string_append_printf (list, "%s%s", list->len > 0 ? " · " : "", text);
}

static void
say_frozen (CroMonthClosePage *self,
            const CroMonth    *month)
{
  const CroMonthEntries *entries = month->entries;
  g_autoptr (GString) list = g_string_new (NULL);
  g_autofree char *recipes = cro_date_to_text (cro_month_recipes_day (month));
  g_autofree char *day = g_strdup_printf (_("Its recipes are those of %s."), recipes);

  say (self, _("Closing freezes the statement and all that it is made of:"), NULL);
  append (list, month->things->len, _("plate, menu or other sale"), _("plates, menus and other sales"));
  append (list, month->items->len, _("ingredient"), _("ingredients"));
  if (entries != NULL)
    {
      append (list, entries->opening->len, _("count of the opening stock"), _("counts of the opening stock"));
      append (list, entries->closing->len, _("count of the closing stock"), _("counts of the closing stock"));
      append (list, entries->purchases->len, _("purchase"), _("purchases"));
      append (list, entries->adjustments->len, _("adjustment"), _("adjustments"));
    }
  say (self, list->str, "heading");
  say (self, day, NULL);
  say (self, _("Prices, recipes and records that are entered or changed afterwards do not move it. Undo stops at the "
               "closing; the month can be reopened with a reason."),
       NULL);
}

/* What it would be closed without. */
static void
say_open (CroMonthClosePage *self,
          const CroMonth    *month)
{
  guint n = month->questions->len;
  g_autofree char *questions = g_strdup_printf (ngettext ("%u question stays open. It can still be answered first.",
                                                          "%u questions stay open. They can still be answered "
                                                          "first.",
                                                          n),
                                                n);

  if (isnan (month->opening))
    say (self, _("No stock was counted or entered at its beginning: there is no actual food cost."), "now");
  if (isnan (month->closing))
    say (self, _("No stock was counted or entered at its end: there is no actual food cost."), "now");
  if (n > 0)
    say (self, questions, "now");
  for (guint i = 0; i < n; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      g_autofree char *words = NULL;

      if (!cro_month_question_is_tie (question->kind) && !cro_month_question_is_order (question->kind)
          && question->kind != CRO_QUESTION_STOCK)
        continue;
      words = cro_month_question_words (question, TRUE);
      say (self, words, "now");
    }
}

/* NULL: there is none. */
static char *
dup_order (CroMonthQuestionKind kind,
           CroDate              other)
{
  char month[CRO_MONTH_CHARS];
  CroMonthQuestion question = { kind, month, CRO_NO_DAY, NULL, NAN };

  if (other == CRO_NO_DAY)
    return NULL;
  cro_month_format (other, month);
  return cro_month_question_words (&question, TRUE);
}

/* Of a later month that is closed nothing is said as long as it took off what is estimated. */
static void
show_later (CroMonthClosePage *self)
{
  const char *currency = cro_book_get_model (cro_bench_get_book (self->bench))->currency;
  g_auto (CroEntry) read = { 0 };
  gboolean is_money = cro_entry_money (cro_entry_form_text (self->entry), currency, CRO_TAX_NOT_SAID,
                                       CRO_RANGE_AT_LEAST_0, &read);

  gtk_widget_set_visible (self->later, gtk_label_get_label (GTK_LABEL (self->later))[0] != '\0'
                                           && (is_money || read.status == CRO_ENTRY_EMPTY)
                                           && cro_month_leaves_estimate (self->taken, is_money ? read.micro : 0));
}

/* It is the first open month after it, however many are closed by then. */
static void
show_takes (CroMonthClosePage *self)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (cro_bench_get_book (self->bench), NULL);
  CroDate open = cro_month_next (self->first);
  g_autofree char *name = NULL, *text = NULL;

  while (rows != NULL && cro_month_rows_are_late (rows, open))
    open = cro_month_next (open);
  name = cro_month_to_text (open);
  /* Translators: a month, October 2026. */
  text = cro_isolate_printf (_("An estimate counts as food bought in this month, on a line of its own; %s books its "
                               "invoices and takes the estimate off again."),
                             name);
  gtk_label_set_label (GTK_LABEL (self->takes), text);
}

/* Whether it is the first open month's turn. */
static void
say_orders (CroMonthClosePage *self,
            const CroMonth    *month)
{
  CroDate earlier, later;
  g_autoptr (GError) error = NULL;
  g_autofree char *why = NULL, *of_later = NULL;

  if (!cro_month_out_of_order (cro_bench_get_book (self->bench), self->first, &earlier, &later, &error))
    {
      why = cro_words_failed (error);
      say (self, why, "now");
      return;
    }
  why = dup_order (CRO_QUESTION_EARLIER_OPEN, earlier);
  of_later = dup_order (CRO_QUESTION_LATER_CLOSED, later);
  if (why != NULL)
    say (self, why, "now");
  gtk_label_set_label (GTK_LABEL (self->later), of_later != NULL ? of_later : "");
  self->taken = month->entries != NULL ? month->entries->taken : CRO_NOT_SET;
  show_later (self);
}

/* --- Doing it ------------------------------------------------------------------------------- */

static void
finish (CroMonthClosePage *self)
{
  g_autofree char *name = cro_month_to_text (self->first);
  g_autofree char *text = self->is_to_reopen ? cro_isolate_printf (_("%s is open again"), name)
                                          : cro_isolate_printf (_("%s is closed"), name);

  cro_bench_say (self->bench, text);
  g_signal_emit (self, signals[DONE], 0);
}

static void
close_month (CroMonthClosePage *self)
{
  CroBook *book = cro_bench_get_book (self->bench);
  const char *text = cro_entry_form_text (self->entry);
  g_auto (CroEntry) read = { 0 };
  g_autoptr (CroMonth) month = NULL;
  g_autoptr (GError) error = NULL;
  gint64 estimate = 0;
  g_autofree char *reason = NULL;

  if (cro_entry_money (text, cro_book_get_model (book)->currency, CRO_TAX_NOT_SAID, CRO_RANGE_AT_LEAST_0, &read))
    estimate = read.micro;
  else if (read.status != CRO_ENTRY_EMPTY)
    {
      reason = cro_words_price_reason (text, &read, cro_book_get_model (book)->currency);
      cro_entry_form_refuse (CRO_ENTRY_FORM (self->form), self->entry, reason);
      return;
    }
  month = cro_month_close (book, self->first, estimate, &error);
  if (month != NULL)
    {
      finish (self);
      return;
    }
  reason = dup_error (self, error);
  cro_entry_form_refuse (CRO_ENTRY_FORM (self->form), self->entry, reason);
}

static void
reopen_month (CroMonthClosePage *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *reason = NULL;

  if (cro_month_reopen (cro_bench_get_book (self->bench), self->first, cro_entry_form_text (self->entry), &error))
    {
      finish (self);
      return;
    }
  reason = dup_error (self, error);
  cro_entry_form_refuse (CRO_ENTRY_FORM (self->form), self->entry, reason);
}

static void
entered_cb (CroMonthClosePage *self)
{
  if (self->is_to_reopen)
    reopen_month (self);
  else
    close_month (self);
}

static void
given_up_cb (CroMonthClosePage *self)
{
  g_signal_emit (self, signals[DONE], 0);
}

/* --- The widget ----------------------------------------------------------------------------- */

static gboolean
cro_month_close_page_grab_focus (GtkWidget *widget)
{
  CroMonthClosePage *self = CRO_MONTH_CLOSE_PAGE (widget);

  return gtk_widget_get_visible (self->asked) && gtk_widget_grab_focus (self->entry);
}

static void
cro_month_close_page_dispose (GObject *object)
{
  g_clear_pointer (&CRO_MONTH_CLOSE_PAGE (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_month_close_page_parent_class)->dispose (object);
}

static void
cro_month_close_page_class_init (CroMonthClosePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_month_close_page_dispose;
  widget_class->focus = cro_focus_within;
  widget_class->grab_focus = cro_month_close_page_grab_focus;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  signals[DONE] = g_signal_new ("done", CRO_TYPE_MONTH_CLOSE_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
cro_month_close_page_init (CroMonthClosePage *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  self->said = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  self->asked = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_box_append (GTK_BOX (self->box), self->said);
  gtk_box_append (GTK_BOX (self->box), self->asked);
  gtk_widget_add_css_class (self->box, "part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

static void
add_form (CroMonthClosePage *self,
          const CroMonth    *month)
{
  g_autofree char *name = cro_month_to_text (self->first);
  g_autofree char *button = self->is_to_reopen ? cro_isolate_printf (_("Reopen %s"), name)
                                            : cro_isolate_printf (_("Close %s"), name);
  GtkWidget *cancel = gtk_button_new_with_label (_("Cancel"));

  self->form = cro_entry_form_new (button);
  if (self->is_to_reopen)
    self->entry = cro_entry_form_add (CRO_ENTRY_FORM (self->form), _("Reason"), _("Reason to reopen the month"), 40,
                                      NULL);
  else
    self->entry = cro_entry_form_add (CRO_ENTRY_FORM (self->form), _("Food delivered, invoice still to come"),
                                      _("Estimate of food delivered whose invoice is still to come"), 12,
                                      C_("estimate", "none"));
  if (!self->is_to_reopen && !isnan (month->estimate))
    {
      g_autofree char *estimate = cro_words_money (cro_book_get_model (cro_bench_get_book (self->bench)),
                                                   month->estimate);

      cro_entry_put (self->entry, estimate);
    }
  if (!self->is_to_reopen)
    cro_entry_form_leave_to_button (CRO_ENTRY_FORM (self->form));
  g_signal_connect_object (self->form, "entered", G_CALLBACK (entered_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->asked), self->form);
  if (!self->is_to_reopen)
    {
      self->takes = cro_text_new ("", "caption");
      gtk_box_append (GTK_BOX (self->asked), self->takes);
      self->later = cro_text_new ("", "now");
      gtk_widget_set_visible (self->later, FALSE);
      gtk_box_append (GTK_BOX (self->asked), self->later);
      g_signal_connect_object (self->entry, "changed", G_CALLBACK (show_later), self, G_CONNECT_SWAPPED);
    }
  g_signal_connect_object (cancel, "clicked", G_CALLBACK (given_up_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_set_halign (cancel, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (self->asked), cancel);
}

void
cro_month_close_page_refresh (CroMonthClosePage *self,
                              const CroMonth    *month)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *reason = NULL, *altered = cro_month_altered_words (month);

  if (cro_month_may_reopen (month) != self->is_to_reopen)
    return;
  cro_box_clear (self->said);
  if (altered != NULL)
    say (self, altered, "now");
  if (self->is_to_reopen)
    say (self, _("What closing froze goes: the month is reckoned anew from its records, with the recipes of the "
                 "same day. An estimate goes too, unless a closed month took it off already. The history keeps "
                 "the reason."),
         NULL);
  else if (!cro_month_may_close (month, &error))
    {
      reason = dup_error (self, error);
      say (self, reason, "now");
    }
  else
    {
      say_frozen (self, month);
      say_open (self, month);
      say_orders (self, month);
      show_takes (self);
    }
  gtk_widget_set_visible (self->asked, error == NULL);
}

GtkWidget *
cro_month_close_page_new (CroBench       *bench,
                          const CroMonth *month)
{
  CroMonthClosePage *self = g_object_new (CRO_TYPE_MONTH_CLOSE_PAGE, NULL);

  self->bench = bench;
  self->first = month->first;
  self->is_to_reopen = cro_month_may_reopen (month);
  add_form (self, month);
  cro_month_close_page_refresh (self, month);
  return GTK_WIDGET (self);
}
