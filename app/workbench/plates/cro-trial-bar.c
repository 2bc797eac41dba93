#include "config.h"

#include "cro-trial-bar.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-measure.h"
#include "cro-number.h"
#include "cro-room.h"
#include "cro-words.h"
#include "cro-wrap.h"

struct _CroTrialBar
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *title;
  GtkWidget *buttons;
  GtkWidget *last;        /* of the buttons before those that end the trial */
  GtkWidget *others;      /* a button for each of several trials */
  GtkWidget *keep;
  GtkWidget *popover;     /* asks since when */
  GtkWidget *entry;
  GtkWidget *reason;
  GtkWidget *past;        /* what a past day means */
  GtkWidget *at_once;     /* what of it asks no day */
  GtkWidget *drop;
  GtkWidget *asks;        /* the popover that asks before what is tried is dropped */
  GtkWidget *lost;        /* how much */
  GtkWidget *tried;
  GtkWidget *left;        /* what cannot be tried now */
  CroDate    today;
  guint      n;           /* changes that would be dropped */
  gboolean   is_dated;
};

G_DEFINE_FINAL_TYPE (CroTrialBar, cro_trial_bar, GTK_TYPE_WIDGET)

/* --- Keeping ---------------------------------------------------------------------------------- */

/* A popover asks how high a text is before it knows how wide: the last line would be cut. */
static void
make_room (GtkWidget *label)
{
  int wanted;

  gtk_widget_set_size_request (label, -1, -1);
  gtk_widget_measure (label, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &wanted, NULL, NULL);
  gtk_widget_set_size_request (label, wanted, cro_measure_height (label, wanted));
}

static void
keep_cb (CroTrialBar *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  g_auto (CroEntry) read = { 0 };
  CroDate from = self->today;

  if (self->is_dated && cro_entry_date (text, &read))
    from = read.date;
  else if (self->is_dated && read.status != CRO_ENTRY_EMPTY)
    {
      g_autofree char *reason = cro_words_entry_reason (text, &read);

      gtk_label_set_label (GTK_LABEL (self->reason), reason);
      gtk_widget_set_visible (self->reason, TRUE);
      make_room (self->reason);
      gtk_widget_grab_focus (self->entry);
      return;
    }
  gtk_popover_popdown (GTK_POPOVER (self->popover));
  gtk_widget_activate_action (GTK_WIDGET (self), "trial.keep", "i", from);
}

/* Where nothing asks from when there is nothing to ask: then the button has no dots. */
static void
ask_cb (CroTrialBar *self)
{
  g_autofree char *today = cro_date_to_text (self->today);

  if (!self->is_dated)
    {
      keep_cb (self);
      return;
    }
  gtk_editable_set_text (GTK_EDITABLE (self->entry), today);
  gtk_widget_set_visible (self->reason, FALSE);
  make_room (self->at_once);
  gtk_popover_popup (GTK_POPOVER (self->popover));
  gtk_widget_grab_focus (self->entry);
  cro_focus_select (self->entry);
}

/* A price that begins later is not touched. */
static void
from_cb (CroTrialBar *self)
{
  g_auto (CroEntry) read = { 0 };
  gboolean is_past = cro_entry_date (gtk_editable_get_text (GTK_EDITABLE (self->entry)), &read)
                     && read.date < cro_here_today ();

  gtk_widget_set_visible (self->past, is_past);
  if (is_past)
    make_room (self->past);
}

