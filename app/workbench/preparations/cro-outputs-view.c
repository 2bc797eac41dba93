#include "config.h"

#include "cro-outputs-view.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-bench-actions.h"
#include "cro-choice.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-entry-form.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-new-name.h"
#include "cro-past-words.h"
#include "cro-reach.h"
#include "cro-read-only.h"
#include "cro-refused-words.h"
#include "cro-row-grid.h"
#include "cro-words-price.h"
#include "cro-words.h"

struct _CroOutputsView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *grid;
  GtkWidget *form;
  GtkWidget *name;      /* of a new by-product */

  CroBench  *bench;     /* borrowed */
};

G_DEFINE_FINAL_TYPE (CroOutputsView, cro_outputs_view, GTK_TYPE_WIDGET)

enum
{
  NAME,
  AMOUNT,
  UNIT,
  YIELD,
  VALUE,
  UP,
  ROLE,         /* the first below */
  DENSITY,
  LOST,
  PIECE,
  COSTS,
  REMOVAL,      /* under the other button: names have the room */
};

/* In characters: of a name so much is read before the table gives way. */
#define LEAST_NAME 20
#define SHORT_NAME 12

static CroBook *
book_of (CroOutputsView *self)
{
  return cro_bench_get_book (self->bench);
}

/* An output has the id of its item. */
static guint32
item_of_id (CroBook *book,
            gint64   id)
{
  return cro_slots_get (&cro_book_get_model (book)->item_slots, id);
}

static guint32
item_of (CroInput *input)
{
  return item_of_id (cro_input_get_book (input), cro_input_get_id (input));
}

/* --- Finished amounts: weighed, or a yield ---------------------------------------------------- */

static CroUnit
unit_of (CroInput *input)
{
  return cro_model_item (cro_book_get_model (cro_input_get_book (input)), item_of (input))->output.unit;
}

/* One of them takes the other's place, in the same act. The unit is said with it, as an amount
 * needs one. */
static gboolean
keep_in_place_of (CroInput       *input,
                  const char     *column,
                  const char     *other,
                  CroUnit         unit,
                  const CroCell  *cell,
                  GError        **error)
{
  const char *columns[] = { column, other, "unit", NULL };
  CroCell cells[] = { *cell, CRO_CELL_NONE, CRO_CELL_STR (cro_unit_get (unit)->code) };

  if (cell->kind == CRO_CELL_NULL)
    columns[1] = NULL;
  return cro_edit_set (cro_input_get_book (input), cro_input_get_act (input), "output",
                       cro_input_get_id (input), columns, cells, error);
}

/* In the unit of the output; one of another kind that is typed behind the number takes its place, as in a line. */
static void
read_entry (CroInput   *input,
            const char *text,
            CroEntry   *entry)
{
  CroUnit unit = unit_of (input);

  if (!cro_entry_amount (text, unit, CRO_RANGE_ABOVE_0, cro_words_entry (), entry)
      && entry->status == CRO_ENTRY_OTHER_UNIT)
    {
      unit = entry->unit;
      cro_entry_clear (entry);
      cro_entry_amount (text, unit, CRO_RANGE_ABOVE_0, cro_words_entry (), entry);
    }
  entry->unit = unit;
}

static char *
read_amount (CroInput    *input,
             const char  *text,
             CroCell     *cell,
             char       **understood,
             gpointer     view)
{
  g_auto (CroEntry) entry = { 0 };

  read_entry (input, text, &entry);
  if (entry.status == CRO_ENTRY_OK)
    *cell = CRO_CELL_INT (entry.micro);
  *understood = g_steal_pointer (&entry.understood);
  return cro_words_entry_reason (text, &entry);
}

static CroUnit
typed_unit (CroInput *input)
{
  g_auto (CroEntry) entry = { 0 };

  read_entry (input, cro_input_get_text (input), &entry);
  return entry.unit;
}

/* What another unit moves is shown once it is kept. */
static gboolean
preview_amount (CroInput       *input,
                const CroCell  *cell,
                gpointer        view,
                GError        **error)
{
  CroBook *book = cro_input_get_book (input);

  if (typed_unit (input) == unit_of (input))
    return cro_book_preview (book, "output", cro_input_get_id (input), "amount_micro", cell, error);
  cro_book_restore (book, NULL);
  return TRUE;
}

static gboolean
keep_amount (CroInput       *input,
             const CroCell  *cell,
             gpointer        view,
             GError        **error)
{
  return keep_in_place_of (input, "amount_micro", "yield_pct_micro", typed_unit (input), cell, error);
}

