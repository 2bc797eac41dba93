/* What is said of one row, whole, and what answers it: in a room of its own, so that no row moves as it is asked. */
#include "config.h"

#include "cro-round-rows-private.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-room.h"
#include "cro-wrap.h"

/* --- What is shown ------------------------------------------------------------------------------------------ */

static gboolean
waits (CroRoundRows *self,
       guint         index)
{
  return index < n_rows_of (self) && cro_round_row_waits (cro_round_get_row (self->round, index));
}

static gboolean
can_be_else (CroRoundRows *self,
             guint         index)
{
  return cro_round_can_call (self->round, index) || cro_round_can_hold (self->round, index)
         || cro_round_can_sort (self->round, index) || cro_round_can_turn (self->round, index)
         || cro_round_can_give_back (self->round, index);
}

static gboolean
says_anything (CroRoundRows *self,
               guint         index)
{
  g_autofree char *note = index < n_rows_of (self) ? cro_words_round_note (self->round, index) : NULL;

  return note != NULL || (index < n_rows_of (self) && can_be_else (self, index));
}

/* The row with the focus, the one that was left for it, or the first that waits. */
static guint
find_said (CroRoundRows *self)
{
  guint n = n_rows_of (self), first = 0;

  if (waits (self, self->row))
    return self->row;
  /* It has no line of its own to say it on. */
  if (self->is_tight && self->typed == self->row && says_anything (self, self->row))
    return self->row;
  if (waits (self, self->left))
    return self->left;
  if (says_anything (self, self->row))
    return self->row;
  while (first < n && !waits (self, first))
    first++;
  return first < n ? first : CRO_NO_SLOT;
}

static void
show_answers (CroRoundRows *self,
              guint         index)
{
  const CroRoundRow *of = cro_round_get_row (self->round, index);
  g_autofree char *suggestion = cro_round_dup_suggestion (self->round, index);
  gboolean can_be_right = cro_round_can_be_right (self->round, index);
  gboolean is_new = (of->is_added || of->is_billed) && of->list.item == CRO_NO_SLOT;
  gboolean asks_back = cro_round_row_asks_back (of);
  g_autofree char *typed = cro_words_round_typed (self->round, of);
  /* Translators: a button with its key: a credit note gives a part of the price back. */
  g_autofree char *suggest = asks_back          ? g_strdup (_("F2  A Part of the Price"))
                             /* Translators: a button with its key: takes the price that was probably meant. */
                             : suggestion != NULL ? cro_isolate_printf (_("F2  Use %s"), suggestion)
                                                  : NULL;
  /* Translators: a button with its key: a credit note is for goods that go back. */
  g_autofree char *right = asks_back ? g_strdup (_("F3  The Goods Go Back"))
                           /* Translators: a button with its key: a new ingredient is made. */
                           : is_new ? g_strdup (_("F3  New Ingredient"))
                           : of->kind == CRO_ROUND_AS_LAST ? g_strdup (_("F3  The Last Price Is Right"))
                                  /* Translators: a button with its key: the price that was typed is right. */
                                  : cro_isolate_printf (_("F3  %s Is Right"), typed);

  gtk_button_set_label (GTK_BUTTON (self->suggest), suggest != NULL ? suggest : "");
  gtk_button_set_label (GTK_BUTTON (self->right), right);
  gtk_widget_set_visible (self->suggest, suggest != NULL);
  gtk_widget_set_visible (self->right, can_be_right);
  cro_round_else_show (CRO_ROUND_ELSE (self->else_), self->round, index);
}

void
cro_round_rows_say (CroRoundRows *self,
                    guint         index,
                    const char   *note)
{
  g_autofree char *name = cro_words_round_name (self->round, cro_round_get_row (self->round, index));
  g_autofree char *said = cro_isolate_printf (_("%s: %s"), name, note);

  gtk_label_set_label (GTK_LABEL (self->said), said);
}

