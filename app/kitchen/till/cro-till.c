#include "cro-till-private.h"

#include <string.h>

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-name.h"
#include "cro-row-date.h"
#include "cro-stray.h"

/* How a name was settled once: kind, and as what. */
typedef struct
{
  CroTillState state;
  CroRef       thing;
} Settled;

typedef struct
{
  CroTill              *till;
  CroModel             *model;
  const CroBrought     *brought;
  const CroTillColumns *columns;
  int                   at[CRO_N_TILL_COLUMNS];   /* the column of each; -1: none */
  gboolean              is_month_first;
  int                   money;        /* the column that revenue is read from; -1 */
  GHashTable           *remembered;   /* name → Settled */
  GHashTable           *things;       /* folded name → Settled, of plates and menus */
  GHashTable           *names;        /* name → index + 1 among names */
  gint64                all_sold;     /* of all rows, without their signs: no part of them is more */
  gint64                all_revenue;
} Reading;

/* Half of what 64 bits hold: money without its tax is rounded through a double. */
#define MOST_OF_ALL (G_MAXINT64 / 2)

/* --- What names are --------------------------------------------------------------------------------- */

static Settled
settled_as (CroModel   *model,
            const char *kind,
            const char *sold_as)
{
  Settled settled = { CRO_TILL_UNSETTLED, CRO_REF_NOWHERE };

  if (g_strcmp0 (kind, cro_till_kind_codes[CRO_TILL_KIND_OTHER]) == 0)
    settled.state = CRO_TILL_OTHER;
  else if (g_strcmp0 (kind, cro_till_kind_codes[CRO_TILL_KIND_NONE]) == 0)
    settled.state = CRO_TILL_LEFT_OUT;
  else if (sold_as != NULL)
    {
      settled.thing = cro_edit_find_name (model, CRO_NAMES_THINGS, sold_as);
      /* What bore that name is gone: it is asked again. */
      if (settled.thing.kind != CRO_REF_NONE)
        settled.state = CRO_TILL_THING;
    }
  return settled;
}

static gboolean
take_remembered (CroRows   *rows,
                 gpointer   user_data,
                 GError   **error)
{
  Reading *self = user_data;
  Settled settled = settled_as (self->model, cro_rows_get_text (rows, 1), cro_rows_get_text (rows, 2));

  g_hash_table_insert (self->remembered, g_strdup (cro_rows_get_text (rows, 0)),
                       g_memdup2 (&settled, sizeof settled));
  return TRUE;
}

/* Two of one folded name are told apart by nobody here: they are asked. */
static void
add_thing (Reading    *self,
           const char *name,
           CroRef      thing)
{
  g_autofree char *folded = cro_fold (name);
  Settled settled = { CRO_TILL_THING, thing };
  Settled *known = g_hash_table_lookup (self->things, folded);

  if (known != NULL)
    known->state = CRO_TILL_UNSETTLED;
  else
    g_hash_table_insert (self->things, g_steal_pointer (&folded), g_memdup2 (&settled, sizeof settled));
}

static void
add_things (Reading *self)
{
  for (guint32 i = 0; i < self->model->recipes->len; i++)
    {
      const CroRecipe *recipe = cro_model_recipe (self->model, i);

      if (!recipe->is_dead && recipe->is_plate)
        add_thing (self, recipe->name, CRO_REF (CRO_REF_RECIPE, i));
    }
  for (guint32 i = 0; i < self->model->menus->len; i++)
    if (!cro_model_menu (self->model, i)->is_dead)
      add_thing (self, cro_model_menu (self->model, i)->name, CRO_REF (CRO_REF_MENU, i));
}

static gboolean
says_total (const char *folded)
{
  static const char *const totals[] = { "total", "totals", "grand total", "subtotal", "sub total", "total ht",
                                        "total ttc", "sous total", "total general", "totaux", "sum", NULL };

  return g_strv_contains (totals, folded);
}

static Settled
settle (Reading    *self,
        const char *name)
{
  const Settled *known = g_hash_table_lookup (self->remembered, name);
  g_autofree char *folded = NULL;

  if (known != NULL && known->state != CRO_TILL_UNSETTLED)
    return *known;
  folded = cro_fold (name);
  known = g_hash_table_lookup (self->things, folded);
  if (known != NULL)
    return *known;
  return (Settled){ says_total (folded) ? CRO_TILL_LEFT_OUT : CRO_TILL_UNSETTLED, CRO_REF_NOWHERE };
}

