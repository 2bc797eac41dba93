#include "config.h"

#include "cro-supplier-form.h"

#include <glib/gi18n.h>

#include "cro-choice.h"
#include "cro-code.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-past-words.h"
#include "cro-wrap.h"

struct _CroSupplierForm
{
  GtkWidget       parent_instance;

  GtkWidget      *box;
  GtkWidget      *fields;       /* of the one selected */
  GtkWidget      *name;
  GtkWidget      *contact;
  GtkWidget      *quotes;
  GtkWidget      *minimum;      /* of an order */
  GtkWidget      *delivery;     /* charged below it */
  GtkWidget      *note;
  GtkWidget      *added;        /* the name of a new one */

  CroBench       *bench;        /* borrowed */
  CroRecordsView *view;         /* borrowed */
  guint32         supplier;     /* CRO_NO_SLOT: none is selected */
};

G_DEFINE_FINAL_TYPE (CroSupplierForm, cro_supplier_form, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroSupplierForm *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- Showing ------------------------------------------------------------------------------------------ */

/* Another one that bears a name; CRO_NO_SLOT: none. */
static guint32
find_other (CroSupplierForm *self,
            const CroCell   *cell)
{
  guint32 other = cell->kind == CRO_CELL_TEXT
                      ? cro_edit_find_name (cro_book_get_model (book_of (self)), CRO_NAMES_SUPPLIERS, cell->text).slot
                      : CRO_NO_SLOT;

  return other != self->supplier ? other : CRO_NO_SLOT;
}

/* Those whose supplier nobody named are given to one in this way, or any to another. */
static char *
tell_name (CroInput      *input,
           const CroCell *cell,
           gpointer       form)
{
  return find_other (form, cell) == CRO_NO_SLOT
             ? NULL
             /* Translators: a supplier, whose name is typed for another one. */
             : cro_isolate_printf (_("“%s” exists already. Press Enter to move all packs and purchases there."),
                                   cell->text);
}

static gboolean
rename_supplier (CroInput       *input,
                 const CroCell  *cell,
                 gpointer        form,
                 GError        **error)
{
  CroSupplierForm *self = form;
  guint32 other = find_other (self, cell);

  if (other != CRO_NO_SLOT)
    {
      CroModel *model = cro_book_get_model (book_of (self));
      g_autofree char *label = cro_isolate_printf (
          _("merge of %s into %s"), g_array_index (model->suppliers, CroSupplier, self->supplier).name,
          g_array_index (model->suppliers, CroSupplier, other).name);

      return cro_edit_merge_supplier (book_of (self), label, self->supplier, other, error);
    }
  return cro_edit_rename (book_of (self), cro_input_get_act (input),
                          CRO_REF (CRO_REF_SUPPLIER, self->supplier),
                          cell->kind == CRO_CELL_TEXT ? cell->text : "", error);
}

static const CroInputWay name_way = { NULL, cro_input_preview_nothing, rename_supplier, FALSE, NULL };

static void
bind (CroSupplierForm *self,
      GtkWidget       *input,
      const char      *column)
{
  CroModel *model = cro_book_get_model (book_of (self));
  const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, self->supplier);
  g_autofree char *act = cro_past_dup_act ("supplier", column, supplier->name);

  if (CRO_IS_CHOICE (input))
    cro_choice_bind (CRO_CHOICE (input), book_of (self), "supplier", supplier->id, column, act);
  else
    cro_input_bind (CRO_INPUT (input), book_of (self), "supplier", supplier->id, column, act, NULL);
}

static void
selected_cb (CroSupplierForm *self)
{
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->view);
  CroRef ref = record != NULL ? cro_record_get_ref (record) : CRO_REF_NOWHERE;

  gtk_widget_set_visible (self->fields, ref.kind == CRO_REF_SUPPLIER && ref.slot != CRO_NO_SLOT);
  if (ref.kind != CRO_REF_SUPPLIER || book_of (self) == NULL || ref.slot == self->supplier)
    return;
  self->supplier = ref.slot;
  bind (self, self->name, "name");
  bind (self, self->contact, "contact");
  bind (self, self->quotes, "quotes");
  bind (self, self->minimum, "minimum_order_micro");
  bind (self, self->delivery, "delivery_charge_micro");
  bind (self, self->note, "note");
}

void
cro_supplier_form_refresh (CroSupplierForm *self)
{
  if (self->supplier == CRO_NO_SLOT)
    return;
  cro_input_refresh (CRO_INPUT (self->name));
  cro_input_refresh (CRO_INPUT (self->contact));
  cro_choice_refresh (CRO_CHOICE (self->quotes));
  cro_input_refresh (CRO_INPUT (self->minimum));
  cro_input_refresh (CRO_INPUT (self->delivery));
  cro_input_refresh (CRO_INPUT (self->note));
}

