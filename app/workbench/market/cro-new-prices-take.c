/* Files, pasted and dropped texts, into the rows of the sheet. */
#include "config.h"

#include "cro-new-prices-private.h"

#include <glib/gi18n.h>

#include "cro-file-choice.h"
#include "cro-price-list-words.h"
#include "cro-words.h"

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

  if (text == NULL && of != NULL)
    text = cro_words_round_taken (of);
  cro_round_rows_set_round (self->rows, self->round);
  cro_new_prices_moved (self);
  cro_new_prices_say (self, text);
  if (cro_round_rows_find_asked (self->rows) != CRO_NO_SLOT)
    cro_round_rows_focus (self->rows, cro_round_rows_find_asked (self->rows));
  g_clear_pointer (&list, cro_price_list_free);
  g_clear_error (&error);
}

void
cro_new_prices_take_file (CroNewPrices *self,
           const char   *path)
{
  CroPriceList *list = NULL;
  GError *error = NULL;
  gboolean done = cro_round_take (self->round, path, &list, &error);

  taken (self, done, list, error);
}

void
cro_new_prices_take_text (CroNewPrices *self,
           const char   *text)
{
  CroPriceList *list = NULL;
  GError *error = NULL;
  gboolean done = cro_round_take_text (self->round, text, &list, &error);

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
