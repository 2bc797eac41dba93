/* Recipes in rows. */
#include "cro-bring-private.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-name.h"
#include "cro-price-words.h"
#include "cro-title.h"
#include "cro-total.h"
#include "cro-words.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

static CroBringRecipe *
get_recipe (CroBringReader *self,
            guint           index)
{
  return &g_array_index (self->bring->recipes, CroBringRecipe, index);
}

/* The recipe of that title, made where there is none yet. */
static void
name_recipe (CroBringReader *self,
             const char     *text,
             guint           number)
{
  g_auto (CroTitle) title = { 0 };
  g_autofree char *key = NULL;
  CroBringRecipe recipe = { .makes = CRO_NOT_SET, .gives = CRO_NOT_SET, .gives_unit = CRO_UNIT_G,
                            .price = CRO_NOT_SET, .number = number };
  guint found;

  cro_title_read (text, &title);
  key = cro_bring_dup_key (title.name);
  found = GPOINTER_TO_UINT (g_hash_table_lookup (self->recipes, key));
  if (found == 0)
    {
      recipe.name = cro_bring_keep (self, title.name);
      recipe.makes = title.makes > 0 ? title.makes : CRO_NOT_SET;
      recipe.gives = title.gives > 0 ? title.gives : CRO_NOT_SET;
      if (title.gives > 0)
        recipe.gives_unit = title.gives_unit;
      recipe.is_left_out = g_hash_table_contains (self->plates, key);
      g_array_append_val (self->bring->recipes, recipe);
      found = self->bring->recipes->len;
      g_hash_table_insert (self->recipes, g_steal_pointer (&key), GUINT_TO_POINTER (found));
    }
  self->recipe = found;
}

/* What a cell says and nothing was made of is told, never dropped. */
static void
keep_unused (CroBringReader    *self,
             CroBringRecipe    *recipe,
             const CroReadCell *cell)
{
  if (cell->kind != CRO_READ_CELL_EMPTY && recipe->unused == NULL)
    recipe->unused = cro_bring_keep (self, cell->text);
}

static gboolean
is_same_amount (gint64  a,
                CroUnit of_a,
                gint64  b,
                CroUnit of_b)
{
  double x = (double) a * cro_unit_factor (of_a), y = (double) b * cro_unit_factor (of_b);

  return cro_unit_get (of_a)->base == cro_unit_get (of_b)->base && fabs (x - y) <= 1e-9 * fabs (x);
}

/* What another row of the recipe says again is nothing new; what it says otherwise is told. */
static void
take_gives (CroBringReader    *self,
            CroBringRecipe    *recipe,
            const CroReadCell *cell,
            gint64             read,
            CroUnit            unit)
{
  if (recipe->gives == CRO_NOT_SET)
    {
      recipe->gives_unit = unit;
      recipe->gives = read;
    }
  else if (!is_same_amount (recipe->gives, recipe->gives_unit, read, unit))
    keep_unused (self, recipe, cell);
}

static void
take_once (CroBringReader    *self,
           CroBringRecipe    *recipe,
           const CroReadCell *cell,
           gint64             read,
           gint64            *value)
{
  if (*value == CRO_NOT_SET)
    *value = read;
  else if (*value != read)
    keep_unused (self, recipe, cell);
}

/* "for 6", "makes 450 g", as a title says it. */
static gboolean
read_said (CroBringReader    *self,
           CroBringRecipe    *recipe,
           const CroReadCell *cell)
{
  g_auto (CroTitle) title = { 0 };

  if (cell->kind != CRO_READ_CELL_TEXT || !cro_title_read_yield (cell->text, &title))
    return FALSE;
  if (title.gives > 0)
    take_gives (self, recipe, cell, title.gives, title.gives_unit);
  else
    take_once (self, recipe, cell, title.makes, &recipe->makes);
  return TRUE;
}

/* "24", "24 bites", "12 pc" are a count, "450 g" is an amount; a number alone has the unit of the row
 * where it is how much a batch gives. What follows a count may be any word that is no unit. */
