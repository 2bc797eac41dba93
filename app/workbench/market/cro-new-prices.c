#include "config.h"

#include "cro-new-prices-private.h"

#include <glib/gi18n.h>

#include "cro-day-entry.h"
#include "cro-edit.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-reason.h"
#include "cro-refused-words.h"
#include "cro-state.h"
#include "cro-words.h"

G_DEFINE_FINAL_TYPE (CroNewPrices, cro_new_prices, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroNewPrices *self)
{
  return cro_bench_get_book (self->bench);
}

void
cro_new_prices_say (CroNewPrices *self,
                    const char   *text)
{
  self->is_day_told = FALSE;
  gtk_label_set_label (GTK_LABEL (self->message), text != NULL ? text : "");
  gtk_widget_set_visible (self->message, text != NULL && *text != '\0');
}

void
cro_new_prices_fail (CroNewPrices *self,
                     GError       *error)
{
  g_autofree char *text = cro_words_failed (error);

  cro_new_prices_say (self, text);
  g_error_free (error);
}

static void
leave_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);

  if (self->taking != NULL)
    cro_new_prices_stop_taking (self);
  else
    cro_new_prices_leave (self);
}

/* --- What is shown ------------------------------------------------------------------------------------------ */

/* What stands of the invoice, as its lines are answered. */
static void
show_invoice (CroNewPrices *self)
{
  g_autofree char *text = cro_words_round_invoice (self->round);

  gtk_label_set_label (GTK_LABEL (self->invoice), text != NULL ? text : "");
  gtk_widget_set_visible (self->invoice_box, text != NULL);
  cro_new_prices_show_whole (self);
}

static void
show_counts (CroNewPrices *self)
{
  guint n = cro_round_count_ready (self->round);
  g_autofree char *counts = cro_words_round_counts (self->round);
  /* Translators: a button: so many new prices are kept in the book. */
  g_autofree char *post = n > 0 ? g_strdup_printf (ngettext ("_Post %u", "_Post %u", n), n) : g_strdup (_("_Post"));

  show_invoice (self);
  gtk_label_set_label (GTK_LABEL (self->counts), counts);
  gtk_button_set_label (GTK_BUTTON (self->post), post);
  gtk_widget_set_sensitive (self->post, n > 0);
  gtk_widget_set_sensitive (self->next, cro_round_count_waiting (self->round) > 0);
  gtk_button_set_label (GTK_BUTTON (self->fill), cro_round_count_filled (self->round) > 0
                                                     ? _("The Rest Untouched Again")
                                                     : _("The Rest as Last"));
}

/* What was posted stands alone until something else would do more. */
void
cro_new_prices_show_effect (CroNewPrices *self)
{
  gboolean does_more = self->posts->len == 0 || cro_round_count_ready (self->round) > 0;
  g_autoptr (CroRoundEffect) does = does_more && self->view != NULL
                                        ? cro_round_view_read (self->view, cro_round_panel_get_most (self->panel))
                                        : NULL;
  g_autofree char *billed = cro_words_round_billed (self->round);
  g_autofree char *was_billed = cro_words_round_was_billed (self->posts);
  g_autofree char *preferred = cro_words_round_now_preferred (self->round, self->posts);

  cro_round_panel_show (self->panel, self->round, does, billed, self->did, was_billed, preferred);
}

void
cro_new_prices_moved (CroNewPrices *self)
{
  cro_new_prices_say (self, NULL);
  show_counts (self);
  cro_new_prices_show_effect (self);
  cro_new_prices_keep_aside (self);
}

/* Of a day that cannot be read that it is none, over its field, whatever else is shown anew. */
static void
show_past (CroNewPrices *self)
{
  CroDate from = cro_round_get_from (self->round), ignored;
  CroDate today = cro_here_is_today (from) ? from
                                           : MAX (cro_here_today (), cro_book_get_figures (book_of (self))->date);
  g_autofree char *past = NULL, *reason = NULL;

  if (cro_day_entry_read (self->from, book_of (self), &ignored, &reason))
    past = cro_words_round_past (self->round, today);
  gtk_label_set_label (GTK_LABEL (self->past), past != NULL ? past : "");
  cro_reason_mark (self->from, reason != NULL);
  cro_bubble_say (self->no_day, reason, TRUE);
}

