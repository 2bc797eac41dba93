#include "config.h"

#include "cro-round-rows-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-price-words.h"

G_DEFINE_FINAL_TYPE (CroRoundRows, cro_round_rows, GTK_TYPE_WIDGET)

enum
{
  MOVED,
  DONE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static const char *
text_of (GtkWidget *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

static guint
index_of (CroRoundRows *self,
          GtkWidget    *entry)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (g_array_index (self->rows, Row, i).entry == entry)
      return self->first + i;
  return CRO_NO_SLOT;
}

void
cro_round_rows_put_text (CroRoundRows *self,
                         GtkWidget    *entry,
                         const char   *text)
{
  self->is_setting = TRUE;
  cro_entry_put (entry, text);
  self->is_setting = FALSE;
  /* What is typed next takes the place of a text that nobody typed. */
  if (cro_focus_is_in (entry))
    cro_focus_select (entry);
}

void
cro_round_rows_fail (CroRoundRows *self,
                     GError       *error)
{
  if (error != NULL)
    cro_bench_fail (self->bench, error);
  g_clear_error (&error);
}

/* --- Looking for a row --------------------------------------------------------------------------------- */

/* "GBP 171" begins with a letter, and so does "n/a". */
static gboolean
is_search (CroRoundRows *self,
           guint         index,
           const char   *text)
{
  const char *at = text + strspn (text, " ");
  gboolean is_own;
  gsize n = cro_currency_scan (at, NULL, &is_own);
  g_autofree char *typed = cro_words_round_typed (self->round, cro_round_get_row (self->round, index));

  if (!g_unichar_isalpha (g_utf8_get_char (at)) || g_str_equal (text, typed) || cro_round_is_word (text))
    return FALSE;
  return n == 0 || !g_ascii_isdigit (at[n + strspn (at + n, " ")]);
}

static void
show_found (CroRoundRows *self,
            guint         index,
            const char   *text)
{
  guint found = cro_round_find (self->round, text, index);
  g_autofree char *name = found != CRO_NO_SLOT
                              ? cro_words_round_name (self->round, cro_round_get_row (self->round, found))
                              : NULL;
  /* Translators: a row that is looked for by its name; Enter leads there. */
  g_autofree char *note = name != NULL ? cro_isolate_printf (_("Enter: go to %s"), name)
                                       : g_strdup (_("No row matches. Enter: type it as a new pack."));

  cro_round_rows_show_note (self, index, note);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row_at (self, index)->entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  note, -1);
}

/* The field holds again what was typed before a search was. */
static void
end_search (CroRoundRows *self,
            guint         index)
{
  cro_round_rows_show_typed (self, index);
  cro_round_rows_show_row (self, index);
  cro_round_rows_show_asked (self);
}

/* --- Typing --------------------------------------------------------------------------------------------- */

void
cro_round_rows_tell (CroRoundRows *self)
{
  cro_round_rows_show_asked (self);
  g_signal_emit (self, signals[MOVED], 0);
}

static void
type (CroRoundRows *self,
      guint         index,
      const char   *text)
{
  GError *error = NULL;

  if (g_str_equal (cro_round_get_row (self->round, index)->text, text))
    return;
  if (!cro_round_type (self->round, index, text, &error))
    cro_round_rows_fail (self, error);
  cro_round_rows_show_row (self, index);
  cro_round_rows_tell (self);
}

static void
changed_cb (GtkWidget    *entry,
            CroRoundRows *self)
{
  guint index = index_of (self, entry);

  if (self->is_setting || self->round == NULL || index == CRO_NO_SLOT)
    return;
  self->typed = index;
  if (is_search (self, index, text_of (entry)))
    {
      /* What is typed over a selection empties the field first; what is looked for may begin with a word. */
      if (self->emptied != NULL)
        type (self, index, self->emptied);
      g_clear_pointer (&self->emptied, g_free);
      show_found (self, index, text_of (entry));
      return;
    }
  if (cro_round_is_word (text_of (entry)) && self->emptied != NULL)
    {
      type (self, index, text_of (entry));
      return;
    }
  g_clear_pointer (&self->emptied, g_free);
  if (*text_of (entry) == '\0' || cro_round_is_word (text_of (entry)))
    self->emptied = g_strdup (cro_round_get_row (self->round, index)->text);
  type (self, index, text_of (entry));
}

