/* cro-cost-card-private.h: a cost card while it is written: what its parts share. */
#pragma once

#include "cro-book.h"
#include "cro-breakdown.h"
#include "cro-paper.h"
#include "cro-ref.h"

#define SPACE 6

typedef struct
{
  CroBook      *book;
  CroFigures   *figures;
  CroModel     *model;
  CroRef        thing;
  CroBreakdown *breakdown;
  CroPaper     *paper;
} CroCostCard;

static inline const CroRecipe *
recipe_of (const CroCostCard *self)
{
  return self->thing.kind == CRO_REF_RECIPE ? cro_model_recipe (self->model, self->thing.slot) : NULL;
}

static inline gboolean
is_plate (const CroCostCard *self)
{
  const CroRecipe *recipe = recipe_of (self);

  return recipe != NULL && recipe->is_plate;
}

static inline gboolean
is_batch (const CroCostCard *self)
{
  return recipe_of (self) != NULL && !is_plate (self);
}

/* Names, prices, what is missing, and the sentence that says most of it. TRUE: a picture of the plate stands
 * beside. */
gboolean cro_cost_card_add_head    (const CroCostCard *self,
                                    gboolean           rtl);

/* Food, result, margin to the target, prime cost and minutes, each in a frame. */
void     cro_cost_card_add_figures (const CroCostCard *self);
