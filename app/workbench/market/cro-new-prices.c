#include "config.h"

#include "cro-new-prices.h"

#include <glib/gi18n.h>

#include "cro-day-entry.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-file-choice.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-measure.h"
#include "cro-number.h"
#include "cro-price-list-words.h"
#include "cro-round-panel.h"
#include "cro-round-rows.h"
#include "cro-round-words.h"
#include "cro-spoken.h"
#include "cro-state.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* In characters: from which width on what it does stands beside the rows, and what that is given. */
#define CHARS_FOR_BOTH 112
#define LEAST_PANEL 40
#define MOST_PANEL 62

/* Of the height, at most, where it stands below them. */
#define MOST_BELOW 0.3

enum
{
  HEAD,
  ROWS,
  PANEL,
  FOOT,
  N_PARTS,
};

struct _CroNewPrices
{
  GtkWidget      parent_instance;

  GtkWidget     *parts[N_PARTS];
  GtkWidget     *title;
  GtkWidget     *from;
  GtkWidget     *past;         /* what a day other than today means, or why it is none */
  GtkWidget     *quotes;
  GtkWidget     *terms;        /* "net · EUR" */
  CroRoundRows  *rows;
  CroRoundPanel *panel;
  GtkWidget     *counts;
  GtkWidget     *fill;
  GtkWidget     *aside;
  GtkWidget     *post;
  GtkWidget     *posted_box;
  GtkWidget     *posted_label;
  GtkWidget     *posted_rows;  /* a menu button */
  GtkWidget     *message;

  CroBench      *bench;        /* borrowed */
  GtkWidget     *before;       /* that had the focus; weak */
  CroRound      *round;
  CroRoundView  *view;
  CroRoundPost  *posted;       /* NULL: nothing is yet */
  char          *moved;        /* what that did, in words */
  gboolean       is_future_right;
  gboolean       is_setting;
};

G_DEFINE_FINAL_TYPE (CroNewPrices, cro_new_prices, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroNewPrices *self)
{
  return cro_bench_get_book (self->bench);
}

static void
say (CroNewPrices *self,
     const char   *text)
{
  gtk_label_set_label (GTK_LABEL (self->message), text != NULL ? text : "");
  gtk_widget_set_visible (self->message, text != NULL && *text != '\0');
}

/* Takes error. */
static void
fail (CroNewPrices *self,
      GError       *error)
{
  g_autofree char *text = cro_words_error (error);

  say (self, text);
  g_error_free (error);
}

/* --- Set aside ------------------------------------------------------------------------------------------ */

static char *
key_of (gint64 supplier)
{
  return g_strdup_printf ("new-prices.%" G_GINT64_FORMAT, supplier);
}

static char *
dup_aside (CroBook *book,
           gint64   supplier)
{
  g_autofree char *key = key_of (supplier);

  return cro_state_dup_text (cro_store_get_path (cro_book_get_store (book)), key);
}

guint
cro_new_prices_count_aside (CroBook *book,
                            guint32  supplier)
{
  g_autofree char *text
      = dup_aside (book, g_array_index (cro_book_get_model (book)->suppliers, CroSupplier, supplier).id);

  return text != NULL ? cro_round_text_count (text) : 0;
}

/* With every key: what was typed outlives whatever happens. */
static void
keep_aside (CroNewPrices *self)
{
  g_autofree char *key = key_of (cro_round_get_supplier_id (self->round)), *text = cro_round_to_text (self->round);

  cro_state_set_text (cro_store_get_path (cro_book_get_store (cro_round_get_book (self->round))), key, text);
}

static void
leave (CroNewPrices *self)
{
  CroBench *bench = self->bench;
  GtkWidget *before = self->before;

  g_object_ref (self);
  cro_bench_set_cover (bench, NULL);
  if (before == NULL || !gtk_widget_get_mapped (before) || !gtk_widget_grab_focus (before))
    gtk_widget_child_focus (GTK_WIDGET (bench), GTK_DIR_TAB_FORWARD);
  g_object_unref (self);
}

static void
leave_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  leave (CRO_NEW_PRICES (widget));
}

/* --- What is shown ------------------------------------------------------------------------------------------ */

