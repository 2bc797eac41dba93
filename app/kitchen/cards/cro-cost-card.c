#include "config.h"

#include "cro-cost-card.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-card-sheet.h"
#include "cro-card-words.h"
#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-flow-stream.h"
#include "cro-isolate.h"
#include "cro-landing.h"
#include "cro-last-price.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-plate.h"
#include "cro-result-words.h"
#include "cro-words.h"

#define FONT 10
#define SPACE 6

/* Of what is bought, on a card at most so many ceilings, none of them beyond so many times the price. */
#define MOST_CEILINGS 4
#define FAR_OFF 3

typedef struct
{
  CroBook      *book;
  CroFigures   *figures;
  CroModel     *model;
  CroRef        thing;
  CroBreakdown *breakdown;
  CroPaper     *paper;
} Card;

static const CroRecipe *
recipe_of (const Card *self)
{
  return self->thing.kind == CRO_REF_RECIPE ? cro_model_recipe (self->model, self->thing.slot) : NULL;
}

static gboolean
is_plate (const Card *self)
{
  const CroRecipe *recipe = recipe_of (self);

  return recipe != NULL && recipe->is_plate;
}

static gboolean
is_batch (const Card *self)
{
  return recipe_of (self) != NULL && !is_plate (self);
}

/* --- Head --------------------------------------------------------------------------------------- */

static char *
dup_makes (const Card *self)
{
  const CroRecipe *plate = recipe_of (self);
  g_autofree char *makes = cro_words_decimal (plate->makes);
  g_autofree char *each = cro_words_decimal (plate->per_guest);
  /* Translators: a number of bites; how many of them a guest gets. */
  g_autofree char *text = g_strdup_printf (_("makes %s, %s per guest"), makes, each);

  if (plate->course == NULL || *plate->course == '\0')
    return g_steal_pointer (&text);
  return g_strdup_printf ("%s · %s", plate->course, text);
}

/* "450 g Crab butter", and what else a batch gives. */
static char *
dup_gives (const Card *self)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (self->figures, self->thing.slot, &outputs);
  g_autoptr (GString) list = g_string_new (NULL);

  for (guint32 i = 0; i < n; i++)
    {
      const CroItem *item = cro_model_item (self->model, outputs[i]);
      g_autofree char *amount = item->output.used > 0
                                    ? cro_words_amount ((CroBase) self->model->measures[outputs[i]].base,
                                                        item->output.used)
                                    : g_strdup (_("?"));
      g_autofree char *text = cro_isolate_printf ("%s %s", amount, item->name);

      g_string_append_printf (list, "%s%s", i > 0 ? " · " : "", text);
    }
  /* Translators: amounts and names of what a batch of a preparation gives. */
  return g_strdup_printf (_("A batch gives: %s"), list->str);
}

/* "95.00 (86.36 without tax)". */
static char *
dup_price (const Card *self,
           gint64      price,
           double      net_price)
{
  g_autofree char *gross = cro_words_price (self->model, price);
  g_autofree char *net = cro_words_money (self->model, net_price);

  /* Translators: a selling price, and the same without tax. */
  return g_strdup_printf (_("%s (%s without tax)"), gross, net);
}

static void
add_price (const Card *self,
           gint64      price)
{
  g_autofree char *text = NULL, *line = NULL;

  if (price == CRO_NOT_SET)
    return;
  text = dup_price (self, price, self->breakdown->figure.net_price);
  /* Translators: a selling price with and without tax. */
  line = g_strdup_printf (_("Price %s"), text);
  cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, line);
}

static void
add_menus (const Card *self)
{
  for (guint i = 0; i < self->model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (self->model->menu_plates, CroMenuPlate, i);
      CroFigure menu;
      g_autofree char *place = NULL, *price = NULL, *text = NULL;

      if (entry->is_dead || entry->plate != self->thing.slot)
        continue;
      menu = cro_figure_of_menu (self->figures, entry->menu);
      place = cro_words_place_on_menu (self->model, entry);
      price = cro_model_menu (self->model, entry->menu)->price != CRO_NOT_SET
                  ? dup_price (self, cro_model_menu (self->model, entry->menu)->price, menu.net_price)
                  : g_strdup (_("no price"));
      /* Translators: a menu that a plate stands on, and the price of the menu. */
      text = cro_isolate_printf (_("In %s: %s"), place, price);
      cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, text);
    }
}

