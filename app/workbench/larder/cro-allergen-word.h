/* cro-allergen-word.h: what is said of one ingredient, and how a word in progress changes it.
 *
 * Each further letter is read with all before it, from the answer as it was when the word began: no letter
 * says anything by itself. "mol" puts in, "Mol" as the label warns, "-mol" takes out, "none" says that
 * there are none. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Which names are understood. */
#define CRO_ALLERGEN_WORD_LIST CRO_ALLERGEN_LIST_EU

typedef struct
{
  gint32  contains;    /* mask; -1: nobody has said */
  guint32 may;
} CroAllergenAnswer;

gboolean          cro_allergen_answer_equal   (CroAllergenAnswer  a,
                                               CroAllergenAnswer  b);

/* group: its number in the list. With the last one gone nobody has said that there are none. */
CroAllergenAnswer cro_allergen_answer_without (CroAllergenAnswer  answer,
                                               guint              group);
CroAllergenAnswer cro_allergen_answer_with    (CroAllergenAnswer  answer,
                                               guint              group,
                                               gboolean           is_may);

typedef enum
{
  CRO_ALLERGEN_WORD_OPEN,       /* it may become one of several */
  CRO_ALLERGEN_WORD_TAKEN,
  CRO_ALLERGEN_WORD_REFUSED,
} CroAllergenWordState;

/* *answer: what before becomes by it; *found: all groups that it may mean. */
CroAllergenWordState cro_allergen_word_read (const char         *word,
                                             CroAllergenAnswer   before,
                                             CroAllergenAnswer  *answer,
                                             guint32            *found);

/* Whether it takes out; whether it may become "none". */
gboolean          cro_allergen_word_is_out      (const char     *word);
gboolean          cro_allergen_word_may_be_none (const char     *word);

G_END_DECLS
