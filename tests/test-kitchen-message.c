/* Messages of suppliers and what the sheet makes of them: what is written is read, in each locale, and what
 * somebody wrote is never lost. */
#include <math.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-price-heading.h"
#include "cro-round-effect.h"
#include "cro-round-words.h"
#include "cro-round.h"
#include "support/kitchen-message.h"
#include "support/locales.h"

static guint
row_of (CroRound   *round,
        const char *name)
{
  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    if (g_strcmp0 (cro_round_get_row (round, i)->list.name, name) == 0)
      return i;
  fail_msg ("there is no row of %s", name);
  return 0;
}

static void
type (CroRound   *round,
      const char *name,
      const char *text)
{
  g_autoptr (GError) error = NULL;

  cro_round_type (round, row_of (round, name), text, &error);
  assert_no_error (error);
}

static guint
add (CroRound   *round,
     const char *line)
{
  g_autoptr (GError) error = NULL;
  guint index;

  assert_true (cro_round_add (round, line, &index, &error));
  assert_no_error (error);
  return index;
}

static void
assert_reads_back (CroTestKitchen   *kitchen,
                   const char       *text,
                   const CroListRow *as)
{
  g_autoptr (CroRound) round = round_of (kitchen);
  const CroListRow *row = &cro_round_get_row (round, add (round, text))->list;

  if (row->item != as->item || row->price != as->price || memcmp (&row->pack, &as->pack, sizeof row->pack) != 0
      || row->state != as->state)
    fail_msg ("“%s” is read as %s, %g × %g %s for %g", text, row->name, (double) row->pack.count / 1e6,
              (double) row->pack.size / 1e6, cro_unit_get (row->pack.unit)->code, (double) row->price / 1e6);
}

/* A day that the calendar has ends nothing here, as "till Friday" does not; of one that it has not nobody knows what
 * was meant. */
static void
test_a_day_that_no_calendar_has (void **state)
{
  static const struct { const char *line; guint waiting; } cases[] = {
    { "no crab till 2026-02-28", 0 },
    { "no mussels till 2026-02-30", 1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state);

      add (round, cases[i].line);
      if (cro_round_count_waiting (round) != cases[i].waiting || cro_round_count_ready (round) == cases[i].waiting)
        {
          g_clear_pointer (&round, cro_round_free);
          fail_msg ("%s", cases[i].line);
        }
    }
}

/* A currency stands before a number, behind it, or behind what the price is for: which it is is asked where it is not
 * the supplier's, and the name has none of it. Crab is 5 kg: 56.00 is
 * 5 × 11.20, 0 what stays a text. */
static void
test_currencies_behind_units (void **state)
{
  static const struct { const char *line, *name, *currency; double price; } cases[] = {
    { "Crab 11.20/kg GBP", "Crab", "GBP", 56 },       { "Crab 11.20 per kg £", "Crab", "£", 0 },
    { "Crab 11,20 le kilo €", "Crab", "EUR", 56 },     { "Crab 11,20 euros le kilo", "Crab", "EUR", 56 },
    { "Crab 11.20/kg EUR", "Crab", "EUR", 56 },        { "Crab 11.20 pounds per kg", "Crab", "£", 0 },
    { "Crab 14 gbp/kg", "Crab", "GBP", 70 },            { "Crab 70 eur", "Crab", "EUR", 70 },
    { "Egg 0.90 each GBP", "Egg", "GBP", 0.9 },         { "Crab 10 kg GBP 112", "Crab", "GBP", 112 },
    { "Crab 5 pounds 30.00", "Crab", "EUR", 30 },        { "101 11.20/KG ALL SIZES", "Crab", "EUR", 56 },
    { "Crab 11.20 pounds", "Crab", "£", 0 },            { "Crab 11,20 livres le kilo", "Crab", "£", 0 },
    { "101 11.20/kg TOP", "Crab", "EUR", 56 },         { "Crab 11.20 ALL per kg", "Crab", "ALL", 56 },
  };

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state);
      const CroRoundRow *row = cro_round_get_row (round, add (round, cases[i].line));
      g_autofree char *name = g_strdup (row->list.name), *currency = g_strdup (row->list.currency);
      double price = cro_decimal_to_double (row->list.price);
      gboolean waits = cro_round_row_waits (row);

      g_clear_pointer (&round, cro_round_free);
      if (g_strcmp0 (currency, cases[i].currency) != 0 || g_strcmp0 (name, cases[i].name) != 0
          || price != cases[i].price || waits == (g_strcmp0 (currency, "EUR") == 0))
        fail_msg ("“%s”: %s for %g %s", cases[i].line, name, price, currency);
    }
}

