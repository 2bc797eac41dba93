#include "config.h"

#include "cro-line-row.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-cure.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-known.h"
#include "cro-last-price.h"
#include "cro-line-amount.h"
#include "cro-line-details.h"
#include "cro-line-doubt.h"
#include "cro-number.h"
#include "cro-reach.h"
#include "cro-reveal.h"
#include "cro-spoken.h"
#include "cro-sum-popover.h"
#include "cro-words.h"

/* Between cells, in pixels. */
#define CELL_SPACE 6

/* All that a row shows is made of: a row of a long list that did not move is left alone. */
typedef struct
{
  const char *name;
  const char *currency;
  gint64      amount;
  gint64      makes;
  double      cost;
  gint64      minor;
  gint32      yield;
  gint32      trim;
  gint32      recovered;
  gint32      last_price;
  guint64     bits;
  guint8      unit;
  guint8      whole;
  guint8      lacks;
  gboolean    is_doubtful;
} Shown;

struct _CroLineRow
{
  GtkWidget   parent_instance;

  GtkWidget  *box;
  GtkWidget  *amount;
  GtkWidget  *bite;
  GtkWidget  *item;
  GtkWidget  *caption;
  GtkWidget  *cost;
  GtkWidget  *share;
  GtkWidget  *toggle;
  GtkWidget  *details;     /* made when they are first asked for */
  GtkWidget  *popover;     /* likewise */

  CroBench   *bench;       /* borrowed */
  guint32     line;
  const char *named;       /* as its cells call it; the model's */
  Shown       shown;
  char       *note;
  CroLineColumns columns;  /* as it was given them, with its own space behind the tails */
  gint64      makes;       /* 0 of a preparation */
  gboolean    is_missing;  /* the cost is not known: its button leads to the cure */
  CroUnit     unit;        /* of what was read last in amount or bite */
  CroLineAmount stored;    /* as it was read at an edition of the book */
  guint64     edition;     /* 0: it was not */
};

G_DEFINE_FINAL_TYPE (CroLineRow, cro_line_row, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroLineRow *self)
{
  return cro_bench_get_book (self->bench);
}

static CroModel *
model_of (CroLineRow *self)
{
  return cro_book_get_model (book_of (self));
}

static guint32
item_of (CroLineRow *self)
{
  return model_of (self)->lines.item[self->line];
}

/* Where its cost is not known, to what is missing. */
static void
open_item_cb (CroLineRow *self)
{
  if (!self->is_missing || !cro_cure_open_line (self->bench, self->line))
    cro_bench_open (self->bench, CRO_REF (CRO_REF_ITEM, item_of (self)));
}

/* --- Amounts ---------------------------------------------------------------------------------- */

static CroLineAmount
read_stored_amount (CroLineRow *self)
{
  const char *columns[] = { "amount_micro", "unit", NULL };
  CroModel *model = model_of (self);
  CroLineAmount amount = { model->lines.amount[self->line], model->lines.unit[self->line] };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book_of (self)), "recipe_line",
                                                 model->line_ids[self->line], columns, NULL);

  if (rows != NULL && cro_rows_next (rows, NULL))
    {
      const char *code = cro_rows_get_text (rows, 1);

      amount.amount = cro_rows_get_int (rows, 0);
      cro_unit_parse (code, strlen (code), &amount.unit);
    }
  return amount;
}

/* What stands in the book, whatever a preview has made of the model. */
static CroLineAmount
stored_amount (CroLineRow *self)
{
  if (self->edition != cro_book_get_edition (book_of (self)))
    self->stored = read_stored_amount (self);
  self->edition = cro_book_get_edition (book_of (self));
  return self->stored;
}

static void
look_at_amount (CroInput *input,
                gpointer  row)
{
  stored_amount (row);
}

static gint64
makes_of (CroLineRow *self,
          CroInput   *input)
{
  return input == CRO_INPUT (self->bite) ? self->makes : 0;
}

