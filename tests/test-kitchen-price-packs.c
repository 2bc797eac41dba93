/* Packs, sizes and counts beside a price in a supplier's table, or in the name of the goods: whatever heads them, they
 * are compared with the pack of the book. */
#include "support/kitchen-price-table.h"

#include "cro-said-pack.h"

static const ColumnCase cases[] = {
  /* How many and how large stand in two columns. */
  { "read", "Units per case;Unit size;Price", "1;5 kg;21.50", "20;250 g;71.00" },
  { "read", "Units per case;Unit size;UOM;Price", "1;5;kg;21.50", "20;250;g;71.00" },
  { "read", "Unit size;UOM;Price", "5;kg;21.50", "5;kg;71.00" },
  /* A pack, a size or a count is compared with that of the goods, whatever heads its column. */
  { "read", "Presentation;Price", "5 kg;21.50", "20 x 250 g;71.00" },
  { "read", "Sold in;Price", "1 x 5 kg;21.50", "250 g x 20;71.00" },
  { "read", "Vendu par;Prix", "5 kg net;21,50", "20/250 g;71,00" },
  { "read", "Type;Price", "box of 5 kg;21.50", "case of 20;71.00" },
  { "read", "Pack;Gross weight;Price", "5 kg;5.4 kg;21.50", "20 x 250 g;5.2 kg;71.00" },
  { "read", "Pack;Size;Price", "5 kg;400 g;21.50", "20 x 250 g;;71.00" },
  { "read", "Pack;Min. order;Pallet;Price", "5 kg;20 kg;480 kg;21.50", "20 x 250 g;10 kg;80 cases;71.00" },
  { "read", "Price;Drained weight", "21.50;2.4 kg", "71.00;4.9 kg" },
  { "read", "Price;Avg. weight", "21.50;1.2 kg", "71.00;1 kg" },
  { "read", "Qty;Inner;Price", "1;5 kg;21.50", "20;250 g;71.00" },
  { "read", "Net weight;Gross weight;Price", "5 kg;5.4 kg;21.50", "5 kg;5.2 kg;71.00" },
  { "12", "Presentation;Price", "4 kg;21.50", "12 x 250 g;71.00" },
  { "12", "Sold in;Price", "2 x 5 kg;21.50", "250 g x 12;71.00" },
  { "12", "Vendu par;Prix", "2/5 kg;21,50", "20/200 g;71,00" },
  { "12", "Order unit;Price", "case of 4;21.50", "x12;71.00" },
  { "12", "Type;Price", "2 boxes of 5 kg;21.50", "12-pack;71.00" },
  { "12", "Gross weight;Price", "4 kg;21.50", "20 x 300 g;71.00" },
  { "12", "Origin;Price", "FR 4 kg;21.50", "carton de 12;71.00" },
  { "12", "Volume;Price", "5 l;21.50", "4 kg (16 x 250 g);71.00" },
  { "12", "Pack;Carton;Price", "5 kg;4 x 5 kg;21.50", "20 x 250 g;12 x 250 g;71.00" },
  { "12", "Qty;Inner;Price", "2;5 kg;21.50", "12;250 g;71.00" },
  { "2", "Colis;Poids;Prix", "1;5 kg;21,50", "12;250 g;71,00" },
  { "12", "Qty;Size;Price", "2;5 kg;21.50", "12;250 g;71.00" },
  { "12", "Sold as;Price", "4, 4 kg;21.50", "12 bags x 250 g;71.00" },
  { "12", "Sold as;Price", "half case;21.50", "250gx12;71.00" },
  { "12", "Sold as;Price", "1/2 box;21.50", "a dozen 250 g rolls;71.00" },
  { "2", "Sold as;Price", "5 kg, class 2;21.50", "12, 250 g;71.00" },
  { "2", "Sold as;Price", "2026, 5 kg;21.50", "case of twelve;71.00" },
  { "2", "Use by;Type;Price", "01/04/2026;half shell;21.50", "01/05/2026;12 s;71.00" },
  { "read", "Type;Price", "de bouchot;21.50", "demi-sel, 20 rolls of 250 g;71.00" },
  /* How many there are of a size, where the size alone would be the pack. */
  { "12", "Pack;Price", "5 kg, 2 per case;21.50", "2pk 250 g;71.00" },
  { "12", "Format;Price", "5kg 2pk;21.50", "5 kg twin pack;71.00" },
  { "12", "Pack;Price", "2-pack 5 kg;21.50", "250 g, case of 12;71.00" },
  { "12", "Pack;Price", "colis de 2, 5 kg;21.50", "250 g colis de 12;71.00" },
  { "12", "Format;Price", "2 bags (5 kg);21.50", "case/2 5kg;71.00" },
  { "12", "Pack;Price", "2 @ 5kg;21.50", "two 5 kg;71.00" },
  { "12", "Pack;Price", "5 kg + 1 free;21.50", "4 to 5 kg;71.00" },
  { "12", "Size;Outer;Price", "5 kg;Case of 2;21.50", "250 g;x12;71.00" },
  { "12", "Size;UOM;Price", "5 kg;2 per case;21.50", "250 g;12pk;71.00" },
  { "12", "Size;Packed in;Price", "5 kg;2's;21.50", "250 g;12's;71.00" },
  { "1", "Pack size;Case size;Price", "5 kg;2;21.50", "250 g;20;71.00" },
  { "1", "Conditionnement;PCB;Prix", "5 kg;2;21,50", "250 g;20;71,00" },
  { "1", "Cdt;UVC;Prix", "5 kg;2;21,50", "250 g;20;71,00" },
  { "1", "Unit weight;Units/case;Price", "5 kg;2;21.50", "250 g;20;71.00" },
  { "1", "Size;Qty;Price", "5 kg;2;21.50", "250 g;20;71.00" },
  { "read", "Pack;Price", "5 kg, 1 per case;21.50", "250 g, 20 per case;71.00" },
  { "read", "Pack;Price", "1 box 5 kg;21.50", "case of 20, 5 kg;71.00" },
  { "read", "Size;Qty;Price", "5 kg;1;21.50", "250 g;20;71.00" },
  { "read", "Size;Outer;Price", "5 kg;Case of 1;21.50", "250 g;Case of 20;71.00" },
  { "read", "Pack;Pieces;Price", "5 kg;140;21.50", "20 x 250 g;20;71.00" },
  { "read", "Pack;Order qty;Price", "5 kg;2;21.50", "20 x 250 g;3;71.00" },
  /* Amounts of the goods and counts of packages beside a price that has no pack are held against that of the book. */
  { "12", "Price;Inner", "21.50;6", "71.00;2" },
  { "1", "Price;Outer", "21.50;4", "71.00;5" },
  { "12", "Price;Carton", "21.50;4", "71.00;12" },
  { "12", "Prix;Taille", "21,50;4", "71,00;3" },
  { "12", "Price;Min weight", "21.50;4", "71.00;4" },
  { "12", "Price;Avg weight (kg)", "21.50;4", "71.00;4" },
  { "12", "Price;Drained weight (g)", "21.50;4000", "71.00;200" },
  { "12", "Prix;Poids égoutté", "21,50;4", "71,00;200" },
  { "12", "Price;Net contents", "21.50;4", "71.00;200" },
  { "12", "Price;Unit size", "21.50;4", "71.00;200" },
  { "12", "Price;Net contents", "21.50;0.5", "71.00;0.2" },
  { "12", "Price;Avg weight (kg)", "21.50;2", "71.00;2" },
  { "12", "Price;Unit weight", "21.50;4", "71.00;200" },
  { "2", "Price;Units per case", "21.50;6", "71.00;12" },
  { "read", "Price;Inner", "21.50;5", "71.00;20" },
  { "read", "Price;Carton", "21.50;1", "71.00;5" },
  { "read", "Prix;Taille", "21,50;5", "71,00;250" },
  { "read", "Price;Avg weight (kg)", "21.50;1.2", "71.00;5.2" },
  { "read", "Price;Drained weight (g)", "21.50;2400", "71.00;120" },
  { "read", "Price;Unit size", "21.50;5000", "71.00;0.25" },
  { "read", "Pack;Price;Min weight", "5 kg;21.50;4", "20 x 250 g;71.00;4" },
  /* "2" beside the size that is the pack by itself. */
  { "1", "Pack;Qty;Price", "5 kg;2;21.50", "20 x 250 g;2;71.00" },
  { "1", "Cdt;Qté;Prix", "5;2;21,50", "20 x 250 g;2;71,00" },
  { "1", "Pack;Outer;Price", "5;2;21.50", "250 g;20;71.00" },
  { "12", "Poids;Colis;Prix", "5;2;21,50", "250 g;12;71,00" },
  { "12", "Size;Per case;Price", "5;2;21.50", "250;12;71.00" },
  { "1", "Kg;Qty;Price", "5;2;21.50", "5;20;71.00" },
  { "read", "Kg;Qty;Price", "5;1;21.50", "5;20;71.00" },
  { "read", "Pack;Qty;Price", "5 kg;1;21.50", "250 g;20;71.00" },
  /* Of two sizes the larger is several of the other; with what is packed around it one is not far above the pack. */
  { "1", "Presentation;Type;Price", "5 kg;2 kg;21.50", "5 kg;250 g;71.00" },
  { "1", "Gross weight;Price", "8 kg;21.50", "5.4 kg;71.00" },
  { "12", "Pack;Price", "pair 5 kg;21.50", "250 g twice;71.00" },
  { "12", "Pack;Price", "half 5 kg;21.50", "250 g half;71.00" },
  { "12", "Pack;Price", "1/2 5kg;21.50", "20 x 250 g & 20 x 250 g;71.00" },
  { "12", "Pack;Price", "two x 5 kg;21.50", "both 5 kg;71.00" },
  { "12", "Pack;Price", "5 kg pair;21.50", "5 kg and 5 kg;71.00" },
  { "read", "Type;Price", "half shell 5 kg;21.50", "demi-sel 20 x 250 g;71.00" },
  /* Numbers alone are sizes in the unit that a heading has anywhere, and weights. */
  { "12", "Kg per sack;Price", "4;21.50", "4;71.00" },
  { "12", "Kg/colis;Prix", "4;21,50", "4;71,00" },
  { "12", "Kilos par sac;Prix", "4;21,50", "4;71,00" },
  { "12", "Weight per bag (kg);Price", "4;21.50", "4;71.00" },
  { "12", "Weight each (g);Price", "4000;21.50", "200;71.00" },
  { "12", "Weight in g;Price", "4000;21.50", "200;71.00" },
  { "12", "Weight;Price", "4;21.50", "4;71.00" },
  { "12", "Poids;Prix", "4000;21,50", "200;71,00" },
  { "12", "Qty per case;Weight each (g);Price", "2;5000;21.50", "12;250;71.00" },
  { "12", "Nb;Poids unit. g;Prix", "2;5000;21,50", "12;250;71,00" },
  { "read", "Kg per sack;Price", "5;21.50", "5;71.00" },
  { "read", "Kg/colis;Prix", "5;21,50", "5;71,00" },
  { "read", "Weight each (g);Price", "5000;21.50", "250;71.00" },
  { "read", "Weight g;Price", "5000;21.50", "5000;71.00" },
  { "read", "Weight;Price", "5;21.50", "250;71.00" },
  { "read", "Poids;Prix", "5000;21,50", "5;71,00" },
  { "12", "Size;Price", "4;21.50", "200;71.00" },
  { "read", "Size;Price", "5;21.50", "20;71.00" },
  { "12", "Contents;Price", "4;21.50", "12;71.00" },
  { "12", "Contenance;Prix", "4;21,50", "4000;71,00" },
  { "12", "Format;Price", "4;21.50", "200;71.00" },
  { "12", "Volume;Price", "4;21.50", "200;71.00" },
  { "12", "Nett wt;Price", "4;21.50", "200;71.00" },
  { "12", "Fill weight;Price", "4;21.50", "200;71.00" },
  { "12", "Sack size;Price", "4;21.50", "200;71.00" },
  { "read", "Sack size;Price", "5;21.50", "250;71.00" },
  { "read", "Calibre;Size;Prix", "4;40/60;21,50", "3;;71,00" },
  { "read", "Qty per case;Weight each (g);Price", "1;5000;21.50", "20;250;71.00" },
  { "read", "Nb;Poids unit. g;Prix", "1;5000;21,50", "20;250;71,00" },
  { "12", "Weight g;Price", "4000;21.50", "200;71.00" },
  { "read", "Price;Sold (kg)", "21.50;412", "71.00;35" },
  { "read", "Price;Pieces per kg", "21.50;40", "71.00;4" },
  /* Measures that are none of ours, and packages that hold several. */
  { "12", "Pack;Price", "5 gal;21.50", "20 pints;71.00" },
  { "12", "Pack;Price", "1 pallet;21.50", "1 layer;71.00" },
  { "12", "Format;Price", "5 stone;21.50", "20 pt;71.00" },
  { "1", "Pack;Price", "5 bottles;21.50", "20 rolls;71.00" },
  { "12", "Pack;Price", "2pcs of 5kg;21.50", "12 pcs of 250 g;71.00" },
  { "2", "Pack;Price", "1 pc of 5kg;21.50", "12 pcs of 250 g;71.00" },
  /* Three that do not agree; tax and discounts may lie between them. */
  { "12", "Pack;Price;Price/kg", "5 kg;21.50;9.00", "20 x 250 g;71.00;15.00" },
  { "12", "Pack;Price;€/kg", "5 kg;21.50;43", "20 x 250 g;71.00;17.75" },
  { "read", "Pack;Price;Price/kg", "5 kg;21.50;4.30", "20 x 250 g;71.00;14.20" },
  { "read", "Pack;Price;Price/kg", "5 kg;21.50;4.3", "20 x 250 g;71.00;14" },
  { "read", "Pack;Prix HT;Prix/kg TTC", "5 kg;21,50;4,54", "20 x 250 g;71,00;14,98" },
  { "read", "Pack;List price per kg;Net price", "5 kg;5.00;21.50", "20 x 250 g;16.00;71.00" },
  { "12", "Price;Price/kg", "21.50;9.00", "71.00;15.00" },
  { "12", "Prix;Prix au kg", "21,50;5,37", "71,00;12,00" },
  { "1", "€/kg;Price", "5.37;21.50", "14.20;71.00" },
  { "12", "Price;Per kg", "21.50;5.37", "71.00;12.00" },
  { "12", "Prix;Au kilo", "21,50;5,37", "71,00;12,00" },
  { "read", "Price;Unit;Price/kg", "4.30;kg;4.30", "14.20;kg;14.20" },
  { "read", "Pack;Price;Old price/kg", "5 kg;21.50;2.10", "20 x 250 g;71.00;7.00" },
  /* A case written with a stroke. */
  { "read", "Pack;Price", "1/5kg;21.50", "20/250g;71.00" },
  { "read", "Size;Price", "5/1kg;21.50", "20/0.25 kg;71.00" },
  { "12", "Pack;Price", "6/800g;21.50", "20/200 g;71.00" },
  { "12", "Pack;Price", "4/1.5kg;21.50", "1/4 kg;71.00" },
  { "12", "Pack;Price", "4/6 kg;21.50", "12/250g;71.00" },
  { "read", "Condt.;Price", "5 kg;21.50", "20 x 250 g;71.00" },
  { "read", "Emb.;Prix HT", "5 kg;21,50", "20 x 250 g;71,00" },
  { "read", "UV;Prix HT", "5 kg;21,50", "20 x 250 g;71,00" },
  { "read", "Container;Bag price", "5 kg;21.50", "20 x 250 g;71.00" },
  /* Money for a pack is none; it is the price, or what that of a unit makes of it. */
  { "read", "Cond.;PU HT;Unité;Montant colis HT", "5 kg;4.30;kg;21.50", "5 kg;14.20;kg;71" },
  { "read", "Cond.;PU HT;Montant colis HT", "5 kg;21.50;21.50", "20 x 250 g;71;71" },
  { "read", "Pack;Price;Amount per case (EUR)", "5 kg;21.50;21.50", "20 x 250 g;71;71" },
  { "read", "Pack;Prix HT;Total colis TTC", "5 kg;21.50;22.68", "20 x 250 g;71;74.91" },
  { "12", "Cond.;PU HT;Unité;Montant colis HT", "5 kg;4.30;kg;18", "5 kg;14.20;kg;96" },
  { "refused", "Pack;Price;Amount per case", "5 kg;21.50;43", "20 x 250 g;71;12" },
  /* A unit alone may be what the price is for: the last price tells. */
  { "read", "Price;Sold by", "21.50;box", "71.00;case" },
  { "read", "Price;Sold by", "4.30;kg", "14.20;kg" },
  { "read", "Price;Price basis", "4.30;kg", "71.00;kg" },
  { "read", "Price;Format", "4.30;kg", "14.20;kg" },
  { "read", "Price;Size", "4.30;kg", "14.20;kg" },
  { "read", "Price;Content", "4.30;kg", "14.20;kg" },
  { "read", "Price;Size unit;Size", "21.50;kg;5", "71.00;g;250" },
  { "2", "Price;Charged by", "21.50;kg", "3.55;each" },
};

