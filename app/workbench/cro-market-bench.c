#include "config.h"

#include "cro-market-bench.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-number.h"
#include "cro-records-view.h"
#include "cro-words.h"
#include "cro-wrap.h"

enum
{
  PACKS,
  SUPPLIERS,
  RATES,
  N_TABLES,
};

struct _CroMarketBench
{
  CroBench         parent_instance;

  GtkWidget       *box;
  CroBook         *shown;           /* the book that the tables show; borrowed, may be stale */
  CroRecordsView  *views[N_TABLES];

  GtkWidget       *pack;            /* which one gets a price */
  GtkWidget       *price, *price_from;
  GtkWidget       *supplier;        /* the name of a new one */
  GtkWidget       *contact, *note;  /* of the one selected */
  GtkWidget       *currency, *rate, *per, *rate_from;
};

G_DEFINE_FINAL_TYPE (CroMarketBench, cro_market_bench, CRO_TYPE_BENCH)

static CroBook *
book_of (CroMarketBench *self)
{
  return cro_bench_get_book (CRO_BENCH (self));
}

static const char *
text_of (GtkWidget *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

static void
clear (GtkWidget *entry)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), "");
}

/* --- Reading what was typed ---------------------------------------------------------------------- */

/* FALSE, with the focus on the field and the reason said. */
static gboolean
read_number (CroMarketBench *self,
             GtkWidget      *entry,
             CroRange        range,
             const char     *reason,
             gint64         *number)
{
  g_auto (CroEntry) read = { 0 };

  if (cro_entry_number (text_of (entry), range, &read))
    {
      *number = read.micro;
      return TRUE;
    }
  gtk_widget_grab_focus (entry);
  cro_bench_say (CRO_BENCH (self), reason);
  return FALSE;
}

/* The book's date where nothing was typed. */
static gboolean
read_date (CroMarketBench *self,
           GtkWidget      *entry,
           CroDate        *date)
{
  g_auto (CroEntry) read = { 0 };

  if (cro_entry_date (text_of (entry), &read))
    *date = read.date;
  else if (read.status == CRO_ENTRY_EMPTY)
    *date = cro_book_get_figures (book_of (self))->date;
  else
    {
      gtk_widget_grab_focus (entry);
      cro_bench_say (CRO_BENCH (self), _("This is not a date."));
      return FALSE;
    }
  return TRUE;
}

/* --- Packs -------------------------------------------------------------------------------------------- */

static guint32
selected_slot (CroMarketBench *self,
               int             table,
               CroRefKind      kind)
{
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->views[table]);
  CroRef ref = record != NULL ? cro_record_get_ref (record) : CRO_REF_NOWHERE;

  return ref.kind == kind ? ref.slot : CRO_NO_SLOT;
}

static void
pack_selected_cb (CroMarketBench *self)
{
  guint32 slot = selected_slot (self, PACKS, CRO_REF_OFFER);
  CroModel *model = book_of (self) != NULL ? cro_book_get_model (book_of (self)) : NULL;
  g_autofree char *text = NULL;

  if (slot == CRO_NO_SLOT || model == NULL)
    {
      gtk_label_set_label (GTK_LABEL (self->pack), _("Choose a pack to give it a price."));
      return;
    }
  /* Translators: an ingredient, and the supplier of the pack that gets a price. */
  text = g_strdup_printf (_("%s, %s"), cro_model_item (model, cro_model_offer (model, slot)->item)->name,
                          cro_ref_name (model, CRO_REF (CRO_REF_OFFER, slot)));
  gtk_label_set_label (GTK_LABEL (self->pack), text);
}

static void
set_price_cb (CroMarketBench *self)
{
  guint32 slot = selected_slot (self, PACKS, CRO_REF_OFFER);
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *label = NULL;
  g_autoptr (GError) error = NULL;
  gint64 price;
  CroDate from;

  if (slot == CRO_NO_SLOT)
    {
      cro_bench_say (CRO_BENCH (self), _("Choose a pack to give it a price."));
      return;
    }
  if (!read_number (self, self->price, CRO_RANGE_AT_LEAST_0, _("The price is not a number."), &price)
      || !read_date (self, self->price_from, &from))
    return;
  label = g_strdup_printf (_("price of %s"),
                           cro_model_item (model, cro_model_offer (model, slot)->item)->name);
  if (!cro_edit_set_price (book_of (self), label, slot, from, price, &error))
    cro_bench_fail (CRO_BENCH (self), error);
  else
    clear (self->price);
}

/* --- Suppliers ------------------------------------------------------------------------------------------ */

