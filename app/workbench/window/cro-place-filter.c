#include "config.h"

#include "cro-place-filter.h"

#include <glib/gi18n.h>

#include "cro-drop-down.h"

/* In the order of their words. */
static const CroListFilter of_ingredients[]
    = { CRO_LIST_ALL, CRO_LIST_INCOMPLETE, CRO_LIST_OLD_PRICE, CRO_LIST_UNUSED };
static const CroListFilter of_plates[] = { CRO_LIST_ALL, CRO_LIST_OVER_TARGET, CRO_LIST_INCOMPLETE };

CroListFilter
cro_place_filter_get (GtkWidget *filter,
                      CroPlace   place)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (filter));

  if (place == CRO_PLACE_PLATES)
    return at < G_N_ELEMENTS (of_plates) ? of_plates[at] : CRO_LIST_ALL;
  return at < G_N_ELEMENTS (of_ingredients) ? of_ingredients[at] : CRO_LIST_ALL;
}

void
cro_place_filter_set_place (GtkWidget *filter,
                            CroPlace   place,
                            CroBook   *book)
{
  g_autofree char *old = g_strdup_printf (ngettext ("Price older than %u day",
                                                    "Price older than %u days",
                                                    CRO_LIST_OLD_DAYS),
                                          (guint) CRO_LIST_OLD_DAYS);
  const char *ingredient_words[] = { _("All"), _("Without a price"), old, _("Unused"), NULL };
  const char *plate_words[] = { _("All"), _("Only over target"), _("Only incomplete"), NULL };
  g_autoptr (GtkStringList) words = NULL;

  if (book != NULL && cro_book_get_model (book)->speaks != CRO_SPEAKS_FOOD_COST)
    plate_words[1] = _("Only below target");
  words = gtk_string_list_new (place == CRO_PLACE_PLATES ? plate_words : ingredient_words);
  gtk_drop_down_set_model (GTK_DROP_DOWN (filter), G_LIST_MODEL (words));
}

GtkWidget *
cro_place_filter_new (void)
{
  GtkWidget *filter = cro_drop_down_new_model (NULL, _("Filter"));

  gtk_widget_set_margin_start (filter, 6);
  gtk_widget_set_margin_end (filter, 6);
  return filter;
}
