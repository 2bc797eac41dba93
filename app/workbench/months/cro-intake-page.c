#include "config.h"

#include "cro-intake-page.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-drop-down.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-intake-choices.h"
#include "cro-intake-names.h"
#include "cro-intake-open.h"
#include "cro-intake-words.h"
#include "cro-refused-words.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Rows at fault shown at once. */
#define MOST_SHOWN 60

/* Rows that are understood before anything else is shown or answered. */
#define ROWS_AT_ONCE 1000

struct _CroIntakePage
{
  GtkWidget parent_instance;

  GtkWidget *box;
  GtkWidget *doing;   /* a spinner with its words, while a file is read */
  GtkWidget *columns; /* a choice for each */
  GtkWidget *tax;     /* with or without; in sight where no column says */
  GtkWidget *sign;    /* decimal sign; in sight where a number leaves it open */
  GtkWidget *summary;
  GtkWidget *names;
  GtkWidget *bad; /* rows left out */
  GtkWidget *enter;
  GtkWidget *replace;
  GtkWidget *cancel;

  CroBench *bench; /* borrowed */
  CroIntakeKind kind;
  CroDate first;
  CroDate last;
  char *title; /* of the file */
  gboolean is_pasted; /* and of none */
  CroBrought *brought;
  CroIntakeColumns of;
  CroIntake *intake;
  CroIntakeReading *reading; /* of more rows than are read at once; NULL */
  guint64 reading_at;        /* the edition of the book that it began with */
  guint piece;               /* source */
  gboolean goes_on;          /* what was read is new: the focus goes to what it asks */
  GCancellable *work;
  gboolean is_filling;
};

G_DEFINE_FINAL_TYPE (CroIntakePage, cro_intake_page, GTK_TYPE_WIDGET)

