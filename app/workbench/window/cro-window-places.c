#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>

#include "cro-all-ingredients.h"
#include "cro-all-plates.h"
#include "cro-all-preparations.h"
#include "cro-cure.h"
#include "cro-focus.h"
#include "cro-ingredient-bench.h"
#include "cro-market-today.h"
#include "cro-menu-bench.h"
#include "cro-month-bench.h"
#include "cro-months-bench.h"
#include "cro-moves-bench.h"
#include "cro-overview.h"
#include "cro-packs-bench.h"
#include "cro-place.h"
#include "cro-plate-bench.h"
#include "cro-preparation-bench.h"
#include "cro-rates-bench.h"
#include "cro-spoken.h"
#include "cro-supplier-bench.h"
#include "cro-trial-bench.h"

/* A thing that stood on the bench, and the cell that had the focus then. */
typedef struct
{
  CroRef ref;
  char  *way;
  CroScrolled scrolled;
  gboolean is_trial;   /* a trial of it stood there */
} Visit;

static void
clear_visit (gpointer visit)
{
  g_free (((Visit *) visit)->way);
}

/* --- Places and benches ------------------------------------------------------------------------------ */

/* What is shown with something else opens that: a made item what makes it, a pack its ingredient. */
static CroRef
resolve (CroModel *model,
         CroRef    ref)
{
  if (ref.slot == CRO_NO_SLOT)
    return ref;
  if (ref.kind == CRO_REF_OFFER)
    ref = CRO_REF (CRO_REF_ITEM, cro_model_offer (model, ref.slot)->item);
  if (ref.kind == CRO_REF_ITEM && model->maker[ref.slot] >= 0)
    return CRO_REF (CRO_REF_RECIPE, (guint32) model->maker[ref.slot]);
  return ref;
}

typedef struct
{
  GType    bench;     /* G_TYPE_INVALID: it has none */
  CroPlace place;
  CroKind  kind;      /* in the list; CRO_N_KINDS: in none */
} Page;

static Page
page_of_overview (CroRef ref)
{
  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      return (Page){ CRO_TYPE_ALL_INGREDIENTS, CRO_PLACE_LARDER, CRO_N_KINDS };
    case CRO_REF_RECIPE:
      return (Page){ CRO_TYPE_ALL_PREPARATIONS, CRO_PLACE_PREPARATIONS, CRO_N_KINDS };
    default:
      return (Page){ CRO_TYPE_ALL_PLATES, CRO_PLACE_PLATES, CRO_N_KINDS };
    }
}

static Page
page_of (CroWindow *self,
         CroRef     ref)
{
  CroModel *model = cro_book_get_model (self->book);

  if (cro_ref_is_overview (ref))
    return page_of_overview (ref);

  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      return (Page){ CRO_TYPE_INGREDIENT_BENCH, CRO_PLACE_LARDER, CRO_KIND_INGREDIENT };
    case CRO_REF_RECIPE:
      if (cro_window_has_trial (self, ref))
        return (Page){ CRO_TYPE_PLATE_TRIAL, CRO_PLACE_PLATES, CRO_KIND_PLATE };
      if (cro_model_recipe (model, ref.slot)->is_plate)
        return (Page){ CRO_TYPE_PLATE_BENCH, CRO_PLACE_PLATES, CRO_KIND_PLATE };
      return (Page){ CRO_TYPE_PREPARATION_BENCH, CRO_PLACE_PREPARATIONS, CRO_KIND_PREPARATION };
    case CRO_REF_MENU:
      return (Page){ cro_window_has_trial (self, ref) ? CRO_TYPE_MENU_TRIAL : CRO_TYPE_MENU_BENCH,
                     CRO_PLACE_PLATES, CRO_KIND_MENU };
    case CRO_REF_SUPPLIER:
      return (Page){ ref.slot != CRO_NO_SLOT ? CRO_TYPE_SUPPLIER_BENCH : CRO_TYPE_MARKET_TODAY, CRO_PLACE_MARKET,
                     CRO_N_KINDS };
    case CRO_REF_PRICES:
      return (Page){ CRO_TYPE_MOVES_BENCH, CRO_PLACE_MARKET, CRO_N_KINDS };
    case CRO_REF_OFFER:
      return (Page){ CRO_TYPE_PACKS_BENCH, CRO_PLACE_MARKET, CRO_N_KINDS };
    case CRO_REF_RATES:
      return (Page){ CRO_TYPE_RATES_BENCH, CRO_PLACE_MARKET, CRO_N_KINDS };
    case CRO_REF_SALES:
      return (Page){ CRO_TYPE_MONTHS_BENCH, CRO_PLACE_MONTHS, CRO_N_KINDS };
    case CRO_REF_MONTH:
      return (Page){ CRO_TYPE_MONTH_BENCH, CRO_PLACE_MONTHS, CRO_N_KINDS };
    default:
      return (Page){ G_TYPE_INVALID, CRO_PLACE_PLATES, CRO_N_KINDS };
    }
}

