#include "config.h"

#include "cro-menu-bench.h"

#include <glib/gi18n.h>

#include "cro-bench-actions.h"
#include "cro-carried-line.h"
#include "cro-field.h"
#include "cro-guest-figures.h"
#include "cro-menu-plates-view.h"
#include "cro-made-of-view.h"
#include "cro-movers-view.h"
#include "cro-covers-view.h"
#include "cro-number.h"
#include "cro-price-view.h"
#include "cro-selling-view.h"
#include "cro-target-input.h"
#include "cro-unserved-view.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* In characters: what the plates take beside a picture, and what that is given, with names at both ends. */
#define LEAST_BODY 137
#define MOST_PICTURE 90

struct _CroMenuBench
{
  CroBench   parent_instance;

  GtkWidget *figures;
  GtkWidget *unserved;
  GtkWidget *range;
  GtkWidget *name;
  GtkWidget *price;
  GtkWidget *tax;
  GtkWidget *selling;   /* since when price and tax hold, and their steps */
  GtkWidget *target;
  GtkWidget *note;
  GtkWidget *buttons;
  GtkWidget *heading;
  GtkWidget *plates;
  GtkWidget *allergens;
  GtkWidget *pane;
};

G_DEFINE_FINAL_TYPE (CroMenuBench, cro_menu_bench, CRO_TYPE_BENCH)

static CroFigures *
figures_of (CroBench *bench)
{
  return cro_book_get_figures (cro_bench_get_book (bench));
}

/* --- Showing ---------------------------------------------------------------------------------- */

static void
show_range (CroMenuBench    *self,
            CroModel        *model,
            const CroFigure *figure)
{
  g_autofree char *range = cro_words_range (model, figure);
  /* Translators: the cost of a menu with its cheapest and with its dearest choices. */
  g_autofree char *text
      = range != NULL ? g_strdup_printf (_("Per guest by choice: %s"), range) : NULL;

  gtk_label_set_label (GTK_LABEL (self->range), text != NULL ? text : "");
  gtk_widget_set_visible (self->range, text != NULL);
}

static void
cro_menu_bench_refresh (CroBench *bench)
{
  CroMenuBench *self = CRO_MENU_BENCH (bench);
  CroFigures *figures = figures_of (bench);
  guint32 menu = cro_bench_get_slot (bench);
  GtkWidget *inputs[] = { self->name, self->target, self->note };
  g_autoptr (CroBreakdown) breakdown = NULL;

  if (cro_model_menu (figures->model, menu)->is_dead)
    return;
  breakdown = cro_breakdown_of_menu (figures, menu);
  cro_guest_figures_show (CRO_GUEST_FIGURES (self->figures), breakdown);
  cro_unserved_view_set (CRO_UNSERVED_VIEW (self->unserved), CRO_REF (CRO_REF_MENU, menu),
                         breakdown->doubts);
  show_range (self, figures->model, &breakdown->figure);
  for (gsize i = 0; i < G_N_ELEMENTS (inputs); i++)
    cro_input_refresh (CRO_INPUT (inputs[i]));
  cro_target_input_say (CRO_INPUT (self->target), figures->model,
                        GTK_LABEL (gtk_widget_get_prev_sibling (self->target)), NULL);
  cro_selling_view_refresh (CRO_SELLING_VIEW (self->selling));
  cro_menu_plates_view_refresh (CRO_MENU_PLATES_VIEW (self->plates));
  cro_carried_line_set (CRO_CARRIED_LINE (self->allergens), figures, cro_bench_get_ref (bench), breakdown);
  cro_pane_refresh (CRO_PANE (self->pane));
}

static void
cro_menu_bench_show (CroBench *bench)
{
  CroMenuBench *self = CRO_MENU_BENCH (bench);

  cro_bench_bind (bench, self->name, "name", NULL);
  cro_selling_view_put (CRO_SELLING_VIEW (self->selling), NULL);
  cro_bench_bind (bench, self->target, "target_pct_micro", NULL);
  cro_bench_bind (bench, self->note, "note", NULL);
  cro_menu_plates_view_put (CRO_MENU_PLATES_VIEW (self->plates));
  cro_menu_bench_refresh (bench);
  cro_pane_show (CRO_PANE (self->pane));
}

/* --- The widget ------------------------------------------------------------------------------- */

