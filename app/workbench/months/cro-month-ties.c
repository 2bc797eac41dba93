#include "config.h"

#include "cro-month-ties.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-money.h"
#include "cro-month-edit.h"
#include "cro-month-shelf.h"
#include "cro-month-total.h"
#include "cro-number.h"
#include "cro-records.h"
#include "cro-words.h"
#include "cro-wrap.h"

struct _CroMonthTies
{
  GtkWidget          parent_instance;

  GtkWidget         *row;
  GtkWidget         *total;
  GtkWidget         *gross;       /* of a till, with tax; NULL */
  GtkWidget         *tie;         /* whether they agree; NULL: there is nothing to agree with */
  GtkWidget         *gross_tie;

  CroBench          *bench;       /* borrowed */
  CroBook           *shown;       /* whose months these are; borrowed, may be stale */
  CroRecords        *months;      /* which knows what the totals come to */
  CroDate            first;
  CroMonthSheetKind  which;
};

G_DEFINE_FINAL_TYPE (CroMonthTies, cro_month_ties, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroMonthTies *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- Whether they agree ------------------------------------------------------------------------------ */

static CroRecord *
dup_month (CroMonthTies *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->months));
  char month[CRO_MONTH_CHARS];

  cro_month_format (self->first, month);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (self->months), i);
      g_autofree char *code = cro_record_dup_month (record);

      if (g_strcmp0 (code, month) == 0)
        return g_steal_pointer (&record);
    }
  return NULL;
}

/* Net sales of both sheets, plates' and others', of which each lists its own. */
static char *
dup_sales (CroMonthTies *self,
           CroRecord    *month)
{
  CroModel *model = cro_book_get_model (book_of (self));
  const CroMonth *reckoned = cro_month_shelf_peek (cro_month_shelf_of (book_of (self)), self->first);
  g_autofree char *sales = cro_record_dup_text (month, CRO_RECORDS_MONTHS_NET_SALES), *other = NULL;
  double net = reckoned != NULL ? reckoned->net_sales - reckoned->net_sales_costed : 0;

  if (cro_money_round (net, cro_currency_digits (model->currency)) == 0)
    return g_steal_pointer (&sales);
  other = cro_words_money (model, net);
  /* Translators: money: net sales, and what of them is of no plate or menu. */
  return g_strdup_printf (_("%s (%s without a plate)"), sales, other);
}

/* "✓" stands beside its word: no sign alone tells. */
static void
show_tie (CroMonthTies *self,
          CroRecord    *month)
{
  gboolean is_ledger = self->which == CRO_MONTH_SHEET_PURCHASES;
  guint apart = is_ledger ? CRO_RECORDS_MONTHS_TO_THE_LEDGER : CRO_RECORDS_MONTHS_TO_THE_TILL;
  g_autofree char *ours = NULL, *difference = NULL, *text = NULL;

  if (month == NULL)
    {
      gtk_label_set_label (GTK_LABEL (self->tie), "");
      return;
    }
  ours = is_ledger ? cro_record_dup_text (month, CRO_RECORDS_MONTHS_PURCHASES) : dup_sales (self, month);
  difference = cro_record_dup_text (month, apart);
  if (!cro_month_total_is_set (CRO_MONTH_TOTAL (self->total)))
    /* Translators: money: the sum of what is entered. */
    text = g_strdup_printf (_("entered: %s"), ours);
  else if (strcmp (difference, _("agrees")) == 0)
    /* Translators: money: the sum of what is entered, which is that of the till or the ledger. */
    text = g_strdup_printf (_("entered: %s · agrees ✓"), ours);
  else
    /* Translators: money: the sum of what is entered, and by how much it differs, with its sign. */
    text = g_strdup_printf (_("entered: %s · difference: %s"), ours, difference);
  gtk_label_set_label (GTK_LABEL (self->tie), text);
}

/* A till that says its total with tax alone is tied to that. */
static void
show_gross_tie (CroMonthTies *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  gint64 theirs = cro_month_total_get (CRO_MONTH_TOTAL (self->gross));
  int digits = cro_currency_digits (model->currency);
  g_autofree char *ours = NULL, *difference = NULL, *text = NULL;
  gboolean is_whole;
  double gross, apart;

  if (theirs == CRO_NOT_SET || !cro_month_gross_sales (book_of (self), self->first, &gross, &is_whole, NULL))
    {
      gtk_label_set_label (GTK_LABEL (self->gross_tie), "");
      return;
    }
  apart = (double) (cro_money_round (gross, digits) - cro_money_round (cro_decimal_to_double (theirs), digits))
          / pow (10, digits);
  ours = cro_words_money (model, gross);
  difference = cro_words_money (model, apart);
  if (!is_whole)
    /* Translators: money: sales with tax, of which some have no price. */
    text = g_strdup_printf (_("with tax: at least %s"), ours);
  else if (apart == 0)
    /* Translators: money: sales with tax, which the till says too. */
    text = g_strdup_printf (_("with tax: %s · agrees ✓"), ours);
  else
    /* Translators: money: sales with tax, and by how much they differ from the till's, with a sign. */
    text = g_strdup_printf (_("with tax: %s · difference: %s%s"), ours, apart > 0 ? "+" : "", difference);
  gtk_label_set_label (GTK_LABEL (self->gross_tie), text);
}

