#include "config.h"

#include "cro-month-sheet.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-adjusted-sums.h"
#include "cro-count-sheet.h"
#include "cro-field.h"
#include "cro-month-edit.h"
#include "cro-intake-bar.h"
#include "cro-intake-page.h"
#include "cro-isolate.h"
#include "cro-month-form.h"
#include "cro-month-statement.h"
#include "cro-month-ties.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-records-view.h"
#include "cro-switch.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Documents, and their lines. */
#define MOST_PAGES 2

/* A list of rows, and the fields that enter them. */
typedef struct
{
  GtkWidget *box;
  GtkWidget *form;
  GtkWidget *view;
} Page;

struct _CroMonthSheet
{
  GtkWidget          parent_instance;

  GtkWidget         *box;
  GtkWidget         *back;
  GtkWidget         *note;        /* why nothing can be entered */
  GtkWidget         *ties;        /* totals of others; NULL: it ties to none */
  GtkWidget         *stack;       /* pages; NULL: there is but one */
  Page               pages[MOST_PAGES];
  guint              n_pages;
  GtkWidget         *sums;        /* of adjustments; NULL */
  GtkWidget         *count;       /* of the stock; NULL */
  GtkWidget         *content;     /* pages, or the count */
  GtkWidget         *bring;       /* how rows come in that stand elsewhere */
  GtkWidget         *missing;     /* what can be done without an opening stock; NULL */
  GtkWidget         *intake;      /* such rows, in the content's place; NULL: none are brought */

  CroBench          *bench;       /* borrowed */
  CroBook           *shown;       /* whose rows the lists have; borrowed, may be stale */
  char              *month;
  CroDate            first;
  CroMonthSheetKind  which;
};

G_DEFINE_FINAL_TYPE (CroMonthSheet, cro_month_sheet, GTK_TYPE_WIDGET)

enum
{
  DONE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* What it is called: "Sales". In the user's language; borrowed. */
static const char *
title_of (CroMonthSheetKind which)
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

static CroBook *
book_of (CroMonthSheet *self)
{
  return cro_bench_get_book (self->bench);
}

static gboolean
is_stock (CroMonthSheet *self)
{
  return self->which == CRO_MONTH_SHEET_OPENING || self->which == CRO_MONTH_SHEET_CLOSING;
}

/* The last day that rows are of; of a stock the only one. */
static CroDate
last_day (CroMonthSheet *self)
{
  return self->which == CRO_MONTH_SHEET_OPENING ? self->first - 1 : cro_month_next (self->first) - 1;
}

/* --- What is shown ----------------------------------------------------------------------------------- */

/* The counts of an opening are those of the month before. */
static gboolean
is_open (CroMonthSheet *self)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book_of (self), NULL);
  const CroMonthRow *row = rows != NULL ? cro_month_rows_find (rows, cro_month_first_of (last_day (self))) : NULL;

  return row == NULL || !row->is_closed;
}

static void
show_open (CroMonthSheet *self)
{
  gboolean is_past = cro_book_is_past (book_of (self), NULL), can_enter = is_open (self) && !is_past;
  g_autofree char *month = cro_month_to_text (cro_month_first_of (last_day (self)));
  /* Translators: a month; it is the one before this one where the stock is that it opened with. */
  g_autofree char *closed = cro_isolate_printf (_("%s is closed. Reopen it to change what was entered."), month);

  gtk_widget_set_visible (self->note, !can_enter);
  gtk_label_set_label (GTK_LABEL (self->note),
                       is_past ? cro_words_past ()
                       : self->which == CRO_MONTH_SHEET_PURCHASES
                           ? _("This month is closed. What is entered here comes late, and counts in the "
                               "first open month.")
                           : closed);
  for (guint i = 0; i < self->n_pages; i++)
    gtk_widget_set_visible (self->pages[i].form,
                            can_enter || (!is_past && self->which == CRO_MONTH_SHEET_PURCHASES));
  if (self->ties != NULL)
    cro_month_ties_set_open (CRO_MONTH_TIES (self->ties), can_enter);
  gtk_widget_set_sensitive (self->bring, can_enter || (!is_past && self->which == CRO_MONTH_SHEET_PURCHASES));
  if (self->count != NULL)
    cro_count_sheet_set_open (CRO_COUNT_SHEET (self->count), can_enter);
}

