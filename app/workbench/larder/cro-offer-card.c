#include "config.h"

#include "cro-offer-card-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-answer-buttons.h"
#include "cro-bench-actions.h"
#include "cro-dated-fields.h"
#include "cro-day-entry.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-last-price.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-price-rows.h"
#include "cro-spoken.h"
#include "cro-words.h"
#include "cro-wrap.h"

G_DEFINE_FINAL_TYPE (CroOfferCard, cro_offer_card, GTK_TYPE_WIDGET)

/* "Butter from Upriver Produce": what acts on the pack are about. */
static char *
dup_name (CroOfferCard *self)
{
  CroModel *model = cro_book_get_model (book_of (self));

  /* Translators: an ingredient and its supplier. */
  return cro_isolate_printf (C_("pack", "%s from %s"),
                             cro_model_item (model, entry_of (self)->item)->name,
                             cro_ref_name (model, CRO_REF (CRO_REF_OFFER, self->offer)));
}

/* --- The supplier, by name ------------------------------------------------------------------------- */

static char *
dup_supplier (CroInput *input,
              gpointer  card)
{
  CroOfferCard *self = card;

  return g_strdup (cro_ref_name (cro_book_get_model (book_of (self)),
                                 CRO_REF (CRO_REF_OFFER, self->offer)));
}

static gboolean
keep_supplier (CroInput       *input,
               const CroCell  *cell,
               gpointer        card,
               GError        **error)
{
  CroOfferCard *self = card;

  return cro_edit_set_supplier (book_of (self), cro_input_get_act (input), self->offer,
                                cell->text != NULL ? cell->text : "", error);
}

static const CroInputWay supplier_way = { dup_supplier, cro_input_preview_nothing, keep_supplier, FALSE, NULL };

/* --- Showing --------------------------------------------------------------------------------------- */

static const char *
lack_words (unsigned lacks,
            gboolean is_told)
{
  if (lacks & CRO_OFFER_LACKS_PRICE && is_told)
    return cro_words_not_to_be_had ();
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
  /* A pack that is not to be had serves on by its last price. */
  g_autofree char *last = is_used ? cro_words_last_price (figures, entry->item) : NULL;
  g_autofree char *cost = lacks == CRO_OFFER_PRICED || is_used
                              ? cro_words_costs (figures->model, (CroBase) measure->base,
                                                 is_used ? cro_figures_unit_cost (figures, entry->item)
                                                         : cro_offer_unit_cost (&entry->offer, measure))
                              : g_strdup ("–");
  g_autofree char *serves = last != NULL ? g_strdup_printf (_("in use: %s"), last) : NULL;

  gtk_label_set_label (GTK_LABEL (self->cost), cost);
  gtk_label_set_label (GTK_LABEL (self->state),
                       serves != NULL            ? serves
                       : is_used                 ? _("in use")
                       : lacks != CRO_OFFER_PRICED ? lack_words (lacks, entry->price_id != 0)
                                                 : _("not in use"));
  if (is_used)
    gtk_widget_add_css_class (GTK_WIDGET (self), "used");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "used");
  /* Where the focus goes of those who came to enter it. */
  cro_cure_set (self->price, CRO_CAUSE_PRICE,
                (lacks & CRO_OFFER_LACKS_PRICE) != 0 && entry->price_id == 0);
}

