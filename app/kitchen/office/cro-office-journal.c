#include "config.h"

#include "cro-office-journal.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-code.h"
#include "cro-money.h"
#include "cro-month-frozen.h"
#include "cro-spreadsheet.h"
#include "cro-stray.h"
#include "cro-text-table.h"

G_DEFINE_QUARK (cro-journal-error-quark, cro_journal_error)

const char *const cro_journal_codes[] = {
  [CRO_JOURNAL_OPENING_STOCK] = "opening-stock",
  [CRO_JOURNAL_CLOSING_STOCK] = "closing-stock",
  [CRO_JOURNAL_REVERSED] = "not-invoiced-reversed",
  [CRO_JOURNAL_NOT_INVOICED] = "not-invoiced",
  [CRO_JOURNAL_TRANSFER_IN] = "transfer-in",
  [CRO_JOURNAL_TRANSFER_OUT] = "transfer-out",
  [CRO_JOURNAL_PROMOTION] = "promotion",
  [CRO_JOURNAL_OTHER] = "other",
  [CRO_JOURNAL_STAFF_MEALS] = "staff-meal",
  NULL,
};

/* Common practice of a periodic inventory, no source: stock goes through the account of its change, and
 * what left the kitchen otherwise than on plates is taken off the cost of food. */
static const struct { const char *what, *debit, *credit; } words[] = {
  [CRO_JOURNAL_OPENING_STOCK] = { N_("Opening stock"), N_("change in food stock"), N_("food stock") },
  [CRO_JOURNAL_CLOSING_STOCK] = { N_("Closing stock"), N_("food stock"), N_("change in food stock") },
  [CRO_JOURNAL_REVERSED] = { N_("Food not invoiced at the end of an earlier month, reversed"),
                             N_("invoices not received"), N_("food purchases") },
  [CRO_JOURNAL_NOT_INVOICED] = { N_("Food not invoiced yet"), N_("food purchases"),
                                 N_("invoices not received") },
  [CRO_JOURNAL_TRANSFER_IN] = { N_("Food transferred in"), N_("cost of food"),
                                N_("transfers between departments") },
  [CRO_JOURNAL_TRANSFER_OUT] = { N_("Food transferred out"), N_("transfers between departments"),
                                 N_("cost of food") },
  [CRO_JOURNAL_PROMOTION] = { N_("Complimentary food"), N_("complimentary food"), N_("cost of food") },
  [CRO_JOURNAL_OTHER] = { N_("Other uses of food"), N_("other uses of food"), N_("cost of food") },
  [CRO_JOURNAL_STAFF_MEALS] = { N_("Staff meals"), N_("staff meals"), N_("cost of food") },
};

char *
cro_journal_words (const CroJournalEntry *entry)
{
  const char *what = _(words[entry->kind].what);

  return entry->is_untold ? g_strdup_printf (_("%s, %s"), what, _("neither counted nor entered")) : g_strdup (what);
}

const char *
cro_journal_side_words (CroJournalKind kind,
                        gboolean       is_credit)
{
  return is_credit ? _(words[kind].credit) : _(words[kind].debit);
}

/* --- Entries -------------------------------------------------------------------------------- */

static void
add_entry (GArray         *journal,
           CroJournalKind  kind,
           gint64          minor,
           CroKnown        known)
{
  CroJournalEntry entry = { .kind = kind, .is_turned = minor < 0, .minor = ABS (minor), .known = known };

  if (minor == 0 && known != CRO_KNOWN_WHOLE)
    entry.known = CRO_KNOWN_NOTHING;
  if (minor != 0 || known != CRO_KNOWN_WHOLE)
    g_array_append_val (journal, entry);
}

/* money: of the day; NaN: not told. other: of the other day. */
static void
add_stock (GArray         *journal,
           CroJournalKind  kind,
           gint64          minor,
           CroKnown        known,
           double          money,
           double          other)
{
  CroJournalEntry untold = { .kind = kind, .known = CRO_KNOWN_NOTHING, .is_untold = TRUE };

  if (!isnan (money))
    add_entry (journal, kind, minor, known);
  else if (!isnan (other))
    g_array_append_val (journal, untold);
}

static void
add_adjustment (GArray              *journal,
                CroJournalKind       kind,
                const CroMonth      *month,
                const CroMonthMinor *minor)
{
  guint i;

  if (!cro_code_find (cro_adjustment_kind_codes, cro_journal_codes[kind], &i))
    g_return_if_reached ();
  add_entry (journal, kind, cro_month_sign_of (i) * minor->adjustments[i], month->known_adjustments[i]);
}

