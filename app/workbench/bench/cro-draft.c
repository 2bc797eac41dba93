#include "cro-draft.h"

#include "cro-day-entry.h"
#include "cro-typed.h"

char *
cro_draft_dup_prefix (const char *table,
                      gint64      id)
{
  return g_strdup_printf ("draft.%s.%" G_GINT64_FORMAT ".", table, id);
}

typedef void (*Visit) (GtkWidget  *widget,
                       const char *field,
                       gpointer    user_data);

typedef struct
{
  GHashTable *seen;         /* place → how many fields of it came before */
  Visit       visit;
  gpointer    user_data;
} Walk;

/* Two fields of one column, an amount and its part of a bite, are told apart by their order. */
static void
visit_place (Walk       *walk,
             GtkWidget  *widget,
             const char *place)
{
  guint n = GPOINTER_TO_UINT (g_hash_table_lookup (walk->seen, place));
  g_autofree char *field = g_strdup_printf ("%s.%u", place, n);

  g_hash_table_insert (walk->seen, g_strdup (place), GUINT_TO_POINTER (n + 1));
  walk->visit (widget, field, walk->user_data);
}

static void
walk_below (Walk      *walk,
            GtkWidget *widget)
{
  if (CRO_IS_TYPED (widget))
    {
      g_autofree char *place = cro_typed_dup_field (CRO_TYPED (widget));

      if (place != NULL)
        visit_place (walk, widget, place);
    }
  else if (GTK_IS_ENTRY (widget))
    visit_place (walk, widget, "entry");
  else if (!GTK_IS_POPOVER (widget))
    for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
         child = gtk_widget_get_next_sibling (child))
      walk_below (walk, child);
}

static void
walk (GtkWidget *root,
      Visit      visit,
      gpointer   user_data)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  Walk all = { seen, visit, user_data };

  walk_below (&all, root);
}

/* An entry of the toolkit's own holds nothing where it is empty. */
static char *
dup_typed (GtkWidget *widget)
{
  const char *text;

  if (CRO_IS_TYPED (widget))
    return cro_typed_dup_text (CRO_TYPED (widget));
  if (cro_day_entry_is_fleeting (widget))
    return NULL;
  text = gtk_editable_get_text (GTK_EDITABLE (widget));
  return *text != '\0' ? g_strdup (text) : NULL;
}

static void
list_cb (GtkWidget  *widget,
         const char *field,
         gpointer    texts)
{
  char *text = dup_typed (widget);

  if (text != NULL)
    g_hash_table_insert (texts, g_strdup (field), text);
}

GHashTable *
cro_draft_list (GtkWidget *root)
{
  GHashTable *texts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  walk (root, list_cb, texts);
  return texts;
}

/* --- Typing again --------------------------------------------------------------------------------- */

typedef struct
{
  GHashTable *texts;
  GHashTable *found;        /* widget → text: what is typed first may move what comes after */
} Putting;

static void
find_cb (GtkWidget  *widget,
         const char *field,
         gpointer    user_data)
{
  Putting *putting = user_data;
  const char *text = g_hash_table_lookup (putting->texts, field);
  g_autofree char *typed = dup_typed (widget);

  if (text != NULL && g_strcmp0 (typed, text) != 0 && !cro_day_entry_is_fleeting (widget))
    g_hash_table_insert (putting->found, g_object_ref (widget), (gpointer) text);
}

void
cro_draft_put (GtkWidget  *root,
               GHashTable *texts)
{
  g_autoptr (GHashTable) found = g_hash_table_new_full (NULL, NULL, g_object_unref, NULL);
  Putting putting = { texts, found };
  GHashTableIter iter;
  gpointer widget, text;

  walk (root, find_cb, &putting);
  g_hash_table_iter_init (&iter, found);
  while (g_hash_table_iter_next (&iter, &widget, &text))
    if (CRO_IS_TYPED (widget))
      cro_typed_type (widget, text);
    else
      gtk_editable_set_text (GTK_EDITABLE (widget), text);
}
