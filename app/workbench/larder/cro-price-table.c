#include "config.h"

#include "cro-price-table.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-drop-down.h"
#include "cro-edit.h"
#include "cro-entry-form.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-last-price.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-price-history.h"
#include "cro-price-plot.h"
#include "cro-row-grid.h"
#include "cro-words-price.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Prices shown at first, and more with each press of "Older". */
#define AT_ONCE 6

struct _CroPriceTable
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *plot;
  GtkWidget *says;          /* the sentence of the plot */
  GtkWidget *form;
  GtkWidget *offers;        /* drop-down of packs */
  GtkWidget *price;
  GtkWidget *from;
  GtkWidget *grid;
  GtkWidget *older;

  CroBench  *bench;         /* borrowed */
  GArray    *choices;       /* guint32: the offers of the drop-down */
  guint      most;
};

G_DEFINE_FINAL_TYPE (CroPriceTable, cro_price_table, GTK_TYPE_WIDGET)

/* What is read most stands first: a narrow window cuts the last. Whose price it is stands over the row. */
enum
{
  FROM,
  PRICE,
  UNIT_COST,
  CHANGE,
  PACK,
  TAX,
  REMOVAL,
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
  g_autofree char *supplier = cro_isolate (cro_ref_name (model, CRO_REF (CRO_REF_OFFER, offer)));
  const char *code = cro_model_offer (model, offer)->code;

  return *code != '\0' ? g_strdup_printf ("%s · %s", supplier, code)
                       : g_steal_pointer (&supplier);
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

/* --- The pack of a price, where it differs from the offer's ------------------------------------- */

static const char *const pack_columns[] = { "pack_count_micro", "pack_size_micro", "pack_unit",
                                            NULL };

static CroPack
pack_of (const CroOfferEntry *entry)
{
  return (CroPack){ entry->pack_count, entry->pack_size, (CroUnit) entry->pack_unit };
}

static guint32
offer_of (CroInput *input)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (input), "offer"));
}

static CroOfferEntry *
entry_of (CroInput *input)
{
  return cro_model_offer (cro_book_get_model (cro_input_get_book (input)), offer_of (input));
}

static const char *
currency_of (CroInput *input)
{
  return cro_model_currency_of (cro_book_get_model (cro_input_get_book (input)), offer_of (input));
}

static char *
dup_own_pack (CroInput *input,
              gpointer  table)
{
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (cro_input_get_book (input)),
                                                 "price", cro_input_get_id (input), pack_columns,
                                                 NULL);
  CroPack pack = pack_of (entry_of (input));
  const char *unit;

  if (rows == NULL || !cro_rows_next (rows, NULL)
      || (cro_rows_is_null (rows, 0) && cro_rows_is_null (rows, 1) && cro_rows_is_null (rows, 2)))
    return g_strdup ("");
  unit = cro_rows_get_text (rows, 2);
  if (!cro_rows_is_null (rows, 0))
    pack.count = cro_rows_get_int (rows, 0);
  if (!cro_rows_is_null (rows, 1))
    pack.size = cro_rows_get_int (rows, 1);
  if (unit != NULL)
    cro_unit_parse (unit, strlen (unit), &pack.unit);
  return cro_pack_to_text (&pack);
}

/* Of the pack that the price is for. */
static char *
read_price (CroInput    *input,
            const char  *text,
            CroCell     *cell,
            char       **understood,
            gpointer     owner)
{
  const CroOffer *then = g_object_get_data (G_OBJECT (input), "then");
  const char *currency = currency_of (input);
  const CroPriceOf of = { currency, then->tax_included > 0 ? CRO_TAX_WITH : CRO_TAX_WITHOUT, TRUE, cro_pack_of (then) };
  g_auto (CroEntry) entry = { 0 };

  if (cro_text_is_not_to_be_had (text))
    return NULL;
  if (cro_entry_price (text, &of, cro_words_entry (), &entry))
    *cell = CRO_CELL_INT (entry.micro);
  *understood = g_steal_pointer (&entry.understood);
  return cro_words_price_reason (text, &entry, currency);
}

static gboolean
read_pack (CroInput       *input,
           const CroCell  *cell,
           CroPack        *pack,
           GError        **error)
{
  if (cro_pack_from_text (cell->text, (CroUnit) entry_of (input)->pack_unit, cro_words_entry (),
                          pack))
    return TRUE;
  g_set_error_literal (error, g_quark_from_static_string ("cro-price-table"), 0,
                       _("What is in a pack? For instance 5 kg."));
  return FALSE;
}

