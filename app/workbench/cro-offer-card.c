#include "config.h"

#include "cro-offer-card.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-bench-actions.h"
#include "cro-choice.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-number.h"
#include "cro-words.h"

struct _CroOfferCard
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *supplier;
  GtkWidget *cost;        /* per base unit */
  GtkWidget *state;       /* whether it is in use, and if not why */
  GtkWidget *price;
  GtkWidget *since;
  GtkWidget *count;
  GtkWidget *size;
  GtkWidget *unit;
  GtkWidget *code;
  GtkWidget *net;
  GtkWidget *currency;
  GtkWidget *until;
  GtkWidget *gtin;
  GtkWidget *preferred;

  CroBench  *bench;       /* borrowed */
  guint32    offer;
  gboolean   is_setting;
};

G_DEFINE_FINAL_TYPE (CroOfferCard, cro_offer_card, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroOfferCard *self)
{
  return cro_bench_get_book (self->bench);
}

static CroOfferEntry *
entry_of (CroOfferCard *self)
{
  return cro_model_offer (cro_book_get_model (book_of (self)), self->offer);
}

/* "Butter from Upriver Produce": what acts on the pack are about. */
static char *
dup_name (CroOfferCard *self)
{
  CroModel *model = cro_book_get_model (book_of (self));

  /* Translators: an ingredient and its supplier. */
  return g_strdup_printf (_("%s from %s"), cro_model_item (model, entry_of (self)->item)->name,
                          cro_ref_name (model, CRO_REF (CRO_REF_OFFER, self->offer)));
}

/* --- The price, which begins on the date that the book shows ------------------------------------ */

/* As the store has it: the model may hold what is being typed. */
static char *
dup_price (CroInput *input,
           gpointer  card)
{
  CroOfferCard *self = card;
  CroBook *book = book_of (self);
  char date[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;

  cro_date_format (cro_book_get_figures (book)->date, date);
  rows = cro_store_read_prices (cro_book_get_store (book), date, entry_of (self)->id, NULL);
  if (rows == NULL || !cro_rows_next (rows, NULL))
    return g_strdup ("");
  return cro_words_decimal (cro_rows_get_int (rows, 3));
}

static gboolean
preview_price (CroInput       *input,
               const CroCell  *cell,
               gpointer        card,
               GError        **error)
{
  CroOfferCard *self = card;

  if (cell->kind == CRO_CELL_NULL)
    return cro_book_restore (book_of (self), error);
  return cro_book_preview_price (book_of (self), self->offer, cell->integer, error);
}

static gboolean
keep_price (CroInput       *input,
            const CroCell  *cell,
            gpointer        card,
            GError        **error)
{
  CroOfferCard *self = card;

  if (cell->kind == CRO_CELL_NULL)
    {
      g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE, "a price is needed");
      return FALSE;
    }
  return cro_edit_set_price (book_of (self), cro_input_get_act (input), self->offer,
                             cro_book_get_figures (book_of (self))->date, cell->integer, error);
}

static const CroInputWay price_way = { dup_price, preview_price, keep_price };

/* --- Showing --------------------------------------------------------------------------------------- */

static const char *
lack_words (unsigned lacks)
{
  if (lacks & CRO_OFFER_LEFT)
    return _("no longer available");
  if (lacks & CRO_OFFER_LACKS_PRICE)
    return _("? no price");
  if (lacks & CRO_OFFER_LACKS_RATE)
    return _("? no exchange rate");
  if (lacks & CRO_OFFER_LACKS_DENSITY)
    return _("? no density");
  return _("? no piece weight");
}

static void
show_cost (CroOfferCard *self)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  const CroOfferEntry *entry = entry_of (self);
  const CroMeasure *measure = &figures->model->measures[entry->item];
  unsigned lacks = cro_offer_lacks (&entry->offer, measure, figures->date);
  gboolean is_used = figures->offer_in_use[entry->item] == self->offer;
  g_autofree char *cost = lacks == CRO_OFFER_PRICED
                              ? cro_words_unit_cost (figures->model, (CroBase) measure->base,
                                                     cro_offer_unit_cost (&entry->offer, measure))
                              : g_strdup ("–");

  gtk_label_set_label (GTK_LABEL (self->cost), cost);
  gtk_label_set_label (GTK_LABEL (self->state), lacks != CRO_OFFER_PRICED ? lack_words (lacks)
                                                : is_used ? _("in use")
                                                          : _("not in use"));
  if (is_used)
    gtk_widget_add_css_class (GTK_WIDGET (self), "used");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "used");
  /* Where the focus goes of those who came to enter it. */
  if (lacks & CRO_OFFER_LACKS_PRICE)
    gtk_widget_add_css_class (self->price, "cure");
  else
    gtk_widget_remove_css_class (self->price, "cure");
}

