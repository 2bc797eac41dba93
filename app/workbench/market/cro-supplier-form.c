#include "config.h"

#include "cro-supplier-form.h"

#include <glib/gi18n.h>

#include "cro-choice.h"
#include "cro-code.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-new-name.h"
#include "cro-past-words.h"
#include "cro-wrap.h"

struct _CroSupplierForm
{
  GtkWidget       parent_instance;

  GtkWidget      *box;
  GtkWidget      *fields;
  GtkWidget      *name;
  GtkWidget      *contact;
  GtkWidget      *quotes;
  GtkWidget      *minimum;      /* of an order */
  GtkWidget      *delivery;     /* charged below it */
  GtkWidget      *note;

  CroBench       *bench;        /* borrowed */
  guint32         into;         /* whom a merge that is asked about would go to */
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

  return other != cro_bench_get_slot (self->bench) ? other : CRO_NO_SLOT;
}

/* Those whose supplier nobody named are given to one in this way, or any to another. */
static char *
tell_name (CroInput      *input,
           const CroCell *cell,
           gpointer       form)
{
  CroModel *model = cro_book_get_model (book_of (form));
  CroRef ref = cro_bench_get_ref (((CroSupplierForm *) form)->bench);
  guint32 other = find_other (form, cell);
  const char *name = other != CRO_NO_SLOT ? cro_ref_name (model, CRO_REF (CRO_REF_SUPPLIER, other)) : NULL;
  g_autofree char *places = NULL;

  if (name == NULL)
    return cro_new_name_tell (input, ref, cell->kind == CRO_CELL_TEXT ? cell->text : "");
  places = cro_new_name_places (input, ref);
  return places == NULL
             /* Translators: a supplier, whose name is typed for another one. */
             ? cro_isolate_printf (_("“%s” exists already. Press Enter to be asked whether to merge both."), name)
             /* Translators: the same, and what moves: "2 packs: Milk, Butter; 4 purchases". */
             : cro_isolate_printf (_("“%s” exists already. Press Enter to be asked whether to merge both: it then "
                                     "also has %s. No cost changes."),
                                   name, places);
}

static gboolean
asks_of_name (CroInput      *input,
              const CroCell *cell,
              gpointer       form)
{
  return find_other (form, cell) != CRO_NO_SLOT;
}

/* Of a name that is taken it is the list of a merge, which keeping opens. */
static void
show_name (CroInput      *input,
           const CroCell *cell,
           gpointer       form)
{
  if (find_other (form, cell) != CRO_NO_SLOT)
    cro_input_keep (input);
  else
    cro_new_name_show (input, cro_bench_get_ref (((CroSupplierForm *) form)->bench),
                       cell->kind == CRO_CELL_TEXT ? cell->text : "");
}

static void
merge_cb (CroSupplierForm *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  guint32 of = cro_bench_get_slot (self->bench), into = self->into;
  g_autofree char *from = g_strdup (g_array_index (model->suppliers, CroSupplier, of).name);
  g_autofree char *to = g_strdup (g_array_index (model->suppliers, CroSupplier, into).name);
  g_autofree char *label = cro_isolate_printf (_("merge of %s into %s"), from, to);
  g_autofree char *said = NULL;
  g_autoptr (GError) error = NULL;

  g_object_ref (self);
  cro_input_drop (CRO_INPUT (self->name));
  if (cro_edit_merge_supplier (book_of (self), label, of, into, &error))
    {
      /* Translators: two suppliers. */
      said = cro_isolate_printf (_("“%s” was merged into “%s”. Undo gives it back."), from, to);
      cro_bench_say (self->bench, said);
      cro_bench_open (self->bench, CRO_REF (CRO_REF_SUPPLIER, into));
    }
  else
    cro_bench_fail (self->bench, error);
  g_object_unref (self);
}

