/* cro-cli-json.h: what costs, plans, months and allergens are all given as in JSON. Each adds one value to
 * what is open; name is NULL in an array. */
#pragma once

#include "cro-cause.h"
#include "cro-json.h"
#include "cro-known.h"
#include "cro-model.h"

G_BEGIN_DECLS

/* NaN: null. */
void cro_cli_json_number (CroJson    *json,
                          const char *name,
                          double      value);

/* How much is known of a figure: "whole", or what stands for it is "at-least", "at-most", "in-part" or "nothing". */
void cro_cli_json_known  (CroJson    *json,
                          const char *name,
                          CroKnown    known);

/* ISO 8601. */
void cro_cli_json_day    (CroJson    *json,
                          const char *name,
                          CroDate     day);

/* Elements char *. */
void cro_cli_json_names  (CroJson    *json,
                          const char *name,
                          GPtrArray  *names);

/* What guests' choices may make of a cost; null where cheapest is NaN: they have none. */
void cro_cli_json_range  (CroJson    *json,
                          double      cheapest,
                          double      dearest);

/* "missing"; of CroCause. */
void cro_cli_json_causes (CroJson    *json,
                          GArray     *causes);

/* "unit": the code of the unit that an item is measured in. */
void cro_cli_json_base   (CroJson    *json,
                          CroModel   *model,
                          guint32     item);

/* Prints what was written to standard output, whole or not at all. FALSE with CRO_JSON_ERROR or
 * G_FILE_ERROR. */
gboolean cro_cli_json_print (CroJson   *json,
                          GError    **error);

G_END_DECLS
