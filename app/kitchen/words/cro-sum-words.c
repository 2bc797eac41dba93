#include "config.h"

#include "cro-sum.h"

#include <glib/gi18n.h>

#include "cro-figure-words.h"

const CroSumWords *
cro_sum_words (void)
{
  static CroSumWords words;

  /* Translators: each of these stands behind the number that it names. */
  words = (CroSumWords){
    .bites = _("bites"),
    .bite = _("bite"),
    .a_guest = _("per guest"),
    .seasoning = _("with seasoning and handling"),
    .food = _("food"),
    .labour = _("labour"),
    .no_minutes = cro_words_no_minutes (),
    .tax = _("tax included"),
    .rate = _("exchange rate"),
    .net = _("net weight"),
    .comes_back = _("comes back"),
    .yield = _("yield"),
    .share = _("of the batch"),
    .lost = _("thrown away"),
    .disposables = _("disposables"),
    .minutes = _("minutes"),
    .wage = _("per hour"),
  };
  return &words;
}
