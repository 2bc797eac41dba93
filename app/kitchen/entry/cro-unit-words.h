/* cro-unit-words.h: how people write units, in English and in French, whatever the locale.
 *
 * Case, accents, full stops and the space between words do not matter: "C. à S.", "c à s" and
 * "cas" are one. What a kitchen says without a size asks back instead of becoming a name: "cup" is
 * one of several, "bunch" is none.
 *
 * Source     The words are common practice, no source; the units are those of cro-unit.h. */
#pragma once

#include "cro-entry.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_UNIT_WORD_NONE,
  CRO_UNIT_WORD_ONE,       /* units[0] */
  CRO_UNIT_WORD_WHICH,     /* units[0] or units[1]: who typed it has to say */
  CRO_UNIT_WORD_SIZELESS,  /* "bunch", "pinch": how much it is nobody knows */
} CroUnitWordKind;

typedef struct
{
  CroUnitWordKind kind;
  CroUnit         units[2];
} CroUnitMeaning;

/* The longest word, or words, of a unit that begins text and ends there; returns its bytes, 0
 * where there is none. words, those of the user's language, may be NULL. */
gsize cro_unit_words_scan (const char          *text,
                           const CroEntryWords *words,
                           CroUnitMeaning      *meaning);

G_END_DECLS
