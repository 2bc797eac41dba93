#include "cro-slices.h"

/* As many are made in half a frame. */
#define SLICE 32

/* A list view makes no more at once. */
#define ENOUGH 256

struct _CroSlices
{
  GObject            parent_instance;

  GtkWidget         *widget;    /* borrowed */
  GtkSliceListModel *model;
  guint              behind;    /* from which position on rows are new */
  guint              tick_id;
};

G_DEFINE_FINAL_TYPE (CroSlices, cro_slices, G_TYPE_OBJECT)

enum
{
  GROWN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static gboolean
tick_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       user_data)
{
  g_autoptr (CroSlices) self = g_object_ref (user_data);
  guint size = gtk_slice_list_model_get_size (self->model) + SLICE;
  gboolean is_all = size > self->behind + ENOUGH;

  if (is_all)
    self->tick_id = 0;
  gtk_slice_list_model_set_size (self->model, is_all ? G_MAXUINT : size);
  g_signal_emit (self, signals[GROWN], 0);
  return is_all ? G_SOURCE_REMOVE : G_SOURCE_CONTINUE;
}

static void
cro_slices_dispose (GObject *object)
{
  CroSlices *self = CRO_SLICES (object);

  if (self->tick_id != 0)
    gtk_widget_remove_tick_callback (self->widget, self->tick_id);
  self->tick_id = 0;
  g_clear_object (&self->model);
  G_OBJECT_CLASS (cro_slices_parent_class)->dispose (object);
}

static void
cro_slices_class_init (CroSlicesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_slices_dispose;
  signals[GROWN] = g_signal_new ("grown", CRO_TYPE_SLICES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
cro_slices_init (CroSlices *self)
{
  self->model = gtk_slice_list_model_new (NULL, 0, G_MAXUINT);
}

CroSlices *
cro_slices_new (GtkWidget *widget)
{
  CroSlices *self = g_object_new (CRO_TYPE_SLICES, NULL);

  self->widget = widget;
  return self;
}

GListModel *
cro_slices_get_model (CroSlices *self)
{
  return G_LIST_MODEL (self->model);
}

void
cro_slices_set_model (CroSlices  *self,
                      GListModel *model)
{
  gtk_slice_list_model_set_model (self->model, NULL);
  cro_slices_begin (self);
  gtk_slice_list_model_set_model (self->model, model);
}

void
cro_slices_begin (CroSlices *self)
{
  cro_slices_begin_behind (self, 0);
}

void
cro_slices_begin_behind (CroSlices *self,
                         guint      position)
{
  self->behind = position;
  gtk_slice_list_model_set_size (self->model, position + SLICE);
  if (self->tick_id == 0)
    self->tick_id = gtk_widget_add_tick_callback (self->widget, tick_cb, self, NULL);
}

gboolean
cro_slices_show (CroSlices *self,
                 guint      position)
{
  return position < g_list_model_get_n_items (G_LIST_MODEL (self->model));
}
