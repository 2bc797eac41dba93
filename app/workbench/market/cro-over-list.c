#include "config.h"

#include "cro-over-list.h"

#include <glib/gi18n.h>

#include "cro-kind.h"
#include "cro-last-look.h"
#include "cro-link-list.h"
#include "cro-number.h"
#include "cro-result-words.h"

/* Rows; the rest is a page away. */
#define MOST 6

struct _CroOverList
{
  GtkWidget    parent_instance;

  GtkWidget   *list;
  CroBench    *bench;   /* borrowed */
  CroLastLook *look;
};

G_DEFINE_FINAL_TYPE (CroOverList, cro_over_list, GTK_TYPE_WIDGET)

static CroFigures *
figures_of (CroOverList *self)
{
  return cro_book_get_figures (cro_bench_get_book (self->bench));
}

static gint64
id_of (CroModel *model,
       CroKind   kind,
       guint32   slot)
{
  return kind == CRO_KIND_MENU ? cro_model_menu (model, slot)->id : cro_model_recipe (model, slot)->id;
}

/* "30.2 %, was 29.6 %, target 30.0 %". Owned. */
static char *
dup_over (CroModel        *model,
          const CroFigure *figure,
          const char      *before)
{
  g_autofree char *now = cro_words_result (model, figure), *target = cro_words_target (model, figure);

  if (before == NULL)
    /* Translators: a plate's food cost % (or as the house has it) and its target. */
    return g_strdup_printf (_("%s, target %s"), now, target);
  /* Translators: a plate's food cost % (or as the house has it) when somebody last looked, now, and its
   * target. */
  return g_strdup_printf (_("%s → %s, target %s"), before, now, target);
}

/* Those that went over since; all that are where nobody looked before. Returns how many others are. */
static guint
add_over (CroOverList *self,
          CroKind         kind,
          gboolean        has_look,
          guint          *n)
{
  CroFigures *figures = figures_of (self);
  guint n_others = 0;

  for (guint32 slot = 0; slot < cro_kind_n_slots (figures->model, kind); slot++)
    {
      gboolean was_over = FALSE;
      const char *name = cro_kind_name (figures->model, kind, slot), *before;
      g_autofree char *words = NULL;
      CroFigure figure;

      if (name == NULL || !cro_kind_is_over_target (figures, kind, slot))
        continue;
      before = has_look ? cro_last_look_get (self->look, id_of (figures->model, kind, slot), &was_over) : NULL;
      if (was_over || *n == MOST)
        {
          n_others++;
          continue;
        }
      figure = kind == CRO_KIND_MENU ? cro_figure_of_menu (figures, slot) : cro_figure_of_plate (figures, slot);
      words = dup_over (figures->model, &figure, before);
      cro_link_list_add (CRO_LINK_LIST (self->list),
                         CRO_REF (kind == CRO_KIND_MENU ? CRO_REF_MENU : CRO_REF_RECIPE, slot), CRO_NO_CAUSE, name,
                         words);
      (*n)++;
    }
  return n_others;
}

static guint
count_incomplete (CroFigures *figures,
                  CroKind     kind)
{
  guint n = 0;

  for (guint32 slot = 0; slot < cro_kind_n_slots (figures->model, kind); slot++)
    n += cro_kind_name (figures->model, kind, slot) != NULL && cro_kind_is_incomplete (figures, kind, slot);
  return n;
}

/* Where none is over: of what lacks something nobody knows. Owned. */
static char *
dup_none (CroFigures *figures)
{
  guint n = count_incomplete (figures, CRO_KIND_PLATE) + count_incomplete (figures, CRO_KIND_MENU);

  if (n == 0)
    return g_strdup (_("All plates and menus are within their targets."));
  /* Translators: how many plates and menus have a food cost that is not all known. */
  return g_strdup_printf (ngettext ("No plate or menu is known to miss its target; %u is incomplete.",
                                    "No plate or menu is known to miss its target; %u are incomplete.", n),
                          n);
}

void
cro_over_list_refresh (CroOverList *self)
{
  g_autofree char *none = dup_none (figures_of (self));
  CroDate day = cro_last_look_get_day (self->look);
  gboolean is_cost = figures_of (self)->model->speaks == CRO_SPEAKS_FOOD_COST;
  g_autofree char *since = day != CRO_NO_DAY ? cro_date_to_text (day) : NULL;
  g_autofree char *title = since == NULL
                               ? g_strdup (is_cost ? _("Over target") : _("Below target"))
                               : g_strdup_printf (is_cost ? _("Over target since you last looked, %s")
                                                          : _("Below target since you last looked, %s"),
                                                  since);
  g_autofree char *more = NULL;
  guint n = 0, n_others;

  cro_link_list_begin (CRO_LINK_LIST (self->list), title,
                       since == NULL ? none : _("Nothing new."));
  n_others = add_over (self, CRO_KIND_PLATE, since != NULL, &n);
  n_others += add_over (self, CRO_KIND_MENU, since != NULL, &n);
  if (n_others > 0)
    /* Translators: plates and menus. */
    more = g_strdup_printf (since != NULL ? ngettext ("%u other was so before.", "%u others were so before.",
                                                      n_others)
                                          : ngettext ("%u other: see All plates.", "%u others: see All plates.",
                                                      n_others),
                            n_others);
  cro_link_list_end (CRO_LINK_LIST (self->list), more);
}

static void
looked_cb (GtkWidget *widget)
{
  CroOverList *self = CRO_OVER_LIST (widget);

  if (cro_bench_get_book (self->bench) != NULL)
    cro_over_list_refresh (self);
}

void
cro_over_list_look (CroOverList *self)
{
  cro_last_look_at (self->look, cro_bench_get_book (self->bench));
}

/* --- The widget -------------------------------------------------------------------------------------------- */

static void
cro_over_list_dispose (GObject *object)
{
  CroOverList *self = CRO_OVER_LIST (object);

  g_clear_pointer (&self->look, cro_last_look_free);
  g_clear_pointer (&self->list, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_over_list_parent_class)->dispose (object);
}

static void
cro_over_list_class_init (CroOverListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_over_list_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_over_list_init (CroOverList *self)
{
  self->look = cro_last_look_new (GTK_WIDGET (self), G_CALLBACK (looked_cb));
}

GtkWidget *
cro_over_list_new (CroBench *bench)
{
  CroOverList *self = g_object_new (CRO_TYPE_OVER_LIST, NULL);

  self->bench = bench;
  self->list = cro_link_list_new (bench);
  gtk_widget_set_parent (self->list, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
