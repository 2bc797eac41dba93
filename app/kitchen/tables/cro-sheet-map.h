/* cro-sheet-map.h: which column of the store each column of a table is kept in. */
#pragma once

#include "cro-sheets.h"

G_BEGIN_DECLS

/* What a column of the store is filled with, beside the values that any column can hold. */
typedef enum
{
  CRO_MAP_VALUE,
  CRO_MAP_FALLBACK,       /* what is not set is stored as the column's default */
  CRO_MAP_EMPTY,          /* what is not set is stored as '' */
  CRO_MAP_PREPARATION,    /* of a recipe: set if it is a preparation */
  CRO_MAP_PLATE,          /* of a recipe: set if it is a plate */
  CRO_MAP_THING,          /* of what was sold: set if it is a plate or a menu */
  CRO_MAP_OTHER,          /* of what was sold: the words, if it is neither */
} CroMapKind;

typedef struct
{
  const char *column;     /* of the store */
  guint       from;       /* column of the table */
  CroMapKind  kind;
} CroMapColumn;

#define CRO_MAP_MOST 20

typedef struct
{
  CroTableId          id;
  const char         *table;      /* of the store */
  const char         *base;       /* table that holds the name and lends its id; NULL: none */
  const CroMapColumn *columns;    /* ended by one whose column is NULL */
  guint               n_keys;     /* that many first columns tell a row from all others; 0: the
                                     base's name does */
  gboolean            is_unique;  /* FALSE: rows may repeat, and have no key but all they hold */
} CroSheetMap;

/* The columns of the store's one row of the book, by CroBookKey; ended by NULL. */
extern const char *const cro_book_columns[CRO_N_BOOK_KEYS + 1];

/* Every table but book.csv, what a row names before it; ended by one whose table is NULL. */
extern const CroSheetMap cro_sheet_maps[];

G_END_DECLS
