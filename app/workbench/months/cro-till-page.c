#include "config.h"

#include "cro-till-page.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-spoken.h"
#include "cro-till-choices.h"
#include "cro-till-names.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Rows at fault shown at once. */
#define MOST_SHOWN 60

/* Sheets of a workbook that are looked into for one with sales. */
#define MOST_SHEETS 12

struct _CroTillPage
{
  GtkWidget       parent_instance;

  GtkWidget      *box;
  GtkWidget      *doing;        /* a spinner with its words, while a file is read */
  GtkWidget      *columns;      /* a choice for each */
  GtkWidget      *tax;          /* with or without; in sight where no column says */
  GtkWidget      *sign;         /* decimal sign; in sight where a number leaves it open */
  GtkWidget      *summary;
  GtkWidget      *names;
  GtkWidget      *bad;          /* rows left out */
  GtkWidget      *enter;
  GtkWidget      *replace;
  GtkWidget      *cancel;

  CroBench       *bench;        /* borrowed */
  CroDate         first;
  char           *title;        /* of the file */
  CroBrought     *brought;
  CroTillColumns  of;
  CroTill        *till;
  GCancellable   *work;
  gboolean        is_filling;
};

G_DEFINE_FINAL_TYPE (CroTillPage, cro_till_page, GTK_TYPE_WIDGET)

enum
{
  LEFT,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static CroBook *
book_of (CroTillPage *self)
{
  return cro_bench_get_book (self->bench);
}

static void
clear_box (GtkWidget *box)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (box)) != NULL;)
    gtk_box_remove (GTK_BOX (box), child);
}

/* --- What it says ------------------------------------------------------------------------------------- */

static char *
dup_bad (const CroTillBad *bad)
{
  g_autofree char *text = cro_isolate (bad->text);

  switch (bad->fault)
    {
    case CRO_TILL_NO_NAME:
      return g_strdup_printf (_("Row %u: no name"), bad->number);
    case CRO_TILL_NOT_A_NUMBER:
      return g_strdup_printf (_("Row %u: “%s” is not a number"), bad->number, text);
    case CRO_TILL_NOT_A_DAY:
      return g_strdup_printf (_("Row %u: “%s” is not a date"), bad->number, text);
    case CRO_TILL_TOO_LARGE:
      return g_strdup_printf (_("Row %u: “%s” is too large"), bad->number, text);
    case CRO_TILL_STRAY:
      /* Translators: the number of a row, and that of a character, as “U+202E”. */
      return g_strdup_printf (_("Row %u: the name contains the invisible character %s"), bad->number, bad->text);
    default:
      return g_strdup_printf (_("Row %u: %s is in another month"), bad->number, text);
    }
}

static void
show_bad (CroTillPage *self)
{
  guint n = self->till->bad->len;
  g_autofree char *heading = g_strdup_printf (ngettext ("%u row is left out", "%u rows are left out", n), n);

  clear_box (self->bad);
  if (n > 0)
    gtk_box_append (GTK_BOX (self->bad), cro_text_new (heading, "heading"));
  for (guint i = 0; i < MIN (n, MOST_SHOWN); i++)
    {
      g_autofree char *text = dup_bad (&g_array_index (self->till->bad, CroTillBad, i));

      gtk_box_append (GTK_BOX (self->bad), cro_text_new (text, NULL));
    }
}

