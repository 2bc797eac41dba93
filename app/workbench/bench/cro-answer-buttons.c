#include "config.h"

#include "cro-answer-buttons.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-isolate.h"
#include "cro-selling-doubt.h"
#include "cro-words.h"

struct _CroAnswerButtons
{
  GtkBox     parent_instance;

  GtkWidget *meant;
  GtkWidget *right;

  CroBench  *bench;   /* borrowed */
  GtkWidget *next;    /* weak */
  CroDoubt   doubt;
};

G_DEFINE_FINAL_TYPE (CroAnswerButtons, cro_answer_buttons, GTK_TYPE_BOX)

static const char *
name_of (CroAnswerButtons *self)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (self->bench));
  CroRef ref = self->doubt.ref;

  return ref.kind == CRO_REF_OFFER ? cro_model_item (model, cro_model_offer (model, ref.slot)->item)->name
                                   : cro_ref_name (model, ref);
}

/* Once it is answered the buttons are gone. */
static void
leave (CroAnswerButtons *self)
{
  if (self->next != NULL)
    gtk_widget_grab_focus (self->next);
}

static void
right_cb (CroAnswerButtons *self)
{
  CroBench *bench = self->bench;
  const CroDoubt doubt = self->doubt;
  /* Translators: an act of the history: somebody said so; %s is an ingredient. */
  g_autofree char *label = cro_isolate_printf (_("price of %s is right"), name_of (self));
  g_autoptr (GError) error = NULL;

  leave (self);
  if (doubt.kind == CRO_DOUBT_SELLING)
    {
      cro_selling_say_right (cro_bench_get_book (bench), &doubt);
      cro_bench_say (bench, _("Not asked about again until the book is closed"));
      return;
    }
  if (!cro_edit_answer_price (cro_bench_get_book (bench), label, doubt.ref.slot, doubt.date, &error))
    cro_bench_fail (bench, error);
}

static gboolean
set_meant (CroBook         *book,
           const char      *label,
           const CroDoubt  *doubt,
           GError         **error)
{
  gint64 price;

  if (!cro_decimal_from_double (doubt->meant, &price))
    return TRUE;
  return doubt->kind == CRO_DOUBT_SELLING
             ? cro_edit_set_selling_price (book, label, doubt->ref, doubt->date, price, error)
             : cro_edit_set_price (book, label, doubt->ref.slot, doubt->date, price, error);
}

static void
meant_cb (CroAnswerButtons *self)
{
  CroBench *bench = self->bench;
  const CroDoubt doubt = self->doubt;
  g_autofree char *label = cro_isolate_printf (_("price of %s"), name_of (self));
  g_autoptr (GError) error = NULL;

  leave (self);
  if (!set_meant (cro_bench_get_book (bench), label, &doubt, &error))
    cro_bench_fail (bench, error);
}

/* says: NULL: that is no answer. */
static gboolean
show_button (GtkWidget  *button,
             const char *says)
{
  gtk_widget_set_visible (button, says != NULL);
  if (says != NULL)
    gtk_button_set_label (GTK_BUTTON (button), says);
  return says != NULL;
}

void
cro_answer_buttons_set (CroAnswerButtons *self,
                        CroBench         *bench,
                        const CroDoubt   *doubt,
                        GtkWidget        *next)
{
  CroBook *book = cro_bench_get_book (bench);
  gboolean can_answer = doubt != NULL && !cro_book_is_past (book, NULL) && cro_book_get_tried (book) == NULL;
  CroModel *model = can_answer ? cro_book_get_model (book) : NULL;
  g_autofree char *meant = can_answer ? cro_words_doubt_meant (model, doubt) : NULL;
  g_autofree char *right = can_answer ? cro_words_doubt_answer (model, doubt) : NULL;
  gboolean asks_meant = show_button (self->meant, meant), asks_right = show_button (self->right, right);

  self->bench = bench;
  g_set_weak_pointer (&self->next, next);
  gtk_widget_set_visible (GTK_WIDGET (self), asks_meant || asks_right);
  if (can_answer)
    self->doubt = *doubt;
}

static GtkWidget *
add_button (CroAnswerButtons *self,
            GCallback         clicked)
{
  GtkWidget *button = gtk_button_new ();

  gtk_box_append (GTK_BOX (self), button);
  g_signal_connect_object (button, "clicked", clicked, self, G_CONNECT_SWAPPED);
  return button;
}

static void
cro_answer_buttons_dispose (GObject *object)
{
  g_clear_weak_pointer (&CRO_ANSWER_BUTTONS (object)->next);
  G_OBJECT_CLASS (cro_answer_buttons_parent_class)->dispose (object);
}

static void
cro_answer_buttons_class_init (CroAnswerButtonsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_answer_buttons_dispose;
}

static void
cro_answer_buttons_init (CroAnswerButtons *self)
{
  gtk_box_set_spacing (GTK_BOX (self), 6);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  self->meant = add_button (self, G_CALLBACK (meant_cb));
  self->right = add_button (self, G_CALLBACK (right_cb));
}

GtkWidget *
cro_answer_buttons_new (void)
{
  return g_object_new (CRO_TYPE_ANSWER_BUTTONS, NULL);
}
