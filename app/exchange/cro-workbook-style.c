#include "cro-workbook-style.h"

#include <math.h>

#include "cro-money.h"

#define INK_INPUT 0x1F3A6E
#define FILL_HEAD 0xE4DFD3
#define FILL_BLOCK 0xF2EFE8

typedef enum
{
  BOLD = 1 << 0,
  ITALIC = 1 << 1,
  INPUT = 1 << 2,
  HEAD = 1 << 3,
  BLOCK = 1 << 4,
  TOTAL = 1 << 5,
  LINK = 1 << 6,
  INDENT = 1 << 7,
  WRAP = 1 << 8,
  TITLE = 1 << 9,
} Looks;

typedef enum
{
  PLAIN,
  AS_TEXT,
  COUNT,
  LACK,
  QUANTITY,
  QUANTITY_UNKNOWN,
  QUANTITY_AT_LEAST,
  QUANTITY_INCOMPLETE,
  GENERAL_UNKNOWN,
  MONEY,
  MONEY_AT_LEAST,
  MONEY_INCOMPLETE,
  MONEY_AT_MOST,
  MONEY_NONE,
  MONEY_UNKNOWN,
  NOT_KNOWN,
  SHARE,
  FINE,
  FINE_AT_LEAST,
  FINE_INCOMPLETE,
  FINE_UNKNOWN,
  PCT,
  PCT_LAST = PCT + CRO_N_DECIMALS - 1,
  PCT_AT_LEAST,
  PCT_AT_LEAST_LAST = PCT_AT_LEAST + CRO_N_DECIMALS - 1,
  PCT_INCOMPLETE,
  PCT_INCOMPLETE_LAST = PCT_INCOMPLETE + CRO_N_DECIMALS - 1,
  PCT_LEFT_AT_MOST,
  PCT_LEFT_AT_MOST_LAST = PCT_LEFT_AT_MOST + CRO_N_DECIMALS - 1,
  PCT_LEFT_INCOMPLETE,
  PCT_LEFT_INCOMPLETE_LAST = PCT_LEFT_INCOMPLETE + CRO_N_DECIMALS - 1,
  COEFFICIENT,
  COEFFICIENT_LAST = COEFFICIENT + CRO_N_DECIMALS - 1,
  COEFFICIENT_AT_MOST,
  COEFFICIENT_AT_MOST_LAST = COEFFICIENT_AT_MOST + CRO_N_DECIMALS - 1,
  COEFFICIENT_INCOMPLETE,
  COEFFICIENT_INCOMPLETE_LAST = COEFFICIENT_INCOMPLETE + CRO_N_DECIMALS - 1,
  PRICE,
  PRICE_LAST = PRICE + CRO_N_DECIMALS - 1,
  PRICE_UNKNOWN,
  PRICE_UNKNOWN_LAST = PRICE_UNKNOWN + CRO_N_DECIMALS - 1,
  PCT_AT_MOST,
  PCT_AT_MOST_LAST = PCT_AT_MOST + CRO_N_DECIMALS - 1,
  PCT_UNKNOWN,
  PCT_UNKNOWN_LEFT,
  PCT_EXACT,
  PCT_NONE,
  DATE,
  N_NUMBERS,
} Number;

/* Styles, and numbers, that differ in their decimals alone. */
#define DECIMALS(style, looks, number)                                                             \
  [style] = { looks, number }, [style + 1] = { looks, number + 1 },                                \
  [style + 2] = { looks, number + 2 }, [style + 3] = { looks, number + 3 },                        \
  [style + 4] = { looks, number + 4 }, [style + 5] = { looks, number + 5 }

