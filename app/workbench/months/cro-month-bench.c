#include "config.h"

#include "cro-month-bench.h"

#include <glib/gi18n.h>

#include "cro-beside.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-month-close-page.h"
#include "cro-month-detail.h"
#include "cro-month-head.h"
#include "cro-month-matrix-view.h"
#include "cro-month-questions.h"
#include "cro-month-recipes-page.h"
#include "cro-month-sheet.h"
#include "cro-month-shelf.h"
#include "cro-month-statement.h"
#include "cro-month-table-view.h"
#include "cro-month-went-view.h"
#include "cro-month-why.h"
#include "cro-month-words.h"
#include "cro-refused-words.h"
#include "cro-sheet-stack.h"
#include "cro-spoken.h"
#include "cro-sum-popover.h"

/* Views in the order of their keys, Ctrl+1 and on. */
enum
{
  STATEMENT,
  WHY,
  MATRIX,
  N_VIEWS,
};

struct _CroMonthBench
{
  CroBench             parent_instance;

  GtkWidget           *head;
  GtkWidget           *sheets;    /* over the views */
  GtkWidget           *sheet;     /* one that is filled in; weak */
  GtkWidget           *closing;   /* the page that closes or reopens; weak */
  GtkWidget           *views;
  GtkWidget           *trouble;   /* why nothing is shown */
  GtkWidget           *statement;
  GtkWidget           *questions;
  GtkWidget           *went;
  GtkWidget           *against;   /* where to see why it changed */
  GtkWidget           *why;
  GtkWidget           *matrix;
  GtkWidget           *sum;

  CroBook             *shown;     /* weak */
  CroMonthShelf       *shelf;     /* of it; weak */
  CroDate              first;
};

G_DEFINE_FINAL_TYPE (CroMonthBench, cro_month_bench, CRO_TYPE_BENCH)

/* --- Which months --------------------------------------------------------------------------- */

static CroDate
other_of (CroMonthBench *self)
{
  return cro_month_head_get_other (CRO_MONTH_HEAD (self->head));
}

/* What the page shows; FALSE: it cannot be reckoned. */
static gboolean
shown_months (CroBench        *bench,
              const CroMonth **month,
              const CroMonth **other)
{
  CroMonthBench *self = CRO_MONTH_BENCH (bench);
  CroDate day = other_of (self);

  *month = cro_month_shelf_reckon (self->shelf, self->first, NULL);
  *other = day != CRO_NO_DAY ? cro_month_shelf_reckon (self->shelf, day, NULL) : NULL;
  return *month != NULL;
}

static void
follow_list (CroMonthBench *self)
{
  cro_month_head_list (CRO_MONTH_HEAD (self->head), cro_month_shelf_list (self->shelf), self->first);
}

/* --- What is shown -------------------------------------------------------------------------- */

static guint
view_now (CroMonthBench *self)
{
  GtkWidget *child = gtk_stack_get_visible_child (GTK_STACK (self->views));

  for (guint i = 0; i < N_VIEWS; i++)
    {
      char name[2] = { (char) ('0' + i), '\0' };

      if (gtk_stack_get_child_by_name (GTK_STACK (self->views), name) == child)
        return i;
    }
  return STATEMENT;
}

static void
show_against (CroMonthBench  *self,
              const CroMonth *month,
              const CroMonth *other)
{
  g_autofree char *name = other != NULL ? cro_month_to_text (other->first) : NULL;
  gboolean is_told = other != NULL && other->is_closed && month->is_closed;
  g_autofree char *label = NULL;

  gtk_widget_set_visible (self->against, other != NULL);
  if (other == NULL)
    return;
  /* Translators: a month, "September 2026". */
  label = is_told ? cro_isolate_printf (_("Why It Changed Against %s"), name)
                  /* Translators: a month, "September 2026". */
                  : cro_isolate_printf (_("Against %s: once both are closed"), name);
  gtk_label_set_label (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->against))), label);
  cro_spoken_set (self->against, label);
  gtk_widget_set_sensitive (self->against, is_told);
}

