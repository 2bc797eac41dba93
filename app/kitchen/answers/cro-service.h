/* cro-service.h: a service as it is entered: covers by plate and menu, and what is in the house
 * already.
 *
 * Units      Covers in millionths; amounts in millionths of the unit beside them.
 * Ownership  A service owns its arrays; names are those of the model's things.
 * Errors     CRO_STORE_ERROR. */
#pragma once

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

typedef struct
{
  gint64  id;       /* of the row; 0: it is not in the book */
  CroRef  thing;    /* a plate or a menu */
  gint64  covers;
} CroCovers;

typedef struct
{
  gint64  id;
  guint32 item;
  gint64  amount;
  CroUnit unit;
} CroInHouse;

typedef struct
{
  GArray *covers;    /* CroCovers, in the order in which they were entered */
  GArray *in_house;  /* CroInHouse, likewise */
} CroService;

CroService *cro_service_new  (void);
void        cro_service_free (CroService  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroService, cro_service_free)

/* Of a day, as the book has it; empty where nothing was entered. name is a tidy one. */
CroService *cro_service_read (CroBook     *book,
                              CroDate      date,
                              const char  *name,
                              GError     **error);

/* The latest day before date, on the same weekday, that has covers of a service of that name. FALSE
 * with *found as it was where there is none; and on failure, with error. */
gboolean    cro_service_find_before (CroBook     *book,
                                     CroDate      date,
                                     const char  *name,
                                     CroDate     *found,
                                     GError     **error);

/* A day's services that have covers. */
typedef struct
{
  CroDate date;
  char   *name;
} CroServiceDay;

/* All of a book, latest day first, by name within a day. Elements CroServiceDay, which the array
 * frees; NULL with error. */
GArray     *cro_services_list (CroBook    *book,
                               GError    **error);

/* An amount in base units of an item; NaN where it cannot be converted. *lacks (CroLack bits; may be NULL)
 * says what it needs then, and is 0 otherwise. */
double      cro_service_in_base (CroModel   *model,
                                 guint32     item,
                                 gint64      amount,
                                 CroUnit     unit,
                                 unsigned   *lacks);

G_END_DECLS
