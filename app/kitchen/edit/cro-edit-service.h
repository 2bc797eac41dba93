/* cro-edit-service.h: what people enter for a service, each change one act.
 *
 * A service is a day and a name, tidied first: "dinner". It is there while a row of it is.
 *
 * Units      Covers in millionths; an amount in millionths of its unit.
 * Errors     CRO_REFUSAL or CRO_STORE_ERROR; then nothing was changed. */
#pragma once

#include "cro-edit.h"
#include "cro-service.h"

G_BEGIN_DECLS

/* Covers of a plate or a menu; CRO_NOT_SET: its row goes. */
gboolean cro_edit_set_covers   (CroBook     *book,
                                const char  *label,
                                CroDate      date,
                                const char  *service,
                                CroRef       thing,
                                gint64       covers,
                                GError     **error);

/* Covers of the same service on another day (cro_service_find_before says of which), for every
 * plate and menu that has none yet: what was typed stays. */
gboolean cro_edit_take_covers  (CroBook     *book,
                                const char  *label,
                                CroDate      date,
                                const char  *service,
                                CroDate      from,
                                GError     **error);

/* What is in the house already of an ingredient or an output; CRO_NOT_SET: its row goes. */
gboolean cro_edit_set_in_house (CroBook     *book,
                                const char  *label,
                                CroDate      date,
                                const char  *service,
                                guint32      item,
                                gint64       amount,
                                CroUnit      unit,
                                GError     **error);

G_END_DECLS
