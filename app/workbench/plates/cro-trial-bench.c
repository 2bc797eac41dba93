#include "config.h"

#include "cro-trial-bench.h"

#include <glib/gi18n.h>

#include "cro-breakdown.h"
#include "cro-edit.h"
#include "cro-focus.h"
#include "cro-guest-figures.h"
#include "cro-isolate.h"
#include "cro-menu-bench.h"
#include "cro-number.h"
#include "cro-plate-bench.h"
#include "cro-trial-bar.h"
#include "cro-trial-beside.h"
#include "cro-trial-head.h"
#include "cro-trial-offers.h"
#include "cro-trial.h"
#include "cro-trials.h"
#include "cro-tried-words.h"

/* Of the stack in a menu's trial. */
#define PLATE_PAGE "plate"

struct _CroTrialBench
{
  CroBench   parent_instance;

  GtkWidget *box;
  GtkWidget *bar;
  GtkWidget *figures;    /* of the book */
  GtkWidget *beside;     /* what it is beside another trial */
  GtkStack  *inners;     /* inner, and in a menu's trial a plate of it */
  CroBench  *inner;      /* on the trial's book */
  CroBench  *plate;      /* the same, opened from the menu; NULL: the trial is of a plate */
  GtkWidget *head;       /* over it */
  char      *cell;       /* where the focus was in it; NULL: nowhere */

  CroTrial  *trial;
  gulong     changed_id; /* of its book */
  gint64     thing;      /* id of the plate or menu */
  guint      number;     /* which of its trials */
  guint64    edition;    /* of the trial's book when it was written down */
};

G_DEFINE_ABSTRACT_TYPE (CroTrialBench, cro_trial_bench, CRO_TYPE_BENCH)

typedef CroTrialBench CroPlateTrial;
typedef CroTrialBenchClass CroPlateTrialClass;
G_DEFINE_FINAL_TYPE (CroPlateTrial, cro_plate_trial, CRO_TYPE_TRIAL_BENCH)

typedef CroTrialBench CroMenuTrial;
typedef CroTrialBenchClass CroMenuTrialClass;
G_DEFINE_FINAL_TYPE (CroMenuTrial, cro_menu_trial, CRO_TYPE_TRIAL_BENCH)