static void
line_changed_cb (CroRoundRows *self)
{
  g_autofree char *meaning = NULL, *name = NULL;
  const char *text = text_of (self->line);
  guint found;

  if (self->round == NULL)
    return;
  found = *text != '\0' && strpbrk (text, "0123456789") == NULL ? cro_round_find (self->round, text, 0) : CRO_NO_SLOT;
  if (found != CRO_NO_SLOT)
    {
      name = cro_words_round_name (self->round, cro_round_get_row (self->round, found));
      meaning = cro_isolate_printf (_("Enter: go to %s"), name);
    }
  else if (*text != '\0')
    meaning = cro_words_round_line (self->round, text);
  gtk_label_set_label (GTK_LABEL (self->meaning), meaning != NULL ? meaning : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->line), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  meaning != NULL ? meaning : "", -1);
}

/* --- Passing on ------------------------------------------------------------------------------------------ */

static gboolean
can_type (CroRoundRows *self,
          guint         index)
{
  const CroRoundRow *row = cro_round_get_row (self->round, index);

  return !row->is_billed || cro_round_row_waits (row);
}

GtkWidget *
cro_round_rows_pass_on (CroRoundRows *self,
                        guint         index)
{
  do
    index++;
  while (index < n_rows_of (self) && !can_type (self, index));
  cro_round_rows_focus (self, index);
  return index < n_rows_of (self) ? row_at (self, index)->entry : self->line;
}

static void
begin_line (CroRoundRows *self,
            const char   *text)
{
  gtk_widget_grab_focus (self->line);
  gtk_editable_set_text (GTK_EDITABLE (self->line), text);
  gtk_editable_set_position (GTK_EDITABLE (self->line), -1);
}

static void
activate_cb (GtkWidget    *entry,
             CroRoundRows *self)
{
  guint index = index_of (self, entry), found;
  g_autofree char *text = g_strdup (text_of (entry));

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  if (!is_search (self, index, text))
    {
      cro_round_rows_pass_on (self, index);
      return;
    }
  found = cro_round_find (self->round, text, index);
  end_search (self, index);
  if (found != CRO_NO_SLOT)
    cro_round_rows_focus (self, found);
  else
    begin_line (self, text);
}

/* It goes into a row, or is one. The line is there for the next. */
static void
line_activate_cb (CroRoundRows *self)
{
  g_autofree char *text = g_strdup (text_of (self->line));
  guint index = CRO_NO_SLOT, found;
  GError *error = NULL;

  if (self->round == NULL)
    return;
  if (*g_strstrip (text) == '\0')
    {
      g_signal_emit (self, signals[DONE], 0);
      return;
    }
  found = strpbrk (text, "0123456789") == NULL ? cro_round_find (self->round, text, 0) : CRO_NO_SLOT;
  if (found != CRO_NO_SLOT)
    {
      gtk_editable_set_text (GTK_EDITABLE (self->line), "");
      cro_round_rows_focus (self, found);
      return;
    }
  if (!cro_round_add (self->round, text, &index, &error))
    {
      cro_round_rows_fail (self, error);
      return;
    }
  gtk_editable_set_text (GTK_EDITABLE (self->line), "");
  self->left = index;
  cro_round_rows_make_again (self, CRO_NO_SLOT);
  self->typed = index;
}

static void
enter_cb (GtkEventController *controller,
          CroRoundRows       *self)
{
  guint index = index_of (self, gtk_event_controller_get_widget (controller));

  if (self->round == NULL || index == CRO_NO_SLOT)
    return;
  if (self->row != index)
    self->left = self->row;
  self->row = index;
  cro_focus_begin_at (self->box, row_at (self, index)->entry);
  g_free (self->entered);
  self->entered = g_strdup (cro_round_get_row (self->round, index)->text);
  g_clear_pointer (&self->emptied, g_free);
  cro_round_rows_show_asked (self);
}

static void
leave_cb (GtkEventController *controller,
          CroRoundRows       *self)
{
  guint index = index_of (self, gtk_event_controller_get_widget (controller));

  if (self->round != NULL && index != CRO_NO_SLOT && index < cro_round_get_n_rows (self->round))
    end_search (self, index);
}

