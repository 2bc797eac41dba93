#include "cro-month-booked.h"

#include <string.h>

#include "cro-code.h"
#include "cro-frozen-gone.h"
#include "cro-month-private.h"
#include "cro-not-set.h"
#include "cro-row-date.h"

#define STATEMENT "statement"

/* Documents of a closed month: what was bought, less what was booked of it, by itself or by others that noted so. */
typedef struct
{
  CroDate first;
  gint64  money[CRO_N_PURCHASE_KINDS];      /* its own, that came since */
  gint64  settled[CRO_N_PURCHASE_KINDS];    /* of other months, that it was closed with before closing noted of which;
                                               what is left of it once it is settled is of none that are looked at */
  gint64   estimate;        /* what is left of its estimate to be taken off */
  gint64   reversed;        /* estimates that it took off before closing noted of which months */
  gboolean is_noted;        /* whether closing noted all that tells them apart */
} Late;

struct CroMonthBooked
{
  CroMonthEntries *entries;
  CroDate          earliest;    /* first day of the closed months right before; the month's own where
                                   there are none */
  GArray          *late;        /* Late of those, newest first */
  CroDate          latest;      /* last day of the closed months right after an open one; else the month's own */
  GArray          *after;       /* Late of those, newest first */
  gboolean         is_held;     /* whether the month before all of late is open anew: what they booked of it is taken
                                   off there. Of one that never was closed they booked nothing: what is left of what
                                   they booked was given back since */
};

/* Of the closed month that a day is of: there is one of each. */
static Late *
late_of (GArray  *months,
         CroDate  day)
{
  CroDate first = cro_month_first_of (day);
  guint at = 0;

  while (g_array_index (months, Late, at).first != first)
    at++;
  return &g_array_index (months, Late, at);
}

/* Of a month that is looked at; NULL: it is none of those. */
static Late *
find_late (CroMonthBooked *self,
           CroDate         first)
{
  if (!cro_month_booked_is_of (self, first))
    return NULL;
  return late_of (first < self->entries->first ? self->late : self->after, first);
}

gboolean
cro_month_booked_is_of (CroMonthBooked *self,
                        CroDate         day)
{
  return (day >= self->earliest && day < self->entries->first) || (day > self->entries->last && day <= self->latest);
}

void
cro_month_booked_add (CroMonthBooked *self,
                      CroDate         day,
                      guint           kind,
                      gint64          value)
{
  cro_month_add_within (&late_of (day < self->entries->first ? self->late : self->after, day)->money[kind], value);
}

/* --- What closing froze ---------------------------------------------------------------------- */

gboolean
cro_month_row_is_booked (const char *kind,
                         const char *name)
{
  return g_strcmp0 (kind, STATEMENT) == 0 && g_strcmp0 (name, "booked") == 0;
}

/* What closing froze of a month's purchases. */
typedef struct
{
  gboolean is_booked;       /* FALSE: no more than a table called it closed */
  gboolean has_own;         /* purchases are noted */
  gint64   money[CRO_N_PURCHASE_KINDS];         /* all that it was closed with */
  gint64   purchases[CRO_N_PURCHASE_KINDS];     /* its own among it */
  gint64   estimate;
  gint64   reversed;        /* CRO_NOT_SET: it was closed before that was noted */
} Booked;

static Booked *
booked_of (GHashTable *months,
           gint64      month)
{
  Booked *booked = g_hash_table_lookup (months, &month);

  if (booked != NULL)
    return booked;
  booked = g_new0 (Booked, 1);
  booked->reversed = CRO_NOT_SET;
  g_hash_table_insert (months, g_memdup2 (&month, sizeof month), booked);
  return booked;
}

static gboolean
add_booked (Booked      *booked,
            gboolean     is_own,
            const char  *of,
            gint64       cost,
            GError     **error)
{
  guint kind;

  if (!cro_month_read_kind (cro_purchase_kind_codes, of, &kind, error))
    return FALSE;
  cro_month_add_within (is_own ? &booked->purchases[kind] : &booked->money[kind], cost);
  booked->is_booked |= !is_own;
  booked->has_own |= is_own;
  return TRUE;
}