static guint
name_at (Reading    *self,
         const char *text)
{
  guint found = GPOINTER_TO_UINT (g_hash_table_lookup (self->names, text));
  CroTillName name = { .revenue = CRO_NOT_SET };
  Settled settled;

  if (found != 0)
    return found - 1;
  settled = settle (self, text);
  name.name = g_string_chunk_insert (self->till->texts, text);
  name.state = settled.state;
  name.thing = settled.thing;
  g_array_append_val (self->till->names, name);
  g_hash_table_insert (self->names, (gpointer) name.name, GUINT_TO_POINTER (self->till->names->len));
  return self->till->names->len - 1;
}

/* --- Rows ------------------------------------------------------------------------------------------- */

static const CroReadCell *
cell_of (Reading      *self,
         guint         row,
         CroTillColumn what)
{
  static const CroReadCell none = { CRO_READ_CELL_EMPTY, "" };

  return self->at[what] >= 0 ? cro_brought_get (self->brought, row, (guint) self->at[what]) : &none;
}

/* Below 0 may be written "−2", "2-" or "(2)". */
static gboolean
read_number (Reading           *self,
             const CroReadCell *cell,
             int                column,
             gint64            *number)
{
  g_autofree char *text = g_strstrip (g_strdup (cell->text));
  gsize length = strlen (text);
  gboolean is_below = TRUE;
  CroReadCell bare = { cell->kind, text };
  const char *rest = NULL;

  if (g_str_has_prefix (text, "\342\210\222"))
    bare.text = text + 3;
  else if (length > 2 && text[0] == '(' && text[length - 1] == ')')
    {
      text[length - 1] = '\0';
      bare.text = text + 1;
    }
  else if (length > 1 && text[length - 1] == '-')
    text[length - 1] = '\0';
  else
    is_below = FALSE;
  if (!cro_brought_money (self->brought, &bare, (guint) column, number, &rest)
      || (rest != NULL && *rest != '\0') || *number == G_MININT64)
    return FALSE;
  if (is_below)
    *number = -*number;
  return TRUE;
}

static gboolean
read_day (Reading           *self,
          const CroReadCell *cell,
          CroDate           *day)
{
  *day = self->till->last;
  return cell->kind == CRO_READ_CELL_EMPTY || cro_till_day_read (cell->text, self->is_month_first, day);
}

static void
refuse (Reading      *self,
        guint         row,
        CroTillFault  fault,
        const char   *text)
{
  CroTillBad bad = { g_array_index (self->brought->rows, CroBroughtRow, row).number, fault,
                     g_string_chunk_insert_const (self->till->texts, text) };

  g_array_append_val (self->till->bad, bad);
}

/* A sum of a name, or of a day and of what several names are, is of some of the rows: it wraps around nowhere
 * where all of them together do not. */
static gboolean
add_to_all (gint64 *all,
            gint64  number)
{
  gint64 sum;

  if (number < -MOST_OF_ALL || number > MOST_OF_ALL || __builtin_add_overflow (*all, ABS (number), &sum)
      || sum > MOST_OF_ALL)
    return FALSE;
  *all = sum;
  return TRUE;
}

/* FALSE: refused. */
static gboolean
read_figures (Reading    *self,
              guint       index,
              CroTillRow *row)
{
  const CroReadCell *sold = cell_of (self, index, CRO_TILL_SOLD), *day = cell_of (self, index, CRO_TILL_DAY);
  const CroReadCell *money = self->money >= 0 ? cro_brought_get (self->brought, index, (guint) self->money) : NULL;

  row->revenue = CRO_NOT_SET;
  row->has_sold = sold->kind != CRO_READ_CELL_EMPTY;
  if (row->has_sold && !read_number (self, sold, self->at[CRO_TILL_SOLD], &row->sold))
    return refuse (self, index, CRO_TILL_NOT_A_NUMBER, sold->text), FALSE;
  if (money != NULL && money->kind != CRO_READ_CELL_EMPTY
      && !read_number (self, money, self->money, &row->revenue))
    return refuse (self, index, CRO_TILL_NOT_A_NUMBER, money->text), FALSE;
  if (!read_day (self, day, &row->day))
    return refuse (self, index, CRO_TILL_NOT_A_DAY, day->text), FALSE;
  if (row->day < self->till->first || row->day > self->till->last)
    return refuse (self, index, CRO_TILL_OTHER_MONTH, day->text), FALSE;
  return TRUE;
}

