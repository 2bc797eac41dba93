/* cro-settings-window.h: what holds for the whole house: its name, currency, wage, tax, target. */
#pragma once

#include <adwaita.h>

#include "cro-book.h"

G_BEGIN_DECLS

#define CRO_TYPE_SETTINGS_WINDOW (cro_settings_window_get_type ())
G_DECLARE_FINAL_TYPE (CroSettingsWindow, cro_settings_window, CRO, SETTINGS_WINDOW, AdwWindow)

GtkWidget *cro_settings_window_new (GtkWindow *parent,
                                    CroBook   *book);

G_END_DECLS