/* What the sheet writes it reads, with all shapes of the demo's packs, in each locale: an answer, which
 * chooses the ingredient by its whole name, and a pack that differs in the row of another. */
static void
test_what_is_written_is_read (void **state)
{
  static const struct { double count, size; CroUnit unit; const char *price; } packs[] = {
    { 6, 1, CRO_UNIT_L, "30.60" },   { 12, 550, CRO_UNIT_G, "16.20" }, { 1, 4.5, CRO_UNIT_KG, "29.75" },
    { 6, 30, CRO_UNIT_EACH, "61.2" }, { 15, 1, CRO_UNIT_DOZEN, "1040" }, { 4, 1.5, CRO_UNIT_KG, "0.38" },
    { 1, 5, CRO_UNIT_L, "47" },      { 20, 250, CRO_UNIT_G, "51.00" }, { 16, 125, CRO_UNIT_EACH, "1234.56" },
  };
  static const char *const locales[] = { "C", "fr_FR.UTF-8", "de_DE.UTF-8" };
  static const char *const names[] = { "blue potato", "flour, strong" };

  for (gsize i = 0; i < G_N_ELEMENTS (packs) * G_N_ELEMENTS (locales) * G_N_ELEMENTS (names); i++)
    {
      gsize of = i / G_N_ELEMENTS (locales) / G_N_ELEMENTS (names);
      g_autoptr (CroRound) round = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *line = NULL, *suggestion = NULL, *typed = NULL;
      guint index;
      CroListRow row;

      if (!cro_test_enter_locale (locales[i % G_N_ELEMENTS (locales)]))
        continue;
      round = round_of (*state);
      line = g_strdup_printf ("%s %gx%g %s %s", names[i / G_N_ELEMENTS (locales) % G_N_ELEMENTS (names)],
                              packs[of].count, packs[of].size, cro_unit_get (packs[of].unit)->code, packs[of].price);
      for (char *at = line; *localeconv ()->decimal_point == ',' && (at = strchr (at, '.')) != NULL;)
        *at = ',';
      index = add (round, line);
      assert_true (cro_round_row_waits (cro_round_get_row (round, index)));
      suggestion = cro_round_dup_suggestion (round, index);
      assert_true (cro_round_suggest (round, index, &error));
      row = cro_round_get_row (round, index)->list;
      assert_true (row.item != CRO_NO_SLOT && row.pack.count == (gint64) (packs[of].count * 1e6));
      assert_reads_back (*state, suggestion, &row);
      assert_reads_back (*state, cro_round_get_row (round, index)->text, &row);
      /* "30.60/6 × 1 l" */
      typed = g_strdup_printf ("%s/%g × %g %s", packs[of].price, packs[of].count, packs[of].size,
                               cro_unit_get (packs[of].unit)->code);
      type (round, "Mussels", typed);
      assert_true (cro_round_get_row (round, row_of (round, "Mussels"))->list.pack.count == row.pack.count);
      assert_true (cro_round_get_row (round, row_of (round, "Mussels"))->list.price == row.price);
      g_free (g_steal_pointer (&line));
      line = g_strdup_printf ("Potato, waxy %s", typed);
      assert_true (cro_round_get_row (round, add (round, line))->list.pack.count == row.pack.count);
    }
  setlocale (LC_ALL, "C");
}

/* What a price is per is said: 100 g are no pack that anybody orders, and of a tray nobody asks whether all of it is
 * meant. 21.75 and 70.00 for 5 kg, 45.00 for 180: by hand. */