static void
supplier_selected_cb (CroMarketBench *self)
{
  guint32 slot = selected_slot (self, SUPPLIERS, CRO_REF_SUPPLIER);
  gboolean has_one = slot != CRO_NO_SLOT && book_of (self) != NULL;

  gtk_widget_set_sensitive (self->contact, has_one);
  gtk_widget_set_sensitive (self->note, has_one);
  if (has_one)
    {
      CroModel *model = cro_book_get_model (book_of (self));
      const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, slot);
      g_autofree char *of_contact = g_strdup_printf (_("contact of %s"), supplier->name);
      g_autofree char *of_note = g_strdup_printf (_("note of %s"), supplier->name);

      cro_input_bind (CRO_INPUT (self->contact), book_of (self), "supplier", supplier->id, "contact",
                      of_contact, supplier->name);
      cro_input_bind (CRO_INPUT (self->note), book_of (self), "supplier", supplier->id, "note",
                      of_note, supplier->name);
    }
}

static void
add_supplier_cb (CroMarketBench *self)
{
  g_autofree char *label = g_strdup_printf (_("supplier %s"), text_of (self->supplier));
  g_autoptr (GError) error = NULL;

  if (!cro_edit_add_supplier (book_of (self), label, text_of (self->supplier), NULL, &error))
    cro_bench_fail (CRO_BENCH (self), error);
  else
    clear (self->supplier);
}

static void
remove_supplier_cb (CroMarketBench *self)
{
  guint32 slot = selected_slot (self, SUPPLIERS, CRO_REF_SUPPLIER);
  CroRef ref = CRO_REF (CRO_REF_SUPPLIER, slot);
  g_autofree char *label = NULL;
  g_autoptr (GError) error = NULL;

  if (slot == CRO_NO_SLOT)
    return;
  label = g_strdup_printf (_("removal of %s"), cro_ref_name (cro_book_get_model (book_of (self)), ref));
  if (cro_edit_remove (book_of (self), label, ref, &error))
    return;
  if (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_IN_USE))
    cro_bench_say (CRO_BENCH (self), _("This supplier has packs or purchases, and stays."));
  else
    cro_bench_fail (CRO_BENCH (self), error);
}

/* --- Rates ------------------------------------------------------------------------------------------------ */

static void
set_rate_cb (CroMarketBench *self)
{
  g_autofree char *code = g_ascii_strup (text_of (self->currency), -1);
  g_autofree char *label = g_strdup_printf (_("rate of %s"), g_strstrip (code));
  g_autoptr (GError) error = NULL;
  gint64 rate, per = CRO_MICRO;
  CroDate from;

  if (!read_number (self, self->rate, CRO_RANGE_ABOVE_0, _("The rate is not a number."), &rate)
      || (*text_of (self->per) != '\0'
          && !read_number (self, self->per, CRO_RANGE_ABOVE_0, _("This is not a number."), &per))
      || !read_date (self, self->rate_from, &from))
    return;
  if (!cro_edit_set_rate (book_of (self), label, code, from, rate, per, &error))
    {
      cro_bench_fail (CRO_BENCH (self), error);
      return;
    }
  clear (self->rate);
}

static void
remove_rate_cb (CroMarketBench *self)
{
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->views[RATES]);
  g_autofree char *currency = record != NULL ? cro_record_dup_text (record, 0) : NULL;
  g_autofree char *label = g_strdup_printf (_("rate of %s"), currency != NULL ? currency : "");
  g_autoptr (GError) error = NULL;

  if (record != NULL
      && !cro_edit_remove_rate (book_of (self), label, cro_record_get_id (record), &error))
    cro_bench_fail (CRO_BENCH (self), error);
}

/* --- The bench -------------------------------------------------------------------------------------------- */

static void
cro_market_bench_show (CroBench *bench)
{
  CroMarketBench *self = CRO_MARKET_BENCH (bench);

  if (self->shown == book_of (self))
    return;
  self->shown = book_of (self);
  for (int i = 0; i < N_TABLES; i++)
    cro_records_view_set_book (self->views[i], self->shown);
  pack_selected_cb (self);
  supplier_selected_cb (self);
}

/* The tables follow the book themselves. */
static void
cro_market_bench_refresh (CroBench *bench)
{
  CroMarketBench *self = CRO_MARKET_BENCH (bench);

  if (selected_slot (self, SUPPLIERS, CRO_REF_SUPPLIER) == CRO_NO_SLOT)
    return;
  cro_input_refresh (CRO_INPUT (self->contact));
  cro_input_refresh (CRO_INPUT (self->note));
}

