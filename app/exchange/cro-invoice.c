#include "cro-invoice-private.h"

#include "cro-plain-file.h"
#include "cro-tag-count.h"

#include <errno.h>
#include <libxml/xmlreader.h>
#include <string.h>
#include <unistd.h>

/* Of an amount on the whole document: no money is as much. */
#define MOST_MONEY (CRO_NANO * 1000 * 1000 * 1000 * 1000)

typedef struct
{
  CroInvoice       *invoice;
  xmlTextReaderPtr  xml;
  const char       *bytes;        /* what is left to be parsed */
  gsize             length;
  CroTagCount       tags;
  gboolean          is_too_large;

  GString          *path;
  GArray           *starts;       /* gsize: where each name in path begins */
  GString          *text;         /* of the element in hand */
  const CroInvoicePlace *place;   /* of that; NULL: its text is passed over */
  CroInvoiceLine    line;
  const char       *indicator;    /* whether an allowance or a charge is one; NULL: nothing says it */
  gboolean          is_charge;
  CroNano           amount;
  const char       *no_amount;    /* what it is in place of one; NULL */
} Reader;

GQuark
cro_invoice_error_quark (void)
{
  return g_quark_from_static_string ("cro-invoice-error");
}

static gboolean
fail (GError         **error,
      CroInvoiceError  code,
      const char      *what)
{
  g_set_error_literal (error, CRO_INVOICE_ERROR, (int) code, what);
  return FALSE;
}

/* --- Texts ---------------------------------------------------------------------------------------------- */

/* White space that only breaks lines is one space. NULL: there is nothing else. */
static const char *
keep (Reader     *self,
      const char *text)
{
  g_autoptr (GString) tidy = g_string_new (NULL);

  for (const char *at = text; *at != '\0'; at++)
    if (!g_ascii_isspace (*at))
      g_string_append_c (tidy, *at);
    else if (tidy->len > 0 && tidy->str[tidy->len - 1] != ' ')
      g_string_append_c (tidy, ' ');
  if (tidy->len > 0 && tidy->str[tidy->len - 1] == ' ')
    g_string_truncate (tidy, tidy->len - 1);
  return tidy->len > 0 ? g_string_chunk_insert_const (self->invoice->texts, tidy->str) : NULL;
}

/* The first text of a place is its own: a name in two languages stands there twice. */
static void
put (gpointer    of,
     gsize       offset,
     const char *text)
{
  const char **member = G_STRUCT_MEMBER_P (of, offset);

  if (*member == NULL)
    *member = text;
}

/* As XML Schema writes truth. */
static gboolean
is_truth (const char *text,
          const char *word,
          const char *digit)
{
  return strcmp (text, word) == 0 || strcmp (text, digit) == 0;
}

static gboolean
end_line (Reader  *self,
          GError **error)
{
  self->line.number = self->invoice->lines->len + 1;
  if (self->line.number > CRO_INVOICE_MOST_LINES)
    return fail (error, CRO_INVOICE_ERROR_TOO_LARGE, "lines");
  g_array_append_val (self->invoice->lines, self->line);
  self->line = (CroInvoiceLine){ 0 };
  return TRUE;
}

static void
begin_part (Reader *self)
{
  self->is_charge = FALSE;
  self->amount = 0;
  self->indicator = self->no_amount = NULL;
}

static void
end_part (Reader  *self,
          CroNano *allowances,
          CroNano *charges)
{
  *(self->is_charge ? charges : allowances) += self->amount;
  begin_part (self);
}

/* What cannot be read of a line shows in that it does not add up; of the whole nothing else shows it. */
static void
end_part_of_document (Reader *self)
{
  CroInvoice *invoice = self->invoice;
  const char *indicator = self->indicator != NULL ? self->indicator : "";

  if (invoice->no_amount == NULL)
    invoice->no_amount = self->no_amount;
  if (invoice->no_indicator == NULL && !is_truth (indicator, "true", "1") && !is_truth (indicator, "false", "0"))
    invoice->no_indicator = indicator;
  end_part (self, &invoice->allowances, &invoice->charges);
}

