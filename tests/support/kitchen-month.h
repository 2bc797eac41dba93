/* kitchen-month.h: a book of an open month, entered in part, and of closed ones before it. */
#pragma once

#include "cro-edit.h"
#include "support/kitchen-book.h"

static const CroTestTable tables[] = {
  { "book", "key,value\ncurrency,EUR\ntax_pct,10\n" },
  { "ingredients", "name,unit,kind,category\nCrab,g,food,shellfish\nOil,ml,food,\nButter,g,food,dairy\n"
                   "Cup,each,disposable,\n" },
  { "suppliers", "name\nQuay\n" },
  { "offers", "ingredient,supplier,pack_count,pack_size,pack_unit\nCrab,Quay,1,1,kg\n" },
  { "prices", "ingredient,supplier,from,price\nCrab,Quay,2026-01-01,20\n" },
  { "plates", "name,makes,price,tax_pct\nCroustade,1,11,\nPurée d’été,1,24,20\n" },
  { "lines", "into,parent,position,item,amount,unit\nplate,Croustade,1,Crab,10,g\n" },
  { "menus", "name,price\nTide,110\n" },
  { "menu_plates", "menu,plate\nTide,Croustade\n" },
  { "counts", "date,item,amount,unit,place\n2026-01-31,Crab,2,kg,cold room\n2026-01-31,Oil,3,l,store\n"
              "2026-01-31,Cup,9,each,store\n2026-02-28,Crab,0,kg,cold room\n" },
  { "purchases", "date,document_date,supplier,document,ingredient,kind,amount,unit,net_value\n"
                 "2026-02-03,2026-02-02,Quay,Q-1,Crab,food,5,kg,60\n2026-02-03,2026-02-02,Quay,Q-1,,other,,,7\n"
                 "2026-02-10,,Quay,Q-2,,food,,,90\n2026-02-11,,,,Butter,food,1,kg,9\n" },
  { "sales", "date,kind,name,sold,net_revenue\n2026-02-01,plate,Croustade,2,20\n" },
  { "months", "month,closed_at\n2025-12,2026-01-02T08:00:00Z\n" },
  { NULL, NULL },
};

static inline int
set_up (void **state)
{
  return cro_test_book_of_tables (state, tables);
}

static inline CroDate
day (const char *text)
{
  CroDate date;

  g_assert_true (cro_date_parse (text, strlen (text), &date));
  return date;
}

static inline CroRef
thing (CroBook    *book,
       const char *name)
{
  CroRef ref = cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, name);

  assert_int_not_equal (ref.kind, CRO_REF_NONE);
  return ref;
}

static inline guint32
item (CroBook    *book,
      const char *name)
{
  return cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_ITEMS, name).slot;
}

static const char *const sale_columns[] = { "date", "other", "sold_micro", "net_revenue_micro", NULL };

/* Rows of a table as text, in their order: "2026-02-01|1||2000000|20000000". */
static inline char *
rows_text (CroBook           *book,
           const char        *table,
           const char *const *columns)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), table, columns, &error);
  GString *text = g_string_new (NULL);

  cro_test_must (rows != NULL, error);
  while (cro_rows_next (rows, &error))
    {
      for (int i = 0; columns[i] != NULL; i++)
        {
          const char *value = cro_rows_is_null (rows, i) ? "" : cro_rows_get_text (rows, i);

          g_string_append_printf (text, "%s%s", i > 0 ? "|" : "", value);
        }
      g_string_append (text, "\n");
    }
  assert_null (error);
  return g_string_free (text, FALSE);
}

static inline void
undo (CroBook *book)
{
  g_autoptr (GError) error = NULL;

  cro_test_must (cro_book_undo (book, NULL, &error), error);
}
