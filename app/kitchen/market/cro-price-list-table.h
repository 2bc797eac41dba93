/* cro-price-list-table.h: a supplier's table while it is read, and what it says of tax.
 *
 * Units      Decimals and per cents in millionths. */
#pragma once

#include "cro-brought-pack.h"
#include "cro-price-column.h"
#include "cro-price-list-private.h"

G_BEGIN_DECLS

/* What a title over the rows of a part of a table says that their prices are for, "PRICES PER KG", "PER CASE". */
typedef struct
{
  guint             row;             /* of the title */
  CroPricePer       per;
  gboolean          is_of_pack;
} CroListSection;

typedef struct
{
  CroPriceList     *list;
  const CroListBook *of;
  const CroBrought *brought;
  CroListSaid       said;            /* by notes */
  GArray           *names;           /* of rows with words beside a name (cro_list_names_add); NULL: none so far */
  GArray           *notes;           /* of each row its CroListNote, as char */
  GArray           *sections;        /* CroListSection, where all rows stand below such titles that differ; NULL */
  CroColumnKind     kinds[CRO_BROUGHT_MOST_COLUMNS]; /* of a table that has headings */
  const char       *alike[CRO_BROUGHT_MOST_COLUMNS]; /* what most rows say there alike; NULL: they do not */
  guint16           uses[CRO_BROUGHT_MOST_COLUMNS]; /* what each says of packs (cro-price-list-table-size.c) */
  guint8            checks[CRO_BROUGHT_MOST_COLUMNS]; /* what else is held against it (cro-price-list-table-check.c) */
  gint8             size_units[CRO_BROUGHT_MOST_COLUMNS]; /* of numbers alone that are sizes, "Kg per sack"; -1 */
  const char       *unit_heading;    /* "Unit price": it may be of one in a pack; NULL */
  const char       *inner_heading;   /* "Price per bottle", of one in a case; NULL */
  CroPricePer       per;             /* "Price per kg" */
  gboolean          is_of_pack;      /* "Price per pack" */
  const char       *said_open;       /* a heading or a note of that, or of a currency, that is not understood; NULL */
  CroPriceTax       says_tax;
  gint64            tax_pct;         /* the rate that it says is in them; 0: none */
  const char       *tax_open;        /* a heading or a note that says something of it and leaves open what; NULL */
  gboolean          is_tax_asked_of_all; /* that is a note, and none says that any has tax */
  const char       *net_heading;     /* "Net price", which may be after a discount as well; NULL */
  const char       *currency;        /* what a heading or a note says of all prices; NULL */
  int               tax_column;      /* what tells most of tax beside the prices, "VAT %"; -1: none */
  CroTaxColumn      tax_kind;
} CroListTable;

/* The number of a cell, of money too. */
gboolean    cro_list_table_read_number (CroListTable *self,
                                        guint         index,
                                        guint         column,
                                        gint64       *number);

/* What the rows that name no goods say of all prices; which they are, self->notes has then. */
void        cro_list_table_take_notes  (CroListTable *self);

/* What the title over a row says becomes what the price is for, where the table has sections. */
void        cro_list_table_enter_section (CroListTable     *self,
                                          guint             index);

/* A row for a note that is not understood, as a message has it. */
void        cro_list_table_add_note    (CroListTable *self,
                                        guint         index,
                                        guint         number);

/* The day that all rows say that say any; CRO_NO_DAY: they say none, or several. */
CroDate     cro_list_table_date_of_all (CroListTable *self);

/* Before rows are read, where nobody said what its columns are: a weight that is the pack's, numbers that count lines
 * and are no codes. */
void        cro_list_table_settle_columns (CroBrought        *brought,
                                           const CroListBook *of);

/* What each column beside the prices holds. */
void        cro_list_table_find_kinds  (CroListTable      *self);

/* Whether another column of prices, of before too, has one of a row. */
gboolean    cro_list_table_has_other_price (CroListTable     *self,
                                            guint             index);

/* What other columns say of a price that is read: its currency, for how much it is, and what is asked of it. */
void        cro_list_table_read_beside (CroListTable *self,
                                        guint         index,
                                        CroListRow   *row);

/* Which columns may say something of packs. */
void        cro_list_table_find_sizes (CroListTable       *self);

/* A pack, a size or a count in any column or in the name that is not read as the pack of a price, and a unit alone that
 * the price may be for. */
void        cro_list_table_read_size_beside (CroListTable *self,
                                             guint         index,
                                             CroListRow   *row);

/* "Agar 500g" in a row without a code, where the book has the name without that: it is the row's pack, or the one that
 * another column has. Else row is as it was. */
void        cro_list_table_split_size (CroListTable       *self,
                                       CroListRow         *row);

/* Whether a column has money by its heading, "Montant colis HT", and no packs. */
gboolean    cro_list_table_is_of_money (CroListTable      *self,
                                        guint              column);

/* Of who quotes per kg, l or piece what is priced by the pack: "BAG" under "Unit", or all that the list says so. */
void        cro_list_table_read_package (CroListTable     *self,
                                         guint             index,
                                         CroListRow       *row);

/* Which columns have amounts and prices that are read as no pack, and are held against that of the price. */
void        cro_list_table_find_checks (CroListTable      *self);

/* What they say of a row, of which has_size says whether another column had the size of its pack. */
void        cro_list_table_check_pack  (CroListTable      *self,
                                        guint              index,
                                        gboolean           has_size,
                                        CroListRow        *row);

/* Whether a row has a pack, or the book one for it, that is weighed or poured and not counted. */
gboolean    cro_list_table_has_measured_pack (CroListTable     *self,
                                              const CroListRow *row);

/* Whether the unit of a row is each pack: "CS", a case and no spoon of the French, and "EA" of what is packed by
 * weight. */
gboolean    cro_list_table_is_each_pack (CroListTable      *self,
                                         guint              index,
                                         CroListRow        *row);

/* Whether so many of a size are a pack; unit NULL: it is any everyday one of its kind. */
gboolean    cro_list_table_is_pack_of  (const CroPack     *pack,
                                        gint64             size,
                                        const CroUnit     *unit,
                                        gint64             n);

/* What all prices say of tax, and which column beside them tells most of it. */
void        cro_list_table_find_tax (CroListTable *self);

/* What a column of tax says of the price: any other that has their sum says that it is without. No tax is none. What a
 * rate, a code or words there say of it is asked. */
void        cro_list_table_read_tax_beside (CroListTable *self,
                                            guint         index,
                                            guint         price_column,
                                            CroListRow   *row);

G_END_DECLS
