/* What is typed and not posted, and an invoice of which lines are open: they outlive the sheet. */
#include "config.h"

#include "cro-new-prices-private.h"

#include <glib/gi18n.h>

#include "cro-day-entry.h"
#include "cro-isolate.h"
#include "cro-state.h"
#include "cro-words.h"

/* Rows of a round that is written later than at once, and how much; milliseconds. */
#define MANY 1000
#define ASIDE_MS 1000

static const char *
group_of (CroBook *book)
{
  return cro_store_get_path (cro_book_get_store (book));
}

static char *
key_of (gint64 supplier)
{
  return g_strdup_printf ("new-prices.%" G_GINT64_FORMAT, supplier);
}

char *
cro_new_prices_dup_aside (CroBook *book,
                          gint64   supplier)
{
  g_autofree char *key = key_of (supplier);

  return cro_state_dup_text (group_of (book), key);
}

char *
cro_new_prices_dup_aside_words (CroBook *book,
                                guint32  supplier)
{
  gint64 id = g_array_index (cro_book_get_model (book)->suppliers, CroSupplier, supplier).id;
  g_autofree char *text = cro_new_prices_dup_aside (book, id);

  return text != NULL ? cro_words_round_aside (text) : NULL;
}

static char *
dup_kept_path (CroRound *round)
{
  g_autofree char *key = key_of (cro_round_get_supplier_id (round));
  g_autofree char *both = g_strdup_printf ("%s\n%s", group_of (cro_round_get_book (round)), key);
  g_autofree char *sum = g_compute_checksum_for_string (G_CHECKSUM_SHA256, both, -1);
  g_autofree char *name = g_build_filename ("set-aside", sum, NULL);

  return cro_state_dup_path (name);
}

void
cro_new_prices_keep_invoice (CroNewPrices *self)
{
  g_autofree char *path = NULL;
  GError *error = NULL;

  if (cro_round_get_invoice (self->round) == NULL || cro_round_is_invoice_kept (self->round))
    return;
  path = dup_kept_path (self->round);
  if (!cro_round_keep_invoice (self->round, path, &error))
    {
      g_autofree char *why = cro_words_error (error);
      /* Translators: why. */
      g_autofree char *said = cro_isolate_printf (_("The invoice could not be kept: %s. Keep its file until all lines "
                                                    "are booked."), why);

      cro_new_prices_say (self, said);
      g_error_free (error);
    }
  cro_new_prices_keep_aside (self);
}

void
cro_new_prices_take_up (CroNewPrices  *self,
                        const char    *aside,
                        char         **lost)
{
  g_autofree char *path = dup_kept_path (self->round);
  g_autoptr (GError) error = NULL;

  cro_round_set_kept (self->round, path);
  if (aside == NULL)
    return;
  if (!cro_round_put_text (self->round, aside, &error))
    *lost = cro_words_round_lost (aside, error);
  else
    *lost = cro_words_round_unfit (self->round);
  cro_new_prices_keep_invoice (self);
}

static char *
day_key_of (CroRound *round)
{
  return g_strdup_printf ("new-prices-day.%" G_GINT64_FORMAT, cro_round_get_supplier_id (round));
}

char *
cro_new_prices_dup_unread_day (CroNewPrices *self)
{
  g_autofree char *key = day_key_of (self->round);

  return cro_state_dup_text (group_of (cro_round_get_book (self->round)), key);
}

/* A day that could be read is among the text; one that could not stands beside it, as it was typed. */
static void
write_aside (CroNewPrices *self)
{
  CroBook *book = cro_round_get_book (self->round);
  g_autofree char *key = key_of (cro_round_get_supplier_id (self->round)), *text = cro_round_to_text (self->round);
  g_autofree char *day_key = day_key_of (self->round), *reason = NULL;
  CroDate day;
  gboolean is_unread = text != NULL && !cro_day_entry_read (self->from, book, &day, &reason);

  cro_state_set_text (group_of (book), key, text);
  cro_state_set_text (group_of (book), day_key,
                      is_unread ? gtk_editable_get_text (GTK_EDITABLE (self->from)) : NULL);
}

static gboolean
write_aside_cb (gpointer sheet)
{
  CroNewPrices *self = sheet;

  self->aside_id = 0;
  if (self->round != NULL)
    write_aside (self);
  return G_SOURCE_REMOVE;
}

void
cro_new_prices_write_aside (CroNewPrices *self)
{
  if (self->aside_id == 0)
    return;
  g_source_remove (self->aside_id);
  write_aside_cb (self);
}

/* With every key: what was typed outlives whatever happens. A long list is written a little later, once. */
void
cro_new_prices_keep_aside (CroNewPrices *self)
{
  if (cro_round_get_n_rows (self->round) < MANY)
    write_aside (self);
  else if (self->aside_id == 0)
    self->aside_id = g_timeout_add (ASIDE_MS, write_aside_cb, self);
}

static char *
dup_said (CroNewPrices *self)
{
  g_autofree char *aside = self->round != NULL ? cro_round_to_text (self->round) : NULL;

  return aside != NULL ? cro_words_round_aside (aside) : NULL;
}

/* What is set aside as the sheet is left; said where it could not be written. NULL: nothing is. */
static char *
dup_left (CroNewPrices *self)
{
  g_autofree char *said = dup_said (self), *why = NULL;
  g_autoptr (GError) error = NULL;

  if (said == NULL)
    return NULL;
  cro_new_prices_write_aside (self);
  if (cro_state_write (&error))
    return g_steal_pointer (&said);
  why = cro_words_error (error);
  /* Translators: of new prices that are typed and not posted; why. */
  return cro_isolate_printf (_("What was typed is lost when the program is closed, as it could not be set aside: %s"),
                             why);
}

/* It is found again by the supplier's row, which undo gives back as it was. */
void
cro_new_prices_say_gone (CroNewPrices *self)
{
  g_autofree char *aside = dup_said (self);
  g_autofree char *said
      = aside != NULL
            /* Translators: a supplier; what was set aside, as "Set aside: 2 rows". */
            ? cro_isolate_printf (_("%s is no longer in the book. %s; it is there again when the supplier is back."),
                                  cro_round_get_supplier (self->round), aside)
            /* Translators: a supplier. */
            : cro_isolate_printf (_("%s is no longer in the book."), cro_round_get_supplier (self->round));

  cro_bench_say (self->bench, said);
}

void
cro_new_prices_leave (CroNewPrices *self)
{
  CroBench *bench = self->bench;
  GtkWidget *before = self->before;
  gboolean goes_on = self->round != NULL && cro_round_has_supplier (self->round);
  g_autofree char *said = NULL;

  /* A day that was typed is set aside with the rest: the field is left with the sheet, too late for it. */
  if (goes_on)
    cro_new_prices_take_day (self);
  said = goes_on ? dup_left (self) : NULL;
  g_object_ref (self);
  cro_bench_set_cover (bench, NULL);
  /* What is set aside stands there. */
  CRO_BENCH_GET_CLASS (bench)->refresh (bench);
  if (said != NULL)
    cro_bench_say (bench, said);
  if (gtk_widget_get_mapped (GTK_WIDGET (bench))
      && (before == NULL || !gtk_widget_get_mapped (before) || !gtk_widget_grab_focus (before)))
    gtk_widget_child_focus (GTK_WIDGET (bench), GTK_DIR_TAB_FORWARD);
  g_object_unref (self);
}
