#include "config.h"

#include "cro-office-mark.h"

#include <glib/gi18n.h>

const char *
cro_office_mark (CroKnown known)
{
  switch (known)
    {
    case CRO_KNOWN_WHOLE:
      return NULL;
    case CRO_KNOWN_AT_LEAST:
      /* Translators: beside a number in a table. */
      return _("at least");
    case CRO_KNOWN_AT_MOST:
      /* Translators: beside a number in a table. */
      return _("at most");
    default:
      return _("?");
    }
}