static void
add_head (const Card *self,
          gboolean    rtl)
{
  g_autofree char *date = cro_date_to_text (self->figures->date);
  /* Translators: the title of a printed card, and the date of its prices. */
  g_autofree char *title = g_strdup_printf (_("Cost card · %s"), date);
  g_autofree char *subtitle = is_plate (self) ? dup_makes (self)
                              : is_batch (self) ? dup_gives (self)
                                                : NULL;

  cro_card_add_pair (self->paper, CRO_PAPER_PLAIN, self->model->name, title);
  cro_card_begin_beside (self->paper, self->book, self->thing, rtl);
  cro_paper_add_text (self->paper, CRO_PAPER_LARGE | CRO_PAPER_BOLD, 0, self->breakdown->figure.name);
  if (subtitle != NULL)
    cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, subtitle);
  if (is_plate (self))
    {
      add_price (self, recipe_of (self)->price);
      add_menus (self);
    }
  else if (!is_batch (self))
    add_price (self, cro_model_menu (self->model, self->thing.slot)->price);
  cro_paper_end_beside (self->paper);
}

/* --- Figures ------------------------------------------------------------------------------------ */

static char *
dup_result (const Card      *self,
            const CroFigure *figure,
            const char      *of)
{
  g_autofree char *result = cro_words_result (self->model, figure);
  g_autofree char *target = cro_words_target (self->model, figure);

  if (of == NULL)
    /* Translators: a percentage and on the next line what it is ("food cost") and its target. */
    return g_strdup_printf (_("%s\n%s, target %s"), result, cro_words_result_name (self->model), target);
  /* Translators: a percentage and on the next line a menu, what it is (“food cost”) and its target. */
  return cro_isolate_printf (_("%s\n%s: %s, target %s"), result, of,
                             cro_words_result_name (self->model), target);
}

/* What the plate's own price comes to, or else its tightest menu's. */
static char *
dup_result_of_card (const Card *self)
{
  const CroFigure *figure = &self->breakdown->figure;
  guint32 entry;
  CroFigure menu;

  if (!isnan (figure->net_price))
    return dup_result (self, figure, NULL);
  entry = is_plate (self) ? cro_tightest_menu (self->figures, self->thing.slot) : CRO_NO_SLOT;
  if (entry == CRO_NO_SLOT)
    return NULL;
  menu = cro_figure_of_menu (self->figures,
                             g_array_index (self->model->menu_plates, CroMenuPlate, entry).menu);
  return isnan (menu.net_price) ? NULL : dup_result (self, &menu, menu.name);
}

/* Gross profit and coefficient fall where food cost rises. */
static const char *
way_of_spare (const Card *self)
{
  gboolean is_over = self->breakdown->figure.is_over_target;

  /* Translators: these stand under money that a guest may cost more, or less, to meet the target. */
  if (self->model->speaks == CRO_SPEAKS_FOOD_COST)
    return is_over ? _("over target, per guest") : _("under target, per guest");
  return is_over ? _("below target, per guest") : _("above target, per guest");
}

static char *
dup_spare (const Card *self)
{
  g_autofree char *money = cro_words_spare_money (self->model, &self->breakdown->figure);

  if (money == NULL || cro_known_of_cost (&self->breakdown->figure) == CRO_KNOWN_NOTHING)
    return NULL;
  return g_strdup_printf ("%s\n%s", money, way_of_spare (self));
}

static char *
dup_minutes (const Card *self)
{
  const CroRecipe *recipe = recipe_of (self);
  g_autofree char *minutes = NULL;

  if (recipe == NULL || recipe->active_minutes <= 0)
    return NULL;
  minutes = cro_words_decimal (recipe->active_minutes);
  /* Translators: minutes of work, and on the next line what they are. */
  return g_strdup_printf (_("%s min\nactive"), minutes);
}

