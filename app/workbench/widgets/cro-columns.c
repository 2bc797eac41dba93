#include "config.h"

#include "cro-columns.h"

/* What a column may get beyond its natural width: further apart they are hard to read across. */
#define MOST_EXTRA 120

/* Per cent of all that one column may take before the others. */
#define MOST_FIRST 45

typedef struct
{
  gboolean is_number;
  gboolean is_whole;
  guint    rank;        /* the highest is left out first; 0: it stays */
  int      min;
  int      wanted;
  int      natural;
  glong    chars;       /* of the longest text that was measured */
  int      head;        /* of numbers, up to their decimal sign, and from there on */
  int      tail;
  int      least_tail;  /* of those that have one; 0: none has */
} Column;

struct _CroColumns
{
  GObject  parent_instance;

  guint    n;
  guint    first;       /* it has room before the others; G_MAXUINT: none */
  Column  *columns;
  guint    most;        /* columns of higher ranks are left out where it is shown */
  guint    tell_id;
  guint    left_out_id;
};

G_DEFINE_FINAL_TYPE (CroColumns, cro_columns, G_TYPE_OBJECT)

static guint changed_signal, left_out_signal;

static void
cro_columns_finalize (GObject *object)
{
  CroColumns *self = CRO_COLUMNS (object);

  g_clear_handle_id (&self->tell_id, g_source_remove);
  g_clear_handle_id (&self->left_out_id, g_source_remove);
  g_free (self->columns);
  G_OBJECT_CLASS (cro_columns_parent_class)->finalize (object);
}