/* More than 12 digits before the point is no money, and could not be added up. */
static void
take_amount (Reader     *self,
             const char *text,
             CroNano    *amount)
{
  if (cro_exact_parse (text, amount) && *amount < MOST_MONEY && *amount > -MOST_MONEY)
    return;
  *amount = 0;
  self->no_amount = keep (self, text);
  if (self->no_amount == NULL)
    self->no_amount = " ";
}

/* One may be named twice. */
static void
take_preceding (CroInvoice *invoice,
                const char *number)
{
  invoice->has_several |= invoice->preceding != NULL && g_strcmp0 (number, invoice->preceding) != 0;
  invoice->preceding = invoice->has_several ? NULL : number;
}

static gboolean
take_place (Reader                *self,
            const CroInvoicePlace *place,
            GError               **error)
{
  CroNano fee;

  switch (place->kind)
    {
    case CRO_PLACE_DOCUMENT:
      put (self->invoice, place->offset, keep (self, self->text->str));
      return TRUE;
    case CRO_PLACE_LINE:
      put (&self->line, place->offset, keep (self, self->text->str));
      return TRUE;
    case CRO_PLACE_INDICATOR:
      self->indicator = keep (self, self->text->str);
      self->is_charge = self->indicator != NULL && is_truth (self->indicator, "true", "1");
      return TRUE;
    case CRO_PLACE_AMOUNT:
      take_amount (self, self->text->str, &self->amount);
      return TRUE;
    case CRO_PLACE_FEE:
      take_amount (self, self->text->str, &fee);
      self->invoice->charges += fee;
      if (self->invoice->no_amount == NULL)
        self->invoice->no_amount = self->no_amount;
      begin_part (self);
      return TRUE;
    case CRO_PLACE_PRECEDING:
      take_preceding (self->invoice, keep (self, self->text->str));
      return TRUE;
    case CRO_PLACE_LINE_PART:
      end_part (self, &self->line.allowances, &self->line.charges);
      return TRUE;
    case CRO_PLACE_DOCUMENT_PART:
      end_part_of_document (self);
      return TRUE;
    default:
      return end_line (self, error);
    }
}

/* --- Elements -------------------------------------------------------------------------------------------- */

static gboolean
begin_root (Reader      *self,
            const char  *namespace_uri,
            const char  *name,
            GError     **error)
{
  gboolean is_read;

  self->invoice->root = g_strdup (name);
  self->invoice->syntax = cro_invoice_root_find (namespace_uri, name, &is_read);
  return is_read || fail (error, CRO_INVOICE_ERROR_OTHER_ROOT, name);
}

/* Of an allowance or a charge of the document, whose own may not have been read yet. */
static void
take_currency (CroInvoice *invoice,
               const char *currency)
{
  if (invoice->whole_currency == NULL)
    invoice->whole_currency = currency;
  else if (currency != NULL && strcmp (currency, invoice->whole_currency) != 0)
    invoice->strange = currency;
}

static void
take_attribute (Reader *self)
{
  const CroInvoicePlace *place = self->place;
  xmlChar *value;

  if (place == NULL || place->attribute == NULL)
    return;
  value = xmlTextReaderGetAttribute (self->xml, (const xmlChar *) place->attribute);
  if (value != NULL && strlen ((const char *) value) <= CRO_INVOICE_MOST_TEXT)
    {
      if (place->kind == CRO_PLACE_LINE)
        put (&self->line, place->attribute_offset, keep (self, (const char *) value));
      else
        take_currency (self->invoice, keep (self, (const char *) value));
    }
  xmlFree (value);
}

static gboolean
end_element (Reader  *self,
             GError **error)
{
  const CroInvoicePlace *place;
  gsize start;

  if (self->starts->len == 0)
    return TRUE;
  place = cro_invoice_place_find (self->invoice->syntax, self->path->str);
  if (place != NULL && !take_place (self, place, error))
    return FALSE;
  start = g_array_index (self->starts, gsize, self->starts->len - 1);
  g_array_set_size (self->starts, self->starts->len - 1);
  g_string_truncate (self->path, start);
  self->place = NULL;
  g_string_truncate (self->text, 0);
  return TRUE;
}

