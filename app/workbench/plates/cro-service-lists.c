#include "config.h"

#include "cro-service-lists.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-plan-words.h"
#include "cro-row-grid.h"
#include "cro-service-orders.h"
#include "cro-words.h"

struct _CroServiceLists
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *nothing_made;
  GtkWidget *make;         /* grids */
  GtkWidget *nothing_bought;
  GtkWidget *buy;
  GtkWidget *missing;
  CroBench  *bench;        /* borrowed */
};

G_DEFINE_FINAL_TYPE (CroServiceLists, cro_service_lists, GTK_TYPE_WIDGET)

/* In characters: a longer list of leftovers breaks into lines. */
#define LEFT_CHARS 20

/* Of a name, beside the covers in a narrow window. */
#define LEAST_NAME 15

static CroModel *
model_of (CroServiceLists *self)
{
  return cro_book_get_model (cro_bench_get_book (self->bench));
}

/* --- Rows ------------------------------------------------------------------------------------- */

/* Rows are known by what they are of, which the button opens: the id is a slot and one. */
static void
open_cb (CroServiceLists *self,
         GtkWidget       *button)
{
  gint64 *id = g_object_get_data (G_OBJECT (button), "row");
  gboolean is_made = gtk_widget_is_ancestor (button, self->make);

  cro_bench_open (self->bench,
                  CRO_REF (is_made ? CRO_REF_RECIPE : CRO_REF_ITEM, (guint32) (*id - 1)));
}

static void
add_named_row (CroServiceLists *self,
               CroRowGrid      *grid,
               gint64           id,
               guint            numbers,
               const char      *name)
{
  if (cro_row_grid_add_row (grid, id))
    {
      GtkWidget *button = cro_name_button_new ();

      g_object_set_data_full (G_OBJECT (button), "row", g_memdup2 (&id, sizeof id), g_free);
      g_signal_connect_object (button, "clicked", G_CALLBACK (open_cb), self, G_CONNECT_SWAPPED);
      cro_row_grid_add (grid, button);
      for (guint i = 0; i < numbers; i++)
        cro_row_grid_add_label (grid, TRUE);
      cro_row_grid_add_label (grid, FALSE);
    }
  cro_row_grid_rename_row (grid, name);
}

/* What stands last may be long, and breaks. */
static void
set_note (CroRowGrid *grid,
          guint       row,
          guint       column,
          const char *text)
{
  GtkLabel *label = GTK_LABEL (cro_row_grid_get (grid, row, column));

  gtk_label_set_ellipsize (label, PANGO_ELLIPSIZE_NONE);
  gtk_label_set_wrap (label, TRUE);
  gtk_label_set_max_width_chars (label, LEFT_CHARS);
  gtk_label_set_width_chars (label, MIN (LEFT_CHARS, (int) g_utf8_strlen (text, -1)));
  cro_row_grid_set_text (grid, row, column, text);
}

static char *
amount_of (CroModel *model,
           guint32   item,
           double    amount)
{
  return cro_words_amount ((CroBase) model->measures[item].base, amount);
}

/* --- To make ---------------------------------------------------------------------------------- */

enum
{
  NAME,
  NEEDED,
  MADE,
  MINUTES,
  LEFT,
  N_MAKE_NUMBERS = LEFT - 1,
};

static const CroPlanOutput *
output_at (const CroServicePlan *plan,
           const CroPlanMake    *make,
           guint                 i)
{
  return &g_array_index (plan->outputs, CroPlanOutput, make->first_output + i);
}

/* "shells 370 g, brown meat 160 g"; the name of the only output is that of the row. */
static char *
dup_left (CroModel             *model,
          const CroServicePlan *plan,
          const CroPlanMake    *make)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < make->n_outputs && make->known != CRO_KNOWN_NOTHING; i++)
    {
      const CroPlanOutput *output = output_at (plan, make, i);
      g_autofree char *amount = NULL;

      if (!(output->left > 0))
        continue;
      amount = cro_words_take_joined (
          cro_words_take_short (output->known_left, amount_of (model, output->item, output->left)));
      if (make->n_outputs > 1)
        cro_isolate_append (text, cro_model_item (model, output->item)->name);
      g_string_append_printf (text, make->n_outputs > 1 ? " %s" : "%s", amount);
    }
  return g_string_free (text->len > 0 ? text : g_string_append (text, "–"), FALSE);
}

