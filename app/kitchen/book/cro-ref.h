/* cro-ref.h: a thing of the book, to be named, opened or linked to. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_REF_NONE,
  CRO_REF_ITEM,         /* an ingredient or an output: slot of model->items */
  CRO_REF_RECIPE,       /* a preparation or a plate: slot of model->recipes */
  CRO_REF_MENU,
  CRO_REF_SUPPLIER,
  CRO_REF_OFFER,
  CRO_REF_LINE,         /* slot of model->lines */
  CRO_REF_HOUSE,        /* the settings of the book; no slot */
  /* Records without slots: there is at least one. */
  CRO_REF_YIELD_TESTS,
  CRO_REF_SALES,
  CRO_REF_RATES,
  CRO_REF_PRICES,       /* how they moved */
  CRO_REF_COUNTS,
  CRO_REF_PURCHASES,
  CRO_REF_ADJUSTMENTS,
  CRO_REF_MONTH,        /* slot: months since the beginning of the year 0, whether it has records or not */
} CroRefKind;

typedef struct
{
  CroRefKind kind;
  guint32    slot;      /* CRO_NO_SLOT where the kind has none */
} CroRef;

#define CRO_REF(of_kind, of_slot) ((CroRef){ .kind = (of_kind), .slot = (of_slot) })
#define CRO_REF_NOWHERE CRO_REF (CRO_REF_NONE, CRO_NO_SLOT)

/* Borrowed from the model; NULL for what bears no name. Of a line the name of its item, of an
 * offer that of its supplier. */
const char *cro_ref_name (const CroModel *model,
                          CroRef          ref);

static inline gboolean
cro_ref_equal (CroRef a,
               CroRef b)
{
  return a.kind == b.kind && a.slot == b.slot;
}

G_END_DECLS