static gboolean
keep_yield (CroInput       *input,
            const CroCell  *cell,
            gpointer        view,
            GError        **error)
{
  return keep_in_place_of (input, "yield_pct_micro", "amount_micro", unit_of (input), cell, error);
}

static const CroInputWay amount_way = { .preview = preview_amount, .keep = keep_amount };
static const CroInputWay yield_way = { .keep = keep_yield };

/* --- Names ------------------------------------------------------------------------------------ */

static char *
dup_name (CroInput *input,
          gpointer  view)
{
  return g_strdup (cro_model_item (cro_book_get_model (cro_input_get_book (input)),
                                   item_of (input))->name);
}

static gboolean
keep_name (CroInput       *input,
           const CroCell  *cell,
           gpointer        view,
           GError        **error)
{
  CroBook *book = cro_input_get_book (input);
  const char *name = cell->text != NULL ? cell->text : "";
  GError *failed = NULL;

  if (cro_edit_rename (book, cro_input_get_act (input), CRO_REF (CRO_REF_ITEM, item_of (input)), name, &failed))
    return TRUE;
  cro_new_name_refuse (book, name, failed, error);
  return FALSE;
}

static char *
tell_name (CroInput      *input,
           const CroCell *cell,
           gpointer       view)
{
  CroBook *book = cro_input_get_book (input);
  CroRef own = CRO_REF (CRO_REF_ITEM, item_of (input)), bearer;
  const char *name = cell->text != NULL ? cell->text : "";

  bearer = cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_ITEMS, name);
  if (bearer.kind == CRO_REF_NONE || cro_ref_equal (bearer, own))
    return cro_new_name_tell (input, own, name);
  return cro_new_name_tell_refused (book, bearer);
}

static void
show_name (CroInput      *input,
           const CroCell *cell,
           gpointer       view)
{
  cro_new_name_show (input, CRO_REF (CRO_REF_ITEM, item_of (input)), cell->text != NULL ? cell->text : "");
}

static void
look_name (CroInput *input,
           gpointer  view)
{
  cro_new_name_look (input, CRO_REF (CRO_REF_ITEM, item_of (input)));
}

static const CroInputWay name_way = { dup_name, cro_input_preview_nothing, keep_name, FALSE, look_name };

/* --- Acts ------------------------------------------------------------------------------------- */

static void
remove_cb (CroOutputsView *self,
           gint64          id)
{
  cro_bench_remove_ref (self->bench, CRO_REF (CRO_REF_ITEM, item_of_id (book_of (self), id)));
}

static void
make_main_cb (CroOutputsView *self,
              GtkWidget      *button)
{
  guint32 item = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "item"));
  g_autofree char *label = cro_bench_dup_label (self->bench, _("main output"));
  g_autoptr (GError) error = NULL;

  gtk_widget_grab_focus (button);
  if (!cro_edit_make_main (book_of (self), label, cro_bench_get_slot (self->bench), item, &error))
    cro_bench_fail (self->bench, error);
}

/* Its amount is what is typed next. */
static void
focus_last (CroOutputsView *self)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (cro_book_get_figures (book_of (self)),
                                   cro_bench_get_slot (self->bench), &outputs);
  GtkWidget *amount = n > 0 ? cro_row_grid_get (CRO_ROW_GRID (self->grid), n - 1, AMOUNT) : NULL;

  if (amount == NULL || !gtk_widget_grab_focus (amount))
    gtk_widget_grab_focus (self->name);
}

static void
add_cb (CroOutputsView *self)
{
  CroEntryForm *form = CRO_ENTRY_FORM (self->form);
  const char *name = cro_entry_form_text (self->name);
  g_autofree char *label = cro_bench_dup_label (self->bench, _("by-product"));
  g_autoptr (GError) error = NULL;
  GError *failed = NULL;

  cro_entry_form_accept (form);
  if (!cro_edit_add_output (book_of (self), label, cro_bench_get_slot (self->bench), name, 0,
                            CRO_UNIT_G, NULL, &failed))
    {
      g_autofree char *message = NULL;

      cro_new_name_refuse (book_of (self), name, failed, &error);
      message = cro_words_refused_name (error);
      cro_entry_form_refuse (form, self->name, message);
      return;
    }
  cro_entry_form_clear (form);
  /* Its row is there once the act is told. */
  cro_book_tell (book_of (self));
  focus_last (self);
}

/* --- Rows ------------------------------------------------------------------------------------- */