/* What the columns of the pack hold; nothing of them is text of the cell. */
static gboolean
pack_cells (CroInput       *input,
            const CroCell  *cell,
            CroCell        *cells,
            GError        **error)
{
  CroPack pack;

  cells[0] = cells[1] = cells[2] = CRO_CELL_NONE;
  if (cell->kind == CRO_CELL_NULL)
    return TRUE;
  if (!read_pack (input, cell, &pack, error))
    return FALSE;
  cells[0] = CRO_CELL_INT (pack.count);
  cells[1] = CRO_CELL_INT (pack.size);
  cells[2] = CRO_CELL_STR (cro_unit_get (pack.unit)->code);
  return TRUE;
}

static gboolean
preview_pack (CroInput       *input,
              const CroCell  *cell,
              gpointer        table,
              GError        **error)
{
  CroCell cells[3];

  return pack_cells (input, cell, cells, error)
         && cro_book_preview_row (cro_input_get_book (input), "price", cro_input_get_id (input),
                                  pack_columns, cells, error);
}

static gboolean
keep_pack (CroInput       *input,
           const CroCell  *cell,
           gpointer        table,
           GError        **error)
{
  CroCell cells[3];

  return pack_cells (input, cell, cells, error)
         && cro_edit_set (cro_input_get_book (input), cro_input_get_act (input), "price",
                          cro_input_get_id (input), pack_columns, cells, error);
}

static const CroInputWay pack_way = { dup_own_pack, preview_pack, keep_pack, FALSE, NULL };

/* --- Rows ------------------------------------------------------------------------------------- */

static void
remove_cb (CroPriceTable *self,
           gint64         id)
{
  g_autofree char *label = cro_bench_dup_label (self->bench, _("removal of a price"));
  g_autoptr (GError) error = NULL;

  if (!cro_edit_remove_price (book_of (self), label, id, &error))
    cro_bench_fail (self->bench, error);
}

/* With the digits of its currency, so that points stand under each other. */
static char *
dup_price (CroInput *input,
           gpointer  table)
{
  static const char *const columns[] = { "price_micro", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (cro_input_get_book (input)),
                                                 "price", cro_input_get_id (input), columns, NULL);

  if (rows == NULL || !cro_rows_next (rows, NULL) || cro_rows_is_null (rows, 0))
    return g_strdup ("");
  return cro_words_price_in (currency_of (input), cro_rows_get_int (rows, 0));
}

static const CroInputWay price_way = { .dup_text = dup_price };

/* Over the first of those from one supplier's pack. */
static void
show_whose (CroPriceTable *self,
            guint          row,
            const char    *whose)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  GtkWidget *above = cro_row_grid_get_above (grid, row);

  if (above == NULL && whose != NULL)
    cro_row_grid_put_above (grid, row, above = cro_text_new (NULL, NULL));
  else if (above != NULL && whose == NULL)
    cro_row_grid_put_above (grid, row, NULL);
  if (whose != NULL)
    gtk_label_set_label (GTK_LABEL (above), whose);
}

static void
add_cells (CroPriceTable *self,
           guint32        offer)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  GtkWidget *price, *tax, *pack;

  cro_row_grid_add_input (grid, CRO_INPUT_DATE, CRO_RANGE_ANY, cro_date_chars (), "from_date");
  price = cro_row_grid_add_input (grid, CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 8, "price_micro");
  g_object_set_data (G_OBJECT (price), "offer", GUINT_TO_POINTER (offer));
  cro_input_set_way (CRO_INPUT (price), &price_way, self);
  cro_input_set_read (CRO_INPUT (price), read_price);
  cro_input_set_placeholder (CRO_INPUT (price), cro_words_not_to_be_had ());
  cro_row_grid_add_figure (grid, 10);
  cro_row_grid_add_figure (grid, 7);
  pack = cro_row_grid_add_input (grid, CRO_INPUT_TEXT, CRO_RANGE_ANY, 9, "id");
  g_object_set_data (G_OBJECT (pack), "offer", GUINT_TO_POINTER (offer));
  cro_input_set_way (CRO_INPUT (pack), &pack_way, self);
  tax = cro_row_grid_add_input (grid, CRO_INPUT_PCT, CRO_RANGE_AT_LEAST_0, 4,
                                "tax_included_pct_micro");
  cro_input_set_placeholder (CRO_INPUT (tax), "0");
  cro_row_grid_add_removal (grid);
}

static void
name_cells (CroPriceTable *self,
            const char    *date)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  const struct { int column; const char *of_what; } fields[] = {
    { FROM, _("date") }, { PRICE, _("price") }, { TAX, _("tax included") }, { PACK, _("pack") },
  };
  /* Translators: %s is a date. */
  g_autofree char *removal = g_strdup_printf (_("Remove the price from %s"), date);

  for (gsize i = 0; i < G_N_ELEMENTS (fields); i++)
    {
      g_autofree char *act = cro_bench_dup_label (self->bench, fields[i].of_what);
      /* Translators: the name of a field: what it holds, and the date from which that is. */
      g_autofree char *name = g_strdup_printf (_("%s from %s"), act, date);

      cro_row_grid_name (grid, (guint) fields[i].column, act, name);
    }
  cro_row_grid_name (grid, REMOVAL, NULL, removal);
}

