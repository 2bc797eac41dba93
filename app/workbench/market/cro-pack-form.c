#include "config.h"

#include "cro-pack-form.h"

#include <glib/gi18n.h>

#include "cro-answer-buttons.h"
#include "cro-bubble.h"
#include "cro-ceiling-line.h"
#include "cro-dated-fields.h"
#include "cro-day-entry.h"
#include "cro-doubt.h"
#include "cro-edit.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-price-change.h"
#include "cro-price-history.h"
#include "cro-read-only.h"
#include "cro-reason.h"
#include "cro-spoken.h"
#include "cro-template.h"
#include "cro-words.h"

struct _CroPackForm
{
  GtkWidget       parent_instance;

  GtkWidget      *name;
  GtkWidget      *fields;
  GtkWidget      *captioned;  /* the price under its caption */
  GtkWidget      *price;
  GtkWidget      *from;
  CroCeilingLine *ceiling;
  GtkWidget      *meaning;    /* what the price comes to, or why it is none */
  CroBubble      *bubble;     /* what is asked of the price that is kept */
  GtkWidget      *answers;    /* to that */

  CroBench       *bench;      /* borrowed */
  CroRecordsView *view;       /* borrowed */
  guint32         offer;      /* CRO_NO_SLOT: none is selected */
  gboolean        has_before;
  gint64          before;
  CroDate         since;      /* of the price before */
  char           *question;   /* asked of the price that is kept; NULL: none */
  CroDoubt        doubt;      /* the same */
  gboolean        is_previewed;
};

G_DEFINE_FINAL_TYPE (CroPackForm, cro_pack_form, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroPackForm *self)
{
  return cro_bench_get_book (self->bench);
}

static const char *
text_of (GtkWidget *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

/* --- What was typed -------------------------------------------------------------------------------- */

/* *reason: why it is none; owned. */
static gboolean
read_date (CroPackForm  *self,
           CroDate      *date,
           char        **reason)
{
  return cro_day_entry_read (self->from, book_of (self), date, reason);
}

/* The price before, as people write one. */
static char *
dup_example (CroModel *model,
             guint32   offer,
             gint64    price)
{
  const char *own = cro_model_offer (model, offer)->currency;

  return cro_words_price_in (own != NULL ? own : model->currency, price);
}

/* What a price is compared with: the one that holds on the day it is typed for. */
static void
find_before (CroPackForm *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *before = NULL, *reason = NULL;
  CroDate from;

  self->has_before = read_date (self, &from, &reason)
                     && cro_price_before (book_of (self), self->offer, from, &self->before, &self->since);
  before = self->has_before ? dup_example (model, self->offer, self->before) : NULL;
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->price), before);
}

/* Asked for as long as it stands: once a row is chosen, and not at every key. */
static void
ask_of_kept (CroPackForm *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autoptr (GArray) history = cro_price_history_new (
      book_of (self), cro_model_offer (model, self->offer)->item, NULL);

  g_clear_pointer (&self->question, g_free);
  if (history != NULL && cro_doubt_of_offer (book_of (self), self->offer, history, &self->doubt))
    self->question = cro_words_doubt (model, &self->doubt);
}

/* Over the field, so that nothing moves: it gives way to what is typed. is_kept: the price, just now; else it comes
 * with the focus. */
static void
show_question (CroPackForm *self,
               gboolean     is_kept)
{
  gboolean asks = self->question != NULL && *text_of (self->price) == '\0';

  cro_answer_buttons_set (CRO_ANSWER_BUTTONS (self->answers), self->bench, asks ? &self->doubt : NULL, self->price);
  cro_bubble_say (self->bubble, asks ? self->question : NULL, is_kept || cro_focus_is_in (self->price));
}

/* *reason: why it is none, NULL where nothing was typed; owned. */
static gboolean
read_price (CroPackForm     *self,
            CroPriceChange  *change,
            char           **reason)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_auto (CroEntry) entry = { 0 };

  if (cro_price_change_read (model, self->offer, self->has_before ? &self->before : NULL,
                             text_of (self->price), change, &entry) == CRO_ENTRY_OK)
    return TRUE;
  *reason = cro_price_change_reason (model, self->offer, text_of (self->price), &entry);
  return FALSE;
}

static void
restore (CroPackForm *self)
{
  if (self->is_previewed && book_of (self) != NULL)
    cro_book_restore (book_of (self), NULL);
  self->is_previewed = FALSE;
}

static void
show_meaning (CroPackForm *self,
              const char  *text,
              gboolean     is_wrong)
{
  gtk_label_set_label (GTK_LABEL (self->meaning), text);
  cro_reason_mark (self->price, is_wrong);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->price), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  text, -1);
}

/* Figures of the book's date cannot show a price of another; what is not to be had leaves them at its
 * last price. */
