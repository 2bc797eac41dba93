#include "cro-spreadsheet-private.h"

#include "cro-plain-file.h"
#include "cro-tag-count.h"

#include <archive.h>
#include <archive_entry.h>
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
        if (archive_entry_is_encrypted (entry))
          g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_LOCKED, name);
        else if (!open_xml (self))
          set_damaged (error, name);
        else
          return TRUE;
        return FALSE;
      }
  if (status != ARCHIVE_EOF)
    set_damaged (error, name);
  return FALSE;
}

CroPart *
cro_part_open (const char  *path,
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

xmlTextReaderPtr
cro_part_get_xml (CroPart *self)
{
  return self->xml;
}

gboolean
cro_part_next (CroPart  *self,
               GError  **error)
{
  int status = xmlTextReaderRead (self->xml);

  if (status == 1 && xmlTextReaderNodeType (self->xml) != XML_READER_TYPE_DOCUMENT_TYPE)
    return TRUE;
  if (self->is_stopped)
    g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_STOPPED, "stopped");
  else if (self->is_too_large)
    g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "a part");
  else if (status != 0)
    set_damaged (error, "its XML");
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
