#include "config.h"

#include "cro-window-private.h"

#include <string.h>

#include "cro-draft.h"
#include "cro-edit.h"
#include "cro-focus.h"
#include "cro-month-shelf.h"
#include "cro-state.h"
#include "cro-trial-bench.h"

/* Keys of the texts that a thing was left with: draft.TABLE.ID.FIELD; in a trial of it
 * draft.trial.TABLE.ID.FIELD. */

/* Pages that are of no one thing. */
static const struct { CroRefKind kind; const char *table; } pages[] = {
  { CRO_REF_MENU, "all plates" },
  { CRO_REF_RECIPE, "all preparations" },
  { CRO_REF_ITEM, "all ingredients" },
  { CRO_REF_SUPPLIER, "market" },
  { CRO_REF_PRICES, "price movements" },
  { CRO_REF_OFFER, "packs" },
  { CRO_REF_RATES, "exchange rates" },
  { CRO_REF_SALES, "months" },
};

/* --- What stands on the bench, as a row of the book ----------------------------------------------- */

/* NULL: nothing does. */
static const char *
table_of_now (CroWindow *self,
              gint64    *id)
{
  const char *table = NULL;

  *id = 0;
  if (self->book == NULL || self->now.kind == CRO_REF_NONE)
    return NULL;
  if (self->now.slot == CRO_NO_SLOT)
    for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
      if (self->now.kind == pages[i].kind)
        return pages[i].table;
  if (self->now.kind == CRO_REF_MONTH)
    {
      *id = self->now.slot;
      return "month";
    }
  *id = cro_edit_row (cro_book_get_model (self->book), self->now, &table);
  return table;
}

static char *
dup_prefix (CroWindow *self)
{
  gint64 id;
  const char *table = table_of_now (self, &id);
  g_autofree char *tried = NULL;

  if (table == NULL)
    return NULL;
  if (CRO_IS_TRIAL_BENCH (gtk_stack_get_visible_child (self->bench)))
    table = tried = g_strconcat ("trial.", table, NULL);
  return cro_draft_dup_prefix (table, id);
}

static gboolean
is_shown_elsewhere (CroWindow *self)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
  GList *windows = application != NULL ? gtk_application_get_windows (application) : NULL;
  g_autofree char *prefix = dup_prefix (self);

  for (GList *at = windows; at != NULL; at = at->next)
    if (CRO_IS_WINDOW (at->data) && at->data != self
        && cro_window_shows (CRO_WINDOW (at->data), self->path))
      {
        g_autofree char *other = dup_prefix (CRO_WINDOW (at->data));

        if (g_strcmp0 (prefix, other) == 0)
          return TRUE;
      }
  return FALSE;
}

/* --- Texts ---------------------------------------------------------------------------------------- */

/* Only what this window has written is forgotten again: another one may be at the same thing. */
static void
remember_texts (CroWindow *self)
{
  g_autofree char *prefix = dup_prefix (self);
  g_autoptr (GHashTable) texts = cro_draft_list (gtk_stack_get_visible_child (self->bench));
  GHashTableIter iter;
  gpointer key, text;

  g_hash_table_iter_init (&iter, self->drafts);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    if (!g_hash_table_contains (texts, (char *) key + strlen (prefix)))
      {
        cro_state_set_text (self->path, key, NULL);
        g_hash_table_iter_remove (&iter);
      }
  g_hash_table_iter_init (&iter, texts);
  while (g_hash_table_iter_next (&iter, &key, &text))
    {
      g_autofree char *whole = g_strconcat (prefix, key, NULL);

      cro_state_set_text (self->path, whole, text);
      g_hash_table_add (self->drafts, g_steal_pointer (&whole));
    }
}

void
cro_window_restore_texts (CroWindow *self)
{
  g_autofree char *prefix = dup_prefix (self);
  g_auto (GStrv) keys = NULL;
  g_autoptr (GHashTable) texts = NULL;

  g_hash_table_remove_all (self->drafts);
  if (is_shown_elsewhere (self))
    return;
  keys = cro_state_dup_keys (self->path, prefix);
  texts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  for (guint i = 0; keys[i] != NULL; i++)
    {
      g_hash_table_insert (texts, g_strdup (keys[i] + strlen (prefix)),
                           cro_state_dup_text (self->path, keys[i]));
      g_hash_table_add (self->drafts, g_strdup (keys[i]));
    }
  if (keys[0] != NULL)
    cro_draft_put (gtk_stack_get_visible_child (self->bench), texts);
}

/* --- Scrolling ------------------------------------------------------------------------------------- */

