#include "cro-selling-doubt.h"

#include <math.h>

#include "cro-decimal.h"

#define SAID_RIGHT "said-right"

/* Of a thing, by its id, a price from a day on. Owned. */
static char *
dup_key (CroModel *model,
         CroRef    thing,
         CroDate   from,
         double    price)
{
  gint64 id = thing.kind == CRO_REF_MENU ? cro_model_menu (model, thing.slot)->id
                                         : cro_model_recipe (model, thing.slot)->id;

  return g_strdup_printf ("%d %" G_GINT64_FORMAT " %d %.6f", (int) thing.kind, id, from, price);
}

static gboolean
is_said_right (CroBook *book,
               CroRef   thing,
               CroDate  from,
               double   price)
{
  GHashTable *said = g_object_get_data (G_OBJECT (book), SAID_RIGHT);
  g_autofree char *key = said != NULL ? dup_key (cro_book_get_model (book), thing, from, price) : NULL;

  return key != NULL && g_hash_table_contains (said, key);
}

void
cro_selling_say_right (CroBook        *book,
                       const CroDoubt *doubt)
{
  GHashTable *said = g_object_get_data (G_OBJECT (book), SAID_RIGHT);

  if (said == NULL)
    {
      said = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
      g_object_set_data_full (G_OBJECT (book), SAID_RIGHT, said, (GDestroyNotify) g_hash_table_unref);
    }
  g_hash_table_add (said, dup_key (cro_book_get_model (book), doubt->ref, doubt->date, doubt->is));
  cro_book_ask_anew (book);
}

/* The newest before a day that is another: a change of tax repeats a price, and where none was asked for a while the
 * one before that counts. *from stays as it is where it is the undated one. */
static gint64
price_before (CroModel *model,
              CroRef    thing,
              GArray   *steps,
              gint64    price,
              CroDate  *from)
{
  for (guint i = 0; i < steps->len; i++)
    {
      const CroSellingStep *step = &g_array_index (steps, CroSellingStep, i);

      if (step->from < *from && step->price != CRO_NOT_SET && step->price != price)
        {
          *from = step->from;
          return step->price;
        }
    }
  return cro_selling_terms_on (model, NULL, thing, *from).price;
}

static double
to_double (gint64 price)
{
  return price != CRO_NOT_SET ? cro_decimal_to_double (price) : NAN;
}

gboolean
cro_doubt_of_selling (CroBook  *book,
                      CroRef    thing,
                      GArray   *steps,
                      CroDate   date,
                      CroDoubt *doubt)
{
  CroModel *model = cro_book_get_model (book);
  gboolean is_right[CRO_DOUBT_PRICES] = { FALSE };
  const CroSellingStep *step = cro_selling_step_on (steps, date);
  double prices[CRO_DOUBT_PRICES], slip;
  CroDate since;
  gint64 before;
  int at;

  if (step == NULL || step->price == CRO_NOT_SET)
    return FALSE;
  since = step->from;
  before = price_before (model, thing, steps, step->price, &since);
  prices[0] = to_double (step->price);
  prices[1] = to_double (before);
  prices[2] = NAN;
  /* Nothing is before the undated one. */
  if (since < step->from)
    {
      CroDate older = since;

      prices[2] = to_double (price_before (model, thing, steps, before, &older));
    }
  is_right[0] = is_said_right (book, thing, step->from, prices[0]);
  is_right[1] = is_said_right (book, thing, since, prices[1]);
  at = cro_doubt_of_jump (prices, is_right, &slip);
  if (at < 0)
    return FALSE;
  *doubt = (CroDoubt){ .kind = CRO_DOUBT_SELLING, .ref = thing, .column = "price_micro", .other = CRO_NO_SLOT,
                       .date = at > 0 ? since : step->from, .is_past = at > 0, .is = prices[at] };
  doubt->meant = slip != 0 ? doubt->is / slip : NAN;
  return TRUE;
}