/* The next price after today's, read once for an edition of the book: a key asks nothing. */
static void
read_next (CroOfferCard *self)
{
  CroBook *book = cro_bench_get_book (self->bench);
  CroFigures *figures = cro_book_get_figures (book);
  g_autoptr (GArray) rows = NULL;
  const CroPriceRow *next = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *day = NULL, *price = NULL;

  if (self->next_edition == cro_book_get_edition (book) + 1 && self->next_date == figures->date)
    return;
  self->next_edition = cro_book_get_edition (book) + 1;
  self->next_date = figures->date;
  g_clear_pointer (&self->next, g_free);
  rows = cro_price_rows_new (figures->model, cro_book_get_store (book), self->offer, &error);
  for (guint i = 0; rows != NULL && next == NULL && i < rows->len; i++)
    if (g_array_index (rows, CroPriceRow, i).from > figures->date)
      next = &g_array_index (rows, CroPriceRow, i);
  if (rows == NULL)
    self->next = cro_words_error (error);
  if (next == NULL)
    return;
  day = cro_date_to_text (next->from);
  price = next->price != CRO_NOT_SET ? cro_pack_price_to_text (figures->model, self->offer, next->price) : NULL;
  /* Translators: a price of a pack that is to come, and its first day. */
  self->next = price != NULL ? g_strdup_printf (_("%s per pack from %s"), price, day)
                             : g_strdup_printf (_("not to be had from %s on"), day);
}

/* Since when the price holds, and the one to come. */
static void
show_since (CroOfferCard *self)
{
  const CroOfferEntry *entry = entry_of (self);
  g_autofree char *date = entry->price_id != 0 ? cro_date_to_text (entry->offer.from) : NULL;
  /* Translators: since when a price holds; %s is a date. */
  g_autofree char *since = date != NULL ? g_strdup_printf (_("since %s"), date) : NULL;
  g_autofree char *both = NULL;

  read_next (self);
  both = since != NULL && self->next != NULL ? g_strdup_printf ("%s · %s", since, self->next) : NULL;
  gtk_label_set_label (GTK_LABEL (self->since), both != NULL ? both : since != NULL ? since
                                                : self->next != NULL                ? self->next
                                                                                    : "");
}

static gboolean
tells (CroOfferCard *self,
       int           column)
{
  return column < POSITION && cro_input_is_set (CRO_INPUT (self->rare[column]));
}

/* A field that is emptied stays in sight: it has the focus. */
static void
refresh_rare (CroOfferCard *self)
{
  for (int i = 0; i < N_RARE; i++)
    {
      cro_input_refresh (CRO_INPUT (self->rare[i]));
      if (tells (self, i))
        gtk_widget_set_visible (self->rare_fields[i], TRUE);
    }
}

static void
more_cb (CroOfferCard *self)
{
  gboolean is_on = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->more));

  for (int i = 0; i < N_RARE; i++)
    gtk_widget_set_visible (self->rare_fields[i], is_on || tells (self, i));
}

/* --- Names ----------------------------------------------------------------------------------------- */

static void
name_field (CroOfferCard *self,
            GtkWidget    *field,
            const char   *of_what)
{
  g_autofree char *label = cro_act_dup_label (of_what, self->named);

  if (CRO_IS_CHOICE (field))
    {
      cro_choice_set_act (CRO_CHOICE (field), label);
      cro_choice_set_name (CRO_CHOICE (field), label);
      return;
    }
  cro_input_set_act (CRO_INPUT (field), label);
  cro_input_set_name (CRO_INPUT (field), label);
}

/* All are called by the ingredient and the supplier: anew under another name of one of them. */
static void
name_controls (CroOfferCard *self)
{
  g_autofree char *name = dup_name (self);
  /* Translators: %s is a pack of a supplier. */
  g_autofree char *menu = cro_isolate_printf (_("More for %s"), name);
  /* Translators: further fields of a pack of a supplier. */
  g_autofree char *more = cro_isolate_printf (_("More fields of %s"), name);
  /* Translators: a field: since when a price or a pack holds that is entered beside it. */
  g_autofree char *from = cro_act_dup_label (_("first day of the change"), name);

  if (g_strcmp0 (name, self->named) == 0)
    return;
  g_free (self->named);
  self->named = g_steal_pointer (&name);
  name_field (self, self->price, _("price"));
  name_field (self, self->count, _("items per pack"));
  name_field (self, self->size, _("pack size"));
  name_field (self, self->unit, _("pack unit"));
  name_field (self, self->rare[CODE], _("code"));
  name_field (self, self->rare[GTIN], _("barcode number"));
  name_field (self, self->rare[NET], _("net weight"));
  name_field (self, self->rare[CURRENCY], _("currency"));
  name_field (self, self->rare[UNTIL], _("last day"));
  name_field (self, self->rare[POSITION], _("position in the supplier’s list"));
  name_field (self, self->rare[SUPPLIER], _("supplier"));
  cro_spoken_set (self->from, from);
  cro_spoken_set (self->menu, menu);
  cro_spoken_set (self->more, more);
}

