#include "config.h"

#include "cro-covers-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-cover-curve.h"
#include "cro-decimal.h"
#include "cro-edit-service.h"
#include "cro-entry-time.h"
#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-overview.h"
#include "cro-pack.h"
#include "cro-plot.h"
#include "cro-reason.h"
#include "cro-row-grid.h"
#include "cro-sold-as.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* The curve runs to twice the covers of the field, within these. */
#define LEAST_COVERS 40
#define MOST_COVERS 240

#define MOST_STEPS 100

/* What is bought for the covers is listed, the dearest first, to so many; in steps it is named besides. */
#define MOST_BOUGHT 12

/* Ingredients named in a sentence. */
#define MOST_NAMED 6

/* Costs that differ by less than that part of one are the same: what makes them is divided. */
#define SHOWN_PARTS 1e6

/* So small a part of the covers is not drawn: one guest who pays every pack would flatten the rest. */
#define SKIPPED 8

struct _CroCoversView
{
  GtkWidget      parent_instance;

  GtkWidget     *box;
  GtkWidget     *plot;
  GtkWidget     *covers;
  GtkWidget     *says;       /* the figure of these covers */
  GtkWidget     *bought_head;
  GtkWidget     *bought;     /* the packs of these covers */
  GtkWidget     *steps_head;
  GtkWidget     *steps;
  GtkWidget     *no_steps;
  GtkWidget     *assumed;    /* what is counted in packs that nobody named */

  CroBench      *bench;      /* borrowed */
  CroCoverCurve *curve;
  guint          n;          /* covers that the curve runs to */
  guint          later;
};

G_DEFINE_FINAL_TYPE (CroCoversView, cro_covers_view, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroCoversView *self)
{
  return cro_bench_get_book (self->bench);
}

/* What is typed; FALSE: that is no number of covers. */
static gboolean
read_covers (CroCoversView *self,
             gint64        *covers)
{
  g_auto (CroEntry) read = { 0 };

  if (!cro_entry_covers (gtk_editable_get_text (GTK_EDITABLE (self->covers)), CRO_RANGE_ABOVE_0, &read))
    return FALSE;
  *covers = read.micro;
  return TRUE;
}

/* --- Showing ---------------------------------------------------------------------------------- */

/* plan: of these covers; NULL: there is none. */
static char *
dup_says (CroCoversView        *self,
          const CroServicePlan *plan)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *recipes = cro_words_known_money (model, self->curve->known_theoretical,
                                                    self->curve->theoretical);
  g_autofree char *number = NULL, *cost = NULL;
  const char *counted;
  gint64 covers;

  if (!read_covers (self, &covers))
    return g_strdup (_("Type a number of covers."));
  if (plan == NULL || !plan->is_finite)
    return g_strdup (_("This is out of range."));
  counted = cro_figure_of (cro_book_get_figures (book_of (self)), cro_bench_get_ref (self->bench)).disposables > 0
                ? _("Disposables are counted.")
                : "";
  number = cro_words_decimal (covers);
  cost = cro_words_known_money (model, plan->known_cost, plan->cost / cro_decimal_to_double (covers));
  /* Translators: covers, then money a guest: what is bought and made whole, and the recipes' cost; behind
   * them may stand "Disposables are counted." */
  return g_strchomp (g_strdup_printf (_("%s covers: %s per guest, as packs are bought whole for these alone; by the "
                                        "recipes %s. %s"),
                                      number, cost, recipes, counted));
}

static int
compare_bought (gconstpointer a,
                gconstpointer b)
{
  const CroPlanBuy *x = a, *y = b;
  double of_x = isnan (x->cost) ? -1 : x->cost, of_y = isnan (y->cost) ? -1 : y->cost;

  return of_x != of_y ? (of_x > of_y ? -1 : 1) : (x->item < y->item ? -1 : x->item > y->item);
}

