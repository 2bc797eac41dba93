#include "config.h"

#include "cro-month-head.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-month-close.h"
#include "cro-month-compare.h"
#include "cro-month-words.h"
#include "cro-months-table.h"
#include "cro-number.h"
#include "cro-spoken.h"
#include "cro-switch.h"
#include "cro-wrap.h"

struct _CroMonthHead
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *title;
  GtkWidget *state;
  GtkWidget *altered;
  GtkWidget *recipes;
  GtkWidget *compare;
  GtkWidget *close;
  GtkWidget *switcher;
  GtkWidget *output;

  CroBench  *bench;       /* borrowed */
};

G_DEFINE_FINAL_TYPE (CroMonthHead, cro_month_head, GTK_TYPE_WIDGET)

enum
{
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

void
cro_month_head_set (CroMonthHead   *self,
                    const CroMonth *month)
{
  g_autofree char *name = cro_month_to_text (month->first);
  g_autofree char *day_text = cro_date_to_text (cro_month_recipes_day (month));
  /* Translators: of a month: the day whose recipes it is costed by. */
  g_autofree char *recipes = cro_isolate_printf (_("recipes of %s"), day_text);
  g_autofree char *asks = cro_month_asks_words (month);
  g_autofree char *altered = cro_month_altered_words (month);
  GtkWidget *bench = GTK_WIDGET (self->bench);
  CroDate day;
  gboolean is_past = cro_book_is_past (cro_bench_get_book (self->bench), &day);
  g_autofree char *late = cro_month_late_words (cro_book_get_model (cro_bench_get_book (self->bench)), month);
  gboolean is_fixed = is_past || month->is_closed, may_reopen = cro_month_may_reopen (month);
  g_autofree char *first = cro_date_to_text (month->first);
  /* Translators: of a month: a date. */
  g_autofree char *begins = cro_month_has_begun (month) ? NULL : cro_isolate_printf (_("begins on %s"), first);
  const char *const parts[] = { cro_month_state_words (month), begins, is_fixed ? recipes : NULL, asks,
                                month->is_closed && !is_past ? _("read only but for late documents") : NULL, late,
                                is_past ? _("the book as it stood, read only") : NULL };
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (parts[i] != NULL)
      g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", parts[i]);
  gtk_label_set_label (GTK_LABEL (self->altered), altered != NULL ? altered : "");
  gtk_widget_set_visible (self->altered, altered != NULL);
  gtk_label_set_label (GTK_LABEL (self->title), name);
  gtk_label_set_label (GTK_LABEL (self->state), text->str);
  /* What cannot be chosen is said: a button that is off is hard to read. */
  gtk_button_set_label (GTK_BUTTON (self->recipes), recipes);
  gtk_widget_set_visible (self->recipes, !is_fixed);
  gtk_button_set_label (GTK_BUTTON (self->close), may_reopen ? _("Reopen…") : _("Close…"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->close), may_reopen ? "month.reopen" : "month.close");
  gtk_widget_action_set_enabled (bench, "month.close", !is_past && !may_reopen);
  gtk_widget_action_set_enabled (bench, "month.reopen", !is_past && may_reopen);
  gtk_widget_action_set_enabled (bench, "month.recipes", !is_fixed);
}

void
cro_month_head_list (CroMonthHead *self,
                     GArray       *firsts,
                     CroDate       first)
{
  cro_month_compare_fill (CRO_MONTH_COMPARE (self->compare), firsts, first);
}

CroDate
cro_month_head_get_other (CroMonthHead *self)
{
  return cro_month_compare_get (CRO_MONTH_COMPARE (self->compare));
}

void
cro_month_head_set_switching (CroMonthHead *self,
                              gboolean      can)
{
  gtk_widget_set_sensitive (self->switcher, can);
}

CroMonthOutput *
cro_month_head_get_output (CroMonthHead *self)
{
  return CRO_MONTH_OUTPUT (self->output);
}

static void
changed_cb (CroMonthHead *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

/* --- The widget ----------------------------------------------------------------------------- */

static void
cro_month_head_dispose (GObject *object)
{
  g_clear_pointer (&CRO_MONTH_HEAD (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_month_head_parent_class)->dispose (object);
}

static void
cro_month_head_class_init (CroMonthHeadClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_month_head_dispose;
  widget_class->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  signals[CHANGED] = g_signal_new ("changed", CRO_TYPE_MONTH_HEAD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
}

static void
cro_month_head_init (CroMonthHead *self)
{
}

static GtkWidget *
button_new (const char *label,
            const char *action)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  return button;
}

static GtkWidget *
print_button_new (void)
{
  GtkWidget *button = gtk_menu_button_new ();
  g_autoptr (GMenu) menu = g_menu_new ();

  g_menu_append (menu, _("Print…"), "month.print");
  g_menu_append (menu, _("As PDF…"), "month.pdf");
  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), _("Print"));
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  cro_spoken_set (button, _("Print"));
  return button;
}

GtkWidget *
cro_month_head_new (CroBench       *bench,
                    GtkStack       *views,
                    CroMonthShown  shown)
{
  CroMonthHead *self = g_object_new (CRO_TYPE_MONTH_HEAD, NULL);
  GtkWidget *row = cro_wrap_new (12, 6), *fields = cro_wrap_new (12, 6);

  self->bench = bench;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->title = cro_text_new ("", "title-2");
  self->state = cro_text_new ("", "dim-label");
  self->altered = cro_text_new ("", "now");
  gtk_widget_set_visible (self->altered, FALSE);
  self->recipes = button_new ("", "month.recipes");
  gtk_widget_add_css_class (self->recipes, "flat");
  self->close = button_new (_("Close…"), "month.close");
  self->switcher = cro_switch_new (views);
  self->output = cro_month_output_new (bench, shown);
  self->compare = cro_month_compare_new ();
  g_signal_connect_object (self->compare, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (row), self->title);
  cro_wrap_append (CRO_WRAP (row), self->state);
  cro_wrap_append (CRO_WRAP (row), self->recipes);
  cro_wrap_append (CRO_WRAP (fields), self->switcher);
  cro_wrap_append (CRO_WRAP (fields), self->compare);
  cro_wrap_append (CRO_WRAP (fields), print_button_new ());
  cro_wrap_append (CRO_WRAP (fields), button_new (_("Spreadsheet…"), "month.spreadsheet"));
  cro_wrap_append (CRO_WRAP (fields), self->close);
  gtk_widget_add_css_class (fields, "fields");
  gtk_box_append (GTK_BOX (self->box), row);
  gtk_box_append (GTK_BOX (self->box), self->altered);
  gtk_box_append (GTK_BOX (self->box), fields);
  gtk_box_append (GTK_BOX (self->box), self->output);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
