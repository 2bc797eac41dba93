#include "config.h"

#include "cro-market-today.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-cause.h"
#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-here.h"
#include "cro-kind.h"
#include "cro-last-price.h"
#include "cro-link-list.h"
#include "cro-market-day.h"
#include "cro-market-open.h"
#include "cro-number.h"
#include "cro-over-list.h"
#include "cro-overview.h"
#include "cro-price-list.h"
#include "cro-price-moves.h"
#include "cro-sold.h"
#include "cro-supplier-days.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Rows of a section; the rest is a page away. */
#define MOST 6

struct _CroMarketToday
{
  CroBench       parent_instance;

  GtkWidget     *title;
  GtkWidget     *pages;       /* "nothing" or "day" */
  GtkWidget     *days;        /* of suppliers */
  GtkWidget     *over;
  GtkWidget     *moved;
  GtkWidget     *missing;
  GtkWidget     *old_box;
  GtkWidget     *old;
  GtkWidget     *here;        /* where lists are dropped */
  GtkWidget     *paste;       /* its button */
  CroBook       *shown;       /* weak */
  guint64        edition;     /* of the book when all was read */
  CroDate        date;        /* of the figures then */
  char          *taken;       /* a file or a text that waits for its supplier */
  gboolean       is_file;
};

G_DEFINE_FINAL_TYPE (CroMarketToday, cro_market_today, CRO_TYPE_BENCH)

static CroBook *
book_of (CroMarketToday *self)
{
  return cro_bench_get_book (CRO_BENCH (self));
}

static CroFigures *
figures_of (CroMarketToday *self)
{
  return cro_book_get_figures (book_of (self));
}

/* --- Prices --------------------------------------------------------------------------------------- */

static double
weight_of (const CroPriceMove *move)
{
  return isnan (move->money) ? isnan (move->change_pct) ? 0 : fabs (move->change_pct) : fabs (move->money);
}

static int
compare_moves (gconstpointer a,
               gconstpointer b)
{
  double x = weight_of (*(const CroPriceMove *const *) a), y = weight_of (*(const CroPriceMove *const *) b);

  return x > y ? -1 : x < y;
}

/* "+6.1 %, +12.40 in 28 days". Owned. */
static char *
dup_move (CroModel           *model,
          const CroPriceMove *move)
{
  g_autofree char *change = cro_words_change (move->change_pct);
  g_autofree char *added = cro_words_added (model, move->money), *money = NULL;

  if (isnan (move->money) && move->known == CRO_KNOWN_WHOLE)
    return g_steal_pointer (&change);
  money = cro_words_known (isnan (move->money) ? CRO_KNOWN_NOTHING : move->known, added);
  /* Translators: a price change in per cent, and what it adds to the food cost of all that was sold in the
   * last 28 days of sales. */
  return g_strdup_printf (_("%s, %s on 28 days’ sales"), change, money);
}

static void
show_moved (CroMarketToday *self,
            CroPricePast   *past)
{
  CroFigures *figures = figures_of (self);
  g_autoptr (CroPriceMoves) moves = cro_price_moves_new (book_of (self), past, figures->date - CRO_SOLD_DAYS, NULL);
  g_autoptr (GPtrArray) moved = g_ptr_array_new ();

  cro_link_list_begin (CRO_LINK_LIST (self->moved), _("Moved most in 28 days"), _("No price moved."));
  for (guint i = 0; moves != NULL && i < moves->items->len; i++)
    {
      const CroPriceMove *move = &g_array_index (moves->items, CroPriceMove, i);

      if (weight_of (move) > 0 && !isnan (move->change_pct))
        g_ptr_array_add (moved, (gpointer) move);
    }
  g_ptr_array_sort (moved, compare_moves);
  for (guint i = 0; i < MIN (moved->len, MOST); i++)
    {
      const CroPriceMove *move = moved->pdata[i];
      g_autofree char *words = dup_move (figures->model, move);

      cro_link_list_add (CRO_LINK_LIST (self->moved), CRO_REF (CRO_REF_ITEM, move->item), CRO_NO_CAUSE,
                         cro_model_item (figures->model, move->item)->name, words);
    }
  cro_link_list_end (CRO_LINK_LIST (self->moved), NULL);
}

