#include "config.h"

#include "cro-place-rows.h"

#include <gtk/gtk.h>

void
cro_place_rows_init (CroPlaceRows *self)
{
  *self = (CroPlaceRows){ .lists = g_ptr_array_new_with_free_func (g_object_unref) };
}

void
cro_place_rows_clear (CroPlaceRows *self)
{
  if (self->lists != NULL)
    cro_place_rows_set_book (self, NULL);
  g_clear_pointer (&self->lists, g_ptr_array_unref);
}

void
cro_place_rows_set_book (CroPlaceRows *self,
                         CroBook      *book)
{
  g_ptr_array_set_size (self->lists, 0);
  for (int kind = 0; kind < CRO_N_KINDS; kind++)
    g_clear_object (&self->kept[kind]);
  g_set_object (&self->book, book);
}

void
cro_place_rows_set_place (CroPlaceRows *self,
                          CroPlace      place)
{
  const CroPlaceInfo *info = cro_place_get (place);

  g_ptr_array_set_size (self->lists, 0);
  for (int i = 0; self->book != NULL && i < info->n_kinds; i++)
    {
      CroList **kept = &self->kept[info->kinds[i]];

      if (*kept == NULL)
        *kept = cro_list_new (self->book, info->kinds[i]);
      g_ptr_array_add (self->lists, g_object_ref (*kept));
    }
}

GListModel *
cro_place_rows_join (CroPlaceRows *self)
{
  GListStore *store;

  if (self->lists->len == 0)
    return NULL;
  if (self->lists->len == 1)
    return g_object_ref (self->lists->pdata[0]);
  store = g_list_store_new (G_TYPE_LIST_MODEL);
  for (guint i = 0; i < self->lists->len; i++)
    g_list_store_append (store, self->lists->pdata[i]);
  return G_LIST_MODEL (gtk_flatten_list_model_new (G_LIST_MODEL (store)));
}

/* --- Where a row stands --------------------------------------------------------------------------- */

/* Rows of the lists before it; G_MAXUINT: it is none of the place. */
static guint
count_before (CroPlaceRows *self,
              CroList      *list)
{
  guint n = 0;

  for (guint i = 0; i < self->lists->len; i++)
    {
      if (self->lists->pdata[i] == list)
        return n;
      n += g_list_model_get_n_items (self->lists->pdata[i]);
    }
  return G_MAXUINT;
}

guint
cro_place_rows_find (CroPlaceRows *self,
                     CroKind       kind,
                     guint32       slot)
{
  CroList *list = kind < CRO_N_KINDS ? self->kept[kind] : NULL;
  guint before = list != NULL ? count_before (self, list) : G_MAXUINT, at;

  return before != G_MAXUINT && cro_list_find (list, slot, &at) ? before + at : GTK_INVALID_LIST_POSITION;
}

guint
cro_place_rows_find_heading (CroPlaceRows *self,
                             CroRow       *row)
{
  CroList *list = self->kept[cro_row_get_kind (row)];
  guint at;

  return cro_list_find_heading (list, cro_row_get_slot (row), &at) ? count_before (self, list) + at
                                                                   : GTK_INVALID_LIST_POSITION;
}

/* --- What is shown of them ------------------------------------------------------------------------ */

void
cro_place_rows_fold (CroPlaceRows *self,
                     CroRow       *heading,
                     gboolean      is_folded)
{
  cro_list_fold (self->kept[cro_row_get_kind (heading)], cro_row_get_slot (heading), is_folded);
}

void
cro_place_rows_reveal (CroPlaceRows *self,
                       CroKind       kind,
                       guint32       slot)
{
  if (kind < CRO_N_KINDS && self->kept[kind] != NULL)
    cro_list_reveal (self->kept[kind], slot);
}

void
cro_place_rows_set_search (CroPlaceRows *self,
                           const char   *text)
{
  for (guint i = 0; i < self->lists->len; i++)
    cro_list_set_search (self->lists->pdata[i], text);
}

void
cro_place_rows_set_filter (CroPlaceRows  *self,
                           CroListFilter  filter)
{
  for (guint i = 0; i < self->lists->len; i++)
    cro_list_set_filter (self->lists->pdata[i], filter);
}

void
cro_place_rows_set_groups (CroPlaceRows  *self,
                           CroListGroups  groups)
{
  for (guint i = 0; i < self->lists->len; i++)
    cro_list_set_groups (self->lists->pdata[i], groups);
}

void
cro_place_rows_tell (CroPlaceRows *self)
{
  for (guint i = 0; i < self->lists->len; i++)
    cro_list_tell (self->lists->pdata[i]);
}