static char *
dup_summary (CroTillPage *self,
             guint        n_entries,
             guint        n_known)
{
  guint waiting = cro_till_count_unsettled (self->till), uncounted = cro_till_count_uncounted (self->till);
  GString *text = g_string_new (self->title);

  if (!cro_till_columns_has (&self->of, CRO_TILL_NAME))
    {
      g_string_append_printf (text, " · %s", _("choose the column that holds the names"));
      return g_string_free (text, FALSE);
    }
  g_string_append (text, " · ");
  g_string_append_printf (text, ngettext ("%u row read", "%u rows read", self->till->n_rows), self->till->n_rows);
  g_string_append (text, " · ");
  g_string_append_printf (text, ngettext ("%u day", "%u days", self->till->n_days), self->till->n_days);
  g_string_append (text, " · ");
  /* Translators: rows are those of sales in the book. */
  g_string_append_printf (text, ngettext ("%u row to enter", "%u rows to enter", n_entries), n_entries);
  if (n_known > 0)
    {
      g_string_append (text, " · ");
      g_string_append_printf (text, ngettext ("%u is in the book already", "%u are in the book already", n_known),
                              n_known);
    }
  if (waiting > 0)
    {
      g_string_append (text, " · ");
      g_string_append_printf (text, ngettext ("%u name to settle", "%u names to settle", waiting), waiting);
    }
  if (uncounted > 0)
    {
      g_string_append (text, " · ");
      g_string_append_printf (text, ngettext ("%u row of a plate says no number sold",
                                              "%u rows of plates say no number sold", uncounted),
                              uncounted);
    }
  if (self->till->n_known_days > 0)
    {
      g_string_append (text, " · ");
      g_string_append_printf (text, ngettext ("%u of these days has sales already",
                                              "%u of these days have sales already", self->till->n_known_days),
                              self->till->n_known_days);
    }
  return g_string_free (text, FALSE);
}

static void
show_till (CroTillPage *self)
{
  g_autoptr (GArray) entries = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *summary = NULL, *label = NULL;
  guint n_known = 0, n, uncounted = cro_till_count_uncounted (self->till);
  guint waiting = cro_till_count_unsettled (self->till);

  entries = cro_till_entries (self->till, book_of (self), &n_known, &error);
  if (entries == NULL)
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  n = entries->len;
  summary = dup_summary (self, n, n_known);
  gtk_label_set_label (GTK_LABEL (self->summary), summary);
  label = g_strdup_printf (ngettext ("Enter %u Row", "Enter %u Rows", n), n);
  gtk_button_set_label (GTK_BUTTON (self->enter), label);
  gtk_widget_set_sensitive (self->enter, n > 0 && waiting == 0 && uncounted == 0);
  gtk_widget_set_visible (self->replace, self->till->n_known_days > 0);
  gtk_widget_set_sensitive (self->replace, waiting == 0 && uncounted == 0 && n + n_known > 0);
  show_bad (self);
}

/* --- Reading ------------------------------------------------------------------------------------------ */

static gboolean
is_with_tax (CroTillPage *self)
{
  return gtk_drop_down_get_selected (GTK_DROP_DOWN (self->tax)) == 1;
}

static gboolean
has_doubt (CroTillPage *self)
{
  for (guint row = (guint) (self->of.headings + 1); row < self->brought->rows->len; row++)
    for (guint i = 0; i < self->brought->n_columns; i++)
      {
        CroTillColumn what = self->of.of[i];

        if (what >= CRO_TILL_SOLD && what <= CRO_TILL_GROSS
            && cro_brought_is_doubtful (self->brought, cro_brought_get (self->brought, row, i), i))
          return TRUE;
      }
  return FALSE;
}

/* Reads the rows anew by what is chosen, and shows them. */
static void
understand (CroTillPage *self)
{
  guint sign = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->sign));
  g_autoptr (GError) error = NULL;
  CroTill *till;

  if (self->is_filling || self->brought == NULL)
    return;
  cro_brought_say_decimal (self->brought, sign == 1 ? '.' : sign == 2 ? ',' : '\0');
  till = cro_till_read (book_of (self), self->brought, &self->of, self->first, is_with_tax (self), &error);
  if (till == NULL)
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  cro_till_names_put (CRO_TILL_NAMES (self->names), till);
  g_clear_pointer (&self->till, cro_till_free);
  self->till = till;
  gtk_widget_set_visible (gtk_widget_get_parent (self->tax), cro_till_columns_ask_tax (&self->of));
  if (has_doubt (self))
    gtk_widget_set_visible (gtk_widget_get_parent (self->sign), TRUE);
  show_till (self);
}