static void
show_counts (CroNewPrices *self)
{
  guint n = cro_round_count_ready (self->round);
  g_autofree char *counts = cro_words_round_counts (self->round);
  /* Translators: a button: so many new prices are kept in the book. */
  g_autofree char *post = n > 0 ? g_strdup_printf (ngettext ("_Post %u", "_Post %u", n), n) : g_strdup (_("_Post"));

  gtk_label_set_label (GTK_LABEL (self->counts), counts);
  gtk_button_set_label (GTK_BUTTON (self->post), post);
  gtk_widget_set_sensitive (self->post, n > 0);
  gtk_widget_set_sensitive (self->fill, cro_round_count_untouched (self->round) > 0);
}

static void
show_effect (CroNewPrices *self)
{
  g_autoptr (CroRoundEffect) effect = self->view != NULL ? cro_round_view_read (self->view, CRO_ROUND_PANEL_MOST) : NULL;

  if (effect != NULL)
    cro_round_panel_show (self->panel, self->round, effect, FALSE);
}

static void
moved_cb (CroNewPrices *self)
{
  say (self, NULL);
  show_counts (self);
  show_effect (self);
  keep_aside (self);
}

static void
show_past (CroNewPrices *self)
{
  g_autofree char *past = cro_words_round_past (self->round, MAX (cro_here_today (),
                                                                  cro_book_get_figures (book_of (self))->date));

  gtk_label_set_label (GTK_LABEL (self->past), past != NULL ? past : "");
  gtk_widget_set_visible (self->past, past != NULL);
}

static void
show_head (CroNewPrices *self)
{
  g_autofree char *title = cro_isolate_printf (_("New Prices · %s"), cro_round_get_supplier (self->round));
  CroModel *model = cro_book_get_model (book_of (self));
  const char *currency = cro_round_get_currency (self->round);
  /* Translators: prices without tax; a currency. */
  g_autofree char *terms = currency != NULL ? g_strdup_printf (_("without tax unless marked · %s"), currency)
                                            : g_strdup (_("without tax unless marked"));

  gtk_label_set_label (GTK_LABEL (self->title), title);
  gtk_label_set_label (GTK_LABEL (self->terms), terms);
  self->is_setting = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->quotes), cro_round_is_per_base (self->round) ? 1 : 0);
  self->is_setting = FALSE;
  if (model != NULL)
    cro_day_entry_show (self->from, book_of (self));
  show_past (self);
}

/* What stood before is of another copy of the book. */
static void
show_all (CroNewPrices *self)
{
  GError *error = NULL;

  g_clear_pointer (&self->view, cro_round_view_free);
  self->view = cro_round_view_new (self->round, &error);
  cro_round_rows_set_round (self->rows, self->round);
  show_head (self);
  show_counts (self);
  show_effect (self);
  if (error != NULL)
    fail (self, error);
}

static void
forget (CroNewPrices *self)
{
  cro_round_rows_set_round (self->rows, NULL);
  g_clear_pointer (&self->view, cro_round_view_free);
}

static void
renew (CroNewPrices *self,
       CroDate       from)
{
  GError *error = NULL;
  guint row = cro_round_rows_get_row (self->rows);
  gboolean had_focus = gtk_widget_get_focus_child (GTK_WIDGET (self->rows)) != NULL;

  forget (self);
  if (!cro_round_renew (self->round, from, &error))
    {
      fail (self, error);
      return;
    }
  show_all (self);
  if (had_focus && row != CRO_NO_SLOT)
    cro_round_rows_focus (self->rows, row);
}

/* Undo, another process, the supplier's own page. */
static void
book_changed_cb (CroNewPrices *self)
{
  if (self->round != NULL && cro_round_is_behind (self->round))
    renew (self, cro_round_get_from (self->round));
}

/* --- The day -------------------------------------------------------------------------------------------- */

static void
from_cb (CroNewPrices *self)
{
  g_autofree char *reason = NULL;
  CroDate day;

  if (self->round == NULL || self->is_setting)
    return;
  if (!cro_day_entry_read (self->from, book_of (self), &day, &reason))
    {
      gtk_label_set_label (GTK_LABEL (self->past), reason);
      gtk_widget_set_visible (self->past, TRUE);
      return;
    }
  self->is_future_right = FALSE;
  if (day != cro_round_get_from (self->round))
    renew (self, day);
  show_past (self);
  keep_aside (self);
}

