/* The invoice that is embedded in a PDF file (ISO 32000-1, 7.11.4).
 *
 * An embedded file is an ordinary stream object (7.3.8), which never stands within another (7.5.7), and
 * a file that is an invoice is not encrypted (ISO 19005-3, 6.1.3). So the streams are gone through as
 * they stand, each unpacked a little: no cross-reference is followed, which could be damaged or lead
 * round in a circle, and no page is looked at. A library that draws pages would bring all that they can
 * hold. Of two invoices that differ none is taken: what the names of attachments are for is not asked. */
#include "cro-invoice-private.h"

#include <string.h>
#include <zlib.h>

/* An invoice says what it is near its beginning. A packed stream can hold nothing for long: what is
 * looked at of it is bounded too. */
#define MOST_LOOKED_AT (16 * 1024)
#define MOST_PACKED_LOOKED_AT (64 * 1024)

/* The dictionary of a stream, before the word that begins it. */
#define MOST_DICTIONARY 4096

/* A PDF file may have other bytes before its own (7.5.2). */
#define MOST_BEFORE 1024

typedef struct
{
  const char *dictionary;
  gsize       dictionary_length;
  const char *bytes;
  gsize       length;        /* to the end of the file: where it ends is seen as it is unpacked */
} Stream;

static const char *
find (const char *bytes,
      gsize       length,
      const char *word)
{
  gsize n = strlen (word);

  for (const char *at = bytes, *end = bytes + length;
       (gsize) (end - at) >= n && (at = memchr (at, *word, (gsize) (end - at) - n + 1)) != NULL; at++)
    if (memcmp (at, word, n) == 0)
      return at;
  return NULL;
}

gboolean
cro_pdf_begins (const char *head,
                gsize       length)
{
  return find (head, MIN (length, MOST_BEFORE), "%PDF-") != NULL;
}

static gboolean
says (const Stream *stream,
      const char   *word)
{
  return find (stream->dictionary, stream->dictionary_length, word) != NULL;
}

/* From at on; *at is then behind the word that begins it. */
static gboolean
next_stream (const char  *bytes,
             gsize        length,
             const char **at,
             Stream      *stream)
{
  const char *end = bytes + length, *word;

  while ((word = find (*at, (gsize) (end - *at), "stream")) != NULL)
    {
      *at = word + strlen ("stream");
      if (word - bytes >= 3 && memcmp (word - 3, "end", 3) == 0)
        continue;
      stream->dictionary_length = MIN ((gsize) (word - bytes), MOST_DICTIONARY);
      stream->dictionary = word - stream->dictionary_length;
      for (const char *object; (object = find (stream->dictionary, stream->dictionary_length, "endobj")) != NULL;)
        {
          stream->dictionary_length = (gsize) (word - (object + 1));
          stream->dictionary = object + 1;
        }
      stream->bytes = *at;
      stream->bytes += stream->bytes < end && *stream->bytes == '\r';
      stream->bytes += stream->bytes < end && *stream->bytes == '\n';
      stream->length = (gsize) (end - stream->bytes);
      return TRUE;
    }
  return FALSE;
}

/* At most so many bytes of it, of at most so many packed ones. FALSE: it is damaged, or packed in a way
 * that no embedded file of an invoice is. */
static gboolean
unpack (const Stream *stream,
        gsize         most_packed,
        gsize         most,
        GByteArray   *into)
{
  z_stream packed = { 0 };
  guint8 block[16 * 1024];
  int status = Z_OK;

  if (!says (stream, "/Filter"))
    {
      gsize room = MIN (stream->length, most + strlen ("endstream"));
      const char *end = find (stream->bytes, room, "endstream");
      gsize n = end != NULL ? (gsize) (end - stream->bytes) : MIN (room, most);

      g_byte_array_append (into, (const guint8 *) stream->bytes, (guint) n);
      return end != NULL;
    }
  if (!says (stream, "/FlateDecode") && !says (stream, "/Fl "))
    return FALSE;
  if (inflateInit (&packed) != Z_OK)
    return FALSE;
  packed.next_in = (z_const Bytef *) stream->bytes;
  packed.avail_in = (uInt) MIN (stream->length, most_packed);
  while (status == Z_OK && into->len < most)
    {
      packed.next_out = block;
      packed.avail_out = sizeof block;
      status = inflate (&packed, Z_NO_FLUSH);
      if (status == Z_OK || status == Z_STREAM_END)
        g_byte_array_append (into, block, (guint) (sizeof block - packed.avail_out));
    }
  inflateEnd (&packed);
  return status == Z_OK || status == Z_STREAM_END;
}

