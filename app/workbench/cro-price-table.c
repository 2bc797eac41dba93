#include "config.h"

#include "cro-price-table.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-edit.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-number.h"
#include "cro-price-history.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Prices shown at first, and more with each press of "Older". */
#define AT_ONCE 8

typedef struct
{
  gint64     id;
  GtkWidget *price;
  GtkWidget *tax;
  GtkWidget *unit_cost;
  GtkWidget *change;
} Row;

struct _CroPriceTable
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *add_row;
  GtkWidget *offers;        /* drop-down of packs */
  GtkWidget *price;
  GtkWidget *from;
  GtkWidget *reason;
  GtkWidget *grid;
  GtkWidget *older;

  CroBench  *bench;         /* borrowed */
  GArray    *rows;          /* Row */
  GArray    *choices;       /* guint32: the offers of the drop-down */
  guint      most;
};

G_DEFINE_FINAL_TYPE (CroPriceTable, cro_price_table, GTK_TYPE_WIDGET)

enum
{
  FROM,
  WHOSE,
  PRICE,
  TAX,
  PACK,
  UNIT_COST,
  CHANGE,
  REMOVE,
  N_COLUMNS,
};

static CroBook *
book_of (CroPriceTable *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- Texts ------------------------------------------------------------------------------------ */

static char *
dup_whose (CroModel *model,
           guint32   offer)
{
  const char *supplier = cro_ref_name (model, CRO_REF (CRO_REF_OFFER, offer));
  const char *code = cro_model_offer (model, offer)->code;

  return *code != '\0' ? g_strdup_printf ("%s · %s", supplier, code) : g_strdup (supplier);
}

static char *
dup_pack (const CroOffer *offer)
{
  g_autofree char *count = cro_words_decimal (offer->pack_count);
  g_autofree char *size = cro_words_decimal (offer->pack_size);

  return g_strdup_printf ("%s × %s %s", count, size, cro_words_unit (offer->pack_unit));
}

/* In the offer's own currency: rates have no part in it. */
static char *
dup_unit_cost (CroModel           *model,
               const CroPastPrice *price)
{
  const CroOfferEntry *entry = cro_model_offer (model, price->offer);
  g_autofree char *text = cro_words_costs (model, (CroBase) model->measures[entry->item].base,
                                           price->unit_cost);

  return entry->currency != NULL && g_strcmp0 (entry->currency, model->currency) != 0
             ? g_strdup_printf ("%s %s", entry->currency, text)
             : g_steal_pointer (&text);
}

static char *
dup_change (double pct)
{
  return isnan (pct) ? g_strdup ("") : cro_words_change (pct);
}

/* --- Rows ------------------------------------------------------------------------------------- */

static void
remove_cb (CroPriceTable *self,
           GtkWidget     *button)
{
  g_autofree char *label = cro_bench_dup_label (self->bench, _("removal of a price"));
  gint64 *id = g_object_get_data (G_OBJECT (button), "price");
  g_autoptr (GError) error = NULL;

  gtk_widget_grab_focus (self->price);
  if (!cro_edit_remove_price (book_of (self), label, *id, &error))
    cro_bench_fail (self->bench, error);
}

static GtkWidget *
attach_label (CroPriceTable *self,
              int            column,
              int            row,
              const char    *text)
{
  GtkWidget *label = column == FROM || column == WHOSE || column == PACK ? gtk_label_new (NULL)
                                                                         : cro_number_label_new ();

  gtk_label_set_label (GTK_LABEL (label), text);
  if (column == FROM || column == WHOSE || column == PACK)
    gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (column == WHOSE)
    {
      gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
      gtk_label_set_width_chars (GTK_LABEL (label), 14);
      gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
    }
  gtk_grid_attach (GTK_GRID (self->grid), label, column, row, 1, 1);
  return label;
}

static GtkWidget *
attach_input (CroPriceTable *self,
              int            column,
              int            row,
              gint64         id,
              CroInputKind   kind,
              const char    *store_column,
              const char    *of_what,
              const char    *date,
              const char    *placeholder)
{
  g_autofree char *act = cro_bench_dup_label (self->bench, of_what);
  /* Translators: the name of a field: what it holds, and the date from which that is. */
  g_autofree char *name = g_strdup_printf (_("%s from %s"), act, date);
  GtkWidget *input = cro_input_new (kind, CRO_RANGE_AT_LEAST_0, name);

  cro_input_set_width (CRO_INPUT (input), column == PRICE ? 9 : 5);
  cro_input_bind (CRO_INPUT (input), book_of (self), "price", id, store_column, act, placeholder);
  gtk_grid_attach (GTK_GRID (self->grid), input, column, row, 1, 1);
  return input;
}

static void
add_row (CroPriceTable      *self,
         int                 at,
         const CroPastPrice *price)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *date = cro_date_to_text (price->offer_then.from);
  g_autofree char *whose = dup_whose (model, price->offer);
  g_autofree char *pack = dup_pack (&price->offer_then);
  /* Translators: %s is a date. */
  g_autofree char *removal = g_strdup_printf (_("Remove the price from %s"), date);
  GtkWidget *button = cro_icon_button_new ("edit-delete-symbolic", removal);
  Row row = { .id = price->id };

  attach_label (self, FROM, at, date);
  attach_label (self, WHOSE, at, whose);
  row.price = attach_input (self, PRICE, at, price->id, CRO_INPUT_NUMBER, "price_micro", _("price"),
                            date, NULL);
  row.tax = attach_input (self, TAX, at, price->id, CRO_INPUT_PCT, "tax_included_pct_micro",
                          _("tax included"), date, "0");
  attach_label (self, PACK, at, pack);
  row.unit_cost = attach_label (self, UNIT_COST, at, NULL);
  row.change = attach_label (self, CHANGE, at, NULL);
  g_object_set_data_full (G_OBJECT (button), "price", g_memdup2 (&price->id, sizeof price->id),
                          g_free);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (remove_cb), self);
  gtk_grid_attach (GTK_GRID (self->grid), button, REMOVE, at, 1, 1);
  g_array_append_val (self->rows, row);
}

