#include "config.h"

#include "cro-bring-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-isolate.h"
#include "cro-pack.h"
#include "cro-words-price.h"
#include "cro-words.h"

/* Characters of a cell that are quoted. */
#define MOST_QUOTED 60

/* Characters of a heading that name its column. */
#define MOST_HEADING 40

const char *
cro_words_role (CroRole role)
{
  static const char *const words[CRO_N_ROLES] = {
    [CRO_ROLE_NONE] = NC_("column", "not used"),
    [CRO_ROLE_RECIPE] = NC_("column", "recipe"),
    [CRO_ROLE_NAME] = NC_("column", "ingredient"),
    [CRO_ROLE_AMOUNT] = NC_("column", "amount"),
    [CRO_ROLE_UNIT] = NC_("column", "unit"),
    [CRO_ROLE_PRICE] = NC_("column", "price"),
    [CRO_ROLE_PACK] = NC_("column", "pack (6 × 1 kg)"),
    [CRO_ROLE_PACK_COUNT] = NC_("column", "how many in a pack"),
    [CRO_ROLE_PACK_SIZE] = NC_("column", "size of each"),
    [CRO_ROLE_SUPPLIER] = NC_("column", "supplier"),
    [CRO_ROLE_CODE] = NC_("column", "supplier’s code"),
    [CRO_ROLE_GTIN] = NC_("column", "bar code (GTIN)"),
    [CRO_ROLE_CURRENCY] = NC_("column", "currency"),
    [CRO_ROLE_DATE] = NC_("column", "price from (date)"),
    [CRO_ROLE_TRIM_YIELD] = NC_("column", "trim yield %"),
    [CRO_ROLE_CATEGORY] = NC_("column", "category"),
    [CRO_ROLE_MAKES] = NC_("column", "how many it makes"),
    [CRO_ROLE_GIVES] = NC_("column", "how much a batch gives"),
    [CRO_ROLE_COURSE] = NC_("column", "course"),
    [CRO_ROLE_SELLING_PRICE] = NC_("column", "selling price"),
    [CRO_ROLE_NOTE] = NC_("column", "note"),
    [CRO_ROLE_BASE_PRICE] = NC_("column", "price per kg, l or piece"),
    [CRO_ROLE_ALLERGENS] = NC_("column", "allergens"),
  };

  return g_dpgettext2 (NULL, "column", words[role]);
}

/* The first cell that holds something tells a column that no heading names. */
static char *
dup_with_example (const CroBrought *brought,
                  guint             column,
                  const char       *letters)
{
  for (guint i = (guint) (brought->headings + 1); i < brought->rows->len; i++)
    {
      const char *text = cro_brought_get (brought, i, column)->text;
      g_autofree char *cell = NULL;

      if (*text == '\0')
        continue;
      cell = g_utf8_substring (text, 0, MIN (g_utf8_strlen (text, -1), MOST_HEADING));
      return g_strdup_printf (_("%s: %s"), letters, cell);
    }
  return g_strdup (letters);
}

char *
cro_words_bring_column (const CroBrought *brought,
                        guint             column)
{
  char letters[3] = { (char) ('A' + column % 26), '\0', '\0' };

  if (brought->headings >= 0)
    {
      const char *heading = cro_brought_get (brought, (guint) brought->headings, column)->text;

      if (*heading != '\0')
        return g_utf8_substring (heading, 0, MIN (g_utf8_strlen (heading, -1), MOST_HEADING));
    }
  if (column >= 26)
    {
      letters[1] = letters[0];
      letters[0] = (char) ('A' + column / 26 - 1);
    }
  return dup_with_example (brought, column, letters);
}

