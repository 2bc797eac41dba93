/* What answers a row that is asked about, by the mouse. */
#include "config.h"

#include "cro-round-rows-private.h"

#include <glib/gi18n.h>

static guint
index_of_answer (CroRoundRows *self,
                 GtkWidget    *button)
{
  for (guint i = self->first; is_in_sight (self, i); i++)
    if (row_at (self, i)->answers != NULL && (row_at (self, i)->suggest == button || row_at (self, i)->right == button))
      return i;
  return CRO_NO_SLOT;
}

/* The keys do the same, for the row that is asked about. */
void
cro_round_rows_answer_cb (GtkWidget    *button,
                          CroRoundRows *self)
{
  guint index = index_of_answer (self, button);
  gboolean is_suggest = index != CRO_NO_SLOT && row_at (self, index)->suggest == button;

  if (index == CRO_NO_SLOT)
    return;
  cro_round_rows_focus (self, index);
  gtk_widget_activate_action (GTK_WIDGET (self), is_suggest ? "round.suggest" : "round.right", NULL);
}

/* Who came there by Tab is on the way to the next price. */
gboolean
cro_round_rows_answer_key_cb (GtkEventController *controller,
                              guint               keyval,
                              guint               keycode,
                              GdkModifierType     state,
                              CroRoundRows       *self)
{
  guint index = index_of_answer (self, gtk_event_controller_get_widget (controller));
  gunichar sign = gdk_keyval_to_unicode (keyval);

  if (index == CRO_NO_SLOT || sign == 0 || !g_unichar_isgraph (sign)
      || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  cro_round_rows_type_on (self, index, sign);
  return GDK_EVENT_STOP;
}

static guint
index_of_else (CroRoundRows *self,
               CroRoundElse *button)
{
  for (guint i = self->first; is_in_sight (self, i); i++)
    if (row_at (self, i)->answers != NULL && row_at (self, i)->else_ == GTK_WIDGET (button))
      return i;
  return CRO_NO_SLOT;
}

/* Rows are made anew, and the button with them. */
static gboolean
answered_cb (gpointer rows)
{
  CroRoundRows *self = rows;

  if (self->round != NULL)
    cro_round_rows_make_again (self, self->answered);
  return G_SOURCE_REMOVE;
}

static void
answer_later (CroRoundRows *self,
              guint         index)
{
  self->answered = index;
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, answered_cb, g_object_ref (self), g_object_unref);
}

void
cro_round_rows_called_cb (CroRoundElse *button,
                          guint         item,
                          CroRoundRows *self)
{
  guint index = index_of_else (self, button);
  GError *error = NULL;

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  if (!cro_round_call (self->round, index, item, &error))
    cro_round_rows_fail (self, error);
  answer_later (self, index);
}

void
cro_round_rows_sorted_cb (CroRoundElse *button,
                          CroListGoods  goods,
                          CroRoundRows *self)
{
  guint index = index_of_else (self, button);
  GError *error = NULL;

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  if (!cro_round_sort (self->round, index, goods, &error))
    cro_round_rows_fail (self, error);
  answer_later (self, index);
}

void
cro_round_rows_turned_cb (CroRoundElse *button,
                          gboolean      is_turned,
                          CroRoundRows *self)
{
  guint index = index_of_else (self, button);
  GError *error = NULL;

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  if (!cro_round_turn (self->round, index, is_turned, &error))
    cro_round_rows_fail (self, error);
  answer_later (self, index);
}

void
cro_round_rows_holds_cb (CroRoundElse *button,
                         const char   *text,
                         CroRoundRows *self)
{
  guint index = index_of_else (self, button);
  GError *error = NULL;

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  if (cro_round_hold (self->round, index, text, &error))
    {
      cro_round_else_accept (button);
      answer_later (self, index);
    }
  else if (error == NULL)
    cro_round_else_refuse (button, _("What is in one? For instance 6 x 1 kg."));
  else
    cro_round_rows_fail (self, error);
}
