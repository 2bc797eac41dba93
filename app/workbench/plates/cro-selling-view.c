#include "config.h"

#include "cro-selling-view.h"

#include <glib/gi18n.h>

#include "cro-answer-buttons.h"
#include "cro-dated-fields.h"
#include "cro-day-entry.h"
#include "cro-edit.h"
#include "cro-folded.h"
#include "cro-input.h"
#include "cro-kind.h"
#include "cro-not-set.h"
#include "cro-number.h"
#include "cro-row-grid.h"
#include "cro-selling-doubt.h"
#include "cro-sentence.h"
#include "cro-words.h"

/* Of the undated price, which no row of the table of dated ones has. */
#define UNDATED 0

struct _CroSellingView
{
  GtkWidget  parent_instance;

  GtkWidget *expander;
  GtkWidget *grid;

  CroBench  *bench;    /* borrowed, as the fields */
  GtkWidget *from;
  GtkWidget *price;
  GtkWidget *tax;
  GtkWidget *answers;
  gboolean   is_set;
  char      *question; /* about the price on the book's date; NULL: none */
  guint64    edition;  /* of the book when the steps were read; 0: they were not */

  CroSellingStep held; /* on the book's date, as it was read at an edition, of a thing */
  guint64    held_edition;
  CroRef     held_of;
};

G_DEFINE_FINAL_TYPE (CroSellingView, cro_selling_view, GTK_TYPE_WIDGET)

enum
{
  FROM,
  PRICE,
  TAX,
  REMOVAL,
};

static CroBook *
book_of (CroSellingView *self)
{
  return cro_bench_get_book (self->bench);
}

static CroDate
date_of (CroSellingView *self)
{
  return cro_book_get_figures (book_of (self))->date;
}

static const char *
table_of (CroSellingView *self)
{
  return cro_bench_get_ref (self->bench).kind == CRO_REF_MENU ? "menu" : "plate";
}

static gint64
id_of (CroSellingView *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  CroRef ref = cro_bench_get_ref (self->bench);

  return ref.kind == CRO_REF_MENU ? cro_model_menu (model, ref.slot)->id
                                  : cro_model_recipe (model, ref.slot)->id;
}

/* --- What is stored ------------------------------------------------------------------------------ */

/* The undated price and tax, as the store has them: the model may hold what is being typed. */
static CroSellingStep
read_own (CroSellingView *self)
{
  static const char *const columns[] = { "price_micro", "tax_pct_micro", NULL };
  CroSellingStep own = { UNDATED, CRO_NO_DATE, CRO_NOT_SET, CRO_NOT_SET };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book_of (self)),
                                                 table_of (self), id_of (self), columns, NULL);

  if (rows == NULL || !cro_rows_next (rows, NULL))
    return own;
  if (!cro_rows_is_null (rows, 0))
    own.price = cro_rows_get_int (rows, 0);
  if (!cro_rows_is_null (rows, 1))
    own.tax = cro_rows_get_int (rows, 1);
  return own;
}

static CroSellingStep
read_held (CroSellingView *self)
{
  g_autoptr (GArray) steps = cro_selling_steps_new (book_of (self),
                                                    cro_bench_get_ref (self->bench), NULL);
  const CroSellingStep *step = cro_selling_step_on (steps, date_of (self));
  CroSellingStep own = read_own (self), held = step != NULL ? *step : own;

  if (held.tax == CRO_NOT_SET)
    held.tax = own.tax;
  return held;
}

/* What holds on the book's date: the id tells of which row. Keys that are typed move it not. */
static CroSellingStep
held_step (CroSellingView *self)
{
  if (self->held_edition != cro_book_get_edition (book_of (self))
      || !cro_ref_equal (self->held_of, cro_bench_get_ref (self->bench)))
    self->held = read_held (self);
  self->held_edition = cro_book_get_edition (book_of (self));
  self->held_of = cro_bench_get_ref (self->bench);
  return self->held;
}

static void
look_at_held (CroInput *input,
              gpointer  view)
{
  CroSellingView *self = view;
  CroSellingStep held = held_step (self);

  if (held.id != UNDATED)
    cro_book_look_at (book_of (self), "selling_price", held.id, NULL);
}

/* --- Fields -------------------------------------------------------------------------------------- */

static gboolean
is_price (CroSellingView *self,
          CroInput       *input)
{
  return input == CRO_INPUT (self->price);
}

static char *
dup_held (CroInput *input,
          gpointer  view)
{
  CroSellingView *self = view;
  CroSellingStep held = held_step (self);
  gint64 value = is_price (self, input) ? held.price : held.tax;

  if (value == CRO_NOT_SET)
    return g_strdup ("");
  return is_price (self, input) ? cro_words_price (cro_book_get_model (book_of (self)), value)
                                : cro_words_decimal (value);
}

