#include "config.h"

#include "cro-trial-offers.h"

#include <glib/gi18n.h>

#include "cro-breakdown.h"
#include "cro-edit.h"
#include "cro-hold-words.h"
#include "cro-menu-ways.h"
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
add_ref (CroTrialMenu *menu,
         CroModel     *model,
         CroRef        ref)
{
  GArray *refs = rows_of (menu);

  for (guint i = 0; i < refs->len; i++)
    if (cro_ref_equal (g_array_index (refs, CroRef, i), ref))
      return;
  g_array_append_val (refs, ref);
  cro_trial_menu_add (menu, cro_ref_name (model, ref), TRUE);
}

/* What its lines take, or which plates stand on it. */
static void
add_parts (CroTrialMenu *menu,
           CroFigures   *figures,
           CroRef        thing)
{
  CroModel *model = figures->model;
  g_autoptr (GPtrArray) plates = NULL;
  g_autoptr (GArray) lines = NULL;

  if (thing.kind == CRO_REF_MENU)
    {
      plates = cro_menu_dup_plates (model, thing.slot);
      for (guint i = 0; i < plates->len; i++)
        add_ref (menu, model, CRO_REF (CRO_REF_RECIPE, ((const CroMenuPlate *) plates->pdata[i])->plate));
      return;
    }
  lines = cro_edit_list_lines (figures, thing.slot);
  for (guint i = 0; i < lines->len; i++)
    add_ref (menu, model, CRO_REF (CRO_REF_ITEM, model->lines.item[g_array_index (lines, guint32, i)]));
}

/* These, and then what is bought for it, the dearest first. */
static void
fill_refs (CroTrialMenu *menu,
           gpointer      bench)
{
  CroBook *tried = cro_bench_get_book (bench);
  CroFigures *figures;
  CroRef thing;
  g_autoptr (CroBreakdown) breakdown = NULL;

  if (tried == NULL)
    return;
  begin_rows (menu, g_array_new (FALSE, FALSE, sizeof (CroRef)));
  figures = cro_book_get_figures (tried);
  thing = cro_bench_get_ref (bench);
  add_parts (menu, figures, thing);
  breakdown = thing.kind == CRO_REF_MENU ? cro_breakdown_of_menu (figures, thing.slot)
                                         : cro_breakdown_of_plate (figures, thing.slot);
  for (guint i = 0; i < breakdown->ingredients->len; i++)
    add_ref (menu, figures->model,
             CRO_REF (CRO_REF_ITEM, g_array_index (breakdown->ingredients, CroShareOfCost, i).item));
}

static void
ref_chosen (CroTrialMenu *menu,
            guint         row,
            gpointer      bench)
{
  CroRef ref = g_array_index (rows_of (menu), CroRef, row);

  gtk_window_present (GTK_WINDOW (cro_replace_window_new (bench, ref, NULL)));
}

GtkWidget *
cro_replace_menu_new (CroBench *bench)
{
  return cro_trial_menu_new (_("Replace"),
                             cro_bench_get_ref (bench).kind == CRO_REF_MENU ? _("No plates yet.")
                                                                            : _("No lines yet."),
                             fill_refs, ref_chosen, bench);
}
