#include "config.h"

#include "cro-answer-button.h"

#include <glib/gi18n.h>

#include "cro-edit.h"
#include "cro-isolate.h"
#include "cro-words.h"

struct _CroAnswerButton
{
  GtkButton  parent_instance;

  CroBench  *bench;   /* borrowed */
  GtkWidget *next;    /* weak */
  CroDoubt   doubt;
};

G_DEFINE_FINAL_TYPE (CroAnswerButton, cro_answer_button, GTK_TYPE_BUTTON)

static void
clicked_cb (CroAnswerButton *self)
{
  CroBench *bench = self->bench;
  CroBook *book = cro_bench_get_book (bench);
  CroModel *model = cro_book_get_model (book);
  guint32 offer = self->doubt.ref.slot;
  /* Translators: an act of the history: somebody said so; %s is an ingredient. */
  g_autofree char *label = cro_isolate_printf (_("price of %s is right"),
                                               cro_model_item (model, cro_model_offer (model, offer)->item)->name);
  g_autoptr (GError) error = NULL;

  if (self->next != NULL)
    gtk_widget_grab_focus (self->next);
  if (!cro_edit_answer_price (book, label, offer, self->doubt.date, &error))
    cro_bench_fail (bench, error);
}

void
cro_answer_button_set (CroAnswerButton *self,
                       CroBench        *bench,
                       const CroDoubt  *doubt,
                       GtkWidget       *next)
{
  CroBook *book = cro_bench_get_book (bench);
  gboolean can_answer = doubt != NULL && !cro_book_is_past (book, NULL) && cro_book_get_tried (book) == NULL;
  g_autofree char *says = can_answer ? cro_words_doubt_answer (cro_book_get_model (book), doubt) : NULL;

  self->bench = bench;
  g_set_weak_pointer (&self->next, next);
  gtk_widget_set_visible (GTK_WIDGET (self), says != NULL);
  if (says == NULL)
    return;
  self->doubt = *doubt;
  gtk_button_set_label (GTK_BUTTON (self), says);
}

static void
cro_answer_button_dispose (GObject *object)
{
  g_clear_weak_pointer (&CRO_ANSWER_BUTTON (object)->next);
  G_OBJECT_CLASS (cro_answer_button_parent_class)->dispose (object);
}

static void
cro_answer_button_class_init (CroAnswerButtonClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_answer_button_dispose;
}

static void
cro_answer_button_init (CroAnswerButton *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  g_signal_connect (self, "clicked", G_CALLBACK (clicked_cb), NULL);
}

GtkWidget *
cro_answer_button_new (void)
{
  return g_object_new (CRO_TYPE_ANSWER_BUTTON, NULL);
}
