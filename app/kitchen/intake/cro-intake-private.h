/* cro-intake-private.h: the rows of a sheet as they were read, and what its files share. */
#pragma once

#include "cro-intake.h"

G_BEGIN_DECLS

/* Among names: an adjustment of no item. */
#define CRO_INTAKE_NAMELESS G_MAXUINT

typedef struct
{
  guint       number;       /* of the row, as its spreadsheet shows it */
  guint       name;         /* among names */
  CroDate     day;
  gint64      sold;         /* or the amount */
  gboolean    has_sold;
  gboolean    has_unit;
  CroUnit     unit;
  gint64      revenue;      /* or the value, as it stands there; CRO_NOT_SET */
  gint64      rate;         /* of the tax in it, per cent in millionths; CRO_NOT_SET */
  guint       kind;         /* in the order of cro_adjustment_kind_codes */
  const char *text;         /* place, note, number of a document; NULL: none */
  gboolean    is_late;      /* of a closed month */
  CroDate     dated;        /* CRO_NO_DAY: not said */
  gint64      values[CRO_N_PURCHASE_KINDS]; /* CRO_NOT_SET */
  guint32     item;         /* that a row of a document bills; CRO_NO_SLOT: none of the book */
} CroIntakeRow;

struct _CroIntakeReading
{
  CroIntake              *intake;
  CroBook                *book;
  CroModel               *model;
  const CroBrought       *brought;
  int                     at[CRO_N_INTAKE_COLUMNS];   /* the column of each; -1: none */
  int                     headings;
  guint                   next;         /* the row that is read next */
  int                     money;        /* the column that sales are read from; -1 */
  gboolean                is_month_first;
  GPtrArray              *months;       /* of the book, of which a document may come late; NULL of the others */
  GHashTable             *remembered;   /* name → how it was settled; of cro-intake-settled.c */
  GHashTable             *things;       /* folded name → what bears it */
  GHashTable             *items;        /* likewise, of what documents bill */
  GHashTable             *names;        /* name → index + 1 among names */
  gint64                  all_sold;     /* of all rows, without their signs: no part of them is more */
  gint64                  all_money;
};

/* What names of the book are, and were settled as. */
gboolean cro_intake_names_begin      (CroIntakeReading  *self,
                                      CroBook           *book,
                                      GError           **error);
void     cro_intake_names_end        (CroIntakeReading  *self);

/* The index of a name, which is settled where it can be. */
guint    cro_intake_name_at          (CroIntakeReading  *self,
                                      const char        *name);

/* The ingredient that a name is; CRO_NO_SLOT: none of the book, or of several. */
guint32  cro_intake_item_at          (CroIntakeReading  *self,
                                      const char        *name);

/* Reads a row below the headings into rows, or into bad; one without figures is passed over. */
void     cro_intake_read_row         (CroIntakeReading  *self,
                                      guint              index);

/* A kind of adjustment, or of what was bought, in the words of people: its index among codes; -1: none. */
int      cro_intake_adjustment_kind  (const char        *text);
int      cro_intake_purchase_kind    (const char        *text);

/* Whether it lacks a number sold, or a unit. */
gboolean cro_intake_row_is_unmeasured (const CroIntake    *intake,
                                       CroModel           *model,
                                       const CroIntakeRow *row);

/* What a row's name is: UNSETTLED and LEFT_OUT are not entered. */
static inline const CroIntakeName *
cro_intake_name_of (const CroIntake    *intake,
                    const CroIntakeRow *row)
{
  return row->name != CRO_INTAKE_NAMELESS ? &g_array_index (intake->names, CroIntakeName, row->name) : NULL;
}

static inline gboolean
cro_intake_row_is_entered (const CroIntake    *intake,
                           CroModel           *model,
                           const CroIntakeRow *row)
{
  const CroIntakeName *name = cro_intake_name_of (intake, row);

  return (name == NULL || name->state == CRO_INTAKE_THING || name->state == CRO_INTAKE_OTHER)
         && !cro_intake_row_is_unmeasured (intake, model, row);
}

/* A row that is left out, for a fault; text is copied. */
void     cro_intake_refuse           (CroIntake         *intake,
                                      GArray            *bad,
                                      guint              number,
                                      CroIntakeFault     fault,
                                      const char        *text);

/* Rows of the book that equal those of an intake. */
typedef struct
{
  const char         *table;
  const char *const  *columns;
  gsize               size;     /* of an entry */
  char             *(*dup_key_of_row) (CroRows       *rows);
  char             *(*dup_key)        (CroModel      *model,
                                       gconstpointer  entry);
} CroIntakeTable;

/* As many of equal entries as the book has go, *n_known of them. */
gboolean cro_intake_drop_known       (CroIntake            *self,
                                      const CroIntakeTable *table,
                                      CroBook              *book,
                                      GArray               *entries,
                                      guint                *n_known,
                                      GError              **error);

/* The entries of each kind; with_known: those that the book has too. NULL with error. */
GArray  *cro_intake_make_sales       (CroIntake         *self,
                                      CroBook           *book,
                                      gboolean           with_known,
                                      guint             *n_known,
                                      GError           **error);
GArray  *cro_intake_make_counts      (CroIntake         *self,
                                      CroBook           *book,
                                      gboolean           with_known,
                                      guint             *n_known,
                                      GError           **error);
GArray  *cro_intake_make_documents   (CroIntake         *self,
                                      CroBook           *book,
                                      gboolean           with_known,
                                      guint             *n_known,
                                      GError           **error);
GArray  *cro_intake_make_adjustments (CroIntake         *self,
                                      CroBook           *book,
                                      gboolean           with_known,
                                      guint             *n_known,
                                      GError           **error);

/* A day as it stands in a cell, and whether the month stands before the day in a column, of which rows are
 * of the days from first to last. */
gboolean cro_intake_day_read         (const char        *text,
                                      gboolean           is_month_first,
                                      CroDate           *date);
gboolean cro_intake_day_is_month_first (const CroBrought *brought,
                                      guint              first_row,
                                      guint              column,
                                      CroDate            first,
                                      CroDate            last);

G_END_DECLS