/* Both fields show what is typed into one of them; the one that is typed into keeps its text. */
static char *
dup_amount (CroInput *input,
            gpointer  row)
{
  CroLineRow *self = row;
  const CroLines *lines = &model_of (self)->lines;
  CroLineAmount amount = { lines->amount[self->line], lines->unit[self->line] };

  return cro_line_amount_to_text (cro_input_is_edited (input) ? stored_amount (self) : amount,
                                  makes_of (self, input));
}

static char *
read_amount (CroInput    *input,
             const char  *text,
             CroCell     *cell,
             char       **understood,
             gpointer     row)
{
  CroLineRow *self = row;
  g_auto (CroEntry) entry = { 0 };

  cro_line_amount_read (text, stored_amount (self), makes_of (self, input), cro_words_entry (),
                        &entry);
  *understood = g_steal_pointer (&entry.understood);
  self->unit = entry.unit;
  switch (entry.status)
    {
    case CRO_ENTRY_OK:
      *cell = CRO_CELL_INT (entry.micro);
      return NULL;
    case CRO_ENTRY_EMPTY:
      return g_strdup (_("Type an amount, 0 or more."));
    default:
      return cro_words_entry_reason (text, &entry);
    }
}

static const char *const amount_columns[] = { "amount_micro", "unit", NULL };

static gboolean
preview_amount (CroInput       *input,
                const CroCell  *cell,
                gpointer        row,
                GError        **error)
{
  CroLineRow *self = row;
  CroCell cells[] = { *cell, CRO_CELL_STR (cro_unit_get (self->unit)->code) };

  return cro_book_preview_row (book_of (self), "recipe_line", model_of (self)->line_ids[self->line],
                               amount_columns, cells, error);
}

static gboolean
keep_amount (CroInput       *input,
             const CroCell  *cell,
             gpointer        row,
             GError        **error)
{
  CroLineRow *self = row;
  CroCell cells[] = { *cell, CRO_CELL_STR (cro_unit_get (self->unit)->code) };

  return cro_edit_set (book_of (self), cro_input_get_act (input), "recipe_line",
                       model_of (self)->line_ids[self->line], amount_columns, cells, error);
}

static const CroInputWay amount_way = { dup_amount, preview_amount, keep_amount, TRUE, look_at_amount };

/* --- Cost ------------------------------------------------------------------------------------- */

static double
cost_of_line (CroLineRow *self)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  CroModel *model = figures->model;
  guint32 item = item_of (self);
  guint32 node = cro_figures_node (figures, item);
  double cost = cro_line_charged (&model->lines, self->line, &model->measures[item])
                * (figures->layers[CRO_LAYER_FOOD].unit_cost[node]
                   + figures->layers[CRO_LAYER_DISPOSABLES].unit_cost[node]);

  if (isnan (cro_figures_unit_cost (figures, item))
      || cro_line_lacks (&model->lines, self->line, &model->measures[item]) != CRO_LACKS_NOTHING)
    return NAN;
  /* Where nothing is known a 0 would be taken for a cost. */
  return cro_known_of_bits (figures->node_bits[node], cost) == CRO_KNOWN_NOTHING ? NAN : cost;
}

/* What the cure is, where the cost is not known. */
static const char *
cure_words (CroLineRow *self)
{
  CroModel *model = model_of (self);
  CroLack lack = cro_line_lacks (&model->lines, self->line, &model->measures[item_of (self)]);

  if (lack & CRO_LACKS_DENSITY)
    return _("? set density");
  if (lack & CRO_LACKS_PIECE)
    return _("? set weight");
  return model->measures[item_of (self)].is_bought ? _("? set price") : _("? see why");
}

static void
show_share (CroLineRow *self,
            double      cost,
            double      total)
{
  double share = total > 0 && cost > 0 ? CLAMP (cost / total, 0, 1) : 0;

  /* What no eye sees is not drawn anew. */
  if (fabs (share - gtk_level_bar_get_value (GTK_LEVEL_BAR (self->share))) > 1e-3)
    gtk_level_bar_set_value (GTK_LEVEL_BAR (self->share), share);
}