static const char *const notes[] = { CRO_MONTH_EARLIER_OF, CRO_MONTH_LATER_OF, CRO_MONTH_REVERSED_OF, NULL };

typedef enum
{
  NOTE_EARLIER,         /* documents of the other month are booked … */
  NOTE_LATER,           /* … are taken off, as that one has booked them … */
  NOTE_REVERSED,        /* … or its estimate is taken off */
} Note;

/* What closing noted of another month. */
typedef struct
{
  gint64  month;        /* the id of the closed one */
  CroDate of;           /* the first day of the other one */
  guint   note;         /* a Note */
  guint   kind;
  gint64  money;
} Noted;

/* What is read of all closed months in one pass. */
typedef struct
{
  GHashTable    *months;    /* id → Booked */
  GArray        *noted;     /* Noted */
  CroFrozenGone *gone;
} Frozen;

static gboolean
add_noted (Frozen   *frozen,
           CroRows  *rows,
           guint     note,
           GError  **error)
{
  Noted noted = { cro_rows_get_int (rows, 0), cro_row_date (rows, 5), note, 0,
                  cro_rows_is_null (rows, 4) ? 0 : cro_rows_get_int (rows, 4) };

  if (!cro_month_read_kind (cro_purchase_kind_codes, cro_rows_get_text (rows, 3), &noted.kind, error))
    return FALSE;
  g_array_append_val (frozen->noted, noted);
  return TRUE;
}

static gboolean
take_booked (CroRows   *rows,
             gpointer   user_data,
             GError   **error)
{
  const char *kind = cro_rows_get_text (rows, 1), *name = cro_rows_get_text (rows, 2);
  gint64 cost = cro_rows_is_null (rows, 4) ? 0 : cro_rows_get_int (rows, 4);
  gboolean is_estimate, is_reversed, is_own;
  Frozen *frozen = user_data;
  Booked *booked;
  guint note;

  cro_frozen_gone_add (frozen->gone, cro_rows_get_int (rows, 0), kind, cro_rows_get_text (rows, 5));
  if (g_strcmp0 (kind, STATEMENT) != 0)
    return TRUE;
  if (cro_code_find (notes, name, &note))
    return add_noted (frozen, rows, note, error);
  is_own = g_strcmp0 (name, "purchases") == 0;
  is_estimate = g_strcmp0 (name, "estimate") == 0;
  is_reversed = g_strcmp0 (name, "reversed") == 0;
  if (!is_estimate && !is_reversed && !is_own && !cro_month_row_is_booked (kind, name))
    return TRUE;
  booked = booked_of (frozen->months, cro_rows_get_int (rows, 0));
  if (is_estimate)
    booked->estimate = cost;
  else if (is_reversed)
    booked->reversed = cost;
  else
    return add_booked (booked, is_own, cro_rows_get_text (rows, 3), cost, error);
  return TRUE;
}

static const Booked *
frozen_of (GHashTable        *months,
           const CroMonthRow *row)
{
  const Booked *booked = row != NULL && row->is_closed ? g_hash_table_lookup (months, &row->id) : NULL;

  return booked != NULL && booked->is_booked ? booked : NULL;
}

/* The estimates that a closed month took off. Where that was not noted it is the estimate of the month
 * before, if that was closed first. */
static gint64
reversed_of (GHashTable        *months,
             GPtrArray         *rows,
             const CroMonthRow *row)
{
  const Booked *booked = frozen_of (months, row), *before;
  const CroMonthRow *other;

  if (booked->reversed != CRO_NOT_SET)
    return booked->reversed;
  other = cro_month_rows_find (rows, cro_month_first_of (row->first - 1));
  before = frozen_of (months, other);
  return before != NULL && g_strcmp0 (other->closed_at, row->closed_at) <= 0 ? before->estimate : 0;
}

static Late
late_of_booked (CroDate       first,
                const Booked *booked,
                gint64        reversed)
{
  Late late = { .first = first, .estimate = booked->estimate, .reversed = reversed,
                .is_noted = booked->has_own && booked->reversed != CRO_NOT_SET };

  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      late.money[k] = -booked->purchases[k];
      late.settled[k] = booked->money[k];
      cro_month_add_within (&late.settled[k], -booked->purchases[k]);
    }
  cro_month_add_within (&late.settled[0], -booked->estimate);
  cro_month_add_within (&late.settled[0], reversed);
  return late;
}

