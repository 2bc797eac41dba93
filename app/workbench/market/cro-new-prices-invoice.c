/* What is asked about an invoice as a whole: what becomes of its charges, and whose it is. */
#include "config.h"

#include "cro-new-prices-private.h"

#include <glib/gi18n.h>

#include "cro-drop-down.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-market-open.h"
#include "cro-price-list-words.h"
#include "cro-wrap.h"

/* --- Charges on the whole -------------------------------------------------------------------------------- */

/* An answer that is refused is set back while it is told of, and that is told of in its turn, of nothing new. */
static void
whole_cb (CroNewPrices *self)
{
  guint chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->whole));
  const CroPriceList *list = self->round != NULL ? cro_round_get_invoice (self->round) : NULL;

  if (!self->is_setting && list != NULL && chosen < CRO_N_WHOLE && chosen != list->whole)
    cro_new_prices_say_whole (self, (CroListWhole) chosen);
}

GtkWidget *
cro_new_prices_whole_new (CroNewPrices *self)
{
  const char *words[CRO_N_WHOLE + 1] = {
    [CRO_WHOLE_UNSAID] = C_("charges", "not said yet"),
    [CRO_WHOLE_SPREAD] = C_("charges", "spread over its goods"),
    [CRO_WHOLE_BOOKED] = C_("charges", "booked as other purchases"),
    [CRO_WHOLE_LEFT_OUT] = C_("charges", "left out"),
  };

  self->whole_box = cro_wrap_new (9, 6);
  self->whole = cro_drop_down_new (words, _("Charges on the whole document"));
  g_signal_connect_object (self->whole, "notify::selected", G_CALLBACK (whole_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (self->whole_box), gtk_label_new (_("Charges on the whole document")));
  cro_wrap_append (CRO_WRAP (self->whole_box), self->whole);
  gtk_widget_set_visible (self->whole_box, FALSE);
  return self->whole_box;
}

void
cro_new_prices_show_whole (CroNewPrices *self)
{
  const CroPriceList *list = cro_round_get_invoice (self->round);
  gboolean has_any = list != NULL && (list->charges != 0 || list->allowances != 0);

  self->is_setting = TRUE;
  if (has_any)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (self->whole), list->whole);
  self->is_setting = FALSE;
  gtk_widget_set_visible (self->whole_box, has_any);
}

gboolean
cro_new_prices_asks_whole (CroNewPrices *self)
{
  g_autofree char *not_spread = NULL;

  if (!cro_round_asks_whole (self->round))
    return FALSE;
  not_spread = cro_words_list_not_spread (cro_round_get_invoice (self->round));
  cro_new_prices_say (self, not_spread != NULL
                                ? not_spread
                                : _("Choose what becomes of the charges on the whole document, then post."));
  gtk_widget_grab_focus (self->whole);
  return TRUE;
}

/* --- Whose it is ----------------------------------------------------------------------------------------- */

static void
own_cb (CroNewPrices *self)
{
  cro_new_prices_take_again (self, TRUE);
}

/* What is typed here is set aside. */
static void
other_cb (CroNewPrices *self)
{
  CroBench *bench = self->bench;
  g_autofree char *path = g_strdup (self->path), *text = g_strdup (self->text);
  guint32 seller = self->seller;

  if (self->round == NULL)
    return;
  cro_new_prices_leave (self);
  if (path != NULL)
    cro_market_take_file (bench, seller, path);
  else if (text != NULL)
    cro_market_take_text (bench, seller, text);
}

GtkWidget *
cro_new_prices_seller_new (CroNewPrices *self)
{
  self->seller_box = cro_wrap_new (9, 6);
  self->seller_other = gtk_button_new_with_label ("");
  self->seller_own = gtk_button_new_with_label ("");
  g_signal_connect_object (self->seller_other, "clicked", G_CALLBACK (other_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->seller_own, "clicked", G_CALLBACK (own_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (self->seller_box), self->seller_other);
  cro_wrap_append (CRO_WRAP (self->seller_box), self->seller_own);
  gtk_widget_set_visible (self->seller_box, FALSE);
  return self->seller_box;
}

void
cro_new_prices_ask_seller (CroNewPrices       *self,
                           const CroPriceList *list)
{
  gboolean is_asked = list != NULL && list->seller_slot != CRO_NO_SLOT && !list->is_seller_right;
  g_autofree char *other = NULL, *own = NULL;
  CroModel *copy, *model;
  const char *name;

  gtk_widget_set_visible (self->seller_box, is_asked);
  if (!is_asked)
    return;
  copy = cro_book_get_model (cro_round_get_draft (self->round));
  model = cro_book_get_model (cro_round_get_book (self->round));
  self->seller = cro_slots_get (&model->supplier_slots,
                                g_array_index (copy->suppliers, CroSupplier, list->seller_slot).id);
  name = g_array_index (copy->suppliers, CroSupplier, list->seller_slot).name;
  /* Translators: a button: an invoice goes to the new prices of this supplier. */
  other = cro_isolate_printf (_("Take It for %s"), name);
  own = cro_isolate_printf (_("Take It for %s"), cro_round_get_supplier (self->round));
  gtk_button_set_label (GTK_BUTTON (self->seller_other), other);
  gtk_button_set_label (GTK_BUTTON (self->seller_own), own);
  gtk_widget_grab_focus (self->seller_other);
}
