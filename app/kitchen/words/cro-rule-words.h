/* cro-rule-words.h: the by-product rules as people read them. All words of a rule stand here. */
#pragma once

#include <glib.h>

#include "cro-code.h"

G_BEGIN_DECLS

/* As one of a choice: "by weight". */
const char *cro_rule_word         (CroRule     rule);

/* Of a batch, in a sheet: "shared by weight". */
const char *cro_rule_note         (CroRule     rule);

/* What it does with the cost, as a sentence. Owned. */
char       *cro_rule_dup_sentence (CroRule     rule,
                                   const char *main_output);

G_END_DECLS