/* The house says once whether its till has tax in its totals. */
static void
tax_chosen_cb (CroTillPage *self)
{
  static const char *const columns[] = { "till_with_tax", NULL };
  CroCell cell = CRO_CELL_INT (is_with_tax (self));
  g_autoptr (GError) error = NULL;

  if (self->is_filling)
    return;
  if (!cro_edit_set (book_of (self), _("book setting: till totals"), "book", 1, columns, &cell, &error))
    cro_bench_fail (self->bench, error);
  understand (self);
}

static void
show_tax (CroTillPage *self)
{
  static const char *const columns[] = { "till_with_tax", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book_of (self)), "book", 1, columns, NULL);
  gboolean with_tax = rows != NULL && cro_rows_next (rows, NULL) && !cro_rows_is_null (rows, 0)
                      && cro_rows_get_int (rows, 0) != 0;

  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->tax), with_tax ? 1 : 0);
}

/* To the first name that waits, or to what enters. */
static void
go_on_to (CroTillPage *self)
{
  if (!gtk_widget_grab_focus (self->names) && !gtk_widget_grab_focus (self->enter))
    gtk_widget_grab_focus (self->cancel);
}

static void
settled_cb (CroTillPage *self)
{
  show_till (self);
  if (cro_till_count_unsettled (self->till) == 0)
    go_on_to (self);
}

static void
take_brought (CroTillPage *self,
              CroBrought  *brought)
{
  gtk_widget_set_visible (self->doing, FALSE);
  self->is_filling = TRUE;
  cro_till_columns_find (brought, &self->of);
  show_tax (self);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->sign), 0);
  gtk_widget_set_visible (gtk_widget_get_parent (self->sign), FALSE);
  g_clear_pointer (&self->brought, cro_brought_free);
  self->brought = brought;
  cro_till_choices_put (CRO_TILL_CHOICES (self->columns), brought, &self->of);
  self->is_filling = FALSE;
  understand (self);
  go_on_to (self);
}

static void
leave (CroTillPage *self)
{
  g_cancellable_cancel (self->work);
  g_signal_emit (self, signals[LEFT], 0);
}

static void
refuse (CroTillPage  *self,
        const GError *error)
{
  g_autofree char *why = cro_words_error (error);

  cro_bench_say (self->bench, why);
  leave (self);
}

static gboolean
go_on (gpointer cancellable)
{
  return !g_cancellable_is_cancelled (cancellable);
}

/* The first sheet that has a column of names and one of figures; else the first. */
static CroBrought *
read_sheets (const char    *path,
             GCancellable  *cancellable,
             GError       **error)
{
  g_auto (GStrv) sheets = cro_spreadsheet_list (path, error);
  g_autoptr (CroBrought) first = NULL;

  for (guint i = 0; sheets != NULL && sheets[i] != NULL && i < MOST_SHEETS; i++)
    {
      g_autoptr (CroBrought) brought = cro_brought_new (path, i, go_on, cancellable, i == 0 ? error : NULL);
      CroTillColumns columns;

      if (brought == NULL && i == 0)
        return NULL;
      if (brought == NULL)
        continue;
      cro_till_columns_find (brought, &columns);
      if (columns.headings >= 0 && cro_till_columns_has (&columns, CRO_TILL_NAME))
        return g_steal_pointer (&brought);
      if (i == 0)
        first = g_steal_pointer (&brought);
    }
  return g_steal_pointer (&first);
}

static void
read_in_thread (GTask        *task,
                gpointer      page,
                gpointer      path,
                GCancellable *cancellable)
{
  GError *error = NULL;
  CroBrought *brought = read_sheets (path, cancellable, &error);

  if (brought != NULL)
    g_task_return_pointer (task, brought, (GDestroyNotify) cro_brought_free);
  else if (error != NULL)
    g_task_return_error (task, error);
  else
    g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_CANCELLED, "cancelled");
}

