/* Where the rows of a paper stand. */
#include <math.h>
#include <string.h>

#include "cro-paper-private.h"

/* Of a page, at most, for a column that is as wide as its cells. */
#define MOST_OF_WIDTH 0.5

/* Steps in which the longer of two columns is shortened. */
#define STEP 8.0

/* Of a page, that a block which flows leaves white before it is split; rows of it that stay together then. */
#define MOST_WHITE 0.2
#define FEW_ROWS 2

/* --- Columns ------------------------------------------------------------------------------------ */

static void
widen (double            *widths,
       const CroPaperGrid *grid,
       const CroPaperRow  *row)
{
  for (guint i = 0; i < row->n_cells; i++)
    if (!(grid->columns[i].share > 0))
      widths[i] = MAX (widths[i], row->cells[i].natural + (i == 0 ? row->indent : 0));
}

static void
share_out (CroPaper       *self,
           CroPaperGrid   *grid,
           CroPaperRegion  region)
{
  double *widths = grid->widths[region];
  double left = cro_paper_region_width (self, region)
                - (grid->n - 1) * CRO_PAPER_GAP * self->font;
  double all = left, shares = 0;

  for (guint i = 0; i < grid->n; i++)
    {
      widths[i] = MIN (widths[i], MOST_OF_WIDTH * all);
      left -= widths[i];
      shares += grid->columns[i].share;
    }
  for (guint i = 0; i < grid->n; i++)
    if (grid->columns[i].share > 0)
      widths[i] = MAX (left, 0) * grid->columns[i].share / shares;
}

static void
find_widths (CroPaper *self)
{
  for (guint g = 0; g < self->grids->len; g++)
    {
      CroPaperGrid *grid = self->grids->pdata[g];

      memset (grid->widths[CRO_PAPER_WHOLE], 0, grid->n * sizeof (double));
      widen (grid->widths[CRO_PAPER_WHOLE], grid, &grid->heads);
    }
  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroPaperRow *row = &g_array_index (self->rows, CroPaperRow, i);
      CroPaperGrid *grid = self->grids->pdata[row->grid];

      widen (grid->widths[CRO_PAPER_WHOLE], grid, row);
    }
  for (guint g = 0; g < self->grids->len; g++)
    {
      CroPaperGrid *grid = self->grids->pdata[g];

      for (CroPaperRegion region = CRO_PAPER_HALF; region < CRO_PAPER_N_REGIONS; region++)
        memcpy (grid->widths[region], grid->widths[CRO_PAPER_WHOLE], grid->n * sizeof (double));
      for (CroPaperRegion region = CRO_PAPER_WHOLE; region < CRO_PAPER_N_REGIONS; region++)
        share_out (self, grid, region);
    }
}

/* --- Heights ------------------------------------------------------------------------------------ */

/* What is narrower than its column stays on its one line: only the others are laid out again. */
static void
fit_cell (CroPaper     *self,
          CroPaperCell *cell,
          double        width)
{
  PangoRectangle logical;

  if (cell->layout == NULL)
    return;
  if (cell->natural <= width + 0.01)
    {
      if (pango_layout_get_width (cell->layout) < 0)
        return;
      cro_paper_own_layout (cell);
      pango_layout_set_width (cell->layout, -1);
    }
  else
    {
      cro_paper_own_layout (cell);
      pango_layout_set_width (cell->layout, (int) (MAX (width, self->font) * PANGO_SCALE));
    }
  pango_layout_get_extents (cell->layout, NULL, &logical);
  cell->height = (double) logical.height / PANGO_SCALE;
}

static void
fit_row (CroPaper       *self,
         CroPaperRow    *row,
         CroPaperRegion  region)
{
  const CroPaperGrid *grid = self->grids->pdata[row->grid];
  double pad = cro_paper_pad (self, row), tallest = 0;
  double inside = row->look & CRO_PAPER_FRAMED ? self->font * CRO_PAPER_GAP : 0;

  if (row->n_cells == 0)
    return;
  for (guint i = 0; i < row->n_cells; i++)
    {
      fit_cell (self, &row->cells[i],
                grid->widths[region][i] - (i == 0 ? row->indent : 0) - inside);
      tallest = MAX (tallest, row->cells[i].height);
    }
  row->height = tallest + 2 * pad;
}

