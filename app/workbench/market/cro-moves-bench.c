#include "config.h"

#include "cro-moves-bench.h"

#include <glib/gi18n.h>

#include "cro-day-entry.h"
#include "cro-drop-down.h"
#include "cro-field.h"
#include "cro-file-choice.h"
#include "cro-kind.h"
#include "cro-number.h"
#include "cro-office-moves.h"
#include "cro-over-list.h"
#include "cro-reason.h"
#include "cro-records-view.h"
#include "cro-sold.h"
#include "cro-state.h"
#include "cro-switch.h"
#include "cro-words-price.h"
#include "cro-wrap.h"

enum
{
  ITEMS,
  THINGS,
  CATEGORIES,
  N_VIEWS,
};

/* Days that the drop-down offers, and behind them a day that is typed. */
static const guint periods[] = { 7, CRO_SOLD_DAYS, 91, 182, 365 };

#define TYPED G_N_ELEMENTS (periods)
#define USUAL 1

struct _CroMovesBench
{
  CroBench         parent_instance;

  GtkWidget       *period;
  GtkWidget       *since;       /* a day; empty: what the drop-down says */
  GtkWidget       *reason;
  GtkWidget       *old;
  GtkWidget       *stack;
  GtkWidget       *over;        /* what went over its target since somebody last looked */
  CroRecordsView  *views[N_VIEWS];
  GtkWidget       *notes[N_VIEWS];
  CroBook         *shown;       /* the book that the tables show; borrowed, may be stale */
  CroDate          day;         /* before what is shown */
};

G_DEFINE_FINAL_TYPE (CroMovesBench, cro_moves_bench, CRO_TYPE_BENCH)

static CroBook *
book_of (CroMovesBench *self)
{
  return cro_bench_get_book (CRO_BENCH (self));
}

/* --- The period -------------------------------------------------------------------------------- */

static void period_cb (CroMovesBench *self);

/* The one that was chosen last. */
static guint
kept_period (void)
{
  int kept = cro_state_get_int ("window", "moves", USUAL);

  return kept >= 0 && kept < (int) TYPED ? (guint) kept : USUAL;
}

static void
give_day (CroMovesBench *self)
{
  for (int i = 0; i < N_VIEWS; i++)
    {
      CroRecords *records = cro_records_view_get_records (self->views[i]);

      if (records != NULL)
        cro_records_set_since (records, self->day);
    }
}

static CroDate
day_of_period (CroMovesBench *self)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->period));

  return cro_book_get_figures (book_of (self))->date - (CroDate) periods[at < TYPED ? at : USUAL];
}

/* An empty field says what the drop-down means. */
static void
show_day (CroMovesBench *self)
{
  g_autofree char *text = NULL;

  self->day = day_of_period (self);
  text = cro_date_to_text (self->day);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->since), text);
  give_day (self);
}

/* Where a day is typed the drop-down says so. */
static void
select_period (CroMovesBench *self,
               guint          at)
{
  g_signal_handlers_block_by_func (self->period, period_cb, self);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->period), at);
  g_signal_handlers_unblock_by_func (self->period, period_cb, self);
}

static void
period_cb (CroMovesBench *self)
{
  if (book_of (self) == NULL)
    return;
  if (gtk_drop_down_get_selected (GTK_DROP_DOWN (self->period)) == TYPED)
    {
      gtk_widget_grab_focus (self->since);
      return;
    }
  cro_state_set_int ("window", "moves", (int) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->period)));
  gtk_editable_set_text (GTK_EDITABLE (self->since), "");
  cro_reason_say (self->reason, self->since, NULL);
  show_day (self);
}

static void
since_cb (CroMovesBench *self)
{
  g_autofree char *reason = NULL;
  CroDate day;

  if (*gtk_editable_get_text (GTK_EDITABLE (self->since)) == '\0')
    {
      cro_reason_say (self->reason, self->since, NULL);
      if (gtk_drop_down_get_selected (GTK_DROP_DOWN (self->period)) == TYPED)
        select_period (self, kept_period ());
      show_day (self);
      return;
    }
  if (!cro_day_entry_read (self->since, book_of (self), &day, &reason))
    {
      cro_reason_say (self->reason, self->since, reason);
      return;
    }
  if (day >= cro_book_get_figures (book_of (self))->date)
    {
      cro_reason_say (self->reason, self->since, _("Type a day before the day of the prices shown."));
      return;
    }
  cro_reason_say (self->reason, self->since, NULL);
  select_period (self, TYPED);
  self->day = day;
  give_day (self);
}

