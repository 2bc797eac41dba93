#include "cro-allergen-list.h"

/* Bits of the groups, in the order of the Annex. */
enum
{
  GLUTEN = 1 << 0,
  CRUSTACEANS = 1 << 1,
  EGGS = 1 << 2,
  FISH = 1 << 3,
  PEANUTS = 1 << 4,
  SOYBEANS = 1 << 5,
  MILK = 1 << 6,
  NUTS = 1 << 7,
  CELERY = 1 << 8,
  MUSTARD = 1 << 9,
  SESAME = 1 << 10,
  SULPHITES = 1 << 11,
  LUPIN = 1 << 12,
  MOLLUSCS = 1 << 13,
};

static const CroAllergenEntry eu[] = {
  { "gluten", GLUTEN, 0, false },     { "crustaceans", CRUSTACEANS, 0, false },
  { "eggs", EGGS, 0, false },         { "fish", FISH, 0, false },
  { "peanuts", PEANUTS, 0, false },   { "soybeans", SOYBEANS, 0, false },
  { "milk", MILK, 0, false },         { "nuts", NUTS, 0, false },
  { "celery", CELERY, 0, false },     { "mustard", MUSTARD, 0, false },
  { "sesame", SESAME, 0, false },     { "sulphites", SULPHITES, 0, false },
  { "lupin", LUPIN, 0, false },       { "molluscs", MOLLUSCS, 0, false },
};

/* Wheat is one of the cereals that contain gluten; rye, barley and oats are of the Annex alone. Molluscs are
 * no crustacean shellfish. */
static const CroAllergenEntry us[] = {
  { "milk", MILK, 0, false },         { "eggs", EGGS, 0, false },
  { "fish", FISH, 0, false },         { "crustaceans", CRUSTACEANS, 0, false },
  { "tree-nuts", NUTS, 0, true },     { "wheat", 0, GLUTEN, false },
  { "peanuts", PEANUTS, 0, false },   { "soybeans", SOYBEANS, 0, false },
  { "sesame", SESAME, 0, false },
};

const CroAllergenList *
cro_allergen_list (CroAllergenListId id)
{
  static const CroAllergenList lists[CRO_N_ALLERGEN_LISTS] = {
    { "eu", sizeof eu / sizeof *eu, eu },
    { "us", sizeof us / sizeof *us, us },
  };

  return &lists[id];
}

unsigned
cro_allergen_held (const CroAllergenEntry *entry,
                   uint32_t                contains,
                   uint32_t                may_contain,
                   bool                    not_known)
{
  unsigned held = 0;

  if (contains & entry->same)
    return CRO_HELD_CONTAINS;
  if (may_contain & entry->same)
    held |= CRO_HELD_MAY;
  if (not_known || entry->is_wider || ((contains | may_contain) & entry->part_of) != 0)
    held |= CRO_HELD_NOT_KNOWN;
  return held;
}
