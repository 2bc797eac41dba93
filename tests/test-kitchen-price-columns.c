/* What stands beside a price in a supplier's table: no column of it is passed over in silence, and everyday ones are
 * read without a question. Headings and cells are common practice, no source. */
#include "cro-price-list-words.h"
#include "cro-price-list.h"
#include "cro-said-pack.h"
#include "support/kitchen-book.h"

#include <string.h>

/* Behind "Code;Product", with rows of mussels, last 21.00, and butter, last 70.00. */
static const struct
{
  const char *expected;  /* "read", "refused", or the rows that are asked about */
  const char *headings;
  const char *mussels;
  const char *butter;
} cases[] = {
  /* Everyday tables. */
  { "read", "Price", "21.50", "71.00" },
  { "read", "Pack;Price", "5 kg;21.50", "20 x 250 g;71.00" },
  { "read", "Unit;Price", "5 kg;21.50", "20 x 250 g;71.00" },
  { "read", "Pack;Unit;Price;Origin", "5 kg;bag;21.50;Estuary", "20 x 250 g;case;71.00;Saltmarsh" },
  { "read", "Price;Origin;Brand", "21.50;Estuary;Mill Lane", "71.00;Saltmarsh;Quay House" },
  { "read", "Price;Country;Region", "21.50;IE;South coast", "71.00;FR;Valley 2" },
  { "read", "Prix;Origine;Marque", "21,50;Estuaire;Moulin", "71,00;France;Moulin" },
  { "read", "Prix HT;Provenance;Famille", "21,50;Estuaire;Coquillages", "71,00;France;Crèmerie" },
  { "read", "Prix;Catégorie;Unité", "21,50;Coquillages;sac", "71,00;Crèmerie;carton" },
  { "read", "Price;Category;Comment", "21.50;Shellfish;rope grown", "71.00;Dairy;unsalted" },
  { "read", "Price;Group;Section", "21.50;Group 2;1", "71.00;Group 3;2" },
  { "read", "Price;Barcode", "21.50;4006381333931", "71.00;5901234123457" },
  { "read", "Price;EAN;HS code", "21.50;4006381333931;0307 31", "71.00;5901234123457;0405 10" },
  { "read", "Prix;Gencod;Code douanier", "21,50;4006381333931;03073110", "71,00;5901234123457;04051011" },
  { "read", "Price;Min. order", "21.50;2", "71.00;1" },
  { "read", "Price;MOQ;Lead time (days)", "21.50;1;2", "71.00;1;1" },
  { "read", "Price;Minimum order", "21.50;1.5", "71.00;1.0" },
  { "read", "Prix;Qté min.;Délai (j)", "21,50;2;1", "71,00;1;2" },
  { "read", "Prix;Minimum de commande;Multiple", "21,50;2;1", "71,00;1;1" },
  { "read", "Price;Brand;Available", "21.50;Quay House;yes", "71.00;Mill Lane;yes" },
  { "read", "Price;In stock", "21.50;Y", "71.00;Y" },
  { "read", "Price;Stock", "21.50;120", "71.00;45" },
  { "read", "Price;Availability", "21.50;in stock", "71.00;available" },
  { "read", "Prix;Disponible", "21,50;oui", "71,00;oui" },
  { "read", "Prix;Dispo;Stock", "21,50;O;12", "71,00;O;3" },
  { "read", "Price;Status", "21.50;active", "71.00;active" },
  { "read", "Price;Note", "21.50;rope grown, washed", "71.00;unsalted" },
  { "read", "Price;Remarks", "21.50;", "71.00;ask for samples" },
  { "read", "Prix;Observations", "21,50;lavées", "71,00;doux" },
  { "read", "Price;Comment", "21.50;class 1", "71.00;82% fat" },
  { "read", "Price;Comments", "21.50;FAO 27", "71.00;" },
  { "read", "Price;Grade;Size", "21.50;A;5 kg", "71.00;B;" },
  { "read", "Prix;Calibre;Label", "21,50;60/80;MSC", "71,00;;Bio" },
  { "read", "Price;Shelf life (days);Storage", "21.50;7;+2/+4 °C", "71.00;60;0-4 °C" },
  { "read", "Price;Shelf life", "21.50;5 days", "71.00;3 months" },
  { "read", "Prix;DLC (jours);Température", "21,50;7;2-4", "71,00;60;4" },
  { "read", "Prix;DDM;Zone de pêche", "21,50;12/2027;FAO 27", "71,00;06/2027;" },
  { "read", "Price;Weight (kg)", "21.50;5", "71.00;5" },
  { "read", "Price;Per kg", "21.50;4.30", "71.00;14.20" },
  { "read", "Price;Price per kg", "21.50;4.30", "71.00;14.20" },
  { "read", "Prix;Prix au kg", "21,50;4,30", "71,00;14,20" },
  { "read", "Price;RRP", "21.50;30.00", "71.00;99.00" },
  { "read", "Price;Recommended retail", "21.50;30.00", "71.00;99.00" },
  { "read", "Prix;Prix public conseillé", "21,50;30,00", "71,00;99,00" },
  { "read", "Price;Old price", "21.50;21.00", "71.00;70.00" },
  { "read", "Old price;New price;Change %", "21.00;21.50;2.4", "70.00;71.00;1.4" },
  { "read", "Ancien prix;Nouveau prix;Variation", "21,00;21,50;2,4 %", "70,00;71,00;1,4 %" },
  { "read", "Price;Last price;Increase", "21.50;21.00;0.50", "71.00;70.00;1.00" },
  { "read", "Price;VAT code", "21.50;1", "71.00;1" },
  { "read", "Prix HT;TVA", "21,50;5,5 %", "71,00;5,5 %" },
  { "read", "Price;VAT %;Total", "21.50;10;23.65", "71.00;10;78.10" },
  { "read", "Price;Discount %", "21.50;0", "71.00;" },
  { "read", "List price;Discount %;Net price", "25.00;14;21.50", "80.00;11.25;71.00" },
  { "read", "Price;Pallet;Layers", "21.50;40;8", "71.00;96;12" },
  { "read", "Prix;Palette;Couche", "21,50;40;8", "71,00;96;12" },
  { "read", "Price;Line;Page", "21.50;1;12", "71.00;2;14" },
  { "read", "Price;Season;Allergens", "21.50;October to March;molluscs", "71.00;all year;milk" },
  { "read", "Price;Currency", "21.50;EUR", "71.00;EUR" },
  { "read", "Price;Valid from", "21.50;2026-03-02", "71.00;2026-03-02" },
  { "read", "Price;Date", "21.50;2026-02-02", "71.00;2026-01-12" },
  { "read", "Price;Valid until", "21.50;2026-03-31", "71.00;2026-03-31" },
  { "read", "Price;Valid from", "21.50;03/03/2026", "71.00;03/03/2026" },
  { "read", "Prix;Date d'effet", "21,50;01/03/2026", "71,00;02/03/26" },
  { "12", "Price;Valid from", "21.50;03/02/2026", "71.00;03/04/2026" },
  { "read", "Price;Valid from;Valid to", "21.50;2026-03-02;2026-03-31", "71.00;2026-03-02;2026-03-31" },
  { "read", "Prix;Valable du;Au", "21,50;02.03.2026;31.03.2026", "71,00;02.03.2026;31.03.2026" },
  { "read", "Price;Organic;Certified", "21.50;no;yes", "71.00;yes;yes" },
  { "read", "Price;Abv;Vintage", "21.50;12.5;2024", "71.00;13;2023" },
  { "read", "Price;Foo", "21.50;", "71.00;" },
  { "read", "Price;Foo", "21.50;21.50", "71.00;71.00" },
  { "read", "Price;Foo", "21.50;rope", "71.00;doux" },
  { "read", "Price;", "21.50;rope", "71.00;doux" },
  { "read", "Price;Image;Link",
    "21.50;mussels-1.jpg;https://example.test/102", "71.00;butter.jpg;https://example.test/301" },
  { "read", "Price;Quay price code", "21.50;A1", "71.00;B2" },
  { "read", "Price;Deposit", "21.50;2.00", "71.00;" },
  /* Other prices, or what changes them. */
  { "refused", "Price;Trade", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Contract", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Now", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;new", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Member", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Tier 2", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;December", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Discounted", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;You pay", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Yours", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Saltmarsh", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Saltmarsh", "21.50;", "71.00;68.00" },
  { "refused", "Price;Wholesale", "21.50;19", "71.00;68" },
  { "refused", "Price;Brut remisé", "21.50;19.90", "71.00;68.00" },
  { "refused", "Prix;À payer", "21,50;19,90", "71,00;68,00" },
  { "refused", "Prix;Négocié", "21,50;19,90", "71,00;68,00" },
  { "refused", "Prix;Professionnel", "21,50;19,90", "71,00;68,00" },
  { "refused", "Price;Code promo", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Unit", "21.50;19.90", "71.00;68.00" },
  { "read", "Price;Unit cost", "21.50;4.30", "71.00;3.55" },
  { "refused", "Price;Cost to you", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;10+", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;10", "21.50;19.90", "71.00;68.00" },
  { "refused", "New price;Price trade", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Rem. %", "21.50;10", "71.00;10" },
  { "refused", "Price;Rem.", "21.50;10%", "71.00;5%" },
  { "refused", "Price;less", "21.50;10%", "71.00;10%" },
  { "refused", "Price;-%", "21.50;10%", "71.00;10%" },
  { "refused", "Price;% off", "21.50;10", "71.00;10" },
  { "refused", "Price;Allowance", "21.50;1.00", "71.00;2.00" },
  { "refused", "Price;Escompte", "21.50;2", "71.00;2" },
  { "refused", "Price;Réduction", "21.50;5%", "71.00;5%" },
  { "refused", "Price;Saving", "21.50;1.00", "71.00;2.00" },
  { "refused", "Price;Surcharge", "21.50;5%", "71.00;5%" },
  { "refused", "Price;Surcharge", "21.50;0.60", "71.00;" },
  { "refused", "Price;Supplement", "21.50;0.60", "71.00;0.60" },
  { "refused", "Price;Levy", "21.50;0.60", "71.00;0.60" },
  { "refused", "Price;Item discount", "21.50;10", "71.00;10" },
  { "refused", "Price;Extra", "21.50;0.60", "71.00;0.60" },
  { "refused", "Price;Foo", "21.50;10 %", "71.00;12 %" },
  { "refused", "Price;Foo", "21.50;€ 19.90", "71.00;€ 68.00" },
  { "refused", "Price;Foo", "21.50;19.90/box", "71.00;68.00/box" },
  { "refused", "Price;", "21.50;19.90", "71.00;68.00" },
  { "refused", "Net price excl. VAT;Disc %", "21.50;10", "71.00;10" },
  { "refused", "Price incl. deposit;Deposit", "23.50;2.00", "73.00;2.00" },
  /* The price before what is taken off is never the one to pay. */
  { "refused", "Price not discounted", "21.50", "71.00" },
  { "refused", "Price before discount", "21.50", "71.00" },
  { "refused", "Prix avant remise", "21,50", "71,00" },
  { "refused", "Prix hors remise;Remise %", "21,50;10", "71,00;10" },
  { "refused", "Prix net hors remise;Remise", "21,50;10", "71,00;10" },
  { "refused", "Price excl. surcharge", "21.50", "71.00" },
  { "refused", "Price less 21 %", "21.50", "71.00" },
  { "12", "Price plus", "21.50", "71.00" },
  { "12", "Price+", "21.50", "71.00" },
  { "read", "Prix;Prix avant remise", "21,50;25,00", "71,00;80,00" },
  { "read", "Price;Price not discounted", "21.50;25.00", "71.00;80.00" },
  { "read", "Prix avant remise;Prix après remise", "25,00;21,50", "80,00;71,00" },
  /* Cells of words. */
  { "1", "Price;Note", "21.50;less 10%", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;10% off", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;-10%", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;remise 10 %", "71.00;unsalted" },
  { "1", "Price;", "21.50;remise 10 %", "71.00;unsalted" },
  { "1", "Price;Terms", "21.50;less 10%", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;per 5 kg", "71.00;unsalted" },
  { "1", "Price;Remark", "21.50;price for 2 packs", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;from Monday 13.20", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;from Monday", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;until Friday", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;3 for 2", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;POA", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;price on request", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;estimate", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;plus carriage", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;promo", "71.00;unsalted" },
  /* Each row by itself: two remarks that leave it open. */
  { "12", "Price;Note", "21.50;fresh, per kg", "71.00;sold by the kg" },
  { "12", "Price;Note", "21.50;vivantes, le kilo", "71.00;per bunch" },
  { "12", "Price;Note", "21.50;a tray", "71.00;each" },
  { "12", "Price;Note", "21.50;half box", "71.00;for two" },
  { "12", "Price;Note", "21.50;the pair", "71.00;per dozen" },
  { "12", "Price;Note", "21.50;MP", "71.00;cours du jour" },
  { "12", "Price;Note", "21.50;awaiting confirmation", "71.00;à confirmer" },
  { "12", "Price;Note", "21.50;going up Monday", "71.00;December only" },
  { "12", "Price;Note", "21.50;gone", "71.00;none this week" },
  { "12", "Price;Note", "21.50;provisional", "71.00;subject to change" },
  { "12", "Price;Note", "21.50;ask", "71.00;free" },
  { "12", "Price;Note", "21.50;see below", "71.00;art 12.40" },
  { "12", "Price;Note", "21.50;draft", "71.00;from Q1" },
  { "12", "Price;Note", "21.50;from spring", "71.00;for delivery from Friday" },
  { "12", "Price;Note", "21.50;pas disponible cette semaine", "71.00;delivery tomorrow" },
  { "12", "Price;Note", "21.50;↑", "71.00;pas de livraison" },
  { "12", "Price;Note", "21.50;for the bag", "71.00;available from" },
  { "12", "Price;Note", "21.50;not ok", "71.00;demi caisse" },
  { "read", "Price;Note", "21.50;not washed", "71.00;from our farm, for cooking" },
  { "12", "Price;Available", "21.50;on order", "71.00;Friday" },
  { "12", "Price;Status", "21.50;expired", "71.00;old" },
  { "1", "Price;Remarks", "21.50;+ 21 %", "71.00;unsalted" },
  { "1", "Price;Remarks", "21.50;excl.", "71.00;unsalted" },
  { "1", "Price;Note", "21.50;prices in GBP", "71.00;unsalted" },
  { "1", "Price;Unit", "21.50;GBP/kg", "71.00;case" },
  { "1", "Price;Status", "21.50;delisted", "71.00;active" },
  { "1", "Price;Status", "21.50;no longer available", "71.00;active" },
  { "1", "Price;Status", "21.50;temporarily out", "71.00;active" },
  { "1", "Price;Status", "21.50;discontinued", "71.00;active" },
  { "1", "Price;Status", "21.50;ended", "71.00;active" },
  { "1", "Price;Statut", "21.50;arrêté", "71.00;actif" },
  { "1", "Price;Statut", "21.50;supprimé", "71.00;actif" },
  { "1", "Price;Stock", "21.50;0", "71.00;12" },
  { "1", "Price;Stock", "21.50;out", "71.00;12" },
  { "1", "Price;In stock", "21.50;❌", "71.00;✓" },
  { "1", "Price;Available", "21.50;N", "71.00;Y" },
  { "1", "Price;Available", "21.50;no", "71.00;yes" },
  { "1", "Price;Disponible", "21.50;non", "71.00;oui" },
  { "1", "Price;Available", "21.50;from Thursday", "71.00;yes" },
  { "12", "Price;Available", "21.50;Friday", "71.00;on order" },
  { "1", "Price;Category", "21.50;Discontinued", "71.00;Dairy" },
  { "1", "Price;Note", "21.50;half box", "71.00;half fat" },
  { "12", "Price;Note", "21.50;for two", "71.00;nothing left" },
  { "12", "Price;Note", "21.50;MP", "71.00;awaiting confirmation" },
  /* What is not known to be of the goods is asked. */
  { "12", "Price;Note", "21.50;as last week", "71.00;ex tax" },
  { "12", "Price;Note", "21.50;pounds", "71.00;dozen" },
  { "12", "Price;Note", "21.50;frozen only", "71.00;wrong" },
  { "12", "Price;Note", "21.50;ditto", "71.00;short" },
  { "12", "Price;Note", "21.50;not this week", "71.00;see Pia" },
  { "12", "Price;Note", "21.50;two boxes", "71.00;last few" },
  { "12", "Price;Available", "21.50;x", "71.00;few" },
  { "read", "Price;Note", "21.50;Dutch, class II", "71.00;from the estuary" },
  { "read", "Price;Note", "21.50;lavées, Bretagne", "71.00;nice this week" },
  { "read", "Price;Note", "21.50;day boat, line caught", "71.00;ready for roasting" },
  /* A size is compared with the pack; that of each of the goods is none of it. */
  { "read", "Price;Note", "21.50;5 kg box", "71.00;washed, 20 x 250 g" },
  { "read", "Price;Note", "21.50;2-3 kg each", "71.00;4-6 pieces" },
  { "12", "Price;Note", "21.50;4 kg box", "71.00;10 x 250 g" },
  { "read", "Price;Note", "21.50;min. order 2", "71.00;1st class" },
  { "1", "Price;Note", "21.50;per 2-3 kg", "71.00;" },
  /* How many and how large stand in two columns. */
  { "read", "Units per case;Unit size;Price", "1;5 kg;21.50", "20;250 g;71.00" },
  /* Days; the list is of 2 March 2026. */
  { "read", "Price 2026", "21.50", "71.00" },
  { "read", "Price;Cur.", "21.50;EUR", "71.00;EUR" },
  { "read", "Price;CCY", "21.50;EUR", "71.00;EUR" },
  { "read", "Prix;Monnaie", "21,50;€", "71,00;€" },
  { "12", "Price;Ccy", "21.50;GBP", "71.00;GBP" },
  { "refused", "Cur. price", "21.50", "71.00" },
  { "read", "Price;Cat", "21.50;I", "71.00;II" },
  { "read", "Prix HT;Cat.", "21,50;I", "71,00;I" },
  { "1", "Price;Cat", "21.50;discontinued", "71.00;II" },
  { "12", "Price 2025", "21.50", "71.00" },
  { "12", "Price 2027", "21.50", "71.00" },
  { "read", "Price week 10", "21.50", "71.00" },
  { "12", "Price week 9", "21.50", "71.00" },
  { "read", "Prix S10", "21,50", "71,00" },
  { "12", "Prix S11", "21,50", "71,00" },
  { "read", "Price 2 March", "21.50", "71.00" },
  { "12", "Price 9 March", "21.50", "71.00" },
  { "read", "Prix au 02/03/2026", "21,50", "71,00" },
  { "refused", "Price 1/2", "21.50", "71.00" },
  { "12", "Price;Valid from", "21.50;07.12.2026", "71.00;01.12.2026" },
  { "2", "Price;Valid from", "21.50;02.03.2026", "71.00;2026-12-07" },
  { "2", "Price;Effective", "21.50;2026-03-02", "71.00;7 December 2026" },
  { "2", "Price;Effective", "21.50;Monday 2 March 2026", "71.00;Monday 7 December 2026" },
  { "2", "Price;Effective", "21.50;2 févr. 2026", "71.00;27/12/2026" },
  { "12", "Price;Valid from", "21.50;soon 7/12", "71.00;8/12" },
  { "12", "Price;From", "21.50;2026-12-07", "71.00;2026-12-08" },
  { "read", "Price;From", "21.50;2026-03-02", "71.00;2026-02-02" },
  { "12", "Price;Week", "21.50;50", "71.00;50" },
  { "12", "Prix;Semaine", "21,50;S50", "71,00;S50" },
  { "1", "Price;Until", "21.50;2026-02-28", "71.00;2026-03-31" },
  { "1", "Price;Valid to", "21.50;2026-02-28", "71.00;2027-01-01" },
  { "1", "Price;End date", "21.50;2026-02-28", "71.00;2027-01-01" },
  { "1", "Prix;Date de fin", "21,50;2026-02-28", "71,00;2027-01-01" },
  { "1", "Prix;Fin", "21,50;28.02.2026", "71,00;01.01.2027" },
  { "1", "Price;Expires", "21.50;2026-02-28", "71.00;2026-03-31" },
  { "2", "Price;Valid from;Valid to", "21.50;2026-02-02;2026-03-31", "71.00;2026-02-02;2026-02-28" },
  { "1", "Price;Start date", "21.50;2026-12-07", "71.00;2026-03-01" },
  { "1", "Prix;Début", "21,50;2026-12-07", "71,00;2026-03-01" },
  { "12", "Price 7.12.", "21.50", "71.00" },
  { "12", "Price January", "21.50", "71.00" },
  { "refused", "Price next week", "21.50", "71.00" },
  { "refused", "Price tomorrow", "21.50", "71.00" },
  { "12", "Price week 50", "21.50", "71.00" },
  { "refused", "Prix semaine prochaine", "21,50", "71,00" },
  { "read", "Price this week", "21.50", "71.00" },
  /* Cells of the price. */
  { "read", "Price", "21.50/box", "71.00/case" },
  { "1", "Price", "21.50/stone", "71.00" },
  { "read", "Price 2.3.2026", "21.50", "71.00" },
  { "read", "Price incl. 5.5 % VAT;VAT", "21.50;", "71.00;" },
  { "12", "Price for 2", "21.50", "71.00" },
  { "12", "Price;£", "21.50;x", "71.00;" },
  { "refused", "Price;€", "21.50;19.90", "71.00;68.00" },
  { "12", "Price;Remark", "21.50;per 5 kg", "71.00;for 2 packs" },
  { "1", "Pack;Price", "box of 12;21.50", "20 x 250 g;71.00" },
  { "1", "Pack;Price", "2 cases of 5 kg;21.50", "20 x 250 g;71.00" },
  { "1", "Pack;Price", "5KG*6;21.50", "20 x 250 g;71.00" },
  { "read", "Pack;Price", "approx 5 kg;21.50", "tray of 20;71.00" },
  { "12", "Pack;Price", "1/2 case;21.50", "½ box;71.00" },
  { "1", "Pack;Price", "half box;21.50", "20 x 250 g;71.00" },
  { "1", "Price;Promo", "21.50;yes", "71.00;no" },
  { "1", "Price;Discount", "21.50;see terms", "71.00;-" },
  { "read", "Price;Transport;Frais", "21.50;ambient;oui", "71.00;chilled;non" },
  { "refused", "Price;Frais de port", "21.50;2.00", "71.00;2.00" },
  /* What looks like prices in every row is not what its heading says. */
  { "refused", "Price;Grade B", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;Pallet", "21.50;19.90", "71.00;68" },
  { "refused", "Price;Qty 10", "21.50;19.90", "71.00;68" },
  { "refused", "Price;Total", "21.50;19.90", "71.00;68.00" },
  { "refused", "Price;HT", "21.50;19.90", "71.00;68.00" },
  /* More of them, each beside the prices alone. */
  { "read", "Qty;UOM;Price", "10;kg;4.30", "40;kg;14.20" },
  { "read", "Qty;UOM;Price", "5;kg;21.50", "5;kg;71.00" },
  { "read", "Price;Qty/case", "21.50;6", "71.00;1" },
  { "read", "Price;Units/case", "21.50;6", "71.00;1" },
  { "read", "Price;Units per case", "21.50;6", "71.00;1" },
  { "read", "Price;Pcs/box", "21.50;6", "71.00;2" },
  { "read", "Price;Inner", "21.50;6", "71.00;2" },
  { "read", "Price;Outer", "21.50;4", "71.00;5" },
  { "read", "Price;Order qty", "21.50;2", "71.00;3" },
  { "read", "Price;Order", "21.50;", "71.00;" },
  { "read", "Price;Quantity ordered", "21.50;2", "71.00;1" },
  { "read", "Price;Qté commandée", "21.50;2", "71.00;1" },
  { "read", "Price;Commande", "21.50;1", "71.00;2" },
  { "read", "Price;Line total", "21.50;43.00", "71.00;71.00" },
  { "read", "Price;Total", "21.50;43.00", "71.00;142.00" },
  { "read", "Price;Approx weight", "21.50;5.2", "71.00;5" },
  { "read", "Price;Avg weight (kg)", "21.50;5", "71.00;5" },
  { "read", "Price;Avg weight", "21.50;5", "71.00;5" },
  { "read", "Price;Poids moyen", "21.50;5", "71.00;5" },
  { "read", "Price;Poids approx.", "21.50;5", "71.00;5" },
  { "read", "Price;Nb/colis", "21.50;1", "71.00;20" },
  { "read", "Price;PCB", "21.50;1", "71.00;20" },
  { "read", "Price;UVC", "21.50;1", "71.00;20" },
  { "read", "Price;Stock level", "21.50;12", "71.00;40" },
  { "read", "Price;Temp", "21.50;2", "71.00;4" },
  { "read", "Price;Bin", "21.50;12", "71.00;14" },
  { "read", "Price;Location", "21.50;A12", "71.00;B14" },
  { "read", "Price;Emplacement", "21.50;12", "71.00;14" },
  { "read", "Price;Supplier ref", "21.50;1234", "71.00;1235" },
  { "read", "Price;Our ref", "21.50;1234", "71.00;1235" },
  { "read", "Price;Your ref", "21.50;1234", "71.00;1235" },
  { "read", "Price;EAN carton", "21.50;4006381333931", "71.00;5901234123457" },
  { "read", "Price;Product ID", "21.50;991", "71.00;992" },
  { "read", "Price;Level 1", "21.50;1", "71.00;2" },
  { "read", "Price;Sub category", "21.50;12", "71.00;13" },
  { "read", "Price;Sous famille", "21.50;12", "71.00;13" },
  { "read", "Price;No.", "21.50;1", "71.00;2" },
  { "read", "Price;N°", "21.50;1", "71.00;2" },
  { "read", "Price;#", "21.50;1", "71.00;2" },
  { "read", "Price;Pos.", "21.50;1", "71.00;2" },
  { "read", "Price;Item #", "21.50;991", "71.00;992" },
  { "read", "Price;Art. Nr", "21.50;991", "71.00;992" },
  { "read", "Price;Vol. (cl)", "21.50;75", "71.00;70" },
  { "12", "Price;cl", "21.50;75", "71.00;70" },
  { "read", "Price;ABV %", "21.50;12.5", "71.00;13" },
  { "read", "Price;Alc. %", "21.50;12.5", "71.00;13" },
  { "read", "Price;% vol", "21.50;12.5", "71.00;13" },
  { "read", "Price;Degré", "21.50;12.5", "71.00;13" },
  { "read", "Price;Matière grasse %", "21.50;1", "71.00;82" },
  { "read", "Price;Fat %", "21.50;1", "71.00;82" },
  { "read", "Price;Tax code", "21.50;1", "71.00;2" },
  { "read", "Price;Taric", "21.50;0307", "71.00;0405" },
  { "read", "Price;CN code", "21.50;03073110", "71.00;04051011" },
  { "read", "Price;Last update", "21.50;2026-01-02", "71.00;2026-01-05" },
  { "read", "Price;Updated", "21.50;2026-01-02", "71.00;2026-01-05" },
  { "read", "Price;Rev", "21.50;1", "71.00;2" },
  { "read", "Price;Version", "21.50;1", "71.00;2" },
  { "read", "Price;Page", "21.50;4", "71.00;5" },
  { "read", "Price;Weight range", "21.50;4-6 kg", "71.00;4-5 kg" },
  { "read", "Price;Size range", "21.50;40/60", "71.00;1" },
  { "read", "Price;€/kg", "21.50;4.30", "71.00;14.20" },
  { "read", "Price;EUR/kg", "21.50;4.30", "71.00;14.20" },
  { "read", "Price;Prix/kg", "21.50;4,30", "71.00;14,20" },
  { "read", "Price;Prix au litre", "21.50;4,30", "71.00;14,20" },
  { "read", "Price;Unit price", "21.50;4.30", "71.00;3.55" },
  { "read", "Price;PU", "21.50;4,30", "71.00;3,55" },
  { "read", "Price;Montant HT", "21.50;43,00", "71.00;142,00" },
  { "read", "Price;Coef", "21.50;3", "71.00;3" },
  { "read", "Price;Coefficient", "21.50;3.2", "71.00;3.3" },
  { "read", "Price;Marge %", "21.50;70", "71.00;70" },
  { "read", "Price;Gluten free", "21.50;yes", "71.00;no" },
  { "read", "Price;Frozen", "21.50;N", "71.00;N" },
  { "read", "Price;Catch area", "21.50;FAO 27", "71.00;-" },
  { "read", "Price;Best before", "21.50;2026-04-01", "71.00;2026-05-01" },
  { "read", "Price;Use by", "21.50;01/04/2026", "71.00;01/05/2026" },
  { "read", "Price;DLC", "21.50;01/04/2026", "71.00;01/05/2026" },
  { "read", "Price;Lead time", "21.50;2 days", "71.00;1 day" },
  { "read", "Price;Delivery days", "21.50;Mon-Fri", "71.00;Tue, Thu" },
  { "read", "Price;Jours de livraison", "21.50;lundi", "71.00;mardi" },
  { "read", "Price;Cut off", "21.50;17:00", "71.00;17:00" },
  { "read", "Price;Min qty", "21.50;2", "71.00;1" },
  { "read", "Price;Minimum", "21.50;2", "71.00;1" },
  { "read", "Price;Maximum", "21.50;20", "71.00;10" },
  { "read", "Price;Qté min", "21.50;2", "71.00;1" },
  { "read", "Price;Multiple de commande", "21.50;1", "71.00;1" },
  { "read", "Price;Délai", "21.50;24h", "71.00;48h" },
  { "read", "Price;Last order", "21.50;2026-02-01", "71.00;2026-02-08" },
  { "read", "Price;Usage", "21.50;12", "71.00;20" },
  { "read", "Price;Weekly usage", "21.50;12", "71.00;20" },
  { "read", "Price;Par level", "21.50;4", "71.00;6" },
  { "read", "Price;Score", "21.50;9", "71.00;8" },
  { "read", "Price;Origin", "21.50;EU", "71.00;FR 62" },
  { "read", "Price;Pays", "21.50;FR", "71.00;IE" },
  { "read", "Price;Calibre", "21.50;60/80", "71.00;-" },
  { "read", "Price;Taille", "21.50;3", "71.00;2" },
  { "read", "Price;Grade", "21.50;1", "71.00;2" },
  { "read", "Price;Class", "21.50;1", "71.00;2" },
  { "read", "Price;Quality", "21.50;A", "71.00;B" },
  { "read", "Price;Product code 2", "21.50;12", "71.00;13" },
  { "read", "Price;Description 2", "21.50;5 kg net", "71.00;20 x 250 g" },
  { "read", "Price;Contents", "21.50;1 x 5 kg", "71.00;20 x 250 g" },
  { "read", "Price;Format", "21.50;5 kg", "71.00;20 x 250 g" },
  { "read", "Price;Packing", "21.50;5 kg", "71.00;20 x 250 g" },
  { "read", "Price;Brand", "21.50;Quay 1898", "71.00;Mill" },
  { "read", "Price;Marque", "21.50;Quay", "71.00;n/a" },
  { "read", "Price;Image", "21.50;1.jpg", "71.00;2.jpg" },
  { "read", "Price;Bio", "21.50;oui", "71.00;non" },
  { "read", "Price;Label", "21.50;MSC", "71.00;AOP" },
  { "read", "Price;Season", "21.50;all year", "71.00;all year" },
  { "read", "Price;Species", "21.50;Mytilus edulis", "71.00;" },
  { "read", "Price;Method", "21.50;rope", "71.00;" },
  { "read", "Price;Storage", "21.50;2-4 °C", "71.00;0-4 °C" },
  { "read", "Price;Conservation", "21.50;7 jours", "71.00;60 jours" },
  { "read", "Price;Currency", "21.50;EUR", "71.00;EUR" },
  { "read", "Price;VAT", "21.50;0", "71.00;0" },
  { "read", "Price;TVA", "21.50;5,5", "71.00;5,5" },
  { "read", "Price;VAT rate", "21.50;0%", "71.00;0%" },
  { "read", "Price;Taux TVA", "21.50;5,5 %", "71.00;5,5 %" },
  { "read", "Price;Comment", "21.50;hand picked", "71.00;best in spring" },
  { "read", "Price;Remarque", "21.50;sous réserve d'arrivage", "71.00;" },
  { "read", "Price;Note", "21.50;minimum 2 boxes", "71.00;" },
  { "read", "Price;Note", "21.50;sold by the box", "71.00;" },
  { "read", "Price;Note", "21.50;per box", "71.00;" },
  { "read", "Price;Note", "21.50;new", "71.00;" },
  { "read", "Price;Note", "21.50;New season", "71.00;" },
  { "read", "Price;Note", "21.50;back in stock", "71.00;" },
  { "read", "Price;Note", "21.50;24 months", "71.00;" },
  { "read", "Price;Note", "21.50;free range", "71.00;" },
  { "read", "Price;Note", "21.50;Class I", "71.00;" },
  { "read", "Price;Note", "21.50;frozen at sea", "71.00;" },
  { "read", "Price;Note", "21.50;size 3", "71.00;" },
  { "read", "Price;Note", "21.50;origin FR", "71.00;" },
  { "read", "Price;Note", "21.50;order by Tuesday", "71.00;" },
  { "read", "Price;Note", "21.50;ordered in advance", "71.00;" },
  { "read", "Price;Note", "21.50;not washed", "71.00;" },
  { "read", "Price;Note", "21.50;-", "71.00;" },
  { "read", "Price;Note", "21.50;may contain shell", "71.00;delivered Mondays" },
  { "read", "Price;Note", "21.50;on the half shell", "71.00;à l'eau de mer" },
  { "read", "Price;Note", "21.50;season May to October", "71.00;in large pieces" },
  { "read", "Price;Status", "21.50;OK", "71.00;OK" },
  { "read", "Price;Status", "21.50;new", "71.00;core" },
  { "read", "Price;Stock", "21.50;yes", "71.00;yes" },
  { "read", "Price;Stock", "21.50;12 cases", "71.00;3 cases" },
  { "read", "Price;Stock", "21.50;>50", "71.00;10" },
  { "read", "Price;Available", "21.50;Yes", "71.00;Yes" },
  { "read", "Price;Available from", "21.50;2026-01-01", "71.00;2026-02-01" },
  { "read", "Price;Availability", "21.50;In stock", "71.00;Low stock" },
  { "read", "Price;Availability", "21.50;all year", "71.00;all year" },
  { "read", "Price;Disponibilité", "21.50;en stock", "71.00;en stock" },
  { "read", "Price;Disponibilité", "21.50;immédiate", "71.00;immédiate" },
  { "read", "Price;Reference", "21.50;2024/1", "71.00;2024/2" },
  { "read", "Price;Traceability", "21.50;L123", "71.00;L124" },
  { "read", "Price;Lot", "21.50;123", "71.00;124" },
  { "read", "Price;Special", "21.50;", "71.00;" },
  { "read", "Price;Promo", "21.50;", "71.00;" },
  { "read", "Price;Promo", "21.50;non", "71.00;non" },
  { "read", "Price;Discount", "21.50;0", "71.00;0" },
  { "read", "Price;Discount", "21.50;0.00", "71.00;0.00" },
  { "read", "Price;Remise", "21.50;-", "71.00;-" },
  { "read", "Price;Old", "21.50;21.00", "71.00;70.00" },
  { "read", "Price;Prev.", "21.50;21.00", "71.00;70.00" },
  { "read", "Price;Last", "21.50;21.00", "71.00;70.00" },
  { "read", "Price;Diff", "21.50;0.50", "71.00;1.00" },
  { "read", "Price;Change", "21.50;+2.4%", "71.00;+1.4%" },
  { "read", "Price;Trend", "21.50;up", "71.00;up" },
  { "read", "Price;Evolution", "21.50;2,4", "71.00;1,4" },
  { "read", "Price;Unnamed: 0", "21.50;0", "71.00;1" },
  { "read", "Price;Index", "21.50;0", "71.00;1" },
  { "read", "Price;Rank", "21.50;1", "71.00;2" },
  { "read", "Price;Food type", "21.50;1", "71.00;2" },
  { "read", "Price;Product group", "21.50;1", "71.00;2" },
  { "read", "Price;Dept", "21.50;1", "71.00;2" },
  { "read", "Price;Buyer", "21.50;JS", "71.00;JS" },
  { "read", "Price;Net weight", "21.50;5", "71.00;5" },
  { "read", "Price;Gross weight", "21.50;5.2", "71.00;5.4" },
  { "read", "Price;Tare", "21.50;0.2", "71.00;0.4" },
  { "read", "Price;Poids net", "21.50;5", "71.00;5" },
  { "read", "Price;Poids brut", "21.50;5,2", "71.00;5,4" },
  { "read", "Price;Contents (kg)", "21.50;5", "71.00;5" },
  { "read", "Price;+/-", "21.50;0.50", "71.00;1.00" },
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
  { "2", "Qty;Inner;Price", "2;5 kg;21.50", "12;250 g;71.00" },
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
  { "2", "Nb;Poids unit. g;Prix", "2;5000;21,50", "12;250;71,00" },
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
  /* A unit alone may be what the price is for: the last price tells. */
  { "read", "Price;Sold by", "21.50;box", "71.00;case" },
  { "read", "Price;Sold by", "4.30;kg", "14.20;kg" },
  { "read", "Price;Price basis", "4.30;kg", "71.00;kg" },
  { "read", "Price;Format", "4.30;kg", "14.20;kg" },
  { "read", "Price;Size", "4.30;kg", "14.20;kg" },
  { "read", "Price;Content", "4.30;kg", "14.20;kg" },
  { "read", "Price;Size unit;Size", "21.50;kg;5", "71.00;g;250" },
  { "2", "Price;Charged by", "21.50;kg", "3.55;each" },
  /* What a heading says more of the prices. */
  { "refused", "Price Monday", "21.50", "71.00" },
  { "refused", "Prix lundi", "21.50", "71.00" },
  { "refused", "Price spring", "21.50", "71.00" },
  { "refused", "Price S 50", "21.50", "71.00" },
  { "refused", "Price 20270105", "21.50", "71.00" },
  { "refused", "Prix futur", "21.50", "71.00" },
  { "refused", "Price (half case)", "21.50", "71.00" },
  { "refused", "Prix demi-caisse", "21.50", "71.00" },
  { "refused", "Price pair", "21.50", "71.00" },
  { "refused", "Price (12)", "21.50", "71.00" },
  { "refused", "Price x2", "21.50", "71.00" },
  { "refused", "Price 1/2 box", "21.50", "71.00" },
  { "refused", "Prix de la veille", "21.50", "71.00" },
  { "refused", "Price for the weekend", "21.50", "71.00" },
  { "refused", "Price w/c 7", "21.50", "71.00" },
  { "refused", "Price A", "21.50", "71.00" },
  { "refused", "Price RRP", "21.50", "71.00" },
  { "refused", "Price from", "21.50", "71.00" },
  { "refused", "Price special", "21.50", "71.00" },
  { "read", "Unit price (EUR, excl. VAT)", "21.50", "71.00" },
  { "read", "Prix d'achat HT", "21.50", "71.00" },
  { "read", "P.U. HT", "21.50", "71.00" },
  { "read", "Price per pack excl. VAT", "21.50", "71.00" },
  { "read", "Prix net HT en euros", "21.50", "71.00" },
  { "read", "Prix colis HT", "21.50", "71.00" },
  { "read", "Prix rendu", "21.50", "71.00" },
  { "read", "Price (Quay)", "21.50", "71.00" },
  { "read", "Price 2026", "21.50", "71.00" },
  { "read", "Cost price", "21.50", "71.00" },
  { "read", "Price VAT excluded", "21.50", "71.00" },
};

/* A whole list, and the start of what refuses it; NULL: it is read. */
static const struct { const char *list, *refused; } lists[] = {
  { "Supplier: Marsh Dairy\nCode;Product;Price\n102;Mussels;21.50\n", "the list is headed “Marsh Dairy”" },
  { "Marsh Dairy\nPrice list\nCode;Product;Price\n102;Mussels;21.50\n", "the list is headed “Marsh Dairy”" },
  { "Fournisseur;Marsh Dairy\nCode;Product;Price\n102;Mussels;21.50\n", "the list is headed “Marsh Dairy”" },
  { "Quay Fish;for Saltmarsh Rooms\nCode;Product;Price\n102;Mussels;21.50\n", NULL },
  { "Marshland herbs\nCode;Product;Price\n102;Mussels;21.50\n", NULL },
  { "Code;Product;Price;Trade\n102;Mussels;21.50;19.90\n",
    "which column has the price to pay is not clear: Price, Trade" },
  { "Code;Product;Price;\n102;Mussels;21.50;19.90\n", "which column has the price to pay is not clear: Price, 19.90" },
  { "No;Product;Price\n1;Mussels;21.50\n2;Butter;71.00\n", NULL },
  { "Code;Product;Price before discount\n102;Mussels;21.50\n",
    "which column has the price to pay is not clear: Price before discount" },
  { "Code;Product;Price\n102;Mussels;21.50\nCode;Product;Price\n301;Butter;71.00\n", NULL },
  { "No;Product;Pack;Price\n1;Mussels;5 kg;21.50\n2;Butter;20 x 250 g;71.00\n", NULL },
  { "Code;Product;Cdt;Price\n102;Mussels;5 kg;21.50\n", NULL },
  { "Code;Product;Price Monday\n102;Mussels;21.50\n",
    "which column has the price to pay is not clear: Price Monday" },
  { "Code famille;Code;Product;Price\nSEA;102;Mussels;21.50\nDAI;301;Butter;71.00\n", NULL },
  { "Code douane;Réf;Product;Price\n0307;102;Mussels;21.50\n0405;301;Butter;71.00\n", NULL },
  { "Code;Product;Volume;Price\n401;Oil;0.75;31\n", NULL },
  { "Code;Product;Volume;Price\n401;Oil;750;31\n", NULL },
  { "Code;Product;Size;Price\n501;Oysters;3;61\n", NULL },
  { "Price list no. 50\nPrices 2.3. – 8.3.\nCode;Product;Price\n102;Mussels;21.50\n", NULL },
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
                                           "Mussels new pack", "Moules mussels en vrac" };
static const char *const plain_names[] = { "Mussels 5 kg", "Mussels, beards out", "Mussels 60/80", "Mussels 35-40 %",
                                           "Mussels 5 kg x 1", "Mussels 1/5kg", "Mussels 40-60 g", "Mussels 5,000 g",
                                           "Mussels 30 g avg", "Mussels 2 FAO 27", "Mussels kg",
                                           "Mussels no. 2, 5 kg", "Mussels 24 months 5 kg", "Mussels 2 (5 kg)",
                                           "Fresh mussels, washed", "Moules de bouchot", "Mussels (rope grown, UK)",
                                           "Mussels 1x5kg", "Mussels 5000g", "Mussels 5KGx1", "Mussels 5 kg bag",
                                           "New mussels" };

static int
set_up (void **state)
{
  static const CroTestTable tables[] = {
    { "book", "key,value\ncurrency,EUR\n" },
    { "ingredients", "name,unit\nMussels,g\nButter,g\nOil,ml\nOysters,each\n" },
    { "suppliers", "name,quotes\nQuay,pack\nMarsh Dairy,pack\n" },
    { "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit\n"
                "Mussels,Quay,102,1,5,kg\nButter,Quay,301,20,250,g\n"
                "Oil,Quay,401,6,75,cl\nOysters,Quay,501,1,100,each\n" },
    { "prices", "ingredient,supplier,code,from,price\nMussels,Quay,102,2026-02-01,21\n"
                "Butter,Quay,301,2026-02-01,70\nOil,Quay,401,2026-02-01,30\n"
                "Oysters,Quay,501,2026-02-01,60\n" },
    { NULL, NULL },
  };

  return cro_test_book_of_tables (state, tables);
}

static CroPriceList *
read_list (CroTestKitchen       *kitchen,
           const char           *text,
           const CroListReading *reading)
{
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "list.csv", NULL);
  g_autoptr (GError) error = NULL;
  CroPriceList *list = NULL;
  CroDate from;

  assert_true (cro_date_parse ("2026-03-02", strlen ("2026-03-02"), &from));
  assert_true (g_file_set_contents (path, text, -1, &error));
  assert_true (cro_price_list_read (path, kitchen->book, "Quay", from, reading, &list, &error));
  return list;
}

/* "read", "refused", or the rows that are asked about. Owned. */
static char *
told (const CroPriceList *list)
{
  g_autofree char *refused = cro_words_list_refused (list, NULL);
  GString *rows = g_string_new (NULL);

  if (refused != NULL)
    return g_string_free (g_string_append (rows, "refused"), FALSE);
  for (guint i = 0; i < list->rows->len; i++)
    if (g_array_index (list->rows, CroListRow, i).state != CRO_LIST_CHANGED)
      g_string_append_printf (rows, "%u", i + 1);
  return g_string_free (rows->len > 0 ? rows : g_string_append (rows, "read"), FALSE);
}

static void
test_columns (void **state)
{
  guint n_wrong = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf ("Code;Product;%s\n102;Mussels;%s\n301;Butter;%s\n", cases[i].headings,
                                               cases[i].mussels, cases[i].butter);
      g_autoptr (CroPriceList) list = read_list (*state, text, NULL);
      g_autofree char *is = told (list);

      if (strcmp (is, cases[i].expected) == 0)
        continue;
      print_error ("%s; %s: %s, not %s\n", cases[i].headings, cases[i].mussels, is, cases[i].expected);
      n_wrong++;
    }
  assert_int_equal (n_wrong, 0);
}

static void
test_lists (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_autoptr (CroPriceList) list = read_list (*state, lists[i].list, NULL);
      g_autofree char *refused = cro_words_list_refused (list, NULL), *is = told (list);

      if (lists[i].refused != NULL ? refused == NULL || !g_str_has_prefix (refused, lists[i].refused)
                                   : strcmp (is, "read") != 0)
        fail_msg ("%s: %s", lists[i].list, refused != NULL ? refused : is);
    }
}

/* What somebody said of the columns answers for those, and not for one that comes later. */
static void
test_said_columns (void **state)
{
  static const struct { const char *headings, *expected; } later[]
      = { { "Price;Trade", "read" }, { "Price;Trade;Promo", "refused" }, { "Price;Trade;Stock", "read" } };
  const CroListReading reading = { .columns = "code\t0\tCode\nname\t1\tProduct\nprice\t2\tPrice\n"
                                              "none\t3\tTrade\n" };

  for (gsize i = 0; i < G_N_ELEMENTS (later); i++)
    {
      g_autofree char *text = g_strdup_printf ("Code;Product;%s\n102;Mussels;21.50;19.90;18.50\n", later[i].headings);
      g_autoptr (CroPriceList) list = read_list (*state, text, &reading);
      g_autofree char *is = told (list);

      assert_string_equal (is, later[i].expected);
    }
  /* So does what somebody said of a heading that says more. */
  {
    const CroListReading monday = { .columns = "code\t0\tCode\nname\t1\tProduct\nprice\t2\tPrice Monday\n" };
    g_autoptr (CroPriceList) list = read_list (*state, "Code;Product;Price Monday\n102;Mussels;21.50\n", &monday);
    g_autofree char *is = told (list);

    assert_string_equal (is, "read");
  }
}

/* A row of its own that may say how much all prices are for. */
static void
test_notes (void **state)
{
  static const struct { const char *note; gboolean is_asked; } notes[]
      = { { "Prices for bags of 4 kg;;", TRUE }, { ";now in 4 kg bags;", TRUE }, { "colis de 4 kg", TRUE },
          { ";Min order 10 kg;", FALSE }, { "SHELLFISH;;", FALSE } };

  for (gsize i = 0; i < 2 * G_N_ELEMENTS (notes); i++)
    {
      const char *note = notes[i / 2].note;
      g_autofree char *text = g_strdup_printf ("%s%sCode;Product;Price\n102;Mussels;21.50\n%s\n", i % 2 ? note : "",
                                               i % 2 ? "\n" : "", i % 2 ? "" : note);
      g_autoptr (CroPriceList) list = read_list (*state, text, NULL);
      const CroListRow *row = &g_array_index (list->rows, CroListRow, 0);

      if ((row->state != CRO_LIST_CHANGED) != notes[i / 2].is_asked)
        fail_msg ("%s", text);
    }
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
    cmocka_unit_test (test_lists),
    cmocka_unit_test (test_said_columns),
    cmocka_unit_test (test_notes),
    cmocka_unit_test (test_names),
    cmocka_unit_test (test_unit_at_end),
  };

  return cmocka_run_group_tests_name ("what stands beside a price", tests, set_up, cro_test_kitchen_tear_down);
}
