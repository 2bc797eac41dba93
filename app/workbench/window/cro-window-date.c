#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-here.h"
#include "cro-number.h"
#include "cro-spoken.h"
#include "cro-state.h"

static void
name_button (CroWindow *self)
{
  CroDate date = cro_book_get_figures (self->book)->date;
  g_autofree char *text = cro_date_to_text (date);
  /* Translators: %s is a date. */
  g_autofree char *label = date == cro_here_today () ? g_strdup (_("Prices of today"))
                                                     : g_strdup_printf (_("Prices of %s"), text);

  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->date_button), label);
  cro_spoken_set (self->date_button, label);
}

/* With the day on which it was chosen: on another one the figures are those of today again, as
 * nobody would look for an old date. */
static void
remember (CroWindow *self)
{
  char chosen[CRO_DATE_CHARS], today[CRO_DATE_CHARS];

  cro_date_format (cro_book_get_figures (self->book)->date, chosen);
  cro_date_format (cro_here_today (), today);
  cro_state_set_text (self->path, "date", chosen);
  cro_state_set_text (self->path, "date-on", today);
}

static void
set_date (CroWindow *self,
          CroDate    date)
{
  g_autoptr (GError) error = NULL;

  if (self->book == NULL || cro_book_get_figures (self->book)->date == date)
    return;
  if (!cro_book_set_date (self->book, date, &error))
    cro_window_fail (self, error);
  name_button (self);
  remember (self);
}

static void
day_selected_cb (CroWindow *self)
{
  g_autoptr (GDateTime) day = gtk_calendar_get_date (self->calendar);

  set_date (self, cro_date_from_civil (g_date_time_get_year (day), g_date_time_get_month (day),
                                       g_date_time_get_day_of_month (day)));
}

static void
today_clicked_cb (CroWindow *self)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  gtk_calendar_select_day (self->calendar, now);
  set_date (self, cro_here_today ());
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->date_button));
}

void
cro_window_restore_date (CroWindow *self)
{
  g_autofree char *chosen = cro_state_dup_text (self->path, "date");
  g_autofree char *on = cro_state_dup_text (self->path, "date-on");
  CroDate date, day;
  int year, month, day_of_month;

  if (chosen != NULL && on != NULL && cro_date_parse (on, strlen (on), &day)
      && day == cro_here_today () && cro_date_parse (chosen, strlen (chosen), &date))
    {
      g_autoptr (GDateTime) noon = NULL;

      cro_date_to_civil (date, &year, &month, &day_of_month);
      noon = g_date_time_new_local (year, month, day_of_month, 12, 0, 0);
      gtk_calendar_select_day (self->calendar, noon);
      set_date (self, date);
    }
  name_button (self);
  gtk_widget_set_visible (self->date_button, TRUE);
}

void
cro_window_install_date (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_callback (widget_class, day_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, today_clicked_cb);
}
