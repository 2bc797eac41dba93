#include "config.h"

#include "cro-supplier-days.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-market-open.h"
#include "cro-new-prices.h"
#include "cro-number.h"
#include "cro-spoken.h"
#include "cro-wrap.h"

struct _CroSupplierDays
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkSizeGroup *names;  /* as wide as one another */
  GPtrArray *rows;      /* Row */

  CroBench  *bench;     /* borrowed */
};

G_DEFINE_FINAL_TYPE (CroSupplierDays, cro_supplier_days, GTK_TYPE_WIDGET)

enum
{
  NAME,
  NEW_PRICES,
  TAKE_FILE,
  LISTS,
  N_CELLS,
};

/* Pixels: as far in as the name, which is a button's, and nearer to it than to the next. */
#define UNDER_NAME 10
#define BELOW 6

typedef struct
{
  GtkWidget *box;
  GtkWidget *cells[N_CELLS];
  guint32    supplier;
} Row;

static void
clicked_cb (GtkWidget       *button,
            CroSupplierDays *self)
{
  const Row *row = NULL;

  for (guint i = 0; self->rows != NULL && i < self->rows->len; i++)
    if (gtk_widget_is_ancestor (button, ((const Row *) self->rows->pdata[i])->box))
      row = self->rows->pdata[i];
  if (row == NULL)
    return;
  if (button == row->cells[NAME])
    cro_bench_open (self->bench, CRO_REF (CRO_REF_SUPPLIER, row->supplier));
  else if (button == row->cells[NEW_PRICES])
    cro_market_new_prices (self->bench, row->supplier);
  else
    cro_market_ask_file (self->bench, row->supplier);
}

static Row *
row_at (CroSupplierDays *self,
        guint            at)
{
  Row *row;
  GtkWidget *head;

  if (at < self->rows->len)
    return self->rows->pdata[at];
  row = g_new0 (Row, 1);
  row->cells[NAME] = cro_name_button_new ();
  gtk_widget_set_halign (row->cells[NAME], GTK_ALIGN_START);
  row->cells[NEW_PRICES] = gtk_button_new_with_label (_("New Prices"));
  row->cells[TAKE_FILE] = gtk_button_new_with_label (_("File…"));
  row->cells[LISTS] = cro_text_new ("", "numeric");
  gtk_widget_set_valign (row->cells[LISTS], GTK_ALIGN_CENTER);
  gtk_widget_set_margin_start (row->cells[LISTS], UNDER_NAME);
  for (int i = NAME; i <= TAKE_FILE; i++)
    g_signal_connect_object (row->cells[i], "clicked", G_CALLBACK (clicked_cb), self, 0);
  /* What is said of the lists goes below where it has no room beside. */
  row->box = cro_wrap_new (9, 0);
  gtk_widget_set_margin_bottom (row->box, BELOW);
  head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  gtk_size_group_add_widget (self->names, row->cells[NAME]);
  for (int i = 0; i < LISTS; i++)
    gtk_box_append (GTK_BOX (head), row->cells[i]);
  cro_wrap_append (CRO_WRAP (row->box), head);
  cro_wrap_append (CRO_WRAP (row->box), row->cells[LISTS]);
  gtk_box_append (GTK_BOX (self->box), row->box);
  g_ptr_array_add (self->rows, row);
  return row;
}

/* --- Words -------------------------------------------------------------------------------------- */

static char *
dup_last (const CroSupplierDay *day)
{
  g_autofree char *date = day->last != CRO_NO_DAY ? cro_date_to_text (day->last) : NULL;

  if (date == NULL)
    return g_strdup (_("No list yet"));
  /* Translators: the day of a supplier's last price list. */
  return g_strdup_printf (_("Last list %s"), date);
}

