/* The item of the book that a name in a quick line means. */
#include "cro-quick-private.h"

#include "cro-fold.h"

/* The one item whose name differs in number alone: "eggs" is "Egg". Two that do are asked about. */
static guint32
find_in_number (CroModel   *model,
                const char *folded)
{
  g_autofree char *one = cro_fold_number (folded);
  guint32 found = CRO_NO_SLOT;

  for (guint32 i = 0; i < model->items->len; i++)
    {
      const char *name = cro_model_item (model, i)->name;
      g_autofree char *other = NULL, *other_one = NULL;

      /* Most begin with another letter, and are not folded. */
      if (cro_model_item (model, i)->is_dead
          || ((guchar) *name < 0x80 && g_ascii_tolower (*name) != *folded))
        continue;
      other = cro_fold (name);
      other_one = cro_fold_number (other);
      if (!g_str_equal (one, other_one))
        continue;
      if (found != CRO_NO_SLOT)
        return CRO_NO_SLOT;
      found = i;
    }
  return found;
}

guint32
cro_quick_find_item (CroModel   *model,
                     const char *name)
{
  CroRef exact = cro_edit_find_name (model, CRO_NAMES_ITEMS, name);
  g_autofree char *folded = cro_fold (name);

  if (exact.kind == CRO_REF_ITEM)
    return exact.slot;
  for (guint32 i = 0; i < model->items->len; i++)
    if (!cro_model_item (model, i)->is_dead && cro_folds_to (cro_model_item (model, i)->name, folded))
      return i;
  return *folded != '\0' ? find_in_number (model, folded) : CRO_NO_SLOT;
}