gboolean
cro_window_is_alive (CroModel *model,
                     CroRef    ref)
{
  if (ref.slot == CRO_NO_SLOT)
    return ref.kind != CRO_REF_NONE;
  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      return !cro_model_item (model, ref.slot)->is_dead;
    case CRO_REF_RECIPE:
      return !cro_model_recipe (model, ref.slot)->is_dead;
    case CRO_REF_MENU:
      return !cro_model_menu (model, ref.slot)->is_dead;
    case CRO_REF_SUPPLIER:
      return !g_array_index (model->suppliers, CroSupplier, ref.slot).is_dead;
    default:
      return ref.kind != CRO_REF_NONE;
    }
}

/* Not the list box's own selection, which follows the focus. */
static void
mark_place (CroWindow *self,
            CroPlace   place)
{
  for (int i = 0; i < CRO_N_PLACES; i++)
    {
      GtkWidget *row = GTK_WIDGET (gtk_list_box_get_row_at_index (self->rail, i));
      gboolean is_here = i == (int) place;

      if (is_here)
        gtk_widget_add_css_class (row, "here");
      else
        gtk_widget_remove_css_class (row, "here");
      gtk_accessible_update_state (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_STATE_SELECTED, is_here, -1);
    }
}

static void
show_place (CroWindow *self,
            CroPlace   place)
{
  if (place != self->place)
    cro_window_leave_date (self);
  self->is_moving = TRUE;
  self->place = place;
  mark_place (self, place);
  cro_place_list_set_place (self->list, place);
  cro_window_put_list (self);
  cro_window_show_list (self);
  self->is_moving = FALSE;
}

/* What is typed and whole is kept, as when a field is left; the rest is remembered. */
static void
leave_bench (CroWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->bench)))
    gtk_window_set_focus (GTK_WINDOW (self), NULL);
  cro_window_remember (self);
  if (!CRO_IS_TRIAL_BENCH (gtk_stack_get_visible_child (self->bench)))
    return;
  cro_trial_bench_leave (CRO_TRIAL_BENCH (gtk_stack_get_visible_child (self->bench)));
  cro_place_list_tell (self->list);
}

/* A name, all of it selected, would be typed over. */
void
cro_window_focus_harmless (CroWindow *self)
{
  static const char *const parts[] = { "figures", "search", "lines-part" };
  GtkWidget *bench = gtk_stack_get_visible_child (self->bench);

  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      GtkWidget *part = cro_focus_find (bench, parts[i]);

      if (part != NULL && cro_focus_first (part))
        return;
    }
  /* Where there is nothing yet, the line that makes the first of it. */
  if (cro_ref_is_overview (self->now) && cro_focus_first (bench))
    return;
  if (!cro_window_is_list_seen (self) || !cro_focus_first (self->list_box))
    cro_focus_first (GTK_WIDGET (self->rail));
}

static void open_ref_cb (CroWindow *self, int kind, guint slot, int cause);

