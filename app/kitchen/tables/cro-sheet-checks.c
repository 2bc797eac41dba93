#include "cro-sheets-private.h"

#include "cro-decimal.h"
#include "cro-graph.h"

/* --- Checks that go over several columns ------------------------------------------------------ */

static gboolean
is_mass (const CroField *unit)
{
  return cro_unit_get ((CroUnit) unit->number)->base == CRO_BASE_GRAM;
}

static void
check_output (CroSheetReader *reader,
              guint32         line,
              const CroField *fields)
{
  const CroField *amount = &fields[CRO_OUTPUTS_AMOUNT];
  const CroField *unit = &fields[CRO_OUTPUTS_UNIT];
  const CroField *yield = &fields[CRO_OUTPUTS_YIELD_PCT];

  if (amount->is_set && yield->is_set)
    cro_sheet_fault (reader, line, CRO_OUTPUTS_YIELD_PCT, CRO_FAULT_OUTPUT_AMOUNT, yield->text,
                     "both");
  else if (yield->is_set && unit->is_set && !is_mass (unit))
    cro_sheet_fault (reader, line, CRO_OUTPUTS_UNIT, CRO_FAULT_OUTPUT_AMOUNT, unit->text, "mass");
  else if (amount->is_set && !unit->is_set)
    cro_sheet_fault (reader, line, CRO_OUTPUTS_UNIT, CRO_FAULT_MISSING_VALUE, NULL, NULL);
}

static void
check_amount_has_unit (CroSheetReader *reader,
                       guint32         line,
                       const CroField *fields,
                       guint           amount,
                       guint           unit)
{
  if (fields[amount].is_set && !fields[unit].is_set)
    cro_sheet_fault (reader, line, (int) unit, CRO_FAULT_MISSING_VALUE, NULL, NULL);
}

/* Only what was sold of a plate or a menu has a price that revenue can be reckoned from. */
static void
check_sale (CroSheetReader *reader,
            guint32         line,
            const CroField *fields)
{
  const CroField *kind = &fields[CRO_SALES_KIND];
  const CroField *sold = &fields[CRO_SALES_SOLD];

  if (!fields[CRO_SALES_NET_REVENUE].is_set
      && ((kind->is_set && kind->number == CRO_SALE_OTHER) || (sold->is_set && sold->number == 0)))
    cro_sheet_fault (reader, line, CRO_SALES_NET_REVENUE, CRO_FAULT_MISSING_VALUE, NULL, NULL);
}

/* A plate or a menu is named, and the book has it; what is none of them has no name to be sold as. */
static void
check_till_name (CroSheetReader *reader,
                 guint32         line,
                 const CroField *fields)
{
  const CroField *kind = &fields[CRO_TILL_NAMES_KIND];
  gboolean is_thing = kind->number == CRO_TILL_KIND_PLATE || kind->number == CRO_TILL_KIND_MENU;

  if (!kind->is_set || (!is_thing && !fields[CRO_TILL_NAMES_SOLD_AS].is_set))
    return;
  if (is_thing && fields[CRO_TILL_NAMES_SOLD_AS].is_set)
    cro_sheet_resolve (reader, line, CRO_TILL_NAMES_SOLD_AS, CRO_REFERENT_SOLD, fields);
  else if (is_thing)
    cro_sheet_fault (reader, line, CRO_TILL_NAMES_SOLD_AS, CRO_FAULT_MISSING_VALUE, NULL, NULL);
  else
    cro_sheet_fault (reader, line, CRO_TILL_NAMES_SOLD_AS, CRO_FAULT_NOT_EMPTY, fields[CRO_TILL_NAMES_SOLD_AS].text,
                     kind->text);
}

