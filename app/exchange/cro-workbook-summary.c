/* The first sheet: what every plate and menu costs, against its target. */
#include "cro-workbook-private.h"

#include <math.h>
#include <string.h>

#include "cro-money.h"

static const CroWorkbookTextId heads[] = {
  CRO_WT_PLATE,       CRO_WT_COURSE,   CRO_WT_BITE,      CRO_WT_GUEST,        CRO_WT_LABOUR,
  CRO_WT_DISPOSABLES, CRO_WT_PRIME,    CRO_WT_PRICE,     CRO_WT_TAX,          CRO_WT_NET_PRICE,
  CRO_WT_FOOD_COST_PCT, CRO_WT_TARGET, CRO_WT_TO_SPARE,  CRO_WT_PRICE_FOR_TARGET, CRO_WT_VERDICT,
  CRO_WT_MISSING,     CRO_WT_ALLERGENS,
};

/* Heads up to there where the house speaks otherwise than in food-cost percentages. */
#define N_TURNED ('Y' - 'A' + 1)

/* The column of a plate's part of a menu's food, from 0: after those of how it is rounded. */
#define PART_OF_FOOD ('W' - 'A')

static double
or_zero (double value)
{
  return isnan (value) ? 0 : value;
}

/* --- The settings of the book ---------------------------------------------------------------------- */

static void
write_setting (CroWorkbook       *self,
               CroWorkbookTextId  label,
               CroStyle           style,
               double             value)
{
  cro_pen_text (&self->summary, 'A', CRO_STYLE_TEXT, cro_workbook_text (self, label));
  cro_pen_number (&self->summary, 'B', style, value);
  cro_pen_next_row (&self->summary);
}

static void
write_top (CroWorkbook *self)
{
  const CroWorkbookBook *book = &self->source->book;
  CroPen *pen = &self->summary;
  char date[CRO_DATE_CHARS];
  g_autofree char *about = NULL;
  CroPlace ties = { self->totals.quoted, "A", CRO_ROW_HEAD - 1 };
  CroPlace since = { self->totals.quoted, "B", CRO_ROW_HEAD - 1 };
  CroPlace totals = { self->totals.quoted, "A", 1 };

  cro_date_format (book->date, date);
  about = g_strdup_printf ("%s %s%s%s", cro_workbook_text (self, CRO_WT_ABOUT_SUMMARY), date,
                           book->currency != NULL ? ", " : "",
                           book->currency != NULL ? book->currency : "");
  cro_pen_text (pen, 'A', CRO_STYLE_TITLE, book->name);
  cro_pen_next_row (pen);
  cro_pen_text (pen, 'A', CRO_STYLE_ABOUT, about);
  cro_pen_next_row (pen);
  cro_pen_next_row (pen);
  write_setting (self, CRO_WT_WAGE, CRO_STYLE_INPUT_MONEY, book->wage);
  write_setting (self, CRO_WT_TAX, CRO_STYLE_INPUT_PCT, book->tax);
  write_setting (self, cro_workbook_target_input_text (self), CRO_STYLE_INPUT_PCT, book->target);
  cro_pen_link (pen, 'A', CRO_STYLE_LINK, cro_workbook_text (self, CRO_WT_TOTALS), &totals);
  cro_pen_formula_text (pen, 'B', CRO_STYLE_ABOUT,
                        cro_workbook_word_text (self, self->all_tie ? CRO_WORD_ALL_TIE
                                                                    : CRO_WORD_NOT_ALL),
                        "=@", &ties);
  cro_pen_formula_text (pen, 'G', CRO_STYLE_ABOUT,
                        cro_workbook_word_text (self, CRO_WORD_AS_WRITTEN), "=@", &since);
  cro_pen_next_row (pen);
  cro_pen_next_row (pen);
}

/* --- Figures ----------------------------------------------------------------------------------------- */

static CroStyle
layer_style (const CroWorkbookFigure *figure,
             int                      layer)
{
  return cro_workbook_money_style (figure->known[layer], FALSE);
}

/* Where its selling price is entered: no price is an empty cell, and 0 is one. */
static CroPlace
price_place (CroPen          *pen,
             CroWorkbookKind  kind,
             guint32          index)
{
  return kind == CRO_WORKBOOK_PLATE
             ? cro_workbook_card_place (pen->workbook, index, "B", CRO_CARD_PRICE)
             : (CroPlace){ NULL, "H", pen->row };
}

