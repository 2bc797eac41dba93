/* statements.h: what is asked of SQLite. */
#pragma once

#include <glib.h>

/* Every book that is opened from now on is counted. */
void  cro_test_statements_watch (void);

/* How many statements were run on all of them. */
guint cro_test_statements       (void);