/* How wide a figure wants to be: in characters, the first line's being half as large again. */
static double
width_of (const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", 2);
  double figure = 1.5 * (double) g_utf8_strlen (lines[0], -1);

  return MAX (figure, lines[1] != NULL ? (double) g_utf8_strlen (lines[1], -1) : 0) + 3;
}

static void
add_figures (const Card *self)
{
  const CroFigure *figure = &self->breakdown->figure;
  g_autofree char *cost = cro_words_cost (self->model, figure);
  g_autofree char *prime = cro_words_prime (self->model, figure);
  /* Translators: money, and on the next line what it is. */
  g_autofree char *food = g_strdup_printf (is_batch (self) ? _("%s\nfood per batch")
                                                           : _("%s\nfood per guest"), cost);
  g_autofree char *result = dup_result_of_card (self);
  g_autofree char *spare = dup_spare (self);
  /* Translators: money, and on the next line what it is. */
  g_autofree char *both = g_strdup_printf (_("%s\nprime cost"), prime);
  g_autofree char *minutes = dup_minutes (self);
  const char *all[] = { food, result, spare, both, minutes };
  const char *there[G_N_ELEMENTS (all)];
  CroPaperColumn columns[G_N_ELEMENTS (all)];
  guint n = 0;

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    if (all[i] != NULL)
      {
        columns[n] = (CroPaperColumn){ .share = width_of (all[i]) };
        there[n++] = all[i];
      }
  cro_paper_add_space (self->paper, SPACE);
  cro_paper_add_row (self->paper, cro_paper_add_grid (self->paper, columns, n), CRO_PAPER_FRAMED, 0,
                     there);
}

static void
add_missing (const Card *self)
{
  GArray *missing = self->breakdown->missing;
  g_autoptr (GString) list = g_string_new (NULL);
  g_autofree char *text = NULL;

  if (missing->len == 0)
    return;
  for (guint i = 0; i < missing->len; i++)
    {
      g_autofree char *cause = cro_words_cause (&g_array_index (missing, CroCause, i));

      g_string_append_printf (list, "%s%s", i > 0 ? "; " : "", cause);
    }
  /* Translators: on a card, before what its cost lacks: “no price for Sea purslane”. */
  text = g_strdup_printf (_("Incomplete: %s"), list->str);
  cro_paper_add_space (self->paper, SPACE / 2.0);
  cro_paper_add_text (self->paper, CRO_PAPER_BOLD, 0, text);
}

/* --- The stream --------------------------------------------------------------------------------- */

/* 55 mm, and letters that stand 18 points apart in it. */
#define STREAM_HEIGHT 156
#define STREAM_FONT 7.5
#define MOST_BANDS 8

typedef struct
{
  CroStream            *stream;
  CroStreamLook         look;
  PangoFontDescription *font;
  char                 *scale;
} Stream;

static void
stream_free (gpointer data)
{
  Stream *self = data;

  cro_stream_free (self->stream);
  cro_stream_font_free (self->font);
  g_free (self->scale);
  g_free (self);
}

static void
draw_stream (cairo_t  *cairo,
             double    width,
             double    height,
             gpointer  user_data)
{
  const Stream *self = user_data;

  cro_stream_draw_in (self->stream, cairo, &self->look, 0, 0, width, height);
}

