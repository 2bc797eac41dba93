/* cro-selling-steps.h: what a plate or a menu was, is and will be sold for.
 *
 * Units  Gross money and percentages in millionths. */
#pragma once

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

typedef struct
{
  gint64  id;       /* of the row */
  CroDate from;
  gint64  price;    /* CRO_NOT_SET: none of its own from then on */
  gint64  tax;      /* CRO_NOT_SET: the thing's own, else the book's */
} CroSellingStep;

/* Newest first; the undated price, which holds before the first of them, is not among them.
 * Elements CroSellingStep; NULL with error. */
GArray *cro_selling_steps_new (CroBook  *book,
                               CroRef    thing,
                               GError  **error);

/* The same of the thing of an id. */
GArray *cro_selling_steps_read (CroStore  *store,
                                gint64     thing,
                                GError   **error);

/* Of everything that is sold: id of a plate or a menu → steps as above. Owned; NULL with error. */
GHashTable *cro_selling_steps_all (CroBook  *book,
                                   GError  **error);

/* The step in force on a date; NULL: none, and the undated price holds. Borrowed. steps may be
 * NULL. */
const CroSellingStep *cro_selling_step_on (GArray  *steps,
                                           CroDate  date);

/* What a plate or a menu is sold for on a day, and its tax: those of its step, its own, for tax then the
 * book's, else 0. thing may be CRO_REF_NOWHERE, of which only the book's tax is known. */
typedef struct
{
  gint64 price;     /* with tax; CRO_NOT_SET: none */
  gint64 tax;
} CroSellingTerms;

CroSellingTerms cro_selling_terms_on (CroModel *model,
                                      GArray   *steps,
                                      CroRef    thing,
                                      CroDate   date);

G_END_DECLS
