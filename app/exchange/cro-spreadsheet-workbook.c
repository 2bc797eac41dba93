/* From the package's relationships to the workbook, and from its own to sheets, texts and styles
 * (ISO/IEC 29500-2, 9.3; 29500-1, 12.3). Types are known by how they end, as transitional and
 * strict ones begin differently. */
#include "cro-spreadsheet-private.h"

#include <string.h>

/* More than any list of sheets that somebody can choose from. */
#define MOST_SHEETS 1024

static gboolean
is_element (xmlTextReaderPtr  xml,
            const char       *name)
{
  return xmlTextReaderNodeType (xml) == XML_READER_TYPE_ELEMENT
         && g_str_equal ((const char *) xmlTextReaderConstLocalName (xml), name);
}

/* Of any name space. NULL: there is none. */
static char *
dup_attribute (xmlTextReaderPtr  xml,
               const char       *name)
{
  char *value = NULL;

  while (value == NULL && xmlTextReaderMoveToNextAttribute (xml) == 1)
    if (g_str_equal ((const char *) xmlTextReaderConstLocalName (xml), name)
        && xmlTextReaderHasValue (xml))
      value = g_strdup ((const char *) xmlTextReaderConstValue (xml));
  xmlTextReaderMoveToElement (xml);
  return value;
}

/* "xl/workbook.xml", "../media/a" → "media/a". */
static char *
resolve (const char *from,
         const char *target)
{
  g_autofree char *folder = g_path_get_dirname (from);
  g_autofree char *joined = NULL;
  g_auto (GStrv) steps = NULL;
  g_autoptr (GPtrArray) kept = g_ptr_array_new ();

  joined = *target == '/' ? g_strdup (target) : g_build_path ("/", folder, target, NULL);
  steps = g_strsplit (joined, "/", -1);
  for (char **step = steps; *step != NULL; step++)
    {
      if (g_str_equal (*step, "..") && kept->len > 0)
        g_ptr_array_set_size (kept, (int) kept->len - 1);
      else if (**step != '\0' && !g_str_equal (*step, ".") && !g_str_equal (*step, ".."))
        g_ptr_array_add (kept, *step);
    }
  g_ptr_array_add (kept, NULL);
  return g_strjoinv ("/", (char **) kept->pdata);
}

/* Where the relationships of a part stand. */
static char *
dup_relationships (const char *part)
{
  g_autofree char *folder = g_path_get_dirname (part);
  g_autofree char *name = g_path_get_basename (part);

  return g_str_equal (folder, ".") ? g_strdup_printf ("_rels/%s.rels", name)
                                   : g_strdup_printf ("%s/_rels/%s.rels", folder, name);
}

typedef struct
{
  char *id;
  char *type;
  char *target;
} Relationship;

static void
relationship_clear (Relationship *self)
{
  g_free (self->id);
  g_free (self->type);
  g_free (self->target);
}

static GArray *
relationships_new (void)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Relationship));

  g_array_set_clear_func (all, (GDestroyNotify) relationship_clear);
  return all;
}

/* NULL with error; none where the part has none. */
static GArray *
read_relationships (const char  *path,
                    const char  *listed_in,
                    const char  *from,
                    CroReadFor   whom,
                    GError     **error)
{
  g_autoptr (GArray) all = relationships_new ();
  g_autoptr (GError) fault = NULL;
  g_autoptr (CroPart) part = cro_part_open (path, listed_in, whom, &fault);

  while (part != NULL && cro_part_next (part, &fault))
    if (is_element (cro_part_get_xml (part), "Relationship") && all->len < 2 * MOST_SHEETS)
      {
        xmlTextReaderPtr xml = cro_part_get_xml (part);
        g_autofree char *target = dup_attribute (xml, "Target");
        Relationship one = { dup_attribute (xml, "Id"), dup_attribute (xml, "Type"),
                             target != NULL ? resolve (from, target) : NULL };

        g_array_append_val (all, one);
      }
  if (fault == NULL)
    return g_steal_pointer (&all);
  g_propagate_error (error, g_steal_pointer (&fault));
  return NULL;
}

