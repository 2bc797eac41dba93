#include "config.h"

#include "cro-bring-columns.h"

#include "cro-bring-words.h"
#include "cro-column-choice.h"
#include "cro-field.h"
#include "cro-wrap.h"

/* In pixels; a sheet of many columns leaves room for its rows. */
#define MOST_HEIGHT 220

struct _CroBringColumns
{
  GtkWidget   parent_instance;

  GtkWidget     *scroller;
  GtkWidget     *columns;
  CroBrought    *brought;    /* borrowed */
  const CroRole *roles;      /* that can be chosen; borrowed */
  guint          n_roles;
  gboolean       is_filling; /* what is chosen is not asked about */
};

G_DEFINE_FINAL_TYPE (CroBringColumns, cro_bring_columns, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- Roles ------------------------------------------------------------------------------------ */

/* Among those that can be chosen; what another kind of sheet would have there is not used in this one. */
static guint
place_of_role (gpointer owner,
               guint    column)
{
  CroBringColumns *self = owner;

  for (guint i = 0; i < self->n_roles; i++)
    if (self->roles[i] == self->brought->roles[column])
      return i;
  return 0;
}

/* A role that one column takes another has no longer. */
static void
role_chosen_cb (CroBringColumns *self,
                GParamSpec      *pspec,
                GtkDropDown     *drop_down)
{
  guint column = cro_column_choice_get_column (GTK_WIDGET (drop_down));

  if (self->is_filling)
    return;
  cro_brought_set_role (self->brought, column, self->roles[gtk_drop_down_get_selected (drop_down)]);
  self->is_filling = TRUE;
  cro_column_choices_show (self->columns, place_of_role, self);
  self->is_filling = FALSE;
  g_signal_emit (self, signals[CHOSEN], 0);
}

static GtkWidget *
role_new (CroBringColumns *self,
          guint            column,
          const char      *name)
{
  const char *words[CRO_N_ROLES + 1] = { NULL };
  GtkWidget *drop_down;

  for (guint i = 0; i < self->n_roles; i++)
    words[i] = cro_words_role (self->roles[i]);
  drop_down = cro_column_choice_new (column, words, place_of_role (self, column), name);
  g_signal_connect_object (drop_down, "notify::selected", G_CALLBACK (role_chosen_cb), self,
                           G_CONNECT_SWAPPED);
  return drop_down;
}

/* --- The widget ------------------------------------------------------------------------------- */

static GtkSizeRequestMode
cro_bring_columns_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* All rows of the columns stand in sight up to a height, beyond which they scroll: what scrolls asks for one
 * row alone, as it does not know its width. */
static void
cro_bring_columns_measure (GtkWidget      *widget,
                           GtkOrientation  orientation,
                           int             for_size,
                           int            *minimum,
                           int            *natural,
                           int            *minimum_baseline,
                           int            *natural_baseline)
{
  CroBringColumns *self = CRO_BRING_COLUMNS (widget);
  int least;

  gtk_widget_measure (self->scroller, orientation, -1, minimum, natural, NULL, NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    return;
  gtk_widget_measure (self->columns, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_measure (self->columns, orientation, for_size < 0 ? -1 : MAX (for_size, least), NULL, natural, NULL,
                      NULL);
  *minimum = *natural = MAX (*minimum, MIN (*natural, MOST_HEIGHT));
}

static void
cro_bring_columns_size_allocate (GtkWidget *widget,
                                 int        width,
                                 int        height,
                                 int        baseline)
{
  gtk_widget_allocate (CRO_BRING_COLUMNS (widget)->scroller, width, height, baseline, NULL);
}

static void
cro_bring_columns_dispose (GObject *object)
{
  g_clear_pointer (&CRO_BRING_COLUMNS (object)->scroller, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_bring_columns_parent_class)->dispose (object);
}

static void
cro_bring_columns_class_init (CroBringColumnsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_bring_columns_dispose;
  GTK_WIDGET_CLASS (klass)->get_request_mode = cro_bring_columns_get_request_mode;
  GTK_WIDGET_CLASS (klass)->measure = cro_bring_columns_measure;
  GTK_WIDGET_CLASS (klass)->size_allocate = cro_bring_columns_size_allocate;
  signals[CHOSEN] = g_signal_new ("chosen", CRO_TYPE_BRING_COLUMNS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
}

static void
cro_bring_columns_init (CroBringColumns *self)
{
  self->columns = cro_wrap_new (12, 6);
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (self->scroller), FALSE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), self->columns);
  cro_wheel_share (self->scroller);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
}

/* Made once for a sheet; later only what is chosen is set, so that the focus stays. */
void
cro_bring_columns_set (CroBringColumns *self,
                       CroBrought      *brought,
                       const CroRole   *roles,
                       guint            n_roles)
{
  self->brought = brought;
  self->roles = roles;
  self->n_roles = n_roles;
  cro_wrap_clear (CRO_WRAP (self->columns));
  for (guint i = 0; brought != NULL && i < brought->n_columns; i++)
    {
      g_autofree char *name = cro_words_bring_column (brought, i);

      cro_wrap_append (CRO_WRAP (self->columns), cro_field_new (name, role_new (self, i, name)));
    }
}
