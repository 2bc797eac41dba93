#include "config.h"

#include "cro-trial-bench.h"

#include <glib/gi18n.h>

#include "cro-breakdown.h"
#include "cro-isolate.h"
#include "cro-pane.h"
#include "cro-plate-bench.h"
#include "cro-plate-figures.h"
#include "cro-trial-bar.h"
#include "cro-trial-menu.h"
#include "cro-trial-offers.h"
#include "cro-trial-table.h"
#include "cro-trial.h"
#include "cro-trials.h"
#include "cro-tried-words.h"
#include "cro-words.h"

/* Pixels that the comparison takes at most. */
#define MOST_OF_TABLE 130

/* A row of the menu beside those of trials. */
#define ANOTHER G_MAXUINT

struct _CroTrialBench
{
  CroBench   parent_instance;

  GtkWidget *box;
  GtkWidget *bar;
  GtkWidget *figures;    /* of the book */
  GtkWidget *table;      /* beside another trial */
  GtkWidget *scroller;   /* around it; hidden where there is no other */
  GArray    *beside;     /* numbers of the other trials, 0, which closes the table, and ANOTHER */
  guint      other;      /* the one beside it; 0: none */
  CroBench  *inner;      /* on the trial's book */

  CroTrial  *trial;
  gulong     changed_id; /* of its book */
  gint64     thing;      /* the plate's id */
  guint      number;     /* which of its trials */
  guint64    edition;    /* of the trial's book when it was written down */
};

G_DEFINE_FINAL_TYPE (CroTrialBench, cro_trial_bench, CRO_TYPE_BENCH)

