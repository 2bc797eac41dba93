/* Files, pasted and dropped texts, into the rows of the sheet. */
#include "config.h"

#include "cro-new-prices-private.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

#include "cro-field.h"
#include "cro-file-choice.h"
#include "cro-isolate.h"
#include "cro-price-list-words.h"
#include "cro-refused-words.h"
#include "cro-spoken.h"
#include "cro-words.h"

/* What is read at once; more is read in a thread. Bytes. */
#define MOST_AT_ONCE (16 * 1024)

/* How often the bar moves, in milliseconds. */
#define MOVE_MS 100

struct _CroTaking
{
  CroRound      *round;
  char          *path;       /* NULL: text */
  char          *text;
  gboolean       is_again;
  gboolean       is_seller_right;
  int            part;       /* of a thousand */

  gboolean       done;
  CroPriceList  *list;
  GError        *error;
};

/* But for the round, which is the sheet's again. */
static void
taking_free (CroTaking *self)
{
  g_clear_pointer (&self->list, cro_price_list_free);
  g_clear_error (&self->error);
  g_free (self->path);
  g_free (self->text);
  g_free (self);
}

/* --- In the thread ----------------------------------------------------------------------------------------- */

typedef struct
{
  CroTaking    *taking;
  GCancellable *cancellable;
} Going;

static gboolean
go_on (gpointer user_data,
       double   done)
{
  Going *going = user_data;

  g_atomic_int_set (&going->taking->part, (int) (1000 * done));
  return !g_cancellable_is_cancelled (going->cancellable);
}

static void
take (CroTaking    *self,
      GCancellable *cancellable)
{
  Going going = { self, cancellable };
  const CroRoundTaking how = { self->is_again, self->is_seller_right, go_on, &going };

  self->done = self->path != NULL ? cro_round_take (self->round, self->path, &how, &self->list, &self->error)
                                  : cro_round_take_text (self->round, self->text, &how, &self->list, &self->error);
}

static void
take_in_thread (GTask        *task,
                gpointer      sheet,
                gpointer      taking,
                GCancellable *cancellable)
{
  take (taking, cancellable);
  g_task_return_boolean (task, TRUE);
}

/* --- Taken --------------------------------------------------------------------------------------------------- */

static char *
dup_taken (CroNewPrices       *self,
           const CroPriceList *of,
           gboolean            is_again)
{
  g_autofree char *counts = cro_words_round_taken (of), *columns = is_again ? NULL : cro_words_list_columns (of);
  g_autofree char *taken = columns != NULL ? g_strdup_printf ("%s · %s", counts, columns)
                                           : g_steal_pointer (&counts);
  const char *replaced = of->source != CRO_LIST_INVOICE ? cro_round_get_replaced (self->round) : "";

  if (*replaced == '\0')
    return g_steal_pointer (&taken);
  /* Translators: how many prices a list has, in words; prices that were typed before it was taken. */
  return cro_isolate_printf (_("%s. In place of what was typed: %s"), taken, replaced);
}

/* What is said of it. */
static char *
dup_said (CroNewPrices    *self,
          const CroTaking *taking)
{
  const CroPriceList *of = taking->list != NULL ? taking->list : cro_round_get_invoice (self->round);

  if (!taking->done && taking->error == NULL)
    return g_strdup (_("The list was not read; the prices are as they were."));
  if (taking->error != NULL)
    return taking->list != NULL ? cro_words_list_refused (taking->list, taking->error)
                                : cro_words_failed (taking->error);
  if (of != NULL)
    {
      char *refused = cro_words_list_refused (of, NULL);

      if (refused != NULL)
        return refused;
    }
  if (taking->list != NULL && taking->list->source == CRO_LIST_INVOICE)
    return g_strdup (_("Post the first invoice before another one."));
  return of != NULL ? dup_taken (self, of, taking->is_again) : NULL;
}

/* The row to look at first: the one whose question is shown, one that waits, or the first that the list filled. */
static guint
find_first (CroNewPrices *self)
{
  guint n = cro_round_get_n_rows (self->round), row = cro_round_rows_find_asked (self->rows);

  if (row == CRO_NO_SLOT)
    row = cro_round_rows_find_waiting (self->rows);
  for (guint i = 0; row == CRO_NO_SLOT && i < n; i++)
    {
      const CroRoundRow *of = cro_round_get_row (self->round, i);

      if (of->is_billed || (of->before != NULL && of->kind != CRO_ROUND_EMPTY))
        row = i;
    }
  return row;
}

