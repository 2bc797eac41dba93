#include "config.h"

#include "cro-mover-row.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-price-field.h"
#include "cro-mover-words.h"
#include "cro-number.h"
#include "cro-spoken.h"
#include "cro-swing-bar.h"
#include "cro-trial.h"
#include "cro-words.h"
#include "cro-wrap.h"

struct _CroMoverRow
{
  GtkListBoxRow parent_instance;

  GtkWidget    *name;
  GtkWidget    *bar;
  GtkWidget    *effect;
  GtkWidget    *value;
  GtkWidget    *limit;
  GtkWidget    *second;
  GtkWidget    *price;    /* in a trial; made when it is first needed */

  CroBench     *bench;    /* borrowed */
  CroMover      mover;
  CroLimit      holds;
  gboolean      is_exact;
};

G_DEFINE_FINAL_TYPE (CroMoverRow, cro_mover_row, GTK_TYPE_LIST_BOX_ROW)

/* "13.20/kg, 0.46 of the cost"; beside a field that holds the price the part alone. */
static char *
dup_value (CroModel       *model,
           CroRef          thing,
           const CroMover *mover,
           gint64          part,
           gboolean        is_field)
{
  g_autofree char *value = cro_words_mover_value (model, thing, mover);
  g_autofree char *plain = cro_money_to_text (part, cro_currency_digits (model->currency));
  g_autofree char *money = cro_words_known (mover->known, plain);

  if (mover->kind != CRO_MOVER_PRICE && mover->kind != CRO_MOVER_VALUE)
    return cro_isolate (value);
  if (is_field && mover->kind == CRO_MOVER_PRICE)
    /* Translators: what a price makes of the cost. */
    return g_strdup_printf (_("%s of the cost"), money);
  /* Translators: a price, and what it makes of the cost: "13.20/kg: 0.46 of the cost". */
  return g_strdup_printf (_("%s: %s of the cost"), value, money);
}

static void
show_limit (CroMoverRow *self,
            CroFigures  *figures)
{
  g_autofree char *text = cro_words_limit (figures, &self->mover, &self->holds, self->is_exact);

  gtk_label_set_label (GTK_LABEL (self->limit), text != NULL ? text : "");
  gtk_widget_set_visible (self->limit, text != NULL);
}

/* A row is one stop: all that it shows is said there. */
static void
speak (CroMoverRow *self)
{
  g_autofree char *text = g_strjoin (", ", gtk_label_get_label (GTK_LABEL (self->name)),
                                     gtk_label_get_label (GTK_LABEL (self->effect)),
                                     gtk_label_get_label (GTK_LABEL (self->value)),
                                     self->holds.kind != CRO_LIMIT_NONE
                                         ? gtk_label_get_label (GTK_LABEL (self->limit))
                                         : NULL,
                                     NULL);

  cro_spoken_set (GTK_WIDGET (self), text);
}

static gboolean
is_same (const CroMover *one,
         const CroMover *other)
{
  return one->kind == other->kind && one->item == other->item && one->line == other->line;
}

/* "was 13.20/kg"; NULL: it is what the book has. */
static char *
dup_old (CroMoverRow *self,
         CroModel    *model)
{
  CroBook *tried = cro_book_get_tried (cro_bench_get_book (self->bench));
  CroRef item = cro_trial_find (model, CRO_REF (CRO_REF_ITEM, self->mover.item),
                                cro_book_get_model (tried));
  g_autofree char *now = NULL, *old = NULL;
  CroBase base = (CroBase) model->measures[self->mover.item].base;

  if (item.kind == CRO_REF_NONE)
    return NULL;
  now = cro_words_unit_cost (model, base, self->mover.value);
  old = cro_words_unit_cost (model, base,
                             cro_figures_unit_cost (cro_book_get_figures (tried), item.slot));
  /* Translators: of a field in a trial: what the book has there. */
  return g_str_equal (now, old) ? NULL : g_strdup_printf (_("was %s"), old);
}

