#include "config.h"

#include "cro-records-private.h"

#include "cro-below.h"
#include "cro-kind.h"

struct _CroRecordsSieve
{
  CroFigures       *figures;
  CroRecordsFilter  filter;
  GHashTable       *carried;    /* slots of the plates of the menu; NULL: all pass */
  CroBelow         *course;     /* what its plates take; NULL: likewise */
};

static GHashTable *
plates_of (CroModel *model,
           guint32   menu)
{
  GHashTable *plates = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && entry->menu == menu)
        g_hash_table_add (plates, GUINT_TO_POINTER (entry->plate));
    }
  return plates;
}

CroRecordsSieve *
cro_records_sieve_new (CroBook                *book,
                       const CroRecordsFilter *filter)
{
  CroRecordsSieve *self = g_new0 (CroRecordsSieve, 1);

  self->figures = cro_book_get_figures (book);
  self->filter = *filter;
  if (filter->menu != CRO_NO_SLOT)
    self->carried = plates_of (self->figures->model, filter->menu);
  if (filter->course != NULL)
    self->course = cro_below_course (self->figures, filter->course);
  return self;
}

void
cro_records_sieve_free (CroRecordsSieve *self)
{
  g_clear_pointer (&self->carried, g_hash_table_unref);
  g_clear_pointer (&self->course, cro_below_free);
  g_free (self);
}

static gboolean
is_sold_by (CroRecordsSieve *self,
            guint32          item)
{
  CroModel *model = self->figures->model;
  const CroItem *of = cro_model_item (model, item);

  for (guint32 i = 0; i < of->n_offers; i++)
    {
      guint32 offer = g_array_index (model->offer_order, guint32, of->first_offer + i);

      if (cro_model_offer (model, offer)->supplier == self->filter.supplier)
        return TRUE;
    }
  return FALSE;
}

static gboolean
item_passes (CroRecordsSieve *self,
             guint32          item)
{
  const CroRecordsFilter *filter = &self->filter;
  gint32 allergens = cro_model_item (self->figures->model, item)->allergens;

  return (filter->supplier == CRO_NO_SLOT || is_sold_by (self, item))
         && (filter->older_than == 0 || cro_kind_is_price_old (self->figures, item, filter->older_than))
         && (filter->allergens == 0 || (allergens > 0 && ((guint) allergens & filter->allergens)))
         && (self->course == NULL || cro_below_has_item (self->course, item));
}

gboolean
cro_records_sieve_passes (CroRecordsSieve    *self,
                          const CroRecordRow *row)
{
  guint32 slot = row->ref.slot;

  if ((row->marks & self->filter.marks) != self->filter.marks)
    return FALSE;
  if (row->ref.kind == CRO_REF_MENU)
    return (self->carried == NULL || slot == self->filter.menu) && self->course == NULL;
  if (row->ref.kind == CRO_REF_RECIPE)
    return (self->carried == NULL || g_hash_table_contains (self->carried, GUINT_TO_POINTER (slot)))
           && (self->course == NULL || cro_below_has_recipe (self->course, slot));
  if (row->ref.kind == CRO_REF_OFFER)
    return self->filter.supplier == CRO_NO_SLOT
           || cro_model_offer (self->figures->model, slot)->supplier == self->filter.supplier;
  return row->ref.kind != CRO_REF_ITEM || item_passes (self, slot);
}
