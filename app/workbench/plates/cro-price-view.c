#include "config.h"

#include "cro-price-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-dated-fields.h"
#include "cro-day-entry.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-habit-choice.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-price-row.h"
#include "cro-price-steps.h"
#include "cro-read-only.h"
#include "cro-sold-as.h"
#include "cro-spoken.h"
#include "cro-words-price.h"
#include "cro-words.h"
#include "cro-wrap.h"

#define HINT_CHARS 26

struct _CroPriceView
{
  GtkWidget     parent_instance;

  CroBench     *bench;      /* borrowed */
  GtkWidget    *box;
  GtkWidget    *none;       /* why there is no price to show */
  GtkWidget    *menu;       /* opens the menu that the plate is given with */
  GtkWidget    *start;      /* where there is no price yet: fields for one, and for what it shall hold */
  GtkWidget    *price;
  GtkWidget    *target;
  GtkWidget    *table;
  GtkWidget    *head;
  GtkWidget    *list;
  GtkWidget    *fields;
  GtkWidget    *habit;
  GtkWidget    *from;
  GtkWidget    *hint;
  GtkSizeGroup *columns[CRO_PRICE_COLUMNS];
  guint         n;          /* rows that there are */
  guint32       of_menu;    /* slot; CRO_NO_SLOT: none */

  CroBook      *book;       /* what was read of which book, at which edition, for what; borrowed */
  guint64       edition;
  CroRef        read;
  CroPriceHabit of_house;
  GHashTable   *sold;       /* NULL: nothing is known */
  CroDate       last;       /* of the days in which that was */
};

G_DEFINE_FINAL_TYPE (CroPriceView, cro_price_view, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroPriceView *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- What is stored --------------------------------------------------------------------------- */

/* Read once for an edition of the book: a key asks nothing. */
static void
read_past (CroPriceView *self,
           CroRef        thing)
{
  CroBook *book = book_of (self);
  guint64 edition = cro_book_get_edition (book);

  if (self->book == book && self->edition == edition && cro_ref_equal (self->read, thing))
    return;
  self->book = book;
  self->edition = edition;
  self->read = thing;
  self->of_house = cro_price_habit_read (book);
  g_clear_pointer (&self->sold, g_hash_table_unref);
  self->sold = cro_sold_by_price_new (book, thing, &self->last, NULL);
  cro_habit_choice_bind (self->habit, book);
}

/* --- Rows ------------------------------------------------------------------------------------- */

static CroPriceRow *
row_at (CroPriceView *self,
        guint         i)
{
  return CRO_PRICE_ROW (gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), (int) i));
}

/* The focus stays on its price, wherever that stands then. */
static gint64
price_in_focus (CroPriceView *self)
{
  GtkWidget *row = gtk_widget_get_focus_child (self->list);

  return CRO_IS_PRICE_ROW (row) ? cro_price_row_get_price (CRO_PRICE_ROW (row)) : CRO_NOT_SET;
}

static void
show_rows (CroPriceView    *self,
           CroFigures      *figures,
           const CroFigure *figure,
           GArray          *steps)
{
  gint64 focused = price_in_focus (self);

  for (; self->n < steps->len; self->n++)
    gtk_list_box_append (GTK_LIST_BOX (self->list), cro_price_row_new (self->columns));
  for (guint i = 0; i < self->n; i++)
    {
      gtk_widget_set_visible (GTK_WIDGET (row_at (self, i)), i < steps->len);
      if (i < steps->len)
        cro_price_row_set (row_at (self, i), figures->model, figure,
                           &g_array_index (steps, CroPriceStep, i));
      if (i < steps->len && g_array_index (steps, CroPriceStep, i).price == focused)
        gtk_widget_grab_focus (GTK_WIDGET (row_at (self, i)));
    }
}

/* --- Where there is no price ------------------------------------------------------------------ */

/* Of what has neither a price nor a target: what a price is to hold. Where none is said, which many
 * houses ask: common practice, no source. */
