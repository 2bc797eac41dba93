#include "config.h"

#include "cro-settings-window.h"

#include <glib/gi18n.h>

#include "cro-choice.h"
#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-habit-choice.h"
#include "cro-input.h"
#include "cro-number.h"
#include "cro-past-words.h"
#include "cro-result-words.h"
#include "cro-spoken.h"
#include "cro-target-input.h"
#include "cro-words.h"

/* The one row of the book, which is made where a new book does not have it yet. */
#define TABLE "book"
#define ID 1

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
add_field (GtkWidget    *group,
           CroBook      *book,
           const char   *title,
           const char   *subtitle,
           CroInputKind  kind,
           CroRange      range,
           const char   *column)
{
  GtkWidget *row = adw_action_row_new ();
  GtkWidget *input = cro_input_new (kind, range, title);
  g_autofree char *act = cro_past_dup_act (TABLE, column, NULL);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  gtk_widget_set_focusable (row, FALSE);
  cro_input_set_width (CRO_INPUT (input), kind == CRO_INPUT_TEXT ? 24 : 10);
  cro_input_set_way (CRO_INPUT (input), &way, NULL);
  cro_input_bind (CRO_INPUT (input), book, TABLE, ID, column, act, _("not set"));
  g_signal_connect_object (book, "changed", G_CALLBACK (cro_input_refresh), input, G_CONNECT_SWAPPED);
  gtk_widget_set_valign (input, GTK_ALIGN_CENTER);
  cro_cure_set (input, CRO_CAUSE_WAGE, g_str_equal (column, "wage_per_hour_micro"));
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), input);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), row);
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
add_target (GtkWidget *group,
            CroBook   *book)
{
  GtkWidget *input = add_field (group, book, "", NULL, CRO_INPUT_PCT, CRO_RANGE_PART_PCT,
                                "target_pct_micro");

  cro_input_set_way (CRO_INPUT (input), &target_way, NULL);
  cro_input_set_read (CRO_INPUT (input), cro_target_input_read);
  cro_input_refresh (CRO_INPUT (input));
  g_signal_connect_object (book, "changed", G_CALLBACK (say_target), input, G_CONNECT_SWAPPED);
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

typedef struct
{
  const char        *title;
  const char        *subtitle;
  const char        *column;
  const char *const *values;
  const char *const *words;
  CroChoiceKeep      keep;
} Choice;

static GtkWidget *
choice_row_new (const char *title,
                const char *subtitle,
                GtkWidget  *choice)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  gtk_widget_set_focusable (row, FALSE);
  gtk_widget_set_valign (choice, GTK_ALIGN_CENTER);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), choice);
  return row;
}

/* The first value holds where the book does not say. */
static void
add_choice (GtkWidget    *group,
            CroBook      *book,
            const Choice *of)
{
  GtkWidget *choice = cro_choice_new (of->title, of->values, of->words);
  g_autofree char *act = cro_past_dup_act (TABLE, of->column, NULL);

  cro_choice_set_way (CRO_CHOICE (choice), of->keep, book);
  cro_choice_bind (CRO_CHOICE (choice), book, TABLE, ID, of->column, act);
  cro_choice_set_unset (CRO_CHOICE (choice), of->values[0]);
  g_signal_connect_object (book, "changed", G_CALLBACK (cro_choice_refresh), choice,
                           G_CONNECT_SWAPPED);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group),
                             choice_row_new (of->title, of->subtitle, choice));
}

static void
add_habit (GtkWidget *group,
           CroBook   *book)
{
  GtkWidget *choice = cro_habit_choice_new ();

  cro_habit_choice_bind (choice, book);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group),
                             choice_row_new (_("Selling prices"),
                                             _("What a selling price is rounded to"), choice));
}

static void
add_choices (GtkWidget *group,
             CroBook   *book)
{
  static const char *const tills[] = { "", "0", "1", NULL };
  g_autofree const char **speaks_words = cro_code_dup_words (cro_speaks_codes);
  const char *tills_words[] = { _("not set"), _("without tax"), _("with tax"), NULL };
  const Choice choices[] = {
    { _("Results are given as"), _("Coefficient: net price ÷ food cost"), "speaks", cro_speaks_codes,
      speaks_words, keep_text },
    { _("Till totals"), _("As the till prints them"), "till_with_tax", tills, tills_words,
      keep_number },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (choices); i++)
    add_choice (group, book, &choices[i]);
}

/* --- Currency ---------------------------------------------------------------------------------------- */

