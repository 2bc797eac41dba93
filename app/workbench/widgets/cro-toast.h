/* cro-toast.h: what is said over a window for a moment. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/* A sentence, or the name of an act as the history has it, which begins with a capital here. Not markup. */
void cro_toast_say (AdwToastOverlay *toasts,
                    const char      *text);

G_END_DECLS
