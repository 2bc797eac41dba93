/* kitchen-trial.h: a trial of a book of two fish, on one plate or on a menu of three mains. */
#pragma once

#include "cro-trial.h"
#include "support/kitchen-book.h"

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  CroTrial     *trial;
} Fixture;

/* Hake at 16 and turbot at 30 a kg; plates are to come. */
static inline Fixture *
fish_new (void)
{
  Fixture *self = g_new0 (Fixture, 1);

  self->folder = cro_test_folder_new ();
  cro_test_write_table (self->folder.folder, "ingredients", "name,unit\nHake,g\nTurbot,g\n");
  cro_test_write_table (self->folder.folder, "suppliers", "name\nQuay\n");
  cro_test_write_table (self->folder.folder, "offers",
                        "ingredient,supplier,pack_count,pack_size,pack_unit\n"
                        "Hake,Quay,1,1,kg\nTurbot,Quay,1,1,kg\n");
  cro_test_write_table (self->folder.folder, "prices",
                        "ingredient,supplier,from,price\nHake,Quay,2026-01-01,16\n"
                        "Turbot,Quay,2026-01-01,30\n");
  return self;
}

static inline int
begin (Fixture  *self,
       void    **state)
{
  self->book = cro_test_book_load (&self->folder);
  self->trial = cro_trial_new (self->book, NULL, "trial", NULL);
  assert_non_null (self->trial);
  *state = self;
  return 0;
}

/* A plate of 200 g of hake. */
static inline int
set_up (void **state)
{
  Fixture *self = fish_new ();

  cro_test_write_table (self->folder.folder, "plates",
                        "name,makes,price,tax_pct,target_pct\nHake in butter,1,22,10,30\n");
  cro_test_write_table (self->folder.folder, "lines",
                        "into,parent,position,item,amount,unit\nplate,Hake in butter,1,Hake,200,g\n");
  return begin (self, state);
}

static inline int
tear_down (void **state)
{
  Fixture *self = *state;

  cro_trial_free (self->trial);
  g_object_unref (self->book);
  cro_test_folder_clear (&self->folder);
  g_free (self);
  return 0;
}

static inline guint32
item_of (CroBook    *book,
         const char *name)
{
  return cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_ITEMS, name).slot;
}

static inline CroRef
plate_of (CroBook *book)
{
  return cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, "Hake in butter");
}

/* Of three mains a guest takes one: 100 g of hake at 16 a kg are 1.60, 200 g of it 3.20, of turbot at 30
 * a kg 6.00. */
static inline int
set_up_menu (void **state)
{
  Fixture *self = fish_new ();

  cro_test_write_table (self->folder.folder, "plates",
                        "name,makes\nHake in butter,1\nTurbot roasted,1\nHake fritter,1\nTurbot raw,1\n");
  cro_test_write_table (self->folder.folder, "lines",
                        "into,parent,position,item,amount,unit\nplate,Hake in butter,1,Hake,200,g\n"
                        "plate,Turbot roasted,1,Turbot,200,g\nplate,Hake fritter,1,Hake,100,g\n"
                        "plate,Turbot raw,1,Turbot,50,g\n");
  cro_test_write_table (self->folder.folder, "menus", "name,price,tax_pct,target_pct\nLunch,22,10,30\n");
  cro_test_write_table (self->folder.folder, "menu_plates",
                        "menu,plate,position,choice,share_pct\nLunch,Hake in butter,1,main,50\n"
                        "Lunch,Turbot roasted,2,main,30\nLunch,Hake fritter,3,main,20\n");
  return begin (self, state);
}

static inline CroRef
menu_of (CroBook *book)
{
  return cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, "Lunch");
}

static inline void
add_line (CroBook    *book,
          const char *item,
          gint64      grams)
{
  CroNewLine line = { .item = item_of (book, item), .amount = grams * 1000000, .unit = CRO_UNIT_G };
  GError *error = NULL;

  cro_test_must (cro_test_add_lines (book, plate_of (book).slot, CRO_NO_SLOT, &line, 1, NULL, &error), error);
}

static inline guint32
plate_named (CroBook    *book,
             const char *name)
{
  return cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, name).slot;
}
