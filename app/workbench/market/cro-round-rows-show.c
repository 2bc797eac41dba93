/* How a row of a round stands on the sheet. */
#include "config.h"

#include "cro-round-rows-private.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-reason.h"
#include "cro-room.h"

/* --- What is said of a row ---------------------------------------------------------------------------- */

void
cro_round_rows_show_note (CroRoundRows *self,
                          guint         index,
                          const char   *note)
{
  Row *row = row_at (self, index);
  gboolean waits = cro_round_row_waits (cro_round_get_row (self->round, index));

  if (self->is_tight)
    {
      if (note != NULL && index == self->row)
        cro_round_rows_say (self, index, note);
      return;
    }
  if (row->note == NULL && note == NULL)
    return;
  if (row->note == NULL)
    {
      row->note = gtk_label_new (NULL);
      gtk_label_set_xalign (GTK_LABEL (row->note), 0);
      gtk_widget_add_css_class (row->note, "caption");
      /* In one line, so that no row moves: the whole is said below. It widens no column either. */
      gtk_label_set_ellipsize (GTK_LABEL (row->note), PANGO_ELLIPSIZE_END);
      gtk_label_set_max_width_chars (GTK_LABEL (row->note), 1);
      gtk_grid_attach (GTK_GRID (self->grid), row->note, NAME, line_of (self, index) + 1, NOW - NAME, 1);
    }
  gtk_label_set_label (GTK_LABEL (row->note), note != NULL ? note : "");
  gtk_widget_set_tooltip_text (row->note, note);
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

/* What waits has its mark where its question stands elsewhere. */
static void
show_change (CroRoundRows      *self,
             Row               *row,
             const CroRoundRow *of,
             const char        *change)
{
  const char *text = change != NULL ? change : "";
  g_autofree char *asked = self->is_tight && cro_round_row_waits (of) ? g_strdup_printf ("%s ?", text) : NULL;

  gtk_label_set_label (GTK_LABEL (row->change), asked != NULL ? asked : text);
}

static char *
last_of (CroRoundRows      *self,
         const CroRoundRow *row)
{
  g_autofree char *price = cro_words_round_shown_last (self->round, row), *day = NULL;

  if (price == NULL || row->is_billed || row->since == CRO_NO_DAY || self->is_tight)
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
  show_change (self, row, of, change);
  cro_round_rows_show_note (self, index, note);
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

static GtkWidget *
other_new (void)
{
  GtkWidget *label = cro_number_label_new ();

  gtk_widget_add_css_class (label, "caption");
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
  g_autofree char *longer = NULL;
  Row row = { 0 };
  GtkWidget *label, *sample, *room;

  cell_new (self, of->is_added ? C_("price", "new") : of->list.code != NULL ? of->list.code : "", CODE, line);
  label = cell_new (self, name, NAME, line);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), self->is_tight ? TIGHT_NAME_CHARS : NAME_CHARS);
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
  row.other = other_new ();
  sample = other_new ();
  room = cro_room_new (row.other, sample);
  gtk_grid_attach (GTK_GRID (self->grid), room, NOW, line + 1, 1, 1);
  gtk_widget_set_visible (room, !self->is_tight);
  g_array_append_val (self->rows, row);
  cro_round_rows_show_typed (self, index);
  cro_round_rows_show_row (self, index);
  /* Room for two digits more: a slip of the decimal sign widens no column. */
  longer = g_strdup_printf ("00%s", gtk_label_get_label (GTK_LABEL (row.other)));
  gtk_label_set_label (GTK_LABEL (sample), longer);
}

/* The longest last price in sight, with room for a digit more, and the longest day: whatever is posted, they stand
 * where they stood. Where there is none, room for those to come, which the lines of new packs have meanwhile. */
static char *
dup_last_sample (CroRoundRows *self)
{
  g_autofree char *longest = g_strdup (self->is_tight ? "" : "00.00"), *day = NULL;

  for (guint i = self->first; i < MIN (n_rows_of (self), self->first + MOST_ROWS); i++)
    {
      char *price = cro_words_round_shown_last (self->round, cro_round_get_row (self->round, i));

      if (price != NULL && g_utf8_strlen (price, -1) > g_utf8_strlen (longest, -1))
        {
          g_free (longest);
          longest = g_steal_pointer (&price);
        }
      g_free (price);
    }
  if (self->is_tight)
    return g_strdup_printf ("0%s", longest);
  day = g_strnfill ((gsize) cro_date_chars () - 1, '0');
  return g_strdup_printf ("0%s  %s", longest, day);
}

/* What a column has room for, whatever its rows say; NULL: that is all. */
static GtkWidget *
sample_new (CroRoundRows *self,
            guint         column)
{
  static const CroPack pack = { .count = INT64_C (12000000), .size = INT64_C (250000000), .unit = CRO_UNIT_G };
  g_autofree char *text = column == CODE   ? g_strdup (C_("price", "new"))
                          : column == PACK ? cro_pack_to_short_text (&pack)
                          : column == LAST ? dup_last_sample (self)
                                           : NULL;
  GtkWidget *label = text != NULL ? cro_number_label_new () : NULL;

  if (label != NULL)
    gtk_label_set_label (GTK_LABEL (label), text);
  return label;
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
      GtkWidget *head = cro_caption_new (heads[i], i >= LAST ? 1 : 0), *sample = sample_new (self, i);

      gtk_grid_attach (GTK_GRID (self->grid), sample != NULL ? cro_room_new (head, sample) : head, (int) i, 0, 1, 1);
    }
}

static GtkWidget *
focused_field (CroRoundRows *self)
{
  GtkWidget *field = self->row >= self->first && self->row - self->first < self->rows->len
                         ? row_at (self, self->row)->entry : NULL;

  return field != NULL && gtk_widget_get_focus_child (field) != NULL ? field : NULL;
}

/* Typing goes on where it was: a field that takes the focus selects all that stands there. */
void
cro_round_rows_set_tight (CroRoundRows *self,
                          gboolean      is_tight)
{
  GtkWidget *field;
  int from = 0, to = 0;

  if (self->is_tight == is_tight)
    return;
  self->is_tight = is_tight;
  if (self->round == NULL)
    return;
  field = focused_field (self);
  if (field != NULL)
    gtk_editable_get_selection_bounds (GTK_EDITABLE (field), &from, &to);
  cro_round_rows_set_round (self, self->round);
  if (field != NULL && (field = focused_field (self)) != NULL)
    gtk_editable_select_region (GTK_EDITABLE (field), from, to);
}
