/* Folders of tables: what loads is dumped, and that loads again to the same; what does not has
 * faults with a file and a sentence. An input is tables one behind the other, each begun by a line
 * "@name". */
#include "fuzz.h"

#include <glib.h>
#include <glib/gstdio.h>
#include <string.h>

#include "cro-dump.h"
#include "cro-doubts.h"
#include "cro-load.h"
#include "cro-words.h"
#include "support/store-book.h"

#define INGREDIENTS "@ingredients\nname,unit,trim_yield_pct,allergens\nLeek,g,80,none\nSalt,g,100,none\n"
#define OFFERS \
  "@suppliers\nname\nMarket\n@offers\ningredient,supplier,pack_count,pack_size,pack_unit\n" \
  "Leek,Market,1,1,kg\nSalt,Market,1,1,kg\n"
#define PRICES "@prices\ningredient,supplier,from,price\nLeek,Market,2026-01-01,4\n"
#define PLATES \
  "@plates\nname,makes,price\nLeek bite,10,1\n@lines\ninto,parent,position,item,amount,unit\n" \
  "plate,Leek bite,1,Leek,480,g\nplate,Leek bite,2,Gel,100,g\n"
#define GEL \
  "@preparations\nname\nGel\n@outputs\nitem,preparation,role,amount,unit\nGel,Gel,main,1,kg\n"

const char *const fuzz_seeds[] = {
  INGREDIENTS,
  INGREDIENTS OFFERS PRICES,
  OFFERS PRICES,
  INGREDIENTS OFFERS PRICES GEL PLATES,
  "@book\nkey,value\ncurrency,EUR\ntarget_pct,30\n@rates\ncurrency,from,rate,per\nGBP,2026-01-01,1.2,\n",
  INGREDIENTS "@purchases\ndate,ingredient,amount,unit,net_value\n2026-01-02,Leek,2,kg,8\n",
  GEL PLATES INGREDIENTS "@menus\nname,price\nTide,60\n@menu_plates\nmenu,plate\nTide,Leek bite\n"
  "@sales\ndate,kind,name,sold\n2026-01-05,menu,Tide,12\n",
  "@months\nmonth,till_net_revenue\n2026-01,100\n",
  NULL,
};

static void
write_tables (const char *folder,
              const char *text)
{
  g_auto (GStrv) tables = g_strsplit (text, "@", -1);

  for (char **table = tables; *table != NULL; table++)
    {
      char *line = strchr (*table, '\n');
      g_autofree char *name = line != NULL ? g_strndup (*table, (gsize) (line - *table)) : NULL;
      g_autofree char *file = NULL, *path = NULL;

      if (name == NULL || *name == '\0' || strchr (name, '/') != NULL || strlen (name) > 40)
        continue;
      file = g_strconcat (name, ".csv", NULL);
      path = g_build_filename (folder, file, NULL);
      g_file_set_contents (path, line + 1, -1, NULL);
    }
}

static void
remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        remove_folder (path);
      else
        g_unlink (path);
    }
  g_rmdir (folder);
}

static gboolean
load (const char *book,
      const char *folder)
{
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;

  if (cro_load (book, folder, "fuzz", "load", FALSE, NULL, NULL, faults, &error))
    return TRUE;
  for (guint i = 0; i < cro_faults_get_n (faults); i++)
    {
      g_autofree char *sentence = cro_words_fault (cro_faults_get (faults, i));

      g_assert (sentence != NULL && g_utf8_validate (sentence, -1, NULL));
    }
  return FALSE;
}

static void
dump (const char *book,
      const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CroStore) store = cro_store_open (book, NULL, CRO_STORE_READ, &error);

  if (store == NULL || !cro_dump (store, folder, NULL, NULL, &error))
    g_error ("what was loaded is not dumped: %s", error->message);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data,
                        size_t         size)
{
  g_autofree char *text = g_strndup ((const char *) data, size);
  g_autofree char *top = g_dir_make_tmp ("fuzz-tables-XXXXXX", NULL);
  g_autofree char *tables = g_build_filename (top, "tables", NULL);
  g_autofree char *dumped = g_build_filename (top, "dumped", NULL);
  g_autofree char *book = g_build_filename (top, "a.croustade", NULL);
  g_autofree char *again = g_build_filename (top, "b.croustade", NULL);

  g_mkdir (tables, 0700);
  write_tables (tables, text);
  if (load (book, tables))
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CroBook) opened = cro_book_open (book, NULL, CRO_STORE_READ, 20500, &error);
      g_autoptr (GArray) doubts = NULL;

      if (opened == NULL)
        g_error ("what was loaded does not open: %s", error->message);
      doubts = cro_doubts_list (opened, &error);
      g_assert (doubts != NULL);
      dump (book, dumped);
      g_assert (load (again, dumped));
    }
  remove_folder (top);
  return 0;
}
