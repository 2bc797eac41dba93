#include "config.h"

#include "cro-settings-window.h"

#include <glib/gi18n.h>

#include "cro-choice.h"
#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-drop-down.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-habit-choice.h"
#include "cro-input.h"
#include "cro-number.h"
#include "cro-past-words.h"
#include "cro-refused-words.h"
#include "cro-result-words.h"
#include "cro-target-input.h"
#include "cro-template.h"
#include "cro-toast.h"
#include "cro-words.h"

/* The one row of the book, which is made where a new book does not have it yet. */
#define TABLE "book"
#define ID 1

/* Not the library's own window of preferences: that of libadwaita 1.2 keeps its groups, and with
 * them fields that follow the book, when it is closed. */
struct _CroSettingsWindow
{
  AdwWindow        parent_instance;

  AdwToastOverlay *toasts;

  /* The house. */
  AdwActionRow    *name;
  AdwActionRow    *currency;
  GtkWidget       *currencies;  /* what it offers */
  AdwActionRow    *speaks;      /* how results are given */
  AdwActionRow    *till;        /* whether its totals are with tax */
  AdwActionRow    *habit;       /* what selling prices are rounded to */

  /* Where a plate has no setting of its own. */
  AdwActionRow    *wage;
  AdwActionRow    *tax;
  AdwActionRow    *target;
  AdwActionRow    *stale;

  CroBook         *book;
};

G_DEFINE_FINAL_TYPE (CroSettingsWindow, cro_settings_window, ADW_TYPE_WINDOW)

static void
put (AdwActionRow *row,
     GtkWidget    *control)
{
  gtk_widget_set_valign (control, GTK_ALIGN_CENTER);
  adw_action_row_add_suffix (row, control);
}

static const char *
title_of (AdwActionRow *row)
{
  return adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row));
}

/* --- Fields ---------------------------------------------------------------------------------------- */

static gboolean
keep_cb (CroInput       *input,
         const CroCell  *cell,
         gpointer        unused,
         GError        **error)
{
  const char *columns[] = { cro_input_get_column (input), NULL };

  return cro_edit_set (cro_input_get_book (input), cro_input_get_act (input), TABLE, ID, columns, cell,
                       error);
}

/* A book without its row has nothing to preview on. */
static gboolean
preview_cb (CroInput       *input,
            const CroCell  *cell,
            gpointer        unused,
            GError        **error)
{
  cro_book_preview (cro_input_get_book (input), TABLE, ID, cro_input_get_column (input), cell, NULL);
  return TRUE;
}

static const CroInputWay way = { NULL, preview_cb, keep_cb, FALSE, NULL };
static const CroInputWay target_way = { cro_target_input_dup_text, preview_cb, keep_cb, FALSE, NULL };

static GtkWidget *
add_field (CroSettingsWindow *self,
           AdwActionRow      *row,
           CroInputKind       kind,
           CroRange           range,
           const char        *column)
{
  GtkWidget *input = cro_input_new (kind, range, title_of (row));
  g_autofree char *act = cro_past_dup_act (TABLE, column, NULL);

  cro_input_set_width (CRO_INPUT (input), kind == CRO_INPUT_TEXT ? 24 : 10);
  cro_input_set_way (CRO_INPUT (input), &way, NULL);
  cro_input_bind (CRO_INPUT (input), self->book, TABLE, ID, column, act, _("not set"));
  g_signal_connect_object (self->book, "changed", G_CALLBACK (cro_input_refresh), input,
                           G_CONNECT_SWAPPED);
  cro_cure_set (input, CRO_CAUSE_WAGE, row == self->wage);
  cro_cure_set (input, CRO_CAUSE_TAX, row == self->tax);
  put (row, input);
  return input;
}

/* The row and the field of the target change their words with how results are given. */
static void
say_target (GtkWidget *input)
{
  CroModel *model = cro_book_get_model (cro_input_get_book (CRO_INPUT (input)));
  GtkWidget *row = gtk_widget_get_ancestor (input, ADW_TYPE_ACTION_ROW);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), cro_words_target_title (model));
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), cro_words_result_title (model));
  cro_input_set_name (CRO_INPUT (input), cro_words_target_title (model));
}

