#include "cro-answer-order.h"

#include "cro-allergen-sheet.h"
#include "cro-kind.h"

typedef struct
{
  guint32     item;
  gboolean    is_stated;
  guint       uses;
  const char *name;
} Listed;

guint
cro_answer_order_uses (CroFigures *figures,
                       guint32     item)
{
  guint32 node = cro_figures_node (figures, item);

  return figures->graph.used_first[node + 1] - figures->graph.used_first[node];
}

static int
compare_listed (gconstpointer a,
                gconstpointer b)
{
  const Listed *x = a, *y = b;

  if (x->is_stated != y->is_stated)
    return x->is_stated ? 1 : -1;
  if (x->uses != y->uses)
    return x->uses > y->uses ? -1 : 1;
  return g_utf8_collate (x->name, y->name);
}

GArray *
cro_answer_order_new (CroFigures *figures)
{
  CroModel *model = figures->model;
  g_autoptr (GArray) listed = g_array_new (FALSE, FALSE, sizeof (Listed));
  GArray *items = g_array_new (FALSE, FALSE, sizeof (guint32));

  for (guint32 i = 0; i < model->items->len; i++)
    if (cro_kind_name (model, CRO_KIND_INGREDIENT, i) != NULL)
      {
        Listed one = { i, cro_model_item (model, i)->allergens >= 0, cro_answer_order_uses (figures, i),
                       cro_model_item (model, i)->name };

        g_array_append_val (listed, one);
      }
  g_array_sort (listed, compare_listed);
  for (guint i = 0; i < listed->len; i++)
    g_array_append_val (items, g_array_index (listed, Listed, i).item);
  return items;
}

gboolean
cro_answer_order_is_whole (GArray   *order,
                           CroModel *model)
{
  guint n, n_not_stated;

  cro_allergens_count (model, &n, &n_not_stated);
  for (guint i = 0; i < order->len; i++)
    {
      guint32 item = g_array_index (order, guint32, i);

      if (item >= model->items->len || cro_kind_name (model, CRO_KIND_INGREDIENT, item) == NULL)
        return FALSE;
    }
  return n == order->len;
}