/* Names beside a code, whose price is then asked about. */
static const char *const asked_names[] = { "Mussels -10%", "Mussels (promo)", "Mussels [unavailable]", "Mussels ❌",
                                           "Mussels from Monday 13.20", "Mussels less 10 %", "Mussels 4 kg",
                                           "Mussels 6 x 1 kg", "Mussels (half box)", "Mussels SOLD",
                                           "Mussels (was 9)", "Mussels ??", "Mussels TTC", "Mussels 5 kg x 2",
                                           "Mussels 2/5kg", "Mussels x2", "Mussels; case of 4", "Mussels 4-pack",
                                           "Mussels (4)", "Mussels*4", "Mussels 4 l", "Mussels lot de 4",
                                           "Mussels 4, 1 kg", "Mussels 1 kg (4)", "Mussels 1/2 case",
                                           "Mussels, dozen", "Mussels half", "Mussels pair", "Mussels fini",
                                           "Mussels from Q1", "Mussels - stop", "Mussels !!", "Mussels *",
                                           "Mussels last box", "Mussels 2nds", "Mussels wrong", "Mussels GBP",
                                           "Mussels half box /", "Mussels 1/2 box (", "Mussels 12 x /",
                                           "Mussels dozen [", "Mussels 5x99999999999999",
                                           "Mussels 5 kg, case of 4", "Mussels 5kg 2pk",
                                           "Mussels 2x5kg", "Mussels x5", "Mussels bouchot",
                                           "Mussels /kg", "Mussels per kg", "Mussels lb", "Mussels kilo bag",
                                           "Mussels loose", "Mussels frozen", "Mussels NEW SIZE",
                                           "Mussels new pack", "Moules mussels en vrac", "Moules vrac",
                                           "Moules demi-carton", "Moules nouveau format", "Moules périmées",
                                           "Mussels half-tray", "Mussels recalled", "Moules surgelées" };
