#include "cro-tongue.h"

#include <libintl.h>
#include <locale.h>

struct _CroTongue
{
  locale_t    locale;
  locale_t    before;
  char       *language;
  char       *wished;     /* what the environment wished for before */
  CroTongue  *outer;
};

static GPrivate in_use;

/* Catalogues are asked for in no locale that is called C: the other one has no customs either. */
static locale_t
plain_locale (const char *language)
{
  return newlocale (LC_ALL_MASK, language != NULL ? "C.UTF-8" : "C", (locale_t) 0);
}

/* What was found in one language is remembered for the locale, and another wish does not make it
 * forgotten; naming the domain does. */
static void
wish_for (const char *language)
{
  if (g_strcmp0 (g_getenv ("LANGUAGE"), language) == 0)
    return;
  if (language != NULL)
    g_setenv ("LANGUAGE", language, TRUE);
  else
    g_unsetenv ("LANGUAGE");
  textdomain (textdomain (NULL));
}

CroTongue *
cro_tongue_enter (const char *language)
{
  CroTongue *self = g_new0 (CroTongue, 1);

  self->locale = plain_locale (language);
  self->before = uselocale (self->locale);
  self->language = g_strdup (language);
  self->wished = g_strdup (g_getenv ("LANGUAGE"));
  self->outer = g_private_get (&in_use);
  if (language != NULL)
    wish_for (language);
  g_private_set (&in_use, self);
  return self;
}

void
cro_tongue_leave (CroTongue *self)
{
  if (self->language != NULL)
    wish_for (self->wished);
  g_private_set (&in_use, self->outer);
  uselocale (self->before);
  if (self->locale != (locale_t) 0)
    freelocale (self->locale);
  g_free (self->language);
  g_free (self->wished);
  g_free (self);
}

void
cro_tongue_settle (const char *language)
{
  if (language != NULL)
    wish_for (language);
}

const char *
cro_tongue_language (void)
{
  const CroTongue *self = g_private_get (&in_use);

  if (self == NULL)
    return g_get_language_names ()[0];
  return self->language != NULL ? self->language : "en";
}

const char *
cro_tongue_locale (void)
{
  const CroTongue *self = g_private_get (&in_use);

  if (self == NULL)
    return NULL;
  return self->language != NULL ? self->language : "C";
}
