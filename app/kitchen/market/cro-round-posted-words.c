/* What was posted, or will be: as it is sent to somebody, and which packs are preferred by it. */
#include "config.h"

#include "cro-round-private.h"
#include "cro-round-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-isolate.h"
#include "cro-number.h"

/* "Hake, 10 kg: 10.90 → 11.30, from 27 Nov"; NULL: nothing of it is in force that a price tells. */
static char *
dup_posted (const CroRoundPost   *post,
            const CroRoundPosted *row)
{
  g_autofree char *pack = NULL, *price = NULL, *since = NULL, *what = NULL, *said = NULL, *line = NULL;

  if (row->is_back || row->price == NULL)
    return NULL;
  pack = row->pack != NULL ? g_strdup_printf (", %s", row->pack) : g_strdup ("");
  price = row->last != NULL && strcmp (row->last, row->price) != 0
              /* Translators: a price before and after. */
              ? g_strdup_printf (_("%s → %s"), row->last, row->price)
              : g_strdup (row->price);
  if (row->from != post->from)
    {
      g_autofree char *day = cro_date_to_text (row->from);

      since = g_strdup_printf (_("from %s"), day);
    }
  what = g_strdup_printf ("%s%s", row->name, pack);
  said = since != NULL ? g_strdup_printf ("%s, %s", price, since) : g_steal_pointer (&price);
  line = cro_isolate_printf (_("%s: %s"), what, said);
  return g_strdup_printf ("%s\n", line);
}

char *
cro_words_round_copy (const char         *supplier,
                      const CroRoundPost *post)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *date = cro_date_to_text (post->from);
  /* Translators: a heading: a supplier, the day from which its prices hold. */
  g_autofree char *title = cro_isolate_printf (_("Prices of %s from %s"), supplier, date);

  for (guint i = 0; i < post->rows->len; i++)
    {
      g_autofree char *line = dup_posted (post, post->rows->pdata[i]);

      if (line != NULL)
        g_string_append (text, line);
    }
  return text->len > 0 ? g_strdup_printf ("%s\n%s", title, text->str) : g_strdup ("");
}

/* --- Preferred ------------------------------------------------------------------------------------------- */

/* offer: an id; of one that is gone nothing is said. */
static void
add_preferred (CroModel *model,
               gint64    offer,
               GString  *packs)
{
  guint32 slot = cro_slots_get (&model->offer_slots, offer);
  const CroOfferEntry *entry = slot != CRO_NO_SLOT ? cro_model_offer (model, slot) : NULL;
  g_autofree char *pack = NULL;

  if (entry == NULL)
    return;
  /* Translators: an ingredient, and the supplier whose pack of it is preferred. */
  pack = cro_isolate_printf (_("%s, %s"), cro_model_item (model, entry->item)->name,
                             g_array_index (model->suppliers, CroSupplier, entry->supplier).name);
  g_string_append_printf (packs, "%s%s", packs->len > 0 ? " · " : "", pack);
}

char *
cro_words_round_preferred (CroRound *round)
{
  g_autoptr (GString) packs = g_string_new (NULL);

  for (guint i = 0; i < round->preferred->len; i++)
    add_preferred (round->of.model, g_array_index (round->preferred, gint64, i), packs);
  /* Translators: ingredients with suppliers, whose packs posting makes the preferred ones. */
  return packs->len > 0 ? g_strdup_printf (_("Preferred once posted: %s"), packs->str) : NULL;
}

/* Whether the posting made it so, and nobody changed that since. */
static gboolean
is_preferred_by (CroModel                *model,
                 const CroRoundPreferred *before)
{
  guint32 slot = cro_slots_get (&model->offer_slots, before->offer);

  return !before->was && slot != CRO_NO_SLOT && cro_model_offer (model, slot)->offer.is_preferred;
}

char *
cro_words_round_now_preferred (CroRound  *round,
                               GPtrArray *posts)
{
  CroModel *model = cro_book_get_model (round->book);
  g_autoptr (GString) packs = g_string_new (NULL);

  for (guint i = 0; i < posts->len; i++)
    {
      const GArray *preferred = ((CroRoundPost *) posts->pdata[i])->preferred;

      for (guint k = 0; k < preferred->len; k++)
        if (is_preferred_by (model, &g_array_index (preferred, CroRoundPreferred, k)))
          add_preferred (model, g_array_index (preferred, CroRoundPreferred, k).offer, packs);
    }
  /* Translators: ingredients with suppliers, whose packs are preferred by what was posted. */
  return packs->len > 0 ? g_strdup_printf (_("Now preferred: %s"), packs->str) : NULL;
}
