#include "cro-sheet-name.h"

#include <string.h>

#define MOST_UNITS 31

/* What no sheet's name may hold; and a number sign, at which links are parted. */
#define FORBIDDEN "[]:*?/\\#"

struct _CroSheetNames
{
  GHashTable *taken;    /* folded → name */
};

CroSheetNames *
cro_sheet_names_new (void)
{
  CroSheetNames *self = g_new (CroSheetNames, 1);

  self->taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  return self;
}

void
cro_sheet_names_free (CroSheetNames *self)
{
  g_hash_table_unref (self->taken);
  g_free (self);
}

/* Programs differ in what they take for the same: the widest sense is safe in all of them. */
static char *
fold (const char *name)
{
  g_autofree char *folded = g_utf8_casefold (name, -1);

  return g_utf8_normalize (folded, -1, G_NORMALIZE_ALL);
}

static char *
legal (const char *wanted)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (const char *p = wanted; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (g_unichar_iscntrl (c) || (c < 128 && strchr (FORBIDDEN, (int) c) != NULL))
        c = ' ';
      /* Within a formula an apostrophe would be doubled, which not every program reads. */
      if (c == '\'')
        c = 0x2019;
      /* A link is parted at this one. */
      if (c != '#')
        g_string_append_unichar (text, c);
    }
  return g_strdup (text->str);
}

/* Takes spaces off both ends. */
static void
trim (GString *text)
{
  gsize n = 0;

  while (text->len > 0 && text->str[text->len - 1] == ' ')
    g_string_truncate (text, text->len - 1);
  while (n < text->len && text->str[n] == ' ')
    n++;
  g_string_erase (text, 0, (gssize) n);
}

/* As much of name as fits before suffix. A mark is not parted from its letter. */
static char *
fit (const char *name,
     const char *suffix)
{
  g_autoptr (GString) text = g_string_new (NULL);
  gsize room = MOST_UNITS - strlen (suffix);
  gsize units = 0;
  gsize safe = 0;

  for (const char *p = name;; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (c == 0 || !g_unichar_ismark (c))
        safe = (gsize) (p - name);
      units += c > 0xffff ? 2 : 1;
      if (c == 0 || units > room)
        break;
    }
  g_string_append_len (text, name, (gssize) safe);
  trim (text);
  if (text->len == 0)
    g_string_append (text, "–");
  g_string_append (text, suffix);
  return g_strdup (text->str);
}

const char *
cro_sheet_names_take (CroSheetNames *self,
                      const char    *wanted)
{
  g_autofree char *clean = legal (wanted);
  g_autofree char *reserved = fold ("History");

  for (guint n = 1;; n++)
    {
      g_autofree char *suffix = n > 1 ? g_strdup_printf (" (%u)", n) : g_strdup ("");
      g_autofree char *name = fit (clean, suffix);
      g_autofree char *folded = fold (name);
      char *kept;

      if (strcmp (folded, reserved) == 0 || g_hash_table_contains (self->taken, folded))
        continue;
      kept = g_steal_pointer (&name);
      g_hash_table_insert (self->taken, g_steal_pointer (&folded), kept);
      return kept;
    }
}

char *
cro_sheet_name_quote (const char *name)
{
  g_autoptr (GString) quoted = g_string_new (name);

  g_string_replace (quoted, "'", "''", 0);
  g_string_prepend_c (quoted, '\'');
  g_string_append (quoted, "'!");
  return g_strdup (quoted->str);
}
