#include "config.h"

#include "cro-new-offer-view.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-doubt.h"
#include "cro-edit.h"
#include "cro-entry-form.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-name.h"
#include "cro-number.h"
#include "cro-price-words.h"
#include "cro-read-only.h"
#include "cro-refused-words.h"
#include "cro-spoken.h"
#include "cro-template.h"
#include "cro-words-price.h"
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
  GtkWidget *currency;
  GtkWidget *suppliers_button;
  GtkWidget *popover;
  GtkWidget *suppliers;  /* what the button beside their field offers */

  CroBench  *bench;     /* borrowed */
  CroUnit    unit;
  char      *asked;     /* the supplier whose name was asked about; NULL */
  gint64     asked_usec;
};

G_DEFINE_FINAL_TYPE (CroNewOfferView, cro_new_offer_view, GTK_TYPE_WIDGET)

/* --- Suppliers that are there ----------------------------------------------------------------- */

static void
supplier_chosen_cb (CroNewOfferView *self,
                    GtkListBoxRow   *row)
{
  gtk_editable_set_text (GTK_EDITABLE (self->supplier),
                         gtk_label_get_label (GTK_LABEL (gtk_list_box_row_get_child (row))));
  gtk_popover_popdown (GTK_POPOVER (self->popover));
  gtk_widget_grab_focus (self->code);
}

static int
by_name (gconstpointer a,
         gconstpointer b)
{
  return g_utf8_collate (*(const char *const *) a, *(const char *const *) b);
}

static void
list_suppliers (CroNewOfferView *self)
{
  GArray *suppliers = cro_book_get_model (cro_bench_get_book (self->bench))->suppliers;
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->suppliers)) != NULL;)
    gtk_list_box_remove (GTK_LIST_BOX (self->suppliers), child);
  for (guint i = 0; i < suppliers->len; i++)
    if (!g_array_index (suppliers, CroSupplier, i).is_dead)
      g_ptr_array_add (names, (gpointer) g_array_index (suppliers, CroSupplier, i).name);
  g_ptr_array_sort (names, by_name);
  for (guint i = 0; i < names->len; i++)
    {
      GtkWidget *label = gtk_label_new (names->pdata[i]);

      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_list_box_append (GTK_LIST_BOX (self->suppliers), label);
    }
}

/* --- What was typed --------------------------------------------------------------------------- */

/* Nothing: the book's. */
static gboolean
read_currency (CroNewOfferView *self,
               char           **code)
{
  g_autofree char *reason = NULL;

  *code = g_strstrip (g_ascii_strup (cro_entry_form_text (self->currency), -1));
  if (**code == '\0')
    g_clear_pointer (code, g_free);
  if (*code == NULL || cro_currency_is_code (*code))
    return TRUE;
  reason = cro_words_no_currency (*code);
  return cro_entry_form_refuse (CRO_ENTRY_FORM (self->form), self->currency, reason);
}

/* The currency's field says it, else the price does. */
static gboolean
read_price (CroNewOfferView  *self,
            const CroPack    *pack,
            char            **code,
            CroEntry         *price)
{
  const char *text = cro_entry_form_text (self->price);
  CroPriceOf of = { NULL, CRO_TAX_WITHOUT, TRUE, *pack };
  char said[4];

  if (*code == NULL && cro_currency_of_text (text, said))
    *code = g_strdup (said);
  of.currency = *code != NULL ? *code : cro_book_get_model (cro_bench_get_book (self->bench))->currency;
  if (!cro_entry_price (text, &of, cro_words_entry (), price) && price->status != CRO_ENTRY_EMPTY)
    {
      g_autofree char *reason = cro_words_price_reason (text, price, of.currency);

      return cro_entry_form_refuse (CRO_ENTRY_FORM (self->form), self->price, reason);
    }
  return TRUE;
}