/* NULL: none is of that type, or has that id. Borrowed. */
static const char *
find_target (const GArray *relationships,
             const char   *type,
             const char   *id)
{
  for (guint i = 0; i < relationships->len; i++)
    {
      const Relationship *one = &g_array_index (relationships, Relationship, i);

      if (one->type != NULL && one->target != NULL && g_str_has_suffix (one->type, type)
          && (id == NULL || g_strcmp0 (one->id, id) == 0))
        return one->target;
    }
  return NULL;
}

static void
add_sheet (CroWorkbookParts *self,
           xmlTextReaderPtr  xml,
           const GArray     *relationships)
{
  g_autofree char *name = dup_attribute (xml, "name");
  g_autofree char *state = dup_attribute (xml, "state");
  g_autofree char *id = dup_attribute (xml, "id");
  const char *target;

  if (name == NULL || id == NULL || self->names->len >= MOST_SHEETS
      || (state != NULL && !g_str_equal (state, "visible")))
    return;
  target = find_target (relationships, "/worksheet", id);
  if (target == NULL)
    return;
  g_ptr_array_add (self->names, g_steal_pointer (&name));
  g_ptr_array_add (self->parts, g_strdup (target));
}

static void
read_properties (CroWorkbookParts *self,
                 xmlTextReaderPtr  xml)
{
  g_autofree char *from_1904 = dup_attribute (xml, "date1904");

  self->is_1904 = g_strcmp0 (from_1904, "1") == 0 || g_strcmp0 (from_1904, "true") == 0;
}

static gboolean
read_workbook (CroWorkbookParts  *self,
               const char        *path,
               const char        *name,
               const GArray      *relationships,
               CroReadFor         whom,
               GError           **error)
{
  g_autoptr (GError) fault = NULL;
  g_autoptr (CroPart) part = cro_part_open (path, name, whom, &fault);

  while (part != NULL && cro_part_next (part, &fault))
    {
      xmlTextReaderPtr xml = cro_part_get_xml (part);

      if (is_element (xml, "sheet"))
        add_sheet (self, xml, relationships);
      else if (is_element (xml, "workbookPr"))
        read_properties (self, xml);
    }
  if (fault != NULL)
    g_propagate_error (error, g_steal_pointer (&fault));
  else if (self->names->len == 0)
    g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_NO_SHEET, name);
  else
    return TRUE;
  return FALSE;
}

static gboolean
read_parts (CroWorkbookParts  *self,
            const char        *path,
            const char        *name,
            CroReadFor         whom,
            GError           **error)
{
  g_autofree char *listed_in = dup_relationships (name);
  g_autoptr (GArray) relationships = read_relationships (path, listed_in, name, whom, error);

  if (relationships == NULL)
    return FALSE;
  self->texts_part = g_strdup (find_target (relationships, "/sharedStrings", NULL));
  self->styles_part = g_strdup (find_target (relationships, "/styles", NULL));
  return read_workbook (self, path, name, relationships, whom, error);
}

CroWorkbookParts *
cro_workbook_parts_new (const char  *path,
                        CroReadFor   whom,
                        GError     **error)
{
  g_autoptr (CroWorkbookParts) self = g_new0 (CroWorkbookParts, 1);
  g_autoptr (GArray) relationships = NULL;
  const char *name;

  self->names = g_ptr_array_new_with_free_func (g_free);
  self->parts = g_ptr_array_new_with_free_func (g_free);
  relationships = read_relationships (path, "_rels/.rels", "", whom, error);
  if (relationships == NULL)
    return NULL;
  name = find_target (relationships, "/officeDocument", NULL);
  if (name == NULL)
    {
      g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_OTHER_KIND,
                           "a package without a workbook");
      return NULL;
    }
  return read_parts (self, path, name, whom, error) ? g_steal_pointer (&self) : NULL;
}

