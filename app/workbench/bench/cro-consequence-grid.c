#include "config.h"

#include "cro-consequence-grid.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-replacement.h"
#include "cro-result-words.h"
#include "cro-words.h"

/* Plates or menus shown of those that move; the others are told as a number. */
#define MOST_SHOWN 100

GtkWidget *
cro_consequence_grid_new (void)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 18);
  return grid;
}

void
cro_consequence_grid_clear (GtkWidget *grid)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (grid)) != NULL;)
    gtk_grid_remove (GTK_GRID (grid), child);
}

/* What is not known, and stays so, says nothing. */
static char *
from_to (char *from,
         char *to)
{
  char *text = strcmp (from, "–") == 0 && strcmp (to, "–") == 0 ? g_strdup ("")
                                                                : g_strdup_printf ("%s → %s", from, to);

  g_free (from);
  g_free (to);
  return text;
}

static void
attach (GtkWidget            *grid,
        CroModel             *model,
        int                   row,
        const CroConsequence *one)
{
  g_autofree char *cost = from_to (cro_words_cost (model, &one->from),
                                   cro_words_cost (model, &one->to));
  g_autofree char *result = from_to (cro_words_result (model, &one->from),
                                     cro_words_result (model, &one->to));
  GtkWidget *name = cro_text_new (cro_ref_name (model, one->thing), NULL);
  GtkWidget *costs = cro_number_label_new (), *results = cro_number_label_new ();
  GtkWidget *over = gtk_label_new (one->to.is_over_target ? cro_words_over_target (model) : NULL);

  gtk_widget_set_hexpand (name, TRUE);
  gtk_label_set_label (GTK_LABEL (costs), cost);
  gtk_label_set_label (GTK_LABEL (results), result);
  gtk_grid_attach (GTK_GRID (grid), name, 0, row, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), costs, 1, row, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), results, 2, row, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), over, 3, row, 1, 1);
}

void
cro_consequence_grid_add_text (GtkWidget  *grid,
                               int         row,
                               const char *text)
{
  gtk_grid_attach (GTK_GRID (grid), cro_text_new (text, "dim-label"), 0, row, 4, 1);
}

void
cro_consequence_grid_add (GtkWidget  *grid,
                          CroModel   *model,
                          const char *title,
                          GArray     *all,
                          gboolean    is_of_menus)
{
  guint n = MIN (all->len, MOST_SHOWN);
  g_autofree char *rest = NULL;
  int row = 0;

  while (gtk_grid_get_child_at (GTK_GRID (grid), 0, row) != NULL)
    row++;
  if (title != NULL)
    cro_consequence_grid_add_text (grid, row++, title);
  for (guint i = 0; i < n; i++)
    attach (grid, model, row++, &g_array_index (all, CroConsequence, i));
  if (all->len > n)
    rest = g_strdup_printf (is_of_menus
                                ? ngettext ("%u more menu moves.", "%u more menus move.", all->len - n)
                                : ngettext ("%u more plate moves.", "%u more plates move.", all->len - n),
                            all->len - n);
  else if (all->len == 0)
    rest = g_strdup (is_of_menus ? _("No menu costs more or less, and none has other allergens.")
                                 : _("No plate costs more or less, and none has other allergens."));
  if (rest != NULL)
    cro_consequence_grid_add_text (grid, row, rest);
}
