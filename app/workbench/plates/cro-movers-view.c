#include "config.h"

#include "cro-movers-view.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-band-bar.h"
#include "cro-cost-parts.h"
#include "cro-cost-range.h"
#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-mover-row.h"
#include "cro-mover-words.h"
#include "cro-number.h"
#include "cro-sold-as.h"
#include "cro-spoken.h"

/* Rows at first, and when more are asked for. */
#define AT_ONCE 10
#define AT_MOST 100

struct _CroMoversView
{
  GtkWidget   parent_instance;

  CroBench   *bench;     /* borrowed */
  GtkWidget  *box;
  GtkWidget  *none;      /* what is said where there is nothing to show */
  GtkWidget  *legend;
  GtkWidget  *list;
  GtkWidget  *others;    /* a button, which unfolds them */
  GtkWidget  *range;
  GtkWidget  *band;
  CroSpreads *spreads;
  CroBook    *book;      /* of these; borrowed */
  guint64     edition;   /* at which they were read */
  CroRef      read;      /* for what */
  guint       n;         /* rows that there are */
  gboolean    is_open;
};

G_DEFINE_FINAL_TYPE (CroMoversView, cro_movers_view, GTK_TYPE_WIDGET)

static CroFigures *
figures_of (CroMoversView *self)
{
  return cro_book_get_figures (cro_bench_get_book (self->bench));
}

/* --- Rows ------------------------------------------------------------------------------------- */

static CroMoverRow *
row_at (CroMoversView *self,
        guint          i)
{
  return CRO_MOVER_ROW (gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), (int) i));
}

/* A row that has the focus is the last to go: it is shown anew, whatever stands in it then. */
static void
make_rows (CroMoversView *self,
           guint          n)
{
  for (; self->n < n; self->n++)
    gtk_list_box_append (GTK_LIST_BOX (self->list), cro_mover_row_new (self->bench));
  for (guint i = 0; i < self->n; i++)
    gtk_widget_set_visible (GTK_WIDGET (row_at (self, i)), i < n);
}

/* What each price and value makes of the cost, so that all of them and the others add up to it as it
 * is shown; of the other prices and values behind the rows. Owned. */
static gint64 *
dup_parts (CroModel        *model,
           const CroMovers *movers,
           double           cost)
{
  guint n = movers->movers->len;
  int digits = cro_currency_digits (model->currency);
  g_autofree CroCostPart *shown = g_new (CroCostPart, n + 1);
  double others[] = { movers->prices.cost, movers->values.cost };
  guint64 order[G_N_ELEMENTS (others)];
  gint64 of_others[G_N_ELEMENTS (others)] = { 0 };
  gint64 *minor;

  for (guint i = 0; i < n; i++)
    {
      const CroMover *mover = &g_array_index (movers->movers, CroMover, i);

      shown[i] = (CroCostPart){ mover->item, mover->cost };
    }
  minor = cro_cost_parts_dup_minor (movers->parts, shown, n, cost, digits);
  cro_money_apportion (minor[n], others, G_N_ELEMENTS (others), digits, order, of_others);
  minor = g_renew (gint64, minor, n + G_N_ELEMENTS (others));
  memcpy (minor + n, of_others, sizeof of_others);
  return minor;
}

/* Whether a price is typed in one of the rows. */
static gboolean
is_edited (CroMoversView *self)
{
  for (guint i = 0; i < self->n; i++)
    if (cro_mover_row_is_edited (row_at (self, i)))
      return TRUE;
  return FALSE;
}

/* What a row shows, among others; their number where it is not. */
static guint
find_shown (CroMoversView *self,
            guint          row,
            GArray        *movers)
{
  guint k = 0;

  while (k < movers->len && !cro_mover_row_shows (row_at (self, row), &g_array_index (movers, CroMover, k)))
    k++;
  return k;
}

static double
largest_of (GArray *movers)
{
  double largest = 0;

  for (guint i = 0; i < movers->len; i++)
    {
      const CroMover *mover = &g_array_index (movers, CroMover, i);

      largest = fmax (largest, cro_mover_is_bounded (mover) ? cro_mover_effect (mover) : 0);
    }
  return largest > 0 ? largest : 1;
}

