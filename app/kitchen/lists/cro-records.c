#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-groups.h"
#include "cro-list.h"
#include "cro-month.h"
#include "cro-number.h"
#include "cro-record-keys.h"
#include "cro-sold.h"
#include "cro-words.h"

/* What is said of the groups of rows that are shown. */
typedef struct
{
  GArray       *rows;       /* CroRecordRow by number of the group; those of others are empty */
  GStringChunk *texts;
} Headings;

struct _CroRecords
{
  GObject         parent_instance;

  CroBook        *book;
  CroRecordsKind  kind;
  GArray         *rows;       /* CroRecordRow */
  GStringChunk   *texts;
  CroRecordKeys  *keys;       /* of rows */
  GArray         *order;      /* guint32: indices of all rows, as they are sorted */
  GArray         *chosen;     /* guint32: those of them that pass */
  GArray         *shown;      /* guint32: what the list has: of those, and headings */
  CroGroups      *groups;
  Headings        headings;   /* of those shown */
  guint           column;     /* it is sorted by; G_MAXUINT: by none */
  gboolean        falling;
  CroQuery       *query;
  gint32          month;      /* G_MININT32: all */
  CroDate         since;      /* G_MININT32: 28 days before the book's date */
  CroRecordsFilter filter;
  char           *course;     /* the filter's */
  gboolean        follows;

  guint64         edition;    /* of the book when the rows were read: they are read anew at another */
  GHashTable       *worths;     /* of adjustments; NULL: nobody said */
};

static void cro_records_list_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (CroRecords, cro_records, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL,
                                                      cro_records_list_model_init))

/* --- Order ------------------------------------------------------------------------------------------- */

/* Once for a column: what is looked for, or of which month, is picked out of all in their order. */
static void
sort (CroRecords *self)
{
  g_array_unref (self->order);
  self->order = cro_record_keys_sort (self->keys, self->column, self->falling);
}

static CroMatch
match_of (CroRecords      *self,
          CroRecordsSieve *sieve,
          guint32          index)
{
  const CroRecordRow *row = &g_array_index (self->rows, CroRecordRow, index);

  if ((self->month != G_MININT32 && row->month != self->month)
      || !cro_records_sieve_passes (sieve, row))
    return CRO_MATCH_NONE;
  return self->query != NULL
             ? cro_query_match (self->query, cro_record_keys_folded (self->keys, index))
             : CRO_MATCH_WHOLE;
}

/* --- Headings -------------------------------------------------------------------------------------- */

static void
headings_clear (Headings *self)
{
  g_clear_pointer (&self->rows, g_array_unref);
  g_clear_pointer (&self->texts, g_string_chunk_free);
}

/* Rows are the list's, or those that it had. */
static const CroRecordRow *
row_of (GArray         *rows,
        const Headings *headings,
        guint32         index)
{
  return (index & CRO_HEADING) != 0
             ? &g_array_index (headings->rows, CroRecordRow, index & ~CRO_HEADING)
             : &g_array_index (rows, CroRecordRow, index);
}

static gboolean
is_grouped (CroRecords *self)
{
  const CroRecordsFilter *filter = &self->filter;

  return self->kind == CRO_RECORDS_PLATES && self->rows->len >= CRO_RECORDS_GROUPED
         && self->query == NULL && self->column == G_MAXUINT && filter->marks == 0
         && filter->course == NULL && filter->menu == CRO_NO_SLOT;
}

/* Plates by course, those without one behind them, then menus. */
static CroGroup
group_of (gpointer records,
          guint32  index)
{
  const CroRecordRow *row = &g_array_index (((CroRecords *) records)->rows, CroRecordRow, index);

  if (row->ref.kind == CRO_REF_MENU)
    return (CroGroup){ 2, NULL };
  return (CroGroup){ row->values[1].text == NULL, row->values[1].text };
}

static char *
over_words (CroRecords *self,
            guint       n)
{
  g_autofree char *number = cro_number_to_text (n, 0, TRUE);

  if (n == 0)
    return g_strdup ("");
  return g_strdup_printf (cro_book_get_model (self->book)->speaks == CRO_SPEAKS_FOOD_COST
                              ? _("%s over target")
                              : _("%s below target"),
                          number);
}

