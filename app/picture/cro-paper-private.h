/* cro-paper-private.h: what a paper holds between being written, set out and drawn. */
#pragma once

#include <pango/pangocairo.h>

#include "cro-paper.h"

G_BEGIN_DECLS

/* A look of no row: the foot of a page is the same under all papers. */
#define CRO_PAPER_FOOT (1u << 8)
#define CRO_PAPER_FOOT_FONT 8.5

/* What rows may stand in. */
typedef enum
{
  CRO_PAPER_WHOLE,     /* the width of a page */
  CRO_PAPER_HALF,      /* one of two columns */
  CRO_PAPER_BESIDE,    /* what a picture at their end leaves */
  CRO_PAPER_ASIDE,     /* that picture */
  CRO_PAPER_N_REGIONS,
} CroPaperRegion;

typedef struct
{
  PangoLayout *layout;    /* NULL: empty */
  double       natural;   /* as wide as it is on one line */
  double       height;    /* of one line, or of as many as it took when it was set out last */
} CroPaperCell;

typedef struct
{
  guint          grid;
  unsigned       look;
  double         indent;
  CroPaperCell  *cells;
  guint          n_cells;     /* 0: space, or a picture */
  double         height;      /* of a row of cells, or a picture, when it was set out last */
  double         least, most; /* of a picture */
  CroPaperDraw   draw;
  gpointer       user_data;
  GDestroyNotify destroy;
} CroPaperRow;

typedef struct
{
  CroPaperColumn *columns;
  guint           n;
  CroPaperRow     heads;      /* without cells: there are none */
  double         *widths[CRO_PAPER_N_REGIONS];
} CroPaperGrid;

typedef struct
{
  guint    first;             /* row */
  guint    n;
  gboolean is_narrow;
  gboolean is_beside;
  gboolean is_flowing;
  guint    page;              /* on which its first row stands */
  guint    n_pages;
} CroPaperBlock;

typedef struct
{
  const CroPaperRow *row;
  CroPaperRegion     region;
  guint              page;
  double             x, y;
} CroPaperPlaced;

struct _CroPaper
{
  char         *title;
  char         *foot;
  double        font;
  gboolean      is_rtl;
  gboolean      is_narrow;    /* blocks that are begun now */
  gboolean      is_beside;    /* they too */
  gboolean      is_flowing;   /* they too */
  CroPaperRow   aside;        /* without draw: there is none */
  double        aside_width;
  PangoContext *context;
  GPtrArray    *grids;        /* CroPaperGrid */
  GArray       *rows;         /* CroPaperRow */
  GArray       *blocks;       /* CroPaperBlock */
  GArray       *placed;       /* CroPaperPlaced, page by page */
  double        width, height;
  guint         n_pages;
};

/* Above and below the texts of a row, and between columns, in parts of the font. */
#define CRO_PAPER_PAD 0.06
#define CRO_PAPER_PAD_FRAMED 0.45
#define CRO_PAPER_GAP 0.9
/* Between two halves of a page. */
#define CRO_PAPER_GUTTER 2.0

static inline double
cro_paper_pad (const CroPaper    *self,
               const CroPaperRow *row)
{
  return self->font * (row->look & CRO_PAPER_FRAMED ? CRO_PAPER_PAD_FRAMED : CRO_PAPER_PAD);
}

static inline double
cro_paper_region_width (const CroPaper *self,
                        CroPaperRegion  region)
{
  switch (region)
    {
    case CRO_PAPER_HALF:
      return (self->width - CRO_PAPER_GUTTER * self->font) / 2;
    case CRO_PAPER_BESIDE:
      return self->width - CRO_PAPER_GUTTER * self->font - self->aside_width;
    case CRO_PAPER_ASIDE:
      return self->aside_width;
    case CRO_PAPER_WHOLE:
    default:
      return self->width;
    }
}

/* Gives the cell a layout of its own, before it is changed. */
void         cro_paper_own_layout (CroPaperCell *cell);

/* One text in a font of the paper. */
PangoLayout *cro_paper_layout_new (CroPaper   *self,
                                   unsigned    look,
                                   gboolean    is_number,
                                   const char *text);

double       cro_paper_foot_height (CroPaper  *self);

G_END_DECLS