static void
cro_columns_class_init (CroColumnsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cro_columns_finalize;
  changed_signal = g_signal_new ("changed", CRO_TYPE_COLUMNS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
  left_out_signal = g_signal_new ("left-out", CRO_TYPE_COLUMNS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
}

static void
cro_columns_init (CroColumns *self)
{
}

CroColumns *
cro_columns_new (guint n)
{
  CroColumns *self = g_object_new (CRO_TYPE_COLUMNS, NULL);

  self->n = n;
  self->first = self->most = G_MAXUINT;
  self->columns = g_new0 (Column, n);
  return self;
}

guint
cro_columns_get_n (CroColumns *self)
{
  return self->n;
}

void
cro_columns_set_kind (CroColumns *self,
                      guint       column,
                      gboolean    is_number,
                      gboolean    is_whole)
{
  self->columns[column].is_number = is_number;
  self->columns[column].is_whole = is_whole;
}

void
cro_columns_set_first (CroColumns *self,
                       guint       column)
{
  self->first = column;
}

void
cro_columns_set_rank (CroColumns *self,
                      guint       column,
                      guint       rank)
{
  self->columns[column].rank = rank;
}

gboolean
cro_columns_is_left_out (CroColumns *self,
                         guint       column)
{
  return self->columns[column].rank > self->most;
}

gboolean
cro_columns_is_number (CroColumns *self,
                       guint       column)
{
  return self->columns[column].is_number;
}

gboolean
cro_columns_is_whole (CroColumns *self,
                      guint       column)
{
  return self->columns[column].is_whole;
}

static gboolean
tell_cb (gpointer columns)
{
  CroColumns *self = columns;

  self->tell_id = 0;
  g_signal_emit (self, changed_signal, 0);
  return G_SOURCE_REMOVE;
}

/* Before the next frame is laid out. */
static void
tell (CroColumns *self)
{
  if (self->tell_id == 0)
    self->tell_id = g_idle_add_full (G_PRIORITY_HIGH_IDLE, tell_cb, self, NULL);
}

void
cro_columns_forget (CroColumns *self)
{
  for (guint i = 0; i < self->n; i++)
    self->columns[i] = (Column){ .is_number = self->columns[i].is_number,
                                 .is_whole = self->columns[i].is_whole,
                                 .rank = self->columns[i].rank };
  tell (self);
}

void
cro_columns_take (CroColumns *self,
                  guint       column,
                  int         min,
                  int         wanted,
                  int         natural)
{
  Column *of = &self->columns[column];

  if (min <= of->min && wanted <= of->wanted && natural <= of->natural)
    return;
  of->min = MAX (of->min, min);
  of->wanted = MAX (of->wanted, wanted);
  of->natural = MAX (of->natural, natural);
  tell (self);
}

void
cro_columns_take_number (CroColumns *self,
                         guint       column,
                         int         frame,
                         int         head,
                         int         tail)
{
  Column *of = &self->columns[column];
  int width;

  of->head = MAX (of->head, head);
  if (tail > of->tail)
    {
      of->tail = tail;
      tell (self);
    }
  if (tail > 0 && (of->least_tail == 0 || tail < of->least_tail))
    {
      of->least_tail = tail;
      tell (self);
    }
  width = frame + of->head + of->tail;
  cro_columns_take (self, column, width, width, width);
}

int
cro_columns_get_tail (CroColumns *self,
                      guint       column)
{
  return self->columns[column].tail;
}

int
cro_columns_get_aside (CroColumns *self,
                       guint       column)
{
  return self->columns[column].least_tail > 0 ? self->columns[column].tail - self->columns[column].least_tail : 0;
}

gboolean
cro_columns_is_longest (CroColumns *self,
                        guint       column,
                        glong       chars)
{
  Column *of = &self->columns[column];

  if (chars < of->chars)
    return FALSE;
  of->chars = chars;
  return TRUE;
}

/* Of one of the widths in Column, over all columns up to a rank. */
static int
total (CroColumns *self,
       guint       most,
       gsize       width)
{
  int sum = 0;

  for (guint i = 0; i < self->n; i++)
    if (self->columns[i].rank <= most)
      sum += G_STRUCT_MEMBER (int, &self->columns[i], width);
  return sum;
}

/* The highest rank that has room. */
static guint
most_in (CroColumns *self,
         int         width)
{
  guint most = 0;

  for (guint i = 0; i < self->n; i++)
    most = MAX (most, self->columns[i].rank);
  while (most > 0 && total (self, most, G_STRUCT_OFFSET (Column, min)) > width)
    most--;
  return most;
}

void
cro_columns_measure (CroColumns *self,
                     int        *min,
                     int        *natural)
{
  *min = total (self, 0, G_STRUCT_OFFSET (Column, min));
  *natural = total (self, G_MAXUINT, G_STRUCT_OFFSET (Column, natural));
}

/* A part of amount in proportion to done of all, so that the parts add up to amount. */
static int
part (int amount,
      int done,
      int all)
{
  return all > 0 ? (int) ((gint64) amount * done / all) : 0;
}

/* From widths of one sort towards those of another, each its part of the room between. */
static void
go_towards (CroColumns *self,
            guint       most,
            gsize       from,
            gsize       to,
            int         room,
            int         all,
            int        *widths)
{
  int done = 0;

  for (guint i = 0; i < self->n; i++)
    {
      int a = G_STRUCT_MEMBER (int, &self->columns[i], from);
      int next = done + G_STRUCT_MEMBER (int, &self->columns[i], to) - a;

      if (self->columns[i].rank > most)
        continue;
      widths[i] = a + part (room, next, all) - part (room, done, all);
      done = next;
    }
}

static void
spread (CroColumns *self,
        guint       most,
        int         room,
        int        *widths)
{
  int n = 0, done = 0;

  for (guint i = 0; i < self->n; i++)
    n += self->columns[i].rank <= most;
  for (guint i = 0; i < self->n; i++)
    if (self->columns[i].rank <= most)
      {
        widths[i] = self->columns[i].natural
                    + MIN (part (room, done + 1, n) - part (room, done, n), MOST_EXTRA);
        done++;
      }
}

static void
allot (CroColumns *self,
       int         width,
       int        *widths)
{
  guint most = most_in (self, width);
  int min = total (self, most, G_STRUCT_OFFSET (Column, min));
  int wanted = total (self, most, G_STRUCT_OFFSET (Column, wanted));
  int natural = total (self, most, G_STRUCT_OFFSET (Column, natural));

  for (guint i = 0; i < self->n; i++)
    widths[i] = 0;
  if (width >= natural)
    spread (self, most, width - natural, widths);
  else if (width >= wanted)
    go_towards (self, most, G_STRUCT_OFFSET (Column, wanted), G_STRUCT_OFFSET (Column, natural),
                width - wanted, natural - wanted, widths);
  else
    go_towards (self, most, G_STRUCT_OFFSET (Column, min), G_STRUCT_OFFSET (Column, wanted),
                MAX (width - min, 0), wanted - min, widths);
}

void
cro_columns_allot (CroColumns *self,
                   int         width,
                   int        *widths)
{
  guint most = most_in (self, width);
  Column *first = self->first < self->n ? &self->columns[self->first] : NULL;
  Column was;
  int room;

  if (first == NULL || first->rank > most || width >= total (self, most, G_STRUCT_OFFSET (Column, natural)))
    {
      allot (self, width, widths);
      return;
    }
  was = *first;
  room = width - (total (self, most, G_STRUCT_OFFSET (Column, min)) - was.min);
  first->min = MAX (MIN (MIN (was.natural, width * MOST_FIRST / 100), room), was.min);
  first->wanted = first->natural = first->min;
  allot (self, width, widths);
  *first = was;
}

static gboolean
left_out_cb (gpointer columns)
{
  CroColumns *self = columns;

  self->left_out_id = 0;
  g_signal_emit (self, left_out_signal, 0);
  return G_SOURCE_REMOVE;
}

void
cro_columns_show (CroColumns *self,
                  int         width)
{
  guint most = most_in (self, width);

  if (most == self->most)
    return;
  self->most = most;
  if (self->left_out_id == 0)
    self->left_out_id = g_idle_add_full (G_PRIORITY_HIGH_IDLE, left_out_cb, self, NULL);
}