enum
{
  TRIED,
  ENDED,
  KEPT,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static CroBook *
book_of (CroTrialBench *self)
{
  return cro_bench_get_book (CRO_BENCH (self));
}

CroBook *
cro_trial_bench_get_tried (CroTrialBench *self)
{
  return self->trial != NULL ? cro_trial_get_book (self->trial) : NULL;
}

static CroModel *
model_of (CroTrialBench *self)
{
  return cro_book_get_model (book_of (self));
}

/* The same thing in a trial of the book. */
static CroRef
thing_in (CroTrialBench *self,
          CroBook       *tried)
{
  return cro_trial_find (model_of (self), cro_bench_get_ref (CRO_BENCH (self)), cro_book_get_model (tried));
}

/* --- What is tried ---------------------------------------------------------------------------- */

/* In words, those that ask from when, or those that do not and hold as soon as they are kept. Owned. */
static char *
dup_some (CroTrialBench *self,
          GPtrArray     *list,
          gboolean       is_dated)
{
  g_autoptr (GPtrArray) some = g_ptr_array_new ();

  for (guint i = 0; i < list->len; i++)
    if ((((const CroTried *) list->pdata[i])->kind == CRO_TRIED_PRICE) == is_dated)
      g_ptr_array_add (some, list->pdata[i]);
  return some->len > 0 ? cro_tried_all_words (cro_trial_get_book (self->trial), some) : g_strdup ("");
}

static void
show_tried (CroTrialBench *self,
            GPtrArray     *list)
{
  CroBook *tried = cro_trial_get_book (self->trial);
  GPtrArray *left = cro_trial_get_left (self->trial);
  g_autofree char *words = cro_tried_all_words (tried, list);
  g_autofree char *aside = cro_tried_all_left_words (book_of (self), left);
  g_autofree char *at_once = dup_some (self, list, FALSE);

  cro_trial_bar_set_tried (CRO_TRIAL_BAR (self->bar), list->len, words, left->len, aside,
                           cro_tried_is_dated (list), at_once, cro_book_get_figures (tried)->date);
}

static void
show_beside (CroTrialBench *self,
             GPtrArray     *list)
{
  cro_trial_beside_refresh (CRO_TRIAL_BESIDE (self->beside), self->trial, cro_bench_get_ref (CRO_BENCH (self)), list);
}

/* Once its plate or menu is no more the names of what it is about are gone as well. */
static void
write_words (CroTrialBench *self)
{
  g_autoptr (GPtrArray) list = cro_trial_list (self->trial, NULL);
  const char *name = cro_ref_name (model_of (self), cro_bench_get_ref (CRO_BENCH (self)));
  g_autofree char *words = NULL, *lost = NULL;

  if (list != NULL && list->len > 0)
    {
      words = cro_tried_all_words (cro_trial_get_book (self->trial), list);
      /* Translators: a plate or a menu, and what was tried of it. */
      lost = cro_isolate_printf (_("“%s” was removed. Its trial waits until that is undone: %s"), name, words);
    }
  cro_trials_set_words (book_of (self), self->thing, self->number, lost);
}

/* With what cannot be tried now. FALSE: there is nothing of either. */
static gboolean
write_down (CroTrialBench *self)
{
  g_autoptr (GPtrArray) all = cro_trial_list_all (self->trial, NULL);
  g_autofree char *text = all != NULL ? cro_tried_to_text (all) : NULL;

  if (text == NULL)
    return TRUE;
  self->edition = cro_book_get_edition (cro_trial_get_book (self->trial));
  cro_trials_set (book_of (self), self->thing, self->number, text);
  if (!cro_trial_is_behind (self->trial))
    write_words (self);
  return all->len > 0;
}

static void
show_result (CroTrialBench *self)
{
  if (self->plate != NULL && cro_bench_get_slot (self->plate) != CRO_NO_SLOT)
    cro_trial_head_refresh (CRO_TRIAL_HEAD (self->head), cro_book_get_figures (cro_trial_get_book (self->trial)));
}

/* A key that is typed tries nothing yet. */
static void
tried_cb (CroTrialBench *self)
{
  CroBook *tried = cro_trial_get_book (self->trial);
  g_autoptr (GPtrArray) list = NULL;

  show_result (self);
  if (self->edition == cro_book_get_edition (tried))
    return;
  list = cro_trial_list (self->trial, NULL);
  if (list == NULL)
    return;
  write_down (self);
  show_tried (self, list);
  show_beside (self, list);
  g_signal_emit (self, signals[TRIED], 0);
}

/* --- A plate of the menu ------------------------------------------------------------------------ */

static void
show_menu (CroTrialBench *self)
{
  if (self->plate == NULL)
    return;
  gtk_stack_set_visible_child (self->inners, GTK_WIDGET (self->inner));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "trial.back", FALSE);
}

/* Back to the cell from which it was opened. */
static void
back_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (widget);

  gtk_window_set_focus (GTK_WINDOW (gtk_widget_get_root (widget)), NULL);
  show_menu (self);
  if (self->cell == NULL || !cro_focus_go (GTK_WIDGET (self->inner), self->cell))
    cro_focus_first (GTK_WIDGET (self->inner));
}

static void
show_plate (CroTrialBench *self,
            guint32        plate)
{
  CroModel *model = cro_book_get_model (cro_trial_get_book (self->trial));

  if (gtk_stack_get_visible_child (self->inners) == GTK_WIDGET (self->inner))
    {
      g_free (self->cell);
      self->cell = cro_focus_dup_way (GTK_WIDGET (self->inner));
    }
  cro_trial_head_set (CRO_TRIAL_HEAD (self->head), model, cro_bench_get_slot (self->inner), plate);
  cro_bench_put (self->plate, plate);
  show_result (self);
  gtk_stack_set_visible_child_name (self->inners, PLATE_PAGE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "trial.back", TRUE);
  cro_focus_first (cro_focus_find (GTK_WIDGET (self->plate), "lines-part"));
}