static void
preview (CroPackForm *self,
         gint64       price)
{
  g_autofree char *reason = NULL;
  CroDate from;

  if (price != CRO_NOT_SET && read_date (self, &from, &reason)
      && from == cro_book_get_figures (book_of (self))->date)
    {
      /* Who hears of the change asks. */
      self->is_previewed = TRUE;
      self->is_previewed = cro_book_preview_own_price (book_of (self), self->offer, price, NULL);
    }
  else
    restore (self);
}

/* A price that stands on that day already goes. */
static char *
dup_meaning (CroPackForm          *self,
             const CroPriceChange *change,
             CroDate               from)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *says = cro_price_change_words (model, self->offer, change);
  g_autofree char *before = NULL, *day = NULL;

  if (!self->has_before || self->since != from)
    return g_steal_pointer (&says);
  before = dup_example (model, self->offer, self->before);
  day = cro_date_to_text (from);
  /* Translators: what a price comes to; a price that it takes the place of, and the day of both. */
  return g_strdup_printf (_("%s · replaces %s of %s"), says, before, day);
}

static void
price_changed_cb (CroPackForm *self)
{
  g_autofree char *meaning = NULL, *reason = NULL;
  CroPriceChange change;
  CroDate from;

  if (self->offer == CRO_NO_SLOT || book_of (self) == NULL)
    return;
  if (read_date (self, &from, &reason) && read_price (self, &change, &reason))
    {
      meaning = dup_meaning (self, &change, from);
      preview (self, change.price);
    }
  else
    restore (self);
  show_meaning (self, meaning != NULL ? meaning : reason != NULL ? reason : "", reason != NULL);
  show_question (self, FALSE);
}

static void
from_changed_cb (CroPackForm *self)
{
  if (self->offer == CRO_NO_SLOT || book_of (self) == NULL)
    return;
  find_before (self);
  price_changed_cb (self);
}

/* --- Keeping it --------------------------------------------------------------------------------------- */

static gboolean
read_both (CroPackForm    *self,
           CroPriceChange *change,
           CroDate        *from)
{
  g_autofree char *reason = NULL, *no_date = NULL;

  if (!read_price (self, change, &reason))
    {
      show_meaning (self, reason != NULL ? reason : _("Type a price, or +5 %, or −0.40."), TRUE);
      gtk_widget_grab_focus (self->price);
      return FALSE;
    }
  if (read_date (self, from, &no_date))
    return TRUE;
  show_meaning (self, no_date, FALSE);
  gtk_widget_grab_focus (self->from);
  return FALSE;
}

static void show_pack (CroPackForm *self,
                       gboolean     is_kept);

/* The row shows what holds on the book's day; what does not is said. */
static void
say_kept (CroPackForm *self,
          CroDate      from,
          gint64       price)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  g_autofree char *says = NULL;

  if (from == figures->date)
    return;
  says = cro_price_kept_words (figures, self->offer, from, price);
  cro_bench_say (self->bench, says);
}

/* The next pack is chosen with the arrows, so the focus goes back to the rows, but where something is asked first;
 * another day holds for one price. */
static void
keep_cb (CroPackForm *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *label = NULL;
  g_autoptr (GError) error = NULL;
  CroPriceChange change;
  CroDate from;

  if (!read_both (self, &change, &from))
    return;
  label = cro_isolate_printf (_("price of %s"),
                              cro_model_item (model, cro_model_offer (model, self->offer)->item)->name);
  if (!cro_edit_set_own_price (book_of (self), label, self->offer, from, change.price, &error))
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  self->is_previewed = FALSE;
  gtk_editable_set_text (GTK_EDITABLE (self->price), "");
  gtk_editable_set_text (GTK_EDITABLE (self->from), "");
  show_pack (self, TRUE);
  say_kept (self, from, change.price);
  if (self->question != NULL)
    gtk_widget_grab_focus (self->price);
  else
    cro_records_view_focus_rows (self->view);
}

static gboolean
key_pressed_cb (CroPackForm     *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  if (keyval == GDK_KEY_F2
      || (keyval == GDK_KEY_Tab && !(state & GDK_SHIFT_MASK) && cro_bubble_is_asking (self->bubble)))
    return cro_bubble_enter (self->bubble);
  if (keyval != GDK_KEY_Escape)
    return GDK_EVENT_PROPAGATE;
  if (*text_of (self->price) == '\0')
    return cro_bubble_close (self->bubble);
  gtk_editable_set_text (GTK_EDITABLE (self->price), "");
  return GDK_EVENT_STOP;
}

/* --- Which pack ----------------------------------------------------------------------------------- */

/* Money says in which currency it is. */
static void
show_currency (CroPackForm *self,
               const char  *currency)
{
  g_autofree char *caption = currency != NULL ? g_strdup_printf (_("New price per pack, %s"), currency)
                                              : g_strdup (_("New price per pack"));

  g_object_set (self->captioned, "caption", caption, NULL);
  cro_spoken_set (self->price, caption);
}

