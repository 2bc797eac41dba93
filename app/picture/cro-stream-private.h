/* cro-stream-private.h: what the parts of a stream share: what was told, what is left of it where
 * several stand for one, and the layout of that. */
#pragma once

#include "cro-stream.h"

/* The ranks, and the rest. */
#define N_PARTS (CRO_STREAM_N_RANKS + 1)

/* Of a tie or an end that is not there. */
#define NONE G_MAXUINT

/* The id of what stands for others at the near and at the far end. */
#define ID_NEAR_OTHERS (G_MAXUINT64 - 1)
#define ID_FAR_OTHERS G_MAXUINT64

/* As it was told. */
typedef struct
{
  CroStreamKind kind;
  guint64       id;
  char         *name;
  char         *figure;
  guint         rank;
  gboolean      is_missing;
  gboolean      is_apart;
  gboolean      is_named;
  guint         node;        /* in which it is shown */
} Thing;

typedef struct
{
  guint         nearer;
  guint         farther;
  double        width;
} Tie;

/* What is shown as one, with a bar of its own. Places of the public header are nodes. */
typedef struct
{
  CroStreamKind kind;
  guint64       id;
  const char   *name;        /* of its thing, or of what is owned beside it */
  const char   *figure;
  gboolean      is_others;
  gboolean      is_missing;
  gboolean      is_apart;
  gboolean      is_named;
  guint         rank;
  double        near_width;  /* of all bands at its near side, what falls away there included */
  double        far_width;
  double        part[N_PARTS]; /* of its width what each purchase makes; they sum to 1, or are 0 */
  double        end;         /* where the middle of a component is told to stand; NAN: nowhere */
} Node;

/* What goes from one node to another, as one band. */
typedef struct
{
  guint         nearer;      /* nodes */
  guint         farther;
  double        width;
  gboolean      is_missing;
  gboolean      is_apart;
  guint         first_segment; /* its pieces, nearest first */
  guint         n_segments;
} Band;

/* A step that became a notch: of a band, or of a node that it was joined with. */
typedef struct
{
  guint         thing;
  guint         band;        /* or NONE */
  guint         node;        /* or NONE */
} Notch;

/* What stands in a column: a node, or where a band passes. Those of nodes come first. */
typedef struct
{
  guint         column;
  guint         rank;        /* in its column, from above */
  double        y;
  double        height;
  double        value;       /* of barycentres */
} Spot;

/* A piece of a band between two columns. */
typedef struct
{
  guint         nearer;      /* spots */
  guint         farther;
  guint         band;
  double        width;
  double        y_near;      /* upper edge at either end */
  double        y_far;
} Segment;

struct _CroStream
{
  GArray          *things;   /* Thing */
  GArray          *ties;     /* Tie */
  CroStreamOthers  others;
  CroStreamScale   say_scale;
  gpointer         words_data;
  GDestroyNotify   free_words;

  /* Reduced. */
  GArray          *nodes;    /* Node */
  GArray          *bands;    /* Band; those to what leaves last */
  GArray          *notches;  /* Notch */
  GPtrArray       *texts;    /* owned ones of nodes */
  guint            n_bands;  /* without those to what leaves */

  /* Laid out. */
  GArray          *spots;    /* Spot */
  GArray          *segments; /* Segment */
  guint            n_columns;
  guint           *first;    /* [n_columns + 1] into order */
  guint           *order;    /* spots by column, from above */
  guint           *far_at;   /* [n_spots + 1] segments at the far side of each spot, into far */
  guint           *far;
  guint           *near_at;  /* likewise at the near side */
  guint           *near;

  double           width;
  double           height;
  double           top;      /* of the bands */
  double           bottom;
  double           scale;    /* units of the picture for one of width */
  char            *scale_text;   /* of the bar that shows that, and how wide it is; NULL: none */
  double           scale_width;
  double           near_x;   /* of the first column's bars, not mirrored */
  double           far_x;    /* of the last column's */
  double           size;     /* height of a line of text */
  gboolean         is_mirrored;
  gboolean         is_tied;  /* components stand where they are told to */

  /* Where all is that moves now: as it was laid out; NULL: nothing moves. */
  Spot            *settled_spots;
  Segment         *settled_segments;
  double          *settled_widths;   /* of bands */
};

static inline Thing *
thing_at (const CroStream *self,
          guint            i)
{
  return &g_array_index (self->things, Thing, i);
}

static inline Node *
node_at (const CroStream *self,
         guint            i)
{
  return &g_array_index (self->nodes, Node, i);
}

static inline Band *
band_at (const CroStream *self,
         guint            i)
{
  return &g_array_index (self->bands, Band, i);
}

static inline Spot *
spot_at (const CroStream *self,
         guint            i)
{
  return &g_array_index (self->spots, Spot, i);
}

static inline Segment *
segment_at (const CroStream *self,
            guint            i)
{
  return &g_array_index (self->segments, Segment, i);
}

/* What several stand for: which of what was told is shown, and single steps become notches. room: how
 * many names either end has place for. */
void   cro_stream_reduce      (CroStream           *self,
                               const CroStreamLook *look,
                               guint                room);

/* Columns, pieces of bands, and the order in each column. */
void   cro_stream_order       (CroStream           *self);

/* What cro_stream_order begins with: as components stand and what they lead to, without looking at
 * crossings. shortened: a step stands as far from the plate as what it takes lets it. */
void   cro_stream_line_up     (CroStream           *self,
                               gboolean             shortened);

/* Places spots between top and bottom, and the ends of all pieces along them. */
void   cro_stream_place      (CroStream           *self,
                              double               name_gap,
                              double               most_scale);

/* It is laid out anew: nothing moves. */
void   cro_stream_settle      (CroStream           *self);

/* The place of a column's bars, before mirroring. */
double cro_stream_column_x    (const CroStream     *self,
                               guint                column);

#define CRO_STREAM_BAR 6.0