/* Black on white, hatched: of money, with the sentence that says most of it. */
static void
add_stream (const Card *self,
            gboolean    rtl)
{
  g_autofree char *says = NULL;
  Stream *stream;

  if (!cro_flow_stream_shows (self->figures, self->thing, CRO_FLOW_MONEY))
    return;
  stream = g_new0 (Stream, 1);
  stream->stream = cro_flow_stream_new (self->figures, self->thing, CRO_FLOW_MONEY, NULL);
  stream->font = cro_stream_font_new (STREAM_FONT);
  stream->look = (CroStreamLook){
    .palette = CRO_STREAM_PRINT,
    .font = stream->font,
    .is_mirrored = rtl,
    .most_components = MOST_BANDS,
    .most_bought = MOST_BANDS,
    .near_title = cro_flow_stream_near (self->model, self->thing),
    .far_title = cro_flow_stream_far (),
  };
  stream->scale = cro_flow_stream_scale (self->model, CRO_FLOW_MONEY, self->breakdown->figure.cost,
                                         &stream->look.scale_width);
  stream->look.scale = stream->scale;
  says = cro_words_made_of (self->figures, self->thing, CRO_FLOW_MONEY);
  cro_paper_begin_block (self->paper);
  cro_paper_add_space (self->paper, SPACE);
  if (says != NULL)
    cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, says);
  cro_paper_add_picture (self->paper, STREAM_HEIGHT, draw_stream, stream, stream_free);
}

/* --- Lines -------------------------------------------------------------------------------------- */

enum
{
  NAME,
  AMOUNT,
  YIELD,
  PRICE,
  SOURCE,
  COST,
  SHARE,
  N_COLUMNS,
};

static guint
add_grid (const Card *self,
          const char *title)
{
  static const CroPaperColumn columns[N_COLUMNS] = {
    [NAME] = { .share = 1.2 },
    [AMOUNT] = { .is_number = TRUE },
    [YIELD] = { .is_number = TRUE },
    [PRICE] = { .is_number = TRUE },
    [SOURCE] = { .share = 1, .is_small = TRUE },
    [COST] = { .is_number = TRUE },
    [SHARE] = { .is_number = TRUE },
  };
  /* Translators: the head of a narrow column: per cents of what is bought, or goes in. */
  const char *yield = C_("column of a card", "yield");
  const char *heads[N_COLUMNS] = {
    [NAME] = title,           [AMOUNT] = _("amount"), [YIELD] = yield, [PRICE] = _("price"),
    [SOURCE] = _("supplier"), [COST] = _("cost"),     [SHARE] = _("share"),
  };
  guint grid = cro_paper_add_grid (self->paper, columns, N_COLUMNS);

  cro_paper_set_heads (self->paper, grid, heads);
  return grid;
}

/* Of a line, or of what the batch of its item gives of what goes in. NULL: all of it. */
static char *
dup_yield (const Card       *self,
           const CroCardRow *row)
{
  CroModel *model = self->model;
  const CroItem *item = row->item != CRO_NO_SLOT ? cro_model_item (model, row->item) : NULL;
  gint64 yield = CRO_WHOLE_PCT;

  if (row->line != CRO_NO_SLOT)
    yield = cro_line_yield (&model->lines, row->line, &model->measures[row->item]);
  if (yield == CRO_WHOLE_PCT && item != NULL && model->maker[row->item] >= 0
      && item->output.amount == 0 && item->output.yield > 0)
    yield = item->output.yield;
  return yield != CRO_WHOLE_PCT ? cro_words_pct (cro_decimal_to_double (yield)) : NULL;
}

static gboolean
is_bought (const Card       *self,
           const CroCardRow *row)
{
  return row->item != CRO_NO_SLOT && self->model->maker[row->item] < 0;
}

/* "13.20/kg"; NULL of what is made. */
static char *
dup_unit_cost (const Card       *self,
               const CroCardRow *row)
{
  if (!is_bought (self, row))
    return NULL;
  if (self->figures->offer_in_use[row->item] == CRO_NO_SLOT)
    return g_strdup (_("no price"));
  return cro_words_unit_cost (self->model, (CroBase) self->model->measures[row->item].base,
                              cro_figures_unit_cost (self->figures, row->item));
}

