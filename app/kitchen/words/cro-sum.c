#include "cro-sum-private.h"

#include <string.h>

#include "cro-isolate.h"

static char *
text_from (GPtrArray *sum,
           guint      first)
{
  GString *text = g_string_new (NULL);
  gboolean open = TRUE;

  for (guint i = first; i < sum->len; i++)
    {
      const CroSumToken *token = sum->pdata[i];
      gboolean is_sign = token->kind == CRO_SUM_SIGN;
      g_autofree char *word = NULL;

      if (!open && !(is_sign && strcmp (token->text, ")") == 0))
        g_string_append_c (text, ' ');
      if (token->kind == CRO_SUM_WORD)
        word = cro_isolate (token->text);
      g_string_append (text, word != NULL ? word : token->text);
      open = is_sign && strcmp (token->text, "(") == 0;
    }
  return g_string_free (text, FALSE);
}

char *
cro_sum_to_text (GPtrArray *sum)
{
  return text_from (sum, 0);
}

char *
cro_sum_to_terms (GPtrArray *sum)
{
  return text_from (sum, 2);
}

const char *
cro_sum_get_figure (GPtrArray *sum)
{
  return ((const CroSumToken *) sum->pdata[0])->text;
}

void
cro_sum_take (GPtrArray *sum,
              GPtrArray *second)
{
  if (second == NULL)
    return;
  cro_sum_add_sign (sum, "·");
  g_ptr_array_extend_and_steal (sum, second);
}