GtkWidget *
cro_offer_card_get_price (CroOfferCard *self)
{
  return self->price;
}

/* What is asked stands at the price. */
static void
show_answer (CroOfferCard *self)
{
  CroDoubt doubt;
  gboolean asks = self->history != NULL && cro_doubt_of_offer (book_of (self), self->offer, self->history, &doubt);

  cro_answer_buttons_set (CRO_ANSWER_BUTTONS (self->answer), self->bench, asks ? &doubt : NULL, self->price);
}

void
cro_offer_card_refresh (CroOfferCard *self,
                        GArray       *history)
{
  GtkWidget *inputs[] = { self->price, self->count, self->size };
  CroModel *model = cro_book_get_model (book_of (self));

  if (history != self->history)
    {
      g_clear_pointer (&self->history, g_array_unref);
      self->history = history != NULL ? g_array_ref (history) : NULL;
    }
  name_controls (self);
  cro_day_entry_show (self->from, book_of (self));
  if (self->edition != cro_book_get_edition (book_of (self)))
    cro_input_set_unit (CRO_INPUT (self->size), cro_offer_card_stored_pack (self).unit);
  self->edition = cro_book_get_edition (book_of (self));
  gtk_label_set_label (GTK_LABEL (self->supplier),
                       cro_ref_name (model, CRO_REF (CRO_REF_OFFER, self->offer)));
  show_cost (self);
  show_since (self);
  show_answer (self);
  for (gsize i = 0; i < G_N_ELEMENTS (inputs); i++)
    cro_input_refresh (CRO_INPUT (inputs[i]));
  refresh_rare (self);
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
rare_fields_new (CroOfferCard *self)
{
  const char *currency = cro_book_get_model (book_of (self))->currency;
  const struct
  {
    const char *caption;
    CroInputKind kind;
    CroRange range;
    int width;
    const char *column, *placeholder;
  } fields[N_RARE] = {
    [CODE] = { _("Code"), CRO_INPUT_CODE, CRO_RANGE_ANY, 9, "code", NULL },
    [GTIN] = { _("GTIN"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 14, "gtin", NULL },
    [NET] = { _("Net weight %"), CRO_INPUT_PCT, CRO_RANGE_PART_PCT, 5, "net_pct_micro",
              "100" },
    [CURRENCY] = { _("Currency"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 5, "currency",
                   currency },
    [UNTIL] = { _("Until"), CRO_INPUT_DATE, CRO_RANGE_ANY, cro_date_chars (), "until", NULL },
    [POSITION] = { _("Position"), CRO_INPUT_NUMBER,
                   CRO_RANGE_AT_LEAST_0, 6, "position_micro", NULL },
    [SUPPLIER] = { _("Supplier"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 20, "id", NULL },
  };
  GtkWidget *wrap = cro_wrap_new (9, 6);

  for (int i = 0; i < N_RARE; i++)
    {
      self->rare[i] = cro_offer_card_add_input (self, fields[i].kind, fields[i].range,
                                                fields[i].width, fields[i].column,
                                                fields[i].placeholder);
      self->rare_fields[i] = cro_field_new (fields[i].caption, self->rare[i]);
      gtk_widget_set_visible (self->rare_fields[i], FALSE);
      cro_wrap_append (CRO_WRAP (wrap), self->rare_fields[i]);
    }
  cro_input_set_way (CRO_INPUT (self->rare[SUPPLIER]), &supplier_way, self);
  return wrap;
}

static GtkWidget *
row_of (int               spacing,
        GtkWidget *const *children)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, spacing);

  for (; *children != NULL; children++)
    gtk_box_append (GTK_BOX (row), *children);
  return row;
}

static GtkWidget *
more_button_new (void)
{
  g_autoptr (GMenu) menu = g_menu_new ();

  g_menu_append (menu, _("Duplicate"), "offer.duplicate");
  g_menu_append (menu, _("Remove"), "offer.remove");
  return cro_more_button_new (G_MENU_MODEL (menu), "");
}

static GtkWidget *
head_new (CroOfferCard *self)
{
  self->supplier = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->supplier), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->supplier), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (self->supplier, TRUE);
  gtk_widget_add_css_class (self->supplier, "heading");
  self->menu = more_button_new ();
  return row_of (6, (GtkWidget *const[]){ self->supplier, self->menu, NULL });
}