/* --- A trial ---------------------------------------------------------------------------------- */

static void
end_trial (CroTrialBench *self)
{
  if (self->trial == NULL)
    return;
  g_clear_signal_handler (&self->changed_id, cro_trial_get_book (self->trial));
  cro_bench_set_book (self->inner, NULL);
  if (self->plate != NULL)
    cro_bench_set_book (self->plate, NULL);
  g_clear_pointer (&self->trial, cro_trial_free);
}

/* Pictures of no book are not drawn. */
static void
go_without (CroTrialBench *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self->inners), FALSE);
  end_trial (self);
}

static void
begin_trial (CroTrialBench *self,
             GPtrArray     *list)
{
  const char *name = cro_ref_name (model_of (self), cro_bench_get_ref (CRO_BENCH (self)));
  g_autofree char *label = cro_isolate_printf (_("trial of %s"), name);
  g_autoptr (GPtrArray) done = NULL;
  g_autoptr (GError) error = NULL;
  CroBook *tried;

  end_trial (self);
  self->trial = cro_trial_new (book_of (self), list, label, &error);
  gtk_widget_set_visible (GTK_WIDGET (self->inners), self->trial != NULL);
  if (self->trial == NULL)
    {
      cro_bench_fail (CRO_BENCH (self), error);
      return;
    }
  tried = cro_trial_get_book (self->trial);
  cro_bench_set_book (self->inner, tried);
  cro_bench_put (self->inner, thing_in (self, tried).slot);
  if (self->plate != NULL)
    cro_bench_set_book (self->plate, tried);
  self->changed_id = g_signal_connect_object (tried, "changed", G_CALLBACK (tried_cb), self,
                                              G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  done = cro_trial_list (self->trial, NULL);
  if (done == NULL)
    return;
  write_down (self);
  show_tried (self, done);
  show_beside (self, done);
  if (cro_trial_get_left (self->trial)->len > 0)
    cro_bench_say (CRO_BENCH (self), _("Part of this trial cannot be tried now. It is not lost."));
}

/* The plate of the menu that is in sight, as the book has it. */
static CroRef
plate_shown (CroTrialBench *self)
{
  if (self->plate == NULL || gtk_stack_get_visible_child (self->inners) == GTK_WIDGET (self->inner))
    return CRO_REF (CRO_REF_RECIPE, CRO_NO_SLOT);
  return cro_trial_find (cro_book_get_model (cro_trial_get_book (self->trial)),
                         cro_bench_get_ref (self->plate), model_of (self));
}

/* The book has moved: what is tried is tried on what it is now. */
static void
follow (CroTrialBench *self)
{
  g_autoptr (GPtrArray) list = NULL;
  CroRef plate;

  if (self->trial == NULL || !cro_trial_is_behind (self->trial))
    return;
  list = cro_trial_list_all (self->trial, NULL);
  plate = plate_shown (self);
  begin_trial (self, list);
  if (plate.slot != CRO_NO_SLOT && self->trial != NULL)
    plate = cro_trial_find (model_of (self), plate, cro_book_get_model (cro_trial_get_book (self->trial)));
  if (plate.slot != CRO_NO_SLOT && self->trial != NULL)
    show_plate (self, plate.slot);
  else
    show_menu (self);
  g_signal_emit (self, signals[TRIED], 0);
}

static void
cro_trial_bench_show (CroBench *bench)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (bench);
  CroBook *book = book_of (self);
  const char *table;
  g_autofree char *text = NULL;
  g_autoptr (GPtrArray) list = NULL;
  g_autoptr (GArray) numbers = NULL;

  show_menu (self);
  self->thing = cro_edit_row (cro_book_get_model (book), cro_bench_get_ref (bench), &table);
  self->number = cro_trials_get_front (book, self->thing);
  text = cro_trials_dup (book, self->thing, self->number);
  list = text != NULL ? cro_tried_from_text (text) : NULL;
  numbers = cro_trials_list (book, self->thing);
  cro_trial_bar_set_trial (CRO_TRIAL_BAR (self->bar), self->number, numbers);
  cro_trial_beside_set (CRO_TRIAL_BESIDE (self->beside), book, self->thing, self->number);
  begin_trial (self, list);
  CRO_BENCH_GET_CLASS (bench)->refresh (bench);
  g_signal_emit (self, signals[TRIED], 0);
}

