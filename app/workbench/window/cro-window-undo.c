#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-field.h"
#include "cro-input.h"
#include "cro-isolate.h"
#include "cro-measure.h"
#include "cro-past.h"
#include "cro-spoken.h"
#include "cro-undone-prices.h"

/* Fewer letters of an act say nothing. */
#define LEAST_CHARS 20

/* Between the buttons of the head and beside its title. */
#define HEAD_SPACING 6

/* Pixels, before the first of them and on to the title, in the toolkit that takes most. */
#define HEAD_ENDS 42

/* --- Undo ------------------------------------------------------------------------------------------------ */

static void
name_button (CroWindow  *self,
             const char *action,
             GtkWidget  *button,
             const char *text,
             gboolean    is_possible)
{
  gtk_widget_action_set_enabled (GTK_WIDGET (self), action, is_possible);
  gtk_widget_set_tooltip_text (button, text);
  cro_spoken_set (button, text);
}

static gboolean
sets_closing (const char *row)
{
  return row != NULL && strstr (row, "\"closed_at\":\"") != NULL;
}

/* Whether an act closed a month or opened it again, which undo never takes back. */
static gboolean
is_closing (GPtrArray *changes)
{
  for (guint i = 0; i < changes->len; i++)
    {
      const CroChange *change = changes->pdata[i];

      if (g_str_equal (change->table, "month") && (sets_closing (change->before) || sets_closing (change->after)))
        return TRUE;
    }
  return FALSE;
}

/* What undo would take; NULL: nothing. What filled an empty book kept no rows. *barred, to be freed: what
 * stands there and is taken back in another way. */
static CroAct *
peek_undo (CroStore  *store,
           char     **barred)
{
  g_autoptr (CroAct) act = cro_store_peek_undo (store, NULL);
  g_autoptr (GPtrArray) changes = act != NULL ? cro_store_list_changes_of_act (store, act->id, NULL)
                                              : NULL;

  if (changes == NULL || changes->len == 0
      || strcmp (((CroChange *) changes->pdata[0])->table, "*") == 0)
    return NULL;
  if (!is_closing (changes))
    return g_steal_pointer (&act);
  /* Translators: %s is an entry of the history: "Close 2026-08". */
  *barred = g_strdup_printf (_("“%s” is not undone: on the month’s page it is closed and opened again"), act->label);
  return NULL;
}

static int
width_of (GtkWidget *widget)
{
  int natural = 0;

  if (gtk_widget_should_layout (widget))
    gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &natural, NULL, NULL);
  return natural;
}

/* Of the undo button's words, with the space beside them, which goes with them. The room for them is the same whether
 * they are shown or not: else one layout would ask for another without end. */
static int
width_of_words (CroWindow *self)
{
  int space = gtk_box_get_spacing (GTK_BOX (gtk_widget_get_parent (self->undo_label)));

  return gtk_widget_get_visible (self->undo_label) ? width_of (self->undo_label) : -space;
}

/* For words of the undo button, beside a title that stays in the middle of the head: a newer toolkit would push it
 * aside for them, or cut it. */
static int
chars_of_room (CroWindow *self)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  int title = MIN (width_of (GTK_WIDGET (self->title)), width / 3);
  int taken = HEAD_ENDS - width_of_words (self);

  for (GtkWidget *child = gtk_widget_get_first_child (gtk_widget_get_parent (self->undo_button)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    taken += width_of (child) + HEAD_SPACING;
  return 100 * ((width - title) / 2 - taken) / cro_measure_chars (self->undo_label, 100);
}

/* In a trial its bar says what was done; too narrow for an act in words beside the title and the buttons, or not
 * laid out yet, the beginning of a word says nothing. */
static void
show_words (CroWindow *self)
{
  int chars = chars_of_room (self);
  gboolean is_shown = *gtk_label_get_label (GTK_LABEL (self->undo_label)) != '\0' && chars >= LEAST_CHARS
                      && cro_window_get_worked (self) == self->book;

  if (is_shown && chars != gtk_label_get_max_width_chars (GTK_LABEL (self->undo_label)))
    gtk_label_set_max_width_chars (GTK_LABEL (self->undo_label), chars);
  gtk_widget_set_visible (self->undo_label, is_shown);
}

/* The window has another width. */
static void
laid_out_cb (CroWindow *self)
{
  if (self->book != NULL)
    show_words (self);
}

static void
realize_cb (CroWindow *self)
{
  g_signal_connect_object (gtk_native_get_surface (GTK_NATIVE (self)), "layout", G_CALLBACK (laid_out_cb), self,
                           G_CONNECT_SWAPPED | G_CONNECT_AFTER);
}

void
cro_window_update_undo (CroWindow *self)
{
  CroStore *store = cro_book_get_store (cro_window_get_worked (self));
  g_autofree char *barred = NULL;
  g_autoptr (CroAct) undo = peek_undo (store, &barred);
  g_autoptr (CroAct) redo = cro_store_peek_redo (store, NULL);
  /* Translators: %s is an entry of the history, as "amount of butter". */
  g_autofree char *undo_text = undo != NULL ? g_strdup_printf (_("Undo %s"), undo->label)
                               : barred != NULL ? g_strdup (barred)
                                                : g_strdup (_("Nothing to undo"));
  /* Translators: %s is an entry of the history, as "amount of butter". */
  g_autofree char *redo_text = redo != NULL ? g_strdup_printf (_("Redo %s"), redo->label)
                                            : g_strdup (_("Nothing to redo"));

  name_button (self, "win.undo", self->undo_button, undo_text, undo != NULL);
  name_button (self, "win.redo", self->redo_button, redo_text, redo != NULL);
  gtk_label_set_label (GTK_LABEL (self->undo_label), undo != NULL ? undo_text : "");
  show_words (self);
}

/* What an undo leaves of prices, where that is not what was billed last. */
static void
say_prices (CroWindow *self)
{
  CroBook *book = cro_window_get_worked (self);
  g_autoptr (GPtrArray) acts = cro_store_list_acts (cro_book_get_store (book), 0, 1, NULL);
  g_autofree char *said = acts != NULL && acts->len > 0
                              ? cro_words_undone_prices (book, ((const CroAct *) acts->pdata[0])->of, NULL) : NULL;

  if (said != NULL && *said != '\0')
    cro_window_say (self, g_strchomp (said));
}

static void
undo_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  gboolean is_undo = strcmp (action, "win.undo") == 0;
  g_autoptr (GError) error = NULL;
  CroConflict conflict = { 0 };
  gboolean done;

  if (self->book == NULL)
    return;
  done = is_undo ? cro_book_undo (cro_window_get_worked (self), &conflict, &error)
                 : cro_book_redo (cro_window_get_worked (self), &conflict, &error);
  if (!done && error != NULL && !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NOTHING))
    {
      g_autofree char *why = cro_past_dup_refused (cro_window_get_worked (self), &conflict, error);
      /* Translators: why, in words. */
      g_autofree char *said = cro_isolate_printf (is_undo ? _("Undo is not possible: %s.")
                                                          : _("Redo is not possible: %s."),
                                                  why);

      cro_window_say (self, said);
    }
  else if (done && is_undo)
    say_prices (self);
  cro_conflict_clear (&conflict);
}

