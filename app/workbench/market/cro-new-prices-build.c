/* What the sheet is made of, and how it is laid out. */
#include "config.h"

#include "cro-new-prices-private.h"

#include <glib/gi18n.h>

#include "cro-drop-down.h"
#include "cro-field.h"
#include "cro-measure.h"
#include "cro-number.h"
#include "cro-room.h"
#include "cro-sided.h"
#include "cro-wrap.h"

/* In characters: what is given to what it does, where it stands beside the rows, and to the rows. */
#define LEAST_PANEL 40
#define MOST_ROWS 104
#define MOST_PANEL 62

/* Rows of most lists: what is counted of more has its room once it is. */
#define MOST_COUNTED 88

/* In widths of a letter: lower, a row has one line, and what it does is scrolled with the rows. */
#define LEAST_HEIGHT 50

/* Of the height, at most, where it stands below them. */
#define MOST_BELOW 0.3

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

/* With the bar beside them. */
static int
rows_least (CroNewPrices *self)
{
  GtkWidget *bar = gtk_scrolled_window_get_vscrollbar (GTK_SCROLLED_WINDOW (self->parts[ROWS]));

  return cro_measure_least (GTK_WIDGET (self->rows)) + cro_measure_least (bar);
}

/* How wide what it does stands beside the rows; 0: it stands below them. Neither is ever cut. */
static int
panel_width (CroNewPrices *self,
             int           width)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int least = MAX (cro_measure_chars (widget, LEAST_PANEL), cro_measure_least (self->parts[PANEL]));
  int left = width - rows_least (self);
  int wished = MAX ((int) ((gint64) width * 3 / 8), least);

  return left >= least && !self->is_tight ? MIN (left, MIN (wished, cro_measure_chars (widget, MOST_PANEL))) : 0;
}

static gboolean
tight_cb (gpointer sheet)
{
  CroNewPrices *self = sheet;
  GtkWidget *panel = GTK_WIDGET (self->panel);
  GtkScrolledWindow *scroller = GTK_SCROLLED_WINDOW (self->parts[PANEL]);

  self->tight_id = 0;
  self->is_tight = !self->is_tight;
  g_object_ref (panel);
  if (self->is_tight)
    {
      gtk_scrolled_window_set_child (scroller, NULL);
      gtk_box_append (GTK_BOX (self->below), panel);
    }
  else
    {
      gtk_box_remove (GTK_BOX (self->below), panel);
      gtk_scrolled_window_set_child (scroller, panel);
    }
  g_object_unref (panel);
  gtk_widget_set_visible (self->parts[PANEL], !self->is_tight);
  cro_round_rows_set_tight (self->rows, self->is_tight);
  return G_SOURCE_REMOVE;
}

/* Nothing is laid out otherwise while it is laid out. */
static void
look_at_height (CroNewPrices *self,
                int           height)
{
  gboolean is_tight = height < cro_measure_chars (GTK_WIDGET (self), LEAST_HEIGHT);

  if (is_tight == self->is_tight)
    g_clear_handle_id (&self->tight_id, g_source_remove);
  else if (self->tight_id == 0)
    self->tight_id = g_idle_add_full (G_PRIORITY_HIGH, tight_cb, self, NULL);
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
  int body = height - head - foot, panel = panel_width (self, width);

  look_at_height (self, height);
  /* A head that grows, as by an invoice, leaves what is typed in sight. */
  if (body != self->body && gtk_widget_get_focus_child (GTK_WIDGET (self->rows)) != NULL)
    cro_round_rows_reveal (self->rows);
  self->body = body;
  allocate (self, HEAD, 0, 0, width, head);
  allocate (self, FOOT, 0, height - foot, width, foot);
  if (panel > 0)
    {
      int rows = MIN (width - panel, MAX (rows_least (self), cro_measure_chars (widget, MOST_ROWS)));

      allocate (self, ROWS, is_mirrored ? width - rows : 0, head, rows, body);
      allocate (self, PANEL, is_mirrored ? width - rows - panel : rows, head, panel, body);
      return;
    }
  panel = self->is_tight ? 0 : (int) (body * MOST_BELOW);
  allocate (self, ROWS, 0, head, width, body - panel);
  if (panel > 0)
    allocate (self, PANEL, 0, head + body - panel, width, panel);
}

