/* cro-json.h: one JSON value, written from the outside in.
 *
 * Numbers    have as many digits as it takes to read back to the same double, 17 at most,
 *            whatever the locale. JSON has no infinity and no NaN: such a number makes printing
 *            fail, so that nothing false and nothing unreadable goes out. (json-glib 1.6 prints
 *            1e-10 as 1e-10.0, which is no JSON.)
 * Names      A value inside an object has a name; one inside an array, and the outermost, NULL.
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

/* All that was written, indented, with a line end; owned. NULL, naming the first number that is
 * not finite. */
char    *cro_json_print        (CroJson    *json,
                                GError    **error);

G_END_DECLS
