/* cro-package.h: whether a packed workbook came out whole.
 *
 * The library that packs it copies every part through a temporary file and does not ask whether
 * that was written: on a full disk a part ends early and is packed as it is. So each part is
 * looked at: small ones to the end of their root element; large sheets, which take as long to
 * unpack as a tenth of the writing, by their size. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* least[i] is what the rows of sheet i + 1 take, which its part must be larger than. */
gboolean cro_package_is_whole (const char     *path,
                               const guint64  *least,
                               guint           n_sheets);

G_END_DECLS