static const struct
{
  Looks  looks;
  Number number;
} styles_of[CRO_N_STYLES] = {
  [CRO_STYLE_TITLE] = { TITLE, PLAIN },
  [CRO_STYLE_ABOUT] = { ITALIC, PLAIN },
  [CRO_STYLE_HEAD] = { HEAD | BOLD | WRAP, PLAIN },
  [CRO_STYLE_TEXT] = { 0, PLAIN },
  [CRO_STYLE_BOLD] = { BOLD, PLAIN },
  [CRO_STYLE_INDENT] = { INDENT, PLAIN },
  [CRO_STYLE_NOTE] = { ITALIC, PLAIN },
  [CRO_STYLE_LINK] = { LINK, PLAIN },
  [CRO_STYLE_LINK_INDENT] = { LINK | INDENT, PLAIN },
  [CRO_STYLE_BLOCK] = { BLOCK | BOLD, PLAIN },
  [CRO_STYLE_BLOCK_NOTE] = { BLOCK | ITALIC, PLAIN },
  [CRO_STYLE_BLOCK_SPILL] = { BLOCK | ITALIC, PLAIN },
  [CRO_STYLE_BLOCK_LINK] = { BLOCK | LINK, PLAIN },
  [CRO_STYLE_BLOCK_FINE] = { BLOCK, FINE },
  [CRO_STYLE_BLOCK_FINE_UNKNOWN] = { BLOCK, FINE_UNKNOWN },
  DECIMALS (CRO_STYLE_BLOCK_PRICE, BLOCK, PRICE),
  DECIMALS (CRO_STYLE_BLOCK_PRICE_UNKNOWN, BLOCK, PRICE_UNKNOWN),
  [CRO_STYLE_SENTENCE] = { WRAP, PLAIN },
  [CRO_STYLE_INPUT] = { INPUT, PLAIN },
  [CRO_STYLE_INPUT_TEXT] = { INPUT, AS_TEXT },
  [CRO_STYLE_INPUT_PCT] = { INPUT, PCT_EXACT },
  [CRO_STYLE_INPUT_MONEY] = { INPUT, MONEY },
  [CRO_STYLE_BLOCK_INPUT] = { BLOCK | INPUT, PLAIN },
  [CRO_STYLE_BLOCK_PCT] = { BLOCK | INPUT, PCT_EXACT },
  [CRO_STYLE_GENERAL] = { 0, PLAIN },
  [CRO_STYLE_GENERAL_UNKNOWN] = { 0, GENERAL_UNKNOWN },
  [CRO_STYLE_COUNT] = { 0, COUNT },
  [CRO_STYLE_LACK] = { 0, LACK },
  [CRO_STYLE_QUANTITY] = { 0, QUANTITY },
  [CRO_STYLE_QUANTITY_UNKNOWN] = { 0, QUANTITY_UNKNOWN },
  [CRO_STYLE_QUANTITY_AT_LEAST] = { 0, QUANTITY_AT_LEAST },
  [CRO_STYLE_QUANTITY_INCOMPLETE] = { 0, QUANTITY_INCOMPLETE },
  [CRO_STYLE_MONEY] = { 0, MONEY },
  [CRO_STYLE_MONEY_AT_LEAST] = { 0, MONEY_AT_LEAST },
  [CRO_STYLE_MONEY_INCOMPLETE] = { 0, MONEY_INCOMPLETE },
  [CRO_STYLE_MONEY_AT_MOST] = { 0, MONEY_AT_MOST },
  [CRO_STYLE_MONEY_NONE] = { 0, MONEY_NONE },
  [CRO_STYLE_MONEY_UNKNOWN] = { 0, MONEY_UNKNOWN },
  [CRO_STYLE_NOT_KNOWN] = { 0, NOT_KNOWN },
  [CRO_STYLE_SHARE] = { 0, SHARE },
  [CRO_STYLE_FINE] = { 0, FINE },
  [CRO_STYLE_FINE_AT_LEAST] = { 0, FINE_AT_LEAST },
  [CRO_STYLE_FINE_INCOMPLETE] = { 0, FINE_INCOMPLETE },
  [CRO_STYLE_FINE_UNKNOWN] = { 0, FINE_UNKNOWN },
  DECIMALS (CRO_STYLE_PCT, 0, PCT),
  DECIMALS (CRO_STYLE_PCT_AT_LEAST, 0, PCT_AT_LEAST),
  DECIMALS (CRO_STYLE_PCT_INCOMPLETE, 0, PCT_INCOMPLETE),
  DECIMALS (CRO_STYLE_PCT_AT_MOST, 0, PCT_AT_MOST),
  DECIMALS (CRO_STYLE_PCT_LEFT_AT_MOST, 0, PCT_LEFT_AT_MOST),
  DECIMALS (CRO_STYLE_PCT_LEFT_INCOMPLETE, 0, PCT_LEFT_INCOMPLETE),
  [CRO_STYLE_PCT_UNKNOWN] = { 0, PCT_UNKNOWN },
  [CRO_STYLE_PCT_UNKNOWN_LEFT] = { 0, PCT_UNKNOWN_LEFT },
  DECIMALS (CRO_STYLE_COEFFICIENT, 0, COEFFICIENT),
  DECIMALS (CRO_STYLE_COEFFICIENT_AT_MOST, 0, COEFFICIENT_AT_MOST),
  DECIMALS (CRO_STYLE_COEFFICIENT_INCOMPLETE, 0, COEFFICIENT_INCOMPLETE),
  [CRO_STYLE_PCT_EXACT] = { 0, PCT_EXACT },
  [CRO_STYLE_PCT_NONE] = { 0, PCT_NONE },
  [CRO_STYLE_DATE] = { 0, DATE },
  [CRO_STYLE_TOTAL] = { TOTAL | BOLD, PLAIN },
  [CRO_STYLE_TOTAL_MONEY] = { TOTAL | BOLD, MONEY },
  [CRO_STYLE_TOTAL_AT_LEAST] = { TOTAL | BOLD, MONEY_AT_LEAST },
  [CRO_STYLE_TOTAL_INCOMPLETE] = { TOTAL | BOLD, MONEY_INCOMPLETE },
  [CRO_STYLE_TOTAL_QUANTITY] = { TOTAL | BOLD, QUANTITY },
};

