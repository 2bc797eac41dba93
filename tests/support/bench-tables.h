/* Tables of Market and Months on their benches: their rows, cells and forms. */
#pragma once

#include "bench-hands.h"

#include "cro-pack-form.h"
#include "cro-rate-form.h"
#include "cro-records-view.h"
#include "cro-supplier-form.h"

static inline void
click (GtkWidget *button)
{
  g_signal_emit_by_name (button, "clicked");
  cro_test_settle ();
}

/* A field of the form below the table, whose headings have the same names. */
static inline GtkWidget *
field (CroTestBench *test,
       const char   *name)
{
  GType forms[] = { CRO_TYPE_SUPPLIER_FORM, CRO_TYPE_PACK_FORM, CRO_TYPE_RATE_FORM };

  for (gsize i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      GtkWidget *form = cro_test_find_type (GTK_WIDGET (test->bench), forms[i]);

      if (form != NULL)
        return cro_test_find_named (form, name);
    }
  fail_msg ("there is no form");
  return NULL;
}

static inline GtkWidget *
button (CroTestBench *test,
        const char   *label)
{
  return gtk_widget_get_ancestor (cro_test_find_shown (GTK_WIDGET (test->bench), label), GTK_TYPE_BUTTON);
}

static inline CroRecordsView *
table_of (CroTestBench *test)
{
  return CRO_RECORDS_VIEW (cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_RECORDS_VIEW));
}

static inline char *
cell (CroTestBench *test,
      guint         row,
      guint         column)
{
  g_autoptr (CroRecord) record = g_list_model_get_item (
      G_LIST_MODEL (cro_records_view_get_records (table_of (test))), row);

  assert_non_null (record);
  return cro_record_dup_text (record, column);
}

/* Selects the row whose first column is text. */
static inline void
choose_row (CroTestBench *test,
            const char   *text)
{
  GListModel *rows = G_LIST_MODEL (cro_records_view_get_records (table_of (test)));

  for (guint i = 0; i < g_list_model_get_n_items (rows); i++)
    {
      g_autofree char *first = cell (test, i, 0);
      g_autoptr (CroRecord) record = g_list_model_get_item (rows, i);

      if (strcmp (first, text) != 0)
        continue;
      cro_records_view_select (table_of (test), record);
      cro_test_settle ();
      return;
    }
  fail_msg ("no row of %s", text);
}

static inline void
assert_chosen (CroTestBench *test,
               const char   *text)
{
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (table_of (test));
  g_autofree char *first = cro_record_dup_text (record, 0);

  assert_string_equal (first, text);
}
