#include "config.h"

#include "cro-target-input.h"

#include <string.h>

#include "cro-result-words.h"

char *
cro_target_input_dup_text (CroInput *input,
                           gpointer  owner)
{
  CroBook *book = cro_input_get_book (input);
  const char *columns[] = { cro_input_get_column (input), NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book),
                                                 cro_input_get_table (input),
                                                 cro_input_get_id (input), columns, NULL);

  if (rows == NULL || !cro_rows_next (rows, NULL) || cro_rows_is_null (rows, 0))
    return g_strdup ("");
  return cro_words_target_text (cro_book_get_model (book), cro_rows_get_int (rows, 0));
}

char *
cro_target_input_read (CroInput    *input,
                       const char  *text,
                       CroCell     *cell,
                       char       **understood,
                       gpointer     owner)
{
  g_auto (CroEntry) entry = { 0 };
  char *reason = cro_words_target_read (cro_book_get_model (cro_input_get_book (input)), text, &entry);

  if (entry.status == CRO_ENTRY_OK)
    *cell = CRO_CELL_INT (entry.micro);
  *understood = g_steal_pointer (&entry.understood);
  return reason;
}

GtkWidget *
cro_target_input_new (void)
{
  static const CroInputWay way = { .dup_text = cro_target_input_dup_text };
  GtkWidget *input = cro_input_new (CRO_INPUT_PCT, CRO_RANGE_PART_PCT, "");

  cro_input_set_way (CRO_INPUT (input), &way, NULL);
  cro_input_set_read (CRO_INPUT (input), cro_target_input_read);
  return input;
}

static void
say (GtkLabel   *label,
     const char *text)
{
  if (label == NULL)
    return;
  gtk_label_set_label (label, text);
  gtk_widget_set_visible (GTK_WIDGET (label), *text != '\0');
}

void
cro_target_input_say (CroInput *input,
                      CroModel *model,
                      GtkLabel *before,
                      GtkLabel *behind)
{
  g_autofree char *target = cro_words_target_text (model, model->target);

  cro_input_set_name (input, cro_words_target_title (model));
  cro_input_set_placeholder (input, target);
  say (before, behind != NULL ? cro_words_target_before (model) : cro_words_target_title (model));
  say (behind, cro_words_target_behind (model));
}