/* What has no pack stands last, without a figure; what costs nothing is not listed. */
static GArray *
list_bought (const CroServicePlan *plan)
{
  GArray *bought = g_array_new (FALSE, FALSE, sizeof (CroPlanBuy));

  for (guint i = 0; plan != NULL && plan->is_finite && i < plan->buy->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, i);

      if (buy->cost > 0 || isnan (buy->cost))
        g_array_append_val (bought, *buy);
    }
  g_array_sort (bought, compare_bought);
  return bought;
}

static gboolean
is_unit (CroModel *model,
         guint32   offer)
{
  CroPack pack = cro_pack_of_offer (model, offer);

  return pack.count == CRO_MICRO && pack.size == CRO_MICRO;
}

static gboolean
is_piece (CroModel *model,
          guint32   offer)
{
  return is_unit (model, offer)
         && cro_unit_get (cro_pack_of_offer (model, offer).unit)->base == CRO_BASE_EACH;
}

/* A price "62/kg" that was typed into a line names no pack: 1 kg stands for it, and is bought whole. What has a code
 * is sold in that. */
static void
show_assumed (CroCoversView *self,
              GArray        *bought)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autoptr (GString) names = g_string_new (NULL);
  g_autofree char *text = NULL;
  guint n = 0;

  for (guint i = 0; i < bought->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (bought, CroPlanBuy, i);

      if (buy->offer != CRO_NO_SLOT && *cro_model_offer (model, buy->offer)->code == '\0'
          && is_unit (model, buy->offer) && !is_piece (model, buy->offer) && ++n <= MOST_NAMED)
        cro_isolate_append (names, cro_model_item (model, buy->item)->name);
    }
  if (n > MOST_NAMED)
    g_string_append (names, "…");
  /* Translators: ingredients whose price is for 1 kg, 1 l and so on. */
  text = g_strdup_printf (_("Counted as packs of one unit, as the price is for 1 kg, 1 l or 1 g: %s. Enter the "
                            "pack that is delivered in the ingredient."),
                          names->str);
  gtk_label_set_label (GTK_LABEL (self->assumed), text);
  gtk_widget_set_visible (self->assumed, n > 0);
}

/* Why a guest costs so much more than by the recipes: whole packs, whatever is left of them. */
static void
show_bought (CroCoversView        *self,
             const CroServicePlan *plan)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->bought);
  CroModel *model = cro_book_get_model (book_of (self));
  g_autoptr (GArray) bought = list_bought (plan);
  const char *heads[] = { _("ingredient"), _("packs"), _("cost") };
  guint n = bought->len > MOST_BOUGHT ? MOST_BOUGHT - 1 : bought->len;
  gboolean has_others = n < bought->len;
  CroKnown known = CRO_KNOWN_WHOLE;
  double others = 0;

  cro_row_grid_begin (grid);
  if (cro_row_grid_begin_heads (grid, ""))
    for (guint i = 0; i < G_N_ELEMENTS (heads); i++)
      cro_row_grid_add_head (grid, heads[i], i > 0);
  for (guint i = 0; i < n + has_others; i++)
    if (cro_row_grid_add_row (grid, (gint64) i + 1))
      for (guint column = 0; column < G_N_ELEMENTS (heads); column++)
        cro_row_grid_add_label (grid, column > 0);
  cro_row_grid_end (grid);
  for (guint i = 0; i < bought->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (bought, CroPlanBuy, i);
      CroKnown of_buy = isnan (buy->cost) ? CRO_KNOWN_NOTHING : buy->known;
      g_autofree char *packs = cro_words_take_short (of_buy, cro_number_to_text (buy->packs, 0, TRUE));
      g_autofree char *cost = cro_words_known_money (model, of_buy, buy->cost);

      if (i >= n)
        {
          others += isnan (buy->cost) ? 0 : buy->cost;
          known = cro_known_of_sum (known, of_buy == CRO_KNOWN_NOTHING ? CRO_KNOWN_AT_LEAST : of_buy);
          continue;
        }
      cro_row_grid_set_text (grid, i, 0, cro_model_item (model, buy->item)->name);
      cro_row_grid_set_text (grid, i, 1, packs);
      cro_row_grid_set_text (grid, i, 2, cost);
    }
  if (has_others)
    {
      guint left = bought->len - n;
      g_autofree char *name = g_strdup_printf (ngettext ("%u other", "%u others", left), left);
      g_autofree char *cost = cro_words_known_money (
          model, known != CRO_KNOWN_WHOLE && others == 0 ? CRO_KNOWN_NOTHING : known, others);

      cro_row_grid_set_text (grid, n, 0, name);
      cro_row_grid_set_text (grid, n, 1, "");
      cro_row_grid_set_text (grid, n, 2, cost);
    }
  show_assumed (self, bought);
  gtk_widget_set_visible (self->bought_head, bought->len > 0);
  gtk_widget_set_visible (self->bought, bought->len > 0);
}

