/* kitchen-edits.h: random changes of every table of a book, most of them allowed. */
#pragma once

#include "kitchen-book.h"

/* One value of one row, as a person would type it. text is the cell's, for as long as the
 * next edit is not made. */
typedef struct
{
  const char *table;
  gint64      id;
  const char *column;
  CroCell     cell;
} CroTestEdit;

/* FALSE: the table that was drawn has no row. */
gboolean cro_test_draw_edit  (CroBook     *book,
                              GRand       *rand,
                              CroTestEdit *edit);

/* An act of some changes, rows made and removed among them; whether it was accepted. What is
 * refused must be refused by a rule, or as a cycle. */
gboolean cro_test_random_act (CroBook     *book,
                              GRand       *rand);

/* An act that removes one row with all that refers to it. */
gboolean cro_test_random_removal (CroBook *book,
                                  GRand   *rand);
