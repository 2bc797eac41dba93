#include "config.h"

#include "cro-made-of-view.h"

#include <glib/gi18n.h>

#include "cro-card-words.h"
#include "cro-cause.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-file-choice.h"
#include "cro-flow-words.h"
#include "cro-known.h"
#include "cro-landing.h"
#include "cro-room.h"
#include "cro-sold-as.h"
#include "cro-spoken.h"
#include "cro-state.h"
#include "cro-stream-area.h"
#include "cro-stream-file.h"
#include "cro-stream-table.h"
#include "cro-unfinished.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* More lines than that are not seen at once: beside them bands would lead out of sight. */
#define MOST_TIED 24

/* Of a file, in pixels or points. */
#define FILE_WIDTH 760
#define FILE_HEIGHT 430

struct _CroMadeOfView
{
  GtkWidget      parent_instance;

  CroBench      *bench;      /* borrowed */
  GtkWidget     *box;
  GtkWidget     *head;       /* all over the picture */
  GtkWidget     *says;
  GtkWidget     *money;      /* these two are one choice */
  GtkWidget     *weight;
  GtkWidget     *larger;
  GtkWidget     *path;       /* "Whole ▸ 17 others" */
  GtkWidget     *whole;
  GtkWidget     *others;
  GtkWidget     *area;
  GtkWidget     *empty;
  GtkWidget     *chosen;     /* what is said of the chosen band */
  GtkWidget     *note;       /* what comes back and is used again; what bands include */
  GtkWidget     *table;
  guint64       *only;       /* NULL: all of it is shown */
  char          *only_name;
  CroStreamFile  format;     /* of the file that is asked for */
  gboolean       is_large;   /* over the whole bench */
  gboolean       is_table;
  gboolean       is_shown;   /* something of the same thing was */
  CroRef         left;       /* what was shown when a band was opened: Back comes to the same band */
  guint          refresh_id;
};

G_DEFINE_FINAL_TYPE (CroMadeOfView, cro_made_of_view, GTK_TYPE_WIDGET)

static void refresh (GtkWidget *view);

static CroFigures *
figures_of (CroMadeOfView *self)
{
  return cro_book_get_figures (cro_bench_get_book (self->bench));
}

static CroFlowMeasure
measure_of (CroMadeOfView *self)
{
  return gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->weight)) ? CRO_FLOW_WEIGHT
                                                                         : CRO_FLOW_MONEY;
}

static CroPane *
pane_of (CroMadeOfView *self)
{
  return g_object_get_data (G_OBJECT (self->bench), "cro-pane");
}

/* --- Beside the lines ------------------------------------------------------------------------- */

static void
add_end (CroMadeOfView *self,
         GArray        *ends,
         guint64        id,
         guint32        line)
{
  GtkWidget *row = cro_pane_find_row (pane_of (self), line);
  graphene_rect_t place;
  CroStreamEnd end = { .id = id };

  if (row == NULL || !gtk_widget_compute_bounds (row, self->area, &place))
    return;
  end.middle = place.origin.y + place.size.height / 2;
  g_array_append_val (ends, end);
}

/* A disposable of a component has no line here: it stands beside the sum, which counts it. */
static void
add_of_components (CroMadeOfView *self,
                   GArray        *ends,
                   GHashTable    *told)
{
  g_autoptr (CroFlow) flow = cro_flow_new (figures_of (self), cro_bench_get_ref (self->bench));

  for (guint i = 0; i < flow->disposables->len; i++)
    {
      guint32 item = g_array_index (flow->disposables, CroFlowAside, i).item;

      if (g_hash_table_contains (told, GUINT_TO_POINTER (item)))
        continue;
      /* Others stand below the first. */
      add_end (self, ends, cro_flow_stream_apart (item), CRO_NO_SLOT);
      return;
    }
}