static void
from_activate_cb (CroNewPrices *self)
{
  from_cb (self);
  cro_round_rows_focus (self->rows, 0);
}

static void
quotes_cb (CroNewPrices *self)
{
  static const char *const columns[] = { "quotes", NULL };
  gboolean is_base = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->quotes)) == 1;
  CroCell cell = CRO_CELL_STR (is_base ? "base unit" : "pack");
  g_autofree char *label = NULL;
  GError *error = NULL;

  if (self->is_setting || self->round == NULL || is_base == cro_round_is_per_base (self->round))
    return;
  label = cro_act_dup_label (_("how prices are stated"), cro_round_get_supplier (self->round));
  if (!cro_edit_set (book_of (self), label, "supplier", cro_round_get_supplier_id (self->round), columns, &cell, &error))
    fail (self, error);
}

/* --- Answers --------------------------------------------------------------------------------------------- */

static void
answered (CroNewPrices *self,
          guint         n_before)
{
  if (cro_round_get_n_rows (self->round) != n_before)
    cro_round_rows_set_round (self->rows, self->round);
  else
    cro_round_rows_refresh (self->rows);
  moved_cb (self);
}

static void
answer_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);
  guint row = cro_round_rows_find_asked (self->rows), n = cro_round_get_n_rows (self->round);
  GError *error = NULL;
  gboolean done;

  if (row == CRO_NO_SLOT)
    return;
  done = g_str_equal (action, "round.suggest") ? cro_round_suggest (self->round, row, &error)
                                               : cro_round_is_right (self->round, row, &error);
  answered (self, n + !done);
  if (error != NULL)
    fail (self, error);
}

static void
use (CroNewPrices *self,
     guint32       offer)
{
  if (offer == CRO_NO_SLOT)
    return;
  cro_round_prefer (self->round, offer);
  moved_cb (self);
  say (self, _("It is preferred once these prices are posted."));
}

static void
use_cb (CroNewPrices *self,
        guint         offer)
{
  use (self, offer);
}

static void
use_key_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);

  use (self, cro_round_panel_get_cheaper (self->panel));
}

/* --- The rest as last ---------------------------------------------------------------------------------------- */

static void
fill_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);
  guint n = cro_round_fill (self->round);
  g_autofree char *text = NULL;

  cro_round_rows_refresh (self->rows);
  moved_cb (self);
  text = n > 0 ? g_strdup_printf (ngettext ("%u row as last. Press Alt+R again to undo.",
                                            "%u rows as last. Press Alt+R again to undo.", n),
                                  n)
               : NULL;
  if (n == 0 && (n = cro_round_empty (self->round)) > 0)
    {
      cro_round_rows_refresh (self->rows);
      moved_cb (self);
      text = g_strdup_printf (ngettext ("%u row is untouched again.", "%u rows are untouched again.", n), n);
    }
  say (self, text);
}

/* --- Posting -------------------------------------------------------------------------------------------- */

static void
show_posted (CroNewPrices *self)
{
  guint n = 0;
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *time = g_date_time_format (now, "%H:%M"), *text = NULL;

  gtk_widget_set_visible (self->posted_box, self->posted != NULL);
  if (self->posted == NULL)
    return;
  for (guint i = 0; i < self->posted->rows->len; i++)
    n += !((CroRoundPosted *) self->posted->rows->pdata[i])->is_back;
  /* Translators: how many new prices were kept, and when: a time of day. */
  text = g_strdup_printf (ngettext ("Posted %u at %s", "Posted %u at %s", n), n, time);
  gtk_label_set_label (GTK_LABEL (self->posted_label), text);
}

static void take_back_cb (GtkWidget    *button,
                          CroNewPrices *self);