static int
compare_shares (gconstpointer a,
                gconstpointer b)
{
  const CroMonthShare *x = a, *y = b;

  return x->first < y->first ? -1 : x->first > y->first;
}

/* What a closed month has booked of the one that is looked at. */
static void
add_later (CroMonthEntries *entries,
           CroDate          first,
           guint            kind,
           gint64           money)
{
  CroMonthShare later = { .first = first };
  guint at = 0;

  while (at < entries->later->len && g_array_index (entries->later, CroMonthShare, at).first != first)
    at++;
  if (at == entries->later->len)
    g_array_append_val (entries->later, later);
  cro_month_add_within (&g_array_index (entries->later, CroMonthShare, at).money[kind], money);
  g_array_sort (entries->later, compare_shares);
}

/* own: the closed month that noted it, other: the one of which it did; NULL where they are not looked at. */
static void
take_booked_of (Late        *own,
                Late        *other,
                const Noted *noted)
{
  if (own != NULL)
    cro_month_add_within (&own->settled[noted->kind], -noted->money);
  if (other != NULL)
    cro_month_add_within (&other->money[noted->kind], -noted->money);
}

static void
take_booked_later (Late        *own,
                   const Noted *noted)
{
  if (own == NULL)
    return;
  cro_month_add_within (&own->settled[noted->kind], noted->money);
  cro_month_add_within (&own->money[noted->kind], noted->money);
}

static void
take_reversed (Late        *own,
               Late        *other,
               const Noted *noted)
{
  if (own != NULL)
    cro_month_add_within (&own->reversed, -noted->money);
  if (other != NULL)
    cro_month_add_within (&other->estimate, -noted->money);
}

/* Each document is booked once, and each estimate taken off once, whichever months are closed and opened again in
 * between: what closing noted of another month is that one's, and is left to be settled no more. */
static void
take_noted (CroMonthBooked    *self,
            const CroMonthRow *row,
            const Noted       *noted)
{
  CroMonthEntries *entries = self->entries;
  Late *own = find_late (self, row->first), *other = find_late (self, noted->of);
  gboolean is_of_it = noted->of == entries->first && !entries->row->is_closed;

  if (noted->note == NOTE_LATER ? noted->of <= row->first : noted->of >= row->first)
    return;
  if (noted->note == NOTE_LATER)
    take_booked_later (own, noted);
  else if (noted->note == NOTE_EARLIER)
    take_booked_of (own, other, noted);
  else
    take_reversed (own, other, noted);
  if (is_of_it && noted->note == NOTE_EARLIER)
    add_later (entries, row->first, noted->kind, noted->money);
  if (is_of_it && noted->note == NOTE_REVERSED)
    {
      entries->taken = entries->taken == CRO_NOT_SET ? 0 : entries->taken;
      cro_month_add_within (&entries->taken, noted->money);
    }
}

/* Of a closed month: which ones have booked its documents that came since; what it was closed without, as that was
 * booked already, came before. */
static void
take_booked_since (CroMonthBooked    *self,
                   GPtrArray         *rows,
                   const CroMonthRow *row,
                   const Noted       *noted)
{
  CroMonthEntries *entries = self->entries;
  CroDate first = noted->note == NOTE_EARLIER ? row->first : noted->of;
  gint64 money = noted->note == NOTE_EARLIER ? noted->money : -noted->money;

  if (noted->note == NOTE_REVERSED || first <= entries->first
      || (noted->note == NOTE_EARLIER ? noted->of : row->first) != entries->first)
    return;
  cro_month_add_within (&entries->awaited[noted->kind], -money);
  if (cro_month_rows_are_late (rows, first))
    add_later (entries, first, noted->kind, money);
}

static void
take_all_noted (CroMonthBooked *self,
                GPtrArray      *rows,
                const Frozen   *frozen)
{
  for (guint i = 0; i < frozen->noted->len; i++)
    {
      const Noted *noted = &g_array_index (frozen->noted, Noted, i);

      for (guint r = 0; r < rows->len; r++)
        {
          const CroMonthRow *row = rows->pdata[r];

          if (row->id != noted->month || frozen_of (frozen->months, row) == NULL)
            continue;
          take_noted (self, row, noted);
          if (frozen_of (frozen->months, self->entries->row) != NULL)
            take_booked_since (self, rows, row, noted);
        }
    }
}