/* What the house gives, and its target, from what is reckoned with. */
static void
write_turned (CroPen                  *pen,
              const CroWorkbookFigure *figure)
{
  CroWorkbook *self = pen->workbook;
  CroPlace target = { NULL, "Y", pen->row };

  cro_pen_formula (pen, 'K', cro_workbook_result_style (self, figure),
                   cro_workbook_result_of (self, figure->food_cost_pct),
                   self->source->book.result == CRO_WORKBOOK_COEFFICIENT
                       ? "=IF(J#>0,IF(D#>0,J#/D#,\"\"),\"\")"
                       : "=IF(J#>0,1-X#,\"\")",
                   NULL);
  cro_pen_formula (pen, 'L', cro_workbook_target_style (self, figure->target_in_force),
                   cro_workbook_result_of (self, figure->target_in_force),
                   cro_workbook_target_formula (self), (CroPlace[]){ target, target });
}

/* What a guest may still cost: what is left is rounded down, so that whoever spends it keeps the target, and
 * what the target is passed by up. */
static double
margin_of (const CroWorkbook       *self,
           const CroWorkbookFigure *figure)
{
  double allowed = figure->target_in_force * figure->net_price, cost = figure->cost[CRO_WORKBOOK_FOOD];
  int digits = self->source->book.digits;
  double margin = (double) cro_money_round_down (allowed - cost, digits) / pow (10, digits);

  if (isnan (figure->net_price) || !(figure->target_in_force > 0))
    return NAN;
  return cost - allowed > CRO_ALLOWED * allowed ? margin : MAX (margin, 0);
}

/* The same in the column of the target. What is allowed for is half a minor unit at most (cro-money.h). */
static char *
dup_margin_formula (const CroWorkbook *self)
{
  char t = cro_workbook_target_column (self);
  double scale = pow (10, self->source->book.digits);
  g_autofree char *left = g_strdup_printf ("(%c#*J#-D#)*%.0f", t, scale);
  g_autofree char *down = g_strdup_printf ("INT(%s+MIN(ABS(%s)*0.000000001,0.5))/%.0f", left, left, scale);

  return g_strdup_printf ("=IF(COUNT(@)>0,IF(%c#>0,IF(D#-%c#*J#>0.000000001*%c#*J#,%s,MAX(%s,0)),\"\"),\"\")",
                          t, t, t, down, down);
}

/* What follows from cost, price and target, for plates and menus alike. */
static void
write_judgement (CroPen                  *pen,
                 CroWorkbookKind          kind,
                 guint32                  index,
                 const CroWorkbookFigure *figure,
                 gboolean                 is_carried)
{
  CroWorkbook *self = pen->workbook;
  char t = cro_workbook_target_column (self);
  g_autofree char *condition = g_strdup_printf (is_carried ? "AND(J#>0,%c#>0)" : "%c#>0", t);
  g_autofree char *price = g_strdup_printf ("D#/%c#*(1+I#)", t);
  g_autofree char *for_target = cro_workbook_formula_up (self, condition, price);
  g_autofree char *margin = dup_margin_formula (self);
  CroPlace places[1 + CRO_VERDICT_PLACES] = { price_place (pen, kind, index) };
  g_autofree char *formula = NULL;
  CroVerdict verdict;

  cro_pen_formula (pen, 'M', cro_workbook_left_style (figure->known[CRO_WORKBOOK_FOOD]),
                   margin_of (self, figure), margin, places);
  cro_pen_formula (pen, 'N', cro_workbook_money_style (figure->known[CRO_WORKBOOK_FOOD], FALSE),
                   cro_workbook_price_up (self, figure, is_carried), for_target, NULL);
  cro_workbook_verdict_init (&verdict, self, kind, index, figure);
  memcpy (places + 1, verdict.places, verdict.n_places * sizeof *places);
  formula = g_strdup_printf ("=IF(COUNT(@)>0,IF(%c#>0,IF(D#-%c#*J#>0.000000001*%c#*J#,%s,%s),@),@)",
                             t, t, t, verdict.over, verdict.within);
  cro_pen_formula_text (pen, 'O', CRO_STYLE_TEXT, verdict.text, formula, places);
  cro_workbook_verdict_clear (&verdict);
}

