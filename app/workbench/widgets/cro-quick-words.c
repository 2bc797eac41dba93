#include "config.h"

#include "cro-quick-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-example.h"
#include "cro-isolate.h"
#include "cro-landing.h"
#include "cro-number.h"
#include "cro-paste.h"
#include "cro-words-price.h"
#include "cro-words.h"

/* Of what a paste makes anew, told by name. */
#define MOST_NAMES 6u

/* What is quoted of a text, which may be a whole recipe. */
#define MOST_QUOTED 40

static char *
dup_part (const char     *text,
          const CroQuick *quick)
{
  g_autofree char *part = g_strndup (text + quick->start, quick->end - quick->start);
  g_autofree char *start = NULL;

  if (g_utf8_strlen (part, -1) <= MOST_QUOTED)
    return g_steal_pointer (&part);
  start = g_utf8_substring (part, 0, MOST_QUOTED);
  return g_strconcat (start, "…", NULL);
}

char *
cro_quick_reason (const char     *text,
                  const CroQuick *quick)
{
  g_autofree char *part = dup_part (text, quick);
  g_autofree char *example = NULL;

  switch (quick->fault)
    {
    case CRO_QUICK_EMPTY:
      return g_strdup (_("Type an amount and a name; with a price the ingredient is made too"));
    case CRO_QUICK_NO_NAME:
      return g_strdup (_("…of what?"));
    case CRO_QUICK_AMOUNT:
      return cro_isolate_printf (_("“%s” is not an amount. Type a number and a unit, as in 1.5 kg."), part);
    case CRO_QUICK_RANGE:
      /* Translators: %s is a range that was typed as an amount, such as “2–3”. */
      return cro_isolate_printf (_("“%s” is a range; type one amount."), part);
    case CRO_QUICK_TWO_AMOUNTS:
      /* Translators: %s is the second amount of a line, such as “250 g”. */
      return cro_isolate_printf (_("“%s” is a second amount; type one, such as 3 lb 4 oz."), part);
    case CRO_QUICK_PRICE:
      example = cro_words_price_example (TRUE);
      /* Translators: a part of what was typed; an example of a price, 9.20/kg. */
      return cro_isolate_printf (_("“%s” is not a price such as %s."), part, example);
    case CRO_QUICK_TWO_PRICES:
      /* Translators: %s is the first price of a line that has two, such as “20/kg”. */
      return cro_isolate_printf (_("“%s” is a price, and there is another behind it; type the one that is paid."),
                                 part);
    case CRO_QUICK_BEHIND_PRICE:
      /* Translators: %s is what was typed behind a price; “trimmed” and “as bought” are words
       * that are taken there. */
      return cro_isolate_printf (_("“%s” after the price is not understood. Use “trimmed” or “as "
                                   "bought”; a note follows a comma."), part);
    case CRO_QUICK_LOSS:
      /* Translators: %s is a loss that was typed behind a line of a recipe, such as "loss 18 %". */
      return cro_isolate_printf (_("“%s” would not count here; remove it, and set the ingredient’s trim yield in the "
                                   "larder."), part);
    case CRO_QUICK_DISCOUNT:
      example = cro_words_price_example (TRUE);
      /* Translators: a discount that was typed behind a line, such as "30 % off"; an example of a price, 9.20/kg. */
      return cro_isolate_printf (_("“%s” would not count here; remove it, and type the price that is paid, such as "
                                   "%s."), part, example);
    case CRO_QUICK_REMARK:
      /* Translators: %s was typed behind a line of a recipe and has a number, such as "gross 180 g". */
      return cro_isolate_printf (_("“%s” would not count here; remove it. What is lost of an ingredient is its trim "
                                   "yield, in the larder."), part);
    case CRO_QUICK_TAX_BESIDE:
      example = cro_words_price_example (TRUE);
      /* Translators: a tax that was typed behind a line, such as "TTC"; an example of a price, 9.20/kg. */
      return cro_isolate_printf (_("“%s” would not count here; remove it, and type the price without tax, such as "
                                   "%s."), part, example);
    case CRO_QUICK_CURRENCY:
      return cro_words_price_currency (part, quick->currency);
    case CRO_QUICK_TAX:
      return cro_words_price_tax (part, CRO_TAX_WITH);
    case CRO_QUICK_NO_CURRENCY:
      /* Translators: %s is a price with a sign of a currency. */
      return cro_isolate_printf (_("“%s” names a currency, and the book has none yet; set it in the book settings."),
                                 part);
    case CRO_QUICK_PRICE_OF:
      /* Translators: each %s is the price that was typed. */
      return cro_isolate_printf (_("“%s” for how much? Type %s/kg or %s each."), part, part, part);
    case CRO_QUICK_WHICH_UNIT:
      return cro_words_which_unit (part, quick->choices);
    case CRO_QUICK_NO_SIZE:
      return cro_words_no_size (part);
    case CRO_QUICK_STRAY:
      return g_strdup (_("The name contains an invisible character; type it again."));
    case CRO_QUICK_MADE:
      /* Translators: %s is what a preparation gives, typed with a price. */
      return cro_isolate_printf (_("“%s” comes from a preparation and has no price of its own; remove the price."),
                                 quick->name);
    case CRO_QUICK_OK:
      break;
    }
  return quick->has_amount ? NULL : g_strdup (_("How much?"));
}

