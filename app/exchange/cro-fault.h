/* cro-fault.h: what is wrong in the tables, each at its place.
 *
 * Ownership  A list owns its faults and their texts. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  CRO_FAULT_NOT_UTF8,          /* or a NUL; detail: the byte, as "0xE9" */
  CRO_FAULT_NOT_A_FILE,        /* a folder, a pipe or a device */
  CRO_FAULT_NOT_COMMAS,        /* detail: what stands between columns, ";" or "tab"; the rest is not read */
  CRO_FAULT_UTF16,             /* the rest is not read */
  CRO_FAULT_TOO_LONG,          /* a row of more than a megabyte; the rest is not read */
  CRO_FAULT_QUOTES,            /* a stray quote, or one never closed */
  CRO_FAULT_FIELD_COUNT,       /* value: fields of the row; detail: fields of the header */
  CRO_FAULT_UNKNOWN_TABLE,
  CRO_FAULT_ABSENT_TABLE,      /* the book holds rows of it, and the folder does not have it */
  CRO_FAULT_UNKNOWN_COLUMN,
  CRO_FAULT_DOUBLE_COLUMN,
  CRO_FAULT_MISSING_COLUMN,
  CRO_FAULT_MISSING_VALUE,
  CRO_FAULT_NOT_EMPTY,         /* detail: what leaves nothing to be said here, as the kind "other" */
  CRO_FAULT_NOT_A_NUMBER,
  CRO_FAULT_TOO_MANY_PLACES,
  CRO_FAULT_TOO_LARGE,
  CRO_FAULT_OUT_OF_RANGE,      /* detail: the range, as "(0, 1000]" */
  CRO_FAULT_NOT_A_DATE,
  CRO_FAULT_NOT_A_MONTH,
  CRO_FAULT_NOT_A_CHOICE,      /* detail: the choices, separated by ", " */
  CRO_FAULT_NOT_A_UNIT,
  CRO_FAULT_NOT_A_CURRENCY,
  CRO_FAULT_STRAY_CHARACTER,   /* one that no name may have; detail: "U+202E" */
  CRO_FAULT_STRAY_IN_TEXT,     /* one that no note or reason may have; detail: "U+001B" */
  CRO_FAULT_NOT_AN_ALLERGEN,   /* detail: the word that is none */
  CRO_FAULT_UNKNOWN_KEY,       /* book.csv */
  CRO_FAULT_UNKNOWN_NAME,      /* detail: what was looked for, as "ingredient" */
  CRO_FAULT_DOUBLE_KEY,        /* detail: the line that has it first */
  CRO_FAULT_DOUBLE_NAME,       /* the name is another thing's; detail: file:line of it */
  CRO_FAULT_MAIN_OUTPUT,       /* a preparation without exactly one; detail: how many */
  CRO_FAULT_OUTPUT_AMOUNT,     /* both amount and yield, or a unit that does not fit */
  CRO_FAULT_WHOLE_YIELD,       /* an own yield with weighed "whole" */
  CRO_FAULT_CYCLE,             /* detail: the path, "gel → infusion → gel" */
  CRO_FAULT_CLOSED_MONTH,      /* detail: the month */
  CRO_FAULT_FROZEN_MONTH,      /* its rows are not those that closing froze; detail: the month */
  CRO_FAULT_CHOICE_SHARES,     /* shares of a choice that do not make 100; value: the choice */
  CRO_FAULT_NO_PICTURE,        /* no such file in the folder “pictures”, or none that can be read */
  CRO_FAULT_NOT_A_PICTURE,     /* neither JPEG nor PNG */
  CRO_FAULT_LARGE_PICTURE,
  CRO_FAULT_BROKEN_PICTURE,
} CroFaultKind;

typedef struct
{
  char         *file;          /* "lines.csv" */
  guint         line;          /* 1 is the header; 0 the file as a whole */
  char         *column;        /* NULL: the row as a whole */
  CroFaultKind  kind;
  char         *value;         /* what stands there; may be NULL */
  char         *detail;        /* may be NULL */
} CroFault;

typedef struct _CroFaults CroFaults;

CroFaults      *cro_faults_new   (void);
void            cro_faults_free  (CroFaults    *faults);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroFaults, cro_faults_free)

/* Texts are copied. */
void            cro_faults_add   (CroFaults    *faults,
                                  const char   *file,
                                  guint         line,
                                  const char   *column,
                                  CroFaultKind  kind,
                                  const char   *value,
                                  const char   *detail);

guint           cro_faults_get_n (CroFaults    *faults);

/* Whether a table, or the rest of one, was not read, so that nobody knows which names it has. */
gboolean        cro_faults_lack_table (CroFaults    *faults);

/* Forgets those of one kind. */
void            cro_faults_drop  (CroFaults    *faults,
                                  CroFaultKind  kind);

/* By file and line; those of one line in the order in which they were added. Borrowed. */
const CroFault *cro_faults_get   (CroFaults    *faults,
                                  guint         index);

G_END_DECLS