/* What the months before are closed with, less what was taken off. What those that did not note of which ones took off
 * more than they booked themselves was booked by the one before them, if that stands reopened. */
static void
sum_up_estimates (CroMonthBooked *self)
{
  CroMonthEntries *entries = self->entries;
  gboolean is_old = FALSE;
  gint64 held;

  for (guint i = 0; i < self->late->len; i++)
    {
      const Late *late = &g_array_index (self->late, Late, i);
      CroMonthShare share = { .first = late->first, .money = { late->estimate } };

      cro_month_add_within (&entries->reversed, late->estimate);
      cro_month_add_within (&entries->reversed, -late->reversed);
      is_old |= late->reversed != 0;
      if (late->estimate != 0)
        g_array_prepend_val (entries->reversed_of, share);
    }
  held = self->late->len > 0 ? g_array_index (self->late, Late, 0).estimate : 0;
  cro_month_add_within (&held, -entries->reversed);
  if (self->is_held && is_old && held > 0)
    cro_month_add_within (&entries->reversed, held);
}

/* What the closed months right after one took off of its estimate without noting that. */
static void
sum_up_taken (CroMonthBooked *self)
{
  CroMonthEntries *entries = self->entries;
  gint64 old = 0, estimates = 0;

  for (guint i = 0; i < self->after->len; i++)
    {
      const Late *late = &g_array_index (self->after, Late, i);

      cro_month_add_within (&old, late->reversed);
      if (i > 0)
        cro_month_add_within (&estimates, late->estimate);
    }
  if (self->after->len > 0 && entries->taken == CRO_NOT_SET)
    entries->taken = 0;
  if (old != 0 && old > estimates)
    cro_month_add_within (&entries->taken, old - estimates);
}

static void
take_gone (const char *month,
           gpointer    user_data)
{
  CroDate first;

  if (cro_month_parse (month, strlen (month), &first))
    g_array_append_val ((GArray *) user_data, first);
}

static gboolean
read_booked (CroMonthBooked  *self,
             CroBook         *book,
             GPtrArray       *rows,
             GError         **error)
{
  static const char *const columns[] = { "month", "kind", "name", "row_kind", "cost_micro", "date", NULL };
  g_autoptr (CroFrozenGone) gone = cro_frozen_gone_new ();
  g_autoptr (GHashTable) months = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  g_autoptr (GArray) noted = g_array_new (FALSE, FALSE, sizeof (Noted));
  CroMonthEntries *entries = self->entries;
  Frozen frozen = { months, noted, gone };
  CroDate next = cro_month_next (entries->first);
  const CroMonthRow *row;
  const Booked *booked;

  if (!cro_store_read_each (cro_book_get_store (book), "month_row", columns, take_booked, &frozen, error)
      || !cro_frozen_gone_find (gone, cro_book_get_store (book), take_gone, entries->gone, error))
    return FALSE;
  while ((row = cro_month_rows_find (rows, cro_month_first_of (self->earliest - 1))) != NULL
         && (booked = frozen_of (months, row)) != NULL)
    {
      gint64 reversed = reversed_of (months, rows, row);
      Late late = late_of_booked (row->first, booked, reversed);

      g_array_append_val (self->late, late);
      self->earliest = row->first;
    }
  self->is_held = row != NULL && !row->is_closed && row->is_reopened;
  while (!entries->row->is_closed && (row = cro_month_rows_find (rows, next)) != NULL
         && (booked = frozen_of (months, row)) != NULL)
    {
      gint64 reversed = reversed_of (months, rows, row);
      Late late = late_of_booked (row->first, booked, reversed);

      g_array_prepend_val (self->after, late);
      next = cro_month_next (next);
      self->latest = next - 1;
    }
  take_all_noted (self, rows, &frozen);
  sum_up_estimates (self);
  sum_up_taken (self);
  cro_month_add_within (&entries->earlier[0], -entries->reversed);
  if (frozen_of (months, entries->row) != NULL)
    entries->reversed = reversed_of (months, rows, entries->row);
  return TRUE;
}