/* Made when it is first shown: a window comes up before most of them are needed. */
static CroBench *
bench_of (CroWindow *self,
          GType      type)
{
  GtkWidget *bench = gtk_stack_get_child_by_name (self->bench, g_type_name (type));

  if (bench != NULL)
    return CRO_BENCH (bench);
  bench = g_object_new (type, NULL);
  g_signal_connect_object (bench, "open-ref", G_CALLBACK (open_ref_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bench, "say", G_CALLBACK (cro_window_say), self, G_CONNECT_SWAPPED);
  cro_window_watch_trial (self, CRO_BENCH (bench));
  cro_bench_set_book (CRO_BENCH (bench), self->book);
  gtk_stack_add_named (self->bench, bench, g_type_name (type));
  return CRO_BENCH (bench);
}

static void
show_ref (CroWindow *self,
          CroRef     ref)
{
  Page page = page_of (self, ref);
  CroBench *bench = bench_of (self, page.bench);

  leave_bench (self);
  show_place (self, page.place);
  self->is_moving = TRUE;
  if (page.kind != CRO_N_KINDS)
    cro_place_list_select (self->list, page.kind, ref.slot);
  else if (self->page_lists[page.place] != NULL)
    cro_page_list_select (self->page_lists[page.place], ref);
  else if (cro_ref_is_overview (ref))
    cro_place_list_select_all (self->list);
  if (page.place == CRO_PLACE_MONTHS)
    cro_month_list_select (self->months, ref.slot);
  self->is_moving = FALSE;
  self->now = ref;
  cro_bench_put (bench, ref.slot);
  gtk_stack_set_visible_child (self->bench, GTK_WIDGET (bench));
  cro_window_restore_texts (self);
  cro_window_update_trial (self);
  cro_window_update_undo (self);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.back", self->before->len > 0);
}

void
cro_window_show_again (CroWindow *self)
{
  GtkWidget *lines;

  show_ref (self, self->now);
  cro_place_list_tell (self->list);
  lines = cro_focus_find (gtk_stack_get_visible_child (self->bench), "lines-part");
  if (lines == NULL || !cro_focus_first (lines))
    cro_window_focus_harmless (self);
}

static void
remember_visit (CroWindow *self)
{
  Visit visit = { .ref = self->now, .is_trial = cro_window_has_trial (self, self->now) };

  /* Nothing stands on the bench before the first. */
  if (self->now.kind == CRO_REF_NONE)
    return;
  visit.way = cro_focus_dup_way (gtk_stack_get_visible_child (self->bench));
  visit.scrolled = cro_window_get_scrolled (self);
  g_array_append_val (self->before, visit);
}

void
cro_window_open_ref (CroWindow *self,
                     CroRef     ref)
{
  if (ref.kind == CRO_REF_HOUSE)
    {
      cro_window_open_settings (self, CRO_NO_CAUSE);
      return;
    }
  /* What was just made is in the lists before one of them chooses it. */
  cro_book_tell (self->book);
  ref = resolve (cro_book_get_model (self->book), ref);
  if (page_of (self, ref).bench == G_TYPE_INVALID)
    return;
  /* It may have gone while something that leads to it was open. */
  if (!cro_window_is_alive (cro_book_get_model (self->book), ref))
    {
      cro_window_say (self, _("This is no longer in the book."));
      return;
    }
  if (ref.kind == self->now.kind && ref.slot == self->now.slot)
    return;
  remember_visit (self);
  show_ref (self, ref);
  cro_window_scroll_to_top (self);
}

/* What leads to a thing from another one: the focus goes to what is missing there. */
static void
open_ref_cb (CroWindow *self,
             int        kind,
             guint      slot,
             int        cause)
{
  CroRef before = self->now;
  CroBench *bench;

  if (kind == CRO_REF_HOUSE)
    {
      cro_window_open_settings (self, cause);
      return;
    }
  cro_window_open_ref (self, CRO_REF ((CroRefKind) kind, slot));
  if (cro_ref_equal (self->now, before) && cause == CRO_NO_CAUSE)
    return;
  bench = CRO_BENCH (gtk_stack_get_visible_child (self->bench));
  if (cause != CRO_NO_CAUSE && CRO_BENCH_GET_CLASS (bench)->ask != NULL)
    CRO_BENCH_GET_CLASS (bench)->ask (bench, cause);
  if (!cro_cure_focus (GTK_WIDGET (bench), cause))
    cro_window_focus_harmless (self);
}

/* What was left may be cured, and gone: then the next line is typed, not into a figure beside it. */
static void
focus_again (CroWindow  *self,
             const char *way)
{
  GtkWidget *bench = gtk_stack_get_visible_child (self->bench);
  GtkWidget *quick = cro_focus_leads (bench, way) ? NULL : cro_focus_find (bench, "quick");

  if (quick == NULL || !cro_focus_first (quick))
    cro_focus_go (bench, way);
  /* Whoever comes back looks for where it was. */
  gtk_window_set_focus_visible (GTK_WINDOW (self), TRUE);
}

/* To what was left last and is still there. FALSE: nothing is. */
static gboolean
go_back (CroWindow *self,
         gboolean   is_asked)
{
  CroModel *model = cro_book_get_model (self->book);

  while (self->before->len > 0)
    {
      Visit visit = g_array_index (self->before, Visit, self->before->len - 1);
      g_autofree char *way = g_strdup (visit.way);

      g_array_set_size (self->before, self->before->len - 1);
      if (!cro_window_is_alive (model, visit.ref))
        continue;
      /* Nothing was tried in it: it went as one left, and is there again for whoever comes back. */
      if (visit.is_trial && !cro_window_has_trial (self, visit.ref) && !cro_book_is_past (self->book, NULL))
        cro_window_begin_trial (self, visit.ref);
      show_ref (self, visit.ref);
      if (way != NULL)
        focus_again (self, way);
      /* Whoever asks to go back finds page and list as they were. */
      if (is_asked)
        cro_window_scroll_back (self, visit.scrolled);
      return TRUE;
    }
  return FALSE;
}

static void
back_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  if (self->book != NULL)
    go_back (self, TRUE);
}

