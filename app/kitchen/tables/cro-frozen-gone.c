#include "cro-frozen-gone.h"

#include <string.h>

#include "cro-history.h"

#define MONTH_CHARS 8 /* "2026-10" */

/* What is known of the name of a month that was closed. */
typedef struct
{
  char     of_rows[MONTH_CHARS];    /* "": no day was told, or days of several months */
  char     told[MONTH_CHARS];       /* by the journal; "": nothing */
  gboolean is_split;
  gboolean was_closed;              /* frozen rows of it stand, or the journal tells so */
  gboolean is_there;                /* as a row of table month, closed or not … */
  char     there[MONTH_CHARS];      /* … and its name there, by which it goes where nothing else tells one */
} Name;

struct _CroFrozenGone
{
  GHashTable *names;                /* id of a month → Name */
  GHashTable *held;                 /* set of the names of months that are closed in the file */
};

CroFrozenGone *
cro_frozen_gone_new (void)
{
  CroFrozenGone *self = g_new0 (CroFrozenGone, 1);

  self->names = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  self->held = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  return self;
}

void
cro_frozen_gone_free (CroFrozenGone *self)
{
  g_hash_table_unref (self->names);
  g_hash_table_unref (self->held);
  g_free (self);
}

static Name *
name_of (CroFrozenGone *self,
         gint64         month)
{
  Name *name = g_hash_table_lookup (self->names, &month);

  if (name == NULL)
    {
      name = g_new0 (Name, 1);
      g_hash_table_insert (self->names, g_memdup2 (&month, sizeof month), name);
    }
  return name;
}

gboolean
cro_frozen_gone_is_dated (const char *kind)
{
  static const char *const dated[] = { "count", "purchase", "adjustment", NULL };

  return g_strv_contains (dated, kind);
}

void
cro_frozen_gone_add (CroFrozenGone *self,
                     gint64         month,
                     const char    *kind,
                     const char    *date)
{
  char text[MONTH_CHARS];
  Name *name;

  if (kind == NULL || date == NULL || !cro_frozen_gone_is_dated (kind))
    return;
  name = name_of (self, month);
  g_strlcpy (text, date, sizeof text);
  name->is_split |= name->of_rows[0] != '\0' && strcmp (name->of_rows, text) != 0;
  name->was_closed = TRUE;
  memcpy (name->of_rows, text, sizeof text);
}

/* --- What the journal and the file say ------------------------------------------------------ */

static void
take_told (gint64              row,
           const char *const  *texts,
           gpointer            user_data)
{
  Name *name;

  if (texts[1] == NULL)
    return;
  name = name_of (user_data, row);
  name->was_closed = TRUE;
  if (texts[0] != NULL)
    g_strlcpy (name->told, texts[0], sizeof name->told);
}

/* One that has but its hash was closed too: that is told as a row that was altered. */
static gboolean
take_held (CroRows   *rows,
           gpointer   user_data,
           GError   **error)
{
  CroFrozenGone *self = user_data;
  Name *name;

  if (!cro_rows_is_null (rows, 1) && (!cro_rows_is_null (rows, 2) || !cro_rows_is_null (rows, 3)))
    g_hash_table_add (self->held, g_strdup (cro_rows_get_text (rows, 1)));
  name = name_of (self, cro_rows_get_int (rows, 0));
  name->is_there = TRUE;
  g_strlcpy (name->there, cro_rows_is_null (rows, 1) ? "" : cro_rows_get_text (rows, 1), sizeof name->there);
  return TRUE;
}

static const char *
text_of (const Name *name)
{
  if (name->told[0] != '\0')
    return name->told;
  if (name->is_split)
    return "";
  return name->of_rows[0] != '\0' ? name->of_rows : name->there;
}

static void
take_told_row (gint64              row,
               const char *const  *texts,
               gpointer            user_data)
{
  gint64 month;

  if (texts[0] != NULL && g_ascii_string_to_signed (texts[0], 10, 1, G_MAXINT64, &month, NULL))
    cro_frozen_gone_add (user_data, month, texts[1], texts[2]);
}

/* Of a month whose frozen rows went with it the journal tells those too. */
static gboolean
is_any_nameless (CroFrozenGone *self)
{
  GHashTableIter iter;
  gpointer value;

  g_hash_table_iter_init (&iter, self->names);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const Name *name = value;

      if (name->was_closed && !name->is_there && text_of (name)[0] == '\0')
        return TRUE;
    }
  return FALSE;
}

gboolean
cro_frozen_gone_find (CroFrozenGone   *self,
                      CroStore        *store,
                      CroFrozenFound   found,
                      gpointer         user_data,
                      GError         **error)
{
  static const char *const columns[] = { "id", "month", "closed_at", "hash", NULL };
  static const char *const told[] = { "month", "closed_at", NULL };
  static const char *const told_of_row[] = { "month", "kind", "date", NULL };
  GHashTableIter iter;
  gpointer value;

  if (!cro_store_read_each (store, "month", columns, take_held, self, error)
      || !cro_store_each_told (store, "month", told, take_told, self, error)
      || (is_any_nameless (self)
          && !cro_store_each_told (store, "month_row", told_of_row, take_told_row, self, error)))
    return FALSE;
  g_hash_table_iter_init (&iter, self->names);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const char *month = text_of (value);

      /* Two that lost one name are told once. */
      if (((const Name *) value)->was_closed && month[0] != '\0' && g_hash_table_add (self->held, g_strdup (month)))
        found (month, user_data);
    }
  return TRUE;
}
