/* cro-stream.h: what something is made of, drawn as bands whose width is money or weight.
 *
 * Read from the near end to the far one as it is taken apart: its components in their own order,
 * the steps behind them, and in the last column what was bought. The band of each of the five
 * dearest purchases keeps one colour and one hatching through all steps; the rest is grey.
 *
 * The layout is layered (Sugiyama, Tagawa, Toda 1981, "Methods for visual understanding of
 * hierarchical system structures"): columns by the longest way from a component, long bands cut at
 * each column, order within a column by barycentres and exchanges of neighbours, components fixed in
 * theirs; then each column is placed by isotonic regression (Barlow, Bartholomew, Bremner, Brunk
 * 1972): as near to what it is tied to as order and distances allow.
 *
 * Units      Widths are the caller's (money, grams) and not negative; places in the units of the
 *            cairo context, from the upper left corner of the picture.
 * Ownership  A stream copies what it is told. Texts that it gives are its own, until it is arranged
 *            anew or freed.
 * Threads    Any one at a time. */
#pragma once

#include <glib.h>
#include <pango/pangocairo.h>

G_BEGIN_DECLS

typedef struct _CroStream CroStream;

typedef enum
{
  CRO_STREAM_COMPONENT,   /* at the near end; nothing is nearer */
  CRO_STREAM_STEP,
  CRO_STREAM_BOUGHT,      /* at the far end; nothing is farther */
  CRO_STREAM_LEAVING,     /* falls away below: lost, or taken by others; only farther than none */
} CroStreamKind;

/* The dearest purchases have ranks from 0 on; from this one on they are one grey rest. */
#define CRO_STREAM_N_RANKS 5

typedef struct
{
  CroStreamKind kind;
  guint64       id;          /* of the same thing in two streams the same */
  const char   *name;
  const char   *figure;      /* as it is shown; NULL: nothing is */
  guint         rank;        /* of what was bought */
  gboolean      is_missing;  /* what it costs is not known: a dashed stub */
  gboolean      is_apart;    /* counts in none of the others, and is shown below them: not food */
  gboolean      is_named;    /* of what leaves: however thin it is, as the figures add up with it alone */
} CroStreamThing;

/* What is written where several stand for one: "17 others" and "0.09". Texts are owned by the stream. */
typedef void (*CroStreamOthers) (const guint64  *ids,
                                 guint           n,
                                 char          **name,
                                 char          **figure,
                                 gpointer        user_data);

/* What the scale bar stands for: the least round width of least or more, and its text. */
typedef char *(*CroStreamScale) (double    least,
                                 double   *width,
                                 gpointer  user_data);

/* How it is drawn. */
typedef enum
{
  CRO_STREAM_LIGHT,
  CRO_STREAM_DARK,
  CRO_STREAM_LIGHT_CONTRAST,
  CRO_STREAM_DARK_CONTRAST,
  CRO_STREAM_PRINT,          /* black on white, told apart by hatching and grey alone */
} CroStreamPalette;

/* Where a component's end stands, by its id: the height of its middle. */
typedef struct
{
  guint64       id;
  double        middle;
} CroStreamEnd;

typedef struct
{
  CroStreamPalette            palette;
  const PangoFontDescription *font;             /* of an absolute size, in units of the picture */
  gboolean                    is_mirrored;       /* read from right to left */
  guint                       most_components;   /* the rest is one; 0: as many as there are */
  guint                       most_bought;       /* 12 at most are told apart; 0: as many as fit */
  const char                 *near_title;        /* over the ends; NULL: none */
  const char                 *far_title;
  const CroStreamEnd         *ends;              /* of all that has its name beside the picture, from above; */
  guint                       n_ends;            /* what is not among them stands below. 0: free */
  double                      most_scale;        /* units of the picture for one of width; 0: what fits */
} CroStreamLook;

/* Which part of a stream is meant: a band's end or a step, by its number; none. */
#define CRO_STREAM_NOWHERE G_MAXUINT

/* Letters on paper, of a height in units of the picture. Freed by cro_stream_font_free (). */
PangoFontDescription *cro_stream_font_new (double height);
void       cro_stream_font_free     (PangoFontDescription  *font);

CroStream *cro_stream_new           (void);
void       cro_stream_free          (CroStream             *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroStream, cro_stream_free)