/* "450 g" of the main output; with the batches where they are not those that are needed: "batches: 1 · 6 pc". */
static char *
dup_made (CroModel             *model,
          const CroServicePlan *plan,
          const CroPlanMake    *make,
          const char           *needed)
{
  const CroPlanOutput *main_output = make->n_outputs > 0 ? output_at (plan, make, 0) : NULL;
  g_autofree char *number = cro_words_take_short (make->known, cro_words_three_digits (make->batches));
  g_autofree char *amount = NULL;

  if (main_output == NULL || isnan (main_output->made) || make->known == CRO_KNOWN_NOTHING)
    return g_steal_pointer (&number);
  amount = amount_of (model, main_output->item, main_output->made);
  if (g_str_equal (number, needed))
    return g_steal_pointer (&amount);
  /* Translators: batches that are made, and the amount that they give. */
  return g_strdup_printf (_("batches: %s · %s"), number, amount);
}

static void
set_make (CroServiceLists      *self,
          const CroServicePlan *plan,
          guint                 row)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->make);
  CroModel *model = model_of (self);
  const CroPlanMake *make = &g_array_index (plan->make, CroPlanMake, row);
  const CroRecipe *recipe = cro_model_recipe (model, make->recipe);
  g_autofree char *needed = cro_words_take_short (make->known, cro_words_three_digits (make->runs));
  g_autofree char *made = dup_made (model, plan, make, needed);
  g_autofree char *minutes
      = recipe->active_minutes > 0
            ? cro_words_take_short (make->known, cro_number_to_text (make->minutes, 0, TRUE))
            : g_strdup ("–");
  g_autofree char *left = dup_left (model, plan, make);

  cro_name_button_set_first (cro_row_grid_get (grid, row, NAME), recipe->name, LEAST_NAME);
  cro_row_grid_set_text (grid, row, NEEDED, needed);
  cro_row_grid_set_text (grid, row, MADE, made);
  cro_row_grid_set_text (grid, row, MINUTES, minutes);
  set_note (grid, row, LEFT, left);
}

static void
show_make (CroServiceLists      *self,
           const CroServicePlan *plan)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->make);
  guint n = plan != NULL ? plan->make->len : 0;
  /* Translators: heads of columns: a preparation, batches needed, batches made and what they
   * give, minutes of work, what is not used. */
  const char *heads[] = { _("preparation"), _("batches"), _("make"), _("minutes"), _("left") };

  cro_row_grid_begin (grid);
  if (cro_row_grid_begin_heads (grid, ""))
    for (guint i = 0; i < G_N_ELEMENTS (heads); i++)
      cro_row_grid_add_head (grid, heads[i], i > NAME && i < LEFT);
  for (guint i = 0; i < n; i++)
    {
      guint32 recipe = g_array_index (plan->make, CroPlanMake, i).recipe;

      add_named_row (self, grid, (gint64) recipe + 1, N_MAKE_NUMBERS,
                     cro_model_recipe (model_of (self), recipe)->name);
    }
  cro_row_grid_end (grid);
  for (guint i = 0; i < n; i++)
    set_make (self, plan, i);
  gtk_widget_set_visible (self->make, n > 0);
  gtk_widget_set_visible (self->nothing_made, n == 0);
}

/* --- To buy ----------------------------------------------------------------------------------- */

enum
{
  INGREDIENT,
  PACKS,
  COST,
  BUY_NEEDED,
  BUY_LEFT,
  NOTE,
  N_BUY_NUMBERS = NOTE - 1,
};

/* What a supplier asks for beside the sum. */
static char *
dup_terms (CroModel           *model,
           const CroPlanOrder *order)
{
  g_autofree char *minimum = cro_plan_order_is_free (order) ? cro_words_order_free (order)
                                                            : cro_words_order_minimum (model, order);
  g_autofree char *charge = cro_words_order_charge (model, order);

  if (minimum != NULL && charge != NULL)
    return g_strdup_printf ("%s\n%s", minimum, charge);
  return g_strdup (minimum != NULL ? minimum : charge != NULL ? charge : "");
}

