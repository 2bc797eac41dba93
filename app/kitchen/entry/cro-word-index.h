/* cro-word-index.h: names by their words, to find those that have words in common with a text.
 *
 * A word counts the more the fewer names have it: log2 (N / n) + 1, where n of N names do (K. Spärck Jones,
 * "A statistical interpretation of term specificity and its application in retrieval", Journal of Documentation 28,
 * 1972).
 *
 * Ownership  Names are borrowed and outlive the index, which copies words. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _CroWordIndex CroWordIndex;

/* What a word of the text that no name has stands for. */
typedef enum
{
  CRO_WORDS_SLIPPED,  /* of four letters or more: those that are a slip away from it (cro_fold_is_slip) */
  CRO_WORDS_BEGUN,    /* of four letters or more: those that it begins and that are longer by two or more ("Quay" for
                       * "Quayside", not "pear" for "pearl"), at half their weight */
} CroWordReach;

typedef struct
{
  guint    at;        /* of the name, in the order in which names were added */
  double   shared;    /* what the words weigh that it has in common with the text */
  double   share;     /* of what all of its words weigh: 0 to 1, more where several slipped words stand for one */
  gboolean is_head;   /* one of them is a word of the text's head */
  guint    n_words;   /* of the text, that stand in it or begin one of its words */
  guint    last;      /* the last of those, counted from 1 */
} CroWordMatch;

CroWordIndex *cro_word_index_new  (void);
void          cro_word_index_free (CroWordIndex    *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroWordIndex, cro_word_index_free)

/* words: char *, each once. */
void          cro_word_index_add  (CroWordIndex    *self,
                                   const char      *name,
                                   const GPtrArray *words);

/* Once all names are there: what each of them weighs. */
void          cro_word_index_weigh (CroWordIndex   *self);

/* All that have a word in common, best first: by what is shared times its share of the name; equals by name.
 * head: those of the words that say what it is, NULL: all of them. Elements CroWordMatch. */
GArray       *cro_word_index_find (const CroWordIndex *self,
                                   const GPtrArray *words,
                                   const GPtrArray *head,
                                   CroWordReach     reach);

G_END_DECLS
