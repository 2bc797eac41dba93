#include "config.h"

#include "cro-habit-choice.h"

#include <glib/gi18n.h>

#include "cro-choice.h"
#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-edit.h"
#include "cro-past-words.h"

/* The one row of the book, which is made where a new book does not have it yet. */
#define TABLE "book"
#define ID 1
#define COLUMN "price_steps"

static gboolean
keep (CroChoice      *choice,
      const CroCell  *cell,
      gpointer        book,
      GError        **error)
{
  static const char *const columns[] = { COLUMN, NULL };

  return cro_edit_set (book, cro_choice_get_act (choice), TABLE, ID, columns, cell, error);
}

GtkWidget *
cro_habit_choice_new (void)
{
  g_autofree const char **words = cro_code_dup_words (cro_price_habit_codes);

  return cro_choice_new (_("Selling prices rounded to"), cro_price_habit_codes, words);
}

void
cro_habit_choice_bind (GtkWidget *choice,
                       CroBook   *book)
{
  CroBook *before = g_object_get_data (G_OBJECT (choice), "book");
  g_autofree char *act = cro_past_dup_act (TABLE, COLUMN, NULL);

  if (before == book)
    return;
  if (before != NULL)
    g_signal_handlers_disconnect_by_func (before, cro_choice_refresh, choice);
  g_object_set_data_full (G_OBJECT (choice), "book", g_object_ref (book), g_object_unref);
  cro_choice_set_way (CRO_CHOICE (choice), keep, book);
  cro_choice_bind (CRO_CHOICE (choice), book, TABLE, ID, COLUMN, act);
  cro_choice_set_unset (CRO_CHOICE (choice), cro_price_habit_codes[0]);
  g_signal_connect_object (book, "changed", G_CALLBACK (cro_choice_refresh), choice,
                           G_CONNECT_SWAPPED);
}
