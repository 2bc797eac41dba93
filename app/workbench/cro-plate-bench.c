#include "config.h"

#include "cro-plate-bench.h"

#include <glib/gi18n.h>

#include "cro-bench-actions.h"
#include "cro-breakdown.h"
#include "cro-causes-view.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-figure-view.h"
#include "cro-lines-view.h"
#include "cro-scale-button.h"
#include "cro-served-figures.h"
#include "cro-sum.h"
#include "cro-words.h"
#include "cro-wrap.h"

enum
{
  GUEST,
  PCT,
  PRIME,
  N_FIGURES,
};

struct _CroPlateBench
{
  CroBench   parent_instance;

  GtkWidget *scroller;
  GtkWidget *figures[N_FIGURES];
  GtkWidget *causes;
  GtkWidget *name;
  GtkWidget *course;
  GtkWidget *makes;
  GtkWidget *per_guest;
  GtkWidget *allowance;
  GtkWidget *minutes;
  GtkWidget *price;
  GtkWidget *tax;
  GtkWidget *target;
  GtkWidget *note;
  GtkWidget *menus;
  GtkWidget *lines;
  GtkWidget *allergens;
};

G_DEFINE_FINAL_TYPE (CroPlateBench, cro_plate_bench, CRO_TYPE_BENCH)

/* --- Sums ------------------------------------------------------------------------------------- */

static GPtrArray *
sum_of_guest (CroBench *bench)
{
  return cro_sum_of_guest (cro_book_get_figures (cro_bench_get_book (bench)),
                           cro_bench_get_slot (bench), cro_sum_words ());
}

static GPtrArray *
sum_of_pct (CroBench *bench)
{
  return cro_sum_of_pct (cro_book_get_figures (cro_bench_get_book (bench)),
                         cro_bench_get_ref (bench), cro_sum_words ());
}

static GPtrArray *
sum_of_prime_cost (CroBench *bench)
{
  return cro_sum_of_prime_cost (cro_book_get_figures (cro_bench_get_book (bench)),
                                cro_bench_get_ref (bench), cro_sum_words ());
}

/* --- Figures ---------------------------------------------------------------------------------- */

/* Of a plate given with menus: how much of each it takes. */
static void
show_menus (CroPlateBench   *self,
            CroFigures      *figures,
            const CroFigure *figure)
{
  CroModel *model = figures->model;
  guint32 plate = cro_bench_get_slot (CRO_BENCH (self));
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);
      CroPartOfMenu part;
      g_autofree char *pct = NULL, *of_price = NULL, *target = NULL;

      if (entry->is_dead || entry->plate != plate)
        continue;
      part = cro_part_of_menu (figures, entry, figure);
      pct = cro_words_pct (part.menu.food_cost_pct);
      target = cro_words_pct (part.menu.target_pct);
      of_price = cro_words_pct (part.of_price_pct);
      /* Translators: a menu, its food cost and target; the part of its price a plate takes. */
      g_string_append_printf (text, _("%s %s, target %s; this plate %s of its price"),
                              part.menu.name, pct, target, of_price);
      g_string_append_c (text, '\n');
    }
  g_string_truncate (text, text->len > 0 ? text->len - 1 : 0);
  gtk_label_set_label (GTK_LABEL (self->menus), text->str);
  gtk_widget_set_visible (self->menus, text->len > 0);
}

static void
cro_plate_bench_refresh (CroBench *bench)
{
  CroPlateBench *self = CRO_PLATE_BENCH (bench);
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (bench));
  guint32 plate = cro_bench_get_slot (bench);
  GtkWidget *inputs[] = { self->name,  self->course, self->makes, self->per_guest, self->allowance,
                          self->minutes, self->price, self->tax,  self->target,    self->note };
  g_autoptr (CroBreakdown) breakdown = NULL;

  if (cro_model_recipe (figures->model, plate)->is_dead)
    return;
  breakdown = cro_breakdown_of_plate (figures, plate);
  cro_served_show_cost (CRO_FIGURE_VIEW (self->figures[GUEST]), figures->model,
                        &breakdown->figure);
  cro_served_show_pct (CRO_FIGURE_VIEW (self->figures[PCT]), figures->model, &breakdown->figure);
  cro_served_show_prime (CRO_FIGURE_VIEW (self->figures[PRIME]), figures->model,
                         &breakdown->figure);
  show_menus (self, figures, &breakdown->figure);
  cro_causes_view_set (CRO_CAUSES_VIEW (self->causes), breakdown->missing);
  cro_served_show_allergens (GTK_LABEL (self->allergens), breakdown);
  for (gsize i = 0; i < G_N_ELEMENTS (inputs); i++)
    cro_input_refresh (CRO_INPUT (inputs[i]));
  cro_lines_view_refresh (CRO_LINES_VIEW (self->lines));
}

/* --- Fields ----------------------------------------------------------------------------------- */

