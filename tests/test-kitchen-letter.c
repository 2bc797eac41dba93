/* Lines of a message that price no goods, and which of them are of its prices. */
#include <locale.h>
#include <time.h>

#include "cro-decimal.h"
#include "cro-price-letter.h"
#include "cro-round.h"
#include "support/kitchen-message.h"

/* What lines that price no goods say of those that others price, above them and below: they are read by what is known
 * to be of something else. The list is of 16 February 2026, a Monday. Words are common practice, no source. */
static void
test_what_stands_around_prices (void **state)
{
  static const char *const asked[] = {
    "@\nTuesday:", "mardi :\n@", "Prices for delivery from 7 March\n@", "Tarif pour livraisons semaine 12\n@",
    "Week commencing 23rd February\n@", "Valid 9.2.26-13.2.26\n@", "Prices Feb 29\n@", "Prices of next delivery\n@",
    "Prix de la prochaine livraison\n@", "Prices from next order\n@", "Prices from Michaelmas\n@",
    "Prices in 4294967296 months\n@", "Prices from week 2147483647\n@", "Pia, [24 Mar 2025 06:12]\n@",
    "Pia (24/03/2025)\n@", "Date: 24 Nov 2147483647\n@", "Sent: 31/31/3131\n@", "Last week you had\n@",
    "Going up next week\n@", "both up 5 %\n@", "@\nwrong price above", "@\nignore my last message",
    "ignore the below\n@", "@\noubliez le premier", "@\noops, 70", "@\n*70", "@\nI mean 70", "make that 70\n@",
    "@\nno, 70.50", "@\nnot 69 but 70", "@\nplutôt 70", "@\n12.50 for two", "sorry crab is 70\n@",
    "(edited) Crab 70\n@",
    "@\nPS crab 70", "@\nNB: crab 70", "@\ncrab up to 70", "@\nmake that 70 for crab", "@\ncrap 70 sorry",
    "@\ncrab +1", "@\nforget the crab", "Mussels 22\n\n24 Nov 2025, Quay:\n@", "Mussels 22\n-----Original-----\n@",
    /* What is not known is asked about. */
    "@\nplease add a euro", "@\nNope", "@\nboth frozen", "@\nswap those two", "@\n👎", "@\n4 kg", "4 kg le sac\n@",
    "@\nAll boxes up 2 this week", "@\nMinimum 3 boxes or add 2 each", "@\nColis de 4 kg maintenant",
    "ten percent off\n@",
    "@\nthe box is extra", "@\nusual discount", "@\n(14.50/kg under 3 bags)", "500 g punnets are back\n@",
    /* No more than a word or two of what is asked about, whatever is known of each. */
    "@\nAvailable from Monday", "Finished:\n@", "@\nnew list tomorrow", "@\ncall for price",
    "@\nonly if you take 10", "@\nSubject to market", "Next season\n@", "@\nx 1.1", "@\nFor delivery +2",
    "@\nAdd 5 on account", "@\nuntil Sunday", "Disponible lundi\n@", "@\nPlus de stock", "Prix du marché\n@",
    "@\nfilets de 4", "@\npoids 4", "@\n4.5 drained", "@\napprox 4.5", "@\nx 1.22", "@\nrebate 2", "@\nfuel 2",
    "@\nport 2", "@\nen fait 24", "@\nlist price", "@\nprix du jour", "@\n2e choix", "@\nShop price",
    "@\nplus carriage 0.20/kg", "@\nOrder before Friday, 12 after", "@\nhappy to do 10", "@\nBonne affaire 10",
    "jusqu'à dimanche\n@", "prices from yesterday\n@", "Thanks\nMarket Price\n@", "@\nThanks\nSold Out",
    "@\ncrab tomorrow", "@\ncrab gone", "@\ncrab OOS", "@\ncrab x", "@\ncrab Monday",
    "Prices from\n@", "Demain :\n@", "@\nVAT 20", "@\nMinimum 10 boxes", "@\nCall", "@\nProvisional",
    "@\nNot Monday", "@\nOrder from Monday", "@\nBOGOF", "@\nRegards\nGuide",
    "Deliveries from Monday 2 March\n@", "@\nThanks\nHalf Boxes", "@\ntransport 5", "@\naccount 5",
    /* Of another week. */
    "w/c 9 February\n@", "Prices 8/2\n@", "8 February 2026\n@", "tarif du 8 février\n@", "16 January 2026\n@",
    "for delivery Friday 20 Feb\n@",
    /* No name is what may change prices, nor any word where all are in capitals. */
    "HI CHEF, FUEL SURCHARGE APPLIES\n@", "MORNING CHEF, CRABS UNFIT\n@", "Bonjour, Annule et Remplace\n@",
    "Hi Chef, Amendment Follows\n@", "@\nThanks, Disregard Previous",
    "@\n4-kilo nets", "@\nsurcharge 2", "@\nplus 0.20/kg fuel", "Egg $45\n@",
  };
  static const char *const read[] = {
    "Good morning chef, lovely crab this week\n@", "@\nThanks, Pia 07700 900123", "Order by 5 pm\n@",
    "Delivery Tuesday and Friday\n@", "Commande avant 17 h\n@", "Closed 24 December\n@", "Week 8\n@",
    "Prices from 16 February\n@", "Prices 16 - 22 February\n@", "min. order 3 kg\n@", "Minimum order 50\n@",
    "@\nSee you Tuesday!",
    "@\nMerci, à jeudi !", "Payment 30 days\n@", "@\nVan leaves at 7", "2 Mill Lane, Saltmarsh\n@", "Page 1 of 2\n@",
    "@\nTurbot 31.00", "@\nSmoked crab 31.00/kg", "@\ncrab skin off", "Sorry for the late list\n@",
    "Mussels 22\n5 % discount on mussels\n@", "Pia (15/02/2026)\n@", "Livraison mardi\n@",
    "Boats out Tuesday, landing Wednesday\n@", "Open 6 to 12\n@", "pia@quay.example\n@", "Fish\n@",
    "@\n5 kg", "5 kg\n@", "@\nThanks\nPia", "Hope all is well, Pia\n@", "Min order 60, delivery 4.50\n@",
    "Voici nos prix de la semaine :\n@",
    "From 16 February:\n@", "w/c 16 February\n@", "Prices 13/2\n@", "Price list week 8 (16 Feb - 22 Feb 2026)\n@",
    "@\nE&OE",
    "@\nRgds", "@\nTHANKS, PIA", "GOOD MORNING CHEF\n@", "@\nThanks, Will",
    "@\nTa",
    "@\nSubject to availability", "@\nWhile stocks last", "@\nCut-off 10pm", "@\nYours, Sam", "@\nSam x", "@\nPete",
    "Dear customer,\n@", "@\nStatement attached", "@\nSam\n01234 567890", "@\nFree delivery over 60, otherwise 4.50",
    "@\nOrder by 10pm for next day delivery", "@\nFranco à partir de 60 €", "@\nVAT no. GB 123 4567 89",
    "@\nAny questions give me a ring", "@\nTarif semaine 8",
  };

  /* Whole mails, as they are sent each week. */
  static const char *const mails[] = {
    "Hi Chef,\n\nHope you're well. Prices for this week:\n\n@\nOrder by 10pm for next day delivery. Min order £60, "
    "delivery £4.50.\nPrices exclude VAT. E&OE.\n\nBest wishes,\nSam\n07700 900123",
    "Bonjour Chef,\n\nVoici nos tarifs de la semaine 8 (du 16/02 au 22/02) :\n@\nCommandes avant 17h pour livraison le "
    "lendemain. Franco à partir de 60 €.\nPaiement à 30 jours.\n\nBonne semaine à vous,\nCordialement,\n\n"
    "Jeanne Morel\nQuay\nTél : 06 12 34 56 78",
    "From: Quay <orders@quay.example>\nSubject: Price list w/c 16 February\n\nMorning all,\n\nPlease find below this "
    "week's prices.\n\nSHELLFISH\n@\nTurbot wild 31.00\nDelivery days: Monday, Wednesday and Friday.\nOur office is "
    "closed on Sunday.\nPlease let us know if you have any questions.\n\nMany thanks\nThe Quay Team\nUnit 4, Quay "
    "Road, Saltmarsh\nwww.quay.example\nRegistered in England No. 01234567",
  };
  guint n_wrong = 0;

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (asked) + G_N_ELEMENTS (read) + G_N_ELEMENTS (mails); i++)
    {
      const gboolean is_asked = i < G_N_ELEMENTS (asked);
      const gsize at = is_asked ? i : i - G_N_ELEMENTS (asked);
      const char *saying = is_asked ? asked[at] : at < G_N_ELEMENTS (read) ? read[at]
                                                                          : mails[at - G_N_ELEMENTS (read)];
      g_autoptr (CroRound) round = round_of (*state);
      g_autoptr (CroPriceList) list = NULL;
      g_autoptr (GError) error = NULL;
      g_auto (GStrv) parts = g_strsplit (saying, "@\n", 2);
      g_autofree char *text = NULL;
      gboolean waits = FALSE;

      text = g_str_has_suffix (saying, "\n@")
                 ? g_strdup_printf ("%.*sCrab 69\n", (int) strlen (saying) - 1, saying)
                 : g_strdup_printf ("%sCrab 69\n%s\n", parts[0], parts[1]);
      assert_true (cro_round_take_text (round, text, NULL, &list, &error));
      assert_null (error);
      for (guint k = 0; k < list->rows->len; k++)
        if (g_array_index (list->rows, CroListRow, k).price == 69 * CRO_MICRO)
          waits = cro_list_row_waits (&g_array_index (list->rows, CroListRow, k));
      if (waits != is_asked)
        {
          print_error ("“%s” is %s\n", text, waits ? "asked about" : "read");
          n_wrong++;
        }
    }
  assert_int_equal (n_wrong, 0);
}

/* CPU time that a line takes which at last does not fit, of so many groups of goods. */
static double
time_of_groups (guint n)
{
  g_autoptr (GString) line = g_string_new ("Fish");
  clock_t begun = clock ();

  for (guint i = 1; i < n; i++)
    g_string_append (line, ", fish");
  g_string_append (line, " and eggs");
  for (guint i = 0; i < 10; i++)
    assert_false (cro_price_letter_has_line (line->str, NULL));
  return (double) (clock () - begun) + 1;
}

/* Twice as many groups take about twice as long, and not 2⁸ times, as all ways to part them would. */
static void
test_no_way_to_part_a_line_is_tried_twice (void **state)
{
  double few;

  time_of_groups (1);
  few = time_of_groups (8);
  assert_true (time_of_groups (16) < 25 * few);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_what_stands_around_prices, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test (test_no_way_to_part_a_line_is_tried_twice),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
