/* kitchen-tables.h: a small sound folder of tables, and faults as text.
 *
 * Ownership  Texts returned are the caller's. */
#pragma once

#include "cro-fault.h"

/* A case takes the place of one of these. January 2026 is closed. */
void  cro_test_write_tables  (const char *folder,
                              const char *table,
                              const char *text);

/* One a line: "file:line:column kind [value] (detail)", "-" for a row as a whole. */
char *cro_test_faults        (CroFaults  *faults);

/* Every table of a folder, one after the other. */
char *cro_test_folder_text   (const char *folder);
