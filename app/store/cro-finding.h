/* cro-finding.h: what verifying a book finds, so that a sentence can be made of it in any language. */
#pragma once

#include "cro-store.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_FINDING_DAMAGE,      /* whatever has no kind of its own */
  CRO_FINDING_SCHEMA,      /* a table, an index or a trigger is missing, altered or a stranger's; what: which */
  CRO_FINDING_RULE,        /* a value of a row is none that its column takes */
  CRO_FINDING_REFERENCE,   /* a row names one of the table what that is not there */
  CRO_FINDING_TEXT,        /* a text of a row is not UTF-8; what: its column */
  CRO_FINDING_STRAY,       /* a name of a row has a character that none has; what: U+XXXX */
  CRO_FINDING_DAY,         /* a row has a date that the calendar has not; what: its text */
  CRO_FINDING_CURRENCY,    /* a row has a currency that ISO 4217 has not; what: its code */
} CroFindingKind;

/* Texts are UTF-8 and borrowed. */
typedef struct
{
  CroFindingKind  kind;
  const char     *table;   /* of the store; NULL where it is of no row */
  gint64          row;     /* its id */
  const char     *name;    /* of the row or of what it names, as "Dill, Quay Shellfish, 2026-03-01"; NULL: none is
                              known */
  gboolean        is_own;  /* name is this row's alone */
  const char     *what;    /* NULL: nothing more */
  const char     *text;    /* all of it in English, in the words of the store */
} CroFinding;

typedef void (*CroFindingTold) (const CroFinding *finding, gpointer user_data);

/* As cro_store_verify. */
gboolean cro_store_find (CroStore        *self,
                         CroFindingTold   told,
                         gpointer         user_data,
                         GError         **error);

G_END_DECLS
