#include "cro-quick-private.h"

#include <string.h>

#include "cro-expression.h"
#include "cro-name.h"

gboolean
cro_quick_fail (CroQuick     *quick,
                CroQuickFault fault,
                gsize         start,
                gsize         end)
{
  quick->fault = fault;
  quick->start = start;
  quick->end = end;
  return FALSE;
}

gboolean
cro_quick_check_remark (CroQuick *quick,
                        CroRemark remark,
                        gsize     start,
                        gsize     end)
{
  static const CroQuickFault faults[] = {
    [CRO_REMARK_LOSS] = CRO_QUICK_LOSS,
    [CRO_REMARK_DISCOUNT] = CRO_QUICK_DISCOUNT,
    [CRO_REMARK_TAX] = CRO_QUICK_TAX_BESIDE,
    [CRO_REMARK_NUMBER] = CRO_QUICK_REMARK,
  };

  return remark == CRO_REMARK_PLAIN || cro_quick_fail (quick, faults[remark], start, end);
}

gboolean
cro_quick_is_of_pieces (const CroQuick *quick)
{
  return quick->has_amount && cro_unit_get (quick->unit)->base == CRO_BASE_EACH;
}

void
cro_quick_rest_trim (CroQuickRest *rest)
{
  rest->start += cro_expression_space (rest->text + rest->start);
  /* Space may go on behind an end that was drawn before. */
  rest->start = MIN (rest->start, rest->end);
  while (rest->end > rest->start)
    {
      const char *last = g_utf8_prev_char (rest->text + rest->end);

      if (!g_unichar_isspace (g_utf8_get_char (last)) && strchr (",;:", *last) == NULL)
        break;
      rest->end = (gsize) (last - rest->text);
    }
}

/* What is set aside of a line stands behind its name, in the order in which it was written. */
void
cro_quick_add_note (CroQuick   *quick,
                    const char *text)
{
  g_autofree char *tidy = cro_name_dup_tidy (text);
  g_autofree char *before = g_steal_pointer (&quick->note);

  if (*tidy == '\0')
    quick->note = g_steal_pointer (&before);
  else
    quick->note = before != NULL ? g_strconcat (before, "; ", tidy, NULL) : g_steal_pointer (&tidy);
}

char *
cro_quick_rest_dup (const CroQuickRest *rest,
                    gsize               at)
{
  return g_strndup (rest->text + at, rest->end - at);
}

gsize
cro_quick_rest_next (const CroQuickRest *rest,
                     gsize               at)
{
  const char *c = rest->text + at;
  const char *end = rest->text + rest->end;

  while (c < end && !g_unichar_isspace (g_utf8_get_char (c)))
    c = g_utf8_next_char (c);
  while (c < end && g_unichar_isspace (g_utf8_get_char (c)))
    c = g_utf8_next_char (c);
  return (gsize) (c - rest->text);
}
