#include "cro-paste.h"

#include <string.h>

#include "cro-fold.h"
#include "cro-name.h"
#include "cro-remark.h"
#include "cro-written.h"

/* Words from which a row without an amount is a sentence. */
#define LEAST_SENTENCE 5
#define SURE_SENTENCE 12
/* And of a step that has its number. */
#define LEAST_STEP 3
/* Words to which a row can be a heading. */
#define MOST_HEADING 7
/* And a line among the steps. */
#define MOST_IN_METHOD 4
/* Lines that stand in one row, at least. */
#define LEAST_PARTS 3

typedef struct
{
  CroModel            *model;
  const CroEntryWords *words;
  const char          *recipe;
  CroPaste            *paste;
  gboolean             is_method;   /* rows say how it is done */
  gboolean             is_begun;    /* a line was read, or left */
  guint                heading;
} Reader;

static void
row_clear (gpointer data)
{
  CroPasteRow *row = data;

  g_free (row->text);
  cro_quick_clear (&row->quick);
}

CroPasteRow *
cro_paste_get (const CroPaste *paste,
               guint           row)
{
  return &g_array_index (paste->rows, CroPasteRow, row);
}

void
cro_paste_clear (CroPaste *paste)
{
  g_clear_pointer (&paste->rows, g_array_unref);
  cro_title_clear (&paste->title);
}

/* --- Words ---------------------------------------------------------------------------------------- */

static gboolean
is_one_of (const char        *folded,
           const char *const *words)
{
  return g_strv_contains (words, folded);
}

static guint
n_words (const char *folded)
{
  guint n = *folded != '\0';

  for (; *folded != '\0'; folded++)
    n += *folded == ' ';
  return n;
}

static gboolean
has_digit (const char *text)
{
  return strpbrk (text, "0123456789") != NULL;
}

/* What people write over what is to be done, and over what goes in; folded. */
static const char *const methods[] = { "method", "directions", "instructions", "preparation", "procedure",
                                       "steps", "to make", "how to make", "methode", "realisation",
                                       "progression", "marche a suivre", "etapes", "technique", NULL };
static const char *const ingredients[] = { "ingredients", "ingredient list", "you need", "you will need",
                                           "mise en place", "denrees", "il faut", NULL };

/* A row without the signs of a heading around it. Owned. */
static char *
dup_bare (const char *text)
{
  g_autofree char *bare = g_strdup (text + strspn (text, "#*_ "));
  gsize length;

  g_strchomp (bare);
  for (length = strlen (bare); length > 0 && strchr (":*_# ", bare[length - 1]) != NULL; length--)
    bare[length - 1] = '\0';
  /* French has a space before its colon, which may be one that does not break. */
  return cro_name_dup_tidy (bare);
}

char *
cro_paste_dup_heading (const CroPaste *paste,
                       guint           row)
{
  return dup_bare (cro_paste_get (paste, row)->text);
}

/* "Method: melt the butter" begins the method, too. */
static gboolean
begins_method (const char *text)
{
  const char *colon = strchr (text, ':');
  g_autofree char *head = colon != NULL ? g_strndup (text, (gsize) (colon - text)) : NULL;
  g_autofree char *folded = head != NULL ? cro_fold (head) : NULL;

  return folded != NULL && is_one_of (folded, methods);
}

/* "Ingrédients (10 personnes) :", where that was said before. */
static gboolean
is_over_lines (const char *text)
{
  const char *bracket = strchr (text, '(');
  g_autofree char *head = bracket != NULL ? g_strndup (text, (gsize) (bracket - text)) : NULL;
  g_autofree char *folded = head != NULL ? cro_fold (head) : NULL;

  return folded != NULL && is_one_of (folded, ingredients);
}

static gboolean
starts_with_any (const char        *folded,
                 const char *const *starts)
{
  for (; *starts != NULL; starts++)
    if (g_str_has_prefix (folded, *starts))
      return TRUE;
  return FALSE;
}

