#include "config.h"

#include "cro-office.h"

#include <glib/gi18n.h>

#include "cro-result-words.h"
#include "cro-rule-words.h"

/* Translators: these are the words of the spreadsheet that is written for the office. Heads of
 * columns should be short; sentences are not. */
static const char *const texts[CRO_N_WORKBOOK_TEXTS] = {
  /* Translators: names of sheets have at most 31 characters. */
  [CRO_WT_SUMMARY] = N_("Summary"),
  [CRO_WT_CARDS] = N_("Cards"),
  [CRO_WT_PREPARATIONS] = N_("Preparations"),
  [CRO_WT_INGREDIENTS] = N_("Ingredients"),
  [CRO_WT_PRICES] = N_("Prices"),
  [CRO_WT_UNITS] = N_("Units"),
  [CRO_WT_TOTALS] = N_("Control totals"),
  [CRO_WT_NOTES] = N_("Notes"),

  /* Translators: a date follows. */
  [CRO_WT_ABOUT_SUMMARY] = N_("Cost per guest, at the prices of"),
  [CRO_WT_ABOUT_PREPARATIONS] = N_("Each batch: what goes in, what it gives, and how its cost is "
                                   "shared. Preparations come before what uses them."),
  [CRO_WT_ABOUT_INGREDIENTS] = N_("Each ingredient, followed by its packs. Its unit cost is that "
                                  "of the pack in use."),
  [CRO_WT_ABOUT_PRICES] = N_("Every price up to the date, the newest of each pack last. Change a "
                             "price there and the plates follow."),
  [CRO_WT_NOT_PRINTED] = N_("This sheet is of the book and not of the month, and is not printed; where it is to be, "
                            "clear its print area."),
  [CRO_WT_ABOUT_UNITS] = N_("Exact factors between units, the exchange rates in force, and the "
                            "labels that formulas show."),
  [CRO_WT_ABOUT_TOTALS] = N_("Sums calculated in two ways when this file was written, and what the "
                             "sheets say now."),
  /* Translators: a date follows. */
  [CRO_WT_SUBJECT] = N_("Costs of plates and menus, at the prices of"),

  [CRO_WT_WAGE] = N_("Hourly labour cost"),
  [CRO_WT_TAX] = N_("Tax"),
  [CRO_WT_TARGET] = N_("Target"),
  [CRO_WT_PLATE] = N_("Plate"),
  [CRO_WT_MENU] = N_("Menu"),
  [CRO_WT_COURSE] = N_("Course"),
  [CRO_WT_SERVINGS] = N_("Servings"),
  [CRO_WT_TAKEN] = N_("Share of guests"),
  [CRO_WT_CHOICE] = N_("Choice"),
  /* Translators: between a label and what it is of: "Used in: Fish soup". */
  [CRO_WT_COLON] = N_(": "),
  [CRO_WT_CHEAPEST] = N_("Cheapest choices"),
  [CRO_WT_DEAREST] = N_("Dearest choices"),
  [CRO_WT_BITE] = N_("Food cost per bite"),
  [CRO_WT_GUEST] = N_("Food cost per guest"),
  [CRO_WT_LABOUR] = N_("Labour per guest"),
  [CRO_WT_DISPOSABLES] = N_("Disposables per guest"),
  [CRO_WT_PRIME] = N_("Prime cost per guest"),
  [CRO_WT_PRICE] = N_("Price with tax"),
  [CRO_WT_NET_PRICE] = N_("Net price"),
  [CRO_WT_FOOD_COST_PCT] = N_("Food-cost %"),
  [CRO_WT_GROSS_PROFIT_PCT] = N_("Gross-profit %"),
  [CRO_WT_COEFFICIENT] = N_("Coefficient: net price ÷ food cost"),
  [CRO_WT_TARGET_FOOD_COST] = N_("Target food cost %"),
  [CRO_WT_TARGET_GROSS_PROFIT] = N_("Target gross profit %"),
  [CRO_WT_TARGET_COEFFICIENT] = N_("Target coefficient"),
  [CRO_WT_TO_SPARE] = N_("Margin to target per guest"),
  [CRO_WT_PRICE_FOR_TARGET] = N_("Price that meets the target"),
  [CRO_WT_VERDICT] = N_("Against target"),
  [CRO_WT_MISSING] = N_("What is missing"),
  [CRO_WT_ALLERGENS] = N_("Allergens entered"),
  [CRO_WT_MAKES] = N_("Bites made"),
  [CRO_WT_PER_GUEST] = N_("Bites per guest"),
  [CRO_WT_ALLOWANCE] = N_("Seasoning and handling"),
  [CRO_WT_MINUTES] = N_("Active minutes"),
  [CRO_WT_ITEM] = N_("Item"),
  [CRO_WT_AMOUNT] = N_("Amount"),
  [CRO_WT_UNIT] = N_("Unit"),
  [CRO_WT_FACTOR] = N_("Base units per unit"),
  [CRO_WT_YIELD] = N_("Yield"),
  [CRO_WT_RECOVERED] = N_("Comes back"),
  [CRO_WT_BACK_OR_LOST] = N_("Comes back; of outputs: lost"),
  [CRO_WT_CHARGED] = N_("Quantity charged or finished"),
  [CRO_WT_BASE] = N_("Base unit"),
  [CRO_WT_UNIT_COST_FOOD] = N_("Food per base unit"),
  [CRO_WT_UNIT_COST_DISPOSABLES] = N_("Disposables per base unit"),
  [CRO_WT_UNIT_COST_LABOUR] = N_("Labour per base unit"),
  [CRO_WT_COST_FOOD] = N_("Food"),
  [CRO_WT_COST_DISPOSABLES] = N_("Disposables"),
  [CRO_WT_COST_LABOUR] = N_("Labour"),
  [CRO_WT_OF_BITE] = N_("Food in a bite"),
  [CRO_WT_PART] = N_("Share of food"),
  [CRO_WT_NOTE] = N_("Note"),
  [CRO_WT_PRINTED] = N_("Food and disposables, rounded to add up"),
  [CRO_WT_PRINTED_FOOD] = N_("Food, rounded to add up"),
  [CRO_WT_FRACTION] = N_("Fraction"),
  [CRO_WT_WHOLE_UNITS] = N_("Whole units"),
  [CRO_WT_MINOR_UNITS] = N_("In the smallest units of the currency"),
  [CRO_WT_GRAMS] = N_("Grams brought"),
  [CRO_WT_LACKS] = N_("Missing"),
  [CRO_WT_VALUE] = N_("Value per unit"),
  [CRO_WT_DENSITY] = N_("Density, g/ml"),
  [CRO_WT_PIECE] = N_("Piece weight, g"),
  [CRO_WT_VALUE_OF_BASE] = N_("Value per base unit"),
  [CRO_WT_WEIGHT] = N_("Allocation key"),
  [CRO_WT_SHARE] = N_("Share per base unit"),
  [CRO_WT_LEFT_FOOD] = N_("Food in minus out"),
  [CRO_WT_LEFT_DISPOSABLES] = N_("Disposables in minus out"),
  [CRO_WT_LEFT_LABOUR] = N_("Labour in minus out"),
  /* Translators: the name of what uses a preparation follows, after a colon. */
  [CRO_WT_USED_IN] = N_("Used in"),
  [CRO_WT_KIND] = N_("Kind"),
  [CRO_WT_TRIM] = N_("Trim yield"),
  [CRO_WT_UNIT_COST] = N_("Cost per base unit"),
  [CRO_WT_READABLE_COST] = N_("Cost per kg, l or pc"),
  [CRO_WT_SUPPLIER] = N_("Supplier"),
  [CRO_WT_CODE] = N_("Code"),
  [CRO_WT_PACK_COUNT] = N_("Items per pack"),
  [CRO_WT_PACK_SIZE] = N_("Pack size"),
  [CRO_WT_NET_PART] = N_("Net weight"),
  [CRO_WT_PACK_PRICE] = N_("Price per pack"),
  [CRO_WT_TAX_INCLUDED] = N_("Tax included"),
  [CRO_WT_CURRENCY] = N_("Currency"),
  [CRO_WT_RATE] = N_("Rate"),
  [CRO_WT_CONTENT] = N_("Base units per pack"),
  [CRO_WT_FROM] = N_("From"),
  [CRO_WT_STATE] = N_("State"),
  [CRO_WT_IN_FORCE] = N_("In force"),
  [CRO_WT_CHECK] = N_("Check"),
  [CRO_WT_ONE_SIDE] = N_("Now"),
  [CRO_WT_OTHER_SIDE] = N_("When written"),
  [CRO_WT_OTHER_WAY] = N_("When written, calculated otherwise"),
  [CRO_WT_MOVED] = N_("1 if changed since"),
  [CRO_WT_DIFFERENCE] = N_("Difference"),
  [CRO_WT_TIES] = N_("Agrees"),
  [CRO_WT_FAILS] = N_("1 if not"),
  [CRO_WT_WORDS] = N_("Labels"),

  [CRO_WT_ACTIVE_TIME] = N_("Active time"),
  [CRO_WT_ALL_BITES] = N_("All bites"),
  [CRO_WT_A_BITE] = N_("Per bite"),
  [CRO_WT_A_GUEST] = N_("Per guest"),
  [CRO_WT_THE_BATCH] = N_("The batch"),
  /* Translators: minutes, as a unit. */
  [CRO_WT_MIN] = N_("min"),
  [CRO_WT_MAIN] = N_("main output"),
  [CRO_WT_BY_PRODUCT] = N_("by-product"),
  [CRO_WT_IS_FOOD] = N_("food"),
  [CRO_WT_IS_DISPOSABLE] = N_("disposable"),
  [CRO_WT_CHEAPER] = N_("another pack is cheaper"),
  [CRO_WT_OVER] = N_("over target"),
  [CRO_WT_WITHIN] = N_("within target"),
  [CRO_WT_NO_TARGET] = N_("no target"),
  [CRO_WT_NO_PRICE] = N_("no price of its own"),
  /* Translators: instead of whether it is over its target. */
  [CRO_WT_OPEN] = N_("incomplete"),
  [CRO_WT_COMPLETE] = N_("Nothing is missing."),
  /* Translators: a number follows, so leave the space at the end. */
  [CRO_WT_AT_LEAST] = N_("at least "),
  [CRO_WT_AT_MOST] = N_("at most "),
  [CRO_WT_INCOMPLETE] = N_("incomplete "),
  [CRO_WT_DOES_TIE] = N_("agrees"),
  [CRO_WT_DOES_NOT_TIE] = N_("does not agree"),
  [CRO_WT_ALL_TIE] = N_("All control totals agreed when this file was written."),
  [CRO_WT_NOT_ALL_TIE] = N_("Some control totals did not agree when this file was written: see which."),
  [CRO_WT_CHANGED] = N_("changed since"),
  [CRO_WT_AS_WRITTEN] = N_("Nothing was changed since."),
  [CRO_WT_NOT_AS_WRITTEN] = N_("Something was changed since: the figures now are beside those written."),
  [CRO_WT_CHART] = N_("What a bite is made of: food cost by component"),

  [CRO_WT_CHECK_FOOD] = N_("Food in and out of each complete batch: largest difference, as a part of the cost"),
  [CRO_WT_CHECK_DISPOSABLES] = N_("Disposables in and out of each complete batch: largest difference, as a part of "
                                  "the cost"),
  [CRO_WT_CHECK_LABOUR] = N_("Labour in and out of each complete batch: largest difference, as a part of the cost"),
  [CRO_WT_CHECK_ATTRIBUTED] = N_("Food cost per guest, all plates: by their cards, and by ingredients and credits"),
  [CRO_WT_CHECK_PRINTED] = N_("Rounded parts and the rounded total of each card: largest difference"),
  [CRO_WT_CHECK_N_INGREDIENTS] = N_("Ingredients that have a pack"),
  [CRO_WT_CHECK_N_OFFERS] = N_("Packs"),
  [CRO_WT_CHECK_N_PRICES] = N_("Prices"),
  [CRO_WT_CHECK_N_LINES] = N_("Lines of preparations"),
  [CRO_WT_CHECK_N_PLATES] = N_("Plates"),

  [CRO_WT_NOTE_FIRST] = N_("Working papers for an accountant: tax and costs are calculated from "
                           "what was entered, and local rules and licensed practice decide what "
                           "is declared."),
  [CRO_WT_NOTE_FIRST + 1] = N_("Allergens are those that were entered, for the date and recipe shown: check them "
                               "against suppliers’ labels. Cross-contact is not known here, not known is not absent, "
                               "and nothing here is a “free from” claim; local law and a responsible person decide "
                               "before serving."),
  [CRO_WT_NOTE_FIRST + 2] = N_("Raw or lightly cooked shellfish, and re-used shells and stocks, follow the kitchen’s "
                               "own food-safety plan and local codes."),
  [CRO_WT_NOTE_FIRST + 3] = N_("Dark blue figures above a dotted line were entered and may be changed; all others are "
                               "formulas and follow."),
  [CRO_WT_NOTE_FIRST + 4] = N_("Cost per base unit (g, ml or pc) = price × rate ÷ (1 + tax "
                               "included) ÷ (items per pack × pack size × base units per unit × "
                               "net weight)."),
  [CRO_WT_NOTE_FIRST + 5] = N_("Quantity charged = amount × base units per unit × (1 − comes back) "
                               "÷ yield. The yield is the line’s own, else the ingredient’s trim "
                               "yield for weights and volumes weighed trimmed, else 100 %."),
  [CRO_WT_NOTE_FIRST + 6] = N_("Where a trim yield is not known it is taken as 100 %, and the line says so."),
  [CRO_WT_NOTE_FIRST + 7] = N_("A batch’s cost is shared among its outputs by its rule. "
                               "By-products that carry no cost: all on the main output. By weight: "
                               "in proportion to grams. By value: in proportion to the values "
                               "given. At an assigned value: each by-product costs its value, and "
                               "the main output carries the rest (IAS 2, paragraph 14, asks for a "
                               "rational and consistent basis)."),
  [CRO_WT_NOTE_FIRST + 8] = N_("Disposables and labour follow the shares by weight and by value; "
                               "otherwise the main output carries them."),
  [CRO_WT_NOTE_FIRST + 9] = N_("A batch’s yield is a part of the grams that its food lines bring, "
                               "less what comes back. Where a line cannot be weighed, the batch "
                               "has no mass and the output no amount."),
  [CRO_WT_NOTE_FIRST + 10] = N_("Per bite = (lines + seasoning and handling) ÷ bites made; "
                                "seasoning and handling is on food and disposables, not on labour. "
                                "Per guest = per bite × bites per guest."),
  [CRO_WT_NOTE_FIRST + 11] = N_("Net price = price with tax ÷ (1 + tax). Food-cost percentage = food cost per guest ÷ "
                                "net price. Prime cost = food + labour. Price that meets the target = food cost ÷ "
                                "target × (1 + tax)."),
  [CRO_WT_NOTE_FIRST + 12] = N_("“At least” stands before a cost of which a part is not known: it "
                                "is the sum of what is known. “Incomplete” stands where a credited "
                                "by-product may lower it. Both describe the file as it was "
                                "written; once what is missing is entered the figure is complete, "
                                "though the words stay."),
  [CRO_WT_NOTE_FIRST + 13] = N_("Not formulas, but as chosen when the file was written: which "
                                "pack is in use (a cheaper one is mentioned beside it), what is "
                                "food and what disposable, units, which price is in force, and "
                                "the rule of each batch."),
  [CRO_WT_NOTE_FIRST + 14] = N_("A pack is in use if it is preferred, available and priced, else "
                                "the cheapest that is; where the book says after how many days a "
                                "price is stale, an older one serves only if there is no newer "
                                "one."),
  [CRO_WT_NOTE_FIRST + 15] = N_("Figures are not rounded; cells show them rounded. The columns “Food and disposables, "
                                "rounded to add up” on a card, and “Food, rounded to add up” of a menu, round the "
                                "total first, take the whole units of each part, and give the units left to the "
                                "largest fractions, the first of equals first."),
  [CRO_WT_NOTE_FIRST + 16] = N_("A dash stands for what is not set: no price, no tax, no target."),
  [CRO_WT_NOTE_FIRST + 17] = N_("Cells have names for links from other files: bite_, guest_ and food_cost_pct_ before "
                                "the name of a plate, guest_ and food_cost_pct_ before that of a menu. They depend on "
                                "the name alone and are the same in next month’s file."),
  [CRO_WT_NOTE_FIRST + 18] = N_("Purchase prices, exchange rates, and dated selling prices with their tax are those "
                                "of this file’s date. Recipes, undated selling prices and the book’s tax are those of "
                                "the book when the file was written; of a month that is closed, those of the book as "
                                "it stood when the month was closed."),
  [CRO_WT_LIMIT_CARDS] = N_("There are more than %u plates: all cards stand on one sheet, a block each, without "
                            "charts."),
  [CRO_WT_LIMIT_LINKS] = N_("Not every line links to its preparation: a file of this kind has at most %u links. "
                            "Formulas name the cell."),
  [CRO_WT_LIMIT_NAMES] = N_("Only the first %u plates and menus have named cells."),
  [CRO_WT_LIMIT_TEXTS] = N_("Texts that were cut at the 32,767 characters that a cell can "
                            "contain: %u."),
  [CRO_WT_LIMIT_PRICES] = N_("Only prices in force are listed: the history has more than the %u rows that a sheet can "
                             "have."),
};

const char **
cro_office_dup_texts (CroModel *model)
{
  const char **own = g_new (const char *, CRO_N_WORKBOOK_TEXTS);

  for (int i = 0; i < CRO_N_WORKBOOK_TEXTS; i++)
    own[i] = texts[i] != NULL ? _(texts[i]) : NULL;
  for (CroRule rule = 0; rule < CRO_N_RULES; rule++)
    own[CRO_WT_RULE_FIRST + rule] = cro_rule_note (rule);
  own[CRO_WT_OVER] = cro_words_over_target (model);
  return own;
}
