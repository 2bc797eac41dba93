#include "config.h"

#include "cro-service-page.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-beside.h"
#include "cro-cards.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-file-choice.h"
#include "cro-focus.h"
#include "cro-headed.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-office-service.h"
#include "cro-plan-words.h"
#include "cro-print-text.h"
#include "cro-reason.h"
#include "cro-room.h"
#include "cro-service-entry.h"
#include "cro-service-lists.h"
#include "cro-service-orders.h"
#include "cro-spoken.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Services that are offered by name: further ones are reached by their date. */
#define MOST_KNOWN 20

/* The width of covers beside what they ask for. */
#define COVERS_CHARS 45

struct _CroServicePage
{
  GtkWidget        parent_instance;

  GtkWidget       *box;
  GtkWidget       *date;
  GtkWidget       *service;
  GtkWidget       *known;
  GMenu           *services;   /* those that the book has */
  GMenu           *orders;     /* texts that can be copied */
  GtkWidget       *sums;
  GtkWidget       *allowance;  /* what is in amounts, and in those of kitchen cards is not */
  GtkWidget       *past;       /* why nothing can be entered */
  GtkWidget       *reason;
  CroServiceEntry *entry;
  CroServiceLists *lists;

  CroBench        *bench;      /* borrowed */
  CroDate          day;
  char            *name;       /* NULL: no book was shown yet */
  CroServicePlan  *plan;       /* NULL: nothing is planned, or it is being made */
  guint            later;
};

G_DEFINE_FINAL_TYPE (CroServicePage, cro_service_page, GTK_TYPE_WIDGET)

/* What can be printed and copied. */
enum
{
  ALL_SHEETS = -3,
  MAKE_SHEET = -2,
  ALL_ORDERS = -1,   /* an order by itself: its number */
};

