#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>

#include "cro-finder-entry.h"
#include "cro-focus.h"
#include "cro-fold.h"
#include "cro-kind.h"
#include "cro-market-rows.h"
#include "cro-month-shelf.h"
#include "cro-month-words.h"
#include "cro-overview.h"
#include "cro-place.h"
#include "cro-spoken.h"

/* --- The whole book ----------------------------------------------------------------------------- */

static void
popped_cb (CroWindow *self)
{
  if (self->book == NULL)
    return;
  cro_finder_entry_put (CRO_FINDER_ENTRY (self->finder), self->book);
  gtk_widget_grab_focus (self->finder);
}

static gboolean
return_cb (gpointer user_data)
{
  g_autoptr (CroWindow) self = user_data;
  GtkWidget *before = self->sought_from;

  g_clear_weak_pointer (&self->sought_from);
  if (before != NULL && !gtk_widget_get_mapped (self->finder))
    cro_focus_grab (before);
  return G_SOURCE_REMOVE;
}

/* Without a choice the focus is where it was: not at once, as GTK 4.18 gives it to the button after this. */
static void
closed_cb (CroWindow *self)
{
  if (self->sought_from != NULL)
    g_idle_add (return_cb, g_object_ref (self));
}

static void
found_cb (CroWindow *self,
          int        kind,
          guint      slot)
{
  g_clear_weak_pointer (&self->sought_from);
  /* First: GTK 4.18 gives the focus to the button of what closes. */
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->search_button));
  cro_window_open_kind (self, (CroKind) kind, slot);
  cro_place_list_focus (self->list);
}

/* A view is gone into, as by its key. */
static void
other_cb (CroWindow *self,
          int        kind,
          guint      slot,
          guint      view)
{
  g_clear_weak_pointer (&self->sought_from);
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->search_button));
  cro_window_open_ref (self, CRO_REF ((CroRefKind) kind, slot));
  if (view == 0
      || !gtk_widget_activate_action (gtk_stack_get_visible_child (self->bench), "bench.picture", "i", (int) view - 1))
    cro_window_focus_place (self);
}

/* Takes name. */
static void
add_other (GArray     *others,
           char       *name,
           const char *kind,
           CroRef      ref)
{
  CroFinderOther other = { name, cro_fold (name), kind, ref, 0 };

  g_array_append_val (others, other);
}

static void
clear_other (gpointer data)
{
  CroFinderOther *other = data;

  g_free (other->name);
  g_free (other->folded);
}

/* What stands under a place: the pages of no one thing, and the views of its overview. */
static void
add_pages (GArray  *others,
           CroBook *book)
{
  static const struct { CroPlace place; guint view; const char *name; } views[] = {
    { CRO_PLACE_PLATES, CRO_VIEW_ALLERGENS, N_("Allergens") },
    { CRO_PLACE_PLATES, CRO_VIEW_SERVICE, N_("Service") },
    { CRO_PLACE_PLATES, CRO_VIEW_CARDS, N_("Cards") },
    { CRO_PLACE_LARDER, CRO_VIEW_ALLERGENS, N_("Allergens") },
  };
  g_autoptr (GArray) market = cro_market_rows_new (book);

  for (int place = 0; place < CRO_N_PLACES; place++)
    if (cro_place_get ((CroPlace) place)->all != NULL)
      add_other (others, g_strdup (_(cro_place_get ((CroPlace) place)->all)), _(cro_place_get ((CroPlace) place)->name),
                 CRO_REF (cro_place_get ((CroPlace) place)->first, CRO_NO_SLOT));
  add_other (others, g_strdup (_("All months")), _(cro_place_get (CRO_PLACE_MONTHS)->name),
             CRO_REF (CRO_REF_SALES, CRO_NO_SLOT));
  for (gsize i = 0; i < G_N_ELEMENTS (views); i++)
    {
      const CroPlaceInfo *place = cro_place_get (views[i].place);

      add_other (others, g_strdup (_(views[i].name)), _(place->all), CRO_REF (place->first, CRO_NO_SLOT));
      g_array_index (others, CroFinderOther, others->len - 1).view = views[i].view;
    }
  for (guint i = 0; i < market->len; i++)
    {
      const CroPageRow *row = &g_array_index (market, CroPageRow, i);

      if (row->ref.slot == CRO_NO_SLOT)
        add_other (others, g_strdup (row->name), _(cro_place_get (CRO_PLACE_MARKET)->name), row->ref);
    }
}