typedef struct
{
  char *missing;
  char *allergens;
} Texts;

/* Asked for before the row's first cell, as the longer one gives the row its height. */
static Texts
dup_texts (CroPen           *pen,
           CroWorkbookKind   kind,
           guint32           index)
{
  const CroWorkbookSource *source = pen->workbook->source;
  Texts texts = { source->dup_missing (source->data, kind, index),
                  source->dup_allergens (source->data, kind, index) };
  gboolean is_longer = texts.missing != NULL && strlen (texts.missing) > strlen (texts.allergens);

  cro_pen_set_height (pen, is_longer ? texts.missing : texts.allergens, CRO_SENTENCE_WIDTH);
  return texts;
}

static void
write_texts (CroPen *pen,
             Texts   texts)
{
  cro_pen_text (pen, 'P', CRO_STYLE_SENTENCE, texts.missing);
  cro_pen_text (pen, 'Q', CRO_STYLE_SENTENCE, texts.allergens);
  g_free (texts.missing);
  g_free (texts.allergens);
}

/* --- Plates -------------------------------------------------------------------------------------------- */

static void
write_from_card (CroPen     *pen,
                 char        column,
                 CroStyle    style,
                 double      value,
                 guint32     plate,
                 const char *column_of_card,
                 guint32     row)
{
  CroPlace place = cro_workbook_card_place (pen->workbook, plate, column_of_card, row);

  cro_pen_formula (pen, column, style, value, "=@", &place);
}

/* The printed parts of a card less their printed total: 0, as they are made to add up. */
static void
write_printed_gap (CroPen  *pen,
                   guint32  plate)
{
  CroWorkbook *self = pen->workbook;
  guint32 n = self->card[plate].n_lines;
  CroPlace first = cro_workbook_card_place (self, plate, "R", CRO_CARD_LINES);
  CroPlace last = { NULL, "R", first.row + n };
  CroPlace total = { first.sheet, "R", first.row + n + 2 };

  cro_pen_formula (pen, 'R', CRO_STYLE_GENERAL, 0, "=ROUND(SUM(@:@)-@,6)",
                   (CroPlace[]){ first, last, total });
}

static void
write_pct (CroPen                  *pen,
           const CroWorkbookFigure *figure)
{
  cro_pen_formula (pen, cro_workbook_pct_column (pen->workbook), cro_workbook_pct_style (figure),
                   figure->food_cost_pct, "=IF(J#>0,D#/J#,\"\")", NULL);
}

static void
write_plate (CroPen  *pen,
             guint32  index)
{
  CroWorkbook *self = pen->workbook;
  CroWorkbookPlate plate;
  const CroWorkbookFigure *figure = &plate.figure;
  CroPlace card = cro_workbook_card_place (self, index, "A", 0);
  Texts texts = dup_texts (pen, CRO_WORKBOOK_PLATE, index);
  CroStyle style;

  self->source->get_plate (self->source->data, index, &plate);
  style = layer_style (figure, CRO_WORKBOOK_FOOD);
  cro_pen_link (pen, 'A', CRO_STYLE_LINK, plate.name, &card);
  cro_pen_text (pen, 'B', CRO_STYLE_TEXT, plate.course);
  write_from_card (pen, 'C', style, figure->bite, index, "I", CRO_CARD_BITE);
  write_from_card (pen, 'D', style, figure->cost[CRO_WORKBOOK_FOOD], index, "I", CRO_CARD_GUEST);
  write_from_card (pen, 'E', layer_style (figure, CRO_WORKBOOK_LABOUR),
                   figure->cost[CRO_WORKBOOK_LABOUR], index, "I", CRO_CARD_LABOUR);
  write_from_card (pen, 'F', layer_style (figure, CRO_WORKBOOK_DISPOSABLES),
                   figure->cost[CRO_WORKBOOK_DISPOSABLES], index, "I", CRO_CARD_DISPOSABLES);
  cro_pen_formula (pen, 'G', style,
                   figure->cost[CRO_WORKBOOK_FOOD] + figure->cost[CRO_WORKBOOK_LABOUR], "=D#+E#",
                   NULL);
  write_from_card (pen, 'H', cro_workbook_price_style (figure), or_zero (figure->price), index, "B",
                   CRO_CARD_PRICE);
  write_from_card (pen, 'I', cro_workbook_setting_style (figure->tax_in_force),
                   or_zero (figure->tax_in_force), index, "B", CRO_CARD_TAX);
  write_from_card (pen, 'J', cro_workbook_price_style (figure), or_zero (figure->net_price), index,
                   "I", CRO_CARD_NET_PRICE);
  if (cro_workbook_is_turned (self))
    write_pct (pen, figure);
  else
    write_from_card (pen, 'K', cro_workbook_pct_style (figure), figure->food_cost_pct, index, "I",
                     CRO_CARD_FOOD_COST_PCT);
  write_from_card (pen, cro_workbook_target_column (self), cro_workbook_setting_style (figure->target_in_force),
                   or_zero (figure->target_in_force), index, "B", CRO_CARD_TARGET);
  if (cro_workbook_is_turned (self))
    write_turned (pen, figure);
  write_judgement (pen, CRO_WORKBOOK_PLATE, index, figure, self->is_carried[index]);
  write_texts (pen, texts);
  write_printed_gap (pen, index);
  cro_pen_next_row (pen);
}