enum
{
  TRIED,
  ENDED,
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

/* --- What is tried ---------------------------------------------------------------------------- */

typedef char *(*Words) (CroBook *book, const CroTried *tried);

static char *
dup_words (CroBook   *book,
           GPtrArray *list,
           Words      words_of)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < list->len; i++)
    {
      g_autofree char *words = words_of (book, list->pdata[i]);

      g_string_append_printf (text, "%s%s", i > 0 ? " · " : "", words);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
show_tried (CroTrialBench *self,
            GPtrArray     *list)
{
  CroBook *tried = cro_trial_get_book (self->trial);
  GPtrArray *left = cro_trial_get_left (self->trial);
  g_autofree char *words = dup_words (tried, list, cro_tried_words);
  g_autofree char *aside = dup_words (book_of (self), left, cro_tried_left_words);

  cro_trial_bar_set_tried (CRO_TRIAL_BAR (self->bar), list->len, words, left->len, aside,
                           cro_tried_is_dated (list), cro_book_get_figures (tried)->date);
}

/* A trial that is not shown is made for the look of it. */
static void
add_other (CroTrialBench *self)
{
  g_autofree char *text = cro_trials_dup (book_of (self), self->thing, self->other);
  g_autoptr (GPtrArray) list = text != NULL ? cro_tried_from_text (text) : NULL;
  g_autoptr (CroTrial) other = list != NULL ? cro_trial_new (book_of (self), list, "", NULL) : NULL;
  g_autoptr (GPtrArray) done = other != NULL ? cro_trial_list (other, NULL) : NULL;
  g_autofree char *words = NULL, *title = NULL;
  CroBook *tried;

  if (done == NULL)
    return;
  tried = cro_trial_get_book (other);
  words = dup_words (tried, done, cro_tried_words);
  title = g_strdup_printf (_("Trial %u"), self->other);
  cro_trial_table_add (CRO_TRIAL_TABLE (self->table), title, tried,
                       CRO_REF (CRO_REF_RECIPE, cro_slots_get (&cro_book_get_model (tried)->plate_slots,
                                                               self->thing)),
                       words);
}

static void
show_table (CroTrialBench *self,
            GPtrArray     *list)
{
  CroTrialTable *table = CRO_TRIAL_TABLE (self->table);
  g_autofree char *words = dup_words (cro_trial_get_book (self->trial), list, cro_tried_words);
  g_autofree char *title = g_strdup_printf (_("Trial %u"), self->number);

  gtk_widget_set_visible (self->scroller, self->other != 0);
  cro_trial_table_clear (table);
  if (self->other == 0)
    return;
  cro_trial_table_add (table, _("The book"), book_of (self), cro_bench_get_ref (CRO_BENCH (self)), NULL);
  cro_trial_table_add (table, title, cro_trial_get_book (self->trial), cro_bench_get_ref (self->inner),
                       words);
  add_other (self);
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
  return all->len > 0;
}

/* A key that is typed tries nothing yet. */
static void
tried_cb (CroTrialBench *self)
{
  CroBook *tried = cro_trial_get_book (self->trial);
  g_autoptr (GPtrArray) list = NULL;

  if (self->edition == cro_book_get_edition (tried))
    return;
  list = cro_trial_list (self->trial, NULL);
  if (list == NULL)
    return;
  write_down (self);
  show_tried (self, list);
  show_table (self, list);
  g_signal_emit (self, signals[TRIED], 0);
}

/* --- A trial ---------------------------------------------------------------------------------- */

static void
end_trial (CroTrialBench *self)
{
  if (self->trial == NULL)
    return;
  g_clear_signal_handler (&self->changed_id, cro_trial_get_book (self->trial));
  cro_bench_set_book (self->inner, NULL);
  g_clear_pointer (&self->trial, cro_trial_free);
}

static void
begin_trial (CroTrialBench *self,
             GPtrArray     *list)
{
  const CroRecipe *plate = cro_model_recipe (cro_book_get_model (book_of (self)),
                                             cro_bench_get_slot (CRO_BENCH (self)));
  g_autofree char *label = cro_isolate_printf (_("trial of %s"), plate->name);
  g_autoptr (GPtrArray) done = NULL;
  g_autoptr (GError) error = NULL;
  CroBook *tried;

  end_trial (self);
  self->trial = cro_trial_new (book_of (self), list, label, &error);
  if (self->trial == NULL)
    {
      cro_bench_fail (CRO_BENCH (self), error);
      return;
    }
  tried = cro_trial_get_book (self->trial);
  cro_bench_set_book (self->inner, tried);
  cro_bench_put (self->inner, cro_slots_get (&cro_book_get_model (tried)->plate_slots, self->thing));
  self->changed_id = g_signal_connect_object (tried, "changed", G_CALLBACK (tried_cb), self,
                                              G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  done = cro_trial_list (self->trial, NULL);
  if (done == NULL)
    return;
  write_down (self);
  show_tried (self, done);
  show_table (self, done);
  if (cro_trial_get_left (self->trial)->len > 0)
    cro_bench_say (CRO_BENCH (self), _("Part of this trial cannot be tried now. It is not lost."));
}

/* The book has moved: what is tried is tried on what it is now. */
static void
follow (CroTrialBench *self)
{
  g_autoptr (GPtrArray) list = NULL;

  if (self->trial == NULL || !cro_trial_is_behind (self->trial))
    return;
  list = cro_trial_list_all (self->trial, NULL);
  begin_trial (self, list);
  g_signal_emit (self, signals[TRIED], 0);
}

static void
cro_trial_bench_show (CroBench *bench)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (bench);
  CroBook *book = book_of (self);
  g_autofree char *text = NULL;
  g_autoptr (GPtrArray) list = NULL;
  g_autoptr (GArray) numbers = NULL;

  self->thing = cro_model_recipe (cro_book_get_model (book), cro_bench_get_slot (bench))->id;
  self->number = cro_trials_get_front (book, self->thing);
  self->other = 0;
  text = cro_trials_dup (book, self->thing, self->number);
  list = text != NULL ? cro_tried_from_text (text) : NULL;
  numbers = cro_trials_list (book, self->thing);
  cro_trial_bar_set_trial (CRO_TRIAL_BAR (self->bar), self->number, numbers);
  begin_trial (self, list);
  CRO_BENCH_GET_CLASS (bench)->refresh (bench);
  g_signal_emit (self, signals[TRIED], 0);
}

static void
cro_trial_bench_refresh (CroBench *bench)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (bench);
  CroFigures *figures = cro_book_get_figures (book_of (self));
  guint32 plate = cro_bench_get_slot (bench);
  g_autoptr (CroBreakdown) breakdown = NULL;

  if (cro_model_recipe (figures->model, plate)->is_dead)
    return;
  breakdown = cro_breakdown_of_plate (figures, plate);
  cro_plate_figures_show (CRO_PLATE_FIGURES (self->figures), breakdown);
  follow (self);
}

void
cro_trial_bench_leave (CroTrialBench *self)
{
  /* What was kept as its field was left is not told of yet. */
  if (self->trial != NULL && !write_down (self))
    cro_trials_set (book_of (self), self->thing, self->number, NULL);
  end_trial (self);
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
  end_trial (self);
  cro_trials_set (book_of (self), self->thing, self->number, NULL);
  go_to (self, 0);
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
  g_autoptr (GError) error = NULL;

  if (self->trial == NULL)
    return;
  if (!cro_trial_keep (self->trial, label, (CroDate) g_variant_get_int32 (from), &error))
    {
      cro_bench_fail (CRO_BENCH (self), error);
      return;
    }
  forget (self);
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

/* --- Beside another ---------------------------------------------------------------------------- */

static void
fill_beside (CroTrialMenu *menu,
             gpointer      bench)
{
  CroTrialBench *self = bench;
  g_autoptr (GArray) numbers = cro_trials_list (book_of (self), self->thing);
  const guint none = 0, another = ANOTHER;

  g_array_set_size (self->beside, 0);
  for (guint i = 0; i < numbers->len; i++)
    {
      guint number = g_array_index (numbers, guint, i);
      g_autofree char *text = g_strdup_printf (_("Trial %u"), number);

      if (number == self->number)
        continue;
      g_array_append_val (self->beside, number);
      cro_trial_menu_add (menu, text, TRUE);
    }
  if (self->other != 0)
    {
      g_array_append_val (self->beside, none);
      cro_trial_menu_add (menu, _("Close the comparison"), TRUE);
    }
  g_array_append_val (self->beside, another);
  cro_trial_menu_add (menu, _("Begin another trial"), TRUE);
}

static void
beside_chosen (CroTrialMenu *menu,
               guint         row,
               gpointer      bench)
{
  CroTrialBench *self = bench;
  g_autoptr (GPtrArray) list = self->trial != NULL ? cro_trial_list (self->trial, NULL) : NULL;

  if (g_array_index (self->beside, guint, row) == ANOTHER)
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "trial.other", NULL);
      return;
    }
  self->other = g_array_index (self->beside, guint, row);
  if (list != NULL)
    show_table (self, list);
}

