#include "cro-round-effect.h"

#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-edit-private.h"
#include "cro-money.h"
#include "cro-reach.h"
#include "cro-round-private.h"
#include "cro-sold-as.h"
#include "cro-sold.h"

struct _CroRoundView
{
  CroRound   *round;       /* borrowed */
  CroBook    *trial;       /* of what was posted: the book as it is now; NULL: the round's copy is looked at */
  CroFigures *figures;     /* of the trial, or the copy */
  GHashTable *prices;      /* of what was posted: item + 1 → what its unit cost was; NULL */
  double     *cost;        /* by row, before */
  guint8     *bits;
  CroFigure  *plates;      /* by slot, before */
  CroFigure  *menus;
  GHashTable *sold;
  CroDate     until;
};

/* --- Before ------------------------------------------------------------------------------------------- */

static gboolean
is_plate (CroModel *model,
          guint32   slot)
{
  return cro_model_recipe (model, slot)->is_plate && !cro_model_recipe (model, slot)->is_dead;
}

static guint8
bits_of (CroFigures *figures,
         guint32     row)
{
  return (figures->row_bits[row] & CRO_REACH_INCOMPLETE) != 0;
}

static void
read_before (CroRoundView *self)
{
  CroFigures *figures = self->figures;
  CroModel *model = figures->model;
  gsize n_rows = figures->graph.n_rows;

  self->cost = g_memdup2 (figures->layers[CRO_LAYER_FOOD].row_cost, MAX (n_rows, 1) * sizeof (double));
  self->bits = g_new0 (guint8, n_rows + 1);
  for (gsize i = 0; i < n_rows; i++)
    self->bits[i] = bits_of (figures, (guint32) i);
  self->plates = g_new0 (CroFigure, model->recipes->len + 1);
  self->menus = g_new0 (CroFigure, model->menus->len + 1);
  for (guint32 i = 0; i < model->recipes->len; i++)
    if (is_plate (model, i))
      self->plates[i] = cro_figure_of_plate (figures, i);
  for (guint32 i = 0; i < model->menus->len; i++)
    if (!cro_model_menu (model, i)->is_dead)
      self->menus[i] = cro_figure_of_menu (figures, i);
}

static gboolean
read_sold (CroRoundView  *self,
           GError       **error)
{
  self->sold = cro_sold_lately (cro_round_get_book (self->round), CRO_SOLD_DAYS, &self->until, error);
  return self->sold != NULL;
}

CroRoundView *
cro_round_view_new (CroRound  *round,
                    GError   **error)
{
  g_autoptr (CroRoundView) self = g_new0 (CroRoundView, 1);

  self->round = round;
  self->figures = cro_book_get_figures (cro_round_get_draft (round));
  if (!read_sold (self, error))
    return NULL;
  cro_round_undraft_all (round);
  read_before (self);
  cro_round_draft_all (round);
  return g_steal_pointer (&self);
}

/* --- Before what was posted ------------------------------------------------------------------------------ */

static gboolean
is_in_force (const CroRoundPosted *row)
{
  return row->price != NULL && !row->is_back;
}

/* What it did is what was posted, whatever somebody made of a price since. */
static gboolean
put_in (CroBook    *trial,
        GPtrArray  *posts,
        GError    **error)
{
  for (guint i = 0; i < posts->len; i++)
    for (guint k = 0; k < ((CroRoundPost *) posts->pdata[i])->rows->len; k++)
      {
        const CroRoundPosted *row = ((CroRoundPost *) posts->pdata[i])->rows->pdata[k];

        if (is_in_force (row) && !cro_round_put_price (trial, posts, row, error))
          return FALSE;
      }
  return TRUE;
}

/* The last posting first, as each found what stood before it. */
static gboolean
take_out (CroBook    *trial,
          GPtrArray  *posts,
          GError    **error)
{
  static const char *const columns[] = { "preferred", NULL };

  for (guint i = posts->len; i > 0; i--)
    {
      const CroRoundPost *post = posts->pdata[i - 1];

      for (guint k = 0; k < post->rows->len; k++)
        if (is_in_force (post->rows->pdata[k]) && !cro_round_restore_price (trial, posts, post->rows->pdata[k], error))
          return FALSE;
      for (guint k = 0; k < post->preferred->len; k++)
        {
          const CroRoundPreferred *preferred = &g_array_index (post->preferred, CroRoundPreferred, k);
          const CroCell cell = CRO_CELL_INT (preferred->was);

          if (cro_round_slot_of (cro_book_get_model (trial), preferred->offer) != CRO_NO_SLOT
              && !cro_edit_update_row (trial, "offer", preferred->offer, columns, &cell, error))
            return FALSE;
        }
    }
  return TRUE;
}

