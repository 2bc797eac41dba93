#include "config.h"

#include "cro-plate-bench.h"

#include <glib/gi18n.h>

#include "cro-bench-actions.h"
#include "cro-breakdown.h"
#include "cro-carried-line.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-lines-view.h"
#include "cro-made-of-view.h"
#include "cro-movers-view.h"
#include "cro-number.h"
#include "cro-past-words.h"
#include "cro-picture-view.h"
#include "cro-guest-figures.h"
#include "cro-covers-view.h"
#include "cro-price-view.h"
#include "cro-result-words.h"
#include "cro-scale-button.h"
#include "cro-selling-view.h"
#include "cro-served-figures.h"
#include "cro-sold-as.h"
#include "cro-target-input.h"
#include "cro-unserved-view.h"
#include "cro-figure-words.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Fields that most plates leave alone: shown where they are set, or asked for. */
enum
{
  MINUTES,
  PRICE,
  TAX,
  TARGET,
  NOTE,
  N_RARE,
};

struct _CroPlateBench
{
  CroBench   parent_instance;

  GtkWidget *figures;
  GtkWidget *unserved;
  GtkWidget *names;      /* with the next two */
  GtkWidget *name;
  GtkWidget *course;
  GtkWidget *makes;
  GtkWidget *per_guest;
  GtkWidget *allowance;
  GtkWidget *rare[N_RARE];
  GtkWidget *more;
  GtkWidget *buttons;
  GtkWidget *from;       /* since when the price holds that is entered */
  GtkWidget *selling;    /* its steps */
  GtkWidget *menus;
  GtkWidget *lines;
  GtkWidget *pane;
  GtkWidget *allergens;
  GtkWidget *picture;
  GtkWidget *popover;    /* made when it is first asked for */
  gboolean   is_trial;
  gboolean   is_anew;    /* it is put, or More was pressed */
};

G_DEFINE_FINAL_TYPE (CroPlateBench, cro_plate_bench, CRO_TYPE_BENCH)

/* --- Figures ---------------------------------------------------------------------------------- */

/* Of a plate that several menus carry: how much of each it takes. */
static void
show_menus (CroPlateBench   *self,
            CroFigures      *figures,
            const CroFigure *figure)
{
  CroModel *model = figures->model;
  guint32 plate = cro_bench_get_slot (CRO_BENCH (self));
  const CroMenuPlate *shown = cro_plate_menu (CRO_BENCH (self));
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);
      CroPartOfMenu part;
      g_autofree char *result = NULL, *of_price = NULL, *target = NULL, *menu = NULL;

      if (entry->is_dead || entry->plate != plate || entry == shown)
        continue;
      part = cro_part_of_menu (figures, entry, figure);
      menu = cro_words_place_on_menu (model, entry);
      result = cro_words_result (model, &part.menu);
      target = cro_words_target (model, &part.menu);
      of_price = cro_words_part_of_price (&part, figure);
      if (text->len > 0)
        g_string_append_c (text, '\n');
      /* Translators: a menu, its food cost in per cent, or what stands for it, and the target of that;
       * the part of its price a plate takes. */
      g_string_append_printf (text, _("%s: %s, target %s; this plate %s of its price"),
                              menu, result, target, of_price);
    }
  gtk_label_set_label (GTK_LABEL (self->menus), text->str);
  gtk_widget_set_visible (self->menus, text->len > 0);
}

/* Nobody looks for a field while they see none that is like it: the button says what it opens. What is set or unset
 * elsewhere, by undo or in a picture, has its field once the plate is opened again: no row comes or goes under the
 * hands. */
