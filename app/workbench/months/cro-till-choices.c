#include "config.h"

#include "cro-till-choices.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-spoken.h"
#include "cro-state.h"
#include "cro-wrap.h"

/* Of what the program remembers. */
#define STATE "till-columns"

struct _CroTillChoices
{
  GtkWidget         parent_instance;

  GtkWidget        *wrap;
  const CroBrought *brought;      /* borrowed */
  CroTillColumns   *of;           /* borrowed */
  gboolean          is_filling;
};

G_DEFINE_FINAL_TYPE (CroTillChoices, cro_till_choices, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- What is remembered -------------------------------------------------------------------------------- */

/* What tells files of one till from others: their headings. NULL: they have none. */
static char *
dup_columns_key (CroTillChoices *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (self->of->headings < 0)
    return NULL;
  for (guint i = 0; i < self->brought->n_columns; i++)
    g_string_append_printf (text, "%s\n", cro_brought_get (self->brought, (guint) self->of->headings, i)->text);
  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, text->str, -1);
}

static void
remember_columns (CroTillChoices *self)
{
  g_autofree char *key = dup_columns_key (self), *text = g_new0 (char, CRO_BROUGHT_MOST_COLUMNS + 1);

  for (guint i = 0; i < self->brought->n_columns; i++)
    text[i] = (char) ('0' + self->of->of[i]);
  if (key != NULL)
    cro_state_set_text (STATE, key, text);
}

static void
recall_columns (CroTillChoices *self)
{
  g_autofree char *key = dup_columns_key (self);
  g_autofree char *text = key != NULL ? cro_state_dup_text (STATE, key) : NULL;

  for (guint i = 0; text != NULL && text[i] != '\0' && i < self->brought->n_columns; i++)
    if (text[i] >= '0' && text[i] < '0' + CRO_N_TILL_COLUMNS)
      cro_till_columns_set (self->of, i, (CroTillColumn) (text[i] - '0'));
}

/* --- Choices ------------------------------------------------------------------------------------------- */

static void
show_chosen (CroTillChoices *self,
             GtkWidget   *widget)
{
  if (GTK_IS_DROP_DOWN (widget))
    {
      guint column = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (widget), "column"));

      gtk_drop_down_set_selected (GTK_DROP_DOWN (widget), self->of->of[column]);
      return;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    show_chosen (self, child);
}

/* What one column takes another has no longer. */
static void
column_chosen_cb (CroTillChoices *self,
                  GParamSpec  *pspec,
                  GtkDropDown *choice)
{
  if (self->is_filling)
    return;
  cro_till_columns_set (self->of, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (choice), "column")),
                        (CroTillColumn) gtk_drop_down_get_selected (choice));
  self->is_filling = TRUE;
  show_chosen (self, self->wrap);
  self->is_filling = FALSE;
  remember_columns (self);
  g_signal_emit (self, signals[CHOSEN], 0);
}

/* Its heading, else its first cell. */
static char *
dup_column_name (CroTillChoices *self,
                 guint        column)
{
  guint row = self->of->headings >= 0 ? (guint) self->of->headings : 0;
  const char *text = cro_brought_get (self->brought, row, column)->text;

  return *text != '\0' ? g_utf8_substring (text, 0, MIN (g_utf8_strlen (text, -1), 24))
                       : g_strdup_printf ("%u", column + 1);
}

static void
fill_columns (CroTillChoices *self)
{
  const char *const words[] = {
    [CRO_TILL_NONE] = C_("column", "not used"), [CRO_TILL_NAME] = C_("column", "name"),
    [CRO_TILL_SOLD] = C_("column", "number sold"), [CRO_TILL_REVENUE] = C_("column", "sales"),
    [CRO_TILL_NET] = C_("column", "sales without tax"), [CRO_TILL_GROSS] = C_("column", "sales with tax"),
    [CRO_TILL_DAY] = C_("column", "date"), NULL,
  };

  self->is_filling = TRUE;
  cro_wrap_clear (CRO_WRAP (self->wrap));
  self->is_filling = FALSE;
  for (guint i = 0; i < self->brought->n_columns; i++)
    {
      g_autofree char *name = dup_column_name (self, i);
      GtkWidget *choice = gtk_drop_down_new_from_strings (words);

      gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), self->of->of[i]);
      g_object_set_data (G_OBJECT (choice), "column", GUINT_TO_POINTER (i));
      g_signal_connect_object (choice, "notify::selected", G_CALLBACK (column_chosen_cb), self,
                               G_CONNECT_SWAPPED);
      cro_spoken_set (choice, name);
      cro_wrap_append (CRO_WRAP (self->wrap), cro_field_new (name, choice));
    }
}

void
cro_till_choices_put (CroTillChoices   *self,
                      const CroBrought *brought,
                      CroTillColumns   *columns)
{
  self->brought = brought;
  self->of = columns;
  recall_columns (self);
  fill_columns (self);
}

/* --- The widget ----------------------------------------------------------------------------------------- */

static void
cro_till_choices_dispose (GObject *object)
{
  g_clear_pointer (&CRO_TILL_CHOICES (object)->wrap, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_till_choices_parent_class)->dispose (object);
}

static void
cro_till_choices_class_init (CroTillChoicesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_till_choices_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[CHOSEN] = g_signal_new ("chosen", CRO_TYPE_TILL_CHOICES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
}

static void
cro_till_choices_init (CroTillChoices *self)
{
  self->wrap = cro_wrap_new (12, 6);
  gtk_widget_set_parent (self->wrap, GTK_WIDGET (self));
}

GtkWidget *
cro_till_choices_new (void)
{
  return g_object_new (CRO_TYPE_TILL_CHOICES, NULL);
}
