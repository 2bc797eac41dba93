/* How a row of a round stands on the sheet. */
#include "config.h"

#include "cro-round-rows-private.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-reason.h"

/* --- What is said of a row ---------------------------------------------------------------------------- */

static GtkWidget *
answer_new (CroRoundRows *self)
{
  GtkWidget *button = gtk_button_new_with_label ("");
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_signal_connect_object (button, "clicked", G_CALLBACK (cro_round_rows_answer_cb), self, 0);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (cro_round_rows_answer_key_cb), self, 0);
  gtk_widget_add_controller (button, keys);
  return button;
}

static void
make_answers (CroRoundRows *self,
              guint         index)
{
  Row *row = row_at (self, index);

  row->answers = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  row->suggest = answer_new (self);
  row->right = answer_new (self);
  row->else_ = cro_round_else_new ();
  g_signal_connect_object (row->else_, "called", G_CALLBACK (cro_round_rows_called_cb), self, 0);
  g_signal_connect_object (row->else_, "holds", G_CALLBACK (cro_round_rows_holds_cb), self, 0);
  g_signal_connect_object (row->else_, "sorted", G_CALLBACK (cro_round_rows_sorted_cb), self, 0);
  g_signal_connect_object (row->else_, "turned", G_CALLBACK (cro_round_rows_turned_cb), self, 0);
  gtk_widget_set_halign (row->answers, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (row->answers), row->suggest);
  gtk_box_append (GTK_BOX (row->answers), row->right);
  gtk_box_append (GTK_BOX (row->answers), row->else_);
  gtk_grid_attach (GTK_GRID (self->grid), row->answers, NAME, line_of (self, index) + 2, CHANGE - NAME + 1, 1);
}

/* Where there is but one button it stands beside what is said. */
static void
place_answers (CroRoundRows *self,
               guint         index,
               gboolean      is_one)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (self->grid);
  GtkLayoutChild *child = gtk_layout_manager_get_layout_child (layout, row_at (self, index)->answers);
  int column = is_one ? CHANGE : NAME;

  g_object_set (child, "column", column, "column-span", CHANGE - column + 1, "row",
                line_of (self, index) + (is_one ? 1 : 2), NULL);
}

static void
show_answers (CroRoundRows *self,
              guint         index)
{
  Row *row = row_at (self, index);
  const CroRoundRow *of = cro_round_get_row (self->round, index);
  g_autofree char *suggestion = cro_round_dup_suggestion (self->round, index);
  gboolean can_be_right = cro_round_can_be_right (self->round, index);
  gboolean can_be_else = cro_round_can_call (self->round, index) || cro_round_can_hold (self->round, index)
                         || cro_round_can_sort (self->round, index) || cro_round_can_turn (self->round, index);
  g_autofree char *suggest = NULL, *right = NULL, *typed = cro_words_round_typed (self->round, of);

  if (of->kind == CRO_ROUND_EMPTY || (suggestion == NULL && !can_be_right && !can_be_else))
    {
      if (row->answers != NULL)
        gtk_widget_set_visible (row->answers, FALSE);
      return;
    }
  if (row->answers == NULL)
    make_answers (self, index);
  /* Translators: a button with its key: takes the price that was probably meant. */
  suggest = suggestion != NULL ? cro_isolate_printf (_("F2  Use %s"), suggestion) : NULL;
  right = (of->is_added || of->is_billed) && of->list.item == CRO_NO_SLOT
              /* Translators: a button with its key: a new ingredient is made. */
              ? g_strdup (_("F3  New Ingredient"))
              /* Translators: a button with its key: the price that was typed is right. */
              : cro_isolate_printf (_("F3  %s Is Right"), typed);
  gtk_button_set_label (GTK_BUTTON (row->suggest), suggest != NULL ? suggest : "");
  gtk_button_set_label (GTK_BUTTON (row->right), right);
  gtk_widget_set_visible (row->suggest, suggest != NULL);
  gtk_widget_set_visible (row->right, can_be_right);
  cro_round_else_show (CRO_ROUND_ELSE (row->else_), self->round, index);
  place_answers (self, index, suggest == NULL && !can_be_right);
  gtk_widget_set_visible (row->answers, TRUE);
}

void
cro_round_rows_show_note (CroRoundRows *self,
                          guint         index,
                          const char   *note)
{
  Row *row = row_at (self, index);
  gboolean waits = cro_round_row_waits (cro_round_get_row (self->round, index));

  if (row->note == NULL && note == NULL)
    return;
  if (row->note == NULL)
    {
      row->note = cro_text_new ("", "caption");
      /* It is wrapped into the room of its columns, and widens none. */
      gtk_label_set_max_width_chars (GTK_LABEL (row->note), 1);
      gtk_grid_attach (GTK_GRID (self->grid), row->note, NAME, line_of (self, index) + 1, NOW - NAME, 1);
    }
  gtk_label_set_label (GTK_LABEL (row->note), note != NULL ? note : "");
  gtk_widget_set_visible (row->note, note != NULL);
  if (waits)
    gtk_widget_add_css_class (row->note, "reason");
  else
    gtk_widget_remove_css_class (row->note, "reason");
}