/* Its fields are called by the ingredient and the date. */
static void
add_row (CroPriceTable      *self,
         const CroPastPrice *price)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  g_autofree char *date = cro_date_to_text (price->offer_then.from);
  g_autofree char *name = cro_bench_dup_label (self->bench, date);

  if (cro_row_grid_add_row (grid, price->id))
    add_cells (self, price->offer);
  if (cro_row_grid_rename_row (grid, name))
    name_cells (self, date);
}

static void
add_heads (CroPriceTable *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);

  cro_row_grid_add_head (grid, _("from"), FALSE);
  cro_row_grid_add_head (grid, _("price"), TRUE);
  cro_row_grid_add_head (grid, _("per unit"), TRUE);
  cro_row_grid_add_head (grid, _("change"), TRUE);
  cro_row_grid_add_head (grid, _("pack"), FALSE);
  /* Translators: over the tax that a price includes, in per cent. */
  cro_row_grid_add_head (grid, _("tax %"), TRUE);
}

static void
show_rows (CroPriceTable *self,
           GArray        *history)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);

  cro_row_grid_begin (grid);
  if (cro_row_grid_begin_heads (grid, ""))
    add_heads (self);
  for (guint i = 0; i < MIN (history->len, self->most); i++)
    add_row (self, &g_array_index (history, CroPastPrice, i));
  cro_row_grid_end (grid);
  cro_row_grid_refresh (grid);
}

static void
refresh_row (CroPriceTable      *self,
             CroModel           *model,
             guint               row,
             const CroPastPrice *price)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  CroPack pack = pack_of (cro_model_offer (model, price->offer));
  g_autofree char *of_offer = cro_pack_to_text (&pack);
  g_autofree char *unit_cost = dup_unit_cost (model, price);
  g_autofree char *change = cro_words_change (price->change_pct);

  g_object_set_data_full (G_OBJECT (cro_row_grid_get (grid, row, PRICE)), "then",
                          g_memdup2 (&price->offer_then, sizeof price->offer_then), g_free);
  cro_input_set_placeholder (CRO_INPUT (cro_row_grid_get (grid, row, PACK)), of_offer);
  cro_row_grid_set_text (grid, row, UNIT_COST, unit_cost);
  cro_row_grid_set_text (grid, row, CHANGE, change);
}

/* --- A new price from a date ------------------------------------------------------------------ */

static void
add_cb (CroPriceTable *self)
{
  CroEntryForm *form = CRO_ENTRY_FORM (self->form);
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->offers));
  g_autofree char *label = cro_bench_dup_label (self->bench, _("price"));
  g_autoptr (GError) error = NULL;
  g_auto (CroEntry) price = { 0 };
  CroModel *model = cro_book_get_model (book_of (self));
  CroDate date = cro_book_get_figures (book_of (self))->date;
  CroPack pack;
  guint32 offer;

  cro_entry_form_accept (form);
  if (at >= self->choices->len)
    return;
  offer = g_array_index (self->choices, guint32, at);
  pack = cro_pack_in_force (model, offer);
  if (cro_text_is_not_to_be_had (cro_entry_form_text (self->price)))
    price.micro = CRO_NOT_SET;
  else if (!cro_pack_read_price (model, offer, &pack, cro_entry_form_text (self->price),
                                 cro_words_entry (), &price))
    {
      g_autofree char *reason = cro_words_price_reason (cro_entry_form_text (self->price), &price,
                                                        cro_model_currency_of (model, offer));

      cro_entry_form_refuse (form, self->price, reason != NULL ? reason : _("Type a price."));
      return;
    }
  if (!cro_entry_form_date (form, self->from, &date))
    return;
  if (cro_edit_set_price (book_of (self), label, offer, date, price.micro, &error))
    cro_entry_form_clear (form);
  else
    cro_bench_fail (self->bench, error);
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
  gtk_widget_set_visible (self->form, item->n_offers > 0);
}

static void
put_typed_pack (CroPriceTable *self,
                guint          row,
                CroPastPrice  *price)
{
  CroInput *input = CRO_INPUT (cro_row_grid_get (CRO_ROW_GRID (self->grid), row, PACK));
  CroPack pack = pack_of (entry_of (input));
  gboolean is_own = *cro_input_get_text (input) != '\0';

  if (!cro_input_is_edited (input)
      || (is_own && !cro_pack_from_text (cro_input_get_text (input), pack.unit, cro_words_entry (), &pack)))
    return;
  price->has_own_count = price->has_own_size = price->has_own_unit = price->has_own_pack = is_own;
  price->offer_then.pack_count = pack.count;
  price->offer_then.pack_size = pack.size;
  price->offer_then.pack_unit = pack.unit;
}

