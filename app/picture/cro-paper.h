/* cro-paper.h: what is written on sheets of paper, laid out and drawn, for a printer, a PDF and the
 * screen alike.
 *
 * A paper is rows of cells, gathered in blocks. A block is split over two pages, between rows, only
 * where it is longer than a page, or flows. Rows of one grid have columns in common.
 *
 * Units      Points of 1/72 inch, from the top left corner of what a page holds between its margins.
 * Order      Written as a language that runs from left to right would have it; a paper that runs the
 *            other way is mirrored as it is drawn.
 * Ownership  A paper owns copies of all it is given. */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

typedef struct _CroPaper CroPaper;

/* A page, margins included; all four margins are the same. */
typedef struct
{
  double width;
  double height;
  double margin;
} CroPaperSize;

/* ISO 216 A4, 210 mm × 297 mm, and US Letter, 8.5 in × 11 in (ANSI/ASME Y14.1, size A); margins of
 * 18 mm. */
extern const CroPaperSize cro_paper_a4;
extern const CroPaperSize cro_paper_letter;

/* rtl: it runs from right to left. title: what the paper is about. font: the height of its letters. */
CroPaper *cro_paper_new         (const char           *title,
                                 double                font,
                                 gboolean              rtl);
void      cro_paper_free        (CroPaper             *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroPaper, cro_paper_free)

/* Borrowed. */
const char *cro_paper_get_title (CroPaper             *self);

/* Stands at the foot of every page, with its number. */
void      cro_paper_set_foot    (CroPaper             *self,
                                 const char           *text);

typedef struct
{
  double   share;      /* of the width that columns without one leave; 0: as wide as its widest cell */
  gboolean is_number;  /* stands at the end of its column */
  gboolean is_small;   /* its letters are */
} CroPaperColumn;

/* Columns that rows to come may stand in; returns their number. Grid 0 is there from the start: one
 * column over the whole width. */
guint     cro_paper_add_grid    (CroPaper             *self,
                                 const CroPaperColumn *columns,
                                 guint                 n);

/* What stands over the columns of a grid, again on each page on which its rows go on. */
void      cro_paper_set_heads   (CroPaper             *self,
                                 guint                 grid,
                                 const char *const    *heads);

typedef enum
{
  CRO_PAPER_PLAIN = 0,
  CRO_PAPER_BOLD = 1 << 0,
  CRO_PAPER_LARGE = 1 << 1,
  CRO_PAPER_SMALL = 1 << 2,
  CRO_PAPER_FRAMED = 1 << 3,    /* each cell in a frame, its first line larger than the others */
  CRO_PAPER_RULED = 1 << 4,     /* a line above */
} CroPaperLook;

/* What is added from now on stands together. */
void      cro_paper_begin_block (CroPaper             *self);

/* Blocks that follow may stand in two columns beside each other, until this is called with FALSE: they
 * do where that takes fewer pages and breaks no number. */
void      cro_paper_set_narrow  (CroPaper             *self,
                                 gboolean              is_narrow);

/* Blocks that follow flow, until this is called with FALSE: one of many rows is split where it would leave much of
 * a page white, and anywhere where that takes a page less. A few of its rows stay together on either page. */
void      cro_paper_set_flowing (CroPaper             *self,
                                 gboolean              is_flowing);

/* As many texts as the grid has columns; NULL: an empty cell. indent: of the first cell. */
void      cro_paper_add_row     (CroPaper             *self,
                                 guint                 grid,
                                 unsigned              look,
                                 double                indent,
                                 const char *const    *texts);

/* A row of grid 0. */
void      cro_paper_add_text    (CroPaper             *self,
                                 unsigned              look,
                                 double                indent,
                                 const char           *text);

void      cro_paper_add_space   (CroPaper             *self,
                                 double                height);

/* Draws in a rectangle of that size, whose top left corner is the origin. */
typedef void (*CroPaperDraw) (cairo_t *cairo, double width, double height, gpointer user_data);

/* As high as height, or as least where that takes a page less. */
void      cro_paper_add_picture (CroPaper             *self,
                                 double                least,
                                 double                height,
                                 CroPaperDraw          draw,
                                 gpointer              user_data,
                                 GDestroyNotify        destroy);

/* A picture of such a height, too, at the end of the rows that follow, which are as much narrower, until
 * cro_paper_end_beside: what comes then stands below both. Once in a paper, and on its first page. */
void      cro_paper_begin_beside (CroPaper            *self,
                                 double                width,
                                 double                least,
                                 double                height,
                                 CroPaperDraw          draw,
                                 gpointer              user_data,
                                 GDestroyNotify        destroy);
void      cro_paper_end_beside  (CroPaper             *self);

/* Sets the paper out for pages that hold so much between their margins, and returns how many there
 * are. It may be set out again for others. */
guint     cro_paper_set_out     (CroPaper             *self,
                                 double                width,
                                 double                height);

/* A page by number, from 0; of a paper that was set out. */
void      cro_paper_draw        (CroPaper             *self,
                                 guint                 page,
                                 cairo_t              *cairo);

/* Blocks that hold something. */
guint     cro_paper_count_blocks (CroPaper            *self);

G_END_DECLS
