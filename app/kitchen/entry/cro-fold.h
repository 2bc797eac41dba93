/* cro-fold.h: names as they are looked for: without case, accents and punctuation.
 *
 * A folded text is words of letters and digits with one space between them.
 *
 * Ownership  Texts returned are the caller's to free; a query owns its words. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

char       *cro_fold            (const char     *text);

/* Whether a name folds to what was folded, without folding most of them. */
gboolean    cro_folds_to        (const char     *name,
                                 const char     *folded);

/* A folded name with each word as if of one: "egg yolks" and "eggs yolk" are "egg yolk", "choux" is
 * "chou". Only to be held against another of its kind, as some words lose what was no plural. Common
 * practice of English and French, no source. */
char       *cro_fold_number     (const char     *folded);

/* The words of a name, each as if of one, and each once: char *. */
GPtrArray  *cro_fold_words      (const char     *name);

/* Whether two folded texts differ by one slip at most: a letter or a space too many, one too few, another one, or two
 * that changed places ("Blackpepper", "cider vinegarr"). */
gboolean    cro_fold_is_slip    (const char     *a,
                                 const char     *b);

/* How well a name fits what was typed, from worst to best. */
typedef enum
{
  CRO_MATCH_NONE,
  CRO_MATCH_INSIDE,   /* every word typed stands somewhere in it, or is a whole word of it in the singular */
  CRO_MATCH_STARTS,   /* and each begins a word */
  CRO_MATCH_BEGINS,   /* and it begins with what was typed */
  CRO_MATCH_WHOLE,    /* it is what was typed */
} CroMatch;

typedef struct
{
  char  *text;        /* folded */
  char **words;
  char **ones;        /* each as if of one (cro_fold_number) */
  guint  longest;     /* index of the longest word */
  gsize  stem;        /* bytes of that which are in any name that fits, of one or of several */
} CroQuery;

/* NULL where text holds no word. */
CroQuery   *cro_query_new       (const char     *text);
void        cro_query_free      (CroQuery       *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroQuery, cro_query_free)

/* Words in any order. */
CroMatch    cro_query_match     (const CroQuery *self,
                                 const char     *folded);

G_END_DECLS