static void
set_looks (lxw_format *format,
           Looks       looks)
{
  if (looks & BOLD)
    format_set_bold (format);
  if (looks & ITALIC)
    format_set_italic (format);
  if (looks & WRAP)
    format_set_text_wrap (format);
  if (looks & INDENT)
    format_set_indent (format, 1);
  if (looks & LINK)
    format_set_underline (format, LXW_UNDERLINE_SINGLE);
  if (looks & TOTAL)
    format_set_top (format, LXW_BORDER_THIN);
  if (looks & TITLE)
    {
      format_set_bold (format);
      format_set_font_size (format, 14);
    }
  format_set_align (format, LXW_ALIGN_VERTICAL_TOP);
  if (looks & HEAD)
    format_set_bottom (format, LXW_BORDER_THIN);
  if (looks & (HEAD | BLOCK))
    format_set_bg_color (format, looks & HEAD ? FILL_HEAD : FILL_BLOCK);
  if (looks & INPUT)
    {
      format_set_font_color (format, INK_INPUT);
      format_set_bottom (format, LXW_BORDER_DOTTED);
      format_set_unlocked (format);
    }
}

/* A text in a number format, in quotation marks; those within it would end it. */
static char *
quoted (const char *text)
{
  g_autofree char *plain = g_strdup (text);

  return g_strdup_printf ("\"%s\"", g_strdelimit (plain, "\"", '\''));
}

static char *
with_digits (int digits)
{
  g_autofree char *zeros = g_strnfill ((gsize) digits, '0');

  return g_strconcat ("#,##0", digits > 0 ? "." : "", zeros, NULL);
}

#define DECIMALS_OF_QUANTITY "#,##0.0##"
#define PCT_ONE_DECIMAL "0.0%"

/* What was entered stands with the decimals that it has. */
#define PCT_ALL_DECIMALS "0.0#####%"

/* A number of which a part is missing: where nothing is known there is no 0. */
static char *
marked (const char *mark,
        const char *number)
{
  return g_strconcat (mark, number, ";", mark, "-", number, ";\"?\"", NULL);
}

/* A part that is left by a cost of which a part is missing: all is left where nothing is known. */
static char *
left (const char *mark,
      const char *number)
{
  return g_strconcat ("[=1]\"?\";", mark, number, NULL);
}