static void
add_target (CroSettingsWindow *self)
{
  GtkWidget *input = add_field (self, self->target, CRO_INPUT_PCT, CRO_RANGE_PART_PCT,
                                "target_pct_micro");

  cro_input_set_way (CRO_INPUT (input), &target_way, NULL);
  cro_input_set_read (CRO_INPUT (input), cro_target_input_read);
  cro_input_refresh (CRO_INPUT (input));
  g_signal_connect_object (self->book, "changed", G_CALLBACK (say_target), input, G_CONNECT_SWAPPED);
  say_target (input);
}

/* --- Choices ------------------------------------------------------------------------------------------ */

/* The column holds the number that stands as its code; the first code says that nothing is set. */
static gboolean
keep_number (CroChoice      *choice,
             const CroCell  *cell,
             gpointer        book,
             GError        **error)
{
  static const char *const columns[] = { "till_with_tax", NULL };
  CroCell number = *cell->text != '\0' ? CRO_CELL_INT (*cell->text - '0') : CRO_CELL_NONE;

  return cro_edit_set (book, cro_choice_get_act (choice), TABLE, ID, columns, &number, error);
}

static gboolean
keep_text (CroChoice      *choice,
           const CroCell  *cell,
           gpointer        book,
           GError        **error)
{
  static const char *const columns[] = { "speaks", NULL };

  return cro_edit_set (book, cro_choice_get_act (choice), TABLE, ID, columns, cell, error);
}

/* The first value holds where the book does not say. */
static void
add_choice (CroSettingsWindow  *self,
            AdwActionRow       *row,
            const char         *column,
            const char *const  *values,
            const char *const  *words,
            CroChoiceKeep       keep)
{
  GtkWidget *choice = cro_choice_new (title_of (row), values, words);
  g_autofree char *act = cro_past_dup_act (TABLE, column, NULL);

  cro_choice_set_way (CRO_CHOICE (choice), keep, self->book);
  cro_choice_bind (CRO_CHOICE (choice), self->book, TABLE, ID, column, act);
  cro_choice_set_unset (CRO_CHOICE (choice), values[0]);
  g_signal_connect_object (self->book, "changed", G_CALLBACK (cro_choice_refresh), choice,
                           G_CONNECT_SWAPPED);
  put (row, choice);
}

static void
add_choices (CroSettingsWindow *self)
{
  static const char *const tills[] = { "", "0", "1", NULL };
  const char *tills_words[] = { _("not set"), _("without tax"), _("with tax"), NULL };
  g_autofree const char **speaks_words = cro_code_dup_words (cro_speaks_codes);
  GtkWidget *habit = cro_habit_choice_new ();

  add_choice (self, self->speaks, "speaks", cro_speaks_codes, speaks_words, keep_text);
  add_choice (self, self->till, "till_with_tax", tills, tills_words, keep_number);
  cro_habit_choice_bind (habit, self->book);
  put (self->habit, habit);
}

/* --- Currency ---------------------------------------------------------------------------------------- */

/* What the book has, whatever was chosen. */
static void
show_currency (CroSettingsWindow *self)
{
  char **codes = g_object_get_data (G_OBJECT (self->currencies), "codes");
  const char *currency = cro_book_get_model (self->book)->currency;
  guint at = 0;

  for (guint i = 0; codes[i] != NULL && at == 0; i++)
    if (g_strcmp0 (codes[i], currency) == 0)
      at = i + 1;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->currencies), at);
}

static void
currency_chosen_cb (GtkWidget         *drop_down,
                    GParamSpec        *pspec,
                    CroSettingsWindow *self)
{
  char **codes = g_object_get_data (G_OBJECT (drop_down), "codes");
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (drop_down));
  static const char *const columns[] = { "currency", NULL };
  CroModel *model = cro_book_get_model (self->book);
  g_autofree char *act = cro_past_dup_act (TABLE, columns[0], NULL);
  g_autoptr (GError) error = NULL;
  CroCell cell;

  if (at == 0)
    show_currency (self);
  if (at == 0 || at == GTK_INVALID_LIST_POSITION || g_strcmp0 (codes[at - 1], model->currency) == 0)
    return;
  cell = CRO_CELL_STR (codes[at - 1]);
  if (!cro_edit_set (self->book, act, TABLE, ID, columns, &cell, &error))
    {
      g_autofree char *text = cro_words_failed (error);

      cro_toast_say (self->toasts, text);
      show_currency (self);
    }
}

