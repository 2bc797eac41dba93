/* kitchen-records.h: lists of what a book of two months has entered. */
#pragma once

#include "cro-records.h"
#include "support/kitchen-book.h"

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  CroRecords   *records;
  GString      *told;     /* "position-removed+added " of every signal */
} Fixture;

/* Net prices at 10 %: croustade 5, menu 100. 12 sold for 54.00 entered, 3 menus at 100. */
static const struct { const char *name, *text; } tables[] = {
  { "book", "key,value\ncurrency,EUR\ntax_pct,10\n" },
  { "ingredients", "name,unit\nCrab,g\nSalt,g\nCup,each\n" },
  { "suppliers", "name,contact\nQuay,at the quay\nÉtal,\n" },
  { "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit\nCrab,Quay,101,1,5,kg\n"
              "Salt,Étal,,10,1,kg\nCup,Étal,C9,1,200,each\n" },
  { "prices", "ingredient,supplier,code,from,price\nCrab,Quay,101,2026-01-05,60\n"
              "Crab,Quay,101,2026-02-02,63\nCrab,Quay,101,2026-03-02,99\nSalt,Étal,,2026-01-05,4\n" },
  { "rates", "currency,from,rate,per\nGBP,2026-01-01,1.15,\nJPY,2026-01-01,0.62,100\n" },
  { "plates", "name,makes,price\nCroustade,24,5.5\n" },
  { "menus", "name,price\nTide,110\n" },
  { "menu_plates", "menu,plate\nTide,Croustade\n" },
  { "lines", "into,parent,position,item,amount,unit\nplate,Croustade,1,Crab,600,g\n" },
  { "sales", "date,kind,name,sold,net_revenue\n2026-01-10,plate,Croustade,12,54\n"
             "2026-02-10,menu,Tide,3,\n" },
  { "purchases", "date,supplier,document,ingredient,amount,unit,net_value\n"
                 "2026-01-07,Quay,D-1,Crab,5,kg,60\n2026-02-07,Quay,D-2,Crab,10,kg,126\n"
                 "2026-02-09,Étal,,Salt,10,kg,-4\n" },
  { "counts", "date,item,amount,unit,place\n2026-01-31,Crab,2,kg,cold room\n"
              "2026-01-31,Salt,3,kg,\n2026-01-31,Crab,1.5,kg,kitchen\n" },
  { "adjustments", "date,kind,item,amount,unit,net_value\n2026-01-08,waste,Crab,100,g,1.2\n"
                   "2026-02-08,transfer-in,Salt,1,kg,0.4\n2026-02-09,waste,Crab,200,g,2.4\n" },
  { "months", "month,till_net_revenue,ledger_purchases,closed_at\n"
              "2026-01,66,60,2026-02-02T08:00:00Z\n2026-02,300,,\n" },
  { "month_rows", "month,kind,name,part_kind,part,sold,net_revenue,cost\n"
                  "2026-01,plate,Croustade,,,11,53.5,\n2026-01,plate,Croustade,food,Crab,,,9\n" },
};

static inline int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);

  fixture->folder = cro_test_folder_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    cro_test_write_table (fixture->folder.folder, tables[i].name, tables[i].text);
  fixture->book = cro_test_book_load (&fixture->folder);
  fixture->told = g_string_new (NULL);
  *state = fixture;
  return 0;
}

static inline int
tear_down (void **state)
{
  Fixture *fixture = *state;

  g_clear_object (&fixture->records);
  g_assert_finalize_object (fixture->book);
  g_string_free (fixture->told, TRUE);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

static inline void
items_changed_cb (GListModel *model,
                  guint       position,
                  guint       removed,
                  guint       added,
                  Fixture    *fixture)
{
  g_string_append_printf (fixture->told, "%u-%u+%u ", position, removed, added);
}

static inline void
begin (Fixture        *fixture,
       CroRecordsKind  kind)
{
  g_clear_object (&fixture->records);
  fixture->records = cro_records_new (fixture->book, kind);
  g_signal_connect (fixture->records, "items-changed", G_CALLBACK (items_changed_cb), fixture);
}

/* The first column alone, in the order of the list. */
static inline char *
first_column (Fixture *fixture,
              guint    column)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (fixture->records)); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (fixture->records), i);
      g_autofree char *cell = cro_record_dup_text (record, column);

      g_string_append_printf (text, "%s ", cell);
    }
  return g_string_free (text, FALSE);
}