static void
make_posted_rows (CroNewPrices *self)
{
  GtkWidget *popover = gtk_popover_new (), *scroller = gtk_scrolled_window_new ();
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  for (guint i = 0; i < self->posted->rows->len; i++)
    {
      const CroRoundPosted *row = self->posted->rows->pdata[i];
      GtkWidget *button = gtk_button_new_with_label (_("Take Back"));
      /* Translators: the accessible name of a button; an ingredient. */
      g_autofree char *name = cro_isolate_printf (_("Take back the price of %s"), row->name);

      gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
      gtk_widget_set_sensitive (button, !row->is_back);
      g_object_set_data (G_OBJECT (button), "row", GUINT_TO_POINTER (i));
      g_signal_connect_object (button, "clicked", G_CALLBACK (take_back_cb), self, 0);
      gtk_grid_attach (GTK_GRID (grid), cro_text_new (row->name, NULL), 0, (int) i, 1, 1);
      gtk_grid_attach (GTK_GRID (grid), cro_text_new (row->price, "numeric"), 1, (int) i, 1, 1);
      gtk_grid_attach (GTK_GRID (grid), button, 2, (int) i, 1, 1);
    }
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), 360);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), grid);
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->posted_rows), popover);
}

static void
take_back_cb (GtkWidget    *button,
              CroNewPrices *self)
{
  guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "row"));
  CroRoundPosted *row = self->posted->rows->pdata[index];
  g_autofree char *label = cro_isolate_printf (_("take back price of %s"), row->name);
  GError *error = NULL;

  if (!cro_round_take_back (book_of (self), label, row, &error))
    {
      fail (self, error);
      return;
    }
  gtk_widget_set_sensitive (button, FALSE);
  show_posted (self);
}

static void
undo_all_cb (CroNewPrices *self)
{
  GError *error = NULL;

  if (self->posted == NULL)
    return;
  if (!cro_book_undo_act (book_of (self), self->posted->act, NULL, &error))
    {
      fail (self, error);
      return;
    }
  g_clear_pointer (&self->posted, cro_round_post_free);
  show_posted (self);
  say (self, _("Nothing is posted any more."));
  cro_round_rows_focus (self->rows, 0);
}

static void
copy_cb (CroNewPrices *self)
{
  g_autofree char *text = self->posted != NULL
                              ? cro_words_round_copy (cro_round_get_supplier (self->round), self->posted, self->moved)
                              : NULL;

  if (text != NULL)
    gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), text);
}

/* A day that has not come is asked about once. */
static gboolean
is_asked_of_day (CroNewPrices *self)
{
  CroDate today = MAX (cro_here_today (), cro_book_get_figures (book_of (self))->date);

  if (cro_round_get_from (self->round) <= today || self->is_future_right)
    return FALSE;
  self->is_future_right = TRUE;
  say (self, _("These prices hold from a day that has not come yet. Post again if that is right."));
  return TRUE;
}

static void
say_faults (CroNewPrices *self,
            CroFaults    *faults,
            GError       *error)
{
  if (cro_faults_get_n (faults) == 0)
    {
      fail (self, error);
      return;
    }
  {
    g_autofree char *text = cro_words_fault (cro_faults_get (faults, 0));

    say (self, text);
  }
  g_error_free (error);
}

static void
after_posting (CroNewPrices *self)
{
  self->is_setting = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->from), "");
  self->is_setting = FALSE;
  self->is_future_right = FALSE;
  if (cro_round_get_from (self->round) != cro_book_get_figures (book_of (self))->date)
    cro_round_renew (self->round, cro_book_get_figures (book_of (self))->date, NULL);
  g_clear_pointer (&self->view, cro_round_view_free);
  self->view = cro_round_view_new (self->round, NULL);
  cro_round_rows_set_round (self->rows, self->round);
  show_head (self);
  show_counts (self);
  keep_aside (self);
  make_posted_rows (self);
  show_posted (self);
  gtk_widget_grab_focus (self->posted_rows);
}