#define ASKED_TARGET "30"

/* NaN where the field holds none. */
static double
asked_target (CroPriceView *self)
{
  g_auto (CroEntry) read = { 0 };

  return cro_entry_pct (gtk_editable_get_text (GTK_EDITABLE (self->target)), CRO_RANGE_PART_PCT,
                        cro_words_entry (), &read)
             ? (double) read.micro / 1e6 : NAN;
}

static char *
dup_why_none (CroPriceView    *self,
              CroFigures      *figures,
              const CroFigure *figure,
              GArray          *steps)
{
  if (figure->cost == 0)
    return g_strdup (_("Nothing has a cost yet. Type a line with a price."));
  for (guint i = 0; i < steps->len; i++)
    {
      const CroPriceStep *step = &g_array_index (steps, CroPriceStep, i);
      g_autofree char *price = NULL, *pct = NULL;

      if (!step->holds)
        continue;
      price = cro_words_take_short (cro_known_of_cost (figure), cro_words_price (figures->model, step->price));
      pct = cro_words_pct (isnan (figure->target_pct) ? asked_target (self) : figure->target_pct);
      /* Translators: a price, and the food cost in per cent that it is within. */
      return g_strdup_printf (_("No price yet. %s would hold %s."), price, pct);
    }
  return g_strdup (self->read.kind == CRO_REF_MENU ? _("No price yet. Set one.")
                                                   : _("No price yet. Set one, or put the plate on a menu."));
}

static void
show_none (CroPriceView    *self,
           CroFigures      *figures,
           const CroFigure *figure,
           GArray          *steps)
{
  const char *menu = self->of_menu != CRO_NO_SLOT
                         ? cro_model_menu (figures->model, self->of_menu)->name
                         : NULL;
  /* Translators: of a plate that has no price of its own: the menu that has. */
  g_autofree char *given = menu != NULL ? cro_isolate_printf (_("Served in %s. If sold alone:"), menu)
                                        : NULL;
  /* Translators: a button: the name of a menu. */
  g_autofree char *open = menu != NULL ? cro_isolate_printf (_("Price of %s"), menu) : NULL;
  gboolean has_none = self->of_menu == CRO_NO_SLOT && cro_sold_price (figures->model, self->read) == CRO_NOT_SET;
  g_autofree char *why = has_none ? dup_why_none (self, figures, figure, steps) : NULL;
  const char *text = given != NULL ? given : why;

  gtk_label_set_label (GTK_LABEL (self->none), text != NULL ? text : "");
  gtk_widget_set_visible (self->none, text != NULL);
  gtk_widget_set_visible (self->start, has_none && figure->cost != 0);
  gtk_widget_set_visible (gtk_widget_get_parent (self->target), isnan (figure->target_pct));
  gtk_widget_set_visible (self->menu, open != NULL);
  if (open != NULL)
    gtk_button_set_label (GTK_BUTTON (self->menu), open);
}

static void
menu_cb (CroPriceView *self)
{
  cro_bench_open (self->bench, CRO_REF (CRO_REF_MENU, self->of_menu));
}

/* --- Showing ---------------------------------------------------------------------------------- */

/* In which days it was sold, where the head has no room for that. */
static void
show_days (CroPriceView *self)
{
  g_autofree char *date = cro_date_to_text (self->last);
  /* Translators: the last of the 28 days. */
  g_autofree char *text = g_strdup_printf (_("Sold: in the 28 days to %s. Press Enter on a price to "
                                             "set it."),
                                           date);

  gtk_label_set_label (GTK_LABEL (self->hint), text);
}

