/* cro-cli-month.h: what the commands about months share. */
#pragma once

#include "cro-cli.h"
#include "cro-json.h"
#include "cro-month-table.h"
#include "cro-month.h"

G_BEGIN_DECLS

/* A month as YYYY-MM that has begun. FALSE says why not. */
gboolean cro_cli_read_month        (const char     *text,
                                    CroDate        *first);

/* One object; see the contract. */
void     cro_cli_add_month_json    (CroJson        *json,
                                    const CroMonth *month);

/* A table and what is said below it. */
void     cro_cli_print_table       (const CroMonthTable *table);
void     cro_cli_print_notes       (const CroMonthTable *table);

void     cro_cli_print_month_table (CroBook        *book,
                                    const CroMonth *month);

/* Plates and menus by how often they were sold and what one left. */
void     cro_cli_add_matrix_json   (CroJson        *json,
                                    const CroMonth *month);
void     cro_cli_print_matrix      (CroBook        *book,
                                    const CroMonth *month);

/* Why theoretical food cost changed from one closed month to another. */
void     cro_cli_add_bridge_json   (CroJson        *json,
                                    const CroMonth *from,
                                    const CroMonth *to);
void     cro_cli_print_bridge      (CroBook        *book,
                                    const CroMonth *from,
                                    const CroMonth *to);

G_END_DECLS