static const char *
sentence_of (CroBringFault fault)
{
  switch (fault)
    {
    case CRO_BRING_SOUND:
      return NULL;
    case CRO_BRING_NO_NAME:
      return _("The row has no name.");
    case CRO_BRING_STRAY:
      return _("The name holds a character that no name may have.");
    case CRO_BRING_TOO_LONG:
      return _("The name is too long.");
    case CRO_BRING_WHICH_SIGN:
      return _("The sign can be a decimal sign or group thousands, and no other number of the column "
               "tells which. Choose it above.");
    case CRO_BRING_NOT_A_PRICE:
      return _("The price is not understood.");
    case CRO_BRING_OTHER_CURRENCY:
      return _("The price is in another currency than the book’s.");
    case CRO_BRING_NO_PACK:
      return _("It is not said how much the price is for: a pack, or a unit.");
    case CRO_BRING_NOT_A_UNIT:
      return _("The unit is not understood.");
    case CRO_BRING_NOT_AN_AMOUNT:
      return _("The amount is not understood.");
    case CRO_BRING_NOT_A_YIELD:
      return _("The trim yield is not understood: it is above 0 % and at most 1,000 %.");
    case CRO_BRING_NO_RECIPE:
      return _("No recipe is named above the line.");
    case CRO_BRING_IN_BOOK:
      return _("The book has something of that name already; its recipe stays as it is.");
    case CRO_BRING_CELL_ERROR:
      return _("The spreadsheet has an error in this cell.");
    case CRO_BRING_CYCLE:
      return _("The recipe would be made of itself.");
    case CRO_BRING_NOT_AN_ALLERGEN:
      return _("The allergens are not understood, so none is stated.");
    case CRO_BRING_ALLERGENS_OF_BOOK:
      return _("The book has the ingredient already, and its allergens stay as they are.");
    case CRO_BRING_YIELD_OF_BOOK:
      return _("The book has the ingredient already, and its trim yield stays as it is.");
    case CRO_BRING_COUNTED:
      return _("The unit is not understood, so the line counts pieces whose cost is not known.");
    case CRO_BRING_NO_AMOUNT:
      return _("No amount is said, so what the line costs is not known.");
    case CRO_BRING_TWICE:
    default:
      return NULL;
    }
}

/* What stands in a cell, as far as a line shows it. */
static char *
dup_shown (const char *cell)
{
  g_autofree char *start = NULL;

  if (g_utf8_strlen (cell, -1) <= MOST_QUOTED)
    return g_strdup (cell);
  start = g_utf8_substring (cell, 0, MOST_QUOTED);
  return g_strconcat (start, "…", NULL);
}

static char *
dup_fault (const CroBrought  *brought,
           const CroBringRow *row,
           CroBringFault      fault,
           guint              column)
{
  const char *sentence = sentence_of (fault);
  const char *cell = "";
  g_autofree char *shown = NULL;

  for (guint i = 0; i < brought->rows->len; i++)
    if (g_array_index (brought->rows, CroBroughtRow, i).number == row->number)
      cell = cro_brought_get (brought, i, column)->text;
  if (*cell == '\0' || fault == CRO_BRING_NO_NAME || fault == CRO_BRING_IN_BOOK || fault == CRO_BRING_NO_RECIPE
      || fault == CRO_BRING_CYCLE)
    return g_strdup (sentence);
  shown = dup_shown (cell);
  /* Translators: what stands in a cell, and what is wrong with it. */
  return cro_isolate_printf (_("“%s”: %s"), shown, sentence);
}

char *
cro_words_bring_fault (const CroBrought  *brought,
                       const CroBringRow *row)
{
  if (row->fault == CRO_BRING_SOUND)
    return NULL;
  if (row->fault == CRO_BRING_TWICE)
    return g_strdup_printf (_("Row %u has the same ingredient, supplier and code."), row->other);
  return dup_fault (brought, row, row->fault, row->column);
}

static void
add_part (GString    *text,
          const char *between,
          char       *part)
{
  if (text->len > 0)
    g_string_append (text, between);
  g_string_append (text, part);
  g_free (part);
}

char *
cro_words_bring_left (const CroBrought  *brought,
                      const CroBringRow *row)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < row->n_left; i++)
    add_part (text, " · ", dup_fault (brought, row, row->left[i].fault, row->left[i].column));
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

char *
cro_words_bring_like (const CroBringRow *row)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (row->like != NULL)
    /* Translators: an ingredient, whose name is like that of one to be imported. */
    add_part (text, " ", cro_isolate_printf (_("The book has “%s”. Is this the same ingredient?"), row->like));
  if (row->like_supplier != NULL)
    /* Translators: a supplier, whose name is like that of one to be imported. */
    add_part (text, " ", cro_isolate_printf (_("The book has the supplier “%s”. Is this the same one?"),
                                             row->like_supplier));
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

char *
cro_words_bring_unused (const CroBrought  *brought,
                        const CroBringRow *row)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < brought->rows->len; i++)
    for (guint c = 0; c < brought->n_columns
                      && g_array_index (brought->rows, CroBroughtRow, i).number == row->number; c++)
      if (*cro_brought_get (brought, i, c)->text != '\0')
        add_part (text, " · ", dup_shown (cro_brought_get (brought, i, c)->text));
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

/* The price before, by how much this one differs from it per kg, l or piece, and what is asked of
 * that; NULL: there is none before. */