static CroPaperRegion
region_of (const CroPaperBlock *block,
           gboolean             halves)
{
  return block->is_beside              ? CRO_PAPER_BESIDE
         : halves && block->is_narrow ? CRO_PAPER_HALF
                                      : CRO_PAPER_WHOLE;
}

static void
fit_rows (CroPaper *self,
          gboolean  halves)
{
  for (guint g = 0; g < self->grids->len; g++)
    fit_row (self, &((CroPaperGrid *) self->grids->pdata[g])->heads, CRO_PAPER_WHOLE);
  for (guint b = 0; b < self->blocks->len; b++)
    {
      const CroPaperBlock *block = &g_array_index (self->blocks, CroPaperBlock, b);

      for (guint i = block->first; i < block->first + block->n; i++)
        fit_row (self, &g_array_index (self->rows, CroPaperRow, i), region_of (block, halves));
    }
}

/* Whether there are any, and all numbers stand on one line there; texts may run on. */
static gboolean
fits_halves (CroPaper *self)
{
  gboolean any = FALSE;

  for (guint b = 0; b < self->blocks->len; b++)
    {
      const CroPaperBlock *block = &g_array_index (self->blocks, CroPaperBlock, b);

      for (guint r = block->first; block->is_narrow && r < block->first + block->n; r++)
        {
          const CroPaperRow *row = &g_array_index (self->rows, CroPaperRow, r);
          const CroPaperGrid *grid = self->grids->pdata[row->grid];

          any = TRUE;
          for (guint i = 0; i < row->n_cells; i++)
            if (grid->columns[i].is_number
                && row->cells[i].natural > grid->widths[CRO_PAPER_HALF][i] + 0.01)
              return FALSE;
        }
    }
  return any;
}

/* --- Pages -------------------------------------------------------------------------------------- */

typedef struct
{
  CroPaper *self;
  double    bottom;          /* of what a page holds */
  guint     even_page;       /* on which halves are no higher than most */
  double    most;
  guint     page;
  double    y;
  gboolean  in_halves;
  guint     half;            /* 0 or 1 */
  double    top;             /* of the halves on this page */
  double    lowest;          /* of the halves on this page */
  gboolean  is_beside;       /* the picture was put, and what stands beside it is still being put */
  double    beside;          /* where the picture ends, on the first page; 0: it was not put */
  double    white;           /* above which a block that flows is split rather than leave as much of a page */
  guint    *head_page;       /* by grid: where its heads stand last; G_MAXUINT: nowhere */
} Setter;

static void
turn_page (Setter *setter)
{
  setter->page++;
  setter->y = setter->top = setter->lowest = 0;
  setter->half = 0;
}

static double
bottom_of (const Setter *setter)
{
  return setter->in_halves && setter->page == setter->even_page
             ? MIN (setter->bottom, setter->top + setter->most)
             : setter->bottom;
}

/* To the next half, or page. */
static void
move_on (Setter *setter)
{
  if (setter->in_halves && setter->half == 0)
    {
      setter->half = 1;
      setter->y = setter->top;
    }
  else
    turn_page (setter);
}

static gboolean
is_fresh (const Setter *setter)
{
  return setter->y <= 0 && setter->half == 0;
}

/* The heads that have to stand above a row where it stands now. */
static const CroPaperRow *
heads_of (const Setter      *setter,
          const CroPaperRow *row)
{
  const CroPaperGrid *grid = setter->self->grids->pdata[row->grid];

  return row->n_cells > 0 && grid->heads.n_cells > 0 && setter->head_page[row->grid] != setter->page
             ? &grid->heads
             : NULL;
}