static void
cro_trial_bench_refresh (CroBench *bench)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (bench);
  CroFigures *figures = cro_book_get_figures (book_of (self));
  CroRef thing = cro_bench_get_ref (bench);
  gboolean is_menu = thing.kind == CRO_REF_MENU;
  g_autoptr (CroBreakdown) breakdown = NULL;

  if (is_menu ? cro_model_menu (figures->model, thing.slot)->is_dead
              : cro_model_recipe (figures->model, thing.slot)->is_dead)
    return;
  breakdown = is_menu ? cro_breakdown_of_menu (figures, thing.slot)
                      : cro_breakdown_of_plate (figures, thing.slot);
  cro_guest_figures_show (CRO_GUEST_FIGURES (self->figures), breakdown);
  follow (self);
}

void
cro_trial_bench_leave (CroTrialBench *self)
{
  /* What was kept as its field was left is not told of yet. */
  if (self->trial != NULL && !write_down (self))
    cro_trials_set (book_of (self), self->thing, self->number, NULL);
  go_without (self);
}

/* --- What becomes of it ----------------------------------------------------------------------- */

static void
go_to (CroTrialBench *self,
       guint          number)
{
  cro_trials_set_front (book_of (self), self->thing, number);
  g_signal_emit (self, signals[ENDED], 0);
}

/* To the next of its trials, or the book. */
static void
forget (CroTrialBench *self)
{
  go_without (self);
  cro_trials_set (book_of (self), self->thing, self->number, NULL);
  go_to (self, 0);
}

/* What is kept, as from a later day no figure tells of it. NULL with error. */
static char *
dup_kept (CroTrialBench  *self,
          CroDate         from,
          GError        **error)
{
  CroBook *tried = cro_trial_get_book (self->trial);
  g_autoptr (GPtrArray) list = cro_trial_list (self->trial, error);
  g_autofree char *words = list != NULL ? cro_tried_all_words (tried, list) : NULL;
  g_autofree char *day = cro_date_to_text (from);
  g_autofree char *at_once = NULL, *dated = NULL;

  if (list == NULL)
    return NULL;
  if (!cro_tried_is_dated (list) || from == cro_book_get_figures (tried)->date)
    /* Translators: what was tried and is in the book now. */
    return g_strdup_printf (_("Kept: %s"), words);
  at_once = dup_some (self, list, FALSE);
  dated = dup_some (self, list, TRUE);
  if (*at_once != '\0')
    /* Translators: of what was tried and kept, first the prices and their first day, then what holds already. */
    return g_strdup_printf (_("Kept. From %s: %s. Changed at once: %s"), day, dated, at_once);
  /* Translators: the first day of the prices among what was tried and is in the book now, and what that is. */
  return g_strdup_printf (_("Kept, prices from %s: %s"), day, words);
}

static void
keep_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *from)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (widget);
  const char *name = cro_ref_name (cro_book_get_model (book_of (self)),
                                   cro_bench_get_ref (CRO_BENCH (self)));
  g_autofree char *label = cro_isolate_printf (_("trial of %s"), name);
  CroDate day = (CroDate) g_variant_get_int32 (from);
  g_autofree char *kept = NULL;
  g_autoptr (GError) error = NULL;

  if (self->trial == NULL)
    return;
  kept = dup_kept (self, day, &error);
  if (kept == NULL || !cro_trial_keep (self->trial, label, day, &error))
    {
      cro_bench_fail (CRO_BENCH (self), error);
      return;
    }
  forget (self);
  g_signal_emit (self, signals[KEPT], 0, kept);
}