/* What is not in the book and has no price is offered below in both of its kinds, with their keys. */
static char *
what_enter_does (CroModel       *model,
                 const CroQuick *quick)
{
  const char *near_name = quick->match == CRO_QUICK_SIMILAR ? cro_model_item (model, quick->item)->name : NULL;

  if (quick->match == CRO_QUICK_EXACT)
    return quick->has_price ? g_strdup (_("Press Enter to add it and set its price from today"))
                            : g_strdup (_("Press Enter to add it"));
  /* Nobody makes a second butter in silence. */
  if (near_name != NULL)
    return cro_isolate_printf (quick->has_price
                                   /* Translators: what was typed; a name of the book that is like it. */
                                   ? _("Press Enter to make the new ingredient “%s” with its price, ↓ to take “%s”")
                                   /* Translators: what was typed; a name of the book that is like it. */
                                   : _("Press Enter to make the new ingredient “%s”, ↓ to take “%s”"),
                               quick->name, near_name);
  if (quick->has_price)
    return cro_isolate_printf (_("Press Enter to make the ingredient “%s” with its price"),
                               quick->name);
  return cro_isolate_printf (_("“%s” is not in the book yet"), quick->name);
}

/* Why it would stand without a cost. */
static void
add_lack (GString        *hint,
          CroFigures     *figures,
          const CroQuick *quick)
{
  CroLack lack = cro_quick_lacks (figures, quick);
  CroCause cause = { lack & CRO_LACKS_DENSITY ? CRO_CAUSE_DENSITY : CRO_CAUSE_PIECE, NULL };
  g_autofree char *words = NULL;

  if (lack == CRO_LACKS_NOTHING)
    return;
  cause.name = cro_model_item (figures->model, quick->item)->name;
  words = cro_words_cause (&cause);
  g_string_append_printf (hint, " · %s", words);
}

char *
cro_quick_hint (CroFigures     *figures,
                guint32         recipe,
                const char     *text,
                const CroQuick *quick)
{
  double cost = cro_quick_cost (figures, quick);
  char *reason = cro_quick_reason (text, quick);
  g_autofree char *act = NULL;
  GString *hint;

  if (reason != NULL)
    return reason;
  act = what_enter_does (figures->model, quick);
  hint = g_string_new (NULL);
  if (isfinite (cost))
    {
      int digits = cro_currency_digits (figures->model->currency);
      g_autofree char *money = cro_money_to_text (cro_landing_of_added (figures, recipe, cost), digits);

      /* Translators: what a line would cost that is being typed. */
      g_string_append_printf (hint, _("Costs %s · "), money);
    }
  g_string_append (hint, act);
  add_lack (hint, figures, quick);
  if (quick->has_weighing)
    g_string_append_printf (hint, " · %s", quick->as_bought ? _("as bought") : _("trimmed"));
  if (quick->note != NULL)
    /* Translators: %s is what was typed behind a comma. */
    {
      g_autofree char *note = cro_isolate_printf (_(" · note: %s"), quick->note);

      g_string_append (hint, note);
    }
  if (quick->understood != NULL)
    /* Translators: %s is a number that could have been read in another way. */
    g_string_append_printf (hint, _(" · read as %s"), quick->understood);
  return g_string_free (hint, FALSE);
}