static GtkWidget *
costs_new (CroOfferCard *self)
{
  GtkWidget *wrap = cro_wrap_new (6, 0);

  self->cost = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->cost, "title-3");
  gtk_widget_add_css_class (self->cost, "numeric");
  self->state = gtk_label_new (NULL);
  self->since = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (self->since), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (self->since), 24);
  gtk_label_set_xalign (GTK_LABEL (self->since), 0);
  gtk_widget_add_css_class (self->since, "dim-label");
  cro_wrap_append (CRO_WRAP (wrap), self->cost);
  cro_wrap_append (CRO_WRAP (wrap), self->state);
  cro_wrap_append (CRO_WRAP (wrap), self->since);
  return wrap;
}

static GtkWidget *
last_row_new (CroOfferCard *self)
{
  self->more = gtk_toggle_button_new_with_label (_("More"));
  gtk_widget_add_css_class (self->more, "flat");
  g_signal_connect_object (self->more, "toggled", G_CALLBACK (more_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_set_hexpand (self->preferred, TRUE);
  return row_of (6, (GtkWidget *const[]){ self->preferred, self->more, NULL });
}

static void
fill (CroOfferCard *self)
{
  GtkWidget *pack = row_of (3, (GtkWidget *const[]){ self->count, gtk_label_new ("×"), self->size,
                                                     self->unit, NULL });

  gtk_box_append (GTK_BOX (self->box), head_new (self));
  gtk_box_append (GTK_BOX (self->box), costs_new (self));
  gtk_box_append (GTK_BOX (self->box),
                  row_of (9, (GtkWidget *const[]){ cro_field_new (_("From"), self->from),
                                                   cro_field_new (_("Price per pack"), self->price),
                                                   cro_field_new (_("Pack"), pack), NULL }));
  self->answer = cro_answer_buttons_new ();
  cro_input_put_answer (CRO_INPUT (self->price), self->answer);
  gtk_box_append (GTK_BOX (self->box), rare_fields_new (self));
  gtk_box_append (GTK_BOX (self->box), last_row_new (self));
}

static void
cro_offer_card_dispose (GObject *object)
{
  g_clear_pointer (&CRO_OFFER_CARD (object)->history, g_array_unref);
  g_clear_pointer (&CRO_OFFER_CARD (object)->named, g_free);
  g_clear_pointer (&CRO_OFFER_CARD (object)->next, g_free);
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
                    guint32   offer,
                    GArray   *history)
{
  CroOfferCard *self = g_object_new (CRO_TYPE_OFFER_CARD, NULL);

  self->bench = bench;
  self->offer = offer;
  cro_offer_card_make_fields (self);
  self->preferred = gtk_check_button_new_with_label (_("Preferred"));
  g_signal_connect_object (self->preferred, "toggled", G_CALLBACK (preferred_cb), self,
                           G_CONNECT_SWAPPED);
  fill (self);
  cro_offer_card_refresh (self, history);
  return GTK_WIDGET (self);
}

guint32
cro_offer_card_get_offer (CroOfferCard *self)
{
  return self->offer;
}