/* Returns its number. Components stand in the order in which they are added. */
guint      cro_stream_add           (CroStream             *self,
                                     const CroStreamThing  *thing);

/* The nearer takes of the farther; a width of 0 is a dotted hairline. Of what leaves, nearer is what it
 * falls away from and farther what leaves. No circles. */
void       cro_stream_link          (CroStream             *self,
                                     guint                  nearer,
                                     guint                  farther,
                                     double                 width);

/* scale: NULL: no bar. */
void       cro_stream_set_words     (CroStream             *self,
                                     CroStreamOthers        others,
                                     CroStreamScale         scale,
                                     gpointer               user_data,
                                     GDestroyNotify         free_data);

/* The height below which names would stand too close, for a font and as many components as look says. */
double     cro_stream_least_height  (CroStream             *self,
                                     const CroStreamLook   *look);

/* Lays it out for a size; again after a change of any. */
void       cro_stream_arrange       (CroStream             *self,
                                     const CroStreamLook   *look,
                                     double                 width,
                                     double                 height);

/* Draws what was arranged, at the context's origin. chosen: what it is tied to is drawn full, the rest
 * dim; CRO_STREAM_NOWHERE: nothing is chosen. */
void       cro_stream_draw          (CroStream             *self,
                                     cairo_t               *cr,
                                     const CroStreamLook   *look,
                                     guint                  chosen);

/* Arranges and draws into a rectangle, as on paper. */
void       cro_stream_draw_in       (CroStream             *self,
                                     cairo_t               *cr,
                                     const CroStreamLook   *look,
                                     double                 x,
                                     double                 y,
                                     double                 width,
                                     double                 height);

/* The outline of it alone, behind another of the same size: what was, behind a trial. */
void       cro_stream_draw_outline  (CroStream             *self,
                                     cairo_t               *cr,
                                     const CroStreamLook   *look);

/* Moves what both hold, part of the way (0: as in from; 1: as it is arranged). Both are arranged. */
void       cro_stream_move          (CroStream             *self,
                                     CroStream             *from,
                                     double                 part);

/* Units of the picture for one of width, as it is arranged: two are compared at one scale. */
double     cro_stream_get_scale     (CroStream             *self);

/* Pairs of bands that cross, as it is arranged. */
guint64    cro_stream_count_crossings (CroStream           *self);

/* --- Walking through what was arranged: numbers below cro_stream_n_places ------------------- */

typedef enum
{
  CRO_STREAM_UP,
  CRO_STREAM_DOWN,
  CRO_STREAM_NEARER,
  CRO_STREAM_FARTHER,
} CroStreamWay;

typedef struct
{
  CroStreamKind kind;
  guint64       id;          /* of what stands for one; 0 of others */
  const char   *name;
  const char   *figure;
  gboolean      is_others;
  gboolean      is_missing;
  guint         rank;        /* CRO_STREAM_N_RANKS: none */
  double        x, y, width, height;
} CroStreamPlace;

guint          cro_stream_n_places  (CroStream             *self);
CroStreamPlace cro_stream_get_place (CroStream             *self,
                                     guint                  place);

/* The ids that a place stands for, 0 at the end; owned by the caller. */
guint64       *cro_stream_dup_ids   (CroStream             *self,
                                     guint                  place);

/* The place of an id, or of its nearest that is shown; CRO_STREAM_NOWHERE. */
guint          cro_stream_find      (CroStream             *self,
                                     guint64                id);

/* What stands at a point. */
guint          cro_stream_at        (CroStream             *self,
                                     double                 x,
                                     double                 y);

/* The next one that way: along its column, or along its widest band; the same where there is none. */
guint          cro_stream_step      (CroStream             *self,
                                     guint                  place,
                                     CroStreamWay           way);

/* The next one, after a place and around, whose name begins with a letter, in any case. */
guint          cro_stream_seek      (CroStream             *self,
                                     guint                  place,
                                     gunichar               letter);

/* Names of single steps that stand on the way of a place as notches, nearest first; NULL-terminated,
 * owned by the caller; the texts by the stream. */
GPtrArray     *cro_stream_notches   (CroStream             *self,
                                     guint                  place);

G_END_DECLS