static void
cro_market_bench_dispose (GObject *object)
{
  g_clear_pointer (&CRO_MARKET_BENCH (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_market_bench_parent_class)->dispose (object);
}

static void
cro_market_bench_class_init (CroMarketBenchClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_market_bench_dispose;
  CRO_BENCH_CLASS (klass)->show = cro_market_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_market_bench_refresh;
}

static GtkWidget *
add_entry (CroMarketBench *self,
           GtkWidget      *row,
           const char     *caption,
           const char     *placeholder,
           int             width,
           GCallback       activate)
{
  GtkWidget *entry = cro_entry_new (caption, width);

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), placeholder);
  g_signal_connect_swapped (entry, "activate", activate, self);
  cro_wrap_append (CRO_WRAP (row), cro_field_new (caption, entry));
  return entry;
}

static void
add_button (CroMarketBench *self,
            GtkWidget      *row,
            const char     *label,
            GCallback       clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_set_valign (button, GTK_ALIGN_END);
  g_signal_connect_swapped (button, "clicked", clicked, self);
  cro_wrap_append (CRO_WRAP (row), button);
}

static GtkWidget *
pack_form_new (CroMarketBench *self)
{
  GtkWidget *row = cro_field_row_new ();

  self->pack = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->pack), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->pack), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (self->pack), 30);
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("Pack"), self->pack));
  self->price = add_entry (self, row, _("New price of the pack"), NULL, 10, G_CALLBACK (set_price_cb));
  self->price_from = add_entry (self, row, _("Since"), _("today"), 12, G_CALLBACK (set_price_cb));
  add_button (self, row, _("Set Price"), G_CALLBACK (set_price_cb));
  return row;
}

static GtkWidget *
supplier_form_new (CroMarketBench *self)
{
  GtkWidget *row = cro_field_row_new ();

  self->supplier = add_entry (self, row, _("New supplier"), _("name"), 22,
                              G_CALLBACK (add_supplier_cb));
  add_button (self, row, _("Add"), G_CALLBACK (add_supplier_cb));
  self->contact = cro_field_add (row, _("Contact"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 24);
  self->note = cro_field_add (row, _("Note"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 30);
  add_button (self, row, _("Remove"), G_CALLBACK (remove_supplier_cb));
  return row;
}

static GtkWidget *
rate_form_new (CroMarketBench *self)
{
  GtkWidget *row = cro_field_row_new ();

  self->currency = add_entry (self, row, _("Currency"), _("GBP"), 6, G_CALLBACK (set_rate_cb));
  self->rate = add_entry (self, row, _("Rate"), NULL, 10, G_CALLBACK (set_rate_cb));
  self->per = add_entry (self, row, _("For"), "1", 6, G_CALLBACK (set_rate_cb));
  self->rate_from = add_entry (self, row, _("Since"), _("today"), 12, G_CALLBACK (set_rate_cb));
  add_button (self, row, _("Set Rate"), G_CALLBACK (set_rate_cb));
  add_button (self, row, _("Remove"), G_CALLBACK (remove_rate_cb));
  return row;
}

static void
cro_market_bench_init (CroMarketBench *self)
{
  static const CroRecordsKind kinds[N_TABLES] = { CRO_RECORDS_OFFERS, CRO_RECORDS_SUPPLIERS,
                                                  CRO_RECORDS_RATES };
  const char *titles[N_TABLES] = { _("Packs and Prices"), _("Suppliers"), _("Exchange Rates") };
  GtkWidget *forms[N_TABLES] = { pack_form_new (self), supplier_form_new (self), rate_form_new (self) };
  GtkWidget *stack = gtk_stack_new ();
  GtkWidget *switcher = gtk_stack_switcher_new ();

  for (int i = 0; i < N_TABLES; i++)
    {
      GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
      g_autofree char *name = g_strdup_printf ("%d", i);

      self->views[i] = CRO_RECORDS_VIEW (cro_records_view_new (CRO_BENCH (self), kinds[i]));
      gtk_widget_set_vexpand (GTK_WIDGET (self->views[i]), TRUE);
      gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->views[i]));
      gtk_box_append (GTK_BOX (page), forms[i]);
      gtk_stack_add_titled (GTK_STACK (stack), page, name, titles[i]);
    }
  cro_records_view_connect_selected (self->views[PACKS], G_CALLBACK (pack_selected_cb), self);
  cro_records_view_connect_selected (self->views[SUPPLIERS], G_CALLBACK (supplier_selected_cb), self);
  gtk_stack_switcher_set_stack (GTK_STACK_SWITCHER (switcher), GTK_STACK (stack));
  gtk_widget_set_halign (switcher, GTK_ALIGN_START);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_add_css_class (self->box, "bench");
  gtk_box_append (GTK_BOX (self->box), switcher);
  gtk_box_append (GTK_BOX (self->box), stack);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}