/* What a stream is: no XML of the kind, another document of its family, or an invoice. */
typedef enum
{
  OTHER,
  OF_FAMILY,
  INVOICE,
} Kind;

static Kind
kind_of (const Stream *stream,
         GByteArray   *bytes)
{
  static const struct { const char *name; Kind kind; } names[] = {
    { "urn:un:unece:uncefact:data:standard:CrossIndustryInvoice:", INVOICE },
    { "urn:oasis:names:specification:ubl:schema:xsd:Invoice-2", INVOICE },
    { "urn:oasis:names:specification:ubl:schema:xsd:CreditNote-2", INVOICE },
    { "urn:oasis:names:specification:ubl:schema:xsd:", OF_FAMILY },
  };

  g_byte_array_set_size (bytes, 0);
  unpack (stream, MOST_PACKED_LOOKED_AT, MOST_LOOKED_AT, bytes);
  for (gsize i = 0; bytes->len > 0 && i < G_N_ELEMENTS (names); i++)
    if (find ((const char *) bytes->data, bytes->len, names[i].name) != NULL)
      return names[i].kind;
  return OTHER;
}

/* NULL with error. */
static GByteArray *
unpack_all (const Stream  *stream,
            GError       **error)
{
  g_autoptr (GByteArray) unpacked = g_byte_array_new ();

  if (!unpack (stream, stream->length, CRO_INVOICE_MOST_BYTES + 1, unpacked))
    g_set_error_literal (error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_DAMAGED, "PDF");
  else if (unpacked->len > CRO_INVOICE_MOST_BYTES)
    g_set_error_literal (error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_TOO_LARGE, "bytes");
  else
    return g_steal_pointer (&unpacked);
  return NULL;
}

/* The same file may stand there twice, as where it was saved anew behind what it was; but not as often as somebody
 * who means harm can pack it. */
#define MOST_COPIES 4

static gboolean
is_same (const Stream  *stream,
         GByteArray    *as,
         GError       **error)
{
  g_autoptr (GByteArray) other = unpack_all (stream, error);

  if (other == NULL)
    return FALSE;
  if (other->len == as->len && memcmp (other->data, as->data, as->len) == 0)
    return TRUE;
  g_set_error_literal (error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_SEVERAL, "PDF");
  return FALSE;
}

char *
cro_pdf_find_invoice (const char  *bytes,
                      gsize        length,
                      gsize       *found,
                      GError     **error)
{
  g_autoptr (GByteArray) head = g_byte_array_new (), invoice = NULL;
  Kind of = OTHER;
  const char *at = bytes;
  guint n_copies = 0;
  Stream stream;

  while (n_copies <= MOST_COPIES && next_stream (bytes, length, &at, &stream))
    {
      Kind kind = kind_of (&stream, head);

      if (kind == OTHER || kind < of || (kind == of && kind == OF_FAMILY))
        continue;
      if (kind == of && !is_same (&stream, invoice, error))
        return NULL;
      n_copies += kind == of;
      if (kind == of)
        continue;
      g_clear_pointer (&invoice, g_byte_array_unref);
      invoice = unpack_all (&stream, error);
      if (invoice == NULL)
        return NULL;
      of = kind;
    }
  if (n_copies > MOST_COPIES)
    {
      g_set_error_literal (error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_SEVERAL, "PDF");
      return NULL;
    }
  if (invoice != NULL)
    {
      *found = invoice->len;
      return (char *) g_byte_array_free (g_steal_pointer (&invoice), FALSE);
    }
  if (find (bytes, length, "/Encrypt") != NULL)
    g_set_error_literal (error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_LOCKED, "PDF");
  else
    g_set_error_literal (error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_NOT_IN_PDF, "PDF");
  return NULL;
}
