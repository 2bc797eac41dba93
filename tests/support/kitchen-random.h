/* kitchen-random.h: random books of every rule, by rows written into an empty store. */
#pragma once

#include "support/kitchen-book.h"

#define CRO_TEST_RANDOM_PLATES 4

/* Every rule, yields of batches within yields of batches, by-products, and what is missing. Owned. */
char    *cro_test_random_rows (GRand         *rand);

/* A new book of these rows; the folder is the caller's to clear. */
CroBook *cro_test_book_with   (CroTestFolder *folder,
                               const char    *rows);