/* "Quay Shellfish 101, 24 Nov 2026" of what is bought; NULL of what is made. */
static char *
dup_source (const Card       *self,
            const CroCardRow *row)
{
  CroModel *model = self->model;
  guint32 slot = is_bought (self, row) ? self->figures->offer_in_use[row->item] : CRO_NO_SLOT;
  const CroOfferEntry *offer;
  g_autofree char *last = NULL, *since = NULL, *supplier = NULL;

  if (slot == CRO_NO_SLOT)
    return NULL;
  if (cro_figures_unit_cost (self->figures, row->item) == 0)
    return cro_words_costs (model, (CroBase) model->measures[row->item].base, 0);
  offer = cro_model_offer (model, slot);
  last = cro_words_last_price (self->figures, row->item);
  since = cro_date_to_text (offer->offer.from);
  supplier = offer->code != NULL && *offer->code != '\0'
                 ? cro_isolate_printf ("%s %s", cro_ref_name (model, CRO_REF (CRO_REF_OFFER, slot)),
                                       offer->code)
                 : cro_isolate (cro_ref_name (model, CRO_REF (CRO_REF_OFFER, slot)));
  return g_strdup_printf ("%s, %s", supplier, last != NULL ? last : since);
}

static void
add_line (const Card       *self,
          guint             grid,
          const CroCardRow *row,
          gint64            minor,
          double            total)
{
  g_autofree char *name = cro_words_card_name (self->model, self->thing.slot, row);
  g_autofree char *amount = cro_words_card_amount (self->model, row);
  g_autofree char *yield = dup_yield (self, row);
  g_autofree char *price = dup_unit_cost (self, row);
  g_autofree char *source = dup_source (self, row);
  g_autofree char *money = cro_money_to_text (minor, cro_currency_digits (self->model->currency));
  g_autofree char *cost = cro_words_known_short (
      cro_known_of_card_row (self->figures, self->thing.slot, row), money);
  g_autofree char *share = cro_words_card_share (self->figures, self->thing.slot, row, total, TRUE);
  const char *cells[N_COLUMNS] = {
    [NAME] = name,     [AMOUNT] = amount, [YIELD] = yield, [PRICE] = price,
    [SOURCE] = source, [COST] = cost,     [SHARE] = share,
  };

  /* A component and all that it is made of stand together. */
  if (row->depth == 0)
    cro_paper_begin_block (self->paper);
  cro_paper_add_row (self->paper, grid, CRO_PAPER_PLAIN, FONT * MIN (row->depth, 8), cells);
}

static void
add_total (const Card *self,
           guint       grid,
           gint64      total)
{
  g_auto (CroTotalWords) words = { 0 };
  CroKnown known = cro_known_of_recipe (self->figures, self->thing.slot);
  g_autofree char *money = cro_money_to_text (total, cro_currency_digits (self->model->currency));
  g_autofree char *sum = cro_words_known_short (known, money);
  const char *cells[N_COLUMNS] = { [NAME] = _("Total"), [COST] = sum };

  cro_words_total_of_lines (self->figures, self->thing.slot, total, 0, &words);
  cro_paper_begin_block (self->paper);
  cro_paper_add_row (self->paper, grid, CRO_PAPER_BOLD | CRO_PAPER_RULED, 0, cells);
  if (words.kinds != NULL)
    cro_paper_add_text (self->paper, CRO_PAPER_BOLD, 0, words.kinds);
  if (known != CRO_KNOWN_WHOLE)
    cro_paper_add_text (self->paper, CRO_PAPER_SMALL, 0,
                        _("≥ at least, ≤ at most, ? not known, or known in part: something is "
                          "missing."));
}

static void
add_lines (const Card *self)
{
  const CroRecipe *recipe = recipe_of (self);
  int digits = cro_currency_digits (self->model->currency);
  g_autoptr (GArray) rows = cro_card_new (self->figures, self->thing.slot);
  double total = cro_landing_total (self->figures, self->thing.slot)
                 * (recipe->is_plate ? cro_plate_share (CRO_MICRO, CRO_MICRO, recipe->allowance) : 1);
  gint64 minor_total = cro_money_round (total, digits);
  g_autofree gint64 *minor = cro_card_dup_minor (rows, minor_total, digits);
  g_autofree char *makes = cro_words_decimal (recipe->makes);
  /* Translators: a number of bites. */
  g_autofree char *title = recipe->is_plate ? g_strdup_printf (_("Made of, for %s"), makes)
                                            : g_strdup (_("Made of, for one batch"));
  guint grid = add_grid (self, title);

  cro_paper_add_space (self->paper, SPACE);
  for (guint i = 0; i < rows->len; i++)
    add_line (self, grid, &g_array_index (rows, CroCardRow, i), minor[i], total);
  add_total (self, grid, minor_total);
}