/* What has a price may lack what that is converted by. */
static void
add_missing (CroMarketToday *self,
             CroFigures     *figures,
             guint32         item)
{
  g_autoptr (GArray) causes = cro_causes_of_item (figures, item);
  const CroCause *cause = causes->len > 0 ? &g_array_index (causes, CroCause, 0) : NULL;
  g_autofree char *lacks = cause != NULL && cause->kind != CRO_CAUSE_PRICE ? cro_words_cause (cause) : NULL;

  cro_link_list_add (CRO_LINK_LIST (self->missing), CRO_REF (CRO_REF_ITEM, item),
                     cause != NULL ? (int) cause->kind : CRO_NO_CAUSE, cro_model_item (figures->model, item)->name,
                     lacks != NULL ? lacks : _("set price"));
}

static void
show_missing (CroMarketToday     *self,
              const CroMarketDay *day)
{
  CroFigures *figures = figures_of (self);
  guint left = day->no_price->len - MIN (day->no_price->len, MOST) + day->last_price->len
               - MIN (day->last_price->len, MOST);
  g_autofree char *more = left > 0 ? g_strdup_printf (ngettext ("%u other: see All ingredients.",
                                                                "%u others: see All ingredients.", left),
                                                      left)
                                   : NULL;

  cro_link_list_begin (CRO_LINK_LIST (self->missing),
                       day->last_price->len > 0 ? _("No usable price, or not to be had") : _("No usable price"),
                       _("All ingredients in use have a price."));
  for (guint i = 0; i < MIN (day->no_price->len, MOST); i++)
    add_missing (self, figures, g_array_index (day->no_price, guint32, i));
  for (guint i = 0; i < MIN (day->last_price->len, MOST); i++)
    {
      guint32 item = g_array_index (day->last_price, guint32, i);
      g_autofree char *last = cro_words_last_price (figures, item);

      cro_link_list_add (CRO_LINK_LIST (self->missing), CRO_REF (CRO_REF_ITEM, item), CRO_NO_CAUSE,
                         cro_model_item (figures->model, item)->name, last != NULL ? last : "");
    }
  cro_link_list_end (CRO_LINK_LIST (self->missing), more);
}

static void
show_old (CroMarketToday     *self,
          const CroMarketDay *day)
{
  guint days = cro_kind_old_days (figures_of (self)->model);
  g_autofree char *n = cro_number_to_text (day->n_old, 0, TRUE);
  g_autofree char *text = g_strdup_printf (ngettext ("Prices older than %u day: %s", "Prices older than %u days: %s",
                                                     days),
                                           days, n);

  gtk_label_set_label (GTK_LABEL (self->old), text);
  gtk_widget_set_visible (self->old_box, day->n_old > 0);
}

/* --- The day ------------------------------------------------------------------------------------ */

static char *
dup_title (CroDate date)
{
  /* Translators: a day without its year, as Unicode's patterns of dates have it: "Saturday 28 November". */
  g_autofree char *text = cro_date_in_words (date, _("EEEE d MMMM"));

  /* Translators: the market's first page, with the day whose prices are shown. */
  return g_strdup_printf (date == cro_here_today () ? _("Today, %s") : _("Market, %s"), text);
}

static gboolean
has_suppliers (CroModel *model)
{
  for (guint i = 0; i < model->suppliers->len; i++)
    if (!g_array_index (model->suppliers, CroSupplier, i).is_dead)
      return TRUE;
  return FALSE;
}

static void
show_day (CroMarketToday *self)
{
  g_autoptr (CroPricePast) past = cro_price_past_new (book_of (self), NULL);
  g_autoptr (CroMarketDay) day = past != NULL ? cro_market_day_new (book_of (self), past) : NULL;
  g_autofree char *title = dup_title (figures_of (self)->date);

  gtk_label_set_label (GTK_LABEL (self->title), title);
  gtk_stack_set_visible_child_name (GTK_STACK (self->pages),
                                    has_suppliers (figures_of (self)->model) ? "day" : "nothing");
  gtk_widget_set_sensitive (self->here, !cro_book_is_past (book_of (self), NULL));
  if (day == NULL)
    return;
  cro_supplier_days_set (CRO_SUPPLIER_DAYS (self->days), day);
  cro_over_list_refresh (CRO_OVER_LIST (self->over));
  show_moved (self, past);
  show_missing (self, day);
  show_old (self, day);
}

