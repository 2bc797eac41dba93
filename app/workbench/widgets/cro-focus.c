#include "cro-focus.h"

#include "cro-input.h"

static guint
index_of (GtkWidget *widget)
{
  guint n = 0;

  for (GtkWidget *at = gtk_widget_get_prev_sibling (widget); at != NULL;
       at = gtk_widget_get_prev_sibling (at))
    n++;
  return n;
}

char *
cro_focus_dup_way (GtkWidget *ancestor)
{
  GtkWidget *at = gtk_root_get_focus (gtk_widget_get_root (ancestor));
  GString *way;

  if (at == NULL || at == ancestor || !gtk_widget_is_ancestor (at, ancestor))
    return NULL;
  way = g_string_new (NULL);
  for (; at != ancestor; at = gtk_widget_get_parent (at))
    {
      g_autofree char *step = g_strdup_printf (way->len > 0 ? "%u/" : "%u", index_of (at));

      g_string_prepend (way, step);
    }
  return g_string_free (way, FALSE);
}

/* As far as the way leads. */
static GtkWidget *
walk (GtkWidget  *ancestor,
      const char *way,
      gboolean   *is_whole)
{
  g_auto (GStrv) steps = g_strsplit (way, "/", -1);
  GtkWidget *at = ancestor;

  *is_whole = TRUE;
  for (guint i = 0; steps[i] != NULL; i++)
    {
      GtkWidget *child = gtk_widget_get_first_child (at);

      for (gint64 n = g_ascii_strtoll (steps[i], NULL, 10); n > 0 && child != NULL; n--)
        child = gtk_widget_get_next_sibling (child);
      *is_whole = child != NULL;
      if (child == NULL)
        break;
      at = child;
    }
  return at;
}

gboolean
cro_focus_leads (GtkWidget  *ancestor,
                 const char *way)
{
  gboolean is_whole;
  GtkWidget *at = walk (ancestor, way, &is_whole);

  return is_whole && gtk_widget_get_mapped (at);
}

gboolean
cro_focus_grab (GtkWidget *widget)
{
  GtkWidget *input = gtk_widget_get_ancestor (widget, CRO_TYPE_INPUT);

  if (!gtk_widget_grab_focus (widget))
    return FALSE;
  if (input != NULL)
    cro_input_unselect_words (CRO_INPUT (input));
  return TRUE;
}

/* For which what was selected is looked at: so long, and so many frames, as the first may take longer than that. */
#define MOMENT_MS 150
#define LEAST_FRAMES 8

typedef struct
{
  gint64 end;       /* as of g_get_monotonic_time () */
  guint  n_frames;  /* so far */
  char  *text;      /* that was selected */
  int    position;  /* of the caret; where the selection was taken it is at the other end */
} Selected;

static void
selected_free (Selected *selected)
{
  g_free (selected->text);
  g_free (selected);
}

gboolean
cro_focus_is_in (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && (focus == widget || gtk_widget_is_ancestor (focus, widget));
}

static gboolean
select_again_cb (GtkWidget     *entry,
                 GdkFrameClock *clock,
                 gpointer       user_data)
{
  Selected *selected = user_data;
  gboolean is_over = g_get_monotonic_time () > selected->end && selected->n_frames >= LEAST_FRAMES;

  selected->n_frames++;
  if (!cro_focus_is_in (entry) || is_over
      || !g_str_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), selected->text))
    return G_SOURCE_REMOVE;
  if (gtk_editable_get_selection_bounds (GTK_EDITABLE (entry), NULL, NULL))
    return G_SOURCE_CONTINUE;
  if (gtk_editable_get_position (GTK_EDITABLE (entry)) == selected->position)
    return G_SOURCE_REMOVE;
  gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
  return G_SOURCE_CONTINUE;
}

void
cro_focus_select (GtkWidget *entry)
{
  Selected *selected = g_new (Selected, 1);

  gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
  *selected = (Selected){ g_get_monotonic_time () + MOMENT_MS * 1000, 0,
                          g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))),
                          gtk_editable_get_position (GTK_EDITABLE (entry)) };
  gtk_widget_add_tick_callback (entry, select_again_cb, selected, (GDestroyNotify) selected_free);
}

static gboolean
unselect_cb (GtkWidget     *entry,
             GdkFrameClock *clock,
             gpointer       end)
{
  if (!cro_focus_is_in (entry) && g_get_monotonic_time () < *(const gint64 *) end)
    return G_SOURCE_CONTINUE;
  if (!cro_focus_is_in (entry))
    gtk_editable_select_region (GTK_EDITABLE (entry), 0, 0);
  return G_SOURCE_REMOVE;
}

void
cro_focus_unselect (GtkWidget *entry)
{
  gint64 end = g_get_monotonic_time () + MOMENT_MS * 1000;

  gtk_widget_add_tick_callback (entry, unselect_cb, g_memdup2 (&end, sizeof end), g_free);
}

/* A row that is gone leaves the focus beside it. */
gboolean
cro_focus_go (GtkWidget  *ancestor,
              const char *way)
{
  gboolean is_whole;
  GtkWidget *at = walk (ancestor, way, &is_whole);

  return at != ancestor && cro_focus_grab (at);
}

#define BEGINNING "cro-focus-beginning"

void
cro_focus_begin_at (GtkWidget *widget,
                    GtkWidget *child)
{
  g_object_set_data (G_OBJECT (widget), BEGINNING, child);
}

gboolean
cro_focus_first (GtkWidget *widget)
{
  GtkWidget *beginning = g_object_get_data (G_OBJECT (widget), BEGINNING);

  if (beginning != NULL && cro_focus_first (beginning))
    return TRUE;
  if (!gtk_widget_get_child_visible (widget) || !gtk_widget_get_visible (widget)
      || !gtk_widget_get_sensitive (widget))
    return FALSE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (cro_focus_first (child))
      return TRUE;
  /* What is in a row or a scroller comes before them. */
  return gtk_widget_get_focusable (widget) && cro_focus_grab (widget);
}

gboolean
cro_focus_within (GtkWidget        *widget,
                  GtkDirectionType  direction)
{
  return gtk_widget_child_focus (gtk_widget_get_first_child (widget), direction);
}

GtkWidget *
cro_focus_find (GtkWidget  *widget,
                const char *css_class)
{
  if (!gtk_widget_get_child_visible (widget) || !gtk_widget_get_visible (widget))
    return NULL;
  if (gtk_widget_has_css_class (widget, css_class))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = cro_focus_find (child, css_class);

      if (found != NULL)
        return found;
    }
  return NULL;
}

void
cro_focus_type (GtkWidget *entry,
                gunichar   sign)
{
  char text[7] = { '\0' };

  g_unichar_to_utf8 (sign, text);
  gtk_widget_grab_focus (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  gtk_editable_set_position (GTK_EDITABLE (entry), -1);
}