/* --- Below the lines ---------------------------------------------------------------------------- */

static void
add_bite (const Card *self)
{
  const CroFigure *figure = &self->breakdown->figure;
  GArray *missing = self->breakdown->missing;
  double bites = cro_decimal_to_double (recipe_of (self)->per_guest);
  g_autofree char *food = cro_words_bite (self->model, figure);
  g_autofree char *disposables = cro_words_known_money (
      self->model, cro_known_of_disposables (self->figures, self->thing, figure, missing),
      figure->disposables / bites);
  g_autofree char *labour = cro_words_known_money (
      self->model, cro_known_of_labour (figure, missing), figure->labour / bites);
  /* Translators: what one bite costs: three amounts of money. */
  g_autofree char *text = g_strdup_printf (_("Per bite: food %s, disposables %s, labour %s"), food,
                                           disposables, labour);

  cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, text);
}

/* What outputs of a batch bear, and come to per unit. */
static void
add_outputs (const Card *self)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (self->figures, self->thing.slot, &outputs);
  g_auto (GStrv) texts = cro_landing_dup_texts (
      self->figures, self->thing.slot, (CroRule) recipe_of (self)->rule);

  for (guint32 i = 0; i < n; i++)
    {
      g_autofree char *unit = cro_words_item_cost (self->figures, outputs[i]);
      /* Translators: an output of a batch; the money it bears; its cost per kg. */
      g_autofree char *text = cro_isolate_printf (_("%s: %s per batch, %s"),
                                                  cro_model_item (self->model, outputs[i])->name,
                                                  texts[i], unit);

      cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, text);
    }
}

static gboolean
is_told (const CroCeiling     *ceiling,
         const CroShareOfCost *share)
{
  return !isnan (ceiling->unit_cost) && ceiling->unit_cost <= FAR_OFF * share->unit_cost;
}

/* "Brown crab at most 29.34/kg, 146.72 per pack (Tide)". */
static char *
dup_ceiling (const Card           *self,
             const CroCeiling     *ceiling,
             const CroShareOfCost *share)
{
  CroBase base = (CroBase) self->model->measures[share->item].base;
  g_autofree char *unit = cro_words_ceiling (self->model, base, ceiling->unit_cost, share->unit_cost);
  g_autofree char *known = cro_words_known (ceiling->known, unit);
  g_autofree char *pack = cro_words_ceiling_pack (self->figures, share->item, ceiling->pack,
                                                  ceiling->pack * share->unit_cost / ceiling->unit_cost);

  /* Translators: an ingredient, what may be paid per kg and per pack, whose target that keeps. */
  return cro_isolate_printf (_("%s %s, %s per pack (%s)"),
                             cro_model_item (self->model, share->item)->name, known, pack,
                             ceiling->holder);
}

static void
add_ceilings (const Card *self)
{
  GArray *shares = self->breakdown->ingredients;
  g_autoptr (GArray) ceilings = is_plate (self)
                                    ? cro_ceilings_of_plate (self->figures, self->thing.slot,
                                                             self->breakdown)
                                    : cro_ceilings_of_menu (self->figures, self->breakdown);
  g_autoptr (GString) list = g_string_new (NULL);
  g_autofree char *text = NULL;
  guint n = 0;

  for (guint i = 0; i < shares->len && n < MOST_CEILINGS; i++)
    {
      const CroCeiling *ceiling = &g_array_index (ceilings, CroCeiling, i);
      const CroShareOfCost *share = &g_array_index (shares, CroShareOfCost, i);
      g_autofree char *one = NULL;

      if (!is_told (ceiling, share))
        continue;
      one = dup_ceiling (self, ceiling, share);
      g_string_append_printf (list, "%s%s", n++ > 0 ? "; " : "", one);
    }
  if (n == 0)
    return;
  /* Translators: prices of ingredients up to which the target is kept. */
  text = g_strdup_printf (_("Can be paid up to, all else equal: %s"), list->str);
  cro_paper_begin_block (self->paper);
  cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, text);
}