enum
{
  ENTERED,
  LEFT,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static CroBook *
book_of (CroIntakePage *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- What it says ----------------------------------------------------------------------------------- */

static void
append_bad (GtkWidget    *box,
            CroIntakeKind kind,
            GArray       *bad,
            guint         most)
{
  for (guint i = 0; i < MIN (bad->len, most); i++)
    {
      g_autofree char *text = cro_words_intake_bad (kind, &g_array_index (bad, CroIntakeBad, i));

      gtk_box_append (GTK_BOX (box), cro_text_new (text, NULL));
    }
}

static void
show_bad (CroIntakePage *self)
{
  guint n = self->intake->bad->len + self->intake->clashing->len;
  g_autofree char *heading
      = g_strdup_printf (ngettext ("%u row is left out", "%u rows are left out", n), n);

  cro_box_clear (self->bad);
  if (n > 0)
    gtk_box_append (GTK_BOX (self->bad), cro_text_new (heading, "heading"));
  append_bad (self->bad, self->kind, self->intake->clashing, MOST_SHOWN);
  append_bad (self->bad, self->kind, self->intake->bad,
              MOST_SHOWN - MIN (self->intake->clashing->len, MOST_SHOWN));
}

static void
show_intake (CroIntakePage *self)
{
  g_autoptr (GArray) entries = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *summary = NULL, *label = NULL;
  guint n_known = 0, n;
  gboolean is_settled = cro_intake_count_unsettled (self->intake) == 0
                        && cro_intake_count_unmeasured (self->intake, book_of (self)) == 0;

  entries = cro_intake_entries (self->intake, book_of (self), &n_known, &error);
  if (entries == NULL)
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  n = entries->len;
  summary = cro_words_intake_summary (self->intake, &self->of, book_of (self), self->title, n, n_known);
  gtk_label_set_label (GTK_LABEL (self->summary), summary);
  label = self->kind == CRO_INTAKE_DOCUMENTS
              ? g_strdup_printf (ngettext ("Enter %u Document", "Enter %u Documents", n), n)
              : g_strdup_printf (ngettext ("Enter %u Row", "Enter %u Rows", n), n);
  gtk_button_set_label (GTK_BUTTON (self->enter), label);
  gtk_widget_set_sensitive (self->enter, n > 0 && is_settled);
  gtk_widget_set_visible (self->replace, self->intake->n_known_days > 0);
  gtk_widget_set_sensitive (self->replace, is_settled && n + n_known > 0);
  show_bad (self);
}

/* --- Reading ---------------------------------------------------------------------------------------- */

static gboolean
is_with_tax (CroIntakePage *self)
{
  return gtk_drop_down_get_selected (GTK_DROP_DOWN (self->tax)) == 1;
}

static gboolean
has_doubt (CroIntakePage *self)
{
  for (guint row = (guint) (self->of.headings + 1); row < self->brought->rows->len; row++)
    for (guint i = 0; i < self->brought->n_columns; i++)
      {
        CroIntakeColumn what = self->of.of[i];

        gboolean is_number = what != CRO_INTAKE_NONE && what != CRO_INTAKE_NAME
                             && what != CRO_INTAKE_DAY && what != CRO_INTAKE_UNIT
                             && what != CRO_INTAKE_TEXT && what != CRO_INTAKE_KIND
                             && what != CRO_INTAKE_DATED;

        if (is_number
            && cro_brought_is_doubtful (self->brought, cro_brought_get (self->brought, row, i), i))
          return TRUE;
      }
  return FALSE;
}

static void
stop_reading (CroIntakePage *self)
{
  g_clear_handle_id (&self->piece, g_source_remove);
  g_clear_pointer (&self->reading, cro_intake_reading_free);
  gtk_widget_set_visible (self->doing, FALSE);
}

/* To the first name that waits, or to what enters. */
static void
go_on_to (CroIntakePage *self)
{
  if (!gtk_widget_grab_focus (self->names) && !gtk_widget_grab_focus (self->enter))
    gtk_widget_grab_focus (self->cancel);
}

/* All rows are read. */
static void
show_read (CroIntakePage *self)
{
  g_autoptr (GError) error = NULL;
  CroIntake *intake = cro_intake_reading_end (self->reading, &error);

  stop_reading (self);
  if (intake == NULL)
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  cro_intake_names_put (CRO_INTAKE_NAMES (self->names), intake);
  g_clear_pointer (&self->intake, cro_intake_free);
  self->intake = intake;
  gtk_widget_set_visible (gtk_widget_get_parent (self->tax),
                          cro_intake_columns_ask_tax (&self->of));
  if (has_doubt (self))
    gtk_widget_set_visible (gtk_widget_get_parent (self->sign), TRUE);
  show_intake (self);
  if (self->goes_on)
    go_on_to (self);
  self->goes_on = FALSE;
}

static void understand (CroIntakePage *self);

/* A book that was changed meanwhile is asked anew. */
static gboolean
piece_cb (gpointer page)
{
  CroIntakePage *self = page;

  if (self->reading_at == cro_book_get_edition (book_of (self))
      && cro_intake_reading_go_on (self->reading, ROWS_AT_ONCE))
    return G_SOURCE_CONTINUE;
  self->piece = 0;
  if (self->reading_at == cro_book_get_edition (book_of (self)))
    show_read (self);
  else
    understand (self);
  return G_SOURCE_REMOVE;
}

/* Reads the rows anew by what is chosen, and shows them: many of them between what else the window does. */
static void
understand (CroIntakePage *self)
{
  guint sign = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->sign));
  g_autoptr (GError) error = NULL;