static void
line_enter_cb (CroRoundRows *self)
{
  if (self->row != CRO_NO_SLOT)
    self->left = self->row;
  self->row = CRO_NO_SLOT;
  cro_focus_begin_at (self->box, self->line);
  cro_round_rows_show_asked (self);
}

/* --- Keys -------------------------------------------------------------------------------------------------- */

static gboolean
restore (CroRoundRows *self,
         guint         index)
{
  CroRoundRow *row = cro_round_get_row (self->round, index);

  if (is_search (self, index, text_of (row_at (self, index)->entry)))
    {
      end_search (self, index);
      return TRUE;
    }
  if (g_strcmp0 (row->text, self->entered) == 0)
    return FALSE;
  type (self, index, self->entered);
  cro_round_rows_show_typed (self, index);
  return TRUE;
}

static void
remove_row (CroRoundRows *self,
            guint         index)
{
  cro_round_remove (self->round, index);
  cro_round_rows_set_round (self, self->round);
  cro_round_rows_focus (self, index);
  cro_round_rows_tell (self);
}

static gboolean
move (CroRoundRows *self,
      guint         index,
      int           by)
{
  const char *name = cro_round_get_row (self->round, index)->list.name;
  /* Translators: an entry of the history: where an ingredient stands in a supplier’s list. */
  g_autofree char *label = cro_act_dup_label (_("place in the list"), name);
  GError *error = NULL;

  if (!cro_round_move (self->round, index, by, label, &error))
    {
      cro_round_rows_fail (self, error);
      return GDK_EVENT_STOP;
    }
  cro_round_rows_set_round (self, self->round);
  cro_round_rows_focus (self, index + (guint) by);
  return GDK_EVENT_STOP;
}

/* Several lines are a list, whatever field they are pasted into. */
static gboolean
is_paste (guint           keyval,
          GdkModifierType state)
{
  return (keyval == GDK_KEY_v || keyval == GDK_KEY_V)
         && (state & gtk_accelerator_get_default_mod_mask ()) == GDK_CONTROL_MASK;
}

/* A click puts the cursor into "as last", which nobody typed: what is typed there takes its place, too. */
static void
begin_typing (GtkWidget       *entry,
              guint            keyval,
              GdkModifierType  state)
{
  gunichar sign = gdk_keyval_to_unicode (keyval);
  gboolean is_typed = g_unichar_isgraph (sign) && (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) == 0;

  if ((is_typed || is_paste (keyval, state)) && cro_entry_is_put (entry) && cro_round_is_word (text_of (entry)))
    gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
}

static gboolean
key_cb (GtkEventController *controller,
        guint               keyval,
        guint               keycode,
        GdkModifierType     state,
        CroRoundRows       *self)
{
  guint index = index_of (self, gtk_event_controller_get_widget (controller));
  gboolean is_up = keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up;
  gboolean is_down = keyval == GDK_KEY_Down || keyval == GDK_KEY_KP_Down;

  if (self->round == NULL || index == CRO_NO_SLOT)
    return GDK_EVENT_PROPAGATE;
  begin_typing (row_at (self, index)->entry, keyval, state);
  if (is_paste (keyval, state))
    return gtk_widget_activate_action (GTK_WIDGET (self), "round.paste", NULL);
  if ((is_up || is_down) && (state & GDK_ALT_MASK) != 0)
    return move (self, index, is_up ? -1 : 1);
  if (is_up && (state & gtk_accelerator_get_default_mod_mask ()) == 0 && index > 0)
    {
      cro_round_rows_focus (self, index - 1);
      return GDK_EVENT_STOP;
    }
  if (is_down && (state & gtk_accelerator_get_default_mod_mask ()) == 0)
    {
      cro_round_rows_focus (self, index + 1);
      return GDK_EVENT_STOP;
    }
  if (keyval == GDK_KEY_Escape)
    return restore (self, index) ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
  if (cro_round_get_row (self->round, index)->is_added
      && (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter)
      && *text_of (row_at (self, index)->entry) == '\0')
    {
      remove_row (self, index);
      return GDK_EVENT_STOP;
    }
  return GDK_EVENT_PROPAGATE;
}