/* Whoever hears the field hears what is said of it. */
static void
describe (Row        *row,
          const char *note,
          const char *other,
          const char *change)
{
  g_autofree char *all = g_strdup_printf ("%s %s %s", other != NULL ? other : "", change != NULL ? change : "",
                                          note != NULL ? note : "");

  gtk_accessible_update_property (GTK_ACCESSIBLE (row->entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  g_strstrip (all), -1);
}

static char *
dup_pack (const CroRoundRow *row)
{
  const CroPack *shown = row->is_added || row->is_billed ? &row->list.pack : &row->pack;

  return shown->size > 0 ? cro_pack_to_short_text (shown) : g_strdup ("");
}

static char *
last_of (CroRoundRows      *self,
         const CroRoundRow *row)
{
  g_autofree char *price = cro_words_round_shown_last (self->round, row), *day = NULL;

  if (price == NULL || row->is_billed || row->since == CRO_NO_DAY)
    return g_steal_pointer (&price);
  day = cro_date_to_text (row->since);
  return g_strdup_printf ("%s  %s", price, day);
}

void
cro_round_rows_show_row (CroRoundRows *self,
                         guint         index)
{
  Row *row = row_at (self, index);
  const CroRoundRow *of = cro_round_get_row (self->round, index);
  g_autofree char *other = cro_words_round_other (self->round, of), *change = cro_words_round_change (of);
  g_autofree char *note = cro_words_round_note (self->round, index), *pack = dup_pack (of), *last = last_of (self, of);

  gtk_label_set_label (GTK_LABEL (row->pack), pack);
  gtk_label_set_label (GTK_LABEL (row->last), last != NULL ? last : "");
  gtk_label_set_label (GTK_LABEL (row->other), other != NULL ? other : "");
  gtk_label_set_label (GTK_LABEL (row->change), change != NULL ? change : "");
  cro_round_rows_show_note (self, index, note);
  show_answers (self, index);
  describe (row, note, other, change);
  cro_reason_mark (row->entry, of->wrong != NULL);
}

/* What was typed, in words, where the focus is elsewhere. */
void
cro_round_rows_show_typed (CroRoundRows *self,
                           guint         index)
{
  g_autofree char *typed = cro_words_round_typed (self->round, cro_round_get_row (self->round, index));

  cro_round_rows_put_text (self, row_at (self, index)->entry, typed);
}

/* --- Rows ----------------------------------------------------------------------------------------------------- */

static GtkWidget *
cell_new (CroRoundRows *self,
          const char   *text,
          guint         column,
          int           line)
{
  GtkWidget *label = column == LAST || column == CHANGE ? cro_number_label_new () : gtk_label_new (NULL);

  gtk_label_set_label (GTK_LABEL (label), text);
  gtk_label_set_xalign (GTK_LABEL (label), column == LAST || column == CHANGE ? 1 : 0);
  gtk_grid_attach (GTK_GRID (self->grid), label, (int) column, line, 1, 1);
  return label;
}

/* With its pack where the supplier has several of it. */
static char *
dup_called (CroRoundRows      *self,
            const CroRoundRow *row,
            const char        *name,
            const char        *pack)
{
  guint n = 0;

  for (guint i = 0; row->list.item != CRO_NO_SLOT && i < cro_round_get_n_rows (self->round); i++)
    n += cro_round_get_row (self->round, i)->list.item == row->list.item;
  return n > 1 && *pack != '\0' ? g_strdup_printf ("%s, %s", name, pack) : g_strdup (name);
}

void
cro_round_rows_add_row (CroRoundRows *self,
                        guint         index)
{
  const CroRoundRow *of = cro_round_get_row (self->round, index);
  int line = line_of (self, index);
  g_autofree char *name = cro_words_round_name (self->round, of);
  g_autofree char *pack = dup_pack (of);
  g_autofree char *called = dup_called (self, of, name, pack);
  /* Translators: the accessible name of a field; an ingredient. */
  g_autofree char *spoken = cro_isolate_printf (_("New price of %s"), called);
  Row row = { 0 };
  GtkWidget *label;

  cell_new (self, of->is_added ? C_("price", "new") : of->list.code != NULL ? of->list.code : "", CODE, line);
  label = cell_new (self, name, NAME, line);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 18);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_set_tooltip_text (label, name);
  row.pack = cell_new (self, pack, PACK, line);
  row.last = cell_new (self, "", LAST, line);
  row.change = cell_new (self, "", CHANGE, line);
  gtk_label_set_width_chars (GTK_LABEL (row.change), 8);
  row.entry = cro_round_rows_entry_new (self, spoken);
  gtk_editable_set_editable (GTK_EDITABLE (row.entry), !of->is_billed);
  gtk_grid_attach (GTK_GRID (self->grid), row.entry, of->is_added ? LAST : NOW, line, of->is_added ? 2 : 1, 1);
  if (of->is_added)
    gtk_widget_set_visible (row.last, FALSE);
  row.other = cro_number_label_new ();
  gtk_widget_add_css_class (row.other, "caption");
  gtk_label_set_xalign (GTK_LABEL (row.other), 1);
  gtk_grid_attach (GTK_GRID (self->grid), row.other, NOW, line + 1, 1, 1);
  g_array_append_val (self->rows, row);
  cro_round_rows_show_typed (self, index);
  cro_round_rows_show_row (self, index);
}

void
cro_round_rows_add_heads (CroRoundRows *self)
{
  const char *heads[N_COLUMNS] = {
    [CODE] = _("Code"), [NAME] = _("Ingredient"), [PACK] = _("Pack"), [LAST] = C_("price", "Last"),
    /* Translators: the head of a column of new prices. */
    [NOW] = C_("price", "Now"), [CHANGE] = _("Change"),
  };

  for (guint i = 0; i < N_COLUMNS; i++)
    {
      GtkWidget *head = cro_caption_new (heads[i], i >= LAST ? 1 : 0);

      gtk_grid_attach (GTK_GRID (self->grid), head, (int) i, 0, 1, 1);
    }
}
