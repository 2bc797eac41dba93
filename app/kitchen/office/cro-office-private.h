/* cro-office-private.h: a book while it is being written as a spreadsheet. */
#pragma once

#include "cro-office-prices.h"
#include "cro-office.h"

G_BEGIN_DECLS

/* What a workbook numbers, in the order of its sheets, and where it stands in the model. */
typedef struct
{
  CroBook         *book;
  CroModel        *model;
  CroFigures      *figures;
  GArray          *ingredients;    /* guint32: item slots by name */
  GArray          *outputs;        /* guint32: item slots, batch by batch */
  GArray          *batches;        /* guint32: rows of the graph, parts first */
  GArray          *plates;         /* guint32: recipe slots by name */
  GArray          *menus;          /* guint32: menu slots by name */
  GArray          *entries;        /* guint32: slots of menu_plates, menu by menu */
  GArray          *offers;         /* guint32: offer slots, ingredient by ingredient */
  guint32         *number_of_item; /* by slot */
  GHashTable      *number_of_name; /* ingredient → number + 1; NULL until it is asked for */
  guint32         *number_of_row;  /* by row: of its batch or its plate */
  guint32         *first_offer;    /* by ingredient */
  guint32         *first_output;   /* by batch */
  guint32         *first_entry;    /* by menu */
  guint32         *number_of_offer; /* by slot */
  guint64         *node_lacks;     /* by node and by row of the graph: cro-office-known.c */
  guint64         *row_lacks;
  GPtrArray       *currencies;     /* const char *, sorted */
  CroOfficePrices  prices;
  CroOfficeGoOn    go_on;
  gpointer         user_data;
} CroOffice;

static inline guint32
cro_office_slot (GArray  *slots,
                 guint32  index)
{
  return g_array_index (slots, guint32, index);
}

/* Numbers everything (cro-office-order.c); prices are loaded after it. */
void cro_office_init  (CroOffice         *self,
                       CroBook           *book);
void cro_office_clear (CroOffice         *self);

/* What is missing of which layer, before any of it is asked. */
void cro_office_find_lacks     (CroOffice        *self);

/* known[CRO_WORKBOOK_N_LAYERS]. Of a plate or batch by its row, of a menu by its number, of what an
 * item costs, and of a line at a position of the graph. */
void cro_office_known_of_plate (CroOffice        *self,
                                guint32           row,
                                CroWorkbookKnown *known);
void cro_office_known_of_menu  (CroOffice        *self,
                                guint32           index,
                                CroWorkbookKnown *known);
void cro_office_known_of_batch (CroOffice        *self,
                                guint32           row,
                                CroWorkbookKnown *known);
void cro_office_known_of_item  (CroOffice        *self,
                                guint32           item,
                                CroWorkbookKnown *known);
void cro_office_known_of_line  (CroOffice        *self,
                                guint32           position,
                                CroWorkbookKnown *known);

/* Sets the functions that rows are asked of (cro-office-rows.c), and their data. */
void cro_office_serve (CroOffice         *self,
                       CroWorkbookSource *source);

G_END_DECLS