/* --- Undo: the field's or the book's ------------------------------------------------------------- */

/* Whether the key is that of what has the focus: it holds text that is not in the book yet, or text was taken back in
 * it, which may be had again. */
static gboolean
is_of_field (CroWindow *self,
             gboolean   is_undo)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  GtkWidget *input, *entry;

  if (focus == NULL || !GTK_IS_EDITABLE (focus))
    return FALSE;
  input = gtk_widget_get_ancestor (focus, CRO_TYPE_INPUT);
  if (input != NULL)
    return is_undo ? cro_input_is_other (CRO_INPUT (input)) : cro_input_is_edited (CRO_INPUT (input));
  entry = gtk_widget_get_ancestor (focus, GTK_TYPE_ENTRY);
  if (entry != NULL && cro_entry_is_put (entry))
    return FALSE;
  return *gtk_editable_get_text (GTK_EDITABLE (focus)) != '\0';
}

/* Runs before the field sees the key, which undoes its text where this passes it on. */
static gboolean
undo_key_cb (GtkWidget *widget,
             GVariant  *action,
             gpointer   user_data)
{
  CroWindow *self = CRO_WINDOW (widget);
  gboolean is_undo = g_str_equal (g_variant_get_string (action, NULL), "win.undo");
  GtkWidget *input = gtk_window_get_focus (GTK_WINDOW (self));
  g_autofree char *barred = NULL;
  g_autoptr (CroAct) undo = NULL;

  if (is_of_field (self, is_undo))
    return GDK_EVENT_PROPAGATE;
  input = input != NULL ? gtk_widget_get_ancestor (input, CRO_TYPE_INPUT) : NULL;
  if (input != NULL)
    cro_input_drop (CRO_INPUT (input));
  if (self->book != NULL && is_undo)
    undo = peek_undo (cro_book_get_store (cro_window_get_worked (self)), &barred);
  if (barred != NULL)
    cro_window_say (self, barred);
  gtk_widget_activate_action (widget, g_variant_get_string (action, NULL), NULL);
  return GDK_EVENT_STOP;
}

void
cro_window_add_undo (CroWindow *self)
{
  static const struct { guint key; GdkModifierType modifiers; const char *action; } keys[] = {
    { GDK_KEY_z, GDK_CONTROL_MASK, "win.undo" },
    { GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "win.redo" },
  };
  GtkEventController *controller = gtk_shortcut_controller_new ();

  gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_CAPTURE);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      GtkShortcut *shortcut = gtk_shortcut_new (
          gtk_keyval_trigger_new (keys[i].key, keys[i].modifiers),
          gtk_callback_action_new (undo_key_cb, NULL, NULL));

      gtk_shortcut_set_arguments (shortcut, g_variant_new_string (keys[i].action));
      gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller), shortcut);
    }
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
  g_signal_connect_object (self, "realize", G_CALLBACK (realize_cb), self, G_CONNECT_SWAPPED | G_CONNECT_AFTER);
}

void
cro_window_install_undo (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.undo", NULL, undo_cb);
  gtk_widget_class_install_action (widget_class, "win.redo", NULL, undo_cb);
}
