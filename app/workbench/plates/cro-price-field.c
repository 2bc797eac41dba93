#include "config.h"

#include "cro-price-field.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-card.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-pack.h"
#include "cro-price-change.h"
#include "cro-words-price.h"
#include "cro-words.h"

struct _CroPriceField
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *input;
  GtkWidget *unit;

  CroBench  *bench;       /* borrowed */
  guint32    offer;
  double     price;       /* of a kg, a litre, or one */
  double     of_pack;     /* what a pack costs where that is 1 */
  CroUnit    of_unit;     /* a kg, a litre, or one */
};

G_DEFINE_FINAL_TYPE (CroPriceField, cro_price_field, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroPriceField *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- The way ---------------------------------------------------------------------------------- */

static char *
dup_price (CroInput *input,
           gpointer  owner)
{
  CroPriceField *self = owner;
  CroModel *model = cro_book_get_model (book_of (self));

  return isfinite (self->price)
             ? cro_words_price (model, (gint64) llround (round (self->price * 1e4) * 100))
             : g_strdup ("");
}

/* FALSE: nothing is typed. */
static gboolean
read_pack (CroPriceField  *self,
           const CroCell  *cell,
           gint64         *pack,
           GError        **error)
{
  if (cell->kind == CRO_CELL_INTEGER)
    {
      if (cro_pack_price_of (cro_book_get_model (book_of (self)), self->offer,
                             cro_decimal_to_double (cell->integer) * self->of_pack, cro_money_round, pack))
        return TRUE;
      g_set_error_literal (error, g_quark_from_static_string ("cro-price-field"), 0,
                           _("This is out of range."));
      return FALSE;
    }
  g_set_error_literal (error, g_quark_from_static_string ("cro-price-field"), 0,
                       _("Type a price; Escape gives back the one of before."));
  return FALSE;
}

/* Of a pack, as the sheets state it, in the offer's currency. */
static void
read_of_pack (CroPriceField *self,
              const char    *text,
              CroEntry      *entry)
{
  CroModel *model = cro_book_get_model (book_of (self));
  const CroPack pack = cro_pack_in_force (model, self->offer);

  if (cro_pack_read_price (model, self->offer, &pack, text, cro_words_entry (), entry)
      && !cro_decimal_from_double (cro_decimal_to_double (entry->micro) / self->of_pack, &entry->micro))
    entry->status = CRO_ENTRY_OUT_OF_RANGE;
}

/* Alone it is that of what the field names: "14.20". It may be of another unit, of the pack, or a change of what
 * stands there. */
static char *
read_price (CroInput    *input,
            const char  *text,
            CroCell     *cell,
            char       **understood,
            gpointer     owner)
{
  CroPriceField *self = owner;
  CroModel *model = cro_book_get_model (book_of (self));
  const CroPriceOf of = { model->currency, CRO_TAX_WITHOUT, FALSE, { CRO_MICRO, CRO_MICRO, self->of_unit } };
  const char *currency = model->currency;
  g_auto (CroEntry) entry = { 0 };
  gint64 before;

  if (cro_price_is_change (text) && cro_decimal_from_double (self->price, &before))
    cro_price_change_by (NULL, before, text, &entry.micro, &entry);
  else
    cro_entry_price (text, &of, cro_words_entry (), &entry);
  if (entry.status == CRO_ENTRY_SIZELESS_UNIT)
    {
      cro_entry_clear (&entry);
      read_of_pack (self, text, &entry);
      currency = cro_model_currency_of (model, self->offer);
    }
  if (entry.status == CRO_ENTRY_OK)
    *cell = CRO_CELL_INT (entry.micro);
  *understood = g_steal_pointer (&entry.understood);
  return cro_words_price_reason (text, &entry, currency);
}

static gboolean
preview_price (CroInput       *input,
               const CroCell  *cell,
               gpointer        owner,
               GError        **error)
{
  CroPriceField *self = owner;
  gint64 pack;

  return read_pack (self, cell, &pack, error)
         && cro_book_preview_price (book_of (self), self->offer, pack, error);
}

static gboolean
keep_price (CroInput       *input,
            const CroCell  *cell,
            gpointer        owner,
            GError        **error)
{
  CroPriceField *self = owner;
  gint64 pack;

  return read_pack (self, cell, &pack, error)
         && cro_edit_set_price (book_of (self), cro_input_get_act (input), self->offer,
                                cro_book_get_figures (book_of (self))->date, pack, error);
}

static const CroInputWay way = { .dup_text = dup_price, .preview = preview_price, .keep = keep_price };

/* --- Showing ---------------------------------------------------------------------------------- */

void
cro_price_field_set (CroPriceField *self,
                     guint32        item,
                     double         unit_cost)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  CroModel *model = figures->model;
  CroBase base = (CroBase) model->measures[item].base;
  double units = base == CRO_BASE_EACH ? 1 : 1000;
  const char *name = cro_model_item (model, item)->name;
  g_autofree char *act = cro_isolate_printf (_("price of %s"), name);
  g_autofree char *per = cro_words_per_base (base, "");
  self->offer = figures->offer_in_use[item];
  gtk_widget_set_visible (GTK_WIDGET (self), self->offer != CRO_NO_SLOT);
  if (self->offer == CRO_NO_SLOT)
    return;
  self->price = unit_cost * units;
  self->of_unit = base == CRO_BASE_GRAM ? CRO_UNIT_KG : base == CRO_BASE_MILLILITRE ? CRO_UNIT_L : CRO_UNIT_EACH;
  self->of_pack = cro_offer_price_at (&cro_model_offer (model, self->offer)->offer, &model->measures[item], 1 / units);
  gtk_label_set_label (GTK_LABEL (self->unit), per);
  cro_input_set_way (CRO_INPUT (self->input), &way, self);
  cro_input_set_read (CRO_INPUT (self->input), read_price);
  cro_input_bind (CRO_INPUT (self->input), book_of (self), "offer",
                  cro_model_offer (model, self->offer)->id, "price", act, NULL);
  cro_input_set_name (CRO_INPUT (self->input), act);
  cro_input_refresh (CRO_INPUT (self->input));
}

gboolean
cro_price_field_is_edited (CroPriceField *self)
{
  return cro_input_is_edited (CRO_INPUT (self->input));
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_price_field_dispose (GObject *object)
{
  g_clear_pointer (&CRO_PRICE_FIELD (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_price_field_parent_class)->dispose (object);
}

static void
cro_price_field_class_init (CroPriceFieldClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_price_field_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_price_field_init (CroPriceField *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 3);
  self->input = cro_input_new (CRO_INPUT_MONEY, CRO_RANGE_AT_LEAST_0, "");
  cro_input_set_width (CRO_INPUT (self->input), 7);
  cro_input_hide_old (CRO_INPUT (self->input));
  self->unit = cro_caption_new ("", 0);
  gtk_box_append (GTK_BOX (self->box), self->input);
  gtk_box_append (GTK_BOX (self->box), self->unit);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_price_field_new (CroBench *bench)
{
  CroPriceField *self = g_object_new (CRO_TYPE_PRICE_FIELD, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
