#include "cro-formula.h"

#include <string.h>

static void
append_text (CroFormula *self,
             const char *text)
{
  gsize n = strlen (text);

  g_assert (self->length + n < sizeof self->text);
  memcpy (self->text + self->length, text, n);
  self->length += n;
}

static void
append_row (CroFormula *self,
            guint32     row)
{
  char digits[16];
  char *p = digits + sizeof digits - 1;

  *p = '\0';
  do
    *--p = (char) ('0' + row % 10);
  while ((row /= 10) > 0);
  append_text (self, p);
}

static void
append_place (CroFormula     *self,
              const CroPlace *place)
{
  if (place->sheet != NULL)
    append_text (self, place->sheet);
  append_text (self, place->column);
  append_row (self, place->row);
}

const char *
cro_formula_set (CroFormula     *self,
                 const char     *template,
                 guint32         row,
                 guint32         from,
                 guint32         to,
                 const CroPlace *places)
{
  self->length = 0;
  for (const char *p = template; *p != '\0'; p++)
    switch (*p)
      {
      case '#':
        append_row (self, row);
        break;
      case '{':
        append_row (self, from);
        break;
      case '}':
        append_row (self, to);
        break;
      case '@':
        append_place (self, places++);
        break;
      default:
        self->text[self->length++] = *p;
        g_assert (self->length < sizeof self->text);
      }
  self->text[self->length] = '\0';
  return self->text;
}

const char *
cro_formula_set_place (CroFormula     *self,
                       const CroPlace *place)
{
  self->length = 0;
  append_text (self, "=");
  append_text (self, place->sheet);
  append_text (self, "$");
  append_text (self, place->column);
  append_text (self, "$");
  append_row (self, place->row);
  self->text[self->length] = '\0';
  return self->text;
}
