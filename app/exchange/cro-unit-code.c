#include "cro-unit-code.h"

#include "cro-decimal.h"

#include <string.h>

static const struct { const char *code; CroUnit unit; gint64 times; } measures[] = {
  { "KGM", CRO_UNIT_KG, 1 }, { "GRM", CRO_UNIT_G, 1 }, { "MGM", CRO_UNIT_MG, 1 }, { "HGM", CRO_UNIT_G, 100 },
  { "DG", CRO_UNIT_MG, 100 }, { "TNE", CRO_UNIT_KG, 1000 }, { "LBR", CRO_UNIT_LB, 1 },
  { "ONZ", CRO_UNIT_OZ, 1 }, { "STI", CRO_UNIT_LB, 14 }, { "CWA", CRO_UNIT_LB, 100 },
  { "CWI", CRO_UNIT_LB, 112 },
  { "LTR", CRO_UNIT_L, 1 }, { "DLT", CRO_UNIT_DL, 1 }, { "CLT", CRO_UNIT_CL, 1 }, { "MLT", CRO_UNIT_ML, 1 },
  { "HLT", CRO_UNIT_L, 100 }, { "GLL", CRO_UNIT_US_GAL, 1 }, { "QTL", CRO_UNIT_US_QT, 1 },
  { "PTL", CRO_UNIT_US_PT, 1 }, { "OZA", CRO_UNIT_US_FL_OZ, 1 }, { "GLI", CRO_UNIT_IMP_GAL, 1 },
  { "QTI", CRO_UNIT_IMP_QT, 1 }, { "PTI", CRO_UNIT_IMP_PT, 1 }, { "OZI", CRO_UNIT_IMP_FL_OZ, 1 },
  { "G24", CRO_UNIT_US_TBSP, 1 }, { "G25", CRO_UNIT_US_TSP, 1 },
  { "PR", CRO_UNIT_EACH, 2 }, { "DZN", CRO_UNIT_DOZEN, 1 }, { "DPC", CRO_UNIT_DOZEN, 1 },
  { "GRO", CRO_UNIT_DOZEN, 12 },
};

/* Of Recommendation 21 those in which food is sold: box, carton, case, crate, package, packet, bag, sack,
 * pouch, bottle, bottlecrate, jar, jug, pot, tub, tins and cans, tube, bucket, keg, barrel, bundle, roll,
 * sheet, parcel, pallet, piece, unpacked, vial; and of Recommendation 20 dozen packs, packs and sets. */
static const char packages[] = " XBX XCT XCS XCR XPK XPA XBG XSA XPO XBO XBC XJR XJG XPT XTB XTN XCA XCX XTU XBJ"
                               " XKG XBA XBE XRO XST XPC XPX XPP XNE XVI DZP NMP SET ";

CroUnitCodeKind
cro_unit_code_read (const char *code,
                    CroUnit    *unit,
                    gint64     *size)
{
  g_autofree char *word = g_strdup_printf (" %s ", code);

  for (gsize i = 0; i < G_N_ELEMENTS (measures); i++)
    if (strcmp (measures[i].code, code) == 0)
      {
        *unit = measures[i].unit;
        *size = measures[i].times * CRO_MICRO;
        return CRO_UNIT_CODE_MEASURE;
      }
  if (strcmp (code, "C62") == 0 || strcmp (code, "H87") == 0 || strcmp (code, "EA") == 0)
    return CRO_UNIT_CODE_PIECE;
  return strchr (code, ' ') == NULL && strstr (packages, word) != NULL ? CRO_UNIT_CODE_PACKAGE
                                                                      : CRO_UNIT_CODE_UNKNOWN;
}
