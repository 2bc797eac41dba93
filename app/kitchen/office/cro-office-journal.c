#include "config.h"

#include "cro-office-journal.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-code.h"
#include "cro-money.h"
#include "cro-month-frozen.h"
#include "cro-spreadsheet.h"
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
  [CRO_JOURNAL_REVERSED] = { N_("Food not invoiced at the end of the month before, reversed"),
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

const char *
cro_journal_words (CroJournalKind kind)
{
  return _(words[kind].what);
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
  CroJournalEntry entry = { kind, minor < 0, ABS (minor), known };

  if (minor != 0)
    g_array_append_val (journal, entry);
}

static void
add_adjustment (GArray              *journal,
                CroJournalKind       kind,
                const CroMonth      *month,
                const CroMonthMinor *minor)
{
  guint i = cro_code_find (cro_adjustment_kind_codes, cro_journal_codes[kind]);

  add_entry (journal, kind, cro_month_sign_of (i) * minor->adjustments[i], month->known_adjustments[i]);
}

GArray *
cro_journal_new (const CroMonth *month,
                 const CroMonth *before,
                 int             digits)
{
  GArray *journal = g_array_new (FALSE, FALSE, sizeof (CroJournalEntry));
  CroMonthMinor minor;

  cro_month_round (month, digits, &minor);
  add_entry (journal, CRO_JOURNAL_OPENING_STOCK, minor.opening, month->known_opening);
  add_entry (journal, CRO_JOURNAL_CLOSING_STOCK, -minor.closing, month->known_closing);
  if (before != NULL && !isnan (before->estimate))
    add_entry (journal, CRO_JOURNAL_REVERSED, cro_money_round (before->estimate, digits), CRO_KNOWN_WHOLE);
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
  gboolean    has_head;
  GError     *failed;
} Reading;

static char *
key_of (const char *entry,
        gboolean    is_credit)
{
  return g_strdup_printf ("%s %s", entry, columns[is_credit ? CREDIT : DEBIT]);
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
        {
          g_set_error_literal (&self->failed, CRO_JOURNAL_ERROR, CRO_JOURNAL_ERROR_COLUMNS, columns[i]);
          return FALSE;
        }
    }
  self->has_head = TRUE;
  return TRUE;
}

static const char *
cell_at (const Reading     *self,
         const CroReadCell *cells,
         guint              n,
         guint              column)
{
  return (guint) self->at[column] < n ? cells[self->at[column]].text : "";
}

static gboolean
take_row (guint              row,
          const CroReadCell *cells,
          guint              n,
          gpointer           user_data)
{
  Reading *self = user_data;
  const char *entry;

  if (!self->has_head)
    return take_head (self, cells, n);
  entry = cell_at (self, cells, n, ENTRY);
  if (*entry == '\0')
    return TRUE;
  if (!g_strv_contains (cro_journal_codes, entry))
    g_set_error_literal (&self->failed, CRO_JOURNAL_ERROR, CRO_JOURNAL_ERROR_ENTRY, entry);
  else if (!g_hash_table_insert (self->accounts, key_of (entry, FALSE),
                                 g_strdup (cell_at (self, cells, n, DEBIT))))
    g_set_error_literal (&self->failed, CRO_JOURNAL_ERROR, CRO_JOURNAL_ERROR_TWICE, entry);
  else
    g_hash_table_insert (self->accounts, key_of (entry, TRUE), g_strdup (cell_at (self, cells, n, CREDIT)));
  return self->failed == NULL;
}

GHashTable *
cro_journal_accounts (const char  *path,
                      GError     **error)
{
  static const CroSpreadsheetTaker taker = { .row = take_row };
  g_autoptr (GHashTable) accounts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  Reading self = { .accounts = accounts };
  gboolean is_read = cro_spreadsheet_read (path, 0, &taker, &self, error);

  if (self.failed != NULL)
    {
      g_clear_error (error);
      g_propagate_error (error, self.failed);
      return NULL;
    }
  if (!is_read)
    return NULL;
  if (!self.has_head)
    {
      g_set_error_literal (error, CRO_JOURNAL_ERROR, CRO_JOURNAL_ERROR_COLUMNS, columns[ENTRY]);
      return NULL;
    }
  return g_steal_pointer (&accounts);
}

const char *
cro_journal_account (GHashTable     *accounts,
                     CroJournalKind  kind,
                     gboolean        is_credit)
{
  g_autofree char *key = key_of (cro_journal_codes[kind], is_credit);
  const char *account = accounts != NULL ? g_hash_table_lookup (accounts, key) : NULL;

  return account != NULL && *account != '\0' ? account : NULL;
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
  char **cells = g_new0 (char *, N_CELLS + 1);

  cells[0] = g_strdup (cro_journal_codes[entry->kind]);
  cells[1] = g_strdup (account != NULL ? account : "");
  cells[2] = g_strdup_printf ("%s: %s", cro_journal_words (entry->kind),
                              cro_journal_side_words (entry->kind, of_credit));
  cells[3] = is_credit ? g_strdup ("") : plain_money (entry->minor, digits);
  cells[4] = is_credit ? plain_money (entry->minor, digits) : g_strdup ("");
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