/* "List due since 2026-11-23, every 7 days · Set aside: 6 rows". */
static char *
dup_due (CroBook              *book,
         const CroSupplierDay *day)
{
  CroDate date = cro_book_get_figures (book)->date;
  g_autofree char *on = day->rhythm > 0 ? cro_date_to_text (day->due) : NULL;
  g_autofree char *every = g_strdup_printf (ngettext ("every %u day", "every %u days", day->rhythm), day->rhythm);
  g_autofree char *aside = cro_new_prices_dup_aside_words (book, day->supplier);
  g_autofree char *due = NULL;

  if (day->rhythm == 0)
    due = g_strdup ("");
  else if (day->due == date)
    /* Translators: a supplier's next price list; how often they send one. */
    due = g_strdup_printf (_("List due today, %s"), every);
  else
    due = g_strdup_printf (day->is_due ? _("List due since %s, %s") : _("Next list %s, %s"), on, every);
  if (aside == NULL)
    return g_steal_pointer (&due);
  return *due != '\0' ? g_strdup_printf ("%s · %s", due, aside) : g_steal_pointer (&aside);
}

static void
fill_row (Row                  *row,
          CroBook              *book,
          const CroSupplierDay *day)
{
  const char *name = cro_ref_name (cro_book_get_model (book), CRO_REF (CRO_REF_SUPPLIER, day->supplier));
  g_autofree char *last = dup_last (day), *due = dup_due (book, day);
  g_autofree char *lists = *due != '\0' ? g_strdup_printf ("%s · %s", last, due) : g_strdup (last);
  g_autofree char *said = cro_isolate_printf (_("%s, %s"), name, lists);
  g_autofree char *new_prices = cro_isolate_printf (_("New prices of %s"), name);
  g_autofree char *file = cro_isolate_printf (_("File of %s"), name);

  row->supplier = day->supplier;
  cro_name_button_set (row->cells[NAME], name);
  cro_spoken_set (row->cells[NAME], said);
  cro_spoken_set (row->cells[NEW_PRICES], new_prices);
  cro_spoken_set (row->cells[TAKE_FILE], file);
  gtk_label_set_label (GTK_LABEL (row->cells[LISTS]), lists);
  if (day->is_due)
    gtk_widget_add_css_class (row->cells[LISTS], "now");
  else
    gtk_widget_remove_css_class (row->cells[LISTS], "now");
}

void
cro_supplier_days_set (CroSupplierDays    *self,
                       const CroMarketDay *day)
{
  CroBook *book = cro_bench_get_book (self->bench);

  for (guint i = 0; i < day->suppliers->len; i++)
    fill_row (row_at (self, i), book, &g_array_index (day->suppliers, CroSupplierDay, i));
  for (guint i = 0; i < self->rows->len; i++)
    gtk_widget_set_visible (((Row *) self->rows->pdata[i])->box, i < day->suppliers->len);
}

guint32
cro_supplier_days_get_focused (CroSupplierDays *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      const Row *row = self->rows->pdata[i];

      for (int cell = 0; cell < N_CELLS; cell++)
        if (gtk_widget_has_focus (row->cells[cell]))
          return row->supplier;
    }
  return CRO_NO_SLOT;
}

guint32
cro_supplier_days_get_at (CroSupplierDays *self,
                          double           x,
                          double           y)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      const Row *row = self->rows->pdata[i];
      graphene_rect_t bounds;

      if (gtk_widget_get_visible (row->box)
          && gtk_widget_compute_bounds (row->box, GTK_WIDGET (self), &bounds)
          && y >= bounds.origin.y && y <= bounds.origin.y + bounds.size.height)
        return row->supplier;
    }
  return CRO_NO_SLOT;
}

/* --- The widget --------------------------------------------------------------------------------- */

static void
cro_supplier_days_dispose (GObject *object)
{
  CroSupplierDays *self = CRO_SUPPLIER_DAYS (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->names);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  G_OBJECT_CLASS (cro_supplier_days_parent_class)->dispose (object);
}

static void
cro_supplier_days_class_init (CroSupplierDaysClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_supplier_days_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_supplier_days_init (CroSupplierDays *self)
{
  self->rows = g_ptr_array_new_with_free_func (g_free);
  self->names = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_supplier_days_new (CroBench *bench)
{
  CroSupplierDays *self = g_object_new (CRO_TYPE_SUPPLIER_DAYS, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
