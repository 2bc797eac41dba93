#include "config.h"

#include "cro-cards.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "cro-card-sheet.h"
#include "cro-cost-card.h"
#include "cro-finite.h"
#include "cro-isolate.h"
#include "cro-kitchen-card.h"
#include "cro-landing.h"
#include "cro-number.h"
#include "cro-pdf.h"
#include "cro-tongue.h"
#include "cro-whole-file.h"
#include "cro-words.h"

G_DEFINE_QUARK (cro-cards-error-quark, cro_cards_error)

const CroPaperSize *
cro_cards_size (CroBook *book)
{
  return cro_currency_uses_letter (cro_book_get_model (book)->currency) ? &cro_paper_letter
                                                                        : &cro_paper_a4;
}

char *
cro_cards_error_words (const GError *error)
{
  if (g_error_matches (error, CRO_CARDS_ERROR, CRO_CARDS_ERROR_CANCELLED))
    return g_strdup (_("stopped; only cards that were whole already are kept"));
  if (g_error_matches (error, CRO_CARDS_ERROR, CRO_CARDS_ERROR_TOO_LARGE))
    /* Translators: the name of a plate. */
    return cro_isolate_printf (_("“%s” has a figure too large to show; check the amounts and yields of "
                                 "its lines, and of the preparations in it"),
                               error->message);
  return cro_words_error (error);
}

/* The name of a thing with a figure that cannot be stated; NULL: all can. */
static const char *
find_too_large (CroFigures *figures,
                CroRef      thing)
{
  g_autoptr (GArray) one = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (guint32));
  double most = cro_money_most (cro_currency_digits (figures->model->currency));
  const CroRecipe *recipe;

  g_array_append_val (one, thing.slot);
  if (thing.kind == CRO_REF_MENU)
    return cro_finite_find_plate (figures, none, one);
  recipe = cro_model_recipe (figures->model, thing.slot);
  if (recipe->is_plate)
    return cro_finite_find_plate (figures, one, none);
  return fabs (cro_landing_total (figures, thing.slot)) <= most ? NULL : recipe->name;
}

CroPaper *
cro_card_paper (CroBook            *book,
                CroRef              thing,
                const CroCardWish  *wish,
                GError            **error)
{
  CroFigures *figures = cro_book_get_figures (book);
  const char *name = find_too_large (figures, thing);
  CroPaper *paper = NULL;
  g_autoptr (GError) failed = NULL;

  if (name == NULL && !wish->is_kitchen)
    return cro_cost_card_new (book, thing, wish->is_rtl);
  if (name == NULL)
    paper = cro_kitchen_card_new (book, thing, wish->bites, wish->with_money, wish->is_rtl, &failed);
  if (failed != NULL)
    g_propagate_error (error, g_steal_pointer (&failed));
  else if (paper == NULL)
    g_set_error_literal (error, CRO_CARDS_ERROR, CRO_CARDS_ERROR_TOO_LARGE,
                         name != NULL ? name : cro_ref_name (figures->model, thing));
  return paper;
}

/* Nothing that a file system, or another one that files are copied to, takes for something else. */
char *
cro_card_dup_file (CroBook           *book,
                   CroRef             thing,
                   const CroCardWish *wish)
{
  g_autofree char *name = g_strdup (cro_ref_name (cro_book_get_model (book), thing));

  g_strdelimit (name, "/\\:*?\"<>|", '-');
  if (*name == '.')
    *name = '-';
  /* Longer names are cut at a character: a file's may have 255 bytes. */
  if (strlen (name) > 200)
    {
      char *end = g_utf8_find_prev_char (name, name + 200);

      *end = '\0';
    }
  return wish->is_kitchen
             /* Translators: a file of a kitchen card: the name of a plate. */
             ? g_strdup_printf (_("%s, kitchen card.pdf"), name)
             /* Translators: a file of a cost card: the name of a plate. */
             : g_strdup_printf (_("%s, cost card.pdf"), name);
}

static gboolean
goes_on (CroCardsGoOn   go_on,
         gpointer       user_data,
         double         done,
         GError       **error)
{
  if (go_on == NULL || go_on (user_data, done))
    return TRUE;
  g_set_error_literal (error, CRO_CARDS_ERROR, CRO_CARDS_ERROR_CANCELLED, "cancelled");
  return FALSE;
}

static CroTongue *
tongue_of (const char *language)
{
  return language != NULL ? cro_tongue_enter (g_str_equal (language, "en") ? NULL : language) : NULL;
}

static const char *
title_of (CroBook *book,
          GArray  *things)
{
  CroModel *model = cro_book_get_model (book);

  return things->len == 1 ? cro_ref_name (model, g_array_index (things, CroRef, 0)) : model->name;
}