static void
fill_heading (CroRecords *self,
              guint32     heading,
              guint       n_over)
{
  CroGroup group = cro_groups_get (self->groups, heading);
  CroRecordRow row = { .id = -1 - (gint64) (heading & ~CRO_HEADING), .ref = CRO_REF_NOWHERE,
                       .month = G_MININT32, .is_heading = TRUE,
                       .is_folded = cro_groups_is_folded (self->groups, heading) };
  const char *name = group.name != NULL ? group.name : group.rank == 2 ? _("Menus") : _("No course");
  g_autofree char *n = cro_number_to_text (cro_groups_get_n_rows (self->groups, heading), 0, TRUE);
  g_autofree char *over = over_words (self, n_over);

  for (guint i = 0; i < CRO_RECORD_MOST; i++)
    row.values[i] = CRO_VALUE (NAN, NULL);
  row.values[0].text = g_string_chunk_insert (self->headings.texts, name);
  row.values[1].text = g_string_chunk_insert (self->headings.texts, n);
  row.values[4].text = g_string_chunk_insert (self->headings.texts, over);
  g_array_index (self->headings.rows, CroRecordRow, heading & ~CRO_HEADING) = row;
}

/* Of each group how many rows are over their target. */
static GHashTable *
count_over (CroRecords *self)
{
  GHashTable *over = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < self->chosen->len; i++)
    {
      guint32 index = g_array_index (self->chosen, guint32, i);
      gpointer heading;

      if ((g_array_index (self->rows, CroRecordRow, index).marks & CRO_RECORD_OVER_TARGET) == 0)
        continue;
      heading = GUINT_TO_POINTER (cro_groups_find (self->groups, group_of (self, index)));
      g_hash_table_insert (over, heading,
                           GUINT_TO_POINTER (
                               GPOINTER_TO_UINT (g_hash_table_lookup (over, heading)) + 1));
    }
  return over;
}

/* Puts headings among what is chosen. */
static void
lay_out (CroRecords *self)
{
  g_autoptr (GHashTable) over = NULL;
  g_autoptr (GArray) laid = NULL;

  self->shown = g_array_copy (self->chosen);
  if (!is_grouped (self))
    return;
  laid = cro_groups_lay_out (self->groups, self->chosen, group_of, self);
  if (cro_groups_get_n (self->groups) < 2)
    return;
  g_array_unref (self->shown);
  self->shown = g_steal_pointer (&laid);
  over = count_over (self);
  self->headings = (Headings){ g_array_new (FALSE, TRUE, sizeof (CroRecordRow)),
                               g_string_chunk_new (256) };
  for (guint i = 0; i < self->shown->len; i++)
    {
      guint32 heading = g_array_index (self->shown, guint32, i);

      if ((heading & CRO_HEADING) == 0)
        continue;
      if ((heading & ~CRO_HEADING) >= self->headings.rows->len)
        g_array_set_size (self->headings.rows, (heading & ~CRO_HEADING) + 1);
      fill_heading (self, heading,
                    GPOINTER_TO_UINT (g_hash_table_lookup (over, GUINT_TO_POINTER (heading))));
    }
}

/* What begins with what is looked for stands first, unless another column than that of names gives
 * the order. */
static GArray *
choose (CroRecords *self,
        Headings   *headings_before)
{
  GArray *before = g_steal_pointer (&self->shown);
  g_autoptr (CroRecordsSieve) sieve = cro_records_sieve_new (self->book, &self->filter);
  g_autoptr (GArray) others = g_array_new (FALSE, FALSE, sizeof (guint32));
  CroMatch first = self->column == 0 || self->column == G_MAXUINT ? CRO_MATCH_BEGINS
                                                                  : CRO_MATCH_INSIDE;

  *headings_before = self->headings;
  self->headings = (Headings){ NULL, NULL };
  g_array_set_size (self->chosen, 0);
  for (guint i = 0; i < self->order->len; i++)
    {
      guint32 index = g_array_index (self->order, guint32, i);
      CroMatch match = match_of (self, sieve, index);

      if (match >= first)
        g_array_append_val (self->chosen, index);
      else if (match != CRO_MATCH_NONE)
        g_array_append_val (others, index);
    }
  g_array_append_vals (self->chosen, others->data, others->len);
  lay_out (self);
  return before;
}

