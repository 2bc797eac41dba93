#include "config.h"

#include "cro-rule-words.h"

#include <glib/gi18n.h>

#include "cro-isolate.h"

typedef struct
{
  const char *word;
  const char *note;
  const char *sentence;
} RuleWords;

/* Translators: how by-products of a batch share in its cost: as one of a choice, as a note beside a
 * batch in a spreadsheet, and as a sentence, where %s is the main output of a preparation. */
static const RuleWords words[CRO_N_RULES] = {
  [CRO_RULE_FREE] = {
    N_("carry no cost"),
    N_("by-products carry no cost"),
    N_("%s carries all the cost; by-products carry none."),
  },
  [CRO_RULE_WEIGHT] = {
    N_("by weight"),
    N_("shared by weight"),
    N_("Each output carries cost in proportion to its weight."),
  },
  [CRO_RULE_VALUE] = {
    N_("by value"),
    N_("shared by value"),
    N_("Each output carries cost in proportion to its value."),
  },
  [CRO_RULE_CREDIT] = {
    N_("at an assigned value"),
    N_("by-products at an assigned value"),
    N_("By-products carry their assigned values, and %s the rest."),
  },
};

const char *
cro_rule_word (CroRule rule)
{
  return _(words[rule].word);
}

const char *
cro_rule_note (CroRule rule)
{
  return _(words[rule].note);
}

char *
cro_rule_dup_sentence (CroRule     rule,
                       const char *main_output)
{
  g_autofree char *name = cro_isolate (main_output);
  GString *text = g_string_new (_(words[rule].sentence));

  g_string_replace (text, "%s", name, 1);
  return g_string_free (text, FALSE);
}