static void
read_prices (CroRoundView *self,
             GPtrArray    *posts)
{
  CroModel *model = self->figures->model;

  self->prices = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  for (guint i = 0; i < posts->len; i++)
    for (guint k = 0; k < ((CroRoundPost *) posts->pdata[i])->rows->len; k++)
      {
        const CroRoundPosted *row = ((CroRoundPost *) posts->pdata[i])->rows->pdata[k];
        guint32 offer = is_in_force (row) ? cro_round_slot_of (model, row->offer) : CRO_NO_SLOT, item;
        double before;

        if (offer == CRO_NO_SLOT)
          continue;
        item = cro_model_offer (model, offer)->item;
        before = cro_figures_unit_cost (self->figures, item);
        g_hash_table_insert (self->prices, GUINT_TO_POINTER (item + 1), g_memdup2 (&before, sizeof before));
      }
}

static CroDate
day_of (GPtrArray *posts)
{
  CroDate day = ((CroRoundPost *) posts->pdata[0])->day;

  for (guint i = 1; i < posts->len; i++)
    day = MAX (day, ((CroRoundPost *) posts->pdata[i])->day);
  return day;
}

CroRoundView *
cro_round_view_of_posts (CroRound   *round,
                         GPtrArray  *posts,
                         GError    **error)
{
  g_autoptr (CroRoundView) self = g_new0 (CroRoundView, 1);
  CroBook *trial = self->trial = cro_book_open_trial (cro_round_get_book (round), error);
  guint64 edition;

  self->round = round;
  if (trial == NULL || !cro_book_set_date (trial, day_of (posts), error) || !read_sold (self, error))
    return NULL;
  if (!cro_edit_begin (trial, "as posted", error) || !cro_edit_end (trial, put_in (trial, posts, error), error))
    return NULL;
  edition = cro_book_get_edition (trial);
  if (!cro_edit_begin (trial, "before", error)
      || !cro_edit_end (trial, take_out (trial, posts, error), error))
    return NULL;
  self->figures = cro_book_get_figures (trial);
  read_before (self);
  read_prices (self, posts);
  return cro_book_get_edition (trial) == edition || cro_book_undo (trial, NULL, error) ? g_steal_pointer (&self) : NULL;
}

void
cro_round_view_free (CroRoundView *self)
{
  g_clear_pointer (&self->sold, g_hash_table_unref);
  g_clear_pointer (&self->prices, g_hash_table_unref);
  g_free (self->cost);
  g_free (self->bits);
  g_free (self->plates);
  g_free (self->menus);
  g_clear_object (&self->trial);
  g_free (self);
}

/* --- What moved --------------------------------------------------------------------------------------- */

static double
sold_of (CroRoundView *self,
         gint64        id)
{
  const CroSold *sold = g_hash_table_lookup (self->sold, &id);

  return sold != NULL ? cro_decimal_to_double (sold->sold) : 0;
}

static gboolean
row_has_moved (CroRoundView *self,
               guint32       row)
{
  double cost = self->figures->layers[CRO_LAYER_FOOD].row_cost[row];

  return !(fabs (cost - self->cost[row]) <= CRO_ALLOWED * fabs (self->cost[row]))
         || bits_of (self->figures, row) != self->bits[row];
}

static void
add_moved (CroRoundView    *self,
           CroRoundEffect  *effect,
           CroRef           thing,
           const CroFigure *before,
           gint64           id)
{
  CroRoundMoved one = { .thing = thing, .sold = sold_of (self, id), .item = CRO_NO_SLOT, .ceiling = NAN };
  CroFigure after = cro_figure_of (self->figures, thing);

  one.moved = cro_moved_plate_make (thing.kind == CRO_REF_MENU, before, &after);
  if (!cro_moved_plate_has (&one.moved))
    return;
  /* What is missing on both sides adds nothing to the difference that is known. */
  effect->is_short_before |= before->is_incomplete && !one.moved.after.is_incomplete;
  effect->is_short_after |= one.moved.after.is_incomplete && !before->is_incomplete;
  effect->n_over += one.moved.after.is_over_target;
  effect->week += (one.moved.after.cost - before->cost) * (effect->has_sold ? one.sold * 7 / CRO_SOLD_DAYS : 1);
  g_array_append_val (effect->moved, one);
}

