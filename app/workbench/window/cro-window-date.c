#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-entry.h"
#include "cro-here.h"
#include "cro-number.h"
#include "cro-spoken.h"

/* Two questions: today's book at another day's prices, and the book as it stood on that day. */

static gboolean
is_book_of_day (CroWindow *self)
{
  return gtk_check_button_get_active (GTK_CHECK_BUTTON (self->book_of_day));
}

static CroDate
day_of (GDateTime *day)
{
  return cro_date_from_civil (g_date_time_get_year (day), g_date_time_get_month (day),
                              g_date_time_get_day_of_month (day));
}

/* --- Saying it --------------------------------------------------------------------------------- */

static char *
dup_label (gboolean    is_today,
           gboolean    is_past,
           const char *day)
{
  if (is_past)
    /* Translators: the book as it stood on a day. */
    return g_strdup_printf (_("The book of %s"), day);
  /* Translators: today's book at the prices of a day. */
  return is_today ? g_strdup (_("Prices of today")) : g_strdup_printf (_("Prices of %s"), day);
}

static char *
dup_banner (gboolean    is_past,
            const char *day)
{
  return g_strdup_printf (is_past ? _("This is the book as it stood on %s, at the prices of that "
                                      "day. It can only be read.")
                                  : _("These are today’s recipes at the prices of %s. A price that "
                                      "you enter applies from that day, and today’s prices return."),
                          day);
}

static void
say_date (CroWindow *self)
{
  gboolean is_past = cro_book_is_past (self->book, NULL);
  CroDate day = cro_book_get_figures (self->book)->date;
  gboolean is_today = !is_past && day == cro_here_today ();
  g_autofree char *text = cro_date_to_text (day);
  g_autofree char *label = dup_label (is_today, is_past, text);
  g_autofree char *banner = dup_banner (is_past, text);

  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->date_button), label);
  cro_spoken_set (self->date_button, label);
  gtk_label_set_label (self->date_banner_label, banner);
  gtk_widget_set_visible (self->date_banner, !is_today);
}

/* The calendar tells of a day that it is given, too. */
static void
select_day (CroWindow *self)
{
  int year, month, day;
  g_autoptr (GDateTime) noon = NULL;

  cro_date_to_civil (self->day, &year, &month, &day);
  noon = g_date_time_new_local (year, month, day, 12, 0, 0);
  self->is_setting_date = TRUE;
  gtk_calendar_select_day (self->calendar, noon);
  self->is_setting_date = FALSE;
}

static void
choose_day (CroWindow *self,
            CroDate    day)
{
  self->day = day;
  if (self->calendar != NULL)
    select_day (self);
}

/* Which of the two questions is answered. */
static void
show_choice (CroWindow *self)
{
  self->is_setting_date = TRUE;
  gtk_check_button_set_active (GTK_CHECK_BUTTON (cro_book_is_past (self->book, NULL) ? self->book_of_day
                                                                                     : self->prices_of_day), TRUE);
  self->is_setting_date = FALSE;
}

/* --- Choosing ---------------------------------------------------------------------------------- */

static void
set_date (CroWindow *self,
          CroDate    date)
{
  g_autoptr (GError) error = NULL;

  if (cro_book_get_figures (self->book)->date != date
      && !cro_book_set_date (self->book, date, &error))
    cro_window_fail (self, error);
  say_date (self);
}

/* A book as it stood is another book: so is today's after it. It has stood on no day to come. */
static void
ask (CroWindow *self)
{
  CroDate date = self->day, day;
  gboolean wants_past = is_book_of_day (self) && date < cro_here_today ();

  if (self->book == NULL || self->is_setting_date)
    return;
  if (is_book_of_day (self) && date > cro_here_today ())
    {
      g_autofree char *text = cro_date_to_text (date);
      g_autofree char *says = g_strdup_printf (_("%s has not come yet; choose today or an earlier day."), text);

      cro_window_say (self, says);
      choose_day (self, cro_book_get_figures (self->book)->date);
      return;
    }
  if (!wants_past && !cro_book_is_past (self->book, NULL))
    set_date (self, date);
  else if (!wants_past || !cro_book_is_past (self->book, &day) || day != date)
    cro_window_open_day (self, date, wants_past);
}

static void
day_selected_cb (CroWindow *self)
{
  g_autoptr (GDateTime) day = NULL;

  if (self->is_setting_date)
    return;
  day = gtk_calendar_get_date (self->calendar);
  self->day = day_of (day);
  ask (self);
}

/* Whether what was asked for is shown. */
static gboolean
shows (CroWindow *self,
       CroDate    date)
{
  return self->book != NULL && cro_book_get_figures (self->book)->date == date
         && cro_book_is_past (self->book, NULL) == (is_book_of_day (self) && date < cro_here_today ());
}

