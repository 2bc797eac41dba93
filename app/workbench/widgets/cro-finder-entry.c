#include "config.h"

#include "cro-finder-entry.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-field.h"
#include "cro-finder.h"
#include "cro-focus.h"
#include "cro-fold.h"
#include "cro-offered-keys.h"
#include "cro-spoken.h"

/* Names offered at once. */
#define MOST_OFFERED 12

struct _CroFinderEntry
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *entry;
  GtkWidget *hint;
  GtkWidget *offered;

  CroBook   *book;
  guint      kinds;
  guint32    without;     /* never offered; CRO_NO_SLOT: all are */
  CroFinderOthers list_others; /* NULL: things of the book only */
  GArray    *others;      /* CroFinderOther, as they were listed at an edition of the book; NULL: not yet */
  guint64    edition;
};

G_DEFINE_FINAL_TYPE (CroFinderEntry, cro_finder_entry, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  OTHER_CHOSEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static const char *
text_of (CroFinderEntry *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

/* A main output that is called as its preparation is found there. */
static gboolean
is_told_twice (CroFinderEntry *self,
               const CroFound *found)
{
  CroModel *model = cro_book_get_model (self->book);
  const CroItem *item;

  if (found->kind != CRO_KIND_OUTPUT || (self->kinds & 1u << CRO_KIND_PREPARATION) == 0)
    return FALSE;
  item = cro_model_item (model, found->slot);
  return item->is_main
         && strcmp (item->name,
                    cro_model_recipe (model, (guint32) model->maker[found->slot])->name) == 0;
}

/* What a row stands for. */
typedef struct
{
  CroFound found;
  CroRef   other;         /* CRO_REF_NOWHERE: what was found */
  guint    view;          /* of the other */
} Offered;

/* Where things of several kinds are looked for, it says which kind one is. */
static void
offer (CroFinderEntry *self,
       Offered         offered,
       const char     *name,
       const char     *kind)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = gtk_label_new (name);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (row), label);
  if ((self->kinds & (self->kinds - 1)) != 0)
    gtk_box_append (GTK_BOX (row), cro_text_new (kind, "dim-label"));
  g_object_set_data_full (G_OBJECT (row), "offered", g_memdup2 (&offered, sizeof offered), g_free);
  gtk_list_box_append (GTK_LIST_BOX (self->offered), row);
}

static void
offer_found (CroFinderEntry *self,
             const CroFound *found)
{
  static const char *const words[CRO_N_KINDS] = {
    [CRO_KIND_INGREDIENT] = N_("ingredient"), [CRO_KIND_OUTPUT] = N_("output"),
    [CRO_KIND_PREPARATION] = N_("preparation"), [CRO_KIND_PLATE] = N_("plate"),
    [CRO_KIND_MENU] = N_("menu"),
  };

  offer (self, (Offered){ *found, CRO_REF_NOWHERE, 0 },
         cro_kind_name (cro_book_get_model (self->book), found->kind, found->slot), _(words[found->kind]));
}

static gboolean
is_left_out (CroFinderEntry *self,
             const CroFound *found)
{
  return found->slot == self->without || is_told_twice (self, found);
}

static GArray *
find (CroFinderEntry *self)
{
  GArray *found = cro_finder_find (cro_finder_of (self->book), text_of (self), self->kinds, MOST_OFFERED);

  for (guint i = found->len; i-- > 0;)
    if (is_left_out (self, &g_array_index (found, CroFound, i)))
      g_array_remove_index (found, i);
  return found;
}

/* No key moves a name. */
static void
keep_others (CroFinderEntry *self)
{
  guint64 edition = cro_book_get_edition (self->book);

  if (self->list_others == NULL || (self->others != NULL && self->edition == edition))
    return;
  g_clear_pointer (&self->others, g_array_unref);
  self->others = self->list_others (self->book);
  self->edition = edition;
}

static void
offer_others (CroFinderEntry *self,
              const CroQuery *query,
              CroMatch        match,
              guint          *room)
{
  for (guint i = 0; self->others != NULL && query != NULL && i < self->others->len && *room > 0; i++)
    {
      const CroFinderOther *other = &g_array_index (self->others, CroFinderOther, i);

      if (cro_query_match (query, other->folded) != match)
        continue;
      offer (self, (Offered){ .other = other->ref, .view = other->view }, other->name, other->kind);
      (*room)--;
    }
}

/* The best first; of those that fit as well, things of the book. */
static void
offer_all (CroFinderEntry *self)
{
  g_autoptr (GArray) found = find (self);
  g_autoptr (CroQuery) query = cro_query_new (text_of (self));
  guint at = 0, room = MOST_OFFERED;

  keep_others (self);
  for (CroMatch match = CRO_MATCH_WHOLE; match > CRO_MATCH_NONE; match--)
    {
      for (; at < found->len && room > 0 && g_array_index (found, CroFound, at).score == match; at++, room--)
        offer_found (self, &g_array_index (found, CroFound, at));
      offer_others (self, query, match, &room);
    }
}

