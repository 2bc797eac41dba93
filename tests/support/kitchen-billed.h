/* kitchen-billed.h: a book with a crab of one supplier, and documents of that supplier in a round. */
#pragma once

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-invoice.h"
#include "cro-price-list-words.h"
#include "cro-round-words.h"
#include "cro-round.h"
#include "support/kitchen-book.h"

#include <string.h>

/* Crab at 13.20 per kg from the quay. */
static inline int
set_up (void **state)
{
  static const CroTestTable tables[] = {
    { "book", "key,value\ncurrency,EUR\n" },
    { "ingredients", "name,unit\nCrab,g\nHake,g\n" },
    { "suppliers", "name\nQuay\n" },
    { "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit\n"
                "Crab,Quay,101,1,5,kg\n" },
    { "prices", "ingredient,supplier,code,from,price\nCrab,Quay,101,2026-02-01,66\n" },
    { "months", "month,closed_at\n2026-01,2026-02-03T08:00:00Z\n" },
    { NULL, NULL },
  };

  return cro_test_book_of_tables (state, tables);
}

static inline CroRound *
round_of (CroTestKitchen *kitchen)
{
  CroModel *model = cro_book_get_model (kitchen->book);
  g_autoptr (GError) error = NULL;
  CroRound *round = cro_round_new (kitchen->book, cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, "Quay").slot,
                                   CRO_TEST_DAY, &error);

  assert_null (error);
  return round;
}

#define CRAB "101 KGM 2 28.00 Crab"
#define LINERS "HY-20 C62 10 31.00 Bin liners"
#define LINEN "- C62 4 12.00 Linen hire"

/* head: "number day delivered", "-" for what it does not say; lines: "code unit quantity net name", or "+ amount" for a
 * charge on the whole, "= code" for what the document is. */
static inline char *
document (CroTestKitchen    *kitchen,
          const char        *head,
          const char *const *lines)
{
  g_auto (GStrv) says = g_strsplit (head, " ", 3);
  g_autoptr (GString) text = g_string_new (
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>");
  char *path = g_build_filename (kitchen->folder.folder, "document.xml", NULL);

  if (strcmp (says[0], "-") != 0)
    g_string_append_printf (text, "<b:ID>%s</b:ID>", says[0]);
  g_string_append_printf (text, "<b:IssueDate>%s</b:IssueDate><b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>",
                          says[1]);
  if (strcmp (says[2], "-") != 0)
    g_string_append_printf (text, "<a:Delivery><b:ActualDeliveryDate>%s</b:ActualDeliveryDate></a:Delivery>", says[2]);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) line = g_strsplit (lines[i], " ", 5);
      double price;

      if (g_str_equal (line[0], "="))
        {
          g_string_append_printf (text, "<b:InvoiceTypeCode>%s</b:InvoiceTypeCode>", line[1]);
          continue;
        }
      if (g_str_equal (line[0], "+"))
        {
          g_string_append_printf (text,
                                  "<a:AllowanceCharge><b:ChargeIndicator>true</b:ChargeIndicator>"
                                  "<b:Amount>%s</b:Amount></a:AllowanceCharge>",
                                  line[1]);
          continue;
        }
      price = g_ascii_strtod (line[3], NULL) / g_ascii_strtod (line[2], NULL);
      g_string_append_printf (text,
                              "<a:InvoiceLine><b:ID>%u</b:ID><b:InvoicedQuantity unitCode='%s'>%s</b:InvoicedQuantity>"
                              "<b:LineExtensionAmount>%s</b:LineExtensionAmount><a:Item><b:Name>%s</b:Name>",
                              i + 1, line[1], line[2], line[3], line[4]);
      if (strcmp (line[0], "-") != 0)
        g_string_append_printf (text, "<a:SellersItemIdentification><b:ID>%s</b:ID></a:SellersItemIdentification>",
                                line[0]);
      g_string_append_printf (text, "</a:Item><a:Price><b:PriceAmount>%.4f</b:PriceAmount></a:Price></a:InvoiceLine>",
                              price);
    }
  g_string_append (text, "</Invoice>");
  assert_true (g_file_set_contents (path, text->str, -1, NULL));
  return path;
}

/* NULL: it is part of the round; else what was read and refused. */
static inline CroPriceList *
take (CroTestKitchen    *kitchen,
      CroRound          *round,
      const char        *head,
      const char *const *lines)
{
  g_autofree char *path = document (kitchen, head, lines);
  g_autoptr (GError) error = NULL;
  CroPriceList *taken = NULL;

  assert_true (cro_round_take (round, path, NULL, &taken, &error));
  assert_null (error);
  return taken;
}

static inline void
assert_taken (CroTestKitchen    *kitchen,
              CroRound          *round,
              const char        *head,
              const char *const *lines)
{
  assert_null (take (kitchen, round, head, lines));
  assert_non_null (cro_round_get_invoice (round));
}

static inline guint
row_of (CroRound   *round,
        const char *name)
{
  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    if (cro_round_get_row (round, i)->is_billed
        && g_strcmp0 (cro_round_get_row (round, i)->list.name, *name != '\0' ? name : NULL) == 0)
      return i;
  fail_msg ("there is no line of %s", name);
  return 0;
}

static inline void
assert_note (CroRound   *round,
             const char *name,
             const char *says)
{
  g_autofree char *note = cro_words_round_note (round, row_of (round, name));

  assert_string_equal (note, says);
}

static inline CroRoundPost *
post (CroRound *round)
{
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;
  CroRoundPost *posted = cro_round_post (round, "posted", faults, &error);

  assert_null (error);
  assert_non_null (posted);
  assert_null (posted->failed);
  return posted;
}

/* Every purchase of the book in the order of their booking: what, its kind, its amount, its money. */
static inline void
assert_bought (CroTestKitchen *kitchen,
               const char     *says)
{
  static const char *const columns[] = { "ingredient", "category", "kind", "amount_micro", "net_value_micro", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (kitchen->book), "purchase", columns, NULL);
  g_autoptr (GString) text = g_string_new (NULL);

  while (cro_rows_next (rows, NULL))
    g_string_append_printf (text, "%s %s %g %g\n", !cro_rows_is_null (rows, 0)  ? "crab"
                            : !cro_rows_is_null (rows, 1) ? cro_rows_get_text (rows, 1)
                                                          : "",
                            cro_rows_get_text (rows, 2), cro_decimal_to_double (cro_rows_get_int (rows, 3)),
                            cro_decimal_to_double (cro_rows_get_int (rows, 4)));
  assert_string_equal (text->str, says);
}

static const char *const mixed[] = { CRAB, LINERS, LINEN, NULL };

static inline void
sort (CroRound    *round,
      const char  *name,
      CroListGoods goods)
{
  assert_true (cro_round_can_sort (round, row_of (round, name)));
  assert_true (cro_round_sort (round, row_of (round, name), goods, NULL));
}