static gboolean
has_tax (CroNewPrices *self)
{
  for (guint i = 0; i < cro_round_get_n_rows (self->round); i++)
    if (cro_words_round_tax (self->round, cro_round_get_row (self->round, i)) != 0)
      return TRUE;
  return FALSE;
}

static void
show_head (CroNewPrices *self)
{
  g_autofree char *title = cro_isolate_printf (_("New Prices · %s"), cro_round_get_supplier (self->round));
  const char *currency = cro_round_get_currency (self->round);
  const char *net = has_tax (self) ? _("net, unless the row says otherwise") : _("net");
  /* Translators: whether prices are without tax; a currency. */
  g_autofree char *terms = currency != NULL ? g_strdup_printf (_("%s · %s"), net, currency) : g_strdup (net);

  gtk_label_set_label (GTK_LABEL (self->title), title);
  gtk_label_set_label (GTK_LABEL (self->terms), terms);
  self->is_setting = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->quotes), cro_round_is_per_base (self->round) ? 1 : 0);
  self->is_setting = FALSE;
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
  cro_new_prices_show_effect (self);
  if (error != NULL)
    cro_new_prices_fail (self, error);
}

void
cro_new_prices_show_before (CroNewPrices *self)
{
  g_clear_pointer (&self->view, cro_round_view_free);
  self->view = cro_round_view_new (self->round, NULL);
  cro_round_rows_set_round (self->rows, self->round);
  show_head (self);
  show_counts (self);
  cro_new_prices_show_effect (self);
  cro_new_prices_keep_aside (self);
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
  CroRoundHand *hand = cro_round_rows_hold (self->rows);

  forget (self);
  if (!cro_round_renew (self->round, from, &error))
    cro_new_prices_fail (self, error);
  show_all (self);
  cro_round_rows_take_up (self->rows, hand);
}

