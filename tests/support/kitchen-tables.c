#include "kitchen-tables.h"

#include "kitchen-book.h"

static const char *const kinds[] = {
  [CRO_FAULT_NOT_UTF8] = "not UTF-8",
  [CRO_FAULT_NOT_A_FILE] = "not a file",
  [CRO_FAULT_NOT_COMMAS] = "not commas",
  [CRO_FAULT_UTF16] = "UTF-16",
  [CRO_FAULT_TOO_LONG] = "too long",
  [CRO_FAULT_QUOTES] = "quotes",
  [CRO_FAULT_FIELD_COUNT] = "field count",
  [CRO_FAULT_UNKNOWN_TABLE] = "unknown table",
  [CRO_FAULT_ABSENT_TABLE] = "absent table",
  [CRO_FAULT_UNKNOWN_COLUMN] = "unknown column",
  [CRO_FAULT_DOUBLE_COLUMN] = "double column",
  [CRO_FAULT_MISSING_COLUMN] = "missing column",
  [CRO_FAULT_MISSING_VALUE] = "missing value",
  [CRO_FAULT_NOT_EMPTY] = "not empty",
  [CRO_FAULT_NOT_A_NUMBER] = "not a number",
  [CRO_FAULT_TOO_MANY_PLACES] = "too many places",
  [CRO_FAULT_TOO_LARGE] = "too large",
  [CRO_FAULT_OUT_OF_RANGE] = "out of range",
  [CRO_FAULT_NOT_A_DATE] = "not a date",
  [CRO_FAULT_NOT_A_MONTH] = "not a month",
  [CRO_FAULT_NOT_A_CHOICE] = "not a choice",
  [CRO_FAULT_NOT_A_UNIT] = "not a unit",
  [CRO_FAULT_NOT_A_CURRENCY] = "not a currency",
  [CRO_FAULT_STRAY_CHARACTER] = "stray character",
  [CRO_FAULT_STRAY_IN_TEXT] = "stray in a text",
  [CRO_FAULT_NOT_AN_ALLERGEN] = "not an allergen",
  [CRO_FAULT_UNKNOWN_KEY] = "unknown key",
  [CRO_FAULT_UNKNOWN_NAME] = "unknown name",
  [CRO_FAULT_DOUBLE_KEY] = "double key",
  [CRO_FAULT_DOUBLE_NAME] = "double name",
  [CRO_FAULT_MAIN_OUTPUT] = "main output",
  [CRO_FAULT_OUTPUT_AMOUNT] = "output amount",
  [CRO_FAULT_WHOLE_YIELD] = "whole yield",
  [CRO_FAULT_CYCLE] = "cycle",
  [CRO_FAULT_CLOSED_MONTH] = "closed month",
  [CRO_FAULT_FROZEN_MONTH] = "frozen month",
  [CRO_FAULT_CHOICE_SHARES] = "choice shares",
  [CRO_FAULT_NO_PICTURE] = "no picture",
  [CRO_FAULT_NOT_A_PICTURE] = "not a picture",
  [CRO_FAULT_LARGE_PICTURE] = "large picture",
  [CRO_FAULT_BROKEN_PICTURE] = "broken picture",
};

