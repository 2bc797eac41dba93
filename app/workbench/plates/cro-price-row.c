#include "config.h"

#include "cro-price-row.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-result-words.h"
#include "cro-spoken.h"
#include "cro-words.h"

enum
{
  PRICE,
  RESULT,   /* as the house speaks */
  LEFT,
  COEFFICIENT,
  SOLD,
};

#define SPACING 12
#define COEFFICIENT_DIGITS 1
#define PCT_DIGITS 1

struct _CroPriceRow
{
  GtkListBoxRow parent_instance;

  GtkWidget    *cells[CRO_PRICE_COLUMNS];
  GtkWidget    *more;
  gint64        price;
};

G_DEFINE_FINAL_TYPE (CroPriceRow, cro_price_row, GTK_TYPE_LIST_BOX_ROW)

/* What a column is called where it is read out; its head has less room. */
static const char *
name_of (CroModel *model,
         int       column)
{
  const char *const names[CRO_PRICE_COLUMNS] = {
    [PRICE] = _("price"), [RESULT] = NULL, [LEFT] = _("left per guest"),
    [COEFFICIENT] = _("coefficient"), [SOLD] = _("sold in 28 days"),
  };

  return column == RESULT ? cro_words_result_name (model) : names[column];
}

/* A house that speaks coefficient has it as the result. */
static gboolean
has_column (CroModel *model,
            int       column)
{
  return column != COEFFICIENT || model->speaks != CRO_SPEAKS_COEFFICIENT;
}

GtkWidget *
cro_price_row_head_new (GtkSizeGroup *const *columns)
{
  const char *const heads[CRO_PRICE_COLUMNS] = {
    [PRICE] = _("price"), [RESULT] = "",
    /* Translators: the head of a narrow column: what is left per guest, without tax. */
    [LEFT] = C_("money", "left"),
    [COEFFICIENT] = "×",
    /* Translators: the head of a narrow column: what was sold in the last 28 days. */
    [SOLD] = _("sold 28 d"),
  };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, SPACING);

  gtk_widget_add_css_class (box, "prices-head");
  for (int i = 0; i < CRO_PRICE_COLUMNS; i++)
    {
      GtkWidget *head = cro_caption_new (heads[i], 1);

      gtk_size_group_add_widget (columns[i], head);
      gtk_box_append (GTK_BOX (box), head);
    }
  return box;
}

void
cro_price_row_head_set (GtkWidget *head,
                        CroModel  *model)
{
  GtkWidget *label = gtk_widget_get_first_child (head);

  for (int i = 0; label != NULL; i++, label = gtk_widget_get_next_sibling (label))
    {
      gtk_widget_set_tooltip_text (label, name_of (model, i));
      gtk_widget_set_visible (label, has_column (model, i));
      if (i == RESULT)
        gtk_label_set_label (GTK_LABEL (label), cro_words_result_name (model));
    }
}

/* --- Showing ---------------------------------------------------------------------------------- */

static void
take_cell (CroPriceRow *self,
           int          column,
           char        *text)
{
  gtk_label_set_label (GTK_LABEL (self->cells[column]), text);
  g_free (text);
}

/* With as many digits as tell it from the target. */
static char *
dup_result (CroModel           *model,
            const CroFigure    *figure,
            const CroPriceStep *step)
{
  CroFigure at = *figure;

  at.net_price = step->net;
  at.food_cost_pct = step->food_cost_pct;
  return cro_words_take_short (cro_known_of_result (model->speaks, &at),
                               cro_words_result_plain (model, &at));
}

/* The same, beside another result. */
static char *
dup_coefficient (const CroFigure    *figure,
                 const CroPriceStep *step)
{
  double target = cro_result_of_pct (CRO_SPEAKS_COEFFICIENT, figure->target_pct);
  int digits = isnan (target) || isnan (step->coefficient)
                   ? COEFFICIENT_DIGITS
                   : cro_decimals_apart (step->coefficient, target, COEFFICIENT_DIGITS);

  return cro_number_to_text (step->coefficient, digits, FALSE);
}

static char *
dup_sold (const CroPriceStep *step)
{
  return step->sold == CRO_NOT_SET ? g_strdup ("–") : cro_words_decimal (step->sold);
}

