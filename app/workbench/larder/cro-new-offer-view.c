#include "config.h"

#include "cro-new-offer-view.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-entry-form.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-words.h"

struct _CroNewOfferView
{
  GtkWidget  parent_instance;

  GtkWidget *form;
  GtkWidget *supplier;
  GtkWidget *code;
  GtkWidget *count;
  GtkWidget *size;      /* with its unit: "1 kg" */
  GtkWidget *price;

  CroBench  *bench;     /* borrowed */
  CroUnit    unit;
};

G_DEFINE_FINAL_TYPE (CroNewOfferView, cro_new_offer_view, GTK_TYPE_WIDGET)

static gboolean
read_fields (CroNewOfferView *self,
             CroNewOffer     *new_offer)
{
  CroEntryForm *form = CRO_ENTRY_FORM (self->form);
  g_auto (CroEntry) count = { 0 }, size = { 0 }, price = { 0 };

  if (*cro_entry_form_text (self->supplier) == '\0')
    return cro_entry_form_refuse (form, self->supplier, _("Who sells it?"));
  if (!cro_entry_number (cro_entry_form_text (self->count), CRO_RANGE_ABOVE_0, &count)
      && count.status != CRO_ENTRY_EMPTY)
    return cro_entry_form_refuse (form, self->count,
                                  _("How many there are in a pack is not a number."));
  if (!cro_entry_measured (cro_entry_form_text (self->size), self->unit, CRO_RANGE_ABOVE_0,
                           cro_words_entry (), &size))
    return cro_entry_form_refuse (form, self->size, _("What is in a pack? For instance 5 kg."));
  if (!cro_entry_number (cro_entry_form_text (self->price), CRO_RANGE_AT_LEAST_0, &price)
      && price.status != CRO_ENTRY_EMPTY)
    return cro_entry_form_refuse (form, self->price, _("The price is not a number."));
  new_offer->pack_count = count.status == CRO_ENTRY_EMPTY ? CRO_MICRO : count.micro;
  new_offer->pack_size = size.micro;
  new_offer->pack_unit = size.unit;
  new_offer->has_price = price.status == CRO_ENTRY_OK;
  new_offer->price = price.micro;
  return TRUE;
}

static void
add_cb (CroNewOfferView *self)
{
  CroBook *book = cro_bench_get_book (self->bench);
  g_autofree char *label = cro_bench_dup_label (self->bench, _("pack"));
  g_autoptr (GError) error = NULL;
  CroNewOffer new_offer = {
    .item = cro_bench_get_slot (self->bench),
    .supplier = CRO_NO_SLOT,
    .supplier_name = cro_entry_form_text (self->supplier),
    .code = cro_entry_form_text (self->code),
    .from = cro_book_get_figures (book)->date,
  };

  cro_entry_form_accept (CRO_ENTRY_FORM (self->form));
  if (!read_fields (self, &new_offer))
    return;
  if (!cro_edit_add_offer (book, label, &new_offer, NULL, &error))
    {
      g_autofree char *message = cro_words_error (error);

      cro_entry_form_refuse (CRO_ENTRY_FORM (self->form), self->code, message);
      return;
    }
  cro_entry_form_clear (CRO_ENTRY_FORM (self->form));
  gtk_widget_grab_focus (self->supplier);
}

static void
cro_new_offer_view_dispose (GObject *object)
{
  g_clear_pointer (&CRO_NEW_OFFER_VIEW (object)->form, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_new_offer_view_parent_class)->dispose (object);
}

static void
cro_new_offer_view_class_init (CroNewOfferViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_new_offer_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_new_offer_view_init (CroNewOfferView *self)
{
  CroEntryForm *form;

  self->form = cro_entry_form_new (_("Add Pack"));
  form = CRO_ENTRY_FORM (self->form);
  gtk_widget_set_parent (self->form, GTK_WIDGET (self));
  /* Translators: an invented supplier, as an example. */
  self->supplier = cro_entry_form_add (form, _("Supplier"), _("Supplier"), 16, _("Quay Shellfish"));
  self->code = cro_entry_form_add (form, _("Code"), _("Code"), 8, NULL);
  self->count = cro_entry_form_add (form, _("Pack of"), _("Pack of"), 5, "1");
  self->size = cro_entry_form_add (form, _("times"), _("times"), 8, NULL);
  self->price = cro_entry_form_add (form, _("Price of a pack"), _("Price of a pack"), 9, NULL);
  g_signal_connect_swapped (self->form, "entered", G_CALLBACK (add_cb), self);
}

GtkWidget *
cro_new_offer_view_new (CroBench *bench)
{
  CroNewOfferView *self = g_object_new (CRO_TYPE_NEW_OFFER_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}

void
cro_new_offer_view_put (CroNewOfferView *self,
                        CroUnit          unit)
{
  g_autofree char *example = g_strdup_printf ("1 %s", cro_words_unit (unit));

  self->unit = unit;
  cro_entry_form_clear (CRO_ENTRY_FORM (self->form));
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->size), example);
}

void
cro_new_offer_view_set_cure (CroNewOfferView *self,
                             gboolean         is_cure)
{
  cro_cure_set (self->supplier, is_cure);
}

void
cro_new_offer_view_focus (CroNewOfferView *self)
{
  gtk_widget_grab_focus (self->supplier);
}