/* Where the price that is typed goes away the dated tax has none to be in, and shows nothing. */
static gboolean
preview_held (CroInput       *input,
              const CroCell  *cell,
              gpointer        view,
              GError        **error)
{
  CroSellingView *self = view;
  CroSellingStep held = held_step (self);
  gboolean is_dated = held.id != UNDATED;

  return cro_book_preview (book_of (self), is_dated ? "selling_price" : table_of (self),
                           is_dated ? held.id : id_of (self),
                           is_price (self, input) ? "price_micro" : "tax_pct_micro", cell, error);
}

static gboolean
keep_held (CroInput       *input,
           const CroCell  *cell,
           gpointer        view,
           GError        **error)
{
  CroSellingView *self = view;
  CroRef ref = cro_bench_get_ref (self->bench);
  gint64 value = cro_cell_number (cell);
  CroDate from;
  gboolean is_kept;

  if (!cro_dated_fields_read (self->from, &from, error))
    return FALSE;
  is_kept = is_price (self, input)
                ? cro_edit_set_selling_price (book_of (self), cro_input_get_act (input), ref, from,
                                              value, error)
                : cro_edit_set_selling_tax (book_of (self), cro_input_get_act (input), ref, from,
                                            value, error);
  if (is_kept)
    cro_dated_fields_kept (self->from, from, cro_input_get_act (input), cro_input_get_text (input));
  return is_kept;
}

/* As it was read with the steps: a key asks nothing. */
static char *
ask_of_price (CroInput *input,
              gpointer  view)
{
  return g_strdup (((CroSellingView *) view)->question);
}

/* The field has the price in force; one that is past is asked about on the card. */
static void
read_question (CroSellingView *self,
               GArray         *steps)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *question = NULL;
  CroDoubt doubt;
  gboolean asks = steps != NULL
                  && cro_doubt_of_selling (book_of (self), cro_bench_get_ref (self->bench), steps, date_of (self),
                                           &doubt)
                  && !doubt.is_past;

  g_clear_pointer (&self->question, g_free);
  if (asks)
    question = cro_words_doubt_at (model, &doubt);
  self->question = cro_sentence_alone (question);
  cro_answer_buttons_set (CRO_ANSWER_BUTTONS (self->answers), self->bench, asks ? &doubt : NULL, self->price);
}

static const CroInputWay held_way = { dup_held, preview_held, keep_held, FALSE, look_at_held };

/* --- Steps --------------------------------------------------------------------------------------- */

static void
remove_cb (CroSellingView *self,
           gint64          id)
{
  g_autofree char *label = cro_bench_dup_label (self->bench, _("removal of a price"));
  g_autoptr (GError) error = NULL;

  if (!cro_edit_remove_selling_price (book_of (self), label, id, &error))
    cro_bench_fail (self->bench, error);
}

/* No price has no tax in it. */
static gboolean
keep_step_price (CroInput       *input,
                 const CroCell  *cell,
                 gpointer        view,
                 GError        **error)
{
  static const char *const both[] = { "price_micro", "tax_pct_micro", NULL };
  static const char *const price[] = { "price_micro", NULL };
  CroCell cells[] = { *cell, CRO_CELL_NONE };

  return cro_edit_set (cro_input_get_book (input), cro_input_get_act (input), "selling_price",
                       cro_input_get_id (input), cell->kind == CRO_CELL_NULL ? both : price, cells,
                       error);
}

static gboolean
has_price (CroBook *book,
           gint64   id)
{
  static const char *const columns[] = { "price_micro", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), "selling_price", id,
                                                 columns, NULL);

  return rows != NULL && cro_rows_next (rows, NULL) && !cro_rows_is_null (rows, 0);
}

static gboolean
keep_step_tax (CroInput       *input,
               const CroCell  *cell,
               gpointer        view,
               GError        **error)
{
  static const char *const columns[] = { "tax_pct_micro", NULL };
  CroBook *book = cro_input_get_book (input);

  if (cell->kind != CRO_CELL_NULL && !has_price (book, cro_input_get_id (input)))
    {
      g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_NO_PRICE, "no price in that row");
      return FALSE;
    }
  return cro_edit_set (book, cro_input_get_act (input), "selling_price", cro_input_get_id (input),
                       columns, cell, error);
}

static const CroInputWay step_price_way = { .keep = keep_step_price };
static const CroInputWay step_tax_way = { .keep = keep_step_tax };

static void
name_cell (CroSellingView *self,
           guint           column,
           const char     *of_what,
           const char     *date)
{
  g_autofree char *act = cro_bench_dup_label (self->bench, of_what);
  /* Translators: the name of a field: what it holds, and the date from which that is; or before all
   * dated prices. */
  g_autofree char *name = date != NULL ? g_strdup_printf (_("%s from %s"), act, date)
                                       : g_strdup_printf (_("%s before the first date"), act);

  cro_row_grid_name (CRO_ROW_GRID (self->grid), column, act, name);
}