static void
show_rows (CroMoversView   *self,
           const CroMovers *movers,
           CroRef           thing,
           const gint64    *parts)
{
  CroFigures *figures = figures_of (self);
  g_autoptr (GArray) limits = cro_limits_new (figures, thing, movers->movers);
  gboolean is_typed = is_edited (self);
  guint n = is_typed ? self->n : movers->movers->len;
  double largest = largest_of (movers->movers);

  if (!is_typed)
    make_rows (self, n);
  /* While a price is typed rows stay where they are; what moves nothing any more shows what it did. */
  for (guint i = 0; i < n; i++)
    {
      guint k = is_typed ? find_shown (self, i, movers->movers) : i;

      if (k < movers->movers->len)
        cro_mover_row_set (row_at (self, i), figures, &g_array_index (movers->movers, CroMover, k),
                           &g_array_index (limits, CroLimit, k), largest, parts[k]);
    }
}

/* Prices and assigned values move the cost against each other: there is no sum over both. */
static char *
dup_others (CroMoversView   *self,
            const CroMovers *movers,
            const gint64    *parts)
{
  CroModel *model = figures_of (self)->model;
  int digits = cro_currency_digits (model->currency);
  CroKnown of = movers->prices.known, credited = movers->values.known;
  g_autofree char *by_prices = cro_words_take_short (of, cro_words_moved_by (model, movers->prices.up, FALSE));
  g_autofree char *by_values = cro_words_take_short (credited, cro_words_moved_by (model, fabs (movers->values.up),
                                                                                   movers->values.up < 0));
  g_autofree char *of_prices = cro_words_take_short (of, cro_money_to_text (parts[0], digits));
  g_autofree char *of_values = cro_words_take_short (credited, cro_money_to_text (parts[1], digits));
  /* Translators: how many more prices move the cost, by how much where all move alike, and what they
   * make of it. */
  g_autofree char *prices = g_strdup_printf (ngettext ("… and %u other price, %s: %s of the cost",
                                                       "… and %u other prices, together %s: %s of the cost",
                                                       movers->prices.n),
                                             movers->prices.n, by_prices, of_prices);
  /* Translators: the same of values that were assigned to by-products. */
  g_autofree char *values = g_strdup_printf (ngettext ("… and %u other value, %s: %s of the cost",
                                                       "… and %u other values, together %s: %s of the cost",
                                                       movers->values.n),
                                             movers->values.n, by_values, of_values);

  if (movers->prices.n > 0 && movers->values.n > 0)
    return g_strdup_printf ("%s\n%s", prices, values);
  return g_strdup (movers->values.n > 0 ? values : prices);
}

static void
show_others (CroMoversView   *self,
             const CroMovers *movers,
             const gint64    *parts)
{
  g_autofree char *text = dup_others (self, movers, parts);

  gtk_widget_set_visible (self->others, movers->prices.n + movers->values.n > 0);
  gtk_button_set_label (GTK_BUTTON (self->others), text);
  /* It breaks: its whole length would leave the lines no room beside the picture. */
  gtk_label_set_wrap (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->others))), TRUE);
}

/* --- The range -------------------------------------------------------------------------------- */

/* Prices and yields of the past are read once for an edition of the book: a key asks nothing. */
static gboolean
read_past (CroMoversView *self,
           CroRef         thing)
{
  CroBook *book = cro_bench_get_book (self->bench);
  guint64 edition = cro_book_get_edition (book);

  if (self->book != book)
    {
      g_clear_pointer (&self->spreads, cro_spreads_free);
      self->spreads = cro_spreads_new (book);
      self->book = book;
      self->read = CRO_REF_NOWHERE;
    }
  if (self->edition == edition && self->read.kind == thing.kind && self->read.slot == thing.slot)
    return TRUE;
  self->edition = edition;
  self->read = thing;
  return cro_spreads_read (self->spreads, thing, NULL);
}

/* The thin mark is the most that its own target allows, where that is anywhere near. */
static void
show_band (CroMoversView      *self,
           const CroFigure    *figure,
           const CroCostRange *range)
{
  double spare = cro_to_spare (figure);

  cro_band_bar_set (CRO_BAND_BAR (self->band), range->low, figure->cost, range->high,
                    fabs (spare) < 2 * (range->high - range->low) ? figure->cost + spare : NAN);
}

static void
show_range (CroMoversView   *self,
            CroRef           thing,
            const CroFigure *figure)
{
  g_autofree char *text = NULL;
  gboolean is_told = FALSE;

  if (read_past (self, thing))
    {
      CroCostRange range = cro_cost_range (self->spreads, thing, figure->cost);

      text = cro_words_cost_range (figures_of (self)->model, figure, &range);
      is_told = cro_cost_range_is_told (figure, &range);
      if (is_told)
        show_band (self, figure, &range);
    }
  gtk_label_set_label (GTK_LABEL (self->range), text != NULL ? text : "");
  gtk_widget_set_visible (self->range, text != NULL);
  gtk_widget_set_visible (self->band, is_told);
}