/* What of a paste goes elsewhere than into lines. */
static void
add_aside (GString        *hint,
           const CroPaste *paste,
           gboolean        sets_yield,
           guint           n_notes)
{
  if (sets_yield && paste->title.makes > 0)
    {
      g_autofree char *makes = cro_number_to_text ((double) paste->title.makes / CRO_MICRO, 0, TRUE);

      g_string_append (hint, " · ");
      /* Translators: %s is how many pieces or portions a pasted recipe makes. */
      g_string_append_printf (hint, _("makes %s"), makes);
    }
  if (n_notes > 0)
    {
      g_string_append (hint, " · ");
      g_string_append_printf (hint, ngettext ("%u row goes into the note", "%u rows go into the note", n_notes),
                              n_notes);
    }
}

/* Names of a paste that the book does not have, each once. */
static GPtrArray *
list_new (const CroPaste *paste)
{
  GPtrArray *names = g_ptr_array_new ();

  for (guint i = 0; i < paste->rows->len; i++)
    {
      const CroPasteRow *row = cro_paste_get (paste, i);

      if (row->kind == CRO_PASTE_LINE && row->quick.match == CRO_QUICK_UNKNOWN
          && !g_ptr_array_find_with_equal_func (names, row->quick.name, g_str_equal, NULL))
        g_ptr_array_add (names, row->quick.name);
    }
  return names;
}

static void
add_new (GString        *hint,
         const CroPaste *paste)
{
  g_autoptr (GPtrArray) names = list_new (paste);
  g_autoptr (GString) list = g_string_new (NULL);

  if (names->len == 0)
    return;
  for (guint i = 0; i < MIN (names->len, MOST_NAMES); i++)
    cro_isolate_append (list, names->pdata[i]);
  g_string_append (hint, " · ");
  /* Translators: ingredients that are not in the book yet and would be made; their names. */
  g_string_append_printf (hint, ngettext ("makes %u new ingredient: %s", "makes %u new ingredients: %s", names->len),
                          names->len, list->str);
  if (names->len > MOST_NAMES)
    g_string_append (hint, " …");
}

char *
cro_quick_paste_near (CroBook    *book,
                      guint32     recipe,
                      const char *text)
{
  CroModel *model = cro_book_get_model (book);
  g_auto (CroPaste) paste = { 0 };
  g_autoptr (GString) list = g_string_new (NULL);

  cro_paste_read (model, cro_model_recipe (model, recipe)->name, text, cro_words_entry (), &paste);
  for (guint i = 0; i < paste.rows->len; i++)
    {
      CroPasteRow *row = cro_paste_get (&paste, i);
      g_autofree char *pair = NULL;

      cro_quick_leave_own (&row->quick, book, recipe);
      if (row->kind != CRO_PASTE_LINE || row->quick.match != CRO_QUICK_UNKNOWN)
        continue;
      cro_quick_find (&row->quick, book, recipe);
      if (row->quick.match != CRO_QUICK_SIMILAR)
        continue;
      /* Translators: a name that was pasted, and the one of the book that is like it. */
      pair = cro_isolate_printf (_("“%s” for “%s”"), cro_model_item (model, row->quick.item)->name,
                                 row->quick.name);
      g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", pair);
    }
  return list->len > 0 ? g_strdup (list->str) : NULL;
}

static void
tell (GString    *told,
      const char *one)
{
  g_string_append_printf (told, "%s%s", told->len > 0 ? " · " : "", one);
}

static void
tell_read (GString        *told,
           const CroQuick *quick)
{
  g_autofree char *one = NULL;

  if (quick->understood == NULL)
    return;
  /* Translators: an ingredient; its amount or its price, which could have been read in another way. */
  one = cro_isolate_printf (_("%s: read as %s"), quick->name, quick->understood);
  tell (told, one);
}

