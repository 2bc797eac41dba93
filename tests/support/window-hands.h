/* window-hands.h: what cases do with a window on a book of one plate, each step by what is seen of it. */
#pragma once

#include <sqlite3.h>

#include "cro-focus.h"
#include "support/book-window.h"

typedef gboolean (*Condition) (CroTestWindow *f,
                               const char    *text);

static inline void
wait_for (CroTestWindow *f,
          Condition      condition,
          const char    *text)
{
  cro_test_wait_until (condition (f, text), "not in time: %s", text);
}

static inline gboolean
shows (CroTestWindow *f,
       const char    *text)
{
  return cro_test_find_shown (GTK_WIDGET (f->window), text) != NULL;
}

static inline gboolean
shows_not (CroTestWindow *f,
           const char    *text)
{
  return !shows (f, text);
}

/* The first field of a part of the window. */
static inline GtkEditable *
field_of (CroTestWindow *f,
          const char    *part)
{
  GtkWidget *place = cro_focus_find (GTK_WIDGET (f->window), part);
  GtkWidget *entry;

  assert_non_null (place);
  entry = cro_test_find_type (place, GTK_TYPE_ENTRY);
  assert_non_null (entry);
  return GTK_EDITABLE (entry);
}

/* The field of the amount of the first line. */
static inline GtkEditable *
amount_of (CroTestWindow *f)
{
  return field_of (f, "lines");
}

static inline void
run_sql (const char  *path,
         const char  *sql,
         sqlite3    **open)
{
  sqlite3 *db;

  assert_int_equal (sqlite3_open (path, &db), SQLITE_OK);
  assert_int_equal (sqlite3_exec (db, sql, NULL, NULL, NULL), SQLITE_OK);
  if (open != NULL)
    *open = db;
  else
    sqlite3_close (db);
}