static void
test_per_what_is_said (void **state)
{
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (CroPriceList) taken = NULL;
  static const struct { const char *name, *text; double size; } rows[] = {
    { "Mussels", "21.75", 5 }, { "Crab", "70.00", 5 }, { "Egg", "45.00", 30 },
  };

  assert_true (cro_round_take_text (round, "mussels 0.435/100g\ncrab 1.40 per 100 g\nE1 egg 0.25/pc tray\n", NULL,
                                    &taken, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const CroRoundRow *row = cro_round_get_row (round, row_of (round, rows[i].name));

      if (!cro_round_row_is_ready (row) || strcmp (row->text, rows[i].text) != 0
          || row->list.pack.size != (gint64) (rows[i].size * 1e6))
        fail_msg ("%s is %s of %g", rows[i].name, row->text, (double) row->list.pack.size / 1e6);
    }
}

/* Lines of a message as somebody types them: what is priced goes into the rows of its packs, what is not
 * understood stays as it stands there, and what names nothing is told. */
static void
test_what_is_said_stays (void **state)
{
  static const struct { const char *says, *line, *name; CroRoundKind kind; gint64 price; } cases[] = {
    { "a count of pieces is the pack of so many", "egg 180s 17,-", "Egg", CRO_ROUND_PRICED, 17000000 },
    { "and of so many boxes", "egg 6x30 48.-", "Egg", CRO_ROUND_PRICED, 48000000 },
    { "none, till a day", "no mussels till Thursday 3rd", "Mussels", CRO_ROUND_NONE, 0 },
    { "none, in French", "pas de crab jusqu'à jeudi", "Crab", CRO_ROUND_NONE, 0 },
    { "none, by two letters", "crab n/a", "Crab", CRO_ROUND_NONE, 0 },
    { "as last", "crab same as last", "Crab", CRO_ROUND_PRICED, 66000000 },
    { "as last, by a word", "crab same", "Crab", CRO_ROUND_PRICED, 66000000 },
    { "a price each is that of the pack", "E1 egg 0.25 each", "Egg", CRO_ROUND_PRICED, 45000000 },
    { "no cents", "crab €69.–", "Crab", CRO_ROUND_PRICED, 69000000 },
  };
  g_autoptr (CroRound) all = round_of (*state);
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *said = NULL, *name = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state);
      g_autoptr (CroPriceList) one = NULL;
      const CroRoundRow *row;

      assert_true (cro_round_take_text (round, cases[i].line, NULL, &one, &error));
      row = cro_round_get_row (round, row_of (round, cases[i].name));
      if (cro_round_get_n_rows (round) != 4 || row->kind != cases[i].kind || row->list.price != cases[i].price
          || row->list.is_other_pack)
        fail_msg ("%s: “%s” is of kind %d, %g", cases[i].says, cases[i].line, row->kind,
                  (double) row->list.price / 1e6);
    }
  assert_true (cro_round_take_text (all, "Morning, all\nturnip 5 bags 3 12\nno samphire before Monday\n", NULL, &taken,
                                    &error));
  assert_no_error (error);
  assert_int_equal (cro_round_get_n_rows (all), 6);
  name = cro_words_round_name (all, cro_round_get_row (all, 4));
  assert_string_equal (name, "turnip 5 bags 3 12");
  assert_string_equal (cro_round_get_row (all, 4)->text, "turnip 5 bags 3 12");
  said = cro_words_round_taken (taken);
  assert_non_null (strstr (said, "no prices: “Morning, all”"));
  type (all, "Crab", "71,-");
  assert_true (cro_round_get_row (all, row_of (all, "Crab"))->list.price == 71000000);
}

/* A number before % is never a price: a change of the last one, 21.00 of 5 kg and 66.00 of 5 kg, where the line says
 * which way, else it is asked. 21.00 × 1.15 = 24.15; 21.00 × 0.98 = 20.58; 66.00 × 1.055 = 69.63. */