/* --- What is shown ----------------------------------------------------------------------------- */

static void
old_cb (CroMovesBench *self)
{
  CroRecordsFilter filter = CRO_RECORDS_ALL;

  if (gtk_check_button_get_active (GTK_CHECK_BUTTON (self->old)))
    filter.marks = CRO_RECORD_OLD;
  cro_records_view_set_filter (self->views[ITEMS], &filter);
}

static void
only_old_cb (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  CroMovesBench *self = CRO_MOVES_BENCH (widget);

  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), "0");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->old), TRUE);
  cro_records_view_sort (self->views[ITEMS], CRO_RECORDS_MOVES_SINCE, FALSE);
  cro_records_view_focus_rows (self->views[ITEMS]);
}

static void
page_cb (CroMovesBench *self)
{
  const char *page = gtk_stack_get_visible_child_name (GTK_STACK (self->stack));

  gtk_widget_set_visible (self->old, g_strcmp0 (page, "0") == 0);
}

static void
name_old (CroMovesBench *self)
{
  guint days = cro_kind_old_days (cro_book_get_model (book_of (self)));
  g_autofree char *text = g_strdup_printf (ngettext ("Only prices older than %u day", "Only prices older than %u days",
                                                     days),
                                           days);

  gtk_check_button_set_label (GTK_CHECK_BUTTON (self->old), text);
}

/* Under each table what it is of. */
static void
show_notes (CroMovesBench *self)
{
  g_autofree char *prices = cro_words_moved_prices (book_of (self));
  g_autofree char *things = cro_words_moved_things (book_of (self));

  gtk_label_set_label (GTK_LABEL (self->notes[ITEMS]), prices);
  gtk_label_set_label (GTK_LABEL (self->notes[THINGS]), things);
  gtk_label_set_label (GTK_LABEL (self->notes[CATEGORIES]), cro_words_price_index ());
}

/* The tables follow the book themselves. */
static void
cro_moves_bench_show (CroBench *bench)
{
  CroMovesBench *self = CRO_MOVES_BENCH (bench);

  if (self->shown != cro_bench_get_book (bench))
    {
      self->shown = cro_bench_get_book (bench);
      for (int i = 0; i < N_VIEWS; i++)
        cro_records_view_set_book (self->views[i], self->shown);
    }
  name_old (self);
  show_notes (self);
  since_cb (self);
  cro_over_list_look (CRO_OVER_LIST (self->over));
  cro_over_list_refresh (CRO_OVER_LIST (self->over));
}

static void
cro_moves_bench_refresh (CroBench *bench)
{
  cro_over_list_refresh (CRO_OVER_LIST (CRO_MOVES_BENCH (bench)->over));
}

static void
over_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroMovesBench *self = CRO_MOVES_BENCH (widget);

  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), "1");
  if (!gtk_widget_child_focus (self->over, GTK_DIR_TAB_FORWARD))
    cro_records_view_focus_rows (self->views[THINGS]);
}

/* --- The spreadsheet --------------------------------------------------------------------------- */

static void
chosen_cb (gpointer    bench,
           const char *path)
{
  CroMovesBench *self = bench;
  g_autoptr (GError) error = NULL;

  if (book_of (self) != NULL && !cro_office_write_moves (book_of (self), self->day, path, NULL, &error))
    cro_bench_fail (CRO_BENCH (self), error);
}

static void
spreadsheet_cb (CroMovesBench *self)
{
  char day[CRO_DATE_CHARS];
  g_autofree char *name = NULL;
  CroFileChoice choice = {
    .title = _("Save Price Movements"),
    .action = GTK_FILE_CHOOSER_ACTION_SAVE,
  };

  cro_date_format (cro_book_get_figures (book_of (self))->date, day);
  choice.name = name = g_strdup_printf ("%s %s.xlsx", _("Price movements"), day);
  cro_file_choice_ask (&choice, GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), chosen_cb, self);
}

/* --- The bench --------------------------------------------------------------------------------- */