static void
show_statement (CroMonthBench  *self,
                const CroMonth *month,
                const CroMonth *other)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (CRO_BENCH (self)));
  g_autoptr (CroMonthTable) table = cro_month_statement_beside (model, month, other, TRUE);

  cro_month_table_view_set (CRO_MONTH_TABLE_VIEW (self->statement), table);
  cro_month_table_view_begin_at (CRO_MONTH_TABLE_VIEW (self->statement), (int) cro_month_first_waiting (month));
  cro_month_questions_set (CRO_MONTH_QUESTIONS (self->questions), month);
  cro_month_went_view_set (CRO_MONTH_WENT_VIEW (self->went), model, month);
  show_against (self, month, other);
}

static void
show_view (CroMonthBench  *self,
           const CroMonth *month,
           const CroMonth *other)
{
  guint view = view_now (self);

  if (view == STATEMENT)
    show_statement (self, month, other);
  else if (view == WHY)
    cro_month_why_set (CRO_MONTH_WHY (self->why), other, month);
  else if (view == MATRIX)
    cro_month_matrix_view_set (CRO_MONTH_MATRIX_VIEW (self->matrix),
                               cro_book_get_model (cro_bench_get_book (CRO_BENCH (self))), month);
}

/* The month as it was reckoned last, soon anew; the first time at once. */
static void
show_months (CroMonthBench *self)
{
  g_autoptr (GError) error = NULL;
  CroDate day = other_of (self);
  const CroMonth *other = day != CRO_NO_DAY ? cro_month_shelf_peek (self->shelf, day) : NULL;
  const CroMonth *month = cro_month_shelf_peek (self->shelf, self->first);
  g_autofree char *trouble = NULL;

  if (month == NULL)
    month = cro_month_shelf_reckon (self->shelf, self->first, &error);
  if (month == NULL)
    trouble = cro_words_failed (error);
  gtk_label_set_label (GTK_LABEL (self->trouble), trouble != NULL ? trouble : "");
  gtk_widget_set_visible (self->trouble, month == NULL);
  gtk_widget_set_visible (self->sheets, month != NULL);
  if (month == NULL)
    return;
  /* Before the head: it says what may be done, and a button that may not be pressed any more has no focus to hand
   * on. */
  show_view (self, month, other);
  cro_month_head_set (CRO_MONTH_HEAD (self->head), month);
  if (self->closing != NULL)
    cro_month_close_page_refresh (CRO_MONTH_CLOSE_PAGE (self->closing), month);
}

static void
shelf_changed_cb (CroMonthBench *self)
{
  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  follow_list (self);
  show_months (self);
}

static void
view_cb (CroMonthBench *self)
{
  if (self->shelf != NULL)
    show_months (self);
}

/* --- Sheets --------------------------------------------------------------------------------- */

static void
open_sheet (CroMonthBench *self,
            const char    *title,
            GtkWidget     *content)
{
  cro_sheet_stack_open (CRO_SHEET_STACK (self->sheets), title, content);
}

/* One that says when it is done with. */
static void
open_form (CroMonthBench *self,
           const char    *title,
           GtkWidget     *form)
{
  g_signal_connect_object (form, "done", G_CALLBACK (cro_sheet_stack_back), self->sheets, G_CONNECT_SWAPPED);
  cro_sheet_stack_close (CRO_SHEET_STACK (self->sheets));
  open_sheet (self, title, form);
}

static void
moved_cb (CroMonthBench *self)
{
  cro_month_head_set_switching (CRO_MONTH_HEAD (self->head),
                                !cro_sheet_stack_is_open (CRO_SHEET_STACK (self->sheets)));
}

static void
back_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  cro_sheet_stack_back (CRO_SHEET_STACK (CRO_MONTH_BENCH (widget)->sheets));
}

/* Whether a line opens to a sheet. */
static gboolean
opens (int line)
{
  return cro_statement_number ((CroStatementLine) line) > 0 || line == CRO_STATEMENT_REVENUE
         || line == CRO_STATEMENT_TILL || line == CRO_STATEMENT_LEDGER;
}

/* Whether a line is somebody else's total. */
static gboolean
is_total (int line)
{
  return line == CRO_STATEMENT_TILL || line == CRO_STATEMENT_LEDGER;
}

