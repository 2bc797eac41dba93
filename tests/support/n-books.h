/* n-books.h: how often what is drawn at random is drawn. */
#pragma once

/* So many books, runs, kills; a quarter where a sanitizer looks on, which sees in a few what it would in all:
 * what they say of figures and rows the run without one asks of each. */
#ifdef __SANITIZE_ADDRESS__
#define CRO_TEST_N_BOOKS(n) ((n) / 4)
#else
#define CRO_TEST_N_BOOKS(n) (n)
#endif