static void
leave_popover (CroWindow *self)
{
  self->is_day_typed = FALSE;
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->date_button));
}

/* "16.11.2026" is quicker typed than found. */
static void
day_typed_cb (CroWindow *self,
              GtkWidget *entry)
{
  g_auto (CroEntry) read = { 0 };

  if (!cro_entry_date (gtk_editable_get_text (GTK_EDITABLE (entry)), &read))
    {
      cro_window_say (self, _("This is not a date; type it as 2026-11-28."));
      return;
    }
  choose_day (self, read.date);
  self->is_day_typed = TRUE;
  ask (self);
  if (shows (self, read.date))
    leave_popover (self);
}

/* What was chosen and is not shown is given up with it. */
static void
popover_closed_cb (CroWindow *self)
{
  self->is_day_typed = FALSE;
  if (self->book != NULL)
    show_choice (self);
}

static void
today_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->date_button));
  choose_day (self, cro_here_today ());
  ask (self);
}

/* --- A past date does not stay ----------------------------------------------------------------- */

static void
return_to_today (CroWindow *self)
{
  choose_day (self, cro_here_today ());
  set_date (self, cro_here_today ());
  cro_window_say (self, _("Prices are today’s again"));
}

static gboolean
is_other_day (CroWindow *self)
{
  return self->book != NULL && !cro_book_is_past (self->book, NULL)
         && cro_book_get_figures (self->book)->date != cro_here_today ();
}

void
cro_window_leave_date (CroWindow *self)
{
  if (is_other_day (self))
    return_to_today (self);
}

static gboolean
return_cb (gpointer user_data)
{
  CroWindow *self = user_data;

  self->today_id = 0;
  cro_window_leave_date (self);
  return G_SOURCE_REMOVE;
}

static gboolean
is_a_price (const char *table)
{
  static const char *const tables[] = { "price", "selling_price", "rate", NULL };

  return g_strv_contains (tables, table);
}

void
cro_window_note_price (CroWindow *self,
                       gint64     since)
{
  g_autoptr (GPtrArray) changes = NULL;

  if (!is_other_day (self) || since < 0)
    return;
  changes = cro_store_list_changes_after (cro_book_get_store (self->book), since, NULL);
  for (guint i = 0; changes != NULL && i < changes->len && self->today_id == 0; i++)
    if (is_a_price (((CroChange *) changes->pdata[i])->table))
      self->today_id = g_idle_add (return_cb, self);
}

/* --- The calendar ------------------------------------------------------------------------------ */

/* The window comes up sooner without it. */
void
cro_window_need_calendar (CroWindow *self)
{
  GtkWidget *calendar;

  if (self->calendar != NULL)
    return;
  calendar = gtk_calendar_new ();
  self->calendar = GTK_CALENDAR (calendar);
  select_day (self);
  g_signal_connect_object (calendar, "day-selected", G_CALLBACK (day_selected_cb), self, G_CONNECT_SWAPPED);
  gtk_box_insert_child_after (GTK_BOX (gtk_widget_get_parent (self->day_entry)), calendar, self->day_entry);
}

static void
need_calendar_cb (GtkMenuButton *button,
                  gpointer       self)
{
  cro_window_need_calendar (self);
}

/* --- The window -------------------------------------------------------------------------------- */

void
cro_window_begin_date (CroWindow *self)
{
  g_clear_handle_id (&self->today_id, g_source_remove);
  show_choice (self);
  if (self->is_day_typed)
    leave_popover (self);
  choose_day (self, cro_book_get_figures (self->book)->date);
  say_date (self);
  gtk_widget_set_visible (self->date_button, TRUE);
}

void
cro_window_refuse_date (CroWindow *self)
{
  self->is_day_typed = FALSE;
  choose_day (self, cro_book_get_figures (self->book)->date);
  if (!gtk_widget_get_mapped (self->day_entry))
    show_choice (self);
}

void
cro_window_add_date (CroWindow *self)
{
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (self->date_button), need_calendar_cb, self, NULL);
}

void
cro_window_install_date (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.today", NULL, today_cb);
  gtk_widget_class_bind_template_callback_full (widget_class, "ask_date", G_CALLBACK (ask));
  gtk_widget_class_bind_template_callback_full (widget_class, "day_typed", G_CALLBACK (day_typed_cb));
  gtk_widget_class_bind_template_callback_full (widget_class, "date_closed", G_CALLBACK (popover_closed_cb));
  gtk_widget_class_bind_template_child (widget_class, CroWindow, date_banner);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, date_banner_label);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, day_entry);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, prices_of_day);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, book_of_day);
}