/* Of a document that is not this house's, or booked by hand. */
void
cro_new_prices_leave_out_cb (CroNewPrices *self)
{
  GError *error = NULL;

  if (self->round == NULL)
    return;
  gtk_widget_grab_focus (self->post);
  forget (self);
  if (!cro_round_leave_out_invoice (self->round, &error))
    cro_new_prices_fail (self, error);
  else
    cro_new_prices_say (self, _("The document is left out. Nothing more of it is booked."));
  show_all (self);
  cro_new_prices_keep_aside (self);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

void
cro_new_prices_say_whole (CroNewPrices *self,
                          CroListWhole  whole)
{
  GError *error = NULL;

  forget (self);
  cro_new_prices_say (self, NULL);
  if (!cro_round_say_whole (self->round, whole, &error))
    cro_new_prices_fail (self, error);
  show_all (self);
  cro_new_prices_keep_aside (self);
}

static gboolean
gone_cb (gpointer sheet)
{
  CroNewPrices *self = sheet;

  self->gone_id = 0;
  cro_new_prices_leave (self);
  return G_SOURCE_REMOVE;
}

/* The sheet goes once whoever changed the book is done with it. */
static gboolean
is_gone (CroNewPrices *self)
{
  if (self->gone_id != 0)
    return TRUE;
  if (self->round == NULL || cro_round_has_supplier (self->round))
    return FALSE;
  cro_new_prices_say_gone (self);
  self->gone_id = g_idle_add_full (G_PRIORITY_HIGH, gone_cb, self, NULL);
  return TRUE;
}

void
cro_new_prices_catch_up (CroNewPrices *self)
{
  if (!is_gone (self) && self->round != NULL && cro_round_is_behind (self->round))
    renew (self, cro_round_get_from (self->round));
}

/* Undo, another process, the supplier's own page. */
static void
book_changed_cb (CroNewPrices *self)
{
  CroRoundHand *hand;

  if (is_gone (self))
    return;
  hand = cro_round_rows_hold (self->rows);
  cro_new_prices_check_posted (self);
  cro_round_rows_take_up (self->rows, hand);
}

/* --- The day -------------------------------------------------------------------------------------------- */

gboolean
cro_new_prices_take_day (CroNewPrices *self)
{
  g_autofree char *reason = NULL;
  CroDate day;

  g_clear_handle_id (&self->day_id, g_source_remove);
  if (self->round == NULL || self->is_setting)
    return FALSE;
  if (!cro_day_entry_read (self->from, book_of (self), &day, &reason))
    {
      show_past (self);
      cro_new_prices_keep_aside (self);
      return FALSE;
    }
  if (self->is_day_told)
    cro_new_prices_say (self, NULL);
  if (day != cro_round_get_from (self->round))
    {
      self->is_day_right = FALSE;
      renew (self, day);
    }
  show_past (self);
  cro_new_prices_keep_aside (self);
  return TRUE;
}

static gboolean
day_left_cb (gpointer user_data)
{
  CroNewPrices *self = user_data;

  self->day_id = 0;
  cro_new_prices_take_day (self);
  return G_SOURCE_REMOVE;
}

/* The focus is on its way into a row, which a new day makes anew: that waits until it is there. */
void
cro_new_prices_from_left_cb (CroNewPrices *self)
{
  if (self->day_id == 0)
    self->day_id = g_idle_add_full (G_PRIORITY_HIGH, day_left_cb, self, NULL);
}

void
cro_new_prices_from_activate_cb (CroNewPrices *self)
{
  cro_new_prices_take_day (self);
  cro_round_rows_focus (self->rows, 0);
}

void
cro_new_prices_quotes_cb (CroNewPrices *self)
{
  static const char *const columns[] = { "quotes", NULL };
  gboolean is_base = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->quotes)) == 1;
  CroCell cell = CRO_CELL_STR (is_base ? "base unit" : "pack");
  g_autofree char *label = NULL;
  GError *error = NULL;

  if (self->is_setting || self->round == NULL || is_base == cro_round_is_per_base (self->round))
    return;
  label = cro_act_dup_label (_("how prices are stated"), cro_round_get_supplier (self->round));
  if (!cro_edit_set (book_of (self), label, "supplier", cro_round_get_supplier_id (self->round), columns, &cell,
                     &error))
    cro_new_prices_fail (self, error);
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
  cro_new_prices_moved (self);
  cro_round_rows_reveal (self->rows);
}

static void
next_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);
  guint row = cro_round_rows_find_waiting (self->rows);

  if (row != CRO_NO_SLOT)
    cro_round_rows_focus (self->rows, row);
}

static void
answer_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);
  guint row = cro_round_rows_find_asked (self->rows), n, next;
  gboolean is_suggest = g_str_has_prefix (action, "round.suggest"), is_pressed = g_str_has_suffix (action, "-here");
  GError *error = NULL;
  gboolean done;

  if (self->round == NULL || row == CRO_NO_SLOT)
    return;
  n = cro_round_get_n_rows (self->round);
  /* What nobody looks at is not said to be right: the key leads there. */
  if (!cro_round_rows_is_at (self->rows, row, TRUE) || !cro_round_rows_is_seen (self->rows, row))
    {
      cro_round_rows_focus (self->rows, row);
      return;
    }
  done = is_suggest ? cro_round_suggest (self->round, row, &error)
                    : cro_round_is_right (self->round, row, &error);
  answered (self, n + !done);
  if (error != NULL)
    cro_new_prices_fail (self, error);
  next = cro_round_rows_find_asked (self->rows);
  /* On to the question that is shown now: one key for each row. A button that is pressed twice answers but one. */
  if (done && !is_pressed && next != CRO_NO_SLOT && next != row)
    cro_round_rows_focus (self->rows, next);
}

void
cro_new_prices_use (CroNewPrices *self,
                    guint         offer)
{
  if (self->round == NULL || offer == CRO_NO_SLOT)
    return;
  cro_round_prefer (self->round, offer);
  cro_new_prices_moved (self);
  cro_new_prices_say (self, _("It is preferred once these prices are posted."));
}