static void
show_since (CroOfferCard *self)
{
  const CroOfferEntry *entry = entry_of (self);
  g_autofree char *date = entry->price_id != 0 ? cro_date_to_text (entry->offer.from) : NULL;
  /* Translators: since when a price holds; %s is a date. */
  g_autofree char *since = date != NULL ? g_strdup_printf (_("since %s"), date) : NULL;

  gtk_label_set_label (GTK_LABEL (self->since), since != NULL ? since : "");
}

void
cro_offer_card_refresh (CroOfferCard *self)
{
  GtkWidget *inputs[] = { self->price, self->count, self->size, self->code,
                          self->net,   self->currency, self->until, self->gtin };
  CroModel *model = cro_book_get_model (book_of (self));

  gtk_label_set_label (GTK_LABEL (self->supplier),
                       cro_ref_name (model, CRO_REF (CRO_REF_OFFER, self->offer)));
  show_cost (self);
  show_since (self);
  for (gsize i = 0; i < G_N_ELEMENTS (inputs); i++)
    cro_input_refresh (CRO_INPUT (inputs[i]));
  cro_choice_refresh (CRO_CHOICE (self->unit));
  self->is_setting = TRUE;
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->preferred),
                               entry_of (self)->offer.is_preferred);
  self->is_setting = FALSE;
}

/* --- Acts ------------------------------------------------------------------------------------------- */

static void
preferred_cb (CroOfferCard *self)
{
  CroCell cell = CRO_CELL_INT (
      gtk_check_button_get_active (GTK_CHECK_BUTTON (self->preferred)) ? 1 : 0);
  g_autofree char *name = dup_name (self);
  g_autofree char *label = cro_act_dup_label (_("preference"), name);
  g_autoptr (GError) error = NULL;

  if (self->is_setting)
    return;
  if (!cro_book_set (book_of (self), label, "offer", entry_of (self)->id, "preferred", &cell,
                     &error))
    cro_bench_fail (self->bench, error);
}

/* The supplier's code tells packs apart, so that of a copy gets a number. */
static char *
dup_free_code (CroOfferCard *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  const CroOfferEntry *entry = entry_of (self);
  const CroItem *item = cro_model_item (model, entry->item);

  for (guint number = 2;; number++)
    {
      g_autofree char *code = *entry->code != '\0' ? g_strdup_printf ("%s %u", entry->code, number)
                                                   : g_strdup_printf ("%u", number);
      gboolean is_taken = FALSE;

      for (guint32 i = 0; i < item->n_offers; i++)
        {
          const CroOfferEntry *other = cro_model_offer (
              model, g_array_index (model->offer_order, guint32, item->first_offer + i));

          is_taken |= other->supplier == entry->supplier && strcmp (other->code, code) == 0;
        }
      if (!is_taken)
        return g_steal_pointer (&code);
    }
}

static void
duplicate_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  CroOfferCard *self = CRO_OFFER_CARD (widget);
  CroBench *bench = self->bench;
  g_autofree char *name = dup_name (self);
  g_autofree char *label = cro_act_dup_label (_("copy"), name);
  g_autofree char *code = dup_free_code (self);
  g_autoptr (GError) error = NULL;

  if (!cro_edit_duplicate (book_of (self), label, CRO_REF (CRO_REF_OFFER, self->offer), code, NULL,
                           &error))
    cro_bench_fail (bench, error);
}

static void
remove_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroOfferCard *self = CRO_OFFER_CARD (widget);

  cro_bench_remove_ref (self->bench, CRO_REF (CRO_REF_OFFER, self->offer));
}

/* --- Making ------------------------------------------------------------------------------------------- */

static GtkWidget *
input_new (CroOfferCard *self,
           const char   *of_what,
           CroInputKind  kind,
           CroRange      range,
           int           width,
           const char   *column,
           const char   *placeholder)
{
  g_autofree char *name = dup_name (self);
  g_autofree char *label = cro_act_dup_label (of_what, name);
  GtkWidget *input = cro_input_new (kind, range, label);

  cro_input_set_width (CRO_INPUT (input), width);
  cro_input_bind (CRO_INPUT (input), book_of (self), "offer", entry_of (self)->id, column, label,
                  placeholder);
  return input;
}

