/* cro-package-numbers.h: numbers of a sheet as they were meant.
 *
 * The library prints 16 digits, of which a double does not always have as many: 720.81 comes out as
 * 720.8099999999999, which reads as another number. What 13 digits or fewer tell is written in those. */
#pragma once

#include <glib.h>
#include <stdio.h>

/* *rows: cells of a sheet as SpreadsheetML has them (ECMA-376 part 1, 18.3.1.4), all of them in their file, which
 * gets shorter in place and is opened anew; where it is no file, they stay. FALSE with errno. */
gboolean cro_package_mend_numbers (FILE **rows);
