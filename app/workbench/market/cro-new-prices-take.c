/* Files, pasted and dropped texts, into the rows of the sheet. */
#include "config.h"

#include "cro-new-prices-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-file-choice.h"
#include "cro-price-list-words.h"
#include "cro-state.h"
#include "cro-words.h"
#include "cro-wrap.h"

static void ask_column (CroNewPrices       *self,
                        const CroPriceList *list);

/* *list and *error are taken. */
static void
taken (CroNewPrices *self,
       gboolean      done,
       CroPriceList *list,
       GError       *error)
{
  const CroPriceList *of = list != NULL ? list : cro_round_get_invoice (self->round);
  g_autofree char *text = done && of != NULL                    ? cro_words_list_refused (of, NULL)
                          : list != NULL && error != NULL       ? cro_words_list_refused (list, error)
                          : error != NULL                       ? cro_words_error (error)
                                                                : NULL;

  if (text == NULL && list != NULL && list->source == CRO_LIST_INVOICE)
    text = g_strdup (_("Post the first invoice before another one."));
  else if (text == NULL && of != NULL)
    text = cro_words_round_taken (of);
  cro_round_rows_set_round (self->rows, self->round);
  cro_new_prices_moved (self);
  cro_new_prices_say (self, text);
  if (cro_round_rows_find_asked (self->rows) != CRO_NO_SLOT)
    cro_round_rows_focus (self->rows, cro_round_rows_find_asked (self->rows));
  ask_column (self, done ? list : NULL);
  g_clear_pointer (&list, cro_price_list_free);
  g_clear_error (&error);
}

/* --- Which column it is ---------------------------------------------------------------------------------- */

static char *
dup_key (CroNewPrices *self)
{
  return g_strdup_printf ("price-heading.%" G_GINT64_FORMAT, cro_round_get_supplier_id (self->round));
}

static const char *
group_of (CroNewPrices *self)
{
  return cro_store_get_path (cro_book_get_store (cro_round_get_book (self->round)));
}

/* As it was said of an earlier list of the supplier's. */
void
cro_new_prices_recall_columns (CroNewPrices *self)
{
  g_autofree char *key = dup_key (self), *heading = cro_state_dup_text (group_of (self), key);

  cro_round_set_price_heading (self->round, heading);
}

static void
ask_column (CroNewPrices       *self,
            const CroPriceList *list)
{
  gboolean is_asked = list != NULL && list->rivals[0] != NULL && list->rivals[1] != NULL;

  gtk_widget_set_visible (self->columns, is_asked);
  for (guint i = 0; is_asked && i < G_N_ELEMENTS (self->column); i++)
    gtk_button_set_label (GTK_BUTTON (self->column[i]), list->rivals[i]);
  if (is_asked)
    gtk_widget_grab_focus (self->column[0]);
}

static void
column_cb (GtkWidget    *button,
           CroNewPrices *self)
{
  g_autofree char *key = dup_key (self), *path = g_strdup (self->path), *text = g_strdup (self->text);
  g_autofree char *heading = g_strdup (gtk_button_get_label (GTK_BUTTON (button)));

  cro_state_set_text (group_of (self), key, heading);
  cro_round_set_price_heading (self->round, heading);
  if (path != NULL)
    cro_new_prices_take_file (self, path);
  else if (text != NULL)
    cro_new_prices_take_text (self, text);
}

GtkWidget *
cro_new_prices_columns_new (CroNewPrices *self)
{
  self->columns = cro_wrap_new (9, 6);
  cro_wrap_append (CRO_WRAP (self->columns), gtk_label_new (_("Which column has the price to pay?")));
  for (guint i = 0; i < G_N_ELEMENTS (self->column); i++)
    {
      self->column[i] = gtk_button_new_with_label ("");
      g_signal_connect_object (self->column[i], "clicked", G_CALLBACK (column_cb), self, 0);
      cro_wrap_append (CRO_WRAP (self->columns), self->column[i]);
    }
  gtk_widget_set_visible (self->columns, FALSE);
  return self->columns;
}

/* --- Taking ------------------------------------------------------------------------------------------------ */

/* What is taken, so that it can be taken again once it is known how. */
static void
note (CroNewPrices *self,
      const char   *path,
      const char   *text)
{
  g_autofree char *old_path = self->path, *old_text = self->text;

  self->path = g_strdup (path);
  self->text = g_strdup (text);
}

void
cro_new_prices_take_file (CroNewPrices *self,
                          const char   *path)
{
  CroPriceList *list = NULL;
  GError *error = NULL;
  gboolean done;

  note (self, path, NULL);
  done = cro_round_take (self->round, path, &list, &error);
  taken (self, done, list, error);
}

void
cro_new_prices_take_text (CroNewPrices *self,
                          const char   *text)
{
  CroPriceList *list = NULL;
  GError *error = NULL;
  gboolean done;

  note (self, NULL, text);
  done = cro_round_take_text (self->round, text, &list, &error);
  taken (self, done, list, error);
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

/* One line goes into the field with the focus, as anywhere else. */
static void
pasted_by_key_cb (GObject      *clipboard,
                  GAsyncResult *result,
                  gpointer      user_data)
{
  g_autoptr (CroNewPrices) self = user_data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  int at = 0;

  if (self->round == NULL || text == NULL)
    return;
  g_strstrip (text);
  if (strchr (text, '\n') != NULL)
    cro_new_prices_take_text (self, text);
  else if (GTK_IS_EDITABLE (focus))
    {
      gtk_editable_delete_selection (GTK_EDITABLE (focus));
      at = gtk_editable_get_position (GTK_EDITABLE (focus));
      gtk_editable_insert_text (GTK_EDITABLE (focus), text, -1, &at);
      gtk_editable_set_position (GTK_EDITABLE (focus), at);
    }
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
