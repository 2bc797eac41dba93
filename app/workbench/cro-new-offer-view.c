#include "config.h"

#include "cro-new-offer-view.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-words.h"
#include "cro-wrap.h"

struct _CroNewOfferView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *supplier;
  GtkWidget *code;
  GtkWidget *count;
  GtkWidget *size;      /* with its unit: "1 kg" */
  GtkWidget *price;
  GtkWidget *reason;

  CroBench  *bench;     /* borrowed */
  CroUnit    unit;
};

G_DEFINE_FINAL_TYPE (CroNewOfferView, cro_new_offer_view, GTK_TYPE_WIDGET)

static const char *
text_of (GtkWidget *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

/* Says why nothing was made, and goes to the field at fault. */
static gboolean
refuse (CroNewOfferView *self,
        GtkWidget       *field,
        const char      *reason)
{
  gtk_label_set_label (GTK_LABEL (self->reason), reason);
  gtk_widget_set_visible (self->reason, TRUE);
  gtk_widget_grab_focus (field);
  return FALSE;
}

static gboolean
read_fields (CroNewOfferView *self,
             CroNewOffer     *new_offer)
{
  g_auto (CroEntry) count = { 0 }, size = { 0 }, price = { 0 };

  if (*text_of (self->supplier) == '\0')
    return refuse (self, self->supplier, _("Who sells it?"));
  if (!cro_entry_number (text_of (self->count), CRO_RANGE_ABOVE_0, &count)
      && count.status != CRO_ENTRY_EMPTY)
    return refuse (self, self->count, _("How many there are in a pack is not a number."));
  if (!cro_entry_measured (text_of (self->size), self->unit, CRO_RANGE_ABOVE_0, cro_words_entry (),
                           &size))
    return refuse (self, self->size, _("What is in a pack? For instance 5 kg."));
  if (!cro_entry_number (text_of (self->price), CRO_RANGE_AT_LEAST_0, &price)
      && price.status != CRO_ENTRY_EMPTY)
    return refuse (self, self->price, _("The price is not a number."));
  new_offer->pack_count = count.status == CRO_ENTRY_EMPTY ? CRO_MICRO : count.micro;
  new_offer->pack_size = size.micro;
  new_offer->pack_unit = size.unit;
  new_offer->has_price = price.status == CRO_ENTRY_OK;
  new_offer->price = price.micro;
  return TRUE;
}

static void
clear (CroNewOfferView *self)
{
  GtkWidget *entries[] = { self->supplier, self->code, self->count, self->size, self->price };

  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    gtk_editable_set_text (GTK_EDITABLE (entries[i]), "");
  gtk_widget_set_visible (self->reason, FALSE);
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
    .supplier_name = text_of (self->supplier),
    .code = text_of (self->code),
    .from = cro_book_get_figures (book)->date,
  };

  if (!read_fields (self, &new_offer))
    return;
  if (!cro_edit_add_offer (book, label, &new_offer, NULL, &error))
    {
      g_autofree char *message = cro_words_error (error);

      refuse (self, self->code, message);
      return;
    }
  clear (self);
  gtk_widget_grab_focus (self->supplier);
}

static GtkWidget *
add_entry (CroNewOfferView *self,
           GtkWidget       *row,
           const char      *caption,
           int              width,
           const char      *placeholder)
{
  GtkWidget *entry = cro_entry_new (caption, width);

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), placeholder);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (add_cb), self);
  cro_wrap_append (CRO_WRAP (row), cro_field_new (caption, entry));
  return entry;
}

static void
cro_new_offer_view_dispose (GObject *object)
{
  g_clear_pointer (&CRO_NEW_OFFER_VIEW (object)->box, gtk_widget_unparent);
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
  GtkWidget *row = cro_wrap_new (9, 6);
  GtkWidget *button = gtk_button_new_with_label (_("Add Pack"));

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  /* Translators: an invented supplier, as an example. */
  self->supplier = add_entry (self, row, _("Supplier"), 18, _("Quay Shellfish"));
  self->code = add_entry (self, row, _("Code"), 8, NULL);
  self->count = add_entry (self, row, _("Pack of"), 5, "1");
  self->size = add_entry (self, row, _("times"), 8, NULL);
  self->price = add_entry (self, row, _("Price of a pack"), 9, NULL);
  gtk_widget_set_valign (button, GTK_ALIGN_END);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (add_cb), self);
  cro_wrap_append (CRO_WRAP (row), button);
  self->reason = cro_text_new (NULL, "reason");
  gtk_widget_set_visible (self->reason, FALSE);
  gtk_box_append (GTK_BOX (self->box), row);
  gtk_box_append (GTK_BOX (self->box), self->reason);
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
  clear (self);
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