/* An element of a strange namespace has a name in the path that no place has. */
static gboolean
begin_element (Reader  *self,
               GError **error)
{
  const char *uri = (const char *) xmlTextReaderConstNamespaceUri (self->xml);
  const char *name = (const char *) xmlTextReaderConstLocalName (self->xml);
  gboolean is_empty = xmlTextReaderIsEmptyElement (self->xml) == 1;
  gsize start = self->path->len;

  if (uri == NULL)
    uri = "";
  if (self->invoice->root == NULL)
    return begin_root (self, uri, name, error);
  if (self->starts->len >= CRO_INVOICE_MOST_DEPTH)
    return fail (error, CRO_INVOICE_ERROR_TOO_LARGE, "depth");
  g_array_append_val (self->starts, start);
  if (start > 0)
    g_string_append_c (self->path, '/');
  if (!cro_invoice_knows (self->invoice->syntax, uri) || strlen (name) > 200)
    name = "?";
  g_string_append (self->path, name);
  g_string_truncate (self->text, 0);
  self->place = cro_invoice_place_find (self->invoice->syntax, self->path->str);
  take_attribute (self);
  return !is_empty || end_element (self, error);
}

static gboolean
append_text (Reader  *self,
             GError **error)
{
  const char *text = (const char *) xmlTextReaderConstValue (self->xml);

  if (self->place == NULL || text == NULL)
    return TRUE;
  g_string_append (self->text, text);
  return self->text->len <= CRO_INVOICE_MOST_TEXT || fail (error, CRO_INVOICE_ERROR_TOO_LARGE, "text");
}

static gboolean
read_node (Reader  *self,
           GError **error)
{
  switch (xmlTextReaderNodeType (self->xml))
    {
    case XML_READER_TYPE_DOCUMENT_TYPE:
    case XML_READER_TYPE_ENTITY_REFERENCE:
      return fail (error, CRO_INVOICE_ERROR_DECLARES, "type");
    case XML_READER_TYPE_ELEMENT:
      return begin_element (self, error);
    case XML_READER_TYPE_END_ELEMENT:
      return end_element (self, error);
    case XML_READER_TYPE_TEXT:
    case XML_READER_TYPE_CDATA:
      return append_text (self, error);
    default:
      return TRUE;
    }
}

/* --- Bytes ------------------------------------------------------------------------------------------------ */

static int
read_cb (void *context,
         char *buffer,
         int   length)
{
  Reader *self = context;
  gsize n = MIN ((gsize) length, self->length);

  memcpy (buffer, self->bytes, n);
  self->bytes += n;
  self->length -= n;
  self->is_too_large = !cro_tag_count_take (&self->tags, buffer, n, CRO_INVOICE_MOST_ATTRIBUTES);
  return self->is_too_large ? -1 : (int) n;
}

static void
ignore_error (void                    *context,
              const char              *message,
              xmlParserSeverities      severity,
              xmlTextReaderLocatorPtr  where)
{
}

/* What a converter of charsets stumbles over is told to nobody but the standard error. */
static void
ignore_message (void       *context,
                const char *message,
                ...)
{
}

static gboolean
read_nodes (Reader  *self,
            GError **error)
{
  int status;

  while ((status = xmlTextReaderRead (self->xml)) == 1)
    if (!read_node (self, error))
      return FALSE;
  if (self->is_too_large)
    return fail (error, CRO_INVOICE_ERROR_TOO_LARGE, "attributes");
  if (status != 0)
    return fail (error, CRO_INVOICE_ERROR_DAMAGED, "XML");
  return self->invoice->lines->len > 0 || fail (error, CRO_INVOICE_ERROR_NO_LINES, "lines");
}