static void
refresh (GtkWidget *view)
{
  CroPriceView *self = CRO_PRICE_VIEW (view);
  CroFigures *figures = cro_book_get_figures (book_of (self));
  CroRef thing = cro_bench_get_ref (self->bench);
  CroRef sold = cro_sold_as (figures, thing);
  CroFigure figure = cro_figure_of (figures, thing);
  /* What has a price and no target is over none. */
  gboolean asks_target = cro_ref_equal (sold, thing) && cro_sold_price (figures->model, thing) == CRO_NOT_SET;
  g_autoptr (GArray) steps = NULL;

  cro_day_entry_show (self->from, book_of (self));
  cro_read_only_show (self->price, book_of (self));
  read_past (self, thing);
  self->of_menu = cro_ref_equal (sold, thing) ? CRO_NO_SLOT : sold.slot;
  steps = asks_target ? cro_price_steps_for (figures, thing, self->of_house, self->sold, asked_target (self))
                      : cro_price_steps_new (figures, thing, self->of_house, self->sold);
  show_none (self, figures, &figure, steps);
  /* Rows stand against what is asked to be held, where nothing else is. */
  if (asks_target && isnan (figure.target_pct))
    figure.target_pct = asked_target (self);
  gtk_widget_set_visible (self->table, steps->len > 0);
  gtk_widget_set_visible (self->fields, steps->len > 0);
  show_days (self);
  cro_price_row_head_set (self->head, figures->model);
  show_rows (self, figures, &figure, steps);
}

static void
show (GtkWidget *view)
{
  gtk_editable_set_text (GTK_EDITABLE (CRO_PRICE_VIEW (view)->from), "");
  refresh (view);
}

/* --- Keeping ---------------------------------------------------------------------------------- */

/* One act: the price holds from the day in the field. */
static gboolean
keep_price (CroPriceView *self,
            gint64        price)
{
  g_autofree char *label = cro_bench_dup_label (self->bench, _("price"));
  g_autofree char *money = cro_words_price (cro_book_get_model (book_of (self)), price);
  g_autofree char *date = NULL, *said = NULL;
  g_autoptr (GError) error = NULL;
  CroDate from;

  if (!cro_dated_fields_read (self->from, &from, NULL))
    return FALSE;
  if (!cro_edit_set_selling_price (book_of (self), label, cro_bench_get_ref (self->bench), from, price,
                                   &error))
    {
      cro_bench_fail (self->bench, error);
      return FALSE;
    }
  date = cro_date_to_text (from);
  /* Translators: a selling price, and the day from which it holds. */
  said = g_strdup_printf (_("Price %s from %s"), money, date);
  gtk_editable_set_text (GTK_EDITABLE (self->from), "");
  cro_bench_say (self->bench, said);
  return TRUE;
}

static void
activated_cb (CroPriceView  *self,
              GtkListBoxRow *row)
{
  keep_price (self, cro_price_row_get_price (CRO_PRICE_ROW (row)));
}

static void
price_cb (CroPriceView *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->price));
  const char *currency = cro_book_get_model (book_of (self))->currency;
  g_auto (CroEntry) read = { 0 };

  if (!cro_entry_selling_price (text, currency, CRO_RANGE_ABOVE_0, &read))
    {
      g_autofree char *why = read.status == CRO_ENTRY_EMPTY
                                 ? g_strdup (_("Type a price."))
                                 : cro_words_price_reason (text, &read, currency);

      cro_bench_say (self->bench, why);
      return;
    }
  if (keep_price (self, read.micro))
    gtk_editable_set_text (GTK_EDITABLE (self->price), "");
}

static void
target_cb (CroPriceView *self)
{
  if (self->book != NULL)
    refresh (GTK_WIDGET (self));
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_price_view_dispose (GObject *object)
{
  CroPriceView *self = CRO_PRICE_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->sold, g_hash_table_unref);
  for (int i = 0; i < CRO_PRICE_COLUMNS; i++)
    g_clear_object (&self->columns[i]);
  G_OBJECT_CLASS (cro_price_view_parent_class)->dispose (object);
}

static void
cro_price_view_class_init (CroPriceViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_price_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static GtkWidget *
phrase_new (const char *word,
            GtkWidget  *control)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *label = gtk_label_new (word);

  gtk_widget_add_css_class (label, "dim-label");
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), control);
  return box;
}