static void
read_cb (GObject      *source,
         GAsyncResult *result,
         gpointer      data)
{
  CroTillPage *self = CRO_TILL_PAGE (source);
  g_autoptr (GError) error = NULL;
  CroBrought *brought = g_task_propagate_pointer (G_TASK (result), &error);

  if (self->box == NULL || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    g_clear_pointer (&brought, cro_brought_free);
  else if (brought == NULL)
    refuse (self, error);
  else
    take_brought (self, brought);
}

void
cro_till_page_open (CroTillPage *self,
                    const char  *path)
{
  g_autoptr (GTask) task = NULL;

  g_cancellable_cancel (self->work);
  g_clear_object (&self->work);
  self->work = g_cancellable_new ();
  g_free (self->title);
  self->title = g_path_get_basename (path);
  gtk_widget_set_visible (self->doing, TRUE);
  task = g_task_new (self, self->work, read_cb, NULL);
  g_task_set_task_data (task, g_strdup (path), g_free);
  g_task_run_in_thread (task, read_in_thread);
}

/* What a clipboard holds is a small file of texts between tabs. */
void
cro_till_page_paste (CroTillPage *self,
                     const char  *text)
{
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;
  CroBrought *brought = NULL;
  int handle = g_file_open_tmp ("croustade-XXXXXX.csv", &path, &error);

  if (handle < 0)
    {
      refuse (self, error);
      return;
    }
  g_close (handle, NULL);
  if (g_file_set_contents (path, text, -1, &error))
    brought = cro_brought_new (path, 0, NULL, NULL, &error);
  g_unlink (path);
  if (brought == NULL)
    {
      refuse (self, error);
      return;
    }
  g_free (self->title);
  self->title = g_strdup (_("Pasted rows"));
  take_brought (self, brought);
}

/* --- Hands -------------------------------------------------------------------------------------------- */

static void
enter (CroTillPage *self,
       gboolean     replace)
{
  /* Translators: an entry of the history; %s is the name of a file. */
  g_autofree char *label = cro_isolate_printf (_("sales from %s"), self->title), *says = NULL;
  g_autoptr (GError) error = NULL;
  guint n = 0;

  if (self->till == NULL || !cro_till_enter (self->till, book_of (self), label, replace, &n, &error))
    {
      if (error != NULL)
        cro_bench_fail (self->bench, error);
      return;
    }
  says = g_strdup_printf (ngettext ("%u row of sales was entered", "%u rows of sales were entered", n), n);
  cro_bench_say (self->bench, says);
  leave (self);
}

static void
enter_cb (CroTillPage *self)
{
  enter (self, FALSE);
}

static void
replace_cb (CroTillPage *self)
{
  enter (self, TRUE);
}

static gboolean
escape_cb (GtkWidget *widget,
           GVariant  *arguments,
           gpointer   user_data)
{
  leave (CRO_TILL_PAGE (widget));
  return GDK_EVENT_STOP;
}

/* --- The widget --------------------------------------------------------------------------------------- */

static gboolean
cro_till_page_grab_focus (GtkWidget *widget)
{
  go_on_to (CRO_TILL_PAGE (widget));
  return TRUE;
}

static void
cro_till_page_dispose (GObject *object)
{
  CroTillPage *self = CRO_TILL_PAGE (object);

  g_cancellable_cancel (self->work);
  g_clear_object (&self->work);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->till, cro_till_free);
  g_clear_pointer (&self->brought, cro_brought_free);
  g_clear_pointer (&self->title, g_free);
  G_OBJECT_CLASS (cro_till_page_parent_class)->dispose (object);
}