/* --- Acts ---------------------------------------------------------------------------------------------- */

/* It is chosen, so that what is known of it can be entered. */
static void
choose (CroSupplierForm *self,
        guint32          supplier)
{
  CroRecords *records = cro_records_view_get_records (self->view);
  guint n = records != NULL ? g_list_model_get_n_items (G_LIST_MODEL (records)) : 0;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (records), i);

      if (cro_record_get_ref (record).slot != supplier)
        continue;
      cro_records_view_select (self->view, record);
      gtk_widget_grab_focus (self->contact);
      return;
    }
}

static void
add_cb (CroSupplierForm *self)
{
  const char *name = gtk_editable_get_text (GTK_EDITABLE (self->added));
  guint32 supplier = CRO_NO_SLOT;
  g_autofree char *label = cro_isolate_printf (_("supplier %s"), name);
  g_autoptr (GError) error = NULL;

  if (!cro_edit_add_supplier (book_of (self), label, name, &supplier, &error))
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  gtk_editable_set_text (GTK_EDITABLE (self->added), "");
  cro_records_view_set_search (self->view, "");
  /* Its row is there once the table has heard of it. */
  cro_book_tell (book_of (self));
  choose (self, supplier);
}

static void
remove_cb (CroSupplierForm *self)
{
  CroRef ref = CRO_REF (CRO_REF_SUPPLIER, self->supplier);
  g_autofree char *label = NULL;
  g_autoptr (GError) error = NULL;

  label = cro_isolate_printf (_("removal of %s"),
                              cro_ref_name (cro_book_get_model (book_of (self)), ref));
  if (cro_edit_remove (book_of (self), label, ref, &error))
    cro_records_view_focus_rows (self->view);
  else if (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_IN_USE))
    cro_bench_say (self->bench, _("This supplier has packs or purchases and cannot be removed."));
  else
    cro_bench_fail (self->bench, error);
}

/* --- The widget ------------------------------------------------------------------------------------- */

static void
cro_supplier_form_dispose (GObject *object)
{
  g_clear_pointer (&CRO_SUPPLIER_FORM (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_supplier_form_parent_class)->dispose (object);
}

static void
cro_supplier_form_class_init (CroSupplierFormClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_supplier_form_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_supplier_form_init (CroSupplierForm *self)
{
  self->supplier = CRO_NO_SLOT;
}

static void
add_fields (CroSupplierForm *self)
{
  self->fields = cro_field_row_new ();
  self->name = cro_field_add (self->fields, _("Supplier"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 22);
  cro_input_set_way (CRO_INPUT (self->name), &name_way, self);
  cro_input_set_tell (CRO_INPUT (self->name), tell_name);
  self->contact = cro_field_add (self->fields, _("Contact"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 24);
  self->quotes = cro_choice_new_code (_("Price unit"), cro_quote_codes);
  cro_wrap_append (CRO_WRAP (self->fields), cro_field_new (_("Price unit"), self->quotes));
  self->minimum = cro_field_add (self->fields, _("Minimum order"), CRO_INPUT_MONEY, CRO_RANGE_AT_LEAST_0, 8);
  self->delivery = cro_field_add (self->fields, _("Delivery charge"), CRO_INPUT_MONEY,
                                  CRO_RANGE_AT_LEAST_0, 8);
  self->note = cro_field_add (self->fields, _("Note"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 30);
  cro_wrap_append (CRO_WRAP (self->fields),
                   cro_entry_button_new (_("Remove"), G_CALLBACK (remove_cb), self));
}

void
cro_supplier_form_focus (CroSupplierForm *self)
{
  gtk_widget_grab_focus (self->added);
}

GtkWidget *
cro_supplier_form_new (CroBench       *bench,
                       CroRecordsView *view)
{
  CroSupplierForm *self = g_object_new (CRO_TYPE_SUPPLIER_FORM, NULL);
  GtkWidget *row = cro_field_row_new ();

  self->bench = bench;
  self->view = view;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  add_fields (self);
  self->added = cro_entry_new (_("New supplier"), 22);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->added), _("name"));
  g_signal_connect_object (self->added, "activate", G_CALLBACK (add_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("New supplier"), self->added));
  cro_wrap_append (CRO_WRAP (row), cro_entry_button_new (_("Add"), G_CALLBACK (add_cb), self));
  gtk_box_append (GTK_BOX (self->box), self->fields);
  gtk_box_append (GTK_BOX (self->box), row);
  gtk_widget_set_visible (self->fields, FALSE);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  cro_records_view_connect_selected (view, G_CALLBACK (selected_cb), self);
  return GTK_WIDGET (self);
}