/* --- Menus ---------------------------------------------------------------------------------------------- */

/* A plate of a menu, in all its servings, as often as it is taken. */
static void
write_entry (CroPen                 *pen,
             const CroWorkbookEntry *entry)
{
  static const char *const templates[] = { "=B#*D@", "=B#*F@", "=B#*E@" };
  static const char *const of_choices[] = { "=B#*C#*D@", "=B#*C#*F@", "=B#*C#*E@" };
  static const char columns[] = { 'D', 'F', 'E' };
  const char *const *formulas = entry->choice != NULL ? of_choices : templates;
  CroWorkbook *self = pen->workbook;
  double taken = entry->servings * entry->part;
  CroWorkbookPlate plate;
  CroPlace of_plate, card;

  self->source->get_plate (self->source->data, entry->plate, &plate);
  of_plate = (CroPlace){ NULL, "", CRO_ROW_FIRST_PLATE + entry->plate };
  card = cro_workbook_card_place (self, entry->plate, "A", 0);
  cro_pen_set_level (pen, 1);
  cro_pen_link (pen, 'A', CRO_STYLE_LINK_INDENT, plate.name, &card);
  cro_pen_number (pen, 'B', CRO_STYLE_INPUT, entry->servings);
  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    cro_pen_formula (pen, columns[layer], layer_style (&plate.figure, layer),
                     taken * plate.figure.cost[layer], formulas[layer], &of_plate);
  cro_pen_formula (pen, 'G', layer_style (&plate.figure, CRO_WORKBOOK_FOOD),
                   taken * (plate.figure.cost[CRO_WORKBOOK_FOOD]
                            + plate.figure.cost[CRO_WORKBOOK_LABOUR]),
                   "=D#+E#", NULL);
  if (entry->choice != NULL)
    {
      g_autofree char *choice = g_strconcat (cro_workbook_text (self, CRO_WT_CHOICE),
                                             cro_workbook_text (self, CRO_WT_COLON), entry->choice, NULL);

      cro_pen_text (pen, 'P', CRO_STYLE_SENTENCE, choice);
    }
}

/* Of a menu's net price and of its food, what a plate takes. */
static void
write_parts (CroPen                 *pen,
             const CroWorkbookMenu  *menu,
             const CroWorkbookEntry *entry,
             guint32                 menu_row)
{
  const CroWorkbookSource *source = pen->workbook->source;
  CroPlace price = { NULL, "J$", menu_row }, food = { NULL, "D$", menu_row };
  double all = menu->figure.cost[CRO_WORKBOOK_FOOD];
  CroWorkbookPlate plate;
  CroWorkbookKnown known;
  double cost;

  source->get_plate (source->data, entry->plate, &plate);
  cost = entry->servings * entry->part * plate.figure.cost[CRO_WORKBOOK_FOOD];
  known = plate.figure.known[CRO_WORKBOOK_FOOD];
  cro_pen_formula (pen, cro_workbook_pct_column (pen->workbook), cro_workbook_known_pct_style (known),
                   menu->figure.net_price > 0 ? cost / menu->figure.net_price : NAN,
                   "=IF(@>0,D#/@,\"\")", (CroPlace[]){ price, price });
  cro_pen_formula (pen, 'W',
                   cro_workbook_share_style (known, menu->figure.known[CRO_WORKBOOK_FOOD], cost),
                   all > 0 ? cost / all : NAN, "=IF(@>0,D#/@,\"\")", (CroPlace[]){ food, food });
}

