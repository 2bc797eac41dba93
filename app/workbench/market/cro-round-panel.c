#include "config.h"

#include "cro-round-panel.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-field.h"
#include "cro-number.h"
#include "cro-result-words.h"
#include "cro-round-words.h"
#include "cro-words-price.h"

/* Plates and menus. */
#define MOST_AT_FIRST 8
#define MORE_AT_ONCE 24

struct _CroRoundPanel
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GArray    *cheaper;     /* CroRoundCheaper, as they are shown */
  guint      most;        /* plates and menus shown at once */
  guint      more_id;
};

G_DEFINE_FINAL_TYPE (CroRoundPanel, cro_round_panel, GTK_TYPE_WIDGET)

enum
{
  USE,
  MORE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
add (CroRoundPanel *self,
     GtkWidget     *child)
{
  gtk_box_append (GTK_BOX (self->box), child);
}

static void
add_heading (CroRoundPanel *self,
             const char    *text)
{
  add (self, cro_heading_new (text));
}

static void
add_moved (CroRoundPanel        *self,
           CroRound             *round,
           const CroRoundEffect *effect,
           const CroRoundMoved  *moved,
           const char           *text)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *name = gtk_label_new (moved->moved.after.name), *figures = cro_number_label_new ();
  g_autofree char *hold = NULL;

  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_widget_set_tooltip_text (name, moved->moved.after.name);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_label_set_label (GTK_LABEL (figures), text);
  gtk_box_append (GTK_BOX (row), name);
  gtk_box_append (GTK_BOX (row), figures);
  add (self, row);
  if (!moved->moved.after.is_over_target)
    return;
  hold = cro_words_round_hold (round, effect, moved);
  if (hold != NULL)
    add (self, cro_text_new (hold, "caption"));
}

/* Nothing goes under the event: the button that was pressed goes with the others. */
static gboolean
show_more_cb (gpointer user_data)
{
  CroRoundPanel *self = user_data;

  self->more_id = 0;
  g_signal_emit (self, signals[MORE], 0);
  return G_SOURCE_REMOVE;
}

static void
more_cb (CroRoundPanel *self)
{
  self->most += MORE_AT_ONCE;
  if (self->more_id == 0)
    self->more_id = g_idle_add (show_more_cb, self);
}

static void
add_more (CroRoundPanel *self,
          guint          n)
{
  /* Translators: a button; %u is how many more there are. */
  g_autofree char *text = g_strdup_printf (ngettext ("Show %u More", "Show %u More", n), n);
  GtkWidget *button = gtk_button_new_with_label (text);

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  g_signal_connect_object (button, "clicked", G_CALLBACK (more_cb), self, G_CONNECT_SWAPPED);
  add (self, button);
}

/* Those of one rank, each once: what goes over, what was over, what is within; those that are not seen to move are
 * counted. */
static guint
add_group (CroRoundPanel        *self,
           CroRound             *round,
           const CroRoundEffect *effect,
           const char           *title,
           gboolean              is_over,
           gboolean              was_over,
           guint                *n_shown,
           guint                *n_unseen)
{
  guint n = 0, left = 0;

  for (guint i = 0; i < effect->moved->len; i++)
    {
      const CroRoundMoved *moved = &g_array_index (effect->moved, CroRoundMoved, i);
      gboolean is_here = moved->moved.after.is_over_target == is_over
                         && (!is_over || moved->moved.before.is_over_target == was_over);
      g_autofree char *text = is_here ? cro_words_round_moved (round, moved) : NULL;

      if (text == NULL)
        {
          *n_unseen += is_here;
          continue;
        }
      if (n++ == 0)
        add_heading (self, title);
      if (*n_shown >= self->most)
        {
          left++;
          continue;
        }
      add_moved (self, round, effect, moved, text);
      (*n_shown)++;
    }
  if (left > 0)
    add_more (self, left);
  return n;
}

static void
use_cb (GtkWidget     *button,
        CroRoundPanel *self)
{
  g_signal_emit (self, signals[USE], 0, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "offer")));
}

static void
add_cheaper (CroRoundPanel         *self,
             CroRound              *round,
             const CroRoundCheaper *cheaper,
             gboolean               is_first)
{
  g_autofree char *text = cro_words_round_cheaper (round, cheaper);
  /* Translators: a button, with its key: another supplier’s pack is preferred from now on. */
  GtkWidget *button = gtk_button_new_with_label (is_first ? _("F4  Prefer It") : _("Prefer It"));

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  g_object_set_data (G_OBJECT (button), "offer", GUINT_TO_POINTER (cheaper->offer));
  g_signal_connect_object (button, "clicked", G_CALLBACK (use_cb), self, 0);
  add (self, cro_text_new (text, NULL));
  add (self, button);
}

static void
copy_cb (GtkWidget     *button,
         CroRoundPanel *self)
{
  gdk_clipboard_set_text (gtk_widget_get_clipboard (button), g_object_get_data (G_OBJECT (button), "text"));
}

/* To be sent to the supplier. */
static void
show_billed (CroRoundPanel *self,
             const char    *billed)
{
  GtkWidget *copy = gtk_button_new_with_label (_("Copy for a Message"));

  gtk_widget_set_halign (copy, GTK_ALIGN_START);
  g_object_set_data_full (G_OBJECT (copy), "text", g_strdup (billed), g_free);
  g_signal_connect_object (copy, "clicked", G_CALLBACK (copy_cb), self, 0);
  add (self, cro_text_new (billed, NULL));
  add (self, copy);
}

static void
clear (CroRoundPanel *self)
{
  cro_box_clear (self->box);
  g_array_set_size (self->cheaper, 0);
}

