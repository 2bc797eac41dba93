#include "cro-paper-private.h"

#include <string.h>

#define MM (72 / 25.4)

const CroPaperSize cro_paper_a4 = { 210 * MM, 297 * MM, 18 * MM };
const CroPaperSize cro_paper_letter = { 612, 792, 18 * MM };

static const char *const FAMILY = "Sans";

/* --- Texts -------------------------------------------------------------------------------------- */

static double
size_of (const CroPaper *self,
         unsigned        look)
{
  if (look & CRO_PAPER_FOOT)
    return CRO_PAPER_FOOT_FONT;
  return self->font * (look & CRO_PAPER_LARGE ? 1.7 : look & CRO_PAPER_SMALL ? 0.85 : 1);
}

PangoLayout *
cro_paper_layout_new (CroPaper   *self,
                      unsigned    look,
                      gboolean    is_number,
                      const char *text)
{
  PangoLayout *layout = pango_layout_new (self->context);
  PangoFontDescription *font = pango_font_description_new ();
  gboolean at_right = is_number != self->is_rtl;
  /* Each text runs its own way, at the edge where the paper has it: Unicode Standard Annex 9, first
   * strong isolate. */
  g_autofree char *isolated = self->is_rtl ? g_strdup_printf ("\342\201\250%s\342\201\251", text)
                                           : NULL;

  pango_font_description_set_family_static (font, FAMILY);
  pango_font_description_set_absolute_size (font, size_of (self, look) * PANGO_SCALE);
  if (look & CRO_PAPER_BOLD)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_layout_set_auto_dir (layout, FALSE);
  pango_layout_set_alignment (layout, at_right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_text (layout, isolated != NULL ? isolated : text, -1);
  return layout;
}

static void
enlarge_first_line (PangoLayout *layout)
{
  PangoAttrList *list = pango_attr_list_new ();
  PangoAttribute *parts[] = { pango_attr_scale_new (1.25), pango_attr_weight_new (PANGO_WEIGHT_BOLD) };
  guint end = (guint) strcspn (pango_layout_get_text (layout), "\n");

  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      parts[i]->end_index = end;
      pango_attr_list_insert (list, parts[i]);
    }
  pango_layout_set_attributes (layout, list);
  pango_attr_list_unref (list);
}

/* A printer's page is the same whatever screen it is looked at on: nothing is fitted to pixels. */
static PangoContext *
context_new (gboolean rtl)
{
  PangoContext *context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options (context, options);
  cairo_font_options_destroy (options);
  pango_cairo_context_set_resolution (context, 72);
  pango_context_set_round_glyph_positions (context, FALSE);
  pango_context_set_base_dir (context, rtl ? PANGO_DIRECTION_RTL : PANGO_DIRECTION_LTR);
  return context;
}

/* What papers of one direction have in common: one for each thread, as font maps are. */
typedef struct
{
  PangoContext *context;
  GHashTable   *layouts;    /* what tells them apart → PangoLayout */
} Desk;

static void
desk_free (gpointer data)
{
  Desk *desk = data;

  g_hash_table_unref (desk->layouts);
  g_object_unref (desk->context);
  g_free (desk);
}

static Desk *
desk_of (gboolean rtl)
{
  static GPrivate desks[] = { G_PRIVATE_INIT (desk_free), G_PRIVATE_INIT (desk_free) };
  Desk *desk = g_private_get (&desks[rtl != FALSE]);

  if (desk != NULL)
    return desk;
  desk = g_new (Desk, 1);
  desk->context = context_new (rtl);
  desk->layouts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_object_unref);
  g_private_set (&desks[rtl != FALSE], desk);
  return desk;
}

/* Cards say the same over and over, and shaping a text takes longer than drawing it: short ones are kept,
 * as they are on one line, for the thread's papers of one direction. */
#define MOST_KEPT 4096
#define LONGEST_KEPT 64

