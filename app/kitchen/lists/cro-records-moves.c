#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-kind.h"
#include "cro-last-price.h"
#include "cro-number.h"
#include "cro-price-index.h"
#include "cro-price-moves.h"
#include "cro-result-words.h"
#include "cro-words.h"

/* Signs of a course, from the lowest on: of one byte all of them. */
#define LOWEST 'A'

G_STATIC_ASSERT (LOWEST + CRO_COURSE_HIGH == 'z');

/* Money that moves add: of what more is charged than is known only the sense. */
static CroValue
added_value (double   money,
             CroKnown known)
{
  CroValue value = cro_reading_number (money == 0 && known != CRO_KNOWN_WHOLE ? NAN : money);

  value.known = known;
  return value;
}

static CroValue
share_value (CroReading *self,
             double      pct)
{
  return cro_reading_shown (self, pct, isnan (pct) ? g_strdup ("–") : cro_words_pct (pct));
}

/* --- Ingredients ------------------------------------------------------------------------------ */

static CroValue
course_value (CroReading         *self,
              const CroPriceMove *move)
{
  char text[CRO_COURSE_POINTS + 1] = { '\0' };
  CroValue value;

  for (int i = 0; i < CRO_COURSE_POINTS; i++)
    text[i] = move->course[i] == CRO_COURSE_NONE ? ' ' : (char) (LOWEST + move->course[i]);
  value = cro_reading_text (self, text);
  value.number = move->change_pct;
  return value;
}

static CroValue
unit_cost_value (CroModel *model,
                 guint32   item,
                 double    cost)
{
  return CRO_VALUE (cost, cro_unit_get (cro_base_unit ((CroBase) model->measures[item].base))->code);
}

static CroValue
change_value (CroReading         *self,
              const CroPriceMove *move)
{
  return cro_reading_shown (self, move->change_pct, isnan (move->change_pct) ? g_strdup ("–")
                                                                              : cro_words_change (move->change_pct));
}

/* Words beside a figure would push it aside in its column. */
static CroValue
supplier_value (CroReading         *self,
                const CroPriceMove *move,
                guint32             offer)
{
  const char *supplier = cro_ref_name (self->model, CRO_REF (CRO_REF_OFFER, offer));
  /* Translators: a supplier; of their price no list has changed, but the exchange rate has. */
  g_autofree char *text = move->is_rate_alone ? cro_isolate_printf (_("%s, exchange rate"), supplier) : NULL;

  return cro_reading_text (self, text != NULL ? text : supplier);
}

/* At its last price. */
static CroValue
name_value (CroReading *self,
            CroFigures *figures,
            guint32     item)
{
  const char *name = cro_model_item (self->model, item)->name;
  g_autofree char *last = cro_words_last_price (figures, item), *text = NULL;

  if (last != NULL)
    /* Translators: an ingredient, "not to be had". */
    text = cro_isolate_printf (_("%s, %s"), name, cro_words_not_to_be_had ());
  return cro_reading_text (self, text != NULL ? text : name);
}

static void
fill_move (CroReading         *self,
           CroFigures         *figures,
           const CroPriceMove *move)
{
  CroModel *model = self->model;
  guint32 offer = figures->offer_in_use[move->item];
  CroDate from = cro_kind_price_from (figures, CRO_KIND_INGREDIENT, move->item);
  CroRecordRow *row = &self->row;

  row->ref = CRO_REF (CRO_REF_ITEM, move->item);
  row->values[0] = name_value (self, figures, move->item);
  row->values[2] = course_value (self, move);
  row->values[3] = unit_cost_value (model, move->item, move->before);
  row->values[4] = unit_cost_value (model, move->item, move->now);
  row->values[5] = change_value (self, move);
  if (from != CRO_NO_DATE)
    row->values[CRO_RECORDS_MOVES_SINCE] = cro_reading_number (from);
  row->values[7] = share_value (self, move->share_pct);
  row->values[8] = added_value (move->money, move->known);
  if (offer != CRO_NO_SLOT)
    row->values[9] = supplier_value (self, move, offer);
  if (cro_kind_is_incomplete (figures, CRO_KIND_INGREDIENT, move->item))
    row->marks |= CRO_RECORD_INCOMPLETE;
  if (cro_kind_is_price_old (figures, move->item, cro_kind_old_days (model)))
    row->marks |= CRO_RECORD_OLD;
  if (!cro_kind_is_used (figures, CRO_KIND_INGREDIENT, move->item))
    row->marks |= CRO_RECORD_UNUSED;
  /* By money. What has none stands behind it, by per cent: disposables, and all where nothing was sold. */
  row->urgency = !isnan (move->money)       ? -fabs (move->money)
                 : isnan (move->change_pct) ? 1
                                            : 1 / (1 + fabs (move->change_pct));
}

gboolean
cro_reading_moves (CroReading  *self,
                   GError     **error)
{
  g_autoptr (GHashTable) categories = cro_reading_notes (self, "ingredient", "category", error);
  g_autoptr (CroPricePast) past = categories != NULL ? cro_price_past_new (self->book, error) : NULL;
  g_autoptr (CroPriceMoves) moves = past != NULL ? cro_price_moves_new (self->book, past, self->since, error)
                                                 : NULL;

  for (guint i = 0; moves != NULL && i < moves->items->len; i++)
    {
      const CroPriceMove *move = &g_array_index (moves->items, CroPriceMove, i);
      gint64 id = cro_model_item (self->model, move->item)->id;

      cro_reading_begin (self, id);
      fill_move (self, cro_book_get_figures (self->book), move);
      self->row.values[1] = cro_reading_text (self, g_hash_table_lookup (categories, &id));
      g_array_append_val (self->rows, self->row);
    }
  cro_reading_sort (self);
  return moves != NULL;
}