void
cro_workbook_parts_free (CroWorkbookParts *self)
{
  g_ptr_array_unref (self->names);
  g_ptr_array_unref (self->parts);
  g_free (self->texts_part);
  g_free (self->styles_part);
  g_free (self);
}

/* Codes that stand for d, m, y, h and s, outside of quotes, brackets, and after \ _ and *; but [h]
 * and its like are times. */
static CroNumbers
find_placeholders (const char *code)
{
  CroNumbers numbers = CRO_NUMBERS_PLAIN;

  for (const char *at = code; *at != '\0' && *at != ';'; at++)
    {
      if (*at == '"')
        {
          at = strchr (at + 1, '"');
          if (at == NULL)
            break;
        }
      else if (*at == '[' && (at = strchr (at, ']')) == NULL)
        break;
      else if (strchr ("\\_*", *at) != NULL)
        {
          if (*++at == '\0')
            break;
        }
      else if (*at == '%')
        numbers = CRO_NUMBERS_PERCENT;
      else if (strchr ("dDyY", *at) != NULL)
        return CRO_NUMBERS_DATE;
    }
  return numbers;
}

/* The texts of a format's code: "…", \\c, [$£-809], and signs of money that stand as they are. Owned; NULL: none that
 * says anything. */
static char *
dup_around (const char *code)
{
  g_autoptr (GString) text = g_string_new (NULL);
  gboolean says_something = FALSE;

  for (const char *at = code, *end; *at != '\0' && *at != ';'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (*at == '"' || *at == '[')
        {
          end = strchr (at + 1, *at == '"' ? '"' : ']');
          if (end == NULL)
            break;
          if (*at == '"')
            g_string_append_len (text, at + 1, end - at - 1);
          else if (at[1] == '$')
            g_string_append_len (text, at + 2, (gssize) MIN (strcspn (at + 2, "-]"), (gsize) (end - at - 2)));
          at = end;
        }
      else if (*at == '_' || *at == '*' || *at == '\\')
        {
          if (at[1] == '\0')
            break;
          if (*at == '\\')
            g_string_append_unichar (text, g_utf8_get_char (at + 1));
          at++;
        }
      else if (g_unichar_type (c) == G_UNICODE_CURRENCY_SYMBOL || *at == '/')
        g_string_append_unichar (text, c);
    }
  g_strstrip (text->str);
  for (const char *at = text->str; *at != '\0'; at = g_utf8_next_char (at))
    says_something |= !g_unichar_isspace (g_utf8_get_char (at)) && strchr (" /.,:'", *at) == NULL;
  return says_something ? g_strdup (text->str) : NULL;
}

/* What a format's code makes of a number (ISO/IEC 29500-1, 18.8.30 and 18.8.31). */
static CroNumbers
numbers_of_code (const char *code)
{
  return g_ascii_strcasecmp (code, "General") == 0 ? CRO_NUMBERS_PLAIN : find_placeholders (code);
}

/* The formats that have a number and no code (18.8.30): 9 and 10 are percentages, 14 to 17, 22 and
 * those of eastern languages dates. */
static CroNumbers
numbers_of_builtin (guint format)
{
  if (format == 9 || format == 10)
    return CRO_NUMBERS_PERCENT;
  if ((format >= 14 && format <= 17) || format == 22 || (format >= 27 && format <= 31)
      || (format >= 50 && format <= 54) || format == 57 || format == 58 || format == 36)
    return CRO_NUMBERS_DATE;
  return CRO_NUMBERS_PLAIN;
}

static guint
get_number (xmlTextReaderPtr  xml,
            const char       *name)
{
  g_autofree char *text = dup_attribute (xml, name);

  return text != NULL ? (guint) g_ascii_strtoull (text, NULL, 10) : 0;
}

