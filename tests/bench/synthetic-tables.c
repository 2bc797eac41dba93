#include "synthetic-tables.h"

#include "bench-check.h"
#include "cro-batch.h"
#include "cro-column.h"
#include "cro-date.h"
#include "cro-decimal.h"
#include "cro-table.h"
#include "synthetic.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#define SUPPLIER "The quay"
#define FIRST_DAY 20454 /* 2026-01-01 */
#define DAYS_APART 30   /* of prices of one pack */
#define PACK 5000       /* base units */

#define NAME_CHARS 40
#define KEPT_ASIDE "Kept aside"

/* What the tables say of a preparation beyond its lines. */
typedef struct
{
  CroRule rule;
  gint32  main_output;   /* -1: none, so it is a plate */
} Batch;

typedef struct
{
  const CroSynthetic *book;
  const char         *folder;
  CroSyntheticMore    more;
  Batch              *batches;  /* by row */
  gsize               n_preparations;
} Making;

/* --- Fields -------------------------------------------------------------------------------- */

static CroField
text (const char *value)
{
  return (CroField){ .is_set = TRUE, .text = value };
}

static CroField
number (gint64 value)
{
  return (CroField){ .is_set = TRUE, .number = value };
}

/* 0 is not set. */
static CroField
some_number (gint64 value)
{
  return (CroField){ .is_set = value != 0, .number = value };
}

static CroField
micro (double value)
{
  return number (llround (value * CRO_MICRO));
}

/* Numbers have six digits, so that names sort as they count. */
static CroField
name (const char *kind,
      gsize       i,
      char        buffer[NAME_CHARS])
{
  g_snprintf (buffer, NAME_CHARS, "%s %06" G_GSIZE_FORMAT, kind, i);
  return text (buffer);
}

static CroField
name_item (const Making *making,
           gsize         item,
           char          buffer[NAME_CHARS])
{
  return name (making->book->maker[item] < 0 ? "Bought in" : "Made here", item, buffer);
}

static CroField
name_row (const Making *making,
          gsize         row,
          char          buffer[NAME_CHARS])
{
  return name (row < making->n_preparations ? "Preparation" : "Plate", row, buffer);
}

/* --- Tables ---------------------------------------------------------------------------------- */

static CroTableWriter *
begin (const Making *making,
       CroTableId    id)
{
  GError *error = NULL;
  CroTableWriter *writer = cro_table_writer_new (making->folder, id, &error);

  check (writer != NULL, error);
  return writer;
}

static void
put (CroTableWriter *writer,
     const CroField *fields)
{
  GError *error = NULL;

  check (cro_table_writer_row (writer, fields, &error), error);
}

static void
end (CroTableWriter *writer)
{
  GError *error = NULL;

  check (cro_table_writer_finish (writer, &error), error);
  cro_table_writer_free (writer);
}

static void
write_ingredients (const Making *making)
{
  CroTableWriter *writer = begin (making, CRO_TABLE_INGREDIENTS);
  const CroSynthetic *book = making->book;
  char buffer[NAME_CHARS];

  for (gsize i = 0; i < book->n_items; i++)
    if (book->maker[i] < 0)
      {
        const CroMeasure *measure = &book->measures[i];
        CroField fields[CRO_N_INGREDIENTS] = {
          [CRO_INGREDIENTS_NAME] = name_item (making, i, buffer),
          [CRO_INGREDIENTS_UNIT] = number (measure->base),
          [CRO_INGREDIENTS_DENSITY_G_PER_ML] = micro (measure->grams[CRO_BASE_MILLILITRE]),
          [CRO_INGREDIENTS_PIECE_G] = micro (measure->grams[CRO_BASE_EACH]),
          [CRO_INGREDIENTS_TRIM_YIELD_PCT] = some_number (measure->trim_yield),
          [CRO_INGREDIENTS_ALLERGENS] = number (0),
        };

        put (writer, fields);
      }
  for (gsize i = 0; i < making->more.n_ingredients; i++)
    {
      CroField fields[CRO_N_INGREDIENTS] = {
        [CRO_INGREDIENTS_NAME] = name (KEPT_ASIDE, i, buffer),
        [CRO_INGREDIENTS_UNIT] = number (CRO_BASE_GRAM),
        [CRO_INGREDIENTS_ALLERGENS] = number (0),
      };

      put (writer, fields);
    }
  end (writer);
}

static void
write_supplier (const Making *making)
{
  CroTableWriter *writer = begin (making, CRO_TABLE_SUPPLIERS);
  CroField fields[CRO_N_SUPPLIERS] = { [CRO_SUPPLIERS_NAME] = text (SUPPLIER) };

  put (writer, fields);
  end (writer);
}

static void
write_price (CroTableWriter *prices,
             const char     *ingredient,
             gint64          day,
             double          price)
{
  CroField fields[CRO_N_PRICES] = {
    [CRO_PRICES_INGREDIENT] = text (ingredient),
    [CRO_PRICES_SUPPLIER] = text (SUPPLIER),
    [CRO_PRICES_FROM] = number (day),
    [CRO_PRICES_PRICE] = micro (price),
  };

  put (prices, fields);
}