/* "2.85/kg" alone is the price of a pack of one kilogram, "31/500 g" of one of 500 g. */
static gboolean
read_pack_of_price (CroNewOfferView *self,
                    CroEntry        *size)
{
  const CroPriceOf of = { .pack = { CRO_MICRO, CRO_MICRO, self->unit } };
  g_auto (CroEntry) price = { 0 };

  cro_entry_price (cro_entry_form_text (self->price), &of, cro_words_entry (), &price);
  if (!price.has_unit)
    return FALSE;
  *size = (CroEntry){ .micro = price.per, .unit = price.unit };
  return TRUE;
}

static gboolean
refuse (CroNewOfferView *self,
        GtkWidget       *entry,
        const CroEntry  *read)
{
  g_autofree char *reason = cro_words_entry_reason (cro_entry_form_text (entry), read);

  return cro_entry_form_refuse (CRO_ENTRY_FORM (self->form), entry,
                                reason != NULL ? reason : _("What is in a pack? For instance 5 kg."));
}

static gboolean
read_fields (CroNewOfferView  *self,
             CroNewOffer      *new_offer,
             char            **code)
{
  g_auto (CroEntry) count = { 0 }, size = { 0 }, price = { 0 };
  CroPack pack;

  if (!cro_entry_number (cro_entry_form_text (self->count), CRO_RANGE_ABOVE_0, &count)
      && count.status != CRO_ENTRY_EMPTY)
    return refuse (self, self->count, &count);
  if (!cro_entry_measured (cro_entry_form_text (self->size), self->unit, CRO_RANGE_ABOVE_0,
                           cro_words_entry (), &size)
      && !(size.status == CRO_ENTRY_EMPTY && count.status == CRO_ENTRY_EMPTY && read_pack_of_price (self, &size)))
    return refuse (self, self->size, &size);
  pack = (CroPack){ count.status == CRO_ENTRY_EMPTY ? CRO_MICRO : count.micro, size.micro,
                    size.unit };
  if (!read_price (self, &pack, code, &price))
    return FALSE;
  new_offer->pack_count = pack.count;
  new_offer->pack_size = pack.size;
  new_offer->pack_unit = pack.unit;
  new_offer->has_price = price.status == CRO_ENTRY_OK;
  new_offer->price = price.micro;
  return TRUE;
}

/* A new supplier whose name is like another's is made when that is entered once more. */
static gboolean
asks_of_supplier (CroNewOfferView *self,
                  const char      *name)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (self->bench));
  g_autofree char *tidy = cro_name_dup_tidy (name), *question = NULL, *reason = NULL;
  CroRef bearer = cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, tidy);
  g_autoptr (CroLikeNames) likes = cro_doubt_likes (model, CRO_REF (CRO_REF_SUPPLIER, CRO_NO_SLOT));
  CroDoubt doubt;

  if ((g_strcmp0 (name, self->asked) == 0 && !cro_is_double_press (GTK_WIDGET (self), self->asked_usec))
      || (bearer.kind != CRO_REF_NONE && g_str_equal (cro_ref_name (model, bearer), tidy))
      || !cro_doubt_of_new_name (model, likes, CRO_REF (CRO_REF_SUPPLIER, CRO_NO_SLOT), name, &doubt))
    return FALSE;
  g_free (self->asked);
  self->asked = g_strdup (name);
  self->asked_usec = g_get_monotonic_time ();
  question = cro_words_doubt (model, &doubt);
  /* Translators: a question: whether a supplier of the book is the one that was typed; the name that was typed. */
  reason = cro_isolate_printf (_("%s Press Enter again to add “%s”."), question, name);
  cro_entry_form_refuse (CRO_ENTRY_FORM (self->form), self->supplier, reason);
  return TRUE;
}