static const char *const plain_names[] = { "Mussels 5 kg", "Mussels, beards out", "Mussels 60/80", "Mussels 35-40 %",
                                           "Mussels 5 kg x 1", "Mussels 1/5kg", "Mussels 40-60 g", "Mussels 5,000 g",
                                           "Mussels 30 g avg", "Mussels 2 FAO 27", "Mussels kg",
                                           "Mussels no. 2, 5 kg", "Mussels 24 months 5 kg", "Mussels 2 (5 kg)",
                                           "Fresh mussels, washed", "Moules de bouchot", "Mussels (rope grown, UK)",
                                           "Mussels 1x5kg", "Mussels 5000g", "Mussels 5KGx1", "Mussels 5 kg bag",
                                           "New mussels" };

static void
test_columns (void **state)
{
  test_column_cases (state, cases, G_N_ELEMENTS (cases));
}

static void
test_names (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (asked_names) + G_N_ELEMENTS (plain_names); i++)
    {
      const gboolean is_asked = i < G_N_ELEMENTS (asked_names);
      const char *name = is_asked ? asked_names[i] : plain_names[i - G_N_ELEMENTS (asked_names)];
      g_autofree char *text = g_strdup_printf ("Code;Product;Price\n102;%s;21.50\n", name);
      g_autoptr (CroPriceList) list = read_list (*state, text, NULL);
      g_autofree char *is = told (list);

      if (strcmp (is, is_asked ? "1" : "read") != 0)
        fail_msg ("%s: %s", name, is);
    }
}

