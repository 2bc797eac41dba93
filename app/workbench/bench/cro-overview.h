/* cro-overview.h: the page of all plates, all preparations, or all ingredients: what is about more
 * than one of them, in views of which one is seen at a time.
 *
 * Views have numbers, which are their keys: Ctrl+1 to Ctrl+4. Where the book has nothing of the
 * kind, the page is one sentence, one line to type the first into, and a button that makes it. */
#pragma once

#include "cro-bench.h"
#include "cro-kind.h"

G_BEGIN_DECLS

/* What stands on the bench then. No slot: it is of no one thing. */
#define CRO_REF_ALL_PLATES CRO_REF (CRO_REF_MENU, CRO_NO_SLOT)
#define CRO_REF_ALL_PREPARATIONS CRO_REF (CRO_REF_RECIPE, CRO_NO_SLOT)
#define CRO_REF_ALL_INGREDIENTS CRO_REF (CRO_REF_ITEM, CRO_NO_SLOT)

static inline gboolean
cro_ref_is_overview (CroRef ref)
{
  return ref.slot == CRO_NO_SLOT
         && (ref.kind == CRO_REF_MENU || ref.kind == CRO_REF_RECIPE || ref.kind == CRO_REF_ITEM);
}

#define CRO_TYPE_OVERVIEW (cro_overview_get_type ())
G_DECLARE_DERIVABLE_TYPE (CroOverview, cro_overview, CRO, OVERVIEW, CroBench)

struct _CroOverviewClass
{
  CroBenchClass parent_class;

  CroKind    kind;            /* of what it is about: the page is empty where there is none of it */

  /* Adds the views, once there is something to see in them. */
  void     (*add_views) (CroOverview *self);

  /* What was typed into the line of an empty page becomes the first thing. Returns why it does
   * not, as a sentence, owned; or NULL and *made. */
  char    *(*make)     (CroOverview *self,
                        const char  *text,
                        CroRef      *made);
};

/* The texts of the page, in the user's language: what it is called, and of an empty page the
 * sentence, an example of what can be typed, and the button that makes a thing as Ctrl+N does.
 * For init. */
void cro_overview_set_texts (CroOverview *self,
                             const char  *title,
                             const char  *nothing,
                             const char  *example,
                             const char  *button);

typedef struct
{
  guint        number;        /* 1 to 4 */
  const char  *title;         /* in the user's language */
  GtkWidget   *widget;
  /* Another book; NULL: the view asks the bench that it was made with. */
  void       (*set_book) (GtkWidget *widget, CroBook *book);
  /* It came into sight, or figures moved while it is seen; NULL: it follows the book itself. */
  void       (*refresh)  (GtkWidget *widget);
} CroOverviewView;

/* Takes the widget; view is copied. In the order of their numbers. For add_views. */
void cro_overview_add_view  (CroOverview           *self,
                             const CroOverviewView *view);

/* Numbers of the views that overviews have in common. */
enum
{
  CRO_VIEW_COSTS = 1,
  CRO_VIEW_ALLERGENS = 2,
  CRO_VIEW_SERVICE = 3,
  CRO_VIEW_CARDS = 4,
};

/* Opens an overview from another bench, and goes into one of its views. */
void  cro_overview_open     (CroBench    *from,
                             CroRef       overview,
                             guint        number);

/* Shows another view; FALSE: there is none of that number, or nothing to show. */
gboolean cro_overview_show_view (CroOverview *self,
                                 guint        number);

G_END_DECLS
