#include "config.h"

#include "cro-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-isolate.h"

char *
cro_words_unserved (CroModel          *model,
                    const CroUnserved *unserved)
{
  const char *name = cro_model_item (model, unserved->item)->name;
  g_autofree char *money = NULL;

  if (isnan (unserved->money))
    /* Translators: an output of a batch, of which no plate takes anything. */
    return cro_isolate_printf (_("“%s” is not used"), name);
  money = cro_words_money (model, unserved->money);
  /* Translators: an output of a batch, of which no plate takes anything, and money. */
  return cro_isolate_printf (_("“%s” is not used: no plate pays its %s per batch"), name, money);
}