static void
post_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);
  g_autofree char *label = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroRoundEffect) effect = NULL;
  CroRoundPost *posted;
  GError *error = NULL;

  say (self, NULL);
  if (cro_round_count_ready (self->round) == 0 || is_asked_of_day (self))
    return;
  effect = self->view != NULL ? cro_round_view_read (self->view, CRO_ROUND_PANEL_MOST) : NULL;
  g_free (self->moved);
  self->moved = effect != NULL ? cro_words_round_effect (self->round, effect) : g_strdup ("");
  if (effect != NULL)
    cro_round_panel_show (self->panel, self->round, effect, TRUE);
  label = cro_isolate_printf (_("new prices of %s"), cro_round_get_supplier (self->round));
  cro_round_rows_set_round (self->rows, NULL);
  posted = cro_round_post (self->round, label, faults, &error);
  if (posted == NULL)
    {
      cro_round_rows_set_round (self->rows, self->round);
      say_faults (self, faults, error);
      return;
    }
  g_clear_pointer (&self->posted, cro_round_post_free);
  self->posted = posted;
  after_posting (self);
}

/* --- Files and pasted texts ---------------------------------------------------------------------------------- */

/* *list and *error are taken. */
static void
taken (CroNewPrices *self,
       gboolean      done,
       CroPriceList *list,
       GError       *error)
{
  const CroPriceList *of = list != NULL ? list : cro_round_get_invoice (self->round);
  g_autofree char *text = done && of != NULL                    ? cro_words_list_refused (of, NULL)
                          : list != NULL && error != NULL       ? cro_words_list_refused (list, error)
                          : error != NULL                       ? cro_words_error (error)
                                                                : NULL;

  if (text == NULL && of != NULL)
    text = cro_words_round_taken (of);
  cro_round_rows_set_round (self->rows, self->round);
  moved_cb (self);
  say (self, text);
  if (cro_round_rows_find_asked (self->rows) != CRO_NO_SLOT)
    cro_round_rows_focus (self->rows, cro_round_rows_find_asked (self->rows));
  g_clear_pointer (&list, cro_price_list_free);
  g_clear_error (&error);
}

static void
take_file (CroNewPrices *self,
           const char   *path)
{
  CroPriceList *list = NULL;
  GError *error = NULL;
  gboolean done = cro_round_take (self->round, path, &list, &error);

  taken (self, done, list, error);
}

static void
take_text (CroNewPrices *self,
           const char   *text)
{
  CroPriceList *list = NULL;
  GError *error = NULL;
  gboolean done = cro_round_take_text (self->round, text, &list, &error);

  taken (self, done, list, error);
}

static void
chosen_cb (gpointer    owner,
           const char *path)
{
  take_file (CRO_NEW_PRICES (owner), path);
}

static void
file_cb (CroNewPrices *self)
{
  static const char *const suffixes[] = { "csv", "tsv", "txt", "xlsx", "xml", "pdf", NULL };
  const CroFileChoice choice = {
    .title = _("Open a Price List or an Invoice"),
    .action = GTK_FILE_CHOOSER_ACTION_OPEN,
    .kind = _("Price lists and invoices"),
    .suffixes = suffixes,
  };

  cro_file_choice_ask (&choice, GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), chosen_cb, self);
}

static void
pasted_cb (GObject      *clipboard,
           GAsyncResult *result,
           gpointer      user_data)
{
  g_autoptr (CroNewPrices) self = user_data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);

  if (self->round == NULL)
    return;
  if (text == NULL || *text == '\0')
    say (self, _("There is no text to paste."));
  else
    take_text (self, text);
}

static void
paste_cb (CroNewPrices *self)
{
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, pasted_cb, g_object_ref (self));
}

static gboolean
drop_cb (CroNewPrices *self,
         const GValue *value)
{
  g_autofree char *path = NULL;

  if (G_VALUE_HOLDS (value, G_TYPE_FILE))
    path = g_file_get_path (g_value_get_object (value));
  if (path != NULL)
    take_file (self, path);
  else if (G_VALUE_HOLDS_STRING (value))
    take_text (self, g_value_get_string (value));
  else
    return FALSE;
  return TRUE;
}

/* --- Layout ----------------------------------------------------------------------------------------------- */

static void
cro_new_prices_measure (GtkWidget      *widget,
                        GtkOrientation  orientation,
                        int             for_size,
                        int            *minimum,
                        int            *natural,
                        int            *minimum_baseline,
                        int            *natural_baseline)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);

  *minimum = *natural = 0;
  for (int i = 0; i < N_PARTS; i++)
    {
      int least, wanted;

      gtk_widget_measure (self->parts[i], orientation, -1, &least, &wanted, NULL, NULL);
      if (orientation == GTK_ORIENTATION_HORIZONTAL)
        {
          *minimum = MAX (*minimum, least);
          *natural = MAX (*natural, wanted);
        }
      else if (i != PANEL)
        *natural += wanted;
    }
  if (orientation == GTK_ORIENTATION_VERTICAL)
    *minimum = MIN (*natural, 300);
}