static void
make_fields (CroOfferCard *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *name = dup_name (self);
  g_autofree char *of_unit = cro_act_dup_label (_("pack unit"), name);

  self->price = input_new (self, _("price"), CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 9, "id", NULL);
  cro_input_set_way (CRO_INPUT (self->price), &price_way, self);
  self->count = input_new (self, _("pack count"), CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 4,
                           "pack_count_micro", NULL);
  self->size = input_new (self, _("pack size"), CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 6,
                          "pack_size_micro", NULL);
  self->unit = cro_choice_new_unit (of_unit, 7);
  cro_choice_bind (CRO_CHOICE (self->unit), book_of (self), "offer", entry_of (self)->id,
                   "pack_unit", of_unit);
  self->code = input_new (self, _("code"), CRO_INPUT_CODE, CRO_RANGE_ANY, 9, "code", NULL);
  self->net = input_new (self, _("net part"), CRO_INPUT_PCT, CRO_RANGE_PART_PCT, 5, "net_pct_micro",
                         "100");
  self->currency = input_new (self, _("currency"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 5, "currency",
                              model->currency);
  self->until = input_new (self, _("last day"), CRO_INPUT_DATE, CRO_RANGE_ANY, 12, "until", NULL);
  self->gtin = input_new (self, _("barcode number"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 14, "gtin",
                          NULL);
  self->preferred = gtk_check_button_new_with_label (_("Preferred"));
  g_signal_connect_swapped (self->preferred, "toggled", G_CALLBACK (preferred_cb), self);
}

static GtkWidget *
row_of (GtkWidget *const *children)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  for (; *children != NULL; children++)
    gtk_box_append (GTK_BOX (row), *children);
  return row;
}

static GtkWidget *
more_button_new (CroOfferCard *self)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  g_autofree char *name = dup_name (self);
  /* Translators: %s is a pack of a supplier. */
  g_autofree char *spoken = g_strdup_printf (_("More for %s"), name);
  GtkWidget *button = gtk_menu_button_new ();

  g_menu_append (menu, _("Duplicate"), "offer.duplicate");
  g_menu_append (menu, _("Remove"), "offer.remove");
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (button), "view-more-symbolic");
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  gtk_widget_add_css_class (button, "flat");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken,
                                  -1);
  return button;
}

static GtkWidget *
head_new (CroOfferCard *self)
{
  self->supplier = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->supplier), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->supplier), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (self->supplier, TRUE);
  gtk_widget_add_css_class (self->supplier, "heading");
  return row_of ((GtkWidget *const[]){ self->supplier, more_button_new (self), NULL });
}

static void
fill (CroOfferCard *self)
{
  GtkWidget *times = gtk_label_new ("×");
  GtkWidget *costs, *pack;

  self->cost = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->cost, "title-3");
  gtk_widget_add_css_class (self->cost, "numeric");
  self->state = gtk_label_new (NULL);
  self->since = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->since, "dim-label");
  gtk_widget_set_valign (self->since, GTK_ALIGN_CENTER);
  costs = row_of ((GtkWidget *const[]){ self->cost, self->state, NULL });
  pack = row_of ((GtkWidget *const[]){ self->count, times, self->size, self->unit, NULL });

  gtk_box_append (GTK_BOX (self->box), head_new (self));
  gtk_box_append (GTK_BOX (self->box), costs);
  gtk_box_append (GTK_BOX (self->box),
                  cro_field_new (_("Price of a pack"),
                                 row_of ((GtkWidget *const[]){ self->price, self->since, NULL })));
  gtk_box_append (GTK_BOX (self->box), cro_field_new (_("Pack"), pack));
  gtk_box_append (GTK_BOX (self->box),
                  row_of ((GtkWidget *const[]){ cro_field_new (_("Code"), self->code),
                                                cro_field_new (_("Net %"), self->net),
                                                cro_field_new (_("Currency"), self->currency),
                                                NULL }));
  gtk_box_append (GTK_BOX (self->box),
                  row_of ((GtkWidget *const[]){ cro_field_new (_("Until"), self->until),
                                                cro_field_new (_("GTIN"), self->gtin), NULL }));
  gtk_box_append (GTK_BOX (self->box), self->preferred);
}

static void
cro_offer_card_dispose (GObject *object)
{
  g_clear_pointer (&CRO_OFFER_CARD (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_offer_card_parent_class)->dispose (object);
}

static void
cro_offer_card_class_init (CroOfferCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_offer_card_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "offer.duplicate", NULL, duplicate_cb);
  gtk_widget_class_install_action (widget_class, "offer.remove", NULL, remove_cb);
}

static void
cro_offer_card_init (CroOfferCard *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_START);
  gtk_widget_add_css_class (GTK_WIDGET (self), "card");
  gtk_widget_add_css_class (GTK_WIDGET (self), "offer");
}

GtkWidget *
cro_offer_card_new (CroBench *bench,
                    guint32   offer)
{
  CroOfferCard *self = g_object_new (CRO_TYPE_OFFER_CARD, NULL);

  self->bench = bench;
  self->offer = offer;
  make_fields (self);
  fill (self);
  cro_offer_card_refresh (self);
  return GTK_WIDGET (self);
}

guint32
cro_offer_card_get_offer (CroOfferCard *self)
{
  return self->offer;
}

void
cro_offer_card_focus_price (CroOfferCard *self)
{
  gtk_widget_grab_focus (self->price);
}