/* A code that was given to other goods shows in a word that is the opposite of the book's; other words for the same
 * are none. */
static void
test_opposite_names (void **state)
{
  static const struct { const char *row, *expected; } opposite[] = {
    { "601;Prawns, peeled", "1" },       { "601;Peeled prawns 2 kg", "1" }, { "601;Crevettes décortiquées", "1" },
    { "601;Prawns shell-on", "read" },   { "601;Shell on prawns", "read" }, { "601;Crevettes", "read" },
    { "701;Red wine", "1" },             { "701;Vin rouge", "1" },          { "701;White wine", "read" },
    { "701;Vin blanc", "read" },         { "102;Cooked mussels", "read" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (opposite); i++)
    {
      g_autofree char *text = g_strdup_printf ("Code;Product;Price\n%s;%s\n", opposite[i].row,
                                               opposite[i].row[0] == '1' ? "21.50" : "41.00");
      g_autoptr (CroPriceList) list = read_list (*state, text, NULL);
      g_autofree char *is = told (list);

      if (strcmp (is, opposite[i].expected) != 0)
        fail_msg ("%s: %s", opposite[i].row, is);
    }
}

/* One answer is of a column, and frees all rows. */
static void
test_asked_once (void **state)
{
  static const char *const columns[] = { "Inner", "Avg weight (kg)", "Taille" };

  for (gsize i = 0; i < G_N_ELEMENTS (columns); i++)
    {
      g_autofree char *text = g_strdup_printf ("Code;Product;Price;%s\n102;Mussels;21.50;4\n301;Butter;71.00;4\n"
                                               "401;Oil;31.00;3\n", columns[i]);
      g_autoptr (CroPriceList) list = read_list (*state, text, NULL);

      for (guint k = 0; k < 2; k++)
        {
          const CroListRow *row = &g_array_index (list->rows, CroListRow, k);
          const CroListReason *reason = &g_array_index (row->reasons, CroListReason, 0);

          assert_int_equal (reason->why, CRO_LIST_SAID_CHANGE);
          assert_string_equal (reason->text, columns[i]);
        }
    }
}

/* A price per kg is held against that of goods that are poured as far as what a litre weighs allows, and one per l
 * against that of goods that are weighed; of a heading that names both against its own. Oil of 0.92 kg per l (from
 * memory): 31.00 for 6 × 75 cl are 6.89 per l and 7.49 per kg. */
static void
test_prices_of_other_measure (void **state)
{
  static const struct { const char *heading, *row, *expected; } of_measures[] = {
    { "Price/kg", "401;Oil;31.00;7.49", "read" },
    { "Price/kg", "401;Oil;31.00;6.89", "read" },
    { "Price/kg", "401;Oil;31.00;3.44", "1" },
    { "Prix au kg", "401;Oil;31.00;14.98", "1" },
    { "Prix au kg/L", "401;Oil;31.00;6.89", "read" },
    { "Prix au L/kg", "401;Oil;31.00;7.49", "1" },
    { "Prix au kg/L", "102;Mussels;21.50;4.30", "read" },
    { "Prix au kg/L", "102;Mussels;21.50;3.20", "1" },
    { "Price per l/kg", "102;Mussels;21.50;6.00", "1" },
    { "Price/l", "102;Mussels;21.50;4.30", "read" },
    { "Price/l", "102;Mussels;21.50;2.15", "1" },
    { "Price/kg", "501;Oysters;61.00;7.00", "read" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (of_measures); i++)
    {
      g_autofree char *text = g_strdup_printf ("Code;Product;Price;%s\n%s\n", of_measures[i].heading,
                                               of_measures[i].row);
      g_autoptr (CroPriceList) list = read_list (*state, text, NULL);
      g_autofree char *is = told (list);

      if (strcmp (is, of_measures[i].expected) != 0)
        fail_msg ("%s: %s", text, is);
    }
}

/* Without a code a name has the size in it that tells the packs apart. */
static void
test_sizes_in_names (void **state)
{
  static const struct { const char *list, *expected; } sizes[] = {
    { "Description;Price\nMussels 5kg;21.50\nButter 20 x 250 g;71.00\n", "read" },
    { "Item,Price\n\"Mussels, 5 kg\",21.50\nButter (20x250g),71.00\n", "read" },
    { "Produit;Prix\nMussels - 5 kg;21,50\nOil 6x75cl;31,00\n", "read" },
    { "Product;Pack;Price\nMussels 5kg;5 kg;21.50\nButter 20 x 250 g;20 x 250 g;71.00\n", "read" },
    { "Product;Unit;Price\nMussels 5kg;kg;4.30\nButter 20 x 250 g;kg;14.20\n", "read" },
    { "Product;Price\nMussels 4kg;21.50\nButter 250 g;71.00\n", "12" },
    { "Product;Price\nMussels 4-6 kg;21.50\nButter 1/2 20 x 250 g;71.00\n", "12" },
    { "Product;Price\nMussels 5 kg less 10 %;21.50\nCockles 5 kg;71.00\n", "12" },
    { "Product;Pack;Price\nMussels 5kg;4 kg;21.50\nButter 2 5 kg;5 kg;71.00\n", "12" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (CroPriceList) list = read_list (*state, sizes[i].list, NULL);
      g_autofree char *is = told (list);

      if (strcmp (is, sizes[i].expected) != 0)
        fail_msg ("%s: %s", sizes[i].list, is);
    }
}

/* Titles over the rows of a part say for how much its prices are. */
static void
test_sections (void **state)
{
  static const struct { const char *list, *expected; } parts[] = {
    { "Item,Price\nPRICES PER KG\nMussels,4.30\nButter,14.20\nPRICES EACH\nOysters,0.61\n", "read" },
    { "Item;Price\nPer kg;\nMussels;4.30\nPer case;\nButter;71.00\nOil;31.00\n", "read" },
    { "Article;Prix\nPRIX AU KG;\nMussels;4,30\nPRIX A LA PIECE;\nOysters;0,61\n", "read" },
    { "Item,Price\nPRICES PER KG\nMussels,4.30\nPRICES EACH\nOysters,61.00\n", "2" },
    { "Item,Price\nMussels,21.50\nPRICES EACH\nOysters,0.61\n", "12" },
    { "Item,Price per kg\nMussels,4.30\nPRICES EACH\nOysters,0.61\n", "12" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      g_autoptr (CroPriceList) list = read_list (*state, parts[i].list, NULL);
      g_autofree char *is = told (list);

      if (strcmp (is, parts[i].expected) != 0)
        fail_msg ("%s: %s", parts[i].list, is);
    }
}

/* What tells the goods apart is asked by itself, and not with names that are but longer. */
static void
test_names_by_themselves (void **state)
{
  static const char *const words[] = { "recalled", "RRP", "retail", "provisional", "FOC", "damaged", "loose" };

  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    {
      g_autofree char *text = g_strdup_printf ("Code;Product;Price\n102;Mussels %s;21.50\n301;Butter farmhouse;71\n"
                                               "401;Oil pressed;31\n", words[i]);
      g_autoptr (CroPriceList) list = read_list (*state, text, NULL);
      const CroListRow *row = &g_array_index (list->rows, CroListRow, 0);

      assert_int_equal (row->state, CRO_LIST_DOUBTFUL);
      assert_int_equal (g_array_index (row->reasons, CroListReason, 0).why, CRO_LIST_BESIDE);
    }
}

/* A unit that no number counts, at the end of a name; where there is none nothing is said of it. */
static void
test_unit_at_end (void **state)
{
  static const char *const none[] = { "Leek half box /", "Leek (", "Leek [", "Leek/", "Leek 5 kg", "kg", "",
                                      "Leek\u3000g" };
  static const char *const kilos[] = { "Leek kg", "Leek /kg", "Leek (kg)", "Leek [kg]" };
  CroUnit unit;

  for (gsize i = 0; i < G_N_ELEMENTS (none); i++)
    assert_false (cro_said_pack_ends_unit (none[i], &unit));
  for (gsize i = 0; i < G_N_ELEMENTS (kilos); i++)
    assert_true (cro_said_pack_ends_unit (kilos[i], &unit) && unit == CRO_UNIT_KG);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_columns),
    cmocka_unit_test (test_names),
    cmocka_unit_test (test_opposite_names),
    cmocka_unit_test (test_asked_once),
    cmocka_unit_test (test_prices_of_other_measure),
    cmocka_unit_test (test_sizes_in_names),
    cmocka_unit_test (test_sections),
    cmocka_unit_test (test_names_by_themselves),
    cmocka_unit_test (test_unit_at_end),
  };

  return cmocka_run_group_tests_name ("packs beside a price", tests, set_up, cro_test_kitchen_tear_down);
}
