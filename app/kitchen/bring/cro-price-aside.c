#include "cro-price-aside.h"

#include "cro-price-day.h"
#include "cro-price-token.h"

#include <string.h>

const char cro_price_tax_words[] = "|tax|taxes|taxe|vat|tva|gst|";
static const char paper_words[]
    = "|invoice|invoices|receipt|receipts|number|nr|id|reg|registered|registration|return|returns|intracom|"
      "intracommunautaire|reference|ref|";

/* Two letters before a number. */
static gboolean
is_country_at (const GArray *tokens,
               guint         i)
{
  const CroPriceToken *token = i < tokens->len ? &g_array_index (tokens, CroPriceToken, i) : NULL;

  return token != NULL && token->kind == CRO_PRICE_TOKEN_WORD && strlen (token->word) == 2
         && cro_price_is_number_at (tokens, i + 1);
}

static gboolean
is_number_behind (const GArray *tokens,
                  guint         i)
{
  return cro_price_is_number_at (tokens, i) || is_country_at (tokens, i);
}

guint
cro_price_scan_paper (const GArray *tokens,
                      guint         i)
{
  guint n = 0;

  if (cro_price_token_is (tokens, i, "|facture|numero|n|no|num|"))
    {
      n = 1 + cro_price_token_is (tokens, i + 1, "|de|");
      if (!cro_price_token_is (tokens, i + n, "|tva|vat|"))
        return 0;
      n++;
      /* "No VAT" */
      if (cro_price_token_is (tokens, i, "|no|n|")
          && !is_number_behind (tokens, i + n))
        return 0;
    }
  else if (cro_price_token_is (tokens, i, cro_price_tax_words)
           && (cro_price_token_is (tokens, i + 1, paper_words)
               || (cro_price_token_is (tokens, i + 1, "|no|") && is_number_behind (tokens, i + 2))))
    n = 2 + cro_price_token_is (tokens, i + 2, "|no|nr|num|number|");
  else
    return 0;
  n += is_country_at (tokens, i + n);
  while (cro_price_is_number_at (tokens, i + n))
    n++;
  return n;
}

guint
cro_price_scan_aside (const GArray *tokens,
                      guint         i,
                      const char   *letters)
{
  static const char *const errors[] = { "|e|", "|oe|", "|errors|", "|and|", "|omissions|", "|excepted|" };
  static const char applying[] = "|applicable|applies|due|necessary|required|";
  const guint first = cro_price_token_is (tokens, i, errors[0]) ? 0 : 2, end = first == 0 ? 2 : G_N_ELEMENTS (errors);
  guint n = 0;

  while (first + n < end && cro_price_token_is (tokens, i + n, errors[first + n]))
    n++;
  if (first + n == end)
    return n;
  if (strpbrk (letters, "ijIJc") != NULL || strpbrk (letters, "xXy") == NULL
      || !cro_price_token_is (tokens, i, "|where|if|as|when|"))
    return 0;
  for (n = 1; cro_price_token_is (tokens, i + n, "|it|is|"); n++)
    ;
  return cro_price_token_is (tokens, i + n, applying) ? n + 1 : 0;
}