static void
make_numbers (const CroWorkbookSource *source,
              const char *const       *texts,
              char                    *numbers[N_NUMBERS])
{
  g_autofree char *money = with_digits (source->book.digits);
  g_autofree char *fine = with_digits (source->book.digits + 4);
  g_autofree char *at_least = quoted (texts[CRO_WT_AT_LEAST]);
  g_autofree char *at_most = quoted (texts[CRO_WT_AT_MOST]);
  g_autofree char *incomplete = quoted (texts[CRO_WT_INCOMPLETE]);

  numbers[PLAIN] = NULL;
  numbers[AS_TEXT] = g_strdup ("@");
  numbers[COUNT] = g_strdup ("#,##0");
  numbers[LACK] = g_strdup ("0;-0;");
  numbers[QUANTITY] = g_strdup (DECIMALS_OF_QUANTITY);
  numbers[QUANTITY_UNKNOWN] = marked ("", DECIMALS_OF_QUANTITY);
  numbers[QUANTITY_AT_LEAST] = marked (at_least, DECIMALS_OF_QUANTITY);
  numbers[QUANTITY_INCOMPLETE] = marked (incomplete, DECIMALS_OF_QUANTITY);
  numbers[GENERAL_UNKNOWN] = marked ("", "General");
  numbers[MONEY] = g_strdup (money);
  numbers[MONEY_AT_LEAST] = marked (at_least, money);
  numbers[MONEY_INCOMPLETE] = marked (incomplete, money);
  numbers[MONEY_AT_MOST] = marked (at_most, money);
  numbers[MONEY_UNKNOWN] = marked ("", money);
  numbers[NOT_KNOWN] = g_strdup ("\"?\";\"?\";\"?\"");
  numbers[MONEY_NONE] = g_strconcat (money, ";-", money, ";\"–\"", NULL);
  numbers[SHARE] = g_strdup ("0.0########");
  numbers[FINE] = g_strdup (fine);
  numbers[FINE_AT_LEAST] = marked (at_least, fine);
  numbers[FINE_INCOMPLETE] = marked (incomplete, fine);
  numbers[FINE_UNKNOWN] = marked ("", fine);
  numbers[PCT_UNKNOWN] = marked ("", PCT_ONE_DECIMAL);
  numbers[PCT_UNKNOWN_LEFT] = left ("", PCT_ONE_DECIMAL);
  numbers[PCT_EXACT] = g_strdup (PCT_ALL_DECIMALS);
  numbers[PCT_NONE] = g_strdup (PCT_ALL_DECIMALS ";-" PCT_ALL_DECIMALS ";\"–\"");
  numbers[DATE] = g_strdup ("yyyy-mm-dd");
  for (int i = 0; i < CRO_N_DECIMALS; i++)
    {
      g_autofree char *price = with_digits (source->book.digits + i);
      g_autofree char *pct = g_strdup_printf ("0.%0*d%%", i + 1, 0);
      g_autofree char *coefficient = g_strdup_printf ("0.%0*d", i + 2, 0);

      numbers[PRICE + i] = g_strdup (price);
      numbers[PRICE_UNKNOWN + i] = marked ("", price);
      numbers[PCT + i] = g_strdup (pct);
      numbers[PCT_AT_LEAST + i] = marked (at_least, pct);
      numbers[PCT_INCOMPLETE + i] = marked (incomplete, pct);
      numbers[PCT_AT_MOST + i] = marked (at_most, pct);
      numbers[PCT_LEFT_AT_MOST + i] = left (at_most, pct);
      numbers[PCT_LEFT_INCOMPLETE + i] = left (incomplete, pct);
      numbers[COEFFICIENT + i] = g_strdup (coefficient);
      numbers[COEFFICIENT_AT_MOST + i] = marked (at_most, coefficient);
      numbers[COEFFICIENT_INCOMPLETE + i] = marked (incomplete, coefficient);
    }
}

/* What a computation leaves of nothing is smaller. */
#define LEAST_PART 1e-11

/* A format with a condition would show it as less than its last decimal, and what is below 0 without its sign in some
 * programs. */
CroStyle
cro_workbook_shown_style (CroStyle style,
                          double   value)
{
  static const CroStyle of_decimals[] = { CRO_STYLE_PCT, CRO_STYLE_PCT_AT_LEAST, CRO_STYLE_PCT_INCOMPLETE,
                                          CRO_STYLE_PCT_AT_MOST };

  for (gsize i = 0; i < G_N_ELEMENTS (of_decimals); i++)
    {
      CroStyle last = of_decimals[i] + CRO_N_DECIMALS - 1;

      if (style < of_decimals[i] || style > last || fabs (value) < LEAST_PART)
        continue;
      while (style < last && cro_money_round (100 * value, (int) (style - of_decimals[i]) + 1) == 0)
        style++;
    }
  return style;
}

/* The library takes the hash of a format that is like an earlier one anew for every cell. */
static lxw_format *
find_alike (lxw_format *const *styles,
            int                n)
{
  for (int i = 0; i < n; i++)
    if (styles_of[i].looks == styles_of[n].looks && styles_of[i].number == styles_of[n].number)
      return styles[i];
  return NULL;
}

void
cro_workbook_make_styles (lxw_workbook            *book,
                          const CroWorkbookSource *source,
                          const char *const       *texts,
                          lxw_format              *styles[CRO_N_STYLES])
{
  char *numbers[N_NUMBERS];

  make_numbers (source, texts, numbers);
  for (int i = 0; i < CRO_N_STYLES; i++)
    {
      styles[i] = find_alike (styles, i);
      if (styles[i] != NULL || (styles_of[i].looks == 0 && styles_of[i].number == PLAIN))
        continue;
      styles[i] = workbook_add_format (book);
      set_looks (styles[i], styles_of[i].looks);
      if (numbers[styles_of[i].number] != NULL)
        format_set_num_format (styles[i], numbers[styles_of[i].number]);
    }
  for (int i = 0; i < N_NUMBERS; i++)
    g_free (numbers[i]);
}