static void
test_a_per_cent_is_no_price (void **state)
{
  static const struct { const char *locale, *line; gint64 price; } cases[] = {
    { "C", "102 mussels up 15 %", 24150000 },
    { "C", "mussels up by 15% this week", 24150000 },
    { "C", "102 mussels up by 15% this week", 24150000 },
    { "C", "102 mussels + 15 %", 24150000 },
    { "C", "Mussels: +15%", 24150000 },
    { "C", "Mussels 15 per cent dearer", 24150000 },
    { "C", "102 down 2%", 20580000 },
    { "C", "Mussels − 2\u00a0%", 20580000 },
    { "C", "Mussels minus 2 pct", 20580000 },
    { "fr_FR.UTF-8", "Crab en hausse de 5,5\u00a0%", 69630000 },
    { "fr_FR.UTF-8", "Crab hausse de 5,5 %", 69630000 },
    { "fr_FR.UTF-8", "Mussels en baisse de 2 %", 20580000 },
    { "fr_FR.UTF-8", "Mussels 2 % de moins", 20580000 },
    { "C", "102 mussels 15 %", 0 },
    { "C", "102 mussels up 10-15 %", 0 },
    { "C", "102 mussels 22.00 +5 %", 0 },
    { "C", "102 mussels 22.00 less 5 %", 0 },
    { "C", "102 mussels - 5 % up", 0 },
    { "C", "102 mussels down 105 %", 0 },
    { "C", "E2 up 5 %", 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = NULL;
      guint index;
      const CroRoundRow *row;

      if (!cro_test_enter_locale (cases[i].locale))
        continue;
      round = round_of (*state);
      index = add (round, cases[i].line);
      row = cro_round_get_row (round, index);
      if (cases[i].price != 0 ? row->list.price != cases[i].price || !cro_round_row_is_ready (row)
                              : row->list.has_price || !cro_round_row_waits (row))
        fail_msg ("“%s”: %g", cases[i].line, (double) row->list.price / 1e6);
    }
}

/* What a price is for, and what leads to it, is no word of the name, before it or behind it. 0: it is asked; -1: not to
 * be had. Mussels and crab are packs of 5 kg, E1 is 6 × 30 eggs, of E2 90 % is net. A head or a tin may be the goods
 * themselves. A unit is the same in the row for a new one. Words are common practice, no source. */
static void
test_words_around_a_price (void **state)
{
  static const struct { const char *line, *name; double price; } cases[] = {
    { "Crab: 68 € la caisse de 5 kg", "Crab", 68 },     { "crab 67,90€ les 5 kg", "Crab", 67.9 },
    { "Mussels 22.50 per bag", "Mussels", 22.5 },       { "Mussels bag 22.50", "Mussels", 22.5 },
    { "bag of mussels 22.50", "Mussels", 22.5 },        { "1 sac mussels 22,50", "Mussels", 22.5 },
    { "Mussels 22.50 per 5 kg bag", "Mussels", 22.5 },  { "Mussels, sac de 5 kg, 22,50", "Mussels", 22.5 },
    { "E1 eggs 47.00 case", "Egg", 47 },                { "E1 eggs 7.80 a tray", "Egg", 0 },
    { "E1 eggs 7,80 le plateau", "Egg", 0 },            { "E1 egg .25 each", "Egg", 45 },
    { "E1 egg ,25 pièce", "Egg", 45 },                  { "E1 egg 3.05 doz", "Egg", 45.75 },
    { "Mussels 21 € 90", "Mussels", 21.9 },             { "Mussels 4€40 le kg", "Mussels", 22 },
    { "Mussels 4 euros 40 le kilo", "Mussels", 22 },    { "Mussels 4 €40/kg", "Mussels", 0 },
    { "Mussels 21 € 90 g", "Mussels", 0 },              { "Mussels 21.00 net", "Mussels", 21 },
    { "E2 egg 46.00 net", "Egg", 0 },                   { "Mussels 4.40/kg net", "Mussels", 22 },
    { "Mussels le kilo 4,40 €", "Mussels", 22 },        { "Mussels kg 4.40", "Mussels", 22 },
    { "Mussels/kg 4.40", "Mussels", 22 },               { "4.40 mussels per kilo", "Mussels", 22 },
    { "Mussels 4.40 the kilo", "Mussels", 22 },         { "Mussels à 21,50", "Mussels", 21.5 },
    { "Mussels @21.50", "Mussels", 21.5 },              { "Mussels 5 kg for 21.50", "Mussels", 21.5 },
    { "Mussels 22 ALL SIZES", "Mussels", 22 },          { "Mussels toutes tailles 22,00", "Mussels", 22 },
    { "Mussels A 22.00", "Mussels A", 0 },              { "Mussels L 22.00", "Mussels L", 0 },
    { "Crab pas avant jeudi", "Crab", -1 },             { "Crab not before Thursday 3rd", "Crab", -1 },
    { "Crab out till Thursday", "Crab", -1 },           { "Crab pas dispo", "Crab", -1 },
    { "Crab out", "Crab", -1 },                         { "Crab terminé", "Crab", -1 },
    { "Crab pas cette semaine", "Crab", -1 },           { "Crab retour lundi", "Crab", 0 },
    { "Crab back on Monday", "Crab", 0 },               { "Crab dispo vendredi", "Crab", 0 },
    { "Mussels 22 for 2", "Mussels", 0 },               { "Crab head 13.60/kg", "Crab head", 0 },
    { "Head of crab 13.60/kg", "Head of crab", 0 },     { "13,60/kg tête de crab", "tête de crab", 0 },
    { "Crab, pot 13.60/kg", "Crab, pot", 0 },           { "Crab case 13.60/kg", "Crab", 68 },
    { "Crab tin 67.00", "Crab", 0 },                    { "Crab bouquet 5 kg 67,00", "Crab", 0 },
    { "Crab 2 kg tin 27.00", "Crab", 0 },               { "101 crab 2 kg tin 27.00", "Crab", 27 },
    { "Crab 2 kg boîte 27,00", "Crab", 0 },             { "Crab 27.00 tin of 2 kg", "Crab", 0 },
    { "Crab 5kg head 67", "Crab", 0 },                  { "Crab 2 kg 27.00 a jar", "Crab", 0 },
    { "Crab 67.00 a tin", "Crab", 0 },                  { "Crab 2 kg bag 27.00", "Crab", 27 },
    { "Crab 5 kg tin 67.00", "Crab", 67 },              { "Crab head 67.00", "Crab", 0 },
    { "Crab 67?", "Crab", 0 },                          { "Crab 67 ?", "Crab", 0 },
    { "Crab 67+", "Crab", 0 },                          { "Crab +5 % ?", "Crab", 0 },
    { "Crab not before Thursday 68.00", "Crab not before Thursday", 0 },
  };
  CroTestKitchen *kitchen = *state;

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state), new = NULL;
      g_autoptr (CroPriceList) list = NULL;
      g_autoptr (GError) error = NULL;
      const CroListRow *row, *typed;
      const char *name;
      gboolean is_asked;

      assert_true (cro_round_take_text (round, cases[i].line, NULL, &list, &error));
      assert_no_error (error);
      row = &g_array_index (list->rows, CroListRow, 0);
      name = row->item != CRO_NO_SLOT ? cro_model_item (cro_book_get_model (kitchen->book), row->item)->name
                                      : row->name;
      is_asked = cro_list_row_waits (row);
      if (g_strcmp0 (name, cases[i].name) != 0 || is_asked != (cases[i].price == 0)
          || row->is_none != (cases[i].price < 0)
          || (cases[i].price > 0 && fabs (cro_decimal_to_double (row->price) - cases[i].price) > 1e-9))
        fail_msg ("“%s”: %s, %g, asked %d, none %d", cases[i].line, name, cro_decimal_to_double (row->price),
                  is_asked, row->is_none);
      /* What asks goes on asking when the book has changed. */
      if (row->offer != CRO_NO_SLOT && row->has_price && is_asked)
        {
          assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
          if (cro_round_count_ready (round) > 0 || cro_round_count_waiting (round) != 1)
            fail_msg ("“%s” asks no longer once the sheet is read again", cases[i].line);
        }
      if (strstr (cases[i].line, "/kg") == NULL && strstr (cases[i].line, "each") == NULL)
        continue;
      new = round_of (*state);
      typed = &cro_round_get_row (new, add (new, cases[i].line))->list;
      if (typed->has_price != row->has_price
          || (row->has_price && (typed->price != row->price
                                 || typed->pack.size != row->pack.size)))
        fail_msg ("“%s” is typed as %g for %g", cases[i].line, cro_decimal_to_double (typed->price),
                  cro_decimal_to_double (typed->pack.size));
    }
}

