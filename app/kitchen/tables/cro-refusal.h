/* cro-refusal.h: whether values may be written, by the same columns that tables are read by.
 *
 * A person's edit is held to what a folder of tables is held to, before it reaches the store: its
 * rules would refuse it too, but could not say why.
 *
 * Units      Decimals in millionths.
 * Errors     CRO_REFUSAL with a CroFaultKind as its code, and what cro_refusal_get says. */
#pragma once

#include "cro-fault.h"
#include "cro-store.h"

G_BEGIN_DECLS

#define CRO_REFUSAL (cro_refusal_quark ())

GQuark      cro_refusal_quark (void);

/* Sets the error; returns FALSE. detail may be NULL. */
gboolean    cro_refuse        (CroFaultKind        kind,
                               const char         *value,
                               const char         *detail,
                               GError            **error);

/* value and detail are those of the fault, "" where it has none; a decimal is written as tables
 * write it. Borrowed from the error. */
void        cro_refusal_get   (const GError       *error,
                               const char        **value,
                               const char        **detail);

/* Cells as they are kept. */
typedef struct
{
  CroCell   *cells;
  GPtrArray *texts;
} CroTidyCells;

void        cro_tidy_cells_clear (CroTidyCells    *self);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CroTidyCells, cro_tidy_cells_clear)

/* Cells of one row with their names tidied (cro-name.h); FALSE where one is refused. columns is
 * NULL-terminated. A column or table that no folder has is let through. */
gboolean    cro_tidy_cells    (const char         *table,
                               const char *const  *columns,
                               const CroCell      *cells,
                               CroTidyCells       *tidy,
                               GError            **error);

/* A name alone, as it is kept: owned, or NULL where it is refused. */
char       *cro_tidy_name     (const char         *name,
                               GError            **error);

G_END_DECLS
