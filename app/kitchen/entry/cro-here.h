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

/* The day that an act of now belongs to in the book as it stood: until 04:00 the day before (cro-history.h). */
CroDate  cro_here_day_of_acts (void);

/* Whether a day is today for who works through the night: that of the calendar, and until 04:00 the day before too. */
gboolean cro_here_is_today (CroDate day);

G_END_DECLS
