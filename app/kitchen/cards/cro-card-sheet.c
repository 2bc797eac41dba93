#include "config.h"

#include "cro-card-sheet.h"

#include <glib/gi18n.h>

#include "cro-card-words.h"
#include "cro-figure-words.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-photo.h"
#include "cro-plate-picture.h"

CroBreakdown *
cro_card_breakdown (CroFigures *figures,
                    CroRef      thing)
{
  if (thing.kind == CRO_REF_MENU)
    return cro_breakdown_of_menu (figures, thing.slot);
  return cro_model_recipe (figures->model, thing.slot)->is_plate
             ? cro_breakdown_of_plate (figures, thing.slot)
             : cro_breakdown_of_batch (figures, thing.slot);
}

char *
cro_card_dup_cost (CroFigures      *figures,
                   CroRef           thing,
                   const CroFigure *figure)
{
  gboolean is_batch = thing.kind == CRO_REF_RECIPE && !cro_model_recipe (figures->model, thing.slot)->is_plate;

  return is_batch ? cro_words_known_money (figures->model, cro_known_of_recipe (figures, thing.slot), figure->cost)
                  : cro_words_cost (figures->model, figure);
}

const char *
cro_card_table (CroModel *model,
                CroRef    thing,
                gint64   *id)
{
  const CroRecipe *recipe;

  if (thing.kind == CRO_REF_MENU)
    {
      *id = cro_model_menu (model, thing.slot)->id;
      return "menu";
    }
  recipe = cro_model_recipe (model, thing.slot);
  *id = recipe->id;
  return recipe->is_plate ? "plate" : "preparation";
}

char *
cro_card_dup_note (CroBook    *book,
                   const char *table,
                   gint64      id)
{
  static const char *const columns[] = { "note", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), table, id, columns, NULL);
  const char *note = rows != NULL && cro_rows_next (rows, NULL) ? cro_rows_get_text (rows, 0) : NULL;

  return note != NULL && *note != '\0' ? g_strdup (note) : NULL;
}

#define MM (72 / 25.4)
#define PICTURE_WIDTH (60 * MM)
#define PICTURE_HEIGHT (45 * MM)
#define LEAST_PICTURE_HEIGHT (29 * MM)   /* where that saves a page */

typedef struct
{
  cairo_surface_t *photo;
  gboolean         rtl;
} Picture;

static void
draw_picture (cairo_t  *cairo,
              double    width,
              double    height,
              gpointer  user_data)
{
  const Picture *picture = user_data;

  cro_photo_draw (picture->photo, cairo, width, height, !picture->rtl);
}

static void
picture_free (gpointer data)
{
  Picture *picture = data;

  cro_photo_free (picture->photo);
  g_free (picture);
}

/* A card does without a picture that is damaged. */
gboolean
cro_card_begin_beside (CroPaper *paper,
                       CroBook  *book,
                       CroRef    thing,
                       gboolean  rtl)
{
  gint64 id;
  const char *table = cro_card_table (cro_book_get_model (book), thing, &id);
  g_autofree char *name = thing.kind == CRO_REF_RECIPE
                              ? cro_plate_picture_dup_name (book, table, id)
                              : NULL;
  cairo_surface_t *photo = name != NULL ? cro_plate_picture_open (book, name, NULL) : NULL;
  Picture *picture;

  if (photo == NULL)
    return FALSE;
  picture = g_new (Picture, 1);
  *picture = (Picture){ photo, rtl };
  cro_paper_begin_beside (paper, PICTURE_WIDTH, LEAST_PICTURE_HEIGHT, PICTURE_HEIGHT, draw_picture, picture,
                          picture_free);
  return TRUE;
}

void
cro_card_add_pair (CroPaper   *paper,
                   unsigned    look,
                   const char *start,
                   const char *end)
{
  static const CroPaperColumn columns[] = { { .share = 1 }, { .is_number = TRUE } };
  const char *texts[] = { start, end };

  cro_paper_add_row (paper, cro_paper_add_grid (paper, columns, G_N_ELEMENTS (columns)), look, 0,
                     texts);
}

void
cro_card_add_texts (CroPaper  *paper,
                    unsigned   look,
                    GPtrArray *texts)
{
  for (guint i = 0; i < texts->len; i++)
    {
      cro_paper_begin_block (paper);
      cro_paper_add_text (paper, look, 0, texts->pdata[i]);
    }
}

void
cro_card_add_trial (CroPaper *paper,
                    CroBook  *book)
{
  if (cro_book_get_tried (book) != NULL)
    cro_paper_add_text (paper, CRO_PAPER_BOLD, 0, _("A trial: nothing here is kept in the book"));
}

/* What the book is called, or its file. */
static char *
dup_name (CroBook *book)
{
  const char *name = cro_book_get_model (book)->name;

  return name != NULL && *name != '\0' ? g_strdup (name)
                                       : g_path_get_basename (cro_store_get_path (cro_book_get_store (book)));
}

void
cro_card_set_file_foot (CroPaper *paper,
                        CroBook  *book)
{
  g_autofree char *name = dup_name (book);
  g_autofree char *prices = cro_words_card_prices (book);
  /* Translators: at the foot of a page of a PDF: the book; “prices of 28 Nov 2026”. */
  g_autofree char *foot = cro_isolate_printf (_("%s · %s"), name, prices);

  cro_paper_set_foot (paper, foot);
}

void
cro_card_set_foot (CroPaper *paper,
                   CroBook  *book)
{
  g_autofree char *name = dup_name (book);
  g_autofree char *date = cro_date_to_text (cro_here_today ());
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *time = g_date_time_format (now, "%H:%M");
  g_autofree char *prices = cro_words_card_prices (book);
  /* Translators: at the foot of a printed page: the book; date and time of printing; “prices of
   * 28 Nov 2026”. */
  g_autofree char *foot = cro_isolate_printf (_("%s · printed %s %s · %s"), name, date, time, prices);

  cro_paper_set_foot (paper, foot);
}