static void
write_offer (CroTableWriter *offers,
             const char     *ingredient,
             CroBase         base)
{
  CroField fields[CRO_N_OFFERS] = {
    [CRO_OFFERS_INGREDIENT] = text (ingredient),
    [CRO_OFFERS_SUPPLIER] = text (SUPPLIER),
    [CRO_OFFERS_PACK_COUNT] = micro (1),
    [CRO_OFFERS_PACK_SIZE] = micro (PACK),
    [CRO_OFFERS_PACK_UNIT] = number (cro_base_unit (base)),
  };

  put (offers, fields);
}

static void
write_offers (const Making *making)
{
  CroTableWriter *offers = begin (making, CRO_TABLE_OFFERS);
  CroTableWriter *prices = begin (making, CRO_TABLE_PRICES);
  const CroSynthetic *book = making->book;
  char buffer[NAME_CHARS];

  for (gsize i = 0; i < book->n_items; i++)
    if (book->maker[i] < 0)
      {
        name_item (making, i, buffer);
        write_offer (offers, buffer, (CroBase) book->measures[i].base);
        write_price (prices, buffer, FIRST_DAY, book->unit_cost[i] * PACK);
      }
  for (gsize i = 0; i < making->more.n_ingredients; i++)
    {
      name (KEPT_ASIDE, i, buffer);
      write_offer (offers, buffer, CRO_BASE_GRAM);
      for (gsize k = 0; k < making->more.n_prices; k++)
        write_price (prices, buffer, FIRST_DAY + (gint64) k * DAYS_APART, 3 + (double) (i % 97) / 4);
    }
  end (offers);
  end (prices);
}

static void
write_recipes (const Making *making)
{
  CroTableWriter *preparations = begin (making, CRO_TABLE_PREPARATIONS);
  CroTableWriter *plates = begin (making, CRO_TABLE_PLATES);
  char buffer[NAME_CHARS];

  for (gsize row = 0; row < making->book->n_rows; row++)
    {
      CroField preparation[CRO_N_PREPARATIONS] = {
        [CRO_PREPARATIONS_NAME] = name_row (making, row, buffer),
        [CRO_PREPARATIONS_BY_PRODUCTS] = number (making->batches[row].rule),
      };
      CroField plate[CRO_N_PLATES] = {
        [CRO_PLATES_NAME] = text (buffer),
        [CRO_PLATES_MAKES] = micro (24),
        [CRO_PLATES_PRICE] = micro (5 + (double) (row % 35)),
      };

      if (row < making->n_preparations)
        put (preparations, preparation);
      else
        put (plates, plate);
    }
  end (preparations);
  end (plates);
}

/* Amounts from the shares of a batch, as far as tables can say them. */
static void
write_outputs (const Making *making)
{
  CroTableWriter *writer = begin (making, CRO_TABLE_OUTPUTS);
  const CroSynthetic *book = making->book;
  char item[NAME_CHARS], preparation[NAME_CHARS];

  for (gsize i = 0; i < book->n_items; i++)
    if (book->maker[i] >= 0)
      {
        const Batch *batch = &making->batches[book->maker[i]];
        const CroMeasure *measure = &book->measures[i];
        gboolean is_main = batch->main_output == (gint32) i;
        CroField fields[CRO_N_OUTPUTS] = {
          [CRO_OUTPUTS_ITEM] = name_item (making, i, item),
          [CRO_OUTPUTS_PREPARATION] = name_row (making, (gsize) book->maker[i], preparation),
          [CRO_OUTPUTS_ROLE] = number (is_main ? 0 : 1),
          [CRO_OUTPUTS_AMOUNT] = micro (is_main ? round (1 / book->share[i]) : 500),
          [CRO_OUTPUTS_UNIT] = number (cro_base_unit ((CroBase) measure->base)),
          [CRO_OUTPUTS_DENSITY_G_PER_ML] = micro (measure->grams[CRO_BASE_MILLILITRE]),
          [CRO_OUTPUTS_PIECE_G] = micro (measure->grams[CRO_BASE_EACH]),
        };

        if (!is_main && batch->rule == CRO_RULE_CREDIT)
          fields[CRO_OUTPUTS_VALUE] = micro (book->fixed[i]);
        put (writer, fields);
      }
  end (writer);
}

static void
write_lines (const Making *making)
{
  CroTableWriter *writer = begin (making, CRO_TABLE_LINES);
  const CroLines *lines = &making->book->lines;
  char row[NAME_CHARS], item[NAME_CHARS];

  for (gsize i = 0; i < lines->n; i++)
    {
      CroField fields[CRO_N_LINES] = {
        [CRO_LINES_INTO] = number ((gsize) lines->row[i] < making->n_preparations ? 0 : 1),
        [CRO_LINES_PARENT] = name_row (making, (gsize) lines->row[i], row),
        [CRO_LINES_POSITION] = number (lines->position[i]),
        [CRO_LINES_ITEM] = name_item (making, lines->item[i], item),
        [CRO_LINES_AMOUNT] = number (lines->amount[i]),
        [CRO_LINES_UNIT] = number (lines->unit[i]),
        [CRO_LINES_YIELD_PCT] = some_number (lines->yield[i]),
        [CRO_LINES_RECOVERED_PCT] = some_number (lines->recovered[i]),
      };

      if (lines->whole[i])
        fields[CRO_LINES_WEIGHED] = number (0);
      put (writer, fields);
    }
  end (writer);
}