static void
add_unit (CroOutputsView *self,
          const CroItem  *item)
{
  GtkWidget *unit = cro_choice_new_unit ("", 7);

  cro_choice_bind (CRO_CHOICE (unit), book_of (self), "output", item->id, "unit", "");
  cro_row_grid_add (CRO_ROW_GRID (self->grid), unit);
}

/* --- Values ----------------------------------------------------------------------------------- */

/* Money for one unit that the output is written in; on the screen for a kg, a litre or a piece, as all prices. */
static CroUnit
shown_unit (CroInput *input)
{
  CroBase base = cro_unit_get (unit_of (input))->base;

  return base == CRO_BASE_GRAM ? CRO_UNIT_KG : base == CRO_BASE_MILLILITRE ? CRO_UNIT_L : CRO_UNIT_EACH;
}

static double
base_units_of (CroUnit unit)
{
  return (double) cro_unit_get (unit)->numerator / (double) cro_unit_get (unit)->denominator;
}

/* What is more exact than anybody types came of another unit. */
static char *
dup_value (CroInput *input,
           gpointer  view)
{
  static const char *const columns[] = { "value_micro", NULL };
  CroBook *book = cro_input_get_book (input);
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), "output", cro_input_get_id (input),
                                                 columns, NULL);
  CroUnit shown = shown_unit (input);
  g_autofree char *price = NULL;
  double micro;

  if (rows == NULL || !cro_rows_next (rows, NULL) || cro_rows_is_null (rows, 0))
    return g_strdup ("");
  micro = (double) cro_rows_get_int (rows, 0) * base_units_of (shown) / base_units_of (unit_of (input));
  price = cro_words_price (cro_book_get_model (book), (gint64) llround (micro / 100) * 100);
  return shown != CRO_UNIT_EACH ? cro_words_per_base (cro_unit_get (shown)->base, price) : g_steal_pointer (&price);
}

static char *
read_value (CroInput    *input,
            const char  *text,
            CroCell     *cell,
            char       **understood,
            gpointer     owner)
{
  CroModel *model = cro_book_get_model (cro_input_get_book (input));
  const CroPriceOf of = { model->currency, CRO_TAX_WITHOUT, FALSE, { CRO_MICRO, CRO_MICRO, unit_of (input) } };
  g_auto (CroEntry) entry = { 0 };
  gboolean is_read = cro_entry_price (text, &of, cro_words_entry (), &entry);

  /* A number alone is in the unit that is shown. */
  if (is_read && !entry.has_unit)
    {
      g_autofree char *with_unit = g_strdup_printf ("%s/%s", text, cro_unit_get (shown_unit (input))->code);

      cro_entry_clear (&entry);
      is_read = cro_entry_price (with_unit, &of, cro_words_entry (), &entry);
      /* What is wrong now is its size: of all that was typed. */
      entry.start = 0;
      entry.end = strlen (text);
    }
  if (is_read)
    *cell = CRO_CELL_INT (entry.micro);
  *understood = g_steal_pointer (&entry.understood);
  return cro_words_price_reason (text, &entry, model->currency);
}

static const CroInputWay value_way = { .dup_text = dup_value };

static void
add_cells (CroOutputsView *self,
           guint32         slot)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  GtkWidget *input, *up = cro_icon_button_new ("go-up-symbolic", "");

  input = cro_row_grid_add_input (grid, CRO_INPUT_TEXT, CRO_RANGE_ANY, 28, "id");
  cro_input_set_way (CRO_INPUT (input), &name_way, self);
  cro_input_set_tell (CRO_INPUT (input), tell_name);
  cro_input_set_show (CRO_INPUT (input), show_name);
  input = cro_row_grid_add_input (grid, CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 6, "amount_micro");
  cro_input_set_way (CRO_INPUT (input), &amount_way, self);
  cro_input_set_read (CRO_INPUT (input), read_amount);
  add_unit (self, cro_model_item (cro_book_get_model (book_of (self)), slot));
  input = cro_row_grid_add_input (grid, CRO_INPUT_YIELD, CRO_RANGE_YIELD_PCT, 5, "yield_pct_micro");
  cro_input_set_way (CRO_INPUT (input), &yield_way, self);
  input = cro_row_grid_add_input (grid, CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 8, "value_micro");
  cro_input_set_way (CRO_INPUT (input), &value_way, self);
  cro_input_set_read (CRO_INPUT (input), read_value);
  g_object_set_data (G_OBJECT (up), "item", GUINT_TO_POINTER (slot));
  g_signal_connect_object (up, "clicked", G_CALLBACK (make_main_cb), self, G_CONNECT_SWAPPED);
  cro_row_grid_add (grid, up);
  cro_row_grid_add_label (grid, FALSE);
  cro_row_grid_add_input (grid, CRO_INPUT_DENSITY, CRO_RANGE_ABOVE_0, 6, "density_g_per_ml_micro");
  cro_row_grid_add_input (grid, CRO_INPUT_PCT, CRO_RANGE_RECOVERED_PCT, 6, "lost_pct_micro");
  input = cro_row_grid_add_input (grid, CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 5, "piece_g_micro");
  cro_input_set_unit (CRO_INPUT (input), CRO_UNIT_G);
  cro_row_grid_add_label (grid, TRUE);
  cro_row_grid_add_removal (grid);
}