/* With what is typed into its rows, and not kept: a key previews the row as it does all figures. */
static GArray *
dup_as_typed (CroPriceTable *self,
              CroModel      *model,
              GArray        *history)
{
  GArray *typed = g_array_copy (history);

  for (guint i = 0; i < MIN (typed->len, self->most); i++)
    {
      CroPastPrice *price = &g_array_index (typed, CroPastPrice, i);
      CroRowGrid *grid = CRO_ROW_GRID (self->grid);
      CroCell cell;

      if (cro_input_read (CRO_INPUT (cro_row_grid_get (grid, i, PRICE)), &cell))
        {
          price->offer_then.has_price = cell.kind == CRO_CELL_INTEGER;
          price->offer_then.price = cell.kind == CRO_CELL_INTEGER ? cell.integer : 0;
        }
      if (cro_input_read (CRO_INPUT (cro_row_grid_get (grid, i, TAX)), &cell))
        price->offer_then.tax_included = cell.kind == CRO_CELL_INTEGER ? cell.integer : 0;
      put_typed_pack (self, i, price);
    }
  cro_price_history_cost (model, typed);
  return typed;
}

void
cro_price_table_refresh (CroPriceTable *self,
                         GArray        *history)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  g_autofree char *today = cro_date_to_text (figures->date);
  g_autofree char *says = cro_price_plot_set (CRO_PLOT (self->plot), figures,
                                              cro_bench_get_slot (self->bench), history);
  g_autoptr (GArray) typed = NULL;

  set_choices (self);
  gtk_label_set_label (GTK_LABEL (self->says), says);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->from), today);
  show_rows (self, history);
  typed = dup_as_typed (self, figures->model, history);
  for (guint i = 0; i < MIN (typed->len, self->most); i++)
    {
      const CroPastPrice *price = &g_array_index (typed, CroPastPrice, i);
      g_autofree char *whose = i == 0 || price[-1].offer != price->offer ? dup_whose (figures->model, price->offer)
                                                                         : NULL;

      refresh_row (self, figures->model, i, price);
      show_whose (self, i, whose);
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
  cro_entry_form_clear (CRO_ENTRY_FORM (self->form));
  gtk_widget_set_visible (self->form, FALSE);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
make_form (CroPriceTable *self)
{
  CroEntryForm *form;

  self->form = cro_entry_form_new (_("Set Price"));
  form = CRO_ENTRY_FORM (self->form);
  self->offers = cro_drop_down_new (NULL, _("Pack of"));
  cro_entry_form_add_control (form, _("Pack of"), self->offers);
  self->price = cro_entry_form_add (form, _("New price"), _("New price per pack"), 9, NULL);
  gtk_widget_set_tooltip_text (self->price, _("A dash, “-”: not to be had from that day on"));
  self->from = cro_entry_form_add (form, _("From"), _("From"), cro_date_chars (), NULL);
  g_signal_connect_object (self->form, "entered", G_CALLBACK (add_cb), self, G_CONNECT_SWAPPED);
}

static void
cro_price_table_dispose (GObject *object)
{
  CroPriceTable *self = CRO_PRICE_TABLE (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
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
  self->choices = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->most = AT_ONCE;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_price_table_new (CroBench *bench)
{
  CroPriceTable *self = g_object_new (CRO_TYPE_PRICE_TABLE, NULL);
  GtkWidget *over = cro_wrap_new (18, 6), *beside = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);

  self->bench = bench;
  self->plot = cro_plot_new (CRO_PLOT_STEPS);
  self->says = cro_text_new (NULL, NULL);
  gtk_label_set_max_width_chars (GTK_LABEL (self->says), 24);
  make_form (self);
  self->grid = cro_row_grid_new (bench, "price", self->from);
  g_signal_connect_object (self->grid, "remove", G_CALLBACK (remove_cb), self, G_CONNECT_SWAPPED);
  self->older = gtk_button_new_with_label (_("Older Prices"));
  gtk_widget_set_halign (self->older, GTK_ALIGN_START);
  g_signal_connect_object (self->older, "clicked", G_CALLBACK (older_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (beside), self->form);
  /* It grows with the first prices: below the fields in use, and asking for no width of its own. */
  gtk_box_append (GTK_BOX (beside), self->says);
  cro_wrap_append (CRO_WRAP (over), self->plot);
  cro_wrap_append (CRO_WRAP (over), beside);
  gtk_box_append (GTK_BOX (self->box), over);
  gtk_box_append (GTK_BOX (self->box), self->grid);
  gtk_box_append (GTK_BOX (self->box), self->older);
  return GTK_WIDGET (self);
}
