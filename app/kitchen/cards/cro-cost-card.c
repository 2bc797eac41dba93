#include "config.h"

#include "cro-cost-card.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-card-sheet.h"
#include "cro-card-words.h"
#include "cro-cost-card-private.h"
#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-flow-words.h"
#include "cro-isolate.h"
#include "cro-landing.h"
#include "cro-last-price.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-plate.h"
#include "cro-result-words.h"
#include "cro-source-words.h"
#include "cro-words.h"

#define FONT 10

/* Of what is bought, on a card at most so many ceilings, none of them beyond so many times the price. */
#define MOST_CEILINGS 4
#define FAR_OFF 3

/* --- The stream --------------------------------------------------------------------------------- */

/* 55 mm, or 45 where a picture takes as much, and a little less where that saves a page; letters of ten bands
 * stand apart in either. */
#define STREAM_HEIGHT 156
#define STREAM_HEIGHT_BESIDE 128
#define LEAST_STREAM_HEIGHT 122
#define STREAM_FONT 7.5
#define MOST_BANDS 8

typedef struct
{
  CroStream            *stream;
  CroStreamLook         look;
  PangoFontDescription *font;
} Stream;

static void
stream_free (gpointer data)
{
  Stream *self = data;

  cro_stream_free (self->stream);
  cro_stream_font_free (self->font);
  g_free (self);
}

static void
draw_stream (cairo_t *cairo,
             double   width,
             double   height,
             gpointer user_data)
{
  const Stream *self = user_data;

  cro_stream_draw_in (self->stream, cairo, &self->look, 0, 0, width, height);
}

/* Black on white, hatched: of money. */
static void
add_stream (const CroCostCard *self,
            double             height,
            gboolean           rtl)
{
  g_autofree char *includes = cro_words_bands_include (self->model, self->thing);
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
  cro_paper_begin_block (self->paper);
  cro_paper_add_space (self->paper, SPACE);
  cro_paper_add_picture (self->paper, LEAST_STREAM_HEIGHT, height, draw_stream, stream, stream_free);
  if (includes != NULL)
    cro_paper_add_text (self->paper, CRO_PAPER_SMALL, 0, includes);
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
add_grid (const CroCostCard *self,
          const char        *title)
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
dup_yield (const CroCostCard *self,
           const CroCardRow  *row)
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
is_bought (const CroCostCard *self,
           const CroCardRow  *row)
{
  return row->item != CRO_NO_SLOT && self->model->maker[row->item] < 0;
}

/* "13.20/kg"; NULL of what is made. */
static char *
dup_unit_cost (const CroCostCard *self,
               const CroCardRow  *row)
{
  if (!is_bought (self, row))
    return NULL;
  if (self->figures->offer_in_use[row->item] == CRO_NO_SLOT)
    return g_strdup (cro_words_offer_lacks (self->figures->offer_lacks[row->item]));
  return cro_words_unit_cost (self->model, (CroBase) self->model->measures[row->item].base,
                              cro_figures_unit_cost (self->figures, row->item));
}

/* "Quay Shellfish 101, 24 Nov 2026" of what is bought; NULL of what is made. */
static char *
dup_source (const CroCostCard *self,
            const CroCardRow  *row)
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
add_line (const CroCostCard *self,
          guint              grid,
          const CroCardRow  *row,
          gint64             minor,
          double             share_pct)
{
  g_autofree char *name = cro_words_card_name (self->model, self->thing.slot, row);
  g_autofree char *amount = cro_words_card_amount (self->model, row);
  g_autofree char *yield = dup_yield (self, row);
  g_autofree char *price = dup_unit_cost (self, row);
  g_autofree char *source = dup_source (self, row);
  g_autofree char *money = cro_money_to_text (minor, cro_currency_digits (self->model->currency));
  g_autofree char *cost = cro_words_known_short (
      cro_known_of_card_row (self->figures, self->thing.slot, row), money);
  g_autofree char *share = cro_words_card_share (self->figures, self->thing.slot, row, share_pct, TRUE);
  const char *cells[N_COLUMNS] = {
    [NAME] = name,     [AMOUNT] = amount, [YIELD] = yield, [PRICE] = price,
    [SOURCE] = source, [COST] = cost,     [SHARE] = share,
  };

  /* A component and all that it is made of stand together, but where that leaves much of a page white. */
  if (row->depth == 0)
    cro_paper_begin_block (self->paper);
  /* The plate's own lines are what one reads first. */
  cro_paper_add_row (self->paper, grid, row->depth > 0 ? CRO_PAPER_SMALL : CRO_PAPER_PLAIN,
                     FONT * MIN (row->depth, 8), cells);
}

static void
add_total (const CroCostCard *self,
           guint              grid,
           gint64             total)
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
add_lines (const CroCostCard *self)
{
  const CroRecipe *recipe = recipe_of (self);
  int digits = cro_currency_digits (self->model->currency);
  g_autoptr (GArray) rows = cro_card_new (self->figures, self->thing.slot);
  double total = cro_landing_total (self->figures, self->thing.slot)
                 * (recipe->is_plate ? cro_plate_share (CRO_MICRO, CRO_MICRO, recipe->allowance) : 1);
  gint64 minor_total = cro_money_round (total, digits);
  g_autofree gint64 *minor = cro_card_dup_minor (rows, minor_total, digits);
  g_autofree double *shares = cro_card_dup_shares (rows, total);
  g_autofree char *makes = cro_words_decimal (recipe->makes);
  /* Translators: a number of bites. */
  g_autofree char *title = recipe->is_plate ? g_strdup_printf (_("Made of, for %s"), makes)
                                            : g_strdup (_("Made of, for one batch"));
  guint grid = add_grid (self, title);

  cro_paper_set_flowing (self->paper, TRUE);
  cro_paper_add_space (self->paper, SPACE);
  for (guint i = 0; i < rows->len; i++)
    add_line (self, grid, &g_array_index (rows, CroCardRow, i), minor[i], shares[i]);
  cro_paper_set_flowing (self->paper, FALSE);
  add_total (self, grid, minor_total);
}

/* --- Below the lines ---------------------------------------------------------------------------- */

static void
add_bite (const CroCostCard *self)
{
  const CroFigure *figure = &self->breakdown->figure;
  GArray *missing = self->breakdown->missing;
  double bites = cro_decimal_to_double (recipe_of (self)->per_guest);
  g_autofree char *food = cro_words_bite (self->model, figure);
  g_autofree char *disposables = cro_words_known_money (
      self->model, cro_known_of_disposables (self->figures, self->thing, figure, missing),
      figure->disposables / bites);
  g_autofree char *labour = cro_words_known_money (
      self->model, cro_known_of_labour (self->model, figure, missing), figure->labour / bites);
  gboolean is_timed = cro_known_has_labour (self->model, figure->labour,
                                            cro_known_of_labour (self->model, figure, missing));
  g_autofree char *text
      = is_timed
            /* Translators: what one bite costs: three amounts of money. */
            ? g_strdup_printf (_("Per bite: food %s, disposables %s, labour %s"), food, disposables, labour)
            /* Translators: what one bite costs: two amounts of money, and that there are no minutes of work. */
            : g_strdup_printf (_("Per bite: food %s, disposables %s; %s"), food, disposables,
                               cro_words_no_minutes ());

  cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, text);
}