static void
add_menus (CroTrialBench *self)
{
  CroTrialBar *bar = CRO_TRIAL_BAR (self->bar);

  cro_trial_bar_add (bar, cro_hold_menu_new (self->inner));
  cro_trial_bar_add (bar, cro_replace_menu_new (self->inner));
  /* It always has a row. */
  cro_trial_bar_add (bar, cro_trial_menu_new (_("Compare"), "", fill_beside, beside_chosen, self));
}

/* --- The bench inside ------------------------------------------------------------------------- */

/* What it leads to is a thing of the book. */
static void
open_ref_cb (CroTrialBench *self,
             int            kind,
             guint          slot,
             int            cause)
{
  CroRef ref;

  if (self->trial == NULL)
    return;
  ref = cro_trial_find (cro_book_get_model (cro_trial_get_book (self->trial)),
                        CRO_REF ((CroRefKind) kind, slot), cro_book_get_model (book_of (self)));
  if (ref.kind != CRO_REF_NONE)
    cro_bench_open_cure (CRO_BENCH (self), ref, cause);
}

static void
picture_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *id)
{
  gtk_widget_activate_action (GTK_WIDGET (CRO_TRIAL_BENCH (widget)->inner), "bench.picture", "i",
                              g_variant_get_int32 (id));
}

static GtkWidget *
inner_new (CroTrialBench *self)
{
  static const char *const whole[] = { "bench.duplicate", "bench.become", "bench.remove" };
  GtkWidget *inner = g_object_new (CRO_TYPE_PLATE_BENCH, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (whole); i++)
    gtk_widget_action_set_enabled (inner, whole[i], FALSE);
  g_signal_connect_object (inner, "open-ref", G_CALLBACK (open_ref_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (inner, "say", G_CALLBACK (cro_bench_say), self, G_CONNECT_SWAPPED);
  cro_plate_bench_set_trial (CRO_PLATE_BENCH (inner));
  gtk_widget_set_vexpand (inner, TRUE);
  return inner;
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_trial_bench_dispose (GObject *object)
{
  CroTrialBench *self = CRO_TRIAL_BENCH (object);

  if (self->box != NULL)
    end_trial (self);
  g_clear_pointer (&self->beside, g_array_unref);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_trial_bench_parent_class)->dispose (object);
}

static void
cro_trial_bench_class_init (CroTrialBenchClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_trial_bench_dispose;
  CRO_BENCH_CLASS (klass)->kind = CRO_REF_RECIPE;
  CRO_BENCH_CLASS (klass)->show = cro_trial_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_trial_bench_refresh;
  gtk_widget_class_install_action (widget_class, "bench.picture", "i", picture_cb);
  gtk_widget_class_install_action (widget_class, "trial.keep", "i", keep_cb);
  gtk_widget_class_install_action (widget_class, "trial.drop", NULL, drop_cb);
  gtk_widget_class_install_action (widget_class, "trial.other", NULL, other_cb);
  gtk_widget_class_install_action (widget_class, "trial.show", "u", show_cb);
  signals[TRIED] = g_signal_new ("tried", CRO_TYPE_TRIAL_BENCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
  signals[ENDED] = g_signal_new ("ended", CRO_TYPE_TRIAL_BENCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

/* What was tried may be long: the lines keep their room. */
static GtkWidget *
scroller_new (GtkWidget *table)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), table);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), MOST_OF_TABLE);
  gtk_widget_set_visible (scroller, FALSE);
  return scroller;
}

static void
cro_trial_bench_init (CroTrialBench *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  self->bar = cro_trial_bar_new ();
  self->figures = cro_plate_figures_new (CRO_BENCH (self));
  cro_plate_figures_set_small (CRO_PLATE_FIGURES (self->figures));
  self->inner = CRO_BENCH (inner_new (self));
  self->beside = g_array_new (FALSE, FALSE, sizeof (guint));
  self->table = cro_trial_table_new ();
  self->scroller = scroller_new (self->table);
  add_menus (self);
  cro_trial_bar_add_below (CRO_TRIAL_BAR (self->bar), self->scroller);
  gtk_widget_add_css_class (head, "bench-head");
  gtk_box_append (GTK_BOX (head), self->bar);
  gtk_box_append (GTK_BOX (head), self->figures);
  gtk_box_append (GTK_BOX (self->box), head);
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->inner));
  gtk_widget_add_css_class (self->box, "trial");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}
