/* synthetic-tables.h: the book of synthetic.h as a folder of tables.
 *
 * Every ingredient is offered by one supplier, at one price. Tables are sorted by name, lines
 * by row and position.
 *
 * Errors     A file that cannot be written ends the program. */
#pragma once

#include <stddef.h>

/* When all prices hold: 2026-12-01. */
#define CRO_SYNTHETIC_DAY 20788

/* Ingredients that no recipe takes, each with one pack and that many prices of it. */
typedef struct
{
  size_t n_ingredients;
  size_t n_prices;
} CroSyntheticMore;

/* The tables of a book of about n_lines lines in a new folder below parent (NULL: that for
 * temporary files). The path is the caller's, to be freed with g_free. */
char *cro_synthetic_make_folder   (const char       *parent,
                                   size_t            n_lines);
char *cro_synthetic_make_larger   (const char       *parent,
                                   size_t            n_lines,
                                   CroSyntheticMore  more);

/* Adds that many rows of sales of its plates in turn, spread over the first 28 days of a month ("2026-10"). */
void  cro_synthetic_add_sales     (const char       *folder,
                                   const char       *month,
                                   size_t            n_rows);

/* Adds that many rows of purchases of its ingredients in turn, of documents of ten rows each, over the first 28 days of
 * each month of 2025. */
void  cro_synthetic_add_purchases (const char       *folder,
                                   size_t            n_rows);

/* Removes it with all files in it. */
void  cro_synthetic_remove_folder (const char       *folder);