static void
cro_moves_bench_class_init (CroMovesBenchClass *klass)
{
  CRO_BENCH_CLASS (klass)->show = cro_moves_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_moves_bench_refresh;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "moves.old", NULL, only_old_cb);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "moves.over", NULL, over_cb);
}

/* Records are made when they are first looked at. */
static void
rows_changed_cb (CroMovesBench *self)
{
  if (self->shown != NULL)
    give_day (self);
}

static GtkWidget *
period_new (CroMovesBench *self)
{
  const char *names[] = { _("7 days"), _("28 days"), _("3 months"), _("6 months"), _("1 year"),
                          /* Translators: in a list of periods: a day that is typed beside it. */
                          _("Other day"), NULL };
  GtkWidget *period = cro_drop_down_new (names, _("Period"));

  gtk_drop_down_set_selected (GTK_DROP_DOWN (period), kept_period ());
  g_signal_connect_object (period, "notify::selected", G_CALLBACK (period_cb), self, G_CONNECT_SWAPPED);
  return period;
}

static GtkWidget *
head_new (CroMovesBench *self)
{
  GtkWidget *head = cro_wrap_new (12, 6);
  GtkWidget *file = gtk_button_new_with_label (_("Spreadsheet…"));
  GtkWidget *over = gtk_button_new_with_label (_("Over Target"));

  self->period = period_new (self);
  self->since = cro_entry_new (_("Since"), cro_date_chars ());
  cro_day_entry_set_fleeting (self->since);
  g_signal_connect_object (self->since, "activate", G_CALLBACK (since_cb), self, G_CONNECT_SWAPPED);
  self->old = gtk_check_button_new ();
  g_signal_connect_object (self->old, "toggled", G_CALLBACK (old_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (file, "clicked", G_CALLBACK (spreadsheet_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (head), cro_heading_new (_("Price movements")));
  cro_wrap_append (CRO_WRAP (head), cro_switch_new (GTK_STACK (self->stack)));
  cro_wrap_append (CRO_WRAP (head), self->period);
  cro_wrap_append (CRO_WRAP (head), gtk_label_new (_("since")));
  cro_wrap_append (CRO_WRAP (head), self->since);
  cro_wrap_append (CRO_WRAP (head), self->old);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (over), "moves.over");
  gtk_widget_set_tooltip_text (over, _("What went over its target since you last looked"));
  cro_wrap_append (CRO_WRAP (head), over);
  cro_wrap_append (CRO_WRAP (head), file);
  return head;
}

static void
add_view (CroMovesBench  *self,
          int             view,
          CroRecordsKind  kind,
          const char     *title)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  g_autofree char *name = g_strdup_printf ("%d", view);

  self->views[view] = CRO_RECORDS_VIEW (cro_records_view_new (CRO_BENCH (self), kind, NULL));
  cro_records_view_connect_rows (self->views[view], G_CALLBACK (rows_changed_cb), self);
  gtk_widget_set_vexpand (GTK_WIDGET (self->views[view]), TRUE);
  if (view == THINGS)
    gtk_box_append (GTK_BOX (page), self->over);
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->views[view]));
  self->notes[view] = cro_text_new ("", "dim-label");
  gtk_box_append (GTK_BOX (page), self->notes[view]);
  gtk_stack_add_titled (GTK_STACK (self->stack), page, name, title);
}

static void
cro_moves_bench_init (CroMovesBench *self)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);

  self->stack = gtk_stack_new ();
  gtk_stack_set_hhomogeneous (GTK_STACK (self->stack), FALSE);
  self->over = cro_over_list_new (CRO_BENCH (self));
  add_view (self, ITEMS, CRO_RECORDS_MOVES, _("Ingredients"));
  add_view (self, THINGS, CRO_RECORDS_MOVED, _("Plates and Menus"));
  add_view (self, CATEGORIES, CRO_RECORDS_INDICES, _("Categories"));
  self->reason = cro_text_new ("", "reason");
  gtk_box_append (GTK_BOX (page), head_new (self));
  gtk_box_append (GTK_BOX (page), self->reason);
  gtk_box_append (GTK_BOX (page), self->stack);
  g_signal_connect_object (self->stack, "notify::visible-child", G_CALLBACK (page_cb), self, G_CONNECT_SWAPPED);
  cro_bench_set_page (CRO_BENCH (self), page);
}