void
cro_sheet_check_row (CroSheetReader *reader,
                     guint32         line,
                     const CroField *fields)
{
  switch (reader->id)
    {
    case CRO_TABLE_OUTPUTS:
      check_output (reader, line, fields);
      break;
    case CRO_TABLE_LINES:
      if (fields[CRO_LINES_WEIGHED].is_set && fields[CRO_LINES_WEIGHED].number == 0
          && fields[CRO_LINES_YIELD_PCT].is_set)
        cro_sheet_fault (reader, line, CRO_LINES_YIELD_PCT, CRO_FAULT_WHOLE_YIELD,
                         fields[CRO_LINES_YIELD_PCT].text, NULL);
      break;
    case CRO_TABLE_SELLING_PRICES:
      if (!fields[CRO_SELLING_PRICES_PRICE].is_set && fields[CRO_SELLING_PRICES_TAX_PCT].is_set)
        cro_sheet_fault (reader, line, CRO_SELLING_PRICES_PRICE, CRO_FAULT_MISSING_VALUE, NULL,
                         NULL);
      break;
    case CRO_TABLE_PRICE_ANSWERS:
      cro_sheet_check_answer (reader, line, fields);
      break;
    case CRO_TABLE_SALES:
      check_sale (reader, line, fields);
      break;
    case CRO_TABLE_TILL_NAMES:
      check_till_name (reader, line, fields);
      break;
    case CRO_TABLE_PURCHASES:
      check_amount_has_unit (reader, line, fields, CRO_PURCHASES_AMOUNT, CRO_PURCHASES_UNIT);
      break;
    case CRO_TABLE_ADJUSTMENTS:
      check_amount_has_unit (reader, line, fields, CRO_ADJUSTMENTS_AMOUNT, CRO_ADJUSTMENTS_UNIT);
      break;
    case CRO_TABLE_MONTH_ROWS:
      if (fields[CRO_MONTH_ROWS_PART].is_set != fields[CRO_MONTH_ROWS_PART_KIND].is_set)
        cro_sheet_fault (reader, line,
                         fields[CRO_MONTH_ROWS_PART].is_set ? CRO_MONTH_ROWS_PART_KIND
                                                            : CRO_MONTH_ROWS_PART,
                         CRO_FAULT_MISSING_VALUE, NULL, NULL);
      break;
    default:
      break;
    }
}

/* --- Checks that go over whole tables --------------------------------------------------------- */

void
cro_sheet_read_book (CroSheetReader *reader)
{
  const CroSheet *sheet = &reader->sheets->sheets[CRO_TABLE_BOOK];

  for (guint i = 0; i < sheet->n; i++)
    {
      const char *name = cro_sheet_text (sheet, i, CRO_BOOK_KEY);
      const char *value = cro_sheet_text (sheet, i, CRO_BOOK_VALUE);
      CroField field = { 0 };
      CroFaultKind kind;
      CroBookKey key;
      g_autofree char *detail = NULL;

      if (name == NULL)
        continue;
      if (!cro_book_key_find (name, &key))
        {
          cro_sheet_fault_in (reader, CRO_TABLE_BOOK, sheet->at[i], CRO_BOOK_KEY,
                              CRO_FAULT_UNKNOWN_KEY, name, NULL);
          continue;
        }
      if (value == NULL)
        continue;
      if (!cro_table_parse_field (cro_book_key_get (key), value, &field, &kind, &detail))
        cro_sheet_fault_in (reader, CRO_TABLE_BOOK, sheet->at[i], CRO_BOOK_VALUE, kind, value,
                            detail);
      else if (field.is_set)
        reader->sheets->book[key] = cro_field_is_text (cro_book_key_get (key)->kind)
                                        ? (gintptr) value
                                        : field.number;
    }
}

