#include "config.h"

#include "cro-office-moves.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-kind.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-office-mark.h"
#include "cro-price-index.h"
#include "cro-price-moves.h"
#include "cro-sheets-file.h"
#include "cro-tongue.h"
#include "cro-words-price.h"
#include "cro-words.h"

typedef struct
{
  CroSheetsFile *file;
  CroBook       *book;
  CroModel      *model;
  CroPriceMoves *moves;
  GArray        *indices;   /* CroPriceIndex */
  char          *period;    /* "2026-10-31 – 2026-11-28" */
} Writing;

/* --- Cells ------------------------------------------------------------------------------------- */

/* With no more decimals than anybody reads. */
static void
add_number (Writing *self,
            char     column,
            double   value,
            double   part)
{
  cro_sheets_file_number (self->file, column, CRO_CELL_LOOK_NUMBER, round (value * part) / part);
}

/* Rounded once, as it is shown. */
static void
add_money (Writing *self,
           char     column,
           double   money)
{
  int digits = cro_currency_digits (self->model->currency);
  double rounded = isnan (money) ? NAN : (double) cro_money_round (money, digits) / pow (10, digits);

  cro_sheets_file_number (self->file, column, CRO_CELL_LOOK_MONEY, rounded);
}

static void
add_text (Writing    *self,
          char        column,
          const char *text)
{
  if (text != NULL)
    cro_sheets_file_text (self->file, column, CRO_CELL_LOOK_PLAIN, text);
}

static void
add_top (Writing           *self,
         const char        *name,
         const char        *note,
         const char *const *heads)
{
  cro_sheets_file_add_sheet (self->file, name);
  cro_sheets_file_text (self->file, 'A', CRO_CELL_LOOK_TITLE, name);
  cro_sheets_file_next_row (self->file);
  cro_sheets_file_text (self->file, 'A', CRO_CELL_LOOK_NOTE, self->period);
  cro_sheets_file_next_row (self->file);
  cro_sheets_file_text (self->file, 'A', CRO_CELL_LOOK_NOTE, note);
  cro_sheets_file_next_row (self->file);
  cro_sheets_file_next_row (self->file);
  for (char column = 'A'; *heads != NULL; heads++, column++)
    cro_sheets_file_text (self->file, column, CRO_CELL_LOOK_HEAD, *heads);
  cro_sheets_file_mark_head (self->file);
  cro_sheets_file_next_row (self->file);
}

/* --- Sheets ------------------------------------------------------------------------------------ */

/* Prices are named per kg, l or piece. */
static CroUnit
unit_of (CroBase base)
{
  return base == CRO_BASE_GRAM ? CRO_UNIT_KG : base == CRO_BASE_MILLILITRE ? CRO_UNIT_L : CRO_UNIT_EACH;
}

/* Since when the price serves, and whether that is long. */
static void
add_age (Writing *self,
         guint32  item)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  CroDate from = cro_kind_price_from (figures, CRO_KIND_INGREDIENT, item);
  char date[CRO_DATE_CHARS];

  if (from == CRO_NO_DATE)
    return;
  cro_date_format (from, date);
  add_text (self, 'I', date);
  if (cro_kind_is_price_old (figures, item, cro_kind_old_days (self->model)))
    /* Translators: in a table: a price is older than the book allows, or than 30 days. */
    add_text (self, 'J', C_("price", "old"));
}

/* Of what is added, or NaN where nothing of it is known, as the table of the window has it. */
static CroKnown
known_of (double   *money,
          CroKnown  known)
{
  if (known != CRO_KNOWN_WHOLE && (isnan (*money) || *money == 0))
    {
      *money = NAN;
      return CRO_KNOWN_NOTHING;
    }
  return known;
}

static void
write_items (Writing *self)
{
  const char *heads[] = { _("Ingredient"), _("Unit"), _("Before"), _("Now"), _("Change %"), _("Bought"),
                          _("Share of purchases %"), _("Effect, 28 days"), _("Price from"), _("Old price"),
                          /* Translators: heads "at least", "at most" and "?" beside a figure. */
                          _("Effect known"), NULL };

  g_autofree char *note = cro_words_moved_prices (self->book);

  add_top (self, _("Ingredients"), note, heads);
  for (guint i = 0; i < self->moves->items->len; i++)
    {
      const CroPriceMove *move = &g_array_index (self->moves->items, CroPriceMove, i);
      CroUnit unit = unit_of ((CroBase) self->model->measures[move->item].base);
      double factor = cro_unit_factor (unit), effect = move->money;
      CroKnown known = known_of (&effect, move->known);

      add_text (self, 'A', cro_model_item (self->model, move->item)->name);
      add_text (self, 'B', cro_words_unit (unit));
      add_number (self, 'C', move->before * factor, 1e4);
      add_number (self, 'D', move->now * factor, 1e4);
      add_number (self, 'E', move->change_pct, 10);
      add_money (self, 'F', move->bought);
      add_number (self, 'G', move->share_pct, 10);
      add_money (self, 'H', effect);
      add_age (self, move->item);
      add_text (self, 'K', cro_office_mark (known));
      cro_sheets_file_next_row (self->file);
    }
}

