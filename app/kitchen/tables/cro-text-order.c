#include "cro-text-order.h"

#include <string.h>

int
cro_text_order (gconstpointer a,
                gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}