static GtkWidget *
popover_new (CroTrialBar *self)
{
  GtkWidget *popover = gtk_popover_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *button = gtk_button_new_with_label (_("Keep"));

  self->entry = cro_entry_new (_("First day of the prices"), cro_date_chars ());
  self->reason = cro_text_new (NULL, "reason");
  gtk_label_set_max_width_chars (GTK_LABEL (self->reason), 36);
  self->past = cro_text_new (_("This day is past. A price that begins later still holds from its own date."),
                             "caption");
  gtk_label_set_max_width_chars (GTK_LABEL (self->past), 30);
  gtk_widget_set_visible (self->past, FALSE);
  gtk_widget_add_css_class (button, "suggested-action");
  gtk_box_append (GTK_BOX (row), self->entry);
  gtk_box_append (GTK_BOX (row), button);
  gtk_box_append (GTK_BOX (box), cro_text_new (_("Prices hold from"), "heading"));
  gtk_box_append (GTK_BOX (box), row);
  gtk_box_append (GTK_BOX (box), self->reason);
  gtk_box_append (GTK_BOX (box), self->past);
  self->at_once = cro_text_new (NULL, "caption");
  gtk_label_set_max_width_chars (GTK_LABEL (self->at_once), 36);
  gtk_box_append (GTK_BOX (box), self->at_once);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  g_signal_connect_object (self->entry, "activate", G_CALLBACK (keep_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "changed", G_CALLBACK (from_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (button, "clicked", G_CALLBACK (keep_cb), self, G_CONNECT_SWAPPED);
  return popover;
}

/* --- Dropping --------------------------------------------------------------------------------- */

static void
drop_cb (CroTrialBar *self)
{
  gtk_popover_popdown (GTK_POPOVER (self->asks));
  gtk_widget_activate_action (GTK_WIDGET (self), "trial.drop", NULL);
}

/* Nothing gives a trial back: where something is tried it is asked for. */
static void
ask_drop_cb (CroTrialBar *self)
{
  g_autofree char *text = g_strdup_printf (ngettext ("%u change is lost.", "%u changes are lost.", self->n),
                                           self->n);

  if (self->n == 0)
    {
      drop_cb (self);
      return;
    }
  gtk_label_set_label (GTK_LABEL (self->lost), text);
  gtk_popover_popup (GTK_POPOVER (self->asks));
}

static GtkWidget *
asks_new (CroTrialBar *self)
{
  GtkWidget *popover = gtk_popover_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *button = gtk_button_new_with_label (_("Drop Trial"));

  self->lost = cro_text_new (NULL, NULL);
  gtk_widget_add_css_class (button, "destructive-action");
  gtk_box_append (GTK_BOX (box), cro_text_new (_("Drop this trial?"), "heading"));
  gtk_box_append (GTK_BOX (box), self->lost);
  gtk_box_append (GTK_BOX (box), button);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  g_signal_connect_object (button, "clicked", G_CALLBACK (drop_cb), self, G_CONNECT_SWAPPED);
  return popover;
}

/* --- Showing ---------------------------------------------------------------------------------- */

static void
add_number (CroTrialBar *self,
            guint        number,
            gboolean     is_here)
{
  /* Translators: one of several trials of a plate, by its number. */
  g_autofree char *label = g_strdup_printf (_("Trial %u"), number);
  GtkWidget *button = gtk_toggle_button_new_with_label (label);

  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), is_here);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "u", number);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "trial.show");
  gtk_box_append (GTK_BOX (self->others), button);
}

void
cro_trial_bar_set_trial (CroTrialBar *self,
                         guint        number,
                         GArray      *numbers)
{
  gboolean is_one = numbers->len < 2;

  gtk_label_set_label (GTK_LABEL (self->title),
                       is_one ? _("Trial: nothing here is kept") : _("Nothing here is kept"));
  cro_box_clear (self->others);
  gtk_widget_set_visible (self->others, !is_one);
  for (guint i = 0; !is_one && i < numbers->len; i++)
    add_number (self, g_array_index (numbers, guint, i), g_array_index (numbers, guint, i) == number);
}

