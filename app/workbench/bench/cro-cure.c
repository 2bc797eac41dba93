#include "config.h"

#include "cro-cure.h"

#include "cro-field.h"
#include "cro-focus.h"

/* Where a cause is cured. */
static CroRef
place_of (CroModel       *model,
          const CroCause *cause)
{
  if (cause->kind == CRO_CAUSE_WAGE)
    return CRO_REF (CRO_REF_HOUSE, CRO_NO_SLOT);
  if (cause->kind == CRO_CAUSE_RATE)
    return CRO_REF (CRO_REF_RATES, CRO_NO_SLOT);
  for (guint32 i = 0; i < model->items->len; i++)
    if (cro_model_item (model, i)->name == cause->name && !cro_model_item (model, i)->is_dead)
      return CRO_REF (CRO_REF_ITEM, i);
  for (guint32 i = 0; i < model->recipes->len; i++)
    if (cro_model_recipe (model, i)->name == cause->name && !cro_model_recipe (model, i)->is_dead)
      return CRO_REF (CRO_REF_RECIPE, i);
  return CRO_REF_NOWHERE;
}

void
cro_cure_open (CroBench       *bench,
               const CroCause *cause)
{
  CroRef ref = place_of (cro_book_get_model (cro_bench_get_book (bench)), cause);

  if (ref.kind != CRO_REF_NONE)
    cro_bench_open_cure (bench, ref, (int) cause->kind);
}

gboolean
cro_cure_open_line (CroBench *bench,
                    guint32   line)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (bench));
  CroModel *model = figures->model;
  guint32 item = model->lines.item[line];
  CroLack lack = cro_line_lacks (&model->lines, line, &model->measures[item]);
  g_autoptr (GArray) causes = NULL;

  if (lack != CRO_LACKS_NOTHING)
    {
      cro_bench_open_cure (bench, CRO_REF (CRO_REF_ITEM, item),
                           lack & CRO_LACKS_DENSITY ? CRO_CAUSE_DENSITY : CRO_CAUSE_PIECE);
      return TRUE;
    }
  causes = cro_causes_of_item (figures, item);
  if (causes->len == 0)
    return FALSE;
  /* What is made is opened itself: what is missing further down shows there. */
  if (model->maker[item] >= 0)
    cro_bench_open_cure (bench, CRO_REF (CRO_REF_ITEM, item),
                         (int) g_array_index (causes, CroCause, 0).kind);
  else
    cro_cure_open (bench, &g_array_index (causes, CroCause, 0));
  return TRUE;
}

gboolean
cro_cure_focus (GtkWidget *widget,
                int        cause)
{
  GtkWidget *field = NULL;

  if (cause != CRO_NO_CAUSE)
    field = cro_focus_find (widget, cro_cure_class (cause));
  if (field == NULL)
    field = cro_focus_find (widget, "cure");
  return field != NULL && gtk_widget_grab_focus (field);
}
