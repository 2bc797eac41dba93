/* cro-input-kind.h: how a value of each kind stands in a field, and how a text is read as one.
 *
 * Units      Columns …_micro hold millionths; a percentage shows 62.5 for 62500000.
 * Ownership  What dup_… returns, and the texts that reading hands over, are owned by who asks. */
#pragma once

#include <glib.h>

#include "cro-book.h"
#include "cro-entry.h"

G_BEGIN_DECLS

/* Numbers stand first. */
typedef enum
{
  CRO_INPUT_NUMBER,
  CRO_INPUT_MONEY,    /* in the book's currency, without tax */
  CRO_INPUT_SELLING_PRICE,  /* the same with its tax: what guests pay */
  CRO_INPUT_WAGE,     /* money for an hour */
  CRO_INPUT_MINUTES,  /* takes "1 h 10" too */
  CRO_INPUT_DAYS,     /* takes "4 weeks" too */
  CRO_INPUT_COVERS,   /* takes "26 covers" too */
  CRO_INPUT_DENSITY,  /* in g/ml; takes "0.85 kg/l" too */
  CRO_INPUT_PCT,
  CRO_INPUT_YIELD,    /* a percentage; takes "loss 38 %" too */
  CRO_INPUT_TEXT,
  CRO_INPUT_CODE,     /* a text whose absence is an empty one */
  CRO_INPUT_DATE,
} CroInputKind;

typedef struct
{
  CroInputKind kind;
  CroRange     range;     /* what the column holds */
  CroUnit      unit;      /* of a number that has one: another of its kind may be typed */
  gboolean     has_unit;
} CroInputType;

static inline gboolean
cro_input_type_is_pct (const CroInputType *type)
{
  return type->kind == CRO_INPUT_PCT || type->kind == CRO_INPUT_YIELD;
}

/* The text of the first column of rows, which stand on their row; of nothing it is "". */
char *cro_input_type_dup_text (const CroInputType *type,
                               CroModel           *model,
                               CroRows            *rows);

/* Reads a text; NULL, or why it cannot be kept. *owned: the text that *cell points to, or NULL;
 * *understood: how a number was read that could have been another, or NULL. */
char *cro_input_type_read     (const CroInputType *type,
                               CroModel           *model,
                               const char         *text,
                               CroCell            *cell,
                               char              **owned,
                               char              **understood);

/* What a text of per cent stands for in millionths; 0 where it is no number. */
gint64 cro_input_type_read_pct (const char        *text);

G_END_DECLS