void
cro_trial_bar_set_tried (CroTrialBar *self,
                         guint        n,
                         const char  *words,
                         guint        n_left,
                         const char  *left,
                         gboolean     is_dated,
                         const char  *at_once,
                         CroDate      today)
{
  /* Translators: before a trial is kept from a later day: what of it is no price, and holds today already. */
  g_autofree char *now = cro_isolate_printf (_("Changes at once, whatever the day: %s"), at_once);
  g_autofree char *text
      = n > 0 ? g_strdup_printf (/* Translators: how many things are tried, and what they are. */
                                 ngettext ("Upper figures: the book. %u change: %s",
                                           "Upper figures: the book. %u changes: %s", n),
                                 n, words)
              : g_strdup (_("Upper figures: the book. Change amounts and prices below."));
  g_autofree char *aside
      = g_strdup_printf (/* Translators: how many things cannot be tried, and what they are about. */
                         ngettext ("%u change waits, as it no longer fits the book: %s",
                                   "%u changes wait, as they no longer fit the book: %s",
                                   n_left),
                         n_left, left != NULL ? left : "");

  self->is_dated = is_dated;
  self->today = today;
  gtk_label_set_label (GTK_LABEL (self->at_once), now);
  gtk_widget_set_visible (self->at_once, is_dated && *at_once != '\0');
  gtk_label_set_label (GTK_LABEL (self->tried), text);
  gtk_widget_set_tooltip_text (self->tried, n > 0 ? words : NULL);
  gtk_label_set_label (GTK_LABEL (self->left), aside);
  gtk_widget_set_visible (self->left, n_left > 0);
  gtk_button_set_label (GTK_BUTTON (self->keep), is_dated ? _("Keep…") : _("Keep"));
  gtk_widget_set_sensitive (self->keep, n > 0);
  self->n = n + n_left;
}

void
cro_trial_bar_add (CroTrialBar *self,
                   GtkWidget   *child)
{
  cro_wrap_insert_after (CRO_WRAP (self->buttons), child, self->last);
  self->last = child;
}

void
cro_trial_bar_add_below (CroTrialBar *self,
                         GtkWidget   *child)
{
  gtk_box_append (GTK_BOX (self->box), child);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_trial_bar_dispose (GObject *object)
{
  g_clear_pointer (&CRO_TRIAL_BAR (object)->popover, gtk_widget_unparent);
  g_clear_pointer (&CRO_TRIAL_BAR (object)->asks, gtk_widget_unparent);
  g_clear_pointer (&CRO_TRIAL_BAR (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_trial_bar_parent_class)->dispose (object);
}

static void
cro_trial_bar_class_init (CroTrialBarClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_trial_bar_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_trial_bar_init (CroTrialBar *self)
{
  GtkWidget *says = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9), *tried;

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  self->title = gtk_label_new (NULL);
  self->others = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  self->buttons = cro_wrap_new (9, 6);
  self->tried = cro_text_new (NULL, "caption");
  gtk_widget_add_css_class (self->title, "heading");
  gtk_widget_set_valign (self->title, GTK_ALIGN_START);
  gtk_label_set_ellipsize (GTK_LABEL (self->tried), PANGO_ELLIPSIZE_END);
  gtk_label_set_lines (GTK_LABEL (self->tried), 2);
  /* Two lines before anything is tried too, so that the first change moves nothing. */
  tried = cro_room_new (self->tried, cro_text_new ("\n", "caption"));
  gtk_widget_set_hexpand (tried, TRUE);
  cro_wrap_append (CRO_WRAP (self->buttons), self->others);
  self->last = self->others;
  self->keep = gtk_button_new_with_label (_("Keep"));
  g_signal_connect_object (self->keep, "clicked", G_CALLBACK (ask_cb), self, G_CONNECT_SWAPPED);
  /* With or without dots, so that the next button stays where it is. */
  cro_wrap_append (CRO_WRAP (self->buttons), cro_room_new (self->keep, gtk_button_new_with_label (_("Keep…"))));
  self->drop = gtk_button_new_with_label (_("Drop"));
  g_signal_connect_object (self->drop, "clicked", G_CALLBACK (ask_drop_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (self->buttons), self->drop);
  self->popover = popover_new (self);
  self->left = cro_text_new (NULL, "reason");
  gtk_widget_set_visible (self->left, FALSE);
  gtk_widget_set_parent (self->popover, self->keep);
  self->asks = asks_new (self);
  gtk_widget_set_parent (self->asks, self->drop);
  gtk_widget_add_css_class (self->box, "part");
  gtk_box_append (GTK_BOX (self->box), self->buttons);
  gtk_box_append (GTK_BOX (says), self->title);
  gtk_box_append (GTK_BOX (says), tried);
  gtk_box_append (GTK_BOX (self->box), says);
  gtk_box_append (GTK_BOX (self->box), self->left);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_trial_bar_new (void)
{
  return g_object_new (CRO_TYPE_TRIAL_BAR, NULL);
}
