/* Which rows of a round are in sight. */
#include "config.h"

#include "cro-round-rows-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-focus.h"
#include "cro-reveal.h"

void
cro_round_rows_clear (CroRoundRows *self)
{
  GtkWidget *child;

  cro_focus_begin_at (self->box, NULL);
  g_array_set_size (self->rows, 0);
  while ((child = gtk_widget_get_first_child (self->grid)) != NULL)
    gtk_grid_remove (GTK_GRID (self->grid), child);
}

static void
show_pages (CroRoundRows *self)
{
  guint n = n_rows_of (self), last = self->first + self->rows->len;
  /* Translators: which rows of a long list are in sight, and how many it has. */
  g_autofree char *text = g_strdup_printf (_("Rows %u to %u of %u"), self->first + 1, last, n);

  gtk_label_set_label (GTK_LABEL (self->page), text);
  gtk_widget_set_sensitive (self->page_before, self->first > 0);
  gtk_widget_set_sensitive (self->page_after, last < n);
  gtk_widget_set_visible (self->pages, n > MOST_ROWS);
}

void
cro_round_rows_show_from (CroRoundRows *self,
                          guint         first)
{
  CroRound *round = self->round;
  guint n = n_rows_of (self);

  self->round = NULL;
  cro_round_rows_clear (self);
  self->first = first;
  self->round = round;
  cro_round_rows_add_heads (self);
  for (guint i = first; i < MIN (n, first + MOST_ROWS); i++)
    cro_round_rows_add_row (self, i);
  gtk_widget_set_visible (self->grid, self->rows->len > 0);
  show_pages (self);
}

static void
turn_page (CroRoundRows *self,
           gboolean      is_on)
{
  if (self->round == NULL)
    return;
  cro_round_rows_show_from (self, is_on ? self->first + MOST_ROWS : self->first - MIN (self->first, MOST_ROWS));
  cro_round_rows_focus (self, self->first);
}

static void
page_before_cb (CroRoundRows *self)
{
  turn_page (self, FALSE);
}

static void
page_after_cb (CroRoundRows *self)
{
  turn_page (self, TRUE);
}

/* That of a row, or the one for a new row. */
static GtkWidget *
field_of (CroRoundRows *self,
          guint         index)
{
  return is_in_sight (self, index) ? row_at (self, index)->entry : self->line;
}

/* value: where the page stood before its rows were made anew; NaN: where it stands. */
static void
reveal (CroRoundRows *self,
        guint         index,
        double        value)
{
  GtkWidget *field = field_of (self, index);

  cro_reveal_from (field, value);
  cro_reveal (field);
}

void
cro_round_rows_reveal (CroRoundRows *self)
{
  if (self->round != NULL)
    reveal (self, self->row, NAN);
}

gboolean
cro_round_rows_is_seen (CroRoundRows *self,
                        guint         index)
{
  /* Keys come faster than a page is laid out. */
  return is_in_sight (self, index)
         && (index == self->typed || cro_reveal_is_seen (row_at (self, index)->entry));
}

/* Rows that were made just now have no place yet. */
static void
focus (CroRoundRows *self,
       guint         index,
       double        value)
{
  if (index < n_rows_of (self) && !is_in_sight (self, index))
    cro_round_rows_show_from (self, index - index % MOST_ROWS);
  gtk_widget_grab_focus (field_of (self, index));
  reveal (self, index, value);
}

void
cro_round_rows_focus (CroRoundRows *self,
                      guint         index)
{
  focus (self, index, NAN);
}

/* What goes has not the focus meanwhile: the page would follow it. */
void
cro_round_rows_make_again (CroRoundRows *self,
                           guint         index)
{
  GtkWidget *scroller = gtk_widget_get_ancestor (GTK_WIDGET (self), GTK_TYPE_SCROLLED_WINDOW);
  double value = scroller != NULL ? gtk_adjustment_get_value (
                                        gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller)))
                                  : NAN;

  gtk_widget_grab_focus (self->line);
  cro_round_rows_set_round (self, self->round);
  cro_round_rows_tell (self);
  focus (self, MIN (index, n_rows_of (self)), value);
}

GtkWidget *
cro_round_rows_pages_new (CroRoundRows *self)
{
  self->pages = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  self->page = gtk_label_new (NULL);
  self->page_before = gtk_button_new_with_mnemonic (_("_Previous"));
  self->page_after = gtk_button_new_with_mnemonic (_("_Next"));
  g_signal_connect_object (self->page_before, "clicked", G_CALLBACK (page_before_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->page_after, "clicked", G_CALLBACK (page_after_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->pages), self->page);
  gtk_box_append (GTK_BOX (self->pages), self->page_before);
  gtk_box_append (GTK_BOX (self->pages), self->page_after);
  gtk_widget_set_visible (self->pages, FALSE);
  return self->pages;
}