static void
show_rare (CroPlateBench *self)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (CRO_BENCH (self)));
  const CroRecipe *recipe = cro_model_recipe (model, cro_bench_get_slot (CRO_BENCH (self)));
  gboolean is_priced = cro_selling_view_is_set (CRO_SELLING_VIEW (self->selling));
  gboolean all = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->more));
  const gboolean is_set[N_RARE] = {
    [MINUTES] = recipe->active_minutes > 0 && !self->is_trial,
    [PRICE] = is_priced,
    [TAX] = recipe->tax != CRO_NOT_SET
            || (is_priced && !cro_sold_has_tax (model, cro_bench_get_ref (CRO_BENCH (self)))),
    [TARGET] = recipe->target != CRO_NOT_SET,
    [NOTE] = *cro_input_get_text (CRO_INPUT (self->rare[NOTE])) != '\0' && !self->is_trial,
  };

  for (int i = 0; i < N_RARE; i++)
    {
      GtkWidget *field = gtk_widget_get_parent (self->rare[i]);
      /* A tax that nothing says is asked for where the price stands. */
      gboolean asks = i == TAX && is_set[TAX] && gtk_widget_get_visible (gtk_widget_get_parent (self->rare[PRICE]));
      gboolean is_out = self->is_anew ? is_set[i] : gtk_widget_get_visible (field) || asks;

      gtk_widget_set_visible (field, all || is_out || cro_input_is_edited (CRO_INPUT (self->rare[i])));
    }
  self->is_anew = FALSE;
  /* The steps of the price have their row with it: the first of them moves nothing. */
  gtk_widget_set_visible (self->selling,
                          gtk_widget_get_visible (gtk_widget_get_parent (self->rare[PRICE])));
  gtk_widget_set_visible (self->picture,
                          !self->is_trial
                              && (all || cro_picture_view_is_set (CRO_PICTURE_VIEW (self->picture))));
}

static void
more_cb (CroPlateBench *self)
{
  self->is_anew = TRUE;
  show_rare (self);
}

static void
cro_plate_bench_refresh (CroBench *bench)
{
  CroPlateBench *self = CRO_PLATE_BENCH (bench);
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (bench));
  guint32 plate = cro_bench_get_slot (bench);
  GtkWidget *inputs[] = { self->name, self->course, self->makes, self->per_guest, self->allowance };
  g_autoptr (CroBreakdown) breakdown = NULL;

  if (cro_model_recipe (figures->model, plate)->is_dead)
    return;
  breakdown = cro_breakdown_of_plate (figures, plate);
  cro_guest_figures_show (CRO_GUEST_FIGURES (self->figures), breakdown);
  show_menus (self, figures, &breakdown->figure);
  cro_unserved_view_set (CRO_UNSERVED_VIEW (self->unserved), CRO_REF (CRO_REF_RECIPE, plate),
                         breakdown->doubts);
  cro_carried_line_set (CRO_CARRIED_LINE (self->allergens), figures, cro_bench_get_ref (bench), breakdown);
  for (gsize i = 0; i < G_N_ELEMENTS (inputs); i++)
    cro_input_refresh (CRO_INPUT (inputs[i]));
  for (int i = 0; i < N_RARE; i++)
    cro_input_refresh (CRO_INPUT (self->rare[i]));
  cro_target_input_say (CRO_INPUT (self->rare[TARGET]), figures->model,
                        GTK_LABEL (gtk_widget_get_prev_sibling (self->rare[TARGET])),
                        GTK_LABEL (gtk_widget_get_next_sibling (self->rare[TARGET])));
  cro_selling_view_refresh (CRO_SELLING_VIEW (self->selling));
  cro_picture_view_refresh (CRO_PICTURE_VIEW (self->picture));
  show_rare (self);
  cro_lines_view_refresh (CRO_LINES_VIEW (self->lines));
  cro_pane_refresh (CRO_PANE (self->pane));
}

/* --- Fields ----------------------------------------------------------------------------------- */

static void
bind (CroPlateBench *self,
      GtkWidget     *input,
      const char    *table,
      const char    *column,
      const char    *placeholder)
{
  CroBench *bench = CRO_BENCH (self);
  CroBook *book = cro_bench_get_book (bench);
  const CroRecipe *plate = cro_model_recipe (cro_book_get_model (book), cro_bench_get_slot (bench));
  g_autofree char *act = cro_past_dup_act (table, column, plate->name);

  cro_input_bind (CRO_INPUT (input), book, table, plate->id, column, act, placeholder);
}

