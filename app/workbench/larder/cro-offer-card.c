#include "config.h"

#include "cro-offer-card.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-bench-actions.h"
#include "cro-choice.h"
#include "cro-edit.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-last-price.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-refusal.h"
#include "cro-spoken.h"
#include "cro-words-price.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Columns that most packs leave empty: shown where they are set, or asked for. The place in the
 * supplier's list and the supplier, whom the heading names, are shown only where they are asked
 * for. */
enum
{
  CODE,
  GTIN,
  NET,
  CURRENCY,
  UNTIL,
  POSITION,
  SUPPLIER,
  N_RARE,
};

struct _CroOfferCard
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *supplier;
  GtkWidget *cost;        /* per base unit */
  GtkWidget *state;       /* whether it is in use, and if not why */
  GtkWidget *from;        /* since when a price or a pack that is entered holds */
  GtkWidget *price;
  GtkWidget *since;
  GtkWidget *count;
  GtkWidget *size;
  GtkWidget *unit;
  GtkWidget *preferred;
  GtkWidget *more;        /* toggle */
  GtkWidget *menu;
  GtkWidget *rare[N_RARE];
  GtkWidget *rare_fields[N_RARE];

  CroBench  *bench;       /* borrowed */
  guint32    offer;
  char      *named;       /* as its fields are called */
  guint64    edition;     /* of the book when the unit of the pack was read; 0: it was not */
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
  return cro_isolate_printf (C_("pack", "%s from %s"),
                             cro_model_item (model, entry_of (self)->item)->name,
                             cro_ref_name (model, CRO_REF (CRO_REF_OFFER, self->offer)));
}

/* --- From when a price, or what is in the pack, holds ------------------------------------------- */

/* The day that the book shows, where nothing is typed. */
static gboolean
read_from (CroOfferCard  *self,
           CroDate       *from,
           GError       **error)
{
  g_auto (CroEntry) read = { 0 };

  *from = cro_book_get_figures (book_of (self))->date;
  if (cro_entry_date (gtk_editable_get_text (GTK_EDITABLE (self->from)), &read))
    *from = read.date;
  else if (read.status != CRO_ENTRY_EMPTY)
    {
      g_set_error_literal (error, g_quark_from_static_string ("cro-offer-card"), 0,
                           _("“From” is not a date."));
      return FALSE;
    }
  return TRUE;
}

/* Another day holds for one entry: the next begins today again. */
static gboolean
entered (CroOfferCard *self,
         gboolean      is_kept)
{
  if (is_kept)
    gtk_editable_set_text (GTK_EDITABLE (self->from), "");
  return is_kept;
}

/* --- The price ------------------------------------------------------------------------------------ */

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
  return cro_words_price_in (entry_of (self)->currency != NULL ? entry_of (self)->currency
                                                               : cro_book_get_model (book)->currency,
                             cro_rows_get_int (rows, 3));
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
  CroDate from;

  if (!read_from (self, &from, error))
    return FALSE;
  if (cell->kind == CRO_CELL_NULL && !cro_text_is_not_to_be_had (cro_input_get_text (input)))
    return cro_refuse (CRO_FAULT_MISSING_VALUE, "", NULL, error);
  return entered (self, cro_edit_set_price (book_of (self), cro_input_get_act (input), self->offer,
                                            from, cell->kind == CRO_CELL_NULL ? CRO_NOT_SET
                                                                              : cell->integer,
                                            error));
}

/* Per pack, or per unit of what is in it. */
static char *
read_price (CroInput    *input,
            const char  *text,
            CroCell     *cell,
            char       **understood,
            gpointer     card)
{
  CroOfferCard *self = card;
  g_auto (CroEntry) entry = { 0 };

  if (cro_text_is_not_to_be_had (text))
    return NULL;
  if (cro_pack_read_price (cro_book_get_model (book_of (self)), self->offer, text,
                           cro_words_entry (), &entry))
    *cell = CRO_CELL_INT (entry.micro);
  *understood = g_steal_pointer (&entry.understood);
  return cro_words_price_reason (text, &entry,
                                 cro_pack_currency (cro_book_get_model (book_of (self)),
                                                    self->offer));
}

