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

/* What keeps it from being whole, on standard error; FALSE: nothing. */
gboolean cro_cli_say_month_incomplete (const CroMonth *month);

/* Accounts of a journal; NULL path: none. On FALSE the command ends with *status, and why was told. */
gboolean cro_cli_read_accounts     (const char     *path,
                                    GHashTable    **accounts,
                                    CroCliStatus   *status);

/* The journal of a month as a table; - is standard output. */
CroCliStatus cro_cli_write_journal (const CroMonth *month,
                                    const char     *path,
                                    GHashTable     *accounts,
                                    const char     *language);

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
