/* What was posted: what it did, one row of it back, or all. */
#include "config.h"

#include "cro-new-prices-private.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-past.h"
#include "cro-room.h"
#include "cro-spoken.h"
#include "cro-wrap.h"

/* Of a name or a price among what was posted, in characters. */
#define MOST_CELL 28

/* --- What is posted ------------------------------------------------------------------------------------------ */

static gboolean
is_in_force (const CroRoundPost *post)
{
  for (guint k = 0; k < post->rows->len; k++)
    if (!((CroRoundPosted *) post->rows->pdata[k])->is_back)
      return TRUE;
  return FALSE;
}

/* Whether it was posted once more, taken back meanwhile or not: the same price, or line of the same document. */
static gboolean
is_posted_again (CroNewPrices         *self,
                 const CroRoundPost   *of,
                 const CroRoundPosted *row)
{
  for (guint i = self->posts->len; i > 0 && self->posts->pdata[i - 1] != of; i--)
    {
      const CroRoundPost *post = self->posts->pdata[i - 1];

      for (guint k = 0; k < post->rows->len; k++)
        {
          const CroRoundPosted *at = post->rows->pdata[k];

          if (at->is_back || (at->typed == NULL) != (row->typed == NULL))
            continue;
          if (row->typed != NULL ? at->offer == row->offer && at->offer != 0 && at->from == row->from
                                 : at->line == row->line && cro_round_posts_same_document (post, of))
            return TRUE;
        }
    }
  return FALSE;
}

static char *
dup_posted (guint       n,
            guint       n_back,
            const char *time)
{
  /* Translators: how many new prices were kept, and when: a time of day. */
  g_autofree char *text = g_strdup_printf (ngettext ("Posted %u at %s", "Posted %u at %s", n), n, time);

  /* Translators: how many new prices are kept, in words; how many of them were taken back alone. */
  return n_back > 0 ? g_strdup_printf (ngettext ("%s, %u taken back", "%s, %u taken back", n_back), text, n_back)
                    : g_steal_pointer (&text);
}

/* When the last of it was, whatever becomes of it later. */
static char *
dup_time (CroNewPrices *self)
{
  const CroRoundPost *last = self->posts->len > 0 ? self->posts->pdata[self->posts->len - 1] : NULL;
  CroStore *store = cro_book_get_store (cro_bench_get_book (self->bench));
  g_autoptr (CroAct) act = last != NULL ? cro_store_find_act (store, last->act, NULL) : NULL;
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();
  g_autoptr (GDateTime) at = act != NULL ? g_date_time_new_from_iso8601 (act->at, utc) : NULL;
  g_autoptr (GDateTime) here = at != NULL ? g_date_time_to_local (at) : NULL;

  return here != NULL ? g_date_time_format (here, "%H:%M") : g_strdup ("");
}

static void
show_label (CroNewPrices *self)
{
  guint n = 0, n_back = 0;
  g_autofree char *time = dup_time (self), *text = NULL;

  gtk_widget_set_visible (self->posted_box, self->posts->len > 0);
  for (guint i = 0; i < self->posts->len; i++)
    {
      const CroRoundPost *post = self->posts->pdata[i];

      for (guint k = 0; k < post->rows->len; k++)
        {
          const CroRoundPosted *row = post->rows->pdata[k];

          /* What was posted once more counts once. */
          if (is_posted_again (self, post, row))
            continue;
          n += !row->is_back;
          n_back += row->is_back;
        }
    }
  text = dup_posted (n, n_back, time);
  gtk_label_set_label (GTK_LABEL (self->posted_label), text);
}

void
cro_new_prices_forget_did (CroNewPrices *self)
{
  g_clear_pointer (&self->did, cro_round_effect_free);
  g_clear_pointer (&self->did_view, cro_round_view_free);
}

/* What is left of it moves the figures, and nothing that was taken back. */
void
cro_new_prices_read_did (CroNewPrices *self)
{
  gboolean has_any = FALSE;

  cro_new_prices_forget_did (self);
  for (guint i = 0; i < self->posts->len; i++)
    has_any |= is_in_force (self->posts->pdata[i]);
  if (has_any && self->round != NULL)
    self->did_view = cro_round_view_of_posts (self->round, self->posts, NULL);
  if (self->did_view != NULL)
    self->did = cro_round_view_read (self->did_view, cro_round_panel_get_most (self->panel));
}