static gboolean
add_cards (CroPdf             *pdf,
           CroBook            *book,
           GArray             *things,
           const CroCardWish  *wish,
           CroCardsGoOn        go_on,
           gpointer            user_data,
           GError            **error)
{
  for (guint i = 0; i < things->len; i++)
    {
      g_autoptr (CroPaper) paper = NULL;

      if (!goes_on (go_on, user_data, (double) i / things->len, error))
        return FALSE;
      paper = cro_card_paper (book, g_array_index (things, CroRef, i), wish, error);
      if (paper == NULL)
        return FALSE;
      cro_card_set_file_foot (paper, book);
      cro_pdf_add (pdf, paper);
    }
  return goes_on (go_on, user_data, 1, error);
}

static gboolean
write_file (CroBook            *book,
            GArray             *things,
            const CroCardWish  *wish,
            const char         *path,
            CroCardsGoOn        go_on,
            gpointer            user_data,
            GError            **error)
{
  g_autoptr (CroWholeFile) file = cro_whole_file_new (path, error);
  const char *title = title_of (book, things);
  g_autoptr (CroPdf) pdf = NULL;

  if (file == NULL)
    return FALSE;
  pdf = cro_pdf_new (cro_whole_file_get_path (file), wish->size, title != NULL ? title : "",
                     cro_date_to_seconds (cro_book_get_figures (book)->date));
  return add_cards (pdf, book, things, wish, go_on, user_data, error) && cro_pdf_finish (pdf, error)
         && cro_whole_file_finish (file, error);
}

gboolean
cro_cards_write_file (CroBook            *book,
                      GArray             *things,
                      const CroCardWish  *wish,
                      const char         *path,
                      const char         *language,
                      CroCardsGoOn        go_on,
                      gpointer            user_data,
                      GError            **error)
{
  g_autoptr (CroTongue) tongue = tongue_of (language);

  return write_file (book, things, wish, path, go_on, user_data, error);
}

/* --- Folders ------------------------------------------------------------------------------------ */

struct _CroCardFolder
{
  CroBook     *book;      /* borrowed */
  GArray      *things;    /* CroRef */
  CroCardWish  wish;
  char        *folder;
  GHashTable  *taken;     /* names of files, folded → as they are */
  guint        next;
};

CroCardFolder *
cro_card_folder_new (CroBook            *book,
                     GArray             *things,
                     const CroCardWish  *wish,
                     const char         *folder,
                     GError            **error)
{
  CroCardFolder *self;

  if (g_mkdir_with_parents (folder, 0777) != 0)
    {
      g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (errno), g_strerror (errno));
      return NULL;
    }
  self = g_new0 (CroCardFolder, 1);
  self->book = book;
  self->things = g_array_copy (things);
  self->wish = *wish;
  self->folder = g_strdup (folder);
  self->taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  return self;
}

void
cro_card_folder_free (CroCardFolder *self)
{
  g_array_unref (self->things);
  g_free (self->folder);
  g_hash_table_unref (self->taken);
  g_free (self);
}

/* Two things may share a name, or differ in what a file system does not tell apart. Owned by taken. */
static const char *
free_name (CroCardFolder *self,
           CroRef         thing)
{
  char *name = cro_card_dup_file (self->book, thing, &self->wish);
  g_autofree char *first = g_strndup (name, strlen (name) - strlen (".pdf"));
  char *folded = g_utf8_casefold (name, -1);

  for (guint n = 2; g_hash_table_contains (self->taken, folded); n++)
    {
      g_free (name);
      g_free (folded);
      name = g_strdup_printf ("%s %u.pdf", first, n);
      folded = g_utf8_casefold (name, -1);
    }
  g_hash_table_insert (self->taken, folded, name);
  return name;
}

gboolean
cro_card_folder_step (CroCardFolder  *self,
                      GError        **error)
{
  g_autoptr (GArray) alone = g_array_new (FALSE, FALSE, sizeof (CroRef));
  g_autofree char *path = NULL;
  CroRef thing;

  if (self->next >= self->things->len)
    return FALSE;
  thing = g_array_index (self->things, CroRef, self->next++);
  path = g_build_filename (self->folder, free_name (self, thing), NULL);
  g_array_append_val (alone, thing);
  return write_file (self->book, alone, &self->wish, path, NULL, NULL, error);
}

double
cro_card_folder_done (const CroCardFolder *self)
{
  return self->things->len > 0 ? (double) self->next / self->things->len : 1;
}

gboolean
cro_cards_write_folder (CroBook            *book,
                        GArray             *things,
                        const CroCardWish  *wish,
                        const char         *folder,
                        const char         *language,
                        CroCardsGoOn        go_on,
                        gpointer            user_data,
                        guint              *n_written,
                        GError            **error)
{
  g_autoptr (CroTongue) tongue = tongue_of (language);
  g_autoptr (CroCardFolder) cards = cro_card_folder_new (book, things, wish, folder, error);
  g_autoptr (GError) failed = NULL;

  *n_written = 0;
  if (cards == NULL)
    return FALSE;
  do
    {
      *n_written = cards->next;
      if (!goes_on (go_on, user_data, cro_card_folder_done (cards), error))
        return FALSE;
    }
  while (cro_card_folder_step (cards, &failed));
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&failed));
  return FALSE;
}