static void
read_made (CroBringReader *self,
           guint           index,
           CroRole         role,
           CroBringRecipe *recipe)
{
  guint column;
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, role, &column);
  const char *unit_text = "", *rest = "";
  CroUnit unit = CRO_UNIT_EACH;
  gboolean is_unit;
  gint64 read;

  if (cell->kind == CRO_READ_CELL_EMPTY)
    return;
  if (!cro_brought_number (self->brought, cell, column, &read, &rest) || read <= 0)
    {
      if (!read_said (self, recipe, cell))
        keep_unused (self, recipe, cell);
      return;
    }
  if (role == CRO_ROLE_GIVES && *rest == '\0')
    unit_text = cro_brought_get_role (self->brought, index, CRO_ROLE_UNIT, NULL)->text;
  is_unit = cro_brought_unit (*rest != '\0' ? rest : unit_text, &unit);
  if (is_unit && unit != CRO_UNIT_EACH)
    take_gives (self, recipe, cell, read, unit);
  else if (!is_unit && (role == CRO_ROLE_GIVES || strpbrk (rest, "0123456789") != NULL))
    keep_unused (self, recipe, cell);
  else
    take_once (self, recipe, cell, read, &recipe->makes);
}

static void
read_selling_price (CroBringReader *self,
                    guint           index,
                    CroBringRow    *row,
                    CroBringRecipe *recipe)
{
  guint column;
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, CRO_ROLE_SELLING_PRICE, &column);
  gint64 read;

  if (cro_bring_has_other_currency (self, cell->text))
    cro_bring_fail (row, CRO_BRING_OTHER_CURRENCY, column);
  else if (cro_brought_money (self->brought, cell, column, &read, NULL) && read > 0)
    take_once (self, recipe, cell, read, &recipe->price);
  else
    keep_unused (self, recipe, cell);
}

static void
read_of_recipe (CroBringReader *self,
                guint           index,
                CroBringRow    *row)
{
  CroBringRecipe *recipe = get_recipe (self, self->recipe - 1);
  const char *course;

  read_made (self, index, CRO_ROLE_MAKES, recipe);
  read_made (self, index, CRO_ROLE_GIVES, recipe);
  read_selling_price (self, index, row, recipe);
  course = cro_bring_read_text (self, index, CRO_ROLE_COURSE);
  if (recipe->course == NULL)
    recipe->course = course;
  else if (course != NULL && strcmp (course, recipe->course) != 0)
    keep_unused (self, recipe, cro_brought_get_role (self->brought, index, CRO_ROLE_COURSE, NULL));
}

static gboolean
is_empty (CroBringReader *self,
          guint           index,
          CroRole         role)
{
  return cro_brought_get_role (self->brought, index, role, NULL)->kind == CRO_READ_CELL_EMPTY;
}

static gboolean
is_short (const char *text)
{
  return g_utf8_strlen (text, -1) <= CRO_BRING_MOST_NAME;
}

/* What stands beside a recipe's title and says more of it. */
static gboolean
is_of_title (CroRole role)
{
  return role == CRO_ROLE_MAKES || role == CRO_ROLE_GIVES || role == CRO_ROLE_SELLING_PRICE
         || role == CRO_ROLE_COURSE || role == CRO_ROLE_NOTE;
}

/* A row without an amount whose first cell is its only text, beside what says more of a recipe, names
 * the recipe of those below. */
static const char *
find_title (CroBringReader *self,
            guint           index)
{
  const char *found = NULL;

  if (cro_brought_has_role (self->brought, CRO_ROLE_RECIPE) || !is_empty (self, index, CRO_ROLE_AMOUNT))
    return NULL;
  for (guint i = 0; i < self->brought->n_columns; i++)
    {
      const CroReadCell *cell = cro_brought_get (self->brought, index, i);

      if (is_of_title (self->brought->roles[i]))
        continue;
      if (cell->kind == CRO_READ_CELL_TEXT && found == NULL && is_short (cell->text))
        found = cell->text;
      else if (cell->kind == CRO_READ_CELL_TEXT)
        return NULL;
    }
  return found;
}