/* --- What is in the pack --------------------------------------------------------------------------- */

/* Of the day that the book shows, as the store has it. */
static CroPack
stored_pack (CroOfferCard *self)
{
  static const char *const columns[] = { "pack_count_micro", "pack_size_micro", "pack_unit", NULL };
  CroStore *store = cro_book_get_store (book_of (self));
  const CroOfferEntry *entry = entry_of (self);
  CroPack pack = { entry->pack_count, entry->pack_size, (CroUnit) entry->pack_unit };
  const struct { const char *table; gint64 id; } from[] = { { "offer", entry->id },
                                                            { "price", entry->price_id } };

  for (gsize i = 0; i < G_N_ELEMENTS (from); i++)
    {
      g_autoptr (CroRows) rows = cro_store_read_one (store, from[i].table, from[i].id, columns, NULL);
      const char *unit;

      if (rows == NULL || !cro_rows_next (rows, NULL))
        continue;
      unit = cro_rows_get_text (rows, 2);
      if (!cro_rows_is_null (rows, 0))
        pack.count = cro_rows_get_int (rows, 0);
      if (!cro_rows_is_null (rows, 1))
        pack.size = cro_rows_get_int (rows, 1);
      if (unit != NULL)
        cro_unit_parse (unit, strlen (unit), &pack.unit);
    }
  return pack;
}

static char *
dup_pack_part (CroInput *input,
               gpointer  card)
{
  CroOfferCard *self = card;
  CroPack pack = stored_pack (self);

  return cro_words_decimal (input == CRO_INPUT (self->count) ? pack.count : pack.size);
}

/* On the price that holds, or on the pack itself where there is none. */
static gboolean
preview_pack_part (CroInput       *input,
                   const CroCell  *cell,
                   gpointer        card,
                   GError        **error)
{
  CroOfferCard *self = card;
  const CroOfferEntry *entry = entry_of (self);
  gboolean has_price = entry->price_id != 0;

  if (cell->kind == CRO_CELL_NULL)
    return cro_book_restore (book_of (self), error);
  return cro_book_preview (book_of (self), has_price ? "price" : "offer",
                           has_price ? entry->price_id : entry->id,
                           input == CRO_INPUT (self->count) ? "pack_count_micro"
                                                            : "pack_size_micro",
                           cell, error);
}

static void
look_at_pack (CroInput *input,
              gpointer  card)
{
  CroOfferCard *self = card;

  if (entry_of (self)->price_id != 0)
    cro_book_look_at (book_of (self), "price", entry_of (self)->price_id, NULL);
}

static gboolean
keep_pack (CroOfferCard  *self,
           const char    *act,
           const CroPack *pack,
           GError       **error)
{
  CroDate from;

  return read_from (self, &from, error)
         && entered (self, cro_edit_set_pack (book_of (self), act, self->offer, from, pack->count,
                                              pack->size, pack->unit, error));
}

static gboolean
keep_pack_part (CroInput       *input,
                const CroCell  *cell,
                gpointer        card,
                GError        **error)
{
  CroOfferCard *self = card;
  CroPack pack = stored_pack (self);

  if (cell->kind == CRO_CELL_NULL)
    {
      g_set_error_literal (error, g_quark_from_static_string ("cro-offer-card"), 0,
                           _("What is in a pack? For instance 5 kg."));
      return FALSE;
    }
  *(input == CRO_INPUT (self->count) ? &pack.count : &pack.size) = cell->integer;
  return keep_pack (self, cro_input_get_act (input), &pack, error);
}

static gboolean
keep_unit (CroChoice      *choice,
           const CroCell  *cell,
           gpointer        card,
           GError        **error)
{
  CroPack pack = stored_pack (card);

  cro_unit_parse (cell->text, strlen (cell->text), &pack.unit);
  return keep_pack (card, cro_choice_get_act (choice), &pack, error);
}

static char *
dup_unit (CroChoice *choice,
          gpointer   card)
{
  return g_strdup (cro_unit_get (stored_pack (card).unit)->code);
}

