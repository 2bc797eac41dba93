#include "config.h"

#include "cro-become-words.h"

#include <glib/gi18n.h>

#include "cro-past-words.h"
#include "cro-selling-steps.h"
#include "cro-words.h"

static char *
dup_text (GString *text)
{
  char *own = text->len > 0 ? g_strdup (text->str) : NULL;

  g_string_free (text, TRUE);
  return own;
}

static void
add (GString    *text,
     const char *separator,
     const char *more)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? separator : "", more);
}

char *
cro_become_note_of_plate (CroBook *book,
                          guint32  plate)
{
  CroModel *model = cro_book_get_model (book);
  const CroRecipe *of = cro_model_recipe (model, plate);
  GString *text = g_string_new (NULL);

  if (of->allowance != CRO_NOT_SET && of->allowance != 0)
    {
      g_autofree char *pct = cro_words_decimal (of->allowance);
      /* Translators: in a note: what a plate added for seasoning and handling, in per cent. */
      g_autofree char *said = g_strdup_printf (_("seasoning and handling %s %%"), pct);

      add (text, _("; "), said);
    }
  if (of->price != CRO_NOT_SET)
    {
      g_autofree char *price = cro_words_price (model, of->price);
      /* Translators: in a note: what a plate was sold for. */
      g_autofree char *said = g_strdup_printf (_("selling price %s"), price);

      add (text, _("; "), said);
    }
  return dup_text (text);
}

char *
cro_become_note_of_item (CroBook *book,
                         guint32  item)
{
  const CroItem *of = cro_model_item (cro_book_get_model (book), item);
  GString *text = g_string_new (NULL);

  if (of->allergens > 0)
    {
      g_autofree char *names = cro_words_allergens ((guint32) of->allergens);
      /* Translators: in a note: what an ingredient contains. */
      g_autofree char *said = g_strdup_printf (_("allergens: %s"), names);

      add (text, _("; "), said);
    }
  if (of->may_contain > 0)
    {
      g_autofree char *names = cro_words_allergens ((guint32) of->may_contain);
      /* Translators: in a note: what an ingredient may contain, as its label warns. */
      g_autofree char *said = g_strdup_printf (_("may contain: %s"), names);

      add (text, _("; "), said);
    }
  return dup_text (text);
}

/* Columns of a plate that a preparation does not have; the price goes into the note, and pieces into what
 * the batch gives. */
static void
add_columns (GString *text,
             CroBook *book,
             gint64   plate)
{
  static const char *const columns[] = { "course", "per_guest_micro", "tax_pct_micro", "target_pct_micro",
                                         NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), "plate", plate, columns, NULL);

  if (rows == NULL || !cro_rows_next (rows, NULL))
    return;
  for (int i = 0; columns[i] != NULL; i++)
    if (!cro_rows_is_null (rows, i))
      add (text, ", ", cro_past_column ("plate", columns[i]));
}

char *
cro_become_dropped (CroBook *book,
                    guint32  plate)
{
  GString *text = g_string_new (NULL);
  g_autoptr (GArray) steps = cro_selling_steps_new (book, CRO_REF (CRO_REF_RECIPE, plate), NULL);

  add_columns (text, book, cro_model_recipe (cro_book_get_model (book), plate)->id);
  if (steps != NULL && steps->len > 0)
    {
      g_autofree char *said = g_strdup_printf (ngettext ("%u dated selling price", "%u dated selling prices",
                                                         steps->len), steps->len);

      add (text, ", ", said);
    }
  return dup_text (text);
}