static GtkWidget *
fields_new (CroMenuBench *self)
{
  GtkWidget *row = cro_field_row_new ();
  GtkWidget *from = cro_entry_new (_("First day of the price"), cro_date_chars ());
  GtkWidget *last = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  self->name = cro_field_add (row, _("Menu"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 28);
  cro_input_set_way (CRO_INPUT (self->name), &cro_bench_name_way, self);
  cro_input_set_ask (CRO_INPUT (self->name), cro_bench_ask_of_name);
  cro_input_set_tell (CRO_INPUT (self->name), cro_bench_tell_name);
  cro_input_set_show (CRO_INPUT (self->name), cro_bench_show_name);
  cro_input_set_asks (CRO_INPUT (self->name), cro_bench_asks_of_name);
  self->price = cro_field_add (row, _("Price with tax"), CRO_INPUT_SELLING_PRICE, CRO_RANGE_AT_LEAST_0, 9);
  cro_cure_set (self->price, CRO_CAUSE_SELLING_PRICE, TRUE);
  cro_wrap_append (CRO_WRAP (row), cro_field_new (_("From"), from));
  self->tax = cro_field_add (row, _("Tax %"), CRO_INPUT_PCT, CRO_RANGE_AT_LEAST_0, 6);
  self->selling = cro_selling_view_new (CRO_BENCH (self), from, self->price, self->tax);
  self->target = cro_target_input_new ();
  cro_input_set_width (CRO_INPUT (self->target), 6);
  cro_wrap_append (CRO_WRAP (row), cro_field_new ("", self->target));
  self->note = cro_input_new (CRO_INPUT_TEXT, CRO_RANGE_ANY, _("Note"));
  cro_input_set_width (CRO_INPUT (self->note), 22);
  gtk_widget_set_hexpand (self->note, TRUE);
  self->buttons = cro_bench_buttons_new (NULL);
  /* The button never stands in a row alone. */
  gtk_box_append (GTK_BOX (last), cro_field_new (_("Note"), self->note));
  gtk_box_append (GTK_BOX (last), self->buttons);
  cro_wrap_append (CRO_WRAP (row), last);
  return row;
}

static void
ask_price_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  gtk_widget_grab_focus (CRO_MENU_BENCH (widget)->price);
}

static void
cro_menu_bench_class_init (CroMenuBenchClass *klass)
{
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "figure.price", NULL, ask_price_cb);
  cro_pane_install (GTK_WIDGET_CLASS (klass));
  CRO_BENCH_CLASS (klass)->kind = CRO_REF_MENU;
  CRO_BENCH_CLASS (klass)->show = cro_menu_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_menu_bench_refresh;
}

static void
cro_menu_bench_init (CroMenuBench *self)
{
  static const CroPicture *const pictures[CRO_N_PICTURES] = {
    [CRO_PICTURE_MADE_OF] = &cro_made_of_picture,
    [CRO_PICTURE_MOVERS] = &cro_movers_picture,
    [CRO_PICTURE_PRICE] = &cro_price_picture,
    [CRO_PICTURE_COVERS] = &cro_covers_picture,
  };
  GtkWidget *fields = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  self->plates = cro_menu_plates_view_new (CRO_BENCH (self));
  self->allergens = cro_carried_line_new ();
  gtk_box_append (GTK_BOX (fields), fields_new (self));
  gtk_box_append (GTK_BOX (fields), self->selling);
  self->heading = cro_heading_new (_("Plates"));
  gtk_box_append (GTK_BOX (page), self->heading);
  gtk_box_append (GTK_BOX (page), self->plates);
  self->range = cro_text_new (NULL, NULL);
  gtk_box_append (GTK_BOX (page), self->range);
  self->unserved = cro_unserved_view_new (CRO_BENCH (self));
  gtk_box_append (GTK_BOX (page), self->unserved);
  self->figures = cro_guest_figures_new (CRO_BENCH (self));
  self->pane = cro_pane_new (CRO_BENCH (self), pictures, fields, page, self->allergens);
  cro_pane_set_least_body (CRO_PANE (self->pane), LEAST_BODY);
  cro_pane_set_most_picture (CRO_PANE (self->pane), MOST_PICTURE);
  cro_bench_set_content (CRO_BENCH (self), self->figures, self->pane);
}

void
cro_menu_bench_set_trial (CroMenuBench *self)
{
  GtkWidget *left_out[] = { gtk_widget_get_parent (self->name), gtk_widget_get_parent (self->buttons),
                            self->selling, self->heading };

  for (gsize i = 0; i < G_N_ELEMENTS (left_out); i++)
    gtk_widget_set_visible (left_out[i], FALSE);
}