static CroWorkbookEntry *
dup_entries (const CroWorkbookSource *source,
             const CroWorkbookMenu   *menu)
{
  CroWorkbookEntry *entries = g_new (CroWorkbookEntry, menu->n_entries + 1);

  for (guint32 i = 0; i < menu->n_entries; i++)
    source->get_entry (source->data, menu->first_entry + i, &entries[i]);
  return entries;
}

/* The food of a menu's plates as shown, to be cleared; its row is the one that is written. */
static CroRounded
rounded_of (CroPen                 *pen,
            const CroWorkbookMenu  *menu,
            const CroWorkbookEntry *entries)
{
  const CroWorkbookSource *source = pen->workbook->source;
  double *parts = g_new (double, menu->n_entries + 1);
  CroRounded rounded = { .column = 'S', .exact = "D#", .first_row = pen->row + 1, .total_row = pen->row };

  for (guint32 i = 0; i < menu->n_entries; i++)
    {
      CroWorkbookPlate plate;

      source->get_plate (source->data, entries[i].plate, &plate);
      parts[i] = entries[i].servings * entries[i].part * plate.figure.cost[CRO_WORKBOOK_FOOD];
    }
  cro_rounded_init (&rounded, pen->workbook, parts, menu->n_entries,
                    menu->figure.cost[CRO_WORKBOOK_FOOD]);
  return rounded;
}

static CroWorkbookKnown
known_of_entry (CroPen                 *pen,
                const CroWorkbookEntry *entry)
{
  const CroWorkbookSource *source = pen->workbook->source;
  CroWorkbookPlate plate;

  source->get_plate (source->data, entry->plate, &plate);
  return plate.figure.known[CRO_WORKBOOK_FOOD];
}

/* The plates of a menu, and the ways through its choices. */
static void
write_entries (CroPen                 *pen,
               const CroWorkbookMenu  *menu,
               const CroWorkbookEntry *entries,
               const CroRounded       *rounded)
{
  guint32 menu_row = rounded->total_row;

  for (guint32 i = 0; i < menu->n_entries; i++)
    {
      write_entry (pen, &entries[i]);
      write_parts (pen, menu, &entries[i], menu_row);
      cro_rounded_write_part (rounded, pen, i, known_of_entry (pen, &entries[i]));
      cro_workbook_write_taken (pen, entries, menu->n_entries, i, menu_row + 1);
      cro_pen_next_row (pen);
    }
  cro_workbook_write_ways (pen, menu, entries, menu_row);
}

static void
write_menu_cost (CroPen                *pen,
                 const CroWorkbookMenu *menu)
{
  static const char *const sums[] = { "=SUM(D{:D})", "=SUM(F{:F})", "=SUM(E{:E})" };
  static const char columns[] = { 'D', 'F', 'E' };
  const CroWorkbookFigure *figure = &menu->figure;

  pen->from = pen->row + 1;
  pen->to = pen->row + menu->n_entries;
  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    if (menu->n_entries > 0)
      cro_pen_formula (pen, columns[layer], cro_workbook_money_style (figure->known[layer], TRUE),
                       figure->cost[layer], sums[layer], NULL);
    else
      cro_pen_number (pen, columns[layer], cro_workbook_money_style (figure->known[layer], TRUE), 0);
  cro_pen_formula (pen, 'G', cro_workbook_money_style (figure->known[CRO_WORKBOOK_FOOD], TRUE),
                   figure->cost[CRO_WORKBOOK_FOOD] + figure->cost[CRO_WORKBOOK_LABOUR], "=D#+E#",
                   NULL);
}

/* Tax and target: the menu's own, or the book's. */
static void
write_menu_setting (CroPen  *pen,
                    char     column,
                    double   own,
                    double   in_force,
                    guint32  row_of_book)
{
  CroPlace place = { NULL, "$B$", row_of_book };

  if (isnan (own))
    cro_pen_formula (pen, column, cro_workbook_setting_style (in_force), or_zero (in_force), "=@",
                     &place);
  else
    cro_pen_number (pen, column, CRO_STYLE_INPUT_PCT, own);
}

