/* cro-bench.h: what the benches of the window share: a book, the thing on the bench, and the
 * way to other things.
 *
 * A bench shows one thing of one kind. It is told to refresh whenever the book's figures moved
 * (own act, undo, preview, another process); it never keeps a figure of its own.
 *
 * Ownership  A bench holds a reference to its book. */
#pragma once

#include <gtk/gtk.h>

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* The places of the window, in the order of the rail. */
typedef enum
{
  CRO_PLACE_PLATES,
  CRO_PLACE_PREPARATIONS,
  CRO_PLACE_LARDER,
  CRO_PLACE_MARKET,
  CRO_PLACE_MONTHS,
  CRO_N_PLACES,
} CroPlace;

#define CRO_TYPE_BENCH (cro_bench_get_type ())
G_DECLARE_DERIVABLE_TYPE (CroBench, cro_bench, CRO, BENCH, GtkWidget)

struct _CroBenchClass
{
  GtkWidgetClass parent_class;

  CroRefKind kind;               /* of what stands on it; CRO_REF_NONE: no one thing */

  /* Another thing stands on the bench: rebuild. */
  void (*show)    (CroBench *self);
  /* Figures or values of the thing moved: write them anew, rows that stay keep their widgets
   * and the focus. */
  void (*refresh) (CroBench *self);
  /* Somebody comes to enter what a cause of CroCauseKind lacks: brings its field on the screen.
   * NULL: it is there. */
  void (*ask)     (CroBench *self, int cause);
};

void       cro_bench_set_book (CroBench    *self,
                               CroBook     *book);
CroBook   *cro_bench_get_book (CroBench    *self);

/* What the bench shows: a head that stays in sight, and what scrolls below it. For init. */
void       cro_bench_set_content (CroBench  *self,
                                  GtkWidget *head,
                                  GtkWidget *content);

/* What the head's figures are not of, in few words and in a sentence, and where that is; NULL: nothing. A
 * CroCausesView of the bench shows it (signal "note": the same). */
void       cro_bench_note     (CroBench    *self,
                               const char  *note,
                               const char  *details,
                               GtkWidget   *leads_to);

/* The same as the content where the page lays itself out. For init. */
void       cro_bench_set_page (CroBench    *self,
                               GtkWidget   *page);

/* Shows something in place of all that, until the bench shows another thing or cover is NULL. */
void       cro_bench_set_cover (CroBench   *self,
                                GtkWidget  *cover);

/* What is about the thing on the bench and has time, from the main loop; where *id is set it waits already. It goes
 * with the book: none is ever done without one, or with another. func sets *id to 0 where it does not go on, and
 * whoever is disposed of removes it. */
void       cro_bench_defer    (CroBench    *self,
                               guint       *id,
                               int          priority,
                               GSourceFunc  func,
                               gpointer     user_data);

/* Puts a thing on the bench. */
void       cro_bench_put      (CroBench    *self,
                               guint32      slot);
guint32    cro_bench_get_slot (CroBench    *self);
CroRef     cro_bench_get_ref  (CroBench    *self);

/* The label of an act: a field's name and the thing it belongs to, "price of Crab croustade"; or
 * of what stands on the bench. Owned. */
char      *cro_act_dup_label  (const char  *of_what,
                               const char  *name);
char      *cro_bench_dup_label (CroBench   *self,
                               const char  *of_what);

/* The same of the act that made a thing of that name: "addition of Crab croustade". Owned. */
char      *cro_act_dup_addition (const char *name);

#define CRO_NO_CAUSE (-1)

/* Asks the window to open another thing (signal "open-ref": kind, slot, cause). An item that is made
 * opens its preparation. */
void       cro_bench_open     (CroBench    *self,
                               CroRef       ref);

/* The same to enter what is missing: cause is one of CroCauseKind, CRO_CAUSE_SELLING_PRICE or CRO_CAUSE_TAX. */
void       cro_bench_open_cure (CroBench   *self,
                                CroRef      ref,
                                int         cause);

/* Asks the window to say something in passing (signal "say": text). */
void       cro_bench_say      (CroBench    *self,
                               const char  *text);

/* The same for an act that failed, in words. */
void       cro_bench_fail     (CroBench    *self,
                               const GError *error);

G_END_DECLS
