#include "cro-spreadsheet-private.h"

#include "cro-plain-file.h"
#include "cro-tag-count.h"

#include <archive.h>
#include <archive_entry.h>
#include <libxml/parser.h>
#include <string.h>
#include <unistd.h>

#define BLOCK (64 * 1024)

struct _CroPart
{
  int              file;
  struct archive  *package;
  xmlTextReaderPtr xml;
  guint64          unpacked;
  gboolean         is_too_large;
  CroReadFor       whom;
  gboolean         is_stopped;
  CroTagCount      tags;
};

static int
read_cb (void *context,
         char *buffer,
         int   length)
{
  CroPart *self = context;
  la_ssize_t n = archive_read_data (self->package, buffer, (size_t) length);

  if (n < 0)
    return -1;
  self->unpacked += (guint64) n;
  self->is_too_large = self->unpacked > CRO_SPREADSHEET_MOST_PART
                       || !cro_tag_count_take (&self->tags, buffer, (gsize) n,
                                               CRO_SPREADSHEET_MOST_ATTRIBUTES);
  self->is_stopped = self->whom.taker != NULL && self->whom.taker->goes_on != NULL
                     && !self->whom.taker->goes_on (self->whom.user_data);
  return self->is_too_large || self->is_stopped ? -1 : (int) n;
}

static void
ignore_error (void                    *context,
              const char              *message,
              xmlParserSeverities      severity,
              xmlTextReaderLocatorPtr  where)
{
}

/* Nothing is fetched, and no entity of the document's own is replaced: cro_part_next refuses a
 * document that declares some. */
static gboolean
open_xml (CroPart *self)
{
  self->xml = xmlReaderForIO (read_cb, NULL, self, NULL, NULL, XML_PARSE_NONET | XML_PARSE_COMPACT);
  if (self->xml != NULL)
    xmlTextReaderSetErrorHandler (self->xml, ignore_error, NULL);
  return self->xml != NULL;
}

static gboolean
is_name (struct archive_entry *entry,
         const char           *name)
{
  const char *is = archive_entry_pathname (entry);

  if (is == NULL)
    return FALSE;
  /* Names of parts are compared without regard to case (ISO/IEC 29500-2, 9.1.1). */
  return g_ascii_strcasecmp (is + (*is == '/'), name) == 0;
}

static void
set_damaged (GError    **error,
             const char *what)
{
  g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_DAMAGED, what);
}

static gboolean
find_part (CroPart     *self,
           const char  *name,
           GError     **error)
{
  struct archive_entry *entry;
  int status;

  while ((status = archive_read_next_header (self->package, &entry)) == ARCHIVE_OK
         || status == ARCHIVE_WARN)
    if (is_name (entry, name))
      {
        if (!archive_entry_is_encrypted (entry))
          return TRUE;
        g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_LOCKED, name);
        return FALSE;
      }
  if (status != ARCHIVE_EOF)
    set_damaged (error, name);
  return FALSE;
}

/* At the beginning of its XML. */
static CroPart *
open_part (const char  *path,
           const char  *name,
           CroReadFor   whom,
           GError     **error)
{
  g_autoptr (CroPart) self = NULL;
  int file = cro_plain_file_open (path, error);

  if (file < 0)
    return NULL;
  self = g_new0 (CroPart, 1);
  self->file = file;
  self->whom = whom;
  self->package = archive_read_new ();
  archive_read_support_format_zip (self->package);
  if (archive_read_open_fd (self->package, file, BLOCK) != ARCHIVE_OK)
    {
      set_damaged (error, name);
      return NULL;
    }
  if (!find_part (self, name, error))
    return NULL;
  return g_steal_pointer (&self);
}

CroPart *
cro_part_open (const char  *path,
               const char  *name,
               CroReadFor   whom,
               GError     **error)
{
  g_autoptr (CroPart) self = open_part (path, name, whom, error);

  if (self == NULL || open_xml (self))
    return g_steal_pointer (&self);
  set_damaged (error, name);
  return NULL;
}

xmlTextReaderPtr
cro_part_get_xml (CroPart *self)
{
  return self->xml;
}

/* Why nothing more comes. */
static gboolean
check_end (const CroPart  *self,
           gboolean        is_whole,
           GError        **error)
{
  if (self->is_stopped)
    g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_STOPPED, "stopped");
  else if (self->is_too_large)
    g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "a part");
  else if (!is_whole)
    set_damaged (error, "its XML");
  else
    return TRUE;
  return FALSE;
}

