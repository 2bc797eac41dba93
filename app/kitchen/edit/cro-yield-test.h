/* cro-yield-test.h: the trim and cutting tests behind an ingredient's yield.
 *
 * Units      Weights in millionths of a gram.
 * Ownership  Arrays returned are the caller's, and own their texts.
 * Errors     As cro-edit.h. */
#pragma once

#include "cro-book.h"
#include "cro-yield.h"

G_BEGIN_DECLS

typedef struct
{
  gint64   id;               /* of the row of table yield_test */
  char    *name;
  CroDate  date;
  gint64   purchased;
  gint64   usable;
  char    *note;             /* NULL: none */
} CroYieldTest;

/* Of one item, newest first. Elements CroYieldTest; NULL on failure. */
GArray         *cro_yield_tests_new  (CroBook        *book,
                                      guint32         item,
                                      GError        **error);

/* Tests of which something was weighed in; see cro_yield_pool. */
CroPooledYield  cro_yield_tests_pool (GArray         *tests);

/* What a test gave beside the usable part. */
typedef struct
{
  gint64   id;               /* of the row of table yield_test_part */
  guint32  output;           /* slot of an item */
  gint64   weight;
} CroYieldTestPart;

/* Of one test. Elements CroYieldTestPart; NULL on failure. */
GArray         *cro_yield_test_parts_new (CroBook    *book,
                                      gint64          test,
                                      GError        **error);

/* The name is made unique by a number behind it. */
gboolean        cro_yield_test_add   (CroBook        *book,
                                      const char     *label,
                                      guint32         item,
                                      const char     *name,
                                      CroDate         date,
                                      gint64          purchased,
                                      gint64          usable,
                                      GError        **error);

/* With its parts. */
gboolean        cro_yield_test_remove (CroBook       *book,
                                      const char     *label,
                                      gint64          test,
                                      GError        **error);

/* The weight of one output in a test; 0 takes it out again. */
gboolean        cro_yield_test_set_part (CroBook     *book,
                                      const char     *label,
                                      gint64          test,
                                      guint32         output,
                                      gint64          weight,
                                      GError        **error);

/* The yields of a preparation into which the item goes alone: of the main output what was usable,
 * of each by-product what was weighed of it, over all that was bought for those tests; in place
 * of weighed amounts. What no test weighed, and what is not measured by weight, stays. */
gboolean        cro_yield_test_set_outputs (CroBook  *book,
                                      const char     *label,
                                      guint32         preparation,
                                      guint32         item,
                                      GError        **error);

/* By-products that tests of an item weigh, or may: those that are in one of the tests, and those of
 * preparations into which the item goes alone. Elements guint32, slots of items, each once; NULL on
 * failure. */
GArray         *cro_yield_test_outputs (CroBook      *book,
                                      guint32         item,
                                      GArray         *tests,
                                      GError        **error);

G_END_DECLS