/* Disposables flow once, however many lines they have: from the first of these. */
static void
tell_ends (GArray   *ends,
           gpointer  user_data)
{
  CroMadeOfView *self = user_data;
  CroFigures *figures = figures_of (self);
  guint32 slot = cro_bench_get_slot (self->bench);
  g_autoptr (GArray) lines = NULL;
  g_autoptr (GHashTable) told = g_hash_table_new (NULL, NULL);

  if (slot == CRO_NO_SLOT)
    return;
  lines = cro_edit_list_lines (figures, slot);
  for (guint i = 0; i < lines->len; i++)
    {
      guint32 line = g_array_index (lines, guint32, i), item = figures->model->lines.item[line];
      gboolean is_food = !cro_model_item (figures->model, item)->is_disposable;

      if (is_food)
        add_end (self, ends, cro_flow_stream_line (line), line);
      else if (g_hash_table_add (told, GUINT_TO_POINTER (item)))
        add_end (self, ends, cro_flow_stream_apart (item), line);
    }
  if (measure_of (self) == CRO_FLOW_MONEY)
    add_of_components (self, ends, told);
}

static void
tie (GtkWidget *view,
     gboolean   is_tied)
{
  CroMadeOfView *self = CRO_MADE_OF_VIEW (view);

  cro_stream_area_set_ends (CRO_STREAM_AREA (self->area), is_tied ? tell_ends : NULL, self);
}

/* Not over the whole bench, and not of a menu, whose plates stand in a table. */
static void
ask_tie (CroMadeOfView *self,
         gboolean       is_empty)
{
  CroRef thing = cro_bench_get_ref (self->bench);
  g_autoptr (GArray) lines = NULL;
  gboolean may = !self->is_large && !self->is_table && !is_empty && self->only == NULL
                 && thing.kind == CRO_REF_RECIPE;

  if (self->is_large)
    return;
  if (may)
    {
      lines = cro_edit_list_lines (figures_of (self), thing.slot);
      may = lines->len <= MOST_TIED;
    }
  cro_pane_ask_tie (pane_of (self), may ? self->head : NULL, may ? self->area : NULL);
}

/* --- Showing ---------------------------------------------------------------------------------- */

/* Whether the same comes of the same. */
static gboolean
is_equal (CroFigures *a,
          CroRef      of_a,
          CroFigures *b,
          CroRef      of_b)
{
  g_autoptr (CroFlow) x = cro_flow_new (a, of_a);
  g_autoptr (CroFlow) y = cro_flow_new (b, of_b);
  gboolean is_same = x->links->len == y->links->len;

  for (guint i = 0; is_same && i < x->links->len; i++)
    {
      const CroFlowLink *left = &g_array_index (x->links, CroFlowLink, i);
      const CroFlowLink *right = &g_array_index (y->links, CroFlowLink, i);

      is_same = left->money == right->money && left->grams == right->grams;
    }
  return is_same;
}

/* What the book has of it, behind a trial in which something was tried. */
static CroStream *
outline_new (CroMadeOfView *self)
{
  CroBook *book = cro_bench_get_book (self->bench), *tried = cro_book_get_tried (book);
  CroRef thing = cro_bench_get_ref (self->bench);
  CroModel *model = cro_book_get_model (book), *of;
  guint32 slot;

  if (tried == NULL || self->only != NULL)
    return NULL;
  of = cro_book_get_model (tried);
  slot = thing.kind == CRO_REF_MENU
             ? cro_slots_get (&of->menu_slots, cro_model_menu (model, thing.slot)->id)
             : cro_slots_get (&of->plate_slots, cro_model_recipe (model, thing.slot)->id);
  if (slot == CRO_NO_SLOT
      || is_equal (figures_of (self), thing, cro_book_get_figures (tried), CRO_REF (thing.kind, slot)))
    return NULL;
  return cro_flow_stream_new (cro_book_get_figures (tried), CRO_REF (thing.kind, slot),
                              measure_of (self), NULL);
}

static void
show_path (CroMadeOfView *self)
{
  gtk_widget_set_visible (self->path, self->only != NULL);
  gtk_label_set_label (GTK_LABEL (self->others), self->only_name != NULL ? self->only_name : "");
}

static void
show_chosen (CroMadeOfView *self)
{
  g_autofree char *spoken = cro_stream_area_get_chosen (CRO_STREAM_AREA (self->area)) != CRO_STREAM_NOWHERE
                                ? cro_stream_area_dup_spoken (CRO_STREAM_AREA (self->area))
                                : NULL;

  /* Its room is kept: nothing jumps while one walks. */
  gtk_label_set_label (GTK_LABEL (self->chosen), spoken != NULL ? spoken : "");
}