/* Sections of the window and their pages, suppliers, months. */
static GArray *
list_others (CroBook *book)
{
  GArray *others = g_array_new (FALSE, FALSE, sizeof (CroFinderOther));
  GArray *suppliers = cro_book_get_model (book)->suppliers, *months = cro_month_shelf_list (cro_month_shelf_of (book));

  g_array_set_clear_func (others, clear_other);
  for (int place = 0; place < CRO_N_PLACES; place++)
    add_other (others, g_strdup (_(cro_place_get ((CroPlace) place)->name)), _("section"),
               CRO_REF (cro_place_get ((CroPlace) place)->first, CRO_NO_SLOT));
  add_pages (others, book);
  for (guint32 slot = 0; slot < suppliers->len; slot++)
    if (!g_array_index (suppliers, CroSupplier, slot).is_dead)
      add_other (others, g_strdup (g_array_index (suppliers, CroSupplier, slot).name), _("supplier"),
                 CRO_REF (CRO_REF_SUPPLIER, slot));
  for (guint i = 0; i < months->len; i++)
    {
      CroDate first = g_array_index (months, CroDate, i);

      add_other (others, cro_month_to_text (first), _("month"), CRO_REF (CRO_REF_MONTH, cro_month_to_slot (first)));
    }
  return others;
}

/* A popover keeps keys from the window below it: a place is gone to from here as from there. */
static gboolean
key_pressed_cb (GtkEventControllerKey *keys,
                guint                  keyval,
                guint                  keycode,
                GdkModifierType        state,
                CroWindow             *self)
{
  int digit = (state & GDK_ALT_MASK) != 0 ? cro_window_digit (keys, keyval, keycode) : -1;

  if (digit < 1 || digit > CRO_N_PLACES)
    return GDK_EVENT_PROPAGATE;
  g_clear_weak_pointer (&self->sought_from);
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->search_button));
  gtk_widget_activate_action (GTK_WIDGET (self), "win.place", "i", digit - 1);
  return GDK_EVENT_STOP;
}

static void
search_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  /* Opened once more, it would take its own field for what had the focus before it. */
  if (self->book == NULL || gtk_widget_get_mapped (self->finder))
    return;
  g_set_weak_pointer (&self->sought_from, gtk_window_get_focus (GTK_WINDOW (self)));
  gtk_menu_button_popup (GTK_MENU_BUTTON (self->search_button));
}

/* --- The window --------------------------------------------------------------------------------- */

void
cro_window_install_search (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.search", NULL, search_cb);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, search_button);
}

void
cro_window_add_search (CroWindow *self)
{
  GtkWidget *popover = gtk_popover_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->finder = cro_finder_entry_new (_("Search the book"), _("Part of any name"),
                                       CRO_KINDS_ALL);
  cro_finder_entry_set_others (CRO_FINDER_ENTRY (self->finder), list_others);
  g_signal_connect_object (self->finder, "chosen", G_CALLBACK (found_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->finder, "other-chosen", G_CALLBACK (other_cb), self, G_CONNECT_SWAPPED);
  gtk_popover_set_child (GTK_POPOVER (popover), self->finder);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, 0);
  gtk_widget_add_controller (popover, keys);
  g_signal_connect_object (popover, "map", G_CALLBACK (popped_cb), self, G_CONNECT_SWAPPED);
  cro_spoken_set (self->search_button, _("Search the book"));
  g_signal_connect_object (popover, "closed", G_CALLBACK (closed_cb), self, G_CONNECT_SWAPPED);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->search_button), popover);
}
