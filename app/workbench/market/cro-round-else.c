#include "config.h"

#include "cro-round-else.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-finder-entry.h"
#include "cro-isolate.h"
#include "cro-kind.h"
#include "cro-round-words.h"

struct _CroRoundElse
{
  GtkWidget  parent_instance;

  GtkWidget *button;
  GtkWidget *finder_box;
  GtkWidget *finder;
  GtkWidget *holds_box;
  GtkWidget *holds;
  GtkWidget *reason;
  GtkWidget *goods_box;  /* what is no ingredient */
  GtkWidget *goods[CRO_N_LIST_GOODS];
  GtkWidget *turn;       /* there and back */
  GtkWidget *give_back;  /* the price, or the goods */

  CroBook   *book;      /* the round's copy; borrowed */
  gboolean   can_call;
  gboolean   can_hold;
  gboolean   can_sort;
  gboolean   is_sorted;  /* as no ingredient */
  gboolean   can_turn;
  gboolean   is_turned;
  gboolean   can_give_back;
  gboolean   is_price;   /* that is given back */
  gboolean   is_refused; /* what is typed into holds */
};

G_DEFINE_FINAL_TYPE (CroRoundElse, cro_round_else, GTK_TYPE_WIDGET)

enum
{
  CALLED,
  HOLDS,
  SORTED,
  TURNED,
  GIVEN_BACK,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static gboolean
is_held (CroRoundElse *self)
{
  return self->can_hold && *gtk_editable_get_text (GTK_EDITABLE (self->holds)) != '\0';
}

/* FALSE: what is typed is no pack, and it is said so. */
static gboolean
take_holds (CroRoundElse *self)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->holds)));

  self->is_refused = FALSE;
  g_signal_emit (self, signals[HOLDS], 0, text);
  return !self->is_refused;
}

/* Both are taken where both are typed, whichever is confirmed. */
static void
chosen_cb (CroRoundElse *self,
           int           kind,
           guint         slot)
{
  if (is_held (self) && !take_holds (self))
    return;
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->button));
  g_signal_emit (self, signals[CALLED], 0, slot);
}

static void
holds_cb (CroRoundElse *self)
{
  if (!is_held (self) && self->can_call && cro_finder_entry_choose (CRO_FINDER_ENTRY (self->finder)))
    return;
  if (take_holds (self) && self->can_call)
    cro_finder_entry_choose (CRO_FINDER_ENTRY (self->finder));
}

static void
sort_cb (GtkWidget    *button,
         CroRoundElse *self)
{
  guint goods = CRO_LIST_GOODS_INGREDIENT;

  while (goods < CRO_N_LIST_GOODS - 1 && self->goods[goods] != button)
    goods++;
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->button));
  g_signal_emit (self, signals[SORTED], 0, goods);
}

static void
turn_cb (CroRoundElse *self)
{
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->button));
  g_signal_emit (self, signals[TURNED], 0, !self->is_turned);
}

static void
give_back_cb (CroRoundElse *self)
{
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->button));
  g_signal_emit (self, signals[GIVEN_BACK], 0, self->is_price ? CRO_LIST_BACK_GOODS : CRO_LIST_BACK_PRICE);
}

void
cro_round_else_refuse (CroRoundElse *self,
                       const char   *reason)
{
  self->is_refused = reason != NULL;
  if (self->reason == NULL)
    return;
  gtk_label_set_label (GTK_LABEL (self->reason), reason != NULL ? reason : "");
  gtk_widget_set_visible (self->reason, reason != NULL);
}

void
cro_round_else_accept (CroRoundElse *self)
{
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->button));
}

void
cro_round_else_close (CroRoundElse *self)
{
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->button));
}

/* The names are those of the copy as it is when the popover opens. */
static void
open_cb (CroRoundElse *self)
{
  gtk_widget_set_visible (self->finder_box, self->can_call);
  gtk_widget_set_visible (self->holds_box, self->can_hold);
  gtk_widget_set_visible (self->goods_box, self->can_sort);
  gtk_widget_set_visible (self->goods[CRO_LIST_GOODS_INGREDIENT], self->is_sorted);
  gtk_widget_set_visible (self->turn, self->can_turn);
  gtk_button_set_label (GTK_BUTTON (self->turn), self->is_turned ? _("Not a _Return") : _("A _Return"));
  gtk_widget_set_visible (self->give_back, self->can_give_back);
  gtk_button_set_label (GTK_BUTTON (self->give_back),
                        self->is_price ? _("The _Goods Go Back") : _("A Part of the _Price"));
  if (self->book != NULL)
    cro_finder_entry_put (CRO_FINDER_ENTRY (self->finder), self->book);
  cro_round_else_refuse (self, NULL);
  gtk_widget_grab_focus (self->can_call   ? self->finder
                         : self->can_hold ? self->holds
                         : self->can_sort ? self->goods[CRO_LIST_GOODS_DISPOSABLE]
                         : self->can_turn ? self->turn
                                          : self->give_back);
}