static char *
dup_against (CroModel          *model,
             const CroBringRow *row)
{
  g_autofree char *before = NULL, *change = NULL, *says = NULL, *question = NULL;
  const char *currency;

  if (row->before == CRO_NOT_SET || !isfinite (row->ratio))
    return NULL;
  currency = cro_model_currency_of (model, row->offer);
  before = cro_words_price_in (currency, row->before);
  change = cro_words_change ((row->ratio - 1) * 100);
  question = row->is_doubtful ? cro_words_price_question (currency, row->price, row->ratio) : NULL;
  says = row->is_other_pack
             /* Translators: the price before, of another pack, and by how much the new one differs per
              * kg, l or piece. */
             ? g_strdup_printf (_("last %s for another pack, %s"), before, change)
             /* Translators: the price before, and by how much the new one differs. */
             : g_strdup_printf (_("last %s, %s"), before, change);
  return question != NULL ? g_strdup_printf ("%s · %s", says, question) : g_steal_pointer (&says);
}

static char *
dup_price (CroModel          *model,
           const CroBringRow *row)
{
  g_autofree char *price = NULL, *pack = NULL, *offered = NULL, *against = NULL;

  if (!row->has_price)
    return g_strdup (_("no price"));
  price = row->offer != CRO_NO_SLOT ? cro_words_price_in (cro_model_currency_of (model, row->offer), row->price)
                                    : cro_words_price (model, row->price);
  pack = cro_pack_to_text (&row->pack);
  /* Translators: a pack, its price, its supplier. */
  offered = cro_isolate_printf (_("%s, %s, %s"), pack, price, row->supplier);
  against = dup_against (model, row);
  return against != NULL ? g_strdup_printf ("%s · %s", offered, against) : g_steal_pointer (&offered);
}

char *
cro_words_bring_row (CroModel          *model,
                     const CroBring    *bring,
                     const CroBringRow *row)
{
  g_autofree char *amount = NULL, *number = NULL;

  if (bring->kind == CRO_BRING_PRICES)
    return dup_price (model, row);
  if (row->recipe == NULL || row->name == NULL)
    return g_strdup ("");
  number = cro_words_decimal (row->amount);
  amount = g_strdup_printf ("%s %s", number, cro_words_unit (row->unit));
  /* Translators: an amount, and the recipe that takes it. */
  return cro_isolate_printf (_("%s into %s"), amount, row->recipe);
}

static char *
dup_makes (const CroBringRecipe *recipe)
{
  gboolean is_counted = recipe->makes != CRO_NOT_SET;
  g_autofree char *number = cro_words_decimal (is_counted ? recipe->makes : recipe->gives);

  if (is_counted)
    /* Translators: how many bites or portions a recipe makes. */
    return g_strdup_printf (_("makes %s"), number);
  if (recipe->gives != CRO_NOT_SET)
    /* Translators: how much a batch gives: an amount, its unit. */
    return g_strdup_printf (_("gives %s %s"), number, cro_words_unit (recipe->gives_unit));
  return g_strdup (recipe->is_plate ? _("makes 1: the sheet does not say how many")
                                    : _("the sheet does not say how much it gives"));
}

char *
cro_words_bring_recipe (CroModel             *model,
                        const CroBringRecipe *recipe)
{
  g_autofree char *makes = dup_makes (recipe), *price = NULL, *says = NULL, *unused = NULL;

  if (recipe->price != CRO_NOT_SET)
    price = cro_words_price (model, recipe->price);
  says = price == NULL      ? g_strdup (makes)
         /* Translators: what a recipe makes, and the price at which it is sold. */
         : recipe->is_plate ? cro_isolate_printf (_("%s, sold at %s"), makes, price)
                            /* Translators: what a preparation makes, and a selling price. */
                            : cro_isolate_printf (_("%s; only plates are sold, so %s is not used"), makes, price);
  if (recipe->unused == NULL)
    return g_steal_pointer (&says);
  unused = dup_shown (recipe->unused);
  /* Translators: what a recipe makes, and what a cell says. */
  return cro_isolate_printf (_("%s; “%s” is not understood, and not used"), says, unused);
}

/* Plates of which one is made because no cell of theirs tells how many. */
static guint
count_unsaid (const CroBring *bring)
{
  guint n = 0;

  for (guint i = 0; i < bring->recipes->len; i++)
    {
      const CroBringRecipe *recipe = &g_array_index (bring->recipes, CroBringRecipe, i);

      n += !recipe->is_left_out && recipe->is_plate && recipe->makes == CRO_NOT_SET && recipe->unused != NULL;
    }
  return n;
}

static guint
count_recipes (const CroBring *bring,
               gboolean        plates)
{
  guint n = 0;

  for (guint i = 0; i < bring->recipes->len; i++)
    {
      const CroBringRecipe *recipe = &g_array_index (bring->recipes, CroBringRecipe, i);

      n += !recipe->is_left_out && recipe->is_plate == plates;
    }
  return n;
}