/* Plates and menus, or why there are none. nothing: instead of them. */
static void
show_moved (CroRoundPanel        *self,
            CroRound             *round,
            const CroRoundEffect *effect,
            const char           *nothing)
{
  g_autofree char *week = cro_words_round_week (round, effect);
  gboolean is_cost = cro_book_get_model (cro_round_get_draft (round))->speaks == CRO_SPEAKS_FOOD_COST;
  guint n_shown = 0, n_unseen = 0, n_over;

  if (effect->moved->len == 0)
    add (self, cro_text_new (nothing, "dim-label"));
  /* Gross profit and coefficient are below their targets then. */
  n_over = add_group (self, round, effect, is_cost ? _("Goes Over Target") : _("Goes Below Target"), TRUE, FALSE,
                      &n_shown, &n_unseen);
  if (n_over == 0 && effect->moved->len > 0)
    add (self, cro_text_new (is_cost ? _("Nothing goes over its target.") : _("Nothing goes below its target."), NULL));
  add_group (self, round, effect, is_cost ? _("Was Over Target") : _("Was Below Target"), TRUE, TRUE, &n_shown,
             &n_unseen);
  add_group (self, round, effect, _("Within Target"), FALSE, FALSE, &n_shown, &n_unseen);
  if (n_unseen > 0)
    {
      g_autofree char *unseen = cro_words_moved_unseen (n_unseen);

      add (self, cro_text_new (unseen, "caption"));
    }
  if (week != NULL)
    add (self, cro_text_new (week, "now"));
}

static const char *
why_nothing (const CroRoundEffect *effect)
{
  return effect->is_taken ? _("Nothing moves.") : _("No plate takes these.");
}

static void
show_does (CroRoundPanel        *self,
           CroRound             *round,
           const CroRoundEffect *effect,
           const char           *billed)
{
  g_autofree char *preferred = cro_words_round_preferred (round);

  g_array_append_vals (self->cheaper, effect->cheaper->data, effect->cheaper->len);
  add_heading (self, _("What It Does, Before Posting"));
  if (billed != NULL)
    show_billed (self, billed);
  show_moved (self, round, effect, cro_round_count_ready (round) == 0 ? _("Type a price to see what it does.")
                                                                      : why_nothing (effect));
  /* Posting moves it, long after its key was pressed. */
  if (preferred != NULL)
    add (self, cro_text_new (preferred, NULL));
  if (self->cheaper->len > 0)
    add_heading (self, _("Cheaper Elsewhere"));
  for (guint i = 0; i < self->cheaper->len; i++)
    add_cheaper (self, round, &g_array_index (self->cheaper, CroRoundCheaper, i), i == 0);
}

/* Figures of another day than the sheet's are headed by it. */
static void
add_did_heading (CroRoundPanel        *self,
                 CroRound             *round,
                 const CroRoundEffect *did)
{
  g_autofree char *day = NULL, *text = NULL;

  if (did == NULL || did->figures->date == cro_book_get_figures (cro_round_get_draft (round))->date)
    {
      add_heading (self, _("What It Did"));
      return;
    }
  day = cro_date_to_text (did->figures->date);
  /* Translators: a heading of what posted prices did to plates; a day. */
  text = g_strdup_printf (_("What It Did, on %s"), day);
  add_heading (self, text);
}

void
cro_round_panel_show (CroRoundPanel        *self,
                      CroRound             *round,
                      const CroRoundEffect *does,
                      const char           *billed,
                      const CroRoundEffect *did,
                      const char           *was_billed,
                      const char           *preferred)
{
  gboolean had_focus = gtk_widget_get_focus_child (self->box) != NULL;

  clear (self);
  if (does != NULL)
    show_does (self, round, does, billed);
  if (did != NULL || was_billed != NULL || preferred != NULL)
    add_did_heading (self, round, did);
  if (was_billed != NULL)
    show_billed (self, was_billed);
  if (did != NULL)
    show_moved (self, round, did, why_nothing (did));
  if (preferred != NULL)
    add (self, cro_text_new (preferred, NULL));
  if (had_focus)
    gtk_widget_child_focus (self->box, GTK_DIR_TAB_FORWARD);
}

guint
cro_round_panel_get_most (CroRoundPanel *self)
{
  return self->most;
}

guint32
cro_round_panel_get_cheaper (CroRoundPanel *self)
{
  return self->cheaper->len > 0 ? g_array_index (self->cheaper, CroRoundCheaper, 0).offer : CRO_NO_SLOT;
}

static void
cro_round_panel_dispose (GObject *object)
{
  g_clear_handle_id (&CRO_ROUND_PANEL (object)->more_id, g_source_remove);
  g_clear_pointer (&CRO_ROUND_PANEL (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_round_panel_parent_class)->dispose (object);
}

static void
cro_round_panel_finalize (GObject *object)
{
  g_array_unref (CRO_ROUND_PANEL (object)->cheaper);
  G_OBJECT_CLASS (cro_round_panel_parent_class)->finalize (object);
}

static void
cro_round_panel_class_init (CroRoundPanelClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_round_panel_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_round_panel_finalize;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[USE] = g_signal_new ("use", CRO_TYPE_ROUND_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                               G_TYPE_UINT);
  signals[MORE] = g_signal_new ("more", CRO_TYPE_ROUND_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
cro_round_panel_init (CroRoundPanel *self)
{
  self->cheaper = g_array_new (FALSE, FALSE, sizeof (CroRoundCheaper));
  self->most = MOST_AT_FIRST;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  gtk_widget_add_css_class (self->box, "bench");
  gtk_widget_add_css_class (self->box, "part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_round_panel_new (void)
{
  return g_object_new (CRO_TYPE_ROUND_PANEL, NULL);
}