/* It is freed. */
static void
taken (CroNewPrices *self,
       CroTaking    *taking)
{
  g_autofree char *text = dup_said (self, taking);
  gboolean is_read = taking->done;

  cro_round_rows_set_round (self->rows, self->round);
  cro_new_prices_moved (self);
  cro_new_prices_say (self, text);
  cro_new_prices_keep_invoice (self);
  if (is_read && find_first (self) != CRO_NO_SLOT)
    cro_round_rows_focus (self->rows, find_first (self));
  /* A dialog of files may leave it elsewhere, where the keys of the sheet do nothing. */
  else if (gtk_widget_get_focus_child (GTK_WIDGET (self)) == NULL)
    gtk_widget_grab_focus (GTK_WIDGET (self));
  cro_new_prices_ask_seller (self, taking->list);
  if (is_read)
    cro_new_prices_show_columns (self, g_steal_pointer (&taking->list));
  taking_free (taking);
}

/* --- Waiting ------------------------------------------------------------------------------------------------- */

static gboolean
move_bar_cb (gpointer sheet)
{
  CroNewPrices *self = sheet;
  int part = g_atomic_int_get (&self->taking->part);

  if (part > 0)
    gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (self->progress), part / 1000.0);
  else
    gtk_progress_bar_pulse (GTK_PROGRESS_BAR (self->progress));
  return G_SOURCE_CONTINUE;
}

static void
show_work (CroNewPrices *self,
           gboolean      is_working)
{
  gtk_widget_set_visible (self->doing_box, is_working);
  gtk_widget_set_sensitive (self->parts[HEAD], !is_working);
  gtk_widget_set_sensitive (self->parts[ROWS], !is_working);
  gtk_widget_set_sensitive (self->parts[PANEL], !is_working);
  for (GtkWidget *part = gtk_widget_get_next_sibling (self->doing_box); part != NULL;
       part = gtk_widget_get_next_sibling (part))
    gtk_widget_set_sensitive (part, !is_working);
  if (is_working)
    gtk_widget_grab_focus (self->cancel);
}

/* The sheet may have been left meanwhile, or the book have changed. */
static void
taken_cb (GObject      *sheet,
          GAsyncResult *result,
          gpointer      taking)
{
  CroNewPrices *self = CRO_NEW_PRICES (sheet);
  CroTaking *done = taking;

  g_clear_object (&self->work);
  self->taking = NULL;
  self->round = done->round;
  g_clear_handle_id (&self->move_id, g_source_remove);
  if (self->parts[ROWS] == NULL || gtk_widget_get_root (self->parts[ROWS]) == NULL)
    {
      taking_free (done);
      return;
    }
  show_work (self, FALSE);
  taken (self, done);
  cro_new_prices_catch_up (self);
}

static void
begin (CroNewPrices *self,
       CroTaking    *taking)
{
  g_autoptr (GTask) task = NULL;
  g_autofree char *name = taking->path != NULL ? g_path_get_basename (taking->path) : NULL;
  /* Translators: a file of prices. */
  g_autofree char *doing = name != NULL ? cro_isolate_printf (_("Reading %s…"), name)
                                        : g_strdup (_("Reading the list…"));

  self->taking = taking;
  self->round = NULL;
  self->work = g_cancellable_new ();
  cro_round_rows_rest (self->rows);
  gtk_label_set_label (GTK_LABEL (self->doing), doing);
  gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (self->progress), 0);
  cro_new_prices_say (self, NULL);
  show_work (self, TRUE);
  self->move_id = g_timeout_add (MOVE_MS, move_bar_cb, self);
  task = g_task_new (self, self->work, taken_cb, taking);
  g_task_set_task_data (task, taking, NULL);
  g_task_run_in_thread (task, take_in_thread);
}

void
cro_new_prices_stop_taking (CroNewPrices *self)
{
  g_clear_handle_id (&self->move_id, g_source_remove);
  if (self->work != NULL)
    g_cancellable_cancel (self->work);
}

GtkWidget *
cro_new_prices_doing_new (CroNewPrices *self)
{
  self->doing_box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  self->doing = gtk_label_new (NULL);
  gtk_label_set_ellipsize (GTK_LABEL (self->doing), PANGO_ELLIPSIZE_MIDDLE);
  self->progress = gtk_progress_bar_new ();
  gtk_widget_set_hexpand (self->progress, TRUE);
  gtk_widget_set_valign (self->progress, GTK_ALIGN_CENTER);
  cro_spoken_set (self->progress, _("How much of the list is read"));
  self->cancel = gtk_button_new_with_mnemonic (_("_Cancel"));
  g_signal_connect_object (self->cancel, "clicked", G_CALLBACK (cro_new_prices_stop_taking), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->doing_box), self->doing);
  gtk_box_append (GTK_BOX (self->doing_box), self->progress);
  gtk_box_append (GTK_BOX (self->doing_box), self->cancel);
  gtk_widget_set_visible (self->doing_box, FALSE);
  return self->doing_box;
}

