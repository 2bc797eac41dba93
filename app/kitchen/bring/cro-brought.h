/* cro-brought.h: a sheet that somebody brings, in memory, and what its columns seem to be.
 *
 * Columns are matched by their headings, in English and in French, whatever the locale: the headings
 * stand in the first row that has the most of them. Cells shown as one hold the same in each. Of several
 * columns of prices the one to pay is taken (cro-price-heading.h); rival is set where nothing tells which.
 *
 * Units      Rows and columns from 0 here; a row has the number that its spreadsheet shows too.
 * Ownership  Texts live as long as the sheet.
 * Errors     those of cro-spreadsheet.h; TOO_LARGE too where it has more than
 *            CRO_BROUGHT_MOST_CELLS cells. */
#pragma once

#include "cro-spreadsheet.h"

G_BEGIN_DECLS

#define CRO_BROUGHT_MOST_CELLS 4000000u

/* The most columns that can be matched. */
#define CRO_BROUGHT_MOST_COLUMNS 64

/* What a column holds. */
typedef enum
{
  CRO_ROLE_NONE,
  CRO_ROLE_RECIPE,        /* the recipe that a line stands in; empty: that of the row above */
  CRO_ROLE_NAME,          /* of the ingredient, or what the line takes */
  CRO_ROLE_AMOUNT,
  CRO_ROLE_UNIT,          /* of the amount, of the pack's size, or what a price is for */
  CRO_ROLE_PRICE,
  CRO_ROLE_PACK,          /* "6 x 1 kg" */
  CRO_ROLE_PACK_COUNT,
  CRO_ROLE_PACK_SIZE,
  CRO_ROLE_SUPPLIER,
  CRO_ROLE_CODE,
  CRO_ROLE_GTIN,
  CRO_ROLE_CURRENCY,
  CRO_ROLE_DATE,          /* from which the price holds */
  CRO_ROLE_TRIM_YIELD,    /* per cent, or parts of 1 */
  CRO_ROLE_CATEGORY,
  CRO_ROLE_MAKES,         /* how many bites or portions a recipe makes, or how much with its unit */
  CRO_ROLE_GIVES,         /* how much of it a batch gives */
  CRO_ROLE_COURSE,
  CRO_ROLE_SELLING_PRICE,
  CRO_ROLE_NOTE,
  CRO_ROLE_BASE_PRICE,    /* per kg, l or piece, whatever the pack: no heading says so, a person does */
  CRO_ROLE_ALLERGENS,     /* what an ingredient contains */
  CRO_N_ROLES,
} CroRole;

typedef struct
{
  guint               number;    /* of the row, as its spreadsheet shows it */
  guint               n_cells;
  const CroReadCell  *cells;
} CroBroughtRow;

typedef struct
{
  char         *path;
  guint         sheet;
  GArray       *rows;            /* CroBroughtRow */
  guint         n_columns;       /* CRO_BROUGHT_MOST_COLUMNS at most */
  int           headings;        /* the row of the headings; -1: there are none */
  CroRole       roles[CRO_BROUGHT_MOST_COLUMNS];
  gint8         units[CRO_BROUGHT_MOST_COLUMNS]; /* CroUnit of a size that its heading names, "Weight (kg)"; -1: none */
  int           rival;           /* another column that may change the price to pay, or that of the prices,
                                    which says that it is none; -1: there is none */
  char          decimal[CRO_BROUGHT_MOST_COLUMNS]; /* of texts that leave it open; '\0': unknown */
  char          said;            /* what the person says of them; '\0': nothing */

  GStringChunk *texts;
  GPtrArray    *cells;           /* what rows own */
  guint         n_cells;
} CroBrought;

/* NULL with error. go_on may be NULL; where it answers FALSE: NULL with error unset. */
CroBrought        *cro_brought_new      (const char        *path,
                                         guint              sheet,
                                         gboolean         (*go_on) (gpointer user_data),
                                         gpointer           user_data,
                                         GError           **error);
void               cro_brought_free     (CroBrought        *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroBrought, cro_brought_free)

/* An empty cell where the row has none. */
const CroReadCell *cro_brought_get      (const CroBrought  *self,
                                         guint              row,
                                         guint              column);

/* The cell of the column with that role; empty where no column has it. *column may be NULL. */
const CroReadCell *cro_brought_get_role (const CroBrought  *self,
                                         guint              row,
                                         CroRole            role,
                                         guint             *column);

gboolean           cro_brought_has_role (const CroBrought  *self,
                                         CroRole            role);

/* That of the column of prices: CRO_ROLE_PRICE, or CRO_ROLE_BASE_PRICE where a column has that one. */
CroRole            cro_brought_price_role (const CroBrought *self);

/* A column takes a role, which no other one has then; NONE can be many's. Prices
 * are per pack or per kg, l or piece, and stand in one column. */
void               cro_brought_set_role (CroBrought        *self,
                                         guint              column,
                                         CroRole            role);

/* What a heading says: NONE where it is no word of ours, or of a price that holds no longer. */
CroRole            cro_role_of_heading  (const char        *heading);

/* The same where all of its words say it: "Price date", not "Code of the week". */
CroRole            cro_role_of_whole_heading (const char *heading);

/* Whether it may head the names of goods, where no other column does: "Species". */
gboolean           cro_role_may_be_name (const char        *heading);

/* Whether a column is the number of what the column beside it describes: "Item", "Description". */
gboolean           cro_role_is_number_beside (const char   *heading,
                                              const char   *beside);

/* A number as it stands in a cell: millionths. Signs of per cent are passed over,
 * and what groups digits by three; a unit behind it is left in *rest (may be NULL: then it is a
 * fault). A sign that can only be decimal, or only group, is read so in each cell, whatever the
 * others of its column say. FALSE: it is none. */
gboolean           cro_brought_number   (const CroBrought  *self,
                                         const CroReadCell *cell,
                                         guint              column,
                                         gint64            *micro,
                                         const char       **rest);

/* The same of money: signs and codes of currencies are passed over too. "5 KGS" is som here, and
 * kilograms of an amount. */
gboolean           cro_brought_money    (const CroBrought  *self,
                                         const CroReadCell *cell,
                                         guint              column,
                                         gint64            *micro,
                                         const char       **rest);

/* Whether the one sign of its number, before three digits, could be decimal or group, and neither
 * its column nor the person says which: it is no number then. */
gboolean           cro_brought_is_doubtful (const CroBrought  *self,
                                            const CroReadCell *cell,
                                            guint              column);

/* A cell's text, whose numbers are read alike in every locale. Owned; NULL: one is doubtful. */
char              *cro_brought_dup_plain   (const CroBrought  *self,
                                            const CroReadCell *cell,
                                            guint              column);

/* What the decimal sign of those is: '.', ',' or '\0' for unknown. */
void               cro_brought_say_decimal (CroBrought        *self,
                                            char               sign);

G_END_DECLS