/* "1/2", "1 1/2 tbsp", "3 lb 4 oz": a sum or a fraction, where no sign leaves open what it is. */
static gboolean
read_sum (const CroReadCell *cell,
          CroUnit            unit,
          CroBringRow       *row)
{
  g_auto (CroEntry) entry = { 0 };

  if (cell->kind != CRO_READ_CELL_TEXT
      || !cro_entry_measured (cell->text, unit, CRO_RANGE_AT_LEAST_0, cro_words_entry (), &entry)
      || entry.understood != NULL)
    return FALSE;
  row->amount = entry.micro;
  row->unit = entry.unit;
  return TRUE;
}

static gboolean
has_digit (const char *text)
{
  for (; *text != '\0'; text = g_utf8_next_char (text))
    if (g_unichar_type (g_utf8_get_char (text)) == G_UNICODE_OTHER_NUMBER || g_unichar_isdigit (g_utf8_get_char (text)))
      return TRUE;
  return FALSE;
}

/* Under a name of its own, "Garlic (cloves)", with the allergens of what it is. */
static void
take_own_name (CroBringReader *self,
               CroBringRow    *row,
               const char     *word)
{
  guint32 item = cro_bring_find_item (self, row->name);
  g_autofree char *name = g_strdup_printf ("%s (%s)", row->name, word);
  gboolean is_known;

  if (item != CRO_NO_SLOT)
    row->allergens = cro_model_item (self->model, item)->allergens;
  row->name = cro_bring_find_name (self, self->items, name, &is_known);
  row->state = is_known ? CRO_BRING_KNOWN : CRO_BRING_NEW;
}

/* "1 pod" has no weight that anybody told. The line stands, of pieces whose cost is not known: of the book's
 * ingredient where a piece of that has no weight, else of a name of their own. */
static gboolean
count_pieces (CroBringReader *self,
              CroBringRow    *row,
              const char     *word,
              guint           column)
{
  CroModel *model = self->model;
  guint32 item = cro_bring_find_item (self, row->name);
  gboolean is_own;

  if (!g_unichar_isalpha (g_utf8_get_char (word)) || has_digit (word)
      || g_utf8_strlen (row->name, -1) + g_utf8_strlen (word, -1) + 3 > CRO_BRING_MOST_NAME
      || cro_currency_scan (word, model->currency != NULL ? model->currency : "EUR", &is_own) > 0)
    return cro_bring_fail (row, CRO_BRING_NOT_A_UNIT, column);
  row->unit = CRO_UNIT_EACH;
  if (item != CRO_NO_SLOT
      && cro_measure_lacks (&model->measures[item], CRO_BASE_EACH, (CroBase) model->measures[item].base)
             != CRO_LACKS_NOTHING)
    row->note = row->note != NULL ? row->note : cro_bring_keep (self, word);
  else
    take_own_name (self, row, word);
  cro_bring_leave (row, CRO_BRING_COUNTED, column);
  return TRUE;
}

/* "to taste", a bunch, or nothing at all: what is taken of it is not known, and never none. Its unit is settled
 * once all rows are read (settle_amounts). */
static gboolean
count_one (CroBringReader    *self,
           CroBringRow       *row,
           const CroReadCell *amount,
           const CroReadCell *unit,
           gboolean           has_unit,
           guint              column)
{
  const char *word = amount->kind != CRO_READ_CELL_EMPTY             ? amount->text
                     : unit->kind == CRO_READ_CELL_TEXT && !has_unit ? unit->text
                     /* Translators: beside what a recipe takes, where a spreadsheet does not say how much. */
                                                                     : _("no amount");

  g_autofree char *tidy = cro_name_dup_tidy (word);

  row->amount = CRO_MICRO;
  if (row->note == NULL)
    row->note = cro_bring_keep (self, tidy);
  cro_bring_leave (row, CRO_BRING_NO_AMOUNT, column);
  return TRUE;
}