/* What has no line of its own in a tight sheet: "Egg: 0.38 each · since 2026-11-02". NULL: nothing. */
static char *
dup_at_hand (CroRoundRows *self)
{
  const CroRoundRow *of = self->is_tight && self->row < n_rows_of (self) ? cro_round_get_row (self->round, self->row)
                                                                         : NULL;
  g_autofree char *name = of != NULL ? cro_words_round_name (self->round, of) : NULL;
  g_autofree char *other = of != NULL ? cro_words_round_other (self->round, of) : NULL, *day = NULL;

  if (of == NULL || other == NULL)
    return NULL;
  if (of->is_billed || of->since == CRO_NO_DAY)
    return cro_isolate_printf (_("%s: %s"), name, other);
  day = cro_date_to_text (of->since);
  /* Translators: an ingredient, its price in another unit, and the day since when its last price holds. */
  return cro_isolate_printf (_("%s: %s · last price since %s"), name, other, day);
}

void
cro_round_rows_show_asked (CroRoundRows *self)
{
  guint index = self->asked_row = find_said (self);
  const CroRoundRow *of = index != CRO_NO_SLOT ? cro_round_get_row (self->round, index) : NULL;
  g_autofree char *name = of != NULL ? cro_words_round_name (self->round, of) : NULL;
  g_autofree char *note = of != NULL ? cro_words_round_note (self->round, index) : NULL;
  g_autofree char *said = note != NULL ? cro_isolate_printf (_("%s: %s"), name, note)
                          : of != NULL ? g_strdup (name)
                                       : dup_at_hand (self);
  gboolean is_answered = of != NULL && (of->kind != CRO_ROUND_EMPTY || of->is_billed);

  gtk_label_set_label (GTK_LABEL (self->said), said != NULL ? said : "");
  if (of != NULL && cro_round_row_waits (of))
    gtk_widget_add_css_class (self->said, "reason");
  else
    gtk_widget_remove_css_class (self->said, "reason");
  gtk_widget_set_visible (self->answers, is_answered);
  if (is_answered)
    show_answers (self, index);
}

/* --- Answers ------------------------------------------------------------------------------------------------ */

/* The keys do the same, for the row that is asked about. What is shown of a row elsewhere leads there first; and
 * after an answer the row that was left is one elsewhere: whoever clicks twice has read but one question. */
static void
answer_cb (CroRoundRows *self,
           GtkWidget    *button)
{
  guint index = self->asked_row;
  gboolean is_at_hand = (index == self->row || index == self->left) && cro_round_rows_is_seen (self, index);

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  cro_round_rows_focus (self, index);
  self->left = CRO_NO_SLOT;
  if (is_at_hand)
    gtk_widget_activate_action (GTK_WIDGET (self), button == self->suggest ? "round.suggest-here" : "round.right-here",
                                NULL);
}

/* Whether it is on an answer, not in a popover of one. */
static gboolean
has_focus (CroRoundRows *self)
{
  GtkRoot *root = gtk_widget_get_root (self->answers);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && gtk_widget_is_ancestor (focus, self->answers)
         && gtk_widget_get_native (focus) == gtk_widget_get_native (self->answers);
}

gboolean
cro_round_rows_tab (CroRoundRows     *self,
                    GtkDirectionType  direction)
{
  guint index = self->asked_row;

  if (self->round == NULL || index == CRO_NO_SLOT)
    return FALSE;
  if (direction == GTK_DIR_TAB_FORWARD && cro_round_rows_is_at (self, index, FALSE))
    return gtk_widget_child_focus (self->answers, direction);
  if (!has_focus (self) || (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD))
    return FALSE;
  if (!gtk_widget_child_focus (self->answers, direction))
    {
      if (direction == GTK_DIR_TAB_FORWARD)
        cro_round_rows_pass_on (self, index);
      else
        cro_round_rows_focus (self, index);
    }
  return TRUE;
}