/* What outputs of a batch bear, and come to per unit. */
static void
add_outputs (const CroCostCard *self)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (self->figures, self->thing.slot, &outputs);
  g_auto (GStrv) texts = cro_landing_dup_texts (
      self->figures, self->thing.slot, (CroRule) recipe_of (self)->rule);

  for (guint32 i = 0; i < n; i++)
    {
      g_autofree char *unit = cro_words_item_cost (self->figures, outputs[i]);
      CroKnown known = cro_known_of_landing (self->figures, self->thing.slot, (CroRule) recipe_of (self)->rule, i,
                                             !g_str_equal (texts[i], CRO_LANDING_NOWHERE));
      g_autofree char *money = cro_words_known (known, texts[i]);
      /* Translators: an output of a batch; the money it bears; its cost per kg. */
      g_autofree char *text = cro_isolate_printf (_("%s: %s per batch, %s"),
                                                  cro_model_item (self->model, outputs[i])->name,
                                                  money, unit);

      cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, text);
    }
}

static gboolean
is_told (const CroCeiling     *ceiling,
         const CroShareOfCost *share)
{
  return !isnan (ceiling->unit_cost) && ceiling->unit_cost <= FAR_OFF * share->unit_cost;
}

/* "Brown crab 29.34/kg, 146.72 per pack (Tide)"; "Butter over even as a gift (Tide)". */
static char *
dup_ceiling (const CroCostCard    *self,
             const CroCeiling     *ceiling,
             const CroShareOfCost *share)
{
  CroBase base = (CroBase) self->model->measures[share->item].base;
  const char *name = cro_model_item (self->model, share->item)->name;
  g_autofree char *unit = NULL, *known = NULL, *pack = NULL, *known_pack = NULL;

  if (ceiling->unit_cost < 0)
    /* Translators: an ingredient, and whose target it goes over. */
    return cro_isolate_printf (_("%s over even as a gift (%s)"), name, ceiling->holder);
  unit = cro_words_ceiling (self->model, base, ceiling->unit_cost, share->unit_cost);
  known = cro_words_known (ceiling->known, unit);
  pack = cro_words_ceiling_pack (self->figures, share->item, ceiling->pack,
                                 ceiling->pack * share->unit_cost / ceiling->unit_cost);
  known_pack = cro_words_known (ceiling->known, pack);
  /* Translators: an ingredient, what may be paid per kg and per pack, whose target that keeps. */
  return cro_isolate_printf (_("%s %s, %s per pack (%s)"), name, known, known_pack, ceiling->holder);
}

static void
add_ceilings (const CroCostCard *self)
{
  GArray *shares = self->breakdown->ingredients;
  g_autoptr (GArray) ceilings = is_plate (self)
                                    ? cro_ceilings_of_plate (self->figures, self->thing.slot,
                                                             self->breakdown)
                                    : cro_ceilings_of_menu (self->figures, self->thing.slot,
                                                            self->breakdown);
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
      g_string_append_printf (list, "%s%s", n++ > 0 ? _("; ") : "", one);
    }
  if (n == 0)
    return;
  /* Translators: prices of ingredients up to which the target is kept. */
  text = g_strdup_printf (_("Can be paid up to, all else equal: %s"), list->str);
  cro_paper_begin_block (self->paper);
  cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, text);
}

static void
add_below (const CroCostCard *self)
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
add_plate (const CroCostCard  *self,
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
add_plates (const CroCostCard *self)
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
cro_cost_card_new (CroBook *book,
                   CroRef   thing,
                   gboolean rtl)
{
  CroFigures *figures = cro_book_get_figures (book);
  g_autoptr (CroBreakdown) breakdown = cro_card_breakdown (figures, thing);
  CroCostCard self = { book, figures, figures->model, thing, breakdown,
                cro_paper_new (breakdown->figure.name, FONT, rtl) };
  gboolean is_pictured;

  cro_card_add_trial (self.paper, book);
  is_pictured = cro_cost_card_add_head (&self, rtl);
  cro_cost_card_add_figures (&self);
  add_stream (&self, is_pictured ? STREAM_HEIGHT_BESIDE : STREAM_HEIGHT, rtl);
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