/* "For the gel:", "## Gel", "Pour le bouillon"; not "for 24", which is a yield. */
static gboolean
is_heading (const char *text,
            const char *folded)
{
  static const char *const starts[] = { "for the ", "pour le ", "pour la ", "pour les ", "pour l ", NULL };

  if (has_digit (text) || n_words (folded) == 0 || n_words (folded) > MOST_HEADING)
    return FALSE;
  return *text == '#' || g_str_has_suffix (text, ":") || g_str_has_suffix (text, ":**")
         || (starts_with_any (folded, starts) && strpbrk (text, ".,;") == NULL);
}

/* What has no amount and says more than a name. */
static gboolean
is_sentence (const char     *text,
             const char     *folded,
             const CroQuick *quick)
{
  const char *bare = text + cro_written_scan_lead (text);
  gboolean is_step = bare > text && has_digit (text) && g_ascii_isdigit (*text);
  gboolean is_closed = *text != '\0' && strchr (".!", text[strlen (text) - 1]) != NULL;
  gint64 micro;

  if (g_ascii_isdigit (*bare) || (quick->has_amount && cro_written_scan_count (bare, &micro) > 0))
    return FALSE;
  return n_words (folded) >= SURE_SENTENCE || (is_closed && n_words (folded) >= LEAST_SENTENCE)
         || (is_step && !quick->has_amount && n_words (folded) > LEAST_STEP);
}

/* --- Rows ----------------------------------------------------------------------------------------- */

static gboolean
is_recipe (Reader     *self,
           const char *name)
{
  g_autofree char *folded = cro_fold (self->recipe);

  return cro_folds_to (name, folded);
}

/* "Buckwheat tuiles – 60 pieces" is a line everywhere but over the tuiles themselves. */
static void
read_own_line (Reader     *self,
               const char *text,
               CroTitle   *title)
{
  g_auto (CroQuick) quick = { 0 };

  if (!cro_quick_read (self->model, text, self->words, &quick) || !quick.has_amount
      || !is_recipe (self, quick.name))
    return;
  if (quick.unit == CRO_UNIT_EACH)
    title->makes = quick.amount;
  else
    {
      title->gives = quick.amount;
      title->gives_unit = quick.unit;
    }
}

/* "Serves 6, makes 1.8 litres, keeps well": what the parts of a row say of it. FALSE where the first is no yield, or
 * one of the others may be a line. */
static gboolean
read_yields (const char *text,
             CroTitle   *title)
{
  g_auto (GStrv) parts = g_regex_split_simple ("[,;/]\\s+|\\s+(?:and|et|soit)\\s+", text, 0, 0);

  *title = (CroTitle){ 0 };
  for (guint i = 0; parts[i] != NULL; i++)
    {
      g_auto (CroTitle) part = { 0 };
      gboolean is_yield = cro_title_read_yield (parts[i], &part);

      if (!is_yield && (i == 0 || has_digit (parts[i])))
        return FALSE;
      title->makes = title->makes > 0 ? title->makes : part.makes;
      if (title->gives > 0 || part.gives == 0)
        continue;
      title->gives = part.gives;
      title->gives_unit = part.gives_unit;
    }
  return title->makes > 0 || title->gives > 0;
}

/* Of portions and of an amount the first that is said of each. Whether there is one. */
static gboolean
keep_yields (CroTitle       *kept,
             const CroTitle *title)
{
  gboolean takes_makes = kept->makes == 0 && title->makes > 0, takes_gives = kept->gives == 0 && title->gives > 0;

  if (takes_makes)
    kept->makes = title->makes;
  if (takes_gives)
    {
      kept->gives = title->gives;
      kept->gives_unit = title->gives_unit;
    }
  return takes_makes || takes_gives;
}

/* "Serves 8", "Crab butter (makes 450 g)": before what goes in; a yield alone stands anywhere. */
static gboolean
take_title (Reader     *self,
            const char *text,
            gboolean   *is_yield)
{
  g_auto (CroTitle) title = { 0 };
  g_autofree char *bare = dup_bare (text);
  CroTitle *kept = &self->paste->title;

  *is_yield = read_yields (bare, &title);
  if (*is_yield)
    return keep_yields (kept, &title);
  if (kept->makes > 0 || kept->gives > 0 || self->is_begun || g_ascii_isdigit (*bare))
    return FALSE;
  cro_title_read (bare, &title);
  if (title.makes == 0 && title.gives == 0)
    read_own_line (self, bare, &title);
  if (title.makes == 0 && title.gives == 0)
    return FALSE;
  cro_title_clear (kept);
  *kept = title;
  title = (CroTitle){ 0 };
  return TRUE;
}