static void
show_cost (CroLineRow *self,
           double      cost,
           gint64      minor)
{
  int digits = cro_currency_digits (model_of (self)->currency);
  g_autofree char *text = isnan (cost) ? g_strdup (cure_words (self))
                          : fabs (cost) < cro_money_most (digits)
                              ? cro_money_to_text (minor, digits)
                              : cro_words_money (model_of (self), cost);
  /* Translators: what a line costs, then the amount of money or what is to be done about it. */
  g_autofree char *spoken = cro_isolate_printf (_("cost of %s: %s"), self->named, text);

  self->is_missing = isnan (cost);
  gtk_button_set_label (GTK_BUTTON (self->cost), text);
  cro_spoken_set (self->cost, spoken);
  if (self->is_missing)
    gtk_widget_add_css_class (self->cost, "missing");
  else
    gtk_widget_remove_css_class (self->cost, "missing");
}

static void
open_sum_cb (CroLineRow *self)
{
  g_autoptr (GPtrArray) sum = NULL;

  if (self->is_missing)
    {
      open_item_cb (self);
      return;
    }
  sum = cro_sum_of_line (cro_book_get_figures (book_of (self)), self->line, cro_sum_words ());
  if (sum == NULL)
    return;
  if (self->popover == NULL)
    self->popover = cro_sum_popover_new (self->bench, GTK_WIDGET (self));
  cro_sum_popover_show (CRO_SUM_POPOVER (self->popover), self->cost, sum);
}

/* --- What differs from the plain -------------------------------------------------------------- */

static void
add_part (GString    *caption,
          const char *part)
{
  if (caption->len > 0)
    g_string_append (caption, " · ");
  g_string_append (caption, part);
}

/* "4 kg trimmed buys 16 kg. Weigh as bought?" */
static void
add_doubt (CroLineRow *self,
           GString    *caption)
{
  CroBase base = (CroBase) model_of (self)->measures[item_of (self)].base;
  g_autofree char *trimmed = NULL, *whole = NULL, *part = NULL;
  double net, bought;

  if (!cro_line_loses_twice (cro_book_get_figures (book_of (self)), self->line, &net, &bought))
    return;
  trimmed = cro_words_amount (base, net);
  whole = cro_words_amount (base, bought);
  /* Translators: a loss to trimming is likely counted twice; two amounts. */
  part = g_strdup_printf (_("%s trimmed means buying %s. Weigh as bought?"), trimmed, whole);
  add_part (caption, part);
}

static void
show_caption (CroLineRow *self,
              const char *note)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  CroModel *model = figures->model;
  const CroMeasure *measure = &model->measures[item_of (self)];
  gint64 yield = cro_line_yield (&model->lines, self->line, measure);
  gint32 recovered = model->lines.recovered[self->line];
  guint64 bits = figures->node_bits[cro_figures_node (figures, item_of (self))];
  g_autofree char *last = cro_words_last_price (figures, item_of (self));
  g_autoptr (GString) caption = g_string_new (NULL);

  add_doubt (self, caption);
  if (model->lines.whole[self->line] && measure->trim_yield != 0)
    add_part (caption, _("as bought"));
  if (yield != CRO_WHOLE_PCT)
    {
      g_autofree char *pct = cro_words_decimal (yield);
      /* Translators: of a line: how much of what is bought is used. */
      g_autofree char *part = g_strdup_printf (_("yield %s %%"), pct);

      add_part (caption, part);
    }
  if (recovered != 0)
    {
      g_autofree char *pct = cro_words_decimal (recovered);
      g_autofree char *part = g_strdup_printf (_("%s %% comes back"), pct);

      add_part (caption, part);
    }
  if (!self->is_missing && bits & CRO_REACH_INCOMPLETE)
    add_part (caption, self->shown.cost < 0 ? _("credited more than it costs")
                                            : _("cost incomplete"));
  if (last != NULL)
    add_part (caption, last);
  if (note != NULL)
    add_part (caption, note);
  gtk_label_set_label (GTK_LABEL (self->caption), caption->str);
  gtk_widget_set_visible (self->caption, caption->len > 0);
}

