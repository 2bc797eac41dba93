/* cro-here.h: who writes, and what day it is where they are. */
#pragma once

#include <glib.h>

#include "cro-date.h"

G_BEGIN_DECLS

/* "name on machine", as the history shows it. Owned. */
char    *cro_here_dup_desk (void);

CroDate  cro_here_today    (void);

G_END_DECLS