static void
add_step_cells (CroSellingView *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  GtkWidget *price, *tax;

  cro_row_grid_add_input (grid, CRO_INPUT_DATE, CRO_RANGE_ANY, cro_date_chars (), "from_date");
  price = cro_row_grid_add_input (grid, CRO_INPUT_SELLING_PRICE, CRO_RANGE_AT_LEAST_0, 9, "price_micro");
  cro_input_set_way (CRO_INPUT (price), &step_price_way, self);
  cro_input_set_placeholder (CRO_INPUT (price), _("none"));
  tax = cro_row_grid_add_input (grid, CRO_INPUT_PCT, CRO_RANGE_AT_LEAST_0, 5, "tax_pct_micro");
  cro_input_set_way (CRO_INPUT (tax), &step_tax_way, self);
  cro_row_grid_add_removal (grid);
}

/* Its fields are called by what stands on the bench, and by their date. */
static void
add_step (CroSellingView       *self,
          const CroSellingStep *step)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  g_autofree char *date = cro_date_to_text (step->from);
  g_autofree char *name = cro_bench_dup_label (self->bench, date);
  /* Translators: %s is a date. */
  g_autofree char *removal = g_strdup_printf (_("Remove the price from %s"), date);

  if (cro_row_grid_add_row (grid, step->id))
    add_step_cells (self);
  if (!cro_row_grid_rename_row (grid, name))
    return;
  name_cell (self, FROM, _("date"), date);
  name_cell (self, PRICE, _("price"), date);
  name_cell (self, TAX, _("tax"), date);
  cro_row_grid_name (grid, REMOVAL, NULL, removal);
}

/* A field of the undated price, which stands in another table. */
static void
add_own_input (CroSellingView *self,
               CroInputKind    kind,
               int             width,
               const char     *column)
{
  GtkWidget *input = cro_input_new (kind, CRO_RANGE_AT_LEAST_0, "");

  cro_input_set_width (CRO_INPUT (input), width);
  cro_input_bind (CRO_INPUT (input), book_of (self), table_of (self), id_of (self), column, "",
                  kind == CRO_INPUT_SELLING_PRICE ? _("none") : NULL);
  cro_row_grid_add (CRO_ROW_GRID (self->grid), input);
}

static void
add_undated (CroSellingView *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  g_autofree char *name = cro_bench_dup_label (self->bench, "");

  if (cro_row_grid_add_row (grid, UNDATED))
    {
      cro_row_grid_add_label (grid, FALSE);
      add_own_input (self, CRO_INPUT_SELLING_PRICE, 9, "price_micro");
      add_own_input (self, CRO_INPUT_PCT, 5, "tax_pct_micro");
    }
  if (!cro_row_grid_rename_row (grid, name))
    return;
  name_cell (self, PRICE, _("price"), NULL);
  name_cell (self, TAX, _("tax"), NULL);
}

static void
add_heads (CroSellingView *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);

  cro_row_grid_add_head (grid, _("from"), FALSE);
  cro_row_grid_add_head (grid, _("price with tax"), TRUE);
  cro_row_grid_add_head (grid, _("tax %"), TRUE);
}

/* --- Showing ------------------------------------------------------------------------------------- */

/* The undated row is that of what stands on the bench: of another all rows are made anew. */
static void
show_rows (CroSellingView *self,
           GArray         *steps)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  g_autofree char *key = g_strdup_printf ("%s %" G_GINT64_FORMAT, table_of (self), id_of (self));

  cro_row_grid_begin (grid);
  if (cro_row_grid_begin_heads (grid, key))
    add_heads (self);
  for (guint i = 0; i < steps->len; i++)
    add_step (self, &g_array_index (steps, CroSellingStep, i));
  add_undated (self);
  cro_row_grid_end (grid);
  cro_row_grid_refresh (grid);
  /* Translators: of a price: what held before the first date of the list. */
  cro_row_grid_set_text (grid, steps->len, FROM, _("before"));
}

static void
append_step (CroSellingView *self,
             GString        *text,
             gint64          price,
             const char     *date)
{
  g_autofree char *money = NULL;

  if (price == CRO_NOT_SET)
    {
      /* Translators: of selling prices, where one ends and none follows; a date. */
      g_string_append_printf (text, _("no price from %s on"), date);
      return;
    }
  money = cro_words_price (cro_book_get_model (book_of (self)), price);
  /* Translators: a selling price, and the date from which it holds. */
  g_string_append_printf (text, _("%s from %s"), money, date);
}