static void
show (CroMonthTies *self)
{
  g_autoptr (CroRecord) month = NULL;

  cro_month_total_refresh (CRO_MONTH_TOTAL (self->total));
  if (self->gross != NULL)
    {
      cro_month_total_refresh (CRO_MONTH_TOTAL (self->gross));
      show_gross_tie (self);
    }
  if (self->tie == NULL)
    return;
  month = dup_month (self);
  show_tie (self, month);
}

void
cro_month_ties_refresh (CroMonthTies *self)
{
  if (self->shown != book_of (self) && self->tie != NULL)
    {
      g_clear_object (&self->months);
      self->months = cro_records_new (book_of (self), CRO_RECORDS_MONTHS);
      g_signal_connect_object (self->months, "items-changed", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (cro_month_shelf_of (book_of (self)), "changed", G_CALLBACK (show), self,
                               G_CONNECT_SWAPPED);
    }
  self->shown = book_of (self);
  show (self);
}

void
cro_month_ties_set_open (CroMonthTies *self,
                         gboolean      is_open)
{
  gtk_widget_set_sensitive (self->total, is_open);
  if (self->gross != NULL)
    gtk_widget_set_sensitive (self->gross, is_open);
}

gboolean
cro_month_ties_is_set (CroMonthTies *self)
{
  return cro_month_total_is_set (CRO_MONTH_TOTAL (self->total));
}

/* --- The widget -------------------------------------------------------------------------------------- */

static gboolean
cro_month_ties_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_MONTH_TIES (widget)->total);
}

static void
cro_month_ties_dispose (GObject *object)
{
  CroMonthTies *self = CRO_MONTH_TIES (object);

  g_clear_pointer (&self->row, gtk_widget_unparent);
  g_clear_object (&self->months);
  G_OBJECT_CLASS (cro_month_ties_parent_class)->dispose (object);
}

static void
cro_month_ties_class_init (CroMonthTiesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_month_ties_dispose;
  widget_class->grab_focus = cro_month_ties_grab_focus;
  widget_class->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
cro_month_ties_init (CroMonthTies *self)
{
  self->row = cro_field_row_new ();
  gtk_widget_set_parent (self->row, GTK_WIDGET (self));
}

static GtkWidget *
add_total (CroMonthTies *self,
           CroDate       first,
           const char   *column,
           const char   *caption)
{
  GtkWidget *total = cro_month_total_new (self->bench, first, column, caption);

  cro_wrap_append (CRO_WRAP (self->row), total);
  return total;
}

static GtkWidget *
add_tie (CroMonthTies *self)
{
  GtkWidget *tie = gtk_label_new ("");

  gtk_widget_add_css_class (tie, "numeric");
  cro_wrap_append (CRO_WRAP (self->row), cro_field_new ("", tie));
  return tie;
}

GtkWidget *
cro_month_ties_new (CroBench          *bench,
                    CroDate            first,
                    CroMonthSheetKind  which)
{
  CroMonthTies *self;

  if (which == CRO_MONTH_SHEET_ADJUSTMENTS)
    return NULL;
  self = g_object_new (CRO_TYPE_MONTH_TIES, NULL);
  self->bench = bench;
  self->first = first;
  self->which = which;
  if (which == CRO_MONTH_SHEET_SALES || which == CRO_MONTH_SHEET_REVENUE)
    {
      self->total = add_total (self, first, "till_net_revenue_micro", _("Till total, without tax"));
      self->tie = add_tie (self);
      self->gross = add_total (self, first, "till_gross_revenue_micro", _("Till total, with tax"));
      self->gross_tie = add_tie (self);
    }
  else if (which == CRO_MONTH_SHEET_PURCHASES)
    {
      self->total = add_total (self, first, "ledger_purchases_micro", _("Ledger total"));
      self->tie = add_tie (self);
    }
  else
    self->total = add_total (self, which == CRO_MONTH_SHEET_OPENING ? cro_month_first_of (first - 1) : first,
                             "closing_stock_value_micro", _("Value of the stock, where nobody counted"));
  return GTK_WIDGET (self);
}