static void
add_heads (CroPriceTable *self)
{
  const char *heads[N_COLUMNS] = {
    [FROM] = _("from"),         [WHOSE] = _("pack of"),         [PRICE] = _("price"),
    [TAX] = _("tax in it %"),   [PACK] = _("pack"),             [UNIT_COST] = _("per unit"),
    [CHANGE] = _("change"),     [REMOVE] = "",
  };

  for (int column = 0; column < N_COLUMNS; column++)
    {
      GtkWidget *label = attach_label (self, column, 0, heads[column]);

      gtk_widget_add_css_class (label, "caption");
      gtk_widget_add_css_class (label, "dim-label");
    }
}

static gboolean
shows (CroPriceTable *self,
       GArray        *history)
{
  if (self->rows->len != MIN (history->len, self->most))
    return FALSE;
  for (guint i = 0; i < self->rows->len; i++)
    if (g_array_index (self->rows, Row, i).id != g_array_index (history, CroPastPrice, i).id)
      return FALSE;
  return TRUE;
}

static void
rebuild (CroPriceTable *self,
         GArray        *history)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->grid)) != NULL;)
    gtk_grid_remove (GTK_GRID (self->grid), child);
  g_array_set_size (self->rows, 0);
  if (history->len > 0)
    add_heads (self);
  for (guint i = 0; i < MIN (history->len, self->most); i++)
    add_row (self, (int) i + 1, &g_array_index (history, CroPastPrice, i));
}

/* --- A new price from a date ------------------------------------------------------------------ */

static void
refuse (CroPriceTable *self,
        GtkWidget     *field,
        const char    *reason)
{
  gtk_label_set_label (GTK_LABEL (self->reason), reason);
  gtk_widget_set_visible (self->reason, TRUE);
  gtk_widget_grab_focus (field);
}

static void
add_cb (CroPriceTable *self)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->offers));
  g_autofree char *label = cro_bench_dup_label (self->bench, _("price"));
  g_autoptr (GError) error = NULL;
  g_auto (CroEntry) price = { 0 }, from = { 0 };
  CroDate date = cro_book_get_figures (book_of (self))->date;

  gtk_widget_set_visible (self->reason, FALSE);
  if (!cro_entry_number (gtk_editable_get_text (GTK_EDITABLE (self->price)), CRO_RANGE_AT_LEAST_0,
                         &price))
    {
      refuse (self, self->price, _("The price is not a number."));
      return;
    }
  if (cro_entry_date (gtk_editable_get_text (GTK_EDITABLE (self->from)), &from))
    date = from.date;
  else if (from.status != CRO_ENTRY_EMPTY)
    {
      refuse (self, self->from, _("This is not a date."));
      return;
    }
  if (at >= self->choices->len)
    return;
  if (!cro_edit_set_price (book_of (self), label, g_array_index (self->choices, guint32, at), date,
                           price.micro, &error))
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  gtk_editable_set_text (GTK_EDITABLE (self->price), "");
  gtk_editable_set_text (GTK_EDITABLE (self->from), "");
}

