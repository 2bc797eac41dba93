/* What stands over the plates of a menu: the course where another begins, and each choice with its
 * name: typed anew it names the whole choice, emptied it dissolves it. */
#include "config.h"

#include "cro-menu-plates-private.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-row-grid.h"

/* Children of a head, in order. */
enum
{
  COURSE,
  ONE_OF,
  CHOICE_NAME,
  OPEN,
  N_PARTS,
};

static CroModel *
model_of (CroMenuPlatesView *self)
{
  return cro_book_get_model (cro_bench_get_book (self->bench));
}

static CroMenuPlate *
entry_in (CroMenuPlatesView *self,
          guint              row)
{
  return cro_menu_plates_entry_at (self, g_array_index (self->entries, guint32, row));
}

static const char *
course_in (CroMenuPlatesView *self,
           guint              row)
{
  return cro_model_recipe (model_of (self), entry_in (self, row)->plate)->course;
}

static gboolean
begins_course (CroMenuPlatesView *self,
               guint              row)
{
  return row == 0 ? course_in (self, 0) != NULL
                  : g_strcmp0 (course_in (self, row), course_in (self, row - 1)) != 0;
}

static gboolean
begins_choice (CroMenuPlatesView *self,
               guint              row)
{
  const char *choice = entry_in (self, row)->choice;

  return choice != NULL && (row == 0 || entry_in (self, row - 1)->choice != choice);
}

/* One plate is no choice yet: until another joins it nothing comes over its row, and no row moves away from under the
 * hand that goes on to the next. */
static gboolean
heads_choice (CroMenuPlatesView *self,
              guint              row)
{
  g_autoptr (GArray) entries = NULL;

  if (!begins_choice (self, row))
    return FALSE;
  entries = cro_menu_plates_list_choice (self, g_array_index (self->entries, guint32, row));
  return entries->len > 1;
}

/* --- Choices -------------------------------------------------------------------------------------- */

GArray *
cro_menu_plates_list_choice (CroMenuPlatesView *self,
                             guint32            slot)
{
  const char *choice = cro_menu_plates_entry_at (self, slot)->choice;
  GArray *entries = g_array_new (FALSE, FALSE, sizeof (guint32));

  for (guint row = 0; row < self->entries->len; row++)
    if (entry_in (self, row)->choice == choice)
      g_array_append_val (entries, g_array_index (self->entries, guint32, row));
  return entries;
}

static gboolean
keep_name (CroInput       *input,
           const CroCell  *cell,
           gpointer        view,
           GError        **error)
{
  g_autoptr (GArray) entries = cro_menu_plates_list_choice (view, cro_menu_plates_entry_of (input));

  return cro_edit_set_choices (cro_input_get_book (input), cro_input_get_act (input),
                               (const guint32 *) entries->data, entries->len, cell, error);
}

/* No preview: a name moves no figure, and until it is kept the plates are found by the one they have. */
static const CroInputWay name_way = { .preview = cro_input_preview_nothing, .keep = keep_name };

/* What is left of the guests for the plates without a share of their own. NULL: nothing is to be said. */
static char *
dup_open (CroMenuPlatesView *self,
          guint32            slot)
{
  g_autoptr (GArray) entries = cro_menu_plates_list_choice (self, slot);
  gint64 open = CRO_WHOLE_PCT;
  guint n_open = 0;
  g_autofree char *pct = NULL;

  for (guint i = 0; i < entries->len; i++)
    {
      gint64 share = cro_menu_plates_entry_at (self, g_array_index (entries, guint32, i))->share;

      open -= share != CRO_NO_SHARE ? share : 0;
      n_open += share == CRO_NO_SHARE;
    }
  if (n_open == 0 || entries->len < 2)
    return NULL;
  if (open == CRO_WHOLE_PCT)
    return g_strdup (_("taken equally"));
  pct = cro_words_pct_of ((double) open / CRO_MICRO, open % CRO_MICRO == 0 ? 0 : 2);
  /* Translators: of the guests who have a choice of a menu, those who take a plate without a share of its
   * own. */
  return g_strdup_printf (ngettext ("%s left for %u other", "%s left for %u others", n_open), pct, n_open);
}

/* --- Heads ---------------------------------------------------------------------------------------- */

static GtkWidget *
part_of (GtkWidget *head,
         int        part)
{
  GtkWidget *child = gtk_widget_get_first_child (head);

  for (; part > 0; part--)
    child = gtk_widget_get_next_sibling (child);
  return child;
}

