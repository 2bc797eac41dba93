#include "cro-office-private.h"

#include "cro-text-order.h"

#include <string.h>

static int
compare_items (gconstpointer a,
               gconstpointer b,
               gpointer      data)
{
  CroModel *model = data;

  return strcmp (cro_model_item (model, *(const guint32 *) a)->name,
                 cro_model_item (model, *(const guint32 *) b)->name);
}

static int
compare_recipes (gconstpointer a,
                 gconstpointer b,
                 gpointer      data)
{
  CroModel *model = data;

  return strcmp (cro_model_recipe (model, *(const guint32 *) a)->name,
                 cro_model_recipe (model, *(const guint32 *) b)->name);
}

static int
compare_menus (gconstpointer a,
               gconstpointer b,
               gpointer      data)
{
  CroModel *model = data;

  return strcmp (cro_model_menu (model, *(const guint32 *) a)->name,
                 cro_model_menu (model, *(const guint32 *) b)->name);
}

static void
number_ingredients (CroOffice *self)
{
  CroModel *model = self->model;

  for (guint32 i = 0; i < model->items->len; i++)
    if (!cro_model_item (model, i)->is_dead && model->measures[i].is_bought)
      g_array_append_val (self->ingredients, i);
  g_array_sort_with_data (self->ingredients, compare_items, model);

  self->first_offer = g_new (guint32, self->ingredients->len + 1);
  for (guint32 i = 0; i < self->ingredients->len; i++)
    {
      guint32 slot = cro_office_slot (self->ingredients, i);
      const CroItem *item = cro_model_item (model, slot);

      self->number_of_item[slot] = i;
      self->first_offer[i] = self->offers->len;
      for (guint32 k = 0; k < item->n_offers; k++)
        {
          guint32 offer = cro_office_slot (model->offer_order, item->first_offer + k);

          self->number_of_offer[offer] = self->offers->len;
          g_array_append_val (self->offers, offer);
        }
    }
}

static void
number_batches (CroOffice *self)
{
  const CroGraph *graph = &self->figures->graph;

  self->first_output = g_new (guint32, graph->n_rows + 1);
  for (guint32 row = 0; row < graph->n_rows; row++)
    {
      guint32 slot = graph->slot_of_row[row];
      const CroRecipe *recipe = cro_model_recipe (self->model, slot);
      const guint32 *outputs;
      guint32 n = cro_figures_outputs (self->figures, slot, &outputs);

      if (recipe->is_dead || recipe->is_plate)
        continue;
      self->number_of_row[row] = self->batches->len;
      self->first_output[self->batches->len] = self->outputs->len;
      g_array_append_val (self->batches, row);
      for (guint32 k = 0; k < n; k++)
        {
          self->number_of_item[outputs[k]] = self->ingredients->len + self->outputs->len;
          g_array_append_val (self->outputs, outputs[k]);
        }
    }
}

static void
number_plates (CroOffice *self)
{
  CroModel *model = self->model;

  for (guint32 i = 0; i < model->recipes->len; i++)
    if (cro_model_recipe (model, i)->is_plate && !cro_model_recipe (model, i)->is_dead)
      g_array_append_val (self->plates, i);
  g_array_sort_with_data (self->plates, compare_recipes, model);
  for (guint32 i = 0; i < self->plates->len; i++)
    self->number_of_row[cro_figures_row (self->figures, cro_office_slot (self->plates, i))] = i;
}

static void
number_menus (CroOffice *self)
{
  CroModel *model = self->model;

  for (guint32 i = 0; i < model->menus->len; i++)
    if (!cro_model_menu (model, i)->is_dead)
      g_array_append_val (self->menus, i);
  g_array_sort_with_data (self->menus, compare_menus, model);
  self->first_entry = g_new0 (guint32, self->menus->len + 1);
  for (guint32 i = 0; i < self->menus->len; i++)
    {
      g_autoptr (GPtrArray) plates = cro_menu_dup_plates (model, cro_office_slot (self->menus, i));

      for (guint k = 0; k < plates->len; k++)
        {
          guint32 slot = (guint32) ((CroMenuPlate *) plates->pdata[k]
                                    - (CroMenuPlate *) (void *) model->menu_plates->data);

          g_array_append_val (self->entries, slot);
        }
      self->first_entry[i + 1] = self->entries->len;
    }
}

/* Currencies of offers that are not the book's own. */
static void
number_currencies (CroOffice *self)
{
  for (guint32 i = 0; i < self->offers->len; i++)
    {
      const char *currency = cro_model_offer (self->model, cro_office_slot (self->offers, i))->currency;

      if (currency != NULL && g_strcmp0 (currency, self->model->currency) != 0
          && !g_ptr_array_find_with_equal_func (self->currencies, currency, g_str_equal, NULL))
        g_ptr_array_add (self->currencies, (gpointer) currency);
    }
  g_ptr_array_sort (self->currencies, cro_text_order);
}

void
cro_office_init (CroOffice *self,
                 CroBook   *book)
{
  GArray **lists[] = { &self->ingredients, &self->outputs, &self->batches, &self->plates,
                       &self->menus,       &self->entries, &self->offers };

  *self = (CroOffice){ .book = book };
  self->model = cro_book_get_model (book);
  self->figures = cro_book_get_figures (book);
  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    *lists[i] = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->currencies = g_ptr_array_new ();
  self->number_of_item = g_new0 (guint32, self->model->items->len + 1);
  self->number_of_row = g_new0 (guint32, self->model->recipes->len + 1);
  self->number_of_offer = g_new (guint32, self->model->offers->len + 1);
  memset (self->number_of_offer, 0xff, (self->model->offers->len + 1) * sizeof (guint32));
  number_ingredients (self);
  number_batches (self);
  number_plates (self);
  number_menus (self);
  number_currencies (self);
  cro_office_find_lacks (self);
}

void
cro_office_clear (CroOffice *self)
{
  GArray *lists[] = { self->ingredients, self->outputs, self->batches, self->plates,
                      self->menus,       self->entries, self->offers };

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    g_array_unref (lists[i]);
  g_ptr_array_unref (self->currencies);
  g_free (self->number_of_item);
  g_clear_pointer (&self->number_of_name, g_hash_table_unref);
  g_free (self->number_of_row);
  g_free (self->number_of_offer);
  g_free (self->first_offer);
  g_free (self->first_output);
  g_free (self->first_entry);
  g_free (self->node_lacks);
  g_free (self->row_lacks);
  cro_office_prices_clear (&self->prices);
}