/* Over something missing it is not known to hold. Owned; NULL: it is not the one that does. */
static char *
dup_holds (CroModel           *model,
           const CroFigure    *figure,
           const CroPriceStep *step)
{
  CroKnown known = cro_known_of_cost (figure);
  g_autofree char *target = step->holds ? cro_words_target (model, figure) : NULL;

  if (target == NULL)
    return NULL;
  return g_strdup_printf (known == CRO_KNOWN_WHOLE || known == CRO_KNOWN_AT_MOST
                              /* Translators: beside the lowest price at which the target is kept: "holds 30 %". */
                              ? _("holds %s")
                              /* Translators: the same, where the cost is known in part. */
                              : _("holds %s without what is missing"),
                          target);
}

/* What the row is, in words, and what else there is to know: "now · over target · 18.18 without tax ·
 * prime cost 46.6 %". */
static char *
dup_more (CroModel           *model,
          const CroFigure    *figure,
          const CroPriceStep *step)
{
  g_autofree char *holds = dup_holds (model, figure, step);
  g_autofree char *money = cro_words_money (model, step->net);
  /* Translators: a price, and the same without its tax. */
  g_autofree char *net = g_strdup_printf (_("%s without tax"), money);
  g_autofree char *pct = cro_words_take_short (cro_known_of_prime (figure),
                                               cro_words_pct_of (step->prime_cost_pct, PCT_DIGITS));
  /* Translators: food and labour in the net price. */
  g_autofree char *prime = g_strdup_printf (_("prime cost %s"), pct);
  const char *words[6];
  int n = 0;

  if (step->is_now)
    words[n++] = _("now");
  if (holds != NULL)
    words[n++] = holds;
  if (step->is_over)
    words[n++] = cro_words_over_target (model);
  words[n++] = cro_words_untaxed (figure) != NULL ? cro_words_untaxed (figure) : net;
  words[n++] = prime;
  words[n] = NULL;
  return g_strjoinv (" · ", (char **) words);
}

/* A row is one stop: all that it shows is said there. */
static void
speak (CroPriceRow *self,
       CroModel    *model)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (int i = 0; i < CRO_PRICE_COLUMNS; i++)
    if (has_column (model, i))
      g_string_append_printf (text, "%s%s %s", i > 0 ? ", " : "", name_of (model, i),
                              gtk_label_get_label (GTK_LABEL (self->cells[i])));
  g_string_append_printf (text, ", %s", gtk_label_get_label (GTK_LABEL (self->more)));
  cro_spoken_set (GTK_WIDGET (self), text->str);
}

void
cro_price_row_set (CroPriceRow        *self,
                   CroModel           *model,
                   const CroFigure    *figure,
                   const CroPriceStep *step)
{
  CroKnown turned = cro_known_turned (cro_known_of_cost (figure));
  g_autofree char *more = dup_more (model, figure, step);

  self->price = step->price;
  /* What would hold a target over something missing is that at least, or nobody knows; what is asked now is a price. */
  take_cell (self, PRICE, cro_words_take_short (step->holds && !step->is_now ? cro_known_of_cost (figure)
                                                                             : CRO_KNOWN_WHOLE,
                                                cro_words_price (model, step->price)));
  take_cell (self, RESULT, dup_result (model, figure, step));
  take_cell (self, LEFT, cro_words_take_short (turned, cro_words_money (model, step->left)));
  take_cell (self, COEFFICIENT,
             cro_words_take_short (turned, dup_coefficient (figure, step)));
  gtk_widget_set_visible (self->cells[COEFFICIENT], has_column (model, COEFFICIENT));
  take_cell (self, SOLD, dup_sold (step));
  gtk_label_set_label (GTK_LABEL (self->more), more);
  if (step->is_now)
    gtk_widget_add_css_class (GTK_WIDGET (self), "now");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "now");
  speak (self, model);
}

gint64
cro_price_row_get_price (CroPriceRow *self)
{
  return self->price;
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_price_row_class_init (CroPriceRowClass *klass)
{
}

static void
cro_price_row_init (CroPriceRow *self)
{
}

GtkWidget *
cro_price_row_new (GtkSizeGroup *const *columns)
{
  CroPriceRow *self = g_object_new (CRO_TYPE_PRICE_ROW, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *cells = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, SPACING);

  for (int i = 0; i < CRO_PRICE_COLUMNS; i++)
    {
      self->cells[i] = cro_number_label_new ();
      gtk_size_group_add_widget (columns[i], self->cells[i]);
      gtk_box_append (GTK_BOX (cells), self->cells[i]);
    }
  self->more = cro_caption_new ("", 0);
  gtk_label_set_wrap (GTK_LABEL (self->more), TRUE);
  gtk_box_append (GTK_BOX (box), cells);
  gtk_box_append (GTK_BOX (box), self->more);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (self), box);
  return GTK_WIDGET (self);
}