void
cro_window_leave_gone (CroWindow *self)
{
  self->now = CRO_REF_NOWHERE;
  if (!go_back (self, FALSE))
    cro_window_go_to_place (self, self->place);
  if (gtk_window_get_focus (GTK_WINDOW (self)) == NULL)
    cro_window_focus_harmless (self);
}

static CroRef
ref_of_kind (CroKind kind,
             guint32 slot)
{
  static const CroRefKind refs[CRO_N_KINDS] = {
    [CRO_KIND_INGREDIENT] = CRO_REF_ITEM, [CRO_KIND_OUTPUT] = CRO_REF_ITEM,
    [CRO_KIND_PREPARATION] = CRO_REF_RECIPE, [CRO_KIND_PLATE] = CRO_REF_RECIPE,
    [CRO_KIND_MENU] = CRO_REF_MENU,
  };

  return CRO_REF (refs[kind], slot);
}

void
cro_window_open_kind (CroWindow *self,
                      CroKind    kind,
                      guint32    slot)
{
  cro_window_open_ref (self, ref_of_kind (kind, slot));
}

static void
chosen_cb (CroWindow *self,
           int        kind,
           guint      slot)
{
  if (!self->is_moving)
    cro_window_open_kind (self, (CroKind) kind, slot);
}

static void
month_cb (CroWindow *self,
          guint      slot)
{
  if (!self->is_moving)
    cro_window_open_ref (self, CRO_REF (slot == CRO_NO_SLOT ? CRO_REF_SALES : CRO_REF_MONTH, slot));
}

static CroRef
first_page_of (CroPlace place)
{
  return CRO_REF (cro_place_get (place)->first, CRO_NO_SLOT);
}