/* A name with a character that turns the text around it, or that nobody sees, is no name of the book either. */
static gboolean
is_clean (Reading    *self,
          guint       index,
          const char *name)
{
  gunichar stray = cro_stray_find (name, NULL);
  char text[16];

  if (stray == 0)
    return TRUE;
  g_snprintf (text, sizeof text, "U+%04X", stray);
  return refuse (self, index, CRO_TILL_STRAY, text), FALSE;
}

static gboolean
fits (Reading          *self,
      guint             index,
      const CroTillRow *row)
{
  gint64 sold = self->all_sold;

  if (row->has_sold && !add_to_all (&sold, row->sold))
    return refuse (self, index, CRO_TILL_TOO_LARGE, cell_of (self, index, CRO_TILL_SOLD)->text), FALSE;
  if (row->revenue != CRO_NOT_SET && !add_to_all (&self->all_revenue, row->revenue))
    return refuse (self, index, CRO_TILL_TOO_LARGE,
                   cro_brought_get (self->brought, index, (guint) self->money)->text), FALSE;
  self->all_sold = sold;
  return TRUE;
}

static void
read_row (Reading *self,
          guint    index)
{
  g_autofree char *name = cro_name_dup_tidy (cell_of (self, index, CRO_TILL_NAME)->text);
  CroTillRow row = { 0 };
  CroTillName *of;
  gboolean is_sound;

  /* A title of a group has no figures; a gap has nothing at all. */
  if (cell_of (self, index, CRO_TILL_SOLD)->kind == CRO_READ_CELL_EMPTY
      && (self->money < 0
          || cro_brought_get (self->brought, index, (guint) self->money)->kind == CRO_READ_CELL_EMPTY))
    return;
  is_sound = read_figures (self, index, &row);
  if (*name == '\0' && is_sound)
    refuse (self, index, CRO_TILL_NO_NAME, "");
  if (*name == '\0' || !is_sound || !is_clean (self, index, name) || !fits (self, index, &row))
    return;
  row.name = name_at (self, name);
  of = &g_array_index (self->till->names, CroTillName, row.name);
  of->n_rows++;
  of->sold += row.sold;
  if (row.revenue != CRO_NOT_SET)
    of->revenue = (of->revenue != CRO_NOT_SET ? of->revenue : 0) + row.revenue;
  g_array_append_val (self->till->rows, row);
  self->till->n_rows++;
}

/* --- All of it -------------------------------------------------------------------------------------- */

static gboolean
take_known_day (CroRows   *rows,
                gpointer   user_data,
                GError   **error)
{
  GHashTable *days = user_data;
  CroDate day = cro_row_date (rows, 0);

  if (day != CRO_NO_DAY)
    g_hash_table_add (days, GINT_TO_POINTER (day));
  return TRUE;
}

static gboolean
count_days (CroTill  *self,
            CroBook  *book,
            GError  **error)
{
  static const char *const columns[] = { "date", NULL };
  g_autoptr (GHashTable) known = g_hash_table_new (NULL, NULL), days = g_hash_table_new (NULL, NULL);

  if (!cro_store_read_each (cro_book_get_store (book), "sale", columns, take_known_day, known, error))
    return FALSE;
  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroTillRow *row = &g_array_index (self->rows, CroTillRow, i);
      gpointer day = GINT_TO_POINTER (row->day);

      if (g_array_index (self->names, CroTillName, row->name).state != CRO_TILL_LEFT_OUT
          && g_hash_table_add (days, day))
        self->n_known_days += g_hash_table_contains (known, day);
    }
  self->n_days = g_hash_table_size (days);
  return TRUE;
}

static int
by_need (gconstpointer a,
         gconstpointer b,
         gpointer      names)
{
  const CroTillName *x = &g_array_index ((GArray *) names, CroTillName, *(const guint *) a);
  const CroTillName *y = &g_array_index ((GArray *) names, CroTillName, *(const guint *) b);
  gint64 p = x->revenue != CRO_NOT_SET ? x->revenue : 0, q = y->revenue != CRO_NOT_SET ? y->revenue : 0;

  if ((x->state == CRO_TILL_UNSETTLED) != (y->state == CRO_TILL_UNSETTLED))
    return x->state == CRO_TILL_UNSETTLED ? -1 : 1;
  return p != q ? (p < q ? 1 : -1) : strcmp (x->name, y->name);
}