void
cro_sheet_check_mains (CroSheetReader *reader)
{
  const CroSheet *outputs = &reader->sheets->sheets[CRO_TABLE_OUTPUTS];
  const CroSheet *preparations = &reader->sheets->sheets[CRO_TABLE_PREPARATIONS];
  g_autofree guint *mains = g_new0 (guint, preparations->n + 1);

  for (guint i = 0; i < outputs->n; i++)
    {
      gint64 preparation = cro_sheet_get (outputs, i, CRO_OUTPUTS_PREPARATION);

      if (preparation != CRO_SHEET_UNSET && cro_sheet_get (outputs, i, CRO_OUTPUTS_ROLE) == 0
          && mains[preparation]++ > 0)
        cro_sheet_fault_in (reader, CRO_TABLE_OUTPUTS, outputs->at[i], CRO_OUTPUTS_ROLE,
                            CRO_FAULT_MAIN_OUTPUT,
                            cro_sheet_text (preparations, (guint) preparation,
                                            CRO_PREPARATIONS_NAME),
                            "2");
    }
  for (guint i = 0; i < preparations->n; i++)
    if (mains[i] == 0)
      cro_sheet_fault_in (reader, CRO_TABLE_PREPARATIONS, preparations->at[i],
                          CRO_PREPARATIONS_NAME, CRO_FAULT_MAIN_OUTPUT,
                          cro_sheet_text (preparations, i, CRO_PREPARATIONS_NAME), "0");
}

/* Plates of one choice of a menu. Texts are interned, so that equal names are one pointer. */
typedef struct
{
  gint64 menu;
  gint64 choice;
  gint64 shares;
  guint  n_open;   /* without a share: they divide what is left */
  guint  last;     /* its last row */
} Choice;

static Choice *
choice_of (GArray         *choices,
           const CroSheet *sheet,
           guint           row)
{
  Choice choice = { cro_sheet_get (sheet, row, CRO_MENU_PLATES_MENU),
                    cro_sheet_get (sheet, row, CRO_MENU_PLATES_CHOICE), 0, 0, row };

  for (guint i = 0; i < choices->len; i++)
    {
      Choice *known = &g_array_index (choices, Choice, i);

      if (known->menu == choice.menu && known->choice == choice.choice)
        return known;
    }
  g_array_append_val (choices, choice);
  return &g_array_index (choices, Choice, choices->len - 1);
}

void
cro_sheet_check_choices (CroSheetReader *reader)
{
  const CroSheet *sheet = &reader->sheets->sheets[CRO_TABLE_MENU_PLATES];
  g_autoptr (GArray) choices = g_array_new (FALSE, FALSE, sizeof (Choice));

  for (guint i = 0; i < sheet->n; i++)
    if (cro_sheet_get (sheet, i, CRO_MENU_PLATES_CHOICE) != CRO_SHEET_UNSET)
      {
        Choice *choice = choice_of (choices, sheet, i);
        gint64 share = cro_sheet_get (sheet, i, CRO_MENU_PLATES_SHARE_PCT);

        choice->last = i;
        if (share == CRO_SHEET_UNSET)
          choice->n_open++;
        else
          choice->shares += share;
      }
  for (guint i = 0; i < choices->len; i++)
    {
      const Choice *choice = &g_array_index (choices, Choice, i);

      if (choice->shares > 100 * CRO_MICRO
          || (choice->n_open == 0 && choice->shares != 100 * CRO_MICRO))
        cro_sheet_fault_in (reader, CRO_TABLE_MENU_PLATES, sheet->at[choice->last],
                            CRO_MENU_PLATES_SHARE_PCT, CRO_FAULT_CHOICE_SHARES,
                            cro_sheet_text (sheet, choice->last, CRO_MENU_PLATES_CHOICE), NULL);
    }
}

/* The line by which `row` takes an output of `part`. */
static guint
line_between (const CroLines *lines,
              const gint32   *maker,
              guint32         row,
              guint32         part)
{
  gsize i = 0;

  while (lines->row[i] != (int32_t) row || maker[lines->item[i]] != (gint32) part)
    i++;
  return (guint) i;
}

