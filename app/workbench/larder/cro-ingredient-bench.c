#include "config.h"

#include "cro-ingredient-bench.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-allergens-view.h"
#include "cro-bench-actions.h"
#include "cro-beside.h"
#include "cro-cause.h"
#include "cro-cause-order.h"
#include "cro-causes-view.h"
#include "cro-ceiling-line.h"
#include "cro-choice.h"
#include "cro-code.h"
#include "cro-doubts.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-figure-strip.h"
#include "cro-input-lost.h"
#include "cro-isolate.h"
#include "cro-new-offer-view.h"
#include "cro-kind.h"
#include "cro-last-price.h"
#include "cro-number.h"
#include "cro-offer-card.h"
#include "cro-past-words.h"
#include "cro-price-history.h"
#include "cro-price-table.h"
#include "cro-sum-change.h"
#include "cro-sum.h"
#include "cro-traces-view.h"
#include "cro-used-in-view.h"
#include "cro-figure-words.h"
#include "cro-words.h"
#include "cro-wrap.h"
#include "cro-yield-view.h"

enum
{
  AS_BOUGHT,
  TRIMMED,
  CHANGED,
  N_FIGURES,
};

struct _CroIngredientBench
{
  CroBench   parent_instance;

  GtkWidget *figures[N_FIGURES];
  GtkWidget *causes;
  GtkWidget *name;
  GtkWidget *kind;
  GtkWidget *unit;
  GtkWidget *category;
  GtkWidget *trim_yield;
  GtkWidget *density;
  GtkWidget *piece;
  GtkWidget *note;
  GtkWidget *free_button;   /* "costs nothing" */
  GtkWidget *cards;         /* CroOfferCards */
  GtkWidget *no_offer;      /* what is asked for where there is none */
  GtkWidget *new_offer;
  GtkWidget *price_part;    /* of no use without a pack */
  GtkWidget *prices;
  GtkWidget *yield;
  GtkWidget *allergens;
  GtkWidget *traces;
  GtkWidget *used_in;
  GtkWidget *ceiling;

  GArray    *history;       /* CroPastPrice, as it was read at an edition of the book */
  guint32    history_of;
  guint64    edition;
};

G_DEFINE_FINAL_TYPE (CroIngredientBench, cro_ingredient_bench, CRO_TYPE_BENCH)

static CroFigures *
figures_of (CroBench *bench)
{
  return cro_book_get_figures (cro_bench_get_book (bench));
}

static CroItem *
item_of (CroIngredientBench *self)
{
  return cro_model_item (figures_of (CRO_BENCH (self))->model,
                         cro_bench_get_slot (CRO_BENCH (self)));
}

/* --- Figures ---------------------------------------------------------------------------------- */

static GPtrArray *
sum_of_item (CroBench *bench)
{
  return cro_sum_of_item (figures_of (bench), cro_bench_get_slot (bench), cro_sum_words ());
}

static GPtrArray *
sum_of_trimmed (CroBench *bench)
{
  return cro_sum_of_trimmed (figures_of (bench), cro_bench_get_slot (bench), cro_sum_words ());
}

static GPtrArray *
sum_of_change (CroBench *bench)
{
  CroIngredientBench *self = CRO_INGREDIENT_BENCH (bench);

  return self->history != NULL
             ? cro_sum_of_change (figures_of (bench), self->history, cro_bench_get_slot (bench))
             : NULL;
}

static void
show_as_bought (CroIngredientBench *self,
                CroFigures         *figures,
                guint32             item)
{
  guint32 offer = figures->offer_in_use[item];
  g_autofree char *cost = cro_words_item_cost (figures, item);
  g_autofree char *date = NULL, *note = NULL, *supplier = NULL;
  g_autofree char *last = cro_words_last_price (figures, item);

  if (offer != CRO_NO_SLOT)
    {
      date = cro_date_to_text (cro_model_offer (figures->model, offer)->offer.from);
      supplier = cro_isolate (cro_ref_name (figures->model, CRO_REF (CRO_REF_OFFER, offer)));
      /* Translators: a supplier, and the date since which a price holds. */
      note = g_strdup_printf (_("%s, since %s"), supplier, date);
    }
  if (last != NULL)
    {
      g_free (note);
      note = g_strdup_printf ("%s\n%s", last, supplier);
    }
  cro_figure_view_set (CRO_FIGURE_VIEW (self->figures[AS_BOUGHT]), cost, _("as bought"), note);
}