/* The same in the cell of a row, which needs no name; 0: it is not read. */
static void
test_words_in_a_cell (void **state)
{
  static const struct { const char *name, *text; double price; } cases[] = {
    { "Crab", "68 € la caisse de 5 kg", 68 }, { "Crab", "67,90€ les 5 kg", 67.9 }, { "Crab", "67.50 case", 67.5 },
    { "Crab", "67 € 90", 67.9 },              { "Crab", "13€60 le kg", 68 },       { "Crab", "à 67,50", 67.5 },
    { "Crab", "@ 67.50", 67.5 },              { "Egg", "7.80 a tray", 0 },         { "Egg", ".25 each", 45 },
    { "Crab", "67.50 out", 0 },               { "Crab", "67.50 net", 0 },          { "Crab", "0.90 each", 0 },
    { "Crab", "£67", 0 },                     { "Crab", "£67 € 90", 0 },           { "Crab", "£67 la caisse", 0 },
  };

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state);
      const CroRoundRow *row = cro_round_get_row (round, row_of (round, cases[i].name));
      double price;
      gboolean is_read;

      type (round, cases[i].name, cases[i].text);
      is_read = row->kind == CRO_ROUND_PRICED;
      price = is_read ? cro_decimal_to_double (row->list.price) : 0;
      g_clear_pointer (&round, cro_round_free);
      if (fabs (price - cases[i].price) > 1e-9)
        fail_msg ("“%s”: %g", cases[i].text, price);
    }
}