static gboolean
is_same_row (CroRecordsKind      kind,
             const CroRecordRow *a,
             const CroRecordRow *b)
{
  if (a == b)
    return TRUE;
  if (a->id != b->id || a->month != b->month || a->marks != b->marks
      || a->is_folded != b->is_folded || !cro_ref_equal (a->ref, b->ref))
    return FALSE;
  for (guint c = 0; c < cro_records_n_columns (kind); c++)
    {
      const CroValue *x = &a->values[c], *y = &b->values[c];

      if (x->known != y->known || !(x->number == y->number || (isnan (x->number) && isnan (y->number)))
          || (x->text != y->text && g_strcmp0 (x->text, y->text) != 0))
        return FALSE;
    }
  return TRUE;
}

/* The list ends before them as long as it tells. */
static void
tell_gone (CroRecords *self,
           guint       head,
           guint       n_gone)
{
  GArray *shown = self->shown;

  self->shown = g_array_copy (shown);
  g_array_set_size (self->shown, head);
  g_list_model_items_changed (G_LIST_MODEL (self), head, n_gone, 0);
  g_array_unref (self->shown);
  self->shown = shown;
}

/* Tells of the rows between the first and the last that differ, so that those who look at the
 * others keep their place. before: what was shown, as indices into rows. */
static void
tell (CroRecords     *self,
      GArray         *rows,
      const Headings *headings,
      GArray         *before)
{
  guint n = before->len, m = self->shown->len, head = 0, tail = 0;

#define SAME(i, j)                                                                               \
  is_same_row (self->kind,                                                                       \
               row_of (rows, headings, g_array_index (before, guint32, i)),                      \
               row_of (self->rows, &self->headings, g_array_index (self->shown, guint32, j)))
  while (head < n && head < m && SAME (head, head))
    head++;
  while (head + tail < n && head + tail < m && SAME (n - 1 - tail, m - 1 - tail))
    tail++;
#undef SAME
  if (n == head + tail && m == head + tail)
    return;
  if (n > head + tail && m >= head + tail + CRO_LIST_MANY)
    {
      tell_gone (self, head, n - head);
      n = head;
      tail = 0;
    }
  g_list_model_items_changed (G_LIST_MODEL (self), head, n - head - tail, m - head - tail);
}

static void
choose_anew (CroRecords *self)
{
  Headings headings;
  g_autoptr (GArray) before = choose (self, &headings);

  tell (self, self->rows, &headings, before);
  headings_clear (&headings);
}

/* --- Reading ------------------------------------------------------------------------------------------- */

static CroDate
since_of (CroRecords *self)
{
  return self->since != G_MININT32 ? self->since
                                   : cro_book_get_figures (self->book)->date - CRO_SOLD_DAYS;
}

/* What was entered as money stays it. */
static void
put_worths (CroRecords *self,
            GArray     *rows)
{
  for (guint i = 0; self->worths != NULL && i < rows->len; i++)
    {
      CroRecordRow *row = &g_array_index (rows, CroRecordRow, i);
      const CroMonthWorth *worth = g_hash_table_lookup (self->worths, &row->id);
      CroValue *value = &row->values[CRO_RECORDS_ADJUSTMENTS_VALUE];

      if (worth == NULL || !isnan (value->number))
        continue;
      *value = cro_reading_number (worth->money);
      value->known = worth->known;
    }
}

static void
read_anew (CroRecords *self)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (CroRecordRow));
  GStringChunk *texts = g_string_chunk_new (4096);
  g_autoptr (GArray) old = NULL, before = NULL;
  Headings headings;

  if (!cro_records_read (self->book, self->kind, since_of (self), rows, texts, NULL))
    {
      g_string_chunk_free (texts);
      return;
    }
  put_worths (self, rows);
  old = g_steal_pointer (&self->rows);
  self->rows = g_steal_pointer (&rows);
  cro_record_keys_free (self->keys);
  self->keys = cro_record_keys_new (self->rows, self->kind);
  sort (self);
  before = choose (self, &headings);
  tell (self, old, &headings, before);
  headings_clear (&headings);
  g_string_chunk_free (self->texts);
  self->texts = texts;
}