static gboolean
is_yield_row (const char *text)
{
  g_auto (CroTitle) title = { 0 };
  g_autofree char *bare = dup_bare (text);

  return read_yields (bare, &title);
}

/* A name over all: the recipe's own, or one that stands apart from what goes in or over what the recipe makes. */
static gboolean
is_name_over_all (Reader     *self,
                  const char *text,
                  const char *next)
{
  g_autofree char *bare = dup_bare (text);

  return !self->is_begun && self->paste->rows->len == 0 && !has_digit (text)
         && (is_recipe (self, bare) || (next != NULL && (*next == '\0' || is_yield_row (next))));
}

static gboolean
goes_on (Reader     *self,
         const char *text)
{
  guint n = self->paste->rows->len;

  return n > 0 && cro_paste_get (self->paste, n - 1)->kind == CRO_PASTE_NOTE
         && g_unichar_islower (g_utf8_get_char (text));
}

static CroPasteKind
kind_of_heading (Reader     *self,
                 const char *folded)
{
  self->is_method = is_one_of (folded, methods);
  self->heading = G_MAXUINT;
  if (self->is_method || is_one_of (folded, ingredients))
    return CRO_PASTE_NOTHING;
  self->heading = self->paste->rows->len;
  return CRO_PASTE_HEADING;
}

static CroPasteKind
kind_of_quick (Reader      *self,
               CroPasteRow *row,
               const char  *folded,
               const char  *next)
{
  gboolean is_sound = cro_quick_read (self->model, row->text, self->words, &row->quick);

  if (row->quick.fault == CRO_QUICK_EMPTY)
    return CRO_PASTE_NOTHING;
  if (is_sentence (row->text, folded, &row->quick))
    return CRO_PASTE_NOTE;
  if (is_sound && row->quick.has_amount)
    return CRO_PASTE_LINE;
  if (is_name_over_all (self, row->text, next))
    return CRO_PASTE_TITLE;
  return goes_on (self, row->text) ? CRO_PASTE_NOTE : CRO_PASTE_LEFT;
}

/* Below "Method" too an amount, a unit and a name stand alone only where something goes in: it is not lost
 * in a note, unseen. */
static CroPasteKind
kind_in_method (Reader      *self,
                CroPasteRow *row,
                const char  *folded)
{
  const char *bare = row->text + cro_written_scan_lead (row->text);
  gboolean is_step = bare > row->text && g_ascii_isdigit (*row->text);
  gunichar first = g_utf8_get_char (bare);
  gboolean is_sound;

  if (is_step || !(g_unichar_isdigit (first) || g_unichar_type (first) == G_UNICODE_OTHER_NUMBER)
      || n_words (folded) > MOST_IN_METHOD
      || g_str_has_suffix (row->text, "."))
    return CRO_PASTE_NOTE;
  is_sound = cro_quick_read (self->model, row->text, self->words, &row->quick);
  if (is_sound && row->quick.has_amount && row->quick.has_unit)
    return CRO_PASTE_LINE;
  return row->quick.fault == CRO_QUICK_NO_SIZE ? CRO_PASTE_LEFT : CRO_PASTE_NOTE;
}

static CroPasteKind
kind_of (Reader      *self,
         CroPasteRow *row,
         const char  *next)
{
  g_autofree char *folded = cro_fold (row->text);
  g_autofree char *bare = dup_bare (row->text);
  gboolean is_yield;

  /* A rule between two parts. */
  if (*folded == '\0')
    return CRO_PASTE_NOTHING;
  if (is_one_of (folded, methods) || is_one_of (folded, ingredients))
    return kind_of_heading (self, folded);
  if (is_over_lines (row->text) && self->paste->title.makes > 0)
    return CRO_PASTE_NOTHING;
  if (begins_method (row->text))
    {
      self->is_method = TRUE;
      return CRO_PASTE_NOTE;
    }
  if (take_title (self, row->text, &is_yield))
    return CRO_PASTE_TITLE;
  if (is_yield)
    return CRO_PASTE_NOTE;
  if (is_heading (row->text, folded) && !is_recipe (self, bare))
    return kind_of_heading (self, folded);
  return self->is_method ? kind_in_method (self, row, folded) : kind_of_quick (self, row, folded, next);
}