/* is_kept: its price, just now. */
static void
show_pack (CroPackForm *self,
           gboolean     is_kept)
{
  CroModel *model = book_of (self) != NULL ? cro_book_get_model (book_of (self)) : NULL;
  g_autofree char *name = NULL;

  cro_ceiling_line_set (self->ceiling, book_of (self),
                        self->offer != CRO_NO_SLOT && model != NULL
                            ? cro_model_offer (model, self->offer)->item
                            : CRO_NO_SLOT,
                        self->offer);
  gtk_widget_set_sensitive (self->fields, self->offer != CRO_NO_SLOT && model != NULL);
  if (self->offer == CRO_NO_SLOT || model == NULL)
    {
      gtk_label_set_label (GTK_LABEL (self->name), _("Choose a pack to set its price."));
      g_clear_pointer (&self->question, g_free);
      cro_bubble_say (self->bubble, NULL, FALSE);
      return;
    }
  name = cro_isolate_printf (C_("pack", "%s from %s"),
                             cro_model_item (model, cro_model_offer (model, self->offer)->item)->name,
                             cro_ref_name (model, CRO_REF (CRO_REF_OFFER, self->offer)));
  gtk_label_set_label (GTK_LABEL (self->name), name);
  show_currency (self, cro_model_currency_of (model, self->offer));
  cro_day_entry_show (self->from, book_of (self));
  cro_read_only_show (self->fields, book_of (self));
  find_before (self);
  ask_of_kept (self);
  if (*text_of (self->price) == '\0')
    show_meaning (self, "", FALSE);
  show_question (self, is_kept);
}

/* What was typed for another pack is not this one's. */
static void
selected_cb (CroPackForm *self)
{
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->view);
  CroRef ref = record != NULL ? cro_record_get_ref (record) : CRO_REF_NOWHERE;
  guint32 offer = ref.kind == CRO_REF_OFFER ? ref.slot : CRO_NO_SLOT;

  if (offer != self->offer)
    {
      restore (self);
      self->offer = CRO_NO_SLOT;
      gtk_editable_set_text (GTK_EDITABLE (self->price), "");
      gtk_editable_set_text (GTK_EDITABLE (self->from), "");
      show_meaning (self, "", FALSE);
    }
  self->offer = offer;
  show_pack (self, FALSE);
}

void
cro_pack_form_refresh (CroPackForm *self)
{
  if (!self->is_previewed)
    selected_cb (self);
}

/* --- The widget ------------------------------------------------------------------------------------ */

static void
cro_pack_form_unmap (GtkWidget *widget)
{
  restore (CRO_PACK_FORM (widget));
  GTK_WIDGET_CLASS (cro_pack_form_parent_class)->unmap (widget);
}

static void
cro_pack_form_dispose (GObject *object)
{
  cro_template_dispose (object, CRO_TYPE_PACK_FORM);
  g_clear_pointer (&CRO_PACK_FORM (object)->question, g_free);
  G_OBJECT_CLASS (cro_pack_form_parent_class)->dispose (object);
}

static void
cro_pack_form_class_init (CroPackFormClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_pack_form_dispose;
  widget_class->unmap = cro_pack_form_unmap;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  g_type_ensure (CRO_TYPE_CEILING_LINE);
  cro_template_set (widget_class, "cro-pack-form");
  gtk_widget_class_bind_template_child (widget_class, CroPackForm, name);
  gtk_widget_class_bind_template_child (widget_class, CroPackForm, fields);
  gtk_widget_class_bind_template_child (widget_class, CroPackForm, captioned);
  gtk_widget_class_bind_template_child (widget_class, CroPackForm, price);
  gtk_widget_class_bind_template_child (widget_class, CroPackForm, from);
  gtk_widget_class_bind_template_child (widget_class, CroPackForm, ceiling);
  gtk_widget_class_bind_template_child (widget_class, CroPackForm, meaning);
  gtk_widget_class_bind_template_callback (widget_class, price_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, from_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, keep_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed_cb);
}

static void
cro_pack_form_init (CroPackForm *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->offer = CRO_NO_SLOT;
  self->bubble = CRO_BUBBLE (cro_bubble_new (self->captioned, self->price));
  self->answers = cro_answer_buttons_new ();
  cro_bubble_put_answer (self->bubble, self->answers);
}

GtkWidget *
cro_pack_form_new (CroBench       *bench,
                   CroRecordsView *view)
{
  CroPackForm *self = g_object_new (CRO_TYPE_PACK_FORM, NULL);

  self->bench = bench;
  self->view = view;
  cro_records_view_connect_selected (view, G_CALLBACK (selected_cb), self);
  cro_dated_fields_begin (bench, self->from, (GtkWidget *const[]){ self->price, self->fields, NULL });
  cro_records_view_set_typed_into (view, self->price);
  show_pack (self, FALSE);
  return GTK_WIDGET (self);
}