static PangoLayout *
layout_of (CroPaper   *self,
           unsigned    look,
           gboolean    is_number,
           const char *text)
{
  GHashTable *kept;
  char *key;
  PangoLayout *layout;

  if (strlen (text) > LONGEST_KEPT || look & CRO_PAPER_FRAMED)
    return cro_paper_layout_new (self, look, is_number, text);
  kept = desk_of (self->is_rtl)->layouts;
  key = g_strdup_printf ("%u %d %g %s", look, is_number, self->font, text);
  layout = g_hash_table_lookup (kept, key);
  if (layout != NULL)
    {
      g_free (key);
      return g_object_ref (layout);
    }
  if (g_hash_table_size (kept) >= MOST_KEPT)
    g_hash_table_remove_all (kept);
  layout = cro_paper_layout_new (self, look, is_number, text);
  g_hash_table_insert (kept, key, g_object_ref (layout));
  return layout;
}

void
cro_paper_own_layout (CroPaperCell *cell)
{
  PangoLayout *layout;

  if (G_OBJECT (cell->layout)->ref_count == 1)
    return;
  layout = pango_layout_copy (cell->layout);
  g_object_unref (cell->layout);
  cell->layout = layout;
}

static void
set_cell (CroPaper             *self,
          CroPaperCell         *cell,
          unsigned              look,
          const CroPaperColumn *column,
          const char           *text)
{
  PangoRectangle logical;

  if (text == NULL || *text == '\0')
    return;
  if (column->is_small)
    look |= CRO_PAPER_SMALL;
  cell->layout = layout_of (self, look, column->is_number, text);
  if (look & CRO_PAPER_FRAMED)
    enlarge_first_line (cell->layout);
  pango_layout_get_extents (cell->layout, NULL, &logical);
  cell->natural = (double) logical.width / PANGO_SCALE;
  cell->height = (double) logical.height / PANGO_SCALE;
}

static void
row_init (CroPaper          *self,
          CroPaperRow       *row,
          guint              grid,
          unsigned           look,
          const char *const *texts)
{
  const CroPaperGrid *of = self->grids->pdata[grid];

  row->grid = grid;
  row->look = look;
  row->n_cells = of->n;
  row->cells = g_new0 (CroPaperCell, of->n);
  for (guint i = 0; i < of->n; i++)
    set_cell (self, &row->cells[i], look, &of->columns[i], texts[i]);
}

static void
row_clear (gpointer data)
{
  CroPaperRow *row = data;

  for (guint i = 0; i < row->n_cells; i++)
    g_clear_object (&row->cells[i].layout);
  g_free (row->cells);
  if (row->destroy != NULL)
    row->destroy (row->user_data);
}

/* --- Grids -------------------------------------------------------------------------------------- */

static void
grid_free (gpointer data)
{
  CroPaperGrid *grid = data;

  row_clear (&grid->heads);
  for (int region = 0; region < CRO_PAPER_N_REGIONS; region++)
    g_free (grid->widths[region]);
  g_free (grid->columns);
  g_free (grid);
}

guint
cro_paper_add_grid (CroPaper             *self,
                    const CroPaperColumn *columns,
                    guint                 n)
{
  CroPaperGrid *grid = g_new0 (CroPaperGrid, 1);

  grid->columns = g_memdup2 (columns, n * sizeof *columns);
  grid->n = n;
  for (int region = 0; region < CRO_PAPER_N_REGIONS; region++)
    grid->widths[region] = g_new0 (double, n);
  g_ptr_array_add (self->grids, grid);
  return self->grids->len - 1;
}

void
cro_paper_set_heads (CroPaper          *self,
                     guint              grid,
                     const char *const *heads)
{
  CroPaperGrid *of = self->grids->pdata[grid];

  row_clear (&of->heads);
  row_init (self, &of->heads, grid, CRO_PAPER_BOLD | CRO_PAPER_SMALL, heads);
}

/* --- Blocks ------------------------------------------------------------------------------------- */

void
cro_paper_begin_block (CroPaper *self)
{
  CroPaperBlock block = { .first = self->rows->len, .is_narrow = self->is_narrow,
                          .is_beside = self->is_beside, .is_flowing = self->is_flowing };

  if (self->blocks->len > 0
      && g_array_index (self->blocks, CroPaperBlock, self->blocks->len - 1).n == 0)
    g_array_set_size (self->blocks, self->blocks->len - 1);
  g_array_append_val (self->blocks, block);
}