/* --- What came late -------------------------------------------------------------------------- */

/* Takes as much off both as they have in common. */
static void
take_off_both (gint64 *left,
               gint64 *settled)
{
  gint64 part = ABS (*left) < ABS (*settled) ? *left : *settled;

  if (*settled == 0 || (*left > 0) != (*settled > 0))
    return;
  *left -= part;
  *settled -= part;
}

/* What a month was closed with of months before it, taken off those whose documents came, oldest first. One that was
 * closed anew has taken off what was booked of it by then. */
static void
settle (GArray *all,
        guint   from,
        gint64  settled[CRO_N_PURCHASE_KINDS])
{
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      for (guint i = all->len; i-- > from;)
        {
          gint64 *other = &g_array_index (all, Late, i).settled[k], back = -*other;

          take_off_both (&back, &settled[k]);
          *other = -back;
        }
      for (guint i = all->len; i-- > from;)
        take_off_both (&g_array_index (all, Late, i).money[k], &settled[k]);
    }
}

/* Of a month of which it is not noted what was its own nothing is left. */
static void
settle_all (GArray *all)
{
  for (guint i = all->len; i-- > 0;)
    settle (all, i + 1, g_array_index (all, Late, i).settled);
  for (guint i = 0; i < all->len; i++)
    if (!g_array_index (all, Late, i).is_noted)
      memset (g_array_index (all, Late, i).settled, 0, sizeof g_array_index (all, Late, i).settled);
}

/* What the closed months right after an open one have booked of it and of those before is not booked once more; the
 * first one after them does not take it back. */
static void
hold_booked (CroMonthBooked *self)
{
  CroMonthEntries *entries = self->entries;

  for (guint i = 0; i < self->late->len && self->is_held; i++)
    for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
      cro_month_add_within (&entries->earlier[k], g_array_index (self->late, Late, i).settled[k]);
  for (guint i = self->after->len; i-- > 0;)
    {
      Late *late = &g_array_index (self->after, Late, i);

      for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
        cro_month_add_within (&entries->earlier[k], -late->settled[k]);
      settle (self->late, 0, late->settled);
      for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
        if (late->settled[k] != 0)
          add_later (entries, late->first, k, late->settled[k]);
    }
}

/* What came late for the months before, less what they booked of others without noting of which, and less what later
 * ones booked of this one and noted. */
static void
sum_up (CroMonthBooked *self)
{
  CroMonthEntries *entries = self->entries;

  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      for (guint i = 0; i < self->late->len; i++)
        {
          const Late *late = &g_array_index (self->late, Late, i);

          cro_month_add_within (&entries->earlier[k], late->money[k]);
          cro_month_add_within (&entries->earlier[k], -late->settled[k]);
        }
      for (guint i = 0; i < entries->later->len; i++)
        cro_month_add_within (&entries->earlier[k], -g_array_index (entries->later, CroMonthShare, i).money[k]);
    }
}

/* Which one documents are of that were settled and taken out again since is not known: those have no name. */
void
cro_month_booked_settle (CroMonthBooked *self)
{
  sum_up (self);
  settle_all (self->late);
  settle_all (self->after);
  hold_booked (self);
  for (guint i = self->late->len; i-- > 0;)
    {
      const Late *late = &g_array_index (self->late, Late, i);
      CroMonthShare share = { .first = late->first };

      memcpy (share.money, late->money, sizeof share.money);
      g_array_append_val (self->entries->earlier_of, share);
    }
}

CroMonthBooked *
cro_month_booked_new (CroBook          *book,
                      CroMonthEntries  *entries,
                      GPtrArray        *rows,
                      GError          **error)
{
  g_autoptr (CroMonthBooked) self = g_new0 (CroMonthBooked, 1);

  self->entries = entries;
  self->earliest = entries->first;
  self->latest = entries->last;
  self->late = g_array_new (FALSE, FALSE, sizeof (Late));
  self->after = g_array_new (FALSE, FALSE, sizeof (Late));
  return read_booked (self, book, rows, error) ? g_steal_pointer (&self) : NULL;
}

void
cro_month_booked_free (CroMonthBooked *self)
{
  g_array_unref (self->late);
  g_array_unref (self->after);
  g_free (self);
}