void
cro_new_prices_show_more (CroNewPrices *self)
{
  cro_new_prices_read_did (self);
  if (self->round != NULL)
    cro_new_prices_show_effect (self);
}

/* What is typed again stands in rows that are made anew. */
static void
show_typed_again (CroNewPrices *self,
                  GError       *error)
{
  cro_round_rows_set_round (self->rows, self->round);
  cro_new_prices_moved (self);
  if (error != NULL)
    cro_new_prices_fail (self, error);
}

/* What an open document booked before this stays, as its head says. */
static const char *
what_stays (CroNewPrices *self)
{
  const CroPriceList *list = self->round != NULL ? cro_round_get_invoice (self->round) : NULL;
  gboolean stays = FALSE;

  for (guint i = 0; list != NULL && i < list->rows->len; i++)
    stays |= g_array_index (list->rows, CroListRow, i).is_in_book;
  return stays ? NULL : _("Nothing is posted any more.");
}

/* Postings that are in force, or not, go over to the others, which stay in their order. Returns them, the last
 * first. */
static GPtrArray *
change_over (CroNewPrices *self,
             GPtrArray    *from,
             GPtrArray    *to,
             gboolean      in_force)
{
  GPtrArray *changed = g_ptr_array_new ();

  for (guint i = from->len; i > 0; i--)
    {
      CroRoundPost *post = from->pdata[i - 1];
      int at = 0;

      if (cro_round_is_in_force (cro_bench_get_book (self->bench), post->act) != in_force)
        continue;
      g_ptr_array_add (changed, post);
      g_ptr_array_steal_index (from, i - 1);
      while (at < (int) to->len && ((CroRoundPost *) to->pdata[at])->act < post->act)
        at++;
      g_ptr_array_insert (to, at, post);
      for (guint k = 0; in_force && self->round != NULL && k < post->rows->len; k++)
        cro_round_put_out (self->round, post->rows->pdata[k], NULL);
    }
  return changed;
}

/* What was typed for postings that were undone, the last first, stands in the sheet again. Of another document than the
 * open one it waits for that file. */
static gboolean
retype (CroNewPrices  *self,
        GPtrArray     *posts,
        GError       **error)
{
  for (guint i = 0; self->round != NULL && i < posts->len; i++)
    if (cro_round_can_retype (self->round, posts->pdata[i]) && !cro_round_retype (self->round, posts->pdata[i], error))
      return FALSE;
  return TRUE;
}

/* Rows whose taking back was undone leave the sheet. */
static guint
put_restored_out (CroNewPrices *self)
{
  guint n = 0;

  for (guint i = self->posts->len; i > 0; i--)
    {
      GPtrArray *rows = ((CroRoundPost *) self->posts->pdata[i - 1])->rows;

      for (guint k = 0; k < rows->len; k++)
        if (cro_round_is_restored (cro_bench_get_book (self->bench), self->posts, rows->pdata[k]))
          {
            n++;
            if (self->round != NULL)
              cro_round_put_out (self->round, rows->pdata[k], NULL);
          }
    }
  return n;
}

/* Those of which it was redone come into it again. */
static guint
put_taken_back (CroNewPrices  *self,
                GError       **error)
{
  guint n = 0;

  for (guint i = self->posts->len; i > 0; i--)
    {
      CroRoundPost *post = self->posts->pdata[i - 1];

      for (guint k = 0; k < post->rows->len; k++)
        if (cro_round_is_back_again (cro_bench_get_book (self->bench), self->posts, post->rows->pdata[k]))
          {
            n++;
            if (self->round != NULL)
              cro_round_put_back (self->round, post, post->rows->pdata[k], *error == NULL ? error : NULL);
          }
    }
  return n;
}

