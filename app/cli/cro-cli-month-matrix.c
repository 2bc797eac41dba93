#include "config.h"

#include "cro-cli-month.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-cli-grid.h"
#include "cro-cli-json.h"
#include "cro-month-matrix-words.h"
#include "cro-month-words.h"

static void
add_matrix (CroJson              *json,
            const char           *name,
            const CroMonthMatrix *matrix)
{
  cro_json_begin_object (json, name);
  cro_cli_json_number (json, "sold_from", matrix->rows->len > 0 ? matrix->limits.sold : NAN);
  cro_cli_json_number (json, "contribution_from",
                       matrix->rows->len > 0 ? matrix->limits.contribution : NAN);
  cro_json_begin_array (json, "rows");
  for (guint i = 0; i < matrix->rows->len; i++)
    {
      const CroMonthMatrixRow *row = &g_array_index (matrix->rows, CroMonthMatrixRow, i);

      cro_json_begin_object (json, NULL);
      cro_json_text (json, "name", row->thing->name);
      cro_cli_json_number (json, "sold", row->thing->sold);
      cro_cli_json_number (json, "share_pct", row->share_pct);
      cro_cli_json_number (json, "contribution", row->contribution);
      cro_json_text (json, "class", cro_month_matrix_class (row));
      cro_json_boolean (json, "class_is_certain", !row->is_open);
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
  cro_json_end_object (json);
}

void
cro_cli_add_matrix_json (CroJson        *json,
                         const CroMonth *month)
{
  g_autoptr (CroMonthMatrix) plates = cro_month_matrix_new (month, CRO_MONTH_PLATE);
  g_autoptr (CroMonthMatrix) menus = cro_month_matrix_new (month, CRO_MONTH_MENU);

  cro_json_begin_object (json, "matrix");
  add_matrix (json, "plates", plates);
  add_matrix (json, "menus", menus);
  cro_json_end_object (json);
}

static void
print_matrix (CroModel             *model,
              const CroMonthMatrix *matrix,
              CroMonthThingKind     kind)
{
  g_autoptr (CroMonthTable) table = cro_month_matrix_table (model, matrix, kind);

  if (table == NULL)
    return;
  cro_cli_print_table (table);
  cro_cli_print_notes (table);
  g_print ("\n");
}

void
cro_cli_print_matrix (CroBook        *book,
                      const CroMonth *month)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (CroMonthMatrix) plates = cro_month_matrix_new (month, CRO_MONTH_PLATE);
  g_autoptr (CroMonthMatrix) menus = cro_month_matrix_new (month, CRO_MONTH_MENU);
  g_autofree char *text = cro_month_to_text (month->first);
  g_autofree char *altered = cro_month_altered_words (month);

  cro_cli_print_wrapped (text, 0);
  if (altered != NULL)
    cro_cli_print_wrapped (altered, 0);
  g_print ("\n");
  if (plates->rows->len + menus->rows->len == 0)
    {
      cro_cli_print_wrapped (_("No plate or menu was sold with net sales of its own."), 0);
      return;
    }
  print_matrix (model, plates, CRO_MONTH_PLATE);
  print_matrix (model, menus, CRO_MONTH_MENU);
  cro_cli_print_wrapped (cro_month_matrix_source (), 0);
}