/* Nobody counted or valued the stock that the month opened with. */
static void
show_missing (CroMonthSheet *self)
{
  gboolean is_set = cro_month_ties_is_set (CRO_MONTH_TIES (self->ties));
  guint n_last;
  gboolean is_counted = cro_count_sheet_is_counted (CRO_COUNT_SHEET (self->count), &n_last);
  GtkWidget *take = gtk_widget_get_last_child (self->missing);

  gtk_widget_set_visible (self->missing, !is_set && !is_counted && gtk_widget_is_sensitive (self->bring));
  gtk_widget_set_visible (take, n_last > 0);
}

static void
put_book (CroMonthSheet *self)
{
  static const CroRecordsFilter all = { .menu = CRO_NO_SLOT, .supplier = CRO_NO_SLOT };
  CroRecordsFilter filter = all;

  self->shown = book_of (self);
  filter.marks = self->which == CRO_MONTH_SHEET_REVENUE ? CRO_RECORD_NOT_COSTED
                 : self->which == CRO_MONTH_SHEET_SALES ? CRO_RECORD_COSTED
                                                        : 0;
  for (guint i = 0; i < self->n_pages; i++)
    {
      CroRecordsView *view = CRO_RECORDS_VIEW (self->pages[i].view);

      cro_records_view_set_book (view, self->shown);
      cro_records_view_set_month (view, self->month);
      cro_records_view_set_filter (view, &filter);
      /* What is entered next follows what was entered last. */
      cro_records_view_sort (view, CRO_RECORDS_ENTRIES_DATE, TRUE);
    }
}

void
cro_month_sheet_refresh (CroMonthSheet *self)
{
  if (book_of (self) == NULL)
    return;
  if (self->shown != book_of (self))
    put_book (self);
  show_open (self);
  if (self->ties != NULL)
    cro_month_ties_refresh (CRO_MONTH_TIES (self->ties));
  for (guint i = 0; i < self->n_pages; i++)
    cro_month_form_refresh (CRO_MONTH_FORM (self->pages[i].form));
  if (self->sums != NULL)
    cro_adjusted_sums_refresh (self->sums, self->bench, self->first, CRO_RECORDS_VIEW (self->pages[0].view));
  if (self->count != NULL)
    cro_count_sheet_refresh (CRO_COUNT_SHEET (self->count));
  if (self->missing != NULL)
    show_missing (self);
}

/* --- Hands ------------------------------------------------------------------------------------------- */

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

static gboolean
total_cb (GtkWidget *widget,
          GVariant  *arguments,
          gpointer   user_data)
{
  cro_month_sheet_focus_total (CRO_MONTH_SHEET (widget));
  return GDK_EVENT_STOP;
}

/* The page that is seen. */
static Page *
page_of (CroMonthSheet *self)
{
  for (guint i = 0; self->stack != NULL && i < self->n_pages; i++)
    if (gtk_stack_get_visible_child (GTK_STACK (self->stack)) == self->pages[i].box)
      return &self->pages[i];
  return self->n_pages > 0 ? &self->pages[0] : NULL;
}

static gint64
selected_id (Page *page)
{
  g_autoptr (CroRecord) record = page != NULL ? cro_records_view_dup_selected (CRO_RECORDS_VIEW (page->view))
                                              : NULL;

  return record != NULL ? cro_record_get_id (record) : 0;
}

static void
change_row_cb (GtkWidget  *widget,
               const char *action,
               GVariant   *parameter)
{
  Page *page = page_of (CRO_MONTH_SHEET (widget));
  gint64 id = selected_id (page);

  if (id != 0 && gtk_widget_get_visible (page->form))
    cro_month_form_take (CRO_MONTH_FORM (page->form), id);
}