void
cro_new_prices_check_posted (CroNewPrices *self)
{
  GError *error = NULL;
  g_autoptr (GPtrArray) undone = change_over (self, self->posts, self->undone, FALSE);
  g_autoptr (GPtrArray) redone = change_over (self, self->undone, self->posts, TRUE);
  guint n_out = put_restored_out (self), n_back;
  gboolean is_refused;

  /* What comes in is typed beside the book as it is now. */
  cro_new_prices_catch_up (self);
  n_back = put_taken_back (self, &error);
  retype (self, undone, error == NULL ? &error : NULL);
  if (undone->len + redone->len + n_out + n_back == 0)
    return;
  is_refused = error != NULL;
  cro_new_prices_show_posted (self);
  cro_new_prices_read_did (self);
  if (n_back + undone->len > 0 && self->round != NULL)
    show_typed_again (self, error);
  else if (self->round != NULL)
    cro_new_prices_moved (self);
  if (self->posts->len == 0 && !is_refused)
    cro_new_prices_say (self, what_stays (self));
}

static void take_back_cb (GtkWidget    *button,
                          CroNewPrices *self);

/* What it did, and so what goes with it: "48.00 · 192.00 booked"; "" of what repeats another row. Of what was taken
 * back it says what it was, and not that it is booked. */
static char *
dup_what (const CroRoundPosted *row)
{
  g_autofree char *booked = NULL;

  if (row->is_back && row->price == NULL && row->booked != NULL)
    return g_strdup (row->booked);
  if (row->booked == NULL || row->is_back)
    return g_strdup (row->price != NULL ? row->price : "");
  /* Translators: money of a line of an invoice. */
  booked = g_strdup_printf (_("%s booked"), row->booked);
  return row->price != NULL ? g_strdup_printf ("%s · %s", row->price, booked) : g_steal_pointer (&booked);
}

/* It keeps its line: a popover is as narrow as what it holds can be. Only what is long is cut: short words of wide
 * letters need more than as many widths of a letter. */
static void
set_cell (GtkWidget  *label,
          const char *text)
{
  gboolean is_long = g_utf8_strlen (text, -1) > MOST_CELL;

  gtk_label_set_label (GTK_LABEL (label), text);
  gtk_label_set_ellipsize (GTK_LABEL (label), is_long ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
  gtk_label_set_width_chars (GTK_LABEL (label), is_long ? MOST_CELL : -1);
  gtk_label_set_max_width_chars (GTK_LABEL (label), is_long ? MOST_CELL : -1);
  gtk_widget_set_tooltip_text (label, text);
}

static GtkWidget *
cell_new (const char *text)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  set_cell (label, text);
  return label;
}

static gboolean
can_be_back (const CroRoundPosted *row)
{
  return !row->is_back && (row->price != NULL || row->purchase != 0);
}

/* A row that was taken back says no longer that it is booked. */
static void
show_posted_row (GtkWidget            *button,
                 const CroRoundPosted *row)
{
  GtkWidget *cell = g_object_get_data (G_OBJECT (button), "what");
  g_autofree char *what = dup_what (row);
  g_autofree char *name = row->purchase != 0
                              /* Translators: the accessible name of a button; an ingredient, "48.00 · 192.00
                               * booked". */
                              ? cro_isolate_printf (_("Take back %s: %s"), row->name, what)
                              /* Translators: the accessible name of a button; an ingredient. */
                              : cro_isolate_printf (_("Take back the price of %s"), row->name);

  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_sensitive (button, can_be_back (row));
  set_cell (cell, what);
}

static int
add_posted_rows (CroNewPrices *self,
                 GtkGrid      *grid,
                 CroRoundPost *post,
                 int           line)
{
  for (guint i = 0; i < post->rows->len; i++, line++)
    {
      CroRoundPosted *row = post->rows->pdata[i];
      GtkWidget *button = gtk_button_new_with_label (_("Take Back")), *what = cell_new ("");

      g_object_set_data (G_OBJECT (button), "what", what);
      show_posted_row (button, row);
      g_object_set_data (G_OBJECT (button), "row", GUINT_TO_POINTER (i));
      g_object_set_data (G_OBJECT (button), "post", post);
      g_signal_connect_object (button, "clicked", G_CALLBACK (take_back_cb), self, 0);
      gtk_grid_attach (grid, cell_new (row->name), 0, line, 1, 1);
      gtk_grid_attach (grid, what, 1, line, 1, 1);
      gtk_grid_attach (grid, button, 2, line, 1, 1);
    }
  return line;
}