static void
read_moved (CroRoundView   *self,
            CroRoundEffect *effect)
{
  CroModel *model = self->figures->model;
  g_autoptr (GHashTable) menus = g_hash_table_new (NULL, NULL);

  for (guint32 i = 0; i < model->recipes->len; i++)
    if (is_plate (model, i) && row_has_moved (self, cro_figures_row (self->figures, i)))
      add_moved (self, effect, CRO_REF (CRO_REF_RECIPE, i), &self->plates[i], cro_model_recipe (model, i)->id);
  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && !cro_model_menu (model, entry->menu)->is_dead
          && row_has_moved (self, cro_figures_row (self->figures, entry->plate))
          && g_hash_table_add (menus, GUINT_TO_POINTER (entry->menu + 1)))
        add_moved (self, effect, CRO_REF (CRO_REF_MENU, entry->menu), &self->menus[entry->menu],
                   cro_model_menu (model, entry->menu)->id);
    }
}

/* A menu that moved has a plate that did, but what it lacks may be another one's. */
static void
mark_lacking (CroRoundView          *self,
              const CroRoundEffect  *effect)
{
  CroFigures *figures = self->figures;
  CroModel *model = figures->model;
  g_autoptr (GHashTable) menus = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < effect->moved->len; i++)
    {
      const CroRoundMoved *moved = &g_array_index (effect->moved, CroRoundMoved, i);

      if (!moved->moved.after.is_incomplete)
        continue;
      if (moved->thing.kind == CRO_REF_MENU)
        g_hash_table_add (menus, GUINT_TO_POINTER (moved->thing.slot + 1));
      else
        cro_dirty_add_row (figures->seen_rows, cro_figures_row (figures, moved->thing.slot));
    }
  for (guint i = 0; g_hash_table_size (menus) > 0 && i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && g_hash_table_contains (menus, GUINT_TO_POINTER (entry->menu + 1)))
        cro_dirty_add_row (figures->seen_rows, cro_figures_row (figures, entry->plate));
    }
}

static void
read_lacks (CroRoundView   *self,
            CroRoundEffect *effect)
{
  mark_lacking (self, effect);
  effect->lacks = cro_causes_below (self->figures);
  cro_figures_forget_seen (self->figures);
}

static int
rank_of (const CroMovedPlate *moved)
{
  return moved->goes_over ? 0 : moved->after.is_over_target && moved->after.cost > moved->before.cost ? 1 : 2;
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  const CroMovedPlate *one = &((const CroRoundMoved *) a)->moved, *other = &((const CroRoundMoved *) b)->moved;

  if (rank_of (one) != rank_of (other))
    return rank_of (one) - rank_of (other);
  if (one->size != other->size)
    return one->size > other->size ? -1 : 1;
  return strcmp (one->before.name, other->before.name);
}

/* --- What would hold it -------------------------------------------------------------------------------- */

/* Of the ingredients whose prices move that which moves the thing most. */
static void
find_ceiling (CroRoundView  *self,
              GHashTable    *prices,
              CroRoundMoved *one)
{
  g_autoptr (CroBreakdown) breakdown = one->thing.kind == CRO_REF_MENU
                                           ? cro_breakdown_of_menu (self->figures, one->thing.slot)
                                           : cro_breakdown_of_plate (self->figures, one->thing.slot);
  double most = 0;

  for (guint i = 0; i < breakdown->ingredients->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (breakdown->ingredients, CroShareOfCost, i);
      const double *before = g_hash_table_lookup (prices, GUINT_TO_POINTER (share->item + 1));
      double by = before != NULL ? (share->unit_cost - *before) * share->quantity : 0;

      if (!(by > most) || isnan (share->ceiling))
        continue;
      most = by;
      one->item = share->item;
      one->ceiling = share->ceiling;
    }
}

static double
unit_cost_before (CroRound          *round,
                  const CroRoundRow *row)
{
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  const CroMeasure *measure = &model->measures[row->list.item];

  return row->was.has_price && row->was.rate > 0 && cro_offer_pack (&row->was, measure) > 0
             ? cro_offer_unit_cost (&row->was, measure)
             : 0;
}

