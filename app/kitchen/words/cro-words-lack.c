#include "cro-words-lack.h"

#include "cro-cause.h"
#include "cro-service.h"
#include "cro-words.h"

char *
cro_words_lack (CroModel *model,
                guint32   item,
                gint64    amount,
                CroUnit   unit)
{
  unsigned lacks = 0;
  CroCause cause = { CRO_CAUSE_PIECE, cro_model_item (model, item)->name };

  cro_service_in_base (model, item, amount, unit, &lacks);
  if (lacks & CRO_LACKS_DENSITY)
    cause.kind = CRO_CAUSE_DENSITY;
  return lacks != 0 ? cro_words_cause (&cause) : NULL;
}
