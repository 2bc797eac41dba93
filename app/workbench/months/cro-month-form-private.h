/* cro-month-form-private.h: what the fields of each kind of row share. */
#pragma once

#include "cro-entry-form.h"
#include "cro-entry.h"
#include "cro-finder.h"
#include "cro-month-edit.h"
#include "cro-month-form.h"

G_BEGIN_DECLS

#define CRO_MONTH_FORM_MOST 9

/* What a kind of row is, and how it is entered. */
typedef struct
{
  const char *table;        /* of the store */
  guint       n_stay;       /* first entries that stay for the next row */

  void     (*build)       (CroMonthForm *self);

  /* The row of that id into the fields; whether it is there. */
  gboolean (*show)        (CroMonthForm *self, gint64 id);

  /* One act of what stands in the fields. FALSE without an error: a field refused it. */
  gboolean (*keep)        (CroMonthForm *self, GError **error);

  /* What the fields come to, as they stand; owned, NULL: nothing yet. */
  char    *(*dup_meaning) (CroMonthForm *self);

  /* The rows of the table that one of the list stands for; NULL: that row alone. */
  GArray  *(*list_rows)   (CroMonthForm *self, gint64 id);

  char    *(*dup_removal) (void);   /* the label of that act */
} CroMonthFields;

extern const CroMonthFields cro_sale_fields;
extern const CroMonthFields cro_revenue_fields;
extern const CroMonthFields cro_document_fields;
extern const CroMonthFields cro_line_fields;
extern const CroMonthFields cro_adjustment_fields;

struct _CroMonthForm
{
  GtkWidget             parent_instance;

  GtkWidget            *box;
  CroEntryForm         *form;
  GtkWidget            *entries[CRO_MONTH_FORM_MOST];  /* in their order; the first is the day */
  guint                 n_entries;
  GtkWidget            *choice;     /* NULL: it has none */
  GtkWidget            *meaning;
  GtkWidget            *put_back;   /* what was given up by Escape … */
  GtkWidget            *room;       /* … where there is such, else nothing in as much height */

  CroBench             *bench;      /* borrowed */
  const CroMonthFields *fields;
  CroDate               first;      /* of the month */
  CroDate               last;
  gint64                id;         /* of the row that is changed; 0: a new one */
  int                   at;         /* the entry that has the focus; -1: none */
  char                 *entered;    /* what stood in it when the focus came; NULL */
  GStrv                 given_up;   /* texts of the entries; NULL: nothing was */
  gint64                given_up_id;
};

/* An entry; its accessible name is its caption. */
GtkWidget  *cro_month_form_add     (CroMonthForm  *self,
                                    const char    *caption,
                                    int            width,
                                    const char    *placeholder);

CroBook    *cro_month_form_book    (CroMonthForm  *self);
const char *cro_month_form_text    (CroMonthForm  *self,
                                    guint          entry);
gboolean    cro_month_form_is_set  (CroMonthForm  *self,
                                    guint          entry);
void        cro_month_form_put     (CroMonthForm  *self,
                                    guint          entry,
                                    const char    *text);
/* Of a row of the store. */
void        cro_month_form_put_day (CroMonthForm  *self,
                                    guint          entry,
                                    CroRows       *rows,
                                    int            column);
void        cro_month_form_put_number (CroMonthForm *self,
                                    guint          entry,
                                    CroRows       *rows,
                                    int            column);

/* An amount, and its unit in the column behind it. */
void        cro_month_form_put_amount (CroMonthForm *self,
                                    guint          entry,
                                    CroRows       *rows,
                                    int            column);

/* Says under an entry why nothing was made, and goes there. Returns FALSE. */
gboolean    cro_month_form_refuse  (CroMonthForm  *self,
                                    guint          entry,
                                    const char    *reason);

/* Days that an entry takes. */
typedef enum
{
  CRO_MONTH_DAYS_OF_MONTH,
  CRO_MONTH_DAYS_OR_LATE,     /* those of closed months before it too */
  CRO_MONTH_DAYS_ALL,
} CroMonthDays;

/* A day of the month, "12" being its twelfth; empty: its last. Others are refused where they are not taken. */
gboolean    cro_month_form_day     (CroMonthForm  *self,
                                    guint          entry,
                                    CroMonthDays   days,
                                    CroDate       *day,
                                    gboolean       is_asked);

/* Whether a day is of a closed month before this one. */
gboolean    cro_month_form_is_late (CroMonthForm  *self,
                                    CroDate        day);

/* CRO_NOT_SET where it is empty. is_asked: what cannot be read is refused; otherwise FALSE is all. */
gboolean    cro_month_form_number  (CroMonthForm  *self,
                                    guint          entry,
                                    CroRange       range,
                                    gint64        *number,
                                    gboolean       is_asked);
gboolean    cro_month_form_money   (CroMonthForm  *self,
                                    guint          entry,
                                    CroRange       range,
                                    gint64        *money,
                                    gboolean       is_asked);

/* An amount of an item, CRO_NO_SLOT of none, in the unit that is typed or the item's base. */
gboolean    cro_month_form_amount  (CroMonthForm  *self,
                                    guint          entry,
                                    guint32        item,
                                    CroRange       range,
                                    gint64        *amount,
                                    CroUnit       *unit,
                                    gboolean       is_asked);

/* What a text names in the book, whole or in part; FALSE: nothing. kinds: bits 1 << CroKind. */
gboolean    cro_month_form_find    (CroMonthForm  *self,
                                    const char    *text,
                                    guint          kinds,
                                    CroFound      *found);

/* The row of the table; NULL where it is gone. */
CroRows    *cro_month_form_read    (CroMonthForm       *self,
                                    gint64              id,
                                    const char *const  *columns);

G_END_DECLS
