/* cro-intake-open.h: a month's rows as they come, of a file or of a clipboard; cro-intake.h says
 * what they hold.
 *
 * Neither asks the book: a thread may open them. go_on ends the reading where it answers FALSE.
 *
 * Errors     Of cro-brought.h and of the file. Where go_on ended it NULL comes without one. */
#pragma once

#include "cro-intake.h"

G_BEGIN_DECLS

/* Of a workbook the first sheet that has headings of the kind, else the first. Owned. */
CroBrought *cro_intake_open_file   (const char     *path,
                                    CroIntakeKind   kind,
                                    gboolean      (*go_on) (gpointer user_data),
                                    gpointer        user_data,
                                    GError        **error);

/* Rows between tabs; of counts also a line each. Owned. */
CroBrought *cro_intake_open_pasted (const char     *text,
                                    CroIntakeKind   kind,
                                    gboolean      (*go_on) (gpointer user_data),
                                    gpointer        user_data,
                                    GError        **error);

G_END_DECLS