gboolean
cro_part_next (CroPart  *self,
               GError  **error)
{
  int status = xmlTextReaderRead (self->xml);

  if (status == 1 && xmlTextReaderNodeType (self->xml) != XML_READER_TYPE_DOCUMENT_TYPE)
    return TRUE;
  check_end (self, status == 0, error);
  return FALSE;
}

/* --- Walked ------------------------------------------------------------------------------------- */

/* The parser's own calls, which keep nothing: half of what a reader of nodes takes is to make them. */
typedef struct
{
  const CroPartWalker *walker;
  gpointer             user_data;
  xmlParserCtxtPtr     parser;
  gboolean             goes_on;
  GError              *fault;
} Walk;

static void
follow (Walk     *self,
        gboolean  goes_on)
{
  self->goes_on = goes_on;
  if (!goes_on)
    xmlStopParser (self->parser);
}

static void
begin_cb (void           *context,
          const xmlChar  *name,
          const xmlChar  *prefix,
          const xmlChar  *uri,
          int             n_spaces,
          const xmlChar **spaces,
          int             n_attributes,
          int             n_assumed,
          const xmlChar **attributes)
{
  Walk *self = context;
  CroPartAttributes all = { attributes, (guint) n_attributes };

  if (self->goes_on)
    follow (self, self->walker->begin ((const char *) name, &all, self->user_data, &self->fault));
}

static void
end_cb (void          *context,
        const xmlChar *name,
        const xmlChar *prefix,
        const xmlChar *uri)
{
  Walk *self = context;

  if (self->goes_on)
    follow (self, self->walker->end ((const char *) name, self->user_data, &self->fault));
}

static void
text_cb (void          *context,
         const xmlChar *text,
         int            length)
{
  Walk *self = context;

  if (self->goes_on)
    follow (self, self->walker->text ((const char *) text, (gsize) length, self->user_data, &self->fault));
}

/* A document type may declare entities, which nobody needs here. */
static void
refuse_cb (void          *context,
           const xmlChar *name,
           const xmlChar *public_id,
           const xmlChar *system_id)
{
  Walk *self = context;

  set_damaged (&self->fault, "its XML");
  follow (self, FALSE);
}

const char *
cro_part_attribute (const CroPartAttributes *self,
                    const char              *name,
                    gsize                   *length)
{
  for (guint i = 0; i < self->n; i++)
    {
      /* Name, prefix, namespace, begin and end of the value. */
      const xmlChar **attribute = self->all + 5 * (gsize) i;

      if (g_str_equal ((const char *) attribute[0], name))
        {
          *length = (gsize) (attribute[4] - attribute[3]);
          return (const char *) attribute[3];
        }
    }
  return NULL;
}

gboolean
cro_part_walk (const char           *path,
               const char           *name,
               gboolean              is_needed,
               CroReadFor            whom,
               const CroPartWalker  *walker,
               gpointer              user_data,
               GError              **error)
{
  xmlSAXHandler calls = { .initialized = XML_SAX2_MAGIC, .startElementNs = begin_cb, .endElementNs = end_cb,
                          .characters = text_cb, .ignorableWhitespace = text_cb, .cdataBlock = text_cb,
                          .internalSubset = refuse_cb };
  Walk walk = { .walker = walker, .user_data = user_data, .goes_on = TRUE };
  g_autoptr (CroPart) part = open_part (path, name, whom, &walk.fault);
  gboolean is_whole;

  if (part == NULL && walk.fault == NULL && !is_needed)
    return TRUE;
  if (part != NULL)
    walk.parser = xmlCreateIOParserCtxt (&calls, &walk, read_cb, NULL, part, XML_CHAR_ENCODING_NONE);
  if (walk.parser != NULL)
    {
      xmlCtxtUseOptions (walk.parser, XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
      xmlParseDocument (walk.parser);
      is_whole = walk.parser->wellFormed;
      xmlFreeParserCtxt (walk.parser);
      if (walk.goes_on)
        walk.goes_on = check_end (part, is_whole, &walk.fault);
    }
  else if (walk.fault == NULL)
    set_damaged (&walk.fault, name);
  if (walk.fault == NULL)
    return walk.goes_on;
  g_propagate_error (error, walk.fault);
  return FALSE;
}

void
cro_part_free (CroPart *self)
{
  if (self->xml != NULL)
    xmlFreeTextReader (self->xml);
  archive_read_free (self->package);
  close (self->file);
  g_free (self);
}