/* The last posting first. */
static void
make_posted_rows (CroNewPrices *self)
{
  GtkWidget *popover = gtk_popover_new (), *scroller = gtk_scrolled_window_new ();
  GtkWidget *grid = gtk_grid_new ();
  int line = 0;

  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  for (guint i = self->posts->len; i > 0; i--)
    line = add_posted_rows (self, GTK_GRID (grid), self->posts->pdata[i - 1], line);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), 360);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), grid);
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  /* GTK 4.8 never lets go of one that is open when it is taken away. */
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->posted_rows));
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->posted_rows), popover);
}

void
cro_new_prices_show_posted (CroNewPrices *self)
{
  make_posted_rows (self);
  show_label (self);
}

/* Of a line of an invoice; of one that was typed its row says it. NULL: that. is_open: it stands in the sheet again. */
static char *
dup_taken_back (const CroRoundPosted *row,
                gboolean              is_open)
{
  const char *next = is_open ? _("The line can be posted again.") : _("Take the document again to post the line.");

  if (row->typed != NULL)
    return NULL;
  if (row->purchase == 0)
    /* Translators: an ingredient of an invoice. */
    return cro_isolate_printf (_("The price of %s is taken back. What was bought stays booked."), row->name);
  if (row->price == NULL)
    /* Translators: a line of an invoice, money, and what can be done then: a sentence. */
    return cro_isolate_printf (_("%s: %s is no longer booked. %s"), row->name, row->booked, next);
  /* Translators: an ingredient of an invoice, money, and what can be done then: a sentence. */
  return cro_isolate_printf (_("%s: its price is taken back, and %s is no longer booked. %s"), row->name, row->booked,
                             next);
}

static void
take_back_cb (GtkWidget    *button,
              CroNewPrices *self)
{
  CroRoundPost *post = g_object_get_data (G_OBJECT (button), "post");
  CroRoundPosted *row;
  g_autofree char *label = NULL, *said = NULL;
  GError *error = NULL;

  /* It may be undone meanwhile. */
  if (self->round == NULL || !g_ptr_array_find (self->posts, post, NULL))
    return;
  row = post->rows->pdata[GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "row"))];
  label = row->purchase != 0 ? cro_isolate_printf (_("take back %s of an invoice"), row->name)
                             : cro_isolate_printf (_("take back price of %s"), row->name);
  said = dup_taken_back (row, (post->invoice != NULL || cro_round_get_invoice (self->round) != NULL)
                                  && cro_round_can_retype (self->round, post));
  if (!cro_round_take_back (cro_bench_get_book (self->bench), label, self->posts, row, &error))
    {
      /* Translators: an ingredient. */
      g_autofree char *changed = cro_isolate_printf (_("The price of %s was changed since, and stays. Type what is to "
                                                       "hold now."), row->name);
      gboolean is_changed = g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED);

      cro_new_prices_fail (self, error);
      if (is_changed)
        cro_new_prices_say (self, changed);
      return;
    }
  show_posted_row (button, row);
  cro_new_prices_catch_up (self);
  /* Who heard of it may have let go of what was posted. */
  if (!g_ptr_array_find (self->posts, post, NULL))
    return;
  cro_round_put_back (self->round, post, row, &error);
  cro_new_prices_read_did (self);
  show_typed_again (self, error);
  show_label (self);
  if (error == NULL)
    cro_new_prices_say (self, said);
}

/* What cannot stand in the sheet beside the open invoice is not undone unseen. */
static char *
dup_stays (CroNewPrices       *self,
           const CroRoundPost *post)
{
  const char *open;

  if (cro_round_can_retype (self->round, post))
    return NULL;
  open = cro_round_get_invoice (self->round)->document;
  /* Translators: numbers of two documents. */
  return cro_isolate_printf (_("%s stays posted while %s is open here. Post that or leave it out, then undo again."),
                             post->document != NULL ? post->document : "?", open != NULL ? open : "?");
}