/* "Allow 10 % for loss": a note would hide that the cost does not count it. */
static void
leave_loss (CroPasteRow *row)
{
  if (row->kind != CRO_PASTE_NOTE || !cro_remark_says_loss (row->text))
    return;
  cro_quick_clear (&row->quick);
  row->quick = (CroQuick){ .fault = CRO_QUICK_LOSS, .end = strlen (row->text), .item = CRO_NO_SLOT };
  row->kind = CRO_PASTE_LEFT;
}

static void
add_row (Reader     *self,
         const char *text,
         const char *next)
{
  CroPasteRow row = { .text = g_strstrip (g_strdup (text)), .heading = G_MAXUINT };

  row.kind = kind_of (self, &row, next);
  leave_loss (&row);
  if (row.kind == CRO_PASTE_LINE || row.kind == CRO_PASTE_LEFT)
    {
      self->is_begun = TRUE;
      row.heading = self->heading;
    }
  g_array_append_val (self->paste->rows, row);
}

static void
add_line (Reader     *self,
          const char *text)
{
  CroPasteRow row = { .text = g_strstrip (g_strdup (text)), .heading = G_MAXUINT };
  gboolean is_sound = cro_quick_read_line (self->model, row.text, self->words, &row.quick);

  row.kind = row.quick.fault == CRO_QUICK_EMPTY             ? CRO_PASTE_NOTHING
             : is_sound && row.quick.has_amount ? CRO_PASTE_LINE
                                                : CRO_PASTE_LEFT;
  g_array_append_val (self->paste->rows, row);
}

static gboolean
is_line_with (Reader     *self,
              const char *text,
              guint      *n_units)
{
  g_auto (CroQuick) quick = { 0 };
  gboolean is_sound = cro_quick_read (self->model, text, self->words, &quick);

  *n_units += quick.has_unit;
  return is_sound && quick.has_amount;
}

/* "flour 200 g, butter 100 g, 4 egg whites": lines in one row, each with its amount, all but one with a unit.
 * NULL: the row is one. */
static char **
dup_parts (Reader     *self,
           const char *text)
{
  g_auto (GStrv) parts = g_regex_split_simple ("[,;]\\s+", text, 0, 0);
  guint n = g_strv_length (parts), n_units = 0;

  if (self->is_method || n < LEAST_PARTS)
    return NULL;
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *part = g_strstrip (g_strdup (parts[i]));

      if (i + 1 == n && g_str_has_suffix (part, "."))
        part[strlen (part) - 1] = '\0';
      if (!is_line_with (self, part, &n_units))
        return NULL;
    }
  return n_units + 1 >= n ? g_steal_pointer (&parts) : NULL;
}

static void
add_row_or_parts (Reader     *self,
                  const char *text,
                  const char *next)
{
  g_auto (GStrv) parts = dup_parts (self, text);

  if (parts == NULL)
    {
      add_row (self, text, next);
      return;
    }
  for (char **part = parts; *part != NULL; part++)
    {
      if (part[1] == NULL && g_str_has_suffix (g_strchomp (*part), "."))
        (*part)[strlen (*part) - 1] = '\0';
      add_row (self, *part, NULL);
    }
}

/* The rows that say something; without space, but with empty ones between. */
static guint
n_full (char **rows)
{
  guint n = 0;

  for (; *rows != NULL; rows++)
    n += *g_strstrip (*rows) != '\0';
  return n;
}

