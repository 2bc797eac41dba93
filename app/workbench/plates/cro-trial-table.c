#include "config.h"

#include "cro-trial-table.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-result-words.h"
#include "cro-sold-as.h"
#include "cro-spoken.h"
#include "cro-sum.h"

enum
{
  TITLE,
  COST,
  RESULT,
  LEFT,
  PRIME,
  TRIED,
  N_ROWS,
};

struct _CroTrialTable
{
  GtkWidget  parent_instance;

  GtkWidget *grid;
  int        n;       /* columns */
};

G_DEFINE_FINAL_TYPE (CroTrialTable, cro_trial_table, GTK_TYPE_WIDGET)

/* Against its own price, or that of the menu that carries it, which is named. */
static char *
dup_result (CroFigures *figures,
            CroRef      thing)
{
  CroRef sold = cro_sold_as (figures, thing);
  CroFigure figure = cro_figure_of (figures, sold);
  g_autofree char *result = cro_words_result (figures->model, &figure);

  return cro_ref_equal (sold, thing) ? g_steal_pointer (&result)
                                     : cro_isolate_printf (_("%s, %s"), figure.name, result);
}

static char *
dup_sum (GPtrArray *sum)
{
  char *text = g_strdup (sum != NULL ? cro_sum_get_figure (sum) : "–");

  g_clear_pointer (&sum, g_ptr_array_unref);
  return text;
}

static void
put (CroTrialTable *self,
     int            row,
     const char    *text)
{
  GtkWidget *label = cro_text_new (text, row == TITLE || self->n == 0 ? "caption" : NULL);

  if (row == TRIED)
    {
      gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
      gtk_widget_add_css_class (label, "caption");
    }
  if (row == TITLE)
    gtk_widget_add_css_class (label, "heading");
  gtk_widget_set_valign (label, GTK_ALIGN_BASELINE);
  gtk_grid_attach (GTK_GRID (self->grid), label, self->n, row, 1, 1);
}

static void
add_captions (CroTrialTable *self,
              CroModel      *model)
{
  const char *const captions[N_ROWS] = {
    [TITLE] = "",          [COST] = _("per guest"),     [RESULT] = cro_words_result_name (model),
    [LEFT] = _("left per guest"), [PRIME] = _("prime cost"), [TRIED] = _("tried"),
  };

  for (int row = COST; row < N_ROWS; row++)
    put (self, row, captions[row]);
  self->n++;
}

void
cro_trial_table_clear (CroTrialTable *self)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->grid)) != NULL;)
    gtk_grid_remove (GTK_GRID (self->grid), child);
  self->n = 0;
}

void
cro_trial_table_add (CroTrialTable *self,
                     const char    *title,
                     CroBook       *book,
                     CroRef         thing,
                     const char    *tried)
{
  CroFigures *figures = cro_book_get_figures (book);
  CroFigure figure = cro_figure_of (figures, thing);
  g_autofree char *cost = cro_words_cost (figures->model, &figure);
  g_autofree char *result = dup_result (figures, thing);
  g_autofree char *left = dup_sum (cro_sum_of_left (figures, thing, cro_sum_words ()));
  g_autofree char *prime = dup_sum (cro_sum_of_prime_cost (figures, thing, cro_sum_words ()));
  const char *const cells[N_ROWS] = {
    [TITLE] = title, [COST] = cost, [RESULT] = result, [LEFT] = left, [PRIME] = prime,
    [TRIED] = tried != NULL && *tried != '\0' ? tried : "–",
  };

  if (self->n == 0)
    add_captions (self, figures->model);
  for (int row = 0; row < N_ROWS; row++)
    put (self, row, cells[row]);
  self->n++;
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_trial_table_dispose (GObject *object)
{
  g_clear_pointer (&CRO_TRIAL_TABLE (object)->grid, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_trial_table_parent_class)->dispose (object);
}

static void
cro_trial_table_class_init (CroTrialTableClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_trial_table_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_trial_table_init (CroTrialTable *self)
{
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 24);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 2);
  cro_spoken_set (self->grid, _("Trials side by side"));
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
}

GtkWidget *
cro_trial_table_new (void)
{
  return g_object_new (CRO_TYPE_TRIAL_TABLE, NULL);
}
