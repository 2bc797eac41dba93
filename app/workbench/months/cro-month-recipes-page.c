#include "config.h"

#include "cro-month-recipes-page.h"

#include <glib/gi18n.h>

#include "cro-entry-form.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-month-close.h"
#include "cro-number.h"
#include "cro-refused-words.h"

struct _CroMonthRecipesPage
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *form;
  GtkWidget *entry;

  CroBench  *bench;       /* borrowed */
  CroDate    first;
};

G_DEFINE_FINAL_TYPE (CroMonthRecipesPage, cro_month_recipes_page, GTK_TYPE_WIDGET)

enum
{
  DONE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* An empty field is the month's own last day. */
static void
entered_cb (CroMonthRecipesPage *self)
{
  CroEntryForm *form = CRO_ENTRY_FORM (self->form);
  CroDate day = CRO_NO_DAY;
  g_autofree char *reason = NULL, *text = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_entry_form_date (form, self->entry, &day))
    return;
  if (!cro_month_set_recipes_on (cro_bench_get_book (self->bench), self->first, day, &error))
    {
      reason = cro_words_failed (error);
      cro_entry_form_refuse (form, self->entry, reason);
      return;
    }
  text = day != CRO_NO_DAY ? cro_date_to_text (day) : cro_date_to_text (cro_month_next (self->first) - 1);
  reason = cro_isolate_printf (_("Recipes of %s"), text);
  cro_bench_say (self->bench, reason);
  g_signal_emit (self, signals[DONE], 0);
}

static gboolean
cro_month_recipes_page_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_MONTH_RECIPES_PAGE (widget)->entry);
}

static void
cro_month_recipes_page_dispose (GObject *object)
{
  g_clear_pointer (&CRO_MONTH_RECIPES_PAGE (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_month_recipes_page_parent_class)->dispose (object);
}

static void
cro_month_recipes_page_class_init (CroMonthRecipesPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_month_recipes_page_dispose;
  widget_class->focus = cro_focus_within;
  widget_class->grab_focus = cro_month_recipes_page_grab_focus;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  signals[DONE] = g_signal_new ("done", CRO_TYPE_MONTH_RECIPES_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
cro_month_recipes_page_init (CroMonthRecipesPage *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_add_css_class (self->box, "part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_month_recipes_page_new (CroBench       *bench,
                            const CroMonth *month)
{
  CroMonthRecipesPage *self = g_object_new (CRO_TYPE_MONTH_RECIPES_PAGE, NULL);
  g_autofree char *day = cro_date_to_text (month->recipes_on);

  self->bench = bench;
  self->first = month->first;
  gtk_box_append (GTK_BOX (self->box),
                  cro_text_new (_("What was sold is costed by recipes as they stood at the end of one day: the "
                                  "last of the month, unless another is chosen. A later day takes in what was "
                                  "corrected after the month. What the book did not contain yet counts as it "
                                  "first stood. An empty field is the last day of the month."),
                                NULL));
  self->form = cro_entry_form_new (_("Use These Recipes"));
  self->entry = cro_entry_form_add (CRO_ENTRY_FORM (self->form), _("Recipes of"), _("Day of the recipes"),
                                    cro_date_chars (), NULL);
  cro_entry_put (self->entry, day);
  g_signal_connect_object (self->form, "entered", G_CALLBACK (entered_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), self->form);
  return GTK_WIDGET (self);
}
