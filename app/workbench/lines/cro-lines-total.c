#include "config.h"

#include "cro-lines-total.h"

#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-gap.h"

/* Between columns, in pixels. */
#define SPACE 6

/* One row: words under the names, money under the costs, and the room behind them. Words of a language may
 * be longer than the room under the names, and begin before it then. */
typedef struct
{
  GtkWidget *box;
  GtkWidget *before;
  GtkWidget *words;
  GtkWidget *money;
  GtkWidget *behind;
} Row;

enum
{
  SEASONING,
  TOTAL,
  N_ROWS,
};

struct _CroLinesTotal
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  Row        rows[N_ROWS];
  GtkWidget *kinds;
};

G_DEFINE_FINAL_TYPE (CroLinesTotal, cro_lines_total, GTK_TYPE_WIDGET)

static void
set_row (const Row  *row,
         const char *words,
         const char *money)
{
  gtk_label_set_label (GTK_LABEL (row->words), words != NULL ? words : "");
  gtk_label_set_label (GTK_LABEL (row->money), money != NULL ? money : "");
  gtk_widget_set_visible (row->box, money != NULL);
}

void
cro_lines_total_set (CroLinesTotal *self,
                     CroFigures    *figures,
                     guint32        recipe,
                     gint64         total,
                     gint64         allowance)
{
  g_auto (CroTotalWords) words = { 0 };

  cro_words_total_of_lines (figures, recipe, total, allowance, &words);
  set_row (&self->rows[SEASONING], words.seasoning, words.seasoning_money);
  set_row (&self->rows[TOTAL], words.of, words.money);
  gtk_label_set_label (GTK_LABEL (self->kinds), words.kinds != NULL ? words.kinds : "");
  gtk_widget_set_visible (self->kinds, words.kinds != NULL);
}

GtkWidget *
cro_lines_total_get_last (CroLinesTotal *self)
{
  return gtk_widget_get_visible (self->kinds) ? self->kinds : self->rows[TOTAL].box;
}

void
cro_lines_total_set_columns (CroLinesTotal *self,
                             int            name,
                             int            cost,
                             int            behind)
{
  for (int i = 0; i < N_ROWS; i++)
    {
      cro_gap_set (CRO_GAP (self->rows[i].before), name - SPACE);
      gtk_widget_set_size_request (self->rows[i].money, cost, -1);
      gtk_widget_set_size_request (self->rows[i].behind, behind, -1);
    }
  gtk_widget_set_margin_end (self->kinds, behind + SPACE);
}

static Row
row_new (GtkWidget *box)
{
  Row row = { gtk_box_new (GTK_ORIENTATION_HORIZONTAL, SPACE), cro_gap_new (), gtk_label_new (NULL),
              cro_number_label_new (), gtk_label_new (NULL) };

  gtk_label_set_xalign (GTK_LABEL (row.words), 0);
  /* Long words of a language may not keep the picture beside the lines away. */
  gtk_label_set_wrap (GTK_LABEL (row.words), TRUE);
  gtk_widget_set_hexpand (row.words, TRUE);
  gtk_box_append (GTK_BOX (row.box), row.before);
  gtk_box_append (GTK_BOX (row.box), row.words);
  gtk_box_append (GTK_BOX (row.box), row.money);
  gtk_box_append (GTK_BOX (row.box), row.behind);
  gtk_box_append (GTK_BOX (box), row.box);
  return row;
}

static void
cro_lines_total_dispose (GObject *object)
{
  g_clear_pointer (&CRO_LINES_TOTAL (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_lines_total_parent_class)->dispose (object);
}

static void
cro_lines_total_class_init (CroLinesTotalClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_lines_total_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_lines_total_init (CroLinesTotal *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_add_css_class (self->box, "lines-total");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  for (int i = 0; i < N_ROWS; i++)
    self->rows[i] = row_new (self->box);
  gtk_widget_add_css_class (self->rows[TOTAL].box, "now");
  self->kinds = cro_number_label_new ();
  gtk_label_set_wrap (GTK_LABEL (self->kinds), TRUE);
  gtk_box_append (GTK_BOX (self->box), self->kinds);
}

GtkWidget *
cro_lines_total_new (void)
{
  return g_object_new (CRO_TYPE_LINES_TOTAL, NULL);
}