static CroBook *
book_of (CroServicePage *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- The plan --------------------------------------------------------------------------------- */

/* A plan holds figures of the book, so that one from before it moved is of no use. */
static void
make_plan (CroServicePage *self)
{
  const CroService *service = cro_service_entry_get (self->entry);

  g_clear_pointer (&self->plan, cro_service_plan_free);
  if (service->covers->len > 0)
    self->plan = cro_service_plan_new (book_of (self), service, NULL);
  if (self->plan != NULL && !self->plan->is_finite)
    g_clear_pointer (&self->plan, cro_service_plan_free);
  if (self->plan != NULL)
    cro_service_plan_sort_for_reader (self->plan);
}

/* Where nobody entered minutes 0 is none. */
static char *
dup_minutes (const CroServicePlan *plan)
{
  g_autofree char *number = cro_number_to_text (plan->minutes, 0, TRUE);
  g_autofree char *minutes = cro_words_known (plan->known_minutes, number);

  if (plan->minutes > 0 || plan->known_minutes != CRO_KNOWN_WHOLE)
    /* Translators: minutes of work; a sentence follows. */
    return g_strdup_printf (_("Minutes: %s. "), minutes);
  return g_strdup (plan->make->len > 0 ? _("No minutes of work entered. ") : "");
}

/* packs, recipes, from and to are money; minutes a sentence, from and to NULL where guests have no choice. */
static char *
dup_told (const char *minutes,
          const char *packs,
          const char *recipes,
          const char *from,
          const char *to)
{
  g_autofree char *range = NULL;

  if (from != NULL)
    /* Translators: money: what the recipes cost if all guests choose the cheapest, and the dearest. */
    range = g_strdup_printf (_(" By the guests’ choices: %s to %s."), from, to);
  /* Translators: money of whole packs, and of what the recipes take; a sentence goes before and follows. */
  return g_strdup_printf (_("%sAll packs: %s. By the recipes: %s.%s"), minutes, packs, recipes,
                          range != NULL ? range : "");
}

static char *
dup_sums (CroServicePage *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  CroServicePlan *plan = self->plan;
  g_autofree char *minutes = dup_minutes (plan);
  g_autofree char *packs = cro_words_known_money (model, plan->known_cost, plan->cost);
  g_autofree char *recipes = cro_words_known_money (model, plan->known_theoretical, plan->theoretical);
  g_autofree char *from = NULL, *to = NULL;

  if (!isnan (plan->cheapest))
    {
      from = cro_words_known_money (model, plan->known_theoretical, plan->cheapest);
      to = cro_words_known_money (model, plan->known_theoretical, plan->dearest);
      if (g_str_equal (from, to))
        g_clear_pointer (&from, g_free);
    }
  return dup_told (minutes, packs, recipes, from, to);
}

/* The longest of those that are usual: a service of some hundred covers, with prices that are missing. */
static char *
dup_most_sums (void)
{
  const CroServicePlan most = { .minutes = 8888, .known_minutes = CRO_KNOWN_WHOLE };
  g_autofree char *minutes = dup_minutes (&most);
  g_autofree char *number = cro_number_to_text (88888.88, 2, TRUE);
  g_autofree char *money = cro_words_known (CRO_KNOWN_AT_LEAST, number);

  return dup_told (minutes, money, money, money, money);
}

static void
offer_texts (CroServicePage *self)
{
  g_menu_remove_all (self->orders);
  g_menu_append (self->orders, _("All Orders"), "service.copy(-1)");
  g_menu_append (self->orders, _("Mise-en-Place Sheet"), "service.copy(-2)");
  for (guint i = 0; self->plan != NULL && i < self->plan->orders->len; i++)
    {
      const CroPlanOrder *order = &g_array_index (self->plan->orders, CroPlanOrder, i);
      g_autofree char *action = g_strdup_printf ("service.copy(%u)", i);

      if (cro_plan_order_is_free (order))
        continue;
      g_menu_append (self->orders,
                     g_array_index (cro_book_get_model (book_of (self))->suppliers, CroSupplier, order->supplier)
                         .name,
                     action);
    }
}

static void
show_plan (CroServicePage *self)
{
  static const char *const actions[] = { "service.print", "service.pdf", "service.spreadsheet",
                                         "service.copy" };
  g_autofree char *sums = NULL, *allowance = NULL;

  make_plan (self);
  if (self->plan != NULL)
    allowance = cro_words_plan_allowance (cro_book_get_model (book_of (self)),
                                          cro_service_entry_get (self->entry));
  sums = self->plan != NULL
             ? dup_sums (self)
             : g_strdup (cro_service_entry_get (self->entry)->covers->len > 0
                             ? _("An amount or a cost is too large to show. Check covers and amounts.")
                             : _("No covers yet."));
  gtk_label_set_label (GTK_LABEL (self->sums), sums);
  gtk_label_set_label (GTK_LABEL (self->allowance), allowance != NULL ? allowance : "");
  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), actions[i], self->plan != NULL);
  offer_texts (self);
  cro_service_lists_set (self->lists, self->plan);
  /* Of no covers there is room for them beside the fields, and of some there may be none. */
  gtk_widget_set_visible (GTK_WIDGET (self->lists), self->plan != NULL);
}

static gboolean
later_cb (gpointer user_data)
{
  CroServicePage *self = user_data;

  self->later = 0;
  show_plan (self);
  return G_SOURCE_REMOVE;
}

/* Behind keys and frames. */
static void
queue_plan (CroServicePage *self)
{
  if (self->name != NULL)
    cro_bench_defer (self->bench, &self->later, G_PRIORITY_LOW, later_cb, self);
}

/* --- Sheets ----------------------------------------------------------------------------------- */

/* What is typed and waits for its plan counts too. */
static gboolean
has_plan (CroServicePage *self)
{
  if (self->later != 0)
    {
      g_clear_handle_id (&self->later, g_source_remove);
      show_plan (self);
    }
  return self->plan != NULL;
}

static CroServiceSheet
sheet_of (CroServicePage *self)
{
  return (CroServiceSheet){ self->plan, cro_service_entry_get (self->entry), self->name, self->day };
}