static void
open_records (CroMonthBench        *self,
              CroDate               first,
              const CroRecordsKind *kinds,
              guint                 n,
              const char           *name)
{
  g_autofree char *month = cro_month_to_text (first);
  g_autofree char *title = cro_isolate_printf (_("%s, %s"), name, month);

  open_sheet (self, title, cro_month_detail_new (CRO_BENCH (self), first, kinds, n, name));
}

static CroMonthSheetKind
sheet_of (CroStatementLine line)
{
  switch (line)
    {
    case CRO_STATEMENT_OPENING:
      return CRO_MONTH_SHEET_OPENING;
    case CRO_STATEMENT_BOUGHT:
    case CRO_STATEMENT_LEDGER:
      return CRO_MONTH_SHEET_PURCHASES;
    case CRO_STATEMENT_CLOSING:
      return CRO_MONTH_SHEET_CLOSING;
    case CRO_STATEMENT_ADJUSTMENTS:
      return CRO_MONTH_SHEET_ADJUSTMENTS;
    case CRO_STATEMENT_REVENUE:
      return CRO_MONTH_SHEET_REVENUE;
    default:
      return CRO_MONTH_SHEET_SALES;
    }
}

/* What a line is entered in, at the total of others that it has, or where its rows are. */
static void
open_line (CroMonthBench    *self,
           CroStatementLine  line,
           gboolean          at_total)
{
  char month[CRO_MONTH_CHARS];
  GtkWidget *sheet;

  cro_month_format (self->first, month);
  sheet = cro_month_sheet_new (CRO_BENCH (self), month, sheet_of (line));
  g_signal_connect_object (sheet, "done", G_CALLBACK (cro_sheet_stack_back), self->sheets, G_CONNECT_SWAPPED);
  g_set_weak_pointer (&self->sheet, sheet);
  open_sheet (self, NULL, sheet);
  if (at_total)
    cro_month_sheet_focus_total (CRO_MONTH_SHEET (sheet));
}

static void
opened_cb (CroMonthBench *self,
           int            line,
           const char    *name)
{
  open_line (self, (CroStatementLine) line, is_total (line));
}

static void
sheet_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *line)
{
  cro_sheet_stack_close (CRO_SHEET_STACK (CRO_MONTH_BENCH (widget)->sheets));
  open_line (CRO_MONTH_BENCH (widget), (CroStatementLine) g_variant_get_int32 (line),
             is_total (g_variant_get_int32 (line)));
}

/* --- What a figure is made of --------------------------------------------------------------- */

/* An ingredient opens to its documents and counts, what was sold to its sales. */
static void
item_opened_cb (CroMonthBench *self,
                int            line,
                const char    *name)
{
  static const CroRecordsKind kinds[] = { CRO_RECORDS_PURCHASES, CRO_RECORDS_COUNTS, CRO_RECORDS_ADJUSTMENTS };

  open_records (self, self->first, kinds, G_N_ELEMENTS (kinds), name);
}

static void
thing_opened_cb (CroMonthBench *self,
                 int            line,
                 const char    *name)
{
  static const CroRecordsKind kinds[] = { CRO_RECORDS_SALES };

  open_records (self, self->first, kinds, G_N_ELEMENTS (kinds), name);
}

/* What the row with the focus is about, an item or what was sold, in its own place. */
static void
item_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroMonthBench *self = CRO_MONTH_BENCH (widget);
  CroModel *model = cro_book_get_model (cro_bench_get_book (CRO_BENCH (self)));
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));
  GtkWidget *view = focus != NULL ? gtk_widget_get_ancestor (focus, CRO_TYPE_MONTH_TABLE_VIEW) : NULL;
  const char *name = view != NULL && view != self->statement
                         ? cro_month_table_view_get_name (CRO_MONTH_TABLE_VIEW (view))
                         : NULL;
  CroRef ref = name != NULL ? cro_edit_find_name (model, CRO_NAMES_ITEMS, name) : CRO_REF_NOWHERE;

  if (name != NULL && ref.kind == CRO_REF_NONE)
    ref = cro_edit_find_name (model, CRO_NAMES_THINGS, name);
  if (ref.kind != CRO_REF_NONE)
    cro_bench_open (CRO_BENCH (self), ref);
}