GArray *
cro_journal_new (const CroMonth *month,
                 int             digits)
{
  GArray *journal = g_array_new (FALSE, FALSE, sizeof (CroJournalEntry));
  CroMonthMinor minor;

  cro_month_round (month, digits, &minor);
  add_stock (journal, CRO_JOURNAL_OPENING_STOCK, minor.opening, month->known_opening, month->opening, month->closing);
  add_stock (journal, CRO_JOURNAL_CLOSING_STOCK, -minor.closing, month->known_closing, month->closing,
             month->opening);
  add_entry (journal, CRO_JOURNAL_REVERSED, cro_money_round (month->reversed, digits), CRO_KNOWN_WHOLE);
  add_entry (journal, CRO_JOURNAL_NOT_INVOICED, minor.estimate, CRO_KNOWN_WHOLE);
  for (CroJournalKind kind = CRO_JOURNAL_TRANSFER_IN; kind < CRO_N_JOURNAL_ENTRIES; kind++)
    add_adjustment (journal, kind, month, &minor);
  return journal;
}

/* --- Accounts ------------------------------------------------------------------------------- */

enum
{
  ENTRY,
  DEBIT,
  CREDIT,
  N_COLUMNS,
};

static const char *const columns[N_COLUMNS] = { "entry", "debit", "credit" };

typedef struct
{
  GHashTable *accounts;
  int         at[N_COLUMNS];   /* in the file; -1: not there */
  guint       n_heads;         /* cells of the headings; 0: there are none yet */
  guint       row;             /* that was read last */
  GError     *failed;
} Reading;

static char *
key_of (const char *entry,
        gboolean    is_credit)
{
  return g_strdup_printf ("%s %s", entry, columns[is_credit ? CREDIT : DEBIT]);
}

static gboolean
refuse (Reading             *self,
        CroJournalErrorCode  code,
        const char          *message)
{
  g_set_error_literal (&self->failed, CRO_JOURNAL_ERROR, (int) code, message);
  return FALSE;
}

static gboolean
take_head (Reading           *self,
           const CroReadCell *cells,
           guint              n)
{
  for (guint i = 0; i < N_COLUMNS; i++)
    {
      self->at[i] = -1;
      for (guint k = 0; k < n; k++)
        if (g_ascii_strcasecmp (cells[k].text, columns[i]) == 0)
          self->at[i] = (int) k;
      if (self->at[i] < 0)
        return refuse (self, CRO_JOURNAL_ERROR_COLUMNS, columns[i]);
    }
  self->n_heads = n;
  return TRUE;
}

/* Cells behind the last that holds something are none. */
static guint
count_cells (const CroReadCell *cells,
             guint              n)
{
  while (n > 0 && *cells[n - 1].text == '\0')
    n--;
  return n;
}

/* Of any column: what is copied into a journal, or said of it. A journal is opened in a spreadsheet. */
static gboolean
check_cell (Reading    *self,
            guint       column,
            const char *text)
{
  gunichar stray = cro_stray_find (text, NULL);
  char name[16];

  g_snprintf (name, sizeof name, "U+%04X", stray);
  if (*text == '\0')
    return refuse (self, CRO_JOURNAL_ERROR_EMPTY, columns[column]);
  if (strchr (text, '"') != NULL)
    return refuse (self, CRO_JOURNAL_ERROR_QUOTE, columns[column]);
  if (stray != 0)
    return refuse (self, CRO_JOURNAL_ERROR_STRAY, name);
  if (g_utf8_strlen (text, -1) > CRO_JOURNAL_MOST_CHARS)
    return refuse (self, CRO_JOURNAL_ERROR_LONG, columns[column]);
  if (strchr ("=+-@", *text) != NULL)
    return refuse (self, CRO_JOURNAL_ERROR_FORMULA, text);
  return TRUE;
}

