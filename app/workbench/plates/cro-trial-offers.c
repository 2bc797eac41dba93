#include "config.h"

#include "cro-trial-offers.h"

#include <glib/gi18n.h>

#include "cro-breakdown.h"
#include "cro-edit.h"
#include "cro-hold-words.h"
#include "cro-replace-window.h"
#include "cro-trial-menu.h"

/* Prices and amounts that are offered, of each. */
#define MOST_HOLDS 5

/* What stands behind the rows of a menu. */
static GArray *
begin_rows (CroTrialMenu *menu,
            GArray       *rows)
{
  g_object_set_data_full (G_OBJECT (menu), "rows", rows, (GDestroyNotify) g_array_unref);
  return rows;
}

static GArray *
rows_of (CroTrialMenu *menu)
{
  return g_object_get_data (G_OBJECT (menu), "rows");
}

/* --- The target ------------------------------------------------------------------------------- */

static void
fill_holds (CroTrialMenu *menu,
            gpointer      bench)
{
  CroBook *tried = cro_bench_get_book (bench);
  GArray *holds;

  if (tried == NULL)
    return;
  holds = begin_rows (menu, cro_holds_new (tried, cro_bench_get_ref (bench), MOST_HOLDS));
  for (guint i = 0; i < holds->len; i++)
    {
      const CroHold *hold = &g_array_index (holds, CroHold, i);
      g_autofree char *words = cro_hold_words (tried, hold);

      cro_trial_menu_add (menu, words, hold->answer == CRO_HOLD_OK);
    }
}

static void
hold_chosen (CroTrialMenu *menu,
             guint         row,
             gpointer      bench)
{
  CroBook *tried = cro_bench_get_book (bench);
  const CroHold *hold = &g_array_index (rows_of (menu), CroHold, row);
  g_autofree char *label = cro_hold_dup_label (tried, hold);
  g_autoptr (GError) error = NULL;

  if (!cro_hold_apply (hold, tried, label, &error))
    cro_bench_fail (bench, error);
}

GtkWidget *
cro_hold_menu_new (CroBench *bench)
{
  return cro_trial_menu_new (_("Hold the Target"), _("Nothing costs anything yet."), fill_holds,
                             hold_chosen, bench);
}

/* --- Another in its place --------------------------------------------------------------------- */

static void
add_item (CroTrialMenu *menu,
          CroModel     *model,
          guint32       item)
{
  GArray *items = rows_of (menu);

  for (guint i = 0; i < items->len; i++)
    if (g_array_index (items, guint32, i) == item)
      return;
  g_array_append_val (items, item);
  cro_trial_menu_add (menu, cro_model_item (model, item)->name, TRUE);
}

/* What its lines take, and then what is bought for it, the dearest first. */
static void
fill_items (CroTrialMenu *menu,
            gpointer      bench)
{
  CroBook *tried = cro_bench_get_book (bench);
  CroFigures *figures;
  g_autoptr (GArray) lines = NULL;
  g_autoptr (CroBreakdown) breakdown = NULL;

  if (tried == NULL)
    return;
  begin_rows (menu, g_array_new (FALSE, FALSE, sizeof (guint32)));
  figures = cro_book_get_figures (tried);
  lines = cro_edit_list_lines (figures, cro_bench_get_slot (bench));
  for (guint i = 0; i < lines->len; i++)
    add_item (menu, figures->model, figures->model->lines.item[g_array_index (lines, guint32, i)]);
  breakdown = cro_breakdown_of_plate (figures, cro_bench_get_slot (bench));
  for (guint i = 0; i < breakdown->ingredients->len; i++)
    add_item (menu, figures->model, g_array_index (breakdown->ingredients, CroShareOfCost, i).item);
}

static void
item_chosen (CroTrialMenu *menu,
             guint         row,
             gpointer      bench)
{
  guint32 item = g_array_index (rows_of (menu), guint32, row);

  gtk_window_present (GTK_WINDOW (cro_replace_window_new (bench, CRO_REF (CRO_REF_ITEM, item), NULL)));
}

GtkWidget *
cro_replace_menu_new (CroBench *bench)
{
  return cro_trial_menu_new (_("Replace"), _("No lines yet."), fill_items, item_chosen, bench);
}
