#include "cro-invoice-private.h"

#include <string.h>

/* Credit notes among the types of UNTDID 1001 that EN 16931 allows (BT-3). */
static const char *const credit_types[] = { "81", "83", "381", "396", "532", NULL };

/* PEPPOL-EN16931-R120. */
#define SLACK (CRO_NANO / 50)

static gboolean
read_number (const char *text,
             CroNano    *nano)
{
  return text != NULL && cro_exact_parse (text, nano);
}

static CroNano
size_of (CroNano value)
{
  return value < 0 ? -value : value;
}

/* A base quantity that is no number above 0 leaves nothing to be reckoned. */
static gboolean
recompute (const CroInvoiceLine *line,
           CroNano              *net)
{
  CroNano price, base = CRO_NANO;

  if (!line->has_quantity || !line->has_net || !read_number (line->price, &price)
      || (line->base_quantity != NULL && !read_number (line->base_quantity, &base)) || base <= 0
      || !cro_exact_share (line->exact_quantity, price, base, 2, net))
    return FALSE;
  *net += line->charges - line->allowances;
  return TRUE;
}

static void
reckon_line (CroInvoiceLine *line)
{
  line->has_quantity = read_number (line->quantity, &line->exact_quantity);
  line->has_net = read_number (line->net, &line->exact_net);
  line->has_per_unit = line->has_quantity && line->has_net && line->exact_quantity != 0
                       && cro_exact_share (line->exact_net, CRO_NANO, line->exact_quantity, 6, &line->per_unit);
  if (recompute (line, &line->recomputed))
    line->recomputes = size_of (line->recomputed - line->exact_net) <= SLACK ? CRO_RECOMPUTES_YES
                                                                            : CRO_RECOMPUTES_NO;
}

/* YYYYMMDD, the format 102 of a Cross Industry Invoice. */
static void
put_hyphens (CroInvoice  *self,
             const char **date)
{
  char text[] = "YYYY-MM-DD";

  if (*date == NULL || strlen (*date) != 8 || strspn (*date, "0123456789") != 8)
    return;
  memcpy (text, *date, 4);
  memcpy (text + 5, *date + 4, 2);
  memcpy (text + 8, *date + 6, 2);
  *date = g_string_chunk_insert (self->texts, text);
}

void
cro_invoice_reckon (CroInvoice *self)
{
  put_hyphens (self, &self->date);
  put_hyphens (self, &self->delivered);
  self->is_credit = strcmp (self->root, "CreditNote") == 0
                    || (self->type != NULL && g_strv_contains (credit_types, self->type));
  for (guint i = 0; i < self->lines->len; i++)
    {
      CroInvoiceLine *line = &g_array_index (self->lines, CroInvoiceLine, i);

      reckon_line (line);
      if (self->currency == NULL)
        self->currency = line->currency;
      else if (line->currency != NULL && self->strange_line == 0 && strcmp (line->currency, self->currency) != 0)
        {
          self->strange = line->currency;
          self->strange_line = line->number;
        }
    }
  if (self->strange == NULL && self->whole_currency != NULL && self->currency != NULL
      && strcmp (self->whole_currency, self->currency) != 0)
    self->strange = self->whole_currency;
}
