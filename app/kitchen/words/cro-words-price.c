#include "config.h"

#include "cro-words-price.h"

#include <glib/gi18n.h>

#include "cro-words.h"

char *
cro_words_price_reason (const char     *text,
                        const CroEntry *entry,
                        const char     *currency)
{
  g_autofree char *part = g_strndup (text + entry->start, entry->end - entry->start);

  switch (entry->status)
    {
    case CRO_ENTRY_OTHER_CURRENCY:
      /* Translators: the first %s is a price that was typed, “£71” say; the second the code of the
       * currency that is asked for. */
      return g_strdup_printf (_("“%s” is in another currency. Type the price in %s."), part,
                              currency);
    case CRO_ENTRY_OUT_OF_RANGE:
      return g_strdup (_("A price cannot be below 0."));
    default:
      return cro_words_entry_reason (text, entry);
    }
}