/* What has one name already becomes one with it where somebody says so to what it would move. */
static void
ask_merge (CroSupplierForm *self,
           CroInput        *input,
           guint32          other)
{
  CroModel *model = cro_book_get_model (book_of (self));
  const char *to = g_array_index (model->suppliers, CroSupplier, other).name;
  CroRef ref = cro_bench_get_ref (self->bench);
  g_autofree char *note = cro_isolate_printf (
      /* Translators: two suppliers. */
      _("All of these move to “%s”, and “%s” goes. Its contact, minimum order, delivery charge and note move only "
        "where the other has none. No plate costs more or less."),
      to, cro_ref_name (model, ref));

  self->into = other;
  g_signal_connect_object (cro_new_name_show_merge (input, ref, to, note), "clicked", G_CALLBACK (merge_cb), self,
                           G_CONNECT_SWAPPED);
}

static gboolean
rename_supplier (CroInput       *input,
                 const CroCell  *cell,
                 gpointer        form,
                 GError        **error)
{
  CroSupplierForm *self = form;
  guint32 other = find_other (self, cell);

  if (cro_edit_rename (book_of (self), cro_input_get_act (input), cro_bench_get_ref (self->bench),
                       cell->kind == CRO_CELL_TEXT ? cell->text : "", error))
    return TRUE;
  if (other != CRO_NO_SLOT)
    ask_merge (self, input, other);
  return FALSE;
}

static void
look_name (CroInput *input,
           gpointer  form)
{
  cro_new_name_look (input, cro_bench_get_ref (((CroSupplierForm *) form)->bench));
}

static const CroInputWay name_way = { NULL, cro_input_preview_nothing, rename_supplier, FALSE, look_name };

static void
bind (CroSupplierForm *self,
      GtkWidget       *input,
      const char      *column)
{
  CroModel *model = cro_book_get_model (book_of (self));
  const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier,
                                                cro_bench_get_slot (self->bench));
  g_autofree char *act = cro_past_dup_act ("supplier", column, supplier->name);

  if (CRO_IS_CHOICE (input))
    cro_choice_bind (CRO_CHOICE (input), book_of (self), "supplier", supplier->id, column, act);
  else
    cro_input_bind (CRO_INPUT (input), book_of (self), "supplier", supplier->id, column, act, NULL);
}

void
cro_supplier_form_show (CroSupplierForm *self)
{
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
  cro_input_refresh (CRO_INPUT (self->name));
  cro_input_refresh (CRO_INPUT (self->contact));
  cro_choice_refresh (CRO_CHOICE (self->quotes));
  cro_input_refresh (CRO_INPUT (self->minimum));
  cro_input_refresh (CRO_INPUT (self->delivery));
  cro_input_refresh (CRO_INPUT (self->note));
}

/* --- Acts ---------------------------------------------------------------------------------------------- */

static void
remove_cb (CroSupplierForm *self)
{
  CroRef ref = cro_bench_get_ref (self->bench);
  g_autofree char *label = NULL;
  g_autoptr (GError) error = NULL;

  label = cro_isolate_printf (_("removal of %s"),
                              cro_ref_name (cro_book_get_model (book_of (self)), ref));
  if (cro_edit_remove (book_of (self), label, ref, &error))
    return;
  if (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_IN_USE))
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
}

static void
add_fields (CroSupplierForm *self)
{
  self->fields = cro_field_row_new ();
  self->name = cro_field_add (self->fields, _("Supplier"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 22);
  cro_input_set_way (CRO_INPUT (self->name), &name_way, self);
  cro_input_set_tell (CRO_INPUT (self->name), tell_name);
  cro_input_set_show (CRO_INPUT (self->name), show_name);
  cro_input_set_asks (CRO_INPUT (self->name), asks_of_name);
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

GtkWidget *
cro_supplier_form_new (CroBench *bench)
{
  CroSupplierForm *self = g_object_new (CRO_TYPE_SUPPLIER_FORM, NULL);

  self->bench = bench;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  add_fields (self);
  gtk_box_append (GTK_BOX (self->box), self->fields);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