static void
bind (CroPlateBench *self,
      GtkWidget     *input,
      const char    *table,
      const char    *column,
      const char    *of_what,
      const char    *placeholder)
{
  CroBench *bench = CRO_BENCH (self);
  CroBook *book = cro_bench_get_book (bench);
  g_autofree char *act = cro_bench_dup_label (bench, of_what);

  cro_input_bind (CRO_INPUT (input), book, table,
                  cro_model_recipe (cro_book_get_model (book), cro_bench_get_slot (bench))->id,
                  column, act, placeholder);
}

static char *
pct_or_nothing (gint64 pct)
{
  return pct == CRO_NOT_SET ? NULL : cro_words_decimal (pct);
}

static void
cro_plate_bench_show (CroBench *bench)
{
  CroPlateBench *self = CRO_PLATE_BENCH (bench);
  CroModel *model = cro_book_get_model (cro_bench_get_book (bench));
  g_autofree char *tax = pct_or_nothing (model->tax);
  g_autofree char *target = pct_or_nothing (model->target);

  bind (self, self->name, "thing", "name", _("name"), NULL);
  bind (self, self->course, "plate", "course", _("course"), _("none"));
  bind (self, self->makes, "plate", "makes_micro", _("bites made"), NULL);
  bind (self, self->per_guest, "plate", "per_guest_micro", _("bites a guest"), "1");
  bind (self, self->allowance, "plate", "allowance_pct_micro", _("seasoning"), "0");
  bind (self, self->minutes, "plate", "active_minutes_micro", _("minutes"), "0");
  bind (self, self->price, "plate", "price_micro", _("price"), _("with a menu"));
  bind (self, self->tax, "plate", "tax_pct_micro", _("tax"), tax);
  bind (self, self->target, "plate", "target_pct_micro", _("target"), target);
  bind (self, self->note, "plate", "note", _("note"), _("none"));
  cro_lines_view_put (CRO_LINES_VIEW (self->lines), cro_bench_get_slot (bench));
  cro_plate_bench_refresh (bench);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
make_fields (CroPlateBench *self,
             GtkWidget     *box)
{
  GtkWidget *row = cro_field_row_new ();

  self->name = cro_field_add (row, _("Plate"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 28);
  cro_input_set_way (CRO_INPUT (self->name), &cro_bench_name_way, self);
  self->course = cro_field_add (row, _("Course"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 14);
  self->makes = cro_field_add (row, _("Makes"), CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 6);
  self->per_guest = cro_field_add (row, _("A guest gets"), CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 6);
  self->allowance = cro_field_add (row, _("Seasoning %"), CRO_INPUT_PCT, CRO_RANGE_AT_LEAST_0, 6);
  self->minutes = cro_field_add (row, _("Minutes"), CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 6);
  self->price = cro_field_add (row, _("Price with tax"), CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 9);
  self->tax = cro_field_add (row, _("Tax %"), CRO_INPUT_PCT, CRO_RANGE_AT_LEAST_0, 6);
  self->target = cro_field_add (row, _("Target %"), CRO_INPUT_PCT, CRO_RANGE_PART_PCT, 6);
  self->note = cro_field_add (row, _("Note"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 28);
  cro_wrap_append (CRO_WRAP (row),
                   cro_bench_buttons_new (cro_scale_button_new (CRO_BENCH (self))));
  gtk_box_append (GTK_BOX (box), row);
}

static void
cro_plate_bench_dispose (GObject *object)
{
  g_clear_pointer (&CRO_PLATE_BENCH (object)->scroller, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_plate_bench_parent_class)->dispose (object);
}

static void
cro_plate_bench_class_init (CroPlateBenchClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_plate_bench_dispose;
  CRO_BENCH_CLASS (klass)->kind = CRO_REF_RECIPE;
  CRO_BENCH_CLASS (klass)->show = cro_plate_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_plate_bench_refresh;
}

static void
cro_plate_bench_init (CroPlateBench *self)
{
  static const CroFigureSum sums[N_FIGURES] = { sum_of_guest, sum_of_pct, sum_of_prime_cost };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *strip = cro_wrap_new (12, 6);

  gtk_widget_add_css_class (box, "bench");
  gtk_widget_add_css_class (strip, "figures");
  for (int i = 0; i < N_FIGURES; i++)
    {
      self->figures[i] = cro_figure_view_new (CRO_BENCH (self), sums[i]);
      cro_wrap_append (CRO_WRAP (strip), self->figures[i]);
    }
  self->causes = cro_causes_view_new (CRO_BENCH (self));
  gtk_widget_set_hexpand (self->causes, TRUE);
  cro_wrap_append (CRO_WRAP (strip), self->causes);
  gtk_box_append (GTK_BOX (box), strip);
  self->menus = cro_text_new (NULL, "caption");
  gtk_box_append (GTK_BOX (box), self->menus);
  make_fields (self, box);
  self->lines = cro_lines_view_new (CRO_BENCH (self));
  gtk_box_append (GTK_BOX (box), self->lines);
  self->allergens = cro_text_new (NULL, "caption");
  gtk_box_append (GTK_BOX (box), self->allergens);

  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_AUTOMATIC,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), box);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
}