static void
assert_asks (CroRound   *round,
             const char *name,
             const char *question,
             const char *suggestion)
{
  guint index = row_of (round, name);
  g_autofree char *note = cro_words_round_note (round, index), *text = cro_round_dup_suggestion (round, index);

  assert_true (cro_round_row_waits (cro_round_get_row (round, index)));
  assert_string_equal (note, question);
  assert_string_equal (text, suggestion);
}

/* What a note or a heading says of tax, and whether it leaves that open. Words are common practice, no source. */
static void
test_what_is_said_of_tax (void **state)
{
  static const char *const without[] = {
    "Prices do not include VAT", "Prices don't include VAT", "Prices don’t include VAT", "prices dont include VAT",
    "These prices do not include tax", "Prices not including VAT", "VAT is not included in these prices",
    "NB prices do not include VAT", "Prices no longer include VAT", "Price (does not include VAT)", "VAT not included",
    "All ex-VAT this week!", "Price list week 49 (ex VAT)", "VAT is extra", "Prices exclude VAT",
    "VAT will be added", "Price, not TTC", "price incl. 0 % VAT", "Prix avant taxe", "TVA non incluse", "Prix HT",
    "Prices do not yet include VAT", "PU HT kg", "Nos prix s’entendent hors taxes",
    "Les prix ne comprennent pas la TVA", "Les prix n’incluent pas la TVA", "La TVA n’est pas incluse dans les prix",
    "La TVA n’est pas comprise", "Prix ne comprenant pas la TVA", "Prix non TTC", "TVA 10 % en sus",
  };
  static const char *const with[] = {
    "Prices include VAT", "Prices do include VAT", "VAT is included", "Price incl. 10 % VAT", "Prix TTC 10 %",
    "Prix incluant la TVA", "TVA 10 % incluse", "La TVA est comprise", "Price incl. VAT (10 %)",
  };
  static const char *const open[] = {
    "VAT not in", "Prix HT, non remisé", "Not all prices include VAT", "Prices ex VAT except spirits",
    "VAT as usual", "Price TTC / HT",
    "Sauf les vins, TVA incluse",
  };
  static const char *const of_papers[] = { "VAT invoice before Friday", "VAT no. 123", "N° TVA 12", "Prices" };
  gint64 pct;

  for (gsize i = 0; i < G_N_ELEMENTS (without); i++)
    if (cro_price_heading_tax (without[i]) != CRO_PRICE_WITHOUT_TAX)
      fail_msg ("“%s” is without tax", without[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (with); i++)
    {
      gboolean has_rate = strchr (with[i], '%') != NULL;

      if (cro_price_heading_tax_at (with[i], &pct) != CRO_PRICE_WITH_TAX || pct != (has_rate ? 10000000 : 0))
        fail_msg ("“%s” is with tax", with[i]);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (open); i++)
    if (!cro_price_heading_leaves_tax_open (open[i]))
      fail_msg ("“%s” leaves open whether it is with tax", open[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (of_papers); i++)
    if (cro_price_heading_leaves_tax_open (of_papers[i]))
      fail_msg ("“%s” says nothing of the tax in prices", of_papers[i]);
}

/* Eggs are 6 × 30 for 45.00: 7.60 for 30 of them are 45.60, however that is said, and no pack of 30 that could be
 * ordered. */
static void
test_a_price_for_one_of_the_pack (void **state)
{
  static const char *const lines[] = { "E1 7.60/30 pc", "E1 7.60 per 30 pc" };
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (GError) error = NULL;
  const CroListRow *row;

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_autoptr (CroRound) added = round_of (*state);

      row = &cro_round_get_row (added, add (added, lines[i]))->list;
      if (row->price != 45600000 || row->pack.count != 6000000)
        fail_msg ("“%s” is read as %g for %g × %g", lines[i], (double) row->price / 1e6, (double) row->pack.count / 1e6,
                  (double) row->pack.size / 1e6);
    }
  /* 12 are neither one of them nor all: 3.04 is asked about, and is 45.60 for 6 × 30, or of a pack of 12. */
  assert_true (cro_round_take_text (round, "E1 3.04/12 pc\n", NULL, &taken, &error));
  assert_asks (round, "Egg", "Is it sold in packs of 12 pc now? The last pack is 6 × 30 pc.", "45.60");
  assert_true (cro_round_suggest (round, row_of (round, "Egg"), &error));
  row = &cro_round_get_row (round, row_of (round, "Egg"))->list;
  assert_true (row->price == 45600000 && row->pack.count == 6000000);
  type (round, "Egg", "7.60");
  assert_asks (round, "Egg", "The price may be for 1 × 30 pc: per unit it differs by −83.1\u00a0%. "
               "Is it right as it stands?", "7.60/30 pc");
  assert_true (cro_round_suggest (round, row_of (round, "Egg"), &error));
  row = &cro_round_get_row (round, row_of (round, "Egg"))->list;
  assert_true (row->price == 45600000 && row->pack.count == 6000000);
  /* "It is right" answers one question: the other is asked then, and the price that was meant answers both. */
  for (guint turn = 0; turn < 2; turn++)
    {
      guint index = row_of (round, "Egg");

      g_clear_pointer (&taken, cro_price_list_free);
      assert_true (cro_round_take_text (round, "E1 7.60 tray\n", NULL, &taken, &error));
      assert_asks (round, "Egg", "“tray” leaves open what the price is for. Is it of the pack of 6 × 30 pc, "
                   "as the last one?", "7.60/30 pc");
      if (turn == 1)
        {
          assert_true (cro_round_is_right (round, index, &error));
          assert_true (cro_round_row_waits (cro_round_get_row (round, index)));
          assert_asks (round, "Egg", "The price may be for 1 × 30 pc: per unit it differs by −83.1\u00a0%. "
                       "Is it right as it stands?", "7.60/30 pc");
        }
      assert_true (cro_round_suggest (round, index, &error));
      row = &cro_round_get_row (round, index)->list;
      assert_true (row->price == 45600000 && row->pack.count == 6000000);
    }
  /* Another pack's size in the row of one asks whose price it is. */
  type (round, "Egg", "46/15 x 1 dozen");
  {
    g_autofree char *note = cro_words_round_note (round, row_of (round, "Egg"));

    assert_true (cro_round_row_waits (cro_round_get_row (round, row_of (round, "Egg"))));
    assert_non_null (strstr (note, "The size is not that of E1"));
  }
  /* What is a pack is typed so. */
  type (round, "Egg", "7.60/1 × 30 pc");
  assert_true (cro_round_get_row (round, row_of (round, "Egg"))->list.price == 7600000);
}

/* Who states prices per kg wrote 21.50 for his 5 kg, which were 21.00: 107.50 is far from that. */
static void
test_a_price_of_the_pack_among_those_per_kg (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroCell cell = CRO_CELL_STR ("base unit");
  CroRef quay = cro_edit_find_name (cro_book_get_model (kitchen->book), CRO_NAMES_SUPPLIERS, "Quay");
  const char *table;
  gint64 id = cro_edit_row (cro_book_get_model (kitchen->book), quay, &table);
  GError *failure = NULL;
  g_autoptr (CroRound) round = NULL;
  g_autoptr (GError) error = NULL;
  const CroListRow *row;

  setlocale (LC_ALL, "C");
  cro_test_must (cro_book_set (kitchen->book, "act", table, id, "quotes", &cell, &failure), failure);
  round = round_of (kitchen);
  type (round, "Mussels", "21.50");
  assert_asks (round, "Mussels", "The price may be for 1 × 5 kg: per unit it differs by 411.9\u00a0%. "
               "Is it right as it stands?", "21.50/5 kg");
  assert_true (cro_round_suggest (round, row_of (round, "Mussels"), &error));
  row = &cro_round_get_row (round, row_of (round, "Mussels"))->list;
  assert_true (row->price == 21500000 && row->pack.size == 5000000 && row->state == CRO_LIST_CHANGED);
  /* 24.00 are 14.3 % more for them, and the nearest. */
  type (round, "Mussels", "24");
  assert_asks (round, "Mussels", "The price may be for 1 × 5 kg: per unit it differs by 471.4\u00a0%. "
               "Is it right as it stands?", "24.00/5 kg");
}

/* 21.00 and 5 % more are 22.05, which somebody else posts meanwhile: 5 % more of that are 23.15. */
static void
test_a_change_asks_where_its_base_moved (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) mine = round_of (kitchen), other = round_of (kitchen), later = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autofree char *aside = NULL;
  g_autoptr (GError) error = NULL;
  const char *asked = "The last price has become 22.05. Is 22.05 meant, or 23.15?";

  setlocale (LC_ALL, "C");
  type (mine, "Mussels", "+5 %");
  type (mine, "Crab", "=");
  type (mine, "Egg", "-0.40");
  assert_int_equal (cro_round_count_ready (mine), 3);
  aside = cro_round_to_text (mine);
  type (other, "Mussels", "22.05");
  type (other, "Crab", "67");
  posted = cro_round_post (other, "prices", faults, &error);
  assert_no_error (error);
  assert_true (cro_round_renew (mine, cro_round_get_from (mine), &error));
  assert_no_error (error);
  assert_int_equal (cro_round_count_ready (mine), 1);
  assert_asks (mine, "Mussels", asked, "22.05");
  assert_asks (mine, "Crab", "The last price has become 67.00. Is 66.00 meant, or 67.00?", "66.00");
  /* Set aside before, and as it is asked. */
  for (guint i = 0; i < 2; i++)
    {
      g_clear_pointer (&later, cro_round_free);
      later = round_of (kitchen);
      assert_true (cro_round_put_text (later, aside, &error));
      assert_asks (later, "Mussels", asked, "22.05");
      g_free (aside);
      aside = cro_round_to_text (mine);
    }
  assert_true (cro_round_is_right (later, row_of (later, "Mussels"), &error));
  assert_true (cro_round_get_row (later, row_of (later, "Mussels"))->list.price == 23150000);
  assert_true (cro_round_row_is_ready (cro_round_get_row (later, row_of (later, "Mussels"))));
  assert_true (cro_round_suggest (mine, row_of (mine, "Mussels"), &error));
  assert_true (cro_round_get_row (mine, row_of (mine, "Mussels"))->list.price == 22050000);
  assert_int_equal (cro_round_count_ready (mine), 2);
}