static void
show_stream (CroMadeOfView *self,
             CroFigures    *figures,
             CroRef         thing,
             const char    *says)
{
  CroFlowMeasure measure = measure_of (self);
  CroStream *stream = cro_flow_stream_new (figures, thing, measure, self->only);
  CroStreamTitles titles = {
    .near_title = cro_flow_stream_near (figures->model, thing),
    .far_title = cro_flow_stream_far (),
  };
  g_autofree char *told = NULL;

  /* Translators: what a screen reader says of the picture; %s is the sentence over it. */
  told = g_strdup_printf (_("Made of: %s. Arrow keys walk through it."), says != NULL ? says : "");
  cro_stream_area_set (CRO_STREAM_AREA (self->area), stream, outline_new (self), &titles, told,
                       self->is_shown);
  self->is_shown = TRUE;
}

/* Nothing is missing, and it costs nothing: by-products that carry no cost, and what is free. */
static gboolean
carries_nothing (CroFigures *figures,
                 CroRef      thing)
{
  return thing.kind == CRO_REF_RECIPE
         && cro_known_of_recipe (figures, thing.slot) == CRO_KNOWN_WHOLE
         && cro_landing_total (figures, thing.slot) == 0;
}

/* What is missing of an ingredient, as far as it is a matter of it alone; CRO_NO_CAUSE: nothing. */
static int
cause_of (CroMadeOfView *self,
          guint32        item)
{
  CroFigures *figures = figures_of (self);
  g_autoptr (GArray) causes = cro_causes_of (figures, cro_bench_get_ref (self->bench));

  for (guint i = 0; i < causes->len; i++)
    if (g_array_index (causes, CroCause, i).name == cro_model_item (figures->model, item)->name)
      return (int) g_array_index (causes, CroCause, i).kind;
  return CRO_NO_CAUSE;
}

/* Where there is something, and no money of it. Owned. */
static char *
dup_why_unknown (CroMadeOfView *self)
{
  g_autoptr (GArray) causes = cro_causes_of (figures_of (self), cro_bench_get_ref (self->bench));

  for (guint i = 0; i < causes->len; i++)
    {
      const CroCause *cause = &g_array_index (causes, CroCause, i);
      g_autofree char *words = NULL;

      if (cause->kind != CRO_CAUSE_DENSITY && cause->kind != CRO_CAUSE_PIECE)
        continue;
      words = cro_words_cause (cause);
      /* Translators: %s is one of the things that are missing: "no piece weight for Rock oyster". */
      return g_strdup_printf (_("No cost is known yet: %s. Press Enter on its dashed band."), words);
    }
  return g_strdup (_("No price is known yet. Press Enter on a dashed band to set one."));
}

static void
refresh (GtkWidget *view)
{
  CroMadeOfView *self = CRO_MADE_OF_VIEW (view);
  CroFigures *figures = figures_of (self);
  CroRef thing = cro_bench_get_ref (self->bench);
  CroFlowMeasure measure = measure_of (self);
  g_autofree char *says = cro_words_made_of (figures, thing, measure);
  g_autofree char *note = measure == CRO_FLOW_WEIGHT ? cro_words_comes_back (figures, thing)
                                                     : cro_words_bands_include (figures->model, thing);
  g_autoptr (CroFlow) flow = cro_flow_new (figures, thing);
  gboolean is_empty = flow->nodes->len <= 1 && flow->disposables->len == 0;
  g_autofree char *unknown = says == NULL && measure == CRO_FLOW_MONEY ? dup_why_unknown (self) : NULL;

  gtk_label_set_label (GTK_LABEL (self->says),
                       says != NULL ? says
                       : is_empty   ? (thing.kind == CRO_REF_MENU ? _("Nothing in it yet. Add a plate.")
                                                                  : _("Nothing in it yet. Type a line."))
                       : measure == CRO_FLOW_MONEY && carries_nothing (figures, thing)
                           ? _("All that is in it carries no cost.")
                       : unknown != NULL ? unknown
                                         : _("Nothing of it can be weighed yet."));
  gtk_widget_set_visible (self->area, !is_empty && !self->is_table);
  gtk_widget_set_visible (self->chosen, !is_empty && !self->is_table);
  gtk_widget_set_visible (self->table, self->is_table);
  gtk_label_set_label (GTK_LABEL (self->note), note != NULL ? note : "");
  gtk_widget_set_visible (self->note, note != NULL && !is_empty);
  show_path (self);
  show_stream (self, figures, thing, says);
  show_chosen (self);
  cro_stream_table_fill (self->table, self->is_table ? cro_stream_area_get_stream (CRO_STREAM_AREA (self->area))
                                                     : NULL);
  ask_tie (self, is_empty);
}

