#include "config.h"

#include "cro-later.h"

/* Before events that wait, and so before layout too. */
#define PRIORITY G_PRIORITY_HIGH

static GQuark
tell_quark (void)
{
  return g_quark_from_static_string ("cro-later");
}

static gboolean
tell_cb (gpointer book)
{
  g_object_set_qdata (book, tell_quark (), NULL);
  cro_book_tell (book);
  return G_SOURCE_REMOVE;
}

/* The source holds the book. */
static void
later_cb (CroBook  *book,
          gpointer  unused)
{
  guint id;

  if (g_object_get_qdata (G_OBJECT (book), tell_quark ()) != NULL)
    return;
  id = g_idle_add_full (PRIORITY, tell_cb, g_object_ref (book), g_object_unref);
  g_object_set_qdata (G_OBJECT (book), tell_quark (), GUINT_TO_POINTER (id));
}

void
cro_later_begin (CroBook *book)
{
  cro_book_set_later (book, later_cb, NULL);
}