/* "240 g", "240", with a unit beside it or none: then it is counted. */
static gboolean
read_amount (CroBringReader *self,
             guint           index,
             CroBringRow    *row)
{
  guint column, unit_column;
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, CRO_ROLE_AMOUNT, &column);
  const CroReadCell *unit = cro_brought_get_role (self->brought, index, CRO_ROLE_UNIT, &unit_column);
  const char *rest = "";
  gboolean has_unit, is_number, is_whole, is_sum;

  if (cell->kind == CRO_READ_CELL_ERROR)
    return cro_bring_fail (row, CRO_BRING_CELL_ERROR, column);
  row->unit = CRO_UNIT_EACH;
  has_unit = cro_brought_unit (unit->text, &row->unit);
  is_number = cro_brought_number (self->brought, cell, column, &row->amount, &rest);
  is_whole = is_number && (*rest == '\0' || cro_brought_unit (rest, &row->unit));
  is_sum = !is_whole && read_sum (cell, row->unit, row);
  if (!is_number && !is_sum && !has_digit (cell->text))
    return count_one (self, row, cell, unit, has_unit, column);
  if (!is_number && !is_sum)
    return *rest != '\0' ? cro_bring_fail (row, CRO_BRING_NOT_A_UNIT, column)
                         : cro_bring_fail_number (self, row, cell, column, CRO_BRING_NOT_AN_AMOUNT);
  if (row->amount < 0)
    return cro_bring_fail (row, CRO_BRING_NOT_AN_AMOUNT, column);
  if (!is_whole && !is_sum && !count_pieces (self, row, rest, column))
    return FALSE;
  if ((is_sum ? row->unit == CRO_UNIT_EACH : *rest == '\0') && unit->kind != CRO_READ_CELL_EMPTY && !has_unit
      && !count_pieces (self, row, unit->text, unit_column))
    return FALSE;
  row->base = cro_unit_get (row->unit)->base;
  return TRUE;
}

static void
read_what_is_taken (CroBringReader *self,
                    guint           index,
                    CroBringRow    *row)
{
  gboolean is_known;

  row->name = cro_bring_read_name (self, index, CRO_ROLE_NAME, self->items, row, &is_known);
  if (row->name == NULL)
    return;
  row->state = is_known ? CRO_BRING_KNOWN : CRO_BRING_NEW;
  row->note = cro_bring_read_text (self, index, CRO_ROLE_NOTE);
  if (!read_amount (self, index, row) || !cro_bring_read_yield (self, index, row))
    return;
  if (self->recipe == 0)
    {
      cro_bring_fail (row, CRO_BRING_NO_RECIPE, 0);
      return;
    }
  row->recipe = get_recipe (self, self->recipe - 1)->name;
  row->recipe_index = self->recipe - 1;
}

/* A sum that a sheet makes of its rows is nothing that a recipe takes. */
static gboolean
is_total (CroBringReader *self,
          guint           index)
{
  g_autofree char *folded = cro_fold (cro_brought_get_role (self->brought, index, CRO_ROLE_NAME, NULL)->text);

  return is_empty (self, index, CRO_ROLE_AMOUNT) && cro_says_total (folded);
}

void
cro_bring_read_line (CroBringReader *self,
                     guint           index,
                     CroBringRow    *row)
{
  const char *title = find_title (self, index);
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, CRO_ROLE_RECIPE, NULL);
  gboolean is_title = title != NULL;

  if (title == NULL && cell->kind == CRO_READ_CELL_TEXT && is_short (cell->text))
    title = cell->text;
  if (title != NULL)
    {
      name_recipe (self, title, row->number);
      row->recipe = get_recipe (self, self->recipe - 1)->name;
      row->state = CRO_BRING_TITLE;
    }
  if (self->recipe > 0)
    read_of_recipe (self, index, row);
  if (!is_empty (self, index, CRO_ROLE_AMOUNT)
      || (!is_title && !is_empty (self, index, CRO_ROLE_NAME) && !is_total (self, index)))
    read_what_is_taken (self, index, row);
}

