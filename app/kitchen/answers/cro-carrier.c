#include "cro-carrier.h"

#include <string.h>

#include "cro-menu-ways.h"
#include "cro-text-order.h"

guint64
cro_carried_bits (CroFigures *figures,
                  CroRef      thing)
{
  guint64 bits = 0;

  if (thing.kind == CRO_REF_MENU)
    {
      g_autoptr (GPtrArray) plates = cro_menu_dup_plates (figures->model, thing.slot);

      for (guint i = 0; i < plates->len; i++)
        bits |= cro_carried_bits (figures, CRO_REF (CRO_REF_RECIPE,
                                                    ((const CroMenuPlate *) plates->pdata[i])->plate));
      if (plates->len == 0)
        bits = CRO_ALLERGENS_NOT_KNOWN;
    }
  else
    bits = figures->row_bits[cro_figures_row (figures, thing.slot)];
  return bits & (CRO_ALLERGENS_ALL | CRO_ALLERGENS_NOT_KNOWN | CRO_REACH_MAY_CONTAIN);
}

/* --- The purchases below a carrier -------------------------------------------------------------- */

typedef struct
{
  CroFigures *figures;
  guint64     bits;
  GPtrArray  *names;
} Walk;

static const char *
name_of_row (CroFigures *figures,
             guint32     row)
{
  return cro_model_recipe (figures->model, figures->graph.slot_of_row[row])->name;
}

static const char *
name_of_node (CroFigures *figures,
              guint32     node)
{
  return cro_model_item (figures->model, figures->graph.item_of_node[node])->name;
}

static void
note_row (uint32_t row,
          void    *user_data)
{
  Walk *walk = user_data;

  if (walk->figures->own_row_bits[row] & walk->bits)
    g_ptr_array_add (walk->names, (gpointer) name_of_row (walk->figures, row));
}

static void
note_node (uint32_t node,
           void    *user_data)
{
  Walk *walk = user_data;

  if (walk->figures->own_node_bits[node] & walk->bits)
    g_ptr_array_add (walk->names, (gpointer) name_of_node (walk->figures, node));
}

static void
list_bought (CroFigures *figures,
             guint32     row,
             guint64     bits,
             GPtrArray  *names)
{
  Walk walk = { figures, bits, names };

  figures->seen_rows[row / 64] |= UINT64_C (1) << (row % 64);
  cro_reach_walk (&figures->graph, figures->node_bits, figures->row_bits, bits, figures->seen_rows,
                  figures->seen_nodes, note_row, note_node, &walk);
  cro_figures_forget_seen (figures);
  g_ptr_array_sort (names, cro_text_order);
}

/* --- Who carries it in -------------------------------------------------------------------------- */

typedef struct
{
  CroFigures *figures;
  guint64     bits;
  GPtrArray  *carriers;
  GHashTable *known;      /* name → CroCarrier */
} Search;

static void
carrier_free (gpointer data)
{
  CroCarrier *self = data;

  g_ptr_array_unref (self->in);
  g_ptr_array_unref (self->bought);
  g_free (self);
}

static gboolean
has (GPtrArray  *names,
     const char *name)
{
  return names->len > 0 && names->pdata[names->len - 1] == name;
}

/* row: whose batch makes it; CRO_NO_ROW: it is bought, or is empty itself. component: NULL: the thing
 * itself takes it. Names of items and of recipes never are one pointer, so that two things of one name
 * stay two. */
static void
take (Search     *search,
      const char *name,
      guint32     row,
      const char *component)
{
  CroCarrier *carrier = g_hash_table_lookup (search->known, name);

  if (carrier == NULL)
    {
      carrier = g_new0 (CroCarrier, 1);
      carrier->name = name;
      carrier->in = g_ptr_array_new ();
      carrier->bought = g_ptr_array_new ();
      g_ptr_array_add (search->carriers, carrier);
      g_hash_table_insert (search->known, (gpointer) name, carrier);
      if (row != CRO_NO_ROW)
        list_bought (search->figures, row, search->bits, carrier->bought);
    }
  if (component == NULL)
    carrier->is_direct = TRUE;
  else if (!has (carrier->in, component))
    g_ptr_array_add (carrier->in, (gpointer) component);
}

/* What the lines of a row take; of what is empty the row itself. */
static void
take_lines (Search     *search,
            guint32     row,
            const char *component)
{
  const CroGraph *graph = &search->figures->graph;

  if (search->figures->own_row_bits[row] & search->bits)
    take (search, component, CRO_NO_ROW, NULL);
  for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
    if (search->figures->node_bits[graph->part[l]] & search->bits)
      take (search, name_of_node (search->figures, graph->part[l]), graph->made_by[graph->part[l]],
            component);
}

static void
take_plate (Search  *search,
            guint32  plate)
{
  const CroGraph *graph = &search->figures->graph;
  guint32 row = cro_figures_row (search->figures, plate);

  if (search->figures->own_row_bits[row] & search->bits)
    take (search, name_of_row (search->figures, row), CRO_NO_ROW, NULL);
  for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      guint32 node = graph->part[l];
      const char *name = name_of_node (search->figures, node);

      if ((search->figures->node_bits[node] & search->bits) == 0)
        continue;
      if (graph->made_by[node] == CRO_NO_ROW)
        take (search, name, CRO_NO_ROW, NULL);
      else
        take_lines (search, graph->made_by[node], name);
    }
}

static void
take_menu (Search  *search,
           guint32  menu)
{
  CroModel *model = search->figures->model;
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (model, menu);

  for (guint i = 0; i < plates->len; i++)
    {
      guint32 plate = ((const CroMenuPlate *) plates->pdata[i])->plate;

      take_lines (search, cro_figures_row (search->figures, plate),
                  cro_model_recipe (model, plate)->name);
    }
  if (plates->len == 0 && search->bits & CRO_ALLERGENS_NOT_KNOWN)
    take (search, cro_model_menu (model, menu)->name, CRO_NO_ROW, NULL);
}

GPtrArray *
cro_carriers_new (CroFigures *figures,
                  CroRef      thing,
                  guint64     bits)
{
  Search search = { .figures = figures, .bits = bits };

  search.carriers = g_ptr_array_new_with_free_func (carrier_free);
  search.known = g_hash_table_new (NULL, NULL);
  if (thing.kind == CRO_REF_MENU)
    take_menu (&search, thing.slot);
  else
    take_plate (&search, thing.slot);
  g_hash_table_unref (search.known);
  return search.carriers;
}
