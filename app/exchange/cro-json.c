#include "cro-json.h"

#include "cro-digits.h"
#include "cro-processors.h"

#include <math.h>
#include <string.h>

#define LEAST_ROOM 1024

/* Pieces are written by several threads side by side. */
struct _CroJson
{
  _Alignas (CRO_CACHE_LINE) char *text;
  gsize     length;
  gsize     room;
  guint     depth;
  gboolean  is_first;    /* nothing stands yet in the innermost object or array */
  gboolean  is_taken;    /* what stands in text was handed on */
  char     *not_finite;  /* the name of the first such number */
};

G_DEFINE_QUARK (cro-json-error-quark, cro_json_error)

static void
make_room (CroJson *self,
           gsize    length)
{
  self->room = MAX (2 * self->room, self->length + length);
  self->text = g_realloc (self->text, self->room);
}

static inline void
append (CroJson    *self,
        const char *text,
        gsize       length)
{
  if (G_UNLIKELY (length > self->room - self->length))
    make_room (self, length);
  memcpy (self->text + self->length, text, length);
  self->length += length;
}

static inline void
append_char (CroJson *self,
             char     c)
{
  append (self, &c, 1);
}

static void
append_string (CroJson    *self,
               const char *text)
{
  append (self, text, strlen (text));
}

static void
append_line_end (CroJson *self)
{
  static const char indented[] = "\n                ";
  guint inside = 2 * self->depth;

  append (self, indented, 1 + MIN (inside, sizeof indented - 2));
  for (gsize i = sizeof indented - 2; i < inside; i++)
    append_char (self, ' ');
}

static inline gboolean
may_stand (char c)
{
  return (guchar) c >= 0x20 && c != '"' && c != '\\';
}

/* RFC 8259, 7: quotes, backslashes and control characters are escaped; all else may stand. */
static void
append_quoted (CroJson    *self,
               const char *text)
{
  append_char (self, '"');
  while (*text != '\0')
    {
      const char *from = text;

      while (may_stand (*text))
        text++;
      append (self, from, (gsize) (text - from));
      if (*text == '\0')
        break;
      if (*text == '"' || *text == '\\')
        append (self, (const char[]){ '\\', *text }, 2);
      else if (*text == '\n')
        append_string (self, "\\n");
      else
        {
          char escaped[sizeof "\\u0000"];

          g_snprintf (escaped, sizeof escaped, "\\u%04x", (guint) *text);
          append_string (self, escaped);
        }
      text++;
    }
  append_char (self, '"');
}

static void
append_number (CroJson *self,
               double   value)
{
  char digits[CRO_DIGITS_CHARS];
  gsize length = cro_digits_print (value, digits);

  append (self, digits, length);
}

/* What was handed on makes room once more is written. */
static inline void
forget_taken (CroJson *self)
{
  if (self->is_taken)
    self->length = 0;
  self->is_taken = FALSE;
}

static void
begin_value (CroJson    *self,
             const char *name)
{
  forget_taken (self);
  if (!self->is_first)
    append_char (self, ',');
  if (self->depth > 0)
    append_line_end (self);
  if (name != NULL)
    {
      append_quoted (self, name);
      append (self, ": ", 2);
    }
  self->is_first = FALSE;
}

static void
begin_inside (CroJson    *self,
              const char *name,
              char        bracket)
{
  begin_value (self, name);
  append_char (self, bracket);
  self->depth++;
  self->is_first = TRUE;
}

static void
end_inside (CroJson *self,
            char     bracket)
{
  g_return_if_fail (self->depth > 0);

  forget_taken (self);
  self->depth--;
  if (!self->is_first)
    append_line_end (self);
  append_char (self, bracket);
  self->is_first = FALSE;
}

CroJson *
cro_json_new (void)
{
  CroJson *json = g_aligned_alloc0 (1, sizeof (CroJson), CRO_CACHE_LINE);

  make_room (json, LEAST_ROOM);
  json->is_first = TRUE;
  return json;
}

/* It begins with the comma that parts it from what stands before it. */
CroJson *
cro_json_new_piece (guint depth)
{
  CroJson *json = cro_json_new ();

  json->depth = depth;
  json->is_first = FALSE;
  return json;
}

void
cro_json_free (CroJson *json)
{
  g_free (json->text);
  g_free (json->not_finite);
  g_aligned_free (json);
}

void
cro_json_begin_object (CroJson    *json,
                       const char *name)
{
  begin_inside (json, name, '{');
}

void
cro_json_end_object (CroJson *json)
{
  end_inside (json, '}');
}

void
cro_json_begin_array (CroJson    *json,
                      const char *name)
{
  begin_inside (json, name, '[');
}

void
cro_json_end_array (CroJson *json)
{
  end_inside (json, ']');
}

void
cro_json_text (CroJson    *json,
               const char *name,
               const char *text)
{
  begin_value (json, name);
  if (text != NULL)
    append_quoted (json, text);
  else
    append_string (json, "null");
}

static void
note_not_finite (CroJson    *self,
                 const char *name)
{
  if (self->not_finite == NULL && name != NULL)
    self->not_finite = g_strdup (name);
}

void
cro_json_number (CroJson    *json,
                 const char *name,
                 double      value,
                 gboolean    known)
{
  begin_value (json, name);
  if (!known)
    append_string (json, "null");
  else if (isfinite (value))
    append_number (json, value);
  else
    {
      append_string (json, "null");
      note_not_finite (json, name != NULL ? name : "");
    }
}

void
cro_json_boolean (CroJson    *json,
                  const char *name,
                  gboolean    value)
{
  begin_value (json, name);
  append_string (json, value ? "true" : "false");
}

static void
swap_texts (CroJson *a,
            CroJson *b)
{
  CroJson of_a = *a;

  a->text = b->text;
  a->length = b->length;
  a->room = b->room;
  b->text = of_a.text;
  b->length = of_a.length;
  b->room = of_a.room;
}

void
cro_json_add_piece (CroJson *self,
                    CroJson *piece)
{
  g_return_if_fail (self->depth == piece->depth);

  forget_taken (self);
  if (piece->length > 0)
    {
      gsize skipped = self->is_first ? 1 : 0;

      if (self->length == 0 && skipped == 0)
        swap_texts (self, piece);
      else
        append (self, piece->text + skipped, piece->length - skipped);
      self->is_first = FALSE;
    }
  note_not_finite (self, piece->not_finite);
  g_clear_pointer (&piece->not_finite, g_free);
  piece->length = 0;
}

const char *
cro_json_take (CroJson *self,
               gsize   *length)
{
  forget_taken (self);
  self->is_taken = TRUE;
  *length = self->length;
  append_char (self, '\0');
  self->length--;
  return self->text;
}

char *
cro_json_print (CroJson  *json,
                GError  **error)
{
  char *text;

  g_return_val_if_fail (json->depth == 0, NULL);

  if (json->not_finite != NULL)
    {
      g_set_error (error,
                   CRO_JSON_ERROR,
                   CRO_JSON_ERROR_NOT_FINITE,
                   "not a finite number: %s",
                   json->not_finite);
      return NULL;
    }
  append_char (json, '\n');
  text = g_strndup (json->text, json->length);
  json->length--;
  return text;
}
