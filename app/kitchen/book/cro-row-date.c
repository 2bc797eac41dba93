#include "cro-row-date.h"

#include <string.h>

#include "cro-figures.h"

CroDate
cro_text_to_date (const char *text)
{
  CroDate date;

  return text != NULL && cro_date_parse (text, strlen (text), &date) ? date : CRO_NO_DAY;
}

CroDate
cro_row_date (CroRows *rows,
              int      column)
{
  return cro_text_to_date (cro_rows_get_text (rows, column));
}