static void
show_price (CroMoverRow *self,
            CroFigures  *figures)
{
  gboolean is_field = self->mover.kind == CRO_MOVER_PRICE
                      && cro_book_get_tried (cro_bench_get_book (self->bench)) != NULL;
  g_autofree char *old = is_field ? dup_old (self, figures->model) : NULL;
  g_autofree char *text = NULL;

  if (is_field && self->price == NULL)
    {
      self->price = cro_price_field_new (self->bench);
      cro_wrap_insert_after (CRO_WRAP (self->second), self->price, NULL);
    }
  if (self->price != NULL)
    gtk_widget_set_visible (self->price, is_field);
  if (is_field && !cro_price_field_is_edited (CRO_PRICE_FIELD (self->price)))
    cro_price_field_set (CRO_PRICE_FIELD (self->price), self->mover.item, self->mover.value);
  if (old == NULL)
    return;
  text = g_strdup_printf ("%s, %s", gtk_label_get_label (GTK_LABEL (self->value)), old);
  gtk_label_set_label (GTK_LABEL (self->value), text);
}

gboolean
cro_mover_row_is_edited (CroMoverRow *self)
{
  return self->price != NULL && cro_price_field_is_edited (CRO_PRICE_FIELD (self->price));
}

gboolean
cro_mover_row_shows (CroMoverRow    *self,
                     const CroMover *mover)
{
  return is_same (mover, &self->mover);
}

void
cro_mover_row_set (CroMoverRow    *self,
                   CroFigures     *figures,
                   const CroMover *mover,
                   const CroLimit *limit,
                   double          largest,
                   gint64          part)
{
  g_autofree char *name = cro_words_mover (figures->model, mover);
  g_autofree char *effect = cro_words_mover_effect (figures->model, mover);
  gboolean is_trial = cro_book_get_tried (cro_bench_get_book (self->bench)) != NULL;
  g_autofree char *value = dup_value (figures->model, limit->thing, mover, part, is_trial);

  self->is_exact &= is_same (mover, &self->mover);
  self->mover = *mover;
  self->holds = *limit;
  gtk_label_set_label (GTK_LABEL (self->name), name);
  gtk_label_set_label (GTK_LABEL (self->effect), effect);
  gtk_label_set_label (GTK_LABEL (self->value), value);
  /* A bar would say which way. */
  gtk_widget_set_opacity (self->bar, cro_mover_is_bounded (mover) ? 1 : 0);
  cro_swing_bar_set (CRO_SWING_BAR (self->bar), mover->down / largest, mover->up / largest);
  show_price (self, figures);
  show_limit (self, figures);
  speak (self);
}

gboolean
cro_mover_row_toggle (CroMoverRow *self,
                      CroFigures  *figures)
{
  if (!self->holds.is_far
      && (self->holds.kind != CRO_LIMIT_NEVER || self->mover.kind != CRO_MOVER_PRICE))
    return FALSE;
  self->is_exact = !self->is_exact;
  show_limit (self, figures);
  speak (self);
  return TRUE;
}

CroRef
cro_mover_row_get_ref (CroMoverRow *self)
{
  return self->mover.line != CRO_NO_SLOT ? CRO_REF (CRO_REF_RECIPE, self->mover.recipe)
                                         : CRO_REF (CRO_REF_ITEM, self->mover.item);
}

static void
cro_mover_row_class_init (CroMoverRowClass *klass)
{
}

static void
cro_mover_row_init (CroMoverRow *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *first = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);

  self->second = cro_wrap_new (12, 0);
  self->name = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->name), 0);
  gtk_label_set_wrap (GTK_LABEL (self->name), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (self->name), PANGO_WRAP_WORD_CHAR);
  gtk_widget_set_hexpand (self->name, TRUE);
  self->bar = cro_swing_bar_new ();
  self->effect = cro_number_label_new ();
  gtk_label_set_width_chars (GTK_LABEL (self->effect), 8);
  self->value = cro_caption_new ("", 0);
  self->limit = cro_caption_new ("", 0);
  gtk_label_set_wrap (GTK_LABEL (self->value), TRUE);
  gtk_label_set_wrap (GTK_LABEL (self->limit), TRUE);
  gtk_box_append (GTK_BOX (first), self->name);
  gtk_box_append (GTK_BOX (first), self->bar);
  gtk_box_append (GTK_BOX (first), self->effect);
  cro_wrap_append (CRO_WRAP (self->second), self->value);
  cro_wrap_append (CRO_WRAP (self->second), self->limit);
  gtk_box_append (GTK_BOX (box), first);
  gtk_box_append (GTK_BOX (box), self->second);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (self), box);
}

GtkWidget *
cro_mover_row_new (CroBench *bench)
{
  CroMoverRow *self = g_object_new (CRO_TYPE_MOVER_ROW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
