#include "config.h"

#include "cro-allergen-word.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-allergen-words.h"
#include "cro-fold.h"

gboolean
cro_allergen_answer_equal (CroAllergenAnswer a,
                           CroAllergenAnswer b)
{
  return a.contains == b.contains && a.may == b.may;
}

CroAllergenAnswer
cro_allergen_answer_without (CroAllergenAnswer answer,
                             guint             group)
{
  answer.may &= ~(1u << group);
  if (answer.contains > 0)
    {
      answer.contains &= (gint32) ~(1u << group);
      if (answer.contains == 0)
        answer.contains = -1;
    }
  return answer;
}

CroAllergenAnswer
cro_allergen_answer_with (CroAllergenAnswer answer,
                          guint             group,
                          gboolean          is_may)
{
  if (is_may)
    answer.may |= 1u << group;
  else
    answer.contains = (gint32) (MAX (answer.contains, 0) | 1u << group);
  return answer;
}

static gboolean
is_one (guint32 found)
{
  return found != 0 && (found & (found - 1)) == 0;
}

gboolean
cro_allergen_word_is_out (const char *word)
{
  return word[0] == '-';
}

/* "none" as a whole, in the language of the window or in English, or the figure; nothing that begins so. */
static CroAllergenWordState
read_none (const char *word)
{
  const char *nones[] = { C_("allergens", "none"), "none", "0" };
  g_autofree char *folded = cro_fold (word);
  CroAllergenWordState state = CRO_ALLERGEN_WORD_REFUSED;

  for (gsize i = 0; i < G_N_ELEMENTS (nones); i++)
    {
      g_autofree char *none = cro_fold (nones[i]);

      if (strcmp (none, folded) == 0)
        return CRO_ALLERGEN_WORD_TAKEN;
      if (*folded != '\0' && g_str_has_prefix (none, folded))
        state = CRO_ALLERGEN_WORD_OPEN;
    }
  return state;
}

gboolean
cro_allergen_word_may_be_none (const char *word)
{
  return !cro_allergen_word_is_out (word) && read_none (word) == CRO_ALLERGEN_WORD_OPEN;
}

CroAllergenWordState
cro_allergen_word_read (const char        *word,
                        CroAllergenAnswer  before,
                        CroAllergenAnswer *answer,
                        guint32           *found)
{
  gboolean is_out = cro_allergen_word_is_out (word);
  const char *name = word + (is_out ? 1 : 0);
  CroAllergenWordState none = is_out ? CRO_ALLERGEN_WORD_REFUSED : read_none (name);

  *answer = before;
  *found = cro_words_find_allergens (CRO_ALLERGEN_WORD_LIST, name);
  if (none == CRO_ALLERGEN_WORD_TAKEN)
    answer->contains = 0;
  else if (none == CRO_ALLERGEN_WORD_OPEN || *name == '\0')
    return CRO_ALLERGEN_WORD_OPEN;
  else if (*found == 0)
    return CRO_ALLERGEN_WORD_REFUSED;
  else if (!is_one (*found))
    return CRO_ALLERGEN_WORD_OPEN;
  else if (is_out)
    *answer = cro_allergen_answer_without (*answer, (guint) __builtin_ctz (*found));
  else
    *answer = cro_allergen_answer_with (*answer, (guint) __builtin_ctz (*found),
                                        g_unichar_isupper (g_utf8_get_char (name)));
  return CRO_ALLERGEN_WORD_TAKEN;
}