/* --- Showing ---------------------------------------------------------------------------------- */

/* A cell, and what it does, is called by the item's name: anew under a new one. */
static void
name_cells (CroLineRow *self)
{
  const char *name = cro_model_item (model_of (self), item_of (self))->name;
  gint64 id = model_of (self)->line_ids[self->line];
  /* Translators: an entry of the history; %s is what a line takes. */
  g_autofree char *of_amount = cro_isolate_printf (_("amount of %s"), name);
  g_autofree char *for_batch = cro_isolate_printf (_("amount of %s per batch"), name);
  g_autofree char *for_bite = cro_isolate_printf (_("amount of %s per bite"), name);
  g_autofree char *of_share = cro_isolate_printf (_("share of %s in the cost"), name);
  g_autofree char *of_details = cro_isolate_printf (_("details of %s"), name);

  self->named = name;
  cro_name_button_set (self->item, name);
  cro_spoken_set (GTK_WIDGET (self), name);
  cro_input_bind (CRO_INPUT (self->amount), book_of (self), "recipe_line", id, "amount_micro",
                  of_amount, NULL);
  cro_input_set_name (CRO_INPUT (self->amount), for_batch);
  cro_input_bind (CRO_INPUT (self->bite), book_of (self), "recipe_line", id, "amount_micro",
                  of_amount, NULL);
  cro_input_set_name (CRO_INPUT (self->bite), for_bite);
  cro_spoken_set (self->share, of_share);
  gtk_widget_set_tooltip_text (self->toggle, of_details);
  cro_spoken_set (self->toggle, of_details);
}

static Shown
shown_now (CroLineRow *self,
           gint64      minor)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  CroModel *model = figures->model;
  guint32 item = item_of (self);
  Shown now;
  double net, bought;

  memset (&now, 0, sizeof now);
  now.name = cro_model_item (model, item)->name;
  now.currency = model->currency;
  now.amount = model->lines.amount[self->line];
  now.makes = self->makes;
  now.cost = cost_of_line (self);
  now.minor = minor;
  now.yield = (gint32) cro_line_yield (&model->lines, self->line, &model->measures[item]);
  now.trim = model->measures[item].trim_yield;
  now.recovered = model->lines.recovered[self->line];
  now.last_price = figures->last_price[item];
  now.bits = figures->node_bits[cro_figures_node (figures, item)];
  now.unit = model->lines.unit[self->line];
  now.whole = model->lines.whole[self->line];
  now.lacks = (guint8) cro_line_lacks (&model->lines, self->line, &model->measures[item]);
  now.is_doubtful = cro_line_loses_twice (figures, self->line, &net, &bought);
  return now;
}

void
cro_line_row_refresh (CroLineRow *self,
                      double      total,
                      gint64      minor,
                      gint64      makes,
                      const char *note)
{
  Shown now;

  self->makes = makes;
  now = shown_now (self, minor);
  show_share (self, now.cost, total);
  if (self->details != NULL)
    cro_line_details_refresh (CRO_LINE_DETAILS (self->details));
  if (memcmp (&now, &self->shown, sizeof now) == 0 && g_strcmp0 (note, self->note) == 0
      && !cro_input_is_edited (CRO_INPUT (self->amount))
      && !cro_input_is_edited (CRO_INPUT (self->bite)))
    return;
  self->shown = now;
  g_free (self->note);
  self->note = g_strdup (note);
  if (self->named != now.name)
    name_cells (self);
  gtk_widget_set_visible (self->bite, makes > 0);
  cro_input_refresh (CRO_INPUT (self->amount));
  if (makes > 0)
    cro_input_refresh (CRO_INPUT (self->bite));
  show_cost (self, now.cost, minor);
  show_caption (self, note);
}

const char *
cro_line_row_get_text (CroLineRow  *self,
                       CroLineCell  cell)
{
  if (cell == CRO_LINE_COST)
    return gtk_button_get_label (GTK_BUTTON (self->cost));
  return cro_input_get_text (CRO_INPUT (cell == CRO_LINE_BITE ? self->bite : self->amount));
}