/* As made today, at the prices of both days. */
static void
add_target (Writing            *self,
            const CroThingMove *move)
{
  double before = move->now.net_price > 0 ? (move->now.cost - move->added) / move->now.net_price * 100 : NAN;

  if (cro_known_of_cost (&move->now) != CRO_KNOWN_NOTHING)
    {
      add_number (self, 'I', before, 10);
      add_number (self, 'J', move->now.food_cost_pct, 10);
    }
  add_number (self, 'K', move->now.target_pct, 1e4);
  if (move->now.is_over_target)
    add_text (self, 'L', before > move->now.target_pct * (1 + CRO_ALLOWED) ? C_("target", "over before too")
                                                                           : C_("target", "went over"));
}

static void
write_things (Writing *self)
{
  const char *heads[] = { _("Plate or menu"), _("Before"), _("Now"), _("Added per guest"), _("Sold, 28 days"),
                          _("Effect, 28 days"), _("Mostly through"), _("Known"), _("Food cost % before"),
                          _("Food cost %"), _("Target %"), _("Over target"), _("Effect known"), NULL };

  g_autofree char *note = cro_words_moved_things (self->book);

  add_top (self, _("Plates and menus"), note, heads);
  for (guint i = 0; i < self->moves->things->len; i++)
    {
      const CroThingMove *move = &g_array_index (self->moves->things, CroThingMove, i);
      CroKnown of_cost = cro_known_of_cost (&move->now), known;
      double added = move->added, effect = move->money;

      known = known_of (&added, move->known);
      known_of (&effect, move->sold > 0 ? move->known : CRO_KNOWN_WHOLE);
      add_text (self, 'A', move->now.name);
      if (of_cost != CRO_KNOWN_NOTHING)
        {
          add_money (self, 'B', move->now.cost - move->added);
          add_money (self, 'C', move->now.cost);
        }
      add_number (self, 'D', added, 1e4);
      cro_sheets_file_number (self->file, 'E', CRO_CELL_LOOK_NUMBER, move->sold);
      add_money (self, 'F', effect);
      if (move->through != CRO_NO_SLOT)
        add_text (self, 'G', cro_model_item (self->model, move->through)->name);
      add_text (self, 'H', cro_office_mark (of_cost));
      add_target (self, move);
      add_text (self, 'M', cro_office_mark (known));
      cro_sheets_file_next_row (self->file);
    }
}

static void
write_indices (Writing *self)
{
  const char *heads[] = { _("Category"), _("Ingredients"), _("Index"), _("100 on"), _("Bought"),
                          _("Share of purchases %"),
                          /* Translators: how many ingredients of a category a price index is made of. */
                          _("In the index"), _("Known"), NULL };

  add_top (self, _("Categories"), cro_words_price_index (), heads);
  for (guint i = 0; i < self->indices->len; i++)
    {
      const CroPriceIndex *index = &g_array_index (self->indices, CroPriceIndex, i);
      char since[CRO_DATE_CHARS];

      add_text (self, 'A', i == 0                    ? _("All ingredients")
                           : index->category != NULL ? index->category
                                                     : _("No category"));
      cro_sheets_file_number (self->file, 'B', CRO_CELL_LOOK_COUNT, index->n);
      add_number (self, 'C', index->index, 10);
      cro_date_format (index->since, since);
      if (!isnan (index->index))
        add_text (self, 'D', since);
      add_money (self, 'E', index->bought);
      add_number (self, 'F', index->share_pct, 10);
      cro_sheets_file_number (self->file, 'G', CRO_CELL_LOOK_COUNT, index->n_in);
      add_text (self, 'H', index->is_open ? _("?") : NULL);
      cro_sheets_file_next_row (self->file);
    }
}

/* --- The file ---------------------------------------------------------------------------------- */

static char *
dup_period (const CroPriceMoves *moves)
{
  char from[CRO_DATE_CHARS], to[CRO_DATE_CHARS];

  cro_date_format (moves->from, from);
  cro_date_format (moves->to, to);
  return g_strdup_printf ("%s – %s", from, to);
}

gboolean
cro_office_write_moves (CroBook     *book,
                        CroDate      since,
                        const char  *path,
                        const char  *language,
                        GError     **error)
{
  CroModel *model = cro_book_get_model (book);
  gboolean is_translated = language != NULL && !g_str_equal (language, "en");
  g_autoptr (CroTongue) tongue = cro_tongue_enter (is_translated ? language : NULL);
  g_autoptr (CroPricePast) past = cro_price_past_new (book, error);
  g_autoptr (CroPriceMoves) moves = past != NULL ? cro_price_moves_new (book, past, since, error) : NULL;
  g_autoptr (GArray) indices = moves != NULL ? cro_price_indices_new (book, past, since, error) : NULL;
  g_autofree char *period = moves != NULL ? dup_period (moves) : NULL;
  Writing self = { NULL, book, model, moves, indices, period };

  if (indices == NULL)
    return FALSE;
  self.file = cro_sheets_file_new (path, _("Price movements"), cro_date_to_seconds (moves->to),
                                   cro_currency_digits (model->currency),
                                   cro_currency_uses_letter (model->currency), error);
  if (self.file == NULL)
    return FALSE;
  write_items (&self);
  write_things (&self);
  write_indices (&self);
  return cro_sheets_file_finish (self.file, error);
}