static void
forget_others (CroMadeOfView *self)
{
  g_clear_pointer (&self->only, g_free);
  g_clear_pointer (&self->only_name, g_free);
}

static void
show (GtkWidget *view)
{
  CroMadeOfView *self = CRO_MADE_OF_VIEW (view);

  forget_others (self);
  self->is_shown = cro_ref_equal (cro_bench_get_ref (self->bench), self->left);
  self->left = CRO_REF_NOWHERE;
  refresh (view);
}

/* --- Going on --------------------------------------------------------------------------------- */

static void
open_others (CroMadeOfView *self,
             CroStream     *stream,
             guint          place,
             const char    *name)
{
  guint64 *ids = cro_stream_dup_ids (stream, place);
  char *copy = g_strdup (name);

  forget_others (self);
  self->only = ids;
  self->only_name = copy;
  self->is_shown = FALSE;
  refresh (GTK_WIDGET (self));
}

static void
open_place_cb (CroMadeOfView *self,
               guint          number)
{
  CroStream *stream = cro_stream_area_get_stream (CRO_STREAM_AREA (self->area));
  CroStreamPlace place = cro_stream_get_place (stream, number);
  CroRef ref = cro_flow_stream_ref (figures_of (self)->model, place.id);
  CroRef here = cro_bench_get_ref (self->bench);

  if (place.is_others && place.kind == CRO_STREAM_BOUGHT)
    open_others (self, stream, number, place.name);
  else if (ref.kind != CRO_REF_NONE && !cro_ref_equal (ref, here))
    {
      self->left = here;
      cro_bench_open_cure (self->bench, ref,
                           place.is_missing && ref.kind == CRO_REF_ITEM ? cause_of (self, ref.slot) : CRO_NO_CAUSE);
    }
}

static void
whole_cb (CroMadeOfView *self)
{
  forget_others (self);
  self->is_shown = FALSE;
  refresh (GTK_WIDGET (self));
  gtk_widget_grab_focus (self->area);
}

static void
measure_cb (CroMadeOfView *self)
{
  cro_state_set_text ("bench", "made-of", measure_of (self) == CRO_FLOW_WEIGHT ? "weight" : "money");
  forget_others (self);
  self->is_shown = FALSE;
  if (cro_bench_get_slot (self->bench) != CRO_NO_SLOT)
    refresh (GTK_WIDGET (self));
}

static void
table_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CRO_MADE_OF_VIEW (widget)->is_table = !CRO_MADE_OF_VIEW (widget)->is_table;
  refresh (widget);
}

/* --- Larger ----------------------------------------------------------------------------------- */

static gboolean
refresh_later_cb (gpointer user_data)
{
  CroMadeOfView *self = user_data;

  self->refresh_id = 0;
  if (cro_bench_get_slot (self->bench) != CRO_NO_SLOT)
    refresh (GTK_WIDGET (self));
  return G_SOURCE_REMOVE;
}

/* The pane tells the picture in it; this one stands over it. */
static void
changed_cb (CroMadeOfView *self)
{
  cro_bench_defer (self->bench, &self->refresh_id, G_PRIORITY_LOW, refresh_later_cb, self);
}

static gboolean
leave_later_cb (gpointer user_data)
{
  CroBench *bench = user_data;

  cro_bench_set_cover (bench, NULL);
  cro_pane_open (g_object_get_data (G_OBJECT (bench), "cro-pane"), CRO_PICTURE_MADE_OF);
  g_object_unref (bench);
  return G_SOURCE_REMOVE;
}