static void
name_cells (CroOutputsView *self,
            const CroItem  *item)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  const struct { int column; const char *caption, *stored; } fields[] = {
    { NAME, item->is_main ? _("Main output") : _("By-product"), "name" },
    { AMOUNT, _("Amount"), "amount_micro" },
    { UNIT, _("unit"), "unit" },
    { YIELD, _("or yield %"), "yield_pct_micro" },
    { VALUE, _("Value per unit"), "value_micro" },
    { DENSITY, _("Density, g/ml"), "density_g_per_ml_micro" },
    { PIECE, _("Piece weight, g"), "piece_g_micro" },
    { LOST, _("Lost %"), "lost_pct_micro" },
  };
  g_autofree char *removal = cro_isolate_printf (_("Remove %s"), item->name);
  /* Translators: %s is a by-product. */
  g_autofree char *promotion = cro_isolate_printf (_("Make %s the main output"), item->name);

  for (gsize i = 0; i < G_N_ELEMENTS (fields); i++)
    {
      g_autofree char *label = cro_act_dup_label (fields[i].caption, item->name);
      g_autofree char *act = cro_past_dup_act ("output", fields[i].stored, item->name);

      cro_row_grid_name (grid, (guint) fields[i].column, act, label);
    }
  cro_row_grid_name (grid, UP, NULL, promotion);
  cro_row_grid_name (grid, REMOVAL, NULL, removal);
}

static void
add_heads (CroOutputsView *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);

  cro_row_grid_add_head (grid, _("Name"), FALSE);
  cro_row_grid_add_head (grid, _("Amount"), TRUE);
  cro_row_grid_add_head (grid, _("Unit"), FALSE);
  cro_row_grid_add_head (grid, _("or yield %"), TRUE);
  cro_row_grid_add_head (grid, _("Value"), TRUE);
  /* Over the button, and over the role below. */
  for (int column = UP; column <= ROLE; column++)
    cro_row_grid_add_head (grid, "", FALSE);
  /* Names have room to give when buttons or a wide cost come. */
  cro_row_grid_add_head (grid, _("Density, g/ml"), TRUE);
  cro_row_grid_keep_head (grid);
  cro_row_grid_add_head (grid, _("Lost %"), TRUE);
  cro_row_grid_add_head (grid, _("Piece weight, g"), TRUE);
  cro_row_grid_keep_head (grid);
  cro_row_grid_add_head (grid, _("Costs"), TRUE);
  cro_row_grid_add_head (grid, "", FALSE);
}

/* Its fields are called by the output's name and its role. */
static void
add_row (CroOutputsView *self,
         guint32         slot)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  const CroItem *item = cro_model_item (cro_book_get_model (book_of (self)), slot);
  g_autofree char *name = g_strdup_printf ("%d %s", item->is_main, item->name);

  if (cro_row_grid_add_row (grid, item->id))
    add_cells (self, slot);
  if (cro_row_grid_rename_row (grid, name))
    name_cells (self, item);
}

/* A main output has no buttons: one without another cannot go, nor can it rise. */
static void
show_role (CroOutputsView *self,
           guint           row,
           gboolean        is_main)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);

  cro_row_grid_set_text (grid, row, ROLE, is_main ? _("main output") : _("by-product"));
  gtk_widget_set_visible (cro_row_grid_get (grid, row, UP), !is_main);
  gtk_widget_set_visible (cro_row_grid_get (grid, row, REMOVAL), !is_main);
}

/* A by-product that carries no cost needs no amount before something takes it: of that the batch
 * itself does not know. */
static unsigned
lacks_where_taken (CroFigures *figures,
                   guint32     slot)
{
  guint64 own = figures->own_node_bits[cro_figures_node (figures, slot)];

  return own & CRO_REACH_INCOMPLETE ? CRO_OUTPUT_LACKS_AMOUNT : CRO_OUTPUT_SOUND;
}