static gboolean
line_key_cb (GtkEventController *controller,
             guint               keyval,
             guint               keycode,
             GdkModifierType     state,
             CroRoundRows       *self)
{
  if (is_paste (keyval, state))
    return gtk_widget_activate_action (GTK_WIDGET (self), "round.paste", NULL);
  if (keyval == GDK_KEY_Escape && *text_of (self->line) != '\0')
    {
      gtk_editable_set_text (GTK_EDITABLE (self->line), "");
      return GDK_EVENT_STOP;
    }
  if ((keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up) && n_rows_of (self) > 0 && (state & GDK_ALT_MASK) == 0)
    {
      cro_round_rows_focus (self, n_rows_of (self) - 1);
      return GDK_EVENT_STOP;
    }
  return GDK_EVENT_PROPAGATE;
}

GtkWidget *
cro_round_rows_entry_new (CroRoundRows *self,
                          const char   *name)
{
  GtkWidget *entry = cro_entry_new (name, self->is_tight ? TIGHT_NOW_CHARS : NOW_CHARS);
  GtkEventController *keys = gtk_event_controller_key_new (), *focus = gtk_event_controller_focus_new ();

  gtk_editable_set_alignment (GTK_EDITABLE (entry), 1);
  gtk_widget_add_css_class (entry, "numeric");
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_cb), self, 0);
  g_signal_connect_object (focus, "enter", G_CALLBACK (enter_cb), self, 0);
  g_signal_connect_object (focus, "leave", G_CALLBACK (leave_cb), self, 0);
  gtk_widget_add_controller (entry, keys);
  gtk_widget_add_controller (entry, focus);
  g_signal_connect_object (entry, "changed", G_CALLBACK (changed_cb), self, 0);
  g_signal_connect_object (entry, "activate", G_CALLBACK (activate_cb), self, 0);
  return entry;
}

/* --- Answers ------------------------------------------------------------------------------------------------ */

static gboolean
is_asked (CroRoundRows *self,
          guint         index)
{
  g_autofree char *suggestion = NULL;

  if (index >= n_rows_of (self) || !cro_round_row_waits (cro_round_get_row (self->round, index)))
    return FALSE;
  suggestion = cro_round_dup_suggestion (self->round, index);
  return suggestion != NULL || cro_round_can_be_right (self->round, index);
}

gboolean
cro_round_rows_is_at (CroRoundRows *self,
                      guint         index,
                      gboolean      or_left)
{
  if (!is_in_sight (self, index))
    return FALSE;
  return (index == self->row && cro_focus_is_in (row_at (self, index)->entry)) || (or_left && index == self->left);
}

guint
cro_round_rows_find_asked (CroRoundRows *self)
{
  return self->round != NULL && is_asked (self, self->asked_row) ? self->asked_row : CRO_NO_SLOT;
}

guint
cro_round_rows_find_waiting (CroRoundRows *self)
{
  guint n = self->round != NULL ? n_rows_of (self) : 0, at = cro_round_rows_get_row (self);

  for (guint i = 1; i <= n; i++)
    {
      guint index = (at < n ? at + i : i - 1) % n;

      if (cro_round_row_waits (cro_round_get_row (self->round, index)))
        return index;
    }
  return CRO_NO_SLOT;
}

guint
cro_round_rows_get_row (CroRoundRows *self)
{
  return self->row != CRO_NO_SLOT ? self->row : self->left;
}

static void
open_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroRoundRows *self = CRO_ROUND_ROWS (widget);
  CroModel *draft;
  CroModel *model;
  guint32 item;

  if (self->round == NULL || self->row >= n_rows_of (self))
    return;
  draft = cro_book_get_model (cro_round_get_draft (self->round));
  model = cro_book_get_model (cro_round_get_book (self->round));
  item = cro_round_get_row (self->round, self->row)->list.item;
  if (item == CRO_NO_SLOT)
    return;
  item = cro_slots_get (&model->item_slots, cro_model_item (draft, item)->id);
  if (item != CRO_NO_SLOT)
    cro_bench_open (self->bench, CRO_REF (CRO_REF_ITEM, item));
}

/* --- Rows ----------------------------------------------------------------------------------------------------- */