static void
note_code (GHashTable       *codes,
           xmlTextReaderPtr  xml)
{
  g_autofree char *code = dup_attribute (xml, "formatCode");
  guint id = get_number (xml, "numFmtId");

  if (code != NULL)
    g_hash_table_insert (codes, GUINT_TO_POINTER (id), g_steal_pointer (&code));
}

/* <font>, or <strike> in one (18.8.22, 18.8.37). */
static void
note_font (GArray           *struck,
           xmlTextReaderPtr  xml)
{
  const gboolean is_strike = is_element (xml, "strike");
  g_autofree char *is_on = is_strike ? dup_attribute (xml, "val") : NULL;
  const guint8 none = FALSE;

  if (is_element (xml, "font") && struck->len < CRO_SPREADSHEET_MOST_STYLES)
    g_array_append_val (struck, none);
  else if (is_strike && struck->len > 0)
    g_array_index (struck, guint8, struck->len - 1)
        = is_on == NULL || !(g_str_equal (is_on, "0") || g_str_equal (is_on, "false"));
}

static void
note_style (GArray           *styles,
            GHashTable       *codes,
            GArray           *struck,
            xmlTextReaderPtr  xml)
{
  const guint font = get_number (xml, "fontId");
  guint id = get_number (xml, "numFmtId");
  const char *code = g_hash_table_lookup (codes, GUINT_TO_POINTER (id));
  CroStyle style = { code != NULL ? numbers_of_code (code) : numbers_of_builtin (id), NULL, FALSE };

  /* ";;;" */
  style.is_hidden = (code != NULL && *code == ';') || (font < struck->len && g_array_index (struck, guint8, font));

  if (code != NULL && style.numbers == CRO_NUMBERS_PLAIN)
    style.around = dup_around (code);
  g_array_append_val (styles, style);
}

static void
style_clear (gpointer style)
{
  g_free (((CroStyle *) style)->around);
}

GArray *
cro_styles_read (const char              *path,
                 const CroWorkbookParts  *parts,
                 CroReadFor               whom,
                 GError                 **error)
{
  g_autoptr (GArray) styles = g_array_new (FALSE, FALSE, sizeof (CroStyle));
  g_autoptr (GHashTable) codes = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  g_autoptr (GError) fault = NULL;
  g_autoptr (CroPart) part = NULL;
  g_autoptr (GArray) struck = g_array_new (FALSE, FALSE, sizeof (guint8));
  gboolean is_of_cells = FALSE, is_of_fonts = FALSE;

  g_array_set_clear_func (styles, style_clear);
  if (parts->styles_part != NULL)
    part = cro_part_open (path, parts->styles_part, whom, &fault);
  while (part != NULL && cro_part_next (part, &fault))
    {
      xmlTextReaderPtr xml = cro_part_get_xml (part);

      /* <xf> stands in <cellStyleXfs> too. */
      if (is_element (xml, "cellXfs"))
        is_of_cells = TRUE;
      else if (xmlTextReaderNodeType (xml) == XML_READER_TYPE_END_ELEMENT
               && g_str_equal ((const char *) xmlTextReaderConstLocalName (xml), "cellXfs"))
        is_of_cells = FALSE;
      else if (is_of_cells && is_element (xml, "xf") && styles->len < CRO_SPREADSHEET_MOST_STYLES)
        note_style (styles, codes, struck, xml);
      /* <font> stands in <dxfs> too. */
      else if (is_element (xml, "fonts"))
        is_of_fonts = TRUE;
      else if (xmlTextReaderNodeType (xml) == XML_READER_TYPE_END_ELEMENT
               && g_str_equal ((const char *) xmlTextReaderConstLocalName (xml), "fonts"))
        is_of_fonts = FALSE;
      else if (is_of_fonts)
        note_font (struck, xml);
      else if (is_element (xml, "numFmt"))
        note_code (codes, xml);
    }
  if (fault == NULL)
    return g_steal_pointer (&styles);
  g_propagate_error (error, g_steal_pointer (&fault));
  return NULL;
}