static void
cro_market_today_refresh (CroBench *bench)
{
  CroMarketToday *self = CRO_MARKET_TODAY (bench);

  self->edition = cro_book_get_edition (book_of (self));
  self->date = figures_of (self)->date;
  show_day (self);
}

/* It is of no one thing, so nobody else tells it. */
static void
book_changed_cb (CroMarketToday *self)
{
  if (book_of (self) == self->shown && gtk_widget_get_mapped (GTK_WIDGET (self))
      && (self->edition != cro_book_get_edition (self->shown) || self->date != figures_of (self)->date))
    cro_market_today_refresh (CRO_BENCH (self));
}

static void
cro_market_today_show (CroBench *bench)
{
  CroMarketToday *self = CRO_MARKET_TODAY (bench);

  if (self->shown != book_of (self))
    {
      if (self->shown != NULL)
        g_signal_handlers_disconnect_by_data (self->shown, self);
      g_set_weak_pointer (&self->shown, book_of (self));
      g_signal_connect_object (self->shown, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
    }
  cro_over_list_look (CRO_OVER_LIST (self->over));
  cro_market_today_refresh (bench);
}

/* --- Lists that are dropped or pasted ------------------------------------------------------------ */

static void
take_for (CroMarketToday *self,
          guint32         supplier)
{
  g_autofree char *taken = g_steal_pointer (&self->taken);

  if (taken == NULL)
    return;
  if (self->is_file)
    cro_market_take_file (CRO_BENCH (self), supplier, taken);
  else
    cro_market_take_text (CRO_BENCH (self), supplier, taken);
}

static void
supplier_cb (GtkWidget *button,
             GtkWidget *popover)
{
  CroMarketToday *self = g_object_get_data (G_OBJECT (popover), "today");
  guint32 supplier = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "supplier"));

  gtk_popover_popdown (GTK_POPOVER (popover));
  take_for (self, supplier);
}

static GtkWidget *
suppliers_new (CroMarketToday *self,
               GtkWidget      *popover)
{
  CroModel *model = figures_of (self)->model;
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  gtk_box_append (GTK_BOX (box), cro_text_new (_("Whose list is it?"), NULL));
  for (guint32 slot = 0; slot < model->suppliers->len; slot++)
    {
      const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, slot);
      GtkWidget *button;

      if (supplier->is_dead)
        continue;
      button = cro_name_button_new ();
      cro_name_button_set (button, supplier->name);
      g_object_set_data (G_OBJECT (button), "supplier", GUINT_TO_POINTER (slot));
      g_signal_connect_object (button, "clicked", G_CALLBACK (supplier_cb), popover, 0);
      gtk_box_append (GTK_BOX (box), button);
    }
  return box;
}

static void
closed_cb (GtkWidget *popover)
{
  g_object_ref (popover);
  gtk_widget_unparent (popover);
  g_object_unref (popover);
}

/* It is asked whose list it is where nobody said so, by hand or in the list. Takes taken. */
static void
take (CroMarketToday *self,
      char           *taken,
      gboolean        is_file,
      guint32         supplier)
{
  GtkWidget *popover, *scroller;
  graphene_rect_t button;

  g_free (self->taken);
  self->taken = taken;
  self->is_file = is_file;
  if (supplier != CRO_NO_SLOT)
    {
      take_for (self, supplier);
      return;
    }
  popover = gtk_popover_new ();
  scroller = gtk_scrolled_window_new ();
  g_object_set_data (G_OBJECT (popover), "today", self);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), 320);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), suppliers_new (self, popover));
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  gtk_widget_set_parent (popover, self->here);
  if (gtk_widget_compute_bounds (self->paste, self->here, &button))
    gtk_popover_set_pointing_to (GTK_POPOVER (popover),
                                 &(GdkRectangle){ (int) button.origin.x, (int) button.origin.y,
                                                  (int) button.size.width, (int) button.size.height });
  g_signal_connect (popover, "closed", G_CALLBACK (closed_cb), NULL);
  gtk_popover_popup (GTK_POPOVER (popover));
}

