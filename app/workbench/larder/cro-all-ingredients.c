#include "config.h"

#include "cro-all-ingredients.h"

#include <glib/gi18n.h>

#include "cro-allergen-answers.h"
#include "cro-edit.h"
#include "cro-here.h"
#include "cro-overview-table.h"
#include "cro-quick-words.h"
#include "cro-quick.h"
#include "cro-refused-words.h"
#include "cro-words.h"

struct _CroAllIngredients
{
  CroOverview parent_instance;
};

G_DEFINE_FINAL_TYPE (CroAllIngredients, cro_all_ingredients, CRO_TYPE_OVERVIEW)

static char *
make (CroOverview *overview,
      const char  *text,
      CroRef      *made)
{
  CroBook *book = cro_bench_get_book (CRO_BENCH (overview));
  CroModel *model = cro_book_get_model (book);
  g_auto (CroQuick) quick = { 0 };
  g_autofree char *name = NULL, *label = NULL;
  g_autoptr (GError) error = NULL;
  CroUnitPrice price;

  if (!cro_quick_read (model, text, cro_words_entry (), &quick))
    return cro_quick_reason (text, &quick);
  price = (CroUnitPrice){ quick.pack_price, quick.price_unit, cro_words_no_supplier (model), cro_here_today (),
                          quick.pack_size };
  name = cro_edit_dup_free_name (model, CRO_NAMES_ITEMS, quick.name);
  label = cro_act_dup_addition (name);
  made->kind = CRO_REF_ITEM;
  if (cro_edit_add_ingredient (book, label, name,
                               quick.has_amount || quick.has_price ? cro_quick_base (&quick)
                                                                   : CRO_BASE_GRAM,
                               quick.has_price ? &price : NULL, &made->slot, &error))
    return NULL;
  return cro_words_failed (error);
}

static void
add_views (CroOverview *self)
{
  CroOverviewView allergens = {
    .number = CRO_VIEW_ALLERGENS,
    .title = _("Allergens"),
    .widget = cro_allergen_answers_new (CRO_BENCH (self)),
    .set_book = cro_allergen_answers_set_book,
    .refresh = cro_allergen_answers_refresh,
  };

  cro_overview_table_add (self, CRO_RECORDS_INGREDIENTS);
  cro_overview_add_view (self, &allergens);
}

static void
cro_all_ingredients_class_init (CroAllIngredientsClass *klass)
{
  CRO_OVERVIEW_CLASS (klass)->kind = CRO_KIND_INGREDIENT;
  CRO_OVERVIEW_CLASS (klass)->make = make;
  CRO_OVERVIEW_CLASS (klass)->add_views = add_views;
}

static void
cro_all_ingredients_init (CroAllIngredients *self)
{
  cro_overview_set_texts (CRO_OVERVIEW (self), _("All ingredients"), _("No ingredient yet."),
                          /* Translators: an example of an ingredient and its price. */
                          _("butter 9.20/kg"), _("Add Ingredient"));
}
