/* Posting what is on the sheet. */
#include "config.h"

#include "cro-new-prices-private.h"

#include <glib/gi18n.h>

#include "cro-day-entry.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-words.h"

/* A day that has not come is asked about once, and so is today where it became yesterday meanwhile: what comes in a
 * night's work is of the day before it, or of that of the calendar. */
static gboolean
is_asked_of_day (CroNewPrices *self)
{
  CroDate today = MAX (cro_here_today (), cro_book_get_figures (cro_bench_get_book (self->bench))->date);

  if (self->is_day_right)
    return FALSE;
  if (cro_round_get_from (self->round) > today)
    cro_new_prices_say (self, _("These prices hold from a day that has not come yet. Post again if that is right."));
  else if (cro_round_get_from (self->round) == self->today && !cro_here_is_today (self->today))
    {
      g_autofree char *day = cro_date_to_text (self->today);
      /* Translators: a day, that of yesterday. */
      g_autofree char *said = g_strdup_printf (_("It is past midnight, and these prices hold from %s. Post again if "
                                                 "that is right, or type another day."), day);

      cro_new_prices_say (self, said);
    }
  else
    return FALSE;
  self->is_day_right = TRUE;
  return TRUE;
}

/* Ctrl+S posts out of the field of the day too, before that is left; and nothing is posted while what stands there is
 * no day. */
static gboolean
is_day_taken (CroNewPrices *self)
{
  gboolean is_there = (gtk_widget_get_state_flags (self->from) & GTK_STATE_FLAG_FOCUS_WITHIN) != 0;
  g_autofree char *reason = NULL;
  CroDate day;

  if (cro_day_entry_read (self->from, cro_bench_get_book (self->bench), &day, &reason))
    return !(is_there || self->day_id != 0) || cro_new_prices_take_day (self);
  cro_new_prices_say (self, reason);
  self->is_day_told = TRUE;
  gtk_widget_grab_focus (self->from);
  return FALSE;
}

/* Where the next price is typed once these are posted: the row that had the focus, by its pack, the next that waits,
 * or the new line. */
static void
go_on_at (CroNewPrices *self,
          gint64        offer)
{
  guint n = cro_round_get_n_rows (self->round), row = cro_round_rows_find_waiting (self->rows);

  for (guint i = 0; offer != 0 && i < n; i++)
    if (cro_round_get_row (self->round, i)->id == offer)
      row = i;
  cro_round_rows_focus (self->rows, MIN (row, n));
}

/* The id of its pack; 0: none has it, or one that is new. */
static gint64
offer_at_hand (CroNewPrices *self)
{
  guint row = cro_round_rows_get_row (self->rows);
  gboolean is_in_rows = gtk_widget_get_focus_child (GTK_WIDGET (self->rows)) != NULL;

  if (row == CRO_NO_SLOT || (is_in_rows && !cro_round_rows_is_at (self->rows, row, FALSE)))
    return 0;
  return cro_round_get_row (self->round, row)->id;
}

static void
say_faults (CroNewPrices *self,
            CroFaults    *faults,
            GError       *error)
{
  if (cro_faults_get_n (faults) == 0)
    {
      cro_new_prices_fail (self, error);
      return;
    }
  {
    g_autofree char *text = cro_words_fault (cro_faults_get (faults, 0));

    cro_new_prices_say (self, text);
  }
  g_error_free (error);
}

static void
after_posting (CroNewPrices *self,
               CroRoundPost *posted,
               gint64        offer,
               const char   *booked)
{
  g_autofree char *waiting = cro_words_round_not_booked (self->round);
  /* Of an invoice that is open still the head says what is booked. */
  const char *said = waiting != NULL ? waiting : booked;
  /* What waits was typed for that day, or is of an invoice of it. */
  gboolean day_stays = waiting != NULL || cro_round_count_waiting (self->round) > 0;
  GError *error = NULL;

  self->is_setting = TRUE;
  if (!day_stays)
    gtk_editable_set_text (GTK_EDITABLE (self->from), "");
  self->is_setting = FALSE;
  self->is_day_right &= day_stays;
  if (!day_stays
      && cro_round_get_from (self->round) != cro_book_get_figures (cro_bench_get_book (self->bench))->date)
    cro_round_renew (self->round, cro_book_get_figures (cro_bench_get_book (self->bench))->date, &error);
  cro_new_prices_show_before (self);
  cro_new_prices_show_posted (self);
  cro_new_prices_say (self, said);
  if (error == NULL)
    error = g_steal_pointer (&posted->failed);
  if (error != NULL)
    {
      g_autofree char *why = cro_words_error (error);
      /* Translators: why, a sentence. */
      g_autofree char *failed = cro_isolate_printf (_("The prices are posted. What waits could not be read again: %s"),
                                                    why);

      cro_new_prices_say (self, failed);
      g_error_free (error);
    }
  go_on_at (self, offer);
}

void
cro_new_prices_post (CroNewPrices *self)
{
  g_autofree char *label = NULL, *booked = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  CroRoundPost *posted;
  GError *error = NULL;
  gint64 offer;

  if (self->round == NULL)
    return;
  cro_new_prices_say (self, NULL);
  /* Its supplier may be gone: that is said, and stays so until it is back. */
  cro_new_prices_catch_up (self);
  if (cro_round_is_behind (self->round) || !is_day_taken (self) || cro_round_count_ready (self->round) == 0
      || cro_new_prices_asks_whole (self) || is_asked_of_day (self))
    return;
  label = cro_isolate_printf (_("new prices of %s"), cro_round_get_supplier (self->round));
  booked = cro_words_round_invoice_posted (self->round);
  offer = offer_at_hand (self);
  cro_round_rows_set_round (self->rows, NULL);
  posted = cro_round_post (self->round, label, faults, &error);
  if (posted == NULL)
    {
      cro_round_rows_set_round (self->rows, self->round);
      say_faults (self, faults, error);
      return;
    }
  if (posted->act == 0)
    {
      /* As typed they stood there: nothing was posted, and there is nothing to undo. */
      after_posting (self, posted, offer, _("The book has these prices already; nothing was changed."));
      cro_round_post_free (posted);
      return;
    }
  g_ptr_array_add (self->posts, posted);
  cro_new_prices_read_did (self);
  after_posting (self, posted, offer, booked);
}