static void
add_cb (CroNewOfferView *self)
{
  CroBook *book = cro_bench_get_book (self->bench);
  const char *supplier = cro_entry_form_text (self->supplier);
  g_autofree char *label = cro_bench_dup_label (self->bench, _("pack"));
  g_autofree char *currency = NULL;
  g_autoptr (GError) error = NULL;
  CroNewOffer new_offer = {
    .item = cro_bench_get_slot (self->bench),
    .supplier = CRO_NO_SLOT,
    .supplier_name = *supplier != '\0' ? supplier : cro_words_no_supplier (cro_book_get_model (book)),
    .code = cro_entry_form_text (self->code),
    .from = cro_book_get_figures (book)->date,
  };

  cro_entry_form_accept (CRO_ENTRY_FORM (self->form));
  if (!read_currency (self, &currency) || !read_fields (self, &new_offer, &currency)
      || (*supplier != '\0' && asks_of_supplier (self, supplier)))
    return;
  new_offer.currency = currency;
  if (!cro_edit_add_offer (book, label, &new_offer, NULL, &error))
    {
      g_autofree char *message = cro_words_refused (error);

      cro_entry_form_refuse (CRO_ENTRY_FORM (self->form), self->code, message);
      return;
    }
  g_clear_pointer (&self->asked, g_free);
  cro_entry_form_clear (CRO_ENTRY_FORM (self->form));
  gtk_widget_grab_focus (self->supplier);
}

static void
cro_new_offer_view_dispose (GObject *object)
{
  cro_template_dispose (object, CRO_TYPE_NEW_OFFER_VIEW);
  g_clear_pointer (&CRO_NEW_OFFER_VIEW (object)->asked, g_free);
  G_OBJECT_CLASS (cro_new_offer_view_parent_class)->dispose (object);
}

static void
cro_new_offer_view_class_init (CroNewOfferViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_new_offer_view_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  cro_template_set (widget_class, "cro-new-offer-view");
  gtk_widget_class_bind_template_child (widget_class, CroNewOfferView, form);
  gtk_widget_class_bind_template_child (widget_class, CroNewOfferView, supplier);
  gtk_widget_class_bind_template_child (widget_class, CroNewOfferView, suppliers_button);
  gtk_widget_class_bind_template_child (widget_class, CroNewOfferView, popover);
  gtk_widget_class_bind_template_child (widget_class, CroNewOfferView, suppliers);
  gtk_widget_class_bind_template_child (widget_class, CroNewOfferView, code);
  gtk_widget_class_bind_template_child (widget_class, CroNewOfferView, count);
  gtk_widget_class_bind_template_child (widget_class, CroNewOfferView, size);
  gtk_widget_class_bind_template_child (widget_class, CroNewOfferView, price);
  gtk_widget_class_bind_template_child (widget_class, CroNewOfferView, currency);
  gtk_widget_class_bind_template_callback (widget_class, add_cb);
  gtk_widget_class_bind_template_callback (widget_class, list_suppliers);
  gtk_widget_class_bind_template_callback (widget_class, supplier_chosen_cb);
}

static void
cro_new_offer_view_init (CroNewOfferView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  cro_spoken_set (self->suppliers_button, _("Choose a supplier"));
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
  g_clear_pointer (&self->asked, g_free);
  cro_read_only_show (self->form, cro_bench_get_book (self->bench));
  cro_entry_form_clear (CRO_ENTRY_FORM (self->form));
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->size), example);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->supplier),
                                  cro_words_no_supplier (cro_book_get_model (cro_bench_get_book (self->bench))));
  gtk_entry_set_placeholder_text (
      GTK_ENTRY (self->currency), cro_book_get_model (cro_bench_get_book (self->bench))->currency);
}

void
cro_new_offer_view_set_cure (CroNewOfferView *self,
                             gboolean         is_cure)
{
  cro_cure_set (self->price, CRO_CAUSE_PRICE, is_cure);
}

void
cro_new_offer_view_focus (CroNewOfferView *self)
{
  gtk_widget_grab_focus (self->supplier);
}