/* The first that moves up and down. */
static GtkWidget *
find_scroller (GtkWidget *widget)
{
  GtkPolicyType up_and_down = GTK_POLICY_NEVER;

  if (GTK_IS_SCROLLED_WINDOW (widget))
    gtk_scrolled_window_get_policy (GTK_SCROLLED_WINDOW (widget), NULL, &up_and_down);
  if (up_and_down != GTK_POLICY_NEVER)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_scroller (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static GtkAdjustment *
find_scroll (GtkWidget *widget,
             gboolean  *is_moving)
{
  GtkWidget *scroller = find_scroller (gtk_stack_get_visible_child (CRO_WINDOW (widget)->bench));

  *is_moving = FALSE;
  return scroller != NULL ? gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller)) : NULL;
}

void
cro_window_begin_scrolling (CroWindow *self)
{
  cro_scroll_back_init (&self->scroll, GTK_WIDGET (self), find_scroll);
}

void
cro_window_scroll_to_top (CroWindow *self)
{
  gboolean is_moving;
  GtkAdjustment *adjustment = find_scroll (GTK_WIDGET (self), &is_moving);

  cro_scroll_back_stop (&self->scroll);
  if (adjustment != NULL)
    gtk_adjustment_set_value (adjustment, 0);
}

CroScrolled
cro_window_get_scrolled (CroWindow *self)
{
  return (CroScrolled){ cro_scroll_back_get (&self->scroll), cro_place_list_get_scroll (self->list) };
}

void
cro_window_scroll_back (CroWindow   *self,
                        CroScrolled  to)
{
  cro_scroll_back_to (&self->scroll, to.page);
  cro_place_list_scroll_to (self->list, to.list);
}

/* --- The thing -------------------------------------------------------------------------------------- */

/* What stands in a row as table_of_now() tells of it. */
static CroRef
ref_of_row (CroWindow  *self,
            const char *table,
            gint64      id)
{
  CroModel *model = cro_book_get_model (self->book);
  CroRef ref = CRO_REF_NOWHERE;

  if (g_strcmp0 (table, "plate") == 0)
    ref = CRO_REF (CRO_REF_RECIPE, cro_slots_get (&model->plate_slots, id));
  else if (g_strcmp0 (table, "preparation") == 0)
    ref = CRO_REF (CRO_REF_RECIPE, cro_slots_get (&model->preparation_slots, id));
  else if (g_strcmp0 (table, "ingredient") == 0)
    ref = CRO_REF (CRO_REF_ITEM, cro_slots_get (&model->item_slots, id));
  else if (g_strcmp0 (table, "menu") == 0)
    ref = CRO_REF (CRO_REF_MENU, cro_slots_get (&model->menu_slots, id));
  else if (g_strcmp0 (table, "supplier") == 0)
    ref = CRO_REF (CRO_REF_SUPPLIER, cro_slots_get (&model->supplier_slots, id));
  else if (g_strcmp0 (table, "month") == 0 && id >= cro_month_to_slot (cro_date_from_civil (1, 1, 1))
           && id <= cro_month_to_slot (cro_date_from_civil (9999, 12, 1)))
    return CRO_REF (CRO_REF_MONTH, (guint32) id);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_strcmp0 (table, pages[i].table) == 0)
      return CRO_REF (pages[i].kind, CRO_NO_SLOT);
  return ref.slot != CRO_NO_SLOT && cro_window_can_show (self, ref) ? ref : CRO_REF_NOWHERE;
}

static CroRef
last_ref (CroWindow *self)
{
  g_autofree char *table = cro_state_dup_text (self->path, "table");

  return ref_of_row (self, table, cro_state_get_int (self->path, "id", 0));
}

CroRef
cro_window_left_at (CroWindow *self,
                    CroPlace   place)
{
  return ref_of_row (self, self->left[place].table, self->left[place].id);
}

void
cro_window_forget_left (CroWindow *self)
{
  for (int place = 0; place < CRO_N_PLACES; place++)
    self->left[place].table = NULL;
}

void
cro_window_go_where_it_was (CroWindow *self)
{
  CroRef ref = last_ref (self);
  g_autofree char *way = cro_state_dup_text (self->path, "focus");

  if (ref.kind == CRO_REF_NONE)
    cro_window_go_to_place (self, CRO_PLACE_PLATES);
  else
    cro_window_open_ref (self, ref);
  if (way == NULL || !cro_focus_go (gtk_stack_get_visible_child (self->bench), way))
    cro_window_focus_next_line (self);
  cro_scroll_back_to (&self->scroll, cro_state_get_int (self->path, "scroll", 0));
}

void
cro_window_remember (CroWindow *self)
{
  g_autofree char *way = NULL;
  gint64 id;
  const char *table = table_of_now (self, &id);

  if (table == NULL)
    return;
  self->left[self->place].table = table;
  self->left[self->place].id = id;
  way = cro_focus_dup_way (gtk_stack_get_visible_child (self->bench));
  cro_state_set_text (self->path, "table", table);
  cro_state_set_int (self->path, "id", (int) id);
  cro_state_set_text (self->path, "focus", way);
  cro_state_set_int (self->path, "scroll", cro_scroll_back_get (&self->scroll));
  remember_texts (self);
}