static gboolean
drop_cb (CroMarketToday *self,
         const GValue   *value,
         double          x,
         double          y)
{
  graphene_point_t at = GRAPHENE_POINT_INIT ((float) x, (float) y);
  guint32 supplier = CRO_NO_SLOT;

  if (cro_book_is_past (book_of (self), NULL))
    return FALSE;
  if (gtk_widget_compute_point (GTK_WIDGET (self), self->days, &at, &at))
    supplier = cro_supplier_days_get_at (CRO_SUPPLIER_DAYS (self->days), at.x, at.y);
  if (G_VALUE_HOLDS (value, GDK_TYPE_FILE_LIST))
    {
      GSList *files = g_value_get_boxed (value);
      char *path = files != NULL ? g_file_get_path (files->data) : NULL;

      if (path != NULL && supplier == CRO_NO_SLOT)
        supplier = cro_price_list_find_seller (figures_of (self)->model, path);
      if (path != NULL)
        take (self, path, TRUE, supplier);
      return path != NULL;
    }
  if (supplier == CRO_NO_SLOT)
    supplier = cro_price_list_find_seller_of_text (figures_of (self)->model, g_value_get_string (value));
  take (self, g_value_dup_string (value), FALSE, supplier);
  return TRUE;
}

static void
read_cb (GObject      *clipboard,
         GAsyncResult *result,
         gpointer      data)
{
  g_autoptr (CroMarketToday) self = data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);
  guint32 supplier;

  if (text == NULL || *text == '\0')
    {
      cro_bench_say (CRO_BENCH (self), _("The clipboard holds no text."));
      return;
    }
  if (book_of (self) == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  supplier = cro_price_list_find_seller_of_text (figures_of (self)->model, text);
  if (supplier == CRO_NO_SLOT)
    supplier = cro_supplier_days_get_focused (CRO_SUPPLIER_DAYS (self->days));
  take (self, g_steal_pointer (&text), FALSE, supplier);
}

static void
paste_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroMarketToday *self = CRO_MARKET_TODAY (widget);

  if (!cro_book_is_past (book_of (self), NULL) && has_suppliers (figures_of (self)->model))
    gdk_clipboard_read_text_async (gtk_widget_get_clipboard (widget), NULL, read_cb, g_object_ref (self));
}

/* --- Elsewhere ----------------------------------------------------------------------------------- */

static void
service_cb (CroBench *bench)
{
  cro_overview_open (bench, CRO_REF_ALL_PLATES, CRO_VIEW_SERVICE);
}

static void
moves_cb (CroBench *bench)
{
  cro_bench_open (bench, CRO_REF (CRO_REF_PRICES, CRO_NO_SLOT));
}

static void
what_moved_cb (GtkWidget  *widget,
               const char *action,
               GVariant   *parameter)
{
  moves_cb (CRO_BENCH (widget));
}

/* The benches stand in one stack, where the page is seen then. */
static void
old_cb (CroBench *bench)
{
  GtkWidget *benches = gtk_widget_get_parent (GTK_WIDGET (bench));

  moves_cb (bench);
  if (GTK_IS_STACK (benches))
    gtk_widget_activate_action (gtk_stack_get_visible_child (GTK_STACK (benches)), "moves.old", NULL);
}

/* --- The bench ----------------------------------------------------------------------------------- */

static void
cro_market_today_dispose (GObject *object)
{
  CroMarketToday *self = CRO_MARKET_TODAY (object);

  g_clear_pointer (&self->taken, g_free);
  g_clear_weak_pointer (&self->shown);
  G_OBJECT_CLASS (cro_market_today_parent_class)->dispose (object);
}

static void
cro_market_today_class_init (CroMarketTodayClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_market_today_dispose;
  CRO_BENCH_CLASS (klass)->show = cro_market_today_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_market_today_refresh;
  gtk_widget_class_install_action (widget_class, "market.what-moved", NULL, what_moved_cb);
  gtk_widget_class_install_action (widget_class, "market.paste", NULL, paste_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_v, GDK_CONTROL_MASK, "market.paste", NULL);
}

static GtkWidget *
button_new (CroMarketToday *self,
            const char     *label,
            GCallback       clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  g_signal_connect_object (button, "clicked", clicked, self, G_CONNECT_SWAPPED);
  return button;
}