/* --- The folder -------------------------------------------------------------------------------- */

/* A by-product has a fixed cost of its own, what it is credited with, or is the second output
 * of its row. */
static void
find_batches (Making *making)
{
  const CroSynthetic *book = making->book;

  making->batches = g_new (Batch, book->n_rows);
  for (gsize row = 0; row < book->n_rows; row++)
    making->batches[row] = (Batch){ CRO_RULE_FREE, -1 };
  for (gsize i = 0; i < book->n_items; i++)
    if (book->maker[i] >= 0)
      {
        Batch *batch = &making->batches[book->maker[i]];

        if (book->fixed[i] > 0)
          batch->rule = CRO_RULE_CREDIT;
        else if (batch->main_output >= 0)
          batch->rule = CRO_RULE_WEIGHT;
        else
          batch->main_output = (gint32) i;
      }
  while (making->n_preparations < book->n_rows
         && making->batches[making->n_preparations].main_output >= 0)
    making->n_preparations++;
}

char *
cro_synthetic_make_larger (const char       *parent,
                           size_t            n_lines,
                           CroSyntheticMore  more)
{
  g_autofree char *folder = g_build_filename (parent != NULL ? parent : g_get_tmp_dir (),
                                              "bench-XXXXXX", NULL);
  CroSynthetic book;
  Making making = { .book = &book, .folder = folder, .more = more };

  if (g_mkdtemp (folder) == NULL)
    g_error ("%s cannot be made", folder);
  cro_synthetic_make (&book, n_lines);
  find_batches (&making);
  write_ingredients (&making);
  write_supplier (&making);
  write_offers (&making);
  write_recipes (&making);
  write_outputs (&making);
  write_lines (&making);
  g_free (making.batches);
  cro_synthetic_clear (&book);
  return g_steal_pointer (&folder);
}

char *
cro_synthetic_make_folder (const char *parent,
                           size_t      n_lines)
{
  return cro_synthetic_make_larger (parent, n_lines, (CroSyntheticMore){ 0, 0 });
}

/* The rows of one of its tables, without the headings, *n of them: names stand first. */
static GStrv
read_rows (const char *folder,
           const char *table,
           gsize      *n)
{
  g_autofree char *path = g_build_filename (folder, table, NULL), *text = NULL;
  GError *error = NULL;
  GStrv lines;

  check (g_file_get_contents (path, &text, NULL, &error), error);
  lines = g_strsplit (strchr (text, '\n') + 1, "\n", -1);
  for (*n = 0; lines[*n] != NULL && lines[*n][0] != '\0'; ++*n)
    continue;
  return lines;
}

void
cro_synthetic_add_sales (const char *folder,
                         const char *month,
                         size_t      n_rows)
{
  g_autofree char *sales = g_build_filename (folder, "sales.csv", NULL);
  g_autoptr (GString) rows = g_string_new ("date,kind,name,sold,net_revenue\n");
  GError *error = NULL;
  gsize n;
  g_auto (GStrv) lines = read_rows (folder, "plates.csv", &n);

  for (gsize i = 0; i < n_rows && n > 0; i++)
    {
      const char *line = lines[i % n];

      g_string_append_printf (rows, "%s-%02u,plate,%.*s,%u,%u.5\n", month, (guint) (1 + i % 28),
                              (int) strcspn (line, ",\r"), line, (guint) (1 + i % 7), (guint) (10 + i % 50));
    }
  check (g_file_set_contents (sales, rows->str, (gssize) rows->len, &error), error);
}

void
cro_synthetic_add_purchases (const char *folder,
                             size_t      n_rows)
{
  g_autofree char *purchases = g_build_filename (folder, "purchases.csv", NULL);
  g_autoptr (GString) rows = g_string_new ("date,supplier,document,ingredient,kind,net_value\n");
  GError *error = NULL;
  gsize n;
  g_auto (GStrv) lines = read_rows (folder, "ingredients.csv", &n);

  for (gsize i = 0; i < n_rows && n > 0; i++)
    {
      const char *line = lines[i % n];
      guint document = (guint) (i / 10);

      g_string_append_printf (rows, "2025-%02u-%02u," SUPPLIER ",D-%u,%.*s,food,%u.5\n", 1 + document / 28 % 12,
                              1 + document % 28, document, (int) strcspn (line, ",\r"), line, (guint) (1 + i % 90));
    }
  check (g_file_set_contents (purchases, rows->str, (gssize) rows->len, &error), error);
}

void
cro_synthetic_remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *file;

  while (dir != NULL && (file = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, file, NULL);

      g_unlink (path);
    }
  g_rmdir (folder);
}
