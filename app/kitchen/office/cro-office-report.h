/* cro-office-report.h: a month as the sheets of a report, and what the files share that make it.
 *
 * What is shown is rounded so that parts add up to what they are parts of (costing.md, section 12); sums are
 * formulas over what is shown. */
#pragma once

#include "cro-month-rounded.h"
#include "cro-office-journal.h"
#include "cro-office-private.h"
#include "cro-office-sheet.h"

G_BEGIN_DECLS

#define CRO_OFFICE_MOST_SHEETS 16

typedef struct
{
  const CroMonth   *month;
  const CroMonth   *before;      /* the month before, if that is closed; NULL */
  CroModel         *model;
  CroMonthMinor     minor;
  CroMonthRounded  *rounded;     /* the same, and its rows */
  int               digits;
  CroOfficeSheet    sheets[CRO_OFFICE_MOST_SHEETS];
  guint             n_sheets;
  GArray           *ties;        /* CroWorkbookTie */
  GPtrArray        *texts;       /* owned */
  GPtrArray        *notes;       /* const char * */
  CroWorkbookSheet *all;
  CroWorkbookReport report;
} CroOfficeReport;

/* In this thread's language. The office is that of the book; accounts may be NULL. */
void     cro_office_report_init   (CroOfficeReport   *self,
                                   CroOffice         *office,
                                   const CroMonth    *month,
                                   const CroMonth    *before,
                                   GHashTable        *accounts);
void     cro_office_report_clear  (CroOfficeReport   *self);

/* A new sheet, to be filled before the next is begun. */
CroOfficeSheet *cro_office_report_sheet (CroOfficeReport *self,
                                   const char        *name,
                                   const char        *title,
                                   const char        *about);

/* Kept until the workbook is written. */
const char *cro_office_report_keep (CroOfficeReport  *self,
                                   char              *text);

/* The last sheet's cell, as a control total. */
void     cro_office_report_tie    (CroOfficeReport   *self,
                                   const char        *what,
                                   char               column,
                                   guint32            row,
                                   double             value,
                                   double             other);

/* Minor units as money. */
double   cro_office_report_money  (const CroOfficeReport *self,
                                   gint64             minor);

/* Minor units. */
gint64   cro_office_sum           (const gint64      *minor,
                                   guint              n);

/* Parts of a total as they are shown. To be freed. */
gint64  *cro_office_report_parts  (const CroOfficeReport *self,
                                   gint64             total,
                                   const double      *parts,
                                   guint              n);

/* The sheets, in their order. */
void     cro_office_add_statement (CroOfficeReport   *self);
void     cro_office_add_questions (CroOfficeReport   *self);
void     cro_office_add_plates    (CroOfficeReport   *self);
void     cro_office_add_mix       (CroOfficeReport   *self);
void     cro_office_add_items     (CroOfficeReport   *self);
void     cro_office_add_variances (CroOfficeReport   *self);
void     cro_office_add_groups    (CroOfficeReport   *self);
void     cro_office_add_purchases (CroOfficeReport   *self);
void     cro_office_add_counts    (CroOfficeReport   *self);
void     cro_office_add_adjusted  (CroOfficeReport   *self);
void     cro_office_add_movements (CroOfficeReport   *self,
                                   CroOffice         *office);
void     cro_office_add_journal   (CroOfficeReport   *self,
                                   GHashTable        *accounts);

G_END_DECLS