/* Counts are pieces as bought: trimming does not divide them. */
static void
show_trimmed (CroIngredientBench *self,
              CroFigures         *figures,
              guint32             item)
{
  const CroMeasure *measure = &figures->model->measures[item];
  gboolean has_yield = measure->trim_yield != 0 && measure->base != CRO_BASE_EACH;
  double part = (double) measure->trim_yield / (double) CRO_WHOLE_PCT;
  double unit_cost = cro_figures_unit_cost (figures, item);
  gboolean is_free = !(unit_cost > 0) && !cro_kind_is_incomplete (figures, CRO_KIND_INGREDIENT,
                                                                  item);
  g_autofree char *cost = has_yield
                              ? cro_words_known_unit_cost (figures->model, (CroBase) measure->base,
                                                           cro_known_of_item (figures, item),
                                                           unit_cost / part)
                              : g_strdup ("–");
  /* As it stands in its field and at lines. */
  g_autofree char *pct = cro_words_decimal (measure->trim_yield);
  g_autofree char *note
      = has_yield                  ? g_strdup_printf (_("trim yield %s %%"), pct)
        : measure->trim_yield != 0 ? g_strdup_printf (_("trim yield %s %% not used: costed by the piece"), pct)
                                   : g_strdup (_("no trim yield"));

  gtk_widget_set_visible (self->figures[TRIMMED], !item_of (self)->is_disposable && !is_free);
  cro_figure_view_set (CRO_FIGURE_VIEW (self->figures[TRIMMED]), cost, _("trimmed"), note);
}

static void
show_change (CroIngredientBench *self,
             CroFigures         *figures,
             guint32             item,
             GArray             *history)
{
  g_autofree char *value = cro_words_change (cro_price_history_last_change (figures, history,
                                                                            item));

  cro_figure_view_set (CRO_FIGURE_VIEW (self->figures[CHANGED]), value, _("since the price before"),
                       NULL);
}

/* --- Packs ------------------------------------------------------------------------------------ */

static CroOfferCard *
card_of (CroIngredientBench *self,
         guint32             offer)
{
  for (GtkWidget *card = gtk_widget_get_first_child (self->cards); card != NULL;
       card = gtk_widget_get_next_sibling (card))
    if (cro_offer_card_get_offer (CRO_OFFER_CARD (card)) == offer)
      return CRO_OFFER_CARD (card);
  return NULL;
}

/* Those that stay are moved, with the focus and what is typed in them. Returns the last. */
static GtkWidget *
place_cards (CroIngredientBench *self)
{
  CroModel *model = figures_of (CRO_BENCH (self))->model;
  const CroItem *item = item_of (self);
  GtkWidget *last = NULL;

  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 offer = g_array_index (model->offer_order, guint32, item->first_offer + i);
      CroOfferCard *card = card_of (self, offer);

      if (card != NULL)
        cro_offer_card_refresh (card, self->history);
      else
        card = CRO_OFFER_CARD (cro_offer_card_new (CRO_BENCH (self), offer, self->history));
      cro_wrap_insert_after (CRO_WRAP (self->cards), GTK_WIDGET (card), last);
      last = GTK_WIDGET (card);
    }
  return last;
}

/* Those of packs that are gone stand behind the others now. */
static void
refresh_cards (CroIngredientBench *self)
{
  GtkWidget *last = place_cards (self), *focused = gtk_widget_get_focus_child (self->cards);
  GtkWidget *gone = last != NULL ? gtk_widget_get_next_sibling (last)
                                 : gtk_widget_get_first_child (self->cards);

  for (GtkWidget *card = gone; card != NULL; card = gtk_widget_get_next_sibling (card))
    if (card == focused)
      /* The focus stays among the packs when its own goes. */
      cro_new_offer_view_focus (CRO_NEW_OFFER_VIEW (self->new_offer));
  while (gone != NULL)
    {
      GtkWidget *card = gone;

      gone = gtk_widget_get_next_sibling (gone);
      cro_input_lost_let_go (card);
      gtk_widget_unparent (card);
    }
}

/* What a pack is of where nothing else is said: nobody fetches water by the millilitre. */
static CroUnit
pack_unit_of (CroBase base)
{
  return base == CRO_BASE_GRAM ? CRO_UNIT_KG : base == CRO_BASE_MILLILITRE ? CRO_UNIT_L : CRO_UNIT_EACH;
}

