/* kitchen-message.h: a book for messages of its one supplier, who quotes packs, and a round of them. */
#pragma once

#include "cro-round.h"
#include "support/kitchen-book.h"

static inline int
set_up (void **state)
{
  static const CroTestTable tables[] = {
    { "book", "key,value\ncurrency,EUR\n" },
    { "ingredients", "name,unit\nCrab,g\nMussels,g\nEgg,each\n"
                     "\"Potato, waxy\",g\nFlour 00,g\n" },
    { "suppliers", "name,quotes\nQuay,pack\n" },
    { "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit,net_pct\n"
                "Mussels,Quay,102,1,5,kg,\nCrab,Quay,101,1,5,kg,\nEgg,Quay,E1,6,30,each,\n"
                "Egg,Quay,E2,15,1,dozen,90\n" },
    { "plates", "name,makes,price\nCrab bite,1,4\n" },
    { "lines", "into,parent,position,item,amount,unit\nplate,Crab bite,1,Crab,100,g\n"
               "plate,Crab bite,2,Flour 00,10,g\n" },
    { "prices", "ingredient,supplier,code,from,price\nMussels,Quay,102,2026-02-01,21\n"
                "Crab,Quay,101,2026-02-01,66\nEgg,Quay,E1,2026-02-01,45\n" },
    { NULL, NULL },
  };

  return cro_test_book_of_tables (state, tables);
}

static inline CroRound *
round_of (CroTestKitchen *kitchen)
{
  g_autoptr (GError) error = NULL;
  CroRound *round = cro_round_new (kitchen->book, 0, cro_book_get_figures (kitchen->book)->date, &error);

  assert_no_error (error);
  return round;
}
