#include "config.h"

#include "cro-trials.h"

#include <stdlib.h>
#include <string.h>

#include "cro-state.h"

#define PREFIX "trial.%" G_GINT64_FORMAT "."
#define WORDS "trial-words."
#define TOLD "trial-told."
#define FRONT "trial-in-front.%" G_GINT64_FORMAT

static const char *
group_of (CroBook *book)
{
  return cro_store_get_path (cro_book_get_store (book));
}

static char *
dup_key (gint64 thing,
         guint  number)
{
  return g_strdup_printf (PREFIX "%u", thing, number);
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  guint x = *(const guint *) a, y = *(const guint *) b;

  return x < y ? -1 : x > y;
}

GArray *
cro_trials_list (CroBook *book,
                 gint64   thing)
{
  g_autofree char *prefix = g_strdup_printf (PREFIX, thing);
  g_auto (GStrv) keys = cro_state_dup_keys (group_of (book), prefix);
  GArray *numbers = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; keys[i] != NULL; i++)
    {
      guint number = (guint) strtoul (keys[i] + strlen (prefix), NULL, 10);

      if (number > 0)
        g_array_append_val (numbers, number);
    }
  g_array_sort (numbers, compare);
  return numbers;
}

char *
cro_trials_dup (CroBook *book,
                gint64   thing,
                guint    number)
{
  g_autofree char *key = dup_key (thing, number);

  return cro_state_dup_text (group_of (book), key);
}

void
cro_trials_set (CroBook    *book,
                gint64      thing,
                guint       number,
                const char *text)
{
  g_autofree char *key = dup_key (thing, number);

  cro_state_set_text (group_of (book), key, text);
  if (text == NULL)
    cro_trials_set_words (book, thing, number, NULL);
  if (text == NULL && cro_trials_get_front (book, thing) == number)
    cro_trials_set_front (book, thing, 0);
}

/* --- Without its plate ------------------------------------------------------------------------ */

void
cro_trials_set_words (CroBook    *book,
                      gint64      thing,
                      guint       number,
                      const char *words)
{
  g_autofree char *key = g_strdup_printf (WORDS "%" G_GINT64_FORMAT ".%u", thing, number);

  cro_state_set_text (group_of (book), key, words);
}

/* What was removed keeps its slot. */
static gboolean
is_there (CroModel *model,
          gint64    thing)
{
  guint32 plate = cro_slots_get (&model->plate_slots, thing), menu = cro_slots_get (&model->menu_slots, thing);

  return (plate != CRO_NO_SLOT && !cro_model_recipe (model, plate)->is_dead)
         || (menu != CRO_NO_SLOT && !cro_model_menu (model, menu)->is_dead);
}

GPtrArray *
cro_trials_list_lost (CroBook *book)
{
  g_auto (GStrv) keys = cro_state_dup_keys (group_of (book), WORDS);
  GPtrArray *lost = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; keys[i] != NULL; i++)
    {
      const char *of = keys[i] + strlen (WORDS);
      g_autofree char *told = g_strconcat (TOLD, of, NULL);
      gboolean is_back = is_there (cro_book_get_model (book), g_ascii_strtoll (of, NULL, 10));
      g_autofree char *before = cro_state_dup_text (group_of (book), told);

      if (!is_back && before == NULL)
        g_ptr_array_add (lost, cro_state_dup_text (group_of (book), keys[i]));
      if (is_back != (before == NULL))
        cro_state_set_text (group_of (book), told, is_back ? NULL : "1");
    }
  return lost;
}

guint
cro_trials_find_free (CroBook *book,
                      gint64   thing)
{
  g_autoptr (GArray) numbers = cro_trials_list (book, thing);
  guint number = 1;

  for (guint i = 0; i < numbers->len && g_array_index (numbers, guint, i) == number; i++)
    number++;
  return number;
}

guint
cro_trials_get_front (CroBook *book,
                      gint64   thing)
{
  g_autofree char *key = g_strdup_printf (FRONT, thing);
  g_autofree char *text = cro_state_dup_text (group_of (book), key);
  guint number = text != NULL ? (guint) strtoul (text, NULL, 10) : 0;
  g_autofree char *trial = number > 0 ? cro_trials_dup (book, thing, number) : NULL;

  return trial != NULL ? number : 0;
}

void
cro_trials_set_front (CroBook *book,
                      gint64   thing,
                      guint    number)
{
  g_autofree char *key = g_strdup_printf (FRONT, thing);
  g_autofree char *text = number > 0 ? g_strdup_printf ("%u", number) : NULL;

  cro_state_set_text (group_of (book), key, text);
}