/* Where the list is closed too the steps are in sight: "Prices: 66.00 from 1 Dec · before 62.00". Owned. */
static char *
dup_steps (CroSellingView *self,
           GArray         *steps,
           gint64          own)
{
  g_autofree char *before
      = own != CRO_NOT_SET ? cro_words_price (cro_book_get_model (book_of (self)), own) : NULL;
  g_autoptr (GString) text = g_string_new (_("Prices:"));

  if (steps->len == 0)
    {
      if (own == CRO_NOT_SET)
        return g_strdup (_("No price yet"));
      g_string_append_printf (text, " %s", before);
      return g_strdup (text->str);
    }

  for (guint i = 0; i < steps->len && i < 3; i++)
    {
      const CroSellingStep *step = &g_array_index (steps, CroSellingStep, i);
      g_autofree char *date = cro_date_to_text (step->from);

      g_string_append (text, i > 0 ? " · " : " ");
      append_step (self, text, step->price, date);
    }
  if (steps->len > 3)
    g_string_append (text, " …");
  if (own != CRO_NOT_SET)
    {
      g_string_append (text, " · ");
      /* Translators: the selling price before the first date of a list. */
      g_string_append_printf (text, _("before %s"), before);
    }
  return g_strdup (text->str);
}

void
cro_selling_view_refresh (CroSellingView *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) steps = NULL;
  g_autofree char *says = NULL;
  CroSellingStep own;

  cro_day_entry_show (self->from, book_of (self));
  if (self->edition == cro_book_get_edition (book_of (self)))
    return;
  self->edition = cro_book_get_edition (book_of (self));
  steps = cro_selling_steps_new (book_of (self), cro_bench_get_ref (self->bench), &error);
  own = read_own (self);
  read_question (self, steps);
  cro_input_refresh (CRO_INPUT (self->price));
  cro_input_refresh (CRO_INPUT (self->tax));
  if (steps == NULL)
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  show_rows (self, steps);
  says = dup_steps (self, steps, own.price);
  cro_folded_set_label (self->expander, says);
  self->is_set = steps->len > 0 || own.price != CRO_NOT_SET;
}

static void
bind (CroSellingView *self,
      GtkWidget      *input,
      const char     *column,
      const char     *of_what,
      const char     *placeholder)
{
  g_autofree char *act = cro_bench_dup_label (self->bench, of_what);

  cro_input_set_way (CRO_INPUT (input), &held_way, self);
  cro_input_bind (CRO_INPUT (input), book_of (self), table_of (self), id_of (self), column, act,
                  placeholder);
}

void
cro_selling_view_put (CroSellingView *self,
                      const char     *unpriced)
{
  gint64 tax = cro_book_get_model (book_of (self))->tax;
  g_autofree char *of_book = tax == CRO_NOT_SET ? g_strdup ("?") : cro_words_decimal (tax);

  self->edition = 0;
  g_clear_pointer (&self->question, g_free);
  gtk_editable_set_text (GTK_EDITABLE (self->from), "");
  gtk_expander_set_expanded (GTK_EXPANDER (self->expander), FALSE);
  bind (self, self->price, "price_micro", _("price"), unpriced);
  bind (self, self->tax, "tax_pct_micro", _("tax"), of_book);
}

gboolean
cro_selling_view_is_set (CroSellingView *self)
{
  return self->is_set;
}

/* --- The widget ---------------------------------------------------------------------------------- */

static void
cro_selling_view_dispose (GObject *object)
{
  g_clear_pointer (&CRO_SELLING_VIEW (object)->expander, gtk_widget_unparent);
  g_clear_pointer (&CRO_SELLING_VIEW (object)->question, g_free);
  G_OBJECT_CLASS (cro_selling_view_parent_class)->dispose (object);
}

static void
cro_selling_view_class_init (CroSellingViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_selling_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_selling_view_init (CroSellingView *self)
{
}

GtkWidget *
cro_selling_view_new (CroBench  *bench,
                      GtkWidget *from,
                      GtkWidget *price,
                      GtkWidget *tax)
{
  CroSellingView *self = g_object_new (CRO_TYPE_SELLING_VIEW, NULL);

  self->bench = bench;
  self->from = from;
  self->price = price;
  self->tax = tax;
  self->grid = cro_row_grid_new (bench, "selling_price", from);
  self->expander = cro_folded_new (self->grid);
  gtk_widget_set_parent (self->expander, GTK_WIDGET (self));
  cro_input_set_ask (CRO_INPUT (price), ask_of_price);
  cro_input_ask_always (CRO_INPUT (price));
  self->answers = cro_answer_buttons_new ();
  cro_input_put_answer (CRO_INPUT (price), self->answers);
  cro_dated_fields_begin (bench, from, (GtkWidget *const[]){ price, tax, NULL });
  cro_dated_fields_tell (from);
  g_signal_connect_object (self->grid, "remove", G_CALLBACK (remove_cb), self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}