void
cro_line_row_set_columns (CroLineRow           *self,
                          const CroLineColumns *columns,
                          int                   amount_tail,
                          int                   bite_tail)
{
  CroLineColumns own = { columns->amount, columns->amount_tail - amount_tail, columns->bite,
                         columns->bite_tail - bite_tail, columns->cost };

  if (memcmp (&own, &self->columns, sizeof own) == 0)
    return;
  self->columns = own;
  cro_input_set_column (CRO_INPUT (self->amount), own.amount, own.amount_tail);
  cro_input_set_column (CRO_INPUT (self->bite), own.bite, own.bite_tail);
  gtk_widget_set_size_request (self->cost, columns->cost, -1);
  gtk_widget_set_margin_start (self->caption, columns->amount + CELL_SPACE
                                              + (self->makes > 0 ? columns->bite + CELL_SPACE : 0));
}

/* --- Focus ------------------------------------------------------------------------------------ */

static GtkWidget *
cell_widget (CroLineRow  *self,
             CroLineCell  cell)
{
  GtkWidget *const cells[CRO_N_LINE_CELLS] = { self->amount, self->bite, self->item, self->cost,
                                               self->toggle };

  return cells[cell];
}

gboolean
cro_line_row_focus_cell (CroLineRow  *self,
                         CroLineCell  cell)
{
  return gtk_widget_grab_focus (cell_widget (self, cell));
}

gboolean
cro_line_row_get_focus_cell (CroLineRow  *self,
                             CroLineCell *cell)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));

  for (CroLineCell i = 0; focus != NULL && i < CRO_N_LINE_CELLS; i++)
    if (focus == cell_widget (self, i) || gtk_widget_is_ancestor (focus, cell_widget (self, i)))
      {
        *cell = i;
        return TRUE;
      }
  return FALSE;
}

/* --- Making ----------------------------------------------------------------------------------- */

static void
toggled_cb (CroLineRow *self)
{
  gboolean is_open = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->toggle));

  if (is_open && self->details == NULL)
    {
      self->details = cro_line_details_new (self->bench, self->line);
      gtk_box_append (GTK_BOX (self->box), self->details);
    }
  gtk_widget_set_visible (self->details, is_open);
  if (is_open)
    cro_reveal (GTK_WIDGET (self));
  gtk_button_set_icon_name (GTK_BUTTON (self->toggle), is_open ? "pan-up-symbolic"
                                                               : "pan-down-symbolic");
}

static GtkWidget *
amount_new (CroLineRow *self)
{
  GtkWidget *input = cro_input_new (CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, "");

  cro_input_set_way (CRO_INPUT (input), &amount_way, self);
  cro_input_set_read (CRO_INPUT (input), read_amount);
  cro_input_set_width (CRO_INPUT (input), 1);
  return input;
}

static GtkWidget *
item_new (CroLineRow *self)
{
  GtkWidget *item = cro_name_button_new ();
  GtkLabel *label = GTK_LABEL (gtk_button_get_child (GTK_BUTTON (item)));

  /* Where text is large it takes two rows rather than lose its end. */
  gtk_label_set_ellipsize (label, PANGO_ELLIPSIZE_NONE);
  gtk_label_set_wrap (label, TRUE);
  gtk_label_set_wrap_mode (label, PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (label, 7);
  gtk_widget_set_hexpand (item, TRUE);
  g_signal_connect_object (item, "clicked", G_CALLBACK (open_item_cb), self, G_CONNECT_SWAPPED);
  return item;
}

/* All of one height: Tab goes through what stands lower after the rest. */
static GtkWidget *
cells_new (CroLineRow *self)
{
  GtkWidget *cells = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, CELL_SPACE);

  self->amount = amount_new (self);
  self->bite = amount_new (self);
  cro_input_hide_old (CRO_INPUT (self->bite));
  gtk_box_append (GTK_BOX (cells), self->amount);
  gtk_box_append (GTK_BOX (cells), self->bite);
  self->item = item_new (self);
  gtk_box_append (GTK_BOX (cells), self->item);
  self->cost = gtk_button_new_with_label ("");
  /* Numbers do not turn with the language. */
  gtk_widget_set_direction (gtk_button_get_child (GTK_BUTTON (self->cost)), GTK_TEXT_DIR_LTR);
  gtk_label_set_xalign (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->cost))), 1);
  gtk_widget_add_css_class (self->cost, "flat");
  gtk_widget_add_css_class (self->cost, "numeric");
  g_signal_connect_object (self->cost, "clicked", G_CALLBACK (open_sum_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (cells), self->cost);
  self->share = cro_part_bar_new ("", 48);
  gtk_box_append (GTK_BOX (cells), self->share);
  self->toggle = gtk_toggle_button_new ();
  gtk_button_set_icon_name (GTK_BUTTON (self->toggle), "pan-down-symbolic");
  gtk_widget_add_css_class (self->toggle, "flat");
  g_signal_connect_object (self->toggle, "toggled", G_CALLBACK (toggled_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (cells), self->toggle);
  return cells;
}

static void
open_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  open_item_cb (CRO_LINE_ROW (widget));
}