static void
currency_chosen_cb (GtkWidget  *drop_down,
                    GParamSpec *pspec,
                    CroBook    *book)
{
  char **codes = g_object_get_data (G_OBJECT (drop_down), "codes");
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (drop_down));
  static const char *const columns[] = { "currency", NULL };
  CroModel *model = cro_book_get_model (book);
  g_autofree char *act = cro_past_dup_act (TABLE, columns[0], NULL);
  g_autoptr (GError) error = NULL;
  CroCell cell;

  if (at == 0 || at == GTK_INVALID_LIST_POSITION || g_strcmp0 (codes[at - 1], model->currency) == 0)
    return;
  cell = CRO_CELL_STR (codes[at - 1]);
  if (!cro_edit_set (book, act, TABLE, ID, columns, &cell, &error))
    {
      g_autofree char *text = cro_words_error (error);
      g_autofree char *escaped = g_markup_escape_text (text, -1);

      adw_toast_overlay_add_toast (ADW_TOAST_OVERLAY (gtk_widget_get_ancestor (
                                       drop_down, ADW_TYPE_TOAST_OVERLAY)),
                                   adw_toast_new (escaped));
    }
}

static void
add_currency (GtkWidget *group,
              CroBook   *book)
{
  GtkWidget *row = adw_action_row_new ();
  g_auto (GStrv) codes = cro_currency_dup_codes ();
  const char *currency = cro_book_get_model (book)->currency;
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  GtkWidget *drop_down;
  guint at = 0;

  gtk_string_list_append (names, _("not set"));
  for (guint i = 0; codes[i] != NULL; i++)
    {
      g_autofree char *name = cro_currency_dup_name (codes[i]);
      g_autofree char *both = g_strdup_printf ("%s  %s", codes[i], name);

      gtk_string_list_append (names, both);
      if (g_strcmp0 (codes[i], currency) == 0)
        at = i + 1;
    }
  drop_down = gtk_drop_down_new (G_LIST_MODEL (g_steal_pointer (&names)),
                                 gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string"));
  gtk_drop_down_set_enable_search (GTK_DROP_DOWN (drop_down), TRUE);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop_down), at);
  cro_spoken_set (drop_down, _("Currency"));
  gtk_widget_set_valign (drop_down, GTK_ALIGN_CENTER);
  g_object_set_data_full (G_OBJECT (drop_down), "codes", g_steal_pointer (&codes),
                          (GDestroyNotify) g_strfreev);
  g_signal_connect_object (drop_down, "notify::selected", G_CALLBACK (currency_chosen_cb), book, 0);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _("Currency"));
  gtk_widget_set_focusable (row, FALSE);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row),
                               _("Entered prices are not converted"));
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), drop_down);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), row);
}

/* --- The window ------------------------------------------------------------------------------------------ */

static GtkWidget *
page_new (CroBook *book)
{
  GtkWidget *page = adw_preferences_page_new ();
  GtkWidget *house = adw_preferences_group_new ();
  GtkWidget *costs = adw_preferences_group_new ();

  add_field (house, book, _("Name"), NULL, CRO_INPUT_TEXT, CRO_RANGE_ANY, "name");
  add_currency (house, book);
  add_choices (house, book);
  add_habit (house, book);
  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (costs), _("Where a plate has no setting "
                                                                    "of its own"));
  add_field (costs, book, _("Hourly labour cost"), _("For active minutes; prime cost = food + labour"),
             CRO_INPUT_MONEY, CRO_RANGE_AT_LEAST_0, "wage_per_hour_micro");
  add_field (costs, book, _("Tax, %"), _("Included in selling prices; ask your accountant for the "
                                         "rate"),
             CRO_INPUT_PCT, CRO_RANGE_AT_LEAST_0, "tax_pct_micro");
  add_target (costs, book);
  add_field (costs, book, _("Days until a price is old"),
             _("An older price counts only where an ingredient has no newer one"), CRO_INPUT_NUMBER,
             CRO_RANGE_AT_LEAST_0, "stale_after_days_micro");
  adw_preferences_page_add (ADW_PREFERENCES_PAGE (page), ADW_PREFERENCES_GROUP (house));
  adw_preferences_page_add (ADW_PREFERENCES_PAGE (page), ADW_PREFERENCES_GROUP (costs));
  gtk_widget_set_vexpand (page, TRUE);
  return page;
}

static void
close_by_escape (GtkWidget *window)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                        gtk_named_action_new ("window.close")));
  gtk_widget_add_controller (window, keys);
}

/* Not the library's own window of preferences: that of libadwaita 1.2 keeps its groups, and with
 * them fields that follow the book, when it is closed. */
GtkWidget *
cro_settings_window_new (GtkWindow *parent,
                         CroBook   *book)
{
  GtkWidget *window = g_object_new (ADW_TYPE_WINDOW, "transient-for", parent, "modal", TRUE,
                                    "title", _("Book Settings"), "default-width", 640,
                                    "default-height", 640, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *toasts = adw_toast_overlay_new ();

  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), page_new (book));
  adw_toast_overlay_set_child (ADW_TOAST_OVERLAY (toasts), box);
  adw_window_set_content (ADW_WINDOW (window), toasts);
  close_by_escape (window);
  return window;
}
