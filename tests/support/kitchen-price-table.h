/* kitchen-price-table.h: tables of a supplier's prices, and what becomes of their rows. Headings and cells are common
 * practice, no source. */
#pragma once

#include "cro-price-list-words.h"
#include "cro-price-list.h"
#include "support/kitchen-book.h"

#include <string.h>

/* Behind "Code;Product", with rows of mussels, last 21.00, and butter, last 70.00. */
typedef struct
{
  const char *expected;  /* "read", "refused", or the rows that are asked about */
  const char *headings;
  const char *mussels;
  const char *butter;
} ColumnCase;

static inline int
set_up (void **state)
{
  static const CroTestTable tables[] = {
    { "book", "key,value\ncurrency,EUR\n" },
    { "ingredients", "name,unit\nMussels,g\nButter,g\nOil,ml\nOysters,each\n"
                     "\"Prawns, shell-on\",g\n\"Wine, white\",ml\n" },
    { "suppliers", "name,quotes\nQuay,pack\nMarsh Dairy,pack\n" },
    { "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit\n"
                "Mussels,Quay,102,1,5,kg\nButter,Quay,301,20,250,g\n"
                "Oil,Quay,401,6,75,cl\nOysters,Quay,501,1,100,each\n"
                "\"Prawns, shell-on\",Quay,601,1,2,kg\n\"Wine, white\",Quay,701,1,10,l\n" },
    { "prices", "ingredient,supplier,code,from,price\nMussels,Quay,102,2026-02-01,21\n"
                "Butter,Quay,301,2026-02-01,70\nOil,Quay,401,2026-02-01,30\n"
                "Oysters,Quay,501,2026-02-01,60\n\"Prawns, shell-on\",Quay,601,2026-02-01,40\n"
                "\"Wine, white\",Quay,701,2026-02-01,40\n" },
    { NULL, NULL },
  };

  return cro_test_book_of_tables (state, tables);
}

static inline CroPriceList *
read_list (CroTestKitchen       *kitchen,
           const char           *text,
           const CroListReading *reading)
{
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "list.csv", NULL);
  g_autoptr (GError) error = NULL;
  CroPriceList *list = NULL;
  CroDate from;

  assert_true (cro_date_parse ("2026-03-02", strlen ("2026-03-02"), &from));
  assert_true (g_file_set_contents (path, text, -1, &error));
  assert_true (cro_price_list_read (path, kitchen->book, "Quay", from, reading, &list, &error));
  return list;
}

/* "read", "refused", or the rows that are asked about. Owned. */
static inline char *
told (const CroPriceList *list)
{
  g_autofree char *refused = cro_words_list_refused (list, NULL);
  GString *rows = g_string_new (NULL);

  if (refused != NULL)
    return g_string_free (g_string_append (rows, "refused"), FALSE);
  for (guint i = 0; i < list->rows->len; i++)
    if (g_array_index (list->rows, CroListRow, i).state != CRO_LIST_CHANGED)
      g_string_append_printf (rows, "%u", i + 1);
  return g_string_free (rows->len > 0 ? rows : g_string_append (rows, "read"), FALSE);
}

static inline void
test_column_cases (void            **state,
                   const ColumnCase *cases,
                   gsize             n)
{
  guint n_wrong = 0;

  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *text = g_strdup_printf ("Code;Product;%s\n102;Mussels;%s\n301;Butter;%s\n", cases[i].headings,
                                               cases[i].mussels, cases[i].butter);
      g_autoptr (CroPriceList) list = read_list (*state, text, NULL);
      g_autofree char *is = told (list);

      if (strcmp (is, cases[i].expected) == 0)
        continue;
      print_error ("%s; %s: %s, not %s\n", cases[i].headings, cases[i].mussels, is, cases[i].expected);
      n_wrong++;
    }
  assert_int_equal (n_wrong, 0);
}