void
cro_paste_read (CroModel            *model,
                const char          *recipe,
                const char          *text,
                const CroEntryWords *words,
                CroPaste            *paste)
{
  g_auto (GStrv) rows = g_strsplit (text, "\n", -1);
  Reader reader = { .model = model, .words = words, .recipe = recipe, .paste = paste,
                    .heading = G_MAXUINT };
  gboolean is_alone = n_full (rows) == 1;

  *paste = (CroPaste){ .rows = g_array_new (FALSE, TRUE, sizeof (CroPasteRow)) };
  paste->is_alone = is_alone;
  g_array_set_clear_func (paste->rows, row_clear);
  for (char **row = rows; *row != NULL; row++)
    if (**row == '\0')
      continue;
    else if (is_alone)
      add_line (&reader, *row);
    else
      add_row_or_parts (&reader, *row, row[1]);
}

gboolean
cro_paste_sets_yield (CroPaste   *paste,
                      CroFigures *figures,
                      guint32     recipe)
{
  const CroRecipe *of = cro_model_recipe (figures->model, recipe);
  g_autoptr (GArray) lines = cro_edit_list_lines (figures, recipe);
  const CroItem *main;

  if (of->is_plate && paste->title.makes > 0)
    paste->title.gives = 0;
  else if (paste->title.gives > 0)
    paste->title.makes = 0;
  if (lines->len > 0 || (paste->title.makes == 0 && paste->title.gives == 0))
    return FALSE;
  if (of->is_plate)
    return paste->title.makes > 0;
  if (of->n_outputs == 0)
    return FALSE;
  main = cro_model_item (figures->model,
                         g_array_index (figures->model->output_order, guint32, of->first_output));
  return cro_unit_get (paste->title.gives > 0 ? paste->title.gives_unit : CRO_UNIT_EACH)->base
         == cro_unit_get ((CroUnit) main->unit)->base;
}

static gboolean
has_lines (const CroPaste *paste,
           guint           heading)
{
  for (guint i = 0; i < paste->rows->len; i++)
    {
      const CroPasteRow *row = cro_paste_get (paste, i);

      if (row->kind == CRO_PASTE_LINE && row->heading == heading)
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_named_so (const char *name,
             const char *title)
{
  g_autofree char *folded = cro_fold (name);

  return title == NULL || *title == '\0' || cro_folds_to (title, folded);
}

/* Of a title what says nothing new is let go. */
static gboolean
says_more (const CroPaste  *paste,
           const char      *text,
           const CroRecipe *recipe,
           gboolean         takes)
{
  g_auto (CroTitle) title = { 0 };
  g_autofree char *bare = dup_bare (text);
  gboolean is_known;

  /* Another part of it may be a yield that is not taken. */
  if (!cro_title_read_yield (text, &title) && read_yields (bare, &title))
    return TRUE;
  if (takes && ((title.makes > 0 && title.makes != paste->title.makes)
                || (title.gives > 0 && title.gives != paste->title.gives)))
    return TRUE;
  if (title.makes == 0 && title.gives == 0)
    cro_title_read (text, &title);
  is_known = title.gives == 0 && (title.makes == 0 || (recipe->is_plate && title.makes == recipe->makes));
  return !is_named_so (recipe->name, title.name) || !(takes || is_known);
}

gboolean
cro_paste_notes (const CroPaste  *paste,
                 guint            row,
                 const CroRecipe *recipe,
                 gboolean         takes)
{
  const CroPasteRow *of = cro_paste_get (paste, row);

  return of->kind == CRO_PASTE_TITLE ? says_more (paste, of->text, recipe, takes)
                                     : of->kind == CRO_PASTE_NOTE
                                           || (of->kind == CRO_PASTE_HEADING && !has_lines (paste, row));
}

gboolean
cro_paste_leaves_price (const CroPaste *paste,
                        CroFigures     *figures,
                        guint           row)
{
  const CroPasteRow *of = cro_paste_get (paste, row);

  if (of->kind != CRO_PASTE_LINE || !of->quick.has_price || of->quick.match == CRO_QUICK_UNKNOWN)
    return FALSE;
  return cro_quick_prices_made (figures->model, &of->quick)
         || (!paste->is_alone && figures->offer_in_use[of->quick.item] != CRO_NO_SLOT);
}

void
cro_paste_add_note (GString    *note,
                    const char *text)
{
  if (note->len > 0)
    g_string_append (note, strchr (".!?:;", note->str[note->len - 1]) != NULL ? " " : "; ");
  g_string_append (note, text);
}
