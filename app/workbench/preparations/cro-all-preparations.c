#include "config.h"

#include "cro-all-preparations.h"

#include <glib/gi18n.h>

#include "cro-edit.h"
#include "cro-overview-table.h"
#include "cro-quick-words.h"
#include "cro-quick.h"
#include "cro-refused-words.h"
#include "cro-words.h"

struct _CroAllPreparations
{
  CroOverview parent_instance;
};

G_DEFINE_FINAL_TYPE (CroAllPreparations, cro_all_preparations, CRO_TYPE_OVERVIEW)

/* An amount is what the batch gives. */
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

  if (!cro_quick_read (model, text, cro_words_entry (), &quick))
    return cro_quick_reason (text, &quick);
  name = cro_edit_dup_free_name (model, CRO_NAMES_PREPARATIONS, quick.name);
  label = cro_act_dup_addition (name);
  made->kind = CRO_REF_RECIPE;
  if (cro_edit_add_preparation (book, label, name, quick.has_amount ? quick.amount : 0,
                                quick.has_amount ? quick.unit : CRO_UNIT_G, &made->slot, NULL,
                                &error))
    return NULL;
  return cro_words_failed (error);
}

static void
add_views (CroOverview *self)
{
  cro_overview_table_add (self, CRO_RECORDS_PREPARATIONS);
}

static void
cro_all_preparations_class_init (CroAllPreparationsClass *klass)
{
  CRO_OVERVIEW_CLASS (klass)->kind = CRO_KIND_PREPARATION;
  CRO_OVERVIEW_CLASS (klass)->make = make;
  CRO_OVERVIEW_CLASS (klass)->add_views = add_views;
}

static void
cro_all_preparations_init (CroAllPreparations *self)
{
  cro_overview_set_texts (CRO_OVERVIEW (self), _("All preparations"), _("No preparation yet."),
                          /* Translators: an example of a preparation and what its batch gives. */
                          _("450 g crab butter"), _("Add Preparation"));
}