/* NULL-terminated; owned. */
static GPtrArray *
texts_of (CroServicePage *self,
          int             which)
{
  CroServiceSheet sheet = sheet_of (self);
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);

  if (which == MAKE_SHEET || which == ALL_SHEETS)
    g_ptr_array_add (texts, cro_words_make_sheet (&sheet));
  if (which == ALL_ORDERS || which == ALL_SHEETS)
    g_ptr_array_extend_and_steal (texts, cro_words_order_sheets (&sheet));
  else if (which >= 0 && (guint) which < self->plan->orders->len)
    g_ptr_array_add (texts, cro_words_order_sheet (
                                &sheet, &g_array_index (self->plan->orders, CroPlanOrder, (guint) which)));
  g_ptr_array_add (texts, NULL);
  return texts;
}

static void
copy_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *which)
{
  CroServicePage *self = CRO_SERVICE_PAGE (widget);
  g_autoptr (GPtrArray) texts = NULL;
  g_autofree char *all = NULL;

  if (!has_plan (self))
    return;
  texts = texts_of (self, g_variant_get_int32 (which));
  all = g_strjoinv ("\n", (char **) texts->pdata);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (widget), all);
  cro_bench_say (self->bench, _("Copied. Paste it into a message."));
}

static void
print (CroServicePage *self,
       int             which,
       const char     *path)
{
  g_autoptr (GPtrArray) texts = texts_of (self, which);
  CroServiceSheet sheet = sheet_of (self);
  g_autofree char *title = cro_words_service (&sheet);
  g_autoptr (GError) error = NULL;

  if (texts->len < 2)
    cro_bench_say (self->bench, _("There is nothing to print."));
  else if (!cro_print_text (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), title,
                            cro_cards_size (book_of (self)),
                            (const char *const *) texts->pdata, path, cro_date_to_seconds (sheet.day), &error))
    cro_bench_fail (self->bench, error);
}

static void
print_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *which)
{
  if (has_plan (CRO_SERVICE_PAGE (widget)))
    print (CRO_SERVICE_PAGE (widget), g_variant_get_int32 (which), NULL);
}

static void
spreadsheet_chosen_cb (gpointer    page,
                       const char *path)
{
  CroServicePage *self = page;
  g_autoptr (GError) error = NULL;
  CroServiceSheet sheet;

  if (!has_plan (self))
    return;
  sheet = sheet_of (self);
  if (!cro_office_write_service (&sheet, path, NULL, &error))
    cro_bench_fail (self->bench, error);
}

static void
pdf_chosen_cb (gpointer    page,
               const char *path)
{
  if (has_plan (page))
    print (page, ALL_SHEETS, path);
}

static void
ask_file (CroServicePage *self,
          const char     *suffix,
          CroFileChosen   chosen)
{
  char day[CRO_DATE_CHARS];
  g_autofree char *name = NULL;
  CroFileChoice choice = {
    .title = _("Save the Sheets of a Service"),
    .action = GTK_FILE_CHOOSER_ACTION_SAVE,
  };

  cro_date_format (self->day, day);
  choice.name = name = g_strdelimit (g_strdup_printf ("%s %s.%s", day, self->name, suffix), "/", '-');
  cro_file_choice_ask (&choice, GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), chosen, self);
}

static void
pdf_cb (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  ask_file (CRO_SERVICE_PAGE (widget), "pdf", pdf_chosen_cb);
}

static void
spreadsheet_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  ask_file (CRO_SERVICE_PAGE (widget), "xlsx", spreadsheet_chosen_cb);
}

/* --- Which service ---------------------------------------------------------------------------- */

static void
show_day (CroServicePage *self)
{
  g_autofree char *date = cro_date_to_text (self->day);

  cro_entry_put (GTK_WIDGET (self->date), date);
  cro_entry_put (GTK_WIDGET (self->service), self->name);
  cro_reason_say (self->reason, self->date, NULL);
  cro_service_entry_put (self->entry, self->day, self->name);
  queue_plan (self);
}

static void
put_day (CroServicePage *self,
         CroDate         day,
         const char     *name)
{
  g_autofree char *kept = g_strstrip (g_strdup (name));

  if (*kept == '\0' || (self->day == day && g_strcmp0 (self->name, kept) == 0))
    return;
  self->day = day;
  g_free (self->name);
  self->name = g_steal_pointer (&kept);
  show_day (self);
}