void
cro_round_rows_set_round (CroRoundRows *self,
                          CroRound     *round)
{
  gboolean had_focus = is_in_sight (self, self->row)
                       && gtk_widget_has_focus (gtk_widget_get_first_child (row_at (self, self->row)->entry));
  guint row = self->row;

  self->round = NULL;
  self->typed = CRO_NO_SLOT;
  cro_round_rows_clear (self);
  self->round = round;
  if (round == NULL)
    {
      cro_round_rows_show_asked (self);
      return;
    }
  cro_round_rows_show_from (self, self->first < n_rows_of (self) ? self->first : 0);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->line),
                                  self->rows->len > 0 ? _("turbot 3 kg 24.50/kg")
                                                      : _("The list as it is read to you: turbot 3 kg 24.50/kg"));
  self->row = row < n_rows_of (self) ? row : CRO_NO_SLOT;
  if (self->left >= n_rows_of (self))
    self->left = CRO_NO_SLOT;
  line_changed_cb (self);
  cro_round_rows_show_asked (self);
  if (had_focus)
    cro_round_rows_focus (self, row);
}

void
cro_round_rows_rest (CroRoundRows *self)
{
  self->round = NULL;
}

void
cro_round_rows_refresh (CroRoundRows *self)
{
  for (guint i = self->first; is_in_sight (self, i); i++)
    {
      cro_round_rows_show_typed (self, i);
      cro_round_rows_show_row (self, i);
    }
  cro_round_rows_show_asked (self);
}

/* --- The widget -------------------------------------------------------------------------------------------- */

static void
cro_round_rows_dispose (GObject *object)
{
  CroRoundRows *self = CRO_ROUND_ROWS (object);

  self->round = NULL;
  g_array_set_size (self->rows, 0);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_round_rows_parent_class)->dispose (object);
}

static void
cro_round_rows_finalize (GObject *object)
{
  CroRoundRows *self = CRO_ROUND_ROWS (object);

  g_array_unref (self->rows);
  g_free (self->entered);
  g_free (self->emptied);
  G_OBJECT_CLASS (cro_round_rows_parent_class)->finalize (object);
}

static void
cro_round_rows_class_init (CroRoundRowsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_round_rows_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_round_rows_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "item.open", NULL, open_cb);
  signals[MOVED] = g_signal_new ("moved", CRO_TYPE_ROUND_ROWS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[DONE] = g_signal_new ("done", CRO_TYPE_ROUND_ROWS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static GtkWidget *
line_new (CroRoundRows *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkEventController *keys = gtk_event_controller_key_new (), *focus = gtk_event_controller_focus_new ();

  self->line = cro_entry_new (_("New pack or ingredient"), 30);
  gtk_widget_set_hexpand (self->line, TRUE);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (line_key_cb), self, 0);
  g_signal_connect_object (focus, "enter", G_CALLBACK (line_enter_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->line, keys);
  gtk_widget_add_controller (self->line, focus);
  g_signal_connect_object (self->line, "changed", G_CALLBACK (line_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->line, "activate", G_CALLBACK (line_activate_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), gtk_label_new (C_("price", "new")));
  gtk_box_append (GTK_BOX (box), self->line);
  return box;
}

static void
cro_round_rows_init (CroRoundRows *self)
{
  self->rows = g_array_new (FALSE, FALSE, sizeof (Row));
  self->row = self->left = self->asked_row = self->typed = CRO_NO_SLOT;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (self->box, "bench");
  gtk_widget_add_css_class (self->box, "round");
  /* The focus comes back to the row where it was. */
  gtk_widget_add_css_class (self->box, "lines-part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 12);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 1);
  gtk_widget_set_halign (self->grid, GTK_ALIGN_START);
  self->meaning = cro_text_new ("", "caption");
  gtk_box_append (GTK_BOX (self->box), self->grid);
  gtk_box_append (GTK_BOX (self->box), cro_round_rows_pages_new (self));
  gtk_box_append (GTK_BOX (self->box), line_new (self));
  gtk_box_append (GTK_BOX (self->box), self->meaning);
  cro_round_rows_make_asked (self);
}

GtkWidget *
cro_round_rows_new (CroBench *bench)
{
  CroRoundRows *self = g_object_new (CRO_TYPE_ROUND_ROWS, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
