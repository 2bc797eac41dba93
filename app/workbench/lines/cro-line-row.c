#include "config.h"

#include "cro-line-row.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-cure.h"
#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-known.h"
#include "cro-line-amounts.h"
#include "cro-line-caption.h"
#include "cro-line-details.h"
#include "cro-line-doubt.h"
#include "cro-number.h"
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
  guint64     tried;     /* edition of a trial, whose cells say what the book has; 0: it is none */
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
  GtkWidget  *item;
  GtkWidget  *caption;
  GtkWidget  *cost;
  GtkWidget  *share;
  GtkWidget  *toggle;
  GtkWidget  *details;     /* made when they are first asked for */
  GtkWidget  *popover;     /* likewise */

  CroLineAmounts *amounts;
  CroBench   *bench;       /* borrowed */
  guint32     line;
  const char *named;       /* as its cells call it; the model's */
  Shown       shown;
  char       *note;
  CroLineColumns columns;  /* as it was given them, with its own space behind the tails */
  gint64      makes;       /* 0 of a preparation */
  gboolean    is_missing;  /* the cost is not known: its button leads to the cure */
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

static GtkWidget *
cell_widget (CroLineRow  *self,
             CroLineCell  cell)
{
  GtkWidget *const cells[CRO_N_LINE_CELLS] = {
    GTK_WIDGET (cro_line_amounts_get_batch (self->amounts)),
    GTK_WIDGET (cro_line_amounts_get_bite (self->amounts)),
    self->item,
    self->cost,
    self->toggle,
  };

  return cells[cell];
}

/* Where its cost is not known, to what is missing. */
static void
open_item_cb (CroLineRow *self)
{
  if (!self->is_missing || !cro_cure_open_line (self->bench, self->line))
    cro_bench_open (self->bench, CRO_REF (CRO_REF_ITEM, item_of (self)));
}

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
  return cro_known_of_taken (figures, item, cost) == CRO_KNOWN_NOTHING ? NAN : cost;
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
  return model->measures[item_of (self)].is_bought
                 && (cro_book_get_figures (book_of (self))->offer_lacks[item_of (self)] & CRO_OFFER_LACKS_PRICE)
             ? _("? set price")
             : _("? see why");
}

/* What is typed into the details may be told there. */
static void
show_caption_room (CroLineRow *self)
{
  gboolean may_tell = self->details != NULL && gtk_widget_get_visible (self->details);

  gtk_widget_set_visible (self->caption, may_tell || *gtk_label_get_label (GTK_LABEL (self->caption)) != '\0');
}

static void
show_caption (CroLineRow *self,
              const char *note)
{
  g_autofree char *caption = cro_line_caption_dup (cro_book_get_figures (book_of (self)), self->line,
                                                   self->shown.cost, note);

  gtk_label_set_label (GTK_LABEL (self->caption), caption);
  show_caption_room (self);
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
  CroKnown known = isnan (cost) ? CRO_KNOWN_WHOLE : cro_known_of_taken (cro_book_get_figures (book_of (self)),
                                                                        item_of (self), cost);
  g_autofree char *figure = isnan (cost) ? g_strdup (cure_words (self))
                            : fabs (cost) < cro_money_most (digits)
                                ? cro_money_to_text (minor, digits)
                                : cro_words_money (model_of (self), cost);
  g_autofree char *text = cro_words_known_short (known, figure), *said = cro_words_known (known, figure);
  /* Translators: what a line costs, then the amount of money or what is to be done about it. */
  g_autofree char *spoken = cro_isolate_printf (_("cost of %s: %s"), self->named, said);

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
  cro_sum_popover_show (CRO_SUM_POPOVER (self->popover), self->cost, sum,
                        cro_sum_line_is_shifted (cro_book_get_figures (book_of (self)), self->line)
                            ? cro_words_shifted ()
                            : NULL);
}

/* --- Showing ---------------------------------------------------------------------------------- */