void
cro_paper_set_narrow (CroPaper *self,
                      gboolean  is_narrow)
{
  self->is_narrow = is_narrow;
  cro_paper_begin_block (self);
}

void
cro_paper_set_flowing (CroPaper *self,
                       gboolean  is_flowing)
{
  self->is_flowing = is_flowing;
  cro_paper_begin_block (self);
}

static void
add (CroPaper    *self,
     CroPaperRow *row)
{
  g_array_append_val (self->rows, *row);
  g_array_index (self->blocks, CroPaperBlock, self->blocks->len - 1).n++;
}

void
cro_paper_add_row (CroPaper          *self,
                   guint              grid,
                   unsigned           look,
                   double             indent,
                   const char *const *texts)
{
  CroPaperRow row = { .indent = indent };

  row_init (self, &row, grid, look, texts);
  add (self, &row);
}

void
cro_paper_add_text (CroPaper   *self,
                    unsigned    look,
                    double      indent,
                    const char *text)
{
  cro_paper_add_row (self, 0, look, indent, &text);
}

void
cro_paper_add_space (CroPaper *self,
                     double    height)
{
  CroPaperRow row = { .height = height };

  add (self, &row);
}

void
cro_paper_add_picture (CroPaper      *self,
                       double         least,
                       double         height,
                       CroPaperDraw   draw,
                       gpointer       user_data,
                       GDestroyNotify destroy)
{
  CroPaperRow row = { .least = least, .most = height, .height = height, .draw = draw,
                      .user_data = user_data, .destroy = destroy };

  add (self, &row);
}

void
cro_paper_begin_beside (CroPaper      *self,
                        double         width,
                        double         least,
                        double         height,
                        CroPaperDraw   draw,
                        gpointer       user_data,
                        GDestroyNotify destroy)
{
  g_return_if_fail (self->aside.draw == NULL);

  self->aside = (CroPaperRow){ .least = least, .most = height, .height = height, .draw = draw,
                               .user_data = user_data, .destroy = destroy };
  self->aside_width = width;
  self->is_beside = TRUE;
  cro_paper_begin_block (self);
}

void
cro_paper_end_beside (CroPaper *self)
{
  if (!self->is_beside)
    return;
  self->is_beside = FALSE;
  cro_paper_begin_block (self);
}

/* --- The whole ----------------------------------------------------------------------------------- */

CroPaper *
cro_paper_new (const char *title,
               double      font,
               gboolean    rtl)
{
  static const CroPaperColumn whole = { .share = 1 };
  CroPaper *self = g_new0 (CroPaper, 1);

  self->title = g_strdup (title);
  self->font = font;
  self->is_rtl = rtl;
  self->context = g_object_ref (desk_of (rtl)->context);
  self->grids = g_ptr_array_new_with_free_func (grid_free);
  self->rows = g_array_new (FALSE, TRUE, sizeof (CroPaperRow));
  self->blocks = g_array_new (FALSE, TRUE, sizeof (CroPaperBlock));
  self->placed = g_array_new (FALSE, TRUE, sizeof (CroPaperPlaced));
  g_array_set_clear_func (self->rows, row_clear);
  cro_paper_add_grid (self, &whole, 1);
  cro_paper_begin_block (self);
  return self;
}

void
cro_paper_free (CroPaper *self)
{
  g_array_unref (self->placed);
  g_array_unref (self->blocks);
  g_array_unref (self->rows);
  row_clear (&self->aside);
  g_ptr_array_unref (self->grids);
  g_object_unref (self->context);
  g_free (self->title);
  g_free (self->foot);
  g_free (self);
}

const char *
cro_paper_get_title (CroPaper *self)
{
  return self->title;
}

void
cro_paper_set_foot (CroPaper   *self,
                    const char *text)
{
  g_free (self->foot);
  self->foot = g_strdup (text);
}

/* One that was begun last and holds nothing is none. */
guint
cro_paper_count_blocks (CroPaper *self)
{
  guint n = self->blocks->len;

  return g_array_index (self->blocks, CroPaperBlock, n - 1).n == 0 ? n - 1 : n;
}