static void
use_key_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);

  cro_new_prices_use (self, cro_round_panel_get_cheaper (self->panel));
}

/* --- The rest as last ---------------------------------------------------------------------------------------- */

static void
fill_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroNewPrices *self = CRO_NEW_PRICES (widget);
  gboolean is_back = self->round != NULL && cro_round_count_filled (self->round) > 0;
  guint n = self->round == NULL ? 0 : is_back ? cro_round_empty (self->round) : cro_round_fill (self->round);
  g_autofree char *text
      = n == 0    ? NULL
        : is_back ? g_strdup_printf (ngettext ("%u row is untouched again.", "%u rows are untouched again.", n), n)
                  : g_strdup_printf (ngettext ("%u row as last. Press Alt+R again to undo.",
                                               "%u rows as last. Press Alt+R again to undo.", n),
                                     n);

  if (self->round == NULL)
    return;
  cro_round_rows_refresh (self->rows);
  cro_new_prices_moved (self);
  cro_new_prices_say (self, text);
}

static void
post_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  cro_new_prices_post (CRO_NEW_PRICES (widget));
}

static void
paste_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  cro_new_prices_paste_by_key (CRO_NEW_PRICES (widget));
}

/* --- The widget -------------------------------------------------------------------------------------------- */

static gboolean
cro_new_prices_grab_focus (GtkWidget *widget)
{
  cro_round_rows_focus (CRO_NEW_PRICES (widget)->rows, 0);
  return TRUE;
}

static gboolean
cro_new_prices_focus (GtkWidget        *widget,
                      GtkDirectionType  direction)
{
  return cro_round_rows_tab (CRO_NEW_PRICES (widget)->rows, direction)
         || GTK_WIDGET_CLASS (cro_new_prices_parent_class)->focus (widget, direction);
}

static void
cro_new_prices_dispose (GObject *object)
{
  CroNewPrices *self = CRO_NEW_PRICES (object);

  g_clear_handle_id (&self->day_id, g_source_remove);
  g_clear_handle_id (&self->gone_id, g_source_remove);
  g_clear_handle_id (&self->tight_id, g_source_remove);
  cro_new_prices_stop_taking (self);
  cro_new_prices_write_aside (self);
  cro_new_prices_show_columns (self, NULL);
  self->columns = NULL;
  g_clear_weak_pointer (&self->before);
  if (self->rows != NULL)
    forget (self);
  self->rows = NULL;
  self->panel = NULL;
  for (int i = 0; i < N_PARTS; i++)
    g_clear_pointer (&self->parts[i], gtk_widget_unparent);
  cro_new_prices_forget_did (self);
  g_clear_pointer (&self->round, cro_round_free);
  g_ptr_array_set_size (self->posts, 0);
  g_ptr_array_set_size (self->undone, 0);
  g_clear_pointer (&self->path, g_free);
  g_clear_pointer (&self->text, g_free);
  G_OBJECT_CLASS (cro_new_prices_parent_class)->dispose (object);
}

static void
cro_new_prices_finalize (GObject *object)
{
  g_ptr_array_unref (CRO_NEW_PRICES (object)->posts);
  g_ptr_array_unref (CRO_NEW_PRICES (object)->undone);
  G_OBJECT_CLASS (cro_new_prices_parent_class)->finalize (object);
}