static void
allocate (CroNewPrices *self,
          int           part,
          int           x,
          int           y,
          int           width,
          int           height)
{
  GtkAllocation at = { x, y, MAX (width, 0), MAX (height, 0) };

  gtk_widget_size_allocate (self->parts[part], &at, -1);
}

static void
cro_new_prices_size_allocate (GtkWidget *widget,
                              int        width,
                              int        height,
                              int        baseline)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);
  gboolean is_mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int head = cro_measure_height (self->parts[HEAD], width), foot = cro_measure_height (self->parts[FOOT], width);
  int body = height - head - foot, panel = CLAMP (width * 3 / 8, cro_measure_chars (widget, LEAST_PANEL),
                                            cro_measure_chars (widget, MOST_PANEL));

  allocate (self, HEAD, 0, 0, width, head);
  allocate (self, FOOT, 0, height - foot, width, foot);
  if (width >= cro_measure_chars (widget, CHARS_FOR_BOTH))
    {
      allocate (self, ROWS, is_mirrored ? panel : 0, head, width - panel, body);
      allocate (self, PANEL, is_mirrored ? 0 : width - panel, head, panel, body);
      return;
    }
  panel = (int) (body * MOST_BELOW);
  allocate (self, ROWS, 0, head, width, body - panel);
  allocate (self, PANEL, 0, head + body - panel, width, panel);
}

static GtkSizeRequestMode
cro_new_prices_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_CONSTANT_SIZE;
}

/* --- The widget -------------------------------------------------------------------------------------------- */

static gboolean
cro_new_prices_grab_focus (GtkWidget *widget)
{
  cro_round_rows_focus (CRO_NEW_PRICES (widget)->rows, 0);
  return TRUE;
}

static void
cro_new_prices_dispose (GObject *object)
{
  CroNewPrices *self = CRO_NEW_PRICES (object);

  g_clear_weak_pointer (&self->before);
  if (self->rows != NULL)
    forget (self);
  self->rows = NULL;
  self->panel = NULL;
  for (int i = 0; i < N_PARTS; i++)
    g_clear_pointer (&self->parts[i], gtk_widget_unparent);
  g_clear_pointer (&self->round, cro_round_free);
  g_clear_pointer (&self->posted, cro_round_post_free);
  g_clear_pointer (&self->moved, g_free);
  G_OBJECT_CLASS (cro_new_prices_parent_class)->dispose (object);
}

static void
cro_new_prices_class_init (CroNewPricesClass *klass)
{
  static const struct { guint key; GdkModifierType modifiers; const char *action; } keys[] = {
    { GDK_KEY_F2, 0, "round.suggest" },
    { GDK_KEY_F3, 0, "round.right" },
    { GDK_KEY_F4, 0, "round.use" },
    { GDK_KEY_r, GDK_ALT_MASK, "round.fill" },
    { GDK_KEY_s, GDK_CONTROL_MASK, "round.post" },
    { GDK_KEY_Escape, 0, "round.leave" },
  };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_new_prices_dispose;
  widget_class->measure = cro_new_prices_measure;
  widget_class->size_allocate = cro_new_prices_size_allocate;
  widget_class->get_request_mode = cro_new_prices_get_request_mode;
  widget_class->grab_focus = cro_new_prices_grab_focus;
  gtk_widget_class_install_action (widget_class, "round.suggest", NULL, answer_cb);
  gtk_widget_class_install_action (widget_class, "round.right", NULL, answer_cb);
  gtk_widget_class_install_action (widget_class, "round.use", NULL, use_key_cb);
  gtk_widget_class_install_action (widget_class, "round.fill", NULL, fill_cb);
  gtk_widget_class_install_action (widget_class, "round.post", NULL, post_cb);
  gtk_widget_class_install_action (widget_class, "round.leave", NULL, leave_cb);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding_action (widget_class, keys[i].key, keys[i].modifiers, keys[i].action, NULL);
}

