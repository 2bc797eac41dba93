#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-finder.h"
#include "cro-isolate.h"
#include "cro-name.h"
#include "cro-near-names.h"

/* Names like the one that was asked for. */
#define MOST_LIKE 5

static void
say_similar (const GString *quoted)
{
  if (quoted->len > 0)
    /* Translators: a list of names in quotation marks. */
    g_printerr (_("similar names: %s\n"), quoted->str);
}

static void
add_quoted (GString    *list,
            const char *name)
{
  /* Translators: a name in quotation marks. */
  g_autofree char *quoted = g_strdup_printf (_("“%s”"), name);

  cro_isolate_append (list, quoted);
}

void
cro_cli_say_similar (const GPtrArray *names,
                     const char      *name)
{
  g_autoptr (CroNearNames) near_names = cro_near_names_new (names);
  g_autoptr (GArray) found = cro_near_names_find (near_names, name, MOST_LIKE);
  g_autoptr (GString) like = g_string_new (NULL);

  for (guint i = 0; i < found->len; i++)
    add_quoted (like, names->pdata[g_array_index (found, guint, i)]);
  say_similar (like);
}

static void
say_unknown (CroBook    *book,
             guint       kinds,
             const char *name)
{
  g_autoptr (GArray) found = cro_finder_find_like (cro_finder_of (book), name, kinds, MOST_LIKE);
  g_autoptr (GString) like = g_string_new (NULL);

  for (guint i = 0; i < found->len; i++)
    {
      const CroFound *one = &g_array_index (found, CroFound, i);

      add_quoted (like, cro_kind_name (cro_book_get_model (book), one->kind, one->slot));
    }
  if (kinds == CRO_CLI_MENUS)
    g_printerr (_("there is no menu “%s”\n"), name);
  else if (kinds == CRO_CLI_PLATES)
    g_printerr (_("there is no plate “%s”\n"), name);
  else if (kinds == CRO_CLI_THINGS)
    g_printerr (_("there is no plate or menu “%s”\n"), name);
  else if (kinds == CRO_CLI_PREPARATIONS)
    g_printerr (_("there is no preparation “%s”\n"), name);
  else
    g_printerr (_("there is no ingredient or preparation “%s”\n"), name);
  say_similar (like);
}

gboolean
cro_cli_find (CroBook    *book,
              guint       kinds,
              const char *written,
              CroKind    *kind,
              guint32    *slot)
{
  CroModel *model = cro_book_get_model (book);
  g_autofree char *name = cro_name_dup_tidy (written);

  for (int k = 0; k < CRO_N_KINDS; k++)
    for (guint32 i = 0; (kinds & 1u << k) && i < cro_kind_n_slots (model, (CroKind) k); i++)
      if (g_strcmp0 (cro_kind_name (model, (CroKind) k, i), name) == 0)
        {
          if (kind != NULL)
            *kind = (CroKind) k;
          *slot = i;
          return TRUE;
        }
  say_unknown (book, kinds, written);
  return FALSE;
}