static void
cro_plate_bench_show (CroBench *bench)
{
  CroPlateBench *self = CRO_PLATE_BENCH (bench);

  bind (self, self->name, "thing", "name", NULL);
  bind (self, self->course, "plate", "course", _("course"));
  bind (self, self->makes, "plate", "makes_micro", NULL);
  bind (self, self->per_guest, "plate", "per_guest_micro", "1");
  bind (self, self->allowance, "plate", "allowance_pct_micro", "0");
  bind (self, self->rare[MINUTES], "plate", "active_minutes_micro", "0");
  cro_selling_view_put (CRO_SELLING_VIEW (self->selling), _("with a menu"));
  bind (self, self->rare[TARGET], "plate", "target_pct_micro", NULL);
  bind (self, self->rare[NOTE], "plate", "note", C_("note", "none"));
  cro_lines_view_put (CRO_LINES_VIEW (self->lines), cro_bench_get_slot (bench));
  self->is_anew = TRUE;
  cro_plate_bench_refresh (bench);
  cro_pane_show (CRO_PANE (self->pane));
}

/* --- Opening figures ---------------------------------------------------------------------------- */

/* Of the figure that what has the focus goes into. */
static GPtrArray *
sum_in_focus (CroPlateBench *self)
{
  static const CroFigureSum of[N_RARE] = {
    [MINUTES] = cro_plate_sum_of_prime_cost, [PRICE] = cro_plate_sum_of_net_price,
    [TAX] = cro_plate_sum_of_net_price,      [TARGET] = cro_plate_sum_of_pct,
    [NOTE] = cro_plate_sum_of_guest,
  };
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));

  for (int i = 0; i < N_RARE; i++)
    if (focus != NULL && gtk_widget_is_ancestor (focus, self->rare[i]))
      return of[i](CRO_BENCH (self));
  return cro_plate_sum_of_guest (CRO_BENCH (self));
}

/* It opens beside the field: the figure itself may be scrolled away. */
static void
sum_cb (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  CroPlateBench *self = CRO_PLATE_BENCH (widget);
  g_autoptr (GPtrArray) sum = sum_in_focus (self);
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));

  if (sum == NULL || focus == NULL)
    return;
  if (self->popover == NULL)
    self->popover = cro_sum_popover_new (CRO_BENCH (self), widget);
  cro_sum_popover_show (CRO_SUM_POPOVER (self->popover), focus, sum, NULL);
}

/* Who asks for a food cost that has no price yet is led to the price: that of its menu, or its
 * own. */
static void
ask_price_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  CroPlateBench *self = CRO_PLATE_BENCH (widget);
  const CroMenuPlate *entry = cro_plate_menu (CRO_BENCH (self));

  if (entry != NULL)
    {
      cro_bench_open_cure (CRO_BENCH (self), CRO_REF (CRO_REF_MENU, entry->menu),
                           CRO_CAUSE_SELLING_PRICE);
      return;
    }
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->more), TRUE);
  gtk_widget_grab_focus (self->rare[PRICE]);
}

/* --- The widget ------------------------------------------------------------------------------- */

/* A field of a sentence: "makes [24] · [1] a guest". Words stand before and behind it, NULL: none;
 * name is what it is called. */
typedef struct
{
  const char   *before;
  const char   *behind;
  const char   *name;
  CroInputKind  kind;
  CroRange      range;
  int           width;
} Field;

static void
add_word (GtkWidget  *box,
          const char *word)
{
  GtkWidget *label;

  if (word == NULL)
    return;
  label = gtk_label_new (word);
  gtk_widget_add_css_class (label, "dim-label");
  gtk_box_append (GTK_BOX (box), label);
}

/* Adds it to a box of words and fields that a row does not break. */
static GtkWidget *
add_to_phrase (GtkWidget   *box,
               const Field *field)
{
  GtkWidget *input = cro_input_new (field->kind, field->range, field->name);

  cro_input_set_width (CRO_INPUT (input), field->width);
  add_word (box, field->before);
  gtk_box_append (GTK_BOX (box), input);
  add_word (box, field->behind);
  return input;
}

static GtkWidget *
add_phrase (GtkWidget *row)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  /* Beside buttons, which are taller where text is large. */
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  cro_wrap_append (CRO_WRAP (row), box);
  return box;
}