  if (self->is_filling || self->brought == NULL)
    return;
  stop_reading (self);
  cro_brought_say_decimal (self->brought, sign == 1 ? '.' : sign == 2 ? ',' : '\0');
  self->reading = cro_intake_reading_new (book_of (self), self->brought, &self->of, self->first, self->last,
                                          is_with_tax (self), &error);
  if (self->reading == NULL)
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  if (!cro_intake_reading_go_on (self->reading, ROWS_AT_ONCE))
    {
      show_read (self);
      return;
    }
  self->reading_at = cro_book_get_edition (book_of (self));
  gtk_widget_set_visible (self->doing, TRUE);
  gtk_widget_set_sensitive (self->enter, FALSE);
  gtk_widget_set_sensitive (self->replace, FALSE);
  self->piece = g_idle_add (piece_cb, self);
  if (self->goes_on)
    gtk_widget_grab_focus (self->cancel);
}

/* The house says once whether its till has tax in its totals. */
static void
tax_chosen_cb (CroIntakePage *self)
{
  static const char *const columns[] = { "till_with_tax", NULL };
  CroCell cell = CRO_CELL_INT (is_with_tax (self));
  g_autoptr (GError) error = NULL;

  if (self->is_filling)
    return;
  if (!cro_edit_set (book_of (self), _("book setting: till totals"), "book", 1, columns, &cell,
                     &error))
    cro_bench_fail (self->bench, error);
  understand (self);
}

static void
show_tax (CroIntakePage *self)
{
  static const char *const columns[] = { "till_with_tax", NULL };
  g_autoptr (CroRows) rows
      = cro_store_read_one (cro_book_get_store (book_of (self)), "book", 1, columns, NULL);
  gboolean with_tax = rows != NULL && cro_rows_next (rows, NULL) && !cro_rows_is_null (rows, 0)
                      && cro_rows_get_int (rows, 0) != 0;

  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->tax), with_tax ? 1 : 0);
}

static void
settled_cb (CroIntakePage *self)
{
  if (self->reading != NULL)
    return;
  show_intake (self);
  if (cro_intake_count_unsettled (self->intake) == 0)
    go_on_to (self);
}

static void
take_brought (CroIntakePage *self,
              CroBrought    *brought)
{
  stop_reading (self);
  self->is_filling = TRUE;
  cro_intake_columns_find (brought, self->kind, &self->of);
  show_tax (self);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->sign), 0);
  gtk_widget_set_visible (gtk_widget_get_parent (self->sign), FALSE);
  g_clear_pointer (&self->brought, cro_brought_free);
  self->brought = brought;
  cro_intake_choices_put (CRO_INTAKE_CHOICES (self->columns), brought, &self->of);
  self->is_filling = FALSE;
  self->goes_on = TRUE;
  understand (self);
}

static void
leave (CroIntakePage *self)
{
  g_cancellable_cancel (self->work);
  stop_reading (self);
  g_signal_emit (self, signals[LEFT], 0);
}

static void
refuse (CroIntakePage *self,
        const GError  *error)
{
  g_autofree char *why = cro_words_failed (error);

  cro_bench_say (self->bench, why);
  leave (self);
}

static gboolean
go_on (gpointer cancellable)
{
  return !g_cancellable_is_cancelled (cancellable);
}

/* What the thread has of the page. */
typedef struct
{
  CroIntakeKind  kind;
  char          *path;    /* NULL: rows that were pasted */
  char          *text;
} Reading;

static void
reading_free (gpointer data)
{
  Reading *self = data;

  g_free (self->path);
  g_free (self->text);
  g_free (self);
}

static void
read_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  const Reading *reading = data;
  GError *error = NULL;
  CroBrought *brought = reading->path != NULL
                            ? cro_intake_open_file (reading->path, reading->kind, go_on, cancellable, &error)
                            : cro_intake_open_pasted (reading->text, reading->kind, go_on, cancellable, &error);

  if (brought != NULL)
    g_task_return_pointer (task, brought, (GDestroyNotify) cro_brought_free);
  else if (error != NULL)
    g_task_return_error (task, error);
  else
    g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_CANCELLED, "cancelled");
}

