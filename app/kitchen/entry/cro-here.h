/* cro-here.h: who writes, and what day it is where they are. */
#pragma once

#include <glib.h>

#include "cro-date.h"

G_BEGIN_DECLS

/* "name on machine", as books keep it: one desk has one name in all languages. Owned. */
char    *cro_here_dup_desk (void);

/* A desk as people read it, in their language. Owned. */
char    *cro_here_desk_to_text (const char *desk);

CroDate  cro_here_today    (void);

G_END_DECLS
