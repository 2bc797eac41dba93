#include "config.h"

#include "cro-intake-choices.h"

#include <glib/gi18n.h>

#include "cro-column-choice.h"
#include "cro-field.h"
#include "cro-state.h"
#include "cro-wrap.h"

/* Of what the program remembers: for each kind. */
static const char *const states[CRO_N_INTAKES]
    = { "till-columns", "count-columns", "document-columns", "adjustment-columns" };

struct _CroIntakeChoices
{
  GtkWidget parent_instance;

  GtkWidget *wrap;
  const CroBrought *brought; /* borrowed */
  CroIntakeColumns *of;      /* borrowed */
  gboolean is_filling;
};

G_DEFINE_FINAL_TYPE (CroIntakeChoices, cro_intake_choices, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- What is remembered ----------------------------------------------------------------------------- */

/* What tells sheets of one sort from others: their headings. NULL: they have none. */
static char *
dup_columns_key (CroIntakeChoices *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (self->of->headings < 0)
    return NULL;
  for (guint i = 0; i < self->brought->n_columns; i++)
    g_string_append_printf (text, "%s\n",
                            cro_brought_get (self->brought, (guint) self->of->headings, i)->text);
  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, text->str, -1);
}

static void
remember_columns (CroIntakeChoices *self)
{
  g_autofree char *key = dup_columns_key (self),
                  *text = g_new0 (char, CRO_BROUGHT_MOST_COLUMNS + 1);

  for (guint i = 0; i < self->brought->n_columns; i++)
    text[i] = (char) ('0' + self->of->of[i]);
  if (key != NULL)
    cro_state_set_text (states[self->of->kind], key, text);
}

static void
recall_columns (CroIntakeChoices *self)
{
  g_autofree char *key = dup_columns_key (self);
  g_autofree char *text = key != NULL ? cro_state_dup_text (states[self->of->kind], key) : NULL;

  for (guint i = 0; text != NULL && text[i] != '\0' && i < self->brought->n_columns; i++)
    if (text[i] >= '0' && text[i] < '0' + CRO_N_INTAKE_COLUMNS)
      cro_intake_columns_set (self->of, i, (CroIntakeColumn) (text[i] - '0'));
}

/* --- Choices ---------------------------------------------------------------------------------------- */

static CroIntakeColumn
column_at (CroIntakeChoices *self,
           guint             chosen)
{
  guint n;
  const CroIntakeColumn *list = cro_intake_columns_list (self->of->kind, &n);

  return chosen < n ? list[chosen] : CRO_INTAKE_NONE;
}

static guint
index_of (gpointer owner,
          guint    column)
{
  CroIntakeChoices *self = owner;
  guint n;
  const CroIntakeColumn *list = cro_intake_columns_list (self->of->kind, &n);

  for (guint i = 0; i < n; i++)
    if (list[i] == self->of->of[column])
      return i;
  return 0;
}

/* What one column takes another has no longer. */
static void
column_chosen_cb (CroIntakeChoices *self,
                  GParamSpec       *pspec,
                  GtkDropDown      *choice)
{
  if (self->is_filling)
    return;
  cro_intake_columns_set (self->of, cro_column_choice_get_column (GTK_WIDGET (choice)),
                          column_at (self, gtk_drop_down_get_selected (choice)));
  self->is_filling = TRUE;
  cro_column_choices_show (self->wrap, index_of, self);
  self->is_filling = FALSE;
  remember_columns (self);
  g_signal_emit (self, signals[CHOSEN], 0);
}

/* Its heading, else its first cell. */
static char *
dup_column_name (CroIntakeChoices *self,
                 guint             column)
{
  guint row = self->of->headings >= 0 ? (guint) self->of->headings : 0;
  const char *text = cro_brought_get (self->brought, row, column)->text;

  return *text != '\0' ? g_utf8_substring (text, 0, MIN (g_utf8_strlen (text, -1), 24))
                       : g_strdup_printf ("%u", column + 1);
}