static void
cro_new_prices_class_init (CroNewPricesClass *klass)
{
  static const struct { guint key; GdkModifierType modifiers; const char *action; } keys[] = {
    { GDK_KEY_F2, 0, "round.suggest" },
    { GDK_KEY_F3, 0, "round.right" },
    { GDK_KEY_F4, 0, "round.use" },
    { GDK_KEY_r, GDK_ALT_MASK, "round.fill" },
    { GDK_KEY_w, GDK_ALT_MASK, "round.next" },
    { GDK_KEY_s, GDK_CONTROL_MASK, "round.post" },
    { GDK_KEY_v, GDK_CONTROL_MASK, "round.paste" },
    { GDK_KEY_Escape, 0, "round.leave" },
  };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_new_prices_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_new_prices_finalize;
  cro_new_prices_set_layout (widget_class);
  widget_class->grab_focus = cro_new_prices_grab_focus;
  widget_class->focus = cro_new_prices_focus;
  gtk_widget_class_install_action (widget_class, "round.suggest", NULL, answer_cb);
  gtk_widget_class_install_action (widget_class, "round.right", NULL, answer_cb);
  gtk_widget_class_install_action (widget_class, "round.suggest-here", NULL, answer_cb);
  gtk_widget_class_install_action (widget_class, "round.right-here", NULL, answer_cb);
  gtk_widget_class_install_action (widget_class, "round.use", NULL, use_key_cb);
  gtk_widget_class_install_action (widget_class, "round.fill", NULL, fill_cb);
  gtk_widget_class_install_action (widget_class, "round.next", NULL, next_cb);
  gtk_widget_class_install_action (widget_class, "round.post", NULL, post_cb);
  gtk_widget_class_install_action (widget_class, "round.leave", NULL, leave_cb);
  gtk_widget_class_install_action (widget_class, "round.paste", NULL, paste_cb);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding_action (widget_class, keys[i].key, keys[i].modifiers, keys[i].action, NULL);
}

static void
cro_new_prices_init (CroNewPrices *self)
{
  self->posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
  self->undone = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
}

/* What was set aside is taken up again, with its day. *lost: what of it could not be, and why. */
static gboolean
begin (CroNewPrices  *self,
       guint32        supplier,
       char         **lost,
       GError       **error)
{
  CroBook *book = book_of (self);
  g_autofree char *aside
      = cro_new_prices_dup_aside (book, g_array_index (cro_book_get_model (book)->suppliers, CroSupplier, supplier).id);
  CroDate from = aside != NULL ? cro_round_text_from (aside) : CRO_NO_DAY;
  g_autofree char *day = NULL;

  self->round = cro_round_new (book, supplier, from != CRO_NO_DAY ? from : cro_book_get_figures (book)->date, error);
  if (self->round == NULL)
    return FALSE;
  self->today = cro_here_today ();
  cro_new_prices_recall_columns (self);
  day = aside != NULL ? cro_new_prices_dup_unread_day (self) : NULL;
  if (day == NULL && from != CRO_NO_DAY && from != cro_book_get_figures (book)->date)
    day = cro_date_to_text (from);
  if (day != NULL)
    gtk_editable_set_text (GTK_EDITABLE (self->from), day);
  cro_new_prices_take_up (self, aside, lost);
  return TRUE;
}

static CroNewPrices *
open_sheet (CroBench *market,
            guint32   supplier)
{
  CroNewPrices *self;
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (market));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  g_autofree char *lost = NULL;
  GError *error = NULL;

  if (cro_book_is_past (cro_bench_get_book (market), NULL))
    {
      cro_bench_say (market, cro_words_past ());
      return NULL;
    }
  self = g_object_new (CRO_TYPE_NEW_PRICES, NULL);
  self->bench = market;
  cro_new_prices_build (self);
  if (!begin (self, supplier, &lost, &error))
    {
      cro_bench_fail (market, error);
      g_error_free (error);
      g_object_ref_sink (self);
      g_object_unref (self);
      return NULL;
    }
  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (market)))
    g_set_weak_pointer (&self->before, focus);
  g_signal_connect_object (book_of (self), "changed", G_CALLBACK (book_changed_cb), self,
                           G_CONNECT_SWAPPED);
  cro_bench_set_cover (market, GTK_WIDGET (self));
  show_all (self);
  if (lost != NULL)
    cro_new_prices_say (self, lost);
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
    cro_new_prices_take_file (self, path);
}

void
cro_new_prices_open_text (CroBench   *market,
                          guint32     supplier,
                          const char *text)
{
  CroNewPrices *self = open_sheet (market, supplier);

  if (self != NULL)
    cro_new_prices_take_text (self, text);
}