/* Item + 1 → what its unit cost was at the pack of the round. */
static GHashTable *
prices_new (CroRound *round)
{
  GHashTable *prices = g_hash_table_new_full (NULL, NULL, NULL, g_free);

  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    {
      const CroRoundRow *row = cro_round_get_row (round, i);
      double before;

      if (!row->is_drafted || row->list.offer == CRO_NO_SLOT)
        continue;
      before = unit_cost_before (round, row);
      g_hash_table_insert (prices, GUINT_TO_POINTER (row->list.item + 1), g_memdup2 (&before, sizeof before));
    }
  return prices;
}

/* --- Cheaper elsewhere ----------------------------------------------------------------------------------- */

static double
cost_of_offer (CroFigures          *figures,
               const CroOfferEntry *entry)
{
  const CroMeasure *measure = &figures->model->measures[entry->item];

  return entry->is_dead || cro_offer_lacks (&entry->offer, measure, figures->date) != CRO_OFFER_PRICED
             ? NAN
             : cro_offer_unit_cost (&entry->offer, measure);
}

static void
find_cheaper (CroRoundView   *self,
              CroRoundEffect *effect,
              guint32         item)
{
  CroFigures *figures = self->figures;
  CroModel *model = figures->model;
  const CroItem *of = cro_model_item (model, item);
  CroRoundCheaper found = { item, CRO_NO_SLOT, NAN, figures->offer_in_use[item], NAN };

  if (found.instead_of == CRO_NO_SLOT)
    return;
  found.now = found.unit_cost = cost_of_offer (figures, cro_model_offer (model, found.instead_of));
  for (guint32 i = 0; i < of->n_offers; i++)
    {
      guint32 slot = g_array_index (model->offer_order, guint32, of->first_offer + i);
      double cost = cost_of_offer (figures, cro_model_offer (model, slot));

      if (slot != found.instead_of && cro_model_offer (model, slot)->id != 0
          && cost < found.unit_cost * (1 - CRO_ALLOWED))
        {
          found.offer = slot;
          found.unit_cost = cost;
        }
    }
  if (found.offer != CRO_NO_SLOT)
    g_array_append_val (effect->cheaper, found);
}

static void
read_cheaper (CroRoundView   *self,
              CroRoundEffect *effect)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < cro_round_get_n_rows (self->round); i++)
    {
      const CroRoundRow *row = cro_round_get_row (self->round, i);

      if (row->list.item == CRO_NO_SLOT || row->kind == CRO_ROUND_EMPTY || !cro_round_row_is_ready (row))
        continue;
      effect->is_taken |= cro_figures_is_served (self->figures, row->list.item);
      if (g_hash_table_add (seen, GUINT_TO_POINTER (row->list.item + 1)))
        find_cheaper (self, effect, row->list.item);
    }
}

static void
read_taken (CroRoundView   *self,
            CroRoundEffect *effect)
{
  GHashTableIter iter;
  gpointer item;

  /* Of a credit no price is posted that a plate could take. */
  effect->is_taken = g_hash_table_size (self->prices) == 0;
  g_hash_table_iter_init (&iter, self->prices);
  while (g_hash_table_iter_next (&iter, &item, NULL))
    effect->is_taken |= cro_figures_is_served (self->figures, GPOINTER_TO_UINT (item) - 1);
}

/* --- All of it ---------------------------------------------------------------------------------------------- */

CroRoundEffect *
cro_round_view_read (CroRoundView *self,
                     guint         most)
{
  CroRoundEffect *effect = g_new0 (CroRoundEffect, 1);
  g_autoptr (GHashTable) prices = self->prices != NULL ? g_hash_table_ref (self->prices) : prices_new (self->round);

  effect->figures = self->figures;
  effect->moved = g_array_new (FALSE, FALSE, sizeof (CroRoundMoved));
  effect->cheaper = g_array_new (FALSE, FALSE, sizeof (CroRoundCheaper));
  effect->until = self->until;
  effect->has_sold = g_hash_table_size (self->sold) > 0;
  read_moved (self, effect);
  read_lacks (self, effect);
  g_array_sort (effect->moved, compare);
  for (guint i = 0; i < MIN (most, effect->moved->len); i++)
    {
      CroRoundMoved *one = &g_array_index (effect->moved, CroRoundMoved, i);

      if (one->moved.after.is_over_target)
        find_ceiling (self, prices, one);
    }
  if (self->prices != NULL)
    read_taken (self, effect);
  else
    read_cheaper (self, effect);
  return effect;
}

void
cro_round_effect_free (CroRoundEffect *self)
{
  g_array_unref (self->moved);
  g_array_unref (self->lacks);
  g_array_unref (self->cheaper);
  g_free (self);
}
