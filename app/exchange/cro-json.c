#include "cro-json.h"

#include <math.h>

struct _CroJson
{
  GString  *text;
  guint     depth;
  gboolean  is_first;    /* nothing stands yet in the innermost object or array */
  char     *not_finite;  /* the name of the first such number */
};

G_DEFINE_QUARK (cro-json-error-quark, cro_json_error)

static void
append_line_end (CroJson *self)
{
  g_string_append_c (self->text, '\n');
  for (guint i = 0; i < self->depth; i++)
    g_string_append (self->text, "  ");
}

/* RFC 8259, 7: quotes, backslashes and control characters are escaped; all else may stand. */
static void
append_quoted (CroJson    *self,
               const char *text)
{
  g_string_append_c (self->text, '"');
  for (; *text != '\0'; text++)
    if (*text == '"' || *text == '\\')
      g_string_append_printf (self->text, "\\%c", *text);
    else if (*text == '\n')
      g_string_append (self->text, "\\n");
    else if ((guchar) *text < 0x20)
      g_string_append_printf (self->text, "\\u%04x", (guint) *text);
    else
      g_string_append_c (self->text, *text);
  g_string_append_c (self->text, '"');
}

static void
append_number (CroJson *self,
               double   value)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (digits, sizeof digits, "%.15g", value);
  if (g_ascii_strtod (digits, NULL) != value)
    g_ascii_formatd (digits, sizeof digits, "%.16g", value);
  if (g_ascii_strtod (digits, NULL) != value)
    g_ascii_formatd (digits, sizeof digits, "%.17g", value);
  g_string_append (self->text, digits);
}

static void
begin_value (CroJson    *self,
             const char *name)
{
  if (!self->is_first)
    g_string_append_c (self->text, ',');
  if (self->depth > 0)
    append_line_end (self);
  if (name != NULL)
    {
      append_quoted (self, name);
      g_string_append (self->text, ": ");
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
  else if (json->not_finite == NULL)
    json->not_finite = g_strdup (name != NULL ? name : "");
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
