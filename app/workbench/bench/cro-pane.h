/* cro-pane.h: pictures of what stands on a bench, one at a time, chosen by one switch. Where there is room
 * for two, what the thing is made of stays beside the lines, and the switch chooses among the others.
 *
 * A picture is a view that a bench lends: made when it is first opened, told when another thing
 * stands on the bench, and told once, after the frame, when figures moved: a key that is typed waits
 * for none. What is not in sight is told of nothing until it is.
 *
 * Which one is open, or none, is remembered for the place, not for the thing. Escape in a picture
 * returns to the cell one came from; where the picture stands in the place of the lines, they come
 * back. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

/* In the order of the switch and of its keys, Ctrl+1 first. */
typedef enum
{
  CRO_PICTURE_MADE_OF,
  CRO_PICTURE_MOVERS,
  CRO_PICTURE_PRICE,
  CRO_PICTURE_COVERS,
  CRO_N_PICTURES,
} CroPictureId;

typedef struct
{
  GtkWidget *(*create)  (CroBench  *bench);
  void       (*show)    (GtkWidget *view);  /* another thing stands on the bench */
  void       (*refresh) (GtkWidget *view);  /* figures moved */
  /* It is beside the rows of the lines now, or no longer; only for who asks (cro_pane_ask_tie). */
  void       (*tie)     (GtkWidget *view,
                         gboolean   is_tied);
} CroPicture;

/* Rows that a picture can be beside. */
typedef struct
{
  /* What stands at the height of a line; NULL: it has no row yet. Borrowed. */
  GtkWidget *(*find)       (GtkWidget *rows,
                            guint32    line);
  /* Whether one is: what the rows show of the same gives it the room. */
  void       (*set_beside) (GtkWidget *rows,
                            gboolean   is_beside);
} CroPaneRows;

/* Style class of what in a picture one comes to, where that is not what stands first. */
#define CRO_PANE_FIRST "comes-first"

#define CRO_TYPE_PANE (cro_pane_get_type ())
G_DECLARE_FINAL_TYPE (CroPane, cro_pane, CRO, PANE, GtkWidget)

/* The page of a bench: fields, what is worked on, and what else belongs to it; rest may be NULL.
 * pictures[CRO_N_PICTURES] are static; NULL: the bench has none such. */
GtkWidget *cro_pane_new          (CroBench                *bench,
                                  const CroPicture *const *pictures,
                                  GtkWidget               *fields,
                                  GtkWidget               *body,
                                  GtkWidget               *rest);

/* See cro_pane_box_set_least_body. */
void       cro_pane_set_least_body (CroPane              *self,
                                    int                   chars);

/* See cro_pane_box_set_most_picture. */
void       cro_pane_set_most_picture (CroPane            *self,
                                      int                 chars);

/* The rows of the lines, part of the body; borrowed. */
void       cro_pane_set_rows     (CroPane                 *self,
                                  GtkWidget               *rows,
                                  const CroPaneRows       *of_rows);

/* What stands at the height of a line, or with CRO_NO_SLOT of their sum; NULL: nothing does. Borrowed. */
GtkWidget *cro_pane_find_row     (CroPane                 *self,
                                  guint32                  line);

/* What the thing is made of asks to be beside the rows: head stands in it over what is drawn there; it is
 * told once it is. NULL: it asks no longer. Both borrowed. */
void       cro_pane_ask_tie      (CroPane                 *self,
                                  GtkWidget               *head,
                                  GtkWidget               *drawn);

/* For show and refresh of the bench. */
void       cro_pane_show         (CroPane                 *self);
void       cro_pane_refresh      (CroPane                 *self);

/* Opens a picture, if the bench has it, and goes there; CRO_N_PICTURES closes. */
void       cro_pane_open         (CroPane                 *self,
                                  CroPictureId             id);

/* The action "bench.picture" of a bench with a pane: the number of a picture, as above. */
void       cro_pane_install      (GtkWidgetClass          *bench_class);

G_END_DECLS