static void
put (Setter            *setter,
     const CroPaperRow *row,
     CroPaperRegion     region)
{
  CroPaper *self = setter->self;
  CroPaperPlaced placed = { row, region, setter->page, 0, setter->y };

  if (region == CRO_PAPER_HALF && setter->half == 1)
    placed.x = self->width - cro_paper_region_width (self, region);
  g_array_append_val (self->placed, placed);
  setter->y += row->height;
}

/* Where rows begin that stand beside the picture, and where those below it do. */
static void
put_aside (Setter         *setter,
           CroPaperRegion  region)
{
  CroPaper *self = setter->self;
  CroPaperPlaced placed = { &self->aside, CRO_PAPER_ASIDE, setter->page, 0, setter->y };

  if (region != CRO_PAPER_BESIDE && setter->is_beside && setter->page == 0)
    setter->y = MAX (setter->y, setter->beside);
  if (region == CRO_PAPER_BESIDE && setter->beside <= 0)
    {
      placed.x = self->width - self->aside_width;
      g_array_append_val (self->placed, placed);
      setter->beside = setter->y + self->aside.height;
    }
  setter->is_beside = region == CRO_PAPER_BESIDE;
}

static double
height_of (const Setter        *setter,
           const CroPaperBlock *block)
{
  const CroPaperRow *heads = NULL;
  double height = 0;

  for (guint i = block->first; i < block->first + block->n; i++)
    {
      const CroPaperRow *row = &g_array_index (setter->self->rows, CroPaperRow, i);

      height += row->height;
      if (heads == NULL)
        heads = heads_of (setter, row);
    }
  return height + (heads != NULL ? heads->height : 0);
}

/* How many rows of a block stay on this page, if it is to be split; 0: it is not. */
static guint
rows_before_split (const Setter        *setter,
                   const CroPaperBlock *block)
{
  double room = bottom_of (setter) - setter->y;
  guint n = 0;

  if (!block->is_flowing || setter->in_halves || room < setter->white)
    return 0;
  for (guint i = block->first; i < block->first + block->n; i++, n++)
    {
      const CroPaperRow *row = &g_array_index (setter->self->rows, CroPaperRow, i);
      const CroPaperRow *heads = n == 0 ? heads_of (setter, row) : NULL;

      room -= row->height + (heads != NULL ? heads->height : 0);
      if (room < 0)
        break;
    }
  n = MIN (n, block->n - MIN (block->n, FEW_ROWS));
  return n >= FEW_ROWS ? n : 0;
}

static void
put_block (Setter        *setter,
           CroPaperBlock *block,
           gboolean       halves)
{
  CroPaper *self = setter->self;
  CroPaperRegion region = region_of (block, halves);
  guint split = 0;

  put_aside (setter, region);
  if (region == CRO_PAPER_HALF && !setter->in_halves)
    {
      setter->in_halves = TRUE;
      setter->half = 0;
      setter->top = setter->lowest = setter->y;
    }
  else if (region == CRO_PAPER_WHOLE && setter->in_halves)
    {
      setter->in_halves = FALSE;
      setter->half = 0;
      setter->y = setter->lowest;
    }
  if (setter->y + height_of (setter, block) > bottom_of (setter))
    split = rows_before_split (setter, block);
  /* Twice: a half that stands beside another begins where that does, and may be too short. */
  for (int i = 0; i < 3 && split == 0 && !is_fresh (setter)
                  && setter->y + height_of (setter, block) > bottom_of (setter); i++)
    move_on (setter);
  block->page = setter->page;
  for (guint i = block->first; i < block->first + block->n; i++)
    {
      const CroPaperRow *row = &g_array_index (self->rows, CroPaperRow, i);
      const CroPaperRow *heads = heads_of (setter, row);
      double needed = row->height + (heads != NULL ? heads->height : 0);

      if ((setter->y + needed > setter->bottom || (split > 0 && i == block->first + split)) && !is_fresh (setter))
        {
          move_on (setter);
          heads = heads_of (setter, row);
        }
      if (heads != NULL)
        {
          put (setter, heads, region);
          setter->head_page[row->grid] = setter->page;
        }
      put (setter, row, region);
      setter->lowest = MAX (setter->lowest, setter->y);
    }
  block->n_pages = setter->page - block->page + 1;
}