static void
refresh_row (CroOutputsView *self,
             CroFigures     *figures,
             guint           row,
             guint32         slot)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  const CroOutput *output = &cro_model_item (figures->model, slot)->output;
  const struct { int column; unsigned lack; int cause; } cures[] = {
    { AMOUNT, CRO_OUTPUT_LACKS_AMOUNT, CRO_CAUSE_AMOUNT },
    { VALUE, CRO_OUTPUT_LACKS_VALUE, CRO_CAUSE_VALUE },
    { DENSITY, CRO_OUTPUT_LACKS_DENSITY, CRO_CAUSE_DENSITY },
    { PIECE, CRO_OUTPUT_LACKS_PIECE, CRO_CAUSE_PIECE },
  };
  unsigned lacks = output->lacks | lacks_where_taken (figures, slot);
  gboolean is_over = cro_figures_credit_exceeds (figures, cro_figures_row (
      figures, cro_bench_get_slot (self->bench)));
  g_autofree char *cost = cro_words_item_cost (figures, slot);
  /* What the other way of saying comes to. */
  g_autofree char *given = output->yield > 0 && output->finished > 0
                               ? cro_words_amount (cro_unit_get (output->unit)->base,
                                                   output->finished)
                               : NULL;

  cro_input_set_least (CRO_INPUT (cro_row_grid_get (grid, row, NAME)),
                       CLAMP ((int) g_utf8_strlen (cro_model_item (figures->model, slot)->name, -1), SHORT_NAME,
                              LEAST_NAME));
  cro_input_set_placeholder (CRO_INPUT (cro_row_grid_get (grid, row, AMOUNT)), given);
  for (gsize i = 0; i < G_N_ELEMENTS (cures); i++)
    cro_cure_set (cro_row_grid_get (grid, row, (guint) cures[i].column), cures[i].cause,
                  (lacks & cures[i].lack) != 0);
  /* Of by-products that are credited with more than the batch costs, the values are at fault. */
  cro_cure_set (cro_row_grid_get (grid, row, VALUE), CRO_CAUSE_CREDIT,
                is_over && !cro_model_item (figures->model, slot)->is_main);
  cro_choice_set_unset (CRO_CHOICE (cro_row_grid_get (grid, row, UNIT)),
                        cro_unit_get (output->unit)->code);
  cro_row_grid_set_text (grid, row, COSTS, cost);
  show_role (self, row, cro_model_item (figures->model, slot)->is_main);
}

void
cro_outputs_view_refresh (CroOutputsView *self)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, cro_bench_get_slot (self->bench), &outputs);

  cro_row_grid_begin (CRO_ROW_GRID (self->grid));
  if (cro_row_grid_begin_heads (CRO_ROW_GRID (self->grid), ""))
    add_heads (self);
  for (guint32 i = 0; i < n; i++)
    add_row (self, outputs[i]);
  cro_row_grid_end (CRO_ROW_GRID (self->grid));
  cro_row_grid_refresh (CRO_ROW_GRID (self->grid));
  for (guint32 i = 0; i < n; i++)
    refresh_row (self, figures, i, outputs[i]);
}

void
cro_outputs_view_put (CroOutputsView *self)
{
  cro_entry_form_clear (CRO_ENTRY_FORM (self->form));
  cro_read_only_show (self->form, book_of (self));
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_outputs_view_dispose (GObject *object)
{
  g_clear_pointer (&CRO_OUTPUTS_VIEW (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_outputs_view_parent_class)->dispose (object);
}

static void
cro_outputs_view_class_init (CroOutputsViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_outputs_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_outputs_view_init (CroOutputsView *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->form = cro_entry_form_new (_("Add By-product"));
  self->name = cro_entry_form_add (CRO_ENTRY_FORM (self->form), _("By-product"),
                                   _("Name of a new by-product"), 20,
                                   /* Translators: an example of a by-product. */
                                   _("Crab shells"));
  g_signal_connect_object (self->form, "entered", G_CALLBACK (add_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
cro_outputs_view_new (CroBench *bench)
{
  CroOutputsView *self = g_object_new (CRO_TYPE_OUTPUTS_VIEW, NULL);

  self->bench = bench;
  self->grid = cro_row_grid_new (bench, "output", self->name);
  cro_row_grid_break_at (CRO_ROW_GRID (self->grid), ROLE);
  g_signal_connect_object (self->grid, "remove", G_CALLBACK (remove_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), self->grid);
  gtk_box_append (GTK_BOX (self->box), self->form);
  return GTK_WIDGET (self);
}