static void
show_says (CroCoversView *self)
{
  g_autoptr (CroServicePlan) plan = NULL;
  g_autofree char *says = NULL;
  gboolean is_read;
  gint64 covers;

  if (self->curve == NULL || self->later != 0)
    return;
  is_read = read_covers (self, &covers);
  cro_reason_mark (self->covers, !is_read);
  if (is_read)
    plan = cro_cover_plan_new (book_of (self), cro_bench_get_ref (self->bench), covers, NULL);
  says = dup_says (self, plan);
  gtk_label_set_label (GTK_LABEL (self->says), says);
  show_bought (self, plan);
}

static void
show_plot (CroCoversView *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  guint n = self->curve->costs->len, first = n / SKIPPED;
  g_autofree CroPlotValue *values = g_new0 (CroPlotValue, n + 1);
  g_autofree char *low = NULL, *high = NULL, *from = NULL, *last = NULL, *says = NULL;
  double least, most;

  for (guint i = first; i < n; i++)
    values[i - first] = (CroPlotValue){ 0, (CroDate) (i + 1),
                                        g_array_index (self->curve->costs, double, i) };
  cro_plot_set (CRO_PLOT (self->plot), values, n - first, (CroDate) n, self->curve->theoretical);
  cro_plot_get_range (CRO_PLOT (self->plot), &least, &most);
  low = cro_words_known_money (model, self->curve->known_theoretical, least);
  high = cro_words_known_money (model, self->curve->known_cost, most);
  from = g_strdup_printf ("%u", first + 1);
  last = g_strdup_printf ("%u", n);
  /* Translators: of a picture: covers twice, then the greatest and the least money a guest. */
  says = g_strdup_printf (_("Cost per guest from %s to %s covers: between %s and %s. Dashed: by the "
                            "recipes."),
                          from, last, high, low);
  cro_plot_tell (CRO_PLOT (self->plot), low, high, says);
  cro_plot_tell_ends (CRO_PLOT (self->plot), from, last);
  /* Of a plate without lines there is none, rather than one at 0. */
  gtk_widget_set_visible (self->plot, self->curve->known_cost != CRO_KNOWN_NOTHING);
}

static int
compare_steps (gconstpointer a,
               gconstpointer b)
{
  const CroCoverStep *x = a, *y = b;

  double of_x = rint (x->cost * SHOWN_PARTS), of_y = rint (y->cost * SHOWN_PARTS);

  return of_x == of_y ? (int) x->from - (int) y->from : of_x < of_y ? 1 : -1;
}

/* A piece more for a cover more is no step to think about, nor is what costs nothing. */
static gboolean
is_worth_telling (CroModel           *model,
                  const CroCoverStep *step)
{
  return !is_piece (model, step->offer)
         && cro_money_round (step->cost, MIN (cro_currency_digits (model->currency), 6)) != 0;
}