/* Not under the key that asked for it. */
static void
leave (CroMadeOfView *self)
{
  g_idle_add_full (G_PRIORITY_HIGH, leave_later_cb, g_object_ref (self->bench), NULL);
}

static GtkWidget *view_new (CroBench *bench,
                            gboolean  is_large);

static void
larger_cb (CroMadeOfView *self)
{
  GtkWidget *cover;

  if (self->is_large)
    {
      leave (self);
      return;
    }
  cover = view_new (self->bench, TRUE);
  cro_bench_set_cover (self->bench, cover);
  refresh (cover);
  gtk_widget_grab_focus (CRO_MADE_OF_VIEW (cover)->area);
}

static gboolean
escape_cb (GtkWidget *widget,
           GVariant  *parameter,
           gpointer   user_data)
{
  CroMadeOfView *self = CRO_MADE_OF_VIEW (widget);

  if (self->only != NULL)
    {
      whole_cb (self);
      return TRUE;
    }
  if (!self->is_large)
    return FALSE;
  leave (self);
  return TRUE;
}

/* --- Files ------------------------------------------------------------------------------------ */

static void
write_file (CroMadeOfView *self,
            const char    *path,
            GError       **error)
{
  CroStream *stream = cro_flow_stream_new (figures_of (self), cro_bench_get_ref (self->bench),
                                           measure_of (self), self->only);
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (CroUnfinished) unfinished = cro_unfinished_new (folder, error);
  CroStreamLook look;

  cro_stream_area_get_look (CRO_STREAM_AREA (self->area), &look);
  if (unfinished != NULL
      && cro_stream_write (stream, &look, self->format, cro_unfinished_get_path (unfinished), FILE_WIDTH,
                           MAX (FILE_HEIGHT, cro_stream_least_height (stream, &look)),
                           cro_date_to_seconds (figures_of (self)->date), error))
    cro_unfinished_replace (unfinished, path, error);
  cro_stream_free (stream);
}

static void
file_chosen (gpointer    owner,
             const char *path)
{
  CroMadeOfView *self = owner;
  g_autoptr (GError) error = NULL;

  write_file (self, path, &error);
  if (error != NULL)
    cro_bench_fail (self->bench, error);
  else
    cro_bench_say (self->bench, _("The picture is saved."));
}

static void
save_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroMadeOfView *self = CRO_MADE_OF_VIEW (widget);
  static const char *const endings[] = { "svg", "pdf", "png" };
  const char *name = cro_ref_name (figures_of (self)->model, cro_bench_get_ref (self->bench));
  g_autofree char *file = NULL;
  CroFileChoice choice = { .title = _("Save the Picture"), .action = GTK_FILE_CHOOSER_ACTION_SAVE };

  self->format = (CroStreamFile) CLAMP (g_variant_get_int32 (parameter), 0, 2);
  choice.name = file = g_strdelimit (g_strdup_printf ("%s.%s", name, endings[self->format]), "/", '-');
  cro_file_choice_ask (&choice, GTK_WINDOW (gtk_widget_get_root (widget)), file_chosen, self);
}

static GtkWidget *
menu_button_new (void)
{
  GtkWidget *button = gtk_menu_button_new ();
  g_autoptr (GMenu) menu = g_menu_new ();

  g_menu_append (menu, _("As a _Table"), "made-of.table");
  g_menu_append (menu, _("Save as _SVG…"), "made-of.save(0)");
  g_menu_append (menu, _("Save as _PDF…"), "made-of.save(1)");
  g_menu_append (menu, _("Save as P_NG…"), "made-of.save(2)");
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (button), "view-more-symbolic");
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  gtk_widget_set_tooltip_text (button, _("Table and files"));
  cro_spoken_set (button, _("Table and files"));
  return button;
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_made_of_view_dispose (GObject *object)
{
  CroMadeOfView *self = CRO_MADE_OF_VIEW (object);

  g_clear_handle_id (&self->refresh_id, g_source_remove);
  forget_others (self);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_made_of_view_parent_class)->dispose (object);
}

static void
cro_made_of_view_class_init (CroMadeOfViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_made_of_view_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "made-of.table", NULL, table_cb);
  gtk_widget_class_install_action (widget_class, "made-of.save", "i", save_cb);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
}

