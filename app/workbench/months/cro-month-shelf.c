#include "config.h"

#include "cro-month-shelf.h"

typedef struct
{
  CroMonth *month;
  guint64   edition;      /* of the book */
} Reckoned;

struct _CroMonthShelf
{
  GObject     parent_instance;

  CroBook    *book;       /* borrowed: it owns the shelf */
  GArray     *firsts;     /* CroDate; NULL: not read yet */
  guint64     edition;    /* of the book when they were read */
  GHashTable *months;     /* first day → Reckoned */
  GQueue     *wanted;     /* first days that are to be reckoned */
  guint       idle;
};

G_DEFINE_FINAL_TYPE (CroMonthShelf, cro_month_shelf, G_TYPE_OBJECT)

enum
{
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
reckoned_free (gpointer data)
{
  Reckoned *reckoned = data;

  cro_month_free (reckoned->month);
  g_free (reckoned);
}

guint32
cro_month_to_slot (CroDate first)
{
  int year, month, day;

  cro_date_to_civil (first, &year, &month, &day);
  return (guint32) (year * 12 + month - 1);
}

CroDate
cro_month_of_slot (guint32 slot)
{
  return cro_date_from_civil ((int) (slot / 12), (int) (slot % 12) + 1, 1);
}

/* --- Which there are ------------------------------------------------------------------------ */

GArray *
cro_month_shelf_list (CroMonthShelf *self)
{
  guint64 edition = cro_book_get_edition (self->book);
  GArray *firsts;

  if (self->firsts != NULL && self->edition == edition)
    return self->firsts;
  firsts = cro_months_list (self->book, NULL);
  /* What cannot be read leaves the list as it was. */
  if (firsts == NULL)
    firsts = self->firsts != NULL ? g_array_ref (self->firsts) : g_array_new (FALSE, FALSE, sizeof (CroDate));
  g_clear_pointer (&self->firsts, g_array_unref);
  self->firsts = firsts;
  self->edition = edition;
  return self->firsts;
}

/* --- Reckoning ------------------------------------------------------------------------------ */

const CroMonth *
cro_month_shelf_reckon (CroMonthShelf  *self,
                        CroDate         first,
                        GError        **error)
{
  guint64 edition = cro_book_get_edition (self->book);
  Reckoned *reckoned = g_hash_table_lookup (self->months, GINT_TO_POINTER (first));
  CroMonth *month;

  if (reckoned != NULL && reckoned->edition == edition)
    return reckoned->month;
  month = cro_month_new_with_rows (self->book, first, error);
  if (month == NULL)
    return NULL;
  reckoned = g_new (Reckoned, 1);
  *reckoned = (Reckoned){ month, edition };
  g_hash_table_insert (self->months, GINT_TO_POINTER (first), reckoned);
  return month;
}

static gboolean
reckon_cb (gpointer user_data)
{
  CroMonthShelf *self = user_data;
  CroDate first = GPOINTER_TO_INT (g_queue_pop_head (self->wanted));
  gboolean goes_on = !g_queue_is_empty (self->wanted);

  /* Whoever hears of the change may want more, by another idle, and may drop the book. */
  if (!goes_on)
    self->idle = 0;
  /* One that cannot be reckoned stays as it was; its page says why. */
  if (cro_month_shelf_reckon (self, first, NULL) != NULL)
    g_signal_emit (self, signals[CHANGED], 0);
  return goes_on;
}

const CroMonth *
cro_month_shelf_peek (CroMonthShelf *self,
                      CroDate        first)
{
  Reckoned *reckoned = g_hash_table_lookup (self->months, GINT_TO_POINTER (first));

  if ((reckoned == NULL || reckoned->edition != cro_book_get_edition (self->book))
      && g_queue_find (self->wanted, GINT_TO_POINTER (first)) == NULL)
    {
      g_queue_push_tail (self->wanted, GINT_TO_POINTER (first));
      if (self->idle == 0)
        self->idle = g_idle_add_full (G_PRIORITY_LOW, reckon_cb, self, NULL);
    }
  return reckoned != NULL ? reckoned->month : NULL;
}

static void
book_changed_cb (CroMonthShelf *self)
{
  if (self->firsts != NULL && self->edition != cro_book_get_edition (self->book))
    g_signal_emit (self, signals[CHANGED], 0);
}

/* --- The object ----------------------------------------------------------------------------- */

static void
cro_month_shelf_dispose (GObject *object)
{
  CroMonthShelf *self = CRO_MONTH_SHELF (object);

  g_clear_handle_id (&self->idle, g_source_remove);
  g_clear_pointer (&self->wanted, g_queue_free);
  g_clear_pointer (&self->months, g_hash_table_unref);
  g_clear_pointer (&self->firsts, g_array_unref);
  G_OBJECT_CLASS (cro_month_shelf_parent_class)->dispose (object);
}

static void
cro_month_shelf_class_init (CroMonthShelfClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_month_shelf_dispose;
  signals[CHANGED] = g_signal_new ("changed", CRO_TYPE_MONTH_SHELF, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
}

static void
cro_month_shelf_init (CroMonthShelf *self)
{
  self->months = g_hash_table_new_full (NULL, NULL, NULL, reckoned_free);
  self->wanted = g_queue_new ();
}

CroMonthShelf *
cro_month_shelf_of (CroBook *book)
{
  CroMonthShelf *self = g_object_get_data (G_OBJECT (book), "cro-month-shelf");

  if (self != NULL)
    return self;
  self = g_object_new (CRO_TYPE_MONTH_SHELF, NULL);
  self->book = book;
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
  g_object_set_data_full (G_OBJECT (book), "cro-month-shelf", self, g_object_unref);
  return self;
}