static void
add_currency (CroSettingsWindow *self)
{
  g_auto (GStrv) codes = cro_currency_dup_codes ();
  gboolean is_past = cro_book_is_past (self->book, NULL);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  GtkWidget *drop_down;

  gtk_string_list_append (names, _("not set"));
  for (guint i = 0; codes[i] != NULL; i++)
    {
      g_autofree char *name = cro_currency_dup_name (codes[i]);
      g_autofree char *both = g_strdup_printf ("%s  %s", codes[i], name);

      gtk_string_list_append (names, both);
    }
  drop_down = cro_drop_down_new_model (G_LIST_MODEL (g_steal_pointer (&names)), title_of (self->currency));
  gtk_drop_down_set_enable_search (GTK_DROP_DOWN (drop_down), TRUE);
  g_object_set_data_full (G_OBJECT (drop_down), "codes", g_steal_pointer (&codes),
                          (GDestroyNotify) g_strfreev);
  self->currencies = drop_down;
  show_currency (self);
  gtk_widget_set_sensitive (drop_down, !is_past);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->currency), is_past ? cro_words_past () : NULL);
  g_signal_connect_object (drop_down, "notify::selected", G_CALLBACK (currency_chosen_cb), self, 0);
  g_signal_connect_object (self->book, "changed", G_CALLBACK (show_currency), self, G_CONNECT_SWAPPED);
  put (self->currency, drop_down);
}

/* --- The window ------------------------------------------------------------------------------------------ */

static void
cro_settings_window_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), CRO_TYPE_SETTINGS_WINDOW);
  g_clear_object (&CRO_SETTINGS_WINDOW (object)->book);
  G_OBJECT_CLASS (cro_settings_window_parent_class)->dispose (object);
}

static void
cro_settings_window_class_init (CroSettingsWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_settings_window_dispose;
  cro_template_set (widget_class, "cro-settings-window");
  gtk_widget_class_bind_template_child (widget_class, CroSettingsWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, CroSettingsWindow, name);
  gtk_widget_class_bind_template_child (widget_class, CroSettingsWindow, currency);
  gtk_widget_class_bind_template_child (widget_class, CroSettingsWindow, speaks);
  gtk_widget_class_bind_template_child (widget_class, CroSettingsWindow, till);
  gtk_widget_class_bind_template_child (widget_class, CroSettingsWindow, habit);
  gtk_widget_class_bind_template_child (widget_class, CroSettingsWindow, wage);
  gtk_widget_class_bind_template_child (widget_class, CroSettingsWindow, tax);
  gtk_widget_class_bind_template_child (widget_class, CroSettingsWindow, target);
  gtk_widget_class_bind_template_child (widget_class, CroSettingsWindow, stale);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
cro_settings_window_init (CroSettingsWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
cro_settings_window_new (GtkWindow *parent,
                         CroBook   *book)
{
  CroSettingsWindow *self = g_object_new (CRO_TYPE_SETTINGS_WINDOW, "transient-for", parent, NULL);

  self->book = g_object_ref (book);
  add_field (self, self->name, CRO_INPUT_TEXT, CRO_RANGE_ANY, "name");
  add_currency (self);
  add_choices (self);
  add_field (self, self->wage, CRO_INPUT_WAGE, CRO_RANGE_AT_LEAST_0, "wage_per_hour_micro");
  add_field (self, self->tax, CRO_INPUT_PCT, CRO_RANGE_AT_LEAST_0, "tax_pct_micro");
  add_target (self);
  add_field (self, self->stale, CRO_INPUT_DAYS, CRO_RANGE_AT_LEAST_0, "stale_after_days_micro");
  return GTK_WIDGET (self);
}
