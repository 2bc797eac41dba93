/* cro-allergen-list.h: the lists of allergens that laws name, and what a set of the fourteen groups of
 * cro-allergen.h, which is what people enter, says of each entry of a list.
 *
 * Nothing is told to be absent that was never asked: an entry that only a part of a group answers, or
 * that names what no group does, is not known.
 *
 * Sources    eu: Regulation (EU) No 1169/2011 Annex II. us: 21 U.S.C. 321(qq)(1), which is FALCPA 2004 with
 *            the FASTER Act 2021. That pine nuts are among the tree nuts of the latter and in no group of the
 *            former is from memory of the FDA's guidance on food allergen labelling. */
#pragma once

#include "cro-allergen.h"

typedef enum
{
  CRO_ALLERGEN_LIST_EU,
  CRO_ALLERGEN_LIST_US,
  CRO_N_ALLERGEN_LISTS,
} CroAllergenListId;

typedef struct
{
  const char *code;
  uint32_t    same;      /* groups of which all lies within the entry: entered, it is contained */
  uint32_t    part_of;   /* groups of which the entry is a part: entered, it may be that or another part */
  bool        is_wider;  /* it names what no group does */
} CroAllergenEntry;

typedef struct
{
  const char             *code;
  size_t                  n;        /* CRO_N_ALLERGENS at most */
  const CroAllergenEntry *entries;
} CroAllergenList;

/* Static. */
const CroAllergenList *cro_allergen_list (CroAllergenListId id);

/* What is known of one entry; none of these: not among those that were entered, which is no absence. */
typedef enum
{
  CRO_HELD_CONTAINS = 1 << 0,   /* alone */
  CRO_HELD_MAY = 1 << 1,        /* a label warns of it */
  CRO_HELD_NOT_KNOWN = 1 << 2,  /* somebody still has to say */
} CroHeld;

/* contains and may_contain: groups; not_known: of something below nobody has said. A set of CroHeld. */
unsigned cro_allergen_held (const CroAllergenEntry *entry,
                            uint32_t                contains,
                            uint32_t                may_contain,
                            bool                    not_known);
