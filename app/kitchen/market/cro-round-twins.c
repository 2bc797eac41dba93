/* Rows of one pack, of which one price holds. */
#include "cro-round-private.h"

#include "cro-fold.h"

#include <string.h>

/* The supplier's pack, or the same new one of one name. */
static gboolean
are_twins (const CroListRow *a,
           const CroListRow *b)
{
  g_autofree char *one = NULL, *other = NULL;

  if (a->offer != CRO_NO_SLOT || b->offer != CRO_NO_SLOT)
    return a->offer == b->offer;
  if (a->item != b->item || a->name == NULL || b->name == NULL || a->pack.size == 0
      || !cro_list_is_pack (&a->pack, &b->pack))
    return FALSE;
  one = cro_fold (a->name);
  other = cro_fold (b->name);
  return strcmp (one, other) == 0;
}

static gboolean
is_twin (const CroRoundRow *row,
         const CroRoundRow *other)
{
  return other != row && other->kind != CRO_ROUND_EMPTY && other->kind != CRO_ROUND_UNREAD
         && are_twins (&row->list, &other->list);
}

/* What twins have in common; NULL: it can have none. */
static char *
dup_twin_key (const CroListRow *list)
{
  g_autofree char *folded = list->offer == CRO_NO_SLOT && list->name != NULL ? cro_fold (list->name) : NULL;

  if (list->offer != CRO_NO_SLOT)
    return g_strdup_printf ("%u", list->offer);
  return folded != NULL ? g_strdup_printf ("%u %s", list->item, folded) : NULL;
}

static CroRoundRow *
find_noted_twin (CroRound          *self,
                 const CroRoundRow *row)
{
  g_autofree char *key = dup_twin_key (&row->list);
  GPtrArray *noted = key != NULL ? g_hash_table_lookup (self->twins, key) : NULL;

  for (guint i = 0; noted != NULL && i < noted->len; i++)
    if (is_twin (row, noted->pdata[i]))
      return noted->pdata[i];
  return NULL;
}

void
cro_round_note_twin (CroRound    *self,
                     CroRoundRow *row)
{
  g_autofree char *key = dup_twin_key (&row->list);
  GPtrArray *noted = key != NULL ? g_hash_table_lookup (self->twins, key) : NULL;

  if (key != NULL && noted == NULL)
    {
      noted = g_ptr_array_new ();
      g_hash_table_insert (self->twins, g_steal_pointer (&key), noted);
    }
  if (noted != NULL && !g_ptr_array_find (noted, row, NULL))
    g_ptr_array_add (noted, row);
}

void
cro_round_begin_many (CroRound *self)
{
  self->twins = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_ptr_array_unref);
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroRoundRow *row = self->rows->pdata[i];

      if (row->kind != CRO_ROUND_EMPTY && row->kind != CRO_ROUND_UNREAD)
        cro_round_note_twin (self, row);
    }
}

void
cro_round_end_many (CroRound *self)
{
  g_clear_pointer (&self->twins, g_hash_table_unref);
  cro_round_settle (self);
}

void
cro_round_forget_twin (CroRound          *self,
                       const CroRoundRow *row)
{
  g_autofree char *key = self->twins != NULL ? dup_twin_key (&row->list) : NULL;
  GPtrArray *noted = key != NULL ? g_hash_table_lookup (self->twins, key) : NULL;

  if (noted != NULL)
    g_ptr_array_remove (noted, (gpointer) row);
}

CroRoundRow *
cro_round_find_twin (CroRound          *self,
                     const CroRoundRow *row)
{
  if (self->twins != NULL)
    return find_noted_twin (self, row);
  for (guint i = 0; i < self->rows->len; i++)
    if (is_twin (row, self->rows->pdata[i]))
      return self->rows->pdata[i];
  return NULL;
}

gboolean
cro_round_are_twins (const CroRoundRow *row,
                     const CroRoundRow *other)
{
  return is_twin (row, other) || is_twin (other, row);
}

gboolean
cro_round_has_rival (CroRound          *self,
                     const CroRoundRow *row)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroRoundRow *other = self->rows->pdata[i];

      if (other != row && other->kind != CRO_ROUND_EMPTY && are_twins (&row->list, &other->list))
        return TRUE;
    }
  return FALSE;
}

void
cro_round_ask_twice (CroRound    *self,
                     CroRoundRow *row,
                     const char  *number)
{
  cro_list_row_say (self->list, &row->list, CRO_LIST_TWICE, number, NULL);
  row->list.state = CRO_LIST_DOUBTFUL;
  row->list.is_posted = FALSE;
}

void
cro_round_check_twin (CroRound    *self,
                      CroRoundRow *row)
{
  const CroListRow *list = &row->list;
  CroRoundRow *twin = cro_round_find_twin (self, row);

  if (twin == NULL || !(list->has_price || list->is_none) || list->is_chosen
      || cro_round_row_get_day (self, twin) != cro_round_row_get_day (self, row)
      || cro_list_rows_say_same (list, &twin->list))
    return;
  cro_round_ask_twice (self, row, NULL);
  /* A list that says two prices says neither. */
  if (row->is_taken && !twin->is_billed && !twin->list.is_chosen && !cro_round_row_is_twice (twin))
    {
      cro_round_undraft (self, twin);
      cro_round_ask_twice (self, twin, NULL);
      cro_round_settle (self);
    }
}
