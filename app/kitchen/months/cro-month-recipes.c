#include "cro-month-recipes.h"

#include <string.h>

struct _CroMonthRecipes
{
  CroBook    *book;
  GHashTable *stands;     /* day → CroBook */
};

CroMonthRecipes *
cro_month_recipes_new (CroBook *book)
{
  CroMonthRecipes *self = g_new0 (CroMonthRecipes, 1);

  self->book = book;
  self->stands = g_hash_table_new_full (NULL, NULL, NULL, g_object_unref);
  return self;
}

void
cro_month_recipes_free (CroMonthRecipes *self)
{
  g_hash_table_unref (self->stands);
  g_free (self);
}

/* A book begins with its first act: before it there were no recipes. */
static gboolean
first_day (CroMonthRecipes  *self,
           CroDate          *day,
           GError          **error)
{
  g_autoptr (GError) failed = NULL;
  g_autofree char *text = cro_store_dup_first_day (cro_book_get_store (self->book), &failed);
  CroDate first;

  if (failed != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&failed));
      return FALSE;
    }
  if (text != NULL && cro_date_parse (text, strlen (text), &first))
    *day = MAX (*day, first);
  return TRUE;
}

CroBook *
cro_month_recipes_of (CroMonthRecipes  *self,
                      CroDate           day,
                      CroDate          *stood,
                      GError          **error)
{
  CroBook *book;

  if (!first_day (self, &day, error))
    return NULL;
  if (stood != NULL)
    *stood = day;
  book = g_hash_table_lookup (self->stands, GINT_TO_POINTER (day));
  if (book != NULL)
    return book;
  book = cro_book_open_recipes (self->book, day, day, error);
  if (book != NULL)
    g_hash_table_insert (self->stands, GINT_TO_POINTER (day), book);
  return book;
}

/* Where a thing stands in a book. */
static CroRef
thing_in (CroBook *book,
          gint64   thing)
{
  CroModel *model = cro_book_get_model (book);
  guint32 slot = cro_slots_get (&model->plate_slots, thing);

  if (slot != CRO_NO_SLOT && !cro_model_recipe (model, slot)->is_dead)
    return CRO_REF (CRO_REF_RECIPE, slot);
  slot = cro_slots_get (&model->menu_slots, thing);
  if (slot != CRO_NO_SLOT && !cro_model_menu (model, slot)->is_dead)
    return CRO_REF (CRO_REF_MENU, slot);
  return CRO_REF_NOWHERE;
}

static gboolean
has_lines (CroBook *book,
           CroRef   ref)
{
  CroModel *model = cro_book_get_model (book);
  CroFigures *figures = cro_book_get_figures (book);

  if (ref.kind == CRO_REF_RECIPE)
    {
      guint32 row = cro_figures_row (figures, ref.slot);

      return figures->graph.first[row] < figures->graph.first[row + 1];
    }
  for (guint i = 0; ref.kind == CRO_REF_MENU && i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && entry->menu == ref.slot)
        return TRUE;
    }
  return FALSE;
}

CroBook *
cro_month_recipes_find (CroMonthRecipes  *self,
                        CroDate           day,
                        gint64            thing,
                        CroDate          *stood,
                        CroRef           *ref,
                        GError          **error)
{
  CroBook *book = cro_month_recipes_of (self, day, stood, error);
  char text[CRO_DATE_CHARS];
  g_autofree char *later = NULL;
  g_autoptr (GError) failed = NULL;
  CroDate after;

  if (book == NULL)
    return NULL;
  *ref = thing_in (book, thing);
  if (has_lines (book, *ref))
    return book;
  cro_date_format (*stood, text);
  later = cro_store_dup_day_of_lines (cro_book_get_store (self->book), thing, text, &failed);
  if (failed != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&failed));
      return NULL;
    }
  if (later == NULL || !cro_date_parse (later, strlen (later), &after))
    {
      if (ref->kind != CRO_REF_NONE)
        return book;
      after = MAX (*stood, cro_book_get_figures (self->book)->date);
    }
  book = cro_month_recipes_of (self, after, stood, error);
  if (book != NULL)
    *ref = thing_in (book, thing);
  return book;
}