static void
drop_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  forget (CRO_TRIAL_BENCH (widget));
}

static void
other_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (widget);
  guint number = cro_trials_find_free (book_of (self), self->thing);

  cro_trials_set (book_of (self), self->thing, number, "[]");
  go_to (self, number);
}

static void
show_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *number)
{
  go_to (CRO_TRIAL_BENCH (widget), g_variant_get_uint32 (number));
}

static void
beside_chosen_cb (CroTrialBench *self)
{
  g_autoptr (GPtrArray) list = self->trial != NULL ? cro_trial_list (self->trial, NULL) : NULL;

  if (list != NULL)
    show_beside (self, list);
}

static void
add_menus (CroTrialBench *self)
{
  CroTrialBar *bar = CRO_TRIAL_BAR (self->bar);

  cro_trial_bar_add (bar, cro_hold_menu_new (self->inner));
  cro_trial_bar_add (bar, cro_replace_menu_new (self->inner));
  cro_trial_bar_add (bar, cro_trial_beside_menu_new (CRO_TRIAL_BESIDE (self->beside)));
}

/* --- The bench inside ------------------------------------------------------------------------- */

/* A plate of a menu is tried here with it. All else that it leads to is a thing of the book. */
static void
open_ref_cb (CroTrialBench *self,
             int            kind,
             guint          slot,
             int            cause)
{
  CroModel *tried;
  CroRef ref;

  if (self->trial == NULL)
    return;
  tried = cro_book_get_model (cro_trial_get_book (self->trial));
  if (self->plate != NULL && kind == CRO_REF_RECIPE && slot != CRO_NO_SLOT && cause == CRO_NO_CAUSE
      && cro_model_recipe (tried, slot)->is_plate)
    {
      show_plate (self, slot);
      return;
    }
  if (plate_shown (self).slot != CRO_NO_SLOT && cro_ref_equal (CRO_REF ((CroRefKind) kind, slot),
                                                               cro_bench_get_ref (self->inner)))
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "trial.back", NULL);
      return;
    }
  ref = cro_trial_find (tried, CRO_REF ((CroRefKind) kind, slot), model_of (self));
  if (ref.kind != CRO_REF_NONE)
    cro_bench_open_cure (CRO_BENCH (self), ref, cause);
}

/* Of what is in sight. */
static void
picture_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *id)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (widget);
  CroBench *seen = plate_shown (self).slot != CRO_NO_SLOT ? self->plate : self->inner;

  gtk_widget_activate_action (GTK_WIDGET (seen), "bench.picture", "i", g_variant_get_int32 (id));
}

static CroBench *
inner_new (CroTrialBench *self,
           GType          type)
{
  static const char *const whole[] = { "bench.duplicate", "bench.become", "bench.remove" };
  GtkWidget *inner = g_object_new (type, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (whole); i++)
    gtk_widget_action_set_enabled (inner, whole[i], FALSE);
  g_signal_connect_object (inner, "open-ref", G_CALLBACK (open_ref_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (inner, "say", G_CALLBACK (cro_bench_say), self, G_CONNECT_SWAPPED);
  gtk_widget_set_vexpand (inner, TRUE);
  return CRO_BENCH (inner);
}

static CroBench *
plate_new (CroTrialBench *self)
{
  CroBench *plate = inner_new (self, CRO_TYPE_PLATE_BENCH);

  cro_plate_bench_set_trial (CRO_PLATE_BENCH (plate));
  return plate;
}

static CroBench *
menu_new (CroTrialBench *self)
{
  CroBench *menu = inner_new (self, CRO_TYPE_MENU_BENCH);

  cro_menu_bench_set_trial (CRO_MENU_BENCH (menu));
  return menu;
}

static GtkWidget *
plate_page_new (CroTrialBench *self)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  self->head = cro_trial_head_new ();
  gtk_box_append (GTK_BOX (page), self->head);
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->plate));
  return page;
}