/* A course or a category opens to what is in it, which opens to its records. name: NULL: all of it. */
static void
open_group (CroMonthBench *self,
            CroWentBy      by,
            const char    *name)
{
  CroWentBy within = by == CRO_WENT_BY_CATEGORY ? CRO_WENT_BY_INGREDIENT : CRO_WENT_BY_THING;
  const CroMonth *month, *other;
  g_autoptr (CroMonthTable) table = NULL;
  GtkWidget *view;

  if (!shown_months (CRO_BENCH (self), &month, &other))
    return;
  table = cro_month_went_new (month, within, name, 0);
  view = cro_month_table_view_new (cro_month_went_title (within), NULL);
  cro_month_table_view_set (CRO_MONTH_TABLE_VIEW (view), table);
  g_signal_connect_object (view, "opened",
                           within == CRO_WENT_BY_THING ? G_CALLBACK (thing_opened_cb) : G_CALLBACK (item_opened_cb),
                           self, G_CONNECT_SWAPPED);
  open_sheet (self, name != NULL ? name : cro_month_went_title (within), view);
}

static void
went_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroMonthBench *self = CRO_MONTH_BENCH (widget);
  const char *name;
  int by;

  g_variant_get (parameter, "(i&s)", &by, &name);
  if (by == CRO_WENT_BY_INGREDIENT)
    item_opened_cb (self, 0, name);
  else if (by == CRO_WENT_BY_THING)
    thing_opened_cb (self, 0, name);
  else
    open_group (self, (CroWentBy) by, name);
}

/* A figure of the statement as its sum in words. */
static void
sum_cb (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  CroMonthBench *self = CRO_MONTH_BENCH (widget);
  CroModel *model = cro_book_get_model (cro_bench_get_book (CRO_BENCH (self)));
  const CroMonth *month, *other;
  GtkWidget *row;
  int line = cro_month_table_view_get_line (CRO_MONTH_TABLE_VIEW (self->statement), &row);
  g_autoptr (GPtrArray) sum = NULL;

  if (line < 0 || !shown_months (CRO_BENCH (self), &month, &other))
    return;
  sum = cro_month_statement_sum (model, month, (CroStatementLine) line);
  if (sum != NULL)
    cro_sum_popover_show (CRO_SUM_POPOVER (self->sum), row, sum, NULL);
  else if (line == CRO_STATEMENT_THEORETICAL)
    open_group (self, CRO_WENT_BY_THING, NULL);
  else if (opens (line))
    open_line (self, (CroStatementLine) line, is_total (line));
}

/* The total that the line with the focus ties to: of a till, of a ledger, or what a stock is worth; from elsewhere,
 * of the till. */
static void
type_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroMonthBench *self = CRO_MONTH_BENCH (widget);
  GtkWidget *row;
  int line = cro_month_table_view_get_line (CRO_MONTH_TABLE_VIEW (self->statement), &row);

  if (line < CRO_STATEMENT_OPENING)
    open_line (self, CRO_STATEMENT_TILL, TRUE);
  else if (line == CRO_STATEMENT_OPENING || line == CRO_STATEMENT_CLOSING)
    open_line (self, (CroStatementLine) line, TRUE);
  else if (line == CRO_STATEMENT_BOUGHT || line >= CRO_STATEMENT_FOOD)
    open_line (self, CRO_STATEMENT_LEDGER, TRUE);
}

/* --- Closing -------------------------------------------------------------------------------- */

static void
close_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroMonthBench *self = CRO_MONTH_BENCH (widget);
  const CroMonth *month, *other;
  g_autofree char *name = cro_month_to_text (self->first);
  g_autofree char *title = g_str_equal (action, "month.close") ? cro_isolate_printf (_("Close %s"), name)
                                                               : cro_isolate_printf (_("Reopen %s"), name);
  GtkWidget *page;

  if (!shown_months (CRO_BENCH (self), &month, &other))
    return;
  page = cro_month_close_page_new (CRO_BENCH (self), month);
  open_form (self, title, page);
  g_set_weak_pointer (&self->closing, page);
}

static void
recipes_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  CroMonthBench *self = CRO_MONTH_BENCH (widget);
  const CroMonth *month, *other;

  if (shown_months (CRO_BENCH (self), &month, &other))
    open_form (self, _("Recipes of a Day"), cro_month_recipes_page_new (CRO_BENCH (self), month));
}