static void
changed_cb (CroFinderEntry *self)
{
  gboolean is_asked = self->book != NULL && *text_of (self) != '\0', is_offered;

  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->offered)) != NULL;)
    gtk_list_box_remove (GTK_LIST_BOX (self->offered), child);
  if (is_asked)
    offer_all (self);
  is_offered = gtk_widget_get_first_child (self->offered) != NULL;
  gtk_widget_set_visible (self->offered, is_offered);
  gtk_widget_set_visible (self->hint, is_asked && !is_offered);
}

static void
choose (CroFinderEntry *self,
        GtkListBoxRow  *row)
{
  Offered offered = *(Offered *) g_object_get_data (G_OBJECT (gtk_list_box_row_get_child (row)), "offered");

  gtk_widget_grab_focus (self->entry);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
  if (offered.other.kind != CRO_REF_NONE)
    g_signal_emit (self, signals[OTHER_CHOSEN], 0, (int) offered.other.kind, offered.other.slot,
                   offered.view);
  else
    g_signal_emit (self, signals[CHOSEN], 0, (int) offered.found.kind, offered.found.slot);
}

gboolean
cro_finder_entry_choose (CroFinderEntry *self)
{
  GtkListBoxRow *first = gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->offered), 0);

  if (first != NULL)
    choose (self, first);
  return first != NULL;
}

static void
activate_cb (CroFinderEntry *self)
{
  cro_finder_entry_choose (self);
}

static void
chosen_cb (CroFinderEntry *self,
           GtkListBoxRow  *row)
{
  choose (self, row);
}

static gboolean
key_pressed_cb (CroFinderEntry  *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  GtkListBoxRow *first = gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->offered), 0);

  if ((keyval == GDK_KEY_Down || keyval == GDK_KEY_KP_Down) && first != NULL)
    return gtk_widget_grab_focus (GTK_WIDGET (first));
  if (keyval == GDK_KEY_Escape && *text_of (self) != '\0')
    {
      gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
      /* In a popover the same press closes it. */
      return gtk_widget_get_ancestor (GTK_WIDGET (self), GTK_TYPE_POPOVER) == NULL;
    }
  return GDK_EVENT_PROPAGATE;
}

static void
cro_finder_entry_dispose (GObject *object)
{
  CroFinderEntry *self = CRO_FINDER_ENTRY (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->others, g_array_unref);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (cro_finder_entry_parent_class)->dispose (object);
}

static gboolean
cro_finder_entry_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_FINDER_ENTRY (widget)->entry);
}

static void
cro_finder_entry_class_init (CroFinderEntryClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_finder_entry_dispose;
  GTK_WIDGET_CLASS (klass)->focus = cro_focus_within;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_finder_entry_grab_focus;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[CHOSEN] = g_signal_new ("chosen", CRO_TYPE_FINDER_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_UINT);
  signals[OTHER_CHOSEN] = g_signal_new ("other-chosen", CRO_TYPE_FINDER_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                        NULL, G_TYPE_NONE, 3, G_TYPE_INT, G_TYPE_UINT, G_TYPE_UINT);
}

static void
cro_finder_entry_init (CroFinderEntry *self)
{
  self->without = CRO_NO_SLOT;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_finder_entry_new (const char *name,
                      const char *placeholder,
                      guint       kinds)
{
  CroFinderEntry *self = g_object_new (CRO_TYPE_FINDER_ENTRY, NULL);
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->kinds = kinds;
  self->entry = cro_entry_new (name, 28);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), placeholder);
  self->hint = cro_text_new (_("No name matches."), "reason");
  gtk_widget_set_visible (self->hint, FALSE);
  self->offered = gtk_list_box_new ();
  gtk_widget_add_css_class (self->offered, "offered");
  gtk_widget_set_visible (self->offered, FALSE);
  cro_spoken_set (self->offered, _("Similar names"));
  gtk_box_append (GTK_BOX (self->box), self->entry);
  gtk_box_append (GTK_BOX (self->box), self->hint);
  gtk_box_append (GTK_BOX (self->box), self->offered);
  cro_offered_keys_add (GTK_LIST_BOX (self->offered), GTK_ENTRY (self->entry));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (self->entry, keys);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "changed", G_CALLBACK (changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "activate", G_CALLBACK (activate_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->offered, "row-activated", G_CALLBACK (chosen_cb), self,
                           G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}

void
cro_finder_entry_put (CroFinderEntry *self,
                      CroBook        *book)
{
  g_set_object (&self->book, book);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
}

void
cro_finder_entry_renew (CroFinderEntry *self,
                        CroBook        *book)
{
  if (self->book == NULL || self->book == book)
    return;
  g_set_object (&self->book, book);
  changed_cb (self);
}

void
cro_finder_entry_set_without (CroFinderEntry *self,
                              guint32         slot)
{
  self->without = slot;
}

void
cro_finder_entry_set_others (CroFinderEntry  *self,
                             CroFinderOthers  list)
{
  self->list_others = list;
}

void
cro_finder_entry_set_example (CroFinderEntry *self,
                              const char     *text)
{
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), text);
}