/* 45.00 → 46.00 for the eggs, of which there is a second pack now; crab from 66.00 to 66.001 for 5 kg moves
 * 100 g by 0.00002: 33.0000 % to 33.0005 % of 4.00, which two places do not tell apart; 66.05 by 0.001, to 33.025 %,
 * half up. What is missing before and after is told. */
static void
test_what_is_told (void **state)
{
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (GError) error = NULL;
  g_autoptr (CroRoundView) view = cro_round_view_new (round, &error);
  g_autoptr (CroRoundEffect) effect = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autofree char *moved = NULL, *told = NULL, *week = NULL, *copy = NULL;

  type (round, "Crab", "66.05");
  effect = cro_round_view_read (view, 6);
  assert_int_equal (effect->moved->len, 1);
  moved = cro_words_round_moved (round, &g_array_index (effect->moved, CroRoundMoved, 0));
  assert_string_equal (moved, "≥ 33.00\u00a0% → ≥ 33.03\u00a0%");
  g_clear_pointer (&effect, cro_round_effect_free);
  type (round, "Crab", "66.001");
  effect = cro_round_view_read (view, 6);
  assert_null (cro_words_round_moved (round, &g_array_index (effect->moved, CroRoundMoved, 0)));
  told = cro_words_round_effect (round, effect);
  assert_non_null (strstr (told, "\n1 other changes by less than is shown\n"));
  week = cro_words_round_week (round, effect);
  assert_true (g_str_has_prefix (week, "0.00 more per guest"));
  assert_non_null (strstr (week, "Without Flour 00."));
  type (round, "Egg", "46");
  posted = cro_round_post (round, "prices", faults, &error);
  assert_no_error (error);
  copy = cro_words_round_copy ("Quay", posted);
  assert_non_null (strstr (copy, "Crab: 66.00 → 66.001\n"));
  assert_non_null (strstr (copy, "Egg, 6 × 30 pc: 45.00 → 46.00\n"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_what_is_written_is_read, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_currencies_behind_units, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_a_day_that_no_calendar_has, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_words_around_a_price, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_words_in_a_cell, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_a_per_cent_is_no_price, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_a_change_asks_where_its_base_moved, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_per_what_is_said, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_what_is_said_stays, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test (test_what_is_said_of_tax),
    cmocka_unit_test_setup_teardown (test_a_price_for_one_of_the_pack, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_a_price_of_the_pack_among_those_per_kg, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_what_is_told, set_up, cro_test_kitchen_tear_down),
  };

  return cmocka_run_group_tests (tests, cro_test_find_locales, cro_test_leave_locales);
}