/* --- Taking ------------------------------------------------------------------------------------------------ */

static gboolean
is_small (const char *path,
          const char *text)
{
  GStatBuf about;

  return path != NULL ? g_stat (path, &about) != 0 || about.st_size <= MOST_AT_ONCE : strlen (text) <= MOST_AT_ONCE;
}

/* A list that is small is there before a bar could be. */
static void
take_list (CroNewPrices *self,
           const char   *path,
           const char   *text,
           gboolean      is_again,
           gboolean      is_seller_right)
{
  CroTaking *taking;
  g_autofree char *old_path = NULL, *old_text = NULL;

  if (self->round == NULL)
    return;
  taking = g_new0 (CroTaking, 1);
  taking->round = self->round;
  taking->path = g_strdup (path);
  taking->text = g_strdup (text);
  taking->is_again = is_again;
  taking->is_seller_right = is_seller_right;
  old_path = g_steal_pointer (&self->path);
  old_text = g_steal_pointer (&self->text);
  self->path = g_strdup (path);
  self->text = g_strdup (text);
  if (!is_small (path, text))
    {
      begin (self, taking);
      return;
    }
  take (taking, NULL);
  taken (self, taking);
}

void
cro_new_prices_take_file (CroNewPrices *self,
                          const char   *path)
{
  take_list (self, path, NULL, FALSE, FALSE);
}

void
cro_new_prices_take_text (CroNewPrices *self,
                          const char   *text)
{
  take_list (self, NULL, text, FALSE, FALSE);
}

void
cro_new_prices_take_again (CroNewPrices *self,
                           gboolean      is_seller_right)
{
  if (self->path != NULL || self->text != NULL)
    take_list (self, self->path, self->text, TRUE, is_seller_right);
}

static void
chosen_cb (gpointer    owner,
           const char *path)
{
  cro_new_prices_take_file (CRO_NEW_PRICES (owner), path);
}

void
cro_new_prices_ask_file (CroNewPrices *self)
{
  static const char *const suffixes[] = { "csv", "tsv", "txt", "xlsx", "xml", "pdf", NULL };
  const CroFileChoice choice = {
    .title = _("Open a Price List or an Invoice"),
    .action = GTK_FILE_CHOOSER_ACTION_OPEN,
    .kind = _("Price lists and invoices"),
    .suffixes = suffixes,
  };

  cro_file_choice_ask (&choice, GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), chosen_cb, self);
}

static void
pasted_cb (GObject      *clipboard,
           GAsyncResult *result,
           gpointer      user_data)
{
  g_autoptr (CroNewPrices) self = user_data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);

  if (self->round == NULL)
    return;
  if (text == NULL || *text == '\0')
    cro_new_prices_say (self, _("There is no text to paste."));
  else
    cro_new_prices_take_text (self, text);
}

/* One line goes into the field with the focus, as anywhere else; where there is none it is a list too. */
static void
pasted_by_key_cb (GObject      *clipboard,
                  GAsyncResult *result,
                  gpointer      user_data)
{
  g_autoptr (CroNewPrices) self = user_data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (self->round == NULL || text == NULL)
    return;
  g_strstrip (text);
  /* An invoice may be all in one line. */
  if (strchr (text, '\n') == NULL && !cro_invoice_begins (text, strlen (text)) && GTK_IS_EDITABLE (focus))
    cro_entry_insert (focus, text);
  else if (*text != '\0')
    cro_new_prices_take_text (self, text);
}

void
cro_new_prices_paste_by_key (CroNewPrices *self)
{
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, pasted_by_key_cb,
                                 g_object_ref (self));
}

void
cro_new_prices_paste (CroNewPrices *self)
{
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, pasted_cb, g_object_ref (self));
}

gboolean
cro_new_prices_drop (CroNewPrices *self,
                     const GValue *value)
{
  g_autofree char *path = NULL;

  if (G_VALUE_HOLDS (value, G_TYPE_FILE))
    path = g_file_get_path (g_value_get_object (value));
  if (path != NULL)
    cro_new_prices_take_file (self, path);
  else if (G_VALUE_HOLDS_STRING (value))
    cro_new_prices_take_text (self, g_value_get_string (value));
  else
    return FALSE;
  return TRUE;
}
