#include "config.h"

#include "cro-guest-figures.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-figure-strip.h"
#include "cro-menu-ways.h"
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

struct _CroGuestFigures
{
  GtkWidget  parent_instance;

  CroBench  *bench;      /* borrowed */
  GtkWidget *strip;
  GtkWidget *figures[N_FIGURES];
  GtkWidget *causes;
};

G_DEFINE_FINAL_TYPE (CroGuestFigures, cro_guest_figures, GTK_TYPE_WIDGET)

static gboolean
is_menu (CroBench *bench)
{
  return cro_bench_get_ref (bench).kind == CRO_REF_MENU;
}

static gboolean
is_empty (CroBench *bench)
{
  g_autoptr (GPtrArray) plates = NULL;

  if (!is_menu (bench))
    return FALSE;
  plates = cro_menu_dup_plates (cro_book_get_model (cro_bench_get_book (bench)), cro_bench_get_slot (bench));
  return plates->len == 0;
}

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

/* Of a plate or a menu. */
static GPtrArray *
sum_of_guest (CroBench *bench)
{
  return is_menu (bench) ? cro_sum_of_menu (cro_book_get_figures (cro_bench_get_book (bench)),
                                            cro_bench_get_slot (bench), cro_sum_words ())
                         : cro_plate_sum_of_guest (bench);
}

static GPtrArray *
sum_of_pct (CroBench *bench)
{
  return is_menu (bench) ? cro_sum_of_pct (cro_book_get_figures (cro_bench_get_book (bench)),
                                           cro_bench_get_ref (bench), cro_sum_words ())
                         : cro_plate_sum_of_pct (bench);
}

static const CroFigureSum sums[N_FIGURES] = { sum_of_guest, sum_of_pct, sum_of_left,
                                              cro_plate_sum_of_prime_cost };

/* --- Figures ---------------------------------------------------------------------------------- */

/* Against its own price, or that of the menu that carries it. */
static void
show_price (CroGuestFigures *self,
            CroFigures      *figures,
            const CroFigure *figure)
{
  const CroMenuPlate *entry = is_menu (self->bench) ? NULL : cro_plate_menu (self->bench);
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

/* Before a plate stands on a menu nothing costs 0: there is no figure yet, and the page itself says what
 * is missing. */
static void
show_empty (CroGuestFigures    *self,
            CroModel           *model,
            const CroBreakdown *breakdown)
{
  CroFigure figure = breakdown->figure;
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (CroCause));

  figure.cost = figure.labour = figure.disposables = NAN;
  figure.food_cost_pct = figure.price_for_target = NAN;
  figure.is_incomplete = FALSE;
  cro_served_show_cost (CRO_FIGURE_VIEW (self->figures[GUEST]), model, &figure, none);
  cro_served_show_pct (CRO_FIGURE_VIEW (self->figures[PCT]), model, &figure, NULL);
  cro_served_show_sum (CRO_FIGURE_VIEW (self->figures[LEFT]), NULL, _("left per guest"));
  cro_served_show_sum (CRO_FIGURE_VIEW (self->figures[PRIME]), NULL, _("prime cost"));
  cro_causes_view_set (CRO_CAUSES_VIEW (self->causes), none, _("No plates yet."));
}

/* A menu is to have a price, which is typed below: what it leaves has its place before there is one, and room for how
 * that is reckoned. */
static void
show_left (CroGuestFigures *self)
{
  CroFigureView *view = CRO_FIGURE_VIEW (self->figures[LEFT]);
  g_autoptr (GPtrArray) left = sum_of_left (self->bench);
  g_autoptr (GPtrArray) cost = is_menu (self->bench) ? sum_of_guest (self->bench) : NULL;
  g_autofree char *terms = cost != NULL ? g_strdup_printf ("88.88 − %s %s", cro_sum_get_figure (cost),
                                                           cro_sum_words ()->food) : NULL;

  cro_served_show_sum (view, left, _("left per guest"));
  if (cost == NULL)
    return;
  gtk_widget_set_visible (self->figures[LEFT], TRUE);
  cro_figure_view_keep_room (view, 0, _("left per guest"), terms);
  if (left == NULL)
    cro_figure_view_set (view, "–", _("left per guest"), NULL);
}

void
cro_guest_figures_show (CroGuestFigures    *self,
                        const CroBreakdown *breakdown)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (self->bench));
  g_autoptr (GPtrArray) prime = NULL;

  if (is_empty (self->bench))
    {
      show_empty (self, figures->model, breakdown);
      return;
    }
  prime = cro_plate_sum_of_prime_cost (self->bench);
  cro_served_show_cost (CRO_FIGURE_VIEW (self->figures[GUEST]), figures->model, &breakdown->figure,
                        breakdown->missing);
  show_price (self, figures, &breakdown->figure);
  show_left (self);
  cro_served_show_sum (CRO_FIGURE_VIEW (self->figures[PRIME]), prime, _("prime cost"));
  cro_served_show_missing (CRO_CAUSES_VIEW (self->causes), figures, breakdown);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_guest_figures_dispose (GObject *object)
{
  g_clear_pointer (&CRO_GUEST_FIGURES (object)->strip, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_guest_figures_parent_class)->dispose (object);
}

static void
cro_guest_figures_class_init (CroGuestFiguresClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_guest_figures_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_guest_figures_init (CroGuestFigures *self)
{
}

void
cro_guest_figures_set_small (CroGuestFigures *self)
{
  for (int i = 0; i < N_FIGURES; i++)
    cro_figure_view_set_small (CRO_FIGURE_VIEW (self->figures[i]));
  gtk_widget_set_visible (self->causes, FALSE);
  gtk_widget_add_css_class (self->strip, "small");
}

GtkWidget *
cro_guest_figures_new (CroBench *bench)
{
  CroGuestFigures *self = g_object_new (CRO_TYPE_GUEST_FIGURES, NULL);

  self->bench = bench;
  self->strip = cro_figure_strip_new (bench, sums, N_FIGURES, self->figures, &self->causes);
  /* What stands under the others turns once as lines and a price come: the strip is as high before. */
  cro_figure_view_keep_room (CRO_FIGURE_VIEW (self->figures[GUEST]), 0, "\n", "\n");
  gtk_widget_set_parent (self->strip, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