/* A page that was left is cancelled: it asks nothing more of its bench. */
static void
read_cb (GObject      *source,
         GAsyncResult *result,
         gpointer      page)
{
  g_autoptr (CroIntakePage) self = page;
  g_autoptr (GError) error = NULL;
  CroBrought *brought = g_task_propagate_pointer (G_TASK (result), &error);

  if (brought != NULL)
    take_brought (self, brought);
  else if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    refuse (self, error);
}

/* Takes reading; title: what is read. */
static void
begin (CroIntakePage *self,
       char          *title,
       Reading       *reading)
{
  g_autoptr (GTask) task = NULL;

  g_cancellable_cancel (self->work);
  g_clear_object (&self->work);
  stop_reading (self);
  self->work = g_cancellable_new ();
  g_free (self->title);
  self->title = title;
  gtk_widget_set_visible (self->doing, TRUE);
  task = g_task_new (NULL, self->work, read_cb, g_object_ref (self));
  g_task_set_task_data (task, reading, reading_free);
  g_task_run_in_thread (task, read_in_thread);
}

void
cro_intake_page_open (CroIntakePage *self,
                      const char    *path)
{
  Reading *reading = g_new0 (Reading, 1);

  *reading = (Reading){ .kind = self->kind, .path = g_strdup (path) };
  self->is_pasted = FALSE;
  begin (self, g_path_get_basename (path), reading);
}

void
cro_intake_page_paste (CroIntakePage *self,
                       const char    *text)
{
  Reading *reading = g_new0 (Reading, 1);

  *reading = (Reading){ .kind = self->kind, .text = g_strdup (text) };
  self->is_pasted = TRUE;
  begin (self, g_strdup (_("Pasted rows")), reading);
}

/* --- Hands ------------------------------------------------------------------------------------------ */

static void
enter (CroIntakePage *self,
       gboolean       replace)
{
  const char *source = self->is_pasted ? _("pasted rows") : self->title;
  g_autofree char *label = cro_words_intake_act (self->kind, source), *says = NULL;
  g_autoptr (GError) error = NULL;
  guint n = 0;

  if (self->intake == NULL
      || !cro_intake_enter (self->intake, book_of (self), label, replace, &n, &error))
    {
      if (error != NULL)
        cro_bench_fail (self->bench, error);
      return;
    }
  says = cro_words_intake_entered (self->kind, n);
  cro_bench_say (self->bench, says);
  g_signal_emit (self, signals[ENTERED], 0);
  leave (self);
}

static void
enter_cb (CroIntakePage *self)
{
  enter (self, FALSE);
}

static void
replace_cb (CroIntakePage *self)
{
  enter (self, TRUE);
}

static gboolean
escape_cb (GtkWidget *widget,
           GVariant  *arguments,
           gpointer   user_data)
{
  leave (CRO_INTAKE_PAGE (widget));
  return GDK_EVENT_STOP;
}

/* --- The widget ------------------------------------------------------------------------------------- */

static gboolean
cro_intake_page_grab_focus (GtkWidget *widget)
{
  go_on_to (CRO_INTAKE_PAGE (widget));
  return TRUE;
}

/* Its bench may go before it does: nothing that waits asks for it any more. */
static void
cro_intake_page_unroot (GtkWidget *widget)
{
  CroIntakePage *self = CRO_INTAKE_PAGE (widget);

  g_cancellable_cancel (self->work);
  if (self->box != NULL)
    {
      stop_reading (self);
      cro_intake_names_put (CRO_INTAKE_NAMES (self->names), NULL);
    }
  GTK_WIDGET_CLASS (cro_intake_page_parent_class)->unroot (widget);
}

static void
cro_intake_page_dispose (GObject *object)
{
  CroIntakePage *self = CRO_INTAKE_PAGE (object);

  g_cancellable_cancel (self->work);
  g_clear_object (&self->work);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->intake, cro_intake_free);
  g_clear_pointer (&self->brought, cro_brought_free);
  g_clear_pointer (&self->title, g_free);
  G_OBJECT_CLASS (cro_intake_page_parent_class)->dispose (object);
}

