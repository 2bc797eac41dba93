#include "cro-office-sheet.h"

#include <math.h>

void
cro_office_sheet_init (CroOfficeSheet *self,
                       const char     *name,
                       const char     *title,
                       const char     *about)
{
  *self = (CroOfficeSheet){
    .sheet = { .name = name, .title = title, .about = about },
    .columns = g_array_new (FALSE, FALSE, sizeof (CroWorkbookColumn)),
    .looks = g_array_new (FALSE, FALSE, sizeof (CroWorkbookRowLook)),
    .cells = g_array_new (FALSE, FALSE, sizeof (CroWorkbookCell)),
    .texts = g_string_chunk_new (1024),
  };
}

void
cro_office_sheet_clear (CroOfficeSheet *self)
{
  g_array_unref (self->columns);
  g_array_unref (self->looks);
  g_array_unref (self->cells);
  g_string_chunk_free (self->texts);
}

void
cro_office_sheet_column (CroOfficeSheet        *self,
                         const char            *head,
                         CroWorkbookColumnKind  kind)
{
  CroWorkbookColumn column = { head, kind };

  g_array_append_val (self->columns, column);
}

void
cro_office_sheet_row (CroOfficeSheet     *self,
                      CroWorkbookRowLook  look)
{
  CroWorkbookCell empty = { NULL, NAN, NULL, CRO_WORKBOOK_WHOLE };

  g_array_append_val (self->looks, look);
  for (guint i = 0; i < self->columns->len; i++)
    g_array_append_val (self->cells, empty);
  self->at = 0;
}

static CroWorkbookCell *
next_cell (CroOfficeSheet *self)
{
  guint first = (self->looks->len - 1) * self->columns->len;

  g_assert (self->at < self->columns->len);
  return &g_array_index (self->cells, CroWorkbookCell, first + self->at++);
}

void
cro_office_sheet_skip (CroOfficeSheet *self)
{
  next_cell (self);
}

void
cro_office_sheet_text (CroOfficeSheet *self,
                       const char     *text)
{
  next_cell (self)->text = text;
}

void
cro_office_sheet_take (CroOfficeSheet *self,
                       char           *text)
{
  next_cell (self)->text = text != NULL ? g_string_chunk_insert (self->texts, text) : NULL;
  g_free (text);
}

void
cro_office_sheet_number (CroOfficeSheet *self,
                         double          value,
                         CroKnown        known)
{
  CroWorkbookCell *cell = next_cell (self);

  cell->value = value;
  cell->known = cro_office_known (known);
}

void
cro_office_sheet_formula (CroOfficeSheet *self,
                          const char     *formula,
                          double          value,
                          CroKnown        known)
{
  CroWorkbookCell *cell = next_cell (self);

  cell->formula = g_string_chunk_insert_const (self->texts, formula);
  cell->value = value;
  cell->known = cro_office_known (known);
}

guint32
cro_office_sheet_at (const CroOfficeSheet *self)
{
  return CRO_WORKBOOK_REPORT_ROW + self->looks->len - 1;
}

void
cro_office_sheet_sum (CroOfficeSheet *self,
                      guint32         first,
                      double          value,
                      CroKnown        known)
{
  char column = (char) ('A' + self->at);
  g_autofree char *formula = g_strdup_printf ("=SUM(%c%u:%c%u)", column, first, column,
                                              cro_office_sheet_at (self) - 1);

  cro_office_sheet_formula (self, formula, value, known);
}

const CroWorkbookSheet *
cro_office_sheet_end (CroOfficeSheet *self)
{
  self->sheet.columns = (const CroWorkbookColumn *) (gpointer) self->columns->data;
  self->sheet.n_columns = self->columns->len;
  self->sheet.looks = (const CroWorkbookRowLook *) (gpointer) self->looks->data;
  self->sheet.cells = (const CroWorkbookCell *) (gpointer) self->cells->data;
  self->sheet.n_rows = self->looks->len;
  return &self->sheet;
}

CroWorkbookKnown
cro_office_known (CroKnown known)
{
  switch (known)
    {
    case CRO_KNOWN_WHOLE:
      return CRO_WORKBOOK_WHOLE;
    case CRO_KNOWN_AT_LEAST:
      return CRO_WORKBOOK_AT_LEAST;
    case CRO_KNOWN_AT_MOST:
      return CRO_WORKBOOK_AT_MOST;
    case CRO_KNOWN_IN_PART:
      return CRO_WORKBOOK_INCOMPLETE;
    default:
      return CRO_WORKBOOK_UNKNOWN;
    }
}