static GtkWidget *
label_new (const char *css_class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
head_new (CroMenuPlatesView *self,
          guint32            slot)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *name = cro_input_new (CRO_INPUT_TEXT, CRO_RANGE_ANY, _("name of the choice"));
  /* Translators: an entry of the history: the name of a choice of this menu. */
  g_autofree char *act = cro_isolate_printf (_("choice of %s"),
                                             cro_ref_name (model_of (self), cro_bench_get_ref (self->bench)));

  cro_input_set_width (CRO_INPUT (name), 14);
  cro_input_bind (CRO_INPUT (name), cro_bench_get_book (self->bench), "menu_plate",
                  cro_menu_plates_entry_at (self, slot)->id, "choice", act, NULL);
  cro_input_set_way (CRO_INPUT (name), &name_way, self);
  /* As high with the name of a choice as without. */
  gtk_widget_add_css_class (head, "over-rows");
  gtk_widget_set_margin_top (head, 6);
  gtk_box_append (GTK_BOX (head), label_new ("heading"));
  gtk_box_append (GTK_BOX (head), label_new ("dim-label"));
  gtk_box_append (GTK_BOX (head), name);
  gtk_box_append (GTK_BOX (head), label_new ("dim-label"));
  /* It breaks where there is no room, and not before. */
  gtk_label_set_wrap (GTK_LABEL (part_of (head, OPEN)), TRUE);
  gtk_widget_set_hexpand (part_of (head, OPEN), TRUE);
  return head;
}

static void
show_part (GtkWidget  *head,
           int         part,
           const char *text)
{
  gtk_label_set_label (GTK_LABEL (part_of (head, part)), text != NULL ? text : "");
  gtk_widget_set_visible (part_of (head, part), text != NULL);
}

static void
show_choice (CroMenuPlatesView *self,
             GtkWidget         *head,
             guint              row,
             gboolean           begins)
{
  guint32 slot = g_array_index (self->entries, guint32, row);
  g_autoptr (GArray) entries = cro_menu_plates_list_choice (self, slot);
  /* Translators: over the plates of a menu of which a guest takes one; the name of the choice follows. */
  g_autofree char *one_of = begins ? g_strdup_printf (ngettext ("a choice of %u:", "one of %u:", entries->len),
                                                      entries->len)
                                   : NULL;
  g_autofree char *open = begins ? dup_open (self, slot) : NULL;

  show_part (head, ONE_OF, one_of);
  gtk_widget_set_visible (part_of (head, CHOICE_NAME), begins);
  show_part (head, OPEN, open);
  gtk_widget_remove_css_class (part_of (head, OPEN), "reason");
  gtk_widget_add_css_class (part_of (head, OPEN), "dim-label");
  cro_input_refresh (CRO_INPUT (part_of (head, CHOICE_NAME)));
}

static void
put_head (CroMenuPlatesView *self,
          guint              row,
          gboolean           heads)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  GtkWidget *head = cro_row_grid_get_above (grid, row);
  const char *course = course_in (self, row);

  if (!begins_course (self, row) && !heads)
    {
      if (head != NULL)
        cro_row_grid_put_above (grid, row, NULL);
      return;
    }
  if (head == NULL)
    {
      head = head_new (self, g_array_index (self->entries, guint32, row));
      cro_row_grid_put_above (grid, row, head);
    }
  /* Translators: over plates of a menu that stand in no course. */
  show_part (head, COURSE, begins_course (self, row) ? (course != NULL ? course : _("No course")) : NULL);
  show_choice (self, head, row, heads);
}

void
cro_menu_heads_say (CroMenuPlatesView *self,
                    const char        *choice,
                    const char        *reason)
{
  for (guint row = 0; row < self->entries->len; row++)
    if (entry_in (self, row)->choice == choice && begins_choice (self, row))
      {
        GtkWidget *open;

        /* Of one plate too: its share waits for the others. */
        put_head (self, row, TRUE);
        open = part_of (cro_row_grid_get_above (CRO_ROW_GRID (self->grid), row), OPEN);
        gtk_label_set_label (GTK_LABEL (open), reason);
        gtk_widget_set_visible (open, TRUE);
        gtk_widget_remove_css_class (open, "dim-label");
        gtk_widget_add_css_class (open, "reason");
      }
}

void
cro_menu_heads_show (CroMenuPlatesView *self)
{
  for (guint row = 0; row < self->entries->len; row++)
    put_head (self, row, heads_choice (self, row));
}
