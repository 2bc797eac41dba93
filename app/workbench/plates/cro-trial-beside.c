#include "config.h"

#include "cro-trial-beside.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-trial-menu.h"
#include "cro-trial-table.h"
#include "cro-trials.h"
#include "cro-tried-words.h"

/* Pixels that the table takes at most: what was tried may be long, and the lines keep their room. */
#define MOST_OF_TABLE 130

/* A row of the menu beside those of trials. */
#define ANOTHER G_MAXUINT

struct _CroTrialBeside
{
  GtkWidget  parent_instance;

  GtkWidget *scroller;
  GtkWidget *table;
  GArray    *rows;      /* of the menu: numbers of the other trials, 0, which closes the table, and ANOTHER */
  CroBook   *book;      /* weak */
  gint64     id;        /* of the plate or menu */
  guint      number;    /* of its trial */
  guint      other;     /* the one beside it; 0: none */
};

G_DEFINE_FINAL_TYPE (CroTrialBeside, cro_trial_beside, GTK_TYPE_WIDGET)

static guint chosen_signal;

static char *
dup_title (guint number)
{
  return g_strdup_printf (_("Trial %u"), number);
}

/* --- The table -------------------------------------------------------------------------------- */

/* A trial that is not shown is made for the look of it. */
static void
add_other (CroTrialBeside *self,
           CroRef          thing)
{
  g_autofree char *text = cro_trials_dup (self->book, self->id, self->other);
  g_autoptr (GPtrArray) list = text != NULL ? cro_tried_from_text (text) : NULL;
  g_autoptr (CroTrial) other = list != NULL ? cro_trial_new (self->book, list, "", NULL) : NULL;
  g_autoptr (GPtrArray) done = other != NULL ? cro_trial_list (other, NULL) : NULL;
  g_autofree char *words = NULL, *title = NULL;
  CroBook *tried;

  if (done == NULL)
    return;
  tried = cro_trial_get_book (other);
  words = cro_tried_all_words (tried, done);
  title = dup_title (self->other);
  cro_trial_table_add (CRO_TRIAL_TABLE (self->table), title, tried,
                       cro_trial_find (cro_book_get_model (self->book), thing, cro_book_get_model (tried)), words);
}

void
cro_trial_beside_refresh (CroTrialBeside *self,
                          CroTrial       *trial,
                          CroRef          thing,
                          GPtrArray      *list)
{
  CroTrialTable *table = CRO_TRIAL_TABLE (self->table);
  CroBook *tried = cro_trial_get_book (trial);
  g_autofree char *words = NULL, *title = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self), self->other != 0);
  cro_trial_table_clear (table);
  if (self->other == 0)
    return;
  words = cro_tried_all_words (tried, list);
  title = dup_title (self->number);
  cro_trial_table_add (table, _("The book"), self->book, thing, NULL);
  cro_trial_table_add (table, title, tried,
                       cro_trial_find (cro_book_get_model (self->book), thing, cro_book_get_model (tried)), words);
  add_other (self, thing);
}

void
cro_trial_beside_set (CroTrialBeside *self,
                      CroBook        *book,
                      gint64          id,
                      guint           number)
{
  g_set_weak_pointer (&self->book, book);
  self->id = id;
  self->number = number;
  self->other = 0;
}

/* --- The menu --------------------------------------------------------------------------------- */

static void
add_row (CroTrialBeside *self,
         CroTrialMenu   *menu,
         guint           row,
         const char     *text)
{
  g_array_append_val (self->rows, row);
  cro_trial_menu_add (menu, text, TRUE);
}

static void
fill (CroTrialMenu *menu,
      gpointer      beside)
{
  CroTrialBeside *self = beside;
  g_autoptr (GArray) numbers = cro_trials_list (self->book, self->id);

  g_array_set_size (self->rows, 0);
  for (guint i = 0; i < numbers->len; i++)
    {
      guint number = g_array_index (numbers, guint, i);
      g_autofree char *title = dup_title (number);

      if (number != self->number)
        add_row (self, menu, number, title);
    }
  if (self->other != 0)
    add_row (self, menu, 0, _("Close the comparison"));
  add_row (self, menu, ANOTHER, _("Begin another trial"));
}

static void
choose (CroTrialMenu *menu,
        guint         row,
        gpointer      beside)
{
  CroTrialBeside *self = beside;
  guint number = g_array_index (self->rows, guint, row);

  if (number == ANOTHER)
    {
      gtk_widget_activate_action (GTK_WIDGET (menu), "trial.other", NULL);
      return;
    }
  self->other = number;
  g_signal_emit (self, chosen_signal, 0);
}

GtkWidget *
cro_trial_beside_menu_new (CroTrialBeside *self)
{
  /* It always has a row. */
  return cro_trial_menu_new (_("Compare"), "", fill, choose, self);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_trial_beside_dispose (GObject *object)
{
  CroTrialBeside *self = CRO_TRIAL_BESIDE (object);

  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  g_clear_pointer (&self->rows, g_array_unref);
  g_clear_weak_pointer (&self->book);
  G_OBJECT_CLASS (cro_trial_beside_parent_class)->dispose (object);
}

static void
cro_trial_beside_class_init (CroTrialBesideClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_trial_beside_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  chosen_signal = g_signal_new ("chosen", CRO_TYPE_TRIAL_BESIDE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
cro_trial_beside_init (CroTrialBeside *self)
{
  GtkScrolledWindow *scroller;

  self->rows = g_array_new (FALSE, FALSE, sizeof (guint));
  self->table = cro_trial_table_new ();
  self->scroller = gtk_scrolled_window_new ();
  scroller = GTK_SCROLLED_WINDOW (self->scroller);
  gtk_scrolled_window_set_child (scroller, self->table);
  cro_wheel_share (self->scroller);
  gtk_scrolled_window_set_propagate_natural_height (scroller, TRUE);
  gtk_scrolled_window_set_max_content_height (scroller, MOST_OF_TABLE);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

GtkWidget *
cro_trial_beside_new (void)
{
  return g_object_new (CRO_TYPE_TRIAL_BESIDE, NULL);
}