/* The offers in the drop-down; the choice stays where it can. */
static void
set_choices (CroPriceTable *self)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  guint32 slot = cro_bench_get_slot (self->bench);
  const CroItem *item = cro_model_item (figures->model, slot);
  GtkStringList *names = GTK_STRING_LIST (gtk_drop_down_get_model (GTK_DROP_DOWN (self->offers)));
  guint selected = 0;

  if (self->choices->len == item->n_offers
      && (item->n_offers == 0
          || g_array_index (self->choices, guint32, 0)
                 == g_array_index (figures->model->offer_order, guint32, item->first_offer)))
    return;
  g_array_set_size (self->choices, 0);
  gtk_string_list_splice (names, 0, g_list_model_get_n_items (G_LIST_MODEL (names)), NULL);
  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 offer = g_array_index (figures->model->offer_order, guint32, item->first_offer + i);
      g_autofree char *whose = dup_whose (figures->model, offer);

      g_array_append_val (self->choices, offer);
      gtk_string_list_append (names, whose);
      if (figures->offer_in_use[slot] == offer)
        selected = i;
    }
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->offers), selected);
  gtk_widget_set_visible (self->add_row, item->n_offers > 0);
}

void
cro_price_table_refresh (CroPriceTable *self,
                         GArray        *history)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  g_autofree char *today = cro_date_to_text (figures->date);

  set_choices (self);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->from), today);
  if (!shows (self, history))
    rebuild (self, history);
  for (guint i = 0; i < self->rows->len; i++)
    {
      Row *row = &g_array_index (self->rows, Row, i);
      const CroPastPrice *price = &g_array_index (history, CroPastPrice, i);
      g_autofree char *unit_cost = dup_unit_cost (figures->model, price);
      g_autofree char *change = dup_change (price->change_pct);

      cro_input_refresh (CRO_INPUT (row->price));
      cro_input_refresh (CRO_INPUT (row->tax));
      gtk_label_set_label (GTK_LABEL (row->unit_cost), unit_cost);
      gtk_label_set_label (GTK_LABEL (row->change), change);
    }
  gtk_widget_set_visible (self->older, history->len > self->most);
}

static void
older_cb (CroPriceTable *self)
{
  g_autoptr (GArray) history = cro_price_history_new (book_of (self),
                                                      cro_bench_get_slot (self->bench), NULL);

  self->most += 4 * AT_ONCE;
  gtk_widget_grab_focus (self->price);
  if (history != NULL)
    cro_price_table_refresh (self, history);
}

void
cro_price_table_put (CroPriceTable *self)
{
  self->most = AT_ONCE;
  g_array_set_size (self->choices, 0);
  g_array_set_size (self->rows, 0);
  gtk_editable_set_text (GTK_EDITABLE (self->price), "");
  gtk_editable_set_text (GTK_EDITABLE (self->from), "");
  gtk_widget_set_visible (self->reason, FALSE);
  gtk_widget_set_visible (self->add_row, FALSE);
}

/* --- The widget ------------------------------------------------------------------------------- */

static GtkWidget *
add_row_new (CroPriceTable *self)
{
  GtkWidget *row = cro_wrap_new (9, 6);
  GtkWidget *button = gtk_button_new_with_label (_("Set Price"));

  self->offers = gtk_drop_down_new (G_LIST_MODEL (gtk_string_list_new (NULL)), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->offers), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Pack of"), -1);
  self->price = cro_entry_new (_("New price of a pack"), 9);
  self->from = cro_entry_new (_("From"), 12);
  gtk_widget_set_valign (button, GTK_ALIGN_END);
  g_signal_connect_swapped (self->price, "activate", G_CALLBACK (add_cb), self);
  g_signal_connect_swapped (self->from, "activate", G_CALLBACK (add_cb), self);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (add_cb), self);
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("Pack of"), self->offers));
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("New price"), self->price));
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("From"), self->from));
  cro_wrap_append (CRO_WRAP (row), button);
  return row;
}

static void
cro_price_table_dispose (GObject *object)
{
  CroPriceTable *self = CRO_PRICE_TABLE (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->rows, g_array_unref);
  g_clear_pointer (&self->choices, g_array_unref);
  G_OBJECT_CLASS (cro_price_table_parent_class)->dispose (object);
}

static void
cro_price_table_class_init (CroPriceTableClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_price_table_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_price_table_init (CroPriceTable *self)
{
  self->rows = g_array_new (FALSE, FALSE, sizeof (Row));
  self->choices = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->most = AT_ONCE;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->add_row = add_row_new (self);
  self->reason = cro_text_new (NULL, "reason");
  gtk_widget_set_visible (self->reason, FALSE);
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 12);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 3);
  gtk_widget_set_halign (self->grid, GTK_ALIGN_START);
  self->older = gtk_button_new_with_label (_("Older Prices"));
  gtk_widget_set_halign (self->older, GTK_ALIGN_START);
  g_signal_connect_swapped (self->older, "clicked", G_CALLBACK (older_cb), self);
  gtk_box_append (GTK_BOX (self->box), self->add_row);
  gtk_box_append (GTK_BOX (self->box), self->reason);
  gtk_box_append (GTK_BOX (self->box), cro_wide_new (self->grid));
  gtk_box_append (GTK_BOX (self->box), self->older);
}

GtkWidget *
cro_price_table_new (CroBench *bench)
{
  CroPriceTable *self = g_object_new (CRO_TYPE_PRICE_TABLE, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