static const struct { const char *name, *text; } sound[] = {
  { "book", "key,value\nname,Saltmarsh Rooms\ncurrency,EUR\nwage_per_hour,18\ntax_pct,10\n"
            "speaks,gross-profit\ntill_with_tax,no\nprice_steps,whole\n" },
  { "ingredients", "name,unit,kind,allergens,may_contain\nCrab,g,food,crustaceans,fish molluscs\n"
                   "Salt,g,food,none,none\nCup,each,disposable,,\n" },
  { "suppliers", "name,quotes,minimum_order,delivery_charge\nQuay,pack,120,9.5\nPort,base unit,,0\n" },
  { "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit,preferred\n"
              "Crab,Quay,101,1,5,kg,yes\nCrab,Quay,,1,1,kg,no\nSalt,Port,,10,1,kg,no\n" },
  { "prices", "ingredient,supplier,code,from,price\nCrab,Quay,101,2026-01-05,60\n"
              "Crab,Quay,101,2026-02-02,63\nSalt,Port,,2026-01-05,4\n"
              "Crab,Quay,101,2026-03-02,\n" },
  { "price_answers", "ingredient,supplier,code,from,price,answered_on,pack_count,pack_size,pack_unit,currency\n"
                     "Crab,Quay,101,2026-02-02,63,2026-02-03,1,5,kg,EUR\n" },
  { "rates", "currency,from,rate\nGBP,2026-01-01,1.15\n" },
  { "preparations", "name,by_products\nGel,free\nStock,weight\n" },
  { "outputs", "item,preparation,role,amount,unit,yield_pct,lost_pct\nGel,Gel,main,100,g,,12.5\n"
               "Stock,Stock,main,500,ml,,\nShells,Stock,by-product,200,g,,0\n" },
  { "plates", "name,makes,price\nCroustade,24,5\nTartlet,10,\n" },
  { "menus", "name,price\nTide,90\n" },
  { "lines", "into,parent,position,item,amount,unit,weighed,yield_pct\n"
             "preparation,Gel,1,Stock,100,ml,,\npreparation,Stock,1,Crab,1,kg,whole,\n"
             "plate,Croustade,1,Gel,10,g,,\nplate,Croustade,2,Crab,600,g,trimmed,62\n"
             "plate,Tartlet,1,Salt,1,g,,\n" },
  { "menu_plates", "menu,plate,choice,servings,share_pct\nTide,Croustade,,1,\n"
                   "Tide,Croustade,last bite,2,100\n" },
  { "selling_prices", "name,from,price,tax_pct\nTide,2026-02-01,95,12\nTide,2026-03-01,,\n"
                      "Croustade,2026-01-15,0,\n" },
  { "services", "date,service,name,covers\n2026-02-14,dinner,Tide,24\n2026-02-14,lunch,Tide,8\n"
                "2026-02-14,dinner,Croustade,6\n" },
  { "service_stock", "date,service,item,amount,unit\n2026-02-14,dinner,Stock,2,l\n"
                     "2026-02-14,dinner,Crab,0,kg\n" },
  { "yield_tests", "test,item,date,purchased_g,usable_g\nlot 7,Crab,2026-01-09,1000,620\n" },
  { "yield_test_parts", "test,output,weight_g\nlot 7,Shells,300\n" },
  { "sales", "date,kind,name,sold,net_revenue\n2026-01-10,plate,Croustade,12,54\n"
             "2026-02-10,menu,Tide,3,\n2026-02-10,menu,Tide,3,\n"
             "2026-02-10,other,Wine by the glass,11,82.5\n2026-02-11,menu,Tide,-1,\n"
             "2026-02-11,plate,Croustade,0,-4.5\n2026-02-11,other,Voucher,0,-10\n" },
  { "till_names", "name,kind,sold_as\nCROUST.,plate,Croustade\nWINE GL,other,\nTIP,none,\n" },
  { "counts", "date,item,amount,unit\n2026-01-31,Crab,2,kg\n2026-02-28,Crab,1,kg\n" },
  { "purchases", "date,document_date,supplier,ingredient,amount,unit,net_value\n"
                 "2026-01-07,2026-01-06,Quay,Crab,5,kg,60\n2026-02-07,,Quay,Crab,5,kg,63\n" },
  { "adjustments", "date,kind,item,amount,unit\n2026-01-08,waste,Crab,100,g\n"
                   "2026-02-08,waste,Crab,100,g\n" },
  { "months", "month,till_gross_revenue,recipes_on,closing_stock_value,late_estimate,closed_at\n"
              "2026-01,66,2026-01-30,,0,2026-02-02T08:00:00Z\n2026-02,,,210.5,35,\n" },
  { "month_rows", "month,kind,name,part_kind,part,number,date,sold,cost,cost_per_1000,supplier,"
                  "document,category,row_kind,note\n2026-01,plate,Croustade,,,,,12,,,,,,,\n"
                  "2026-01,plate,Croustade,food,Crab,,,,9.5,12000.123456,,,,,\n"
                  "2026-01,plate,Croustade,food,Crab,1,,,9.5,,,,,,\n"
                  "2026-01,statement,opening_stock,,,,,,-1,,,,,,\n"
                  "2026-01,purchase,Crab,,,1,2026-01-07,,60,,Quay,D-1,shellfish,food,late\n" },
};

char *
cro_test_faults (CroFaults *faults)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < cro_faults_get_n (faults); i++)
    {
      const CroFault *fault = cro_faults_get (faults, i);

      g_string_append_printf (text, "%s:%u:%s %s", fault->file, fault->line,
                              fault->column != NULL ? fault->column : "-", kinds[fault->kind]);
      if (fault->value != NULL)
        g_string_append_printf (text, " [%s]", fault->value);
      if (fault->detail != NULL)
        g_string_append_printf (text, " (%s)", fault->detail);
      g_string_append_c (text, '\n');
    }
  return g_string_free (text, FALSE);
}

void
cro_test_write_tables (const char *folder,
                       const char *table,
                       const char *text)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sound); i++)
    cro_test_write_table (folder, sound[i].name, sound[i].text);
  if (table != NULL)
    cro_test_write_table (folder, table, text);
}

static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

char *
cro_test_folder_text (const char *folder)
{
  GString *text = g_string_new (NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".csv"))
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (folder, names->pdata[i], NULL);
      g_autofree char *contents = NULL;

      assert_true (g_file_get_contents (path, &contents, NULL, NULL));
      g_string_append_printf (text, "%s\n%s", (char *) names->pdata[i], contents);
    }
  return g_string_free (text, FALSE);
}