static GtkWidget *
button_new (const char *label,
            GCallback   clicked,
            gpointer    object)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  if (clicked != NULL)
    g_signal_connect_object (button, "clicked", clicked, object, G_CONNECT_SWAPPED);
  return button;
}

static GtkWidget *
action_button_new (const char *label,
                   const char *action,
                   const char *tooltip)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_tooltip_text (button, tooltip);
  return button;
}

static GtkWidget *
quotes_new (CroNewPrices *self)
{
  const char *words[] = { _("per pack"), _("per kg, l or piece"), NULL };

  self->quotes = gtk_drop_down_new_from_strings (words);
  cro_spoken_set (self->quotes, _("Prices are stated"));
  g_signal_connect_object (self->quotes, "notify::selected", G_CALLBACK (quotes_cb), self, G_CONNECT_SWAPPED);
  return self->quotes;
}

static GtkWidget *
head_new (CroNewPrices *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3), *row = cro_wrap_new (9, 6);
  GtkWidget *back = cro_icon_button_new ("go-previous-symbolic", _("Back (what is typed is set aside)"));
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_actionable_set_action_name (GTK_ACTIONABLE (back), "round.leave");
  self->title = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->title, "heading");
  self->from = cro_entry_new (_("Prices hold from"), 12);
  g_signal_connect_object (self->from, "activate", G_CALLBACK (from_activate_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (from_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->from, focus);
  self->terms = cro_caption_new ("", 0);
  cro_wrap_append (CRO_WRAP (row), back);
  cro_wrap_append (CRO_WRAP (row), self->title);
  cro_wrap_append (CRO_WRAP (row), gtk_label_new (C_("price", "from")));
  cro_wrap_append (CRO_WRAP (row), self->from);
  cro_wrap_append (CRO_WRAP (row), quotes_new (self));
  cro_wrap_append (CRO_WRAP (row), self->terms);
  cro_wrap_append (CRO_WRAP (row), button_new (_("Pas_te"), G_CALLBACK (paste_cb), self));
  cro_wrap_append (CRO_WRAP (row), button_new (_("_File…"), G_CALLBACK (file_cb), self));
  self->past = cro_text_new ("", "reason");
  gtk_widget_set_visible (self->past, FALSE);
  gtk_box_append (GTK_BOX (box), row);
  gtk_box_append (GTK_BOX (box), self->past);
  gtk_widget_add_css_class (box, "bench-head");
  return box;
}

static GtkWidget *
posted_new (CroNewPrices *self)
{
  GtkWidget *row = cro_wrap_new (9, 6);

  self->posted_label = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->posted_label, "now");
  self->posted_rows = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->posted_rows), _("Rows"));
  cro_wrap_append (CRO_WRAP (row), self->posted_label);
  cro_wrap_append (CRO_WRAP (row), button_new (_("_Undo All"), G_CALLBACK (undo_all_cb), self));
  cro_wrap_append (CRO_WRAP (row), self->posted_rows);
  cro_wrap_append (CRO_WRAP (row), button_new (_("_Copy What Moved"), G_CALLBACK (copy_cb), self));
  gtk_widget_set_visible (row, FALSE);
  return row;
}

static GtkWidget *
foot_new (CroNewPrices *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *row = cro_wrap_new (9, 6);

  self->message = cro_text_new ("", NULL);
  gtk_widget_set_visible (self->message, FALSE);
  self->counts = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->counts), 0);
  self->fill = action_button_new (_("The _Rest as Last"), "round.fill", _("Confirm every untouched row (Alt+R)"));
  self->aside = action_button_new (_("Set _Aside"), "round.leave", _("Keep what is typed for later, unposted"));
  self->post = action_button_new (_("_Post"), "round.post", _("Keep these prices in the book (Ctrl+S)"));
  gtk_widget_add_css_class (self->post, "suggested-action");
  self->posted_box = posted_new (self);
  cro_wrap_append (CRO_WRAP (row), self->counts);
  cro_wrap_append (CRO_WRAP (row), self->fill);
  cro_wrap_append (CRO_WRAP (row), self->aside);
  cro_wrap_append (CRO_WRAP (row), self->post);
  gtk_box_append (GTK_BOX (box), self->message);
  gtk_box_append (GTK_BOX (box), self->posted_box);
  gtk_box_append (GTK_BOX (box), row);
  gtk_widget_add_css_class (box, "bench");
  gtk_widget_add_css_class (box, "part");
  return box;
}