/* Elements CroCoverStep. Owned. */
static GArray *
list_steps (CroCoversView *self)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (CroCoverStep));

  for (guint i = 0; i < self->curve->steps->len; i++)
    {
      const CroCoverStep *step = &g_array_index (self->curve->steps, CroCoverStep, i);

      if (is_worth_telling (cro_book_get_model (book_of (self)), step))
        g_array_append_val (steps, *step);
    }
  return steps;
}

/* "a second box of crab from 47 covers", the dearest first. */
static void
show_steps (CroCoversView *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->steps);
  CroModel *model = cro_book_get_model (book_of (self));
  g_autoptr (GArray) steps = list_steps (self);
  const char *heads[] = { _("ingredient"), _("packs"), _("from covers"), _("more to pay") };

  g_array_sort (steps, compare_steps);
  g_array_set_size (steps, MIN (steps->len, MOST_STEPS));
  cro_row_grid_begin (grid);
  if (cro_row_grid_begin_heads (grid, ""))
    for (guint i = 0; i < G_N_ELEMENTS (heads); i++)
      cro_row_grid_add_head (grid, heads[i], i > 0);
  for (guint i = 0; i < steps->len; i++)
    if (cro_row_grid_add_row (grid, (gint64) i + 1))
      for (guint column = 0; column < G_N_ELEMENTS (heads); column++)
        cro_row_grid_add_label (grid, column > 0);
  cro_row_grid_end (grid);
  for (guint i = 0; i < steps->len; i++)
    {
      const CroCoverStep *step = &g_array_index (steps, CroCoverStep, i);
      g_autofree char *packs = cro_number_to_text (step->packs, 0, TRUE);
      g_autofree char *from = g_strdup_printf ("%u", step->from);
      g_autofree char *cost = cro_words_money (model, step->cost);

      cro_row_grid_set_text (grid, i, 0, cro_model_item (model, step->item)->name);
      cro_row_grid_set_text (grid, i, 1, packs);
      cro_row_grid_set_text (grid, i, 2, from);
      cro_row_grid_set_text (grid, i, 3, cost);
    }
  gtk_widget_set_visible (self->steps_head, steps->len > 0);
  gtk_widget_set_visible (self->steps, steps->len > 0);
  gtk_widget_set_visible (self->no_steps, steps->len == 0);
}

/* --- The curve -------------------------------------------------------------------------------- */

/* One cover at a time, so that keys and frames go first. */
static gboolean
later_cb (gpointer view)
{
  CroCoversView *self = view;

  if (self->curve->costs->len < self->n && cro_cover_curve_add (self->curve, book_of (self), NULL))
    return G_SOURCE_CONTINUE;
  self->later = 0;
  if (self->curve->costs->len == 0)
    return G_SOURCE_REMOVE;
  show_plot (self);
  show_steps (self);
  show_says (self);
  return G_SOURCE_REMOVE;
}

static guint
wanted_covers (CroCoversView *self)
{
  gint64 covers = 0;

  read_covers (self, &covers);
  return (guint) CLAMP (2 * covers / CRO_MICRO, LEAST_COVERS, MOST_COVERS);
}

static void
refresh (GtkWidget *view)
{
  CroCoversView *self = CRO_COVERS_VIEW (view);

  g_clear_pointer (&self->curve, cro_cover_curve_free);
  self->curve = cro_cover_curve_new (cro_bench_get_ref (self->bench));
  self->n = wanted_covers (self);
  cro_bench_defer (self->bench, &self->later, G_PRIORITY_LOW, later_cb, self);
}

static void
show (GtkWidget *view)
{
  refresh (view);
}

static void
typed_cb (CroCoversView *self)
{
  if (self->curve == NULL || cro_bench_get_slot (self->bench) == CRO_NO_SLOT)
    return;
  self->n = wanted_covers (self);
  if (self->curve->costs->len < self->n)
    cro_bench_defer (self->bench, &self->later, G_PRIORITY_LOW, later_cb, self);
  show_says (self);
}

/* --- A service with it ------------------------------------------------------------------------ */

