/* cro-window-private.h: what the files of the window share. */
#pragma once

#include "cro-place-list.h"
#include "cro-welcome.h"
#include "cro-window.h"

struct _CroWindow
{
  AdwApplicationWindow parent_instance;

  AdwToastOverlay *toasts;
  AdwWindowTitle  *title;
  GtkWidget       *date_button;
  GtkCalendar     *calendar;
  GtkWidget       *undo_button;
  GtkWidget       *undo_label;
  GtkWidget       *redo_button;
  GtkWidget       *banner;        /* something that holds for the whole book */
  GtkLabel        *banner_label;
  GtkWidget       *notes;         /* of the demo */
  GtkStack        *stack;
  CroWelcome      *welcome;
  GtkProgressBar  *progress;
  GtkLabel        *doing;
  AdwStatusPage   *trouble;
  GtkWidget       *read_button;
  GtkListBox      *rail;
  GtkWidget       *list_box;
  CroPlaceList    *list;
  GtkStack        *bench;         /* a page for each kind of thing: its child is a CroBench */
  AdwStatusPage   *nothing;

  CroBook         *book;
  char            *path;
  gboolean         is_read_only;
  guint            poll_id;
  guint            pulse_id;
  GCancellable    *work;          /* what a thread does for this window */
  CroPlace         place;
  CroRef           now;           /* what stands on the bench */
  GArray          *before;        /* Visit: where Back leads */
  gboolean         is_moving;     /* rail and list follow, and do not lead */
  gboolean         is_list_shown;
  gint64           undo_change;   /* the newest change when undo and redo were named */
};

/* --- cro-window.c ------------------------------------------------------------------------------- */

/* Shows the book that was opened: its benches, its title, the place where it was left. */
void cro_window_set_book       (CroWindow    *self,
                                CroBook      *book);

/* Where the next line of what stands on the bench is typed. */
void cro_window_focus_next_line (CroWindow   *self);

void cro_window_say            (CroWindow    *self,
                                const char   *text);
void cro_window_fail           (CroWindow    *self,
                                const GError *error);

/* --- cro-window-open.c -------------------------------------------------------------------------- */

void cro_window_install_opening (GtkWidgetClass *widget_class);

/* Begins to look for what other processes do. */
void cro_window_watch           (CroWindow      *self);

/* Remembers what stands on the bench, and where the focus is. */
void cro_window_remember        (CroWindow      *self);

/* --- cro-window-keys.c -------------------------------------------------------------------------- */

void cro_window_install_keys    (GtkWidgetClass *widget_class);
void cro_window_add_keys        (CroWindow      *self);

/* --- cro-window-demo.c -------------------------------------------------------------------------- */

/* The folder of the demo's tables; NULL: it is not there. Owned. */
char *cro_window_dup_demo_folder (void);

/* Shows the demo's notes that nobody has dismissed. */
void  cro_window_show_notes      (CroWindow      *self);