/* What a column of such a sheet is called. */
static const char *
word_of (CroIntakeKind   kind,
         CroIntakeColumn what)
{
  gboolean is_document = kind == CRO_INTAKE_DOCUMENTS;

  switch (what)
    {
    case CRO_INTAKE_NAME:
      return is_document                ? C_("column", "supplier")
             : kind == CRO_INTAKE_SALES ? C_("column", "name")
                                        : C_("column", "item");
    case CRO_INTAKE_SOLD:
      return C_("column", "number sold");
    case CRO_INTAKE_REVENUE:
      return C_("column", "sales");
    case CRO_INTAKE_NET:
      return is_document                ? C_("column", "total without tax")
             : kind == CRO_INTAKE_SALES ? C_("column", "sales without tax")
                                        : C_("column", "value without tax");
    case CRO_INTAKE_GROSS:
      return is_document ? C_("column", "total with tax") : C_("column", "sales with tax");
    case CRO_INTAKE_DAY:
      return is_document ? C_("column", "delivered on") : C_("column", "date");
    case CRO_INTAKE_AMOUNT:
      return C_("column", "amount");
    case CRO_INTAKE_UNIT:
      return C_("column", "unit");
    case CRO_INTAKE_TEXT:
      return is_document                 ? C_("column", "document number")
             : kind == CRO_INTAKE_COUNTS ? C_("column", "where")
                                         : C_("column", "note");
    case CRO_INTAKE_KIND:
      return C_("column", "kind");
    case CRO_INTAKE_DATED:
      return C_("column", "document date");
    case CRO_INTAKE_FOOD:
      return C_("column", "food");
    case CRO_INTAKE_DISPOSABLES:
      return C_("column", "disposables");
    case CRO_INTAKE_OTHER_GOODS:
      return C_("column", "other goods");
    case CRO_INTAKE_TAX:
      return C_("column", "tax");
    case CRO_INTAKE_ITEM:
      return C_("column", "ingredient");
    case CRO_INTAKE_RATE:
      return C_("column", "tax rate");
    default:
      return C_("column", "not used");
    }
}

static void
fill_columns (CroIntakeChoices *self)
{
  const char *words[CRO_N_INTAKE_COLUMNS + 1] = { NULL };
  guint n;
  const CroIntakeColumn *list = cro_intake_columns_list (self->of->kind, &n);

  for (guint i = 0; i < n; i++)
    words[i] = word_of (self->of->kind, list[i]);
  self->is_filling = TRUE;
  cro_wrap_clear (CRO_WRAP (self->wrap));
  self->is_filling = FALSE;
  for (guint i = 0; i < self->brought->n_columns; i++)
    {
      g_autofree char *name = dup_column_name (self, i);
      GtkWidget *choice = cro_column_choice_new (i, words, index_of (self, i), name);

      g_signal_connect_object (choice, "notify::selected", G_CALLBACK (column_chosen_cb), self,
                               G_CONNECT_SWAPPED);
      cro_wrap_append (CRO_WRAP (self->wrap), cro_field_new (name, choice));
    }
}

void
cro_intake_choices_put (CroIntakeChoices *self,
                        const CroBrought *brought,
                        CroIntakeColumns *columns)
{
  self->brought = brought;
  self->of = columns;
  recall_columns (self);
  fill_columns (self);
}

/* --- The widget ------------------------------------------------------------------------------------- */

static void
cro_intake_choices_dispose (GObject *object)
{
  g_clear_pointer (&CRO_INTAKE_CHOICES (object)->wrap, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_intake_choices_parent_class)->dispose (object);
}

static void
cro_intake_choices_class_init (CroIntakeChoicesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_intake_choices_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[CHOSEN] = g_signal_new ("chosen", CRO_TYPE_INTAKE_CHOICES, G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 0);
}

static void
cro_intake_choices_init (CroIntakeChoices *self)
{
  self->wrap = cro_wrap_new (12, 6);
  gtk_widget_set_parent (self->wrap, GTK_WIDGET (self));
}

GtkWidget *
cro_intake_choices_new (void)
{
  return g_object_new (CRO_TYPE_INTAKE_CHOICES, NULL);
}