static GtkWidget *
nothing_new (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *button = gtk_button_new_with_label (_("Add Supplier"));
  GtkWidget *text = cro_text_new (_("No supplier yet: add the first, and type their prices as they are read to you."),
                                  "heading");

  gtk_label_set_xalign (GTK_LABEL (text), 0.5);
  gtk_label_set_justify (GTK_LABEL (text), GTK_JUSTIFY_CENTER);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.new-thing");
  gtk_widget_set_halign (button, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), text);
  gtk_box_append (GTK_BOX (box), button);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_vexpand (box, TRUE);
  gtk_widget_add_css_class (box, "part");
  return box;
}

/* The ways on from a section stand below it. */
static GtkWidget *
sections_new (CroMarketToday *self)
{
  GtkWidget *sections = cro_wrap_new (36, 18);
  GtkWidget *first = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);

  self->over = cro_over_list_new (CRO_BENCH (self));
  self->moved = cro_link_list_new (CRO_BENCH (self));
  self->missing = cro_link_list_new (CRO_BENCH (self));
  cro_link_list_append (CRO_LINK_LIST (self->moved), button_new (self, _("Price Movements"), G_CALLBACK (moves_cb)));
  self->old_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  self->old = cro_text_new ("", NULL);
  gtk_box_append (GTK_BOX (self->old_box), self->old);
  gtk_box_append (GTK_BOX (self->old_box), button_new (self, _("Show Old Prices"), G_CALLBACK (old_cb)));
  cro_link_list_append (CRO_LINK_LIST (self->missing), self->old_box);
  gtk_box_append (GTK_BOX (first), self->over);
  gtk_box_append (GTK_BOX (first), self->missing);
  cro_wrap_append (CRO_WRAP (sections), first);
  cro_wrap_append (CRO_WRAP (sections), self->moved);
  return sections;
}

static GtkWidget *
here_new (CroMarketToday *self)
{
  GtkWidget *box = cro_wrap_new (12, 6);
  GtkWidget *text = cro_text_new (_("Paste or drop any price list or invoice here, or on its supplier."), "dim-label");

  self->paste = gtk_button_new_with_label (_("Paste a List"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->paste), "market.paste");
  gtk_widget_set_valign (text, GTK_ALIGN_CENTER);
  cro_wrap_append (CRO_WRAP (box), self->paste);
  cro_wrap_append (CRO_WRAP (box), text);
  gtk_widget_add_css_class (box, "drop-here");
  gtk_widget_add_css_class (box, "part");
  self->here = box;
  return box;
}

static GtkWidget *
day_new (CroMarketToday *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);

  self->days = cro_supplier_days_new (CRO_BENCH (self));
  gtk_widget_add_css_class (self->days, "part");
  gtk_box_append (GTK_BOX (box), self->days);
  gtk_box_append (GTK_BOX (box),
                  cro_text_new (_("A list is due when as many days have passed since the last as lie between two lists "
                                  "of that supplier: the median of the last eight. Invoices and single prices are "
                                  "no lists."),
                                "dim-label"));
  gtk_box_append (GTK_BOX (box), here_new (self));
  gtk_box_append (GTK_BOX (box), sections_new (self));
  return box;
}

static void
add_drops (CroMarketToday *self)
{
  GType types[] = { GDK_TYPE_FILE_LIST, G_TYPE_STRING };
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);

  gtk_drop_target_set_gtypes (target, types, G_N_ELEMENTS (types));
  g_signal_connect_object (target, "drop", G_CALLBACK (drop_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}

static void
cro_market_today_init (CroMarketToday *self)
{
  GtkWidget *head = cro_wrap_new (18, 6);

  self->title = cro_heading_new ("");
  cro_wrap_append (CRO_WRAP (head), self->title);
  cro_wrap_append (CRO_WRAP (head), button_new (self, _("Plan a Service"), G_CALLBACK (service_cb)));
  self->pages = gtk_stack_new ();
  gtk_stack_set_hhomogeneous (GTK_STACK (self->pages), FALSE);
  gtk_stack_set_vhomogeneous (GTK_STACK (self->pages), FALSE);
  gtk_stack_add_named (GTK_STACK (self->pages), day_new (self), "day");
  gtk_stack_add_named (GTK_STACK (self->pages), nothing_new (), "nothing");
  add_drops (self);
  cro_bench_set_content (CRO_BENCH (self), head, self->pages);
}