/* Water, foraged herbs: said once, of whom the like is had already. What was begun below is for it too. */
static void
free_cb (CroIngredientBench *self)
{
  CroBench *bench = CRO_BENCH (self);
  CroFigures *figures = figures_of (bench);
  g_autofree char *label = cro_bench_dup_label (bench, _("price"));
  g_autoptr (GError) error = NULL;
  const char *supplier = cro_edit_find_free_supplier (figures->model);
  CroUnitPrice price = {
    .price = 0,
    .unit = pack_unit_of ((CroBase) figures->model->measures[cro_bench_get_slot (bench)].base),
    /* Translators: whom a thing that costs nothing is from, where a supplier is asked for. */
    .supplier = supplier != NULL ? supplier : _("Own supply"),
    .from = figures->date,
  };

  cro_new_offer_view_focus (CRO_NEW_OFFER_VIEW (self->new_offer));
  if (!cro_edit_price_ingredient (cro_bench_get_book (bench), label, cro_bench_get_slot (bench),
                                  &price, NULL, &error))
    cro_bench_fail (bench, error);
  else
    cro_new_offer_view_put (CRO_NEW_OFFER_VIEW (self->new_offer), price.unit);
}

/* --- Showing ---------------------------------------------------------------------------------- */

static void
refresh_prices (CroIngredientBench *self,
                CroFigures         *figures,
                guint32             item)
{
  CroBook *book = cro_bench_get_book (CRO_BENCH (self));
  g_autoptr (GError) error = NULL;

  if (self->history == NULL || self->history_of != item
      || self->edition != cro_book_get_edition (book))
    {
      g_clear_pointer (&self->history, g_array_unref);
      self->history = cro_price_history_new (book, item, &error);
      self->history_of = item;
      self->edition = cro_book_get_edition (book);
    }
  else
    cro_price_history_cost (figures->model, self->history);
  if (self->history == NULL)
    {
      cro_bench_fail (CRO_BENCH (self), error);
      return;
    }
  show_change (self, figures, item, self->history);
  cro_price_table_refresh (CRO_PRICE_TABLE (self->prices), self->history);
}

/* The first of what is asked, at the field that it is about. */
static void
ask (CroIngredientBench *self,
     guint32             item)
{
  CroBook *book = cro_bench_get_book (CRO_BENCH (self));
  g_autoptr (GArray) doubts = self->history != NULL ? cro_doubts_of_ingredient (book, item, self->history) : NULL;
  const CroDoubt *doubt = doubts != NULL && doubts->len > 0 ? &g_array_index (doubts, CroDoubt, 0) : NULL;
  g_autofree char *question = doubt != NULL ? cro_words_doubt (cro_book_get_model (book), doubt) : NULL;
  CroOfferCard *card = doubt != NULL && doubt->ref.kind == CRO_REF_OFFER ? card_of (self, doubt->ref.slot) : NULL;
  GtkWidget *field = card != NULL                                             ? cro_offer_card_get_price (card)
                     : doubt != NULL && doubt->kind == CRO_DOUBT_DENSITY ? self->density
                                                                              : self->trim_yield;

  cro_causes_view_ask (CRO_CAUSES_VIEW (self->causes), question, field);
}

/* What lines or packs need to convert their amounts, and have not got. */
static unsigned
lacks_of (CroFigures *figures,
          guint32     item)
{
  CroModel *model = figures->model;
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, item);
  unsigned lacks = figures->offer_in_use[item] == CRO_NO_SLOT ? figures->offer_lacks[item] : 0;

  for (guint32 u = graph->used_first[node]; u < graph->used_first[node + 1]; u++)
    for (guint32 i = graph->first[graph->used_in[u]]; i < graph->first[graph->used_in[u] + 1]; i++)
      if (graph->part[i] == node)
        lacks |= cro_line_lacks (&model->lines, graph->line_slot[i], &model->measures[item]);
  return lacks;
}

static void
mark_cures (CroIngredientBench *self,
            CroFigures         *figures,
            guint32             item)
{
  unsigned lacks = lacks_of (figures, item);

  cro_cure_set (self->density, CRO_CAUSE_DENSITY, (lacks & CRO_LACKS_DENSITY) != 0);
  cro_cure_set (self->piece, CRO_CAUSE_PIECE, (lacks & CRO_LACKS_PIECE) != 0);
  cro_new_offer_view_set_cure (CRO_NEW_OFFER_VIEW (self->new_offer),
                               item_of (self)->n_offers == 0);
}

/* With a price it keeps its place until the ingredient is opened again: its row would close under the hands. */
static void
show_free_button (CroIngredientBench *self,
                  gboolean            is_wanted)
{
  gtk_widget_set_sensitive (self->free_button, is_wanted);
  if (is_wanted)
    gtk_widget_set_visible (self->free_button, TRUE);
}