static gboolean
read_xml (CroInvoice  *invoice,
          const char  *bytes,
          gsize        length,
          GError     **error)
{
  Reader self = { .invoice = invoice, .bytes = bytes, .length = length };
  gboolean is_read;

  self.xml = xmlReaderForIO (read_cb, NULL, &self, NULL, NULL, XML_PARSE_NONET | XML_PARSE_COMPACT);
  if (self.xml == NULL)
    return fail (error, CRO_INVOICE_ERROR_DAMAGED, "XML");
  xmlTextReaderSetErrorHandler (self.xml, ignore_error, NULL);
  xmlSetGenericErrorFunc (NULL, ignore_message);
  self.path = g_string_new (NULL);
  self.starts = g_array_new (FALSE, FALSE, sizeof (gsize));
  self.text = g_string_new (NULL);
  is_read = read_nodes (&self, error);
  /* A parser may stumble over what a declaration says before it tells that there is one. */
  if (!is_read && g_strstr_len (bytes, (gssize) length, "<!DOCTYPE") != NULL)
    {
      g_clear_error (error);
      fail (error, CRO_INVOICE_ERROR_DECLARES, "type");
    }
  g_string_free (self.text, TRUE);
  g_array_unref (self.starts);
  g_string_free (self.path, TRUE);
  xmlFreeTextReader (self.xml);
  xmlSetGenericErrorFunc (NULL, NULL);
  return is_read;
}

/* The whole file, unless it is larger than any invoice. */
static GByteArray *
read_bytes (const char  *path,
            GError     **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  int file = cro_plain_file_open (path, error);
  guint8 block[64 * 1024];
  gssize n = 0;

  if (file < 0)
    return NULL;
  while (bytes->len <= CRO_INVOICE_MOST_BYTES && (n = read (file, block, sizeof block)) > 0)
    g_byte_array_append (bytes, block, (guint) n);
  if (n < 0)
    g_set_error_literal (error, G_FILE_ERROR, (int) g_file_error_from_errno (errno), g_strerror (errno));
  else if (bytes->len > CRO_INVOICE_MOST_BYTES)
    fail (error, CRO_INVOICE_ERROR_TOO_LARGE, "bytes");
  close (file);
  return n >= 0 && bytes->len <= CRO_INVOICE_MOST_BYTES ? g_steal_pointer (&bytes) : NULL;
}

/* Before the first tag there may be a byte order mark, or the zeros of UTF-16. */
static gboolean
is_xml (const char *head,
        gsize       length)
{
  gsize at = 0;

  while (at < length && (g_ascii_isspace (head[at]) || head[at] == '\0' || (guchar) head[at] >= 0xBB))
    at++;
  return at < length && head[at] == '<';
}

gboolean
cro_invoice_begins (const char *head,
                    gsize       length)
{
  return is_xml (head, length) || cro_pdf_begins (head, length);
}

static gboolean
read_any (CroInvoice  *invoice,
          const char  *bytes,
          gsize        length,
          GError     **error)
{
  g_autofree char *embedded = NULL;
  gsize found;

  if (is_xml (bytes, length) || !cro_pdf_begins (bytes, length))
    return read_xml (invoice, bytes, length, error);
  embedded = cro_pdf_find_invoice (bytes, length, &found, error);
  return embedded != NULL && read_xml (invoice, embedded, found, error);
}

CroInvoice *
cro_invoice_read (const char        *path,
                  CroInvoiceSyntax  *syntax,
                  GError           **error)
{
  g_autoptr (GByteArray) bytes = read_bytes (path, error);
  g_autoptr (CroInvoice) invoice = g_new0 (CroInvoice, 1);
  gboolean is_read;

  invoice->lines = g_array_new (FALSE, FALSE, sizeof (CroInvoiceLine));
  invoice->texts = g_string_chunk_new (4096);
  is_read = bytes != NULL && read_any (invoice, bytes->len > 0 ? (const char *) bytes->data : "", bytes->len, error);
  if (syntax != NULL)
    *syntax = invoice->syntax;
  if (!is_read)
    return NULL;
  cro_invoice_reckon (invoice);
  return g_steal_pointer (&invoice);
}

void
cro_invoice_free (CroInvoice *self)
{
  g_free (self->root);
  g_array_unref (self->lines);
  g_string_chunk_free (self->texts);
  g_free (self);
}
