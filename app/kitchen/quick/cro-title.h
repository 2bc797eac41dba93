/* cro-title.h: the title of a recipe as people write it, and the yield that stands in it.
 *
 *   Crab butter (450 g)      Crab croustade, makes 24      Bouillon pour 12 couverts
 *   Cucumber gel: gives about 1.2 kg    Bisque – 8 couverts
 *
 * Units      Decimals in millionths.
 * Ownership  A title owns its name. */
#pragma once

#include <glib.h>

#include "cro-unit.h"

G_BEGIN_DECLS

typedef struct
{
  char     *name;       /* tidied, without what was read from it */
  gint64    makes;      /* pieces or portions; 0: nothing is said */
  gint64    gives;      /* an amount; 0: nothing is said */
  CroUnit   gives_unit;
} CroTitle;

void cro_title_read  (const char *text,
                      CroTitle   *title);

/* A yield alone: "Serves 8", "Makes 24 tartlets", "4 portions", "pour 6 personnes". Its name is
 * empty. Whether it is one. */
gboolean cro_title_read_yield (const char *text,
                               CroTitle   *title);

void cro_title_clear (CroTitle   *title);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CroTitle, cro_title_clear)

G_END_DECLS