/* Returns the number of pages. */
static guint
put_blocks (CroPaper *self,
            gboolean  halves,
            guint     even_page,
            double    most,
            double    white)
{
  g_autofree guint *head_page = g_new (guint, self->grids->len);
  Setter setter = { .self = self, .bottom = self->height - cro_paper_foot_height (self),
                    .even_page = even_page, .most = most, .white = white, .head_page = head_page };

  for (guint g = 0; g < self->grids->len; g++)
    head_page[g] = G_MAXUINT;
  g_array_set_size (self->placed, 0);
  for (guint b = 0; b < cro_paper_count_blocks (self); b++)
    put_block (&setter, &g_array_index (self->blocks, CroPaperBlock, b), halves);
  return setter.page + 1;
}

/* The page on which the last of the narrow blocks ends. */
static guint
last_of_halves (CroPaper *self)
{
  guint page = 0;

  for (guint b = 0; b < cro_paper_count_blocks (self); b++)
    {
      const CroPaperBlock *block = &g_array_index (self->blocks, CroPaperBlock, b);

      if (block->is_narrow)
        page = block->page + block->n_pages - 1;
    }
  return page;
}

/* Both columns of the page on which they end are made much the same height, so that there is room
 * below them. Returns the number of pages. */
static guint
put_halves (CroPaper *self)
{
  guint n = put_blocks (self, TRUE, 0, G_MAXDOUBLE, MOST_WHITE * self->height);
  guint last = last_of_halves (self);

  for (double most = STEP; most < self->height; most += STEP)
    {
      n = put_blocks (self, TRUE, last, most, MOST_WHITE * self->height);
      if (last_of_halves (self) <= last)
        break;
    }
  return n;
}

/* Between the least (0) and the most (1) that they may have. */
static void
size_pictures (CroPaper *self,
               double    part)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroPaperRow *row = &g_array_index (self->rows, CroPaperRow, i);

      if (row->draw != NULL)
        row->height = row->least + part * (row->most - row->least);
    }
  self->aside.height = self->aside.least + part * (self->aside.most - self->aside.least);
}

/* A page is saved that is taken only because blocks that flow stand whole, or pictures are higher than they need to
 * be. */
static guint
put_with_pictures (CroPaper *self)
{
  static const struct { double part, white; } tries[] = { { 1, MOST_WHITE }, { 1, 0 }, { 0, 0 } };
  guint n, fewest = G_MAXUINT, best = 0, last = 0;

  for (guint i = 0; i < G_N_ELEMENTS (tries) && fewest > 1; i++)
    {
      size_pictures (self, tries[i].part);
      n = put_blocks (self, FALSE, 0, G_MAXDOUBLE, tries[i].white * self->height);
      last = i;
      if (n < fewest)
        {
          fewest = n;
          best = i;
        }
    }
  if (best == last)
    return fewest;
  size_pictures (self, tries[best].part);
  return put_blocks (self, FALSE, 0, G_MAXDOUBLE, tries[best].white * self->height);
}

guint
cro_paper_set_out (CroPaper *self,
                   double    width,
                   double    height)
{
  self->width = width;
  self->height = height;
  find_widths (self);
  fit_rows (self, FALSE);
  self->n_pages = put_with_pictures (self);
  if (self->n_pages > 1 && fits_halves (self))
    {
      guint in_halves;

      fit_rows (self, TRUE);
      in_halves = put_halves (self);
      if (in_halves < self->n_pages)
        return self->n_pages = in_halves;
      fit_rows (self, FALSE);
      put_with_pictures (self);
    }
  return self->n_pages;
}