/* Which price is in the way, and what can be done; is_part: later postings are undone. */
static char *
dup_in_the_way (CroNewPrices      *self,
                const CroConflict *conflict,
                const GError      *error,
                gboolean           is_part)
{
  g_autofree char *why = cro_past_dup_refused (cro_bench_get_book (self->bench), conflict, error);

  if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED))
    return g_steal_pointer (&why);
  if (is_part)
    /* Translators: why, in words: "price of Quay Shellfish’s Brown crab was changed since (…)". Rows is a button. */
    return cro_isolate_printf (_("The last posting is undone, the one before is not: %s. Under Rows other prices can "
                                 "be taken back one by one."), why);
  /* Translators: why, in words: "price of Quay Shellfish’s Brown crab was changed since (…)". Rows is a button. */
  return cro_isolate_printf (_("Undo is not possible: %s. Under Rows other prices can be taken back one by one."), why);
}

static void
undo_all_cb (CroNewPrices *self)
{
  g_autoptr (GPtrArray) posts = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *stays = NULL;
  CroConflict conflict = { 0 };
  gboolean done = TRUE, is_part = FALSE;

  if (self->posts->len == 0 || self->round == NULL)
    return;
  /* The book tells of each act, and who hears the last lets go of what was posted. */
  posts = g_steal_pointer (&self->posts);
  self->posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
  while (done && posts->len > 0)
    {
      CroRoundPost *post = posts->pdata[posts->len - 1];

      stays = dup_stays (self, post);
      done = stays == NULL && cro_round_undo (cro_bench_get_book (self->bench), posts, post, &conflict, &error);
      if (!done)
        break;
      is_part = TRUE;
      cro_new_prices_catch_up (self);
      done = cro_round_retype (self->round, post, &error);
      g_ptr_array_insert (self->undone, 0, g_ptr_array_steal_index (posts, posts->len - 1));
    }
  if (error != NULL)
    stays = dup_in_the_way (self, &conflict, error, is_part);
  cro_conflict_clear (&conflict);
  g_ptr_array_extend_and_steal (self->posts, g_steal_pointer (&posts));
  cro_new_prices_show_posted (self);
  cro_new_prices_read_did (self);
  show_typed_again (self, NULL);
  cro_new_prices_say (self, done ? what_stays (self) : stays);
  cro_round_rows_focus (self->rows, 0);
}

/* Prices of each posting, and what all of them did. */
static void
copy_cb (CroNewPrices *self)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *did = self->round != NULL && self->did != NULL ? cro_words_round_effect (self->round, self->did)
                                                                  : g_strdup ("");

  for (guint i = 0; self->round != NULL && i < self->posts->len; i++)
    {
      g_autofree char *one = cro_words_round_copy (cro_round_get_supplier (self->round), self->posts->pdata[i]);

      g_string_append_printf (text, "%s%s", text->len > 0 && *one != '\0' ? "\n" : "", one);
    }
  if (*did != '\0')
    g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", did);
  if (text->len > 0)
    gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), text->str);
}

static GtkWidget *
button_new (const char *label,
            GCallback   clicked,
            gpointer    object)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  g_signal_connect_object (button, "clicked", clicked, object, G_CONNECT_SWAPPED);
  return button;
}

GtkWidget *
cro_new_prices_posted_new (CroNewPrices *self)
{
  GtkWidget *row = cro_wrap_new (9, 6), *sample;
  g_autofree char *most = dup_posted (88, 8, "08:08");

  self->posted_label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->posted_label), 0);
  gtk_widget_add_css_class (self->posted_label, "now");
  self->posted_rows = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->posted_rows), _("Rows"));
  cro_spoken_set (self->posted_rows, _("Posted rows"));
  /* As rows are taken back, the buttons stay where they are. */
  sample = gtk_label_new (most);
  gtk_widget_add_css_class (sample, "now");
  cro_wrap_append (CRO_WRAP (row), cro_room_new (self->posted_label, sample));
  cro_wrap_append (CRO_WRAP (row), button_new (_("_Undo All"), G_CALLBACK (undo_all_cb), self));
  cro_wrap_append (CRO_WRAP (row), self->posted_rows);
  cro_wrap_append (CRO_WRAP (row), button_new (_("_Copy What Moved"), G_CALLBACK (copy_cb), self));
  gtk_widget_set_visible (row, FALSE);
  return row;
}
