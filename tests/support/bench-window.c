#include "support/bench-window.h"

#include "support/statements.h"

/* The last day of the demo's prices. */
#define DAY 20782 /* 2026-11-25 */

void
cro_test_bench_init (void)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  adw_init ();
  /* What is pressed here twice is two presses. */
  g_object_set (gtk_settings_get_default (), "gtk-double-click-time", 0, NULL);
  cro_test_statements_watch ();
  cro_test_widgets_watch ();
}

static void
say_cb (CroBench   *bench,
        const char *text,
        GString    *said)
{
  g_string_append_printf (said, "%s\n", text);
}

void
cro_test_bench_open (CroTestBench *test)
{
  GError *error = NULL;

  *test = (CroTestBench){ .folder = cro_test_folder_new (), .said = g_string_new (NULL) };
  cro_test_put_demo (test->folder.path, "cook");
  test->book = cro_book_open (test->folder.path, "cook", CRO_STORE_WRITE, DAY, &error);
  cro_test_must (test->book != NULL, error);
}

void
cro_test_bench_show (CroTestBench *test,
                     GType         type,
                     CroRef        ref)
{
  test->window = adw_window_new ();
  test->bench = g_object_new (type, NULL);
  g_signal_connect (test->bench, "say", G_CALLBACK (say_cb), test->said);
  cro_bench_set_book (test->bench, test->book);
  adw_window_set_content (ADW_WINDOW (test->window), GTK_WIDGET (test->bench));
  cro_bench_put (test->bench, ref.slot);
  gtk_window_set_default_size (GTK_WINDOW (test->window), 1200, 800);
  gtk_window_present (GTK_WINDOW (test->window));
  cro_test_see (test->window);
}

void
cro_test_bench_close (CroTestBench *test)
{
  if (test->bench != NULL)
    {
      gtk_window_destroy (GTK_WINDOW (test->window));
      cro_test_widgets_gone ();
      cro_test_settle ();
    }
  g_assert_finalize_object (test->book);
  cro_test_folder_clear (&test->folder);
  g_string_free (test->said, TRUE);
}

CroRef
cro_test_find_ref (CroTestBench *test,
                   CroNames      names,
                   const char   *name)
{
  CroRef ref = cro_edit_find_name (cro_book_get_model (test->book), names, name);

  if (ref.kind == CRO_REF_NONE)
    fail_msg ("the demo holds no %s", name);
  return ref;
}

/* --- Finding ---------------------------------------------------------------------------------- */

static gboolean
is_named (GtkWidget  *widget,
          const char *name)
{
  g_autofree char *other = NULL;

  /* The text of a button that has no name of its own: newer toolkits tell of it as a relation. */
  if (GTK_IS_BUTTON (widget) && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), name) == 0)
    return TRUE;
  /* A caption is no control. */
  if (GTK_IS_LABEL (widget)
      || !gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL))
    return FALSE;
  other = gtk_test_accessible_check_property (GTK_ACCESSIBLE (widget),
                                              GTK_ACCESSIBLE_PROPERTY_LABEL, name);
  return other == NULL;
}

static GtkWidget *
find_named (GtkWidget  *widget,
            const char *name)
{
  GtkWidget *found = gtk_widget_get_mapped (widget) && is_named (widget, name) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_named (child, name);
  return found;
}

GtkWidget *
cro_test_find_named (GtkWidget  *widget,
                     const char *name)
{
  GtkWidget *found;

  cro_test_wait_until ((found = find_named (widget, name)) != NULL, "nothing is named %s", name);
  return found;
}

/* --- Hands ------------------------------------------------------------------------------------ */

void
cro_test_type (GtkWidget  *entry,
               const char *text)
{
  gtk_widget_grab_focus (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  cro_test_settle ();
}

void
cro_test_enter (GtkWidget *entry)
{
  g_signal_emit_by_name (entry, "activate");
  cro_test_settle ();
}

char *
cro_test_stored (CroTestBench *test,
                 const char   *table,
                 gint64        id,
                 const char   *column)
{
  const char *columns[] = { column, NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (test->book), table, id,
                                                 columns, NULL);

  if (rows == NULL || !cro_rows_next (rows, NULL) || cro_rows_is_null (rows, 0))
    return NULL;
  return g_strdup (cro_rows_get_text (rows, 0));
}