void
cro_round_else_show (CroRoundElse *self,
                     CroRound     *round,
                     guint         index)
{
  const CroRoundRow *row = cro_round_get_row (round, index);
  g_autofree char *name = cro_words_round_name (round, row);
  /* Translators: the accessible name of a button; what a line of a list or an invoice is called. */
  g_autofree char *spoken = cro_isolate_printf (_("What %s is"), name);

  /* What is chosen in an open popover is a slot of the copy as it is now. */
  if (self->finder != NULL && self->book != cro_round_get_draft (round))
    cro_finder_entry_renew (CRO_FINDER_ENTRY (self->finder), cro_round_get_draft (round));
  self->book = cro_round_get_draft (round);
  self->can_call = cro_round_can_call (round, index);
  self->can_hold = cro_round_can_hold (round, index);
  self->can_sort = cro_round_can_sort (round, index);
  self->is_sorted = row->list.is_no_ingredient;
  self->can_turn = cro_round_can_turn (round, index);
  self->is_turned = row->list.is_turned;
  self->can_give_back = cro_round_can_give_back (round, index);
  self->is_price = row->list.back == CRO_LIST_BACK_PRICE;
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->button),
                             self->can_hold && !self->can_call ? _("It Holds…") : _("It Is…"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_widget_set_visible (GTK_WIDGET (self), self->can_call || self->can_hold || self->can_sort || self->can_turn
                                                 || self->can_give_back);
}

/* --- The widget -------------------------------------------------------------------------------------------- */

static void
cro_round_else_dispose (GObject *object)
{
  g_clear_pointer (&CRO_ROUND_ELSE (object)->button, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_round_else_parent_class)->dispose (object);
}

static void
cro_round_else_class_init (CroRoundElseClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_round_else_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[CALLED] = g_signal_new ("called", CRO_TYPE_ROUND_ELSE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                  G_TYPE_UINT);
  signals[HOLDS] = g_signal_new ("holds", CRO_TYPE_ROUND_ELSE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_STRING);
  signals[SORTED] = g_signal_new ("sorted", CRO_TYPE_ROUND_ELSE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                  G_TYPE_UINT);
  signals[TURNED] = g_signal_new ("turned", CRO_TYPE_ROUND_ELSE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                  G_TYPE_BOOLEAN);
  signals[GIVEN_BACK] = g_signal_new ("given-back", CRO_TYPE_ROUND_ELSE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                      G_TYPE_NONE, 1, G_TYPE_UINT);
}

static GtkWidget *
box_new (GtkWidget  *into,
         const char *caption,
         GtkWidget  *field)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  gtk_box_append (GTK_BOX (box), cro_caption_new (caption, 0));
  gtk_box_append (GTK_BOX (box), field);
  gtk_box_append (GTK_BOX (into), box);
  return box;
}

/* In words that say where a purchase of it stands in the month. */
static GtkWidget *
goods_new (CroRoundElse *self)
{
  const char *labels[CRO_N_LIST_GOODS] = {
    [CRO_LIST_GOODS_INGREDIENT] = _("An _Ingredient"),
    [CRO_LIST_GOODS_DISPOSABLE] = _("_Disposables"),
    /* Translators: what an invoice asks for that is neither food nor a disposable. */
    [CRO_LIST_GOODS_OTHER] = _("Deposit, _Freight or Other"),
  };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  for (guint i = CRO_LIST_GOODS_INGREDIENT; i < CRO_N_LIST_GOODS; i++)
    {
      self->goods[i] = gtk_button_new_with_mnemonic (labels[i]);
      g_signal_connect_object (self->goods[i], "clicked", G_CALLBACK (sort_cb), self, 0);
      gtk_box_append (GTK_BOX (box), self->goods[i]);
    }
  return box;
}

/* Rows have hundreds of such buttons, of which few are opened. */
static void
make_popover (GtkMenuButton *button,
              gpointer       user_data)
{
  CroRoundElse *self = user_data;
  GtkWidget *popover, *box;

  if (self->finder != NULL)
    return;
  popover = gtk_popover_new ();
  box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->finder = cro_finder_entry_new (_("Which ingredient it is"), _("Part of its name"), 1u << CRO_KIND_INGREDIENT);
  self->holds = cro_entry_new (_("What one of it holds"), 16);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->holds), _("6 x 1 kg"));
  self->finder_box = box_new (box, _("Which ingredient it is"), self->finder);
  self->holds_box = box_new (box, _("What one of it holds"), self->holds);
  self->reason = cro_text_new ("", "reason");
  gtk_widget_set_visible (self->reason, FALSE);
  gtk_box_append (GTK_BOX (box), self->reason);
  self->goods_box = box_new (box, _("Not food: remembered for this supplier"), goods_new (self));
  self->turn = gtk_button_new_with_mnemonic ("");
  g_signal_connect_object (self->turn, "clicked", G_CALLBACK (turn_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), self->turn);
  self->give_back = gtk_button_new_with_mnemonic ("");
  g_signal_connect_object (self->give_back, "clicked", G_CALLBACK (give_back_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), self->give_back);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  g_signal_connect_object (popover, "show", G_CALLBACK (open_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->finder, "chosen", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->holds, "activate", G_CALLBACK (holds_cb), self, G_CONNECT_SWAPPED);
  gtk_menu_button_set_popover (button, popover);
}

static void
cro_round_else_init (CroRoundElse *self)
{
  self->button = gtk_menu_button_new ();
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (self->button), make_popover, self, NULL);
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
}

GtkWidget *
cro_round_else_new (void)
{
  return g_object_new (CRO_TYPE_ROUND_ELSE, NULL);
}