/* Names that several rows have are one ingredient. */
static guint
count_new (const CroBring *bring)
{
  g_autoptr (GHashTable) names = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < bring->rows->len; i++)
    {
      const CroBringRow *row = &g_array_index (bring->rows, CroBringRow, i);

      if (row->state == CRO_BRING_NEW)
        g_hash_table_add (names, (gpointer) row->name);
    }
  return g_hash_table_size (names);
}

/* New names that are asked about, of ingredients and of suppliers. */
static guint
count_like (const CroBring *bring)
{
  g_autoptr (GHashTable) names = g_hash_table_new (NULL, NULL), suppliers = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < bring->rows->len; i++)
    {
      const CroBringRow *row = &g_array_index (bring->rows, CroBringRow, i);

      if (row->like != NULL)
        g_hash_table_add (names, (gpointer) row->name);
      if (row->like_supplier != NULL)
        g_hash_table_add (suppliers, (gpointer) row->supplier);
    }
  return g_hash_table_size (names) + g_hash_table_size (suppliers);
}

static gboolean
has_content (const CroBrought *brought,
             guint             column)
{
  for (guint i = (guint) (brought->headings + 1); i < brought->rows->len; i++)
    if (cro_brought_get (brought, i, column)->kind != CRO_READ_CELL_EMPTY)
      return TRUE;
  return FALSE;
}

/* NULL: all that hold something are used. */
static char *
dup_unused_columns (const CroBrought *brought,
                    CroBringKind      kind)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint n = 0;

  for (guint i = 0; i < brought->n_columns; i++)
    if (!cro_bring_uses (kind, brought->roles[i]) && has_content (brought, i))
      {
        g_autofree char *name = cro_words_bring_column (brought, i);

        n++;
        /* Translators: the heading of a column, in a list of several. */
        add_part (text, ", ", cro_isolate_printf (_("“%s”"), name));
      }
  /* Translators: headings of columns. */
  return n > 0 ? g_strdup_printf (ngettext ("column not used: %s", "columns not used: %s", n), text->str) : NULL;
}

char *
cro_words_bring (const CroBrought *brought,
                 const CroBring   *bring)
{
  GString *text = g_string_new (NULL);
  guint n_new = count_new (bring), plates = count_recipes (bring, TRUE);
  guint preparations = count_recipes (bring, FALSE), unsaid = count_unsaid (bring), n_like = count_like (bring);
  char *unused = dup_unused_columns (brought, bring->kind);

  if (plates > 0)
    add_part (text, ", ", g_strdup_printf (ngettext ("%u plate", "%u plates", plates), plates));
  if (preparations > 0)
    add_part (text, ", ", g_strdup_printf (ngettext ("%u preparation", "%u preparations", preparations),
                                           preparations));
  if (n_new > 0)
    add_part (text, ", ", g_strdup_printf (ngettext ("%u new ingredient", "%u new ingredients", n_new),
                                           n_new));
  if (bring->n_prices > 0)
    add_part (text, ", ", g_strdup_printf (ngettext ("%u price", "%u prices", bring->n_prices),
                                           bring->n_prices));
  if (text->len == 0)
    g_string_append (text, _("Nothing to import yet: say what the columns hold"));
  if (bring->n_doubtful > 0)
    add_part (text, _("; "), g_strdup_printf (ngettext ("%u price is far from the last",
                                                        "%u prices are far from the last",
                                                        bring->n_doubtful), bring->n_doubtful));
  if (n_like > 0)
    add_part (text, _("; "), g_strdup_printf (ngettext ("%u new name is like one in the book",
                                                        "%u new names are like names in the book", n_like), n_like));
  if (unsaid > 0)
    add_part (text, _("; "), g_strdup_printf (ngettext ("%u plate makes 1 and may make more",
                                                        "%u plates make 1 each and may make more", unsaid), unsaid));
  if (bring->n_partly > 0)
    add_part (text, _("; "), g_strdup_printf (ngettext ("%u row is imported in part", "%u rows are imported in part",
                                                        bring->n_partly), bring->n_partly));
  if (bring->n_faults > 0)
    add_part (text, _("; "), g_strdup_printf (ngettext ("%u row is left out", "%u rows are left out",
                                                        bring->n_faults), bring->n_faults));
  if (unused != NULL)
    add_part (text, _("; "), unused);
  return g_string_free (text, FALSE);
}

char *
cro_words_bring_act (const CroBrought *brought)
{
  g_autofree char *name = g_filename_display_basename (brought->path);

  /* Translators: an act, as in "Undo import of prices.csv". */
  return g_strdup_printf (_("import of %s"), name);
}