static void
plan_cb (CroCoversView *self)
{
  CroRef thing = cro_bench_get_ref (self->bench);
  g_autofree char *label = cro_bench_dup_label (self->bench, _("covers"));
  g_autoptr (GArray) services = cro_services_list (book_of (self), NULL);
  const char *name = services != NULL && services->len > 0
                         ? g_array_index (services, CroServiceDay, 0).name
                         : _("dinner");
  g_autoptr (GError) error = NULL;
  gint64 covers;

  if (!read_covers (self, &covers))
    gtk_widget_grab_focus (self->covers);
  else if (!cro_edit_set_covers (book_of (self), label, cro_here_today (), name, thing, covers, &error))
    cro_bench_fail (self->bench, error);
  else
    {
      g_autofree char *date = cro_date_to_text (cro_here_today ());
      /* Translators: a service ("dinner") and its date. */
      g_autofree char *said = cro_isolate_printf (_("Covers kept for %s, %s"), name, date);

      cro_bench_say (self->bench, said);
      cro_overview_open (self->bench, CRO_REF_ALL_PLATES, CRO_VIEW_SERVICE);
    }
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_covers_view_dispose (GObject *object)
{
  CroCoversView *self = CRO_COVERS_VIEW (object);

  g_clear_handle_id (&self->later, g_source_remove);
  g_clear_pointer (&self->curve, cro_cover_curve_free);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_covers_view_parent_class)->dispose (object);
}

static void
cro_covers_view_class_init (CroCoversViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_covers_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_covers_view_init (CroCoversView *self)
{
}

static GtkWidget *
fields_new (CroCoversView *self)
{
  GtkWidget *row = cro_wrap_new (9, 6);
  GtkWidget *label = gtk_label_new (_("covers"));
  GtkWidget *button = gtk_button_new_with_label (_("Plan a Service with It"));

  gtk_widget_add_css_class (label, "dim-label");
  self->covers = cro_entry_new (_("covers"), 5);
  cro_entry_put (self->covers, "20");
  g_signal_connect_object (self->covers, "changed", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (button, "clicked", G_CALLBACK (plan_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (row), label);
  cro_wrap_append (CRO_WRAP (row), self->covers);
  cro_wrap_append (CRO_WRAP (row), button);
  return row;
}

static GtkWidget *
create (CroBench *bench)
{
  CroCoversView *self = g_object_new (CRO_TYPE_COVERS_VIEW, NULL);

  self->bench = bench;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->plot = cro_plot_new (CRO_PLOT_STEPS);
  self->says = cro_text_new ("", "heading");
  self->no_steps = cro_text_new (_("No further pack within these covers."), "dim-label");
  gtk_widget_set_visible (self->no_steps, FALSE);
  gtk_box_append (GTK_BOX (self->box), fields_new (self));
  gtk_box_append (GTK_BOX (self->box), self->says);
  gtk_box_append (GTK_BOX (self->box), self->plot);
  self->bought_head = cro_text_new (_("Packs bought for these covers"), "heading");
  self->bought = cro_row_grid_new (bench, "item", self->covers);
  self->steps_head = cro_text_new (_("Further packs"), "heading");
  self->steps = cro_row_grid_new (bench, "item", self->covers);
  gtk_box_append (GTK_BOX (self->box), self->bought_head);
  gtk_box_append (GTK_BOX (self->box), self->bought);
  gtk_box_append (GTK_BOX (self->box), self->no_steps);
  gtk_box_append (GTK_BOX (self->box), self->steps_head);
  gtk_box_append (GTK_BOX (self->box), self->steps);
  self->assumed = cro_text_new ("", "caption");
  gtk_widget_set_visible (self->assumed, FALSE);
  gtk_box_append (GTK_BOX (self->box), self->assumed);
  return GTK_WIDGET (self);
}

const CroPicture cro_covers_picture = { .create = create, .show = show, .refresh = refresh };