/* Rows of suppliers have ids below 0. */
static void
add_supplier_row (CroServiceLists *self,
                  guint32          supplier)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->buy);
  const char *name = supplier != CRO_NO_SLOT
                         ? g_array_index (model_of (self)->suppliers, CroSupplier, supplier).name
                         : "";

  if (cro_row_grid_add_row (grid, -1 - (gint64) supplier))
    for (guint i = 0; i <= NOTE; i++)
      cro_row_grid_add_label (grid, i > INGREDIENT && i < NOTE);
  cro_row_grid_rename_row (grid, name);
}

static void
set_supplier (CroServiceLists *self,
              guint            row,
              const char      *name,
              const char      *sum,
              const char      *terms)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->buy);
  GtkWidget *label = cro_row_grid_get (grid, row, INGREDIENT);

  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_NONE);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (label), LEAST_NAME);
  cro_row_grid_set_text (grid, row, INGREDIENT, name);
  gtk_widget_add_css_class (label, "heading");
  gtk_widget_add_css_class (cro_row_grid_get (grid, row, COST), "heading");
  cro_row_grid_set_text (grid, row, COST, sum);
  set_note (grid, row, NOTE, terms);
}

static void
set_buy (CroServiceLists  *self,
         guint             row,
         const CroPlanBuy *buy,
         gint64            money)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->buy);
  CroModel *model = model_of (self);
  gboolean is_had = buy->offer != CRO_NO_SLOT;
  CroKnown of_left = buy->known == CRO_KNOWN_WHOLE || buy->known == CRO_KNOWN_NOTHING ? buy->known
                                                                                      : CRO_KNOWN_IN_PART;
  g_autofree char *needed = cro_words_take_short (buy->known,
                                                  amount_of (model, buy->item, buy->needed));
  g_autofree char *packs = NULL, *left = NULL, *cost = NULL;
  g_autofree char *pack = cro_words_order_pack (model, buy);

  if (is_had)
    {
      packs = cro_words_take_short (buy->known, cro_number_to_text (buy->packs, 0, TRUE));
      left = cro_words_take_short (of_left, amount_of (model, buy->item, buy->left));
      cost = cro_words_take_short (
          buy->known, cro_money_to_text (money, cro_currency_digits (model->currency)));
    }
  cro_name_button_set_first (cro_row_grid_get (grid, row, INGREDIENT), cro_model_item (model, buy->item)->name,
                             LEAST_NAME);
  cro_row_grid_set_text (grid, row, PACKS, is_had ? packs : "–");
  cro_row_grid_set_text (grid, row, COST, is_had ? cost : "?");
  cro_row_grid_set_text (grid, row, BUY_NEEDED, needed);
  cro_row_grid_set_text (grid, row, BUY_LEFT, is_had ? left : "–");
  set_note (grid, row, NOTE, pack != NULL ? pack : _("no price"));
}

static const CroPlanBuy *
buy_at (const CroServicePlan *plan,
        guint                 i)
{
  return &g_array_index (plan->buy, CroPlanBuy, i);
}

/* The first thing that no pack is to be had of; they stand last. */
static guint
first_without_pack (const CroServicePlan *plan)
{
  guint i = 0;

  while (i < plan->buy->len && buy_at (plan, i)->offer != CRO_NO_SLOT)
    i++;
  return i;
}

static void
add_buys (CroServiceLists      *self,
          const CroServicePlan *plan)
{
  guint32 last = CRO_NO_SLOT;

  for (guint i = 0; i < plan->buy->len; i++)
    {
      guint32 supplier = cro_plan_buy_supplier (plan, buy_at (plan, i));

      if (i == 0 || supplier != last)
        add_supplier_row (self, supplier);
      last = supplier;
      add_named_row (self, CRO_ROW_GRID (self->buy), (gint64) buy_at (plan, i)->item + 1,
                     N_BUY_NUMBERS, cro_model_item (model_of (self), buy_at (plan, i)->item)->name);
    }
}

