#include "config.h"

#include "cro-plate-figures.h"

#include <glib/gi18n.h>

#include "cro-figure-strip.h"
#include "cro-served-figures.h"
#include "cro-sum.h"

enum
{
  GUEST,
  PCT,
  LEFT,
  PRIME,
  N_FIGURES,
};

struct _CroPlateFigures
{
  GtkWidget  parent_instance;

  CroBench  *bench;      /* borrowed */
  GtkWidget *strip;
  GtkWidget *figures[N_FIGURES];
  GtkWidget *causes;
};

G_DEFINE_FINAL_TYPE (CroPlateFigures, cro_plate_figures, GTK_TYPE_WIDGET)

/* --- Sums ------------------------------------------------------------------------------------- */

const CroMenuPlate *
cro_plate_menu (CroBench *bench)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (bench));
  guint32 entry = cro_tightest_menu (figures, cro_bench_get_slot (bench));

  return entry != CRO_NO_SLOT ? &g_array_index (figures->model->menu_plates, CroMenuPlate, entry)
                              : NULL;
}

static gboolean
has_own_price (CroBench *bench)
{
  return cro_model_recipe (cro_book_get_model (cro_bench_get_book (bench)),
                           cro_bench_get_slot (bench))->price != CRO_NOT_SET;
}

GPtrArray *
cro_plate_sum_of_guest (CroBench *bench)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (bench));
  GPtrArray *sum = cro_sum_of_guest (figures, cro_bench_get_slot (bench), cro_sum_words ());
  const CroMenuPlate *entry = cro_plate_menu (bench);

  if (sum != NULL && entry != NULL)
    cro_sum_take (sum, cro_sum_of_part (figures, entry));
  return sum;
}

GPtrArray *
cro_plate_sum_of_pct (CroBench *bench)
{
  const CroMenuPlate *entry = cro_plate_menu (bench);
  CroRef ref = entry != NULL && !has_own_price (bench) ? CRO_REF (CRO_REF_MENU, entry->menu)
                                                       : cro_bench_get_ref (bench);

  return cro_sum_of_pct (cro_book_get_figures (cro_bench_get_book (bench)), ref, cro_sum_words ());
}

static GPtrArray *
sum_of_left (CroBench *bench)
{
  return cro_sum_of_left (cro_book_get_figures (cro_bench_get_book (bench)),
                          cro_bench_get_ref (bench), cro_sum_words ());
}

GPtrArray *
cro_plate_sum_of_prime_cost (CroBench *bench)
{
  return cro_sum_of_prime_cost (cro_book_get_figures (cro_bench_get_book (bench)),
                                cro_bench_get_ref (bench), cro_sum_words ());
}

GPtrArray *
cro_plate_sum_of_net_price (CroBench *bench)
{
  return cro_sum_of_net_price (cro_book_get_figures (cro_bench_get_book (bench)),
                               cro_bench_get_ref (bench), cro_sum_words ());
}

static const CroFigureSum sums[N_FIGURES] = { cro_plate_sum_of_guest, cro_plate_sum_of_pct,
                                              sum_of_left, cro_plate_sum_of_prime_cost };

/* --- Figures ---------------------------------------------------------------------------------- */

/* Against its own price, or that of the menu that carries it. */
static void
show_price (CroPlateFigures *self,
            CroFigures      *figures,
            const CroFigure *figure)
{
  const CroMenuPlate *entry = cro_plate_menu (self->bench);
  CroFigureView *view = CRO_FIGURE_VIEW (self->figures[PCT]);
  CroPartOfMenu part;

  if (entry != NULL && !has_own_price (self->bench))
    {
      part = cro_part_of_menu (figures, entry, figure);
      cro_served_show_pct (view, figures->model, &part.menu, part.menu.name);
    }
  else
    cro_served_show_pct (view, figures->model, figure, NULL);
}

void
cro_plate_figures_show (CroPlateFigures    *self,
                        const CroBreakdown *breakdown)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (self->bench));
  g_autoptr (GPtrArray) left = sum_of_left (self->bench);
  g_autoptr (GPtrArray) prime = cro_plate_sum_of_prime_cost (self->bench);

  cro_served_show_cost (CRO_FIGURE_VIEW (self->figures[GUEST]), figures->model, &breakdown->figure);
  show_price (self, figures, &breakdown->figure);
  cro_served_show_sum (CRO_FIGURE_VIEW (self->figures[LEFT]), left, _("left per guest"));
  cro_served_show_prime (CRO_FIGURE_VIEW (self->figures[PRIME]), prime, breakdown);
  cro_served_show_missing (CRO_CAUSES_VIEW (self->causes), figures, breakdown);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_plate_figures_dispose (GObject *object)
{
  g_clear_pointer (&CRO_PLATE_FIGURES (object)->strip, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_plate_figures_parent_class)->dispose (object);
}

static void
cro_plate_figures_class_init (CroPlateFiguresClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_plate_figures_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_plate_figures_init (CroPlateFigures *self)
{
}

void
cro_plate_figures_set_small (CroPlateFigures *self)
{
  for (int i = 0; i < N_FIGURES; i++)
    cro_figure_view_set_small (CRO_FIGURE_VIEW (self->figures[i]));
  gtk_widget_set_visible (self->causes, FALSE);
  gtk_widget_add_css_class (self->strip, "small");
}

GtkWidget *
cro_plate_figures_new (CroBench *bench)
{
  CroPlateFigures *self = g_object_new (CRO_TYPE_PLATE_FIGURES, NULL);

  self->bench = bench;
  self->strip = cro_figure_strip_new (bench, sums, N_FIGURES, self->figures, &self->causes);
  gtk_widget_set_parent (self->strip, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