/* Who came there by Tab is on the way to the next price. */
static gboolean
key_cb (CroRoundRows    *self,
        guint            keyval,
        guint            keycode,
        GdkModifierType  state)
{
  gunichar sign = gdk_keyval_to_unicode (keyval);

  if (self->round == NULL || self->asked_row == CRO_NO_SLOT || !has_focus (self) || sign == 0
      || !g_unichar_isgraph (sign) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  cro_focus_type (cro_round_rows_pass_on (self, self->asked_row), sign);
  return GDK_EVENT_STOP;
}

/* --- What else it is ---------------------------------------------------------------------------------------- */

/* Once the popover has gone: the focus goes to the row. */
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

static void
called_cb (CroRoundElse *button,
           guint         item,
           CroRoundRows *self)
{
  guint index = self->asked_row;
  GError *error = NULL;

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  if (!cro_round_call (self->round, index, item, &error))
    cro_round_rows_fail (self, error);
  answer_later (self, index);
}

static void
sorted_cb (CroRoundElse *button,
           CroListGoods  goods,
           CroRoundRows *self)
{
  guint index = self->asked_row;
  GError *error = NULL;

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  if (!cro_round_sort (self->round, index, goods, &error))
    cro_round_rows_fail (self, error);
  answer_later (self, index);
}

static void
turned_cb (CroRoundElse *button,
           gboolean      is_turned,
           CroRoundRows *self)
{
  guint index = self->asked_row;
  GError *error = NULL;

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  if (!cro_round_turn (self->round, index, is_turned, &error))
    cro_round_rows_fail (self, error);
  answer_later (self, index);
}

static void
given_back_cb (CroRoundElse *button,
               CroListBack   back,
               CroRoundRows *self)
{
  guint index = self->asked_row;
  GError *error = NULL;

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  if (!cro_round_give_back (self->round, index, back, &error))
    cro_round_rows_fail (self, error);
  answer_later (self, index);
}

static void
holds_cb (CroRoundElse *button,
          const char   *text,
          CroRoundRows *self)
{
  guint index = self->asked_row;
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

/* --- The widgets -------------------------------------------------------------------------------------------- */

static GtkWidget *
answer_new (CroRoundRows *self)
{
  GtkWidget *button = gtk_button_new_with_label ("");

  g_signal_connect_object (button, "clicked", G_CALLBACK (answer_cb), self, G_CONNECT_SWAPPED);
  return button;
}

static GtkWidget *
asked_box_new (GtkWidget *said,
               GtkWidget *answers)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  gtk_box_append (GTK_BOX (box), said);
  gtk_box_append (GTK_BOX (box), answers);
  return box;
}

/* A long question, with names of some length. */
static GtkWidget *
sample_new (void)
{
  /* Not to be translated: as many letters as names have. */
  static const char name[] = "Brown shrimps, peeled", supplier[] = "Far Bank Fish and Meat", change[] = "+100.0\u00a0%";
  g_autofree char *question
      = cro_isolate_printf (_("The price per unit differs by %s from that of %s. Is it right?"), change, supplier);
  g_autofree char *said = cro_isolate_printf (_("%s: %s"), name, question);

  return asked_box_new (cro_text_new (said, "reason"), gtk_button_new_with_label (_("F3  New Ingredient")));
}

void
cro_round_rows_make_asked (CroRoundRows *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->said = cro_text_new ("", NULL);
  self->answers = cro_wrap_new (6, 3);
  self->suggest = answer_new (self);
  self->right = answer_new (self);
  self->else_ = cro_round_else_new ();
  g_signal_connect_object (self->else_, "called", G_CALLBACK (called_cb), self, 0);
  g_signal_connect_object (self->else_, "holds", G_CALLBACK (holds_cb), self, 0);
  g_signal_connect_object (self->else_, "sorted", G_CALLBACK (sorted_cb), self, 0);
  g_signal_connect_object (self->else_, "turned", G_CALLBACK (turned_cb), self, 0);
  g_signal_connect_object (self->else_, "given-back", G_CALLBACK (given_back_cb), self, 0);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->answers, keys);
  cro_wrap_append (CRO_WRAP (self->answers), self->suggest);
  cro_wrap_append (CRO_WRAP (self->answers), self->right);
  cro_wrap_append (CRO_WRAP (self->answers), self->else_);
  self->asked = cro_room_new (asked_box_new (self->said, self->answers), sample_new ());
  gtk_widget_add_css_class (self->asked, "round");
  gtk_widget_set_visible (self->answers, FALSE);
}

GtkWidget *
cro_round_rows_get_asked (CroRoundRows *self)
{
  return self->asked;
}