/* --- Showing ---------------------------------------------------------------------------------- */

static void
refresh (GtkWidget *view)
{
  CroMoversView *self = CRO_MOVERS_VIEW (view);
  CroFigures *figures = figures_of (self);
  CroRef thing = cro_bench_get_ref (self->bench);
  CroFigure figure = cro_figure_of (figures, thing);
  g_autoptr (CroMovers) movers = cro_movers_new (figures, thing, self->is_open ? AT_MOST : AT_ONCE);
  g_autofree gint64 *parts = dup_parts (figures->model, movers, figure.cost);
  gboolean is_empty = movers->movers->len == 0;

  gtk_widget_set_visible (self->none, is_empty);
  gtk_widget_set_visible (self->legend, !is_empty);
  gtk_widget_set_visible (self->list, !is_empty);
  show_rows (self, movers, thing, parts);
  show_others (self, movers, parts + movers->movers->len);
  show_range (self, thing, &figure);
}

static void
show (GtkWidget *view)
{
  CRO_MOVERS_VIEW (view)->is_open = FALSE;
  refresh (view);
}

static void
others_cb (CroMoversView *self)
{
  self->is_open = TRUE;
  refresh (GTK_WIDGET (self));
  gtk_widget_grab_focus (GTK_WIDGET (row_at (self, MIN (AT_ONCE, self->n - 1))));
}

static void
open_row (CroMoversView *self,
          CroMoverRow   *row)
{
  CroRef ref = cro_mover_row_get_ref (row), here = cro_bench_get_ref (self->bench);

  if (ref.kind != here.kind || ref.slot != here.slot)
    cro_bench_open (self->bench, ref);
}

/* Enter: the figure of what has one that is not shown; else where it is changed. */
static void
activated_cb (CroMoversView *self,
              GtkListBoxRow *row)
{
  if (!cro_mover_row_toggle (CRO_MOVER_ROW (row), figures_of (self)))
    open_row (self, CRO_MOVER_ROW (row));
}

static void
open_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));

  if (CRO_IS_MOVER_ROW (focus))
    open_row (CRO_MOVERS_VIEW (widget), CRO_MOVER_ROW (focus));
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_movers_view_dispose (GObject *object)
{
  CroMoversView *self = CRO_MOVERS_VIEW (object);

  g_clear_pointer (&self->spreads, cro_spreads_free);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_movers_view_parent_class)->dispose (object);
}

static void
cro_movers_view_class_init (CroMoversViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_movers_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "item.open", NULL, open_cb);
}

static void
cro_movers_view_init (CroMoversView *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->none = cro_text_new (_("Nothing has a cost yet. Type a line with a price."), "dim-label");
  /* Not before it is known: what moves a large menu takes a moment. */
  gtk_widget_set_visible (self->none, FALSE);
  /* xgettext:no-c-format */
  self->legend = cro_text_new (_("Cost per guest when each is 10 % more (filled) or less (framed), and "
                                 "how far it can go, all else equal"),
                               "caption");
  self->list = gtk_list_box_new ();
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (self->list, "movers");
  cro_spoken_set (self->list, _("What moves it"));
  g_signal_connect_object (self->list, "row-activated", G_CALLBACK (activated_cb), self,
                           G_CONNECT_SWAPPED);
  self->others = gtk_button_new_with_label ("");
  gtk_widget_add_css_class (self->others, "flat");
  gtk_widget_set_halign (self->others, GTK_ALIGN_START);
  g_signal_connect_object (self->others, "clicked", G_CALLBACK (others_cb), self, G_CONNECT_SWAPPED);
  self->range = cro_text_new (NULL, "caption");
  gtk_box_append (GTK_BOX (self->box), self->none);
  gtk_box_append (GTK_BOX (self->box), self->legend);
  gtk_box_append (GTK_BOX (self->box), self->list);
  gtk_box_append (GTK_BOX (self->box), self->others);
  self->band = cro_band_bar_new ();
  gtk_box_append (GTK_BOX (self->box), self->band);
  gtk_box_append (GTK_BOX (self->box), self->range);
}

static GtkWidget *
create (CroBench *bench)
{
  CroMoversView *self = g_object_new (CRO_TYPE_MOVERS_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}

const CroPicture cro_movers_picture = { .create = create, .show = show, .refresh = refresh };