static void
write_menu (CroPen  *pen,
            guint32  index)
{
  CroWorkbook *self = pen->workbook;
  CroWorkbookMenu menu;
  Texts texts = dup_texts (pen, CRO_WORKBOOK_MENU, index);
  g_autofree CroWorkbookEntry *entries = NULL;
  CroRounded rounded;

  self->source->get_menu (self->source->data, index, &menu);
  entries = dup_entries (self->source, &menu);
  rounded = rounded_of (pen, &menu, entries);
  cro_pen_text (pen, 'A', CRO_STYLE_BOLD, menu.name);
  write_menu_cost (pen, &menu);
  cro_pen_number (pen, 'H', CRO_STYLE_INPUT_MONEY, menu.figure.price);
  write_menu_setting (pen, 'I', menu.figure.tax, menu.figure.tax_in_force, CRO_ROW_TAX);
  cro_pen_formula (pen, 'J', cro_workbook_price_style (&menu.figure),
                   or_zero (menu.figure.net_price), "=H#/(1+I#)", NULL);
  write_pct (pen, &menu.figure);
  write_menu_setting (pen, cro_workbook_target_column (self), menu.figure.target,
                      menu.figure.target_in_force, CRO_ROW_TARGET);
  if (cro_workbook_is_turned (self))
    write_turned (pen, &menu.figure);
  write_judgement (pen, CRO_WORKBOOK_MENU, index, &menu.figure, FALSE);
  write_texts (pen, texts);
  cro_rounded_write_total (&rounded, pen, menu.figure.known[CRO_WORKBOOK_FOOD]);
  self->menu_row[index] = pen->row;
  cro_pen_next_row (pen);
  write_entries (pen, &menu, entries, &rounded);
  cro_rounded_clear (&rounded);
}

/* Of plates and menus alike: how many there are. */
static guint
fill_heads (CroWorkbook       *self,
            CroWorkbookTextId  own[N_TURNED])
{
  for (guint i = 0; i < N_TURNED; i++)
    own[i] = i < G_N_ELEMENTS (heads) ? heads[i] : CRO_N_WORKBOOK_TEXTS;
  if (!cro_workbook_is_turned (self))
    return G_N_ELEMENTS (heads);
  own['K' - 'A'] = cro_workbook_result_text (self);
  own['L' - 'A'] = cro_workbook_target_text (self);
  own['X' - 'A'] = CRO_WT_FOOD_COST_PCT;
  own['Y' - 'A'] = CRO_WT_TARGET_FOOD_COST;
  return N_TURNED;
}

static void
write_menus (CroWorkbook *self)
{
  CroWorkbookTextId of_menus[N_TURNED];
  CroPen *pen = &self->summary;

  if (self->source->n_menus == 0)
    return;
  fill_heads (self, of_menus);
  of_menus[0] = CRO_WT_MENU;
  of_menus[1] = CRO_WT_SERVINGS;
  of_menus[2] = CRO_WT_TAKEN;
  of_menus[G_N_ELEMENTS (heads) + 1] = CRO_WT_PRINTED_FOOD;
  of_menus[PART_OF_FOOD] = CRO_WT_PART;
  cro_pen_next_row (pen);
  cro_pen_heads (pen, of_menus, cro_workbook_is_turned (self) ? N_TURNED : PART_OF_FOOD + 1);
  for (guint32 i = 0; i < self->source->n_menus && !self->is_cancelled; i++)
    write_menu (pen, i);
}

void
cro_workbook_write_summary (CroWorkbook *self)
{
  CroPen *pen = &self->summary;
  lxw_row_col_options folded = { .hidden = LXW_TRUE, .level = 1 };

  CroWorkbookTextId own[N_TURNED];
  guint n = fill_heads (self, own);

  write_top (self);
  cro_pen_heads (pen, own, n);
  for (guint32 i = 0; i < self->source->n_plates && !self->is_cancelled; i++)
    write_plate (pen, i);
  write_menus (self);
  pen->last_printed = 'Q';
  cro_pen_finish (pen, CRO_ROW_FIRST_PLATE - 1);
  worksheet_set_column_opt (pen->sheet, 17, 17, 9, NULL, &folded);
  worksheet_set_column_opt (pen->sheet, 19, 21, 9, NULL, &folded);
  worksheet_freeze_panes (pen->sheet, CRO_ROW_FIRST_PLATE - 1, 1);
}