static GtkWidget *
scrolled_new (GtkWidget *child)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_AUTOMATIC, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), child);
  return scroller;
}

static void
cro_new_prices_init (CroNewPrices *self)
{
}

static void
build (CroNewPrices *self)
{
  GtkDropTarget *drop = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);
  GType types[] = { G_TYPE_FILE, G_TYPE_STRING };

  self->rows = CRO_ROUND_ROWS (cro_round_rows_new (self->bench));
  self->panel = CRO_ROUND_PANEL (cro_round_panel_new ());
  g_signal_connect_object (self->rows, "moved", G_CALLBACK (moved_cb), self, G_CONNECT_SWAPPED);
  self->parts[HEAD] = head_new (self);
  self->parts[ROWS] = scrolled_new (GTK_WIDGET (self->rows));
  self->parts[PANEL] = scrolled_new (GTK_WIDGET (self->panel));
  self->parts[FOOT] = foot_new (self);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->parts[PANEL]), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  g_signal_connect_object (self->rows, "done", G_CALLBACK (gtk_widget_grab_focus), self->post, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->panel, "use", G_CALLBACK (use_cb), self, G_CONNECT_SWAPPED);
  for (int i = 0; i < N_PARTS; i++)
    gtk_widget_set_parent (self->parts[i], GTK_WIDGET (self));
  gtk_drop_target_set_gtypes (drop, types, G_N_ELEMENTS (types));
  g_signal_connect_object (drop, "drop", G_CALLBACK (drop_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drop));
}

/* What was set aside is taken up again, with its day. */
static gboolean
begin (CroNewPrices *self,
       guint32       supplier,
       GError      **error)
{
  CroBook *book = book_of (self);
  g_autofree char *aside
      = dup_aside (book, g_array_index (cro_book_get_model (book)->suppliers, CroSupplier, supplier).id);
  CroDate from = aside != NULL ? cro_round_text_from (aside) : CRO_NO_DAY;

  self->round = cro_round_new (book, supplier, from != CRO_NO_DAY ? from : cro_book_get_figures (book)->date, error);
  if (self->round == NULL)
    return FALSE;
  if (from != CRO_NO_DAY && from != cro_book_get_figures (book)->date)
    {
      g_autofree char *day = cro_date_to_text (from);

      gtk_editable_set_text (GTK_EDITABLE (self->from), day);
    }
  return aside == NULL || cro_round_put_text (self->round, aside, error);
}

static CroNewPrices *
open_sheet (CroBench *market,
            guint32   supplier)
{
  CroNewPrices *self;
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (market));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  GError *error = NULL;

  if (cro_book_is_past (cro_bench_get_book (market), NULL))
    {
      cro_bench_say (market, cro_words_past ());
      return NULL;
    }
  self = g_object_new (CRO_TYPE_NEW_PRICES, NULL);
  self->bench = market;
  build (self);
  if (!begin (self, supplier, &error))
    {
      cro_bench_fail (market, error);
      g_error_free (error);
      g_object_ref_sink (self);
      g_object_unref (self);
      return NULL;
    }
  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (market)))
    g_set_weak_pointer (&self->before, focus);
  g_signal_connect_object (book_of (self), "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
  cro_bench_set_cover (market, GTK_WIDGET (self));
  show_all (self);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  return self;
}

void
cro_new_prices_open (CroBench *market,
                     guint32   supplier)
{
  open_sheet (market, supplier);
}

void
cro_new_prices_open_file (CroBench   *market,
                          guint32     supplier,
                          const char *path)
{
  CroNewPrices *self = open_sheet (market, supplier);

  if (self != NULL)
    take_file (self, path);
}

void
cro_new_prices_open_text (CroBench   *market,
                          guint32     supplier,
                          const char *text)
{
  CroNewPrices *self = open_sheet (market, supplier);

  if (self != NULL)
    take_text (self, text);
}