/* --- Output --------------------------------------------------------------------------------- */

static void
print_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroMonthBench *self = CRO_MONTH_BENCH (widget);
  CroMonthOutput *output = cro_month_head_get_output (CRO_MONTH_HEAD (self->head));
  CroMonthPrint what = (CroMonthPrint) view_now (self);

  if (g_str_equal (action, "month.pdf"))
    cro_month_output_pdf (output, what);
  else if (g_str_equal (action, "month.spreadsheet"))
    cro_month_output_spreadsheet (output);
  else
    cro_month_output_print (output, what);
}

/* --- Keys ----------------------------------------------------------------------------------- */

/* Ctrl+1 and on, counted from 0. */
static void
picture_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  CroMonthBench *self = CRO_MONTH_BENCH (widget);
  guint view = (guint) g_variant_get_int32 (parameter);
  char name[2] = { (char) ('0' + view), '\0' };

  if (view >= N_VIEWS)
    return;
  cro_sheet_stack_close (CRO_SHEET_STACK (self->sheets));
  gtk_stack_set_visible_child_name (GTK_STACK (self->views), name);
  cro_focus_first (gtk_stack_get_visible_child (GTK_STACK (self->views)));
}

static void
why_cb (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  gtk_widget_activate_action (widget, "bench.picture", "i", WHY);
}

/* To the page of the month that stands beside. */
static void
other_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroDate other = other_of (CRO_MONTH_BENCH (widget));

  if (other != CRO_NO_DAY)
    cro_bench_open (CRO_BENCH (widget), CRO_REF (CRO_REF_MONTH, cro_month_to_slot (other)));
}

/* --- The bench ------------------------------------------------------------------------------ */

static void
cro_month_bench_show (CroBench *bench)
{
  CroMonthBench *self = CRO_MONTH_BENCH (bench);
  CroDate first = cro_month_of_slot (cro_bench_get_slot (bench));
  gboolean is_other = first != self->first || self->shown != cro_bench_get_book (bench);
  const CroMonth *month, *other;

  if (self->shown != cro_bench_get_book (bench))
    {
      if (self->shelf != NULL)
        g_signal_handlers_disconnect_by_data (self->shelf, self);
      g_set_weak_pointer (&self->shown, cro_bench_get_book (bench));
      g_set_weak_pointer (&self->shelf, cro_month_shelf_of (self->shown));
      g_signal_connect_object (self->shelf, "changed", G_CALLBACK (shelf_changed_cb), self, G_CONNECT_SWAPPED);
    }
  if (!is_other)
    {
      show_months (self);
      return;
    }
  self->first = first;
  cro_sheet_stack_close (CRO_SHEET_STACK (self->sheets));
  follow_list (self);
  /* The first time both months stand side by side at once. */
  shown_months (bench, &month, &other);
  show_months (self);
}

static void
cro_month_bench_refresh (CroBench *bench)
{
  CroMonthBench *self = CRO_MONTH_BENCH (bench);

  follow_list (self);
  show_months (self);
  if (self->sheet != NULL)
    cro_month_sheet_refresh (CRO_MONTH_SHEET (self->sheet));
}

static void
cro_month_bench_dispose (GObject *object)
{
  CroMonthBench *self = CRO_MONTH_BENCH (object);

  if (self->views != NULL)
    g_signal_handlers_disconnect_by_data (self->views, self);
  self->views = NULL;
  g_clear_weak_pointer (&self->shown);
  g_clear_weak_pointer (&self->shelf);
  g_clear_weak_pointer (&self->sheet);
  g_clear_weak_pointer (&self->closing);
  g_clear_pointer (&self->sum, cro_sum_popover_remove);
  G_OBJECT_CLASS (cro_month_bench_parent_class)->dispose (object);
}