static gboolean
take_row (guint              row,
          const CroReadCell *cells,
          guint              n,
          gpointer           user_data)
{
  Reading *self = user_data;
  const char *texts[N_COLUMNS];
  g_autofree char *entry = NULL;

  self->row = row;
  if (self->n_heads == 0)
    return take_head (self, cells, n);
  n = count_cells (cells, n);
  if (n == 0)
    return TRUE;
  if (n > self->n_heads)
    return refuse (self, CRO_JOURNAL_ERROR_MORE_CELLS, "");
  for (guint i = 0; i < N_COLUMNS; i++)
    {
      texts[i] = (guint) self->at[i] < n ? cells[self->at[i]].text : "";
      if (!check_cell (self, i, texts[i]))
        return FALSE;
    }
  entry = g_ascii_strdown (texts[ENTRY], -1);
  if (!g_strv_contains (cro_journal_codes, entry))
    return refuse (self, CRO_JOURNAL_ERROR_ENTRY, texts[ENTRY]);
  if (!g_hash_table_insert (self->accounts, key_of (entry, FALSE), g_strdup (texts[DEBIT])))
    return refuse (self, CRO_JOURNAL_ERROR_TWICE, entry);
  g_hash_table_insert (self->accounts, key_of (entry, TRUE), g_strdup (texts[CREDIT]));
  return TRUE;
}

GHashTable *
cro_journal_accounts (const char  *path,
                      guint       *row,
                      GError     **error)
{
  static const CroSpreadsheetTaker taker = { .row = take_row };
  g_autoptr (GHashTable) accounts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  Reading self = { .accounts = accounts, .row = 1 };
  gboolean is_read = cro_spreadsheet_read (path, 0, &taker, &self, error);

  *row = self.row;
  if (is_read && self.failed == NULL && self.n_heads == 0)
    refuse (&self, CRO_JOURNAL_ERROR_COLUMNS, columns[ENTRY]);
  else if (is_read && self.failed == NULL && g_hash_table_size (accounts) == 0)
    refuse (&self, CRO_JOURNAL_ERROR_NO_ENTRIES, "");
  if (self.failed != NULL)
    {
      g_clear_error (error);
      g_propagate_error (error, self.failed);
      return NULL;
    }
  return is_read ? g_steal_pointer (&accounts) : NULL;
}

const char *
cro_journal_account (GHashTable     *accounts,
                     CroJournalKind  kind,
                     gboolean        is_credit)
{
  g_autofree char *key = key_of (cro_journal_codes[kind], is_credit);

  return accounts != NULL ? g_hash_table_lookup (accounts, key) : NULL;
}

/* --- The table ------------------------------------------------------------------------------ */

static char *
plain_money (gint64 minor,
             int    digits)
{
  gint64 scale = 1;

  for (int i = 0; i < digits; i++)
    scale *= 10;
  return digits > 0 ? g_strdup_printf ("%" G_GINT64_FORMAT ".%0*" G_GINT64_FORMAT, minor / scale, digits,
                                       minor % scale)
                    : g_strdup_printf ("%" G_GINT64_FORMAT, minor);
}

#define N_CELLS 6

static void
add_side (CroTextTable          *table,
          const CroJournalEntry *entry,
          int                    digits,
          GHashTable            *accounts,
          gboolean               is_credit)
{
  gboolean of_credit = is_credit != entry->is_turned;
  const char *account = cro_journal_account (accounts, entry->kind, of_credit);
  g_autofree char *what = cro_journal_words (entry);
  g_autofree char *money = entry->minor != 0 ? plain_money (entry->minor, digits) : g_strdup ("");
  char **cells = g_new0 (char *, N_CELLS + 1);

  cells[0] = g_strdup (cro_journal_codes[entry->kind]);
  cells[1] = g_strdup (account != NULL ? account : "");
  /* Translators: of a journal: an entry, and what its account is for. */
  cells[2] = g_strdup_printf (_("%s: %s"), what, cro_journal_side_words (entry->kind, of_credit));
  cells[3] = g_strdup (is_credit ? "" : money);
  cells[4] = g_strdup (is_credit ? money : "");
  cells[5] = g_strdup (entry->known != CRO_KNOWN_WHOLE ? cro_month_known_codes[entry->known] : "");
  cro_text_table_take_row (table, cells);
}

char *
cro_journal_to_csv (GArray     *journal,
                    CroDate     day,
                    int         digits,
                    GHashTable *accounts)
{
  static const char *const heads[N_CELLS] = { "entry", "account", "text", "debit", "credit", "known" };
  g_autoptr (CroTextTable) table = cro_text_table_new ("", "");
  char date[CRO_DATE_CHARS];

  cro_date_format (day, date);
  for (guint i = 0; i < N_CELLS; i++)
    cro_text_table_add_head (table, heads[i], FALSE);
  cro_text_table_add_heading (table, date);
  for (guint i = 0; i < journal->len; i++)
    {
      const CroJournalEntry *entry = &g_array_index (journal, CroJournalEntry, i);

      add_side (table, entry, digits, accounts, FALSE);
      add_side (table, entry, digits, accounts, TRUE);
    }
  return cro_text_table_to_csv (table, "date");
}