static void
day_typed_cb (CroServicePage *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->date));
  g_auto (CroEntry) read = { 0 };
  g_autofree char *reason = NULL;

  if (self->name == NULL)
    return;
  if (cro_entry_date (text, &read))
    put_day (self, read.date, gtk_editable_get_text (GTK_EDITABLE (self->service)));
  else
    reason = read.status == CRO_ENTRY_EMPTY ? g_strdup (_("Type a date."))
                                            : cro_words_entry_reason (text, &read);
  cro_reason_say (self->reason, self->date, reason);
}

static void
day_activate_cb (CroServicePage *self)
{
  day_typed_cb (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
}

/* "2026-11-28/dinner". */
static void
open_day_cb (GtkWidget  *widget,
             const char *action,
             GVariant   *which)
{
  CroServicePage *self = CRO_SERVICE_PAGE (widget);
  const char *text = g_variant_get_string (which, NULL);
  const char *slash = strchr (text, '/');
  CroDate day;

  if (slash == NULL || !cro_date_parse (text, (gsize) (slash - text), &day))
    return;
  put_day (self, day, slash + 1);
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
}

/* The name of the latest service is that of the next one. */
static void
offer_services (CroServicePage *self)
{
  g_autoptr (GArray) all = cro_services_list (book_of (self), NULL);
  gboolean is_past = cro_book_is_past (book_of (self), NULL);

  g_menu_remove_all (self->services);
  for (guint i = 0; all != NULL && i < MIN (all->len, MOST_KNOWN); i++)
    {
      const CroServiceDay *one = &g_array_index (all, CroServiceDay, i);
      g_autofree char *date = cro_date_to_text (one->date);
      g_autofree char *label = cro_isolate_printf (_("%s, %s"), one->name, date);
      g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);
      char day[CRO_DATE_CHARS];

      cro_date_format (one->date, day);
      g_menu_item_set_action_and_target_value (
          item, "service.open", g_variant_new_take_string (g_strdup_printf ("%s/%s", day, one->name)));
      g_menu_append_item (self->services, item);
    }
  gtk_widget_set_sensitive (self->known, all != NULL && all->len > 0);
  gtk_widget_set_visible (self->past, is_past);
  if (self->name == NULL)
    put_day (self, is_past ? cro_book_get_figures (book_of (self))->date : cro_here_today (),
             all != NULL && all->len > 0 ? g_array_index (all, CroServiceDay, 0).name : _("dinner"));
}

/* --- For the overview ------------------------------------------------------------------------- */

void
cro_service_page_set_book (GtkWidget *page,
                           CroBook   *book)
{
  CroServicePage *self = CRO_SERVICE_PAGE (page);

  g_clear_pointer (&self->plan, cro_service_plan_free);
  g_clear_pointer (&self->name, g_free);
  offer_services (self);
}

void
cro_service_page_refresh (GtkWidget *page)
{
  CroServicePage *self = CRO_SERVICE_PAGE (page);

  g_clear_pointer (&self->plan, cro_service_plan_free);
  offer_services (self);
  cro_service_entry_refresh (self->entry);
  queue_plan (self);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_service_page_dispose (GObject *object)
{
  CroServicePage *self = CRO_SERVICE_PAGE (object);

  g_clear_handle_id (&self->later, g_source_remove);
  g_clear_pointer (&self->plan, cro_service_plan_free);
  g_clear_pointer (&self->name, g_free);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->services);
  g_clear_object (&self->orders);
  G_OBJECT_CLASS (cro_service_page_parent_class)->dispose (object);
}

static gboolean
cro_service_page_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (CRO_SERVICE_PAGE (widget)->entry));
}

static void
cro_service_page_class_init (CroServicePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_service_page_dispose;
  widget_class->focus = cro_focus_within;
  widget_class->grab_focus = cro_service_page_grab_focus;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "service.copy", "i", copy_cb);
  gtk_widget_class_install_action (widget_class, "service.print", "i", print_cb);
  gtk_widget_class_install_action (widget_class, "service.pdf", NULL, pdf_cb);
  gtk_widget_class_install_action (widget_class, "service.spreadsheet", NULL, spreadsheet_cb);
  gtk_widget_class_install_action (widget_class, "service.open", "s", open_day_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_p, GDK_CONTROL_MASK, "service.print", "i",
                                       ALL_SHEETS);
}