/* Who pasted what the ingredient costs anyway has lost nothing. */
static void
tell_left_price (GString        *told,
                 CroFigures     *figures,
                 const CroQuick *quick)
{
  CroModel *model = figures->model;
  CroBase base = (CroBase) model->measures[quick->item].base;
  const char *name = cro_model_item (model, quick->item)->name, *unit = cro_words_unit (quick->price_unit);
  g_autofree char *cost = cro_words_item_cost (figures, quick->item);
  g_autofree char *asked = cro_words_costs (model, base, cro_quick_unit_cost (figures, quick));
  g_autofree char *price = cro_words_decimal (quick->price), *one = NULL;

  if (cro_quick_prices_made (model, quick))
    /* Translators: of a line that was pasted: its price with its unit; what a preparation gives. */
    one = cro_isolate_printf (_("price %s/%s not taken: %s comes from a preparation and has no price of its own"),
                              price, unit, name);
  else if (cro_unit_get (quick->price_unit)->base != base || !g_str_equal (asked, cost))
    /* Translators: of a line that was pasted: its price with its unit; an ingredient, and what it costs. */
    one = cro_isolate_printf (_("price %s/%s not taken: %s costs %s"), price, unit, name, cost);
  if (one != NULL)
    tell (told, one);
}

char *
cro_quick_paste_read (const CroPaste *paste)
{
  g_autoptr (GString) told = g_string_new (NULL);

  for (guint i = 0; i < paste->rows->len; i++)
    {
      const CroPasteRow *row = cro_paste_get (paste, i);

      if (row->kind == CRO_PASTE_LINE)
        tell_read (told, &row->quick);
    }
  return told->len > 0 ? g_strdup (told->str) : NULL;
}

static char *
dup_told (CroFigures     *figures,
          const CroPaste *paste)
{
  g_autofree char *read = paste->is_alone ? NULL : cro_quick_paste_read (paste);
  g_autoptr (GString) told = g_string_new (read);

  for (guint i = 0; i < paste->rows->len; i++)
    if (cro_paste_leaves_price (paste, figures, i))
      tell_left_price (told, figures, &cro_paste_get (paste, i)->quick);
  return told->len > 0 ? g_strdup (told->str) : NULL;
}

char *
cro_quick_paste_told (CroBook       *book,
                      guint32        recipe,
                      const char    *text,
                      CroQuickFlags  flags)
{
  CroModel *model = cro_book_get_model (book);
  g_auto (CroPaste) paste = { 0 };

  cro_paste_read (model, cro_model_recipe (model, recipe)->name, text, cro_words_entry (), &paste);
  for (guint i = 0; flags & CRO_QUICK_TAKE_SIMILAR && i < paste.rows->len; i++)
    cro_quick_find (&cro_paste_get (&paste, i)->quick, book, recipe);
  return dup_told (cro_book_get_figures (book), &paste);
}

char *
cro_quick_hint_paste (CroFigures *figures,
                      guint32     recipe,
                      const char *text)
{
  CroModel *model = figures->model;
  g_auto (CroPaste) paste = { 0 };
  g_autoptr (GString) hint = g_string_new (NULL);
  g_autofree char *told = NULL;
  guint n = 0, n_sound = 0, n_notes = 0;
  gboolean takes;

  cro_paste_read (model, cro_model_recipe (model, recipe)->name, text, cro_words_entry (), &paste);
  takes = cro_paste_sets_yield (&paste, figures, recipe);
  for (guint i = 0; i < paste.rows->len; i++)
    {
      CroPasteKind kind = cro_paste_get (&paste, i)->kind;

      n += kind == CRO_PASTE_LINE || kind == CRO_PASTE_LEFT;
      n_sound += kind == CRO_PASTE_LINE;
      n_notes += cro_paste_notes (&paste, i, cro_model_recipe (model, recipe), takes);
    }
  if (n_sound == n)
    g_string_printf (hint, ngettext ("Press Enter to add %u line", "Press Enter to add %u lines", n), n);
  else
    /* Translators: some of the lines that were pasted can be placed. */
    g_string_printf (hint, ngettext ("Press Enter to add %u of %u line; the others stay here",
                                     "Press Enter to add %u of %u lines; the others stay here", n),
                     n_sound, n);
  add_new (hint, &paste);
  add_aside (hint, &paste, takes, n_notes);
  told = dup_told (figures, &paste);
  if (told != NULL)
    g_string_append_printf (hint, " · %s", told);
  return g_string_free (g_steal_pointer (&hint), FALSE);
}
