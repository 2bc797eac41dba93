#include "config.h"

#include "cro-all-plates.h"

#include <glib/gi18n.h>

#include "cro-allergens-page.h"
#include "cro-card-page.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-example.h"
#include "cro-here.h"
#include "cro-overview-table.h"
#include "cro-quick-words.h"
#include "cro-quick.h"
#include "cro-refused-words.h"
#include "cro-service-page.h"
#include "cro-words.h"

struct _CroAllPlates
{
  CroOverview parent_instance;
};

G_DEFINE_FINAL_TYPE (CroAllPlates, cro_all_plates, CRO_TYPE_OVERVIEW)

static gboolean
start (CroBook         *book,
       const char      *label,
       const char      *name,
       const CroQuick  *quick,
       guint32         *plate,
       GError         **error)
{
  CroNewLine line = {
    .item = quick->item, .name = quick->name, .base = cro_quick_base (quick),
    .amount = quick->has_amount ? quick->amount : 0, .unit = quick->unit,
    .as_bought = quick->as_bought, .note = quick->note, .has_price = quick->has_price,
    .price = { quick->pack_price, quick->price_unit, cro_words_no_supplier (cro_book_get_model (book)),
               cro_here_today (), quick->pack_size },
  };

  return cro_edit_start (book, label, NULL, name, CRO_MICRO, &line, plate, error);
}

/* A line of a recipe is the first of a new plate; a name alone is the plate's. */
static char *
make (CroOverview *overview,
      const char  *text,
      CroRef      *made)
{
  CroBook *book = cro_bench_get_book (CRO_BENCH (overview));
  CroModel *model = cro_book_get_model (book);
  g_auto (CroQuick) quick = { 0 };
  gboolean is_line;
  g_autofree char *name = NULL, *label = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_quick_read (model, text, cro_words_entry (), &quick))
    return cro_quick_reason (text, &quick);
  is_line = quick.has_amount || quick.has_price;
  name = cro_edit_dup_free_name (model, CRO_NAMES_THINGS, is_line ? _("New plate") : quick.name);
  label = cro_act_dup_addition (name);
  made->kind = CRO_REF_RECIPE;
  if (is_line ? start (book, label, name, &quick, &made->slot, &error)
              : cro_edit_add_plate (book, label, name, CRO_MICRO, &made->slot, &error))
    return NULL;
  return cro_words_failed (error);
}

static int
compare_names (gconstpointer a,
               gconstpointer b,
               gpointer      model)
{
  return g_utf8_collate (cro_ref_name (model, *(const CroRef *) a),
                         cro_ref_name (model, *(const CroRef *) b));
}

static gboolean
is_plate (CroModel *model,
          CroRef    ref)
{
  return ref.kind == CRO_REF_RECIPE && ref.slot != CRO_NO_SLOT && cro_model_recipe (model, ref.slot)->is_plate
         && !cro_model_recipe (model, ref.slot)->is_dead;
}

/* Those that are left in the table of costs, in its order; where nothing narrows it all, by name. */
static GArray *
list_plates (CroBench *bench)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (bench));
  GArray *plates = g_array_new (FALSE, FALSE, sizeof (CroRef));
  g_autoptr (GArray) chosen = cro_overview_table_dup_chosen (bench);

  for (guint i = 0; chosen != NULL && i < chosen->len; i++)
    if (is_plate (model, g_array_index (chosen, CroRef, i)))
      g_array_append_val (plates, g_array_index (chosen, CroRef, i));
  if (chosen != NULL)
    return plates;

  for (guint32 i = 0; i < model->recipes->len; i++)
    {
      CroRef plate = CRO_REF (CRO_REF_RECIPE, i);

      if (is_plate (model, plate))
        g_array_append_val (plates, plate);
    }
  g_array_sort_with_data (plates, compare_names, model);
  return plates;
}

static void
add_views (CroOverview *self)
{
  CroOverviewView allergens = {
    .number = CRO_VIEW_ALLERGENS,
    .title = _("Allergens"),
    .widget = cro_allergens_page_new (CRO_BENCH (self)),
    .set_book = cro_allergens_page_set_book,
    .refresh = cro_allergens_page_refresh,
  };
  CroOverviewView service = {
    .number = CRO_VIEW_SERVICE,
    .title = _("Service"),
    .widget = cro_service_page_new (CRO_BENCH (self)),
    .set_book = cro_service_page_set_book,
    .refresh = cro_service_page_refresh,
  };

  CroOverviewView cards = {
    .number = 4,
    .title = _("Cards"),
    .widget = cro_card_page_new (CRO_BENCH (self), list_plates),
    .refresh = cro_card_page_refresh,
  };

  cro_overview_table_add (self, CRO_RECORDS_PLATES);
  cro_overview_add_view (self, &allergens);
  cro_overview_add_view (self, &service);
  cro_overview_add_view (self, &cards);
}

static void
cro_all_plates_class_init (CroAllPlatesClass *klass)
{
  CRO_OVERVIEW_CLASS (klass)->kind = CRO_KIND_PLATE;
  CRO_OVERVIEW_CLASS (klass)->make = make;
  CRO_OVERVIEW_CLASS (klass)->add_views = add_views;
}

static void
cro_all_plates_init (CroAllPlates *self)
{
  g_autofree char *example = cro_example_dup_line ();

  cro_overview_set_texts (CRO_OVERVIEW (self), _("All plates"), _("No plate yet."),
                          example, _("Add Plate"));
}