static const CroInputWay pack_way = { dup_pack_part, preview_pack_part, keep_pack_part, FALSE,
                                         look_at_pack };

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
static const CroInputWay price_way = { dup_price, preview_price, keep_price, FALSE, NULL };

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

static void
show_since (CroOfferCard *self)
{
  const CroOfferEntry *entry = entry_of (self);
  g_autofree char *date = entry->price_id != 0 ? cro_date_to_text (entry->offer.from) : NULL;
  /* Translators: since when a price holds; %s is a date. */
  g_autofree char *since = date != NULL ? g_strdup_printf (_("since %s"), date) : NULL;

  gtk_label_set_label (GTK_LABEL (self->since), since != NULL ? since : "");
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

void
cro_offer_card_refresh (CroOfferCard *self)
{
  GtkWidget *inputs[] = { self->price, self->count, self->size };
  CroModel *model = cro_book_get_model (book_of (self));

  name_controls (self);
  if (self->edition != cro_book_get_edition (book_of (self)))
    cro_input_set_unit (CRO_INPUT (self->size), stored_pack (self).unit);
  self->edition = cro_book_get_edition (book_of (self));
  gtk_label_set_label (GTK_LABEL (self->supplier),
                       cro_ref_name (model, CRO_REF (CRO_REF_OFFER, self->offer)));
  show_cost (self);
  show_since (self);
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
input_new (CroOfferCard *self,
           CroInputKind  kind,
           CroRange      range,
           int           width,
           const char   *column,
           const char   *placeholder)
{
  GtkWidget *input = cro_input_new (kind, range, "");

  cro_input_set_width (CRO_INPUT (input), width);
  cro_input_bind (CRO_INPUT (input), book_of (self), "offer", entry_of (self)->id, column, "",
                  placeholder);
  return input;
}

static void
make_fields (CroOfferCard *self)
{
  self->from = cro_entry_new ("", 10);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->from), _("today"));
  self->price = input_new (self, CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 7, "id", NULL);
  cro_input_set_way (CRO_INPUT (self->price), &price_way, self);
  cro_input_set_read (CRO_INPUT (self->price), read_price);
  self->count = input_new (self, CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 3, "pack_count_micro", NULL);
  self->size = input_new (self, CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 5, "pack_size_micro", NULL);
  self->unit = cro_choice_new_unit ("", 7);
  cro_input_set_way (CRO_INPUT (self->count), &pack_way, self);
  cro_input_set_way (CRO_INPUT (self->size), &pack_way, self);
  cro_choice_set_way (CRO_CHOICE (self->unit), keep_unit, self);
  cro_choice_set_read (CRO_CHOICE (self->unit), dup_unit);
  cro_choice_bind (CRO_CHOICE (self->unit), book_of (self), "offer", entry_of (self)->id,
                   "pack_unit", "");
  self->preferred = gtk_check_button_new_with_label (_("Preferred"));
  g_signal_connect_object (self->preferred, "toggled", G_CALLBACK (preferred_cb), self,
                           G_CONNECT_SWAPPED);
}

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
    [UNTIL] = { _("Until"), CRO_INPUT_DATE, CRO_RANGE_ANY, 11, "until", NULL },
    [POSITION] = { _("Position"), CRO_INPUT_NUMBER,
                   CRO_RANGE_AT_LEAST_0, 6, "position_micro", NULL },
    [SUPPLIER] = { _("Supplier"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 20, "id", NULL },
  };
  GtkWidget *wrap = cro_wrap_new (9, 6);

  for (int i = 0; i < N_RARE; i++)
    {
      self->rare[i] = input_new (self, fields[i].kind, fields[i].range, fields[i].width,
                                 fields[i].column, fields[i].placeholder);
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
  gtk_box_append (GTK_BOX (self->box), rare_fields_new (self));
  gtk_box_append (GTK_BOX (self->box), last_row_new (self));
}

static void
cro_offer_card_dispose (GObject *object)
{
  g_clear_pointer (&CRO_OFFER_CARD (object)->named, g_free);
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