static void
book_changed_cb (CroRecords *self)
{
  guint64 edition = cro_book_get_edition (self->book);

  if (!self->follows || edition == self->edition)
    return;
  self->edition = edition;
  read_anew (self);
}

/* --- The list --------------------------------------------------------------------------------------------- */

static GType
get_item_type (GListModel *model)
{
  return CRO_TYPE_RECORD;
}

static guint
get_n_items (GListModel *model)
{
  return CRO_RECORDS (model)->shown->len;
}

static gpointer
get_item (GListModel *model,
          guint       position)
{
  CroRecords *self = CRO_RECORDS (model);

  if (position >= self->shown->len)
    return NULL;
  return cro_record_new (self, row_of (self->rows, &self->headings,
                                       g_array_index (self->shown, guint32, position)));
}

static void
cro_records_list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

static void
cro_records_finalize (GObject *object)
{
  CroRecords *self = CRO_RECORDS (object);

  g_object_unref (self->book);
  g_array_unref (self->rows);
  g_array_unref (self->order);
  g_array_unref (self->chosen);
  g_array_unref (self->shown);
  headings_clear (&self->headings);
  cro_groups_free (self->groups);
  cro_record_keys_free (self->keys);
  g_string_chunk_free (self->texts);
  g_clear_pointer (&self->query, cro_query_free);
  g_free (self->course);
  g_clear_pointer (&self->worths, g_hash_table_unref);
  G_OBJECT_CLASS (cro_records_parent_class)->finalize (object);
}

static void
cro_records_class_init (CroRecordsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cro_records_finalize;
}

static void
cro_records_init (CroRecords *self)
{
  self->rows = g_array_new (FALSE, FALSE, sizeof (CroRecordRow));
  self->order = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->chosen = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->shown = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->groups = cro_groups_new (TRUE);
  self->texts = g_string_chunk_new (16);
  self->column = G_MAXUINT;
  self->month = self->since = G_MININT32;
  self->filter = CRO_RECORDS_ALL;
  self->follows = TRUE;
}

CroRecords *
cro_records_new (CroBook        *book,
                 CroRecordsKind  kind)
{
  CroRecords *self = g_object_new (CRO_TYPE_RECORDS, NULL);

  self->book = g_object_ref (book);
  self->kind = kind;
  self->keys = cro_record_keys_new (self->rows, kind);
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
  book_changed_cb (self);
  return self;
}

void
cro_records_set_follows (CroRecords *self,
                         gboolean    follows)
{
  self->follows = follows;
  book_changed_cb (self);
}

void
cro_records_set_order (CroRecords *self,
                       guint       column,
                       gboolean    falling)
{
  self->column = column;
  self->falling = falling;
  sort (self);
  choose_anew (self);
}

void
cro_records_set_search (CroRecords *self,
                        const char *text)
{
  g_clear_pointer (&self->query, cro_query_free);
  self->query = text != NULL ? cro_query_new (text) : NULL;
  choose_anew (self);
}

void
cro_records_set_month (CroRecords *self,
                       const char *month)
{
  CroDate first_day = G_MININT32;

  if (month != NULL)
    cro_month_parse (month, strlen (month), &first_day);
  self->month = first_day;
  choose_anew (self);
}

void
cro_records_set_since (CroRecords *self,
                       CroDate     since)
{
  if (self->since == since)
    return;
  self->since = since;
  read_anew (self);
}

void
cro_records_set_filter (CroRecords             *self,
                        const CroRecordsFilter *filter)
{
  g_autofree char *before = self->course;

  self->course = g_strdup (filter->course);
  self->filter = *filter;
  self->filter.course = self->course;
  choose_anew (self);
}

guint
cro_records_count_marked (CroRecords    *self,
                          CroRecordMark  mark)
{
  guint n = 0;

  for (guint i = 0; i < self->rows->len; i++)
    n += (g_array_index (self->rows, CroRecordRow, i).marks & mark) != 0;
  return n;
}

void
cro_records_turn (CroRecords *self,
                  CroRecord  *heading)
{
  const CroRecordRow *row = cro_record_get_row (heading);
  guint32 number = (guint32) (-1 - row->id);

  g_return_if_fail (row->is_heading);

  cro_groups_fold (self->groups, CRO_HEADING | number, !row->is_folded);
  choose_anew (self);
}