/* --- Once all rows are read ------------------------------------------------------------------------ */

static guint
find_recipe (CroBringReader *self,
             const char     *name)
{
  g_autofree char *key = cro_bring_dup_key (name);

  return GPOINTER_TO_UINT (g_hash_table_lookup (self->recipes, key));
}

static gboolean
is_line (const CroBringRow *row)
{
  return row->state == CRO_BRING_KNOWN || row->state == CRO_BRING_NEW;
}

/* Deeper than any kitchen nests, and shallow enough to walk. */
#define MOST_DEEP 1000

typedef struct
{
  CroBringReader *reader;
  guint          *taken;     /* by row: index + 1 of the recipe that its line takes */
  GArray        **lines;     /* by recipe: its rows */
  guint8         *state;     /* by recipe: 1 on the way, 2 walked */
} Walk;

/* A line that closes a circle is the one at fault. */
static void
walk (Walk  *self,
      guint  recipe,
      guint  depth)
{
  self->state[recipe] = 1;
  for (guint i = 0; i < self->lines[recipe]->len; i++)
    {
      guint index = g_array_index (self->lines[recipe], guint, i), taken = self->taken[index];

      if (taken == 0 || self->state[taken - 1] == 2)
        continue;
      if (self->state[taken - 1] == 1 || depth > MOST_DEEP)
        cro_bring_fail (&g_array_index (self->reader->bring->rows, CroBringRow, index), CRO_BRING_CYCLE, 0);
      else
        walk (self, taken - 1, depth + 1);
    }
  self->state[recipe] = 2;
}

static void
begin_walk (Walk *self)
{
  CroBring *bring = self->reader->bring;

  for (guint i = 0; i < bring->recipes->len; i++)
    self->lines[i] = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < bring->rows->len; i++)
    {
      const CroBringRow *row = &g_array_index (bring->rows, CroBringRow, i);

      if (!is_line (row))
        continue;
      self->taken[i] = find_recipe (self->reader, row->name);
      g_array_append_val (self->lines[row->recipe_index], i);
    }
}

static void
find_circles (Walk *self)
{
  for (guint i = 0; i < self->reader->bring->recipes->len; i++)
    if (self->state[i] == 0)
      walk (self, i, 0);
  for (guint i = 0; i < self->reader->bring->recipes->len; i++)
    g_array_unref (self->lines[i]);
}

static gboolean
lacks_amount (const CroBringRow *row)
{
  for (guint i = 0; i < row->n_left; i++)
    if (row->left[i].fault == CRO_BRING_NO_AMOUNT)
      return TRUE;
  return FALSE;
}

static CroBase
base_of_recipe (const CroBringRecipe *recipe)
{
  return recipe->gives == CRO_NOT_SET && recipe->makes != CRO_NOT_SET ? CRO_BASE_EACH
                                                                      : cro_unit_get (recipe->gives_unit)->base;
}

/* What another row of the sheet makes is made, not bought: a preparation, of which the line takes. */
static void
settle_lines (Walk *self)
{
  for (guint i = 0; i < self->reader->bring->rows->len; i++)
    {
      CroBringRow *row = &g_array_index (self->reader->bring->rows, CroBringRow, i);
      CroBringRecipe *taken;

      if (!is_line (row) || self->taken[i] == 0)
        continue;
      taken = get_recipe (self->reader, self->taken[i] - 1);
      /* Where nothing says how much it gives, it will be measured as it is taken. */
      if (taken->is_plate && taken->gives == CRO_NOT_SET && !lacks_amount (row))
        taken->gives_unit = row->unit;
      taken->is_plate = FALSE;
      row->name = taken->name;
      row->state = CRO_BRING_KNOWN;
    }
}

