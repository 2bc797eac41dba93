#include "config.h"

#include "cro-month-went-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-drop-down.h"
#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-month-table-view.h"
#include "cro-month-words.h"
#include "cro-number.h"

/* Rows that are read at once, and the others as one. */
#define FEW 8

struct _CroMonthWentView
{
  GtkWidget      parent_instance;

  GtkWidget     *box;
  GtkWidget     *title;
  GtkWidget     *by;
  GtkWidget     *table;
  GtkWidget     *all;
  GtkWidget     *none;

  CroMonthTable *tables[CRO_N_WENT_BY];
  CroMonthTable *whole;     /* all ingredients */
  gboolean       is_all;
};

G_DEFINE_FINAL_TYPE (CroMonthWentView, cro_month_went_view, GTK_TYPE_WIDGET)

static CroWentBy
by_now (CroMonthWentView *self)
{
  return MIN (gtk_drop_down_get_selected (GTK_DROP_DOWN (self->by)), CRO_N_WENT_BY - 1);
}

static void
show (CroMonthWentView *self)
{
  CroWentBy by = by_now (self);
  gboolean has_more = by == CRO_WENT_BY_INGREDIENT && self->whole != NULL && self->tables[by] != NULL
                      && self->whole->rows->len > self->tables[by]->rows->len;
  const CroMonthTable *table = has_more && self->is_all ? self->whole : self->tables[by];

  cro_month_table_view_set (CRO_MONTH_TABLE_VIEW (self->table), table);
  gtk_widget_set_visible (self->none, table == NULL);
  gtk_widget_set_visible (self->all, has_more && !self->is_all);
}

static void
all_cb (CroMonthWentView *self)
{
  self->is_all = TRUE;
  show (self);
  gtk_widget_grab_focus (self->by);
}

static void
opened_cb (CroMonthWentView *self,
           int               line,
           const char       *name)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "month.went", "(is)", (int) by_now (self), name);
}

static void
clear (CroMonthWentView *self)
{
  for (CroWentBy by = 0; by < CRO_N_WENT_BY; by++)
    g_clear_pointer (&self->tables[by], cro_month_table_free);
  g_clear_pointer (&self->whole, cro_month_table_free);
}

/* The heading and the choice say what the names are. */
static CroMonthTable *
untitled (CroMonthTable *table)
{
  if (table != NULL)
    g_clear_pointer (&table->titles[0], g_free);
  return table;
}

void
cro_month_went_view_set (CroMonthWentView *self,
                         CroModel         *model,
                         const CroMonth   *month)
{
  int digits = cro_currency_digits (month->currency);
  g_autofree char *money = NULL, *over = NULL, *title = NULL;
  CroMonthMinor minor;

  /* As the statement has it. */
  cro_month_round (month, digits, &minor);
  money = cro_money_to_text (minor.over, digits);
  over = cro_words_known (month->known_over, money);
  if (isnan (month->over) || minor.over <= 0)
    title = g_strdup (_("Where it went"));
  else if (month->known_over == CRO_KNOWN_WHOLE)
    /* Translators: money: by how much actual food cost is over the theoretical. */
    title = g_strdup_printf (_("Where the %s went"), over);
  else
    /* Translators: the same, known in part: "at most 12.00". */
    title = g_strdup_printf (_("Where %s went"), over);
  clear (self);
  for (CroWentBy by = 0; by < CRO_N_WENT_BY; by++)
    self->tables[by] = untitled (cro_month_went_new (month, by, NULL, by == CRO_WENT_BY_INGREDIENT ? FEW : 0));
  self->whole = untitled (cro_month_went_new (month, CRO_WENT_BY_INGREDIENT, NULL, 0));
  gtk_label_set_label (GTK_LABEL (self->title), title);
  show (self);
}

static void
cro_month_went_view_dispose (GObject *object)
{
  CroMonthWentView *self = CRO_MONTH_WENT_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  clear (self);
  G_OBJECT_CLASS (cro_month_went_view_parent_class)->dispose (object);
}

static void
cro_month_went_view_class_init (CroMonthWentViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_month_went_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static GtkWidget *
by_new (CroMonthWentView *self)
{
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  GtkWidget *choice;

  for (CroWentBy by = 0; by < CRO_N_WENT_BY; by++)
    gtk_string_list_append (words, cro_month_went_title (by));
  choice = cro_drop_down_new_model (G_LIST_MODEL (g_steal_pointer (&words)), _("Where it went, by"));
  g_signal_connect_object (choice, "notify::selected", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  gtk_widget_set_halign (choice, GTK_ALIGN_START);
  return choice;
}

static void
cro_month_went_view_init (CroMonthWentView *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->title = cro_heading_new ("");
  gtk_label_set_wrap (GTK_LABEL (self->title), TRUE);
  gtk_widget_set_hexpand (self->title, TRUE);
  self->table = cro_month_table_view_new (_("Where it went"), NULL);
  g_signal_connect_object (self->table, "opened", G_CALLBACK (opened_cb), self, G_CONNECT_SWAPPED);
  self->all = gtk_button_new_with_label (_("Show All Ingredients"));
  gtk_widget_set_halign (self->all, GTK_ALIGN_START);
  g_signal_connect_object (self->all, "clicked", G_CALLBACK (all_cb), self, G_CONNECT_SWAPPED);
  self->none = cro_text_new (_("Nothing to tell yet. Price and usage need purchases in amounts, and a count at "
                               "both ends of the month."),
                             "dim-label");
  self->by = by_new (self);
  gtk_box_append (GTK_BOX (head), self->title);
  gtk_box_append (GTK_BOX (head), self->by);
  gtk_box_append (GTK_BOX (self->box), head);
  gtk_box_append (GTK_BOX (self->box), self->table);
  gtk_box_append (GTK_BOX (self->box), self->all);
  gtk_box_append (GTK_BOX (self->box), self->none);
  gtk_widget_add_css_class (GTK_WIDGET (self), "part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_month_went_view_new (void)
{
  return g_object_new (CRO_TYPE_MONTH_WENT_VIEW, NULL);
}