guint
cro_records_get_n_chosen (CroRecords *self)
{
  return self->chosen->len;
}

guint
cro_records_get_n_rows (CroRecords *self)
{
  return self->rows->len;
}

gboolean
cro_records_find (CroRecords *self,
                  CroRecord  *record,
                  guint      *position)
{
  const CroRecordRow *of = cro_record_get_row (record);

  for (*position = 0; *position < self->shown->len; (*position)++)
    {
      const CroRecordRow *row = row_of (self->rows, &self->headings,
                                        g_array_index (self->shown, guint32, *position));

      if (row->id == of->id && row->month == of->month)
        return TRUE;
    }
  return FALSE;
}

void
cro_records_set_worths (CroRecords *self,
                        GHashTable *worths)
{
  g_clear_pointer (&self->worths, g_hash_table_unref);
  self->worths = worths;
  if (self->kind == CRO_RECORDS_ADJUSTMENTS)
    read_anew (self);
}

CroRecord *
cro_records_dup_newest (CroRecords *self,
                        gint64     *id)
{
  guint at = 0;

  *id = 0;
  for (guint i = 0; i < self->shown->len; i++)
    {
      const CroRecordRow *row = row_of (self->rows, &self->headings, g_array_index (self->shown, guint32, i));

      if (row->id <= *id)
        continue;
      *id = row->id;
      at = i;
    }
  return *id > 0 ? g_list_model_get_item (G_LIST_MODEL (self), at) : NULL;
}

static const CroValue *
chosen_value (CroRecords *self,
              guint       i,
              guint       column)
{
  return &g_array_index (self->rows, CroRecordRow, g_array_index (self->chosen, guint32, i)).values[column];
}

/* Of differences that are none together: whether each is none. */
static gboolean
all_agree (CroRecords *self,
           guint       column)
{
  for (guint i = 0; i < self->chosen->len; i++)
    if (fabs (chosen_value (self, i, column)->number) > 0)
      return FALSE;
  return TRUE;
}

static gboolean
is_unpaired (CroRecords *self,
             guint       ours,
             guint       apart)
{
  gboolean any = FALSE, lacks = FALSE;

  for (guint i = 0; i < self->chosen->len; i++)
    {
      gboolean is_apart = !isnan (chosen_value (self, i, apart)->number);

      any |= is_apart;
      lacks |= !is_apart && !isnan (chosen_value (self, i, ours)->number);
    }
  return any && lacks;
}

gboolean
cro_records_are_unpaired (CroRecords *self)
{
  return self->kind == CRO_RECORDS_MONTHS
         && (is_unpaired (self, CRO_RECORDS_MONTHS_NET_SALES, CRO_RECORDS_MONTHS_TO_THE_TILL)
             || is_unpaired (self, CRO_RECORDS_MONTHS_PURCHASES, CRO_RECORDS_MONTHS_TO_THE_LEDGER));
}

char *
cro_records_dup_total (CroRecords *self,
                       guint       column)
{
  const CroRecordColumn *of = cro_records_column (self->kind, column);
  CroValue sum = cro_records_sum (self->rows, self->chosen, self->kind, column);

  if (isnan (sum.number) && sum.known == CRO_KNOWN_WHOLE)
    return g_strdup ("");
  if (of->kind == CRO_VALUE_APART)
    {
      /* Decimals: what is left of their sum beyond millionths is none. */
      sum.number = round (sum.number * CRO_MICRO) / CRO_MICRO;
      if (sum.number == 0 && !all_agree (self, column))
        return cro_words_money (cro_book_get_model (self->book), 0);
    }
  if (of->kind == CRO_VALUE_AMOUNT)
    sum.text = g_array_index (self->rows, CroRecordRow, g_array_index (self->chosen, guint32, 0))
                   .values[column].text;
  return cro_record_value_text (cro_book_get_model (self->book), of->kind, &sum);
}

CroModel *
cro_records_get_model (CroRecords *self)
{
  return cro_book_get_model (self->book);
}

CroRecordsKind
cro_records_get_kind (CroRecords *self)
{
  return self->kind;
}