static void
add_cycle (CroSheetReader *reader,
           const CroLines *lines,
           const gint32   *maker,
           const guint32  *cycle,
           gsize           length)
{
  const CroSheet *preparations = &reader->sheets->sheets[CRO_TABLE_PREPARATIONS];
  const CroSheet *sheet = &reader->sheets->sheets[CRO_TABLE_LINES];
  guint line = line_between (lines, maker, cycle[length - 1], cycle[0]);
  g_autoptr (GString) path = g_string_new (NULL);

  for (gsize i = 0; i <= length; i++)
    {
      if (i > 0)
        g_string_append (path, " → ");
      g_string_append (path, cro_sheet_text (preparations, cycle[i % length],
                                             CRO_PREPARATIONS_NAME));
    }
  cro_sheet_fault_in (reader, CRO_TABLE_LINES, sheet->at[line], CRO_LINES_ITEM, CRO_FAULT_CYCLE,
                      NULL, path->str);
}

typedef struct
{
  CroLines  lines;
  gint32   *maker;
} Structure;

/* Lines without a fault, and who makes what. */
static void
build_structure (CroSheetReader *reader,
                 Structure      *structure)
{
  const CroSheet *sheet = &reader->sheets->sheets[CRO_TABLE_LINES];
  const CroSheet *outputs = &reader->sheets->sheets[CRO_TABLE_OUTPUTS];
  guint n_ingredients = cro_sheet_n_of (reader, CRO_TABLE_INGREDIENTS);
  CroLines *lines = &structure->lines;

  lines->n = sheet->n;
  lines->row = g_new (int32_t, sheet->n + 1);
  lines->item = g_new (uint32_t, sheet->n + 1);
  lines->position = g_new (int64_t, sheet->n + 1);
  for (guint i = 0; i < sheet->n; i++)
    {
      gint64 row = cro_sheet_get (sheet, i, CRO_LINES_PARENT);
      gint64 item = cro_sheet_get (sheet, i, CRO_LINES_ITEM);

      lines->row[i] = row == CRO_SHEET_UNSET || item == CRO_SHEET_UNSET ? -1 : (int32_t) row;
      lines->item[i] = item == CRO_SHEET_UNSET ? 0 : (uint32_t) item;
      lines->position[i] = 0;
    }
  structure->maker = g_new (gint32, n_ingredients + outputs->n + 1);
  for (guint i = 0; i < n_ingredients; i++)
    structure->maker[i] = -1;
  for (guint i = 0; i < outputs->n; i++)
    {
      gint64 preparation = cro_sheet_get (outputs, i, CRO_OUTPUTS_PREPARATION);

      structure->maker[n_ingredients + i] = preparation == CRO_SHEET_UNSET ? -1
                                                                           : (gint32) preparation;
    }
}

void
cro_sheet_check_cycles (CroSheetReader *reader)
{
  Structure structure = { 0 };
  CroGraphSource source;
  g_autofree guint32 *cycle = NULL;
  g_autofree void *workspace = NULL;
  gsize n_items = cro_sheet_n_of (reader, CRO_TABLE_INGREDIENTS)
                  + cro_sheet_n_of (reader, CRO_TABLE_OUTPUTS);
  gsize n_rows = cro_sheet_n_of (reader, CRO_TABLE_PREPARATIONS)
                 + cro_sheet_n_of (reader, CRO_TABLE_PLATES);
  gsize length;

  build_structure (reader, &structure);
  source = (CroGraphSource){ n_items, n_rows, structure.maker, &structure.lines };
  cycle = g_new (guint32, n_rows + 1);
  workspace = g_malloc (cro_graph_workspace (n_items, n_rows, structure.lines.n));
  length = cro_graph_find_cycle (&source, workspace, cycle);
  if (length > 0)
    add_cycle (reader, &structure.lines, structure.maker, cycle, length);
  g_free (structure.lines.row);
  g_free (structure.lines.item);
  g_free (structure.lines.position);
  g_free (structure.maker);
}
