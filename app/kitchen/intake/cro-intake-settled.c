/* What the names of a sheet are: what the book has under them, or how they were settled before. */
#include "cro-intake-private.h"

#include "cro-code.h"
#include "cro-column.h"
#include "cro-fold.h"
#include "cro-total.h"

typedef struct
{
  CroIntakeState state;
  CroRef thing;
} Settled;

static Settled
settled_as (CroModel   *model,
            const char *kind,
            const char *sold_as)
{
  Settled settled = { CRO_INTAKE_UNSETTLED, CRO_REF_NOWHERE };

  if (g_strcmp0 (kind, cro_till_kind_codes[CRO_TILL_KIND_OTHER]) == 0)
    settled.state = CRO_INTAKE_OTHER;
  else if (g_strcmp0 (kind, cro_till_kind_codes[CRO_TILL_KIND_NONE]) == 0)
    settled.state = CRO_INTAKE_LEFT_OUT;
  else if (sold_as != NULL)
    {
      settled.thing = cro_edit_find_name (model, CRO_NAMES_THINGS, sold_as);
      /* What bore that name is gone: it is asked again. */
      if (settled.thing.kind != CRO_REF_NONE)
        settled.state = CRO_INTAKE_THING;
    }
  return settled;
}

static gboolean
take_remembered (CroRows *rows,
                 gpointer user_data,
                 GError **error)
{
  CroIntakeReading *self = user_data;
  Settled settled
      = settled_as (self->model, cro_rows_get_text (rows, 1), cro_rows_get_text (rows, 2));

  g_hash_table_insert (self->remembered, g_strdup (cro_rows_get_text (rows, 0)),
                       g_memdup2 (&settled, sizeof settled));
  return TRUE;
}

/* Two of one folded name are told apart by nobody here: they are asked. Takes folded. */
static void
add_folded (GHashTable *things,
            char       *folded,
            CroRef      thing)
{
  Settled settled = { CRO_INTAKE_THING, thing };
  Settled *known = g_hash_table_lookup (things, folded);

  if (known == NULL)
    {
      g_hash_table_insert (things, folded, g_memdup2 (&settled, sizeof settled));
      return;
    }
  if (!cro_ref_equal (known->thing, thing))
    known->state = CRO_INTAKE_UNSETTLED;
  g_free (folded);
}

static void
add_thing (CroIntakeReading *self,
           const char       *name,
           CroRef            thing)
{
  add_folded (self->things, cro_fold (name), thing);
}

static void
add_sold (CroIntakeReading *self)
{
  for (guint32 i = 0; i < self->model->recipes->len; i++)
    {
      const CroRecipe *recipe = cro_model_recipe (self->model, i);

      if (!recipe->is_dead && recipe->is_plate)
        add_thing (self, recipe->name, CRO_REF (CRO_REF_RECIPE, i));
    }
  for (guint32 i = 0; i < self->model->menus->len; i++)
    if (!cro_model_menu (self->model, i)->is_dead)
      add_thing (self, cro_model_menu (self->model, i)->name, CRO_REF (CRO_REF_MENU, i));
}

/* In one number for all: no folded name begins with a space. */
static char *
dup_in_number (const char *folded)
{
  g_autofree char *one = cro_fold_number (folded);

  return g_strconcat (" ", one, NULL);
}

/* What is made is billed by nobody. */
static void
add_items (CroIntakeReading *self,
           GHashTable       *things,
           gboolean          with_made)
{
  for (guint32 i = 0; i < self->model->items->len; i++)
    {
      const CroItem *item = cro_model_item (self->model, i);
      gboolean is_meant = !item->is_dead && (with_made || self->model->maker[i] < 0);
      g_autofree char *folded = is_meant ? cro_fold (item->name) : NULL;

      if (folded == NULL)
        continue;
      add_folded (things, dup_in_number (folded), CRO_REF (CRO_REF_ITEM, i));
      add_folded (things, g_steal_pointer (&folded), CRO_REF (CRO_REF_ITEM, i));
    }
}

static void
add_suppliers (CroIntakeReading *self)
{
  for (guint32 i = 0; i < self->model->suppliers->len; i++)
    {
      const CroSupplier *supplier = &g_array_index (self->model->suppliers, CroSupplier, i);

      if (!supplier->is_dead)
        add_thing (self, supplier->name, CRO_REF (CRO_REF_SUPPLIER, i));
    }
}

gboolean
cro_intake_names_begin (CroIntakeReading *self,
                        CroBook          *book,
                        GError          **error)
{
  static const char *const columns[] = { "name", "kind", "sold_as", NULL };

  self->remembered = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->things = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->items = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->names = g_hash_table_new (g_str_hash, g_str_equal);
  if (self->intake->kind == CRO_INTAKE_DOCUMENTS)
    {
      add_suppliers (self);
      add_items (self, self->items, FALSE);
    }
  else if (self->intake->kind == CRO_INTAKE_SALES)
    add_sold (self);
  else
    add_items (self, self->things, TRUE);
  return self->intake->kind != CRO_INTAKE_SALES
         || cro_store_read_each (cro_book_get_store (book), "till_name", columns, take_remembered,
                                 self, error);
}

void
cro_intake_names_end (CroIntakeReading *self)
{
  g_clear_pointer (&self->remembered, g_hash_table_unref);
  g_clear_pointer (&self->things, g_hash_table_unref);
  g_clear_pointer (&self->items, g_hash_table_unref);
  g_clear_pointer (&self->names, g_hash_table_unref);
}

static const Settled *
find_folded (GHashTable *things,
             const char *folded)
{
  g_autofree char *in_number = dup_in_number (folded);
  const Settled *known = g_hash_table_lookup (things, folded);

  return known != NULL ? known : g_hash_table_lookup (things, in_number);
}

guint32
cro_intake_item_at (CroIntakeReading *self,
                    const char       *name)
{
  g_autofree char *folded = cro_fold (name);
  const Settled *known = find_folded (self->items, folded);

  return known != NULL && known->state == CRO_INTAKE_THING ? known->thing.slot : CRO_NO_SLOT;
}

static Settled
settle (CroIntakeReading *self,
        const char       *name)
{
  const Settled *known = g_hash_table_lookup (self->remembered, name);
  g_autofree char *folded = NULL;

  if (known != NULL && known->state != CRO_INTAKE_UNSETTLED)
    return *known;
  folded = cro_fold (name);
  known = find_folded (self->things, folded);
  if (known != NULL)
    return *known;
  return (Settled){ cro_says_total (folded) ? CRO_INTAKE_LEFT_OUT : CRO_INTAKE_UNSETTLED,
                    CRO_REF_NOWHERE };
}

guint
cro_intake_name_at (CroIntakeReading *self,
                    const char       *text)
{
  guint found = GPOINTER_TO_UINT (g_hash_table_lookup (self->names, text));
  CroIntakeName name = { .revenue = CRO_NOT_SET };
  Settled settled;

  if (found != 0)
    return found - 1;
  settled = settle (self, text);
  name.name = g_string_chunk_insert (self->intake->texts, text);
  name.state = settled.state;
  name.thing = settled.thing;
  g_array_append_val (self->intake->names, name);
  g_hash_table_insert (self->names, (gpointer) name.name,
                       GUINT_TO_POINTER (self->intake->names->len));
  return self->intake->names->len - 1;
}
