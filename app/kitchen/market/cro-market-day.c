#include "cro-market-day.h"

#include "cro-kind.h"

static int
compare_days (gconstpointer a,
              gconstpointer b)
{
  CroDate x = *(const CroDate *) a, y = *(const CroDate *) b;

  return x < y ? -1 : x > y;
}

guint
cro_market_rhythm (const CroDate *lists,
                   guint          n)
{
  CroDate gaps[CRO_RHYTHM_MOST];
  guint n_gaps = MIN (n, CRO_RHYTHM_MOST) - 1;

  if (n < CRO_RHYTHM_LEAST)
    return 0;
  for (guint i = 0; i < n_gaps; i++)
    gaps[i] = lists[i] - lists[i + 1];
  qsort (gaps, n_gaps, sizeof *gaps, compare_days);
  /* Of two in the middle the longer one: who is called a day late is better off than one called early. */
  return (guint) gaps[n_gaps / 2];
}

static CroSupplierDay
day_of (CroFigures   *figures,
        CroPricePast *past,
        GHashTable   *billed,
        guint32       supplier)
{
  CroSupplierDay day = { .supplier = supplier, .last = CRO_NO_DAY, .due = CRO_NO_DAY };
  CroDate lists[CRO_RHYTHM_MOST];
  guint n = cro_price_past_lists (past, billed, supplier, figures->date, lists, CRO_RHYTHM_MOST);

  for (guint i = 0; i < figures->model->offers->len; i++)
    day.n_packs += !cro_model_offer (figures->model, i)->is_dead
                   && cro_model_offer (figures->model, i)->supplier == supplier;
  if (n > 0)
    day.last = lists[0];
  day.rhythm = cro_market_rhythm (lists, n);
  if (day.rhythm > 0)
    day.due = day.last + (CroDate) day.rhythm;
  day.is_due = day.rhythm > 0 && day.due <= figures->date;
  return day;
}

/* What has no rhythm stands last. */
static int
compare_suppliers (gconstpointer a,
                   gconstpointer b,
                   gpointer      user_data)
{
  const CroSupplierDay *x = a, *y = b;
  CroModel *model = user_data;

  if ((x->rhythm > 0) != (y->rhythm > 0))
    return x->rhythm > 0 ? -1 : 1;
  if (x->due != y->due)
    return x->due < y->due ? -1 : 1;
  return g_utf8_collate (g_array_index (model->suppliers, CroSupplier, x->supplier).name,
                         g_array_index (model->suppliers, CroSupplier, y->supplier).name);
}

static void
add_ingredient (CroMarketDay *self,
                CroFigures   *figures,
                guint32       item)
{
  guint32 offer = figures->offer_in_use[item];

  if (!cro_kind_is_used (figures, CRO_KIND_INGREDIENT, item))
    return;
  if (cro_kind_is_incomplete (figures, CRO_KIND_INGREDIENT, item))
    {
      g_array_append_val (self->no_price, item);
      return;
    }
  if (offer != CRO_NO_SLOT && !cro_model_offer (figures->model, offer)->offer.has_price)
    g_array_append_val (self->last_price, item);
  if (cro_kind_is_price_old (figures, item, cro_kind_old_days (figures->model)))
    self->n_old++;
}

CroMarketDay *
cro_market_day_new (CroBook      *book,
                    CroPricePast *past)
{
  CroFigures *figures = cro_book_get_figures (book);
  CroModel *model = figures->model;
  /* What cannot be read is asked for elsewhere: without it an invoice is a list. */
  g_autoptr (GHashTable) billed = cro_price_past_billed (book, figures->date, NULL);
  CroMarketDay *self = g_new0 (CroMarketDay, 1);

  self->suppliers = g_array_new (FALSE, FALSE, sizeof (CroSupplierDay));
  self->no_price = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->last_price = g_array_new (FALSE, FALSE, sizeof (guint32));
  for (guint32 slot = 0; slot < model->suppliers->len; slot++)
    if (!g_array_index (model->suppliers, CroSupplier, slot).is_dead)
      {
        CroSupplierDay day = day_of (figures, past, billed, slot);

        g_array_append_val (self->suppliers, day);
      }
  g_array_sort_with_data (self->suppliers, compare_suppliers, model);
  for (guint32 slot = 0; slot < model->items->len; slot++)
    if (cro_kind_name (model, CRO_KIND_INGREDIENT, slot) != NULL)
      add_ingredient (self, figures, slot);
  return self;
}

void
cro_market_day_free (CroMarketDay *self)
{
  g_array_unref (self->suppliers);
  g_array_unref (self->no_price);
  g_array_unref (self->last_price);
  g_free (self);
}
