/* kitchen-round.h: a round of new prices of a book with a crab plate, mussels from two suppliers and sales of four
 * weeks. */
#pragma once

#include "cro-edit.h"
#include "cro-round.h"
#include "support/kitchen-book.h"

/* A crab plate of 100 g at 13.20 per kg, mussels from two suppliers, sales of four weeks. */
static inline int
set_up (void **state)
{
  static const CroTestTable tables[] = {
    { "book", "key,value\ncurrency,EUR\ntarget_pct,30\n" },
    { "ingredients", "name,unit\nCrab,g\nMussels,g\nHake,g\nEgg,each\n" },
    { "suppliers", "name,quotes\nQuay,pack\nFar Bank,base unit\n" },
    { "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit,currency,preferred,position\n"
                "Mussels,Quay,102,1,5,kg,,yes,10\n"
                "Crab,Quay,101,1,5,kg,,,20\n"
                "Egg,Quay,E1,6,30,each,,,\n"
                "Hake,Far Bank,M20,1,10,kg,GBP,,10\n"
                "Mussels,Far Bank,M05,1,10,kg,GBP,,20\n" },
    { "rates", "currency,from,rate\nGBP,2026-01-01,1.2\n" },
    { "prices", "ingredient,supplier,code,from,price,tax_included_pct\n"
                "Mussels,Quay,102,2026-02-01,21,\nCrab,Quay,101,2026-02-01,66,\n"
                "Egg,Quay,E1,2026-02-01,45,5.5\nHake,Far Bank,M20,2026-02-01,112,\n"
                "Mussels,Far Bank,M05,2026-02-01,36,\n" },
    { "plates", "name,makes,price\nCrab bite,1,4.60\nMussels,1,20\n" },
    { "lines", "into,parent,position,item,amount,unit\n"
               "plate,Crab bite,1,Crab,100,g\nplate,Mussels,1,Mussels,500,g\n" },
    { "sales", "date,kind,name,sold\n2026-02-10,plate,Crab bite,28\n" },
    { NULL, NULL },
  };

  return cro_test_book_of_tables (state, tables);
}

static inline CroRound *
round_of (CroTestKitchen *kitchen,
          const char     *supplier)
{
  CroModel *model = cro_book_get_model (kitchen->book);
  g_autoptr (GError) error = NULL;
  CroRound *round = cro_round_new (kitchen->book, cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, supplier).slot,
                                   cro_book_get_figures (kitchen->book)->date, &error);

  assert_no_error (error);
  return round;
}

static inline guint
row_of (CroRound   *round,
        const char *name)
{
  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    if (g_strcmp0 (cro_round_get_row (round, i)->list.name, name) == 0)
      return i;
  fail_msg ("there is no row of %s", name);
  return 0;
}

static inline void
type (CroRound   *round,
      const char *name,
      const char *text)
{
  g_autoptr (GError) error = NULL;

  cro_round_type (round, row_of (round, name), text, &error);
  assert_no_error (error);
}

static inline CroRoundPost *
post (CroRound *round)
{
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;
  CroRoundPost *posted = cro_round_post (round, "new prices", faults, &error);

  assert_no_error (error);
  assert_non_null (posted);
  return posted;
}

static inline guint
count_purchases (CroBook *book)
{
  static const char *const columns[] = { "id", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "purchase", columns, NULL);
  guint n = 0;

  while (cro_rows_next (rows, NULL))
    n++;
  return n;
}