static GtkWidget *
add_field (GtkWidget   *row,
           const Field *field)
{
  return add_to_phrase (add_phrase (row), field);
}

static void
make_common_fields (CroPlateBench *self,
                    GtkWidget     *names,
                    GtkWidget     *row)
{
  /* Translators: with the fields: "makes [24] · [1] a guest   seasoning and handling [3] %". */
  const Field name = { NULL, NULL, _("Plate"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 90 };
  const Field course = { NULL, NULL, _("Course"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 9 };
  const Field makes = { _("makes"), "·", _("Makes"), CRO_INPUT_NUMBER, CRO_RANGE_ABOVE_0, 4 };
  const Field per_guest = { NULL, _("per guest"), _("Per guest"), CRO_INPUT_NUMBER,
                            CRO_RANGE_ABOVE_0, 3 };
  const Field allowance = { _("seasoning and handling"), "%", _("Seasoning and handling %"), CRO_INPUT_PCT,
                            CRO_RANGE_AT_LEAST_0, 3 };
  GtkWidget *bites;

  self->name = add_to_phrase (names, &name);
  gtk_widget_set_hexpand (self->name, TRUE);
  gtk_widget_add_css_class (self->name, "name");
  cro_input_set_way (CRO_INPUT (self->name), &cro_bench_name_way, self);
  cro_input_set_ask (CRO_INPUT (self->name), cro_bench_ask_of_name);
  cro_input_set_tell (CRO_INPUT (self->name), cro_bench_tell_name);
  cro_input_set_show (CRO_INPUT (self->name), cro_bench_show_name);
  cro_input_set_asks (CRO_INPUT (self->name), cro_bench_asks_of_name);
  self->course = add_to_phrase (names, &course);
  bites = add_phrase (row);
  self->makes = add_to_phrase (bites, &makes);
  self->per_guest = add_to_phrase (bites, &per_guest);
  self->allowance = add_field (row, &allowance);
}

/* Behind the price: "price [12.50] with tax, from [today]". */
static void
add_from (CroPlateBench *self)
{
  GtkWidget *phrase = gtk_widget_get_parent (self->rare[PRICE]);

  self->from = cro_entry_new (_("First day of the price"), cro_date_chars ());
  /* Translators: before a field: since when the price before it holds. */
  add_word (phrase, _("from"));
  gtk_box_append (GTK_BOX (phrase), self->from);
  self->selling = cro_selling_view_new (CRO_BENCH (self), self->from, self->rare[PRICE],
                                        self->rare[TAX]);
  cro_cure_set (self->rare[PRICE], CRO_CAUSE_SELLING_PRICE, TRUE);
}

/* Its words are the house's. */
static GtkWidget *
add_target (GtkWidget *row)
{
  GtkWidget *phrase = add_phrase (row);
  GtkWidget *input = cro_target_input_new ();

  cro_input_set_width (CRO_INPUT (input), 4);
  add_word (phrase, "");
  gtk_box_append (GTK_BOX (phrase), input);
  add_word (phrase, "");
  return input;
}

static void
make_rare_fields (CroPlateBench *self,
                  GtkWidget     *row)
{
  const Field fields[N_RARE] = {
    [MINUTES] = { NULL, _("minutes"), _("Minutes"), CRO_INPUT_MINUTES, CRO_RANGE_AT_LEAST_0, 4 },
    [PRICE] = { _("price"), _("with tax"), _("Price with tax"), CRO_INPUT_SELLING_PRICE,
                CRO_RANGE_AT_LEAST_0, 10 },
    [TAX] = { _("tax"), "%", _("Tax %"), CRO_INPUT_PCT, CRO_RANGE_AT_LEAST_0, 4 },
    [NOTE] = { _("note"), NULL, _("Note"), CRO_INPUT_TEXT, CRO_RANGE_ANY, 50 },
  };

  for (int i = 0; i < N_RARE; i++)
    self->rare[i] = i == TARGET ? add_target (row) : add_field (row, &fields[i]);
  add_from (self);
  gtk_widget_set_hexpand (self->rare[NOTE], TRUE);
}

static void
make_fields (CroPlateBench *self,
             GtkWidget     *box)
{
  GtkWidget *fields = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *row = cro_wrap_new (15, 6);

  self->names = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  self->buttons = cro_bench_buttons_new_with (cro_scale_button_new (CRO_BENCH (self)),
                                              _("Make It a Preparation"), FALSE);
  gtk_widget_add_css_class (fields, "fields");
  make_common_fields (self, self->names, row);
  self->more = gtk_toggle_button_new_with_label (_("More"));
  gtk_widget_set_tooltip_text (self->more, _("Minutes, price, tax, target, note, picture"));
  gtk_box_prepend (GTK_BOX (self->buttons), self->more);
  cro_wrap_append (CRO_WRAP (row), self->buttons);
  make_rare_fields (self, row);
  g_signal_connect_object (self->more, "toggled", G_CALLBACK (more_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (fields), self->names);
  gtk_box_append (GTK_BOX (fields), row);
  gtk_box_append (GTK_BOX (fields), self->selling);
  gtk_box_append (GTK_BOX (box), fields);
}

static void
take_picture_cb (GtkWidget  *widget,
                 const char *action,
                 GVariant   *path)
{
  CroPlateBench *self = CRO_PLATE_BENCH (widget);

  if (!self->is_trial)
    cro_picture_view_take (CRO_PICTURE_VIEW (self->picture), g_variant_get_string (path, NULL));
}

static void
cro_plate_bench_dispose (GObject *object)
{
  g_clear_pointer (&CRO_PLATE_BENCH (object)->popover, cro_sum_popover_remove);
  G_OBJECT_CLASS (cro_plate_bench_parent_class)->dispose (object);
}

static void
cro_plate_bench_class_init (CroPlateBenchClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_plate_bench_dispose;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "figure.sum", NULL, sum_cb);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "figure.price", NULL, ask_price_cb);
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (klass), GDK_KEY_i, GDK_CONTROL_MASK,
                                       "figure.sum", NULL);
  cro_pane_install (GTK_WIDGET_CLASS (klass));
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "picture.take", "s", take_picture_cb);
  CRO_BENCH_CLASS (klass)->kind = CRO_REF_RECIPE;
  CRO_BENCH_CLASS (klass)->show = cro_plate_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_plate_bench_refresh;
}

