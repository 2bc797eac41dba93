/* The head of a cost card: whose it is, and its figures. */
#include "config.h"

#include "cro-cost-card-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-card-sheet.h"
#include "cro-card-words.h"
#include "cro-figure-words.h"
#include "cro-flow-words.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-result-words.h"
#include "cro-words.h"

static char *
dup_makes (const CroCostCard *self)
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
dup_gives (const CroCostCard *self)
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
dup_price (const CroCostCard *self,
           gint64             price,
           const CroFigure   *figure)
{
  g_autofree char *gross = cro_words_price (self->model, price);
  g_autofree char *net = cro_words_money (self->model, figure->net_price);

  if (cro_words_untaxed (figure) != NULL)
    return g_strdup_printf ("%s (%s)", gross, cro_words_untaxed (figure));
  /* Translators: a selling price, and the same without tax. */
  return g_strdup_printf (_("%s (%s without tax)"), gross, net);
}

static void
add_price (const CroCostCard *self,
           gint64             price)
{
  g_autofree char *text = NULL, *line = NULL;

  if (price == CRO_NOT_SET)
    return;
  text = dup_price (self, price, &self->breakdown->figure);
  /* Translators: a selling price with and without tax. */
  line = g_strdup_printf (_("Price %s"), text);
  cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, line);
}

static void
add_menus (const CroCostCard *self)
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
                  ? dup_price (self, cro_model_menu (self->model, entry->menu)->price, &menu)
                  : g_strdup (_("no price"));
      /* Translators: a menu that a plate stands on, and the price of the menu. */
      text = cro_isolate_printf (_("In %s: %s"), place, price);
      cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, text);
    }
}

static void
add_missing (const CroCostCard *self)
{
  GArray *missing = self->breakdown->missing;
  g_autoptr (GString) list = g_string_new (NULL);
  g_autofree char *text = NULL;

  if (missing->len == 0)
    return;
  for (guint i = 0; i < missing->len; i++)
    {
      g_autofree char *cause = cro_words_cause (&g_array_index (missing, CroCause, i));

      g_string_append_printf (list, "%s%s", i > 0 ? _("; ") : "", cause);
    }
  /* Translators: on a card, before what its cost lacks: “no price for Sea purslane”. */
  text = g_strdup_printf (_("Incomplete: %s"), list->str);
  cro_paper_add_text (self->paper, CRO_PAPER_BOLD, 0, text);
}

/* "Brown crab is 0.46 of at least 0.84; Trout roe 0.19": most of it in one sentence. */
static void
add_sentence (const CroCostCard *self)
{
  g_autofree char *says = cro_flow_stream_shows (self->figures, self->thing, CRO_FLOW_MONEY)
                              ? cro_words_made_of (self->figures, self->thing, CRO_FLOW_MONEY)
                              : NULL;

  if (says != NULL)
    cro_paper_add_text (self->paper, CRO_PAPER_PLAIN, 0, says);
}

gboolean
cro_cost_card_add_head (const CroCostCard *self,
                        gboolean           rtl)
{
  g_autofree char *question = cro_words_card_prices (self->book);
  /* Translators: the title of a printed card, and which question it answers: "prices of 28 Nov 2026", "the book of
   * 3 Nov 2026". */
  g_autofree char *title = g_strdup_printf (_("Cost card · %s"), question);
  g_autofree char *subtitle = is_plate (self) ? dup_makes (self)
                              : is_batch (self) ? dup_gives (self)
                                                : NULL;
  gboolean is_pictured;

  cro_card_add_pair (self->paper, CRO_PAPER_PLAIN, self->model->name, title);
  is_pictured = cro_card_begin_beside (self->paper, self->book, self->thing, rtl);
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
  add_missing (self);
  add_sentence (self);
  cro_paper_end_beside (self->paper);
  return is_pictured;
}

/* --- Figures ------------------------------------------------------------------------------------ */

static char *
dup_result (const CroCostCard *self,
            const CroFigure   *figure,
            const char        *of)
{
  g_autofree char *result = cro_words_result (self->model, figure);
  g_autofree char *target = cro_words_target (self->model, figure);

  if (of == NULL)
    /* Translators: a percentage and on the next line what it is ("food cost") and its target. */
    return cro_isolate_printf (_("%s\n%s, target %s"), result, cro_words_result_name (self->model), target);
  /* Translators: a percentage and on the next line a menu, what it is (“food cost”) and its target. */
  return cro_isolate_printf (_("%s\n%s: %s, target %s"), result, of,
                             cro_words_result_name (self->model), target);
}

/* What the plate's own price comes to, or else its tightest menu's. */
static char *
dup_result_of_card (const CroCostCard *self)
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
way_of_spare (const CroCostCard *self)
{
  gboolean is_over = self->breakdown->figure.is_over_target;

  /* Translators: these stand under money that a guest may cost more, or less, to meet the target. */
  if (self->model->speaks == CRO_SPEAKS_FOOD_COST)
    return is_over ? _("over target, per guest") : _("under target, per guest");
  return is_over ? _("below target, per guest") : _("above target, per guest");
}

static char *
dup_spare (const CroCostCard *self)
{
  g_autofree char *money = cro_words_spare_money (self->model, &self->breakdown->figure);

  if (money == NULL || cro_known_of_cost (&self->breakdown->figure) == CRO_KNOWN_NOTHING)
    return NULL;
  return g_strdup_printf ("%s\n%s", money, way_of_spare (self));
}

static char *
dup_minutes (const CroCostCard *self)
{
  const CroRecipe *recipe = recipe_of (self);
  g_autofree char *minutes = NULL;

  if (recipe == NULL || recipe->active_minutes <= 0)
    return NULL;
  minutes = cro_words_decimal (recipe->active_minutes);
  /* Translators: minutes of work, and on the next line what they are. */
  return g_strdup_printf (_("%s min\nactive"), minutes);
}

/* Of a batch that lacks a value alone, its food and its labour are known. */
static char *
dup_prime (const CroCostCard *self)
{
  const CroFigure *figure = &self->breakdown->figure;

  if (is_batch (self) && cro_known_of_recipe (self->figures, self->thing.slot) == CRO_KNOWN_WHOLE
      && cro_known_of_labour (self->model, figure, self->breakdown->missing) == CRO_KNOWN_WHOLE)
    return cro_words_money (self->model, figure->cost + figure->labour);
  return cro_words_prime (self->model, figure);
}

/* How wide a figure wants to be: in characters, the first line's being half as large again. */
static double
width_of (const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", 2);
  double figure = 1.5 * (double) g_utf8_strlen (lines[0], -1);

  return MAX (figure, lines[1] != NULL ? (double) g_utf8_strlen (lines[1], -1) : 0) + 3;
}

void
cro_cost_card_add_figures (const CroCostCard *self)
{
  const CroFigure *figure = &self->breakdown->figure;
  g_autofree char *cost = cro_card_dup_cost (self->figures, self->thing, figure);
  g_autofree char *prime = dup_prime (self);
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