static void
add_below (const Card *self)
{
  g_autoptr (GPtrArray) texts = cro_words_below_card (self->book, self->thing, self->breakdown);

  cro_paper_begin_block (self->paper);
  cro_paper_add_space (self->paper, SPACE);
  cro_card_add_texts (self->paper, CRO_PAPER_PLAIN, texts);
  cro_paper_begin_block (self->paper);
  cro_paper_add_space (self->paper, SPACE / 2.0);
  cro_paper_add_text (self->paper, CRO_PAPER_SMALL, 0, cro_words_caution ());
}

/* --- A menu's plates ---------------------------------------------------------------------------- */

static void
add_plate (const Card         *self,
           guint               grid,
           const CroMenuPlate *entry,
           gint64              minor)
{
  CroFigure plate = cro_figure_of_plate (self->figures, entry->plate);
  CroPartOfMenu part = cro_part_of_menu (self->figures, entry, &plate);
  g_autofree char *servings = cro_words_decimal (entry->servings);
  g_autofree char *taken = cro_words_taken (self->model, entry);
  g_autofree char *money = cro_money_to_text (minor, cro_currency_digits (self->model->currency));
  g_autofree char *cost = cro_words_known (cro_known_of_cost (&plate), money);
  g_autofree char *share = cro_words_part_of_cost (&part, &plate);
  g_autofree char *name = taken != NULL ? g_strdup_printf ("%s\n%s", plate.name, taken)
                                        : g_strdup (plate.name);
  const char *cells[] = { name, servings, cost, share };

  cro_paper_begin_block (self->paper);
  cro_paper_add_row (self->paper, grid, CRO_PAPER_PLAIN, 0, cells);
}

static void
add_plates (const Card *self)
{
  static const CroPaperColumn columns[] = {
    { .share = 1 }, { .is_number = TRUE }, { .is_number = TRUE }, { .is_number = TRUE },
  };
  const char *heads[] = { _("Made of, per guest"), _("servings"), _("cost"), _("share") };
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (self->model, self->thing.slot);
  g_autofree gint64 *minor = cro_menu_dup_minor (self->figures, self->thing.slot);
  g_autofree char *cost = cro_words_cost (self->model, &self->breakdown->figure);
  const char *sum[] = { _("Food"), NULL, cost, NULL };
  guint grid = cro_paper_add_grid (self->paper, columns, G_N_ELEMENTS (columns));

  cro_paper_set_heads (self->paper, grid, heads);
  cro_paper_add_space (self->paper, SPACE);
  for (guint i = 0; i < plates->len; i++)
    add_plate (self, grid, plates->pdata[i], minor[i]);
  cro_paper_begin_block (self->paper);
  cro_paper_add_row (self->paper, grid, CRO_PAPER_BOLD | CRO_PAPER_RULED, 0, sum);
}

CroPaper *
cro_cost_card_new (CroBook  *book,
                   CroRef    thing,
                   gboolean  rtl)
{
  CroFigures *figures = cro_book_get_figures (book);
  g_autoptr (CroBreakdown) breakdown = cro_card_breakdown (figures, thing);
  Card self = { book, figures, figures->model, thing, breakdown,
                cro_paper_new (breakdown->figure.name, FONT, rtl) };

  cro_card_add_trial (self.paper, book);
  add_head (&self, rtl);
  add_figures (&self);
  add_missing (&self);
  add_stream (&self, rtl);
  cro_paper_begin_block (self.paper);
  if (thing.kind == CRO_REF_MENU)
    add_plates (&self);
  else
    add_lines (&self);
  if (is_plate (&self))
    add_bite (&self);
  else if (is_batch (&self))
    add_outputs (&self);
  if (!is_batch (&self))
    add_ceilings (&self);
  add_below (&self);
  cro_card_set_foot (self.paper, book);
  return self.paper;
}