static void
remove_row_cb (GtkWidget  *widget,
               const char *action,
               GVariant   *parameter)
{
  Page *page = page_of (CRO_MONTH_SHEET (widget));
  gint64 id = selected_id (page);

  if (id != 0 && gtk_widget_get_visible (page->form)
      && cro_month_form_remove (CRO_MONTH_FORM (page->form), id))
    cro_records_view_focus_rows (CRO_RECORDS_VIEW (page->view));
}

static gboolean
row_key_cb (CroMonthSheet   *self,
            guint            keyval,
            guint            keycode,
            GdkModifierType  state)
{
  if (keyval != GDK_KEY_Delete && keyval != GDK_KEY_KP_Delete)
    return GDK_EVENT_PROPAGATE;
  gtk_widget_activate_action (GTK_WIDGET (self), "row.remove", NULL);
  return GDK_EVENT_STOP;
}

/* --- What stands elsewhere ---------------------------------------------------------------------------- */

/* The newest of what was brought in is in sight, as of what is typed. */
static void
entered_cb (CroMonthSheet *self)
{
  for (guint i = 0; i < self->n_pages; i++)
    cro_records_view_await_newest (CRO_RECORDS_VIEW (self->pages[i].view));
}

static void
left_cb (CroMonthSheet *self,
         GtkWidget     *page)
{
  if (page != self->intake)
    return;
  gtk_widget_set_visible (self->intake, FALSE);
  gtk_widget_set_visible (self->content, TRUE);
  gtk_widget_set_visible (self->bring, TRUE);
  cro_month_sheet_refresh (self);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static CroIntakeKind
intake_kind (CroMonthSheet *self)
{
  switch (self->which)
    {
    case CRO_MONTH_SHEET_PURCHASES:
      return CRO_INTAKE_DOCUMENTS;
    case CRO_MONTH_SHEET_ADJUSTMENTS:
      return CRO_INTAKE_ADJUSTMENTS;
    default:
      return is_stock (self) ? CRO_INTAKE_COUNTS : CRO_INTAKE_SALES;
    }
}

static CroIntakePage *
begin_intake (CroMonthSheet *self)
{
  if (self->intake != NULL)
    gtk_box_remove (GTK_BOX (self->box), self->intake);
  self->intake = cro_intake_page_new (self->bench, intake_kind (self), is_stock (self) ? last_day (self) : self->first,
                                      last_day (self));
  g_signal_connect_object (self->intake, "entered", G_CALLBACK (entered_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->intake, "left", G_CALLBACK (left_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), self->intake);
  gtk_widget_set_visible (self->content, FALSE);
  gtk_widget_set_visible (self->bring, FALSE);
  return CRO_INTAKE_PAGE (self->intake);
}

void
cro_month_sheet_open_file (CroMonthSheet *self,
                           const char    *path)
{
  cro_intake_page_open (begin_intake (self), path);
}

void
cro_month_sheet_paste (CroMonthSheet *self,
                       const char    *text)
{
  cro_intake_page_paste (begin_intake (self), text);
}

void
cro_month_sheet_focus_total (CroMonthSheet *self)
{
  gtk_widget_grab_focus (self->ties != NULL ? self->ties : GTK_WIDGET (self));
}

/* --- The widget -------------------------------------------------------------------------------------- */

static gboolean
cro_month_sheet_grab_focus (GtkWidget *widget)
{
  CroMonthSheet *self = CRO_MONTH_SHEET (widget);
  Page *page = page_of (self);

  if (self->intake != NULL && gtk_widget_get_visible (self->intake))
    return gtk_widget_grab_focus (self->intake);
  if (page != NULL && gtk_widget_get_visible (page->form))
    return gtk_widget_grab_focus (page->form);
  return (self->count != NULL && gtk_widget_grab_focus (self->count)) || gtk_widget_grab_focus (self->back);
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
  gtk_widget_class_add_binding (widget_class, GDK_KEY_F2, 0, total_cb, NULL);
  gtk_widget_class_install_action (widget_class, "row.open", NULL, change_row_cb);
  gtk_widget_class_install_action (widget_class, "row.remove", NULL, remove_row_cb);
  signals[DONE] = g_signal_new ("done", CRO_TYPE_MONTH_SHEET, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
cro_month_sheet_init (CroMonthSheet *self)
{
}

static GtkWidget *
head_new (CroMonthSheet *self)
{
  g_autofree char *month = cro_month_to_text (self->first);
  g_autofree char *day = cro_date_to_text (last_day (self));
  /* Translators: of a stock; a day. */
  g_autofree char *counted = g_strdup_printf (_("counted on %s"), day);
  GtkWidget *head = cro_wrap_new (12, 6), *heading = cro_heading_new (title_of (self->which));
  GtkWidget *of = gtk_label_new (is_stock (self) ? counted : month);

  self->back = gtk_button_new_with_label (_("Done"));
  gtk_widget_set_tooltip_text (self->back, _("Back to the month (Escape)"));
  gtk_widget_add_css_class (of, "dim-label");
  gtk_widget_set_hexpand (of, TRUE);
  gtk_widget_set_halign (of, GTK_ALIGN_START);
  g_signal_connect_object (self->back, "clicked", G_CALLBACK (done_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (head), heading);
  cro_wrap_append (CRO_WRAP (head), of);
  cro_wrap_append (CRO_WRAP (head), self->back);
  return head;
}

static void
take_last_cb (CroMonthSheet *self)
{
  cro_count_sheet_take_last (CRO_COUNT_SHEET (self->count));
}

/* A month without an opening stock has no actual cost: it can begin with what stands at its end, so that the next
 * one has, or with what was counted a month before. */
static GtkWidget *
missing_new (CroMonthSheet *self)
{
  g_autofree char *month = cro_month_to_text (self->first);
  g_autofree char *before = cro_date_to_text (cro_month_first_of (self->first - 1) - 1);
  /* Translators: a month; its closing stock is counted instead of an opening one. */
  g_autofree char *begin = cro_isolate_printf (_("Begin With the Closing Stock of %s"), month);
  /* Translators: a day: what was counted then is taken as counted on another one too. */
  g_autofree char *take = cro_isolate_printf (_("Take the Count of %s"), before);
  GtkWidget *wrap = cro_wrap_new (9, 6), *to_closing = gtk_button_new_with_label (begin);
  GtkWidget *take_last = gtk_button_new_with_label (take);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (to_closing), "month.sheet");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (to_closing), "i", CRO_STATEMENT_CLOSING);
  g_signal_connect_object (take_last, "clicked", G_CALLBACK (take_last_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (wrap), cro_text_new (_("Without an opening stock this month has no actual food cost."),
                                                  NULL));
  cro_wrap_append (CRO_WRAP (wrap), to_closing);
  cro_wrap_append (CRO_WRAP (wrap), take_last);
  self->missing = wrap;
  return wrap;
}

static GtkWidget *
row_buttons_new (void)
{
  static const char *const actions[] = { "row.open", "row.remove" };
  const char *const words[] = { _("Change Row"), _("Remove Row") };
  GtkWidget *wrap = cro_wrap_new (6, 6);

  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    {
      GtkWidget *button = gtk_button_new_with_label (words[i]);

      gtk_actionable_set_action_name (GTK_ACTIONABLE (button), actions[i]);
      cro_wrap_append (CRO_WRAP (wrap), button);
    }
  return wrap;
}

static void
add_page (CroMonthSheet    *self,
          CroMonthFormKind  form,
          CroRecordsKind    records)
{
  Page *page = &self->pages[self->n_pages++];
  GtkEventController *keys = gtk_event_controller_key_new ();

  page->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  page->form = cro_month_form_new (self->bench, form, self->first);
  page->view = cro_records_view_new (self->bench, records, NULL);
  g_signal_connect_object (page->form, "kept", G_CALLBACK (cro_records_view_await_newest), page->view,
                           G_CONNECT_SWAPPED);
  gtk_widget_add_css_class (page->form, "part");
  gtk_widget_add_css_class (page->view, "part");
  cro_records_view_give_rows (CRO_RECORDS_VIEW (page->view));
  gtk_widget_set_vexpand (page->view, TRUE);
  gtk_widget_set_size_request (page->view, -1, 260);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (row_key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (page->view, keys);
  gtk_box_append (GTK_BOX (page->box), page->form);
  gtk_box_append (GTK_BOX (page->box), page->view);
  gtk_box_append (GTK_BOX (page->box), row_buttons_new ());
}

static void
add_purchases (CroMonthSheet *self)
{
  const char *const titles[] = { _("Documents"), _("Lines") };

  add_page (self, CRO_MONTH_FORM_DOCUMENT, CRO_RECORDS_DOCUMENTS);
  add_page (self, CRO_MONTH_FORM_LINE, CRO_RECORDS_PURCHASES);
  self->stack = gtk_stack_new ();
  gtk_stack_set_vhomogeneous (GTK_STACK (self->stack), FALSE);
  for (guint i = 0; i < self->n_pages; i++)
    gtk_stack_add_titled (GTK_STACK (self->stack), self->pages[i].box, titles[i], titles[i]);
  gtk_box_append (GTK_BOX (self->content), cro_switch_new (GTK_STACK (self->stack)));
  gtk_box_append (GTK_BOX (self->content), self->stack);
}

static void
add_content (CroMonthSheet *self)
{
  switch (self->which)
    {
    case CRO_MONTH_SHEET_PURCHASES:
      add_purchases (self);
      return;
    case CRO_MONTH_SHEET_OPENING:
    case CRO_MONTH_SHEET_CLOSING:
      self->count = cro_count_sheet_new (self->bench, last_day (self));
      gtk_widget_add_css_class (self->count, "part");
      if (self->which == CRO_MONTH_SHEET_OPENING)
        gtk_box_append (GTK_BOX (self->content), missing_new (self));
      gtk_box_append (GTK_BOX (self->content), self->count);
      return;
    case CRO_MONTH_SHEET_ADJUSTMENTS:
      add_page (self, CRO_MONTH_FORM_ADJUSTMENT, CRO_RECORDS_ADJUSTMENTS);
      self->sums = cro_adjusted_sums_new ();
      gtk_box_insert_child_after (GTK_BOX (self->pages[0].box), self->sums, self->pages[0].view);
      break;
    case CRO_MONTH_SHEET_REVENUE:
      add_page (self, CRO_MONTH_FORM_REVENUE, CRO_RECORDS_SALES);
      break;
    default:
      add_page (self, CRO_MONTH_FORM_SALE, CRO_RECORDS_SALES);
    }
  gtk_box_append (GTK_BOX (self->content), self->pages[0].box);
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
  if (!cro_month_parse (month, strlen (month), &self->first))
    self->first = cro_month_first_of (cro_book_get_figures (book_of (self))->date);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->note = cro_text_new ("", NULL);
  gtk_box_append (GTK_BOX (self->box), head_new (self));
  gtk_box_append (GTK_BOX (self->box), self->note);
  self->ties = cro_month_ties_new (bench, self->first, which);
  if (self->ties != NULL)
    gtk_box_append (GTK_BOX (self->box), self->ties);
  self->content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->bring = cro_intake_bar_new (self->bench, intake_kind (self), title_of (which));
  g_signal_connect_object (self->bring, "file", G_CALLBACK (cro_month_sheet_open_file), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->bring, "text", G_CALLBACK (cro_month_sheet_paste), self, G_CONNECT_SWAPPED);
  cro_intake_bar_take_drops (CRO_INTAKE_BAR (self->bring), GTK_WIDGET (self));
  cro_intake_bar_take_pastes (CRO_INTAKE_BAR (self->bring), GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (self->box), self->bring);
  gtk_box_append (GTK_BOX (self->box), self->content);
  add_content (self);
  cro_month_sheet_refresh (self);
  return GTK_WIDGET (self);
}
