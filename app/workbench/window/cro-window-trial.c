#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-trial-bench.h"
#include "cro-trials.h"
#include "cro-words.h"

/* A row of what was kept has so many characters at most. */
#define KEPT_CHARS 60

/* A sentence that nobody expects is there for so long. */
#define LOST_SECONDS 20

/* What a trial is of; 0: what stands on the bench can have none. */
static gint64
thing_of (CroWindow *self,
          CroRef     ref)
{
  CroModel *model = cro_book_get_model (self->book);
  const CroRecipe *recipe;

  if (ref.slot == CRO_NO_SLOT)
    return 0;
  if (ref.kind == CRO_REF_MENU)
    return cro_model_menu (model, ref.slot)->id;
  if (ref.kind != CRO_REF_RECIPE)
    return 0;
  recipe = cro_model_recipe (model, ref.slot);
  return recipe->is_plate ? recipe->id : 0;
}

gboolean
cro_window_has_trial (CroWindow *self,
                      CroRef     ref)
{
  gint64 thing = thing_of (self, ref);

  return thing != 0 && !cro_book_is_past (self->book, NULL)
         && cro_trials_get_front (self->book, thing) != 0;
}

CroBook *
cro_window_get_worked (CroWindow *self)
{
  GtkWidget *bench = gtk_stack_get_visible_child (self->bench);
  CroBook *tried = CRO_IS_TRIAL_BENCH (bench) ? cro_trial_bench_get_tried (CRO_TRIAL_BENCH (bench))
                                              : NULL;

  return tried != NULL ? tried : self->book;
}

void
cro_window_update_trial (CroWindow *self)
{
  gboolean is_past = cro_book_is_past (self->book, NULL);
  gboolean is_in = cro_window_has_trial (self, self->now);
  gboolean can_try = thing_of (self, self->now) != 0 && !is_past;

  gtk_button_set_label (GTK_BUTTON (self->trial_button), is_in ? _("Leave Trial") : _("Trial"));
  gtk_widget_set_tooltip_text (self->trial_button,
                               is_past    ? cro_words_past ()
                               : !can_try ? _("A trial is of a plate or a menu: choose one")
                               : is_in    ? _("Back to the book; the trial stays open (Ctrl+T)")
                                          : _("Try other amounts and prices; nothing is kept (Ctrl+T)"));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.trial", can_try);
}

/* One that was left open is found again. */
void
cro_window_begin_trial (CroWindow *self,
                        CroRef     ref)
{
  gint64 thing = thing_of (self, ref);
  g_autoptr (GArray) numbers = cro_trials_list (self->book, thing);
  guint number = numbers->len > 0 ? g_array_index (numbers, guint, numbers->len - 1) : 1;

  if (numbers->len == 0)
    cro_trials_set (self->book, thing, number, "[]");
  cro_trials_set_front (self->book, thing, number);
}

/* A toast's own title is one row, cut at its end. */
static GtkWidget *
title_new (const char *text)
{
  GtkWidget *label = cro_text_new (text, "heading");

  gtk_label_set_max_width_chars (GTK_LABEL (label), KEPT_CHARS);
  gtk_widget_set_margin_top (label, 6);
  gtk_widget_set_margin_bottom (label, 6);
  return label;
}

static void
say_whole (CroWindow  *self,
           const char *text)
{
  AdwToast *toast = adw_toast_new ("");

  adw_toast_set_custom_title (toast, title_new (text));
  adw_toast_set_timeout (toast, LOST_SECONDS);
  adw_toast_overlay_add_toast (self->toasts, toast);
}

/* Each is told once; it is in the list again as soon as its plate is. */
void
cro_window_tell_lost_trials (CroWindow *self)
{
  g_autoptr (GPtrArray) lost = NULL;

  if (cro_book_is_past (self->book, NULL))
    return;
  lost = cro_trials_list_lost (self->book);
  for (guint i = 0; i < lost->len; i++)
    say_whole (self, lost->pdata[i]);
}

/* Ctrl+T leads in and out. */
static void
trial_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  gint64 thing = self->book != NULL ? thing_of (self, self->now) : 0;

  if (thing == 0 || cro_book_is_past (self->book, NULL))
    return;
  if (cro_trials_get_front (self->book, thing) != 0)
    cro_trials_set_front (self->book, thing, 0);
  else
    cro_window_begin_trial (self, self->now);
  cro_window_show_again (self);
}

/* The button is of this act: at the next one it goes. */
static void
changed_cb (CroBook  *book,
            AdwToast *toast)
{
  guint64 *edition = g_object_get_data (G_OBJECT (toast), "edition");

  if (cro_book_get_edition (book) != *edition)
    adw_toast_dismiss (toast);
}

static void
kept_cb (CroWindow  *self,
         const char *text)
{
  guint64 edition = cro_book_get_edition (self->book);
  AdwToast *toast = adw_toast_new ("");

  adw_toast_set_custom_title (toast, title_new (text));
  adw_toast_set_button_label (toast, _("Undo"));
  adw_toast_set_action_name (toast, "win.undo");
  g_object_set_data_full (G_OBJECT (toast), "edition", g_memdup2 (&edition, sizeof edition), g_free);
  g_signal_connect_object (self->book, "changed", G_CALLBACK (changed_cb), toast, 0);
  adw_toast_overlay_add_toast (self->toasts, toast);
}

void
cro_window_watch_trial (CroWindow *self,
                        CroBench  *bench)
{
  if (!CRO_IS_TRIAL_BENCH (bench))
    return;
  g_signal_connect_object (bench, "tried", G_CALLBACK (cro_window_update_undo), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (bench, "ended", G_CALLBACK (cro_window_show_again), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (bench, "kept", G_CALLBACK (kept_cb), self, G_CONNECT_SWAPPED);
}

void
cro_window_install_trial (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.trial", NULL, trial_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_t, GDK_CONTROL_MASK, "win.trial", NULL);
}