static void
cro_till_page_class_init (CroTillPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_till_page_dispose;
  widget_class->grab_focus = cro_till_page_grab_focus;
  widget_class->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
  signals[LEFT] = g_signal_new ("left", CRO_TYPE_TILL_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
cro_till_page_init (CroTillPage *self)
{
  self->title = g_strdup ("");
}

static GtkWidget *
choice_new (CroTillPage       *self,
            const char        *name,
            const char *const *words,
            GCallback          chosen)
{
  GtkWidget *choice = gtk_drop_down_new_from_strings (words);

  cro_spoken_set (choice, name);
  g_signal_connect_object (choice, "notify::selected", chosen, self, G_CONNECT_SWAPPED);
  return choice;
}

static GtkWidget *
fields_new (CroTillPage *self)
{
  const char *const taxes[] = { _("without tax"), _("with tax"), NULL };
  const char *const signs[] = { C_("decimal sign", "not known"), C_("decimal sign", "point: 1.500 is one and a half"),
                                C_("decimal sign", "comma: 1,500 is one and a half"), NULL };
  GtkWidget *row = cro_field_row_new ();

  self->tax = choice_new (self, _("Till totals are"), taxes, G_CALLBACK (tax_chosen_cb));
  self->sign = choice_new (self, _("Decimal sign of unclear numbers"), signs, G_CALLBACK (understand));
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("Till totals are"), self->tax));
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("Decimal sign of unclear numbers"), self->sign));
  gtk_widget_set_visible (gtk_widget_get_parent (self->tax), FALSE);
  gtk_widget_set_visible (gtk_widget_get_parent (self->sign), FALSE);
  return row;
}

static GtkWidget *
buttons_new (CroTillPage *self)
{
  GtkWidget *wrap = cro_wrap_new (9, 6);

  self->enter = gtk_button_new_with_label (_("Enter"));
  self->replace = gtk_button_new_with_label (_("Replace Sales of These Days"));
  self->cancel = gtk_button_new_with_label (_("Cancel"));
  gtk_widget_add_css_class (self->enter, "suggested-action");
  gtk_widget_set_sensitive (self->enter, FALSE);
  gtk_widget_set_visible (self->replace, FALSE);
  g_signal_connect_object (self->enter, "clicked", G_CALLBACK (enter_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->replace, "clicked", G_CALLBACK (replace_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->cancel, "clicked", G_CALLBACK (leave), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (wrap), self->enter);
  cro_wrap_append (CRO_WRAP (wrap), self->replace);
  cro_wrap_append (CRO_WRAP (wrap), self->cancel);
  return wrap;
}

static GtkWidget *
doing_new (CroTillPage *self)
{
  GtkWidget *spinner = gtk_spinner_new ();

  self->doing = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  gtk_spinner_start (GTK_SPINNER (spinner));
  gtk_box_append (GTK_BOX (self->doing), spinner);
  gtk_box_append (GTK_BOX (self->doing), gtk_label_new (_("Reading the spreadsheet…")));
  gtk_widget_set_visible (self->doing, FALSE);
  return self->doing;
}

GtkWidget *
cro_till_page_new (CroBench *bench,
                   CroDate   first)
{
  CroTillPage *self = g_object_new (CRO_TYPE_TILL_PAGE, NULL);
  GtkWidget *parts[8];
  guint n = 0;

  self->bench = bench;
  self->first = first;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_add_css_class (self->box, "part");
  self->summary = cro_text_new ("", NULL);
  self->columns = cro_till_choices_new ();
  g_signal_connect_object (self->columns, "chosen", G_CALLBACK (understand), self, G_CONNECT_SWAPPED);
  self->names = cro_till_names_new (bench);
  g_signal_connect_object (self->names, "settled", G_CALLBACK (settled_cb), self, G_CONNECT_SWAPPED);
  self->bad = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  parts[n++] = doing_new (self);
  parts[n++] = self->summary;
  parts[n++] = self->columns;
  parts[n++] = fields_new (self);
  parts[n++] = buttons_new (self);
  parts[n++] = self->names;
  parts[n++] = self->bad;
  for (guint i = 0; i < n; i++)
    gtk_box_append (GTK_BOX (self->box), parts[i]);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