static GtkWidget *
menu_button_new (const char *label,
                 GMenu      *menu)
{
  GtkWidget *button = gtk_menu_button_new ();

  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), label);
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  cro_spoken_set (button, label);
  return button;
}

static GtkWidget *
print_button_new (void)
{
  g_autoptr (GMenu) menu = g_menu_new ();

  g_menu_append (menu, _("All Sheets…"), "service.print(-3)");
  g_menu_append (menu, _("Mise-en-Place Sheet…"), "service.print(-2)");
  g_menu_append (menu, _("Order Sheets…"), "service.print(-1)");
  g_menu_append (menu, _("As PDF…"), "service.pdf");
  g_menu_append (menu, _("As Spreadsheet…"), "service.spreadsheet");
  return menu_button_new (_("Print"), menu);
}

static void
follow_day (CroServicePage *self,
            GtkWidget      *entry)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_widget_add_controller (entry, focus);
  g_signal_connect_object (focus, "leave", G_CALLBACK (day_typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (entry, "activate", G_CALLBACK (day_activate_cb), self, G_CONNECT_SWAPPED);
}

/* What is said of any service has its room before its first covers: of one with choices of guests, under any of
 * which a plate is seasoned. */
static GtkWidget *
told_new (CroServicePage *self)
{
  GtkWidget *told = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *sample = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  g_autofree char *sums = dup_most_sums ();

  self->sums = cro_text_new ("", "heading");
  self->allowance = cro_text_new (NULL, "caption");
  gtk_box_append (GTK_BOX (told), self->sums);
  gtk_box_append (GTK_BOX (told), self->allowance);
  gtk_box_append (GTK_BOX (sample), cro_text_new (sums, "heading"));
  gtk_box_append (GTK_BOX (sample), cro_text_new ("", "caption"));
  return cro_room_new (told, sample);
}

static GtkWidget *
head_new (CroServicePage *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *row = cro_wrap_new (9, 6);

  self->date = cro_entry_new (_("Date of the service"), cro_date_chars ());
  self->service = cro_entry_new (_("Service, for example lunch or dinner"), 9);
  self->services = g_menu_new ();
  self->orders = g_menu_new ();
  self->known = menu_button_new (_("Open"), self->services);
  cro_spoken_set (self->known, _("Open a service"));
  self->past = cro_text_new (cro_words_past (), "caption");
  self->reason = cro_text_new ("", "reason");
  follow_day (self, self->date);
  follow_day (self, self->service);
  cro_wrap_append (CRO_WRAP (row), self->date);
  cro_wrap_append (CRO_WRAP (row), self->service);
  cro_wrap_append (CRO_WRAP (row), self->known);
  cro_wrap_append (CRO_WRAP (row), print_button_new ());
  cro_wrap_append (CRO_WRAP (row), menu_button_new (_("Copy for a Message"), self->orders));
  gtk_box_append (GTK_BOX (head), row);
  gtk_box_append (GTK_BOX (head), self->past);
  gtk_widget_set_visible (self->reason, FALSE);
  gtk_box_append (GTK_BOX (head), self->reason);
  gtk_box_append (GTK_BOX (head), told_new (self));
  return head;
}

static void
cro_service_page_init (CroServicePage *self)
{
}

GtkWidget *
cro_service_page_new (CroBench *bench)
{
  CroServicePage *self = g_object_new (CRO_TYPE_SERVICE_PAGE, NULL);
  GtkWidget *entry = cro_service_entry_new (bench), *lists = cro_service_lists_new (bench);
  GtkWidget *body;

  self->bench = bench;
  self->entry = CRO_SERVICE_ENTRY (entry);
  self->lists = CRO_SERVICE_LISTS (lists);
  g_signal_connect_object (entry, "moved", G_CALLBACK (queue_plan), self, G_CONNECT_SWAPPED);
  body = cro_beside_new (entry, lists);
  cro_beside_set_page_chars (CRO_BESIDE (body), COVERS_CHARS);
  self->box = cro_headed_new (head_new (self), body);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
