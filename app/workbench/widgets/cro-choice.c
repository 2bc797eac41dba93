#include "config.h"

#include "cro-choice.h"

#include "cro-bubble.h"
#include "cro-code-words.h"
#include "cro-day-entry.h"
#include "cro-drop-down.h"
#include "cro-focus.h"
#include "cro-refused-words.h"
#include "cro-spoken.h"
#include "cro-unit.h"
#include "cro-words.h"

struct _CroChoice
{
  GtkWidget          parent_instance;

  GtkWidget         *box;
  GtkWidget         *drop_down;
  CroBubble         *bubble;      /* why the book refused the last choice; NULL: it refused none */
  const char *const *values;
  const char       **owned;       /* the array of a choice that made its own values */

  CroBook           *book;
  const char        *table;
  gint64             id;
  const char        *column;
  char              *act;
  CroChoiceKeep      keep;        /* NULL: the column */
  CroChoiceRead      read;        /* likewise */
  GObject           *owner;       /* weak: NULL once it is gone, and nothing is kept */
  const char        *unset;       /* what holds where the column is not set; NULL: nothing does */
  guint64            edition;     /* of the book, when it was read; 0: it was not */
  gboolean           is_setting;
};

G_DEFINE_FINAL_TYPE (CroChoice, cro_choice, GTK_TYPE_WIDGET)

static void
set_reason (CroChoice  *self,
            const char *reason)
{
  if (self->bubble == NULL && reason != NULL)
    self->bubble = CRO_BUBBLE (cro_bubble_new (self->box, self->drop_down));
  if (self->bubble != NULL)
    cro_bubble_say (self->bubble, reason, TRUE);
}

static gboolean
keep (CroChoice      *self,
      const CroCell  *cell,
      GError        **error)
{
  return self->keep != NULL
             ? self->keep (self, cell, self->owner, error)
             : cro_book_set (self->book, self->act, self->table, self->id, self->column, cell, error);
}

static void
selected_cb (CroChoice *self)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->drop_down));
  g_autoptr (GError) error = NULL;
  CroCell cell;

  if (self->is_setting || self->book == NULL || at == GTK_INVALID_LIST_POSITION
      || (self->keep != NULL && self->owner == NULL))
    return;
  cell = CRO_CELL_STR (self->values[at]);
  set_reason (self, NULL);
  if (!keep (self, &cell, &error))
    {
      g_autofree char *message = error->domain != CRO_DAY_ENTRY_ERROR ? cro_words_refused (error) : NULL;

      self->edition = 0;
      cro_choice_refresh (self);
      set_reason (self, message);
    }
}

/* What is chosen; NULL: nothing. Owned. */
static char *
dup_value (CroChoice *self)
{
  const char *columns[] = { self->column, NULL };
  g_autoptr (CroRows) rows = NULL;
  const char *value;

  if (self->read != NULL)
    return self->owner != NULL ? self->read (self, self->owner) : NULL;
  rows = cro_store_read_one (cro_book_get_store (self->book), self->table, self->id, columns, NULL);
  value = rows != NULL && cro_rows_next (rows, NULL) ? cro_rows_get_text (rows, 0) : NULL;
  return g_strdup (value != NULL ? value : self->unset);
}

void
cro_choice_refresh (CroChoice *self)
{
  g_autofree char *value = NULL;
  guint at = GTK_INVALID_LIST_POSITION;

  if (self->book == NULL || self->edition == cro_book_get_edition (self->book))
    return;
  self->edition = cro_book_get_edition (self->book);
  gtk_widget_set_sensitive (self->drop_down, !cro_book_is_past (self->book, NULL));
  gtk_widget_set_tooltip_text (self->box, cro_book_is_past (self->book, NULL) ? cro_words_past ()
                                                                              : NULL);
  value = dup_value (self);
  for (guint i = 0; self->values[i] != NULL; i++)
    if (g_strcmp0 (self->values[i], value) == 0)
      at = i;
  self->is_setting = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->drop_down), at);
  self->is_setting = FALSE;
}

static void
cro_choice_dispose (GObject *object)
{
  CroChoice *self = CRO_CHOICE (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->book);
  g_clear_pointer (&self->act, g_free);
  g_clear_pointer (&self->owned, g_free);
  g_clear_weak_pointer (&self->owner);
  G_OBJECT_CLASS (cro_choice_parent_class)->dispose (object);
}

static gboolean
cro_choice_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_CHOICE (widget)->drop_down);
}

static void
cro_choice_class_init (CroChoiceClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_choice_dispose;
  GTK_WIDGET_CLASS (klass)->focus = cro_focus_within;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_choice_grab_focus;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_choice_init (CroChoice *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_choice_new (const char        *name,
                const char *const *values,
                const char *const *words)
{
  CroChoice *self = g_object_new (CRO_TYPE_CHOICE, NULL);

  self->values = values;
  self->drop_down = cro_drop_down_new (words, name);
  gtk_box_prepend (GTK_BOX (self->box), self->drop_down);
  g_signal_connect_object (self->drop_down, "notify::selected", G_CALLBACK (selected_cb), self,
                           G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}

void
cro_choice_set_name (CroChoice  *self,
                     const char *name)
{
  cro_spoken_set (self->drop_down, name);
}

GtkWidget *
cro_choice_new_code (const char        *name,
                     const char *const *codes)
{
  g_autofree const char **words = cro_code_dup_words (codes);

  return cro_choice_new (name, codes, words);
}

GtkWidget *
cro_choice_new_unit (const char *name,
                     unsigned    bases)
{
  const char **units = g_new0 (const char *, CRO_N_UNITS + 1);
  const char *words[CRO_N_UNITS + 1] = { NULL };
  GtkWidget *choice;
  guint n = 0;

  for (int unit = 0; unit < CRO_N_UNITS; unit++)
    if (bases & (1u << cro_unit_get ((CroUnit) unit)->base))
      {
        units[n] = cro_unit_get ((CroUnit) unit)->code;
        words[n++] = cro_words_unit ((CroUnit) unit);
      }
  choice = cro_choice_new (name, units, words);
  CRO_CHOICE (choice)->owned = units;
  return choice;
}

void
cro_choice_set_way (CroChoice     *self,
                    CroChoiceKeep  way,
                    gpointer       owner)
{
  self->keep = way;
  g_set_weak_pointer (&self->owner, owner);
}

void
cro_choice_set_read (CroChoice     *self,
                     CroChoiceRead  read)
{
  self->read = read;
  self->edition = 0;
}

const char *
cro_choice_get_act (CroChoice *self)
{
  return self->act;
}

void
cro_choice_bind (CroChoice  *self,
                 CroBook    *book,
                 const char *table,
                 gint64      id,
                 const char *column,
                 const char *act)
{
  g_set_object (&self->book, book);
  self->table = g_intern_string (table);
  self->id = id;
  self->column = g_intern_string (column);
  self->edition = 0;
  cro_choice_set_act (self, act);
  set_reason (self, NULL);
  cro_choice_refresh (self);
}

void
cro_choice_set_act (CroChoice  *self,
                    const char *act)
{
  if (g_strcmp0 (self->act, act) == 0)
    return;
  g_free (self->act);
  self->act = g_strdup (act);
}

void
cro_choice_set_unset (CroChoice  *self,
                      const char *value)
{
  if (self->unset == g_intern_string (value))
    return;
  self->unset = g_intern_string (value);
  self->edition = 0;
  cro_choice_refresh (self);
}