static void
all_cb (CroWindow *self)
{
  if (!self->is_moving)
    cro_window_open_ref (self, first_page_of (self->place));
}

/* The first thing of a place, as nothing there was chosen yet; where there is none, the page that
 * says so. */
static CroRef
first_of (CroWindow *self,
          CroPlace   place)
{
  CroKind kind;
  guint32 slot;

  if (cro_place_get (place)->all == NULL)
    return first_page_of (place);
  cro_place_list_set_place (self->list, place);
  if (cro_place_list_get_first (self->list, &kind, &slot)
      && page_of (self, ref_of_kind (kind, slot)).bench != G_TYPE_INVALID)
    return ref_of_kind (kind, slot);
  return first_page_of (place);
}

/* What was open there may stand elsewhere since: a plate can become a preparation. */
void
cro_window_go_to_place (CroWindow *self,
                        CroPlace   place)
{
  CroRef left = cro_window_left_at (self, place);

  if (left.kind == CRO_REF_NONE || page_of (self, left).place != place)
    left = first_of (self, place);
  cro_window_open_ref (self, left);
}

void
cro_window_focus_place (CroWindow *self)
{
  if (cro_window_is_list_seen (self))
    cro_window_focus_list (self);
  else
    cro_window_focus_table (self);
  /* A list may be empty. */
  if (gtk_window_get_focus (GTK_WINDOW (self)) == NULL)
    cro_window_focus_harmless (self);
}

static void
place_activated_cb (CroWindow     *self,
                    GtkListBoxRow *row)
{
  CroPlace place = (CroPlace) gtk_list_box_row_get_index (row);

  if (self->book == NULL)
    return;
  /* From a thing the place that it is of leads to the page of all. */
  if (place == self->place)
    cro_window_open_ref (self, first_page_of (place));
  else
    cro_window_go_to_place (self, place);
  cro_window_focus_place (self);
}

static void
go_to_place_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  CroPlace place = (CroPlace) g_variant_get_int32 (parameter);

  if (self->book == NULL)
    return;
  if (place != self->place)
    cro_window_go_to_place (self, place);
  cro_window_focus_place (self);
}

/* --- Where the next line is typed ------------------------------------------------------------------- */

void
cro_window_focus_next_line (CroWindow *self)
{
  GtkWidget *quick = cro_focus_find (GTK_WIDGET (self->bench), "quick");

  if (quick != NULL)
    gtk_widget_grab_focus (quick);
}

/* --- The window ---------------------------------------------------------------------------------------- */

static void
fill_rail (CroWindow *self)
{
  for (int place = 0; place < CRO_N_PLACES; place++)
    {
      GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
      GtkWidget *label = gtk_label_new (_(cro_place_get (place)->name));
      GtkWidget *row = gtk_list_box_row_new ();

      gtk_box_append (GTK_BOX (box), gtk_image_new_from_icon_name (cro_place_get (place)->icon));
      gtk_box_append (GTK_BOX (box), label);
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
      cro_spoken_set (row, _(cro_place_get (place)->name));
      gtk_list_box_append (self->rail, row);
    }
}

void
cro_window_install_places (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.back", NULL, back_cb);
  gtk_widget_class_install_action (widget_class, "win.place", "i", go_to_place_cb);
  gtk_widget_class_bind_template_callback (widget_class, all_cb);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, month_cb);
  gtk_widget_class_bind_template_callback (widget_class, place_activated_cb);
}

void
cro_window_add_places (CroWindow *self)
{
  self->before = g_array_new (FALSE, FALSE, sizeof (Visit));
  g_array_set_clear_func (self->before, clear_visit);
  self->now = CRO_REF_NOWHERE;
  fill_rail (self);
}

gboolean
cro_window_can_show (CroWindow *self,
                     CroRef     ref)
{
  return cro_window_is_alive (cro_book_get_model (self->book), ref)
         && page_of (self, ref).bench != G_TYPE_INVALID;
}
