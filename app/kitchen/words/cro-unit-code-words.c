#include "config.h"

#include "cro-unit-code-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-unit-code.h"
#include "cro-words.h"

static gboolean
is (const char *code,
    const char *other)
{
  return strcmp (code, other) == 0;
}

const char *
cro_words_unit_code (const char *code,
                     gulong      n)
{
  CroUnit unit;
  gint64 size;

  if (cro_unit_code_read (code, &unit, &size) == CRO_UNIT_CODE_MEASURE && size == CRO_MICRO)
    return cro_words_unit (unit);
  if (is (code, "XBX"))
    return ngettext ("box", "boxes", n);
  if (is (code, "XCT"))
    return ngettext ("carton", "cartons", n);
  if (is (code, "XCS"))
    return ngettext ("case", "cases", n);
  if (is (code, "XCR"))
    return ngettext ("crate", "crates", n);
  if (is (code, "XBC"))
    return ngettext ("crate of bottles", "crates of bottles", n);
  if (is (code, "XPK") || is (code, "NMP"))
    return ngettext ("package", "packages", n);
  if (is (code, "XPA"))
    return ngettext ("packet", "packets", n);
  if (is (code, "XBG"))
    return ngettext ("bag", "bags", n);
  if (is (code, "XSA"))
    return ngettext ("sack", "sacks", n);
  if (is (code, "XPO"))
    return ngettext ("pouch", "pouches", n);
  if (is (code, "XBO"))
    return ngettext ("bottle", "bottles", n);
  if (is (code, "XJR"))
    return ngettext ("jar", "jars", n);
  if (is (code, "XJG"))
    return ngettext ("jug", "jugs", n);
  if (is (code, "XPT"))
    return ngettext ("pot", "pots", n);
  if (is (code, "XTB"))
    return ngettext ("tub", "tubs", n);
  if (is (code, "XTN"))
    return ngettext ("tin", "tins", n);
  if (is (code, "XCA") || is (code, "XCX"))
    return ngettext ("can", "cans", n);
  if (is (code, "XTU"))
    return ngettext ("tube", "tubes", n);
  if (is (code, "XBJ"))
    return ngettext ("bucket", "buckets", n);
  if (is (code, "XKG"))
    return ngettext ("keg", "kegs", n);
  if (is (code, "XBA"))
    return ngettext ("barrel", "barrels", n);
  if (is (code, "XBE"))
    return ngettext ("bundle", "bundles", n);
  if (is (code, "XRO"))
    return ngettext ("roll", "rolls", n);
  if (is (code, "XST"))
    return ngettext ("sheet", "sheets", n);
  if (is (code, "XPC"))
    return ngettext ("parcel", "parcels", n);
  if (is (code, "XPX"))
    return ngettext ("pallet", "pallets", n);
  if (is (code, "XVI"))
    return ngettext ("vial", "vials", n);
  if (is (code, "DZP"))
    return ngettext ("pack of 12", "packs of 12", n);
  if (is (code, "SET"))
    return ngettext ("set", "sets", n);
  if (is (code, "C62") || is (code, "H87") || is (code, "EA") || is (code, "XPP") || is (code, "XNE"))
    return n == 1 ? _("piece") : _("pieces");
  return NULL;
}
