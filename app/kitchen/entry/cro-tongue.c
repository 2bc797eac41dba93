#include "cro-tongue.h"

#include <glib/gstdio.h>
#include <libintl.h>
#include <locale.h>
#include <string.h>
#include <unistd.h>

struct _CroTongue
{
  locale_t    locale;
  locale_t    before;
  char       *language;
  char       *wished;     /* what the environment wished for before */
  CroTongue  *outer;
};

static GPrivate in_use;

/* The locale without customs, under a name that does not begin with C: glibc asks for catalogues in no
 * other. Every machine has it, and no second one is certain to be there. */
static locale_t
load_named (void)
{
  static const char name[] = "plain";
  locale_t plain = newlocale (LC_ALL_MASK, "C.UTF-8", (locale_t) 0), named = (locale_t) 0;
  g_autofree char *folder = g_dir_make_tmp ("croustade-XXXXXX", NULL);
  g_autofree char *link = folder != NULL ? g_build_filename (folder, name, NULL) : NULL;
  g_autofree char *before = g_strdup (g_getenv ("LOCPATH"));

  if (link != NULL && symlink ("/usr/lib/locale/C.utf8", link) == 0)
    {
      g_setenv ("LOCPATH", folder, TRUE);
      named = newlocale (LC_MESSAGES_MASK, name, plain);
      if (before != NULL)
        g_setenv ("LOCPATH", before, TRUE);
      else
        g_unsetenv ("LOCPATH");
      g_unlink (link);
    }
  if (folder != NULL)
    g_rmdir (folder);
  /* Until glibc 2.39 this one was asked, too. */
  return named != (locale_t) 0 ? named : plain;
}

static locale_t
plain_locale (const char *language)
{
  static locale_t named;

  if (language == NULL)
    return newlocale (LC_ALL_MASK, "C", (locale_t) 0);
  if (named == (locale_t) 0)
    named = load_named ();
  return named != (locale_t) 0 ? duplocale (named) : (locale_t) 0;
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
  locale_t locale;

  if (language == NULL)
    return;
  wish_for (language);
  locale = plain_locale (language);
  if (locale != (locale_t) 0)
    freelocale (locale);
}

const char *
cro_tongue_language (void)
{
  const CroTongue *self = g_private_get (&in_use);

  if (self == NULL)
    return g_get_language_names ()[0];
  return self->language != NULL ? self->language : "en";
}

/* The head of a catalogue is what it translates nothing into. */
const char *
cro_tongue_spoken (void)
{
  static const char nothing[] = "", says[] = "\nLanguage: ";
  const char *head = gettext (nothing), *language = strstr (head, says);
  char code[16];

  if (language == NULL)
    return "en";
  language += strlen (says);
  g_strlcpy (code, language, MIN (sizeof code, strcspn (language, "\n") + 1));
  return g_intern_string (code);
}

const char *
cro_tongue_locale (void)
{
  const CroTongue *self = g_private_get (&in_use);

  if (self == NULL)
    return NULL;
  return self->language != NULL ? self->language : "C";
}
