/* cro-json.h: one JSON value, written from the outside in.
 *
 * Numbers    read back to the same double, whatever the locale: 17 digits, or the 15 that were
 *            typed where 17 would only add 0s or 9s. JSON has no infinity and no NaN: such a number makes printing
 *            fail, so that nothing false and nothing unreadable goes out. (json-glib 1.6 prints
 *            1e-10 as 1e-10.0, which is no JSON.)
 * Names      A value inside an object has a name; one inside an array, and the outermost, NULL.
 * Pieces     A large value is handed on as it grows (cro_json_take); values inside an array can be
 *            written apart, by several threads, and be added in their order.
 * Ownership  Texts are copied and must be valid UTF-8.
 * Errors     CRO_JSON_ERROR. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  CRO_JSON_ERROR_NOT_FINITE,
} CroJsonError;

#define CRO_JSON_ERROR (cro_json_error_quark ())
GQuark   cro_json_error_quark  (void);

typedef struct _CroJson CroJson;

CroJson *cro_json_new          (void);

/* For values that are to stand in an array at that depth: 2 for what an array inside the outermost
 * object holds. */
CroJson *cro_json_new_piece    (guint       depth);
void     cro_json_free         (CroJson    *json);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroJson, cro_json_free)

void     cro_json_begin_object (CroJson    *json,
                                const char *name);
void     cro_json_end_object   (CroJson    *json);

void     cro_json_begin_array  (CroJson    *json,
                                const char *name);
void     cro_json_end_array    (CroJson    *json);

/* A text of NULL is null. */
void     cro_json_text         (CroJson    *json,
                                const char *name,
                                const char *text);

/* null where value is not known. */
void     cro_json_number       (CroJson    *json,
                                const char *name,
                                double      value,
                                gboolean    known);

void     cro_json_boolean      (CroJson    *json,
                                const char *name,
                                gboolean    value);

/* Appends what was written in a piece of this depth, and empties it. */
void     cro_json_add_piece    (CroJson    *json,
                                CroJson    *piece);

/* What was written since it was last taken; borrowed until more is written. A number that is not
 * finite stands there as null: cro_json_print () of the rest is refused. */
const char *cro_json_take      (CroJson    *json,
                                gsize      *length);

/* All that was written, indented, with a line end; owned. NULL, naming the first number that is
 * not finite. */
char    *cro_json_print        (CroJson    *json,
                                GError    **error);

G_END_DECLS
