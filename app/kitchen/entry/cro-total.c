#include "cro-total.h"

gboolean
cro_says_total (const char *folded)
{
  static const char *const totals[]
      = { "total",     "totals",     "grand total",   "subtotal", "sub total", "total ht",
          "total ttc", "sous total", "total general", "totaux",   "sum",       NULL };

  return g_strv_contains (totals, folded);
}