static void
sum_cb (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  open_sum_cb (CRO_LINE_ROW (widget));
}

static void
details_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  GtkToggleButton *toggle = GTK_TOGGLE_BUTTON (CRO_LINE_ROW (widget)->toggle);

  gtk_toggle_button_set_active (toggle, !gtk_toggle_button_get_active (toggle));
}

/* What is done with a line is the business of what holds all of them. */
static gboolean
line_key_cb (GtkWidget *widget,
             GVariant  *action,
             gpointer   user_data)
{
  return gtk_widget_activate_action (widget, g_variant_get_string (action, NULL), "u",
                                     CRO_LINE_ROW (widget)->line);
}

static void
cro_line_row_dispose (GObject *object)
{
  CroLineRow *self = CRO_LINE_ROW (object);

  g_clear_pointer (&self->note, g_free);
  g_clear_pointer (&self->popover, cro_sum_popover_remove);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_line_row_parent_class)->dispose (object);
}

static void
cro_line_row_class_init (CroLineRowClass *klass)
{
  static const struct { guint key; GdkModifierType modifiers; const char *action; } keys[] = {
    { GDK_KEY_Up, GDK_ALT_MASK, "line.move-up" },
    { GDK_KEY_Down, GDK_ALT_MASK, "line.move-down" },
    { GDK_KEY_d, GDK_CONTROL_MASK, "line.duplicate" },
    { GDK_KEY_Delete, GDK_ALT_MASK, "line.remove" },
  };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_line_row_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST_ITEM);
  gtk_widget_class_install_action (widget_class, "item.open", NULL, open_cb);
  gtk_widget_class_install_action (widget_class, "figure.sum", NULL, sum_cb);
  gtk_widget_class_install_action (widget_class, "line.details", NULL, details_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_i, GDK_CONTROL_MASK, "figure.sum", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, GDK_ALT_MASK, "line.details",
                                       NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding (widget_class, keys[i].key, keys[i].modifiers, line_key_cb, "s",
                                  keys[i].action);
}

static void
cro_line_row_init (CroLineRow *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_add_css_class (GTK_WIDGET (self), "line");
}

GtkWidget *
cro_line_row_new (CroBench *bench,
                  guint32   line)
{
  CroLineRow *self = g_object_new (CRO_TYPE_LINE_ROW, NULL);

  self->bench = bench;
  self->line = line;
  gtk_box_append (GTK_BOX (self->box), cells_new (self));
  self->caption = cro_text_new (NULL, "caption");
  gtk_widget_add_css_class (self->caption, "dim-label");
  gtk_box_append (GTK_BOX (self->box), self->caption);
  cro_input_put_reason (CRO_INPUT (self->amount), GTK_BOX (self->box));
  cro_input_put_reason (CRO_INPUT (self->bite), GTK_BOX (self->box));
  return GTK_WIDGET (self);
}

guint32
cro_line_row_get_line (CroLineRow *self)
{
  return self->line;
}
