#include "config.h"

#include "cro-code-words.h"

#include <glib/gi18n.h>

#include "cro-rule-words.h"

static const struct { const char *code, *word; } words[] = {
  { "whole", N_("as bought") },
  { "trimmed", N_("trimmed") },

  { "main", N_("main output") },
  { "by-product", N_("by-product") },

  /* Translators: how a supplier states its prices. */
  { "pack", N_("per pack") },
  { "base unit", N_("per kg, l or pc") },

  { "food", N_("food") },
  { "disposable", N_("disposable") },
  /* Translators: a kind of purchase or adjustment. */
  { "other", N_("other") },
  { "staff-meal", N_("staff meal") },
  /* Translators: given to guests without pay. */
  { "promotion", N_("complimentary") },
  { "waste", N_("waste") },
  { "transfer-in", N_("transfer in") },
  { "transfer-out", N_("transfer out") },

  /* Translators: how a kitchen speaks of what its plates cost. */
  { "food-cost", N_("food cost %") },
  { "gross-profit", N_("gross profit %") },
  { "coefficient", N_("coefficient") },

  /* Translators: the selling prices that a kitchen rounds to. */
  { "half", N_("12.00 and 12.50") },
  { "ninety-five", N_("12.95") },
  { "whole", N_("12.00") },

  { "plate", N_("plate") },
  { "menu", N_("menu") },
  { "statement", N_("statement") },
  { "count", N_("count") },
  { "purchase", N_("purchase") },
  { "adjustment", N_("adjustment") },
};

const char *
cro_code_word (const char *code)
{
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_str_equal (words[i].code, code))
      return _(words[i].word);
  for (CroRule rule = 0; rule < CRO_N_RULES; rule++)
    if (g_str_equal (cro_rule_codes[rule], code))
      return cro_rule_word (rule);
  return code;
}

const char **
cro_code_dup_words (const char *const *codes)
{
  guint n = g_strv_length ((char **) codes);
  const char **all = g_new0 (const char *, n + 1);

  for (guint i = 0; i < n; i++)
    all[i] = cro_code_word (codes[i]);
  return all;
}
