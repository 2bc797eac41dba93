/* cro-formula.h: the text of a formula, put together without a format string's cost: a workbook
 * has a dozen for every line of a book. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A cell, perhaps of another sheet. Rows from 1, as a person sees them. */
typedef struct
{
  const char *sheet;     /* quoted, with its exclamation mark; NULL: the formula's own */
  const char *column;
  guint32     row;
} CroPlace;

typedef struct
{
  char  text[4096];
  gsize length;
} CroFormula;

/* Writes template with # for row, { for from, } for to and @ for the next of places. Returns
 * the text. */
const char *cro_formula_set (CroFormula     *self,
                             const char     *template,
                             guint32         row,
                             guint32         from,
                             guint32         to,
                             const CroPlace *places);

/* One place, with dollar signs: for names, which mean the same cell wherever they are used. */
const char *cro_formula_set_place (CroFormula     *self,
                                   const CroPlace *place);

G_END_DECLS