static void
cro_intake_page_class_init (CroIntakePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_intake_page_dispose;
  widget_class->grab_focus = cro_intake_page_grab_focus;
  widget_class->unroot = cro_intake_page_unroot;
  widget_class->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
  signals[ENTERED] = g_signal_new ("entered", CRO_TYPE_INTAKE_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
  signals[LEFT] = g_signal_new ("left", CRO_TYPE_INTAKE_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 0);
}

static void
cro_intake_page_init (CroIntakePage *self)
{
  self->title = g_strdup ("");
}

static GtkWidget *
choice_new (CroIntakePage     *self,
            const char        *name,
            const char *const *words,
            GCallback          chosen)
{
  GtkWidget *choice = cro_drop_down_new (words, name);

  g_signal_connect_object (choice, "notify::selected", chosen, self, G_CONNECT_SWAPPED);
  return choice;
}

static GtkWidget *
fields_new (CroIntakePage *self)
{
  const char *const taxes[] = { _("without tax"), _("with tax"), NULL };
  const char *const signs[]
      = { C_("decimal sign", "not known"), C_("decimal sign", "point: 1.500 is one and a half"),
          C_("decimal sign", "comma: 1,500 is one and a half"), NULL };
  GtkWidget *row = cro_field_row_new ();

  self->tax = choice_new (self, _("Till totals are"), taxes, G_CALLBACK (tax_chosen_cb));
  self->sign
      = choice_new (self, _("Decimal sign of unclear numbers"), signs, G_CALLBACK (understand));
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("Till totals are"), self->tax));
  cro_wrap_append (CRO_WRAP (row),
                   cro_field_new (_("Decimal sign of unclear numbers"), self->sign));
  gtk_widget_set_visible (gtk_widget_get_parent (self->tax), FALSE);
  gtk_widget_set_visible (gtk_widget_get_parent (self->sign), FALSE);
  return row;
}

static GtkWidget *
buttons_new (CroIntakePage *self)
{
  GtkWidget *wrap = cro_wrap_new (9, 6);

  self->enter = gtk_button_new_with_label (_("Enter"));
  self->replace = gtk_button_new_with_label (self->kind == CRO_INTAKE_COUNTS
                                                 ? _("Replace Counts of This Day")
                                                 : _("Replace Sales of These Days"));
  self->cancel = gtk_button_new_with_label (_("Cancel"));
  gtk_widget_add_css_class (self->enter, "suggested-action");
  gtk_widget_set_sensitive (self->enter, FALSE);
  gtk_widget_set_visible (self->replace, FALSE);
  g_signal_connect_object (self->enter, "clicked", G_CALLBACK (enter_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->replace, "clicked", G_CALLBACK (replace_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->cancel, "clicked", G_CALLBACK (leave), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (wrap), self->enter);
  cro_wrap_append (CRO_WRAP (wrap), self->replace);
  cro_wrap_append (CRO_WRAP (wrap), self->cancel);
  return wrap;
}

static GtkWidget *
doing_new (CroIntakePage *self)
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
cro_intake_page_new (CroBench     *bench,
                     CroIntakeKind kind,
                     CroDate       first,
                     CroDate       last)
{
  CroIntakePage *self = g_object_new (CRO_TYPE_INTAKE_PAGE, NULL);
  GtkWidget *parts[8];
  guint n = 0;

  self->bench = bench;
  self->kind = kind;
  self->first = first;
  self->last = last;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_add_css_class (self->box, "part");
  self->summary = cro_text_new ("", NULL);
  self->columns = cro_intake_choices_new ();
  g_signal_connect_object (self->columns, "chosen", G_CALLBACK (understand), self,
                           G_CONNECT_SWAPPED);
  self->names = cro_intake_names_new (bench);
  g_signal_connect_object (self->names, "settled", G_CALLBACK (settled_cb), self,
                           G_CONNECT_SWAPPED);
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