static GtkWidget *
measures_new (CroMadeOfView *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  g_autofree char *remembered = cro_state_dup_text ("bench", "made-of");

  self->money = gtk_toggle_button_new_with_label (_("Money"));
  self->weight = gtk_toggle_button_new_with_label (_("Weight"));
  gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (self->weight), GTK_TOGGLE_BUTTON (self->money));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (g_strcmp0 (remembered, "weight") == 0 ? self->weight
                                                                                         : self->money),
                                TRUE);
  gtk_widget_add_css_class (box, "linked");
  gtk_box_append (GTK_BOX (box), self->money);
  gtk_box_append (GTK_BOX (box), self->weight);
  g_signal_connect_object (self->weight, "toggled", G_CALLBACK (measure_cb), self, G_CONNECT_SWAPPED);
  return box;
}

static GtkWidget *
path_new (CroMadeOfView *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  self->whole = gtk_button_new_with_label (_("Whole"));
  self->others = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->whole, "flat");
  g_signal_connect_object (self->whole, "clicked", G_CALLBACK (whole_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), self->whole);
  gtk_box_append (GTK_BOX (box), gtk_label_new ("▸"));
  gtk_box_append (GTK_BOX (box), self->others);
  return box;
}

static void
cro_made_of_view_init (CroMadeOfView *self)
{
  GtkWidget *row = cro_wrap_new (6, 6);
  int least;

  self->left = CRO_REF_NOWHERE;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->says = cro_text_new (NULL, "heading");
  cro_wrap_append (CRO_WRAP (row), measures_new (self));
  self->larger = gtk_button_new_with_label (_("Larger"));
  g_signal_connect_object (self->larger, "clicked", G_CALLBACK (larger_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (row), self->larger);
  cro_wrap_append (CRO_WRAP (row), menu_button_new ());
  gtk_widget_add_css_class (row, "switch");
  self->path = path_new (self);
  self->area = cro_stream_area_new ();
  gtk_widget_set_vexpand (self->area, TRUE);
  gtk_widget_add_css_class (self->area, CRO_PANE_FIRST);
  g_signal_connect_object (self->area, "open-place", G_CALLBACK (open_place_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->area, "larger", G_CALLBACK (larger_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->area, "chosen", G_CALLBACK (show_chosen), self, G_CONNECT_SWAPPED);
  self->chosen = cro_text_new (NULL, "caption");
  self->note = cro_text_new (NULL, "caption");
  self->table = cro_stream_table_new ();
  self->head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  /* Lines of one sentence or two: what stands beside the picture moves for neither. */
  gtk_box_append (GTK_BOX (self->head), cro_room_new (self->says, cro_text_new ("\n", "heading")));
  gtk_box_append (GTK_BOX (self->head), row);
  gtk_box_append (GTK_BOX (self->head), self->path);
  gtk_box_append (GTK_BOX (self->box), self->head);
  gtk_box_append (GTK_BOX (self->box), self->area);
  gtk_box_append (GTK_BOX (self->box), self->table);
  gtk_box_append (GTK_BOX (self->box), self->chosen);
  gtk_box_append (GTK_BOX (self->box), self->note);
  /* The first thing that is drawn moves no split: its width is kept before. */
  gtk_widget_measure (self->area, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_set_size_request (self->box, least, -1);
}

static GtkWidget *
view_new (CroBench *bench,
          gboolean  is_large)
{
  CroMadeOfView *self = g_object_new (CRO_TYPE_MADE_OF_VIEW, NULL);

  self->bench = bench;
  self->is_large = is_large;
  if (is_large)
    {
      gtk_button_set_label (GTK_BUTTON (self->larger), _("Back to the Lines"));
      gtk_widget_add_css_class (GTK_WIDGET (self), "bench");
      g_signal_connect_object (cro_bench_get_book (bench), "changed", G_CALLBACK (changed_cb), self,
                               G_CONNECT_SWAPPED);
    }
  return GTK_WIDGET (self);
}

static GtkWidget *
create (CroBench *bench)
{
  return view_new (bench, FALSE);
}

const CroPicture cro_made_of_picture = { create, show, refresh, tie };