/* One of what the book cannot turn into what the ingredient is costed in; FALSE: it can turn all. */
static gboolean
find_unknown_unit (const CroMeasure *measure,
                   CroUnit          *unit)
{
  static const CroUnit units[] = { CRO_UNIT_EACH, CRO_UNIT_G, CRO_UNIT_ML };

  for (gsize i = 0; i < G_N_ELEMENTS (units); i++)
    if (cro_measure_lacks (measure, cro_unit_get (units[i])->base, (CroBase) measure->base) != CRO_LACKS_NOTHING)
      {
        *unit = units[i];
        return TRUE;
      }
  return FALSE;
}

/* A line without an amount costs nobody knows how much: its unit is one that what it takes is not costed in,
 * whatever other rows make of that. What the book can turn into every unit has a name of its own, "Egg (x)",
 * the same in all languages. */
static void
settle_amounts (CroBringReader *self,
                const guint    *taken)
{
  g_autoptr (GHashTable) bases = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < self->bring->rows->len; i++)
    {
      const CroBringRow *row = &g_array_index (self->bring->rows, CroBringRow, i);

      if (row->state == CRO_BRING_NEW && !lacks_amount (row) && !g_hash_table_contains (bases, row->name))
        g_hash_table_insert (bases, (gpointer) row->name, GUINT_TO_POINTER (row->base));
    }
  for (guint i = 0; i < self->bring->rows->len; i++)
    {
      CroBringRow *row = &g_array_index (self->bring->rows, CroBringRow, i);
      guint32 item;
      CroMeasure measure;

      if (!is_line (row) || !lacks_amount (row))
        continue;
      item = cro_bring_find_item (self, row->name);
      row->base = taken[i] > 0 ? base_of_recipe (get_recipe (self, taken[i] - 1))
                               : (CroBase) GPOINTER_TO_UINT (g_hash_table_lookup (bases, row->name));
      measure = item != CRO_NO_SLOT ? self->model->measures[item] : cro_measure_make (row->base, 0, 0);
      if (!find_unknown_unit (&measure, &row->unit))
        {
          row->base = CRO_BASE_EACH;
          take_own_name (self, row, "x");
        }
    }
}

/* A preparation cannot have the name of something else that plates take. */
static void
leave_out (CroBringReader *self)
{
  for (guint i = 0; i < self->bring->recipes->len; i++)
    {
      CroBringRecipe *recipe = get_recipe (self, i);
      g_autofree char *key = cro_bring_dup_key (recipe->name);

      recipe->is_plate &= recipe->gives == CRO_NOT_SET || recipe->makes != CRO_NOT_SET;
      recipe->is_left_out |= !recipe->is_plate && g_hash_table_contains (self->items_of_book, key);
    }
  for (guint i = 0; i < self->bring->rows->len; i++)
    {
      CroBringRow *row = &g_array_index (self->bring->rows, CroBringRow, i);
      CroBringRecipe *recipe;

      if (!is_line (row))
        continue;
      recipe = get_recipe (self, row->recipe_index);
      if (recipe->is_left_out)
        cro_bring_fail (row, CRO_BRING_IN_BOOK, 0);
      else
        recipe->n_lines++;
    }
  for (guint i = 0; i < self->bring->recipes->len; i++)
    get_recipe (self, i)->is_left_out |= get_recipe (self, i)->n_lines == 0;
}

void
cro_bring_settle_recipes (CroBringReader *self)
{
  CroBring *bring = self->bring;
  g_autofree guint *taken = g_new0 (guint, bring->rows->len + 1);
  g_autofree GArray **lines = g_new0 (GArray *, bring->recipes->len + 1);
  g_autofree guint8 *state = g_new0 (guint8, bring->recipes->len + 1);
  Walk all = { self, taken, lines, state };

  for (guint i = 0; i < bring->recipes->len; i++)
    get_recipe (self, i)->is_plate = get_recipe (self, i)->gives == CRO_NOT_SET;
  begin_walk (&all);
  find_circles (&all);
  settle_lines (&all);
  settle_amounts (self, taken);
  leave_out (self);
}