/* Names that wait stand first; rows follow them. */
static void
put_in_order (CroTill *self)
{
  guint n = self->names->len;
  g_autofree guint *order = g_new (guint, n + 1), *to = g_new (guint, n + 1);
  GArray *names = g_array_sized_new (FALSE, FALSE, sizeof (CroTillName), n);

  for (guint i = 0; i < n; i++)
    order[i] = i;
  g_qsort_with_data (order, (int) n, sizeof *order, by_need, self->names);
  for (guint i = 0; i < n; i++)
    {
      to[order[i]] = i;
      g_array_append_val (names, g_array_index (self->names, CroTillName, order[i]));
    }
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroTillRow *row = &g_array_index (self->rows, CroTillRow, i);

      row->name = to[row->name];
    }
  g_array_unref (self->names);
  self->names = names;
}

static void
find_columns (Reading  *self,
              gboolean *with_tax)
{
  for (int i = 0; i < CRO_N_TILL_COLUMNS; i++)
    self->at[i] = -1;
  for (int i = CRO_BROUGHT_MOST_COLUMNS - 1; i >= 0; i--)
    self->at[self->columns->of[i]] = i;
  self->money = self->at[CRO_TILL_NET];
  if (self->money >= 0)
    *with_tax = FALSE;
  else if (self->at[CRO_TILL_GROSS] >= 0)
    {
      self->money = self->at[CRO_TILL_GROSS];
      *with_tax = TRUE;
    }
  else
    self->money = self->at[CRO_TILL_REVENUE];
}

CroTill *
cro_till_read (CroBook               *book,
               const CroBrought      *brought,
               const CroTillColumns  *columns,
               CroDate                first,
               gboolean               with_tax,
               GError               **error)
{
  static const char *const remembered[] = { "name", "kind", "sold_as", NULL };
  g_autoptr (CroTill) self = g_new0 (CroTill, 1);
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GHashTable) things = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);
  Reading reading = { .till = self, .model = cro_book_get_model (book), .brought = brought, .columns = columns,
                      .remembered = known, .things = things, .names = names };

  self->first = first;
  self->last = cro_month_next (first) - 1;
  self->names = g_array_new (FALSE, FALSE, sizeof (CroTillName));
  self->bad = g_array_new (FALSE, FALSE, sizeof (CroTillBad));
  self->rows = g_array_new (FALSE, FALSE, sizeof (CroTillRow));
  self->texts = g_string_chunk_new (1024);
  self->with_tax = with_tax;
  find_columns (&reading, &self->with_tax);
  if (!cro_store_read_each (cro_book_get_store (book), "till_name", remembered, take_remembered, &reading, error))
    return NULL;
  add_things (&reading);
  if (reading.at[CRO_TILL_DAY] >= 0)
    reading.is_month_first = cro_till_day_is_month_first (brought, (guint) (columns->headings + 1),
                                                          (guint) reading.at[CRO_TILL_DAY], first, self->last);
  for (guint i = (guint) (columns->headings + 1); reading.at[CRO_TILL_NAME] >= 0 && i < brought->rows->len; i++)
    read_row (&reading, i);
  if (!count_days (self, book, error))
    return NULL;
  put_in_order (self);
  return g_steal_pointer (&self);
}

void
cro_till_free (CroTill *self)
{
  g_array_unref (self->names);
  g_array_unref (self->bad);
  g_array_unref (self->rows);
  g_string_chunk_free (self->texts);
  g_free (self);
}

void
cro_till_settle (CroTill      *self,
                 guint         name,
                 CroTillState  state,
                 CroRef        thing)
{
  CroTillName *of = &g_array_index (self->names, CroTillName, name);

  of->state = state;
  of->thing = state == CRO_TILL_THING ? thing : CRO_REF_NOWHERE;
  of->is_new = state != CRO_TILL_UNSETTLED;
}

guint
cro_till_count_unsettled (const CroTill *self)
{
  guint n = 0;

  for (guint i = 0; i < self->names->len; i++)
    n += g_array_index (self->names, CroTillName, i).state == CRO_TILL_UNSETTLED;
  return n;
}

gboolean
cro_till_row_is_uncounted (const CroTill    *till,
                           const CroTillRow *row)
{
  return g_array_index (till->names, CroTillName, row->name).state == CRO_TILL_THING && !row->has_sold
         && row->revenue != CRO_NOT_SET && row->revenue > 0;
}

guint
cro_till_count_uncounted (const CroTill *self)
{
  guint n = 0;

  for (guint i = 0; i < self->rows->len; i++)
    n += cro_till_row_is_uncounted (self, &g_array_index (self->rows, CroTillRow, i));
  return n;
}