static void
cro_ingredient_bench_refresh (CroBench *bench)
{
  CroIngredientBench *self = CRO_INGREDIENT_BENCH (bench);
  CroFigures *figures = figures_of (bench);
  guint32 item = cro_bench_get_slot (bench);
  GtkWidget *inputs[] = { self->name,    self->category, self->trim_yield,
                          self->density, self->piece,    self->note };
  g_autoptr (GArray) causes = NULL;

  if (item_of (self)->is_dead)
    return;
  causes = cro_causes_of_item (figures, item);
  cro_causes_add_lacks (causes, lacks_of (figures, item), item_of (self)->name);
  causes = cro_causes_sort_once (causes);
  show_as_bought (self, figures, item);
  show_trimmed (self, figures, item);
  refresh_prices (self, figures, item);
  /* Of its cost nothing is; that is not all there is to say of food. */
  cro_causes_view_set (CRO_CAUSES_VIEW (self->causes), causes,
                       item_of (self)->allergens < 0 && !item_of (self)->is_disposable
                           ? _("Nothing is missing for its cost; its allergens are not stated")
                           : NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (inputs); i++)
    cro_input_refresh (CRO_INPUT (inputs[i]));
  cro_choice_refresh (CRO_CHOICE (self->kind));
  cro_choice_refresh (CRO_CHOICE (self->unit));
  refresh_cards (self);
  ask (self, item);
  mark_cures (self, figures, item);
  gtk_widget_set_visible (self->no_offer, item_of (self)->n_offers == 0);
  gtk_widget_set_visible (self->cards, item_of (self)->n_offers > 0);
  gtk_widget_set_visible (self->price_part, item_of (self)->n_offers > 0);
  show_free_button (self, figures->offer_in_use[item] == CRO_NO_SLOT);
  cro_yield_view_refresh (CRO_YIELD_VIEW (self->yield));
  cro_allergens_view_refresh (CRO_ALLERGENS_VIEW (self->allergens));
  cro_traces_view_refresh (CRO_TRACES_VIEW (self->traces));
  cro_used_in_view_set (CRO_USED_IN_VIEW (self->used_in), &item, 1);
  cro_ceiling_line_set (CRO_CEILING_LINE (self->ceiling), cro_bench_get_book (bench), item,
                        figures->offer_in_use[item]);
}

static void
bind_choice (CroIngredientBench *self,
             GtkWidget          *choice,
             const char         *column)
{
  g_autofree char *label = cro_past_dup_act ("ingredient", column, item_of (self)->name);

  cro_choice_bind (CRO_CHOICE (choice), cro_bench_get_book (CRO_BENCH (self)), "ingredient",
                   item_of (self)->id, column, label);
}

static void
cro_ingredient_bench_show (CroBench *bench)
{
  CroIngredientBench *self = CRO_INGREDIENT_BENCH (bench);
  CroBase base = (CroBase) figures_of (bench)->model->measures[cro_bench_get_slot (bench)].base;

  cro_bench_bind (bench, self->name, "name", NULL);
  bind_choice (self, self->kind, "kind");
  bind_choice (self, self->unit, "unit");
  cro_bench_bind (bench, self->category, "category", NULL);
  cro_bench_bind (bench, self->trim_yield, "trim_yield_pct_micro", NULL);
  cro_bench_bind (bench, self->density, "density_g_per_ml_micro", NULL);
  cro_bench_bind (bench, self->piece, "piece_g_micro", NULL);
  cro_bench_bind (bench, self->note, "note", NULL);
  cro_new_offer_view_put (CRO_NEW_OFFER_VIEW (self->new_offer), pack_unit_of (base));
  cro_price_table_put (CRO_PRICE_TABLE (self->prices));
  cro_yield_view_put (CRO_YIELD_VIEW (self->yield), cro_bench_get_slot (bench));
  gtk_widget_set_visible (self->free_button, FALSE);
  cro_ingredient_bench_refresh (bench);
}

/* --- The widget ------------------------------------------------------------------------------- */