/* --- The widget ------------------------------------------------------------------------------- */

/* What stands inside is of the kind that the trial is of. */
static void
cro_trial_bench_constructed (GObject *object)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (object);
  gboolean is_menu = CRO_BENCH_GET_CLASS (self)->kind == CRO_REF_MENU;

  G_OBJECT_CLASS (cro_trial_bench_parent_class)->constructed (object);
  self->inner = is_menu ? menu_new (self) : plate_new (self);
  gtk_stack_add_child (self->inners, GTK_WIDGET (self->inner));
  if (is_menu)
    {
      self->plate = plate_new (self);
      gtk_stack_add_named (self->inners, plate_page_new (self), PLATE_PAGE);
    }
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "trial.back", FALSE);
  add_menus (self);
}

static void
cro_trial_bench_dispose (GObject *object)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (object);

  if (self->box != NULL)
    end_trial (self);
  g_clear_pointer (&self->cell, g_free);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_trial_bench_parent_class)->dispose (object);
}

static void
cro_trial_bench_class_init (CroTrialBenchClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = cro_trial_bench_constructed;
  G_OBJECT_CLASS (klass)->dispose = cro_trial_bench_dispose;
  CRO_BENCH_CLASS (klass)->show = cro_trial_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_trial_bench_refresh;
  gtk_widget_class_install_action (widget_class, "bench.picture", "i", picture_cb);
  gtk_widget_class_install_action (widget_class, "trial.keep", "i", keep_cb);
  gtk_widget_class_install_action (widget_class, "trial.drop", NULL, drop_cb);
  gtk_widget_class_install_action (widget_class, "trial.other", NULL, other_cb);
  gtk_widget_class_install_action (widget_class, "trial.show", "u", show_cb);
  gtk_widget_class_install_action (widget_class, "trial.back", NULL, back_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Left, GDK_ALT_MASK, "trial.back", NULL);
  signals[TRIED] = g_signal_new ("tried", CRO_TYPE_TRIAL_BENCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
  signals[ENDED] = g_signal_new ("ended", CRO_TYPE_TRIAL_BENCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
  signals[KEPT] = g_signal_new ("kept", CRO_TYPE_TRIAL_BENCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 1, G_TYPE_STRING | G_SIGNAL_TYPE_STATIC_SCOPE);
}

static void
cro_trial_bench_init (CroTrialBench *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  self->bar = cro_trial_bar_new ();
  self->figures = cro_guest_figures_new (CRO_BENCH (self));
  cro_guest_figures_set_small (CRO_GUEST_FIGURES (self->figures));
  self->inners = GTK_STACK (gtk_stack_new ());
  gtk_widget_set_visible (GTK_WIDGET (self->inners), FALSE);
  gtk_stack_set_vhomogeneous (self->inners, FALSE);
  gtk_stack_set_hhomogeneous (self->inners, FALSE);
  self->beside = cro_trial_beside_new ();
  g_signal_connect_object (self->beside, "chosen", G_CALLBACK (beside_chosen_cb), self, G_CONNECT_SWAPPED);
  cro_trial_bar_add_below (CRO_TRIAL_BAR (self->bar), self->beside);
  gtk_widget_add_css_class (head, "bench-head");
  gtk_box_append (GTK_BOX (head), self->bar);
  gtk_box_append (GTK_BOX (head), self->figures);
  gtk_box_append (GTK_BOX (self->box), head);
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->inners));
  gtk_widget_add_css_class (self->box, "trial");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

static void
cro_plate_trial_class_init (CroPlateTrialClass *klass)
{
  CRO_BENCH_CLASS (klass)->kind = CRO_REF_RECIPE;
}

static void
cro_plate_trial_init (CroPlateTrial *self)
{
}

static void
cro_menu_trial_class_init (CroMenuTrialClass *klass)
{
  CRO_BENCH_CLASS (klass)->kind = CRO_REF_MENU;
}

static void
cro_menu_trial_init (CroMenuTrial *self)
{
}
