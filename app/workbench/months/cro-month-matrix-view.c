#include "config.h"

#include "cro-month-matrix-view.h"

#include <glib/gi18n.h>

#include "cro-chart-area.h"
#include "cro-field.h"
#include "cro-month-matrix-words.h"
#include "cro-month-pictures.h"
#include "cro-month-table-view.h"
#include "cro-month-went.h"

#define PICTURE_LINES 24

/* Plates, and menus apart. */
typedef struct
{
  CroMonthThingKind kind;
  GtkWidget        *table;
  GtkWidget        *picture;
  GPtrArray        *names;    /* char *: of the rows, without their numbers */
} Part;

#define N_PARTS 2

struct _CroMonthMatrixView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *none;
  GtkWidget *source;
  Part       parts[N_PARTS];
};

G_DEFINE_FINAL_TYPE (CroMonthMatrixView, cro_month_matrix_view, GTK_TYPE_WIDGET)

static gboolean
put_part (Part           *part,
          CroModel       *model,
          const CroMonth *month)
{
  g_autoptr (CroMonthMatrix) matrix = cro_month_matrix_new (month, part->kind);
  g_autoptr (CroMonthTable) table = cro_month_matrix_table (model, matrix, part->kind);

  g_ptr_array_set_size (part->names, 0);
  for (guint i = 0; i < matrix->rows->len; i++)
    g_ptr_array_add (part->names, g_strdup (g_array_index (matrix->rows, CroMonthMatrixRow, i).thing->name));
  if (table != NULL)
    cro_month_matrix_number (table);
  cro_month_table_view_set (CRO_MONTH_TABLE_VIEW (part->table), table);
  gtk_widget_set_visible (part->picture, table != NULL);
  if (table != NULL)
    cro_chart_area_take (part->picture, cro_month_matrix_scatter (model, matrix),
                         (GDestroyNotify) cro_scatter_free, PICTURE_LINES);
  return table != NULL;
}

void
cro_month_matrix_view_set (CroMonthMatrixView *self,
                           CroModel           *model,
                           const CroMonth     *month)
{
  gboolean is_told = FALSE;

  for (guint i = 0; i < N_PARTS; i++)
    is_told |= put_part (&self->parts[i], model, month);
  gtk_widget_set_visible (self->none, !is_told);
  gtk_widget_set_visible (self->source, is_told);
}

static void
opened_cb (GtkWidget          *table,
           int                 line,
           const char         *numbered,
           CroMonthMatrixView *self)
{
  const Part *part = table == self->parts[0].table ? &self->parts[0] : &self->parts[1];

  if (part->names != NULL && (guint) line < part->names->len)
    gtk_widget_activate_action (table, "month.went", "(is)", (int) CRO_WENT_BY_THING,
                                part->names->pdata[line]);
}

static void
draw_points (gpointer            scatter,
             cairo_t            *cairo,
             const CroChartLook *look,
             double              width,
             double              height)
{
  cro_scatter_draw (scatter, cairo, look, width, height);
}

static void
cro_month_matrix_view_dispose (GObject *object)
{
  CroMonthMatrixView *self = CRO_MONTH_MATRIX_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  for (guint i = 0; i < N_PARTS; i++)
    g_clear_pointer (&self->parts[i].names, g_ptr_array_unref);
  G_OBJECT_CLASS (cro_month_matrix_view_parent_class)->dispose (object);
}

static void
cro_month_matrix_view_class_init (CroMonthMatrixViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_month_matrix_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
add_part (CroMonthMatrixView *self,
          Part               *part)
{
  gboolean is_menus = part->kind == CRO_MONTH_MENU;

  part->names = g_ptr_array_new_with_free_func (g_free);
  part->table = cro_month_table_view_new (is_menus ? _("Menus") : _("Plates"), NULL);
  part->picture = cro_chart_area_new (is_menus ? _("Menus by how often they were sold and what one leaves, as in "
                                                   "the table above")
                                               : _("Plates by how often they were sold and what one leaves, as "
                                                   "in the table above"),
                                      draw_points);
  g_signal_connect_object (part->table, "opened", G_CALLBACK (opened_cb), self, 0);
  gtk_widget_add_css_class (part->table, "part");
  gtk_box_append (GTK_BOX (self->box), part->table);
  gtk_box_append (GTK_BOX (self->box), part->picture);
}

static void
cro_month_matrix_view_init (CroMonthMatrixView *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->none = cro_text_new (_("No plate or menu was sold with net sales of its own."), "title-4");
  gtk_box_append (GTK_BOX (self->box), self->none);
  self->parts[0].kind = CRO_MONTH_PLATE;
  self->parts[1].kind = CRO_MONTH_MENU;
  for (guint i = 0; i < N_PARTS; i++)
    add_part (self, &self->parts[i]);
  self->source = cro_text_new (cro_month_matrix_source (), "caption");
  gtk_box_append (GTK_BOX (self->box), self->source);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_month_matrix_view_new (void)
{
  return g_object_new (CRO_TYPE_MONTH_MATRIX_VIEW, NULL);
}