/* A cell, and what it does, is called by the item's name: anew under a new one. */
static void
name_cells (CroLineRow *self)
{
  const char *name = cro_model_item (model_of (self), item_of (self))->name;
  g_autofree char *of_share = cro_isolate_printf (_("share of %s in the cost"), name);
  g_autofree char *of_details = cro_isolate_printf (_("details of %s"), name);

  self->named = name;
  cro_name_button_set (self->item, name);
  cro_spoken_set (GTK_WIDGET (self), name);
  cro_line_amounts_set_name (self->amounts, name);
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
  now.tried = cro_book_get_tried (book_of (self)) != NULL ? cro_book_get_edition (book_of (self)) : 0;
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
  cro_line_amounts_set_makes (self->amounts, makes);
  now = shown_now (self, minor);
  show_share (self, now.cost, total);
  if (self->details != NULL)
    cro_line_details_refresh (CRO_LINE_DETAILS (self->details));
  if (memcmp (&now, &self->shown, sizeof now) == 0 && g_strcmp0 (note, self->note) == 0
      && !cro_line_amounts_is_edited (self->amounts))
    return;
  self->shown = now;
  g_free (self->note);
  self->note = g_strdup (note);
  if (self->named != now.name)
    name_cells (self);
  cro_line_amounts_refresh (self->amounts);
  show_cost (self, now.cost, minor);
  show_caption (self, note);
}

const char *
cro_line_row_get_text (CroLineRow  *self,
                       CroLineCell  cell)
{
  if (cell == CRO_LINE_COST)
    return gtk_button_get_label (GTK_BUTTON (self->cost));
  return cro_input_get_text (CRO_INPUT (cell_widget (self, cell)));
}

gboolean
cro_line_row_is_edited (CroLineRow *self)
{
  return cro_line_amounts_is_edited (self->amounts);
}

void
cro_line_row_set_columns (CroLineRow           *self,
                          const CroLineColumns *columns,
                          int                   amount_tail,
                          int                   bite_tail)
{
  CroLineColumns own = { columns->amount, columns->amount_tail - amount_tail, columns->bite,
                         columns->bite_tail - bite_tail, columns->cost };

  /* What is typed stands still until it is kept. */
  if (self->columns.amount > 0 && cro_line_row_is_edited (self))
    {
      own.amount_tail = self->columns.amount_tail;
      own.bite_tail = self->columns.bite_tail;
    }
  if (memcmp (&own, &self->columns, sizeof own) == 0)
    return;
  self->columns = own;
  cro_input_set_column (cro_line_amounts_get_batch (self->amounts), own.amount, own.amount_tail);
  cro_input_set_column (cro_line_amounts_get_bite (self->amounts), own.bite, own.bite_tail);
  gtk_widget_set_size_request (self->cost, columns->cost, -1);
  gtk_widget_set_margin_start (self->caption, columns->amount + CELL_SPACE
                                              + (self->makes > 0 ? columns->bite + CELL_SPACE : 0));
}

/* --- Focus ------------------------------------------------------------------------------------ */

GtkWidget *
cro_line_row_get_middle (CroLineRow *self)
{
  return self->cost;
}

void
cro_line_row_show_share (CroLineRow *self,
                         gboolean    shows)
{
  gtk_widget_set_visible (self->share, shows);
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
  show_caption_room (self);
  if (is_open)
    cro_reveal (GTK_WIDGET (self));
  gtk_button_set_icon_name (GTK_BUTTON (self->toggle), is_open ? "pan-up-symbolic"
                                                               : "pan-down-symbolic");
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

  gtk_box_append (GTK_BOX (cells), cell_widget (self, CRO_LINE_AMOUNT));
  gtk_box_append (GTK_BOX (cells), cell_widget (self, CRO_LINE_BITE));
  cro_input_hide_old (CRO_INPUT (cell_widget (self, CRO_LINE_BITE)));
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
  g_clear_object (&self->amounts);
  G_OBJECT_CLASS (cro_line_row_parent_class)->dispose (object);
}

static void
cro_line_row_class_init (CroLineRowClass *klass)
{
  static const struct { guint key; GdkModifierType modifiers; const char *action; } keys[] = {
    { GDK_KEY_Up, GDK_ALT_MASK, "line.move-up" },
    { GDK_KEY_KP_Up, GDK_ALT_MASK, "line.move-up" },
    { GDK_KEY_Down, GDK_ALT_MASK, "line.move-down" },
    { GDK_KEY_KP_Down, GDK_ALT_MASK, "line.move-down" },
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
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, GDK_ALT_MASK, "line.details", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Enter, GDK_ALT_MASK, "line.details", NULL);
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
  self->amounts = cro_line_amounts_new (bench, line);
  gtk_box_append (GTK_BOX (self->box), cells_new (self));
  self->caption = cro_text_new (NULL, "caption");
  gtk_widget_add_css_class (self->caption, "dim-label");
  gtk_box_append (GTK_BOX (self->box), self->caption);
  return GTK_WIDGET (self);
}

guint32
cro_line_row_get_line (CroLineRow *self)
{
  return self->line;
}