static void
fill_buys (CroServiceLists      *self,
           const CroServicePlan *plan)
{
  CroModel *model = model_of (self);
  int digits = cro_currency_digits (model->currency);
  g_autofree gint64 *totals = g_new (gint64, plan->orders->len + 1);
  g_autofree gint64 *rows = g_new (gint64, plan->buy->len + 1);
  guint row = 0, without = first_without_pack (plan);

  cro_plan_apportion (plan, digits, totals, rows);
  for (guint i = 0; i < plan->orders->len; i++)
    {
      const CroPlanOrder *order = &g_array_index (plan->orders, CroPlanOrder, i);
      g_autofree char *money = cro_money_to_text (totals[i], digits);
      g_autofree char *sum = cro_words_known (order->known, money);
      g_autofree char *terms = dup_terms (model, order);

      set_supplier (self, row++, g_array_index (model->suppliers, CroSupplier, order->supplier).name,
                    sum, terms);
      for (guint j = order->first_buy; j < order->first_buy + order->n_buys; j++)
        set_buy (self, row++, buy_at (plan, j), rows[j]);
    }
  if (without < plan->buy->len)
    set_supplier (self, row++, _("No pack to order"), "", _("listed without a sum"));
  for (guint j = without; j < plan->buy->len; j++)
    set_buy (self, row++, buy_at (plan, j), 0);
}

static void
show_buy (CroServiceLists      *self,
          const CroServicePlan *plan)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->buy);
  gboolean buys = plan != NULL && plan->buy->len > 0;
  const char *heads[] = { _("supplier, ingredient"), _("packs"), _("cost"), _("needed"), _("left"),
                          _("pack") };

  cro_row_grid_begin (grid);
  if (cro_row_grid_begin_heads (grid, ""))
    for (guint i = 0; i < G_N_ELEMENTS (heads); i++)
      cro_row_grid_add_head (grid, heads[i], i > INGREDIENT && i < NOTE);
  if (buys)
    add_buys (self, plan);
  cro_row_grid_end (grid);
  if (buys)
    fill_buys (self, plan);
  gtk_widget_set_visible (self->buy, buys);
  gtk_widget_set_visible (self->nothing_bought, !buys);
}

/* --- Showing ---------------------------------------------------------------------------------- */

static void
show_missing (CroServiceLists      *self,
              const CroServicePlan *plan)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; plan != NULL && i < plan->missing->len; i++)
    {
      g_autofree char *cause = cro_words_cause (&g_array_index (plan->missing, CroCause, i));

      g_string_append_printf (text, "%s%s", i > 0 ? " · " : "", cause);
    }
  gtk_label_set_label (GTK_LABEL (self->missing), text->str);
  gtk_widget_set_visible (self->missing, text->len > 0);
  g_string_free (text, TRUE);
}

void
cro_service_lists_set (CroServiceLists      *self,
                       const CroServicePlan *plan)
{
  show_make (self, plan);
  show_buy (self, plan);
  show_missing (self, plan);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_service_lists_dispose (GObject *object)
{
  CroServiceLists *self = CRO_SERVICE_LISTS (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_service_lists_parent_class)->dispose (object);
}

static void
cro_service_lists_class_init (CroServiceListsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_service_lists_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_service_lists_init (CroServiceLists *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (self->box, "part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->nothing_made = cro_text_new (_("Nothing to make yet."), "dim-label");
  self->nothing_bought = cro_text_new (_("Nothing to buy yet."), "dim-label");
  self->missing = cro_text_new ("", "dim-label");
}

GtkWidget *
cro_service_lists_new (CroBench *bench)
{
  CroServiceLists *self = g_object_new (CRO_TYPE_SERVICE_LISTS, NULL);
  GtkWidget *parts[7];
  guint n = 0;

  self->bench = bench;
  self->make = cro_row_grid_new (bench, "recipe", self->box);
  self->buy = cro_row_grid_new (bench, "item", self->box);
  parts[n++] = cro_heading_new (_("Make, in this order"));
  parts[n++] = self->nothing_made;
  parts[n++] = self->make;
  parts[n++] = cro_heading_new (_("Buy"));
  parts[n++] = self->nothing_bought;
  parts[n++] = self->buy;
  parts[n++] = self->missing;
  for (guint i = 0; i < n; i++)
    gtk_box_append (GTK_BOX (self->box), parts[i]);
  return GTK_WIDGET (self);
}