static GtkWidget *
fields_new (CroIngredientBench *self)
{
  const char *unit_words[] = { cro_words_unit (CRO_UNIT_G), cro_words_unit (CRO_UNIT_ML),
                               cro_words_unit (CRO_UNIT_EACH), NULL };
  GtkWidget *row = cro_field_row_new ();

  self->name = cro_field_add (row, _("Ingredient"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 26);
  cro_input_set_way (CRO_INPUT (self->name), &cro_bench_name_way, self);
  cro_input_set_ask (CRO_INPUT (self->name), cro_bench_ask_of_name);
  cro_input_set_tell (CRO_INPUT (self->name), cro_bench_tell_name);
  cro_input_set_show (CRO_INPUT (self->name), cro_bench_show_name);
  cro_input_set_asks (CRO_INPUT (self->name), cro_bench_asks_of_name);
  self->kind = cro_choice_new_code (_("Kind"), cro_ingredient_kind_codes);
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("Kind"), self->kind));
  self->unit = cro_choice_new (_("Cost unit"), cro_base_codes, unit_words);
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("Cost unit"), self->unit));
  self->category = cro_field_add (row, _("Category"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 18);
  self->trim_yield = cro_field_add (row, _("Trim yield %"), CRO_INPUT_YIELD, CRO_RANGE_YIELD_PCT,
                                    8);
  self->density = cro_field_add (row, _("Density, g/ml"), CRO_INPUT_DENSITY, CRO_RANGE_ABOVE_0,
                                 8);
  self->piece = cro_field_add (row, _("Piece weight, g"), CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 8);
  cro_input_set_unit (CRO_INPUT (self->piece), CRO_UNIT_G);
  self->note = cro_field_add (row, _("Note"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 22);
  gtk_widget_set_hexpand (self->note, TRUE);
  self->free_button = gtk_button_new_with_label (_("Mark as Free"));
  g_signal_connect_object (self->free_button, "clicked", G_CALLBACK (free_cb), self,
                           G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (row), cro_bench_buttons_new_with (self->free_button,
                                                               _("Make It a Preparation"), TRUE));
  return row;
}

static void
cro_ingredient_bench_dispose (GObject *object)
{
  g_clear_pointer (&CRO_INGREDIENT_BENCH (object)->history, g_array_unref);
  G_OBJECT_CLASS (cro_ingredient_bench_parent_class)->dispose (object);
}

static void
cro_ingredient_bench_class_init (CroIngredientBenchClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_ingredient_bench_dispose;
  CRO_BENCH_CLASS (klass)->kind = CRO_REF_ITEM;
  CRO_BENCH_CLASS (klass)->show = cro_ingredient_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_ingredient_bench_refresh;
}

static void
cro_ingredient_bench_init (CroIngredientBench *self)
{
  static const CroFigureSum sums[N_FIGURES] = { sum_of_item, sum_of_trimmed, sum_of_change };
  CroBench *bench = CRO_BENCH (self);
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *aside = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *packs = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *strip;

  self->cards = cro_wrap_new (12, 12);
  self->new_offer = cro_new_offer_view_new (bench);
  self->prices = cro_price_table_new (bench);
  self->yield = cro_yield_view_new (bench);
  self->allergens = cro_allergens_view_new (bench);
  self->traces = cro_traces_view_new (bench);
  self->used_in = cro_used_in_view_new (bench);

  gtk_widget_add_css_class (packs, "lines-part");
  gtk_box_append (GTK_BOX (packs), cro_heading_new (_("Packs")));
  self->no_offer = cro_text_new (_("Who sells it, in which pack, and for how much?"), "dim-label");
  gtk_box_append (GTK_BOX (packs), self->no_offer);
  gtk_box_append (GTK_BOX (packs), self->cards);
  gtk_box_append (GTK_BOX (packs), self->new_offer);

  gtk_box_append (GTK_BOX (page), fields_new (self));
  gtk_box_append (GTK_BOX (page), packs);
  self->price_part = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_box_append (GTK_BOX (self->price_part), cro_heading_new (_("Prices")));
  gtk_box_append (GTK_BOX (self->price_part), self->prices);
  gtk_box_append (GTK_BOX (page), self->price_part);
  gtk_box_append (GTK_BOX (page), cro_heading_new (_("Yield Tests")));
  gtk_box_append (GTK_BOX (page), self->yield);
  gtk_box_append (GTK_BOX (aside), cro_heading_new (_("Allergens")));
  gtk_box_append (GTK_BOX (aside), self->allergens);
  gtk_box_append (GTK_BOX (aside), self->traces);
  gtk_box_append (GTK_BOX (aside), cro_heading_new (_("Used in")));
  self->ceiling = cro_ceiling_line_new ();
  gtk_box_append (GTK_BOX (aside), self->ceiling);
  gtk_box_append (GTK_BOX (aside), self->used_in);
  strip = cro_figure_strip_new (CRO_BENCH (self), sums, N_FIGURES, self->figures, &self->causes);
  cro_bench_set_content (CRO_BENCH (self), strip, cro_beside_new (page, aside));
}
