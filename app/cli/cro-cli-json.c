#include "cro-cli-json.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>

#include "cro-month-frozen.h"
#include "cro-unit.h"

void
cro_cli_json_number (CroJson    *json,
                     const char *name,
                     double      value)
{
  cro_json_number (json, name, value, !isnan (value));
}

void
cro_cli_json_known (CroJson    *json,
                    const char *name,
                    CroKnown    known)
{
  cro_json_text (json, name, cro_month_known_codes[known]);
}

void
cro_cli_json_day (CroJson    *json,
                  const char *name,
                  CroDate     day)
{
  char text[CRO_DATE_CHARS];

  cro_date_format (day, text);
  cro_json_text (json, name, text);
}

void
cro_cli_json_names (CroJson    *json,
                    const char *name,
                    GPtrArray  *names)
{
  cro_json_begin_array (json, name);
  for (guint i = 0; i < names->len; i++)
    cro_json_text (json, NULL, names->pdata[i]);
  cro_json_end_array (json);
}

void
cro_cli_json_range (CroJson *json,
                    double   cheapest,
                    double   dearest)
{
  if (isnan (cheapest))
    {
      cro_json_text (json, "range", NULL);
      return;
    }
  cro_json_begin_object (json, "range");
  cro_cli_json_number (json, "from", cheapest);
  cro_cli_json_number (json, "to", dearest);
  cro_json_end_object (json);
}

void
cro_cli_json_causes (CroJson *json,
                     GArray  *causes)
{
  cro_json_begin_array (json, "missing");
  for (guint i = 0; i < causes->len; i++)
    {
      g_autofree char *text = cro_cause_to_text (&g_array_index (causes, CroCause, i));

      cro_json_text (json, NULL, text);
    }
  cro_json_end_array (json);
}

void
cro_cli_json_base (CroJson  *json,
                   CroModel *model,
                   guint32   item)
{
  CroUnit unit = cro_base_unit ((CroBase) model->measures[item].base);

  cro_json_text (json, "unit", cro_unit_get (unit)->code);
}

gboolean
cro_cli_json_print (CroJson  *json,
                    GError  **error)
{
  g_autofree char *text = cro_json_print (json, error);

  if (text == NULL)
    return FALSE;
  if (fputs (text, stdout) >= 0 && fflush (stdout) == 0)
    return TRUE;
  g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (errno), g_strerror (errno));
  return FALSE;
}