static GtkSizeRequestMode
cro_new_prices_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_CONSTANT_SIZE;
}

void
cro_new_prices_set_layout (GtkWidgetClass *widget_class)
{
  widget_class->measure = cro_new_prices_measure;
  widget_class->size_allocate = cro_new_prices_size_allocate;
  widget_class->get_request_mode = cro_new_prices_get_request_mode;
}

/* --- Parts ------------------------------------------------------------------------------------------------ */

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

  self->quotes = cro_drop_down_new (words, _("Prices are stated"));
  g_signal_connect_object (self->quotes, "notify::selected", G_CALLBACK (cro_new_prices_quotes_cb), self,
                           G_CONNECT_SWAPPED);
  return self->quotes;
}

static GtkWidget *
invoice_new (CroNewPrices *self)
{
  GtkWidget *leave_out = button_new (_("_Leave It Out"), G_CALLBACK (cro_new_prices_leave_out_cb), self);

  self->invoice_box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  self->invoice = cro_text_new ("", NULL);
  gtk_widget_set_hexpand (self->invoice, TRUE);
  gtk_widget_set_valign (leave_out, GTK_ALIGN_START);
  gtk_widget_set_tooltip_text (leave_out, _("Book nothing more of this document"));
  gtk_box_append (GTK_BOX (self->invoice_box), self->invoice);
  gtk_box_append (GTK_BOX (self->invoice_box), leave_out);
  gtk_widget_set_visible (self->invoice_box, FALSE);
  return self->invoice_box;
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
  self->from = cro_entry_new (_("Prices hold from"), cro_date_chars ());
  g_signal_connect_object (self->from, "activate", G_CALLBACK (cro_new_prices_from_activate_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (cro_new_prices_from_left_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->from, focus);
  self->terms = cro_caption_new ("", 0);
  cro_wrap_append (CRO_WRAP (row), back);
  cro_wrap_append (CRO_WRAP (row), self->title);
  cro_wrap_append (CRO_WRAP (row), gtk_label_new (C_("price", "from")));
  cro_wrap_append (CRO_WRAP (row), self->from);
  cro_wrap_append (CRO_WRAP (row), quotes_new (self));
  cro_wrap_append (CRO_WRAP (row), self->terms);
  cro_wrap_append (CRO_WRAP (row), button_new (_("Pas_te"), G_CALLBACK (cro_new_prices_paste), self));
  cro_wrap_append (CRO_WRAP (row), button_new (_("_File…"), G_CALLBACK (cro_new_prices_ask_file), self));
  cro_wrap_append (CRO_WRAP (row), cro_new_prices_columns_open_new (self));
  /* Its room is kept: nothing below it moves as a day is typed. */
  self->past = cro_text_new ("", "reason");
  self->no_day = CRO_BUBBLE (cro_bubble_new (box, self->from));
  gtk_box_append (GTK_BOX (box), row);
  gtk_box_append (GTK_BOX (box), self->past);
  gtk_box_append (GTK_BOX (box), invoice_new (self));
  gtk_box_append (GTK_BOX (box), cro_new_prices_whole_new (self));
  gtk_widget_add_css_class (box, "bench-head");
  return box;
}

/* As they change, the buttons behind them stay where they are. */
static GtkWidget *
counts_new (CroNewPrices *self)
{
  g_autofree char *most = cro_words_round_counts_of (MOST_COUNTED, MOST_COUNTED, MOST_COUNTED);

  self->counts = cro_caption_new ("", 0);
  gtk_widget_remove_css_class (self->counts, "dim-label");
  return cro_room_new (self->counts, cro_caption_new (most, 0));
}

static GtkWidget *
foot_new (CroNewPrices *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *row = cro_wrap_new (9, 6);

  self->message = cro_text_new ("", NULL);
  gtk_widget_set_visible (self->message, FALSE);
  /* No mnemonics: they would take the keys, and a quarter of a second over it. */
  self->next = action_button_new (_("Next That Waits"), "round.next",
                                  _("To the next row that waits for an answer (Alt+W)"));
  self->fill = action_button_new (_("The Rest as Last"), "round.fill", _("Confirm every untouched row (Alt+R)"));
  self->aside = action_button_new (_("Set _Aside"), "round.leave", _("Keep what is typed for later, unposted"));
  self->post = action_button_new (_("_Post"), "round.post", _("Keep these prices in the book (Ctrl+S)"));
  gtk_widget_add_css_class (self->post, "suggested-action");
  self->posted_box = cro_new_prices_posted_new (self);
  cro_wrap_append (CRO_WRAP (row), counts_new (self));
  cro_wrap_append (CRO_WRAP (row), self->next);
  cro_wrap_append (CRO_WRAP (row),
                   cro_room_new (self->fill, gtk_button_new_with_label (_("The Rest Untouched Again"))));
  cro_wrap_append (CRO_WRAP (row), self->aside);
  cro_wrap_append (CRO_WRAP (row), self->post);
  gtk_box_append (GTK_BOX (box), cro_new_prices_doing_new (self));
  gtk_box_append (GTK_BOX (box), self->message);
  gtk_box_append (GTK_BOX (box), cro_new_prices_seller_new (self));
  gtk_box_append (GTK_BOX (box), cro_new_prices_columns_new (self));
  gtk_box_append (GTK_BOX (box), self->posted_box);
  /* What comes and goes stands above: answers and buttons stay where they are. */
  gtk_box_append (GTK_BOX (box), cro_round_rows_get_asked (self->rows));
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

/* A change out of sight would be missed: a list beside gives way to the rows and what they do. */
static void
ask_room (CroNewPrices *self)
{
  GtkWidget *sided = gtk_widget_get_ancestor (GTK_WIDGET (self), CRO_TYPE_SIDED);

  if (sided != NULL)
    cro_sided_set_wide (CRO_SIDED (sided), self->parts[ROWS], CRO_SIDED_ALL);
}

void
cro_new_prices_build (CroNewPrices *self)
{
  GtkDropTarget *drop = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);
  GType types[] = { G_TYPE_FILE, G_TYPE_STRING };

  self->rows = CRO_ROUND_ROWS (cro_round_rows_new (self->bench));
  self->panel = CRO_ROUND_PANEL (cro_round_panel_new ());
  g_signal_connect_object (self->rows, "moved", G_CALLBACK (cro_new_prices_moved), self, G_CONNECT_SWAPPED);
  self->parts[HEAD] = head_new (self);
  self->below = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_append (GTK_BOX (self->below), GTK_WIDGET (self->rows));
  self->parts[ROWS] = scrolled_new (self->below);
  self->parts[PANEL] = scrolled_new (GTK_WIDGET (self->panel));
  self->parts[FOOT] = foot_new (self);
  /* What does not fit is seen to be there. */
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (self->parts[ROWS]), FALSE);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->parts[PANEL]), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  g_signal_connect_object (self->rows, "done", G_CALLBACK (gtk_widget_grab_focus), self->post, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->panel, "more", G_CALLBACK (cro_new_prices_show_more), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->panel, "use", G_CALLBACK (cro_new_prices_use), self, G_CONNECT_SWAPPED);
  for (int i = 0; i < N_PARTS; i++)
    gtk_widget_set_parent (self->parts[i], GTK_WIDGET (self));
  g_signal_connect_object (self->parts[ROWS], "map", G_CALLBACK (ask_room), self,
                           G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  gtk_drop_target_set_gtypes (drop, types, G_N_ELEMENTS (types));
  g_signal_connect_object (drop, "drop", G_CALLBACK (cro_new_prices_drop), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drop));
}