static const CroPicture *const pictures[CRO_N_PICTURES] = {
  [CRO_PICTURE_MADE_OF] = &cro_made_of_picture,
  [CRO_PICTURE_MOVERS] = &cro_movers_picture,
  [CRO_PICTURE_PRICE] = &cro_price_picture,
  [CRO_PICTURE_COVERS] = &cro_covers_picture,
};

static void
cro_plate_bench_init (CroPlateBench *self)
{
  GtkWidget *fields = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *aside = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  make_fields (self, fields);
  self->lines = cro_lines_view_new (CRO_BENCH (self));
  self->menus = cro_text_new (NULL, "caption");
  self->allergens = cro_carried_line_new ();
  gtk_box_append (GTK_BOX (aside), self->menus);
  self->unserved = cro_unserved_view_new (CRO_BENCH (self));
  gtk_box_append (GTK_BOX (aside), self->allergens);
  gtk_box_append (GTK_BOX (aside), self->unserved);
  self->picture = cro_picture_view_new (CRO_BENCH (self));
  gtk_box_append (GTK_BOX (aside), self->picture);
  self->figures = cro_guest_figures_new (CRO_BENCH (self));
  self->pane = cro_pane_new (CRO_BENCH (self), pictures, fields, self->lines, aside);
  cro_pane_set_rows (CRO_PANE (self->pane), self->lines, &cro_lines_view_rows);
  cro_bench_set_content (CRO_BENCH (self), self->figures, self->pane);
}

void
cro_plate_bench_set_trial (CroPlateBench *self)
{
  self->is_trial = TRUE;
  gtk_widget_set_visible (self->names, FALSE);
  /* Of what it offers a trial can do nothing. */
  gtk_widget_set_visible (gtk_widget_get_last_child (self->buttons), FALSE);
}
