#include "cro-json.h"

#include "cro-digits.h"

#include <math.h>

struct _CroJson
{
  GString  *text;
  guint     depth;
  gboolean  is_first;    /* nothing stands yet in the innermost object or array */
  gboolean  is_taken;    /* what stands in text was handed on */
  char     *not_finite;  /* the name of the first such number */
};

G_DEFINE_QUARK (cro-json-error-quark, cro_json_error)

static void
append_line_end (CroJson *self)
{
  static const char indented[] = "\n                ";
  guint inside = 2 * self->depth;

  g_string_append_len (self->text, indented, (gssize) (1 + MIN (inside, sizeof indented - 2)));
  for (gsize i = sizeof indented - 2; i < inside; i++)
    g_string_append_c (self->text, ' ');
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
  g_string_append_c (self->text, '"');
  while (*text != '\0')
    {
      const char *from = text;

      while (may_stand (*text))
        text++;
      g_string_append_len (self->text, from, text - from);
      if (*text == '\0')
        break;
      if (*text == '"' || *text == '\\')
        g_string_append_printf (self->text, "\\%c", *text);
      else if (*text == '\n')
        g_string_append (self->text, "\\n");
      else
        g_string_append_printf (self->text, "\\u%04x", (guint) *text);
      text++;
    }
  g_string_append_c (self->text, '"');
}

static void
append_number (CroJson *self,
               double   value)
{
  char digits[CRO_DIGITS_CHARS];
  gsize length = cro_digits_print (value, digits);

  g_string_append_len (self->text, digits, (gssize) length);
}

/* What was handed on makes room once more is written. */
static inline void
forget_taken (CroJson *self)
{
  if (self->is_taken)
    g_string_truncate (self->text, 0);
  self->is_taken = FALSE;
}

static void
begin_value (CroJson    *self,
             const char *name)
{
  forget_taken (self);
  if (!self->is_first)
    g_string_append_c (self->text, ',');
  if (self->depth > 0)
    append_line_end (self);
  if (name != NULL)
    {
      append_quoted (self, name);
      g_string_append_len (self->text, ": ", 2);
    }
  self->is_first = FALSE;
}

static void
begin_inside (CroJson    *self,
              const char *name,
              char        bracket)
{
  begin_value (self, name);
  g_string_append_c (self->text, bracket);
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
  g_string_append_c (self->text, bracket);
  self->is_first = FALSE;
}

CroJson *
cro_json_new (void)
{
  CroJson *json = g_new0 (CroJson, 1);

  json->text = g_string_new (NULL);
  json->is_first = TRUE;
  return json;
}

CroJson *
cro_json_new_piece (guint depth)
{
  CroJson *json = cro_json_new ();

  json->depth = depth;
  return json;
}

void
cro_json_free (CroJson *json)
{
  g_string_free (json->text, TRUE);
  g_free (json->not_finite);
  g_free (json);
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
    g_string_append (json->text, "null");
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
    g_string_append (json->text, "null");
  else if (isfinite (value))
    append_number (json, value);
  else
    {
      g_string_append (json->text, "null");
      note_not_finite (json, name != NULL ? name : "");
    }
}

void
cro_json_boolean (CroJson    *json,
                  const char *name,
                  gboolean    value)
{
  begin_value (json, name);
  g_string_append (json->text, value ? "true" : "false");
}

void
cro_json_add_piece (CroJson *self,
                    CroJson *piece)
{
  g_return_if_fail (self->depth == piece->depth);

  forget_taken (self);
  if (piece->text->len > 0)
    {
      if (!self->is_first)
        g_string_append_c (self->text, ',');
      self->is_first = FALSE;
      g_string_append_len (self->text, piece->text->str, (gssize) piece->text->len);
    }
  note_not_finite (self, piece->not_finite);
  g_clear_pointer (&piece->not_finite, g_free);
  g_string_truncate (piece->text, 0);
  piece->is_first = TRUE;
}

const char *
cro_json_take (CroJson *self,
               gsize   *length)
{
  forget_taken (self);
  self->is_taken = TRUE;
  *length = self->text->len;
  return self->text->str;
}

char *
cro_json_print (CroJson  *json,
                GError  **error)
{
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
  return g_strconcat (json->text->str, "\n", NULL);
}
