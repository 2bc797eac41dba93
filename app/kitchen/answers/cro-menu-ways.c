#include "cro-menu-ways.h"

#include "cro-decimal.h"
#include "cro-money.h"

static int
compare_positions (gconstpointer a,
                   gconstpointer b)
{
  const CroMenuPlate *x = *(const CroMenuPlate *const *) a;
  const CroMenuPlate *y = *(const CroMenuPlate *const *) b;

  if (x->position != y->position)
    return x->position < y->position ? -1 : 1;
  return x->id < y->id ? -1 : x->id > y->id;
}

GPtrArray *
cro_menu_dup_plates (CroModel *model,
                     guint32   menu)
{
  GPtrArray *plates = g_ptr_array_new ();

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (entry->menu == menu && !entry->is_dead)
        g_ptr_array_add (plates, entry);
    }
  g_ptr_array_sort (plates, compare_positions);
  return plates;
}

/* Equal choices are one text in the model, so that pointers tell them apart. */
static gint32
number_of_choice (GPtrArray *plates,
                  guint      i)
{
  const CroMenuPlate *entry = plates->pdata[i];
  guint first = 0;

  if (entry->choice == NULL)
    return CRO_NO_CHOICE;
  while (((const CroMenuPlate *) plates->pdata[first])->choice != entry->choice)
    first++;
  return (gint32) first;
}

/* taken holds shares until servings are counted in. */
static CroMenuWays *
new_shares (CroModel *model,
            guint32   menu)
{
  CroMenuWays *self = g_new0 (CroMenuWays, 1);
  guint n;

  self->plates = cro_menu_dup_plates (model, menu);
  n = self->plates->len;
  self->ways = g_new (CroWayPlate, n + 1);
  self->taken = g_new (double, n + 1);
  for (guint i = 0; i < n; i++)
    self->ways[i] = (CroWayPlate){ number_of_choice (self->plates, i),
                                   ((const CroMenuPlate *) self->plates->pdata[i])->share };
  self->bad = (guint) cro_way_parts (self->ways, n, self->taken);
  return self;
}

CroMenuWays *
cro_menu_ways_new (CroModel *model,
                   guint32   menu)
{
  CroMenuWays *self = new_shares (model, menu);

  for (guint i = 0; i < self->plates->len; i++)
    self->taken[i] *= cro_decimal_to_double (((const CroMenuPlate *) self->plates->pdata[i])->servings);
  return self;
}

void
cro_menu_ways_free (CroMenuWays *self)
{
  g_ptr_array_unref (self->plates);
  g_free (self->ways);
  g_free (self->taken);
  g_free (self);
}

double
cro_menu_share (CroModel           *model,
                const CroMenuPlate *entry)
{
  g_autoptr (CroMenuWays) ways = NULL;
  guint i;

  if (entry->choice == NULL)
    return 1;
  ways = new_shares (model, entry->menu);
  return g_ptr_array_find (ways->plates, entry, &i) ? ways->taken[i] : 0;
}

double
cro_menu_taken (CroModel           *model,
                const CroMenuPlate *entry)
{
  return cro_menu_share (model, entry) * cro_decimal_to_double (entry->servings);
}

double
cro_menu_share_pct (CroModel           *model,
                    const CroMenuPlate *entry)
{
  g_autoptr (CroMenuWays) ways = new_shares (model, entry->menu);
  guint n = ways->plates->len, at;
  g_autofree double *parts = g_new0 (double, n + 1);
  g_autofree guint64 *order = g_new (guint64, n + 1);
  g_autofree gint64 *tenths = g_new (gint64, n + 1);
  double sum = 0;

  if (entry->choice == NULL)
    return 100;
  if (!g_ptr_array_find (ways->plates, entry, &at))
    return 0;
  for (guint i = 0; i < n; i++)
    if (((const CroMenuPlate *) ways->plates->pdata[i])->choice == entry->choice)
      sum += parts[i] = 100 * ways->taken[i];
  cro_money_apportion (cro_money_round (sum, 1), parts, n, 1, order, tenths);
  return (double) tenths[at] / 10;
}