static void
cro_month_bench_class_init (CroMonthBenchClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_month_bench_dispose;
  CRO_BENCH_CLASS (klass)->kind = CRO_REF_MONTH;
  CRO_BENCH_CLASS (klass)->show = cro_month_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_month_bench_refresh;
  gtk_widget_class_install_action (widget_class, "bench.picture", "i", picture_cb);
  gtk_widget_class_install_action (widget_class, "figure.sum", NULL, sum_cb);
  gtk_widget_class_install_action (widget_class, "item.open", NULL, item_cb);
  gtk_widget_class_install_action (widget_class, "month.back", NULL, back_cb);
  gtk_widget_class_install_action (widget_class, "month.close", NULL, close_cb);
  gtk_widget_class_install_action (widget_class, "month.other", NULL, other_cb);
  gtk_widget_class_install_action (widget_class, "month.pdf", NULL, print_cb);
  gtk_widget_class_install_action (widget_class, "month.print", NULL, print_cb);
  gtk_widget_class_install_action (widget_class, "month.recipes", NULL, recipes_cb);
  gtk_widget_class_install_action (widget_class, "month.reopen", NULL, close_cb);
  gtk_widget_class_install_action (widget_class, "month.sheet", "i", sheet_cb);
  gtk_widget_class_install_action (widget_class, "month.spreadsheet", NULL, print_cb);
  gtk_widget_class_install_action (widget_class, "month.went", "(is)", went_cb);
  gtk_widget_class_install_action (widget_class, "month.why", NULL, why_cb);
  gtk_widget_class_install_action (widget_class, "month.type", NULL, type_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F2, 0, "month.type", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_i, GDK_CONTROL_MASK, "figure.sum", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_p, GDK_CONTROL_MASK, "month.print", NULL);
}

static GtkWidget *
statement_new (CroMonthBench *self)
{
  GtkWidget *aside = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18), *words = gtk_label_new (NULL);

  self->statement = cro_month_table_view_new (_("Statement; Enter opens what a line is made of"), opens);
  gtk_widget_add_css_class (self->statement, "lines-part");
  g_signal_connect_object (self->statement, "opened", G_CALLBACK (opened_cb), self, G_CONNECT_SWAPPED);
  self->questions = cro_month_questions_new (CRO_BENCH (self));
  self->went = cro_month_went_view_new ();
  /* Words of a button would hold all beside the statement as wide. */
  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_justify (GTK_LABEL (words), GTK_JUSTIFY_CENTER);
  self->against = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (self->against), words);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->against), "month.why");
  gtk_widget_set_halign (self->against, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (aside), self->questions);
  gtk_box_append (GTK_BOX (aside), self->went);
  gtk_box_append (GTK_BOX (aside), self->against);
  return cro_beside_new (self->statement, aside);
}

static void
add_view (CroMonthBench *self,
          guint          view,
          const char    *title,
          GtkWidget     *widget)
{
  char name[2] = { (char) ('0' + view), '\0' };

  gtk_stack_add_titled (GTK_STACK (self->views), widget, name, title);
}

static void
cro_month_bench_init (CroMonthBench *self)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  self->views = gtk_stack_new ();
  gtk_stack_set_hhomogeneous (GTK_STACK (self->views), FALSE);
  gtk_stack_set_vhomogeneous (GTK_STACK (self->views), FALSE);
  self->why = cro_month_why_new ();
  self->matrix = cro_month_matrix_view_new ();
  add_view (self, STATEMENT, _("Statement"), statement_new (self));
  add_view (self, WHY, _("Why It Changed"), self->why);
  add_view (self, MATRIX, _("Matrix"), self->matrix);
  g_signal_connect_object (self->views, "notify::visible-child", G_CALLBACK (view_cb), self, G_CONNECT_SWAPPED);
  self->sheets = cro_sheet_stack_new (self->views);
  gtk_widget_set_vexpand (self->sheets, TRUE);
  g_signal_connect_object (self->sheets, "moved", G_CALLBACK (moved_cb), self, G_CONNECT_SWAPPED);
  self->trouble = cro_text_new ("", "title-4");
  gtk_widget_set_visible (self->trouble, FALSE);
  gtk_box_append (GTK_BOX (content), self->trouble);
  gtk_box_append (GTK_BOX (content), self->sheets);
  self->head = cro_month_head_new (CRO_BENCH (self), GTK_STACK (self->views), shown_months);
  g_signal_connect_object (self->head, "changed", G_CALLBACK (view_cb), self, G_CONNECT_SWAPPED);
  cro_bench_set_content (CRO_BENCH (self), self->head, content);
  self->sum = cro_sum_popover_new (CRO_BENCH (self), self->statement);
}
