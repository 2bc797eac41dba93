/* cro-settings-window.h: what holds for the whole house: its name, currency, wage, tax, target. */
#pragma once

#include <adwaita.h>

#include "cro-book.h"

G_BEGIN_DECLS

GtkWidget *cro_settings_window_new (GtkWindow *parent,
                                    CroBook   *book);

G_END_DECLS