static void
make_fields (CroPriceView *self)
{
  self->fields = cro_wrap_new (12, 6);
  self->hint = cro_text_new (NULL, "caption");
  /* Narrow enough to stand beside the date: below it a tenth row would push it out of sight. */
  gtk_label_set_max_width_chars (GTK_LABEL (self->hint), HINT_CHARS);
  gtk_widget_set_valign (self->hint, GTK_ALIGN_CENTER);
  self->habit = cro_habit_choice_new ();
  self->from = cro_entry_new (_("The price holds from"), cro_date_chars ());
  /* Translators: before a choice: which prices the house asks. */
  cro_wrap_append (CRO_WRAP (self->fields), phrase_new (_("prices as"), self->habit));
  /* Translators: before a date: since when a price that is chosen holds. */
  cro_wrap_append (CRO_WRAP (self->fields), phrase_new (_("from"), self->from));
  cro_wrap_append (CRO_WRAP (self->fields), self->hint);
}

static void
make_start (CroPriceView *self)
{
  self->start = cro_wrap_new (12, 6);
  self->price = cro_entry_new (_("Price with tax"), 8);
  self->target = cro_entry_new (_("Food cost that the price shall hold, %"), 4);
  cro_entry_put (self->target, ASKED_TARGET);
  g_signal_connect_object (self->price, "activate", G_CALLBACK (price_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->target, "changed", G_CALLBACK (target_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (self->start), phrase_new (_("price with tax"), self->price));
  /* Translators: before a field of per cent: the food cost that a price shall hold. */
  cro_wrap_append (CRO_WRAP (self->start), phrase_new (_("to hold %"), self->target));
}

static void
make_table (CroPriceView *self)
{
  GtkWidget *table = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  for (int i = 0; i < CRO_PRICE_COLUMNS; i++)
    self->columns[i] = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  self->list = gtk_list_box_new ();
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->list), GTK_SELECTION_NONE);
  /* What a plate is sold for moves by no stray click: one marks the row, as everywhere, two or Enter set it. */
  gtk_list_box_set_activate_on_single_click (GTK_LIST_BOX (self->list), FALSE);
  gtk_widget_add_css_class (self->list, "movers");
  cro_spoken_set (self->list, _("Price"));
  g_signal_connect_object (self->list, "row-activated", G_CALLBACK (activated_cb), self,
                           G_CONNECT_SWAPPED);
  self->head = cro_price_row_head_new (self->columns);
  gtk_box_append (GTK_BOX (table), self->head);
  gtk_box_append (GTK_BOX (table), self->list);
  self->table = table;
}

static void
cro_price_view_init (CroPriceView *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->of_menu = CRO_NO_SLOT;
  self->none = cro_text_new (NULL, "dim-label");
  self->menu = gtk_button_new_with_label ("");
  gtk_widget_set_halign (self->menu, GTK_ALIGN_START);
  g_signal_connect_object (self->menu, "clicked", G_CALLBACK (menu_cb), self, G_CONNECT_SWAPPED);
  make_fields (self);
  make_start (self);
  make_table (self);
  gtk_box_append (GTK_BOX (self->box), self->menu);
  gtk_box_append (GTK_BOX (self->box), self->none);
  gtk_box_append (GTK_BOX (self->box), self->start);
  gtk_box_append (GTK_BOX (self->box), self->table);
  gtk_box_append (GTK_BOX (self->box), self->fields);
}

static GtkWidget *
create (CroBench *bench)
{
  CroPriceView *self = g_object_new (CRO_TYPE_PRICE_VIEW, NULL);

  self->bench = bench;
  cro_dated_fields_begin (bench, self->from, (GtkWidget *const[]){ self->list, self->price, NULL });
  cro_dated_fields_tell (self->from);
  return GTK_WIDGET (self);
}

const CroPicture cro_price_picture = { .create = create, .show = show, .refresh = refresh };