/* --- Plates and menus ------------------------------------------------------------------------- */

static const char *
course_of (CroModel *model,
           CroRef    thing)
{
  /* Translators: stands where a plate has its course. */
  return thing.kind == CRO_REF_MENU ? _("Menu") : cro_model_recipe (model, thing.slot)->course;
}

static void
fill_moved (CroReading         *self,
            const CroThingMove *move)
{
  CroModel *model = self->model;
  CroRecordRow *row = &self->row;
  double before = move->now.cost - move->added;

  row->ref = move->thing;
  row->values[0] = cro_reading_text (self, move->now.name);
  row->values[1] = cro_reading_text (self, course_of (model, move->thing));
  row->values[2] = cro_reading_shown (self, before,
                                      cro_words_known_money (model, cro_known_of_cost (&move->now), before));
  row->values[3] = cro_reading_shown (self, move->now.cost, cro_words_cost (model, &move->now));
  row->values[4] = added_value (move->added, move->known);
  row->values[5] = cro_reading_shown (self, move->now.food_cost_pct, cro_words_result (model, &move->now));
  row->values[6] = cro_reading_shown (self, move->now.target_pct, cro_words_target (model, &move->now));
  row->values[7] = cro_reading_number (isnan (move->sold) ? NAN : move->sold * CRO_MICRO);
  row->values[8] = added_value (move->money, move->sold > 0 ? move->known : CRO_KNOWN_WHOLE);
  if (move->through != CRO_NO_SLOT)
    row->values[9] = cro_reading_text (self, cro_model_item (model, move->through)->name);
  if (move->now.is_over_target)
    row->marks |= CRO_RECORD_OVER_TARGET;
  if (move->now.is_incomplete)
    row->marks |= CRO_RECORD_INCOMPLETE;
}

gboolean
cro_reading_moved (CroReading  *self,
                   GError     **error)
{
  g_autoptr (CroPricePast) past = cro_price_past_new (self->book, error);
  g_autoptr (CroPriceMoves) moves = past != NULL ? cro_price_moves_new (self->book, past, self->since, error)
                                                 : NULL;

  for (guint i = 0; moves != NULL && i < moves->things->len; i++)
    {
      const CroThingMove *move = &g_array_index (moves->things, CroThingMove, i);

      cro_reading_begin (self, move->thing.kind == CRO_REF_MENU
                                   ? cro_model_menu (self->model, move->thing.slot)->id
                                   : cro_model_recipe (self->model, move->thing.slot)->id);
      fill_moved (self, move);
      g_array_append_val (self->rows, self->row);
    }
  return moves != NULL;
}

/* --- Categories ------------------------------------------------------------------------------- */

/* What is left out of it may have moved more or less. Takes text. */
static char *
known_index (const CroPriceIndex *index,
             char                *text)
{
  g_autofree char *taken = text;

  if (isnan (index->index))
    return index->is_open ? cro_words_known (CRO_KNOWN_NOTHING, taken) : g_strdup ("–");
  return cro_words_known (index->is_open ? CRO_KNOWN_IN_PART : CRO_KNOWN_WHOLE, taken);
}

static CroValue
count_value (CroReading          *self,
             const CroPriceIndex *index)
{
  g_autofree char *in = cro_number_to_text (index->n_in, 0, TRUE), *all = cro_number_to_text (index->n, 0, TRUE);

  return cro_reading_shown (self, index->n,
                            index->n_in < index->n ? g_strdup_printf (C_("rows", "%s of %s"), in, all)
                                                   : g_steal_pointer (&all));
}

/* Where the chain begins later than the period its change is of that day on. */
static CroValue
index_change (CroReading          *self,
              const CroPriceIndex *index)
{
  double pct = index->index - 100;
  g_autofree char *change = known_index (index, cro_words_change (pct)), *since = NULL;

  if (isnan (pct))
    return cro_reading_shown (self, pct, g_steal_pointer (&change));
  if (index->since <= self->since)
    return cro_reading_shown (self, pct, g_steal_pointer (&change));
  since = cro_date_to_text (index->since);
  /* Translators: "+3.7 % since 2026-09-01". */
  return cro_reading_shown (self, pct, g_strdup_printf (_("%s since %s"), change, since));
}

static void
fill_index (CroReading          *self,
            const CroPriceIndex *index,
            gboolean             is_all)
{
  CroRecordRow *row = &self->row;

  row->values[0] = cro_reading_text (self, is_all                    ? _("All ingredients")
                                           : index->category != NULL ? index->category
                                                                     : _("No category"));
  row->values[1] = count_value (self, index);
  row->values[2] = cro_reading_shown (self, index->index,
                                      known_index (index, cro_number_to_text (index->index, 1, FALSE)));
  row->values[3] = index_change (self, index);
  if (!isnan (index->index))
    row->values[4] = cro_reading_number (index->since);
  row->values[5] = cro_reading_number (index->bought);
  row->values[6] = share_value (self, index->share_pct);
}

gboolean
cro_reading_indices (CroReading  *self,
                     GError     **error)
{
  g_autoptr (CroPricePast) past = cro_price_past_new (self->book, error);
  g_autoptr (GArray) indices = past != NULL ? cro_price_indices_new (self->book, past, self->since, error)
                                            : NULL;

  for (guint i = 0; indices != NULL && i < indices->len; i++)
    {
      cro_reading_begin (self, 1 + (gint64) i);
      fill_index (self, &g_array_index (indices, CroPriceIndex, i), i == 0);
      g_array_append_val (self->rows, self->row);
    }
  return indices != NULL;
}
